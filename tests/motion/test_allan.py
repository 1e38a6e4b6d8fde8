"""Allan's gear alone: its two arms, its straight slot, and where it locks."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.link_gears_for_tests import CRANK, GEARS, NOTCHES, TURN
from weighshaft.motion import MotionLocks, solve_motion
from weighshaft.motion.allan import Allan, share_of_link

OPEN = GEARS["Allan, open, outside"]


@pytest.mark.parametrize("name", [n for n in GEARS if n.startswith("Allan, ") and "odd" not in n])
def test_link_and_radius_rod_are_moved_opposite_ways_in_their_shares(name: str) -> None:
    gear = GEARS[name]
    assert isinstance(gear, Allan)
    points = solve_motion(CRANK, gear, TURN, [1.0, -1.0]).points
    link, die = ((points[j][0] - points[j][1])[:, 1].mean() for j in ("link", "die"))
    way = 1 if gear.rods == "open" else -1  # open rods: the link is lowered for forward gear
    assert way * link < 0 < way * die
    share = share_of_link(gear.eccentric_rod, gear.radius_rod)
    assert -link / (die - link) == pytest.approx(share, abs=0.02)


def test_both_arms_stand_on_one_weighshaft() -> None:
    gear = GEARS["Allan, odd"]
    assert isinstance(gear, Allan)
    points = solve_motion(CRANK, gear, [0.0], NOTCHES).points
    arms = [points[j] - points["weighshaft"] for j in ("link_arm", "rod_arm")]
    angles = [np.degrees(np.arctan2(a[..., 1], a[..., 0])) for a in arms]
    assert (angles[1] - angles[0]) % 360 == pytest.approx(172.0)
    assert np.linalg.norm(arms[1], axis=-1) == pytest.approx(gear.rod_lifting_arm)


def test_share_of_the_link_falls_as_the_radius_rod_grows() -> None:
    """With an endless radius rod the link may stand still; with a short one it takes all."""
    shares = [share_of_link(100.0, rod) for rod in (1e-6, 50.0, 100.0, 200.0, 1e9)]
    assert np.all(np.diff(shares) < 0)
    assert shares[0] == pytest.approx(1.0, abs=1e-3)
    assert shares[2] == pytest.approx(1 - np.sqrt(0.5))
    assert shares[-1] == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(
    ("change", "joint"),
    [
        ({"weighshaft_y": 260.0, "rod_lifting_link": 230.0}, "link's lifting link"),
        ({"rod_lifting_link": 3.0}, "radius rod's lifting link"),
        ({"radius_rod": 18.0, "lifting_pin": 0.0, "spindle_height": -8.0}, "radius rod"),
        ({"eccentric_rod": 19.0}, "eccentric rods"),
    ],
)
def test_a_gear_that_locks_says_where(change: dict[str, float], joint: str) -> None:
    with pytest.raises(MotionLocks) as locked:
        solve_motion(CRANK, replace(OPEN, **change), TURN, [1.0])
    assert joint in locked.value.joint
    assert locked.value.reverser == 1.0
