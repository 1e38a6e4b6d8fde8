"""The boiler as parts: barrel, firebox or flue, smokebox, chimney, dome, water, ashpan."""

from __future__ import annotations

import math

from .layout import Chosen, Layout
from .solids import Place, Plate, Round, Solid, block
from .whole import Part

_SHELL = ("clearance.surroundings.boiler_diameter", "clearance.surroundings.boiler_bottom")
TUBES = 1.4
"""Metal and bore of fire tubes over their bores alone; common practice for thin tubes."""
_PLATE = 1.3
"""Tube plates and backhead over the barrel's wall; common practice."""


def boiler_parts(chosen: Chosen, layout: Layout) -> list[Part]:
    """Return the boiler with what it carries and holds."""
    metal = chosen.boiler.shell.material
    made = (
        _upright(layout, metal)
        if layout.boiler_kind == "vertical"
        else _lying(layout, metal, chosen.wheels.axle_diameter / 2, chosen.smokebox.tube_area)
    )
    made += _smokebox(chosen, layout)
    made += _mountings(layout)
    made.append(_water(chosen, layout))
    return made


def _lying(layout: Layout, metal: str, axle: float, tubes: float | None) -> list[Part]:
    centre, radius = layout.boiler_centre, layout.boiler_radius
    bare = radius - layout.lagging
    front, back, wall = layout.boiler_front, layout.boiler_back, layout.wall
    fired = layout.boiler_kind == "locomotive type"
    plate = _PLATE * wall
    shell: list[Solid] = [
        Round((back, centre, 0.0), front - back, bare, 0.0, 2 * (bare - wall)),
        Round((front - plate, centre, 0.0), plate, bare - wall),
        Round((back, centre, 0.0), plate, bare - wall),
    ]
    if layout.boiler_kind == "centre flue":
        flue = layout.flue / 2
        shell.append(Round((back, centre - 0.3 * (bare - wall - flue), 0.0), front - back, flue,
                           0.0, 2 * (flue - wall)))  # fmt: skip
    joined = (
        "smokebox",
        "firebox",
        "lagging",
        "water",
        "dome",
        "safety valve",
        "cab front",
        "cab roof",
        "saddle tank",
        "ashpan",
        "burner",
    )
    made = [
        Part("boiler", "boiler", "boiler", ("boiler.shell.length", *_SHELL), metal, tuple(shell),
             joined=joined),
    ]  # fmt: skip
    if layout.lagging > 0:
        made.append(
            Part(
                "lagging", "boiler", "boiler", ("boiler.shell.lagging", *_SHELL), "lagging",
                (Round((back, centre, 0.0), front - back, radius, 0.0, 2 * bare),),
                joined=("smokebox", "firebox", "dome", "safety valve", "cab front", "saddle tank",
                        "smokebox saddle", "water", "ashpan"),
            )
        )  # fmt: skip
    if fired:
        made += _firebox(layout, metal, axle)
        made.append(_tubes(layout, tubes))
    else:
        long = 0.5 * (front - back)
        low = centre - radius if layout.boiler_kind == "pot" else centre
        if layout.boiler_kind == "pot":
            made.append(
                Part(
                    "burner", "boiler", "boiler", ("boiler.firebox.bottom",), "brass",
                    (block(back + 0.2 * long, back + 1.2 * long, low - 0.45 * radius,
                           low - 0.3 * radius, -0.4 * radius, 0.4 * radius),),
                    share=0.3, joined=("smokebox", "lagging"),
                )
            )  # fmt: skip
    return made


def tube_area(layout: Layout, tubes: float | None) -> float:
    """Return the clear area of the fire tubes, as decided or as is usual for the barrel, mm2.

    Source: common practice, the bores of the tubes together 0.18 of the barrel's section.
    """
    bare = layout.boiler_radius - layout.lagging - layout.wall
    return 0.25 / TUBES * math.pi * bare * bare if tubes is None else tubes


def _tubes(layout: Layout, tubes: float | None) -> Part:
    """Return the fire tubes as one round of their metal about their middle; for the weight."""
    bare = layout.boiler_radius - layout.lagging - layout.wall
    start = layout.boiler_back + layout.firebox_length
    metal = (TUBES - 1) * tube_area(layout, tubes)
    middle = layout.boiler_centre - 0.2 * bare
    return Part(
        "fire tubes", "boiler", "nozzle", ("nozzle.smokebox.tube_area",), "copper",
        (Round((start, middle, 0.0), layout.boiler_front - start, math.sqrt(metal / math.pi)),),
        joined=("boiler", "lagging", "firebox", "water", "smokebox"),
    )  # fmt: skip


