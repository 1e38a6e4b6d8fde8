"""Hackworth's gear: against independent equations, where it locks, and its forces."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import fsolve

from tests.motion.gears_for_tests import near
from tests.motion.radial_gears_for_tests import (
    CRANK,
    GEARS,
    NOTCHES,
    TURN,
    guide_angle,
    off_the_guide,
    slope,
)
from weighshaft.motion import Crank, MotionLocks, solve_motion
from weighshaft.motion.hackworth import Hackworth
from weighshaft.sizes import SizeError

CURVED, STRAIGHT, BEYOND = (GEARS[n] for n in ("Hackworth", "Hackworth, straight",
                                               "Hackworth, beyond"))  # fmt: skip
KINDS = pytest.mark.parametrize("name", [name for name in GEARS if name.startswith("Hackworth")])


def by_coordinates(gear: Hackworth, theta: float, reverser: float, start: np.ndarray) -> float:
    """Solve die, valve rod's pin and valve together in Cartesian coordinates."""
    turn = np.radians(theta + gear.eccentric_angle)
    sheave = gear.eccentric_throw * np.array([np.cos(turn), -np.sin(turn)])
    slope = np.radians(gear.valve_angle)

    def misses(unknown: np.ndarray) -> list[float]:
        die, pin, v = unknown[:2], unknown[2:4], unknown[4]
        valve = np.array([v * np.cos(slope), gear.spindle_height + v * np.sin(slope)])
        rod, part = die - sheave, pin - sheave
        return [
            np.linalg.norm(rod) - gear.eccentric_rod,
            off_the_guide(gear, die, reverser),
            np.linalg.norm(part) - gear.valve_pin,
            (rod[0] * part[1] - rod[1] * part[0]) / gear.eccentric_rod,
            np.linalg.norm(valve - pin) - gear.valve_rod,
        ]

    solved, _, _, why = fsolve(misses, start, xtol=1e-14, full_output=True)
    assert np.abs(misses(solved)).max() < 1e-10, why
    return float(solved[4])


@settings(max_examples=25)
@given(
    gear=st.one_of(near(CURVED), near(STRAIGHT), near(BEYOND)),
    angle=st.floats(-8, 8), theta=st.floats(0, 360), reverser=st.floats(-1, 1),
)  # fmt: skip
def test_agrees_with_equations_in_cartesian_coordinates(
    gear: Hackworth, angle: float, theta: float, reverser: float
) -> None:
    gear = replace(gear, valve_angle=angle)
    motion = solve_motion(CRANK, gear, [theta], reverser)
    at = {name: np.round(point[0]) for name, point in motion.points.items()}
    start = np.array([*at["die"], *at["valve_pin"], round(motion.valve[0])])
    theirs = by_coordinates(gear, theta, reverser, start)
    assert motion.valve[0] == pytest.approx(theirs, abs=1e-9)


@KINDS
def test_inclined_spindle_is_the_gear_turned_about_the_axle(name: str) -> None:
    gear, angle = GEARS[name], 6.0
    turn = np.radians(angle)
    moved = replace(
        gear, valve_angle=angle, eccentric_angle=gear.eccentric_angle - angle,
        guide_x=gear.guide_x * np.cos(turn) - gear.guide_y * np.sin(turn),
        guide_y=gear.guide_x * np.sin(turn) + gear.guide_y * np.cos(turn),
        guide_angle_forward=gear.guide_angle_forward + angle,
        guide_angle_backward=gear.guide_angle_backward + angle,
        # the line's height is measured where it crosses x = 0
        spindle_height=gear.spindle_height / np.cos(turn),
    )  # fmt: skip
    level = solve_motion(CRANK, gear, TURN, NOTCHES).valve
    assert np.ptp(solve_motion(CRANK, moved, TURN, NOTCHES).valve - level) < 1e-9


def test_crank_and_connecting_rod_are_no_matter() -> None:
    other = solve_motion(Crank(30.0, 150.0), CURVED, TURN, NOTCHES).valve
    assert np.array_equal(solve_motion(CRANK, CURVED, TURN, NOTCHES).valve, other)


