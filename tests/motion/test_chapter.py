"""The chapter as worked: figures that agree with one another, and findings that are true."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.motion.gears_for_tests import ALL, CRANK, DIRECT, INSIDE, OUTSIDE, ROCKER, SLIP
from weighshaft.motion import FaceSizes, SlideValve, ValveMotion, ValveSetting
from weighshaft.motion.chapter import FRAMES, MotionResult, work
from weighshaft.motion.port_face import port_face

VALVE = SlideValve(2.2, 0.0, 3.0, port_length=17.0, bridge=3.0, exhaust_port=6.4)


def worked(gear: object, **changes: object) -> MotionResult:
    valve = replace(VALVE, admission=gear.admission)  # type: ignore[attr-defined]
    motion = ValveMotion(valve=valve, gear=gear, **changes)  # type: ignore[arg-type]
    return work(motion, crank=CRANK, pressure=5.0)


def said(result: MotionResult, level: str) -> str:
    return " ".join(one.says for one in result.findings if one.level == level)


@pytest.mark.parametrize("name", ALL)
def test_figures_agree_with_the_events(name: str) -> None:
    result = worked(ALL[name])
    assert result.full.reverser == 1.0
    assert result.travel == max(one.travel for one in (*result.events, result.running))
    swing = np.ptp(result.displacement[-2])
    assert swing == pytest.approx(result.running.travel, rel=2e-3)
    assert result.displacement.shape == (len(result.reversers) + 2, len(FRAMES))
    assert result.opening_running <= result.full.front.port_opening + 1e-9 or name != "direct"


def test_a_slip_eccentric_is_worked_in_its_two_positions_alone() -> None:
    assert worked(SLIP).reversers == (1.0, -1.0)


def test_unequal_cut_offs_of_a_slip_eccentric_are_said() -> None:
    assert "5." in said(worked(SLIP), "check")
    assert "apart" in said(worked(SLIP), "check")
    even = worked(SLIP, setting=ValveSetting(rule="equal cut-offs", reverser=1.0))
    assert "running forward: front" in said(even, "fine")


def test_a_die_that_leaves_its_slot_is_a_stop_that_one_size_mends() -> None:
    result = worked(replace(DIRECT, slot_length=20.0))
    (stop,) = [one for one in result.findings if one.level == "stop"]
    assert "die leaves the slot" in stop.says
    assert stop.change is not None
    path, value = stop.change
    assert path == "motion.gear.slot_length"
    mended = worked(replace(DIRECT, slot_length=float(value)))
    assert "die leaves" not in said(mended, "stop")


def test_an_overtravelled_port_face_blows_through() -> None:
    valve = replace(VALVE, bridge=0.4)
    motion = ValveMotion(valve=valve, gear=replace(DIRECT, eccentric_throw=9.0))
    result = work(motion, crank=CRANK, pressure=5.0)
    assert result.face is not None
    assert result.face.seal == pytest.approx(
        valve.bridge + valve.port_width + valve.steam_lap - result.travel / 2
    )


@settings(max_examples=50)
@given(
    lap=st.floats(0.5, 4), exhaust=st.floats(-0.5, 1), port=st.floats(1, 5),
    bridge=st.floats(1, 5), wide=st.floats(2, 10), travel=st.floats(2, 20),
)  # fmt: skip
def test_port_face_adds_up(
    lap: float, exhaust: float, port: float, bridge: float, wide: float, travel: float
) -> None:
    """The valve is two laps longer than over the ports; its face is port and both laps."""
    valve = SlideValve(lap, exhaust, port, bridge=bridge, exhaust_port=wide)
    face = port_face(valve, FaceSizes(), travel)
    assert face is not None
    assert face.valve_length == pytest.approx(wide + 2 * bridge + 2 * port + 2 * lap)
    assert face.cavity_length == pytest.approx(wide + 2 * bridge - 2 * exhaust)
    assert face.land == pytest.approx(port + lap + exhaust)
    # the edge of the cavity against the far edge of the exhaust port, drawn at full travel
    reach = max(-wide / 2, -face.cavity_half + travel / 2)
    assert face.exhaust_left == pytest.approx(wide / 2 - reach)
    assert face.chest_needed == pytest.approx(face.valve_length + travel + 1.0)


@pytest.mark.parametrize(
    ("gear", "part", "field"),
    [(SLIP, "eccentric rod", "eccentric_rod"), (ROCKER, "valve rod", "valve_rod"),
     (DIRECT, "lifting link", "lifting_link"), (OUTSIDE, "eccentric rod", "eccentric_rod"),
     (OUTSIDE, "union link", "union_link"), (OUTSIDE, "lifting link", "lifting_link"),
     (INSIDE, "eccentric rod", "eccentric_rod")],
)  # fmt: skip
def test_forces_obey_virtual_work(gear: object, part: str, field: str) -> None:
    """A rod lengthened by dL moves the valve by -F dL for 1 N on the valve (virtual work)."""
    reverser, step = np.array([[0.7]]), 1e-5
    pose = gear.pose(CRANK, FRAMES[None, ::10], reverser)  # type: ignore[attr-defined]
    force = gear.forces(pose)[part]  # type: ignore[attr-defined]
    moved = [
        replace(gear, **{field: getattr(gear, field) + sign * step})  # type: ignore[type-var]
        .pose(CRANK, FRAMES[None, ::10], reverser).valve  # type: ignore[attr-defined]
        for sign in (1, -1)
    ]  # fmt: skip
    slope = (moved[0] - moved[1]) / (2 * step)
    assert force == pytest.approx(-slope, abs=1e-6)


def test_forces_grow_with_pressure_and_friction() -> None:
    low = worked(DIRECT)
    high = worked(DIRECT, face=FaceSizes(friction=0.3))
    assert low.valve_force is not None
    assert low.face is not None
    # coefficient times pressure times the area under steam, 1 bar being 0.1 N/mm2
    assert low.valve_force == pytest.approx(0.15 * 0.5 * low.face.bears)
    assert high.forces[0].force == pytest.approx(2 * low.forces[0].force)
