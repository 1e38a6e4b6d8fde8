"""The engine cut across: what stands at a station, from the centre line outwards."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..frames import Bar, Part, Plate, Point, Solid, Whole, moved
from ..motion.frame import Array
from .bodies import bodies

_STEPS = 24


@dataclass(frozen=True)
class Standing:
    """A part that stands at a station.

    Parameters
    ----------
    inner, outer : out from the centre line, mm.
    low, high : above the driving axle, mm, anywhere in the turn.
    play : how far it may be to one side, each way, mm.
    """

    part: str
    inner: float
    outer: float
    low: float
    high: float
    play: float


@dataclass(frozen=True)
class Station:
    """A place along the engine and the row of parts there, from the centre line outwards.

    Parameters
    ----------
    ahead : of the driving axle, mm.
    width : over all that stands there, side play taken up to both sides, mm.
    """

    name: str
    ahead: float
    row: tuple[Standing, ...]

    @property
    def width(self) -> float:
        """Over all that stands there, with side play."""
        return 2 * max((one.outer + one.play for one in self.row), default=0.0)


def stations(whole: Whole) -> tuple[Station, ...]:
    """Return the stations that a builder looks at, from the front."""
    places: dict[str, float] = {
        "front buffer beam": (whole.front + _end(whole, "front buffer beam", 0)) / 2,
    }
    for name, place in (
        ("cylinders", "cylinders"), ("slide bars", "slide bars amid"), ("firebox", "firebox"),
        ("chimney", "chimney"), ("dome", "dome"),
    ):  # fmt: skip
        part = whole.part(name)
        if part is not None:
            places[place] = (part.extent[0][0] + part.extent[1][0]) / 2
    for axle in whole.axles:
        places[f"{axle.name} axle"] = axle.ahead
    if whole.part("cab sides") is not None:
        places["cab"] = (_end(whole, "cab sides", 0) + _end(whole, "cab sides", 1)) / 2
    places["back buffer beam"] = (whole.back + _end(whole, "back buffer beam", 1)) / 2
    made = [Station(name, x, row_at(whole, x)) for name, x in places.items()]
    return tuple(sorted(made, key=lambda one: -one.ahead))


def _end(whole: Whole, name: str, end: int) -> float:
    part = whole.part(name)
    return part.extent[end][0] if part is not None else 0.0


def row_at(whole: Whole, ahead: float) -> tuple[Standing, ...]:
    """Return what stands at a place on the right-hand side, anywhere in the turn.

    Parameters
    ----------
    ahead : of the driving axle, mm.
    """
    found: dict[str, Standing] = {}
    # what moves is given in the room that it takes all round the turn
    for body in bodies(whole):
        if body.part.paired and body.left:
            continue
        if not body.low[0] <= ahead <= body.high[0] or body.shape.high <= 0:
            continue
        _add(found, Standing(
            body.part.name, max(body.shape.low, 0.0), body.shape.high, body.low[1], body.high[1],
            body.play,
        ))  # fmt: skip
    for part in whole.of_kind("motion"):
        for solid in part.solids if part.name not in found else ():
            low, high = solid.extent
            if low[0] <= ahead <= high[0] and high[2] > 0:
                _add(found, Standing(part.name, max(low[2], 0.0), high[2], low[1], high[1], 0.0))
    return tuple(sorted(found.values(), key=lambda one: (one.inner, one.outer)))


def _add(found: dict[str, Standing], one: Standing) -> None:
    known = found.get(one.part)
    if known is not None:
        one = Standing(
            one.part, min(one.inner, known.inner), max(one.outer, known.outer),
            min(one.low, known.low), max(one.high, known.high), max(one.play, known.play),
        )  # fmt: skip
    found[one.part] = one


def cut(part: Part, whole: Whole, ahead: float, angle: float = 0.0) -> tuple[Array, ...]:
    """Return the outlines (n, 2) of a part cut across at a place, out to the right and up, mm.

    Parameters
    ----------
    ahead : of the driving axle, mm.
    angle : of the right-hand crank, degrees.
    """
    made = []
    for side in ("right", "left") if part.paired else ("right",):
        one = part.on("left" if side == "left" else "right")
        cos, sin, along, up = (
            float(value[0]) for value in moved(one, whole, np.array([angle]), side == "left")
        )

        def go(at: Point, cos: float = cos, sin: float = sin, along: float = along,
               up: float = up) -> Point:  # fmt: skip
            return at[0] * cos - at[1] * sin + along, at[0] * sin + at[1] * cos + up

        for solid in one.solids:
            made += _cut(solid, go, math.degrees(math.atan2(sin, cos)), ahead)
    return tuple(made)


def _cut(solid: Solid, go: object, turned: float, x: float) -> list[Array]:
    assert callable(go)
    if isinstance(solid, Plate):
        rings = [[go(at) for at in ring] for ring in (solid.outline, *solid.holes)]
        return [_slab(solid.inner, solid.outer, *span) for span in _across_rings(rings, x)]
    if isinstance(solid, Bar):
        (ax, ay), (bx, by) = go(solid.start), go(solid.end)
        span = _across_bar(ax, ay, bx, by, solid.half, x)
        return [] if span is None else [_slab(solid.inner, solid.outer, *span)]
    x0, y0 = go(solid.start[:2])
    return _across_round(x0, y0, solid.start[2], solid.length, solid.radius,
                         math.radians(solid.angle + turned), x)  # fmt: skip


def _slab(inner: float, outer: float, low: float, high: float) -> Array:
    return np.array([[inner, low], [outer, low], [outer, high], [inner, high]])


def _across_rings(rings: list[list[Point]], x: float) -> list[tuple[float, float]]:
    """Return the spans of height in which an outline with holes is cut at x."""
    heights = []
    for ring in rings:
        for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True):
            if (ax > x) != (bx > x):
                heights.append(ay + (by - ay) * (x - ax) / (bx - ax))
    heights.sort()
    return list(zip(heights[::2], heights[1::2], strict=False))


def _across_bar(
    ax: float, ay: float, bx: float, by: float, half: float, x: float
) -> tuple[float, float] | None:
    heights = []
    for cx, cy in ((ax, ay), (bx, by)):
        room = half * half - (x - cx) ** 2
        if room >= 0:
            heights += [cy - math.sqrt(room), cy + math.sqrt(room)]
    length = math.hypot(bx - ax, by - ay)
    if length > 0:
        nx, ny = -(by - ay) / length * half, (bx - ax) / length * half
        for sign in (1, -1):
            one, other = ax + sign * nx, bx + sign * nx
            if min(one, other) <= x <= max(one, other) and one != other:
                share = (x - one) / (other - one)
                heights.append(ay + sign * ny + share * (by - ay))
    return (min(heights), max(heights)) if heights else None


def _across_round(
    x0: float, y0: float, z: float, length: float, radius: float, angle: float, x: float
) -> list[Array]:
    """Return the cut of a round body: a circle or ellipse, cut off at its ends, or a strip."""
    cos, sin = math.cos(angle), math.sin(angle)
    if abs(cos) < 1e-9:
        room = radius * radius - (x - x0) ** 2
        if room <= 0:
            return []
        ends = sorted((y0, y0 + length * sin))
        half = math.sqrt(room)
        return [_slab(z - half, z + half, *ends)]
    points = []
    for turn in np.linspace(-math.pi / 2, math.pi / 2, _STEPS + 1):
        v, w = radius * math.sin(turn), radius * math.cos(turn)
        u = (x - x0 + v * sin) / cos
        if -1e-9 <= u <= length + 1e-9:
            points.append((w, y0 + u * sin + v * cos))
    if len(points) < 2:
        return []
    right = np.array(points)
    return [np.concatenate([right * [1, 1] + [z, 0], (right * [-1, 1] + [z, 0])[::-1]])]
