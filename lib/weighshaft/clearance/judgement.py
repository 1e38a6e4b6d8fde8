"""What the gaps mean to a builder: what fouls, what is too near, and what would mend it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..findings import Finding
from ..motion.gears import AnyGear
from .decisions import Clearance
from .results import Gap, SideGap

CHAPTER = "clearance"
_MOST = 8
_SOURCE = "geometry of the linkage, sizes as given or usual"
_HAIR = 1e-6


def judge(
    clearance: Clearance,
    gear: AnyGear,
    gaps: Sequence[Gap],
    sides: Sequence[SideGap],
    *,
    wanted: float,
    rail_wanted: float,
    rise: float,
    rail: float | None,
    notches: Sequence[float],
    checked: int,
) -> list[Finding]:
    """Return the findings on gaps seen from the side and across.

    Parameters
    ----------
    gaps, sides : least first, mm.
    rail : gap of the lowest part over the rail, mm.
    checked : how many pairs of parts were looked at.
    """
    short = [g for g in gaps if g.gap < (rail_wanted if g.kind == "rail" else wanted) - _HAIR]
    found = [
        _of_gap(clearance, gear, gap, rail_wanted if gap.kind == "rail" else wanted, rise)
        for gap in short[:_MOST]
    ]
    if len(short) > _MOST:
        left = short[_MOST:]
        fouls = sum(gap.gap < 0 for gap in left)
        sure = any(_sure(gap) for gap in left)
        found.append(
            Finding(
                "stop" if sure else "check", CHAPTER, ("clearance.wanted",),
                f"Pairs of parts too near besides these: {len(left)}, of which {fouls} foul; see "
                "the table of least gaps for all of them.",
                "Mend the worst first: many of these go with it.", _SOURCE,
            )
        )  # fmt: skip
    found += _of_sides(clearance, sides)
    near = [gap for gap in gaps if gap.kind != "rail"]
    if not short:
        least = (
            f"the least gap is {near[0].gap:.2f} mm, {_between(near[0])} {_when(near[0], rise)}"
            if near
            else "nothing comes near anything else"
        )
        over = "" if rail is None else f"; the lowest part is {rail:.2f} mm over the rail"
        found.append(
            Finding(
                "fine", CHAPTER, ("clearance.wanted",),
                f"In {len(notches)} notches all round the turn {least}{over}. {checked} pairs of "
                "parts were looked at: those in planes that overlap and not joined by a pin.",
                source=_SOURCE,
            )
        )  # fmt: skip
    return found


def _name(part: str) -> str:
    return f"the {part}"


def _between(gap: Gap) -> str:
    return f"between {_name(gap.first)} and {_name(gap.second)}"


def _when(gap: Gap, rise: float) -> str:
    """Return crank angle, notch and where the axleboxes stand, in words."""
    boxes = ""
    if not gap.turns:
        return "however the crank stands"
    if gap.state and rise:
        where = "up" if gap.state > 0 else "down"
        boxes = f", axleboxes {rise:.2f} mm {where}"
    return (
        f"with the crank at {gap.crank_angle:.0f}° and the reverser at {gap.reverser:+.2f}{boxes}"
    )


def _sure(gap: Gap) -> bool:
    """Whether a foul is there even if widths of our own taking are less than usual."""
    return gap.gap + gap.slack < 0


def _of_gap(clearance: Clearance, gear: AnyGear, gap: Gap, wanted: float, rise: float) -> Finding:
    one, other = _name(gap.first), _name(gap.second)
    when = _when(gap, rise)
    level = "stop" if _sure(gap) else "check"
    if gap.gap < 0:
        words = {
            "rail": f"reaches {-gap.gap:.2f} mm below the rail",
            "boiler": f"runs {-gap.gap:.2f} mm into the boiler",
            "ashpan": f"runs {-gap.gap:.2f} mm into the ashpan",
        }
        says = f"{one} {words[gap.kind]} {when}." if gap.kind in words else (
            f"{one} and {other} foul: they overlap by {-gap.gap:.2f} mm {when}."
        )  # fmt: skip
    elif gap.kind == "part":
        says = (
            f"{one} and {other} come within {gap.gap:.2f} mm of one another {when}; "
            f"{wanted:.2f} mm is wanted."
        )
    else:
        says = f"{one} clears {other} by {gap.gap:.2f} mm {when}; {wanted:.2f} mm is wanted."
    mend, fields, change = _mending(clearance, gear, gap, wanted - gap.gap)
    if gap.gap < 0 and level == "check":
        mend = f"Their widths are only the usual ones: give the true ones. {mend}"
    return Finding(
        "stop" if level == "stop" else "check", CHAPTER, fields, says[0].upper() + says[1:], mend,
        _SOURCE, change,
    )  # fmt: skip


def _mending(
    clearance: Clearance, gear: AnyGear, gap: Gap, by: float
) -> tuple[str, tuple[str, ...], tuple[str, float | str] | None]:
    """Return what would mend a gap that is `by` mm too small, the fields, and a button."""
    around = clearance.surroundings
    if gap.kind == "rail":
        return (
            f"Raise what hangs lowest by {by:.2f} mm: a shorter part, or its pin higher.",
            (*_fields(gear, gap.first), "wheels.driving_diameter"),
            None,
        )
    if gap.kind in ("boiler", "ashpan"):
        path = f"clearance.surroundings.{gap.kind}_bottom"
        now = around.boiler_bottom if gap.kind == "boiler" else around.ashpan_bottom
        assert now is not None
        higher = math.ceil((now + by + 0.005) * 100) / 100
        ends = around.ashpan_front is not None or around.ashpan_back is not None
        sure = gap.kind == "boiler" or not ends or by < 5
        return (
            f"Bring its underside to {higher:.2f} mm above the axle, or lower the part.",
            (path, *_fields(gear, gap.first)),
            (path, higher) if sure and around.boiler_diameter is None else None,
        )
    fields = (*_fields(gear, gap.first), *_fields(gear, gap.second), "clearance.parts")
    fields = tuple(dict.fromkeys(fields))
    names = (gap.first, gap.second)
    fixed = next((n for n in names if n.endswith("axle") or n.startswith("coupled axle")), None)
    wheel = next((n for n in names if n.startswith("wheel")), None)
    if fixed or wheel:
        other = next(name for name in names if name not in (fixed, wheel))
        way = _away(gap, other)
        mend = (
            f"Bring {_name(other)} {by:.2f} mm further {way} or the axle as far the other way: "
            "shorter or longer rods, another wheelbase, or the motion carried over the axle."
        )
        if wheel:
            mend = (
                f"Bring {_name(other)} {by:.2f} mm further {way}, or let it end inside the wheels "
                "and carry it on a bracket of its own."
            )
        return mend, fields, None
    if any("shaft" in name for name in names):
        shaft = next(name for name in names if "shaft" in name)
        other = next(name for name in names if name != shaft)
        return (
            f"Set {_name(shaft)} {by:.2f} mm further from {_name(other)}, thin it, or let it stop "
            "short of that plane.",
            fields,
            None,
        )
    return (
        f"Set one of them in another plane across, or make them narrower by {by:.2f} mm together.",
        fields,
        None,
    )


def _away(gap: Gap, part: str) -> str:
    """Return which way the part lies from the other, in a word."""
    x, y = gap.here[0] - gap.there[0], gap.here[1] - gap.there[1]
    if part == gap.second:
        x, y = -x, -y
    if gap.gap < 0 and math.hypot(x, y) < -gap.gap / 2:
        return "off"  # one stands right over the other
    if abs(x) > abs(y):
        return "ahead" if x > 0 else "back"
    return "up" if y > 0 else "down"


_DECIDE = {
    "weighshaft": ("weighshaft_x", "weighshaft_y"),
    "rocker": ("rocker_x", "rocker_y"),
    "lifting arm": ("lifting_arm", "weighshaft_x", "weighshaft_y"),
    "lifting link": ("lifting_link",),
    "anchor link": ("anchor_link", "anchor_x", "anchor_y"),
    "correcting link": ("correcting_link",),
    "rod": ("eccentric_rod",),
    "link": ("link_radius", "pin_spacing", "link_x", "link_y", "slot_length"),
    "lever": ("lever_lower", "lever_upper"),
    "eccentric": ("eccentric_throw",),
    "union": ("union_link",),
}


def _fields(gear: AnyGear, part: str) -> tuple[str, ...]:
    """Return the paths of the sizes that decide where a part runs."""
    if "axle" in part or part.startswith("wheel"):
        return ("wheels.wheelbase",)
    if part in ("connecting rod", "crosshead", "coupling rod", "crank webs"):
        return ("cylinders.connecting_rod",)
    for word, names in _DECIDE.items():
        if word in part:
            return tuple(f"motion.gear.{name}" for name in names if hasattr(gear, name))
    return ()


def _of_sides(clearance: Clearance, sides: Sequence[SideGap]) -> list[Finding]:
    wanted = clearance.thicknesses.side_gap
    found = []
    for side in sides[:_MOST]:
        if side.gap >= wanted - _HAIR:
            break
        beside = "frame plate" if side.beside == "frame" else "same part of the other side"
        path = ("clearance.parts", "wheels.between.frame_spacing")
        move = f"Thin it, or set its plane {wanted - side.gap:.2f} mm further off."
        one = _name(side.part).capitalize()
        if side.gap < 0:
            says = f"{one} and the {beside} overlap by {-side.gap:.2f} mm across the engine"
            found.append(
                Finding(
                    "stop" if side.beside == "frame" else "check", CHAPTER, path,
                    f"{says}, the axle's side play taken up.", move, _SOURCE,
                )
            )  # fmt: skip
        else:
            says = f"{one} runs {side.gap:.2f} mm from the {beside} across the engine"
            found.append(
                Finding(
                    "check", CHAPTER, path, f"{says}; {wanted:.2f} mm is wanted.", move, _SOURCE
                )
            )
    return found
