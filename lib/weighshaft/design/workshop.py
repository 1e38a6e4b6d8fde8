"""The workshop file: what a builder owns, kept apart from any design and taken for all of them."""

from __future__ import annotations

import dataclasses
import os
import sys
from dataclasses import dataclass, field
from pathlib import Path
from typing import Annotated, Any, Literal

import pydantic
from pydantic import BaseModel, Field

from ..threads.decisions import Rack as Drills
from ..workshop.machines import Machines
from .document import Design, DesignRefused, made_of, plain
from .file import parsed, read_with, spelt_out, write_data
from .migration import Step, migrate
from .models import Model, model_of
from .words import in_words

FORMAT = "weighshaft-workshop"
VERSION = 1
SUFFIX = ".workshop.json"
STEPS: dict[int, Step] = {}
"""The step that leads away from each earlier version of the file."""
_WHAT = "workshop"
_IN_DESIGN = ("machines", "threads.rack")
"""Where a design keeps what a workshop holds."""


@dataclass(frozen=True, kw_only=True)
class Workshop:
    """What a builder owns.

    Parameters
    ----------
    name : what the workshop is called.
    drills : sets and single drills.
    machines : machines, tools, plates, cutters and metal; as the chapter of a design has them.
    """

    name: str = "My workshop"
    drills: Drills = field(default_factory=Drills)
    machines: Machines = field(default_factory=Machines)


def _document_model() -> type[BaseModel]:
    fields: dict[str, Any] = {
        "format": (Literal[FORMAT], ...),
        "version": (Literal[VERSION], ...),
        "name": (Annotated[str, Field(min_length=1, max_length=120)], Workshop.name),
        "drills": (model_of(Drills), Field(default_factory=model_of(Drills))),
        "machines": (model_of(Machines), Field(default_factory=model_of(Machines))),
    }
    made: type[BaseModel] = pydantic.create_model("Workshop", __base__=Model, **fields)
    return made


DOCUMENT = _document_model()


def from_document(document: Any) -> Workshop:
    """Return the workshop that a JSON document of the present version holds.

    Raises
    ------
    DesignRefused : naming the place and what is wrong there.
    """
    try:
        checked: Any = DOCUMENT.model_validate(document)
    except pydantic.ValidationError as errors:
        raise DesignRefused(in_words(errors, _WHAT)) from errors
    return Workshop(
        name=checked.name,
        drills=made_of(Drills, checked.drills, "drills"),
        machines=made_of(Machines, checked.machines, "machines"),
    )


def to_document(workshop: Workshop) -> dict[str, Any]:
    """Return the workshop as a JSON document, sizes spelt as they were typed."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "name": workshop.name,
        "drills": plain(workshop.drills),
        "machines": plain(workshop.machines),
    }


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema of a workshop file, published with the package."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **DOCUMENT.model_json_schema(),
    }


def from_bytes(data: bytes) -> Workshop:
    """Return the workshop that the bytes of a workshop file hold.

    Raises
    ------
    DesignRefused : in one sentence, whatever is wrong with them.
    """
    document = parsed(data, _WHAT)
    return from_document(migrate(document, steps=STEPS, present=VERSION, form=FORMAT, what=_WHAT))


def to_bytes(workshop: Workshop) -> bytes:
    """Return the workshop as the bytes of its file, sizes spelt as they were typed."""
    data = spelt_out(to_document(workshop), _WHAT)
    from_bytes(data)  # nothing is written that could not be opened again
    return data


def read(path: str | os.PathLike[str]) -> Workshop:
    """Open a workshop file.

    Parameters
    ----------
    path : the file; its name usually ends in .workshop.json.

    Raises
    ------
    DesignRefused : in one sentence, naming the file.
    """
    return read_with(path, from_bytes)


def write(path: str | os.PathLike[str], workshop: Workshop) -> None:
    """Save a workshop; a crash leaves the old file or the new one, and ten versions are kept.

    Raises
    ------
    DesignRefused : in one sentence; the old file is then as it was.
    """
    write_data(path, to_bytes(workshop), SUFFIX)


def with_workshop(design: Design, workshop: Workshop) -> Design:
    """Return the design with the lists of a workshop in place of its own.

    Notes and marks on what the workshop has no place for, such as a cutter more, are left
    out: a file with them would be refused.
    """
    made = dataclasses.replace(
        design,
        machines=workshop.machines,
        threads=dataclasses.replace(design.threads, rack=workshop.drills),
    )
    return dataclasses.replace(
        made,
        notes={path: note for path, note in design.notes.items() if _stands(made, path)},
        fixed=tuple(path for path in design.fixed if _stands(made, path)),
    )


def _stands(design: Design, path: str) -> bool:
    if not path.startswith(_IN_DESIGN):
        return True
    try:
        design.at(path)
    except DesignRefused:
        return False
    return True


def workshop_of(design: Design, name: str = Workshop.name) -> Workshop:
    """Return the lists of a design as a workshop."""
    return Workshop(name=name, drills=design.threads.rack, machines=design.machines)


def usual_file() -> Path:
    """Return where a user's workshop file is looked for, by the customs of the system.

    %APPDATA% on Windows, Library/Application Support on macOS, elsewhere XDG_CONFIG_HOME or
    .config in the home folder (XDG Base Directory Specification).
    """
    home = Path.home()
    if sys.platform == "win32":
        folder = Path(os.environ.get("APPDATA") or home / "AppData" / "Roaming") / "Weighshaft"
    elif sys.platform == "darwin":
        folder = home / "Library" / "Application Support" / "Weighshaft"
    else:
        named = os.environ.get("XDG_CONFIG_HOME", "")
        # the specification has relative paths ignored
        folder = (Path(named) if os.path.isabs(named) else home / ".config") / "weighshaft"
    return folder / f"workshop{SUFFIX}"
