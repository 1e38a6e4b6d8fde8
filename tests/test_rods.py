"""Rods and balance: against beams, struts and turning masses reckoned in another way."""

from __future__ import annotations

import cmath
import dataclasses
import math
from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.linalg import eigh
from scipy.optimize import linprog

from tests.rods_for_tests import at, done, engine, put, sample, worked
from weighshaft.findings import Finding
from weighshaft.frames import Part, disc
from weighshaft.measures import GRAVITY
from weighshaft.motion.frame import Crank
from weighshaft.rods import (
    BalanceWeights,
    CouplingRods,
    Rods,
    RodsResult,
    SmallEnd,
    Weighed,
    relations,
)
from weighshaft.rods.balance import Engine, Ring, balanced
from weighshaft.rods.decisions import DRIVING, IN_LINE, OPPOSITE, RIGID
from weighshaft.rods.masses import Turned, big_share, pin_shares, riding, turning
from weighshaft.rods.slidebars import acceleration, on_the_bars
from weighshaft.rods.strength import Shape, crippling
from weighshaft.sizes import SizeError, sizes_of

NAMES = ("rowan", "hartfell", "dunnock", "tansy", "wagtail")


def says(result: RodsResult, words: str) -> list[Finding]:
    return [one for one in result.findings if words in one.says]


# --- decisions --------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_every_sample_works_from_defaults_without_a_stop(name: str) -> None:
    result = worked(name)
    assert not [one for one in result.findings if one.level == "stop"]
    for field in sizes_of(RodsResult):
        value = getattr(result, field)
        assert value is None or math.isfinite(value), field


def test_four_to_six_figures_are_the_main_ones_and_so_are_few_decisions() -> None:
    assert 4 <= sum(one.main for one in sizes_of(RodsResult).values()) <= 6
    groups = (Rods, CouplingRods, SmallEnd, BalanceWeights, Weighed)
    assert sum(one.main for group in groups for one in sizes_of(group).values()) <= 6


def test_bad_sizes_are_refused_in_words() -> None:
    with pytest.raises(SizeError, match=r"Coupling rod, depth.*out of range"):
        CouplingRods(depth=0.0)
    with pytest.raises(SizeError, match=r"inner radius: 20 mm is not within the outer one of 15"):
        BalanceWeights(outside=15.0, inside=20.0)


@pytest.mark.parametrize("name", ["rowan", "hartfell"])
def test_an_empty_size_really_takes_the_suggestion(name: str) -> None:
    empty = Rods(coupling=CouplingRods(flute=0.3))
    result = worked(name, empty)
    written = empty
    for one in result.suggestions:
        assert at(empty, one.field) is None
        written = put(written, one.field, one.value)
    again = worked(name, written)
    # suggestions are rounded to a hundredth
    for field in sizes_of(RodsResult):
        value = getattr(result, field)
        if value is not None:
            assert getattr(again, field) == pytest.approx(value, rel=0.02), field


def test_suggestions_for_what_a_bought_part_settled_are_left_out() -> None:
    fixed = frozenset({"rods.coupling.depth"})
    assert "rods.coupling.depth" in [one.field for one in worked("rowan").suggestions]
    assert "rods.coupling.depth" not in [
        one.field for one in worked("rowan", fixed=fixed).suggestions
    ]


def test_findings_name_sizes_that_there_are() -> None:
    design = sample("hartfell")
    rods = Rods(coupling=CouplingRods(depth=1.0, joint=RIGID), top_speed=100.0)
    for one in worked("hartfell", rods).findings:
        for path in (*one.fields, *([one.change[0]] if one.change else [])):
            design.at(path)


def test_the_job_passes_what_the_chapter_rests_on() -> None:
    design = sample("rowan")
    before = done(design)
    assert before.rods.running_speed == before.scale.running_speed
    changed = done(design.changed({"rods.top_speed": 12})).rods
    assert changed.top_speed == 12.0
    assert changed.blow == before.rods.blow


# --- centres ----------------------------------------------------------------------------


