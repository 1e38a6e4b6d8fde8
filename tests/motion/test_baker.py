"""Baker's gear: independent equations, mirrors, scale, where it locks, forces, layout, picture.

No published layout with dimensions and events was found to test it by.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import fsolve

from tests.motion.gears_for_tests import near
from weighshaft.motion import (
    Crank,
    MotionLocks,
    SlideValve,
    ValveMotion,
    Wanted,
    equivalent_eccentric,
    events_over,
    sizes_for_events,
    solve_motion,
    valve_events,
)
from weighshaft.motion.baker import Baker
from weighshaft.motion.chapter import work
from weighshaft.motion.proportions import fitted, levelled
from weighshaft.pictures.motion import pictures
from weighshaft.sizes import SizeError

CRANK = Crank(40.0, 120.0)
TURN = np.linspace(0.0, 360.0, 72, endpoint=False)
NOTCHES = (1.0, 0.6, 0.0, -0.3, -1.0)
CLOSED = 1e-9
UNEVEN = 7.0  # per cent of the stroke, as for the other gears

WANTED = Wanted(cutoff=78.0, lead=0.2, port_opening=2.8)
SIZES = sizes_for_events(78.0, 0.2, 2.8)
OUTSIDE = Baker.laid_out(CRANK, SIZES, WANTED, "outside")
INSIDE = Baker.laid_out(CRANK, SIZES, WANTED, "inside")
# a rod bent at its foot, and a yoke that is not as long as its radius bars
BENT = replace(OUTSIDE, gear_rod_set=4.0, yoke_arm=19.0, radius_bar=20.5, drop_ahead=3.0).squared()
GEARS = {"outside": OUTSIDE, "inside": INSIDE, "bent": BENT}
EVERY = pytest.mark.parametrize("name", GEARS)

ENGINES = {
    "16 mm to the foot": (Crank(15.875, 45.0), 1.4, 0.05, 1.2),
    "five inch": (Crank(53.975, 190.5), 4.5, 0.3, 4.0),
}
_ANGLES = ("return_crank_angle", "yoke_angle_forward", "yoke_angle_backward", "bell_angle",
           "valve_angle")  # fmt: skip


def by_coordinates(
    gear: Baker, theta: float, reverser: float, points: dict[str, np.ndarray]
) -> float:
    """Solve all joints together in Cartesian coordinates, from a rounded picture."""
    turn = np.radians(theta + gear.return_crank_angle)
    pin = gear.return_crank_throw * np.array([np.cos(turn), -np.sin(turn)])
    share = (reverser + 1) / 2
    tilt = np.radians(share * gear.yoke_angle_forward + (1 - share) * gear.yoke_angle_backward)
    arm = gear.radius_bar if gear.yoke_arm is None else gear.yoke_arm
    yoke_pin = np.array([gear.yoke_x, gear.yoke_y]) + arm * np.array([np.cos(tilt), np.sin(tilt)])
    bell = np.array([gear.bell_x, gear.bell_y])
    rise = CRANK.throw * np.sin(np.radians(theta))
    gudgeon = CRANK.throw * np.cos(np.radians(theta)) + np.sqrt(CRANK.connecting_rod**2 - rise**2)
    drop = np.array([gudgeon + gear.drop_ahead, gear.drop_above])
    slope, angle = np.radians(gear.valve_angle), np.radians(gear.bell_angle)
    lever = gear.lever_upper + gear.lever_lower

    def misses(unknown: np.ndarray) -> list[float]:
        foot, middle, head, down, end, union = unknown[:12].reshape(6, 2)
        v = unknown[12]
        valve = np.array([v * np.cos(slope), gear.spindle_height + v * np.sin(slope)])
        up = (head - middle) / gear.gear_rod_upper
        bent = middle - gear.gear_rod_lower * up + gear.gear_rod_set * np.array([up[1], -up[0]])
        one = (head - bell) / gear.bell_arm
        other = (down - bell) / gear.bell_drop
        # one complex number turned is the other
        turned = complex(*one) * np.exp(1j * angle) - complex(*other)
        shared = valve + gear.lever_upper / lever * (union - valve) - end
        return [
            np.linalg.norm(foot - pin) - gear.eccentric_rod,
            np.linalg.norm(middle - yoke_pin) - gear.radius_bar,
            np.linalg.norm(head - middle) - gear.gear_rod_upper,
            *(bent - foot),
            np.linalg.norm(head - bell) - gear.bell_arm,
            turned.real, turned.imag,
            np.linalg.norm(end - down) - gear.valve_rod,
            *shared,
            np.linalg.norm(union - valve) - lever,
            np.linalg.norm(union - drop) - gear.union_link,
        ]  # fmt: skip

    names = ("rod_foot", "rod_middle", "rod_head", "bell_drop", "valve_rod", "union")
    start = np.array([*np.concatenate([np.round(points[n]) for n in names]),
                      np.round(points["valve"][0])])  # fmt: skip
    solved, _, _, why = fsolve(misses, start, xtol=1e-14, full_output=True)
    assert np.abs(misses(solved)).max() < 1e-10, why
    return float(solved[12])


def mirrored(gear: Baker) -> Baker:
    """Return the gear upside down, mirrored in the cylinder's line."""
    changed = {n: -getattr(gear, n) for n in ("yoke_y", "bell_y", "spindle_height", "drop_above",
                                              "gear_rod_set", *_ANGLES)}  # fmt: skip
    return replace(gear, **changed)