def _firebox(layout: Layout, metal: str, axle: float) -> list[Part]:
    """Return wrapper and inner box as one hollow block, and the ashpan under it.

    Parameters
    ----------
    axle : radius of the coupled axles, over which the ashpan is cut away, mm.
    """
    back, long = layout.boiler_back, layout.firebox_length
    half, low = layout.firebox_width / 2, layout.firebox_bottom
    top, space, wall = layout.boiler_centre, layout.water_space, layout.wall
    solid = block(back, back + long, low, top, -half, half)
    height = top - low
    outer = 2 * height * (long + 2 * half)
    inner = 2 * height * (long + 2 * half - 4 * space) + (long - 2 * space) * 2 * (half - space)
    share = min(1.0, max(0.0, outer + inner) * wall / solid.volume)
    made = [
        Part(
            "firebox", "boiler", "boiler",
            ("boiler.firebox.length", "boiler.firebox.width", "boiler.firebox.bottom"), metal,
            (solid,), share=share, joined=("ashpan", "water", "cab front"),
        )
    ]  # fmt: skip
    if layout.ashpan > 0:
        pans = _ashpan(layout, axle, back + space, back + long - space, half - space)
        volume = sum(one.volume for one in pans)
        sides = 2 * layout.ashpan * (long + 2 * half - 4 * space)
        floor = (long - 2 * space) * 2 * (half - space)
        made.append(
            Part(
                "ashpan", "boiler", "boiler", ("boiler.firebox.ashpan",), "stainless steel",
                pans, share=min(1.0, (sides + floor) * layout.sheet / volume),
            )
        )  # fmt: skip
    return made


def _ashpan(
    layout: Layout, axle: float, back: float, front: float, half: float
) -> tuple[Plate, ...]:
    """Return the ashpan in blocks: over an axle it is shallower, and ends where none is left."""
    room = axle + max(0.5, 0.25 * axle)
    low, high = layout.firebox_bottom - layout.ashpan, layout.firebox_bottom
    floor = room + layout.rise
    cuts = [
        (max(one.ahead - room, back), min(one.ahead + room, front))
        for one in reversed(layout.axles)
        if one.kind == "coupled" and one.ahead + room > back and one.ahead - room < front
    ]  # fmt: skip
    if floor <= low or not cuts:
        return (block(back, front, low, high, -half, half),)
    made, begin = [], back
    for aft, fore in cuts:
        if aft - begin > 1e-6:
            made.append(block(begin, aft, low, high, -half, half))
        if floor < high:
            made.append(block(max(aft, begin), fore, floor, high, -half, half))
        begin = fore
    if front - begin > 1e-6:
        made.append(block(begin, front, low, high, -half, half))
    return tuple(made) or (block(back, front, high - 0.1 * layout.ashpan, high, -half, half),)


def _upright(layout: Layout, metal: str) -> list[Part]:
    """Return a vertical boiler that stands on the frames behind the smokebox place."""
    radius, wall = layout.boiler_radius - layout.lagging, layout.wall
    x = (layout.boiler_front + layout.boiler_back) / 2
    low, high = layout.firebox_bottom, layout.boiler_centre + 1.4 * layout.boiler_radius
    shell = (Round((x, low, 0.0), high - low, radius, 90.0, 2 * (radius - wall)),)
    return [
        Part("boiler", "boiler", "boiler", ("boiler.shell.length", *_SHELL), metal, shell,
             joined=("smokebox", "lagging", "water", "dome", "safety valve")),
    ]  # fmt: skip


def _smokebox(chosen: Chosen, layout: Layout) -> list[Part]:
    wide = layout.smokebox_radius
    front, back, centre = layout.smokebox_front, layout.boiler_front, layout.boiler_centre
    wall = min(layout.wall, 0.1 * wide)
    box = (
        Round((back, centre, 0.0), front - back, wide, 0.0, 2 * (wide - wall)),
        Round((front - wall, centre, 0.0), wall, wide - wall),
    )
    outline, n = chosen.scale.prototype.outline, chosen.scale.ratio
    along = outline.chimney_position
    x = front - (0.5 * layout.smokebox_length if along is None else along / n)
    outside = chosen.smokebox.chimney_outside
    if outside is None:
        full = outline.chimney_diameter
        outside = 0.7 * wide if full is None else full / n
    top = chosen.smokebox.chimney_top
    high = centre + (1.9 * wide if top is None else max(top, 1.05 * wide))
    chimney = (Round((x, centre + wide, 0.0), high - centre - wide, outside / 2, 90.0,
                     0.85 * outside),)  # fmt: skip
    made = [
        Part("smokebox", "boiler", "boiler",
             ("boiler.shell.smokebox_front", "boiler.shell.smokebox_length",
              "nozzle.smokebox.inside_diameter"),
             "mild steel", box, joined=("chimney", "smokebox saddle", "saddle tank", "lagging")),
        Part("chimney", "boiler", "nozzle",
             ("nozzle.smokebox.chimney_top", "nozzle.smokebox.chimney_outside"), "brass", chimney,
             joined=("saddle tank",)),
    ]  # fmt: skip
    under = centre - wide
    if under > layout.top:
        fore, aft = back + 0.9 * (front - back), back + 0.1 * (front - back)
        half = layout.inside
        drop = wide - math.sqrt(max(wide * wide - half * half, 0.0)) if half < wide else wide
        made.append(
            Part(
                "smokebox saddle", "boiler", "boiler",
                ("boiler.shell.smokebox_front", "frames.plates.top"), "mild steel",
                (block(aft, fore, layout.top, under, -half, half),
                 *(_cheek(aft, fore, layout.top, under + drop, sign * half, layout)
                   for sign in (1, -1))),
                share=0.3,
                joined=("cylinders", "running boards", "front stay", "weighshaft", "rocker shaft"),
            )
        )  # fmt: skip
    return made