def test_bushes_at_the_stops_take_the_wheels_figure_and_add_the_longer_way() -> None:
    given_ = engine("hartfell")
    rise, lift = given_["whole"].rise, given_["wheels"].quartering.axle_lift
    short = min(given_["wheels"].wheelbase)
    more = math.dist((0, 0), (short, 2 * rise)) - math.dist((0, 0), (short, lift))
    result = worked("hartfell")
    assert result.bush_at_stops == pytest.approx(given_["bush_needed"] + more)
    for one, apart in zip(result.stretches, given_["wheels"].wheelbase, strict=True):
        assert one.apart == pytest.approx(apart)
        assert one.one_up == pytest.approx(math.hypot(apart, rise) - apart)


@given(st.floats(20, 200), st.floats(20, 200), st.floats(0.02, 0.5))
@settings(max_examples=15, deadline=None)
def test_a_rigid_rod_follows_the_middle_axle_by_its_clearance(
    a: float, b: float, clearance: float
) -> None:
    """Find the rod's place that needs the least clearance by linear programming, and compare."""
    off = relations.rigid_play(c=clearance)
    rows, limits = [], []
    for place, height in ((-a, 0.0), (0.0, off), (b, 0.0)):
        # |height - shift - tilt place| is at most half the clearance that is looked for
        rows += [[-1.0, -place / 100, -0.5], [1.0, place / 100, -0.5]]
        limits += [-height, height]
    best = linprog([0, 0, 1], rows, limits, bounds=[(None, None), (None, None), (0, None)])
    assert best.fun == pytest.approx(clearance)


def test_a_rigid_rod_that_cannot_follow_is_named_and_mended_by_a_knuckle() -> None:
    rods = Rods(coupling=CouplingRods(joint=RIGID))
    result = worked("hartfell", rods)
    (stop,) = [one for one in result.findings if one.level == "stop"]
    assert "1.59 mm" in stop.says
    assert "0.13 mm" in stop.says
    assert stop.change is not None
    mended = worked("hartfell", put(rods, *stop.change))
    assert not [one for one in mended.findings if one.level == "stop"]
    assert mended.layout.knuckles == pytest.approx([-0.9 * mended.layout.eye])


def test_two_axles_need_no_knuckle() -> None:
    result = worked("tansy", Rods(coupling=CouplingRods(joint=RIGID)))
    assert (result.rigid_play, result.knuckle_pressure, result.layout.knuckles) == (None, None, ())
    assert not says(result, "rigid rod")


# --- strength ---------------------------------------------------------------------------


def test_section_with_flutes_against_a_fine_grid() -> None:
    shape = Shape(12.0, 6.0, 1.7, 7.0)
    step = 0.01
    y = np.arange(-6 + step / 2, 6, step)[:, None]
    z = np.arange(-3 + step / 2, 3, step)[None, :]
    metal = (np.abs(y) > 3.5) | (np.abs(z) < 1.3)
    cell = step**2
    assert shape.area == pytest.approx(metal.sum() * cell, rel=1e-3)
    assert shape.upright == pytest.approx((metal * y**2).sum() * cell, rel=2e-3)
    assert shape.sideways == pytest.approx((metal * z**2).sum() * cell, rel=2e-3)


@pytest.mark.parametrize(("sideways", "held"), [(False, False), (True, True)])
def test_buckling_against_the_first_mode_of_a_row_of_beams(sideways: bool, held: bool) -> None:
    shape, length, n = Shape(5.0, 2.5), 60.0, 24
    inertia = shape.sideways if sideways else shape.upright
    part = length / n
    stiff = (
        np.array(
            [
                [12, 6 * part, -12, 6 * part],
                [6 * part, 4 * part**2, -6 * part, 2 * part**2],
                [-12, -6 * part, 12, -6 * part],
                [6 * part, 2 * part**2, -6 * part, 4 * part**2],
            ]
        )
        * 205000
        * inertia
        / part**3
    )
    bowed = np.array([[36, 3 * part, -36, 3 * part],
                      [3 * part, 4 * part**2, -3 * part, -part**2],
                      [-36, -3 * part, 36, -3 * part],
                      [3 * part, -part**2, -3 * part, 4 * part**2]]) / (30 * part)  # fmt: skip
    k = np.zeros((2 * n + 2, 2 * n + 2))
    g = np.zeros_like(k)
    for i in range(n):
        where = slice(2 * i, 2 * i + 4)
        k[where, where] += stiff
        g[where, where] += bowed
    fixed = {0, 2 * n} | ({1, 2 * n + 1} if held else set())
    free = [i for i in range(2 * n + 2) if i not in fixed]
    # k v = P g v, turned about so that the matrix on the right is positive
    least = 1 / eigh(g[np.ix_(free, free)], k[np.ix_(free, free)], eigvals_only=True).max()
    euler, rankine = crippling(shape, "mild steel", length, sideways)
    assert euler == pytest.approx(least, rel=1e-4)
    assert rankine < min(euler, 225.0 * shape.area)
    assert 1 / rankine == pytest.approx(1 / euler + 1 / (225.0 * shape.area))


