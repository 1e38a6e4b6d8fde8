"""Axleboxes on their springs: against valves worked in coordinates of the engine, and by hand."""

from __future__ import annotations

import re
from dataclasses import fields, replace
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq, fsolve

from tests.motion import link_gears_for_tests as link_gears
from tests.motion import radial_gears_for_tests as radial
from tests.motion.gears_for_tests import ALL, CRANK, DIRECT, OUTSIDE, SLIP
from weighshaft.motion import (
    GEARS,
    Baker,
    ChangeOver,
    Crank,
    MotionLocks,
    Oscillating,
    SlideValve,
    SlipEccentric,
    ValveSetting,
    Walschaerts,
    valve_events,
)
from weighshaft.motion.axle_rises import Sprung, worked_at
from weighshaft.motion.axlebox import EVENT_NAMES, axlebox_effect
from weighshaft.motion.events import setting_constant
from weighshaft.motion.fixed_points import fixed_to_frames, way_of_rise, with_axle_moved
from weighshaft.sizes import SizeError, sizes_of

VALVE = SlideValve(2.2, 0.1, 3.0)
SETTING = ValveSetting()
EVERY: dict[str, Any] = {
    **ALL,
    **link_gears.GEARS,
    **radial.GEARS,
    "Baker": Baker.laid_out(CRANK, link_gears.SIZES, link_gears.WANTED, "outside"),
    "change-over": ChangeOver(eccentric_throw=3.0, eccentric_rod=110.0, spindle_height=5.0),
    "oscillating": replace(
        Oscillating.laid_out(CRANK, link_gears.SIZES, link_gears.WANTED, "outside"),
        trunnion_y=6.0,
    ),
}
TURN = np.linspace(0.0, 360.0, 36, endpoint=False)[None]


def valve_for(gear: Any, valve: SlideValve = VALVE) -> SlideValve:
    return replace(valve, admission=getattr(gear, "admission", "outside"))


def test_every_gear_says_what_of_it_is_fixed_to_the_frames() -> None:
    for gear in GEARS.values():
        fixed = fixed_to_frames(gear)
        told = {name for names in fixed.pivots for name in names} | set(fixed.lines)
        labels = sizes_of(gear)
        placed = {
            name for name, one in labels.items()
            if re.search(r"(ahead of|above) (the )?axle", one.label)
        }  # fmt: skip
        assert told == placed
        assert told <= {field.name for field in fields(gear)}


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize("valve_angle", [0.0, 4.0])
def test_what_is_fixed_to_the_frames_moves_by_the_rise_alone(name: str, valve_angle: float) -> None:
    gear = EVERY[name]
    if hasattr(gear, "valve_angle"):
        gear = replace(gear, valve_angle=valve_angle)
    dx, dy = 0.3, 0.7
    crank, risen = with_axle_moved(CRANK, gear, dx, dy)
    rows = np.array([[1.0], [-1.0]])
    before, after = gear.pose(CRANK, TURN, rows), risen.pose(crank, TURN, rows)
    pivots = [x.removesuffix("_x") for x, _ in fixed_to_frames(gear).pivots]
    joints = ["bell_crank" if name == "bell" else name for name in pivots]
    assert any(joint in before.points for joint in joints) or not joints
    for joint in joints:
        if joint in before.points:
            assert after.points[joint] - before.points[joint] == pytest.approx(
                np.broadcast_to([-dx, -dy], before.points[joint].shape)
            )
    still = ("eccentric", "forward_eccentric", "backward_eccentric", "return_crank", "crank_pin")
    for joint in still:
        if joint in before.points:
            assert after.points[joint] == pytest.approx(before.points[joint])
    if isinstance(gear, Oscillating):
        return
    # the valve stays on its line in the frames, the gudgeon pin on that of the cylinder
    line = np.array([-np.sin(np.radians(valve_angle)), np.cos(np.radians(valve_angle))])
    before_at = before.points["valve"] @ line
    assert (after.points["valve"] + [dx, dy]) @ line == pytest.approx(before_at)
    assert after.points["gudgeon"][..., 1] + dy == pytest.approx(before.points["gudgeon"][..., 1])


