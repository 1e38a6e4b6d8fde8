"""The pictures of the motion show what was worked out, and nothing that is not a number."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.gears_for_tests import ALL, CRANK, DIRECT, SLIP
from weighshaft.motion import SlideValve, ValveMotion
from weighshaft.motion.chapter import FRAMES, MotionResult, work
from weighshaft.pictures.motion import pictures
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Moving, Path, Picture, Scene, Table

VALVE = SlideValve(2.2, 0.1, 3.0, port_length=17.0, bridge=3.0, exhaust_port=6.4)


def drawn(gear: object, **changes: object) -> tuple[ValveMotion, MotionResult, tuple[Picture, ...]]:
    valve = replace(VALVE, admission=gear.admission)  # type: ignore[attr-defined]
    motion = ValveMotion(valve=valve, gear=gear, **changes)  # type: ignore[arg-type]
    result = work(motion, crank=CRANK, pressure=5.0)
    return motion, result, pictures(motion, result)


def titled(made: tuple[Picture, ...], word: str) -> Picture:
    (one,) = [picture for picture in made if word in picture.title]
    return one


@pytest.mark.parametrize("name", ALL)
def test_every_point_is_a_number_and_every_part_moves_together(name: str) -> None:
    _, result, made = drawn(ALL[name])
    scene = made[0]
    assert isinstance(scene, Scene)
    assert scene.angles is not None
    for part in scene.moving:
        assert part.points.shape[0] == len(FRAMES)
        assert np.isfinite(part.points).all()
    for still in scene.still:
        if isinstance(still, Path):
            assert np.isfinite(still.points).all()
    parts = {part.part for part in scene.moving}
    assert {part.name for part in ALL[name].parts if _has(part, result)} <= parts


def _has(part: object, result: MotionResult) -> bool:
    return all(joint in result.shown.points for joint in part.joints)  # type: ignore[attr-defined]


def test_rods_are_drawn_at_their_length() -> None:
    _, _, made = drawn(DIRECT)
    scene = made[0]
    assert isinstance(scene, Scene)
    (rod,) = [m for m in scene.moving if m.part == "forward rod" and m.shape == "path"]
    assert np.linalg.norm(np.diff(rod.points, axis=1), axis=-1) == pytest.approx(125.0)


def test_valve_oval_spans_the_travel() -> None:
    _, result, made = drawn(DIRECT)
    oval = titled(made, "Valve against piston")
    assert isinstance(oval, Chart)
    (curve,) = oval.curves
    assert np.ptp(curve.y) == pytest.approx(result.running.travel, rel=2e-3)
    assert (curve.x.min(), curve.x.max()) == pytest.approx((0.0, 100.0), abs=0.01)


def test_openings_reach_the_greatest_opening_and_the_width_at_most() -> None:
    _, result, made = drawn(DIRECT)
    chart = titled(made, "Ports open")
    assert isinstance(chart, Chart)
    front = chart.curves[0]
    assert front.y.max() == pytest.approx(result.running.front.port_opening, rel=5e-3)
    assert all(curve.y.min() >= 0 and curve.y.max() <= VALVE.port_width for curve in chart.curves)


def test_event_table_has_both_ends_of_every_notch() -> None:
    _, result, made = drawn(DIRECT)
    table = titled(made, "Events")
    assert isinstance(table, Table)
    assert len(table.rows) == 2 * len(result.events)
    cutoff = result.events[0].front.cutoff
    assert cutoff is not None
    assert table.rows[0][3] == f"{cutoff.percent:.1f} %"


def test_zeuner_circles_have_the_equivalent_throw() -> None:
    _, result, made = drawn(SLIP)
    chart = titled(made, "Zeuner")
    assert isinstance(chart, Chart)
    circle = chart.curves[0]
    throw = result.equivalent[-2].throw
    assert np.hypot(circle.x, circle.y).max() == pytest.approx(throw, rel=1e-3)
    assert throw == pytest.approx(SLIP.eccentric_throw, rel=2e-3)


def test_valve_stands_over_the_ports_as_it_moves() -> None:
    _, result, made = drawn(SLIP)
    scene = titled(made, "Port face")
    assert isinstance(scene, Scene)
    (valve,) = [part for part in scene.moving if isinstance(part, Moving)]
    assert result.face is not None
    left = valve.points[..., 0].min(axis=1)
    assert left == pytest.approx(result.displacement[-2] - result.face.valve_half)


@pytest.mark.parametrize("name", ALL)
def test_all_of_it_goes_on_paper(name: str) -> None:
    for picture in drawn(ALL[name])[2]:
        assert figure(picture, width_mm=160).get_size_inches()[0] > 0
