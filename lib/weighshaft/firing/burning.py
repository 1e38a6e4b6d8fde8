"""The fire by its fuel: gas through a jet, spirit on wicks, coal on a grate."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..findings import Suggestion
from ..trade.fuels import COAL, KELVIN, SPIRIT, fuel
from ..trade.saturation import ATMOSPHERE
from ..working import Working
from . import relations
from .decisions import Coal, Firing, Gas, Spirit
from .fires import drawn
from .gas import (
    GAS_CONSTANT,
    Emptied,
    by_mass,
    critical,
    emptied,
    flow_of,
    liquid_density,
    mixed,
    mole_shares,
    tank_warmth,
)

GAS_MINUTES, COAL_MINUTES = 20.0, 30.0
SPIRIT_SHARE = 0.85
"""Of the time that the water lasts, for which the spirit is to last; common practice."""


@dataclass(frozen=True)
class Burning:
    """A fire.

    Parameters
    ----------
    fire : heat of the fuel burnt at full fire, W; `rate` kg/s; `value` J/kg.
    carried : kg.
    raising : share of the full fire while steam is raised.
    draught : mm of water that full fire is reckoned with, 0 where none is needed.
    gas_drawn : kg/s, 0 where it is not reckoned.
    kindling : min.
    jet : mm; pressure bar; tank ml; emptied: of a gas fire, else None.
    wick : mm, of a spirit lamp; else None.
    grate : cm2, of a coal fire; else None.
    """

    fire: float
    rate: float
    value: float
    carried: float
    raising: float = 1.0
    draught: float = 0.0
    gas_drawn: float = 0.0
    kindling: float = 0.5
    jet: float | None = None
    pressure: float | None = None
    tank: float | None = None
    emptied: Emptied | None = None
    wick: float | None = None
    grate: float | None = None
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()


def burning(
    firing: Firing, fuel_name: str, *, wanted: float, grate: float | None, usual_grate: float,
    water_minutes: float | None, use: float,
) -> Burning:  # fmt: skip
    """Return the fire.

    Parameters
    ----------
    fuel_name : "coal", "gas" or "spirit".
    wanted : heat of a fire that would do, W; what is left empty is made for it.
    grate : area as decided, cm2; None takes `usual_grate`.
    water_minutes : how long the water lasts, min; None unknown.
    use : of full fire, what running takes.
    """
    kindled = firing.heat.kindling
    told = Suggestion("firing.heat.kindling", 6.0 if fuel_name == "coal" else 0.5, "usual")
    minutes = told.value if kindled is None else kindled
    assert isinstance(minutes, float)
    if fuel_name == "gas":
        return _gas(firing.gas, wanted, minutes, told)
    if fuel_name == "spirit":
        return _spirit(firing.spirit, wanted, minutes, told, water_minutes)
    return _coal(firing.coal, grate or usual_grate, minutes, told, use)


def _gas(gas: Gas, wanted: float, minutes: float, told: Suggestion) -> Burning:
    value = by_mass(gas.gas, "net") * 1e6
    one, pressure = flow_of(
        gas.gas, gas.tank_at, bore=1.0, jets=gas.jets, discharge=gas.discharge,
        throttled=gas.throttled,
    )  # fmt: skip
    usual = 0.2 if one <= 0 else min(max(round(math.sqrt(wanted / value / one), 2), 0.05), 2.0)
    jet = gas.jet or usual
    _, molar, k = mixed(mole_shares(gas.gas), gas.tank_at)
    workings: tuple[Working, ...] = ()
    if ATMOSPHERE / (pressure + ATMOSPHERE) <= critical(k):
        workings = (
            relations.choked_jet.work(
                "Gas through each jet, the tank at its start", "g/min", bore=jet,
                discharge=gas.discharge, pressure=pressure + ATMOSPHERE, k=k,
                gas=GAS_CONSTANT / molar, hot=gas.tank_at + KELVIN,
            ),
        )  # fmt: skip
    rate = one * jet * jet
    density = liquid_density(gas.gas)
    full = GAS_MINUTES * 60 * rate / density / gas.filled * 1000
    tank_usual = float(min(max(round(full), 5), 5000))
    tank = gas.tank or tank_usual
    warmth_usual = round(tank_warmth(tank), 3)
    warmth = warmth_usual if gas.warmth is None else gas.warmth
    burnt = emptied(
        gas.gas, volume=tank, filled=gas.filled, start=gas.tank_at, around=gas.around,
        warmth=warmth, bore=jet, jets=gas.jets, discharge=gas.discharge, throttled=gas.throttled,
    )  # fmt: skip
    return Burning(
        rate * value, rate, value, tank / 1000 * gas.filled * density, kindling=minutes, jet=jet,
        pressure=pressure, tank=tank, emptied=burnt, workings=workings,
        suggestions=(
            told,
            Suggestion("firing.gas.jet", usual, "for the steam that the engine asks for"),
            Suggestion("firing.gas.tank", tank_usual, f"for {GAS_MINUTES:g} minutes of full fire"),
            Suggestion("firing.gas.warmth", warmth_usual, "by air, 12 W/K a square metre"),
        ),
    )  # fmt: skip


def _spirit(
    lamp: Spirit, wanted: float, minutes: float, told: Suggestion, water_minutes: float | None
) -> Burning:
    burnt = fuel(SPIRIT)
    value, density = burnt.net * 1e6, burnt.density or 1.0
    grams = wanted / value * 60_000
    usual = math.sqrt(grams / lamp.burns / lamp.wicks * 400 / math.pi)
    usual = min(max(round(2 * usual) / 2, 2.0), 40.0)
    wick = lamp.wick or usual
    made = relations.wick_burns.work(
        "Spirit burnt", "g/min", wick=wick, number=lamp.wicks, rate=lamp.burns
    )
    rate = made.result / 60_000
    full = SPIRIT_SHARE * (water_minutes or 15.0) * 60 * rate / density * 1000
    reservoir_usual = float(min(max(round(full), 1), 5000))
    reservoir = lamp.reservoir or reservoir_usual
    return Burning(
        rate * value, rate, value, reservoir / 1000 * density, kindling=minutes, wick=wick,
        workings=(made,),
        suggestions=(
            told,
            Suggestion("firing.spirit.wick", usual, "for the steam that the engine asks for"),
            Suggestion("firing.spirit.reservoir", reservoir_usual, "burns out before the water"),
        ),
    )  # fmt: skip


def _coal(coal: Coal, grate: float, minutes: float, told: Suggestion, use: float) -> Burning:
    made = relations.grate_burns.work("Coal burnt", "g/min", area=grate, rate=coal.burns)
    rate, value = made.result / 60_000, coal.value * 1e6
    air = fuel(COAL).air * coal.excess
    usual = float(f"{COAL_MINUTES * 60 * rate * use:.2g}")
    return Burning(
        rate * value, rate, value, coal.carried or usual,
        raising=drawn(coal.raising_draught, coal.draught, 1.0), draught=coal.draught,
        gas_drawn=rate * (1 + air), kindling=minutes, grate=grate, workings=(made,),
        suggestions=(told, Suggestion("firing.coal.carried", max(usual, 0.01), "for half an hour")),
    )  # fmt: skip
