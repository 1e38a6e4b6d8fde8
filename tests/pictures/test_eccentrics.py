"""The chapter's pictures: what the engine asks for and nothing else."""

from __future__ import annotations

import math

import pytest

from weighshaft.pictures.eccentrics import pictures
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Circle, Scene, Table
from weighshaft.workshop.eccentrics import Chucking, Eccentrics, Engine, work
from weighshaft.workshop.machines import Machines


@pytest.mark.parametrize("jaw", [None, 4.0])
def test_every_picture_can_be_drawn(jaw: float | None) -> None:
    decided = Eccentrics(chucking=Chucking(jaw=jaw))
    made = pictures(decided, work(decided, machines=Machines()))
    assert len(made) == 8
    for one in made:
        if isinstance(one, Table):
            assert all(len(row) == len(one.columns) for row in one.rows)
        else:
            assert isinstance(one, Scene)
            assert len(one.says) > 40
        figure(one)


def test_the_bar_is_drawn_its_throw_beside_the_centre() -> None:
    decided = Eccentrics()
    result = work(decided, machines=Machines())
    scene = pictures(decided, result)[0]
    assert isinstance(scene, Scene)
    (bar,) = [one for one in scene.still if isinstance(one, Circle)]
    assert math.dist(bar.centre, (0.0, 0.0)) == pytest.approx(result.throw)


def test_an_engine_without_eccentrics_or_cranks_is_shown_the_jig_alone() -> None:
    decided = Eccentrics()
    bare = Engine(throw=None, sheave=None, advances=None, web=None)
    assert len(pictures(decided, work(decided, machines=Machines(), engine=bare))) == 2
