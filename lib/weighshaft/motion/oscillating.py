"""Oscillating cylinders: the cylinder swings on a trunnion and is its own valve.

There is no crosshead and no connecting rod: the piston rod's big end is on the crank pin,
and the cylinder follows it.  A port in the cylinder's flat side passes over a steam and an
exhaust hole in the fixed face that it rubs on.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, ClassVar

import numpy as np
from numpy.typing import ArrayLike

from ..sizes import SizeError, check_sizes, size
from .equivalent import EquivalentEccentric, ValveSizes, Wanted
from .frame import (
    TINY,
    VAST,
    Array,
    Crank,
    MotionLocks,
    bearing,
    beyond,
    in_row,
    pin,
    point,
    radians,
    span,
)
from .kernel import Part, Pose
from .many import spread
from .parts import Wishes
from .trunnion_face import Holes, TrunnionFace, pitch_in_line, sealing_pitch
from .valves import SlideValve

_PISTON = 0.25
"""Length of a piston, of the stroke (common practice for pistons with one groove)."""


@dataclass(frozen=True)
class SwingingCrank:
    """A crank whose piston rod ends on the crank pin, the cylinder swinging on a trunnion.

    It answers as `Crank` does; the piston's place is told along the cylinder's own axis, as
    it would be with the cylinder on the line of centres from axle to trunnion.

    Parameters
    ----------
    stroke : twice the throw of the crank, mm.
    connecting_rod : from crank pin to piston: the piston rod, mm.
    trunnion_x, trunnion_y : of the trunnion from the axle, mm.

    Raises
    ------
    SizeError : when a size is not a positive number.
    MotionLocks : when the trunnion is within the crank circle, so that the cylinder would
        turn round instead of swinging.
    """

    stroke: float
    connecting_rod: float
    trunnion_x: float
    trunnion_y: float = 0.0

    def __post_init__(self) -> None:
        for name in ("stroke", "connecting_rod"):
            value = getattr(self, name)
            if np.ndim(value) == 0 and not (math.isfinite(value) and value > 0):
                label = name.replace("_", " ").capitalize()
                raise SizeError(
                    f"{label}: {value} will not do; a length above 0 mm is needed.", name
                )
        # rows of candidates are judged by the margins of their poses
        if not np.all(np.real(self.trunnion) > np.real(self.throw)) and np.ndim(self.trunnion) == 0:
            raise MotionLocks("trunnion", float(self.dead_centres[0]))

    @property
    def throw(self) -> float:
        """Half the stroke: from the axle to the crank pin, mm."""
        return self.stroke / 2

    @property
    def trunnion(self) -> Array:
        """Distance from axle to trunnion, mm."""
        return span(np.asarray(self.trunnion_x), np.asarray(self.trunnion_y))

    @property
    def inclined(self) -> Array:
        """Angle of the line of centres, axle to trunnion, above +x, radians."""
        return bearing(np.asarray(self.trunnion_y), np.asarray(self.trunnion_x))

    @property
    def dead_centres(self) -> tuple[float, float]:
        """Front and back dead centre, degrees in [0, 360): crank pin on the line of centres."""
        front: Any = -self.inclined * (180 / math.pi)
        back = front + 180.0
        return (
            front + np.where(np.real(front) < 0, 360.0, 0.0),
            back - np.where(np.real(back) >= 360, 360.0, 0.0),
        )

    @property
    def centres(self) -> Array:
        """Both dead centres in one row of crank angles, degrees."""
        return in_row(self.dead_centres)

    @property
    def gudgeon_ends(self) -> tuple[float, float]:
        """Piston at the front and at the back dead centre, mm from the axle."""
        return self.connecting_rod + self.throw, self.connecting_rod - self.throw

    @property
    def piston_stroke(self) -> float:
        """Stroke of the piston: twice the throw, wherever the trunnion is."""
        return self.stroke

    def distance(self, theta: ArrayLike) -> Array:
        """Return the distance from crank pin to trunnion, mm, for crank angles in degrees."""
        angle, far, throw = radians(theta) + self.inclined, self.trunnion, self.throw
        return span(far - throw * np.cos(angle), throw * np.sin(angle))

    def swing(self, theta: ArrayLike) -> Array:
        """Return the swing of the cylinder from the line of centres, radians, front end up."""
        angle, throw = radians(theta) + self.inclined, self.throw
        return bearing(throw * np.sin(angle), self.trunnion - throw * np.cos(angle))

    def gudgeon(self, theta: ArrayLike) -> Array:
        """Return where the piston stands along the cylinder's axis, mm from the axle."""
        return self.trunnion + self.connecting_rod - self.distance(theta)

    def slope(self, theta: ArrayLike) -> Array:
        """Return how fast the piston goes ahead, mm a radian of the crank."""
        angle = radians(theta) + self.inclined
        slope: Array = -self.throw * self.trunnion * np.sin(angle) / self.distance(theta)
        return slope

    def from_front(self, theta: ArrayLike) -> Array:
        """Return how far the piston stands from its front dead centre, fraction of the stroke."""
        fraction: Array = (self.gudgeon_ends[0] - self.gudgeon(theta)) / self.piston_stroke
        return fraction


