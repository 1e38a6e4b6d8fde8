"""Drawings of cylinders, valves, fittings and the whole engine: sizes, words, outlines."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from ezdxf import recover

from tests.drawings_for_tests import does_not_go_in_the_block, figures_over_figures, worked
from weighshaft.dashboard.spelling import usual_unit
from weighshaft.design import Design
from weighshaft.measures import INCH
from weighshaft.pictures.drawings import fittings
from weighshaft.pictures.drawings.arrangement import arrangement_drawings
from weighshaft.pictures.drawings.crosshead import crosshead_drawings
from weighshaft.pictures.drawings.cylinders import cylinder_drawings
from weighshaft.pictures.drawings.fittings import fitting_drawings
from weighshaft.pictures.drawings.sheet import Drawing, Outline, View
from weighshaft.pictures.drawings.swinging import ends_of, swinging_drawings
from weighshaft.pictures.drawings.trunnion import trunnion_drawings
from weighshaft.pictures.drawings.valves import valve_drawings
from weighshaft.pictures.dxf import write, written
from weighshaft.pictures.scene import Dimension, Label

NAMES = ("rowan", "hartfell", "dunnock", "tansy", "wagtail", "merrow")
"""Outside and inside cylinders, mm and inches, slide and piston valves, and oscillating ones."""
MICRON = 1e-3  # mm
ROOMS: tuple[Callable[[Design, Any], list[Drawing]], ...] = (
    arrangement_drawings, cylinder_drawings, crosshead_drawings, valve_drawings,
    swinging_drawings, trunnion_drawings, fitting_drawings,
)  # fmt: skip


@cache
def made(name: str) -> dict[str, Drawing]:
    design, work = worked(name)
    every = [one for room in ROOMS for one in room(design, work)]
    assert len({one.key for one in every}) == len(every)
    return {one.key: one for one in every}


def spans(drawing: Drawing, where: str = "elevation") -> set[float]:
    """Return all lengths that the dimensions of a view give, mm."""
    view = next(one for one in drawing.views_at(1.0) if one.where == where)
    return {
        round(math.dist(one.start, one.end), 6) for one in view.drawn if isinstance(one, Dimension)
    }


def close(value: float, found: set[float]) -> bool:
    return any(abs(value - one) < MICRON for one in found)


@pytest.mark.parametrize("name", NAMES)
def test_all_is_drawn_and_no_figure_covers_another(name: str) -> None:
    design, _ = worked(name)
    unit = usual_unit(design)
    for drawing in made(name).values():
        assert not figures_over_figures(drawing, unit), drawing.key
        assert not does_not_go_in_the_block(drawing, unit), drawing.key


def test_a_figure_over_another_would_be_noticed() -> None:
    ends = ((0.0, 0.0), (30.0, 0.0))
    view = View("elevation", (Dimension(*ends, "", 5.0), Dimension(*ends, "", 5.5)))
    drawing = Drawing(key="a", title="A", material="brass", count=1, views_at=lambda _: (view,))
    assert figures_over_figures(drawing)
    long = dataclasses.replace(drawing, title="Title " * 12, notes=("word " * 300,))
    assert len(does_not_go_in_the_block(long)) == 2


@pytest.mark.parametrize("name", ["rowan", "hartfell", "dunnock", "tansy"])
def test_the_cylinder_has_every_size_that_its_parts_need(name: str) -> None:
    design, work = worked(name)
    drawings, axis, figures = made(name), work.cylinders.axis, work.cylinders
    block = spans(drawings["cylinder-block"])
    assert close(design.cylinders.bore, block)
    assert close(axis.barrel, block)
    for key, flange, spigot in (
        ("front-cover", axis.front_cover, axis.front_spigot),
        ("back-cover", axis.back_cover, axis.back_spigot),
    ):
        assert all(close(one, spans(drawings[key])) for one in (flange, spigot))
        assert close(design.cylinders.bore, spans(drawings[key]))
    rod = spans(drawings["piston-rod"])
    assert all(close(one, rod) for one in (axis.rod, axis.rod_length, axis.thread))
    assert close(axis.piston, spans(drawings["piston"]))
    head = spans(drawings["crosshead"])
    assert all(close(x, head) for x in (axis.slipper_ahead, axis.slipper_behind, axis.socket))
    assert close(axis.slide_bar, spans(drawings["slide-bar"]))
    words = _words(drawings["cylinder-block"])
    assert f"{figures.screws} × {figures.screw_thread}" in words
    assert f"<{figures.screw_circle:.6f}>" in words


def _words(drawing: Drawing) -> str:
    drawn = [one for view in drawing.views_at(1.0) for one in view.drawn]
    return "\n".join(one.text for one in drawn if isinstance(one, Label))


def test_stuffing_box_and_gland_stand_out_as_far_as_decided() -> None:
    """The box out of the cover and the head of the gland make up what the axis takes."""
    _, work = worked("hartfell")
    drawings, axis = made("hartfell"), work.cylinders.axis
    (cover,) = [one for one in drawings["back-cover"].views_at(1.0) if one.where == "elevation"]
    left = min(x for one in cover.outlines for x, *_ in one.corners)
    (gland,) = [
        one for one in drawings["piston-rod-gland"].views_at(1.0) if one.where == "elevation"
    ]
    head = -min(x for one in gland.outlines for x, *_ in one.corners)
    assert -left - axis.back_cover + head == pytest.approx(axis.gland)


@pytest.mark.parametrize("name", ["rowan", "dunnock"])
def test_valve_and_ports_measured_back_in_the_file(name: str) -> None:
    design, work = worked(name)
    face, valve, drawings = work.motion.face, design.motion.valve, made(name)
    wide = valve.port_length + 2 * design.motion.face.valve_wall
    outlines = _cut(drawings["slide-valve"])
    # its face, the cavity in it, and the valve from its end
    wanted = (
        face.valve_length * wide, face.cavity_length * valve.port_length,
        work.cylinders.chest.valve_height * wide,
    )  # fmt: skip
    assert sorted(one.area for one in outlines) == pytest.approx(sorted(wanted), abs=MICRON)
    ports = sorted(_cut(drawings["port-face"]), key=lambda one: one.area)[:3]
    edges = sorted({round(x, 6) for one in ports for x, *_ in one.corners})
    half = face.exhaust_half
    inner, outer = face.port_inner, face.port_outer
    assert edges == pytest.approx([-outer, -inner, -half, half, inner, outer], abs=MICRON)
    # the edges of the valve in mid position stand outside the ports by the steam lap
    assert face.valve_length / 2 - max(edges) == pytest.approx(valve.steam_lap)


@pytest.mark.parametrize("name", ["rowan", "hartfell", "dunnock", "tansy"])
def test_the_chest_cover_measured_back_in_the_file(name: str, tmp_path: Path) -> None:
    """Outline and stud holes of the file as a cutter reads it, against the chest as worked."""
    _, work = worked(name)
    chest, stud = work.cylinders.chest, work.threads.joint("chest")
    file = tmp_path / "cover.dxf"
    write(made(name)["chest-cover"], file)
    document, audit = recover.readfile(file)
    assert not audit.errors
    found = [
        (one.dxf.center.x, one.dxf.center.y, one.dxf.radius)
        for one in document.modelspace().query("CIRCLE")
    ]
    assert len(found) == len(chest.studs)
    for x, y in chest.studs:
        near = [one for one in found if math.dist(one[:2], (x, y)) < MICRON]
        assert len(near) == 1
        assert near[0][2] == pytest.approx(stud.clear.diameter / 2, abs=MICRON)
    edge = max(_cut(made(name)["chest-cover"]), key=lambda one: one.area)
    long, wide = chest.outside
    assert edge.area == pytest.approx(long * wide, rel=1e-9)
    corners = {(round(abs(x), 6), round(abs(y), 6)) for x, y, *_ in edge.corners}
    assert corners == {(round(long / 2, 6), round(wide / 2, 6))}


def test_valve_chest_and_piston_valve_give_what_was_guessed() -> None:
    design, work = worked("dunnock")
    chest = work.cylinders.chest
    assert close(chest.valve_height, spans(made("dunnock")["slide-valve"], "end"))
    drawn = spans(made("dunnock")["valve-chest"], "plan")
    assert all(close(one, drawn) for one in (chest.length, chest.width, chest.wall))
    assert close(chest.height, spans(made("dunnock")["valve-chest"], "end"))
    assert close(chest.face_height, spans(made("dunnock")["cylinder-block"]))
    design, work = worked("merrow")
    (told,) = [one for one in work.motion.suggestions if one.field.endswith("valve_diameter")]
    assert close(told.value, spans(made("merrow")["piston-valve"]))
    assert design.motion.valve.port_length < math.pi * told.value


def _cut(drawing: Drawing) -> list[Outline]:
    assert drawing.flat
    lines = written(drawing).modelspace().query('LWPOLYLINE[layer=="OUTLINE"]')
    return [
        Outline(tuple((p[0], p[1], p[2]) for p in one.get_points("xyb")))
        for one in lines if one.closed
    ]  # fmt: skip


def test_the_holes_of_an_oscillating_cylinder_lie_on_one_circle() -> None:
    design, work = worked("wagtail")
    gear, result = design.motion.gear, work.motion.trunnion
    drawings = made("wagtail")
    assert set(drawings) >= {"rubbing-face", "fixed-face"}
    assert "crosshead" not in drawings
    circles = written(drawings["fixed-face"]).modelspace().query("CIRCLE")
    places = [(one.dxf.center.x, one.dxf.center.y, one.dxf.radius) for one in circles]
    passages = [one for one in places if abs(one[2] - gear.passage_hole / 2) < MICRON]
    pin = [(x, y) for x, y, r in places if abs(r - gear.face.trunnion_pin / 2) < MICRON]
    assert len(passages) == 4
    for x, y, _ in passages:
        assert math.dist((x, y), pin[0]) == pytest.approx(gear.port_radius, abs=MICRON)
    ahead = [y for x, y, _ in passages if x > pin[0][0]]
    assert abs(ahead[0] - ahead[1]) == pytest.approx(result.pitch, abs=MICRON)


def test_an_oscillating_cylinder_gives_its_piston_room_at_both_ends() -> None:
    """Spigots and piston as drawn against the joints of the gear as it turns."""
    design, work = worked("wagtail")
    gear, stroke = design.motion.gear, design.cylinders.stroke
    low, high, back, front, thick = ends_of(
        gear, stroke, design.cylinders.bore, work.motion.trunnion.face
    )
    points = work.motion.shown.points
    off = points["gudgeon"] - points["trunnion"]
    way = points["trunnion"] - points["crank_pin"]
    along = (off * way).sum(axis=-1) / (way**2).sum(axis=-1) ** 0.5
    # the joint is the piston's front face
    assert front - along.max() == pytest.approx(along.min() - thick - back, abs=0.01)
    assert front - along.max() > 0.3
    assert low < back < 0 < front < high
    drawings = made("wagtail")
    block = spans(drawings["oscillating-barrel"])
    assert close(high - low, block)
    assert close(design.cylinders.bore, block)
    assert close(high - front, spans(drawings["front-cover"]))
    assert close(thick, spans(drawings["piston"]))
    assert close(gear.piston_rod, spans(drawings["oscillating-rod"]))
    assert close(gear.face.trunnion_pin, spans(drawings["trunnion-pin"]))


def test_the_petticoat_is_a_quarter_of_an_ellipse() -> None:
    """From the mouth to the choke, level with the wall at the choke."""
    _, work = worked("rowan")
    at = work.nozzle.layout
    down, out = at.choke_at - at.mouth_at, (at.mouth - at.choke) / 2
    points = fittings.flare(at)
    assert points[0] == pytest.approx((at.mouth_at, at.mouth / 2))
    assert points[-1] == pytest.approx((at.choke_at, at.choke / 2))
    for y, r in points:
        across, along = (at.mouth / 2 - r) / out, (at.choke_at - y) / down
        assert across**2 + along**2 == pytest.approx(1.0)


@pytest.mark.parametrize("name", NAMES)
def test_the_general_arrangement_gives_wheelbase_and_length(name: str) -> None:
    _, work = worked(name)
    whole = work.frames.whole
    drawing = made(name)["general-arrangement"]
    side = spans(drawing)
    assert close(whole.buffer_front - whole.buffer_back, side)
    axles = [one.ahead for one in whole.axles]
    assert all(close(a - b, side) for a, b in pairwise(axles))
    assert close(work.frames.boiler_centre, side)
    assert close(whole.back_to_back, spans(drawing, "end"))
    assert close(whole.frame_inside, spans(drawing, "plan"))


def test_a_size_in_inches_is_spelt_so() -> None:
    design, _ = worked("dunnock")
    assert design.cylinders.bore == pytest.approx(1.5 * INCH)
    from weighshaft.pictures.paper.drawing import About, drawing_figure

    figure = drawing_figure(made("dunnock")["cylinder-block"], About("Dunnock"), unit="in")
    words = [one.get_text() for one in figure.axes[0].texts]
    assert "⌀1 1/2 H8" in words
    assert "First angle, in" in words
