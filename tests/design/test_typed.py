"""Values as builders type them."""

from __future__ import annotations

import pickle
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from weighshaft.dashboard.spelling import in_box
from weighshaft.design.typed import (
    Angle,
    Length,
    LengthUnit,
    NotUnderstood,
    ScaleRatio,
    coordinate,
    fraction,
    millimetres,
    number,
    spell,
)
from weighshaft.nozzle.decisions import Nozzle
from weighshaft.sizes import sizes_of

INCH = 25.4


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("5/16 in", 5 / 16 * INCH),
        ("5/16in", 5 / 16 * INCH),
        ('5/16"', 5 / 16 * INCH),
        ("5/16 inch", 5 / 16 * INCH),
        ("1 5/16 in", (1 + 5 / 16) * INCH),
        ("1-5/16 in", (1 + 5 / 16) * INCH),
        ("1½ in", 1.5 * INCH),
        ("½″", 0.5 * INCH),
        ("1 ft 10 3/4 in", 22.75 * INCH),
        ("1' 10 3/4\"", 22.75 * INCH),
        ("1'10¾\"", 22.75 * INCH),
        ("1 FT 10 IN", 22 * INCH),
        ("4 ft 8 1/2 in", 1435.1),
        ("3' 6", 42 * INCH),
        ("7 ft", 84 * INCH),
        ("1 foot", 12 * INCH),
        ("2 feet 1 inch", 25 * INCH),
        ('0.3125"', 7.9375),
        (".5 in", 12.7),
        ("12 thou", 0.3048),
        ("12thou", 0.3048),
        ("8 mm", 8.0),
        ("8mm", 8.0),
        ("3.2", 3.2),
        ("45 cm", 450.0),
        ("1 m", 1000.0),
        ("-1/2 in", -12.7),
        ("−3", -3.0),
        ("+3", 3.0),
        ("  24  ", 24.0),
        ("0", 0.0),
    ],
)
def test_a_length_as_typed(text: str, mm: float) -> None:
    assert millimetres(text) == pytest.approx(mm, rel=1e-15)


@pytest.mark.parametrize(("text", "inches"), [("5/16", 5 / 16), ("1 1/2", 1.5), ("0.94", 0.94)])
def test_a_bare_number_takes_the_unit_of_the_field(text: str, inches: float) -> None:
    assert millimetres(text, "in") == pytest.approx(inches * INCH, rel=1e-15)
    assert millimetres(text, "mm") == pytest.approx(inches, rel=1e-15)
    assert Length(text, "in").typed == f"{text} in"
    assert Length(text, "mm").typed == text


def test_exact_to_the_last_digit() -> None:
    """1 ft 10 3/4 in is 577.85 mm; summed as floats it would come out a hair off."""
    assert millimetres("1 ft 10 3/4 in") == 577.85
    assert millimetres("4 ft 8 1/2 in") == 1435.1


BAD = [
    "",
    " ",
    "-",
    "abc",
    "1/0",
    "1/0 in",
    "5/16/2",
    "1,500",
    "1..2",
    "1.2.3",
    "3 in 4 in",
    "10 in 1 ft",
    "5 furlongs",
    "in",
    "1 ft 2 ft",
    "1 2",
    "1e3",
    "nan",
    "inf",
    "0x10",
    "__import__('os')",
    "2*3",
    "1/2/3 in",
    "--3",
    "8 mm 3",
    "9" * 61,
]


@pytest.mark.parametrize("text", BAD)
def test_what_is_not_a_length_is_refused_in_words(text: str) -> None:
    with pytest.raises(NotUnderstood) as refused:
        Length(text)
    says = str(refused.value)
    assert "ry " in says
    assert len(says) < 200


@given(st.text(max_size=80))
@example("٣ mm")
@example("1\n2")
@example("²")
@example("1 ⁄ 2")
@example("9" * 59 + "m")
def test_any_text_is_a_finite_length_or_refused(text: str) -> None:
    for kind in (Length, Angle, ScaleRatio, number):
        try:
            value = kind(text)
        except NotUnderstood:
            continue
        assert abs(value) < float("inf")


@given(st.integers(-64 * 400, 64 * 400))
def test_a_spelt_fraction_reads_back_the_same(sixty_fourths: int) -> None:
    value = sixty_fourths / 64 * INCH
    assert millimetres(spell(value, "in"), "in") == pytest.approx(value, rel=1e-15)


@given(st.floats(-9999, 9999))
def test_a_spelt_value_reads_back_to_its_places(value: float) -> None:
    assert millimetres(spell(value, "mm"), "mm") == pytest.approx(value, abs=0.005001)
    assert millimetres(spell(value, "in"), "in") == pytest.approx(value, abs=0.00005001 * INCH)


