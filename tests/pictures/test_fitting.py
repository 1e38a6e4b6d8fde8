"""The chapter's pictures: sections to scale that carry the sizes they are made from."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import Polygon

from weighshaft.pictures.fitting import gland, o_ring, pictures
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Path, Scene, Table
from weighshaft.threads.decisions import Connector
from weighshaft.workshop.fitting import Fitting, work
from weighshaft.workshop.fitting.decisions import IN_PISTON, Pipe, RubberRing
from weighshaft.workshop.machines import Machines


@pytest.mark.parametrize(
    ("fitting", "connector"),
    [
        (Fitting(), None),
        (
            Fitting(pipe=Pipe(washer=0.5), o_ring=RubberRing(place=IN_PISTON, section="2.62")),
            Connector(distance=40.2, length=40.0, start=100.0),
        ),
    ],
)
def test_every_picture_can_be_drawn(fitting: Fitting, connector: Connector | None) -> None:
    result = work(fitting, machines=Machines(), connector=connector)
    made = pictures(fitting, result)
    for picture in made:
        if isinstance(picture, Table):
            assert all(len(row) == len(picture.columns) for row in picture.rows)
            assert picture.rows
        else:
            assert len(picture.says) > 40
        if isinstance(picture, Scene):
            for one in picture.still:
                if isinstance(one, Path):
                    assert np.isfinite(one.points).all()
        elif isinstance(picture, Chart):
            assert all(np.isfinite(c.y).all() for c in picture.curves)
    if connector:
        for picture in made[:1] + made[6:8]:
            figure(picture)


def test_squeezed_ring_keeps_its_area_in_the_groove() -> None:
    fitting = Fitting(o_ring=RubberRing(on=8.0))
    result = work(fitting, machines=Machines())
    (ring,) = (
        one for one in o_ring(fitting, result).still
        if isinstance(one, Path) and one.part == "O-ring"
    )  # fmt: skip
    area = np.pi / 4 * result.sealed.section**2
    assert Polygon(ring.points).area == pytest.approx(area, rel=0.01)
    assert np.ptp(ring.points[:, 1]) == pytest.approx(result.sealed.depth)
    assert np.ptp(ring.points[:, 0]) < result.sealed.width


def test_packing_lies_between_rod_and_box() -> None:
    result = work(Fitting(), machines=Machines())
    packing = [
        one for one in gland(result).still if isinstance(one, Path) and one.part == "packing"
    ]
    assert len(packing) == 2 * result.stuffed.rings
    highest = max(np.abs(one.points[:, 1]).max() for one in packing)
    lowest = min(np.abs(one.points[:, 1]).min() for one in packing)
    assert (2 * lowest, 2 * highest) == pytest.approx((result.stuffed.rod, result.stuffed.box))
