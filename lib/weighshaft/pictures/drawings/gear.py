"""Expansion link, eccentric sheaves, and eccentric rods with their straps."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import numpy as np

from ...clearance.engine import Engine, Piece
from ...design import Design
from ...motion.kernel import Part
from ..lengths import length
from ..scene import Arc, Label, Point
from .bars import apart, bar_drawings, flat, places_of, shaft_drawings
from .dimensions import chain, overall, rows
from .joined import bar, curved, disc, union
from .sheet import Drawing, Outline, View, centre_lines, hole
from .turned import DIAMETER, Drawn, block, line, middle, within


def gear_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the drawings of the valve gear."""
    if work.clearance is None:
        return []
    engine: Engine = work.clearance.engine
    places = places_of(engine)
    if places is None:
        return []
    made = [*_links(design, work, engine, places), *_sheaves(design, work, engine, places)]
    made += _straps(design, work, engine, places)
    return [*made, *bar_drawings(design, work), *shaft_drawings(design, work)]


def _sides(design: Design) -> int:
    return min(2, design.cylinders.number)


def _links(
    design: Design, work: Any, engine: Engine, places: dict[str, np.ndarray]
) -> list[Drawing]:
    made = []
    for part in engine.gear.parts:
        if part.shape != "slot" or any(one not in places for one in part.joints):
            continue
        piece = next((one for one in engine.pieces if one.name == part.name), None)
        if piece is not None:
            made.append(_link(design, work, engine, places, part, piece))
    return made


def _link(
    design: Design, work: Any, engine: Engine, places: dict[str, np.ndarray], part: Part,
    piece: Piece,
) -> Drawing:  # fmt: skip
    radius = apart(places, part.joints[0], part.joints[1])[0]
    centre: Point = (0.0, 0.0)
    half = max(edge[2] for edge in piece.edges)
    eye = min(edge[2] for edge in piece.edges)
    pins = _link_pins(part, places, radius)
    spread = math.degrees(float(np.asarray(engine.slot)) / radius)
    way = _bulges(part, places)
    amid = 0.0 if way > 0 else 180.0
    parts = [curved(centre, radius, amid - spread, amid + spread, half)]
    for _, (x, y) in pins:
        turn = math.degrees(math.atan2(y, way * x))
        near = math.radians(min(max(turn, -spread), spread))
        foot = (way * radius * math.cos(near), radius * math.sin(near))
        parts.append(bar(foot, (x, y), eye))
    outline = union(parts)
    slot = _slot(work, radius, half)
    points = outline.path().points
    (left, low), (right, high) = points.min(axis=0), points.max(axis=0)
    left, right, low, high = float(left), float(right), float(low), float(high)
    thick = piece.outer - piece.inner
    hung = _suspension(places, part)

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [outline]
        wide = min(spread * 1.25, 80.0)
        face.append(Arc(centre, radius, amid - wide, amid + wide, "centre"))
        if slot is not None:
            width, arc = slot
            turn = math.degrees(arc / 2 / radius)
            opening = curved(centre, radius, amid - turn, amid + turn, width / 2)
            face.append(Outline(opening.corners, "outline", "paper"))
            x = way * radius * math.cos(math.radians(turn))
            y = radius * math.sin(math.radians(turn))
            face += centre_lines((x, y), width / 2, scale)
            face += centre_lines((x, -y), width / 2, scale)
            face += rows("right", right, [(-y, y, "")], scale, [x])
        edges = overall(way * radius - half, way * radius + half)
        face += rows("above", high, [edges], scale, [0.0])
        face.append(line(left - 4 / scale, 0.0, right + 4 / scale, 0.0))
        marks = [*pins, *hung]
        for _, at in marks:
            face += centre_lines(at, eye, scale)
        heights = [(0.0, y, "") for _, (_, y) in marks if abs(y) > 1e-6]
        face += rows("left", left, [*heights, overall(low, high)], scale)
        across = sorted({round(x - way * radius, 6) for _, (x, _) in marks} | {0.0})
        face += rows("below", low, chain([way * radius + one for one in across]), scale)
        at = (way * radius * math.cos(math.radians(0.6 * spread)),
              radius * math.sin(math.radians(0.6 * spread)))  # fmt: skip
        words = f"slot {length(slot[0])} wide, " if slot is not None else "slot "
        words += f"R {length(radius)}"
        face.append(Label(words, (right + 24 / scale, high + 4 / scale), "start", at))
        end: Drawn = [block(0.0, thick, low, high)]
        end += rows("above", high, [overall(0.0, thick)], scale)
        return View("elevation", tuple(face)), View("end", tuple(end))

    return Drawing(
        key=f"gear-{part.name}-slotted", title=_link_title(part.name), material="mild steel",
        count=_sides(design), views_at=views, flat=True,
        notes=_link_notes(work, radius, half, eye, slot, pins, hung),
        tolerance=f"slot radius {within(0.1)}, slot width +{length(0.02)}/0, else {within(0.1)}",
    )  # fmt: skip


