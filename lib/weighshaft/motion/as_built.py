"""Gears with two eccentrics as they were built: either eccentric and rod with errors of its own.

A design gives both eccentrics one throw, one advance and one length of rod.  What stands on
the axle may differ, each by its own error; these gears carry the errors beside the design's
sizes.  They are for fitting and trying out, and no design holds them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .allan import Allan
from .eccentric_link import EccentricLink
from .frame import Array, Sized, eccentric_leads, radians
from .gooch import Gooch
from .kernel import Gear
from .parts import Eccentrics
from .stephenson import Stephenson


@dataclass(frozen=True, kw_only=True)
class TwoEccentrics:
    """What forward and backward eccentric and their rods exceed the design by, mm and degrees."""

    forward_throw_by: float = 0.0
    backward_throw_by: float = 0.0
    forward_advance_by: float = 0.0
    backward_advance_by: float = 0.0
    forward_rod_by: float = 0.0
    backward_rod_by: float = 0.0

    def eccentrics(self) -> Eccentrics:
        """Return forward and backward eccentric with their rods, each with its error."""
        gear: Any = self
        forward, backward = eccentric_leads(gear.advance, gear.valve_angle, turned=gear.turned)
        throw: Sized = gear.eccentric_throw
        rod: Sized = gear.eccentric_rod
        return Eccentrics(
            (
                forward + radians(self.forward_advance_by),
                backward - radians(self.backward_advance_by),
            ),
            (throw + self.forward_throw_by, throw + self.backward_throw_by),
            (rod + self.forward_rod_by, rod + self.backward_rod_by),
        )


@dataclass(frozen=True, kw_only=True)
class StephensonAsBuilt(TwoEccentrics, Stephenson):
    """Stephenson's link motion with errors in either eccentric."""

    def links(
        self, upper: Array, lower: Array, arm: Array
    ) -> tuple[Array, Array, Array, Array, dict[str, Array]]:
        """Close the link with rods of two lengths."""
        link = EccentricLink(
            self.eccentrics(), self.pin_spacing / 2, self.rods == "crossed", self.backset,
            self.suspension_ahead, self.suspension_above, "lifting link", self.lifting_link,
            self.hanging,
        )  # fmt: skip
        margins: dict[str, Array] = {}
        place = link.placed(upper, lower, arm, margins)
        back_x, back_y = self.backset * place.c, self.backset * place.s
        return place.x - back_x, place.y - back_y, place.c, place.s, margins


@dataclass(frozen=True, kw_only=True)
class GoochAsBuilt(TwoEccentrics, Gooch):
    """Gooch's stationary link with errors in either eccentric."""


@dataclass(frozen=True, kw_only=True)
class AllanAsBuilt(TwoEccentrics, Allan):
    """Allan's straight link with errors in either eccentric."""


_KINDS: dict[type, type] = {
    Stephenson: StephensonAsBuilt, Gooch: GoochAsBuilt, Allan: AllanAsBuilt,
}  # fmt: skip


def as_built(gear: Gear, **errors: float) -> Any:
    """Return a gear whose two eccentrics may have errors of their own; others as they are.

    Parameters
    ----------
    errors : fields of `TwoEccentrics`, mm and degrees, for gears with two eccentrics.
    """
    kind = _KINDS.get(type(gear))
    return gear if kind is None else kind(**vars(gear), **errors)


def has_two_eccentrics(gear: Gear) -> bool:
    """Return whether either eccentric of a gear may have errors of its own."""
    return type(gear) in _KINDS or isinstance(gear, TwoEccentrics)
