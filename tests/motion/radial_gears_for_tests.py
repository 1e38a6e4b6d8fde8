"""Joy's and Hackworth's gears that the tests turn, and what the tests of both share."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from weighshaft.motion import Crank, Wanted, sizes_for_events
from weighshaft.motion.hackworth import Hackworth
from weighshaft.motion.joy import Joy

CRANK = Crank(40.0, 120.0)
TURN = np.linspace(0.0, 360.0, 72, endpoint=False)
NOTCHES = (1.0, 0.6, 0.0, -0.3, -1.0)

WANTED = Wanted(cutoff=78.0, lead=0.2, port_opening=2.8)
SIZES = sizes_for_events(78.0, 0.2, 2.8)

GEARS: dict[str, Joy | Hackworth] = {
    "Joy": Joy.laid_out(CRANK, SIZES, WANTED, "outside"),
    "Joy, straight": Joy.laid_out(CRANK, SIZES, WANTED, "outside", guide="straight"),
    "Joy, inside": Joy.laid_out(CRANK, SIZES, WANTED, "inside"),
    "Hackworth": Hackworth.laid_out(CRANK, SIZES, WANTED, "outside"),
    "Hackworth, straight": Hackworth.laid_out(CRANK, SIZES, WANTED, "outside", guide="straight"),
    "Hackworth, inside": Hackworth.laid_out(CRANK, SIZES, WANTED, "inside"),
    "Hackworth, from behind": replace(
        Hackworth.laid_out(CRANK, SIZES, WANTED, "outside"), guide_radius=-150.0
    ),
    "Hackworth, beyond": Hackworth.laid_out(CRANK, SIZES, WANTED, "outside", beyond=True),
}

_LENGTHS = (
    "eccentric_throw", "eccentric_rod", "valve_pin", "guide_radius", "guide_x", "guide_y",
    "valve_rod", "spindle_height", "rod_pin", "rod_pin_above", "correcting_link", "lever_pin",
    "anchor_link", "anchor_x", "anchor_y", "lever_lower", "lever_upper",
)  # fmt: skip
_ABOVE = ("guide_y", "spindle_height", "rod_pin_above", "anchor_y")


def scaled(gear: Joy | Hackworth, by: float) -> Joy | Hackworth:
    """Return the gear with all its lengths `by` times as long."""
    lengths = {n: getattr(gear, n) for n in _LENGTHS if getattr(gear, n, None) is not None}
    return replace(gear, **{name: by * length for name, length in lengths.items()})


def mirrored(gear: Joy | Hackworth) -> Joy | Hackworth:
    """Return the gear upside down, mirrored in the cylinder's line."""
    changed = {name: -getattr(gear, name) for name in _ABOVE if hasattr(gear, name)}
    for name in ("guide_angle_forward", "guide_angle_backward"):
        changed[name] = 180.0 - getattr(gear, name)
    changed["valve_angle"] = -gear.valve_angle
    if isinstance(gear, Hackworth):
        changed["eccentric_angle"] = -gear.eccentric_angle
    return replace(gear, **changed)


def slope(gear: Joy | Hackworth, changes: dict[str, float], theta: float, reverser: float) -> float:
    """Return by how much the valve moves for a small change of fields: a central difference."""
    step = 1e-4

    def valve(by: float) -> float:
        moved = {name: getattr(gear, name) + by * rate for name, rate in changes.items()}
        one = replace(gear, **moved)
        return float(one.pose(CRANK, np.array([[theta]]), np.array([[reverser]])).valve[0, 0])

    return (valve(step) - valve(-step)) / (2 * step)


def guide_angle(gear: Joy | Hackworth, reverser: float) -> float:
    """Return the angle of the guide, radians: between full backward and full forward gear."""
    share = (reverser + 1) / 2
    forward, backward = gear.guide_angle_forward, gear.guide_angle_backward
    return float(np.radians(share * forward + (1 - share) * backward))


def off_the_guide(gear: Joy | Hackworth, at: np.ndarray, reverser: float) -> float:
    """Return by how much a point misses the guide's middle line: the line's own equation, mm."""
    angle = guide_angle(gear, reverser)
    ahead = np.array([np.sin(angle), -np.cos(angle)])
    pivot = np.array([gear.guide_x, gear.guide_y])
    if gear.guide == "straight":
        return float((at - pivot) @ ahead)
    radius = gear.guide_radius or gear.valve_rod
    centre = pivot + radius * ahead
    return float(np.linalg.norm(at - centre) - abs(radius))
