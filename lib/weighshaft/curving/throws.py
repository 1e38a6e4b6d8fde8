"""Throw-over: how far the engine's parts stand out of the track on a curve.

Every part counts with the rectangle that it fills in plan.  Outside the curve its corners
reach furthest, inside the curve the point of its edge that is nearest to the curve's crown.
The engine is pushed about in all the play that it has, and the worst is taken.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..frames.whole import Part, Whole
from ..motion.frame import Array
from .standing import Pose

AT_THE_ENDS = ("front buffer beam", "back buffer beam", "front buffers", "back buffers")


@dataclass(frozen=True)
class Throw:
    """One part beside the curve, mm.

    Parameters
    ----------
    back, front : of the part, ahead of the driving axle.
    half : the part from the engine's middle, as on the straight.
    outside, inside : how much more it needs of the track's middle there, engine at its worst.
    plain : the same with the end coupled axles on the track's middle, by construction: the
        greater of outside and inside.
    rule : that by the versine rule.
    outer : whether `plain` is outside the curve.
    """

    name: str
    back: float
    front: float
    half: float
    outside: float
    inside: float
    plain: float
    rule: float
    outer: bool

    @property
    def reach_outside(self) -> float:
        """From the track's middle, outside the curve, mm."""
        return self.half + self.outside

    @property
    def reach_inside(self) -> float:
        """From the track's middle, inside the curve, mm."""
        return self.half + self.inside


def reaches(
    pose_radius: float, crowns: Array, lines: Array, back: float, front: float, half: float
) -> tuple[Array, Array]:
    """Return how far a part stands from the track's middle outside and inside the curve, mm.

    Parameters
    ----------
    crowns, lines : where the track lies, (n,).
    """
    far = np.maximum(np.abs(back - crowns), np.abs(front - crowns))
    outside = np.hypot(far, pose_radius + lines + half) - pose_radius
    near = np.clip(crowns, back, front) - crowns
    inside = pose_radius - np.hypot(near, pose_radius + lines - half)
    return outside, inside


def thrown(
    whole: Whole, radius: float, room: tuple[Array, Array, Array], base: tuple[float, float]
) -> tuple[Throw, ...]:
    """Return every part of the engine beside the curve.

    Parameters
    ----------
    radius : of the curve, mm.
    room : crowns that the engine may have, with the least and greatest line on each; `loose`.
    base : the end coupled axles, the front one first, mm.
    """
    crowns, low, high = room
    middle = sum(base) / 2
    half_base = (base[0] - base[1]) / 2
    chord = (radius**2 - half_base**2) ** 0.5 - radius
    plain_at = np.array([middle]), np.array([chord])
    made = []
    for part in whole.parts:
        (back, _, inner), (front, _, outer) = part.extent
        half = max(outer, -inner) + _slides(part, whole)
        outside = float(np.max(reaches(radius, crowns, high, back, front, half)[0]))
        inside = float(np.max(reaches(radius, crowns, low, back, front, half)[1]))
        out, within = (float(x[0]) for x in reaches(radius, *plain_at, back, front, half))
        rule_out, rule_in = by_rule(back, front, base, radius)
        made.append(
            Throw(
                part.name, back, front, half, outside - half, inside - half,
                max(out, within) - half, max(rule_out, rule_in), out >= within,
            )
        )  # fmt: skip
    return tuple(made)


def _slides(part: Part, whole: Whole) -> float:
    """Return how far a part slides across with its axles, mm."""
    if part.ride in ("axle", "wheel"):
        at = whole.axles[part.axle] if part.axle is not None else whole.coupled[0]
        return at.play if at.kind == "coupled" else 0.0
    if part.ride == "coupling":
        return max(one.play for one in whole.coupled)
    return 0.0


def by_rule(
    back: float, front: float, base: tuple[float, float], radius: float
) -> tuple[float, float]:
    """Return the throw outside and inside by the versine rule, mm, negative where there is none.

    Offsets from the chord of the end axles: (x - front axle)(x - rear axle) / 2 R.
    """

    def offset(x: float) -> float:
        return (x - base[0]) * (x - base[1]) / (2 * radius)

    nearest = min(max(sum(base) / 2, back), front)
    return max(offset(back), offset(front)), -offset(nearest)


def widest(throws: tuple[Throw, ...]) -> tuple[Throw, Throw]:
    """Return the parts that reach furthest outside and inside the curve."""
    return (
        max(throws, key=lambda one: one.reach_outside),
        max(throws, key=lambda one: one.reach_inside),
    )


def of_point(pose: Pose, ahead: float, out: float) -> float:
    """Return how far a point stands outside the track's middle, mm, negative inside it."""
    cx, cy = pose.centre
    return float(np.hypot(ahead - cx, out - cy)) - pose.radius


def swept(
    whole: Whole, radii: tuple[float, ...], base: tuple[float, float]
) -> tuple[tuple[float, float], ...]:
    """Return the greatest throw outside and inside on every radius, no plays used, mm."""
    ends = [part.extent for part in whole.parts]
    back, front = (np.array([end[i][0] for end in ends])[:, None] for i in (0, 1))
    half = np.array([max(end[1][2], -end[0][2]) for end in ends])[:, None]
    radius = np.array(radii)
    crown = sum(base) / 2
    line = np.sqrt(radius**2 - ((base[0] - base[1]) / 2) ** 2) - radius
    far = np.maximum(np.abs(back - crown), np.abs(front - crown))
    near = np.clip(crown, back, front) - crown
    outside = np.max(np.hypot(far, radius + line + half) - radius - half, axis=0)
    inside = np.max(radius - np.hypot(near, radius + line - half) - half, axis=0)
    return tuple(zip(outside.tolist(), inside.tolist(), strict=True))
