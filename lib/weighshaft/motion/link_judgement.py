"""What is to be said of links: die and slot, room for the pins, and how far a link swings."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from ..findings import Finding
from .allan import Allan
from .decisions import ValveMotion
from .gooch import Gooch
from .stephenson import Stephenson

if TYPE_CHECKING:
    from .chapter import MotionResult


def said(
    level: str,
    fields: tuple[str, ...],
    says: str,
    mend: str = "",
    change: tuple[str, float | str] | None = None,
) -> Finding:
    """Return a finding of the motion; see `Finding`."""
    return Finding(level, "motion", fields, says, mend, change=change)  # type: ignore[arg-type]


def die_findings(motion: ValveMotion, result: MotionResult) -> list[Finding]:
    gear = motion.gear
    if result.die_reach is None or result.die_slip is None or not hasattr(gear, "slot_length"):
        return []
    found = []
    path = "motion.gear.slot_length"
    needed = 2 * result.die_reach
    if gear.slot_length is None:
        found.append(
            said(
                "check",
                (path,),
                f"The slot's length is not decided; the die travels {needed:.2f} mm "
                "of it over all notches, besides its own length.",
                "Give the slot.",
            )
        )
    elif gear.slot_length < needed:
        out = (needed - gear.slot_length) / 2
        found.append(
            said(
                "stop",
                (path, "motion.gear"),
                f"The die leaves the slot by {out:.2f} mm.",
                f"Lengthen the slot to {needed:.2f} mm or lift less.",
                change=(path, math.ceil(needed * 10) / 10),
            )
        )
    else:
        spare = (gear.slot_length - needed) / 2
        found.append(said("fine", (path,), f"The die stays {spare:.2f} mm inside its slot."))
    if isinstance(gear, Stephenson | Gooch | Allan):
        found += _room_for_pins(gear, needed)
        found += _slip(gear, result.die_slip, result.running.travel)
    return found


def _slip(gear: Stephenson | Gooch | Allan, slip: float, travel: float) -> list[Finding]:
    """A die that slips much wears its slot; a stationary link lets it slip by its nature."""
    if slip <= 0.1 * travel or isinstance(gear, Gooch):
        return []
    return [
        said(
            "check",
            ("motion.gear.suspension_ahead",),
            f"The die slips {slip:.2f} mm in its slot in the notch "
            f"looked at, over a tenth of the {travel:.2f} mm travel.",
            "Hang the link nearer its slot or lengthen the lifting link.",
        )
    ]


def _room_for_pins(gear: Stephenson | Gooch | Allan, needed: float) -> list[Finding]:
    """A launch link has its rod pins in line with the slot, which has to end short of them."""
    if gear.backset > 0.1 * gear.pin_spacing:
        return []
    room = gear.pin_spacing - needed
    if room > 0.15 * gear.pin_spacing:
        return []
    return [
        said(
            "check",
            ("motion.gear.pin_spacing", "motion.gear.arm_angle_forward"),
            f"The rod pins stand {gear.pin_spacing:.2f} mm apart in line with the slot, of "
            f"which the die takes {needed:.2f} mm: little or nothing is left for die and pins.",
            "Spread the pins, set them back, or lift less.",
        )
    ]


def swing_findings(result: MotionResult) -> list[Finding]:
    """A link that swings about a pivot of its own must not swing too far."""
    found: list[Finding] = []
    points = result.shown.points
    if "link_tail" not in points:
        return found
    tail = points["link_tail"] - points["link"]
    swing = math.degrees(float(np.ptp(np.unwrap(np.arctan2(tail[..., 1], tail[..., 0])))))
    fields = ("motion.gear.return_crank_throw", "motion.gear.tail_above")
    if swing > 50:
        found.append(
            said(
                "check",
                fields,
                f"The link swings {swing:.0f}°; over 50° the die binds.",
                "A longer tail or a smaller return crank.",
            )
        )
    else:
        found.append(said("fine", fields, f"The link swings {swing:.0f}°."))
    return found
