"""Line types and weights after ISO 128, fills and colours, on light paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ...measures import INCH
from ..scene import Fill, Pen

PAPER, INK, SOFT, HAIR = "#fbfaf6", "#1d2733", "#5d6773", "#d9d5c8"
BLUE, BRASS, RED, GREEN = "#1f4e79", "#9a6b12", "#a3261d", "#2f6b3c"

MM_PER_POINT = INCH / 72

THICK, THIN = 0.5, 0.25
"""Line group 0.5 of ISO 128: visible outlines 0.5 mm, everything thin half of it."""

# dash patterns in multiples of the line's own width, ISO 128-2: dash 12, long dash 24,
# gap 3, dot 0.5
_DASHED = (0.0, (12.0, 3.0))
_CENTRE = (0.0, (24.0, 3.0, 0.5, 3.0))


@dataclass(frozen=True)
class Line:
    """Width in mm, colour and dashes of a line."""

    width: float
    colour: str
    dashes: tuple[float, tuple[float, ...]] | str = "-"

    def style(self) -> dict[str, Any]:
        """Return the keywords that matplotlib's lines and patches take."""
        return {
            "linewidth": self.width / MM_PER_POINT,
            "linestyle": self.dashes,
            "color": self.colour,
        }


PENS: dict[Pen, Line] = {
    "outline": Line(THICK, INK),
    "thin": Line(THIN, INK),
    "hidden": Line(THIN, INK, _DASHED),
    "centre": Line(THIN, SOFT, _CENTRE),
    "behind": Line(0.35, "#9aa1a8"),
    "changed": Line(THICK, BLUE),
    "trace": Line(0.35, BRASS),
    "crank": Line(THICK, RED),
    "stop": Line(0.7, RED),
}

TEXT: dict[Pen, str] = {
    "outline": INK, "thin": INK, "hidden": SOFT, "centre": SOFT, "behind": SOFT,
    "changed": BLUE, "trace": BRASS, "crank": RED, "stop": RED,
}  # fmt: skip

FILLS: dict[Fill, str | None] = {
    "none": None, "paper": PAPER, "metal": "#e7e5de", "section": "#f3f1ea", "steam": "#f0dcd3",
    "exhaust": "#e6e1ea", "water": "#d7e4ee", "tint": "#e4e8ef",
}  # fmt: skip

HATCH_SPACING = 1.8
"""Distance between hatching lines, mm on paper."""
