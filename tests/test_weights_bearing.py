"""Axle loads against statics done by a general algebra system for random engines."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
import sympy as sp
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.weights_for_tests import (
    BODY,
    HAULED,
    MOGUL,
    SIX,
    TANK,
    axle,
    bearing,
    cube,
    engine,
    plain,
    worked,
)
from weighshaft.frames import Axle
from weighshaft.sizes import SizeError
from weighshaft.weights import Bearing, Stiffness
from weighshaft.weights.ballast import added, for_share, levelling
from weighshaft.weights.bearing import Support, borne, supports_of, truck_ratio
from weighshaft.weights.decisions import COUPLED, EACH, GROUPS

gaps = st.lists(st.integers(30, 90), min_size=2, max_size=5)
rates = st.lists(st.sampled_from([0.5, 0.8, 1.0, 1.25, 2.0]), min_size=6, max_size=6)


def exact(number: float) -> sp.Rational:
    """Return a number as the fraction that it is."""
    return sp.Rational(number)


def by_algebra(
    places: Sequence[float], stiffness: Sequence[float], mass: float, centre: float
) -> list[float]:
    """Return loads on springs under a rigid bar, every equation written out and solved."""
    loads = sp.symbols(f"P0:{len(places)}")
    sinks, turns = sp.symbols("s t")
    x, k = [exact(one) for one in places], [exact(one) for one in stiffness]
    m, c = exact(mass), exact(centre)
    equations = [
        sp.Eq(sum(loads), m),
        sp.Eq(sum(p * q for p, q in zip(loads, x, strict=True)), m * c),
        *(sp.Eq(p, q * (sinks + turns * r)) for p, q, r in zip(loads, k, x, strict=True)),
    ]
    (found,) = sp.linsolve(equations, [*loads, sinks, turns])
    return [float(one) for one in found[: len(loads)]]


def single(places: Sequence[float], stiffness: Sequence[float]) -> tuple[Support, ...]:
    return tuple(
        Support((n,), (k,), x) for n, (x, k) in enumerate(zip(places, stiffness, strict=True))
    )


@settings(max_examples=25, deadline=None)
@given(gaps, rates, st.integers(1, 40), st.integers(20, 80))
def test_springs_under_a_rigid_frame_are_as_algebra_has_them(
    apart: list[int], stiff: list[float], mass: int, share: int
) -> None:
    places = [float(-sum(apart[:n])) for n in range(len(apart) + 1)]
    stiff = stiff[: len(places)]
    centre = float(places[-1] * share / 100)
    expected = by_algebra(places, stiff, mass, centre)
    assume(min(expected) > 0)
    found = borne(single(places, stiff), len(places), mass, centre)
    assert found.loads == pytest.approx(expected)
    assert not found.lifted
    assert not found.tips


@settings(max_examples=25, deadline=None)
@given(gaps, st.integers(0, 4), st.integers(1, 40), st.integers(25, 75))
def test_groups_share_alike_and_stand_by_moments(
    apart: list[int], split: int, mass: int, share: int
) -> None:
    places = [float(-sum(apart[:n])) for n in range(len(apart) + 1)]
    first = 1 + split % (len(places) - 1)
    axles = [axle("coupled", x) for x in places]
    supports = supports_of(axles, Bearing(equalised=GROUPS, front_group=first))
    centre = float(places[-1] * share / 100)
    # every axle of a group the same, and both sums: nothing else is asked
    a, b = sp.symbols("a b")
    loads = [a] * first + [b] * (len(places) - first)
    found = sp.solve(
        [
            sp.Eq(sum(loads), mass),
            sp.Eq(sum(p * exact(x) for p, x in zip(loads, places, strict=True)),
                  mass * exact(centre)),
        ], [a, b], dict=True,
    )[0]  # fmt: skip
    expected = [float(one.subs(found)) for one in loads]
    assume(min(expected) > 0)
    assert borne(supports, len(axles), mass, centre).loads == pytest.approx(expected)


def test_two_axles_bear_by_moments_whatever_their_springs() -> None:
    axles = (axle("coupled", 0.0), axle("coupled", -80.0))
    for rate in (0.5, 1.0, 3.0):
        made = supports_of(axles, Bearing(springs=(Stiffness(rate=rate),)))
        assert borne(made, 2, 8.0, -20.0).loads == pytest.approx((6.0, 2.0))


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from([SIX, MOGUL, TANK]), st.sampled_from([EACH, COUPLED, GROUPS]),
    st.lists(st.tuples(st.floats(0.1, 5), st.floats(-40, 40), st.floats(0, 60)), min_size=1,
             max_size=5),
    st.floats(0, 60),
)  # fmt: skip
def test_the_rails_bear_the_whole_engine(
    axles: tuple[Axle, ...], equalised: str, bodies: list[tuple[float, float, float]], pull: float
) -> None:
    parts = [cube(f"body {n}", *one) for n, one in enumerate(bodies)]
    whole = engine(axles, parts)
    result = worked(whole, plain(bearing=Bearing(equalised=equalised), pull=pull))
    assume(not result.tips)
    for loads, state in (
        (result.axle_loads, result.states[1]),
        (result.bare_loads, result.states[0]),
    ):
        assert sum(loads) == pytest.approx(state.mass)
        moment = sum(p * one.ahead for p, one in zip(loads, axles, strict=True))
        assert moment == pytest.approx(state.mass * state.ahead, abs=1e-6 * state.mass)
        assert min(loads) >= 0
    mass = sum(one[0] for one in bodies) + 0.2 * len(axles)
    assert result.working == pytest.approx(mass, rel=1e-5)
    # about the rail: what leans on the front axles less leans on the back ones more
    turned = sum(
        (after - before) * one.ahead
        for after, before, one in zip(result.pulling_loads, result.axle_loads, axles, strict=True)
    )
    live = min(p - u for p, u in zip(result.pulling_loads, result.states[1].unsprung, strict=True))
    if live > 0:
        assert turned == pytest.approx(-pull / 9.80665 * result.coupling_height, abs=1e-6)


def test_a_group_sinks_as_one_support_of_all_its_springs() -> None:
    # 2-6-2 with its coupled axles on beams: three supports, the middle one thrice as stiff
    made = supports_of(TANK, Bearing(equalised=COUPLED, leading=0.5, trailing=0.25))
    assert [one.stiffness for one in made] == [0.5, 3.0, 0.25]
    assert made[1].ahead == pytest.approx(10 / 3)
    expected = by_algebra([120.0, made[1].ahead, -110.0], [0.5, 3.0, 0.25], 5.0, 4.0)
    loads = borne(made, 5, 5.0, 4.0).loads
    assert loads[1] == loads[2] == loads[3]
    assert (loads[0], sum(loads[1:4]), loads[4]) == pytest.approx(expected)


def test_a_bogie_bears_about_its_pivot() -> None:
    axles = (axle("leading", 150.0), axle("leading", 110.0, "second"), *SIX)
    even = supports_of(axles, Bearing(leading=0.5))[0]
    assert even.axles == (0, 1)
    assert even.ahead == 130.0
    assert even.stiffness == 1.0
    off = supports_of(axles, Bearing(leading=0.5), (-8.0, 0.0))[0]
    assert off.ahead == pytest.approx(122.0)
    assert off.stiffness == pytest.approx(1.0)


def test_a_spring_does_not_pull() -> None:
    made = single([50.0, 0.0, -50.0], [1.0, 1.0, 1.0])
    found = borne(made, 3, 6.0, 40.0)
    assert found.lifted == (2,)
    assert not found.tips
    assert found.loads == pytest.approx((4.8, 1.2, 0.0))
    over = borne(made, 3, 6.0, 60.0)
    assert over.tips
    assert over.loads == (6.0, 0.0, 0.0)


def test_on_one_group_alone_the_engine_rocks_and_is_told_so() -> None:
    result = worked(engine(SIX, [BODY]), bearing(equalised=COUPLED))
    (said,) = (one for one in result.findings if one.level == "stop")
    assert result.rocks
    assert "rocks" in said.says
    assert said.change == ("weights.bearing.equalised", EACH)
    apart = worked(engine(SIX, [BODY]), bearing(equalised=EACH))
    assert result.axle_loads == apart.axle_loads
    assert not apart.rocks
    assert not worked(engine(MOGUL, [BODY]), bearing(equalised=COUPLED)).rocks


@pytest.mark.parametrize("first", [3, 4])
def test_groups_leave_no_axle_out(first: int) -> None:
    with pytest.raises(SizeError, match=r"Axles in the front group: .* 1 to 2 would do"):
        supports_of(SIX, Bearing(equalised=GROUPS, front_group=first))


def test_no_more_springs_than_coupled_axles() -> None:
    with pytest.raises(SizeError, match="there are 4, but 3 coupled axles"):
        supports_of(MOGUL, Bearing(springs=(Stiffness(),) * 4))
    made = supports_of(MOGUL, Bearing(springs=(Stiffness(rate=2.0),)))
    assert [one.stiffness for one in made] == [0.5, 2.0, 1.0, 1.0]


def test_a_load_wanted_on_a_truck_is_brought_by_its_springs() -> None:
    whole = engine(MOGUL, [BODY])
    result = worked(whole, bearing(leading_load=0.8))
    (said,) = (one for one in result.findings if "are wanted" in one.says)
    assert said.change is not None
    assert said.change[0] == "weights.bearing.leading"
    mended = worked(whole, bearing(leading_load=0.8, leading=said.change[1]))
    assert mended.axle_loads[0] == pytest.approx(0.8, rel=0.01)
    assert not [one for one in mended.findings if "are wanted" in one.says]


def test_where_moments_decide_no_springs_bring_a_load() -> None:
    assert truck_ratio(MOGUL, Bearing(equalised=COUPLED), "leading", 4.0, 8.0, 2.0) is None


def test_ballast_levels_the_coupled_axles() -> None:
    whole = engine(MOGUL, [cube("body", 4.0, 25.0, 40.0)])
    result = worked(whole)
    advice = result.levelling
    assert advice is not None
    assert advice.ahead < 0
    loads = result.axle_loads
    assert loads[1] > loads[3]
    assert advice.loads[1] == pytest.approx(advice.loads[3], abs=1e-6)
    again = worked(engine(MOGUL, [cube("body", 4.0, 25.0, 40.0),
                                  cube("lead", advice.mass, advice.ahead, 0.0)]))  # fmt: skip
    assert again.axle_loads == pytest.approx(advice.loads, rel=1e-6)
    # nothing to do where they are level
    state = again.states[1]
    assert (more := levelling(whole, again.supports, state)) is None or more.mass < 1e-3


def test_ballast_brings_the_share_wanted() -> None:
    whole = engine(TANK, [BODY])
    result = worked(whole, plain(coupled_share=73.0))
    advice = result.sharing
    assert advice is not None
    assert sum(advice.loads[1:4]) / sum(advice.loads) == pytest.approx(0.73)
    assert added(result.supports, result.states[1], 0.0, 0.0) == pytest.approx(result.axle_loads)
    assert for_share(whole, result.supports, result.states[1], 0.999) is None
    assert for_share(whole, result.supports, result.states[1], 0.3) is None


def test_pulling_takes_what_the_rail_holds_then() -> None:
    whole = engine(MOGUL, [BODY])
    given: dict[str, Any] = {"hauled": HAULED}
    result = worked(whole, **given)
    own = 0.02 * result.working * 9.80665
    held = 0.2 * result.coupled_pulling * 9.80665
    assert result.pull == pytest.approx(min(28.0, held) - own)
    assert held < 28.0
    assert result.coupled_pulling > result.coupled
    assert result.pulling_loads[0] < result.axle_loads[0]


def test_the_least_ballast_is_found_where_much_more_would_lift_the_front() -> None:
    axles = (*SIX, axle("trailing", -120.0))
    # with all others lifted the first axle still has more on it, its boxes
    boxes = cube("boxes", 0.05, 60.0, 0.0, ride="axle", axle=0)
    whole = engine(axles, [cube("body", 2.0, 12.0, 40.0), boxes])
    result = worked(whole)
    advice = result.levelling
    assert result.axle_loads[0] > result.axle_loads[2]
    assert advice is not None
    assert advice.loads[0] == pytest.approx(advice.loads[2], abs=1e-6)
    assert advice.mass < 0.5 * result.working
