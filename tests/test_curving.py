"""The whole engine on the curve, against constructions that know nothing of ours."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
import shapely
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq, minimize_scalar

from tests.curving_for_tests import engine, worked
from weighshaft.curving import Curving, Truck
from weighshaft.curving import relations as rule
from weighshaft.curving.coupling import coupled_behind
from weighshaft.curving.decisions import Behind, CurvedLine
from weighshaft.curving.standing import Pose, Stand, easiest, loose, settled, smallest, spare
from weighshaft.curving.throws import by_rule, thrown
from weighshaft.curving.trucks import Guided, arm_for, placed, pushed_back, stand_of
from weighshaft.findings import Finding
from weighshaft.sizes import SizeError
from weighshaft.wheels.curve import smallest as smallest_coupled

lengths = st.floats(20.0, 300.0)
radii = st.floats(900.0, 20_000.0)


def on(stands: tuple[Stand, ...], radius: float) -> Pose:
    return settled(stands, radius, sum(one.ahead for one in stands) / len(stands))


def fixed(*xs: float) -> tuple[Stand, ...]:
    """Return axles without any play."""
    return tuple(Stand(f"{x:g}", x, 0.0, 0.0) for x in xs)


def guided(kind: str, xs: tuple[float, ...], arm: float = 0.0, way: int = 1, **more: Any) -> Guided:
    word = "leading" if way > 0 else "trailing"
    return Guided(word, way, Truck(kind=kind, **more), xs, 25.0, arm)


# the engine among its plays


@given(st.tuples(lengths, lengths), st.tuples(*[st.floats(0.2, 3.0)] * 3))
@settings(max_examples=25, deadline=None)
def test_three_axles_stand_at_the_limit_on_the_circle_through_three_points(
    gaps: tuple[float, float], room: tuple[float, float, float]
) -> None:
    xs = (gaps[0], 0.0, -gaps[1])
    stands = tuple(Stand(f"{n}", x, -f, f) for n, (x, f) in enumerate(zip(xs, room, strict=True)))
    points = [
        sympy.Point(sympy.Rational(str(x)), sympy.Rational(str(y)))
        for x, y in zip(xs, (-room[0], room[1], -room[2]), strict=True)
    ]
    circle = sympy.Circle(*points)
    radius, names = smallest(stands)
    centre = float(circle.center.x)
    if not -gaps[1] < centre < gaps[0]:
        return  # the crown lies beyond the axles: more play than a curve can use
    assert radius == pytest.approx(float(circle.radius), rel=1e-4)
    assert names == ("0", "1", "2")


def _independent(stands: tuple[Stand, ...]) -> float:
    """Return the smallest radius with scipy's search over the crown and the radius."""

    def room(radius: float) -> float:
        def closed(crown: float) -> float:
            lows, highs = [], []
            for one in stands:
                inside = radius**2 + one.within - (one.ahead - crown) ** 2
                y = math.sqrt(max(inside, 0.0)) - radius
                askew = math.asin((one.ahead - crown) / radius)
                lost = one.wheel * math.sin(askew) ** 2 / 2 / math.tan(math.radians(one.flange))
                lows.append(y - one.high + lost)
                highs.append(y - one.low - lost)
            return max(lows) - min(highs)

        span = max(one.ahead for one in stands) - min(one.ahead for one in stands)
        return float(
            -minimize_scalar(
                closed, bounds=(-span, span), method="bounded", options={"xatol": 1e-9}
            ).fun
        )

    return float(brentq(room, 400.0, 1e6, rtol=1e-10))


@given(st.lists(st.floats(0.3, 2.0), min_size=5, max_size=5), st.floats(2.0, 12.0))
@settings(max_examples=12, deadline=None)
def test_the_smallest_curve_of_five_axles_with_trucks(room: list[float], swing: float) -> None:
    xs = (160.0, 60.0, 5.0, -55.0, -150.0)
    free = (swing, room[1], room[2], room[3], swing + room[4])
    stands = tuple(
        Stand(f"{x:g}", x, -f, f, wheel=20.0 if 0 < n < 4 else 0.0)
        for n, (x, f) in enumerate(zip(xs, free, strict=True))
    )
    # room is counted from a nanometre, which on easy curves is this much
    assert smallest(stands)[0] == pytest.approx(_independent(stands), rel=3e-6)