@EVERY
def test_every_bar_keeps_its_length(name: str) -> None:
    motion = solve_motion(CRANK, GEARS[name], TURN, NOTCHES)
    assert motion.residual < CLOSED
    assert {"yoke", "radius bars"} <= {part.name for part in Baker.parts}
    for one, other, length in motion.bars:
        away = np.linalg.norm(motion.points[one] - motion.points[other], axis=-1)
        assert np.abs(away - length).max() < CLOSED


@EVERY
@settings(max_examples=20)
@given(data=st.data())
def test_random_gears_close_or_say_where_they_lock(name: str, data: st.DataObject) -> None:
    gear = data.draw(near(GEARS[name], 0.06))
    try:
        motion = solve_motion(CRANK, gear, TURN, NOTCHES)
    except MotionLocks:
        return
    assert motion.residual < CLOSED
    assert all(np.isfinite(point).all() for point in motion.points.values())


@settings(max_examples=40)
@given(
    gear=st.one_of(near(OUTSIDE, 0.03), near(INSIDE, 0.03), near(BENT, 0.03)),
    angle=st.floats(-3, 3), theta=st.floats(0, 360), reverser=st.floats(-1, 1),
)  # fmt: skip
def test_agrees_with_equations_in_cartesian_coordinates(
    gear: Baker, angle: float, theta: float, reverser: float
) -> None:
    gear = replace(gear, valve_angle=angle)
    try:
        motion = solve_motion(CRANK, gear, [theta], reverser)
    except MotionLocks:
        return
    points = {joint: point[0] for joint, point in motion.points.items()}
    theirs = by_coordinates(gear, theta, reverser, points)
    assert motion.valve[0] == pytest.approx(theirs, abs=CLOSED)


@EVERY
@given(angle=st.floats(-2, 2), offset=st.floats(-1, 1))
@settings(max_examples=10)
def test_upside_down_the_gear_does_the_same_running_the_other_way(
    name: str, angle: float, offset: float
) -> None:
    gear = replace(GEARS[name], valve_angle=angle)
    crank, turned = Crank(40.0, 120.0, offset), Crank(40.0, 120.0, -offset)
    ours = solve_motion(crank, gear, TURN, NOTCHES)
    other = solve_motion(turned, mirrored(gear), -TURN, NOTCHES)
    assert other.valve == pytest.approx(ours.valve, abs=CLOSED)
    for joint in ("rod_foot", "rod_head", "union"):
        flipped = other.points[joint] * np.array([1.0, -1.0])
        assert flipped == pytest.approx(ours.points[joint], abs=CLOSED)


