"""Prototype and scale: what the full-size engine becomes on this track."""

from __future__ import annotations

from dataclasses import dataclass

from .sizes import check_sizes, size


@dataclass(frozen=True, kw_only=True)
class Prototype:
    """Dimensions of the full-size engine as far as known; unknown stays None."""

    gauge: float = size("Track gauge", low=150, high=3000)
    driving_wheel: float | None = size("Driving wheel diameter", low=100, high=3000, default=None)
    coupled_wheelbase: float | None = size("Coupled wheelbase", low=0, high=12000, default=None)
    total_wheelbase: float | None = size("Total wheelbase", low=0, high=40000, default=None)
    bore: float | None = size("Cylinder bore", low=20, high=1500, default=None)
    stroke: float | None = size("Piston stroke", low=20, high=1500, default=None)
    cylinders: int = size("Number of cylinders", "count", 1, 4, default=2)
    pressure: float | None = size("Boiler pressure", "bar", 0.5, 30, default=None)
    weight: float | None = size("Weight in working order", "kg", 50, 600_000, default=None)
    length: float | None = size("Length over buffers", low=500, high=50_000, default=None)
    width: float | None = size("Greatest width", low=300, high=4000, default=None)
    height: float | None = size("Height of the chimney top", low=300, high=6000, default=None)
    boiler_diameter: float | None = size("Boiler diameter", low=100, high=3000, default=None)
    speed: float | None = size("Usual greatest speed", "km/h", 1, 250, default=None)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Scale:
    """The chapter's decisions: the prototype, the scale and the track of the model."""

    prototype: Prototype
    ratio: float = size("Scale", "scale", 1, 200, main=True)
    track_gauge: float = size("Track gauge of the model", low=6, high=400, main=True)

    def __post_init__(self) -> None:
        check_sizes(self)
