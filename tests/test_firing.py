"""Fire, boiler and feed: the chapter as a whole, its types, its fuels, and its properties."""

from __future__ import annotations

import dataclasses
import math
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.designs import SAMPLES
from weighshaft import job
from weighshaft.design import Design, DesignRefused, read
from weighshaft.firing import Firing, FiringResult, Raising, relations
from weighshaft.firing.fires import USUAL, efficiency_of, fire_for, heat_into_water
from weighshaft.firing.gas import (
    GAS_CONSTANT,
    by_mass,
    emptied,
    flow_of,
    jet_flow,
    liquid_density,
    mixed,
    mole_shares,
)
from weighshaft.firing.results import HARDEST
from weighshaft.firing.valves import capacity, seat_for
from weighshaft.trade.copper import BASES, hot_stress
from weighshaft.trade.fuels import GASES

BY_NAME = {path.name.partition(".")[0]: path for path in SAMPLES}
GAS, COAL, SPIRIT = "alder", "hartfell", "merrow"


@cache
def sample(name: str) -> Design:
    return read(BY_NAME[name])


def worked(name: str, **changes: Any) -> FiringResult:
    work = job.work(sample(name).changed({k.replace("__", "."): v for k, v in changes.items()}))
    assert work.firing is not None, [one.says for one in work.findings if one.chapter == "firing"]
    return work.firing


def said(result: FiringResult, level: str) -> str:
    return " ".join(f"{one.says} {one.mend}" for one in result.findings if one.level == level)


@pytest.mark.parametrize("name", BY_NAME)
def test_every_sample_is_worked_without_a_stop(name: str) -> None:
    result = worked(name)
    assert not said(result, "stop")
    for one in dataclasses.fields(result):
        value = getattr(result, one.name)
        if isinstance(value, float):
            assert math.isfinite(value), one.name
            assert value >= 0, one.name
    assert result.steam_low < result.steam < result.steam_high
    assert 0 < result.usable < result.water < result.room
    assert result.radiating < result.surface
    assert result.valves.passes * 60_000 >= result.evaporations.high
    assert any("certifies nothing" in one for one in result.cautions)


def test_small_gas_boilers_and_larger_coal_boilers_steam_as_is_known_of_them() -> None:
    """Common practice: 8 to 15 g a minute in 45 mm gauge, 100 to 200 g with coal in 3 1/2 in."""
    assert 8 < worked("alder").steam < 15
    assert 8 < worked("rowan").steam < 15
    for name in ("brackenfell", "curlew", "hartfell", "whinchat"):
        assert 100 < worked(name).steam < 200
    for name in (GAS, COAL, SPIRIT):
        minutes = worked(name).raise_time
        assert minutes is not None
        assert 3 < minutes < 20


def test_heat_is_neither_made_nor_lost() -> None:
    """What goes into steam, shell and chimney is the fire's; by its own figures, at hand."""
    result = worked(GAS)
    into_steam = result.evaporations.usual / 60_000 * (2743.4 - 4.19 * 15) * 1000
    plain = result.raising
    assert into_steam + result.losses == pytest.approx(plain.heat_full, rel=0.001)
    # shown to two and three figures
    assert plain.heat_full == pytest.approx(result.share * plain.fire_full, rel=0.02)
    assert plain.fire_full == pytest.approx(result.burnt / 60_000 * 45.37e6, rel=0.005)
    assert result.into_water == pytest.approx(plain.heat_full, rel=0.005)


@pytest.mark.parametrize(("name", "changes", "pattern"), [
    (SPIRIT, {"firing__pattern": "Smithies"}, "Smithies"),
    (SPIRIT, {"firing__pattern": "pot", "firing__surfaces__water_tubes": 3}, "pot"),
    (GAS, {"firing__pattern": "pot"}, "pot"),
    (GAS, {"firing__surfaces__water_tubes": 5}, "centre flue"),
    (GAS, {"boiler__kind": "vertical"}, "vertical"),
    (COAL, {"boiler__kind": "vertical"}, "vertical"),
    (GAS, {"boiler__kind": "locomotive type"}, "locomotive type"),
])  # fmt: skip
def test_every_type_is_worked(name: str, changes: dict[str, Any], pattern: str) -> None:
    result = worked(name, **changes)
    assert result.pattern == pattern
    assert result.steam > 0
    assert 0 < result.usable < result.water


