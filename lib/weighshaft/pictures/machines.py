"""What a division of every dial moves."""

from __future__ import annotations

import math

import numpy as np

from ..workshop.machines import Machines, MachinesResult, Need, Owned, near_reamer, owned
from .scene import Circle, Label, Path, Picture, Primitive, Scene, Table

_MOST = 200
"""Marks of a dial that are drawn at most; a finer one is drawn with every second or fifth."""


def pictures(machines: Machines, result: MachinesResult) -> tuple[Picture, ...]:
    """Return the dials, and the tables of what they move."""
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
        dials(machines, result),
        Table("What a division of a dial moves", ("dial", "a turn", "divisions", "a division"),
              rows, "On a cross-slide the diameter changes by twice as much."),
        Table("What a handle turns the work by", ("handle", "angle"), turns),
        *_owned(machines, result),
    )  # fmt: skip


def _owned(machines: Machines, result: MachinesResult) -> tuple[Table, ...]:
    """Return which taps, dies and reamers of the engine are there; no table of what is not told."""
    tools, made = machines.tools, []
    threads: dict[str, list[Need]] = {}
    for need in result.needs:
        threads.setdefault(need.one.designation, []).append(need)
    if (tools.taps or tools.dies) and threads:
        rows = tuple(
            (
                name, "; ".join(one.name for one in needs),
                owned(needs[0].one, tools.taps).says,
                owned(needs[0].one, tools.dies).says
                if any(one.die for one in needs) else "none needed",
            )
            for name, needs in threads.items()
        )  # fmt: skip
        made.append(
            Table("Taps and dies for this engine", ("thread", "for", "tap", "die"), rows,
                  "Threads that are proposed count too; a screw is bought with its thread on.")
        )  # fmt: skip
    near = [(one, *near_reamer(one.diameter, tools.reamers)) for one in result.bores]
    bores: tuple[tuple[str | float, ...], ...] = tuple(
        (one.diameter, one.what, Owned(there).says, float(nearest))
        for one, there, nearest in near if nearest is not None
    )  # fmt: skip
    if bores:
        made.append(
            Table("Reamers for this engine", ("bore", "in", "reamer", "nearest owned"), bores,
                  "Eyes, bushes and sheaves; the bores of wheels are better bored.")
        )  # fmt: skip
    return tuple(made)


def dials(machines: Machines, result: MachinesResult) -> Scene:
    """Return the dials of the handwheels with their divisions, each with what one of them moves."""
    lathe, mill = machines.lathe, machines.mill
    shown = (
        ("cross-slide", lathe.cross_divisions, result.cross_division),
        ("top slide", lathe.topslide_divisions, result.top_division),
        ("mill", mill.divisions, result.mill_division),
    )
    still: list[Primitive] = []
    for n, (name, divisions, _) in enumerate(shown):
        still += _dial(30.0 * n, divisions)
        still.append(Label(name, (30.0 * n, -14.0)))
        still.append(Label(f"{divisions} divisions", (30.0 * n, -17.5)))
    words = ", ".join(f"{name} {moves:.4f} mm" for name, _, moves in shown)
    return Scene(
        "Dials of the handwheels",
        f"What one division moves: {words}. Always turn up to a mark from the same side, so that "
        "the play of the screw is taken up.",
        tuple(still),
        to_scale=False,
    )


def _dial(x: float, divisions: int) -> list[Primitive]:
    every = next(n for n in (1, 2, 5, 10, divisions) if divisions / n <= _MOST)
    made: list[Primitive] = [
        Circle((x, 0.0), 10.0, "outline", "metal"), Circle((x, 0.0), 1.2, "thin", "paper")
    ]  # fmt: skip
    for n in range(0, divisions, every):
        turn = math.pi / 2 - 2 * math.pi * n / divisions
        long = 2.6 if n % (10 * every) == 0 else 1.8 if n % (5 * every) == 0 else 1.1
        ends = [[x + r * math.cos(turn), r * math.sin(turn)] for r in (10.0 - long, 10.0)]
        made.append(Path(np.array(ends), "thin"))
    made.append(Path(np.array([[x, 10.3], [x, 12.3]]), "crank"))
    return made
