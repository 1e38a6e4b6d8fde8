"""Reversing by a change-over valve: the ports in metal, both ways, and no lap's cost."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from tests.motion.gears_for_tests import near
from weighshaft.cylinders.steam import Events, Fill, indicated
from weighshaft.motion import (
    Crank,
    MotionLocks,
    SlideValve,
    SlipEccentric,
    ValveMotion,
    ValveSetting,
    Wanted,
    equivalent_eccentric,
    sizes_for_events,
    solve_motion,
    valve_events,
)
from weighshaft.motion.change_over import ChangeOver, seen_backward
from weighshaft.motion.chapter import work
from weighshaft.motion.no_lap import cost_of_no_lap, mean_events
from weighshaft.motion.proportions import fitted
from weighshaft.pictures.motion import pictures
from weighshaft.sizes import SizeError
from weighshaft.trade.saturation import saturation

CRANK = Crank(15.875, 45.0)
TURN = np.linspace(0.0, 360.0, 72, endpoint=False)
GEAR = ChangeOver(eccentric_throw=1.2, eccentric_rod=45.0, spindle_height=3.0)
LEVEL = replace(GEAR, spindle_height=0.0)
BARE = SlideValve(0.0, 0.0, 1.4)
BOTH_WAYS = pytest.mark.parametrize("direction", [1, -1])


class Metal:
    """Valve, ports and pipes as they are, by formulas of their own.

    The valve's edges open a port to the chest or to the cavity; the pipes say which of the
    two has steam.
    """

    def __init__(self, crank: Crank, gear: ChangeOver, valve: SlideValve) -> None:
        self.gear, self.valve = gear, valve
        self.middle = float(np.mean([self.place(theta) for theta in crank.dead_centres]))
        self.sense = 1.0 if valve.admission == "outside" else -1.0

    def place(self, theta: float) -> float:
        """Return where the rod's end stands along the level spindle."""
        lead = 90.0 + self.gear.advance + (180.0 if self.gear.admission == "inside" else 0.0)
        turn = np.radians(theta + lead)
        pin = self.gear.eccentric_throw * np.array([np.cos(turn), -np.sin(turn)])
        off = self.gear.spindle_height - pin[1]
        return float(pin[0] + np.sqrt(self.gear.eccentric_rod**2 - off**2))

    def opening(self, end: str, to: str, direction: int, theta: float) -> float:
        """Return by how much the port of an end is open to "steam" or to "exhaust", mm."""
        ahead = self.place(theta) - self.middle + self.valve.valve_offset
        towards = self.sense * (-ahead if end == "front" else ahead)
        outer, inner = towards - self.valve.steam_lap, -towards - self.valve.exhaust_lap
        steam_outside = direction > 0
        return outer if (to == "steam") == steam_outside else inner

    def turns_at(self, end: str, to: str, direction: int, *, opens: bool) -> list[float]:
        """Return the crank angles at which the port opens, or shuts, while running."""

        def seen(at: float) -> float:
            return self.opening(end, to, direction, direction * at)

        grid = np.linspace(0.37, 360.37, 721)
        values = [seen(at) for at in grid]
        found = []
        for one, other, f, g in zip(grid, grid[1:], values, values[1:], strict=False):
            if (f > 0) != (g > 0) and (g > 0) == opens:
                found.append((direction * brentq(seen, one, other, xtol=1e-13)) % 360)
        return found


def assert_events_are_those_of_the_metal(
    crank: Crank, gear: ChangeOver, valve: SlideValve, direction: int
) -> None:
    events = valve_events(crank, valve, gear, float(direction))
    metal = Metal(crank, gear, valve)
    for end, at in (("front", events.front), ("back", events.back)):
        for name, to, opens in (
            ("admission", "steam", True), ("cutoff", "steam", False),
            ("release", "exhaust", True), ("compression", "exhaust", False),
        ):  # fmt: skip
            (theirs,) = metal.turns_at(end, to, direction, opens=opens)
            ours = getattr(at, name).angle
            assert abs((ours - theirs + 180) % 360 - 180) < 1e-7, (end, name)
        centre = crank.dead_centres[0 if end == "front" else 1]
        assert at.lead == pytest.approx(metal.opening(end, "steam", direction, centre), abs=1e-9)
        most = max(metal.opening(end, "steam", direction, theta) for theta in range(360))
        assert at.port_opening == pytest.approx(most, abs=1e-3)


