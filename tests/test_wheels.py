"""Wheels and axles: what fits across and along, on which curve, under which load."""

import dataclasses
import math
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.wheels_for_tests import LARGE, SMALL, inside, outside
from weighshaft.findings import Finding
from weighshaft.fits import KeyedSeat, RetainedSeat
from weighshaft.sizes import SizeError, sizes_of
from weighshaft.wheels import Quartering, Wheels, WheelsResult, work
from weighshaft.wheels.curve import circle_through, layout, reach, smallest

CLOSES = 1e-9  # mm: sums of a few dozen floats
STEEP = 89.99  # a flange so steep that standing askew costs nothing: chord geometry alone


def stops(result: WheelsResult) -> list[Finding]:
    return [finding for finding in result.findings if finding.level == "stop"]


# --- the two engines --------------------------------------------------------------------


def test_both_engines_work_without_a_stop() -> None:
    for result in (work(outside(), **SMALL), work(inside(), **LARGE)):
        assert not stops(result)
        for name in sizes_of(WheelsResult):
            value = getattr(result, name)
            assert value is None or isinstance(value, (str, tuple)) or math.isfinite(value), name


def test_decisions_can_be_kept_in_a_cache() -> None:
    assert hash(outside()) == hash(outside())
    assert outside() == outside()


def test_at_most_six_sizes_are_main() -> None:
    made, count = outside(), 0
    for part in (made, made.across, made.cylinders, made.between, made.tyres, made.seat):
        count += sum(about.main for about in sizes_of(type(part)).values())
    assert count <= 6


# --- across the engine ------------------------------------------------------------------


def test_chain_across_adds_up() -> None:
    result = work(outside(), **SMALL)
    # half back to back 20, tyre 6, boss 0.5, gap 0.2, rod 2.5, cap 0.6; axle slides 0.4;
    # the crosshead, 6 wide, has its middle at 34
    assert result.wheel_face == pytest.approx(26.0)
    assert result.rod_outside == pytest.approx(29.2)
    assert result.pin_outside == pytest.approx(29.8)
    assert result.pin_clearance == pytest.approx(34 - 3 - 29.8 - 0.4)
    # connecting rod 3 wide in line with the cylinder
    assert result.rod_washer == pytest.approx(34 - 1.5 - 29.2)
    assert result.width == pytest.approx(2 * (34 + 12))


@given(centres=st.floats(50, 90), cap=st.floats(0, 3), play=st.floats(0, 2), width=st.floats(3, 12))
def test_a_foul_is_named_and_its_button_mends_it(
    centres: float, cap: float, play: float, width: float
) -> None:
    def at(cylinders_apart: float) -> WheelsResult:
        wheels = outside(
            {"pin_cap": cap, "side_play": (play,)},
            {"centres": cylinders_apart, "crosshead_width": width},
            {"frame_spacing": 28.0, "sheaves": 0},
        )
        return work(wheels, **SMALL)

    result = at(centres)
    assert result.pin_clearance is not None
    fouls = [f for f in stops(result) if "fouls the crosshead" in f.says]
    assert bool(fouls) == (result.pin_clearance <= 0)
    if fouls:
        assert f"{-result.pin_clearance:.2f} mm" in fouls[0].says
        assert "crankpin" in fouls[0].says
        assert fouls[0].change is not None
        mended = at(float(fouls[0].change[1]))
        assert mended.pin_clearance == pytest.approx(result.pin_clearance_wanted, abs=0.01)


def test_no_pin_passes_when_the_first_axle_is_driven() -> None:
    result = work(outside(driven_axle=1), **SMALL)
    assert result.pin_clearance is None
    assert any("no crankpin passes" in finding.says for finding in result.findings)


def test_a_long_rod_keeps_the_crosshead_ahead_of_every_pin() -> None:
    assert work(outside(), **SMALL | {"connecting_rod": 120.0}).pin_clearance is None
    assert work(outside(), **SMALL | {"connecting_rod": None}).pin_clearance is not None


def test_rods_that_cross_are_a_stop() -> None:
    result = work(outside(cylinders={"centres": 60.0}), **SMALL)
    assert result.rod_washer is not None
    assert result.rod_washer < 0
    assert any("inside the outer face of the coupling rod" in f.says for f in stops(result))