@pytest.mark.parametrize("growing", [False, True])
def test_whip_moments_against_the_summed_load(growing: bool) -> None:
    mass, throw, omega, long = 9e-5, 20.0, 90.0, 130.0
    x = np.linspace(0, long, 20001)
    load = mass * omega**2 * throw / 1000 * (x / long if growing else np.ones_like(x))
    if not growing:
        load = load + mass * GRAVITY
    step = x[1] - x[0]
    right = float((load * x).sum() * step / long)
    left = float(load.sum() * step) - right
    moment = left * x - np.cumsum(np.cumsum(load) * step) * step
    ours = (
        relations.rod_whip_moment(m=mass, r=throw, omega=omega, l=long) if growing
        else relations.even_moment(
            w=relations.whip_load(m=mass, r=throw, omega=omega, g=GRAVITY), l=long
        )
    )  # fmt: skip
    assert moment.max() == pytest.approx(ours, rel=1e-3)
    if growing:
        assert x[moment.argmax()] / long == pytest.approx(1 / math.sqrt(3), abs=1e-3)


def test_a_rod_carries_no_more_than_the_wheels_beyond_it_hold() -> None:
    result, sizes = worked("hartfell"), sample("hartfell").cylinders
    grip = sizes.haulage.adhesion * sizes.coupled_weight * GRAVITY / 3
    lever = sample("hartfell").wheels.driving_diameter / sizes.stroke
    assert [one.load for one in result.spans] == pytest.approx([grip * lever] * 2)
    # with grip enough it is the piston's thrust, and no more
    sticky = replace(sizes, haulage=replace(sizes.haulage, adhesion=0.6), coupled_weight=2000.0)
    most = worked("hartfell", cylinders=sticky)
    assert all(one.load == engine("hartfell")["piston_load"] for one in most.spans)
    assert all(one.shared == pytest.approx(one.load / 3) for one in most.spans)


def test_whip_goes_with_the_square_of_the_speed_but_for_the_weight() -> None:
    slow, fast = (worked("rowan", Rods(top_speed=speed)) for speed in (10.0, 20.0))
    assert slow.connecting is not None
    assert fast.connecting is not None
    assert fast.connecting.whip_top == pytest.approx(4 * slow.connecting.whip_top)
    bent = [whip.spans[0].whip_top for whip in (worked("rowan", Rods(top_speed=0.5)), slow, fast)]
    assert bent[2] - bent[1] == pytest.approx(3 / (1 - 0.05**2) * (bent[1] - bent[0]), rel=1e-3)


def test_a_slender_rod_is_found_and_the_change_mends_it() -> None:
    rods = Rods(coupling=CouplingRods(depth=2.6), top_speed=115.0)
    (found,) = [one for one in worked("hartfell", rods).findings if one.level == "check"
                and one.change and one.change[0] == "rods.coupling.depth"]  # fmt: skip
    assert found.change is not None
    design = sample("hartfell").changed(
        {"rods.coupling.depth": found.change[1], "rods.top_speed": 115}
    )
    result = done(design).rods
    assert result.coupling_factor >= rods.factor


