"""The chapter worked: from radius and length to places of the cutter and readings of the dials."""

from __future__ import annotations

import math

from ...findings import Suggestion, by_level, still_open, unlocked
from ...sizes import SizeError
from ...trade.drills import NoDrill, at_or_below
from ...working import Working
from ..dials import Dial
from ..machines import Machines
from . import relations
from .arcs import Setting, longest_step, path, staircase, step_for
from .decisions import Slots
from .engine import EngineSlot
from .judgement import CAUTIONS, judge
from .results import CutterPath, Hole, SlotsResult

EXAMPLE = EngineSlot(100.0, 30.0, "an example to try the chapter on")
LINK_WIDTH = 12.0
"""Width of a link that nothing is known of, mm: an example."""
SHARE = 0.4
"""Slot over the link's width; common practice."""
MOST = 1500


def work(
    slots: Slots,
    *,
    machines: Machines,
    engine: EngineSlot | None = None,
    link_width: float | None = None,
    drill_sets: tuple[str, ...] = ("metric",),
    fixed: frozenset[str] = frozenset(),
) -> SlotsResult:
    """Work the chapter.

    Parameters
    ----------
    engine : the slot of the engine's gear; None where there is no engine.
    link_width : over the slot and both walls, mm; None if not known.
    drill_sets : sets of drills that the builder has.

    Raises
    ------
    SizeError : when the slot cannot be cut so.
    """
    has = engine is not None and engine.radius is not None
    base = engine if engine is not None and has else EXAMPLE
    assert base.radius is not None
    radius = base.radius if slots.radius is None else slots.radius
    of_base = base.length if base.length is not None else 0.3 * base.radius
    length = of_base if slots.length is None else slots.length
    link = LINK_WIDTH if link_width is None else link_width
    owned = sorted(machines.mill.cutters)
    usual_width = min(owned, key=lambda one: abs(one - SHARE * link), default=SHARE * link)
    width = usual_width if slots.width is None else slots.width
    die = width if slots.die_length is None else slots.die_length
    pin = 0.5 * width if slots.die_pin is None else slots.die_pin
    if pin >= width:
        raise SizeError(
            f"Die's pin, diameter: {pin:g} mm leaves nothing of a die of {width:g} mm; "
            f"{0.7 * width:.2g} mm or less would do.", "die_pin",
        )  # fmt: skip
    usual_cutter = max((one for one in owned if one <= width + 1e-9), default=width)
    cutter = usual_cutter if slots.cutter is None else slots.cutter
    arc = length + die - width
    _check(slots, radius, width, arc, cutter)
    half_angle = arc / 2 / radius
    usual_edges = _usual_edges(radius, half_angle, width)
    edges = (
        usual_edges[0] if slots.edge_along is None else slots.edge_along,
        usual_edges[1] if slots.edge_across is None else slots.edge_across,
    )
    dial = Dial(machines.mill.table, machines.mill.divisions)
    turn = machines.dividing
    rotary = Dial(360 / turn.table_ratio, turn.table_divisions)
    setting = Setting(radius, half_angle, slots.datum, edges, dial, rotary)
    paths = _paths(slots, setting, width, cutter)
    outer, inner = paths[0], paths[-1]
    ways = [sorted(one.along for one in p.places) for p in (outer, inner)]
    steps = [longest_step(x, p.radius) for x, p in zip(ways, (outer, inner), strict=True)]
    if max(steps) >= cutter:
        most = 0.9 * cutter * math.cos(half_angle)
        raise SizeError(
            f"Step along the slot: with {slots.step:g} mm the cutter of {cutter:g} mm leaves "
            f"webs standing; {most:.2g} mm or less would do.", "step",
        )  # fmt: skip
    r = cutter / 2
    cusp_out = relations.outer_cusp.work(
        "Ridge left on the outer flank", "mm", rho=outer.radius, r=r, t=steps[0]
    )
    cusp_in = relations.inner_cusp.work(
        "Ridge left on the inner flank", "mm", rho=inner.radius, r=r, t=steps[1]
    )
    allowed = min(
        step_for(lambda t: relations.outer_cusp(outer.radius, r, t), slots.cusp_wanted, r),
        step_for(lambda t: relations.inner_cusp(inner.radius, r, t), slots.cusp_wanted, r),
    )
    chord = relations.chord.work("Chord between the end holes", "mm", R=radius, phi=half_angle)
    sagitta = relations.sagitta.work("Sagitta", "mm", R=radius, c=chord.result)
    quarter = relations.ordinate.work(
        "Height over the chord, half way to an end", "mm",
        R=radius, x=chord.result / 4, s=sagitta.result,
    )  # fmt: skip
    drill, name = _drill(slots, width, drill_sets)
    waste, pitch = _waste(slots, setting, arc, drill)
    between = pitch.result / radius
    drill_chord = 2 * radius * math.sin(between / 2)
    ridge = (
        relations.ridge_left.work(
            "Ridge left between two holes of the waste", "mm",
            w=width, D=drill, R=radius, beta=between,
        )
        if drill_chord < drill else None
    )  # fmt: skip
    ends = tuple(setting.hole(sign * half_angle, width, -half_angle) for sign in (-1, 1))
    result = SlotsResult(
        radius=radius, width=width, arc=arc, die_pin=pin, over_all=length + die, chord=chord.result,
        sagitta=sagitta.result, angle=math.degrees(2 * half_angle), cutter=cutter,
        number=len(ways[0]), longest=max(steps), outer_cusp=cusp_out.result,
        inner_cusp=cusp_in.result, step_allowed=allowed * math.cos(half_angle),
        overcut=max(staircase(x, p.radius) for x, p in zip(ways, (outer, inner), strict=True)),
        drill=drill, drill_name=name, drills=len(waste), drill_pitch=pitch.result,
        drill_chord=drill_chord, ridge=ridge.result if ridge else None,
        taken_from=_taken(slots, base, has), datum=slots.datum, y_way=setting.y_way,
        middle=setting.middle, paths=paths, end_holes=ends, roughing=waste, dial=dial,
        rotary=rotary, wall=(link - width) / 2, cautions=CAUTIONS,
        workings=(
            chord, sagitta, quarter, cusp_out, cusp_in, pitch, *((ridge,) if ridge else ()),
        ),
        suggestions=still_open(
            (
                Suggestion("slots.radius", round(base.radius, 4), base.what),
                Suggestion("slots.length", round(of_base, 4), "travel of the die, as in Motion"),
                Suggestion("slots.width", usual_width, "the cutter nearest to 0.4 of the link"),
                Suggestion("slots.die_length", width, "a round die"),
                Suggestion("slots.die_pin", round(0.5 * width, 3), "half of the slot's width"),
                Suggestion("slots.cutter", usual_cutter, "the largest owned that goes in"),
                Suggestion("slots.edge_along", round(usual_edges[0], 2), "room for the slot"),
                Suggestion("slots.edge_across", round(usual_edges[1], 2), "room below the ends"),
                Suggestion("slots.roughing.drill", drill, f"{name} leaves the allowance"),
            ),
            fixed,
        ),
    )  # fmt: skip
    straight = engine.what if engine is not None and not has and slots.radius is None else ""
    found = judge(slots, result, straight=straight, known=link_width is not None)
    return SlotsResult(**{**vars(result), "findings": by_level(unlocked(found, fixed))})


