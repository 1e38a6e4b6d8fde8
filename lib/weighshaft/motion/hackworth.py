"""Hackworth's gear: one eccentric, whose rod's end slides in a guide that the reverser tilts.

The rod stands across the cylinder's line.  Along that line a pin of the rod takes from the
eccentric, opposite to the crank or with it, what lap and lead ask for; the guide's tilt
turns the eccentric's rise and fall into the rest of the travel, with a sense of its own.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from ..sizes import SizeError, check_sizes, size
from .equivalent import EquivalentEccentric, ValveSizes, Wanted
from .frame import TINY, VAST, Array, Crank, Spindle, beyond, pin, radians
from .kernel import Part, Pose
from .parts import Wishes, admission_size, crank_points, valve_angle_size
from .slot_guide import SlotGuide, slot_size, tilt_size, tilt_wishes
from .statics import balance, towards

_TILT = 30.0
"""Tilt of the guide in full gear from which a layout starts, degrees."""


@dataclass(frozen=True, kw_only=True)
class Hackworth:
    """One eccentric at 180 or 0 degrees to the crank, a die in a tilted guide, a valve rod.

    With the guide at 90 degrees the gear is in mid gear.  The die stands at the guide's
    pivot at both dead centres where the eccentric rod is as long as the square root of
    pivot's distance squared plus throw squared: then the lead is the same in every notch.
    """

    kind: ClassVar[str] = "Hackworth"
    title: ClassVar[str] = "Hackworth's gear"
    notched: ClassVar[bool] = True
    parts: ClassVar[tuple[Part, ...]] = (
        Part("guide", ("guide", "link_centre"), "slot"),
        Part("guide", ("guide_lower", "guide", "guide_upper")),
        Part("eccentric", ("eccentric",), "sheave"),
        Part("eccentric rod", ("eccentric", "valve_pin", "die")),
        Part("die", ("die",)),
        Part("valve rod", ("valve_pin", "valve")),
    )

    # fmt: off
    eccentric_throw: float = size("Eccentric throw", low=TINY, high=VAST, main=True,
        help="centre distance: half of its travel")
    eccentric_angle: float = size("Eccentric leads the crank by", "deg", -720, 720, main=True,
        default=180.0, help="180 opposite to the crank, 0 with it")
    eccentric_rod: float = size("Eccentric rod", low=TINY, high=VAST, main=True,
        help="from the eccentric to the die")
    valve_pin: float = size("Valve rod's pin along the eccentric rod", low=TINY, high=VAST,
        main=True, help="from the eccentric; beyond the die where it exceeds the rod")
    guide: str = size("Guide", "choice", choices=("straight", "curved"), default="straight")
    guide_radius: float | None = size("Guide, radius of the curve", low=-VAST, high=VAST,
        default=None, help="struck from ahead; negative: struck from behind")
    guide_x: float = size("Guide's pivot ahead of axle", low=-VAST, high=VAST, default=0.0)
    guide_y: float = size("Guide's pivot above axle", low=-VAST, high=VAST)
    guide_angle_forward: float = tilt_size("forward")
    guide_angle_backward: float = tilt_size("backward")
    valve_rod: float = size("Valve rod", low=TINY, high=VAST)
    spindle_height: float = size("Valve spindle above axle", low=-VAST, high=VAST)
    slot_length: float | None = slot_size()
    admission: str = admission_size()
    valve_angle: float = valve_angle_size()
    # fmt: on

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.guide == "curved" and (self.guide_radius is None or abs(self.guide_radius) < TINY):
            raise SizeError("Guide, radius of the curve: a curved guide needs it.", "guide_radius")
        if math.hypot(self.guide_x, self.guide_y) < TINY:
            raise SizeError("Guide: its pivot has to stand off the axle.", "guide_y")

    def pose(self, crank: Crank, theta: Array, reverser: Array) -> Pose:
        """Return the pose of eccentric, die, valve rod's pin and valve."""
        sheave = pin(self.eccentric_throw, radians(self.eccentric_angle), radians(theta))
        points = {**crank_points(crank, theta), "eccentric": sheave}
        margins: dict[str, Array] = {}
        slot = self._slot()
        slid = slot.close(sheave, self.eccentric_rod, (0.0, 0.0), reverser, points, margins)
        share = self.valve_pin / self.eccentric_rod
        points["valve_pin"] = beyond(sheave, points["die"] - sheave, share)
        spindle = Spindle(self.spindle_height, self.valve_angle)
        xi, margins["valve rod"] = spindle.reach(points["valve_pin"], self.valve_rod)
        points["valve"] = spindle.at(xi)
        bars = (
            ("crank_pin", "gudgeon", crank.connecting_rod),
            ("eccentric", "die", self.eccentric_rod),
            ("eccentric", "valve_pin", self.valve_pin),
            ("valve_pin", "die", abs(self.eccentric_rod - self.valve_pin)),
            ("valve_pin", "valve", self.valve_rod),
            *slot.bars(),
        )
        return Pose(xi, points, bars, margins, die=slid)

    def _slot(self) -> SlotGuide:
        return SlotGuide(
            self.guide_x, self.guide_y, self.guide_angle_forward, self.guide_angle_backward,
            self.guide_radius if self.guide == "curved" else None,
            2.6 * self.eccentric_throw if self.slot_length is None else self.slot_length,
        )  # fmt: skip

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the valve; see `statics`.

        The eccentric rod is bent as well: its pull is that between eccentric and valve pin,
        while "eccentric strap" is all that the strap bears.
        """
        points = pose.points
        line = np.array(Spindle(0.0, self.valve_angle).along)
        rod = towards(points, "valve_pin", "valve")
        push = 1 / (rod @ line)
        shape = points["die"].shape
        x, y = np.broadcast_to([1.0, 0.0], shape), np.broadcast_to([0.0, 1.0], shape)
        strap_x, strap_y, die = balance(
            [
                [(x, points["eccentric"])],
                [(y, points["eccentric"])],
                [(self._slot().push(points), points["die"])],
            ],
            [(-push[..., None] * rod, points["valve_pin"])],
        )
        along = towards(points, "eccentric", "die")
        return {
            "eccentric rod": -(strap_x * along[..., 0] + strap_y * along[..., 1]),
            "eccentric strap": np.hypot(strap_x, strap_y),
            "die block": die,
            "valve rod": -push,
        }

    @classmethod
    def laid_out(
        cls,
        crank: Crank,
        sizes: ValveSizes,
        wanted: Wanted,
        admission: str,
        *,
        guide: str = "curved",
        beyond: bool = False,
    ) -> Hackworth:
        """Return a gear with its guide above the axle and the die at its pivot on dead centres.

        The guide tilts 30 degrees either way.  Along the cylinder's line the valve takes
        the share 1 - k of the throw, across it k times the tilt, where k is the valve pin's
        share of the rod: from these two and the eccentric that the events call for, k and
        the throw follow.  The guide stands high, for a rod that is long beside the throw:
        what its slope does to the cut-offs is of opposite sense forward and backward, so that
        no curve of the guide evens both.

        Parameters
        ----------
        guide : "straight" or "curved".
        beyond : the valve rod's pin beyond the die, which wants a smaller eccentric that
            stands with the crank.
        """
        advance = math.radians(sizes.advance)
        along, across = sizes.throw * math.sin(advance), sizes.throw * math.cos(advance)
        slope = math.tan(math.radians(_TILT)) * along / across
        share = 1 / (1 - slope) if beyond else 1 / (1 + slope)
        throw = along / abs(1 - share)
        spindle = 2.1 * crank.stroke
        high = spindle / share
        inside = admission == "inside"
        tilt = -_TILT if beyond else _TILT
        gear = cls(
            eccentric_throw=throw, eccentric_angle=0.0 if inside != beyond else 180.0,
            eccentric_rod=high, valve_pin=share * high, guide=guide,
            guide_radius=4.0 * crank.stroke if guide == "curved" else None, guide_y=high,
            guide_angle_forward=90.0 + tilt, guide_angle_backward=90.0 - tilt,
            valve_rod=0.85 * crank.connecting_rod, spindle_height=spindle, admission=admission,
        )  # fmt: skip
        return gear.squared()

    def squared(self) -> Hackworth:
        """Return the gear with the rod that brings the die to the guide's pivot on dead centres.

        The eccentric stands there square to the line from the axle to the pivot; the valve
        rod's pin keeps its share of the rod.
        """
        rod = math.hypot(self.guide_x, self.guide_y, self.eccentric_throw)
        share = self.valve_pin / self.eccentric_rod
        return replace(self, eccentric_rod=rod, valve_pin=share * rod)

    @property
    def tuning(self) -> tuple[float, float]:
        """Tilt of the guide, and the throw, which governs the lead."""
        return (self.guide_angle_forward - self.guide_angle_backward) / 2, self.eccentric_throw

    def tuned(self, tilt: float, throw: float) -> Hackworth:
        """Return the gear with another tilt and throw; the eccentric rod follows."""
        middle = (self.guide_angle_forward + self.guide_angle_backward) / 2
        return replace(
            self, guide_angle_forward=middle + tilt, guide_angle_backward=middle - tilt,
            eccentric_throw=throw,
        ).squared()  # fmt: skip

    def neighbours(self) -> Sequence[Hackworth]:
        """Return the gear with guides of other curves, or other valve rods, to even cut-offs."""
        high = math.hypot(self.guide_x, self.guide_y)
        if self.guide == "curved":
            bent = [step / (24 * high) for step in range(-24, 49) if step]
            return [replace(self, guide_radius=round(1 / bend, 3)) for bend in bent]
        return [replace(self, valve_rod=round(self.valve_rod * s / 12, 3)) for s in range(5, 25)]

    def called_for(
        self, sizes: ValveSizes, now: EquivalentEccentric, wanted: Wanted, crank: Crank
    ) -> Wishes:
        """Return throw and tilt that the wanted events call for, by what the gear does now."""
        share = self.valve_pin / self.eccentric_rod
        if share == 1:
            return ()
        throw = (sizes.steam_lap + wanted.lead) / abs(1 - share)
        wishes = [("eccentric_throw", throw, "lap and lead from the pin's share of the rod")]
        larger = throw / self.eccentric_throw
        return (*wishes, *tilt_wishes(self.tuning[0], self.guide_angle_forward, sizes, now, larger))
