"""The workshop file: what it keeps, what it refuses, and what a design takes from it."""

from __future__ import annotations

import dataclasses
import json
import sys
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.designs import ROOT, a_design
from weighshaft.design import Workshop, to_document, versions, with_workshop, workshop_of
from weighshaft.design import from_document as design_from
from weighshaft.design import workshop as own
from weighshaft.design.document import DesignRefused
from weighshaft.design.listed import workshop_text
from weighshaft.design.schema import PUBLISHED_WORKSHOP, workshop_schema_text
from weighshaft.design.typed import Length
from weighshaft.threads.decisions import Rack as Drills
from weighshaft.trade.threads import threads
from weighshaft.workshop.machines import SHAPES, TUBE, Machines, Piece, Rack, Tools

SAMPLE = ROOT / "sample_designs" / "lime_kiln_lane.workshop.json"


def document(**more: Any) -> dict[str, Any]:
    return {"format": "weighshaft-workshop", "version": 1, **more}


def test_the_sample_comes_back_to_the_byte() -> None:
    assert own.to_bytes(own.read(SAMPLE)) == SAMPLE.read_bytes()


def test_a_size_keeps_the_spelling_in_which_it_was_typed() -> None:
    made = own.from_document(document(machines={"tools": {"reamers": ["5/16 in", 6]}}))
    assert made.machines.tools.reamers[0] == pytest.approx(7.9375)
    again = own.to_document(own.from_bytes(own.to_bytes(made)))
    assert again["machines"]["tools"]["reamers"] == ["5/16 in", 6.0]
    assert list(again)[:2] == ["format", "version"]


LENGTH = st.one_of(
    st.floats(1.0, 30.0).map(lambda mm: round(mm, 3)),
    st.integers(3, 60).map(lambda n: f"{n}/64 in"),
)
PIECES = st.builds(
    lambda shape, across, second, length, number: {
        "shape": shape, "across": across, "length": length, "number": number,
        **({"second": second} if shape != TUBE else {}),
    },
    st.sampled_from(SHAPES), LENGTH, LENGTH, st.floats(5, 6000), st.integers(1, 500),
)  # fmt: skip
THREADS = st.lists(st.sampled_from([one.designation for one in threads()]), max_size=20)


@given(
    THREADS, THREADS, st.lists(LENGTH, max_size=20), st.lists(PIECES, max_size=8),
    st.lists(st.sampled_from(["No. 50", "F", "5/32 in", "3.17 mm", "1.8"]), max_size=5),
    st.text(st.characters(codec="utf-8", exclude_characters="\0"), min_size=1, max_size=120),
)  # fmt: skip
def test_whatever_is_owned_comes_back(
    taps: list[str], dies: list[str], reamers: list[Any], pieces: list[Any], singles: list[str],
    name: str,
) -> None:  # fmt: skip
    written = document(
        name=name,
        drills={"singles": singles, "letter": False},
        machines={
            "tools": {"taps": taps, "dies": dies, "reamers": reamers},
            "rack": {"pieces": pieces},
        },
    )
    made = own.from_document(written)
    again = own.from_bytes(own.to_bytes(made))
    assert own.to_document(again) == own.to_document(made)
    assert again == made
    assert own.to_document(again)["machines"]["tools"]["reamers"] == reamers
    assert own.to_document(again)["drills"]["singles"] == singles
    assert workshop_text(made).startswith(name.splitlines()[0] if name.splitlines() else "")


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (document(colour="green"), "colour: this is not a size that a workshop holds"),
        (document(machines={"lathe": {"beds": 2}}), "machines.lathe.beds: this is not a size"),
        (document(version=2), "saved by a newer Weighshaft: its file has version 2"),
        (document(version=0), "missing or not a number"),
        ({"format": "weighshaft-design", "version": 1}, "This is not a workshop"),
        ([], "a JSON object is needed"),
        (document(machines={"tools": {"taps": ["M3.3"]}}), "Taps owned: “M3.3” is not a thread"),
        (document(machines={"tools": {"dies": ["M3", "x"]}}), "machines.tools.dies: Dies owned"),
        (document(machines={"tools": {"reamers": [0.01]}}), "0.5 to 60 mm would do"),
        (document(drills={"singles": ["banana"]}), "“banana” is not a drill"),
        (
            document(drills=dict.fromkeys(("metric", "number", "letter", "fraction"), False)),
            "at least one set or one single drill",
        ),
        (
            document(machines={"rack": {"pieces": [{"shape": "tube", "across": 6, "second": 3}]}}),
            "3 mm leaves no bore in 6 mm; less than 3 mm would do",
        ),
        (document(name=""), "name: some text is needed"),
        (document(machines={"tools": {"taps": ["M3"] * 61}}), "at most 60"),
    ],
)
def test_what_is_wrong_is_said_with_its_place(data: Any, says: str) -> None:
    with pytest.raises(DesignRefused) as refused:
        own.from_bytes(json.dumps(data).encode())
    assert says in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"\xff\xfe", "not text in UTF-8"),
        (b'{"format": "weighshaft-workshop"', "not complete JSON"),
        (b" " * 1_000_001, "a workshop has a few kB"),
        (b'{"format": 1, "format": 2}', "stands twice"),
        (b'{"format": "weighshaft-workshop", "version": 1, "x": NaN}', "NaN is not a number"),
    ],
)
def test_what_is_no_file_of_ours_is_said(data: bytes, says: str) -> None:
    with pytest.raises(DesignRefused, match=says):
        own.from_bytes(data)


