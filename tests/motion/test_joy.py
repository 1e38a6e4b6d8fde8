"""Joy's gear: against independent equations, where it locks, and its forces."""

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
    TURN,
    off_the_guide,
    slope,
)
from weighshaft.motion import Crank, MotionLocks, solve_motion
from weighshaft.motion.joy import Joy
from weighshaft.sizes import SizeError

CURVED, STRAIGHT, INSIDE = (GEARS[name] for name in ("Joy", "Joy, straight", "Joy, inside"))
KINDS = pytest.mark.parametrize("name", [name for name in GEARS if name.startswith("Joy")])
JOINTS = ("gudgeon", "rod_pin", "anchor_pin", "lever_pin", "die", "valve_pin", "valve")


def by_coordinates(
    crank: Crank, gear: Joy, theta: float, reverser: float, start: np.ndarray
) -> np.ndarray:
    """Solve all joints together in Cartesian coordinates, by lengths and straight lines alone."""
    turn = np.radians(theta)
    big_end = crank.throw * np.array([np.cos(turn), -np.sin(turn)])
    anchor = np.array([gear.anchor_x, gear.anchor_y])
    line = np.tan(np.radians(gear.valve_angle))

    def across(a: np.ndarray, b: np.ndarray) -> float:
        return float(a[0] * b[1] - a[1] * b[0])

    def misses(unknown: np.ndarray) -> list[float]:
        gudgeon, pin, foot, lever, die, end, valve = unknown.reshape(7, 2)
        rod, at = gudgeon - big_end, pin - gudgeon
        return [
            gudgeon[1] - crank.cylinder_offset,
            np.linalg.norm(rod) - crank.connecting_rod,
            at @ rod / crank.connecting_rod + gear.rod_pin,
            across(rod, at) / crank.connecting_rod - gear.rod_pin_above,
            np.linalg.norm(foot - pin) - gear.correcting_link,
            np.linalg.norm(foot - anchor) - gear.anchor_link,
            (lever - pin) @ (foot - pin) / gear.correcting_link - gear.lever_pin,
            across(lever - pin, foot - pin) / gear.correcting_link,
            np.linalg.norm(die - lever) - gear.lever_lower,
            off_the_guide(gear, die, reverser),
            (end - die) @ (die - lever) / gear.lever_lower - gear.lever_upper,
            across(end - die, die - lever) / gear.lever_lower,
            np.linalg.norm(valve - end) - gear.valve_rod,
            valve[1] - gear.spindle_height - line * valve[0],
        ]

    solved, _, _, why = fsolve(misses, start, xtol=1e-14, full_output=True)
    assert np.abs(misses(solved)).max() < 1e-10, why
    joints: np.ndarray = solved.reshape(7, 2)
    return joints


@settings(max_examples=25)
@given(
    gear=st.one_of(near(CURVED), near(STRAIGHT), near(INSIDE)), raised=st.floats(-4, 4),
    angle=st.floats(-8, 8), offset=st.floats(-4, 4), theta=st.floats(0, 360),
    reverser=st.floats(-1, 1),
)  # fmt: skip
def test_agrees_with_equations_in_cartesian_coordinates(
    gear: Joy, raised: float, angle: float, offset: float, theta: float, reverser: float
) -> None:
    gear = replace(gear, valve_angle=angle, rod_pin_above=raised)
    crank = replace(CRANK, cylinder_offset=offset)
    try:
        motion = solve_motion(crank, gear, [theta], reverser)
    except MotionLocks:
        return
    ours = np.array([motion.points[joint][0] for joint in JOINTS])
    # the start is the picture to a millimetre, not our figures
    theirs = by_coordinates(crank, gear, theta, reverser, np.round(ours).ravel())
    assert ours == pytest.approx(theirs, abs=1e-8)
    along = theirs[-1, 0] / np.cos(np.radians(angle))
    assert motion.valve[0] == pytest.approx(along, abs=1e-8)


