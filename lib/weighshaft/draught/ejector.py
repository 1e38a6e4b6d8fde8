"""Jet and chimney as an ejector: the draught that they make and the gases that they draw.

The jet spreads, mixes with the gases between its tip and the chimney's top, and a chimney that
widens turns part of the speed left over into pressure.  Three balances settle it: of mass, of
energy (mixed temperature, water of the wet steam boiled off by the gases), and of momentum over
the choke's area.  The draught is what the way of the gases takes for that flow.

How uncertain: on full-size engines whose chimneys and tubes are only half known it lies from a
tenth below to two and a half times above what was measured (`tests/published/test_draught.py`);
small engines are an extrapolation.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from ..measures import GRAVITY, circle_area
from ..nozzle.flow import PASCAL
from ..trade.saturation import ATMOSPHERE, saturation
from .jet import Jet, Mouth, mouth

Array = NDArray[np.float64]

WATER = GRAVITY
"""Pa in a millimetre of water."""
STEAM_GAS, FLUE_GAS = 461.5, 287.0
"""Gas constants, J/(kg K): of steam (IAPWS); of flue gas, as of air."""
STEAM_HEAT, GAS_HEAT = 1.97, 1.13
"""Specific heats, kJ/(kg K): 0.47 and 0.27 cal in L. D. Porta, Lempor theory, appendix A3."""
SPREAD = 0.094
"""Half-speed radius of a free round jet over the way from its mouth (S. B. Pope, Turbulent
Flows, table 5.1; from memory).  Twice that is 1 in 5.3: the slender cone of the trade."""
ENTRAINED = 0.32
"""Flow of a free jet over its first, for each diameter of way and the root of the densities'
ratio (Ricou and Spalding 1961; the figure from memory)."""
_STEPS = 42
_ZERO = 273.15


@dataclass(frozen=True)
class Losses:
    """Coefficients of jet and chimney; see `Draughting` for sources and ranges.

    Parameters
    ----------
    entry : of the gases at the chimney's foot, over the pressure of their speed there.
    friction : of the mixture in the chimney, over the pressure of its speed.
    recovery : part of a diffuser's recovery that is reached.
    evens_out : length in which the unevenness of speed falls to 1/e, in choke diameters.
    """

    entry: float = 0.04
    friction: float = 0.10
    recovery: float = 0.95
    evens_out: float = 2.0


@dataclass(frozen=True)
class Chimney:
    """Chimney above the nozzle, mm.

    Parameters
    ----------
    choke, top : bores at the choke and at the top.
    spacing : from the nozzle's tip to the choke.
    free : from the tip to the petticoat's mouth, where the jet is free.
    length : from the choke to the top.
    """

    choke: float | Array
    top: float | Array
    spacing: float | Array
    free: float | Array
    length: float | Array
    losses: Losses = field(default_factory=Losses)


@dataclass(frozen=True)
class Gas:
    """The gases and their way to the smokebox.

    Parameters
    ----------
    temperature : in the smokebox, degC.
    resistance : Pa for the square of each kg/s.
    """

    temperature: float
    resistance: float


@dataclass(frozen=True)
class Draught:
    """What jet and chimney do, each (n,).

    Parameters
    ----------
    draught : vacuum in the smokebox, mm water.
    gas : drawn, kg/s.
    back_pressure : behind the nozzle, bar; NaN beyond 10 bar, and so is all else.
    mixed : temperature in the chimney, degC.
    speed : of the mixture in the choke, m/s.
    caught, evened : parts of the jet's momentum that the choke catches, and of the
        unevenness that is gone at the top.
    """

    draught: Array
    gas: Array
    back_pressure: Array
    mixed: Array
    speed: Array
    caught: Array
    evened: Array


def draw(jet: Jet, chimney: Chimney, gas: Gas) -> Draught:
    """Return draught, gases drawn and back pressure for each steam flow.

    Steam flow, nozzle and sizes of the chimney may be figures or arrays (n,).
    """
    at = mouth(jet)
    holds = _Throat.of(at, jet, chimney, gas)
    low = np.zeros_like(holds.steam)
    most = 4 * (at.thrust / (holds.throat * gas.resistance)) ** 0.5
    high = np.where(np.isfinite(most), most, 0.0)
    for _ in range(_STEPS):  # what is drawn falls with the flow, what the way takes rises
        middle = (low + high) / 2
        more = holds.suction(middle) > gas.resistance * middle**2
        low, high = np.where(more, middle, low), np.where(more, high, middle)
    lost = ~np.isfinite(at.pressure)
    drawn = np.where(lost, np.nan, (low + high) / 2)
    mixed, volume = holds.mixture(drawn)
    return Draught(
        draught=gas.resistance * drawn**2 / WATER, gas=drawn, back_pressure=at.pressure,
        mixed=mixed, speed=volume / holds.throat, caught=holds.caught, evened=holds.evened,
    )  # fmt: skip


def balance(jet: Jet, chimney: Chimney, gas: Gas, drawn: Array) -> dict[str, float]:
    """Return what goes into the shown balance of momentum while `drawn` kg/s (1,) pass.

    Keys are the arguments of the relation `vacuum`.
    """
    holds = _Throat.of(mouth(jet), jet, chimney, gas)
    flow, steam = float(drawn[0]), float(holds.steam[0])
    free = float(np.minimum(1.0, holds.entrained / np.maximum(drawn, 1e-12))[0])
    open_area = max(float((holds.throat - holds.jet_area)[0]), 1e-3 * float(holds.throat[0]))
    return {
        "thrust": float((holds.caught * holds.thrust)[0]), "steam": steam, "gas": flow,
        "foot": flow / (holds.dense * open_area),
        "speed": float((holds.mixture(drawn)[1] / holds.throat)[0]),
        "throat": float(holds.throat[0]), "free": free,
        "evened": float(holds.evened[0]), "dense": holds.dense, "entry": holds.losses.entry,
        "friction": holds.losses.friction, "recovered": float(holds.recovered[0]),
    }  # fmt: skip


def sucked(jet: Jet, chimney: Chimney, gas: Gas, drawn: Array) -> Array:
    """Return the vacuum (mm water) while `drawn` kg/s of gases pass, whatever their way takes."""
    at = mouth(jet)
    return _Throat.of(at, jet, chimney, gas).suction(np.asarray(drawn, dtype=float)) / WATER


@dataclass(frozen=True)
class _Throat:
    """What the balances need, SI units, each (n,)."""

    steam: Array
    thrust: Array
    heat: Array
    jet_area: Array
    throat: Array
    dense: float
    gas_temperature: float
    entrained: Array
    caught: Array
    evened: Array
    recovered: Array
    losses: Losses

    @classmethod
    def of(cls, at: Mouth, jet: Jet, chimney: Chimney, gas: Gas) -> _Throat:
        choke, top, spacing, free, length, _ = np.broadcast_arrays(
            *(np.atleast_1d(np.asarray(one, dtype=float)) for one in
              (chimney.choke, chimney.top, chimney.spacing, chimney.free, chimney.length)),
            at.steam,
        )  # fmt: skip
        dense = ATMOSPHERE * PASCAL / (FLUE_GAS * (gas.temperature + _ZERO))
        each = np.asarray(jet.diameter, dtype=float)
        grown = ENTRAINED * free / each * np.sqrt(dense / at.density)
        losses = chimney.losses
        steam, throat = np.broadcast_arrays(at.steam, circle_area(1.0) * choke**2 * 1e-6)
        return cls(
            steam=steam,
            thrust=at.thrust,
            heat=at.heat,
            jet_area=np.asarray(jet.area, dtype=float) * 1e-6,
            throat=throat,
            dense=dense,
            gas_temperature=gas.temperature,
            entrained=np.maximum(grown - 1, 0.0) * at.steam,
            caught=caught(choke, spacing),
            evened=evened(choke, spacing + length, jet.number, losses.evens_out),
            recovered=losses.recovery * recovered(choke, top, length),
            losses=losses,
        )

    def mixture(self, gas: Array) -> tuple[Array, Array]:
        """Return temperature (degC) and volume (m3/s) of steam and gases mixed."""
        return mixture(self.steam, self.heat, gas, self.gas_temperature)

    def suction(self, gas: Array) -> Array:
        """Return the vacuum in Pa that draws `gas` kg/s."""
        _, volume = self.mixture(gas)
        # gases that a free jet has taken in already need no speed of their own at the foot
        free = np.minimum(1.0, self.entrained / np.maximum(gas, 1e-12))
        return suction(
            self.caught * self.thrust, self.steam, gas, jet_area=self.jet_area,
            throat=self.throat, gas_density=self.dense, mixed_volume=volume, free=free,
            evened=self.evened, entry=self.losses.entry, friction=self.losses.friction,
            recovered=self.recovered,
        )  # fmt: skip


def suction(
    thrust: Array, steam: Array, gas: Array, *, jet_area: Array, throat: Array,
    gas_density: float, mixed_volume: Array, free: Array, evened: Array, entry: float,
    friction: float, recovered: Array,
) -> Array:  # fmt: skip
    """Return the vacuum in front of a constant-area mixing throat, Pa; all in SI units.

    Parameters
    ----------
    thrust : of the jet, N.
    steam, gas : flows, kg/s.
    jet_area, throat : m2.
    gas_density : kg/m3.
    mixed_volume : of the mixture, m3/s.
    free : part of the gases taken in by the free jet, at the smokebox's pressure.
    evened : part of the change of momentum that is done at the chimney's end.
    entry, friction, recovered : over the pressure of the speed: of the gases at the foot, of
        the mixture, and of the mixture, won back by the diffuser.

    Source: balance of momentum over the throat and of energy at its foot and in the diffuser,
    as of a jet pump; with `free` 1 that of a jet mixing at constant pressure.
    """
    # where the nozzle fills the throat, nothing is left for the gases
    foot = gas / (gas_density * np.maximum(throat - jet_area, 1e-3 * throat))
    speed = mixed_volume / throat
    beside = 1 - free
    mixing = (thrust + beside * gas * foot - (steam + gas) * speed) / throat
    entering = beside * (1 + entry) * gas_density / 2 * foot**2
    head = (steam + gas) * speed / throat / 2
    made: Array = evened * mixing - entering + (recovered - friction) * head
    return made


def mixture(steam: Array, heat: Array, gas: Array, temperature: float) -> tuple[Array, Array]:
    """Return temperature (degC) and volume (m3/s at the atmosphere's pressure) of a mixture.

    The gases first boil off the water that the steam carries; if they cannot, the mixture
    stays at 100 degC.  The heat of its motion, under a hundredth, is left out.

    Parameters
    ----------
    steam, gas : kg/s.
    heat : content of the steam, kJ/kg.
    temperature : of the gases, degC.
    """
    dry = saturation(0.0)
    over = steam * (heat - dry.steam_heat) + gas * GAS_HEAT * (temperature - dry.temperature)
    takes = np.maximum(steam * STEAM_HEAT + gas * GAS_HEAT, 1e-12)
    mixed = dry.temperature + np.maximum(over, 0.0) / takes
    wet = np.minimum(steam, np.maximum(-over, 0.0) / dry.latent_heat)
    volume = ((steam - wet) * STEAM_GAS + gas * FLUE_GAS) * (mixed + _ZERO) / (ATMOSPHERE * PASCAL)
    return mixed, volume


def caught(choke: Array, spacing: Array) -> Array:
    """Return the part of the jet's momentum that passes within the choke.

    Speed across a round jet falls off like a bell; the part of its momentum within a radius is
    1 - 2^(-2 (r / half-speed radius)^2).  At the cone of 1 in 3 that is 0.99.
    """
    half = np.maximum(SPREAD * np.asarray(spacing, dtype=float), 1e-9)
    made: Array = 1 - np.exp2(-2 * np.square(choke / 2 / half))
    return made


def evened(choke: Array, way: Array, number: int, length: float) -> Array:
    """Return how far the speeds have evened out over the way from tip to chimney top.

    `length` chokes for one nozzle; jets that share the choke have each a narrower part of it.
    """
    made: Array = 1 - np.exp(-np.asarray(way, dtype=float) * math.sqrt(number) / (length * choke))
    return made


def recovered(choke: Array, top: Array, length: Array) -> Array:
    """Return what a tapered chimney turns back into pressure, over that of the choke's speed.

    Source: ideal recovery less 2.6 sin(angle / 2) (1 - area ratio)^2, the angle being that
    of the whole cone, at most 45 degrees (Crane TP 410; from memory).
    """
    ratio = np.minimum(np.square(choke / top), 1.0)
    slope = np.maximum(top - choke, 0.0) / 2 / np.maximum(length, 1e-9)
    angle = np.minimum(2 * np.arctan(slope), math.radians(45))
    made: Array = np.maximum(1 - ratio**2 - 2.6 * np.sin(angle / 2) * (1 - ratio) ** 2, 0.0)
    return made
