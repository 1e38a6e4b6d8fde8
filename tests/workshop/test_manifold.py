"""Manifolds: lengths put together again, room measured by other means, and what is said."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from weighshaft.erection.spanners import corners
from weighshaft.sizes import SizeError
from weighshaft.trade.threads import thread
from weighshaft.workshop.fitting import Fitting, work
from weighshaft.workshop.fitting.decisions import (
    BRAZED_IN,
    IN_ONE,
    SCREWED_IN,
    Branch,
    Manifold,
)
from weighshaft.workshop.fitting.manifold import Made, manifold
from weighshaft.workshop.fitting.rounds import Round, apart
from weighshaft.workshop.machines import Machines


def of(*branches: Branch, **more: object) -> Made:
    return manifold(Manifold(made=True, branches=branches, **more))  # type: ignore[arg-type]


def said(made: Manifold, level: str) -> str:
    found = work(Fitting(manifold=made), machines=Machines()).findings
    return " ".join(one.says for one in found if one.level == level)


POINT = st.tuples(*[st.floats(-30, 30)] * 3)


@settings(max_examples=40, deadline=None)
@given(POINT, POINT, POINT, POINT, st.floats(0.5, 8), st.floats(0.5, 8))
def test_round_bodies_stand_as_far_apart_as_points_thrown_into_them(
    a: tuple[float, ...], b: tuple[float, ...], c: tuple[float, ...], d: tuple[float, ...],
    r: float, s: float,
) -> None:  # fmt: skip
    """Points thrown at random into both bodies never come nearer than the distance found."""
    ends = [np.array(one) for one in (a, b, c, d)]
    if min(np.linalg.norm(ends[1] - ends[0]), np.linalg.norm(ends[3] - ends[2])) < 0.5:
        return
    one, other = Round(ends[0], ends[1], r), Round(ends[2], ends[3], s)
    found = apart(one, other)
    draw = np.random.default_rng(5)

    def within(body: Round) -> np.ndarray:
        along = body.end - body.start
        way = along / np.linalg.norm(along)
        shares = np.round(draw.uniform(-0.2, 1.2, 300).clip(0, 1), 6)
        free = draw.normal(size=(300, 3))
        free -= np.outer(free @ way, way)
        free /= np.linalg.norm(free, axis=1)[:, None]
        return body.start + np.outer(shares, along) + body.radius * free

    p, q = within(one), within(other)
    nearest = np.sqrt(((p[:, None, :] - q[None, :, :]) ** 2).sum(axis=2)).min()
    assert nearest >= max(found, 0.0) - 0.01 * max(r, s)
    if found > 0:  # and they do come near it
        assert nearest <= found + 0.35 * (r + s)


def test_round_bodies_by_hand() -> None:
    x = np.array
    level = Round(x([0.0, 0, 0]), x([10.0, 0, 0]), 2.0)
    # side by side, crossing over, end to end, and askew past an end
    assert apart(level, Round(x([0.0, 7, 0]), x([10.0, 7, 0]), 1.0)) == pytest.approx(4.0)
    assert apart(level, Round(x([5.0, 6, -9]), x([5.0, 6, 9]), 1.0)) == pytest.approx(3.0)
    assert apart(level, Round(x([13.0, 0, 0]), x([20.0, 0, 0]), 1.0)) == pytest.approx(3.0)
    assert apart(level, Round(x([13.0, 6, 0]), x([20.0, 6, 0]), 1.0)) == pytest.approx(
        math.hypot(3, 3)
    )
    assert apart(level, Round(x([5.0, 1, 0]), x([5.0, 9, 0]), 1.0)) < 0


@settings(max_examples=60, deadline=None)
@given(
    st.floats(20, 140), st.floats(-180, 180), st.floats(8, 40),
    st.sampled_from([BRAZED_IN, SCREWED_IN, IN_ONE]),
)  # fmt: skip
def test_a_branch_left_empty_seats_clear_of_the_body(
    lean: float, clocking: float, along: float, fixing: str
) -> None:
    made = of(Branch(lean=lean, clocking=clocking, along=along, washer=0.5, fixing=fixing))
    (stub,) = made.stubs
    # the end of the stub and its washer make up the reach
    assert stub.long + 0.5 == pytest.approx(stub.reach)
    assert np.linalg.norm(stub.direction) == pytest.approx(1.0)
    # rim of the nut, measured from the axis of the body
    middle = stub.at(stub.nut_from)
    way = np.array(stub.direction)
    off = np.array([0.0, middle[1], middle[2]])
    outward = off / np.linalg.norm(off)
    rim = outward - (outward @ way) * way
    rim /= max(float(np.linalg.norm(rim)), 1e-12)
    lowest = float((middle - corners(stub.flats) / 2 * rim) @ outward)
    assert lowest >= made.body / 2 + 0.9 * math.sin(math.radians(lean))
    # what stands in the body reaches from the supply's bore to its outside
    inner, outer = stub.at(stub.leaves), stub.at(stub.emerges)
    assert math.hypot(*inner[1:]) == pytest.approx(made.bore / 2)
    assert math.hypot(*outer[1:]) == pytest.approx(made.body / 2)
    expected = 0.0 if fixing == IN_ONE else stub.long - stub.leaves
    assert stub.over_all == pytest.approx(expected)


def test_turned_to_its_clocking() -> None:
    """A fortieth of an inch a turn: 90 degrees short asks for a quarter of it off the shoulder."""
    made = of(Branch(thread="1/4 × 40", short=90.0), thread="3/8 × 32", short=180.0)
    (stub,) = made.stubs
    assert stub.skim == pytest.approx(25.4 / 40 / 4)
    assert stub.washer == pytest.approx(25.4 / 40 * 3 / 4)
    assert made.skim == made.washer == pytest.approx(25.4 / 32 / 2)


def test_areas_walls_and_bores() -> None:
    made = of(Branch(bore=3.0), Branch(bore=4.0, along=30.0), bore=5.0)
    assert made.share == pytest.approx((9 + 16) / 25)
    stub = made.stubs[0]
    assert stub.wall == pytest.approx((thread("1/4 × 40").minor - 3.0) / 2)
    assert made.rooms[0].bores == pytest.approx(20.0 - 3.5, abs=0.01)
    assert made.drilled == pytest.approx(32.0)


def test_the_brazed_gap_is_the_solders() -> None:
    made = of(Branch(), stub="copper", metal="copper")
    joint = made.stubs[0].joint
    assert joint is not None
    assert joint.bore[0] == pytest.approx(joint.alloy.gap[0] * 2 + thread("1/4 × 40").major)


def test_two_nuts_in_each_others_way_are_told() -> None:
    one, other = Branch(along=12.0), Branch(along=18.0)
    made = Manifold(made=True, branches=(one, other), length=40.0)
    assert "foul each other" in said(made, "stop")
    # turned to the other side they are clear
    clear = replace(made, branches=(one, replace(other, clocking=180.0)))
    assert "foul each other" not in said(clear, "stop")
    # a little further and only the spanner is lacking room
    apart_by = corners(manifold(made).stubs[0].flats) + 1.0
    narrow = replace(made, branches=(one, replace(other, along=12.0 + apart_by)))
    assert "foul" not in said(narrow, "stop")
    assert "spanner does not go" in said(narrow, "check")


def test_bores_that_meet_and_bodies_too_thin_are_told() -> None:
    near = (Branch(along=12.0, bore=3.0), Branch(along=14.0, bore=3.0, clocking=20.0))
    assert "run into each other" in said(Manifold(made=True, branches=near), "stop")
    assert "round the supply's bore" in said(Manifold(made=True, body=6.2, bore=6.0), "stop")
    assert "breaks out of an end" in said(
        Manifold(made=True, branches=(Branch(along=1.0),)), "stop"
    )
    assert "no branches" in said(Manifold(made=True, branches=()), "check")


def test_an_example_stops_nothing() -> None:
    assert not said(Manifold(body=6.2, bore=6.0), "stop")


def test_a_thread_of_no_table_is_refused_by_name() -> None:
    with pytest.raises(SizeError, match="thread of its union"):
        Branch(thread="M6 × 0.123")
    assert Branch(name="blower, left").name == "blower, left"  # a name is no thread


def test_as_usual_it_is_clear() -> None:
    made = Manifold(made=True)
    assert not said(made, "stop")
    assert "stand clear of each other" in said(made, "fine")
