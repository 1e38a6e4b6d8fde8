"""The engine as the steam sees it, and one running condition of it marched."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..cylinders.steam import turns_a_second
from ..cylinders.steaming import Space
from ..cylinders.turning import cranks
from ..measures import circle_area
from ..trade.densities import density
from ..trade.saturation import ATMOSPHERE
from ..trade.warmth import penetration, specific_heat
from . import reading, relations
from .cycle import Cycle, Losses, Outlet, Supply, run
from .decisions import SteamSide
from .openings import Moved, Opened, ends_of, opened, port_length

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
LEAST_SHARE = 0.05
"""Least of either over the same that is reckoned with: the passages alone hold as much."""
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
    chest : room for steam in the chest of one cylinder, mm3; None where it is not known.
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
    chest: float | None = None

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
    return steam.way.regulator or usual_regulator(engine)


def usual_regulator(engine: Engine) -> float:
    """Return the bore of regulator and pipe where the chapter does not decide it, mm."""
    return engine.regulator or PIPE_SHARE * engine.bore * math.sqrt(engine.number)


def usual_chest(steam: SteamSide, engine: Engine) -> float:
    """Return the room behind the regulator for a cylinder where it is not decided, mm3.

    The chest, where its inside is known, and its share of the steam pipe.
    """
    if engine.chest is None:
        return CHEST_SHARE * engine.swept
    long = steam.way.pipe_length or PIPE_LENGTH * engine.bore
    return engine.chest + circle_area(regulator_bore(steam, engine)) * long / engine.number


def valve_gap(steam: SteamSide, engine: Engine) -> float:
    """Return the gap under the valve, mm."""
    given = steam.assumed.valve_gap
    return usual_gap(engine) if given is None else given


def usual_gap(engine: Engine) -> float:
    """Return the gap under a good valve, mm."""
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
        chest=max(way.chest or usual_chest(steam, engine), LEAST_SHARE * engine.swept),
        medium="air" if on_air else "steam",
        dryness=1.0 if on_air or superheat > 0 else way.dryness,
        superheat=superheat,
    )  # fmt: skip
    outlet = Outlet(
        area=engine.discharge * circle_area(engine.nozzle),
        pipe=max(way.exhaust or EXHAUST_SHARE * engine.swept, LEAST_SHARE * engine.swept),
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
