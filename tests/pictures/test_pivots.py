"""The pictures of the pivots: both gears, true contours, and nothing before there is something."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from tests.motion.gears_for_tests import DIRECT, INSIDE, SLIP
from tests.motion.test_many import ALL
from tests.pivots.problems_for_tests import SUSPENSION, given, only
from weighshaft.motion import solve_motion
from weighshaft.pictures.paper import figure
from weighshaft.pictures.pivots import both_gears, pictures
from weighshaft.pictures.pivots_map import levels, map_charts
from weighshaft.pictures.scene import Chart, Circle, Label, Path, Picture, Scene, Table
from weighshaft.pivots import Pivots, pivot_map, search, work

PIVOTS = only(*SUSPENSION, candidates=600)


@cache
def found():
    return search(PIVOTS, **given(DIRECT))


@cache
def mapped(best: bool):
    gear = found().gear if best else None
    fields = ("suspension_ahead", "suspension_above")
    return pivot_map(PIVOTS, *fields, best=gear, points=21, **given(DIRECT))


def check(several: tuple[Picture, ...], *, on_paper: bool = True) -> None:
    for picture in several:
        if isinstance(picture, Table):
            assert all(len(row) == len(picture.columns) for row in picture.rows)
            cells = [cell for row in picture.rows for cell in row if isinstance(cell, float)]
            assert np.isfinite(cells).all()
            assert "nan" not in str(picture.rows)
        elif isinstance(picture, Chart):
            assert len(picture.says) > 40
            for curve in picture.curves:
                assert len(curve.x) == len(curve.y)
                assert np.isfinite(curve.x).all()
                assert np.isfinite(curve.y).all()
        else:
            assert len(picture.says) > 40
            for one in picture.still:
                if isinstance(one, Path):
                    assert np.isfinite(one.points).all()
        assert not on_paper or figure(picture) is not None


@pytest.mark.parametrize("name", ALL)
def test_pictures_of_every_gear_can_be_drawn_before_and_after_a_search(name: str) -> None:
    gear = ALL[name]
    pivots = Pivots(candidates=200, polish=False, notches=(1.0, -0.7))
    result = work(pivots, **given(gear))
    before = pictures(pivots, result)
    check(before, on_paper=name == "rocker")
    assert isinstance(before[0], Chart)
    assert not any(isinstance(one, Scene) for one in before)
    if result.rooms:
        after = search(pivots, **given(gear))
        check(pictures(pivots, result, after), on_paper=name in ("rocker", "slotted arm"))


def test_cut_offs_are_those_of_both_gears() -> None:
    chart = pictures(PIVOTS, work(PIVOTS, **given(DIRECT)), found())[0]
    assert isinstance(chart, Chart)
    for curve, score in zip(chart.curves, (found().present, found().best), strict=True):
        drawn = dict(zip(curve.x.tolist(), curve.y.tolist(), strict=True))
        for notch, apart in zip(PIVOTS.notches, score.apart, strict=True):
            assert drawn[notch] == pytest.approx(apart, abs=6e-4)
    assert "As it is the cut-offs differ by 9.0 % of the stroke at most" in chart.says


def test_both_gears_stand_where_the_linkage_puts_them() -> None:
    scene = both_gears(work(PIVOTS, **given(DIRECT)), found())
    assert scene is not None
    for gear, pen in ((DIRECT, "behind"), (found().gear, "outline")):
        points = solve_motion(given(gear)["crank"], gear, [60.0], 0.6).points
        (link,) = [
            one for one in scene.still
            if isinstance(one, Path) and one.part == "lifting link" and one.pen == pen
        ]  # fmt: skip
        assert link.points == pytest.approx(np.stack([points["arm"][0], points["suspension"][0]]))
    pins = [one for one in scene.still if isinstance(one, Circle) and one.part == "die"]
    assert {one.pen for one in pins} == {"behind", "outline"}
    assert any(isinstance(one, Label) and "suspension" in one.text for one in scene.still)
    moved = len(found().moved)
    assert f"{moved} size{'s' if moved > 1 else ''} moved" in scene.says


def test_score_table_adds_up() -> None:
    result = work(PIVOTS, **given(DIRECT))
    (table,) = [
        one for one in pictures(PIVOTS, result, found())
        if isinstance(one, Table) and one.title.startswith("Score")
    ]  # fmt: skip
    for column, total in ((3, found().present.total), (5, found().best.total)):
        faults = [float(row[column]) for row in table.rows[:-1]]
        assert np.sqrt(np.square(faults).sum()) == pytest.approx(total, abs=0.02)
        assert table.rows[-1][column] == f"{total:.2f}"


def test_contours_run_where_the_map_has_their_level() -> None:
    """Each drawn contour against bilinear interpolation of the map's own values."""
    made = mapped(False)
    for chart, values in zip(map_charts(made), (made.score, made.apart), strict=True):
        drawn = 0
        for curve in chart.curves:
            if curve.pen != "thin" or not curve.label:
                continue
            level = float(curve.label.removesuffix(" %"))
            j = np.clip(np.searchsorted(made.xs, curve.x) - 1, 0, len(made.xs) - 2)
            i = np.clip(np.searchsorted(made.ys, curve.y) - 1, 0, len(made.ys) - 2)
            u = (curve.x - made.xs[j]) / (made.xs[j + 1] - made.xs[j])
            v = (curve.y - made.ys[i]) / (made.ys[i + 1] - made.ys[i])
            at = (
                (1 - v) * ((1 - u) * values[i, j] + u * values[i, j + 1])
                + v * ((1 - u) * values[i + 1, j] + u * values[i + 1, j + 1])
            )  # fmt: skip
            assert at == pytest.approx(level, abs=0.02 * np.ptp(values))
            drawn += 1
        assert drawn >= 3