def test_flutes_lighten_the_rod_and_leave_most_of_its_strength() -> None:
    plain, fluted = (
        worked("hartfell", Rods(coupling=CouplingRods(flute=flute))).spans[0]
        for flute in (0.0, 2.0)
    )
    assert fluted.area < 0.75 * plain.area
    assert fluted.upright > 0.9 * plain.upright
    assert fluted.whip_top < plain.whip_top


# --- slide bars -------------------------------------------------------------------------


@pytest.mark.parametrize("offset", [0.0, 4.0, -3.0])
def test_acceleration_against_differences(offset: float) -> None:
    crank, theta, omega, step = Crank(40.0, 90.0, offset), np.arange(0.0, 360.0, 7.0), 80.0, 0.01
    there = [crank.gudgeon(theta + d) for d in (-step, 0.0, step)]
    second = (there[0] - 2 * there[1] + there[2]) / math.radians(step) ** 2
    assert acceleration(crank, theta, omega) == pytest.approx(
        second * omega**2 / 1000, abs=2e-3 * omega**2 * 20 / 1000
    )


@pytest.mark.parametrize("name", ["rowan", "hartfell"])
def test_standing_the_bars_bear_what_the_cylinders_say(name: str) -> None:
    crank, thrust = sample(name).cylinders.crank, engine(name)["piston_load"]
    cylinders = done(sample(name)).cylinders
    _, up = on_the_bars(crank, thrust, 0.0, 0.0)
    assert float(np.abs(up).max()) == pytest.approx(cylinders.slide_bar_load, rel=1e-4)
    assert float(up.min()) >= -1e-9
    _, down = on_the_bars(crank, thrust, 0.0, 0.0, direction=-1)
    assert down == pytest.approx(-up)


def test_the_bars_take_the_couple_that_turns_the_crank() -> None:
    """Force on the bars times the gudgeon's distance is the torque, whatever the masses do."""
    crank, thrust = Crank(40.0, 120.0, 2.0), 100.0
    theta, up = on_the_bars(crank, thrust, 0.0, 0.0)
    torque = (
        -thrust
        * np.sign(crank.slope(theta))
        * np.abs(crank.slope(theta))
        * np.sign(crank.slope(theta))
    )
    # about the axle: the bars hold the frame against turning, with the piston on the offset line
    push = thrust * np.sign(crank.slope(theta))
    frame = up * crank.gudgeon(theta) + push * crank.cylinder_offset
    assert frame == pytest.approx(-torque, abs=1e-6)


# --- balance ----------------------------------------------------------------------------

_MASS = st.tuples(
    st.integers(0, 2), st.floats(0.1, 50), st.floats(-math.pi, math.pi), st.floats(0, 90)
)


def _engine(turned: tuple[Turned, ...], **other: Any) -> Engine:
    usual = {
        "axles": ("leading", "driving", "trailing"), "wheel_plane": 45.0, "lead": 90.0,
        "turned": turned, "to_and_fro": 20.0, "cylinder_plane": 60.0, "number": 2,
        "shares": (0.0, 0.0, 0.0), "most": 1e9,
    }  # fmt: skip
    return Engine(**usual | other)


RING = Ring(10.0, 40.0, 3.0, 7.85e-6)


@given(st.lists(_MASS, min_size=1, max_size=5), st.floats(0, 180))
@settings(max_examples=40, deadline=None)
def test_turning_masses_are_balanced_wholly(masses: list[Any], lead: float) -> None:
    turned = tuple(Turned(n, cmath.rect(u, angle), z) for n, u, angle, z in masses)
    made, left = balanced(_engine(turned, lead=lead, to_and_fro=0.0), RING, 1.0, 1.0)
    assert max(one.left for one in made) == pytest.approx(0.0, abs=1e-9)
    assert abs(left.force) == pytest.approx(0.0, abs=1e-9)
    # by direct summation of every mass and every weight about the upright
    for n in range(3):
        own = [one for one in turned if one.axle == n]
        turn = cmath.rect(1, math.radians(lead))
        pairs = [(one.moment, one.plane) for one in own]
        pairs += [(one.moment * turn, -one.plane) for one in own]
        for wheel in made[2 * n : 2 * n + 2]:
            side = 1 if wheel.side == "right" else -1
            crank = 1 if side == 1 else turn
            way = -crank * cmath.rect(1, math.radians(wheel.angle))
            pairs.append((wheel.made / 1000 * way, side * 45.0))
        assert abs(sum(u for u, _ in pairs)) < 1e-6
        assert abs(sum(u * z for u, z in pairs)) < 1e-4