def _link_title(name: str) -> str:
    return "Expansion link" if name == "link" else name.capitalize()


def _link_pins(part: Part, places: dict[str, np.ndarray], radius: float) -> list[tuple[str, Point]]:
    """Return the pins of an upright link from the centre from which its slot is struck, mm."""
    middle, centre = places[part.joints[0]][0], places[part.joints[1]][0]
    out = (middle - centre) / radius * _bulges(part, places)
    up = np.array([-out[1], out[0]])
    return [
        (name, (float((places[name][0] - centre) @ out), float((places[name][0] - centre) @ up)))
        for name in part.joints[2:]
    ]  # fmt: skip


def _bulges(part: Part, places: dict[str, np.ndarray]) -> float:
    """Return +1 where the slot's hollow side is behind, so that it bulges ahead, else -1."""
    middle, centre = (places[one][0] for one in part.joints[:2])
    return 1.0 if middle[0] >= centre[0] else -1.0


def _suspension(places: dict[str, np.ndarray], part: Part) -> list[tuple[str, Point]]:
    """Return where the lifting pin of a link stands, where it has one of its own."""
    if part.name != "link" or "suspension" not in places:
        return []
    fixed = [apart(places, "suspension", one) for one in part.joints[:2]]
    if any(high - low > 1e-6 for low, high in fixed):
        return []
    return _link_pins(
        Part(part.name, (part.joints[0], part.joints[1], "suspension")), places,
        apart(places, part.joints[0], part.joints[1])[0],
    )  # fmt: skip


def _slot(work: Any, radius: float, half: float) -> tuple[float, float] | None:
    """Return width of the slot and its end holes apart along the arc, mm; None if not known."""
    slots = work.slots
    if slots is None or abs(slots.radius - radius) > 1e-6 or slots.width >= 2 * half:
        return None
    return float(slots.width), float(slots.arc)


def _link_notes(
    work: Any, radius: float, half: float, eye: float, slot: tuple[float, float] | None,
    pins: list[tuple[str, Point]], hung: list[tuple[str, Point]],
) -> tuple[str, ...]:  # fmt: skip
    flanks = (length(radius - half), length(radius + half))
    notes = [
        f"Edges concentric with the slot: R {flanks[0]} and {flanks[1]}. Ends R {length(half)}"
        + (f", lugs R {length(eye)}." if pins else ".")
    ]
    if slot is None:
        notes.append("Slot's width is not decided: its middle line is drawn.")
    else:
        width, arc = slot
        chord = 2 * radius * math.sin(arc / 2 / radius)
        notes.append(
            f"End holes ⌀{length(width)}, {length(chord)} apart straight, {length(arc)} along the "
            f"arc; sagitta {length(radius - radius * math.cos(arc / 2 / radius))}. Coordinates are "
            "in the chapter on slots."
        )
    names = ", ".join(name.replace("_", " ") for name, _ in (*pins, *hung))
    notes.append(
        (f"Crosses: {names}. " if names else "")
        + "Pin holes are reamed with their rods; pins are not decided."
        + (" A lifting pin amid the slot stands on a plate across it." if hung else "")
    )
    return tuple(notes)


