"""Valve, steam chest and port face, drawn with their sizes."""

from __future__ import annotations

from typing import Any

import numpy as np

from ...design import Design
from ...motion.port_face import PortFace, piston_valve_diameter
from ..lengths import length
from ..scene import Path, box
from .chest import chest_drawings
from .dimensions import chain, overall, rows
from .lathe import axis_line, edges
from .sheet import Drawing, View, polygon
from .shop import ELSE, FINE, Drawn, ports


def valve_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return valve, port face and steam chest, where the face is decided."""
    moved = work.motion
    if moved is None or moved.face is None or design.motion.valve.port_length is None:
        return []
    if design.motion.valve_type == "piston":
        return [piston_valve(design, moved.face, moved.travel)]
    made = [slide_valve(design, work, moved.face, moved.travel)]
    made.append(port_face(design, moved.face))
    if work.cylinders is not None and work.threads is not None:
        made += chest_drawings(design, work)
    return made


def _valve_width(design: Design) -> float:
    return (design.motion.valve.port_length or 0.0) + 2 * design.motion.face.valve_wall


def slide_valve(design: Design, work: Any, face: PortFace, travel: float) -> Drawing:
    """Return the slide valve from below, where its face is, and from its end."""
    valve, half, wide = design.motion.valve, face.valve_half, _valve_width(design)
    cavity, across = face.cavity_half, valve.port_length or 0.0
    chest = getattr(work.cylinders, "chest", None)
    high = design.motion.face.valve_height if chest is None else chest.valve_height

    def views(scale: float) -> tuple[View, ...]:
        drawn: Drawn = [polygon(box(-half, -wide / 2, half, wide / 2), "metal", "valve")]
        drawn.append(polygon(box(-cavity, -across / 2, cavity, across / 2)))
        drawn.append(axis_line(-half, half, scale))
        drawn.append(_upright(wide / 2, scale))
        drawn += rows("above", wide / 2, [(-half, -cavity, ""), overall(-half, half)], scale)
        drawn += rows("below", -wide / 2, [overall(-cavity, cavity)], scale)
        drawn += rows("left", -half, [overall(-wide / 2, wide / 2)], scale)
        drawn += rows("right", half, [overall(-across / 2, across / 2)], scale)
        if high is None:
            return (View("elevation", tuple(drawn)),)
        end: Drawn = [polygon(box(0.0, -wide / 2, high, wide / 2), "metal")]
        deep = np.array([[0.0, -across / 2], [valve.port_width, -across / 2],
                         [valve.port_width, across / 2], [0.0, across / 2]])  # fmt: skip
        end.append(Path(deep, "hidden"))
        end += rows("above", wide / 2, [overall(0.0, high)], scale)
        end += rows("below", -wide / 2, [(0.0, valve.port_width, "")], scale, [-across / 2])
        return (View("elevation", tuple(drawn)), View("end", tuple(end)))

    return Drawing(
        key="slide-valve", title="Slide valve, from its face", count=design.cylinders.number,
        material=design.frames.cylinder_metal, views_at=views, flat=True,
        notes=(
            f"Steam lap {length(valve.steam_lap)}, exhaust lap {length(valve.exhaust_lap)}, "
            f"greatest travel {length(travel)}. Lap the face on plate glass.",
            "Cavity at least as deep as a steam port is wide. Nut or buckle free to let the valve "
            "lift, without play along the spindle.",
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
    wide = _valve_width(design) + 2 * sizes.chest_clearance
    return float(long), wide if sizes.chest_width is None else sizes.chest_width


def piston_valve(design: Design, face: PortFace, travel: float) -> Drawing:
    """Return a piston valve from the side: its two heads, whose edges open the ports."""
    half, inner, valve = face.valve_half, face.cavity_half, design.motion.valve
    shown = piston_valve_diameter(valve, design.motion.face)
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
        drawn += rows("left", -half, [overall(-shown / 2, shown / 2, "⌀<>")], scale)
        drawn += rows("right", half, [overall(-neck / 2, neck / 2, "(⌀<>)")], scale, [inner])
        return (View("elevation", tuple(drawn)),)

    return Drawing(
        key="piston-valve", title="Piston valve", count=design.cylinders.number,
        material="stainless steel", views_at=views,
        notes=(
            f"Admission by the {valve.admission} edges. Steam lap {length(valve.steam_lap)}, "
            f"exhaust lap {length(valve.exhaust_lap)}, greatest travel {length(travel)}.",
            "Fit it to its liner as reamed; the neck between the heads, in brackets, is half as "
            f"thick, common practice. Ports round the liner {length(valve.port_length or 0.0)} "
            f"long in all, {length(valve.port_width)} wide, from {length(face.port_inner)} to "
            f"{length(face.port_outer)} either side of the middle.",
        ),
        tolerance=f"Edges of the heads ±{FINE}, sharp; a sliding fit in the liner{ELSE}",
    )  # fmt: skip
