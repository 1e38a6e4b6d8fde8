"""The chapter worked: from the decisions to figures, workings and findings."""

from __future__ import annotations

import math

import numpy as np

from ..findings import Suggestion, by_level, still_open, unlocked
from ..frames.solids import Round
from ..frames.whole import Whole
from ..motion.frame import Array
from ..wheels.decisions import Wheels
from ..wheels.track import against_standard
from ..working import Working
from . import relations
from .coupling import Coupled, coupled_behind
from .decisions import Curving
from .guided import armed, load_on, truck_results, trucks_of
from .judgement import judge
from .judgement_line import Given
from .line import published, sharpest
from .results import CurvedAxle, CurvingResult, TruckResult
from .standing import STRAIGHT, Pose, Stand, easiest, loose, settled, smallest, spare
from .throws import Throw, swept, thrown, widest
from .trucks import ARMS, Guided, TruckPlace, placed, pushed_back, stand_of

_SWEEP = 25
_SPARE = 1.25
"""Swing allowed over swing needed, where none is decided; common practice."""


def work(
    curving: Curving,
    *,
    whole: Whole,
    wheels: Wheels,
    coupled_radius: float,
    coupled_rule: str,
    width_limit: float | None,
    engine_weight: float,
    carried: float,
    speed: float | None = None,
    centre_height: float | None = None,
    axle_loads: tuple[float, ...] | None = None,
    fixed: frozenset[str] = frozenset(),
) -> CurvingResult:
    """Work the chapter.

    Parameters
    ----------
    whole : the engine in its frames.
    wheels : the decisions on wheels, with the smallest curve to be gone round.
    coupled_radius, coupled_rule : smallest radius of the coupled wheelbase, mm, and what sets
        it, as the wheels' chapter works them.
    width_limit : that the line lets through on the straight, mm, None if unknown.
    engine_weight, carried : of the engine, and of that what the coupled wheels do not carry, kg.
    speed : on the curve, km/h, None if unknown.
    centre_height : of the engine's centre of gravity over the rail, mm, None if unknown.
    axle_loads : on every axle from the front, kg, None if unknown: then the carrying axles
        share `carried`.
    fixed : paths of sizes that a bought part has settled; no button changes them.
    """
    flange = against_standard(wheels, whole.gauge).flange_angle
    play = whole.flange_play + wheels.gauge_widening
    coupled = whole.coupled
    stands = [
        Stand(
            f"{one.name} axle", one.ahead, -one.play - play / 2, one.play + play / 2,
            wheel=one.diameter / 2, flange=flange,
        )
        for one in coupled
    ]  # fmt: skip
    trucks = trucks_of(curving, whole)
    stopped = [stand_of(one, play, flange) for one in trucks]
    stands += [one for one in stopped if one is not None]
    if len(stands) < 2:  # a single coupled axle is set along the curve by its trucks
        stands += [Stand(f"{one.word} {one.decided.kind}", one.pivot, -play / 2, play / 2,
                         one.within) for one in trucks]  # fmt: skip
    base = _base(whole)
    # a single coupled axle goes round anything; no track is narrower than its gauge
    coupled_radius = max(coupled_radius, whole.gauge)
    least, set_by = _smallest(tuple(stands), coupled_radius, coupled_rule)
    wanted = wheels.radius_wanted
    drawn = min(least, STRAIGHT) if wanted is None else wanted
    drawn = max(drawn, whole.buffer_front - whole.buffer_back)
    pose = settled(tuple(stands), drawn, sum(base) / 2)
    trucks = tuple(armed(one, pose) for one in trucks)
    room = (
        loose(tuple(stands), drawn, pose.crown, 2 * (whole.front - whole.back))
        if pose.passes else _alone(pose)
    )  # fmt: skip
    throws = thrown(whole, drawn, room, base)
    outer, inner = widest(throws)
    load = load_on(whole, trucks, engine_weight, carried, axle_loads)
    placed_trucks = [(one, placed(one, pose)) for one in trucks]
    results, workings = truck_results(placed_trucks, whole, pose, load, play)
    behind = _behind(curving, whole, pose)
    turnout, turnout_working = sharpest(curving.line, whole.gauge)
    named = curving.line.turnout if turnout is not None else ""
    curves = published(whole.gauge, least, (named, turnout))
    cant, over, speed_workings = _speed(curving, whole, drawn, speed, centre_height)
    swings = {one.word: one.place.swing for one in results}
    result = CurvingResult(
        smallest=least, set_by=set_by, drawn=drawn,
        leading_swing=_abs(swings.get("leading")), trailing_swing=_abs(swings.get("trailing")),
        coupled_attack=abs(_askew(coupled[0].ahead, pose)),
        throw_outside=max(one.outside for one in throws),
        throw_inside=max(one.inside for one in throws),
        clear_outside=outer.reach_outside + _gap(curving, whole),
        clear_inside=inner.reach_inside + _gap(curving, whole),
        drawbar=abs(behind.drawbar), buffers_nearer=-min(behind.inner, behind.outer),
        corner=behind.corner, step=behind.step, hose=max(behind.hose_outer, behind.hose_inner, 0.0),
        turnout_radius=turnout, balanced_cant=cant, overturning=over,
        pose=pose, gauge=whole.gauge + wheels.gauge_widening,
        axles=_axles(whole, pose, tuple(stands), placed_trucks), trucks=results,
        throws=throws, coupled=behind,
        curves=curves, sweep=_sweep(whole, tuple(stands), trucks, base, drawn), whole=whole,
        workings=(*_throw_workings(throws, base, drawn), *workings, *turnout_working,
                  *speed_workings),
        suggestions=still_open(_suggestions(curving, whole, results, load), fixed), findings=(),
    )  # fmt: skip
    given = Given(
        curving, wanted, coupled_radius, flange, width_limit, speed, centre_height,
        _head(whole), wheels.axle_diameter,
    )  # fmt: skip
    findings = by_level(unlocked(judge(given, result), fixed))
    return CurvingResult(**{**vars(result), "findings": findings})


