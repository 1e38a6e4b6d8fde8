"""Pictures of the boiler: to scale, finite, and saying their figures."""

from __future__ import annotations

import numpy as np

from tests.test_boiler import worked
from weighshaft.boiler import BoilerSeat
from weighshaft.pictures.boiler import pictures
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Path, Scene, Table


def test_pictures_say_the_figures_and_can_be_drawn() -> None:
    result = worked()
    made = pictures(BoilerSeat(), result)
    assert [type(one) for one in made] == [Scene, Scene, Table, Table]
    for one in made:
        if isinstance(one, Scene):
            assert f"{result.slide:.2f} mm" in one.says or f"{result.centre:.1f} mm" in one.says
            assert all(np.isfinite(p.points).all() for p in one.still if isinstance(p, Path))
            figure(one)


def test_the_free_end_is_drawn_ten_times_as_far() -> None:
    result = worked()
    scene = pictures(BoilerSeat(), result)[0]
    assert isinstance(scene, Scene)
    (hot,) = [p for p in scene.still if isinstance(p, Path) and p.part == "hot"]
    assert hot.points[0, 0] == result.free_end - 10 * result.slide
