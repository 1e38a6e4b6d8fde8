"""The chapter's pictures: to scale, in the right place, and drawable."""

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from tests.curving_for_tests import engine, worked
from weighshaft.curving import Curving, Truck
from weighshaft.pictures.curving import over_radius, pictures, throw_table
from weighshaft.pictures.curving_plan import on_curve, with_vehicle
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Path, Scene, Table

BOGIE = Curving(leading=Truck(kind="bogie"), trailing=Truck(kind="radial axle"))
WORKED = [
    (Curving(), {}),
    (BOGIE, {"whole": engine(leading=(130.0, 90.0))}),
    (Curving(leading=Truck(swing=0.5)), {}),
    (Curving(), {"wanted": None}),
    (Curving(), {"whole": engine(leading=(), trailing=())}),
]


def paths(scene: Scene, name: str) -> list[np.ndarray]:
    return [one.points for one in scene.still if isinstance(one, Path) and one.part == name]


@pytest.mark.parametrize(("curving", "changes"), WORKED)
def test_every_picture_says_something_and_can_be_drawn(
    curving: Curving, changes: dict[str, Any]
) -> None:
    result = worked(curving, **changes)
    made = pictures(curving, result)
    assert [type(one) for one in made].count(Scene) == 2
    for picture in made:
        if isinstance(picture, Scene | Chart):
            assert len(picture.says) > 40
        if isinstance(picture, Scene):
            for one in picture.still:
                if isinstance(one, Path):
                    assert np.isfinite(one.points).all()
        if isinstance(picture, Table):
            assert picture.rows
            assert all(len(row) == len(picture.columns) for row in picture.rows)
        assert figure(picture).get_axes() or isinstance(picture, Table)


def test_rails_and_wheels_stand_where_they_are() -> None:
    result = worked(BOGIE, whole=engine(leading=(130.0, 90.0)))
    scene = on_curve(result)
    cx, cy = result.pose.centre
    rails = paths(scene, "rail")
    far = sorted(float(np.hypot(rail[:, 0] - cx, rail[:, 1] - cy).mean()) for rail in rails)
    assert far == pytest.approx([1000.0 - 22.5, 1000.0 + 22.5])
    assert len(paths(scene, "wheel")) == 2 * len(result.axles)
    # axles of the bogie lie along the radius of the curve to within its angle of attack
    ends = [one for one in paths(scene, "axle") if one[:, 0].min() > 80.0]
    assert len(ends) == 2
    for one in ends:
        points = math.degrees(math.atan2(one[1, 0] - one[0, 0], one[1, 1] - one[0, 1]))
        middle = one.mean(axis=0)
        radial = math.degrees(math.atan2(middle[0] - cx, middle[1] - cy))
        assert points == pytest.approx(radial, abs=result.trucks[0].place.attack + 1e-6)
    # what the line must leave clear goes by the part that reaches furthest
    clear = paths(scene, "line left clear")
    reach = [float(np.hypot(one[:, 0] - cx, one[:, 1] - cy).mean()) - 1000.0 for one in clear]
    assert max(reach) == pytest.approx(max(one.reach_outside for one in result.throws))
    assert min(reach) == pytest.approx(-max(one.reach_inside for one in result.throws))
    assert "leading bogie" in scene.says


def test_the_drawbar_joins_engine_and_vehicle() -> None:
    result = worked()
    (bar,) = paths(with_vehicle(result), "drawbar")
    assert bar[0] == pytest.approx((result.whole.back, 0.0))
    assert np.linalg.norm(bar[0] - bar[1]) == pytest.approx(2 * 8.0)


def test_the_chart_falls_with_the_radius_and_bands_what_is_too_sharp() -> None:
    chart = over_radius(worked())
    for curve in chart.curves:
        assert (np.diff(curve.y) < 1e-9).all()
    assert len(chart.curves) == 4
    assert not over_radius(worked(coupled_radius=300.0)).bands
    assert over_radius(worked(Curving(leading=Truck(swing=0.5)))).bands


def test_an_engine_without_a_way_round_is_said_to_have_none() -> None:
    tight = replace(engine(), flange_play=0.0)
    axles = tuple(replace(one, play=0.0) for one in tight.axles)
    result = worked(whole=replace(tight, axles=axles), coupled_radius=math.inf)
    assert "goes round no curve" in on_curve(result).says
    assert throw_table(result).rows