@pytest.mark.parametrize("share", [0.0, 0.4, 1.0])
def test_what_is_left_against_forces_of_masses_followed_round_the_turn(share: float) -> None:
    """Follow each mass through the turn and difference its path twice."""
    throw, omega, lead, plane = 10.0, 50.0, 90.0, 60.0
    to_and_fro = 2.0 * throw
    turned = (Turned(1, complex(1.5 * throw), 52.0), Turned(1, complex(0.6 * throw), plane))
    engine_ = _engine(
        turned, lead=lead, to_and_fro=to_and_fro, shares=tuple(share / 3 for _ in range(3))
    )
    made, left = balanced(engine_, RING, omega, omega)
    theta = np.radians(np.arange(0, 360, 0.25))
    step = theta[1] - theta[0]

    def force(place: Any) -> Any:  # of 1 kg, N, place in mm round the turn
        bent = (np.roll(place, 1) - 2 * place + np.roll(place, -1)) / step**2
        return -bent * omega**2 / 1000

    along = np.zeros_like(theta)
    sway = np.zeros_like(theta)
    for phase, z in ((0.0, plane), (math.radians(lead), -plane)):
        one = 2.0 * force(throw * np.cos(theta + phase))  # a long rod: no obliquity
        along, sway = along + one, sway + one * z
    up: dict[tuple[str, str], Any] = {}
    for mass, phase, z in (
        (1.5, 0.0, 52.0), (0.6, 0.0, plane), (1.5, lead, -52.0), (0.6, lead, -plane),
    ):  # fmt: skip
        x = mass * force(throw * np.cos(theta + math.radians(phase)))
        y = mass * force(-throw * np.sin(theta + math.radians(phase)))
        along, sway = along + x, sway + x * z
        for side, sign in (("right", 1), ("left", -1)):
            part = (45.0 + sign * z) / 90.0
            up[side, "driving"] = up.get((side, "driving"), 0.0) + y * part
    for wheel in made:
        sign = 1 if wheel.side == "right" else -1
        phase = math.radians((0 if sign == 1 else lead) + 180 + wheel.angle)
        x = wheel.made / 1000 * force(np.cos(theta + phase))
        y = wheel.made / 1000 * force(-np.sin(theta + phase))
        along, sway = along + x, sway + x * sign * 45.0
        key = (wheel.side, wheel.axle)
        assert np.abs(up.get(key, 0.0) + y).max() == pytest.approx(wheel.blow, rel=1e-4, abs=1e-6)
    assert np.abs(along).max() == pytest.approx(
        abs(left.force) * omega**2 / 1000, rel=1e-4, abs=1e-6
    )
    assert np.abs(sway).max() == pytest.approx(
        abs(left.couple) * omega**2 / 1000, rel=1e-4, abs=1e-5
    )
    assert abs(left.force) * omega**2 / 1000 == pytest.approx(
        relations.fore_and_aft(c=share, U=to_and_fro, omega=omega, gamma=math.radians(lead)),
        abs=1e-9,
    )
    assert abs(left.couple) * omega**2 / 1000 == pytest.approx(
        relations.swaying(
            c=share, U=to_and_fro, omega=omega, gamma=math.radians(lead), a=2 * plane
        ),
        abs=1e-9,
    )


@given(st.floats(1, 250))
def test_a_piece_of_ring_is_as_heavy_as_it_must_be(wanted: float) -> None:
    arc, mass, radius = RING.piece(min(wanted / 1000, RING.most))
    half = math.radians(arc) / 2
    r, a = np.meshgrid(np.linspace(10, 40, 301), np.linspace(-half, half, 301))
    cells = 7.85e-6 * 3.0 * r * 0.1 * (2 * half / 300)
    assert mass == pytest.approx(cells.sum(), rel=0.02)
    assert mass * radius == pytest.approx((cells * r * np.cos(a)).sum(), rel=0.02)
    assert mass * radius == pytest.approx(min(wanted / 1000, RING.most))


