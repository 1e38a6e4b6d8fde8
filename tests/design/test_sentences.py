"""Sentences read out in inches: no more exact than the mm were, and nothing but lengths."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighshaft.design.sentences import in_unit


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("the least gap is 2.80 mm, between", "the least gap is 0.110 in, between"),
        ("Ports open 2.71 of 3.17 mm.", "Ports open 0.107 of 0.125 in."),
        ("1.93 mm → 0.79 mm", "0.076 in → 0.031 in"),
        ("±0.05 mm, set by feeler", "±0.0020 in, set by feeler"),
        ("48.00, 48.00 and 24.0 mm", "1.890, 1.890 and 0.94 in"),
        ("4.80 by 2.50 mm, 12.0 mm²", "0.189 by 0.098 in, 12.0 mm²"),
        ("AS568-011 of 1.78 mm section", "AS568-011 of 0.070 in section"),
        ("at 1:22.5, 13.55 mm to the foot", "at 1:22.5, 0.533 in to the foot"),
        ("axles 2 and 3, 4.0 mm on", "axles 2 and 3, 0.16 in on"),
        ("leaves 9.1 of 37.3 N mm", "leaves 9.1 of 37.3 N mm"),
        ("0.045 N/mm, 487 mm2, 5 mm², 3 mm/s", "0.045 N/mm, 487 mm2, 5 mm², 3 mm/s"),
    ],
)
def test_lengths_are_read_out_and_nothing_else(said: str, read: str) -> None:
    assert in_unit(said, "in") == read
    assert in_unit(said, "mm") == said


@given(st.decimals(0, 2000, places=2))
def test_an_inch_says_as_much_as_the_millimetres_did(length: object) -> None:
    text = f"{length:.2f}"
    number, unit = in_unit(f"{text} mm", "in").split()
    assert unit == "in"
    assert abs(25.4 * float(number) - float(text)) <= max(0.0127 + 1e-9, 0.05 * float(text))
