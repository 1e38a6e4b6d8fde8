"""Pull, train and track: closed-form runs, where the work goes, the driver, and what is said."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from tests.designs import ROOT
from tests.running_for_tests import (
    ASSUMED,
    LEVEL,
    ROLLING,
    chest_share,
    engine_map,
    outing,
    raising,
    resistance,
    wide_open,
    worked,
)
from weighshaft import job
from weighshaft.dashboard.lists import with_fewer, with_more
from weighshaft.design import Design, DesignRefused, read
from weighshaft.findings import Finding
from weighshaft.job.hauling import running_given
from weighshaft.measures import GRAVITY
from weighshaft.running import EngineMap, Point, Running, RunningResult, assumed_map
from weighshaft.running.assumed import held_to
from weighshaft.running.decisions import (
    BY_HAULAGE,
    GREASY,
    LEFT,
    RAILS,
    Driving,
    Line,
    Section,
    Train,
)
from weighshaft.running.driver import Driver, Seen
from weighshaft.running.limits import balanced, fine_speeds, limits_of
from weighshaft.running.notches import Notches
from weighshaft.running.profile import Profile, misses_by, plan_of, profile_of
from weighshaft.running.simulation import STEP, drive
from weighshaft.sizes import SizeError


def said(result: RunningResult, level: str, words: str) -> list[Finding]:
    return [one for one in result.findings if one.level == level and words in one.says]


# --- runs that can be reckoned by hand ------------------------------------------------------


def test_under_a_constant_force_speed_grows_with_time_and_way_with_its_square() -> None:
    trip = outing(engine_map(lambda v: 25.0), seconds=60.0)
    run = drive(trip, driver=wide_open(trip))
    accelerated = (25.0 - 5.0) / 100.0
    assert run.speed[-1] / 3.6 == pytest.approx(accelerated * 60, rel=1e-6)
    assert run.distance[-1] == pytest.approx(accelerated * 60**2 / 2, rel=1e-6)


def test_under_a_constant_power_the_square_of_the_speed_grows_with_time() -> None:
    power, most = 40.0, 60.0  # W, N
    trip = outing(
        engine_map(lambda v: min(most, power / (v / 3.6)) if v else most,
                   speeds=np.linspace(0, 40, 4001)),
        resistance=resistance(level=0.0), seconds=60.0,
    )  # fmt: skip
    run = drive(trip, driver=wide_open(trip))
    first = power / most
    began = first / (most / 100.0)
    assert run.speed[-1] / 3.6 == pytest.approx(
        math.sqrt(first**2 + 2 * power * (60.0 - began) / 100.0), rel=3e-3
    )


def test_against_air_and_a_falling_pull_it_is_what_a_library_integrates() -> None:
    trip = outing(
        engine_map(lambda v: 40.0 - 1.5 * v), resistance=resistance(air=1.2), seconds=120.0
    )
    run = drive(trip, driver=wide_open(trip))

    def grows(t: float, state: np.ndarray) -> list[float]:
        v = state[1]
        return [v, (40.0 - 1.5 * 3.6 * v - 5.0 - 1.2 * v * v) / 100.0]

    known = solve_ivp(grows, (0, 120), [0.0, 0.0], rtol=1e-9, atol=1e-9).y[:, -1]
    assert run.distance[-1] == pytest.approx(known[0], rel=3e-3)
    assert run.speed[-1] / 3.6 == pytest.approx(known[1], rel=3e-3)


def test_up_a_grade_gravity_takes_its_share() -> None:
    rising = Profile((0.0, 1000.0), (0.0, 10.0), (0.0, 0.0), closed=True)
    trip = outing(engine_map(lambda v: 25.0), profile=rising, seconds=60.0)
    run = drive(trip, driver=wide_open(trip))
    accelerated = (25.0 - 5.0 - 100 * GRAVITY / 100) / 100.0
    assert run.speed[-1] / 3.6 == pytest.approx(accelerated * 60, rel=1e-6)


def _hilly() -> Profile:
    return profile_of(Line(sections=(
        Section(length=30_000), Section(length=25_000, grade=80, radius=15_000),
        Section(length=40_000, grade=-60), Section(length=35_000, grade=100),
        Section(length=20_000),
    )))  # fmt: skip


def test_the_work_at_the_rim_goes_into_resistance_climb_brake_and_speed() -> None:
    profile = _hilly()
    against = resistance(curve=150.0, air=1.0, machine=4.0)
    trip = outing(
        engine_map(lambda v: 60.0), profile=profile, resistance=against, seconds=300.0, length=6.0
    )
    run = drive(trip)
    accounted = run.work_resistance + run.work_climb + run.work_brake + run.kinetic
    assert run.work_rim == pytest.approx(accounted, rel=1e-3)
    # what was climbed: the mean height of a train 6 m long, and the height it stood at first
    at = run.distance[-1] - np.linspace(0, 6, 2001)
    mean = np.trapezoid([profile.height(float(s)) for s in at], -at) / 6
    before = np.trapezoid([profile.height(float(s)) for s in np.linspace(-6, 0, 2001)],
                          np.linspace(-6, 0, 2001)) / 6  # fmt: skip
    assert run.work_climb == pytest.approx(100 * GRAVITY * (mean - before), abs=1e-3 * run.work_rim)
    # what the curve took: its resistance over the length that the train has spent in it
    laps = run.distance[-1] // profile.length
    flat = run.work_resistance - 5.0 * run.distance[-1]
    assert flat > 150.0 / 15 * 25 * laps  # and the air besides
    assert run.kinetic == pytest.approx(100 * (run.speed[-1] / 3.6) ** 2 / 2)


def test_halving_the_step_moves_nothing() -> None:
    trip = outing(engine_map(lambda v: 60.0 - v), profile=_hilly(), raising=raising(),
                  resistance=resistance(machine=4.0, grip=40.0), seconds=600.0)  # fmt: skip
    coarse, fine = drive(trip), drive(trip, step=STEP / 2)
    assert coarse.distance[-1] == pytest.approx(fine.distance[-1], rel=0.01)
    assert coarse.pressure[-1] == pytest.approx(fine.pressure[-1], rel=0.01)
    assert coarse.steam == pytest.approx(fine.steam, rel=0.01)


def test_on_a_level_circuit_it_settles_at_the_speed_where_pull_and_resistance_balance() -> None:
    engine = engine_map(lambda v: 50.0 - 3 * v)
    against = resistance(air=1.0, machine=4.0)
    trip = outing(engine, resistance=against, pace=50.0, seconds=1500.0)
    run = drive(trip, driver=wide_open(trip))
    speeds = fine_speeds()
    limits = limits_of(trip.notches, against, pressure=5.5, evaporation=1.0, speeds=speeds)
    found = balanced(limits, against, mass=85.0, grade=0.0, speeds=speeds)
    assert found.held_by == "cylinders"
    # 50 - 3 V - 4 = 5 + v^2 with V = 3.6 v
    v = -5.4 + math.sqrt(5.4**2 + 41)
    assert found.speed / 3.6 == pytest.approx(v, rel=2e-3)
    assert run.speed[-1] == pytest.approx(found.speed, rel=5e-3)


def test_with_a_small_fire_it_settles_where_the_boiler_keeps_up() -> None:
    # 1 V bar takes 2e-5 kg/s; 10 N a bar pulled, 5 N held back: 0.5 bar, whatever the speed
    engine = engine_map(lambda v: 50.0, steam=2e-5)
    fire = raising(
        heat_full=400.0, loss=0.0, idle_share=1.0, blower_share=1.0, can_be_damped=False,
        water_tank=0.0, water_least=0.0, fuel_aboard=10.0, water_working=3.0, metal_heat=0.01,
    )  # fmt: skip
    trip = outing(engine, raising=fire, seconds=2400.0)
    latent = 2085.8  # kJ/kg at 5.5 bar
    lasting = 400.0 / 1000 / latent
    limits = limits_of(trip.notches, trip.resistance, pressure=5.5, evaporation=lasting,
                       speeds=fine_speeds())  # fmt: skip
    found = balanced(limits, trip.resistance, mass=85.0, grade=0.0, speeds=fine_speeds())
    assert found.held_by == "boiler"
    assert found.speed == pytest.approx(lasting / (2e-5 * 0.5), rel=0.02)
    kept = drive(dataclasses.replace(trip, pace=0.97 * found.speed / 3.6))
    asked = drive(dataclasses.replace(trip, pace=1.1 * found.speed / 3.6))
    assert kept.pressure[-1] > 5.2
    assert asked.pressure[-1] < kept.pressure[-1] - 0.5


@settings(max_examples=25, deadline=None)
@given(
    lighter=st.floats(1, 400), heavier=st.floats(0, 400), grade=st.sampled_from([0, 40, 80, 200]),
    falls=st.floats(0, 6), drag=st.floats(0, 2),
)  # fmt: skip
def test_a_heavier_train_is_never_faster(
    lighter: float, heavier: float, grade: float, falls: float, drag: float
) -> None:
    notches = Notches(engine_map(lambda v: 120.0 - falls * v, speeds=(0, 10, 40)), chest_share())
    speeds = np.linspace(0, 40, 81)
    found = []
    for mass in (lighter, lighter + heavier):
        against = resistance(
            mass=15 + mass, level=1 + 0.05 * mass, air=drag, machine=5.0, grip=90.0
        )
        limits = limits_of(notches, against, pressure=5.5, evaporation=4e-4, speeds=speeds)
        found.append(balanced(limits, against, mass=mass, grade=grade, speeds=speeds).speed)
    assert found[1] <= found[0] + 1e-9


# --- the line ----------------------------------------------------------------------------------


def test_heights_add_up_and_a_circuit_repeats() -> None:
    profile = _hilly()
    rise = 25 / 80 - 40 / 60 + 35 / 100
    assert profile.length == pytest.approx(150)
    assert profile.heights[-1] == pytest.approx(rise)
    assert profile.height(30 + 10) == pytest.approx(10 / 80)
    assert profile.height(150 + 40) == pytest.approx(rise + 10 / 80)
    assert profile.steepest() == pytest.approx(1 / 80)


def test_a_long_train_feels_the_mean_of_what_it_stands_on() -> None:
    profile = _hilly()
    slope, bend = profile.mean(35.0, 10.0)
    assert slope == pytest.approx(0.5 / 80)
    assert bend == pytest.approx(0.5 / 15)


def test_the_club_track_closes_in_plan_and_height() -> None:
    apart, rises = misses_by(Line())
    assert apart < 1.0
    assert abs(rises) < 1.0


def test_curves_to_the_left_turn_to_the_left_in_plan() -> None:
    quarter = Section(length=math.pi / 2 * 10_000, radius=10_000, turns=LEFT)
    (points,) = plan_of(Line(sections=(quarter,), closed=False))
    assert points[-1] == pytest.approx([10_000, 10_000])
    after = plan_of(Line(sections=(quarter, Section(length=5_000)), closed=False))[1]
    assert after[-1] == pytest.approx([10_000, 15_000])


@pytest.mark.parametrize("grade", [3.0, -7.9])
def test_a_grade_that_wheels_cannot_hold_is_refused_in_words(grade: float) -> None:
    with pytest.raises(SizeError, match="8 and more either way") as refused:
        Section(grade=grade)
    assert refused.value.field == "grade"


def test_a_line_without_sections_is_refused() -> None:
    with pytest.raises(SizeError, match="one at least"):
        Line(sections=())


def test_a_map_with_gaps_is_refused() -> None:
    whole = engine_map(lambda v: 20.0)
    with pytest.raises(SizeError, match="not whole"):
        dataclasses.replace(whole, pull=whole.pull[:1])
    with pytest.raises(SizeError, match="gaps"):
        dataclasses.replace(whole, steam=whole.steam * np.nan)


def test_at_the_end_of_an_open_line_the_run_ends() -> None:
    line = Line(closed=False, sections=(Section(length=50_000),))
    result = worked(Running(line=line))
    assert result.distance == pytest.approx(50, abs=1)
    assert said(result, "fine", "end of the line")


# --- driver, grip, water, fire -----------------------------------------------------------------


def test_the_driver_shortens_the_cut_off_before_closing_the_regulator() -> None:
    notches = Notches(engine_map(lambda v: 60.0, reversers=(0.25, 0.5, 1.0)), chest_share())
    assert notches.reversers == [1.0, 0.5, 0.25]
    driver = Driver(notches, raising(), resistance(), pace=2.0, low_water=0.9, blower=True)
    driver.act(Seen(0.0, 0.0, 5.0, 5.5, 1.1, 2.0))
    assert notches.reversers[driver.notch] == 1.0  # out of a stand in full gear
    for second in range(1, 60):
        driver.act(Seen(second, 2.0, 5.0, 5.5, 1.1, 2.0))
    assert notches.reversers[driver.notch] == 0.25
    # 15 N wide open in that notch, 5 N wanted
    assert driver.regulator == pytest.approx(5 / 15, abs=0.01)
    driver.act(Seen(61.0, 2.0, 20.0, 5.5, 1.1, 2.0))
    assert notches.reversers[driver.notch] == 0.5  # 30 N do; 15 do not


def test_the_feed_goes_on_at_low_water_and_off_when_the_glass_is_full() -> None:
    driver = Driver(
        Notches(engine_map(lambda v: 60.0), 1.0), raising(), resistance(), pace=2.0,
        low_water=0.6, blower=True,
    )  # fmt: skip
    for water, feeding in ((0.9, False), (0.8, True), (1.05, True), (1.1, False)):
        driver.act(Seen(0.0, 2.0, 5.0, 5.5, water, 2.0))
        assert driver.feeding is feeding
    driver.act(Seen(0.0, 2.0, 5.0, 5.5, 0.9, 0.0))
    assert not driver.feeding  # the tank is empty


def test_downhill_the_driver_brakes_and_keeps_the_pace() -> None:
    falling = Profile((0.0, 1000.0), (0.0, -20.0), (0.0, 0.0), closed=True)
    run = drive(outing(engine_map(lambda v: 60.0), profile=falling))
    assert run.speed.max() < 1.1 * 8
    assert run.work_brake > 0
    assert run.regulator[-1] == 0


def test_more_than_the_rail_holds_slips_and_the_train_stalls() -> None:
    # 100 kg up 1 in 20 want 49 N and 5 more; the rail holds 40
    steep = profile_of(Line(sections=(Section(length=20_000), Section(length=60_000, grade=20)),
                            closed=False))  # fmt: skip
    run = drive(outing(engine_map(lambda v: 200.0), profile=steep,
                       resistance=resistance(grip=40.0)))  # fmt: skip
    assert run.slips >= 1
    assert "cannot start again: the wheels slip" in run.ended
    assert 20 < run.distance[-1] < 40
    assert any(one.kind == "slip" for one in run.moments)
    dry = drive(outing(engine_map(lambda v: 200.0), profile=steep,
                       resistance=resistance(grip=80.0)))  # fmt: skip
    assert dry.slips == 0
    assert "end of the line" in dry.ended


def test_with_too_little_pull_it_stalls_without_slipping() -> None:
    run = drive(outing(engine_map(lambda v: 4.0)))
    assert run.slips == 0
    assert "the pull is too little" in run.ended
    assert run.distance[-1] == 0


def test_water_steam_and_fuel_are_accounted_for() -> None:
    fire = raising()
    trip = outing(engine_map(lambda v: 60.0, steam=1e-4), raising=fire, seconds=1200.0)
    run = drive(trip)
    gone = fire.water_working + fire.water_tank - run.water[-1] - run.tank[-1]
    blower = gone - run.steam - run.blown
    assert 0 <= blower < 0.05 * 7e-4 * 1200
    assert fire.fuel_aboard - run.fuel[-1] == pytest.approx(run.heat * fire.fuel_per_heat)
    assert run.steam > 0
    assert run.tank[-1] < fire.water_tank  # the pump has worked


def test_without_feed_the_fire_comes_out_at_the_least_water() -> None:
    fire = raising(water_working=0.15, water_least=0.06, feed_per_turn=0.0, metal_heat=0.2)
    run = drive(outing(engine_map(lambda v: 60.0), raising=fire, seconds=3600.0))
    assert "the fire has to come out" in run.ended
    assert run.water[-1] == pytest.approx(0.06, abs=1e-3)


def test_without_a_pump_on_the_axle_it_halts_to_be_topped_up_by_hand() -> None:
    fire = raising(water_working=0.15, water_least=0.1, feed_per_turn=0.0, water_tank=0.01,
                   metal_heat=0.2, hand_feed=1e-3)  # fmt: skip
    trip = outing(engine_map(lambda v: 60.0, steam=1e-4), raising=fire, seconds=900.0)
    run = drive(trip)
    assert run.ended == ""
    assert run.tops >= 2
    assert run.water.min() > 0.1
    # tanks first, then the bottle; what went in came out as steam or is there yet
    gone = 0.15 + 0.01 + run.topped - run.water[-1] - run.tank[-1]
    assert run.tank[-1] == pytest.approx(0.0, abs=1e-9)
    assert gone == pytest.approx(run.steam + run.blown, rel=0.1)
    alone = drive(dataclasses.replace(trip, tops_up=False))
    assert "the fire has to come out" in alone.ended


def test_a_fire_that_makes_too_little_has_the_train_stand_for_steam() -> None:
    # a boiler that makes half a gram a second where the engine draws several
    fire = raising(water_working=0.5, metal_heat=0.3, feed_per_turn=0.0, water_least=0.0)
    run = drive(outing(engine_map(lambda v: 50.0, steam=5e-4), raising=fire,
                       resistance=resistance(level=15.0)))  # fmt: skip
    assert run.stands >= 1
    assert run.pressure.min() > 0.3 * 5.5
    assert any(one.kind == "steam" for one in run.moments)


def test_the_safety_valve_holds_its_pressure() -> None:
    fire = raising(can_be_damped=False, idle_share=1.0, safety_capacity=2e-3)
    run = drive(outing(engine_map(lambda v: 20.0, steam=1e-6), raising=fire))
    assert run.blown > 0
    assert run.pressure.max() < 1.1 * fire.safety_pressure


def test_a_run_tells_how_far_it_has_come_and_stops_when_asked() -> None:
    told: list[float] = []
    trip = outing(engine_map(lambda v: 60.0), seconds=1200.0)
    whole = drive(trip, progress=told.append)
    assert told == sorted(told)
    assert not whole.stopped
    cut = drive(trip, stop=lambda: True)
    assert cut.stopped
    assert cut.time[-1] < 2


# --- the chapter ------------------------------------------------------------------------------


def test_the_assumed_map_pulls_what_the_cylinders_turn(design: Design) -> None:
    # the torque is integrated over the crank's turn, the map's pull is the closed form
    made = job.work(design)
    turned = made.cylinders.full.mean / (design.wheels.driving_diameter / 2)
    turned *= design.cylinders.cycle.diagram_factor
    named = ("scale", "cylinders", "motion", "wheels", "frames", "firing", "steam")
    given = running_given(design, {name: getattr(made, name) for name in named})
    assert given is not None
    plain = assumed_map(given["assumed"])
    chest = made.cylinders.chest_pressure
    pull = np.interp(chest, plain.pressures, plain.pull[:, -1, 0])
    assert pull == pytest.approx(turned, rel=0.01)
    # the march of the steam, which knows walls, ports and leaks, is within a quarter of it
    point = given["point"]
    row = int(np.argmin(np.abs(plain.reversers - point.reverser)))
    pull = np.interp(point.chest, plain.pressures, plain.pull[:, row, 0])
    assert point.pull == pytest.approx(pull, rel=0.25)


def _machine(result: RunningResult) -> float:
    return next(one.force for one in result.shares if one.name == "Engine, its motion")


def test_the_figures_agree_with_one_another() -> None:
    result = worked()
    assert result.train == pytest.approx(87)
    assert result.resistance == pytest.approx(sum(one.force for one in result.shares))
    assert result.grip == pytest.approx(0.2 * 14.6 * GRAVITY)
    assert result.laps == pytest.approx(result.distance / 175.398, rel=1e-4)
    assert result.uphill < result.balancing
    assert 7.5 < result.mean_speed < 8
    assert not [one for one in result.findings if one.level == "stop"]


def test_a_map_from_elsewhere_is_taken_before_the_assumed_one() -> None:
    def pulls(v: float) -> float:
        return 60.0 - v

    whole = worked(engine=engine_map(pulls, speeds=(0, 20, 40)))
    machine = _machine(whole)
    assert whole.notches[0].pull[0] + machine == pytest.approx(60)  # the map ends at 5 bar
    assert not said(whole, "fine", "assumed cycle")
    assert said(worked(), "fine", "assumed cycle")


def test_greasy_rails_hold_half_and_the_button_washes_them() -> None:
    greasy = worked(Running(line=Line(rail=GREASY)))
    assert greasy.grip == pytest.approx(worked().grip / 2)
    (found,) = said(greasy, "check", "half wet or greasy")
    assert found.change == ("running.line.rail", "clean and dry")


def test_a_train_beyond_the_grip_is_told() -> None:
    heavy = worked(Running(train=Train(stock=800.0, passengers=10)))
    assert said(heavy, "check", "will start")
    assert said(heavy, "check", "slip")
    assert not said(heavy, "stop", "")


def test_the_haulage_figure_can_be_taken_instead() -> None:
    result = worked(Running(train=Train(taken=BY_HAULAGE)))
    assert result.train_per_weight == pytest.approx(0.8)
    assert said(result, "fine", "as the haulage has it")
    (differs,) = [one for one in worked().findings if one.change is not None]
    assert differs.change == ("cylinders.haulage.rolling_resistance", 0.38)


def test_a_circuit_that_ends_above_its_beginning_is_told() -> None:
    open_ended = worked(Running(line=Line(sections=(Section(length=50_000, grade=100),))))
    (found,) = said(open_ended, "check", "above its beginning")
    assert "500 mm" in found.says
    assert said(open_ended, "check", "away from its beginning")


def test_a_pace_that_the_boiler_cannot_keep_is_told_and_the_button_slows_it() -> None:
    quick = worked(Running(driving=Driving(pace=20.0)))
    found = said(quick, "check", "the boiler keeps up")[0]
    assert found.change is not None
    slower = worked(Running(driving=Driving(pace=float(found.change[1]))))
    assert not said(slower, "check", "On the level the boiler keeps up")


def test_without_a_forward_notch_it_is_refused_in_words() -> None:
    with pytest.raises(SizeError, match="No notch"):
        worked(assumed=dataclasses.replace(ASSUMED, notches=()))


def test_an_engine_alone_runs_too() -> None:
    alone = worked(Running(train=Train(stock=0.0, passengers=0)))
    assert alone.train == 0
    assert alone.distance > 0
    assert len(alone.wanted) == 2


@pytest.mark.parametrize(
    ("sample", "least", "most"),
    [("wagtail", 1, 3), ("rowan", 3, 6), ("merrow", 3, 6), ("curlew", 6, 10), ("dunnock", 8, 14)],
)
def test_samples_run_as_such_engines_do(sample: str, least: float, most: float) -> None:
    design = read(ROOT / "sample_designs" / f"{sample}.loco.json")
    result = job.work(design).running
    moving = result.run.speed[result.run.speed > 0.1]
    assert least <= float(np.median(moving)) <= most
    assert result.distance > 100
    people = result.passengers
    gauge = design.scale.track_gauge
    assert (people == 0) if gauge < 60 else (1 <= people <= 3 if gauge < 100 else people >= 3)
    assert np.isfinite(result.run.speed).all()
    assert float(np.median(result.run.pressure)) > 0.7 * design.cylinders.pressure


def test_level_is_level() -> None:
    assert LEVEL.mean(37.0, 4.0) == (0.0, 0.0)
    assert isinstance(engine_map(lambda v: 1.0), EngineMap)
    assert ROLLING.gauge == 89


def test_sections_are_added_and_taken_away_on_the_page(design: Design) -> None:
    path = "running.line.sections"
    more = with_more(design, path)
    assert len(more) == 7
    assert more[-1] == more[-2]
    place, fewer = with_fewer(design, f"{path}.2")
    assert place == path
    assert [one.length for one in fewer] == [
        one.length for n, one in enumerate(design.running.line.sections) if n != 2
    ]


def test_a_section_is_typed_as_builders_type() -> None:
    design = read(ROOT / "sample_designs" / "hartfell.loco.json")
    design = design.changed({"running.line.sections.0.length": "30 ft"})
    assert float(design.running.line.sections[0].length) == pytest.approx(9144)
    assert "down 1 in 425" in design.running.line.sections[5].told
    with pytest.raises(DesignRefused, match="8 and more"):
        design.changed({"running.line.sections.0.grade": 5})


@settings(max_examples=12, deadline=None)
@given(
    stock=st.floats(0, 600), grade=st.sampled_from([0.0, 30.0, 100.0, -60.0]),
    radius=st.one_of(st.none(), st.floats(1_000, 50_000)), pace=st.floats(0.5, 25),
    closed=st.booleans(), rail=st.sampled_from(RAILS),
)  # fmt: skip
def test_whatever_is_asked_the_run_is_finite_and_its_work_adds_up(
    stock: float, grade: float, radius: float | None, pace: float, closed: bool, rail: str
) -> None:
    section = Section(length=40_000, grade=grade, radius=radius)
    result = worked(
        Running(
            train=Train(stock=stock, passengers=1),
            line=Line(sections=(section, Section(length=25_000)), closed=closed, rail=rail),
            driving=Driving(minutes=4.0, pace=pace),
        )
    )
    run = result.run
    for name in ("time", "distance", "speed", "pressure", "water", "tank", "fuel", "pull"):
        assert np.isfinite(getattr(run, name)).all(), name
    assert (run.speed >= 0).all()
    assert (np.diff(run.distance) >= 0).all()
    assert (run.water > 0).all()
    spent = run.work_resistance + run.work_climb + run.work_brake + run.kinetic
    assert run.work_rim == pytest.approx(spent, abs=1e-6 + 1e-3 * abs(run.work_resistance))
    assert run.speed.max() <= 1.25 * pace + 0.6


def test_the_assumed_map_is_held_to_a_point_known_better() -> None:
    plain = assumed_map(ASSUMED)
    point = Point(reverser=0.5, speed=8.0, chest=5.0, pull=110.0, steam=1.5e-3)
    held = held_to(plain, point)
    row = list(plain.reversers).index(0.5)
    pull = [np.interp(8.0, held.speeds, one) for one in held.pull[:, row, :]]
    steam = [np.interp(8.0, held.speeds, one) for one in held.steam[:, row, :]]
    assert np.interp(5.0, held.pressures, pull) == pytest.approx(110)
    assert np.interp(5.0, held.pressures, steam) == pytest.approx(1.5e-3)
    # the notches keep to one another
    assert held.pull[-1, 0, 0] / held.pull[-1, -1, 0] == pytest.approx(
        plain.pull[-1, 0, 0] / plain.pull[-1, -1, 0]
    )
    for odd in ({"pull": 1e4}, {"pull": -3.0}, {"reverser": -0.5}, {"steam": 0.0}):
        assert held_to(plain, dataclasses.replace(point, **odd)) is plain
    told = worked(point=point)
    assert said(told, "fine", "held to what the steam in the cylinder gives")
    assert told.steam_used < worked().steam_used  # 0.74 of what the assumed cycle draws
