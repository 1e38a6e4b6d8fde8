"""The three views of every sample: whole, finite, and the right way round."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.designs import SAMPLES
from weighshaft import job, places
from weighshaft.design.file import read
from weighshaft.frames import Bar, Round, disc
from weighshaft.frames.decisions import Shown
from weighshaft.pictures.frames import elevation, pictures, plan, section
from weighshaft.pictures.frames_shapes import cut, from_side, spans
from weighshaft.pictures.scene import Circle, Scene, Table
from weighshaft.pictures.scene import Path as Line


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.name)
def test_every_view_of_every_sample_is_whole(sample: Path) -> None:
    design = read(sample)
    made = pictures(design.frames, job.work(design).frames)
    assert isinstance(made[-1], Table)
    assert len(made[-1].rows) >= 30
    for picture in made[:-1]:
        assert isinstance(picture, Scene)
        assert picture.says
        for one in picture.still:
            if isinstance(one, Line):
                assert np.isfinite(one.points).all()
        for moving in picture.moving:
            assert moving.points.shape[0] == len(picture.angles)
            assert np.isfinite(moving.points).all()


def test_the_plan_lies_as_seen_from_above() -> None:
    """With the front to the right the right-hand side is below: its crank leads by a quarter."""
    design = read(places.samples() / "rowan.loco.json")
    result = job.work(design).frames
    view = plan(design.frames, result)
    rods = [one for one in view.moving if one.part == "connecting rods"]
    right = [one for one in rods if one.points[..., 1].max() < 0]
    left = [one for one in rods if one.points[..., 1].min() > 0]
    assert right
    assert left
    # the right-hand crank is on front dead centre in the first frame
    first = max(one.points[0, :, 0].max() for one in right)
    assert first == pytest.approx(max(one.points[..., 0].max() for one in right), abs=0.01)


def test_axles_go_up_and_steer_as_asked() -> None:
    design = read(places.samples() / "rowan.loco.json")
    result = job.work(design).frames
    up = elevation(replace(design.frames, shown=Shown(axle_up=1.0)), result)
    flat = elevation(design.frames, result)

    def heights(view: Scene) -> dict[str, float]:
        return {
            one.part: one.centre[1]
            for one in view.still
            if isinstance(one, Circle) and one.part.endswith("axle")
        }

    rise = result.whole.rise
    assert rise > 0
    moved = {name: y - heights(flat)[name] for name, y in heights(up).items()}
    assert moved["driving axle"] == pytest.approx(rise)
    assert moved["leading coupled axle"] == pytest.approx(-rise)
    curved = plan(replace(design.frames, shown=Shown(on_curve=True)), result)
    truck = next(one for one in result.whole.axles if one.kind == "leading")
    middles = [
        one.points[:, 1].mean()
        for one in curved.still
        if isinstance(one, Line) and one.part == f"{truck.name} axle"
    ]
    assert truck.shift != 0
    assert middles == pytest.approx([-truck.shift])


def test_cuts_of_plain_bodies() -> None:
    assert cut(disc((0.0, 0.0), 5.0, 1.0, 2.0), 3.0) == pytest.approx((1.0, 2.0, -4.0, 4.0))
    assert cut(disc((0.0, 0.0), 5.0, 1.0, 2.0), 5.1) is None
    lying = Round((0.0, 10.0, 0.0), 20.0, 4.0)
    assert cut(lying, 7.0) == pytest.approx((-4.0, 4.0, 6.0, 14.0))
    upright = Round((0.0, 10.0, 0.0), 20.0, 4.0, 90.0)
    assert cut(upright, 0.0) == pytest.approx((-4.0, 4.0, 10.0, 30.0))
    bar = Bar((0.0, 0.0), (10.0, 0.0), 1.0, 0.0, 1.0)
    outline = from_side(bar)
    assert outline[:, 0].min() == pytest.approx(-1.0)
    assert outline[:, 0].max() == pytest.approx(11.0)


def test_a_cut_through_a_horn_gap_leaves_the_plate_over_it() -> None:
    result = job.work(read(places.samples() / "rowan.loco.json")).frames
    (plate,) = result.whole.part("frame plates").solids
    assert spans(plate, 0.0) == [pytest.approx((result.whole.rise + 6.3, plate.outline[0][1]))]
    assert len(spans(plate, 24.0)) == 1
    view = section(result.whole, "At the driving axle", 0.0)
    assert any(isinstance(one, Circle) and one.part == "boiler" for one in view.still)
