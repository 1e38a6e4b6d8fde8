"""The chapter's pictures: springs to scale, the box where it stands, figures in words."""

from __future__ import annotations

import numpy as np
import pytest

from tests.springing_for_tests import engine, worked
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Circle, Path, Scene, Table
from weighshaft.pictures.springing import load_diagram, pictures, twist_chart
from weighshaft.pictures.springing_box import box_drawing, tilted_axle
from weighshaft.springing import CoilSprings, LeafSprings, Springing
from weighshaft.springing.coil import CoilSpring
from weighshaft.springing.decisions import ABOVE

EVERY = [
    Springing(), Springing(springs=CoilSprings(place=ABOVE)),
    Springing(springs=LeafSprings(full_length=1)),
    Springing(springs=CoilSprings(wire=0.8, coil=6.4, turns=6, free_length=9.0)),
]  # fmt: skip


@pytest.mark.parametrize("springing", EVERY)
def test_every_picture_is_finite_and_can_be_drawn(springing: Springing) -> None:
    made = pictures(springing, worked(springing))
    assert len([one for one in made if isinstance(one, Table)]) == 3
    for picture in made:
        if isinstance(picture, Scene):
            assert len(picture.says) > 40
            for one in picture.still:
                if isinstance(one, Path):
                    assert np.isfinite(one.points).all()
        if isinstance(picture, Chart):
            assert all(np.isfinite(one.y).all() for one in picture.curves)
    figure(made[0])
    figure(made[1])


def boxes(scene: Scene) -> list[np.ndarray]:
    return [one.points for one in scene.still if isinstance(one, Path) and one.part == "axlebox"]


def test_the_box_is_drawn_at_its_three_heights() -> None:
    result = worked()
    lows = [one[:, 1].min() for one in boxes(box_drawing(Springing(), result))]
    assert lows == pytest.approx([-12.5 + 1.5, -12.5, -12.5 - result.fall])


def test_the_spring_is_drawn_as_long_as_it_is() -> None:
    result = worked()
    scene = box_drawing(Springing(), result)
    spring = result.axles[1].spring
    assert isinstance(spring, CoilSpring)
    rings = [one for one in scene.still if isinstance(one, Circle) and one.part == "spring"]
    # the one in the middle, at the running height
    amid = [one for one in rings if abs(one.centre[0]) < 12]
    high = max(one.centre[1] for one in amid) + spring.wire / 2
    low = min(one.centre[1] for one in amid) - spring.wire / 2
    assert high == pytest.approx(-28.0)
    assert high - low == pytest.approx(result.loaded_length)


def test_a_bound_spring_is_red() -> None:
    short = EVERY[3]
    pens = {
        one.pen for one in box_drawing(short, worked(short)).still
        if isinstance(one, Circle) and one.part == "spring"
    }  # fmt: skip
    assert "stop" in pens


def test_the_axle_is_drawn_tilted() -> None:
    result = worked()
    right, left = sorted(boxes(tilted_axle(result)), key=lambda one: -one[:, 0].mean())
    assert right[:, 1].mean() == pytest.approx(1.5, abs=0.01)
    assert left[:, 1].mean() == pytest.approx(-1.5, abs=0.01)


def test_working_point_lies_on_the_line() -> None:
    result = worked()
    chart = load_diagram(result)
    line = chart.curves[0]
    assert np.interp(result.deflection, line.x, line.y) == pytest.approx(result.axles[1].force)
    assert f"{result.deflection:.2f} mm" in chart.says


def test_twist_is_read_at_the_track_given() -> None:
    result = worked()
    chart = twist_chart(result)
    kept = [np.interp(10.0, one.x, one.y) for one in chart.curves[:3]]
    assert kept == pytest.approx([one.left for one in result.axles])


def test_an_engine_without_rise_has_no_tilt_to_draw() -> None:
    result = worked(whole=engine(rise=0.0))
    titles = [one.title for one in pictures(Springing(), result)]
    assert not any("tilted" in one or "twisted" in one for one in titles)
