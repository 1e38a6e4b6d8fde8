"""The builder's own workshop on the page: kept, taken for every design, and left again."""

from __future__ import annotations

import dataclasses
import json
from pathlib import Path
from typing import Any

import pytest

from tests.designs import ROOT, a_design
from weighshaft.dashboard import workshop as shop
from weighshaft.dashboard.asked import answer
from weighshaft.dashboard.desk import Desk
from weighshaft.dashboard.shelf import Shelf
from weighshaft.dashboard.spelling import usual_unit
from weighshaft.dashboard.view import view
from weighshaft.design import Design, Workshop, from_document, read, to_document, write
from weighshaft.design import file as files
from weighshaft.design import workshop as own
from weighshaft.design.typed import Length
from weighshaft.job import Work
from weighshaft.workshop.machines import Lathe, Machines, Tools

SAMPLE = (ROOT / "sample_designs" / "lime_kiln_lane.workshop.json").read_text(encoding="utf-8")
SHED = own.from_bytes(SAMPLE.encode())


def unworked(design: Design, **_: Any) -> Work:
    return Work(design, None, None, None, None, None, None, ())


@pytest.fixture
def desk(design: Design, tmp_path: Path) -> Desk:
    samples = tmp_path / "samples"
    samples.mkdir()
    other = dataclasses.replace(
        design, name="Other", machines=Machines(lathe=Lathe(change_wheels=(20, 40)))
    )
    write(samples / "first.loco.json", design)
    write(samples / "other.loco.json", other)
    return Desk(design, Shelf(tmp_path / "shelf", samples), unworked)


def ask(desk: Desk, do: str, **more: Any) -> dict[str, Any]:
    return answer(desk, {"id": 1, "do": do, **more}).content


def lists(desk: Desk) -> dict[str, Any]:
    desk.go("machines")
    shown = view(desk)[0]["shop"]
    assert isinstance(shown, dict)
    return shown


def test_a_page_without_a_workshop_has_the_lists_of_its_design(desk: Desk) -> None:
    reply = ask(desk, "hello")
    assert reply["sorry"] == ""
    assert desk.design == a_design()
    assert lists(desk)["says"].startswith("Lists of this design.")
    assert not lists(desk)["use"]
    desk.go("scale")
    assert view(desk)[0]["shop"] is None


def test_kept_lists_are_taken_for_every_design_that_is_opened(desk: Desk) -> None:
    ask(desk, "hello", workshop=SAMPLE)
    assert desk.design.machines == SHED.machines
    for do, more in (("sample", {"key": "other"}), ("afresh", {}), ("afresh", {"sample": "other"})):
        reply = ask(desk, do, **more)
        assert "lists of your workshop" in reply["view"]["says"].lower()
        assert desk.design.machines == SHED.machines
        assert desk.design.threads.rack == SHED.drills
        desk.undo()
        assert desk.design.machines != SHED.machines
    brought = files.to_bytes(a_design()).decode()
    ask(desk, "upload", text=brought)
    assert desk.design.machines == SHED.machines
    assert lists(desk)["says"] == "Lists of your workshop."


def test_the_switch_goes_back_to_the_lists_of_the_design_and_forth(desk: Desk) -> None:
    ask(desk, "hello", workshop=SAMPLE)
    ask(desk, "sample", key="other")
    assert lists(desk)["back"]
    ask(desk, "use_lists_of_design")
    assert desk.design.machines.lathe.change_wheels == (20, 40)
    shown = lists(desk)
    assert shown["use"]
    assert not shown["back"]
    ask(desk, "use_workshop")
    assert desk.design.machines == SHED.machines
    assert lists(desk)["back"]


def test_what_is_kept_comes_back_beside_the_design(desk: Desk) -> None:
    ask(desk, "hello", workshop=SAMPLE)
    ask(desk, "sample", key="other")
    kept = view(desk)[0]["keep"]
    again = Desk(a_design(), desk.shelf, unworked)
    ask(again, "hello", kept=kept["design"], lists=kept["lists"], workshop=SAMPLE)
    assert again.design == desk.design
    ask(again, "use_lists_of_design")
    assert again.design.machines.lathe.change_wheels == (20, 40)
    # a design left with its own lists keeps them, though a workshop is kept
    kept = view(again)[0]["keep"]
    assert kept["lists"] == ""
    third = Desk(a_design(), desk.shelf, unworked)
    ask(third, "hello", kept=kept["design"], lists="", workshop=SAMPLE)
    assert third.design == again.design
    assert lists(third)["use"]


