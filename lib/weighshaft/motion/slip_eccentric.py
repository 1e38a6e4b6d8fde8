"""The slip eccentric: one loose sheave a valve, driven by a stop for either direction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from ..sizes import SizeError, check_sizes, size
from .equivalent import EquivalentEccentric, ValveSizes, Wanted
from .frame import TINY, VAST, Array, Crank, Spindle, eccentric_leads, pin, radians
from .kernel import Part, Pose
from .parts import Wishes, admission_size, crank_points, eccentric_wishes, valve_angle_size
from .statics import towards


@dataclass(frozen=True, kw_only=True)
class SlipEccentric:
    """A loose eccentric that rests against one of two stops; its rod drives the spindle pin."""

    kind: ClassVar[str] = "slip eccentric"
    title: ClassVar[str] = "Slip eccentric"
    notched: ClassVar[bool] = False
    parts: ClassVar[tuple[Part, ...]] = (
        Part("eccentric", ("eccentric",), "sheave"),
        Part("eccentric rod", ("eccentric", "valve")),
    )

    eccentric_throw: float = size(
        "Eccentric throw",
        low=TINY,
        high=VAST,
        main=True,
        help="centre distance: half of the travel",
    )
    advance: float = size("Angle of advance", "deg", -720, 720, main=True)
    eccentric_rod: float = size("Eccentric rod", low=TINY, high=VAST, main=True)
    spindle_height: float = size("Valve spindle above axle", low=-VAST, high=VAST)
    advance_backward: float | None = size(
        "Angle of advance, backward",
        "deg",
        -720,
        720,
        default=None,
        help="as forward unless given; a drive that is not level wants two",
    )
    admission: str = admission_size()
    valve_angle: float = valve_angle_size()

    def __post_init__(self) -> None:
        check_sizes(self)

    def pose(self, crank: Crank, theta: Array, reverser: Array) -> Pose:
        """Return the pose; of the reverser only the sign counts.

        Raises
        ------
        SizeError : for a reverser at 0, where the sheave rests against neither stop.
        """
        if np.any(reverser == 0):
            raise SizeError(
                "Reverser: a slip eccentric has no mid gear; forward (above 0) or "
                "backward (below 0) would do.",
                "reverser",
            )
        forward, backward = eccentric_leads(
            self.advance,
            self.valve_angle,
            turned=self.admission == "inside",
            advance_backward=self.advance_backward,
        )
        sheave = pin(
            self.eccentric_throw, np.where(reverser > 0, forward, backward), radians(theta)
        )
        spindle = Spindle(self.spindle_height, self.valve_angle)
        xi, margin = spindle.reach(sheave, self.eccentric_rod)
        points = {**crank_points(crank, theta), "eccentric": sheave, "valve": spindle.at(xi)}
        bars = (
            ("crank_pin", "gudgeon", crank.connecting_rod),
            ("eccentric", "valve", self.eccentric_rod),
        )
        return Pose(xi, points, bars, {"eccentric rod": margin})

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the valve; see `statics`."""
        along = towards(pose.points, "eccentric", "valve")
        line = np.array(Spindle(self.spindle_height, self.valve_angle).along)
        return {"eccentric rod": -1 / (along @ line)}

    @classmethod
    def laid_out(
        cls, crank: Crank, sizes: ValveSizes, wanted: Wanted, admission: str
    ) -> SlipEccentric:
        """Return a level slip eccentric; rod three strokes long (common practice)."""
        return cls(
            eccentric_throw=sizes.throw, advance=sizes.advance, eccentric_rod=3.0 * crank.stroke,
            spindle_height=0.0, admission=admission,
        )  # fmt: skip

    @property
    def tuning(self) -> tuple[float, float]:
        """Throw and advance: what governs travel and lead."""
        return self.eccentric_throw, self.advance

    def tuned(self, throw: float, advance: float) -> SlipEccentric:
        """Return the gear with another throw and advance."""
        return replace(self, eccentric_throw=throw, advance=advance)

    def neighbours(self) -> Sequence[SlipEccentric]:
        """Nothing can be moved to even the cut-offs."""
        return ()

    def called_for(
        self, sizes: ValveSizes, now: EquivalentEccentric, wanted: Wanted, crank: Crank
    ) -> Wishes:
        """Return throw and advance that the wanted events call for."""
        return eccentric_wishes(self.eccentric_throw, self.advance, sizes, now)
