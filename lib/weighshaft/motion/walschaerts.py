"""Walschaerts' gear: return crank, swinging link, radius rod, combination lever.

The link's swing closes as a dyad.  Given where the valve stands, so do the combination
lever and the union link.  What remains are two equations (the radius rod reaches from the
die to the lever; it is carried by the lifting arm) in two unknowns (the die along its
slot, the valve along its spindle), which are solved by Newton's rule.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from ..sizes import SizeError, check_sizes, size
from .frame import TINY, VAST, Array, Crank, Spindle, arm_angle, pin
from .kernel import Part, Pose, dyad
from .parts import (
    admission_size,
    arm_end,
    crank_points,
    hanging_size,
    turn,
    turned,
    valve_angle_size,
)
from .statics import balance, moment, towards

_BRISK, _WALK, _STEPS = 10, 50, 58
"""Iterations at full steps, at a third of a step, and to the end; four serve as a rule."""


@dataclass(frozen=True, kw_only=True)
class Walschaerts:
    """Return crank and crosshead drive one valve; the radius rod is lifted by link or slotted arm.

    Link axes: origin at the link's pivot, through which the slot passes; "ahead" towards
    the cylinder when the link stands upright.
    """

    kind: ClassVar[str] = "Walschaerts"
    title: ClassVar[str] = "Walschaerts' gear"
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

    return_crank_throw: float = size(
        "Return crank pin about the axle",
        low=TINY,
        high=VAST,
        main=True,
        help="centre distance: half of the pin's travel",
    )
    return_crank_angle: float = size(
        "Return crank pin leads the crank by", "deg", -720, 720, main=True
    )
    eccentric_rod: float = size("Eccentric rod", low=TINY, high=VAST, main=True)
    link_x: float = size("Link pivot ahead of axle", low=-VAST, high=VAST)
    link_y: float = size("Link pivot above axle", low=-VAST, high=VAST)
    tail_ahead: float = size("Link tail pin ahead of pivot", low=-VAST, high=VAST, default=0.0)
    tail_above: float = size("Link tail pin above pivot", low=-VAST, high=VAST)
    radius_rod: float = size("Radius rod", low=TINY, high=VAST, main=True)
    lever_upper: float = size(
        "Combination lever, valve pin to radius rod",
        low=-VAST,
        high=VAST,
        main=True,
        help="down from the valve pin; negative puts the radius rod above it",
    )
    lever_lower: float = size(
        "Combination lever, radius rod to union link", low=TINY, high=VAST, main=True
    )
    union_link: float = size("Union link", low=TINY, high=VAST)
    drop_ahead: float = size(
        "Drop arm's pin ahead of gudgeon pin", low=-VAST, high=VAST, default=0.0
    )
    drop_above: float = size("Drop arm's pin above gudgeon pin", low=-VAST, high=VAST)
    spindle_height: float = size("Valve spindle above axle", low=-VAST, high=VAST)
    lifting_pin: float = size(
        "Lifting pin along the radius rod",
        low=-VAST,
        high=VAST,
        help="from the die; positive ahead",
    )
    lifting: str = size(
        "Radius rod lifted by", "choice", choices=("link", "slotted arm"), default="link"
    )
    lifting_link: float = size(
        "Lifting link", low=TINY, high=VAST, default=10.0, help="without meaning for a slotted arm"
    )
    lifting_arm: float = size("Lifting arm", low=TINY, high=VAST)
    weighshaft_x: float = size("Weighshaft ahead of axle", low=-VAST, high=VAST)
    weighshaft_y: float = size("Weighshaft above axle", low=-VAST, high=VAST)
    arm_angle_forward: float = size("Lifting arm in full forward gear", "deg", -720, 720)
    arm_angle_backward: float = size("Lifting arm in full backward gear", "deg", -720, 720)
    hanging: str = hanging_size()
    slot_length: float | None = size(
        "Slot, length along the arc", low=TINY, high=VAST, default=None
    )
    admission: str = admission_size()
    valve_angle: float = valve_angle_size()

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
        angle = np.radians(theta)
        eccentric = pin(self.return_crank_throw, np.radians(self.return_crank_angle), angle)
        tail, cos, sin, margins = self._swing(eccentric)
        pivot = np.array([self.link_x, self.link_y])
        centre = pivot + self.radius_rod * np.stack([cos, sin], axis=-1)
        points = crank_points(crank, theta)
        drop = points["gudgeon"] + np.array([self.drop_ahead, self.drop_above])
        arm = arm_end(
            self.weighshaft_x,
            self.weighshaft_y,
            self.lifting_arm,
            self.arm_angle_forward,
            self.arm_angle_backward,
            reverser,
        )
        die, rod_end, union, xi = self._solve(cos, sin, centre, drop, arm, reverser, margins)
        along = (rod_end - die) / self.radius_rod
        lifted = die + self.lifting_pin * along
        spindle = Spindle(self.spindle_height, self.valve_angle)
        points |= {
            "return_crank": eccentric, "link": pivot.reshape(1, 1, 2), "link_tail": tail,
            "link_centre": centre, "die": die, "lifting_pin": lifted,
            "arm": arm, "weighshaft": np.array([[[self.weighshaft_x, self.weighshaft_y]]]),
            "radius_rod": rod_end, "union": union, "drop_arm": drop,
            "valve": spindle.at(xi),
        }  # fmt: skip
        bars = [
            ("crank_pin", "gudgeon", crank.connecting_rod),
            ("return_crank", "link_tail", self.eccentric_rod),
            ("link", "link_tail", float(np.hypot(self.tail_ahead, self.tail_above))),
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
        slid = np.arctan2(
            cos * -out[..., 1] - sin * -out[..., 0], cos * -out[..., 0] + sin * -out[..., 1]
        )
        return Pose(xi, points, tuple(bars), margins, die=-self.radius_rod * slid)

    def _swing(self, eccentric: Array) -> tuple[Array, Array, Array, dict[str, Array]]:
        """Return the link's tail pin, the direction of its "ahead", and the margins."""
        pivot = np.array([self.link_x, self.link_y])
        tail = float(np.hypot(self.tail_ahead, self.tail_above))
        # of the two closures the builder's is the one nearer upright, seen from the axle
        upright = np.array([self.tail_ahead, self.tail_above])
        side = 1.0 if pivot[0] * upright[1] - pivot[1] * upright[0] > 0 else -1.0
        joint, margin = dyad(eccentric, self.eccentric_rod, pivot, tail, side)
        x, y = joint[..., 0] - pivot[0], joint[..., 1] - pivot[1]
        cos = (x * self.tail_ahead + y * self.tail_above) / tail**2
        sin = (y * self.tail_ahead - x * self.tail_above) / tail**2
        margins = {"link tail": margin, "link (more than 90° from upright)": cos}
        return joint, cos, sin, margins

    def _solve(
        self,
        cos: Array,
        sin: Array,
        centre: Array,
        drop: Array,
        arm: Array,
        reverser: Array,
        margins: dict[str, Array],
    ) -> tuple[Array, Array, Array, Array]:
        """Return die, radius-rod pin, union pin and the valve's displacement."""
        rod, part = self.radius_rod, self.lifting_pin / self.radius_rod
        lever = self.lever_upper + self.lever_lower
        share = self.lever_upper / lever
        spindle = Spindle(self.spindle_height, self.valve_angle)
        line = np.array(spindle.along)
        lift = arm_angle(self.arm_angle_forward, self.arm_angle_backward, reverser)
        arm_x, arm_y = np.cos(lift), np.sin(lift)
        # how far along its line the valve pin can go before lever and union link are stretched
        offset = drop - np.array([0.0, self.spindle_height])
        foot, off = offset @ line, offset @ np.array([-line[1], line[0]])
        span = np.sqrt(np.maximum((lever + self.union_link) ** 2 - off * off, 0.0))
        xi, c, s = self._start(cos, sin, arm, lift)
        xi = np.clip(xi, foot - 0.98 * span, foot + 0.98 * span)
        start = xi, c, s
        scale = np.zeros(1)
        with np.errstate(divide="ignore", invalid="ignore"):
            for step in range(_STEPS):
                valve = spindle.at(xi)
                # the union pin hangs below the valve pin: to the right of the way from drop arm
                union, sound = dyad(drop, self.union_link, valve, lever, -1.0)
                rod_end = valve + share * (union - valve)
                # how the union pin follows the valve, along its circle about the drop arm
                ux, uy = union[..., 0] - drop[..., 0], union[..., 1] - drop[..., 1]
                vx, vy = union[..., 0] - valve[..., 0], union[..., 1] - valve[..., 1]
                follow = (vx * line[0] + vy * line[1]) / (vy * ux - vx * uy)
                ex = line[0] + share * (-uy * follow - line[0])
                ey = line[1] + share * (ux * follow - line[1])
                # the die on its arc, struck from `centre`
                dx, dy = turned(cos, sin, -1.0 * c, 0.0)
                dx, dy = rod * (dx - sin * s), rod * (dy + cos * s)
                die = np.stack([centre[..., 0] + dx, centre[..., 1] + dy], axis=-1)
                # moving up the slot: the radius of the arc turned by a right angle
                gx, gy = dy, -dx
                px, py = die[..., 0] - rod_end[..., 0], die[..., 1] - rod_end[..., 1]
                first = (px * px + py * py - rod * rod) / (2 * rod)
                a11 = (px * gx + py * gy) / rod
                a12 = -(px * ex + py * ey) / rod
                lx, ly = die[..., 0] - part * px, die[..., 1] - part * py
                hx, hy = (1 - part) * gx, (1 - part) * gy
                if self.lifting == "link":
                    qx, qy = lx - arm[..., 0], ly - arm[..., 1]
                    second = (qx * qx + qy * qy - self.lifting_link**2) / (2 * self.lifting_link)
                    nx, ny = qx / self.lifting_link, qy / self.lifting_link
                else:
                    nx, ny = -arm_y, arm_x
                    second = (lx - self.weighshaft_x) * nx + (ly - self.weighshaft_y) * ny
                a21 = nx * hx + ny * hy
                a22 = part * (nx * ex + ny * ey)
                scale = a11 * a22 - a12 * a21
                worst = np.maximum(np.max(np.abs(first)), np.max(np.abs(second)))
                if step == _STEPS - 1 or worst < 1e-11:
                    break
                if step == _BRISK:
                    # poses that have overshot begin again, at a walk
                    lost = ~(np.maximum(np.abs(first), np.abs(second)) < 1e-9)
                    xi, c, s = (
                        np.where(lost, a, b) for a, b in zip(start, (xi, c, s), strict=True)
                    )
                    continue
                pace = 1.0 if step < _BRISK or step > _WALK else 0.35
                turn_by = pace * (a12 * second - a22 * first) / scale
                c, s = turn(c, s, np.clip(turn_by, -0.3, 0.3))
                move = pace * (a21 * first - a11 * second) / scale
                aim = xi + np.clip(move, -0.2 * rod, 0.2 * rod)
                # never past the stretch, only half of the way there
                aim = np.where(aim > foot + span, (xi + foot + span) / 2, aim)
                xi = np.where(aim < foot - span, (xi + foot - span) / 2, aim)
            missed = ~(np.maximum(np.abs(first), np.abs(second)) < 1e-9)
        # the sense that the builder's assembly has when the link stands upright
        sense = 1.0 if self.hanging == "below" else -1.0
        if self.lifting != "link":
            sense = -1.0
            scale = scale * np.sign(arm_x)
        sense *= 1.0 if part < 1 else -1.0
        # where nothing fits the union link's figure means nothing: the lifting gear is at fault
        sound_scale = rod * abs(1 - part) * (1 - share)
        margins["radius rod"] = np.where(missed, -1.0, sense * scale / sound_scale)
        margins["union link"] = np.where(missed, 1.0, sound)
        return die, rod_end, union, xi

    def _start(self, cos: Array, sin: Array, arm: Array, lift: Array) -> tuple[Array, Array, Array]:
        """Return valve, and the die's direction on its arc, from where the lifting pin is carried.

        The radius rod's end is taken at the middle of its height; the lifting pin's height
        and its place ahead follow from one another in a few rounds.
        """
        rod, part = self.radius_rod, self.lifting_pin / self.radius_rod
        end_y = self.spindle_height - self.lever_upper
        up = np.zeros(np.broadcast_shapes(cos.shape, arm.shape[:-1]))
        flat = np.where(np.abs(np.cos(lift)) < 0.1, 0.1, np.cos(lift))
        ahead = up
        for _ in range(3):
            c = np.sqrt(1 - up * up)
            ahead = self.link_x + rod * (cos - cos * c - sin * up)
            over = ahead + self.lifting_pin
            if self.lifting == "link":
                room = self.lifting_link**2 - (over - arm[..., 0]) ** 2
                fall = np.sqrt(np.maximum(room, 0.0))
                carried = arm[..., 1] + (fall if self.hanging == "above" else -fall)
            else:
                carried = self.weighshaft_y + (over - self.weighshaft_x) * np.sin(lift) / flat
            # the die stands as high as the rod between its two points asks for
            high = ((carried - part * end_y) / (1 - part) - self.link_y) / rod
            up = np.clip((high - sin * (1 - c)) / cos, -0.7, 0.7)
            up = np.where(np.isfinite(up), up, 0.0)
        xi = (ahead + rod) / np.cos(np.radians(self.valve_angle))
        return xi, np.sqrt(1 - up * up), up

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