@pytest.mark.parametrize("name", EVERY)
def test_at_rest_the_events_are_those_of_the_gear(name: str) -> None:
    gear = EVERY[name]
    valve = valve_for(gear, replace(VALVE, valve_offset=0.1))
    effect = axlebox_effect(
        CRANK, gear, valve, SETTING, rise=0.4, running_notch=0.6, inclination=5.0
    )
    assert effect.rises == pytest.approx((-0.4, -0.2, 0.0, 0.2, 0.4))
    for notch, found in zip(effect.notches, effect.events[2], strict=True):
        plain = valve_events(CRANK, valve, gear, notch, setting=SETTING)
        assert found.travel == pytest.approx(plain.travel, abs=1e-3)
        for one, other in ((found.front, plain.front), (found.back, plain.back)):
            assert one.lead == pytest.approx(other.lead, abs=1e-9)
            assert one.port_opening == pytest.approx(other.port_opening, abs=1e-3)
            for event in EVENT_NAMES[:4]:
                a, b = getattr(one, event), getattr(other, event)
                assert (a is None) == (b is None)
                if a is not None:
                    assert a.percent == pytest.approx(b.percent, abs=1e-5)
                    assert np.sin(np.radians(a.angle - b.angle)) == pytest.approx(0, abs=1e-6)


def on_the_engine(
    gear: Any, valve: SlideValve, axle: np.ndarray, ports: float, displacement: Any
) -> dict[str, float]:
    """Return cut-offs by piston in the cylinder as built, worked in coordinates of the frames.

    `displacement(theta, axle)` is the valve along its line; `ports` where its middle position
    is on that line.  The cylinder lies at y = CRANK.cylinder_offset, the axle at rest at 0, 0.
    """
    offset = CRANK.cylinder_offset

    def gudgeon(theta: float) -> float:
        angle = np.radians(theta)
        x, y = axle + CRANK.throw * np.array([np.cos(angle), -np.sin(angle)])
        return float(x + np.sqrt(CRANK.connecting_rod**2 - (offset - y) ** 2))

    front = np.sqrt((CRANK.connecting_rod + CRANK.throw) ** 2 - offset**2)
    back = np.sqrt((CRANK.connecting_rod - CRANK.throw) ** 2 - offset**2)
    found = {}
    for end, sense, start in (("front", -1.0, 0.0), ("back", 1.0, 180.0)):

        def open_by(theta: float, sense: float = sense) -> float:
            moved = displacement(theta, axle) - ports
            return valve.sense * sense * moved - valve.steam_lap

        grid = np.arange(start + 5, start + 176, 5.0)
        shut = next(b for a, b in pairwise(grid) if open_by(a) > 0 >= open_by(b))
        theta = brentq(open_by, shut - 5, shut, xtol=1e-10)
        gone = (front - gudgeon(theta)) / (front - back)
        found[end] = 100 * (gone if end == "front" else 1 - gone)
    return found


def slip_on_the_engine(gear: SlipEccentric) -> Any:
    slope = np.radians(gear.valve_angle)
    line, foot = np.array([np.cos(slope), np.sin(slope)]), np.array([0.0, gear.spindle_height])

    def displacement(theta: float, axle: np.ndarray) -> float:
        angle = np.radians(theta + 90 + gear.advance - gear.valve_angle)
        sheave = axle + gear.eccentric_throw * np.array([np.cos(angle), -np.sin(angle)])
        away = lambda v: np.linalg.norm(foot + v * line - sheave) - gear.eccentric_rod  # noqa: E731
        return float(brentq(away, 0.3 * gear.eccentric_rod, 3 * gear.eccentric_rod, xtol=1e-13))

    return displacement


