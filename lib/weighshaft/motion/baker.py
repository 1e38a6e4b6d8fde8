"""Baker's gear: return crank and crosshead drive one valve; pins alone, no die in a slot.

The eccentric rod swings the foot of the gear connecting rod, whose middle hangs from the
reversing yoke by the radius bars and whose head lifts one arm of a bell crank.  The yoke
tilts the arc of the radius bars, and with it by how much and in which sense the head
rises.  The bell crank's other arm drives the combination lever by the valve rod.

The rod hung at three pins has no closed form; it is solved by Newton's rule for the angle
of the radius bars, and then the lever for the place of the valve.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from ..sizes import SizeError, check_sizes, size
from .equivalent import EquivalentEccentric, ValveSizes, Wanted
from .frame import TINY, VAST, Array, Crank, Spindle, beyond, pin, point, radians, sign, span
from .kernel import Part, Pose, dyad
from .newton import solved
from .parts import Wishes, admission_size, arm_end, crank_points, steps, turn, valve_angle_size
from .statics import balance, towards

_TILT = 32.0
"""Tilt of the yoke in full gear from which a layout starts, degrees."""

_DROOP = math.radians(20.0)
"""By how much the bell crank's arm points down to the gear connecting rod in a layout."""


@dataclass(frozen=True, kw_only=True)
class Baker:
    """Return crank, gear connecting rod on a tilting yoke, bell crank and combination lever.

    With the yoke upright the gear is in mid gear.  With radius bars as long as the yoke's
    arm, the gear connecting rod's middle pin stands in line with the yoke's pivot at both
    dead centres where the return crank is square to the line to the rod's foot: then the
    lead is the same in every notch.  Where, besides, the rod is as long from its middle to
    its head as the radius bars, the yoke's pin covers the head in mid gear and the
    eccentric rod does not move the valve at all.

    The head stands on the side of the yoke's pivot on which the bell crank's pivot is, above
    or below; the bell crank's arm points back to it from a pivot ahead of the yoke's.
    """

    kind: ClassVar[str] = "Baker"
    title: ClassVar[str] = "Baker's gear"
    notched: ClassVar[bool] = True
    parts: ClassVar[tuple[Part, ...]] = (
        Part("return crank", ("return_crank", "crank_pin")),
        Part("eccentric rod", ("return_crank", "rod_foot")),
        Part("gear connecting rod", ("rod_foot", "rod_middle", "rod_head")),
        Part("yoke", ("yoke", "yoke_pin")),
        Part("radius bars", ("yoke_pin", "rod_middle")),
        Part("bell crank", ("rod_head", "bell_crank", "bell_drop")),
        Part("valve rod", ("bell_drop", "valve_rod")),
        Part("combination lever", ("valve", "valve_rod", "union")),
        Part("union link", ("drop_arm", "union")),
        Part("drop arm", ("gudgeon", "drop_arm")),
    )

    # fmt: off
    return_crank_throw: float = size("Return crank pin about the axle", low=TINY, high=VAST,
        main=True, help="centre distance: half of the pin's travel")
    return_crank_angle: float = size("Return crank pin leads the crank by", "deg", -720, 720,
        main=True, help="negative: it follows the crank, as is usual")
    eccentric_rod: float = size("Eccentric rod", low=TINY, high=VAST, main=True)
    gear_rod_lower: float = size("Gear connecting rod, from radius bars down to its foot",
        low=TINY, high=VAST)
    gear_rod_upper: float = size("Gear connecting rod, from radius bars up to bell crank",
        low=TINY, high=VAST)
    gear_rod_set: float = size("Gear connecting rod, foot set ahead", low=-VAST, high=VAST,
        default=0.0, help="of the line through its other two pins")
    radius_bar: float = size("Radius bars", low=TINY, high=VAST)
    yoke_arm: float | None = size("Yoke, from its pivot to the radius bars", low=TINY, high=VAST,
        default=None, help="as long as the radius bars unless given")
    yoke_x: float = size("Yoke's pivot ahead of axle", low=-VAST, high=VAST)
    yoke_y: float = size("Yoke's pivot above axle", low=-VAST, high=VAST)
    yoke_angle_forward: float = size("Yoke in full forward gear", "deg", -720, 720, main=True,
        help="anticlockwise from the cylinder's line; upright is 90")
    yoke_angle_backward: float = size("Yoke in full backward gear", "deg", -720, 720,
        help="anticlockwise from the cylinder's line; upright is 90")
    bell_x: float = size("Bell crank's pivot ahead of axle", low=-VAST, high=VAST)
    bell_y: float = size("Bell crank's pivot above axle", low=-VAST, high=VAST)
    bell_arm: float = size("Bell crank, arm to the gear connecting rod", low=TINY, high=VAST)
    bell_drop: float = size("Bell crank, arm to the valve rod", low=TINY, high=VAST)
    bell_angle: float = size("Bell crank, from the one arm to the other", "deg", -720, 720,
        default=90.0, help="from the gear connecting rod's arm, anticlockwise")
    valve_rod: float = size("Valve rod", low=TINY, high=VAST,
        help="from the bell crank to the combination lever")
    lever_upper: float = size("Combination lever, valve pin to valve rod", low=-VAST, high=VAST,
        main=True, help="down from the valve pin; negative puts the valve rod above it")
    lever_lower: float = size("Combination lever, valve rod to union link", low=TINY, high=VAST,
        main=True)
    union_link: float = size("Union link", low=TINY, high=VAST)
    drop_ahead: float = size("Drop arm's pin ahead of gudgeon pin", low=-VAST, high=VAST,
        default=0.0)
    drop_above: float = size("Drop arm's pin above gudgeon pin", low=-VAST, high=VAST)
    spindle_height: float = size("Valve spindle above axle", low=-VAST, high=VAST)
    admission: str = admission_size()
    valve_angle: float = valve_angle_size()
    # fmt: on

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.lever_upper + self.lever_lower <= 0:
            raise SizeError(
                f"Combination lever: {self.lever_lower:g} mm from valve rod to union link "
                f"has to exceed the {-self.lever_upper:g} mm above the valve pin.",
                "lever_lower",
            )
        if math.hypot(self.bell_x - self.yoke_x, self.bell_y - self.yoke_y) < TINY:
            raise SizeError("Bell crank: its pivot has to stand off the yoke's.", "bell_x")

    def pose(self, crank: Crank, theta: Array, reverser: Array) -> Pose:
        """Return the pose of gear connecting rod, bell crank, combination lever and valve."""
        points = crank_points(crank, theta)
        points["return_crank"] = pin(
            self.return_crank_throw, radians(self.return_crank_angle), radians(theta)
        )
        points["drop_arm"] = points["gudgeon"] + point(self.drop_ahead, self.drop_above)
        margins: dict[str, Array] = {}
        self._close_gear_rod(points, reverser, margins)
        xi = self._close_lever(points, margins)
        bars = (
            ("crank_pin", "gudgeon", crank.connecting_rod),
            ("return_crank", "rod_foot", self.eccentric_rod),
            ("rod_middle", "rod_head", self.gear_rod_upper),
            ("rod_middle", "rod_foot", span(self.gear_rod_lower, self.gear_rod_set)),
            ("rod_foot", "rod_head",
             span(self.gear_rod_lower + self.gear_rod_upper, self.gear_rod_set)),
            ("yoke", "yoke_pin", self._yoke_arm),
            ("yoke_pin", "rod_middle", self.radius_bar),
            ("bell_crank", "rod_head", self.bell_arm),
            ("bell_crank", "bell_drop", self.bell_drop),
            ("bell_drop", "valve_rod", self.valve_rod),
            ("valve", "valve_rod", abs(self.lever_upper)),
            ("valve_rod", "union", self.lever_lower),
            ("valve", "union", self.lever_upper + self.lever_lower),
            ("drop_arm", "union", self.union_link),
        )  # fmt: skip
        return Pose(xi, points, bars, margins)

    @property
    def _yoke_arm(self) -> float:
        return self.radius_bar if self.yoke_arm is None else self.yoke_arm

    @property
    def _bell_side(self) -> Array:
        """+1 where the rod's head lies left of the way from its middle to the bell crank."""
        return sign(self.yoke_x - self.bell_x) * sign(self.yoke_y - self.bell_y)

    def _foot(self, middle: Array, head: Array) -> Array:
        """Return the foot of the gear connecting rod."""
        x, y = head[..., 0] - middle[..., 0], head[..., 1] - middle[..., 1]
        down, ahead = (
            self.gear_rod_lower / self.gear_rod_upper,
            self.gear_rod_set / self.gear_rod_upper,
        )
        return middle + np.stack([ahead * y - down * x, -ahead * x - down * y], axis=-1)

    def _close_gear_rod(
        self, points: dict[str, Array], reverser: Array, margins: dict[str, Array]
    ) -> None:
        """Place the gear connecting rod and the bell crank: add their points and margins."""
        eccentric = points["return_crank"]
        yoke, bell = point(self.yoke_x, self.yoke_y), point(self.bell_x, self.bell_y)
        forward, backward = self.yoke_angle_forward, self.yoke_angle_backward
        yoke_pin = arm_end(self.yoke_x, self.yoke_y, self._yoke_arm, forward, backward, reverser)
        # at rest the radius bars point from the yoke's pin back to its pivot
        rest_x = (self.yoke_x - yoke_pin[..., 0]) / self._yoke_arm
        rest_y = (self.yoke_y - yoke_pin[..., 1]) / self._yoke_arm
        rod, bar, upper = self.eccentric_rod, self.radius_bar, self.gear_rod_upper
        grows = (upper + self.gear_rod_lower) / upper
        bell_arm, side = self.bell_arm, self._bell_side

        def miss(t: Array) -> tuple[Array, Array, tuple[Array, ...]]:
            """Return by how much the eccentric rod is missed, its slope, and the joints."""
            c, s = turn(rest_x, rest_y, t)
            middle = beyond(yoke_pin, np.stack([c, s], axis=-1), bar)
            head, sound = dyad(middle, upper, bell, bell_arm, side)
            foot = self._foot(middle, head)
            # how all move for a turn of the radius bars; t falls behind its angle
            rate = bar / (1 + t * t / 4)
            mx, my = -s * rate, c * rate
            ux, uy = head[..., 0] - middle[..., 0], head[..., 1] - middle[..., 1]
            bx, by = head[..., 0] - self.bell_x, head[..., 1] - self.bell_y
            follow = (ux * mx + uy * my) / (uy * bx - ux * by)
            hx, hy = -by * follow, bx * follow
            turns = (ux * (hy - my) - uy * (hx - mx)) / upper**2
            fx = mx - turns * (foot[..., 1] - middle[..., 1])
            fy = my + turns * (foot[..., 0] - middle[..., 0])
            ex, ey = foot[..., 0] - eccentric[..., 0], foot[..., 1] - eccentric[..., 1]
            missed = (ex * ex + ey * ey - rod * rod) / (2 * rod)
            return missed, (ex * fx + ey * fy) / rod, (middle, head, foot, sound, rate)

        # the foot goes with the eccentric as far as rod and radius bars lie level
        # (minus the sign of the opposite is +1 also at 0)
        rises = -sign(self.yoke_y - self.bell_y) * upper
        home = self._foot(yoke, point(self.yoke_x, self.yoke_y + rises))
        home_x, level = home[..., 0], rod**2 - (home[..., 1] - eccentric[..., 1]) ** 2
        reach = np.sqrt(np.maximum(level, 0.0)) * -sign(-home_x)
        ahead = (eccentric[..., 0] + reach - home_x) / grows
        start = np.clip(ahead / (bar * sign(-rest_y)), -1.0, 1.0)
        _, slope, open_, (middle, head, foot, sound, rate) = solved(start, miss, 0.3)
        sense = sign(-np.sin(radians((forward + backward) / 2))) * sign(-self.yoke_x)
        margins["radius bars"] = np.where(open_, -1.0, sense * slope / (rate * grows))
        margins["gear connecting rod"] = np.where(open_ & (sound > 0), 1.0, sound)
        c, s = np.cos(radians(self.bell_angle)), np.sin(radians(self.bell_angle))
        x, y = (head[..., 0] - self.bell_x) / bell_arm, (head[..., 1] - self.bell_y) / bell_arm
        drop = np.stack([x * c - y * s, x * s + y * c], axis=-1)
        points |= {
            "rod_middle": middle, "rod_head": head, "rod_foot": foot, "yoke_pin": yoke_pin,
            "yoke": yoke, "bell_crank": bell,
            "bell_drop": beyond(bell, drop, self.bell_drop),
        }  # fmt: skip

    def _close_lever(self, points: dict[str, Array], margins: dict[str, Array]) -> Array:
        """Place the combination lever: add its points and margins, return the valve's place."""
        driver, drop, rod = points["bell_drop"], points["drop_arm"], self.valve_rod
        lever = self.lever_upper + self.lever_lower
        share = self.lever_upper / lever
        spindle = Spindle(self.spindle_height, self.valve_angle)
        line_x, line_y = spindle.along
        drop_x, drop_y = drop[..., 0], drop[..., 1] - self.spindle_height
        # the lever hangs below the spindle, or stands above it, as the drop arm's pin does
        side = sign(drop_y[..., :1, :1])

        def miss(xi: Array) -> tuple[Array, Array, tuple[Array, ...]]:
            """Return by how much the valve rod is missed, its slope, and the joints."""
            valve = spindle.at(xi)
            union, sound = dyad(drop, self.union_link, valve, lever, side)
            end = beyond(valve, union - valve, share)
            # how the union pin follows the valve, along its circle about the drop arm
            ux, uy = union[..., 0] - drop[..., 0], union[..., 1] - drop[..., 1]
            vx, vy = union[..., 0] - valve[..., 0], union[..., 1] - valve[..., 1]
            follow = (vx * line_x + vy * line_y) / (vy * ux - vx * uy)
            ex = line_x + share * (-uy * follow - line_x)
            ey = line_y + share * (ux * follow - line_y)
            px, py = end[..., 0] - driver[..., 0], end[..., 1] - driver[..., 1]
            missed = (px * px + py * py - rod * rod) / (2 * rod)
            return missed, (px * ex + py * ey) / rod, (valve, end, union, sound)

        # how far along its line the valve pin can go before lever and union link are stretched
        foot, off = line_x * drop_x + line_y * drop_y, line_x * drop_y - line_y * drop_x
        room = np.sqrt(np.maximum((lever + self.union_link) ** 2 - off * off, 0.0))
        # the lever upright: the valve rod's pin so far below the spindle, the union pin ahead
        fall = self.spindle_height + side * self.lever_upper
        level = rod**2 - (fall - driver[..., 1]) ** 2
        ahead = driver[..., 0] + np.sqrt(np.maximum(level, 0.0))
        leans = (ahead - drop_x - self.union_link) * self.lever_upper / self.lever_lower
        start = np.clip((ahead + leans) / line_x, foot - 0.98 * room, foot + 0.98 * room)
        xi, slope, open_, (valve, end, union, sound) = solved(
            start, miss, 0.2 * rod, foot - room, foot + room
        )
        margins["valve rod"] = np.where(open_, -1.0, slope / (1 - share))
        # where nothing fits the union link's figure means nothing
        margins["union link"] = np.where(open_, 1.0, sound)
        points |= {"valve": valve, "valve_rod": end, "union": union}
        return xi

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the valve; see `statics`.

        The gear connecting rod is bent too: its pull is that of its upper part.
        """
        points = pose.points
        line = np.array(Spindle(0.0, self.valve_angle).along)
        shape = points["rod_head"].shape
        x, y = np.broadcast_to([1.0, 0.0], shape), np.broadcast_to([0.0, 1.0], shape)
        head, bell = points["rod_head"], points["bell_crank"]
        along = towards(points, "bell_drop", "valve_rod")
        square = np.broadcast_to([-line[1], line[0]], shape)
        # combination lever, bell crank and gear connecting rod
        union, _, valve_rod, bell_x, bell_y, head_x, head_y, bars, eccentric = balance(
            [
                [(towards(points, "union", "drop_arm"), points["union"]), None, None],
                [(square, points["valve"]), None, None],
                [(-along, points["valve_rod"]), (along, points["bell_drop"]), None],
                [None, (x, bell), None],
                [None, (y, bell), None],
                [None, (x, head), (-x, head)],
                [None, (y, head), (-y, head)],
                [None, None, (towards(points, "rod_middle", "yoke_pin"), points["rod_middle"])],
                [None, None, (towards(points, "rod_foot", "return_crank"), points["rod_foot"])],
            ],
            [(np.broadcast_to(-line, shape), points["valve"]), None, None],
        )
        up = towards(points, "rod_middle", "rod_head")
        return {
            "eccentric rod": eccentric,
            "radius bars": bars,
            "gear connecting rod": -(head_x * up[..., 0] + head_y * up[..., 1]),
            "bell crank's pivot": np.hypot(bell_x, bell_y),
            "valve rod": valve_rod,
            "union link": union,
        }

    @classmethod
    def laid_out(cls, crank: Crank, sizes: ValveSizes, wanted: Wanted, admission: str) -> Baker:
        """Return a Baker gear: the rod's middle at the yoke's pivot at both dead centres.

        The combination lever has lap and lead to half the stroke.  The return crank follows
        the crank for either admission; the yoke leans back in forward gear with outside
        admission, ahead with inside.  Radius bars, yoke and the upper part of the gear
        connecting rod are of one length.  Proportions common practice.
        """
        stroke, inside = crank.stroke, admission == "inside"
        spindle, drop = 0.95 * stroke, -0.35 * stroke
        share = (sizes.steam_lap + wanted.lead) / crank.throw
        # upper and lower arm make up the height from the union pin to the valve pin
        height = spindle - drop
        upper = height * share / (1 - share if inside else 1 + share)
        lower = height + upper if inside else height - upper
        upper = -upper if inside else upper
        middle = float(np.mean(crank.gudgeon_ends))
        # at the dead centres the lever leans: there the valve rod has to lie level
        lean = math.asin((crank.throw + (-1 if inside else 1) * share * crank.throw) / height)
        level = spindle - upper * math.cos(lean)
        foot, arm, hang, union = 0.55 * stroke, 0.3 * stroke, 0.45 * stroke, 0.75 * stroke
        yoke_x, yoke_y = 0.6 * crank.connecting_rod, 0.7 * stroke
        # the arm that droops evens the cut-offs of the two ends
        ahead, droop = arm * math.cos(_DROOP), arm * math.sin(_DROOP)
        bell_x, bell_y = yoke_x + ahead, level + hang
        bar = bell_y - droop - yoke_y
        amplitude = sizes.throw * math.cos(math.radians(sizes.advance)) * lower / (lower + upper)
        swing = amplitude * ahead / hang / math.tan(math.radians(_TILT))
        tilt = -_TILT if inside else _TILT
        gear = cls(
            return_crank_throw=swing * (bar + foot) / bar, return_crank_angle=-90.0,
            eccentric_rod=yoke_x, gear_rod_lower=foot, gear_rod_upper=bar, radius_bar=bar,
            yoke_x=yoke_x, yoke_y=yoke_y,
            yoke_angle_forward=90.0 + tilt, yoke_angle_backward=90.0 - tilt,
            bell_x=bell_x, bell_y=bell_y, bell_arm=arm, bell_drop=hang,
            bell_angle=90.0 - math.degrees(_DROOP),
            valve_rod=middle + union - bell_x, lever_upper=upper, lever_lower=lower,
            union_link=union, drop_above=drop, spindle_height=spindle, admission=admission,
        )  # fmt: skip
        return gear.squared()

    def squared(self) -> Baker:
        """Return the gear with eccentric rod and return crank that bring its rod home.

        At both dead centres of a level engine the return crank is then square to the line
        from the axle to the foot of the gear connecting rod, whose middle stands in line
        with the yoke's pivot, so that the yoke may be thrown over without moving the valve.
        """
        yoke, bell = np.array([self.yoke_x, self.yoke_y]), np.array([self.bell_x, self.bell_y])
        head, _ = dyad(yoke, self.gear_rod_upper, bell, self.bell_arm, self._bell_side)
        x, y = (float(v) for v in self._foot(yoke, head))
        quarter = -90.0 if self.return_crank_angle < 0 else 90.0
        return replace(
            self, return_crank_angle=quarter - math.degrees(math.atan2(y, x)),
            eccentric_rod=math.hypot(x, y, self.return_crank_throw),
        )  # fmt: skip

    @property
    def tuning(self) -> tuple[float, float]:
        """Throw of the return crank, and the combination lever, which governs the lead."""
        return self.return_crank_throw, self.lever_upper

    def tuned(self, throw: float, upper: float) -> Baker:
        """Return the gear with another throw and lever; rod and return crank follow."""
        lower = self.lever_upper + self.lever_lower - upper
        return replace(
            self, return_crank_throw=throw, lever_upper=upper, lever_lower=lower
        ).squared()

    def neighbours(self) -> Sequence[Baker]:
        """Return the gear with other radius bars and its rod's foot set, to even the cut-offs.

        The yoke's arm stays as long as the radius bars, so that the lead is left as it is.
        """
        bars = [round(self.radius_bar * (1 + step / 12), 3) for step in range(-4, 9)]
        return [
            replace(self, radius_bar=bar, yoke_arm=None, gear_rod_set=at).squared()
            for bar in bars for at in steps(self.gear_rod_lower)[::4]
        ]  # fmt: skip

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
