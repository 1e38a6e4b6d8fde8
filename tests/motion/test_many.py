"""Rows of candidates and derivatives: the same as one gear at a time, and as finite differences."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from tests.motion.gears_for_tests import CRANK
from weighshaft.motion import GEARS, Wanted, sizes_for_events
from weighshaft.motion.many import derivative, nudged, spread

THETA = np.linspace(0.0, 360.0, 24, endpoint=False)[None, :]
NOTCHES = np.array([[1.0], [0.4], [-0.7]])
WANTED = Wanted(cutoff=78.0, lead=0.2, port_opening=2.8)
SIZES = sizes_for_events(78.0, 0.2, 2.8)


def laid_out() -> dict[str, Any]:
    """Return a gear of every kind, and the variants whose poses go other ways."""
    made: dict[str, Any] = {
        f"{kind}, {admission}": gear.laid_out(CRANK, SIZES, WANTED, admission)
        for kind, gear in GEARS.items()
        for admission in ("outside", "inside")
        if (kind, admission) != ("oscillating", "inside")  # it has no valve
    }
    made["rocker"] = GEARS["Stephenson"].laid_out(CRANK, SIZES, WANTED, "outside", rocker=True)
    made["slotted arm"] = GEARS["Walschaerts"].laid_out(
        CRANK, SIZES, WANTED, "inside", slotted=True
    )
    made["straight guide"] = GEARS["Joy"].laid_out(
        CRANK, SIZES, WANTED, "outside", guide="straight"
    )
    made["curved guide"] = GEARS["Hackworth"].laid_out(
        CRANK, SIZES, WANTED, "outside", guide="curved"
    )
    made["inclined"] = replace(
        made["Walschaerts, outside"], valve_angle=3.0, drop_ahead=1.0, tail_ahead=-2.0
    )
    return made


ALL = laid_out()


def lengths(sizes: Any) -> tuple[str, ...]:
    """Return the fields that hold a number."""
    return tuple(name for name, value in vars(sizes).items() if isinstance(value, (int, float)))


@pytest.mark.parametrize("name", ALL)
def test_candidates_are_the_gears_one_by_one(name: str) -> None:
    gear, rng = ALL[name], np.random.default_rng(5)
    fields = lengths(gear)
    rows = {
        field: getattr(gear, field) * (1 + 0.004 * rng.uniform(-1, 1, 5))
        + 0.01 * rng.uniform(-1, 1, 5)
        for field in fields
    }
    together = spread(gear, rows).pose(CRANK, THETA, NOTCHES)
    for i in range(5):
        alone = replace(gear, **{field: float(rows[field][i]) for field in fields})
        one = alone.pose(CRANK, THETA, NOTCHES)
        shape = (3, 24)
        assert np.allclose(
            np.broadcast_to(together.valve, (5, *shape))[i], one.valve, rtol=0, atol=1e-9
        )
        for joint, place in one.points.items():
            rowed = np.broadcast_to(together.points[joint], (5, *shape, 2))[i]
            assert np.allclose(rowed, place, rtol=0, atol=1e-9), joint
        for joint, margin in one.margins.items():
            rowed = np.broadcast_to(together.margins[joint], (5, *shape))[i]
            assert np.allclose(rowed, margin, rtol=0, atol=1e-7), joint


@pytest.mark.parametrize("name", ALL)
def test_derivatives_are_those_of_finite_differences(name: str) -> None:
    """Central differences of fourth order, good to some 1e-9 of the valve's movement."""
    gear = ALL[name]
    fields = lengths(gear)
    exact = derivative(nudged(gear, fields).pose(CRANK, THETA, NOTCHES).valve)
    exact = np.broadcast_to(exact, (len(fields), 3, 24))
    for i, field in enumerate(fields):
        value, step = getattr(gear, field), 1e-3

        def valve(by: float, field: str = field, value: float = value) -> Any:
            moved = spread(gear, {field: np.array(value + by)})
            return moved.pose(CRANK, THETA, NOTCHES).valve

        near = (valve(step) - valve(-step)) / (2 * step)
        far = (valve(2 * step) - valve(-2 * step)) / (4 * step)
        slope = (4 * near - far) / 3
        assert np.allclose(exact[i], slope, rtol=1e-6, atol=2e-7), field


@pytest.mark.parametrize("name", ["Walschaerts, outside", "Joy, outside", "Stephenson, outside"])
def test_derivatives_by_the_crank(name: str) -> None:
    """Stroke, connecting rod and offset move a gear that takes its motion from the crosshead."""
    gear, fields = ALL[name], ("stroke", "connecting_rod", "cylinder_offset")
    pose = gear.pose(nudged(CRANK, fields), THETA, NOTCHES)
    exact = np.broadcast_to(derivative(pose.valve), (3, 3, 24))
    for i, field in enumerate(fields):

        def valve(by: float, field: str = field) -> Any:
            crank = replace(CRANK, **{field: getattr(CRANK, field) + by})
            return gear.pose(crank, THETA, NOTCHES).valve

        slope = (valve(1e-4) - valve(-1e-4)) / 2e-4
        assert np.allclose(exact[i], slope, rtol=1e-6, atol=1e-6), field
