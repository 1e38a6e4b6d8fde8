"""The moving gear against all that stands round it."""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon

from weighshaft import job, places
from weighshaft.design.file import read
from weighshaft.gauging.geared import gear_gaps
from weighshaft.gauging.sweep import ANGLES


@cache
def worked(name: str, *changes: tuple[str, Any]) -> job.Work:
    design = read(places.samples() / f"{name}.loco.json")
    return job.work(design.changed(dict(changes)))


def fouls(work: job.Work) -> list[str]:
    return [
        one.says for one in work.findings
        if one.chapter == "gauging" and one.level == "stop" and "of the motion and" in one.says
    ]  # fmt: skip


@pytest.mark.parametrize("name", ["rowan", "dunnock"])
def test_nothing_fouls_in_a_clean_engine(name: str) -> None:
    assert fouls(worked(name)) == []


@pytest.mark.parametrize(
    ("name", "changes", "first", "second"),
    [
        ("rowan", (("frames.platework.tank_ahead", 20.0),), "rocker, upper arm", "side tanks"),
        ("dunnock", (("cylinders.barrel.axle_to_cylinder", 298.0),), "union link", "cylinders"),
        ("hartfell", (("clearance.surroundings.boiler_bottom", 45.0),), "lifting arm", "lagging"),
    ],
)
def test_a_planted_foul_is_found_and_named(
    name: str, changes: tuple[tuple[str, Any], ...], first: str, second: str
) -> None:
    said = fouls(worked(name, *changes))
    assert any(f"The {first} of the motion and the {second} foul" in one for one in said)


def test_gaps_are_those_of_a_geometry_library() -> None:
    """Every pose of the arm against the tank seen from the side, measured by shapely."""
    work = worked("rowan", ("frames.platework.tank_ahead", -25.0))
    whole, gear = work.frames.whole, work.frames.gear
    notches = (1.0, 0.0, -1.0)
    found = {(one.first, one.second): one for one in gear_gaps(whole, gear, notches, 60.0, 0.0)}[
        ("rocker, upper arm", "side tanks")
    ]
    tank = Polygon(whole.part("side tanks").solids[0].outline)
    rows = np.tile(np.array(notches), 3)
    heights = np.repeat(np.array([0.0, 1.0, -1.0]), 3)
    joints = gear.joints(ANGLES[None, :], rows[:, None], heights[:, None])
    starts, ends = gear.arrays(joints)
    begins, least = 0, np.inf
    for piece in gear.pieces:
        for n, (_, _, half) in enumerate(piece.edges, begins):
            if piece.name == "rocker, upper arm":
                for a, b in zip(starts[n].reshape(-1, 2), ends[n].reshape(-1, 2), strict=True):
                    least = min(least, LineString([a, b]).distance(tank) - half)
        begins += len(piece.edges)
    assert 0 < least < 60
    assert found.gap == pytest.approx(least, abs=1e-6)


def test_without_a_gear_there_is_nothing_to_find() -> None:
    assert gear_gaps(worked("rowan").frames.whole, None, (1.0,), 1.0, 0.0) == ()
