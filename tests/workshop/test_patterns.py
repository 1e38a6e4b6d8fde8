"""Holes, ports, passages and tapers, each against another construction."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, box
from shapely.ops import unary_union

from weighshaft.sizes import SizeError
from weighshaft.workshop.dials import Dial, Reading
from weighshaft.workshop.machines import Machines
from weighshaft.workshop.patterns import (
    Ball,
    Chest,
    Circle,
    Engine,
    Face,
    Patterns,
    PatternsResult,
    Ports,
    Row,
    Slant,
    Taper,
    work,
)

MACHINES = Machines()
DIAL = Dial(MACHINES.mill.table, MACHINES.mill.divisions)


def made(engine: Engine | None = None, **groups: object) -> PatternsResult:
    decided = Patterns(**groups)  # type: ignore[arg-type]
    return work(decided, machines=MACHINES, **({"engine": engine} if engine else {}))


def told(text: str) -> float:
    turns, division = text.split(" t ")
    return DIAL.moved(Reading(int(turns), float(division)))


@given(st.integers(2, 24), st.floats(5, 200), st.floats(-360, 360))
def test_holes_stand_evenly_on_their_circle(number: int, diameter: float, start: float) -> None:
    result = made(circle=Circle(holes=number, diameter=diameter, start=start, hole=0.3))
    first = result.spots[0]
    angle = math.degrees(math.atan2(first.y, first.x))
    assert math.cos(math.radians(angle - start)) == pytest.approx(1.0, abs=1e-12)
    for here, there in zip(result.spots, (*result.spots[1:], result.spots[0]), strict=True):
        assert math.hypot(here.x, here.y) == pytest.approx(diameter / 2)
        apart = math.hypot(there.x - here.x, there.y - here.y)
        assert apart == pytest.approx(result.hole_chord, abs=1e-9)
        assert told(here.dial[0]) == pytest.approx(here.x, abs=DIAL.finest + 1e-9)
        assert told(here.dial[1]) == pytest.approx(here.y, abs=DIAL.finest + 1e-9)


ENGINE = Engine(hole=2.0, holes=3, screw=2.0, screw_circle=36.0)


def beside(result: PatternsResult, engine: Engine) -> float:
    """Least metal between holes and passages: beside the holes by shapely, below them by steps."""
    assert engine.ports is not None
    run = engine.barrel / 2 - engine.ports.middle
    least = math.inf
    for one in result.passages:
        rise = math.tan(math.radians(one.tilt))
        assert result.passage_begins is not None
        assert result.port_floor is not None
        low = one.begins - rise * result.passage_begins
        high = min(low + rise * result.hole_depth, result.port_floor)
        way = LineString([(one.across, low), (one.across, high)])
        for spot in result.spots:
            gap = Point(spot.x, spot.y).distance(way) - (result.hole + engine.hole) / 2
            least = min(least, gap)
            deep = np.linspace(result.hole_depth, max(run, result.hole_depth), 4001)
            off = np.hypot(spot.x - one.across, spot.y - low - rise * deep) - result.hole / 2
            below = np.hypot(np.maximum(off, 0.0), deep - result.hole_depth)
            least = min(least, float(below.min()) - engine.hole / 2)
    return least


@settings(max_examples=40, deadline=None)
@given(st.integers(3, 12), st.floats(0, 360))
def test_no_other_start_keeps_more_metal(number: int, start: float) -> None:
    best = made(ENGINE, circle=Circle(holes=number))
    other = made(ENGINE, circle=Circle(holes=number, start=start))
    assert best.metal is not None
    assert other.metal is not None
    assert best.metal == pytest.approx(beside(best, ENGINE), abs=1e-4)
    assert other.metal == pytest.approx(beside(other, ENGINE), abs=1e-4)
    # the best is looked for in steps of a twentieth of a degree
    step = math.radians(0.05) * 18.0
    assert other.metal <= best.metal + step
    assert best.metal_worst is not None
    assert other.metal >= best.metal_worst - step


def test_holes_too_near_would_clear_at_the_depth_that_is_told() -> None:
    tight = Engine(hole=3.0, holes=4, screw=2.8, screw_circle=33.0)
    result = made(tight)
    assert result.short
    assert result.short_depth is not None
    again = made(tight, circle=Circle(start=result.start, depth=result.short_depth))
    assert again.metal == pytest.approx(1.4, abs=1e-6)
    assert any(one.level == "check" and "hole" in one.mend for one in result.findings)


def test_passages_run_from_the_bores_edge_to_the_ports_floor() -> None:
    result = made()
    engine = Engine()
    assert engine.ports is not None
    assert result.port_floor is not None
    for one in result.passages:
        tilt = math.radians(one.tilt)
        begin = np.array([engine.barrel / 2 - engine.spigot, one.begins])
        end = begin + one.length * np.array([-math.cos(tilt), math.sin(tilt)])
        assert end == pytest.approx([engine.ports.middle, result.port_floor])
        assert math.hypot(one.begins, one.across) == pytest.approx(engine.bore / 2)
        roll = math.radians(one.roll)
        assert engine.bore / 2 * math.sin(roll) == pytest.approx(one.across)
    middle = result.passages[1]
    assert middle.length == pytest.approx(engine.passage)
    assert middle.depth - middle.length == pytest.approx(
        engine.hole / 2 / math.tan(math.radians(59))
    )
    ends = [one.across for one in result.passages]
    assert max(ends) + engine.hole / 2 == pytest.approx(engine.ports.length / 2)


@pytest.mark.parametrize("cutter", [1.0, 2.0, 3.0])
def test_the_cutters_clear_just_the_ports(cutter: float) -> None:
    result = made(face=Face(cutter=cutter, exhaust_cutter=2.5))
    engine = Engine()
    assert engine.ports is not None
    for port, middle, width, r in (
        ("back steam port", -7.5, 3.0, cutter / 2), ("exhaust port", 0.0, 6.0, 1.25),
        ("front steam port", 7.5, 3.0, cutter / 2),
    ):  # fmt: skip
        cleared = unary_union(
            [
                LineString([(c.x, -c.reach), (c.x, c.reach)]).buffer(c.cutter / 2, quad_segs=400)
                for c in result.cuts if c.port == port
            ]
        )  # fmt: skip
        whole = box(middle - width / 2, -8.0, middle + width / 2, 8.0)
        assert whole.buffer(1e-9).contains(cleared)
        left = whole.difference(cleared)
        # nothing of the middle is left, only fillets and scallops at both ends
        assert left.intersection(box(-20, -8 + r, 20, 8 - r)).area < 1e-6
        if port != "exhaust port" and cutter == 3.0:
            assert result.port_area == pytest.approx(cleared.area, rel=1e-4)


def test_dials_of_the_ports_count_from_the_edge() -> None:
    result = made(face=Face(edge=25.0))
    for cut in result.cuts:
        assert told(cut.dial[0]) == pytest.approx(25.0 + cut.x, abs=1.1e-3)
        assert told(cut.dial[2]) == pytest.approx(cut.reach, abs=1.1e-3)


def test_studs_stand_round_the_chest_and_share_their_corners() -> None:
    result = made(chest=Chest(length=40.0, width=24.0, wall=6.0, stud=3.0, along=4, across=3))
    places = {(round(one.x, 6), round(one.y, 6)) for one in result.studs}
    assert len(places) == len(result.studs) == 2 * 4 + 2 * 1
    assert {abs(x) for x, _ in places} == {23.0, round(23.0 / 3, 6)}
    assert result.chest_along == pytest.approx(46.0 / 3)
    assert result.chest_across == pytest.approx(15.0)
    assert result.chest_wall_metal == 1.5


def test_a_piston_valve_has_no_face_to_mill_but_holes_and_tapers_all_the_same() -> None:
    result = made(Engine(ports=None))
    assert (result.port_cutter, result.passage_tilt, result.metal) == (None, None, None)
    assert result.cuts == result.passages == result.studs == ()
    assert result.spots
    assert result.stations


def test_a_line_of_holes_on_a_slope() -> None:
    result = made(row=Row(holes=4, length=30.0, first=5.0, slope=30.0))
    assert result.line_pitch == 10.0
    last = result.line[-1]
    assert (last.x, last.y) == pytest.approx((35 * math.cos(math.pi / 6), 17.5))


@given(st.floats(1, 50), st.floats(0, 0.98), st.floats(2, 200), st.floats(10, 500))
def test_a_set_over_tailstock_turns_the_taper_that_was_asked(
    large: float, part: float, length: float, between: float
) -> None:
    result = made(taper=Taper(large=large, small=part * large, length=length, between=between))
    # the near side of the work, turned by the angle that the set-over gives, lies along the bed
    turned = math.asin(result.set_over / between)
    assert math.tan(turned) == pytest.approx((large - part * large) / 2 / length)
    assert result.set_over <= result.set_over_usual + 1e-12


@settings(max_examples=40, deadline=None)
@given(st.floats(1, 30), st.floats(0, 0.9), st.floats(0.02, 0.3))
def test_places_of_a_ball_lie_on_it(radius: float, part: float, step: float) -> None:
    result = made(ball=Ball(radius=radius, stem=part * 2 * radius, step=step * radius))
    assert result.stations[0].x == 0.0
    for one in result.stations:
        assert math.hypot(one.z - radius, one.x) == pytest.approx(radius, abs=1e-6)
    last = result.stations[-1]
    if part > 0.01:
        assert last.x == pytest.approx(part * radius, abs=1e-6)
    # the steps, as they are left, stand outside the ball and no further than is told
    for one, two in zip(result.stations, result.stations[1:], strict=False):
        most = max(one.x, two.x)
        for z in (one.z, two.z):
            out = math.hypot(z - radius, most) - radius
            assert -1e-6 <= out <= result.ball_ridge + 1e-9


def test_a_standard_that_cones_its_treads_is_followed() -> None:
    assert made(Engine(coning=3.0)).coning == 3.0
    assert made(Engine(coning=3.0), taper=Taper(coning=2.0)).coning == 2.0
    plain = made(Engine(coning=None, tread=10.0))
    assert plain.tread_fall == pytest.approx(2 * 10 / 20, abs=1e-4)


@pytest.mark.parametrize(
    ("groups", "field"),
    [
        ({"slant": Slant(begins=20.0)}, "slant.begins"),
        ({"slant": Slant(face_height=15.0)}, "slant.face_height"),
        ({"slant": Slant(spread=15.0)}, "slant.spread"),
        ({"face": Face(cutter=4.0)}, "face.cutter"),
        ({"face": Face(exhaust_cutter=7.0)}, "face.exhaust_cutter"),
        ({"chest": Chest(length=10.0)}, "chest.length"),
        ({"ball": Ball(radius=100.0, step=0.01)}, "ball.step"),
    ],
)
def test_what_cannot_be_set_out_is_refused(groups: dict[str, object], field: str) -> None:
    with pytest.raises(SizeError) as refused:
        made(**groups)  # type: ignore[arg-type]
    assert refused.value.field == field


def test_a_taper_that_grows_and_a_stem_thicker_than_its_ball_are_refused() -> None:
    with pytest.raises(SizeError):
        Taper(large=10.0, small=10.0)
    with pytest.raises(SizeError):
        Ball(radius=5.0, stem=10.0)


def test_holes_that_run_into_one_another_stop() -> None:
    result = made(circle=Circle(holes=24, diameter=20.0, hole=3.0))
    assert any(one.level == "stop" and "apart" in one.says for one in result.findings)


def test_ports_of_an_engine_tell_where_their_middle_is() -> None:
    assert Ports(width=3.0, length=16.0, bridge=3.0, exhaust=6.0).middle == 7.5
