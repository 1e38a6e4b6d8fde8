"""Which sizes of a gear may move, how far as a rule, and what follows them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from ..motion import GEARS, AnyGear
from ..motion.frame import Array, Sized
from ..motion.many import spread
from ..sizes import Size, sizes_of

USUAL: dict[str, tuple[tuple[str, float, str], ...]] = {
    "Stephenson": (
        ("suspension_ahead", 0.12, "pin_spacing"), ("suspension_above", 0.12, "pin_spacing"),
        ("weighshaft_x", 0.2, "pin_spacing"), ("weighshaft_y", 0.12, "pin_spacing"),
        ("lifting_link", 0.2, "pin_spacing"), ("lifting_arm", 0.1, "pin_spacing"),
        ("backset", 0.08, "pin_spacing"), ("link_radius", 0.25, "pin_spacing"),
        ("eccentric_rod", 0.08, "pin_spacing"), ("advance", 4.0, ""),
        ("arm_angle_forward", 5.0, ""), ("arm_angle_backward", 5.0, ""),
        ("rocker_angle", 10.0, ""),
    ),
    "Gooch": (
        ("suspension_ahead", 0.12, "pin_spacing"), ("suspension_above", 0.12, "pin_spacing"),
        ("suspension_link", 0.2, "pin_spacing"), ("hanger_x", 0.2, "pin_spacing"),
        ("hanger_y", 0.12, "pin_spacing"), ("lifting_pin", 0.3, "pin_spacing"),
        ("lifting_link", 0.2, "pin_spacing"), ("weighshaft_x", 0.3, "pin_spacing"),
        ("weighshaft_y", 0.12, "pin_spacing"), ("backset", 0.08, "pin_spacing"),
        ("eccentric_rod", 0.08, "pin_spacing"), ("advance", 4.0, ""),
        ("arm_angle_forward", 5.0, ""), ("arm_angle_backward", 5.0, ""),
    ),
    "Allan": (
        ("suspension_ahead", 0.12, "pin_spacing"), ("suspension_above", 0.12, "pin_spacing"),
        ("lifting_link", 0.2, "pin_spacing"), ("lifting_arm", 0.1, "pin_spacing"),
        ("lifting_pin", 0.3, "pin_spacing"), ("rod_lifting_link", 0.2, "pin_spacing"),
        ("rod_lifting_arm", 0.1, "pin_spacing"), ("weighshaft_x", 0.2, "pin_spacing"),
        ("weighshaft_y", 0.12, "pin_spacing"), ("backset", 0.08, "pin_spacing"),
        ("eccentric_rod", 0.08, "pin_spacing"), ("advance", 4.0, ""),
        ("arm_angle_forward", 5.0, ""), ("arm_angle_backward", 5.0, ""), ("rod_arm_angle", 8.0, ""),
    ),
    "Walschaerts": (
        ("tail_ahead", 0.3, "tail_above"), ("tail_above", 0.2, "tail_above"),
        ("link_y", 0.2, "tail_above"), ("return_crank_throw", 0.06, "return_crank_throw"),
        ("lever_upper", 0.08, "lever_upper"), ("lever_lower", 0.12, "lever_lower"),
        ("drop_ahead", 0.2, "tail_above"), ("drop_above", 0.3, "tail_above"),
        ("union_link", 0.3, "union_link"), ("lifting_pin", 0.4, "lifting_pin"),
        ("lifting_link", 0.25, "lifting_link"), ("lifting_arm", 0.15, "lifting_arm"),
        ("weighshaft_x", 0.4, "tail_above"), ("weighshaft_y", 0.3, "tail_above"),
        ("arm_angle_forward", 5.0, ""), ("arm_angle_backward", 5.0, ""),
    ),
    "Joy": (
        ("rod_pin", 0.12, "rod_pin"), ("rod_pin_above", 0.06, "correcting_link"),
        ("correcting_link", 0.1, "correcting_link"), ("lever_pin", 0.1, "correcting_link"),
        ("anchor_x", 0.2, "correcting_link"), ("anchor_y", 0.2, "correcting_link"),
        ("anchor_link", 0.15, "anchor_link"), ("lever_lower", 0.06, "lever_lower"),
        ("lever_upper", 0.08, "lever_upper"), ("guide_x", 0.08, "correcting_link"),
        ("guide_y", 0.08, "correcting_link"), ("guide_radius", 0.3, "guide_radius"),
        ("guide_angle_forward", 3.0, ""), ("guide_angle_backward", 3.0, ""),
    ),
    "Hackworth": (
        ("eccentric_angle", 4.0, ""), ("eccentric_rod", 0.06, "eccentric_rod"),
        ("valve_pin", 0.06, "valve_pin"), ("guide_x", 0.06, "eccentric_rod"),
        ("guide_y", 0.06, "eccentric_rod"), ("guide_radius", 0.3, "guide_radius"),
        ("guide_angle_forward", 3.0, ""), ("guide_angle_backward", 3.0, ""),
    ),
    "Baker": (
        ("gear_rod_lower", 0.1, "gear_rod_lower"), ("gear_rod_upper", 0.1, "gear_rod_upper"),
        ("gear_rod_set", 0.1, "radius_bar"), ("radius_bar", 0.06, "radius_bar"),
        ("eccentric_rod", 0.02, "eccentric_rod"),
        ("return_crank_throw", 0.08, "return_crank_throw"), ("return_crank_angle", 4.0, ""),
        ("bell_x", 0.12, "radius_bar"), ("bell_y", 0.12, "radius_bar"), ("bell_angle", 5.0, ""),
        ("lever_upper", 0.08, "lever_upper"), ("lever_lower", 0.12, "lever_lower"),
        ("union_link", 0.3, "union_link"), ("drop_above", 0.15, "lever_lower"),
        ("yoke_angle_forward", 4.0, ""), ("yoke_angle_backward", 4.0, ""),
    ),
    "change-over": (
        ("eccentric_throw", 0.06, "eccentric_throw"), ("eccentric_rod", 0.15, "eccentric_rod"),
        ("spindle_height", 0.5, "eccentric_throw"), ("advance", 4.0, ""),
    ),
    "slip eccentric": (
        ("eccentric_throw", 0.06, "eccentric_throw"), ("eccentric_rod", 0.15, "eccentric_rod"),
        ("spindle_height", 0.5, "eccentric_throw"), ("advance", 4.0, ""),
        ("advance_backward", 4.0, ""),
    ),
}  # fmt: skip
"""By kind of gear: what may move as a rule, and how far: degrees, or a share of a size.

