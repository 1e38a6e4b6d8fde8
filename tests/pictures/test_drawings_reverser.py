"""Reversing arm, reach rod, valve spindle and die: drawn, and measured back."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from ezdxf import recover

from tests.drawings_for_tests import does_not_go_in_the_block, figures_over_figures, worked
from weighshaft.dashboard.spelling import usual_unit
from weighshaft.motion import valve_events
from weighshaft.pictures.drawings.reverser import reverser_drawings
from weighshaft.pictures.drawings.sheet import Drawing, Outline
from weighshaft.pictures.drawings.spindle import _sided, spindle_drawings, spindle_of
from weighshaft.pictures.dxf import write
from weighshaft.pictures.scene import Dimension

MICRON = 1e-3  # mm
REVERSED = ("alder", "curlew", "fieldfare", "hartfell", "merrow", "rowan", "whinchat")
SPINDLES = ("bilberry", "hartfell", "merrow", "rowan", "tansy")


@cache
def made(name: str) -> dict[str, Drawing]:
    design, work = worked(name)
    every = [*spindle_drawings(design, work), *reverser_drawings(design, work)]
    return {one.key: one for one in every}


def spans(drawing: Drawing) -> list[float]:
    return [
        math.dist(one.start, one.end)
        for one in drawing.views_at(1.0)[0].drawn if isinstance(one, Dimension)
    ]  # fmt: skip


def given(value: float, drawing: Drawing) -> bool:
    return any(abs(value - one) < MICRON for one in spans(drawing))


@pytest.mark.parametrize("name", sorted({*REVERSED, *SPINDLES}))
def test_all_is_drawn_and_no_figure_covers_another(name: str) -> None:
    unit = usual_unit(worked(name)[0])
    if name in REVERSED:
        assert {"gear-reversing-arm", "gear-reach-rod"} <= set(made(name))
    for drawing in made(name).values():
        assert not figures_over_figures(drawing, unit), drawing.key
        assert not does_not_go_in_the_block(drawing, unit), drawing.key


@pytest.mark.parametrize("name", REVERSED)
def test_arm_and_rod_are_as_long_as_the_model_has_them(name: str) -> None:
    _, work = worked(name)
    whole = work.frames.whole
    for part, key in (("reversing arm", "gear-reversing-arm"), ("reach rod", "gear-reach-rod")):
        (solid,) = whole.part(part).solids
        assert given(math.dist(solid.start, solid.end), made(name)[key]), key


@pytest.mark.parametrize("name", SPINDLES)
def test_the_spindle_stands_the_valve_where_the_lead_is(name: str) -> None:
    """With the piston on front dead centre the valve's edge has opened the port by the lead."""
    design, work = worked(name)
    motion, crank = design.motion, design.cylinders.crank
    rod = spindle_of(design, work)
    assert rod is not None
    pose = motion.gear.pose(crank, np.zeros((1, 1)), np.ones((1, 1)))
    pin = float(np.ravel(pose.points["valve"][..., 0])[0])
    # the valve's middle ahead of the middle of the face, which stands amid the barrel
    ahead = pin + rod.valve - work.cylinders.axis.axle_to_cylinder
    face = work.motion.face
    if motion.valve.admission == "outside":
        opening = face.port_outer - (ahead + face.valve_half)
    else:
        opening = ahead + face.cavity_half - face.port_inner
    events = valve_events(crank, motion.valve, motion.gear, 1.0, setting=motion.setting)
    assert opening == pytest.approx(events.front.lead, abs=1e-6)


@pytest.mark.parametrize("name", REVERSED)
def test_flat_parts_measured_back_from_the_file(name: str, tmp_path: Path) -> None:
    for key, drawing in made(name).items():
        if not drawing.flat:
            continue
        file = tmp_path / f"{key}.dxf"
        write(drawing, file)
        document, audit = recover.readfile(file)
        assert not audit.errors
        model = document.modelspace()
        areas = [
            Outline(tuple((x, y, bulge) for x, y, *_, bulge in one.get_points())).area
            for one in model.query("LWPOLYLINE") if one.closed
        ]  # fmt: skip
        areas += [math.pi * one.dxf.radius**2 for one in model.query("CIRCLE")]
        outline, *holes = drawing.views_at(1.0)[0].outlines
        for one in (outline, *holes):
            off = min(abs(one.area - area) for area in areas)
            # a micron round the edge
            assert off < MICRON * math.sqrt(4 * math.pi * one.area), key


def test_a_long_die_has_the_flanks_of_its_slot() -> None:
    """Each flank lies on its own circle about the centre from which the slot is struck."""
    die = _sided(60.0, 9.0, 5.0)
    points = die.path().points
    away = np.hypot(points[:, 0] + 60.0, points[:, 1])
    assert away.min() == pytest.approx(57.5, abs=1e-3)
    assert away.max() == pytest.approx(62.5, abs=1e-3)
    # the sector of a ring: its mean arc times its width
    assert die.area == pytest.approx(9.0 * 5.0, rel=1e-9)
