"""The chapter's pictures: wheels in mesh, cuts in the metal, tables that can be drawn."""

from __future__ import annotations

import math

import numpy as np
import pytest

from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Circle, Path, Scene, Table
from weighshaft.pictures.screwcutting import pictures, studs, thread_cuts, train
from weighshaft.workshop.machines import Lathe, Machines
from weighshaft.workshop.screwcutting import Screwcutting, ScrewcuttingResult, work
from weighshaft.workshop.screwcutting.decisions import INSIDE, ChangeWheels, InFeed


def worked(decided: Screwcutting, lathe: Lathe | None = None) -> ScrewcuttingResult:
    return work(decided, machines=Machines(lathe=lathe or Lathe()))


@pytest.mark.parametrize(
    "decided",
    [
        Screwcutting(),
        Screwcutting(thread="M6", divisions=127, wheels=ChangeWheels(pairs=3, left_hand=True)),
        Screwcutting(thread="2BA", infeed=InFeed(where=INSIDE)),
        Screwcutting(thread="M6", divisions=59, wheels=ChangeWheels(starts=4)),
    ],
)
def test_every_picture_can_be_drawn(decided: Screwcutting) -> None:
    made = pictures(decided, worked(decided))
    for picture in made:
        if isinstance(picture, Table):
            assert all(len(row) == len(picture.columns) for row in picture.rows)
        else:
            assert len(picture.says) > 30
    if decided.thread == "M6":
        for picture in made[:3]:
            figure(picture)


def test_a_lathe_without_a_train_draws_none() -> None:
    decided = Screwcutting()
    result = worked(decided, Lathe(change_wheels=(20, 30), train_centres=500.0))
    assert "No train" in train(result).says
    assert pictures(decided, result)


@pytest.mark.parametrize("pairs", [1, 2, 3])
def test_wheels_in_mesh_touch_at_their_pitch_circles(pairs: int) -> None:
    decided = Screwcutting(pitch=0.73, wheels=ChangeWheels(pairs=pairs))
    result = worked(decided)
    places, wheels = studs(result)
    best = result.trains.best[0]
    meshing = (
        [(wheels[0], wheels[1]), (wheels[1], wheels[2])]
        if len(best.pairs) == 1
        else [(wheels[2 * n], wheels[2 * n + 1]) for n in range(len(best.pairs))]
    )
    for (a, one), (b, other) in meshing:
        apart = math.dist(places[a], places[b])
        assert apart == pytest.approx(result.wheel_module * (one + other) / 2)


def test_tool_ends_in_the_groove() -> None:
    decided = Screwcutting(thread="M6")
    result = worked(decided)
    scene = thread_cuts(decided, result)
    assert isinstance(scene, Scene)
    tools = [one for one in scene.still if isinstance(one, Path) and one.part == "tool"]
    lows = [one.points[:, 1].min() for one in tools]
    assert min(lows) == pytest.approx(-result.depth)
    # the leading flank stands still while the slide, set over, brings the tool down it
    right = [
        np.interp(-0.3 * result.depth, one.points[-2:, 1], one.points[-2:, 0]) for one in tools[3:]
    ]
    assert np.ptp(right) < 0.02
    plates = [one for one in pictures(decided, result) if one.title == "The dividing plate"]
    holes = [
        one for one in plates[0].still  # type: ignore[union-attr]
        if isinstance(one, Circle) and one.fill == "paper" and one.part == ""
    ]  # fmt: skip
    assert len(holes) == result.indexed.circles[0].circle
