"""The chapter worked: resistance, pull against speed, and a run over the line."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable

import numpy as np

from ..findings import Suggestion, by_level, still_open, unlocked
from ..measures import GRAVITY
from ..sizes import SizeError
from ..trade.saturation import SteamTableError, saturation
from . import relations
from .assumed import NO_NOTCH, Assumed, Point, assumed_map, held_to
from .decisions import Running
from .given import Array, EngineMap, Raising
from .judgement import cautions, judge
from .limits import FASTEST, Limits, balanced, fine_speeds, limits_of
from .notches import Notches
from .profile import profile_of
from .resistance import SLIDING, SMALL_GAUGE, Coupled, Resistance, Rolling, resistance_of
from .results import Pulling, Run, RunningResult, Wanted
from .simulation import Outing, drive
from .vessel import COLD, WATER_HEAT

PACE = 6.0
"""km/h, where nobody has said how fast the model is run; common practice."""
_LOADS = (0.5, 1.0, 2.0)
_CHART = 49


def work(
    running: Running,
    *,
    rolling: Rolling,
    raising: Raising,
    assumed: Assumed,
    chest_share: float,
    engine: EngineMap | None = None,
    point: Point | None = None,
    speed: float | None = None,
    evenness: float | None = None,
    fixed: frozenset[str] = frozenset(),
    progress: Callable[[float], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> RunningResult:
    """Work the chapter.

    Parameters
    ----------
    running : the decisions.
    rolling : masses and sizes of the engine on which its resistance depends.
    raising : boiler and fire.
    assumed : the cylinders' assumed cycle, taken where `engine` is None.
    chest_share : absolute pressure in the steam chest over the boiler's, regulator wide open.
    engine : the map of its pull.
    point : pull and steam known better than by the assumed cycle, to which that is held.
    speed : at which the model is run, km/h; None while not known.
    evenness : greatest torque of a turn over mean, None while not known.
    fixed : paths of sizes that a bought part has settled.
    progress, stop : see `drive`.

    Raises
    ------
    SizeError : where there is no notch to run in, or the pressure is beyond the steam table.
    """
    train, driving, line = running.train, running.driving, running.line
    try:
        steam = saturation(raising.working_pressure)
    except SteamTableError as refused:
        raise SizeError(f"Working pressure: {refused}", "") from refused
    if engine is None:
        engine = assumed_map(assumed)
        engine = engine if point is None else held_to(engine, point)
    notches = Notches(engine, chest_share)
    if not len(notches):
        raise SizeError(NO_NOTCH)
    resistance, behind, shares, workings = resistance_of(train, driving, rolling, line.rail)
    pace = driving.pace or speed or PACE
    lost = raising.loss * (steam.temperature - COLD)
    making = relations.evaporation.work(
        "Steam made lastingly", "g/s", Q=raising.heat_full, U=lost, h=steam.steam_heat,
        w=WATER_HEAT * raising.feed_temperature,
    )  # fmt: skip
    making = dataclasses.replace(making, result=1000 * making.result)
    profile = profile_of(line)
    rise = profile.steepest()
    steepest = 1 / rise if rise > 0 else 0.0

    fine = limits_of(
        notches, resistance, pressure=raising.working_pressure,
        evaporation=max(making.result, 0.0) / 1000, speeds=fine_speeds(),
    )  # fmt: skip
    wanted = _trains(resistance, behind, fine, steepest)
    speeds = _chart(pace, wanted)
    limits = limits_of(
        notches, resistance, pressure=raising.working_pressure,
        evaporation=max(making.result, 0.0) / 1000, speeds=speeds,
    )  # fmt: skip
    wanted = tuple(
        dataclasses.replace(one, force=np.interp(speeds, fine.speeds, one.force)) for one in wanted
    )
    own = [one for one in wanted if one.mass == behind.mass]
    level = next(one for one in own if not one.grade)
    uphill = next((one for one in own if one.grade), level)

    sharpest = min((one.radius for one in line.sections if one.radius), default=None)
    bent = 0.0
    if sharpest is not None:
        bent = resistance.curve * 1000 / sharpest / (resistance.mass * GRAVITY)
        shown = relations.curve.work(
            "Train on the sharpest curve, of its weight", "ratio", mu=SLIDING, G=rolling.gauge,
            B=behind.rigid, R=float(sharpest),
        )  # fmt: skip
        workings = (*workings, shown)
    rules = () if sharpest is None else tuple(
        relations.full_size_curve(float(sharpest), rolling.gauge).items()
    )  # fmt: skip

    run = drive(
        Outing(
            notches=notches, raising=raising, resistance=resistance, profile=profile,
            length=behind.length / 1000, pace=pace / 3.6, seconds=60 * driving.minutes,
            round=math.pi * rolling.wheel / 1000, low_water=driving.low_water,
            blower=driving.blower, tops_up=driving.tops_up,
        ),
        progress=progress, stop=stop,
    )  # fmt: skip
    distance, seconds = float(run.distance[-1]), float(run.time[-1])
    left = float(run.water[-1] + run.tank[-1])
    used = raising.water_working + raising.water_tank + run.topped - left
    held = resistance.level + resistance.machine
    load = behind.mass * GRAVITY
    hauled = sum(one.force for one in shares if one.name.startswith("Train"))
    result = RunningResult(
        train=behind.mass,
        resistance=held,
        per_weight=100 * held / (resistance.mass * GRAVITY),
        train_per_weight=100 * hauled / load if load else 0.0,
        curve_per_weight=100 * bent,
        grip=resistance.grip,
        evaporation=making.result,
        balancing=level.speed,
        uphill=uphill.speed,
        kept=pace,
        distance=distance,
        laps=distance / profile.length,
        mean_speed=3.6 * distance / seconds if seconds else 0.0,
        least_pressure=float(run.pressure.min()),
        steam_used=1000 * run.steam,
        water_left=float(run.water[-1] + run.tank[-1]),
        fuel_left=1000 * float(run.fuel[-1]),
        work_done=run.work_rim / distance if distance else 0.0,
        efficiency=_efficiency(run, resistance, behind),
        filling=_filling(run, raising, used, distance),
        speeds=speeds,
        notches=tuple(
            Pulling(reverser, row)
            for reverser, row in zip(notches.reversers, limits.rows, strict=True)
        ),
        boiler=limits.boiler,
        wanted=wanted,
        shares=shares,
        rules=rules,
        line=line,
        profile=profile,
        run=run,
        passengers=behind.passengers,
        source=notches.map.source,
        cautions=cautions(behind.passengers),
        workings=(*workings, making),
        suggestions=(),
        findings=(),
    )
    findings = judge(
        running, result, raising=raising, rolling=rolling, behind=behind, evenness=evenness,
        most=float(fine.cylinders[0]), steepest=steepest,
    )  # fmt: skip
    return dataclasses.replace(
        result,
        suggestions=still_open(_usual(running, behind, rolling.gauge, speed), fixed),
        findings=by_level(unlocked(findings, fixed)),
    )


def _trains(
    resistance: Resistance, behind: Coupled, fine: Limits, steepest: float
) -> tuple[Wanted, ...]:
    """Return half, all and twice the train, on the level and on the steepest rise."""
    return tuple(
        balanced(
            fine, resistance.times(times), mass=times * behind.mass, grade=grade,
            speeds=fine.speeds,
        )
        for times in (_LOADS if behind.mass else (1.0,))
        for grade in dict.fromkeys((0.0, steepest))
    )  # fmt: skip


def _chart(pace: float, wanted: tuple[Wanted, ...]) -> Array:
    """Return the speeds of the chart, km/h: to well beyond the pace and the balance."""
    balance = max(one.speed for one in wanted)
    last = min(max(2 * pace, min(1.25 * balance, 3 * pace)), FASTEST)
    made: Array = np.linspace(0.0, last, _CHART)
    return made


def _filling(run: Run, raising: Raising, used: float, distance: float) -> float | None:
    """Return how far water and fuel would take it, going on as in the run, m."""
    if distance <= 0:
        return None
    if run.tops:
        return next(one.distance for one in run.moments if one.kind == "water")
    if run.ended and "line" not in run.ended:
        return distance
    reach = []
    tank = raising.water_tank if raising.feed_per_turn else 0.0
    water = raising.water_working - raising.water_least + tank
    if used > 0:
        reach.append(distance * water / used)
    burnt = raising.fuel_aboard - float(run.fuel[-1])
    if burnt > 0:
        reach.append(distance * raising.fuel_aboard / burnt)
    return min(reach, default=None)


def _efficiency(run: Run, resistance: Resistance, behind: Coupled) -> float:
    """Return the work behind the engine over the heat that went into the water, per cent."""
    if run.heat <= 0:
        return 0.0
    share = behind.mass / resistance.mass
    return 100 * share * run.work_resistance / run.heat


def _usual(
    running: Running, behind: Coupled, gauge: float, speed: float | None
) -> list[Suggestion]:
    """Return what was taken where nothing was decided."""
    small = gauge < SMALL_GAUGE
    return [
        Suggestion("running.train.stock", round(behind.stock, 2),
                   "0.7 of the engine" if small else "12 kg a passenger"),
        Suggestion("running.train.passengers", behind.passengers,
                   "none below 60 mm gauge" if small else "one for 12 kg on the coupled wheels"),
        Suggestion("running.train.length", round(behind.length, 1), "the engine and 15 gauges"),
        Suggestion("running.train.wheel", behind.wheel, "0.6 of the gauge" if small
                   else "0.8 of the gauge"),
        Suggestion("running.train.journal", behind.journal, "0.14 of the wheel"),
        Suggestion("running.train.bearings", behind.bearings, "usual in this gauge"),
        Suggestion("running.train.rigid", round(behind.rigid, 1), "twice the gauge"),
        Suggestion("running.train.front", behind.drag, "people sitting upright"
                   if behind.passengers else "as wide and high as the engine"),
        Suggestion("running.driving.pace", round(speed or PACE, 2),
                   "the speed at which the model is run"),
    ]  # fmt: skip
