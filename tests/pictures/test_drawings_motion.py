"""Drawings of stays, axles, rods and valve gear: every sample drawn, and measured back."""

from __future__ import annotations

import math
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from ezdxf import recover
from shapely.geometry import Point, Polygon

from tests.designs import ROOT
from tests.drawings_for_tests import does_not_go_in_the_block, figures_over_figures, worked
from weighshaft.dashboard.spelling import usual_unit
from weighshaft.design.typed import LengthUnit
from weighshaft.pictures.drawings.axles import axle_drawings
from weighshaft.pictures.drawings.gear import gear_drawings
from weighshaft.pictures.drawings.rods import rod_drawings
from weighshaft.pictures.drawings.sheet import Drawing, Outline, View, arc_of
from weighshaft.pictures.drawings.stays import stay_drawings
from weighshaft.pictures.dxf import write
from weighshaft.pictures.paper.drawing import _sheets, fitting
from weighshaft.pictures.paper.lettering import sampled, text_box
from weighshaft.pictures.scene import Dimension

MICRON = 1e-3  # mm
SAMPLES = sorted(
    one.name.removesuffix(".loco.json") for one in (ROOT / "sample_designs").glob("*.loco.json")
)
LOOKED_AT = ("rowan", "hartfell", "dunnock", "tansy")
ROOMS = (stay_drawings, axle_drawings, rod_drawings, gear_drawings)


@cache
def made(name: str) -> dict[str, Drawing]:
    design, work = worked(name)
    every = [one for room in ROOMS for one in room(design, work)]
    assert len({one.key for one in every}) == len(every)
    return {one.key: one for one in every}


def face(drawing: Drawing) -> list[Outline]:
    return list(drawing.views_at(1.0)[0].outlines)


def spans(drawing: Drawing, view: int = 0) -> set[float]:
    return {
        round(math.dist(one.start, one.end), 6)
        for one in drawing.views_at(1.0)[view].drawn if isinstance(one, Dimension)
    }  # fmt: skip


def given(value: float, drawing: Drawing, view: int = 0) -> bool:
    return any(abs(value - one) < MICRON for one in spans(drawing, view))


@pytest.mark.parametrize("name", SAMPLES)
def test_all_is_drawn_and_no_figure_covers_another(name: str) -> None:
    design, _ = worked(name)
    unit = usual_unit(design)
    assert {"horn-stay", "axlebox", "axle-row"} <= set(made(name))
    for drawing in made(name).values():
        assert not figures_over_figures(drawing, unit), drawing.key
        if name in LOOKED_AT:
            assert not does_not_go_in_the_block(drawing, unit), drawing.key
        for view in drawing.views_at(1.0):
            for one in view.outlines:
                assert one.area > 0, drawing.key
                assert Polygon(one.path().points).is_valid, drawing.key


def figures_over_lines(drawing: Drawing, unit: LengthUnit) -> list[str]:
    """Return the words on a drawing through which a line of it goes."""
    found = []
    for sheet in _sheets(drawing, fitting(drawing, "A4"), unit).values():
        edges = [np.concatenate([one, one[:1]]) if closed else one
                 for one, _, _, closed in sheet.shapes]  # fmt: skip
        points = np.concatenate([sampled(one) for one in (*edges, *sheet.rules)])
        for at, text, anchor, _, turned in sheet.words:
            # the arrow line touches the foot of its own figure
            if text_box(at, text, anchor, turned=turned).grown(-0.3).holds(points):
                found.append(text)
    return found


@pytest.mark.parametrize("name", LOOKED_AT)
def test_no_line_goes_through_a_figure(name: str) -> None:
    unit = usual_unit(worked(name)[0])
    for drawing in made(name).values():
        assert not figures_over_lines(drawing, unit), drawing.key


def test_a_line_through_a_figure_would_be_noticed() -> None:
    across = Dimension((15.0, -20.0), (15.0, 20.0), "", 0.0)
    view = View("elevation", (Dimension((0.0, 0.0), (30.0, 0.0), "", 5.0), across))
    drawing = Drawing(key="a", title="A", material="brass", count=1, views_at=lambda _: (view,))
    assert figures_over_lines(drawing, "mm") == ["30"]


