"""Differential indexing: the plate is geared to the work, so that nearly right becomes right."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from .. import machines

_BEST = 3
STEEPEST = Fraction(4)
"""Turns of the plate for one of the work that a train is looked for; wheels of 24 to 100 teeth
give little more in one pair."""

Pairs = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Geared:
    """A division with the plate geared to the work.

    Parameters
    ----------
    turns, holes, circle : of the handle, against the plate.
    plate : turns of the plate for one of the work; positive the same way as the handle.
    pairs : (driver, driven) from the work's spindle to the plate; where there are two the driven
        wheel of the first and the driver of the second share a stud.
    between : wheels between that only hand on, so that the plate turns the right way.
    """

    turns: int
    holes: int
    circle: int
    plate: Fraction
    pairs: Pairs
    between: int

    @property
    def wheels(self) -> str:
        """The train as it is written: drivers over driven, from the work to the plate."""
        return " · ".join(f"{driver}/{driven}" for driver, driven in self.pairs)

    @property
    def handle(self) -> str:
        """What the handle does for a division."""
        whole = f"{self.turns} turns and " if self.turns else ""
        return f"{whole}{self.holes} holes of {self.circle}"


@lru_cache(maxsize=64)
def geared(dividing: machines.Dividing, divisions: int) -> tuple[Geared, ...]:
    """Return ways of dividing with the plate geared to the work: all exact, the simplest first.

    A division turns the worm by ratio / n.  The handle is moved by a fraction f against the
    plate, and the plate follows the work by x turns in all: f + x / n = ratio / n.
    """
    ratio, trains = dividing.head_ratio, _trains(tuple(sorted(dividing.head_wheels)))
    found: dict[tuple[Fraction, Fraction], Geared] = {}
    for circle in sorted(set(dividing.circles)):
        low = math.ceil((ratio - STEEPEST) / divisions * circle)
        high = math.floor((ratio + STEEPEST) / divisions * circle)
        for holes in range(max(low, 1), high + 1):
            fraction = Fraction(holes, circle)
            plate = ratio - divisions * fraction
            pairs = trains.get(abs(plate))
            if pairs is None or (fraction, plate) in found:
                continue
            whole, left = divmod(holes, circle)
            found[fraction, plate] = Geared(
                whole, left, circle, plate, pairs, wheels_between(plate, pairs)
            )
    ways = sorted(
        found.values(), key=lambda one: (len(one.pairs), abs(one.plate), one.between, one.circle)
    )
    return tuple(ways[:_BEST])


def wheels_between(plate: Fraction, pairs: Pairs) -> int:
    """Return the wheels between: one more where the plate turns against the handle.

    A pair by itself with one wheel between turns the plate with the handle, two pairs do without
    (gearing of the usual head, as indexing tables have it; from memory).
    """
    return (1 if len(pairs) == 1 else 0) + (0 if plate > 0 else 1)


@lru_cache(maxsize=8)
def _trains(wheels: tuple[int, ...]) -> dict[Fraction, Pairs]:
    """Return for every ratio that the wheels give its simplest train."""
    made: dict[Fraction, Pairs] = {}
    for a, b in itertools.permutations(wheels, 2):
        made.setdefault(Fraction(a, b), ((a, b),))
    places = range(len(wheels))
    for first in itertools.combinations(places, 2):
        a, c = (wheels[n] for n in first)
        rest = [n for n in places if n not in first]
        for second in itertools.combinations(rest, 2):
            b, d = (wheels[n] for n in second)
            if {a, c} & {b, d}:
                continue  # a wheel that drives and is driven changes nothing
            # large over small first, as the tables have it: neither pair is then steep
            made.setdefault(Fraction(a * c, b * d), ((c, b), (a, d)))
    return made
