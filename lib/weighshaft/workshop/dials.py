"""Dials of handwheels: a distance or an angle as whole turns and what the dial then shows."""

from __future__ import annotations

import math
from dataclasses import dataclass

FINEST = 10
"""A dial is read to a tenth of a division."""


@dataclass(frozen=True)
class Reading:
    """Whole turns from zero, counted back where negative, and the division that stands at zero.

    A dial turned back from zero shows what it has left: half a turn back is one turn back
    and 50 of 100 divisions.
    """

    turns: int
    division: float

    @property
    def text(self) -> str:
        """The reading as it is spoken at the machine."""
        return f"{self.turns} t {self.division:.1f}"


@dataclass(frozen=True)
class Dial:
    """A handwheel.

    Parameters
    ----------
    travel : what a turn moves, mm, or degrees for a rotary table.
    divisions : on its dial.
    """

    travel: float
    divisions: int

    def reading(self, moved: float) -> Reading:
        """Return the reading after moving on from zero by `moved`, to a tenth of a division."""
        tenths = round(moved / self.travel * self.divisions * FINEST)
        turns, left = divmod(tenths, self.divisions * FINEST)
        return Reading(turns, left / FINEST)

    def moved(self, reading: Reading) -> float:
        """Return the distance that a reading stands for."""
        return (reading.turns + reading.division / self.divisions) * self.travel

    @property
    def finest(self) -> float:
        """Half of the tenth to which it is read: the most that rounding can cost."""
        return self.travel / self.divisions / FINEST / 2

    def text(self, moved: float) -> str:
        """Return the reading in words."""
        return self.reading(moved).text

    @property
    def says(self) -> str:
        """What a turn moves, in words."""
        inches = self.travel / 25.4
        if abs(inches * 1000 - round(inches * 1000)) < 1e-6:
            return f"{self.travel:g} mm ({round(inches * 1000)} thou) a turn of {self.divisions}"
        return f"{self.travel:g} mm a turn of {self.divisions}"


def angle_text(angle: float) -> str:
    """Return an angle in degrees and minutes, to a tenth of a minute."""
    tenths = round(abs(angle) * 600)
    degrees, left = divmod(tenths, 600)
    sign = "−" if angle < 0 and tenths else ""
    return f"{sign}{degrees}° {left / 10:04.1f}′"


def spaced(low: float, high: float, step: float) -> tuple[float, ...]:
    """Return `low`, the whole steps from zero between, and `high`; no sliver at either end.

    Parameters
    ----------
    step : more than 0; a place nearer than a hundredth of it to an end is left out.
    """
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    inner = (n * step for n in range(first, last + 1))
    near = step / 100
    return (low, *(x for x in inner if x - low > near and high - x > near), high)