@given(
    rise=st.floats(-2.0, 2.0), inclination=st.floats(-12.0, 12.0), height=st.floats(-8.0, 15.0),
    valve_angle=st.floats(-6.0, 6.0), offset=st.floats(-3.0, 3.0), rod=st.floats(70.0, 140.0),
)  # fmt: skip
@settings(max_examples=15, deadline=None)
def test_slip_eccentric_as_on_the_engine(
    rise: float, inclination: float, height: float, valve_angle: float, offset: float, rod: float
) -> None:
    gear = replace(SLIP, spindle_height=height, valve_angle=valve_angle, eccentric_rod=rod)
    crank = Crank(CRANK.stroke, CRANK.connecting_rod)
    slope = np.radians(inclination)
    axle = rise * np.array([np.sin(slope), np.cos(slope)])
    displacement = slip_on_the_engine(gear)
    valve = replace(VALVE, valve_offset=0.05 * offset)
    at_centres = [displacement(t, np.zeros(2)) for t in crank.dead_centres]
    ports = float(np.mean(at_centres)) - valve.valve_offset
    expected = on_the_engine(gear, valve, axle, ports, displacement)
    sprung = Sprung(crank, gear, way_of_rise(inclination), (1.0,))
    ((events,),) = worked_at(sprung, valve, SETTING, np.array([rise])).events
    assert events.front.cutoff is not None
    assert events.back.cutoff is not None
    assert events.front.cutoff.percent == pytest.approx(expected["front"], abs=1e-5)
    assert events.back.cutoff.percent == pytest.approx(expected["back"], abs=1e-5)


def walschaerts_on_the_engine(gear: Walschaerts, reverser: float) -> Any:
    """Solve all of Walschaerts' gear in coordinates of the frames by one Newton solver."""
    share = (reverser + 1) / 2
    turn = np.radians(share * gear.arm_angle_forward + (1 - share) * gear.arm_angle_backward)
    shaft = np.array([gear.weighshaft_x, gear.weighshaft_y])
    arm = shaft + gear.lifting_arm * np.array([np.cos(turn), np.sin(turn)])
    pivot = np.array([gear.link_x, gear.link_y])

    def joints(unknown: np.ndarray) -> tuple[np.ndarray, ...]:
        swing, slid, lean, valve, union_x, union_y = unknown
        ahead = np.array([np.cos(swing), np.sin(swing)])
        above = np.array([-ahead[1], ahead[0]])
        centre = pivot + gear.radius_rod * ahead
        die = centre + gear.radius_rod * (-ahead * np.cos(slid) + above * np.sin(slid))
        end = die + gear.radius_rod * np.array([np.cos(lean), np.sin(lean)])
        tail = pivot + gear.tail_ahead * ahead + gear.tail_above * above
        pin = np.array([valve, gear.spindle_height])
        return tail, die, end, pin, np.array([union_x, union_y])

    def displacement(theta: float, axle: np.ndarray) -> float:
        angle = np.radians(theta)
        lead = angle + np.radians(gear.return_crank_angle)
        eccentric = axle + gear.return_crank_throw * np.array([np.cos(lead), -np.sin(lead)])
        crank_pin = axle + CRANK.throw * np.array([np.cos(angle), -np.sin(angle)])
        rise = CRANK.cylinder_offset - crank_pin[1]
        gudgeon = np.array(
            [crank_pin[0] + np.sqrt(CRANK.connecting_rod**2 - rise**2), CRANK.cylinder_offset]
        )
        drop = gudgeon + np.array([gear.drop_ahead, gear.drop_above])
        whole = gear.lever_upper + gear.lever_lower

        def misses(unknown: np.ndarray) -> list[float]:
            tail, die, end, pin, union = joints(unknown)
            lifted = die + gear.lifting_pin / gear.radius_rod * (end - die)
            on_lever = pin + gear.lever_upper / whole * (union - pin) - end
            return [
                np.linalg.norm(tail - eccentric) - gear.eccentric_rod,
                np.linalg.norm(lifted - arm) - gear.lifting_link,
                on_lever[0], on_lever[1],
                np.linalg.norm(union - pin) - whole,
                np.linalg.norm(union - drop) - gear.union_link,
            ]  # fmt: skip

        pose = gear.pose(CRANK, np.array([[theta]]), np.array([[reverser]])).points
        centre = pose["link_centre"][0, 0] - pivot
        die, end = pose["die"][0, 0], pose["radius_rod"][0, 0]
        swing = float(np.arctan2(centre[1], centre[0]))
        away = die - pose["link_centre"][0, 0]
        slid = np.pi - (np.arctan2(away[1], away[0]) - swing) % (2 * np.pi)
        lean = float(np.arctan2(*(end - die)[::-1]))
        start = [swing, slid, lean, pose["valve"][0, 0, 0], *pose["union"][0, 0]]
        solved, _, _, why = fsolve(misses, start, xtol=1e-14, full_output=True)
        assert np.abs(misses(solved)).max() < 1e-9, why
        return float(solved[3])

    return displacement


