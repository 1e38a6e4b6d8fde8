"""What the chapter has to say about riding height, uneven track and the horns."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..findings import COMMON, Finding
from .coil import CoilSpring
from .decisions import CoilSprings, Springing
from .fitted import Fitted, altered
from .relations import SHIGLEY
from .results import SpringingResult

CHAPTER = "springing"
LOST = 60.0
"""Share of its load that a wheel may lose on the twist, %; from memory of EN 14363."""
_LOOSE = 0.01
"""Clearance along over the box's length beyond which a box knocks; common practice."""


def on_track(
    springing: Springing, found: SpringingResult, fitted: Fitted, running_speed: float | None
) -> Iterator[Finding]:
    """Yield the findings; see `work` for the parameters."""
    yield from _travel(springing, found, fitted)
    yield from _packing(springing, found)
    yield from _track(found, fitted)
    yield from _frequencies(found, running_speed)
    yield from _horns(found)


def _travel(springing: Springing, found: SpringingResult, fitted: Fitted) -> Iterator[Finding]:
    bed = found.bed
    if bed.rise <= 0:
        usual = round(max(0.01 * bed.wheel, 0.2), 2)
        yield Finding(
            "check", CHAPTER, ("clearance.axlebox_rise", "wheels.quartering.axle_lift"),
            "The boxes have no rise in their horn gaps: whatever the springs, the engine stands "
            "hard on its axles.",
            "Let them rise and fall; a hundredth of the driving wheel is little enough.", COMMON,
            ("clearance.axlebox_rise", usual),
        )  # fmt: skip
        return
    light = min(
        (one for one in found.axles if one.kind == "coupled"), key=lambda one: one.deflection
    )
    if light.deflection < min(found.fall, bed.rise):
        change: tuple[str, float | str] | None = None
        spring = fitted.spring
        decided = springing.springs
        wanted = 2 * bed.rise
        if isinstance(decided, CoilSprings) and isinstance(spring, CoilSpring):
            if decided.turns is not None:
                turns = (
                    math.ceil(2 * decided.turns * bed.rise / light.deflection) / 2
                    if light.deflection > 0
                    else 99.0
                )
                one = altered(spring, "turns", turns, fitted.task)
                if (
                    turns <= 40
                    and one.stress(fitted.task.most + one.rate * bed.rise) <= one.allowed
                ):
                    change = (f"{CHAPTER}.springs.turns", turns)
            elif springing.riding.deflection is not None and springing.riding.deflection < wanted:
                change = (f"{CHAPTER}.riding.deflection", round(wanted, 2))
        yield Finding(
            "check", CHAPTER, (f"{CHAPTER}.riding.deflection", f"{CHAPTER}.springs"),
            f"The springs of the {light.name} axle give {light.deflection:.2f} mm under the engine "
            f"and are slack before its boxes have fallen the {bed.rise:.2f} mm they may rise.",
            "Softer springs: more turns, thinner wire, or thinner leaves.", "statics", change,
        )  # fmt: skip
    if found.fall > max(one.deflection for one in found.axles) and found.fall > 1.05 * bed.rise:
        yield Finding(
            "check", CHAPTER, (f"{CHAPTER}.riding.stop", "frames.plates.bottom"),
            f"Lifted off the rails, the boxes drop {found.fall:.1f} mm to the horn stays, though "
            f"the motion was looked at for {bed.rise:.1f} mm only.",
            "Put a stop on the stay under each box.", "geometry",
            (f"{CHAPTER}.riding.stop", round(max(bed.gap - bed.rise, 0.0), 2)),
        )  # fmt: skip
    if found.fall < 0.95 * bed.rise:
        given = springing.riding.stop
        yield Finding(
            "check", CHAPTER, ("frames.plates.bottom", "frames.horns.box_height"),
            f"The boxes meet their horn stays after {found.fall:.2f} mm, sooner than the "
            f"{bed.rise:.2f} mm that they are to fall.",
            "A lower stop." if given else "Deeper frame plates, or lower boxes.", "geometry",
            (f"{CHAPTER}.riding.stop", round(max(bed.gap - bed.rise, 0.0), 2)) if given
            else ("frames.plates.bottom", round(bed.box_height / 2 + bed.rise, 2)),
        )  # fmt: skip


def _packing(springing: Springing, found: SpringingResult) -> Iterator[Finding]:
    coupled = [one for one in found.axles if one.kind == "coupled"]
    given, asked = springing.riding.adjusting, found.packing
    heavy = max(coupled, key=lambda one: one.packing)
    if given is not None and asked > given:
        yield Finding(
            "check", CHAPTER, (f"{CHAPTER}.riding.adjusting",),
            f"The {heavy.name} axle asks {asked:.2f} mm more packing than the lightest for the "
            f"engine to stand level; {given:.2f} mm can be given.",
            "Longer threads on the pins, washers, or another spring for that axle.", "statics",
            (f"{CHAPTER}.riding.adjusting", math.ceil(asked * 20) / 20),
        )  # fmt: skip
    elif asked > 0.005:
        yield Finding(
            "fine", CHAPTER, (f"{CHAPTER}.riding.adjusting",),
            f"For the engine to stand level the springs of the {heavy.name} axle are packed or "
            f"screwed {asked:.2f} mm further than those of the lightest.", source="statics",
        )  # fmt: skip


