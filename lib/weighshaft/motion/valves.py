"""Slide and piston valves: their sizes, how they are set, and what the ports see."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size
from .frame import TINY, VAST, Array


@dataclass(frozen=True)
class SlideValve:
    """A slide or piston valve and its ports; exhaust lap is negative for exhaust clearance."""

    title: ClassVar[str] = "Valve and ports"

    steam_lap: float = size("Steam lap", low=-VAST, high=VAST, main=True, kw_only=False)
    exhaust_lap: float = size(
        "Exhaust lap", low=-VAST, high=VAST, help="negative: exhaust clearance", kw_only=False
    )
    port_width: float = size("Steam port, width", low=TINY, high=VAST, main=True, kw_only=False)
    admission: str = size(
        "Admission", "choice", choices=("outside", "inside"), default="outside", kw_only=False
    )
    port_length: float | None = size(
        "Steam port, length", low=TINY, high=VAST, default=None, kw_only=False
    )
    bridge: float | None = size(
        "Bridge",
        low=TINY,
        high=VAST,
        default=None,
        help="between steam and exhaust port",
        kw_only=False,
    )
    exhaust_port: float | None = size(
        "Exhaust port, width", low=TINY, high=VAST, default=None, kw_only=False
    )
    valve_offset: float = size(
        "Valve moved ahead of its setting", low=-VAST, high=VAST, default=0.0, kw_only=False
    )

    def __post_init__(self) -> None:
        check_sizes(self)

    @property
    def sense(self) -> float:
        """+1 for outside admission, -1 for inside, where every displacement counts reversed."""
        return 1.0 if self.admission == "outside" else -1.0

    def steam_opening(self, end: str, xi: Array) -> Array:
        """Return by how much the steam port of an end is open, negative while covered, mm.

        Parameters
        ----------
        end : "front" or "back".
        xi : displacement of the valve after setting, positive ahead, mm.
        """
        return self._towards(end) * xi - self.steam_lap

    def exhaust_opening(self, end: str, xi: Array) -> Array:
        """Return by how much the port of an end is open to exhaust, negative while covered, mm."""
        return -self._towards(end) * xi - self.exhaust_lap

    def _towards(self, end: str) -> float:
        return -self.sense if end == "front" else self.sense


@dataclass(frozen=True, kw_only=True)
class ValveSetting:
    """How the valve is set on its spindle.

    `equal leads` at the two dead centres, or `equal cut-offs`, in the notch `reverser`.
    """

    title: ClassVar[str] = "How the valve is set"

    rule: str = size(
        "Valve set for", "choice", choices=("equal leads", "equal cut-offs"), default="equal leads"
    )
    reverser: float = size(
        "Set in the notch", "ratio", -1, 1, default=1.0, help="1 full forward gear, 0 mid gear"
    )

    def __post_init__(self) -> None:
        check_sizes(self)


def check_admission(valve: SlideValve, admission: str) -> None:
    """Refuse a gear laid out for the other edge of the valve.

    Raises
    ------
    SizeError : when the gear's `admission` differs from the valve's.
    """
    if valve.admission != admission:
        raise SizeError(
            f"Admission: the valve admits by its {valve.admission} edges, the gear is laid out "
            f"for {admission} admission; both have to agree.",
            "admission",
        )
