"""Change wheels: every train of the wheels owned, how near it comes, and whether it meshes."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from ..machines import Lathe

EXACT = 1e-9
MOST_WHEELS = 40
"""Wheels that are looked at in two pairs."""
MOST_FOR_THREE = 20
"""Wheels up to which three pairs are looked at."""
_LOOKED_AT = 200
_FURTHER = 10_000
_SAME_RATIO = 3
"""Trains of one ratio that are listed, where it is not exact."""

Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Train:
    """A train of change wheels.

    Parameters
    ----------
    pairs : (driver, driven) from the spindle's side to the leadscrew; where there are two or
        more the driven wheel of one and the driver of the next share a stud.
    pitch : that it cuts, mm.
    error : relative, of the pitch.
    spare : teeth by which the tightest wheel passes the next stud; None in a single pair.
    reach : how far its shafts can stand apart, mm; a single pair has an idler between.
    idler : teeth of the wheel between in a single pair, None where any will do.
    reaches : whether it bridges the lathe's distance; None where that is not known.
    """

    pairs: tuple[tuple[int, int], ...]
    pitch: float
    error: float
    spare: float | None
    reach: float | None
    idler: int | None
    reaches: bool | None

    @property
    def exact(self) -> bool:
        """Whether the pitch is exact."""
        return abs(self.error) < EXACT

    @property
    def meshes(self) -> bool:
        """Whether no wheel fouls a stud and the train reaches the leadscrew."""
        return (self.spare is None or self.spare >= 0) and self.reaches is not False

    @property
    def ratio(self) -> Fraction:
        """Turns of the leadscrew for one of the first wheel."""
        made = Fraction(1)
        for driver, driven in self.pairs:
            made *= Fraction(driver, driven)
        return made

    @property
    def text(self) -> str:
        """The train as it is written: drivers over driven."""
        return " · ".join(f"{driver}/{driven}" for driver, driven in self.pairs)


@dataclass(frozen=True)
class Trains:
    """What a search found: trains that mesh, best first, and the best that does not mesh.

    Parameters
    ----------
    beyond : a train that comes nearer than all that mesh, None where there is none.
    skipped : wheels or pairs that were not looked at, in words; empty as a rule.
    """

    best: tuple[Train, ...]
    beyond: Train | None
    skipped: str


@lru_cache(maxsize=32)
def search(
    lathe: Lathe, wanted: float, pairs: int, listed: int, added: tuple[int, ...] = ()
) -> Trains:
    """Return the trains that come nearest to a pitch.

    Parameters
    ----------
    wanted : pitch, mm.
    pairs : at most in a train, 1 to 3.
    listed : trains wanted.
    added : wheels that are not owned and are tried beside the others.
    """
    owned = (*lathe.wheels, *added)
    wheels, skipped = owned[:MOST_WHEELS], ""
    if len(owned) > MOST_WHEELS:
        skipped = f"only the first {MOST_WHEELS} wheels were looked at"
    if pairs == 3 and len(wheels) > MOST_FOR_THREE:
        pairs, skipped = 2, f"three pairs are looked at with up to {MOST_FOR_THREE} wheels"
    found: list[Train] = []
    for number in range(1, min(pairs, len(wheels) // 2) + 1):
        found += _of(lathe, wheels, wanted, number, listed)
    found.sort(key=_order)
    best: list[Train] = []
    of_ratio: dict[Fraction, int] = {}
    for one in found:
        if not one.meshes or (not one.exact and of_ratio.get(one.ratio, 0) >= _SAME_RATIO):
            continue
        of_ratio[one.ratio] = of_ratio.get(one.ratio, 0) + 1
        best.append(one)
        if len(best) == listed:
            break
    nearest = abs(best[0].error) if best else float("inf")
    beyond = next(
        (one for one in found if not one.meshes and abs(one.error) < nearest - EXACT), None
    )
    return Trains(tuple(best), beyond, skipped)


def _order(one: Train) -> tuple[int, float, int, float]:
    return (
        0 if one.exact else 1, round(abs(one.error), 9), len(one.pairs),
        -(one.spare if one.spare is not None else 0.0),
    )  # fmt: skip


def _of(
    lathe: Lathe, wheels: tuple[int, ...], wanted: float, number: int, listed: int
) -> list[Train]:
    """Return trains of a number of pairs: some that mesh, if any, and the nearest of all."""
    drivers, driven = _sets(wheels, number)
    if not len(drivers):
        return []
    pitch = lathe.leadscrew * lathe.stud_turns * drivers.prod(axis=1) / driven.prod(axis=1)
    error = pitch / wanted - 1
    off = np.abs(error)
    for most in (_LOOKED_AT, _FURTHER, len(off)):
        take = min(most, len(off))
        chosen = np.argpartition(off, take - 1)[:take]
        chosen = chosen[np.argsort(off[chosen], kind="stable")]
        made = _arranged(lathe, wheels, drivers[chosen], driven[chosen], pitch[chosen],
                         error[chosen])  # fmt: skip
        if sum(one.meshes for one in made) >= listed or take == len(off):
            break
    return made


@lru_cache(maxsize=16)
def _sets(wheels: tuple[int, ...], number: int) -> tuple[Ints, Ints]:
    """Return drivers and driven wheels (n, number), each wheel used once, each set once."""
    picks = np.array(list(itertools.combinations(range(len(wheels)), number)), dtype=np.int64)
    bits = (1 << picks).sum(axis=1)
    one, other = np.nonzero((bits[:, None] & bits[None, :]) == 0)
    teeth = np.array(wheels, dtype=np.int64)
    drivers, driven = np.sort(teeth[picks[one]], axis=1), np.sort(teeth[picks[other]], axis=1)
    if len(set(wheels)) < len(wheels):  # of two alike either will do
        both = np.unique(np.concatenate([drivers, driven], axis=1), axis=0)
        drivers, driven = both[:, :number], both[:, number:]
    # a wheel that drives and is driven changes nothing
    idle = (drivers[:, :, None] == driven[:, None, :]).any(axis=(1, 2)) & (number > 1)
    return drivers[~idle], driven[~idle]


def _arranged(
    lathe: Lathe,
    wheels: tuple[int, ...],
    drivers: Ints,
    driven: Ints,
    pitch: NDArray[np.float64],
    error: NDArray[np.float64],
) -> list[Train]:
    """Return each set in the order in which its wheels pass the studs with the most to spare."""
    number = drivers.shape[1]
    half = lathe.wheel_module / 2
    if number == 1:
        return [
            _single(lathe, wheels, int(a), int(b), float(p), float(e))
            for (a,), (b,), p, e in zip(drivers, driven, pitch, error, strict=True)
        ]
    orders = [list(one) for one in itertools.permutations(range(number))]
    needed = passing(lathe)
    spares = np.stack(
        [
            spare(drivers[:, first], driven[:, second]) - needed
            for first in orders
            for second in orders
        ],
        axis=1,
    )  # fmt: skip
    best = spares.argmax(axis=1)
    made = []
    for n, at in enumerate(best):
        first, second = orders[at // len(orders)], orders[at % len(orders)]
        pairs = tuple(
            (int(a), int(b)) for a, b in zip(drivers[n][first], driven[n][second], strict=True)
        )
        reach = half * sum(a + b for a, b in pairs)
        far = lathe.train_centres
        made.append(
            Train(
                pairs, float(pitch[n]), float(error[n]), float(spares[n, at]), reach, None,
                None if far is None else reach >= far,
            )
        )  # fmt: skip
    return made


def spare(drivers: Ints, driven: Ints) -> Ints:
    """Return the least sum of teeth in mesh less the teeth of the wheel beside that has to pass.

    On every stud stand the driven wheel of one pair and the driver of the next; each lies beside
    the mesh of the other and its rim must pass the stud on the other side.

    Parameters
    ----------
    drivers, driven : (n, pairs) teeth in their order.
    """
    sums = drivers + driven
    ahead = sums[:, 1:] - driven[:, :-1]
    behind = sums[:, :-1] - drivers[:, 1:]
    least: Ints = np.minimum(ahead, behind).min(axis=1)
    return least


def passing(lathe: Lathe) -> float:
    """Return the teeth by which two wheels in mesh must exceed the wheel beside them.

    The rim stands one module outside its pitch circle, and half the stud with its nut is to be
    passed: 2 + stud over module. Common practice asks for 15 teeth or more.
    """
    return 2 + lathe.stud / lathe.wheel_module


def _single(
    lathe: Lathe, wheels: tuple[int, ...], a: int, b: int, pitch: float, error: float
) -> Train:
    """Return a pair with the smallest wheel between that reaches."""
    far, half = lathe.train_centres, lathe.wheel_module / 2
    if far is None:
        return Train(((a, b),), pitch, error, None, None, None, None)
    left = list(wheels)
    left.remove(a)
    left.remove(b)
    apart = far > half * (a + b + 2 * 2)
    for one in sorted(left):
        if half * (a + b + 2 * one) >= far:
            return Train(((a, b),), pitch, error, None, half * (a + b + 2 * one), one, apart)
    return Train(((a, b),), pitch, error, None, None, None, False)


def nut_every(train: Train, stud_turns: float) -> int:
    """Return every how many threads of the leadscrew the nut may be closed again.

    The carriage moves by whole threads of the leadscrew and has to meet a whole number of
    pitches: with pitch over leadscrew = N / D in lowest terms that is every N threads.
    """
    return (train.ratio * Fraction(stud_turns).limit_denominator(1000)).numerator


def missing(lathe: Lathe, wanted: float, pairs: int) -> tuple[tuple[int, Train], ...]:
    """Return what one more wheel would do: the usual helpers, nearest first.

    21, 33 and 38 teeth are sold beside small lathes, 63 stands for half of 127 (common practice).
    """
    made = []
    for teeth in (21, 33, 38, 63, 127):
        if teeth in lathe.wheels:
            continue
        best = search(lathe, wanted, min(pairs, 2), 1, (teeth,)).best
        if best:
            made.append((teeth, best[0]))
    return tuple(sorted(made, key=lambda one: (round(abs(one[1].error), 9), one[0])))
