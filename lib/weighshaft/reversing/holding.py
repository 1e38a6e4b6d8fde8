"""What turns the weighshaft back: the valve's friction and the weight that hangs on its arms.

Both by virtual work: where the shaft turning by d(phi) moves the valve by d(xi), a force F
on the valve turns the shaft by F d(xi)/d(phi); so does a weight whose pin rises by dy.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..measures import GRAVITY
from ..motion import AnyGear, Crank
from ..motion.frame import Array, MotionLocks
from ..motion.kernel import GRID, Pose
from .shaft import Shaft

_THETA = GRID[::2]
_STEEL = 7.85e-3
"""g/mm3."""
_BY = 0.004
"""Step of the differences taken in the reverser."""


@dataclass(frozen=True)
class PerUnit:
    """What one newton does at positions of the reverser, on one side of the engine.

    Parameters
    ----------
    valve : (m, n) torque on the shaft, anticlockwise, N mm, per newton by which friction
        holds the valve against its motion, running forward; backward it is the opposite.
    weight : (m,) torque per newton of weight hung on the lifting arms, mean over the turn;
        zero where nothing hangs on the shaft.
    """

    valve: Array
    weight: Array


def hung_pins(gear: AnyGear) -> tuple[str, ...]:
    """Return the joints whose weight the lifting arms carry."""
    return tuple(
        part.joints[1] for part in gear.parts if part.name.endswith("lifting link")
    )  # fmt: skip


def per_unit(crank: Crank, gear: AnyGear, shaft: Shaft, reversers: Array) -> PerUnit:
    """Return torques on the shaft for 1 N on the valve and for 1 N of weight.

    Raises
    ------
    MotionLocks : where the gear cannot be assembled in one of these positions.
    """
    low, high = np.clip(reversers - _BY, -1, 1), np.clip(reversers + _BY, -1, 1)
    turned = np.radians(shaft.half) * (high - low)
    count = len(reversers)
    rows = np.concatenate([low, high, reversers])
    pose = gear.pose(crank, _THETA[None, :], rows[:, None])
    _refuse_locked(pose, rows)
    xi = np.broadcast_to(pose.valve, (3 * count, len(_THETA)))
    by_shaft = (xi[count : 2 * count] - xi[:count]) / turned[:, None]
    moving = np.roll(xi[2 * count :], -1, axis=1) - np.roll(xi[2 * count :], 1, axis=1)
    rise = np.zeros(count)
    pins = [pin for pin in hung_pins(gear) if pin in pose.points]
    for pin in pins:
        y = np.broadcast_to(pose.points[pin], (3 * count, len(_THETA), 2))[..., 1].mean(axis=1)
        rise += (y[count : 2 * count] - y[:count]) / turned / len(pins)
    return PerUnit(valve=-np.sign(moving) * by_shaft, weight=-rise)


def _refuse_locked(pose: Pose, rows: Array) -> None:
    """Refuse a gear that locks: what its parts would then pull is no figure."""
    for joint, margin in pose.margins.items():
        bad = ~(np.broadcast_to(margin, (len(rows), len(_THETA))) > 0)
        if bad.any():
            row, column = (int(i) for i in np.argwhere(bad)[0])
            raise MotionLocks(joint, float(_THETA[column]), float(rows[row]))


def torques(
    unit: PerUnit, friction: float, weight: float, sides: int, crank_angle: float
) -> tuple[Array, Array]:
    """Return the weight's torque (m,) and the greatest torque either way (m,), N mm.

    Parameters
    ----------
    friction : of one valve under steam, N.
    weight : hung on the arms of all sides together, N.
    sides : cylinders whose gear hangs on the shaft.
    crank_angle : between their cranks, degrees; taken to the nearest step of 10.
    """
    step = 360.0 / len(_THETA)
    together = np.zeros_like(unit.valve)
    for side in range(sides):
        together += np.roll(unit.valve, round(side * crank_angle / step), axis=1)
    still = unit.weight * weight
    # the engine may run either way in any notch, so that friction may add to the weight
    return still, np.abs(still) + friction * np.abs(together).max(axis=1)


def estimated_mass(gear: AnyGear, stroke: float, sides: int) -> float:
    """Return a rough mass hung on the lifting arms of all sides, g, rounded as roughly.

    Steel; rods 0.15 by 0.09 strokes in section, half of each carried; a link of Stephenson's
    form 0.033 of the cube of its pin spacing; lifting links whole (common proportions).
    """
    section = 0.15 * 0.09 * stroke**2
    length = 0.0
    solid = 0.0
    if gear.kind in ("Stephenson", "Allan"):
        length += 2 * gear.eccentric_rod / 2  # type: ignore[union-attr]
        solid += 0.033 * gear.pin_spacing**3  # type: ignore[union-attr]
    if hasattr(gear, "radius_rod"):
        length += gear.radius_rod / 2
    if getattr(gear, "lifting", "link") == "link":
        length += getattr(gear, "lifting_link", 0.0)
    mass = sides * _STEEL * (section * length + solid)
    return round(mass, 0 if mass >= 10 else 1)


def in_newtons(grams: float) -> float:
    """Return the weight of a mass."""
    return grams / 1000 * GRAVITY


def as_kg_cm(torque: float) -> float:
    """Return a torque in N mm as makers of servos give it."""
    return torque / (10 * GRAVITY)
