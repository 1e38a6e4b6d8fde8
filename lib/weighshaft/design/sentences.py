"""Sentences with lengths in mm, read out in inches."""

from __future__ import annotations

import math
import re

from .typed import INCH, LengthUnit

_NUMBER = r"[-−+]?\d+(?:\.\d+)?"
_DECIMAL = r"[-−+]?\d+\.\d+"
_LENGTHS = re.compile(
    # "2.71 of 3.17 mm" and "1.93 to 2.05 mm" are two lengths, and so are "7.0 and 7.5 mm"; a
    # torque in N mm is none, nor is the name in "AS568-011 of 1.78 mm"
    rf"(?<![\w.:−-])((?:{_NUMBER}(?: of | to | → | by | × )|{_DECIMAL}(?:, | and ))*)"
    rf"({_NUMBER})[ \u00a0]mm(?![\w²³/])"
)
_ONE = re.compile(_NUMBER)


def in_unit(text: str, unit: LengthUnit) -> str:
    """Return a sentence with its lengths, written in mm, in the unit that a page or sheet shows.

    An inch has one decimal more than the mm had, so that no more is claimed than was.

    Parameters
    ----------
    text : in the engineering's words.
    unit : "mm" leaves it as it is.
    """
    if unit == "mm" or "mm" not in text:
        return text
    return _LENGTHS.sub(_read_out, text)


def _read_out(found: re.Match[str]) -> str:
    before, last = found.groups()
    return f"{_ONE.sub(lambda one: _inches(one[0]), before)}{_inches(last)} in"


def _inches(text: str) -> str:
    value = float(text.replace("−", "-")) / float(INCH)
    decimals = len(text.partition(".")[2]) + 1
    if value:
        decimals = max(decimals, 1 - math.floor(math.log10(abs(value))))  # two figures at least
    sign = text[0] if text[0] in "-−+" else ""
    return f"{sign}{abs(value):.{min(decimals, 5)}f}"
