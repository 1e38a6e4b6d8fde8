"""Axle springs: loads, suggested springs, limits of travel and stress, and the findings."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.springing_for_tests import WHEEL, engine, worked
from weighshaft.measures import GRAVITY
from weighshaft.sizes import SizeError, sizes_of
from weighshaft.springing import (
    CoilSprings,
    LeafSprings,
    Riding,
    Springing,
    SpringingResult,
    TruckSprings,
)
from weighshaft.springing.bed import carried, gyration
from weighshaft.springing.coil import CoilSpring
from weighshaft.springing.leaf import LeafSpring
from weighshaft.springing.riding import Across, Support, dipping, modes, twisted
from weighshaft.trade.densities import density
from weighshaft.trade.springs import WIRE_METALS

STEEL = "music wire"
wires = st.floats(0.3, 5.0)
indexes = st.floats(4.0, 14.0)
forces = st.floats(0.5, 500.0)


def spring_of(wire: float, index: float, turns: float = 6.0, free: float = 50.0) -> CoilSpring:
    return CoilSpring(wire, wire * index, turns, free, "squared and ground", STEEL)


def put(found: tuple[str, Any], springing: Springing) -> Springing:
    """Return decisions with what a button changes."""
    names, value = found[0].split(".")[1:], found[1]
    if len(names) == 1:
        return replace(springing, **{names[0]: value})
    return replace(
        springing, **{names[0]: replace(getattr(springing, names[0]), **{names[1]: value})}
    )


def says(result: SpringingResult, words: str) -> list[Any]:
    return [one for one in result.findings if words in one.says]


# --- one spring -----------------------------------------------------------------------------------


@given(wire=wires, index=indexes, turns=st.floats(2, 20))
def test_rate_goes_with_the_fourth_power_of_wire_and_the_inverse_cube_of_coil(
    wire: float, index: float, turns: float
) -> None:
    one = spring_of(wire, index, turns)
    again = one.rate / one.stuff.shear
    thicker = CoilSpring(2 * wire, one.coil, turns, 50, one.ends, STEEL)
    wider = replace(one, coil=2 * one.coil)
    assert thicker.rate / thicker.stuff.shear == pytest.approx(16 * again)
    assert wider.rate == pytest.approx(one.rate / 8)
    assert replace(one, turns=2 * turns).rate == pytest.approx(one.rate / 2)


@given(wire=wires, index=indexes, force=forces, scale=st.floats(0.2, 5))
def test_stress_goes_with_load_and_with_the_square_of_scale(
    wire: float, index: float, force: float, scale: float
) -> None:
    one = spring_of(wire, index)
    larger = spring_of(scale * wire, index)
    assert one.stress(2 * force) == pytest.approx(2 * one.stress(force))
    assert larger.stress(scale**2 * force) == pytest.approx(one.stress(force))


@given(force=forces, extra=st.integers(0, 3), leaves=st.integers(4, 12))
def test_leaves_alike_bear_less_the_more_there_are(force: float, extra: int, leaves: int) -> None:
    def leaf(count: int) -> LeafSpring:
        return LeafSpring(80, 10, count, 0, 0.5, 6, 3, 0, "spring steel")

    assert leaf(2 * leaves).stress(force) == pytest.approx(leaf(leaves).stress(force) / 2)
    assert leaf(2 * leaves).rate == pytest.approx(2 * leaf(leaves).rate)
    # the even stress is the least that any nip gives
    plain = LeafSpring(80, 10, leaves, extra, 0.5, 6, 3, 0, "spring steel")
    assert plain.stress(force) >= leaf(leaves).stress(force) * (1 - 1e-9)


@pytest.mark.parametrize("metal", WIRE_METALS)
def test_thin_wire_is_stronger(metal: str) -> None:
    sizes = (0.6, 1.0, 1.6, 2.4)
    strengths = [CoilSpring(d, 8 * d, 5, 20, "plain", metal).stuff.tensile for d in sizes]
    assert strengths == sorted(strengths, reverse=True)
    assert strengths[0] > strengths[-1]


# --- loads ----------------------------------------------------------------------------------------


def test_unsprung_parts_come_off_the_load() -> None:
    whole = engine()
    one = carried(whole, (6.0, 6.0, 6.0))[1]
    wheels = 2 * 0.6 * np.pi * (48**2 - 6**2) * 9.0 * density("cast iron")
    axle = np.pi * 36 * 100 * density("mild steel")
    boxes = 2 * 23 * 25 * 9 * density("gunmetal")
    assert one.unsprung == pytest.approx((wheels + axle + boxes) * 1e-9)
    assert one.box == pytest.approx((6.0 - one.unsprung) * GRAVITY / 2)
    driving = worked().axles[1]
    assert driving.force == pytest.approx(one.box / driving.number)
    assert driving.deflection == pytest.approx(driving.force / driving.spring.rate)


def test_gyration_of_a_bar() -> None:
    whole = engine()
    alone = replace(whole, parts=tuple(one for one in whole.parts if one.name == "boiler"))
    assert gyration(alone) == pytest.approx(np.sqrt((380**2 + 100**2) / 12))


def test_two_springs_to_a_box_halve_the_load_of_each() -> None:
    sizes: dict[str, Any] = {"wire": 1.2, "coil": 9.0, "turns": 6.0, "free_length": 30.0}
    one = worked(Springing(springs=CoilSprings(number=1, **sizes))).axles[0]
    two = worked(Springing(springs=CoilSprings(number=2, **sizes))).axles[0]
    assert two.force == pytest.approx(one.force / 2)
    assert two.stress == pytest.approx(one.stress / 2)
    assert two.deflection == pytest.approx(one.deflection / 2)


def test_an_axle_lighter_than_its_wheels_is_stopped() -> None:
    result = worked(loads=(6.0, 0.4, 6.0))
    (found,) = says(result, "nothing is left for its springs")
    assert found.level == "stop"
    assert result.axles[1].force == 0


def test_the_heavier_axle_is_packed_further() -> None:
    result = worked(loads=(5.0, 6.0, 7.0))
    light, middle, heavy = (one.packing for one in result.axles)
    rate = result.axles[0].spring.rate * result.axles[0].number
    assert light == 0
    assert middle == pytest.approx(GRAVITY / 2 / rate, rel=1e-6)
    assert heavy == pytest.approx(2 * middle) == pytest.approx(result.packing)
    tight = worked(Springing(riding=Riding(adjusting=0.1)), loads=(5.0, 6.0, 7.0))
    (found,) = says(tight, "more packing")
    assert found.level == "check"
    after = worked(put(found.change, Springing()), loads=(5.0, 6.0, 7.0))
    assert not says(after, "more packing")


# --- what is suggested ----------------------------------------------------------------------------


@pytest.mark.parametrize("springs", [CoilSprings(), LeafSprings(), LeafSprings(full_length=1)])
@pytest.mark.parametrize("load", [3.0, 12.0, 30.0])
def test_what_is_suggested_gives_as_wanted_and_is_not_overstressed(
    springs: CoilSprings | LeafSprings, load: float
) -> None:
    result = worked(Springing(springs=springs), loads=(load,) * 3)
    assert result.deflection == pytest.approx(2 * 1.5, rel=0.35)
    assert result.stressed < 100
    assert all(one.margin is None or one.margin > 0 for one in result.axles)
    assert not [one for one in result.findings if one.level == "stop"]


def test_suggestions_are_what_was_taken_and_can_be_typed() -> None:
    decisions = Springing()
    result = worked(decisions)
    taken = {one.field: one.value for one in result.suggestions}
    typed = Springing(
        springs=CoilSprings(
            number=int(taken["springing.springs.number"]),
            wire=taken["springing.springs.wire"], coil=taken["springing.springs.coil"],
            turns=taken["springing.springs.turns"],
            free_length=taken["springing.springs.free_length"],
        ),
        riding=Riding(stop=taken["springing.riding.stop"],
                      deflection=taken["springing.riding.deflection"]),
    )  # fmt: skip
    again = worked(typed)
    assert again.axles == result.axles
    assert (again.rate, again.stop, again.fall) == (result.rate, result.stop, result.fall)


def test_a_settled_size_is_not_suggested() -> None:
    result = worked(fixed=frozenset({"springing.springs.wire"}))
    assert "springing.springs.wire" not in {one.field for one in result.suggestions}


def test_given_sizes_are_kept() -> None:
    springing = Springing(springs=CoilSprings(wire=1.1, turns=7.25))
    spring = worked(springing).axles[1].spring
    assert isinstance(spring, CoilSpring)
    assert (spring.wire, spring.turns) == (1.1, 7.25)


def test_trucks_have_springs_of_their_own() -> None:
    whole = engine(truck=260.0)
    result = worked(
        Springing(trucks=TruckSprings(wire=0.9, coil=7.2, turns=6)), whole=whole,
        loads=(2.0, 6.0, 6.0, 6.0),
    )  # fmt: skip
    spring = result.axles[0].spring
    assert isinstance(spring, CoilSpring)
    assert (spring.wire, spring.coil) == (0.9, 7.2)
    assert result.main == 2
    assert any(one.field == "springing.trucks.free_length" for one in result.suggestions)
    assert not any("trucks" in one.field for one in worked().suggestions)


# --- travel, stress and room ----------------------------------------------------------------------

SOFT: dict[str, Any] = {"wire": 0.8, "coil": 6.4, "turns": 6.0}


def test_a_spring_too_short_is_coil_bound_and_the_button_mends_it() -> None:
    springing = Springing(springs=CoilSprings(**SOFT, free_length=9.0))
    result = worked(springing)
    assert result.margin is not None
    assert result.margin < 0
    (found,) = says(result, "coil-bound")
    assert found.level in ("stop", "check")
    after = worked(put(found.change, springing))
    assert after.margin is not None
    assert after.margin > 0
    assert [one.level for one in says(after, "coil-bound")] == ["fine"]


def test_margin_is_what_is_left_at_the_top() -> None:
    result = worked(Springing(springs=CoilSprings(**SOFT, free_length=20.0)))
    one = result.axles[0]
    assert isinstance(one.spring, CoilSpring)
    assert one.margin == pytest.approx(20.0 - one.spring.solid - one.deflection - 1.5)
    assert one.bound_at == pytest.approx(one.spring.rate * (20.0 - one.spring.solid))
    assert one.stress_up == pytest.approx(one.spring.stress(one.force + 1.5 * one.spring.rate))


def test_thin_wire_takes_a_set_and_the_button_mends_it() -> None:
    springing = Springing(springs=CoilSprings(wire=0.6, coil=7.0, turns=3.0))
    result = worked(springing, loads=(9.0,) * 3)
    (found,) = says(result, "take a set")
    assert found.level == "stop"
    assert found.change is not None
    after = worked(put(found.change, springing), loads=(9.0,) * 3)
    assert after.stressed <= 100


def test_springs_slack_before_the_box_is_down() -> None:
    stiff = Springing(springs=CoilSprings(wire=1.6, coil=8.0, turns=3.0))
    result = worked(stiff)
    (found,) = says(result, "are slack before")
    assert found.level == "check"
    assert found.change is not None
    assert not says(worked(put(found.change, stiff)), "are slack before")
    assert not says(worked(), "are slack before")


def test_a_box_without_rise_is_told_and_no_wheel_load_is_made_up() -> None:
    result = worked(whole=engine(rise=0.0))
    (found,) = says(result, "no rise")
    assert found.change == ("clearance.axlebox_rise", pytest.approx(0.96))
    assert result.left is None
    assert result.dip == 0


def test_the_stop_limits_the_fall() -> None:
    # the box's lower edge stands 12.5 below the axle, the stay 24
    free = worked()
    assert free.stop == pytest.approx(11.5 - 1.5)
    assert free.fall == pytest.approx(1.5)
    without = worked(Springing(riding=Riding(stop=0.0)))
    assert without.fall == pytest.approx(11.5)
    (found,) = says(without, "Lifted off the rails")
    assert not says(worked(put(found.change, Springing())), "Lifted off the rails")
    shallow = worked(whole=engine(bottom=-13.5))
    (found,) = says(shallow, "meet their horn stays")
    assert found.change == ("frames.plates.bottom", pytest.approx(14.0))


def test_long_springs_under_the_stay_meet_the_rail() -> None:
    springing = Springing(springs=CoilSprings(wire=0.9, coil=7.2, turns=20.0))
    (found,) = says(worked(springing), "below the rail's top")
    assert found.level == "stop"
    above = worked(put(found.change, springing))
    assert not says(above, "below the rail's top")
    assert says(above, "further up for it")


def test_wide_springs_find_no_room() -> None:
    springing = Springing(springs=CoilSprings(wire=1.4, coil=14.0, turns=4.0))
    (found,) = says(worked(springing), "find room")
    assert found.level == "check"


def test_leaf_springs_that_meet_are_stopped() -> None:
    springing = Springing(springs=LeafSprings(span=140.0))
    (found,) = says(worked(springing), "meet those of the next axle")
    assert not says(worked(put(found.change, springing)), "meet those of the next axle")


def test_a_wrong_nip_is_told() -> None:
    wrong = worked(Springing(springs=LeafSprings(full_length=2, nip=0.0, leaves=8)))
    (found,) = says(wrong, "the right nip")
    right = worked(Springing(springs=LeafSprings(full_length=2, leaves=8)))
    assert not says(right, "the right nip")
    assert f"brings all to {right.axles[0].stress_up:.0f} N/mm²" in found.says


def test_workings_say_what_the_result_says() -> None:
    result = worked()
    by_label = {one.label: one for one in result.workings}
    assert by_label["Rate of a driving spring"].result == pytest.approx(result.rate)
    assert by_label["Load on one driving spring"].result == pytest.approx(result.axles[1].force)
    assert by_label["Length when coil-bound"].result == pytest.approx(result.solid_length)
    assert by_label["Stress with the box at its top"].result == pytest.approx(
        result.axles[1].stress_up
    )
    bounces = by_label["Bounces in a second, were it balanced on its springs"].result
    assert 60 * bounces == pytest.approx(result.bounces, rel=0.02)
    for one in (*result.workings, *worked(Springing(springs=LeafSprings(full_length=1))).workings):
        assert one.in_symbols()
        assert one.in_numbers()


# --- the engine on uneven track -------------------------------------------------------------------

beds = st.lists(
    st.tuples(st.floats(-300, 300), st.floats(0.5, 40)), min_size=1, max_size=5,
    unique_by=lambda one: round(one[0] / 20),
)  # fmt: skip


def by_least_energy(
    supports: tuple[Support, ...],
    across: Across,
    heights: list[tuple[float, float]],
    groups: tuple[tuple[int, ...], ...],
) -> list[tuple[float, float, float]]:
    """Return change of load of left and right wheel, N, and how far the right box falls, mm.

    A stiff body with heave, pitch and roll takes the place in which the springs hold least
    energy, found by least squares; beams bear on their axles in the share of the springs, and
    the wheels follow by moments about each axle.
    """
    rows, wanted, weight, boxes = [], [], [], []
    for left, right in heights:
        mean, tilt = (left + right) / 2, (right - left) / (2 * across.tread)
        boxes.append([mean + side * across.box * tilt for side in (-1, 1)])
    for group in groups:
        whole = sum(supports[n].rate for n in group)
        shares = [supports[n].rate / whole for n in group]
        ahead = sum(s * supports[n].ahead for s, n in zip(shares, group, strict=True))
        for side in (0, 1):
            rows.append([1.0, ahead / 100, (2 * side - 1) * across.box])
            wanted.append(sum(s * boxes[n][side] for s, n in zip(shares, group, strict=True)))
            weight.append(np.sqrt(whole))
    w = np.array(weight)
    place = np.linalg.lstsq(np.array(rows) * w[:, None], np.array(wanted) * w, rcond=None)[0]
    gives = np.array(wanted) - np.array(rows) @ place
    made = []
    for n, one in enumerate(supports):
        g = next(g for g, group in enumerate(groups) if n in group)
        left, right = one.rate * gives[2 * g], one.rate * gives[2 * g + 1]
        half, moment = (left + right) / 2, (right - left) * across.box / (2 * across.tread)
        frame = np.array([1.0, one.ahead / 100, across.box]) @ place
        made.append((half - moment, half + moment, float(frame - boxes[n][1])))
    return made


def grouped(count: int, split: int) -> tuple[tuple[int, ...], ...]:
    """Return axles in a front and a back group, or each by itself where there is no front."""
    if not 0 < split < count:
        return tuple((n,) for n in range(count))
    return tuple(range(split)), tuple(range(split, count))


@settings(max_examples=60, deadline=None)
@given(axles=beds, twist=st.floats(20, 1000), split=st.integers(0, 3))
def test_twist_against_least_energy(
    axles: list[tuple[float, float]], twist: float, split: int
) -> None:
    supports = tuple(Support(x, k, 30.0) for x, k in axles)
    across, groups = Across(35.0, 45.0), grouped(len(axles), split)
    # right rail up by half of the cross level, the left one down
    heights = [(-x / twist / 2, x / twist / 2) for x, _ in axles]
    expected = by_least_energy(supports, across, heights, groups)
    for (lost, moved), (left, right, fell) in zip(
        twisted(supports, across, twist, groups), expected, strict=True
    ):
        assert lost == pytest.approx(max(-left, -right), abs=1e-7)
        assert moved == pytest.approx(abs(fell), abs=1e-7)


@settings(max_examples=60, deadline=None)
@given(axles=beds, split=st.integers(0, 3))
def test_a_dip_against_least_energy(axles: list[tuple[float, float]], split: int) -> None:
    supports = tuple(Support(x, k, 30.0) for x, k in axles)
    across, groups = Across(35.0, 45.0), grouped(len(axles), split)
    middles = [np.average([axles[n][0] for n in g], weights=[axles[n][1] for n in g])
               for g in groups]  # fmt: skip
    assume(len(groups) == 1 or np.ptp(middles) > 5)
    for n, (lost, falls) in enumerate(dipping(supports, across, groups)):
        heights = [(0.0, -1.0 if m == n else 0.0) for m in range(len(axles))]
        _, right, fell = by_least_energy(supports, across, heights, groups)[n]
        assert lost == pytest.approx(-right, rel=1e-6, abs=1e-7)
        if len(groups) > 1:
            assert falls == pytest.approx(fell, rel=1e-6, abs=1e-7)


def test_beams_keep_more_load_on_the_wheels() -> None:
    alone, joined = worked(), worked(groups=((0, 1, 2),))
    assert alone.left is not None
    assert joined.left == pytest.approx(100)
    assert joined.dip is not None
    assert alone.dip is not None
    assert joined.dip >= alone.dip
    assert joined.pitches is None


def test_what_the_weights_say_is_sprung_is_taken() -> None:
    result = worked(sprung_loads=(4.5, 4.75, 5.0))
    assert [one.unsprung for one in result.axles] == pytest.approx([1.5, 1.25, 1.0])
    assert result.axles[2].force == pytest.approx(5.0 * GRAVITY / 4)


def test_bounce_and_pitch_of_a_balanced_engine() -> None:
    supports = (Support(100, 5.0, 0), Support(-100, 5.0, 0))
    bounce, pitch = modes(supports, 8.0, 0.0, 120.0)
    assert bounce == pytest.approx(np.sqrt(20_000 / 8) / (2 * np.pi))
    assert pitch == pytest.approx(np.sqrt(20_000 * 0.1**2 / (8 * 0.12**2)) / (2 * np.pi))


@given(shift=st.floats(-80, 80))
def test_modes_out_of_balance_keep_their_product(shift: float) -> None:
    """The determinant of stiffness over that of mass is the product of both squares."""
    supports = (Support(100, 5.0, 0), Support(-100, 8.0, 0))
    bounce, pitch = modes(supports, 8.0, shift, 120.0)
    assert pitch is not None
    k = np.array([10_000.0, 16_000.0])
    x = (np.array([100.0, -100.0]) - shift) / 1000
    det = k.sum() * (k * x**2).sum() - (k * x).sum() ** 2
    assert (4 * np.pi**2 * bounce * pitch) ** 2 == pytest.approx(det / (8 * 8 * 0.12**2))


def test_a_stiff_engine_lifts_a_wheel_on_twisted_track_and_a_soft_one_does_not() -> None:
    stiff = Springing(springs=CoilSprings(wire=2.5, coil=10.0, turns=2.0), riding=Riding(twist=30))
    result = worked(stiff)
    assert result.left is not None
    assert result.left < 0
    (found,) = says(result, "leaves the rail: its springs")
    assert found.level == "stop"
    soft = worked(replace(stiff, springs=CoilSprings()))
    assert soft.left is not None
    assert soft.left > 40


@given(twist=st.floats(20, 2000))
@settings(max_examples=15, deadline=None)
def test_load_lost_goes_with_the_twist(twist: float) -> None:
    lost = 100 - np.array([one.left for one in worked().axles], dtype=float)
    other = worked(Springing(riding=Riding(twist=twist)))
    again = 100 - np.array([one.left for one in other.axles], dtype=float)
    assert again == pytest.approx(lost * 100 / twist, abs=1e-9)


def test_tilt_and_relief_of_the_boxes() -> None:
    result = worked()
    slope = 3.0 / 71.0  # 1.5 mm each way, boxes 71 mm apart
    assert np.tan(np.radians(result.tilt)) == pytest.approx(slope)
    assert result.relief == pytest.approx(12.5 * slope)
    assert result.bell == pytest.approx(4.5 * slope)
    assert np.tan(np.radians(result.askew)) == pytest.approx(0.05 / 71)


@pytest.mark.parametrize(("clearance", "words"), [(0.0, "no clearance"), (0.6, "knock")])
def test_horn_clearance(clearance: float, words: str) -> None:
    (found,) = says(worked(horn_clearance=clearance), words)
    assert found.change is not None
    assert not says(worked(horn_clearance=found.change[1]), words)


def test_speed_at_which_the_wheels_turn_as_often_as_it_bounces() -> None:
    result = worked()
    turns = result.in_step / 3.6 * 1000 / (np.pi * WHEEL)
    assert 60 * turns == pytest.approx(result.bounces)


# --- refusals -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "sizes", "words"),
    [
        (CoilSprings, {"wire": 2.0, "coil": 3.0}, "cannot be wound"),
        (TruckSprings, {"wire": 2.0, "coil": 3.0}, "cannot be wound"),
        (LeafSprings, {"leaves": 3, "full_length": 3}, "no master leaf"),
        (LeafSprings, {"span": 50.0, "buckle": 40.0}, "nothing to bend"),
        (CoilSprings, {"turns": 0.0}, "out of range"),
        (CoilSprings, {"metal": "string"}, "is not one of"),
    ],
)
def test_sizes_that_cannot_be(kind: Any, sizes: dict[str, Any], words: str) -> None:
    with pytest.raises(SizeError, match=words):
        kind(**sizes)


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_whatever_is_typed_nothing_but_numbers_comes_out(data: st.DataObject) -> None:
    def drawn(kind: Any) -> Any:
        values = {}
        for name, about in sizes_of(kind).items():
            if not data.draw(st.booleans()):
                continue
            if about.unit == "choice":
                values[name] = data.draw(st.sampled_from(about.choices))
            elif name in ("number", "leaves", "full_length"):
                values[name] = data.draw(st.integers(int(about.low), int(about.high)))
            else:
                values[name] = data.draw(st.floats(max(about.low, 0.05), about.high))
        return kind(**values)

    try:
        springing = Springing(
            springs=drawn(data.draw(st.sampled_from((CoilSprings, LeafSprings)))),
            riding=drawn(Riding),
        )
    except SizeError:
        return
    result = worked(springing)
    for name in sizes_of(SpringingResult):
        value = getattr(result, name)
        assert value is None or np.isfinite(value), name
    for one in result.suggestions:
        put((one.field, one.value), springing)
