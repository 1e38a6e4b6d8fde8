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
from weighshaft import book, drawing_office
from weighshaft.dashboard import drafting
from weighshaft.dashboard.asked import answer
from weighshaft.dashboard.desk import Desk
from weighshaft.dashboard.shelf import Shelf
from weighshaft.design import Design
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


@pytest.mark.parametrize("fault", ["none at all", "a fault of ours"])
def test_what_goes_wrong_is_said_in_a_sentence(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, fault: str, caplog: pytest.LogCaptureFixture
) -> None:
    def fails(*_: object, **__: object) -> Iterator[Sheet]:
        if fault == "a fault of ours":
            raise RuntimeError("broken pencil")
        yield from ()

    monkeypatch.setattr(drawing_office, "sheets", fails)
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


@pytest.mark.parametrize(("what", "form"), [("book.pdf", "PDF"), ("book.html", "HTML")])
def test_a_book_is_handed_over_in_pieces_that_the_line_takes(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, what: str, form: str
) -> None:
    gate = threading.Event()

    def bound(design: Design, asked: str, **about: Any) -> bytes:
        assert about["beside"]
        about["told"](7, 9)
        assert gate.wait(LONG)
        return f"{asked} {about['unit']} {design.name}".encode()

    monkeypatch.setattr(book, "bound", bound)
    monkeypatch.setattr(drafting, "PIECE", 5)
    desk.set_unit("in")
    answer(desk, {"id": 1, "do": "draw", "what": what})
    assert first_drawn(desk)["says"] == "Drawn 7 of 9 pictures and sheets"
    assert "A book is being made" in ask(desk, "draw").content["sorry"]
    gate.set()
    assert desk.drafting.wait(LONG)
    assert f"({form}, 0.0 MB) is ready" in ask(desk, "drawing").content["drawings"]["says"]
    got = b""
    while True:
        reply = answer(desk, {"id": 1, "do": "take_drawings", "start": len(got)})
        assert reply.content["archive"]["start"] == len(got)
        got += reply.points
        if len(got) == reply.content["archive"]["size"]:
            break
        assert len(reply.points) == 5
    assert got.decode() == f"{form} in {desk.design.name}"
    assert reply.content["archive"]["name"].endswith(f" {what}")
    for beyond in (len(got), -1):
        assert "sorry" in answer(
            desk, {"id": 1, "do": "take_drawings", "start": beyond}
        ).content  # fmt: skip


def test_a_book_that_is_stopped_or_fails_says_so_in_a_sentence(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(*_: Any, **about: Any) -> bytes:
        while not about["stopped"]():
            threading.Event().wait(0.01)
        raise book.BookStopped

    def fails(*_: Any, **about: Any) -> bytes:
        raise RuntimeError("broken pencil")

    monkeypatch.setattr(book, "bound", stopped)
    answer(desk, {"id": 1, "do": "draw", "what": "book.pdf"})
    ask(desk, "stop_drawing")
    assert desk.drafting.wait(LONG)
    assert ask(desk, "drawing").content["drawings"]["says"] == "Stopped; no book was kept."
    monkeypatch.setattr(book, "bound", fails)
    answer(desk, {"id": 1, "do": "draw", "what": "book.pdf"})
    assert desk.drafting.wait(LONG)
    said = ask(desk, "drawing").content["drawings"]["says"]
    assert said == "The book could not be made; the log says more."
    assert "sorry" in answer(desk, {"id": 1, "do": "draw", "what": "a cake"}).content
