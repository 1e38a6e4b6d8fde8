"""Sizes as the page lists them, the way they are spelt, and the lines that are dragged."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.designs import ROOT, a_design
from weighshaft import job
from weighshaft.dashboard.chapters import CHAPTERS
from weighshaft.dashboard.margin import findings_payload
from weighshaft.dashboard.rows import MOST_MAIN, Around, Wrong, sizes_payload
from weighshaft.dashboard.sliders import shown, slider, text_at
from weighshaft.dashboard.spelling import as_typed, in_box, plain, spelt, with_unit
from weighshaft.design import Design, read
from weighshaft.design.document import typed_value
from weighshaft.design.typed import Length, LengthUnit
from weighshaft.findings import Finding, Suggestion
from weighshaft.sizes import Size, sizes_of

UNITS: tuple[LengthUnit, ...] = ("mm", "in")


def every_row(payload: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """Yield each size once, wherever the page has put it."""
    yield from payload["main"]
    stack = list(payload["groups"])
    while stack:
        group = stack.pop()
        yield from group["rows"]
        stack.extend(group["groups"])


def every_size(decisions: Any, path: str) -> Iterator[str]:
    """Yield the paths of all described sizes, straight from the dataclasses."""
    for one in dataclasses.fields(decisions):
        value, place = getattr(decisions, one.name), f"{path}.{one.name}"
        if dataclasses.is_dataclass(value):
            yield from every_size(value, place)
        elif isinstance(value, tuple) and value and dataclasses.is_dataclass(value[0]):
            for index, inner in enumerate(value):
                yield from every_size(inner, f"{place}.{index}")
        elif one.name in sizes_of(type(decisions)):
            yield place


@pytest.mark.parametrize("chapter", [one.key for one in CHAPTERS])
@pytest.mark.parametrize("page", UNITS)
def test_every_size_has_its_row_and_only_one(
    design: Design, chapter: str, page: LengthUnit
) -> None:
    payload = sizes_payload(design, chapter, Around(page=page))
    paths = [row["path"] for row in every_row(payload)]
    # a fit is written by its button and shown in the pictures; nobody types it
    typed = [one for one in every_size(design.at(chapter), chapter) if "bench.fitted" not in one]
    assert sorted(paths) == sorted(typed)
    assert 1 <= len(payload["main"]) <= MOST_MAIN


def test_what_was_typed_stands_in_its_box(design: Design) -> None:
    around = Around(
        page="mm",
        suggestions={"cylinders.bore": Suggestion("cylinders.bore", 31.0, "scaled")},
        findings=(Finding("check", "cylinders", ("cylinders.bore",), "so"),),
        wrong={"cylinders.stroke": Wrong("two", "“two” is not a length.")},
    )
    design = design.changed({"cylinders.bore": "1 1/8 in"})
    marked = dataclasses.replace(design, notes={"cylinders.bore": "why"}, fixed=("cylinders.bore",))
    rows = {row["path"]: row for row in every_row(sizes_payload(marked, "cylinders", around))}
    bore = rows["cylinders.bore"]
    assert (bore["text"], bore["unit"], bore["typed"]) == ("28.57", "mm", "1 1/8 in")
    assert (bore["note"], bore["fixed"], bore["level"]) == ("why", True, "check")
    assert bore["suggest"] == {"text": "31 mm", "at": 31.0, "why": "scaled", "same": False}
    assert bore["line"]["low"] < 28.575 < 31 < bore["line"]["high"]
    assert rows["cylinders.stroke"]["wrong"] == {"text": "two", "says": "“two” is not a length."}


def test_a_line_keeps_its_limits_while_it_is_dragged(design: Design) -> None:
    around = Around(page="mm")

    def line(text: str) -> tuple[float, float]:
        changed = design.changed({"cylinders.bore": text})
        rows = every_row(sizes_payload(changed, "cylinders", around))
        found = next(row["line"] for row in rows if row["path"] == "cylinders.bore")
        return found["low"], found["high"]

    first = line("28")
    assert line("30") == line("26") == first
    low, high = line(str(first[1]))
    assert (low, high) != first
    assert low < first[1] < high


# --- spelling ------------------------------------------------------------------------------

BORE = Size("Bore", "mm", 3, 200)


@pytest.mark.parametrize(
    ("typed", "page", "box", "beside"),
    [
        ("5/16 in", "in", "5/16", ""),
        ("5/16 in", "mm", "7.938", "5/16 in"),
        ("12 thou", "in", "12 thou", ""),
        ("8 mm", "mm", "8", ""),
        ("8", "mm", "8", ""),
        ("8", "in", "0.3150", "8 mm"),
        ("1 ft 10 3/4 in", "in", "1 ft 10 3/4 in", ""),
        ("0.3125\"", "in", "0.3125", ""),
    ],
)  # fmt: skip
def test_a_box_shows_what_was_typed_or_the_page_unit(
    typed: str, page: LengthUnit, box: str, beside: str
) -> None:
    assert in_box(Length(typed), BORE, page) == box
    assert as_typed(Length(typed), BORE, page) == beside


@pytest.mark.parametrize(
    ("value", "unit", "page", "says"),
    [
        (24.0, "deg", "mm", "24°"),
        (5.5, "bar", "in", "5.5 bar"),
        (645.16, "mm2", "in", "1 in²"),
        (645.16, "mm2", "mm", "645.2 mm²"),
        (22.5, "scale", "mm", "1:22.5"),
        (None, "mm", "mm", "unknown"),
        (True, "yes/no", "mm", "yes"),
        (0.00001234, "g", "mm", "0.00001234 g"),
        (123456.0, "N", "mm", "123456 N"),
        (float("nan"), "N", "mm", "none N"),
    ],
)
def test_figures_are_written_as_builders_write_them(
    value: Any, unit: Any, page: LengthUnit, says: str
) -> None:
    assert with_unit(value, unit, page) == says


@given(st.floats(1e-6, 1e8))
def test_a_plain_number_is_true_to_its_figures_and_has_no_exponent(value: float) -> None:
    text = plain(value)
    assert "e" not in text
    assert float(text) == pytest.approx(value, rel=6e-4, abs=6e-9)


# --- lines to drag ---------------------------------------------------------------------------


@given(
    value=st.floats(-500, 500),
    low=st.floats(-1000, 0),
    high=st.floats(0.5, 1000),
    page=st.sampled_from(UNITS),
    unit=st.sampled_from(["mm", "deg", "bar", "%", "ratio", "kg"]),
)
def test_a_line_holds_the_value_and_stays_within_what_makes_sense(
    value: float, low: float, high: float, page: LengthUnit, unit: Any
) -> None:
    assume(low <= value <= high)
    about = Size("Size", unit, low, high)
    line = slider(value, about, page)
    if line is None:
        return
    at = shown(value, about, page)
    assert line.low - line.step <= at <= line.high + line.step
    assert shown(low, about, page) - 1e-6 <= line.low < line.high
    assert line.high <= shown(high, about, page) + 1e-6
    assert (line.high - line.low) / line.step + 1e-9 >= 2
    assert (line.high - line.low) / line.step <= 5000


@given(st.floats(0.5, 300), st.floats(0, 1), st.sampled_from(UNITS))
def test_a_place_on_the_line_is_a_size_that_can_be_typed(
    value: float, share: float, page: LengthUnit
) -> None:
    line = slider(value, BORE, page) if BORE.low <= value <= BORE.high else None
    assume(line is not None)
    assert line is not None
    number = line.low + round(share * (line.high - line.low) / line.step) * line.step
    back = typed_value(BORE, text_at(number, BORE, page), page)
    assert shown(back, BORE, page) == pytest.approx(number, abs=1e-4)


def test_a_line_reaches_the_suggestion() -> None:
    line = slider(10, BORE, "mm", 40)
    assert line is not None
    assert line.holds(40)
    assert line.holds(10)


# --- findings --------------------------------------------------------------------------------


def test_a_finding_carries_the_button_that_mends_it() -> None:
    design = a_design()
    finding = Finding(
        "stop", "cylinders", ("cylinders.bore", "no.such"), "Too small.", "Bore it out.",
        change=("cylinders.bore", 31.75),
    )  # fmt: skip
    fine = Finding("fine", "cylinders", (), "Well.")
    first, second = findings_payload(design, (fine, finding), "in")
    assert (first["level"], second["level"]) == ("stop", "fine")
    assert first["labels"] == ["Bore"]
    assert first["change"] == {
        "path": "cylinders.bore", "text": "1 1/4", "says": "Set bore to 1 1/4 in",
    }  # fmt: skip
    odd = dataclasses.replace(finding, change=("no.such.size", 1.0))
    assert findings_payload(design, (odd,), "mm")[0]["change"] is None


def test_spelling_of_everything_is_finite_text(design: Design) -> None:
    for chapter in CHAPTERS:
        for row in every_row(sizes_payload(design, chapter.key, Around(page="in"))):
            assert isinstance(row["text"], str)
            if row["line"]:
                assert all(math.isfinite(one) for one in row["line"].values())
    assert spelt(("a", 1.0), "mm", "mm") == "a, 1"


def test_what_has_no_part_in_an_engine_is_not_shown() -> None:
    """An oscillating cylinder is its own valve: a line for the steam lap would do nothing."""
    wagtail = read(ROOT / "sample_designs" / "wagtail.loco.json")
    paths = [row["path"] for row in every_row(sizes_payload(wagtail, "motion", Around(page="mm")))]
    assert "motion.gear.port_radius" in paths
    assert not [path for path in paths if path.startswith(("motion.valve", "motion.face"))]
    moved = wagtail.changed({"motion.valve.steam_lap": "1 mm"})
    assert job.work(moved).motion.events == job.work(wagtail).motion.events  # type: ignore[union-attr]
