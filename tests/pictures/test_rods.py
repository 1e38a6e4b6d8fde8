"""The chapter's pictures: to scale, in the right place, and in the builder's words."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.rods_for_tests import worked
from weighshaft.pictures.paper import figure
from weighshaft.pictures.rods import coupling_rod, pictures, slide_bars, whip
from weighshaft.pictures.rods_balance import left_chart, weight_table, wheels
from weighshaft.pictures.scene import Chart, Circle, Dimension, Label, Path, Scene, Table
from weighshaft.rods import BalanceWeights, CouplingRods, Rods


@pytest.mark.parametrize("name", ["rowan", "hartfell", "wagtail"])
def test_every_picture_is_finite_says_something_and_can_be_drawn(name: str) -> None:
    decisions = Rods(coupling=CouplingRods(flute=0.3))
    made = pictures(decisions, worked(name, decisions))
    assert len(made) >= 8
    for picture in made:
        if isinstance(picture, Scene):
            assert len(picture.says) > 40
            for one in picture.still:
                if isinstance(one, Path):
                    assert np.isfinite(one.points).all()
                elif isinstance(one, Circle):
                    assert np.isfinite((*one.centre, one.radius)).all()
                elif isinstance(one, Label):
                    assert np.isfinite(one.at).all()
        elif isinstance(picture, Chart):
            assert len(picture.says) > 40
            assert all(np.isfinite(c.x).all() and np.isfinite(c.y).all() for c in picture.curves)
        else:
            assert isinstance(picture, Table)
            assert all(len(row) == len(picture.columns) for row in picture.rows)
        if name == "hartfell":
            figure(picture)


def test_coupling_rod_is_to_scale() -> None:
    result = worked("dunnock")
    scene = coupling_rod(result)
    eyes = [one for one in scene.still if isinstance(one, Circle) and one.part == "eye"]
    at = sorted(one.centre[0] for one in eyes)
    assert np.diff(at) == pytest.approx([241.3, 177.8])
    assert all(2 * one.radius == pytest.approx(22.225) for one in eyes)
    texts = {one.text for one in scene.still if isinstance(one, Dimension)}
    assert {"177.80", "241.30", "20.00"} <= texts


def test_weights_stand_opposite_the_cranks_on_both_sides() -> None:
    decisions = Rods(balance=BalanceWeights(thickness=30.0, material="lead"))
    result = worked("rowan", decisions)
    scene = wheels(decisions, result)
    weights = [one.points for one in scene.still if isinstance(one, Path) and one.part == "weight"]
    cranks = [one.points for one in scene.still if isinstance(one, Path) and one.part == "crank"]
    assert len(weights) == len(cranks) == 6
    for wheel, ring, crank in zip(result.wheels, weights, cranks, strict=True):
        centre, pin = crank
        assert math.dist(centre, pin) == pytest.approx(10.0)
        middle = (ring[16] - centre) @ (pin - centre) / math.dist(ring[16], centre) / 10.0
        assert middle == pytest.approx(-math.cos(math.radians(wheel.angle)), abs=1e-6)
        # running forward what is opposite the crank goes up, on either side seen from outside
        assert ((ring[16] - centre)[1] > 0) == (wheel.angle > 0)
    named = [one.text for one in scene.still if isinstance(one, Label)]
    assert f"driving, right: {result.wheels[2].mass:.0f} g" in named
    table = weight_table(decisions, result)
    assert table.rows[2][7] == f"{result.wheels[2].mass:.1f} g"


def test_charts_pass_through_the_figures() -> None:
    result = worked("hartfell")
    whipped = whip(result).curves[0]
    worst = max(one.whip_top for one in result.spans)
    assert np.interp(result.top_speed, whipped.x, whipped.y) == pytest.approx(worst, rel=1e-3)
    blow, along = left_chart(result).curves
    assert np.interp(result.top_speed, blow.x, blow.y) == pytest.approx(result.blow_top, rel=1e-3)
    assert np.interp(result.top_speed, along.x, along.y) == pytest.approx(
        result.shake_top, rel=1e-3
    )
    bars = slide_bars(result)
    assert bars.curves[-1].y.max() == pytest.approx(result.bar_force)
    assert f"{result.bar_force:.1f} N" in bars.says
