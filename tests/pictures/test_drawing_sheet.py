"""Outlines with true arcs, dimensions in rows, and what comes back from a DXF file."""

from __future__ import annotations

import math
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf import recover
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from weighshaft.pictures.drawings.dimensions import chain, overall, rows
from weighshaft.pictures.drawings.sheet import Drawing, Outline, View, arc_of, hole, polygon, rod
from weighshaft.pictures.dxf import write
from weighshaft.pictures.lengths import dimensioned, length, told

MICRON = 1e-3  # mm


def test_a_half_circle_by_its_bulge() -> None:
    """DXF reference: a bulge of 1 is a half circle."""
    centre, radius, _, angle = arc_of((0.0, 0.0), (10.0, 0.0), 1.0)
    assert centre == pytest.approx((5.0, 0.0), abs=1e-12)
    assert radius == pytest.approx(5.0)
    assert angle == pytest.approx(math.pi)
    assert hole((3.0, 4.0), 6.0).area == pytest.approx(9 * math.pi)


@given(
    spacing=st.lists(st.floats(20, 90), min_size=1, max_size=3),
    eye=st.floats(3.5, 9), share=st.floats(0.2, 0.95),
)  # fmt: skip
@settings(deadline=None, max_examples=40)
def test_a_rod_is_the_union_of_its_eyes_and_its_bar(
    spacing: list[float], eye: float, share: float
) -> None:
    half = share * eye
    places = [(float(x), 0.0) for x in np.cumsum([0.0, *spacing])]
    made = rod(places, [eye] * len(places), half)
    bar = LineString([places[0], places[-1]]).buffer(half, cap_style="flat")
    union = unary_union([bar, *(Point(one).buffer(eye, quad_segs=2000) for one in places)])
    assert made.area == pytest.approx(union.area, rel=1e-6)
    drawn = Polygon(made.path().points)
    assert drawn.is_valid
    assert drawn.symmetric_difference(union).area < 1e-3 * union.area
    assert drawn.hausdorff_distance(union) < 2 * MICRON


def test_dimensions_never_share_a_row_where_they_meet() -> None:
    spans = [*chain([0.0, 4.0, 8.0, 60.0]), overall(0.0, 60.0), (0.0, 59.0, "59.00")]
    made = rows("above", 5.0, spans, 1.0)
    by_row: dict[float, list[tuple[float, float]]] = {}
    for one in made:
        stands = one.offset if one.end[0] > one.start[0] else -one.offset
        assert stands > 0
        by_row.setdefault(round(stands, 6), []).append(tuple(sorted((one.start[0], one.end[0]))))
    for taken in by_row.values():
        for n, (a, b) in enumerate(taken):
            assert all(b <= c + 1e-9 or d <= a + 1e-9 for c, d in taken[n + 1 :])
    assert {one.text for one in made} == {text for *_, text in spans}


def test_a_short_figure_stands_where_no_line_crosses_it() -> None:
    """Lines of longer dimensions pass ahead of the short one, so its figure goes behind."""
    spans = [(20.0, 21.0, ""), (-10.0, 24.0, ""), (-10.0, 27.0, "")]
    made = rows("above", 0.0, spans, 1.0)
    short = next(one for one in made if abs(one.end[0] - one.start[0]) == 1.0)
    assert (short.start[0], short.end[0]) == (21.0, 20.0)
    assert short.offset < 0  # to the right of the way backwards: still above


def test_lengths_in_words_are_spelt_in_the_unit_of_the_sheet() -> None:
    assert told(f"drill {length(3.2)} deep", "mm") == "drill 3.2 deep"
    assert told(f"drill {length(3.175)} deep", "in") == "drill 1/8 deep"
    assert dimensioned("⌀<> H7", 25.4, "mm") == "⌀25.4 H7"
    assert dimensioned("", 25.4, "in") == "1"
    assert told("less than 3 < 4 and 5 > 4", "in") == "less than 3 < 4 and 5 > 4"


@pytest.mark.parametrize("side", ["above", "below", "left", "right"])
def test_dimensions_stand_on_their_side(side: str) -> None:
    (one,) = rows(side, 10.0, [(0.0, 30.0, "30")], 1.0)  # type: ignore[arg-type]
    way = np.array(one.end) - np.array(one.start)
    left = np.array([-way[1], way[0]]) / np.hypot(*way)
    stands = np.array(one.start) + left * one.offset
    value = {"above": stands[1], "below": -stands[1], "right": stands[0], "left": -stands[0]}[side]
    edge = 10.0 if side in ("above", "right") else -10.0
    assert value > edge


def test_a_cut_file_measures_back(tmp_path: Path) -> None:
    """Area, hole and radii of an exported outline, opened again and audited by ezdxf."""
    body = rod([(0.0, 0.0), (60.0, 0.0)], [6.0, 7.0], 2.5)
    bore = hole((60.0, 0.0), 4.0)
    plate = polygon([(0, -30), (40, -30), (40, -20), (0, -20)])
    view = View("elevation", (body, bore, plate, *rows("above", 8.0, [overall(0, 60)], 1.0)))
    drawing = Drawing(
        key="rod", title="Rod", material="mild steel", count=2, views_at=lambda scale: (view,)
    )
    file = tmp_path / "rod.dxf"
    write(drawing, file)
    document, auditor = recover.readfile(file)
    assert not auditor.has_errors
    assert document.header["$INSUNITS"] == 4
    assert document.dxfversion >= "AC1024"  # R2010
    space = document.modelspace()
    lines = list(space.query('LWPOLYLINE[layer=="OUTLINE"]'))
    assert all(one.closed for one in lines)
    areas = sorted(Outline(tuple(tuple(p) for p in one.get_points("xyb"))).area for one in lines)
    assert areas == pytest.approx(sorted([body.area, plate.area]), abs=MICRON)
    (circle,) = space.query("CIRCLE")
    assert circle.dxf.radius == pytest.approx(2.0, abs=MICRON)
    assert tuple(circle.dxf.center)[:2] == pytest.approx((60.0, 0.0), abs=MICRON)
    radii = set()
    for one in lines:
        ends = one.get_points("xy")
        for start, end, bulge in zip(ends, [*ends[1:], ends[0]], one.get_points("b"), strict=True):
            if bulge[0]:
                radii.add(round(arc_of(start, end, bulge[0])[1], 6))
    assert radii == {6.0, 7.0}
    assert document.units == ezdxf.units.MM
