"""The builder's decisions as one document, and the way between it and JSON.

The fields of each chapter are declared once, in the engineering.  From these the models
that check a design file are derived here, and the published JSON Schema from the models.
"""

from __future__ import annotations

import dataclasses
import typing
from collections.abc import Mapping
from dataclasses import MISSING, dataclass, field
from typing import Annotated, Any, Literal, Self

import pydantic
from pydantic import BaseModel, Field

from ..axlebox import Axlebox
from ..bench.decisions import Bench
from ..beside import OtherGear
from ..boiler import BoilerSeat
from ..clearance import Clearance
from ..curving import Curving
from ..cylinders import Cylinders
from ..draught import Draughting
from ..erection import Erection
from ..firing import Firing
from ..frames import Frames
from ..gauging import Gauging
from ..motion import ValveMotion
from ..nozzle import Nozzle
from ..pivots import Pivots
from ..reversing import Reversing
from ..rods import Rods
from ..running import Running
from ..scale import Scale
from ..sizes import Size, SizeError, check_size, sizes_of
from ..springing import Springing
from ..steam.decisions import SteamSide
from ..threads import Threads
from ..tolerances import Tolerances
from ..valve_setting import AirTest
from ..weights import Weights
from ..wheels import Wheels
from ..workshop.eccentrics import Eccentrics
from ..workshop.fitting import Fitting
from ..workshop.machines import Machines
from ..workshop.patterns import Patterns
from ..workshop.screwcutting import Screwcutting
from ..workshop.slots import Slots
from .models import Model, Text, hint_of, model_of, present
from .typed import Angle, Length, LengthUnit, NotUnderstood, ScaleRatio, number
from .words import in_words

FORMAT = "weighshaft-design"
VERSION = 1
CHAPTERS = (
    "scale", "cylinders", "motion", "beside", "reversing", "pivots", "tolerances", "axlebox",
    "clearance", "valve_setting", "wheels", "threads", "nozzle",
    "frames", "boiler", "gauging", "weights", "springing", "curving", "rods", "erection",
    "machines", "slots", "patterns", "eccentrics", "screwcutting", "fitting",
    "steam", "firing", "bench", "draught", "running",
)  # fmt: skip


class DesignRefused(ValueError):
    """A design that cannot be used; the text names the place and what is wrong with it."""


@dataclass(frozen=True, kw_only=True)
class Design:
    """All decisions of one engine, chapter by chapter, with the builder's notes.

    Parameters
    ----------
    name : what the engine is called.
    scale, cylinders, motion, wheels, threads, nozzle : the chapters that make an engine.
    beside to valve_setting : what follows from the motion; each begins with what is usual.
    frames to erection : the whole engine in its frames; likewise.
    machines to fitting : what the builder works with, and set-ups at the machine.
    steam : the running condition that is looked at, and what is assumed of the steam.
    firing : fire, boiler and feed.
    bench : what was measured of the finished engine, and the last fit to it.
    draught : what the blast draws, and what the fire wants.
    running : the train, the line and the driving.
    notes : why a decision was taken, by path such as "cylinders.bore".
    fixed : paths of sizes that a part already bought has settled.
    """

    name: str
    scale: Scale
    cylinders: Cylinders
    motion: ValveMotion
    wheels: Wheels
    threads: Threads
    nozzle: Nozzle
    beside: OtherGear = field(default_factory=OtherGear)
    reversing: Reversing = field(default_factory=Reversing)
    pivots: Pivots = field(default_factory=Pivots)
    tolerances: Tolerances = field(default_factory=Tolerances)
    axlebox: Axlebox = field(default_factory=Axlebox)
    clearance: Clearance = field(default_factory=Clearance)
    valve_setting: AirTest = field(default_factory=AirTest)
    frames: Frames = field(default_factory=Frames)
    boiler: BoilerSeat = field(default_factory=BoilerSeat)
    gauging: Gauging = field(default_factory=Gauging)
    weights: Weights = field(default_factory=Weights)
    springing: Springing = field(default_factory=Springing)
    curving: Curving = field(default_factory=Curving)
    rods: Rods = field(default_factory=Rods)
    erection: Erection = field(default_factory=Erection)
    machines: Machines = field(default_factory=Machines)
    slots: Slots = field(default_factory=Slots)
    patterns: Patterns = field(default_factory=Patterns)
    eccentrics: Eccentrics = field(default_factory=Eccentrics)
    screwcutting: Screwcutting = field(default_factory=Screwcutting)
    fitting: Fitting = field(default_factory=Fitting)
    steam: SteamSide = field(default_factory=SteamSide)
    firing: Firing = field(default_factory=Firing)
    bench: Bench = field(default_factory=Bench)
    draught: Draughting = field(default_factory=Draughting)
    running: Running = field(default_factory=Running)
    notes: Mapping[str, str] = field(default_factory=dict, hash=False)
    fixed: tuple[str, ...] = ()

    def changed(self, changes: Mapping[str, Any], unit: LengthUnit = "mm") -> Self:
        """Return the design with the given decisions, each a path and a value as typed.

        Raises
        ------
        DesignRefused : in the builder's words, naming the field.
        """
        design: Any = self
        try:
            for path, value in changes.items():
                design = _with(design, path.split("."), value, unit)
        except (NotUnderstood, SizeError) as refused:
            raise DesignRefused(str(refused)) from refused
        return typing.cast(Self, design)

    def at(self, path: str) -> Any:
        """Return the decision at a path such as "motion.gear.advance"."""
        place: Any = self
        for step in path.split("."):
            place = _step(place, step)
        return place


