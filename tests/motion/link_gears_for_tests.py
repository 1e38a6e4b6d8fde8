"""Gooch's and Allan's gears that the tests turn, and equations of their own to check them by."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from scipy.optimize import fsolve

from weighshaft.motion import Crank, Wanted, sizes_for_events
from weighshaft.motion.allan import Allan
from weighshaft.motion.gooch import Gooch

CRANK = Crank(40.0, 120.0)
TURN = np.linspace(0.0, 360.0, 72, endpoint=False)
NOTCHES = (1.0, 0.6, 0.0, -0.3, -1.0)

WANTED = Wanted(cutoff=78.0, lead=0.2, port_opening=2.8)
SIZES = sizes_for_events(78.0, 0.2, 2.8)

GEARS: dict[str, Gooch | Allan] = {
    f"{kind.kind}, {rods}, {admission}": kind.laid_out(CRANK, SIZES, WANTED, admission, rods=rods)
    for kind in (Gooch, Allan)
    for rods in ("open", "crossed")
    for admission in ("outside", "inside")
}
# pins off the middle, spindle off the axle, slot of its own radius; carried the other way
GEARS["Gooch, odd"] = replace(
    GEARS["Gooch, open, outside"], suspension_above=2.0, spindle_height=3.0, link_radius=90.0,
    suspended="above", hanger_y=-GEARS["Gooch, open, outside"].hanger_y, lifting_pin=-8.0,
    weighshaft_x=120.0,
)  # fmt: skip
GEARS["Allan, odd"] = replace(
    GEARS["Allan, open, outside"], suspension_above=1.5, spindle_height=-2.0, rod_arm_angle=172.0,
    hanging="above", rod_hanging="above", weighshaft_y=-60.0,
)  # fmt: skip

_LENGTHS = (
    "eccentric_throw", "eccentric_rod", "pin_spacing", "backset", "radius_rod", "link_radius",
    "slot_length", "suspension_ahead", "suspension_above", "suspension_link", "hanger_x",
    "hanger_y", "lifting_pin", "lifting_link", "lifting_arm", "rod_lifting_link",
    "rod_lifting_arm", "weighshaft_x", "weighshaft_y", "spindle_height",
)  # fmt: skip
_OTHER = {"below": "above", "above": "below"}


def scaled(gear: Gooch | Allan, by: float) -> Gooch | Allan:
    """Return the gear with all its lengths `by` times as long."""
    lengths = {n: getattr(gear, n) for n in _LENGTHS if getattr(gear, n, None) is not None}
    return replace(gear, **{name: by * length for name, length in lengths.items()})


def mirrored(gear: Gooch | Allan) -> Gooch | Allan:
    """Return the gear upside down, mirrored in the cylinder's line: forward becomes backward."""
    changed: dict[str, object] = {
        name: -getattr(gear, name)
        for name in ("hanger_y", "weighshaft_y", "spindle_height", "suspension_above",
                     "valve_angle", "rod_arm_angle")
        if hasattr(gear, name)
    }  # fmt: skip
    for name in ("hanging", "suspended", "rod_hanging"):
        if hasattr(gear, name):
            changed[name] = _OTHER[getattr(gear, name)]
    changed["arm_angle_forward"] = -gear.arm_angle_backward
    changed["arm_angle_backward"] = -gear.arm_angle_forward
    return replace(gear, **changed)


def inclined(gear: Gooch | Allan, angle: float) -> Gooch | Allan:
    """Return the gear turned about the axle by `angle` degrees, with its spindle."""
    turn = np.radians(angle)
    moved: dict[str, float] = {"valve_angle": gear.valve_angle + angle}
    for x, y in (("weighshaft_x", "weighshaft_y"), ("hanger_x", "hanger_y")):
        if hasattr(gear, x):
            px, py = getattr(gear, x), getattr(gear, y)
            moved[x] = px * np.cos(turn) - py * np.sin(turn)
            moved[y] = px * np.sin(turn) + py * np.cos(turn)
    for name in ("arm_angle_forward", "arm_angle_backward"):
        moved[name] = getattr(gear, name) + angle
    # the line's height is measured where it crosses x = 0
    moved["spindle_height"] = gear.spindle_height / np.cos(turn)
    return replace(gear, **moved)


