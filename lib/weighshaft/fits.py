"""How a wheel is held on its axle: key, press fit or retaining compound, and what it carries.

The press fit is the thick cylinder of Lame; the key and the compound are areas times a
strength.  Strengths of materials and compounds here are quoted from memory, unconfirmed;
the page says so beside each figure.
"""

# ruff: noqa: N803, E741  (symbols as the books write them)

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import Any, ClassVar

from .sizes import SizeError, check_sizes, size
from .working import Working, pi, relation

MEMORY = "from memory, unconfirmed"
LAME = f"Lame's thick cylinder, standard text ({MEMORY}); checked against elasticity theory"


@dataclass(frozen=True)
class Metal:
    """Young's modulus and stress limit in N/mm2, Poisson's ratio; typical, from memory."""

    young: float
    poisson: float
    limit: float
    what: str


METALS = {
    "cast iron": Metal(
        100_000.0, 0.25, 150.0, "tensile strength of a plain grade, it does not yield"
    ),
    "mild steel": Metal(205_000.0, 0.30, 250.0, "yield"),
    "gunmetal or brass": Metal(100_000.0, 0.34, 120.0, "yield"),
}
"""Wheel metals; every figure from memory, unconfirmed, for judging and not for a certificate."""
AXLE_STEEL = METALS["mild steel"]

COMPOUNDS = {"meant to come apart": 8.0, "permanent": 22.0}
"""Shear strength of a cured anaerobic retaining compound on steel, N/mm2, from memory of
makers' sheets (6 to 10, and 22 to 25); a test on a pin and collar, not a service strength."""
WIDEST_GAP = 0.15
COMPOUND_HOTTEST = 150.0
COMPOUND_LETS_GO = 250.0
_THINNEST_BOSS = 1.05
_HOT = ((20.0, 1.0), (100.0, 0.8), (150.0, 0.5))


@dataclass(frozen=True, kw_only=True)
class KeyedSeat:
    """A wheel keyed to its axle; a round key has its diameter for width and height."""

    kind: ClassVar[str] = "keyed"
    title: ClassVar[str] = "Wheel seat: keyed"
    length: float = size("Wheel seat, length", low=1, high=200)
    key_width: float = size("Key, width", low=0.5, high=40)
    key_height: float = size(
        "Key, height", low=0.5, high=40, help="half in the axle, half in the wheel"
    )
    key_length: float = size("Key, length", low=1, high=200)
    shear_allowed: float = size(
        "Shear allowed in the key", "N/mm2", 5, 400, default=60.0, help=f"mild steel, {MEMORY}"
    )
    crush_allowed: float = size(
        "Crushing allowed at the key", "N/mm2", 5, 600, default=90.0, help=f"iron hub, {MEMORY}"
    )

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.key_length > self.length:
            raise SizeError(
                f"Key, length: {self.key_length:g} mm is longer than the seat of "
                f"{self.length:g} mm; up to {self.length:g} mm would do.",
                "key_length",
            )