@BOTH_WAYS
@settings(max_examples=10)
@given(
    gear=near(GEAR, 0.1), advance=st.floats(-8, 8), offset=st.floats(-3, 3),
    inside=st.booleans(), lap=st.floats(-0.2, 0.3),
)  # fmt: skip
def test_equal_laps_need_nothing_but_the_gear(
    direction: int, gear: ChangeOver, advance: float, offset: float, inside: bool, lap: float
) -> None:
    word = "inside" if inside else "outside"
    gear = replace(gear, advance=advance, admission=word)
    valve = SlideValve(lap, lap, 1.4, admission=word)
    assert seen_backward(valve) == valve
    crank = Crank(15.875, 45.0, offset)
    assert_events_are_those_of_the_metal(crank, gear, valve, direction)


@BOTH_WAYS
@settings(max_examples=10)
@given(
    gear=near(GEAR, 0.1), lap=st.floats(-0.1, 0.3), exhaust=st.floats(-0.3, 0.1),
    moved=st.floats(-0.2, 0.2),
)  # fmt: skip
def test_unequal_laps_and_a_moved_valve_change_about(
    direction: int, gear: ChangeOver, lap: float, exhaust: float, moved: float
) -> None:
    valve = SlideValve(lap, exhaust, 1.4, valve_offset=moved)
    assert_events_are_those_of_the_metal(CRANK, gear, valve, direction)


@BOTH_WAYS
def test_without_lap_steam_is_let_in_for_the_whole_stroke(direction: int) -> None:
    events = valve_events(CRANK, BARE, LEVEL, float(direction))
    for end in (events.front, events.back):
        assert end.cutoff
        assert end.release
        assert end.compression
        assert end.admission
        assert end.cutoff.percent == pytest.approx(100, abs=1e-6)
        assert end.release.percent == pytest.approx(100, abs=1e-6)
        assert end.compression.percent == pytest.approx(0, abs=1e-6)
        assert end.admission.percent == pytest.approx(0, abs=1e-6)
        assert end.lead == pytest.approx(0, abs=1e-9)
    assert events.travel == pytest.approx(2.4)


@pytest.mark.parametrize("admission", ["outside", "inside"])
def test_backward_each_end_does_what_the_other_did_forward(admission: str) -> None:
    """The turn runs the other way, so what opened a port for steam now shuts it."""
    gear = replace(GEAR, admission=admission)
    valve = SlideValve(0.05, 0.05, 1.4, admission=admission)
    forward, backward = (valve_events(CRANK, valve, gear, r) for r in (1.0, -1.0))
    pairs = {"admission": "cutoff", "cutoff": "admission",
             "release": "compression", "compression": "release"}  # fmt: skip
    for end, other in (("front", "back"), ("back", "front")):
        for name, was in pairs.items():
            now = getattr(getattr(backward, end), name)
            before = getattr(getattr(forward, other), was)
            assert now.angle == pytest.approx(before.angle, abs=1e-6)


def test_what_one_direction_gains_by_advance_the_other_loses() -> None:
    keyed = replace(LEVEL, advance=6.0)
    forward, backward = (valve_events(CRANK, BARE, keyed, r) for r in (1.0, -1.0))
    assert forward.front.lead > 0.1
    assert backward.front.lead == pytest.approx(-forward.front.lead, abs=1e-9)