@given(
    rise=st.floats(-1.5, 1.5), inclination=st.floats(-8.0, 8.0), longer=st.floats(0.97, 1.03),
    reverser=st.floats(0.5, 1.0),
)  # fmt: skip
@settings(max_examples=4, deadline=None)
def test_walschaerts_as_on_the_engine(
    rise: float, inclination: float, longer: float, reverser: float
) -> None:
    gear = replace(OUTSIDE, union_link=longer * OUTSIDE.union_link,
                   lever_lower=longer * OUTSIDE.lever_lower)  # fmt: skip
    slope = np.radians(inclination)
    axle = rise * np.array([np.sin(slope), np.cos(slope)])
    at_rest = walschaerts_on_the_engine(gear, 1.0)
    ports = float(np.mean([at_rest(t, np.zeros(2)) for t in CRANK.dead_centres]))
    expected = on_the_engine(gear, VALVE, axle, ports, walschaerts_on_the_engine(gear, reverser))
    sprung = Sprung(CRANK, gear, way_of_rise(inclination), (reverser,))
    ((events,),) = worked_at(sprung, VALVE, SETTING, np.array([rise])).events
    assert events.front.cutoff is not None
    assert events.back.cutoff is not None
    assert events.front.cutoff.percent == pytest.approx(expected["front"], abs=1e-5)
    assert events.back.cutoff.percent == pytest.approx(expected["back"], abs=1e-5)


@given(theta=st.floats(0, 360), height=st.floats(-10, 10), rod=st.floats(60, 200))
@settings(max_examples=40, deadline=None)
def test_a_rise_moves_the_valve_by_the_slope_of_the_rod(
    theta: float, height: float, rod: float
) -> None:
    """To first order the valve goes ahead by the rise times the tangent of the rod's slope.

    The rod is of one length, (valve - sheave)^2 = rod^2: for a rise h of the sheave alone
    along . d(valve) = slope . h, which is what a textbook means by keeping the drive level.
    """
    gear = replace(SLIP, spindle_height=height, eccentric_rod=rod)
    at, one = np.array([[theta]]), np.array([[1.0]])
    pose = gear.pose(CRANK, at, one)
    away = (pose.points["valve"] - pose.points["eccentric"])[0, 0]

    def valve(rise: float) -> float:
        crank, risen = with_axle_moved(CRANK, gear, 0.0, rise)
        return float(risen.pose(crank, at, one).valve[0, 0])

    step = 1e-4
    slope = (valve(step) - valve(-step)) / (2 * step)
    assert slope == pytest.approx(away[1] / away[0], abs=1e-7)


def test_backward_running_behind_a_change_over_valve_sees_the_ports_stay() -> None:
    """In backward gear steam takes the exhaust edges: leads exchange as the metal stands."""
    gear = EVERY["change-over"]
    lapless = SlideValve(0.0, 0.0, 3.0)
    sprung = Sprung(CRANK, gear, way_of_rise(6.0), (1.0, -1.0))
    (forward, backward), _ = worked_at(sprung, lapless, SETTING, np.array([1.0, 0.5])).events
    # at the dead centre a front port that is open to steam by so much forward is open to
    # exhaust by as much backward
    assert forward.front.lead != pytest.approx(0.0, abs=1e-3)
    assert backward.front.lead == pytest.approx(-forward.front.lead, abs=1e-9)
    assert backward.back.lead == pytest.approx(-forward.back.lead, abs=1e-9)


