"""What a wheel seat carries, and what it is refused for."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighshaft.fits import COMPOUNDS, KeyedSeat, PressedSeat, RetainedSeat, carried, hot_share
from weighshaft.sizes import SizeError


def test_key_by_hand() -> None:
    seat = KeyedSeat(length=12, key_width=3, key_height=3, key_length=10)
    fit = carried(seat, 12)
    # shear 60 × 3 × 10 at 6 mm; crushing 90 × 1.5 × 10 at 6 mm is less
    shear, crush = (one.result for one in fit.workings)
    assert shear == pytest.approx(60 * 3 * 10 * 6)
    assert crush == pytest.approx(90 * 1.5 * 10 * 6)
    assert fit.torque == crush
    assert "crushing" in fit.limits_by
    tall = KeyedSeat(length=12, key_width=2, key_height=5, key_length=10)
    assert "shear" in carried(tall, 12).limits_by


@given(
    axle=st.floats(4, 30), length=st.floats(3, 40), delta=st.floats(0.0, 0.05),
    more=st.floats(0.001, 0.05), wall=st.floats(1.2, 4),
)  # fmt: skip
def test_more_interference_and_length_hold_more(
    axle: float, length: float, delta: float, more: float, wall: float
) -> None:
    def fit(interference: float, at: float) -> float:
        hub = wall * axle
        return carried(
            PressedSeat(length=at, interference=interference, hub_diameter=hub), axle
        ).torque

    assert fit(delta + more, length) >= fit(delta, length)
    assert fit(delta + more, length * 1.5) == pytest.approx(1.5 * fit(delta + more, length))


def test_smoothing_takes_its_share_of_the_interference() -> None:
    def pressure(interference: float, smoothing: float) -> float | None:
        seat = PressedSeat(
            length=10, interference=interference, hub_diameter=24, smoothing=smoothing
        )
        return carried(seat, 12).pressure

    assert pressure(0.015, 0.003) == pressure(0.012, 0.0)
    assert pressure(0.002, 0.003) == 0.0


def test_compound_weakens_with_heat_and_gap() -> None:
    def torque(**changes: float) -> float:
        return carried(RetainedSeat(length=10, **changes), 12).torque  # type: ignore[arg-type]

    cold = torque(temperature=20.0)
    assert cold == pytest.approx(math.pi * COMPOUNDS["permanent"] * 144 * 10 / 2)
    assert torque(temperature=100.0) == pytest.approx(0.8 * cold)
    assert torque(temperature=150.0) == pytest.approx(0.5 * cold)
    assert torque(temperature=151.0) == 0.0
    assert torque(temperature=20.0, gap=0.3) == pytest.approx(0.5 * cold)
    assert torque(temperature=20.0, gap=0.0) == cold
    assert torque(temperature=20.0, strength=11.0) == pytest.approx(cold / 2)


@given(st.floats(-20, 400), st.floats(0, 100))
def test_heat_never_strengthens(temperature: float, more: float) -> None:
    assert 0.0 <= hot_share(temperature + more) <= hot_share(temperature) <= 1.0


def test_refusals_name_the_size_and_what_would_do() -> None:
    with pytest.raises(SizeError, match="up to 8 mm would do"):
        KeyedSeat(length=8, key_width=2, key_height=2, key_length=9)
    with pytest.raises(SizeError, match="too big for an axle of 6 mm"):
        carried(KeyedSeat(length=8, key_width=4, key_height=2, key_length=6), 6)
    with pytest.raises(SizeError, match=r"leaves no wall .* 19\.2 mm or more would do"):
        carried(PressedSeat(length=8, interference=0.01, hub_diameter=12), 12)
