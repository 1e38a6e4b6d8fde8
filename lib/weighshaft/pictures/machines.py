"""What a division of every dial moves."""

from __future__ import annotations

from ..workshop.machines import Machines, MachinesResult
from .scene import Picture, Table


def pictures(machines: Machines, result: MachinesResult) -> tuple[Picture, ...]:
    """Return the table of dials."""
    lathe, mill, dividing = machines.lathe, machines.mill, machines.dividing
    rows: tuple[tuple[str | float, ...], ...] = (
        ("Cross-slide", lathe.cross_slide, str(lathe.cross_divisions), result.cross_division),
        ("Top slide", lathe.topslide, str(lathe.topslide_divisions), result.top_division),
        ("Mill", mill.table, str(mill.divisions), result.mill_division),
    )
    turns: tuple[tuple[str | float, ...], ...] = (
        ("Dividing head, one turn", f"{result.handle_turn:.4f}°"),
        ("Rotary table, one division", f"{60 * result.table_division:.3f}′"),
        ("Rotary table, one turn", f"{360 / dividing.table_ratio:.4f}°"),
    )
    return (
        Table("What a division of a dial moves", ("dial", "a turn", "divisions", "a division"),
              rows, "On a cross-slide the diameter changes by twice as much."),
        Table("What a handle turns the work by", ("handle", "angle"), turns),
    )  # fmt: skip
