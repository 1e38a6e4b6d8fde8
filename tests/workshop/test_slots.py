"""Curved slots: the places lie on the arc, the ridges are what is left, and the dials say so."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point
from shapely.ops import unary_union

from weighshaft.sizes import SizeError
from weighshaft.workshop.dials import Dial, Reading, angle_text, spaced
from weighshaft.workshop.machines import Machines, Mill
from weighshaft.workshop.slots import EngineSlot, Roughing, Slots, work
from weighshaft.workshop.slots.decisions import DATUMS, EDGES, END_HOLE, INWARDS, MIDDLE
from weighshaft.workshop.slots.results import CutterPath, SlotsResult

MICRON = 1e-3
MACHINES = Machines()


def cut(machines: Machines = MACHINES, **sizes: object) -> SlotsResult:
    return work(Slots(**sizes), machines=machines)  # type: ignore[arg-type]


def centre(result: SlotsResult) -> tuple[float, float]:
    """The arc's centre in the coordinates of the table."""
    x, y = result.middle
    return (x, y + result.radius) if result.datum == MIDDLE else (x, y - result.radius)


@settings(max_examples=60, deadline=None)
@given(
    st.floats(20, 400), st.floats(5, 60), st.sampled_from([2.0, 3.0, 4.0]),
    st.sampled_from([1.5, 2.0]), st.sampled_from(DATUMS), st.floats(0.1, 1.0),
)  # fmt: skip
def test_places_plotted_back_lie_on_their_arcs(
    radius: float, length: float, width: float, cutter: float, datum: str, step: float
) -> None:
    length = min(length, 1.5 * radius)
    made = cut(
        radius=radius, length=length, width=width, cutter=cutter, datum=datum, step=step,
        cusp_wanted=1.0,
    )  # fmt: skip
    cx, cy = centre(made)
    off = (width - cutter) / 2
    assert {round(one.radius - radius, 9) for one in made.paths} == {
        round(off, 9), round(-off, 9)
    }  # fmt: skip
    mill = MACHINES.mill
    dial = Dial(mill.table, mill.divisions)
    for way in made.paths:
        for one in way.places:
            assert math.hypot(one.x - cx, one.y - cy) == pytest.approx(way.radius, abs=MICRON)
            for value, text in ((one.x, one.x_dial), (one.y, one.y_dial)):
                turns, division = text.split(" t ")
                said = dial.moved(Reading(int(turns), float(division)))
                assert said == pytest.approx(value, abs=MICRON + 1e-9)  # a tenth is 2 µm
    across = math.dist(*((one.x, one.y) for one in made.end_holes))
    assert across == pytest.approx(made.chord)
    gaps = np.diff([one.along for one in made.paths[0].places])
    assert gaps.min() > 0
    assert gaps.max() <= 1.01 * step + 1e-9


def test_ridges_are_what_shapely_finds_left_of_the_slot() -> None:
    made = cut(radius=30, length=16, width=3, cutter=2, step=0.8, cusp_wanted=1.0, datum=MIDDLE)
    for way, sign, flank, ridge in (
        (made.paths[0], 1, made.radius + 1.5, made.outer_cusp),
        (made.paths[1], -1, made.radius - 1.5, made.inner_cusp),
    ):
        cuts = unary_union(
            [Point(p.along, math.sqrt(way.radius**2 - p.along**2)).buffer(1.0, quad_segs=2000)
             for p in way.places]
        )  # fmt: skip
        left = 0.0
        turns = [math.asin(p.along / way.radius) for p in way.places]
        for here, there in itertools.pairwise(turns):
            angle = (here + there) / 2
            ray = LineString(
                [(r * math.sin(angle), r * math.cos(angle)) for r in (way.radius, flank + sign)]
            )
            inside = ray.intersection(cuts)
            left = max(left, 1.0 - inside.length)
        assert left == pytest.approx(ridge, abs=1e-5)


