"""Newton's rule for a loop with one unknown, for all poses at once."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from .frame import Array, Sized, settled

_BRISK, _WALK, _STEPS = 10, 50, 58
"""Iterations at full steps, at a third of a step, and to the end; four serve as a rule."""

_CLOSED, _OPEN = 1e-11, 1e-9
"""Closure error that ends the iteration, and that at which a loop counts as open, mm."""

Miss = Callable[[Array], tuple[Array, Array, tuple[Array, ...]]]
"""From the unknown: by how much the last bar is missed (mm), the slope of that, the joints."""


def solved(
    start: Array,
    miss: Miss,
    limit: Sized,
    low: Sized = -math.inf,
    high: Sized = math.inf,
) -> tuple[Array, Array, NDArray[np.bool_], tuple[Array, ...]]:
    """Return the unknown, the slope there, where the loop stays open, and the joints.

    Poses that full steps lose begin again at a third of a step.

    Parameters
    ----------
    limit : largest step, in the unit of the unknown.
    low, high : a step that would pass these goes half of the way there.
    """
    x = start
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        for step in range(_STEPS):
            missed, slope, joints = miss(x)
            if step == _STEPS - 1 or settled(missed, _CLOSED):
                break
            if step == _BRISK:
                x = np.where(np.abs(missed) < _OPEN, x, start)
                continue
            pace = 1.0 if step < _BRISK or step > _WALK else 0.35
            aim = x - np.clip(pace * missed / slope, -limit, limit)
            aim = np.where(aim > high, (x + high) / 2, aim)
            x = np.where(aim < low, (x + low) / 2, aim)
    return x, slope, ~(np.abs(missed) < _OPEN), joints
