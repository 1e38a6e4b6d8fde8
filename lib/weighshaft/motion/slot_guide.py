"""The slot guide of a radial gear: it stands still, and the reverser tilts it about its middle.

A rod or lever reaches from a moving pin to the die; with a straight guide the die stands
where a bar meets a line, with a curved one where two bars meet.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from ..sizes import size
from .equivalent import EquivalentEccentric, ValveSizes
from .frame import (
    TINY,
    VAST,
    Array,
    Sized,
    arm_angle,
    bearing,
    beyond,
    dot,
    point,
    radians,
    sign,
    span,
)
from .kernel import dyad
from .parts import Wishes
from .statics import towards


def tilt_size(direction: str) -> Any:
    """Declare the slope of the guide in full gear; 90 is square to the cylinder's line."""
    return size(
        f"Guide in full {direction} gear",
        "deg",
        -720,
        720,
        main=direction == "forward",
        help="its upper end, anticlockwise from the cylinder's line",
    )


def slot_size() -> Any:
    """Declare the length of the slot."""
    return size("Slot, length along the guide", low=TINY, high=VAST, default=None)


def tilt_wishes(
    tilt: float, forward: float, sizes: ValveSizes, now: EquivalentEccentric, larger: float
) -> Wishes:
    """Return the angles of the guide for the part of the motion that is square to the crank.

    Parameters
    ----------
    tilt, forward : of the guide as it is in full forward gear, degrees.
    sizes : of the eccentric that the wanted events call for.
    now : the eccentric that the gear amounts to in full forward gear.
    larger : how many times as far the other wishes make the die's tilt move the valve.
    """
    across = now.throw * math.cos(math.radians(now.advance))
    if not across > 0:
        return ()
    needed = sizes.throw * math.cos(math.radians(sizes.advance)) / (across * larger)
    new = math.degrees(math.atan(needed * math.tan(math.radians(tilt))))
    opens = f"port opens {sizes.throw - sizes.steam_lap:.2f} mm in full gear"
    return (
        ("guide_angle_forward", forward - tilt + new, opens),
        ("guide_angle_backward", forward - tilt - new, "as forward, the other way"),
    )


@dataclass(frozen=True)
class SlotGuide:
    """A straight or curved slot through the pivot at its middle.

    Parameters
    ----------
    x, y : of the pivot, mm.
    forward, backward : angle of the guide in full gear, degrees, measured to the end that
        is the upper one at 90; between them it is linear in the reverser.
    radius : of the curve, mm; positive where it is struck from ahead, negative from
        behind, None for a straight guide.
    shown : length at which a straight guide is drawn, mm.
    """

    x: float
    y: float
    forward: float
    backward: float
    radius: float | None
    shown: float

    def close(
        self,
        start: Array,
        length: float,
        base: tuple[float, float],
        reverser: Array,
        points: dict[str, Array],
        margins: dict[str, Array],
    ) -> Array:
        """Place the die of a rod from `start`; add its joints and margins, return how it slid.

        Of the two places the die takes that on the far side of the guide's pivot, seen
        from `base`, about which `start` moves.

        Parameters
        ----------
        start : (..., 2) mm.
        length : of the rod from `start` to the die, mm.

        Returns
        -------
        The die's distance from the middle of the slot along it, towards its upper end, mm.
        """
        pivot = point(self.x, self.y)
        angle = arm_angle(self.forward, self.backward, reverser)
        up_x, up_y = np.cos(angle), np.sin(angle)
        up, ahead = np.stack([up_x, up_y], axis=-1), np.stack([up_y, -up_x], axis=-1)
        way_x, way_y = self.x - base[0], self.y - base[1]
        middle = radians((self.forward + self.backward) / 2)
        # the upper end is on the far side, also where the two are level
        side = -sign(-(way_x * np.cos(middle) + way_y * np.sin(middle)))
        far = np.maximum(span(way_x, way_y), TINY)
        margins["guide (square to its rod)"] = side * (up_x * way_x + up_y * way_y) / far
        points["guide"] = pivot
        if self.radius is None:
            away = start - pivot
            off = dot(away, ahead)
            room = 1 - (off / length) ** 2
            margin = np.where(room > 0, np.sqrt(np.maximum(room, 0.0)), room)
            slid = dot(away, up) + side * length * np.maximum(margin, 0.0)
            points["die"] = beyond(pivot, up, slid)
            points["guide_lower"] = beyond(pivot, up, -self.shown / 2)
            points["guide_upper"] = beyond(pivot, up, self.shown / 2)
            margins["die"] = margin
            return np.asarray(slid)
        centre, bent = beyond(pivot, ahead, self.radius), sign(self.radius)
        die, margins["die"] = dyad(start, length, centre, bent * self.radius, side * bent)
        points["die"], points["link_centre"] = die, centre
        out = die - centre
        along, inward = dot(out, up) / self.radius, -dot(out, ahead) / self.radius
        margins["die (beyond a quarter turn of its guide)"] = inward
        return np.asarray(self.radius * bearing(along, inward))

    def bars(self) -> list[tuple[str, str, Sized]]:
        """Return what the guide itself holds at a fixed distance."""
        return [] if self.radius is None else [("link_centre", "die", abs(self.radius))]

    def push(self, points: Mapping[str, Array]) -> Array:
        """Return the unit vector, ahead, along which the guide pushes the die."""
        if self.radius is not None:
            return math.copysign(1.0, self.radius) * towards(points, "die", "link_centre")
        up = towards(points, "guide_lower", "guide_upper")
        return np.stack([up[..., 1], -up[..., 0]], axis=-1)
