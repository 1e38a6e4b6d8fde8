"""What holds of Joy's and of Hackworth's gear alike: closure, mirrors, scale, layout, pictures."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.motion.gears_for_tests import near
from tests.motion.radial_gears_for_tests import (
    CRANK,
    GEARS,
    NOTCHES,
    TURN,
    guide_angle,
    mirrored,
    off_the_guide,
    scaled,
)
from weighshaft.motion import (
    Crank,
    MotionLocks,
    SlideValve,
    ValveMotion,
    Wanted,
    equivalent_eccentric,
    sizes_for_events,
    solve_motion,
    valve_events,
)
from weighshaft.motion.chapter import work
from weighshaft.motion.events import events_over
from weighshaft.motion.hackworth import Hackworth
from weighshaft.motion.joy import Joy
from weighshaft.motion.proportions import fitted, levelled
from weighshaft.pictures.motion import pictures

CLOSED = 1e-9
UNEVEN = 7.0  # per cent of the stroke, as for the other gears
LESS_EVEN = 9.0  # Joy's gear with the valve rod's pin short of the die
ENGINES = {
    "16 mm to the foot": (Crank(15.875, 45.0), 1.4, 0.05, 1.2),
    "five inch": (Crank(53.975, 190.5), 4.5, 0.3, 4.0),
}
BOTH = pytest.mark.parametrize("kind", [Joy, Hackworth])


@pytest.mark.parametrize("name", GEARS)
def test_every_bar_keeps_its_length_and_the_die_its_guide(name: str) -> None:
    gear = GEARS[name]
    motion = solve_motion(CRANK, gear, TURN, NOTCHES)
    assert motion.residual < CLOSED
    for one, other, length in motion.bars:
        away = np.linalg.norm(motion.points[one] - motion.points[other], axis=-1)
        assert np.abs(away - length).max() < CLOSED
    for row, reverser in enumerate(NOTCHES):
        for die in motion.points["die"][row]:
            assert abs(off_the_guide(gear, die, reverser)) < CLOSED


@pytest.mark.parametrize("name", GEARS)
def test_die_is_measured_along_the_guide_towards_its_upper_end(name: str) -> None:
    gear = GEARS[name]
    motion = solve_motion(CRANK, gear, TURN, 0.7)
    away = motion.points["die"] - motion.points["guide"]
    chord = np.linalg.norm(away, axis=-1)
    assert motion.die is not None
    if gear.guide == "curved":
        radius = gear.guide_radius or gear.valve_rod
        chord = 2 * radius * np.arcsin(chord / (2 * radius))
    angle = guide_angle(gear, 0.7)
    assert motion.die == pytest.approx(np.sign(away @ [np.cos(angle), np.sin(angle)]) * chord)
    assert motion.die.min() < -1 < 1 < motion.die.max()


@pytest.mark.parametrize("name", GEARS)
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


@pytest.mark.parametrize("name", GEARS)
@given(angle=st.floats(-5, 5), offset=st.floats(-4, 4))
@settings(max_examples=10)
def test_upside_down_the_gear_does_the_same_running_the_other_way(
    name: str, angle: float, offset: float
) -> None:
    gear = replace(GEARS[name], valve_angle=angle)
    crank, turned = Crank(40.0, 120.0, offset), Crank(40.0, 120.0, -offset)
    ours = solve_motion(crank, gear, TURN, NOTCHES)
    other = solve_motion(turned, mirrored(gear), -TURN, NOTCHES)
    assert other.valve == pytest.approx(ours.valve, abs=CLOSED)
    for joint in ("die", "valve_pin"):
        flipped = other.points[joint] * np.array([1.0, -1.0])
        assert flipped == pytest.approx(ours.points[joint], abs=CLOSED)
    assert other.die == pytest.approx(-np.asarray(ours.die), abs=CLOSED)


@pytest.mark.parametrize("name", GEARS)
@given(by=st.floats(0.02, 50))
@settings(max_examples=10)
def test_all_lengths_grow_alike(name: str, by: float) -> None:
    ours = solve_motion(CRANK, GEARS[name], TURN, NOTCHES).valve
    crank = Crank(by * CRANK.stroke, by * CRANK.connecting_rod)
    other = solve_motion(crank, scaled(GEARS[name], by), TURN, NOTCHES).valve
    assert other == pytest.approx(by * ours, rel=1e-9, abs=by * CLOSED)


@pytest.mark.parametrize("name", GEARS)
def test_a_guide_of_very_large_radius_is_a_straight_one(name: str) -> None:
    straight = replace(GEARS[name], guide="straight", guide_radius=None)
    ours = solve_motion(CRANK, straight, TURN, NOTCHES).valve
    for radius in (1e5, -1e5):
        curved = replace(straight, guide="curved", guide_radius=radius)
        assert solve_motion(CRANK, curved, TURN, NOTCHES).valve == pytest.approx(ours, abs=2e-3)


@pytest.mark.parametrize("name", GEARS)
def test_lead_is_the_same_in_every_notch_of_a_layout(name: str) -> None:
    """On both dead centres the die stands at the guide's pivot, so that tilting moves nothing."""
    motion = solve_motion(CRANK, GEARS[name], CRANK.dead_centres, NOTCHES)
    assert np.ptp(motion.valve, axis=0) == pytest.approx(0, abs=1e-9)
    assert motion.die == pytest.approx(0, abs=1e-6)


