"""Openings and walls: what passes is kept to the last digit, and flows as it should."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from weighshaft.steam.fluid import AIR_R, BAR, air, steam
from weighshaft.steam.vessels import Vessel, Wall, exchange, warm


@settings(max_examples=60)
@given(
    st.lists(st.floats(0.3, 15.0), min_size=3, max_size=4),
    st.lists(st.floats(0.3, 1.0), min_size=4, max_size=4),
    st.floats(1e-8, 1e-3),
    st.floats(1e-5, 0.1),
)
def test_mass_and_energy_are_kept(
    bars: list[float], dryness: list[float], area: float, time: float
) -> None:
    vessels = [
        Vessel(steam(), 1e-4, bar * BAR, dryness=dry)
        for bar, dry in zip(bars, dryness, strict=False)
    ]
    mass = sum(one.mass for one in vessels)
    energy = sum(one.energy for one in vessels)
    passed = exchange(vessels[0], [(one, area) for one in vessels[1:]], time)
    assert sum(one.mass for one in vessels) == pytest.approx(mass, rel=1e-12)
    assert sum(one.energy for one in vessels) == pytest.approx(energy, rel=1e-12)
    assert all(one.mass > 0 and one.pressure > 0 for one in vessels)
    for (gained, _), other in zip(passed, vessels[1:], strict=True):
        assert abs(gained) < mass
        assert other.pressure > 0


def test_napiers_rule_for_choked_steam() -> None:
    # Napier: p a / 70 lb/s, psia and in2 (Babcock & Wilcox eq. 49); 2 % between 75 and 165 psia
    for psia in (75.0, 100.0, 130.0, 165.0):
        boiler = Vessel(steam(), math.inf, psia * 6894.757)
        vessel = Vessel(steam(), 1.0, 101_325.0)
        ((mass, _),) = exchange(vessel, [(boiler, 1e-6)], 1.0)
        napier = psia / 70 * (1e-6 / 6.4516e-4) * 0.45359237
        assert mass == pytest.approx(napier, rel=0.02)


def test_clark_measured_outflow() -> None:
    # D. K. Clark in Babcock & Wilcox, Table 68: lb a minute through 1 in2 at 100 psia is 86.34
    boiler, into = Vessel(steam(), math.inf, 100 * 6894.757), Vessel(steam(), 1.0, 101_325.0)
    ((mass, _),) = exchange(into, [(boiler, 6.4516e-4 * 1e-3)], 1.0)
    assert mass * 1e3 * 60 / 0.45359237 == pytest.approx(86.34, rel=0.02)


@pytest.mark.parametrize("steps", [200, 800])
def test_air_running_out_of_a_bottle_against_scipy(steps: int) -> None:
    # the same balance, written apart for a perfect gas with the exact flow function
    volume, area, time = 1e-3, 2e-6, 1.2
    k, start, kelvin = 1.4, 6 * BAR, 293.0

    def flow(p: float, t: float) -> float:
        ratio = max(BAR * 1.01325 / p, (2 / (k + 1)) ** (k / (k - 1)))
        inner = max(ratio ** (2 / k) - ratio ** ((k + 1) / k), 0.0)
        return area * p / math.sqrt(AIR_R * t) * math.sqrt(2 * k / (k - 1) * inner)

    def rate(_: float, y: np.ndarray) -> list[float]:
        mass, energy = y
        t = energy / mass * (k - 1) / AIR_R
        out = flow(mass * AIR_R * t / volume, t)
        return [-out, -out * k / (k - 1) * AIR_R * t]

    mass = start * volume / (AIR_R * kelvin)
    exact = solve_ivp(rate, (0, time), [mass, start * volume / (k - 1)], rtol=1e-9, atol=1e-12)
    bottle = Vessel(air(), volume, start, superheat=kelvin)
    outside = Vessel(air(), math.inf, 101_325.0, superheat=kelvin)
    for _ in range(steps):
        exchange(bottle, [(outside, area)], time / steps)
    assert bottle.mass == pytest.approx(exact.y[0, -1], rel=4 / steps)
    assert bottle.temperature == pytest.approx(
        exact.y[1, -1] / exact.y[0, -1] * (k - 1) / AIR_R, rel=4 / steps
    )


def test_the_quarter_ellipse_stays_within_two_hundredths_of_the_exact_flow() -> None:
    for fluid, k, dry in ((air(), 1.4, 1.0), (steam(), 1.135, 1.0)):
        for ratio in np.linspace(0.3, 0.999, 40):
            high = Vessel(fluid, math.inf, 5 * BAR, dryness=dry, superheat=293 if k > 1.3 else 0)
            low = Vessel(fluid, 1.0, 5 * BAR * ratio, superheat=293 if k > 1.3 else 0)
            ((mass, _),) = exchange(low, [(high, 1e-9)], 1e-3)
            r = max(ratio, (2 / (k + 1)) ** (k / (k - 1)))
            exact = 1e-12 * math.sqrt(
                2 * k / (k - 1) * high.pressure * high.density * (r ** (2 / k) - r ** ((k + 1) / k))
            )
            assert mass == pytest.approx(exact, rel=0.025)


@given(st.floats(0.3, 15.0), st.floats(0.05, 1.0), st.floats(300.0, 480.0), st.floats(1e-4, 0.1))
def test_heat_goes_to_the_colder_and_is_kept(
    bar: float, dryness: float, kelvin: float, time: float
) -> None:
    vessel, wall = Vessel(steam(), 1e-4, bar * BAR, dryness=dryness), Wall(kelvin, 30.0)
    before = vessel.energy + wall.capacity * wall.temperature
    hotter = wall.temperature > vessel.temperature
    joules = warm(vessel, wall, 2e-3, time, 25_000.0, 150.0)
    assert vessel.energy + wall.capacity * wall.temperature == pytest.approx(before, rel=1e-12)
    assert joules >= 0 if hotter else joules <= 0
