"""The linkage from the weighshaft to the stand in the cab, with every empty size filled in."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..findings import Suggestion
from ..motion.frame import Array
from ..motion.kernel import dyad
from ..sizes import sizes_of
from .decisions import Lever, Reversing, Screw
from .shaft import Shaft

_LEAN = 20.0
"""Degrees that a lever of the suggested length leans in full gear."""
_BEHIND = 5.0
"""Strokes from axle to cab, where the builder has not said where the stand is."""
_SERVO_BEHIND = 2.5
"""Strokes from the weighshaft back to a servo."""


@dataclass(frozen=True, kw_only=True)
class Layout:
    """The linkage in figures.

    Parameters
    ----------
    arm, arm_angle : of the reversing arm, mm, and degrees on from the part on the shaft.
    upright : +1 where the reversing arm stands upward in mid gear, -1 where it hangs.
    x, y : pivot of lever or horn, or the nut's pin in mid gear, mm.
    radius : from that pivot to the reach rod, mm; 0 for a screw.
    line : (2,) direction in which the nut travels; (0, 0) for lever and servo.
    rod : reach rod between centres, mm.
    handle, quadrant, latch, land : of a lever, else 0, mm.
    diameter, wheel : of a screw, else 0, mm.
    """

    arm: float
    arm_angle: float
    upright: float
    x: float
    y: float
    radius: float
    line: tuple[float, float]
    rod: float
    handle: float = 0.0
    quadrant: float = 0.0
    latch: float = 0.0
    land: float = 0.0
    diameter: float = 0.0
    wheel: float = 0.0

    def arm_pin(self, shaft: Shaft, reverser: Array) -> Array:
        """Return the reach rod's pin on the reversing arm, (n, 2) mm."""
        return shaft.pin(self.arm, self.arm_angle, reverser)


@dataclass(frozen=True)
class Stands:
    """How the stand stands at positions of the reverser.

    Parameters
    ----------
    arm_pin, pin : (n, 2) the reach rod's two pins, mm.
    place : (n,) lean of lever or horn ahead of upright, degrees; of a nut, mm from its mid place.
    at_arm, at_stand : (n,) sine of the angle between rod and arm, and between rod and lever;
        for a screw the cosine between rod and screw.  NaN or below zero: out of reach.
    """

    arm_pin: Array
    pin: Array
    place: Array
    at_arm: Array
    at_stand: Array

    @property
    def reached(self) -> bool:
        """Whether the rod reaches everywhere."""
        return bool(np.all(self.at_stand > 0) and np.isfinite(self.place).all())


