"""Weights, axle loads and weight transfer against published tables and worked examples."""

from __future__ import annotations

import pytest

from tests.weights_for_tests import axle
from weighshaft.measures import GRAVITY
from weighshaft.trade.densities import density
from weighshaft.trade.saturation import saturation
from weighshaft.weights import Bearing, relations
from weighshaft.weights.bearing import Support, borne, supports_of

# simetric.co.uk, densities of metals, kg/m3: "brass - rolled and drawn 8430 - 8730",
# "bronze - phosphorous 8780 - 8920", "cast iron 6800 - 7800", "copper 8930", "lead 11340",
# "steel - rolled 7850", "steel - stainless 7480 - 8000"
SIMETRIC = {
    "brass": (8430, 8730), "bronze": (8780, 8920), "cast iron": (6800, 7800),
    "copper": (8930, 8930), "lead": (11340, 11340), "mild steel": (7850, 7850),
    "stainless steel": (7480, 8000),
}  # fmt: skip
# wermac.org, density of metal, kg/m3; its copper is 8940, a part in nine hundred above the other's
WERMAC = {
    "brass": (8430, 8730), "bronze": (8780, 8920), "cast iron": (6800, 7800),
    "copper": (8930, 8940), "lead": (11340, 11340), "aluminium": (2560, 2720),
}  # fmt: skip
# machinemfg.com, density table of metals and alloys, g/cm3: grey cast iron 6.6 to 7.4, common
# carbon steel 7.85; kemper-group.com, CC491K (LG2): 8.7
OTHERS = {
    "cast iron": (6600, 7400), "mild steel": (7850, 7850), "gunmetal": (8700, 8700),
}  # fmt: skip


@pytest.mark.parametrize("table", [SIMETRIC, WERMAC, OTHERS])
def test_densities_stand_within_printed_tables(table: dict[str, tuple[float, float]]) -> None:
    for name, (low, high) in table.items():
        assert low <= density(name) <= high, name


def test_density_of_water() -> None:
    # thoughtco.com: 998.2071 kg/m3 at 20 degC; the table holds whole kilograms
    assert density("water") == pytest.approx(998.2071, abs=0.5)
    # and at the boil it is lighter: saturated water at no gauge pressure, 958.4 at 100 degC there
    assert saturation(0.0).water_density == pytest.approx(958.4, abs=0.2)


def test_coal_as_it_lies() -> None:
    # inter-bulk.com, bulk densities: "Coal, bituminous, mined, sized 50" lb/ft3
    assert density("coal") == pytest.approx(50 * 0.45359237 / 0.3048**3, rel=2e-3)


def test_two_weights_on_two_axles() -> None:
    # ME 242 homework 3.16 (coursehero.com, file 5583255): 4500 N at 1.5 a and 2500 N at 2.5 a + d
    # ahead of the rear wheels, wheelbase 2.5 a, a = 0.6 m, d = 0.9 m; Nf = 6700 N, Nr = 300 N
    a, d = 600.0, 900.0
    mass = 7000.0
    centre = relations.centre(moment=4500 * 1.5 * a + 2500 * (2.5 * a + d), mass=mass)
    assert centre == pytest.approx((4_050_000 + 6_000_000) / 7000)
    supports = supports_of([axle("coupled", 2.5 * a), axle("coupled", 0.0)], Bearing())
    assert borne(supports, 2, mass, centre).loads == pytest.approx((6700.0, 300.0))
    assert relations.by_moments(W=mass, c=centre, a=2.5 * a, b=0.0) == pytest.approx(6700.0)


def test_a_truck_with_its_load_behind_the_front_axle() -> None:
    # Cutnell and Johnson, Physics, 10th ed., problem 9.14 (gradesaver.com): a truck of 7460 kg,
    # its centre 0.63 m ahead of the rear wheels, 2.93 m between the axles: 1.57e4 and 5.74e4 N
    weight = 7460 * 9.8
    assert weight == pytest.approx(7.31e4, rel=1e-3)
    supports = supports_of([axle("coupled", 2930.0), axle("coupled", 0.0)], Bearing())
    front, rear = borne(supports, 2, weight, 630.0).loads
    assert front == pytest.approx(1.57e4, rel=2e-3)  # printed to three figures
    assert rear == pytest.approx(5.74e4, rel=2e-3)


def test_a_load_on_a_lorry() -> None:
    # Peterbilt 220 manual, appendix B, figure B-2: 100 lb at 133 in behind the front axle of a
    # wheelbase of 214 in; printed 62.14 and 38.86, which do not make 100: 62.15 is 133/214
    supports = supports_of([axle("coupled", 0.0), axle("coupled", -214.0)], Bearing())
    front, rear = borne(supports, 2, 100.0, -133.0).loads
    assert rear == pytest.approx(62.14, abs=0.02)
    assert front == pytest.approx(37.85, abs=0.01)


def test_a_pull_at_a_height_brings_weight_to_the_rear() -> None:
    # GATE agricultural engineering (saranextgen.com 156518): a tractor of 18 kN, wheelbase 1.8 m,
    # centre 600 mm ahead of the rear axle, hitch at 390 mm, draft 6 kN; rear gains (A) 1.30 kN
    mass = 18_000 / GRAVITY
    supports = supports_of([axle("coupled", 1800.0), axle("coupled", 0.0)], Bearing())
    still = borne(supports, 2, mass, 600.0).loads
    assert [one * GRAVITY for one in still] == pytest.approx([6000.0, 12_000.0])
    seems = relations.centre_pulling(c=600.0, F=6000.0, h=390.0, W=mass, g=GRAVITY)
    pulling = borne(supports, 2, mass, seems).loads
    assert (pulling[1] - still[1]) * GRAVITY == pytest.approx(1300.0)
    assert sum(pulling) == pytest.approx(mass)


def test_a_bar_on_five_springs() -> None:
    # Gere, Mechanics of Materials, problem 2.7-8: a rigid bar of 600 N on five equally spaced
    # springs of 3k, 1.5k, k, 1.5k, 3k with k = 7.5 N/mm.  The answers from memory of the book:
    # 8.0 mm, and 180, 90 and 60 N
    rates = [3.0, 1.5, 1.0, 1.5, 3.0]
    supports = tuple(Support((n,), (rate,), 100.0 * (2 - n)) for n, rate in enumerate(rates))
    found = borne(supports, 5, 600.0, 0.0)
    assert found.sinks / 7.5 == pytest.approx(8.0)
    assert found.turns == pytest.approx(0.0)
    assert found.loads == pytest.approx((180.0, 90.0, 60.0, 90.0, 180.0))