def test_the_coupled_wheels_alone_need_what_their_own_chapter_says() -> None:
    xs, plays, rail = (48.0, 0.0, -48.0), (0.4, 0.3, 0.4), 2.0
    by_wheels = smallest_coupled(xs, plays, rail, 21.0, 20.0, 90.0).radius
    stands = tuple(
        Stand(f"{x:g}", x, -p - rail / 2, p + rail / 2, wheel=21.0)
        for x, p in zip(xs, plays, strict=True)
    )
    assert smallest(stands)[0] == pytest.approx(by_wheels, rel=1e-6)


@given(radii, st.floats(0.1, 3.0), st.floats(0.1, 3.0))
@settings(max_examples=25, deadline=None)
def test_turned_end_for_end_the_engine_stands_as_its_mirror(
    radius: float, one: float, other: float
) -> None:
    stands = (Stand("a", 90.0, -one, one), Stand("b", 10.0, -0.5, 0.5), Stand("c", -60, -2, other))
    mirrored = tuple(replace(each, ahead=-each.ahead) for each in stands)
    pose, image = on(stands, radius), on(mirrored, radius)
    assert pose.passes == image.passes
    if easiest(stands, radius)[1] > 0:
        assert image.line == pytest.approx(pose.line, abs=1e-4)
        for each, its in zip(stands, mirrored, strict=True):
            assert spare(each, pose) == pytest.approx(spare(its, image), abs=1e-4)


@given(st.floats(0.1, 10.0))
@settings(max_examples=20, deadline=None)
def test_twice_the_engine_twice_the_curve(scale: float) -> None:
    def of(size: float) -> tuple[Stand, ...]:
        return tuple(
            Stand(n, x * size, -f * size, f * size, wheel=w * size)
            for n, x, f, w in (("a", 90.0, 1.0, 0.0), ("b", 20.0, 0.6, 20.0), ("c", -60, 0.9, 20.0))
        )

    # room is counted from a nanometre whatever the size
    assert smallest(of(scale))[0] == pytest.approx(scale * smallest(of(1.0))[0], rel=2e-5)


def test_without_any_play_three_axles_go_round_nothing() -> None:
    assert math.isinf(smallest(fixed(50.0, 0.0, -40.0))[0])
    assert smallest(fixed(50.0, -40.0))[0] == pytest.approx(45.0)


def test_the_engine_may_be_pushed_about_just_as_far_as_its_plays_go() -> None:
    stands = (Stand("a", 60.0, -1.0, 1.0), Stand("b", -60.0, -1.0, 1.0))
    pose = on(stands, 2000.0)
    crowns, low, high = loose(stands, 2000.0, pose.crown, 500.0)
    for crown, line in ((crowns[0], low[0]), (crowns[-1], high[-1]), (crowns[40], high[40])):
        at = Pose(2000.0, float(crown), float(line), True)
        assert min(spare(one, at) for one in stands) == pytest.approx(0.0, abs=1e-6)
    # slewed as far as it goes one end is at one rail and the other at the other: by chords,
    # 120 mm of wheelbase with 2 mm of difference between its ends
    assert crowns[-1] - crowns[0] == pytest.approx(2 * 2000.0 * 2.0 / 120.0, rel=2e-3)


# trucks


@given(st.floats(15.0, 80.0), st.floats(1.3, 3.0), radii, st.sampled_from([1, -1]))
@settings(max_examples=30, deadline=None)
def test_the_arm_of_the_rule_turns_the_axle_to_the_centre_on_every_curve(
    half: float, times: float, radius: float, way: int
) -> None:
    pose = on(fixed(half, -half), radius)
    reach = times * half
    arm = rule.radial_arm(reach, half)
    truck = guided("pony truck", (way * reach,), arm, way)
    place = placed(truck, pose)
    ((x, y),) = place.axles
    cx, cy = pose.centre
    assert math.hypot(x - cx, y - cy) == pytest.approx(radius, rel=1e-12)
    assert math.hypot(x - truck.pivot, y) == pytest.approx(arm, rel=1e-9)
    # arm square to the radius
    assert (x - truck.pivot) * (x - cx) + y * (y - cy) == pytest.approx(0.0, abs=1e-5 * radius)
    assert place.attack == pytest.approx(0.0, abs=1e-6)
    assert arm_for(pose, truck.middle, way) == pytest.approx(arm, rel=1e-6)


