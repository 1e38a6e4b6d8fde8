"""Where the pivots are and where they should be: cut-offs, score by parts, both gears, map."""

from __future__ import annotations

import math

import numpy as np

from ..motion import AnyGear, MotionLocks, solve_motion
from ..motion.frame import Crank
from ..motion.kernel import Part
from ..pivots import PivotMap, Pivots, PivotsResult, Room, Score, SearchResult
from .pivots_map import map_charts
from .scene import (
    Array,
    Band,
    Chart,
    Circle,
    Curve,
    Label,
    Path,
    Pen,
    Picture,
    Primitive,
    Scene,
    Table,
)

_CRANK_ANGLE = 60.0
_NAMED = 4
"""Joints named in the drawing of both gears: those that moved furthest."""
_ENGINE = {"crank_pin", "gudgeon"}


def pictures(
    pivots: Pivots,
    result: PivotsResult,
    found: SearchResult | None = None,
    map: PivotMap | None = None,
) -> tuple[Picture, ...]:
    """Return cut-offs over the notches, both gears, the map, the parts of the score and the sizes.

    Parameters
    ----------
    found : what a search has found, None before any.
    map : over two sizes, None where none was asked for.
    """
    made: list[Picture] = [cutoff_chart(result, found)]
    if found is not None and found.moved:
        drawing = both_gears(result, found)
        made += [drawing] if drawing is not None else []
    if map is not None:
        made += map_charts(map)
    made.append(score_table(result, found))
    made.append(size_table(result, found))
    if found is not None and len(found.history) > 1:
        made.append(progress_chart(found))
    return tuple(made)


def cutoff_chart(result: PivotsResult, found: SearchResult | None) -> Chart:
    """Return by how much the cut-offs of front and back differ in the notches that count."""
    notches = np.array(result.problem.notches)
    order = np.argsort(notches)
    curves = [_apart(notches, order, result.present, "as it is", "behind" if found else "outline")]
    says = f"As it is the cut-offs differ by {_most(result.present)} % of the stroke at most"
    if found is not None:
        curves.append(_apart(notches, order, found.best, "best", "changed"))
        says += f", with the best gear by {_most(found.best)} %"
    return Chart(
        "Cut-offs apart, front less back",
        f"{says}, over the notches from backward (left) to forward gear.",
        "reverser", "front less back, % of stroke",
        tuple(curve for curve in curves if len(curve.x)),
        (Band(-1.0, 1.0, "within 1 %"),),
    )  # fmt: skip


def _apart(
    notches: Array, order: np.ndarray[tuple[int]], score: Score, label: str, pen: Pen
) -> Curve:
    apart = np.array(score.apart, dtype=float)[order]
    known = np.isfinite(apart)
    return Curve(notches[order][known], np.round(apart[known], 3), label, pen)


def _most(score: Score) -> str:
    known = [abs(one) for one in score.apart if one is not None]
    return f"{max(known):.1f}" if known else "–"


def score_table(result: PivotsResult, found: SearchResult | None) -> Table:
    """Return the parts of the score: the fault itself, and what it counts."""
    best = {part.name: part for part in found.best.parts} if found else {}
    columns = ["fault", "counts as one", "as it is", "faults"]
    rows: list[tuple[str | float, ...]] = []
    for part in result.present.parts:
        locked = not math.isfinite(result.present.total)
        row: list[str | float] = [part.label, _in(part.unit, part.counts)]
        row += ["–", "–"] if locked else [_in(part.unit, part.figure), f"{part.faults:.2f}"]
        if found is not None:
            after = best[part.name]
            row += [_in(after.unit, after.figure), f"{after.faults:.2f}"]
        rows.append(tuple(row))
    total: list[str | float] = ["Score", "", "", _score(result.present.total)]
    if found is not None:
        columns += ["best", "faults"]
        total += ["", _score(found.best.total)]
    return Table(
        "Score by its parts", tuple(columns), (*rows, tuple(total)),
        "Each fault is the root of its mean square over the notches. The score is the root of "
        "the sum of squares: 2 is as bad as cut-offs 2 % apart in every forward notch, where "
        "1 % counts as one.",
    )  # fmt: skip


def _in(unit: str, value: float) -> str | float:
    return value if unit == "mm" else f"{value:.2f} %"


def _score(total: float) -> str:
    return f"{total:.2f}" if math.isfinite(total) else "locks"


def size_table(result: PivotsResult, found: SearchResult | None) -> Table:
    """Return what may move, between what, and where the best gear has it."""
    if found is None:
        rows: list[tuple[str | float, ...]] = [
            (one.label, *(_size(one.unit, value) for value in (one.low, one.now, one.high)))
            for one in result.rooms
        ]
        return Table("What may move", ("size", "from", "now", "to"), tuple(rows))
    rooms = {one.field: one for one in found.problem.rooms}
    moved = {one.field: one for one in found.moved}
    rows = [
        (
            one.label, _size(one.unit, one.before), _size(one.unit, one.after),
            _without(one.without) + (", at its limit" if one.at_limit else ""),
        )
        for one in found.moved
    ]  # fmt: skip
    rows += [_stays(one) for name, one in rooms.items() if name not in moved]
    return Table(
        "What is moved", ("size", "now", "best", "score if this one stayed"), tuple(rows),
        found.worth.says,
    )  # fmt: skip


def _stays(one: Room) -> tuple[str | float, ...]:
    return (one.label, _size(one.unit, one.now), "stays", "")


def _size(unit: str, value: float) -> str | float:
    return value if unit == "mm" else f"{value:.2f}°"


def _without(score: float | None) -> str:
    if score is None:
        return "follows"
    return f"{score:.2f}" if math.isfinite(score) else "breaks a limit"


