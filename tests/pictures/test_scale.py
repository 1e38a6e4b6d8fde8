"""The chapter's pictures: what is known is drawn, to scale, and nothing else."""

from dataclasses import replace

import numpy as np
import pytest

from weighshaft.pictures.paper import figure
from weighshaft.pictures.scale import elevation, fraction_words, pictures
from weighshaft.pictures.scene import Chart, Circle, Dimension, Path, Scene, Table
from weighshaft.scale import AsBuilt, Outline, Prototype, Scale, work

OUTLINE = Outline(
    front_overhang=1450, leading_gap=1650, carrying_wheel=600, buffer_height=750,
    boiler_centre=1900, smokebox_front=450, boiler_length=5500, chimney_position=480,
    chimney_diameter=380, cab_length=1700, cab_height=3350,
)  # fmt: skip
TANK = Prototype(
    gauge=1000, driving_wheel=945, arrangement="2-6-2T", coupled_wheelbase=2160,
    total_wheelbase=5460, length=8400, width=2450, height=3450, boiler_diameter=1180,
    weight=31500, speed=45, outline=OUTLINE,
)  # fmt: skip
DESIGN = Scale(prototype=TANK, ratio=22.5, track_gauge=45)


def wheels(scene: Scene, pen: str) -> list[Circle]:
    return sorted(
        (one for one in scene.still if isinstance(one, Circle) and one.pen == pen),
        key=lambda one: -one.centre[0],
    )


def test_wheels_stand_on_the_rail_where_the_wheelbases_put_them() -> None:
    result = work(DESIGN, driving_diameter=44.0)
    scene = elevation(DESIGN, result)
    for pen, diameter in (("behind", 42.0), ("outline", 44.0)):
        found = wheels(scene, pen)
        assert len(found) == 5
        assert [one.radius * 2 for one in found] == pytest.approx(
            [600 / 22.5, diameter, diameter, diameter, 600 / 22.5]
        )
        assert [one.centre[1] for one in found] == pytest.approx([one.radius for one in found])
        xs = [one.centre[0] for one in found]
        assert xs[0] == pytest.approx(-1450 / 22.5)
        assert xs[0] - xs[1] == pytest.approx(1650 / 22.5)
        assert xs[1] - xs[3] == pytest.approx(2160 / 22.5)
        assert xs[0] - xs[4] == pytest.approx(5460 / 22.5)
    assert "44.0 for 42.0 mm" in scene.says


def test_outline_is_at_scale() -> None:
    scene = elevation(DESIGN, work(DESIGN))
    model = [one for one in scene.still if isinstance(one, Path) and one.pen == "outline"]
    top = max(one.points[:, 1].max() for one in model)
    assert top == pytest.approx(3450 / 22.5)
    reach = np.concatenate([one.points for one in model])[:, 0]
    assert np.ptp(reach) == pytest.approx(8400 / 22.5)
    texts = [one.text for one in scene.still if isinstance(one, Dimension)]
    assert "373.3 mm" in texts
    assert "153.3 mm" in texts


def test_sizes_kept_apart_from_scale_are_drawn_so() -> None:
    design = replace(DESIGN, as_built=AsBuilt(height=140.0, boiler_diameter=54.0))
    scene = elevation(design, work(design))
    by_pen = {
        pen: max(p.points[:, 1].max() for p in scene.still if isinstance(p, Path) and p.pen == pen)
        for pen in ("outline", "behind")
    }
    assert by_pen["behind"] == pytest.approx(3450 / 22.5)
    assert by_pen["outline"] == pytest.approx(3350 / 22.5)  # now the cab roof is highest


def test_unknown_stays_out() -> None:
    bare = Scale(prototype=Prototype(gauge=600), ratio=19.05, track_gauge=32)
    scene = elevation(bare, work(bare))
    assert len(scene.still) == 1  # the rail
    some = replace(bare, prototype=Prototype(gauge=600, length=4000))
    scene = elevation(some, work(some))
    assert not [one for one in scene.still if isinstance(one, Circle)]
    for design in (bare, some):
        for picture in pictures(design, work(design)):
            figure(picture)


def test_tables_and_chart() -> None:
    fixed = frozenset({"wheels.driving_diameter"})
    result = work(DESIGN, driving_diameter=42.0, fixed=fixed)
    made = pictures(DESIGN, result)
    assert [type(one) for one in made] == [Scene, Table, Table, Table, Chart]
    sizes, pairs, bought, speeds = made[1:]
    assert isinstance(sizes, Table)
    assert len(sizes.rows) == len(result.sizes)
    wheel = next(row for row in sizes.rows if row[0] == "Driving wheel diameter")
    assert wheel[1] == 945
    assert wheel[2] == "42.00"
    assert wheel[4] == "1 21/32 (+2.7 thou)"  # 1.65354 in, and 1.65625
    assert isinstance(pairs, Table)
    assert pairs.rows[0][0] == "this design"
    assert isinstance(bought, Table)
    assert bought.rows[0][3] == "1:22.5"
    assert isinstance(speeds, Chart)
    assert speeds.curves[0].y[-1] == pytest.approx(2.0)
    assert speeds.curves[1].y[-1] == pytest.approx(45 / 22.5**0.5)
    for picture in made:
        figure(picture)


def test_fractions_are_written_as_builders_write_them() -> None:
    by = {one.label: one for one in work(DESIGN).sizes}
    assert fraction_words(by["Driving wheel diameter"]) == "1 21/32"
    assert fraction_words(by["Track gauge"]) == "1 3/4"


def test_leading_wheels_stand_before_the_coupled_ones() -> None:
    mogul = replace(TANK, arrangement="2-6-0", total_wheelbase=3960, outline=replace(
        OUTLINE, leading_gap=None))  # fmt: skip
    design = replace(DESIGN, prototype=mogul)
    xs = [one.centre[0] for one in wheels(elevation(design, work(design)), "outline")]
    assert xs[0] == pytest.approx(-1450 / 22.5)
    assert xs[0] - xs[1] == pytest.approx((3960 - 2160) / 22.5)
    assert xs[0] - xs[-1] == pytest.approx(3960 / 22.5)
    bogie = replace(mogul, arrangement="4-4-0", outline=replace(OUTLINE, leading_gap=900))
    design = replace(DESIGN, prototype=bogie)
    xs = [one.centre[0] for one in wheels(elevation(design, work(design)), "outline")]
    assert len(xs) == 4
    assert xs[1] - xs[2] == pytest.approx(900 / 22.5)