def test_wheel_that_runs_into_the_cylinder() -> None:
    # wheel: 48 ahead, 21 radius, 2 flange = 71; tyre face 26.4 with its play; cylinder from 22
    result = work(outside(), **SMALL | {"cylinder_back": 70.0})
    assert any("wheel of axle 1 reaches 71.0 mm" in finding.says for finding in stops(result))
    assert not stops(work(outside(), **SMALL | {"cylinder_back": 71.1}))


def test_width_is_judged_by_the_prototype_or_the_line() -> None:
    def wide(limit: float | None, scaled: float | None) -> list[Finding]:
        result = work(outside({"width_limit": limit}), **SMALL | {"scaled_width": scaled})
        return [f for f in result.findings if "mm wider than" in f.says]

    assert not wide(None, 109)
    assert wide(None, 89)
    assert wide(90.0, 109)
    assert not wide(None, None)


# --- along the axle ---------------------------------------------------------------------

MILLIMETRES = st.floats(0.0, 12.0)


@given(
    spacing=st.floats(5, 60), plate=st.floats(0.5, 4), box_in=MILLIMETRES, box_out=MILLIMETRES,
    sheaves=st.integers(0, 6), width=st.floats(0.5, 8), play=st.floats(0, 2),
    collar=st.none() | MILLIMETRES, boss=MILLIMETRES, cranks=st.booleans(),
)  # fmt: skip
def test_the_row_closes_whatever_goes_in(
    spacing: float, plate: float, box_in: float, box_out: float, sheaves: int, width: float,
    play: float, collar: float | None, boss: float, cranks: bool,
) -> None:  # fmt: skip
    between = {
        "frame_spacing": spacing, "frame_thickness": plate, "axlebox_inside": box_in,
        "axlebox_outside": box_out, "sheaves": sheaves, "sheave_width": width, "collar": collar,
        "boss_inside": boss,
    }  # fmt: skip
    if cranks:
        wheels = inside(between=between)
        result = work(wheels, **LARGE)
    else:
        wheels = outside({"side_play": (play,)}, between=between)
        result = work(wheels, **SMALL)
    assert sum(part.width for part in result.stack) == pytest.approx(
        result.back_to_back, abs=CLOSES
    )
    assert result.stack[-1].end == pytest.approx(result.back_to_back, abs=CLOSES)
    for one, after in pairwise(result.stack):
        assert after.start == pytest.approx(one.end, abs=CLOSES)
    # the row is the same from either side, odd sheaves apart
    if sheaves % 2 == 0:
        widths = [part.width for part in result.stack]
        assert widths == pytest.approx(widths[::-1], abs=CLOSES)


def test_closing_collar_is_what_is_left() -> None:
    result = work(outside(), **SMALL)
    # 32 between plates, 1.5 axlebox each, 0.3 play + 0.2 clear each end, 4 × 3.2, two gaps
    assert result.collar == pytest.approx(32 - 3 - 1.0 - 12.8 - 0.4)
    assert result.clearance_left == pytest.approx(0.2)
    # washers: 20 - 16 - 2 - 1 = 1 mm from axlebox to wheel, less each axle's play
    assert result.washers == pytest.approx((0.6, 0.7, 0.6))
    shorter = work(outside(between={"collar": 14.0}), **SMALL)
    assert shorter.clearance_left == pytest.approx(0.2 + 0.4)
    longer = work(outside(between={"collar": 15.4}), **SMALL)
    assert any("longer than the row leaves" in finding.says for finding in stops(longer))


def test_cranks_stand_where_the_cylinders_are() -> None:
    wheels = inside()
    result = work(wheels, **LARGE)
    pins = [part for part in result.stack if part.kind == "big end"]
    middles = [(part.start + part.end) / 2 - result.back_to_back / 2 for part in pins]
    assert middles == pytest.approx([-41.275 / 2, 41.275 / 2])
    # 41.275 - 7.9375 - 2 × 5.55625 = 22.225 between the inner webs
    assert result.collar == pytest.approx(22.225 - 4 * 4.7625 - 4 * 0.381)
    assert result.big_end_float == pytest.approx(7.9375 - 7.67)
    assert result.bore_wall == pytest.approx((76.2 - 41.275 - 28.575) / 2)