@dataclass(frozen=True, kw_only=True)
class PressedSeat:
    """A wheel pressed on its axle."""

    kind: ClassVar[str] = "pressed"
    title: ClassVar[str] = "Wheel seat: pressed"
    length: float = size("Wheel seat, length", low=1, high=200)
    interference: float = size(
        "Interference, on the diameter", low=0.0, high=1.0, help="axle larger than the bore"
    )
    hub_diameter: float = size("Wheel boss, outside diameter", low=3, high=300)
    metal: str = size("Wheel metal", "choice", choices=tuple(METALS), default="cast iron")
    friction: float = size(
        "Friction in the seat",
        "ratio",
        0.02,
        0.5,
        default=0.12,
        help=f"dry or lightly oiled, {MEMORY}",
    )
    smoothing: float = size(
        "Interference lost as the two surfaces smooth",
        low=0,
        high=0.1,
        default=0.003,
        help=f"about 0.8 of the two roughness heights added, {MEMORY}",
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class RetainedSeat:
    """A wheel held by an anaerobic retaining compound."""

    kind: ClassVar[str] = "retained"
    title: ClassVar[str] = "Wheel seat: retaining compound"
    length: float = size("Wheel seat, length", low=1, high=200)
    gap: float = size("Gap, on the diameter", low=0.0, high=1.0, default=0.04)
    grade: str = size("Grade", "choice", choices=tuple(COMPOUNDS), default="permanent")
    strength: float | None = size(
        "Shear strength, from the maker's sheet",
        "N/mm2",
        0.5,
        60,
        default=None,
        help="left empty: a low figure for the grade, from memory",
    )
    temperature: float = size("Hottest the seat gets in service", "degC", -20, 400, default=80.0)

    def __post_init__(self) -> None:
        check_sizes(self)


Seat = KeyedSeat | PressedSeat | RetainedSeat


@dataclass(frozen=True)
class Fit:
    """What a seat carries.

    Parameters
    ----------
    torque : N mm at which the seat is at its strength; no factor taken off.
    limits_by : what gives first, in words.
    force : N, axial force to press on or to push off; None for a key.
    pressure : N/mm2 in the seat of a press fit, None otherwise.
    hoop : N/mm2, hoop stress at the bore of a press fit, None otherwise.
    hoop_limit : N/mm2 for the wheel's metal, None otherwise.
    workings : the way to the figures.
    """

    torque: float
    limits_by: str
    force: float | None
    pressure: float | None
    hoop: float | None
    hoop_limit: float | None
    workings: tuple[Working, ...]


@relation(
    "p", LAME, delta=r"\delta", d="d", D="D", E_h="E_h", E_s="E_s", nu_h=r"\nu_h", nu_s=r"\nu_s"
)
def press_pressure(
    delta: Any,
    d: Any,
    D: Any,
    E_h: Any,
    E_s: Any,
    nu_h: Any,
    nu_s: Any,
) -> Any:
    """Pressure in the seat of a hub on a solid shaft."""
    return (delta / d) / (((D**2 + d**2) / (D**2 - d**2) + nu_h) / E_h + (1 - nu_s) / E_s)


@relation(r"\sigma_t", LAME)
def hoop_stress(p: Any, d: Any, D: Any) -> Any:
    """Hoop stress at the bore of a hub under the seat pressure."""
    return p * (D**2 + d**2) / (D**2 - d**2)


@relation("T", "friction on the seat: area times pressure times radius", mu=r"\mu")
def press_torque(mu: Any, p: Any, d: Any, L: Any) -> Any:
    """Torque at which a press fit turns."""
    return pi * mu * p * d**2 * L / 2


@relation("F", "friction on the seat: area times pressure", mu=r"\mu")
def press_force(mu: Any, p: Any, d: Any, L: Any) -> Any:
    """Axial force at which a press fit slides."""
    return pi * mu * p * d * L


@relation("T", "area of the bond times its shear strength times the radius", tau=r"\tau")
def bond_torque(tau: Any, d: Any, L: Any) -> Any:
    """Torque that shears the bond of a retaining compound."""
    return pi * tau * d**2 * L / 2


@relation("F", "area of the bond times its shear strength; ISO 10123 for the test", tau=r"\tau")
def bond_force(tau: Any, d: Any, L: Any) -> Any:
    """Axial force that shears the bond of a retaining compound."""
    return pi * tau * d * L


@relation("T", "area of the key times the radius", tau=r"\tau")
def key_shear_torque(tau: Any, b: Any, l: Any, d: Any) -> Any:
    """Torque that shears a key at the stress `tau`."""
    return tau * b * l * d / 2


@relation("T", "half the key's height bears on the wheel", sigma=r"\sigma")
def key_crush_torque(sigma: Any, h: Any, l: Any, d: Any) -> Any:
    """Torque that crushes the side of a key at the stress `sigma`."""
    return sigma * (h / 2) * l * d / 2


def hot_share(temperature: float) -> float:
    """Return the share of a compound's strength that is left at a temperature (degC).

    Straight lines through 1 at 20, 0.8 at 100 and 0.5 at 150 degC, nothing above: the order
    of ordinary grades, from memory, unconfirmed; the maker's curve goes before it.
    """
    if temperature > _HOT[-1][0]:
        return 0.0
    for (t0, s0), (t1, s1) in itertools.pairwise(_HOT):
        if temperature <= t1:
            return s0 if temperature <= t0 else s0 + (s1 - s0) * (temperature - t0) / (t1 - t0)
    return _HOT[-1][1]


def check_seat(seat: Seat, axle: float) -> None:
    """Refuse a key or a boss that cannot go with an axle of diameter `axle` (mm).

    Raises
    ------
    SizeError : naming the size and what would do.
    """
    if isinstance(seat, KeyedSeat) and max(seat.key_width, seat.key_height) > axle / 2:
        raise SizeError(
            f"Key: {seat.key_width:g} × {seat.key_height:g} mm is too big for an axle of "
            f"{axle:g} mm; a quarter of the axle, {axle / 4:.2g} mm, would do.",
            "seat.key_width",
        )
    if isinstance(seat, PressedSeat) and seat.hub_diameter <= axle * _THINNEST_BOSS:
        raise SizeError(
            f"Wheel boss, outside diameter: {seat.hub_diameter:g} mm leaves no wall round an axle "
            f"of {axle:g} mm; {1.6 * axle:.3g} mm or more would do.",
            "seat.hub_diameter",
        )


def carried(seat: Seat, axle: float) -> Fit:
    """Return what a wheel seat on an axle of diameter `axle` (mm) carries.

    Raises
    ------
    SizeError : when the key or the boss cannot go with this axle.
    """
    check_seat(seat, axle)
    if isinstance(seat, KeyedSeat):
        return _keyed(seat, axle)
    if isinstance(seat, PressedSeat):
        return _pressed(seat, axle)
    return _retained(seat, axle)


def _keyed(seat: KeyedSeat, axle: float) -> Fit:
    shear = key_shear_torque.work(
        "Torque that the key carries in shear",
        "N mm",
        tau=seat.shear_allowed,
        b=seat.key_width,
        l=seat.key_length,
        d=axle,
    )
    crush = key_crush_torque.work(
        "Torque that the key carries in crushing",
        "N mm",
        sigma=seat.crush_allowed,
        h=seat.key_height,
        l=seat.key_length,
        d=axle,
    )
    least = min(shear, crush, key=lambda one: one.result)
    words = "shear of the key" if least is shear else "crushing at the key's side"
    return Fit(least.result, words, None, None, None, None, (shear, crush))


def _pressed(seat: PressedSeat, axle: float) -> Fit:
    metal, shaft = METALS[seat.metal], AXLE_STEEL
    pressure = press_pressure.work(
        "Pressure in the wheel seat",
        "N/mm2",
        delta=max(seat.interference - seat.smoothing, 0.0),
        d=axle,
        D=seat.hub_diameter,
        E_h=metal.young,
        E_s=shaft.young,
        nu_h=metal.poisson,
        nu_s=shaft.poisson,
    )
    p = pressure.result
    hoop = hoop_stress.work(
        "Hoop stress in the wheel boss", "N/mm2", p=p, d=axle, D=seat.hub_diameter
    )
    torque = press_torque.work(
        "Torque at which the press fit turns", "N mm", mu=seat.friction, p=p, d=axle, L=seat.length
    )
    force = press_force.work(
        "Force to press the wheel home", "N", mu=seat.friction, p=p, d=axle, L=seat.length
    )
    return Fit(
        torque.result,
        "friction of the press fit",
        force.result,
        p,
        hoop.result,
        metal.limit,
        (pressure, hoop, torque, force),
    )


def _retained(seat: RetainedSeat, axle: float) -> Fit:
    cold = COMPOUNDS[seat.grade] if seat.strength is None else seat.strength
    wide = min(1.0, WIDEST_GAP / seat.gap) if seat.gap > 0 else 1.0
    tau = cold * hot_share(seat.temperature) * wide
    torque = bond_torque.work(
        "Torque that shears the compound", "N mm", tau=tau, d=axle, L=seat.length
    )
    force = bond_force.work("Force that shears the compound", "N", tau=tau, d=axle, L=seat.length)
    words = f"shear of the compound at {tau:.3g} N/mm2"
    return Fit(torque.result, words, force.result, None, None, None, (torque, force))
