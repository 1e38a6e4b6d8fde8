"""The frames as parts: plates with horn gaps, boxes, horn stays, stays, beams and buffers."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from .decisions import Frames
from .layout import Layout
from .solids import Plate, Point, Round, block
from .whole import Part

_BETWEEN = ("wheels.between.frame_spacing", "wheels.between.frame_thickness")


def outline_of(layout: Layout, flange_depth: float, horn_clearance: float) -> tuple[Point, ...]:
    """Return the outline of a frame plate seen from the side, mm.

    Deep between the coupled wheels and shallow at the beams, cut away over the wheels of a
    truck, with a horn gap open at the bottom over every coupled axle.
    """
    coupled = [one.ahead for one in layout.axles if one.kind == "coupled"]
    half = (layout.box_length + horn_clearance) / 2
    roof = layout.box_height / 2 + layout.rise
    low, ends = layout.bottom, layout.top - layout.end_depth
    reach = half + max(1.5 * layout.keep, 0.6 * layout.box_length)
    front = min(coupled[0] + reach, layout.plate_front)
    back = max(coupled[-1] - reach, layout.plate_back)
    slope = ends - low
    edge = [(back - slope, ends), (back, low), (front, low), (front + slope, ends)]
    cuts = [(x - half, x + half, roof) for x in coupled]
    cuts += _over_trucks(layout, flange_depth, back, front)
    bottom = _bottom(edge, cuts, layout.plate_back, layout.plate_front, layout.top)
    return ((layout.plate_front, layout.top), (layout.plate_back, layout.top), *bottom)


Cut = tuple[float, float, float]
"""From, to, and how high the plate is cut away there, mm."""


def _over_trucks(layout: Layout, flange_depth: float, back: float, front: float) -> list[Cut]:
    """Return what is cut away over truck wheels, which swing under the plates."""
    made = []
    for axle in layout.axles:
        if axle.kind == "coupled":
            continue
        radius = axle.diameter / 2 + flange_depth + layout.rise + layout.splasher_gap
        # leave a quarter of the plate over it
        roof = min(layout.rail + axle.diameter / 2 + radius, layout.top - 0.25 * layout.end_depth)
        aft, fore = axle.ahead - radius, axle.ahead + radius
        # the deep part keeps its depth
        made.append(
            (max(aft, front), fore, roof) if axle.kind == "leading"
            else (aft, min(fore, back), roof)
        )  # fmt: skip
    return [one for one in made if one[0] < one[1]]


def _bottom(
    edge: list[Point], cuts: list[Cut], back: float, front: float, top: float
) -> list[Point]:
    """Return the bottom edge from the back to the front, at each place the highest of all.

    A cut that would part the plate stops a hair under its top edge, so that the outline stays
    one; the judgement says so.
    """
    places = sorted(
        {
            min(max(x, back), front)
            for x in (back, front, *(x for x, _ in edge), *(x for cut in cuts for x in cut[:2]))
        }
    )
    most = top - 1e-3 * (front - back)
    along, heights = [x for x, _ in edge], [y for _, y in edge]
    points: list[Point] = []
    for before, after in pairwise(places):
        middle = (before + after) / 2
        roof = max((high for aft, fore, high in cuts if aft < middle < fore), default=-np.inf)
        ends = [float(np.interp(x, along, heights)) for x in (before, after)]
        for x, at in zip((before, after), ends, strict=True):
            point = (x, float(min(max(at, roof), most)))
            if not points or abs(points[-1][0] - x) + abs(points[-1][1] - point[1]) > 1e-9:
                points.append(point)
    return points


def frame_parts(
    frames: Frames,
    layout: Layout,
    *,
    flange_depth: float,
    inside_box: float,
    outside_box: float,
) -> list[Part]:
    """Return frames, boxes, stays and beams.

    Parameters
    ----------
    flange_depth : of the wheels, mm.
    inside_box, outside_box : of the axleboxes beyond the plate, mm.
    """
    inside, outside = layout.inside, layout.outside
    coupled = [(n, one) for n, one in enumerate(layout.axles) if one.kind == "coupled"]
    outline = outline_of(layout, flange_depth, frames.horns.clearance)
    under = tuple(
        block(
            one.ahead - 0.75 * layout.box_length, one.ahead + 0.75 * layout.box_length,
            layout.bottom - layout.keep, layout.bottom, inside, outside,
        )
        for _, one in coupled
    )  # fmt: skip
    boxes = [
        Part(
            f"{one.name} axleboxes", "frames", "frames",
            ("frames.horns.box_length", "frames.horns.box_height", "wheels.between.axlebox_inside"),
            frames.horns.material,
            (
                block(
                    one.ahead - layout.box_length / 2, one.ahead + layout.box_length / 2,
                    -layout.box_height / 2, layout.box_height / 2,
                    inside - inside_box, outside + outside_box,
                ),
            ),
            paired=True, ride="axle", axle=n,
            joined=("frame plates", "horn stays", f"{one.name} axle", f"{one.name} wheels"),
        )
        for n, one in coupled
    ]  # fmt: skip
    stays = _stays(frames, layout)
    plates = Part(
        "frame plates", "frames", "frames",
        ("frames.plates.top", "frames.plates.bottom", "frames.plates.ahead", *_BETWEEN),
        frames.plates.material, (Plate(outline, inside, outside),), paired=True,
        joined=(
            "horn stays", "front buffer beam", "back buffer beam", "cylinders", "running boards",
            *(stay.name for stay in stays), "smokebox saddle", "weighshaft", "rocker shaft",
            "splashers", *(f"{one.name} axle" for one in layout.axles), "feed pump", "slide bars",
        ),
    )  # fmt: skip
    keeps = Part(
        "horn stays", "frames", "frames", ("frames.horns.keep",), frames.plates.material, under,
        paired=True,
    )  # fmt: skip
    return [plates, keeps, *boxes, *stays, *_beams(frames, layout)]


def _stays(frames: Frames, layout: Layout) -> list[Part]:
    """Return the stays: those decided, else one behind either beam where nothing moves."""
    fields = ("frames.stays",)
    if frames.stays:
        spans = [
            (one.name, one.ahead - one.length / 2, one.ahead + one.length / 2,
             one.top - one.depth, one.top)
            for one in frames.stays
        ]  # fmt: skip
    else:
        deep, thick = 0.6 * layout.end_depth, layout.outside - layout.inside
        last = layout.axles[-1].ahead
        amid = (last - 0.5 * layout.axles[-1].diameter + layout.plate_back) / 2
        spans = [
            ("back stay", amid - thick / 2, amid + thick / 2, layout.top - deep, layout.top)
        ]  # fmt: skip
    return [
        Part(
            name, "frames", "frames", fields, frames.plates.material,
            (block(back, front, low, high, -layout.inside, layout.inside),),
            joined=("cylinders", "boiler", "firebox", "ashpan"),
        )
        for name, back, front, low, high in spans
    ]  # fmt: skip


def _beams(frames: Frames, layout: Layout) -> list[Part]:
    made = []
    top = min(layout.top, layout.buffer_height + layout.beam_height / 2)
    for word, way, face in (("front", 1, layout.plate_front), ("back", -1, layout.plate_back)):
        aft, fore = sorted((face, face + way * layout.beam))
        beam = f"{word} buffer beam"
        made.append(
            Part(
                beam, "frames", "frames",
                ("frames.beams.height", "frames.beams.width", "frames.beams.thickness"),
                frames.plates.material,
                (
                    block(
                        aft, fore, top - layout.beam_height, top,
                        -layout.beam_width / 2, layout.beam_width / 2,
                    ),
                ),
                joined=(f"{word} buffers", f"{word} coupling", "running boards"),
            )
        )  # fmt: skip
        start = face + way * layout.beam
        angle = 0.0 if way > 0 else 180.0
        head, stock = layout.buffer_head / 2, 0.3 * layout.buffer_head
        thick = 0.15 * layout.buffer_length
        across = layout.buffers_apart / 2
        solids = (
            Round(
                (start, layout.buffer_height, across), layout.buffer_length - thick, stock, angle
            ),
            Round(
                (start + way * (layout.buffer_length - thick), layout.buffer_height, across),
                thick, head, angle,
            ),
        )  # fmt: skip
        if layout.buffer_length > 0:
            made.append(
                Part(
                    f"{word} buffers", "frames", "frames",
                    ("frames.beams.buffer_length", "frames.beams.buffer_height",
                     "frames.beams.buffers_apart"),
                    "mild steel", solids, paired=across > 0, joined=(f"{word} coupling",),
                )
            )  # fmt: skip
        hook = 0.8 * layout.buffer_length or layout.beam
        aft, fore = sorted((start, start + way * hook))
        made.append(
            Part(
                f"{word} coupling", "frames", "frames", ("frames.beams.coupling_height",),
                "mild steel",
                (
                    block(
                        aft, fore, layout.coupling_height - stock / 2,
                        layout.coupling_height + stock / 2, -stock / 3, stock / 3,
                    ),
                ),
            )
        )  # fmt: skip
    return made
