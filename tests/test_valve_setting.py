"""The chapter on setting the valves: signs, shop terms, what it says of readings, and its model."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.motion.gears_for_tests import CRANK, INSIDE, OUTSIDE, SLIP
from tests.motion.link_gears_for_tests import GEARS as LINKED
from tests.motion.radial_gears_for_tests import GEARS as RADIAL
from tests.valve_setting.engines import (
    ENGINES,
    air_test,
    bench_of,
    drawn,
    given_of,
    measured,
    plan_of,
    values_of,
)
from weighshaft.motion import Crank, SlideValve, ValveEvents, ValveSetting, events_over
from weighshaft.motion.change_over import ChangeOver
from weighshaft.motion.events import setting_constant
from weighshaft.sizes import SizeError, sizes_of
from weighshaft.valve_setting import AirTest, Believed, Mends, Reading, ValveSettingResult, work
from weighshaft.valve_setting.decisions import (
    ADMISSION,
    BACKWARD,
    BY_GAUGE,
    BY_PERCENT,
    BY_PISTON,
    CUTOFF,
    EVENTS,
    FORWARD,
    LEAD,
    MIDDLE,
    WIDEST,
    Instruments,
)
from weighshaft.valve_setting.fit import fit
from weighshaft.valve_setting.mend import Mending, in_turns, move_valve
from weighshaft.valve_setting.readings import crank_at

SHARP = Instruments(angle=0.02, length=0.005, feeler=0.002, widest=0.004, dead_centre=0.02)
NAMES = ("admission", "cutoff", "release", "compression")
EACH = pytest.mark.parametrize("name", ENGINES)


def read_off(
    designed: Any, built: Any, valve: SlideValve, *, moved: float = 0.0, lap: float = 0.0,
    **changes: Any,
) -> ValveSettingResult:  # fmt: skip
    """Work a test of an engine measured exactly, its valve set as the design's would be."""
    setting = ValveSetting()
    constant = setting_constant(CRANK, valve, designed, setting) + moved
    rows = {FORWARD: 1.0, BACKWARD: -1.0, **({MIDDLE: 0.0} if designed.notched else {})}
    made = replace(valve, steam_lap=valve.steam_lap + lap, valve_offset=moved)
    readings: list[Reading] = []
    for stands, row in rows.items():
        (events,) = events_over(CRANK, made, built, [row], constant=constant)
        readings += _of(stands, events)
    test = AirTest(readings=tuple(readings), **changes)
    return work(test, gear=designed, crank=CRANK, valve=valve, setting=setting)


def _of(stands: str, events: ValveEvents) -> list[Reading]:
    made = []
    for end in ("front", "back"):
        own = getattr(events, end)
        for what, name in zip(EVENTS, NAMES, strict=True):
            event = getattr(own, name)
            if event is not None:
                made.append(Reading(gear=stands, end=end, what=what, number=event.angle))
        made.append(Reading(gear=stands, end=end, what=LEAD, length=own.lead))
        if stands != MIDDLE:
            made.append(Reading(gear=stands, end=end, what=WIDEST, length=own.port_opening))
    return made


def found_of(result: ValveSettingResult, name: str) -> Any:
    assert result.shown is not None
    return next(one for one in result.shown.faults if one.name == name)


def mends_of(result: ValveSettingResult) -> list[str]:
    assert result.shown is not None
    return [one.says for one in result.shown.mendings]


def says_of(result: ValveSettingResult) -> str:
    return "\n".join(f"{one.level}: {one.says} {one.mend}" for one in result.findings)


# --- signs: engines wronged in one way, measured by `events_over` ------------------------------


@pytest.mark.parametrize("gear", [SLIP, OUTSIDE, INSIDE], ids=["slip", "outside", "inside"])
@pytest.mark.parametrize("moved", [0.21, -0.21])
def test_a_valve_that_stands_ahead_is_moved_back(gear: Any, moved: float) -> None:
    valve = SlideValve(2.2, 0.0, 3.0, admission=gear.admission)
    result = read_off(gear, gear, valve, moved=moved)
    one = found_of(result, "valve on its spindle")
    assert one.value == pytest.approx(moved, abs=0.005)
    assert one.says == ("0.21 mm ahead" if moved > 0 else "0.21 mm back")
    assert result.move_valve == pytest.approx(-moved, abs=0.005)
    way = "back" if moved > 0 else "ahead"
    assert mends_of(result) == [
        f"Move the valve 0.21 mm {way}: turn the spindle nuts one third of a turn (40 t.p.i.)."
    ]
    assert result.departure_mended == pytest.approx(0.0, abs=0.005)