def _cheek(aft: float, fore: float, low: float, high: float, at: float, layout: Layout) -> Plate:
    """Return an upright side of the saddle, up to where it meets the round of the smokebox."""
    inner, outer = sorted((at, at - math.copysign(layout.sheet, at)))
    return block(aft, fore, low, high, inner, outer)


def _mountings(layout: Layout) -> list[Part]:
    if layout.boiler_kind == "vertical":
        return []
    radius, centre = layout.boiler_radius, layout.boiler_centre
    long = layout.boiler_front - layout.boiler_back

    def upright(along: float, wide: float, high: float) -> tuple[Round, ...]:
        at: Place = (layout.boiler_back + along * long, centre + 0.9 * radius, 0.0)
        return (Round(at, high * radius, wide * radius, 90.0, 1.2 * wide * radius),)

    return [
        Part("dome", "fittings", "boiler", _SHELL, "brass", upright(0.5, 0.42, 0.7),
             joined=("saddle tank",)),
        Part("safety valve", "fittings", "boiler", _SHELL, "brass", upright(0.15, 0.15, 0.6),
             joined=("cab front", "cab roof", "saddle tank", "lagging")),
    ]  # fmt: skip


def _water(chosen: Chosen, layout: Layout) -> Part:
    """Return the water as a block of its volume about its true centre; only its weight counts."""
    bare = layout.boiler_radius - layout.lagging - layout.wall
    level = min(max(chosen.boiler.water_level * 2 * layout.boiler_radius
                    - layout.lagging - layout.wall, 0.05 * bare), 1.95 * bare)  # fmt: skip
    fields = ("boiler.water_level",)
    if layout.boiler_kind == "vertical":
        x = (layout.boiler_front + layout.boiler_back) / 2
        low = layout.firebox_bottom
        high = low + chosen.boiler.water_level * (
            layout.boiler_centre + 1.4 * layout.boiler_radius - low
        )
        # the firebox takes a third of the room below the level, as usual
        solid: Solid = Round((x, low, 0.0), high - low, bare, 90.0)
        return Part("water", "water", "boiler", fields, "water", (solid,), share=0.67)
    area, up = segment(bare, level)
    low = layout.boiler_centre - bare
    front, back = layout.boiler_front, layout.boiler_back
    long = front - back
    taken = 0.0
    if layout.boiler_kind == "centre flue":
        taken = math.pi * layout.flue**2 / 4
    elif layout.boiler_kind == "locomotive type":
        taken = TUBES * tube_area(layout, chosen.smokebox.tube_area)
        long -= layout.firebox_length
    area = max(area - taken, 0.1 * area)
    height = min(level, 1.9 * bare)
    solids: list[Solid] = [
        block(front - long, front, low + up - height / 2, low + up + height / 2,
              -area / height / 2, area / height / 2)
    ]  # fmt: skip
    if layout.boiler_kind == "locomotive type":
        solids.append(_legs(layout, back, low + level))
    return Part("water", "water", "boiler", fields, "water", tuple(solids))


def _legs(layout: Layout, back: float, level: float) -> Solid:
    """Return the water round and over the firebox as one block of its volume."""
    long, half, space = layout.firebox_length, layout.firebox_width / 2, layout.water_space
    top = layout.boiler_centre
    ring = long * 2 * half - max(long - 2 * space, 0.0) * 2 * max(half - space, 0.0)
    high = max(min(level, top) - layout.firebox_bottom, 1e-6)
    over = max(level - top, 0.0) * long * 1.6 * layout.boiler_radius
    volume = ring * high + over
    whole = max(level, layout.firebox_bottom + 1e-3) - layout.firebox_bottom
    width = volume / (long * whole)
    return block(back, back + long, layout.firebox_bottom, layout.firebox_bottom + whole,
                 -width / 2, width / 2)  # fmt: skip


def segment(radius: float, depth: float) -> tuple[float, float]:
    """Return area (mm2) and height of the centre (mm) of the water in a lying round barrel.

    Parameters
    ----------
    radius : inside, mm.
    depth : of the water from the lowest point, mm.

    Source: circular segment, elementary geometry.
    """
    depth = min(max(depth, 0.0), 2 * radius)
    half = math.acos(1 - depth / radius)
    area = radius * radius * (half - math.sin(half) * math.cos(half))
    if area <= 0:
        return 0.0, 0.0
    below = 2 * radius**3 * math.sin(half) ** 3 / (3 * area)
    return area, radius - below
