"""The boiler as a store of heat, beside the balance of a published table of steam."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp

from tests.running_for_tests import raising
from weighshaft.running.vessel import COLD, WATER_HEAT, Vessel


def heat_of(temperature: float, quality: int) -> float:
    """Return the heat content at saturation, kJ/kg, from another library."""
    return float(PropsSI("H", "T", temperature + 273.15, "Q", quality, "Water")) / 1000


def vessel(**changes: float) -> Vessel:
    return Vessel(raising(**({"loss": 0.0} | changes)), 120.0)


def test_heat_warms_water_and_metal() -> None:
    one = vessel()
    for _ in range(4000):
        one.step(0.25, 200.0, 0.0, 0.0)
    spent = 200.0  # kJ
    warmed = 1.1 * (heat_of(one.temperature, 0) - heat_of(120, 0)) + 1.5 * (one.temperature - 120)
    assert warmed == pytest.approx(spent, rel=1e-3)
    assert one.pressure == pytest.approx(
        PropsSI("P", "T", one.temperature + 273.15, "Q", 0, "Water") / 1e5 - 1.01325, abs=2e-3
    )


def test_steam_drawn_without_a_fire_is_what_the_water_flashes() -> None:
    start = 160.0
    one = Vessel(raising(loss=0.0), start)
    for _ in range(400):
        one.step(0.25, 0.0, 5e-4, 0.0)

    def cools(t: float, state: list[float]) -> list[float]:
        water, at = state
        more = heat_of(at + 0.05, 0) - heat_of(at - 0.05, 0)
        rate = -5e-4 * (heat_of(at, 1) - heat_of(at, 0)) / (water * more / 0.1 + 1.5)
        return [-5e-4, rate]

    known = solve_ivp(cools, (0, 100), [1.1, start], rtol=1e-8).y[:, -1]
    assert one.water == pytest.approx(known[0], rel=1e-9)
    assert one.temperature == pytest.approx(known[1], abs=0.03)


def test_cold_feed_cools_the_water_as_mixing_does() -> None:
    one = vessel(metal_heat=1e-9)
    for _ in range(400):
        one.step(0.25, 0.0, 0.0, 1e-3)
    mixed = (1.1 * heat_of(120, 0) + 0.1 * 15 * WATER_HEAT) / 1.2
    assert heat_of(one.temperature, 0) == pytest.approx(mixed, rel=1e-3)
    for degrees in (5.0, 15.0, 50.0, 90.0):
        known = PropsSI("H", "T", degrees + 273.15, "P", 101325, "Water") / 1000
        assert degrees * WATER_HEAT == pytest.approx(known, rel=1e-2)


def test_left_alone_it_cools_towards_the_air() -> None:
    one = vessel(loss=0.5)
    before = one.lost
    assert before == pytest.approx(0.5 * (120 - COLD))
    for _ in range(400):
        one.step(0.25, 0.0, 0.0, 0.0)
    assert one.temperature < 120
    assert one.lost < before


def test_the_fire_answers_the_blast() -> None:
    fire = raising()
    assert fire.heat_at(0.0, 0.0) == pytest.approx(0.25 * 1900)
    assert fire.heat_at(1.0, 0.0) == pytest.approx(0.6 * 1900)
    assert fire.heat_at(0.0, 7e-4) == pytest.approx(1900)
    assert fire.heat_at(1.0, 1e-2) == pytest.approx(1900)
    half = fire.heat_at(0.0, 3.5e-4)
    assert 0.6 * 1900 < half < 0.7 * 1900


def test_a_fire_may_answer_as_it_was_worked() -> None:
    # none to one and a half times its full evaporation, in four steps
    fire = raising(answers=(0.1, 0.5, 0.9, 1.2), idle_share=0.1)
    assert fire.heat_at(0.0, 0.0) == pytest.approx(0.1 * 1900)
    assert fire.heat_at(0.0, 3.5e-4) == pytest.approx(0.5 * 1900)
    assert fire.heat_at(0.0, 7e-4) == pytest.approx(0.9 * 1900)
    assert fire.heat_at(0.0, 1.0) == pytest.approx(1.2 * 1900)
    assert fire.heat_at(1.0, 0.0) == pytest.approx(0.6 * 1900)
