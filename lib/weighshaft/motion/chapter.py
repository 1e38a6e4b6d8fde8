"""The chapter worked: events over the notches, the notch looked at, forces and the port face."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ..findings import Finding, Suggestion
from ..measures import BAR
from ..sizes import SizeError, figure
from ..working import Working
from .decisions import ValveMotion
from .equivalent import EquivalentEccentric, equivalent_eccentric, sizes_for_events
from .events import ValveEvents, events_over
from .frame import Array, Crank
from .gears import AnyGear
from .judgement import judge, suggest
from .kernel import Motion, solve_motion
from .port_face import PortFace, face_findings, port_face

FRAMES = np.linspace(0.0, 360.0, 120, endpoint=False)
"""Crank angles of the moving drawing and of the curves, degrees."""


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
    displacement : (notches, frames) valve after setting, mm.
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
    shown: Motion
    displacement: Array
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]


def work(motion: ValveMotion, *, crank: Crank, pressure: float) -> MotionResult:
    """Work the chapter.

    Parameters
    ----------
    pressure : in the steam chest, bar gauge, for the friction of the valve.

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
    displacement = np.broadcast_to(motions.valve, (len(worked), len(FRAMES))) + events[0].setting
    shown = _row(motions, len(notches))
    running, full = events[-2], events[-1]
    travel = max(one.travel for one in events)
    face = port_face(valve, motion.face, travel)
    valve_force, forces = _forces(motion, face, crank, look, pressure)
    asked, wanted = motion.wanted, None
    refused: tuple[Finding, ...] = ()
    try:
        wanted = sizes_for_events(asked.cutoff, asked.lead, asked.port_opening or valve.port_width)
    except SizeError as no:
        refused = (Finding("check", "motion", (f"motion.wanted.{no.field}",), str(no)),)
    # the sign of inside admission is the valve's, not the eccentric's
    equivalent = tuple(equivalent_eccentric(FRAMES, valve.sense * one) for one in displacement)
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
        shown=shown,
        displacement=displacement,
        workings=wanted.workings if wanted else (),
        suggestions=suggest(motion, crank, wanted, equivalent[-1]) if wanted else (),
        findings=(),
    )
    found = (*refused, *judge(motion, result), *face_findings(valve, motion.face, face))
    return replace(result, findings=found)


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
