"""What the fire burns, the air that it wants, and the way of its gases to the smokebox."""

from __future__ import annotations

from dataclasses import dataclass

from ..measures import circle_area
from ..nozzle.flow import PASCAL
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
    drawn : part of the gases that the blast has to draw; a gas jet brings in half itself.
    most : mm water from which draught does harm.
    harm : what too much draught does.
    source : of value and air; the rest is common practice unless said.
    """

    name: str
    value: float
    air: float
    share: float
    excess: float
    drawn: float
    most: float
    harm: str
    source: str


FUELS = {
    "coal": Fuel(
        "coal", 31_000.0, 10.7, 0.60, 0.4, 1.0, 100.0, "it lifts the fire and throws sparks",
        "good steam coal; from memory. 0.6 of its heat in steam as at Altoona (6.7 kg of steam "
        "for 1 kg, Dingler 331, 1916); excess air 25 to 47 % by the CO2 of 15.1 and 12.9 % in "
        "Aspinall's smokebox (Dingler 305, 1897)",
    ),
    "spirit": Fuel(
        "spirit", 25_500.0, 8.55, 0.40, 0.4, 1.0, 15.0, "it draws the flames off the wicks",
        "ethanol with 5 % of water: air by its composition, heat value from memory",
    ),
    "gas": Fuel(
        "gas", 45_700.0, 15.46, 0.50, 0.3, 0.5, 3.0,
        "it pulls the flame off the burner and chills the flue with air",
        "butane: air by its composition, heat value from memory",
    ),
}  # fmt: skip


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
    return Gas(smokebox, resistance(heads=heads, fire=fire, density=density(tubes), area=area))


def area_by_choke(choke: float) -> float:
    """Return the area through the tubes, mm2, that Bourne's chimney of half of it suits."""
    return 2 * circle_area(choke)