def test_water_tubes_add_surface_that_sees_the_fire() -> None:
    plain, tubed = worked(GAS), worked(GAS, firing__surfaces__water_tubes=5)
    assert plain.heated.water_tubes is None
    assert tubed.heated.water_tubes is not None
    number, outside, long = tubed.heated.water_tubes
    more = number * math.pi * outside * long
    assert tubed.heated.area() - plain.heated.area() == pytest.approx(more)
    assert tubed.heated.area(True) - plain.heated.area(True) == pytest.approx(more)


def test_a_type_that_the_frames_do_not_hold_is_refused_in_words() -> None:
    work = job.work(sample(GAS).changed({"firing.pattern": "vertical"}))
    assert work.firing is None
    (stop,) = [one for one in work.findings if one.chapter == "firing"]
    assert stop.level == "stop"
    assert stop.fields == ("firing.pattern",)
    assert "in the frames lies" in stop.says


@pytest.mark.parametrize(("changes", "words"), [
    ({"firing.surfaces.water_tubes": 3, "firing.surfaces.water_tube_length": 40.0},
     "more than the 19.5 mm"),
    ({"firing.pattern": "Smithies", "firing.surfaces.inner_barrel": 60.0}, "does not go into"),
])  # fmt: skip
def test_tubes_that_do_not_go_in_are_refused(changes: dict[str, Any], words: str) -> None:
    work = job.work(sample(GAS).changed(changes))
    assert work.firing is None
    assert any(words in one.says for one in work.findings if one.chapter == "firing")


def test_too_many_fire_tubes_are_refused_with_what_would_do() -> None:
    work = job.work(sample(COAL).changed({"firing.surfaces.tubes": 90}))
    assert work.firing is None
    assert any("fewer would do" in one.says for one in work.findings if one.chapter == "firing")


def test_a_size_out_of_range_is_refused() -> None:
    with pytest.raises(DesignRefused, match=r"out of range; 0\.05 to 2 mm would do"):
        sample(GAS).changed({"firing.gas.jet": "5 mm"})


# --- gas ----------------------------------------------------------------------------------------


def test_propane_in_a_tank_of_ones_own_stops() -> None:
    result = worked(GAS, firing__gas__gas="propane")
    assert "does not belong" in said(result, "stop")
    bought = {"firing__gas__tank_made": "bought, with its certificate"}
    assert "does not belong" not in said(worked(GAS, firing__gas__gas="propane", **bought), "stop")
    mixed = worked(GAS, firing__gas__gas="butane and propane, 70 to 30")
    assert "doubles the pressure" in said(mixed, "check")


def test_a_full_tank_stops_and_one_of_four_fifths_does_not() -> None:
    assert "no room for it to grow" in said(worked(GAS, firing__gas__filled=0.9), "stop")
    assert "no room for it to grow" not in said(worked(GAS, firing__gas__filled=0.85), "stop")


def test_butane_gives_nothing_in_frost() -> None:
    result = worked(GAS, firing__gas__tank_at=-10, firing__gas__around=-10)
    assert "has no pressure to burn with" in said(result, "stop")
    assert result.raise_time is None


def test_a_tank_in_warm_water_does_not_fade() -> None:
    cold, warm = worked(GAS), worked(GAS, firing__gas__warmth=3, firing__gas__around=30)
    assert "the tank cools to 1 °C" in said(cold, "check")
    assert "the tank cools" not in said(warm, "check")


@given(
    gas=st.sampled_from(sorted(GASES)), bore=st.floats(0.1, 0.5), warmth=st.floats(0, 2),
    volume=st.floats(10, 200), start=st.floats(5, 40),
)  # fmt: skip
def test_a_tank_gives_no_more_than_it_holds_and_grows_no_warmer_than_what_is_round_it(
    gas: str, bore: float, warmth: float, volume: float, start: float
) -> None:
    burnt = emptied(
        gas, volume=volume, filled=0.8, start=start, around=25.0, warmth=warmth, bore=bore, jets=1,
        discharge=0.85, throttled=None,
    )  # fmt: skip
    held = volume / 1000 * 0.8 * liquid_density(gas)
    given_off = sum(
        flow * (after - before)
        for flow, before, after in zip(burnt.flow, burnt.time, burnt.time[1:], strict=False)
    )
    assert given_off + burnt.left == pytest.approx(held, rel=1e-6)
    assert max(burnt.temperature) <= max(start, 25.0) + 1e-9
    assert min(burnt.flow) >= 0
    if warmth == 0:
        assert list(burnt.temperature) == sorted(burnt.temperature, reverse=True)


