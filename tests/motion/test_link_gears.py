"""What holds of Gooch's and of Allan's gear alike: closure, independent equations, mirrors,
scale, forces, layout, pictures."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.motion.gears_for_tests import near
from tests.motion.link_gears_for_tests import (
    CRANK,
    GEARS,
    NOTCHES,
    TURN,
    by_coordinates,
    inclined,
    mirrored,
    off_the_slot,
    scaled,
    sheaves,
    slope,
)
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
from weighshaft.motion.allan import Allan
from weighshaft.motion.chapter import work
from weighshaft.motion.gooch import Gooch
from weighshaft.motion.proportions import fitted, levelled
from weighshaft.pictures.motion import pictures
from weighshaft.sizes import SizeError

CLOSED = 1e-9
UNEVEN = 7.0  # per cent of the stroke, as for the other gears
ENGINES = {
    "16 mm to the foot": (Crank(15.875, 45.0), 1.4, 0.05, 1.2),
    "metre gauge": (Crank(20.0, 62.0), 1.6, 0.1, 1.4),
    "three and a half inch": (Crank(41.275, 127.0), 3.0, 0.1, 2.8),
    "five inch": (Crank(53.975, 190.5), 4.5, 0.3, 4.0),
}
EACH = pytest.mark.parametrize("name", GEARS)
BOTH = pytest.mark.parametrize("kind", [Gooch, Allan])


@EACH
def test_every_bar_keeps_its_length_and_the_die_its_slot(name: str) -> None:
    gear = GEARS[name]
    motion = solve_motion(CRANK, gear, TURN, NOTCHES)
    assert motion.residual < CLOSED
    for one, other, length in motion.bars:
        away = np.linalg.norm(motion.points[one] - motion.points[other], axis=-1)
        assert np.abs(away - length).max() < CLOSED
    up = 1 if gear.rods == "open" else -1
    for row in range(len(NOTCHES)):
        for column in range(len(TURN)):
            at = {joint: point[row, column] for joint, point in motion.points.items()}
            above = up * (at["forward_pin"] - at["backward_pin"]) / gear.pin_spacing
            ahead = np.array([above[1], -above[0]])
            assert abs(off_the_slot(gear, at["link"], ahead, at["die"])) < CLOSED
            along = (
                at["lifting_pin"]
                - at["die"]
                - gear.lifting_pin / gear.radius_rod * (at["valve"] - at["die"])
            )
            assert np.abs(along).max() < CLOSED


@EACH
def test_die_is_measured_along_the_slot_towards_its_upper_end(name: str) -> None:
    gear = GEARS[name]
    motion = solve_motion(CRANK, gear, TURN, NOTCHES)
    away = motion.points["die"] - motion.points["link"]
    chord = np.linalg.norm(away, axis=-1)
    if isinstance(gear, Gooch):
        radius = gear.link_radius or gear.radius_rod
        chord = 2 * radius * np.arcsin(chord / (2 * radius))
    assert motion.die == pytest.approx(np.sign(away[..., 1]) * chord, abs=1e-8)
    forward = 1 if gear.rods == "open" else -1  # the forward rod takes that end
    assert np.all(forward * motion.die[0] > 0)
    assert np.all(forward * motion.die[-1] < 0)


@EACH
@settings(max_examples=15)
@given(data=st.data())
def test_random_gears_close_or_say_where_they_lock(name: str, data: st.DataObject) -> None:
    gear = data.draw(near(GEARS[name], 0.06))
    try:
        motion = solve_motion(CRANK, gear, TURN, NOTCHES)
    except MotionLocks:
        return
    assert motion.residual < CLOSED
    assert all(np.isfinite(point).all() for point in motion.points.values())


@EACH
@settings(max_examples=8)
@given(data=st.data(), angle=st.floats(-6, 6), theta=st.floats(0, 360), reverser=st.floats(-1, 1))
def test_agrees_with_equations_in_cartesian_coordinates(
    name: str, data: st.DataObject, angle: float, theta: float, reverser: float
) -> None:
    gear = replace(data.draw(near(GEARS[name])), valve_angle=angle)
    try:
        motion = solve_motion(CRANK, gear, [theta], reverser)
    except MotionLocks:
        return
    # theirs starts from the picture rounded to a millimetre, not from our figures
    at = {joint: np.round(point[0]) for joint, point in motion.points.items()}
    start = np.array([*at["forward_pin"], *at["backward_pin"], *at["die"], round(motion.valve[0])])
    theirs = by_coordinates(gear, theta, reverser, start)
    assert motion.valve[0] == pytest.approx(theirs, abs=CLOSED)
    for joint, where in zip(("forward_eccentric", "backward_eccentric"), sheaves(gear, theta),
                            strict=True):  # fmt: skip
        assert motion.points[joint][0] == pytest.approx(where, abs=CLOSED)


@EACH
@given(angle=st.floats(-5, 5))
@settings(max_examples=8)
def test_upside_down_the_gear_does_the_same_running_the_other_way(name: str, angle: float) -> None:
    gear = replace(GEARS[name], valve_angle=angle)
    notches = np.array(NOTCHES)
    ours = solve_motion(CRANK, gear, TURN, notches)
    other = solve_motion(CRANK, mirrored(gear), -TURN, -notches)
    assert other.valve == pytest.approx(ours.valve, abs=CLOSED)
    assert other.die == pytest.approx(-np.asarray(ours.die), abs=CLOSED)
    for joint, twin in (("die", "die"), ("forward_pin", "backward_pin")):
        flipped = other.points[twin] * np.array([1.0, -1.0])
        assert flipped == pytest.approx(ours.points[joint], abs=CLOSED)


@EACH
@given(by=st.floats(0.02, 50))
@settings(max_examples=8)
def test_all_lengths_grow_alike(name: str, by: float) -> None:
    ours = solve_motion(CRANK, GEARS[name], TURN, NOTCHES).valve
    crank = Crank(by * CRANK.stroke, by * CRANK.connecting_rod)
    other = solve_motion(crank, scaled(GEARS[name], by), TURN, NOTCHES).valve
    assert other == pytest.approx(by * ours, rel=1e-9, abs=by * CLOSED)


@EACH
def test_inclined_spindle_is_the_gear_turned_about_the_axle(name: str) -> None:
    level = solve_motion(CRANK, GEARS[name], TURN, NOTCHES).valve
    turned = solve_motion(CRANK, inclined(GEARS[name], 6.0), TURN, NOTCHES).valve
    assert np.ptp(turned - level) < CLOSED


@EACH
def test_crank_and_connecting_rod_are_no_matter(name: str) -> None:
    other = solve_motion(Crank(30.0, 150.0), GEARS[name], TURN, NOTCHES).valve
    assert np.array_equal(solve_motion(CRANK, GEARS[name], TURN, NOTCHES).valve, other)


@EACH
@settings(max_examples=6)
@given(theta=st.floats(0, 360), reverser=st.floats(-1, 1), angle=st.floats(-6, 6))
def test_forces_obey_virtual_work(name: str, theta: float, reverser: float, angle: float) -> None:
    gear = replace(GEARS[name], valve_angle=angle)
    if isinstance(gear, Gooch):  # the slot's radius is not to follow the rod
        gear = replace(gear, link_radius=gear.link_radius or gear.radius_rod)
    pose = gear.pose(CRANK, np.array([[theta]]), np.array([[reverser]]))
    force = {part: float(value[0, 0]) for part, value in gear.forces(pose).items()}
    at = {joint: np.broadcast_to(point, (1, 1, 2))[0, 0] for joint, point in pose.points.items()}

    def moves(**changes: float) -> float:
        return slope(gear, changes, theta, reverser)

    near_enough = {"rel": 1e-5, "abs": 1e-6}
    lengths = {"radius rod": "radius_rod"}
    if isinstance(gear, Gooch):
        lengths |= {"suspension link": "suspension_link", "lifting link": "lifting_link"}
    else:
        lengths |= {"link's lifting link": "lifting_link",
                    "radius rod's lifting link": "rod_lifting_link"}  # fmt: skip
    for part, field in lengths.items():
        assert force[part] == pytest.approx(-moves(**{field: 1}), **near_enough)
    rods = [force[f"{which} eccentric rod"] for which in ("forward", "backward")]
    assert sum(rods) == pytest.approx(-moves(eccentric_rod=1), **near_enough)
    # each strap by the work that its sheave does, turned with the crank and on the axle
    for field, senses in (("theta", (1, 1)), ("advance", (1, -1))):
        work_done = 0.0
        for which, pull, sense in zip(("forward", "backward"), rods, senses, strict=True):
            sheave = at[f"{which}_eccentric"]
            way = at[f"{which}_pin"] - sheave
            turning = sense * np.radians(1) * np.array([sheave[1], -sheave[0]])
            work_done -= pull * float(way @ turning) / gear.eccentric_rod
        assert work_done == pytest.approx(moves(**{field: 1}), **near_enough)
    # the slot moved ahead in the link, all else left
    up = 1 if gear.rods == "open" else -1
    above = up * (at["forward_pin"] - at["backward_pin"]) / gear.pin_spacing
    ahead = normal = np.array([above[1], -above[0]])
    if isinstance(gear, Gooch):
        normal = (at["link_centre"] - at["die"]) / np.linalg.norm(at["link_centre"] - at["die"])
    pushed = force["die block"] * float(normal @ ahead)
    assert pushed == pytest.approx(moves(backset=1, suspension_ahead=-1), **near_enough)


@BOTH
def test_lifted_by_its_valve_pin_the_radius_rod_is_refused(kind: type[Gooch | Allan]) -> None:
    gear = GEARS[f"{kind.kind}, open, outside"]
    with pytest.raises(SizeError, match="Lifting pin"):
        replace(gear, lifting_pin=gear.radius_rod)


@BOTH
@pytest.mark.parametrize("admission", ["outside", "inside"])
def test_forward_gear_opens_the_front_port_after_the_front_dead_centre(
    kind: type[Gooch | Allan], admission: str
) -> None:
    sense = -1 if admission == "outside" else 1
    for rods in ("open", "crossed"):
        gear = GEARS[f"{kind.kind}, {rods}, {admission}"]
        for reverser in (1.0, -1.0):
            before, at, after = solve_motion(CRANK, gear, [340.0, 0.0, 20.0], reverser).valve
            assert sense * reverser * (after - at) > 0.2
            assert sense * reverser * (at - before) > 0.2


@BOTH
@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize("admission", ["outside", "inside"])
@pytest.mark.parametrize("rods", ["open", "crossed"])
def test_a_gear_laid_out_and_fitted_gives_what_was_wanted(
    kind: type[Gooch | Allan], engine: str, admission: str, rods: str
) -> None:
    crank, port, lead, opening = ENGINES[engine]
    wanted = Wanted(cutoff=78.0, lead=lead, port_opening=opening)
    sizes = sizes_for_events(78.0, lead, opening)
    valve = SlideValve(
        sizes.steam_lap, 0.0, port, admission=admission, bridge=port, exhaust_port=2 * port
    )
    gear = kind.laid_out(crank, sizes, wanted, admission, rods=rods)
    first = valve_events(crank, valve, gear, 1.0)
    assert first.travel == pytest.approx(sizes.travel, rel=0.18)  # first order, and tilt
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
    assert events.front.lead == pytest.approx(lead, abs=1e-3)
    for one in events_over(crank, valve, gear, (1.0, 0.75, 0.5, -0.5, -0.75, -1.0)):
        assert one.front.cutoff
        assert one.back.cutoff
        assert abs(one.front.cutoff.percent - one.back.cutoff.percent) < UNEVEN
    reach = solve_motion(crank, gear, TURN, NOTCHES).die
    gear = replace(gear, slot_length=2.1 * float(np.abs(reach).max()))
    # the slot may pass the rod pins, which are set back behind it, but not by much
    assert gear.backset > 0
    assert gear.slot_length < 1.05 * gear.pin_spacing
    motion = ValveMotion(valve=valve, gear=gear, valve_type="slide")
    result = work(motion, crank=crank, pressure=4.0)
    assert not [finding for finding in result.findings if finding.level == "stop"]


@BOTH
@pytest.mark.parametrize("admission", ["outside", "inside"])
def test_what_wanted_events_call_for_brings_a_spoilt_gear_near_them(
    kind: type[Gooch | Allan], admission: str
) -> None:
    wanted = Wanted(cutoff=78.0, lead=0.2, port_opening=2.8)
    sizes = sizes_for_events(78.0, 0.2, 2.8)
    gear = kind.laid_out(CRANK, sizes, wanted, admission)
    throw, advance = gear.tuning
    mended = gear.tuned(0.7 * throw, advance + 6)
    valve = SlideValve(sizes.steam_lap, 0.0, 3.0, admission=admission)
    for _ in range(2):  # what is called for supposes a gear that does as it is turned
        xi = valve.sense * solve_motion(CRANK, mended, TURN, 1.0).valve
        now = equivalent_eccentric(TURN, xi)
        wishes = {n: value for n, value, why in mended.called_for(sizes, now, wanted, CRANK) if why}
        mended = mended.tuned(wishes["eccentric_throw"], wishes["advance"])
    events = valve_events(CRANK, valve, mended, 1.0)
    assert events.travel == pytest.approx(sizes.travel, rel=0.1)
    mean_lead = (events.front.lead + events.back.lead) / 2
    assert mean_lead == pytest.approx(0.2, abs=0.06 * sizes.throw)


@EACH
def test_the_moving_picture_shows_link_die_and_rods(name: str) -> None:
    gear = replace(GEARS[name], slot_length=30.0)
    valve = SlideValve(2.0, 0.0, 3.0, admission=gear.admission)
    motion = ValveMotion(valve=valve, gear=gear, valve_type="slide")
    result = work(motion, crank=CRANK, pressure=4.0)
    scene = pictures(motion, result)[0]
    shown = {one.part for one in scene.moving}
    assert {part.name for part in gear.parts} <= shown
    assert gear.title in scene.title
    if isinstance(gear, Allan):
        (drawn,) = [one.points for one in scene.moving
                    if one.part == "link" and one.points.shape[1] == 4]  # fmt: skip
        assert np.linalg.norm(drawn[0, 1] - drawn[0, 2]) == pytest.approx(30.0)
