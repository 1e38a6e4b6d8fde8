"""Valve, steam chest and port face, drawn with their sizes."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from ...design import Design
from ...measures import to_step
from ...motion.port_face import PortFace
from ...wheels.decisions import InsideCylinders
from ..lengths import length
from ..scene import Circle, Label, Path, box
from .dimensions import chain, overall, rows
from .lathe import axis_line, edges
from .sheet import Drawing, View, centre_lines, hole, polygon
from .shop import ELSE, FINE, Drawn, port_face_height, ports, spindle_height

WALL = 2.5
"""Wall of a steam chest in diameters of its screws, which stand in it; common practice."""


def valve_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return valve, port face and steam chest, where the face is decided."""
    moved = work.motion
    if moved is None or moved.face is None or design.motion.valve.port_length is None:
        return []
    if design.motion.valve_type == "piston":
        return [piston_valve(design, moved.face, moved.travel)]
    made = [slide_valve(design, moved.face, moved.travel)]
    made.append(port_face(design, moved.face))
    if work.cylinders is not None and work.threads is not None:
        made.append(valve_chest(design, work))
    return made


def _valve_width(design: Design) -> float:
    return (design.motion.valve.port_length or 0.0) + 2 * design.motion.face.valve_wall


def slide_valve(design: Design, face: PortFace, travel: float) -> Drawing:
    """Return the slide valve as its face is seen from below."""
    valve, half, wide = design.motion.valve, face.valve_half, _valve_width(design)
    cavity, across = face.cavity_half, valve.port_length or 0.0

    def views(scale: float) -> tuple[View, ...]:
        drawn: Drawn = [polygon(box(-half, -wide / 2, half, wide / 2), "metal", "valve")]
        drawn.append(polygon(box(-cavity, -across / 2, cavity, across / 2)))
        drawn.append(axis_line(-half, half, scale))
        drawn.append(_upright(wide / 2, scale))
        drawn += rows("above", wide / 2, [(-half, -cavity, ""), overall(-half, half)], scale)
        drawn += rows("below", -wide / 2, [overall(-cavity, cavity)], scale)
        drawn += rows("left", -half, [overall(-wide / 2, wide / 2)], scale)
        drawn += rows("right", half, [overall(-across / 2, across / 2)], scale)
        return (View("elevation", tuple(drawn)),)

    above = spindle_height(design)
    over = "" if above is None else f", {length(above)} over the cylinder axis"
    return Drawing(
        key="slide-valve", title="Slide valve, from its face", count=design.cylinders.number,
        material=design.frames.cylinder_metal, views_at=views, flat=True,
        notes=(
            f"Steam lap {length(valve.steam_lap)}, exhaust lap {length(valve.exhaust_lap)}, "
            f"greatest travel {length(travel)}. Lap the face on plate glass.",
            f"Height: to the spindle's axis{over}; cavity at least as deep as a steam port is "
            "wide. Nut or buckle free to let the valve lift, without play along the spindle.",
        ),
        tolerance=f"Edges of face and cavity ±{FINE}, square to the travel{ELSE}",
    )  # fmt: skip


def _upright(reach: float, scale: float) -> Path:
    out = reach + 3.0 / scale
    return Path(np.array([[0.0, -out], [0.0, out]]), "centre")


def port_face(design: Design, face: PortFace) -> Drawing:
    """Return the port face from above: ports and bridges, from the middle."""
    valve = design.motion.valve
    across = (valve.port_length or 0.0) / 2
    long, wide = chest_room(design, face)

    def views(scale: float) -> tuple[View, ...]:
        drawn: Drawn = [polygon(box(-long / 2, -wide / 2, long / 2, wide / 2), "metal", "face")]
        drawn += ports(design)
        drawn.append(axis_line(-long / 2, long / 2, scale))
        drawn.append(_upright(wide / 2, scale))
        inner, outer, half = face.port_inner, face.port_outer, face.exhaust_half
        drawn += rows("above", wide / 2, [*chain([-outer, -inner, -half, half, inner, outer])],
                      scale, at=[across] * 5)  # fmt: skip
        from_middle = [(0.0, half, ""), (0.0, inner, ""), (0.0, outer, "")]
        drawn += rows("below", -wide / 2, from_middle, scale, at=[-across] * 3)
        drawn += rows("left", -long / 2, [overall(-across, across)], scale, at=[-outer])
        return (View("elevation", tuple(drawn)),)

    return Drawing(
        key="port-face", title="Port face", count=design.cylinders.number,
        material=design.frames.cylinder_metal, views_at=views, flat=True,
        notes=(
            "Outline: the inside of the steam chest. Ports square at the corners; milled ones keep "
            "their length between the round ends.",
            "Middle of the exhaust port over the middle of the barrel. Lap the face with the "
            "valve, not on it.",
        ),
        tolerance=f"Port edges ±{FINE} from the middle, square to the travel{ELSE}",
    )  # fmt: skip


def chest_room(design: Design, face: PortFace) -> tuple[float, float]:
    """Return length and width inside the steam chest: valve, travel and clearance, mm."""
    sizes = design.motion.face
    long = sizes.chest_length if sizes.chest_length is not None else face.chest_needed
    return float(long), _valve_width(design) + 2 * sizes.chest_clearance


