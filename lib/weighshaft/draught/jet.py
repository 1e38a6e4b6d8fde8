"""The exhaust jet: pressure behind the nozzle, thrust, heat, from the steam that passes.

Below the critical ratio of pressures the mouth is choked and the steam leaves it at more than
the smokebox's pressure; that excess pushes on the mouth's area and is part of the thrust, as
the jet expands outside.  The smokebox is taken at the atmosphere's pressure here: its vacuum is
a hundredth of that.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..measures import circle_area
from ..nozzle.flow import (
    PASCAL,
    back_pressures,
    critical_ratio,
    exponent,
    upstream,
)
from ..trade.saturation import ATMOSPHERE

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Jet:
    """The exhaust as it leaves one nozzle or several alike.

    Parameters
    ----------
    steam : kg/s, a figure or (n,).
    diameter : of each nozzle, mm, a figure or (n,).
    number : of nozzles.
    discharge : coefficient of discharge.
    dryness : of the steam behind the nozzle, part by weight.
    """

    steam: float | Array
    diameter: float | Array
    number: int = 1
    discharge: float = 0.93
    dryness: float = 0.92

    @property
    def area(self) -> float | Array:
        """Effective area of all nozzles, mm2."""
        return self.number * self.discharge * circle_area(1.0) * np.square(self.diameter)


@dataclass(frozen=True)
class Mouth:
    """The steam at the mouth, all (n,).

    Parameters
    ----------
    steam : kg/s.
    pressure : behind the nozzle, bar gauge; NaN beyond 10 bar.
    thrust : N.
    speed : m/s.
    heat : content, kJ/kg, its motion included.
    density : kg/m3, about as it has once it stands at the atmosphere's pressure.
    """

    steam: Array
    pressure: Array
    thrust: Array
    speed: Array
    heat: Array
    density: Array


def mouth(jet: Jet) -> Mouth:
    """Return the steam at the mouth of a nozzle, choked or not.

    Source: Saint-Venant and Wantzel for the flow; thrust by the balance of momentum.
    """
    steam, area = np.broadcast_arrays(
        np.atleast_1d(np.asarray(jet.steam, dtype=float)),
        np.atleast_1d(np.asarray(jet.area, dtype=float)),
    )
    steam = np.maximum(steam, 0.0)
    back = back_pressures(steam, area, jet.dryness)
    volume, heat = upstream(back, jet.dryness)
    k = exponent(jet.dryness)
    before = (back + ATMOSPHERE) * PASCAL
    ratio = np.maximum(ATMOSPHERE * PASCAL / before, critical_ratio(k))
    speed = np.sqrt(2 * k / (k - 1) * before * volume * (1 - ratio ** ((k - 1) / k)))
    push = (before * ratio - ATMOSPHERE * PASCAL) * area * 1e-6
    still, _ = upstream(np.zeros(1), jet.dryness)
    return Mouth(
        steam=steam, pressure=back, thrust=steam * speed + push, speed=speed, heat=heat,
        density=np.full_like(steam, 1 / float(still[0])),
    )  # fmt: skip
