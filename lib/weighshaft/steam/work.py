"""The chapter worked: one running condition of the engine."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ..cylinders import steam as textbook
from ..cylinders.steam import turns_a_second
from ..cylinders.steaming import Space
from ..cylinders.turning import cranks
from ..findings import Suggestion, by_level, still_open
from ..measures import circle_area
from ..motion.events import piston_of
from ..sizes import SizeError
from ..trade.densities import density
from ..trade.saturation import ATMOSPHERE
from ..trade.warmth import penetration, specific_heat
from ..working import Working
from . import reading, relations
from .beat import beats_of
from .cycle import Array, Cycle, CycleError, Losses, Outlet, Supply, run
from .decisions import SteamSide
from .judgement import cautions, coefficients, judged
from .openings import Moved, Opened, ends_of, opened, port_length
from .results import Loss, Mark, SteamResult

AIR_LINE = 2.0
"""Pressure of an air line where none is given, bar; common practice for an air test."""
WALKING = 4.0
"""km/h where no running speed is known."""
PIPE_SHARE, PIPE_LENGTH = 0.2, 8.0
"""Bore and length of the steam pipe over the cylinder's bore (common practice)."""
WALL_SHARE = 0.12
"""Cylinder wall over bore (common practice)."""
CHEST_SHARE, EXHAUST_SHARE = 0.5, 1.0
"""Volumes of chest and exhaust over what a piston sweeps (common practice)."""
GAP_SHARE, LEAST_GAP = 1 / 32_000, 0.001
"""Gap under a valve over the length of its port, chosen so that one set of coefficients serves
the engines measured; the least, mm, as good lapping leaves it (common practice)."""


@dataclass(frozen=True, kw_only=True)
class Engine:
    """What the other chapters have decided, as far as the steam is concerned.

    Parameters
    ----------
    moved : what moves piston and valve.
    space : piston areas and clearance volumes.
    bore, stroke, wheel : mm; `number` of cylinders, their cranks `crank_angle` degrees apart.
    holes : of the passage to each end.
    pressure : working pressure, bar.
    efficiency : rim over piston, part.
    nozzle, discharge : mm, and coefficient.
    regulator, superheat : bore, mm, and K, as the fire, boiler and feed have them; None where
        nothing is known.
    lifts : whether the valve lifts off its face under pressure from below.
    """

    moved: Moved
    space: Space
    bore: float
    stroke: float
    wheel: float
    number: int
    crank_angle: float
    holes: int
    pressure: float
    efficiency: float
    nozzle: float
    discharge: float
    regulator: float | None = None
    superheat: float | None = None
    lifts: bool = True

    @property
    def single(self) -> bool:
        """Whether the steam acts on the front of the piston alone."""
        return getattr(self.moved.gear, "acting", "double") == "single"

    @property
    def lags(self) -> tuple[float, ...]:
        """Degrees by which each crank follows the first."""
        return cranks(self.number, self.crank_angle)

    @property
    def swept(self) -> float:
        """What the front of a piston sweeps, mm3."""
        return self.space.areas[0] * self.stroke


@dataclass(frozen=True, kw_only=True)
class Running:
    """One running condition.

    Parameters
    ----------
    speed : km/h; `notch` of the reverser; `regulator` open, part.
    pressure : bar on the gauge; `medium` "steam" or "compressed air".
    """

    speed: float
    notch: float
    regulator: float
    pressure: float
    medium: str = "steam"


@dataclass(frozen=True, eq=False)
class Ran:
    """A running condition marched: what went in, and the turn that repeats."""

    supply: Supply
    outlet: Outlet
    losses: Losses
    opening: Opened
    cycle: Cycle
    turns: float


def regulator_bore(steam: SteamSide, engine: Engine) -> float:
    """Return the bore of the narrowest place on the way in, mm."""
    usual = PIPE_SHARE * engine.bore * math.sqrt(engine.number)
    return steam.way.regulator or engine.regulator or usual


def valve_gap(steam: SteamSide, engine: Engine) -> float:
    """Return the gap under the valve, mm."""
    if steam.assumed.valve_gap is not None:
        return steam.assumed.valve_gap
    return max(LEAST_GAP, GAP_SHARE * port_length(engine.moved.valve, engine.bore))


def march(steam: SteamSide, engine: Engine, running: Running, *, steps: int | None = None) -> Ran:
    """March one running condition until it repeats.

    Parameters
    ----------
    steps : of a turn; chosen by `reading.steps_for` unless given.

    Raises
    ------
    CycleError, SizeError, MotionLocks : where it cannot be run.
    """
    way, assumed = steam.way, steam.assumed
    on_air = running.medium != "steam"
    turns = turns_a_second(speed=running.speed, wheel=engine.wheel)
    valve = engine.moved.valve
    bore = regulator_bore(steam, engine)
    area = relations.way_area(bore, way.pipe_length or PIPE_LENGTH * engine.bore, assumed.passages)
    superheat = way.superheat if way.superheat is not None else engine.superheat or 0.0
    supply = Supply(
        pressure=running.pressure + ATMOSPHERE, area=running.regulator * area,
        chest=way.chest or CHEST_SHARE * engine.swept,
        medium="air" if on_air else "steam", dryness=1.0 if superheat > 0 else way.dryness,
        superheat=superheat,
    )  # fmt: skip
    outlet = Outlet(
        area=engine.discharge * circle_area(engine.nozzle),
        pipe=way.exhaust or EXHAUST_SHARE * engine.swept,
    )
    wall = assumed.wall or WALL_SHARE * engine.bore
    port = port_length(valve, engine.bore), valve.port_width
    losses = Losses(
        film=assumed.film, gas=assumed.gas, skin=penetration(assumed.metal),
        wall=wall / 1000 * density(assumed.metal) * specific_heat(assumed.metal),
        to_air=assumed.to_air,
        valve_leak=relations.valve_leak(valve_gap(steam, engine), *port),
        piston_leak=assumed.piston_gap * math.pi * engine.bore,
        lift=assumed.ports * port[0] * port[1] if engine.lifts else 0.0,
    )  # fmt: skip
    n = steps or reading.steps_for(turns, engine.stroke)
    opening = opened(engine.moved, running.notch, engine.bore, n)
    ends = ends_of(
        opening, engine.space, engine.stroke, ports=assumed.ports, passages=assumed.passages,
        bore=engine.bore, holes=engine.holes, single=engine.single,
    )  # fmt: skip
    cycle = run(ends, supply, outlet, losses, turns_a_second=turns, others=engine.lags[1:])
    return Ran(supply, outlet, losses, opening, cycle, turns)


def looked_at(
    steam: SteamSide, engine: Engine, *, speed: float | None, running_notch: float
) -> Running:
    """Return the running condition that the builder looks at, what is left empty filled in."""
    asked = steam.running
    on_air = asked.medium != "steam"
    usual = AIR_LINE if on_air else engine.pressure
    return Running(
        speed=asked.speed or speed or WALKING,
        notch=running_notch if asked.notch is None else asked.notch,
        regulator=asked.regulator, pressure=asked.pressure or usual, medium=asked.medium,
    )  # fmt: skip


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
    suggestions = (
        Suggestion(
            "steam.way.regulator", round(regulator_bore(steam, engine), 2),
            "as fire, boiler and feed have it" if engine.regulator else
            "a fifth of the bore for each root of the cylinders (common practice)",
        ),
    )  # fmt: skip
    result = replace(result, suggestions=still_open(suggestions, fixed))
    return replace(result, findings=by_level(judged(steam, engine, running, result)))


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