def described(design: Design, path: str) -> Size:
    """Return label, unit and limits of the decision at `path`."""
    steps = path.split(".")
    while steps[-1].isdigit():
        steps.pop()
    return sizes_of(type(design.at(".".join(steps[:-1]))))[steps[-1]]


def _step(place: Any, step: str) -> Any:
    try:
        if isinstance(place, tuple):
            return place[int(step)]
        if dataclasses.is_dataclass(place) and step in {f.name for f in dataclasses.fields(place)}:
            return getattr(place, step)
    except (IndexError, ValueError):
        pass
    raise DesignRefused(f"There is no “{step}” in this design.")


def _with(place: Any, steps: list[str], value: Any, unit: LengthUnit) -> Any:
    step, rest = steps[0], steps[1:]
    inner = _step(place, step)
    if isinstance(place, tuple):
        made = _with(inner, rest, value, unit) if rest else value
        return (*place[: int(step)], made, *place[int(step) + 1 :])
    about = sizes_of(type(place)).get(step)
    made = _with(inner, rest, value, unit) if rest else value
    groups = made if isinstance(made, tuple) else (made,)
    if about is not None and not any(map(dataclasses.is_dataclass, groups)):
        made = typed_value(about, made, unit, hint_of(type(place), step))
        check_size(step, about, made)
    return dataclasses.replace(place, **{step: made})


def typed_value(about: Size, value: Any, unit: LengthUnit = "mm", hint: Any = float) -> Any:
    """Return what was typed for a field as the value that the engineering takes.

    Raises
    ------
    NotUnderstood : when the text does not mean such a value.
    """
    if isinstance(value, (tuple, list)):
        (inner, *_) = typing.get_args(present(hint)) or (float,)
        return tuple(typed_value(about, one, unit, inner) for one in value)
    empty = value is None or (isinstance(value, str) and not value.strip())
    if empty and present(hint) is not hint:
        return None
    if about.unit in ("text", "choice"):
        return str(value or "")
    if about.unit == "yes/no":
        return bool(value)
    if empty:
        raise NotUnderstood(f"{about.label}: a value is needed here.")
    if about.unit == "mm":
        return Length(value, unit)
    if about.unit == "deg":
        return Angle(value)
    if about.unit == "scale":
        return ScaleRatio(value)
    told = number(value, about.unit, unit) if isinstance(value, str) else value
    if present(hint) is int:
        if told != int(told):
            raise NotUnderstood(f"{about.label}: a whole number is needed, not {told:g}.")
        return int(told)
    return float(told)


# --- the way between a design and JSON -------------------------------------------------------