@dataclass(frozen=True, kw_only=True)
class Oscillating:
    """A swinging cylinder with ports ahead of its trunnion and, if double acting, behind it.

    How the ports are told as a valve.  The crank below the line of centres swings the front
    end up.  The front port is at `port_radius` ahead of the trunnion, so it goes up by the
    arc R phi; the back port is behind and goes down by as much.  For forward running the
    steam passages are above the line of centres at both ends and the exhaust passages below.
    With xi = -R phi the front port opens to steam where -xi exceeds the arc at which port
    and passage touch, the back port where xi does, and to exhaust on the other side: a slide
    valve of outside admission whose steam lap and exhaust lap are both that arc; `seen` gives
    it.  In backward gear a change-over valve or a turned block makes steam and exhaust change
    places, which is the same as turning the sign of xi; the joint "valve" stays where the
    metal is.

    Lap and exhaust lap cannot be chosen apart, and without angle of advance there is no lead:
    steam is let in for nearly the whole stroke.  An early cut-off cannot be had.

    The crank's connecting rod and cylinder offset have no part in it: `piston_of` gives the
    piston.  The valve of the design is replaced by the one that `seen` gives.
    """

    kind: ClassVar[str] = "oscillating"
    title: ClassVar[str] = "Oscillating cylinders"
    notched: ClassVar[bool] = False
    parts: ClassVar[tuple[Part, ...]] = (
        Part("cylinder", ("back_port", "trunnion", "valve")),
        Part("piston rod", ("crank_pin", "gudgeon")),
    )

    # fmt: off
    trunnion_x: float = size("Trunnion ahead of the axle", low=TINY, high=VAST, main=True)
    trunnion_y: float = size("Trunnion above the axle", low=-VAST, high=VAST, default=0.0)
    piston_rod: float = size("Crank pin to the piston's front face", low=TINY, high=VAST, main=True)
    piston_length: float | None = size("Piston, length", low=TINY, high=VAST, default=None,
        help="a quarter of the stroke if not given")
    port_radius: float = size("Trunnion to the port in the cylinder", low=TINY, high=VAST,
        main=True)
    port_hole: float = size("Port in the cylinder, diameter", low=TINY, high=VAST, main=True)
    passage_hole: float = size("Steam and exhaust holes in the fixed face, diameter",
        low=TINY, high=VAST, main=True)
    passage_pitch: float | None = size("Steam hole to exhaust hole, centres", low=TINY, high=VAST,
        default=None, help="the pitch that covers the port by the seal if not given")
    seal: float = size("Seal of the port in the middle", low=0, high=VAST, default=0.1,
        help="face between port and hole; counts where no pitch is given")
    acting: str = size("Steam acts on", "choice", choices=("single", "double"), default="double",
        help="single: on the front of the piston alone; double: on both sides")
    face: TrunnionFace = dataclasses.field(default_factory=TrunnionFace, kw_only=True)
    # fmt: on

    def __post_init__(self) -> None:
        check_sizes(self)
        across, touch = 2 * self.port_radius, (self.port_hole + self.passage_hole) / 2
        if self.passage_pitch is None and touch + self.seal >= math.sqrt(0.5) * across:
            raise SizeError(
                f"Port in the cylinder, diameter: holes of {self.port_hole:g} and "
                f"{self.passage_hole:g} mm are too large to lie {self.port_radius:g} mm from the "
                "trunnion; smaller holes or a longer way to the port would do.", "port_hole",
            )  # fmt: skip
        if touch >= across:
            raise SizeError(
                "Port in the cylinder, diameter: the holes reach round the trunnion; "
                f"together less than {2 * across:g} mm would do.", "port_hole",
            )  # fmt: skip
        if touch + self.seal >= across:
            raise SizeError(
                f"Seal of the port in the middle: {self.seal:g} mm reaches round the trunnion; "
                f"less than {across - touch:g} mm would do.", "seal",
            )  # fmt: skip
        if self.passage_pitch is not None and self.passage_pitch >= across:
            raise SizeError(
                f"Steam hole to exhaust hole, centres: {self.passage_pitch:g} mm is more than "
                f"twice the way to the port; less than {across:g} mm would do.", "passage_pitch",
            )  # fmt: skip

    @property
    def pitch(self) -> float:
        """Steam hole to exhaust hole, mm: as given, or so that the port just seals."""
        if self.passage_pitch is not None:
            return self.passage_pitch
        return sealing_pitch(self.port_radius, self.port_hole, self.passage_hole, self.seal)

    @property
    def holes(self) -> Holes:
        """The holes of an end."""
        return Holes(self.port_radius, self.port_hole, self.passage_hole, self.pitch)

    def length_of_piston(self, stroke: float) -> float:
        """Return the length of the piston, mm: as given, or a quarter of the stroke."""
        return _PISTON * stroke if self.piston_length is None else self.piston_length

    def piston_of(self, crank: Crank | SwingingCrank) -> SwingingCrank:
        """Return the piston's motion, which takes the place of that with a crosshead."""
        return SwingingCrank(crank.stroke, self.piston_rod, self.trunnion_x, self.trunnion_y)

    def seen(self, valve: SlideValve, reverser: float) -> SlideValve:
        """Return the slide valve that the holes amount to; lap and port as arcs on the face, mm.

        Of the design's valve stays only how far it was moved from its setting: here the fixed
        face was turned about the trunnion by that arc, front end up, which counts the other
        way in backward gear.
        """
        holes, moved = self.holes, valve.valve_offset
        sizes: dict[str, Any] = {"steam_lap": holes.lap, "exhaust_lap": holes.lap,
                 "port_width": holes.radius * holes.reach,
                 "valve_offset": moved if reverser >= 0 else -moved}  # fmt: skip
        outside = replace(valve, admission="outside")
        if any(np.ndim(value) for value in sizes.values()):
            return spread(outside, {name: np.ravel(value) for name, value in sizes.items()})
        plain: dict[str, Any] = {name: float(value) for name, value in sizes.items()}
        return replace(outside, **plain)

    def pose(self, crank: Crank | SwingingCrank, theta: Array, reverser: Array) -> Pose:
        """Return the pose; of the crank the throw alone counts, of the reverser the sign.

        Raises
        ------
        SizeError : for a reverser at 0, where the steam is shut off.
        """
        if np.any(reverser == 0):
            raise SizeError(
                "Reverser: in its middle the reversing valve of an oscillating cylinder shuts "
                "off the steam; forward (above 0) or backward (below 0) would do.",
                "reverser",
            )
        throw = crank.throw
        crank_pin = pin(throw, 0.0, radians(theta))
        trunnion = point(self.trunnion_x, self.trunnion_y)
        x, y = trunnion[..., 0] - crank_pin[..., 0], trunnion[..., 1] - crank_pin[..., 1]
        way = point(x, y) / span(x, y)[..., None]
        # from the line of centres, so that a trunnion above the axle needs no setting
        centres = (
            point(trunnion[..., 0], trunnion[..., 1])
            / span(trunnion[..., 0], trunnion[..., 1])[..., None]
        )
        phi = bearing(
            centres[..., 0] * way[..., 1] - centres[..., 1] * way[..., 0],
            centres[..., 0] * way[..., 0] + centres[..., 1] * way[..., 1],
        )
        xi = np.where(reverser > 0, -1.0, 1.0) * self.port_radius * phi
        points = {
            "crank_pin": crank_pin,
            "gudgeon": beyond(crank_pin, way, self.piston_rod),
            "trunnion": trunnion,
            "valve": beyond(trunnion, way, self.port_radius),
            "back_port": beyond(trunnion, way, -np.asarray(self.port_radius)),
        }
        bars = (
            ("crank_pin", "gudgeon", self.piston_rod),
            ("trunnion", "valve", self.port_radius),
            ("trunnion", "back_port", self.port_radius),
        )
        share = throw / span(trunnion[..., 0], trunnion[..., 1])
        room = np.real(1 - share**2)
        margin = np.where(room > 0, np.sqrt(np.maximum(room, 0.0)), room)
        return Pose(xi, points, bars, {"trunnion": margin + np.zeros(np.shape(theta))})

    def forces(self, pose: Pose) -> dict[str, Array]:
        """Return the force in each part for 1 N on the port, square to the cylinder.

        The crank pin turns the cylinder through the piston rod, which bears sideways in its
        gland; there is no pull along the rod.
        """
        away = pose.points["trunnion"] - pose.points["crank_pin"]
        return {"piston rod, sideways": self.port_radius / span(away[..., 0], away[..., 1])}

    @classmethod
    def laid_out(
        cls, crank: Crank, sizes: ValveSizes, wanted: Wanted, admission: str
    ) -> Oscillating:
        """Return double-acting cylinders for a stroke, by usual proportions.

        The trunnion is a connecting rod's length ahead of the axle and in the middle of the
        piston's travel, the ports 0.8 of the stroke from it, in line with the passages at the
        greatest swing, and as large as seals in the middle by a twentieth of the chord
        (common practice).  The cut-off and lead wanted cannot be had; see the class.
        """
        trunnion, piston = crank.connecting_rod, _PISTON * crank.stroke
        radius = 0.8 * crank.stroke
        hole = _hole(radius, math.asin(crank.throw / trunnion))
        return cls(
            trunnion_x=trunnion, piston_rod=trunnion + piston / 2, piston_length=piston,
            port_radius=radius, port_hole=hole, passage_hole=hole,
            passage_pitch=pitch_in_line(radius, crank.throw, trunnion),
        )  # fmt: skip

    @property
    def tuning(self) -> tuple[float, float]:
        """Way to the port, which governs the travel, and the seal, which governs the lead."""
        return self.port_radius, float(self.holes.seal)

    def tuned(self, throw: float, seal: float) -> Oscillating:
        """Return the gear with another way to the port, and the pitch that seals by `seal`.

        A lead calls for a seal below nothing, which is refused: steam would blow through.
        """
        return replace(self, port_radius=throw, seal=seal, passage_pitch=None)

    def neighbours(self) -> Sequence[Oscillating]:
        """Nothing can be moved to even the cut-offs."""
        return ()

    def called_for(
        self, sizes: ValveSizes, now: EquivalentEccentric, wanted: Wanted, crank: Crank
    ) -> Wishes:
        """Return pitch and holes that open furthest and seal, whatever the cut-off wanted."""
        piston = self.piston_of(crank)
        pitch = pitch_in_line(self.port_radius, piston.throw, float(piston.trunnion))
        hole = _hole(self.port_radius, math.asin(piston.throw / float(piston.trunnion)))
        seals = "the largest that seals in the middle with that pitch"
        return (
            ("passage_pitch", pitch, "port and passage in line at the greatest swing"),
            ("port_hole", hole, seals),
            ("passage_hole", hole, seals),
        )


def _hole(radius: float, swing: float) -> float:
    """Return the diameter of equal holes, in line at the greatest swing, that seal by 5 %."""
    return 0.95 * 2 * radius * math.sin(swing / 2)
