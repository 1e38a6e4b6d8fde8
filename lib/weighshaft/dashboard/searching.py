"""A search under way: it works beside the page, tells how far it has come, and can be stopped."""

from __future__ import annotations

import logging
import multiprocessing
import os
import threading
from collections.abc import Iterator
from concurrent.futures import Executor, ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import replace
from typing import Any

from .. import pivots
from ..design.document import Design, DesignRefused
from ..pivots.decisions import TELLING, Mapped, Pivots
from ..pivots.fields import field_of
from ..pivots.results import PivotMap, SearchResult
from ..sizes import SizeError

_log = logging.getLogger(__name__)
MANY = 4000
"""Candidates from which other processes are worth the second that they take to start."""
Executors = Any


class Searching:
    """One search for the best places of the pivots.

    Parameters
    ----------
    design : as it stood when the search began; what is found belongs to it.
    clear : finds the least gap of candidates, or None.
    executor : gives a context with an executor or None; the machine's processors unless given.
    before : a search whose find stands; then only a map is drawn, also where `before` is None
        and `only_map` says so.
    """

    def __init__(
        self,
        design: Design,
        clear: Any = None,
        executor: Executors = None,
        *,
        before: Searching | None = None,
        only_map: bool = False,
    ) -> None:
        self.design = design
        self.only_map = only_map
        self.tried, self.total = 0, design.pivots.candidates
        self.best: float | None = None
        self.sorry = ""
        self.found: SearchResult | None = before.found if before else None
        self.map: PivotMap | None = None
        self._clear, self._executor = clear, executor or _processes
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._run, name="search", daemon=True)
        self._thread.start()

    @property
    def running(self) -> bool:
        """Whether it has not ended yet."""
        return self._thread.is_alive()

    def stop(self) -> None:
        """Ask it to end with the best so far."""
        self._stop.set()

    def wait(self, seconds: float | None = None) -> bool:
        """Wait until it has ended; return whether it has."""
        self._thread.join(seconds)
        return not self.running

    def belongs_to(self, design: Design) -> bool:
        """Whether what it finds is about this design still."""
        one, other = self.design, design
        if self._clear is not None and (one.clearance, one.wheels, one.scale, one.cylinders) != (
            other.clearance, other.wheels, other.scale, other.cylinders,
        ):  # fmt: skip
            return False  # it kept clear of what has moved since
        return (_sought(one), one.motion, one.cylinders.crank) == (
            _sought(other), other.motion, other.cylinders.crank,
        )  # fmt: skip

    def _told(self, tried: int, total: int, best: float | None) -> None:
        self.tried, self.total, self.best = tried, total, best

    def _run(self) -> None:
        design = self.design
        motion, sizes = design.motion, design.cylinders
        given: dict[str, Any] = {
            "gear": motion.gear, "crank": sizes.crank, "valve": motion.valve,
            "setting": motion.setting, "wanted": motion.wanted, "clear": self._clear,
            "fixed": frozenset(design.fixed), "stop": self._stop.is_set,
        }  # fmt: skip
        try:
            with self._executor(0 if self.only_map else design.pivots.candidates) as executor:
                found = self.found
                if not self.only_map:
                    found = pivots.search(
                        design.pivots, **given, executor=executor, progress=self._told
                    )
                axes = _axes(design, found)
                if axes and not self._stop.is_set():
                    self.map = pivots.pivot_map(
                        design.pivots, *axes, **given, best=None if found is None else found.gear,
                        executor=executor,
                    )  # fmt: skip
                self.found = found
        except (SizeError, DesignRefused, ValueError) as refused:
            self.sorry = str(refused)
        except Exception:
            _log.exception("The search failed")
            self.sorry = "The search could not go on; the log says more."


def _sought(design: Design) -> Pivots:
    """Return what a search goes by: how its map is drawn does not change what it finds."""
    return replace(design.pivots, mapped=Mapped())


def _axes(design: Design, found: SearchResult | None) -> tuple[str, str] | None:
    """Return the two sizes for the map: as chosen, or those that tell most in the best gear."""
    mapped = design.pivots.mapped
    asked = [one for one in (mapped.across, mapped.up) if one != TELLING]
    chosen = {one: field_of(one) for one in asked}
    problem = found.problem if found else pivots.posed(
        design.pivots, gear=design.motion.gear, crank=design.cylinders.crank,
        valve=design.motion.valve, setting=design.motion.setting, wanted=design.motion.wanted,
    )  # fmt: skip
    rooms = [one.field for one in problem.rooms if one.field not in chosen.values()]
    tell = {one.field: one.without or 0.0 for one in found.moved} if found else {}
    rooms.sort(key=lambda name: -tell.get(name, 0.0))  # as they stand where nothing is told
    axes = [
        chosen.get(one) or (rooms.pop(0) if rooms else "") for one in (mapped.across, mapped.up)
    ]
    return (axes[0], axes[1]) if all(axes) else None


@contextmanager
def _processes(candidates: int) -> Iterator[Executor | None]:
    """Give the machine's processors, or nothing where one is enough or none can be had."""
    workers = min(os.cpu_count() or 1, 61)  # as many as Windows lets one wait for
    if workers < 2 or candidates < MANY:
        yield None
        return
    try:
        # fresh processes: a fork of a kernel with its threads may hang
        pool = ProcessPoolExecutor(workers, mp_context=multiprocessing.get_context("spawn"))
    except (OSError, ValueError, ImportError):
        yield None
        return
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)
