"""Lengths within words, spelt in the unit of the sheet only when it is drawn.

`length(4.5)` marks a length of 4.5 mm in a label or a note; "<>" in a dimension stands for
what it measures, as in DXF.
"""

from __future__ import annotations

import re

from ..design.typed import LengthUnit, spell

MEASURED = "<>"
"""What a dimension measures."""
DIMENSION = re.compile(r"((?:[^\W\d][^\d]* )?)([-−+]?\d+(?:\.\d+)?)( mm)?((?: [a-z]+)*)")
"""A dimension: a length in mm, named before or behind if at all, as in “pitch 1.25”."""
AXIS = re.compile(r"(.*, |)mm")
"""The name of an axis of lengths in mm; one of N mm is none."""
_MARK = re.compile(r"<(-?\d+(?:\.\d+)?)>")


def length(value: float) -> str:
    """Return a length in mm as it is marked within words."""
    return f"<{float(value):.6f}>"


def told(text: str, unit: LengthUnit) -> str:
    """Return words with the lengths marked in them spelt in a unit."""
    return _MARK.sub(lambda found: spell(float(found[1]), unit), text)


def dimensioned(text: str, measured: float, unit: LengthUnit) -> str:
    """Return the figure of a dimension.

    Parameters
    ----------
    text : in words, with "<>" for what is measured; empty for that alone.
    measured : mm.
    """
    return told((text or MEASURED).replace(MEASURED, length(measured)), unit)
