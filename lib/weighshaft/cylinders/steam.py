"""Steam in the cylinder: the assumed cycle, mean pressure, steam used, steam speeds."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..measures import BAR
from ..trade.saturation import ATMOSPHERE
from ..working import log, pi, relation, sqrt

Array = NDArray[np.float64]
Yes = NDArray[np.bool_]
HANDBOOK = "MACHINERY's Reference Series 70, Steam Engines (1911)"


@relation("n", "geometry", speed="v", wheel="D_w")
def turns_a_second(speed: float, wheel: float) -> Any:
    """Turns a second at `speed` km/h on wheels of `wheel` mm."""
    return speed / 3.6e-3 / (pi * wheel)


@relation(
    "m", f"{HANDBOOK}, table II: the formula reproduces its thirty factors",
    cutoff="x", clearance="c",
)  # fmt: skip
def mean_factor(cutoff: float, clearance: float) -> Any:
    """Mean over initial absolute pressure; cut-off and clearance as parts of the stroke."""
    return cutoff + (cutoff + clearance) * log((1 + clearance) / (cutoff + clearance))


@relation(
    "p_m", f"{HANDBOOK}, rule with table II, and its diagram factors",
    factor="m", initial="p_1", back="p_b", diagram="f",
)  # fmt: skip
def mean_pressure(factor: float, initial: float, back: float, diagram: float) -> float:
    """Mean effective pressure from absolute initial and back pressure, in their unit."""
    return diagram * (initial * factor - back)


@relation(
    "p_c", "hyperbolic compression, pv constant; common practice",
    back="p_b", compression="k", clearance="c",
)  # fmt: skip
def compressed(back: float, compression: float, clearance: float) -> float:
    """Absolute pressure at the dead centre of what was shut in at `compression`."""
    return back * (compression + clearance) / clearance


@relation(
    "m_s", f"{HANDBOOK}, “Determining Steam Consumption”",
    density="\\rho_1", filled="V_1", kept_density="\\rho_b", kept="V_k",
)  # fmt: skip
def steam_used(density: float, filled: float, kept_density: float, kept: float) -> float:
    """Steam drawn for one stroke: what fills the end at cut-off less what compression kept."""
    return density * filled - kept_density * kept


@relation(
    "w", "continuity; common practice",
    bore="d", piston_speed="c_m", passage="a",
)  # fmt: skip
def steam_speed(bore: float, piston_speed: float, passage: float) -> Any:
    """Speed of the steam through a passage (mm2) that feeds a bore (mm)."""
    return pi * bore**2 / 4 * piston_speed / passage


@relation(
    "P_i", f"{HANDBOOK}: pressure, length, area, number of strokes",
    mean="p_m", area="A", stroke="s", strokes="z",
)  # fmt: skip
def indicated_power(mean: float, area: float, stroke: float, strokes: float) -> float:
    """Indicated power, W, of a mean pressure (bar) on an area (mm2) for strokes a second."""
    return BAR * mean * area * stroke / 1000 * strokes


CLARK = (10.0, 75.0)
"""Admission, %, for which Clark's rule was given."""


@relation(
    "p_m",
    "D. K. Clark's rule for locomotives at moderate speed (formula from memory); it makes the "
    "table in Vose, Handbook of Railroad Construction, p. 309",
    pressure="p", admission="a",
)  # fmt: skip
def clark_mean_pressure(pressure: float, admission: float) -> Any:
    """Mean effective pressure found in practice, in the unit of the pressure in the boiler.

    `admission` is the cut-off in % of the stroke, 10 to 75.
    """
    return pressure * (13.5 * sqrt(admission) - 28) / 100


@dataclass(frozen=True)
class Events:
    """Cut-off, release and compression as parts of the stroke, each from its own end."""

    cutoff: float
    release: float
    compression: float


def events_of(cutoff: float | None, release: float | None, compression: float | None) -> Events:
    """Return events in the order in which a turn can have them, from percentages.

    An event that does not occur is None: steam is then never cut off, released only at the
    end of the stroke, or never shut in.
    """
    cut = min(max(100.0 if cutoff is None else cutoff, 1.0), 100.0) / 100
    out = min(max(100.0 if release is None else release, 100 * cut), 100.0) / 100
    shut = min(max(0.0 if compression is None else compression, 0.0), 99.0) / 100
    return Events(cut, out, shut)


@dataclass(frozen=True)
class Fill:
    """What one end of a cylinder is filled with.

    Parameters
    ----------
    chest, back : pressure in the steam chest and in the exhaust, bar absolute.
    clearance : clearance volume as a part of the volume swept at this end.
    lifts : whether the valve lifts when the pressure under it rises above the chest's.
    """

    chest: float
    back: float
    clearance: float
    lifts: bool

    def mean(self, events: Events) -> float:
        """Return the mean effective pressure of the assumed cycle, bar, in closed form."""
        c, cut, out, shut = self.clearance, events.cutoff, events.release, events.compression
        released = self.chest * (cut + c) / (out + c)
        forward = self.chest * (cut + (cut + c) * math.log((out + c) / (cut + c)))
        forward += (released + self.back) / 2 * (1 - out)
        kept = self.back * (shut + c)
        full = max(kept / self.chest - c, 0.0) if self.lifts else 0.0
        backward = self.back * (1 - shut) + kept * math.log((shut + c) / (full + c))
        return forward - backward - self.chest * full


def indicated(part: Array, leaving: Yes, fill: Fill, events: Events) -> Array:
    """Return the pressure in one end of the cylinder, bar absolute.

    The cycle: chest pressure up to cut-off; hyperbolic expansion with the clearance; from
    release a straight fall to the back pressure at the end of the stroke; back pressure up
    to compression; hyperbolic compression, held at chest pressure where the valve lifts.

    Parameters
    ----------
    part : distance of the piston from this end's dead centre, as a part of the stroke.
    leaving : whether the piston is moving away from this end.
    """
    c, cut, out, shut = fill.clearance, events.cutoff, events.release, events.compression
    expanded = fill.chest * (cut + c) / (np.maximum(part, cut) + c)
    released = fill.chest * (cut + c) / (out + c)
    fall = np.clip((part - out) / max(1 - out, 1e-9), 0.0, 1.0)
    forward = np.where(part <= out, expanded, released + (fill.back - released) * fall)
    backward = fill.back * (shut + c) / (np.minimum(part, shut) + c)
    if fill.lifts:
        backward = np.minimum(backward, fill.chest)
    return np.where(leaving, forward, backward)


@dataclass(frozen=True, eq=False)
class Diagram:
    """The assumed indicator diagram of the front end: part of stroke and bar on the gauge."""

    part: Array
    pressure: Array


def diagram(fill: Fill, events: Events) -> Diagram:
    """Return the diagram as a closed line, there and back."""
    there = np.union1d(np.linspace(0, 1, 81), [events.cutoff, events.release])
    again = np.union1d(np.linspace(0, 1, 81), [events.compression])[::-1]
    part = np.concatenate([there, again, there[:1]])
    leaving = np.arange(part.size) < there.size
    leaving[-1] = True
    return Diagram(part, indicated(part, leaving, fill, events) - ATMOSPHERE)
