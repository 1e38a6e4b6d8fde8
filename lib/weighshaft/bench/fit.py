"""From runs to coefficients: robust least squares in logarithms, and what does not fit.

Before anything is measured, each coefficient is known to its range in practice; that counts as
one more reading of it.  Readings are weighed at first so that a gross one pulls no harder than a
doubtful one (Huber's rule); then the one that departs most from what all the others tell of it is
set aside, as long as it departs by more than `LIMIT` standard deviations: the habit of the
chapter on setting the valves.

Source: P. J. Huber, Robust Statistics, 1981; deletion residuals after R. D. Cook and S. Weisberg,
Residuals and Influence in Regression, 1982 (both from memory).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from .model import Array

LIMIT = 4.0
"""Standard deviations beyond which a reading is set aside."""
COVER = 2.2
"""Standard deviations on either side that are stated: 97 in 100 of normal errors, so that not
fewer than 95 remain for what robust weights and curvature take."""
KNOWN = 0.5
"""A coefficient is determined where runs have brought its spread below so much of its range's."""
_HUBER = 1.5
_ROUNDS, _FRESH = 7, 2
_CLOSE = 0.1
"""Of what a coefficient is then known to: a step that is not worth another round."""
_STRIDE = 0.3
"""Of the prior's spread: step of the finite differences, far above the noise of a march."""
_REACH = 2.0


@dataclass(frozen=True, eq=False)
class Fit:
    """What was found.

    Parameters
    ----------
    logs : (n,) logarithms of the coefficients; `covariance` (n, n) of them.
    shown : (m,) logarithms of what the runs then show; `slopes` (m, n) by the coefficients.
    used : (m,) whether a reading was not set aside.
    departs : (m,) from what the others say, in standard deviations.
    scatter : of the readings, in parts of what their accuracy lets expect; at least 1.
    settled : whether it came to rest in the rounds allowed.
    """

    logs: Array
    covariance: Array
    shown: Array
    slopes: Array
    used: NDArray[np.bool_]
    departs: Array
    scatter: float
    settled: bool

    @property
    def deviations(self) -> Array:
        """(n,) standard deviations of the logarithms."""
        made: Array = np.sqrt(np.diagonal(self.covariance))
        return made

    @property
    def within(self) -> Array:
        """(n,) what is stated as plus or minus, of the logarithms."""
        made: Array = COVER * self.deviations
        return made

    @property
    def band(self) -> Array:
        """(m,) plus or minus of the logarithms of what is shown, by the coefficients alone."""
        reach = np.einsum("mi,ij,mj->m", self.slopes, self.covariance, self.slopes)
        made: Array = COVER * np.sqrt(np.maximum(reach, 0.0))
        return made

    def determined(self, spread: Array) -> NDArray[np.bool_]:
        """(n,) which coefficients the readings determine; `spread` as before the readings."""
        made: NDArray[np.bool_] = self.deviations <= KNOWN * spread
        return made


def fit(
    respond: Callable[[Array], Array], target: Array, error: Array, centre: Array, spread: Array
) -> Fit:
    """Fit coefficients to readings.

    Parameters
    ----------
    respond : logarithms of what the readings would be, (m,), at logarithms of coefficients (n,).
    target, error : (m,) logarithms of the readings, and their standard deviations.
    centre, spread : (n,) of the logarithms before anything is measured.
    """
    logs = centre.copy()
    shown = respond(logs)
    slopes = _slopes(respond, logs, shown, spread)
    used = np.ones(len(target), dtype=bool)
    settled = False
    for turn in range(1, _ROUNDS + 1):
        aim, used = _straight(shown - slopes @ logs, slopes, target, error, centre, spread, logs)
        deviations = np.sqrt(np.diagonal(_known(slopes, error, spread, used)))
        step = np.max(np.abs(aim - logs) / deviations)
        logs = aim
        shown = respond(logs)
        settled = bool(step < _CLOSE)
        if settled:
            break
        if turn < _FRESH:
            slopes = _slopes(respond, logs, shown, spread)
    departs = _departs(slopes, target - shown, error, spread, used)
    covariance, scatter = _covariance(slopes, target - shown, error, spread, used)
    return Fit(logs, covariance, shown, slopes, used, departs, scatter, settled)


