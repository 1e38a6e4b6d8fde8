"""A fit to the builder's measurements: it runs beside the page and is kept with the design."""

from __future__ import annotations

import dataclasses
import logging
import threading
from typing import TYPE_CHECKING, Any

from .. import bench
from ..design.document import Design, DesignRefused
from ..job.measured import bench_given
from ..job.steamed import engine_of
from ..motion import MotionLocks
from ..sizes import SizeError

if TYPE_CHECKING:
    from .desk import Desk

_log = logging.getLogger(__name__)
Payload = dict[str, Any]
WORDS = {
    "begin": ("Fit to the runs", "fit_runs"),
    "take": ("Take over into steam, cylinders and fire", "take_fit"),
    "bar": "Turns marched", "poll": "fitting", "stop": "stop_fit",
}  # fmt: skip
"""What the panel of a search says and sends where a fit is in question."""


class Fitting:
    """One fit.

    Parameters
    ----------
    design : as it stood when the fit began; it belongs to its runs and its engine.
    stand : what the other chapters give.
    """

    def __init__(self, design: Design, stand: bench.Stand) -> None:
        self.design = design
        self.tried, self.total = 0, 0
        self.sorry = ""
        self.found: bench.Fitted | None = None
        self._stand = stand
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._run, name="fit", daemon=True)
        self._thread.start()

    @property
    def running(self) -> bool:
        """Whether it has not ended yet."""
        return self._thread.is_alive()

    def stop(self) -> None:
        """Ask it to end; nothing is kept then."""
        self._stop.set()

    def wait(self, seconds: float | None = None) -> bool:
        """Wait until it has ended; return whether it has."""
        self._thread.join(seconds)
        return not self.running

    def _told(self, tried: int, total: int) -> None:
        self.tried, self.total = tried, total

    def _run(self) -> None:
        try:
            self.found = bench.fitted(
                self.design.bench, self._stand, told=self._told, stop=self._stop.is_set
            )
        except bench.Stopped:
            self.sorry = "Stopped; what was fitted before stands."
        except (SizeError, MotionLocks) as refused:
            self.sorry = str(refused)
        except Exception:
            _log.exception("The fit failed")
            self.sorry = "The fit could not go on; the log says more."


def begin(desk: Desk) -> None:
    """Begin a fit to the runs; one at a time."""
    if desk.fitting is not None and desk.fitting.running:
        raise DesignRefused("A fit is under way; stop it first.")
    if getattr(desk.work.bench, "measured", 0) < 1:
        raise DesignRefused("Nothing has been measured that could be fitted to: add a run first.")
    results = {
        name: getattr(desk.work, name) for name in ("scale", "cylinders", "motion", "firing")
    }
    design = desk.design
    desk.fitting = Fitting(design, bench_given(design, results, engine_of(design, results)))


def stop(desk: Desk) -> None:
    """End the fit under way."""
    if desk.fitting is not None:
        desk.fitting.stop()


def keep(desk: Desk) -> None:
    """Keep a fit that has ended with the design, if its runs are still the same."""
    one = desk.fitting
    if one is None or one.running or one.found is None:
        return
    found, one.found = one.found, None
    if one.design.bench.runs != desk.design.bench.runs:
        one.sorry = "The runs were changed meanwhile: fit again."
        return
    kept = dataclasses.replace(desk.design.bench, fitted=found)
    desk.take(dataclasses.replace(desk.design, bench=kept), "Fitted to the runs")


def take(desk: Desk) -> None:
    """Take the fitted coefficients over into the chapters that own them."""
    changes = dict(getattr(desk.work.bench, "takes", ()))
    changes = {path: value for path, value in changes.items() if path not in desk.design.fixed}
    if not changes:
        raise DesignRefused("No fit stands that determines anything.")
    desk.take(desk.design.changed(changes), "Fit taken over")
    many = "1 coefficient" if len(changes) == 1 else f"{len(changes)} coefficients"
    desk.says = f"{many} taken over from the fit; Undo brings the old figures back."


def fit_payload(desk: Desk) -> Payload:
    """Return how far a fit has come, and in a sentence what it found."""
    keep(desk)
    one, result = desk.fitting, desk.work.bench
    payload: Payload = {
        "running": False, "tried": 0, "total": 0, "words": WORDS,
        "says": "" if one is None or one.running else one.sorry,
        "may": getattr(result, "measured", 0) > 0, "takes": False,
    }  # fmt: skip
    if one is not None and one.running:
        told = f"Turns marched: {one.tried} of about {one.total}" if one.tried else "Getting ready"
        return payload | {
            "running": True, "tried": one.tried, "total": one.total, "says": told,
        }  # fmt: skip
    changes = [
        path for path, value in getattr(result, "takes", ())
        if path not in desk.design.fixed and desk.design.at(path) != value
    ]  # fmt: skip
    payload["takes"] = bool(changes)
    if not payload["says"] and getattr(result, "stands", False):
        count = len(result.known)
        payload["says"] = f"{result.determined} of {count} coefficients determined by the runs."
    return payload
