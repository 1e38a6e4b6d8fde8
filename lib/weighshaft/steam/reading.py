"""What is read off a turn that repeats: losses, marks, the steam that no indicator sees."""

from __future__ import annotations

import math

import numpy as np

from ..cylinders import steam as textbook
from ..trade.saturation import ATMOSPHERE, saturation
from .cycle import Array, Cycle
from .openings import Opened
from .results import Loss, Mark

_NAMES = {("steam", True): "admission", ("steam", False): "cut-off",
          ("exhaust", True): "release", ("exhaust", False): "compression"}  # fmt: skip


def marks_of(opening: Opened) -> tuple[Mark, ...]:
    """Return the events: the steps in which a port opens or shuts."""
    made = []
    for k, end in enumerate(("front", "back")):
        for way in ("steam", "exhaust"):
            is_open = getattr(opening, way)[k] > 0
            for step in np.flatnonzero(is_open != np.roll(is_open, 1)):
                made.append(Mark(end, _NAMES[way, bool(is_open[step])], int(step) - 1))
    return tuple(made)


def step_of(marks: tuple[Mark, ...], end: str, name: str) -> int | None:
    """Return the step of the one event of a name; None where it is not there or not alone."""
    found = [one.step for one in marks if (one.end, one.name) == (end, name)]
    return found[0] if len(found) == 1 else None


def ideal_diagram(events: textbook.Events, fill: textbook.Fill) -> Array:
    """Return part of the stroke and bar on the gauge of the diagram without losses, (2, k)."""
    drawn = textbook.diagram(fill, events)
    return np.array([drawn.part, drawn.pressure])


def pressure_losses(
    cycle: Cycle, opening: Opened, boiler: float, outside: float, areas: tuple[float, float],
    stroke: float,
) -> tuple[Loss, ...]:  # fmt: skip
    """Return what wire-drawing and back pressure take from the mean pressure.

    Parameters
    ----------
    boiler, outside : bar absolute.

    They are the areas on the diagram between the boiler's pressure and the piston's while the
    port is open to steam, and between the piston's and the open air's on the way back.
    """
    swept = (areas[0] + areas[1]) * stroke
    on_way_in = on_way_out = 0.0
    for k in (0, 1):
        change = np.diff(np.concatenate([cycle.volume[k][-1:], cycle.volume[k]]))
        before = np.roll(cycle.pressure[k], 1)
        mean = (before + cycle.pressure[k]) / 2
        admitted = (opening.steam[k] > 0) & (change > 0)
        on_way_in += float(np.sum((boiler - mean)[admitted] * change[admitted]))
        back = (change < 0) & (opening.exhaust[k] > 0)
        on_way_out += float(np.sum((outside - mean)[back] * change[back]))
    work = float(np.sum(cycle.work)) * 1e4 / swept
    total = max(abs(work), 1e-9)
    return tuple(
        Loss(name, amount, amount / total)
        for name, amount in (
            ("on the way in: regulator, pipe, chest and port", on_way_in / swept),
            ("on the way out: port, passage, blast pipe and nozzle", on_way_out / swept),
        )
    )


def missing_part(
    cycle: Cycle, marks: tuple[Mark, ...], supply: float, number: int
) -> tuple[float, float] | None:
    """Return (steam that the indicator shows at cut-off, steam kept in), g a stroke.

    None for a turn without cut-off or compression.  Both ends in the mean.
    Source: the steam that the diagram accounts for, as dry saturated; the usual definition of
    the missing quantity.
    """
    shown, kept = [], []
    for k, end in enumerate(("front", "back")):
        cut, shut = step_of(marks, end, "cut-off"), step_of(marks, end, "compression")
        if cut is None or shut is None:
            continue
        shown.append(_as_dry(cycle, k, cut))
        kept.append(_as_dry(cycle, k, shut))
    if not shown or supply <= 0 or number < 1:
        return None
    return 1000 * float(np.mean(shown)), 1000 * float(np.mean(kept))


def _as_dry(cycle: Cycle, k: int, step: int) -> float:
    """Return the kg in an end if it were full of dry saturated steam."""
    pressure = float(cycle.pressure[k][step]) - ATMOSPHERE
    return saturation(max(pressure, -0.9)).density * float(cycle.volume[k][step]) * 1e-9


def dryness_at(cycle: Cycle, marks: tuple[Mark, ...]) -> float | None:
    """Return the dryness at cut-off, both ends in the mean; 1 where it is superheated."""
    found = [
        min(float(cycle.dryness[k][step]), 1.0)
        for k, end in enumerate(("front", "back"))
        if (step := step_of(marks, end, "cut-off")) is not None
    ]
    return sum(found) / len(found) if found else None


def torque_of(
    cycle: Cycle, slope: Array, areas: tuple[float, float], outside: float, lags: tuple[float, ...]
) -> Array:
    """Return the torque on the axle of all cylinders, N mm in the direction of running, (n,).

    Parameters
    ----------
    slope : (n,) mm that the piston goes ahead for a radian of running, at the ends of the steps.
    outside : bar absolute on the end of the piston rod.
    lags : degrees by which each crank follows the first, the first's 0 among them.

    Source: force on the piston times dx/dtheta (virtual work).
    """
    rod = outside * (areas[0] - areas[1])
    force = 0.1 * (cycle.pressure[1] * areas[1] + rod - cycle.pressure[0] * areas[0])
    one = force * slope
    n = len(one)
    total = np.zeros(n)
    for lag in lags:
        total += np.roll(one, round(n * lag / 360))
    return total


def mean_of(values: Array, where: Array) -> float:
    """Return the mean of values where a condition holds; of all where it never does."""
    return float(np.mean(values[where])) if np.any(where) else float(np.mean(values))


def steps_for(turns_a_second: float, stroke: float) -> int:
    """Return into how many steps a turn is cut: more where slow running gives flow more time.

    Chosen so that halving the step moves the mean pressure by less than a hundredth; a test
    holds it to that.
    """
    piston_speed = 2 * stroke / 1000 * turns_a_second
    return 80 * max(3, min(12, math.ceil(0.3 / max(piston_speed, 1e-6))))
