"""Holes on a circle, turned to where they keep the most metal, and holes in a line."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from ...findings import Suggestion
from ...working import Working
from ..dials import Dial
from . import relations
from .decisions import Patterns
from .engine import Engine
from .results import Spot
from .slant import Array, Slanted, least_metal

FINE = 0.05
"""Degrees in which the best place for the first hole is looked for."""
DEPTH = 2.5
"""Depth of a tapped hole over its diameter; common practice."""


_HALVINGS = 40
LEAST = 0.5
"""Metal between a hole and a passage over the smaller of the two; common practice."""


def wanted_metal(hole: float, passage: float) -> float:
    """Return the metal wanted between a hole and a passage, mm."""
    return LEAST * min(hole, passage)


def on_circle(number: int, diameter: float, start: float, dial: Dial) -> tuple[Spot, ...]:
    """Return holes evenly on a circle, the first at `start` degrees anticlockwise from +x."""
    made = []
    for n in range(number):
        angle = start + 360 * n / number
        a = math.radians(angle)
        x, y = diameter / 2 * math.cos(a), diameter / 2 * math.sin(a)
        made.append(Spot(x, y, angle % 360, (dial.text(x), dial.text(y))))
    return tuple(made)


def circled(
    patterns: Patterns, engine: Engine, slant: Slanted | None, dial: Dial
) -> tuple[dict[str, Any], list[Working], list[Suggestion]]:
    """Return the holes on the circle, with the metal between them and the passages."""
    decided = patterns.circle
    number = engine.screws if decided.holes is None else decided.holes
    diameter = engine.screw_circle if decided.diameter is None else decided.diameter
    hole = engine.screw if decided.hole is None else decided.hole
    depth = DEPTH * hole if decided.depth is None else decided.depth
    best, worst = _best(number, diameter, hole, depth, engine, slant)
    start = best if decided.start is None else decided.start
    spots = on_circle(number, diameter, start, dial)
    metal, short, deep = _beside(spots, hole, depth, engine, slant)
    chord = relations.chord.work(
        "Chord between neighbouring holes", "mm", D=diameter, n=float(number)
    )
    figures = {
        "holes": number, "circle": diameter, "hole": hole, "hole_depth": depth, "start": start,
        "hole_chord": chord.result, "metal": metal, "metal_worst": worst, "spots": spots,
        "short": short, "short_depth": deep,
    }  # fmt: skip
    taken = [
        Suggestion("patterns.circle.holes", engine.screws, engine.name),
        Suggestion("patterns.circle.diameter", engine.screw_circle, engine.name),
        Suggestion("patterns.circle.hole", engine.screw, engine.name),
        Suggestion("patterns.circle.start", round(best, 2), "most metal beside the passages"),
        Suggestion("patterns.circle.depth", round(DEPTH * hole, 2), "two and a half diameters"),
    ]
    return figures, [chord], taken


def _best(
    number: int, diameter: float, hole: float, depth: float, engine: Engine, slant: Slanted | None
) -> tuple[float, float | None]:
    """Return the start that keeps the most metal, and the least metal of any start.

    The first hole is looked for in steps over one pitch; where the start that leaves a gap
    straight above is as good as any, that one is taken.
    """
    pitch = 360 / number
    upright = (90 + pitch / 2) % pitch
    if slant is None:
        return upright, None
    starts = np.append(np.arange(0, pitch, FINE), upright)
    angles = np.radians(starts[:, None] + np.arange(number) * pitch)
    centres = diameter / 2 * np.stack([np.cos(angles), np.sin(angles)], axis=-1)
    metal = least_metal(centres, hole, slant.ways, engine.hole, engine.barrel, depth).min(axis=-1)
    best = upright if metal[-1] >= metal.max() - 1e-9 else float(starts[int(metal.argmax())])
    return best, float(metal.min())


def _beside(
    spots: Sequence[Spot], hole: float, depth: float, engine: Engine, slant: Slanted | None
) -> tuple[float | None, tuple[int, ...], float | None]:
    """Return the least metal, which holes keep too little of it, and how deep they may be, mm."""
    if slant is None:
        return None, (), None
    centres = np.array([[one.x, one.y] for one in spots])

    def metal(deep: float) -> Array:
        return least_metal(centres, hole, slant.ways, engine.hole, engine.barrel, deep)

    now, wanted = metal(depth), wanted_metal(hole, engine.hole)
    short = tuple(int(n) + 1 for n in np.flatnonzero(now < wanted))
    if not short:
        return float(now.min()), (), None
    low, high = 0.0, depth
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if metal(middle).min() >= wanted else (low, middle)
    return float(now.min()), short, low


def in_line(patterns: Patterns, dial: Dial) -> dict[str, Any]:
    """Return holes in a straight line from an edge."""
    row = patterns.row
    pitch = row.length / (row.holes - 1)
    slope = math.radians(row.slope)
    spots = []
    for n in range(row.holes):
        along = row.first + n * pitch
        x, y = along * math.cos(slope), along * math.sin(slope)
        spots.append(Spot(x, y, row.slope, (dial.text(x), dial.text(y))))
    return {"line": tuple(spots), "line_pitch": pitch}
