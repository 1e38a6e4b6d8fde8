"""What the moving parts sweep, seen from the side and from above, and the least gaps."""

from __future__ import annotations

import math

import numpy as np

from ..clearance import Clearance, ClearanceResult, Gap, Piece
from .clearance_shapes import edges_of, outlines, spaced, standing
from .scene import (
    Array,
    Circle,
    Dimension,
    Fill,
    Label,
    Path,
    Pen,
    Picture,
    Primitive,
    Scene,
    Table,
    box,
)

_ROUND_PARTS = ("axle", "shaft")
_LISTED = 10
_APART = 0.05  # of the width: names in a column stand so far apart that none covers another


def pictures(clearance: Clearance, result: ClearanceResult) -> tuple[Picture, ...]:
    """Return the sweeps from the side and from above, the least gaps and the room across."""
    sweeps = outlines(result)
    made: list[Picture] = [elevation(result, sweeps), plan(result, sweeps)]
    if result.gaps:
        made.append(gap_table(result))
    if result.side_gaps:
        made.append(side_table(result))
    return tuple(made)


def elevation(result: ClearanceResult, sweeps: dict[str, Array]) -> Scene:
    """Return the right-hand side with all that the parts sweep, cylinder to the right.

    Parameters
    ----------
    sweeps : outline of what each part sweeps, see `outlines`.
    """
    left, right, high = _bounds(result, sweeps)
    sweeps = {name: _cropped(outline, left, right) for name, outline in sweeps.items()}
    still: list[Primitive] = [
        *_stand(result, left, right), *_edges(result, left, right, high)
    ]  # fmt: skip
    for name, outline in sweeps.items():
        still.append(Path(outline, "thin", True, "none", name))
    still.append(Path(np.array([[left, 0.0], [right, 0.0]]), "centre"))
    worst = result.worst
    if worst is not None:
        still += _at_the_worst(result, worst, left, right)
    middle = (left + right) / 2
    targets = {name: _tip(outline, middle) for name, outline in sweeps.items()}
    near = {name for gap in result.gaps for name in (gap.first, gap.second)}
    for piece in result.pieces:
        if _is_round(piece) and ("shaft" in piece.name or piece.name in near):
            targets[piece.name] = _middle(result, piece)
    still += _names(targets, left, right, _APART * (right - left))
    return Scene("What the moving parts sweep", _says(result, len(sweeps)), tuple(still))


def _is_round(piece: Piece) -> bool:
    return piece.name.endswith(_ROUND_PARTS) and not piece.name.startswith("wheel")


def _bounds(result: ClearanceResult, sweeps: dict[str, Array]) -> tuple[float, float, float]:
    """Return back, front and top of the drawing: the motion and the wheels that it reaches.

    The coupling rod runs on beyond it and is broken off there.
    """
    every = np.concatenate([one for name, one in sweeps.items() if name != "coupling rod"])
    reach, worst = result.wheel_diameter / 2, result.worst
    left, right = float(every[:, 0].min()), float(every[:, 0].max())
    shown = [x for x in result.engine.axles if left - reach < x < right + reach]
    if worst is not None:
        shown.append(worst.here[0] if worst.kind != "rail" else 0.0)
    left, right = min(left, *(x - reach for x in shown)), max(right, *(x + reach for x in shown))
    return left, right, max(float(every[:, 1].max()), reach)


def _cropped(outline: Array, left: float, right: float) -> Array:
    return np.column_stack([np.clip(outline[:, 0], left, right), outline[:, 1]])


def _middle(result: ClearanceResult, piece: Piece) -> tuple[float, float]:
    own = edges_of(result, piece.name)
    x, y = (result.starts[own, 0, 0] + result.ends[own, 0, 0])[0] / 2
    return float(x), float(y)


def _stand(result: ClearanceResult, left: float, right: float) -> list[Primitive]:
    """Return wheels, axles with their rise and fall, and shafts."""
    made: list[Primitive] = []
    reach = result.wheel_diameter / 2
    for x in result.engine.axles:
        if left - 1e-6 <= x - reach and x + reach <= right + 1e-6:
            made.append(Circle((x, 0.0), reach, "behind", "none", "wheel"))
    for piece in result.pieces:
        if not _is_round(piece):
            continue
        x, y = _middle(result, piece)
        if not left <= x <= right:
            continue
        radius = piece.edges[0][2]
        if piece.name.endswith("axle") and result.rise:
            for shift in (-result.rise, result.rise):
                made.append(Circle((x, y + shift), radius, "hidden", "none", piece.name))
        made.append(Circle((x, y), radius, "outline", "metal", piece.name))
    return made