def test_metal_stands_where_it_stands_in_either_direction() -> None:
    motion = solve_motion(CRANK, GEAR, TURN, np.array([1.0, -1.0]))
    assert np.array_equal(motion.points["valve"][0], motion.points["valve"][1])
    metal = Metal(CRANK, GEAR, BARE)
    assert motion.points["valve"][0, :, 0] == pytest.approx([metal.place(t) for t in TURN])
    assert motion.valve.sum(axis=0) == pytest.approx(2 * metal.middle)
    assert motion.residual < 1e-9


def test_only_the_sign_of_the_reverser_counts_and_none_is_refused() -> None:
    motion = solve_motion(CRANK, GEAR, TURN, np.array([1.0, 0.2, -0.4, -1.0]))
    assert np.array_equal(motion.valve[0], motion.valve[1])
    assert np.array_equal(motion.valve[2], motion.valve[3])
    with pytest.raises(SizeError, match="shuts off the steam"):
        solve_motion(CRANK, GEAR, TURN, 0.0)


def test_set_in_either_gear_the_valve_is_set_alike() -> None:
    settings = [ValveSetting(reverser=r) for r in (1.0, -1.0)]
    one, other = (valve_events(CRANK, BARE, GEAR, -1.0, setting=s) for s in settings)
    assert one.setting == pytest.approx(other.setting, abs=1e-12)


@given(by=st.floats(0.02, 50))
@settings(max_examples=10)
def test_all_lengths_grow_alike(by: float) -> None:
    longer = replace(GEAR, eccentric_throw=1.2 * by, eccentric_rod=45.0 * by,
                     spindle_height=3.0 * by)  # fmt: skip
    crank = Crank(by * 15.875, by * 45.0)
    ours = solve_motion(CRANK, GEAR, TURN, -1.0).valve
    assert solve_motion(crank, longer, TURN, -1.0).valve == pytest.approx(by * ours, rel=1e-9)


@BOTH_WAYS
@given(theta=st.floats(0, 360), angle=st.floats(-20, 20))
@settings(max_examples=10)
def test_forces_obey_virtual_work(direction: int, theta: float, angle: float) -> None:
    """On the metal, whatever the pipes do."""

    def pose(rod: float) -> object:
        gear = replace(GEAR, eccentric_rod=rod, valve_angle=angle)
        return gear, gear.pose(CRANK, np.array([[theta]]), np.array([[float(direction)]]))

    line = np.array([np.cos(np.radians(angle)), np.sin(np.radians(angle))])
    (_, less), (_, more) = pose(45.0 - 1e-4), pose(45.0 + 1e-4)  # type: ignore[misc]
    moves = ((more.points["valve"] - less.points["valve"]) @ line)[0, 0] / 2e-4
    gear, now = pose(45.0)  # type: ignore[misc]
    assert gear.forces(now)["eccentric rod"][0, 0] == pytest.approx(-moves, rel=1e-6)


def test_a_rod_too_short_locks_and_says_where() -> None:
    with pytest.raises(MotionLocks, match="eccentric rod"):
        solve_motion(CRANK, replace(GEAR, eccentric_rod=4.0), TURN, -1.0)


@pytest.mark.parametrize("admission", ["outside", "inside"])
def test_layout_and_fitting_open_the_port_and_choose_no_cutoff(admission: str) -> None:
    wanted, sizes = Wanted(cutoff=78.0, lead=0.05), sizes_for_events(78.0, 0.05, 1.2)
    gear = ChangeOver.laid_out(CRANK, sizes, wanted, admission)
    valve = SlideValve(0.0, 0.0, 1.4, admission=admission)
    for reverser in (1.0, -1.0):
        events = valve_events(CRANK, valve, gear, reverser)
        opens = (events.front.port_opening + events.back.port_opening) / 2
        assert opens == pytest.approx(1.2, abs=1e-6)
    wider, lap = fitted(
        gear, CRANK, replace(valve, steam_lap=0.3), replace(wanted, port_opening=1.3)
    )
    events = valve_events(CRANK, valve, wider, 1.0)
    assert min(events.front.port_opening, events.back.port_opening) == pytest.approx(1.3, abs=1e-6)
    assert (lap, wider.advance) == (0.0, 0.0)
    turned = solve_motion(CRANK, gear, TURN, 1.0).valve
    wishes = gear.called_for(sizes, equivalent_eccentric(TURN, turned), wanted, CRANK)
    assert {name: value for name, value, _ in wishes} == pytest.approx(
        {"eccentric_throw": 1.2, "advance": 0.0}
    )