def test_weights_that_find_no_room_leave_the_rest_and_are_told() -> None:
    thin = worked("dunnock", Rods(balance=BalanceWeights(thickness=1.0)))
    thick = worked("dunnock", Rods(balance=BalanceWeights(thickness=40.0, material="lead")))
    assert says(thin, "the rest stays unbalanced")
    assert not says(thick, "the rest stays unbalanced")
    assert thin.blow > thick.blow
    assert all(one.arc == pytest.approx(180) for one in thin.wheels)
    shown = [one.label for one in thick.workings if "Hammer blow" in one.label]
    assert shown
    (blow,) = [one.result for one in thick.workings if "Hammer blow" in one.label]
    assert blow == pytest.approx(thick.blow)
    assert [one.result for one in thick.workings if "along the engine" in one.label] == (
        pytest.approx([thick.shake])
    )


def test_without_weights_everything_is_left() -> None:
    bare = worked("hartfell", Rods(balance=BalanceWeights(fitted=False)))
    assert bare.weight is None
    for one in bare.wheels:
        assert one.made == 0
        assert one.left == pytest.approx(one.turning)


def test_reciprocating_masses_in_the_driving_wheels_alone_or_in_all() -> None:
    roomy = BalanceWeights(thickness=60.0, material="lead")
    every = worked("rowan", Rods(balance=roomy))
    alone = worked("rowan", Rods(balance=replace(roomy, axles=DRIVING)))
    assert alone.blow == pytest.approx(3 * every.blow)
    assert alone.shake == pytest.approx(every.shake)
    assert sum(one.left > 1e-6 for one in alone.wheels) == 2


def test_pins_opposite_inside_cranks_save_weight_and_are_offered() -> None:
    in_line = worked("hartfell")
    opposite = worked("hartfell", Rods(coupling=CouplingRods(pins=OPPOSITE)))
    driving = [
        max(one.needed for one in result.wheels if one.axle == "driving")
        for result in (in_line, opposite)
    ]
    assert driving[1] < driving[0]
    (offered,) = says(in_line, "opposite them the rods themselves")
    assert offered.change == ("rods.coupling.pins", OPPOSITE)
    assert f"{driving[1]:.0f} g mm would do" in offered.says
    assert not says(worked("rowan"), "opposite them")


def test_weighed_masses_stand_in_place_of_reckoned_ones() -> None:
    weighed = Weighed(reciprocating=30.0, small_end=4.0, big_end=6.0, coupling=20.0)
    masses = worked("rowan", Rods(weighed=weighed)).masses
    assert (masses.reciprocating, masses.big_end, masses.coupling) == (34.0, 6.0, 20.0)
    assert {source for _, source in masses.source} == {"as weighed"}


def test_masses_are_those_of_the_parts() -> None:
    whole = engine("dunnock")["whole"]
    masses = worked("dunnock").masses
    (rod,) = riding(whole, "connecting")
    grams = rod.volume / 2 * 7850e-6
    assert masses.small_end + masses.big_end == pytest.approx(grams)
    share = big_share(whole, (rod,))
    assert 0.5 < share < 0.7
    along = rod.on("right").centroid[0] - 190.5 - 53.975 / 2
    assert share == pytest.approx(-along / 190.5)


def test_a_second_crank_that_is_not_there_is_not_balanced() -> None:
    given_ = engine("rowan")
    one = replace(given_["cylinders"], number=1)
    drive = replace(given_["whole"].drive, crank_angle=0.0)
    result = worked("rowan", cylinders=one, whole=replace(given_["whole"], drive=drive))
    right, left = (
        next(w for w in result.wheels if w.axle == "driving" and w.side == side)
        for side in ("right", "left")
    )
    assert right.needed > left.needed
    whole_force = result.masses.reciprocating / 1e6 * 10.0
    speed = 3.5 / 3.6 / 0.021
    assert result.shake <= whole_force * speed**2 * 1000


