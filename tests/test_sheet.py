"""The decision sheet as data and as text."""

from __future__ import annotations

import dataclasses
import json
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest

from tests.designs import SAMPLES
from weighshaft import job
from weighshaft.design import CHAPTERS, Design, from_document, read, to_document
from weighshaft.motion.events import Event
from weighshaft.sheet import as_data, decision_sheet, sheet_text
from weighshaft.sizes import figure

ENDS = ("front", "back")
EVENTS = ("admission", "cutoff", "release", "compression")


@dataclass(frozen=True, kw_only=True)
class Inner:
    width: float = figure("Width")
    curve: Any = None


@dataclass(frozen=True, kw_only=True)
class Outer:
    length: float = figure("Length")
    inner: Inner
    workings: tuple[Any, ...] = ()
    findings: tuple[Any, ...] = ()


def test_plain_values() -> None:
    assert as_data((1, 2.5, "a", None, True)) == [1, 2.5, "a", None, True]
    assert as_data(1 / 3) == 0.333333333
    assert as_data(np.float64(1.5)) == 1.5
    assert as_data(np.int64(3)) == 3
    assert as_data({"a": (1,)}) == {"a": [1]}
    assert as_data(Event(angle=90.0, percent=50.0)) == 50.0


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf"), np.float64("nan")])
def test_what_is_no_number_is_null(value: float) -> None:
    assert as_data(value) is None
    assert as_data(np.array([1.0, value])) == [1.0, None]


def test_curves_workings_and_findings_of_chapters_are_left_out() -> None:
    made = as_data(Outer(length=2.0, inner=Inner(width=1.0, curve=np.zeros((3, 2))), workings=(1,)))
    assert made == {"length": 2.0, "inner": {"width": 1.0}}
    assert as_data({"short": np.zeros(60), "long": np.zeros(61)}) == {"short": [0.0] * 60}


@pytest.fixture(scope="module")
def work(design: Design) -> job.Work:
    return job.work(design)


def test_the_sheet_is_json_with_stable_keys(work: job.Work) -> None:
    sheet = json.loads(json.dumps(decision_sheet(work), allow_nan=False))
    assert list(sheet) == ["format", "version", "name", "design", "findings", *CHAPTERS]
    assert (sheet["format"], sheet["version"]) == ("weighshaft-sheet", 1)
    assert from_document(sheet["design"]) == work.design
    assert len(sheet["findings"]) == len(work.findings)
    assert {"level", "chapter", "fields", "says", "mend", "source", "change"} == set(
        sheet["findings"][0]
    )
    assert sheet["cylinders"]["tractive_effort"] == pytest.approx(work.cylinders.tractive_effort)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name)
def test_events_are_listed_over_the_reversers(path: Any) -> None:
    worked = job.work(read(path))
    assert worked.motion is not None
    motion = decision_sheet(worked)["motion"]
    assert [one["reverser"] for one in motion["events"]] == motion["reversers"]
    for row, result in zip(motion["events"], worked.motion.events, strict=True):
        assert row["travel"] == pytest.approx(result.travel)
        for end in ENDS:
            assert {*EVENTS, "lead", "port_opening"} <= set(row[end])
            for name in EVENTS:
                event = getattr(getattr(result, end), name)
                assert row[end][name] == (None if event is None else pytest.approx(event.percent))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name)
def test_every_sample_is_a_good_engine(path: Any) -> None:
    assert [one.says for one in job.work(read(path)).findings if one.level == "stop"] == []


def test_the_text_says_what_is_wrong_first(work: job.Work) -> None:
    text = sheet_text(work)
    assert text.startswith(work.design.name)
    assert text.index("LEADING PARTICULARS") < text.index("FINDINGS") < text.index("1  PROTOTYPE")
    assert "nan" not in text.lower().replace("tenant", "")
    bore = f"{work.cylinders.tractive_effort:.4g} N"
    assert bore in text
    assert all(len(line) <= 100 for line in text.splitlines())


def test_the_text_in_inches_shows_no_millimetres_of_ours(work: job.Work) -> None:
    assert "Valve events, in and % of the stroke" in sheet_text(work, "in")
    assert "Valve events, mm and % of the stroke" in sheet_text(work, "mm")


def test_a_chapter_that_cannot_be_worked_is_said(work: job.Work) -> None:
    locked = dataclasses.replace(work, motion=None)
    assert "cannot be worked" in sheet_text(locked)
    assert decision_sheet(locked)["motion"] is None


def test_what_was_typed_cannot_steer_the_terminal(design: Design) -> None:
    hostile = dataclasses.replace(
        design, name="\x1b[31mTansy\x07", notes={"cylinders.bore": "a\x1b]0;x\x07\u202eb"}
    )
    text = sheet_text(job.work(hostile))
    assert all(sign.isprintable() or sign == "\n" for sign in text)
    assert json.dumps(to_document(hostile))
