"""Cylinders, pistons, crossheads and slide bars as parts."""

from __future__ import annotations

import math

import numpy as np

from ..cylinders.axis import Axis
from ..cylinders.chest import SteamChest
from ..cylinders.decisions import Cylinders
from ..wheels.decisions import InsideCylinders, OutsideCylinders, Wheels
from .layout import Layout
from .solids import Plate, Point, Round, Solid
from .whole import Part


def cylinder_parts(
    cylinders: Cylinders,
    axis: Axis,
    wheels: Wheels,
    layout: Layout,
    *,
    metal: str,
    chest_height: float | None,
    chest: SteamChest | None,
    trunnion: tuple[float, float] | None,
) -> list[Part]:
    """Return cylinders, pistons, crossheads and slide bars; see `frames.work`."""
    tilt, crank = cylinders.inclination, cylinders.crank
    slope = math.radians(tilt)
    along, up = (math.cos(slope), math.sin(slope)), (-math.sin(slope), math.cos(slope))

    def at(x: float, y: float) -> Point:
        """Return a place given along and square to the cylinder, from the axle."""
        return float(x * along[0] + y * up[0]), float(x * along[1] + y * up[1])

    def slab(
        back: float, front: float, low: float, high: float, inner: float, outer: float
    ) -> Plate:
        corners = (at(back, low), at(front, low), at(front, high), at(back, high))
        return Plate(corners, inner, outer)

    kind, offset = wheels.cylinders, cylinders.cylinder_offset
    outside = isinstance(kind, OutsideCylinders)
    middle = kind.centres / 2
    if trunnion is not None:
        return _oscillating(cylinders, kind, metal, trunnion)
    over = kind.over_covers if isinstance(kind, OutsideCylinders) else 0.62 * cylinders.bore
    front = axis.axle_to_cylinder + axis.barrel / 2 + axis.joint + axis.front_cover
    x, y = at(axis.back_outside, offset)
    body: list[Solid] = [
        Round((x, y, middle), front - axis.back_outside, over, tilt, cylinders.bore)
    ]
    half = 0.42 * axis.barrel
    if chest is not None and chest.spindle is not None:
        body += [
            slab(axis.axle_to_cylinder + a, axis.axle_to_cylinder + b, offset + low, offset + high,
                 middle + inner, middle + outer)
            for a, b, low, high, inner, outer in _chest_walls(chest, 0.9 * over)
        ]  # fmt: skip
    elif chest_height is not None and chest_height > offset + over:
        high = chest_height + 0.3 * cylinders.bore
        body.append(slab(axis.axle_to_cylinder - half, axis.axle_to_cylinder + half,
                         offset + 0.9 * over, high, middle - 0.55 * cylinders.bore,
                         middle + 0.55 * cylinders.bore))  # fmt: skip
    gx, gy = at(axis.gland_end, offset)
    body.append(Round((gx, gy, middle), axis.gland, 1.1 * axis.rod, tilt, axis.rod))
    joined = (
        "piston and rods",
        "slide bars",
        "smokebox saddle",
        "running boards",
        "valve spindle",
        "front buffer beam",
        "smokebox",
    )
    made = [
        Part(
            "cylinders", "cylinders", "cylinders",
            ("cylinders.barrel.axle_to_cylinder", "wheels.cylinders.centres",
             "wheels.cylinders.over_covers" if outside else "cylinders.bore",
             "cylinders.chest.face_height"),
            metal, tuple(body), paired=True, joined=joined,
        )
    ]  # fmt: skip
    pin = float(crank.gudgeon(np.zeros(1))[0])
    head = crosshead_half(cylinders, kind)
    width = kind.crosshead_width if isinstance(kind, OutsideCylinders) else axis.slipper_width
    across = f"wheels.cylinders.crosshead_{'width' if outside else 'below'}"
    rod_back = pin + axis.boss - axis.engaged
    px, py = at(pin + axis.gudgeon_to_piston, offset)
    rx, ry = at(rod_back, offset)
    made.append(
        Part(
            "piston and rods", "cylinders", "cylinders",
            ("cylinders.barrel.piston_rod", "cylinders.crosshead.rod_length"), "stainless steel",
            (
                Round((px, py, middle), axis.piston, cylinders.bore / 2, tilt),
                Round((rx, ry, middle), axis.rod_length, axis.rod / 2, tilt),
            ),
            paired=True, ride="crosshead",
            # and what its cylinder is bolted to
            joined=("crossheads", "connecting rods", "smokebox saddle", "front buffer beam",
                    "running boards", "smokebox"),
        )
    )  # fmt: skip
    made.append(
        Part(
            "crossheads", "cylinders", "cylinders",
            ("cylinders.crosshead.slipper_ahead", across),
            "mild steel",
            (slab(pin - axis.slipper_behind, pin + axis.slipper_ahead, offset - head,
                  offset + head, middle - width / 2, middle + width / 2),),
            paired=True, ride="crosshead",
            joined=("slide bars", "drop arm", "union link", "crosshead"), share=0.6,
        )
    )  # fmt: skip
    bar = axis.bar_thickness
    bars = tuple(
        slab(axis.back_outside - axis.slide_bar, axis.back_outside, low, low + bar,
             middle - width / 2, middle + width / 2)
        for low in (offset + head, offset - head - bar)
    )  # fmt: skip
    made.append(
        Part(
            "slide bars", "cylinders", "cylinders",
            ("cylinders.crosshead.bar_thickness", "cylinders.crosshead.slide_bar", across),
            "mild steel",
            bars, paired=True,
        )
    )  # fmt: skip
    return made


