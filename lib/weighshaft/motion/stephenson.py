"""Stephenson's link motion: launch and locomotive links, open and crossed rods, any drive.

With both eccentrics and the tilt of the link given, the link is the coupler of a four-bar
whose closure is linear: the middle between its pins stands off the middle between the
eccentrics at a right angle to the line that joins "pin less eccentric".  What remains is
one equation in one unknown, the length of the lifting link, which is solved by Newton's
rule with direction cosines carried instead of angles.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, ClassVar

import numpy as np

from ..sizes import SizeError, check_sizes, size
from .equivalent import EquivalentEccentric, ValveSizes, Wanted
from .frame import (
    TINY,
    VAST,
    Array,
    Crank,
    Spindle,
    bearing,
    beyond,
    point,
    radians,
    settled,
    span,
)
from .kernel import Part, Pose, dyad
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
    turn,
    turned,
    valve_angle_size,
)
from .statics import balance, moment, towards

_STEPS = 12
_BLOCK = 4400  # poses
_ROCKER = (
    "rocker_x", "rocker_y", "rocker_lower", "rocker_upper", "rocker_angle", "valve_rod",
    "spindle_height",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Stephenson:
    """Two eccentrics, a shifting link struck from behind, lifted by a link from the weighshaft.

    Link axes: origin at the middle of the slot's centre arc, "ahead" away from the axle
    along the arc's axis, "above" towards its upper end.
    """

    kind: ClassVar[str] = "Stephenson"
    title: ClassVar[str] = "Stephenson's link motion"
    notched: ClassVar[bool] = True
    parts: ClassVar[tuple[Part, ...]] = (
        Part("backward eccentric", ("backward_eccentric",), "sheave", behind=True),
        Part("backward rod", ("backward_eccentric", "backward_pin"), behind=True),
        Part("forward eccentric", ("forward_eccentric",), "sheave"),
        Part("forward rod", ("forward_eccentric", "forward_pin")),
        Part("link", ("link", "link_centre", "forward_pin", "backward_pin"), "slot"),
        Part("lifting link", ("arm", "suspension")),
        Part("lifting arm", ("weighshaft", "arm")),
        Part("die", ("die",)),
        Part("rocker", ("die", "rocker", "rocker_top")),
        Part("valve rod", ("rocker_top", "valve")),
    )

    # fmt: off
    eccentric_throw: float = size("Eccentric throw", low=TINY, high=VAST, main=True,
        help="centre distance: half of the travel")
    advance: float = size("Angle of advance", "deg", -720, 720, main=True)
    eccentric_rod: float = size("Eccentric rod", low=TINY, high=VAST, main=True)
    rods: str = size("Rods", "choice", choices=("open", "crossed"), default="open")
    link_radius: float = size("Link, radius of the slot", low=TINY, high=VAST)
    pin_spacing: float = size("Link, between the rod pins", low=TINY, high=VAST, main=True)
    backset: float = size("Rod pins behind the slot (backset)", low=-VAST, high=VAST, default=0.0)
    suspension_ahead: float = size("Lifting pin ahead of the slot", low=-VAST, high=VAST,
        default=0.0, main=True)
    suspension_above: float = size("Lifting pin above the middle", low=-VAST, high=VAST,
        default=0.0)
    slot_length: float | None = size("Slot, length along the arc", low=TINY, high=VAST,
        default=None)
    lifting_link: float = size("Lifting link", low=TINY, high=VAST)
    lifting_arm: float = size("Lifting arm", low=TINY, high=VAST)
    weighshaft_x: float = size("Weighshaft ahead of axle", low=-VAST, high=VAST)
    weighshaft_y: float = size("Weighshaft above axle", low=-VAST, high=VAST)
    arm_angle_forward: float = size("Lifting arm in full forward gear", "deg", -720, 720)
    arm_angle_backward: float = size("Lifting arm in full backward gear", "deg", -720, 720)
    hanging: str = hanging_size()
    drive: str = size("Drive", "choice", choices=("direct", "rocker"), default="direct")
    die_height: float | None = size("Die's path above axle", low=-VAST, high=VAST, default=None,
        help="direct drive: the valve moves with the die")
    rocker_x: float | None = size("Rocker ahead of axle", low=-VAST, high=VAST, default=None)
    rocker_y: float | None = size("Rocker above axle", low=-VAST, high=VAST, default=None)
    rocker_lower: float | None = size("Rocker, lower arm", low=TINY, high=VAST, default=None)
    rocker_upper: float | None = size("Rocker, upper arm", low=TINY, high=VAST, default=None)
    rocker_angle: float | None = size("Rocker, from lower to upper arm", "deg", -720, 720,
        default=180.0, help="180 is a straight lever")
    valve_rod: float | None = size("Valve rod", low=TINY, high=VAST, default=None)
    spindle_height: float | None = size("Valve spindle above axle", low=-VAST, high=VAST,
        default=None)
    admission: str = admission_size()
    valve_angle: float = valve_angle_size()
    # fmt: on

    def __post_init__(self) -> None:
        check_sizes(self)
        needed = ("die_height",) if self.drive == "direct" else _ROCKER
        for name in needed:
            if getattr(self, name) is None:
                label = name.replace("_", " ")
                raise SizeError(f"{label.capitalize()}: a drive by {self.drive} needs it.", name)

    @property
    def turned(self) -> bool:
        """Whether the eccentrics are keyed round by half a turn."""
        bent = 0.0 if self.rocker_angle is None else np.real(np.ravel(self.rocker_angle)[0])
        reversing = self.drive == "rocker" and np.cos(np.radians(bent)) < 0
        return bool(reversing) != (self.admission == "inside")

    def eccentrics(self) -> Eccentrics:
        """Return forward and backward eccentric with their rods."""
        return eccentrics_alike(
            self.eccentric_throw, self.advance, self.eccentric_rod, self.valve_angle,
            turned=self.turned,
        )  # fmt: skip

    def pose(self, crank: Crank, theta: Array, reverser: Array) -> Pose:
        """Return the pose of link, die, rocker and valve."""
        sheaves = self.eccentrics()
        forward, backward = sheaves.pins(theta)
        upper, lower = (forward, backward) if self.rods == "open" else (backward, forward)
        arm = arm_end(
            self.weighshaft_x,
            self.weighshaft_y,
            self.lifting_arm,
            self.arm_angle_forward,
            self.arm_angle_backward,
            reverser,
        )
        x, y, c, s, margins = self.links(upper, lower, arm)

        def at(ahead: float, above: float) -> Array:
            dx, dy = turned(c, s, ahead, above)
            return point(x + dx, y + dy)

        half = self.pin_spacing / 2
        upper_pin, lower_pin = at(0, half), at(0, -half)
        of_forward, of_backward = (
            (upper_pin, lower_pin) if self.rods == "open" else (lower_pin, upper_pin)
        )
        centre = at(self.backset - self.link_radius, 0)
        points = {
            **crank_points(crank, theta),
            "forward_eccentric": forward,
            "backward_eccentric": backward,
            "forward_pin": of_forward,
            "backward_pin": of_backward,
            "link": at(self.backset, 0),
            "link_centre": centre,
            "suspension": at(self.backset + self.suspension_ahead, self.suspension_above),
            "arm": arm,
            "weighshaft": point(self.weighshaft_x, self.weighshaft_y),
        }
        bars: list[Any] = [
            ("crank_pin", "gudgeon", crank.connecting_rod),
            ("forward_eccentric", "forward_pin", sheaves.rods[0]),
            ("backward_eccentric", "backward_pin", sheaves.rods[1]),
            ("arm", "suspension", self.lifting_link),
            ("link_centre", "die", self.link_radius),
        ]
        if self.drive == "direct":
            assert self.die_height is not None
            spindle = Spindle(self.die_height, self.valve_angle)
            xi, margins["die"] = spindle.reach(centre, self.link_radius)
            points["die"] = points["valve"] = spindle.at(xi)
        else:
            xi = self._rocker(centre, points, margins)
            bars += [
                ("rocker", "die", self.rocker_lower),
                ("rocker", "rocker_top", self.rocker_upper),
                ("rocker_top", "valve", self.valve_rod),
            ]
        away = points["die"] - centre
        slid = bearing(c * away[..., 1] - s * away[..., 0], c * away[..., 0] + s * away[..., 1])
        return Pose(xi, points, tuple(bars), margins, die=self.link_radius * slid)

    def links(
        self, upper: Array, lower: Array, arm: Array
    ) -> tuple[Array, Array, Array, Array, dict[str, Array]]:
        """Close the link a few notches at a time, so that the arrays stay in the near cache.

        Larger ones take twice as long a pose: their memory is handed back and fetched anew.
        """
        rows = max(1, _BLOCK // upper.shape[-2])
        candidates = max(upper.ndim, arm.ndim) > 3  # these come in blocks of their own
        if rows >= len(arm) or candidates:
            return self._link(upper, lower, arm)
        done = []
        for first in range(0, len(arm), rows):
            some = slice(first, first + rows)
            own = some if len(upper) > 1 else slice(None)
            done.append(self._link(upper[own], lower[own], arm[some]))
        x, y, c, s = (np.concatenate([block[i] for block in done]) for i in range(4))
        margins = {name: np.concatenate([block[4][name] for block in done]) for name in done[0][4]}
        return x, y, c, s, margins

    def _link(
        self, upper: Array, lower: Array, arm: Array
    ) -> tuple[Array, Array, Array, Array, dict[str, Array]]:
        """Return the middle between the link's pins, its direction, and the margins."""
        half, rod, reach = self.pin_spacing / 2, self.eccentric_rod, self.lifting_link
        ahead, above = self.backset + self.suspension_ahead, self.suspension_above
        middle_x, middle_y = (
            (upper[..., 0] + lower[..., 0]) / 2,
            (upper[..., 1] + lower[..., 1]) / 2,
        )
        half_x, half_y = (upper[..., 0] - lower[..., 0]) / 2, (upper[..., 1] - lower[..., 1]) / 2
        side = 1.0 if self.hanging == "above" else -1.0
        c, s = self._start(middle_y, half_x, half_y, arm)
        # middle of the pins less middle of the eccentrics, less the arm's end
        base_x, base_y = middle_x - arm[..., 0], middle_y - arm[..., 1]
        square, reach2 = rod * rod, reach * reach
        along, across = ahead / half, above / half
        slope = dx = dy = np.ones(1)
        with np.errstate(divide="ignore", invalid="ignore"):
            for step in range(_STEPS):
                hc, hs = half * c, half * s
                back, wy = hs + half_x, hc - half_y  # w is (-back, wy)
                w2 = back * back + wy * wy
                k2 = np.maximum(square / w2 - 1, 1e-12)
                k = np.sqrt(k2)
                px, py = k * wy, k * back  # at a right angle to w, ahead of the axle
                bx, by = along * hc, along * hs
                if np.any(above):
                    bx, by = bx - across * hs, by + across * hc
                sx, sy = base_x + px + bx, base_y + py + by
                error = sx * sx + sy * sy - reach2
                if step == _STEPS - 1 or (step > 1 and settled(error, 2e-11 * reach)):
                    break
                # change of all that with the tilt
                stretch = (wy * hs - back * hc) * (square / (w2 * w2 * k2))
                dx = px * stretch - k * hs - by
                dy = py * stretch + k * hc + bx
                slope = sx * dx + sy * dy
                c, s = turn(c, s, np.clip(-0.5 * error / slope, -0.5, 0.5))
            # the slope is that of the last step but one, which differs by less than a micron
            margin = side * slope / (reach * np.sqrt(dx * dx + dy * dy))
            margin = np.where(np.isfinite(margin) & np.isfinite(error), margin, -1.0)
            room = square - w2
        margins = {
            "eccentric rods": room / square,
            "lifting link": margin,
            "link (more than 90° from upright)": np.broadcast_to(c, margin.shape),
        }
        return middle_x + px, middle_y + py, c, s, margins

    def _start(
        self, middle_y: Array, half_x: Array, half_y: Array, arm: Array
    ) -> tuple[Array, Array]:
        """Return the link's direction to first order, from the height at which it is carried."""
        half, rod = self.pin_spacing / 2, self.eccentric_rod
        ahead, above = self.backset + self.suspension_ahead, self.suspension_above
        side = 1.0 if self.hanging == "above" else -1.0
        # with the eccentrics at rest on the axle: one bar from the axle to the lifting pin
        rest = np.sqrt(np.maximum(rod * rod - half * half, 1e-6 * rod * rod))
        pin_x, pin_y = rest + ahead, above
        axle = np.zeros(2)
        distance = span(pin_x, pin_y)
        # below the line from axle to arm's end the pin lies to its right
        hung, _ = dyad(axle, distance, arm, self.lifting_link, side)
        cos = (hung[..., 0] * pin_x + hung[..., 1] * pin_y) / distance**2
        sin = (hung[..., 1] * pin_x - hung[..., 0] * pin_y) / distance**2
        height = rest * sin
        tilt = (-half_x + (height - middle_y) / rest * (half * cos - half_y)) / half
        tilt = np.clip(np.where(np.isfinite(tilt), tilt, 0.0), -0.95, 0.95)
        return np.sqrt(1 - tilt * tilt), tilt

    def _rocker(self, centre: Array, points: dict[str, Array], margins: dict[str, Array]) -> Array:
        """Close die, rocker and valve rod; return the displacement of the valve."""
        x, y, lower, upper, bent, valve_rod, height = (getattr(self, name) for name in _ROCKER)
        pivot = point(x, y)
        # the lower arm hangs below the pivot, ahead of the arc's centre: on the right
        die, margins["die"] = dyad(centre, self.link_radius, pivot, lower, -1.0)
        away = die - pivot
        c, s = away[..., 0] / lower, away[..., 1] / lower
        margins["rocker's lower arm (not below its pivot)"] = -s
        cos, sin = np.cos(radians(bent)), np.sin(radians(bent))
        top = beyond(pivot, point(*turned(c, s, cos, sin)), upper)
        spindle = Spindle(height, self.valve_angle)
        xi, margins["valve rod"] = spindle.reach(top, valve_rod)
        points |= {
            "die": die,
            "rocker": pivot,
            "rocker_top": top,
            "valve": spindle.at(xi),
        }
        return xi

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the valve; see `statics`."""
        points = pose.points
        normal = towards(points, "link_centre", "die")
        line = np.array(Spindle(0.0, self.valve_angle).along)
        found: dict[str, Array] = {}
        if self.drive == "direct":
            die = 1 / (normal @ line)
        else:
            rod = towards(points, "rocker_top", "valve")
            push = 1 / (rod @ line)
            found["valve rod"] = -push
            top, lower = points["rocker_top"] - points["rocker"], points["die"] - points["rocker"]
            die = push * moment(top, rod) / moment(lower, normal)
        on_link = (-die[..., None] * normal, points["die"])
        pulls = balance(
            [
                [(towards(points, joint, end), points[joint])]
                for joint, end in (
                    ("forward_pin", "forward_eccentric"),
                    ("backward_pin", "backward_eccentric"),
                    ("suspension", "arm"),
                )
            ],
            [on_link],
        )
        names = ("forward eccentric rod", "backward eccentric rod", "lifting link")
        return {**dict(zip(names, pulls, strict=True)), "die block": die, **found}

    @classmethod
    def laid_out(
        cls,
        crank: Crank,
        sizes: ValveSizes,
        wanted: Wanted,
        admission: str,
        *,
        rocker: bool = False,
    ) -> Stephenson:
        """Return a locomotive link with direct drive, or a launch link that drives by a rocker.

        The die works to eight tenths of the half spacing; the lifting arm swings 25 degrees
        either way; the link hangs from its middle.
        """
        throw = sizes.throw / 0.85
        spacing, rod = 7.0 * throw, 3.1 * crank.stroke
        backset = 0.0 if rocker else 0.21 * spacing
        lift = 0.4 * spacing
        arm, hang = lift / math.sin(math.radians(25)), 1.4 * spacing
        ahead = math.sqrt(rod**2 - (spacing / 2) ** 2) + backset
        common: dict[str, Any] = {
            "eccentric_throw": throw, "advance": sizes.advance, "eccentric_rod": rod,
            "link_radius": rod + backset, "pin_spacing": spacing, "backset": backset,
            "lifting_link": hang, "lifting_arm": arm,
            "weighshaft_x": ahead - arm, "weighshaft_y": hang, "admission": admission,
            "arm_angle_forward": -25.0, "arm_angle_backward": 25.0,
        }  # fmt: skip
        if not rocker:
            # the upper pin takes the forward rod: the link is lowered for forward gear
            return cls(**common, die_height=0.0)
        rise = 0.9 * spacing
        return cls(
            **common, drive="rocker", rocker_x=ahead, rocker_y=rise, rocker_lower=rise,
            rocker_upper=rise, rocker_angle=180.0, valve_rod=1.5 * crank.stroke,
            spindle_height=2 * rise,
        )  # fmt: skip

    @property
    def tuning(self) -> tuple[float, float]:
        """Throw and advance: what governs travel and lead."""
        return self.eccentric_throw, self.advance

    def tuned(self, throw: float, advance: float) -> Stephenson:
        """Return the gear with another throw and advance."""
        return replace(self, eccentric_throw=throw, advance=advance)

    def neighbours(self) -> Sequence[Stephenson]:
        """Return the gear with its lifting pin moved ahead and back, to even the cut-offs."""
        return [replace(self, suspension_ahead=at) for at in steps(0.15 * self.pin_spacing)]

    def called_for(
        self, sizes: ValveSizes, now: EquivalentEccentric, wanted: Wanted, crank: Crank
    ) -> Wishes:
        """Return throw and advance that the wanted events call for, through link and rocker."""
        return eccentric_wishes(self.eccentric_throw, self.advance, sizes, now)