def _slopes(respond: Callable[[Array], Array], logs: Array, shown: Array, spread: Array) -> Array:
    """Return the derivatives, (m, n), by one step of each coefficient, towards its middle."""
    made = np.zeros((len(shown), len(logs)))
    for i, room in enumerate(spread):
        beside = logs.copy()
        beside[i] -= _STRIDE * room
        made[:, i] = (shown - respond(beside)) / (_STRIDE * room)
    return made


def _straight(
    base: Array, slopes: Array, target: Array, error: Array, centre: Array, spread: Array,
    start: Array,
) -> tuple[Array, NDArray[np.bool_]]:  # fmt: skip
    """Return where the weighted squares are least while the slopes hold, and what was used."""
    from scipy.optimize import least_squares  # its import would delay the page

    m = len(target)
    used = np.ones(m, dtype=bool)

    def missed(logs: Array) -> Array:
        own = used * (target - base - slopes @ logs) / error
        return np.concatenate([own, (logs - centre) / spread])

    def huber(squares: Array) -> Array:
        # the range before is no reading, and is weighed as it is
        far = (squares > _HUBER**2) & (np.arange(len(squares)) < m)
        root = np.sqrt(np.where(far, squares, 1.0))
        value = np.where(far, 2 * _HUBER * root - _HUBER**2, squares)
        first = np.where(far, _HUBER / root, 1.0)
        second = np.where(far, -_HUBER / (2 * root**3), 0.0)
        return np.array([value, first, second])

    def slope(logs: Array) -> Array:
        return np.concatenate([-(used / error)[:, None] * slopes, np.diag(1 / spread)])

    low, high = start - _REACH * spread, start + _REACH * spread
    bounds = {"jac": slope, "bounds": (low, high), "x_scale": spread}
    found = start
    for dropped in range(1 + m // 3):
        found = least_squares(missed, found, loss=huber, **bounds).x
        if dropped == m // 3:
            break
        # a gross reading has hardly pulled here: it departs by its own error and the others'
        known = _known(slopes, error, spread, used)
        room = error**2 + np.einsum("mi,ij,mj->m", slopes, known, slopes)
        far = np.abs(target - base - slopes @ found) / np.sqrt(room)
        # many readings that scatter too far are no gross ones
        scale = max(1.0, 1.4826 * float(np.median(far[used])))
        size = np.where(used, far, 0.0)
        if size.max() <= LIMIT * scale:
            break
        used = used.copy()
        used[int(size.argmax())] = False
    found = least_squares(missed, found, **bounds).x
    return np.clip(found, low, high), used


def _known(slopes: Array, error: Array, spread: Array, used: NDArray[np.bool_]) -> Array:
    weight = used / error**2
    normal: Any = slopes.T @ (weight[:, None] * slopes) + np.diag(1 / spread**2)
    made: Array = np.linalg.inv(normal)
    return made


def _departs(
    slopes: Array, missed: Array, error: Array, spread: Array, used: NDArray[np.bool_]
) -> Array:
    """Return each reading against what the others say of it, in standard deviations."""
    known = _known(slopes, error, spread, used)
    reach = np.einsum("mi,ij,mj->m", slopes, known, slopes)
    # a reading that took part has pulled the answer towards itself
    room = np.where(used, error**2 - reach, error**2 + reach)
    made: Array = missed / np.sqrt(np.maximum(room, 1e-6 * error**2))
    return made


def _covariance(
    slopes: Array, missed: Array, error: Array, spread: Array, used: NDArray[np.bool_]
) -> tuple[Array, float]:
    """Return the covariance of the logarithms, and by how much readings scatter too far."""
    known = _known(slopes, error, spread, used)
    shared = np.einsum("mi,ij,mj->m", slopes, known, slopes) / error**2
    free = float(np.sum(np.where(used, 1 - shared, 0.0)))
    squares = float(np.sum(np.where(used, (missed / error) ** 2, 0.0)))
    scatter = float(np.sqrt(max(1.0, squares / max(free, 1.0))))
    wider = known * scatter**2
    # no worse than before anything was measured
    over = np.sqrt(np.minimum(1.0, spread**2 / np.diagonal(wider)))
    return wider * np.outer(over, over), scatter