def test_sheaves_too_wide_for_the_cranks_and_the_button_that_mends() -> None:
    result = work(inside(between={"sheave_width": 6.0}), **LARGE)
    (stop,) = stops(result)
    assert "between the crank webs" in stop.says
    assert stop.change is not None
    assert stop.change[0] == "wheels.between.sheave_width"
    narrow = inside(between={"sheave_width": float(stop.change[1])})
    assert not stops(work(narrow, **LARGE))


def test_least_sheave() -> None:
    result = work(outside(), **SMALL)
    assert result.least_sheave == pytest.approx(6 + 2 * 3 + 2 * 1.2)
    small = work(outside(between={"sheave_diameter": 11.9}), **SMALL)
    assert any("leaves -0.05 mm" in finding.says for finding in stops(small))
    thin = work(outside(between={"sheave_diameter": 13.0}), **SMALL)
    assert any(f.level == "check" and "leaves 0.50 mm" in f.says for f in thin.findings)
    unknown = work(outside(), **SMALL | {"eccentric_throw": None})
    assert any("no eccentric throw is known" in finding.says for finding in unknown.findings)


def test_axlebox_that_takes_the_side_play_away() -> None:
    result = work(outside({"side_play": (1.2,)}), **SMALL)
    assert any("cannot give the side play of 1.20 mm" in finding.says for finding in stops(result))


def test_bores_between_frames() -> None:
    result = work(inside(cylinders={"centres": 49.0}), **LARGE)
    assert any("Bores of 28.575 mm" in f.says for f in stops(result))


def test_inside_crosshead_over_the_leading_axle() -> None:
    level = work(inside(), **LARGE | {"inclination": 0.0})
    (stop,) = [finding for finding in stops(level) if "over axle 1" in finding.says]
    assert stop.change is not None
    angle = float(stop.change[1])
    assert 146 * math.sin(math.radians(angle)) > 12.7 / 2 + 8.0
    assert not stops(work(inside(), **LARGE | {"inclination": angle}))
    assert not stops(work(inside(), **LARGE | {"inclination": 0.0, "cylinder_offset": 15.0}))


# --- curves -----------------------------------------------------------------------------


@st.composite
def wheelbases(draw: Any) -> tuple[tuple[float, ...], tuple[float, ...], float]:
    """Positions from the front, side plays, and what the gauge leaves, mm."""
    spacings = draw(st.lists(st.floats(30, 150), min_size=2, max_size=4))
    positions = tuple(-sum(spacings[:n]) for n in range(len(spacings) + 1))
    plays = tuple(draw(st.floats(0.0, 2.0)) for _ in positions)
    return positions, plays, draw(st.floats(0.4, 3.0))


def room(positions: tuple[float, ...], freedoms: tuple[float, ...], radius: float) -> float:
    """Return the most room for straight frames on the curve, by trying every place of its crown."""
    crowns = np.linspace(min(positions), max(positions), 4001)[:, None]
    drop = np.sqrt(radius**2 - (np.array(positions) - crowns) ** 2)
    low, high = (drop - np.array(freedoms)).max(axis=1), (drop + np.array(freedoms)).min(axis=1)
    return float((high - low).max())


@given(wheelbases())
def test_smallest_radius_against_trial_of_every_place(
    case: tuple[tuple[float, ...], tuple[float, ...], float],
) -> None:
    positions, plays, rail = case
    limit = smallest(positions, plays, rail, 25.0, STEEP, 89.0)
    assume(len(limit.axles) == 3 and limit.radius < 1e5)
    freedoms = tuple(play + rail / 2 for play in plays)
    # the room changes by about v for a change of the radius by its own size
    assert room(positions, freedoms, limit.radius * 1.01) > 0
    assert room(positions, freedoms, limit.radius * 0.99) < 0
    drawn = layout(positions, plays, rail, 45.0, limit.radius * 1.001, ())
    assert drawn.passes
    for axle, play in zip(drawn.axles, plays, strict=True):
        assert abs(axle.shift) <= play
        track = drawn.centre[1] + math.sqrt(drawn.radius**2 - (axle.ahead - drawn.centre[0]) ** 2)
        assert abs(track - axle.shift) <= rail / 2 + 1e-6


