"""The chapter's pictures: to scale, in the right place, and honest about a foul."""

import numpy as np
import pytest

from tests.wheels_for_tests import LARGE, SMALL, inside, outside
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Circle, Dimension, Label, Path, Scene, Table
from weighshaft.pictures.wheels import half_plan, pictures, stack_table
from weighshaft.pictures.wheels_axle import row_along_axle
from weighshaft.pictures.wheels_crankpin import at_the_crankpin
from weighshaft.pictures.wheels_curve import on_curve
from weighshaft.wheels import work

BOTH = [(outside(), SMALL), (inside(), LARGE)]


def parts(scene: Scene, name: str) -> list[np.ndarray]:
    return [one.points for one in scene.still if isinstance(one, Path) and one.part == name]


@pytest.mark.parametrize(("wheels", "given"), BOTH)
def test_every_picture_is_finite_says_something_and_can_be_drawn(wheels, given) -> None:
    for picture in pictures(wheels, work(wheels, **given)):
        if isinstance(picture, Scene):
            assert len(picture.says) > 40
            for one in picture.still:
                if isinstance(one, Path):
                    assert np.isfinite(one.points).all()
                elif isinstance(one, Circle | Label | Dimension):
                    where = (
                        one.centre
                        if isinstance(one, Circle)
                        else (one.at if isinstance(one, Label) else (*one.start, *one.end))
                    )
                    assert np.isfinite(where).all()
        else:
            assert isinstance(picture, Table)
            assert all(len(row) == len(picture.columns) for row in picture.rows)
        assert figure(picture).get_axes() or isinstance(picture, Table)


def test_half_plan_is_to_scale_with_the_right_hand_side_below() -> None:
    wheels = outside()
    scene = half_plan(wheels, work(wheels, **SMALL))
    tyres = parts(scene, "tyre")
    assert len(tyres) == 3
    for tyre, ahead in zip(tyres, (48, 0, -48), strict=True):
        assert (tyre[:, 0].min(), tyre[:, 0].max()) == pytest.approx((ahead - 21, ahead + 21))
        assert (tyre[:, 1].min(), tyre[:, 1].max()) == pytest.approx((-26, -20))
    (crosshead,) = parts(scene, "crosshead")
    # the crank stands at the top quarter: gudgeon pin sqrt(62^2 - 10^2) ahead
    assert crosshead[:, 0].mean() == pytest.approx((62**2 - 10**2) ** 0.5)
    assert crosshead[:, 1].max() == pytest.approx(-(34 - 3))
    texts = [one.text for one in scene.still if isinstance(one, Dimension)]
    assert "0.80 clear" in texts
    assert "clears the crosshead by 0.80 mm" in scene.says


def test_a_foul_is_drawn_as_one() -> None:
    wheels = outside({"pin_cap": 1.6})
    result = work(wheels, **SMALL)
    for scene in (half_plan(wheels, result), at_the_crankpin(wheels, result)):
        red = [one for one in scene.still if isinstance(one, Path) and one.pen == "stop"]
        assert {one.part for one in red} == {"crosshead", "crankpin cap"}
        assert "fouls the crosshead by 0.20 mm" in scene.says


def test_width_that_is_too_much_is_drawn_red() -> None:
    for limit, pen in ((100.0, "hidden"), (90.0, "stop")):
        wheels = outside({"width_limit": limit})
        scene = half_plan(wheels, work(wheels, **SMALL))
        (line,) = [
            one for one in scene.still if isinstance(one, Path) and one.part == "width allowed"
        ]
        assert line.pen == pen
        assert line.points[:, 1] == pytest.approx(-limit / 2)


@pytest.mark.parametrize(("wheels", "given"), BOTH)
def test_row_is_drawn_where_the_stack_puts_it(wheels, given) -> None:
    result = work(wheels, **given)
    scene = row_along_axle(wheels, result)
    for name in ("frame", "eccentric sheave", "distance collar"):
        drawn = [(one[:, 0].min(), one[:, 0].max()) for one in parts(scene, name)]
        stacked = [
            (part.start - result.back_to_back / 2, part.end - result.back_to_back / 2)
            for part in result.stack
            if part.name == name
        ]
        assert drawn == [pytest.approx(one) for one in stacked]
    sheaves = parts(scene, "eccentric sheave")
    assert result.sheave is not None
    for one, side in zip(sheaves, (1, -1, 1, -1), strict=True):
        assert np.ptp(one[:, 1]) == pytest.approx(result.sheave)
        assert one[:, 1].mean() == pytest.approx(side * given["eccentric_throw"])
    texts = [one.text for one in scene.still if isinstance(one, Dimension)]
    assert f"{result.collar:.2f}" in texts
    assert f"{result.back_to_back:.2f}" in texts


def test_what_does_not_fit_is_said() -> None:
    wheels = inside(between={"sheave_width": 6.0})
    scene = row_along_axle(wheels, work(wheels, **LARGE))
    assert "does not fit: distance collar" in scene.says
    assert any(isinstance(one, Path) and one.pen == "stop" for one in scene.still)


def test_wheels_stand_between_the_rails_of_the_curve() -> None:
    wheels = outside(leading_truck=40.0, radius_wanted=600.0)
    result = work(wheels, **SMALL)
    scene, centre = on_curve(wheels, result), np.array(result.curve.centre)
    rails = parts(scene, "rail")
    for rail, radius in zip(rails, (600 - 22.5, 600 + 22.5), strict=True):
        assert np.hypot(*(rail - centre).T) == pytest.approx(radius)
    flanges = parts(scene, "flange")
    assert len(flanges) == 8
    for flange in flanges:
        middle = flange.mean(axis=0)
        distance = float(np.hypot(*(middle - centre)))
        assert 600 - 22.5 < distance < 600 + 22.5
    assert "600" not in scene.says
    assert "0.60 m to the right" in scene.says


def test_tables_close() -> None:
    result = work(outside(), **SMALL)
    table = stack_table(result)
    widths = [row[1] for row in table.rows[:-1]]
    assert sum(float(width) for width in widths) == pytest.approx(40.0)
    assert table.rows[-1][1:] == pytest.approx((40.0, 40.0))
