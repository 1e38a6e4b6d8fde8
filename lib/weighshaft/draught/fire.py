"""What the fire burns, the air that it wants, and the way of its gases to the smokebox."""

from __future__ import annotations

from dataclasses import dataclass

from ..measures import circle_area
from ..nozzle.flow import PASCAL
from ..trade.fuels import COAL, SPIRIT, fuel
from ..trade.saturation import ATMOSPHERE, saturation
from .ejector import FLUE_GAS, Gas
from .relations import resistance

FEED = 15.0
"""degC of the feed water."""
WATER_HEAT = 4.187
"""kJ/(kg K) of cold water (CIPM 1950 calorie)."""


@dataclass(frozen=True)
class Fuel:
    """A fuel and how it is usually burnt.

    Parameters
    ----------
    name : in the builder's words.
    value : lower heat value, kJ/kg.
    air : kg that burn 1 kg of it, by its composition.
    share : of the heat that the water gets in a small boiler.
    excess : air over that, as a part of it.
    drawn : part of the gases that the blast has to draw: a gas jet brings in half itself, wicks
        burn under natural draught and want the blast “in a moderate degree” (H. Greenly).
    most : mm water from which draught does harm.
    harm : what too much draught does.
    """

    name: str
    value: float
    air: float
    share: float
    excess: float
    drawn: float
    most: float
    harm: str


_USUAL = {
    # 0.6 of the heat in steam as at Altoona (6.7 kg of steam for 1 kg, Dingler 331, 1916); excess
    # air 25 to 47 % by the CO2 of 15.1 and 12.9 % in Aspinall's smokebox (Dingler 305, 1897); the
    # rest common practice
    "coal": (COAL, 0.60, 0.4, 1.0, 100.0, "it lifts the fire and throws sparks"),
    "spirit": (SPIRIT, 0.40, 0.4, 0.5, 15.0, "it draws the flames off the wicks"),
    "gas": ("n-butane", 0.50, 0.3, 0.5, 3.0,
            "it pulls the flame off the burner and chills the flue with air"),
}  # fmt: skip


def fuel_of(firing: str) -> Fuel:
    """Return the fuel of a firing, "coal", "spirit" or "gas", as it is usually burnt."""
    bought, share, excess, drawn, most, harm = _USUAL[firing]
    burns = fuel(bought)
    return Fuel(firing, burns.net * 1000, burns.air, share, excess, drawn, most, harm)


def heat_of_steam(pressure: float) -> float:
    """Return the heat, kJ/kg, that turns cold feed into dry steam at bar gauge."""
    return saturation(pressure).steam_heat - WATER_HEAT * FEED


def density(temperature: float) -> float:
    """Return the density of flue gas, kg/m3, at the atmosphere's pressure and degC."""
    return ATMOSPHERE * PASCAL / (FLUE_GAS * (temperature + 273.15))


def gas_way(*, smokebox: float, tubes: float, heads: float, fire: float, area: float) -> Gas:
    """Return the gases and the resistance of their way.

    Parameters
    ----------
    smokebox, tubes : temperature of the gases in the smokebox, and mean in the tubes, degC.
    heads : speed heads lost in the tubes; `fire` what fire, grate or burner takes over that.
    area : through the tubes, mm2.
    """
    return Gas(
        smokebox, resistance(heads=heads, fire=fire, density=density(tubes), area=area / 1e6)
    )


def area_by_choke(choke: float) -> float:
    """Return the area through the tubes, mm2, that Bourne's chimney of half of it suits."""
    return 2 * circle_area(choke)
