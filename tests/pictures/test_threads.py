"""The pictures of threads and fittings."""

from typing import Any

import numpy as np
import pytest

from weighshaft.pictures.scene import Label, Path, Scene, Table
from weighshaft.pictures.threads import pictures, section
from weighshaft.threads import Connector, Threads, ThreadsResult, work

GIVEN: dict[str, Any] = {
    "pressure": 4.0,
    "bore": 16.0,
    "piston_rod": 4.0,
    "piston_load": 80.0,
    "valve_spindle_load": 12.0,
    "nozzle_diameter": 3.0,
    "scale_ratio": 22.5,
}
CHOSEN = ["8BA", "1/4 × 40", "M3", "1/4-20 UNC", "G 1/8", "16BA"]


def _worked(threads: Threads) -> ThreadsResult:
    return work(threads, **GIVEN)


@pytest.mark.parametrize("chosen", CHOSEN)
@pytest.mark.parametrize(
    "connector",
    [
        Connector(),
        Connector(distance=30.0),
        Connector(distance=30.0, length=31.0, start=100.0),
        Connector(thread_b="5/16x32", distance=30.0, length=29.0, start=10.0),
    ],
)
def test_pictures_are_whole(chosen: str, connector: Connector) -> None:
    decisions = Threads(chosen=chosen, connector=connector)
    made = pictures(decisions, _worked(decisions))
    assert isinstance(made[0], Scene)
    assert isinstance(made[1], Scene)
    assert all(isinstance(one, Table) for one in made[2:])
    for picture in made:
        if isinstance(picture, Scene):
            assert picture.says.endswith(".")
            for one in picture.still:
                if isinstance(one, Path):
                    assert np.isfinite(one.points).all()
        elif isinstance(picture, Table):
            assert picture.rows
            assert all(len(row) == len(picture.columns) for row in picture.rows)


@pytest.mark.parametrize("chosen", CHOSEN)
def test_male_and_female_do_not_cut_each_other(chosen: str) -> None:
    decisions = Threads(chosen=chosen)
    made = section(decisions, _worked(decisions))
    parts = {one.part: one for one in made.still if isinstance(one, Path) and one.part}
    male, female = (parts[name].points[:-2] for name in ("male", "female"))
    assert (male[:, 0] == female[:, 0]).all()
    assert (female[:, 1] >= male[:, 1]).all()
    assert female[:, 1].min() == pytest.approx(_worked(decisions).bench.drill.diameter / 2)  # type: ignore[union-attr]


def test_labels_do_not_lie_on_each_other() -> None:
    decisions = Threads(chosen="M3")
    made = section(decisions, _worked(decisions))
    heights = sorted(one.at[1] for one in made.still if isinstance(one, Label) and one.leader)
    assert len(heights) == 4
    assert min(np.diff(heights)) > 0.1


def test_the_misfit_is_said_with_its_figure() -> None:
    decisions = Threads(connector=Connector(distance=40.0, length=40.0, start=90.0))
    made = pictures(decisions, _worked(decisions))[1]
    assert "0.159 mm" in made.says
    unknown = pictures(Threads(), _worked(Threads()))[1]
    assert "half a pitch, 0.318 mm (12.5 thou)" in unknown.says


def test_says_follows_the_depth() -> None:
    shallow, deep = Threads(chosen="M6", depth=55.0), Threads(chosen="M6", depth=80.0)
    assert section(shallow, _worked(shallow)).says != section(deep, _worked(deep)).says
