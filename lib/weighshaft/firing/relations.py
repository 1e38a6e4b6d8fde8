"""What fire, steam and feed rest on, written once; large kernels call these with numbers."""

from __future__ import annotations

from typing import Any

from ..working import pi, relation, sqrt

NAPIER = "Napier's rule; Babcock & Wilcox, Steam, equation 49"
ISO_4126 = "form of ISO 4126 for a critical flow of steam; from memory"
BOURNE_VALVE = "J. Bourne, A Catechism of the Steam Engine, question 312"
BOURNE_PUMP = "J. Bourne, A Catechism of the Steam Engine, questions 336 and 337"
BOURNE_3_5 = "J. Bourne, A Catechism of the Steam Engine, question 175"
THIN_SHELL = "thin shell; Bourne, question 302, has the same with his iron"
COPPER_TUBE = "UK Copper Board, FAQ 2: P = 20 F t/(D - t)"
STAYED = "ASME PG-46.1, C = 2.1 (powerengineering101.com)"
CLAMPED = "held plate, round; handbook of stresses, from memory"
COLLAPSE = "Roark, table 35, case 19a: long thin tube under pressure from outside"
GWR = "fit to trials of 1848, Dingler's Polytechnisches Journal 108, p. 409"
HEAT = "balance of heat"
SONIC = "a perfect gas at the speed of sound; textbooks of gas dynamics"


@relation("q", "geometry and the lamp's rate", wick="d", number="n", rate="r")
def wick_burns(wick: Any, number: Any, rate: Any) -> Any:
    """Spirit burnt, g/min: `wick` bore in mm, `rate` in g/min for 1 cm2."""
    return number * pi * wick * wick / 400 * rate


@relation("q", "geometry", area="A", rate="r")
def grate_burns(area: Any, rate: Any) -> Any:
    """Coal burnt, g/min: grate in cm2, rate in kg/(m2 h)."""
    return area * rate / 600


@relation("q", SONIC, bore="d", discharge="C_d", pressure="p", k="k", gas="R", hot="T")
def choked_jet(bore: Any, discharge: Any, pressure: Any, k: Any, gas: Any, hot: Any) -> Any:
    """Gas through one jet at the speed of sound, g/min.

    Parameters
    ----------
    bore : mm; `discharge` the coefficient.
    pressure : before the jet, bar absolute.
    k : exponent of expansion; `gas` its constant, J/(kg K); `hot` K.
    """
    area = discharge * pi * bore * bore / 4
    return 6000 * area * pressure * sqrt(k / (gas * hot) * (2 / (k + 1)) ** ((k + 1) / (k - 1)))


@relation(r"\eta", GWR, eta=r"\eta_0", usual="q_0", loading="q")
def forced(eta: Any, usual: Any, loading: Any) -> Any:
    """Efficiency of a fire forced beyond what is usual; both loadings in kW/m2 of surface."""
    return eta * sqrt(usual / loading)


@relation("W", HEAT, fire="Q", eta=r"\eta", loss="K", hot=r"\theta", air=r"\theta_a",
          steam="h_s", feed="h_w")  # fmt: skip
def evaporation(fire: Any, eta: Any, loss: Any, hot: Any, air: Any, steam: Any, feed: Any) -> Any:
    """Water evaporated, g/min.

    Parameters
    ----------
    fire : heat of the fire, W; `eta` the share that gets into the water.
    loss : of the clothed shell, W/K.
    hot, air : degC.
    steam, feed : heat content, kJ/kg.
    """
    return 60 * (fire * eta - loss * (hot - air)) / (steam - feed)


@relation("t", HEAT, water="m", steam="h_w", cold="h_0", metal="C", hot=r"\theta",
          begin=r"\theta_0", heat="Q")  # fmt: skip
def raising(water: Any, steam: Any, cold: Any, metal: Any, hot: Any, begin: Any, heat: Any) -> Any:
    """Minutes to raise steam in a closed boiler once the fire burns.

    Parameters
    ----------
    water : kg; `steam` and `cold` its heat content hot and cold, kJ/kg.
    metal : kJ/K; `hot`, `begin` degC.
    heat : into the water less the mean loss, W.
    """
    return 1000 * (water * (steam - cold) + metal * (hot - begin)) / (60 * heat)


