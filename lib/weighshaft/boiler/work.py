"""The chapter worked: growth, gaps, water, and how grate and ashpan come out."""

from __future__ import annotations

import math

from ..erection.sweep import Shape, both_sides, extent_of, shapes_of, way_out
from ..findings import Suggestion, by_level, still_open, unlocked
from ..frames.whole import Part, Whole
from ..sizes import SizeError
from ..trade.expansion import expansion
from ..trade.saturation import SteamTableError, saturation
from . import relations
from .decisions import BoilerSeat
from .gaps import Hot, barrel_of, box_of, gaps_of
from .judgement import cautions, judge
from .results import BoilerResult, Pan
from .water import least_over_crown, water_of

USUAL = {"coal": "locomotive type", "gas": "centre flue", "spirit": "pot"}
"""As the model of the whole engine takes it."""
LEAST_SLIDE = 0.3
"""Slide that is left even where less is needed, mm; common practice."""
TAKEN_OFF = ("horn stays", "firebox", "ashpan", "boiler", "lagging", "water", "burner")


def work(
    boiler: BoilerSeat,
    *,
    whole: Whole,
    pressure: float,
    firing: str,
    ratio: float,
    frame_metal: str,
    suggestions: tuple[Suggestion, ...] = (),
    fixed: frozenset[str] = frozenset(),
) -> BoilerResult:
    """Work the chapter.

    Parameters
    ----------
    boiler : the decisions.
    whole : the engine in its frames.
    pressure : working pressure, bar.
    firing : "coal", "gas" or "spirit".
    ratio : prototype over model.
    frame_metal : of the plates.
    suggestions : for sizes of the boiler that the whole engine took as usual.
    fixed : paths of sizes that a bought part has settled; no button changes them.

    Raises
    ------
    SizeError : where the working pressure is beyond the steam table.
    """
    shell = whole.part("boiler")
    if shell is None:
        raise SizeError("Boiler: the engine has none.", "kind")
    kind = USUAL.get(firing, "pot") if boiler.kind == "as fired" else boiler.kind
    try:
        steam = saturation(pressure)
    except SteamTableError as refused:
        raise SizeError(f"Working pressure: {refused}", "") from refused
    lagging, box, pan = (whole.part(name) for name in ("lagging", "firebox", "ashpan"))
    lying = barrel_of(shell, lagging)
    told = list(suggestions)
    alpha, of_frames = expansion(boiler.shell.material), expansion(frame_metal)
    holding, warm = boiler.holding, steam.temperature

    (back, low, _), (front, high, _) = shell.extent
    if box is not None:
        back = min(back, box.extent[0][0])
    smokebox = whole.part("smokebox")
    saddle = whole.part("smokebox saddle") or smokebox
    seat = front if saddle is None else (saddle.extent[0][0] + saddle.extent[1][0]) / 2
    seat = max(seat, front)
    behind = (back + box.extent[1][0]) / 2 if box is not None else back
    at_front = holding.at == "at the smokebox"
    held = seat if at_front else behind
    free_end = back if at_front else seat
    upright = lying is None
    if upright:
        held = free_end = (back + front) / 2
    metal = 0.0 if upright else front - (back if at_front else held)
    steel = 0.0 if upright else seat - front
    grown = relations.growth.work(
        f"Boiler of {boiler.shell.material} grows by", "mm", alpha=alpha, l=metal, hot=warm,
        cold=holding.cold,
    )  # fmt: skip
    smoke = relations.growth.work(
        "Smokebox of steel grows by, from its saddle", "mm", alpha=expansion("mild steel"),
        l=steel, hot=warm, cold=holding.cold,
    )  # fmt: skip
    frames = relations.growth.work(
        f"Frames of {frame_metal} grow by, on the same length", "mm", alpha=of_frames,
        l=metal + steel, hot=max(holding.frames_warm, holding.cold), cold=holding.cold,
    )  # fmt: skip
    slide = relations.slide_needed.work(
        "Slide needed at the free end", "mm", boiler=grown.result, smokebox=smoke.result,
        frames=frames.result,
    )  # fmt: skip
    workings = [grown, smoke, frames, slide]
    usual = max(LEAST_SLIDE, math.ceil(20 * slide.result - 1e-9) / 10)
    told.append(Suggestion("boiler.holding.slide", usual, "twice what it grows by"))
    taken = usual if holding.slide is None else holding.slide

    stretch = slide.result / (metal + steel) if metal + steel else 0.0
    swell = alpha * (warm - holding.cold)
    centre = lying.centre if lying is not None else (low + high) / 2
    hot = Hot(held, stretch, swell, centre)
    room = whole.frame_inside
    beside = max(0.4, round(0.01 * room, 2))
    told.append(Suggestion("boiler.holding.side_gap", beside, "0.01 of the room between"))
    wanted = max(0.5, round(0.02 * whole.coupled[0].diameter, 2))
    told.append(Suggestion("boiler.holding.gap", wanted, "0.02 of the driving wheel"))
    beside = beside if holding.side_gap is None else holding.side_gap
    wanted = wanted if holding.gap is None else holding.gap
    gaps = gaps_of(whole, lying, hot, wanted=wanted, beside=beside)

    side = None
    if box is not None and _between(box, whole):
        width = 2 * box.extent[1][2]
        swelling = relations.growth.work(
            "Firebox grows in width by", "mm", alpha=alpha, l=width, hot=warm, cold=holding.cold
        )
        gap = relations.side_gap.work(
            "Firebox to frames, each side, hot", "mm", a=room, b=width, w=swelling.result
        )
        side, workings = gap.result, [*workings, swelling, gap]
    water = None
    if lying is not None:
        water = water_of(boiler, lying, kind=kind, shell=shell, ratio=ratio, pressure=pressure)
        if water.crown is not None:
            workings.append(relations.least_water.work(
                "Full size's least water over the crown, at scale", "mm", n=ratio))  # fmt: skip
        told += [
            Suggestion("boiler.fittings.gauge_nut", round(least_over_crown(ratio), 2),
                       "3 in of the prototype at scale"),
            Suggestion("boiler.fittings.glass", round(0.4 * lying.radius, 2),
                       "a fifth of the diameter"),
        ]  # fmt: skip
        if kind in ("locomotive type", "centre flue") and boiler.firebox.crown is None:
            assert water.crown is not None
            told.append(Suggestion("boiler.firebox.crown", round(water.crown - lying.centre, 2),
                                   "0.05 of the diameter, or the flue's top"))  # fmt: skip
    dropped = None if pan is None or box is None else _pan(whole, pan, box)
    plugs = () if box is None else _plugs(whole, box)
    moves = slide.result * (-1.0 if at_front else 1.0)
    findings = judge(
        boiler, whole, lying=lying, gaps=gaps, slide=slide.result, taken=taken, side=side,
        beside=beside, water=water, pan=dropped, plugs=plugs, kind=kind, ratio=ratio, usual=usual,
    )  # fmt: skip
    return BoilerResult(
        temperature=warm,
        slide=slide.result,
        slide_taken=taken,
        at_smokebox=smoke.result if at_front else slide.result,
        at_backhead=slide.result if at_front else 0.0,
        side_gap=side,
        least=min((one.least for one in gaps), default=None),
        pan_drop=None if dropped is None else dropped.room,
        water_over_crown=None if water is None or water.crown is None
        else water.level - water.crown,
        water_between=None if water is None else water.between,
        centre=centre - whole.rail,
        whole=whole, held=held, free_end=free_end, moves=moves, lying=lying, gaps=gaps,
        water=water, pan=dropped, plugs=plugs,
        cautions=cautions(pressure),
        workings=tuple(workings),
        suggestions=still_open(told, fixed),
        findings=by_level(unlocked(findings, fixed)),
    )  # fmt: skip


