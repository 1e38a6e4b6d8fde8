"""The chapter on tolerances worked for gears laid out, and events of one gear at a time."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from tests.motion.test_many import ALL, CRANK
from weighshaft.motion import Crank, SlideValve, ValveSetting, events_over
from weighshaft.motion.many_events import EVENTS
from weighshaft.tolerances import Dimension, Tolerances, TolerancesResult, work

LEADS = ValveSetting()


def valve_for(gear: Any) -> SlideValve:
    return SlideValve(
        2.0, 0.12, 3.0, admission=getattr(gear, "admission", "outside"), valve_offset=0.07
    )


def notches_of(gear: Any) -> tuple[float, ...]:
    return (1.0, 0.55, -0.7) if gear.notched else (1.0, -1.0)


def worked(
    name: str = "Stephenson, outside", tolerances: Tolerances | None = None, **other: Any
) -> TolerancesResult:
    gear = ALL[name]
    given: dict[str, Any] = {
        "gear": gear, "crank": CRANK, "valve": valve_for(gear), "setting": LEADS,
        "reversers": notches_of(gear), "running_notch": 0.55,
    }  # fmt: skip
    return work(tolerances or Tolerances(), **(given | other))


def events(
    crank: Crank, valve: SlideValve, gear: Any, notches: tuple[float, ...], **how: Any
) -> tuple[np.ndarray, np.ndarray]:
    """Return per cent (m, 2, 4) and leads (m, 2) from the events of one gear."""
    found = events_over(crank, valve, gear, notches, **how)
    ends = [[one.front, one.back] for one in found]
    percent = [
        [[getattr(getattr(end, e), "percent", np.nan) for e in EVENTS] for end in both]
        for both in ends
    ]
    return np.array(percent), np.array([[end.lead for end in both] for both in ends])


def moved(
    one: Dimension, by: float, crank: Crank, valve: SlideValve, gear: Any
) -> tuple[Crank, SlideValve, Any]:
    """Return crank, valve and gear with one dimension made larger."""
    change = {one.field: one.value + by}
    if one.part == "gear":
        return crank, valve, replace(gear, **change)
    if one.part == "valve":
        return crank, replace(valve, **change), gear
    return replace(crank, **change), valve, gear
