"""The rubbing face of an oscillating cylinder: its holes, and how far each is open.

The hole in the cylinder ("port") swings with it on a circle about the trunnion, over two
holes of the fixed face ("passages"), one for steam and one for exhaust, that lie on the
same circle at equal angles above and below the line of centres.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar

import numpy as np

from ..sizes import check_sizes, size
from ..working import asin, pi, relation, sin
from .frame import Array

GEOMETRY = "geometry: chords of the circle on which the holes lie"


@relation(r"\varphi_m", "geometry of the swinging crank", throw="r", trunnion="D")
def greatest_swing(throw: Any, trunnion: Any) -> Any:
    """Greatest swing of the cylinder to either side, degrees; the rod is then square to the crank.

    `trunnion` is the distance from axle to trunnion.
    """
    return 180 / pi * asin(throw / trunnion)


@relation("p", GEOMETRY, radius="R", port="d_c", passage="d_f", seal="s")
def pitch_that_seals(radius: Any, port: Any, passage: Any, seal: Any) -> Any:
    """Pitch of the passages, centre to centre, that covers the port by `seal` in the middle."""
    return 2 * radius * sin(2 * asin(((port + passage) / 2 + seal) / (2 * radius)))


@relation("p", GEOMETRY, radius="R", throw="r", trunnion="D")
def pitch_in_line(radius: Any, throw: Any, trunnion: Any) -> Any:
    """Pitch with which port and passage are in line at the greatest swing: 2 R sin(swing)."""
    return 2 * radius * throw / trunnion


@relation(r"\psi", GEOMETRY, radius="R", port="d_c", passage="d_f", pitch="p")
def swing_to_open(radius: Any, port: Any, passage: Any, pitch: Any) -> Any:
    """Swing from the middle at which the port opens, degrees; below 0 it is never shut."""
    return 180 / pi * (asin(pitch / (2 * radius)) - 2 * asin((port + passage) / (4 * radius)))


@relation(r"\theta_f", "geometry of the swinging crank", opens=r"\psi", throw="r", trunnion="D")
def crank_to_open(opens: Any, throw: Any, trunnion: Any) -> Any:
    """Crank angle after front dead centre at which the port opens, degrees, swing to open given."""
    return 180 / pi * asin(trunnion * sin(opens * pi / 180) / throw) - opens


@dataclass(frozen=True, kw_only=True)
class TrunnionFace:
    """What the builder decides of the rubbing face, the trunnion pin and its spring."""

    title: ClassVar[str] = "Rubbing face and spring"

    # fmt: off
    face_ahead: float | None = size("Face of the cylinder, ahead of the trunnion",
        low=0.5, high=500, default=None,
        help="to one and a half holes beyond the port's centre if not given")
    face_behind: float | None = size("Face of the cylinder, behind the trunnion",
        low=0.5, high=500, default=None, help="as ahead if not given")
    face_width: float | None = size("Face of the cylinder, width", low=0.5, high=500, default=None,
        help="so that it covers the passages in every position if not given")
    trunnion_pin: float = size("Trunnion pin, diameter", low=0.3, high=100, default=3.0)
    spring: float | None = size("Force of the spring as set", "N", 0.01, 10_000, default=None,
        main=True, help="the suggestion if not given")
    spring_rate: float | None = size("Rate of the spring, N for a mm", "ratio", 0.001, 1000,
        default=None, help="force for each millimetre of compression; then the nut's turn is told")
    factor: float = size("Spring over the steam's lift", "ratio", 1.0, 5.0, default=1.5)
    leak_reach: float | None = size("Steam creeps under the face, beyond a hole's edge",
        low=0, high=100, default=None,
        help="to the nearest edge or other hole if not given; less on a well lapped face")
    friction: float = size("Friction of the face", "ratio", 0.01, 0.6, default=0.15,
        help="coefficient; 0.1 oiled to 0.3 dry, from memory")
    # fmt: on

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True)
class Holes:
    """The holes of one end, as drilled.

    Parameters
    ----------
    radius : from the trunnion to all of them, mm.
    port, passage : diameters of the hole in the cylinder and of those in the fixed face, mm.
    pitch : between the centres of the steam and the exhaust passage, mm.
    """

    radius: float
    port: float
    passage: float
    pitch: float

    @property
    def stands(self) -> Array:
        """Angle of either passage from the line of centres, radians."""
        angle: Array = np.arcsin(self.pitch / (2 * self.radius))
        return angle

    @property
    def reach(self) -> Array:
        """Angle between port and passage at which they just touch, radians."""
        angle: Array = 2 * np.arcsin((self.port + self.passage) / (4 * self.radius))
        return angle

    @property
    def opens(self) -> Array:
        """Swing at which the port opens, radians; below 0 it bridges the passages."""
        return self.stands - self.reach

    @property
    def lap(self) -> Array:
        """Half of the dead band as an arc on the face, mm: the steam lap of a slide valve."""
        return self.radius * self.opens

    @property
    def seal(self) -> Array:
        """Face left between port and passage in the middle, mm; below 0 they overlap."""
        middle: Array = self.apart(np.zeros(()), 1.0)
        return middle - (self.port + self.passage) / 2

    @property
    def land(self) -> float:
        """Face left between the steam and the exhaust passage, mm."""
        return self.pitch - self.passage

    @property
    def full(self) -> float:
        """Area of the smaller hole: the most that can be open, mm2."""
        return float(np.pi / 4 * min(self.port, self.passage) ** 2)

    def apart(self, swing: Array, side: float) -> Array:
        """Return the distance between the centres of port and passage, mm.

        Parameters
        ----------
        swing : of the cylinder from the line of centres, towards the steam passage, radians.
        side : +1 for the steam passage, -1 for the exhaust.
        """
        chord: Array = 2 * self.radius * np.abs(np.sin((swing - side * self.stands) / 2))
        return chord

    def steam_area(self, swing: Array) -> Array:
        """Return the area open between port and steam passage, mm2."""
        return lens(self.apart(swing, 1.0), self.port / 2, self.passage / 2)

    def exhaust_area(self, swing: Array) -> Array:
        """Return the area open between port and exhaust passage, mm2."""
        return lens(self.apart(swing, -1.0), self.port / 2, self.passage / 2)


def sealing_pitch(radius: float, port: float, passage: float, seal: float) -> float:
    """Return `pitch_that_seals` for sizes that may stand in rows, mm."""
    touch = np.arcsin(((port + passage) / 2 + seal) / (2 * radius))
    pitch: float = 2 * radius * np.sin(2 * touch)
    return pitch


def lens(apart: Array, one: float, other: float) -> Array:
    """Return the area that two circles have in common, mm2.

    Parameters
    ----------
    apart : distance of their centres, mm.
    one, other : radii, mm.

    Source: plane geometry: two segments upon the chord that the circles share.
    """
    small = min(one, other)
    meet = np.clip(apart, abs(one - other), one + other)
    with np.errstate(divide="ignore", invalid="ignore"):
        at_one = (meet**2 + one**2 - other**2) / (2 * meet * one)
        at_other = (meet**2 + other**2 - one**2) / (2 * meet * other)
    angle = np.arccos(np.clip(at_one, -1.0, 1.0))
    angle_other = np.arccos(np.clip(at_other, -1.0, 1.0))
    area = one**2 * (angle - np.sin(2 * angle) / 2) + other**2 * (
        angle_other - np.sin(2 * angle_other) / 2
    )
    inside = np.pi * small**2
    common: Array = np.where(
        apart >= one + other, 0.0, np.where(apart <= abs(one - other), inside, area)
    )
    return common


def cone(hole: float, reach: float) -> float:
    """Return the area on which the full pressure would lift as much as it does, mm2.

    Full pressure on the hole, falling evenly to nothing over the face around it, as it is
    assumed of seal faces: the volume of a frustum.

    Parameters
    ----------
    hole : diameter, mm.
    reach : width of the face around it over which the pressure falls, mm.
    """
    inner, outer = hole / 2, hole / 2 + reach
    return float(np.pi / 3 * (inner**2 + inner * outer + outer**2))


def mean_arm(ahead: float, behind: float, width: float) -> float:
    """Return the mean distance of a rectangular face from the trunnion, mm.

    Parameters
    ----------
    ahead, behind : from the trunnion to its ends, mm.
    width : across, half of it to either side, mm.
    """

    def moment(a: float, b: float) -> float:
        slant = np.hypot(a, b)
        return float(a * b * slant / 3 + (a**3 * np.arcsinh(b / a) + b**3 * np.arcsinh(a / b)) / 6)

    half = width / 2
    return 2 * (moment(ahead, half) + moment(behind, half)) / (width * (ahead + behind))
