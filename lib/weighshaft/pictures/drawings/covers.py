"""Covers of a cylinder, with stuffing box and gland, drawn with their sizes."""

from __future__ import annotations

from ...measures import to_step
from ...threads.joints import JointResult, wall_for
from ..lengths import length
from ..scene import Circle, Label
from .dimensions import overall, rows
from .lathe import axis_line, cut, holes, solid, thread
from .sheet import Drawing, Outline, View, centre_lines, hole
from .shop import ELSE, FINE, Cylinder, Drawn, beside_screw


def front_cover(shop: Cylinder) -> Drawing:
    """Return the front cover in section and from its spigot's side."""
    axis, radius, bore = shop.axis, shop.flange / 2, shop.bore / 2
    spigot, flange = axis.front_spigot, axis.front_cover

    def views(scale: float) -> tuple[View, ...]:
        profile = [(-spigot, 0.0), (-spigot, bore), (0.0, bore), (0.0, radius), (flange, radius),
                   (flange, 0.0)]  # fmt: skip
        side: Drawn = [one for one in solid(profile, "section") if isinstance(one, Outline)]
        side.append(axis_line(-spigot, flange, scale))
        side += rows("below", -radius, [(-spigot, 0.0, ""), (0.0, flange, "")], scale)
        side += rows("left", -spigot, [overall(-bore, bore, "⌀<> e8")], scale)
        side += rows("right", flange, [overall(-radius, radius, "⌀<>")], scale)
        return (View("elevation", tuple(side)), View("end", tuple(_cover_end(shop, scale))))

    return Drawing(
        key="front-cover", title="Front cylinder cover", count=shop.number,
        material=shop.design.frames.cylinder_metal, views_at=views,
        notes=(
            f"Spigot to the cylinder's bore, flange {length(axis.joint)} off it on the joint.",
            "Outside of the flange: screw circle and two screws, common practice. Relieve the "
            "spigot where the passages come out. Spot the cylinder through from the cover.",
        ),
        tolerance=f"Spigot e8 to the bore as made; its face square within {FINE}{ELSE}",
    )  # fmt: skip


def _cover_end(shop: Cylinder, scale: float, bored: float = 0.0, boss: float = 0.0) -> Drawn:
    screwed = shop.joints.get("covers")
    clear = screwed.clear if screwed else None
    diameter = clear.diameter if clear else shop.figures.screw_major
    radius = shop.flange / 2
    made: Drawn = [hole((0.0, 0.0), shop.flange)]
    made.append(Circle((0.0, 0.0), shop.bore / 2, "hidden" if bored else "outline"))
    made += [hole((0.0, 0.0), one) for one in (bored, boss) if one]
    made += holes(shop.figures.screws, shop.figures.screw_circle, diameter, shop.first)
    made += centre_lines((0.0, 0.0), radius, scale)
    named = f", drill {clear.name}," if clear else ""
    words = (
        f"{shop.figures.screws} × clear of {shop.figures.screw_thread}{named}\n"
        f"on a circle of ⌀{length(shop.figures.screw_circle)}"
    )
    return [*made, beside_screw(words, shop, scale)]


def _boss(shop: Cylinder, gland: JointResult) -> tuple[float, float]:
    """Return outside diameter and length of the stuffing box; common practice.

    A usual wall round the gland's thread; and two thirds of the room that stuffing box and
    gland have together.
    """
    return to_step(gland.one.major + 2 * wall_for(gland.one.major), 0.5), shop.axis.gland * 2 / 3


