"""The job as a whole: contradictions become findings in their place, and never figures."""

from __future__ import annotations

import pickle
from dataclasses import replace
from typing import Any

import pytest

from weighshaft import job, places
from weighshaft.design import Design, read
from weighshaft.findings import Finding
from weighshaft.motion import MotionLocks

SAMPLES = (
    "tansy", "wagtail", "bilberry", "rowan", "alder", "merrow", "hartfell", "brackenfell", "curlew",
    "whinchat", "dunnock", "fieldfare",
)  # fmt: skip


def sample(name: str, **changes: Any) -> Design:
    design = read(places.samples() / f"{name}.loco.json")
    return design.changed({path.replace("__", "."): value for path, value in changes.items()})


def stops(work: job.Work, chapter: str) -> list[Finding]:
    return [one for one in work.findings if one.level == "stop" and one.chapter == chapter]


@pytest.mark.parametrize("name", SAMPLES)
def test_every_sample_works_without_a_stop(name: str) -> None:
    work = job.work(sample(name))
    assert not [one for one in work.findings if one.level == "stop"]
    for chapter in ("scale", "cylinders", "motion", "wheels", "threads", "nozzle"):
        assert getattr(work, chapter) is not None


@pytest.mark.parametrize(
    ("name", "path", "value", "word"),
    [
        ("dunnock", "wheels.wheelbase.0", "3 in", "would touch"),
        ("tansy", "wheels.wheelbase.0", "20 mm", "would touch"),
        ("dunnock", "wheels.driving_diameter", "30 mm", "the crank reaches"),
        ("hartfell", "wheels.axle_diameter", "100 mm", "leaves no wheel"),
    ],
)
def test_wheels_that_have_no_room_are_a_stop(name: str, path: str, value: str, word: str) -> None:
    work = job.work(sample(name).changed({path: value}))
    assert any(word in one.says for one in stops(work, "wheels"))


def test_spreading_the_axles_as_told_mends_it() -> None:
    design = sample("tansy").changed({"wheels.wheelbase.0": "20 mm"})
    (stop,) = [one for one in stops(job.work(design), "wheels") if "touch" in one.says]
    assert stop.change is not None
    mended = design.changed({stop.change[0]: stop.change[1]})
    assert not [one for one in stops(job.work(mended), "wheels") if "touch" in one.says]


@pytest.mark.parametrize("lap", ["-10", "-4"])
def test_exhaust_clearance_beyond_the_lap_blows_through(lap: str) -> None:
    work = job.work(sample("dunnock").changed({"motion.valve.exhaust_lap": lap}))
    assert any("blows through" in one.says for one in stops(work, "motion"))


def test_events_that_do_not_occur_stay_null() -> None:
    work = job.work(sample("dunnock").changed({"motion.valve.steam_lap": "20 mm"}))
    assert work.motion is not None
    assert work.motion.cutoff_full is None
    assert len(stops(work, "motion")) == 1
    assert not work.nozzle.findings


def test_a_gear_that_locks_says_so_once_and_the_rest_is_worked() -> None:
    work = job.work(sample("hartfell").changed({"motion.gear.lifting_link": "280 mm"}))
    assert work.motion is None
    (stop,) = stops(work, "motion")
    assert stop.fields == ("motion.gear",)
    assert "locks" in stop.says
    assert work.cylinders is not None
    assert not work.nozzle.findings


def test_rods_too_short_for_the_link_lock_without_a_warning() -> None:
    assert (
        job.work(sample("hartfell").changed({"motion.gear.eccentric_rod": "20 mm"})).motion is None
    )


def test_a_setting_that_cannot_be_is_said_of_its_field() -> None:
    work = job.work(sample("tansy").changed({"motion.setting.reverser": 0}))
    (stop,) = stops(work, "motion")
    assert stop.fields == ("motion.reverser",)
    assert "slip eccentric" in stop.says


def test_wanted_events_that_cannot_be_had_leave_the_gear_alone() -> None:
    work = job.work(sample("hartfell").changed({"motion.wanted.lead": "5 mm"}))
    assert work.motion is not None
    assert any("Wanted" in one.says and one.level == "check" for one in work.findings)


def test_a_gear_driven_the_wrong_way_is_told_so() -> None:
    design = sample("hartfell").changed({"motion.gear.rods": "crossed"})
    assert any("other direction" in one.says for one in stops(job.work(design), "motion"))


def test_a_slide_valve_that_admits_inside_is_looked_at() -> None:
    design = sample("merrow").changed({"motion.valve_type": "slide"})
    assert any("lifted off its face" in one.says for one in job.work(design).findings)


def test_work_is_pure() -> None:
    design = sample("rowan")
    assert job.work(design).findings == job.work(design).findings
    assert job.work(design).motion is job.work(design).motion


def test_a_lock_survives_the_way_to_another_process() -> None:
    locked = MotionLocks("die", 370.0, 0.5)
    again = pickle.loads(pickle.dumps(locked))
    assert (again.joint, again.crank_angle, again.reverser) == ("die", 10.0, 0.5)
    assert str(again) == str(locked)


def test_of_an_oscillating_cylinder_nothing_is_said_of_its_crosshead() -> None:
    """It has none; a connecting rod of any length leaves the engine as it is."""
    design = read(places.samples() / "wagtail.loco.json")
    longer = design.changed({"cylinders.connecting_rod": "70 mm"})
    for one in (design, longer):
        found = job.work(one).findings
        assert not [finding for finding in found if finding.level == "stop"]
        told = [f for f in found if any(p.startswith("cylinders.crosshead") for p in f.fields)]
        assert told == []
    assert job.work(longer).cylinders is not None


def test_a_gear_that_locks_only_where_another_chapter_looks_is_a_finding() -> None:
    """The notch worked is sound; full backward, which the tolerances look at, is not."""
    design = read(places.samples() / "merrow.loco.json")
    gear = design.motion.gear
    back = 1.8 * float(gear.arm_angle_backward)  # type: ignore[union-attr]
    wild = design.changed({"motion.gear.arm_angle_backward": back})
    wild = replace(wild, motion=replace(wild.motion, reversers=(1.0,), running_notch=1.0))
    work = job.work(wild)
    assert work.motion is not None
    assert any("locks" in finding.says for finding in work.findings if finding.level == "stop")
