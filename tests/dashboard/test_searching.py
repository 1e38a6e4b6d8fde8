"""A search beside the page: begun, stopped, taken and mapped, by the desk alone."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.designs import ROOT
from weighshaft.dashboard.asked import answer
from weighshaft.dashboard.desk import Desk
from weighshaft.dashboard.shelf import Shelf
from weighshaft.dashboard.view import view
from weighshaft.design import DesignRefused, read
from weighshaft.pivots import Pivots

LONG = 120  # seconds that nothing here needs; a search that hangs is a failure
HARTFELL = ROOT / "sample_designs" / "hartfell.loco.json"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    design = replace(read(HARTFELL), pivots=Pivots())  # whatever the sample's builder chose
    desk = Desk(design, Shelf(tmp_path, HARTFELL.parent))
    desk.go("pivots")
    assert desk.edit("pivots.candidates", "400")
    return desk


def ended(desk: Desk) -> None:
    assert desk.searching is not None
    assert desk.searching.wait(LONG)
    assert desk.searching.sorry == ""


def titles(desk: Desk) -> list[str]:
    return [one["title"] for one in view(desk)[0]["pictures"]]


def test_what_is_found_can_be_taken_and_undone(desk: Desk) -> None:
    before = desk.design
    present = desk.work.pivots.score
    desk.search()
    ended(desk)
    shown = view(desk)[0]["search"]
    assert shown["takes"]
    assert "Map of the score" in titles(desk)
    desk.take_found()
    assert desk.work.pivots.score < present
    assert desk.design.motion.gear != before.motion.gear
    assert desk.found is None, "what was found belonged to the gear before"
    desk.undo()
    assert desk.design == before
    assert desk.found is not None, "and belongs to it again"


def test_the_same_number_finds_the_same_gear(desk: Desk) -> None:
    gears = []
    for _ in range(2):
        desk.search()
        ended(desk)
        assert desk.found is not None
        assert desk.found.found is not None
        gears.append(desk.found.found.gear)
    assert gears[0] == gears[1]


def test_a_search_can_be_stopped_and_only_one_runs(desk: Desk) -> None:
    desk.edit("pivots.candidates", "3900")
    desk.search()
    with pytest.raises(DesignRefused, match="stop it first"):
        desk.search()
    desk.stop_search()
    ended(desk)
    assert desk.searching is not None
    assert desk.searching.found is not None
    assert desk.searching.found.stopped
    assert desk.searching.found.tried < 3900


def test_what_is_found_is_gone_when_the_gear_is_another(desk: Desk) -> None:
    desk.search()
    ended(desk)
    desk.edit("motion.gear.lifting_link", "61 mm")
    assert desk.found is None
    with pytest.raises(DesignRefused, match="as it stands"):
        desk.take_found()


def test_a_map_is_drawn_over_the_sizes_chosen_with_or_without_a_search(desk: Desk) -> None:
    desk.edit("pivots.mapped.across", "suspension ahead")
    desk.edit("pivots.mapped.up", "suspension above")
    desk.draw_map()
    ended(desk)
    assert desk.found is not None
    assert desk.found.map is not None
    assert (desk.found.map.x.field, desk.found.map.y.field) == (
        "suspension_ahead", "suspension_above",
    )  # fmt: skip
    assert desk.found.map.best is None
    assert "Map of the score" in titles(desk)
    desk.search()
    ended(desk)
    desk.edit("pivots.mapped.across", "weighshaft y")
    desk.draw_map()
    ended(desk)
    assert desk.found.map is not None
    assert desk.found.map.x.field == "weighshaft_y"
    assert desk.found.map.best is not None, "how a map is drawn does not undo what was found"


def test_a_search_in_which_nothing_may_move_says_so(desk: Desk) -> None:
    desk.edit("pivots.lengths.0.name", "none")
    desk.edit("pivots.angles.0.name", "none")
    assert not view(desk)[0]["search"]["may"], "the page does not offer it"
    desk.search()
    assert desk.searching is not None
    assert desk.searching.wait(LONG)
    assert "may move" in view(desk)[0]["search"]["says"]


def test_progress_is_told_without_the_page(desk: Desk) -> None:
    reply = answer(desk, {"id": 1, "do": "search"})
    assert reply.content["view"]["search"]["total"] == 400
    told = answer(desk, {"id": 2, "do": "searching"}).content["search"]
    assert set(told) == {"running", "may", "tried", "total", "says", "takes"}
    ended(desk)
    assert not answer(desk, {"id": 3, "do": "searching"}).content["search"]["running"]
