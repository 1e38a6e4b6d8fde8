"""The manifold's pictures and drawings."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from ezdxf import recover
from shapely.geometry import Polygon

from tests.drawings_for_tests import does_not_go_in_the_block, figures_over_figures, worked
from weighshaft.pictures import fitting_manifold
from weighshaft.pictures.drawings.manifold import manifold_drawings
from weighshaft.pictures.dxf import write
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Dimension
from weighshaft.pictures.scene import Path as Line
from weighshaft.workshop.fitting import Fitting, work
from weighshaft.workshop.fitting.decisions import IN_ONE, SCREWED_IN, Branch, Manifold
from weighshaft.workshop.machines import Machines

MICRON = 1e-3
BRANCHES = (
    Branch(name="straight on", lean=0.0), Branch(name="aslant", along=14.0, lean=45.0),
    Branch(name="up", along=25.0, clocking=10.0, fixing=SCREWED_IN),
    Branch(name="at the eye", along=25.0, clocking=90.0, fixing=IN_ONE, short=40.0),
)  # fmt: skip


@pytest.mark.parametrize("branches", [(), BRANCHES[:1], BRANCHES])
def test_every_picture_can_be_drawn(branches: tuple[Branch, ...]) -> None:
    fitting = Fitting(manifold=Manifold(branches=branches))
    result = work(fitting, machines=Machines())
    for scene in (fitting_manifold.side(result), fitting_manifold.end(result)):
        assert len(scene.says) > 30
        for one in scene.still:
            if isinstance(one, Line):
                assert np.isfinite(one.points).all()
                if one.closed:
                    assert Polygon(one.points).is_valid, one.part
        figure(scene)
    for table in (fitting_manifold.branches(result), fitting_manifold.rooms(result)):
        assert table.rows
        assert all(len(row) == len(table.columns) for row in table.rows)


def test_a_branch_seen_square_is_as_long_and_thick_as_it_is() -> None:
    fitting = Fitting(manifold=Manifold(branches=BRANCHES[2:3]))
    result = work(fitting, machines=Machines())
    (stub,) = result.manifold.stubs
    scene = fitting_manifold.end(result)
    outline = next(one for one in scene.still if isinstance(one, Line) and one.part == "branch 1")
    area = Polygon(outline.points).area
    assert area == pytest.approx(stub.thread.major * (stub.long - stub.emerges), rel=1e-6)


def test_manifold_and_branches_measured_back(tmp_path: Path) -> None:
    design, done = worked("hartfell")
    drawings = manifold_drawings(design, done)
    assert [one.key for one in drawings][:2] == ["manifold", "manifold-branch"]
    made = done.fitting.manifold
    for drawing in drawings:
        assert not figures_over_figures(drawing, "mm"), drawing.key
        assert not does_not_go_in_the_block(drawing, "mm"), drawing.key
        file = tmp_path / f"{drawing.key}.dxf"
        write(drawing, file)
        document, audit = recover.readfile(file)
        assert not audit.errors
        spans = [
            math.dist(one.start, one.end)
            for one in drawing.views_at(1.0)[0].drawn if isinstance(one, Dimension)
        ]  # fmt: skip
        points = [
            point[:2] for one in document.modelspace().query("LWPOLYLINE") if one.closed
            for point in one.get_points()
        ]  # fmt: skip
        long = made.over_all
        if drawing.key != "manifold":
            number = int(drawing.notes[0].split()[0])
            long = next(one.over_all for one in made.stubs if one.number == number)
        xs = [x for x, _ in points]
        assert any(abs(one - long) < MICRON for one in spans), drawing.key
        found = any(abs(b - a - long) < MICRON for a in xs for b in xs)
        assert found, drawing.key
    sizes = {one.start for one in made.stubs}
    spans = [
        math.dist(one.start, one.end)
        for one in drawings[0].views_at(1.0)[0].drawn if isinstance(one, Dimension)
    ]  # fmt: skip
    for size in (*sizes, made.drilled, made.body, made.bore):
        assert any(abs(one - size) < MICRON for one in spans), size


def test_none_is_drawn_unless_it_is_made() -> None:
    assert not manifold_drawings(*worked("rowan"))
