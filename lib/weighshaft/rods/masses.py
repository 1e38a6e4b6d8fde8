"""What the moving parts of one side weigh: from the whole engine, or as the builder weighed."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from ..frames.solids import Bar, Solid
from ..frames.whole import Part, Whole
from ..trade.densities import density
from .decisions import OPPOSITE, Rods
from .results import Masses
from .strength import PER_MM3


@dataclass(frozen=True)
class Turned:
    """A mass that turns with a coupled axle of the right-hand side.

    Parameters
    ----------
    axle : index among the coupled axles, from the front.
    moment : mass times radius, kg mm; its angle is that by which it leads the crank in the
        direction of forward running.
    plane : mm outwards from the engine's centre line.
    both : whether the left-hand side has the same.
    """

    axle: int
    moment: complex
    plane: float
    both: bool = True


def shank(part: Part | None) -> Bar | None:
    """Return the longest bar of a rod, which is its shank; None of what is no rod."""
    bars = [one for one in (part.solids if part else ()) if isinstance(one, Bar)]
    bars = [one for one in bars if one.start != one.end]
    return max(bars, key=lambda one: math.dist(one.start, one.end), default=None)


def riding(whole: Whole, *rides: str) -> tuple[Part, ...]:
    """Return the parts that ride so, whatever they are called."""
    return tuple(one for one in whole.parts if one.ride in rides)


def of_one_side(part: Part) -> float:
    """Return the mass of the right-hand one of a pair, or of all of a single part, kg."""
    return density(part.material) * PER_MM3 * part.volume / (2 if part.paired else 1)


def weigh(rods: Rods, whole: Whole) -> Masses:
    """Return the masses of one side, in g, and whence each has come."""
    weighed, source = rods.weighed, []

    def take(name: str, given: float | None, parts: Iterable[Part], share: float = 1.0) -> float:
        found = tuple(parts)
        if given is not None:
            source.append((name, "as weighed"))
            return given
        names = " and ".join(one.name for one in found)
        source.append((name, f"reckoned from {names}" if found else "no such part"))
        return 1000 * share * sum(map(of_one_side, found))

    swings = whole.drive.trunnion is not None
    rod = () if swings else riding(whole, "connecting")
    heads = riding(whole, "connecting") if swings else riding(whole, "crosshead")
    pistons = take("piston, rod and crosshead", weighed.reciprocating, heads)
    far = big_share(whole, rod)
    small = take("small end", weighed.small_end, rod, 1 - far)
    big = take("big end", weighed.big_end, rod, far)
    coupling = take("coupling rods", weighed.coupling, riding(whole, "coupling"))
    return Masses(pistons, small, big, coupling, pistons + small, tuple(source))


def big_share(whole: Whole, rods: tuple[Part, ...]) -> float:
    """Return the share of the connecting rod's mass that hangs on the crankpin.

    As on two scales: by the place of the centre of mass between the pins.
    """
    bar = shank(rods[0]) if rods else None
    if bar is None:
        return 0.0
    near, far = sorted((bar.start, bar.end), key=lambda one: math.hypot(*one))
    along = ((near[0] - far[0]), (near[1] - far[1]))
    length = math.hypot(*along)
    whole_mass = sum(map(of_one_side, rods))
    moment = sum(
        of_one_side(one)
        * ((one.centroid[0] - far[0]) * along[0] + (one.centroid[1] - far[1]) * along[1])
        for one in rods
    )
    return min(max(moment / (whole_mass * length**2), 0.0), 1.0)


def turning(
    rods: Rods, whole: Whole, masses: Masses, inside: bool, centres: float, number: int
) -> tuple[Turned, ...]:
    """Return what turns with each coupled axle, of the right-hand side; see `Turned`.

    Parameters
    ----------
    inside : whether the cylinders are between the frames.
    centres : of the cylinders apart, mm.
    number : of cylinders.
    """
    coupled, drive = whole.coupled, whole.drive
    driven = min(range(len(coupled)), key=lambda n: abs(coupled[n].ahead))
    opposed = inside and rods.coupling.pins == OPPOSITE
    turn = -1.0 if opposed and drive.coupled_throw > 0 else 1.0
    found = list(_drawn(whole, turn if inside else 1.0))
    big = masses.big_end / 1000 * drive.crank.throw
    found.append(Turned(driven, complex(big), centres / 2, number > 1))
    rod = riding(whole, "coupling")
    bar = shank(rod[0]) if rod else None
    if bar is not None:
        plane = (bar.inner + bar.outer) / 2
        throw = drive.coupled_throw * (-1.0 if opposed and drive.coupled_throw > 0 else 1.0)
        for n, share in enumerate(pin_shares(tuple(one.ahead for one in coupled))):
            found.append(Turned(n, complex(share * masses.coupling / 1000 * throw), plane))
    return tuple(found)


def pin_shares(places: tuple[float, ...]) -> tuple[float, ...]:
    """Return the share of the coupling rods that each crankpin carries round.

    A rod of even section leaves half of each length between pins to either.
    """
    long = [abs(a - b) for a, b in pairwise(places)]
    whole = sum(long)
    if not whole:
        return tuple(0.0 for _ in places)
    before, after = [0.0, *long], [*long, 0.0]
    return tuple((a + b) / (2 * whole) for a, b in zip(before, after, strict=True))


def _drawn(whole: Whole, turn: float) -> Iterable[Turned]:
    """Yield what stands off its axle among the parts that turn with one: crankpins and webs."""
    slope = cmath.rect(1.0, -math.radians(whole.drive.inclination))
    index = {id(axle): n for n, axle in enumerate(whole.coupled)}
    for part in riding(whole, "wheel"):
        axle = whole.axles[part.axle] if part.axle is not None else None
        if axle is None or id(axle) not in index:
            continue
        for solid in part.solids:
            moment = _moment(solid, part, axle.ahead) * slope
            plane = solid.centroid[2]
            if abs(moment) < 1e-9 or (not part.paired and plane <= 0):
                continue
            around = turn if part.kind == "rods" else 1.0
            # drawn anticlockwise; running forward turns the other way
            yield Turned(index[id(axle)], around * moment.conjugate(), plane)


def _moment(solid: Solid, part: Part, ahead: float) -> complex:
    mass = density(part.material) * PER_MM3 * part.share * solid.volume
    x, y, _ = solid.centroid
    return mass * complex(x - ahead, y)
