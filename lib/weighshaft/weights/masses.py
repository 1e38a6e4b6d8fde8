"""What everything weighs, where its weight acts, and which axles carry it straight."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from ..frames import Axle, Part, Whole
from ..trade.densities import density
from .decisions import ALWAYS, USED, WORKING, Weighed, Weights

ALLOWANCE = "rivets, screws, pipes, fittings"
_SHEAVES = ("eccentric", "forward eccentric", "backward eccentric")
GROUP_OF = {
    "frames": "Frames", "wheels": "Wheels and axles", "rods": "Rods and pins",
    "cylinders": "Cylinders", "motion": "Motion", "boiler": "Boiler", "water": "Water",
    "platework": "Platework", "fittings": "Fittings",
}  # fmt: skip


@dataclass(frozen=True)
class Mass:
    """One thing that weighs.

    Parameters
    ----------
    group : "Frames", "Boiler" …, as the table heads it.
    chapter : that owns its sizes, empty for what the model has not.
    mass : kg, both sides of a pair.
    ahead, above, out : of its centre, from the driving axle's centre, mm; in the mean over a turn
        of what turns or slides.
    carried : "always", "in working order" or "used up on the run".
    weighed : whether the builder weighed it.
    unsprung : share of it that rests straight on each axle from the front; () for none.
    """

    name: str
    group: str
    chapter: str
    mass: float
    ahead: float
    above: float
    out: float = 0.0
    carried: str = ALWAYS
    weighed: bool = False
    unsprung: tuple[float, ...] = ()


@dataclass(frozen=True)
class State:
    """The engine in one state.

    Parameters
    ----------
    mass : kg.
    ahead, above, out : of its centre of gravity, from the driving axle's centre, mm.
    unsprung : what rests straight on each axle from the front, kg.
    sprung, sprung_ahead : what rests on the springs, kg, and where it acts, mm.
    """

    mass: float
    ahead: float
    above: float
    out: float
    unsprung: tuple[float, ...]
    sprung: float
    sprung_ahead: float


def masses_of(weights: Weights, whole: Whole) -> tuple[tuple[Mass, ...], tuple[str, ...]]:
    """Return all that weighs, and the names of additions for which no place was given."""
    made, lost = [], []
    weighed = {one.name.strip(): one for one in weights.weighed if one.name.strip()}
    for part in whole.parts:
        made.append(_part(part, whole, weighed.pop(part.name, None)))
    metal = [one for one in made if not one.weighed and one.group != GROUP_OF["water"]]
    if weights.allowance > 0 and metal:
        share = sum(one.mass for one in metal)
        made.append(
            Mass(
                ALLOWANCE, "Allowance", "weights", share * weights.allowance / 100,
                *(sum(one.mass * getattr(one, axis) for one in metal) / share
                  for axis in ("ahead", "above", "out")),
            )
        )  # fmt: skip
    for name, one in weighed.items():
        if one.mass > 0 and one.ahead is None:
            lost.append(name)
        elif one.mass > 0 and one.ahead is not None:
            made.append(
                Mass(name, "Additions", "weights", one.mass, one.ahead, one.above or 0.0, one.out,
                     one.carried, True)
            )  # fmt: skip
    made += [
        Mass(f"ballast {n}", "Ballast", "weights", one.mass, one.ahead, one.above)
        for n, one in enumerate(weights.ballast, 1)
        if one.mass > 0
    ]
    return tuple(made), tuple(lost)


def _part(part: Part, whole: Whole, weighed: Weighed | None) -> Mass:
    ahead, above, out = mean_place(part, whole)
    mass = density(part.material) * part.volume / 1e9
    if weighed is not None:
        mass = weighed.mass
        ahead = ahead if weighed.ahead is None else weighed.ahead
        above = above if weighed.above is None else weighed.above
        out = out + weighed.out
    water = part.kind == "water"
    return Mass(
        part.name, GROUP_OF[part.kind], part.chapter, mass, ahead, above, out,
        WORKING if water else ALWAYS, weighed is not None, _straight(part, whole, ahead),
    )  # fmt: skip


def mean_place(part: Part, whole: Whole) -> tuple[float, float, float]:
    """Return where the weight of a part acts in the mean over a turn, mm.

    Parts are drawn on front dead centre; what turns with a wheel has its mean on the axle, and
    a rod or crosshead goes as far to the one side of its mean as to the other.
    """
    x, y, z = part.centroid
    if part.ride == "wheel" and part.axle is not None:
        axle = whole.axles[part.axle]
        return axle.ahead, _height(axle, whole), z
    slope = math.radians(whole.drive.inclination)
    throw = {
        "coupling": whole.drive.coupled_throw, "connecting": whole.drive.crank.throw,
        "crosshead": whole.drive.crank.throw,
    }.get(part.ride, 0.0)  # fmt: skip
    return x - throw * math.cos(slope), y - throw * math.sin(slope), z


def _height(axle: Axle, whole: Whole) -> float:
    return 0.0 if axle.kind == "coupled" else whole.rail + axle.diameter / 2


def _straight(part: Part, whole: Whole, ahead: float) -> tuple[float, ...]:
    """Return the share of a part that rests straight on each axle, () where it has springs."""
    count = len(whole.axles)
    coupled = [n for n, one in enumerate(whole.axles) if one.kind == "coupled"]
    driving = min(coupled, key=lambda n: abs(whole.axles[n].ahead))
    if part.axle is not None and part.ride in ("wheel", "axle"):
        return tuple(float(n == part.axle) for n in range(count))
    if part.ride == "coupling":
        # rods hang on all pins; the least uneven shares that keep their centre
        places = [whole.axles[n].ahead for n in coupled]
        shares = dict(zip(coupled, _even(places, ahead), strict=True))
        return tuple(shares.get(n, 0.0) for n in range(count))
    if part.ride == "connecting":
        # by the lever between crankpin and gudgeon
        long = whole.drive.crank.connecting_rod * math.cos(math.radians(whole.drive.inclination))
        on_pin = min(max(1 - ahead / long, 0.0), 1.0)
        return tuple(on_pin if n == driving else 0.0 for n in range(count))
    if part.name in _SHEAVES:
        return tuple(float(n == driving) for n in range(count))
    return ()


def _even(places: Sequence[float], centre: float) -> list[float]:
    middle = sum(places) / len(places)
    spread = sum((x - middle) ** 2 for x in places)
    slope = (centre - middle) / spread if spread else 0.0
    return [1 / len(places) + slope * (x - middle) for x in places]


def in_state(
    masses: Iterable[Mass], axles: Sequence[Axle], *, boiler: float, tanks: float, fuel: float,
    working: bool = True,
) -> State:  # fmt: skip
    """Return weight and centre of gravity with so much water and fuel.

    Parameters
    ----------
    boiler, tanks, fuel : what is left, as shares of a full charge.
    working : whether what is carried in working order only is there.
    """
    left: list[Mass] = []
    for one in masses:
        share = 1.0
        if one.carried == USED:
            share = fuel
        elif one.carried == WORKING:
            share = 1.0 if working else 0.0
            if one.group == GROUP_OF["water"]:
                share = tanks if one.name == "tank water" else boiler
        left.append(replace(one, mass=one.mass * share))
    whole = sum(one.mass for one in left)
    ahead, above, out = (
        sum(one.mass * getattr(one, axis) for one in left) / whole
        for axis in ("ahead", "above", "out")
    )
    unsprung = tuple(
        sum(one.mass * one.unsprung[n] for one in left if one.unsprung) for n in range(len(axles))
    )
    sprung = whole - sum(unsprung)
    moment = whole * ahead - sum(on * axle.ahead for on, axle in zip(unsprung, axles, strict=True))
    return State(whole, ahead, above, out, unsprung, sprung, moment / sprung)


def sort_of_water(masses: Iterable[Mass]) -> tuple[float, float]:
    """Return the water in the boiler and that in the tanks, kg."""
    water = [one for one in masses if one.group == GROUP_OF["water"]]
    tanks = sum(one.mass for one in water if one.name == "tank water")
    return sum(one.mass for one in water) - tanks, tanks