@relation("A", ISO_4126, flow="q", c="C", discharge="K_{dr}", pressure="p", volume="v")
def valve_area(flow: Any, c: Any, discharge: Any, pressure: Any, volume: Any) -> Any:
    """Flow area of a safety valve, mm2.

    Parameters
    ----------
    flow : kg/h.
    c : see `expansion_c`.
    pressure : bar absolute while it blows, accumulation and all; `volume` there, m3/kg.
    """
    return flow / (0.2883 * c * discharge * sqrt(pressure / volume))


@relation("C", ISO_4126)
def expansion_c(k: Any) -> Any:
    """Constant of the gas in ISO 4126's form; `k` its exponent of expansion."""
    return 3.948 * sqrt(k * (2 / (k + 1)) ** ((k + 1) / (k - 1)))


@relation("W", NAPIER, pressure="p", area="a")
def napier(pressure: Any, area: Any) -> Any:
    """Steam through an orifice at the speed of sound, lb/s; `pressure` psi absolute, area in2."""
    return pressure * area / 70


@relation("a", BOURNE_VALVE, bore="D", speed="V", pressure="p")
def old_valve(bore: Any, speed: Any, pressure: Any) -> Any:
    """Safety valve's area by the old rule, in2: bore in, piston ft/min, boiler psi."""
    return bore * bore * speed / (375 * pressure)


@relation("V", BOURNE_PUMP, swept="V_c", pressure="p", number="n")
def old_pump(swept: Any, pressure: Any, number: Any) -> Any:
    """Single-acting feed pump by the old rule, for `number` double-acting cylinders.

    `swept` volume of one, in the same unit; `pressure` psi.
    """
    return number * swept * (pressure + 15) / 4800


@relation("m", "geometry; slip is what the pump does not deliver", ram="d", stroke="s", slip="e",
          strokes="i")  # fmt: skip
def pump_delivers(ram: Any, stroke: Any, slip: Any, strokes: Any) -> Any:
    """Cold water delivered, g a turn; ram and stroke in mm."""
    return pi * ram * ram / 4 * stroke * 0.000998 * (1 - slip) * strokes


@relation("v", "continuity", flow="q", bore="d", density=r"\rho")
def pipe_speed(flow: Any, bore: Any, density: Any) -> Any:
    """Speed of steam in a pipe, m/s; `flow` g/s, bore mm, density kg/m3."""
    return 4000 * flow / (pi * bore * bore * density)


@relation(r"\sigma", THIN_SHELL, pressure="p", diameter="d", wall="t")
def hoop(pressure: Any, diameter: Any, wall: Any) -> Any:
    """Stress round a thin shell, N/mm2; pressure bar, mean diameter and wall mm."""
    return pressure * diameter / (20 * wall)


@relation(r"\sigma", STAYED, pressure="p", pitch="a", plate="t")
def stayed(pressure: Any, pitch: Any, plate: Any) -> Any:
    """Stress that a stayed flat plate is reckoned with, N/mm2; pressure bar, sizes mm."""
    return pressure * pitch * pitch / (10 * 2.1 * plate * plate)


@relation(r"\sigma", CLAMPED, pressure="p", radius="r", plate="t")
def clamped(pressure: Any, radius: Any, plate: Any) -> Any:
    """Stress at the edge of a round plate held fast there, N/mm2; pressure bar, sizes mm."""
    return 0.075 * pressure * radius * radius / (plate * plate)


@relation("p_c", COLLAPSE, e="E", nu=r"\nu", wall="t", radius="r")
def collapse(e: Any, nu: Any, wall: Any, radius: Any) -> Any:
    """Pressure at which a long thin tube is crushed from outside, in the unit of `e`."""
    return e / (4 * (1 - nu * nu)) * (wall / radius) ** 3


@relation(r"\sigma", "pull of the plate round it", pressure="p",
          pitch="a", stay="d")  # fmt: skip
def stay_stress(pressure: Any, pitch: Any, stay: Any) -> Any:
    """Pull in a stay, N/mm2; pressure bar, sizes mm."""
    return pressure / 10 * pitch * pitch / (pi * stay * stay / 4)