@pytest.mark.parametrize("share", [0.6, 0.9, 1.2])
def test_a_pony_truck_stands_where_two_circles_meet(share: float) -> None:
    pose = on(fixed(50.0, -40.0), 900.0)
    arm = share * arm_for(pose, 120.0, 1)
    truck = guided("pony truck", (120.0,), arm)
    cx, cy = pose.centre
    track = sympy.Circle(sympy.Point(cx, cy), 900.0)
    met = track.intersection(sympy.Circle(sympy.Point(truck.pivot, 0), arm))
    ahead = max(met, key=lambda one: float(one.x))
    place = placed(truck, pose)
    assert place.swing == pytest.approx(float(ahead.y), abs=1e-9)
    assert place.axles[0][0] == pytest.approx(float(ahead.x), abs=1e-9)
    radial = math.atan2(float(ahead.x) - cx, float(ahead.y) - cy)  # of the axle, from square
    arm_turned = math.asin(-float(ahead.y) / arm)
    assert place.attack == pytest.approx(math.degrees(radial - arm_turned), abs=1e-9)


@given(st.floats(20.0, 90.0), st.floats(-8.0, 8.0), radii, st.sampled_from([1, -1]))
@settings(max_examples=30, deadline=None)
def test_a_bogie_stands_with_both_axles_on_the_track(
    base: float, pivot: float, radius: float, way: int
) -> None:
    pose = on(fixed(50.0, -50.0), radius)
    xs = (way * 140.0 + base / 2, way * 140.0 - base / 2)
    truck = guided("bogie", xs, way=way, pivot=pivot, wheelbase=base)
    place = placed(truck, pose)
    (ax, ay), (bx, by) = place.axles
    cx, cy = pose.centre
    for x, y in place.axles:
        assert math.hypot(x - cx, y - cy) == pytest.approx(radius, rel=1e-12)
    assert math.hypot(ax - bx, ay - by) == pytest.approx(base, rel=1e-9)
    along = ((ax - bx) / base, (ay - by) / base)
    at = ((ax + bx) / 2 + pivot * along[0], (ay + by) / 2 + pivot * along[1])
    assert at == pytest.approx((truck.pivot, place.swing), abs=1e-6)
    assert place.turned == pytest.approx(way * math.degrees(math.atan2(-along[1], along[0])))
    # Webb's figure: the pin is inside the track's middle by the chord's versine
    plain = pose.track(truck.pivot)
    assert plain - place.swing == pytest.approx((base**2 / 4 - pivot**2) / 2 / radius, rel=0.05)


def test_stops_close_the_curve_just_where_the_truck_meets_them() -> None:
    for kind in ("pony truck", "bogie", "radial axle"):
        xs = (130.0, 90.0) if kind == "bogie" else (110.0,)
        truck = guided(kind, xs, 60.0, swing=4.0)
        stand = stand_of(truck, 0.0, 20.0)
        assert stand is not None
        radius, _ = smallest((*fixed(50.0, -50.0), stand))
        pose = on(fixed(50.0, -50.0), radius)
        assert abs(placed(truck, pose).swing) == pytest.approx(4.0, abs=1e-5)
    assert stand_of(guided("pony truck", (110.0,), 60.0), 0.0, 20.0) is None


def test_a_rigid_axle_is_one_more_axle() -> None:
    stand = stand_of(guided("rigid axle", (110.0,), play=0.5), 2.0, 20.0)
    assert stand == Stand("leading rigid axle", 110.0, -1.5, 1.5, wheel=12.5)