@pytest.mark.parametrize("name", ["Stephenson, direct", "Stephenson, rocker"])
def test_eccentrics_set_late_are_turned_the_way_the_axle_turns(name: str) -> None:
    gear, valve = ENGINES[name]
    result = read_off(gear, replace(gear, advance=gear.advance - 3.4), valve)
    for way in ("forward", "backward"):
        assert found_of(result, f"{way} eccentric's angle").value == pytest.approx(-3.4, abs=0.15)
        assert (
            f"Turn the {way} eccentric 3.4° on the axle, the way the axle turns running {way}."
            in mends_of(result)
        )
    assert len(mends_of(result)) == 2


def test_an_eccentric_set_early_is_turned_against_the_way_the_axle_turns() -> None:
    gear, valve = ENGINES["Stephenson, direct"]
    result = read_off(gear, replace(gear, advance=gear.advance + 2.0), valve)
    assert (
        "Turn the forward eccentric 2.0° on the axle, against the way the axle turns running "
        "forward." in mends_of(result)
    )


def test_stops_of_a_slip_eccentric_are_told_apart() -> None:
    valve = SlideValve(2.2, 0.0, 3.0)
    built = replace(SLIP, advance=SLIP.advance - 2.5, advance_backward=SLIP.advance + 1.5)
    result = read_off(SLIP, built, valve)
    assert found_of(result, "forward stop").says == "2.5° late"
    assert found_of(result, "backward stop").says == "1.5° early"
    assert mends_of(result) == [
        "Move the forward stop so that it drives the eccentric 2.5° earlier.",
        "Move the backward stop so that it drives the eccentric 1.5° later.",
    ]


@pytest.mark.parametrize("gear", [OUTSIDE, INSIDE], ids=["outside", "inside"])
def test_walschaerts_return_crank_and_rod(gear: Any) -> None:
    valve = SlideValve(2.2, 0.0, 3.0, admission=gear.admission)
    built = replace(gear, return_crank_angle=gear.return_crank_angle - 2.0,
                    eccentric_rod=gear.eccentric_rod + 0.3)  # fmt: skip
    result = read_off(gear, built, valve)
    assert found_of(result, "return crank's angle").says == "2.0° behind"
    assert found_of(result, "eccentric rod").says == "0.30 mm long"
    assert mends_of(result) == [
        "Set the return crank 2.0° on in the sense of forward running.",
        "Shorten the eccentric rod by 0.30 mm, by packing or a new length.",
    ]


def test_rods_both_long_are_mended_at_the_spindle_and_one_long_at_that_rod() -> None:
    gear, valve = ENGINES["Stephenson, direct"]
    both = read_off(gear, replace(gear, eccentric_rod=gear.eccentric_rod + 0.3), valve)
    assert found_of(both, "forward eccentric rod").says == "not determined"
    middle = "middle of the valve's travel, full forward"
    assert found_of(both, middle).value == pytest.approx(0.3, abs=0.02)
    assert both.move_valve == pytest.approx(-0.3, abs=0.02)
    assert len(mends_of(both)) == 1
    built = replace(bench_of("Stephenson, direct").gear, backward_rod_by=-0.25)
    one = read_off(gear, built, valve)
    assert mends_of(one) == [
        "Lengthen the backward eccentric rod by 0.25 mm, by packing or a new length."
    ]
    other = read_off(gear, replace(built, backward_rod_by=0.0, forward_rod_by=0.25), valve)
    assert mends_of(other) == [
        "Shorten the forward eccentric rod by 0.25 mm, by packing or a new length."
    ]


