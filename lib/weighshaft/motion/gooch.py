"""Gooch's stationary link motion: open and crossed rods, the radius rod drives the valve.

The link is hung from a fixed point and curved the other way, struck from ahead with the
radius rod, so that lifting the die from full forward to full backward gear does not move
the valve while the link stands upright: the lead is the same in every notch.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size
from .eccentric_link import EccentricLink, eccentric_behind_link
from .equivalent import EquivalentEccentric, ValveSizes, Wanted
from .frame import TINY, VAST, Array, Crank, Spindle, point
from .kernel import Part, Pose
from .lifted_rod import LiftedRod
from .parts import (
    Eccentrics,
    Wishes,
    admission_size,
    arm_end,
    crank_points,
    eccentric_wishes,
    eccentrics_alike,
    hanging_size,
    steps,
    valve_angle_size,
)
from .statics import towards


@dataclass(frozen=True, kw_only=True)
class Gooch:
    """Two eccentrics, a link hung from a fixed point, a radius rod lifted with its die.

    Link axes: origin at the middle of the slot's centre arc, "ahead" away from the axle
    along the arc's axis, "above" towards its upper end; the arc is struck from ahead.
    """

    kind: ClassVar[str] = "Gooch"
    title: ClassVar[str] = "Gooch's stationary link"
    notched: ClassVar[bool] = True
    parts: ClassVar[tuple[Part, ...]] = (
        Part("backward eccentric", ("backward_eccentric",), "sheave", behind=True),
        Part("backward rod", ("backward_eccentric", "backward_pin"), behind=True),
        Part("forward eccentric", ("forward_eccentric",), "sheave"),
        Part("forward rod", ("forward_eccentric", "forward_pin")),
        Part("link", ("link", "link_centre", "forward_pin", "backward_pin"), "slot"),
        Part("suspension link", ("hanger", "suspension")),
        Part("radius rod", ("die", "lifting_pin", "valve")),
        Part("lifting link", ("arm", "lifting_pin")),
        Part("lifting arm", ("weighshaft", "arm")),
        Part("die", ("die",)),
    )

    # fmt: off
    eccentric_throw: float = size("Eccentric throw", low=TINY, high=VAST, main=True,
        help="centre distance: half of the travel")
    advance: float = size("Angle of advance", "deg", -720, 720, main=True)
    eccentric_rod: float = size("Eccentric rod", low=TINY, high=VAST, main=True)
    rods: str = size("Rods", "choice", choices=("open", "crossed"), default="open")
    pin_spacing: float = size("Link, between the rod pins", low=TINY, high=VAST, main=True)
    backset: float = size("Rod pins behind the slot (backset)", low=-VAST, high=VAST, default=0.0,
        help="behind its middle; the slot's ends stand ahead of that")
    radius_rod: float = size("Radius rod", low=TINY, high=VAST, main=True,
        help="die to valve pin")
    link_radius: float | None = size("Link, radius of the slot", low=TINY, high=VAST, default=None,
        help="struck from ahead; with the radius rod unless given")
    slot_length: float | None = size("Slot, length along the arc", low=TINY, high=VAST,
        default=None)
    suspension_ahead: float = size("Suspension pin ahead of the slot", low=-VAST, high=VAST,
        default=0.0, main=True)
    suspension_above: float = size("Suspension pin above the middle", low=-VAST, high=VAST,
        default=0.0)
    suspension_link: float = size("Suspension link", low=TINY, high=VAST)
    hanger_x: float = size("Fixed point of the suspension link ahead of axle", low=-VAST,
        high=VAST)
    hanger_y: float = size("Fixed point of the suspension link above axle", low=-VAST, high=VAST)
    suspended: str = size("Link carried below or above its fixed point", "choice",
        choices=("below", "above"), default="below")
    lifting_pin: float = size("Lifting pin along the radius rod", low=-VAST, high=VAST,
        help="from the die; positive ahead")
    lifting_link: float = size("Lifting link", low=TINY, high=VAST)
    lifting_arm: float = size("Lifting arm", low=TINY, high=VAST)
    weighshaft_x: float = size("Weighshaft ahead of axle", low=-VAST, high=VAST)
    weighshaft_y: float = size("Weighshaft above axle", low=-VAST, high=VAST)
    arm_angle_forward: float = size("Lifting arm in full forward gear", "deg", -720, 720)
    arm_angle_backward: float = size("Lifting arm in full backward gear", "deg", -720, 720)
    hanging: str = hanging_size()
    spindle_height: float = size("Valve spindle above axle", low=-VAST, high=VAST, default=0.0)
    admission: str = admission_size()
    valve_angle: float = valve_angle_size()
    # fmt: on

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.lifting_pin == self.radius_rod:
            raise SizeError(
                "Lifting pin: carried at its valve pin the radius rod leaves the die free in "
                "its slot; a pin nearer the die would do.",
                "lifting_pin",
            )

    @property
    def turned(self) -> bool:
        """Whether the eccentrics are keyed round by half a turn."""
        return self.admission == "inside"

    def eccentrics(self) -> Eccentrics:
        """Return forward and backward eccentric with their rods."""
        return eccentrics_alike(
            self.eccentric_throw, self.advance, self.eccentric_rod, self.valve_angle,
            turned=self.turned,
        )  # fmt: skip

    def pose(self, crank: Crank, theta: Array, reverser: Array) -> Pose:
        """Return the pose of link, die, radius rod and valve."""
        points, margins = crank_points(crank, theta), dict[str, Array]()
        points["hanger"] = point(self.hanger_x, self.hanger_y)
        points["weighshaft"] = point(self.weighshaft_x, self.weighshaft_y)
        points["arm"] = arm_end(
            self.weighshaft_x, self.weighshaft_y, self.lifting_arm, self.arm_angle_forward,
            self.arm_angle_backward, reverser,
        )  # fmt: skip
        link, rod = self._link(), self._rod()
        place = link.close(theta, points["hanger"], points, margins)
        xi, slid = rod.close(place, points["arm"], points, margins)
        points["link_centre"] = place.at(1 / rod.bend, 0.0)
        bars = [
            ("crank_pin", "gudgeon", crank.connecting_rod),
            *link.bars("hanger"), *rod.bars("arm"),
            ("link_centre", "die", 1 / rod.bend),
        ]  # fmt: skip
        return Pose(xi, points, tuple(bars), margins, die=slid)

    def _link(self) -> EccentricLink:
        return EccentricLink(
            self.eccentrics(), self.pin_spacing / 2,
            self.rods == "crossed", self.backset, self.suspension_ahead, self.suspension_above,
            "suspension link", self.suspension_link, self.suspended,
        )  # fmt: skip

    def _rod(self) -> LiftedRod:
        radius = self.radius_rod if self.link_radius is None else self.link_radius
        return LiftedRod(
            self.radius_rod, 1 / radius, self.lifting_pin,
            "lifting link", self.lifting_link, self.hanging,
            Spindle(self.spindle_height, self.valve_angle), self.pin_spacing / 3,
        )  # fmt: skip

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the valve; see `statics`."""
        points = pose.points
        ahead = towards(points, "die", "link_centre")
        found, push = self._rod().forces(points, ahead, "arm")
        return {**self._link().pulls(points, push, "hanger"), **found}

    @classmethod
    def laid_out(
        cls,
        crank: Crank,
        sizes: ValveSizes,
        wanted: Wanted,
        admission: str,
        *,
        rods: str = "open",
    ) -> Gooch:
        """Return a Gooch gear whose link stands upright on both dead centres.

        There it is symmetrical about the line of the axle, and the radius rod may be moved
        through without moving the valve.  The die works to eight tenths of the half spacing,
        ahead of the rod pins; the lifting arm swings 25 degrees either way.
        """
        half, rod, radius = 4.1 * sizes.throw, 2.2 * crank.stroke, 2.0 * crank.stroke
        crossed = rods == "crossed"
        die, hang, at = 0.8 * half, 2.8 * half, 0.25 * radius
        throw, advance = eccentric_behind_link(sizes, rod, half, die, 0.0, crossed=crossed)
        arm = die * (1 - at / radius) / math.sin(math.radians(25))
        # near what evens the cut-offs: found by trial over engines of several scales
        ahead = 2 * half * (0.16 if admission == "inside" else 0.0 if crossed else 0.04)
        up, down = (205.0, 155.0) if crossed else (155.0, 205.0)
        gear = cls(
            eccentric_throw=throw, advance=advance, eccentric_rod=rod, rods=rods,
            pin_spacing=2 * half, backset=0.2 * half, radius_rod=radius, suspension_ahead=ahead,
            suspension_link=hang, hanger_x=0.0, hanger_y=0.0,
            lifting_pin=at, lifting_link=hang, lifting_arm=arm,
            weighshaft_x=0.0, weighshaft_y=hang,
            arm_angle_forward=up, arm_angle_backward=down, admission=admission,
        )  # fmt: skip
        x, y = gear.upright_hanger()
        return replace(gear, hanger_x=x, hanger_y=y, weighshaft_x=x - ahead + at + arm)

    def upright_hanger(self) -> tuple[float, float]:
        """Return the fixed point that stands the link upright on both dead centres, mm.

        There the eccentrics stand alike above and below the line from the axle along the
        spindle's inclination, and the link, hung with its middle on that line, square to it.
        """
        half, delta = self.pin_spacing / 2, math.radians(self.advance)
        across, along = (trig(delta) * self.eccentric_throw for trig in (math.cos, math.sin))
        near, far = (
            math.sqrt(max(self.eccentric_rod**2 - (half + way * across) ** 2, 0.0))
            for way in (-1, 1)
        )
        # of the link to either side of its middle place
        swing = (far - near) / 2 + along if self.rods == "crossed" else (near - far) / 2 + along
        rise = math.sqrt(max(self.suspension_link**2 - swing**2, 0.0))
        x = (near + far) / 2 + self.backset + self.suspension_ahead
        y = self.suspension_above + (rise if self.suspended == "below" else -rise)
        c, s = Spindle(0.0, self.valve_angle).along
        return float(c * x - s * y), float(s * x + c * y)

    @property
    def tuning(self) -> tuple[float, float]:
        """Throw and advance: what governs travel and lead."""
        return self.eccentric_throw, self.advance

    def tuned(self, throw: float, advance: float) -> Gooch:
        """Return the gear with another throw and advance; the fixed point follows.

        It moves so far that the link stands on the dead centres as it did.
        """
        gear = replace(self, eccentric_throw=throw, advance=advance)
        (x, y), (new_x, new_y) = self.upright_hanger(), gear.upright_hanger()
        return replace(gear, hanger_x=self.hanger_x + new_x - x, hanger_y=self.hanger_y + new_y - y)

    def neighbours(self) -> Sequence[Gooch]:
        """Return the gear with its suspension pin moved ahead and back, to even the cut-offs.

        The fixed point moves with it, so that the link still stands upright where it did.
        """
        c, s = (float(v) for v in Spindle(0.0, self.valve_angle).along)
        return [
            replace(
                self, suspension_ahead=self.suspension_ahead + at,
                hanger_x=self.hanger_x + c * at, hanger_y=self.hanger_y + s * at,
            )
            for at in steps(0.18 * self.pin_spacing)
        ]  # fmt: skip

    def called_for(
        self, sizes: ValveSizes, now: EquivalentEccentric, wanted: Wanted, crank: Crank
    ) -> Wishes:
        """Return throw and advance that the wanted events call for, through link and rod."""
        return eccentric_wishes(self.eccentric_throw, self.advance, sizes, now)
