"""Sizes and figures as the page spells them, in its unit; nothing else converts for display."""

from __future__ import annotations

import dataclasses
import re
from typing import Any

from ..design.document import CHAPTERS, Design
from ..design.typed import INCH, Length, LengthUnit, spell
from ..sizes import Size, Unit

INCH_MM = float(INCH)

# what stands behind the number; the page's inch switch changes lengths, areas and volumes
_WORDS: dict[str, str] = {
    "deg": "°", "N/mm2": "N/mm²", "N mm": "N mm", "mm2": "mm²", "mm3": "mm³", "cm2": "cm²",
    "degC": "°C", "mm water": "mm wg", "kW/m2": "kW/m²",
    "scale": "", "count": "", "ratio": "", "text": "", "choice": "", "yes/no": "",
}  # fmt: skip
_INCHES: dict[str, tuple[float, str]] = {
    "mm2": (INCH_MM**2, "in²"), "mm3": (INCH_MM**3, "in³"), "mm/s": (INCH_MM, "in/s"),
    "cm2": (INCH_MM**2 / 100, "in²"),
}  # fmt: skip
_OF_INCHES = re.compile(r"in|thou|f[oe]?[oe]?t|[\"'″′”’]", re.IGNORECASE)
_SIMPLE = re.compile(r"([+-]?[\d\s./-]+?)\s*(?:mm|in|inch|inches|\")")


def unit_word(unit: Unit, page: LengthUnit) -> str:
    """Return what the page writes behind a number held in `unit`."""
    if unit == "mm":
        return page
    if page == "in" and unit in _INCHES:
        return _INCHES[unit][1]
    return _WORDS.get(unit, unit)


def plain(value: float, figures: int = 4) -> str:
    """Return a number with so many significant figures and without an exponent."""
    if value != value or value in (float("inf"), float("-inf")):
        return "none"
    if value == int(value) and abs(value) < 1e9:
        return f"{int(value)}"
    size = abs(value)
    if size >= 10 ** (figures - 1):
        return f"{value:.0f}"
    text = f"{value:.{figures}g}"
    if "e" in text:
        text = f"{value:.8f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def length(value: float, page: LengthUnit) -> str:
    """Return a length in mm in the unit of the page, finer where it is small."""
    if page == "in":
        inches = abs(value) / INCH_MM
        return spell(value, "in", 4 if inches < 10 else 3 if inches < 100 else 1)
    return spell(value, "mm", 3 if abs(value) < 10 else 2)


def spelt(value: Any, unit: Unit, page: LengthUnit) -> str:
    """Return a value held in `unit` as the page shows it, without the word for the unit."""
    if value is None:
        return "unknown"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    if isinstance(value, (tuple, list)):
        return ", ".join(spelt(one, unit, page) for one in value)
    if unit == "mm":
        return length(value, page)
    if unit == "scale":
        typed = getattr(value, "typed", None)
        return typed if typed else f"1:{plain(value, 5)}"
    if page == "in" and unit in _INCHES:
        return plain(value / _INCHES[unit][0])
    return plain(value)


def with_unit(value: Any, unit: Unit, page: LengthUnit) -> str:
    """Return a value with its unit: 7.94 mm, 24°, 5.5 bar."""
    text, word = spelt(value, unit, page), unit_word(unit, page)
    if value is None or isinstance(value, (str, bool)) or not word:
        return text
    return f"{text}{word}" if word == "°" else f"{text} {word}"


def in_box(value: Any, about: Size, page: LengthUnit) -> str:
    """Return what stands in the box: as typed where that is in the unit of the page."""
    if value is None:
        return ""
    typed = getattr(value, "typed", None)
    if about.unit == "mm" and typed is not None:
        if system(typed) == page:
            simple = _SIMPLE.fullmatch(typed)
            return simple[1].strip() if simple else str(typed)
        return length(value, page)
    if about.unit == "deg" and typed is not None:
        return str(typed).removesuffix("°").strip()
    return spelt(value, about.unit, page)


def names_unit(text: str, about: Size) -> bool:
    """Whether what stands in the box says its unit itself, as 4 ft 8 1/2 in does."""
    return about.unit == "mm" and re.search(r"[a-z\"'″′”’]", text, re.IGNORECASE) is not None


def as_typed(value: Any, about: Size, page: LengthUnit) -> str:
    """Return the builder's own spelling where the page shows another unit, else nothing."""
    typed = getattr(value, "typed", None)
    if about.unit != "mm" or typed is None or system(typed) == page:
        return ""
    return str(typed) if names_unit(typed, about) else f"{typed} mm"


def as_written(value: float, page: LengthUnit) -> str:
    """Return a length with its unit, as it was typed or else in the unit of the page."""
    typed = getattr(value, "typed", None)
    if typed is None:
        return f"{length(value, page)} {page}"
    return str(typed) if re.search(r"[a-z\"'″′”’]", typed, re.IGNORECASE) else f"{typed} mm"


def system(typed: str) -> LengthUnit:
    """Return the unit system of a length as typed; a bare number is mm."""
    return "in" if _OF_INCHES.search(typed) else "mm"


def out_of_range(about: Size, text: str, page: LengthUnit) -> str:
    """Return the sentence for a length out of its limits, with the limits in the page's unit."""
    low, high = length(about.low, page), length(about.high, page)
    return f"{about.label}: {text.strip()} is out of range; {low} to {high} {page} would do."


def usual_unit(design: Design) -> LengthUnit:
    """Return the unit in which most sizes of the model were typed, so that the page opens in it.

    What full-size engines measure, and what stands in the builder's workshop, has no say.
    """
    model = [one for one in CHAPTERS if one not in ("scale", "machines")]
    typed = [one for chapter in model for one in _spellings(getattr(design, chapter))]
    inches = sum(system(one) == "in" for one in typed)
    return "in" if 2 * inches > len(typed) else "mm"


def _spellings(value: Any) -> list[str]:
    if dataclasses.is_dataclass(value):
        return [
            one for f in dataclasses.fields(value) for one in _spellings(getattr(value, f.name))
        ]
    if isinstance(value, tuple):
        return [one for inner in value for one in _spellings(inner)]
    if isinstance(value, Length):
        return [value.typed if value.typed is not None else "mm"]
    return []
