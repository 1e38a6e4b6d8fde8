"""The chapter worked: events over the notches, the notch looked at, forces and the port face."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ..findings import Finding, Suggestion
from ..measures import BAR
from ..sizes import SizeError, figure
from ..working import Working
from .change_over import ChangeOver
from .decisions import ValveMotion
from .equivalent import (
    EquivalentEccentric,
    ValveSizes,
    equivalent_eccentric,
    sizes_for_events,
)
from .events import ValveEvents, events_over, piston_of, valve_as_seen
from .frame import Array, Crank
from .gears import AnyGear
from .judgement import judge, suggest
from .kernel import Motion, solve_motion
from .lapping import TrunnionResult
from .lapping import work as work_trunnion
from .no_lap import CostOfNoLap, cost_of_no_lap
from .oscillating import Oscillating
from .port_face import (
    PortFace,
    face_findings,
    piston_valve_diameter,
    piston_valve_findings,
    port_face,
)
from .valves import SlideValve

FRAMES = np.linspace(0.0, 360.0, 120, endpoint=False)
"""Crank angles of the moving drawing and of the curves, degrees."""

CLEARANCE = 10.0
"""Clearance volume with which a valve without lap is compared, % (common practice)."""


@dataclass(frozen=True, kw_only=True)
class PartForce:
    """The greatest force in a part that the friction of the valve under steam makes."""

    part: str
    force: float = figure("Greatest force", "N")


@dataclass(frozen=True, kw_only=True)
class MotionResult:
    """What the gear does.

    Parameters
    ----------
    reversers : notches in which `events` are worked.
    shown : the motion at the crank angles of `FRAMES` in the notch looked at.
    displacement : (notches, frames) valve after setting, as the ports see it, mm.
    metal : (frames,) the valve itself in the notch looked at; other than `displacement` only
        where steam and exhaust have changed places, mm.
    seen : the valve as the ports see it in the notch looked at.
    piston : what moves the piston.
    trunnion, no_lap : of oscillating cylinders, and of a gear with a change-over valve.
    """

    cutoff_full: float | None = figure("Cut-off in full forward gear", "%", main=True)
    cutoff_running: float | None = figure("Cut-off in the notch looked at", "%", main=True)
    lead_full: float = figure("Lead in full forward gear", main=True)
    opening_running: float = figure("Port opens in the notch looked at", main=True)
    travel: float = figure("Greatest valve travel", main=True)
    release_running: float | None = figure("Release in the notch looked at", "%")
    compression_running: float | None = figure("Compression in the notch looked at", "%")
    release_full: float | None = figure("Release in full forward gear", "%")
    compression_full: float | None = figure("Compression in full forward gear", "%")
    die_slip: float | None = figure("Die slips in its slot, notch looked at")
    die_reach: float | None = figure("Die goes furthest from the middle of its slot")
    valve_force: float | None = figure("Friction of the valve under steam", "N")
    least_margin: float = figure("Least sine of an angle of transmission", "ratio")
    reversers: tuple[float, ...]
    events: tuple[ValveEvents, ...]
    full: ValveEvents
    running: ValveEvents
    equivalent: tuple[EquivalentEccentric, ...]
    forces: tuple[PartForce, ...]
    face: PortFace | None
    crank: Crank
    piston: Crank
    seen: SlideValve
    shown: Motion
    displacement: Array
    metal: Array
    trunnion: TrunnionResult | None
    no_lap: CostOfNoLap | None
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]


def work(
    motion: ValveMotion,
    *,
    crank: Crank,
    pressure: float,
    back_pressure: float = 0.15,
    bore: float | None = None,
    number: int = 2,
    crank_angle: float = 90.0,
) -> MotionResult:
    """Work the chapter.

    Parameters
    ----------
    pressure, back_pressure : in the steam chest and on the exhaust side, bar gauge.
    bore, number, crank_angle : of the cylinders, for those that oscillate; mm and degrees.

    Raises
    ------
    MotionLocks : when the gear cannot be assembled or locks.
    SizeError : when sizes contradict one another.
    """
    gear, valve = motion.gear, motion.valve
    notches = _usable(motion.reversers, gear)
    (look,) = _usable((motion.running_notch,), gear)
    worked = (*notches, look, 1.0)
    events = events_over(crank, valve, gear, worked, setting=motion.setting)
    motions = solve_motion(crank, gear, FRAMES, np.array(worked))
    displacement = np.broadcast_to(motions.valve, (len(worked), len(FRAMES))) + np.array(
        [[one.setting] for one in events]
    )
    shown = _row(motions, len(notches))
    running, full = events[-2], events[-1]
    travel = max(one.travel for one in events)
    trunnion = no_lap = None
    if isinstance(gear, Oscillating):
        trunnion = work_trunnion(
            gear, crank=crank, bore=bore or crank.stroke / 2, pressure=pressure, number=number,
            crank_angle=crank_angle,
        )  # fmt: skip
    elif isinstance(gear, ChangeOver):
        no_lap = _cost(gear, valve, motion, crank, pressure, back_pressure)
    face = None if trunnion else port_face(valve, motion.face, travel)
    valve_force, forces = _forces(motion, face, crank, look, pressure)
    asked, wanted = motion.wanted, None
    refused: tuple[Finding, ...] = ()
    try:
        width = valve_as_seen(gear, valve, 1.0).port_width
        wanted = sizes_for_events(asked.cutoff, asked.lead, asked.port_opening or width)
    except SizeError as no:
        refused = (Finding("check", "motion", (f"motion.wanted.{no.field}",), str(no)),)
    # the sign of inside admission is the valve's, not the eccentric's
    sense = valve_as_seen(gear, valve, 1.0).sense
    equivalent = tuple(equivalent_eccentric(FRAMES, sense * one) for one in displacement)
    die = motions.die
    slip = None if die is None else float(np.ptp(die[len(notches)]))
    reach = None if die is None else float(np.abs(die).max())
    result = MotionResult(
        cutoff_full=_mean(full, "cutoff"),
        cutoff_running=_mean(running, "cutoff"),
        lead_full=(full.front.lead + full.back.lead) / 2,
        opening_running=min(running.front.port_opening, running.back.port_opening),
        travel=travel,
        release_running=_mean(running, "release"),
        compression_running=_mean(running, "compression"),
        release_full=_mean(full, "release"),
        compression_full=_mean(full, "compression"),
        die_slip=slip,
        die_reach=reach,
        valve_force=valve_force,
        least_margin=min(float(np.min(m)) for m in motions.margins.values()),
        reversers=notches,
        events=events[: len(notches)],
        full=full,
        running=running,
        equivalent=equivalent,
        forces=forces,
        face=face,
        crank=crank,
        piston=piston_of(gear, crank),
        seen=valve_as_seen(gear, valve, look),
        shown=shown,
        displacement=displacement,
        metal=displacement[-2] * (-1.0 if no_lap and look < 0 else 1.0),
        trunnion=trunnion,
        no_lap=no_lap,
        workings=_workings(wanted, trunnion, no_lap),
        suggestions=suggest(motion, crank, wanted, equivalent[-1]) if wanted else (),
        findings=(),
    )
    if trunnion:
        return replace(
            result, findings=trunnion.findings,
            suggestions=(*result.suggestions, *trunnion.suggestions),
        )  # fmt: skip
    found = (*refused, *judge(motion, result), *face_findings(valve, motion.face, face))
    if motion.valve_type != "piston":
        return replace(result, findings=found)
    diameter = Suggestion(
        "motion.face.valve_diameter", piston_valve_diameter(valve, motion.face),
        "the ports take two thirds of the way round (common practice)",
    )  # fmt: skip
    return replace(
        result, findings=(*found, *piston_valve_findings(valve, motion.face)),
        suggestions=(*result.suggestions, diameter),
    )  # fmt: skip


def _cost(
    gear: ChangeOver,
    valve: SlideValve,
    motion: ValveMotion,
    crank: Crank,
    pressure: float,
    back_pressure: float,
) -> CostOfNoLap | None:
    """Return what no lap costs; None where nothing can be compared."""
    try:
        return cost_of_no_lap(
            crank, gear, valve, motion.wanted, pressure=pressure, back=back_pressure,
            clearance=CLEARANCE,
        )  # fmt: skip
    except ValueError:
        return None


def _workings(
    wanted: ValveSizes | None, trunnion: TrunnionResult | None, no_lap: CostOfNoLap | None
) -> tuple[Working, ...]:
    """Return what was reckoned by a relation; without lap nothing comes of the events wanted."""
    for own in (trunnion, no_lap):
        if own is not None:
            return own.workings
    return wanted.workings if wanted else ()


def _usable(notches: tuple[float, ...], gear: AnyGear) -> tuple[float, ...]:
    """Return the notches that the gear has: a slip eccentric knows forward and backward alone."""
    if gear.notched:
        return notches
    signs = [1.0 if notch >= 0 else -1.0 for notch in notches]
    return tuple(dict.fromkeys(signs))


def _mean(events: ValveEvents, name: str) -> float | None:
    ends = [getattr(end, name) for end in (events.front, events.back)]
    if any(event is None for event in ends):
        return None
    return float(sum(event.percent for event in ends)) / 2


def _row(motions: Motion, row: int) -> Motion:
    """Return one notch of a motion over several."""
    return replace(
        motions,
        reverser=motions.reverser[row],
        valve=motions.valve[row],
        points={name: point[row] for name, point in motions.points.items()},
        die=None if motions.die is None else motions.die[row],
        margins={name: margin[row] for name, margin in motions.margins.items()},
    )


def _forces(
    motion: ValveMotion, face: PortFace | None, crank: Crank, look: float, pressure: float
) -> tuple[float | None, tuple[PartForce, ...]]:
    """Return the valve's friction and the greatest force it makes in each part, N."""
    if face is None or motion.valve.port_length is None or motion.valve_type != "slide":
        return None, ()
    friction = motion.face.friction * pressure * BAR * face.bears
    notches = np.array([[1.0], [look]])
    pose = motion.gear.pose(crank, FRAMES[None, ::2], notches)
    per_newton = motion.gear.forces(pose)
    return friction, tuple(
        PartForce(part=part, force=friction * float(np.abs(unit).max()))
        for part, unit in per_newton.items()
    )