def _sheaves(
    design: Design, work: Any, engine: Engine, places: dict[str, np.ndarray]
) -> list[Drawing]:
    groups: list[tuple[float, float, float, list[str]]] = []
    for part in engine.gear.parts:
        piece = next((one for one in engine.pieces if one.name == part.name), None)
        if part.shape != "sheave" or piece is None or part.joints[0] not in places:
            continue
        at = places[part.joints[0]]
        throw = float(np.hypot(at[0, 0], at[0, 1]))
        diameter = work.wheels.sheave if work.wheels is not None else None
        if diameter is None:
            continue
        wide = piece.outer - piece.inner
        same = next((one for one in groups if abs(one[0] - throw) < 1e-6
                     and abs(one[2] - wide) < 1e-6), None)  # fmt: skip
        if same is None:
            groups.append((throw, diameter, wide, [part.name]))
        else:
            same[3].append(part.name)
    return [_sheave(design, work, *one, n) for n, one in enumerate(groups)]


def _sheave(
    design: Design, work: Any, throw: float, diameter: float, wide: float, names: list[str],
    n: int,
) -> Drawing:  # fmt: skip
    axle, r = design.wheels.axle_diameter, diameter / 2
    thin = r - throw - axle / 2

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [
            Outline(hole((0.0, 0.0), diameter).corners, "outline", "metal"),
            Outline(hole((-throw, 0.0), axle).corners, "outline", "paper"),
            *centre_lines((0.0, 0.0), r, scale),
            line(-throw, -axle / 2 - 3 / scale, -throw, axle / 2 + 3 / scale),
        ]  # fmt: skip
        face += rows("below", -r, [(-throw, 0.0, "")], scale, [0.0])
        face += rows("above", r, [(-throw - axle / 2, -throw + axle / 2, DIAMETER)], scale, [0.0])
        face += rows("left", -r, [(-r, r, DIAMETER)], scale, [0.0])
        end: Drawn = [block(0.0, wide, -r, r), middle(0.0, wide, scale)]
        end += rows("above", r, [overall(0.0, wide)], scale)
        return View("elevation", tuple(face)), View("end", tuple(end))

    fit = getattr(work, "eccentrics", None)
    low, high = getattr(fit, "sheave_low", None), getattr(fit, "sheave_high", None)
    turned = (
        f"Turn to {length(low)} to {length(high)}. " if low is not None and high is not None
        and abs(high - diameter) < 0.2 else "Turn to suit its strap. "
    )  # fmt: skip
    loose = "slip" in engine_kind(design)
    hold = (
        "Runs free on the axle between the dogs of its stop, made as the chapter on eccentrics "
        "has it." if loose else "Holding screw or key: not decided; fix it when the valve is set."
    )  # fmt: skip
    return Drawing(
        key="eccentric-sheave" if n == 0 else f"eccentric-sheave-{n + 1}",
        title="Eccentric sheave", material="mild steel", count=_sides(design) * len(names),
        views_at=views,
        notes=(
            f"{', '.join(names).capitalize()}. {turned}Thin side {length(thin)}.",
            f"{hold} A lip or groove that keeps the strap on goes within the width.",
        ),
        tolerance=f"throw {within(0.02)}, all alike; else {within(0.1)}",
    )  # fmt: skip


def engine_kind(design: Design) -> str:
    """Return the word of the valve gear."""
    return str(design.motion.gear.kind)


def _straps(
    design: Design, work: Any, engine: Engine, places: dict[str, np.ndarray]
) -> list[Drawing]:
    """Return eccentric rods with their straps, one drawing for those that are alike."""
    sheave = work.wheels.sheave if work.wheels is not None else None
    if sheave is None:
        return []
    around = {part.joints[0]: next((one for one in engine.pieces if one.name == part.name), None)
              for part in engine.gear.parts if part.shape == "sheave"}  # fmt: skip
    groups: list[tuple[tuple[tuple[str, Point], ...], Piece, Piece, list[str]]] = []
    for piece in engine.pieces:
        if len(piece.edges) < 1 or piece.edges[0][0] == piece.edges[0][1]:
            continue
        joints = [piece.edges[0][0], *(other for _, other, _ in piece.edges)]
        strap = around.get(joints[0])
        pins = flat(places, joints) if strap is not None else None
        if strap is None or pins is None:
            continue
        same = next((one for one in groups if _near(one, pins, piece)), None)
        if same is None:
            groups.append((pins, piece, strap, [piece.name]))
        else:
            same[3].append(piece.name)
    return [_strap(design, work, sheave, *one, n) for n, one in enumerate(groups)]


