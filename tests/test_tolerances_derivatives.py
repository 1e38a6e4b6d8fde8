"""Derivatives of events by dimensions: as finite differences, and as the circle diagram."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.motion.test_many import ALL, CRANK
from tests.tolerances_for_tests import LEADS, events, moved, notches_of, valve_for
from weighshaft.motion import Crank, SlideValve, SlipEccentric, ValveSetting
from weighshaft.tolerances import Dimension, Tolerances
from weighshaft.tolerances.derivatives import sensitivities
from weighshaft.tolerances.dimensions import dimensions_of

CUTOFFS = ValveSetting(rule="equal cut-offs", reverser=0.8)
OPEN = ("outside", "rocker", "slotted arm", "straight guide", "curved guide", "inclined")


def differences(
    one: Dimension, gear: Any, notches: tuple[float, ...], setting: ValveSetting,
    kept: float | None,
) -> tuple[np.ndarray, np.ndarray]:  # fmt: skip
    """Return derivatives by central differences of fourth order of the events themselves."""
    step = 4e-3

    def at(by: float) -> tuple[np.ndarray, np.ndarray]:
        crank, valve, turned = moved(one, by, CRANK, valve_for(gear), gear)
        constant = None if kept is None else kept + valve.valve_offset
        return events(crank, valve, turned, notches, setting=setting, constant=constant)

    values = [at(by * step) for by in (1, -1, 2, -2)]
    return tuple(  # type: ignore[return-value]
        (8 * (a - b) - (c - d)) / (12 * step) for a, b, c, d in zip(*values, strict=True)
    )


def check(
    gear: Any, some: tuple[Dimension, ...], setting: ValveSetting, near: float, rules: str
) -> None:
    notches = notches_of(gear)
    after, kept = sensitivities(some, CRANK, valve_for(gear), gear, notches, setting)
    for exact, constant in ((after, None), (kept, kept.constant)):
        if rules == "after" and constant is not None:
            continue
        percent, lead = events(
            CRANK, valve_for(gear), gear, notches, setting=setting,
            constant=None if constant is None else constant + valve_for(gear).valve_offset,
        )  # fmt: skip
        assert np.allclose(exact.percent, percent, rtol=0, atol=1e-7, equal_nan=True)
        assert np.allclose(exact.lead, lead, rtol=0, atol=1e-8)
        for i, one in enumerate(some):
            slope, of_lead = differences(one, gear, notches, setting, constant)
            told = f"{one.field}, {'kept' if constant is not None else 'set after building'}"
            assert np.allclose(exact.by_percent[i], slope, rtol=near, atol=near, equal_nan=True), (
                told
            )
            assert np.allclose(exact.by_lead[i], of_lead, rtol=near, atol=near), told


@pytest.mark.parametrize("name", [n for n in ALL if n.endswith(OPEN)])
def test_derivatives_by_every_dimension_are_those_of_the_events(name: str) -> None:
    """Of a gear of every kind at a random geometry near the one laid out, both settings."""
    rng, gear = np.random.default_rng(len(name)), ALL[name]
    every = dimensions_of(Tolerances(), CRANK, valve_for(gear), gear)
    random = {
        one.field: one.value * (1 + 0.005 * rng.uniform(-1, 1))
        for one in every
        if one.part == "gear" and abs(one.value) > 1
    }
    gear = replace(gear, **random)
    every = dimensions_of(Tolerances(), CRANK, valve_for(gear), gear)
    check(gear, every, LEADS, 1e-5, "both")


@pytest.mark.parametrize("name", [n for n in ALL if n.endswith("inside")])
def test_derivatives_hold_for_inside_admission(name: str) -> None:
    gear = ALL[name]
    every = dimensions_of(Tolerances(), CRANK, valve_for(gear), gear)
    check(gear, (*every[:3], *every[-6:]), LEADS, 1e-5, "both")


@pytest.mark.parametrize(
    "name", ["slip eccentric, outside", "Stephenson, outside", "rocker", "Walschaerts, inside"]
)
def test_a_valve_set_for_equal_cutoffs_follows_the_gear(name: str) -> None:
    gear, rng = ALL[name], np.random.default_rng(2)
    every = dimensions_of(Tolerances(), CRANK, valve_for(gear), gear)
    picked = rng.choice(len(every) - 6, 3, replace=False)
    some = (*(every[i] for i in sorted(picked)), *every[-6:-1])
    setting = CUTOFFS if gear.notched else replace(CUTOFFS, reverser=1.0)
    check(gear, some, setting, 1e-4, "after")


def test_equal_leads_in_mid_gear_follow_the_notch_of_the_setting() -> None:
    gear = ALL["Stephenson, outside"]
    every = dimensions_of(Tolerances(), CRANK, valve_for(gear), gear)
    check(gear, every[:4], ValveSetting(reverser=0.0), 1e-5, "after")


@settings(max_examples=15, deadline=None)
@given(st.floats(1.0, 3.0), st.floats(4.0, 8.0), st.floats(-0.4, 0.6), st.floats(10.0, 35.0))
def test_long_rods_give_the_derivatives_of_the_circle_diagram(
    lap: float, throw: float, exhaust: float, advance: float
) -> None:
    """Zeuner's and Reuleaux' circle: opening r sin(theta + delta) - lap, piston (1 - cos) / 2."""
    r, e, i, delta, theta, off = sympy.symbols("r e i delta theta off")
    place = r * sympy.sin(theta + delta)
    piston = 50 * (1 - sympy.cos(theta))
    gear = SlipEccentric(eccentric_throw=throw, advance=advance, eccentric_rod=1e8,
                         spindle_height=0.0)  # fmt: skip
    crank, valve = Crank(40.0, 1e8), SlideValve(lap, exhaust, 3.0)
    every = dimensions_of(Tolerances(), crank, valve, gear)
    _, kept = sensitivities(every, crank, valve, gear, (1.0,), LEADS)
    at = {r: throw, e: lap, i: exhaust, delta: np.radians(advance), off: 0.0}
    shuts = np.pi - np.arcsin(lap / throw) - np.radians(advance)
    releases = np.pi + np.arcsin(exhaust / throw) - np.radians(advance)
    symbols = {"steam_lap": e, "exhaust_lap": i, "eccentric_throw": r, "advance": delta,
               "valve_offset": off}  # fmt: skip
    for event, opening, angle in (
        (1, place - e - off, shuts),
        (2, -place - i + off, releases),
    ):
        for field, symbol in symbols.items():
            turns = -sympy.diff(opening, symbol) / sympy.diff(opening, theta)
            slope = float((sympy.diff(piston, theta) * turns).subs(at).subs(theta, angle))
            if field == "advance":
                slope *= np.pi / 180
            k = [one.field for one in every].index(field)
            assert kept.by_percent[k, 0, 0, event] == pytest.approx(slope, rel=1e-5, abs=1e-6)
