"""The exhaust beats: how strong, how even, and how they sound."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .cycle import Array

LEAST = 0.2
"""Share of the greatest swelling below which a swelling of the blast is not counted as one."""


@dataclass(frozen=True)
class Beats:
    """The beats of a turn in their order.

    Parameters
    ----------
    at : crank angles at which each is strongest, degrees in the order of running.
    strength : greatest flow of each over the mean flow.
    """

    at: tuple[float, ...]
    strength: tuple[float, ...]

    @property
    def evenness(self) -> float | None:
        """Weakest over strongest; None where there is no beat."""
        return min(self.strength) / max(self.strength) if self.strength else None


def beats_of(blast: Array) -> Beats:
    """Return the beats of a blast over a turn.

    Parameters
    ----------
    blast : (n,) flow through the nozzle in equal steps of a turn that repeats.
    """
    mean = float(np.mean(blast))
    swing = float(np.ptp(blast))
    if mean <= 0 or swing <= 1e-9 * mean:
        return Beats((), ())
    n = len(blast)
    tops = (blast > np.roll(blast, 1)) & (blast >= np.roll(blast, -1))
    kept: list[int] = []
    for i in np.flatnonzero(tops):
        # a top counts when the blast falls on both sides by its share before a higher one
        if _stands_out(blast, int(i), LEAST * swing):
            kept.append(int(i))
    return Beats(
        tuple(360.0 * (i + 1) / n for i in kept), tuple(float(blast[i]) / mean for i in kept)
    )


def _stands_out(blast: Array, top: int, least: float) -> bool:
    """Return whether the flow falls by `least` on both sides before it rises above the top."""
    n, high = len(blast), blast[top]
    for way in (1, -1):
        lowest = high
        for k in range(1, n):
            value = blast[(top + way * k) % n]
            lowest = min(lowest, value)
            if high - lowest >= least:
                break
            if value > high:
                return False
        else:
            return False
    return True