@pytest.mark.parametrize("name", LOOKED_AT)
def test_flat_parts_measured_back_from_the_file(name: str, tmp_path: Path) -> None:
    """Area and radii of each outline that a cutter follows, opened again by ezdxf."""
    for key, drawing in made(name).items():
        if not drawing.flat:
            continue
        file = tmp_path / f"{key}.dxf"
        write(drawing, file)
        document, audit = recover.readfile(file)
        assert not audit.errors
        lines = [one for one in document.modelspace().query("LWPOLYLINE") if one.closed]
        rounds = document.modelspace().query("CIRCLE")
        outline, *holes = face(drawing)
        found = Outline(tuple((x, y, bulge) for x, y, *_, bulge in lines[0].get_points()))
        assert found.area == pytest.approx(outline.area, rel=1e-9), key
        wanted = sorted(_radii(outline))
        assert sorted(_radii(found)) == pytest.approx(wanted, abs=MICRON), key
        for one in holes:
            (ax, ay, _), (bx, by, bulge) = one.corners[0], one.corners[1]
            if len(one.corners) == 2 and bulge == 1.0:
                at = ((ax + bx) / 2, (ay + by) / 2)
                assert any(
                    math.dist(at, tuple(hole.dxf.center)[:2]) < MICRON
                    and abs(hole.dxf.radius - abs(bx - ax) / 2) < MICRON
                    for hole in rounds
                ), key


def _radii(outline: Outline) -> list[float]:
    corners = outline.corners
    return [
        arc_of(a[:2], b[:2], a[2])[1]
        for a, b in zip(corners, corners[1:] + corners[:1], strict=True) if a[2]
    ]  # fmt: skip


@pytest.mark.parametrize("name", ["rowan", "dunnock", "merrow"])
def test_coupling_rods_have_the_wheelbase_between_their_bores(name: str) -> None:
    design, work = worked(name)
    rods = [one for key, one in made(name).items() if key.startswith("coupling-rod")]
    layout = work.rods.layout
    centres: list[float] = []
    clear = design.wheels.quartering.bush_clearance
    # the driving pin is no thinner where the coupling rod runs than the big end's outside it
    driving = max(layout.pin, design.wheels.cylinders.crankpin) + clear
    bores = (layout.pin + clear, driving, layout.knuckle_pin)
    found: list[float] = []
    for rod in rods:
        holes = [one for one in face(rod)[1:] if len(one.corners) == 2]
        for one in holes:
            wide = abs(one.corners[1][0] - one.corners[0][0])
            found.append(wide)
            assert any(abs(wide - bore) < MICRON for bore in bores)
        xs = sorted((one.corners[0][0] + one.corners[1][0]) / 2 for one in holes)
        centres += [b - a for a, b in pairwise(xs)]
        assert all(given(b - a, rod) for a, b in pairwise(xs))
    assert sum(centres) == pytest.approx(sum(design.wheels.wheelbase), abs=MICRON)
    on_it = [wide for wide in found if abs(wide - driving) < MICRON]
    assert len(on_it) == 1  # one eye of the side goes on the driving pin


@pytest.mark.parametrize("name", ["rowan", "hartfell", "tansy"])
def test_the_connecting_rod_is_as_long_as_decided(name: str) -> None:
    design, _ = worked(name)
    rod = made(name)["connecting-rod"]
    assert given(design.cylinders.connecting_rod, rod)
    assert given(design.wheels.cylinders.crankpin, rod)


def test_axles_and_wheels_stand_as_decided() -> None:
    design, work = worked("hartfell")
    wheels, drawings = design.wheels, made("hartfell")
    assert given(2 * work.wheels.wheel_face + 2 * wheels.across.boss_outside, drawings["axle"])
    assert given(wheels.axle_diameter, drawings["axle"])
    assert given(wheels.seat_bore, drawings["axle"])
    wheel = drawings["wheel"]
    assert given(abs(work.frames.whole.drive.coupled_throw), wheel)
    section = (work.wheels.tyre_width, work.wheels.flange_thickness, wheels.driving_diameter,
               wheels.driving_diameter + 2 * work.wheels.flange_depth)  # fmt: skip
    assert all(given(one, wheel, 1) for one in section)
    crank = drawings["crank-axle"]
    assert given(design.cylinders.stroke / 2, crank)
    assert given(wheels.cylinders.pin_length, crank)
    assert given(wheels.cylinders.web_breadth, crank, 1)


