"""Pictures of the cylinders: to scale, in agreement with the figures, in words."""

import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.cylinders_for_tests import engine, worked
from weighshaft.cylinders import Barrel, Crosshead
from weighshaft.pictures.cylinders import STEP, pictures, section, torque
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Dimension, Label, Moving, Path, Scene, Table


def moving(scene: Scene, part: str) -> Moving:
    (found,) = [one for one in scene.moving if one.part == part]
    return found


def test_what_there_is() -> None:
    cylinders = engine()
    made = pictures(cylinders, worked(cylinders))
    assert isinstance(made[0], Scene)
    assert [type(one) for one in made[1:]] == [Chart, Chart, Table, Table, Table]
    assert len({one.title for one in made}) == len(made)


def test_clearances_are_drawn_to_scale() -> None:
    cylinders = engine()
    result = worked(cylinders)
    scene = section(cylinders, result)
    piston = moving(scene, "piston").points
    assert scene.angles is not None
    assert len(piston) == len(scene.angles) == 360 // STEP
    covers = {
        name: np.concatenate(
            [one.points[:, 0] for one in scene.still if isinstance(one, Path) and one.part == name]
        )
        for name in ("front cover", "back cover")
    }
    # the spigot is the inner end of each cover
    assert covers["front cover"].min() - piston[0, :, 0].max() == pytest.approx(
        result.front_clearance
    )
    half = 180 // STEP
    assert piston[half, :, 0].min() - covers["back cover"].max() == pytest.approx(
        result.back_clearance
    )
    assert np.ptp(piston[0, :, 1]) == pytest.approx(cylinders.bore)


def test_the_rods_keep_their_lengths_and_the_thread_its_depth() -> None:
    cylinders = engine(cylinder_offset=4.0)
    result = worked(cylinders)
    scene = section(cylinders, result)
    pin = moving(scene, "big end").points[:, 0]
    gudgeon = moving(scene, "gudgeon pin").points[:, 0]
    assert np.hypot(*(gudgeon - pin).T) == pytest.approx(127.0)
    assert np.hypot(*pin.T) == pytest.approx(41.275 / 2)
    assert gudgeon[:, 1] == pytest.approx(4.0)
    # clockwise from +x: a quarter turn forward brings the pin below the axle
    assert pin[90 // STEP] == pytest.approx([0, -41.275 / 2], abs=1e-9)
    thread = moving(scene, "rod thread").points
    assert np.ptp(thread[0, :, 0]) == pytest.approx(result.thread_engaged)
    ends = moving(scene, "piston rod").points[:, :, 0]
    pistons = moving(scene, "piston").points[:, :, 0]
    assert ends.max(axis=1) == pytest.approx(pistons.min(axis=1))


def test_a_piston_that_strikes_is_drawn_so_and_said() -> None:
    cylinders = engine(barrel=Barrel(length=57.0))
    result = worked(cylinders)
    scene = section(cylinders, result)
    assert "strikes" in scene.says
    assert any(isinstance(one, Path) and one.pen == "stop" for one in scene.still)
    sound = section(engine(), worked(engine()))
    assert "strikes" not in sound.says
    assert not any(isinstance(one, Path) and one.pen == "stop" for one in sound.still)


def test_dashed_pistons_stand_at_the_dead_centres() -> None:
    cylinders = engine()
    result = worked(cylinders)
    front, back = (
        one.points[:, 0]
        for one in section(cylinders, result).still
        if isinstance(one, Path) and one.part == "piston"
    )
    assert result.axis.front_face - front.max() == pytest.approx(result.front_clearance)
    assert back.min() - result.axis.back_face == pytest.approx(result.back_clearance)


def test_dimensions_say_the_figures() -> None:
    cylinders = engine()
    result = worked(cylinders)
    texts = {one.text for one in section(cylinders, result).still if isinstance(one, Dimension)}
    assert {f"{result.front_clearance:.2f}", f"{result.axis.axle_to_cylinder:.2f}"} <= texts
    for one in section(cylinders, result).still:
        if isinstance(one, Dimension) and one.text:
            length = np.hypot(one.end[0] - one.start[0], one.end[1] - one.start[1])
            assert float(one.text) == pytest.approx(length, abs=0.0051)


def test_torque_chart() -> None:
    cylinders = engine()
    result = worked(cylinders)
    chart = torque(cylinders, result)
    first, second, total = (curve.y for curve in chart.curves[:3])
    assert total == pytest.approx(first + second)
    (follows,) = chart.follows
    assert chart.curves[follows].y is total
    assert len(total) == 360
    (band,) = chart.bands
    assert band.high * 1000 == pytest.approx(0.2 * 18 * 9.80665 * 98.4 / 2)
    mean = next(curve for curve in chart.curves if curve.label.startswith("mean"))
    assert mean.y == pytest.approx(total.mean(), rel=2e-3)
    single = engine(number=1)
    assert len(torque(single, worked(single)).curves) == 4


def test_tables_close() -> None:
    cylinders = engine()
    result = worked(cylinders)
    stack, loads, pulls = (one for one in pictures(cylinders, result) if isinstance(one, Table))
    ends = {row[0]: row[2] for row in stack.rows}
    assert ends["front cover, inner face"] == pytest.approx(result.axis.front_face)
    assert ends["back cover, inner face"] == pytest.approx(result.axis.back_face)
    assert f"{result.piston_load:.1f}" in loads.rows[0]
    assert pulls.rows[0][0] == "level"
    assert any(row[0] == "1 in 80" for row in pulls.rows)
    for table in (stack, loads, pulls):
        assert {len(row) for row in table.rows} == {len(table.columns)}


@settings(max_examples=25)
@given(
    st.floats(6, 60), st.floats(0.8, 2), st.floats(2.2, 6), st.floats(-0.3, 0.3),
    st.integers(1, 4), st.none() | st.floats(1, 200),
)  # fmt: skip
def test_nothing_runs_off_the_sheet(
    bore: float, stroke: float, rod: float, offset: float, number: int, length: float | None
) -> None:
    cylinders = engine(
        bore=bore, stroke=stroke * bore, connecting_rod=rod * stroke * bore,
        cylinder_offset=offset * bore, number=number,
        barrel=Barrel(length=None if length is None else max(length, 5)),
        crosshead=Crosshead(),
    )  # fmt: skip
    for one in pictures(cylinders, worked(cylinders)):
        if isinstance(one, Scene):
            assert len({len(part.points) for part in one.moving}) == 1
            for part in (*one.moving, *(p for p in one.still if isinstance(p, Path))):
                assert np.isfinite(part.points).all()
                assert abs(part.points).max() < 100 * bore + 10 * (length or 0)
        elif isinstance(one, Chart):
            for curve in one.curves:
                assert np.isfinite(curve.x).all()
                assert np.isfinite(curve.y).all()
        if not isinstance(one, Table):
            assert "nan" not in one.says


def test_they_come_out_on_paper() -> None:
    cylinders = engine()
    for one in pictures(cylinders, worked(cylinders)):
        drawn = io.BytesIO()
        figure(one, width_mm=200).savefig(drawn, format="png")
        assert drawn.tell() > 1000


def test_labels_are_clear_of_one_another() -> None:
    cylinders = engine()
    labels = [p for p in section(cylinders, worked(cylinders)).still if isinstance(p, Label)]
    assert len({label.text for label in labels}) == len(labels) >= 4