def test_of_a_mixture_the_propane_goes_first() -> None:
    """At a steady temperature butane presses the same to the end, the mixture less and less."""
    ends = {}
    for gas in ("butane", "butane and propane, 70 to 30"):
        burnt = emptied(
            gas, volume=50, filled=0.8, start=25.0, around=25.0, warmth=50.0, bore=0.2, jets=1,
            discharge=0.85, throttled=None,
        )  # fmt: skip
        ends[gas] = burnt.pressure[-1] / burnt.pressure[1]
    assert ends["butane"] == pytest.approx(1.0, abs=0.01)
    assert ends["butane and propane, 70 to 30"] < 0.6


@given(bore=st.floats(0.05, 1.0), more=st.floats(1.01, 2.0), hot=st.floats(5, 40))
def test_a_wider_jet_and_a_warmer_tank_give_more(bore: float, more: float, hot: float) -> None:
    def flow(bore: float, hot: float) -> float:
        return flow_of("butane", hot, bore=bore, jets=1, discharge=0.8, throttled=None)[0]

    assert flow(bore * more, hot) == pytest.approx(flow(bore, hot) * more * more)
    assert flow(bore, hot + 5) > flow(bore, hot)


@given(bore=st.floats(0.05, 1.0), hot=st.floats(20, 45))
def test_the_jets_working_shows_what_the_tank_was_reckoned_with(bore: float, hot: float) -> None:
    pressure, molar, k = mixed(mole_shares("butane"), hot)
    shown = relations.choked_jet(bore, 0.85, pressure, k, GAS_CONSTANT / molar, hot + 273.15)
    assert shown / 60_000 == pytest.approx(jet_flow(bore, 0.85, pressure, hot, molar, k))


def test_two_jets_give_twice_the_gas_and_a_throttle_less() -> None:
    one, two = worked(GAS, firing__gas__jet=0.2), worked(
        GAS, firing__gas__jet=0.2, firing__gas__jets=2
    )  # fmt: skip
    assert two.raising.fire_full == pytest.approx(2 * one.raising.fire_full)
    assert worked(GAS, firing__gas__jet=0.2, firing__gas__throttled=0.4).burnt < one.burnt
    assert by_mass("butane", "net") == 45.37


# --- fire and steam -----------------------------------------------------------------------------

EFFICIENCIES = st.sampled_from(list(USUAL.values()))


@given(efficiency=EFFICIENCIES, fire=st.floats(10, 1e5), more=st.floats(1.001, 3.0),
       area=st.floats(1e3, 1e6))  # fmt: skip
def test_more_fire_makes_more_steam_and_never_all_of_it(
    efficiency: Any, fire: float, more: float, area: float
) -> None:
    first, second = (heat_into_water(one, area, efficiency) for one in (fire, fire * more))
    assert first < second <= first * more * 1.0000001
    assert efficiency.low * fire <= first * 1.0000001
    assert first <= efficiency.high * fire * 1.0000001


@given(efficiency=EFFICIENCIES, area=st.floats(1e3, 1e6), loading=st.floats(0.45, 1.45))
def test_the_fire_laid_out_gives_the_heat_wanted(
    efficiency: Any, area: float, loading: float
) -> None:
    fire = loading * efficiency.loading * area / 1000
    heat = heat_into_water(fire, area, efficiency)
    assert fire_for(heat, area, efficiency) == pytest.approx(fire)


def test_the_builders_own_efficiency_is_kept_however_the_fire_is_forced() -> None:
    mine = efficiency_of("centre flue", "gas", 0.6)
    assert mine.at(20.0) == mine.at(200.0) == 0.6
    result = worked(GAS, firing__heat__efficiency=0.6)
    assert result.share == 0.6
    assert result.evaporations.high / result.evaporations.usual < 1.15


@settings(max_examples=20)
@given(burns=st.floats(100, 450), more=st.floats(1.05, 1.9))
def test_a_harder_coal_fire_raises_steam_sooner_and_wants_larger_valves(
    burns: float, more: float
) -> None:
    slow, fast = (worked(COAL, firing__coal__burns=one) for one in (burns, burns * more))
    assert fast.evaporations.usual > slow.evaporations.usual
    assert slow.raisings is not None
    assert fast.raisings is not None
    assert fast.raisings.usual < slow.raisings.usual
    assert fast.seat_needed > slow.seat_needed
    assert fast.raising.fire_full > slow.raising.fire_full


