"""Hackworth's gear against its ideal.

No published layout with dimensions and events was found (looked for among stored books and
pages on locomotives, marine engines and models), so that no single engine is checked here.
C. H. Peabody, Valve-Gears for Steam-Engines, chapter IV (p. 88): a radial gear takes its mid
gear motion from the equivalent of an eccentric with 90 degrees of advance, made equal to lap
plus lead, and combines with it that of an eccentric without advance.  The ideal for long rods
is derived in `ideal`; textbooks give it in the same form (from memory).
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from weighshaft.motion import Crank, SlideValve, equivalent_eccentric, solve_motion, valve_events
from weighshaft.motion.hackworth import Hackworth

CRANK = Crank(40.0, 1e7)  # the books' infinite connecting rod
TURN = np.linspace(0.0, 360.0, 360, endpoint=False)
NOTCHES = (1.0, 0.7, 0.3, 0.0, -0.5, -1.0)


def gear(
    throw: float, share: float = 0.8, *, high: float = 100.0, radius: float | None = None
) -> Hackworth:
    """A square gear, its eccentric opposite to the crank, or with it for a pin beyond the die."""
    made = Hackworth(
        eccentric_throw=throw, eccentric_angle=180.0 if share < 1 else 0.0, eccentric_rod=high,
        valve_pin=share * high, guide="curved" if radius else "straight", guide_radius=radius,
        guide_y=high, guide_angle_forward=115.0 if share < 1 else 65.0,
        guide_angle_backward=65.0 if share < 1 else 115.0, valve_rod=150.0,
        spindle_height=share * high,
    )  # fmt: skip
    return made.squared()


def ideal(throw: float, share: float, notch: float) -> tuple[float, float]:
    """Return A and B of the valve's motion -A cos w - B sin w, w the crank angle.

    For a throw small beside the rods, the pin takes 1 - k of what the eccentric goes along,
    and k of what the die goes along, which is the eccentric's rise times the guide's slope.
    """
    slope = math.tan(math.radians(25.0 * notch))
    return throw * abs(1 - share), throw * share * slope


def departure(throw: float, share: float, notch: float, radius: float | None) -> list[float]:
    """By how much the linkage departs from the ideal in A and in B, as shares of the throw."""
    valve = solve_motion(CRANK, gear(throw, share, radius=radius), TURN, notch).valve
    ours = equivalent_eccentric(TURN, valve)
    advance = math.radians(ours.advance)
    a, b = ideal(throw, share, notch)
    return [
        (ours.throw * math.sin(advance) - a) / throw,
        (ours.throw * math.cos(advance) - b) / throw,
    ]


@pytest.mark.parametrize("share", [0.6, 0.8, 1.25])
@pytest.mark.parametrize("notch", NOTCHES)
@pytest.mark.parametrize("radius", [None, 80.0, -80.0])
def test_long_rods_give_the_ideal(share: float, notch: float, radius: float | None) -> None:
    assert departure(1e-2, share, notch, radius) == pytest.approx([0, 0], abs=1e-6)


@pytest.mark.parametrize("share", [0.8, 1.25])
@pytest.mark.parametrize("notch", [1.0, -0.5])
def test_the_ideal_is_approached_as_the_square_of_throw_over_rods(
    share: float, notch: float
) -> None:
    errors = np.abs([departure(throw, share, notch, None) for throw in (4.0, 2.0, 1.0)])
    assert np.log2(errors[:-1] / errors[1:]) == pytest.approx(2.0, abs=0.15)


@pytest.mark.parametrize("radius", [None, 80.0, -80.0])
@pytest.mark.parametrize("notch", NOTCHES)
def test_lead_is_the_same_in_every_notch(notch: float, radius: float | None) -> None:
    """The lead is (1 - k) r - lap exactly, however short the rods: the die stands at the pivot."""
    valve = SlideValve(2.2, 0.0, 3.0)
    events = valve_events(CRANK, valve, gear(14.0, radius=radius), notch)
    for end in (events.front, events.back):
        assert end.lead == pytest.approx(0.2 * 14.0 - 2.2, abs=1e-9)


def test_mid_gear_is_an_eccentric_with_ninety_degrees_of_advance() -> None:
    """Peabody on all radial gears; lap plus lead is its throw."""
    ours = equivalent_eccentric(TURN, solve_motion(CRANK, gear(0.1), TURN, 0.0).valve)
    assert ours.advance == pytest.approx(90.0, abs=0.05)
    assert ours.throw == pytest.approx(0.2 * 0.1, rel=1e-3)
    assert ours.departure < 0.01 * ours.throw


def test_a_straight_guide_is_uneven_in_opposite_senses_forward_and_backward() -> None:
    """To the second order the rod's slope adds tan(tilt) (1 - tan^2) k r^2 / 2l (1 - cos 2w) / 2.

    With no slope of the connecting rod and a long valve rod nothing else is left; derived here.
    """
    throw, high = 1.0, 100.0
    for notch in (1.0, 0.6, -1.0):
        long = replace(gear(throw, high=high), valve_rod=1e6)
        valve = solve_motion(CRANK, long, TURN, notch).valve
        second = 2 * float(np.mean(valve * np.cos(np.radians(2 * TURN))))
        slope = math.tan(math.radians(25.0 * notch))
        rise = 0.8 * throw**2 / (2 * high) * slope * (1 - slope**2)
        assert second == pytest.approx(rise / 2, rel=0.02)