def test_the_crank_axle_stands_in_its_row() -> None:
    """Along the axle its pieces close up from end to end."""
    view = made("hartfell")["crank-axle"].views_at(1.0)[0]
    xs = sorted(
        (min(c[0] for c in one.corners), max(c[0] for c in one.corners)) for one in view.outlines
    )
    reached = xs[0][0]
    for a, b in xs:
        assert a <= reached + MICRON
        reached = max(reached, b)
    assert reached == pytest.approx(-xs[0][0])


LENGTHS = {
    "rowan": {"lifting link": "lifting_link", "lifting arm": "lifting_arm",
              "valve rod": "valve_rod", "rocker lower arm": "rocker_lower"},
    "dunnock": {"eccentric rod": "eccentric_rod", "radius rod": "radius_rod",
                "union link": "union_link", "combination lever": "lever_lower",
                "lifting link": "lifting_link"},
    "merrow": {"eccentric rod": "eccentric_rod", "lifting arm": "lifting_arm",
               "union link": "union_link"},
}  # fmt: skip


@pytest.mark.parametrize("name", sorted(LENGTHS))
def test_bars_have_the_lengths_of_the_gear(name: str) -> None:
    design, _ = worked(name)
    for part, field in LENGTHS[name].items():
        drawing = made(name)["gear-" + part.replace(" ", "-")]
        wanted = getattr(design.motion.gear, field)
        if part == "combination lever":
            # from the radius rod's pin to the union pin
            wanted = abs(wanted)
        assert any(abs(wanted - one) < 1e-6 for one in spans(drawing)), (part, wanted)


@pytest.mark.parametrize("name", ["rowan", "hartfell", "brackenfell", "dunnock", "merrow"])
def test_the_link_is_cut_about_the_centre_of_its_slot(name: str) -> None:
    """Outline and slot are arcs about one centre, and the pins stand where the gear has them."""
    design, work = worked(name)
    gear = design.motion.gear
    radius = getattr(gear, "link_radius", None) or gear.radius_rod
    outline, *rest = face(made(name)["gear-link-slotted"])
    half = max(
        edge[2] for one in work.clearance.engine.pieces if one.name == "link" for edge in one.edges
    )
    radii = _radii(outline)
    for wanted in (radius - half, radius + half):
        assert any(abs(one - wanted) < MICRON for one in radii), wanted
    slot = next(one for one in rest if len(one.corners) == 4)
    width = work.slots.width
    assert sorted(_radii(slot)) == pytest.approx(
        sorted([width / 2, width / 2, radius - width / 2, radius + width / 2]), abs=MICRON
    )
    # the metal beside the slot is the same all along
    solid, hole = Polygon(outline.path().points), Polygon(slot.path().points)
    assert solid.contains(hole)
    for turn in np.linspace(-0.8, 0.8, 5):
        angle = turn * work.slots.arc / 2 / radius
        side = -1.0 if slot.corners[0][0] < 0 else 1.0
        on = Point(side * radius * math.cos(angle), radius * math.sin(angle))
        assert hole.exterior.distance(on) == pytest.approx(width / 2, abs=3 * MICRON)
    if hasattr(gear, "pin_spacing"):
        assert given(gear.pin_spacing / 2, made(name)["gear-link-slotted"])


@pytest.mark.parametrize("name", ["rowan", "hartfell", "tansy", "alder"])
def test_sheave_and_strap_have_the_throw_and_the_length_of_the_gear(name: str) -> None:
    design, work = worked(name)
    gear = design.motion.gear
    sheave, strap = made(name)["eccentric-sheave"], made(name)["eccentric-rod"]
    bore = face(sheave)[1]
    centre = (bore.corners[0][0] + bore.corners[1][0]) / 2
    assert abs(centre) == pytest.approx(gear.eccentric_throw, abs=1e-6)
    assert given(work.wheels.sheave, sheave)
    rod = getattr(gear, "eccentric_rod", None)
    if rod is not None:
        assert any(abs(rod - one) < 1e-6 for one in spans(strap))
    assert given(work.wheels.sheave, strap)