def test_a_shell_that_loses_all_says_so() -> None:
    result = worked(GAS, firing__gas__jet=0.05)
    assert result.raise_time is None
    assert "steam is never raised" in said(result, "check")


# --- water --------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "changes"), [
    (GAS, {}), (COAL, {}), (SPIRIT, {}), (SPIRIT, {"firing__pattern": "Smithies"}),
    (GAS, {"boiler__kind": "vertical"}),
])  # fmt: skip
def test_a_higher_level_holds_more_water(name: str, changes: dict[str, Any]) -> None:
    shape = worked(name, **changes).shape
    levels = [shape.low + n / 40 * (shape.high - shape.low) for n in range(41)]
    held = [shape.held(level) for level in levels]
    assert held == sorted(held)
    assert held[-1] / 1000 == pytest.approx(shape.room)  # of the shape, not rounded
    if shape.pattern == "centre flue":
        assert shape.flue is not None
        metal = math.pi * (shape.inside**2 - shape.flue[1] ** 2) * (shape.front - shape.back)
        assert held[-1] == pytest.approx(metal)


def test_spirit_burns_out_before_the_water_and_too_much_of_it_is_told() -> None:
    result = worked(SPIRIT)
    assert result.by_fuel is not None
    assert result.by_water is not None
    assert result.by_fuel < result.by_water
    assert "outlasts the water" in said(worked(SPIRIT, firing__spirit__reservoir=150), "check")


def test_coal_without_a_pump_stops() -> None:
    bare = {"firing__feed__ram": 0, "firing__feed__hand_ram": 0}
    assert "no pump to feed" in said(worked(COAL, **bare), "stop")
    assert "One means of feed" in said(worked(COAL, firing__feed__hand_ram=0), "check")


def test_a_pump_that_is_too_small_and_one_that_is_too_large_are_told() -> None:
    assert "the level falls" in said(worked(COAL, firing__feed__ram=4), "check")
    assert "cools the boiler" in said(worked(COAL, firing__feed__ram=20), "check")
    result = worked(COAL, firing__feed__ram=8, firing__feed__stroke=10, firing__feed__slip=0.25)
    assert result.pump == pytest.approx(math.pi * 16 * 10 * 0.998e-3 * 0.75, rel=0.005)


# --- safety valves, plates ----------------------------------------------------------------------


@given(flow=st.floats(1e-5, 1e-2), bar=st.floats(1, 12), more=st.floats(1.01, 5.0),
       share=st.sampled_from([1 / 24, 1 / 12, 0.25]))  # fmt: skip
def test_a_seat_grows_with_the_steam_and_shrinks_with_pressure_and_lift(
    flow: float, bar: float, share: float, more: float
) -> None:
    seat = seat_for(flow, share, 0.63, bar, 1)
    assert seat_for(flow * more, share, 0.63, bar, 1) == pytest.approx(seat * math.sqrt(more))
    assert seat_for(flow, share, 0.63, bar * 1.1, 1) < seat
    assert seat_for(flow, share, 0.63, bar, 2) == pytest.approx(seat / math.sqrt(2))
    assert capacity(seat, share, 0.63, bar, 1) == pytest.approx(flow)


def test_a_seat_that_is_too_small_stops_and_its_mend_does_mend() -> None:
    result = worked(GAS, firing__valves__seat=1.0)
    (stop,) = [one for one in result.findings if one.level == "stop"]
    assert "rises beyond what is allowed" in stop.says
    assert stop.change is not None
    path, seat = stop.change
    mended = worked(GAS, **{path.replace(".", "__"): seat})
    assert not said(mended, "stop")


def test_a_valve_set_above_the_working_pressure_is_told() -> None:
    assert "blows at 5 bar" in said(worked(GAS, firing__valves__blows_at=5), "check")


def test_one_valve_with_coal_and_a_small_lubricator_are_told() -> None:
    assert "two safety valves" in said(worked(COAL, firing__valves__number=1), "check")
    assert "two safety valves" not in said(worked(GAS), "check")
    assert "ml of oil last" in said(worked(GAS, firing__feed__lubricator=0.5), "check")


def test_the_class_is_pressure_times_volume() -> None:
    small, large = worked(GAS), worked("dunnock")
    assert small.bar_litres == pytest.approx(3.5 * small.shape.room / 1000, rel=0.005)
    assert "under 3" in said(small, "fine")
    assert "over 3" in said(large, "fine")
    assert large.test_first == pytest.approx(12.4)
    assert large.test_again == pytest.approx(9.3)


