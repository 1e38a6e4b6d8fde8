"""The chapter's pictures: to scale, in the right place, and in the builder's words."""

import math

import numpy as np
import pytest

from tests.reversing_for_tests import worked
from weighshaft.pictures.paper import figure
from weighshaft.pictures.reversing import (
    cutoff_chart,
    elevation,
    notch_table,
    notched,
    pictures,
)
from weighshaft.pictures.reversing_sides import both_sides, side_table, spread
from weighshaft.pictures.scene import Arc, Chart, Circle, Label, Path, Scene, Table
from weighshaft.reversing import Lever, Linkage, Reversing, Screw, Servo

EVERY = [
    ("hartfell", Lever()), ("dunnock", Screw()), ("rowan", Servo()), ("merrow", Lever()),
    ("Joy", Lever()), ("Baker", Screw()), ("tansy", Lever()),
]  # fmt: skip


def paths(scene: Scene, part: str) -> list[np.ndarray]:
    return [one.points for one in scene.still if isinstance(one, Path) and one.part == part]


@pytest.mark.parametrize(("name", "by"), EVERY)
def test_every_picture_is_finite_says_something_and_can_be_drawn(name, by) -> None:
    decisions = Reversing(worked_by=by, cutoffs=(95.0, 60.0, 30.0))
    made = pictures(decisions, worked(name, decisions))
    assert made
    for picture in made:
        if isinstance(picture, Scene):
            assert len(picture.says) > 40
            for one in picture.still:
                if isinstance(one, Path):
                    assert np.isfinite(one.points).all()
                elif isinstance(one, Circle | Arc):
                    assert np.isfinite((*one.centre, one.radius)).all()
                elif isinstance(one, Label):
                    assert np.isfinite(one.at).all()
        elif isinstance(picture, Chart):
            assert all(np.isfinite(c.x).all() and np.isfinite(c.y).all() for c in picture.curves)
        else:
            assert isinstance(picture, Table)
            assert all(len(row) == len(picture.columns) for row in picture.rows)
        figure(picture)


def test_elevation_is_to_scale_and_every_rod_as_long_as_it_is() -> None:
    decisions = Reversing()
    result = worked("hartfell", decisions)
    scene = elevation(decisions, result)
    rods = paths(scene, "reach rod")
    assert len(rods) == 3
    for rod in rods:
        assert math.dist(*rod) == pytest.approx(result.reach_rod)
    for lever in paths(scene, "lever"):
        assert math.dist(*lever) == pytest.approx(result.layout.handle)
    assert len(paths(scene, "lifting arm")) == result.notches_cut
    assert f"{result.reach_rod:.2f} mm between centres" in scene.says


def test_quadrant_has_its_notches_where_the_table_says() -> None:
    decisions = Reversing(worked_by=Lever(quadrant_radius=60.0, latch=1.5))
    result = worked("hartfell", decisions)
    scene = notched(decisions, result)
    gashes = paths(scene, "notch")
    assert len(gashes) == 9
    for gash, one in zip(gashes, result.notches, strict=True):
        assert math.dist(gash[0], gash[3]) == pytest.approx(1.5)
        middle = (gash[0] + gash[3]) / 2
        assert math.degrees(math.atan2(*middle)) == pytest.approx(one.lean)
    # dividers from the mid-gear notch
    mid = (gashes[4][0] + gashes[4][3]) / 2
    first = (gashes[0][0] + gashes[0][3]) / 2
    assert math.dist(mid, first) == pytest.approx(result.notches[0].chord)


def test_screw_shows_the_nut_at_every_notch() -> None:
    decisions = Reversing(worked_by=Screw())
    result = worked("hartfell", decisions)
    at = [points[0, 0] for points in paths(notched(decisions, result), "nut")]
    assert at == pytest.approx([one.nut for one in result.notches])


def test_table_says_what_is_not_reached_and_holds_no_negative_distance() -> None:
    decisions = Reversing(cutoffs=(95.0, 60.0, 30.0))
    table = notch_table(decisions, worked("hartfell", decisions))
    assert sum(row[2] == "not reached" for row in table.rows) == 2
    assert table.note.count("full gear cuts off at") == 2
    assert all(cell >= 0 for row in table.rows for cell in row if isinstance(cell, float))


def test_chart_passes_through_the_notches() -> None:
    decisions = Reversing()
    result = worked("hartfell", decisions)
    forward, backward = cutoff_chart(decisions, result).curves[:2]
    assert (forward.label, backward.label) == ("forward", "backward")
    for one in result.notches:
        if one.wanted is not None:
            curve = forward if one.direction > 0 else backward
            order = np.argsort(curve.x)
            there = np.interp(one.lean, curve.x[order], curve.y[order])
            assert there == pytest.approx(one.mean, abs=1e-6)


def test_the_left_side_is_the_right_one_in_a_mirror() -> None:
    result = worked("hartfell", crank_angle=0.0)
    scene = both_sides(result)

    def about(middle: float, part: str) -> list[np.ndarray]:
        own = [p for p in paths(scene, part) if abs(p[0, 0] - middle) < 1e-9]
        return [p - np.array([middle, 0.0]) for p in own]

    axles = [one.centre[0] for one in scene.still if isinstance(one, Circle) and one.part == "axle"]
    left, right = sorted(axles)
    for part in ("crank", "forward eccentric", "backward eccentric"):
        (one,), (other,) = about(left, part), about(right, part)
        assert one * [-1, 1] == pytest.approx(other, abs=1e-9)


def test_crank_that_follows_stands_behind_in_the_sense_of_running() -> None:
    table = side_table(worked("dunnock"))
    left = next(row for row in table.rows if row[:2] == ("left", "crank"))
    assert left[5] == "270.00° anticlockwise"
    # by the rule of cosines: 1 1/16 in and 0.442 in with 83 degrees between
    assert "between its pins' centres: 27.94 mm" in table.note


def test_nothing_is_drawn_of_a_linkage_that_does_not_reach() -> None:
    decisions = Reversing(linkage=Linkage(reach_rod=200.0))
    made = pictures(decisions, worked("hartfell", decisions))
    titles = [one.title for one in made]
    assert "Notches" in titles
    assert not any("elevation" in title for title in titles)


def test_labels_are_spread_apart_and_stay_in_order() -> None:
    placed = spread([0.0, 0.1, 0.2, 5.0], 1.0)
    assert placed == sorted(placed)
    assert np.diff(placed).min() == pytest.approx(1.0, abs=1e-3)
    assert placed[3] == pytest.approx(5.0)
