"""The chapter worked: one running condition of the engine."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ..cylinders import steam as textbook
from ..findings import Suggestion, by_level, still_open
from ..motion.events import piston_of
from ..sizes import SizeError
from ..trade.densities import density
from ..trade.saturation import ATMOSPHERE
from ..trade.warmth import specific_heat
from ..working import Working
from . import reading, relations
from .beat import beats_of
from .cycle import Array, Cycle, CycleError
from .decisions import SteamSide
from .engine import (
    AIR_LINE,
    EXHAUST_SHARE,
    PIPE_LENGTH,
    WALKING,
    WALL_SHARE,
    Engine,
    Ran,
    Running,
    looked_at,
    march,
    usual_chest,
    usual_gap,
    usual_regulator,
    valve_gap,
)
from .judgement import cautions, coefficients, judged
from .openings import port_length
from .results import Loss, Mark, SteamResult


def work(
    steam: SteamSide,
    *,
    engine: Engine,
    speed: float | None,
    running_notch: float,
    fixed: frozenset[str] = frozenset(),
) -> SteamResult:
    """Work the chapter.

    Parameters
    ----------
    engine : what the other chapters decided.
    speed : running speed, km/h; None takes a walking pace.
    running_notch : position of the reverser.
    fixed : paths of sizes that bought parts have settled.

    Raises
    ------
    SizeError : where the engine cannot be run so, in the builder's words.
    """
    running = looked_at(steam, engine, speed=speed, running_notch=running_notch)
    try:
        ran = march(steam, engine, running)
    except CycleError as refused:
        raise SizeError(str(refused), "running.pressure") from refused
    result = _read(steam, engine, running, ran)
    suggestions = _suggestions(steam, engine, speed, running_notch)
    result = replace(result, suggestions=still_open(suggestions, fixed))
    return replace(result, findings=by_level(judged(steam, engine, running, result)))


def _suggestions(
    steam: SteamSide, engine: Engine, speed: float | None, running_notch: float
) -> list[Suggestion]:
    """Return what is taken for sizes left empty, and why."""
    usual = "usual (common practice)"
    on_air = steam.running.medium != "steam"
    told = engine.regulator is not None
    return [
        Suggestion(
            "steam.running.speed", speed or WALKING,
            "the running speed" if speed else "a walking pace",
        ),
        Suggestion("steam.running.notch", running_notch, "the running notch"),
        Suggestion(
            "steam.running.pressure", AIR_LINE if on_air else engine.pressure,
            "enough for an air test" if on_air else "the working pressure",
        ),
        Suggestion(
            "steam.way.regulator",
            round(usual_regulator(engine), 2),
            "as fire, boiler and feed have it" if told
            else "a fifth of the bore for each root of the cylinders (common practice)",
        ),
        Suggestion("steam.way.pipe_length", round(PIPE_LENGTH * engine.bore, 1), usual),
        Suggestion(
            "steam.way.chest", round(usual_chest(steam, engine)),
            "room in the chest beside the valve, and its share of the pipe"
            if engine.chest else usual,
        ),
        Suggestion("steam.way.exhaust", round(EXHAUST_SHARE * engine.swept), usual),
        Suggestion(
            "steam.way.superheat", round(engine.superheat or 0.0, 1),
            "as fire, boiler and feed have it" if told else "none",
        ),
        Suggestion("steam.assumed.wall", round(WALL_SHARE * engine.bore, 2), usual),
        Suggestion(
            "steam.assumed.valve_gap",
            round(usual_gap(engine), 5),
            "1/32,000 of the port's length, 1 µm at least",
        ),
    ]  # fmt: skip


def _read(steam: SteamSide, engine: Engine, running: Running, ran: Ran) -> SteamResult:
    cycle, opening, supply = ran.cycle, ran.opening, ran.supply
    marks = reading.marks_of(opening)
    areas, stroke, outside = engine.space.areas, engine.stroke, ran.outlet.pressure
    work_turn = float(cycle.work.sum())
    acting = (areas[0], 0.0) if engine.single else areas
    mean = relations.mean_pressure.work(
        "Mean effective pressure", "bar", front=float(cycle.work[0]), back=float(cycle.work[1]),
        front_area=acting[0], back_area=acting[1], stroke=stroke,
    )  # fmt: skip
    power = relations.indicated_power.work(
        "Indicated power", "W", work=work_turn, number=engine.number, turns=ran.turns
    )
    pull = relations.pull_at_rim.work(
        "Pull at the rim", "N", work=work_turn, number=engine.number, wheel=engine.wheel,
        efficiency=engine.efficiency,
    )  # fmt: skip
    rate = 1000 * cycle.drawn * ran.turns
    workings: list[Working] = [mean, power, pull]
    specific = None
    if power.result > 0:
        workings.append(
            relations.specific_steam.work("Steam for a kWh, kg", "ratio", steam=rate,
                                          power=power.result)
        )  # fmt: skip
        specific = workings[-1].result
    ends = 1 if engine.single else 2
    told = None
    if running.medium == "steam":
        told = reading.missing_part(cycle, marks, cycle.drawn, engine.number)
    lost = None
    if told is not None:
        workings.append(
            relations.missing.work(
                "Steam that the indicator does not see", "ratio",
                drawn=1000 * cycle.drawn / engine.number / ends, shown=told[0], kept=told[1],
            )
        )  # fmt: skip
        lost = workings[-1].result
    metal = steam.assumed.metal
    workings.append(
        relations.skin_depth.work(
            "Depth of metal that warms and cools", "mm", skin=ran.losses.skin,
            capacity=density(metal) * specific_heat(metal), turns=ran.turns,
        )
    )  # fmt: skip
    skin = min(workings[-1].result, steam.assumed.wall or WALL_SHARE * engine.bore)
    workings.append(
        relations.valve_leak.work(
            "Opening that leaks under the valve", "mm2", gap=valve_gap(steam, engine),
            length=port_length(engine.moved.valve, engine.bore),
            width=engine.moved.valve.port_width,
        )
    )  # fmt: skip
    going_back = [np.diff(v, prepend=v[-1]) < 0 for v in cycle.volume]
    exhausting = [
        back & (open_ > 0) for back, open_ in zip(going_back, opening.exhaust, strict=True)
    ]
    back = [
        reading.mean_of(cycle.pressure[k], exhausting[k]) for k in range(ends)
    ]  # fmt: skip
    theta = opening.theta[1:]
    direction = 1.0 if running.notch >= 0 else -1.0
    slope = direction * np.asarray(piston_of(engine.moved.gear, engine.moved.crank).slope(theta))
    torque = reading.torque_of(cycle, slope, acting, outside, engine.lags)
    torque_mean = float(torque.mean())
    blast = 1000 * cycle.outlet * len(theta) * ran.turns
    beats = beats_of(blast)
    steam_losses = _steam_losses(engine, cycle, lost, running)
    ideal, ideal_mean = _ideal(engine, ran, marks, acting)
    top = [reading.step_of(marks, end, "admission") for end in ("front", "back")[:ends]]
    shut = [float(cycle.pressure[k][i]) for k, i in enumerate(top) if i is not None]
    return SteamResult(
        mean_pressure=mean.result, ideal_pressure=ideal_mean, pull=pull.result,
        power=power.result, steam_rate=rate, steam_per_turn=1000 * cycle.drawn,
        water_an_hour=3.6 * rate, specific_steam=specific,
        missing_percent=None if lost is None else 100 * lost,
        dryness=reading.dryness_at(cycle, marks) if running.medium == "steam" else None,
        chest_pressure=float(cycle.chest.mean()) - ATMOSPHERE,
        chest_least=float(cycle.chest.min()) - ATMOSPHERE,
        back_pressure=sum(back) / len(back) - ATMOSPHERE,
        blast_pressure=float(cycle.pipe.mean()) - ATMOSPHERE,
        compression=(max(shut) if shut else float(cycle.pressure.max())) - ATMOSPHERE,
        wall=float(cycle.wall[:ends].mean()), skin=skin,
        evenness=float(torque.max()) / torque_mean if torque_mean > 0 else None,
        beat_evenness=beats.evenness,
        leak_percent=100 * cycle.leaked / cycle.drawn if cycle.drawn > 0 else 0.0,
        speed=running.speed, revolutions=60 * ran.turns, notch=running.notch,
        medium=running.medium, cycle=cycle, place=opening.place[1:], theta=theta, marks=marks,
        ideal=ideal, torque=torque, blast=blast, beats=beats,
        pressure_losses=reading.pressure_losses(
            cycle, opening, supply.pressure, outside, areas, stroke
        ),
        steam_losses=steam_losses, coefficients=coefficients(steam, valve_gap(steam, engine)),
        cautions=cautions(running), workings=tuple(workings), suggestions=(), findings=(),
    )  # fmt: skip


def _steam_losses(
    engine: Engine, cycle: Cycle, lost: float | None, running: Running
) -> tuple[Loss, ...]:
    """Return where the steam of a turn goes, g, all cylinders."""
    drawn = 1000 * cycle.drawn
    if drawn <= 0:
        return ()
    leaked = 1000 * cycle.leaked
    made = [Loss("past the valves into the exhaust", leaked, leaked / drawn)]
    if lost is not None and running.medium == "steam":
        unseen = max(lost * drawn - leaked, 0.0)
        made.append(Loss("condensed on the metal at cut-off", unseen, unseen / drawn))
    rest = drawn - sum(one.amount for one in made)
    made.append(Loss("seen on the indicator diagram", rest, rest / drawn))
    return tuple(made)


def _ideal(
    engine: Engine, ran: Ran, marks: tuple[Mark, ...], areas: tuple[float, float]
) -> tuple[Array, float]:
    """Return the textbook's diagram of the front end, and the mean pressure of both."""
    means, weights, drawn = [], [], None
    for k, end in enumerate(("front", "back")):
        if areas[k] == 0:
            continue
        place = ran.opening.place[1:] if end == "front" else 1 - ran.opening.place[1:]
        told = {}
        for name in ("cut-off", "release", "compression"):
            step = reading.step_of(marks, end, name)
            told[name] = None if step is None else 100 * float(place[step])
        events = textbook.events_of(told["cut-off"], told["release"], told["compression"])
        clearance = engine.space.parts(engine.stroke)[k]
        fill = textbook.Fill(ran.supply.pressure, ran.outlet.pressure, clearance, engine.lifts)
        means.append(fill.mean(events))
        weights.append(areas[k])
        if drawn is None:
            drawn = reading.ideal_diagram(events, fill)
    assert drawn is not None
    return drawn, sum(m * w for m, w in zip(means, weights, strict=True)) / sum(weights)