Common practice: as far as a lug, a bush or a rod can be moved without drawing the gear anew.
"""

_NOT_PIVOTS = {"slot_length"}
_STANDS_IN = {
    "advance_backward": "advance", "link_radius": "radius_rod", "yoke_arm": "radius_bar",
    "guide_radius": "valve_rod",
}  # fmt: skip
"""What a gear takes where one of its sizes is left empty."""
FOLLOWERS = ("return_crank_angle", "eccentric_rod")
_ANY_SHARE, _ANY_TURN = 0.05, 5.0


@dataclass(frozen=True)
class Room:
    """A size that may move: its name, what it is now, and between what; mm or degrees."""

    field: str
    label: str
    unit: str
    now: float
    low: float
    high: float


def words(field: str) -> str:
    """Return the name of a field as it stands in a list to choose from."""
    return field.replace("_", " ")


def field_of(choice: str) -> str:
    """Return the field that a word of such a list names."""
    return choice.replace(" ", "_")


def choices(unit: str) -> tuple[str, ...]:
    """Return the names of all sizes of all gears that have a unit."""
    found = {
        words(name)
        for gear in GEARS.values()
        for name, about in sizes_of(gear).items()
        if about.unit == unit and name not in _NOT_PIVOTS
    }
    return tuple(sorted(found))


def value_now(gear: AnyGear, field: str) -> float | None:
    """Return a size of the gear, or what stands in for one left empty; None if there is none."""
    value = getattr(gear, field, None)
    if value is None and field in _STANDS_IN:
        value = getattr(gear, _STANDS_IN[field], None)
    return float(value) if isinstance(value, (int, float)) else None


def idle(gear: AnyGear) -> frozenset[str]:
    """Return the sizes that have no part in the gear as it is driven."""
    named: set[str] = set()
    if getattr(gear, "drive", "") == "direct":
        named |= {name for name in vars(gear) if name.startswith("rocker_")}
        named |= {"valve_rod", "spindle_height"}
    if getattr(gear, "drive", "") == "rocker":
        named.add("die_height")
    if getattr(gear, "lifting", "") == "slotted arm":
        named |= {"lifting_link", "lifting_arm"}
    if getattr(gear, "guide", "") == "straight":
        named.add("guide_radius")
    return frozenset(named)


def usual_reach(gear: AnyGear, field: str) -> float:
    """Return how far a size may move as a rule, either way, mm or degrees."""
    for name, share, of in USUAL.get(gear.kind, ()):
        if name == field:
            return _tidy(share * abs(value_now(gear, of) or 0.0) if of else share)
    if sizes_of(type(gear))[field].unit == "deg":
        return _ANY_TURN
    return max(_tidy(_ANY_SHARE * abs(value_now(gear, field) or 0.0)), 0.1)


def _tidy(reach: float) -> float:
    """Return a reach to two figures: nobody cuts metal to a third one here."""
    return float(f"{reach:.2g}")


def room(gear: AnyGear, field: str, down: float | None, up: float | None) -> Room | None:
    """Return the room of a field of this gear; None where the gear has no such size.

    Parameters
    ----------
    down, up : how far it may go either way, mm or degrees; None for the usual reach.
    """
    about: Size | None = sizes_of(type(gear)).get(field)
    now = value_now(gear, field)
    if about is None or now is None or about.unit not in ("mm", "deg"):
        return None
    reach = usual_reach(gear, field)
    low = now - (reach if down is None else down)
    high = now + (reach if up is None else up)
    # a length that has to stay one keeps a fifth of what it is
    least = max(about.low, 0.2 * now) if about.low > 0 else about.low
    return Room(
        field, about.label, about.unit, now, min(max(low, least), now), max(min(high, about.high),
        now),
    )  # fmt: skip


def squares(gear: AnyGear, moving: frozenset[str]) -> bool:
    """Return whether rod and return crank follow, so that the link stands as it did.

    With Walschaerts' gear the rod is made to length when the link stands upright at both
    dead centres; they follow unless the builder moves them by hand.
    """
    return gear.kind == "Walschaerts" and not moving & set(FOLLOWERS)


def with_sizes(gear: AnyGear, changes: Mapping[str, Any], *, follows: bool) -> AnyGear:
    """Return candidates: the gear with sizes in rows (k,), and what has to follow them."""
    changed = dict(changes)
    if follows:
        rod, angle = _upright(gear, changed)
        rod_now, angle_now = _upright(gear, {})
        # as far from upright as it was
        changed["eccentric_rod"] = gear.eccentric_rod + rod - rod_now  # type: ignore[union-attr]
        changed["return_crank_angle"] = (
            gear.return_crank_angle + angle - angle_now  # type: ignore[union-attr]
        )
    return spread(gear, changed)


def leaning(gear: AnyGear) -> tuple[float, float]:
    """Return by how much rod (mm) and return crank (degrees) miss what stands the link upright."""
    rod, angle = _upright(gear, {})
    return (
        gear.eccentric_rod - float(rod),  # type: ignore[union-attr]
        gear.return_crank_angle - float(angle),  # type: ignore[union-attr]
    )


def _upright(gear: AnyGear, changes: Mapping[str, Sized]) -> tuple[Array, Array]:
    """Return rod and return crank that stand the link upright; as `Walschaerts.squared`."""

    def at(name: str) -> Sized:
        return changes.get(name, getattr(gear, name))

    x, y = at("link_x") + at("tail_ahead"), at("link_y") + at("tail_above")
    throw = at("return_crank_throw")
    quarter = -90.0 if gear.return_crank_angle < 0 else 90.0  # type: ignore[union-attr]
    return np.sqrt(x * x + y * y + throw * throw), quarter - np.degrees(np.arctan2(y, x))
