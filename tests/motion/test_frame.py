"""Crank, dead centres, spindle and reverser against elementary geometry."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighshaft.motion import Crank, MotionLocks
from weighshaft.motion.frame import Spindle, eccentric_leads, pin
from weighshaft.sizes import SizeError

THROW = st.floats(1.0, 60.0)
RATIO = st.floats(2.2, 12.0)
SHIFT = st.floats(-0.9, 0.9)


@given(THROW, RATIO, SHIFT)
def test_dead_centres_are_where_crank_and_rod_are_in_line(r: float, n: float, shift: float) -> None:
    crank = Crank(2 * r, n * r, shift * r)
    for theta, reach in zip(crank.dead_centres, (n * r + r, n * r - r), strict=True):
        x = float(crank.gudgeon(theta))
        assert math.hypot(x, shift * r) == pytest.approx(reach, rel=1e-12)


@given(THROW, RATIO, SHIFT)
def test_piston_runs_its_true_stroke_and_no_further(r: float, n: float, shift: float) -> None:
    crank = Crank(2 * r, n * r, shift * r)
    fraction = crank.from_front(np.linspace(0, 360, 721))
    assert fraction.min() >= -1e-12
    assert fraction.max() <= 1 + 1e-12
    at = crank.from_front(np.array(crank.dead_centres))
    assert at == pytest.approx([0.0, 1.0], abs=1e-12)


@given(THROW, RATIO, SHIFT)
def test_slope_is_how_fast_the_gudgeon_pin_moves(r: float, n: float, shift: float) -> None:
    crank = Crank(2 * r, n * r, shift * r)
    degrees, step = np.arange(0.0, 360.0, 7.0), 1e-3
    moved = crank.gudgeon(degrees + step) - crank.gudgeon(degrees - step)
    assert crank.slope(degrees) == pytest.approx(moved / np.radians(2 * step), abs=1e-6 * r)
    assert crank.slope(np.array(crank.dead_centres)) == pytest.approx([0.0, 0.0], abs=1e-9 * r)


def test_level_cylinder_has_its_dead_centres_half_a_turn_apart() -> None:
    crank = Crank(40.0, 120.0)
    assert crank.dead_centres == pytest.approx((0.0, 180.0))
    assert crank.piston_stroke == pytest.approx(40.0)


def test_running_forward_turns_clockwise() -> None:
    at_start, later = pin(10.0, 0.0, np.radians(np.array([0.0, 90.0])))
    assert at_start == pytest.approx([10.0, 0.0])
    assert later == pytest.approx([0.0, -10.0], abs=1e-12)


def test_short_connecting_rod_is_refused_where_it_locks() -> None:
    with pytest.raises(MotionLocks, match="gudgeon pin") as locked:
        Crank(40.0, 22.0, 5.0)
    assert locked.value.crank_angle == 90.0


@pytest.mark.parametrize("stroke", [0.0, -1.0, math.nan, math.inf])
def test_unusable_stroke_is_refused_by_name(stroke: float) -> None:
    with pytest.raises(SizeError, match="Stroke"):
        Crank(stroke, 100.0)


def test_eccentrics_lead_and_follow_the_crank_by_a_quarter_and_the_advance() -> None:
    forward, backward = eccentric_leads(25.0, 0.0, turned=False)
    assert math.degrees(forward) == pytest.approx(115.0)
    assert math.degrees(backward) == pytest.approx(-115.0)
    forward, _ = eccentric_leads(25.0, 4.0, turned=True)
    assert math.degrees(forward) == pytest.approx(115.0 + 180.0 - 4.0)


@given(st.floats(-20, 20), st.floats(-20, 20), st.floats(60, 200), st.floats(-30, 30))
def test_spindle_is_reached_by_a_bar_of_the_length_given(
    x: float, y: float, length: float, angle: float
) -> None:
    spindle = Spindle(7.0, angle)
    xi, margin = spindle.reach(np.array([x, y]), length)
    assert np.linalg.norm(spindle.at(xi) - [x, y]) == pytest.approx(length, rel=1e-12)
    assert margin > 0