@EVERY
@given(by=st.floats(0.02, 50))
@settings(max_examples=10)
def test_all_lengths_grow_alike(name: str, by: float) -> None:
    gear = GEARS[name]
    longer = {
        n: by * value for n, value in vars(gear).items()
        if isinstance(value, float) and n not in _ANGLES
    }  # fmt: skip
    ours = solve_motion(CRANK, gear, TURN, NOTCHES).valve
    other = solve_motion(Crank(by * 40.0, by * 120.0), replace(gear, **longer), TURN, NOTCHES).valve
    assert other == pytest.approx(by * ours, rel=1e-9, abs=by * CLOSED)


@pytest.mark.parametrize(
    ("gear", "change", "joint"),
    [
        (OUTSIDE, {"eccentric_rod": 90.0}, "radius bars"),
        (OUTSIDE, {"return_crank_throw": 25.0}, "radius bars"),
        (OUTSIDE, {"bell_arm": 1.0}, "gear connecting rod"),
        (INSIDE, {"valve_rod": 3.0}, "valve rod"),
        (OUTSIDE, {"union_link": 3.0}, "union link"),
    ],
)
def test_a_gear_that_locks_says_where(gear: Baker, change: dict[str, float], joint: str) -> None:
    with pytest.raises(MotionLocks) as locked:
        solve_motion(CRANK, replace(gear, **change), TURN, [1.0])
    assert joint in locked.value.joint
    assert locked.value.reverser == 1.0


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"lever_upper": -60.0, "lever_lower": 50.0}, "has to exceed the 60 mm"),
        ({"bell_x": OUTSIDE.yoke_x, "bell_y": OUTSIDE.yoke_y}, "off the yoke's"),
        ({"radius_bar": 0.0}, "Radius bars"),
    ],
)
def test_contradictions_are_refused_in_words(change: dict[str, float], word: str) -> None:
    with pytest.raises(SizeError, match=word):
        replace(OUTSIDE, **change)


@EVERY
@settings(max_examples=12)
@given(theta=st.floats(0, 360), reverser=st.floats(-1, 1), angle=st.floats(-2, 2))
def test_forces_obey_virtual_work(name: str, theta: float, reverser: float, angle: float) -> None:
    gear = replace(GEARS[name], valve_angle=angle)
    pose = gear.pose(CRANK, np.array([[theta]]), np.array([[reverser]]))
    force = {part: float(value[0, 0]) for part, value in gear.forces(pose).items()}

    def moves(field: str, step: float = 1e-4) -> float:
        def valve(by: float) -> float:
            moved = replace(gear, **{field: getattr(gear, field) + by})
            # the yoke's arm is not to grow with the radius bars
            moved = replace(moved, yoke_arm=gear.yoke_arm or gear.radius_bar)
            one = moved.pose(CRANK, np.array([[theta]]), np.array([[reverser]]))
            return float(one.valve[0, 0])

        return (valve(step) - valve(-step)) / (2 * step)

    near_enough = {"rel": 1e-5, "abs": 1e-6}
    for part, field in (
        ("eccentric rod", "eccentric_rod"), ("radius bars", "radius_bar"),
        ("gear connecting rod", "gear_rod_upper"), ("valve rod", "valve_rod"),
        ("union link", "union_link"),
    ):  # fmt: skip
        assert force[part] == pytest.approx(-moves(field), **near_enough), part
    pivot = np.hypot(moves("bell_x"), moves("bell_y"))
    assert force["bell crank's pivot"] == pytest.approx(pivot, **near_enough)


@pytest.mark.parametrize("name", ["outside", "inside"])
def test_forward_gear_admits_at_the_front_after_the_front_dead_centre(name: str) -> None:
    gear = GEARS[name]
    sense = -1 if gear.admission == "outside" else 1
    centre = solve_motion(CRANK, gear, [0.0], 1.0).valve[0]
    for reverser in (1.0, -1.0):
        later = solve_motion(CRANK, gear, [20.0], reverser).valve[0]
        assert sense * reverser * (later - centre) > 0.2


