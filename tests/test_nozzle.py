"""Blast nozzle: flow, back pressure, rules, cones, fits."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.nozzle_for_tests import BOX, ENGINE, GOOD
from weighshaft.design.document import model_of
from weighshaft.nozzle import Cones, ExhaustSteam, Nozzle, NozzleResult, Smokebox, work
from weighshaft.nozzle.chapter import ALLOWED, WALKING
from weighshaft.nozzle.cones import lay_out
from weighshaft.nozzle.flow import (
    ATMOSPHERE,
    area_for,
    back_pressure,
    back_pressures,
    choking_pressure,
    critical_ratio,
    exponent,
    mass_flux,
    wet_density,
)
from weighshaft.sizes import SizeError, sizes_of
from weighshaft.trade.drills import SETS
from weighshaft.trade.saturation import saturation

MAIN_AT_MOST = 6

drynesses = st.floats(0.6, 1.0)
pressures = st.floats(0.01, 9.0)
diameters = st.floats(1.0, 12.0)


def found(result: NozzleResult, field: str, level: str) -> list[str]:
    return [f.says for f in result.findings if field in f.fields and f.level == level]


# --- flow ---------------------------------------------------------------------------------


@given(st.floats(1.0, 9.0), drynesses, st.floats(-0.9, 1.0))
def test_choked_flow_does_not_feel_the_back_pressure(
    pressure: float, dryness: float, share: float
) -> None:
    limit = (pressure + ATMOSPHERE) * critical_ratio(exponent(dryness)) - ATMOSPHERE
    behind = -ATMOSPHERE + (limit + ATMOSPHERE) * (share + 0.9) / 1.9 * 0.999
    choked = mass_flux(pressure, dryness, limit * 0.9999)
    assert mass_flux(pressure, dryness, behind) == pytest.approx(choked, rel=1e-6)


@given(pressures, drynesses)
def test_below_choking_the_back_pressure_is_felt(pressure: float, dryness: float) -> None:
    limit = (pressure + ATMOSPHERE) * critical_ratio(exponent(dryness)) - ATMOSPHERE
    halfway = (limit + pressure) / 2
    assert mass_flux(pressure, dryness, halfway) < mass_flux(pressure, dryness, limit)
    assert mass_flux(pressure, dryness, pressure) == 0.0
    assert mass_flux(pressure, dryness, pressure + 1) == 0.0


@given(pressures, pressures, drynesses)
def test_more_pressure_drives_more_steam(a: float, b: float, dryness: float) -> None:
    low, high = sorted((a, b))
    if high - low > 1e-6:
        assert mass_flux(low, dryness) < mass_flux(high, dryness)


@given(st.floats(0.0002, 0.002), drynesses)
def test_small_pressures_follow_bernoulli(pressure: float, dryness: float) -> None:
    # in the limit an incompressible jet: G = sqrt(2 rho dp)
    simple = math.sqrt(2 * wet_density(pressure, dryness) * pressure * 1e5)
    assert mass_flux(pressure, dryness) == pytest.approx(simple, rel=0.003)


@given(drynesses)
def test_flow_is_smooth_through_choking(dryness: float) -> None:
    at = choking_pressure(dryness)
    below, above = (mass_flux(at * f, dryness) for f in (1 - 1e-6, 1 + 1e-6))
    assert above == pytest.approx(below, rel=1e-5)


def test_choking_is_the_greatest_flow_of_the_isentropic_formula() -> None:
    # independent of the closed form: search the ratio of pressures for the greatest flow
    k = exponent(1.0)
    ratio = np.linspace(0.3, 0.99, 20_001)
    shape = ratio ** (2 / k) - ratio ** ((k + 1) / k)
    assert ratio[np.argmax(shape)] == pytest.approx(critical_ratio(k), abs=1e-4)


@given(st.floats(0.003, 9.0), drynesses, st.floats(0.5, 200.0))
def test_back_pressure_is_the_way_back(pressure: float, dryness: float, area: float) -> None:
    flow = mass_flux(pressure, dryness) * area * 1e-6
    assert back_pressure(flow, area, dryness) == pytest.approx(pressure, rel=2e-3)
    assert area_for(flow, pressure, dryness) == pytest.approx(area, rel=1e-9)


def test_back_pressure_beyond_the_table_is_no_number() -> None:
    assert back_pressure(1.0, 1.0, 0.9) is None
    assert np.isnan(back_pressures(np.array([1.0]), np.array([1.0]), 0.9)[0])
    assert back_pressure(0.0, 1.0, 0.9) == 0.0


def test_wet_steam_is_denser() -> None:
    assert wet_density(2.0, 1.0) == pytest.approx(saturation(2.0).density)
    assert wet_density(2.0, 0.8) == pytest.approx(saturation(2.0).density / 0.8, rel=1e-3)


# --- the chapter --------------------------------------------------------------------------


@given(diameters, diameters)
def test_a_bigger_nozzle_has_a_lower_back_pressure(a: float, b: float) -> None:
    small, big = sorted((a, b))
    if big - small < 1e-3:
        return
    one = work(replace(GOOD, diameter=small), **ENGINE).back_pressure
    other = work(replace(GOOD, diameter=big), **ENGINE).back_pressure
    # None stands for more than 10 bar
    assert one is None or (other is not None and one > other)


@given(st.floats(0.01, 1.5))
def test_the_nozzle_by_steam_has_the_pressure_that_was_allowed(allowed: float) -> None:
    steam = ExhaustSteam(back_pressure=allowed)
    first = work(replace(GOOD, steam=steam), **ENGINE)
    again = work(replace(GOOD, steam=steam, diameter=first.diameter_by_steam), **ENGINE)
    assert again.back_pressure == pytest.approx(allowed, rel=2e-3)


def test_steam_by_hand() -> None:
    # 2 cylinders, both ends, 28.575 x 41.275 mm to 58 % with clearance, 7.187 turns a second,
    # 4.125 bar at cut-off (0.75 of 5.5), 1.3 for what condenses
    turns = 8 / 3.6 / (math.pi * 0.098425)
    volume = 4 * math.pi / 4 * 0.028575**2 * 0.041275 * 0.58
    flow = volume * saturation(4.125).density * 1.3 * turns
    result = work(GOOD, **ENGINE)
    assert result.steam_flow == pytest.approx(flow * 1000)
    assert result.revolutions == pytest.approx(turns * 60)
    assert result.back_pressure is not None
    area = math.pi / 4 * 4.0**2 * 0.93
    exact = mass_flux(result.back_pressure, 0.92) * area * 1e-6
    assert exact == pytest.approx(flow, rel=1e-3)


def test_steam_follows_cut_off_speed_and_number() -> None:
    base = work(GOOD, **ENGINE)
    assert work(GOOD, **{**ENGINE, "speed": 16.0}).steam_flow == pytest.approx(2 * base.steam_flow)
    assert work(GOOD, **{**ENGINE, "number": 4}).steam_flow == pytest.approx(2 * base.steam_flow)
    longer = work(GOOD, **{**ENGINE, "running_cutoff": 80.0})
    assert longer.steam_flow / base.steam_flow == pytest.approx(88 / 58)
    assert base.back_pressure_full == pytest.approx(longer.back_pressure)
    never = work(GOOD, **{**ENGINE, "running_cutoff": None})
    assert never.steam_flow / base.steam_flow == pytest.approx(108 / 58)


def test_jet_speed_stops_at_sound() -> None:
    # at 100 degC wet steam's sound is near sqrt(k p v): about 440 to 470 m/s
    slow = work(replace(GOOD, diameter=6.0), **ENGINE)
    fast = work(replace(GOOD, diameter=1.6), **ENGINE)
    faster = work(replace(GOOD, diameter=1.4), **ENGINE)
    assert not slow.choked
    assert fast.choked
    assert faster.choked
    assert slow.jet_speed is not None
    assert fast.jet_speed is not None
    assert faster.jet_speed is not None
    assert slow.jet_speed < 150
    k = exponent(0.92)
    volume = 1 / wet_density(0.0, 0.92)
    assert fast.jet_speed == pytest.approx(math.sqrt(k * 1.01325e5 * volume), rel=0.08)
    assert faster.jet_speed == pytest.approx(fast.jet_speed, rel=0.03)


def test_without_speed_or_clearance_it_says_what_it_took() -> None:
    result = work(GOOD, **{**ENGINE, "speed": None, "clearance_percent": None})
    assert result.speed == WALKING
    assert any("walking pace" in f.says for f in result.findings)
    assert result.steam_flow == pytest.approx(work(GOOD, **ENGINE).steam_flow / 2)


def test_a_nozzle_far_too_small_stops_the_job_and_the_button_mends_it() -> None:
    result = work(replace(GOOD, diameter=0.6), **ENGINE)
    assert result.back_pressure is None
    assert result.choked
    (stop,) = (f for f in result.findings if f.level == "stop")
    assert "10 bar" in stop.says
    assert stop.change is not None
    mended = work(replace(GOOD, diameter=float(stop.change[1])), **ENGINE)
    assert mended.back_pressure == pytest.approx(0.2, rel=0.15)
    assert not [f for f in mended.findings if f.level == "stop"]


@pytest.mark.parametrize(
    ("diameter", "firing", "level", "word"),
    [
        (4.0, "coal", "fine", "allowed"),
        (3.0, "coal", "check", "robs the pistons"),
        (9.0, "coal", "check", "draws a coal fire"),
        (3.0, "spirit", "check", "wicks"),
        (4.0, "gas", "check", "burner"),
        (9.0, "gas", "fine", "allowed"),
    ],
)
def test_blast_is_judged_by_the_firing(diameter: float, firing: str, level: str, word: str) -> None:
    result = work(replace(GOOD, diameter=diameter, firing=firing), **ENGINE)
    says = found(result, "nozzle.steam.back_pressure", level)
    assert len(says) == 1
    assert word in says[0]
    assert result.allowed == ALLOWED[firing]


def test_drill_comes_from_the_sets_at_hand() -> None:
    by_set = {
        sets: work(GOOD, **ENGINE | {"drill_sets": sets})
        for sets in (SETS, ("metric",), ("number", "letter"), ("fraction",))
    }
    assert by_set[("metric",)].drill.endswith("mm")
    assert by_set["number", "letter"].drill.startswith("No.")
    assert by_set[("fraction",)].drill.endswith("in")
    best = min(abs(r.drill_diameter - r.diameter_by_steam) for r in by_set.values())
    assert abs(by_set[SETS].drill_diameter - by_set[SETS].diameter_by_steam) == best
    metric = ENGINE | {"drill_sets": ("metric",)}
    odd = work(replace(GOOD, diameter=4.13), **metric)
    (finding,) = (f for f in odd.findings if "threads.rack" in f.fields)
    assert finding.change == ("nozzle.diameter", 4.1)
    even = work(GOOD, **metric)
    assert not [f for f in even.findings if "threads.rack" in f.fields]


# --- cones --------------------------------------------------------------------------------


@given(
    st.floats(0.5, 8.0), st.floats(20, 300), st.floats(-10, 60), st.floats(0, 2.3),
    st.sampled_from(["rim", "point"]), st.sampled_from(["diameter", "side"]),
)  # fmt: skip
def test_both_cones_touch_where_the_choke_is_suggested(
    nozzle: float, top: float, below: float, taper: float, start: str, side: str
) -> None:
    box = Smokebox(chimney_top=top, nozzle_below=below, taper=taper)
    cones = Cones(start=start, measured_on=side, touch_below_top=2.0)
    at = lay_out(box, cones, nozzle, 16.0)
    assert at is not None
    assert at.wanted_choke is not None
    assert at.wanted_at is not None
    # by hand: the wall at the place of touching, and both cones there and at the choke
    double = 2.0 if side == "side" else 1.0
    d0 = nozzle if start == "rim" else 0.0
    touch = top - 2.0
    wall = at.wanted_choke + 2 * math.tan(math.radians(taper)) * (touch - at.wanted_at)
    assert wall == pytest.approx(d0 + double * (touch + below) / 6)
    assert at.wanted_choke == pytest.approx(d0 + double * (at.wanted_at + below) / 3)
    # taken as suggested, the cones are found to touch
    assert at.meets == pytest.approx(touch)
    assert at.fills_choke == pytest.approx(at.choke)
    assert at.tip_for_lower_cone == pytest.approx(at.tip)


def test_a_parallel_chimney_has_its_choke_half_way() -> None:
    at = lay_out(BOX, Cones(touch_below_top=0.0), 4.0, 16.0)
    assert at is not None
    assert at.wanted_at is not None
    assert at.wanted_at - at.tip == pytest.approx((at.top - at.tip) / 2)


def test_measured_on_the_side_a_cone_is_twice_as_wide() -> None:
    one, other = (
        lay_out(BOX, Cones(measured_on=how, start="point"), 4.0, 16.0)
        for how in ("diameter", "side")
    )
    assert one is not None
    assert other is not None
    assert one.wanted_choke is not None
    assert other.wanted_choke == pytest.approx(2 * one.wanted_choke)
    assert other.wanted_at == pytest.approx(one.wanted_at)


def test_full_size_inch_and_a_half_is_scaled() -> None:
    at = lay_out(BOX, Cones(), 4.0, 16.0)
    assert at is not None
    assert at.top - at.touch == pytest.approx(38.1 / 16)


def test_suggested_chimney_is_found_good() -> None:
    result = work(GOOD, **ENGINE)
    assert not [f for f in result.findings if f.level != "fine"]
    assert found(result, "nozzle.smokebox.choke", "fine")
    suggested = {s.field: s.value for s in result.suggestions}
    assert suggested["nozzle.smokebox.choke"] == pytest.approx(result.wanted_choke, abs=0.01)
    assert result.chimney_length == pytest.approx(66.0)


@pytest.mark.parametrize(("choke", "where"), [(15.0, "below"), (30.0, "above")])
def test_a_choke_off_the_cones_is_told_and_mended(choke: float, where: str) -> None:
    result = work(replace(GOOD, smokebox=replace(BOX, choke=choke)), **ENGINE)
    (finding,) = (f for f in result.findings if f.change and f.change[0] == "nozzle.smokebox.choke")
    assert where in finding.says
    assert finding.change is not None
    mended = replace(BOX, choke=float(finding.change[1]))
    again = work(replace(GOOD, smokebox=mended), **ENGINE)
    assert not [f for f in again.findings if f.level != "fine"]


def test_a_nozzle_at_the_wrong_height_is_told_and_mended() -> None:
    box = replace(BOX, choke=22.0, choke_above_nozzle=80.0)
    result = work(replace(GOOD, smokebox=box), **ENGINE)
    assert any("strikes the petticoat" in f.says for f in result.findings)
    assert result.layout is not None
    assert result.nozzle_below_by_cone == pytest.approx(-(68.0 - (22.0 - 4.0) * 3))


def test_a_wide_taper_runs_away_from_the_cone() -> None:
    result = work(replace(GOOD, smokebox=replace(BOX, taper=6.0)), **ENGINE)
    assert any("runs away" in f.says for f in result.findings)
    assert result.wanted_choke is None


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        ({"nozzle_below": 45.0}, "outside the smokebox"),
        ({"chimney_top": 38.0, "nozzle_below": 30.0}, "does not clear the smokebox"),
        ({"choke": 3.5}, "no wider than the nozzle"),
        ({"choke_above_nozzle": 150.0}, "above the chimney's top"),
        ({"chimney_outside": 20.0, "choke": 22.0}, "no smaller than its outside"),
        ({"nozzle_below": -110.0}, "no room is left"),
        ({"petticoat_mouth": 85.0}, "fills the smokebox"),
    ],
)
def test_what_does_not_fit_stops_the_job(changes: dict[str, float], word: str) -> None:
    result = work(replace(GOOD, smokebox=replace(BOX, **changes)), **ENGINE)
    assert any(word in f.says for f in result.findings if f.level == "stop")
    assert result.findings[0].level == "stop"


def test_what_a_builder_would_look_at_again() -> None:
    deep = work(replace(GOOD, smokebox=replace(BOX, petticoat_length=70.0)), **ENGINE)
    assert any("below the nozzle's tip" in f.says for f in deep.findings if f.level == "check")
    thin = work(replace(GOOD, smokebox=replace(BOX, pipe_bore=3.9)), **ENGINE)
    assert any("pipe throttles" in f.says for f in thin.findings if f.level == "check")


def test_unknown_smokebox_leaves_the_cones_out() -> None:
    result = work(Nozzle(diameter=4.0), **ENGINE)
    assert result.layout is None
    assert result.wanted_choke is None
    assert not [f for f in result.findings if f.level == "stop"]
    assert {rule.of for rule in result.rules} == {"nozzle"}


def test_caution_is_always_there() -> None:
    result = work(GOOD, **ENGINE)
    assert any("100 degC" in f.says for f in result.findings)


def test_fixed_sizes_are_not_suggested() -> None:
    fixed = frozenset({"nozzle.smokebox.choke", "nozzle.diameter"})
    result = work(GOOD, **ENGINE, fixed=fixed)
    assert not fixed & {s.field for s in result.suggestions}


def test_workings_give_the_figures() -> None:
    result = work(replace(GOOD, grate_area=52.0), **ENGINE)
    by = {working.label: working for working in result.workings}
    assert by["Steam through the nozzle"].result == pytest.approx(result.steam_flow)
    found_size = by["Nozzle for the allowed back pressure"].result
    assert found_size == pytest.approx(result.diameter_by_steam)
    assert result.wanted_choke == pytest.approx(by["Choke that the lower cone just touches"].result)
    for working in result.workings:
        assert working.relation.source
        assert working.in_symbols()
        assert working.in_numbers()


@pytest.mark.parametrize("value", [math.nan, math.inf, 0.0, 100.0])
def test_bad_nozzles_are_refused(value: float) -> None:
    with pytest.raises(SizeError):
        Nozzle(diameter=value)


def test_bad_words_are_refused() -> None:
    with pytest.raises(SizeError, match="coal, spirit, gas"):
        Nozzle(diameter=4.0, firing="wood")


def test_the_design_file_can_hold_it() -> None:
    made = model_of(Nozzle).model_validate(
        {"diameter": "5/32 in", "smokebox": {"choke": "15/16 in"}, "cones": {"start": "point"}}
    )
    assert made.diameter == pytest.approx(3.96875)
    kinds = (Nozzle, Smokebox, Cones, ExhaustSteam)
    mains = [s for kind in kinds for s in sizes_of(kind).values() if s.main]
    assert 1 <= len(mains) <= MAIN_AT_MOST