def back_cover(shop: Cylinder) -> Drawing:
    """Return the back cover with its stuffing box, the box to the left as on the engine."""
    axis, radius, bore = shop.axis, shop.flange / 2, shop.bore / 2
    spigot, flange, rod = axis.back_spigot, axis.back_cover, axis.rod
    gland = shop.joints.get("piston_gland")
    outside, out = _boss(shop, gland) if gland else (2.2 * rod, 0.0)
    hole_through = gland.hole if gland else rod

    def views(scale: float) -> tuple[View, ...]:
        end = -flange - out
        profile = [(end, outside / 2), (-flange, outside / 2), (-flange, radius), (0.0, radius),
                   (0.0, bore), (spigot, bore)]  # fmt: skip
        inside = [(end, hole_through / 2), (spigot, hole_through / 2)]
        if gland:
            box = gland.drill.diameter / 2
            inside = [(end, box), (0.0, box), (0.0, hole_through / 2), (spigot, hole_through / 2)]
        side = cut(profile, inside)
        side.append(axis_line(end, spigot, scale))
        if gland:
            side += thread(end, end + gland.engagement, gland.one.major)
        below = [(-flange, 0.0, ""), (0.0, spigot, "")]
        if gland:
            below += [(end, -flange, "(<>)"), (end, 0.0, "")]
        side += rows("below", -radius, below, scale)
        side += rows("right", spigot, [overall(-bore, bore, "⌀<> e8"),
                                       overall(-radius, radius, "⌀<>")], scale)  # fmt: skip
        if gland:
            side += rows("left", end, [overall(-outside / 2, outside / 2, "(⌀<>)")], scale)
            side.append(Label(f"{gland.one.designation}, {length(gland.engagement)} of thread,\n"
                              f"drill {gland.drill.name}; ⌀{length(hole_through)} through",
                              (end, radius + 9.0 / scale), "middle",
                              (end + 0.4 * gland.engagement, gland.one.major / 2)))  # fmt: skip
        seen = _cover_end(shop, scale, hole_through, outside if gland else 0.0)
        return (View("elevation", tuple(side)), View("end", tuple(seen)))

    return Drawing(
        key="back-cover", title="Back cylinder cover", count=shop.number,
        material=shop.design.frames.cylinder_metal, views_at=views,
        notes=(
            "Bore, spigot and stuffing box at one setting, so that all are true to the rod.",
            f"Stuffing box and gland, screwed home, stand out {length(axis.gland)} together; how "
            "they share it and the bracketed diameter are common practice. Slide bars: seats and "
            "screws as the bars are fixed, square to the axis.",
        ),
        tolerance=f"Spigot e8 to the bore as made; all turned faces true within {FINE}{ELSE}",
    )  # fmt: skip


def gland_nut(shop: Cylinder, gland: JointResult) -> Drawing:
    """Return the gland that presses the packing on the piston rod."""
    head = shop.axis.gland / 3
    across = max(gland.across_flats, gland.one.major + 1.0)
    inside, engaged = gland.hole / 2, gland.engagement

    def views(scale: float) -> tuple[View, ...]:
        out, major = across / 2, gland.one.major / 2
        profile = [(-head, out), (0.0, out), (0.0, major), (engaged, major)]
        side = cut(profile, [(-head, inside), (engaged, inside)])
        side.append(axis_line(-head, engaged, scale))
        side += thread(0.0, engaged, 2 * major - 1.2 * gland.one.pitch)
        side += rows("below", -out, [(-head, 0.0, "(<>)"), (0.0, engaged, "")], scale)
        side += rows("right", engaged, [overall(-inside, inside, "⌀<>"),
                                        overall(-major, major, gland.one.designation)],
                     scale)  # fmt: skip
        end: Drawn = [hole((0.0, 0.0), across), hole((0.0, 0.0), 2 * inside)]
        end += centre_lines((0.0, 0.0), out, scale)
        end += rows("below", -out, [overall(-out, out, "⌀<>")], scale)
        return (View("elevation", tuple(side)), View("end", tuple(end)))

    return Drawing(
        key="piston-rod-gland", title="Piston-rod gland", count=shop.number,
        material=shop.design.threads.piston_gland.male, views_at=views,
        notes=(
            "Head round with four slots or holes for a spanner, or hexagonal where there is room.",
            "Bored and threaded at one setting; the length of its head is common practice.",
        ),
        tolerance=f"Hole +{length(0.05)} on the rod; thread and hole true within {FINE}{ELSE}",
    )  # fmt: skip
