"""Valve events: their definitions, symmetry, and the settings of the valve."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.motion.gears_for_tests import ALL, CRANK, DIRECT, INSIDE, OUTSIDE, ROCKER, SLIP, near
from weighshaft.motion import (
    Crank,
    EndEvents,
    MotionLocks,
    SlideValve,
    SlipEccentric,
    Stephenson,
    ValveEvents,
    ValveSetting,
    events_over,
    valve_events,
)
from weighshaft.sizes import SizeError

LONG = 1e7  # a rod so long that its slope does not tell, mm
FINE = 1e-6  # events are promised to this, degrees


def valve_for(gear: object, **sizes: float) -> SlideValve:
    given = {"steam_lap": 2.2, "exhaust_lap": 0.1, "port_width": 3.0} | sizes
    return SlideValve(**given, admission=gear.admission)  # type: ignore[attr-defined, arg-type]


def four(end: EndEvents) -> list[object]:
    return [end.admission, end.cutoff, end.release, end.compression]


@pytest.mark.parametrize("name", ALL)
@pytest.mark.parametrize("reverser", [1.0, 0.5, -0.5, -1.0])
def test_at_each_event_the_valve_stands_at_its_edge(name: str, reverser: float) -> None:
    gear = ALL[name]
    valve = valve_for(gear)
    events = valve_events(CRANK, valve, gear, reverser)
    for side, end in (("front", events.front), ("back", events.back)):
        for event, opening in zip(
            four(end), [valve.steam_opening] * 2 + [valve.exhaust_opening] * 2, strict=True
        ):
            assert event is not None
            pose = gear.pose(CRANK, np.array([[event.angle]]), np.array([[reverser]]))
            assert opening(side, pose.valve + events.setting) == pytest.approx(0.0, abs=1e-8)
            piston = float(CRANK.from_front(event.angle))
            distance = 100 * (piston if side == "front" else 1 - piston)
            assert abs(event.percent) == pytest.approx(distance)


@pytest.mark.parametrize("name", ALL)
def test_steam_comes_before_cut_off_and_release_before_compression(name: str) -> None:
    gear = ALL[name]
    for reverser in (1.0, -1.0):
        events = valve_events(CRANK, valve_for(gear), gear, reverser)
        for end, start in ((events.front, 0.0), (events.back, 180.0)):
            order = [(np.sign(reverser) * (event.angle - start) + 15) % 360 for event in four(end)]
            assert order == sorted(order)


@settings(max_examples=25)
@given(
    throw=st.floats(2.0, 8.0), share=st.floats(0.1, 0.8), lead=st.floats(0.0, 0.1),
    exhaust=st.floats(-0.1, 0.1), ratio=st.floats(3.0, 12.0),
)  # fmt: skip
def test_slip_eccentric_with_a_long_rod_gives_the_textbook_events(
    throw: float, share: float, lead: float, exhaust: float, ratio: float
) -> None:
    """Closed form: angles asin(L/r) - delta and so on, textbook slide-valve geometry."""
    lap, lead, exhaust = share * throw, lead * throw, exhaust * throw
    delta = np.degrees(np.arcsin((lap + lead) / throw))
    gear = SlipEccentric(
        eccentric_throw=throw, advance=delta, eccentric_rod=LONG, spindle_height=0.0
    )
    crank = Crank(2.0, ratio)
    events = valve_events(crank, SlideValve(lap, exhaust, 2.0), gear, 1.0)
    a, i = np.degrees(np.arcsin(lap / throw)), np.degrees(np.arcsin(exhaust / throw))
    for end, start in ((events.front, 0.0), (events.back, 180.0)):
        angles = np.array([event.angle for event in four(end)])
        book = start + np.array([a - delta, 180 - a - delta, 180 + i - delta, 360 - i - delta])
        assert (angles - book + 180) % 360 - 180 == pytest.approx(np.zeros(4), abs=1e-3)
        assert end.lead == pytest.approx(lead, abs=1e-5)
        assert end.port_opening == pytest.approx(throw - lap, abs=1e-5)


def mirrored(events: ValveEvents) -> list[float]:
    found = []
    for end in (events.front, events.back):
        found += [event.percent if event else np.nan for event in four(end)]
        found += [end.lead, end.port_opening]
    return [*found, events.travel]


@pytest.mark.parametrize("gear", [DIRECT, SLIP])
@pytest.mark.parametrize("reverser", [1.0, 0.4])
def test_gear_in_the_mirror_swaps_forward_and_backward(gear: object, reverser: float) -> None:
    """Turned over about the cylinder's line, forward gear of one is backward gear of the other."""
    if isinstance(gear, Stephenson):
        # with equal advances the mirror swaps the rods; the lifting gear hangs the other way up
        other = replace(
            gear, suspension_above=-gear.suspension_above, weighshaft_y=-gear.weighshaft_y,
            arm_angle_forward=-gear.arm_angle_backward, hanging="above",
            arm_angle_backward=-gear.arm_angle_forward,
        )  # fmt: skip
        level = ValveSetting(rule="equal leads", reverser=0.0)
    else:
        other = replace(SLIP, spindle_height=-SLIP.spindle_height)
        level = ValveSetting(rule="equal leads", reverser=1.0)
    ours = valve_events(CRANK, valve_for(gear), gear, reverser, setting=level)
    against = ValveSetting(rule="equal leads", reverser=-level.reverser)
    theirs = valve_events(CRANK, valve_for(gear), other, -reverser, setting=against)
    assert mirrored(theirs) == pytest.approx(mirrored(ours), abs=1e-6)


