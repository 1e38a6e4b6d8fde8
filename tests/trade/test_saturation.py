"""Look-up of saturated steam: shape, ends, and way back from the temperature."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighshaft.trade.saturation import (
    ATMOSPHERE,
    Saturation,
    SteamTableError,
    saturation,
    saturation_at,
)

pressures = st.floats(-0.9, 16.0)


@given(pressures, pressures)
def test_rises_with_pressure(one: float, other: float) -> None:
    low, high = sorted((one, other))
    if high - low < 1e-6:
        return
    a, b = saturation(low), saturation(high)
    assert a.temperature < b.temperature
    assert a.density < b.density
    assert a.water_density > b.water_density
    assert a.steam_heat < b.steam_heat
    assert a.latent_heat > b.latent_heat


@given(pressures)
def test_there_and_back(pressure: float) -> None:
    assert saturation_at(saturation(pressure).temperature).pressure == pytest.approx(
        pressure, abs=1e-9
    )


@given(pressures)
def test_latent_heat_is_temperature_times_entropy_of_evaporation(pressure: float) -> None:
    # evaporation at constant temperature: L = T (s'' - s'); ties two columns to two others
    at = saturation(pressure)
    kelvin = at.temperature + 273.15
    assert at.latent_heat == pytest.approx(kelvin * (at.steam_entropy - at.water_entropy), rel=2e-4)


@given(st.floats(-0.8, 15.0))
def test_clapeyron(pressure: float) -> None:
    # dp/dT = L / (T (v'' - v')), bar per K, over a step of a tenth of the pressure
    step = 0.1 * (pressure + ATMOSPHERE)
    a, m, b = (saturation(p) for p in (pressure - step / 2, pressure, pressure + step / 2))
    slope = step / (b.temperature - a.temperature)
    swelling = 1 / m.density - 1 / m.water_density
    kelvin = m.temperature + 273.15
    assert slope == pytest.approx(m.latent_heat * 1e3 / (kelvin * swelling) * 1e-5, rel=0.02)


@pytest.mark.parametrize("pressure", [-0.92, 21.0, 100.0, math.nan, -2.0, math.inf])
def test_outside_is_refused_in_words(pressure: float) -> None:
    with pytest.raises(SteamTableError, match=r"from -0\.91 to 20\.99 bar"):
        saturation(pressure)


@pytest.mark.parametrize("temperature", [20.0, 250.0, math.nan])
def test_temperature_outside_is_refused_in_words(temperature: float) -> None:
    with pytest.raises(SteamTableError, match="degC is outside"):
        saturation_at(temperature)


def test_ends_of_the_table_work() -> None:
    for pressure in (0.1 - ATMOSPHERE, 22.0 - ATMOSPHERE):
        assert isinstance(saturation(pressure), Saturation)
