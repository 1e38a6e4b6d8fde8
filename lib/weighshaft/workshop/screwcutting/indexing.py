"""Dividing: hole circles, two circles of a plate added or taken off, the rotary table's dial."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

import numpy as np

from .. import machines
from ..dials import Dial

_BEST = 5


@dataclass(frozen=True)
class Circle:
    """A circle of holes that gives a division exactly: whole turns, and spaces on it."""

    circle: int
    turns: int
    holes: int


@dataclass(frozen=True)
class TwoCircles:
    """A division by two circles of one plate.

    Parameters
    ----------
    turns : whole turns of the handle besides.
    first, holes : circle and spaces of the handle's pin, forward.
    second, back : circle and spaces of the plate; negative backward.
    error : of one division, degrees at the work.
    last : how far the last gap is off after all divisions, degrees at the work.
    """

    turns: int
    first: int
    holes: int
    second: int
    back: int
    error: float
    last: float

    @property
    def exact(self) -> bool:
        """Whether the division is exact."""
        return self.error == 0.0


@dataclass(frozen=True)
class Nearest:
    """Every division at the nearest hole of one circle; the error does not sum up.

    Parameters
    ----------
    circle : holes.
    error : greatest error of a division, degrees at the work.
    places : turns and holes from the start, for each division.
    """

    circle: int
    error: float
    places: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Indexed:
    """What the dividing head gives for a part of a turn.

    Parameters
    ----------
    turns : of the handle, in lowest terms.
    circles : exact ones.
    compound : by two circles, nearest first; empty where a circle is exact.
    nearest : the finest circle with its nearest holes; None where a circle is exact.
    """

    turns: Fraction
    circles: tuple[Circle, ...]
    compound: tuple[TwoCircles, ...]
    nearest: Nearest | None


def plates_of(dividing: machines.Dividing) -> tuple[tuple[int, ...], ...]:
    """Return the circles plate by plate."""
    step, every = dividing.on_plate, dividing.circles
    return tuple(every[n : n + step] for n in range(0, len(every), step))


@lru_cache(maxsize=64)
def indexed(dividing: machines.Dividing, divisions: int) -> Indexed:
    """Return every way of dividing a turn into equal parts on the head."""
    turns = Fraction(dividing.head_ratio, divisions)
    circles = exact_circles(dividing.circles, turns)
    if circles:
        return Indexed(turns, circles, (), None)
    compound = two_circles(plates_of(dividing), turns, dividing.head_ratio, divisions=divisions)
    return Indexed(turns, (), compound, nearest_holes(dividing, divisions))


def exact_circles(plates: tuple[int, ...], turns: Fraction) -> tuple[Circle, ...]:
    """Return the circles on which the handle stops exactly, the largest first."""
    whole, part = divmod(turns, 1)
    return tuple(
        Circle(one, int(whole), int(part * one))
        for one in sorted(set(plates), reverse=True)
        if (part * one).denominator == 1
    )


def two_circles(
    plates: tuple[tuple[int, ...], ...], turns: Fraction, ratio: int, *, divisions: int,
    best: int = _BEST,
) -> tuple[TwoCircles, ...]:  # fmt: skip
    """Return the nearest movements by two circles of one plate.

    Parameters
    ----------
    plates : circles of each plate; the plate stays on while it is worked.
    turns : of the handle for a division.
    ratio : turns of the handle for one of the work.
    """
    whole, part = divmod(turns, 1)
    found: dict[tuple[int, int, int, int], TwoCircles] = {}
    for plate in plates:
        circles = sorted(set(plate))
        for n, a in enumerate(circles):
            for b in circles[n + 1 :]:
                holes = np.arange(0, a)
                rest = (float(part) - holes / a) * b
                back = np.round(rest).astype(int)
                off = np.abs(rest - back) / b
                for at in np.argsort(off, kind="stable")[:best]:
                    one = _two(
                        turns, int(whole), a, int(holes[at]), b, int(back[at]), ratio, divisions
                    )
                    found[a, one.holes, b, one.back] = one
    # of equally near ones that with the fewest holes to count
    ways = sorted(
        found.values(),
        key=lambda one: (abs(one.error), abs(one.holes) + abs(one.back), one.first, one.second),
    )
    return tuple(ways[:best])


def _two(
    turns: Fraction, whole: int, a: int, holes: int, b: int, back: int, ratio: int, divisions: int
) -> TwoCircles:
    if abs(back) >= b:  # a whole turn of it is one of the handle
        whole, back = whole + int(math.copysign(1, back)), back - int(math.copysign(b, back))
    got = whole + Fraction(holes, a) + Fraction(back, b)
    off = (got - turns) / ratio
    return TwoCircles(whole, a, holes, b, back, float(off * 360), float(off * 360 * divisions))


def nearest_holes(dividing: machines.Dividing, divisions: int) -> Nearest:
    """Return the circle whose nearest holes keep the greatest error least."""
    best: Nearest | None = None
    for circle in sorted(set(dividing.circles)):
        total = Fraction(dividing.head_ratio * circle, divisions)
        places, worst = [], Fraction(0)
        for n in range(divisions):
            holes = round(total * n)
            worst = max(worst, abs(holes - total * n))
            places.append(divmod(holes, circle))
        error = float(worst * 360 / (dividing.head_ratio * circle))
        if best is None or error < best.error:
            best = Nearest(circle, error, tuple(places))
    assert best is not None
    return best


@dataclass(frozen=True)
class AngleSetting:
    """An angle on the head (whole turns and the nearest hole) and on the rotary table."""

    angle: float
    turns: int
    circle: int
    holes: int
    error: float
    table: str
    table_error: float


def angle_setting(dividing: machines.Dividing, angle: float) -> AngleSetting:
    """Return how an angle (degrees) is set: the circle that comes nearest."""
    turned = angle / 360 * dividing.head_ratio
    ways = []
    for circle in sorted(set(dividing.circles)):
        holes = round(turned * circle)
        error = holes / circle / dividing.head_ratio * 360 - angle
        ways.append((round(abs(error), 12), circle, holes, error))
    _, circle, holes, error = min(ways)
    whole, left = divmod(holes, circle)
    dial = table_dial(dividing)
    reading = dial.reading(angle)
    return AngleSetting(
        angle, whole, circle, left, error, reading.text, dial.moved(reading) - angle
    )


def table_dial(dividing: machines.Dividing) -> Dial:
    """Return the rotary table's handwheel: degrees a turn."""
    return Dial(360 / dividing.table_ratio, dividing.table_divisions)


CUTTERS = ((135, 1), (55, 2), (35, 3), (26, 4), (21, 5), (17, 6), (14, 7), (12, 8))
"""Least teeth that each cutter of the usual set of eight cuts; from memory."""


def gear_cutter(teeth: int) -> int | None:
    """Return the number of the involute cutter for a wheel, None below 12 teeth."""
    return next((number for least, number in CUTTERS if teeth >= least), None)
