"""Growth of metals and the room for spanners against printed tables."""

from __future__ import annotations

import pytest

from weighshaft.boiler.relations import growth
from weighshaft.erection.spanners import corners, head_of
from weighshaft.trade.expansion import expansion
from weighshaft.trade.saturation import saturation

# Average coefficients of linear expansion from 0 to 100 degC, 1e-6 per K: cfm-calculator.com,
# Coefficients of Linear Expansion; the table in use is partly from other sources
AVERAGES = {"brass": 18.7, "bronze": 18.0, "copper": 16.5, "cast iron": 10.4, "aluminium": 22.2}


@pytest.mark.parametrize(("metal", "printed"), AVERAGES.items())
def test_coefficients_agree_with_a_second_table(metal: str, printed: float) -> None:
    assert expansion(metal) * 1e6 == pytest.approx(printed, rel=0.05)


def test_volume_coefficients_are_three_times_the_linear_ones() -> None:
    # engineeringtoolbox.com, Solids - Volume Temperature Expansion Coefficients, 1e-6 per K
    printed = {"brass": 57.0, "copper": 49.9, "aluminium": 69.0}
    for metal, volume in printed.items():
        assert 3e6 * expansion(metal) == pytest.approx(volume, rel=0.03)
    assert 33 <= 3e6 * expansion("mild steel") <= 39


def test_a_barrel_of_copper_between_two_temperatures() -> None:
    # IAPWS R7-97: water boils at 158.83 degC at 6 bar absolute; 300 mm of copper at 16.8e-6
    hot = saturation(6 - 1.01325).temperature
    assert hot == pytest.approx(158.83, abs=0.01)
    assert growth(16.8e-6, 300.0, hot, 20.0) == pytest.approx(0.69970, abs=1e-4)


# A-A-1346A, 3.2: opening and largest outside diameter of the head, in
RING_HEADS = {0.4375: 0.695, 0.5: 0.775, 0.5625: 0.868, 0.625: 0.946, 0.6875: 1.025, 0.75: 1.125}


@pytest.mark.parametrize(("opening", "outside"), RING_HEADS.items())
def test_ring_heads_are_those_of_the_specification(opening: float, outside: float) -> None:
    # a line through the ends; the sizes between lie within half a millimetre of it
    assert head_of("ring spanner", opening * 25.4) == pytest.approx(outside * 25.4, abs=0.5)


# GOST 13682-80, least room for spanners: across flats and A, between centres of two hexagons, mm
BETWEEN = {8.0: 17.0, 10.0: 20.0, 12.0: 24.0, 14.0: 28.0, 17.0: 34.0, 22.0: 42.0, 24.0: 48.0}


@pytest.mark.parametrize(("flats", "apart"), BETWEEN.items())
def test_two_hexagons_want_no_more_than_the_standard_leaves(flats: float, apart: float) -> None:
    bare = (head_of("open-ended spanner", flats) + corners(flats)) / 2
    # ours is the bare room; the standard leaves a tenth to a fifth more for the hand's way
    assert 0.8 * apart < bare < apart


@pytest.mark.parametrize("flats", [4.0, 5.5, 8.0, 10.0, 13.0])
def test_open_heads_keep_within_the_greatest_of_iso_3318(flats: float) -> None:
    # ISO 3318:2016, greatest width of an open-ended head: 2.1 s + 7 mm (as quoted; from memory)
    assert flats < head_of("open-ended spanner", flats) < 2.1 * flats + 7