def progress_chart(found: SearchResult) -> Chart:
    """Return how the best score fell with the gears tried."""
    tried, best = (np.array(column, dtype=float) for column in zip(*found.history, strict=True))
    tried, best = np.append(tried, found.tried), np.append(best, best[-1])
    whole = "stopped after" if found.stopped else "after"
    return Chart(
        "How the search went",
        f"The best score is {best[-1]:.2f} {whole} {found.tried} gears, from "
        f"{best[0]:.2f} in the first {tried[0]:.0f}; number {found.seed} finds it again.",
        "gears tried", "best score so far, faults",
        (Curve(np.repeat(tried, 2)[1:], np.repeat(best, 2)[:-1], "best so far", "changed"),),
    )  # fmt: skip


def both_gears(result: PivotsResult, found: SearchResult) -> Scene | None:
    """Return the gear as it is in grey under the best one, crank and reverser alike."""
    problem = found.problem
    notch = max(problem.notches, key=lambda one: (one < 1, one))
    best = _posed(problem.crank, found.gear, notch)
    if best is None:
        return None
    before = _posed(problem.crank, problem.gear, notch)
    throw = problem.crank.throw
    still: list[Primitive] = [
        Path(np.array([[-1.5 * throw, 0.0], [_ahead(best) + throw, 0.0]]), "centre"),
        Path(np.array([[0.0, -1.5 * throw], [0.0, 1.5 * throw]]), "centre"),
        Circle((0.0, 0.0), throw, "centre"),
    ]
    if before is not None:
        still += _drawn(problem.gear, before, throw, "behind")
    still += _drawn(found.gear, best, throw, "outline")
    crank = np.stack([np.zeros(2), best["crank_pin"]])
    still.append(Path(crank, "crank", part="crank"))
    names, furthest = _names(before or {}, best, throw)
    still += names
    moved = sum(not one.follows for one in found.moved)
    says = (
        f"The gear as it is (grey) and the best one found, {moved} size{'s' * (moved != 1)} moved, "
        f"both with the crank at {_CRANK_ANGLE:g}° and the reverser at {notch:+.2f}"
    )
    return Scene(
        "The gear as it is, and the best",
        f"{says}{'; ' + furthest if furthest else ''}.",
        tuple(still),
    )


def _posed(crank: Crank, gear: AnyGear, notch: float) -> dict[str, Array] | None:
    try:
        motion = solve_motion(crank, gear, [_CRANK_ANGLE], notch)
    except MotionLocks:
        return None
    return {name: np.array(place[0]) for name, place in motion.points.items()}


def _ahead(points: dict[str, Array]) -> float:
    return max(float(place[0]) for place in points.values())


def _drawn(gear: AnyGear, points: dict[str, Array], throw: float, pen: Pen) -> list[Primitive]:
    made: list[Primitive] = []
    for part in sorted(gear.parts, key=lambda one: not one.behind):
        if all(joint in points for joint in part.joints):
            made += _part(gear, part, [points[joint] for joint in part.joints], throw, pen)
    return made


def _part(
    gear: AnyGear, part: Part, through: list[Array], throw: float, pen: Pen
) -> list[Primitive]:
    small = 0.06 * throw
    pins: list[Primitive] = [
        Circle((float(x), float(y)), small, pen, "paper", part.name) for x, y in through
    ]
    if part.shape == "sheave":
        arm = np.stack([np.zeros(2), through[0]])
        return [Path(arm, pen if pen == "behind" else "thin", part=part.name), *pins]
    if part.shape == "slot":
        link, centre = through[0], through[1]
        out = link - centre
        radius = float(np.hypot(*out))
        half = (getattr(gear, "slot_length", None) or 1.5 * throw) / 2
        angle = math.atan2(out[1], out[0]) + np.linspace(-1, 1, 17) * half / radius
        arc = centre + radius * np.stack([np.cos(angle), np.sin(angle)], axis=-1)
        sides: list[Primitive] = [Path(arc, pen, part=part.name)]
        sides += [Path(np.stack([link, pin]), "thin" if pen != "behind" else pen, part=part.name)
                  for pin in through[2:]]  # fmt: skip
        return [*sides, pins[0], *pins[2:]]
    if len(through) == 1:
        return pins
    return [Path(np.stack(through), pen, part=part.name), *pins]


def _names(
    before: dict[str, Array], best: dict[str, Array], throw: float
) -> tuple[list[Primitive], str]:
    """Name the joints that moved furthest, away from the middle of the drawing."""
    away = {
        name: float(np.hypot(*(best[name] - before[name])))
        for name in best
        if name in before and name not in _ENGINE and not name.endswith("centre")
    }
    known: list[Array] = []
    made: list[Primitive] = []
    middle = np.mean(list(best.values()), axis=0)
    furthest = ""
    for name in sorted(away, key=lambda one: -away[one]):
        place = best[name]
        if away[name] < 0.02 * throw or len(made) == _NAMED:
            break
        if any(np.hypot(*(place - other)) < 0.6 * throw for other in known):
            continue
        known.append(place)
        side = 1.0 if place[0] >= middle[0] else -1.0
        up = 1.0 if place[1] >= middle[1] else -1.0
        at = (float(place[0] + 0.5 * side * throw), float(place[1] + 0.45 * up * throw))
        words = name.replace("_", " ")
        made.append(
            Label(f"{words} {away[name]:.2f} mm", at, "start" if side > 0 else "end",
                  leader=(float(place[0]), float(place[1])))
        )  # fmt: skip
        furthest = furthest or f"the {words} stands {away[name]:.2f} mm from where it was"
    return made, furthest