@pytest.mark.parametrize(
    ("gear", "change", "joint"),
    [
        (CURVED, {"eccentric_rod": 60.0}, "die"),
        (STRAIGHT, {"eccentric_rod": 10.0, "guide_x": 30.0}, "die"),
        (CURVED, {"valve_rod": 5.0}, "valve rod"),
        (STRAIGHT, {"guide_angle_forward": 200.0}, "guide"),
    ],
)
def test_a_gear_that_locks_says_where(
    gear: Hackworth, change: dict[str, float], joint: str
) -> None:
    with pytest.raises(MotionLocks) as locked:
        solve_motion(CRANK, replace(gear, **change), TURN, [1.0])
    assert joint in locked.value.joint
    assert locked.value.reverser == 1.0


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"guide_radius": None}, "curved guide needs it"),
        ({"guide_radius": 0.0}, "curved guide needs it"),
        ({"guide_x": 0.0, "guide_y": 0.0}, "off the axle"),
        ({"guide": "bent"}, "not one of"),
    ],
)
def test_contradictions_are_refused_in_words(change: dict[str, object], word: str) -> None:
    with pytest.raises(SizeError, match=word):
        replace(CURVED, **change)


@KINDS
@settings(max_examples=8)
@given(theta=st.floats(0, 360), reverser=st.floats(-1, 1), angle=st.floats(-6, 6))
def test_forces_obey_virtual_work(name: str, theta: float, reverser: float, angle: float) -> None:
    gear = replace(GEARS[name], valve_angle=angle)
    pose = gear.pose(CRANK, np.array([[theta]]), np.array([[reverser]]))
    force = {part: float(value[0, 0]) for part, value in gear.forces(pose).items()}

    def moves(**changes: float) -> float:
        return slope(gear, changes, theta, reverser)

    near_enough = {"rel": 1e-5, "abs": 1e-6}
    assert force["valve rod"] == pytest.approx(-moves(valve_rod=1), **near_enough)
    stretched = moves(eccentric_rod=1, valve_pin=1)
    assert force["eccentric rod"] == pytest.approx(-stretched, **near_enough)
    # the die bears on the guide square to it alone
    if gear.guide == "straight":
        along = guide_angle(gear, reverser)
    else:
        out = pose.points["die"][0, 0] - pose.points["link_centre"][0, 0]
        along = float(np.arctan2(*(-out if gear.guide_radius > 0 else out)[::-1])) + np.pi / 2
    push = force["die block"] * np.array([np.sin(along), -np.cos(along)])
    pushed = [moves(guide_x=1), moves(guide_y=1)]
    assert push == pytest.approx(pushed, **near_enough)
    radial = moves(eccentric_throw=1)
    around = moves(eccentric_angle=np.degrees(1 / gear.eccentric_throw))
    assert force["eccentric strap"] == pytest.approx(np.hypot(radial, around), **near_enough)


@KINDS
def test_forward_gear_admits_at_the_front_after_the_front_dead_centre(name: str) -> None:
    """Forward the front port opens further after its dead centre; backward it shuts."""
    gear = GEARS[name]
    sense = -1 if gear.admission == "outside" else 1
    centre = solve_motion(CRANK, gear, [0.0], 1.0).valve[0]
    for reverser in (1.0, -1.0):
        later = solve_motion(CRANK, gear, [20.0], reverser).valve[0]
        assert sense * reverser * (later - centre) > 0.2


def test_a_larger_share_of_the_rod_wants_a_larger_eccentric() -> None:
    """A pin beyond the die wants the smaller eccentric, which stands with the crank."""
    assert BEYOND.eccentric_throw < CURVED.eccentric_throw
    assert BEYOND.eccentric_angle == 0.0
    assert CURVED.eccentric_angle == 180.0
    assert BEYOND.valve_pin > BEYOND.eccentric_rod
