"""Two gears side by side, overlaid; nothing where there is no other."""

from __future__ import annotations

from ..beside import BesideResult, OtherGear
from . import motion_beside
from .scene import Picture


def pictures(beside: OtherGear, result: BesideResult) -> tuple[Picture, ...]:
    """Return the overlaid gears, their valves and cut-offs, and what differs."""
    return () if result.both is None else motion_beside.pictures(result.both)
