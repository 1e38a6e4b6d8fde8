"""The engine's parts made ready for the sweep: what moves them and how far."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import product

import numpy as np

from ..frames import Axle, Bar, Part, Plate, Solid, Whole, moved
from ..motion.frame import Array
from .distance import Shape

STILL = ("weighshaft", "rocker shaft", "reach rod", "reversing arm")
"""Parts of the motion that keep their places; the others are looked at in their own chapter."""


@dataclass(frozen=True)
class Body:
    """One solid of a part on one side of the engine.

    Parameters
    ----------
    left : whether it is the left one of a pair, which its own crank moves.
    weights : for each axle that lifts it, by index, how much of its rise each point takes.
    play : how far it may be to one side, each way, mm.
    stands : whether it keeps its place when the crank turns; `moves` is its part's.
    low, high : the room that it takes all round the turn, with rise and side play, mm.
    """

    part: Part
    left: bool
    shape: Shape
    weights: tuple[tuple[int, tuple[float, ...]], ...]
    play: float
    stands: bool
    low: tuple[float, float, float]
    high: tuple[float, float, float]

    @property
    def moves(self) -> bool:
        """Whether it moves against the frames, by the crank, on its springs or sideways."""
        return self.part.ride != "frames"

    def at(self, whole: Whole, theta: Array, rises: dict[int, Array] | None = None) -> Array:
        """Return its points (n, m, 2) at crank angles (n,), one pose where nothing turns it.

        Parameters
        ----------
        rises : height of axleboxes over their working height by axle, (n,) or (1,) mm.
        """
        angles = theta[:1] if self.stands else theta
        cos, sin, ahead, up = moved(self.part, whole, angles, self.left)
        x, y = self.shape.points[:, 0], self.shape.points[:, 1]
        there = np.stack(
            [
                cos[:, None] * x - sin[:, None] * y + ahead[:, None],
                sin[:, None] * x + cos[:, None] * y + up[:, None],
            ],
            axis=-1,
        )
        for axle, share in self.weights:
            rise = (rises or {}).get(axle)
            if rise is not None:
                lift = np.asarray(share)[None, :] * rise[:, None]
                there, lift = np.broadcast_arrays(there, lift[..., None] * np.array([0.0, 1.0]))
                there = there + lift
        return there


def shape_of(solid: Solid) -> Shape:
    """Return a solid as the distances know it."""
    if isinstance(solid, Bar):
        ends = np.array([solid.start, solid.end])
        return Shape("bar", ends, solid.inner, solid.outer, solid.half)
    if isinstance(solid, Plate):
        rings: list[tuple[int, int]] = []
        points: list[tuple[float, float]] = []
        for ring in (solid.outline, *solid.holes):
            rings.append((len(points), len(points) + len(ring)))
            points += list(ring)
        return Shape("outline", np.array(points), solid.inner, solid.outer, 0.0, tuple(rings))
    (x, y, z), (end_x, end_y, _) = solid.start, solid.end
    ends = np.array([[x, y], [end_x, end_y]])
    return Shape("round", ends, z - solid.radius, z + solid.radius, solid.radius)


def carried(part: Part, shape: Shape, whole: Whole) -> dict[int, tuple[float, ...]]:
    """Return the axles that lift a part on their springs, and how much each point follows."""
    count = len(shape.points)
    if part.axle is not None and part.ride in ("axle", "wheel"):
        return {part.axle: (1.0,) * count}
    driving = next((n for n, one in enumerate(whole.axles) if one.name == "driving"), None)
    throw, slope = whole.drive.coupled_throw, np.radians(whole.drive.inclination)
    if part.ride == "coupling":
        places = {n: one.ahead for n, one in enumerate(whole.axles) if one.kind == "coupled"}
        at = throw * np.cos(slope)
        near = [min(places, key=lambda n: abs(places[n] + at - x)) for x in shape.points[:, 0]]
        return {n: tuple(float(one == n) for one in near) for n in sorted(set(near))}
    if part.ride == "connecting" and driving is not None:
        crank = whole.drive.crank
        along = shape.points @ np.array([np.cos(slope), np.sin(slope)])
        pin, small = crank.throw, float(crank.gudgeon(np.zeros(1))[0])
        share = np.clip((small - along) / (small - pin), 0.0, 1.0)
        return {driving: tuple(float(one) for one in share)}
    return {}


def _play(part: Part, axles: tuple[int, ...], every: tuple[Axle, ...]) -> float:
    if part.ride in ("frames", "crosshead", "swinging"):
        return 0.0
    return max((every[n].play for n in axles), default=0.0)


@lru_cache(maxsize=8)
def bodies(whole: Whole, angles: int = 72) -> tuple[Body, ...]:
    """Return all solids of the engine that are looked at, the right side's before the left's.

    Water is no body, and the motion has its own chapter.
    """
    theta = np.linspace(0.0, 360.0, angles, endpoint=False)
    made = []
    for left in (False, True):
        for part in whole.parts:
            if part.kind == "water" or (part.kind == "motion" and part.name not in STILL):
                continue
            if left and not part.paired:
                continue
            one = part.on("left" if left else "right")
            made += [_body(part, left, solid, whole, theta) for solid in one.solids]
    return tuple(made)


def _body(part: Part, left: bool, solid: Solid, whole: Whole, theta: Array) -> Body:
    shape = shape_of(solid)
    weights = carried(part, shape, whole) if whole.rise > 0 else {}
    axles = tuple(carried(part, shape, whole))
    # both cranks of a crank axle are one part, each drawn for its own side
    turned = left or (not part.paired and part.ride == "wheel" and shape.high <= 0)
    play = _play(part, axles, whole.axles)
    body = Body(part, turned, shape, tuple(weights.items()), play, False, (0, 0, 0), (0, 0, 0))
    there = body.at(whole, theta)
    stands = bool(np.ptp(there, axis=0).max() < 1e-9)
    out, lift = _reach(shape, there), whole.rise if weights else 0.0
    (x0, y0), (x1, y1) = (there - out).min(axis=(0, 1)), (there + out).max(axis=(0, 1))
    return Body(
        part, turned, shape, tuple(weights.items()), play, stands,
        (float(x0), float(y0) - lift, shape.low - play),
        (float(x1), float(y1) + lift, shape.high + play),
    )  # fmt: skip


def _reach(shape: Shape, there: Array) -> Array:
    """Return how far a body reaches beyond its points, along and up, (n, 1, 2)."""
    if shape.form == "outline":
        return np.zeros((1, 1, 2))
    if shape.form == "bar":
        return np.full((1, 1, 2), shape.radius)
    way = there[:, 1] - there[:, 0]
    unit = np.abs(way / np.hypot(way[:, 0], way[:, 1])[:, None])
    return np.asarray(shape.radius * unit[:, None, ::-1])


def states_of(a: Body, b: Body) -> tuple[dict[int, float], ...]:
    """Return where the axleboxes stand for two bodies: all midway, and every one up or down."""
    axles = sorted({n for body in (a, b) for n, _ in body.weights})
    if not axles:
        return ({},)
    ends = [dict(zip(axles, one, strict=True)) for one in product((1.0, -1.0), repeat=len(axles))]
    return (dict.fromkeys(axles, 0.0), *ends)


def play_between(a: Body, b: Body, whole: Whole) -> float:
    """Return by how much two bodies may come nearer across the engine, mm."""
    axles_a, axles_b = ({*carried(one.part, one.shape, whole)} for one in (a, b))
    if axles_a & axles_b and a.play and b.play:
        return abs(a.play - b.play)
    return a.play + b.play