def test_map_marks_both_gears_and_the_error_of_the_workshop() -> None:
    made = mapped(True)
    chart = map_charts(made)[0]
    by_label = {curve.label: curve for curve in chart.curves}
    for label, place in (("as it is", made.present), ("best", made.best)):
        assert (by_label[label].x.mean(), by_label[label].y.mean()) == pytest.approx(
            place, abs=0.05
        )
    boxes = [one for one in chart.curves if len(one.x) == 5 and one.pen in ("behind", "changed")]
    boxes = [one for one in boxes if not one.label]
    sides = [(np.ptp(one.x), np.ptp(one.y)) for one in boxes]
    assert sides == [pytest.approx((0.2, 0.2))] * 2
    assert "0.1 mm either way across" in chart.says
    assert f"the best one has {found().best.total:.1f}"[:-1] in chart.says
    check(tuple(map_charts(made)))


def test_a_map_on_which_much_locks_is_drawn_without_it() -> None:
    pivots = only("lifting link", "lifting arm", reach=44.0)
    made = pivot_map(pivots, "lifting_link", "lifting_arm", points=15, **given(DIRECT))
    assert made is not None
    check(tuple(map_charts(made)))
    blank, broken = np.full_like(made.score, np.nan), np.full_like(made.score, 9.0)
    nothing = replace(made, score=blank, apart=blank, passed=broken)
    (chart, _) = map_charts(nothing)
    assert "every gear here locks" in chart.says
    check((chart,))


def test_levels_are_round_and_within() -> None:
    values = np.linspace(1.23, 9.7, 200)
    made = levels(values)
    assert made == [2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0]
    assert levels(np.full(5, 2.0)) == []


def test_what_follows_and_what_stays_is_told() -> None:
    pivots = Pivots(candidates=300, polish=False)
    gone = search(pivots, **given(INSIDE))
    (table,) = [
        one for one in pictures(pivots, work(pivots, **given(INSIDE)), gone)
        if isinstance(one, Table) and one.title == "What is moved"
    ]  # fmt: skip
    told = {row[0]: row[-1] for row in table.rows}
    assert told["Eccentric rod"] == "follows"
    assert table.note == gone.worth.says
    stays = [row for row in table.rows if row[2] == "stays"]
    assert len(stays) == len(gone.problem.rooms) - sum(not one.follows for one in gone.moved)


def test_a_slip_eccentric_has_its_two_directions() -> None:
    chart = pictures(Pivots(), work(Pivots(), **given(SLIP)))[0]
    assert isinstance(chart, Chart)
    assert chart.curves[0].x.tolist() == [-1.0, 1.0]
