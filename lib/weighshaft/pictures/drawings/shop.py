"""What the drawings of one cylinder and its valve have in common."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from ...cylinders.axis import Axis
from ...design import Design
from ...threads.joints import JointResult
from ...wheels.decisions import OutsideCylinders
from ..lengths import length
from ..scene import Label, Primitive
from .sheet import Outline

Drawn = list[Primitive | Outline]
FINE = length(0.02)
"""What a careful turner holds on a small lathe; common practice."""
ELSE = f"; else ±{length(0.1)}"
"""The tolerance of what is not said otherwise; common practice."""


@dataclass(frozen=True)
class Cylinder:
    """What the drawings of one cylinder have in common.

    Parameters
    ----------
    flange : outside diameter of covers and barrel ends, mm.
    face : port face above the cylinder axis, mm, None where the valve has no flat face.
    spindle : valve spindle's axis above the cylinder axis, mm, None where not known.
    """

    design: Design
    axis: Axis
    figures: Any
    joints: dict[str, JointResult]
    flange: float
    face: float | None
    spindle: float | None

    @classmethod
    def of(cls, design: Design, work: Any) -> Cylinder:
        figures = work.cylinders
        flange = figures.screw_circle + 2 * figures.screw_major
        kind = design.wheels.cylinders
        if isinstance(kind, OutsideCylinders):
            flange = min(flange, 2 * kind.over_covers)
        joints = {one.key: one for one in work.threads.joints}
        return cls(
            design, figures.axis, figures, joints, flange, port_face_height(work),
            spindle_height(design),
        )  # fmt: skip

    @property
    def first(self) -> float:
        """Place of the first cover screw: none stands amid the passages, degrees."""
        return 90.0 - 180.0 / int(self.figures.screws)

    @property
    def bore(self) -> float:
        return self.design.cylinders.bore

    @property
    def number(self) -> int:
        return self.design.cylinders.number


def spindle_height(design: Design) -> float | None:
    """Return the valve spindle's axis above the cylinder axis, mm, None where it is not there."""
    height: float | None = getattr(design.motion.gear, "spindle_height", None)
    above = None if height is None else height - design.cylinders.cylinder_offset
    return above if above is not None and above > design.cylinders.bore / 2 else None


def port_face_height(work: Any) -> float | None:
    """Return how high the port face stands above the axis, mm, None for a valve without one."""
    chest = work.cylinders.chest
    return None if chest is None else float(chest.face_height)


def beside_screw(words: str, shop: Cylinder, scale: float) -> Label:
    """Return words at the right, below the middle, that point to a screw hole."""
    turn = math.radians(shop.first - 360.0 / shop.figures.screws * (shop.figures.screws // 4))
    circle = shop.figures.screw_circle / 2
    at = (circle * math.cos(turn), circle * math.sin(turn))
    return Label(words, (shop.flange / 2 + 8.0 / scale, at[1]), "start", at)


def ports(design: Design) -> list[Outline]:
    """Return the three ports from above, about the middle of the face."""
    valve = design.motion.valve
    across = (valve.port_length or 0.0) / 2
    half, bridge = (valve.exhaust_port or 0.0) / 2, valve.bridge or 0.0
    inner = half + bridge
    outer = inner + valve.port_width
    spans = ((-half, half), (inner, outer), (-outer, -inner))
    return [
        Outline(((a, -across, 0.0), (b, -across, 0.0), (b, across, 0.0), (a, across, 0.0)))
        for a, b in spans
    ]