def test_the_face_of_an_oscillating_cylinder_stays_in_the_frames() -> None:
    """A rise turns the line of centres: at dead centre the port is off the middle by that arc."""
    gear = replace(EVERY["oscillating"], trunnion_y=0.0)
    rise = 0.8
    sprung = Sprung(CRANK, gear, way_of_rise(0.0), (1.0, -1.0))
    ((forward, backward),) = worked_at(sprung, VALVE, SETTING, np.array([rise])).events
    arc = gear.port_radius * np.arctan2(rise, gear.trunnion_x)
    # the cylinder's front end dips below the level by the angle
    assert forward.front.lead == pytest.approx(-gear.holes.lap - arc, abs=1e-9)
    assert backward.front.lead == pytest.approx(-gear.holes.lap + arc, abs=1e-9)


def test_an_inclined_cylinder_sees_its_piston_shift() -> None:
    """With rods so long that a rise square to them does nothing, only the shift remains."""
    crank = Crank(40.0, 1e6)
    gear = replace(SLIP, eccentric_rod=1e6, spindle_height=0.0)
    effect = axlebox_effect(
        crank, gear, VALVE, SETTING, rise=1.0, running_notch=1.0, inclination=10.0
    )
    ahead = np.sin(np.radians(10.0))
    assert effect.piston_ahead == pytest.approx(ahead)
    low, *_, high = effect.running
    # lead of the front port, which opens as the valve goes back, falls by the shift
    assert low.front.lead - high.front.lead == pytest.approx(2 * ahead, abs=1e-5)
    rest = effect.running[2].front.cutoff
    # piston and valve are ahead by the shift: the crank angle of cut-off moves with the valve
    at, lap, throw = high.front.cutoff, VALVE.steam_lap, SLIP.eccentric_throw
    assert at is not None
    assert rest is not None
    lead_angle = np.radians(90 + SLIP.advance)
    # xi = throw cos(theta + lead) + ahead = -lap
    theta = 2 * np.pi - np.arccos(-(lap + ahead) / throw) - lead_angle
    middle = -np.mean([throw * np.cos(lead_angle + d) for d in (0, np.pi)])
    assert middle == pytest.approx(0, abs=1e-12)
    gone = (crank.throw * (1 - np.cos(theta)) - ahead) / crank.stroke
    assert at.percent == pytest.approx(100 * gone, abs=1e-3)


def test_the_worse_the_slope_the_worse_the_beat() -> None:
    level = axlebox_effect(
        CRANK, replace(SLIP, spindle_height=0.0), VALVE, SETTING, rise=1.0, running_notch=1.0
    )
    steep = axlebox_effect(
        CRANK, replace(SLIP, spindle_height=40.0), VALVE, SETTING, rise=1.0, running_notch=1.0
    )
    assert level.cutoff_change is not None
    assert steep.cutoff_change is not None
    assert steep.cutoff_change > 3.0 > level.cutoff_change
    assert [one.level for one in level.findings] == ["fine"]
    (found,) = steep.findings
    assert found.level == "check"
    assert f"{steep.running[2].front.cutoff.percent:.1f} %" in found.says  # type: ignore[union-attr]


def test_changes_are_the_greatest_for_each_millimetre() -> None:
    effect = axlebox_effect(CRANK, DIRECT, VALVE, SETTING, rise=1.5, running_notch=0.5)
    by = {(one.reverser, one.end, one.event): one.per_mm for one in effect.changes}
    assert len(by) == 3 * 2 * len(EVENT_NAMES)
    cutoffs = [one.back.cutoff.percent for one in effect.running]  # type: ignore[union-attr]
    rates = [abs(c - cutoffs[2]) / abs(r) for c, r in zip(cutoffs, effect.rises, strict=True) if r]
    assert by[0.5, "back", "cutoff"] == pytest.approx(max(rates))
    assert effect.cutoff_back_per_mm == pytest.approx((cutoffs[3] - cutoffs[1]) / 1.5)
    assert max(rates) >= abs(effect.cutoff_back_per_mm) - 1e-12  # type: ignore[arg-type]


