"""The chapter worked: a thread to be cut, a turn to be divided, speeds to be set."""

from __future__ import annotations

import math
from dataclasses import replace

from ...findings import Suggestion, by_level, still_open, unlocked
from ...threads.tapping import Tapping, tapping_drill
from ...trade.drills import NoDrill
from ...trade.threads import Thread, thread
from ...working import Working
from ..dials import Dial
from ..machines import Lathe, Machines
from . import relations
from .decisions import AS_ON_BENCH, INSIDE, STRAIGHT, Screwcutting
from .differential import Geared, geared
from .indexing import Indexed, angle_setting, gear_cutter, indexed, table_dial
from .infeed import Fed, fed, order_inside, order_outside
from .judgement import CAUTIONS, judge
from .results import Direct, GearBlank, ScrewcuttingResult
from .speeds import OPERATIONS, Speed, speed
from .starts import several
from .trains import EXACT, Train, missing, nut_every, search

_DIVISIONS = 6
"""Divisions where nothing is known of any: a hexagon."""
WHOLE_DEPTH = 2.157
"""Depth of a tooth in modules; gear tables (from memory)."""


def work(
    screwcutting: Screwcutting,
    *,
    machines: Machines,
    bench: str = "1/4 × 40",
    bench_metal: str = "brass",
    bench_depth: float | None = None,
    convention: str = "tap chart",
    drill_sets: tuple[str, ...] = ("metric",),
    screws: int | None = None,
    fixed: frozenset[str] = frozenset(),
) -> ScrewcuttingResult:
    """Work the chapter.

    Parameters
    ----------
    bench, bench_metal : thread and metal on the bench, as the threads' chapter has them.
    bench_depth, convention : depth of thread wanted when tapped, %, and how it is counted.
    drill_sets : sets of drills that the builder has.
    screws : of a cylinder cover; None if not known.
    """
    one = thread(screwcutting.thread or bench)
    pitch = screwcutting.pitch or one.pitch
    material = bench_metal if screwcutting.material == AS_ON_BENCH else screwcutting.material
    diameter = screwcutting.diameter or one.major
    lathe, options = machines.lathe, screwcutting.wheels
    starts = options.starts
    trains = search(lathe, starts * pitch, options.pairs, options.listed)
    best = trains.best[0] if trains.best else None
    through = fed(screwcutting.infeed, one, pitch, lathe)
    divisions = screwcutting.divisions or screws or _DIVISIONS
    ways = indexed(machines.dividing, divisions)
    plate = () if ways.circles else geared(machines.dividing, divisions)
    top_slide = Dial(lathe.topslide, lathe.topslide_divisions)
    on = several(one, pitch, starts, best, lathe.stud_turns, top_slide)
    speeds = tuple(
        found
        for operation in OPERATIONS
        if (found := speed(material, operation, screwcutting.tool, diameter, lathe.speeds,
                           machines.mill.speeds, starts))
    )  # fmt: skip
    rotary = table_dial(machines.dividing)
    places = tuple(
        (n, n * 360 / divisions, rotary.text(n * 360 / divisions)) for n in range(divisions)
    )
    straight = screwcutting.infeed.fed == STRAIGHT
    length = options.engagement or one.major
    workings, error, lost = _of_pitch(best, lathe.leadscrew, lathe.stud_turns, on.lead, length, one)
    turning, drilling, threading = (
        _named(speeds, name) for name in ("turning", "drilling", "threading")
    )
    module = screwcutting.dividing.module or lathe.wheel_module
    blank = relations.blank.work("Outside of the gear blank", "mm", m=module, z=divisions)
    result = ScrewcuttingResult(
        designation=one.designation, pitch=pitch, threads_an_inch=25.4 / pitch,
        lead=on.lead, helix=on.helix,
        train=best.text if best else "none of the wheels owned",
        cut=best.pitch / starts if best else None, error=100 * best.error if best else None,
        engaged_error=error, lost=lost,
        nut_every=nut_every(best, lathe.stud_turns) if best else None,
        depth=through.depth, slide=through.slide, set_over=through.set_over,
        cuts=len(through.cuts), divisions=divisions, handle=_handle(ways, plate),
        indexing_error=_indexing_error(ways, plate), table_error=_table_error(rotary, divisions),
        revolutions=turning.lathe if turning else None,
        drill_revolutions=drilling.chosen if drilling else None,
        carriage=threading.lathe * on.lead / 60 if threading and threading.lathe else None,
        taken_from=_taken(screwcutting), thread=one, material=material, diameter=diameter,
        trains=trains,
        helpers=_helpers(lathe, on.lead, options.pairs, best),
        fed=through, outside=order_outside(one, pitch, through, starts),
        inside=order_inside(
            one, through, _tapped(one, material, bench_depth, convention, drill_sets), starts
        ),
        feed_dial=Dial(lathe.cross_slide, lathe.cross_divisions) if straight
        else top_slide,
        indexed=ways, geared=plate, starts=on,
        direct=tuple(
            Direct(wheel, wheel // divisions)
            for wheel in sorted(set(lathe.wheels)) if wheel % divisions == 0
        ),
        angle=angle_setting(machines.dividing, screwcutting.dividing.angle or 360 / divisions),
        table_dial=rotary, table_places=places,
        gear=GearBlank(
            divisions, module, blank.result, WHOLE_DEPTH * module, gear_cutter(divisions)
        ),
        speeds=speeds, lathe_speeds=lathe.speeds, wheel_module=lathe.wheel_module,
        stud=lathe.stud, stud_turns=lathe.stud_turns, left_hand=options.left_hand,
        cautions=CAUTIONS,
        workings=(
            *workings, *_of_depth(screwcutting, one, through),
            relations.handle_turns.work(
                "Turns of the handle for a division", "ratio",
                ratio=machines.dividing.head_ratio, n=divisions,
            ),
            *(
                relations.plate_turns.work(
                    "Turns of the plate for one of the work", "ratio",
                    ratio=machines.dividing.head_ratio, n=divisions,
                    f=way.turns + way.holes / way.circle,
                )
                for way in plate[:1]
            ),
            *(_of_starts(starts, pitch) if starts > 1 else ()),
            *(
                relations.revolutions.work(
                    f"{named.operation.capitalize()}, the most", "rev/min", v=named.high,
                    d=diameter,
                )
                for named in (turning, drilling) if named
            ),
            blank,
        ),
        suggestions=still_open(
            _suggestions(thread(bench), one, screws, length, lathe.wheel_module), fixed
        ),
    )  # fmt: skip
    judged = judge(screwcutting, machines, result)
    return replace(result, findings=by_level(unlocked(judged, fixed)))


def _of_pitch(
    best: Train | None, leadscrew: float, turns: float, wanted: float, length: float, one: Thread
) -> tuple[tuple[Working, ...], float | None, float | None]:
    if best is None:
        return (), None, None
    drivers = math.prod(a for a, _ in best.pairs)
    driven = math.prod(b for _, b in best.pairs)
    cut = relations.pitch_cut.work(
        "Pitch (lead) that the wheels cut",
        "mm",
        P=leadscrew,
        k=turns,
        drivers=drivers,
        driven=driven,
    )
    if best.exact:
        return (cut,), 0.0, 0.0
    error = relations.error_over.work(
        "Error over the length engaged", "mm", length=length, cut=cut.result, wanted=wanted
    )
    lost = relations.effective_lost.work(
        "Effective diameter that it costs", "mm",
        error=abs(error.result), half=math.radians(one.angle / 2),
    )  # fmt: skip
    return (cut, error, lost), error.result, lost.result


def _of_starts(starts: int, pitch: float) -> tuple[Working, ...]:
    return (relations.lead.work("Lead that the wheels are set for", "mm", starts=starts, p=pitch),)


def _of_depth(screwcutting: Screwcutting, one: Thread, through: Fed) -> tuple[Working, ...]:
    slide = relations.along_slide.work(
        "Travel of the slide that feeds", "mm",
        depth=through.depth, half=math.radians(through.set_over),
    )  # fmt: skip
    if through.point or screwcutting.infeed.where == INSIDE:
        return (slide,)
    scale = through.pitch / one.pitch
    sharp = relations.sharp_depth.work(
        "Depth for a tool ground sharp", "mm", d=one.major * scale, e=one.effective * scale,
        p=through.pitch, half=math.radians(through.half),
    )  # fmt: skip
    return (sharp, slide)


def _helpers(
    lathe: Lathe, pitch: float, pairs: int, best: Train | None
) -> tuple[tuple[int, Train], ...]:
    """Return the wheels not owned that would come nearer."""
    off = math.inf if best is None else abs(best.error)
    if off < EXACT:
        return ()
    return tuple(one for one in missing(lathe, pitch, pairs) if abs(one[1].error) < 0.99 * off)


def _tapped(
    one: Thread, material: str, depth: float | None, convention: str, sets: tuple[str, ...]
) -> Tapping | None:
    try:
        return tapping_drill(one, material, depth, convention, sets)
    except NoDrill:
        return None


def _named(speeds: tuple[Speed, ...], operation: str) -> Speed | None:
    return next((one for one in speeds if one.operation == operation), None)


def _handle(ways: Indexed, plate: tuple[Geared, ...]) -> str:
    if ways.circles:
        one = ways.circles[0]
        if not one.holes:
            return f"{one.turns} turns"
        return f"{one.turns} turns and {one.holes} holes of {one.circle}"
    best = ways.compound[0] if ways.compound else None
    if best is not None and best.exact:
        return (
            f"{best.turns} turns, {best.holes} holes of {best.first} "
            f"{'and' if best.back > 0 else 'less'} {abs(best.back)} of {best.second}"
        )
    if plate:
        return f"{plate[0].handle}, the plate geared"
    assert ways.nearest is not None
    return f"nearest holes of {ways.nearest.circle}"


def _indexing_error(ways: Indexed, plate: tuple[Geared, ...]) -> float:
    exact = ways.circles or plate or (ways.compound and ways.compound[0].exact)
    return 0.0 if exact or ways.nearest is None else ways.nearest.error


def _table_error(dial: Dial, divisions: int) -> float:
    every = (n * 360 / divisions for n in range(divisions))
    return max(abs(dial.moved(dial.reading(one)) - one) for one in every)


def _taken(screwcutting: Screwcutting) -> str:
    typed = [
        name
        for name, given in (
            ("thread", screwcutting.thread), ("pitch", screwcutting.pitch),
            ("metal", screwcutting.material != AS_ON_BENCH),
        )
        if given
    ]  # fmt: skip
    if not typed:
        return "those on the bench, in Threads"
    return f"typed here: {', '.join(typed)}; the rest from the bench, in Threads"


def _suggestions(
    bench: Thread, one: Thread, screws: int | None, length: float, module: float
) -> tuple[Suggestion, ...]:
    return (
        Suggestion("screwcutting.thread", bench.designation, "the thread on the bench"),
        Suggestion("screwcutting.pitch", round(one.pitch, 5), f"of {one.designation}"),
        Suggestion(
            "screwcutting.divisions", screws or _DIVISIONS,
            "screws of a cylinder cover" if screws else "a hexagon",
        ),
        Suggestion("screwcutting.diameter", round(one.major, 3), f"of {one.designation}"),
        Suggestion("screwcutting.wheels.engagement", round(length, 3), "one diameter"),
        Suggestion("screwcutting.dividing.module", module, "that of the change wheels"),
    )  # fmt: skip
