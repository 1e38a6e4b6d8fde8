"""The screwed joints of the engine: what each carries, its thread, and how it stands."""

from __future__ import annotations

import math
from contextlib import suppress
from dataclasses import dataclass

from ..measures import BAR, circle_area
from ..trade.drills import SETS, Drill, NoDrill
from ..trade.hexagons import hexagon, nut_thickness
from ..trade.materials import material
from ..trade.threads import Thread, thread
from ..working import Working
from . import strength
from .covers import Cover
from .decisions import Bored, CoverScrews, Joint, PistonHead, PistonRod, Threads
from .proposals import largest_on_rod, smallest_round_hole, stock_rod
from .tapping import Tapping, clearance_drills, stock_hole, tapping_drill

PACKING = 2.0
"""Packing is squeezed to about this many times the steam pressure (common practice)."""
EXHAUST = 0.25
"""Pressure in the exhaust over that in the boiler, at release (common practice)."""


@dataclass(frozen=True)
class Case:
    """What a joint has to do, before a thread is chosen.

    Parameters
    ----------
    key : field of `Threads`.
    name : in the trade's words.
    decision : what the builder decided here; `male` is the metal of the male part.
    given, engaged : thread and its length (mm) as decided, None where it is proposed.
    thread_at, engaged_at : paths of those two decisions.
    proposal, why : thread proposed (None where no table thread will do) and the reason.
    hole : through the male part, mm, 0 if solid; `hole_why` the reason for the proposal.
    load_on : load (N) for a thread and its tapping drill; `load_says` what it is.
    safety : on the proof stress.
    wall_wanted : mm, 0 for a solid part.
    carrier : rod (mm) that has to carry the thread, None for a bored part or a screw.
    pressed_at : pressure (N/mm²) on the area named by `pressed`: "" none, "end" the major
        diameter, "packing" the ring between rod and stuffing box.
    """

    key: str
    name: str
    decision: Joint | PistonRod | PistonHead | CoverScrews
    male: str
    given: str | None
    engaged: float | None
    thread_at: str
    engaged_at: str
    proposal: Thread | None
    why: str
    load_says: str
    safety: float
    load: float = 0.0
    pressed_at: float = 0.0
    pressed: str = ""
    hole: float = 0.0
    hole_why: str = ""
    wall_wanted: float = 0.0
    carrier: float | None = None

    def load_on(self, one: Thread, drill: float) -> float:
        """Return the load on the thread, N."""
        if self.pressed == "end":
            return self.pressed_at * circle_area(one.major)
        if self.pressed == "packing":
            return self.pressed_at * max(circle_area(drill) - circle_area(self.hole), 0.0)
        return self.load


@dataclass(frozen=True)
class JointResult:
    """A joint as it stands.

    Parameters
    ----------
    key, name : field of `Threads`; name in the trade's words.
    one : thread; `proposed` when it is not the builder's own; `why` the reason of the proposal.
    load, load_says : N, and what it is.
    hole, wall, wall_wanted : through the male part, wall left and usual wall, mm; 0 if solid.
    stress, stress_allowed : tension in the core and what is allowed, N/mm².
    male_shear, female_shear : mean shear in the threads, N/mm².
    male_allowed, female_allowed : what is allowed, N/mm².
    engagement : length of thread, mm; `engagement_given` when the builder decided it.
    needed, full : engagement for the load, and for the full strength of the male part, mm.
    usual : engagement that is usual, mm.
    twist : torque (N mm) at which a bored part begins to twist off, 0 if solid.
    drill, depth : tapping drill and the depth of thread (%) it gives.
    clear : close clearance drill.
    across_flats, nut : hexagon and nut thickness, mm.
    workings : the relations with their numbers.
    """

    key: str
    name: str
    one: Thread
    proposed: bool
    why: str
    load: float
    load_says: str
    safety: float
    hole: float
    wall: float
    wall_wanted: float
    stress: float
    stress_allowed: float
    male_shear: float
    female_shear: float
    male_allowed: float
    female_allowed: float
    engagement: float
    engagement_given: bool
    needed: float
    full: float
    usual: float
    twist: float
    drill: Drill
    depth: float
    clear: Drill | None
    across_flats: float
    nut: float
    workings: tuple[Working, ...]


_LEAST, _LOOSEST = 0.6, 1.25
"""A drill that leaves less of the depth wanted does not tap a thread, and one of more than so
many times its diameter does not clear it; common practice."""


def wall_for(hole: float) -> float:
    """Return the wall (mm) that is usual round a hole (mm); common practice."""
    return max(0.7, 0.12 * hole + 0.3)


