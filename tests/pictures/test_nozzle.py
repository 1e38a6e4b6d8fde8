"""The chapter's pictures: the section is to scale and says what the result says."""

from dataclasses import replace

import numpy as np
import pytest

from tests.nozzle_for_tests import BOX, ENGINE, GOOD
from weighshaft.nozzle import Nozzle, work
from weighshaft.pictures.nozzle import by_size, by_speed, pictures, section
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Circle, Path, Scene, Table

GRATE = replace(GOOD, grate_area=50.0)


def paths(scene: Scene, part: str) -> np.ndarray:
    return np.concatenate([p.points for p in scene.still if isinstance(p, Path) and p.part == part])


def test_section_is_to_scale() -> None:
    result = work(GRATE, **ENGINE)
    scene = section(GRATE, result)
    (shell,) = (p for p in scene.still if isinstance(p, Circle))
    assert shell.radius == 40.0
    nozzle = paths(scene, "diameter")
    assert nozzle[:, 1].max() == pytest.approx(-12.0)
    mouth = nozzle[np.isclose(nozzle[:, 1], -12.0)]
    assert np.abs(mouth[:, 0]).min() * 2 == pytest.approx(4.0)
    chimney = paths(scene, "choke")
    assert chimney[:, 1].max() == pytest.approx(106.0)
    assert np.abs(chimney[:, 0]).min() * 2 == pytest.approx(result.choke)
    assert np.abs(paths(scene, "chimney_outside")[:, 0]).max() * 2 == pytest.approx(32.0)


def test_cones_are_drawn_from_the_rim_to_where_they_touch() -> None:
    result = work(GRATE, **ENGINE)
    cones = paths(section(GRATE, result), "cones")
    assert result.choke is not None
    assert cones[:, 1].min() == pytest.approx(-12.0)
    assert np.abs(cones[np.isclose(cones[:, 1], -12.0)][:, 0]) * 2 == pytest.approx([4.0] * 4)
    assert np.abs(cones[:, 0]).max() * 2 == pytest.approx(result.choke)
    assert cones[:, 1].max() == pytest.approx(106.0 - 38.1 / 16)


def test_charts_pass_through_the_result() -> None:
    result = work(GRATE, **ENGINE)
    speed = by_speed(result).curves[0]
    assert np.interp(8.0, speed.x, speed.y) == pytest.approx(result.back_pressure, rel=1e-3)
    assert np.all(np.diff(speed.y) > 0)
    size = by_size(GRATE, result).curves[0]
    shown = np.isfinite(size.y)
    assert np.interp(4.0, size.x[shown], size.y[shown]) == pytest.approx(
        result.back_pressure, rel=0.02
    )
    assert np.all(np.diff(size.y[shown]) < 0)


@pytest.mark.parametrize(
    "nozzle",
    [
        GRATE,
        Nozzle(diameter=4.0),
        Nozzle(diameter=0.5, smokebox=BOX),
        replace(GRATE, smokebox=replace(BOX, taper=2.0, petticoat_mouth=30.0)),
        replace(GRATE, smokebox=replace(BOX, taper=8.0, inside_diameter=None)),
        replace(GRATE, smokebox=replace(BOX, nozzle_below=-20.0, choke=3.0)),
        replace(GRATE, smokebox=replace(BOX, choke_above_nozzle=150.0)),
        replace(GRATE, smokebox=replace(BOX, chimney_outside=200.0)),
    ],
)
def test_every_picture_is_drawn_and_holds_only_numbers(nozzle: Nozzle) -> None:
    made = pictures(nozzle, work(nozzle, **ENGINE))
    assert isinstance(made[0], Scene)
    assert isinstance(made[1], Chart)
    assert isinstance(made[-1], Table)
    for picture in made:
        figure(picture)
        if not isinstance(picture, Table):
            assert picture.says
            assert "nan" not in picture.says


def test_tables_hold_every_rule() -> None:
    result = work(GRATE, **ENGINE)
    tables = [p for p in pictures(GRATE, result) if isinstance(p, Table)]
    rows = [row[0] for table in tables for row in table.rows]
    assert {rule.name for rule in result.rules} <= set(rows)
    assert "by the steam to be passed" in rows
    assert "both cones touching" in rows
