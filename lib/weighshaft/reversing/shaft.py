"""What the reverser turns: weighshaft, tilting guide or reversing yoke."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..motion import AnyGear
from ..motion.frame import Array

_KINDS = (
    ("arm", "weighshaft", "lifting arm", "weighshaft"),
    ("guide", "guide", "guide", "guide's shaft"),
    ("yoke", "yoke", "yoke", "yoke's shaft"),
)
"""Prefix of the gear's angles, of its pivot's fields, the part turned, its shaft."""


@dataclass(frozen=True)
class Shaft:
    """A shaft that the reverser turns, linearly in angle between two positions.

    Parameters
    ----------
    part : what is fast on it: lifting arm, guide or yoke.
    name : of the shaft.
    x, y : of its centre, mm.
    forward, backward : angle of the part in full gear, degrees anticlockwise from +x.
    length : of the part from the shaft, mm.
    """

    part: str
    name: str
    x: float
    y: float
    forward: float
    backward: float
    length: float

    @property
    def middle(self) -> float:
        """Angle of the part in mid gear, degrees."""
        return (self.forward + self.backward) / 2

    @property
    def half(self) -> float:
        """Signed half of the swing, from mid to full forward gear, degrees."""
        return (self.forward - self.backward) / 2

    def angle(self, reverser: float) -> float:
        """Return the part's angle at a position of the reverser, degrees."""
        return self.middle + reverser * self.half

    def pin(self, radius: float, offset: float, reverser: Array) -> Array:
        """Return a pin on an arm that stands `offset` degrees on from the part, (n, 2) mm."""
        angle = np.radians(self.middle + offset + np.asarray(reverser) * self.half)
        return np.stack([self.x + radius * np.cos(angle), self.y + radius * np.sin(angle)], axis=-1)


def shaft_of(gear: AnyGear, throw: float) -> Shaft | None:
    """Return what the reverser turns, None for a gear that has nothing of the kind.

    Parameters
    ----------
    throw : of the crank, mm, for a guide whose slot has no length yet.
    """
    for prefix, pivot, part, name in _KINDS:
        forward = getattr(gear, f"{prefix}_angle_forward", None)
        backward = getattr(gear, f"{prefix}_angle_backward", None)
        if forward is None or backward is None or forward == backward:
            continue
        length = {
            "arm": lambda: gear.lifting_arm,  # type: ignore[union-attr]
            "guide": lambda: (getattr(gear, "slot_length", None) or 2 * throw) / 2,
            "yoke": lambda: getattr(gear, "yoke_arm", None) or gear.radius_bar,  # type: ignore[union-attr]
        }[prefix]()
        x, y = getattr(gear, f"{pivot}_x"), getattr(gear, f"{pivot}_y")
        sizes = (x, y, forward, backward, length)
        if all(math.isfinite(one) for one in sizes):
            return Shaft(part, name, *(float(one) for one in sizes))
    return None
