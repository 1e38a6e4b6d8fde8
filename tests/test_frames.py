"""The whole engine: every part once, in its place, moving as the mechanism does."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

from tests.designs import SAMPLES
from weighshaft import job, places
from weighshaft.boiler import BoilerSeat
from weighshaft.design.file import read
from weighshaft.frames import Frames, FramesResult, Plate, Stay, Whole, moved
from weighshaft.frames.boilerwork import segment
from weighshaft.frames.decisions import Horns, Plates, Platework
from weighshaft.frames.platework import band
from weighshaft.frames.solids import Bar
from weighshaft.sizes import SizeError
from weighshaft.trade.densities import DENSITIES

ROUNDING = 1e-9  # mm


@cache
def result_of(name: str, *changes: tuple[str, Any]) -> FramesResult:
    design = read(places.samples() / f"{name}.loco.json").changed(dict(changes))
    made: FramesResult = job.work(design).frames
    return made


def spun(whole: Whole, name: str, theta: np.ndarray, at: tuple[float, float]) -> np.ndarray:
    """Return where a point of a part goes, (n, 2)."""
    part = whole.part(name)
    assert part is not None
    cos, sin, ahead, up = moved(part, whole, theta)
    x, y = at
    return np.column_stack([x * cos - y * sin + ahead, x * sin + y * cos + up])


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.name)
def test_every_part_is_named_once_owned_and_of_a_known_material(sample: Path) -> None:
    design = read(sample)
    result = job.work(design).frames
    whole = result.whole
    names = [part.name for part in whole.parts]
    assert len(set(names)) == len(names)
    for part in whole.parts:
        assert part.material in DENSITIES
        assert part.volume > 0
        assert 0 < part.share <= 1
        assert part.solids
        for path in part.fields:
            design.at(path)  # a decision of that name there is
        assert part.chapter in path.split(".")[0] or part.fields
    # something of every group that the engine needs
    assert {"frames", "wheels", "rods", "cylinders", "boiler", "water", "platework"} <= {
        part.kind for part in whole.parts
    }
    assert not [one for one in result.findings if one.level != "fine"]


@pytest.mark.parametrize("name", ["rowan", "hartfell", "whinchat"])
def test_rods_keep_to_their_pins_all_round_the_turn(name: str) -> None:
    whole = result_of(name).whole
    theta = np.linspace(0.0, 360.0, 37)
    drive = whole.drive
    tilt = np.radians(drive.inclination)
    pin = drive.crank.throw * np.array([np.cos(tilt), np.sin(tilt)])
    on_wheel = spun(whole, "driving wheels", theta, tuple(pin))
    assert spun(whole, "connecting rods", theta, tuple(pin)) == pytest.approx(on_wheel, abs=1e-9)
    assert spun(whole, "coupling rods", theta, tuple(pin)) == pytest.approx(on_wheel, abs=1e-9)
    assert np.hypot(*on_wheel.T) == pytest.approx(drive.crank.throw)
    # forward is clockwise, seen from the right with the front to the right
    quarter = spun(whole, "driving wheels", np.array([90.0 + drive.inclination]), tuple(pin))[0]
    assert quarter == pytest.approx([0.0, -drive.crank.throw], abs=1e-9)
    # the gudgeon pin runs on the cylinder's line, a connecting rod away from the crank pin
    along = np.array([np.cos(tilt), np.sin(tilt)])
    up = np.array([-np.sin(tilt), np.cos(tilt)])
    first = float(drive.crank.gudgeon(np.zeros(1))[0])
    small = first * along + drive.crank.cylinder_offset * up
    by_rod = spun(whole, "connecting rods", theta, tuple(small))
    assert spun(whole, "crossheads", theta, tuple(small)) == pytest.approx(by_rod, abs=1e-9)
    assert by_rod @ up == pytest.approx(np.full(len(theta), drive.crank.cylinder_offset), abs=1e-9)
    assert np.hypot(*(by_rod - on_wheel).T) == pytest.approx(drive.crank.connecting_rod)


def test_an_oscillating_cylinder_points_at_its_crank_pin() -> None:
    whole = result_of("wagtail").whole
    theta = np.linspace(0.0, 360.0, 13)
    trunnion = whole.drive.trunnion
    assert trunnion is not None
    assert spun(whole, "cylinders", theta, trunnion) == pytest.approx(
        np.tile(trunnion, (len(theta), 1)), abs=1e-9
    )
    pin = np.array([whole.drive.crank.throw, 0.0])
    on_line = spun(whole, "cylinders", theta, tuple(pin)) - trunnion
    to_pin = spun(whole, "driving wheels", theta, tuple(pin)) - trunnion
    cross = on_line[:, 0] * to_pin[:, 1] - on_line[:, 1] * to_pin[:, 0]
    assert cross == pytest.approx(np.zeros(len(theta)), abs=1e-9)


def test_truck_wheels_roll_as_fast_as_the_coupled_ones() -> None:
    whole = result_of("rowan").whole
    truck = next(one for one in whole.axles if one.kind == "leading")
    rim = (truck.ahead, whole.rail)
    rolled = spun(whole, f"{truck.name} wheels", np.array([1.0]), rim)[0]
    driver = spun(whole, "driving wheels", np.array([1.0]), (0.0, whole.rail))[0]
    assert abs(rolled[0] - truck.ahead) == pytest.approx(abs(driver[0]), rel=1e-3)


@pytest.mark.parametrize("name", ["rowan", "dunnock", "hartfell"])
def test_a_plate_is_a_sound_outline_with_a_gap_over_every_coupled_axle(name: str) -> None:
    result = result_of(name)
    plate = result.whole.part("frame plates").solids[0]
    assert isinstance(plate, Plate)
    shape = Polygon(plate.outline)
    assert shape.is_valid
    assert plate.volume == pytest.approx(shape.area * (plate.outer - plate.inner), rel=1e-12)
    boxes = [one for one in result.whole.parts if one.name.endswith("axleboxes")]
    assert len(boxes) == len(result.whole.coupled)
    for part in boxes:
        box = Polygon(part.solids[0].outline)
        # free in its horn, with the plate over and beside it
        assert shape.intersection(box).area == 0
        assert shape.distance(box) == pytest.approx(
            min(0.025, result.whole.rise) if result.whole.rise else 0.0, abs=1e-9
        )
    assert result.plate_length == pytest.approx(shape.bounds[2] - shape.bounds[0])


def test_sizes_follow_their_owners() -> None:
    """What a chapter decides arrives in the model, and nothing is typed twice."""
    before, after = result_of("rowan"), result_of("rowan", ("wheels.between.frame_spacing", 30.0))
    assert before.whole.frame_inside == 32
    assert after.whole.frame_inside == 30
    inner = after.whole.part("frame plates").solids[0].inner
    assert inner == 15
    longer = result_of("rowan", ("wheels.wheelbase", (48.0, 60.0)))
    assert longer.whole.coupled[-1].ahead == -60
    assert result_of("rowan", ("boiler.shell.length", 150.0)).whole.part("boiler").extent[0][
        0
    ] == pytest.approx(before.whole.part("boiler").extent[1][0] - 150, abs=0.1)
    higher = result_of("rowan", ("clearance.surroundings.boiler_bottom", 40.0))
    assert higher.boiler_centre == pytest.approx(before.boiler_centre + 3)
    tall = result_of("rowan", ("nozzle.smokebox.chimney_top", 80.0))
    assert tall.height > before.height


def test_prototype_lengths_come_at_scale() -> None:
    result = result_of("hartfell")
    design = read(places.samples() / "hartfell.loco.json")
    full, n = design.scale.prototype, design.scale.ratio
    assert result.over_beams == pytest.approx(full.length / n, rel=0.01)
    assert result.whole.front - result.whole.axles[0].ahead == pytest.approx(
        full.outline.front_overhang / n
    )


@pytest.mark.parametrize(
    ("changes", "level", "words"),
    [
        ((("frames.plates.top", 6.0),), "stop", "cuts the frame plate through"),
        ((("frames.plates.top", 9.0),), "check", "of plate are left"),
        ((("frames.plates.bottom", 6.4),), "check", "meets its horn stay"),
        ((("frames.plates.bottom", 18.0),), "check", "over the rail"),
        ((("frames.plates.bottom", 20.5),), "stop", "into the rail"),
        ((("frames.horns.box_length", 40.0),), "check", "overlap"),
        (
            (("wheels.leading_truck", None), ("frames.plates.ahead", 30.0)),
            "check",
            "beyond the front of the frame plates",
        ),
    ],
)
def test_frames_that_will_not_do_are_named(
    changes: tuple[tuple[str, Any], ...], level: str, words: str
) -> None:
    found = [one for one in result_of("rowan", *changes).findings if one.level != "fine"]
    told = [one for one in found if words in one.says]
    assert [one.level for one in told[:1]] == [level]
    if told[0].change is not None and told[0].change[0] == changes[0][0]:
        mended = result_of("rowan", told[0].change)
        assert not [one for one in mended.findings if words in one.says and one.level == level]


def test_stays_off_the_plate_are_refused_and_twins_too() -> None:
    with pytest.raises(SizeError, match="two are called"):
        Frames(stays=(Stay(name="stretcher"), Stay(name="stretcher", ahead=30.0)))
    design = read(places.samples() / "rowan.loco.json")
    given = replace(design.frames, plates=Plates(end_depth=90.0))
    work = job.work(replace(design, frames=given))
    assert work.frames is None
    assert any("mm amid the wheels" in one.says for one in work.findings if one.level == "stop")
    stays = (Stay(name="far stay", ahead=400.0),)
    found = job.work(replace(design, frames=replace(design.frames, stays=stays))).findings
    assert any("off the frame plates" in one.says for one in found)


def test_decisions_have_defaults_that_older_files_load_with() -> None:
    assert Frames() == Frames(plates=Plates(), horns=Horns(), platework=Platework())
    assert BoilerSeat().kind == "as fired"


@given(radius=st.floats(5, 200), share=st.floats(0.02, 1.98))
@settings(deadline=None, max_examples=40)
def test_water_in_a_lying_barrel(radius: float, share: float) -> None:
    """Area and centre of the segment against a polygon of many corners (shapely)."""
    turn = np.linspace(0, 2 * np.pi, 2000, endpoint=False)
    barrel = Polygon(np.column_stack([radius * np.cos(turn), radius + radius * np.sin(turn)]))
    depth = share * radius
    water = barrel.intersection(
        Polygon([(-2 * radius, -1), (2 * radius, -1), (2 * radius, depth), (-2 * radius, depth)])
    )
    area, up = segment(radius, depth)
    assert area == pytest.approx(water.area, rel=2e-4, abs=1e-4 * radius**2)
    assert up == pytest.approx(water.centroid.y, rel=1e-3, abs=1e-3 * radius)


@given(radius=st.floats(10, 80), low=st.floats(-5, 60), thick=st.floats(0.3, 3))
@settings(deadline=None, max_examples=40)
def test_a_splasher_stands_clear_of_its_wheel(radius: float, low: float, thick: float) -> None:
    shape = Polygon(band(0.0, radius, thick, low))
    assert shape.is_valid
    assert shape.distance(Polygon([(0, 0), (1e-9, 0), (0, 1e-9)])) >= min(radius, low) - 1e-6


def test_coupled_pins_opposite_the_inside_cranks_are_drawn_so() -> None:
    usual = result_of("hartfell").whole
    other = result_of("hartfell", ("rods.coupling.pins", "opposite the cranks")).whole
    assert other.drive.coupled_throw == -usual.drive.coupled_throw
    theta = np.linspace(0.0, 350.0, 8)
    tilt = np.radians(other.drive.inclination)
    pin = other.drive.coupled_throw * np.array([np.cos(tilt), np.sin(tilt)])
    rods = spun(other, "coupling rods", theta, tuple(pin))
    assert rods == pytest.approx(spun(other, "driving wheels", theta, tuple(pin)), abs=1e-9)
    part = other.part("driving crankpins")
    assert part is not None
    assert part.centroid[:2] == pytest.approx(tuple(pin), abs=1e-9)


def test_a_single_driving_axle_goes_through_every_chapter() -> None:
    design = read(places.samples() / "bilberry.loco.json")
    for changes in (
        {"wheels.driven_axle": 1}, {"wheels.across.side_play": (0.5,)}, {"wheels.wheelbase": ()},
        {"wheels.leading_truck": 60.0, "wheels.trailing_truck": 60.0},
    ):  # fmt: skip
        design = design.changed(changes)
    work = job.work(design)
    assert all(getattr(work, name) is not None for name in ("wheels", "frames", "curving", "rods"))
    assert work.frames.whole.part("coupling rods") is None


@pytest.mark.parametrize("name", ["dunnock", "fieldfare", "hartfell", "rowan"])
def test_metal_of_the_gear_that_lies_over_metal_counts_once(name: str) -> None:
    # shapely's union of the same bars
    whole = job.work(read(next(p for p in SAMPLES if p.stem.startswith(name)))).frames.whole
    looked = 0
    for part in whole.parts:
        bars = [one for one in part.solids if isinstance(one, Bar)]
        if part.chapter != "motion" or len(bars) < 2 or any(one.bore for one in bars):
            continue
        thick = bars[0].outer - bars[0].inner
        outline = unary_union(
            [LineString([one.start, one.end]).buffer(one.half, quad_segs=64) for one in bars]
        )
        once = part.share * sum(one.volume for one in bars)
        assert once == pytest.approx(outline.area * thick, rel=0.01), part.name
        looked += 1
    assert looked
