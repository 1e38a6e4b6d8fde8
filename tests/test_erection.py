"""Putting together and taking apart: ways out, spanners, reach, and the order."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import Polygon

from tests.boiler_for_tests import cylinder, engine, part
from weighshaft import job
from weighshaft.design import Design
from weighshaft.erection import Erection, Screws, Shape
from weighshaft.erection.judgement import judge
from weighshaft.erection.order import Task, ordered, tasks
from weighshaft.erection.results import Removal
from weighshaft.erection.setting import reaches
from weighshaft.erection.spanners import rooms
from weighshaft.erection.sweep import CLEAR, overlap, shapes_of, travel, way_out
from weighshaft.erection.ways import removals
from weighshaft.frames.solids import Round, block, disc
from weighshaft.frames.whole import Part, Whole


def removed(whole: Whole, what: str) -> Removal:
    axis: Any = None
    return next(one for one in removals(whole, axis, 0.0) if one.what == what)


def beam(x: float) -> Part:
    return part("front buffer beam", "frames", block(x, x + 5, -20, 30, -90, 90))


def square(x: float, y: float, half: float, name: str = "s") -> Shape:
    return Shape(
        name, ((x - half, y - half), (x + half, y - half), (x + half, y + half),
               (x - half, y + half)), -1.0, 1.0,
    )  # fmt: skip


def regular(x: float, y: float, radius: float, sides: int, turn: float) -> Shape:
    corners = tuple(
        (x + radius * math.cos(turn + 2 * math.pi * n / sides),
         y + radius * math.sin(turn + 2 * math.pi * n / sides))
        for n in range(sides)
    )  # fmt: skip
    return Shape("r", corners, -1.0, 1.0)


@given(
    x=st.floats(-40, 40), y=st.floats(15, 80), radius=st.floats(2, 20), sides=st.integers(3, 9),
    turn=st.floats(0, 6), half=st.floats(2, 12), way=st.sampled_from([(0.0, 1.0), (0.6, 0.8)]),
)  # fmt: skip
def test_travel_is_what_moving_the_outlines_in_a_geometry_library_finds(
    x: float, y: float, radius: float, sides: int, turn: float, half: float,
    way: tuple[float, float],
) -> None:  # fmt: skip
    one, other = square(0, 0, half), regular(x, y, radius, sides, turn)
    a, b = Polygon(one.outline), Polygon(other.outline)
    assume(a.distance(b) > 0.05)
    far = travel(one, other, way)
    if far == CLEAR:
        swept = max(
            translate(a, way[0] * t, way[1] * t).intersection(b).area for t in range(0, 160, 2)
        )
        assert swept < 0.6  # at most a graze
    else:
        assert translate(a, way[0] * far, way[1] * far).distance(b) < 1e-6
        before = 0.98 * far - 0.01
        assert before <= 0 or not translate(a, way[0] * before, way[1] * before).intersects(b)


@given(
    x=st.floats(-20, 20), y=st.floats(-20, 20), radius=st.floats(2, 20), sides=st.integers(3, 9),
    turn=st.floats(0, 6),
)  # fmt: skip
def test_overlap_agrees_with_a_geometry_library(
    x: float, y: float, radius: float, sides: int, turn: float
) -> None:
    one, other = square(0, 0, 8), regular(x, y, radius, sides, turn)
    area = Polygon(one.outline).intersection(Polygon(other.outline)).area
    assume(not 0 < area < 0.5)
    assert overlap(one, other) == (area > 0)


def test_bands_lie_about_a_round_and_near_it() -> None:
    whole = engine()
    lagging = whole.part("lagging")
    assert lagging is not None
    bands = shapes_of(lagging, whole)
    for turn in range(0, 360, 5):
        y = 95 + 39.99 * math.sin(math.radians(turn))
        z = 39.99 * math.cos(math.radians(turn))
        assert any(
            one.inner <= z <= one.outer and one.span((0, 1))[0] <= y <= one.span((0, 1))[1]
            for one in bands
        )
    highest = max(one.span((0, 1))[1] for one in bands)
    assert highest == pytest.approx(135)


def test_a_wheelset_falls_through_its_horns() -> None:
    one = removed(engine(), "driving wheelset")
    assert one.way.open
    assert one.first == ("horn stays",)
    # the box's top at 13 has to come below the plates' edge at -25
    assert one.way.needed == pytest.approx(38)


@pytest.mark.parametrize("gap", [2.0, 9.5, 20.0])
def test_a_stay_planted_under_an_axle_traps_its_wheelset(gap: float) -> None:
    top = -6 / math.cos(math.pi / 24) - gap
    stay = part("planted stay", "frames", block(100, 120, top - 5, top, -30, 30))
    whole = engine(stay)
    one = removed(whole, "leading coupled wheelset")
    assert one.way.blocked == ("planted stay",)
    assert one.way.free == pytest.approx(gap, abs=0.06)
    assert removed(whole, "driving wheelset").way.open
    found = [f for f in judge(Erection(), whole, (one,), (), ()) if "planted stay" in f.says]
    assert [f.level for f in found] == ["check"]


def test_a_plate_closed_under_the_axle_is_a_stop() -> None:
    whole = engine()
    closed = part("frame plates", "frames", block(-200, 200, -24, 40, 35, 37), paired=True)
    lower = part("driving axleboxes", "frames", block(-12, 12, 41, 60, 34, 38), paired=True,
                 ride="axle", axle=1)  # fmt: skip
    kept = [one for one in whole.parts if one.name not in ("frame plates", "driving axleboxes")]
    trapped = replace(whole, parts=(*kept, closed, lower))
    one = removed(trapped, "driving wheelset")
    found = judge(Erection(), trapped, (one,), (), ())
    assert found[0].level == "stop"
    assert "frame plates" in found[0].says


def test_a_piston_needs_its_rod_s_length_ahead() -> None:
    one = removed(engine(*cylinder()), "piston and rods")
    # the rod begins at 110 and the barrel ends at 190
    assert one.way.needed == pytest.approx(80)
    assert one.way.open


@pytest.mark.parametrize(("bolted", "level"), [(True, "fine"), (False, "check")])
def test_a_beam_ahead_of_the_piston_is_told(bolted: bool, level: str) -> None:
    whole = engine(*cylinder(), beam(200))
    one = removed(whole, "piston and rods")
    assert one.way.blocked == ("front buffer beam",)
    assert one.way.free == pytest.approx(200 - 184)
    (found, *_) = judge(Erection(beam_bolted=bolted), whole, (one,), (), ())
    assert found.level == level
    assert "16.0 mm are free of the 80.0 mm" in found.says


def test_a_truck_wheel_ahead_of_the_cylinder_is_named() -> None:
    wheel = part("leading truck wheels", "wheels", disc((230, 0), 18, 65, 77), paired=True)
    one = removed(engine(*cylinder(), wheel), "piston and rods")
    assert one.way.blocked == ("leading truck wheels",)
    assert one.way.free == pytest.approx(230 - 18 - 184, abs=0.2)


def test_the_gland_comes_back_at_back_dead_centre_only_if_the_crosshead_is_away() -> None:
    assert removed(engine(*cylinder()), "piston-rod gland").way.open
    block_near = part("planted bracket", "frames", block(110, 114, -20, 20, 65, 85), paired=True)
    one = removed(engine(*cylinder(), block_near), "piston-rod gland")
    assert one.way.blocked == ("planted bracket",)
    assert one.way.free == pytest.approx(4)


def test_coupling_rods_come_out_when_what_is_over_them_is_off() -> None:
    rods = part("coupling rods", "rods", block(-120, 120, -4, 4, 52, 55), paired=True,
                ride="coupling")  # fmt: skip
    one = removed(engine(*cylinder(), rods), "coupling rods")
    assert "connecting rods" in one.first
    assert one.way.toward == "out"


def test_the_boiler_is_lifted_and_a_cab_roof_comes_off_first() -> None:
    whole = engine()
    one = removed(whole, "boiler")
    assert one.way.open
    assert one.way.toward == "up"
    # the ashpan's foot at 5 passes the driving axle's top on its way, and stays between plates
    assert one.way.needed > 0
    roof = part("cab roof", "platework", block(-200, -100, 180, 182, -60, 60))
    again = removed(engine(roof), "boiler")
    assert again.first == ("cab roof",)
    assert again.way.open


def test_a_stay_over_the_firebox_holds_the_boiler_down() -> None:
    bridge = part("planted bridge", "frames", block(-60, -50, 140, 145, -45, 45))
    one = removed(engine(bridge), "boiler")
    assert one.way.blocked == ("planted bridge",)
    assert one.way.free == pytest.approx(5.0)


def test_what_lies_in_one_another_is_not_told_again() -> None:
    pin = part("pin", "fittings", block(-5, 5, -5, 5, -5, 5))
    going = (square(0, 0, 4),)
    assert way_out(going, shapes_of(pin, engine()), "down", 50).open


SCREWS = Screws(8, 38.0, 5.5, 11.0, 8.0, 7.9, 5.5)


def test_screws_beside_one_another_leave_a_chord_for_the_spanner() -> None:
    told = rooms(engine(*cylinder()), Erection(), SCREWS)
    first = told[0]
    assert first.room == pytest.approx(2 * 19 * math.sin(math.pi / 8))
    assert first.needed == pytest.approx(5.5 * 2 / math.sqrt(3) + 0.6)
    assert first.fits
    many = rooms(engine(*cylinder()), Erection(), replace(SCREWS, number=24))[0]
    assert not many.fits


def test_an_open_ended_spanner_does_not_turn_between_close_bars() -> None:
    def gland(spanner: str) -> bool:
        told = rooms(engine(*cylinder()), Erection(gland_spanner=spanner), SCREWS)
        return next(one for one in told if one.what == "piston-rod gland").fits

    # the bars stand 16 mm apart
    assert gland("pin spanner")
    assert not gland("open-ended spanner")


def test_screws_against_the_frame_plate() -> None:
    told = rooms(engine(*cylinder()), Erection(), SCREWS)
    beside = next(one for one in told if one.against == "frame plate")
    assert beside.room == pytest.approx(75 - 19 - 37)


def test_an_eccentric_shut_in_all_round_is_told() -> None:
    sheave = part("eccentric", "motion", disc((0, 0), 15, 5, 10), paired=True)
    free = reaches(engine(sheave), Erection())
    assert free[0].by == "a hand"
    assert free[0].below == CLEAR
    pan = part("tray", "fittings", block(-40, 40, -22, -20, -34, 34))
    over = part("lid", "fittings", block(-40, 40, 18, 20, -34, 34))
    shut = reaches(engine(sheave, pan, over), Erection())
    assert shut[0].by == "nothing"
    assert shut[0].over == "lid"
    assert shut[0].under == "tray"
    found = judge(Erection(), engine(), (), (), shut)
    assert any(one.level == "check" and "cannot be reached" in one.says for one in found)


def test_a_lift_that_is_too_low_is_told_and_mended() -> None:
    whole = engine()
    ways = removals(whole, Any, 0.0)  # type: ignore[arg-type]
    found = [f for f in judge(Erection(lift=20), whole, ways, (), ()) if "20.0 mm" in f.says]
    assert found[0].change is not None
    assert found[0].change[0] == "erection.lift"
    enough = Erection(lift=float(found[0].change[1]))
    assert not [f for f in judge(enough, whole, ways, (), ()) if "can be had" in f.says]


def keyed(whole: Whole, inside: bool = True) -> dict[str, int]:
    listed = tasks(whole, inside)
    steps = ordered(listed)
    by_words = {step.does: step.number for step in steps}
    return {task.key: by_words[task.does] for task in listed}


@pytest.mark.parametrize("inside", [True, False])
def test_every_step_comes_after_what_it_needs(inside: bool) -> None:
    whole = engine(*cylinder(), part("eccentric", "motion", disc((0, 0), 15, 5, 10)))
    for step in ordered(tasks(whole, inside)):
        assert all(before < step.number for before in step.after)
    at = keyed(whole, inside)
    assert at["sheaves"] < at["first_wheel"] < at["second_wheel"] < at["wheelsets"]
    assert at["wheelsets"] < at["horn_stays"]
    assert at["air"] < at["boiler"] < at["pan"]
    boxes = at["on_axle"] if inside else at["outside_boxes"]
    assert (boxes < at["second_wheel"]) == inside


@given(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), max_size=25))
def test_any_wants_without_a_ring_are_ordered(pairs: list[tuple[int, int]]) -> None:
    wants = {(a, b) for a, b in pairs if a < b}
    listed = tuple(
        Task(str(n), str(n), "", tuple(str(a) for a, b in wants if b == n)) for n in range(10)
    )
    at = {step.does: step.number for step in ordered(listed[::-1])}
    assert all(at[str(a)] < at[str(b)] for a, b in wants)


def test_a_ring_of_wants_is_refused() -> None:
    with pytest.raises(ValueError, match="a, b"):
        ordered((Task("a", "a", "", ("b",)), Task("b", "b", "", ("a",))))


def test_the_job_works_the_chapter_and_says_what_the_parts_meet(design: Design) -> None:
    done = job.work(design).erection
    assert done is not None
    kinds = {one.kind for one in done.removals}
    assert {"wheelset", "piston", "gland", "crosshead", "rod", "cylinders", "boiler"} <= kinds
    assert done.steps == len(done.order) > 15
    assert done.wheelset_drop > 0
    assert done.blocked == sum(not one.way.open for one in done.removals)
    assert not [one for one in done.findings if one.level == "stop"]


def test_oscillating_cylinders_have_no_crosshead_to_draw() -> None:
    whole = engine(part("cylinders", "cylinders", Round((60, 0, 60), 40, 12, 0, 20), paired=True))
    swinging = replace(whole, drive=replace(whole.drive, trunnion=(80.0, 0.0)))
    kinds = {one.kind for one in removals(swinging, Any, 0.0)}  # type: ignore[arg-type]
    assert not {"piston", "crosshead", "gland"} & kinds
    assert "cylinders" in kinds
