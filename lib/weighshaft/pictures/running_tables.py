"""Tables of the run, of trains, and of what holds them back."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..running import RunningResult
from .scene import Table

_ROWS, _TOLD = 12, 20
_HELD = {"grip": "grip of the wheels", "cylinders": "cylinders", "boiler": "boiler"}


def table_of_trains(result: RunningResult) -> Table:
    """Return where every train balances, and what holds it there."""
    rows = tuple(
        (
            ("▸ " if one.mass == result.train else "") + f"{one.mass:.1f} kg",
            "level" if not one.grade else f"1 in {one.grade:.0f}",
            f"{float(one.force[0]):.1f} N",
            "does not start" if one.speed <= 0
            else (f"{one.speed:.1f} km/h" if one.speed < 39.9 else "40 km/h and more"),
            "–" if one.speed > 39.9 else _HELD[one.held_by],
        )
        for one in result.wanted
    )  # fmt: skip
    return Table(
        "Trains and the speed that they settle at",
        ("Behind the engine", "Rise", "Wants at a walk", "Settles at", "Held by"), rows,
        "Half, all and twice the train, at working pressure; wants: engine and train at the rail, "
        "without the friction of the engine's motion.",
    )  # fmt: skip


def table_of_run(result: RunningResult) -> Table:
    """Return the run from time to time."""
    run = result.run
    picked = np.unique(np.linspace(0, run.time.size - 1, _ROWS).round().astype(int))
    rows = tuple(
        (
            f"{run.time[i] / 60:.1f}", f"{run.distance[i]:.0f}", f"{run.speed[i]:.1f}",
            f"{run.pressure[i]:.2f}", f"{1000 * run.water[i]:.0f}", f"{1000 * run.tank[i]:.0f}",
            f"{1000 * run.fuel[i]:.0f}", f"{run.reverser[i]:g}", f"{100 * run.regulator[i]:.0f}",
            f"{run.pull[i]:.1f}",
        )
        for i in map(int, picked)
    )  # fmt: skip
    return Table(
        "The run from time to time",
        ("Minutes", "m", "km/h", "bar", "Boiler, g", "Tanks, g", "Fuel, g", "Notch",
         "Regulator, %", "Pull, N"),
        rows,
        "Regulator: pressure in the chest over what it is wide open. A pull below nothing: the "
        "engine is drawn along with the regulator shut.",
    )  # fmt: skip


def table_of_happenings(result: RunningResult) -> Iterator[Table]:
    """Yield what happened on the way, where anything did."""
    moments = result.run.moments
    if not moments:
        return
    rows = tuple(
        (f"{one.time / 60:.1f}", f"{one.distance:.0f}", one.says) for one in moments[:_TOLD]
    )
    more = len(moments) - len(rows)
    yield Table(
        "On the way", ("Minutes", "m", "What happens"), rows,
        f"And {more} times more." if more > 0 else "",
    )  # fmt: skip


def share_table(result: RunningResult) -> Table:
    """Return what holds the train back on the level, and in the sharpest curve."""
    whole = sum(one.force for one in result.shares) or 1.0
    rows: list[tuple[str | float, ...]] = [
        (one.name, f"{one.force:.2f} N", f"{100 * one.force / whole:.0f} %")
        for one in result.shares
    ]
    if result.rules:
        rows.append((
            "Sharpest curve, besides", f"{result.curve_per_weight:.2f} % of the weight", "–",
        ))  # fmt: skip
    rules = ", ".join(f"{name} {100 * share:.2f} %" for name, share in result.rules)
    return Table(
        "What holds it back on straight level track",
        ("Part", "Force", "Share"), tuple(rows),
        "" if not rules else (
            f"Full-size rules for that curve, taken at scale: {rules}. Small stock is stiffer for "
            "its gauge, and no measured figures for it were found."
        ),
    )  # fmt: skip
