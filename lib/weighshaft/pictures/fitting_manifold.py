"""The manifold from the side and from its supply end, and its tables."""

from __future__ import annotations

import math

import numpy as np

from ..erection.spanners import corners
from ..workshop.fitting import FittingResult
from ..workshop.fitting.manifold import Made, Stub
from .scene import Array, Circle, Dimension, Label, Path, Point, Primitive, Scene, Table, box


def side(result: FittingResult) -> Scene:
    """Return the manifold from the side, the supply end to the left."""
    made = result.manifold
    half, low, bore = made.body / 2, -made.engaged, made.bore / 2
    still: list[Primitive] = []
    for one in sorted(made.stubs, key=lambda stub: stub.direction[2]):
        still += _stub(one, (0, 1))
    seen = [one for one in still if isinstance(one, Path)]
    still = [
        *seen,
        Path(box(0.0, -half, made.length, half), "outline", True, "metal", "body"),
        Path(box(low, -made.thread.major / 2, 0.0, made.thread.major / 2), "outline", True,
             "metal", "supply end"),
        Path(np.array([[low, bore], [made.drilled, bore], [made.drilled, -bore], [low, -bore]]),
             "hidden"),
        Path(np.array([[low - 2, 0.0], [made.length + 2, 0.0]]), "centre"),
    ]  # fmt: skip
    for one in made.stubs:
        if one.direction[2] > 1e-9:  # it comes towards the one who looks
            still += _stub(one, (0, 1))
    bottom = min(_lowest(made, 1), -half)
    step = 0.35 * made.body
    places = sorted({round(one.start, 6) for one in made.stubs if one.emerges})
    still += [
        Dimension((0.0, bottom), (x, bottom), f"{x:.2f}", -step * n)
        for n, x in enumerate([*places, made.length], 1)
    ]
    still += _numbers(made, (0, 1))
    return Scene(
        "The manifold from the side, supply to the left",
        f"A body of {made.body:.2f} mm, {made.length:.2f} mm long, with {len(made.stubs)} "
        f"branches; the supply's bore of {made.bore:.2f} mm goes {made.drilled:.2f} mm deep. "
        f"The branches' bores together are {made.share:.2f} times the supply's.",
        tuple(still),
    )


def end(result: FittingResult) -> Scene:
    """Return the manifold from its supply end, every branch at its clocking angle."""
    made = result.manifold
    still: list[Primitive] = []
    for one in made.stubs:
        still += _stub(one, (2, 1))
    out = max([made.body, *(_reach(one) for one in made.stubs)])
    still += [
        Circle((0.0, 0.0), made.body / 2, "outline", "metal", "body"),
        Circle((0.0, 0.0), made.bore / 2, "outline", "paper", "supply's bore"),
        Path(np.array([[0.0, -1.1 * out], [0.0, 1.1 * out]]), "centre"),
        Path(np.array([[-1.1 * out, 0.0], [1.1 * out, 0.0]]), "centre"),
        *_numbers(made, (2, 1)),
    ]
    turns = ", ".join(f"{one.number} to {one.branch.clocking:g}°" for one in made.stubs)
    return Scene(
        "The manifold from its supply end",
        f"Branches point, clockwise from up: {turns}." if made.stubs else
        "The manifold has no branches, so that there is nothing to point anywhere.",
        tuple(still),
    )  # fmt: skip


def branches(result: FittingResult) -> Table:
    """Return the branches as pieces to be made."""
    rows: list[tuple[str | float, ...]] = []
    for one in result.manifold.stubs:
        hole = (
            "–" if one.hole is None else
            f"tapped {one.thread.designation}" if one.joint is None else
            f"{one.hole[0]:.3f} to {one.hole[1]:.3f}, best {one.joint.best:.3f}"
        )  # fmt: skip
        rows.append((
            f"{one.number} {one.branch.name[:30]}", one.thread.designation, one.flats, one.bore,
            one.start, f"{one.branch.clocking:g}°", f"{one.branch.lean:g}°", one.reach,
            one.over_all or "–", hole,
        ))  # fmt: skip
    return Table(
        "Branches of the manifold",
        ("branch", "thread", "union nut", "bore", "from the supply end", "clocking", "lean",
         "axis to seat", "stub over all", "hole in the body, cold"),
        tuple(rows) or (("–",) * 10,),
        "Clocking clockwise from up, seen from the supply end; lean from the way of the flow.",
        fine=True,
    )  # fmt: skip


