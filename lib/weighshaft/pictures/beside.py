"""Two gears side by side, overlaid; where there is no other, those that could stand there."""

from __future__ import annotations

from ..beside import BesideResult, OtherGear
from ..motion import GEARS
from . import motion_beside
from .scene import Picture, Table


def pictures(beside: OtherGear, result: BesideResult) -> tuple[Picture, ...]:
    """Return the overlaid gears, their valves and cut-offs, and what differs."""
    return (_on_offer(),) if result.both is None else motion_beside.pictures(result.both)


def _on_offer() -> Table:
    rows = tuple(
        (gear.title, "full gear to mid gear" if gear.notched else "forward and backward alone")
        for gear in GEARS.values()
    )
    return Table(
        "Gears that can stand beside the engine's", ("gear", "works in"), rows,
        "Choose its kind among the sizes: it is laid out for this engine's crank and ports.",
    )  # fmt: skip
