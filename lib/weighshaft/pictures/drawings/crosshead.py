"""Crosshead and slide bars, drawn with their sizes."""

from __future__ import annotations

from typing import Any

import numpy as np

from ...design import Design
from ...frames.cylinderwork import crosshead_half
from ...wheels.decisions import OutsideCylinders
from ..lengths import length
from ..scene import Circle, Label, Path, Primitive, box
from .dimensions import overall, rows
from .lathe import axis_line
from .sheet import Drawing, Outline, View, centre_lines, polygon
from .shop import ELSE, FINE

Drawn = list[Primitive | Outline]


def crosshead_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return crosshead and slide bar; oscillating cylinders have neither."""
    if work.cylinders is None or work.threads is None or design.motion.gear.kind == "oscillating":
        return []
    return [crosshead(design, work), gudgeon_pin(design, work), slide_bar(design, work)]


def _width(design: Design, work: Any) -> float:
    kind = design.wheels.cylinders
    if isinstance(kind, OutsideCylinders):
        return kind.crosshead_width
    return float(work.cylinders.axis.slipper_width)


def gudgeon_sizes(design: Design, work: Any) -> tuple[float, float, float]:
    """Return diameter and length of the gudgeon pin, and the width of the small end on it, mm."""
    given, rod = design.rods.small_end, work.cylinders.axis.rod
    wide = _width(design, work)
    diameter = 1.1 * rod if given.diameter is None else given.diameter
    small = 0.6 * design.wheels.cylinders.big_end if given.width is None else given.width
    return diameter, wide if given.length is None else given.length, small


def gudgeon_pin(design: Design, work: Any) -> Drawing:
    """Return the gudgeon pin from the side."""
    diameter, long, small = gudgeon_sizes(design, work)
    half = diameter / 2

    def views(scale: float) -> tuple[View, ...]:
        side: Drawn = [polygon(box(0.0, -half, long, half), "metal", "gudgeon pin")]
        side.append(axis_line(0.0, long, scale))
        side += rows("below", -half, [overall(0.0, long)], scale)
        side += rows("left", 0.0, [overall(-half, half, "⌀<>")], scale)
        return (View("elevation", tuple(side)),)

    return Drawing(
        key="gudgeon-pin", title="Gudgeon pin", count=design.cylinders.number,
        material="silver steel", views_at=views,
        notes=(
            f"Tight in the crosshead's cheeks; the small end runs on {length(small)} of it. Drill "
            "for oil before it is hardened, if it is.",
            "Hold it endways with a screw, a peg or compound: not decided.",
        ),
        tolerance=f"Diameter h6, ends square and chamfered{ELSE}",
    )  # fmt: skip


def crosshead(design: Design, work: Any) -> Drawing:
    """Return the crosshead from the side, its boss ahead, and from behind."""
    axis = work.cylinders.axis
    half, wide = crosshead_half(design.cylinders, design.wheels.cylinders), _width(design, work)
    screwed = work.threads.joint("piston_rod")
    pin, _, small = gudgeon_sizes(design, work)
    boss = min(1.1 * axis.rod, half)
    back, ahead, tip = -axis.slipper_behind, axis.slipper_ahead, axis.boss

    def views(scale: float) -> tuple[View, ...]:
        corners = [(back, -half), (ahead, -half), (ahead, half), (back, half)]
        front = max(ahead, tip)
        if tip > ahead:
            corners[2:2] = [(ahead, -boss), (tip, -boss), (tip, boss), (ahead, boss)]
        side: Drawn = [polygon(corners, "metal", "crosshead")]
        side += [Circle((0.0, 0.0), pin / 2), *centre_lines((0.0, 0.0), half, scale)]
        side.append(axis_line(back, front, scale))
        below = [(back, 0.0, ""), (0.0, ahead, ""), overall(back, ahead)]
        above = [(0.0, tip, "")]
        if screwed:
            minor, major = screwed.drill.diameter / 2, screwed.one.major / 2
            socket = tip - axis.socket
            side.append(Path(box(socket, -minor, tip, minor), "hidden"))
            side += [Path(np.array([[socket, s * major], [tip, s * major]]), "hidden")
                     for s in (-1, 1)]  # fmt: skip
            words = f"{screwed.one.designation}, drill {screwed.drill.name}"
            side.append(Label(words, (front + 8.0 / scale, -boss - 6.0 / scale), "start",
                              (tip - 0.2 * axis.socket, -minor)))  # fmt: skip
            above.append((socket, tip, ""))
        below.append((-pin / 2, pin / 2, "⌀<>"))
        side += rows("below", -half, below, scale)
        side += rows("above", half, above, scale)
        side += rows("left", back, [overall(-half, half, "(<>)")], scale)
        end: Drawn = [polygon(box(-wide / 2, -half, wide / 2, half), "metal")]
        end += centre_lines((0.0, 0.0), max(half, wide / 2), scale)
        end += rows("below", -half, [overall(-wide / 2, wide / 2)], scale)
        return (View("elevation", tuple(side)), View("end", tuple(end)))

    return Drawing(
        key="crosshead", title="Crosshead", count=design.cylinders.number,
        material=design.threads.piston_rod.female, views_at=views,
        notes=(
            f"Ream {length(pin)} for the gudgeon pin, square to the rod's thread. Cut out "
            f"{length(small)} and its side play for the small end.",
            f"Height in brackets as taken for the whole engine; slippers bear over "
            f"{length(axis.slipper_width)}; fit them to the bars as made. Tap on the axis between "
            "the slippers.",
        ),
        tolerance=f"Slippers parallel to the rod within {FINE}; tapped hole true{ELSE}",
    )  # fmt: skip


def slide_bar(design: Design, work: Any) -> Drawing:
    """Return a slide bar from the side and from above."""
    axis = work.cylinders.axis
    long, wide = axis.slide_bar, _width(design, work)
    thick = axis.bar_thickness

    def views(scale: float) -> tuple[View, ...]:
        side: Drawn = [polygon(box(0.0, 0.0, long, thick), "metal", "slide bars")]
        side += rows("above", thick, [overall(0.0, long)], scale)
        side += rows("right", long, [overall(0.0, thick)], scale)
        above: Drawn = [polygon(box(0.0, -wide / 2, long, wide / 2), "metal")]
        above.append(axis_line(0.0, long, scale))
        above += rows("right", long, [overall(-wide / 2, wide / 2)], scale)
        return (View("elevation", tuple(side)), View("plan", tuple(above)))

    return Drawing(
        key="slide-bar", title="Slide bar", count=2 * design.cylinders.number,
        material="mild steel", views_at=views,
        notes=(
            f"Length from the back cover's face. The crosshead leaves "
            f"{length(work.cylinders.bar_at_front)} of it at front dead centre, "
            f"{length(work.cylinders.bar_at_back)} at back dead centre.",
            f"Bends with {work.cylinders.bar_stress:.0f} N/mm² at full pressure, held at its ends. "
            "Fixing holes: spot through from cover and bracket once the bars stand parallel to the "
            "rod.",
        ),
        tolerance=f"Bearing face flat and parallel within {FINE}{ELSE}",
    )  # fmt: skip
