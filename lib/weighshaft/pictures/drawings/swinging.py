"""Barrel, covers, piston, rod and trunnion of an oscillating cylinder, drawn with their sizes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from ...cylinders.axis import usual_clearance
from ...design import Design
from ...motion.oscillating import Oscillating
from ..lengths import length
from ..scene import Circle, Label, Path, box
from .covers import back_cover, front_cover, gland_nut
from .cylinders import piston
from .dimensions import chain, overall, rows
from .lathe import axis_line, edges, holes, solid, thread
from .sheet import Drawing, Outline, View, centre_lines, hole, polygon
from .shop import ELSE, FINE, Cylinder, Drawn, beside_screw

EYE = 2.0
"""Eye of the rod over its crankpin; common practice."""
SPRING = 4.0
"""Room for spring, washer and nut on the trunnion, in its diameters; common practice."""


def swinging_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the drawings of an oscillating cylinder besides its rubbing faces."""
    gear = design.motion.gear
    if not isinstance(gear, Oscillating) or work.motion is None or work.motion.trunnion is None:
        return []
    if work.cylinders is None or work.threads is None:
        return []
    shop = Cylinder.of(design, work)
    low, high, back, front, thick = ends_of(
        gear, design.cylinders.stroke, shop.bore, work.motion.trunnion.face
    )
    axis = replace(
        shop.axis, piston=thick, barrel=high - low, front_spigot=high - front,
        back_spigot=back - low,
    )  # fmt: skip
    shop = replace(shop, axis=axis)
    at = -(low + high) / 2
    made = [barrel(shop, gear, work.motion.trunnion.face, at), front_cover(shop)]
    if gear.acting == "double":
        made.append(_plain(back_cover(shop)))
        gland = shop.joints.get("piston_gland")
        made += [] if gland is None else [gland_nut(shop, gland)]
    return [*made, _plain(piston(shop)), rod(shop, gear), trunnion(shop, gear)]


def _plain(drawing: Drawing) -> Drawing:
    """Return a drawing without what is said of slide bars, which this engine has not got."""
    notes = tuple(one.split(" Slide bars:")[0] for one in drawing.notes)
    return replace(drawing, notes=notes)


def ends_of(
    gear: Oscillating, stroke: float, bore: float, face: tuple[float, float, float]
) -> tuple[float, float, float, float, float]:
    """Return back and front end of the barrel, of the room in it, and the piston's length, mm.

    From the trunnion, ahead positive. The barrel is as long as its rubbing face; spigots of
    the covers fill it up to what the piston and its usual clearance take, a twelfth of the
    bore at least (common practice).
    """
    thick, swing = gear.length_of_piston(stroke), float(np.hypot(gear.trunnion_x, gear.trunnion_y))
    room = usual_clearance(bore)
    front = gear.piston_rod - (swing - stroke / 2) + room
    back = gear.piston_rod - (swing + stroke / 2) - thick - room
    least = bore / 12
    return -max(face[1], least - back), max(face[0], front + least), back, front, thick


def barrel(
    shop: Cylinder, gear: Oscillating, face: tuple[float, float, float], at: float
) -> Drawing:
    """Return the barrel in section with its face above, and its end.

    Parameters
    ----------
    at : of the trunnion, ahead of the middle of the barrel, mm.
    """
    half, bore, radius = shop.axis.barrel / 2, shop.bore / 2, shop.flange / 2
    ahead, behind, wide = face
    top, pin, port = radius, gear.face.trunnion_pin, gear.port_hole
    ends = (1,) if gear.acting == "single" else (1, -1)
    screwed = shop.joints.get("covers")
    drilled = f", drill {screwed.drill.name}" if screwed else ""
    deep = screwed.engagement if screwed else 2 * shop.figures.screw_major
    floor = bore + 0.25 * (top - bore)

    def views(scale: float) -> tuple[View, ...]:
        side: Drawn = []
        for low, high in ((bore, top), (-radius, -bore)):
            side.append(polygon(box(-half, low, half, high), "section", "barrel"))
        side += edges([(-half, bore), (half, bore)])
        side.append(axis_line(-half, half, scale))
        for x, across, foot in [(at + end * gear.port_radius, port, bore) for end in ends] + [
            (at, pin, floor)
        ]:
            side += [Path(np.array([[x + s * across / 2, foot], [x + s * across / 2, top]]),
                          "hidden") for s in (-1, 1)]  # fmt: skip
            side.append(Path(np.array([[x, 0.9 * bore], [x, top + 3.0 / scale]]), "centre"))
        marks = sorted([-half, at, half, *(at + end * gear.port_radius for end in ends)])
        side += rows("above", top, chain(marks), scale)
        side += rows("below", -radius, [overall(-half, half)], scale)
        side += rows("left", -half, [overall(-bore, bore, "⌀<> H8")], scale)
        side += rows("right", half, [(0.0, top, "(<>)"), (floor, top, "(<>)")], scale)
        w = min(wide / 2, radius)
        corners = ((-radius, 0.0, 1.0), (radius, 0.0, 0.0))
        end_: Drawn = [Outline((*corners, (w, top, 0.0), (-w, top, 0.0)))]
        end_ += [hole((0.0, 0.0), shop.bore), *centre_lines((0.0, 0.0), radius, scale)]
        end_ += holes(shop.figures.screws, shop.figures.screw_circle, shop.figures.screw_major,
                      shop.first)  # fmt: skip
        end_ += rows("below", -radius, [overall(-radius, radius, "(<>)")], scale)
        end_ += rows("above", top, [overall(-w, w)], scale)
        words = (
            f"{shop.figures.screws} × {shop.figures.screw_thread}, {length(deep)} of full thread"
            f"{drilled},\non a circle of ⌀{length(shop.figures.screw_circle)}"
        )
        end_.append(beside_screw(words, shop, scale))
        return (View("elevation", tuple(side)), View("end", tuple(end_)))

    ends_say = "both ends" if len(ends) == 2 else "its front end, the back one is open"
    return Drawing(
        key="oscillating-barrel", title="Oscillating cylinder", count=shop.number,
        material=shop.design.frames.cylinder_metal, views_at=views,
        notes=(
            f"Rubbing face above: {length(ahead)} ahead and {length(behind)} behind the trunnion, "
            f"ports ⌀{length(port)} into the bore, trunnion ⌀{length(pin)}; see its own drawing. "
            f"Covers at {ends_say}.",
            "As long as its face; the covers' spigots leave the piston its usual room: relieve "
            "them below the ports. Face to axis, and depth of the trunnion, in brackets: level "
            "with the covers' edge, three quarters of the wall; common practice.",
        ),
        tolerance=f"Bore round and parallel within {length(0.01)}, face parallel to it within "
        f"{FINE}{ELSE}",
    )  # fmt: skip


