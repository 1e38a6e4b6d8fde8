"""Cylinders and haulage."""

from __future__ import annotations

from dataclasses import dataclass

from .sizes import check_sizes, size


@dataclass(frozen=True, kw_only=True)
class Cylinders:
    """The chapter's decisions."""

    number: int = size("Number of cylinders", "count", 1, 4, default=2)
    bore: float = size("Bore", low=3, high=200, main=True)
    stroke: float = size("Stroke", low=3, high=300, main=True)
    connecting_rod: float = size("Connecting rod, between centres", low=5, high=1000, main=True)
    cylinder_offset: float = size("Cylinder axis above axle", low=-100, high=100, default=0.0)
    inclination: float = size("Cylinder inclination", "deg", -30, 30, default=0.0)
    crank_angle: float = size("Angle between the cranks", "deg", 0, 360, default=90.0)
    pressure: float = size("Working pressure", "bar", 0.5, 16, main=True)
    engine_weight: float = size("Engine weight in working order", "kg", 0.2, 2000, main=True)
    coupled_weight: float = size("Weight on coupled wheels", "kg", 0.2, 2000, main=True)

    def __post_init__(self) -> None:
        check_sizes(self)