def _base(whole: Whole) -> tuple[float, float]:
    """Return the axles that set the engine along the curve: the end coupled ones."""
    xs = [one.ahead for one in whole.coupled]
    if len(xs) < 2:
        xs = [one.ahead for one in whole.axles]
    return max(xs), min(xs)


def _smallest(stands: tuple[Stand, ...], coupled: float, rule: str) -> tuple[float, str]:
    """Return the smallest curve of the whole engine, mm, and what sets it."""
    if math.isinf(coupled) or easiest(stands, coupled * (1 + 1e-4))[1] >= 0:
        return coupled, rule  # the trucks ask for no more
    least, names = smallest(stands, coupled)
    return least, "room of the " + ", the ".join(names)


def _alone(pose: Pose) -> tuple[Array, Array, Array]:
    return np.array([pose.crown]), np.array([pose.line]), np.array([pose.line])


def _askew(ahead: float, pose: Pose) -> float:
    return math.degrees(math.asin(max(-1.0, min(1.0, (ahead - pose.crown) / pose.radius))))


def _abs(value: float | None) -> float | None:
    return None if value is None else abs(value)


def _gap(curving: Curving, whole: Whole) -> float:
    return whole.gauge / 20 if curving.line.gap is None else curving.line.gap


def _head(whole: Whole) -> tuple[float, float]:
    """Return buffer heads off the centre line and their diameter, mm; 0 where there are none."""
    part = whole.part("back buffers")
    rounds = [one for one in part.solids if isinstance(one, Round)] if part is not None else []
    if not rounds:
        return 0.0, 0.0
    head = max(rounds, key=lambda one: one.radius)
    return abs(head.start[2]), 2 * head.radius


def _half_beam(whole: Whole) -> float:
    part = whole.part("back buffer beam")
    return whole.gauge if part is None else part.extent[1][2]


def _behind(curving: Curving, whole: Whole, pose: Pose) -> Coupled:
    decided = curving.behind
    wheelbase, overhang, gap, hose = usual_behind(whole)
    return coupled_behind(
        pose, beam=whole.back, pin=decided.pin,
        gap=gap if decided.gap is None else decided.gap,
        wheelbase=wheelbase if decided.wheelbase is None else decided.wheelbase,
        overhang=overhang if decided.overhang is None else decided.overhang,
        buffers=_head(whole)[0], hose=hose if decided.pipe is None else decided.pipe,
        half=_half_beam(whole),
    )  # fmt: skip


def usual_behind(whole: Whole) -> tuple[float, float, float, float]:
    """Return wheelbase, overhang, gap between the beams and place of the hose, where unsaid, mm."""
    xs = [one.ahead for one in whole.axles]
    base = max(xs) - min(xs)
    return (
        base if base > 0 else 2 * whole.coupled[0].diameter,
        max(min(xs) - whole.back, 0.0), max(2 * (whole.back - whole.buffer_back), 1.0),
        0.3 * whole.gauge,
    )  # fmt: skip


def _speed(
    curving: Curving, whole: Whole, radius: float, speed: float | None, height: float | None
) -> tuple[float | None, float | None, tuple[Working, ...]]:
    """Return the cant for the speed, the overturning speed, and the way to both."""
    gauge, cant = whole.gauge, min(curving.line.cant, 0.5 * whole.gauge)
    workings = []
    if speed:
        workings.append(
            relations.balanced_cant.work(
                "Cant at which both rails bear alike", "mm", G=gauge, V=speed, R=radius
            )
        )
    if height is not None and gauge * cant < 2 * height * math.sqrt(gauge**2 - cant**2):
        workings.append(
            relations.overturning.work(
                "Overturning speed", "km/h", G=gauge, h=height, C=cant, R=radius
            )
        )
    got = {one.label: one.result for one in workings}
    return (
        got.get("Cant at which both rails bear alike"), got.get("Overturning speed"),
        tuple(workings),
    )  # fmt: skip