@settings(max_examples=10)
@given(st.floats(0.05, 40.0), st.sampled_from(sorted(ALL)))
def test_scaling_every_length_leaves_the_percentages_alone(factor: float, name: str) -> None:
    gear = ALL[name]

    def scaled(thing: object) -> object:
        lengths = {
            n: v * factor for n, v in vars(thing).items()
            if isinstance(v, float) and "angle" not in n and "advance" not in n
        }  # fmt: skip
        return replace(thing, **lengths)  # type: ignore[type-var]

    crank = Crank(CRANK.stroke * factor, CRANK.connecting_rod * factor)
    valve = valve_for(gear)
    ours = mirrored(valve_events(CRANK, valve, gear, 0.6))
    theirs = mirrored(valve_events(crank, scaled(valve), scaled(gear), 0.6))  # type: ignore[arg-type]
    per_cent = [0, 1, 2, 3, 6, 7, 8, 9]
    assert [theirs[i] for i in per_cent] == pytest.approx([ours[i] for i in per_cent], abs=1e-6)
    assert theirs[-1] == pytest.approx(ours[-1] * factor)


@settings(max_examples=10)
@given(st.lists(st.floats(0.2, 3.2), min_size=2, max_size=5), st.sampled_from(sorted(ALL)))
def test_more_lap_never_lengthens_cut_off(laps: list[float], name: str) -> None:
    gear = ALL[name]
    before = np.inf
    for lap in sorted(laps):
        events = valve_events(CRANK, valve_for(gear, steam_lap=lap), gear, 1.0)
        for end in (events.front, events.back):
            assert end.cutoff is not None
        mean = events.front.cutoff.percent + events.back.cutoff.percent  # type: ignore[union-attr]
        assert mean <= before + 1e-9
        before = mean


def test_valve_is_set_for_equal_leads_in_full_forward_gear() -> None:
    for gear in ALL.values():
        events = valve_events(CRANK, valve_for(gear), gear, 1.0)
        assert events.front.lead == pytest.approx(events.back.lead, abs=1e-9)


def test_moving_the_valve_ahead_takes_lead_from_the_front() -> None:
    for gear, sense in ((DIRECT, -1), (INSIDE, 1)):
        still = valve_events(CRANK, valve_for(gear), gear, 1.0)
        moved = valve_events(CRANK, valve_for(gear, valve_offset=0.05), gear, 1.0)
        assert moved.front.lead - still.front.lead == pytest.approx(sense * 0.05)
        assert moved.back.lead - still.back.lead == pytest.approx(-sense * 0.05)


@pytest.mark.parametrize("gear", [DIRECT, OUTSIDE, ROCKER, SLIP])
def test_valve_set_for_equal_cut_offs_has_them(gear: object) -> None:
    notch = 1.0 if gear is SLIP else 0.5
    setting = ValveSetting(rule="equal cut-offs", reverser=notch)
    valve = valve_for(gear, steam_lap=1.6)
    events = valve_events(CRANK, valve, gear, notch, setting=setting)  # type: ignore[arg-type]
    assert events.front.cutoff is not None
    assert events.back.cutoff is not None
    assert events.front.cutoff.percent == pytest.approx(events.back.cutoff.percent, abs=1e-6)


def test_valve_set_at_mid_gear_has_equal_leads_there() -> None:
    setting = ValveSetting(rule="equal leads", reverser=0.0)
    events = valve_events(CRANK, valve_for(DIRECT), DIRECT, 0.0, setting=setting)
    assert events.front.lead == pytest.approx(events.back.lead, abs=1e-9)


