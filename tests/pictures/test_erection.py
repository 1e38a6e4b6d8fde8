"""Pictures of taking apart: the part in blue on its way, and what it meets in red."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from tests.boiler_for_tests import cylinder, engine, part
from weighshaft.erection import Erection, ErectionResult, Screws, work
from weighshaft.frames.solids import block
from weighshaft.pictures.erection import order_table, pictures
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Path, Scene, Table


class Axis:
    rod_length, piston = 62.0, 12.0


def worked(*more: Any) -> ErectionResult:
    axis: Any = Axis()
    return work(
        Erection(), whole=engine(*cylinder(), *more), axis=axis, inclination=0.0,
        screws=Screws(8, 38.0, 5.5, 11.0, 8.0, 7.9, 5.5),
    )  # fmt: skip


def test_what_stands_in_the_way_is_red_and_the_part_blue() -> None:
    stay = part("planted stay", "frames", block(100, 120, -20, -16, -30, 30))
    result = worked(stay)
    scene = pictures(Erection(), result)[0]
    assert isinstance(scene, Scene)
    assert "planted stay" in scene.says
    red = {p.part for p in scene.still if isinstance(p, Path) and p.pen == "stop"}
    assert red == {"planted stay"}
    blue = [p for p in scene.still if isinstance(p, Path) and p.pen == "changed"]
    black = [p for p in scene.still if isinstance(p, Path) and p.pen == "outline"]
    moved = blue[0].points - black[0].points
    one = next(one for one in result.removals if one.what == "leading coupled wheelset")
    assert np.allclose(moved, (0, -one.way.free))


def test_every_picture_can_be_drawn_and_the_order_ticked() -> None:
    result = worked()
    made = pictures(Erection(), result)
    figure(made[0])
    figure(order_table(result))
    for one in made:
        if isinstance(one, Table):
            assert all(len(row) == len(one.columns) for row in one.rows)
    assert {row[0] for row in order_table(result).rows} == {"☐"}
    assert result.piston_needed == pytest.approx(80)
