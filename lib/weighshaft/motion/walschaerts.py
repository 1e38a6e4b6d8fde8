"""Walschaerts' gear: return crank, swinging link, radius rod, combination lever.

The link's swing closes as a dyad.  Given where the valve stands, so do the combination
lever and the union link.  What remains are two equations (the radius rod reaches from the
die to the lever; it is carried by the lifting arm) in two unknowns (the die along its
slot, the valve along its spindle), which are solved by Newton's rule.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from ..sizes import SizeError, check_sizes, size
from .equivalent import EquivalentEccentric, ValveSizes, Wanted
from .frame import (
    TINY,
    VAST,
    Array,
    Crank,
    Sized,
    Spindle,
    bearing,
    beyond,
    pin,
    point,
    radians,
    sign,
    span,
)
from .kernel import Part, Pose, dyad
from .parts import (
    Wishes,
    admission_size,
    arm_end,
    crank_points,
    hanging_size,
    steps,
    valve_angle_size,
)
from .radius_rod import close_radius_rod
from .statics import balance, moment, towards


@dataclass(frozen=True, kw_only=True)
class Walschaerts:
    """Return crank and crosshead drive one valve; the radius rod is lifted by link or slotted arm.

    Link axes: origin at the link's pivot, through which the slot passes; "ahead" towards
    the cylinder when the link stands upright.
    """

    kind: ClassVar[str] = "Walschaerts"
    title: ClassVar[str] = "Walschaerts' gear"
    notched: ClassVar[bool] = True
    parts: ClassVar[tuple[Part, ...]] = (
        Part("return crank", ("return_crank", "crank_pin")),
        Part("eccentric rod", ("return_crank", "link_tail")),
        Part("link", ("link", "link_centre", "link_tail"), "slot"),
        Part("radius rod", ("lifting_pin", "die", "radius_rod")),
        Part("die", ("die",)),
        Part("lifting link", ("arm", "lifting_pin")),
        Part("lifting arm", ("weighshaft", "arm")),
        Part("combination lever", ("valve", "radius_rod", "union")),
        Part("union link", ("drop_arm", "union")),
        Part("drop arm", ("gudgeon", "drop_arm")),
    )

    # fmt: off
    return_crank_throw: float = size("Return crank pin about the axle", low=TINY, high=VAST,
        main=True, help="centre distance: half of the pin's travel")
    return_crank_angle: float = size("Return crank pin leads the crank by", "deg", -720, 720,
        main=True)
    eccentric_rod: float = size("Eccentric rod", low=TINY, high=VAST, main=True)
    link_x: float = size("Link pivot ahead of axle", low=-VAST, high=VAST)
    link_y: float = size("Link pivot above axle", low=-VAST, high=VAST)
    tail_ahead: float = size("Link tail pin ahead of pivot", low=-VAST, high=VAST, default=0.0)
    tail_above: float = size("Link tail pin above pivot", low=-VAST, high=VAST)
    radius_rod: float = size("Radius rod", low=TINY, high=VAST, main=True)
    lever_upper: float = size("Combination lever, valve pin to radius rod", low=-VAST, high=VAST,
        main=True, help="down from the valve pin; negative puts the radius rod above it")
    lever_lower: float = size("Combination lever, radius rod to union link", low=TINY, high=VAST,
        main=True)
    union_link: float = size("Union link", low=TINY, high=VAST)
    drop_ahead: float = size("Drop arm's pin ahead of gudgeon pin", low=-VAST, high=VAST,
        default=0.0)
    drop_above: float = size("Drop arm's pin above gudgeon pin", low=-VAST, high=VAST)
    spindle_height: float = size("Valve spindle above axle", low=-VAST, high=VAST)
    lifting_pin: float = size("Lifting pin along the radius rod", low=-VAST, high=VAST,
        help="from the die; positive ahead")
    lifting: str = size("Radius rod lifted by", "choice", choices=("link", "slotted arm"),
        default="link")
    lifting_link: float = size("Lifting link", low=TINY, high=VAST, default=10.0,
        help="without meaning for a slotted arm")
    lifting_arm: float = size("Lifting arm", low=TINY, high=VAST)
    weighshaft_x: float = size("Weighshaft ahead of axle", low=-VAST, high=VAST)
    weighshaft_y: float = size("Weighshaft above axle", low=-VAST, high=VAST)
    arm_angle_forward: float = size("Lifting arm in full forward gear", "deg", -720, 720)
    arm_angle_backward: float = size("Lifting arm in full backward gear", "deg", -720, 720)
    hanging: str = hanging_size()
    slot_length: float | None = size("Slot, length along the arc", low=TINY, high=VAST,
        default=None)
    admission: str = admission_size()
    valve_angle: float = valve_angle_size()
    # fmt: on

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.tail_ahead == 0 and self.tail_above == 0:
            raise SizeError("Link tail: its pin has to stand off the pivot.", "tail_above")
        if self.lifting_pin == self.radius_rod:
            raise SizeError(
                "Lifting pin: carried at its lever pin the radius rod leaves the die free in "
                "its slot; a pin nearer the die would do.",
                "lifting_pin",
            )
        if self.lever_upper + self.lever_lower <= 0:
            raise SizeError(
                f"Combination lever: {self.lever_lower:g} mm from radius rod to union link "
                f"has to exceed the {-self.lever_upper:g} mm above the valve pin.",
                "lever_lower",
            )

    @property
    def turned(self) -> bool:
        """Never: the angle of the return crank is used as given."""
        return False

    def pose(self, crank: Crank, theta: Array, reverser: Array) -> Pose:
        """Return the pose of link, radius rod, combination lever and valve."""
        eccentric = pin(self.return_crank_throw, radians(self.return_crank_angle), radians(theta))
        tail, cos, sin, margins = self._swing(eccentric)
        pivot = point(self.link_x, self.link_y)
        centre = beyond(pivot, point(cos, sin), self.radius_rod)
        points = crank_points(crank, theta)
        drop = points["gudgeon"] + point(self.drop_ahead, self.drop_above)
        arm = arm_end(
            self.weighshaft_x,
            self.weighshaft_y,
            self.lifting_arm,
            self.arm_angle_forward,
            self.arm_angle_backward,
            reverser,
        )
        die, rod_end, union, xi = close_radius_rod(
            self, cos, sin, centre, drop, arm, reverser, margins
        )
        lifted = beyond(die, rod_end - die, self.lifting_pin / self.radius_rod)
        spindle = Spindle(self.spindle_height, self.valve_angle)
        points |= {
            "return_crank": eccentric, "link": pivot, "link_tail": tail,
            "link_centre": centre, "die": die, "lifting_pin": lifted,
            "arm": arm, "weighshaft": point(self.weighshaft_x, self.weighshaft_y),
            "radius_rod": rod_end, "union": union, "drop_arm": drop,
            "valve": spindle.at(xi),
        }  # fmt: skip
        bars: list[tuple[str, str, Sized]] = [
            ("crank_pin", "gudgeon", crank.connecting_rod),
            ("return_crank", "link_tail", self.eccentric_rod),
            ("link", "link_tail", self._tail),
            ("link_centre", "die", self.radius_rod),
            ("die", "radius_rod", self.radius_rod),
            ("valve", "radius_rod", abs(self.lever_upper)),
            ("radius_rod", "union", self.lever_lower),
            ("valve", "union", self.lever_upper + self.lever_lower),
            ("drop_arm", "union", self.union_link),
        ]
        if self.lifting == "link":
            bars.append(("arm", "lifting_pin", self.lifting_link))
        out = die - centre
        slid = bearing(
            cos * -out[..., 1] - sin * -out[..., 0], cos * -out[..., 0] + sin * -out[..., 1]
        )
        return Pose(xi, points, tuple(bars), margins, die=-self.radius_rod * slid)

    @property
    def _tail(self) -> Array:
        return span(self.tail_ahead, self.tail_above)

    def _swing(self, eccentric: Array) -> tuple[Array, Array, Array, dict[str, Array]]:
        """Return the link's tail pin, the direction of its "ahead", and the margins."""
        tail = self._tail
        # of the two closures the builder's is the one nearer upright, seen from the axle
        side = sign(self.link_x * self.tail_above - self.link_y * self.tail_ahead)
        pivot = point(self.link_x, self.link_y)
        joint, margin = dyad(eccentric, self.eccentric_rod, pivot, tail, side)
        x, y = joint[..., 0] - self.link_x, joint[..., 1] - self.link_y
        cos = (x * self.tail_ahead + y * self.tail_above) / tail**2
        sin = (y * self.tail_ahead - x * self.tail_above) / tail**2
        margins = {"link tail": margin, "link (more than 90° from upright)": cos}
        return joint, cos, sin, margins

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the valve; see `statics`."""
        points = pose.points
        line = np.array(Spindle(0.0, self.valve_angle).along)
        square = np.array([-line[1], line[0]])
        normal = towards(points, "link_centre", "die")
        if self.lifting == "link":
            lift = towards(points, "lifting_pin", "arm")
        else:
            arm = points["arm"] - np.array([self.weighshaft_x, self.weighshaft_y])
            lift = np.stack([-arm[..., 1], arm[..., 0]], axis=-1) / self.lifting_arm
        shape = points["die"].shape
        x, y = np.broadcast_to([1.0, 0.0], shape), np.broadcast_to([0.0, 1.0], shape)
        end = points["radius_rod"]
        # combination lever and radius rod, joined at the radius rod's pin
        union, _, pin_x, pin_y, die, lifting = balance(
            [
                [(towards(points, "union", "drop_arm"), points["union"]), None],
                [(np.broadcast_to(square, shape), points["valve"]), None],
                [(x, end), (-x, end)],
                [(y, end), (-y, end)],
                [None, (normal, points["die"])],
                [None, (lift, points["lifting_pin"])],
            ],
            [(np.broadcast_to(-line, shape), points["valve"]), None],
        )
        rod = towards(points, "link_tail", "return_crank")
        pivot = points["link"]
        pull = moment(points["die"] - pivot, die[..., None] * normal) / moment(
            points["link_tail"] - pivot, rod
        )
        return {
            "eccentric rod": pull,
            "radius rod": np.hypot(pin_x, pin_y),
            "union link": union,
            "die block": die,
            "lifting link" if self.lifting == "link" else "lifting arm": lifting,
        }

    @classmethod
    def laid_out(
        cls,
        crank: Crank,
        sizes: ValveSizes,
        wanted: Wanted,
        admission: str,
        *,
        slotted: bool = False,
    ) -> Walschaerts:
        """Return a Walschaerts gear: link upright and radius rod level at both dead centres.

        The combination lever has lap and lead to half the stroke; with the link upright the
        return crank stands square to the line from the axle to the tail pin, so that the radius
        rod may be moved from full forward to full backward there without moving the valve.
        """
        stroke = crank.stroke
        inside = admission == "inside"
        spindle, drop = 0.95 * stroke, -0.35 * stroke
        share = (sizes.steam_lap + wanted.lead) / crank.throw
        # upper and lower arm make up the height from the union pin to the valve pin
        height = spindle - drop
        upper = height * share / (1 - share if inside else 1 + share)
        lower = height + upper if inside else height - upper
        upper = -upper if inside else upper
        tail, lift = 0.62 * stroke, 0.26 * stroke
        rod, union = 2.6 * stroke, 0.75 * stroke
        middle = float(np.mean(crank.gudgeon_ends))
        # at the dead centres the lever leans: there the radius rod has to lie level
        lean = math.asin((crank.throw + (-1 if inside else 1) * share * crank.throw) / height)
        link_x, link_y = middle + union - rod, spindle - upper * math.cos(lean)
        if link_x < 0.6 * crank.connecting_rod:
            link_x = 0.6 * crank.connecting_rod
            rod = middle + union - link_x
        amplitude = sizes.throw * math.cos(math.radians(sizes.advance)) * lower / (lower + upper)
        throw = amplitude * tail / lift
        at = 0.25 * rod
        rise = lift * (1 - at / rod)
        arm = rise / math.sin(math.radians(25))
        hang = 1.2 * stroke
        pin_x = link_x + at
        gear = cls(
            return_crank_throw=throw, return_crank_angle=-90.0 if inside else 90.0,
            eccentric_rod=link_x,
            link_x=link_x, link_y=link_y, tail_ahead=0.0, tail_above=-tail, radius_rod=rod,
            lever_upper=upper, lever_lower=lower, union_link=union, drop_above=drop,
            spindle_height=spindle, lifting_pin=at,
            lifting="slotted arm" if slotted else "link", lifting_link=hang, lifting_arm=arm,
            weighshaft_x=pin_x + (arm if slotted else -arm),
            weighshaft_y=link_y + (0.0 if slotted else hang),
            arm_angle_forward=205.0 if slotted else -25.0,
            arm_angle_backward=155.0 if slotted else 25.0, admission=admission,
        )  # fmt: skip
        return gear.squared()

    def squared(self) -> Walschaerts:
        """Return the gear with eccentric rod and return crank that stand the link upright.

        At both dead centres of a level engine the return crank is then square to the line
        from the axle to the tail pin, so that the radius rod can be moved through without
        moving the valve.
        """
        x, y = self.link_x + self.tail_ahead, self.link_y + self.tail_above
        quarter = -90.0 if self.return_crank_angle < 0 else 90.0
        return replace(
            self, return_crank_angle=quarter - math.degrees(math.atan2(y, x)),
            eccentric_rod=math.hypot(x, y, self.return_crank_throw),
        )  # fmt: skip

    @property
    def tuning(self) -> tuple[float, float]:
        """Throw of the return crank, and the combination lever, which governs the lead."""
        return self.return_crank_throw, self.lever_upper

    def tuned(self, throw: float, upper: float) -> Walschaerts:
        """Return the gear with another throw and lever; rod and return crank follow."""
        lower = self.lever_upper + self.lever_lower - upper
        return replace(
            self, return_crank_throw=throw, lever_upper=upper, lever_lower=lower
        ).squared()

    def neighbours(self) -> Sequence[Walschaerts]:
        """Return the gear with tail pin, link and weighshaft moved, to even the cut-offs."""
        tail, link, shaft = abs(self.tail_above), self.link_y, self.weighshaft_y
        return [
            replace(self, tail_ahead=at, link_y=link + up, weighshaft_y=shaft + up).squared()
            for up in (0.0, 0.05 * tail, 0.1 * tail)
            for at in steps(0.3 * tail)
        ]

    def called_for(
        self, sizes: ValveSizes, now: EquivalentEccentric, wanted: Wanted, crank: Crank
    ) -> Wishes:
        """Return the combination lever and return crank that the wanted events call for."""
        sense = 1 if self.admission == "outside" else -1
        upper = sense * self.lever_lower * (sizes.steam_lap + wanted.lead) / crank.throw
        wishes = [("lever_upper", upper, "lap and lead to half the stroke")]
        # the return crank makes the part of the motion that is square to the crank
        across = now.throw * math.cos(math.radians(now.advance))
        if across > 0:
            needed = sizes.throw * math.cos(math.radians(sizes.advance))
            opens = sizes.throw - sizes.steam_lap
            throw = self.return_crank_throw * needed / across
            wishes.append(("return_crank_throw", throw, f"port opens {opens:.2f} mm in full gear"))
        return tuple(wishes)