def _document_model() -> type[BaseModel]:
    # a chapter that a design does not need is not asked of a file written before it
    needed = {one.name for one in dataclasses.fields(Design) if one.default_factory is MISSING}
    models = {name: model_of(hint_of(Design, name)) for name in CHAPTERS}
    hints = {
        name: (model, ... if name in needed else Field(default_factory=model))
        for name, model in models.items()
    }
    made: type[BaseModel] = pydantic.create_model(
        "Design",
        __base__=Model,
        format=(Literal[FORMAT], ...),
        version=(Literal[VERSION], ...),
        name=(Annotated[str, Field(min_length=1, max_length=120)], ...),
        **hints,
        notes=(
            dict[Annotated[str, Field(max_length=120)], Text],
            Field(default_factory=dict, max_length=500),
        ),
        fixed=(list[Annotated[str, Field(max_length=120)]], Field(default=[], max_length=500)),
    )  # type: ignore[call-overload]
    return made


DOCUMENT = _document_model()


def from_document(document: Any) -> Design:
    """Return the design that a JSON document of the present version holds.

    Raises
    ------
    DesignRefused : naming the place and what is wrong there.
    """
    try:
        checked = DOCUMENT.model_validate(document)
    except pydantic.ValidationError as errors:
        raise DesignRefused(in_words(errors)) from errors
    parts = {
        name: made_of(hint_of(Design, name), getattr(checked, name), name) for name in CHAPTERS
    }
    raw = checked.model_dump(include={"name", "notes", "fixed"})
    design = Design(name=raw["name"], notes=raw["notes"], fixed=tuple(raw["fixed"]), **parts)
    for path in (*design.notes, *design.fixed):
        design.at(path)  # refuses a note or a mark on a decision that does not exist
    return design


def made_of(kind: Any, model: BaseModel, place: str) -> Any:
    """Return a group of decisions from the model that has checked it.

    Parameters
    ----------
    kind : its dataclass.
    place : where it stands in the file, for the words of a refusal.

    Raises
    ------
    DesignRefused, or SizeError as such : naming the place and what is wrong there.
    """
    values = {}
    for one in dataclasses.fields(kind):
        value, path = getattr(model, one.name), f"{place}.{one.name}"
        values[one.name] = _value(hint_of(kind, one.name), value, path)
    try:
        return kind(**values)
    except SizeError as refused:
        raise DesignRefused(f"{place}.{refused.field}: {refused}") from refused
    except ValueError as refused:
        raise DesignRefused(f"{place}: {refused}") from refused


def _value(hint: Any, value: Any, place: str) -> Any:
    if isinstance(value, BaseModel):
        kinds = [k for k in typing.get_args(hint) or (hint,) if dataclasses.is_dataclass(k)]
        (kind,) = [k for k in kinds if model_of(typing.cast(type, k)) is type(value)]
        return made_of(kind, value, place)
    if isinstance(value, (list, tuple)):
        (inner, *_) = typing.get_args(hint)
        return tuple(_value(inner, one, f"{place}.{i}") for i, one in enumerate(value))
    return value


def to_document(design: Design) -> dict[str, Any]:
    """Return the design as a JSON document, sizes spelt as they were typed."""
    chapters = {name: plain(getattr(design, name)) for name in CHAPTERS}
    return {
        "format": FORMAT,
        "version": VERSION,
        "name": design.name,
        **chapters,
        "notes": dict(design.notes),
        "fixed": list(design.fixed),
    }


def plain(value: Any) -> Any:
    """Return decisions as JSON holds them, sizes spelt as they were typed."""
    if dataclasses.is_dataclass(value):
        kind = {"kind": value.kind} if hasattr(value, "kind") else {}
        fields = {f.name: plain(getattr(value, f.name)) for f in dataclasses.fields(value)}
        return {**kind, **{name: one for name, one in fields.items() if one is not None}}
    if isinstance(value, tuple):
        return [plain(one) for one in value]
    if isinstance(value, (Length, Angle, ScaleRatio)):
        return value.typed if value.typed is not None else float(value)
    return value


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema of a design file, published with the package."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **DOCUMENT.model_json_schema(),
    }
