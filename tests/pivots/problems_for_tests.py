"""Problems that the tests of the pivots search, and objectives whose optimum is known."""

from __future__ import annotations

from typing import Any

import numpy as np

from tests.motion.gears_for_tests import CRANK, DIRECT, OUTSIDE, ROCKER
from tests.motion.test_many import ALL
from weighshaft.motion import SlideValve, ValveSetting, Wanted
from weighshaft.pivots import Angle, Length, Pivots, Problem

VALVE = SlideValve(steam_lap=2.5, exhaust_lap=0.1, port_width=3.0)
WANTED = Wanted(cutoff=78.0, lead=0.2, port_opening=2.8)
NOTCHES = (1.0, 0.6, -0.5, -1.0)
KINDS = {
    **{name: gear for name, gear in ALL.items() if name.endswith("outside")
       and not name.startswith("oscillating")},
    "direct": DIRECT, "rocker": ROCKER, "Walschaerts": OUTSIDE,
}  # fmt: skip

SUSPENSION = ("suspension ahead", "suspension above")
SHIFT = np.array([0.31, 0.77])


def given(gear: Any, **others: Any) -> dict[str, Any]:
    """Return what other chapters hand to the search."""
    valve = SlideValve(2.5, 0.1, 3.0, admission=getattr(gear, "admission", "outside"))
    known = {"gear": gear, "crank": CRANK, "valve": valve, "setting": ValveSetting()}
    return {**known, "wanted": WANTED, **others}


def only(*names: str, reach: float | None = None, **others: Any) -> Pivots:
    """Return decisions in which these lengths may move and nothing else."""
    return Pivots(
        lengths=tuple(Length(name=name, down=reach, up=reach) for name in names),
        angles=(Angle(name="none"),),
        notches=others.pop("notches", NOTCHES),
        **others,
    )


def bowl(problem: Problem, x: np.ndarray) -> np.ndarray:
    """A bowl with its lowest place at `SHIFT`, and ripples that make many false ones."""
    away = x - np.resize(SHIFT, x.shape[1])
    return (10 * away**2 + 0.3 * (1 - np.cos(25 * away))).sum(axis=1)


def ridge(problem: Problem, x: np.ndarray) -> np.ndarray:
    """A smooth bowl whose lowest place is out of bounds: the best is at 0.5."""
    total = (10 * (x - SHIFT) ** 2).sum(axis=1)
    return np.where(x[:, 0] < 0.5, 1e6 * (1 + 0.5 - x[:, 0]), total)
