"""What is said of the frames before they are marked out."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from ..cylinders.axis import Axis
from ..cylinders.decisions import Cylinders
from ..findings import COMMON, Finding
from .decisions import Frames
from .layout import Layout

CHAPTER = "frames"
LEAST_METAL = 0.3
"""Plate left over a horn gap as a share of its depth amid the wheels; common practice."""


def judge(
    frames: Frames,
    layout: Layout,
    cylinders: Cylinders,
    axis: Axis,
    trunnion: tuple[float, float] | None = None,
) -> tuple[Finding, ...]:
    """Return the findings on plates, horns and stays; see `frames.work` for the parameters."""
    front = axis.axle_to_cylinder + axis.barrel / 2
    if trunnion is not None:
        front = trunnion[0] + cylinders.bore / 2  # the port face is bolted on there
    return (
        *_over_the_gap(layout), *_under_the_box(layout), *_over_the_rail(layout),
        *_between_boxes(layout), *_cylinders(layout, front), *_stays(frames, layout),
        *_firebox(layout),
    )  # fmt: skip


def _over_the_gap(layout: Layout) -> Iterator[Finding]:
    left = layout.top - layout.box_height / 2 - layout.rise
    depth = layout.top - layout.bottom
    fields = ("frames.plates.top", "frames.horns.box_height", "clearance.axlebox_rise")
    least = LEAST_METAL * depth
    # a higher edge makes the plate deeper too
    wanted = layout.box_height / 2 + layout.rise - LEAST_METAL * layout.bottom
    top = math.ceil(10 * wanted / (1 - LEAST_METAL)) / 10
    if left <= 0:
        yield Finding(
            "stop", CHAPTER, fields,
            f"The horn gap, with {layout.rise:.2f} mm over the box to rise in, cuts the frame "
            f"plate through: {-left:.2f} mm more than there is.",
            f"A top edge {top:g} mm above the axle, a lower axlebox or less rise.", "geometry",
            ("frames.plates.top", top),
        )  # fmt: skip
    elif left < least:
        yield Finding(
            "check", CHAPTER, fields,
            f"Over a horn gap {left:.2f} mm of plate are left, {100 * left / depth:.0f} % of its "
            f"depth; {100 * LEAST_METAL:.0f} % are usual.",
            f"A top edge {top:g} mm above the axle, or a stay across at each horn.", COMMON,
            ("frames.plates.top", top),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"Over a horn gap {left:.2f} mm of plate are left, {100 * left / depth:.0f} % of its "
            "depth.", source=COMMON,
        )  # fmt: skip


def _under_the_box(layout: Layout) -> Iterator[Finding]:
    left = -layout.bottom - layout.box_height / 2 - layout.rise
    fields = ("frames.plates.bottom", "frames.horns.box_height", "clearance.axlebox_rise")
    bottom = round(layout.box_height / 2 + layout.rise + 0.05, 2)
    if left < 0:
        yield Finding(
            "check", CHAPTER, fields,
            f"The axlebox meets its horn stay {layout.rise + left:.2f} mm below its place; it is "
            f"to fall {layout.rise:.2f} mm.",
            f"A bottom edge {bottom:g} mm below the axle, or a lower axlebox.", "geometry",
            ("frames.plates.bottom", bottom),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"The axlebox falls {layout.rise + left:.2f} mm before it meets its horn stay.",
            source="geometry",
        )  # fmt: skip


def _over_the_rail(layout: Layout) -> Iterator[Finding]:
    left = layout.bottom - layout.keep - layout.rail - layout.rise
    fields = ("frames.plates.bottom", "frames.horns.keep")
    wanted = max(1.5, 0.06 * -layout.rail)
    if left < wanted:
        bottom = math.floor(10 * (-layout.bottom - (wanted - left))) / 10
        says = f"{left:.2f} mm over the rail" if left > 0 else f"{-left:.2f} mm into the rail"
        yield Finding(
            "stop" if left <= 0 else "check", CHAPTER, fields,
            f"With the engine down on its springs the horn stays come {says}; {wanted:.1f} mm are "
            "wanted.",
            f"A bottom edge {bottom:g} mm below the axle, or shallower horn stays.", COMMON,
            ("frames.plates.bottom", bottom) if bottom >= 1 else None,
        )  # fmt: skip


def _between_boxes(layout: Layout) -> Iterator[Finding]:
    coupled = [one for one in layout.axles if one.kind == "coupled"]
    for ahead, behind in pairwise(coupled):
        left = ahead.ahead - behind.ahead - 1.5 * layout.box_length
        if left < 0:
            yield Finding(
                "stop" if left <= -0.5 * layout.box_length else "check", CHAPTER,
                ("frames.horns.box_length", "wheels.wheelbase"),
                f"The horn stays of the {ahead.name} and the {behind.name} axle overlap by "
                f"{-left:.2f} mm.",
                f"Axleboxes {(ahead.ahead - behind.ahead) / 1.5:.1f} mm long at most.", "geometry",
                ("frames.horns.box_length", round((ahead.ahead - behind.ahead) / 1.55, 1)),
            )  # fmt: skip


def _cylinders(layout: Layout, front: float) -> Iterator[Finding]:
    if front > layout.plate_front:
        ahead = round(front - layout.axles[0].ahead + 1, 1)
        yield Finding(
            "check", CHAPTER, ("frames.plates.ahead", "cylinders.barrel.axle_to_cylinder"),
            f"The cylinders reach {front - layout.plate_front:.1f} mm beyond the front of the "
            "frame plates, to which they are bolted.",
            f"Plates that go {ahead:g} mm ahead of the first axle.", COMMON,
            ("frames.plates.ahead", ahead),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, ("frames.plates.ahead", "cylinders.barrel.axle_to_cylinder"),
            f"The cylinders end {layout.plate_front - front:.1f} mm behind the front of the frame "
            "plates.", source="geometry",
        )  # fmt: skip


def _stays(frames: Frames, layout: Layout) -> Iterator[Finding]:
    for stay in frames.stays:
        ends = (stay.ahead - stay.length / 2, stay.ahead + stay.length / 2)
        if ends[0] < layout.plate_back or ends[1] > layout.plate_front:
            yield Finding(
                "stop", CHAPTER, ("frames.stays",),
                f"The {stay.name} stands at {stay.ahead:.1f} mm, off the frame plates, which run "
                f"from {layout.plate_back:.1f} to {layout.plate_front:.1f} mm.",
                "Bring it between the beams.", "geometry",
            )  # fmt: skip
        elif stay.top > layout.top + 1e-6:
            yield Finding(
                "check", CHAPTER, ("frames.stays", "frames.plates.top"),
                f"The {stay.name} stands {stay.top - layout.top:.1f} mm above the frame plates.",
                "Bring its top down to the plates' edge.", "geometry",
            )  # fmt: skip


def _firebox(layout: Layout) -> Iterator[Finding]:
    if layout.boiler_kind != "locomotive type" or layout.firebox_asked <= layout.firebox_bottom:
        return
    low = math.floor(layout.firebox_bottom)
    yield Finding(
        "stop", CHAPTER, ("boiler.firebox.bottom", "clearance.surroundings.boiler_bottom"),
        f"The firebox would end {layout.firebox_asked:.1f} mm above the driving axle, which is no "
        f"lower than the middle of the boiler at {layout.boiler_centre:.1f} mm.",
        f"Bring its bottom down to {low:g} mm or lower, or raise the boiler.", "geometry",
        ("boiler.firebox.bottom", float(low)),
    )  # fmt: skip