def test_pins_opposite_turn_rods_and_crankpins_about_and_nothing_else() -> None:
    whole, masses = engine("hartfell")["whole"], worked("hartfell").masses
    turned = (
        turning(Rods(coupling=CouplingRods(pins=pins)), whole, masses, True, 41.0, 2)
        for pins in (IN_LINE, OPPOSITE)
    )
    bar = next(one for one in riding(whole, "coupling")).solids[0].extent
    for one, other in zip(*turned, strict=True):
        outside = one.plane > bar[0][2] - 5
        assert other.moment == pytest.approx(-one.moment if outside else one.moment)
        assert (other.axle, other.plane) == (one.axle, one.plane)


def test_what_stands_off_the_crank_is_led_or_followed_in_the_sense_of_running() -> None:
    given_ = engine("hartfell")
    whole = given_["whole"]
    slope = math.radians(whole.drive.inclination)
    # square to the crank and above it: a mass that the crank has left behind by 90 degrees
    place = (-5 * math.sin(slope), 5 * math.cos(slope))
    lump = Part(
        "lump", "wheels", "wheels", (), "mild steel", (disc(place, 2.0, 40.0, 44.0),),
        paired=True, ride="wheel", axle=1,
    )  # fmt: skip
    masses = worked("hartfell").masses
    more = replace(whole, parts=(*whole.parts, lump))
    found = set(turning(Rods(), more, masses, True, 41.0, 2))
    (own,) = found - set(turning(Rods(), whole, masses, True, 41.0, 2))
    grams = math.pi * 2**2 * 4 * 7850e-9
    assert own.moment == pytest.approx(-5j * grams)
    assert (own.axle, own.plane) == (1, 42.0)


def test_pin_shares_are_all_of_the_rod() -> None:
    assert sum(pin_shares((100.0, 0.0, -50.0, -90.0))) == pytest.approx(1.0)
    assert pin_shares((60.0, 0.0, -60.0)) == pytest.approx((0.25, 0.5, 0.25))
    assert pin_shares((0.0,)) == (0.0,)


def test_hammer_blow_reaches_the_load_at_the_speed_named() -> None:
    result = worked("rowan")
    assert result.lift_speed is not None
    at_lift = worked("rowan", Rods(top_speed=result.lift_speed))
    assert at_lift.blow_top == pytest.approx(result.wheel_load)


def test_a_model_is_told_plainly_how_small_it_is() -> None:
    assert says(worked("tansy"), "that is little")
    fast = worked("rowan", speed=20.0)
    assert [one for one in says(fast, "hammer blow") if one.level == "check"]


def test_an_engine_with_one_coupled_axle_has_no_coupling_rods() -> None:
    given_ = engine("tansy")
    whole = given_["whole"]
    parts = tuple(
        one for one in whole.parts if one.ride != "coupling" and not one.name.startswith("trailing")
    )
    drive = replace(whole.drive, coupled_throw=0.0)
    alone = replace(whole, parts=parts, axles=whole.axles[:1], drive=drive)
    wheels = replace(given_["wheels"], wheelbase=(), driven_axle=1)
    result = worked("tansy", whole=alone, wheels=wheels, bush_needed=0.0)
    assert result.spans == ()
    assert (result.coupling_factor, result.bush_at_stops) == (None, None)
    assert [one.side for one in result.wheels] == ["right", "left"]
    assert result.masses.coupling == 0


def test_oscillating_cylinders_have_no_crosshead() -> None:
    result = worked("wagtail")
    assert result.connecting is None
    assert result.bar_force is None
    assert says(result, "Oscillating")


def test_unknown_speed_is_taken_from_the_turns() -> None:
    result = worked("rowan", speed=None)
    assert result.running_speed is None
    assert result.turns == pytest.approx(300.0)
    assert result.blow == result.blow_top


def test_results_can_be_kept_in_a_cache() -> None:
    assert hash(Rods()) == hash(Rods())
    for a, b in pairwise(dataclasses.fields(RodsResult)):
        assert a.name != b.name
