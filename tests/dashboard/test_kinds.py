"""Changing over to another kind of gear, cylinder position or wheel seat, on every sample."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.designs import SAMPLES
from weighshaft.dashboard.desk import Desk
from weighshaft.dashboard.kinds import kinds_offered
from weighshaft.dashboard.shelf import Shelf
from weighshaft.design import DesignRefused, read, to_document
from weighshaft.motion.gears import LAPLESS

# one with an eccentric on each side, one with outside gear, one of the smallest, one without valve
ENGINES = ("hartfell", "merrow", "tansy", "wagtail")
CHOSEN = [path for path in SAMPLES if path.name.startswith(ENGINES)]


@pytest.fixture(params=CHOSEN, ids=lambda path: path.name.split(".")[0])
def desk(request: pytest.FixtureRequest, tmp_path: Path) -> Desk:
    sample: Path = request.param
    return Desk(read(sample), Shelf(tmp_path, sample.parent))


def test_every_kind_on_offer_can_be_had_and_undone(desk: Desk) -> None:
    offered = kinds_offered(desk.design)
    assert set(offered) >= {"motion.gear", "wheels.cylinders", "wheels.seat"}
    for path, kinds in offered.items():
        assert len(kinds) > 1
        before = desk.design
        assert before.at(path).kind in {kind for kind, _ in kinds}
        for kind, title in kinds:
            assert title
            desk.choose(path, kind)
            assert desk.design.at(path).kind == kind
            assert desk.work.wheels is not None
            to_document(desk.design)
            while desk.history.undoes:
                desk.undo()
        assert desk.design == before


def test_a_gear_laid_out_for_the_engine_works(desk: Desk) -> None:
    for kind, _ in kinds_offered(desk.design)["motion.gear"]:
        desk.choose("motion.gear", kind)
        assert desk.work.motion is not None, f"the {kind} locks"
        lapless = isinstance(desk.design.motion.gear, LAPLESS)
        assert lapless or 60 < desk.work.motion.cutoff_full < 95


def test_no_other_kind_and_no_other_place_is_taken(desk: Desk) -> None:
    before = desk.design
    for path, kind in (
        ("motion.gear", "clockwork"),
        ("motion", "Stephenson"),
        ("motion.valve", "slide"),
        ("cylinders.bore", "Stephenson"),
        ("name", "x"),
        ("", ""),
    ):
        with pytest.raises(DesignRefused):
            desk.choose(path, kind)
    assert desk.design == before
