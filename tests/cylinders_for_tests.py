"""The cylinders of an invented engine for 3 1/2 in track."""

from __future__ import annotations

from typing import Any

from weighshaft.cylinders import Cylinders, CylindersResult, work

GIVEN: dict[str, Any] = {
    "driving_diameter": 98.4, "full_cutoff": 78.0, "running_cutoff": 45.0, "release": 84.0,
    "compression": 16.0, "release_full": 94.0, "compression_full": 6.0, "valve_lifts": True,
    "speed": 6.0, "port_area": 54.0,
}  # fmt: skip


def engine(**changes: Any) -> Cylinders:
    """Return the cylinders with some sizes changed."""
    sizes: dict[str, Any] = {
        "bore": 28.575, "stroke": 41.275, "connecting_rod": 127.0, "pressure": 5.5,
        "engine_weight": 18.0, "coupled_weight": 18.0,
    }  # fmt: skip
    return Cylinders(**{**sizes, **changes})


def worked(cylinders: Cylinders | None = None, **given: Any) -> CylindersResult:
    """Work them, or others, with some of what is given changed."""
    return work(cylinders or engine(), **{**GIVEN, **given})
