"""Published turnouts: crossing number, gauge and the radius of the diverging curve.

The figures stand in `data/turnouts.csv` as each source prints them; `data/README-tracks.md`
lists the sources.
"""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from io import StringIO

_FOOT = 304.8
_UNITS = {"mm": 1.0, "m": 1000.0, "ft": _FOOT, "in": 25.4}


@dataclass(frozen=True)
class Turnout:
    """A published turnout.

    Parameters
    ----------
    gauge : of its track, mm.
    crossing : number of the crossing, 8 for 1 in 8.
    radius : of the diverging curve as printed, in mm.
    radius_of : the track's middle ("curve") or the "closure rail".
    """

    name: str
    gauge: float
    crossing: float
    radius: float
    radius_of: str
    sources: str
    note: str

    def at(self, gauge: float) -> float:
        """Return the radius of the track's middle in proportion to another gauge, mm."""
        middle = self.radius - (self.gauge / 2 if self.radius_of == "closure rail" else 0.0)
        return middle * gauge / self.gauge


def _radius(value: float, unit: str) -> float:
    if unit == "degree":  # American: the angle that a chord of 100 ft stands over
        return 50 * _FOOT / math.sin(math.radians(value / 2))
    return value * _UNITS[unit]


@lru_cache(maxsize=1)
def turnouts() -> tuple[Turnout, ...]:
    """Return the published turnouts."""
    text = (files(__package__) / "data" / "turnouts.csv").read_text(encoding="utf-8")
    return tuple(
        Turnout(
            row["name"], float(row["gauge_mm"]), float(row["crossing"]),
            _radius(float(row["radius"]), row["unit"]), row["radius_of"], row["sources"],
            row["note"],
        )
        for row in csv.DictReader(StringIO(text))
    )  # fmt: skip


NAMES = tuple(one.name for one in turnouts())


def turnout(name: str) -> Turnout:
    """Return the turnout of that name, one of `NAMES`."""
    return next(one for one in turnouts() if one.name == name)