def rooms(result: FittingResult) -> Table:
    """Return walls, room for nuts and spanners, and what turns each branch to its clocking."""
    made, rows = result.manifold, list[tuple[str | float, ...]]()
    pitch = made.thread.pitch
    rows.append(
        ("supply end", made.wall, "–", "–", "–",
         _turn(made.skim, made.washer, pitch))
    )  # fmt: skip
    for one in made.stubs:
        mine = [room for room in made.rooms if one.number in (room.one, room.other)]
        least = [
            min((getattr(room, of) for room in mine), default=None)
            for of in ("bores", "holes", "nuts", "spanner")
        ]
        walls = [x for x in least[:2] if x is not None]
        rows.append(
            (f"{one.number} {one.branch.name[:30]}", one.wall, min(walls) if walls else "–",
             *("–" if x is None else x for x in least[2:]),
             _turn(one.skim, one.washer, one.thread.pitch))
        )  # fmt: skip
    return Table(
        "Walls and room at the manifold, and turning each to its clocking",
        ("branch", "wall in its thread", "metal to the next bore", "its nut to the next nut",
         "spanner to the next nut", "to its clocking"),
        tuple(rows),
        "Less than nothing: in the way. Open-ended spanner 2.1 times the flats and 2 mm.",
        fine=True,
    )  # fmt: skip


def _turn(skim: float | None, washer: float | None, pitch: float) -> str:
    if skim is None or washer is None:
        return f"measure; {pitch / 12:.3f} mm a 30° of turn"
    if not skim:
        return "upright when tight"
    return f"skim {skim:.3f} mm, or washer {washer:.3f} mm"


def _stub(one: Stub, plane: tuple[int, int]) -> list[Primitive]:
    """Return a branch and its nut, seen along an axis."""
    made: list[Primitive] = []
    nut = one.at(one.nut_from), one.at(one.long)
    for (a, b), radius, pen in (
        ((one.at(one.emerges), one.at(one.long)), one.thread.major / 2, "outline"),
        (nut, corners(one.flats) / 2, "changed"),
    ):
        points = _seen(a, b, radius, plane)
        what = "union nut" if pen == "changed" else f"branch {one.number}"
        made.append(Path(points, pen, True, "metal", what))  # type: ignore[arg-type]
    return made


def _seen(start: Array, end: Array, radius: float, plane: tuple[int, int]) -> Array:
    """Return the outline of a round body as it is seen: the hull of its two ends."""
    along = end - start
    way = along / np.linalg.norm(along)
    flat = np.array([way[plane[0]], way[plane[1]]])
    out = float(np.hypot(*flat))
    turns = np.linspace(0.0, 2 * np.pi, 72, endpoint=False)
    # a disc seen aslant is an ellipse, thin along the axis
    short = math.sqrt(max(1 - out * out, 0.0))
    here = flat / out if out > 1e-9 else np.array([1.0, 0.0])
    across = np.array([-here[1], here[0]])
    ring = radius * (short * np.outer(np.cos(turns), here) + np.outer(np.sin(turns), across))
    middle = [np.array([at[plane[0]], at[plane[1]]]) for at in (start, end)]
    behind, ahead = ring @ here < 1e-12, ring @ here > -1e-12
    if out <= 1e-9:
        return np.asarray(middle[1] + ring)
    if short < 1e-6:
        sides = radius * across
        return np.array(
            [middle[0] - sides, middle[1] - sides, middle[1] + sides, middle[0] + sides]
        )
    back, front = middle[0] + ring[behind], middle[1] + ring[ahead]
    order = [
        *sorted(front, key=lambda p: float((p - middle[1]) @ across)),
        *sorted(back, key=lambda p: -float((p - middle[0]) @ across)),
    ]
    return np.array(order)


def _numbers(made: Made, plane: tuple[int, int]) -> list[Label]:
    """Return the number of each branch beyond its end; one that points at the eye, on it."""
    found = []
    for one in made.stubs:
        tip = one.at(one.long + 0.45 * one.thread.major)
        at: Point = (float(tip[plane[0]]), float(tip[plane[1]]) - 0.2 * one.thread.major)
        found.append(Label(str(one.number), at, "middle"))
    return found


def _reach(one: Stub) -> float:
    return one.long + corners(one.flats) / 2


def _lowest(made: Made, axis: int) -> float:
    return min(
        (float(one.at(one.long)[axis]) - corners(one.flats) / 2 for one in made.stubs), default=0.0
    )