def _track(found: SpringingResult, fitted: Fitted) -> Iterator[Finding]:
    bed = found.bed
    loaded = [one for one in found.axles if one.left is not None]
    if not loaded or bed.rise <= 0:
        return
    worst = min(loaded, key=lambda one: one.left or 0.0)
    left = worst.left or 0.0
    word = f"On track twisted 1 in {found.twist:g}"
    fields = (f"{CHAPTER}.riding.twist", f"{CHAPTER}.springs")
    source = "statics; EN 14363 lets a wheel lose 60 % of its load (from memory)"
    change: tuple[str, float | str] | None = None
    spring = fitted.spring
    if isinstance(spring, CoilSpring) and worst.kind == "coupled" and left < 100 - LOST:
        turns = math.ceil(2 * spring.turns * (100 - left) / LOST) / 2
        one = altered(spring, "turns", turns, fitted.task)
        assert isinstance(one, CoilSpring)
        closed = one.stress(fitted.task.most + one.rate * bed.rise)
        if turns <= 40 and closed <= one.allowed:
            change = (f"{CHAPTER}.springs.turns", turns)
    if left <= 0:
        yield Finding(
            "stop", CHAPTER, fields,
            f"{word} a wheel of the {worst.name} axle leaves the rail: its springs would have to "
            f"shed {100 - left:.0f} % of its load.",
            "Softer springs, equalising beams, or better track.", source, change,
        )  # fmt: skip
    else:
        level = "check" if left < 100 - LOST else "fine"
        yield Finding(
            level, CHAPTER, fields,  # type: ignore[arg-type]
            f"{word} the lighter wheel of the {worst.name} axle keeps {left:.0f} % of its load.",
            "Softer springs or equalising beams." if level == "check" else "", source, change,
        )  # fmt: skip
    far = max(found.axles, key=lambda one: one.moved)
    if far.moved > bed.rise:
        yield Finding(
            "check", CHAPTER, ("clearance.axlebox_rise", f"{CHAPTER}.riding.twist"),
            f"{word} the boxes of the {far.name} axle would move {far.moved:.2f} mm each way, but "
            f"rise only {bed.rise:.2f} mm; there the engine stands on three points.",
            "More rise in the horn gaps.", "geometry",
            ("clearance.axlebox_rise", math.ceil(far.moved * 10) / 10),
        )  # fmt: skip
    if found.dip is not None:
        first = min(
            (one for one in found.axles if one.dip is not None), key=lambda one: one.dip or 0.0
        )
        yield Finding(
            "fine", CHAPTER, fields,
            f"A single wheel may dip {found.dip:.2f} mm before it leaves the rail; that of the "
            f"{first.name} axle is the first.", source="statics, the frames stiff",
        )  # fmt: skip


def _frequencies(found: SpringingResult, running_speed: float | None) -> Iterator[Finding]:
    if found.bounces <= 0 or found.bed.rise <= 0:
        return
    fields = (f"{CHAPTER}.riding.deflection",)
    near = running_speed is not None and 0.85 < running_speed / found.in_step < 1.18
    speed = f"near the {running_speed or 0.0:.1f} km/h it is to run at; friction must still it"
    yield Finding(
        "fine", CHAPTER, fields,
        f"The engine bounces {found.bounces:.0f} times a minute; its wheels turn as often at "
        f"{found.in_step:.1f} km/h" + (f", {speed}." if near else "."), source="statics",
    )  # fmt: skip
    if found.surges is not None and running_speed:
        turning = 60 * running_speed / 3.6 * 1000 / (math.pi * found.bed.wheel)
        if found.surges < 15 * turning:
            yield Finding(
                "check", CHAPTER, (f"{CHAPTER}.springs.turns",),
                f"Waves run along a driving spring {found.surges:.0f} times a minute, less than "
                f"15 times as often as the wheels turn at {running_speed:.1f} km/h.", "",
                f"{SHIGLEY}: 15 to 20 times",
            )  # fmt: skip


def _horns(found: SpringingResult) -> Iterator[Finding]:
    """Yield what is to be said of the horns."""
    bed = found.bed
    path = ("frames.horns.clearance",)
    usual = round(min(max(0.0025 * bed.box_length, 0.03), 0.15), 2)
    if bed.clearance <= 0:
        yield Finding(
            "check", CHAPTER, path,
            "The boxes have no clearance in their horns; a box that sticks leaves its wheel "
            "hanging.",
            "Ease them until they fall by their own weight.", COMMON,
            ("frames.horns.clearance", usual),
        )  # fmt: skip
    elif bed.clearance > max(_LOOSE * bed.box_length, 0.1):
        yield Finding(
            "check", CHAPTER, path,
            f"{bed.clearance:.2f} mm clearance in the horns lets the boxes knock at every stroke, "
            "and the rods' centres are no longer those of the axles.",
            "Fit the boxes closer.", COMMON, ("frames.horns.clearance", usual),
        )  # fmt: skip
    if found.tilt > 0:
        yield Finding(
            "fine", CHAPTER, ("frames.horns.box_height", "clearance.axlebox_rise"),
            f"With one box up and the other down the axle tilts {found.tilt:.2f}°: ease the "
            f"flanges of the boxes by {found.relief:.2f} mm at top and bottom, to nothing at the "
            f"middle, or bell-mouth the bores by {found.bell:.2f} mm at both ends.",
            source="geometry",
        )  # fmt: skip
