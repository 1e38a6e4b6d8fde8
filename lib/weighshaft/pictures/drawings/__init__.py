"""Shop drawings: what each part looks like with its sizes, for paper and for a cutter."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ...design import Design
from .arrangement import arrangement_drawings
from .axles import axle_drawings
from .crosshead import crosshead_drawings
from .cylinders import cylinder_drawings
from .fittings import fitting_drawings
from .gear import gear_drawings
from .manifold import manifold_drawings
from .plates import plate_drawings
from .reverser import reverser_drawings
from .rods import rod_drawings
from .sheet import Drawing, Outline, View
from .spindle import spindle_drawings
from .stays import stay_drawings
from .swinging import swinging_drawings
from .trunnion import trunnion_drawings
from .valves import valve_drawings

__all__ = ["Drawing", "Outline", "View", "drawings_of"]

_ROOMS: tuple[Callable[[Design, Any], list[Drawing]], ...] = (
    arrangement_drawings,
    plate_drawings,
    stay_drawings,
    axle_drawings,
    rod_drawings,
    cylinder_drawings,
    crosshead_drawings,
    valve_drawings,
    spindle_drawings,
    gear_drawings,
    reverser_drawings,
    swinging_drawings,
    trunnion_drawings,
    fitting_drawings,
    manifold_drawings,
)
"""The rooms, in the order in which their drawings are bound."""


def drawings_of(design: Design, work: Any) -> tuple[Drawing, ...]:
    """Return every drawing that the decisions made so far allow.

    Parameters
    ----------
    work : the design worked (`job.work`); a chapter that could not be worked has no drawing.
    """
    return tuple(drawing for room in _ROOMS for drawing in room(design, work))
