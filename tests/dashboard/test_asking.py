"""Questions beside the page: begun, stopped, answered and taken, by the desk alone."""

from __future__ import annotations

import json
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.designs import ROOT
from weighshaft.dashboard import asking
from weighshaft.dashboard.asked import answer
from weighshaft.dashboard.desk import Desk
from weighshaft.dashboard.shelf import Shelf
from weighshaft.dashboard.view import view
from weighshaft.design import DesignRefused, read
from weighshaft.job.mapped import SOURCE
from weighshaft.job.questions import nozzle
from weighshaft.steam import map as steam_map

LONG = 240  # seconds that nothing here needs
SAMPLES = ROOT / "sample_designs"


@contextmanager
def here() -> Iterator[ThreadPoolExecutor]:
    """Stand in for the processes, which take a second to start."""
    with ThreadPoolExecutor(1) as executor:
        yield executor


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setattr(nozzle, "OTHERWISE", ())
    monkeypatch.setattr(nozzle, "SIZES", (0.7, 0.9, 1.1))
    monkeypatch.setattr(steam_map, "PACES", (0.5, 1.0, 3.0))
    monkeypatch.setattr(steam_map, "SHARES", (0.5, 1.0))
    made = Desk(read(SAMPLES / "hartfell.loco.json"), Shelf(tmp_path, SAMPLES))
    made.asking.executor = here
    return made


def ended(desk: Desk) -> None:
    assert desk.asking.now is not None
    assert desk.asking.now.wait(LONG)


def asks(desk: Desk, do: str, **more: str) -> dict[str, object]:
    return answer(desk, {"id": 1, "do": do, **more}).content


def test_an_answer_is_shown_taken_undone_and_belongs_to_its_design(desk: Desk) -> None:
    before = desk.design
    desk.go("questions")
    assert asks(desk, "ask", what="nozzle")["view"]
    ended(desk)
    shown = view(desk)[0]
    assert "fire wants" in shown["asks"]["says"]
    assert shown["asks"]["uncertain"]
    assert shown["asks"]["offer"].startswith("Take drill")
    assert [one["kind"] for one in shown["pictures"]] == ["chart", "table"]
    json.dumps(shown, allow_nan=False)
    desk.set_unit("in")
    assert " mm (" not in view(desk)[0]["asks"]["says"]
    asks(desk, "take_answer")
    assert desk.design.nozzle.diameter != before.nozzle.diameter
    after = view(desk)[0]["asks"]
    assert after["says"].startswith("Of the design as it stood")
    assert after["offer"] == ""
    assert "No answer stands" in str(asks(desk, "take_answer")["sorry"])
    desk.undo()
    assert desk.design == before
    assert view(desk)[0]["asks"]["offer"]


def test_the_run_goes_by_the_map_and_the_page_says_so(desk: Desk) -> None:
    desk.go("steam")
    charts = len(view(desk)[0]["pictures"])
    asks(desk, "ask", what="map")
    ended(desk)
    assert "asks" in asks(desk, "asking")
    assert desk.work.running.source == SOURCE
    shown = view(desk)[0]
    assert "the run goes by them" in shown["asks"]["says"]
    assert len(shown["pictures"]) == charts + 2
    desk.edit("nozzle.diameter", "3.4 mm")
    assert desk.work.running.source != SOURCE
    shown = view(desk)[0]
    assert "has changed since" in shown["asks"]["says"]
    assert len(shown["pictures"]) == charts
    desk.undo()
    assert desk.work.running.source == SOURCE, "and belongs to it again"


def test_one_at_a_time_and_a_stop_keeps_nothing(desk: Desk) -> None:
    desk.go("questions")
    asking.begin(desk, "run")
    with pytest.raises(DesignRefused, match="stop that first"):
        asking.begin(desk, "first")
    assert view(desk)[0]["asks"]["running"]
    desk.edit("nozzle.diameter", "3.4 mm")  # sliders go on meanwhile
    asks(desk, "stop_asking")
    ended(desk)
    shown = view(desk)[0]["asks"]
    assert not shown["running"]
    assert shown["says"] == "Stopped; nothing was kept."
    assert shown["offer"] == ""


def test_what_has_no_answer_is_said_in_a_sentence(tmp_path: Path) -> None:
    desk = Desk(read(SAMPLES / "wagtail.loco.json"), Shelf(tmp_path, SAMPLES))
    desk.asking.executor = here
    desk.go("questions")
    asking.begin(desk, "ports")
    ended(desk)
    assert "round holes" in view(desk)[0]["asks"]["says"]
    assert "no such question" in str(asks(desk, "ask", what="weather")["sorry"])