def rod(shop: Cylinder, gear: Oscillating) -> Drawing:
    """Return the piston rod with the eye that runs on the crankpin, to the left."""
    radius, thick = shop.axis.rod / 2, shop.axis.piston
    pin = shop.design.wheels.cylinders.crankpin
    eye = EYE * pin / 2
    shoulder, front = gear.piston_rod - thick, gear.piston_rod
    held = shop.joints.get("piston_head")

    def views(scale: float) -> tuple[View, ...]:
        tip = min(held.one.major / 2 if held else radius, radius)
        side = solid([(0.8 * eye, radius), (shoulder, radius), (shoulder, tip), (front, tip)])
        side += [Outline(hole((0.0, 0.0), 2 * eye).corners, "outline", "metal"),
                 Outline(hole((0.0, 0.0), pin).corners, "outline", "paper")]  # fmt: skip
        side += [axis_line(-eye, front, scale), centre_lines((0.0, 0.0), eye, scale)[1]]
        side += rows("above", eye, [(0.0, shoulder, ""), overall(0.0, front)], scale)
        side += rows("below", -eye, [(-pin / 2, pin / 2, "⌀<>"), (-eye, eye, "(⌀<>)")], scale)
        if held:
            side += thread(shoulder, front, held.one.minor)
            side.append(Label(held.one.designation, (front + 8.0 / scale, -eye - 6.0 / scale),
                              "start", (front - 0.3 * thick, -tip)))  # fmt: skip
        side += rows("right", front, [overall(-radius, radius, "⌀<> h6")], scale, [shoulder])
        return (View("elevation", tuple(side)),)

    return Drawing(
        key="oscillating-rod", title="Piston rod", count=shop.number,
        material=shop.design.threads.piston_rod.male, views_at=views,
        notes=(
            f"Crankpin to the piston's front face {length(front)}, the piston screwed home "
            "against the shoulder.",
            "Eye in brackets twice the crankpin, common practice, as thick as the crankpin has "
            "room for; soldered or screwed on, then reamed square to the rod.",
        ),
        tolerance=f"Ground rod h6; crankpin to shoulder ±{length(0.05)}{ELSE}",
    )  # fmt: skip


def trunnion(shop: Cylinder, gear: Oscillating) -> Drawing:
    """Return the trunnion pin from the side, the cylinder to the left."""
    pin = gear.face.trunnion_pin
    wall = 0.75 * (shop.flange - shop.bore) / 2
    plate = shop.design.wheels.between.frame_thickness + 2 * gear.passage_hole
    end = wall + plate + SPRING * pin

    def views(scale: float) -> tuple[View, ...]:
        side = solid([(0.0, pin / 2), (end, pin / 2)])
        side.append(axis_line(0.0, end, scale))
        side += [Path(np.array([[x, -pin / 2], [x, pin / 2]]), "thin")
                 for x in (wall, wall + plate)]  # fmt: skip
        spans = [(0.0, wall, "(<>)"), (wall, wall + plate, "(<>)"), (wall + plate, end, "(<>)")]
        side += rows("below", -pin / 2, spans, scale)
        side += rows("above", pin / 2, [overall(0.0, end, "(<>)")], scale)
        side += rows("left", 0.0, [overall(-pin / 2, pin / 2, "⌀<>")], scale)
        turned: Drawn = [Circle((0.0, 0.0), pin / 2), *centre_lines((0.0, 0.0), pin / 2, scale)]
        return (View("elevation", tuple(side)), View("end", tuple(turned)))

    return Drawing(
        key="trunnion-pin", title="Trunnion pin", count=shop.number, material="silver steel",
        views_at=views,
        notes=(
            "From the left: fixed in the cylinder's wall; through fixed face and frame plate, in "
            "which it runs; spring, washer and lock nuts.",
            "Lengths in brackets: three quarters of the wall; the frame plate and a fixed face of "
            f"two passages' thickness; {SPRING:g} diameters for the spring; common practice. "
            "Thread the outer end to suit its nuts.",
        ),
        tolerance=f"Diameter h6, square to the face{ELSE}",
    )  # fmt: skip
