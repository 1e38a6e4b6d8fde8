"""Lengths of one section laid into bars: the longest first, each into the first that holds it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Bar:
    """A bar bought and what is cut from it.

    Parameters
    ----------
    length : mm.
    pieces : lengths cut from it, mm, in the order in which they are cut.
    left : what is left, mm, after the last cut.
    """

    length: float
    pieces: tuple[float, ...]
    left: float


def nested(
    pieces: Sequence[float], lengths: Sequence[float], kerf: float
) -> tuple[tuple[Bar, ...], tuple[float, ...]]:
    """Return the bars to buy, and the pieces that are longer than any of them.

    First fit decreasing with bars of each length in turn; each bar is then changed for the
    shortest that holds its pieces.  Of these ways the one that buys least is taken.

    Parameters
    ----------
    pieces, lengths : as cut, and as bars can be had, mm.
    kerf : what each cut takes, mm; the end of a bar that is used up to it needs none.
    """
    longest = max(lengths)
    too_long = tuple(sorted((one for one in pieces if one > longest), reverse=True))
    rest = sorted((one for one in pieces if one <= longest), reverse=True)
    if not rest:
        return (), too_long
    ways = [_packed(rest, one, sorted(lengths), kerf) for one in lengths if one >= rest[0]]
    best = min(ways, key=lambda bars: (sum(bar.length for bar in bars), len(bars)))
    return best, too_long


def _packed(
    pieces: list[float], length: float, lengths: list[float], kerf: float
) -> tuple[Bar, ...]:
    bars: list[list[float]] = []
    for piece in pieces:
        for bar in bars:
            if _used([*bar, piece], kerf) <= length + 1e-9:
                bar.append(piece)
                break
        else:
            bars.append([piece])
    made = []
    for bar in bars:
        used = _used(bar, kerf)
        fits = next(one for one in lengths if one >= used - 1e-9)
        made.append(Bar(fits, tuple(bar), max(fits - used - kerf, 0.0)))
    return tuple(made)


def _used(pieces: Sequence[float], kerf: float) -> float:
    """Return what the pieces take of a bar with the cuts between them, mm."""
    return sum(pieces) + kerf * (len(pieces) - 1)