def test_a_lap_filed_too_far_wants_new_metal_and_nothing_is_moved() -> None:
    result = read_off(SLIP, SLIP, SlideValve(2.2, 0.0, 3.0), lap=-0.15)
    assert found_of(result, "steam lap").says == "0.15 mm too little"
    assert mends_of(result) == []
    assert "Steam lap is 0.15 mm too little" in says_of(result)
    assert "altered or made anew" in says_of(result)


ALL = {
    **{n: LINKED[n] for n in ("Gooch, open, outside", "Allan, crossed, inside")},
    **RADIAL,
    "change-over": ChangeOver(eccentric_throw=4.0, eccentric_rod=110.0, spindle_height=2.0),
}


@pytest.mark.parametrize("name", ALL)
def test_every_gear_tells_where_its_valve_stands(name: str) -> None:
    gear = ALL[name]
    lap = 0.0 if name == "change-over" else 1.8
    valve = SlideValve(lap, 0.0, 3.0, admission=gear.admission)
    result = read_off(gear, gear, valve, moved=0.2)
    one = found_of(result, "middle of the valve's travel, full forward")
    assert one.determined
    assert one.value == pytest.approx(0.2, abs=0.03)
    assert result.move_valve == pytest.approx(-0.2, abs=0.04)


LEANT = ("guide_angle_forward", "guide_angle_backward")


@pytest.mark.parametrize("name", RADIAL)
@pytest.mark.parametrize("by", [2.0, -1.5])
def test_a_guide_that_leans_is_turned_on_its_shaft(name: str, by: float) -> None:
    gear = RADIAL[name]
    valve = SlideValve(1.8, 0.0, 3.0, admission=gear.admission)
    built = replace(gear, **{field: getattr(gear, field) + by for field in LEANT})
    result = read_off(gear, built, valve, mends=Mends(reach_arm=30.0))
    assert found_of(result, "guide's tilt").value == pytest.approx(by, abs=0.05)
    assert result.shown is not None
    (one,) = result.shown.mendings
    assert one.amount == pytest.approx(-by, abs=0.05)
    far = f"{30 * np.sin(np.radians(abs(one.amount))):.2f} mm"
    ahead = (f"its upper end ahead. Lengthen the reach rod by {far} where the guide's arm stands "
             "up, shorten it where the arm hangs.")  # fmt: skip
    back = (f"its upper end back. Shorten the reach rod by {far} where the guide's arm stands "
            "up, lengthen it where the arm hangs.")  # fmt: skip
    assert one.says == (f"Turn the guide {abs(by):.1f}° on its shaft, {ahead if by > 0 else back}")
    _as_designed(result)
    unknown = read_off(gear, built, valve)
    assert "the reach rod where the guide's arm stands up" in mends_of(unknown)[0]


@pytest.mark.parametrize("name", ["Joy", "Joy, straight", "Joy, inside"])
@pytest.mark.parametrize("by", [0.25, -0.2])
def test_a_guide_that_stands_high_or_low_is_moved_by_its_bracket(name: str, by: float) -> None:
    gear = RADIAL[name]
    valve = SlideValve(1.8, 0.0, 3.0, admission=gear.admission)
    result = read_off(gear, replace(gear, guide_y=gear.guide_y + by), valve)
    assert mends_of(result) == [
        f"Set the bracket of the guide's shaft {'down' if by > 0 else 'up'} by {abs(by):.2f} mm, "
        "by packing or slotted holes."
    ]
    _as_designed(result)
    assert "No setting mends that" not in says_of(result)


def _as_designed(result: ValveSettingResult) -> None:
    """Check that the events foretold after mending are the drawing's, and were not before."""
    assert result.shown is not None
    designed, found, mended = result.shown.events.percent[:, 0]
    assert mended == pytest.approx(designed, abs=0.05, nan_ok=True)
    assert np.nanmax(np.abs(found - designed)) > 0.3
    assert result.departure_found is not None
    assert result.departure_mended == pytest.approx(0.0, abs=0.02 * result.departure_found)


