"""Is it worth the metal: the gain beside what workshop errors make of it."""

from __future__ import annotations

import math

import numpy as np

from ..motion import AnyGear
from ..motion.many import spread
from .fields import Room, value_now
from .objective import judged
from .problem import Problem
from .results import Score, Worth

MADE, _SHARE = 256, 0.95
HEARD = 0.25
"""A gain below this, a quarter of one per cent of cut-off, nobody hears (common practice)."""


def worth_the_metal(
    problem: Problem,
    present: Score,
    best: Score,
    found: AnyGear,
    tolerance: float,
    angle_tolerance: float,
    seed: int,
) -> Worth:
    """Say whether the best gear stays better than the present one when it is made.

    A few hundred gears are made, each size that moved off by anything up to the tolerance.

    Parameters
    ----------
    tolerance, angle_tolerance : mm and degrees.
    """
    moved = [one for one in problem.rooms if value_now(found, one.field) != one.now]
    if not moved:
        says = "Nothing better was found than the gear as it is; leave it."
        made = best.total
        return Worth(0.0, made, made, 0.0, tolerance, angle_tolerance, False, says)
    rng = np.random.default_rng(seed)
    errors = rng.uniform(-1, 1, (MADE, len(moved)))
    errors *= [tolerance if one.unit == "mm" else angle_tolerance for one in moved]
    made, as_it_is = (_made(problem, gear, moved, errors) for gear in (found, problem.gear))
    gain, scatter = present.total - best.total, max(made - best.total, 0.0)
    worth = gain > max(scatter, HEARD)
    shop = f"made to {tolerance:g} mm and {angle_tolerance:g}°"
    falls = f"from {present.total:.2f} to {best.total:.2f} faults"
    if not math.isfinite(gain):
        says = (
            f"Worth the metal: the gear as it is locks; the best one scores {best.total:.2f}, "
            f"and {shop} nineteen in twenty come out at {made:.2f} or better."
        )
    elif worth:
        says = (
            f"Worth the metal: the score falls {falls}; {shop}, nineteen in twenty such gears "
            f"come out at {made:.2f} or better."
        )
    elif gain <= HEARD:
        says = (
            f"Not worth the metal: the score would fall {falls}, a gain of {max(gain, 0.0):.2f} "
            "that nobody will hear."
        )
    else:
        says = (
            f"Not worth the metal as the workshop is: the score would fall {falls}, but {shop} "
            f"one in twenty comes out worse than {made:.2f} (the gear as it is, made anew so: "
            f"{as_it_is:.2f}). Closer work first."
        )
    if not present.sound and math.isfinite(present.total):
        worth = True
        says = f"The gear as it is breaks a limit ({', '.join(present.broken)}). {says}"
    return Worth(gain, made, as_it_is, scatter, tolerance, angle_tolerance, worth, says)


def _made(
    problem: Problem, gear: AnyGear, moved: list[Room], errors: np.ndarray[tuple[int, int]]
) -> float:
    """Return the score that 19 of 20 gears reach whose sizes are off by these errors."""
    rows = {
        one.field: (value_now(gear, one.field) or 0.0) + errors[:, i] for i, one in enumerate(moved)
    }
    scores = judged(problem, spread(gear, rows), len(errors)).score
    return float(np.quantile(np.where(np.isfinite(scores), scores, 1e5), _SHARE))