def test_it_is_written_whole_or_not_at_all_and_versions_are_kept(tmp_path: Path) -> None:
    path = tmp_path / "shed.workshop.json"
    own.write(path, Workshop(name="First"))
    own.write(path, Workshop(name="Second"))
    assert own.read(path).name == "Second"
    (before,) = versions(path, own.SUFFIX)
    assert own.read(before).name == "First"
    assert not list(tmp_path.rglob("*.part"))
    with pytest.raises(DesignRefused):
        own.write(path, Workshop(name=""))
    assert own.read(path).name == "Second"
    with pytest.raises(DesignRefused, match="cannot be opened: there is no such file"):
        own.read(tmp_path / "none.workshop.json")


# --- what a design takes from it ---------------------------------------------------------


def test_a_design_takes_its_lists_and_keeps_the_rest() -> None:
    design, shed = a_design(), own.read(SAMPLE)
    taken = with_workshop(design, shed)
    assert taken.machines == shed.machines
    assert taken.threads.rack == shed.drills
    assert with_workshop(taken, workshop_of(design)) == design
    rest = dataclasses.replace(
        taken, machines=design.machines,
        threads=dataclasses.replace(taken.threads, rack=design.threads.rack),
    )  # fmt: skip
    assert rest == design


def test_notes_on_what_the_workshop_has_no_place_for_are_left_out() -> None:
    machines = Machines(rack=Rack(pieces=(Piece(), Piece())))
    design = dataclasses.replace(
        a_design(),
        machines=machines,
        notes={"machines.rack.pieces.1.across": "bent", "cylinders.bore": "bought"},
        fixed=("machines.rack.pieces.1.across", "cylinders.bore"),
    )
    taken = with_workshop(design, Workshop())
    assert dict(taken.notes) == {"cylinders.bore": "bought"}
    assert taken.fixed == ("cylinders.bore",)
    assert design_from(to_document(taken)) == taken


def test_a_design_with_lists_of_its_own_still_loads() -> None:
    older = to_document(a_design())
    older["machines"] = {"lathe": {"leadscrew": "1/8 in", "change_wheels": [20, 40]}}
    del older["threads"]["rack"]["singles"]
    made = design_from(older)
    assert made.machines.lathe.change_wheels == (20, 40)
    assert made.machines.tools == Tools()
    assert made.threads.rack == Drills()


def test_its_lists_in_words_keep_what_was_typed() -> None:
    shed = Workshop(machines=Machines(tools=Tools(reamers=(Length("5/16 in"), 6.0))))
    text = workshop_text(shed)
    assert "5/16 in, 6 mm" in text
    assert text.count("not told") >= 4
    assert max(map(len, text.splitlines())) <= 92


# --- schema and place --------------------------------------------------------------------


def test_the_published_schema_is_current_and_agrees_with_the_reader() -> None:
    assert PUBLISHED_WORKSHOP.read_text(encoding="utf-8") == workshop_schema_text(), (
        "run python -m weighshaft.design.schema"
    )
    schema = json.loads(PUBLISHED_WORKSHOP.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(json.loads(SAMPLE.read_text(encoding="utf-8")), schema)
    jsonschema.validate(own.to_document(Workshop()), schema)
    for wrong in ({"version": 2}, {"colour": "green"}, {"format": "other"}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate({**own.to_document(Workshop()), **wrong}, schema)


@pytest.mark.parametrize(
    ("system", "variable", "value", "place"),
    [
        ("linux", "XDG_CONFIG_HOME", "/etc/mine", "/etc/mine/weighshaft"),
        ("linux", "XDG_CONFIG_HOME", "not/absolute", "HOME/.config/weighshaft"),
        ("linux", "XDG_CONFIG_HOME", "", "HOME/.config/weighshaft"),
        ("darwin", "HOME", "", "HOME/Library/Application Support/Weighshaft"),
        ("win32", "APPDATA", "/roaming", "/roaming/Weighshaft"),
    ],
)
def test_the_usual_place_goes_by_the_system(
    system: str, variable: str, value: str, place: str, monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:  # fmt: skip
    monkeypatch.setattr(sys, "platform", system)
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    monkeypatch.setenv(variable, value)
    wanted = Path(place.replace("HOME", str(tmp_path))) / "workshop.workshop.json"
    assert own.usual_file() == wanted