def test_a_guide_that_is_fixed_is_left_alone_and_said_to_want_new_metal() -> None:
    gear = RADIAL["Joy"]
    built = replace(gear, guide_y=gear.guide_y - 0.25)
    result = read_off(gear, built, SlideValve(1.8, 0.0, 3.0), mends=Mends(guide="fixed"))
    assert not any("guide" in says for says in mends_of(result))
    assert "Guide's pivot is 0.25 mm low" in says_of(result)
    assert "No setting mends that" in says_of(result)


# --- shop terms --------------------------------------------------------------------------------


def moving(by: float, **mends: Any) -> Mending | None:
    made = Mending(fault=0, what="valve on its spindle", unit="mm", says="", amount=by,
                   within=0.01, turns=None)  # fmt: skip
    return move_valve(made, Mends(**mends))


@pytest.mark.parametrize(
    ("by", "mends", "turns", "words"),
    [
        (25.4 / 40 / 3, {}, 1 / 3, "ahead: turn the spindle nuts one third of a turn (40 t.p.i.)"),
        (-25.4 / 32 / 4, {"threads_per_inch": 32.0}, 0.25, "back: turn the spindle nuts one "
         "quarter of a turn (32 t.p.i.)"),
        (-0.75, {"pitch": 0.5}, 1.5, "back: turn the spindle nuts 1 and a half turns "
         "(pitch 0.5 mm)"),
        (-0.3175, {}, 0.5, "back: turn the spindle nuts half a turn (40 t.p.i.)"),
        (1.27, {}, 2.0, "ahead: turn the spindle nuts 2 turns (40 t.p.i.)"),
    ],
)  # fmt: skip
def test_turns_are_those_of_the_thread(
    by: float, mends: dict[str, float], turns: float, words: str
) -> None:
    made = moving(by, **mends)
    assert made is not None
    assert made.turns == pytest.approx(turns, rel=1e-12)
    assert made.says == f"Move the valve {abs(by):.2f} mm {words}."


def test_half_turns_only_move_by_half_a_pitch_and_say_what_is_left() -> None:
    made = moving(-0.705, held="half turns only", threads_per_inch=40.0)
    assert made is not None
    assert made.turns == 1.0
    assert made.amount == -0.635
    assert made.says.endswith("turn the spindle 1 turn (40 t.p.i.); 0.07 mm back is left over.")
    assert moving(0.1, held="half turns only") is None  # 0.32 mm would only overshoot
    assert moving(0.19, held="half turns only") is not None
    whole = moving(0.6, held="whole turns only")
    assert whole is not None
    assert whole.amount == pytest.approx(25.4 / 40)


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize(
    ("mends", "least", "of"),
    [
        ({}, 25.4 / 40 / 12, "a twelfth of a turn of its nut, 0.053 mm"),
        ({"pitch": 1.0}, 1 / 12, "a twelfth of a turn of its nut, 0.083 mm"),
        ({"held": "clamped"}, 0.015, "half of what an opening can be read to, 0.015 mm"),
    ],
)
def test_a_valve_is_left_where_moving_it_would_gain_too_little(
    way: int, mends: dict[str, Any], least: float, of: str
) -> None:
    valve = SlideValve(2.2, 0.0, 3.0)
    # read far better than is usual, so that it is the trouble and not the doubt that counts
    how = {"instruments": replace(SHARP, feeler=0.03), "mends": Mends(**mends)}
    little = read_off(SLIP, SLIP, valve, moved=way * 0.8 * least, **how)
    assert mends_of(little) == []
    assert little.move_valve is None
    assert little.departure_mended == little.departure_found
    assert little.shown is not None
    assert little.shown.spared == pytest.approx(-way * 0.8 * least, rel=0.05)
    (said,) = (one for one in little.findings if one.says.endswith("leave it."))
    assert said.level == "fine"
    assert f"{'back' if way > 0 else 'ahead'}, which is less than {of}: leave it." in said.says
    assert "no step of its spindle" not in says_of(little)
    much = read_off(SLIP, SLIP, valve, moved=way * 1.3 * least, **how)
    assert much.move_valve == pytest.approx(-way * 1.3 * least, rel=0.05)
    assert len(mends_of(much)) == 1
    assert "leave it" not in says_of(much)


