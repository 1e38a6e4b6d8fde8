"""The chapter's pictures: to scale, with the figures of the result, and drawable."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.draught_for_tests import COAL, GAS, SPIRIT, worked
from weighshaft.draught import Draughting
from weighshaft.nozzle import Nozzle
from weighshaft.pictures.draught import by_choke, by_nozzle, jet_section, pictures, trade
from weighshaft.pictures.nozzle import bars
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Path, Scene, Table


def paths(scene: Scene, part: str) -> list[np.ndarray]:
    return [p.points for p in scene.still if isinstance(p, Path) and p.part == part]


def test_the_jet_is_to_scale() -> None:
    result = worked()
    scene = jet_section(Draughting(), result)
    at = result.layout
    (jet,) = paths(scene, "jet")
    assert jet[:, 1].min() == pytest.approx(at.tip)
    assert jet[:, 1].max() == pytest.approx(at.top)
    assert np.ptp(jet[np.isclose(jet[:, 1], at.tip)][:, 0]) == pytest.approx(4.0)
    # to where its speed has halved: 0.094 of the way to each side
    half = np.interp(at.tip + 30.0, *jet[: len(jet) // 2][:, ::-1].T)
    assert half == pytest.approx(2.0 + 0.094 * 30.0, rel=1e-3)
    (core,) = paths(scene, "core")
    assert np.ptp(core[:, 1]) == pytest.approx(16.0)
    assert len(paths(scene, "cones")) == 4
    (mixture,) = paths(scene, "gases")
    assert np.abs(mixture[:, 0]).max() * 2 <= at.top_bore + 1e-9


def test_charts_pass_through_the_result() -> None:
    result = worked()
    draught, back = by_nozzle(result).curves[:2]
    known = np.isfinite(draught.y)
    assert np.interp(4.0, draught.x[known], draught.y[known]) == pytest.approx(
        result.draught, rel=0.01
    )
    known = np.isfinite(back.y)
    assert result.back_pressure is not None
    assert np.interp(4.0, back.x[known], back.y[known]) == pytest.approx(
        750.06 * result.back_pressure, rel=0.02
    )
    labels = {one.label: one for one in by_nozzle(result).curves}
    assert labels["by the ejector"].x[0] == pytest.approx(result.nozzle)
    cost = trade(result).curves[0]
    order = np.argsort(cost.x)
    assert np.all(np.diff(cost.y[order]) > 0)
    choke = by_choke(result).curves[0]
    assert choke.x[np.argmax(choke.y)] == pytest.approx(result.best_choke)


@pytest.mark.parametrize(
    ("nozzle", "draughting"),
    [
        (COAL, Draughting()),
        (SPIRIT, Draughting(number=4)),
        (GAS, Draughting(wanted=400.0)),
        (replace(COAL, diameter=0.5), Draughting()),
        (replace(COAL, diameter=1.0), Draughting(most=0.2, wanted=0.1)),
        (replace(COAL, smokebox=replace(COAL.smokebox, choke_above_nozzle=150.0)), Draughting()),
        (replace(COAL, smokebox=replace(COAL.smokebox, choke=3.0)), Draughting()),
        (replace(COAL, smokebox=replace(COAL.smokebox, taper=8.0, inside_diameter=None)),
         Draughting()),
    ],
)  # fmt: skip
def test_every_picture_is_drawn_and_holds_only_numbers(
    nozzle: Nozzle, draughting: Draughting
) -> None:
    flow = () if nozzle is not SPIRIT else (1e-3, 2e-3, 1e-3)
    made = pictures(draughting, worked(nozzle, draughting, flow=flow))
    assert any("over a turn" in one.title for one in made) == bool(flow)
    for picture in made:
        figure(picture)
        if isinstance(picture, Table):
            assert picture.rows
            assert "nan" not in str(picture.rows)
            continue
        assert len(picture.says) > 40
        assert "nan" not in picture.says
        if isinstance(picture, Scene):
            assert all(np.isfinite(p.points).all() for p in picture.still if isinstance(p, Path))
        if isinstance(picture, Chart):
            assert len(picture.curves) >= 1


def test_small_pressures_keep_their_figures() -> None:
    assert bars(0.0034) == "0.0034 bar"
    assert bars(0.1234) == "0.123 bar"
    assert bars(None) == "more than 10 bar"