@BOTH
@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize("admission", ["outside", "inside"])
def test_a_gear_laid_out_and_fitted_gives_what_was_wanted(
    kind: type[Joy | Hackworth], engine: str, admission: str
) -> None:
    crank, port, lead, opening = ENGINES[engine]
    wanted = Wanted(cutoff=78.0, lead=lead, port_opening=opening)
    sizes = sizes_for_events(78.0, lead, opening)
    valve = SlideValve(
        sizes.steam_lap, 0.0, port, admission=admission, bridge=port, exhaust_port=2 * port
    )
    gear = kind.laid_out(crank, sizes, wanted, admission)
    # the layout alone is near: a tenth of the travel, five per cent of the stroke
    first = valve_events(crank, valve, gear, 1.0)
    assert first.travel == pytest.approx(sizes.travel, rel=0.1)
    assert (first.front.lead + first.back.lead) / 2 == pytest.approx(lead, abs=0.05 * sizes.throw)
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
    uneven = LESS_EVEN if kind is Joy and admission == "inside" else UNEVEN
    for one in events_over(crank, valve, gear, (1.0, 0.75, 0.5, 0.0, -0.5, -0.75, -1.0)):
        assert one.front.lead == pytest.approx(lead, abs=1e-3)
        assert one.back.lead == pytest.approx(lead, abs=1e-3)
        if one.reverser:
            assert one.front.cutoff
            assert one.back.cutoff
            assert abs(one.front.cutoff.percent - one.back.cutoff.percent) < uneven
    reach = solve_motion(crank, gear, TURN, NOTCHES).die
    gear = replace(gear, slot_length=2.1 * float(np.abs(reach).max()))
    motion = ValveMotion(valve=valve, gear=gear, valve_type="slide")
    result = work(motion, crank=crank, pressure=4.0)
    assert not [finding for finding in result.findings if finding.level == "stop"]


@BOTH
@pytest.mark.parametrize("admission", ["outside", "inside"])
def test_what_wanted_events_call_for_brings_a_spoilt_gear_near_them(
    kind: type[Joy | Hackworth], admission: str
) -> None:
    wanted = Wanted(cutoff=78.0, lead=0.2, port_opening=2.8)
    sizes = sizes_for_events(78.0, 0.2, 2.8)
    gear = kind.laid_out(CRANK, sizes, wanted, admission)
    valve = SlideValve(sizes.steam_lap, 0.0, 3.0, admission=admission)
    tilt, second = gear.tuning
    spoilt = gear.tuned(0.6 * tilt, 1.3 * second)
    turned = solve_motion(CRANK, spoilt, TURN, 1.0).valve
    now = equivalent_eccentric(TURN, valve.sense * turned)
    assert abs(now.advance - sizes.advance) > 10
    found = {name: value for name, value, _ in spoilt.called_for(sizes, now, wanted, CRANK)}
    mended = replace(spoilt, **found)
    if isinstance(mended, Hackworth):
        mended = mended.squared()  # the eccentric rod follows the throw
    turned = solve_motion(CRANK, mended, TURN, 1.0).valve
    ours = equivalent_eccentric(TURN, valve.sense * turned)
    assert ours.throw == pytest.approx(sizes.throw, rel=0.02)
    assert ours.advance == pytest.approx(sizes.advance, abs=1.0)


@BOTH
def test_tuning_is_what_tuned_sets(kind: type[Joy | Hackworth]) -> None:
    gear = GEARS[kind.kind]
    assert gear.tuned(*gear.tuning).tuning == pytest.approx(gear.tuning)
    same = solve_motion(CRANK, gear.tuned(*gear.tuning), TURN, 0.5).valve
    assert same == pytest.approx(solve_motion(CRANK, gear, TURN, 0.5).valve, abs=1e-9)
    tilt, second = gear.tuning
    other = gear.tuned(0.8 * tilt, 1.2 * second)
    assert other.tuning == pytest.approx((0.8 * tilt, 1.2 * second))
    # tuned or not, the die stands at the guide's pivot on both dead centres
    leads = solve_motion(CRANK, other, CRANK.dead_centres, NOTCHES).valve
    assert np.ptp(leads, axis=0) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("name", GEARS)
def test_the_moving_picture_shows_guide_die_and_rods(name: str) -> None:
    gear = replace(GEARS[name], slot_length=30.0)
    valve = SlideValve(2.0, 0.0, 3.0, admission=gear.admission)
    motion = ValveMotion(valve=valve, gear=gear, valve_type="slide")
    result = work(motion, crank=CRANK, pressure=4.0)
    scene = pictures(motion, result)[0]
    shown = {one.part for one in scene.moving}
    assert {"guide", "die", "valve rod"} <= shown
    assert gear.title in scene.title
    drawn = [one.points for one in scene.moving if one.part == "guide"]
    if gear.guide == "straight":
        ends = next(path for path in drawn if path.shape[1] == 3)
        assert np.linalg.norm(ends[0, 0] - ends[0, 2]) == pytest.approx(30.0)