def test_the_figure_of_the_valve_says_which_way_as_the_sentence_does() -> None:
    label = sizes_of(ValveSettingResult)["move_valve"].label
    assert label == "Valve to be moved, ahead positive"
    for moved, way in ((0.21, "back"), (-0.21, "ahead")):
        result = read_off(SLIP, SLIP, SlideValve(2.2, 0.0, 3.0), moved=moved)
        assert result.move_valve is not None
        assert (result.move_valve > 0) == (way == "ahead")
        assert mends_of(result)[0].startswith(f"Move the valve 0.21 mm {way}:")


@given(st.floats(0.02, 5.0))
def test_turns_in_words_are_right_to_half_a_twelfth(turns: float) -> None:
    words = in_turns(turns)
    names = {"a twelfth": 1, "one twelfth": 1, "a sixth": 2, "one sixth": 2, "a quarter": 3,
             "one quarter": 3, "a third": 4, "one third": 4, "five twelfths": 5, "half": 6,
             "seven twelfths": 7, "two thirds": 8, "three quarters": 9, "five sixths": 10,
             "eleven twelfths": 11, "a half": 6}  # fmt: skip
    if words.startswith("0."):
        assert float(words.split()[0]) == pytest.approx(turns, abs=0.005)
        return
    first = words.split()[0]
    said = float(first) if first.isdigit() else 0.0
    part = words.removeprefix(f"{first} and ") if first.isdigit() else words
    part = part.removesuffix(" a turn").removesuffix(" of").removesuffix(" turns")
    said += names.get(part, 0) / 12
    assert said == pytest.approx(turns, abs=1 / 24 + 1e-9)


# --- what is said of readings ------------------------------------------------------------------


def exact(name: str, **changes: Any) -> tuple[list[Reading], list[float | None]]:
    """Return a plan and what is read on an engine with a few faults, without noise."""
    bench, plan = bench_of(name), plan_of(name)
    hidden = np.zeros((1, len(bench.faults)))
    for i, fault in enumerate(bench.faults):
        hidden[0, i] = changes.get(fault.sort, 0.0)
    return plan, values_of(measured(name, plan, hidden, None), plan)


@EACH
def test_a_gross_reading_is_named_with_what_the_others_say(name: str) -> None:
    plan, values = exact(name, valve=0.2)
    at = next(i for i, one in enumerate(plan) if one.what == CUTOFF and one.gear == FORWARD)
    right = values[at]
    assert right is not None
    values[at] = (right + 11.0) % 360
    result = work(air_test(plan, values), **given_of(name))
    says = says_of(result)
    assert f"Reading {at + 1} (air stops, front, in full forward gear) does not go with" in says
    assert f"it gives {values[at]:.1f}°, they say" in says
    said = float(says.split("they say ")[1].split("°")[0])
    assert said == pytest.approx(right, abs=0.7)
    assert result.shown is not None
    assert [one.number for one in result.shown.readings if not one.used] == [at + 1]


def test_a_reading_that_cannot_be_is_left_out_and_the_drawing_quoted() -> None:
    plan, values = exact("Walschaerts, outside")
    values[0] = 200.0  # air first heard at the front near the back dead centre
    result = work(air_test(plan, values), **given_of("Walschaerts, outside"))
    assert (
        "Reading 1 (air first heard, front, in full forward gear) gives 200.0°, which cannot"
        in (says_of(result))
    )
    assert result.shown is not None
    assert 1 not in [one.number for one in result.shown.readings]


def test_an_event_under_the_wrong_name_is_asked_about() -> None:
    plan, values = exact("slip eccentric")
    values[0] = values[1]  # where air stops, said to be where it is first heard
    result = work(air_test(plan, values), **given_of("slip eccentric"))
    assert "but the port shuts there, not opens: was it “air stops”?" in says_of(result)