def test_side_control() -> None:
    springs = Truck(control="springs", rate=0.5, preload=2.0)
    assert pushed_back(springs, "leading", -6.0, 20.0).swung == pytest.approx(5.0)
    # the load's work is its rise: by the slope of the height l - sqrt(l2 - y2)
    links, y, step = Truck(control="swing links", link=20.0), 6.0, 1e-5
    height = [20.0 - math.sqrt(20.0**2 - (y + d) ** 2) for d in (-step, step)]
    slope = (height[1] - height[0]) / (2 * step)
    assert pushed_back(links, "leading", y, 30.0).swung == pytest.approx(30.0 * slope, rel=1e-6)
    planes = Truck(control="inclined planes", slope=6.0)
    assert pushed_back(planes, "leading", 1.0, 30.0).swung == pytest.approx(
        30 * math.tan(math.radians(6))
    )
    usual = pushed_back(Truck(), "leading", 4.0, 20.0)
    assert (usual.amid, usual.swung) == pytest.approx((2.0, 5.0))
    assert pushed_back(Truck(control="none"), "leading", 4.0, 20.0).swung == 0.0


# beside and behind the engine


@pytest.mark.parametrize("radius", [700.0, 1500.0, 9000.0])
def test_throw_over_against_polygons(radius: float) -> None:
    whole = engine()
    base = (48.0, -48.0)
    pose = on(fixed(*base), radius)
    room = np.array([pose.crown]), np.array([pose.line]), np.array([pose.line])
    centre = shapely.Point(*pose.centre)
    for one in thrown(whole, radius, room, base):
        seen = shapely.box(one.back, -one.half, one.front, one.half)
        corners = [shapely.Point(*p) for p in seen.exterior.coords]
        assert one.reach_outside == pytest.approx(
            max(p.distance(centre) for p in corners) - radius, abs=1e-9
        )
        inner = shapely.LineString([(one.back, -one.half), (one.front, -one.half)])
        assert one.reach_inside == pytest.approx(radius - inner.distance(centre), abs=1e-9)
        assert one.plain == pytest.approx(max(one.outside, one.inside), abs=1e-9)


@given(st.floats(3000.0, 1e5))
@settings(max_examples=20, deadline=None)
def test_the_versine_rule_nears_the_construction_on_easy_curves(radius: float) -> None:
    whole, base = engine(), (48.0, -48.0)
    pose = on(fixed(*base), radius)
    room = np.array([pose.crown]), np.array([pose.line]), np.array([pose.line])
    for one in thrown(whole, radius, room, base):
        # the corner stands off the centre line by `half`, which the rule leaves out
        assert one.plain == pytest.approx(one.rule, rel=2 * one.half / radius + 1e-3, abs=1e-4)


def test_with_plays_the_throw_is_worse() -> None:
    loose_engine, tight = worked(), worked(whole=replace(engine(), flange_play=0.0))
    assert loose_engine.throw_outside > tight.throw_outside
    assert loose_engine.throw_inside > tight.throw_inside


def test_the_vehicle_behind_by_its_own_lengths() -> None:
    pose = on(fixed(60.0, -60.0), 900.0)
    made = coupled_behind(
        pose, beam=-95.0, pin=5.0, gap=20.0, wheelbase=120.0, overhang=35.0, buffers=27.0,
        hose=15.0, half=40.0,
    )  # fmt: skip
    first, second = made.pins
    assert math.dist(first, second) == pytest.approx(30.0)
    (hx, hy), (tx, ty) = made.vehicle
    along = ((hx - tx) / 190.0, (hy - ty) / 190.0)
    cx, cy = pose.centre
    for back in (35.0, 155.0):  # its axles stand on the track
        at = (hx - back * along[0], hy - back * along[1])
        assert math.hypot(at[0] - cx, at[1] - cy) == pytest.approx(900.0)
    # two vehicles alike share the turn between them evenly
    assert made.drawbar == pytest.approx(made.yaw / 2)
    # and mirror one another in the line from the curve's centre to amid the drawbar
    half = ((first[0] + second[0]) / 2 - cx, (first[1] + second[1]) / 2 - cy)
    for out, grown in ((27.0, made.outer), (-27.0, made.inner), (15.0, made.hose_outer)):
        to = (-95.0 - cx, out - cy)
        off = abs(half[0] * to[1] - half[1] * to[0]) / math.hypot(*half)
        assert grown == pytest.approx(2 * off - 20.0)
    # both ends stand outside the track by the end throw
    (end, _) = by_rule(95.0, 95.0, (60.0, -60.0), 900.0)
    assert made.step == pytest.approx(2 * end, rel=0.02)