@given(wheelbases(), st.integers(0, 4), st.floats(0.0, 3.0))
def test_more_side_play_never_needs_a_larger_curve(
    case: tuple[tuple[float, ...], tuple[float, ...], float], which: int, more: float
) -> None:
    positions, plays, rail = case
    which = min(which, len(plays) - 1)
    wider = tuple(play + (more if n == which else 0.0) for n, play in enumerate(plays))
    before = smallest(positions, plays, rail, 25.0, 20.0, 12.0).radius
    after = smallest(positions, wider, rail, 25.0, 20.0, 12.0).radius
    assert after <= before * (1 + 1e-9)
    assert smallest(positions, plays, rail + more, 25.0, 20.0, 12.0).radius <= before * (1 + 1e-9)


@given(wheelbases(), st.floats(0.2, 5.0))
def test_curve_of_a_mirrored_and_of_a_scaled_engine(
    case: tuple[tuple[float, ...], tuple[float, ...], float], k: float
) -> None:
    positions, plays, rail = case
    radius = smallest(positions, plays, rail, 25.0, 20.0, 12.0).radius
    assume(radius < 1e5)
    turned = tuple(-x for x in positions[::-1])
    assert smallest(turned, plays[::-1], rail, 25.0, 20.0, 12.0).radius == pytest.approx(
        radius, rel=1e-9
    )
    scaled = smallest(
        tuple(k * x for x in positions), tuple(k * p for p in plays), k * rail, k * 25, 20.0, 12.0
    )
    assert scaled.radius == pytest.approx(k * radius, rel=1e-9)


def test_circle_through_three_points() -> None:
    radius, centre = circle_through((3, 4), (5, 0), (-4, 3))
    assert radius == pytest.approx(5)
    assert centre == pytest.approx((0, 0))
    assert math.isinf(circle_through((0, 0), (1, 1), (2, 2))[0])


@pytest.mark.parametrize("askew", [1.0, 5.0, 10.0])
def test_reach_of_a_wheel_that_stands_askew(askew: float) -> None:
    # the wheel as it is: at v ahead of the axle the flange meets the rail's top at the radius
    # sqrt(r^2 + v^2), where its face has receded by the slope; seen square to the rail
    r, beta = 21.0, 20.0
    v = np.linspace(0, r, 20_001)
    receded = (np.hypot(r, v) - r) * math.tan(math.radians(beta))
    tilt = math.radians(askew)
    exact = float((v * math.sin(tilt) - receded * math.cos(tilt)).max())
    ahead = 1000.0 * math.sin(tilt)
    assert reach(ahead, 1000.0, r, beta) == pytest.approx(exact, rel=0.15)


def test_two_axles_are_limited_by_their_flanges_and_the_angle() -> None:
    tight = smallest((0.0, -68.0), (0.4, 0.4), 0.2, 17.0, 20.0, 12.0)
    assert "flanges" in tight.rule
    # both flanges reach out at once: twice the reach is what the gauge leaves
    assert 2 * reach(34.0, tight.radius, 17.0, 20.0) == pytest.approx(0.2)
    loose = smallest((0.0, -68.0), (0.4, 0.4), 5.0, 17.0, 20.0, 12.0)
    assert loose.radius == pytest.approx(68 / (2 * math.sin(math.radians(12))))


def test_curve_wanted_is_judged() -> None:
    result = work(outside(radius_wanted=300.0), **SMALL)
    assert any("0.30 m is wanted" in finding.says for finding in stops(result))
    assert not stops(work(outside(radius_wanted=result.smallest_radius * 1.001), **SMALL))


def test_truck_stands_off_the_frames_by_the_curve() -> None:
    wheels = outside({"side_play": (0.0,)}, leading_truck=73.3, radius_wanted=1000.0)
    result = work(wheels, **SMALL)
    # frames as a chord of the track 96 long: 48 + 73.3 from the middle
    fall = (48 + 73.3) ** 2 / 2000
    assert result.leading_swing == pytest.approx(fall, abs=48**2 / 2000 + 0.1)
    assert result.total_wheelbase == pytest.approx(169.3)


