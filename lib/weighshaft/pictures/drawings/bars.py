"""Levers, links, arms and rods of the valve gear: flat bars between pins.

Where the pins of a part stand is taken from the gear as it moves, and only where their
distances do not change: those are the gear's own lengths.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from ...clearance.engine import Engine, Piece
from ...design import Design
from ...frames.solids import Bar
from ...motion.frame import MotionLocks
from ..lengths import length
from ..scene import Path, Point
from .dimensions import chain, overall, rows
from .joined import bar, disc, union
from .sheet import Drawing, Outline, View, centre_lines, hole
from .turned import DIAMETER, Drawn, block, middle, within

BOSS = 1.8
"""Boss over its shaft; common practice."""
_STILL = 1e-6
"""By how much a distance may change in the turn and still be one, mm."""
SHAFTS = ("weighshaft", "rocker")
_NO_BARS = ("connecting rod", "coupling rod", "crank webs", "crosshead", "valve spindle",
            "piston rod", "cylinder")  # fmt: skip


@dataclass(frozen=True)
class Lever:
    """A part of the gear laid flat: its pins in the order in which it runs through them.

    Parameters
    ----------
    pins : names and places, the first at the origin and the last straight to its right, mm.
    holes : diameters where they are known, by pin.
    half : half its width, mm; thick : its thickness.
    slot : names of the ends of a straight slot; opening : its width, mm, 0 where not decided.
    """

    name: str
    pins: tuple[tuple[str, Point], ...]
    holes: tuple[tuple[str, float], ...]
    half: float
    thick: float
    says: str = ""
    slot: tuple[str, ...] = ()
    opening: float = 0.0

    def alike(self, other: Lever) -> bool:
        """Whether one drawing does for both."""
        if len(self.pins) != len(other.pins) or self.holes != other.holes:
            return False
        near = [math.dist(a, b) < 1e-6
                for (_, a), (_, b) in zip(self.pins, other.pins, strict=True)]  # fmt: skip
        sizes = (self.half - other.half, self.thick - other.thick)
        return all(near) and all(abs(one) < 1e-6 for one in sizes)


def places_of(engine: Engine) -> dict[str, np.ndarray] | None:
    """Return every joint (poses, 2) in some poses round the turn and over the notches."""
    notches = (1.0, 0.4, -1.0) if engine.gear.notched else (1.0, -1.0)
    found: list[dict[str, np.ndarray]] = []
    theta = np.arange(0.0, 360.0, 40.0)[None, :]
    for notch in notches:
        try:
            points = engine.gear.pose(engine.crank, theta, np.array([[notch]])).points
        except MotionLocks:
            continue
        found.append(
            {name: np.broadcast_to(at, (1, theta.size, 2))[0] for name, at in points.items()}
        )
    if not found:
        return None
    names = set.intersection(*(set(one) for one in found))
    return {name: np.concatenate([one[name] for one in found]) for name in names}


def apart(places: dict[str, np.ndarray], one: str, other: str) -> tuple[float, float]:
    """Return least and greatest distance of two joints, mm."""
    off = places[one] - places[other]
    long = np.hypot(off[:, 0], off[:, 1])
    return float(long.min()), float(long.max())


def flat(
    places: dict[str, np.ndarray], joints: Sequence[str]
) -> tuple[tuple[str, Point], ...] | None:
    """Return the joints of one stiff part laid flat; None where it is not stiff."""
    if any(joint not in places for joint in joints):
        return None
    for n, one in enumerate(joints):
        for other in joints[:n]:
            low, high = apart(places, one, other)
            if high - low > _STILL:
                return None
    here = np.array([places[joint][0] for joint in joints])
    way = here[-1] - here[0]
    long = float(np.hypot(*way))
    if long < 1e-9:
        return None
    along, up = way / long, np.array([-way[1], way[0]]) / long
    away = here - here[0]
    made = [(float(a @ along), float(a @ up)) for a in away]
    return tuple(
        (name, (x, 0.0 if abs(y) < 1e-9 else y)) for name, (x, y) in zip(joints, made, strict=True)
    )


def bar_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the drawings of every bar of the gear."""
    if work.clearance is None:
        return []
    engine: Engine = work.clearance.engine
    places = places_of(engine)
    if places is None:
        return []
    levers: list[tuple[Lever, list[str]]] = []
    for piece in engine.pieces:
        lever = lever_of(design, engine, piece, places)
        if lever is None:
            continue
        same = next((names for one, names in levers if one.alike(lever)), None)
        if same is None:
            levers.append((lever, [lever.name]))
        else:
            same.append(lever.name)
    sides = min(2, design.cylinders.number)
    return [lever_drawing(lever, names, sides) for lever, names in levers]