@given(st.floats(-9999, 9999), st.integers(0, 6))
def test_spelling_with_wanted_places(value: float, places: int) -> None:
    assert millimetres(spell(value, "mm", places)) == pytest.approx(
        value, abs=0.50001 * 10**-places
    )


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (7.9375, "5/16"),
        (25.4, "1"),
        (33.3375, "1 5/16"),
        (-0.396875, "-1/64"),
        (0.3048, "0.0120"),
        (0, "0"),
    ],
)
def test_spelt_in_inches(value: float, text: str) -> None:
    assert spell(value, "in") == text


@pytest.mark.parametrize(
    ("value", "text"), [(8.0, "8"), (3.2, "3.2"), (0.0, "0"), (-0.001, "0"), (100.0, "100")]
)
def test_spelt_in_mm(value: float, text: str) -> None:
    assert spell(value, "mm") == text


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Fraction(21, 16), "1 5/16"),
        (Fraction(3, 4), "3/4"),
        (Fraction(2), "2"),
        (Fraction(-1, 64), "-1/64"),
        (Fraction(0), "0"),
    ],
)
def test_fraction(value: Fraction, text: str) -> None:
    assert fraction(value) == text


@pytest.mark.parametrize(
    ("text", "ratio"),
    [
        ("1:22.5", 22.5),
        ("1/32", 32),
        ("22.5", 22.5),
        ("16 mm/ft", 19.05),
        ("16mm/ft", 19.05),
        ("16 mm to the foot", 19.05),
        ("3/4 in/ft", 16),
        ("3/4 in per ft", 16),
        ('1 1/16"/ft', 12 / 1.0625),
        ('1 1/16" to the foot', 12 / 1.0625),
        ("1 in to 1 ft", 12),
    ],
)
def test_a_scale_as_typed(text: str, ratio: float) -> None:
    scale = ScaleRatio(text)
    assert scale == pytest.approx(ratio, rel=1e-12)
    assert scale.typed == text


@pytest.mark.parametrize("text", ["", "0", "1:0", "-3", "a:b", "0 mm/ft", "mm/ft", "1:2:3", "2:1"])
def test_what_is_not_a_scale_is_refused(text: str) -> None:
    with pytest.raises(NotUnderstood, match="not a scale"):
        ScaleRatio(text)


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("22.5", 22.5),
        ("22.5°", 22.5),
        ("22 1/2°", 22.5),
        ("-5 deg", -5),
        ("90 degrees", 90),
        ("−7", -7),
    ],
)
def test_an_angle_as_typed(text: str, degrees: float) -> None:
    assert Angle(text) == degrees
    assert Angle(text).typed == text


@pytest.mark.parametrize("text", ["", "5 rad", "1/0", "a", "5 mm"])
def test_what_is_not_an_angle_is_refused(text: str) -> None:
    with pytest.raises(NotUnderstood):
        Angle(text)


@pytest.mark.parametrize(
    ("text", "value"),
    [("3.2", 3.2), ("1/3", 1 / 3), ("2 1/2", 2.5), ("70 %", 70), ("70%", 70), ("-4", -4)],
)
def test_a_plain_number_as_typed(text: str, value: float) -> None:
    assert number(text) == value


@pytest.mark.parametrize(
    "value", [Length("5/16 in"), Length(8.0), Angle("22 1/2°"), ScaleRatio("16 mm/ft")]
)
def test_the_spelling_outlasts_copying(value: Length | Angle | ScaleRatio) -> None:
    copy = pickle.loads(pickle.dumps(value))
    assert copy == value
    assert copy.typed == value.typed
    assert type(value)(value).typed == value.typed


def test_arithmetic_is_plain() -> None:
    assert type(Length("5/16 in") * 2) is float
    assert hash(Length("5/16 in")) == hash(7.9375)


def test_coordinates_have_all_their_places() -> None:
    assert coordinate(7.9375, "mm") == "7.938"
    assert coordinate(7.9375, "in") == "0.3125"
    assert coordinate(-1e-9, "mm") == "0.000"
    assert coordinate(-2.5, "mm") == "-2.500"


@pytest.mark.parametrize(
    ("text", "unit", "page", "told"),
    [
        ("8", "cm2", "mm", 8.0),
        ("8", "cm2", "in", 8 * 6.4516),
        ("8 cm2", "cm2", "in", 8.0),
        ("8 in²", "cm2", "mm", 8 * 6.4516),
        ("1/2", "mm2", "in", 322.58),
        ("2 sq in", "mm2", "mm", 1290.32),
        ("3", "mm3", "in", 3 * 16387.064),
        ("5 ml", "mm3", "in", 5000.0),
        ("8", "bar", "in", 8.0),
    ],
)
def test_a_bare_number_counts_in_what_stands_behind_the_box(
    text: str, unit: str, page: LengthUnit, told: float
) -> None:
    assert number(text, unit, page) == pytest.approx(told)


def test_what_an_area_shows_on_an_inch_page_may_be_typed_again() -> None:
    about = sizes_of(Nozzle)["grate_area"]
    shown = in_box(52.0, about, "in")
    assert number(shown, about.unit, "in") == pytest.approx(52.0, rel=1e-3)
