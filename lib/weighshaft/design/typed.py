"""Values as builders type them: lengths in inches, fractions, thou and millimetres, scales.

`Length`, `ScaleRatio` and `Angle` are floats in the units of the engineering that remember
their spelling, so that 5/16 in goes into the arithmetic as 7.9375 and back into the file
as "5/16 in".  Nothing is evaluated: the text is matched against the few forms in use.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal, Self

from ..measures import INCH as INCH_MM

LengthUnit = Literal["mm", "in"]

INCH = Fraction(str(INCH_MM))
_UNITS = {
    "mm": Fraction(1), "millimetre": Fraction(1), "millimetres": Fraction(1),
    "cm": Fraction(10), "m": Fraction(1000), "thou": INCH / 1000,
    "in": INCH, "ins": INCH, "inch": INCH, "inches": INCH, '"': INCH, "″": INCH, "”": INCH,
    "''": INCH, "ft": 12 * INCH, "foot": 12 * INCH, "feet": 12 * INCH, "'": 12 * INCH,
    "′": 12 * INCH, "’": 12 * INCH,
}  # fmt: skip
_OTHERS: dict[str, dict[str, float]] = {
    "bar": {"bar": 1.0, "psi": 0.0689475729, "lb/in2": 0.0689475729, "lbf/in2": 0.0689475729,
            "lb/sq in": 0.0689475729, "kpa": 0.01, "mpa": 10.0, "n/mm2": 10.0},
    "kg": {"kg": 1.0, "g": 1e-3, "lb": 0.45359237, "lbs": 0.45359237, "oz": 0.028349523125,
           "t": 1000.0, "tonnes": 1000.0, "tons": 1016.0469088, "cwt": 50.80234544},
    "g": {"g": 1.0, "kg": 1e3, "oz": 28.349523125, "lb": 453.59237},
    "km/h": {"km/h": 1.0, "kmh": 1.0, "mph": 1.609344, "m/s": 3.6},
    "mm water": {"mm water": 1.0, "in water": 25.4, "pa": 0.1019716, "mbar": 10.19716},
    "mm2": {"mm2": 1.0, "cm2": 100.0, "in2": 645.16, "sq in": 645.16},
    "cm2": {"cm2": 1.0, "mm2": 0.01, "in2": 6.4516, "sq in": 6.4516},
    "mm3": {"mm3": 1.0, "cm3": 1e3, "ml": 1e3, "in3": 16387.064, "cu in": 16387.064},
    "mm/s": {"mm/s": 1.0, "in/s": 25.4, "m/s": 1e3},
    "N": {"n": 1.0, "lbf": 4.4482216152605, "kgf": 9.80665},
}  # fmt: skip
"""What builders write besides the unit of a field, in that unit; by definition (NIST SP 811)."""

_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3", "⁄": "/",
}  # fmt: skip
_NUMBER = r"\d+\s*/\s*\d+|(?:\d+(?:\.\d*)?|\.\d+)(?:(?:\s+|\s*-\s*)\d+\s*/\s*\d+)?"
_UNIT = "|".join(sorted(map(re.escape, _UNITS), key=len, reverse=True))
_PART = re.compile(rf"\s*({_NUMBER})\s*({_UNIT})?\s*", re.IGNORECASE)
_LONGEST = 60


class NotUnderstood(ValueError):
    """Typed text that is not a value; its text says what would do."""


def _number(text: str) -> Fraction:
    # exact until the last step, so that 1 ft 10 3/4 in is 577.85 mm and not 577.8499…
    text = text.strip()
    if "/" in text:
        split = re.fullmatch(r"(?:(\d+(?:\.\d*)?|\.\d+)(?:\s+|\s*-\s*))?(\d+)\s*/\s*(\d+)", text)
        if split is None or int(split[3]) == 0:
            raise NotUnderstood(f"“{text}” is not a fraction; try 5/16.")
        return Fraction(split[1] or 0) + Fraction(int(split[2]), int(split[3]))
    return Fraction(text)


def _tidy(text: str) -> str:
    if len(text) > _LONGEST:
        raise NotUnderstood("That is too long for a size; try 24, 15/16 in or 0.94 in.")
    for sign, plain in _VULGAR.items():
        text = text.replace(sign, f" {plain}" if plain != "/" else "/")
    # a comma before one, two or more than three digits is a decimal point; before just three
    # it may part the thousands, and is asked about
    text = re.sub(r"(?<=\d),(?=(?:\d{1,2}|\d{4,})(?!\d))", ".", text)
    return text.replace("−", "-").strip()


def _signed(text: str) -> tuple[int, str]:
    if text[:1] in "+-" and text:
        return (-1 if text[0] == "-" else 1), text[1:].strip()
    return 1, text


def millimetres(text: str, unit: LengthUnit = "mm") -> float:
    """Return the length that `text` means, in mm.

    Parameters
    ----------
    text : such as 5/16, 5/16 in, 1 ft 10 3/4 in, 1' 10 3/4", 0.3125", 12 thou, 8 mm, 3.2.
    unit : unit of a bare number, "mm" or "in".

    Raises
    ------
    NotUnderstood : when the text is not a length.
    """
    refused = NotUnderstood(f'“{text[:_LONGEST]}” is not a length. Try 24, 15/16 in or 0.94".')
    sign, rest = _signed(_tidy(text))
    total, position, last = Fraction(0), 0, Fraction(0)
    while position < len(rest):
        if last == 12 * INCH and rest[position] == "-":
            position += 1  # 1'-6"
        part = _PART.match(rest, position)
        if part is None:
            raise refused
        try:
            number = _number(part[1])
        except ValueError as bad:
            raise refused from bad
        named = part[2]
        if named is None and (part.end() < len(rest) or last not in (0, 12 * INCH)):
            raise refused
        # a bare number behind feet is inches, as in 3' 6
        factor = _UNITS[(named or ("in" if last else unit)).lower()]
        # "1 ft 10 in" falls from part to part; "10 in 1 ft" or "3 in 4 in" is a slip
        if last and factor >= last:
            raise refused
        total, last, position = total + number * factor, factor, part.end()
    if not last:
        raise refused
    return float(sign * total)


class _Typed(float):
    """A number that remembers how it was typed, None where it was not."""

    typed: str | None

    @classmethod
    def _as(cls, value: float, typed: str | None) -> Self:
        made = float.__new__(cls, value)
        made.typed = typed
        return made

    def __reduce__(self) -> tuple[type, tuple[float | str]]:
        return (type(self), (self.typed if self.typed is not None else float(self),))


class Length(_Typed):
    """A length in mm that remembers how it was typed.

    Parameters
    ----------
    value : mm as a number, or text as typed.
    unit : unit of a bare number in the text; the spelling kept then names it.
    """

    def __new__(cls, value: float | str, unit: LengthUnit = "mm") -> Self:
        if not isinstance(value, str):
            return cls._as(value, getattr(value, "typed", None))
        text = " ".join(_tidy(value).split())
        bare = re.fullmatch(rf"[+-]?\s*(?:{_NUMBER})", text) is not None
        typed = f"{text} {unit}" if bare and unit != "mm" else text
        return cls._as(millimetres(value, unit), typed)


class Angle(_Typed):
    """An angle in degrees that remembers how it was typed, such as 22.5 or 22.5°."""

    def __new__(cls, value: float | str) -> Self:
        if not isinstance(value, str):
            return cls._as(value, getattr(value, "typed", None))
        sign, rest = _signed(_tidy(value))
        found = re.fullmatch(
            rf"({_NUMBER})\s*(?:°|deg|degrees)?(?:(?<=[°gs\s])\s*(\d{{1,2}})\s*(?:['′’]|min))?",
            rest,
            re.IGNORECASE,
        )
        if found is None or int(found[2] or 0) > 59:
            raise NotUnderstood(
                f"“{value[:_LONGEST]}” is not an angle. Try 22.5, 22 1/2° or 22° 30'."
            )
        minutes = Fraction(int(found[2] or 0), 60)
        return cls._as(float(sign * (_number(found[1]) + minutes)), value.strip())


class ScaleRatio(_Typed):
    """A scale, prototype over model, that remembers how it was typed.

    Understands 1:22.5, 1/32, 22.5, 16 mm/ft, 3/4 in/ft and 1 1/16" to the foot.
    """

    def __new__(cls, value: float | str) -> Self:
        if not isinstance(value, str):
            return cls._as(value, getattr(value, "typed", None))
        return cls._as(_scale(_tidy(value)), " ".join(value.split()))


def _scale(text: str) -> float:
    refused = NotUnderstood(f"“{text}” is not a scale. Try 1:22.5, 16 mm/ft or 3/4 in/ft.")
    ratio = re.fullmatch(r"(?:1\s*[:/]\s*)?(\d+(?:\.\d*)?|\.\d+)", text)
    per_foot = re.fullmatch(
        r"(.+?(?:mm|in|inch|inches|\"))\s*(?:/|per|to\s+the|to\s+a|to)\s*(?:1\s*)?(?:ft|foot|')",
        text,
        re.IGNORECASE,
    )
    if ratio:
        value = float(ratio[1])
    elif per_foot:
        length = millimetres(per_foot[1])
        if length <= 0:
            raise refused
        value = float(12 * INCH) / length
    else:
        raise refused
    if not value > 0:
        raise refused
    return value


_ON_INCH_PAGES = {"mm2": "in2", "cm2": "in2", "mm3": "in3", "mm/s": "in/s"}
"""What a bare number means where the page shows inches: what stands behind the box there."""


def number(text: str, unit: str = "", page: LengthUnit = "mm") -> float:
    """Return a number typed as 3.2, 1/3 or 2 1/2, in the unit of its field.

    Parameters
    ----------
    unit : of the field; what builders write in its place, such as 80 psi, is turned into it.
    page : in inches the bare number of an area, a volume or a speed counts in these.

    Raises
    ------
    NotUnderstood : when the text is no number, or in a unit of another kind.
    """
    sign, rest = _signed(_tidy(text).removesuffix("%").strip())
    found = re.fullmatch(rf"({_NUMBER})\s*([^\d\s].*)?", rest)
    if found is None:
        raise NotUnderstood(f"“{text[:_LONGEST]}” is not a number. Try 3.5 or 1/2.")
    factor = 1.0
    if found[2] is None and page == "in" and unit in _ON_INCH_PAGES:
        factor = _OTHERS[unit][_ON_INCH_PAGES[unit]]
    if found[2] is not None:
        units = _OTHERS.get(unit, {})
        written = " ".join(found[2].lower().replace("²", "2").replace("³", "3").rstrip(".").split())
        if written not in (*units, unit.lower()):
            here = f"{unit} is meant here" if unit in units else "a number is enough here"
            also = [one for one in units if one != unit.lower()][:2]
            more = f"; {' or '.join(also)} would do too" if also else ""
            raise NotUnderstood(f"“{text[:_LONGEST]}”: {here}{more}.")
        factor = units.get(written, 1.0)
    return float(sign * _number(found[1])) * factor


def spell(value: float, unit: LengthUnit, places: int | None = None) -> str:
    """Return a length in mm as text for a field that shows `unit`.

    In inches an exact binary fraction down to 1/64 is written as such, anything else as a
    decimal: thou to one place beyond.
    """
    if unit == "mm":
        text = f"{value:.{2 if places is None else places}f}"
        if "." in text:
            text = text.rstrip("0").rstrip(".")
        return "0" if text in ("-0", "") else text
    inches = value / float(INCH)
    nearest = Fraction(round(inches * 64), 64)
    if abs(float(nearest) - inches) < 5e-7:
        return fraction(nearest)
    text = f"{inches:.{4 if places is None else places}f}"
    return text if float(text) else "0"


def coordinate(value: float, unit: LengthUnit) -> str:
    """Return a length in mm as a machine wants it: to 0.001 mm or 0.0001 in, no fractions."""
    text = f"{value:.3f}" if unit == "mm" else f"{value / float(INCH):.4f}"
    return text if float(text) else text.lstrip("-")


def fraction(value: Fraction) -> str:
    """Return a fraction as a builder writes it: 1 5/16, 3/4, 2, -1/64."""
    sign, size = ("-" if value < 0 else ""), abs(value)
    whole, rest = divmod(size, 1)
    parts = [str(whole)] if whole or not rest else []
    parts += [f"{rest.numerator}/{rest.denominator}"] if rest else []
    return sign + " ".join(parts)
