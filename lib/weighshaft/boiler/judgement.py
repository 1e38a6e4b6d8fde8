"""What is said of the boiler as it lies in the frames."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..findings import COMMON, Finding
from ..frames.whole import Whole
from .decisions import BoilerSeat
from .results import Gap, Lying, Pan, Water
from .water import least_over_crown

CHAPTER = "boiler"
BOILER_METALS = ("copper", "mild steel", "stainless steel")
TIPS = 25.0
"""Degrees at which ash and a dead fire slide off a grate; common practice."""
NARROWER = 4.0
"""How much may be taken off the firebox on each side before it had better be raised, mm."""
_MENDS = {
    "firebox": "A firebox that is shorter, narrower or ends higher, or an axle moved.",
    "ashpan": "A shallower or shorter ashpan.",
    "barrel": "A boiler that lies higher or is smaller.",
    "burner": "A burner that lies higher.",
}


def cautions(pressure: float) -> tuple[str, ...]:
    """Return what to heed, before anything else is read.

    Parameters
    ----------
    pressure : working, bar.
    """
    return (
        "Nothing here proves a boiler: plates, stays, joints and safety valves are the club's "
        "boiler inspector's and the local code's. Show him the drawing before metal is cut.",
        "Keep the makers' certificates of plate, tube and solder; without them many inspectors "
        "pass no boiler.",
        f"The finished boiler is tested cold, full of water, as the code requires, before it "
        f"sees {pressure:.1f} bar of steam; never with air or steam, which burst with force.",
        "The water may never fall below the fire's highest metal; a glass that cannot be seen "
        "or blown through is no glass.",
        "Sealed pipes, slots painted fast and a cab screwed to the backhead hold a hot boiler "
        "as a vice does: see that it slides.",
    )


def judge(
    boiler: BoilerSeat, whole: Whole, *, lying: Lying | None, gaps: tuple[Gap, ...], slide: float,
    taken: float, usual: float, side: float | None, beside: float, water: Water | None,
    pan: Pan | None, plugs: tuple[tuple[str, float, str], ...], kind: str, ratio: float,
) -> tuple[Finding, ...]:  # fmt: skip
    """Return the findings; see `work` for the parameters."""
    return (
        *_metal(boiler), *_slide(boiler, slide, taken, usual), *_side(whole, side, beside),
        *_gaps(gaps, whole), *_water(boiler, water, lying, kind, ratio),
        *_pan(boiler, pan), *_plugs(boiler, plugs),
    )  # fmt: skip


def _metal(boiler: BoilerSeat) -> Iterator[Finding]:
    metal = boiler.shell.material
    if metal not in BOILER_METALS:
        yield Finding(
            "check", CHAPTER, ("boiler.shell.material",),
            f"A boiler of {metal} is not what inspectors are used to; copper and steel are.",
            "Ask the inspector before anything is bought.", COMMON,
        )  # fmt: skip


def _slide(boiler: BoilerSeat, slide: float, taken: float, usual: float) -> Iterator[Finding]:
    fields = ("boiler.holding.slide", "boiler.holding.at", "boiler.shell.material")
    other = "firebox" if boiler.holding.at == "at the smokebox" else "smokebox"
    if taken < slide:
        yield Finding(
            "stop", CHAPTER, fields,
            f"Held {boiler.holding.at}, the boiler slides {slide:.2f} mm at the {other} when it "
            f"gets hot, and {taken:.2f} mm are left: it bends the frames, or itself.",
            f"Slots {usual:g} mm longer than their bolts.", "linear expansion",
            ("boiler.holding.slide", usual),
        )  # fmt: skip
    elif taken < 1.5 * slide:
        yield Finding(
            "check", CHAPTER, fields,
            f"The boiler slides {slide:.2f} mm at the {other}; {taken:.2f} mm leave little for "
            "scale, paint and a dry boiler.",
            f"Slots {usual:g} mm longer than their bolts.", COMMON,
            ("boiler.holding.slide", usual),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"Held {boiler.holding.at}, the boiler slides {slide:.2f} mm at the {other} when hot; "
            f"slots {taken:.2f} mm longer than their bolts let it.", source="linear expansion",
        )  # fmt: skip


def _side(whole: Whole, side: float | None, beside: float) -> Iterator[Finding]:
    if side is None:
        return
    fields = ("boiler.firebox.width", "wheels.between.frame_spacing", "boiler.holding.side_gap")
    box = whole.part("firebox")
    assert box is not None
    wide = math.floor(10 * (2 * box.extent[1][2] - 2 * (beside - side))) / 10
    change = ("boiler.firebox.width", wide) if wide >= 5 else None
    if side < 0:
        yield Finding(
            "stop", CHAPTER, fields,
            f"The firebox is {-2 * side:.2f} mm too wide for the room between the frames when "
            "it is hot.", f"A firebox {wide:g} mm wide, or wider frames.", "geometry", change,
        )  # fmt: skip
    elif side < beside:
        yield Finding(
            "check", CHAPTER, fields,
            f"Between firebox and frames {side:.2f} mm are left on each side when hot; "
            f"{beside:.2f} mm are wanted, for stay heads, scale and lagging.",
            f"A firebox {wide:g} mm wide.", COMMON, change,
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"Between firebox and frames {side:.2f} mm are left on each side when hot.",
            source="geometry",
        )  # fmt: skip


def _gaps(gaps: tuple[Gap, ...], whole: Whole) -> Iterator[Finding]:
    fields = (
        "boiler.firebox.bottom", "boiler.firebox.length", "boiler.firebox.ashpan",
        "clearance.surroundings.boiler_bottom", "clearance.axlebox_rise", "motion.gear",
    )  # fmt: skip
    # the plates have a word of their own
    looked = [gap for gap in gaps if not (gap.part == "firebox" and gap.other == "frame plates")]
    short = [gap for gap in looked if gap.least < gap.wanted]
    for gap in short[:6]:
        change, mend = _change(gap, whole)
        if gap.least < 0:
            yield Finding(
                "stop", CHAPTER, fields,
                f"The {gap.part} is {-gap.least:.2f} mm into the {gap.other}, with the axles risen "
                f"{whole.rise:.2f} mm.", mend, "geometry", change,
            )  # fmt: skip
        else:
            yield Finding(
                "check", CHAPTER, fields,
                f"The {gap.part} comes within {gap.least:.2f} mm of the {gap.other}, the axles "
                f"risen; {gap.wanted:.2f} mm are wanted.", mend, COMMON, change,
            )  # fmt: skip
    if looked and not short:
        least = min(looked, key=lambda gap: gap.least)
        yield Finding(
            "fine", CHAPTER, fields,
            f"Nothing that turns or rises comes nearer the boiler than {least.least:.2f} mm: "
            f"{least.part} and {least.other}.", source="geometry",
        )  # fmt: skip


def _change(gap: Gap, whole: Whole) -> tuple[tuple[str, float] | None, str]:
    """Return the one size that mends a gap, where one does, and the words for it."""
    part, box = whole.part(gap.part), whole.part("firebox")
    if "shaft" in gap.other:
        return None, (
            f"The {gap.other} lower, or in two halves beside the boiler, or the boiler "
            f"{gap.wanted - gap.least:.1f} mm higher."
        )
    if gap.part not in ("firebox", "ashpan") or part is None or box is None:
        return None, _MENDS[gap.part]
    if gap.across is not None and gap.part == "firebox" and gap.wanted - gap.across < NARROWER:
        wide = math.floor(10 * (2 * box.extent[1][2] - 2 * (gap.wanted - gap.across))) / 10
        if wide >= 5:
            return ("boiler.firebox.width", wide), f"A firebox {wide:g} mm wide clears it."
    low, bottom = part.extent[0][1], box.extent[0][1]
    lift = gap.top + gap.wanted - low
    if 0 < lift < 0.3 * (box.extent[1][1] - bottom):
        up = math.ceil(10 * (bottom + lift)) / 10
        return ("boiler.firebox.bottom", up), (
            f"A firebox that ends {up:g} mm above the driving axle, or a shorter one."
        )
    return None, _MENDS[gap.part]


def _water(
    boiler: BoilerSeat, water: Water | None, lying: Lying | None, kind: str, ratio: float
) -> Iterator[Finding]:
    fields = ("boiler.water_level", "boiler.fittings.gauge_nut", "boiler.firebox.crown")
    what = "flue" if kind == "centre flue" else "firebox crown"
    if kind == "pot":
        yield Finding(
            "fine", CHAPTER, fields,
            "A pot is heated from below and has no crown to lay bare; it may never boil dry, so "
            "the spirit is measured to burn out before the water.", source=COMMON,
        )  # fmt: skip
        return
    if water is None or lying is None or water.crown is None:
        yield Finding(
            "check", CHAPTER, fields,
            "How high the fire touches metal is not known here, so that the water's least level "
            "is not looked at.",
            "Give the highest metal that the fire touches, above the boiler's centre.", COMMON,
        )  # fmt: skip
        return
    assert water.bottom_nut is not None
    assert water.top_nut is not None
    least = least_over_crown(ratio)
    over = water.bottom_nut - water.crown
    if over < least - 1e-9:
        yield Finding(
            "check", CHAPTER, fields,
            f"Water at the gauge's bottom nut covers the {what} by {over:.2f} mm; {least:.2f} mm "
            "would be full size's 3 in at scale, 2 mm at least.",
            f"A bottom nut {least:.1f} mm above it.", "49 CFR 230.51 at scale; from memory",
            ("boiler.fittings.gauge_nut", round(least + 0.05, 1)),
        )  # fmt: skip
    share = _share((water.bottom_nut + water.top_nut) / 2, lying)
    change = ("boiler.water_level", share) if 0.3 <= share <= 0.95 else None
    above = water.level - water.crown
    if above <= 0:
        yield Finding(
            "stop", CHAPTER, fields,
            f"Filled to {boiler.water_level:.2f} of its diameter, the water stands {-above:.2f} mm "
            f"below the {what}: it would be burnt.",
            f"Water to {share:g} of the diameter, or a lower {what}.", COMMON, change,
        )  # fmt: skip
    elif not water.bottom_nut < water.level < water.top_nut:
        low = water.level <= water.bottom_nut
        yield Finding(
            "check", CHAPTER, fields,
            f"Filled to work the water stands {above:.2f} mm above the {what}, "
            f"{'below the bottom' if low else 'above the top'} nut of the gauge: it is not seen.",
            f"Water to {share:g} of the diameter, or the glass {'lower' if low else 'higher'}.",
            COMMON, change,
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"Water stands {above:.2f} mm above the {what}, {water.level - water.bottom_nut:.2f} "
            f"mm above the gauge's bottom nut; hot it rises by {water.hot - water.level:.2f} mm "
            "of itself.", source="geometry; density of water, IAPWS R7-97",
        )  # fmt: skip


def _share(height: float, lying: Lying) -> float:
    return round((height - lying.centre + lying.radius) / (2 * lying.radius), 2)


def _pan(boiler: BoilerSeat, pan: Pan | None) -> Iterator[Finding]:
    if pan is None:
        return
    fields = ("boiler.firebox.ashpan", "boiler.fittings.pan_way", "boiler.firebox.bottom")
    way = next(one for one in pan.ways if one.toward == boiler.fittings.pan_way)
    others = [one.toward for one in pan.ways if one.open and one is not way]
    if not way.open:
        free = "" if not math.isfinite(way.free) else f" after {way.free:.1f} mm"
        yield Finding(
            "check", CHAPTER, fields,
            f"Grate and ashpan do not come out {way.toward}: the {way.blocked[0]} stands in the "
            f"way{free}.",
            f"Out {others[0]} instead, with a pin there." if others
            else "A shorter ashpan, or one in two halves.", "geometry",
            ("boiler.fittings.pan_way", others[0]) if others else None,
        )  # fmt: skip
    elif way.toward == "down" and pan.room < pan.depth:
        says = (
            f"The ashpan has to fall {pan.depth:.1f} mm to clear the firebox, and the rail is "
            f"{pan.room:.1f} mm below it"
        )
        if pan.tips >= TIPS:
            yield Finding(
                "fine", CHAPTER, fields, f"{says}: on the rails it tips by {pan.tips:.0f}°, enough "
                "to drop the fire; between the rails or over a pit it comes out.", source=COMMON,
            )  # fmt: skip
        else:
            yield Finding(
                "check", CHAPTER, fields,
                f"{says}: on the rails it tips by {pan.tips:.0f}° only; a fire slides at "
                f"{TIPS:.0f}°.",
                "Drop it between the rails or over a pit, or make the pan shallower.", COMMON,
            )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"With its pin drawn the ashpan comes out {way.toward}; nothing stands in the way on "
            f"{way.needed:.1f} mm.", source="geometry",
        )  # fmt: skip


def _plugs(boiler: BoilerSeat, plugs: tuple[tuple[str, float, str], ...]) -> Iterator[Finding]:
    if not plugs:
        return
    fields = ("boiler.fittings.reach", "boiler.firebox.bottom")
    good = [name for name, room, _ in plugs if room >= boiler.fittings.reach]
    bad = [f"{name} {room:.1f} mm ({what})" for name, room, what in plugs if name not in good]
    if good:
        tight = f"; elsewhere less: {', '.join(bad)}" if bad else ""
        yield Finding(
            "fine", CHAPTER, fields,
            f"Washout plugs at the firebox's foot can be reached at the {' and '.join(good)}, "
            f"with {boiler.fittings.reach:g} mm and more before them{tight}.", source=COMMON,
        )  # fmt: skip
    else:
        yield Finding(
            "check", CHAPTER, fields,
            f"No washout plug at the firebox's foot has {boiler.fittings.reach:g} mm before it: "
            f"{', '.join(bad)}.",
            "A handhole in the frame plate, plugs higher on the backhead, or the boiler out to "
            "wash it.", COMMON,
        )  # fmt: skip
