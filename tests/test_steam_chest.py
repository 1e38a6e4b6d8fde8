"""Port face, steam chest and its studs: usual sizes, strength, and metal left beside them."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize

from tests.designs import ROOT, SAMPLES
from tests.drawings_for_tests import worked
from weighshaft import job
from weighshaft.cylinders.chest import plate_stress
from weighshaft.design import Design, read
from weighshaft.sheet import decision_sheet
from weighshaft.threads import studs
from weighshaft.trade.threads import thread

NAMES = ("alder", "dunnock", "hartfell", "rowan", "tansy", "whinchat")
"""Outside and inside cylinders, with a spindle whose height is known and without."""


def changed(design: Design, **sizes: Any) -> Design:
    """Return a design with sizes of its steam chest decided."""
    cylinders = design.cylinders
    chest = dataclasses.replace(cylinders.chest, **sizes)
    return dataclasses.replace(design, cylinders=dataclasses.replace(cylinders, chest=chest))


def says(work: Any, *words: str) -> list[str]:
    return [one.level for one in work.findings if all(word in one.says for word in words)]


@pytest.mark.parametrize("name", NAMES)
def test_what_is_left_open_is_told_and_closes_up(name: str) -> None:
    design, work = worked(name)
    chest = work.cylinders.chest
    told = {one.field: one.value for one in work.cylinders.suggestions}
    for path in ("face_height", "height", "wall", "cover", "studs_along", "studs_across",
                 "stud_line"):  # fmt: skip
        assert f"cylinders.chest.{path}" in told, path
    assert {"motion.face.valve_height", "motion.face.chest_width"} <= set(told)
    assert told["cylinders.chest.face_height"] == pytest.approx(chest.face_height, abs=0.005)
    # the valve stands on the face, under the spindle where its height is known
    if chest.spindle is not None:
        nut = 1.5 * work.cylinders.axis.rod
        assert chest.face_height + chest.valve_height - nut / 2 == pytest.approx(
            chest.spindle, abs=0.01
        )
    assert chest.face_height - chest.port_depth > design.cylinders.bore / 2
    assert chest.height > chest.valve_height
    wide = design.motion.valve.port_length + 2 * design.motion.face.valve_wall
    valve = 2 * work.motion.face.valve_half * wide * chest.valve_height
    assert chest.room == pytest.approx(chest.length * chest.width * chest.height - valve)
    assert "chest" in decision_sheet(work)["cylinders"]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda one: one.name.split(".")[0])
def test_no_sample_is_stopped_by_its_chest(path: Any) -> None:
    _, work = worked(path.name.removesuffix(".loco.json"))
    assert not [one.says for one in work.findings if one.level == "stop"]


def test_a_decided_chest_is_used_in_frames_patterns_and_steam() -> None:
    design = read(ROOT / "sample_designs" / "dunnock.loco.json")
    before = worked("dunnock")[1]
    made = job.work(changed(design, face_height=36.0, height=30.0, wall=9.0))
    chest = made.cylinders.chest
    assert (chest.face_height, chest.height, chest.wall) == (36.0, 30.0, 9.0)
    assert made.patterns.face_height == pytest.approx(36.0)
    assert made.patterns.chest[2] == pytest.approx(9.0)
    top = max(one.extent[1][1] for one in made.frames.whole.parts if one.name == "cylinders")
    offset = design.cylinders.cylinder_offset
    tilt = math.radians(design.cylinders.inclination)
    if tilt == 0:
        assert top == pytest.approx(offset + 36.0 + 30.0 + chest.cover)
    assert chest.room > before.cylinders.chest.room


def test_a_chest_too_low_or_a_face_in_the_bore_is_stopped() -> None:
    design = read(ROOT / "sample_designs" / "dunnock.loco.json")
    low = job.work(changed(design, height=10.0))
    assert "stop" in says(low, "mm high inside and the valve")
    sunk = job.work(changed(design, face_height=20.0))
    assert "stop" in says(sunk, "no metal over a bore")
    few = job.work(changed(design, studs_along=2, studs_across=2))
    assert "check" in says(few, "lets the cover lift")
    thin = job.work(changed(design, cover=1.0))
    assert "check" in says(thin, "bends with")


def test_studs_driven_into_a_passage_or_a_cover_screw_are_found() -> None:
    design = read(ROOT / "sample_designs" / "tansy.loco.json")
    threads = design.threads
    long = dataclasses.replace(threads, chest=dataclasses.replace(threads.chest, engagement=9.0))
    deep = changed(dataclasses.replace(design, threads=long), studs_along=3)
    work = job.work(deep)
    left = work.threads.studs_beside
    assert left.passage < 0
    assert "stop" in says(work, "into a steam passage")


def test_load_of_a_stud_by_hand() -> None:
    """5 bar on 40 × 30 mm, joint of 2 mm land all round, oiled paper as in the table."""
    chest = studs.Chest(
        length=40.0, width=30.0, line=3.0, places=((0.0, 0.0),) * 10, spacing=15.0,
        face_height=30.0, thread=None, decided=False, bore=25.0, barrel=50.0, screws=8,
        circle=33.0, first=0.0, passages=(), hole=2.0,
    )  # fmt: skip
    from weighshaft.threads.decisions import ChestStuds
    from weighshaft.trade.materials import jointing

    decision = ChestStuds()
    packing = jointing(decision.jointing)
    held = studs.stud_load(chest, decision, 2.0, 5.0)
    # land 2, effective width 1, joint 42 × 32: steam 0.5 N/mm² on it, gasket m times as much
    steam = 0.5 * 42 * 32
    kept = 0.5 * packing.factor * 2 * 1.0 * 2 * (42 + 32)
    seat = packing.seating * 1.0 * 2 * (42 + 32)
    assert held.load == pytest.approx(max(steam + kept, seat) / 10)


@pytest.mark.parametrize("name", NAMES)
def test_the_stud_taken_is_strong_enough(name: str) -> None:
    _, work = worked(name)
    joint = work.threads.joint("chest")
    assert joint is not None
    assert joint.stress <= joint.stress_allowed
    assert joint.engagement >= joint.needed
    assert work.cylinders.chest.spacing <= studs.MOST * joint.one.major
    assert thread(joint.one.designation) == joint.one


def test_bending_of_a_cover_against_the_beam() -> None:
    """A strip one wide: moment p b²/8 over a section modulus of t²/6."""
    pressure, span, thick = 6.0, 40.0, 5.0
    moment = 0.1 * pressure * span**2 / 8
    assert plate_stress(pressure, span, thick) == pytest.approx(moment / (thick**2 / 6))


point = st.tuples(*(st.floats(-20, 20),) * 3)


@given(point, point, point, point)
def test_distance_of_two_straight_pieces(a: Any, b: Any, c: Any, d: Any) -> None:
    """Against a minimiser of scipy, which knows nothing of edges of the square."""
    found = studs.apart((a, b), (c, d))
    p, u = np.array(a), np.array(b) - np.array(a)
    q, v = np.array(c), np.array(d) - np.array(c)

    def square(at: Any) -> float:
        gap = p + at[0] * u - q - at[1] * v
        return float(gap @ gap)

    best = min(
        float(minimize(square, (s, t), bounds=((0, 1), (0, 1)), method="L-BFGS-B").fun)
        for s in (0.1, 0.9) for t in (0.1, 0.9)
    )  # fmt: skip
    assert found == pytest.approx(math.sqrt(best), abs=2e-3)
    assert found == pytest.approx(studs.apart((c, d), (a, b)), abs=1e-9)