def _check(slots: Slots, radius: float, width: float, arc: float, cutter: float) -> None:
    """Refuse what is no slot."""
    if cutter > width + 1e-9:
        raise SizeError(
            f"Slot drill for the slot, diameter: {cutter:g} mm does not go into a slot of "
            f"{width:g} mm; that or less would do.", "cutter",
        )  # fmt: skip
    if arc <= 0:
        raise SizeError(
            f"Die, length along the slot: a die shorter than the slot's width of {width:g} mm "
            "leaves no arc between the end holes; the width or more would do.", "die_length",
        )  # fmt: skip
    if width >= 2 * radius:
        raise SizeError(
            f"Slot to be cut, width: {width:g} mm leaves no inner flank on a radius of "
            f"{radius:g} mm; less than {2 * radius:g} mm would do.", "width",
        )  # fmt: skip
    if arc > 2.6 * radius:
        raise SizeError(
            f"Slot to be cut, travel of the die along it: an arc of {arc:g} mm on a radius of "
            f"{radius:g} mm turns too far round to be stepped along its chord; up to "
            f"{2.6 * radius:.4g} mm would do.", "length",
        )  # fmt: skip
    if arc / slots.step > MOST:
        raise SizeError(
            f"Step along the slot: {slots.step:g} mm makes more than {MOST} places; "
            f"{arc / MOST:.2g} mm or more would do.", "step",
        )  # fmt: skip


