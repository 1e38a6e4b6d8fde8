"""A reverser for a gear that locks: told in words, without a figure."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from tests.motion.gears_for_tests import CRANK, OUTSIDE
from weighshaft.motion import MotionLocks, SlideValve, ValveSetting, solve_motion
from weighshaft.reversing import Lever, Reversing, Screw, Servo, work
from weighshaft.sizes import sizes_of

VALVE = SlideValve(3.0, 0.0, 2.5)


@pytest.mark.parametrize("by", [Lever(), Screw(), Servo()], ids=lambda by: by.kind)
@pytest.mark.parametrize("share", [0.2, 0.7, 1.4])
def test_a_gear_that_locks_is_told_and_gives_no_figures(
    by: Lever | Screw | Servo, share: float
) -> None:
    gear = replace(OUTSIDE, lifting_link=share * OUTSIDE.lifting_link)
    try:
        solve_motion(CRANK, gear, [0.0], [1.0, 0.0, -1.0])
        locks = False
    except MotionLocks:
        locks = True
    result = work(
        Reversing(worked_by=by), crank=CRANK, gear=gear, valve=VALVE, setting=ValveSetting(),
        number=2, crank_angle=90.0, valve_force=5.0,
    )  # fmt: skip
    stops = [one for one in result.findings if one.level == "stop" and "locks" in one.says]
    assert bool(stops) is locks
    if locks:
        assert result.holding_torque is None
    for name in sizes_of(type(result)):
        value = getattr(result, name)
        assert value is None or math.isfinite(value), name
