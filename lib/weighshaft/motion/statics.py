"""Forces in the parts of a gear, by statics without inertia (small at model speeds).

Every function returns the force for one newton that the gear exerts on the valve along
its spindle; pull is positive.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from .frame import Array


def towards(points: Mapping[str, Array], start: str, end: str) -> Array:
    """Return the unit vectors from one joint to another, (..., 2)."""
    away = points[end] - points[start]
    return away / np.hypot(away[..., 0], away[..., 1])[..., None]


def moment(arm: Array, force: Array) -> Array:
    """Return the moment of a force at the end of an arm, anticlockwise."""
    return arm[..., 0] * force[..., 1] - arm[..., 1] * force[..., 0]


def balance(
    unknowns: Sequence[Sequence[tuple[Array, Array] | None]],
    loads: Sequence[tuple[Array, Array] | None],
) -> list[Array]:
    """Return the magnitudes of forces that hold rigid bodies in balance.

    Parameters
    ----------
    unknowns : for each unknown force and each body (unit force on it, point) or None;
        three unknowns a body.
    loads : for each body its known force and point, or None.

    Returns
    -------
    The magnitude of each unknown, of the shape of the poses.
    """
    entries = [entry for column in unknowns for entry in column if entry] + [
        load for load in loads if load
    ]
    shape = np.broadcast_shapes(*(np.shape(v)[:-1] for entry in entries for v in entry))
    size = len(unknowns)
    matrix, right = np.zeros((*shape, size, size)), np.zeros((*shape, size))
    for column, bodies in enumerate(unknowns):
        for body, entry in enumerate(bodies):
            if entry is not None:
                force, point = entry
                matrix[..., 3 * body, column] = force[..., 0]
                matrix[..., 3 * body + 1, column] = force[..., 1]
                matrix[..., 3 * body + 2, column] = moment(point, force)
    for body, load in enumerate(loads):
        if load is not None:
            force, point = load
            right[..., 3 * body] = -force[..., 0]
            right[..., 3 * body + 1] = -force[..., 1]
            right[..., 3 * body + 2] = -moment(point, force)
    solved = np.linalg.solve(matrix, right[..., None])[..., 0]
    return [solved[..., column] for column in range(size)]
