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
    return [crosshead(design, work), slide_bar(design, work)]


def _width(design: Design, work: Any) -> float:
    kind = design.wheels.cylinders
    if isinstance(kind, OutsideCylinders):
        return kind.crosshead_width
    return float(work.cylinders.axis.slipper_width)


def crosshead(design: Design, work: Any) -> Drawing:
    """Return the crosshead from the side, its boss ahead, and from behind."""
    axis = work.cylinders.axis
    half, wide = crosshead_half(design.cylinders, design.wheels.cylinders), _width(design, work)
    screwed = work.threads.joint("piston_rod")
    boss = min(1.1 * axis.rod, half)
    back, ahead, tip = -axis.slipper_behind, axis.slipper_ahead, axis.boss

    def views(scale: float) -> tuple[View, ...]:
        corners = [(back, -half), (ahead, -half), (ahead, half), (back, half)]
        front = max(ahead, tip)
        if tip > ahead:
            corners[2:2] = [(ahead, -boss), (tip, -boss), (tip, boss), (ahead, boss)]
        side: Drawn = [polygon(corners, "metal", "crosshead")]
        side += [Circle((0.0, 0.0), 0.45 * axis.rod), *centre_lines((0.0, 0.0), half, scale)]
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
            "Gudgeon pin: bore and fit are not decided here; bore square to the rod's thread and "
            "ream with the small end. Cut out for the small end as wide as that is.",
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
    thick = 0.25 * crosshead_half(design.cylinders, design.wheels.cylinders)

    def views(scale: float) -> tuple[View, ...]:
        side: Drawn = [polygon(box(0.0, 0.0, long, thick), "metal", "slide bars")]
        side += rows("above", thick, [overall(0.0, long)], scale)
        side += rows("right", long, [overall(0.0, thick, "(<>)")], scale)
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
            "Thickness in brackets as taken for the whole engine. Fixing holes: spot through from "
            "cover and bracket once the bars stand parallel to the rod.",
        ),
        tolerance=f"Bearing face flat and parallel within {FINE}{ELSE}",
    )  # fmt: skip
