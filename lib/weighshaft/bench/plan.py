"""What to measure first: which measurement would tell most of what is not yet known.

How much each kind of run answers to each coefficient is taken as typical, since the true answers
want a minute's reckoning: slopes of the logarithms, from marches of the sample engines of 10 to
40 mm bore.  A test holds the order against true marches.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from .coefficients import Coefficient, prior_of
from .decisions import FUEL, FUEL_FULL, KEPT, PULL, RAISED, STANDING, WATER, Run
from .fit import COVER, KNOWN
from .model import Array, deviation

TYPICAL: dict[str, tuple[float, ...]] = {
    # film, gap under the valve, ports, mechanical efficiency, share of the heat, fuel's rate
    WATER: (0.06, 0.5, 0.03, 0.0, 0.0, 0.0),
    PULL: (-0.01, -0.12, 0.04, 1.05, 0.0, 0.0),
    STANDING: (0.0, -0.1, 0.0, 1.0, 0.0, 0.0),
    FUEL: (0.06, 0.5, 0.03, 0.0, -1.1, 0.0),
    FUEL_FULL: (0.0, 0.0, 0.0, 0.0, 0.0, 1.0),
    RAISED: (0.0, 0.0, 0.0, 0.0, -0.9, -0.45),
    KEPT: (-0.06, -0.5, -0.03, 0.0, 1.05, 0.52),
}
"""Slopes of the logarithm of a reading by those of the coefficients."""


@dataclass(frozen=True)
class Advice:
    """One measurement that would tell.

    Parameters
    ----------
    what : kind of run.
    tells : title of the coefficient that it tells most of.
    now, then : per cent within which that is known, and would be.
    bits : what it tells in all, halvings of what is not known.
    """

    what: str
    tells: str
    now: float
    then: float
    bits: float


def covariance_of(coefficients: Sequence[Coefficient], runs: Sequence[Run], spread: float) -> Array:
    """Return what typical slopes say is known after runs, covariance of the logarithms."""
    _, room = prior_of(tuple(coefficients))
    normal: Any = np.diag(1 / room**2)
    for run in runs:
        slope = np.array(TYPICAL[run.what][: len(room)])
        normal += np.outer(slope, slope) / deviation(run, spread) ** 2
    made: Array = np.linalg.inv(normal)
    return made


def advised(
    coefficients: Sequence[Coefficient], runs: Sequence[Run], spread: float, kinds: Sequence[str],
    most: int = 3,
) -> tuple[Advice, ...]:  # fmt: skip
    """Return the measurements that would tell most, each on top of those before it.

    Parameters
    ----------
    runs : already measured; spread part within which the reckoning is good.
    kinds : that can be measured of this engine.

    Source: a reading tells half the logarithm of one plus what it varies by, for all that is not
    known, over its own variance; D. V. Lindley, Annals of Mathematical Statistics 27, 1956 (from
    memory).
    """
    taken = list(runs)
    made: list[Advice] = []
    _, room = prior_of(tuple(coefficients))
    for _ in range(most):
        known = covariance_of(coefficients, taken, spread)
        best: tuple[float, str] | None = None
        for kind in kinds:
            slope = np.array(TYPICAL[kind][: len(room)])
            bits = 0.5 * np.log2(1 + slope @ known @ slope / deviation(Run(what=kind), spread) ** 2)
            if best is None or bits > best[0] + 1e-9:
                best = float(bits), kind
        if best is None or best[0] < 0.5:
            break
        taken.append(Run(what=best[1]))
        after = covariance_of(coefficients, taken, spread)
        now, then = (np.sqrt(np.diagonal(one)) for one in (known, after))
        i = int(np.argmax(np.log(now / then)))
        made.append(
            Advice(best[1], coefficients[i].title, _percent(now[i]), _percent(then[i]), best[0])
        )
    return tuple(made)


def open_after(
    coefficients: Sequence[Coefficient], runs: Sequence[Run], spread: float
) -> tuple[str, ...]:
    """Return the titles of the coefficients that such runs would not determine."""
    _, room = prior_of(tuple(coefficients))
    known = np.sqrt(np.diagonal(covariance_of(coefficients, runs, spread)))
    return tuple(
        one.title
        for one, have, had in zip(coefficients, known, room, strict=True)
        if have > KNOWN * had
    )


def _percent(deviation: float) -> float:
    return float(100 * np.expm1(COVER * deviation))
