"""The pictures of oscillating cylinders show what was worked out."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from weighshaft.motion import Crank
from weighshaft.motion.chapter import FRAMES
from weighshaft.motion.lapping import TrunnionResult, work
from weighshaft.motion.oscillating import Oscillating
from weighshaft.pictures.motion_trunnion import pictures
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Circle, Moving, Path, Picture, Scene, Table

CRANK = Crank(16.0, 40.0)
DOUBLE = Oscillating(
    trunnion_x=38.0, trunnion_y=2.0, piston_rod=40.0, port_radius=12.5, port_hole=2.2,
    passage_hole=2.4, passage_pitch=5.2,
)  # fmt: skip
GEARS = {
    "double": DOUBLE,
    "single": replace(DOUBLE, acting="single", trunnion_y=0.0),
    "blows": replace(DOUBLE, port_hole=3.4),
}


def drawn(gear: Oscillating) -> tuple[TrunnionResult, tuple[Picture, ...]]:
    result = work(gear, crank=CRANK, bore=9.5, pressure=1.4)
    return result, pictures(gear, result)


def moving(scene: Picture, part: str) -> list[Moving]:
    assert isinstance(scene, Scene)
    return [one for one in scene.moving if one.part == part]


def holes(scene: Picture, part: str) -> list[Circle]:
    assert isinstance(scene, Scene)
    return [one for one in scene.still if isinstance(one, Circle) and one.part == part]


@pytest.mark.parametrize("name", GEARS)
def test_every_point_is_a_number_and_all_of_it_goes_on_paper(name: str) -> None:
    _, made = drawn(GEARS[name])
    for picture in made:
        if isinstance(picture, Scene):
            for part in picture.moving:
                assert part.points.shape[0] == len(FRAMES)
                assert np.isfinite(part.points).all()
            for still in picture.still:
                assert not isinstance(still, Path) or np.isfinite(still.points).all()
        assert figure(picture, width_mm=160).get_size_inches()[0] > 0


@pytest.mark.parametrize("place", [0, 1])
def test_port_overlaps_the_holes_as_far_as_it_is_open(place: int) -> None:
    result, made = drawn(DOUBLE)
    swing = result.piston.swing(FRAMES)
    for end, side in (("front", 1.0), ("back", -1.0)):
        (port,) = moving(made[place], f"{end} port")
        assert port.radius == 1.1
        for name, area in (
            ("steam hole", DOUBLE.holes.steam_area(side * swing)),
            ("exhaust hole", DOUBLE.holes.exhaust_area(side * swing)),
        ):
            assert len(holes(made[place], name)) == 2
            apart = np.min(
                [
                    np.linalg.norm(port.points[:, 0] - np.array(hole.centre), axis=-1)
                    for hole in holes(made[place], name)
                ],
                axis=0,
            )
            assert np.array_equal(apart < 1.1 + 1.2, area > 0)


def test_steam_holes_are_above_and_exhaust_holes_below() -> None:
    _, made = drawn(GEARS["single"])
    (steam,), (exhaust,) = (holes(made[0], f"{name} hole") for name in ("steam", "exhaust"))
    assert steam.centre[1] == pytest.approx(2.6)
    assert exhaust.centre[1] == pytest.approx(-2.6)
    assert not moving(made[0], "back port")


def test_rod_goes_from_the_pin_to_the_piston_and_the_piston_stays_in_the_cylinder() -> None:
    result, made = drawn(DOUBLE)
    (rod,), (piston,) = moving(made[0], "piston rod"), moving(made[0], "piston")
    pin = 8.0 * np.stack([np.cos(np.radians(FRAMES)), -np.sin(np.radians(FRAMES))], axis=-1)
    start = (rod.points[:, 0] + rod.points[:, 3]) / 2
    assert start == pytest.approx(pin, abs=1e-9)
    face = (piston.points[:, 1] + piston.points[:, 2]) / 2
    assert np.linalg.norm(face - pin, axis=-1) == pytest.approx(40.0)
    trunnion = np.array([38.0, 2.0])
    way = (trunnion - pin) / np.linalg.norm(trunnion - pin, axis=-1)[:, None]

    def ahead(points: np.ndarray) -> np.ndarray:
        return np.einsum("fnk,fk->fn", points - trunnion, way)

    shell = np.concatenate([ahead(one.points) for one in moving(made[0], "cylinder")], axis=1)
    there = ahead(piston.points)
    assert there.max() < shell.max()
    assert there.min() > shell.min()
    # the same place in the cylinder's axes in every frame: it swings as one body
    assert np.ptp(shell, axis=0).max() < 1e-9
    assert np.ptp(there[:, 1]) == pytest.approx(result.piston.stroke, rel=1e-3)


def test_chart_shows_the_areas_and_the_dead_bands() -> None:
    result, made = drawn(GEARS["single"])
    chart = made[2]
    assert isinstance(chart, Chart)
    steam, exhaust = chart.curves
    assert steam.y.max() == pytest.approx(result.greatest_area, rel=0.02)
    spans = [(band.low, band.high) for band in chart.bands]
    front, back = result.dead_band_front / 2, result.dead_band_back / 2
    assert spans == [
        pytest.approx((0.0, front)), pytest.approx((360 - front, 360.0)),
        pytest.approx((180 - back, 180 + back)),
    ]  # fmt: skip
    shut = (steam.y == 0) & (exhaust.y == 0)
    inside = np.zeros(len(steam.x), dtype=bool)
    for low, high in spans:
        inside |= (steam.x >= low) & (steam.x <= high)
    assert np.array_equal(shut, inside)
    assert f"{result.dead_band_front:.1f}°" in chart.says


def test_blow_through_is_said_and_has_no_dead_band() -> None:
    result, made = drawn(GEARS["blows"])
    chart, face = made[2], made[1]
    assert isinstance(chart, Chart)
    assert isinstance(face, Scene)
    assert chart.bands == ()
    assert f"{result.blow_through:.2f} mm²" in chart.says
    assert "blows through" in face.says
    assert "-" not in face.says


def test_table_says_what_holds_and_what_lifts() -> None:
    result, made = drawn(DOUBLE)
    table = made[3]
    assert isinstance(table, Table)
    cells = dict(table.rows)
    assert cells["spring needed"] == f"{result.spring_wanted:.1f} N"
    assert cells["lifts at"] == f"{result.lift_pressure:.2f} bar"
    assert cells["rubbing face, width"] == result.face[2]
