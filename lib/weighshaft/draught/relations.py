"""Relations of the chapter that are shown as working."""

from __future__ import annotations

from typing import Any

from ..working import relation, sqrt

BOURNE = "J. Bourne, A Catechism of the Steam Engine"
PORTA = "L. D. Porta, Theory of the Lempor Ejector, 1974"
MOMENTUM = "balance of momentum over the choke, as of a jet pump"


@relation("\\dot m_f", "balance of heat", steam="\\dot m", heat="q", value="H", share="\\eta")
def fuel_burnt(steam: float, heat: float, value: float, share: float) -> float:
    """Fuel in g/s that raises `steam` g/s of `heat` kJ/kg; `value` kJ/kg of the fuel."""
    return steam * heat / (value * share)


@relation("\\dot m_g", "the air that the fuel needs by weight, and the excess",
          fuel="\\dot m_f", air="a", excess="e", drawn="y")  # fmt: skip
def gases(fuel: float, air: float, excess: float, drawn: float) -> float:
    """Gases of a fire to be drawn, g/s: `air` kg for each kg of fuel, and a part of it over."""
    return drawn * fuel * (1 + air * (1 + excess))


@relation("R", "speed heads lost in the tubes; fire to tubes as 4 to 8 in of water "
          f"({BOURNE}, question 281)", heads="k", fire="f", density="\\rho_t",
          area="A_t")  # fmt: skip
def resistance(heads: float, fire: float, density: float, area: float) -> float:
    """Pa for the square of each kg/s: `area` through the tubes in m2."""
    return heads * (1 + fire) / (2 * density * area**2)


@relation("h", "the way of the gases, by the square of their flow", resistance="R", gas="\\dot m_g",
          weight="g")  # fmt: skip
def draught_for(resistance: float, gas: float, weight: float) -> float:
    """Draught in mm water that draws `gas` kg/s; `weight` Pa of a millimetre of water."""
    return resistance * gas**2 / weight


@relation("\\Delta p", f"{MOMENTUM}; losses after {PORTA}", thrust="I", steam="\\dot m",
          gas="\\dot m_g", foot="w_g", speed="w", throat="A_c", free="\\phi", evened="\\beta",
          dense="\\rho_g", entry="\\zeta", friction="x", recovered="\\eta_r")  # fmt: skip
def vacuum(
    thrust: float, steam: float, gas: float, foot: float, speed: float, throat: float, free: float,
    evened: float, dense: float, entry: float, friction: float, recovered: float,
) -> Any:  # fmt: skip
    """Vacuum in the smokebox, Pa: N, kg/s, m/s, the choke's area in m2, kg/m3."""
    beside = 1 - free
    mixing = (thrust + beside * gas * foot - (steam + gas) * speed) / throat
    entering = beside * (1 + entry) * dense / 2 * foot**2
    return evened * mixing - entering + (recovered - friction) * (steam + gas) * speed / throat / 2


@relation("d_1", "the same area of several nozzles", diameter="d", number="n")
def each_of(diameter: float, number: float) -> Any:
    """Diameter of each of `number` nozzles with the area of one."""
    return diameter / sqrt(number)
