"""Tables of the working fluids against a general library of the same formulation."""

import math

import pytest
from CoolProp import CoolProp
from hypothesis import given
from hypothesis import strategies as st

from weighshaft.steam.fluid import BAR, air, flow_constants, state, steam
from weighshaft.steam.vessels import Vessel

pressures = st.floats(0.12, 21.9)
LOW = 0.5
"""bar absolute below which the cells of the table are wide beside the pressure."""


def _library(name: str, *at: object) -> float:
    return float(CoolProp.PropsSI(name, *at, "IF97::Water"))


@given(pressures, st.floats(0.02, 1.0))
def test_wet_steam_against_coolprop(bar: float, dryness: float) -> None:
    # CoolProp's IF97 (MIT licence): 2.5 kJ/kg and a thousandth of the density; water's own
    # volume is taken as one number
    vessel = Vessel(steam(), 1e-3, bar * BAR, dryness=dryness)
    assert vessel.pressure == pytest.approx(bar * BAR, rel=3e-3 if bar < LOW else 1e-4)
    hot = _library("T", "P", bar * BAR, "Q", dryness)
    assert vessel.temperature == pytest.approx(hot, abs=0.2 if bar < LOW else 0.01)
    heat = _library("H", "P", bar * BAR, "Q", dryness)
    assert vessel.heat == pytest.approx(heat, abs=8000 if bar < LOW else 2500)
    density = _library("D", "P", bar * BAR, "Q", dryness)
    near = (1.5e-2 if bar < LOW else 3e-4) + 1e-3 / dryness
    assert vessel.density == pytest.approx(density, rel=near)


@given(pressures, st.floats(0.5, 140.0))
def test_superheated_steam_against_coolprop(bar: float, superheat: float) -> None:
    saturated = _library("T", "P", bar * BAR, "Q", 1.0)
    vessel = Vessel(steam(), 1e-3, bar * BAR, superheat=superheat)
    at = ("P", bar * BAR, "T", saturated + superheat)
    assert vessel.temperature == pytest.approx(saturated + superheat, abs=3.0 if bar < LOW else 1.0)
    assert vessel.heat == pytest.approx(_library("H", *at), abs=8000 if bar < LOW else 4000)
    assert vessel.density == pytest.approx(_library("D", *at), rel=0.015 if bar < LOW else 0.003)


@given(st.floats(0.2, 12.0), st.floats(-10.0, 120.0))
def test_air_is_a_perfect_gas_as_far_as_the_air_test_goes(bar: float, celsius: float) -> None:
    kelvin = celsius + 273.15
    vessel = Vessel(air(), 1e-3, bar * BAR, superheat=kelvin)
    assert vessel.temperature == pytest.approx(kelvin, rel=1e-6)
    library = float(CoolProp.PropsSI("D", "P", bar * BAR, "T", kelvin, "Air"))
    assert vessel.density == pytest.approx(library, rel=0.01)


@given(pressures, st.floats(0.05, 1.3), st.floats(0.3, 3.0))
def test_state_follows_from_mass_energy_and_volume(bar: float, wet: float, stretch: float) -> None:
    superheat = max(0.0, 300 * (wet - 1))
    vessel = Vessel(steam(), 1e-3, bar * BAR, dryness=min(wet, 1.0), superheat=superheat)
    volume, inside = state(steam(), vessel.pressure, dryness=min(vessel.dryness, 1.0),
                           superheat=vessel.temperature - vessel.saturated)  # fmt: skip
    assert vessel.mass * volume == pytest.approx(1e-3, rel=2e-3)
    assert vessel.energy == pytest.approx(vessel.mass * inside, rel=2e-3)
    # adiabatic there and back: nothing is lost
    energy = vessel.energy
    work = vessel.push(1e-3 * (stretch - 1))
    assert vessel.energy == pytest.approx(energy - work, rel=1e-12)


def test_flow_constants_of_air_are_the_handbooks() -> None:
    # choked air: 0.6847 and 0.528, in any text on compressible flow
    greatest, critical = flow_constants(1.4)
    assert greatest == pytest.approx(0.6847, abs=1e-4)
    assert critical == pytest.approx(0.5283, abs=1e-4)
    assert math.isinf(Vessel(air(), 1e-3, BAR, superheat=293.0).dryness)
