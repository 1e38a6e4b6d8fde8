"""The session behind the page: everything the page can do, done without a browser."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.designs import a_design
from weighshaft import places
from weighshaft.dashboard.asked import _DOES, answer
from weighshaft.dashboard.desk import SORRY, Desk
from weighshaft.dashboard.shelf import Shelf, file_stem
from weighshaft.dashboard.spelling import usual_unit
from weighshaft.design import Design, DesignRefused, from_document, read, to_document, write
from weighshaft.findings import Finding
from weighshaft.job import Work


def unworked(design: Design, findings: tuple[Finding, ...] = ()) -> Work:
    """Stand in for the engineering, so that the desk alone is tried."""
    return Work(design, None, None, None, None, None, None, findings)


@pytest.fixture
def desk(design: Design, tmp_path: Path) -> Desk:
    samples = tmp_path / "samples"
    samples.mkdir()
    write(samples / "first.loco.json", design)
    made = Desk(design, Shelf(tmp_path / "shelf", samples), unworked)
    made.set_unit("mm")
    return made


# --- sizes -------------------------------------------------------------------------------


def test_a_size_is_taken_as_typed_and_keeps_its_spelling(desk: Desk) -> None:
    assert desk.edit("cylinders.bore", "1 3/16 in")
    assert float(desk.design.cylinders.bore) == pytest.approx(30.1625)
    assert to_document(desk.design)["cylinders"]["bore"] == "1 3/16 in"


def test_a_bare_number_takes_the_unit_of_the_page(desk: Desk) -> None:
    desk.set_unit("in")
    assert desk.edit("cylinders.bore", "1 1/4")
    assert float(desk.design.cylinders.bore) == pytest.approx(31.75)
    desk.set_unit("mm")
    assert desk.edit("cylinders.bore", "31")
    assert float(desk.design.cylinders.bore) == 31


def test_a_bad_entry_says_so_at_its_field_and_leaves_the_last_good_design(desk: Desk) -> None:
    before = desk.design
    assert not desk.edit("cylinders.bore", "two")
    assert desk.design is before
    assert desk.wrong["cylinders.bore"].text == "two"
    assert "“two” is not a length" in desk.wrong["cylinders.bore"].says
    assert desk.edit("cylinders.bore", "30")
    assert desk.wrong == {}


def test_limits_are_said_in_the_unit_of_the_page(desk: Desk) -> None:
    desk.set_unit("in")
    assert not desk.edit("cylinders.bore", "20")
    says = desk.wrong["cylinders.bore"].says
    assert "20 in is out of range" in says
    assert says.endswith("in would do.")


def test_a_size_that_cannot_be_worked_leaves_the_last_good_design(
    design: Design, tmp_path: Path
) -> None:
    def locks(tried: Design) -> Work:
        if tried.cylinders.connecting_rod < 60:
            raise ValueError("The motion locks at 93 degrees.")
        if tried.cylinders.connecting_rod > 900:
            raise ZeroDivisionError
        return unworked(tried)

    desk = Desk(design, Shelf(tmp_path), locks)
    before = desk.design
    assert not desk.edit("cylinders.connecting_rod", "55 mm")
    assert desk.wrong["cylinders.connecting_rod"].says == "The motion locks at 93 degrees."
    assert not desk.edit("cylinders.connecting_rod", "950 mm")
    assert desk.wrong["cylinders.connecting_rod"].says == SORRY
    assert desk.design is before
    assert not desk.history.undoes


@pytest.mark.parametrize(
    "path",
    [
        "name",
        "notes",
        "fixed",
        "motion.gear",
        "cylinders",
        "cylinders.nothing",
        "cylinders.bore.real",
        "cylinders.__class__",
        "wheels.wheelbase",
        "wheels.wheelbase.-1",
        "",
        ".",
        "x" * 5000,
    ],
)
def test_only_sizes_can_be_edited(desk: Desk, path: str) -> None:
    before = desk.design
    with pytest.raises(DesignRefused):
        desk.edit(path, "1")
    assert desk.design is before


def test_one_of_several_is_edited_by_its_place(desk: Desk) -> None:
    assert desk.edit("wheels.wheelbase.0", "61.5")
    assert float(desk.design.wheels.wheelbase[0]) == 61.5


def test_a_drag_is_one_step_to_undo(desk: Desk) -> None:
    before = desk.design
    for number in (29.0, 29.5, 30.0, 30.5):
        desk.slide("cylinders.bore", number, going_on=number != 29.0)
    assert float(desk.design.cylinders.bore) == 30.5
    desk.undo()
    assert desk.design == before
    desk.redo()
    assert float(desk.design.cylinders.bore) == 30.5
    desk.slide("cylinders.bore", 31.0, going_on=False)
    desk.undo()
    assert float(desk.design.cylinders.bore) == 30.5


def test_a_line_dragged_in_inches_leaves_a_fraction(desk: Desk) -> None:
    desk.set_unit("in")
    desk.slide("cylinders.bore", 1.203125)
    assert to_document(desk.design)["cylinders"]["bore"] == "1 13/64 in"


def test_a_finding_is_mended_to_the_figure_on_its_button(desk: Desk) -> None:
    assert desk.apply("cylinders.bore", 28.57499999)
    assert to_document(desk.design)["cylinders"]["bore"] == "28.57"
    desk.set_unit("in")
    assert desk.apply("cylinders.bore", 28.575)
    assert to_document(desk.design)["cylinders"]["bore"] == "1 1/8 in"


def test_valve_and_gear_change_admission_together(desk: Desk) -> None:
    other = {"inside": "outside", "outside": "inside"}[desk.design.motion.valve.admission]
    assert desk.edit("motion.valve.admission", other)
    assert desk.design.motion.gear.admission == desk.design.motion.valve.admission == other


def test_another_axle_brings_its_side_play(desk: Desk) -> None:
    axles = len(desk.design.wheels.wheelbase) + 1
    play = len(desk.design.wheels.across.side_play)
    desk.more("wheels.wheelbase")
    assert len(desk.design.wheels.wheelbase) == axles
    assert len(desk.design.wheels.across.side_play) == (play if play == 1 else axles + 1)
    desk.fewer("wheels.wheelbase.0")
    assert len(desk.design.wheels.wheelbase) == axles - 1
    assert len(desk.design.wheels.across.side_play) == play
    with pytest.raises(DesignRefused):
        desk.more("cylinders.bore")
    with pytest.raises(DesignRefused):
        desk.fewer("wheels.wheelbase.77")


# --- notes, marks, names -----------------------------------------------------------------


def test_notes_and_marks_are_part_of_the_design_and_of_its_history(desk: Desk) -> None:
    notes, fixed = dict(desk.design.notes), desk.design.fixed
    notes.pop("cylinders.bore", None)
    assert "cylinders.bore" not in fixed
    desk.note("cylinders.bore", "  castings <b>bought</b> at the show ")
    desk.fix("cylinders.bore")
    said = "castings <b>bought</b> at the show"
    assert desk.design.notes == {**notes, "cylinders.bore": said}
    assert desk.design.fixed == (*fixed, "cylinders.bore")
    desk.fix("cylinders.bore", False)
    assert desk.design.fixed == fixed
    desk.undo()
    assert desk.design.fixed == (*fixed, "cylinders.bore")
    desk.undo()
    assert desk.design.fixed == fixed
    desk.note("cylinders.bore", " ")
    assert desk.design.notes == notes
    for path in ("nothing.at.all", "name", "motion"):
        with pytest.raises(DesignRefused):
            desk.note(path, "x")
        with pytest.raises(DesignRefused):
            desk.fix(path)


def test_an_engine_keeps_a_name(desk: Desk) -> None:
    desk.rename("  Heather  Bell ")
    assert desk.design.name == "Heather Bell"
    with pytest.raises(DesignRefused):
        desk.rename("   ")
    assert desk.design.name == "Heather Bell"


def test_the_page_opens_in_the_unit_in_which_the_model_was_typed(design: Design) -> None:
    document = to_document(design)
    sizes = document["cylinders"]
    inches = {key: f"{one} in" for key, one in (("bore", 1), ("stroke", 2))}
    metric = from_document({**document, "cylinders": {**sizes, "bore": 25, "stroke": 50}})
    imperial = from_document({**document, "cylinders": {**sizes, **inches}})
    assert usual_unit(metric) in ("mm", "in")
    # a model that is all in inches opens in inches, whatever the prototype was measured in
    assert usual_unit(_all_spelt(imperial, "in")) == "in"
    assert usual_unit(_all_spelt(metric, "mm")) == "mm"


def _all_spelt(design: Design, unit: str) -> Design:
    import dataclasses

    from weighshaft.design.typed import Length

    def spelt(value: Any) -> Any:
        if isinstance(value, Length):
            return Length(f"{value / 25.4:.6f} in" if unit == "in" else f"{float(value):.6f} mm")
        if isinstance(value, tuple):
            return tuple(map(spelt, value))
        if dataclasses.is_dataclass(value) and not isinstance(value, type):
            changed = {
                f.name: spelt(getattr(value, f.name)) for f in dataclasses.fields(value) if f.init
            }
            return type(value)(**changed)
        return value

    chapters = ("cylinders", "motion", "wheels", "threads", "nozzle")
    return dataclasses.replace(design, **{one: spelt(getattr(design, one)) for one in chapters})


# --- files -------------------------------------------------------------------------------


def test_a_design_is_saved_and_found_again(desk: Desk) -> None:
    desk.edit("cylinders.bore", "1 3/16 in")
    assert desk.history.unsaved
    desk.save()
    assert not desk.history.unsaved
    key = desk.saved_as
    desk.new_from_sample("first")
    assert desk.saved_as == ""
    desk.open(key)
    assert to_document(desk.design)["cylinders"]["bore"] == "1 3/16 in"
    assert desk.saved_at > 0


def test_saving_under_a_new_name_never_replaces_another_design(desk: Desk) -> None:
    desk.save_as("one")
    desk.edit("cylinders.bore", "31")
    desk.save_as("two")
    with pytest.raises(DesignRefused, match="already a design “one”"):
        desk.save_as("one")
    desk.open("one")
    assert float(desk.design.cylinders.bore) != 31


def test_a_duplicate_is_a_new_design_until_it_is_saved(desk: Desk) -> None:
    desk.save()
    first = desk.saved_as
    desk.duplicate()
    assert desk.saved_as == ""
    desk.save()
    assert desk.saved_as != first
    assert {one.key for one in desk.shelf.designs()} == {first, desk.saved_as}


@pytest.mark.parametrize(
    "name", ["../../etc/passwd", "a/b\\c", "...", "con", "x" * 400, "né — №4?*:|<>", ".hidden"]
)
def test_a_name_never_leads_out_of_the_shelf(desk: Desk, name: str) -> None:
    try:
        desk.save_as(name)
    except DesignRefused:
        assert file_stem("x" + name)
        return
    written = list(desk.shelf.folder.rglob("*.loco.json"))
    assert [one.parent for one in written] == [desk.shelf.folder]
    assert not written[0].name.startswith(".")
    assert len(written[0].name) < 120


@pytest.mark.parametrize("key", ["../samples/first", "/etc/passwd", "first.loco.json", "", "nope"])
def test_only_what_stands_on_the_list_can_be_opened(desk: Desk, key: str) -> None:
    for open_it in (desk.open, desk.new_from_sample):
        with pytest.raises(DesignRefused):
            open_it(key)


def test_a_download_can_be_uploaded_again(desk: Desk) -> None:
    desk.edit("cylinders.bore", "1 3/16 in")
    desk.note("cylinders.bore", "as cast")
    name, text = desk.download()
    assert name.endswith(".loco.json")
    before = desk.design
    desk.new_from_sample("first")
    desk.upload(text.encode())
    assert desk.design == before
    with pytest.raises(DesignRefused):
        desk.upload(b"\x00\x01 not a design")
    assert desk.design == before


def test_what_the_browser_kept_comes_back_beside_its_file(desk: Desk) -> None:
    desk.save()
    desk.edit("cylinders.bore", "1 3/16 in")
    kept, saved_as = desk.autosaved(), desk.saved_as
    again = Desk(a_design(), desk.shelf, unworked)
    again.restore(kept, saved_as, "in")
    assert again.design == desk.design
    assert again.unit == "in"
    assert [one.path for one in again.history.unsaved] == ["cylinders.bore"]
    again.restore(kept, "a file that is gone")
    assert again.design == desk.design
    assert again.saved_as == ""
    for broken in ("", "{}", kept[:-20], kept.replace('"version": 1', '"version": 99')):
        with pytest.raises(DesignRefused):
            again.restore(broken)
    assert again.design == desk.design


# --- messages from the page ----------------------------------------------------------------


def test_every_message_has_one_reply_of_plain_data(desk: Desk) -> None:
    for message in (
        {"do": "hello"},
        {"do": "beat"},
        {"do": "edit", "path": "cylinders.bore", "value": "29"},
        {"do": "slide", "path": "cylinders.bore", "number": 29.5, "going_on": True, "first": True},
        {"do": "note", "path": "cylinders.bore", "text": "so"},
        {"do": "fix", "path": "cylinders.bore", "settled": True},
        {"do": "unit", "unit": "in"},
        {"do": "undo"},
        {"do": "redo"},
        {"do": "go", "chapter": "whole"},
        {"do": "rename", "name": "Another"},
        {"do": "save"},
        {"do": "paper"},
        {"do": "download"},
        {"do": "sample", "key": "first"},
        {"do": "afresh"},
    ):
        reply = answer(desk, {**message, "id": 7})
        assert reply.content["id"] == 7
        assert not reply.content.get("sorry"), message
        json.dumps(reply.content, allow_nan=False)


def test_what_cannot_be_done_is_said_in_one_sentence(desk: Desk) -> None:
    reply = answer(desk, {"id": 1, "do": "open", "key": "../x"})
    assert "no design" in reply.content["sorry"]
    assert reply.content["view"]["head"]["name"] == desk.design.name


def test_a_fault_of_ours_never_becomes_a_traceback(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fails() -> None:
        raise RuntimeError("inner secret")

    monkeypatch.setattr(desk, "undo", fails)
    reply = answer(desk, {"id": 3, "do": "undo"})
    assert reply.content == {"sorry": SORRY, "id": 3}
    assert "inner secret" in caplog.text


_ANY = st.recursive(
    st.none() | st.booleans() | st.floats() | st.text(max_size=20) | st.integers(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=4,
)
_HARMLESS = sorted(set(_DOES) - {"save", "save_as"})
_FIELDS = ("path", "value", "number", "text", "key", "chapter", "kind", "unit", "name", "kept")


@given(st.sampled_from(_HARMLESS), st.dictionaries(st.sampled_from(_FIELDS), _ANY))
def test_no_message_breaks_the_desk(do: str, fields: dict[str, Any]) -> None:
    desk = Desk(_DESIGN, Shelf(Path("nowhere"), Path("nowhere")), unworked)
    reply = answer(desk, {"id": 1, "do": do, **fields})
    assert reply.content["id"] == 1
    json.dumps(reply.content, allow_nan=False)
    assert answer(desk, {"id": 2, "do": "look"}).content["view"]


_DESIGN = a_design()


@pytest.mark.parametrize("message", [None, 7, "undo", [], {}, {"do": "no such thing"}, {"do": []}])
def test_a_message_that_is_none_is_answered_too(desk: Desk, message: Any) -> None:
    assert answer(desk, message).content["sorry"] == SORRY


def test_a_page_that_comes_up_takes_the_sample_or_what_was_kept(desk: Desk) -> None:
    desk.edit("cylinders.bore", "30")
    kept = desk.autosaved()
    reply = answer(desk, {"id": 1, "do": "hello", "sample": "no such"})
    assert "no design “no such”" in reply.content["sorry"]
    reply = answer(desk, {"id": 1, "do": "hello", "kept": kept, "chapter": "whole"})
    assert reply.content["sorry"] == ""
    assert reply.content["view"]["chapter"] == "whole"
    reply = answer(desk, {"id": 1, "do": "hello", "kept": "{]"})
    assert "JSON" in reply.content["sorry"]
    assert float(desk.design.cylinders.bore) == 30


@pytest.mark.parametrize("sample", ["tansy", "hartfell", "dunnock"])
def test_a_gear_is_fitted_to_the_events_wanted(sample: str) -> None:
    desk = Desk(read(places.samples() / f"{sample}.loco.json"))
    desk.edit("motion.wanted.cutoff", "76")
    before = desk.design.motion.gear
    desk.fit()
    assert desk.work.motion is not None
    assert desk.work.motion.cutoff_full == pytest.approx(76.0, abs=0.1)
    assert desk.work.motion.lead_full == pytest.approx(desk.design.motion.wanted.lead, abs=0.01)
    desk.undo()
    assert desk.design.motion.gear == before


def test_fitting_leaves_a_bought_eccentric_alone() -> None:
    desk = Desk(read(places.samples() / "tansy.loco.json"))
    desk.fix("motion.gear.eccentric_throw")
    with pytest.raises(DesignRefused, match="bought part"):
        desk.fit()


def test_lists_of_groups_grow_from_nothing_and_their_sizes_can_be_typed(desk: Desk) -> None:
    for path, size, typed in (
        ("valve_setting.readings", "number", "12.5"),
        ("tolerances.made", "made", "turned"),
        ("pivots.lengths", "up", "2 mm"),
    ):
        before = len(desk.design.at(path))
        desk.more(path)
        several = desk.design.at(path)
        assert len(several) == before + 1
        place = f"{path}.{before}.{size}"
        assert desk.edit(place, typed), desk.wrong
        assert desk.design.at(place) in (12.5, "turned", 2.0)
        assert type(desk.design.at(path)[0]) is type(several[0])
        desk.fewer(f"{path}.{before}")
        assert len(desk.design.at(path)) == before


def test_another_reading_takes_over_where_but_not_what_was_read(design: Design) -> None:
    desk = Desk(design, work=unworked)
    path = "valve_setting.readings"
    desk.more(path)
    assert desk.edit(f"{path}.0.end", "back")
    assert desk.edit(f"{path}.0.number", "180.5")
    desk.more(path)
    first, second = desk.design.valve_setting.readings[-2:]
    assert first.number == 180.5
    assert (second.end, second.number, second.length) == ("back", None, None)
    assert first.told == "right back, full forward, air first heard 180.5°"
    assert second.told.endswith("not taken yet")
