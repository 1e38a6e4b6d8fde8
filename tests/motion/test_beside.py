"""Two gears on one engine: compared at the same cut-off, and each measure told as it is."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.motion import link_gears_for_tests as link_gears
from tests.motion.gears_for_tests import ALL, CRANK, DIRECT, INSIDE, OUTSIDE, SLIP
from weighshaft.motion import (
    Baker,
    ChangeOver,
    MotionLocks,
    SlideValve,
    ValveSetting,
    events_over,
    valve_events,
)
from weighshaft.motion.beside import OtherGear, SideBySide, compare
from weighshaft.motion.beside_sides import FRAMES, mean
from weighshaft.motion.chapter import FRAMES as OF_THE_CHAPTER
from weighshaft.sizes import SizeError

VALVE = SlideValve(2.2, 0.1, 3.0)
NOTCHES = (1.0, 0.5, 0.0, -0.5, -1.0)
BAKER = Baker.laid_out(CRANK, link_gears.SIZES, link_gears.WANTED, "outside")
CHANGE_OVER = ChangeOver(eccentric_throw=3.0, eccentric_rod=110.0, spindle_height=5.0)


def side_by_side(gear: Any, other: Any, look: float = 0.5, **laps: float) -> SideBySide:
    valve = replace(VALVE, admission=gear.admission)
    return compare(
        OtherGear(gear=other, **laps), crank=CRANK, valve=valve, gear=gear,
        setting=ValveSetting(), reversers=NOTCHES, running_notch=look,
    )  # fmt: skip


def test_frames_are_those_of_the_chapter() -> None:
    assert np.array_equal(FRAMES, OF_THE_CHAPTER)


@pytest.mark.parametrize("look", [0.75, 0.4, -0.5])
@pytest.mark.parametrize("other", [OUTSIDE, INSIDE, BAKER, DIRECT])
def test_both_cut_off_alike_where_they_are_compared(other: Any, look: float) -> None:
    found = side_by_side(DIRECT, other, look, steam_lap=2.0)
    assert found.same_cutoff
    assert found.reverser_first == look
    assert found.reverser_other * look > 0
    one = valve_events(CRANK, VALVE, DIRECT, look)
    valve = replace(VALVE, steam_lap=2.0, admission=other.admission)
    two = valve_events(CRANK, valve, other, found.reverser_other)
    assert mean(two, "cutoff") == pytest.approx(mean(one, "cutoff"), abs=1e-6)
    assert found.cutoff == pytest.approx(mean(one, "cutoff"))
    assert found.other.alike.front.lead == pytest.approx(two.front.lead, abs=1e-9)
    assert f"{found.cutoff:.1f} %" in found.says


@given(look=st.floats(0.2, 1.0), lap=st.floats(1.8, 2.6))
@settings(max_examples=8, deadline=None)
def test_exchanged_gears_exchange_the_figures(look: float, lap: float) -> None:
    """The same two gears the other way round, from the notch that was found: mirrored figures."""
    there = side_by_side(DIRECT, OUTSIDE, look, steam_lap=lap)
    if not there.same_cutoff or there.reverser_first != look:
        return
    back = compare(
        OtherGear(gear=DIRECT, steam_lap=2.2), crank=CRANK, valve=replace(VALVE, steam_lap=lap),
        gear=OUTSIDE, setting=ValveSetting(), reversers=NOTCHES,
        running_notch=there.reverser_other,
    )  # fmt: skip
    assert back.reverser_other == pytest.approx(look, abs=1e-6)
    for one, other in zip(there.measures, back.measures, strict=True):
        assert one.name == other.name
        assert one.first == pytest.approx(other.other, abs=1e-5)
        assert one.other == pytest.approx(other.first, abs=1e-5)


def test_a_gear_beside_itself_is_alike_in_everything() -> None:
    found = side_by_side(OUTSIDE, OUTSIDE, steam_lap=2.2, exhaust_lap=0.1)
    assert found.reverser_other == pytest.approx(0.5)
    assert all(one.first == one.other for one in found.measures)
    assert all(one.says.endswith(": alike.") for one in found.measures)
    assert (found.first.name, found.other.name) == ("the gear as it is", "the gear beside it")


def test_where_one_has_no_notches_the_other_is_brought_to_it() -> None:
    """A slip eccentric cuts off late: the link motion is linked up or down to meet it."""
    found = side_by_side(DIRECT, SLIP, steam_lap=2.0)
    assert found.same_cutoff
    assert found.reverser_other == 1.0
    assert 0.9 < found.reverser_first < 1.0
    assert [one.reverser for one in found.other.events] == [1.0, -1.0]


def test_cut_offs_that_cannot_be_had_are_told() -> None:
    found = side_by_side(DIRECT, CHANGE_OVER, steam_lap=0.0, exhaust_lap=0.0)
    assert not found.same_cutoff
    assert found.cutoff is None
    # the link motion comes nearest in full gear
    assert found.reverser_first == 1.0
    first, other = mean(found.first.alike, "cutoff"), mean(found.other.alike, "cutoff")
    assert first is not None
    assert other is not None
    assert first < other
    assert f"{first:.1f} % and {other:.1f} %" in found.says


def by_name(found: SideBySide, name: str) -> Any:
    (one,) = [one for one in found.measures if one.name.startswith(name)]
    return one


def test_measures_are_those_of_the_events() -> None:
    found = side_by_side(DIRECT, OUTSIDE)
    events = events_over(CRANK, VALVE, DIRECT, [0.5, 1.0])
    half, full = events
    assert half.front.cutoff is not None
    assert half.back.cutoff is not None
    apart = by_name(found, "Cut-off, front against back")
    assert apart.first == pytest.approx(abs(half.front.cutoff.percent - half.back.cutoff.percent))
    lead = (half.front.lead + half.back.lead) / 2
    leads = [one for one in found.measures if one.name == "Lead"]
    assert leads[0].first == pytest.approx(lead)
    kept = by_name(found, "Lead against")
    assert kept.first == pytest.approx(lead - (full.front.lead + full.back.lead) / 2)
    # Walschaerts' lead is the same in every notch
    assert kept.other == pytest.approx(0.0, abs=5e-3)
    assert kept.says.endswith("less with Walschaerts' gear.")
    opens = by_name(found, "Port opens")
    assert opens.first == pytest.approx(min(half.front.port_opening, half.back.port_opening))
    assert by_name(found, "Release").first == pytest.approx(mean(half, "release"))
    assert by_name(found, "Compression").first == pytest.approx(mean(half, "compression"))
    assert by_name(found, "Valve travel").first == pytest.approx(half.travel)


def test_verdicts_name_the_gear_that_the_figures_favour() -> None:
    found = side_by_side(DIRECT, OUTSIDE)
    for one in found.measures:
        if one.says.endswith(": alike.") or one.first is None or one.other is None:
            continue
        verdict = one.says.rpartition(": ")[2]
        less = any(word in verdict for word in ("nearer alike", "less", "fewer"))
        low = found.first if one.first < one.other else found.other
        high = found.other if low is found.first else found.first
        assert (low if less else high).name in verdict
        assert (high if less else low).name not in verdict


def test_parts_and_joints_are_counted() -> None:
    """Counted on drawings of the gears, without crank, connecting rod and gudgeon pin."""
    found = side_by_side(DIRECT, SLIP)
    # two eccentrics, two rods, link, lifting link, lifting arm, die
    assert found.first.parts == 8
    # two straps, two rod pins, lifting pin, arm's pin, weighshaft, die
    assert found.first.joints == 8
    assert (found.other.parts, found.other.joints) == (2, 2)
    assert by_name(found, "Die slips").other is None
    assert "none with the slip eccentric" in by_name(found, "Die slips").says
    lever = side_by_side(OUTSIDE, ALL["rocker"])
    # return crank pin, tail pin, link's pivot, die, lifting pin, arm's pin, weighshaft, radius
    # rod's pin, union pin, drop arm's pin, valve pin
    assert (lever.first.parts, lever.first.joints) == (10, 11)
    # beside the direct one's: rocker and valve rod; rocker's pivot, its top pin, valve pin
    assert (lever.other.parts, lever.other.joints) == (10, 11)


def test_events_that_are_worked_already_are_taken() -> None:
    worked = events_over(CRANK, VALVE, DIRECT, NOTCHES)
    found = compare(
        OtherGear(gear=OUTSIDE), crank=CRANK, valve=VALVE, gear=DIRECT, setting=ValveSetting(),
        reversers=NOTCHES, running_notch=0.5, worked=worked,
    )  # fmt: skip
    assert found.first.events == worked
    # taken as given, and not worked again
    odd = tuple(replace(one, travel=99.0) for one in worked)
    again = compare(
        OtherGear(gear=OUTSIDE), crank=CRANK, valve=VALVE, gear=DIRECT, setting=ValveSetting(),
        reversers=NOTCHES, running_notch=0.5, worked=odd,
    )  # fmt: skip
    assert by_name(again, "Valve travel").first == 99.0


def test_laps_of_the_valve_hold_unless_others_are_given() -> None:
    other = OtherGear(gear=INSIDE, exhaust_lap=-0.2, valve_offset=0.1)
    made = other.valve_on(VALVE)
    assert (made.steam_lap, made.exhaust_lap, made.valve_offset) == (2.2, -0.2, 0.1)
    assert made.admission == "inside"
    assert made.port_width == VALVE.port_width


def test_a_gear_that_locks_or_a_size_that_is_none_is_refused() -> None:
    with pytest.raises(MotionLocks):
        side_by_side(DIRECT, replace(OUTSIDE, eccentric_rod=10.0))
    with pytest.raises(SizeError, match="Steam lap of the gear beside it"):
        OtherGear(gear=SLIP, steam_lap=float("nan"))


def test_a_lead_below_nothing_is_told_as_a_covered_port() -> None:
    found = side_by_side(DIRECT, SLIP, steam_lap=3.5)
    (lead,) = [one for one in found.measures if one.name == "Lead"]
    assert lead.other is not None
    assert lead.other < 0
    assert f"port covered by {-lead.other:.2f} mm with the slip eccentric" in lead.says
    assert not any(re.search(r"-\d", one.says) for one in found.measures)
