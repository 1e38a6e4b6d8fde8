"""Joy's gear against what books say of it, and against its ideal.

No published layout with dimensions and events was found (looked for among stored books and
pages on locomotives, marine engines and models), so that no single engine is checked here.
Sources of what is checked: A. Sinclair, Locomotive Engine Running and Management, chapter
XXII "The Joy valve-gear" (motion from about two fifths of the connecting rod; upright slot
gives the lead alone, alike at both ends; slot inclined to the front: forward gear; lap and
lead depend on the lever beyond its fulcrum; cut-off almost equal at both ends in every notch
both ways); "Joy's valve gear", Railway and Locomotive Engineering, caption of figure 1 (links
curved with the length of the valve rod; the fulcrum at the middle of the slot on both dead
centres; lead constant in all notches); "Erecting engines", part 4, chestofbooks.com (the
lever's middle vibrates equally about the quadrant's centre).  The ideal for long rods is
derived in `ideal`; textbooks give it in the same form (from memory).
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from weighshaft.motion import (
    Crank,
    SlideValve,
    Wanted,
    equivalent_eccentric,
    sizes_for_events,
    solve_motion,
    valve_events,
)
from weighshaft.motion.joy import Joy

TURN = np.linspace(0.0, 360.0, 360, endpoint=False)
NOTCHES = (1.0, 0.75, 0.5, 0.25, 0.0, -0.25, -0.5, -0.75, -1.0)
ENGINE = Crank(53.975, 190.5)
WANTED = Wanted(cutoff=78.0, lead=0.3, port_opening=4.0)
SIZES = sizes_for_events(78.0, 0.3, 4.0)
GEAR = replace(Joy.laid_out(ENGINE, SIZES, WANTED, "outside"), guide_radius=None)


def square(
    tilt: float, upper: float = 18.0, *, rod_pin: float = 40.0, guide: str = "curved"
) -> Joy:
    """A gear that stands square at mid stroke: correcting link and lever upright, anchor level."""
    rest = 100.0 - rod_pin
    return Joy(
        rod_pin=rod_pin, correcting_link=60.0, lever_pin=20.0, anchor_link=80.0,
        anchor_x=rest + 80.0, anchor_y=-60.0, lever_lower=70.0, lever_upper=upper, guide=guide,
        guide_x=rest, guide_y=50.0, guide_angle_forward=90.0 - tilt,
        guide_angle_backward=90.0 + tilt, valve_rod=90.0, spindle_height=50.0 + upper,
    )  # fmt: skip


def ideal(throw: float, tilt: float, upper: float, rod_pin: float) -> tuple[float, float]:
    """Return A and B of the valve's motion -A cos w - B sin w, w the crank angle.

    For a throw small beside every rod, the correcting link's pin runs along by what the anchor
    leaves of the throw (40/60), and rises by the rod pin's share of the crank's rise; the lever
    turns about the die, which the guide carries along by tan(tilt) of the rise.
    """
    arms = upper / 70.0
    return (
        throw * 40.0 / 60.0 * arms,
        throw * rod_pin / 100.0 * math.tan(math.radians(tilt)) * (1 + arms),
    )


def departure(throw: float, notch: float, guide: str = "curved") -> tuple[float, float]:
    """By how much the linkage departs from the ideal in A and in B, as shares of the throw."""
    motion = solve_motion(Crank(2 * throw, 100.0), square(25.0, guide=guide), TURN, notch)
    ours = equivalent_eccentric(TURN, motion.valve)
    advance = math.radians(ours.advance)
    a, b = ideal(throw, 25.0 * notch, 18.0, 40.0)
    return (
        (ours.throw * math.sin(advance) - a) / throw,
        (ours.throw * math.cos(advance) - b) / throw,
    )


@pytest.mark.parametrize("notch", [1.0, 0.5, 0.0, -0.5, -1.0])
@pytest.mark.parametrize("guide", ["curved", "straight"])
def test_long_rods_give_the_ideal(notch: float, guide: str) -> None:
    assert departure(1e-2, notch, guide) == pytest.approx((0, 0), abs=1e-6)


@pytest.mark.parametrize("notch", [1.0, 0.5, -1.0])
def test_the_ideal_is_approached_as_the_square_of_throw_over_rods(notch: float) -> None:
    errors = np.abs([departure(throw, notch) for throw in (2.0, 1.0, 0.5)])
    assert np.log2(errors[:-1] / errors[1:]) == pytest.approx(2.0, abs=0.15)


@pytest.mark.parametrize("upper", [5.0, 18.0, 40.0])
@pytest.mark.parametrize("rod_pin", [30.0, 40.0, 60.0])
def test_lap_and_lead_depend_on_the_lever_and_travel_on_place_and_tilt(
    upper: float, rod_pin: float
) -> None:
    """Lap and lead by the lever beyond its fulcrum (Sinclair); mid gear has no other motion."""
    crank = Crank(0.02, 100.0)
    mid, full = (
        equivalent_eccentric(
            TURN, solve_motion(crank, square(20.0, upper, rod_pin=rod_pin), TURN, notch).valve
        )
        for notch in (0.0, 1.0)
    )
    a, b = ideal(0.01, 20.0, upper, rod_pin)
    assert mid.advance == pytest.approx(90.0, abs=0.01)
    assert mid.throw == pytest.approx(a, rel=1e-4)
    assert full.throw == pytest.approx(math.hypot(a, b), rel=1e-4)
    assert full.advance == pytest.approx(math.degrees(math.atan2(a, b)), abs=0.01)


def test_struck_with_the_valve_rod_the_guide_gives_mid_gear_no_motion_of_its_own() -> None:
    """A lever that ends at the die leaves the valve still in mid gear, wherever the die goes."""
    still = square(25.0, 1e-9)
    crank = Crank(40.0, 100.0)
    motion = solve_motion(crank, still, TURN, 0.0)
    assert motion.die is not None
    assert np.ptp(motion.die) > 10
    assert np.ptp(motion.valve) < 1e-8
    straight = solve_motion(crank, replace(still, guide="straight"), TURN, 0.0)
    assert np.ptp(straight.valve) > 0.1


@pytest.mark.parametrize("notch", NOTCHES)
def test_lead_is_constant_and_alike_at_both_ends(notch: float) -> None:
    valve = SlideValve(SIZES.steam_lap, 0.0, 4.5)
    events, mid = (valve_events(ENGINE, valve, GEAR, r) for r in (notch, 0.0))
    assert events.front.lead == pytest.approx(mid.front.lead, abs=1e-9)
    assert events.back.lead == pytest.approx(events.front.lead, abs=1e-9)
    assert mid.front.lead == pytest.approx(0.3, rel=1e-6)


def test_upright_slot_gives_lead_alone() -> None:
    """In mid gear the ports open by little more than the lead, the same at both ends."""
    events = valve_events(ENGINE, SlideValve(SIZES.steam_lap, 0.0, 4.5), GEAR, 0.0)
    for end in (events.front, events.back):
        assert 0 <= end.port_opening - end.lead < 0.01 * SIZES.travel


def test_slot_inclined_to_the_front_is_forward_gear() -> None:
    assert GEAR.guide_angle_forward < 90 < GEAR.guide_angle_backward
    share = GEAR.rod_pin / ENGINE.connecting_rod
    assert share == pytest.approx(0.4, abs=0.05)


@pytest.mark.parametrize("notch", [1.0, 0.75, 0.5, -0.5, -0.75, -1.0])
def test_cut_off_is_almost_equal_at_both_ends_in_every_notch_both_ways(notch: float) -> None:
    """The slot struck with the length of the valve rod; within five per cent of the stroke."""
    events = valve_events(ENGINE, SlideValve(SIZES.steam_lap, 0.0, 4.5), GEAR, notch)
    assert events.front.cutoff
    assert events.back.cutoff
    assert abs(events.front.cutoff.percent - events.back.cutoff.percent) < 5


def test_die_vibrates_equally_about_the_middle_of_the_slot() -> None:
    die = solve_motion(ENGINE, GEAR, TURN, 0.0).die
    assert die is not None
    assert die.max() == pytest.approx(-die.min(), rel=0.02)
