"""The least gap from the side and across, widths along the engine, and the line."""

from __future__ import annotations

import math

import numpy as np

from ..frames import Part, Whole
from ..gauging import Gauging, GaugingResult, Near
from ..gauging.bodies import bodies
from ..gauging.judgement import between, when
from ..gauging.sections import Station
from ..gauging.sweep import outline_at
from .clearance_shapes import spaced
from .gauging_shapes import clipped, cut
from .gauging_tables import gap_table, line_tables, row_table, width_table
from .scene import Array, Dimension, Fill, Label, Path, Pen, Picture, Primitive, Scene, box

_APART = 0.068


def pictures(gauging: Gauging, result: GaugingResult) -> tuple[Picture, ...]:
    """Return the least gap in two views, sections with the loading gauge, widths and tables."""
    made: list[Picture] = []
    worst = result.worst
    if worst is not None:
        made.append(least_gap(result, worst))
        made.append(section(result, "Least gap, cut across", worst.place[0], worst))
    widest = max(result.stations, key=lambda one: one.width)
    made.append(section(result, f"Cut across at the {widest.name}", widest.ahead))
    if widest.name != "driving axle":
        made.append(section(result, "Cut across at the driving axle", 0.0))
    made += [plan(result), gap_table(result), width_table(result), row_table(result)]
    return (*made, *line_tables(gauging, result))


# --- the least gap from the side ------------------------------------------------------------


def least_gap(result: GaugingResult, worst: Near) -> Scene:
    """Return the two parts that come nearest, as they stand then, from the right-hand side."""
    whole = result.whole
    angle = worst.crank_angle or 0.0
    rises = _rises(whole, worst)
    pen: Pen = "stop" if worst.gap < 0 else "changed"
    drawn: list[tuple[str, Array]] = []
    for body in bodies(whole):
        name = body.part.name
        sides = dict(zip((worst.first, worst.second), worst.sides, strict=True))
        left = sides.get(name, "right") == "left"
        if body.part.paired and body.left != left:
            continue
        drawn.append((name, outline_at(whole, body, angle, rises)))
    x0, y0, x1, y1 = _window(result, worst, drawn)
    still: list[Primitive] = []
    pair = (worst.first, worst.second)
    for name, outline in sorted(drawn, key=lambda one: one[0] in pair):
        seen = clipped(outline, x0, y0, x1, y1)
        if len(seen) > 2:
            mine = name in pair
            still.append(Path(np.round(seen, 3), pen if mine else "behind", True, "none", name))
    still.append(Path(np.array([[x0, whole.rail], [x1, whole.rail]]), "outline", part="rail"))
    ends = _gap_ends(drawn, pair)
    if worst.gap > 0 and ends is not None and math.dist(*ends) > 0.5 * worst.gap:
        still.append(Dimension(*ends, f"{worst.gap:.2f}"))
    still += _pair_names(result, worst, drawn, (x0, y0, x1, y1))
    over = f"overlap by {-worst.gap:.2f} mm" if worst.gap < 0 else f"come within {worst.gap:.2f} mm"
    state = when(worst, whole.rise)
    state = f", with {state}" if state else ", however the crank stands"
    pair_words = between(worst).removeprefix("between ")
    return Scene(
        "Least gap from the side" if worst.gap >= 0 else "Worst foul from the side",
        f"Right-hand side, front to the right: {pair_words} {over}{state}; "
        f"{abs(worst.place[2]):.1f} mm out from the centre line. What else stands there is grey.",
        tuple(still),
    )


def _rises(whole: Whole, worst: Near) -> dict[int, Array]:
    index = {axle.name: n for n, axle in enumerate(whole.axles)}
    return {index[name]: np.array([sign * whole.rise]) for name, sign in worst.rises}


def _window(
    result: GaugingResult, worst: Near, drawn: list[tuple[str, Array]]
) -> tuple[float, float, float, float]:
    """Return a window round the gap: so large that both parts are known again."""
    whole = result.whole
    half = 1.1 * whole.coupled[0].diameter
    x, y, _ = worst.place
    top = max(float(points[:, 1].max()) for name, points in drawn
              if name in (worst.first, worst.second))  # fmt: skip
    return x - half, whole.rail - 0.1 * half, x + half, max(min(top, y + half), y) + 0.25 * half


