"""What of the valve gear can be reached with the boiler in its place."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..frames.whole import Whole
from .decisions import Erection
from .results import Reach
from .sweep import both_sides, shapes_of, way_out
from .ways import ECCENTRICS

SET_BY = (*ECCENTRICS, "valve spindle", "return crank")
"""What the valves are set by: where the sheaves or the return crank are keyed, and the spindle."""


def reaches(whole: Whole, erection: Erection) -> tuple[Reach, ...]:
    """Return how each of them is reached, from above, from below and from the side."""
    return tuple(_reach(whole, erection))


def _reach(whole: Whole, erection: Erection) -> Iterator[Reach]:
    stood = [
        shape
        for part in whole.parts
        if part.kind not in ("motion", "water", "rods") and "axle" not in part.name
        and not part.name.endswith("wheels") and part.name not in ("cylinders", "crossheads",
                                                                   "piston and rods")
        for shape in both_sides(shapes_of(part, whole), part.paired)
    ]  # fmt: skip
    for name in SET_BY:
        part = whole.part(name)
        if part is None:
            continue
        going = shapes_of(part, whole)
        up, down, out = (
            way_out(going, stood, toward, math.inf) for toward in ("up", "down", "out")
        )
        best = max(up.free, down.free, out.free)
        if max(shape.outer for shape in going) < whole.frame_inside / 2:
            # between the plates nothing wider than they are apart goes in from above or below
            best = min(max(up.free, down.free), whole.frame_inside)
        by = "nothing"
        if best >= erection.hand:
            by = "a hand"
        elif best >= erection.key:
            by = "a key"
        yield Reach(
            name, up.free, down.free, out.free, up.blocked[0] if up.blocked else "",
            down.blocked[0] if down.blocked else "", by,
        )  # fmt: skip