def _near(
    group: tuple[tuple[tuple[str, Point], ...], Piece, Piece, list[str]],
    pins: tuple[tuple[str, Point], ...], piece: Piece,
) -> bool:  # fmt: skip
    same = len(group[0]) == len(pins) and all(
        math.dist(a, b) < 1e-6 for (_, a), (_, b) in zip(group[0], pins, strict=True)
    )
    thick = (group[1].outer - group[1].inner) - (piece.outer - piece.inner)
    return same and abs(thick) < 1e-6


def _strap(
    design: Design, work: Any, sheave: float, pins: tuple[tuple[str, Point], ...], piece: Piece,
    strap: Piece, names: list[str], n: int,
) -> Drawing:  # fmt: skip
    half, outside = piece.edges[0][2], max(edge[2] for edge in strap.edges)
    thick, wide = piece.outer - piece.inner, strap.outer - strap.inner
    parts = [bar(a, b, half) for (_, a), (_, b) in pairwise(pins)]
    outline = union([disc((0.0, 0.0), outside), *parts])
    points = outline.path().points
    (left, low), (right, high) = points.min(axis=0), points.max(axis=0)
    left, right, low, high = float(left), float(right), float(low), float(high)
    ends = sorted({round(x, 9) for _, (x, _) in pins})
    offset = (piece.inner + piece.outer) / 2 - (strap.inner + strap.outer) / 2

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [
            outline, Outline(hole((0.0, 0.0), sheave).corners, "outline", "paper"),
            middle(left, right, scale), centre_lines((0.0, 0.0), outside, scale)[1],
        ]  # fmt: skip
        for _, at in pins[1:]:
            face += centre_lines(at, half, scale)
        spans = [*chain(ends), overall(left, right)]
        spans += [overall(ends[0], ends[-1])] if len(ends) > 2 else []
        face += rows("above", high, spans, scale)
        face += rows("left", left, [
            (-outside, outside, DIAMETER), (-sheave / 2, sheave / 2, DIAMETER),
        ], scale, [0.0, 0.0])  # fmt: skip
        last = pins[-1][1]
        face += rows("right", right, [(last[1] - half, last[1] + half, "")], scale, [last[0]])
        bent = [(0.0, y, "") for _, (_, y) in pins if abs(y) > 1e-6]
        face += rows("right", right, bent, scale, first=1) if bent else []
        plan: Drawn = [
            block(left, outside, -wide / 2, wide / 2),
            block(outside, right, offset - thick / 2, offset + thick / 2),
        ]
        plan += rows("left", left, [overall(-wide / 2, wide / 2)], scale)
        plan += rows("right", right, [overall(offset - thick / 2, offset + thick / 2)], scale)
        return View("elevation", tuple(face)), View("plan", tuple(plan))

    fit = getattr(work, "eccentrics", None)
    bored = (getattr(fit, "strap_low", None), getattr(fit, "strap_high", None))
    bore = "Bore to run on its sheave. "
    if bored[0] is not None and bored[1] is not None and abs(bored[0] - sheave) < 0.2:
        bore = f"Bore to {length(bored[0])} to {length(bored[1])}. "
    words = ", ".join(names)
    return Drawing(
        key="eccentric-rod" if n == 0 else f"eccentric-rod-{n + 1}",
        title="Eccentric rod and strap", material="mild steel",
        count=_sides(design) * len(names), views_at=views,
        notes=(
            f"{words[:1].upper()}{words[1:]}. {bore}The length is from the middle of the bore.",
            "Whether the strap is split across its bore with lugs and bolts is not decided. "
            "Make all rods to one length; pin holes are reamed with the parts that they join.",
        ),
        tolerance=f"centres {within(0.02)}, else {within(0.1)}",
    )  # fmt: skip
