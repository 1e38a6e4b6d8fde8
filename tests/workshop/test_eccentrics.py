"""Throws, stops, cranks and quartering, each against another construction."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.affinity import rotate
from shapely.geometry import LineString, Point, box

from weighshaft.sizes import SizeError
from weighshaft.workshop.eccentrics import (
    BuiltUp,
    Chucking,
    Eccentrics,
    EccentricsResult,
    Engine,
    Jig,
    Stop,
    Strap,
    Web,
    relations,
    work,
)
from weighshaft.workshop.eccentrics.chucking import jaw_packing
from weighshaft.workshop.machines import Machines


def made(engine: Engine | None = None, **groups: object) -> EccentricsResult:
    decided = Eccentrics(**groups)  # type: ignore[arg-type]
    return work(decided, machines=Machines(), **({"engine": engine} if engine else {}))


def closed(radius: float, throw: float, width: float) -> float:
    """How far jaws of a width close on a bar at 120 degrees from the packed one, by shapely."""
    bar = Point(-throw, 0.0).buffer(radius, quad_segs=2000)
    low, high = 0.0, 2 * radius
    for _ in range(50):
        nose = (low + high) / 2
        face = rotate(box(nose, -width / 2, 3 * radius, width / 2), 120, origin=(0, 0))
        low, high = (nose, high) if face.intersects(bar) else (low, nose)
    return high


@pytest.mark.parametrize("width", [1e-6, 2.0, 4.0, 6.0, 12.0])
@pytest.mark.parametrize(("radius", "throw"), [(15.0, 3.0), (12.5, 4.0), (19.0, 3.5)])
def test_packing_closes_all_three_jaws_alike(radius: float, throw: float, width: float) -> None:
    jaws = closed(radius, throw, width)
    assert jaw_packing(radius, throw, width).result == pytest.approx(
        jaws - (radius - throw), abs=3e-5
    )


def test_the_measured_jaw_lies_between_narrow_and_flat() -> None:
    both = made(chucking=Chucking(throw=4.0, bar=30.0, jaw=3.0))
    narrow, jaw, flat = both.packing_narrow, both.packing_jaw, both.packing_flat
    assert narrow is not None
    assert jaw is not None
    assert flat is not None
    assert narrow < jaw < flat == 6.0
    assert made(chucking=Chucking(throw=4.0, bar=30.0, jaw=20.0)).packing_jaw == flat
    assert both.dial == 8.0


@given(st.floats(2, 200), st.floats(0.001, 0.9))
def test_the_throw_of_a_packing_is_the_throw_that_asked_for_it(radius: float, part: float) -> None:
    throw = part * radius
    packing = relations.packing_narrow(R=radius, e=throw)
    assert relations.throw_narrow(R=radius, P=packing) == pytest.approx(throw, rel=1e-6)


@given(st.floats(2, 100), st.floats(0.01, 0.9), st.one_of(st.none(), st.floats(0, 20)))
def test_any_throw_that_a_chuck_holds_is_worked(bar: float, part: float, jaw: float | None) -> None:
    result = made(chucking=Chucking(throw=max(part * bar / 2, 0.05), bar=bar, jaw=jaw))
    assert result.packings
    for one in result.packings:
        assert one.narrow_throw is None or math.isfinite(one.narrow_throw)
    if part > 0.67:
        assert result.rule_throw is None
        assert any("four jaws" in one.mend for one in result.findings)


def test_the_stop_lets_the_sheave_slip_from_one_advance_to_the_other() -> None:
    result = made(stop=Stop(forward=28.0, backward=20.0, pin=2.0, radius=9.0))
    assert result.slip == pytest.approx(180 - 28 - 20)
    assert result.opening is not None
    assert result.slip is not None
    # the pin at either end of its slip just touches a radial face of the dog
    half = math.radians(result.opening / 2)
    for sign in (1, -1):
        face = LineString([(0, 0), (30 * math.sin(sign * half), 30 * math.cos(half))])
        at = math.radians(sign * result.slip / 2)
        pin = Point(9.0 * math.sin(at), 9.0 * math.cos(at))
        assert pin.distance(face) == pytest.approx(1.0, abs=1e-9)


def test_no_stop_for_an_engine_whose_sheaves_are_fast_unless_one_is_asked() -> None:
    fast = Engine(advances=None)
    assert made(fast).opening is None
    asked = made(fast, stop=Stop(forward=25.0))
    assert asked.slip == pytest.approx(130.0)


def test_an_engine_without_eccentrics_asks_for_no_packing_but_still_for_a_jig() -> None:
    result = made(Engine(throw=None, sheave=None, advances=None, web=None))
    assert (result.packing_narrow, result.strap, result.opening, result.web) == (None,) * 4
    assert result.block > 0
    assert result.pitch == 20.0
    assert result.packings == ()


@given(
    st.floats(30, 200), st.floats(5, 25), st.floats(20, 340), st.floats(2, 12), st.floats(0, 0.5)
)
def test_pins_on_the_blocks_stand_at_the_angle_of_the_cranks(
    height: float, throw: float, angle: float, pin: float, error: float
) -> None:
    if height < throw + pin:
        return
    engine = Engine(crank_throw=throw, angle_error=error, web=None)
    result = made(engine, jig=Jig(height=height, pin=pin, angle=angle))
    drop = height - (result.block + pin / 2)
    apart = 2 * math.degrees(math.atan2(result.block_reach, drop))
    assert math.hypot(drop, result.block_reach) == pytest.approx(throw)
    assert apart == pytest.approx(min(angle, 360 - angle), abs=1e-6)


def test_a_block_out_by_its_tolerance_puts_the_angle_out_by_the_error() -> None:
    engine = Engine(crank_throw=20.0, angle_error=0.1)
    result = made(engine, jig=Jig(height=60.0, pin=6.0))
    drop = 60.0 - (result.block + result.block_tolerance + 3.0)
    moved = 45.0 - math.degrees(math.acos(drop / 20.0))
    assert abs(moved) == pytest.approx(0.1, rel=2e-3)


def test_the_built_up_crank_closes() -> None:
    web = Web(thickness=5.0, breadth=16.0, between=9.0, pin=10.0)
    result = made(Engine(web=web, crank_throw=20.0, axle=12.0), crank=BuiltUp(dowel=3.0))
    assert (result.over_pins, result.between_pins) == (31.0, 9.0)
    assert result.web_length == 36.0
    assert result.pin_cut == pytest.approx(9.0 + 2 * 5.0 + 0.8)
    assert result.web_must_carry == 6000.0
    assert len(result.order) == 8
    thin = made(Engine(web=Web(thickness=1.0, breadth=16.0, between=9.0, pin=10.0)))
    assert any("Stuck on" in one.says and one.level == "check" for one in thin.findings)


def test_a_crank_whose_pin_overlaps_its_axle_is_turned_from_the_solid() -> None:
    result = made(Engine(crank_throw=9.0, axle=12.0))
    assert result.web is None
    assert result.packing_narrow is not None
    assert any("from the solid" in one.mend for one in result.findings)


def test_strap_and_sheave_clear_by_what_was_asked() -> None:
    result = made(strap=Strap(diameter=30.0, least=0.05))
    assert result.sheave_high == pytest.approx(29.95)
    assert result.strap_low == 30.0
    assert result.clear_least == 0.05
    assert result.clear_most is not None
    assert result.strap_high is not None
    assert result.sheave_low is not None
    assert result.clear_most == pytest.approx(result.strap_high - result.sheave_low)


@pytest.mark.parametrize(
    ("groups", "field"),
    [
        ({"chucking": Chucking(throw=15.0, bar=20.0)}, "chucking.throw"),
        ({"stop": Stop(pin=20.0, radius=5.0)}, "stop.pin"),
        ({"crank": BuiltUp(pitch=8.0)}, "crank.pitch"),
        ({"jig": Jig(height=12.0)}, "jig.height"),
    ],
)
def test_what_cannot_be_set_up_is_refused(groups: dict[str, object], field: str) -> None:
    with pytest.raises(SizeError) as refused:
        made(**groups)  # type: ignore[arg-type]
    assert refused.value.field == field