def valve_chest(design: Design, work: Any) -> Drawing:
    """Return the steam chest from above, and the end through which the spindle comes."""
    face: PortFace = work.motion.face
    long, wide = chest_room(design, face)
    # rounded up so that a cutter's handwheel stands at a line
    wall = to_step(WALL * work.cylinders.screw_major, 0.5)
    gland, steam = work.threads.joint("valve_gland"), work.threads.joint("steam")
    floor, spindle = port_face_height(design, work), spindle_height(design)
    over = spindle - floor if spindle is not None and floor is not None else None
    shown = over is not None and gland is not None and over > 0.55 * gland.one.major
    says = [
        f"Inside for the valve of {length(face.valve_length)}, its travel of "
        f"{length(work.motion.travel)} and {length(design.motion.face.chest_clearance)} at each "
        "end; on every side as much.",
        "Wall in brackets: two and a half diameters of a cover screw, common practice; height in "
        "brackets as taken for the whole engine. Screws: spot through from the chest into the "
        "block, clear of passages and ports.",
    ]
    if isinstance(design.wheels.cylinders, InsideCylinders):
        says.append("One chest for both where the valves stand back to back between the cylinders.")
    if steam:
        says.append(f"Steam inlet {steam.one.designation}, drill {steam.drill.name}.")
    if gland and not shown:
        says.append(f"Spindle gland {gland.one.designation}, drill {gland.drill.name}, at the "
                    "height of the valve spindle.")  # fmt: skip

    def views(scale: float) -> tuple[View, ...]:
        x, y = long / 2, wide / 2
        plan: Drawn = [polygon(box(-x - wall, -y - wall, x + wall, y + wall), "metal", "chest")]
        plan += [polygon(box(-x, -y, x, y), "paper"), axis_line(-x - wall, x + wall, scale)]
        plan.append(_upright(y + wall, scale))
        plan += rows("above", y + wall, [overall(-x, x)], scale, at=[y])
        plan += rows("below", -y - wall, [(x, x + wall, "(<>)"), overall(-x - wall, x + wall)],
                     scale)  # fmt: skip
        plan += rows("left", -x - wall, [overall(-y, y)], scale, at=[-x])
        plan += rows("right", x + wall, [overall(-y - wall, y + wall)], scale)
        if not shown or over is None or gland is None:
            return (View("elevation", tuple(plan)),)
        high = over + 0.3 * design.cylinders.bore
        side: Drawn = [polygon(box(-x - wall, 0.0, x + wall, high), "metal", "chest")]
        side += [Path(np.array([[s * x, 0.0], [s * x, high]]), "hidden") for s in (-1, 1)]
        side += [Path(np.array([[-x - wall, over + s * gland.one.major / 2],
                                [-x, over + s * gland.one.major / 2]]), "hidden")
                 for s in (-1, 1)]  # fmt: skip
        side.append(axis_line(-x - wall, x + wall, scale, over))
        end: Drawn = [polygon(box(-y - wall, 0.0, y + wall, high), "metal")]
        end += [hole((0.0, over), gland.drill.diameter),
                Circle((0.0, over), gland.one.major / 2, "thin")]  # fmt: skip
        end += centre_lines((0.0, over), y + wall, scale)
        end += rows("right", y + wall, [(0.0, over, ""), overall(0.0, high, "(<>)")], scale)
        words = (
            f"{gland.one.designation}, drill {gland.drill.name},\n"
            f"{length(gland.engagement)} of thread"
        )
        end.append(Label(words, (0.0, high + 9.0 / scale), "middle",
                         (0.0, over + gland.one.major / 2)))  # fmt: skip
        return (
            View("elevation", tuple(side)), View("end", tuple(end)), View("plan", tuple(plan))
        )  # fmt: skip

    return Drawing(
        key="valve-chest", title="Steam chest", count=design.cylinders.number,
        material=design.frames.cylinder_metal, views_at=views, notes=tuple(says), flat=not shown,
        tolerance=f"Joint faces flat and parallel within {FINE}; inside +{length(0.1)}{ELSE}",
    )  # fmt: skip


def piston_valve(design: Design, face: PortFace, travel: float) -> Drawing:
    """Return a piston valve from the side: its two heads, whose edges open the ports."""
    half, inner, valve = face.valve_half, face.cavity_half, design.motion.valve
    shown = (valve.port_length or 0.0) / math.pi
    neck = 0.5 * shown

    def views(scale: float) -> tuple[View, ...]:
        drawn: Drawn = []
        for sign in (-1, 1):
            a, b = sorted((sign * inner, sign * half))
            drawn.append(polygon(box(a, -shown / 2, b, shown / 2), "metal", "valve"))
            drawn += edges([(a, shown / 2), (b, shown / 2)])
        drawn.append(polygon(box(-inner, -neck / 2, inner, neck / 2), "metal", "valve"))
        drawn += [axis_line(-half, half, scale), _upright(shown / 2, scale)]
        drawn += rows("below", -shown / 2, [*chain([-half, -inner, inner, half])], scale)
        drawn += rows("above", shown / 2, [overall(-half, half)], scale)
        return (View("elevation", tuple(drawn)),)

    return Drawing(
        key="piston-valve", title="Piston valve", count=design.cylinders.number,
        material="stainless steel", views_at=views,
        notes=(
            f"Admission by the {valve.admission} edges. Steam lap {length(valve.steam_lap)}, "
            f"exhaust lap {length(valve.exhaust_lap)}, greatest travel {length(travel)}.",
            "Diameter to its liner as reamed, and the neck between the heads: not decided here "
            f"and drawn freely. Ports round the liner {length(valve.port_length or 0.0)} long in "
            f"all, {length(valve.port_width)} wide, from {length(face.port_inner)} to "
            f"{length(face.port_outer)} either side of the middle.",
        ),
        tolerance=f"Edges of the heads ±{FINE}, sharp; a sliding fit in the liner{ELSE}",
    )  # fmt: skip