def spindle_diameter(threads: Threads, piston_rod: float) -> float:
    """Return the valve spindle (mm): the builder's, or three quarters of the piston rod."""
    if threads.valve_spindle.diameter is not None:
        return threads.valve_spindle.diameter
    return stock_rod(0.75 * piston_rod, threads.preferred)


Decided = tuple[str | None, float | None, str, str]
"""A thread and its length engaged as decided, and the paths of the two decisions."""


def _here(key: str, decision: Joint | PistonHead) -> Decided:
    """Return what was decided of a joint in this chapter."""
    path = f"threads.{key}"
    return decision.designation, decision.engagement, f"{path}.designation", f"{path}.engagement"


def cases(
    threads: Threads,
    cover: Cover,
    *,
    pressure: float,
    bore: float,
    piston_rod: float,
    piston_load: float,
    valve_spindle_load: float,
    nozzle_diameter: float,
    pipe_bore: float | None = None,
    rod_thread: str | None = None,
    rod_engaged: float | None = None,
    screw_thread: str | None = None,
) -> tuple[Case, ...]:
    """Return what each joint of the engine has to do, with its proposal.

    Parameters
    ----------
    threads : the decisions.
    cover : the screws of a cover, worked before.
    pressure : bar above atmosphere.
    bore, piston_rod, nozzle_diameter : mm.
    piston_load, valve_spindle_load : N.
    pipe_bore : of the blast pipe, mm; None while not known.
    rod_thread, rod_engaged : of the piston rod in the crosshead, mm.
    screw_thread : of the cover screws.
    """
    spindle = spindle_diameter(threads, piston_rod)

    def rod(
        key: str, name: str, decision: Joint | PistonRod | PistonHead, metal: str,
        decided: Decided, diameter: float, load: float,
    ) -> Case:  # fmt: skip
        return Case(
            key, name, decision, metal, *decided, largest_on_rod(diameter, threads.preferred),
            f"the largest that a rod of {diameter:.2f} mm carries", "push and pull of the rod",
            strength.ALTERNATING, load=load, carrier=diameter,
        )  # fmt: skip

    def gland(key: str, name: str, decision: Bored, diameter: float) -> Case:
        hole = decision.hole or diameter + 0.05
        wall = max(0.8, 0.25 * diameter)
        return Case(
            key, name, decision, decision.male, *_here(key, decision),
            smallest_round_hole(hole, wall, threads.preferred),
            f"the smallest that leaves {wall:.2f} mm round the rod", "packing squeezed to "
            f"{PACKING:g} × the steam", strength.STEADY, pressed_at=PACKING * pressure * BAR,
            pressed="packing", hole=hole, hole_why="the rod and 0.05 mm", wall_wanted=wall,
        )  # fmt: skip

    def pipe(
        key: str, name: str, decision: Bored, of: float, why: str, share: float,
        bore: float | None = None,
    ) -> Case:  # fmt: skip
        hole = decision.hole or bore or stock_hole(of, threads.rack.sets)
        wall = wall_for(hole)
        return Case(
            key, name, decision, decision.male, *_here(key, decision),
            smallest_round_hole(hole, wall, threads.preferred),
            f"the smallest that leaves {wall:.2f} mm round the hole",
            "pressure on the end" if share == 1 else f"{share:g} of the boiler pressure on the end",
            strength.STEADY, pressed_at=share * pressure * BAR, pressed="end", hole=hole,
            hole_why=why, wall_wanted=wall,
        )  # fmt: skip

    screws = Case(
        "covers", "Cylinder-cover screws", threads.covers, threads.covers.male, screw_thread,
        threads.covers.engagement, "cylinders.covers.thread", "threads.covers.engagement",
        cover.proposal,
        "the smallest that is in keeping with the bore and strong enough",
        f"one of {cover.number} screws: {cover.ruling}", strength.STEADY, load=cover.load,
    )  # fmt: skip
    return (
        rod(
            "piston_rod", "Piston rod into crosshead", threads.piston_rod,
            threads.piston_rod.male,
            (rod_thread, rod_engaged, "cylinders.crosshead.rod_thread",
             "cylinders.crosshead.rod_engaged"),
            piston_rod, piston_load,
        ),
        rod(
            "piston_head", "Piston rod into piston", threads.piston_head,
            threads.piston_rod.male, _here("piston_head", threads.piston_head),
            piston_rod, piston_load,
        ),
        rod(
            "valve_spindle", "Valve spindle into fork", threads.valve_spindle,
            threads.valve_spindle.male, _here("valve_spindle", threads.valve_spindle), spindle,
            valve_spindle_load,
        ),
        gland("piston_gland", "Piston-rod gland", threads.piston_gland, piston_rod),
        gland("valve_gland", "Valve-spindle gland", threads.valve_gland, spindle),
        screws,
        pipe("steam", "Steam connection", threads.steam, 0.18 * bore, "0.18 of the bore", 1),
        pipe("exhaust", "Exhaust connection", threads.exhaust, 0.25 * bore, "¼ the bore", EXHAUST),
        pipe(
            "nozzle", "Blast nozzle on its pipe", threads.nozzle, 1.5 * nozzle_diameter,
            "the blast pipe's bore" if pipe_bore else "1½ times the nozzle", EXHAUST, pipe_bore,
        ),
    )  # fmt: skip


