"""The chapter's pictures: to scale, and they say what the result says."""

from __future__ import annotations

import numpy as np
import pytest

from tests.weights_for_tests import BODY, MOGUL, SIX, TANK, cube, engine, plain, worked
from weighshaft.frames import Part, Whole, block
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Circle, Path, Scene, Table
from weighshaft.pictures.weights import by_group, by_part, pictures, standing, used_up
from weighshaft.weights import Ballast, Weighed, Weights

WATER = Part(
    "tank water", "water", "frames", (), "water",
    (block(-40.0, 20.0, 20.0, 40.0, -20.0, 20.0),),
)  # fmt: skip
ALL = plain(
    ballast=(Ballast(mass=0.5, ahead=-40.0, above=-5.0),),
    weighed=(Weighed(name="gas tank", mass=0.2, ahead=-70.0, above=20.0),),
)


def test_the_side_view_marks_the_centre_and_the_loads() -> None:
    result = worked(engine(MOGUL, [BODY, WATER]), ALL)
    scene = standing(ALL, result)
    centres = [one.centre for one in scene.still if isinstance(one, Circle)]
    assert (result.states[1].ahead, result.states[1].above) in centres
    tips = [
        one.points for one in scene.still
        if isinstance(one, Path) and one.pen == "outline" and len(one.points) == 2
        and one.points[0, 0] == one.points[1, 0]
    ]  # fmt: skip
    assert [one[1].tolist() for one in tips] == [[axle.ahead, -20.0] for axle in MOGUL]
    lengths = np.array([one[1, 1] - one[0, 1] for one in tips])
    assert lengths / lengths.max() == pytest.approx(
        np.array(result.axle_loads) / max((*result.axle_loads, *result.pulling_loads))
        / (lengths.max() / (0.22 * 310.0)), rel=1e-6,
    )  # fmt: skip
    assert any(isinstance(one, Path) and one.part == "ballast" for one in scene.still)
    assert f"{result.centre_height:.1f} mm above the rail" in scene.says


def test_the_chart_begins_full_and_ends_run_down() -> None:
    result = worked(engine(MOGUL, [BODY, WATER]), ALL)
    chart = used_up(result)
    assert [curve.label for curve in chart.curves] == [one.name for one in MOGUL]
    assert [curve.y[0] for curve in chart.curves] == pytest.approx(result.axle_loads)
    assert [curve.y[-1] for curve in chart.curves] == pytest.approx(result.low_loads)
    assert chart.bands[0].label == "from the tanks"


def test_the_tables_add_up() -> None:
    result = worked(engine(SIX, [BODY, WATER]), ALL)
    parts = by_part(result)
    total = sum(float(str(row[1])) for row in parts.rows)
    assert total == pytest.approx(result.working, abs=0.0005 * len(parts.rows))
    assert {row[0]: row[2] for row in parts.rows}["gas tank"] == "weighed"
    groups = {str(row[0]): float(str(row[1])) for row in by_group(result).rows}
    whole = groups.pop("In working order")
    del groups["Bare"]
    assert sum(groups.values()) == pytest.approx(whole, abs=0.0005 * (len(groups) + 1))


@pytest.mark.parametrize(
    ("whole", "weights"),
    [
        (engine(TANK, [BODY, WATER]), ALL),
        (engine(SIX, [BODY]), plain(pull=0.0)),
        (engine(SIX, [cube("body", 4.0, 95.0, 40.0)]), plain()),
    ],
)
def test_every_picture_is_drawn(whole: Whole, weights: Weights) -> None:
    made = pictures(weights, worked(whole, weights))
    assert [type(one) for one in made] == [Scene, Chart, Chart, Table, Table, Table]
    for picture in made:
        figure(picture)
        if not isinstance(picture, Table):
            assert picture.says
