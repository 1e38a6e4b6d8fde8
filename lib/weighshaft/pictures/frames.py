"""The whole engine from the side, from above and cut across, and whose each part is."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import numpy as np

from ..frames import Bar, Frames, FramesResult, Part, Plate, Round, Solid, Whole, mirrored
from ..motion import MotionLocks
from .clearance_shapes import standing
from .frames_shapes import cut, from_above, from_side, lifted, spans, turned
from .frames_sheets import marking_out, owners
from .scene import (
    Array,
    Circle,
    Dimension,
    Fill,
    Label,
    Moving,
    Path,
    Pen,
    Picture,
    Primitive,
    Scene,
    box,
)

THETA = np.arange(0.0, 360.0, 5.0)
_FROM_ABOVE = np.array([1.0, -1.0])
"""Turns what stands out to the right downwards, as it is seen from above."""
_PENS: dict[str, Pen] = {
    "frames": "outline", "wheels": "outline", "rods": "outline", "cylinders": "outline",
    "motion": "thin", "boiler": "behind", "platework": "behind", "fittings": "behind",
    "water": "thin",
}  # fmt: skip
_ORDER = ("boiler", "fittings", "platework", "frames", "motion", "wheels", "cylinders", "rods")


def pictures(frames: Frames, result: FramesResult) -> tuple[Picture, ...]:
    """Return the three views, the frame plate to mark out, and the parts with their owners."""
    whole = result.whole
    made: list[Picture] = [elevation(frames, result), plan(frames, result)]
    stations = [("At the driving axle", 0.0)]
    cylinders = whole.part("cylinders")
    if cylinders is not None:
        stations.append(("At the cylinders", cylinders.centroid[0]))
    box_ = whole.part("firebox")
    if box_ is not None:
        stations.append(("At the firebox", box_.centroid[0]))
    if frames.shown.station is not None:
        stations.append((f"{frames.shown.station:.1f} mm ahead of it", frames.shown.station))
    made += [section(whole, name, x) for name, x in stations]
    return (*made, marking_out(result), owners(whole))


# --- from the side ------------------------------------------------------------------------


def elevation(frames: Frames, result: FramesResult) -> Scene:
    """Return the right-hand side with all that turns and slides, front to the right."""
    whole, shown = result.whole, frames.shown
    still: list[Primitive] = []
    moving: list[Moving] = []
    for part in _ordered(whole.parts):
        if part.kind == "water" or (part.kind == "motion" and part.chapter != "reversing"):
            continue
        pen = _PENS[part.kind]
        up = lifted(part, whole, shown.axle_up)
        for solid in part.solids:
            if part.ride == "frames":
                still.append(_seen(solid, pen, part))
            elif part.ride == "axle" or (isinstance(solid, Bar) and _on_axle(solid, part, whole)):
                still.append(_seen(_raised(solid, up), pen, part))
            else:
                points = turned(from_side(solid), part, whole, THETA, up=up)
                moving.append(Moving(points, "outline", pen, _fill(part), part=part.name))
    moving += _gear(result, shown.reverser)
    left, right = whole.buffer_back, whole.buffer_front
    rail = Path(np.array([[left - 5, whole.rail], [right + 5, whole.rail]]), "outline")
    still += [rail, Path(np.array([[left, 0.0], [right, 0.0]]), "centre")]
    still += _lengths(whole)
    base = abs(whole.axles[0].ahead - whole.axles[-1].ahead)
    return Scene(
        "The engine from its right-hand side",
        f"All parts from the decisions made so far, front to the right: {right - left:.1f} mm over "
        f"the buffers, {base:.1f} mm of wheelbase, {result.height:.1f} mm high; "
        f"{_gear_words(result, shown.reverser)}. What belongs to boiler and platework is grey.",
        tuple(still), tuple(moving), THETA,
    )  # fmt: skip


def _ordered(parts: Iterable[Part]) -> list[Part]:
    rank = {kind: n for n, kind in enumerate(_ORDER)}
    return sorted(parts, key=lambda one: rank.get(one.kind, -1))


def _fill(part: Part) -> Fill:
    return "metal" if part.kind in ("rods", "cylinders") else "none"


def _on_axle(solid: Bar, part: Part, whole: Whole) -> bool:
    """Return whether a disc turns in its place, so that turning changes nothing to be seen."""
    if part.ride != "wheel" or part.axle is None or solid.start != solid.end:
        return False
    axle = whole.axles[part.axle]
    y = 0.0 if axle.kind == "coupled" else whole.rail + axle.diameter / 2
    return abs(solid.start[0] - axle.ahead) < 1e-9 and abs(solid.start[1] - y) < 1e-9


def _raised(solid: Solid, up: float) -> Solid:
    if up == 0.0:
        return solid
    if isinstance(solid, Bar):
        (ax, ay), (bx, by) = solid.start, solid.end
        return Bar((ax, ay + up), (bx, by + up), solid.half, solid.inner, solid.outer, solid.bore)
    if isinstance(solid, Plate):
        return Plate(tuple((x, y + up) for x, y in solid.outline), solid.inner, solid.outer)
    x, y, z = solid.start
    return Round((x, y + up, z), solid.length, solid.radius, solid.angle, solid.bore)


def _seen(solid: Solid, pen: Pen, part: Part) -> Primitive:
    if isinstance(solid, Bar) and solid.start == solid.end:
        return Circle(solid.start, solid.half, pen, _fill(part), part.name)
    return Path(from_side(solid), pen, True, _fill(part), part.name)


def _gear(result: FramesResult, reverser: float) -> list[Moving]:
    """Return the valve gear in turn, in the notch that the builder wants to see."""
    if result.gear is None:
        return []
    gear = result.gear
    rows = np.array([[reverser if gear.gear.notched or reverser else 1.0]])
    try:
        joints = gear.joints(THETA[None, :], rows, np.zeros((1, 1)))
    except MotionLocks:
        return []
    starts, ends = gear.arrays(joints)
    made, begins = [], 0
    theirs = {"connecting rod", "coupling rod", "crosshead", "crank webs"}
    for piece in gear.pieces:
        own = slice(begins, begins + len(piece.edges))
        begins = own.stop
        if piece.name in theirs or "axle" in piece.name:
            continue
        frames = [standing(piece, starts[own, 0, n], ends[own, 0, n]) for n in range(len(THETA))]
        for run in range(len(frames[0])):
            shapes = [one[run] for one in frames if len(one) == len(frames[0])]
            if len(shapes) == len(THETA) and len({len(one) for one in shapes}) == 1:
                made.append(Moving(np.stack(shapes), "outline", "thin", part=piece.name))
    return made


def _gear_words(result: FramesResult, reverser: float) -> str:
    if result.gear is None:
        return "the valve gear, which locks, is left out"
    if reverser == 0:
        return "the gear in mid gear"
    way = "forward" if reverser > 0 else "backward"
    return f"the gear {way}, reverser {abs(reverser):.2f}"


def _lengths(whole: Whole) -> list[Primitive]:
    """Return the axles' places and the length over buffers as dimensions under the rail."""
    step = 0.035 * (whole.buffer_front - whole.buffer_back)
    places = [one.ahead for one in whole.axles]
    made: list[Primitive] = [
        Dimension((b, whole.rail), (a, whole.rail), f"{a - b:.1f}", -2 * step)
        for a, b in pairwise(places)
    ]
    made += [
        Dimension((places[0], whole.rail), (whole.front, whole.rail),
                  f"{whole.front - places[0]:.1f}", -2 * step),
        Dimension((whole.back, whole.rail), (places[-1], whole.rail),
                  f"{places[-1] - whole.back:.1f}", -2 * step),
        Dimension((whole.buffer_back, whole.rail), (whole.buffer_front, whole.rail),
                  f"{whole.buffer_front - whole.buffer_back:.1f}", -5 * step),
    ]  # fmt: skip
    return made


