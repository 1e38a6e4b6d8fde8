"""Baker's gear with long rods against the rules of the books.

No published layout that gives both dimensions and events was found.  What is checked:

* the gear as two eccentrics at right angles, one of the crosshead by the combination lever,
  one of the return crank by yoke and bell crank: first order in motion over length of the
  rods, derived anew; the split itself is that of every text on radial gears (W. E. Dalby,
  Valves and Valve-Gear Mechanisms, from memory);
* what a book of examination questions for engineers (Project Gutenberg, no. 17783, the part on
  the Baker gear, questions 15 to 18) says of its return crank, its sense, and of the valve
  when the eccentric rod does nothing;
* that the lead is constant (a handbook's chapter on the improved gear, of which an excerpt
  without its title was read: "gives a constant lead of the valve").
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
from weighshaft.motion.baker import Baker

TURN = np.linspace(0.0, 360.0, 72, endpoint=False)
LONG = 1e4  # rods so many times as long as usual beside the motions
WANTED = Wanted(cutoff=78.0, lead=0.2, port_opening=2.8)
SIZES = sizes_for_events(78.0, 0.2, 2.8)
CRANK = Crank(40.0, 120.0)
BOTH = pytest.mark.parametrize("admission", ["outside", "inside"])


def with_long_rods(admission: str) -> tuple[Crank, Baker]:
    """Return crank and gear with level rods, arms at right angles, the foot level with the axle."""
    short = Baker.laid_out(CRANK, SIZES, WANTED, admission)
    longer = {
        name: LONG * value for name, value in vars(short).items()
        if isinstance(value, float) and "angle" not in name and name != "return_crank_throw"
    }  # fmt: skip
    gear = replace(short, **longer)
    level = gear.spindle_height - gear.lever_upper
    head = level + gear.bell_drop
    yoke_y = head - gear.gear_rod_upper
    return Crank(40.0, LONG * 120.0), replace(
        gear, bell_x=gear.yoke_x + gear.bell_arm, bell_y=head, bell_angle=90.0, yoke_y=yoke_y,
        gear_rod_lower=yoke_y,
        valve_rod=LONG * 120.0 + gear.union_link - gear.yoke_x - gear.bell_arm,
    ).squared()  # fmt: skip


@BOTH
@pytest.mark.parametrize("reverser", [1.0, 0.7, 0.3, 0.0, -0.5, -1.0])
def test_long_rods_make_two_eccentrics_at_right_angles(admission: str, reverser: float) -> None:
    crank, gear = with_long_rods(admission)
    motion = solve_motion(crank, gear, TURN, reverser)
    sense = 1 if admission == "outside" else -1
    found = equivalent_eccentric(TURN, sense * motion.valve)
    lever = gear.lever_upper / gear.lever_lower
    crosshead = crank.throw * lever
    swing = gear.return_crank_throw * gear.gear_rod_upper
    swing /= gear.gear_rod_upper + gear.gear_rod_lower
    tilt = math.tan(math.radians(reverser * (gear.yoke_angle_forward - 90.0)))
    bell = gear.bell_drop / gear.bell_arm
    across = (1 + lever) * bell * tilt * swing
    opposite = found.throw * math.sin(math.radians(found.advance))
    square = found.throw * math.cos(math.radians(found.advance))
    assert opposite == pytest.approx(sense * crosshead, rel=1e-3)
    assert square == pytest.approx(sense * across, rel=1e-3, abs=1e-3)
    assert found.departure < 5e-3


@BOTH
def test_lead_is_constant(admission: str) -> None:
    gear = Baker.laid_out(CRANK, SIZES, WANTED, admission)
    notches = np.linspace(-1.0, 1.0, 9)
    motion = solve_motion(CRANK, gear, CRANK.dead_centres, notches)
    assert np.ptp(motion.valve, axis=0) == pytest.approx(0, abs=1e-9)
    yoke = np.array([gear.yoke_x, gear.yoke_y])
    assert np.abs(motion.points["rod_middle"] - yoke).max() < 1e-9


@BOTH
def test_return_crank_follows_and_the_sense_is_as_the_examiner_has_it(admission: str) -> None:
    """Direct going ahead for inside admission, indirect for outside, and the other way back."""
    gear = Baker.laid_out(CRANK, SIZES, WANTED, admission)
    assert -135 < gear.return_crank_angle < -45
    for reverser in (1.0, -1.0):
        motion = solve_motion(CRANK, gear, TURN, reverser)
        foot, bell = motion.points["rod_foot"][:, 0], motion.points["bell_drop"][:, 0]
        direct = np.corrcoef(foot, bell)[0, 1] * (1 if admission == "inside" else -1)
        assert reverser * direct > 0.95


@BOTH
def test_with_bell_crank_at_rest_the_valve_has_lap_and_lead_travel(admission: str) -> None:
    """As with the eccentric rod down: the port opens by the lead.  So it is in mid gear.

    There the yoke's pin has to cover the head of the gear connecting rod.
    """
    gear = replace(Baker.laid_out(CRANK, SIZES, WANTED, admission), yoke_arm=None)
    motion = solve_motion(CRANK, gear, TURN, 0.0)
    assert np.ptp(motion.points["bell_drop"], axis=0) == pytest.approx(0, abs=1e-9)
    other = solve_motion(CRANK, replace(gear, return_crank_throw=1.0).squared(), TURN, 0.0)
    assert other.valve == pytest.approx(motion.valve, abs=1e-9)
    valve = SlideValve(SIZES.steam_lap, 0.0, 3.0, admission=admission)
    events = valve_events(CRANK, valve, gear, 0.0)
    assert events.travel == pytest.approx(2 * (SIZES.steam_lap + events.front.lead), abs=1e-6)
    assert events.front.port_opening == pytest.approx(events.front.lead, abs=1e-6)
