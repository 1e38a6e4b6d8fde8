"""The chapter worked: the whole engine against itself and against the line."""

from __future__ import annotations

from ..clearance.engine import Engine
from ..clearance.results import Gap
from ..findings import by_level, unlocked
from ..frames import Whole
from .decisions import Gauging
from .geared import gear_gaps, of_gear
from .judgement import of_couplings, of_gaps, of_line, of_platform, of_rail
from .line import (
    Prototype,
    beside_platform,
    compared,
    lowest,
    margins,
    outline_of,
    platform_of,
    shift_of,
    sideways,
)
from .results import GaugingResult
from .sections import stations
from .sweep import LISTED, Near, least_gaps


def work(
    gauging: Gauging,
    *,
    whole: Whole,
    wanted: float,
    rail_wanted: float,
    side_wanted: float,
    prototype: Prototype,
    gaps: tuple[Gap, ...] = (),
    gear: Engine | None = None,
    notches: tuple[float, ...] = (1.0, 0.0, -1.0),
    side_play: float = 0.0,
    fixed: frozenset[str] = frozenset(),
) -> GaugingResult:
    """Work the chapter.

    Parameters
    ----------
    wanted : gap wanted between what moves and what is near, mm.
    rail_wanted : wanted over the rail, mm.
    side_wanted : wanted beside a part across the engine, side play taken up, mm.
    prototype : what of scale and prototype the line needs.
    gaps : of the motion, as its own chapter has them.
    gear : the valve gear of one side with its widths; None where it locks.
    notches : of the reverser that are looked at.
    side_play : of the driving axle, each way, mm.
    fixed : paths of sizes that a bought part has settled; no button changes them.
    """
    line = gauging.line
    own, looked_at = least_gaps(whole, wanted, side_wanted)
    geared = gear_gaps(whole, gear, notches, wanted, side_play)
    near = sorted([*own, *geared, *map(_told, gaps)], key=lambda one: one.gap)
    listed = tuple(one for n, one in enumerate(near) if n < LISTED or one.short > 0)
    shift, gauge = shift_of(whole), outline_of(gauging, prototype)
    inside = margins(whole, gauge, shift) if gauge else ()
    low, heights = lowest(whole), compared(whole, line, prototype)
    platform = platform_of(line, prototype)
    reach = beside_platform(whole, platform[0], shift) if platform else None
    findings = [
        *of_gaps(whole, listed, looked_at),
        *of_gear(geared),
        *of_line(gauging, whole, prototype, gauge, inside),
        *of_rail(low, rail_wanted, whole.rise),
        *of_platform(gauging, platform, reach, shift),
        *of_couplings(gauging, heights),
    ]
    places = stations(whole)
    worst = listed[0] if listed else None
    at = next((one for one in listed if not one.told), None)
    section = at.place[0] if at else 0.0
    least = min((one.play for one in whole.coupled), default=0.0)
    working = sideways.work(
        "Engine shifts on straight track, each way", "mm", j=whole.flange_play, p=least
    )
    return GaugingResult(
        least_gap=worst.gap if worst else None,
        least_where=f"{worst.first}, {worst.second}" if worst else "nothing comes near",
        least_angle=worst.crank_angle if worst else None,
        rail_gap=low[0].over if low else None,
        greatest_width=max((one.width for one in places), default=0.0),
        inside_gauge=inside[0].least if inside else None,
        platform_gap=platform[1] - reach[1] if platform and reach else None,
        shift=shift,
        wanted=wanted,
        near=listed,
        stations=places,
        gauge=gauge,
        margins=inside,
        low=low,
        compared=heights,
        platform=platform,
        section=section,
        whole=whole,
        workings=(working,),
        suggestions=(),
        findings=by_level(unlocked(findings, fixed)),
    )


def _told(one: Gap) -> Near:
    """Return a gap of the motion as the table has it; its own chapter tells what it means."""
    x, y = ((a + b) / 2 for a, b in zip(one.here, one.there, strict=True))
    return Near(
        one.first, one.second, one.gap, ("motion.gear",), one.crank_angle if one.turns else None,
        (), 0.0, (x, y, 0.0), ("", ""), 0.0, True, told=True,
    )  # fmt: skip
