"""What of a gear is fixed to the frames, and where it stands when the axle moves among it.

The origin of the frame of the mechanism is the axle: seen from there an axle that rises lets
everything fixed to the frames go down.
"""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any, NamedTuple, TypeVar

import numpy as np

from .frame import Array, Crank
from .gears import AnyGear
from .many import spread

GearKind = TypeVar("GearKind", bound=AnyGear)


class Fixed(NamedTuple):
    """The fields of a gear that say where things fixed to the frames are.

    Parameters
    ----------
    pivots : field of x and field of y of each pivot.
    lines : heights at x = 0 of straight lines inclined by `valve_angle`.
    """

    pivots: tuple[tuple[str, str], ...]
    lines: tuple[str, ...]


def fixed_to_frames(gear: Any) -> Fixed:
    """Return what is fixed to the frames, by the habits in which the fields of gears are named.

    A pivot on the frames has an `_x` and a `_y`, the line of a spindle or a die a `_height`;
    what moves is told by `_ahead` and `_above` in axes of its own.
    """
    names = [one.name for one in fields(gear)]
    starts = [name.removesuffix("_x") for name in names if name.endswith("_x")]
    return Fixed(
        tuple((f"{start}_x", f"{start}_y") for start in starts if f"{start}_y" in names),
        tuple(name for name in names if name.endswith("_height")),
    )


def with_axle_moved(
    crank: Crank, gear: GearKind, ahead: float | Array, above: float | Array
) -> tuple[Crank, GearKind]:
    """Return crank and gear as they stand to each other with the axle moved in the frames.

    Parameters
    ----------
    ahead, above : how far the axle has moved, mm in the frame of the mechanism; rows (k,)
        of them give rows of candidates, as `many.spread` does.

    Raises
    ------
    MotionLocks : when the connecting rod no longer passes the crank over.
    """
    fixed = fixed_to_frames(gear)
    changes: dict[str, Any] = {}
    for x, y in fixed.pivots:
        if getattr(gear, x) is not None:
            changes[x] = getattr(gear, x) - ahead
            changes[y] = getattr(gear, y) - above
    slope = np.tan(np.radians(getattr(gear, "valve_angle", 0.0)))
    for height in fixed.lines:
        if getattr(gear, height) is not None:
            changes[height] = getattr(gear, height) - above + ahead * slope
    offset = crank.cylinder_offset - above
    if np.ndim(ahead) or np.ndim(above):
        return spread(crank, {"cylinder_offset": offset}), spread(gear, changes)
    plain: dict[str, Any] = {name: float(value) for name, value in changes.items()}
    return replace(crank, cylinder_offset=float(offset)), replace(gear, **plain)


def way_of_rise(inclination: float) -> tuple[float, float]:
    """Return how far ahead and above the axle goes for a rise of 1 mm in upright horn guides.

    Parameters
    ----------
    inclination : of the cylinder, degrees, positive where its front end is the higher.
    """
    slope = np.radians(inclination)
    return float(np.sin(slope)), float(np.cos(slope))
