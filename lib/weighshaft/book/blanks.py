"""What each part is cut from: bar, tube, hexagon, flat or plate, from its solids."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from ..frames.solids import Bar, Plate, Round
from ..frames.whole import Part, Whole
from ..threads import Threads
from ..threads.chapter import ThreadsResult

Form = Literal["round bar", "hexagon bar", "tube", "flat bar", "plate", "block", "made up"]
BARS: tuple[Form, ...] = ("round bar", "hexagon bar", "tube", "flat bar")
"""Forms that are cut to length."""
_THIN_WALL = 0.25  # of the radius: below it a round body is a tube
_ONE_BAR = 2.2  # steps of a round body that are turned from one bar differ by no more
_DISC = 0.15  # of the diameter: a shorter round is cut from plate
_SHEET = 3.2  # mm; what is thinner is not made up of anything
_FLAT_TO, _SHEET_TO = 50.0, 13.0  # mm: widest flat bar, thickest plate; common practice
_NO_METAL = ("water", "lagging", "coal")


@dataclass(frozen=True)
class Blank:
    """A piece of metal as finished.

    Parameters
    ----------
    part : what it becomes.
    material, form : what it is cut from.
    section : diameter, or across flats; of a tube diameter and wall; of a flat bar and a plate
        thickness (and width), mm.
    length : along the bar, or the longer edge of a plate, mm.
    width : the shorter edge of a plate, else 0.
    count : how many.
    remark : how it is come by, where that is not plain.
    """

    part: str
    material: str
    form: Form
    section: tuple[float, ...]
    length: float
    width: float = 0.0
    count: int = 1
    remark: str = ""


def blanks_of(whole: Whole) -> tuple[Blank, ...]:
    """Return the metal of every part of the engine."""
    made: dict[Blank, int] = {}
    for part in whole.parts:
        if part.kind == "water" or part.material in _NO_METAL:
            continue
        for blank in _of_part(part):
            alike = replace(_rounded(blank), count=0)
            made[alike] = made.get(alike, 0) + blank.count
    return tuple(replace(blank, count=count) for blank, count in made.items())


def _rounded(blank: Blank) -> Blank:
    """Return a blank to the micrometre, so that the same piece twice is the same."""
    section = tuple(round(one, 3) for one in blank.section)
    return replace(
        blank, section=section, length=round(blank.length, 3), width=round(blank.width, 3)
    )


def _of_part(part: Part) -> Iterator[Blank]:
    count = 2 if part.paired else 1
    wheel = part.kind == "wheels"
    if part.name.endswith("tubes"):  # the model has the room that they take together
        long, wide = _lengths_of(part)
        yield Blank(
            part.name, part.material, "made up", (wide, wide), long, 0.0, count,
            "a nest of tubes, as the boiler's drawing has them",
        )  # fmt: skip
        return
    if part.share < 1 and not wheel:
        low, high = part.extent if not part.paired else part.on("right").extent
        thin, wide, long = sorted(b - a for a, b in zip(low, high, strict=True))
        if thin <= _SHEET:
            yield Blank(part.name, part.material, "plate", (thin,), long, wide, count, "cut out")
            return
        yield Blank(
            part.name, part.material, "made up", (thin, wide), long, 0.0, count,
            "made up of plate, or a casting",
        )  # fmt: skip
        return
    bars = [one for one in part.solids if isinstance(one, Bar)]
    if any(one.start != one.end for one in bars):
        yield _flat(part, bars, count)
    else:
        for group in _turned_together(bars, wheel):
            yield _disc(part, group, count)
    for run in _in_line([one for one in part.solids if isinstance(one, Round)]):
        yield _round(part, run, count)
    for plate in part.solids:
        if isinstance(plate, Plate):
            yield _plate(part, plate, count)


def _lengths_of(part: Part) -> tuple[float, float]:
    low, high = part.on("right").extent
    x, y, _ = (b - a for a, b in zip(low, high, strict=True))
    return max(x, y), min(x, y)


def _turned_together(bars: list[Bar], wheel: bool) -> Iterator[list[Bar]]:
    """Yield the discs that are turned from one bar: about one axis, side by side, alike in size."""
    left = sorted(bars, key=lambda one: one.inner)
    while left:
        group = [left.pop(0)]
        for one in list(left):
            widths = [one.half, *(other.half for other in group)]
            touches = one.inner <= max(other.outer for other in group) + 0.01
            alike = wheel or max(widths) <= _ONE_BAR * min(widths)
            if one.start == group[0].start and touches and alike:
                group.append(one)
                left.remove(one)
        yield group


def _disc(part: Part, group: list[Bar], count: int) -> Blank:
    diameter = 2 * max(one.half for one in group)
    inner, outer = min(one.inner for one in group), max(one.outer for one in group)
    length = outer - inner
    if part.paired and inner <= 0.01:  # one piece right through the engine
        length, count = 2 * outer, 1
    remark = "or a casting" if part.share < 1 else ""
    return Blank(part.name, part.material, "round bar", (diameter,), length, 0.0, count, remark)


def _in_line(rounds: list[Round]) -> Iterator[list[Round]]:
    """Yield the round bodies that are turned from one bar, end to end on one axis."""
    left = list(rounds)
    while left:
        run = [left.pop(0)]
        if _is_tube(run[0]):
            yield run
            continue
        for one in list(left):
            widths = [one.radius, *(other.radius for other in run)]
            joined = any(
                math.dist(a, b) < 0.01
                for other in run
                for a, b in ((one.start, other.end), (one.end, other.start))
            )
            if joined and not _is_tube(one) and max(widths) <= _ONE_BAR * min(widths):
                run.append(one)
                left.remove(one)
        yield run


def _is_tube(one: Round) -> bool:
    return 0 < one.radius - one.bore / 2 < _THIN_WALL * one.radius


def _round(part: Part, run: list[Round], count: int) -> Blank:
    first = run[0]
    if _is_tube(first):
        wall = first.radius - first.bore / 2
        section: tuple[float, ...] = (2 * first.radius, wall)
        return Blank(part.name, part.material, "tube", section, first.length, 0.0, count)
    length, diameter = sum(one.length for one in run), 2 * max(one.radius for one in run)
    if length < _DISC * diameter:
        remark = "round; add a flange where it has one" if part.kind == "boiler" else "round"
        return Blank(
            part.name, part.material, "plate", (length,), diameter, diameter, count, remark
        )
    return Blank(
        part.name, part.material, "round bar", (diameter,), length, 0.0, count,
        "or a casting" if part.kind == "cylinders" and first.bore else "",
    )  # fmt: skip


def _flat(part: Part, bars: list[Bar], count: int) -> Blank:
    """Return the flat of which a rod with its eyes is cut in one piece."""
    around: list[tuple[float, float]] = []
    for one in bars:
        for x, y in (one.start, one.end):
            around += [
                (x + one.half * math.cos(t), y + one.half * math.sin(t))
                for t in (2 * math.pi * n / 72 for n in range(72))
            ]
    long, wide = _smallest_box(around)
    thick = max(one.outer for one in bars) - min(one.inner for one in bars)
    return _of_box(part, (thick, wide, long), count)


def _plate(part: Part, plate: Plate, count: int) -> Blank:
    across = plate.outer - plate.inner
    area, edge = _area(plate.outline), _edge(plate.outline)
    long, wide = _smallest_box(plate.outline)
    if len(plate.outline) > 8 and area < 0.35 * long * wide:
        # a bent strip, seen on its edge
        thick = 2 * area / edge
        return _of_box(part, (thick, across, edge / 2 - thick), count, "bent; length along it")
    return _of_box(part, (across, wide, long), count)


def _of_box(
    part: Part, edges: tuple[float, float, float], count: int, remark: str = ""
) -> Blank:  # fmt: skip
    thin, wide, long = sorted(edges)
    if "spindle" in part.name:  # the planes of the gear show its depth only
        return Blank(part.name, part.material, "round bar", (wide,), long, 0.0, count, remark)
    if thin > _SHEET_TO and wide > 1.5 * _FLAT_TO:
        form: Form = "block"
    elif wide <= _FLAT_TO and thin >= 1.0 and wide <= 10 * thin:
        return Blank(part.name, part.material, "flat bar", (thin, wide), long, 0.0, count, remark)
    else:
        form = "plate" if thin <= _SHEET_TO else "block"
    return Blank(part.name, part.material, form, (thin,), long, wide, count, remark)


def _area(outline: Sequence[tuple[float, float]]) -> float:
    ends = [*outline[1:], outline[0]]
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, ends, strict=True))) / 2


def _edge(outline: Sequence[tuple[float, float]]) -> float:
    return sum(math.dist(a, b) for a, b in zip(outline, [*outline[1:], outline[0]], strict=True))


def _smallest_box(points: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Return the edges of the least rectangle round points, the longer first, mm.

    Source: one side of the least rectangle lies along the hull (Freeman and Shapira, 1975).
    """
    hull = _hull(points)
    best = (math.inf, math.inf)
    for a, b in zip(hull, [*hull[1:], hull[0]], strict=True):
        long = math.dist(a, b)
        if long < 1e-9:
            continue
        x, y = (b[0] - a[0]) / long, (b[1] - a[1]) / long
        along = [p[0] * x + p[1] * y for p in hull]
        across = [p[1] * x - p[0] * y for p in hull]
        box = (max(along) - min(along), max(across) - min(across))
        if box[0] * box[1] < best[0] * best[1] - 1e-9:
            best = box
    return max(best), min(best)


def _hull(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return the convex hull, anticlockwise (Andrew's monotone chain)."""
    ordered = sorted(set(points))

    def half(run: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        made: list[tuple[float, float]] = []
        for x, y in run:
            while len(made) > 1 and (
                (made[-1][0] - made[-2][0]) * (y - made[-2][1])
                <= (made[-1][1] - made[-2][1]) * (x - made[-2][0])
            ):
                made.pop()
            made.append((x, y))
        return made

    return half(ordered)[:-1] + half(ordered[::-1])[:-1]


def hexagons_of(threads: ThreadsResult, chosen: Threads, cylinders: int) -> tuple[Blank, ...]:
    """Return the glands and connections that are turned from hexagon bar.

    Parameters
    ----------
    threads, chosen : the chapter's result and its decisions, which have the metals.
    cylinders : how many the engine has, each with its own glands.
    """
    return tuple(
        Blank(
            joint.name, getattr(chosen, joint.key).male, "hexagon bar", (joint.across_flats,),
            joint.engagement + joint.nut, 0.0,
            cylinders if joint.key.endswith("gland") else 1, "thread and head of a nut's height",
        )
        for joint in threads.joints
        if joint.hole
    )  # fmt: skip