def test_a_slot_drill_of_the_full_width_cuts_both_flanks_at_once() -> None:
    made = cut(radius=30, length=16, width=3, step=0.5)
    (way,) = made.paths
    assert (way.name, way.radius, made.cutter) == ("centre line", 30, 3)
    assert made.overcut > made.outer_cusp > made.inner_cusp > 0


def test_the_step_allowed_leaves_just_the_ridge_allowed() -> None:
    made = cut(radius=40, length=20, width=3, step=1.2, cusp_wanted=0.02)
    (found,) = [one for one in made.findings if one.change]
    assert found.level == "check"
    assert found.change is not None
    again = cut(radius=40, length=20, width=3, step=found.change[1], cusp_wanted=0.02)
    assert 0.017 < again.outer_cusp <= 0.02
    assert not [one for one in again.findings if one.change]


def _cross(way: CutterPath) -> list[float]:
    return [one.y for one in way.places]


def test_towards_the_middle_y_never_turns_back_within_a_run() -> None:
    for datum, rising in ((END_HOLE, True), (EDGES, True), (MIDDLE, False)):
        made = cut(radius=30, length=16, width=3, cutter=2, order=INWARDS, datum=datum)
        for way in made.paths:
            starts = [n for n, one in enumerate(way.places) if one.heed]
            assert len(starts) == 2
            assert starts[0] == 0
            for run in (way.places[: starts[1]], way.places[starts[1] :]):
                steps = np.diff([one.y for one in run])
                assert (steps >= -1e-12).all() if rising else (steps <= 1e-12).all()


def test_from_end_to_end_the_turn_of_y_is_marked() -> None:
    made = cut(radius=30, length=16, width=3, cutter=2)
    for way in made.paths:
        (turn,) = [n for n, one in enumerate(way.places) if one.heed and n]
        heights = _cross(way)
        assert heights[turn] < heights[turn - 1]
        assert (np.diff(heights[:turn]) > -1e-12).all()


def test_the_outer_flank_is_cut_against_the_feed() -> None:
    made = cut(radius=30, length=16, width=3, cutter=2)
    outer, inner = made.paths
    assert outer.places[0].along < outer.places[-1].along
    assert inner.places[0].along > inner.places[-1].along


def test_a_rotary_table_turns_from_hole_to_hole() -> None:
    made = cut(radius=40, length=20, width=3)
    assert made.angle == pytest.approx(math.degrees(20 / 40))
    # 72 turns a revolution: 28.648 degrees are 5.7296 turns of 100 divisions
    assert made.paths[0].table_angle == "5 t 73.0"
    assert made.end_holes[0].table == "0 t 0.0"
    assert made.end_holes[1].table == "5 t 73.0"


def test_imperial_dials_read_thousandths() -> None:
    made = cut(Machines(mill=Mill(table=2.54, divisions=100)), radius=40, length=20, width=3)
    second = made.paths[0].places[1]
    turns, division = second.x_dial.split(" t ")
    assert float(turns) * 100 + float(division) == pytest.approx(second.x / 0.0254, abs=0.051)
    assert made.dial.says == "2.54 mm (100 thou) a turn of 100"


@pytest.mark.parametrize("overlap", [-0.3, 0.1, 0.5])
def test_holes_of_the_waste_run_from_end_hole_to_end_hole(overlap: float) -> None:
    made = cut(radius=40, length=20, width=3, roughing=Roughing(drill=2.5, overlap=overlap))
    first, last = made.roughing[0], made.roughing[-1]
    assert (first.x, first.y) == pytest.approx((made.end_holes[0].x, made.end_holes[0].y))
    assert (last.x, last.y) == pytest.approx((made.end_holes[1].x, made.end_holes[1].y))
    apart = [
        math.hypot(b.x - a.x, b.y - a.y)
        for a, b in zip(made.roughing, made.roughing[1:], strict=False)
    ]
    assert apart == pytest.approx([made.drill_chord] * len(apart))
    assert made.drill_pitch <= 2.5 - overlap + 1e-9
    if overlap < 0:
        return
    holes = unary_union([Point(h.x, h.y).buffer(1.25, quad_segs=4000) for h in made.roughing])
    cx, cy = centre(made)
    between = math.radians((made.roughing[0].angle + made.roughing[1].angle) / 2)
    ray = LineString(
        [(cx + r * math.sin(between), cy + r * math.cos(between)) for r in (38.5, 40.0)]
    )
    assert made.ridge == pytest.approx(1.5 - ray.intersection(holes).length, abs=1e-5)


