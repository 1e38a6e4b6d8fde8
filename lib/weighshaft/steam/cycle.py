"""The cycle of the cylinder, marched over the crank angle until it repeats."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .fluid import BAR, CELLS, LOWEST, STEP, air, steam
from .march import March

Array = NDArray[np.float64]

OPEN_AIR = 1.01325
"""Standard atmosphere, bar absolute."""
COARSE = 4
"""Steps taken as one while the metal warms up, before the turn is marched finely."""
ENOUGH = 5e-4
"""Change from turn to turn, as a part, below which the cycle is taken to repeat."""
SLOW = 0.3
"""Heat that a wall passes in a turn for each degree, over what it holds, below which it is slow."""
CLOSES = 1e-3
"""Part of what goes through in a turn within which mass and energy close."""
COARSE_TURNS, MOST_TURNS, MOST_STEPS = 16, 50, 12_000
"""Turns allowed coarsely and finely, and steps in all the fine ones, so that a slow turn of many
steps does not hold a slider up."""


class CycleError(ValueError):
    """A cycle that cannot be run; the text says why in the builder's words."""


@dataclass(frozen=True, kw_only=True)
class Supply:
    """What comes from the boiler, or from the compressor.

    Parameters
    ----------
    pressure : in the boiler, bar absolute.
    area : through regulator and pipe to all chests, mm2, coefficient of discharge taken in.
    chest : volume of pipe and chest of one cylinder, mm3.
    medium : "steam" or "air".
    dryness : of the steam, part by weight.
    superheat : K over saturation.
    temperature : of air, degC.
    """

    pressure: float
    area: float
    chest: float
    medium: str = "steam"
    dryness: float = 1.0
    superheat: float = 0.0
    temperature: float = 20.0


@dataclass(frozen=True, kw_only=True)
class Outlet:
    """Where the exhaust goes.

    Parameters
    ----------
    area : of the nozzle, mm2, coefficient of discharge taken in.
    pipe : volume of exhaust passages and blast pipe, all cylinders, mm3.
    pressure : behind the nozzle, bar absolute.
    """

    area: float
    pipe: float
    pressure: float = OPEN_AIR


@dataclass(frozen=True, eq=False, kw_only=True)
class End:
    """One end of a cylinder over the turn, in the order of running.

    Parameters
    ----------
    volume : (n + 1,) mm3, clearance and swept; the last is the first again.
    surface : (n,) mm2 of metal that the steam touches, halfway in each step.
    steam, exhaust : (n,) mm2 open to the chest and to the exhaust, coefficients taken in.
    """

    volume: Array
    surface: Array
    steam: Array
    exhaust: Array


@dataclass(frozen=True, kw_only=True)
class Losses:
    """What metal and gaps take.

    Parameters
    ----------
    film, gas : W/(m2 K) from metal to steam where water forms or dries, and where it is dry.
    skin : J/(m2 K sqrt(s)), root of density, specific heat and conductivity of the metal.
    wall : J/(m2 K), heat that the whole thickness of the wall holds.
    to_air : W/(m2 K) of inner surface, from the metal to the outside.
    valve_leak : mm2, always open from the chest to the exhaust, one cylinder.
    piston_leak : mm2, always open from end to end.
    lift : mm2 that a slide valve opens to the chest when the pressure under it is the higher.
    """

    film: float = 25_000.0
    gas: float = 150.0
    skin: float = 14_000.0
    wall: float = 20_000.0
    to_air: float = 10.0
    valve_leak: float = 0.0
    piston_leak: float = 0.0
    lift: float = 0.0


@dataclass(frozen=True, eq=False, kw_only=True)
class Cycle:
    """A turn that repeats, as arrays over the crank angle in the order of running.

    Values stand at the end of each of n equal steps from the front dead centre.

    Parameters
    ----------
    pressure : (2, n) bar absolute in front and back end.
    volume : (2, n) mm3.
    dryness : (2, n) part by weight; above 1 superheated, of air infinite.
    mass : (2, n) kg in each end.
    chest, pipe : (n,) bar absolute in steam chest and blast pipe.
    admitted : (n,) kg a step from the chest of one cylinder, leaks with it.
    outlet : (n,) kg a step through the nozzle, all cylinders.
    work : (2,) J a turn at the ends of one cylinder.
    drawn : kg a turn from the boiler, all cylinders.
    leaked : kg a turn past the valves, all cylinders.
    given : (2,) J a turn to the metal of one cylinder's ends while the steam is the hotter.
    wall : (2,) mean temperature of the metal, degC.
    mass_error, energy_error : what a turn leaves over, as parts of what goes through.
    turns : that were marched.
    repeats : whether it came to repeat within the turns allowed.
    """

    pressure: Array
    volume: Array
    dryness: Array
    mass: Array
    chest: Array
    pipe: Array
    admitted: Array
    outlet: Array
    work: Array
    drawn: float
    leaked: float
    given: Array
    wall: Array
    mass_error: float
    energy_error: float
    turns: int
    repeats: bool


