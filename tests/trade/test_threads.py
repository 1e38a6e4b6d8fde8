"""Threads by the names that builders write."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighshaft.trade.threads import SERIES, UnknownThread, thread, threads

SPELLINGS = {
    "8BA": ["8BA", "8 ba", "8 B.A.", "BA 8", "No. 8 BA"],
    "5/32 × 40": [
        "5/32x40",
        "5/32 × 40",
        "5/32 X 40 tpi",
        '5/32" x 40',
        "5/32 in x 40 ME",
        "5/32-40",
    ],
    "1/4 BSF": ["1/4 BSF", '1/4" bsf', "¼ B.S.F.", "1/4 x 26 BSF"],
    "1/4 BSW": ["1/4 BSW", "1/4 Whit", "1/4 W", "1/4 Whitworth", "1/4 x 20"],
    "1/4 × 26": ["1/4 x 26", "1/4 brass", "1/4 by 26"],
    "5/32 BSW": ["5/32 BSW", "5/32 x 32"],
    "M3": ["M3", "m3", "M3x0.5", "M 3 × .5", "M3-0.5"],
    "M3 × 0.35": ["M3x0.35", "M3 × .35"],
    "#4-40 UNC": ["4-40", "#4-40", "No. 4-40 UNC", "4x40"],
    "#10-32 UNF": ["10-32", "#10-32 UNF"],
    "1/4-20 UNC": ["1/4-20", "1/4 UNC", "1/4 x 20 UNC"],
    "1/4-32 UNEF": ["1/4-32", "1/4 UNEF"],
    "1/4 × 32": ["1/4 x 32", "1/4x32 ME"],
    "G 1/8": ["G 1/8", "G1/8A", "1/8 BSP", "1/8 B.S.P.P."],
}


@pytest.mark.parametrize(
    ("designation", "typed"), [(name, one) for name, all_ in SPELLINGS.items() for one in all_]
)
def test_usual_spellings(designation: str, typed: str) -> None:
    assert thread(typed).designation == designation


def test_every_designation_finds_itself() -> None:
    assert len(threads()) == 151
    for one in threads():
        assert thread(one.designation) is one
        assert one.series in SERIES
        assert 0 < one.minor < one.effective < one.major
        assert one.minor <= one.minor_internal < one.effective
        assert one.core_area < one.stress_area


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("5/32 ME", "5/32 × 40"), ("1/4", "1/4 BSF"), ("18BA", "8BA"), ("M3x0.7", "M3"),
        ("1/4 x 41", "1/4 × 40"),
    ],
)  # fmt: skip
def test_unknown_names_near_ones(typed: str, near: str) -> None:
    with pytest.raises(UnknownThread) as refused:
        thread(typed)
    assert near in str(refused.value)
    assert typed in str(refused.value)


def test_unknown_series() -> None:
    with pytest.raises(UnknownThread, match="ME40"):
        threads("ME41")


@given(st.text(max_size=60))
def test_any_text_is_a_thread_or_refused_in_words(text: str) -> None:
    says = ""
    try:
        says = f"try {thread(text).designation}"
    except UnknownThread as refused:
        says = str(refused)
    assert "try" in says or "near" in says