def lever_of(
    design: Design, engine: Engine, piece: Piece, places: dict[str, np.ndarray]
) -> Lever | None:
    """Return a piece as a lever; None where it is none, or ends in a strap or a slot."""
    if piece.name in _NO_BARS or not piece.moves or "shaft" in piece.name:
        return None
    joints = [piece.edges[0][0], *(other for _, other, _ in piece.edges)]
    if any("eccentric" in one or "arc" in one for one in joints):
        return None
    if len(set(joints)) < 2:
        return None
    says = ""
    if piece.name == "lifting arm" and "arm" in places and "arm" not in joints:
        # a slotted arm lifts the pin of the radius rod along its slot
        low, high = apart(places, "weighshaft", "lifting_pin")
        joints = ["weighshaft", "arm"]
        says = (
            f"Slotted for the lifting pin, whose centre stands {length(low)} to {length(high)} "
            "from the shaft; width to suit the pin."
        )
    pins = flat(places, joints)
    if pins is None:
        return None
    shaft = next((2 * one.edges[0][2] for one in engine.pieces if one.name == "weighshaft"), 0.0)
    rocking = next((2 * one.edges[0][2] for one in engine.pieces if one.name == "rocker shaft"),
                   0.0)  # fmt: skip
    known = {"weighshaft": shaft, "rocker": rocking}
    if piece.name == "return crank":
        known["crank_pin"] = design.wheels.cylinders.crankpin
    holes = tuple((name, known[name]) for name, _ in pins if known.get(name))
    turned = getattr(engine.gear, "rocker_angle", None)
    if piece.name.startswith("rocker,") and turned is not None:
        says = f"Fixed on its shaft {turned:g}° from the lower arm to the upper, anticlockwise."
    if piece.name == "bell crank":
        says = "Arms at either end of a sleeve on its pivot; the thickness is over both."
    half = max(edge[2] for edge in piece.edges)
    slot = tuple(name for name, _ in pins if name.startswith(("slot_", "guide_")))
    width = design.slots.width or 0.0
    if len(slot) == 2:
        says = f"Straight slot between {' and '.join(_word(one) for one in slot)}, the ends of " + (
            f"the die's way, {length(width)} wide." if width else
            "the die's way; its width is not decided."
        )  # fmt: skip
    return Lever(
        piece.name, pins, holes, half, piece.outer - piece.inner, says,
        slot if len(slot) == 2 else (), width if width < 2 * half else 0.0,
    )  # fmt: skip


def _word(joint: str) -> str:
    return joint.replace("_", " ")


def outline_of(lever: Lever) -> Outline:
    """Return the outline: bars of one width with round ends, and bosses where shafts go through."""
    order = lever.pins
    if all(abs(y) < 1e-9 for _, (_, y) in order):
        order = tuple(sorted(order, key=lambda one: one[1][0]))
        ends = (order[0][1], order[-1][1])
        parts = [bar(*ends, lever.half)]
    else:
        parts = [bar(a, b, lever.half) for (_, a), (_, b) in pairwise(order)]
    at = dict(lever.pins)
    parts += [disc(at[name], radius) for name, radius in _bosses(lever)]
    return union(parts)


def _bosses(lever: Lever) -> list[tuple[str, float]]:
    """Return where the bar is not wide enough round a hole, and the radius taken there."""
    return [(name, BOSS * d / 2) for name, d in lever.holes if BOSS * d / 2 > lever.half * 1.001]


def lever_drawing(lever: Lever, names: list[str], sides: int) -> Drawing:
    """Return the drawing of a lever, and of those that are like it.

    Parameters
    ----------
    sides : of the engine that have one each.
    """
    outline = outline_of(lever)
    xs, ys = zip(*((float(x), float(y)) for x, y in outline.path().points), strict=True)
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    half, thick, bosses = lever.half, lever.thick, dict(_bosses(lever))
    bent = any(abs(y) > 1e-9 for _, (_, y) in lever.pins)
    at = dict(lever.pins)

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [outline]
        for name, (x, y) in lever.pins:
            bore = dict(lever.holes).get(name)
            if bore:
                face.append(Outline(hole((x, y), bore).corners, "outline", "paper"))
            face += centre_lines((x, y), bosses.get(name, half), scale)
        if lever.slot:
            ends = [at[one] for one in lever.slot]
            if lever.opening:
                cut = bar(ends[0], ends[1], lever.opening / 2)
                face.append(Outline(cut.corners, "outline", "paper"))
            else:
                face.append(Path(np.array(ends), "centre"))
        pins = sorted({round(x, 9) for _, (x, _) in lever.pins})
        spans = [*chain(pins), overall(left, right)]
        spans += [overall(pins[0], pins[-1])] if len(pins) > 2 else []
        face += rows("above", high, spans, scale)
        if bent:
            heights = sorted({round(y, 9) for _, (_, y) in lever.pins if abs(y) > 1e-9})
            face += rows("left", left, [(0.0, y, "") for y in heights], scale)
        holes = [(at[name][0] - d / 2, at[name][0] + d / 2, DIAMETER) for name, d in lever.holes]
        holes += [(at[name][0] - r, at[name][0] + r, DIAMETER) for name, r in bosses.items()]
        face += rows("below", low, holes, scale)
        end = lever.pins[-1] if lever.pins[-1][1][0] >= right - 2 * half else None
        if end is not None and end[0] not in bosses:
            y = end[1][1]
            face += rows("right", right, [(y - half, y + half, "")], scale, [end[1][0]])
        else:
            first = lever.pins[0][1]
            face += rows("left", left, [(first[1] - half, first[1] + half, "")], scale)
        plan: Drawn = [block(left, right, 0.0, thick)]
        plan += rows("right", right, [overall(0.0, thick)], scale)
        return View("elevation", tuple(face)), View("plan", tuple(plan))

    words = ", ".join(names)
    order = ", ".join(_word(name) for name, _ in lever.pins)
    lengths = "; ".join(
        f"{_word(a[0])} to {_word(b[0])} {length(math.dist(a[1], b[1]))}"
        for a, b in pairwise(lever.pins)
    )
    notes = [
        f"Pins from the left: {order}." if not bent else f"True centres: {lengths}.",
        "Ends round about the pins. Pin holes where the crosses are: drill small, ream with the "
        "parts that they join; pins are not decided. Between the eyes it may be narrower.",
    ]
    if bosses:
        taken = ", ".join(length(2 * r) for r in bosses.values())
        notes.append(f"Boss of {taken}: the usual {BOSS:g} of what it goes on.")
    if lever.says:
        notes.append(lever.says)
    return Drawing(
        key="gear-" + names[0].replace(",", "").replace("'", "").replace(" ", "-"),
        title=_title(words, names), material="mild steel", count=sides * len(names),
        views_at=views, flat=True, notes=tuple(notes),
        tolerance=f"centres {within(0.02)}, else {within(0.1)}",
    )  # fmt: skip