def test_a_thin_barrel_stops_and_thin_plates_are_for_the_inspector() -> None:
    assert "Barrel" in said(worked(COAL, boiler__shell__wall=0.6), "stop")
    assert "ask the inspector" in said(worked(COAL, firing__plates__pitch=60), "check")
    steel = worked(COAL, boiler__shell__material="mild steel")
    assert "is not told here" in said(steel, "check")
    assert all(value is None for _, value in steel.metal.allowed)


@given(temperature=st.floats(66, 199), more=st.floats(0.5, 5))
def test_hotter_copper_is_never_allowed_more(temperature: float, more: float) -> None:
    for basis in BASES:
        cool, hot = hot_stress(basis, temperature), hot_stress(basis, min(temperature + more, 200))
        assert cool is not None
        assert hot is not None
        assert hot <= cool


def test_a_superheater_asks_for_oil_and_packing() -> None:
    hot = worked(COAL, firing__pipes__superheater="in the fire")
    assert "not PTFE" in said(hot, "check")
    assert hot.steam_at == pytest.approx(162 + 120, abs=1)
    mild = worked(COAL, firing__pipes__superheater="in flue or smokebox")
    assert "oil for superheated steam" in said(mild, "fine")


# --- the plain figures --------------------------------------------------------------------------


def raising(name: str) -> Raising:
    return worked(name).raising


def test_heat_at_the_usual_draught_is_the_full_heat() -> None:
    coal = raising(COAL)
    assert coal.heat_at(coal.draught, 0.0) == pytest.approx(coal.heat_full)
    assert coal.heat_at(None, coal.evaporation_full) == pytest.approx(coal.heat_full)
    assert coal.heat_at(0.0, 0.0) == 0.0
    assert coal.gas_at(4 * coal.draught) == pytest.approx(2 * coal.gas_drawn)
    gas = raising(GAS)
    assert gas.heat_at(0.0, 0.0) == gas.heat_at(50.0, 1.0) == pytest.approx(gas.heat_full)
    assert gas.gas_at(10.0) == 0.0


@given(draught=st.floats(0.1, 300), more=st.floats(1.01, 4))
def test_more_draught_never_makes_less_heat_and_gains_less_and_less(
    draught: float, more: float
) -> None:
    coal = raising(COAL)
    low, high = coal.heat_at(draught, 0.0), coal.heat_at(draught * more, 0.0)
    assert low <= high <= low * more
    assert coal.fire_at(1e6, 0.0) == pytest.approx(coal.fire_full * HARDEST)
    assert coal.fuel_at(draught, 0.0) * coal.fuel_value == pytest.approx(coal.fire_at(draught, 0.0))


def test_the_plain_figures_are_those_of_the_chapter() -> None:
    result = worked(COAL)
    plain = result.raising
    assert plain.water_total == pytest.approx(result.water / 1000, rel=0.005)
    assert plain.water_working == pytest.approx(result.usable / 1000, rel=0.005)
    assert plain.fuel_aboard == pytest.approx(result.fuel_carried / 1000, rel=0.005)
    assert plain.safety_pressure == plain.working_pressure == 5.5
    burnt = plain.fuel_per_heat * plain.heat_full
    assert burnt == pytest.approx(result.burnt / 60_000, rel=0.005)
    assert burnt == pytest.approx(plain.fuel_at(plain.draught, 0.0))
    assert plain.evaporation_full * 60_000 == pytest.approx(result.evaporations.usual)
    assert plain.axle_pump == pytest.approx(result.pump, rel=0.005)
    # 3 kg of copper
    assert plain.metal_heat == pytest.approx(1.33, abs=0.1)


def test_all_that_is_left_empty_is_suggested_and_taken() -> None:
    """Writing every suggestion of this chapter into the design changes nothing that matters."""
    for name in (GAS, COAL, SPIRIT):
        before = job.work(sample(name))
        told = {
            one.field: one.value for one in before.firing.suggestions
            if sample(name).at(one.field) is None and one.field != "firing.heat.efficiency"
        }  # fmt: skip
        assert told
        taken = job.work(sample(name).changed(told)).firing
        for figure in ("steam", "surface", "seat", "by_water", "oil", "by_fuel"):
            assert getattr(taken, figure) == pytest.approx(
                getattr(before.firing, figure), rel=0.02
            ), (name, figure)


def test_decisions_have_defaults_so_that_older_designs_load() -> None:
    assert Firing() == sample(GAS).firing
