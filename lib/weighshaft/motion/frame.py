"""The frame of the mechanism: crank, dead centres, piston, eccentrics, spindle and reverser.

Looking at the right-hand side with the cylinder to the right: origin at the axle, x along
the cylinder axis towards the cylinder, y up.  Running forward turns the axle clockwise; a
pin of throw r that leads the crank by phi stands at (r cos(theta+phi), -r sin(theta+phi)).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ..sizes import SizeError

Array = NDArray[np.float64]
Sized = float | Array
"""A size of one gear, or a row of candidates for it."""

TINY, VAST = 1e-6, 1e9
"""Limits of a length in a gear, mm: any geometry may be asked about, whatever its scale."""

STEP = 1e-20
"""A size changed by this in the imaginary part carries its derivative through a pose.

Sizes of a gear may stand as rows of candidates, and in complex numbers (see `many`); what
a pose uses is therefore written for arrays and for numbers off the real line.
"""


def radians(degrees: ArrayLike) -> Array:
    """Return an angle in radians, of complex numbers too."""
    angle: Array = np.multiply(degrees, math.pi / 180)
    return angle


def span(x: Sized, y: Sized) -> Array:
    """Return the length of (x, y); where that is complex, continued off the real line."""
    length: Array = np.sqrt(np.add(x * x, y * y))
    return length


def bearing(y: Array, x: Array) -> Array:
    """Return the angle of (x, y) from +x in radians; complex to the first order."""
    if not (np.iscomplexobj(x) or np.iscomplexobj(y)):
        plain: Array = np.arctan2(y, x)
        return plain
    x0, y0 = np.real(x), np.real(y)
    turns = (x0 * np.imag(y) - y0 * np.imag(x)) / (x0 * x0 + y0 * y0)
    angle: Array = np.arctan2(y0, x0) + 1j * turns
    return angle


def point(x: ArrayLike, y: ArrayLike) -> Array:
    """Return points (..., 2) of two coordinates, whatever their shapes."""
    return np.stack(np.broadcast_arrays(x, y), axis=-1)


def beyond(start: Array, way: Array, distance: ArrayLike) -> Array:
    """Return the points at a distance from `start` along unit vectors `way`, (..., 2)."""
    there: Array = start + np.asarray(distance)[..., None] * way
    return there


def dot(a: Array, b: Array) -> Array:
    """Return the inner product of vectors (..., 2)."""
    product: Array = a[..., 0] * b[..., 0] + a[..., 1] * b[..., 1]
    return product


def sign(value: ArrayLike) -> Array:
    """Return +1 where a value is above 0, else -1."""
    side: Array = np.where(np.real(value) > 0, 1.0, -1.0)
    return side


def settled(error: Array, tolerance: ArrayLike) -> bool:
    """Return whether an iteration has come home, its derivative too if it carries one."""
    tolerance = np.real(tolerance)
    home = np.all(np.abs(np.real(error)) < tolerance)
    if np.iscomplexobj(error):
        home = home and np.all(np.abs(np.imag(error)) < 100 * tolerance * STEP)
    return bool(home)


class MotionLocks(ValueError):
    """A gear that cannot be assembled, or locks within the revolution.

    Parameters
    ----------
    joint : where it locks, in words.
    crank_angle : degrees from front dead centre.
    reverser : position of the reverser, None where the gear has no part in it.
    """

    def __init__(self, joint: str, crank_angle: float, reverser: float | None = None) -> None:
        self.joint, self.crank_angle, self.reverser = joint, crank_angle % 360, reverser
        at = "" if reverser is None else f" with the reverser at {reverser:+.2f}"
        super().__init__(
            f"The motion locks at the {joint}, crank at {self.crank_angle:.0f}°{at}: "
            "the parts cannot reach each other there."
        )

    def __reduce__(self) -> tuple[type, tuple[str, float, float | None]]:
        return type(self), (self.joint, self.crank_angle, self.reverser)


@dataclass(frozen=True)
class Crank:
    """The crank, the connecting rod and the line of the cylinder.

    Parameters
    ----------
    stroke : twice the throw of the crank, mm.
    connecting_rod : between centres, mm.
    cylinder_offset : height of the cylinder axis above the axle centre, mm.

    Raises
    ------
    SizeError : when a size is not a positive number.
    MotionLocks : when the connecting rod is too short to pass the crank over.
    """

    stroke: float
    connecting_rod: float
    cylinder_offset: float = 0.0

    def __post_init__(self) -> None:
        for name in ("stroke", "connecting_rod"):
            value = getattr(self, name)
            if not (math.isfinite(value) and value > 0):
                label = name.replace("_", " ").capitalize()
                raise SizeError(
                    f"{label}: {value} will not do; a length above 0 mm is needed.", name
                )
        if not math.isfinite(self.cylinder_offset):
            raise SizeError("Cylinder offset: a finite length is needed.", "cylinder_offset")
        if self.connecting_rod <= self.throw + abs(self.cylinder_offset):
            # the pin is furthest from the cylinder axis at a quarter turn, on the far side
            raise MotionLocks("gudgeon pin", 90.0 if self.cylinder_offset >= 0 else 270.0)

    @property
    def throw(self) -> float:
        """Half the stroke: from the axle to the crank pin, mm."""
        return self.stroke / 2

    @property
    def dead_centres(self) -> tuple[float, float]:
        """Front and back dead centre, degrees in [0, 360): crank and rod in one line."""
        longest, shortest = self._reach
        front = -np.arcsin(self.cylinder_offset / longest) * (180 / math.pi)
        back = 180.0 - np.arcsin(self.cylinder_offset / shortest) * (180 / math.pi)
        return front + np.where(np.real(front) < 0, 360.0, 0.0), back

    @property
    def centres(self) -> Array:
        """Both dead centres in one row, (..., 2) as a row of crank angles, degrees."""
        return in_row(self.dead_centres)

    @property
    def gudgeon_ends(self) -> tuple[float, float]:
        """x of the gudgeon pin at the front and at the back dead centre, mm."""
        longest, shortest = self._reach
        offset = self.cylinder_offset
        return np.sqrt(longest**2 - offset**2), np.sqrt(shortest**2 - offset**2)

    @property
    def piston_stroke(self) -> float:
        """True stroke of the piston; longer than twice the throw with an offset cylinder."""
        front, back = self.gudgeon_ends
        return front - back

    @property
    def _reach(self) -> tuple[float, float]:
        return self.connecting_rod + self.throw, self.connecting_rod - self.throw

    def gudgeon(self, theta: ArrayLike) -> Array:
        """Return x of the gudgeon pin, mm, for crank angles in degrees, any shape."""
        angle, _, reach = self._stands(theta)
        x: Array = self.throw * np.cos(angle) + reach
        return x

    def slope(self, theta: ArrayLike) -> Array:
        """Return dx/dtheta of the gudgeon pin, mm a radian, for crank angles in degrees."""
        angle, rise, reach = self._stands(theta)
        slope: Array = -self.throw * (np.sin(angle) + rise * np.cos(angle) / reach)
        return slope

    def _stands(self, theta: ArrayLike) -> tuple[Array, Array, Array]:
        """Return the crank angle in radians and how far the rod reaches up and ahead, mm."""
        angle: Array = radians(theta)
        rise: Array = self.cylinder_offset + self.throw * np.sin(angle)
        reach: Array = np.sqrt(self.connecting_rod**2 - rise**2)
        return angle, rise, reach

    def from_front(self, theta: ArrayLike) -> Array:
        """Return how far the piston stands from its front dead centre, fraction of the stroke."""
        fraction: Array = (self.gudgeon_ends[0] - self.gudgeon(theta)) / self.piston_stroke
        return fraction


def in_row(dead_centres: tuple[float, float]) -> Array:
    """Return front and back dead centre as a row of crank angles: (1, 2), or (k, 1, 2)."""
    front, back = np.broadcast_arrays(*dead_centres)
    if front.ndim:
        return np.concatenate([front, back], axis=-1)
    return np.array([[front, back]])


def pin(throw: Sized, lead: Sized, theta: Array) -> Array:
    """Return where a pin stands that leads the crank by `lead` radians, (..., 2).

    Parameters
    ----------
    throw : distance from the axle, mm.
    theta : crank angles in radians, any shape.
    """
    angle = theta + lead
    return np.stack([throw * np.cos(angle), -throw * np.sin(angle)], axis=-1)


def eccentric_leads(
    advance: float, valve_angle: float, *, turned: bool, advance_backward: float | None = None
) -> tuple[Array, Array]:
    """Return by how much the forward and the backward eccentric lead the crank, radians.

    Parameters
    ----------
    advance : angle of advance, degrees; `advance_backward` where that one differs.
    valve_angle : inclination of the spindle, degrees anticlockwise; the eccentrics are
        keyed round with it.
    turned : through 180 degrees, for a rocker that reverses the motion or inside
        admission, but not for both.
    """
    backward = advance if advance_backward is None else advance_backward
    shift = (180.0 if turned else 0.0) - valve_angle
    return radians(90 + advance + shift), radians(-(90 + backward) + shift)


@dataclass(frozen=True)
class Spindle:
    """The straight line of a valve spindle or of a die: through (0, height), inclined."""

    height: float
    angle: float = 0.0

    @property
    def along(self) -> tuple[Array, Array]:
        """Unit vector ahead along the line."""
        angle = radians(self.angle)
        return np.cos(angle), np.sin(angle)

    @property
    def line(self) -> Array:
        """Unit vector ahead along the line, (..., 2)."""
        return point(*self.along)

    def at(self, xi: Array) -> Array:
        """Return the points at distances `xi` along the line from x = 0, (..., 2)."""
        c, s = self.along
        return point(c * xi, self.height + s * xi)

    def reach(self, centre: Array, length: Sized) -> tuple[Array, Array]:
        """Return where a bar of `length` from `centre` meets the line, ahead, and the margin.

        Parameters
        ----------
        centre : (..., 2) mm.

        Returns
        -------
        xi along the line, and the cosine of the angle between bar and line; the margin is
        zero or negative where the bar cannot reach.
        """
        c, s = self.along
        x, y = centre[..., 0], centre[..., 1] - self.height
        foot, off = c * x + s * y, c * y - s * x
        room = 1 - (off / length) ** 2
        margin = np.where(room > 0, np.sqrt(np.maximum(room, 0.0)), room)
        return foot + length * np.maximum(margin, 0.0), margin


def arm_angle(forward: float, backward: float, reverser: Array) -> Array:
    """Return the angle of a lifting arm in radians; linear in the reverser, +1 is `forward`."""
    middle, half = (forward + backward) / 2, (forward - backward) / 2
    return radians(middle + reverser * half)