def _edges(result: ClearanceResult, left: float, right: float, high: float) -> list[Primitive]:
    """Return rail, boiler and ashpan."""
    made: list[Primitive] = []
    size = 0.02 * (right - left)
    for line in result.lines:
        back, front = max(line.back, left), min(line.front, right)
        if not back < front:
            continue
        points = [[back, line.height], [front, line.height]]
        if line.kind == "ashpan":
            top = max(high, line.height + 4 * size)
            points = [[back, top], *points, [front, top]]
        made.append(Path(np.array(points), "outline", part=line.kind))
        below = -1.6 * size if line.kind == "rail" else 0.6 * size
        where = front - size if line.kind != "boiler" else back + size
        anchor = "end" if line.kind != "boiler" else "start"
        text = {"rail": "rail", "boiler": "boiler, underside", "ashpan": "ashpan"}[line.kind]
        made.append(
            Label(text, (where, line.height + below), "end" if anchor == "end" else "start")
        )
    return made


def _at_the_worst(
    result: ClearanceResult, worst: Gap, left: float, right: float
) -> list[Primitive]:
    """Return the two parts where their gap is least, and the figure."""
    engine = result.engine
    joints = engine.joints(
        np.array([[worst.crank_angle]]), np.array([[worst.reverser]]), np.array([[worst.state]])
    )
    starts, ends = engine.arrays(joints)
    pen: Pen = "stop" if worst.gap < 0 else "changed"
    made: list[Primitive] = []
    for piece in result.pieces:
        if piece.name in (worst.first, worst.second):
            own = edges_of(result, piece.name)
            for outline in standing(piece, starts[own, 0, 0], ends[own, 0, 0]):
                shown = _cropped(outline, left, right)
                made.append(Path(shown, pen, True, "none", piece.name))
    here, there = np.array(worst.here), np.array(worst.there)
    way = there - here
    far = float(np.hypot(*way))
    if worst.gap >= 0 and far > 0:
        near = here + way / far * worst.radii[0]
        other = there - way / far * worst.radii[1]
        made.append(
            Dimension(
                (float(near[0]), float(near[1])), (float(other[0]), float(other[1])),
                f"{worst.gap:.2f}", 0.0,
            )
        )  # fmt: skip
    else:
        x, y = (float(v) for v in (here + there) / 2)
        made.append(Circle((x, y), 0.012 * (right - left), "stop"))
    return made


def _tip(outline: Array, middle: float) -> tuple[float, float]:
    """Return a point just inside an outline for its leader, on the side where its name goes."""
    count = len(outline) // 2
    at = count // 3 if outline[:, 0].mean() < middle else 2 * count // 3
    x, y = 0.85 * outline[at] + 0.15 * outline[len(outline) - 1 - at]
    return float(x), float(y)


def _names(
    targets: dict[str, tuple[float, float]], left: float, right: float, step: float
) -> list[Primitive]:
    """Return names in two columns beside the drawing, in the order of what they name."""
    made: list[Primitive] = []
    middle = (left + right) / 2
    sides: tuple[list[str], list[str]] = ([], [])
    for name, (x, _) in targets.items():
        sides[x > middle].append(name)
    for side, names in enumerate(sides):
        names.sort(key=lambda name: targets[name][1])
        at = right + 1.2 * step if side else left - 1.2 * step
        for name, y in zip(names, spaced([targets[n][1] for n in names], step), strict=True):
            made.append(Label(name, (at, y), "start" if side else "end", targets[name]))
    return made


def _says(result: ClearanceResult, count: int) -> str:
    seen = (
        f"The right-hand side, cylinder to the right, to scale: what {count} parts "
        f"sweep in {len(set(result.reversers.tolist()))} notches"
    )
    worst = result.worst
    if worst is None:
        return f"{seen}; nothing comes near anything else."
    where = f"crank at {worst.crank_angle:.0f}°, reverser at {worst.reverser:+.2f}"
    if not worst.turns:
        where = "however the crank stands"
    one, other = f"the {worst.first}", f"the {worst.second}"
    if worst.gap < 0:
        return f"{seen}; {one} and {other}, in red, overlap by {-worst.gap:.2f} mm, {where}."
    return f"{seen}; {one} and {other}, in blue, come within {worst.gap:.2f} mm, {where}."