def test_readings_without_a_figure_or_a_notch_wait() -> None:
    test = AirTest(readings=(
        Reading(), Reading(gear="another notch", number=10.0), Reading(gear=MIDDLE, number=1.0),
        Reading(measured=BY_PISTON, what=CUTOFF, length=99.0), Reading(what=LEAD, number=3.0),
    ))  # fmt: skip
    result = work(test, **given_of("slip eccentric"))
    says = says_of(result)
    assert "fine: Reading 1 (air first heard, front, in full forward gear) has no figure" in says
    assert "Reading 2 (air first heard, front, in another notch) does not say in which" in says
    assert "Reading 3 (air first heard, front, in mid gear) is said to be in mid gear" in says
    assert "Reading 4 (air stops, front, in full forward gear) puts the piston 99.00 mm" in says
    assert "Reading 5 (opening at dead centre, front, in full forward gear) wants a length" in says
    assert result.readings_used == 0
    assert result.move_valve is None


def test_two_figures_for_one_thing_are_refused() -> None:
    with pytest.raises(SizeError, match="two figures for one thing"):
        Reading(number=3.0, length=2.0)


@EACH
def test_without_readings_it_says_what_to_measure_first(name: str) -> None:
    result = work(AirTest(), **given_of(name))
    assert result.shown is not None
    assert len(result.shown.advice) == 8
    assert "To be measured first:" in says_of(result)
    assert not any(one.determined for one in result.shown.faults)
    assert result.determined == 0
    assert result.departure_found is None


@EACH
def test_the_reading_that_is_advised_tells_as_much_as_it_says(name: str) -> None:
    """Taken as expected, it narrows the fault named down to what was said, and not otherwise."""
    plan, values = exact(name)
    few = [i for i, one in enumerate(plan) if one.gear == FORWARD and one.what in (ADMISSION, LEAD)]
    some, read = [plan[i] for i in few], [values[i] for i in few]
    before = work(air_test(some, read), **given_of(name))
    assert before.shown is not None
    advice = before.shown.advice[0]
    at = next(i for i, one in enumerate(plan)
              if (one.gear, one.end, one.what)
              == (advice.reading.gear, advice.reading.end, advice.reading.what))  # fmt: skip
    after = work(air_test([*some, plan[at]], [*read, values[at]]), **given_of(name))
    assert found_of(before, advice.fault).within == pytest.approx(advice.before, rel=0.02)
    assert found_of(after, advice.fault).within == pytest.approx(advice.after, rel=0.1)
    assert advice.after < 0.95 * advice.before


def test_either_side_is_fitted_by_itself() -> None:
    name = "slip eccentric"
    plan, right = exact(name, valve=0.2)
    _, left = exact(name, valve=-0.3)
    both = air_test(plan, right)
    other = tuple(replace(one, side="left") for one in air_test(plan, left).readings)
    result = work(replace(both, readings=both.readings + other, side="left"), **given_of(name))
    assert [one.side for one in result.sides] == ["right", "left"]
    moved = [next(m.amount for m in one.mendings if m.fault == 0) for one in result.sides]
    assert moved == pytest.approx([-0.2, 0.3], abs=0.01)
    assert result.move_valve == pytest.approx(0.3, abs=0.01)


@pytest.mark.parametrize(("air", "level"), [(0.7, "fine"), (2.0, "check"), (6.0, "stop")])
def test_air_pressure_is_judged_against_the_boiler(air: float, level: str) -> None:
    result = work(AirTest(air_pressure=air), **given_of("slip eccentric"))
    own = [one for one in result.findings if one.fields == ("valve_setting.air_pressure",)]
    assert [one.level for one in own] == [level]
    cautions = " ".join(result.cautions)
    for word in ("Wheels off the rails", "fingers", "oiled", "Never above", "boiler inspector"):
        assert word in cautions


def test_eccentrics_and_rods_that_are_fixed_are_left_alone() -> None:
    plan, values = exact("Stephenson, direct", valve=0.3, angle=-3.0)
    fixed = Mends(eccentrics="fixed", rods="fixed", held="clamped")
    result = work(air_test(plan, values, mends=fixed), **given_of("Stephenson, direct"))
    assert len(mends_of(result)) == 1
    assert mends_of(result)[0].startswith("Move the valve 0.")
    assert mends_of(result)[0].endswith("mm back on its spindle.")
    assert (result.departure_mended or 0) < (result.departure_found or 0)