def _between(box: Part, whole: Whole) -> bool:
    """Return whether the firebox reaches down between the frame plates."""
    plates = whole.part("frame plates")
    return plates is not None and box.extent[0][1] < plates.extent[1][1]


def _pan(whole: Whole, pan: Part, box: Part) -> Pan:
    """Return how grate and ashpan come out, with the boiler in its place."""
    going = shapes_of(pan, whole)
    (x0, y0, _), (x1, y1, _) = extent_of(going)
    standing = [
        shape
        for part in whole.parts
        if part.name not in TAKEN_OFF
        for shape in both_sides(shapes_of(part, whole), part.paired)
    ]
    room, depth = y0 - whole.rail, y1 - y0
    ways = (
        way_out(going, standing, "down", depth),
        way_out(going, standing, "ahead", whole.front - x0),
        way_out(going, standing, "back", x1 - whole.back),
    )
    long = math.hypot(x1 - x0, depth)
    tips = math.degrees(math.asin(min(max(room, 0.0) / long, 1.0)))
    return Pan(ways, room, depth, tips)


def _plugs(whole: Whole, box: Part) -> tuple[tuple[str, float, str], ...]:
    """Return the washout plugs at the firebox's foot: name, room for a hand, what is beside.

    Plugs on its sides, front and back stand a little above its foot; the room is what is free
    straight out of them.
    """
    x0, x1, y0, y1, _, half = box_of(box)
    y = y0 + 0.08 * (y1 - y0)
    made = []
    for name, toward in (("side", "out"), ("front", "ahead"), ("back", "back")):
        xs = {"side": (x0 + 0.1 * (x1 - x0), x0 + 0.2 * (x1 - x0)), "front": (x1 - 1.0, x1),
              "back": (x0, x0 + 1.0)}[name]  # fmt: skip
        spot = (
            _spot(xs, (y, y + 0.1 * (y1 - y0)), half - 1.0, half) if name == "side"
            else _spot(xs, (y, y + 0.1 * (y1 - y0)), 0.6 * half, 0.9 * half)
        )  # fmt: skip
        standing = [
            shape
            for part in whole.parts
            if part.kind not in ("boiler", "water")
            for shape in both_sides(shapes_of(part, whole), part.paired)
        ]
        way = way_out((spot,), standing, toward, math.inf)
        made.append((name, way.free, way.blocked[0] if way.blocked else ""))
    return tuple(made)


def _spot(xs: tuple[float, float], ys: tuple[float, float], inner: float, outer: float) -> Shape:
    return Shape(
        "plug", ((xs[0], ys[0]), (xs[1], ys[0]), (xs[1], ys[1]), (xs[0], ys[1])), inner, outer
    )