def laid_out(
    reversing: Reversing, shaft: Shaft, stroke: float
) -> tuple[Layout, tuple[Suggestion, ...]]:
    """Return the linkage with its empty sizes filled in, and the suggestions that fill them."""
    made: list[Suggestion] = []

    def take(path: str, given: float | None, value: float, why: str) -> float:
        """Return what is given, else the value, which becomes a suggestion either way."""
        group, _, name = path.partition(".")
        about = sizes_of(type(getattr(reversing, group)))[name]
        value = min(max(value, about.low), about.high)
        made.append(Suggestion(f"reversing.{path}", value, why))
        return value if given is None else given

    link, stand = reversing.linkage, reversing.worked_by
    arm = take("linkage.arm", link.arm, _tidy(shaft.length), f"as long as the {shaft.part}")
    turn = take(
        "linkage.arm_angle", link.arm_angle, round((90.0 - shaft.middle + 180) % 360 - 180, 2),
        "upright in mid gear, for an even throw both ways",
    )  # fmt: skip
    middle = math.radians(shaft.middle + turn)
    pin_x, pin_y = shaft.x + arm * math.cos(middle), shaft.y + arm * math.sin(middle)
    upright = 1.0 if math.sin(middle) >= 0 else -1.0
    swing = math.sin(math.radians(min(abs(shaft.half), 90.0)))
    cab = _tidy(-_BEHIND * stroke)
    level = "level with the reversing arm's pin in mid gear"
    extra: dict[str, float] = {}
    if isinstance(stand, Screw):
        x = take("worked_by.nut_x", stand.nut_x, cab, "about where the cab is")
        y = take("worked_by.nut_y", stand.nut_y, round(pin_y, 2), level)
        slope = math.radians(stand.inclination)
        radius, line, end = 0.0, (math.cos(slope), math.sin(slope)), (x, y)
        extra["diameter"] = take(
            "worked_by.diameter", stand.diameter, max(_tidy(6 * stand.pitch), 2.0),
            "six times the pitch",
        )  # fmt: skip
        extra["wheel"] = take(
            "worked_by.wheel", stand.wheel, max(_tidy(0.5 * arm), 4.0), "half the reversing arm"
        )
    else:
        line = (0.0, 0.0)
        if isinstance(stand, Lever):
            wanted = arm * swing / math.sin(math.radians(_LEAN))
            radius = take(
                "worked_by.length", stand.length, _tidy(wanted),
                f"leans about {_LEAN:.0f}° in full gear",
            )  # fmt: skip
            x = take("worked_by.pivot_x", stand.pivot_x, cab, "about where the cab is")
            y = take(
                "worked_by.pivot_y", stand.pivot_y, round(pin_y - radius, 2),
                f"the reach rod's pin {level}",
            )  # fmt: skip
            quadrant = take(
                "worked_by.quadrant_radius", stand.quadrant_radius, _tidy(1.4 * radius),
                "above the reach rod's pin, where the notches stand well apart",
            )  # fmt: skip
            extra["quadrant"] = quadrant
            extra["handle"] = take(
                "worked_by.handle", stand.handle, _tidy(2.2 * radius), "clear of the quadrant"
            )
            latch = take(
                "worked_by.latch", stand.latch, max(round(quadrant / 40, 1), 0.6),
                "a fortieth of the quadrant's radius, not below 0.6 mm",
            )  # fmt: skip
            extra["latch"] = latch
            extra["land"] = take(
                "worked_by.land", stand.land, max(round(latch / 2, 2), 0.3), "half the latch"
            )
        else:
            wanted = arm * swing / math.sin(math.radians(0.45 * min(stand.travel, 180.0)))
            radius = take(
                "worked_by.horn", stand.horn, max(_tidy(wanted), 2.0),
                f"uses nine tenths of the {stand.travel:.0f}°",
            )  # fmt: skip
            x = take(
                "worked_by.shaft_x", stand.shaft_x, _tidy(shaft.x - _SERVO_BEHIND * stroke),
                "behind the weighshaft",
            )  # fmt: skip
            y = take(
                "worked_by.shaft_y", stand.shaft_y, round(pin_y - radius, 2),
                f"the horn's pin {level}",
            )  # fmt: skip
        end = (x, y + radius)
    rod = take(
        "linkage.reach_rod", link.reach_rod, round(math.dist(end, (pin_x, pin_y)), 3),
        "nut in its middle in mid gear" if isinstance(stand, Screw) else "upright in mid gear",
    )  # fmt: skip
    layout = Layout(
        arm=arm, arm_angle=turn, upright=upright, x=x, y=y, radius=radius, line=line, rod=rod,
        **extra,
    )  # fmt: skip
    return layout, tuple(made)


def stands(layout: Layout, shaft: Shaft, reverser: Array) -> Stands:
    """Return how lever, horn or nut stands at positions of the reverser (n,).

    Of the two closures the builder's is the one nearer to lever upright in mid gear.
    """
    arm_pin = layout.arm_pin(shaft, reverser)
    pivot = np.array([layout.x, layout.y])
    if layout.radius:
        middle = layout.arm_pin(shaft, np.zeros(1))[0]
        way, top = pivot - middle, pivot + np.array([0.0, layout.radius]) - middle
        side = 1.0 if way[0] * top[1] - way[1] * top[0] >= 0 else -1.0
        pin, at_stand = dyad(arm_pin, layout.rod, pivot, layout.radius, side)
        out = pin - pivot
        # unwrapped from upright, so that a lever past level keeps counting
        place = np.degrees(np.arctan2(out[:, 0], out[:, 1]))
    else:
        line = np.array(layout.line)
        away = arm_pin - pivot
        along, off = away @ line, away[:, 1] * line[0] - away[:, 0] * line[1]
        room = 1 - (off / layout.rod) ** 2
        at_stand = np.where(room > 0, np.sqrt(np.maximum(room, 0.0)), room)
        behind = 1.0 if (layout.arm_pin(shaft, np.zeros(1))[0] - pivot) @ line >= 0 else -1.0
        place = along - behind * layout.rod * np.maximum(at_stand, 0.0)
        pin = pivot + place[:, None] * line
    rod, arm = (pin - arm_pin) / layout.rod, arm_pin - np.array([shaft.x, shaft.y])
    at_arm = np.abs(rod[:, 0] * arm[:, 1] - rod[:, 1] * arm[:, 0]) / layout.arm
    return Stands(arm_pin, pin, np.where(at_stand > 0, place, np.nan), at_arm, at_stand)


def _tidy(value: float) -> float:
    """Return a length to the half millimetre, a short one to the tenth."""
    step = 0.5 if abs(value) >= 10 else 0.1
    return round(round(value / step) * step, 3)