def test_overturning_balances_the_moments_about_the_outer_rail() -> None:
    gauge, height, cant, radius = 127.0, 180.0, 9.0, 15_000.0
    speed = rule.overturning(gauge, height, cant, radius) / 3.6
    tilt = math.asin(cant / gauge)
    # forces in the track's axes: across outwards, and down on the rails
    outwards = speed**2 / (radius / 1000)
    across = outwards * math.cos(tilt) - rule.GRAVITY * math.sin(tilt)
    down = rule.GRAVITY * math.cos(tilt) + outwards * math.sin(tilt)
    assert across * height == pytest.approx(down * gauge / 2)


def test_cant_lifts_the_overturning_speed_and_is_judged_with_it() -> None:
    level, canted = worked(), worked(Curving(line=CurvedLine(cant=4.0)), speed=9.0)
    assert level.overturning is not None
    assert canted.overturning is not None
    assert canted.overturning > level.overturning
    assert not levels(level, "curving.line.cant")
    assert [one.level for one in levels(canted, "curving.line.cant")] == ["check"]
    slow = worked(Curving(line=CurvedLine(cant=4.0)), speed=2.0)
    assert [one.level for one in levels(slow, "curving.line.cant")] == ["fine"]
    assert worked(centre_height=None).overturning is None


# what is said


def levels(result: Any, field: str) -> list[Finding]:
    return [one for one in result.findings if field in one.fields]


def changed(curving: Curving, path: str, value: Any) -> Curving:
    chapter, group, field = path.split(".")
    assert chapter == "curving"
    return replace(curving, **{group: replace(getattr(curving, group), **{field: value})})


BAD: dict[str, Curving] = {
    "curving.leading.swing": Curving(leading=Truck(swing=1.0)),
    "curving.trailing.arm": Curving(trailing=Truck(arm=20.0)),
    "curving.leading.control": Curving(leading=Truck(control="none")),
    "curving.leading.link": Curving(leading=Truck(control="swing links", link=8.0)),
    "curving.line.outside": Curving(line=CurvedLine(outside=55.0)),
    "curving.line.inside": Curving(line=CurvedLine(inside=46.0)),
    "curving.behind.slot": Curving(behind=Behind(slot=1.0)),
    "curving.behind.give": Curving(behind=Behind(give=0.2)),
    "curving.behind.gap": Curving(behind=Behind(gap=10.0)),
}


@pytest.mark.parametrize("path", BAD)
def test_a_planted_fault_is_named_and_its_mend_mends_it(path: str) -> None:
    curving = BAD[path]
    faults = [one for one in levels(worked(curving), path) if one.level != "fine"]
    assert faults
    assert not [one for one in levels(worked(), path) if one.level == "stop"]
    for _ in range(3):  # two findings may want the same size; the wider serves both
        mends = [one.change for one in faults if one.change is not None and one.change[0] == path]
        if not faults:
            break
        assert mends
        curving = changed(curving, *max(mends, key=lambda one: str(one[1]).zfill(9)))
        faults = [one for one in levels(worked(curving), path) if one.level != "fine"]
    assert not faults


def test_stops_that_are_too_near_hold_the_whole_engine_back() -> None:
    result = worked(Curving(leading=Truck(swing=0.5)))
    assert result.smallest > 1000.0
    assert "leading pony truck" in result.set_by
    assert not result.pose.passes
    assert any(one.level == "stop" and "whole engine" in one.says for one in result.findings)
    easy = worked(Curving(leading=Truck(swing=0.5)), wanted=None)
    assert easy.drawn == pytest.approx(easy.smallest)
    assert easy.pose.passes
    assert min(one.left for one in easy.axles if one.left is not None) == pytest.approx(0, abs=1e-3)


