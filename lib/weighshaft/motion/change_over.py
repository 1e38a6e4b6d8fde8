"""Reversing by a change-over valve: one fixed eccentric, steam and exhaust change places.

The eccentric is keyed square to the crank and the valve has no lap, so that it stands in the
middle at both dead centres and serves either direction.  A change-over valve in the pipes
leads live steam to the chest and exhaust from the cavity in forward gear, and the other way
about in backward gear.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from ..sizes import SizeError, check_sizes, size
from .equivalent import EquivalentEccentric, ValveSizes, Wanted
from .frame import TINY, VAST, Array, Crank, Spindle, eccentric_leads, pin, radians
from .kernel import Part, Pose
from .parts import Wishes, admission_size, crank_points, valve_angle_size
from .statics import towards
from .valves import SlideValve


@dataclass(frozen=True, kw_only=True)
class ChangeOver:
    """A fixed eccentric whose rod drives the spindle pin, and a change-over valve.

    How the change of roles is told.  The linkage does not know of the change-over valve:
    running backward the valve goes through the same places at the same crank angles.  Let x
    be how far it stands ahead of its middle, which is the mean of its places at the two
    dead centres, where equal leads set it.  With outside admission, steam lap L and exhaust
    lap E the front port is open to the chest by -x - L and to the cavity by x - E.  In
    backward gear steam comes by the cavity, so the front end takes steam by x - E and
    exhausts by -x - L.  That is what a valve at -x does by the plain rule, with L and E
    changed about; likewise at the back, and with inside admission.  So the displacement of
    this gear is x about the middle in forward gear and -x in backward gear, while the
    joint "valve" stays where the metal is.

    With equal laps (none, as the gear wants) on a valve set for equal leads and not moved
    from there, events follow from the displacement alone, exactly.  Any other valve has to
    be looked at through `seen_backward` in backward gear, exactly again.

    A slide valve that is not held to its face by a spring lifts in backward gear, when the
    steam is beneath it; a piston valve does not.
    """

    kind: ClassVar[str] = "change-over"
    title: ClassVar[str] = "Fixed eccentric and change-over valve"
    notched: ClassVar[bool] = False
    parts: ClassVar[tuple[Part, ...]] = (
        Part("eccentric", ("eccentric",), "sheave"),
        Part("eccentric rod", ("eccentric", "valve")),
    )

    # fmt: off
    eccentric_throw: float = size("Eccentric throw", low=TINY, high=VAST, main=True,
        help="centre distance: half of the travel")
    eccentric_rod: float = size("Eccentric rod", low=TINY, high=VAST, main=True)
    spindle_height: float = size("Valve spindle above axle", low=-VAST, high=VAST)
    advance: float = size("Angle of advance", "deg", -720, 720, default=0.0,
        help="0 serves both directions alike; what one gains by it the other loses")
    admission: str = admission_size()
    valve_angle: float = valve_angle_size()
    # fmt: on

    def __post_init__(self) -> None:
        check_sizes(self)

    def pose(self, crank: Crank, theta: Array, reverser: Array) -> Pose:
        """Return the pose; of the reverser only the sign counts.

        Raises
        ------
        SizeError : for a reverser at 0, where the change-over valve shuts off the steam.
        """
        if np.any(reverser == 0):
            raise SizeError(
                "Reverser: a change-over valve shuts off the steam in its middle; forward "
                "(above 0) or backward (below 0) would do.",
                "reverser",
            )
        spindle = Spindle(self.spindle_height, self.valve_angle)
        sheave = self._sheave(theta)
        place, margin = spindle.reach(sheave, self.eccentric_rod)
        at_centres, _ = spindle.reach(self._sheave(crank.centres), self.eccentric_rod)
        middle = np.mean(at_centres, axis=-1, keepdims=True)
        xi = middle + np.where(reverser > 0, 1.0, -1.0) * (place - middle)
        points = {**crank_points(crank, theta), "eccentric": sheave, "valve": spindle.at(place)}
        bars = (
            ("crank_pin", "gudgeon", crank.connecting_rod),
            ("eccentric", "valve", self.eccentric_rod),
        )
        return Pose(xi, points, bars, {"eccentric rod": margin})

    def seen(self, valve: SlideValve, reverser: float) -> SlideValve:
        """Return the valve as the ports see it: in backward gear steam passes the exhaust edges."""
        return valve if reverser >= 0 else seen_backward(valve)

    def _sheave(self, theta: Array) -> Array:
        lead, _ = eccentric_leads(self.advance, self.valve_angle, turned=self.admission == "inside")
        return pin(self.eccentric_throw, lead, radians(theta))

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the metal of the valve; see `statics`."""
        along = towards(pose.points, "eccentric", "valve")
        line = np.array(Spindle(self.spindle_height, self.valve_angle).along)
        return {"eccentric rod": -1 / (along @ line)}

    @classmethod
    def laid_out(
        cls, crank: Crank, sizes: ValveSizes, wanted: Wanted, admission: str
    ) -> ChangeOver:
        """Return a level gear that opens the port as wanted; rod three strokes long.

        Without lap the throw is the opening.  The cut-off wanted cannot be had: steam is
        let in for the whole stroke.  Length of the rod common practice.
        """
        return cls(
            eccentric_throw=sizes.throw - sizes.steam_lap, eccentric_rod=3.0 * crank.stroke,
            spindle_height=0.0, admission=admission,
        )  # fmt: skip

    @property
    def tuning(self) -> tuple[float, float]:
        """Throw and advance; the advance is 0 for a gear that serves both directions."""
        return self.eccentric_throw, self.advance

    def tuned(self, throw: float, advance: float) -> ChangeOver:
        """Return the gear with another throw; its advance is not to be tuned.

        A cut-off or a lead that the gear has not got is so refused by the fitting, instead
        of being found at the cost of the other direction.
        """
        return replace(self, eccentric_throw=throw)

    def neighbours(self) -> Sequence[ChangeOver]:
        """Nothing can be moved to even the cut-offs."""
        return ()

    def called_for(
        self, sizes: ValveSizes, now: EquivalentEccentric, wanted: Wanted, crank: Crank
    ) -> Wishes:
        """Return the throw that opens the port as wanted, and no advance."""
        opens = sizes.throw - sizes.steam_lap
        return (
            ("eccentric_throw", opens, f"port opens {opens:.2f} mm without lap"),
            ("advance", 0.0, "to serve both directions alike"),
        )


def seen_backward(valve: SlideValve) -> SlideValve:
    """Return the valve as the ports see it in backward gear: for unequal laps or an offset.

    Steam passes the edges that had passed the exhaust, so the laps change about; and where
    the valve was moved ahead of its setting, it acts as one that was moved behind it.
    """
    return replace(
        valve, steam_lap=valve.exhaust_lap, exhaust_lap=valve.steam_lap,
        valve_offset=-valve.valve_offset,
    )  # fmt: skip
