"""Slide and piston valves."""

from __future__ import annotations

from dataclasses import dataclass

from ..sizes import check_sizes, size


@dataclass(frozen=True, kw_only=True)
class SlideValve:
    """The valve and its ports; exhaust lap is negative for exhaust clearance."""

    steam_lap: float = size("Steam lap", low=-5, high=60, main=True)
    exhaust_lap: float = size("Exhaust lap", low=-30, high=30, default=0.0)
    port_width: float = size("Steam port, width", low=0.1, high=80, main=True)
    admission: str = size(
        "Admission", "choice", choices=("outside", "inside"), default="outside"
    )
    port_length: float | None = size("Steam port, length", low=0.5, high=300, default=None)
    bridge: float | None = size("Bridge", low=0.1, high=100, default=None)
    exhaust_port: float | None = size("Exhaust port, width", low=0.1, high=150, default=None)
    valve_offset: float = size("Valve moved ahead of its setting", low=-30, high=30, default=0.0)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class ValveMotion:
    """The chapter's decisions."""

    valve: SlideValve

    def __post_init__(self) -> None:
        check_sizes(self)
