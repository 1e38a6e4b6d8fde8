"""Cylinder block, piston and rod, drawn with their sizes."""

from __future__ import annotations

from typing import Any

import numpy as np

from ...design import Design
from ..lengths import length
from ..scene import Circle, Label, Path, box
from .covers import back_cover, front_cover, gland_nut
from .dimensions import overall, rows
from .lathe import axis_line, cut, edges, holes, solid, thread
from .sheet import Drawing, Outline, View, centre_lines, hole, polygon
from .shop import ELSE, FINE, Cylinder, Drawn, beside_screw, ports


def cylinder_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the drawings of the cylinders; oscillating ones have none of these parts."""
    if work.cylinders is None or work.threads is None or design.motion.gear.kind == "oscillating":
        return []
    shop = Cylinder.of(design, work)
    made = [block(shop), front_cover(shop), back_cover(shop)]
    gland = shop.joints.get("piston_gland")
    if gland is not None:
        made.append(gland_nut(shop, gland))
    return [*made, piston(shop), piston_rod(shop)]


def block(shop: Cylinder) -> Drawing:
    """Return the block: barrel in section, its end with the screw holes, the ports from above."""
    half, bore = shop.axis.barrel / 2, shop.bore / 2
    radius, face = shop.flange / 2, shop.face
    top = radius if face is None else face
    screws, screwed = shop.figures.screws, shop.joints.get("covers")
    drilled = f", drill {screwed.drill.name}" if screwed else ""
    deep = screwed.engagement if screwed else 2 * shop.figures.screw_major

    def views(scale: float) -> tuple[View, ...]:
        side: Drawn = []
        for low, high in ((bore, top), (-radius, -bore)):
            side.append(polygon(box(-half, low, half, high), "section", "barrel"))
        side += edges([(-half, bore), (half, bore)])
        side += [axis_line(-half, half, scale), *_passages(shop, half, top)]
        side.append(Path(np.array([[0.0, -radius - 3 / scale], [0.0, top + 3 / scale]]), "centre"))
        side += rows("below", -radius, [overall(-half, half)], scale)
        side += rows("left", -half, [overall(-bore, bore, "⌀<> H8")], scale)
        if face is not None:
            side += rows("right", half, [(0.0, face, "")], scale)
        end = _end(shop, top, shop.figures.screw_major)
        end += centre_lines((0.0, 0.0), max(radius, top), scale)
        end += rows("below", -radius, [overall(-radius, radius, "(<>)")], scale)
        words = (
            f"{screws} × {shop.figures.screw_thread}, {length(deep)} of full thread{drilled},\n"
            f"on a circle of ⌀{length(shop.figures.screw_circle)}, both ends"
        )
        end.append(beside_screw(words, shop, scale))
        seen = [View("elevation", tuple(side)), View("end", tuple(end))]
        if face is not None:
            seen.append(View("plan", tuple(_from_above(shop, half, radius, scale))))
        return tuple(seen)

    return Drawing(
        key="cylinder-block", title="Cylinder block", count=shop.number,
        material=shop.design.frames.cylinder_metal, views_at=views, notes=tuple(_told(shop)),
        tolerance=f"Bore round and parallel within {length(0.01)}, ends square to it "
        f"within {FINE}{ELSE}",
    )  # fmt: skip


def _told(shop: Cylinder) -> list[str]:
    passages, design = shop.figures, shop.design
    says = [
        f"Passages to each end: {design.cylinders.passages.holes} holes of "
        f"{length(passages.passage_hole)}, {length(passages.passage_length)} from port to bore. "
        f"Drains: {design.cylinders.passages.drains}.",
        "Sizes in brackets follow from others or from common practice; what stands outside the "
        "covers' edge is as casting or stock allows. Bore first, face both ends on a mandrel.",
    ]
    if shop.face is not None:
        spindle = shop.spindle
        where = (
            f"valve spindle {length(spindle)} above the axis" if spindle is not None
            else "valve spindle as the motion has it"
        )  # fmt: skip
        stud = shop.joints.get("chest")
        tapped = "" if stud is None else (
            f" Chest: {len(shop.figures.chest.studs)} × {stud.one.designation}, "
            f"{length(stud.engagement)} of full thread, drill {stud.drill.name}, spotted through "
            "from it."
        )  # fmt: skip
        says.insert(
            1, f"Port face parallel to the bore; {where}; ports as on their drawing.{tapped}"
        )
    return says


def _passages(shop: Cylinder, half: float, top: float) -> list[Path]:
    """Return the passages from the middle of each port to the end of the bore."""
    if shop.face is None or shop.face <= shop.bore / 2:
        return []
    chest = shop.figures.chest
    begins, middle = chest.passage_run
    floor = top - chest.port_depth
    made = []
    for sign in (-1, 1):
        start, end = np.array([middle, floor]), np.array([begins, shop.bore / 2])
        length_ = float(np.hypot(*(end - start)))
        # each flank from the port's floor to the edge of the bore, as the hole asks
        slope = (end[1] - start[1]) / (end[0] - start[0])
        out = shop.figures.passage_hole / 2 * length_ / (end[0] - start[0])
        made.append(Path(np.array([start, end]) * [sign, 1], "centre"))
        for up in (-out, out):
            low = start[1] + up + slope * (end[0] - start[0])
            first = start[0] - up / slope
            flank = [[first, floor], [end[0], max(low, shop.bore / 2)]]
            if low < shop.bore / 2:
                flank[1] = [first + (shop.bore / 2 - floor) / slope, shop.bore / 2]
            made.append(Path(np.array(flank) * [sign, 1], "hidden"))
    return made


def _end(shop: Cylinder, top: float, screw: float) -> Drawn:
    """Return the end of the barrel: round below, square up to the port face."""
    radius = shop.flange / 2
    if shop.face is None:
        outline = hole((0.0, 0.0), shop.flange)
    else:
        corners = ((-radius, 0.0, 1.0), (radius, 0.0, 0.0), (radius, top, 0.0), (-radius, top, 0.0))
        outline = Outline(corners)
    made: Drawn = [outline, hole((0.0, 0.0), shop.bore)]
    return made + holes(shop.figures.screws, shop.figures.screw_circle, screw, shop.first)


def _from_above(shop: Cylinder, half: float, radius: float, scale: float) -> Drawn:
    """Return the block from above with its ports."""
    made: Drawn = [polygon(box(-half, -radius, half, radius))]
    made += ports(shop.design)
    stud = shop.joints.get("chest")
    if stud is not None and shop.figures.chest is not None:
        for at in shop.figures.chest.studs:
            made += [hole(at, stud.drill.diameter), Circle(at, stud.one.major / 2, "thin")]
    made.append(axis_line(-half, half, scale))
    made.append(Path(np.array([[0.0, -radius - 3 / scale], [0.0, radius + 3 / scale]]), "centre"))
    return made


def piston(shop: Cylinder) -> Drawing:
    """Return the piston in section and from its end."""
    axis, bore = shop.axis, shop.bore / 2
    held = shop.joints.get("piston_head")

    def views(scale: float) -> tuple[View, ...]:
        inside = (held.one.minor_internal if held else axis.rod) / 2
        thick = axis.piston
        side = cut([(0.0, bore), (thick, bore)], [(0.0, inside), (thick, inside)])
        side.append(axis_line(0.0, thick, scale))
        if held:
            side += thread(0.0, thick, held.one.major)
            words = f"{held.one.designation} through,\ndrill {held.drill.name}"
            side.append(Label(words, (thick / 2, bore + 9.0 / scale), "middle",
                              (thick / 2, held.one.major / 2)))  # fmt: skip
        side += rows("below", -bore, [overall(0.0, thick)], scale)
        side += rows("left", 0.0, [overall(-bore, bore, "⌀<> f7")], scale)
        end: Drawn = [hole((0.0, 0.0), shop.bore), hole((0.0, 0.0), 2 * inside)]
        if held:
            end.append(Circle((0.0, 0.0), held.one.major / 2, "thin"))
        end += centre_lines((0.0, 0.0), bore, scale)
        return (View("elevation", tuple(side)), View("end", tuple(end)))

    return Drawing(
        key="piston", title="Piston", count=shop.number,
        material=shop.design.threads.piston_head.female, views_at=views,
        notes=(
            "Screw it on its rod and turn the outside last, between centres or in a collet, to "
            "the bore as made.",
            "Groove for ring or packing: as the ring or packing bought asks; it is not decided "
            "here.",
        ),
        tolerance=f"Outside f7 to the bore as made, true to the rod within {length(0.01)}{ELSE}",
    )  # fmt: skip


def piston_rod(shop: Cylinder) -> Drawing:
    """Return the piston rod from the side, crosshead end to the left."""
    axis, radius = shop.axis, shop.axis.rod / 2
    back, front = -axis.rod_length, axis.piston + axis.nut
    held, head = shop.joints.get("piston_head"), shop.joints.get("piston_rod")

    def views(scale: float) -> tuple[View, ...]:
        tip = min(held.one.major / 2 if held else radius, radius)
        side = solid([(back, radius), (0.0, radius), (0.0, tip), (front, tip)])
        side.append(axis_line(back, front, scale))
        side += rows("below", -radius, [(back, back + axis.thread, ""), (back, 0.0, "")], scale)
        side += rows("above", radius, [overall(back, front, "(<>)"), (0.0, front, "")], scale)
        side += rows("left", back, [overall(-radius, radius, "⌀<> h6")], scale)
        if head:
            side += thread(back, back + axis.thread, head.one.minor)
            side.append(Path(np.array([[back + axis.thread, -radius],
                                       [back + axis.thread, radius]])))  # fmt: skip
            side.append(Label(head.one.designation, (back + axis.thread / 2, radius + 8.0 / scale),
                              "middle", (back + axis.thread / 2, radius)))  # fmt: skip
        if held:
            side += thread(0.0, front, held.one.minor)
            side.append(Label(held.one.designation, (front + 8.0 / scale, -radius - 10.0 / scale),
                              "start", (front - 0.2 * axis.piston, -tip)))  # fmt: skip
        return (View("elevation", tuple(side)),)

    return Drawing(
        key="piston-rod", title="Piston rod", count=shop.number,
        material=shop.design.threads.piston_rod.male, views_at=views,
        notes=(
            f"{length(axis.engaged)} of thread go into the crosshead, lock nut "
            f"{length(axis.lock_nut)}; the piston then clears both covers by "
            f"{length(shop.figures.front_clearance)} in front, "
            f"{length(shop.figures.back_clearance)} behind.",
            "Screw both threads with the rod in a collet, or they will not be true.",
        ),
        tolerance=f"Ground rod h6; back of piston to crosshead end ±{length(0.05)}{ELSE}",
    )  # fmt: skip