def _chest_walls(
    chest: SteamChest, over: float
) -> list[tuple[float, float, float, float, float, float]]:
    """Return block below the port face, walls and cover of a steam chest.

    Each from and to along the cylinder from the middle of its barrel, up from its axis, and
    across from it, mm; `over` is where the barrel ends upward.
    """
    x, z = (one / 2 for one in chest.outside)
    face, top = chest.face_height, chest.face_height + chest.height
    a, c = chest.length / 2, chest.width / 2
    made = [
        (-x, x, face, top, -z, -c), (-x, x, face, top, c, z),
        (-x, -a, face, top, -c, c), (a, x, face, top, -c, c),
        (-x, x, top, top + chest.cover, -z, z),
    ]  # fmt: skip
    return [(-x, x, over, face, -z, z), *made] if face > over else made


def crosshead_half(cylinders: Cylinders, kind: OutsideCylinders | InsideCylinders) -> float:
    """Return half the height of the crosshead between its slide bars, mm."""
    if isinstance(kind, InsideCylinders):
        return 0.8 * kind.crosshead_below
    return 0.3 * cylinders.bore


def _oscillating(
    cylinders: Cylinders,
    kind: OutsideCylinders | InsideCylinders,
    metal: str,
    trunnion: tuple[float, float],
) -> list[Part]:
    """Return cylinders that swing about their trunnions; they have no crosshead."""
    x, y = trunnion
    throw, stroke = cylinders.crank.throw, cylinders.stroke
    angle = math.degrees(math.atan2(y, x - throw))
    ahead, up = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    long = stroke + 0.9 * cylinders.bore
    middle = kind.centres / 2
    start = (x - 0.5 * long * ahead, y - 0.5 * long * up, middle)
    over = kind.over_covers if isinstance(kind, OutsideCylinders) else 0.62 * cylinders.bore
    reach = math.hypot(start[0] - throw, start[1])
    return [
        Part(
            "cylinders", "cylinders", "motion", ("motion.gear.trunnion_x", "cylinders.bore"), metal,
            (Round(start, long, over, angle, cylinders.bore),), paired=True, ride="swinging",
            joined=("piston and rods", "smokebox", "frame plates", "cylinder", "piston rod",
                    "running boards", "smokebox saddle"),
        ),
        Part(
            "piston and rods", "cylinders", "motion",
            ("motion.gear.piston_rod", "cylinders.barrel.piston_rod"), "stainless steel",
            (Round((throw, 0.0, middle), reach + 0.3 * long, cylinders.piston_rod / 2, angle),),
            paired=True, ride="connecting", joined=("driving crankpins", "cylinder", "piston rod"),
        ),
    ]  # fmt: skip