def test_a_rigid_truck_axle_is_told_to_become_a_pony_truck() -> None:
    result = worked(Curving(leading=Truck(kind="rigid axle")))
    (stop,) = [one for one in result.findings if one.level == "stop"]
    assert stop.change == ("curving.leading.kind", "pony truck")


def test_a_bought_size_is_not_changed() -> None:
    result = worked(BAD["curving.leading.swing"], fixed=frozenset({"curving.leading.swing"}))
    assert not [f for f in result.findings if f.change and f.change[0] == "curving.leading.swing"]
    assert not [s for s in result.suggestions if s.field == "curving.leading.swing"]


def test_the_turnout_is_held_against_the_whole_engine() -> None:
    sharp = worked(Curving(line=CurvedLine(turnout="crossing number", crossing=2.0)))
    assert sharp.turnout_radius == pytest.approx(2 * 45 * 4)
    assert [one.level for one in levels(sharp, "curving.line.turnout")] == ["stop"]
    easy = worked(Curving(line=CurvedLine(turnout="TI 850-02, No. 8")))
    assert [one.level for one in levels(easy, "curving.line.turnout")] == ["fine"]
    assert [one.name for one in easy.curves if one.chosen] == ["TI 850-02, No. 8"]


def test_reverse_curves_lock_buffers_only_where_the_line_has_them() -> None:
    field = "curving.line.reverses"
    assert [one.level for one in levels(worked(), field)] == ["fine"]
    reverse = worked(Curving(line=CurvedLine(reverses=True)))
    assert [one.level for one in levels(reverse, field)] == ["stop"]


def test_a_vehicle_that_nothing_is_known_of_is_an_example() -> None:
    field = "curving.behind.gap"
    assert {one.level for one in levels(worked(wanted=500.0, coupled_radius=400.0), field)} == {
        "fine"
    }
    known = worked(Curving(behind=Behind(wheelbase=150.0)), wanted=500.0, coupled_radius=400.0)
    assert "check" in {one.level for one in levels(known, field)}


def test_wheels_that_swing_into_the_plates_are_told() -> None:
    field = "curving.leading.wheel"
    assert [one.level for one in levels(worked(), field)] == ["check"]
    whole = engine()
    plates = whole.part("frame plates")
    assert plates is not None
    high = replace(plates, solids=tuple(
        replace(one, outline=tuple((x, max(y, 8.0)) for x, y in one.outline))
        for one in plates.solids
    ))  # fmt: skip
    parts = tuple(high if one is plates else one for one in whole.parts)
    assert not levels(worked(whole=replace(whole, parts=parts)), field)


@pytest.mark.parametrize(
    ("coupled", "leading", "trailing"),
    [
        (((0.0, 0.3),), (60.0,), (-70.0,)),
        (((30.0, 0.3), (0.0, 0.3)), (), ()),
        (((30.0, 0.3), (0.0, 0.3)), (95.0, 60.0), ()),
        (((0.0, 0.3),), (), ()),
    ],
)
def test_other_arrangements_work(coupled: Any, leading: Any, trailing: Any) -> None:
    kind = Truck(kind="bogie") if len(leading) == 2 else Truck()
    for wanted in (None, 60.0, 400.0, 1e5):
        result = worked(
            Curving(leading=kind), whole=engine(coupled, leading, trailing), wanted=wanted,
            coupled_radius=300.0,
        )  # fmt: skip
        figures = [result.drawn, result.throw_outside, result.throw_inside, result.drawbar,
                   result.step, result.hose, *(one.shift for one in result.axles)]  # fmt: skip
        assert all(math.isfinite(one) for one in figures)
    assert (result.leading_swing is None) == (not leading)


def test_a_pivot_outside_the_bogie_is_refused() -> None:
    with pytest.raises(SizeError, match="half of that"):
        Curving(leading=Truck(kind="bogie", wheelbase=40.0, pivot=25.0))
