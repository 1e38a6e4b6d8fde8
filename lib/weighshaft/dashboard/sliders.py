"""How far the line under a size can be dragged, and in what steps."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..design.typed import LengthUnit
from ..sizes import Size
from .spelling import INCH_MM

_EDGE = 0.04  # nearer to an end than this share of the line, the line is laid out anew
_NOTHING = 1e-3  # a size below this tells nothing of how far it might be moved


@dataclass(frozen=True)
class Slider:
    """A line to drag, in the unit that the page shows."""

    low: float
    high: float
    step: float

    def holds(self, at: float) -> bool:
        """Whether a value stands on the line, clear of its ends."""
        edge = _EDGE * (self.high - self.low)
        return self.low + edge <= at <= self.high - edge


def shown(value: float, about: Size, page: LengthUnit) -> float:
    """Return a value in the unit that the page shows."""
    return value / INCH_MM if about.unit == "mm" and page == "in" else float(value)


def slider(
    value: float, about: Size, page: LengthUnit, suggested: float | None = None
) -> Slider | None:
    """Return the line for a size: round limits about the value, inside those that make sense.

    Parameters
    ----------
    value : the present value in the unit of the engineering.
    about : its limits.
    page : unit of the page.
    suggested : a value that the line should reach as well.
    """
    low, high = shown(about.low, about, page), shown(about.high, about, page)
    at = shown(value, about, page)
    span = high - low
    if not span > 0:
        return None
    near = shown(suggested, about, page) if suggested is not None else at
    if about.unit == "count":
        return Slider(low, high, 1) if math.isfinite(span) and span <= 60 else None
    size = abs(at) if abs(at) >= _NOTHING else 0.0
    reach = max(0.6 * size, 1.25 * abs(near - at), _least_reach(size, about, page, span))
    if (about.unit == "%" and low >= 0 and span <= 100) or (about.unit == "ratio" and span <= 4):
        return Slider(low, high, _step(span, about, page))
    first = at - min(reach, 0.6 * size) if at > 0 and low >= 0 else at - reach
    first, last = min(first, near - 0.1 * reach), max(at + reach, near + 0.1 * reach)
    step = _step(last - first, about, page)
    first = max(math.floor(first / step) * step, math.ceil(low / step - 1e-9) * step)
    last = min(math.ceil(last / step) * step, math.floor(high / step + 1e-9) * step)
    if last - first < 2 * step:
        return None
    return Slider(_tidy(first), _tidy(last), step)


def _least_reach(size: float, about: Size, page: LengthUnit, span: float) -> float:
    if about.unit == "deg":
        return min(15.0, span / 2)
    if about.unit == "mm":
        usual = (1 / 16) if page == "in" else 2.0
        return min(usual, 2 * size) or usual
    if size:
        return 0.0
    return 0.02 * span if math.isfinite(span) else 1.0


def _step(span: float, about: Size, page: LengthUnit) -> float:
    if about.unit == "mm" and page == "in":
        for step in (1 / 4, 1 / 16, 1 / 32, 1 / 64):
            if span / step >= 60:
                return step
        return 0.005 if span > 0.6 else 0.001
    power = 10.0 ** math.floor(math.log10(span / 150))
    for factor in (1, 2, 5, 10):
        if span / (factor * power) <= 250:
            return max(_tidy(factor * power), 0.01)
    return 10 * power


def _tidy(value: float) -> float:
    return float(f"{value:.10g}")


def text_at(number: float, about: Size, page: LengthUnit) -> str:
    """Return a place on the line as the text that a builder would have typed."""
    if about.unit == "count":
        return f"{round(number)}"
    if about.unit == "mm" and page == "in":
        sixty_fourths = number * 64
        if abs(sixty_fourths - round(sixty_fourths)) < 1e-6:
            from fractions import Fraction

            from ..design.typed import fraction

            return fraction(Fraction(round(sixty_fourths), 64))
        return f"{number:.4f}".rstrip("0").rstrip(".")
    return f"{number:.6f}".rstrip("0").rstrip(".") or "0"
