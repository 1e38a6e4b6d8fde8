"""The sweeps: they hold every pose, stand in their planes, and name a foul."""

import numpy as np
import pytest

from tests.clearance_for_tests import ROOMY, sample
from weighshaft.clearance import Clearance, ClearanceResult, PartSizes, Surroundings, work
from weighshaft.pictures.clearance import elevation, gap_table, pictures, plan
from weighshaft.pictures.clearance_shapes import edges_of, outlines, spaced, standing
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Circle, Dimension, Label, Path, Scene, Table

NAMED = ("tansy", "rowan", "merrow", "hartfell", "dunnock")


def paths(scene: Scene, name: str) -> list[Path]:
    return [one for one in scene.still if isinstance(one, Path) and one.part == name]


@pytest.mark.parametrize("name", NAMED)
def test_pictures_are_finite_light_and_can_be_drawn(name: str) -> None:
    result = work(Clearance(), **sample(name))
    for picture in pictures(Clearance(), result):
        if isinstance(picture, Scene):
            points = [one.points for one in picture.still if isinstance(one, Path)]
            assert all(np.isfinite(one).all() for one in points)
            assert sum(one.size for one in points) * 12 < 150_000  # bytes as text
            assert len(picture.says) > 60
            assert " -" not in picture.says.replace("reverser at -", "")
        else:
            assert isinstance(picture, Table)
            assert all(len(row) == len(picture.columns) for row in picture.rows)
            assert all(cell >= 0 for row in picture.rows for cell in row if isinstance(cell, float))
        assert figure(picture).get_axes() or isinstance(picture, Table)


def test_a_sweep_holds_the_part_in_every_pose() -> None:
    shapely = pytest.importorskip("shapely")
    result = work(Clearance(axlebox_rise=0.0), **ROOMY)
    for name, outline in outlines(result).items():
        around = shapely.Polygon(outline).buffer(0.6)
        piece = next(p for p in result.pieces if p.name == name)
        own = edges_of(result, name)
        for row in (0, 2, -1):
            for angle in (0, 20, 50):
                for shape in standing(
                    piece, result.starts[own, row, angle], result.ends[own, row, angle]
                ):
                    assert around.contains(shapely.Polygon(shape)), name


def test_a_sweep_is_no_wider_than_the_part_reaches() -> None:
    result = work(Clearance(axlebox_rise=0.0), **ROOMY)
    outline = outlines(result)["forward eccentric"]
    piece = next(p for p in result.pieces if p.name == "forward eccentric")
    # a sheave goes round the axle at its throw
    assert np.hypot(*outline.T).max() == pytest.approx(6.4 + piece.edges[0][2], abs=0.1)


def test_a_foul_is_red_and_named_and_a_gap_is_dimensioned() -> None:
    clean = work(Clearance(), **ROOMY)
    scene = elevation(clean, outlines(clean))
    assert not [one for one in scene.still if getattr(one, "pen", "") == "stop"]
    (figure_,) = [one for one in scene.still if isinstance(one, Dimension)]
    assert figure_.text == f"{clean.least_gap:.2f}"
    assert np.hypot(*np.subtract(figure_.start, figure_.end)) == pytest.approx(clean.least_gap)
    foul = work(Clearance(), **ROOMY | {"axles": (120.0, 0.0, -150.0)})
    scene = elevation(foul, outlines(foul))
    assert [one for one in paths(scene, "link") if one.pen == "stop"]
    assert "overlap by" in scene.says
    assert [one for one in plan(foul, outlines(foul)).still if getattr(one, "pen", "") == "stop"]


def test_planes_are_drawn_to_scale_on_the_right_hand_side() -> None:
    part = PartSizes(name="lifting link", plane=20.0, thickness=4.0)
    result = work(Clearance(parts=(part,)), **ROOMY)
    scene = plan(result, outlines(result))
    (link,) = paths(scene, "lifting link")
    assert (link.points[:, 1].min(), link.points[:, 1].max()) == pytest.approx((-22.0, -18.0))
    (frame,) = paths(scene, "frame")
    assert (frame.points[:, 1].min(), frame.points[:, 1].max()) == pytest.approx((-40.5, -38.0))


@pytest.mark.parametrize("name", NAMED)
def test_names_do_not_stand_on_one_another(name: str) -> None:
    result = work(Clearance(), **sample(name))
    for scene in pictures(Clearance(), result)[:2]:
        assert isinstance(scene, Scene)
        columns: dict[float, list[float]] = {}
        for one in scene.still:
            if isinstance(one, Label) and one.leader:
                columns.setdefault(round(one.at[0], 6), []).append(one.at[1])
        xs = [one.points[:, 0] for one in scene.still if isinstance(one, Path)]
        least = 0.03 * (max(x.max() for x in xs) - min(x.min() for x in xs))
        assert len(columns) <= 2
        for heights in columns.values():
            assert np.all(np.diff(sorted(heights)) >= least)


def test_boiler_ashpan_and_rail_are_drawn_where_they_are() -> None:
    around = Surroundings(
        boiler_bottom=120.0, ashpan_bottom=20.0, ashpan_front=-30.0, ashpan_back=-60.0
    )
    result = work(Clearance(surroundings=around), **ROOMY)
    scene = elevation(result, outlines(result))
    assert paths(scene, "boiler")[0].points[:, 1] == pytest.approx(120.0)
    assert paths(scene, "rail")[0].points[:, 1] == pytest.approx(-65.0)
    assert paths(scene, "ashpan")[0].points[:, 0].max() == pytest.approx(-30.0)
    assert any(isinstance(one, Circle) and one.part == "driving axle" for one in scene.still)


def test_the_table_has_the_least_first_and_no_negative_lengths() -> None:
    result: ClearanceResult = work(Clearance(), **sample("rowan"))
    table = gap_table(result)
    assert table.rows[0][0] == f"{result.gaps[0].first}, {result.gaps[0].second}"
    overlaps = [row[2] for row in table.rows if isinstance(row[2], float)]
    assert overlaps == sorted(overlaps, reverse=True)


def test_places_keep_apart_and_in_order() -> None:
    placed = spaced([0.0, 0.1, 0.2, 9.0], 1.0)
    assert np.all(np.diff(placed) >= 1.0 - 1e-9)