def _tapped(one: Thread, metal: str, threads: Threads) -> Tapping | None:
    """Return the tapping drill of those owned; where none will do, of those that can be bought."""
    found: list[Tapping] = []
    for sets in (threads.rack.sets, SETS):
        with suppress(NoDrill):
            found.append(tapping_drill(one, metal, None, threads.convention, sets))
        if found and found[-1].depth >= _LEAST * found[-1].wanted:
            return found[-1]
    return found[0] if found else None


def _clear(one: Thread, threads: Threads) -> Drill | None:
    """Return the close clearance drill of those owned, else of those that can be bought."""
    for sets in (threads.rack.sets, SETS):
        with suppress(NoDrill):
            drill = clearance_drills(one, sets)[0]
            if drill.diameter <= _LOOSEST * one.major:
                return drill
    return None


def judged(case: Case, threads: Threads) -> JointResult | None:
    """Return a joint as it stands, None where no thread of the tables or no drill will do.

    Parameters
    ----------
    case : what it has to do.
    threads : the decisions, for the drills and the depth of thread.
    """
    one = thread(case.given) if case.given else case.proposal
    if one is None:
        return None
    male, female = material(case.male), material(case.decision.female)
    tap = _tapped(one, female.name, threads)
    if tap is None:
        return None
    clear = _clear(one, threads)
    drill = tap.drill.diameter
    load = case.load_on(one, drill)
    safety = case.safety
    needed = strength.engagement_for_load(one, load, drill, male, female, safety)
    full = strength.engagement_for_strength(one, case.hole, drill, male, female)
    usual = 5 * one.pitch if case.hole else female.grip * one.major
    usual = max(math.ceil(2 * usual - 1e-9) / 2, math.ceil(2 * needed - 1e-9) / 2)
    engaged = case.engaged or usual
    male_area, female_area = strength.strip_areas(one, engaged, drill)
    bored = min(case.hole, 0.98 * one.minor)  # a hole that leaves no wall is a stop of its own
    bore = strength.bore_in_use(one, drill)
    name = case.name
    workings = [
        strength.core_stress.work(f"{name}: tension in the core", "N/mm2",
                                  load=load, core=one.minor, hole=bored),
        strength.male_strip_area.work(f"{name}: male thread in shear", "mm2", engagement=engaged,
                                      pitch=one.pitch, hole=bore, effective=one.effective,
                                      flank=one.flank),
        strength.female_strip_area.work(f"{name}: female thread in shear", "mm2",
                                        engagement=engaged, pitch=one.pitch, major=one.major,
                                        effective=one.effective, flank=one.flank),
        strength.thread_shear.work(f"{name}: shear in the male thread", "N/mm2",
                                   load=load, area=male_area),
        strength.thread_shear.work(f"{name}: shear in the female thread", "N/mm2",
                                   load=load, area=female_area),
    ]  # fmt: skip
    stress, male_shear, female_shear = (workings[i].result for i in (0, 3, 4))
    wall = twist = 0.0
    if case.hole:
        left = strength.wall_left.work(f"{name}: wall left", "mm", core=one.minor, hole=case.hole)
        torque = strength.twist_off.work(
            f"{name}: begins to twist off at", "N mm", proof=male.proof, core=one.minor, hole=bored
        )
        workings += [left, torque]
        wall, twist = left.result, torque.result
    return JointResult(
        case.key, name, one, not case.given, case.why, load, case.load_says, safety, case.hole,
        wall, case.wall_wanted, stress, male.proof / safety, male_shear, female_shear,
        strength.SHEAR * male.proof / safety, strength.SHEAR * female.proof / safety, engaged,
        case.engaged is not None, needed, full, usual, twist, tap.drill, tap.depth,
        clear, hexagon(one).across_flats, nut_thickness(one)[0], tuple(workings),
    )  # fmt: skip
