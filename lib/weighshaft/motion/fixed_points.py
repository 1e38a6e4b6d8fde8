"""What of a gear is fixed to the frames, and where it stands when the axle moves among it.

The origin of the frame of the mechanism is the axle: seen from there an axle that rises lets
everything fixed to the frames go down.
"""

from __future__ import annotations

from dataclasses import replace
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
    pivots : joint, field of its x, field of its y.
    lines : heights at x = 0 of straight lines inclined by `valve_angle`.
    """

    pivots: tuple[tuple[str, str, str], ...] = ()
    lines: tuple[str, ...] = ("spindle_height",)


def _pivot(joint: str, field: str | None = None) -> tuple[str, str, str]:
    field = field or joint
    return joint, f"{field}_x", f"{field}_y"


FIXED: dict[str, Fixed] = {
    "slip eccentric": Fixed(),
    "change-over": Fixed(),
    "Stephenson": Fixed(
        (_pivot("weighshaft"), _pivot("rocker")), lines=("die_height", "spindle_height")
    ),
    "Gooch": Fixed((_pivot("hanger"), _pivot("weighshaft"))),
    "Allan": Fixed((_pivot("weighshaft"),)),
    "Walschaerts": Fixed((_pivot("link"), _pivot("weighshaft"))),
    "Baker": Fixed((_pivot("yoke"), _pivot("bell_crank", "bell"))),
    "Joy": Fixed((_pivot("anchor"), _pivot("guide"))),
    "Hackworth": Fixed((_pivot("guide"),)),
    "oscillating": Fixed((_pivot("trunnion"),), lines=()),
}
"""What is fixed to the frames, for every gear by its `kind`."""


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
    fixed = FIXED[gear.kind]
    changes: dict[str, Any] = {}
    for _, x, y in fixed.pivots:
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