# --- from above ---------------------------------------------------------------------------


def plan(frames: Frames, result: FramesResult) -> Scene:
    """Return the engine from above with boiler and platework lifted off, front to the right."""
    whole, shown = result.whole, frames.shown
    still: list[Primitive] = []
    moving: list[Moving] = []
    for part in _ordered(whole.parts):
        if part.kind in ("boiler", "water", "platework", "fittings"):
            continue
        pen = _PENS[part.kind]
        across = _shift(part, whole) if shown.on_curve else 0.0
        for left in (False, True) if part.paired else (False,):
            for solid in part.solids:
                body = mirrored(solid) if left else solid
                rests = part.ride in ("frames", "axle")
                if rests or (isinstance(body, Bar) and _on_axle(body, part, whole)):
                    still.append(_above(body, across, pen, part))
                else:
                    spun = turned(from_side(solid), part, whole, THETA, left)
                    moving.append(_passing(body, spun, across, pen, part))
    still += _outlines(whole)
    end = max(result.width / 2, 1.0)
    still.append(Path(np.array([[whole.back, 0.0], [whole.front, 0.0]]), "centre"))
    where = (
        "the wheelsets where the curve wanted puts them, to the left" if shown.on_curve
        else "the wheelsets midway"
    )  # fmt: skip
    return Scene(
        "The engine from above, boiler and platework lifted off",
        f"The right-hand side is below. Frames {whole.frame_inside:.2f} mm apart, wheels "
        f"{whole.back_to_back:.2f} mm back to back, {2 * end:.1f} mm over all; {where}; "
        f"the cranks {whole.drive.crank_angle:.0f}° apart. Boiler and running boards are dashed.",
        tuple(still), tuple(moving), THETA,
    )  # fmt: skip


def _shift(part: Part, whole: Whole) -> float:
    """Return how far out to the right a part slides on the curve wanted, mm."""
    if part.axle is not None:
        return whole.axles[part.axle].shift
    if part.ride == "coupling":
        shifts = [one.shift for one in whole.coupled]
        return sum(shifts) / len(shifts)
    return 0.0


