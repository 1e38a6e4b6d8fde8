"""Gooch's gear alone: its lead, its upright link, and where it locks."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.link_gears_for_tests import CRANK, GEARS, NOTCHES, TURN
from weighshaft.motion import MotionLocks, solve_motion
from weighshaft.motion.gooch import Gooch

OPEN = GEARS["Gooch, open, outside"]
LAID_OUT = pytest.mark.parametrize(
    "name", [n for n in GEARS if n.startswith("Gooch") and n != "Gooch, odd"]
)


@LAID_OUT
@pytest.mark.parametrize("angle", [0.0, 5.0])
def test_link_stands_upright_on_the_dead_centres_and_the_lead_is_constant(
    name: str, angle: float
) -> None:
    """Lifting the rod through there does not move the valve, with rods of any length."""
    gear = replace(GEARS[name], valve_angle=angle)
    x, y = gear.upright_hanger()
    gear = replace(gear, hanger_x=x, hanger_y=y)
    motion = solve_motion(CRANK, gear, [0.0, 180.0], NOTCHES)
    link = motion.points["forward_pin"] - motion.points["backward_pin"]
    way = np.array([np.cos(np.radians(angle)), np.sin(np.radians(angle))])
    assert link @ way == pytest.approx(0, abs=1e-9)
    assert np.ptp(motion.valve, axis=0) == pytest.approx(0, abs=1e-9)
    assert np.ptp(motion.points["die"], axis=0).max() > gear.pin_spacing / 2


@LAID_OUT
def test_another_throw_and_advance_leave_the_lead_constant(name: str) -> None:
    gear = GEARS[name]
    gear = gear.tuned(1.1 * gear.eccentric_throw, gear.advance + 4)
    assert np.ptp(solve_motion(CRANK, gear, [0.0, 180.0], NOTCHES).valve, axis=0) == pytest.approx(
        0, abs=1e-9
    )


def test_neighbours_hang_upright_too() -> None:
    tried = OPEN.neighbours()
    assert len({one.suspension_ahead for one in tried}) == len(tried) > 10
    for one in (tried[0], tried[-1]):
        valve = solve_motion(CRANK, one, [0.0, 180.0], NOTCHES).valve
        assert np.ptp(valve, axis=0) == pytest.approx(0, abs=1e-9)


def test_the_slot_is_struck_with_the_radius_rod_unless_told() -> None:
    told = replace(OPEN, link_radius=OPEN.radius_rod)
    assert np.array_equal(
        solve_motion(CRANK, OPEN, TURN, NOTCHES).valve,
        solve_motion(CRANK, told, TURN, NOTCHES).valve,
    )
    # with another radius the valve moves as the die is lifted
    other = replace(OPEN, link_radius=0.8 * OPEN.radius_rod)
    assert np.ptp(solve_motion(CRANK, other, [0.0], NOTCHES).valve) > 0.1


@pytest.mark.parametrize(
    ("change", "joint"),
    [
        ({"hanger_y": 200.0}, "suspension link"),
        (
            {"radius_rod": 15.0, "link_radius": 80.0, "lifting_pin": 2.0, "spindle_height": -8.0},
            "radius rod",
        ),
        ({"weighshaft_y": 110.0}, "lifting link"),
        ({"eccentric_rod": 19.0}, "eccentric rods"),
    ],
)
def test_a_gear_that_locks_says_where(change: dict[str, float], joint: str) -> None:
    with pytest.raises(MotionLocks) as locked:
        solve_motion(CRANK, replace(OPEN, **change), TURN, [1.0])
    assert isinstance(OPEN, Gooch)
    assert joint in locked.value.joint
    assert 0 <= locked.value.crank_angle < 360
    assert locked.value.reverser == 1.0
