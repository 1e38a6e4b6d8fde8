"""The dimensions of an engine's gear, valve and crank, and how each is made."""

from __future__ import annotations

import math
from dataclasses import replace

from ..motion import Crank, Gear, SlideValve
from ..motion.events import valve_as_seen
from ..sizes import Unit, sizes_of
from .decisions import EVEN, WAYS, Operation, Tolerances
from .derivatives import in_rows
from .results import Dimension, Part

_POP, _JIG, _BORED = "drilled to a centre-pop", "drilled in a jig", "bored from coordinates"
_PROTRACTOR = "set by protractor"

USUAL: dict[str, str] = {
    "eccentric_throw": "turned",
    "advance": "keyed by eye",
    "advance_backward": "keyed by eye",
    "eccentric_angle": "keyed by eye",
    "return_crank_throw": _JIG,
    "link_radius": "filed to a line",
    "guide_radius": "filed to a line",
    "spindle_height": "milled to size",
    "die_height": "milled to size",
    "valve_angle": "bolted to a faced seat",
    "piston_rod": "filed to a line",
    "port_radius": _JIG,
    "port_hole": _JIG,
    "passage_hole": _JIG,
    "passage_pitch": _JIG,
    "seal": "filed to a line",
    "steam_lap": "milled to size",
    "exhaust_lap": "milled to size",
    "valve_offset": "set by feeler",
    "stroke": _BORED,
    "connecting_rod": _BORED,
    "cylinder_offset": "milled to size",
}
"""How a dimension is made unless the builder says otherwise (common practice).

Rods, levers and pivots not named here are drilled to a centre-pop, angles set by protractor.
"""

VALVE = ("steam_lap", "exhaust_lap", "valve_offset")
CRANK: dict[str, str] = {
    "stroke": "Stroke",
    "connecting_rod": "Connecting rod",
    "cylinder_offset": "Cylinder above axle",
}
_CALLED = {"valve_offset": "Valve on its spindle"}
_PORTS = "Fixed ports, all set over along the face"
_PROBE = 0.01


def dimensions_of(
    tolerances: Tolerances, crank: Crank, valve: SlideValve, gear: Gear
) -> tuple[Dimension, ...]:
    """Return every dimension that has a number, in the order of the drawing.

    Of the valve those count of which the ports see anything: where the gear's own holes take
    the valve's place its laps are none.
    The crank pin is bored at the throw, so that the stroke errs by twice what that holds.
    """
    found = []
    for name, about in sizes_of(type(gear)).items():
        value = getattr(gear, name)
        if about.unit in ("mm", "deg") and isinstance(value, (int, float)):
            found.append(_made(tolerances, "gear", name, about.label, about.unit, value))
    labels = sizes_of(SlideValve)
    for name in VALVE:
        if not _is_seen(gear, valve, name):
            continue
        label, usual = _CALLED.get(name, labels[name].label), None
        if gear.kind == "oscillating":
            label, usual = _PORTS, _JIG  # the cylinder is its own valve, and has no spindle
        found.append(_made(tolerances, "valve", name, label, "mm", getattr(valve, name), usual))
    for name, label in CRANK.items():
        found.append(_made(tolerances, "crank", name, label, "mm", getattr(crank, name)))
    return tuple(found)


def _is_seen(gear: Gear, valve: SlideValve, name: str) -> bool:
    """Return whether a size of the valve has any part in what the ports see."""
    one = in_rows(valve)
    other = replace(one, **{name: getattr(valve, name) + _PROBE})
    return valve_as_seen(gear, other, 1.0) != valve_as_seen(gear, one, 1.0)


_OWNER = {"gear": "motion.gear", "valve": "motion.valve", "crank": "cylinders"}


def _made(
    tolerances: Tolerances, part: Part, name: str, label: str, unit: Unit, value: float,
    usual: str | None = None,
) -> Dimension:  # fmt: skip
    made = usual or USUAL.get(name, _POP if unit == "mm" else _PROTRACTOR)
    for one in tolerances.made:
        if names(one, name, label) and WAYS[one.made][1] == unit:
            made = one.made
    limit = getattr(tolerances.workshop, WAYS[made][0]) * (2.0 if name == "stroke" else 1.0)
    return Dimension(
        part=part, field=name, label=label, unit=unit, path=f"{_OWNER[part]}.{name}",
        value=float(value), made=made, limit=limit,
        deviation=limit / (math.sqrt(3.0) if tolerances.law == EVEN else 2.0),
    )  # fmt: skip


def names(operation: Operation, field: str, label: str) -> bool:
    """Return whether an operation names a dimension, by its label or by its field."""
    said = operation.dimension.strip().casefold()
    return said in (label.casefold(), field, field.replace("_", " "))


def amiss(
    tolerances: Tolerances, dimensions: tuple[Dimension, ...]
) -> tuple[tuple[int, Operation, Dimension | None], ...]:
    """Return operations that name no dimension here (None) or one of another unit (the one)."""
    found: list[tuple[int, Operation, Dimension | None]] = []
    for i, one in enumerate(tolerances.made):
        if not one.dimension.strip():
            continue
        named = [d for d in dimensions if names(one, d.field, d.label)]
        if not named:
            found.append((i, one, None))
        elif named[0].unit != WAYS[one.made][1]:
            found.append((i, one, named[0]))
    return tuple(found)
