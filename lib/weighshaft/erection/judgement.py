"""What is said of putting together and taking apart."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..findings import COMMON, Finding
from ..frames.whole import Whole
from .decisions import Erection
from .results import Reach, Removal, SpannerRoom

CHAPTER = "erection"
BEAM = {"front buffer beam", "front buffers", "front coupling"}
_FIELDS = {
    "wheelset": ("frames.horns.box_length", "frames.stays", "boiler.firebox.ashpan"),
    "truck": ("wheels.leading_truck", "wheels.trailing_truck"),
    "piston": ("frames.plates.ahead", "cylinders.barrel.axle_to_cylinder", "erection.beam_bolted"),
    "valve": ("motion.gear", "boiler.shell.smokebox_front"),
    "gland": ("cylinders.barrel.gland", "cylinders.barrel.axle_to_cylinder"),
    "crosshead": ("cylinders.crosshead.slide_bar",),
    "rod": ("wheels.across.coupling_rod",),
    "ashpan": ("boiler.firebox.ashpan", "boiler.firebox.bottom"),
    "boiler": ("boiler.firebox.width", "frames.platework.cab"),
    "cylinders": ("wheels.cylinders.centres",),
}
_MENDS = {
    "wheelset": "Move it, make it in a part that is bolted on, or take it off first.",
    "truck": "Lift the engine off it, or move what is in the way.",
    "piston": "A way past it, or the cylinder off the frames before the piston is drawn.",
    "valve": "A chest that opens another way.",
    "gland": "Further from crosshead to gland at back dead centre, or a gland in halves.",
    "crosshead": "One slide bar that is bolted on, so that the crosshead comes out sideways.",
    "rod": "What stands outside it comes off first.",
    "ashpan": "An ashpan in two halves, or one that tips.",
    "boiler": "Make it in a part that is bolted on.",
    "cylinders": "Cylinders that are bolted on from outside, or a saddle that comes off first.",
}


def judge(
    erection: Erection, whole: Whole, removals: tuple[Removal, ...],
    spanners: tuple[SpannerRoom, ...], reached: tuple[Reach, ...],
) -> tuple[Finding, ...]:  # fmt: skip
    """Return the findings."""
    return (
        *_removals(erection, removals), *_lift(erection, removals), *_spanners(spanners),
        *_reached(erection, reached), _last(whole),
    )  # fmt: skip


def _removals(erection: Erection, removals: tuple[Removal, ...]) -> Iterator[Finding]:
    free = []
    for one in removals:
        if one.way.open:
            free.append(one)
            continue
        blocked = one.way.blocked
        names = ", ".join(blocked[:3])
        if one.kind == "piston" and set(blocked) <= BEAM:
            yield _past_the_beam(erection, one)
            continue
        trapped = one.kind in ("wheelset", "boiler") and all(
            name in ("frame plates",) for name in blocked
        )
        after = f" after {one.way.free:.1f} mm" if one.way.free > 0 else ""
        others = [way.toward for way in one.others]
        tried = f"; {' and '.join(others)} is no better" if others else ""
        meets = "meet" if one.what.endswith("s") else "meets"
        yield Finding(
            "stop" if trapped else "check", CHAPTER, _FIELDS[one.kind],
            f"Drawn {one.way.toward}, the {one.what} {meets} the {names}{after}, of "
            f"{one.way.needed:.1f} mm that are needed{tried}.",
            f"{names[:1].upper()}{names[1:]}: off first. {_MENDS[one.kind]}", "geometry",
        )  # fmt: skip
    if free:
        words = ", ".join(f"{one.what} {one.way.toward}" for one in free)
        yield Finding(
            "fine", CHAPTER, (), f"With nothing in their way come out: {words}.",
            source="geometry",
        )  # fmt: skip


def _past_the_beam(erection: Erection, one: Removal) -> Finding:
    says = (
        f"Ahead of the cylinder {one.way.free:.1f} mm are free of the {one.way.needed:.1f} mm that "
        f"piston and rod need together; what stands there first is the {one.way.blocked[0]}"
    )
    if erection.beam_bolted:
        return Finding(
            "fine", CHAPTER, _FIELDS["piston"],
            f"{says}, which is unbolted to draw them.", source=COMMON,
        )  # fmt: skip
    return Finding(
        "check", CHAPTER, _FIELDS["piston"], f"{says}, fixed for good.",
        "A hole in the beam the size of the piston, a beam that is bolted on, or the cylinder off "
        "the frames.", COMMON, ("erection.beam_bolted", "yes"),
    )  # fmt: skip


def _lift(erection: Erection, removals: tuple[Removal, ...]) -> Iterator[Finding]:
    drops = [one for one in removals if one.kind == "wheelset"]
    if not drops:
        return
    worst = max(drops, key=lambda one: one.way.needed)
    if erection.lift is not None and erection.lift < worst.way.needed:
        yield Finding(
            "check", CHAPTER, ("erection.lift",),
            f"The {worst.what} is clear of the engine when that has been lifted "
            f"{worst.way.needed:.1f} mm; {erection.lift:.1f} mm can be had.",
            "Turn the engine on its back, on blocks under boards and beams.", COMMON,
            ("erection.lift", math.ceil(worst.way.needed + 1)),
        )  # fmt: skip


def _spanners(spanners: tuple[SpannerRoom, ...]) -> Iterator[Finding]:
    fields = ("erection.cover_spanner", "erection.gland_spanner", "cylinders.covers.screws")
    short = [one for one in spanners if not one.fits]
    for one in short:
        gland = "gland" in one.what
        mend = (
            "A round gland for a pin spanner, a smaller thread, or more room." if gland
            else "Fewer or smaller screws, or a thinner spanner."
        )  # fmt: skip
        yield Finding(
            "check", CHAPTER, fields,
            f"A head of {one.head:.1f} mm over the {one.what} needs "
            f"{one.needed:.1f} mm; {one.room:.1f} mm are there ({one.against}).",
            mend, COMMON,
            None if gland or "next" not in one.against
            else ("erection.cover_spanner", "box spanner"),
        )  # fmt: skip
    if spanners and not short:
        least = min(spanners, key=lambda one: one.room - one.needed)
        yield Finding(
            "fine", CHAPTER, fields,
            f"Spanners go on every hexagon of covers and glands; the tightest is the {least.what} "
            f"with {least.room - least.needed:.1f} mm to spare ({least.against}).", source=COMMON,
        )  # fmt: skip


def _reached(erection: Erection, reached: tuple[Reach, ...]) -> Iterator[Finding]:
    fields = ("erection.hand", "erection.key", "clearance.surroundings.boiler_bottom")
    lost = [one for one in reached if one.by == "nothing"]
    if lost:
        names = " and ".join(one.what for one in lost)
        best = max(max(one.above, one.below, one.beside) for one in lost)
        yield Finding(
            "check", CHAPTER, fields,
            f"With the boiler on, {names} cannot be reached: {best:.1f} mm are free at the most, "
            f"{erection.key:g} mm are wanted for a key.",
            "Set the valves before the boiler goes on, or from a part that can be reached.", COMMON,
        )  # fmt: skip
    elif reached:
        words = "; ".join(
            f"{one.what} by {one.by}, {_where(one)}" for one in reached
        )  # fmt: skip
        yield Finding(
            "fine", CHAPTER, fields, f"With the boiler on the valves can be set: {words}.",
            source=COMMON,
        )  # fmt: skip


def _where(one: Reach) -> str:
    ways = {"from above": one.above, "from below": one.below, "from the side": one.beside}
    way = max(ways, key=lambda name: ways[name])
    room = ways[way]
    return f"{way}, {room:.0f} mm" if math.isfinite(room) else f"{way}, where nothing stands"


def _last(whole: Whole) -> Finding:
    pairs = len(whole.coupled)
    return Finding(
        "fine", CHAPTER, ("wheels.wheelbase",),
        f"One wheel of each of the {pairs} pairs is fixed last, quartered, when all that stands "
        "between the wheels is on the axle.", source=COMMON,
    )  # fmt: skip
