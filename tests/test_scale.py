"""Prototype and scale: sizes, gauge, weight, speed, bought parts."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighshaft.design.document import model_of
from weighshaft.scale import AsBuilt, Outline, Prototype, Scale, work
from weighshaft.scale.chapter import (
    BOUGHT_CLOSE,
    GAUGE_UNSEEN,
    linear_speed,
    ratio_of,
    scale_weight,
    scaled,
    workings_of,
)
from weighshaft.sizes import SizeError, sizes_of
from weighshaft.trade.stock import nearest_stock, stock_sizes, usual_pairs

FT, IN = 304.8, 25.4

GOODS = Prototype(
    gauge=56.5 * IN,
    driving_wheel=63 * IN,
    arrangement="0-6-0",
    coupled_wheelbase=15 * FT,
    bore=18 * IN,
    stroke=26 * IN,
    pressure=10.3,
    weight=40960.0,
    length=25 * FT,
    boiler_diameter=52 * IN,
    speed=80.0,
)
SIXTEENTH = Scale(prototype=GOODS, ratio=16.0, track_gauge=88.9)
MAIN_AT_MOST = 6

lengths = st.floats(1.0, 40_000.0)
ratios = st.floats(1.0, 200.0)


def test_sizes_at_three_quarter_inch_to_the_foot() -> None:
    # by hand: 1:16, 63 in / 16 = 3 15/16 in, 18/16 = 1 1/8 in, 26/16 = 1 5/8 in
    result = work(SIXTEENTH)
    by = {size.field.rsplit(".", 1)[-1]: size for size in result.sizes}
    assert result.mm_per_foot == pytest.approx(19.05)
    assert by["driving_wheel"].nearest_64th == Fraction(63, 16)
    assert by["driving_wheel"].model == pytest.approx(100.0125)
    assert by["driving_wheel"].inches == pytest.approx(3.9375)
    assert by["driving_wheel"].error_64th == pytest.approx(0.0, abs=1e-9)
    assert by["bore"].nearest_64th == Fraction(9, 8)
    assert by["bore"].stock is not None
    assert by["bore"].stock.name == "1 1/8 in"
    assert by["stroke"].nearest_64th == Fraction(13, 8)
    assert by["gauge"].nearest_64th == Fraction(113, 32)
    assert result.bore == pytest.approx(28.575)
    assert result.stroke == pytest.approx(41.275)
    assert by["boiler_diameter"].stock is not None
    assert by["boiler_diameter"].stock.kind == "tube"
    assert by["coupled_wheelbase"].stock is None


def test_unknown_stays_unknown() -> None:
    result = work(Scale(prototype=Prototype(gauge=600.0), ratio=19.05, track_gauge=32.0))
    assert [size.label for size in result.sizes] == ["Track gauge"]
    for figure in ("driving_wheel", "bore", "stroke", "width", "scale_weight", "linear_speed",
                   "dynamic_speed", "running_speed"):  # fmt: skip
        assert getattr(result, figure) is None
    assert result.bought == ()


def test_gauge_of_the_usual_pairs() -> None:
    # 1:12 on 45 mm track stands for 540 mm (common practice, no source)
    twelfth = work(Scale(prototype=Prototype(gauge=540.0), ratio=12.0, track_gauge=45.0))
    assert twelfth.represented_gauge == pytest.approx(540.0)
    assert twelfth.gauge_error == pytest.approx(0.0)
    # 16 mm to the foot makes 2 ft exactly 32 mm; 1:22.5 makes a metre 44.44 mm
    two_foot = work(Scale(prototype=Prototype(gauge=2 * FT), ratio=19.05, track_gauge=32.0))
    assert two_foot.gauge_error_percent == pytest.approx(0.0, abs=1e-9)
    metre = work(Scale(prototype=Prototype(gauge=1000.0), ratio=22.5, track_gauge=45.0))
    assert metre.gauge_error_percent == pytest.approx(1.25)
    assert metre.exact_ratio == pytest.approx(22.2222, abs=1e-4)


def test_weight_by_the_cube_and_both_speeds() -> None:
    result = work(SIXTEENTH)
    assert result.scale_weight == pytest.approx(10.0)  # 40960 / 16^3
    assert result.linear_speed == pytest.approx(5.0)
    assert result.dynamic_speed == pytest.approx(20.0)
    assert result.running_speed == pytest.approx(5.0)
    assert work(replace(SIXTEENTH, running_speed=9.0)).running_speed == 9.0


@given(lengths, ratios)
def test_to_scale_and_back(length: float, ratio: float) -> None:
    assert scaled(length, ratio) * ratio == pytest.approx(length, rel=1e-12)


@given(st.floats(200, 2000), st.floats(10, 200))
def test_the_exact_scale_leaves_no_gauge_error(gauge: float, track: float) -> None:
    ratio = gauge / track
    if not 1 <= ratio <= 200:
        return
    prototype = Prototype(gauge=gauge)
    first = work(Scale(prototype=prototype, ratio=16.0, track_gauge=track))
    again = work(Scale(prototype=prototype, ratio=first.exact_ratio, track_gauge=track))
    assert again.gauge_error == pytest.approx(0.0, abs=1e-9)
    assert not [f for f in again.findings if f.level != "fine"]


@given(ratios, ratios, st.floats(100, 200_000))
def test_scaling_twice_is_scaling_once(a: float, b: float, value: float) -> None:
    assert scale_weight(scale_weight(value, a), b) == pytest.approx(scale_weight(value, a * b))
    assert linear_speed(linear_speed(value, a), b) == pytest.approx(linear_speed(value, a * b))


@given(st.floats(1.5, 100))
def test_nearest_64th_is_within_half_of_one(ratio: float) -> None:
    for size in work(replace(SIXTEENTH, ratio=ratio)).sizes:
        assert abs(size.error_64th) <= IN / 128 + 1e-9
        assert float(size.nearest_64th) * IN - size.error_64th == pytest.approx(size.model)


@given(st.floats(1, 250))
def test_nearest_stock_is_the_nearest(diameter: float) -> None:
    found = nearest_stock(diameter)
    assert found is not None
    assert abs(found.diameter - diameter) == min(
        abs(one.diameter - diameter) for one in stock_sizes("bar")
    )


def test_no_stock_beyond_what_is_kept() -> None:
    assert nearest_stock(400.0) is None
    assert nearest_stock(0.2) is None
    names = {one.name: one.diameter for one in stock_sizes("tube")}
    assert names["1 5/8 in"] == pytest.approx(41.275)
    assert names["76.1 mm"] == 76.1


def test_spellings_of_scales() -> None:
    assert ratio_of("16 mm/ft") == pytest.approx(19.05)
    assert ratio_of("1 1/16 in/ft") == pytest.approx(11.2941, abs=1e-4)
    assert ratio_of("1:22.5") == 22.5
    for pair in usual_pairs():
        assert 2 <= ratio_of(pair.scale) <= 50


def test_pairs_are_ordered_and_right() -> None:
    pairs = work(SIXTEENTH).pairs
    errors = [abs(pair.percent) for pair in pairs]
    assert errors == sorted(errors)
    assert len(pairs) == len(usual_pairs())
    gauge_one = next(pair for pair in pairs if pair.scale == "1:32")
    assert gauge_one.error == pytest.approx(45 - 1435.1 / 32)
    assert gauge_one.percent == pytest.approx(100 * (45 * 32 / 1435.1 - 1))


def test_a_gauge_plainly_off_is_told_with_the_scale_that_mends_it() -> None:
    wide = Scale(prototype=GOODS, ratio=30.48, track_gauge=45.0)
    (finding,) = (f for f in work(wide).findings if "scale.track_gauge" in f.fields)
    assert "4.4 %" in finding.says
    assert finding.level == "check"
    assert finding.change == ("scale.ratio", pytest.approx(31.891, abs=0.001))
    mended = work(replace(wide, ratio=float(finding.change[1])))
    assert abs(mended.gauge_error_percent) < 0.01 < GAUGE_UNSEEN


def test_bought_wheels_imply_their_scale_and_the_rest_follows() -> None:
    fixed = frozenset({"wheels.driving_diameter"})
    design = Scale(prototype=GOODS, ratio=32.0, track_gauge=45.0)
    result = work(design, driving_diameter=47.0, bore=14.0, fixed=fixed)
    (part,) = result.bought
    assert part.implied_ratio == pytest.approx(1600.2 / 47)
    assert part.percent == pytest.approx(100 * (47 * 32 / 1600.2 - 1))
    for size in result.sizes:
        assert size.around == pytest.approx(size.full / part.implied_ratio)
    by = {size.field.rsplit(".", 1)[-1]: size for size in result.sizes}
    assert by["driving_wheel"].around == pytest.approx(47.0)
    assert by["bore"].actual == 14.0
    suggested = {s.field: s.value for s in result.suggestions}
    assert suggested["scale.ratio"] == pytest.approx(34.047, abs=0.001)
    assert "wheels.driving_diameter" not in suggested
    assert suggested["cylinders.bore"] == pytest.approx(14.29, abs=0.005)
    (finding,) = (f for f in result.findings if "wheels.driving_diameter" in f.fields)
    assert finding.level == "check"
    assert abs(part.percent) > BOUGHT_CLOSE
    assert "6.0 % too small" in finding.says


def test_bought_parts_that_disagree_are_told() -> None:
    fixed = frozenset({"wheels.driving_diameter", "cylinders.bore", "cylinders.stroke"})
    result = work(SIXTEENTH, driving_diameter=100.0, bore=25.4, stroke=41.275, fixed=fixed)
    assert [part.label for part in result.bought] == [
        "Driving wheels", "Cylinder bore", "Piston stroke",
    ]  # fmt: skip
    assert any("apart" in f.says and len(f.fields) == 3 for f in result.findings)


@pytest.mark.parametrize(
    ("weight", "level"), [(18.0, "fine"), (9.0, "fine"), (3.0, "check"), (60.0, "check")]
)
def test_weight_is_judged_beside_scale_weight(weight: float, level: str) -> None:
    findings = work(SIXTEENTH, engine_weight=weight).findings
    (finding,) = (f for f in findings if "cylinders.engine_weight" in f.fields)
    assert finding.level == level
    assert f"{weight:.3g} kg" in finding.says


def test_pressure_is_not_scaled_and_the_inspector_is_named() -> None:
    findings = work(SIXTEENTH, pressure=5.5).findings
    (finding,) = (f for f in findings if "cylinders.pressure" in f.fields)
    assert finding.level == "fine"
    assert "not scaled" in finding.says
    assert "inspector" in finding.says
    (higher,) = (
        f for f in work(SIXTEENTH, pressure=12.0).findings if "cylinders.pressure" in f.fields
    )
    assert higher.level == "check"


def test_cylinders_and_running_speed_are_compared() -> None:
    findings = work(replace(SIXTEENTH, running_speed=25.0), number=3).findings
    assert any(f.level == "check" and "3 cylinders" in f.says for f in findings)
    assert any(f.level == "check" and "above the dynamic" in f.says for f in findings)


def test_nothing_ever_stops_the_job_here() -> None:
    awful = Scale(prototype=GOODS, ratio=200.0, track_gauge=400.0, running_speed=40.0)
    result = work(awful, number=1, pressure=16.0, engine_weight=2000.0, driving_diameter=600.0)
    assert all(f.level != "stop" for f in result.findings)
    assert [f.level for f in result.findings] == sorted(f.level for f in result.findings)


def test_workings_give_the_figures() -> None:
    result = work(SIXTEENTH)
    by = workings_of(result)
    assert by["Scale weight"].result == result.scale_weight
    assert by["Dynamic speed"].result == result.dynamic_speed
    assert by["Gauge error"].result == result.gauge_error_percent
    for working in result.workings:
        assert working.relation.source
        assert working.in_symbols()
        assert working.in_numbers()


@pytest.mark.parametrize("text", ["0-5-0", "six wheels", "0-6", "2-0-2", "0-6-0-0", "0-６-0x<b>"])
def test_bad_wheel_arrangements_are_refused_in_words(text: str) -> None:
    with pytest.raises(SizeError, match="0-4-0, 2-6-2T or 4-4-0"):
        replace(GOODS, arrangement=text)


def test_wheel_arrangements() -> None:
    assert replace(GOODS, arrangement="2-6-2T").wheels() == (1, 3, 1)
    assert replace(GOODS, arrangement=" 4-4-0 ").wheels() == (2, 2, 0)
    assert replace(GOODS, arrangement="").wheels() is None


def test_coupled_wheelbase_cannot_exceed_the_total() -> None:
    with pytest.raises(SizeError, match="more than the total"):
        replace(GOODS, total_wheelbase=3000.0)


@pytest.mark.parametrize("value", [math.nan, math.inf, 0.0, 500.0])
def test_bad_scales_are_refused(value: float) -> None:
    with pytest.raises(SizeError):
        replace(SIXTEENTH, ratio=value)


def test_the_design_file_can_hold_it() -> None:
    model = model_of(Scale)
    made = model.model_validate(
        {"prototype": {"gauge": "4 ft 8 1/2 in", "outline": {"cab_length": "5 ft"}},
         "ratio": "1:32", "track_gauge": "45 mm"}
    )  # fmt: skip
    assert made.prototype.gauge == pytest.approx(1435.1)
    kinds = (Scale, Prototype, Outline, AsBuilt)
    mains = [s for kind in kinds for s in sizes_of(kind).values() if s.main]
    assert 1 <= len(mains) <= MAIN_AT_MOST