def test_the_chapter_works_and_draws_the_gear() -> None:
    motion = ValveMotion(valve=BARE, gear=GEAR, valve_type="slide")
    result = work(motion, crank=CRANK, pressure=2.8)
    assert set(result.reversers) == {1.0, -1.0}
    assert result.cutoff_full == pytest.approx(100, abs=0.5)
    scene = pictures(motion, result)[0]
    assert {"eccentric", "eccentric rod"} <= {one.part for one in scene.moving}


GIVEN = {"pressure": 2.8, "back": 0.2, "clearance": 8.0}


def test_no_lap_costs_the_more_the_earlier_the_other_cuts_off() -> None:
    costs = [
        cost_of_no_lap(CRANK, LEVEL, BARE, Wanted(cutoff=x, lead=0.02), **GIVEN).more_steam
        for x in (94.0, 85.0, 75.0, 60.0, 45.0)
    ]
    assert costs[0] > 0
    assert costs == sorted(costs)
    assert costs[0] < 10 < 25 < costs[-1]


def test_cost_is_that_of_the_two_diagrams() -> None:
    """Mean pressures by adding up both diagrams point by point; steam from the events."""
    cost = cost_of_no_lap(CRANK, LEVEL, BARE, Wanted(cutoff=70.0, lead=0.05), **GIVEN)
    fill = Fill(2.8 + 1.01325, 0.2 + 1.01325, 0.08, lifts=False)
    lapped = mean_events(valve_events(CRANK, cost.lapped_valve, cost.lapped, 1.0))
    assert 100 * lapped.cutoff == pytest.approx(70, abs=1)
    part = np.linspace(0, 1, 20001)
    leaving = np.ones_like(part, dtype=bool)
    means = []
    for events in (Events(1.0, 1.0, 0.0), lapped):
        there = np.trapezoid(indicated(part, leaving, fill, events), part)
        means.append(there - np.trapezoid(indicated(part, ~leaving, fill, events), part))
    assert cost.mean_pressure == pytest.approx(means[0], rel=1e-4)
    assert cost.mean_pressure_with_lap == pytest.approx(means[1], rel=1e-4)
    assert cost.cutoff == pytest.approx(100, abs=1e-6)
    live, spent = saturation(2.8).density, saturation(0.2).density
    filled, kept = lapped.cutoff + 0.08, lapped.compression + 0.08
    assert kept > 0.1
    assert cost.steam_with_lap == pytest.approx(live * filled - spent * kept)
    assert cost.steam == pytest.approx(live * 1.08 - spent * 0.08)
    for_work = (cost.steam / means[0]) / (cost.steam_with_lap / means[1])
    assert cost.more_steam == pytest.approx(100 * (for_work - 1), abs=0.05)
    assert cost.workings[-1].result == pytest.approx(for_work, abs=5e-4)


def test_the_other_engine_has_the_same_rod_and_opening() -> None:
    cost = cost_of_no_lap(CRANK, LEVEL, BARE, Wanted(cutoff=75.0, lead=0.05), **GIVEN)
    assert isinstance(cost.lapped, SlipEccentric)
    assert cost.lapped.eccentric_rod == LEVEL.eccentric_rod
    opens = cost.lapped.eccentric_throw - cost.lapped_valve.steam_lap
    assert opens == pytest.approx(LEVEL.eccentric_throw)


def test_no_work_left_is_said() -> None:
    with pytest.raises(ValueError, match="no work is left"):
        cost_of_no_lap(CRANK, LEVEL, BARE, Wanted(), pressure=0.2, back=0.5, clearance=8.0)
