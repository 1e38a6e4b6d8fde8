"""Many gears at once: sizes as rows of candidates, and as complex numbers for derivatives."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

import numpy as np
from numpy.typing import ArrayLike

from .frame import STEP, Array

Sizes = TypeVar("Sizes")


def spread(sizes: Sizes, changes: Mapping[str, ArrayLike]) -> Sizes:
    """Return a gear or a crank of which some sizes stand in rows of candidates.

    Its `pose` then answers with the candidates as first axis, (k, m, n).  What the limits of
    a field or a proof would refuse is not refused here; a pose says by its margins where a
    candidate does not go together.

    Parameters
    ----------
    changes : field to the values (k,) of the candidates, in the unit of the field.
    """
    made: Sizes = object.__new__(type(sizes))
    for name, value in vars(sizes).items():
        object.__setattr__(made, name, value)
    for name, value in changes.items():
        row = np.asarray(value)
        object.__setattr__(made, name, row[:, None, None] if row.ndim else row)
    return made


def nudged(sizes: Sizes, fields: tuple[str, ...]) -> Sizes:
    """Return candidates of which each has one size moved by `STEP` off the real line.

    The imaginary part of whatever comes of candidate i is then `STEP` times its derivative
    by the size i, exact to rounding.

    Source: complex-step differentiation, J. N. Lyness and C. B. Moler, Numerical
    Differentiation of Analytic Functions, 1967.
    """
    eye = np.eye(len(fields))
    return spread(
        sizes,
        {name: getattr(sizes, name) + 1j * STEP * eye[i] for i, name in enumerate(fields)},
    )


def derivative(answer: Array) -> Array:
    """Return the derivative that rides in the imaginary part."""
    slope: Array = np.imag(answer) / STEP
    return slope