def run(
    ends: tuple[End, End], supply: Supply, outlet: Outlet, losses: Losses, *,
    turns_a_second: float, others: tuple[float, ...] = (),
    stop: Callable[[], bool] | None = None,
) -> Cycle:  # fmt: skip
    """March the cycle of one cylinder until it repeats.

    Parameters
    ----------
    ends : front and back end.
    turns_a_second : speed.
    others : degrees by which the cranks of the other cylinders follow this one's; they share
        supply and blast pipe, and do the same later.
    stop : asked once a turn; true gives up with what there is.

    Raises
    ------
    CycleError : when nothing can flow, or the pressure is beyond the tables.

    Source: balances of mass and energy of well-mixed spaces, the steam in equilibrium; flow by
    Saint-Venant and Wantzel; heat by a film on a skin as thick as a wave of heat goes in a turn.
    """
    _check(supply, outlet, turns_a_second)
    march = March(
        steam() if supply.medium == "steam" else air(), ends, supply, outlet, losses,
        turns_a_second, others,
    )  # fmt: skip
    turns, repeats = 0, False
    fine = min(MOST_TURNS, max(10, MOST_STEPS // march.whole))
    for grain, close, most in ((COARSE, 10 * ENOUGH, COARSE_TURNS), (1, ENOUGH, fine)):
        if march.whole % grain:
            continue
        march.set_grain(grain)
        more, repeats = _until_it_repeats(march, close, most, stop)
        turns += more
    trace = np.array(march.trace).T
    return Cycle(
        pressure=trace[0:2] / BAR,
        volume=np.array([one.volume[1:] for one in ends]),
        dryness=trace[2:4],
        mass=trace[4:6],
        chest=trace[6] / BAR,
        pipe=trace[7] / BAR,
        admitted=trace[8],
        outlet=trace[9],
        work=np.array(march.work),
        drawn=march.drawn[0],
        leaked=march.leaked * (1 + len(others)),
        given=np.array(march.given),
        wall=np.array(march.warmth) / march.n - 273.15,
        mass_error=march.errors[0],
        energy_error=march.errors[1],
        turns=turns,
        repeats=repeats,
    )


def _until_it_repeats(
    march: March, close: float, most: int, stop: Callable[[], bool] | None
) -> tuple[int, bool]:
    """March turns until work, mass and energy repeat; return how many, and whether they did."""
    before, seen = math.inf, [[wall.temperature] for wall in march.walls]
    for turn in range(1, most + 1):
        for wall in march.walls:
            wall.conducted = 0.0
        done = march.turn()
        if abs(done - before) <= close * max(abs(done), march.scale) and (
            max(march.errors) <= CLOSES * close / ENOUGH
        ):
            return turn, True
        if stop is not None and stop():
            break
        before = done
        for wall, temperatures in zip(march.walls, seen, strict=True):
            gained = wall.capacity * (wall.temperature - temperatures[-1])
            if wall.conducted < SLOW * wall.capacity:
                # metal that would take many turns: straight to where it would gain nothing
                wall.temperature += gained / max(wall.conducted, 1e-9)
                temperatures[:] = [wall.temperature]
                continue
            temperatures.append(wall.temperature)
            if len(temperatures) == 4:
                wall.temperature = _limit_of(*temperatures[1:])
                temperatures[:] = [wall.temperature]
    return turn, False


def _limit_of(first: float, second: float, third: float) -> float:
    """Return where three temperatures, a turn apart, are heading (Aitken's rule), if they head."""
    one, two = second - first, third - second
    if one == 0 or not 0 < two / one < 0.95:
        return third
    return third + two * two / (one - two)


def _check(supply: Supply, outlet: Outlet, turns_a_second: float) -> None:
    least, most = LOWEST / BAR, (LOWEST + CELLS * STEP) / BAR
    if not least < supply.pressure < most:
        raise CycleError(
            f"The pressure supplied, {supply.pressure - OPEN_AIR:.2f} bar on the gauge, is outside "
            f"the steam table: {least - OPEN_AIR:.2f} to {most - OPEN_AIR:.2f} bar would do."
        )
    if supply.pressure <= outlet.pressure:
        raise CycleError("There is no more pressure in the boiler than behind the nozzle.")
    for name, value in (("regulator", supply.area), ("nozzle", outlet.area)):
        if not value > 0:
            raise CycleError(f"The {name} lets nothing through.")
    if not turns_a_second > 0:
        raise CycleError("The engine stands: a speed above nothing is needed.")
