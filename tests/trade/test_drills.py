"""Drills of the builder's own sets."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighshaft.trade.drills import (
    SETS,
    NoDrill,
    at_or_above,
    at_or_below,
    drill,
    drills,
    nearest,
)

SOME = st.sets(st.sampled_from(SETS), min_size=1)


def test_names() -> None:
    assert drill("#50").diameter == drill("no. 50").diameter == pytest.approx(1.778)
    assert drill("5/32").name == "5/32 in"
    assert drill("1.8mm").name == "1.8 mm"
    with pytest.raises(NoDrill, match=r"No\. 50"):
        drill("No. 99")


def test_exact_size_is_at_or_above() -> None:
    assert at_or_above(2.2, ("metric",)).name == "2.2 mm"
    assert at_or_below(2.2, ("metric",)).name == "2.2 mm"
    assert at_or_above(2.2001, ("metric",)).name == "2.25 mm"
    assert at_or_above(6.35).set == "letter"  # E and 1/4 in are equal; sets have their order


def test_no_set_and_too_large() -> None:
    with pytest.raises(NoDrill, match="at least one set"):
        at_or_above(2.0, ())
    with pytest.raises(NoDrill, match=r"largest is No\. 1"):
        at_or_above(6.0, ("number",))
    with pytest.raises(NoDrill, match="smallest is A"):
        at_or_below(5.0, ("letter",))


@given(st.floats(0.4, 12.0), SOME)
def test_neighbours(size: float, sets: set[str]) -> None:
    every = [one.diameter for one in drills(sets)]
    close = nearest(size, sets).diameter
    assert abs(close - size) == pytest.approx(min(abs(one - size) for one in every))
    if any(one >= size for one in every):
        assert at_or_above(size, sets).diameter == min(one for one in every if one >= size - 1e-9)
    if any(one <= size for one in every):
        assert at_or_below(size, sets).diameter == max(one for one in every if one <= size + 1e-9)


@given(st.floats(0.4, 6.0), SOME)
def test_more_sets_never_give_a_worse_drill(size: float, sets: set[str]) -> None:
    try:
        few = at_or_above(size, sets).diameter
    except NoDrill:
        return
    assert at_or_above(size, SETS).diameter <= few
