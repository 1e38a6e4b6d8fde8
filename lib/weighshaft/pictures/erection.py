"""Pictures of putting together and taking apart."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ..erection import Erection, ErectionResult, Removal
from ..erection.sweep import extent_of, seen_of, toward_of
from .scene import Dimension, Label, Path, Pen, Picture, Primitive, Scene, Table

_WORTH = ("wheelset", "truck", "piston", "boiler", "ashpan", "crosshead", "valve", "cylinders",
          "rod", "gland")  # fmt: skip
"""Which of several ways out is looked at first."""


def pictures(erection: Erection, result: ErectionResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    shown = [one for one in result.removals if one.way.toward != "out"]
    made: list[Picture] = []
    shut = sorted(
        (one for one in shown if not one.way.open), key=lambda one: _WORTH.index(one.kind)
    )
    wheels = next((one for one in shown if one.kind == "wheelset" and "driving" in one.what), None)
    chosen = shut[:1] + [one for one in (wheels, *shown) if one is not None and one.way.open][:1]
    made += [drawn(result, one) for one in chosen]
    return (
        *made, way_table(result), *_spanner_table(result), *_reach_table(result),
        order_table(result),
    )  # fmt: skip


def drawn(result: ErectionResult, one: Removal) -> Scene:
    """Return a part on its way out in blue, and what it meets in red."""
    whole = result.whole
    going = {shape.part for shape in one.going} | set(one.first)
    still: list[Primitive] = []
    for part in whole.parts:
        if part.kind == "water" or part.name in going:
            continue
        pen: Pen = "stop" if part.name in one.way.blocked else "behind"
        still += [
            Path(np.array(outline), pen, True, "none", part.name)
            for outline in seen_of(part, whole, one.theta)
        ]
    line = toward_of(one.way.toward, whole.drive.inclination) or (0.0, 0.0)
    far = min(one.way.free, one.way.needed) if math.isfinite(one.way.free) else one.way.needed
    for name, outline in _going(result, one):
        at = np.array(outline)
        still.append(Path(at, "outline", True, "none", name))
        still.append(Path(at + np.array(line) * far, "changed", True, "none", name))
    (x0, y0, _), (x1, y1, _) = extent_of(one.going)
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    still.append(
        Dimension(middle, (middle[0] + line[0] * far, middle[1] + line[1] * far), f"{far:.1f}")
    )
    still.append(Path(np.array([[whole.back, whole.rail], [whole.front, whole.rail]]), "thin"))
    blocked = one.way.blocked
    if blocked:
        hit = whole.part(blocked[0])
        if hit is not None:
            (a0, _, _), (a1, b1, _) = hit.extent
            still.append(Label(blocked[0], ((a0 + a1) / 2, b1 + 8), "middle",
                               ((a0 + a1) / 2, b1), "stop"))  # fmt: skip
        end = f"the {blocked[0]} stands there after {far:.1f} mm of {one.way.needed:.1f}"
    else:
        end = f"nothing stands in the way on the {one.way.needed:.1f} mm that are needed"
    first = f" once {', '.join(one.first)} are off" if one.first else ""
    return Scene(
        f"Taken out: {one.what}, {one.way.toward}",
        f"The {one.what} {'go' if one.what.endswith('s') else 'goes'} {one.way.toward}{first}; "
        f"{end}.",
        tuple(still),
    )


def _going(
    result: ErectionResult, one: Removal
) -> Iterator[tuple[str, tuple[tuple[float, float], ...]]]:
    """Yield the outlines of what goes, with the names of their parts."""
    for name in dict.fromkeys(shape.part for shape in one.going):
        part = result.whole.part(name)
        if part is None:
            yield from ((name, shape.outline) for shape in one.going if shape.part == name)
        else:
            yield from ((name, outline) for outline in seen_of(part, result.whole, one.theta))


def way_table(result: ErectionResult) -> Table:
    """Return which way each part comes out."""
    return Table(
        "Ways out",
        ("Part", "Way", "Off first", "Needed", "Free", "In the way"),
        tuple(
            (one.what, one.way.toward, ", ".join(one.first) or "nothing", one.way.needed,
             one.way.free if math.isfinite(one.way.free) else "all of it",
             ", ".join(one.way.blocked[:3]) or "nothing")
            for one in result.removals
        ),
        "Forward and backward run along the cylinder. An axlebox comes off its axle only when the "
        "wheel on its side has been drawn, unless it is made in halves.",
    )  # fmt: skip


def _spanner_table(result: ErectionResult) -> Iterator[Table]:
    if not result.spanners:
        return
    yield Table(
        "Room for spanners",
        ("Hexagon or gland", "Beside", "Across flats", "Head", "Needed", "Room", ""),
        tuple(
            (one.what, one.against, one.flats, one.head, one.needed, one.room,
             "goes on" if one.fits else "does not go on")
            for one in result.spanners
        ),
    )  # fmt: skip


def _reach_table(result: ErectionResult) -> Iterator[Table]:
    if not result.reaches:
        return

    def said(room: float) -> str | float:
        return room if math.isfinite(room) else "open"

    yield Table(
        "Setting the valves with the boiler on",
        ("Part", "From above", "From below", "From the side", "Reached by"),
        tuple(
            (one.what, said(one.above), said(one.below), said(one.beside), one.by)
            for one in result.reaches
        ),
        "Free room straight from the part to what is met first.",
    )


def order_table(result: ErectionResult) -> Table:
    """Return the order of erection, with room to tick each step."""
    return Table(
        "Order of erection",
        ("", "No.", "What", "After", "Why here"),
        tuple(
            ("☐", f"{one.number}", one.does, ", ".join(map(str, one.after)) or "–", one.why)
            for one in result.order
        ),
        "Taken apart in the opposite order.",
    )