def test_a_setting_that_cannot_be_had_is_refused_in_words() -> None:
    setting = ValveSetting(rule="equal cut-offs", reverser=0.0)
    with pytest.raises(ValueError, match="cannot be set for equal cut-offs"):
        valve_events(CRANK, valve_for(DIRECT, steam_lap=5.5), DIRECT, 1.0, setting=setting)


def test_a_port_that_stays_shut_has_no_events_and_a_negative_opening() -> None:
    events = valve_events(CRANK, valve_for(SLIP, steam_lap=6.0), SLIP, 1.0)
    for end in (events.front, events.back):
        assert end.admission is None
        assert end.cutoff is None
        assert end.release is not None
        assert end.compression is not None
        assert end.port_opening < 0
        assert end.steam_openings == 0


def test_a_port_never_shut_to_exhaust_has_no_release() -> None:
    events = valve_events(CRANK, valve_for(SLIP, exhaust_lap=-6.0), SLIP, 1.0)
    assert events.front.release is None
    assert events.front.compression is None
    assert events.front.cutoff is not None


def test_the_briefest_opening_is_still_seen() -> None:
    """The port opens for well under a degree, between the angles that are sampled."""
    events = valve_events(CRANK, valve_for(SLIP, steam_lap=4.9999995), SLIP, 1.0)
    opened = [end for end in (events.front, events.back) if end.port_opening > 0]
    assert opened
    for end in opened:
        assert end.admission is not None
        assert end.cutoff is not None


def test_drifting_backward_in_forward_gear_reads_the_same_ports_the_other_way() -> None:
    ahead = valve_events(CRANK, valve_for(DIRECT), DIRECT, 0.5)
    drift = valve_events(CRANK, valve_for(DIRECT), DIRECT, 0.5, direction=-1)
    for ours, theirs in ((ahead.front, drift.front), (ahead.back, drift.back)):
        assert theirs.admission.angle == pytest.approx(ours.cutoff.angle, abs=FINE)  # type: ignore[union-attr]
        assert theirs.cutoff.angle == pytest.approx(ours.admission.angle, abs=FINE)  # type: ignore[union-attr]
        assert theirs.release.angle == pytest.approx(ours.compression.angle, abs=FINE)  # type: ignore[union-attr]


def test_mid_gear_runs_forward_unless_told() -> None:
    forward = valve_events(CRANK, valve_for(DIRECT), DIRECT, 0.0)
    told = valve_events(CRANK, valve_for(DIRECT), DIRECT, 0.0, direction=1)
    assert forward == told


def test_an_admission_behind_the_dead_centre_counts_negative() -> None:
    late = replace(SLIP, advance=20.0)
    events = valve_events(CRANK, valve_for(late), late, 1.0)
    assert events.front.lead < 0
    assert events.front.admission is not None
    assert events.front.admission.percent < 0


def test_gear_and_valve_have_to_agree_on_the_edge_that_admits() -> None:
    with pytest.raises(SizeError, match="both have to agree"):
        valve_events(CRANK, SlideValve(2.0, 0.0, 3.0, admission="inside"), DIRECT, 1.0)


def test_inside_admission_with_long_rods_is_outside_admission_turned_half_round() -> None:
    outside = SlipEccentric(
        eccentric_throw=5.0, advance=28.0, eccentric_rod=LONG, spindle_height=0.0
    )
    inside = replace(outside, admission="inside")
    ours = valve_events(CRANK, valve_for(outside), outside, 1.0)
    theirs = valve_events(CRANK, valve_for(inside), inside, 1.0)
    assert mirrored(theirs) == pytest.approx(mirrored(ours), abs=1e-3)


def test_many_notches_at_once_give_what_each_gives_alone() -> None:
    notches = [1.0, 0.3, -0.7]
    together = events_over(CRANK, valve_for(ROCKER), ROCKER, notches)
    for notch, events in zip(notches, together, strict=True):
        alone = valve_events(CRANK, valve_for(ROCKER), ROCKER, notch)
        assert mirrored(events) == pytest.approx(mirrored(alone), abs=1e-7)


@settings(max_examples=15)
@given(gear=st.one_of(near(DIRECT, 0.1), near(OUTSIDE, 0.05)), reverser=st.floats(-1, 1))
def test_no_event_is_ever_a_nan(gear: object, reverser: float) -> None:
    try:
        events = valve_events(CRANK, valve_for(gear), gear, reverser)  # type: ignore[arg-type]
    except MotionLocks:
        return
    figures = [value for value in mirrored(events) if value is not None]
    present = [e for end in (events.front, events.back) for e in four(end) if e is not None]
    assert all(np.isfinite([event.angle, event.percent]).all() for event in present)  # type: ignore[attr-defined]
    assert np.isfinite([events.travel, figures[4], figures[5]]).all()
