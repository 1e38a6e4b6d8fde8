"""The map of the true cycle: pull and steam over speed, a curve for each notch."""

from __future__ import annotations

from ..steam import CycleMap
from .scene import Array, Chart, Curve, Pen

_PENS: tuple[Pen, ...] = ("outline", "thin", "trace", "changed", "hidden", "behind")


def pictures(made: CycleMap) -> tuple[Chart, Chart]:
    """Return pull and steam over speed at working pressure, the regulator wide open."""
    pull = made.pull[-1] * made.engine.efficiency
    steam = 1000 * made.steam[-1]
    last = f"{made.speeds[-1]:.3g} km/h"
    return (
        Chart(
            "Pull over speed, by the true cycle",
            f"At {made.pressures[-1]:.3g} bar with the regulator wide open, engine friction off: "
            f"in notch {made.notches[0]:g} {pull[0, 0]:.0f} N at {made.speeds[0]:.2g} km/h and "
            f"{pull[0, -1]:.0f} N at {last}.",
            "speed, km/h", "pull at the rim, N", _curves(made, pull),
        ),
        Chart(
            "Steam over speed, by the true cycle",
            f"In notch {made.notches[0]:g} {steam[0, -1]:.2g} g/s at {last}, in notch "
            f"{made.notches[-1]:g} {steam[-1, -1]:.2g}.",
            "speed, km/h", "steam, g/s", _curves(made, steam),
        ),
    )  # fmt: skip


def _curves(made: CycleMap, rows: Array) -> tuple[Curve, ...]:
    return tuple(
        Curve(made.speeds, row, f"notch {notch:g}", _PENS[i % len(_PENS)])
        for i, (notch, row) in enumerate(zip(made.notches, rows, strict=True))
    )