def _title(words: str, names: list[str]) -> str:
    if all(one.startswith("rocker,") for one in names) and len(names) > 1:
        words = "rocker arms"
    elif len(words) > 26:
        words = f"{names[0]} and like"
    return words[:1].upper() + words[1:]


def shaft_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the drawings of weighshaft and rocker shaft."""
    if work.clearance is None:
        return []
    made = []
    for piece in work.clearance.engine.pieces:
        if piece.name not in ("weighshaft", "rocker shaft"):
            continue
        across = piece.name == "weighshaft"
        joint = "weighshaft" if across else "rocker"
        on_it = [one for one in work.clearance.engine.pieces
                 if one.moves and joint in one.joints and "shaft" not in one.name]  # fmt: skip
        reversing = work.frames.whole.part("reversing arm") if across and work.frames else None
        driven = None
        if reversing is not None and isinstance(reversing.solids[0], Bar):
            driven = (reversing.solids[0].inner, reversing.solids[0].outer)
        made.append(_shaft(design, piece, on_it, across, driven))
    return made


def _shaft(
    design: Design, piece: Piece, on_it: Sequence[Piece], across: bool,
    driven: tuple[float, float] | None,
) -> Drawing:  # fmt: skip
    diameter = 2 * piece.edges[0][2]
    sides = min(2, design.cylinders.number)
    start, end = (-piece.outer, piece.outer) if across else (piece.inner, piece.outer)
    arms: list[tuple[float, float]] = []
    if driven is not None:
        end = max(end, driven[1])
        arms.append(driven)
    for one in on_it:
        arms.append((one.inner, one.outer))
        if across and sides > 1:
            arms.append((-one.outer, -one.inner))
    arms = sorted({(round(a, 6), round(b, 6)) for a, b in arms})
    most = max(diameter, BOSS * diameter)

    def views(scale: float) -> tuple[View, ...]:
        drawn: Drawn = [
            block(start, end, -diameter / 2, diameter / 2), middle(start, end, scale),
        ]  # fmt: skip
        for a, b in arms:
            for low, up in ((-most / 2, -diameter / 2), (diameter / 2, most / 2)):
                arm = block(a, b, low, up)
                drawn.append(Outline(arm.corners, "behind"))
        drawn += rows("below", -most / 2, [overall(start, end)], scale)
        inside = [start, *(a for a, _ in arms if start + 1e-5 < a < end)]
        drawn += rows("above", most / 2, [(start, x, "") for x in inside[1:]], scale)
        drawn += rows("left", start, [(-diameter / 2, diameter / 2, DIAMETER)], scale)
        return (View("elevation", tuple(drawn)),)

    names = ", ".join([*(one.name for one in on_it), *(["reversing arm"] if driven else [])])
    ends = (
        "Across the engine, as far as the gear was reckoned with: leave what its bearings need."
        if across else
        "From its innermost arm to its outermost: leave what its bearing needs."
    )  # fmt: skip
    return Drawing(
        key=piece.name.replace(" ", "-"), title=piece.name.capitalize(), material="mild steel",
        count=1 if across else sides, views_at=views,
        notes=(
            ends,
            f"Grey: {names or 'its arms'}, measured to their inner faces from the left. Pin or "
            "key them when the gear is set.",
        ),
        tolerance=f"diameter to suit its bearings, else {within(0.1)}",
    )  # fmt: skip