def _gap_ends(
    drawn: list[tuple[str, Array]], pair: tuple[str, str]
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """Return the nearest points of two parts seen from the side."""
    best, ends = math.inf, None
    for one in (points for name, points in drawn if name == pair[0]):
        for other in (points for name, points in drawn if name == pair[1]):
            for first, second, turned in ((one, other, False), (other, one, True)):
                way = np.roll(second, -1, axis=0) - second
                along = ((first[:, None] - second) * way).sum(-1)
                along = np.clip(along / np.maximum((way * way).sum(-1), 1e-12), 0.0, 1.0)
                foot = second + along[..., None] * way
                far = np.hypot(*np.moveaxis(first[:, None] - foot, -1, 0))
                n = np.unravel_index(int(far.argmin()), far.shape)
                if far[n] < best:
                    best = float(far[n])
                    a, b = first[n[0]], foot[n]
                    ends = (b, a) if turned else (a, b)
    if ends is None:
        return None
    (ax, ay), (bx, by) = ends
    return (float(ax), float(ay)), (float(bx), float(by))


def _pair_names(
    result: GaugingResult,
    worst: Near,
    drawn: list[tuple[str, Array]],
    window: tuple[float, float, float, float],
) -> list[Primitive]:
    x0, _, x1, _ = window
    made: list[Primitive] = []
    for name, way in ((worst.first, -1), (worst.second, 1)):
        seen = [clipped(points, *window) for other, points in drawn if other == name]
        seen = [one for one in seen if len(one) > 2]
        if not seen:
            continue
        near = min(seen, key=lambda one: float(np.hypot(*(one.mean(axis=0) - worst.place[:2]))))
        at = near[int((way * near[:, 0]).argmax())]
        edge = x0 - 0.04 * (x1 - x0) if way < 0 else x1 + 0.04 * (x1 - x0)
        made.append(
            Label(name, (edge, float(at[1])), "end" if way < 0 else "start",
                  (float(at[0]), float(at[1])))
        )  # fmt: skip
    return made


# --- cut across -----------------------------------------------------------------------------


def section(result: GaugingResult, title: str, x: float, worst: Near | None = None) -> Scene:
    """Return the engine cut across, seen from the back so that its right side is on the right.

    Parameters
    ----------
    x : place ahead of the driving axle, mm.
    worst : the gap to light, with its crank angle; None draws it on front dead centre.
    """
    whole = result.whole
    angle = (worst.crank_angle if worst else None) or 0.0
    pair = (worst.first, worst.second) if worst else ()
    pen: Pen = "stop" if worst is not None and worst.gap < 0 else "changed"
    still: list[Primitive] = []
    right: dict[str, tuple[float, float]] = {}
    left: dict[str, tuple[float, float]] = {}
    for part in sorted(whole.parts, key=lambda one: one.name in pair):
        if part.kind == "water":
            continue
        for outline in cut(part, whole, x, angle):
            lit = part.name in pair
            fill: Fill = "section" if part.kind in ("frames", "wheels") else "none"
            still.append(
                Path(np.round(outline, 3), pen if lit else _pen(part), True,
                     "none" if lit else fill, part.name)
            )  # fmt: skip
            for side, targets in ((1, right), (-1, left)):
                corner = outline[int((side * outline[:, 0] + 1e-3 * outline[:, 1]).argmax())]
                if side * corner[0] >= 0:
                    targets.setdefault(part.name, (float(corner[0]), float(corner[1])))
    if worst is not None:
        still += _across(whole, worst)
    still += _rails(whole)
    half, top = _gauge_and_platform(result, still)
    seen = [one.points for one in still if isinstance(one, Path)]
    half = max(half, *(float(np.abs(points[:, 0]).max()) for points in seen))
    top = max(top, *(float(points[:, 1].max()) for points in seen))
    still.append(Path(np.array([[0.0, whole.rail], [0.0, top]]), "centre", part="centre line"))
    step = _APART * (top - whole.rail)
    still += _names_beside(right, left, 1.12 * half, step)
    station = next((one for one in result.stations if abs(one.ahead - x) < 1e-6), None)
    return Scene(title, _section_says(result, x, station, worst), tuple(still))


def _names_beside(
    right: dict[str, tuple[float, float]],
    left: dict[str, tuple[float, float]],
    x: float,
    step: float,
) -> list[Primitive]:
    """Return the names of parts in two columns, from below turn about on the right and the left."""
    every = right | {name: at for name, at in left.items() if name not in right}
    columns: tuple[list[str], list[str]] = ([], [])
    for name in sorted(every, key=lambda name: every[name][1]):
        on_left = name not in right or (name in left and len(columns[1]) < len(columns[0]))
        columns[on_left].append(name)
    made: list[Primitive] = []
    for targets, names, at, anchor in (
        (right, columns[0], x, "start"), (left, columns[1], -x, "end"),
    ):  # fmt: skip
        places = spaced([targets[name][1] for name in names], step)
        for name, y in zip(names, places, strict=True):
            made.append(Label(name, (at, y), anchor, targets[name]))  # type: ignore[arg-type]
    return made


def _across(whole: Whole, worst: Near) -> list[Primitive]:
    """Return the room across between two parts that run side by side, as drawn."""
    solids = {
        name: [one.shape for one in bodies(whole) if one.part.name == name and not one.left]
        for name in (worst.first, worst.second)
    }
    for a in solids[worst.first]:
        for b in solids[worst.second]:
            near, far = (a, b) if a.high <= b.low else (b, a)
            room = far.low - near.high
            if worst.gap > 0 and abs(room - worst.play - worst.gap) < 1e-3:
                y = worst.place[1]
                return [Dimension((near.high, y), (far.low, y), f"{room:.2f}")]
    return []


def _section_says(
    result: GaugingResult, x: float, station: Station | None, worst: Near | None
) -> str:
    where = f"{abs(x):.1f} mm {'ahead of' if x >= 0 else 'behind'} the driving axle"
    said = f"Seen from the back, {where}"
    if worst is not None:
        over = "overlap by" if worst.gap < 0 else "come within"
        pair = between(worst).removeprefix("between ")
        said += f": {pair} {over} {abs(worst.gap):.2f} mm, sides as drawn without side play"
    if station is not None:
        said += f"; {station.width:.1f} mm wide with side play taken up"
    if result.gauge is not None and result.inside_gauge is not None:
        inside = result.inside_gauge
        said += (
            f"; the dashed loading gauge ({result.gauge.name}) leaves {max(inside, 0.0):.2f} mm at "
            "least"
            if inside > -0.005
            else f"; something stands {-inside:.2f} mm outside the dashed loading gauge "
            f"({result.gauge.name})"
        )
    return f"{said}."


def _pen(part: Part) -> Pen:
    return "behind" if part.kind in ("boiler", "platework", "fittings") else "outline"


def _rails(whole: Whole) -> list[Primitive]:
    wide, deep = 0.06 * whole.gauge, 0.08 * whole.gauge
    inner, outer = whole.gauge / 2, whole.gauge / 2 + wide
    low, high = whole.rail - deep, whole.rail
    return [
        Path(box(one, low, other, high), "thin", True, "section", "rail")
        for one, other in ((inner, outer), (-outer, -inner))
    ]


def _gauge_and_platform(result: GaugingResult, still: list[Primitive]) -> tuple[float, float]:
    """Add the loading gauge and the platform; return how far out and up they reach, mm."""
    rail, half, top = result.whole.rail, 0.0, 0.0
    tall = max(part.extent[1][1] for part in result.whole.parts)
    if result.gauge is not None and result.gauge.corners[0][1] < 1e4:
        corners = [(h, w) for h, w in result.gauge.corners if h < 1e4]
        if result.gauge.top >= 1e4:
            corners.append((1.05 * (tall - rail), result.gauge.corners[-1][1]))
        right = np.array([(w, rail + h) for h, w in corners])
        outline = np.concatenate([right, (right * [-1, 1])[::-1]])
        still.append(Path(outline, "hidden", False, "none", "loading gauge"))
        half, top = float(right[:, 0].max()), float(right[:, 1].max())
    if result.platform is not None:
        height, edge = result.platform
        out = edge + 0.3 * result.whole.gauge
        low = rail - 0.08 * result.whole.gauge
        still.append(Path(box(edge, low, out, rail + height), "thin", True, "section", "platform"))
        half = max(half, out)
    return half, top


# --- widths along the engine ----------------------------------------------------------------


def plan(result: GaugingResult) -> Scene:
    """Return the engine from above with its width at every station; right-hand side below."""
    whole = result.whole
    still: list[Primitive] = []
    for body in bodies(whole):
        if body.part.kind in ("boiler", "fittings"):
            continue
        shape, moves = body.shape, not body.stands
        pen: Pen = "outline" if body.part.kind in ("frames", "wheels") else "behind"
        still.append(
            Path(np.round(box(body.low[0], -shape.high, body.high[0], -shape.low), 3),
                 "thin" if moves else pen, True, "none", body.part.name)
        )  # fmt: skip
    left, right = whole.buffer_back, whole.buffer_front
    widest = max(one.width for one in result.stations) / 2
    if result.gauge is not None:
        half = max((w for _, w in result.gauge.corners), default=0.0)
        if half < 1e4:
            for sign in (1, -1):
                ends = np.array([[left, sign * half], [right, sign * half]])
                still.append(Path(ends, "hidden", part="loading gauge"))
            widest = max(widest, half)
    still.append(Path(np.array([[left, 0.0], [right, 0.0]]), "centre", part="centre line"))
    stations = sorted(result.stations, key=lambda one: one.ahead)
    step = 0.045 * (right - left)
    for one, x in zip(stations, spaced([one.ahead for one in stations], step), strict=True):
        half = one.width / 2
        still.append(Path(np.array([[one.ahead, -half], [one.ahead, half]]), "centre"))
        still.append(Label(f"{one.width:.1f}", (x, -1.25 * widest), "middle", (one.ahead, -half)))
    says = "; ".join(f"{one.name} {one.width:.1f} mm" for one in reversed(stations))
    return Scene(
        "Widths along the engine",
        f"From above, front to the right, right-hand side below; what turns or slides is drawn in "
        f"the room that it takes. Widths with side play taken up: {says}.",
        tuple(still),
    )
