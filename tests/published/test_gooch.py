"""Gooch's gear against the textbooks' formulas in the limit of long rods.

Sources: G. Zeuner, Treatise on Valve-Gears, for the formulas of the stationary link (from
memory, derived anew to first order in link over rod); Bourne, A Catechism of the Steam Engine,
and Ashton, "Valve setting", for the lead: with Gooch's link the same in every notch, with a
shifting link of open rods growing towards mid gear.

No published layout that gives both the dimensions of a Gooch gear and its events was found, so
none is checked here.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from weighshaft.motion import (
    Crank,
    SlideValve,
    ValveSetting,
    equivalent_eccentric,
    events_over,
    solve_motion,
)
from weighshaft.motion.gooch import Gooch

ENDLESS = Crank(2.0, 1e7)  # the books' infinite connecting rod
TURN = np.linspace(0.0, 360.0, 360, endpoint=False)
MID_GEAR = ValveSetting(rule="equal leads", reverser=0.0)
ADVANCE = 25.0
HALF = 6.0


def link(throw: float, rod: float, radius: float, rods: str) -> Gooch:
    """A link hung, and a die lifted, from so far off that they move along straight lines."""
    far, arm = 4e4 * HALF, 1e3 * HALF
    swing = math.degrees(math.asin(HALF / arm))
    ahead = math.sqrt(rod**2 - HALF**2)
    up = 1 if rods == "open" else -1
    return Gooch(
        eccentric_throw=throw, advance=ADVANCE, eccentric_rod=rod, rods=rods,
        pin_spacing=2 * HALF, radius_rod=radius, suspension_link=far, hanger_x=ahead,
        hanger_y=far, lifting_pin=0.0, lifting_link=far, lifting_arm=arm,
        weighshaft_x=ahead - arm, weighshaft_y=far, arm_angle_forward=up * swing,
        arm_angle_backward=-up * swing,
    )  # fmt: skip


def zeuner(throw: float, rod: float, share: float, rods: str) -> tuple[float, float]:
    """A and B of the valve's motion A cos + B sin; A does not contain the die's place."""
    delta, long = math.radians(ADVANCE), HALF / rod * (1 if rods == "open" else -1)
    a = throw * (math.sin(delta) + long * math.cos(delta))
    b = throw * share * (math.cos(delta) - long * math.sin(delta))
    return a, b


def departs(throw: float, rod: float, share: float, rods: str) -> tuple[float, float]:
    """By how much the linkage departs from the formulas, as shares of the throw."""
    gear = link(throw, rod, rod, rods)
    ours = equivalent_eccentric(TURN, solve_motion(ENDLESS, gear, TURN, share).valve)
    angle = math.radians(ours.advance)
    a, b = zeuner(throw, rod, share, rods)
    return (
        abs(ours.throw * math.sin(angle) - a) / throw,
        abs(ours.throw * math.cos(angle) - b) / throw,
    )


@pytest.mark.parametrize("share", [0.0, 0.3, 0.5, 0.8, -0.6])
@pytest.mark.parametrize("rods", ["open", "crossed"])
def test_zeuner_holds_within_the_orders_that_he_neglects(share: float, rods: str) -> None:
    """The first order in link over rods is kept: of A the third is left, of B the second."""
    errors = np.array([departs(0.003, rod, share, rods) for rod in (200.0, 400.0)])
    assert np.all(errors[0] < 1.5 * (HALF / 200.0) ** 2)
    of_a, of_b = np.log2(errors[0] / np.maximum(errors[1], 1e-30))
    assert of_a == pytest.approx(3.0, abs=0.1)
    if share:
        assert of_b == pytest.approx(2.0, abs=0.2)


@pytest.mark.parametrize("rods", ["open", "crossed"])
@pytest.mark.parametrize("rod", [30.0, 90.0])
def test_lead_is_the_same_in_every_notch(rods: str, rod: float) -> None:
    """Exactly so, for rods of any length, with a throw of full size: the link stands square."""
    gear = link(2.5, rod, 60.0, rods)
    x, y = gear.upright_hanger()
    gear = replace(gear, hanger_x=x, hanger_y=y)
    valve = SlideValve(1.0, 0.0, 1.0)
    notches = (1.0, 0.7, 0.4, 0.0, -0.5, -1.0)
    events = events_over(ENDLESS, valve, gear, notches, setting=MID_GEAR)
    leads = [end.lead for one in events for end in (one.front, one.back)]
    assert np.ptp(leads) < 1e-8
    # by exact geometry the link stands between its two places on the dead centres
    delta, sense = math.radians(ADVANCE), 1 if rods == "open" else -1
    across, along = 2.5 * math.cos(delta), 2.5 * math.sin(delta)
    near, far = (math.sqrt(rod**2 - (HALF + way * across) ** 2) for way in (-1, 1))
    assert leads[0] == pytest.approx(along + sense * (near - far) / 2 - 1.0, abs=1e-8)
    # and so that first order gives it nearly
    assert leads[0] + 1.0 == pytest.approx(zeuner(2.5, rod, 1.0, rods)[0], rel=0.05)
    travels = [one.travel for one in events]
    assert travels[0] > travels[1] > travels[2] > travels[3]


def test_open_rods_give_more_lead_than_crossed_of_the_same_eccentrics() -> None:
    leads = {}
    for rods in ("open", "crossed"):
        (events,) = events_over(
            ENDLESS, SlideValve(0.5, 0.0, 1.0), link(2.5, 48.0, 60.0, rods), [1.0],
            setting=MID_GEAR,
        )  # fmt: skip
        leads[rods] = events.front.lead
    gap = 2 * 2.5 * HALF / 48.0 * math.cos(math.radians(ADVANCE))
    assert leads["open"] - leads["crossed"] == pytest.approx(gap, rel=0.03)
