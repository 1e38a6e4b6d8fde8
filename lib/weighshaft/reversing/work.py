"""The chapter worked: notches, linkage, what holds the shaft, spring, and both sides."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from ..findings import Suggestion, by_level, still_open, unlocked
from ..motion import AnyGear, Crank, MotionLocks, SlideValve, ValveSetting
from ..motion.frame import Array
from ..working import Working
from . import relations
from .cutoff import Cutoffs, Found
from .decisions import Lever, Reversing, Screw, Servo, offered
from .holding import as_kg_cm, estimated_mass, hung_pins, in_newtons, per_unit, torques
from .judgement import (
    FRICTION,
    locks,
    nothing_to_turn,
    of_cutoffs,
    of_notches,
    of_reach,
    of_screw,
    of_servo,
    of_sides,
    of_spring,
    of_weight,
)
from .layout import Layout, Stands, laid_out, stands
from .results import Notch, ReversingResult
from .shaft import Shaft, shaft_of
from .sides import handed_parts, on_sides
from .spring import balanced


def work(
    reversing: Reversing,
    *,
    crank: Crank,
    gear: AnyGear,
    valve: SlideValve,
    setting: ValveSetting,
    number: int,
    crank_angle: float,
    valve_force: float | None = None,
    fixed: frozenset[str] = frozenset(),
) -> ReversingResult:
    """Work the chapter.

    Parameters
    ----------
    reversing : the decisions.
    crank, gear, valve, setting : as in the chapter on valves and motion.
    number : of cylinders.
    crank_angle : between the cranks, degrees.
    valve_force : friction of one valve under steam, N; None when unknown.
    fixed : paths of sizes that a bought part has settled; no button changes them.

    Raises
    ------
    SizeError : when valve and gear contradict one another.
    """
    sides = on_sides(crank, gear, number, crank_angle, reversing.leading_side)
    empty = _bare(crank, gear, number, sides)
    shaft = shaft_of(gear, crank.throw) if gear.notched else None
    judged = list(of_sides(number, crank_angle))
    if shaft is None:
        findings = by_level([nothing_to_turn(gear.title), *judged])
        return replace(empty, findings=unlocked(findings, fixed))
    cutoffs = Cutoffs(crank, valve, gear, setting)
    notches = _notches(reversing, cutoffs)
    layout, suggestions = laid_out(reversing, shaft, crank.stroke)
    cut = [one for one in notches if one.reverser is not None]
    reversers = np.array([one.reverser for one in cut], dtype=float)
    stood = stands(layout, shaft, reversers)
    try:
        held = _held(reversing, crank, gear, shaft, reversers, number, crank_angle, valve_force)
    except MotionLocks as refused:
        findings = by_level([locks(str(refused)), *judged])
        return replace(empty, findings=unlocked(findings, fixed))
    marked = iter(_marked(reversing, shaft, layout, stood, cut, held.greatest))
    notches = tuple(next(marked) if one.reverser is not None else one for one in notches)
    pulled = _pulled(reversing, layout, stood, held)
    margin = float(np.nanmin(np.minimum(stood.at_arm, stood.at_stand)))
    places = [one.arc if one.arc is not None else one.nut for one in notches]
    apart = np.abs(np.diff([one for one in places if one is not None]))
    judged += [
        *of_cutoffs(notches),
        *of_reach(reversing, layout, shaft, stood, margin),
        *of_weight(reversing, held.hung, held.middle, valve_force,
                   float(held.greatest.max()), shaft),
    ]  # fmt: skip
    figures: dict[str, Any] = {}
    if stood.reached:
        span = float(np.ptp(stood.place))
        by = reversing.worked_by
        if isinstance(by, Screw):
            turns = span / (by.pitch * by.starts)
            figures |= {"turns": turns, "nut_travel": span}
            judged += of_screw(by, layout, turns, span, pulled.grip)
        else:
            figures["throw"] = span
        if isinstance(by, Lever):
            figures["handle_travel"] = math.radians(span) * layout.handle
            figures["quadrant_span"] = math.radians(span) * layout.quadrant
            judged += of_notches(layout, notches)
        if isinstance(by, Servo):
            judged += of_servo(by, layout, span, pulled.servo)
            if pulled.servo:
                suggestions = (*suggestions, Suggestion(
                    "reversing.worked_by.torque", max(math.ceil(20 * pulled.servo) / 10, 0.5),
                    "twice what the gear pulls"))  # fmt: skip
        figures |= {"rod_force": pulled.rod, "stand_torque": pulled.torque,
                    "servo_needed": pulled.servo, "grip_force": pulled.grip}  # fmt: skip
    spring = balanced(reversing.balance, shaft, held.weight, reversers)
    fitted = reversing.balance.spring != "none"
    if fitted and spring.spring is not None:
        judged += of_spring(reversing, spring.spring, float(np.abs(held.weight).max()))
    suggestions = (*suggestions, *spring.suggestions)
    if reversing.balance.hung is None and held.hung:
        why = "estimated from the sizes, in steel"
        suggestions += (Suggestion("reversing.balance.hung", held.hung, why),)
    findings = by_level(
        replace(one, change=None) if one.change and not offered(reversing, *one.change) else one
        for one in judged
    )
    suggestions = tuple(one for one in suggestions if offered(reversing, one.field, one.value))
    return replace(
        empty, **figures,
        notches_cut=len(cut),
        least_pitch=float(apart.min()) if len(apart) and np.isfinite(apart).all() else None,
        reach_rod=layout.rod,
        pin_travel=layout.arm * math.radians(2 * abs(shaft.half)),
        least_margin=margin, hung=held.hung, weight_torque=held.middle,
        holding_torque=float(held.greatest.max()), shaft=shaft, layout=layout, notches=notches,
        arm_pin=stood.arm_pin, stand_pin=stood.pin, curve=_curve(cutoffs, layout, shaft),
        spring=spring.spring, spring_fitted=fitted,
        forward_full=notches[0].mean,
        workings=(*empty.workings, *pulled.workings, *spring.workings),
        suggestions=still_open(suggestions, fixed),
        findings=unlocked(findings, fixed),
    )  # fmt: skip


def _bare(crank: Crank, gear: AnyGear, number: int, sides: Any) -> ReversingResult:
    """Return the result of a gear that has nothing to turn: the two sides alone."""
    chord: float | None = None
    workings: tuple[Working, ...] = ()
    throw = getattr(gear, "return_crank_throw", None)
    if throw is not None:
        angle = math.radians(abs(gear.return_crank_angle))  # type: ignore[union-attr]
        working = relations.return_crank.work(
            "Return crank, between its pins' centres", "mm", r=crank.throw, rho=throw, alpha=angle
        )
        chord, workings = working.result, (working,)
    return ReversingResult(
        notches_cut=0, throw=None, handle_travel=None, quadrant_span=None, least_pitch=None,
        turns=None, nut_travel=None, reach_rod=None, pin_travel=None, least_margin=None,
        hung=None, weight_torque=None, holding_torque=None, rod_force=None, stand_torque=None,
        servo_needed=None, grip_force=None, return_crank_length=chord, shaft=None, layout=None,
        notches=(), arm_pin=np.zeros((0, 2)), stand_pin=np.zeros((0, 2)),
        curve=np.zeros((0, 3)), sides=sides, handed=handed_parts(crank, gear, number), spring=None,
        spring_fitted=False, forward_full=None, workings=workings, suggestions=(), findings=(),
    )  # fmt: skip


def _notches(reversing: Reversing, cutoffs: Cutoffs) -> tuple[Notch, ...]:
    """Return the notches from full forward through mid to full backward gear."""
    wanted = sorted(set(reversing.cutoffs), reverse=True)
    asked = [(one, 1) for one in wanted] + [(one, -1) for one in reversed(wanted)]
    found = [
        _notch(f"{percent:g} %", direction, percent, one)
        for (percent, direction), one in zip(asked, cutoffs.find(asked), strict=True)
    ]
    full, middle, back = cutoffs.at_ends()
    half = len(wanted)
    return (
        _notch("full", 1, None, full, 1.0), *found[:half],
        _notch("mid", 0, None, middle, 0.0), *found[half:],
        _notch("full", -1, None, back, -1.0),
    )  # fmt: skip


def _notch(
    name: str, direction: int, wanted: float | None, found: Found | str | None,
    at: float | None = None,
) -> Notch:  # fmt: skip
    """Return a notch whose place is not known yet; full and mid gear are there in any case."""
    one = found if isinstance(found, Found) else None
    return Notch(
        name=name, direction=direction, wanted=wanted,
        missed=found if isinstance(found, str) else "",
        reverser=at if one is None else one.reverser,
        front=None if one is None else one.front, back=None if one is None else one.back,
        arm_angle=None, lean=None, arc=None, chord=None, nut=None, turns=None, torque=None,
    )  # fmt: skip


def _marked(
    reversing: Reversing, shaft: Shaft, layout: Layout, stood: Stands, cut: list[Notch],
    greatest: Array,
) -> list[Notch]:  # fmt: skip
    """Return the notches with their places on quadrant or screw, from mid gear."""
    middle = stood.place[[one.reverser for one in cut].index(0.0)]
    made = []
    for i, one in enumerate(cut):
        assert one.reverser is not None
        place = float(stood.place[i])
        known: dict[str, float | None] = {
            "arm_angle": shaft.angle(one.reverser), "torque": float(greatest[i])
        }  # fmt: skip
        if math.isfinite(place) and math.isfinite(middle):
            away = place - float(middle)
            if isinstance(reversing.worked_by, Screw):
                lead = reversing.worked_by.pitch * reversing.worked_by.starts
                known |= {"nut": away, "turns": away / lead}
            else:
                known["lean"] = place
            if layout.quadrant:
                turned = math.radians(away)
                known["arc"] = layout.quadrant * turned
                known["chord"] = relations.divider_chord(R=layout.quadrant, delta=abs(turned))
        made.append(replace(one, **known))  # type: ignore[arg-type]
    return made


@dataclass(frozen=True)
class _Held:
    """What turns the shaft back: mass in g, torques in N mm over the notches reached."""

    hung: float
    middle: float
    weight: Array
    greatest: Array


def _held(
    reversing: Reversing, crank: Crank, gear: AnyGear, shaft: Shaft, reversers: Array,
    number: int, crank_angle: float, valve_force: float | None,
) -> _Held:  # fmt: skip
    own = reversing.balance.hung
    hung = estimated_mass(gear, crank.stroke, number) if own is None else own
    if not hung_pins(gear):
        hung = 0.0
    unit = per_unit(crank, gear, shaft, reversers)
    weight, greatest = torques(unit, valve_force or 0.0, in_newtons(hung), number, crank_angle)
    return _Held(hung, float(weight[np.abs(reversers).argmin()]), weight, greatest)


@dataclass(frozen=True)
class _Pulled:
    """Forces of the linkage in the notch where they are greatest."""

    rod: float | None = None
    torque: float | None = None
    servo: float | None = None
    grip: float | None = None
    workings: tuple[Working, ...] = ()


def _pulled(reversing: Reversing, layout: Layout, stood: Stands, held: _Held) -> _Pulled:
    if not stood.reached:
        return _Pulled()
    pull = held.greatest / (layout.arm * np.maximum(stood.at_arm, 1e-9))
    by = reversing.worked_by
    load = pull * (stood.at_stand if isinstance(by, Screw) else stood.at_stand * layout.radius)
    at = int(load.argmax())
    rod = relations.rod_force.work(
        "Force in the reach rod, worst notch", "N", T=float(held.greatest[at]), a=layout.arm,
        mu=math.asin(min(float(stood.at_arm[at]), 1.0)),
    )  # fmt: skip
    if isinstance(by, Screw):
        lead, effective = by.pitch * by.starts, layout.diameter - 0.65 * by.pitch
        if effective <= 0.5 * layout.diameter or math.pi * effective <= 0.2 * lead:
            return _Pulled(rod=float(pull.max()), workings=(rod,))
        torque = relations.screw_torque.work(
            "Torque that turns the screw", "N mm", F=float(load[at]), d=effective, L=lead,
            f=FRICTION,
        )  # fmt: skip
        grip = torque.result / layout.wheel
        return _Pulled(float(pull.max()), torque.result, None, grip, (rod, torque))
    torque = relations.lever_torque.work(
        "Torque about the pivot, worst notch", "N mm", F=rod.result, l=layout.radius,
        nu=math.asin(min(float(stood.at_stand[at]), 1.0)),
    )  # fmt: skip
    servo = as_kg_cm(torque.result) if isinstance(by, Servo) else None
    handle = torque.result / layout.handle if layout.handle else None
    return _Pulled(float(pull.max()), torque.result, servo, handle, (rod, torque))


def _curve(cutoffs: Cutoffs, layout: Layout, shaft: Shaft) -> Array:
    """Return reverser, place of the lever or nut, and mean cut-off from full to full gear."""
    forward, backward = cutoffs.curves[1], cutoffs.curves[-1]
    reverser = np.concatenate([forward.reverser, backward.reverser[::-1]])
    mean = np.concatenate([forward.mean, backward.mean[::-1]])
    return np.stack([reverser, stands(layout, shaft, reverser).place, mean], axis=-1)
