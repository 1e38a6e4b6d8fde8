"""The chapter's pictures: finite, to scale, and with the figures of the result."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import Polygon

from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Scene, Table
from weighshaft.pictures.slots import coordinates, pictures, slot_outline
from weighshaft.workshop.machines import Machines
from weighshaft.workshop.slots import Slots, work
from weighshaft.workshop.slots.decisions import DATUMS


@pytest.mark.parametrize("datum", DATUMS)
@pytest.mark.parametrize("cutter", [None, 2.0])
def test_every_picture_can_be_drawn(datum: str, cutter: float | None) -> None:
    slots = Slots(radius=32.5, length=16.0, width=3.0, cutter=cutter, datum=datum, step=1.0)
    made = pictures(slots, work(slots, machines=Machines()))
    assert len(made) == (8 if cutter is None else 9)
    for one in made:
        if isinstance(one, Scene):
            assert len(one.says) > 40
        else:
            assert isinstance(one, Table)
            assert one.fine
            assert all(len(row) == len(one.columns) for row in one.rows)
            assert all(math.isfinite(c) for row in one.rows for c in row if isinstance(c, float))
        if datum == DATUMS[0]:
            figure(one)


def test_the_outline_of_the_slot_has_the_area_of_a_band_with_round_ends() -> None:
    made = work(Slots(radius=32.5, length=16.0, width=3.0), machines=Machines())
    outline = slot_outline(made, 3.0)
    assert np.isfinite(outline).all()
    area = 16.0 * 3.0 + math.pi * 1.5**2
    assert Polygon(outline).is_valid
    assert Polygon(outline).area == pytest.approx(area, rel=2e-3)


def test_a_table_of_places_has_them_all() -> None:
    made = work(Slots(radius=32.5, length=16.0, width=3.0), machines=Machines())
    table = coordinates(made, made.paths[0])
    assert [row[1] for row in table.rows] == [one.x for one in made.paths[0].places]
