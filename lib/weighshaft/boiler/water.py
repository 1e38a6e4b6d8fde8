"""The water: its level cold and hot, the gauge glass, and what lies between its nuts."""

from __future__ import annotations

from ..frames.boilerwork import segment
from ..frames.solids import Round
from ..frames.whole import Part
from ..trade.saturation import saturation
from .decisions import BoilerSeat
from .results import Lying, Water

COLD_DENSITY = 998.2
"""Of water at 20 degC, kg/m3; IAPWS R7-97 gives 998.2 at 1 bar."""


def water_of(
    boiler: BoilerSeat, lying: Lying, *, kind: str, shell: Part, ratio: float, pressure: float
) -> Water:  # fmt: skip
    """Return the heights of the water in a lying boiler.

    Parameters
    ----------
    kind : of boiler.
    shell : the part "boiler".
    ratio : prototype over model.
    pressure : bar.
    """
    low = lying.centre - lying.radius
    level = low + boiler.water_level * 2 * lying.radius
    crown = crown_of(boiler, lying, kind, shell)
    nut = boiler.fittings.gauge_nut
    glass = boiler.fittings.glass or 0.4 * lying.radius
    bottom = None
    if crown is not None:
        bottom = crown + (least_over_crown(ratio) if nut is None else nut)
    top = None if bottom is None else bottom + glass
    flue = _flue(shell, kind)
    grows = COLD_DENSITY / saturation(pressure).water_density
    hot = _level(lying, grows * _held(lying, level, flue), flue)
    between = None
    if bottom is not None and top is not None:
        more = _held(lying, top, flue) - _held(lying, bottom, flue)
        between = more * COLD_DENSITY * 1e-6
    return Water(level, hot, crown, bottom, top, between)


def least_over_crown(ratio: float) -> float:
    """Return the least water over the crown, mm: full size's at scale, and 2 mm at least.

    Source: 49 CFR 230.51 (3 in at full size; from memory); 2 mm are common practice.
    """
    return max(76.2 / ratio, 2.0)


def crown_of(boiler: BoilerSeat, lying: Lying, kind: str, shell: Part) -> float | None:
    """Return how high the fire touches metal, mm from the axle; None where it is not known."""
    if boiler.firebox.crown is not None:
        return lying.centre + boiler.firebox.crown
    if kind == "locomotive type":
        return lying.centre + 0.1 * lying.radius
    if kind == "centre flue":
        flue = _flue(shell, kind)
        return None if flue is None else flue[0] + flue[1]
    return None


def _flue(shell: Part, kind: str) -> tuple[float, float] | None:
    """Return height and outside radius of a centre flue, mm."""
    if kind != "centre flue":
        return None
    rounds = [one for one in shell.solids if isinstance(one, Round) and one.bore]
    if len(rounds) < 2:
        return None
    flue = min(rounds, key=lambda one: one.radius)
    return flue.start[1], flue.radius


def _held(lying: Lying, level: float, flue: tuple[float, float] | None) -> float:
    """Return the water below a level in the barrel, mm3; of the flue's room it has none."""
    low = lying.centre - lying.inside
    area = segment(lying.inside, level - low)[0]
    if flue is not None:
        centre, radius = flue
        area -= segment(radius, level - (centre - radius))[0]
    return area * (lying.front - lying.back)


def _level(lying: Lying, volume: float, flue: tuple[float, float] | None) -> float:
    """Return the level at which the barrel holds so much, at most its top, mm."""
    low, high = lying.centre - lying.inside, lying.centre + lying.inside
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if _held(lying, middle, flue) < volume else (low, middle)
    return (low + high) / 2