def test_a_gear_that_locks_within_the_rise_says_from_where() -> None:
    gear = replace(SLIP, eccentric_rod=20.0, spindle_height=10.0)
    # the rod is upright where the sheave, 5 mm round the axle, is 20 mm from the spindle's line
    effect = axlebox_effect(CRANK, gear, VALVE, SETTING, rise=8.0, running_notch=1.0)
    assert effect.rises == pytest.approx((-4.0, 0.0, 4.0, 8.0))
    (found,) = [one for one in effect.findings if one.level == "stop"]
    said = re.search(r"axle (\d+\.\d+) mm down", found.says)
    assert said is not None
    assert float(said[1]) == pytest.approx(5.0, abs=8.0 / 50 + 0.01)
    assert "eccentric rod" in found.says


def test_a_gear_that_locks_at_rest_is_refused_and_so_is_no_rise() -> None:
    gear = replace(SLIP, eccentric_rod=20.0, spindle_height=30.0)
    with pytest.raises(MotionLocks):
        axlebox_effect(CRANK, gear, VALVE, SETTING, rise=1.0, running_notch=1.0)
    with pytest.raises(SizeError):
        axlebox_effect(CRANK, SLIP, VALVE, SETTING, rise=0.0, running_notch=1.0)


def test_a_slot_that_is_long_enough_at_rest_alone_is_told() -> None:
    reach = float(np.abs(DIRECT.pose(CRANK, TURN, np.array([[1.0], [-1.0]])).die).max())  # type: ignore[arg-type]
    gear = replace(DIRECT, slot_length=2 * reach + 0.05)
    effect = axlebox_effect(CRANK, gear, VALVE, SETTING, rise=1.5, running_notch=0.5)
    found = [one for one in effect.findings if "motion.gear.slot_length" in one.fields]
    assert len(found) == 1
    assert effect.die_reach is not None
    assert effect.die_reach > reach + 0.025
    assert found[0].change is not None
    longer = replace(gear, slot_length=found[0].change[1])
    mended = axlebox_effect(CRANK, longer, VALVE, SETTING, rise=1.5, running_notch=0.5)
    assert [one.level for one in mended.findings] == ["fine"]


def test_a_valve_set_for_equal_cut_offs_keeps_its_place() -> None:
    setting = ValveSetting(rule="equal cut-offs", reverser=0.6)
    constant = setting_constant(CRANK, VALVE, OUTSIDE, setting)
    effect = axlebox_effect(CRANK, OUTSIDE, VALVE, setting, rise=1.0, running_notch=0.6)
    settings_kept = [one.setting for row in effect.events for one in row]
    assert settings_kept == pytest.approx([constant] * 15)
    rest = effect.running[2]
    assert rest.front.cutoff is not None
    assert rest.back.cutoff is not None
    assert rest.front.cutoff.percent == pytest.approx(rest.back.cutoff.percent, abs=1e-5)


@pytest.mark.parametrize("rule", ["equal leads", "equal cut-offs"])
def test_an_axle_that_rises_further_than_the_rod_reaches_is_told(rule: str) -> None:
    room = CRANK.connecting_rod - CRANK.throw - abs(CRANK.cylinder_offset)
    effect = axlebox_effect(
        CRANK, SLIP, VALVE, ValveSetting(rule=rule), rise=1.25 * room, running_notch=1.0
    )
    stops = [one.says for one in effect.findings if one.level == "stop"]
    assert len(stops) == 2
    assert all("locks" in one for one in stops)
    assert any("gudgeon pin" in one for one in stops)
    assert max(map(abs, effect.rises)) < room