@pytest.mark.parametrize(
    ("gear", "change", "joint"),
    [
        (CURVED, {"anchor_link": 10.0}, "anchor link"),
        (CURVED, {"guide_x": CURVED.guide_x + 60.0}, "die"),
        (STRAIGHT, {"guide_x": STRAIGHT.guide_x + 60.0}, "die"),
        (CURVED, {"valve_rod": 5.0, "guide_radius": 70.0}, "valve rod"),
        (STRAIGHT, {"guide_angle_forward": -20.0}, "guide"),
    ],
)
def test_a_gear_that_locks_says_where(gear: Joy, change: dict[str, float], joint: str) -> None:
    with pytest.raises(MotionLocks) as locked:
        solve_motion(CRANK, replace(gear, **change), TURN, [1.0])
    assert joint in locked.value.joint
    assert locked.value.reverser == 1.0


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"guide_radius": 0.0}, "0 will not do"),
        ({"lever_upper": -CURVED.lever_lower - 1}, "between die and correcting link"),
        ({"correcting_link": 0.0}, "Correcting link"),
    ],
)
def test_contradictions_are_refused_in_words(change: dict[str, float], word: str) -> None:
    with pytest.raises(SizeError, match=word):
        replace(CURVED, **change)


def test_anchor_link_behind_the_rods_pin_serves_as_well() -> None:
    """The correcting link hangs below either way; the two anchors differ by their arcs alone."""
    middle = sum(CRANK.gudgeon_ends) / 2 - CURVED.rod_pin
    behind = replace(CURVED, anchor_x=2 * middle - CURVED.anchor_x)
    ahead, other = (solve_motion(CRANK, gear, TURN, 1.0) for gear in (CURVED, behind))
    for motion in (ahead, other):
        assert (motion.points["anchor_pin"][:, 1] < motion.points["rod_pin"][:, 1]).all()
    assert np.abs(ahead.valve - other.valve).max() < 0.1 * np.ptp(ahead.valve)


@pytest.mark.parametrize("gear", [CURVED, STRAIGHT, INSIDE])
def test_die_goes_equally_far_above_and_below_the_middle_of_a_layout(gear: Joy) -> None:
    die = solve_motion(CRANK, gear, [90.0, 270.0], 0.0).die
    assert die is not None
    assert die[0] == pytest.approx(-die[1], abs=1e-6)
    assert abs(die[0]) == pytest.approx(CRANK.throw * gear.rod_pin / 120.0, rel=0.05)


@KINDS
@settings(max_examples=8)
@given(theta=st.floats(0, 360), reverser=st.floats(-1, 1), angle=st.floats(-6, 6))
def test_forces_obey_virtual_work(name: str, theta: float, reverser: float, angle: float) -> None:
    gear = replace(GEARS[name], valve_angle=angle, guide_radius=75.0)
    pose = gear.pose(CRANK, np.array([[theta]]), np.array([[reverser]]))
    force = {part: float(value[0, 0]) for part, value in gear.forces(pose).items()}
    at = {name: np.broadcast_to(point, (1, 1, 2))[0, 0] for name, point in pose.points.items()}

    def moves(**changes: float) -> float:
        return slope(gear, changes, theta, reverser)

    near_enough = {"rel": 1e-5, "abs": 1e-6}
    assert force["valve rod"] == pytest.approx(-moves(valve_rod=1), **near_enough)
    assert force["anchor link"] == pytest.approx(-moves(anchor_link=1), **near_enough)
    pushed = np.array([moves(guide_x=1), moves(guide_y=1)])
    assert abs(force["die block"]) == pytest.approx(np.linalg.norm(pushed), **near_enough)
    assert force["die block"] * pushed[0] >= 0
    on_rod = np.hypot(moves(rod_pin=1), moves(rod_pin_above=1))
    assert force["pin on the connecting rod"] == pytest.approx(on_rod, **near_enough)
    # what die and valve rod leave of the lever comes through its pin
    rod = (at["valve"] - at["valve_pin"]) / gear.valve_rod
    rest = np.linalg.norm(force["valve rod"] * rod + pushed)
    assert force["lever's pin"] == pytest.approx(rest, **near_enough)


@KINDS
def test_forward_gear_admits_at_the_front_after_the_front_dead_centre(name: str) -> None:
    """Forward the front port opens further after its dead centre; backward it shuts."""
    gear = GEARS[name]
    sense = -1 if gear.admission == "outside" else 1
    centre = solve_motion(CRANK, gear, [0.0], 1.0).valve[0]
    for reverser in (1.0, -1.0):
        later = solve_motion(CRANK, gear, [20.0], reverser).valve[0]
        assert sense * reverser * (later - centre) > 0.2


def test_the_valve_rods_length_strikes_the_guide_unless_told_otherwise() -> None:
    told = replace(CURVED, guide_radius=CURVED.valve_rod)
    ours, theirs = (solve_motion(CRANK, gear, TURN, [1.0, -1.0]).valve for gear in (CURVED, told))
    assert np.array_equal(ours, theirs)
