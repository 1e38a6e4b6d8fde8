"""Gas: the pressure over a mixture, the jet, and a tank that cools as it empties."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from ..trade.fuels import GASES, KELVIN, fuel, vapour_pressure
from ..trade.saturation import ATMOSPHERE

GAS_CONSTANT = 8314.462618
"""J/(kmol K), CODATA 2018."""
TANK_METAL = 1.5
"""Metal of a small gas tank by the liquid that it holds when full, by mass; common practice for
brass or copper tanks that a small engine carries, at 0.38 kJ/(kg K)."""
AIR_WARMTH = 12.0
"""Heat that air brings to a cold tank, W/(m2 K); common practice for still air and radiation."""
STEP, LONGEST = 10.0, 5400.0
"""Of the reckoning, s."""
COLDEST = -39.0


@dataclass(frozen=True)
class Emptied:
    """A tank burnt empty, or until its gas no longer flows.

    Parameters
    ----------
    time : s; `temperature` degC; `pressure` bar on the gauge; `flow` kg/s, for all jets.
    left : liquid left at the end, kg.
    """

    time: tuple[float, ...]
    temperature: tuple[float, ...]
    pressure: tuple[float, ...]
    flow: tuple[float, ...]
    left: float


def mole_shares(gas: str) -> dict[str, float]:
    """Return the parts of a gas that is bought, by moles."""
    moles = {name: part / (fuel(name).molar or 1.0) for name, part in GASES[gas].items()}
    whole = sum(moles.values())
    return {name: one / whole for name, one in moles.items()}


def over_liquid(shares: Mapping[str, float], temperature: float) -> dict[str, float]:
    """Return the partial pressures over a liquid mixture, bar absolute, by Raoult's law.

    Parameters
    ----------
    shares : of the liquid, by moles.
    temperature : degC.
    """
    return {name: x * vapour_pressure(name, temperature) for name, x in shares.items()}


def by_mass(gas: str, what: str) -> float:
    """Return a figure of a gas from its parts by mass: "net", "latent", "heat", "air"."""
    return sum(part * float(getattr(fuel(name), what)) for name, part in GASES[gas].items())


def liquid_density(gas: str) -> float:
    """Return the density of the liquid at 20 degC, kg/l."""
    return 1 / sum(part / (fuel(name).density or 1.0) for name, part in GASES[gas].items())


def jet_flow(
    bore: float, discharge: float, pressure: float, temperature: float, molar: float, k: float
) -> float:
    """Return the gas through a jet into the air, kg/s; none where the pressure is no higher.

    Parameters
    ----------
    bore : mm.
    discharge : coefficient.
    pressure : before the jet, bar absolute.
    temperature : degC.
    molar : kg/kmol; `k` the exponent of expansion.

    Source: isentropic flow of a perfect gas, at the speed of sound where the pressure behind is
    below the critical; any textbook of gas dynamics.
    """
    if pressure <= ATMOSPHERE:
        return 0.0
    area = math.pi / 4 * bore * bore * 1e-6
    ratio = max(ATMOSPHERE / pressure, critical(k))
    gas = GAS_CONSTANT / molar * (temperature + KELVIN)
    speed = math.sqrt(2 * k / (k - 1) / gas * (ratio ** (2 / k) - ratio ** ((k + 1) / k)))
    return discharge * area * pressure * 1e5 * speed


def mixed(shares: Mapping[str, float], temperature: float) -> tuple[float, float, float]:
    """Return pressure over a liquid, bar absolute, and kg/kmol and exponent of its vapour.

    Parameters
    ----------
    shares : of the liquid, by moles.
    temperature : degC.
    """
    parts = over_liquid(shares, temperature)
    whole = sum(parts.values())
    molar = sum((fuel(name).molar or 0.0) * p for name, p in parts.items()) / whole
    k = sum((fuel(name).isentropic or 0.0) * p for name, p in parts.items()) / whole
    return whole, molar, k


def critical(k: float) -> float:
    """Return the pressure behind over that before, below which a jet runs at the speed of sound.

    Source: any textbook of gas dynamics.
    """
    return float((2 / (k + 1)) ** (k / (k - 1)))


def flow_of(
    gas: str, temperature: float, *, bore: float, jets: int, discharge: float,
    throttled: float | None, shares: Mapping[str, float] | None = None,
) -> tuple[float, float]:  # fmt: skip
    """Return flow of all jets, kg/s, and the pressure at the jet, bar on the gauge.

    Parameters
    ----------
    temperature : of the tank, degC.
    throttled : the most that is let to the jet, bar; None lets all.
    shares : of the liquid by moles; None as it was bought.
    """
    whole, molar, k = mixed(mole_shares(gas) if shares is None else shares, temperature)
    pressure = whole - ATMOSPHERE if throttled is None else min(whole - ATMOSPHERE, throttled)
    flow = jets * jet_flow(bore, discharge, pressure + ATMOSPHERE, temperature, molar, k)
    return flow, max(pressure, 0.0)


def emptied(
    gas: str, *, volume: float, filled: float, start: float, around: float, warmth: float,
    bore: float, jets: int, discharge: float, throttled: float | None,
) -> Emptied:  # fmt: skip
    """Return how a tank burns empty, cooling by what evaporates.

    Parameters
    ----------
    volume : ml; `filled` the share of it that is liquid.
    start, around : degC.
    warmth : heat that reaches the tank, W/K.

    Source: balance of heat on tank and liquid, in steps; of a mixture the lighter part goes off
    first, by Raoult's law.
    """
    mass = volume / 1000 * filled * liquid_density(gas)
    metal = 0.38 * TANK_METAL * volume / 1000 * liquid_density(gas)
    moles = {name: part * mass / (fuel(name).molar or 1.0) for name, part in GASES[gas].items()}
    latent, heat, temperature, time = by_mass(gas, "latent"), by_mass(gas, "heat"), start, 0.0
    times, temperatures, pressures, flows = [], [], [], []
    first = 0.0
    while True:
        whole = sum(moles.values())
        shares = {name: one / whole for name, one in moles.items()}
        flow, pressure = flow_of(
            gas, temperature, bore=bore, jets=jets, discharge=discharge, throttled=throttled,
            shares=shares,
        )  # fmt: skip
        times.append(time)
        temperatures.append(temperature)
        pressures.append(pressure)
        flows.append(flow)
        first = first or flow
        if mass < 0.02 * volume / 1000 * filled * liquid_density(gas):
            break
        if flow < 0.1 * first or flow <= 0 or time >= LONGEST:
            break
        step = min(STEP, mass / flow * 0.25)
        gone = flow * step
        parts = over_liquid(shares, temperature)
        above = sum(parts.values())
        molar = sum((fuel(name).molar or 0.0) * p for name, p in parts.items()) / above
        for name, p in parts.items():
            moles[name] = max(moles[name] - gone / molar * p / above, 1e-12)
        holds = metal + mass * heat
        drawn = gone * latent / step * 1000
        if warmth > 1e-6:
            # towards where warmth and evaporation balance, so that a long step does not overshoot
            rest = around - drawn / warmth
            temperature = rest + (temperature - rest) * math.exp(-warmth * step / 1000 / holds)
        else:
            temperature -= drawn * step / 1000 / holds
        temperature = max(temperature, COLDEST)
        mass -= gone
        time += step
    return Emptied(tuple(times), tuple(temperatures), tuple(pressures), tuple(flows), mass)


def tank_warmth(volume: float) -> float:
    """Return the heat that air brings to a tank twice as long as wide, W/K; volume in ml."""
    across = (volume / 1000 * 1e-3 / (math.pi / 2)) ** (1 / 3)
    return float(AIR_WARMTH * math.pi * across * across * 2.5)