def _axles(
    whole: Whole, pose: Pose, stands: tuple[Stand, ...], trucks: list[tuple[Guided, TruckPlace]]
) -> tuple[CurvedAxle, ...]:
    left = {one.name: spare(one, pose) for one in stands}
    made = []
    for one in whole.coupled:
        shift = max(-one.play, min(one.play, pose.track(one.ahead)))
        made.append(
            CurvedAxle(
                one.name, one.ahead, shift, one.play, left[f"{one.name} axle"],
                abs(_askew(one.ahead, pose)),
            )
        )  # fmt: skip
    for truck, place in trucks:
        kind = truck.decided.kind
        room = truck.decided.play if kind == "rigid axle" else truck.decided.swing
        own = None if room is None else left.get(f"{truck.word} {kind}")
        names = [one.name for one in whole.axles if one.kind == truck.word]
        for name, (x, y) in zip(names, place.axles, strict=True):
            shift = y if kind in ARMS else place.swing
            made.append(CurvedAxle(name, x, shift, room, own, abs(place.attack)))
    return tuple(sorted(made, key=lambda one: -one.ahead))


def _sweep(
    whole: Whole, stands: tuple[Stand, ...], trucks: tuple[Guided, ...],
    base: tuple[float, float], drawn: float,
) -> tuple[tuple[float, float, float, float | None, float | None], ...]:  # fmt: skip
    """Return throws and swings on curves about the one that is drawn."""
    least = max(0.6 * drawn, whole.buffer_front - whole.buffer_back)
    radii = tuple(np.geomspace(least, max(4 * drawn, 2 * least), _SWEEP).tolist())
    made = []
    for radius, (outside, inside) in zip(radii, swept(whole, radii, base), strict=True):
        pose = settled(stands, radius, sum(base) / 2)
        swings = {one.word: abs(placed(one, pose).swing) for one in trucks}
        made.append((radius, outside, inside, swings.get("leading"), swings.get("trailing")))
    return tuple(made)


def _throw_workings(
    throws: tuple[Throw, ...], base: tuple[float, float], radius: float
) -> tuple[Working, ...]:
    wheelbase = base[0] - base[1]
    beyond = max(max(one.front for one in throws) - base[0], base[1] - min(
        one.back for one in throws
    ), 0.0)  # fmt: skip
    return (
        relations.end_throw.work(
            "Throw of the further end by the versine rule", "mm", n=beyond, B=wheelbase, R=radius
        ),
        relations.middle_throw.work(
            "Throw amid the coupled axles by the versine rule", "mm", m=wheelbase / 2,
            B=wheelbase, R=radius,
        ),
    )  # fmt: skip


def _suggestions(
    curving: Curving, whole: Whole, trucks: tuple[TruckResult, ...], load: dict[str, float]
) -> tuple[Suggestion, ...]:
    told = []

    def tell(path: str, value: float, why: str) -> None:
        told.append(Suggestion(f"curving.{path}", round(value, 2), why))

    for one in trucks:
        weight, swing = load[one.word] * relations.GRAVITY, abs(one.place.swing)
        decided = curving.leading if one.word == "leading" else curving.trailing
        push = pushed_back(decided, one.word, swing, weight)
        tell(f"{one.word}.wheel", one.wheel, "the prototype's, or 0.6 of the driving wheel")
        if one.kind == "bogie":
            tell(f"{one.word}.wheelbase", one.wheelbase, "twice its wheel")
        if one.kind in ARMS:
            tell(f"{one.word}.arm", one.radial, "its axle square to the curve")
        tell(f"{one.word}.swing", _SPARE * swing, "a quarter more than the curve needs")
        tell(f"{one.word}.preload", 0.1 * weight, "a tenth of the truck's load")
        tell(f"{one.word}.rate", push.rate, "a quarter of the load at the swing needed")
        tell(f"{one.word}.link", push.link, "five times the swing needed")
    wheelbase, overhang, gap, hose = usual_behind(whole)
    tell("line.gap", whole.gauge / 20, "a twentieth of the gauge")
    tell("behind.wheelbase", wheelbase, "as the engine's")
    tell("behind.overhang", overhang, "as the engine's behind its last axle")
    tell("behind.gap", gap, "the buffers just touching")
    tell("behind.pipe", hose, "0.3 of the gauge")
    return tuple(told)