def test_an_inch_workshop_does_not_turn_the_page_of_a_metric_engine(desk: Desk) -> None:
    metric = read(ROOT / "sample_designs" / "rowan.loco.json")
    assert usual_unit(metric) == "mm"
    inches = tuple(Length(f"{n}/64 in") for n in range(40, 100))
    many = dataclasses.replace(SHED.machines, tools=Tools(reamers=inches))
    assert usual_unit(dataclasses.replace(metric, machines=many)) == "mm"


def test_the_lists_in_use_are_kept_saved_and_forgotten(desk: Desk) -> None:
    ask(desk, "hello")
    tools = Machines(tools=Tools(taps=("M3",), reamers=(6.0,)))
    desk.take(dataclasses.replace(desk.design, machines=tools))
    text = ask(desk, "keep_workshop")["workshop"]
    assert own.from_bytes(text.encode()).machines == tools
    assert lists(desk)["says"] == "Lists of your workshop."
    saved = ask(desk, "save_workshop")["download"]
    assert saved["name"] == "My workshop.workshop.json"
    assert saved["text"] == text
    assert ask(desk, "forget_workshop")["workshop"] == ""
    assert not lists(desk)["kept"]
    assert desk.design.machines == tools


def test_a_workshop_file_is_opened_and_kept(desk: Desk) -> None:
    ask(desk, "hello")
    reply = ask(desk, "open_workshop", text=SAMPLE)
    assert own.from_bytes(reply["workshop"].encode()) == SHED
    assert desk.design.machines == SHED.machines
    assert "Lime Kiln Lane shed" in reply["view"]["says"]
    assert ask(desk, "save_workshop")["download"]["name"] == "Lime Kiln Lane shed.workshop.json"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("{", "not complete JSON"),
        (" " * 1_000_001, "a workshop has a few kB"),
        (json.dumps({**own.to_document(Workshop()), "version": 9}), "newer Weighshaft"),
        ("\ud800", "UTF-8"),
    ],
)
def test_a_file_that_cannot_be_used_changes_nothing(desk: Desk, text: str, says: str) -> None:
    ask(desk, "hello", workshop=SAMPLE)
    before = (desk.design, desk.shop.kept)
    assert says in ask(desk, "open_workshop", text=text)["sorry"]
    assert (desk.design, desk.shop.kept) == before
    fresh = Desk(a_design(), desk.shelf, unworked)
    assert says in ask(fresh, "hello", workshop=text)["sorry"]
    assert fresh.design == a_design()
    assert fresh.shop.kept is None


def test_a_design_that_the_workshop_does_not_suit_is_not_lost(desk: Desk) -> None:
    ask(desk, "hello")

    def stubborn(design: Design, **_: Any) -> Work:
        if design.machines == SHED.machines:
            raise ValueError("These tools will not do.")
        return unworked(design)

    desk._work = stubborn
    desk.shop.kept = SHED
    reply = ask(desk, "sample", key="other")
    assert desk.design.name == "Other"
    assert desk.design.machines.lathe.change_wheels == (20, 40)
    assert "keeps its own" in reply["view"]["says"]
    assert "sorry" not in reply
    desk.shop.kept = None
    assert "will not do" in ask(desk, "open_workshop", text=SAMPLE)["sorry"]
    assert desk.shop.kept is None


def test_a_list_that_is_empty_can_be_begun_and_emptied_on_the_page(desk: Desk) -> None:
    ask(desk, "hello")
    for path, first in (
        ("machines.tools.taps", "M3"), ("machines.tools.reamers", 6.0),
        ("threads.rack.singles", "3.3 mm"),
    ):  # fmt: skip
        ask(desk, "more", path=path)
        assert desk.design.at(path) == (first,)
        ask(desk, "more", path=path)
        ask(desk, "fewer", path=f"{path}.1")
        ask(desk, "fewer", path=f"{path}.0")
        assert desk.design.at(path) == ()
    ask(desk, "more", path="machines.tools.taps")
    ask(desk, "edit", path="machines.tools.taps.0", value="1/4 × 40")
    ask(desk, "more", path="machines.rack.pieces")
    ask(desk, "edit", path="machines.rack.pieces.0.across", value="5/16 in")
    assert desk.design.machines.tools.taps == ("1/4 × 40",)
    assert to_document(desk.design)["machines"]["rack"]["pieces"][0]["across"] == "5/16 in"
    assert from_document(to_document(desk.design)) == desk.design
    reply = ask(desk, "edit", path="machines.tools.taps.0", value="M3.3")
    assert "is not a thread" in desk.wrong["machines.tools.taps.0"].says
    assert reply.get("sorry") is None
    assert shop.shop_payload(desk)["says"].startswith("Lists of this design")
