"""The chapter's pictures: what is to be machined and nothing else."""

from __future__ import annotations

import pytest

from weighshaft.pictures.paper import figure
from weighshaft.pictures.patterns import pictures
from weighshaft.pictures.scene import Circle, Scene, Table
from weighshaft.workshop.machines import Machines
from weighshaft.workshop.patterns import Ball, Engine, Patterns, work


@pytest.mark.parametrize(("engine", "number"), [(Engine(), 13), (Engine(ports=None), 8)])
def test_every_picture_can_be_drawn(engine: Engine, number: int) -> None:
    decided = Patterns(ball=Ball(step=1.0))
    made = pictures(decided, work(decided, machines=Machines(), engine=engine))
    assert len(made) == number
    for one in made:
        if isinstance(one, Table):
            assert all(len(row) == len(one.columns) for row in one.rows)
        else:
            assert isinstance(one, Scene)
            assert len(one.says) > 40
        figure(one)


def test_the_holes_are_drawn_where_the_table_has_them() -> None:
    decided = Patterns()
    result = work(decided, machines=Machines())
    scene, table = pictures(decided, result)[:2]
    assert isinstance(scene, Scene)
    assert isinstance(table, Table)
    drawn = [one.centre for one in scene.still if isinstance(one, Circle) and one.part == "hole"]
    assert drawn == [(row[2], row[3]) for row in table.rows]
