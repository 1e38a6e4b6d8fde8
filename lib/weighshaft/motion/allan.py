"""Allan's straight link motion: open and crossed rods, the radius rod drives the valve.

One weighshaft with two arms moves the link one way and the radius rod the other, so that
the two nearly balance, and the slot is straight: the arms share the lift between them in
such a way that the curves of a shifting and of a stationary link cancel.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

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
class Allan:
    """Two eccentrics and a straight link; link and radius rod are moved opposite ways.

    Link axes: origin at the middle of the slot, "ahead" away from the axle square to the
    slot, "above" along it towards its upper end.
    """

    kind: ClassVar[str] = "Allan"
    title: ClassVar[str] = "Allan's straight link"
    notched: ClassVar[bool] = True
    parts: ClassVar[tuple[Part, ...]] = (
        Part("backward eccentric", ("backward_eccentric",), "sheave", behind=True),
        Part("backward rod", ("backward_eccentric", "backward_pin"), behind=True),
        Part("forward eccentric", ("forward_eccentric",), "sheave"),
        Part("forward rod", ("forward_eccentric", "forward_pin")),
        Part("link", ("forward_pin", "slot_forward", "slot_backward", "backward_pin")),
        Part("link's lifting link", ("link_arm", "suspension")),
        Part("link's arm", ("weighshaft", "link_arm")),
        Part("radius rod", ("die", "lifting_pin", "valve")),
        Part("radius rod's lifting link", ("rod_arm", "lifting_pin")),
        Part("radius rod's arm", ("weighshaft", "rod_arm")),
        Part("die", ("die",)),
    )

    # fmt: off
    eccentric_throw: float = size("Eccentric throw", low=TINY, high=VAST, main=True,
        help="centre distance: half of the travel")
    advance: float = size("Angle of advance", "deg", -720, 720, main=True)
    eccentric_rod: float = size("Eccentric rod", low=TINY, high=VAST, main=True)
    rods: str = size("Rods", "choice", choices=("open", "crossed"), default="open")
    pin_spacing: float = size("Link, between the rod pins", low=TINY, high=VAST, main=True)
    backset: float = size("Rod pins behind the slot (backset)", low=-VAST, high=VAST, default=0.0)
    radius_rod: float = size("Radius rod", low=TINY, high=VAST, main=True,
        help="die to valve pin")
    slot_length: float | None = size("Slot, length", low=TINY, high=VAST, default=None)
    suspension_ahead: float = size("Link's lifting pin ahead of the slot", low=-VAST, high=VAST,
        default=0.0, main=True)
    suspension_above: float = size("Link's lifting pin above the middle", low=-VAST, high=VAST,
        default=0.0)
    lifting_link: float = size("Link's lifting link", low=TINY, high=VAST)
    lifting_arm: float = size("Link's lifting arm", low=TINY, high=VAST)
    hanging: str = hanging_size()
    weighshaft_x: float = size("Weighshaft ahead of axle", low=-VAST, high=VAST)
    weighshaft_y: float = size("Weighshaft above axle", low=-VAST, high=VAST)
    arm_angle_forward: float = size("Link's arm in full forward gear", "deg", -720, 720)
    arm_angle_backward: float = size("Link's arm in full backward gear", "deg", -720, 720)
    lifting_pin: float = size("Lifting pin along the radius rod", low=-VAST, high=VAST,
        help="from the die; positive ahead")
    rod_lifting_link: float = size("Radius rod's lifting link", low=TINY, high=VAST)
    rod_lifting_arm: float = size("Radius rod's lifting arm", low=TINY, high=VAST)
    rod_arm_angle: float = size("Weighshaft, from the link's arm to the rod's", "deg", -720, 720,
        default=180.0, help="180 is a straight lever")
    rod_hanging: str = size("Radius rod carried below or above its arm", "choice",
        choices=("below", "above"), default="below")
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
        points["weighshaft"] = point(self.weighshaft_x, self.weighshaft_y)
        for joint, length, beyond in (
            ("link_arm", self.lifting_arm, 0.0),
            ("rod_arm", self.rod_lifting_arm, self.rod_arm_angle),
        ):
            points[joint] = arm_end(
                self.weighshaft_x, self.weighshaft_y, length, self.arm_angle_forward + beyond,
                self.arm_angle_backward + beyond, reverser,
            )  # fmt: skip
        link, rod = self._link(), self._rod()
        place = link.close(theta, points["link_arm"], points, margins)
        xi, slid = rod.close(place, points["rod_arm"], points, margins)
        half = (self.pin_spacing if self.slot_length is None else self.slot_length) / 2
        forward = -half if self.rods == "crossed" else half
        points["slot_forward"], points["slot_backward"] = (
            place.at(0, forward),
            place.at(0, -forward),
        )
        bars = [
            ("crank_pin", "gudgeon", crank.connecting_rod),
            *link.bars("link_arm"), *rod.bars("rod_arm"),
        ]  # fmt: skip
        return Pose(xi, points, tuple(bars), margins, die=slid)

    def _link(self) -> EccentricLink:
        return EccentricLink(
            self.eccentrics(), self.pin_spacing / 2,
            self.rods == "crossed", self.backset, self.suspension_ahead, self.suspension_above,
            "link's lifting link", self.lifting_link, self.hanging,
        )  # fmt: skip

    def _rod(self) -> LiftedRod:
        return LiftedRod(
            self.radius_rod, 0.0, self.lifting_pin, "radius rod's lifting link",
            self.rod_lifting_link, self.rod_hanging,
            Spindle(self.spindle_height, self.valve_angle), self.pin_spacing / 3,
        )  # fmt: skip

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the valve; see `statics`."""
        points = pose.points
        way = 1.0 if self.rods == "open" else -1.0
        up = way * towards(points, "slot_backward", "slot_forward")
        ahead = np.stack([up[..., 1], -up[..., 0]], axis=-1)
        found, push = self._rod().forces(points, ahead, "rod_arm")
        return {**self._link().pulls(points, push, "link_arm"), **found}

    @classmethod
    def laid_out(
        cls,
        crank: Crank,
        sizes: ValveSizes,
        wanted: Wanted,
        admission: str,
        *,
        rods: str = "open",
    ) -> Allan:
        """Return an Allan gear whose weighshaft, a straight lever, stands between its two links.

        The link takes the share of the lift that `share_of_link` gives, the radius rod the
        rest.  The die works to eight tenths of the half spacing, ahead of the rod pins; the
        arms swing 25 degrees either way.
        """
        half, rod, radius = 4.1 * sizes.throw, 2.2 * crank.stroke, 2.0 * crank.stroke
        crossed = rods == "crossed"
        die = 0.8 * half
        lowered = die * share_of_link(rod, radius)
        throw, advance = eccentric_behind_link(sizes, rod, half, die, lowered, crossed=crossed)
        backset, hang, swing = 0.2 * half, 2.8 * half, math.sin(math.radians(25))
        arm, whole = lowered / swing, (die - lowered) / swing
        # near what evens the cut-offs: found by trial over engines of several scales
        ahead = 2 * half * (0.16 if admission == "inside" else 0.0)
        # both arms end above their pins: their lengths and the rod's pin follow one another
        part = (arm + whole + ahead) / (radius + whole)
        middle = math.sqrt(rod**2 - half**2) + backset + ahead
        down, up = (155.0, 205.0) if crossed else (205.0, 155.0)
        return cls(
            eccentric_throw=throw, advance=advance, eccentric_rod=rod, rods=rods,
            pin_spacing=2 * half, backset=backset, radius_rod=radius,
            suspension_ahead=ahead,
            lifting_link=hang, lifting_arm=arm, weighshaft_x=middle + arm, weighshaft_y=hang,
            arm_angle_forward=down, arm_angle_backward=up,
            lifting_pin=part * radius, rod_lifting_link=hang,
            rod_lifting_arm=whole * (1 - part), admission=admission,
        )  # fmt: skip

    @property
    def tuning(self) -> tuple[float, float]:
        """Throw and advance: what governs travel and lead."""
        return self.eccentric_throw, self.advance

    def tuned(self, throw: float, advance: float) -> Allan:
        """Return the gear with another throw and advance."""
        return replace(self, eccentric_throw=throw, advance=advance)

    def neighbours(self) -> Sequence[Allan]:
        """Return the gear with the link's lifting pin moved ahead and back, to even cut-offs."""
        return [
            replace(self, suspension_ahead=self.suspension_ahead + at)
            for at in steps(0.18 * self.pin_spacing)
        ]

    def called_for(
        self, sizes: ValveSizes, now: EquivalentEccentric, wanted: Wanted, crank: Crank
    ) -> Wishes:
        """Return throw and advance that the wanted events call for, through link and rod."""
        return eccentric_wishes(self.eccentric_throw, self.advance, sizes, now)


def share_of_link(eccentric_rod: float, radius_rod: float) -> float:
    """Return what part of the lift the link takes; the radius rod takes the rest.

    With it the middle of the valve's travel stays where it is over all notches, to the
    second order in link over rods, though the slot is straight.

    Parameters
    ----------
    eccentric_rod, radius_rod : between centres, mm.

    Source: Zeuner's rule for the arms of Allan's gear (Treatise on Valve-Gears, from memory),
    lift of rod to lift of link as R/l (1 + sqrt(1 + l/R)), derived anew.
    """
    return 1 - math.sqrt(radius_rod / (radius_rod + eccentric_rod))
