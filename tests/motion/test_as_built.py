"""Eccentrics with errors of their own: closure, the design within, independent equations."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import fsolve

from tests.motion import gears_for_tests as plain
from tests.motion import link_gears_for_tests as linked
from weighshaft.motion.as_built import as_built, has_two_eccentrics
from weighshaft.motion.frame import STEP
from weighshaft.motion.kernel import closure_error, prove
from weighshaft.motion.many import derivative, spread

THETA = np.linspace(0.0, 360.0, 36, endpoint=False)[None, :]
NOTCHES = np.array([1.0, 0.4, 0.0, -1.0])[:, None]
ERRORS = {
    "forward_throw_by": 0.11, "backward_throw_by": -0.08, "forward_advance_by": -3.4,
    "backward_advance_by": 1.9, "forward_rod_by": -0.31, "backward_rod_by": 0.22,
}  # fmt: skip
GEARS = {
    "direct": plain.DIRECT,
    "crossed": replace(plain.DIRECT, rods="crossed", arm_angle_forward=25, arm_angle_backward=-25),
    "rocker": plain.ROCKER,
    **{n: g for n, g in linked.GEARS.items() if n.endswith(("outside", "odd"))},
}
EACH = pytest.mark.parametrize("name", GEARS)


@EACH
def test_without_errors_it_moves_as_designed(name: str) -> None:
    gear = GEARS[name]
    designed = gear.pose(plain.CRANK, THETA, NOTCHES)
    built = as_built(gear).pose(plain.CRANK, THETA, NOTCHES)
    assert has_two_eccentrics(gear)
    assert built.valve == pytest.approx(designed.valve, abs=1e-9)
    for joint, place in designed.points.items():
        assert built.points[joint] == pytest.approx(place, abs=1e-8), joint


@EACH
def test_with_errors_every_bar_keeps_its_own_length(name: str) -> None:
    gear = as_built(GEARS[name], **ERRORS)
    prove(plain.CRANK, gear, NOTCHES[:, 0])
    pose = gear.pose(plain.CRANK, THETA, NOTCHES)
    assert closure_error(pose) < 1e-9
    bars = {(one, other): length for one, other, length in pose.bars}
    rod = gear.eccentric_rod
    assert bars["forward_eccentric", "forward_pin"] == rod - 0.31
    assert bars["backward_eccentric", "backward_pin"] == rod + 0.22
    throws = [np.linalg.norm(pose.points[f"{way}_eccentric"], axis=-1)
              for way in ("forward", "backward")]  # fmt: skip
    assert throws[0] == pytest.approx(gear.eccentric_throw + 0.11)
    assert throws[1] == pytest.approx(gear.eccentric_throw - 0.08)


def test_unequal_rods_agree_with_equations_solved_by_a_library() -> None:
    """Direct drive: three coordinates of the link from three lengths, by fsolve."""
    gear = as_built(plain.DIRECT, **ERRORS)
    pose = gear.pose(plain.CRANK, THETA, NOTCHES)
    half = gear.pin_spacing / 2
    for row, column in ((0, 3), (1, 11), (2, 20), (3, 31)):

        def at(joint: str, row: int = row, column: int = column) -> np.ndarray:
            place = pose.points[joint]
            return np.broadcast_to(place, (4, 36, 2))[row, column]

        def misses(unknown: np.ndarray) -> list[float]:
            x, y, tilt = unknown
            ahead, up = (
                np.array([np.cos(tilt), np.sin(tilt)]),
                np.array([-np.sin(tilt), np.cos(tilt)]),
            )
            upper = np.array([x, y]) + half * up
            lower = np.array([x, y]) - half * up
            hung = np.array([x, y]) + (gear.backset + gear.suspension_ahead) * ahead
            hung = hung + gear.suspension_above * up
            return [
                np.linalg.norm(upper - at("forward_eccentric")) - (gear.eccentric_rod - 0.31),
                np.linalg.norm(lower - at("backward_eccentric")) - (gear.eccentric_rod + 0.22),
                np.linalg.norm(hung - at("arm")) - gear.lifting_link,
            ]  # fmt: skip

        start = (at("forward_pin") + at("backward_pin")) / 2
        x, y, _ = fsolve(misses, [*start + 0.3, 0.02], xtol=1e-13)
        middle = (at("forward_pin") + at("backward_pin")) / 2
        assert [x, y] == pytest.approx(list(middle), abs=1e-8)


@EACH
@pytest.mark.parametrize("error", ERRORS)
def test_derivatives_by_each_error_agree_with_differences(name: str, error: str) -> None:
    gear, step = as_built(GEARS[name], **ERRORS), 1e-5
    now = getattr(gear, error)
    nudged = spread(gear, {error: np.array([now + 1j * STEP])})
    exact = derivative(nudged.pose(plain.CRANK, THETA, NOTCHES).valve)[0]
    ends = [replace(gear, **{error: now + by}).pose(plain.CRANK, THETA, NOTCHES).valve
            for by in (step, -step)]  # fmt: skip
    assert exact == pytest.approx((ends[0] - ends[1]) / (2 * step), abs=2e-6)


def test_other_gears_come_back_as_they_are() -> None:
    assert as_built(plain.OUTSIDE) is plain.OUTSIDE
    assert not has_two_eccentrics(plain.SLIP)
