"""Safety valves, reckoned against the greatest evaporation."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..measures import INCH
from ..trade.saturation import ATMOSPHERE, saturation
from . import relations

EXPONENT = 1.135
"""Of dry saturated steam, for its critical flow; handbook of thermodynamics, from memory."""
ACCUMULATION = 1.1
"""What the pressure may rise to of the working pressure at full fire, with the steam shut off;
club codes, from memory."""
OF_SEAT = {"ordinary": 1 / 24, "high": 1 / 12, "pop": 1 / 4}
"""Lift over the bore of the seat; British standard of old, from memory.  Others call a lift of
1/20 low, of 1/4 full."""
PSI = 14.503773773
"""A bar in lb/in2."""


def lift_share(lift: str) -> float:
    """Return the lift over the bore of the seat of a valve by the words of the choice."""
    return OF_SEAT[lift.split(",")[0]]


def flow_area(seat: float, share: float) -> float:
    """Return what a valve opens, mm2: the curtain under it, at most the bore of its seat.

    Parameters
    ----------
    seat : bore, mm.
    share : lift over the bore.
    """
    return math.pi * seat * seat * min(share, 0.25)


def capacity(seat: float, share: float, discharge: float, blows_at: float, number: int) -> float:
    """Return the steam that the valves pass while the pressure has risen by a tenth, kg/s.

    Parameters
    ----------
    seat, share : see `flow_area`; `discharge` the coefficient.
    blows_at : bar.

    Source: form of ISO 4126, from memory; Napier's rule agrees within 2 per cent from 5 to 11 bar.
    """
    return number * flow_area(seat, share) / mm2_for(3600.0, discharge, blows_at)


def mm2_for(flow: float, discharge: float, blows_at: float) -> float:
    """Return the flow area that passes `flow` kg/h, mm2; see `capacity`."""
    steam = saturation(ACCUMULATION * blows_at)
    c = relations.expansion_c(EXPONENT)
    return relations.valve_area(flow, c, discharge, steam.absolute, 1 / steam.density)


def seat_for(flow: float, share: float, discharge: float, blows_at: float, number: int) -> float:
    """Return the bore of the seat that passes a flow, mm.

    Parameters
    ----------
    flow : of all valves together, kg/s.
    """
    area = mm2_for(flow * 3600, discharge, blows_at) / number
    return math.sqrt(area / (math.pi * min(share, 0.25)))


def seat_by_old_rule(bore: float, stroke: float, turns: float, pressure: float) -> float:
    """Return the bore of one valve by the rule of Bourne's day, mm.

    Parameters
    ----------
    bore, stroke : of the cylinders, mm.
    turns : rev/min.
    pressure : bar.
    """
    feet = 2 * stroke * turns / INCH / 12
    area = relations.old_valve(bore / INCH, feet, pressure * PSI)
    return math.sqrt(4 * area / math.pi) * INCH


def napier_flow(seat: float, share: float, discharge: float, blows_at: float, number: int) -> float:
    """Return the same as `capacity` by Napier's rule, kg/s."""
    area = number * flow_area(seat, share) / INCH**2
    pressure = (ACCUMULATION * blows_at + ATMOSPHERE) * PSI
    return float(relations.napier(pressure, area)) * discharge * 0.45359237


@dataclass(frozen=True)
class Valves:
    """The safety valves, mm, bar, kg/s.

    Parameters
    ----------
    seat : as taken; `needed` for the greatest evaporation at full fire.
    passes : all together, while the pressure has risen by a tenth.
    """

    number: int
    seat: float
    needed: float
    by_old_rule: float | None
    passes: float
    by_napier: float
    blows_at: float
    share: float
