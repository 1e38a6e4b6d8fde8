"""Reverser and both sides: against an independent linkage, the events, statics and mirrors."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq, fsolve

from tests.reversing_for_tests import FURTHER, NOTCHED, at, put, sample, worked
from tests.reversing_for_tests import given as arguments
from weighshaft.findings import Finding
from weighshaft.motion import GEARS, Wanted, sizes_for_events, valve_events
from weighshaft.motion.kernel import GRID
from weighshaft.pictures.reversing import pictures
from weighshaft.reversing import (
    Balance,
    Lever,
    Linkage,
    Reversing,
    ReversingResult,
    Screw,
    Servo,
    work,
)
from weighshaft.reversing.holding import hung_pins, per_unit, torques
from weighshaft.reversing.layout import Layout, stands
from weighshaft.reversing.relations import screw_torque
from weighshaft.reversing.shaft import Shaft, shaft_of
from weighshaft.reversing.sides import side_angles
from weighshaft.sizes import SizeError, sizes_of

EVERY = (Lever(), Screw(), Servo())
ENDS = np.linspace(1.0, -1.0, 9)


def says(result: ReversingResult, words: str) -> list[Finding]:
    return [one for one in result.findings if words in one.says]


# --- decisions --------------------------------------------------------------------------


@pytest.mark.parametrize("name", [*NOTCHED, *FURTHER, "tansy"])
@pytest.mark.parametrize("by", EVERY, ids=lambda by: by.kind)
def test_every_gear_works_with_every_stand_from_defaults(name: str, by: Any) -> None:
    result = worked(name, Reversing(worked_by=by), valve_force=3.0)
    assert not [one for one in result.findings if one.level == "stop"]
    for field in sizes_of(ReversingResult):
        value = getattr(result, field)
        assert value is None or math.isfinite(value), field
    for notch in result.notches:
        for field in sizes_of(type(notch)):
            value = getattr(notch, field)
            assert value is None or math.isfinite(value), field


def test_decisions_can_be_kept_in_a_cache() -> None:
    assert hash(Reversing()) == hash(Reversing())


@pytest.mark.parametrize("by", EVERY, ids=lambda by: by.kind)
def test_at_most_six_sizes_are_main(by: Any) -> None:
    whole = Reversing(worked_by=by)
    groups = (whole, whole.linkage, whole.worked_by, whole.balance)
    assert sum(one.main for group in groups for one in sizes_of(type(group)).values()) <= 6


def test_bad_sizes_are_refused_in_words() -> None:
    with pytest.raises(SizeError, match=r"Reversing arm.*out of range"):
        Linkage(arm=0.0)
    with pytest.raises(SizeError, match=r"Notches to cut.*3 to 95 % would do"):
        Reversing(cutoffs=(60.0, 99.0))
    with pytest.raises(SizeError, match=r"cannot be wound of wire of 2 mm; 8 mm or more"):
        Balance(wire=2.0, coil=3.0)
    with pytest.raises(SizeError, match="is not one of right, left"):
        Reversing(leading_side="port")


def _places(decisions: Any, before: str = "reversing") -> Iterator[str]:
    for one in dataclasses.fields(decisions):
        value = getattr(decisions, one.name)
        yield f"{before}.{one.name}"
        if dataclasses.is_dataclass(value):
            yield from _places(value, f"{before}.{one.name}")


@pytest.mark.parametrize("name", [*NOTCHED, "Joy", "tansy"])
@pytest.mark.parametrize("by", EVERY, ids=lambda by: by.kind)
def test_findings_and_suggestions_name_sizes_that_there_are(name: str, by: Any) -> None:
    decisions = Reversing(worked_by=by, cutoffs=(90.0, 60.0, 58.0, 4.0),
                          balance=Balance(spring="coil spring in tension"))  # fmt: skip
    result = worked(name, decisions, valve_force=5.0, crank_angle=80.0)
    known = set(_places(decisions))
    paths = [path for one in result.findings for path in one.fields]
    paths += [one.change[0] for one in result.findings if one.change]
    paths += [one.field for one in result.suggestions]
    for path in paths:
        assert path in known or not path.startswith("reversing."), path


@pytest.mark.parametrize("name", NOTCHED)
@pytest.mark.parametrize("by", EVERY, ids=lambda by: by.kind)
def test_an_empty_size_really_takes_the_suggestion(name: str, by: Any) -> None:
    empty = Reversing(worked_by=by, balance=Balance(spring="coil spring in tension"))
    result = worked(name, empty)
    written = empty
    for one in result.suggestions:
        assert at(empty, one.field) is None
        written = put(written, one.field, one.value)
    again = worked(name, written)
    assert again.layout == result.layout
    assert again.notches == result.notches
    assert again.spring == result.spring


# --- the linkage ------------------------------------------------------------------------


@settings(max_examples=60, deadline=None)
@given(
    x=st.floats(-30, 60), y=st.floats(-20, 60), arm=st.floats(8, 50), middle=st.floats(40, 140),
    half=st.floats(5, 35), away=st.floats(80, 400), rise=st.floats(-25, 25),
    lever=st.floats(15, 90), slack=st.floats(-3, 3),
)  # fmt: skip
def test_lever_against_a_cartesian_solution(
    x: float, y: float, arm: float, middle: float, half: float, away: float, rise: float,
    lever: float, slack: float,
) -> None:  # fmt: skip
    shaft = Shaft("lifting arm", "weighshaft", x, y, middle - half, middle + half, arm)
    pivot = (x - away, y + rise)
    rod = math.dist(shaft.pin(arm, 0.0, np.zeros(1))[0], (pivot[0], pivot[1] + lever)) + slack
    layout = Layout(arm=arm, arm_angle=0.0, upright=1.0, x=pivot[0], y=pivot[1], radius=lever,
                    line=(0.0, 0.0), rod=rod)  # fmt: skip
    stood = stands(layout, shaft, ENDS)
    assume(stood.reached and stood.at_stand.min() > 0.1)
    guess = np.array([pivot[0], pivot[1] + lever])
    found = {}
    # followed outwards from mid gear, each place from the last
    for half_way in (range(4, 9), range(4, -1, -1)):
        at_pin = guess
        for i in half_way:
            end = np.array(
                [x + arm * math.cos(math.radians(middle - half * ENDS[i])),
                 y + arm * math.sin(math.radians(middle - half * ENDS[i]))]
            )  # fmt: skip

            def closed(p: np.ndarray, end: np.ndarray = end) -> list[float]:
                return [(p[0] - end[0]) ** 2 + (p[1] - end[1]) ** 2 - rod**2,
                        (p[0] - pivot[0]) ** 2 + (p[1] - pivot[1]) ** 2 - lever**2]  # fmt: skip

            at_pin, _, sound, _ = fsolve(closed, at_pin, xtol=1e-12, full_output=True)
            assume(sound == 1)
            found[i] = at_pin
    for i, pin in found.items():
        assert stood.pin[i] == pytest.approx(pin, abs=1e-6)
        lean = math.degrees(math.atan2(pin[0] - pivot[0], pin[1] - pivot[1]))
        assert stood.place[i] == pytest.approx(lean, abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(
    arm=st.floats(8, 50), middle=st.floats(50, 130), half=st.floats(5, 35),
    away=st.floats(100, 400), slope=st.floats(-15, 15), turn=st.sampled_from((1.0, -1.0)),
)  # fmt: skip
def test_nut_against_a_cartesian_solution(
    arm: float, middle: float, half: float, away: float, slope: float, turn: float
) -> None:
    shaft = Shaft("lifting arm", "weighshaft", 20.0, 30.0, middle - turn * half,
                  middle + turn * half, arm)  # fmt: skip
    mid = shaft.pin(arm, 0.0, np.zeros(1))[0]
    line = np.array([math.cos(math.radians(slope)), math.sin(math.radians(slope))])
    nut = mid - np.array([away, 3.0])
    rod = math.dist(mid, nut)
    layout = Layout(arm=arm, arm_angle=0.0, upright=1.0, x=nut[0], y=nut[1], radius=0.0,
                    line=(line[0], line[1]), rod=rod)  # fmt: skip
    stood = stands(layout, shaft, ENDS)
    assert stood.place[4] == pytest.approx(0.0, abs=1e-9)
    for i, pin in enumerate(shaft.pin(arm, 0.0, ENDS)):
        s = brentq(lambda s, pin=pin: math.dist(nut + s * line, pin) - rod, -80.0, 80.0, xtol=1e-12)
        assert stood.place[i] == pytest.approx(s, abs=1e-6)
        assert stood.pin[i] == pytest.approx(nut + s * line, abs=1e-6)


@given(x=st.floats(-200, 200), middle=st.floats(50, 130), half=st.floats(5, 30))
def test_a_mirrored_linkage_leans_the_other_way(x: float, middle: float, half: float) -> None:
    assume(abs(x) > 60)

    def placed(sign: float) -> np.ndarray:
        turned = (lambda a: a) if sign > 0 else (lambda a: 180.0 - a)
        shaft = Shaft("lifting arm", "weighshaft", 0.0, 0.0, turned(middle - half),
                      turned(middle + half), 20.0)  # fmt: skip
        layout = Layout(arm=20.0, arm_angle=0.0, upright=1.0, x=sign * x, y=-10.0, radius=32.0,
                        line=(0.0, 0.0), rod=abs(x))  # fmt: skip
        return stands(layout, shaft, ENDS).place

    right, mirrored = placed(1.0), placed(-1.0)
    assert np.isfinite(right).any()
    assert mirrored == pytest.approx(-right, abs=1e-9, nan_ok=True)


def test_figures_of_the_quadrant_follow_from_the_leans() -> None:
    decisions = Reversing(worked_by=Lever(length=40.0, handle=90.0, quadrant_radius=60.0))
    result = worked("hartfell", decisions)
    leans = [one.lean for one in result.notches if one.lean is not None]
    assert result.throw == pytest.approx(max(leans) - min(leans))
    assert result.handle_travel == pytest.approx(90.0 * math.radians(max(leans) - min(leans)))
    middle = next(one for one in result.notches if one.direction == 0)
    for one in result.notches:
        assert one.lean is not None
        assert middle.lean is not None
        away = math.radians(one.lean - middle.lean)
        assert one.arc == pytest.approx(60.0 * away)
        assert one.chord == pytest.approx(2 * 60.0 * math.sin(abs(away) / 2))
    # upright in mid gear but for the reach rod's rounding to a micron
    assert middle.lean == pytest.approx(0.0, abs=0.002)


def test_turns_follow_from_pitch_and_starts() -> None:
    one = worked("hartfell", Reversing(worked_by=Screw(pitch=1.25)))
    two = worked("hartfell", Reversing(worked_by=Screw(pitch=1.25, starts=2)))
    assert one.nut_travel == pytest.approx(two.nut_travel)
    assert one.turns == pytest.approx(one.nut_travel / 1.25)
    assert two.turns == pytest.approx(one.turns / 2)


# --- notches ----------------------------------------------------------------------------


@pytest.mark.parametrize("name", [*NOTCHED, *FURTHER])
def test_notches_cut_off_where_the_events_say(name: str) -> None:
    wanted = (70.0, 60.0, 50.0, 40.0, 30.0, 25.0)
    result, told = worked(name, Reversing(cutoffs=wanted)), arguments(name)
    reached = 0
    for notch in result.notches:
        if notch.reverser is None:
            continue
        events = valve_events(
            told["crank"], told["valve"], told["gear"], notch.reverser, setting=told["setting"]
        )
        assert notch.front == pytest.approx(events.front.cutoff.percent, abs=1e-4)
        assert notch.back == pytest.approx(events.back.cutoff.percent, abs=1e-4)
        if notch.wanted is not None:
            reached += 1
            assert notch.mean == pytest.approx(notch.wanted, abs=0.01)
            assert notch.direction * notch.reverser > 0
    assert reached >= 8
    shaft = shaft_of(told["gear"], told["crank"].throw)
    assert shaft is not None
    for notch in result.notches:
        if notch.reverser is not None:
            share = (1 + notch.reverser) / 2
            angle = shaft.backward + share * (shaft.forward - shaft.backward)
            assert notch.arm_angle == pytest.approx(angle)


def test_a_valve_moved_or_set_otherwise_is_followed() -> None:
    told = arguments("hartfell")
    valve = dataclasses.replace(told["valve"], valve_offset=0.3)
    setting = dataclasses.replace(told["setting"], rule="equal cut-offs", reverser=0.5)
    result = work(Reversing(), **told | {"valve": valve, "setting": setting})
    notch = result.notches[2]
    assert notch.reverser is not None
    events = valve_events(told["crank"], valve, told["gear"], notch.reverser, setting=setting)
    assert notch.front == pytest.approx(events.front.cutoff.percent, abs=1e-4)


def test_a_cutoff_out_of_reach_says_why() -> None:
    result = worked("rowan", Reversing(cutoffs=(90.0, 50.0, 5.0)))
    missed = {(one.name, one.direction): one.missed for one in result.notches if one.missed}
    assert set(missed) == {("90 %", 1), ("5 %", 1), ("90 %", -1), ("5 %", -1)}
    told = arguments("rowan")
    full, middle = (
        (one.front.cutoff.percent + one.back.cutoff.percent) / 2
        for one in (
            valve_events(told["crank"], told["valve"], told["gear"], notch) for notch in (1.0, 0.0)
        )
        if one.front.cutoff and one.back.cutoff
    )
    assert f"full gear cuts off at {full:.1f} %" in missed["90 %", 1]
    assert f"still cuts off at {middle:.1f} %" in missed["5 %", 1]
    (found,) = says(result, "Running forward there is no notch for 90 %, 5 %")
    assert found.level == "check"
    assert result.notches_cut == 5


def test_notches_stand_in_order_and_their_closest_pair_is_named() -> None:
    result = worked("hartfell", Reversing(cutoffs=(60.0, 59.0, 30.0)))
    arcs = [one.arc for one in result.notches]
    # ahead or back for forward gear, as the arm stands; but one way throughout
    way = np.sign(arcs[0] - arcs[-1])
    assert all(way * (a - b) > 0 for a, b in pairwise(arcs))
    assert result.least_pitch == pytest.approx(min(way * (a - b) for a, b in pairwise(arcs)))
    (found,) = says(result, "run into one another")
    assert "60 % and 59 %" in found.says or "59 % and 60 %" in found.says


def test_the_button_for_a_thinner_latch_mends_it() -> None:
    decisions = Reversing(cutoffs=(60.0, 50.0, 40.0, 30.0),
                          worked_by=Lever(latch=2.4, land=0.5))  # fmt: skip
    result = worked("hartfell", decisions)
    (found,) = [one for one in says(result, "on the quadrant") if one.level == "check"]
    assert found.change is not None
    mended = worked("hartfell", put(decisions, *found.change))
    assert not [one for one in says(mended, "on the quadrant") if one.level == "check"]


# --- lever, servo and screw judged ------------------------------------------------------


def test_a_lever_that_stands_back_is_turned_about_by_its_button() -> None:
    result = worked("dunnock")
    (found,) = says(result, "stands back for forward gear")
    assert found.change is not None
    mended = worked("dunnock", put(Reversing(), *found.change))
    assert not says(mended, "stands back for forward gear")
    assert mended.notches[0].lean > 0


def test_a_short_lever_leans_too_far_and_its_button_mends_it() -> None:
    decisions = Reversing(worked_by=Lever(length=20.0))
    (found,) = says(worked("hartfell", decisions), "beyond 45°")
    assert found.change is not None
    assert not says(worked("hartfell", put(decisions, *found.change)), "beyond 45°")


def test_a_rod_that_does_not_reach_is_a_stop() -> None:
    result = worked("hartfell", Reversing(linkage=Linkage(reach_rod=200.0)))
    (found,) = says(result, "does not let the lifting arm go")
    assert found.level == "stop"
    assert result.throw is None
    assert all(one.lean is None for one in result.notches if one.direction)


def test_a_rod_along_its_arm_is_looked_at() -> None:
    level = Reversing(linkage=Linkage(arm_angle=-160.0))
    assert says(worked("hartfell", level), "within")
    assert not says(worked("hartfell"), "within")


def test_servo_that_is_weak_or_stops_short() -> None:
    strong = worked("hartfell", Reversing(worked_by=Servo(torque=20.0)), valve_force=5.0)
    assert strong.servo_needed is not None
    assert strong.stand_torque == pytest.approx(strong.servo_needed * 98.0665)
    need = strong.servo_needed
    for torque, level in ((0.9 * need, "stop"), (1.2 * need, "check"), (1.6 * need, "fine")):
        result = worked("hartfell", Reversing(worked_by=Servo(torque=torque)), valve_force=5.0)
        (found,) = says(result, "said to hold")
        assert found.level == level
    short = Reversing(worked_by=Servo(horn=12.0))
    (found,) = says(worked("rowan", short), "full gear is not reached")
    assert found.change is not None
    assert not says(worked("rowan", put(short, *found.change)), "full gear is not reached")


def test_a_coarse_screw_does_not_hold_itself() -> None:
    fine = worked("hartfell", Reversing(worked_by=Screw(pitch=1.0, diameter=6.0)))
    assert says(fine, "and holds itself")
    coarse = worked("hartfell", Reversing(worked_by=Screw(pitch=1.0, starts=5, diameter=6.0)))
    assert says(coarse, "does not hold itself")


@given(d=st.floats(3, 30), lead=st.floats(0.3, 4), f=st.floats(0.02, 0.25))
def test_screw_torque_is_that_of_the_inclined_plane(d: float, lead: float, f: float) -> None:
    slope, grip = math.atan(lead / (math.pi * d)), math.atan(f / math.cos(math.radians(30)))
    assert screw_torque(F=10.0, d=d, L=lead, f=f) == pytest.approx(
        10.0 * d / 2 * math.tan(slope + grip)
    )


# --- what holds the shaft ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "reverser"), [(n, r) for n in ("rowan", "hartfell", "dunnock", "Gooch")
                           for r in (0.8, 0.3, -0.6)],
)  # fmt: skip
def test_virtual_work_agrees_with_the_pull_of_the_lifting_link(name: str, reverser: float) -> None:
    told = arguments(name)
    gear, shaft = told["gear"], shaft_of(told["gear"], told["crank"].throw)
    assert shaft is not None
    theta = GRID[::2]
    pose = gear.pose(told["crank"], theta[None, :], np.array([[reverser]]))
    pull = gear.forces(pose)["lifting link"][0]
    arm = np.broadcast_to(pose.points["arm"], (1, len(theta), 2))[0]
    pin = np.broadcast_to(pose.points[hung_pins(gear)[0]], (1, len(theta), 2))[0]
    way = (pin - arm) / np.linalg.norm(pin - arm, axis=1)[:, None]
    out = arm - np.array([shaft.x, shaft.y])
    moment = pull * (out[:, 0] * way[:, 1] - out[:, 1] * way[:, 0])
    unit = per_unit(told["crank"], gear, shaft, np.array([reverser])).valve[0]
    # the friction takes the sign of the valve's motion; its size is the statics' alone
    assert np.abs(unit) == pytest.approx(np.abs(moment), rel=2e-3, abs=2e-3 * np.abs(moment).max())


@pytest.mark.parametrize("name", ["rowan", "hartfell", "dunnock", "Gooch", "Allan"])
def test_the_work_of_the_weight_is_its_fall(name: str) -> None:
    told = arguments(name)
    gear, shaft = told["gear"], shaft_of(told["gear"], told["crank"].throw)
    assert shaft is not None
    reversers = np.linspace(-0.9, 0.9, 61)
    torque = per_unit(told["crank"], gear, shaft, reversers).weight
    turned = np.radians([shaft.angle(one) for one in reversers])
    done = float(np.trapezoid(torque, turned))
    heights = []
    for one in (-0.9, 0.9):
        pose = gear.pose(told["crank"], GRID[None, ::2], np.array([[one]]))
        heights.append(np.mean([pose.points[pin][..., 1].mean() for pin in hung_pins(gear)]))
    assert done == pytest.approx(heights[0] - heights[1], rel=1e-3, abs=1e-4)


def test_two_sides_pull_together_and_friction_adds_to_weight() -> None:
    told = arguments("hartfell")
    shaft = shaft_of(told["gear"], told["crank"].throw)
    assert shaft is not None
    unit = per_unit(told["crank"], told["gear"], shaft, np.array([0.5]))
    still, one = torques(unit, 2.0, 3.0, 1, 90.0)
    assert one[0] == pytest.approx(abs(still[0]) + 2.0 * np.abs(unit.valve).max())
    _, two = torques(unit, 2.0, 3.0, 2, 90.0)
    both = unit.valve + np.roll(unit.valve, 9, axis=1)
    assert two[0] == pytest.approx(abs(still[0]) + 2.0 * np.abs(both).max())


def test_power_is_kept_from_the_shaft_to_the_grip() -> None:
    result = worked("hartfell", valve_force=4.0)
    told = arguments("hartfell")
    shaft, layout = result.shaft, result.layout
    assert shaft is not None
    assert layout is not None
    # the lever turns by so much where the shaft turns by a hundredth of the reverser
    best = 0.0
    for one in result.notches:
        assert one.reverser is not None
        assert one.torque is not None
        ends = np.clip(np.array([one.reverser - 0.005, one.reverser + 0.005]), -1, 1)
        lean = np.diff(stands(layout, shaft, ends).place)[0]
        best = max(best, one.torque * abs(shaft.half * np.diff(ends)[0] / lean))
    assert result.stand_torque == pytest.approx(best, rel=2e-3)
    assert result.grip_force == pytest.approx(best / layout.handle, rel=2e-3)
    assert told["number"] == 2


def test_mass_known_or_estimated_is_told_apart() -> None:
    assert says(worked("hartfell"), "is an estimate")
    weighed = worked("hartfell", Reversing(balance=Balance(hung=80.0)))
    assert not says(weighed, "is an estimate")
    double = worked("hartfell", Reversing(balance=Balance(hung=160.0)))
    assert double.weight_torque == pytest.approx(2 * weighed.weight_torque)


@pytest.mark.parametrize("name", ["Joy", "Hackworth", "Baker"])
def test_a_guide_or_yoke_wants_no_balance_spring(name: str) -> None:
    result = worked(name)
    assert result.spring is None
    assert says(result, "wants no balance spring")


# --- balance spring ---------------------------------------------------------------------


def test_the_spring_balances_in_mid_gear_and_a_soft_one_leaves_little() -> None:
    def left(turns: float) -> ReversingResult:
        return worked("hartfell", Reversing(balance=Balance(
            hung=100.0, spring="coil spring in tension", arm=20.0, wire=0.5, coil=5.0,
            turns=turns)))  # fmt: skip

    soft, stiff = left(400.0), left(20.0)
    assert soft.spring is not None
    assert stiff.spring is not None
    assert soft.spring.force * 20.0 == pytest.approx(abs(soft.weight_torque))
    assert stiff.spring.rate == pytest.approx(20 * soft.spring.rate)
    assert soft.spring.left_over < 0.2 * abs(soft.weight_torque) < stiff.spring.left_over
    # by hand: G d^4 / 8 D^3 n
    assert stiff.spring.rate == pytest.approx(79300 * 0.5**4 / (8 * 5.0**3 * 20))
    assert stiff.spring.stretch == pytest.approx(stiff.spring.force / stiff.spring.rate)


def test_left_over_is_the_moment_of_weight_less_that_of_the_spring() -> None:
    decisions = Reversing(balance=Balance(hung=100.0, spring="coil spring in tension", arm=20.0,
                                          wire=0.5, coil=5.0, turns=40.0))  # fmt: skip
    result, told = worked("hartfell", decisions), arguments("hartfell")
    shaft, spring = result.shaft, result.spring
    assert shaft is not None
    assert spring is not None
    left = []
    for one in result.notches:
        unit = per_unit(told["crank"], told["gear"], shaft, np.array([one.reverser])).weight[0]
        turned, way = math.radians(shaft.half * one.reverser), math.copysign(1.0, unit)
        # turning as the links' weight would turn the shaft stretches the spring
        pull = spring.force + way * spring.rate * 20.0 * math.sin(turned)
        left.append(abs(unit * 0.1 * 9.80665 - way * 20.0 * math.cos(turned) * pull))
    assert spring.left_over == pytest.approx(max(left), rel=1e-6)


def test_an_overworked_or_badly_wound_spring_is_told() -> None:
    thin = Balance(hung=800.0, spring="coil spring in tension", wire=0.2, coil=4.0, turns=40.0)
    result = worked("hartfell", Reversing(balance=thin))
    assert says(result, "stressed to")
    assert says(result, "20.0 wires across")


# --- both sides -------------------------------------------------------------------------


def test_two_cylinders_right_or_left_leading_are_mirror_images() -> None:
    right, left = (dict(side_angles(2, 90.0, side)) for side in ("right", "left"))
    # running forward the side that leads reaches its dead centre first
    assert right == {"right": 0.0, "left": 270.0}
    assert left == {"right": 0.0, "left": 90.0}
    for number in (2, 3, 4):
        one = dict(side_angles(number, 77.0, "right"))
        other = dict(side_angles(number, 77.0, "left"))
        for side, angle in one.items():
            assert other[side] == pytest.approx(-angle % 360)


def test_three_cranks_share_the_turn() -> None:
    assert sorted(a for _, a in side_angles(3, 120.0, "right")) == [0.0, 120.0, 240.0]
    assert sorted(a for _, a in side_angles(4, 90.0, "right")) == [0.0, 90.0, 180.0, 270.0]
    assert side_angles(1, 90.0, "right") == (("right", 0.0),)


@pytest.mark.parametrize("leading", ["right", "left"])
def test_eccentrics_stand_where_the_gear_puts_them_on_either_side(leading: str) -> None:
    result = worked("hartfell", Reversing(leading_side=leading))
    advance = sample("hartfell").motion.gear.advance
    for side in ("right", "left"):
        own = {one.part: one for one in result.sides if one.side == side}
        assert own["forward eccentric"].leads == pytest.approx(90 + advance)
        assert own["backward eccentric"].leads == pytest.approx(-(90 + advance))
        for one in own.values():
            assert one.at == pytest.approx((own["crank"].at + one.leads) % 360)


@pytest.mark.parametrize("name", ["dunnock", "merrow", "Baker"])
def test_return_crank_is_the_distance_of_its_pins(name: str) -> None:
    result, told = worked(name), arguments(name)
    pose = told["gear"].pose(told["crank"], np.array([[33.0]]), np.array([[0.4]]))
    pins = [np.broadcast_to(pose.points[j], (1, 1, 2))[0, 0] for j in ("crank_pin", "return_crank")]
    assert result.return_crank_length == pytest.approx(math.dist(*pins))
    assert any(one.part == "return crank" and one.handed for one in result.handed)


def test_a_slip_eccentric_has_nothing_to_cut_but_two_sides() -> None:
    result = worked("tansy")
    assert says(result, "no weighshaft")
    assert result.notches == ()
    assert result.shaft is None
    parts = {one.part: one.leads for one in result.sides if one.side == "right"}
    assert parts["eccentric, forward"] == pytest.approx(118.0)
    assert parts["eccentric, backward"] == pytest.approx(-118.0)


@pytest.mark.parametrize(("kind", "parts"), [("change-over", 1), ("oscillating", 0)])
def test_gears_reversed_by_a_valve_have_nothing_to_turn(kind: str, parts: int) -> None:
    told = arguments("tansy")
    sizes = sizes_for_events(75.0, 0.2, 1.2)
    gear = GEARS[kind].laid_out(told["crank"], sizes, Wanted(), "outside")
    result = work(Reversing(), **told | {"gear": gear})
    assert says(result, "no weighshaft")
    assert len(result.sides) == 2 * (1 + parts)
    assert pictures(Reversing(), result)


def test_cranks_at_an_odd_angle_are_looked_at() -> None:
    (found,) = says(worked("hartfell", crank_angle=100.0), "do not beat evenly")
    assert found.change == ("cylinders.crank_angle", 90.0)
    assert not says(worked("hartfell", crank_angle=270.0), "do not beat evenly")
    assert says(worked("hartfell", number=3), "do not beat evenly")
    assert not says(worked("hartfell", number=3, crank_angle=120.0), "do not beat evenly")


def test_what_a_bought_part_settled_is_left_alone() -> None:
    fixed = frozenset({"reversing.linkage.arm_angle"})
    (found,) = says(worked("dunnock", fixed=fixed), "stands back")
    assert found.change is None
    assert "reversing.linkage.arm_angle" not in {
        one.field for one in worked("dunnock", fixed=fixed).suggestions
    }


def test_the_workings_show_their_numbers() -> None:
    result = worked("dunnock", valve_force=3.0)
    shown = {one.label: one for one in result.workings}
    chord = shown["Return crank, between its pins' centres"]
    assert chord.result == pytest.approx(result.return_crank_length)
    for one in result.workings:
        assert one.in_symbols()
        assert one.in_numbers()
