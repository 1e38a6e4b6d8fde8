"""Candidates judged in blocks by any executor, in an order that does not depend on it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future
from typing import TypeVar

import numpy as np

from ..motion.frame import Array
from .objective import MOST, SEEN, evaluate
from .problem import Problem

BLOCK = 96
"""Candidates in a block: enough to be quick, few enough for the near cache."""
_AHEAD = 64
"""Blocks given out before the first is asked back: no cluster idles, no memory is filled."""

_NEAR = 0.01
"""Places that differ by less than this share of every room are neighbours."""

Progress = Callable[[int, int, float | None], None]
"""Told after every block: gears tried, gears to try, best score so far or None."""
Stop = Callable[[], bool]
Answer = TypeVar("Answer")


class Stopped(Exception):
    """The builder has stopped the search; what was found so far stands."""


class Trial:
    """Judges places in blocks, and remembers the best of them.

    Parameters
    ----------
    judge : gives the totals (k,) of places (k, n); a function of a module, so that another
        process can find it.
    total : gears to try, for progress.  `tried` counts them, `closed` those whose linkage
        was closed all round, since they passed at a glance.
    executor : any of `concurrent.futures`, or None to work in this thread.
    """

    KEPT = 24

    def __init__(
        self,
        problem: Problem,
        total: int,
        *,
        judge: Callable[[Problem, Array], Array] = evaluate,
        executor: Executor | None = None,
        progress: Progress | None = None,
        stop: Stop | None = None,
    ) -> None:
        self.problem, self.total, self.judge = problem, total, judge
        self.executor, self.progress, self.stop = executor, progress, stop
        self.tried = self.closed = 0
        self.history: list[tuple[int, float]] = []
        self.elite: list[tuple[float, int, Array]] = []

    def totals(self, x: Array) -> Array:
        """Return the totals (k,) of places (k, n).

        Raises
        ------
        Stopped : between blocks, once `stop` says so.
        """
        blocks = [x[i : i + BLOCK] for i in range(0, len(x), BLOCK)]
        found = []
        for places, totals in zip(blocks, self._answers(blocks), strict=True):
            self._note(places, totals)
            found.append(totals)
        return np.concatenate(found)

    def count(self, places: Array, totals: Array) -> None:
        """Note places that were judged elsewhere, as the polish does."""
        self.halt()
        self._note(places, totals)

    def halt(self) -> None:
        """Raise `Stopped` once `stop` says so."""
        if self.stop is not None and self.stop():
            raise Stopped

    def _answers(self, blocks: list[Array]) -> Iterator[Array]:
        if self.executor is None:
            for block in blocks:
                self.halt()
                yield self.judge(self.problem, block)
            return
        waiting: list[Future[Array]] = []
        ahead = iter(blocks)
        try:
            for block in ahead:
                waiting.append(self.executor.submit(self.judge, self.problem, block))
                if len(waiting) == _AHEAD:
                    break
            while waiting:
                self.halt()
                answer = waiting.pop(0).result()
                following = next(ahead, None)
                if following is not None:
                    waiting.append(self.executor.submit(self.judge, self.problem, following))
                yield answer
        finally:
            for one in waiting:
                one.cancel()

    def _note(self, places: Array, totals: Array) -> None:
        first = self.tried
        self.tried += len(places)
        best = self.elite[0][0] if self.elite else np.inf
        self.closed += int((totals < SEEN).sum())
        for i in np.argsort(totals, kind="stable")[: self.KEPT]:
            self._keep(float(totals[i]), first + int(i), places[i])
        least = self.elite[0][0]
        if least < best and least < MOST:
            self.history.append((self.tried, least))
        if self.progress is not None:
            self.progress(self.tried, max(self.total, self.tried), self.best)

    @property
    def best(self) -> float | None:
        """Best score so far; None until something sound was found."""
        return self.elite[0][0] if self.elite and self.elite[0][0] < MOST else None

    def _keep(self, total: float, number: int, place: Array) -> None:
        """Put a place among the best; of neighbours only the better one stays there."""
        if len(self.elite) == self.KEPT and total >= self.elite[-1][0]:
            return
        near = [one for one in self.elite if np.abs(one[2] - place).max() < _NEAR]
        if any(one[0] <= total for one in near):
            return
        self.elite = [one for one in self.elite if all(one is not other for other in near)]
        self.elite.append((total, number, np.array(place)))
        self.elite.sort(key=lambda one: one[:2])
        del self.elite[self.KEPT :]
