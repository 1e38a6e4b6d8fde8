"""The slot that the engine's gear has: its radius, and how far the die travels in it."""

from __future__ import annotations

from dataclasses import dataclass

from ...motion.gears import AnyGear
from ...motion.hackworth import Hackworth
from ...motion.joy import Joy

SPARE = 1.1
"""A slot that is not decided has what the die uses and a tenth more, as in the clearances."""


@dataclass(frozen=True)
class EngineSlot:
    """What the engine says.

    Parameters
    ----------
    radius : of the centre line, mm; None where the slot is straight or there is none.
    length : travel of the die's middle along it, mm; None if not known.
    what : what the radius is in the engine, in words.
    """

    radius: float | None
    length: float | None
    what: str


def slot_of(gear: AnyGear, die_reach: float | None) -> EngineSlot:
    """Return the slot of a gear.

    Parameters
    ----------
    die_reach : how far the die stands from the middle of the slot at most, mm; None if not known.
    """
    if not hasattr(gear, "slot_length"):
        return EngineSlot(None, None, f"the {gear.kind} gear has no link")
    radius, what = _radius(gear)
    length: float | None = gear.slot_length
    if length is None and die_reach is not None:
        length = 2 * SPARE * die_reach
    return EngineSlot(radius, length, what)


def _radius(gear: AnyGear) -> tuple[float | None, str]:
    if isinstance(gear, Hackworth | Joy):
        if gear.guide == "straight":
            return None, f"the {gear.kind} gear's guide is straight"
        if gear.guide_radius is not None:
            return abs(gear.guide_radius), "the engine's guide"
        return gear.valve_rod, "the engine's guide, struck with the valve rod"
    radius: float | None = getattr(gear, "link_radius", None)
    if radius is not None:
        return radius, "the engine's link"
    if gear.kind == "Allan":
        return None, "the Allan gear's link is straight"
    return getattr(gear, "radius_rod", None), "the engine's link, struck with the radius rod"
