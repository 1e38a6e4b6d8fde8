"""Undo, redo and what has changed."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from tests.designs import a_design
from weighshaft.design import Design, History, changes, label_of, spelt
from weighshaft.design.typed import Angle, Length, ScaleRatio
from weighshaft.sizes import Size


def bore(design: Design, typed: str) -> Design:
    return design.changed({"cylinders.bore": typed})


def test_there_and_back(design: Design) -> None:
    first = bore(design, "20 mm")
    second = first.changed({"cylinders.stroke": "1 in"})
    history = History(design)
    assert (history.undoes, history.redoes) == ("", "")
    assert history.take(first)
    assert history.take(second, "longer stroke")
    assert history.undoes == "longer stroke"
    assert history.undo() is first
    assert history.undoes == f"Bore: {spelt(design.cylinders.bore, Size('Bore'))} → 20 mm"
    assert history.undo() is design
    assert history.undo() is design
    assert history.redo() is first
    assert history.redo() is second
    assert history.redo() is second
    history.undo()
    assert history.redoes == "longer stroke"
    history.take(bore(first, "21 mm"))
    assert history.redoes == ""


def test_what_makes_no_difference_is_no_step(design: Design) -> None:
    history = History(design)
    assert not history.take(dataclasses.replace(design))
    assert history.undoes == ""


def test_a_drag_is_one_step(design: Design) -> None:
    history = History(design)
    history.take(design.changed({"cylinders.stroke": "1 in"}))
    before = history.design
    for tenth in range(200, 230):
        history.take(bore(before, f"{tenth / 10} mm"), going_on=tenth > 200)
    assert history.design.cylinders.bore == 22.9
    assert history.undo() is before
    assert history.undo() is design


def test_a_drag_that_comes_back_is_no_step(design: Design) -> None:
    history = History(design)
    history.take(bore(design, "20 mm"))
    history.take(design, going_on=True)
    assert history.undoes == ""
    assert history.design is design


def test_two_drags_are_two_steps(design: Design) -> None:
    history = History(design)
    history.take(bore(design, "20 mm"))
    history.take(bore(design, "21 mm"), going_on=True)
    history.take(bore(design, "22 mm"))
    assert history.undo().cylinders.bore == 21


def test_the_history_has_an_end(design: Design) -> None:
    history = History(design, deepest=5)
    for mm in range(20, 40):
        history.take(bore(design, f"{mm} mm"))
    for _ in range(20):
        history.undo()
    assert history.design.cylinders.bore == 34


def test_since_the_last_save(design: Design) -> None:
    history = History(design)
    assert history.unsaved == ()
    history.take(bore(design, "20 mm"))
    history.take(history.design.changed({"cylinders.stroke": "1 in"}))
    assert [change.path for change in history.unsaved] == ["cylinders.bore", "cylinders.stroke"]
    history.saved()
    assert history.unsaved == ()
    history.undo()
    assert [str(change) for change in history.unsaved] == [
        f"Stroke: 1 in → {spelt(design.cylinders.stroke, Size('Stroke'))}"
    ]


def test_names_notes_and_marks_count(design: Design) -> None:
    plain = dataclasses.replace(design, notes={}, fixed=())
    after = dataclasses.replace(
        plain, name="New", notes={"cylinders.bore": "castings"}, fixed=("cylinders.bore",)
    )
    found = changes(plain, after)
    assert [change.path for change in found] == [
        "name",
        "notes.cylinders.bore",
        "fixed.cylinders.bore",
    ]
    assert str(found[1]) == "Note on Bore: none → castings"
    assert str(found[2]) == "Bore: free → fixed by a part"
    assert str(changes(after, plain)[2]) == "Bore: fixed by a part → free"


def test_a_new_spelling_is_a_change(design: Design) -> None:
    old, new = (design.changed({"nozzle.diameter": typed}) for typed in ("3.175 mm", "1/8 in"))
    (found,) = changes(old, new)
    assert (found.before, found.after) == ("3.175 mm", "1/8 in")


def test_nested_decisions_are_found(design: Design) -> None:
    after = design.changed({"scale.prototype.gauge": "3 ft"})
    (found,) = changes(design, after)
    assert (found.path, found.label, found.after) == (
        "scale.prototype.gauge",
        "Track gauge",
        "3 ft",
    )


@pytest.mark.parametrize(
    ("value", "about", "text"),
    [
        (None, Size("a"), "not known"),
        (True, Size("a", "yes/no"), "yes"),
        (False, Size("a", "yes/no"), "no"),
        ("outside", Size("a", "choice"), "outside"),
        (Length("5/16 in"), Size("a"), "5/16 in"),
        (Length("8"), Size("a"), "8 mm"),
        (Length("5/16", "in"), Size("a"), "5/16 in"),
        (7.9375, Size("a"), "7.938 mm"),
        (5.5, Size("a", "bar"), "5.5 bar"),
        (Angle("22 1/2°"), Size("a", "deg"), "22 1/2°"),
        (Angle("22.5"), Size("a", "deg"), "22.5°"),
        (90.0, Size("a", "deg"), "90°"),
        (ScaleRatio("16 mm/ft"), Size("a", "scale"), "16 mm/ft"),
        (ScaleRatio("1:32"), Size("a", "scale"), "1:32"),
        (ScaleRatio("32"), Size("a", "scale"), "1:32"),
        (32.0, Size("a", "scale"), "1:32"),
        (2, Size("a", "count"), "2"),
        ((Length("5/16 in"), 8.0), Size("a"), "5/16 in, 8 mm"),
        ((), Size("a"), "none"),
    ],
)
def test_spelt(value: Any, about: Size, text: str) -> None:
    assert spelt(value, about) == text


def test_spelt_in_inches() -> None:
    assert spelt(7.9375, Size("a"), "in") == "5/16 in"
    assert spelt(8.0, Size("a"), "in") == "0.3150 in"


def test_label_of(design: Design) -> None:
    assert label_of(design, "cylinders.bore") == "Bore"
    assert label_of(design, "scale.prototype.gauge") == "Track gauge"
    assert label_of(design, "no.such.place") == "no.such.place"


class Walk(RuleBasedStateMachine):
    """However a builder goes back and forth, undo and redo agree with a plain list."""

    def __init__(self) -> None:
        super().__init__()
        self.begin = a_design()
        self.history = History(self.begin)
        self.line = [self.begin]
        self.place = 0

    @rule(mm=st.integers(20, 40))
    def take(self, mm: int) -> None:
        if self.history.take(bore(self.history.design, f"{mm} mm")):
            self.line = [*self.line[: self.place + 1], self.history.design]
            self.place += 1

    @rule()
    def undo(self) -> None:
        self.history.undo()
        self.place = max(self.place - 1, 0)

    @rule()
    def redo(self) -> None:
        self.history.redo()
        self.place = min(self.place + 1, len(self.line) - 1)

    @invariant()
    def agree(self) -> None:
        assert self.history.design is self.line[self.place]
        assert bool(self.history.undoes) == (self.place > 0)
        assert bool(self.history.redoes) == (self.place < len(self.line) - 1)


TestWalk = Walk.TestCase
