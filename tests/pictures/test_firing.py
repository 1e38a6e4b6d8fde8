"""Pictures of fire and boiler: to scale, finite, saying their figures."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from tests.test_firing import COAL, GAS, SPIRIT, sample, worked
from weighshaft.firing import Firing
from weighshaft.pictures.firing import across, along, heat, pictures, times
from weighshaft.pictures.firing_charts import by_draught, safety, tank
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Circle, Path, Scene, Table

CASES: tuple[tuple[str, dict[str, Any]], ...] = (
    (GAS, {"firing__surfaces__water_tubes": 4}),
    (COAL, {}),
    (SPIRIT, {"firing__surfaces__water_tubes": 3}),
    (SPIRIT, {"firing__pattern": "Smithies"}),
    (GAS, {"boiler__kind": "vertical"}),
    (GAS, {"firing__gas__jet": 0.05}),
)


@pytest.mark.parametrize(("name", "changes"), CASES)
def test_every_type_is_drawn_finite_and_on_paper(name: str, changes: dict[str, Any]) -> None:
    result = worked(name, **changes)
    design = sample(name).changed({k.replace("__", "."): v for k, v in changes.items()})
    made = pictures(design.firing, result)
    assert len({one.title for one in made}) == len(made)
    for one in made:
        if isinstance(one, Scene):
            assert all(np.isfinite(p.points).all() for p in one.still if isinstance(p, Path))
        if isinstance(one, Chart):
            assert all(np.isfinite(c.x).all() and np.isfinite(c.y).all() for c in one.curves)
    for scene in made[:2]:
        figure(scene)
    tables = [one for one in made if isinstance(one, Table)]
    assert "This certifies nothing" in tables[-1].note


def test_surfaces_that_see_the_fire_are_red_and_the_others_brass() -> None:
    result = worked(COAL)
    scene = along(result)
    pens = {p.part: p.pen for p in scene.still if isinstance(p, Path) and len(p.points) == 2}
    assert pens["firebox"] == "crank"
    assert pens["fire tubes"] == "trace"
    drawn = [p for p in across(result).still if isinstance(p, Circle) and p.part == "fire tubes"]
    number, bore, _ = result.heated.tubes or (0, 0.0, 0.0)
    assert 0 < len(drawn) <= number
    assert {p.radius for p in drawn} == {bore / 2}


def test_the_levels_are_drawn_where_they_are() -> None:
    result = worked(GAS)
    heights = {p.part: p.points[0, 1] for p in along(result).still if isinstance(p, Path)}
    assert heights["filled to work"] == result.shape.level
    assert heights["lowest used"] == result.shape.floor


def test_streams_of_heat_are_as_wide_as_they_are_large() -> None:
    result = worked(GAS)
    streams = [p for p in heat(result).still if isinstance(p, Path) and p.pen == "thin"]
    wide = [float(p.points[-1, 1] - p.points[0, 1]) for p in streams]
    assert sum(wide) == pytest.approx(70.0)
    plain = result.raising
    assert wide[2] / 70 == pytest.approx((plain.heat_full - result.losses) / plain.fire_full)
    assert f"{result.steam:.3g} g a minute" in heat(result).says


def test_bars_are_as_long_as_the_minutes() -> None:
    result = worked(COAL)
    bars = {p.part: p.points for p in times(result).still if isinstance(p, Path) and p.part}
    assert result.by_fuel is not None
    assert result.by_tanks is not None
    ratio = bars["fuel carried"][:, 0].max() / bars["all water carried"][:, 0].max()
    assert ratio == pytest.approx(result.by_fuel / result.by_tanks)
    assert bars["fuel carried"][:, 0].max() <= 200


def test_charts_mark_what_was_taken() -> None:
    result = worked(GAS)
    chart = safety(Firing(), result)
    band = chart.bands[0]
    assert (band.low, band.high) == (result.evaporations.low, result.evaporations.high)
    one = int(np.argmin(np.abs(chart.curves[0].x - 1.0)))
    assert chart.curves[0].y[one] == pytest.approx(60_000 * result.valves.passes, rel=0.1)
    assert f"{min(result.emptied.temperature):.0f} °C" in tank(result).says  # type: ignore[union-attr]
    coal = worked(COAL)
    assert f"{coal.raising.draught:g} mm of water" in by_draught(coal).says
