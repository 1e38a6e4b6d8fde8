"""Both sides of the engine: where cranks, eccentrics and return cranks stand, and handed parts.

A side seen from its own outside is the mirror image of the other one, so that every part
leads its own crank by the same angle in the sense of forward running.  In the one view from
the right forward is clockwise, and angles are counted that way from the front; the mark is
the right crank on front dead centre.
"""

from __future__ import annotations

import math

import numpy as np

from ..motion import AnyGear, Crank
from .results import HandedPart, OnSide

PINS = {
    "forward_eccentric": "forward eccentric",
    "backward_eccentric": "backward eccentric",
    "eccentric": "eccentric",
    "return_crank": "return crank's pin",
}
"""What is fast on the axle beside the crank, by the gear's joint."""


def side_angles(
    number: int, crank_angle: float, leading_side: str
) -> tuple[tuple[str, float], ...]:
    """Return side and crank angle of every crank, the right one on the mark, degrees.

    With two cylinders the side that leads runs ahead by the crank angle; with three the
    middle crank takes the place that is left over; with four the inside cranks stand opposite
    to the outside ones of their side.
    """
    if number == 1:
        return (("right", 0.0),)
    behind = -crank_angle if leading_side == "right" else crank_angle
    two = (("right", 0.0), ("left", behind % 360))
    if number == 2:
        return two
    if number == 3:
        return (*two, ("middle", (2 * behind) % 360))
    return (*two, ("inside right", 180.0), ("inside left", (behind + 180) % 360))


def fast_on_axle(crank: Crank, gear: AnyGear) -> tuple[tuple[str, float, float], ...]:
    """Return name, radius and lead over the crank of what the gear has on the axle, if anything."""
    made: list[tuple[str, float, float]] = []
    for reverser in (1.0,) if gear.notched else (1.0, -1.0):
        pose = gear.pose(crank, np.zeros((1, 1)), np.full((1, 1), reverser))
        for joint, name in PINS.items():
            if joint in pose.points:
                x, y = (float(v) for v in np.broadcast_to(pose.points[joint], (1, 1, 2))[0, 0])
                made.append((name, math.hypot(x, y), math.degrees(math.atan2(-y, x))))
    if gear.notched or not made:
        return tuple(made)
    if abs(made[0][2] - made[1][2]) < 1e-9:
        return (made[0],)
    # a loose eccentric rests against one stop or the other
    (name, radius, forward), (_, _, backward) = made
    return ((f"{name}, forward", radius, forward), (f"{name}, backward", radius, backward))


def on_sides(
    crank: Crank, gear: AnyGear, number: int, crank_angle: float, leading_side: str
) -> tuple[OnSide, ...]:
    """Return where everything on the axle stands with the right crank on front dead centre."""
    fast = fast_on_axle(crank, gear)
    made = []
    for side, stands in side_angles(number, crank_angle, leading_side):
        made.append(OnSide(side=side, part="crank", radius=crank.throw, leads=0.0, at=stands))
        made += [
            OnSide(side=side, part=name, radius=radius, leads=lead, at=(stands + lead) % 360)
            for name, radius, lead in fast
        ]
    return tuple(made)


_FLAT, _STRAIGHT = (
    "flat, with pins through: turn it over",
    "where it is straight; one set is handed",
)
_ON_SHAFT = "fast on one shaft; bosses in mirror image, both at the same angle"
_HANDED: tuple[tuple[str, str, bool, str], ...] = (
    ("return crank", "return crank", True, "clamped on the crank pin, its own pin outside"),
    ("forward eccentric", "eccentric sheaves", True, "alike, but keyed in mirror image"),
    ("eccentric", "eccentric sheave", True, "alike, but keyed or stopped in mirror image"),
    ("forward rod", "eccentric rods", False, _STRAIGHT),
    ("eccentric rod", "eccentric rod", False, _STRAIGHT),
    ("link", "link", False, _FLAT),
    ("lifting link", "saddle of the lifting pin", True, "bolted to one face of the link"),
    ("radius rod", "radius rod", False, _STRAIGHT),
    ("combination lever", "combination lever", False, "forked, the same from both faces"),
    ("drop arm", "drop arm", True, "bolted to one face of the crosshead"),
    ("gear connecting rod", "gear connecting rod", False, _FLAT),
    ("correcting link", "correcting link", False, _FLAT),
    ("bell crank", "bell crank", True, "its arms stand at an angle in different planes"),
    ("rocker", "rocker", True, "its arms stand inside and outside the frame"),
    ("lifting arm", "lifting arm", True, _ON_SHAFT),
    ("guide", "guide", True, _ON_SHAFT),
    ("yoke", "yoke", True, _ON_SHAFT),
)
"""Part of the gear, what it is called, whether it is handed, and why."""


def handed_parts(crank: Crank, gear: AnyGear, number: int) -> tuple[HandedPart, ...]:
    """Return which parts of the gear are a right and a left hand one (common practice)."""
    if number == 1:
        return ()
    joints = gear.pose(crank, np.zeros((1, 1)), np.ones((1, 1))).points
    # a saddle is wanted where the link itself is lifted
    lifted = any("suspension" in part.joints and "arm" in part.joints for part in gear.parts)
    fitted = {part.name for part in gear.parts if all(one in joints for one in part.joints)}
    names = fitted - (set() if lifted else {"lifting link"})
    return tuple(
        HandedPart(part, handed, why) for name, part, handed, why in _HANDED if name in names
    )