# --- loads and rods ---------------------------------------------------------------------


def test_thrust_on_the_journals_by_moments() -> None:
    # two supports, two opposite loads outside them, solved as a pair of equations
    zc, zj, load = 34.0, 17.0, 70.0
    far, near = np.linalg.solve([[1.0, 1.0], [-zj, zj]], [load - load, load * zc + (-load) * (-zc)])
    assert abs(near) == pytest.approx(abs(far))
    wheels = outside(between={"axlebox_outside": 2.0, "axlebox_inside": 0.0})  # zj = 16 + 1 + 1
    values = {one.label: one for one in work(wheels, **SMALL).workings}
    thrust = values["Thrust on a journal"]
    assert thrust.values["z_j"] == pytest.approx(18.0)
    assert thrust.result * 18 / 17 == pytest.approx(near)


def test_axle_and_seat_by_hand() -> None:
    result = work(outside(), **SMALL)
    assert result.seat_torque == pytest.approx(70 * 10)
    assert result.twist == pytest.approx(16 * 700 / (math.pi * 216))
    assert result.axle_stress == pytest.approx(math.hypot(result.bending, 3**0.5 * result.twist))
    assert result.driving_pin_pressure == pytest.approx(70 / (3.5 * 3))
    # two cranks at right angles pull together at 45 degrees
    assert work(inside(), **LARGE).seat_torque == pytest.approx(352.7 * 20.6375 * 2**0.5)


def test_weak_seat_and_hot_seat() -> None:
    weak = outside(seat=KeyedSeat(length=6.0, key_width=1.0, key_height=1.0, key_length=3.0))
    assert any("wheel seat carries" in finding.says for finding in stops(work(weak, **SMALL)))
    hot = outside(seat=RetainedSeat(length=6.5, temperature=160.0))
    assert any("160 °C" in finding.says for finding in stops(work(hot, **SMALL)))


def closes(
    r: float, length: float, epsilon: float, left: float, right: float, clearance: float,
    gamma: float,
) -> bool:  # fmt: skip
    """Try a turn of two axles: is there always a place of the free one that suits both rods?

    Exact distances between the pins; the second axle lags by a trial angle, its right-hand
    crank by epsilon more; rods are `left` and `right` longer than the axle centres.
    """
    lag = np.linspace(-0.03, 0.03, 6001)
    for theta in np.radians(np.arange(0.0, 360.0, 2.5)):
        fits = np.ones_like(lag, dtype=bool)
        for crank, extra, error in ((theta, 0.0, left), (theta + gamma, epsilon, right)):
            dx = length + r * (np.cos(crank + lag + extra) - np.cos(crank))
            dy = r * (np.sin(crank + lag + extra) - np.sin(crank))
            fits &= np.abs(np.hypot(dx, dy) - length - error) <= clearance
        if not fits.any():
            return False
    return True


@pytest.mark.parametrize("gamma", [90.0, 120.0])
@pytest.mark.parametrize(("degrees", "centre"), [(0.5, 0.0), (0.0, 0.05), (0.4, 0.03)])
def test_bush_clearance_against_rods_laid_out(gamma: float, degrees: float, centre: float) -> None:
    r, length = 10.0, 400.0  # a long rod keeps the second order out
    wheels = outside(
        quartering=Quartering(quartering_error=degrees, centre_error=centre),
        wheelbase=(length, length),
    )
    needed = work(wheels, **SMALL | {"crank_angle": gamma}).bush_needed
    worst = [
        closes(r, length, math.radians(degrees), left, right, clearance, math.radians(gamma))
        for clearance in (needed * 1.03, needed * 0.95)
        for left in (centre, -centre)
        for right in (centre, -centre)
    ]
    assert all(worst[:4])
    assert not all(worst[4:])


def test_lifted_axle_needs_clearance_too() -> None:
    level = work(outside(), **SMALL).bush_needed
    wheels = outside(quartering=Quartering(axle_lift=2.0))
    assert work(wheels, **SMALL).bush_needed == pytest.approx(
        level + math.hypot(48, 2) - 48, abs=1e-12
    )


