"""Weights of parts, centres of gravity, states, and what is said of them."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import MultiPolygon, Polygon
from shapely.geometry import box

from tests.weights_for_tests import (
    BODY,
    HAULED,
    MOGUL,
    SIX,
    STEEL,
    TANK,
    bearing,
    cube,
    engine,
    plain,
    worked,
)
from weighshaft.frames import Bar, Part, Plate, Round, block
from weighshaft.sizes import SizeError
from weighshaft.weights import Ballast, Weighed, Weights, WeightsResult
from weighshaft.weights.decisions import USED, WORKING
from weighshaft.weights.masses import ALLOWANCE, mean_place


def said(result: WeightsResult, words: str) -> list[str]:
    return [one.level for one in result.findings if words in one.says]


def water(name: str, mass: float, ahead: float, **part: Any) -> Part:
    solid = block(ahead - 5, ahead + 5, 20.0, 30.0, -5.0, 5.0)
    share = mass / (998e-9 * 1000)
    return Part(name, "water", "boiler", (), "water", (solid,), share=share, **part)


def test_a_part_weighs_its_volume_at_its_density() -> None:
    result = worked(engine(SIX, [BODY]))
    mass = {one.name: one.mass for one in result.masses}
    assert mass["body"] == pytest.approx(4.0)
    assert mass["driving wheels"] == pytest.approx(0.2)
    assert result.working == result.bare == pytest.approx(4.6, rel=1e-5)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(*[st.integers(-60, 60)] * 2, *[st.integers(3, 30)] * 2), min_size=1,
                max_size=6))  # fmt: skip
def test_centre_of_gravity_is_that_of_the_bodies_together(
    made: list[tuple[int, int, int, int]],
) -> None:
    # plates of one thickness set side by side across: their common centre is that of all areas
    parts, shapes = [], []
    for n, (x, y, long, high) in enumerate(made):
        solid = block(x, x + long, y, y + high, 10.0 * n, 10.0 * n + 4.0)
        parts.append(Part(f"plate {n}", "frames", "frames", (), "mild steel", (solid,)))
        shapes.append(box(x, y, x + long, y + high))
    result = worked(engine(SIX, parts, wheels=0.0, coupling=0.0))
    centre = MultiPolygon(shapes).centroid
    area = sum(one.area for one in shapes)
    assert result.working == pytest.approx(4.0 * area * STEEL, rel=1e-3)
    near = {"abs": 1e-3, "rel": 1e-4}  # the coupling weighs a thousandth of a milligram
    assert result.centre_ahead == pytest.approx(centre.x, **near)
    assert result.centre_height == pytest.approx(centre.y + 20.0, **near)
    out = sum(one.area * (10.0 * n + 2.0) for n, one in enumerate(shapes)) / area
    assert result.off_centre == pytest.approx(out, **near)


def test_a_plate_with_a_hole_and_a_tube_weigh_together() -> None:
    corners = ((-40.0, 0.0), (40.0, 0.0), (40.0, 30.0), (-40.0, 30.0))
    hole = ((10.0, 5.0), (30.0, 5.0), (30.0, 25.0))
    plate = Plate(corners, -1.0, 1.0, (hole,))
    tube = Round((-20.0, 40.0, 0.0), 60.0, 12.0, 0.0, 20.0)
    parts = [
        Part("plate", "frames", "frames", (), "brass", (plate,)),
        Part("tube", "boiler", "boiler", (), "copper", (tube,)),
    ]
    result = worked(engine(SIX, parts, wheels=0.0))
    shape = Polygon(corners, [hole])
    brass, copper = 2.0 * shape.area * 8450e-9, math.pi * (144 - 100) * 60.0 * 8930e-9
    whole = brass + copper
    assert result.working == pytest.approx(whole, rel=1e-4)
    assert result.centre_ahead == pytest.approx(
        (brass * shape.centroid.x + copper * 10.0) / whole, abs=1e-2
    )
    assert result.centre_height == pytest.approx(
        20.0 + (brass * shape.centroid.y + copper * 40.0) / whole, abs=1e-2
    )


def test_the_allowance_is_on_the_metal_that_was_not_weighed() -> None:
    parts = [BODY, cube("tank", 1.0, -30.0, 30.0), water("tank water", 0.5, -30.0)]
    weighed = (Weighed(name="tank", mass=1.4),)
    result = worked(engine(SIX, parts), Weights(allowance=10.0, weighed=weighed))
    (more,) = (one for one in result.masses if one.name == ALLOWANCE)
    assert more.mass == pytest.approx(0.1 * 4.6, rel=1e-5)
    assert more.ahead == pytest.approx((4.0 * 8.0 + 0.2 * 10.0) / 4.6, abs=1e-3)
    assert result.working == pytest.approx(4.6 + 0.46 + 1.4 + 0.5, rel=1e-5)


def test_what_was_weighed_counts_as_weighed() -> None:
    whole = engine(SIX, [BODY, cube("cab", 0.5, -60.0, 60.0)])
    weighed = (
        Weighed(name="cab", mass=0.3, above=70.0),
        Weighed(name="gas tank", mass=0.25, ahead=-55.0, above=20.0, out=9.0),
        Weighed(name="spanner", mass=0.1),
    )
    result = worked(whole, plain(weighed=weighed))
    found = {one.name: one for one in result.masses}
    assert (found["cab"].mass, found["cab"].above) == (0.3, 70.0)
    assert found["cab"].ahead == pytest.approx(-60.0)
    assert found["gas tank"].mass == 0.25
    assert "spanner" not in found
    assert said(result, "“spanner” is no part of the model") == ["check"]
    assert result.off_centre == pytest.approx(0.25 * 9.0 / result.working)
    assert result.right - result.left == pytest.approx(
        2 * result.working * result.off_centre / 45.0
    )
    assert result.right + result.left == pytest.approx(result.working)


def test_no_part_is_weighed_twice() -> None:
    with pytest.raises(SizeError, match="“cab” is there twice"):
        plain(weighed=(Weighed(name="cab"), Weighed(name=" cab ")))


def test_states_differ_by_what_is_carried() -> None:
    parts = [BODY, water("water", 0.3, 20.0), water("tank water", 0.4, -40.0)]
    weighed = (
        Weighed(name="gas", mass=0.1, ahead=-50.0, carried=USED),
        Weighed(name="driver's foot", mass=0.2, ahead=-60.0, carried=WORKING),
    )
    result = worked(engine(SIX, parts), plain(weighed=weighed, boiler_left=50.0))
    bare, full, low = result.states
    assert full.mass - bare.mass == pytest.approx(0.3 + 0.4 + 0.1 + 0.2)
    assert full.mass - low.mass == pytest.approx(0.15 + 0.4 + 0.1)
    first, last = result.run[0], result.run[-1]
    assert first.loads == pytest.approx(result.axle_loads)
    assert last.loads == pytest.approx(result.low_loads)
    assert last.used == pytest.approx(0.65)
    tanks = [one for one in result.run if one.tanks]
    assert tanks[0] is first
    assert not last.tanks
    used = [one.used for one in result.run]
    assert used == sorted(used)


def test_what_turns_weighs_in_the_mean_over_a_turn() -> None:
    pin = Bar((10.0, 0.0), (10.0, 0.0), 2.0, 25.0, 30.0)
    rod = Bar((70.0, 0.0), (-40.0, 0.0), 2.0, 25.0, 27.0)
    pins = Part("pins", "rods", "wheels", (), "silver steel", (pin,), True, "wheel", 1)
    rods = Part("coupling rods", "rods", "rods", (), "mild steel", (rod,), True, "coupling")
    whole = engine(SIX, [BODY, pins, rods])
    assert mean_place(pins, whole) == (0.0, 0.0, 0.0)
    assert mean_place(rods, whole) == pytest.approx((5.0, 0.0, 0.0))
    # the truck's wheels stand on the rail, lower than the coupled ones
    mogul = engine(MOGUL, [BODY])
    truck = mogul.part("leading 120 wheels")
    assert truck is not None
    assert mean_place(truck, mogul)[1] == pytest.approx(-8.0)
    # rods hang on all pins, with their centre
    result = worked(whole)
    (hung,) = (one for one in result.masses if one.name == "coupling rods")
    assert sum(hung.unsprung) == pytest.approx(1.0)
    moment = sum(p * one.ahead for p, one in zip(hung.unsprung, SIX, strict=True))
    assert moment == pytest.approx(5.0)


def test_a_connecting_rod_rests_on_pin_and_crosshead_by_the_lever() -> None:
    rod = Bar((10.0, 0.0), (72.0, 0.0), 2.0, 25.0, 27.0)
    part = Part("connecting rods", "rods", "rods", (), "mild steel", (rod,), True, "connecting")
    result = worked(engine(SIX, [BODY, part]))
    (found,) = (one for one in result.masses if one.name == "connecting rods")
    assert found.ahead == pytest.approx(31.0)
    assert found.unsprung == pytest.approx((0.0, 0.5, 0.0))


def test_heights_and_angles_of_a_known_engine() -> None:
    whole = engine(SIX, [cube("body", 4.0, 0.0, 25.0)], wheels=0.0)
    result = worked(whole)
    assert result.centre_height == pytest.approx(45.0, abs=1e-3)
    assert result.tilt == pytest.approx(math.degrees(math.atan(0.5)), abs=1e-2)
    assert said(result, "tilts over") == ["fine"]
    high = worked(engine(SIX, [cube("body", 4.0, 0.0, 95.0)], wheels=0.0))
    assert said(high, "tilts over") == ["check"]
    assert (result.overhang_front, result.overhang_back) == (60.0, 60.0)


def test_reckoned_weights_are_set_against_those_told() -> None:
    whole = engine(TANK, [BODY])
    result = worked(whole)
    changes = {one.change[0]: one.change[1] for one in result.findings if one.change}
    assert changes["cylinders.engine_weight"] == pytest.approx(result.working, rel=5e-3)
    assert changes["cylinders.coupled_weight"] == pytest.approx(result.coupled, rel=5e-3)
    told = {one.field: one.value for one in result.suggestions}
    assert told["cylinders.engine_weight"] == changes["cylinders.engine_weight"]
    near = replace(HAULED, engine_weight=result.working, coupled_weight=1.1 * result.coupled)
    again = worked(whole, hauled=near)
    assert not any(one.change for one in again.findings)
    assert said(again, "reckoned part by part") == ["fine", "fine"]
    bought = worked(whole, fixed=frozenset({"cylinders.engine_weight"}))
    assert [one.change[0] for one in bought.findings if one.change] == ["cylinders.coupled_weight"]


def test_a_factor_of_adhesion_as_the_cylinders_have_it() -> None:
    result = worked(engine(SIX, [BODY]))
    assert result.coupled == pytest.approx(result.working)
    assert result.factor == pytest.approx(result.working * 9.80665 / 30.0)
    assert said(result, "factor of adhesion") == ["fine"]
    heavy = worked(engine(SIX, [cube("body", 9.0, 4.0, 40.0)]))
    assert said(heavy, "factor of adhesion") == ["check"]
    light = worked(engine(SIX, [cube("body", 1.0, 4.0, 40.0)]))
    assert said(light, "factor of adhesion") == ["check"]


def test_an_engine_that_tips_is_stopped() -> None:
    result = worked(engine(SIX, [cube("body", 4.0, 90.0, 40.0)]))
    assert result.tips
    assert said(result, "The engine tips") == ["stop"]
    assert min(result.axle_loads) >= 0
    mended = worked(
        engine(SIX, [cube("body", 4.0, 90.0, 40.0)]),
        plain(ballast=(Ballast(mass=6.0, ahead=-80.0),)),
    )
    assert not mended.tips
    assert not said(mended, "tips")


@pytest.mark.parametrize(
    ("parts", "weights", "words", "level"),
    [
        ([BODY], {}, "Of the coupled axles", "fine"),
        ([cube("body", 4.0, 40.0, 40.0)], {}, "Of the coupled axles", "check"),
        ([BODY], {"pull": 5.0}, "Pulling 5.0 N", "fine"),
        ([BODY], {"pull": 60.0}, "Pulling 60.0 N", "check"),
        ([BODY, water("tank water", 0.2, -20.0)], {}, "used up the coupled wheels", "fine"),
        ([BODY, water("tank water", 2.0, -20.0)], {}, "used up the coupled wheels", "check"),
        ([BODY], {"coupled_share": 99.0}, "stands on the coupled wheels", "fine"),
        ([cube("body", 30.0, 8.0, 40.0)], {}, "for a hoist", "fine"),
        (
            [BODY], {"weighed": (Weighed(name="oil", mass=0.9, ahead=0.0, out=30.0),)},
            "The right-hand wheels carry", "check",
        ),
    ],
)  # fmt: skip
def test_what_is_said(parts: list[Part], weights: dict[str, Any], words: str, level: str) -> None:
    assert said(worked(engine(SIX, parts), plain(**weights)), words) == [level]


@pytest.mark.parametrize(
    ("ratio", "ahead", "level"), [(0.05, 8.0, "check"), (0.6, 8.0, "fine"), (8.0, 50.0, "check")]
)
def test_a_truck_is_judged_beside_a_coupled_axle(ratio: float, ahead: float, level: str) -> None:
    body = cube("body", 4.0, ahead, 40.0)
    result = worked(engine(MOGUL, [body]), bearing(leading=ratio))
    assert said(result, "The leading truck carries") == [level]


def test_workings_are_what_the_figures_say() -> None:
    result = worked(engine(MOGUL, [BODY]))
    shown = {one.label: one.result for one in result.workings}
    assert shown["Weight of the body"] == pytest.approx(4.0)
    assert shown["Centre of gravity ahead of the driving axle"] == result.centre_ahead
    assert shown["Factor of adhesion on the reckoned weight"] == result.factor
    (truck,) = (value for label, value in shown.items() if label.startswith("On the springs of"))
    assert truck == pytest.approx(result.sprung_loads[0])
    for one in result.workings:
        assert one.in_numbers()
        assert one.in_symbols()
    two = worked(engine(SIX[:2], [BODY]))
    shown = {one.label: one.result for one in two.workings}
    (front,) = (value for label, value in shown.items() if label.startswith("On the springs of"))
    assert front == pytest.approx(two.sprung_loads[0])
