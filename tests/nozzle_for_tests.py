"""The nozzle of an invented engine for 3 1/2 in track."""

from __future__ import annotations

from typing import Any

from weighshaft.nozzle import Nozzle, Smokebox
from weighshaft.trade.drills import SETS

ENGINE: dict[str, Any] = {
    "bore": 28.575, "stroke": 41.275, "number": 2, "full_cutoff": 80.0, "running_cutoff": 50.0,
    "pressure": 5.5, "driving_diameter": 98.425, "speed": 8.0, "clearance_percent": 8.0,
    "condensed": 1.3, "drill_sets": SETS, "ratio": 16.0,
}  # fmt: skip
BOX = Smokebox(
    inside_diameter=80.0, chimney_top=106.0, nozzle_below=12.0, chimney_outside=32.0, pipe_bore=6.5
)
GOOD = Nozzle(diameter=4.0, smokebox=BOX)
