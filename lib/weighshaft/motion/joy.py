"""Joy's gear: no eccentrics; the connecting rod itself gives the valve all its motion.

A correcting link hangs from a point of the connecting rod, held below by an anchor link;
from a pin on it stands the lever whose fulcrum is the die in the guide.  The rod's run along
the cylinder swings the lever for lap and lead; its rise and fall carries the die along the
guide, which the reverser tilts.  All its loops are pairs of bars.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from ..sizes import SizeError, check_sizes, size
from .equivalent import EquivalentEccentric, ValveSizes, Wanted
from .frame import TINY, VAST, Array, Crank, Sized, Spindle, beyond, point, sign, span
from .kernel import Part, Pose, dyad
from .parts import Wishes, admission_size, crank_points, turned, valve_angle_size
from .slot_guide import SlotGuide, slot_size, tilt_size, tilt_wishes
from .statics import balance, towards

_TILT = 25.0
"""Tilt of the guide in full gear beyond which a layout takes the motion nearer the crank."""


@dataclass(frozen=True, kw_only=True)
class Joy:
    """Correcting link and anchor link, a lever on the die in a tilted guide, a valve rod.

    With the guide at 90 degrees the gear is in mid gear.  The lead is the same in every
    notch where the die stands at the guide's pivot at both dead centres.  The correcting
    link hangs below the connecting rod where the anchor link's pivot is below the rod's
    pin, else stands above it; the lever reaches from it to the side of the guide.
    """

    kind: ClassVar[str] = "Joy"
    title: ClassVar[str] = "Joy's gear"
    notched: ClassVar[bool] = True
    parts: ClassVar[tuple[Part, ...]] = (
        Part("guide", ("guide", "link_centre"), "slot"),
        Part("guide", ("guide_lower", "guide", "guide_upper")),
        Part("anchor link", ("anchor", "anchor_pin")),
        Part("correcting link", ("rod_pin", "lever_pin", "anchor_pin")),
        Part("lever", ("lever_pin", "die", "valve_pin")),
        Part("die", ("die",)),
        Part("valve rod", ("valve_pin", "valve")),
    )

    # fmt: off
    rod_pin: float = size("Pin on the connecting rod, back from the gudgeon pin", low=TINY,
        high=VAST, main=True, help="along the rod; about two fifths of its length")
    rod_pin_above: float = size("Pin on the connecting rod, above its centre line", low=-VAST,
        high=VAST, default=0.0)
    correcting_link: float = size("Correcting link", low=TINY, high=VAST, main=True,
        help="from the connecting rod to the anchor link")
    lever_pin: float = size("Lever's pin along the correcting link", low=-VAST, high=VAST,
        main=True, help="from the connecting rod")
    anchor_link: float = size("Anchor link", low=TINY, high=VAST)
    anchor_x: float = size("Anchor link's pivot ahead of axle", low=-VAST, high=VAST)
    anchor_y: float = size("Anchor link's pivot above axle", low=-VAST, high=VAST)
    lever_lower: float = size("Lever, from correcting link to die", low=TINY, high=VAST,
        main=True)
    lever_upper: float = size("Lever, from die to valve rod", low=-VAST, high=VAST, main=True,
        help="beyond the die; negative puts the valve rod's pin short of it")
    guide: str = size("Guide", "choice", choices=("curved", "straight"), default="curved")
    guide_radius: float | None = size("Guide, radius of the curve", low=-VAST, high=VAST,
        default=None, help="as long as the valve rod unless given; struck from ahead, "
        "negative: from behind")
    guide_x: float = size("Guide's pivot ahead of axle", low=-VAST, high=VAST)
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
        if self.guide_radius is not None and abs(self.guide_radius) < TINY:
            raise SizeError("Guide, radius of the curve: 0 will not do.", "guide_radius")
        if self.lever_upper <= -self.lever_lower:
            raise SizeError(
                f"Lever: the valve rod's pin {-self.lever_upper:g} mm short of the die has to "
                f"stand between die and correcting link, {self.lever_lower:g} mm apart.",
                "lever_upper",
            )

    def pose(self, crank: Crank, theta: Array, reverser: Array) -> Pose:
        """Return the pose of correcting link, lever, die and valve."""
        points = crank_points(crank, theta)
        back = points["crank_pin"] - points["gudgeon"]
        c, s = back[..., 0] / crank.connecting_rod, back[..., 1] / crank.connecting_rod
        # looking back along the rod, what is above lies to the right
        away = turned(c, s, self.rod_pin, -self.rod_pin_above)
        points["rod_pin"] = points["gudgeon"] + np.stack(away, axis=-1)
        margins: dict[str, Array] = {}
        rest = (sum(crank.gudgeon_ends) / 2 - self.rod_pin,
                crank.cylinder_offset + self.rod_pin_above)  # fmt: skip
        hangs = -sign(self.anchor_y - rest[1])
        side = hangs * sign(rest[0] - self.anchor_x)
        points["anchor"] = anchor = point(self.anchor_x, self.anchor_y)
        points["anchor_pin"], margins["anchor link"] = dyad(
            points["rod_pin"], self.correcting_link, anchor, self.anchor_link, side
        )
        down, link = points["anchor_pin"] - points["rod_pin"], self.correcting_link
        margins["correcting link (more than 90° from upright)"] = -hangs * down[..., 1] / link
        points["lever_pin"] = beyond(points["rod_pin"], down, self.lever_pin / link)
        slot = self._slot()
        slid = slot.close(points["lever_pin"], self.lever_lower, rest, reverser, points, margins)
        reach = 1 + self.lever_upper / self.lever_lower
        lever = points["die"] - points["lever_pin"]
        points["valve_pin"] = beyond(points["lever_pin"], lever, reach)
        spindle = Spindle(self.spindle_height, self.valve_angle)
        xi, margins["valve rod"] = spindle.reach(points["valve_pin"], self.valve_rod)
        points["valve"] = spindle.at(xi)
        bars: tuple[tuple[str, str, Sized], ...] = (
            ("crank_pin", "gudgeon", crank.connecting_rod),
            ("gudgeon", "rod_pin", span(self.rod_pin, self.rod_pin_above)),
            ("rod_pin", "anchor_pin", self.correcting_link),
            ("anchor", "anchor_pin", self.anchor_link),
            ("rod_pin", "lever_pin", abs(self.lever_pin)),
            ("lever_pin", "die", self.lever_lower),
            ("die", "valve_pin", abs(self.lever_upper)),
            ("lever_pin", "valve_pin", self.lever_lower + self.lever_upper),
            ("valve_pin", "valve", self.valve_rod),
            *slot.bars(),
        )
        return Pose(xi, points, bars, margins, die=slid)

    def _slot(self) -> SlotGuide:
        radius = self.valve_rod if self.guide_radius is None else self.guide_radius
        return SlotGuide(
            self.guide_x, self.guide_y, self.guide_angle_forward, self.guide_angle_backward,
            radius if self.guide == "curved" else None,
            self.lever_lower if self.slot_length is None else self.slot_length,
        )  # fmt: skip

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the valve; see `statics`.

        Correcting link and lever are bent: what they bear is given at their pins.
        """
        points = pose.points
        line = np.array(Spindle(0.0, self.valve_angle).along)
        rod = towards(points, "valve_pin", "valve")
        push = 1 / (rod @ line)
        shape = points["die"].shape
        x, y = np.broadcast_to([1.0, 0.0], shape), np.broadcast_to([0.0, 1.0], shape)
        pin = points["lever_pin"]
        # correcting link and lever, joined at the lever's pin
        on_rod_x, on_rod_y, anchor, pin_x, pin_y, die = balance(
            [
                [(x, points["rod_pin"]), None],
                [(y, points["rod_pin"]), None],
                [(towards(points, "anchor_pin", "anchor"), points["anchor_pin"]), None],
                [(x, pin), (-x, pin)],
                [(y, pin), (-y, pin)],
                [None, (self._slot().push(points), points["die"])],
            ],
            [None, (-push[..., None] * rod, points["valve_pin"])],
        )
        return {
            "pin on the connecting rod": np.hypot(on_rod_x, on_rod_y),
            "anchor link": anchor,
            "lever's pin": np.hypot(pin_x, pin_y),
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
    ) -> Joy:
        """Return a Joy gear above the connecting rod, the die at the guide's pivot on dead centres.

        The motion is taken two fifths along the connecting rod from the gudgeon pin (A.
        Sinclair, Locomotive Engine Running and Management, on Joy's gear), further only
        where the guide would have to tilt by much more than 25 degrees.  The guide is struck
        with the length of the valve rod.  On both dead centres the anchor link brings the
        foot of the correcting link to one place; the lever's length is found on the
        linkage so that the die goes equally far above and below the middle of the guide.

        The correcting link reaches about a stroke below the axle: its room above the rail is
        to be looked at.  Inside admission puts the valve rod's pin between die and correcting
        link, which reduces the die's motion and is less even.
        """
        stroke, inside = crank.stroke, admission == "inside"
        link = 0.8 * stroke
        pin = (0.2 if inside else 0.3) * link
        lever = (link - pin) ** 2 / pin
        swing = crank.throw * (1 - pin / link)
        ratio = (sizes.steam_lap + wanted.lead) / swing * (-1 if inside else 1)
        across = sizes.throw * math.cos(math.radians(sizes.advance)) / (crank.throw * (1 + ratio))
        part = min(max(0.4, across / math.tan(math.radians(_TILT))), 0.75)
        tilt = math.degrees(math.atan(across / part)) * (1 if inside else -1)
        back = part * crank.connecting_rod
        middle = sum(crank.gudgeon_ends) / 2 - back
        # on dead centres the correcting link's foot is here; at mid stroke it is lower
        foot = crank.cylinder_offset - math.sqrt(link**2 - crank.throw**2)
        fall = (link - math.sqrt(link**2 - crank.throw**2)) / 2
        anchor = 1.4 * stroke
        gear = cls(
            rod_pin=back, correcting_link=link, lever_pin=pin, anchor_link=anchor,
            anchor_x=middle + math.sqrt(anchor**2 - fall**2), anchor_y=foot - fall,
            lever_lower=lever, lever_upper=ratio * lever, guide=guide, guide_x=middle,
            guide_y=0.0, guide_angle_forward=90.0 + tilt, guide_angle_backward=90.0 - tilt,
            valve_rod=back + 0.6 * stroke, spindle_height=0.0, admission=admission,
        )  # fmt: skip
        return gear.squared(crank)

    def squared(self, crank: Crank) -> Joy:
        """Return the gear with a lever that lets the die go equally far to either side of a guide.

        The guide's pivot is put where the die stands on the dead centres, the spindle level
        with the valve rod's pin there; the lever keeps the proportion of its arms.  The guide
        is looked at in mid gear with the crank at right angles.
        """
        ratio = self.lever_upper / self.lever_lower

        def with_lever(lower: float) -> Joy:
            pins = self._lever_pins(crank)
            run = float(np.ptp(pins[:, 0])) / 2
            low = float(pins[:, 1].mean())
            rise = math.sqrt(max(lower**2 - run**2, 0.0))
            return replace(
                self, lever_lower=lower, lever_upper=ratio * lower,
                guide_x=float(pins[:, 0].mean()), guide_y=low + rise,
                spindle_height=low + (1 + ratio) * rise,
            )  # fmt: skip

        def uneven(gear: Joy) -> float:
            pose = gear.pose(crank, np.array([[90.0, 270.0]]), np.zeros((1, 1)))
            return float(np.sum(pose.die)) if pose.die is not None else 0.0

        before, now = self.lever_lower, 1.02 * self.lever_lower
        miss = uneven(with_lever(before))
        for _ in range(12):
            left = uneven(with_lever(now))
            if left == miss or abs(left) < 1e-9 * self.lever_lower:
                break
            step = left * (now - before) / (left - miss)
            before, miss = now, left
            now -= float(np.clip(step, -0.3 * now, 0.3 * now))
        return with_lever(now)

    def _lever_pins(self, crank: Crank) -> Array:
        """Return where the lever's pin stands on the front and the back dead centre, (2, 2)."""
        pose = self.pose(crank, np.array([crank.dead_centres]), np.zeros((1, 1)))
        return np.array(pose.points["lever_pin"][0])

    @property
    def tuning(self) -> tuple[float, float]:
        """Tilt of the guide, and the proportion of the lever's arms, which governs the lead."""
        tilt = (self.guide_angle_forward - self.guide_angle_backward) / 2
        return tilt, self.lever_upper / self.lever_lower

    def tuned(self, tilt: float, ratio: float) -> Joy:
        """Return the gear with another tilt and the die elsewhere on the lever; the guide follows.

        On the dead centres the lever's ends stay where they were, so that spindle, valve rod
        and correcting link are left alone and the lead remains the same in every notch.
        """
        middle = (self.guide_angle_forward + self.guide_angle_backward) / 2
        # how the lever leans on the dead centres, where its pin is level with the spindle
        level = (self.spindle_height - self.guide_y) / self.lever_upper if self.lever_upper else 1.0
        level = min(max(level, 0.5), 1.0)
        before = self.lever_lower * level
        rise = before * (1 + self.tuning[1]) / (1 + ratio)
        lower = math.hypot(rise, self.lever_lower * math.sqrt(1 - level**2))
        return replace(
            self, guide_angle_forward=middle + tilt, guide_angle_backward=middle - tilt,
            lever_lower=lower, lever_upper=ratio * lower, guide_y=self.guide_y + rise - before,
        )  # fmt: skip

    def neighbours(self) -> Sequence[Joy]:
        """Return the gear with guides of other curves, to even the cut-offs."""
        if self.guide != "curved":
            return ()
        bent = [(1 + step / 12) / self.valve_rod for step in range(-12, 13) if step != -12]
        return [replace(self, guide_radius=round(1 / bend, 3)) for bend in bent]

    def called_for(
        self, sizes: ValveSizes, now: EquivalentEccentric, wanted: Wanted, crank: Crank
    ) -> Wishes:
        """Return lever and tilt that the wanted events call for, by what the gear does now."""
        swing = float(np.ptp(self._lever_pins(crank)[:, 0])) / 2
        sense = 1 if self.admission == "outside" else -1
        ratio = sense * (sizes.steam_lap + wanted.lead) / swing if swing > 0 else 0.0
        if not -1 < ratio < 1:
            return ()
        # the die's run is enlarged by the lever, as it is and as it will be
        enlarged = (1 + ratio) / (1 + self.tuning[1])
        lever = self.tuned(self.tuning[0], ratio)
        return (
            ("lever_upper", lever.lever_upper, "lap and lead from the lever's swing"),
            ("lever_lower", lever.lever_lower, "the lever as long as it is, the die elsewhere"),
            ("guide_y", lever.guide_y, "where the die stands on the dead centres"),
            *tilt_wishes(self.tuning[0], self.guide_angle_forward, sizes, now, enlarged),
        )
