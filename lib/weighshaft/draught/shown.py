"""The balance of momentum with an engine's own numbers put in."""

from __future__ import annotations

from typing import Any

import numpy as np

from ..nozzle.cones import Layout
from ..working import Working
from . import relations
from .ejector import Draught, balance
from .front import FrontEnd


def vacuum_worked(front: FrontEnd, layout: Layout, steam: float, drawn: Draught) -> Working:
    """Return the working of the vacuum that a steam flow (kg/s) and the gases drawn make."""
    jet, chimney, gas = front.jet(steam), front.chimney(layout), front.way(layout)
    given: dict[str, Any] = balance(jet, chimney, gas, np.array([drawn.gas[0]]))
    return relations.vacuum.work("Vacuum by the balance of momentum, Pa", "ratio", **given)