def slope(gear: Gooch | Allan, changes: dict[str, float], theta: float, reverser: float) -> float:
    """Return by how much the valve moves for a small change of fields: a central difference."""
    step = 1e-4

    def valve(by: float) -> float:
        moved = {n: getattr(gear, n) + by * rate for n, rate in changes.items() if n != "theta"}
        at = theta + by * changes.get("theta", 0.0)
        one = replace(gear, **moved)
        return float(one.pose(CRANK, np.array([[at]]), np.array([[reverser]])).valve[0, 0])

    return (valve(step) - valve(-step)) / (2 * step)


def sheaves(gear: Gooch | Allan, theta: float) -> tuple[np.ndarray, np.ndarray]:
    """Return forward and backward eccentric: leading the crank by 90 + advance, or trailing."""
    turned = (180.0 if gear.admission == "inside" else 0.0) - gear.valve_angle
    made = []
    for lead in (90 + gear.advance, -(90 + gear.advance)):
        angle = np.radians(theta + lead + turned)
        made.append(gear.eccentric_throw * np.array([np.cos(angle), -np.sin(angle)]))
    return made[0], made[1]


def arm(gear: Gooch | Allan, length: float, reverser: float, beyond: float = 0.0) -> np.ndarray:
    """Return the end of an arm of the weighshaft."""
    share = (reverser + 1) / 2
    angle = share * gear.arm_angle_forward + (1 - share) * gear.arm_angle_backward + beyond
    shaft = np.array([gear.weighshaft_x, gear.weighshaft_y])
    return shaft + length * np.array([np.cos(np.radians(angle)), np.sin(np.radians(angle))])


def carriers(gear: Gooch | Allan, reverser: float) -> list[tuple[np.ndarray, float]]:
    """Return by what the link and by what the radius rod is carried: a point, a length."""
    if isinstance(gear, Gooch):
        return [
            (np.array([gear.hanger_x, gear.hanger_y]), gear.suspension_link),
            (arm(gear, gear.lifting_arm, reverser), gear.lifting_link),
        ]
    return [
        (arm(gear, gear.lifting_arm, reverser), gear.lifting_link),
        (arm(gear, gear.rod_lifting_arm, reverser, gear.rod_arm_angle), gear.rod_lifting_link),
    ]


def off_the_slot(
    gear: Gooch | Allan, middle: np.ndarray, ahead: np.ndarray, at: np.ndarray
) -> float:
    """Return by how much a point misses the slot's middle line, mm."""
    if isinstance(gear, Allan):
        return float((at - middle) @ ahead)
    radius = gear.link_radius or gear.radius_rod
    return float(np.linalg.norm(at - middle - radius * ahead) - radius)


def by_coordinates(gear: Gooch | Allan, theta: float, reverser: float, start: np.ndarray) -> float:
    """Solve both rod pins, die and valve together in Cartesian coordinates.

    Unknown: the pins of forward and backward rod, the die, and the valve along its line.
    """
    eccentrics = sheaves(gear, theta)
    (link_end, link_reach), (rod_end, rod_reach) = carriers(gear, reverser)
    slope = np.radians(gear.valve_angle)
    up = 1.0 if gear.rods == "open" else -1.0

    def misses(unknown: np.ndarray) -> list[float]:
        forward, backward, die, v = unknown[:2], unknown[2:4], unknown[4:6], unknown[6]
        above = up * (forward - backward) / gear.pin_spacing
        ahead = np.array([above[1], -above[0]])
        middle = (forward + backward) / 2 + gear.backset * ahead
        carried = middle + gear.suspension_ahead * ahead + gear.suspension_above * above
        valve = np.array([v * np.cos(slope), gear.spindle_height + v * np.sin(slope)])
        lifted = die + gear.lifting_pin * (valve - die) / gear.radius_rod
        return [
            np.linalg.norm(forward - eccentrics[0]) - gear.eccentric_rod,
            np.linalg.norm(backward - eccentrics[1]) - gear.eccentric_rod,
            np.linalg.norm(forward - backward) - gear.pin_spacing,
            np.linalg.norm(carried - link_end) - link_reach,
            off_the_slot(gear, middle, ahead, die),
            np.linalg.norm(valve - die) - gear.radius_rod,
            np.linalg.norm(lifted - rod_end) - rod_reach,
        ]

    solved, _, _, why = fsolve(misses, start, xtol=1e-14, full_output=True)
    assert np.abs(misses(solved)).max() < 1e-10, why
    return float(solved[6])