def test_what_the_workshop_may_be_out_by_is_suggested_and_then_taken() -> None:
    given, name = given_of("Stephenson, direct"), "valve_setting.believed.valve"
    plain = work(AirTest(), **given)
    suggested = {one.field: one.value for one in plain.suggestions}
    assert found_of(plain, "valve on its spindle").possible == suggested[name]
    own = work(AirTest(believed=Believed(valve=0.3)), **given)
    assert found_of(own, "valve on its spindle").possible == 0.3
    assert name not in {one.field for one in own.suggestions}


# --- the model ---------------------------------------------------------------------------------


@EACH
def test_derivatives_by_faults_agree_with_differences(name: str) -> None:
    bench, plan = bench_of(name), plan_of(name)
    faults = drawn(name, 1, np.random.default_rng(5))
    found = measured(name, plan, faults, None)
    seen = np.isfinite(found.theta[0])
    points, theta = found.points.some(seen), found.theta[:, seen] + 3.0
    bend = bench.bend(points, faults, theta)
    opened = bench.opened(points, faults, theta, bend)
    for i in range(len(bench.faults)):
        step = np.zeros_like(faults)
        step[0, i] = 1e-5
        high, low = (bench.opened(points, faults + s * step, theta, bend) for s in (1, -1))
        slope = (high.opening - low.opening)[0] / 2e-5
        still = ~points.peak  # a greatest opening is followed, which only tells in second order
        assert opened.by_fault[0, still, i] == pytest.approx(slope[still], abs=1e-6)


@EACH
def test_an_engine_without_faults_is_found_right(name: str) -> None:
    plan = plan_of(name)
    bench = bench_of(name)
    found = measured(name, plan, np.zeros((1, len(bench.faults))), None)
    fitted = fit(bench, found.points, found.theta, found.target)
    assert np.abs(fitted.faults / bench.possible).max() < 0.01
    assert fitted.used[0, np.isfinite(found.theta[0])].all()
    assert fitted.scatter[0] == 1.0


@given(st.floats(0.1, 99.9), st.sampled_from(["front", "back"]), st.sampled_from([1, -1]),
       st.sampled_from([0.0, 4.0, -6.0]), st.sampled_from(EVENTS))  # fmt: skip
def test_the_crank_stands_where_the_piston_is(
    percent: float, end: str, way: int, offset: float, what: str
) -> None:
    crank = Crank(40.0, 120.0, offset)
    distance = percent / 100 * crank.piston_stroke
    theta = crank_at(crank, end, distance, what, way)
    assert theta is not None
    from_front = float(crank.from_front(theta))
    assert 100 * (from_front if end == "front" else 1 - from_front) == pytest.approx(percent)
    further = float(crank.from_front(theta + 1e-4 * way))
    leaves = (further > from_front) == (end == "front")
    assert leaves == (what in (CUTOFF, EVENTS[2]))


@pytest.mark.parametrize("way", [BY_PERCENT, BY_PISTON, BY_GAUGE])
def test_a_piston_tells_what_the_crank_tells(way: str) -> None:
    """The same engine, cut-off and compression by crank angle and by the piston's place."""
    name = "Walschaerts, outside"
    plan, values = exact(name, valve=0.2)
    by_angle = air_test(plan, values)
    readings = []
    for one in by_angle.readings:
        if one.what in (CUTOFF, EVENTS[3]) and one.number is not None:
            share = float(CRANK.from_front(one.number))
            share = share if one.end == "front" or way == BY_GAUGE else 1 - share
            if way == BY_PERCENT:
                one = replace(one, measured=way, number=100 * share, within=0.2)
            else:
                length = share * CRANK.piston_stroke
                one = replace(one, measured=way, number=None, length=length, within=0.1)
        readings.append(one)
    result = work(replace(by_angle, readings=tuple(readings)), **given_of(name))
    assert result.shown is not None
    assert all(one.used for one in result.shown.readings)
    assert result.move_valve == pytest.approx(-0.2, abs=0.005)
    by = {one.number: one.theta for one in result.shown.readings}
    for number, value in enumerate(values, 1):
        if value is not None and plan[number - 1].is_event:
            assert by[number] == pytest.approx(value, abs=1e-6)
