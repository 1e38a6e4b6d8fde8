"""Room for a spanner on the hexagons of covers and glands."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..frames.solids import Plate, Round
from ..frames.whole import Whole
from ..measures import INCH
from ..trade.tables import rows
from .decisions import Erection
from .results import Screws, SpannerRoom
from .sweep import Shape, both_sides, shapes_of, way_out

TUBE = 1.2
"""A box spanner of thin tube over its hexagon's corners, mm; common practice."""


def head_of(spanner: str, flats: float, thread: float = 0.0) -> float:
    """Return the outside of a spanner's head over a hexagon, mm.

    Parameters
    ----------
    spanner : one of `decisions.SPANNERS`.
    flats : across flats, mm.
    thread : outside diameter of the thread, mm; a round gland for a pin spanner goes by it.

    Source: ring spanners by the line through the largest heads that A-A-1346A allows from 7/16
    to 3/4 in, carried on to smaller ones; open-ended ones 2.1 times the flats and 2 mm as heads
    are sold (from memory; ISO 3318 allows 2.1 times and 7 mm); box
    spanners, and the head of a round gland 2 mm over its thread, common practice.
    """
    if spanner == "pin spanner":
        return thread + 2.0
    if spanner == "ring spanner":
        table = [
            (float(row["opening_in"]) * INCH, float(row["ring_outside_max_in"]) * INCH)
            for row in rows("spanners")
        ]
        (a, low), (b, high) = table[0], table[-1]
        return low + (high - low) * (flats - a) / (b - a)
    if spanner == "open-ended spanner":
        return 2.1 * flats + 2.0
    return corners(flats) + TUBE


def corners(flats: float) -> float:
    """Return a hexagon across corners, mm; geometry."""
    return flats * 2 / math.sqrt(3)


def rooms(whole: Whole, erection: Erection, screws: Screws) -> tuple[SpannerRoom, ...]:
    """Return the room round the hexagons of covers and glands.

    Parameters
    ----------
    screws : hexagons, number and circle as the threads and the cylinders have them.
    """
    part = whole.part("cylinders")
    if part is None or whole.drive.trunnion is not None:
        return ()
    body = next(one for one in part.solids if isinstance(one, Round))
    return (
        *_covers(whole, erection, screws, body), *_gland(whole, erection, screws),
        *_spindle(whole, erection, screws),
    )  # fmt: skip


def _covers(whole: Whole, erection: Erection, screws: Screws, body: Round) -> Iterator[SpannerRoom]:
    flats = screws.flats
    head = head_of(erection.cover_spanner, flats)
    beside = (head + corners(flats)) / 2
    apart = screws.circle * math.sin(math.pi / screws.number)
    yield SpannerRoom("cover screws", "the next screw", flats, head, beside, apart)
    middle, inside = body.start[2], whole.frame_inside / 2
    outside = inside + whole.frame_thickness
    if middle > outside:
        yield SpannerRoom("cover screws", "frame plate", flats, head, head / 2,
                          middle - screws.circle / 2 - outside)  # fmt: skip
    else:
        yield SpannerRoom("cover screws", "frame plate", flats, head, head / 2,
                          inside - middle - screws.circle / 2)  # fmt: skip
        yield SpannerRoom("cover screws", "the other cylinder's screws", flats, head, beside,
                          2 * middle - screws.circle)  # fmt: skip


def _gland(whole: Whole, erection: Erection, screws: Screws) -> Iterator[SpannerRoom]:
    bars = whole.part("slide bars")
    if bars is None or not screws.gland_flats:
        return
    slabs = [one for one in bars.solids if isinstance(one, Plate)]
    if len(slabs) < 2:
        return
    slope = math.radians(whole.drive.inclination)
    heights = [
        sorted(y * math.cos(slope) - x * math.sin(slope) for x, y in one.outline) for one in slabs
    ]
    heights.sort()
    room = heights[1][0] - heights[0][-1]
    head = head_of(erection.gland_spanner, screws.gland_flats, screws.gland_thread)
    yield SpannerRoom("piston-rod gland", "between the slide bars", screws.gland_flats, head, head,
                      room)  # fmt: skip


def _spindle(whole: Whole, erection: Erection, screws: Screws) -> Iterator[SpannerRoom]:
    """Yield the room over and beside the valve spindle's gland, behind the cylinder."""
    spindle, part = whole.part("valve spindle"), whole.part("cylinders")
    if spindle is None or part is None or not screws.spindle_flats:
        return
    body = next(one for one in part.solids if isinstance(one, Round))
    back = body.extent[0][0]
    (x0, y0, _), (x1, y1, _) = spindle.extent
    y = (y0 + y1) / 2
    z = sum(spindle.solids[0].extent[i][2] for i in (0, 1)) / 2
    at, half = min(max(back, x0 + 1.0), max(x1, x0 + 1.0)), 0.2
    going = (Shape("gland", ((at - 1.0, y - half), (at, y - half), (at, y + half),
                             (at - 1.0, y + half)), z - half, z + half),)  # fmt: skip
    head = head_of(erection.gland_spanner, screws.spindle_flats, screws.spindle_thread)
    stood = [
        shape
        for other in whole.parts
        if other.kind not in ("water", "motion", "cylinders", "rods")
        for shape in both_sides(shapes_of(other, whole), other.paired)
    ]
    told = set()
    for toward in ("up", "out"):
        way = way_out(going, stood, toward, math.inf)
        if math.isfinite(way.free) and way.blocked[0] not in told:
            told.add(way.blocked[0])
            yield SpannerRoom("valve-spindle gland", way.blocked[0], screws.spindle_flats, head,
                              head / 2, way.free + half)  # fmt: skip
