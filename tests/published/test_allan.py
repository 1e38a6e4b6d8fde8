"""Allan's gear against the textbooks' formulas in the limit of long rods.

Sources: G. Zeuner, Treatise on Valve-Gears, for the rule that the lift of the radius rod is to
that of the link as R/l (1 + sqrt(1 + l/R)), l and R the eccentric and the radius rod (from
memory); the valve's motion derived anew to first order in link over rod: with the link
lowered by v and the die u from its middle

    A = r [sin d + (c^2 - u v)/(c l) cos d],  B = r [u/c cos d - (u - v)/l sin d],

which is Zeuner's for a shifting link with v = u and for a stationary one with v = 0.

No published layout that gives both the dimensions of an Allan gear and its events was found, so
none is checked here.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from weighshaft.motion import (
    Crank,
    SlideValve,
    ValveSetting,
    equivalent_eccentric,
    events_over,
    solve_motion,
    zeuner_link,
)
from weighshaft.motion.allan import Allan, share_of_link

ENDLESS = Crank(2.0, 1e7)  # the books' infinite connecting rod
TURN = np.linspace(0.0, 360.0, 360, endpoint=False)
MID_GEAR = ValveSetting(rule="equal leads", reverser=0.0)
ADVANCE = 25.0
HALF = 6.0
SWING = 3.0  # degrees of the lever either way


def link(throw: float, rod: float, radius: float, rods: str, share: float | None = None) -> Allan:
    """A link and a die lifted from so far off that they move along straight lines.

    The weighshaft's straight lever has its arms as the lifts are; the radius rod's link is
    so much longer that in mid gear both hang level with the axle.
    """
    share = share_of_link(rod, radius) if share is None else share
    far, both = 4e4 * HALF, HALF / math.sin(math.radians(SWING))
    arm = share * both
    ahead = math.sqrt(rod**2 - HALF**2)
    down = 180 + SWING if rods == "open" else 180 - SWING
    return Allan(
        eccentric_throw=throw, advance=ADVANCE, eccentric_rod=rod, rods=rods,
        pin_spacing=2 * HALF, radius_rod=radius, lifting_link=far, lifting_arm=arm,
        weighshaft_x=ahead + arm, weighshaft_y=far,
        arm_angle_forward=down, arm_angle_backward=360 - down,
        lifting_pin=0.0, rod_lifting_link=math.hypot(far, both), rod_lifting_arm=both - arm,
    )  # fmt: skip


def lifted(notch: float) -> float:
    """How far the die stands from the link's middle: the arms' sines, not their angles."""
    return HALF * math.sin(math.radians(notch * SWING)) / math.sin(math.radians(SWING))


def book(throw: float, rod: float, die: float, lowered: float, rods: str) -> tuple[float, float]:
    delta, way = math.radians(ADVANCE), 1 if rods == "open" else -1
    sin, cos = math.sin(delta), math.cos(delta)
    a = throw * (sin + way * (HALF**2 - die * lowered) / (HALF * rod) * cos)
    b = throw * (die / HALF * cos - way * (die - lowered) / rod * sin)
    return a, b


def departs(throw: float, rod: float, notch: float, rods: str) -> tuple[float, float]:
    """By how much the linkage departs from the formulas, as shares of the throw."""
    gear = link(throw, rod, rod, rods)
    ours = equivalent_eccentric(TURN, solve_motion(ENDLESS, gear, TURN, notch).valve)
    angle, die = math.radians(ours.advance), lifted(notch)
    a, b = book(throw, rod, die, die * share_of_link(rod, rod), rods)
    return (
        abs(ours.throw * math.sin(angle) - a) / throw,
        abs(ours.throw * math.cos(angle) - b) / throw,
    )


@pytest.mark.parametrize("die", [6.0, 3.0, -4.0])
def test_with_all_the_lift_in_the_link_the_formulas_are_those_of_the_shifting_link(
    die: float,
) -> None:
    for rods in ("open", "crossed"):
        other = zeuner_link(2.5, ADVANCE, 50.0, HALF, die, crossed=rods == "crossed")
        a, b = book(2.5, 50.0, die, die, rods)
        assert math.hypot(a, b) == pytest.approx(other.throw)
        assert math.degrees(math.atan2(a, b)) == pytest.approx(other.advance)


@pytest.mark.parametrize("notch", [0.3, 0.5, 0.8, -0.6])
@pytest.mark.parametrize("rods", ["open", "crossed"])
def test_the_formulas_hold_within_the_orders_that_they_neglect(notch: float, rods: str) -> None:
    """The first order in link over rods is kept: of A the third is left, of B the second.

    Of A the bow of the far carriers tells a little as well.
    """
    errors = np.array([departs(0.003, rod, notch, rods) for rod in (100.0, 200.0)])
    assert np.all(errors[0] < 1.5 * (HALF / 100.0) ** 2)
    of_a, of_b = np.log2(errors[0] / errors[1])
    assert of_a == pytest.approx(3.0, abs=0.4)
    assert of_b == pytest.approx(2.0, abs=0.1)


@pytest.mark.parametrize(("rod", "radius"), [(100.0, 100.0), (150.0, 80.0), (80.0, 150.0)])
@pytest.mark.parametrize("rods", ["open", "crossed"])
def test_zeuners_arms_keep_the_middle_of_the_travel_in_its_place(
    rod: float, radius: float, rods: str
) -> None:
    """The second order in link over rods is cancelled by these arms and by no others."""
    share = share_of_link(rod, radius)
    assert (1 - share) / share == pytest.approx(radius / rod * (1 + math.sqrt(1 + rod / radius)))

    def strays(of_link: float) -> float:
        gear = link(0.003, rod, radius, rods, of_link)
        middles = solve_motion(ENDLESS, gear, TURN, [1.0, 0.5, 0.0]).valve.mean(axis=1)
        return float(np.ptp(middles))

    least = strays(share)
    for other in (0.8 * share, 1.2 * share):
        assert strays(other) > 15 * least
    # what the rule leaves is of the order of the rods' rise: fourth, over their length cubed
    assert least < 2 * HALF**4 / min(rod, radius) ** 3


@pytest.mark.parametrize("rods", ["open", "crossed"])
def test_lead_changes_less_than_with_a_shifting_link(rods: str) -> None:
    """By the part of the lift that the link takes: the formula for A between its two limits."""
    rod, radius, throw = 60.0, 50.0, 1.5
    share = share_of_link(rod, radius)
    events = events_over(
        ENDLESS, SlideValve(0.5, 0.0, 1.0), link(throw, rod, radius, rods), [1.0, 0.0],
        setting=MID_GEAR,
    )  # fmt: skip
    full, mid = ((one.front.lead + one.back.lead) / 2 for one in events)
    shifting = throw * HALF / rod * math.cos(math.radians(ADVANCE))
    sense = 1 if rods == "open" else -1
    assert sense * (mid - full) == pytest.approx(share * shifting, rel=0.05)