def plan(result: ClearanceResult, sweeps: dict[str, Array]) -> Scene:
    """Return the right-hand half from above: every part's plane, as far as it sweeps.

    Ahead is to the right and the engine's centre line along y = 0, the right-hand side below.
    """
    inside, thick = result.frame
    left, right, _ = _bounds(result, sweeps)
    moving = [piece for piece in result.pieces if piece.wanders]
    boxes: dict[str, Array] = {}
    for piece in moving:
        outline = _cropped(sweeps[piece.name], left, right)
        x0, x1 = float(outline[:, 0].min()), float(outline[:, 0].max())
        boxes[piece.name] = box(x0, -piece.outer, x1, -piece.inner)
    shafts = [piece for piece in result.pieces if "shaft" in piece.name]
    reach = result.wheel_diameter / 2
    still: list[Primitive] = [
        _slab(left, right, inside / 2, inside / 2 + thick, "frame", "outline", "section")
    ]
    for piece in result.pieces:
        x = _middle(result, piece)[0]
        half = reach if piece.name.startswith("wheel") else piece.edges[0][2]
        if not piece.wanders and left - 1e-6 <= x - half and x + half <= right + 1e-6:
            still.append(
                _slab(x - half, x + half, piece.inner, piece.outer, piece.name, "behind", "none")
            )
    bad = {one.part for one in result.side_gaps if one.gap < 0}
    worst = result.worst
    if worst is not None and worst.gap < 0:
        bad |= {worst.first, worst.second}
    for name, corners in boxes.items():
        pen: Pen = "stop" if name in bad else "outline"
        still.append(Path(corners, pen, True, "none", name))
    still.append(Path(np.array([[left, 0.0], [right, 0.0]]), "centre", part="centre line"))
    targets = {name: _inner_point(name, corners, boxes) for name, corners in boxes.items()}
    targets["frame"] = (left + 0.02 * (right - left), -(inside + thick) / 2)
    for piece in shafts:
        targets[piece.name] = (_middle(result, piece)[0], -(piece.inner + piece.outer) / 2)
    still += _names(targets, left, right, _APART * (right - left))
    says = "; ".join(
        f"{piece.name} {piece.inner:.1f} to {piece.outer:.1f} mm"
        for piece in sorted(moving, key=lambda piece: piece.inner)
    )
    side = result.side_gaps[0] if result.side_gaps else None
    room = ""
    if side is not None:
        words = f"{side.gap:.2f} mm clear" if side.gap >= 0 else f"{-side.gap:.2f} mm into it"
        beside = "frame plate" if side.beside == "frame" else "same part on the left"
        room = f" Nearest to its {beside}: the {side.part}, {words}."
    return Scene(
        "Planes across the engine",
        f"Half plan, right-hand side below. From the centre line: {says}.{room}",
        tuple(still),
    )


def _slab(
    x0: float, x1: float, inner: float, outer: float, part: str, pen: Pen, fill: Fill
) -> Path:
    return Path(box(x0, -outer, x1, -inner), pen, True, fill, part)


def _inner_point(name: str, corners: Array, boxes: dict[str, Array]) -> tuple[float, float]:
    """Return a point of a box that fewest of the others cover, for its leader."""
    (x0, y0), (x1, y1) = corners[0], corners[2]
    best, fewest = (float((x0 + x1) / 2), float((y0 + y1) / 2)), math.inf
    for share in (0.5, 0.25, 0.75, 0.1, 0.9, 0.02, 0.98):
        x, y = x0 + share * (x1 - x0), (y0 + y1) / 2
        over = sum(
            other != name and b[0, 0] <= x <= b[2, 0] and b[0, 1] <= y <= b[2, 1]
            for other, b in boxes.items()
        )
        if over < fewest:
            best, fewest = (float(x), float(y)), over
    return best


def gap_table(result: ClearanceResult) -> Table:
    """Return the least ten gaps, or all that are short of what is wanted."""
    rows: list[tuple[str | float, ...]] = []
    for n, one in enumerate(result.gaps):
        if n >= _LISTED and result.short_by(one) <= 0:
            continue
        boxes = {0.0: "midway", 1.0: "up", -1.0: "down"}[one.state] if result.rise else "midway"
        clear: tuple[str | float, ...] = (one.gap, "–") if one.gap >= 0 else ("–", -one.gap)
        rows.append(
            (
                f"{one.first}, {one.second}", *clear,
                f"{one.crank_angle:.0f}°" if one.turns else "any",
                f"{one.reverser:+.2f}" if one.turns else "any", boxes,
            )
        )  # fmt: skip
    return Table(
        "Least gaps",
        ("parts", "clear by", "overlap by", "crank", "reverser", "axleboxes"),
        tuple(rows),
        f"{result.wanted:.2f} mm is wanted, {result.rail_wanted:.2f} mm over the rail. Parts "
        "joined by a pin, and parts in planes that do not overlap, are not looked at.",
    )


def side_table(result: ClearanceResult) -> Table:
    """Return the room beside every part across the engine."""
    return Table(
        "Room across the engine",
        ("part", "beside", "clear by", "overlap by"),
        tuple(
            (
                one.part,
                "frame plate" if one.beside == "frame" else "its twin on the other side",
                *((one.gap, "–") if one.gap >= 0 else ("–", -one.gap)),
            )
            for one in result.side_gaps
        ),
        "With the side play of the driving axle taken up.",
    )
