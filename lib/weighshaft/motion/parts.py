"""Fields and joints that several gears share."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

from ..sizes import size
from .equivalent import EquivalentEccentric, ValveSizes
from .frame import Array, Crank, Sized, arm_angle, eccentric_leads, pin, point, radians


def valve_angle_size() -> Any:
    """Declare the inclination of the valve spindle, which every gear has."""
    return size(
        "Valve spindle inclined",
        "deg",
        -60,
        60,
        default=0.0,
        help="anticlockwise from the cylinder's line",
    )


def admission_size() -> Any:
    """Declare the edge that admits steam; the valve's own has to agree."""
    return size(
        "Admission of the valve", "choice", choices=("outside", "inside"), default="outside"
    )


def hanging_size() -> Any:
    """Declare on which side of the lifting arm's end the link or rod is carried."""
    return size(
        "Carried below or above the lifting arm",
        "choice",
        choices=("below", "above"),
        default="below",
    )


def crank_points(crank: Crank, theta: Array) -> dict[str, Array]:
    """Return crank pin and gudgeon pin, each (..., 2), for crank angles in degrees."""
    x = crank.gudgeon(theta)
    return {
        "crank_pin": pin(crank.throw, 0.0, radians(theta)),
        "gudgeon": point(x, crank.cylinder_offset),
    }


class Eccentrics(NamedTuple):
    """The forward and the backward eccentric with their rods, in this order.

    Parameters
    ----------
    leads : before the crank, radians.
    throws, rods : mm.
    """

    leads: tuple[Array, Array]
    throws: tuple[Sized, Sized]
    rods: tuple[Sized, Sized]

    def pins(self, theta: Array) -> tuple[Array, Array]:
        """Return the centres of both, (..., 2), for crank angles in degrees."""
        angle = radians(theta)
        (one, other), (near, far) = self.leads, self.throws
        return pin(near, one, angle), pin(far, other, angle)


def eccentrics_alike(
    throw: Sized, advance: float, rod: Sized, valve_angle: float, *, turned: bool
) -> Eccentrics:
    """Return both eccentrics as designed: alike but for the side to which they lead."""
    leads = eccentric_leads(advance, valve_angle, turned=turned)
    return Eccentrics(leads, (throw, throw), (rod, rod))


def arm_end(
    x: float, y: float, length: float, forward: float, backward: float, reverser: Array
) -> Array:
    """Return the end of a lifting arm on the weighshaft at (x, y), (..., 2)."""
    angle = arm_angle(forward, backward, reverser)
    return point(x + length * np.cos(angle), y + length * np.sin(angle))


def turned(c: Array, s: Array, ahead: float | Array, above: float | Array) -> tuple[Array, Array]:
    """Return a point of a body's own axes in a body whose "ahead" points along (c, s)."""
    return c * ahead - s * above, s * ahead + c * above


def turn(c: Array, s: Array, by: Array) -> tuple[Array, Array]:
    """Turn a direction (c, s) by about `by` radians without a sine, and exactly of length 1.

    The Cayley map turns by 2 atan(by / 2), which is `by` to the third order: all that an
    iteration asks for.
    """
    share = 1 / (1 + 0.25 * by * by)
    cos, sin = 2 * share - 1, by * share
    return c * cos - s * sin, s * cos + c * sin


Wishes = tuple[tuple[str, float, str], ...]
"""What wanted events call for in a gear: field, value and why."""


def eccentric_wishes(
    throw: float, advance: float, sizes: ValveSizes, now: EquivalentEccentric
) -> Wishes:
    """Return the throw and advance that bring a gear to the eccentric that events call for.

    Parameters
    ----------
    throw, advance : of the gear as it is, mm and degrees.
    sizes : of the eccentric that the wanted events call for.
    now : the eccentric that the gear amounts to in full forward gear.
    """
    opens = sizes.throw - sizes.steam_lap
    if not now.throw > 0:
        return ()
    return (
        ("eccentric_throw", throw * sizes.throw / now.throw,
         f"port opens {opens:.2f} mm in full gear"),
        ("advance", advance + sizes.advance - now.advance, "for the lap and lead wanted"),
    )  # fmt: skip


def steps(reach: float) -> list[float]:
    """Return places to try from -reach to +reach, in two dozen steps."""
    return [round(reach * step / 12, 3) for step in range(-12, 13)]