def _usual_edges(radius: float, half_angle: float, width: float) -> tuple[float, float]:
    """Return edges that leave room for the slot and metal beside it."""
    along = radius * math.sin(half_angle) + 1.5 * width
    return along, radius * (1 - math.cos(half_angle)) + 2 * width


def _paths(slots: Slots, setting: Setting, width: float, cutter: float) -> tuple[CutterPath, ...]:
    """Return one way for a cutter as wide as the slot, else one for each flank."""
    off = (width - cutter) / 2
    if off < 1e-9:
        return (path(setting, "centre line", setting.radius, slots.step, slots.order),)
    if setting.radius - off <= cutter / 2:
        raise SizeError(
            f"Slot drill for the slot, diameter: {cutter:g} mm does not follow the inner flank "
            f"of a radius of {setting.radius:g} mm.", "cutter",
        )  # fmt: skip
    return (
        path(setting, "outer flank", setting.radius + off, slots.step, slots.order),
        path(setting, "inner flank", setting.radius - off, slots.step, slots.order),
    )


def _drill(slots: Slots, width: float, sets: tuple[str, ...]) -> tuple[float, str]:
    """Return the drill for the waste, mm, and its name."""
    rough = slots.roughing
    if rough.drill is not None:
        if rough.drill > width:
            raise SizeError(
                f"Drill for the waste, diameter: {rough.drill:g} mm is more than the slot's "
                f"{width:g} mm; that or less would do.", "roughing.drill",
            )  # fmt: skip
        return rough.drill, f"{rough.drill:g} mm"
    most = max(width - 2 * rough.allowance, 0.5 * width)
    try:
        one = at_or_below(most, sets)
    except NoDrill:
        return most, f"{most:.2f} mm"
    return one.diameter, one.name


def _waste(
    slots: Slots, setting: Setting, arc: float, drill: float
) -> tuple[tuple[Hole, ...], Working]:
    """Return the holes of the waste, evenly along the arc, and their pitch."""
    overlap = slots.roughing.overlap
    if overlap >= drill:
        raise SizeError(
            f"Holes of the waste overlap by: {overlap:g} mm is no less than the drill of "
            f"{drill:g} mm; {drill / 10:.2g} mm would do.", "roughing.overlap",
        )  # fmt: skip
    number = max(math.ceil(arc / (drill - overlap) - 1e-9), 1) + 1
    if number > MOST:
        raise SizeError(
            f"Holes of the waste overlap by: {overlap:g} mm makes more than {MOST} holes; less "
            "would do.", "roughing.overlap",
        )  # fmt: skip
    pitch = relations.pitch.work("Pitch of the holes along the arc", "mm", a=arc, n=float(number))
    half = setting.half_angle
    holes = tuple(
        setting.hole(-half + n * 2 * half / (number - 1), drill, -half) for n in range(number)
    )
    return holes, pitch


def _taken(slots: Slots, base: EngineSlot, has: bool) -> str:
    """Return where radius and length come from, in words."""
    if slots.radius is not None and slots.length is not None:
        return "as typed here"
    of = base.what if has else EXAMPLE.what
    if slots.radius is not None:
        return f"radius as typed here, length from {'the gear' if has else of}"
    if slots.length is not None:
        return f"{of}; length as typed here"
    return of