@pytest.mark.parametrize("admission", ["outside", "inside"])
@pytest.mark.parametrize("engine", ENGINES)
def test_a_gear_laid_out_and_fitted_gives_what_was_wanted(engine: str, admission: str) -> None:
    crank, port, lead, opening = ENGINES[engine]
    wanted = Wanted(cutoff=78.0, lead=lead, port_opening=opening)
    sizes = sizes_for_events(78.0, lead, opening)
    valve = SlideValve(
        sizes.steam_lap, 0.0, port, admission=admission, bridge=port, exhaust_port=2 * port
    )
    gear = Baker.laid_out(crank, sizes, wanted, admission)
    # the layout alone is near: an eighth of the travel, a tenth of the throw in the lead
    first = valve_events(crank, valve, gear, 1.0)
    assert first.travel == pytest.approx(sizes.travel, rel=0.125)
    assert (first.front.lead + first.back.lead) / 2 == pytest.approx(lead, abs=0.1 * sizes.throw)
    for again in (False, True):
        gear, lap = fitted(gear, crank, valve, wanted)
        valve = replace(valve, steam_lap=lap)
        if not again:
            gear = levelled(gear, crank, valve)
    events = valve_events(crank, valve, gear, 1.0)
    assert events.front.cutoff
    assert events.back.cutoff
    mean = (events.front.cutoff.percent + events.back.cutoff.percent) / 2
    assert mean == pytest.approx(78.0, abs=0.01)
    opens = min(events.front.port_opening, events.back.port_opening)
    assert opens == pytest.approx(opening, abs=1e-3)
    for one in events_over(crank, valve, gear, (1.0, 0.75, 0.5, 0.0, -0.5, -0.75, -1.0)):
        assert one.front.lead == pytest.approx(lead, abs=1e-3)
        assert one.back.lead == pytest.approx(lead, abs=1e-3)
        if abs(one.reverser) >= 0.75:
            assert one.front.cutoff
            assert one.back.cutoff
            assert abs(one.front.cutoff.percent - one.back.cutoff.percent) < UNEVEN
        elif one.reverser:
            assert one.front.cutoff
            assert one.back.cutoff
            assert abs(one.front.cutoff.percent - one.back.cutoff.percent) < 1.5 * UNEVEN
    motion = ValveMotion(valve=valve, gear=gear, valve_type="slide")
    result = work(motion, crank=crank, pressure=4.0)
    assert not [finding for finding in result.findings if finding.level == "stop"]
    assert result.die_slip is None


@pytest.mark.parametrize("admission", ["outside", "inside"])
def test_what_wanted_events_call_for_brings_a_spoilt_gear_near_them(admission: str) -> None:
    gear = GEARS[admission]
    throw, upper = gear.tuning
    spoilt = gear.tuned(0.7 * throw, 1.2 * upper)
    valve = solve_motion(CRANK, spoilt, TURN, 1.0).valve
    now = equivalent_eccentric(TURN, valve if admission == "outside" else -valve)
    wishes = {name: value for name, value, why in spoilt.called_for(SIZES, now, WANTED, CRANK)}
    mended = spoilt.tuned(wishes["return_crank_throw"], wishes["lever_upper"])
    events = valve_events(
        CRANK, SlideValve(SIZES.steam_lap, 0.0, 3.0, admission=admission), mended, 1.0
    )
    assert events.travel == pytest.approx(SIZES.travel, rel=0.1)
    mean_lead = (events.front.lead + events.back.lead) / 2
    assert mean_lead == pytest.approx(0.2, abs=0.05 * SIZES.throw)


@EVERY
def test_the_moving_picture_shows_yoke_bars_and_bell_crank(name: str) -> None:
    gear = GEARS[name]
    valve = SlideValve(2.0, 0.0, 3.0, admission=gear.admission)
    motion = ValveMotion(valve=valve, gear=gear, valve_type="slide")
    scene = pictures(motion, work(motion, crank=CRANK, pressure=4.0))[0]
    shown = {one.part for one in scene.moving}
    assert {part.name for part in Baker.parts} <= shown
    assert "Baker's gear" in scene.title
