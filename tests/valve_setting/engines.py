"""Engines with hidden faults, measured by the search for events and not by the chapter's model."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tests.motion.gears_for_tests import CRANK, DIRECT, INSIDE, OUTSIDE, ROCKER, SLIP
from weighshaft.motion import SlideValve, ValveSetting
from weighshaft.motion.as_built import as_built
from weighshaft.motion.many_events import many_events
from weighshaft.valve_setting.decisions import (
    BACKWARD,
    EVENTS,
    FORWARD,
    LEAD,
    MIDDLE,
    WIDEST,
    AirTest,
    Believed,
    Instruments,
    Reading,
)
from weighshaft.valve_setting.faults import faults_of, how_far, throw_of
from weighshaft.valve_setting.model import Bench
from weighshaft.valve_setting.readings import Points, placed

Array = NDArray[np.float64]
OUTER = SlideValve(2.2, 0.0, 3.0)
INNER = SlideValve(2.2, 0.0, 3.0, admission="inside")
ENGINES: dict[str, tuple[Any, SlideValve]] = {
    "Stephenson, direct": (DIRECT, OUTER),
    "Stephenson, rocker": (ROCKER, SlideValve(1.6, 0.0, 2.5)),
    "Walschaerts, outside": (OUTSIDE, OUTER),
    "Walschaerts, inside": (INSIDE, INNER),
    "slip eccentric": (replace(SLIP, advance_backward=28.0), OUTER),
}
INSTRUMENTS = Instruments()


@cache
def bench_of(name: str) -> Bench:
    """Return an engine's gear on the stand, as designed."""
    gear, valve = ENGINES[name]
    full = many_events(CRANK, valve, gear, [1.0])
    half = float(full.travel[0, 0]) / 2
    out = how_far(Believed(), valve, half, throw_of(gear, half))
    faults = faults_of(gear, out, INSTRUMENTS)
    return Bench(CRANK, as_built(gear), valve, float(full.setting[0, 0]), faults)


def plan_of(name: str) -> list[Reading]:
    """Return all that can be measured in full gear both ways, and steam in mid gear."""
    gears = [FORWARD, BACKWARD] + ([MIDDLE] if ENGINES[name][0].notched else [])
    plan = []
    for stands in gears:
        for end in ("front", "back"):
            for what in (*EVENTS, LEAD, WIDEST):
                if stands != MIDDLE or what in (EVENTS[0], EVENTS[1], LEAD):
                    plan.append(Reading(gear=stands, end=end, what=what))
    return plan


@dataclass(frozen=True)
class Measured:
    """What is read on T engines: crank angles and openings (T, m), and the points as planned."""

    points: Points
    theta: Array
    target: Array
    hidden: Array


def measured(
    name: str, plan: list[Reading], hidden: Array, rng: np.random.Generator | None
) -> Measured:
    """Measure engines with hidden faults (T, n); without noise where no generator is given."""
    bench = bench_of(name)
    gear, valve = bench.spread(hidden)
    rows = sorted({reading.reverser for reading in plan})
    found = many_events(
        CRANK, valve, gear, rows, constant=np.full((len(hidden), 1), bench.setting), polished=True
    )
    assert found.turns.all()
    disc = hidden[:, [one.sort for one in bench.faults].index("disc")]
    taken = []
    columns = []
    for number, reading in enumerate(plan, 1):
        row, end = rows.index(reading.reverser), ("front", "back").index(reading.end)
        if reading.is_event:
            angle = found.angle[:, row, end, EVENTS.index(reading.what)] + disc
            good, column = INSTRUMENTS.angle, angle
            taken.append((number, replace(reading, number=0.0)))
        else:
            lead = reading.what == LEAD
            good = INSTRUMENTS.feeler if lead else INSTRUMENTS.widest
            column = (found.lead if lead else found.opening)[:, row, end]
            taken.append((number, replace(reading, length=0.0)))
        if rng is not None:
            column = column + rng.uniform(-good, good, len(hidden))
        columns.append(column)
    points, refused = placed(taken, bench.gear, CRANK, valve_of(name), INSTRUMENTS)
    assert not refused
    values = np.stack(columns, axis=1)
    event = np.array([reading.is_event for reading in plan])
    theta = np.where(event, values % 360, points.theta)
    peak = points.peak
    if peak.any():
        theta = np.where(peak, widest_at(bench, points), theta)
    return Measured(points, theta, np.where(event, 0.0, values), hidden)


def valve_of(name: str) -> SlideValve:
    return ENGINES[name][1]


def widest_at(bench: Bench, points: Points) -> Array:
    """Return where each port opens widest as designed, degrees."""
    grid = np.linspace(0, 360, 72, endpoint=False)[None, :]
    xi = bench.gear.pose(CRANK, grid, points.reversers[:, None]).valve
    best: Array = grid[0, (points.sign[:, None] * xi).argmax(axis=1)]
    return best


def drawn(name: str, count: int, rng: np.random.Generator) -> Array:
    """Return hidden faults (T, n) evenly spread within what the workshop may be out by."""
    return rng.uniform(-1, 1, (count, len(bench_of(name).faults))) * bench_of(name).possible


def air_test(plan: list[Reading], values: Sequence[float | None], **changes: Any) -> AirTest:
    """Return the decisions of a builder who read these values."""
    readings = tuple(
        replace(one, number=v) if one.is_event else replace(one, length=v)
        for one, v in zip(plan, values, strict=True)
    )
    return AirTest(readings=readings, **changes)


def given_of(name: str) -> dict[str, Any]:
    """Return what the chapter is given besides the readings."""
    gear, valve = ENGINES[name]
    return {"gear": gear, "crank": CRANK, "valve": valve, "setting": ValveSetting(),
            "pressure": 5.5}  # fmt: skip


def values_of(found: Measured, plan: list[Reading], engine: int = 0) -> list[float | None]:
    """Return what is read on one engine, in the order of the plan; None where nothing happens."""
    values = [
        found.theta[engine, i] if one.is_event else found.target[engine, i]
        for i, one in enumerate(plan)
    ]
    return [float(v) if np.isfinite(v) else None for v in values]
