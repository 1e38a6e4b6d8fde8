"""The chapter: from the decisions on threads to the result, its findings and suggestions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..findings import COMMON, Finding, Suggestion, still_open, unlocked
from ..sizes import figure
from ..trade.drills import NoDrill, Printed, printed
from ..trade.hexagons import hexagon, nut_thickness
from ..trade.threads import Thread, thread
from ..working import Working
from . import judgements
from .connector import ConnectorFit, fit
from .covers import Cover, cover
from .decisions import Threads
from .joints import Case, JointResult, cases, judged, spindle_diameter
from .scale_screws import ScaleScrew, screws_to_scale
from .studs import Beside, Chest, beside, of_studs, stud_case
from .tapping import (
    Tapping,
    clearance_drills,
    conventions,
    depth_reached,
    hole_for,
    tapping_drill,
    tapping_drills,
    usual_depth,
)

CAUTION = (
    "Stresses here are of threads and screws alone, for cylinders and fittings. Boilers and their "
    "bushes go by the club's boiler inspector and the local code; test every steam fitting cold, "
    "with water, before it sees steam."
)


@dataclass(frozen=True, kw_only=True)
class ThreadsResult:
    """What the decisions on threads come to."""

    tapping: float | None = figure("Tapping drill", main=True)
    tapping_name: str = figure("Tapping drill, as it is asked for", "text", main=True)
    reached: float | None = figure("Depth of thread that it gives", "%", main=True)
    clearance: float | None = figure("Clearance drill, close", main=True)
    clearance_name: str = figure("Clearance drill, as it is asked for", "text")
    clearance_free: float | None = figure("Clearance drill, free")
    clearance_free_name: str = figure("Free clearance drill, as it is asked for", "text")
    across_flats: float = figure("Hexagon, across flats", main=True)
    nut: float = figure("Nut, thickness")
    half_pitch: float = figure("Greatest misfit of a connector: half a pitch", main=True)
    misfit: float | None = figure("Misfit of the connector")
    turn_for_shift: float = figure("Turn for the shift wanted", "deg")
    cover_screws: int = figure("Screws in a cover", "count")
    cover_torque: float = figure("Tightening of a cover screw", "N mm")

    chosen: Thread
    bench: Tapping | None
    drills: tuple[Tapping, ...]
    printed_tapping: tuple[Printed, ...]
    printed_clearance: tuple[Printed, ...]
    clearance_source: str
    hexagon_source: str
    joints: tuple[JointResult, ...]
    cover: Cover
    studs_beside: Beside | None
    connector: ConnectorFit
    screws: tuple[ScaleScrew, ...]
    scale_ratio: float
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]

    def joint(self, key: str) -> JointResult | None:
        """Return the joint of a field of `Threads`, None where there is no thread for it."""
        return next((one for one in self.joints if one.key == key), None)


def work(
    threads: Threads,
    *,
    pressure: float,
    bore: float,
    piston_rod: float,
    piston_load: float,
    valve_spindle_load: float,
    nozzle_diameter: float,
    scale_ratio: float,
    pipe_bore: float | None = None,
    rod_thread: str | None = None,
    rod_engaged: float | None = None,
    screw_thread: str | None = None,
    screws: int | None = None,
    screw_circle: float | None = None,
    chest: Chest | None = None,
    fixed: frozenset[str] = frozenset(),
) -> ThreadsResult:
    """Work the chapter.

    Parameters
    ----------
    threads : the decisions.
    pressure : bar above atmosphere.
    bore, piston_rod, nozzle_diameter : mm.
    piston_load, valve_spindle_load : N.
    scale_ratio : prototype over model.
    pipe_bore : of the blast pipe, mm; None while not known.
    rod_thread, rod_engaged : of the piston rod and its length (mm) in the crosshead, as the
        cylinders have it; None takes what is proposed.
    screw_thread, screws, screw_circle : of a cover, mm, in the same way.
    chest : the steam chest; None without one.
    fixed : paths of decisions that a bought part has settled.
    """
    sets = threads.rack.sets
    one = thread(threads.chosen)
    findings: list[Finding] = []
    bench: Tapping | None = None
    try:
        bench = tapping_drill(one, threads.material, threads.depth, threads.convention, sets)
        findings += judgements.of_bench(bench, one)
    except NoDrill as refused:
        findings.append(
            Finding("check", "threads", ("threads.rack",), str(refused), "Another set of drills.")
        )
    clear: tuple[float | None, str, float | None, str]
    try:
        close, free, whose = clearance_drills(one, sets)
        clear = (close.diameter, close.name, free.diameter, free.name)
    except NoDrill as refused:
        whose, clear = str(refused), (None, "none", None, "none")
    covers = cover(
        threads.covers, bore=bore, pressure=pressure, preferred=threads.preferred, sets=sets,
        screw=screw_thread, screws=screws, screw_circle=screw_circle,
    )  # fmt: skip
    every = cases(
        threads, covers, pressure=pressure, bore=bore, piston_rod=piston_rod,
        piston_load=piston_load, valve_spindle_load=valve_spindle_load,
        nozzle_diameter=nozzle_diameter, pipe_bore=pipe_bore, rod_thread=rod_thread,
        # a rod that does not reach the crosshead at all is said by the cylinders
        rod_engaged=rod_engaged if rod_engaged and rod_engaged > 0 else None,
        screw_thread=screw_thread,
    )  # fmt: skip
    stud_workings: tuple[Working, ...] = ()
    if chest is not None:
        studs, stud_workings = stud_case(chest, threads, covers, bore=bore, pressure=pressure)
        every = (*every, studs)
    joints = []
    for case in every:
        joint = judged(case, threads)
        if joint is None:
            if case.key != "covers":  # the cover says it for itself
                findings.append(judgements.of_missing(case))
            continue
        joints.append(joint)
        findings += judgements.of_joint(case, joint)
        findings += judgements.of_drill(joint, sets)
    findings += judgements.of_cover(covers, bore)
    held = {one.key: one for one in joints}
    left = None
    if chest is not None and "chest" in held:
        left = beside(chest, held["chest"], held.get("covers"))
        findings += of_studs(chest, held["chest"], left)
    connector = fit(threads.connector)
    findings += judgements.of_connector(threads, connector)
    nut, _ = nut_thickness(one)
    flats = hexagon(one)
    workings = (
        *(_drill_workings(one, bench) if bench else ()),
        *covers.workings,
        *stud_workings,
        *(working for joint in joints for working in joint.workings),
        *connector.workings,
    )
    return ThreadsResult(
        tapping=bench.drill.diameter if bench else None,
        tapping_name=bench.drill.name if bench else "none",
        reached=bench.depth if bench else None,
        clearance=clear[0], clearance_name=clear[1],
        clearance_free=clear[2], clearance_free_name=clear[3],
        across_flats=flats.across_flats, nut=nut, half_pitch=connector.half_pitch,
        misfit=connector.misfit, turn_for_shift=connector.turn_for_shift,
        cover_screws=covers.number, cover_torque=covers.torque, chosen=one, bench=bench,
        drills=tapping_drills(one, threads.depth, threads.convention, sets),
        printed_tapping=printed(one, "tap"), printed_clearance=printed(one, "clearance"),
        clearance_source=whose, hexagon_source=f"{flats.what} ({flats.source})",
        joints=tuple(joints), cover=covers, connector=connector, studs_beside=left,
        screws=screws_to_scale(scale_ratio, threads.preferred, threads.prototype_hexagon),
        scale_ratio=scale_ratio, workings=workings,
        suggestions=still_open(
            _suggestions(threads, one, every, joints, covers, piston_rod, screws, screw_circle),
            fixed,
        ),
        findings=unlocked(findings, fixed),
    )  # fmt: skip


def _drill_workings(one: Thread, bench: Tapping) -> Iterator[Working]:
    known = conventions(one)
    yield hole_for.work(
        f"Hole for {bench.wanted:.0f} % of {one.designation}", "mm", major=one.major,
        percent=bench.wanted, factor=known[bench.convention][0], pitch=one.pitch,
    )  # fmt: skip
    for name, (factor, whose) in known.items():
        yield depth_reached.work(
            f"Depth that {bench.drill.name} gives ({name}: {whose})", "%", major=one.major,
            hole=bench.drill.diameter, factor=factor, pitch=one.pitch,
        )  # fmt: skip


def _suggestions(
    threads: Threads,
    one: Thread,
    every: tuple[Case, ...],
    joints: list[JointResult],
    covers: Cover,
    piston_rod: float,
    screws: int | None,
    screw_circle: float | None,
) -> Iterator[Suggestion]:
    depth = usual_depth(one, threads.material, threads.convention)
    yield Suggestion("threads.depth", round(depth), f"usual in {threads.material} ({COMMON})")
    spindle = spindle_diameter(threads, piston_rod)
    yield Suggestion(
        "threads.valve_spindle.diameter", spindle, f"about ¾ of the piston rod ({COMMON})"
    )
    # what the cylinders have worked out they suggest themselves
    if screws is None:
        yield Suggestion("cylinders.covers.screws", covers.number, f"usual ({COMMON})")
    if screw_circle is None:
        yield Suggestion(
            "cylinders.covers.screw_circle", covers.screw_circle,
            f"bore and three diameters of the screw ({COMMON})",
        )  # fmt: skip
    for case in every:
        if case.proposal and not (case.given and case.thread_at.startswith("cylinders.")):
            yield Suggestion(case.thread_at, case.proposal.designation, case.why)
        if case.hole:
            yield Suggestion(f"threads.{case.key}.hole", case.hole, case.hole_why)
    for joint in joints:
        if joint.key != "piston_rod":
            yield Suggestion(
                f"threads.{joint.key}.engagement", joint.usual, f"usual for the metals ({COMMON})"
            )
    if threads.connector.distance is not None and threads.connector.length is None:
        yield Suggestion(
            "threads.connector.length", threads.connector.distance,
            "the faces and both shoulders then meet",
        )  # fmt: skip
