"""The whole engine as one list of parts, and how each of them moves."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from ..motion.frame import Array, Crank
from .solids import Place, Solid, mirrored

Kind = Literal[
    "frames", "wheels", "rods", "cylinders", "motion", "boiler", "water", "platework", "fittings"
]
Ride = Literal["frames", "axle", "wheel", "coupling", "connecting", "crosshead", "swinging"]
"""How a part moves: with the frames; with its axle up, down and sideways; turning with it too;
as a coupling rod; as a connecting rod; along the cylinder; about the trunnion."""


@dataclass(frozen=True)
class Part:
    """One part of the engine, drawn with the crank of its side on front dead centre.

    Parameters
    ----------
    name : in the trade's words; no two parts have the same.
    kind : which of the engine's main groups it belongs to.
    chapter, fields : the chapter that owns it, and the decisions that place it.
    material : a name of `trade.materials.DENSITIES`.
    solids : on the right-hand side, or about the centre line.
    paired : whether the left side has the same part in the mirror.
    ride : how it moves.
    axle : of what rides on one, its index from the front.
    joined : names of parts that it touches by design; gaps to them are not looked at.
    share : of the solids' volume that is metal, as of a spoked wheel.
    """

    name: str
    kind: Kind
    chapter: str
    fields: tuple[str, ...]
    material: str
    solids: tuple[Solid, ...]
    paired: bool = False
    ride: Ride = "frames"
    axle: int | None = None
    joined: tuple[str, ...] = ()
    share: float = 1.0

    @property
    def volume(self) -> float:
        """Of the metal, both sides together, mm3."""
        return (2 if self.paired else 1) * self.share * sum(one.volume for one in self.solids)

    @property
    def centroid(self) -> Place:
        """Centre of its volume as drawn, both sides together, mm."""
        weights = [one.volume for one in self.solids]
        whole = sum(weights)
        x, y, z = (
            sum(w * one.centroid[i] for w, one in zip(weights, self.solids, strict=True)) / whole
            for i in range(3)
        )
        return x, y, 0.0 if self.paired else z

    @property
    def extent(self) -> tuple[Place, Place]:
        """Lowest and highest x, y and z as drawn, both sides together, mm."""
        ends = [one.extent for one in self.solids]
        low = [min(end[0][i] for end in ends) for i in range(3)]
        high = [max(end[1][i] for end in ends) for i in range(3)]
        if self.paired:
            low[2] = min(low[2], -high[2])
            high[2] = -low[2]
        return (low[0], low[1], low[2]), (high[0], high[1], high[2])

    def on(self, side: Literal["right", "left"]) -> Part:
        """Return the part of one side: of a pair its own, in the mirror on the left."""
        if not self.paired or side == "right":
            return replace(self, paired=False)
        return replace(self, paired=False, solids=tuple(map(mirrored, self.solids)))


@dataclass(frozen=True)
class Axle:
    """One axle, coupled or of a truck.

    Parameters
    ----------
    ahead : of the driving axle, mm.
    diameter : of its wheels over the tread, mm.
    kind : "coupled", "leading" or "trailing".
    play : side play in the frames, each way, mm; of a truck how far it swings on the curve.
    shift : out to the right in the frames on the curve wanted, to the left, mm.
    """

    name: str
    ahead: float
    diameter: float
    kind: Literal["coupled", "leading", "trailing"]
    play: float
    shift: float = 0.0


@dataclass(frozen=True)
class Drive:
    """Crank, cylinder and the way between them, of one side.

    Parameters
    ----------
    crank : with the cylinder's offset.
    inclination : of the cylinder, degrees, its front end up.
    crank_angle : by which the left crank leads the right one, degrees.
    coupled_throw : of the coupling rods' pins, mm; 0 where there are none, negative where they
        stand opposite the crank.
    trunnion : of an oscillating cylinder, ahead of the axle and above it, mm, else None.
    """

    crank: Crank
    inclination: float
    crank_angle: float
    coupled_throw: float
    trunnion: tuple[float, float] | None = None


@dataclass(frozen=True)
class Whole:
    """The engine: its parts, its axles and the lengths that everything else goes by, mm.

    Parameters
    ----------
    rail : height of the rail's top, below the driving axle and so negative.
    front, back : outer faces of the buffer beams, ahead of the driving axle.
    buffer_front, buffer_back : faces of the buffers or couplings there.
    frame_inside, frame_thickness : of the plates.
    rise : of the axleboxes each way.
    side_play : of the driving axle, each way.
    gauge, back_to_back, tyre_width, flange_depth, flange_play : of the wheels on their track.
    """

    parts: tuple[Part, ...]
    axles: tuple[Axle, ...]
    drive: Drive
    rail: float
    front: float
    back: float
    buffer_front: float
    buffer_back: float
    frame_inside: float
    frame_thickness: float
    rise: float
    gauge: float
    back_to_back: float
    tyre_width: float
    flange_depth: float
    flange_play: float

    def part(self, name: str) -> Part | None:
        """Return the part of that name, None where the engine has none."""
        return next((one for one in self.parts if one.name == name), None)

    def of_kind(self, *kinds: Kind) -> Iterator[Part]:
        """Yield the parts of these kinds."""
        return (one for one in self.parts if one.kind in kinds)

    @property
    def coupled(self) -> tuple[Axle, ...]:
        """The coupled axles, from the front."""
        return tuple(one for one in self.axles if one.kind == "coupled")


def moved(
    part: Part, whole: Whole, theta: Array, left: bool = False
) -> tuple[Array, Array, Array, Array]:
    """Return how a part has moved from where it is drawn, as the crank of the right side turns.

    Parameters
    ----------
    theta : (n,) degrees, of the right-hand crank.
    left : whether the part is the one on the left, whose crank leads.

    Returns
    -------
    cosine, sine, ahead, up : (n,) each; a point (x, y) goes to
        (x cos - y sin + ahead, x sin + y cos + up), anticlockwise seen from the right.
    """
    drive, count = whole.drive, len(theta)
    turn = np.radians(np.asarray(theta, dtype=float) + (drive.crank_angle if left else 0.0))
    one, nothing = np.ones(count), np.zeros(count)
    if part.ride in ("frames", "axle"):
        return one, nothing, nothing, nothing
    if part.ride == "wheel":
        axle = next(one for one in whole.axles if one.kind == "coupled")
        x = 0.0
        if part.axle is not None:
            axle = whole.axles[part.axle]
            x = axle.ahead
        y = whole.rail + axle.diameter / 2
        turn = turn * whole.coupled[0].diameter / axle.diameter
        cos, sin = np.cos(turn), -np.sin(turn)
        return cos, sin, x - x * cos + y * sin, y - x * sin - y * cos
    slope = math.radians(drive.inclination)
    throw = drive.coupled_throw if part.ride == "coupling" else drive.crank.throw
    pin_x, pin_y = throw * np.cos(slope - turn), throw * np.sin(slope - turn)
    if part.ride == "coupling":
        return one, nothing, pin_x - throw * math.cos(slope), pin_y - throw * math.sin(slope)
    if part.ride == "swinging" and drive.trunnion is not None:
        x, y = drive.trunnion
        at = np.arctan2(pin_y - y, pin_x - x) - math.atan2(
            throw * math.sin(slope) - y, throw * math.cos(slope) - x
        )
        cos, sin = np.cos(at), np.sin(at)
        return cos, sin, x - x * cos + y * sin, y - x * sin - y * cos
    across_x, across_y = -math.sin(slope), math.cos(slope)
    along = drive.crank.gudgeon(np.degrees(turn))
    offset = drive.crank.cylinder_offset
    head_x = along * math.cos(slope) + offset * across_x
    head_y = along * math.sin(slope) + offset * across_y
    first = float(drive.crank.gudgeon(np.zeros(1))[0])
    first_x = first * math.cos(slope) + offset * across_x
    first_y = first * math.sin(slope) + offset * across_y
    if part.ride == "crosshead":
        return one, nothing, head_x - first_x, head_y - first_y
    start_x, start_y = throw * math.cos(slope), throw * math.sin(slope)
    at = np.arctan2(head_y - pin_y, head_x - pin_x) - math.atan2(
        first_y - start_y, first_x - start_x
    )
    cos, sin = np.cos(at), np.sin(at)
    return (
        cos, sin,
        pin_x - (start_x * cos - start_y * sin), pin_y - (start_x * sin + start_y * cos),
    )  # fmt: skip