# --- standards, buttons, refusals -------------------------------------------------------


def test_unknown_standard_is_said_and_the_usual_one_taken() -> None:
    result = work(outside(standard="Uncle's own"), **SMALL)
    (finding,) = [f for f in result.findings if "Uncle's own" in f.says]
    assert finding.level == "check"
    assert finding.change == ("wheels.standard", "G1MRA Standard (2009 and later)")
    assert result.back_to_back == pytest.approx(40.0)


def test_wheels_wider_than_the_rails() -> None:
    result = work(outside(back_to_back=43.0), **SMALL)
    (stop,) = [finding for finding in stops(result) if "do not go between rails" in finding.says]
    assert stop.change is not None
    assert work(outside(back_to_back=float(stop.change[1])), **SMALL).flange_play > 0


def test_bought_parts_are_left_alone() -> None:
    path = "wheels.cylinders.centres"
    wheels = outside(cylinders={"centres": 62.0})
    free = work(wheels, **SMALL)
    assert any(f.change and f.change[0] == path for f in free.findings)
    assert any(one.field == path for one in free.suggestions)
    bought = work(wheels, **SMALL, fixed=frozenset({path}))
    assert not any(f.change and f.change[0] == path for f in bought.findings)
    assert not any(one.field == path for one in bought.suggestions)
    assert [f.says for f in bought.findings] == [f.says for f in free.findings]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"driven_axle": 4}, "1 to 3 would do"),
        ({"across": {"side_play": (0.1, 0.2)}}, "1 figure for all, or 3"),
        ({"across": {"side_play": ()}}, "at least one figure"),
        ({"axle_diameter": math.nan}, "finite"),
        (
            {"seat": KeyedSeat(length=6, key_width=4, key_height=4, key_length=5)},
            "too big for an axle of 6 mm",
        ),
    ],
)
def test_refusals_say_what_would_do(change: dict[str, Any], words: str) -> None:
    with pytest.raises(SizeError, match=words):
        outside(**change)


def test_sheaves_are_those_of_the_gear_unless_counted() -> None:
    def sheaves(between: dict[str, Any], gear: int) -> int:
        result = work(outside(between=between), **SMALL | {"gear_sheaves": gear})
        return sum(part.kind == "sheave" for part in result.stack)

    assert sheaves({}, 4) == 4
    assert sheaves({}, 0) == 0
    assert sheaves({"sheaves": 5}, 4) == 5  # one more for a pump
    assert sheaves({"sheaves": 0}, 4) == 0


def test_the_grip_is_the_one_decided() -> None:
    less, more = (work(outside(), **SMALL | {"adhesion": grip}) for grip in (0.1, 0.2))
    assert more.grip_torque == pytest.approx(2 * less.grip_torque)
    assert less.grip_torque == pytest.approx(0.1 * 3.3 * 9.80665 / 2 * 21)


def test_every_path_is_a_decision() -> None:
    def at(wheels: Wheels, path: str) -> None:
        place: Any = wheels
        for step in path.split(".")[1:]:
            names = {field.name for field in dataclasses.fields(place)}
            assert step in names, path
            place = getattr(place, step)

    for wheels, given_ in ((outside(), SMALL), (inside(), LARGE)):
        result = work(wheels, **given_)
        for finding in result.findings:
            for path in finding.fields:
                if path.startswith("wheels."):
                    at(wheels, path)
        for suggestion in result.suggestions:
            at(wheels, suggestion.field)


def test_workings_show_what_they_evaluate() -> None:
    import sympy

    for wheels, given_ in ((outside(), SMALL), (inside(), LARGE)):
        for one in work(wheels, **given_).workings:
            symbols = {name: sympy.Symbol(name, positive=True) for name in one.values}
            expression = sympy.sympify(one.relation.function(**symbols))
            value = expression.subs({symbols[name]: x for name, x in one.values.items()})
            assert float(value) == pytest.approx(one.result, rel=1e-6, abs=1e-9), one.label
            assert one.in_symbols().startswith(one.relation.result)
