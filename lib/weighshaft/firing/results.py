"""What the chapter works out, and the plain figures that a run on the line starts from."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..findings import Finding, Suggestion
from ..sizes import figure
from ..working import Working
from .feed import Fed, Piped
from .fires import Efficiency, drawn, heat_into_water
from .gas import Emptied
from .metal import Metal
from .shape import Shape
from .surfaces import Heated
from .valves import Valves

HARDEST = 1.9
"""How much harder a coal fire may be driven than its full fire before it is torn to pieces;
full size went to 550 kg/(m2 h) and more where models are content with 300."""


@dataclass(frozen=True, kw_only=True)
class Raising:
    """A boiler and its fire in plain figures, for whoever reckons a run on the line.

    Parameters
    ----------
    fuel : "coal", "gas" or "spirit".
    water_working : water between the working level and the lowest that is used, kg.
    water_total : filled to work, kg.
    metal_heat : of the boiler's metal, kJ/K.
    loss : of the clothed shell, W for each degree above the air.
    heat_full : into the water at full fire, W; of coal with the draught `draught`.
    fire_full : heat of the fuel burnt then, W.
    fuel_per_heat : fuel for heat into the water at full fire, kg/J.
    fuel_aboard : kg.
    fuel_value : net, J/kg.
    surface : heating surface, mm2.
    efficiency : see `fires.Efficiency`.
    draught : with which full fire is reckoned, mm of water; 0 where none is needed.
    gas_drawn : through the fire then, kg/s; 0 where that is not reckoned.
    evaporation_full : at full fire, kg/s.
    working_pressure, safety_pressure : bar; the latter is where the valve blows.
    safety_capacity : that the valves pass at a tenth more, kg/s.
    axle_pump : g for one turn of the driving axle; `hand_pump` g a stroke.
    feed_carried : water in tanks, kg; `feed_temperature` degC.
    """

    fuel: str
    water_working: float
    water_total: float
    metal_heat: float
    loss: float
    heat_full: float
    fire_full: float
    fuel_per_heat: float
    fuel_aboard: float
    fuel_value: float
    surface: float
    efficiency: Efficiency
    draught: float
    gas_drawn: float
    evaporation_full: float
    working_pressure: float
    safety_pressure: float
    safety_capacity: float
    axle_pump: float
    hand_pump: float
    feed_carried: float
    feed_temperature: float

    def gas_at(self, draught: float) -> float:
        """Return the gas drawn through a coal fire, kg/s; `draught` in mm of water."""
        return drawn(draught, self.draught, self.gas_drawn) if self.draught > 0 else 0.0

    def fire_at(self, draught: float | None, evaporation: float) -> float:
        """Return the heat of the fuel burnt, W; see `heat_at`."""
        if self.draught <= 0:
            return self.fire_full
        if draught is None:
            share = evaporation / self.evaporation_full if self.evaporation_full > 0 else 1.0
        else:
            share = drawn(draught, self.draught, 1.0)
        return self.fire_full * min(max(share, 0.0), HARDEST)

    def heat_at(self, draught: float | None, evaporation: float) -> float:
        """Return the heat into the water, W.

        Parameters
        ----------
        draught : in the smokebox, mm of water; None where nothing is known of it: then the gas
            drawn goes with the steam exhausted, as a blast does of itself.
        evaporation : steam used at present, kg/s; of account only where `draught` is None.

        Source: gas goes with the root of the draught, coal with the gas, and the efficiency
        falls as the fire is forced; see `fires`.  Gas and spirit burn the same in any draught.
        """
        return heat_into_water(self.fire_at(draught, evaporation), self.surface, self.efficiency)

    def fuel_at(self, draught: float | None, evaporation: float) -> float:
        """Return the fuel burnt, kg/s; see `heat_at`."""
        return self.fire_at(draught, evaporation) / self.fuel_value


@dataclass(frozen=True)
class Range:
    """A figure that nobody knows exactly: lowest, usual and highest."""

    low: float
    usual: float
    high: float

    def __str__(self) -> str:
        return f"{self.low:.3g} to {self.high:.3g}"


@dataclass(frozen=True, kw_only=True)
class FiringResult:
    """Figures, workings and findings; see `Firing` for the decisions.

    Parameters
    ----------
    pattern, fuel : settled.
    evaporations : g/min; `raisings` min, quickest first in `low`.
    demand : steam that the engine asks for, g/min; None where that is not known.
    emptied : the gas tank as it burns, with gas only.
    """

    steam: float = figure("Steam made at full fire, usual", "g/min", main=True)
    steam_low: float = figure("Steam made at full fire, low", "g/min")
    steam_high: float = figure("Steam made at full fire, high", "g/min")
    asked: float | None = figure("Steam that the engine asks for, running", "g/min", main=True)
    surface: float = figure("Heating surface", "cm2", main=True)
    radiating: float = figure("Of it sees the fire", "cm2")
    fire: float = figure("Heat of the fire", "W")
    into_water: float = figure("Heat into the water", "W", main=True)
    share: float = figure("Share of the heat that gets there", "ratio")
    loading: float = figure("Heat of the fire for its surface", "kW/m2")
    burnt: float = figure("Fuel burnt at full fire", "g/min", main=True)
    raise_time: float | None = figure("Time to raise steam, usual", "min", main=True)
    water: float = figure("Water filled to work", "g")
    usable: float = figure("Water that may be used", "g")
    by_water: float | None = figure("Runs on the water in the boiler", "min", main=True)
    by_tanks: float | None = figure("Runs on all water carried", "min")
    by_fuel: float | None = figure("Runs on the fuel carried", "min", main=True)
    fuel_carried: float = figure("Fuel carried", "g")
    jet: float | None = figure("Gas jet as taken")
    gas_pressure: float | None = figure("Gas at the jet, at the start", "bar")
    tank: float | None = figure("Gas tank as taken", "ml")
    coldest: float | None = figure("Gas tank at its coldest", "degC")
    bar_litres: float = figure("Pressure times volume", "bar l", main=True)
    room: float = figure("Water and steam space together", "ml")
    seat: float = figure("Safety valve, seat as taken")
    seat_needed: float = figure("Safety valve, seat needed", main=True)
    test_first: float = figure("Cold water test commonly asked for, first", "bar")
    test_again: float = figure("Cold water test commonly asked for, repeated", "bar")
    pump: float | None = figure("Axle pump delivers a turn", "g")
    pump_used: float | None = figure("Engine uses a turn", "g")
    oil: float = figure("Oil to the cylinders", "g/min")
    regulator_speed: float = figure("Steam through the regulator", "m/s")
    steam_at: float = figure("Steam to the cylinders", "degC")
    pattern: str
    fuel: str
    pressure: float
    shape: Shape
    heated: Heated
    efficiency: Efficiency
    evaporations: Range
    raisings: Range | None
    losses: float
    metal: Metal
    valves: Valves
    fed: Fed
    piped: Piped
    emptied: Emptied | None
    raising: Raising
    cautions: tuple[str, ...]
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]


_SHOWN: dict[str, int] = {
    "steam": 3, "steam_low": 3, "steam_high": 3, "asked": 3, "surface": 3, "radiating": 3,
    "fire": 3, "into_water": 3, "share": 2, "loading": 3, "burnt": 3, "raise_time": 2, "water": 3,
    "usable": 3, "by_water": 2, "by_tanks": 2, "by_fuel": 2, "fuel_carried": 3,
    "gas_pressure": 3, "coldest": 2, "bar_litres": 3, "room": 3, "pump": 3, "pump_used": 3,
    "oil": 2, "regulator_speed": 2, "steam_at": 3, "test_first": 3, "test_again": 3,
}  # fmt: skip


def rounded(result: FiringResult) -> FiringResult:
    """Return the result with no more figures than fire and water can tell.

    What the run on the line and the pictures rest on stays exact, in `raising` and the groups.
    """
    plain = {
        name: float(f"{getattr(result, name):.{places}g}")
        for name, places in _SHOWN.items()
        if getattr(result, name) is not None
    }
    return replace(result, **plain)  # type: ignore[arg-type]