def _above(solid: Solid, across: float, pen: Pen, part: Part) -> Primitive:
    points = (from_above(solid) + [0.0, across]) * _FROM_ABOVE  # noqa: RUF005
    return Path(points, pen, True, _fill(part), part.name)


def _passing(solid: Solid, spun: Array, across: float, pen: Pen, part: Part) -> Moving:
    """Return a body seen from above as its ends run to and fro."""
    low, high = solid.extent
    back, front = spun[..., 0].min(axis=1), spun[..., 0].max(axis=1)
    # seen from above with the front to the right, the right-hand side is the lower one
    inner, outer = -(low[2] + across), -(high[2] + across)
    ones = np.ones_like(back)
    corners = np.stack(
        [
            np.stack([back, inner * ones], -1), np.stack([front, inner * ones], -1),
            np.stack([front, outer * ones], -1), np.stack([back, outer * ones], -1),
        ],
        axis=1,
    )  # fmt: skip
    return Moving(np.round(corners, 3), "outline", pen, _fill(part), part=part.name)


def _outlines(whole: Whole) -> list[Primitive]:
    made: list[Primitive] = []
    for name in ("boiler", "smokebox", "firebox", "running boards", "side tanks"):
        part = whole.part(name)
        if part is not None:
            low, high = part.extent
            corners = box(low[0], low[2], high[0], high[2]) * _FROM_ABOVE
            made.append(Path(corners, "hidden", True, "none", name))
    return made


# --- across -------------------------------------------------------------------------------


def section(whole: Whole, name: str, x: float) -> Scene:
    """Return the engine cut across at `x` mm ahead of the driving axle, seen from the front."""
    made: list[Primitive] = []
    named: dict[str, tuple[float, float]] = {}
    for part in _ordered(whole.parts):
        if part.kind == "water":
            continue
        for side in ("right", "left") if part.paired else ("right",):
            for solid in part.on(side).solids:
                shapes = _sliced(solid, x, part)
                if shapes and side == "right":
                    named.setdefault(part.name, _tip(shapes[0]))
                made += shapes
    half = max((abs(at[0]) for at in named.values()), default=10.0)
    half = max(half, whole.back_to_back / 2 + whole.tyre_width)
    made += _rails(whole)
    high = max((at[1] for at in named.values()), default=0.0)
    made.append(Path(np.array([[0.0, whole.rail], [0.0, high]]), "centre"))
    made += _names(named, 1.15 * half + 4, (high - whole.rail) / 22)
    return Scene(
        f"Cut across: {name[0].lower()}{name[1:]}",
        f"Seen from behind, the cut {x:.1f} mm ahead of the driving axle, cranks as on front "
        f"dead centre of their own side: {len(named)} parts are cut.",
        tuple(made),
    )  # fmt: skip


def _sliced(solid: Solid, x: float, part: Part) -> list[Primitive]:
    pen = _PENS[part.kind]
    if isinstance(solid, Plate):
        return [
            Path(box(solid.inner, low, solid.outer, high), pen, True, "section", part.name)
            for low, high in spans(solid, x)
        ]
    found = cut(solid, x)
    if found is None:
        return []
    inner, outer, low, high = found
    if isinstance(solid, Round) and abs((high - low) - (outer - inner)) < 1e-6:
        centre = ((inner + outer) / 2, (low + high) / 2)
        made: list[Primitive] = [Circle(centre, (outer - inner) / 2, pen, "none", part.name)]
        if solid.bore > 0:
            made.append(Circle(centre, solid.bore / 2, "thin", "none", part.name))
        return made
    fill: Fill = "section" if part.kind in ("wheels", "rods", "frames", "cylinders") else "none"
    return [Path(box(inner, low, outer, high), pen, True, fill, part.name)]


def _tip(shape: Primitive) -> tuple[float, float]:
    if isinstance(shape, Circle):
        return shape.centre[0] + 0.7 * shape.radius, shape.centre[1] + 0.7 * shape.radius
    assert isinstance(shape, Path)
    return float(shape.points[:, 0].max()), float(shape.points[:, 1].mean())


def _rails(whole: Whole) -> list[Primitive]:
    head, high = 0.06 * whole.gauge, 0.1 * whole.gauge
    return [
        Path(box(sign * whole.gauge / 2, whole.rail - high, sign * (whole.gauge / 2 + head),
                 whole.rail), "thin", True, "section")
        for sign in (1, -1)
    ]  # fmt: skip


def _names(named: dict[str, tuple[float, float]], x: float, step: float) -> list[Primitive]:
    """Return names in a column at the right, in the order of their heights."""
    rows = sorted(named.items(), key=lambda one: -one[1][1])
    made: list[Primitive] = []
    level = max((at[1] for _, at in rows), default=0.0)
    for name, at in rows:
        level = min(level, at[1])
        made.append(Label(name, (x, level), "start", at))
        level -= step
    return made
