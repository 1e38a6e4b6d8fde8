"""Measures that the whole engineering shares: inch, foot, bar, the pull of the earth, a circle."""

from __future__ import annotations

import math

INCH = 25.4
"""mm; exact since the agreement of 1959."""
THOU = INCH / 1000
"""mm."""
FOOT = 12 * INCH
"""mm."""
BAR = 0.1
"""N/mm2 in one bar."""
GRAVITY = 9.80665
"""Standard acceleration of free fall, m/s2 (CGPM 1901)."""


def to_step(value: float, step: float) -> float:
    """Return the whole number of steps nearest to a value."""
    return round(value / step) * step


def circle_area(diameter: float) -> float:
    """Return the area of a circle, mm2, from its diameter, mm."""
    return math.pi / 4 * diameter**2