def test_a_die_longer_than_the_slot_is_wide_needs_more_arc() -> None:
    plain, block = (cut(radius=40, length=20, width=3, die_length=d) for d in (None, 7.0))
    assert plain.arc == pytest.approx(20)
    assert plain.over_all == pytest.approx(23)
    assert block.arc == pytest.approx(24)
    assert block.over_all == pytest.approx(27)


def test_what_is_typed_goes_before_what_the_engine_says() -> None:
    link = EngineSlot(32.5, 16.0, "the engine's link")
    from_engine = work(Slots(), machines=MACHINES, engine=link)
    assert (from_engine.radius, from_engine.arc) == pytest.approx((32.5, 16.0))
    assert from_engine.taken_from == "the engine's link"
    typed = work(Slots(radius=50.0, length=12.0), machines=MACHINES, engine=link)
    assert (typed.radius, typed.arc, typed.taken_from) == (50.0, 12.0, "as typed here")
    straight = work(Slots(), machines=MACHINES, engine=EngineSlot(None, 12.0, "it is straight"))
    assert any("it is straight" in one.says for one in straight.findings)


@pytest.mark.parametrize(
    ("sizes", "field"),
    [
        ({"width": 3.0, "cutter": 4.0}, "cutter"),
        ({"width": 3.0, "die_length": 0.5, "length": 1.0}, "die_length"),
        ({"radius": 2.0, "length": 1.0, "width": 5.0}, "width"),
        ({"radius": 10.0, "length": 40.0}, "length"),
        ({"step": 0.01, "length": 100.0}, "step"),
        ({"width": 1.0, "step": 3.0}, "step"),
        ({"width": 3.0, "roughing": Roughing(drill=3.5)}, "roughing.drill"),
        ({"width": 3.0, "roughing": Roughing(drill=2.0, overlap=2.5)}, "roughing.overlap"),
    ],
)
def test_what_is_no_slot_is_refused(sizes: dict[str, object], field: str) -> None:
    with pytest.raises(SizeError) as refused:
        cut(**sizes)
    assert refused.value.field == field


@given(st.floats(-500, 500), st.sampled_from([(2.0, 100), (2.54, 100), (5.0, 100), (3.175, 125)]))
def test_a_dial_tells_the_place_to_half_a_tenth(moved: float, one: tuple[float, int]) -> None:
    dial = Dial(*one)
    reading = dial.reading(moved)
    assert 0 <= reading.division < dial.divisions
    assert dial.moved(reading) == pytest.approx(moved, abs=dial.finest + 1e-9)


def test_a_dial_turned_back_shows_what_is_left_of_the_turn() -> None:
    assert Dial(2.0, 100).text(-1.0) == "-1 t 50.0"
    assert Dial(2.0, 100).text(1.9999) == "1 t 0.0"  # not 0 turns and 100 divisions
    assert angle_text(-12.5) == "−12° 30.0′"
    assert angle_text(29.99999) == "30° 00.0′"


def test_steps_end_exactly_and_leave_no_sliver() -> None:
    assert spaced(-1.0, 1.0, 0.5) == (-1.0, -0.5, 0.0, 0.5, 1.0)
    assert spaced(-1.001, 1.001, 0.5) == (-1.001, -0.5, 0.0, 0.5, 1.001)
