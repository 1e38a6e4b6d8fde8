"""Drawings made beside the page: begun, stopped, told and handed over, by the desk alone."""

from __future__ import annotations

import io
import threading
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.designs import ROOT
from tests.drawings_for_tests import worked
from weighshaft import drawing_office
from weighshaft.dashboard import drafting
from weighshaft.dashboard.asked import answer
from weighshaft.dashboard.desk import Desk
from weighshaft.dashboard.shelf import Shelf
from weighshaft.drawing_office import Sheet

LONG = 60  # seconds that nothing here needs
SAMPLES = ROOT / "sample_designs"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    design, work = worked("tansy")
    desk = Desk(design, Shelf(tmp_path, SAMPLES), work=lambda *_, **__: work)
    desk.go("whole")
    return desk


@pytest.fixture
def gate(monkeypatch: pytest.MonkeyPatch) -> threading.Event:
    """Hold the drawings up after the first one until the event is set."""
    event = threading.Event()

    def slowly(design: Any, work: Any, *, unit: str) -> Iterator[Sheet]:
        yield Sheet(1, 2, "piston", "Piston", "A4", (("piston.pdf", unit.encode()),))
        assert event.wait(LONG)
        yield Sheet(2, 2, "valve", "Valve", "A4", (("valve.pdf", design.name.encode()),))

    monkeypatch.setattr(drawing_office, "sheets", slowly)
    return event


def ask(desk: Desk, do: str) -> Any:
    return answer(desk, {"id": 1, "do": do})


def first_drawn(desk: Desk) -> dict[str, Any]:
    for _ in range(10 * LONG):
        now: dict[str, Any] = ask(desk, "drawing").content["drawings"]
        if now["number"]:
            return now
        threading.Event().wait(0.1)
    raise AssertionError(now)


def test_progress_is_told_and_the_archive_handed_over(desk: Desk, gate: threading.Event) -> None:
    desk.set_unit("in")
    assert ask(desk, "drawing").content["drawings"]["says"] == ""
    assert ask(desk, "draw").content["drawings"]["running"]
    assert first_drawn(desk)["says"] == "Drawn 1 of 2: piston"
    assert "sorry" in ask(desk, "take_drawings").content, "they are not ready"
    assert "sorry" in ask(desk, "draw").content, "one batch at a time"
    gate.set()
    assert desk.drafting.wait(LONG)
    now = ask(desk, "drawing").content["drawings"]
    assert (now["ready"], now["running"], now["says"]) == (True, False, "2 drawings are ready.")
    reply = ask(desk, "take_drawings")
    assert reply.content["archive"]["name"].endswith(" drawings.zip")
    with zipfile.ZipFile(io.BytesIO(reply.points)) as archive:
        assert archive.read("piston.pdf") == b"in"
        assert archive.read("valve.pdf") == desk.design.name.encode()


def test_a_stop_keeps_nothing(desk: Desk, gate: threading.Event) -> None:
    ask(desk, "draw")
    first_drawn(desk)
    ask(desk, "stop_drawing")
    gate.set()
    assert desk.drafting.wait(LONG)
    now = ask(desk, "drawing").content["drawings"]
    assert not now["ready"]
    assert "Stopped" in now["says"]
    assert "sorry" in ask(desk, "take_drawings").content


def test_drawings_of_an_older_state_say_so(desk: Desk, gate: threading.Event) -> None:
    gate.set()
    ask(desk, "draw")
    assert desk.drafting.wait(LONG)
    desk.drafting.design = worked("rowan")[0]
    assert "as it stood then" in ask(desk, "drawing").content["drawings"]["says"]


@pytest.mark.parametrize("fault", ["none at all", "too many", "a fault of ours"])
def test_what_goes_wrong_is_said_in_a_sentence(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, fault: str, caplog: pytest.LogCaptureFixture
) -> None:
    def fails(*_: object, **__: object) -> Iterator[Sheet]:
        if fault == "a fault of ours":
            raise RuntimeError("broken pencil")
        if fault == "too many":
            yield Sheet(1, 1, "a", "A", "A4", (("a.pdf", b"1"),))

    monkeypatch.setattr(drawing_office, "sheets", fails)
    monkeypatch.setattr(drafting, "LARGEST", 10)
    ask(desk, "draw")
    assert desk.drafting.wait(LONG)
    now = ask(desk, "drawing").content["drawings"]
    assert not now["ready"]
    assert now["says"].endswith(".")
    assert "pencil" not in now["says"]
    assert ("broken pencil" in caplog.text) == (fault == "a fault of ours")


def test_the_real_drawings_go_into_one_message(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    from weighshaft.pictures import drawings

    every = drawings.drawings_of(*worked("tansy"))
    monkeypatch.setattr(drawings, "drawings_of", lambda *_: every[:2])
    ask(desk, "draw")
    assert desk.drafting.wait(LONG)
    reply = ask(desk, "take_drawings")
    with zipfile.ZipFile(io.BytesIO(reply.points)) as archive:
        assert archive.testzip() is None
        assert len(archive.namelist()) == 3 * 2 + 1
    # two drawings and the book; 60 such pairs of pages would still go through
    assert 60 * len(reply.points) / 2 < drafting.LARGEST
