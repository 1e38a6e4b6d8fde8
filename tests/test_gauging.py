"""The whole engine with everything at its worst: gaps right, fouls found, named and mended."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.ops import nearest_points

from tests.gauging_for_tests import SCALE, axle, engine, gap_of, part, sample, stops, worked
from weighshaft.frames import Bar, Plate, Round, block, disc
from weighshaft.gauging import Corner, Gauging, Lineside, Prototype
from weighshaft.gauging.bodies import shape_of
from weighshaft.gauging.decisions import OWN
from weighshaft.gauging.distance import Shape, gap
from weighshaft.gauging.line import allowed, margins, outline_of, shift_of
from weighshaft.gauging.sections import row_at
from weighshaft.sizes import SizeError
from weighshaft.trade.gauges import Outline

CLEAN = ("tansy", "merrow", "alder", "whinchat", "rowan", "hartfell", "fieldfare")

# --- distances --------------------------------------------------------------------------


def between(a: Shape, b: Shape, play: float = 0.0) -> float:
    return float(gap(a, a.points[None], b, b.points[None], play, True)[0])


def a_shape(random: np.random.Generator, form: str) -> tuple[Shape, Any]:
    """Return a body and its side view as a geometry library has it; a round has none."""
    centre, z, half = random.uniform(-12, 12, 2), random.uniform(-5, 5), random.uniform(0.3, 3)
    if form == "outline":
        turn = np.sort(random.uniform(0, 2 * np.pi, 7))
        far = random.uniform(0.4, 1, 7) * random.uniform(2, 8)
        points = centre + np.stack([far * np.cos(turn), far * np.sin(turn)], axis=1)
        shape = Shape("outline", points, z - half, z + half, 0.0, ((0, 7),))
        return shape, shapely.Polygon(points)
    ends = np.stack([centre, centre + random.uniform(-6, 6, 2)])
    if form == "round":
        radius = random.uniform(0.3, 4)
        return Shape("round", ends, z - radius, z + radius, radius), None
    if random.random() < 0.3:
        ends[1] = ends[0]
    radius = random.uniform(0.3, 2)
    line = shapely.Point(ends[0]) if (ends[0] == ends[1]).all() else shapely.LineString(ends)
    return Shape("bar", ends, z - half, z + half, radius), line.buffer(radius, quad_segs=200)


def test_distances_of_bars_and_outlines_agree_with_a_geometry_library() -> None:
    random, fouls = np.random.default_rng(1), 0
    for _ in range(800):
        forms = random.choice(["bar", "outline"], 2)
        (a, seen_a), (b, seen_b) = (a_shape(random, form) for form in forms)
        side, across = seen_a.distance(seen_b), max(a.low - b.high, b.low - a.high)
        ours = between(a, b)
        if side > 1e-3:
            # the library's round ends are chords, 4e-5 of the radius short
            assert ours == pytest.approx(math.hypot(side, max(across, 0.0)), abs=2e-4)
        elif across > 0:
            assert ours == pytest.approx(across, abs=1e-9)
        else:
            fouls += 1
            assert ours < 1e-3
    assert fouls > 30


def onto_round(shape: Shape, at: np.ndarray) -> np.ndarray:
    """Return the point of a round body nearest to another point, (3,)."""
    start, end = shape.points
    unit = (end - start) / np.hypot(*(end - start))
    along = float(np.clip((at[:2] - start) @ unit, 0, np.hypot(*(end - start))))
    v, w = float((at[:2] - start) @ [-unit[1], unit[0]]), float(at[2] - shape.middle)
    far = math.hypot(v, w)
    v, w = (one * min(1.0, shape.radius / far) if far else one for one in (v, w))
    return np.array([*(start + along * unit + v * np.array([-unit[1], unit[0]])), shape.middle + w])


def onto_flat(shape: Shape, seen: Any, at: np.ndarray) -> np.ndarray:
    place = shapely.Point(at[:2])
    near = place if seen.contains(place) else nearest_points(seen, place)[0]
    return np.array([near.x, near.y, np.clip(at[2], shape.low, shape.high)])


@pytest.mark.parametrize("other", ["bar", "round"])
def test_distances_of_round_bodies_agree_with_projecting_to_and_fro(other: str) -> None:
    # between convex bodies the nearest point of one to the nearest of the other closes in on
    # their distance: W. Cheney and A. Goldstein, Proc. Amer. Math. Soc. 10 (1959), from memory
    random = np.random.default_rng(3)
    for _ in range(40):
        (a, _), (b, seen) = a_shape(random, "round"), a_shape(random, other)
        at = np.zeros(3)
        for _ in range(2000):
            here = onto_round(a, at)
            there = onto_round(b, here) if other == "round" else onto_flat(b, seen, here)
            if np.abs(there - at).max() < 1e-10:
                break
            at = there
        far = float(np.linalg.norm(here - there))
        ours = between(a, b)
        if far > 1e-3:
            assert ours == pytest.approx(far, abs=2e-3)
        else:
            assert ours < 2e-2


@settings(max_examples=30, deadline=None)
@given(
    st.floats(-20, 20), st.floats(-20, 20), st.floats(0.5, 8), st.floats(0.0, 3.0),
    st.floats(-8, 8),
)  # fmt: skip
def test_a_block_beside_a_lying_round_is_judged_in_cross_section(
    x: float, y: float, radius: float, play: float, z: float
) -> None:
    lying = shape_of(Round((-5.0, 0.0, 0.0), 10.0, radius))
    brick = shape_of(block(x - 1, x + 1, y - 2, y + 2, z - 1, z + 1))
    along = max(abs(x) - 6, 0.0)
    up, out = max(abs(y) - 2, 0.0), max(abs(z) - 1 - play, 0.0)
    far = math.hypot(along, max(math.hypot(up, out) - radius, 0.0))
    ours = between(lying, brick, play)
    assert ours == pytest.approx(far, abs=1e-2) if far > 0.02 else ours < 0.03


def test_parts_that_overlap_are_negative_by_the_lesser_overlap() -> None:
    a = shape_of(block(0, 10, 0, 10, 0, 4))
    assert between(a, shape_of(block(9.5, 20, 0, 10, 1, 9))) == pytest.approx(-0.5)
    assert between(a, shape_of(block(5, 20, 2, 8, 3.2, 9))) == pytest.approx(-0.8)
    assert between(a, shape_of(disc((11.0, 5.0), 3.0, 0.0, 4.0))) == pytest.approx(-2.0)
    hole = Plate(((0, 0), (10, 0), (10, 10), (0, 10)), 0, 4, (((2, 2), (8, 2), (8, 8), (2, 8)),))
    assert between(shape_of(hole), shape_of(disc((5.0, 5.0), 2.0, -9, 9))) == pytest.approx(1.0)


def test_a_dome_on_a_boiler_and_a_buffer_before_it_are_judged_in_their_plane() -> None:
    boiler = shape_of(Round((0.0, 0.0, 0.0), 50.0, 10.0))
    assert between(boiler, shape_of(Round((20.0, 13.0, 0.0), 8.0, 4.0, 90.0))) == pytest.approx(3)
    assert between(boiler, shape_of(Round((57.0, -4.0, 0.0), 8.0, 4.0, 90.0))) == pytest.approx(3)
    assert between(boiler, shape_of(Round((20.0, 9.0, 0.0), 8.0, 4.0, 90.0))) == pytest.approx(-1)
    assert between(boiler, shape_of(Round((53.0, 0.0, 0.0), 8.0, 4.0, 180.0))) < 0


# --- the sweep --------------------------------------------------------------------------


def pin(**more: Any) -> Any:
    solid = disc((10.0, 0.0), 2.0, 30.0, 36.0)
    return part("pins", solid, kind="rods", ride="wheel", axle=0, paired=True, **more)


def test_a_pin_is_found_nearest_where_it_passes() -> None:
    # it goes round at 10 mm with a radius of 2 mm, so that 45 degrees up it reaches 12 mm out
    corner = 13.0 / math.sqrt(2)
    step = part("step", block(corner, 30, corner, 30, 30, 36), paired=True)
    result = worked(engine([pin(), step]))
    near = result.near[0]
    assert near.gap == pytest.approx(1.0, abs=1e-3)
    # running forward turns clockwise: up and ahead comes after three quarters and an eighth
    assert near.crank_angle == pytest.approx(315.0, abs=0.2)
    assert near.rises == ()
    assert near.place == pytest.approx((12.5 / math.sqrt(2), 12.5 / math.sqrt(2), 33.0), abs=0.05)


def test_the_left_crank_is_looked_at_at_its_own_angle() -> None:
    bar = part("bar", block(-40, 40, 12.5, 14, -36, -30))
    near = worked(engine([pin(), bar])).near[0]
    assert near.gap == pytest.approx(0.5, abs=1e-3)
    assert set(near.sides) == {"left", ""}


def test_an_axle_goes_up_and_its_neighbour_down() -> None:
    axles = (axle("leading coupled", 41.0), axle())
    wheels = [
        part(f"{one.name} wheels", disc((one.ahead, 0.0), 20.0, 41.0, 50.0), kind="wheels",
             ride="wheel", axle=n, paired=True)
        for n, one in enumerate(axles)
    ]  # fmt: skip
    near = worked(engine(wheels, axles)).near[0]
    assert near.gap == pytest.approx(1.0)
    lifted = worked(engine(wheels, axles, rise=2.0)).near[0]
    assert lifted.gap == pytest.approx(1.0)  # level wheels are nearer than one up, one down
    stay = part("stay", block(5, 7, 23.0, 25, 41, 50))
    every = worked(engine([*wheels, stay], axles, rise=2.0)).near
    near = next(one for one in every if {one.first, one.second} == {"stay", "driving wheels"})
    assert near.gap == pytest.approx(math.hypot(5.0, 21.0) - 20.0, abs=1e-6)
    assert near.rises == (("driving", 1),)


def test_side_play_is_taken_up() -> None:
    wheels = part("driving wheels", disc((0, 0), 20.0, 41.0, 50.0), kind="wheels", ride="wheel",
                  axle=0, paired=True)  # fmt: skip
    plates = part("plates", block(-50, 50, -10, 10, 36.0, 40.0), paired=True)
    result = worked(engine([wheels, plates], [axle(play=0.7)]))
    assert gap_of(result, "plates", "driving wheels") == pytest.approx(0.3)
    # side by side less is wanted than where parts pass
    assert result.near[0].wanted == 0.2
    assert not [f for f in result.findings if f.level != "fine"]
    foul = worked(engine([wheels, plates], [axle(play=1.5)]))
    assert foul.near[0].gap == pytest.approx(-0.5)
    assert len(stops(foul)) == 1


def test_what_belongs_together_is_not_looked_at() -> None:
    a, b = block(0, 10, 0, 10, 0, 4), block(5, 15, 0, 10, 0, 4)
    assert worked(engine([part("a", a), part("b", b)])).near
    assert not worked(engine([part("a", a, joined=("b",)), part("b", b)])).near
    assert not worked(engine([part("a", a), part("b", b, joined=("a",))])).near
    assert not worked(engine([part("a", a), part("b", b, kind="water")])).near
    riding: dict[str, Any] = {"ride": "wheel", "axle": 0, "kind": "wheels"}
    assert not worked(engine([part("a", a, **riding), part("b", b, **riding)])).near
    # parts that stand still may touch
    touching = [part("a", a), part("b", block(10, 20, 0, 10, 0, 4))]
    assert not worked(engine(touching)).near


def test_the_ten_least_are_told_and_all_that_are_short() -> None:
    brick = [
        part(f"brick {n}", block(-30, 30, 12.1 + 0.02 * n, 13 + 0.02 * n, 30, 36), paired=True)
        for n in range(14)
    ]
    near = worked(engine([pin(), *brick])).near
    named = [one for one in near if "pins" in (one.first, one.second)]
    assert len(named) == 14
    assert [one.gap for one in near] == sorted(one.gap for one in near)
    loose = worked(engine([pin(), *brick]), wanted=0.0).near
    assert sum(one.gap > 0 for one in loose) <= 10


# --- fouls planted in samples -----------------------------------------------------------


@pytest.mark.parametrize("name", CLEAN)
def test_nothing_stops_a_clean_engine(name: str) -> None:
    result = sample(name)
    assert stops(result) == []
    assert len(result.near) >= 10
    assert all(one.gap > 0 for one in result.near if not {"reach rod", "reversing arm"}
               & {one.first, one.second})  # fmt: skip


@pytest.mark.parametrize(
    ("name", "change", "parts"),
    [
        ("tansy", ("frames.platework.board_height", 24.0), ("running boards", "connecting rods")),
        ("alder", ("frames.platework.tank_width", 27.0), ("side tanks", "wheels")),
        ("fieldfare", ("boiler.firebox.bottom", 3.0), ("firebox", "trailing coupled axle")),
    ],
)
def test_a_planted_foul_is_found_named_and_mended(
    name: str, change: tuple[str, float], parts: tuple[str, str]
) -> None:
    result = sample(name, change)
    found = [
        one for one in result.findings if one.level == "stop" and all(p in one.says for p in parts)
    ]
    assert found, stops(result)
    assert change[0] in found[0].fields
    assert found[0].change is not None
    path, value = found[0].change
    mended = sample(name, change, (path, value))
    pair = next(
        {one.first, one.second} for one in result.near
        if one.gap < 0 and all(p in f"{one.first} {one.second}" for p in parts)
    )  # fmt: skip
    first, second = pair
    after = gap_of(mended, first, second)
    assert after is None or after >= 0


def test_a_truck_set_too_near_is_found() -> None:
    result = sample("fieldfare", ("wheels.leading_truck", 100.0))
    said = " ".join(stops(result))
    assert "leading truck wheels" in said
    assert any("leading_truck" in (one.change or ("",))[0] for one in result.findings)


# --- stations and the line --------------------------------------------------------------


def test_a_row_runs_from_the_centre_line_outwards() -> None:
    row = row_at(sample("whinchat").whole, 0.0)
    names = [one.part for one in row]
    assert [one.inner for one in row] == sorted(one.inner for one in row)
    assert names.index("frame plates") < names.index("driving wheels")
    assert names.index("driving wheels") < names.index("coupling rods")
    wheels = next(one for one in row if one.part == "driving wheels")
    whole = sample("whinchat").whole
    assert wheels.outer >= whole.back_to_back / 2 + whole.tyre_width - 1e-9
    assert wheels.play == next(one.play for one in whole.axles if one.name == "driving")


def test_an_outline_allows_the_narrower_at_a_step() -> None:
    steps = Outline("own", "vehicle", ((0, 40), (10, 40), (10, 60), (100, 60), (120, 30)))
    assert allowed(steps, 5) == 40
    assert allowed(steps, 10) == 40
    assert allowed(steps, 10.001) == 60
    assert allowed(steps, 110) == pytest.approx(45)


def test_margins_are_those_of_plain_bodies() -> None:
    box_ = part("box", block(-10, 10, 0, 30, -45, 45))
    boiler = part("boiler", Round((-10.0, 60.0, 0.0), 20.0, 40.0))
    whole = engine([box_, boiler], [axle(play=0.4)])
    gauge = Outline("own", "vehicle", ((0, 50), (85, 50), (125, 10)))
    by_name = {one.part: one for one in margins(whole, gauge, 0.0)}
    assert by_name["box"].beside == pytest.approx(5.0)
    # a round under a slope of 45 degrees, by its distance from that line across the slope
    slope = (50 + 85 - (60 + 20)) - 40 * math.sqrt(2)
    assert by_name["boiler"].beside == pytest.approx(slope, abs=0.1)
    assert by_name["boiler"].above == pytest.approx(5.0)
    structure = Outline("own", "structure", gauge.corners)
    aside = shift_of(whole)
    assert aside == pytest.approx(0.5 + 0.4)  # half the flange play and the side play
    moved = {one.part: one for one in margins(whole, structure, aside)}
    assert moved["box"].beside == pytest.approx(5.0 - aside)


def test_the_line_is_judged() -> None:
    whole = engine([part("box", block(-10, 10, 0, 30, -45, 45))])
    narrow = Gauging(line=Lineside(outline=OWN), corners=(Corner(height=100, half_width=44),))
    result = worked(whole, narrow)
    assert result.inside_gauge == pytest.approx(-1.0)
    assert "1.00 mm outside the loading gauge" in stops(result)[0]
    edge = Gauging(line=Lineside(platform=OWN, platform_height=25.0, platform_edge=45.0))
    result = worked(whole, edge)
    assert result.platform_gap == pytest.approx(-0.5)
    assert "platform" in stops(result)[0]
    assert result.rail_gap == pytest.approx(20.0)
    unknown = worked(whole, Gauging(line=Lineside(outline="NEM 102")))
    assert unknown.gauge is None
    assert any("no figures for this gauge" in one.says for one in unknown.findings)


def test_without_a_prototype_nothing_is_held_against_a_gauge() -> None:
    none = Prototype(16.0, 89.0, 1435.0, None, None, "scale.prototype.width")
    result = worked(engine([part("box", block(-10, 10, 0, 30, -45, 45))]), prototype=none)
    assert result.gauge is None
    assert result.inside_gauge is None
    assert outline_of(Gauging(), SCALE) is not None


def test_buffers_are_held_against_the_standard() -> None:
    buffers = part("front buffers", Round((100.0, 44.0, 50.0), 10.0, 4.0), paired=True)
    hook = part("front coupling", block(100, 108, 36, 40, -1, 1))
    after = Gauging(line=Lineside(couplings="NEM 303"))
    result = worked(engine([buffers, hook]), after)
    high, apart = result.compared
    assert (high.has, apart.has) == pytest.approx((64.0, 100.0))
    assert high.off == 0.0  # 66.3 mm, 5 mm lower allowed
    assert apart.off == pytest.approx(100.0 - 108.8)
    change = next(one.change for one in result.findings if one.change)
    assert change == ("frames.beams.buffers_apart", 108.8)


def test_an_outline_needs_corners_from_the_rail_upwards() -> None:
    with pytest.raises(SizeError, match="needs its corners"):
        Gauging(line=Lineside(outline=OWN))
    with pytest.raises(SizeError, match="from the rail upwards"):
        Gauging(corners=(Corner(height=9), Corner(height=5)))


def test_bars_are_drawn_as_they_are_measured() -> None:
    bar = shape_of(Bar((0.0, 0.0), (10.0, 0.0), 2.0, 0.0, 1.0))
    assert bar.form == "bar"
    assert between(bar, shape_of(block(-5, 15, 2.5, 4, 0, 1))) == pytest.approx(0.5)
