"""Coupling rods and connecting rods."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

from ...design import Design
from ...frames import Bar, Whole
from ...frames.running import running_pin
from ...rods.decisions import KNUCKLED
from ...rods.results import RodsResult
from ...wheels import InsideCylinders
from ..lengths import length
from .dimensions import chain, overall, rows
from .joined import bar, disc, strip, union
from .sheet import Drawing, Outline, View, centre_lines, hole, polygon, rod
from .turned import DIAMETER, Drawn, block, middle, within

_SMALL_EYE = 2.0
"""Eye of the small end over its pin, as that of a coupling rod; common practice."""


def rod_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the drawings of coupling and connecting rods."""
    if work.rods is None or work.frames is None:
        return []
    made = _coupling(design, work.rods, work.frames.whole)
    if work.rods.connecting is not None:
        made += _connecting(design, work)
    return made


Eye = tuple[float, float, float]
"""Place along the rod, diameter over the metal, and of the hole, mm."""


def _coupling(design: Design, result: RodsResult, whole: Whole) -> list[Drawing]:
    layout, wheels = result.layout, design.wheels
    if len(layout.places) < 2 or not result.spans:
        return []
    bore = layout.pin + wheels.quartering.bush_clearance
    joint = max(1.1 * result.spans[0].depth, 1.6 * layout.knuckle_pin)
    driven = running_pin(wheels, "driving") + wheels.quartering.bush_clearance
    pins: list[Eye] = [
        (x, layout.eye, driven if axle.name == "driving" else bore)
        for x, axle in zip(layout.places, whole.coupled, strict=True)
    ]  # fmt: skip
    knuckles: list[Eye] = [(x, joint, layout.knuckle_pin) for x in layout.knuckles]
    if design.rods.coupling.joint != KNUCKLED:
        knuckles = []
    every = sorted([*pins, *knuckles])
    pieces: list[list[Eye]] = [[]]
    for eye in every:
        pieces[-1].append(eye)
        if eye in knuckles:
            pieces.append([eye])
    pieces = [one for one in pieces if len(one) > 1]
    material = design.rods.coupling.material
    return [
        _piece(design, result, eyes, n, len(pieces), material, knuckles)
        for n, eyes in enumerate(reversed(pieces))
    ]


def _piece(
    design: Design, result: RodsResult, eyes: list[Eye], n: int, count: int, material: str,
    knuckles: list[Eye],
) -> Drawing:  # fmt: skip
    span, layout, wheels = result.spans[0], result.layout, design.wheels
    half, thick = span.depth / 2, span.thickness
    start = eyes[0][0]
    eyes = [(x - start, over, bore) for x, over, bore in eyes]
    outline = _eyed(eyes, half)
    flute, tall = layout.flute
    left, right = eyes[0][0] - eyes[0][1] / 2, eyes[-1][0] + eyes[-1][1] / 2
    most = max(over for _, over, _ in eyes) / 2
    jointed = any(bore == layout.knuckle_pin and knuckles for *_, bore in eyes)

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [outline, middle(left, right, scale)]
        for x, over, bore in eyes:
            face.append(Outline(hole((x, 0.0), bore).corners, "outline", "paper"))
            face.append(centre_lines((x, 0.0), over / 2, scale)[1])
        fluted = flute > 0 and tall < span.depth
        if fluted:
            for (a, over, _), (b, other, _) in pairwise(eyes):
                ends = (a + over / 2 + tall, b - other / 2 - tall)
                if ends[1] - ends[0] > tall:
                    groove = bar((ends[0], 0.0), (ends[1], 0.0), tall / 2)
                    face.append(Outline(groove.corners, "thin"))
        face += rows("above", most, [*chain([x for x, *_ in eyes]), overall(left, right)], scale)
        bores: list[tuple[float, float, str]] = []
        for x, over, bore in eyes:
            for wide in (over, bore):
                bores.append((x - wide / 2, x + wide / 2, DIAMETER))
        face += rows("below", -most, bores, scale)
        plan: Drawn = [block(left, right, 0.0, thick)]
        plan += rows("left", left, [overall(0.0, thick)], scale)
        section: Drawn = [_section(half, thick, flute if fluted else 0.0, tall)]
        heights = [overall(-half, half)] + ([overall(-tall / 2, tall / 2)] if fluted else [])
        section += rows("left", 0.0, heights, scale)
        section += rows("above", half, [overall(0.0, thick)], scale)
        if fluted:
            section += rows("below", -half, [overall(flute, thick - flute)], scale)
        return (
            View("elevation", tuple(face)), View("plan", tuple(plan)),
            View("end", tuple(section), "section amid the rod"),
        )  # fmt: skip

    clear = wheels.quartering.bush_clearance
    run_on = {round(bore - clear, 6) for eye in eyes if eye[2] != layout.knuckle_pin
              for bore in eye[2:]}  # fmt: skip
    pinned = " and ".join(length(one) for one in sorted(run_on))
    notes = [
        f"Bores run on crankpins of {pinned}, "
        f"{length(wheels.quartering.bush_clearance)} clear; bushes, where fitted, reamed in "
        "place. Drill both rods together. Front end to the right."
    ]
    if jointed:
        notes.append(
            f"Knuckle: tongue of half the thickness, {length(thick / 2)}, in its neighbour's "
            f"fork on a pin of {length(layout.knuckle_pin)}; ream together."
        )
    if flute > 0:
        notes.append(
            f"Flutes {length(flute)} deep in both sides, {length(tall)} high, ends round and "
            "clear of the eyes."
        )
    apart = wheels.quartering.centre_error
    which = "" if count == 1 else f", {'front' if n == 0 else 'back' if n == count - 1 else n + 1}"
    return Drawing(
        key="coupling-rod" if count == 1 else f"coupling-rod-{n + 1}",
        title=f"Coupling rod{which}", material=material, count=2, views_at=views, flat=True,
        notes=tuple(notes), tolerance=f"centres {within(apart)}, else {within(0.1)}",
    )  # fmt: skip


def _eyed(eyes: list[Eye], half: float) -> Outline:
    if all(over > 2.002 * half for _, over, _ in eyes):
        return rod([(x, 0.0) for x, *_ in eyes], [over / 2 for _, over, _ in eyes], half)
    parts = [strip((a[0], 0.0), (b[0], 0.0), half) for a, b in pairwise(eyes)]
    return union([*parts, *(disc((x, 0.0), over / 2) for x, over, _ in eyes)])


def _section(half: float, thick: float, flute: float, tall: float) -> Outline:
    if flute <= 0:
        return block(0.0, thick, -half, half, "section")
    h = tall / 2
    right = [(thick, -half), (thick, -h), (thick - flute, -h), (thick - flute, h), (thick, h)]
    left = [(0.0, half), (0.0, h), (flute, h), (flute, -h), (0.0, -h), (0.0, -half)]
    return polygon([*right, (thick, half), *left], "section")


def _connecting(design: Design, work: Any) -> list[Drawing]:
    part = work.frames.whole.part("connecting rods")
    if part is None:
        return []
    shank, big = (one for one in part.solids if isinstance(one, Bar))
    long = work.frames.whole.drive.crank.connecting_rod
    half, thick = shank.half, shank.outer - shank.inner
    given, usual = design.rods.small_end, work.cylinders.axis.rod
    pin = 1.1 * usual if given.diameter is None else given.diameter
    width = thick if given.width is None else given.width
    small = max(_SMALL_EYE * pin, 2 * half)
    head, crankpin = 2 * big.half, design.wheels.cylinders.crankpin
    wide = big.outer - big.inner
    parts = [strip((0.0, 0.0), (long, 0.0), half), disc((0.0, 0.0), big.half),
             disc((long, 0.0), small / 2)]  # fmt: skip
    outline = union(parts)
    left, right, most = -head / 2, long + small / 2, max(head, small) / 2

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [outline, middle(left, right, scale)]
        for x, bore, over in ((0.0, crankpin, head), (long, pin, small)):
            face.append(Outline(hole((x, 0.0), bore).corners, "outline", "paper"))
            face.append(centre_lines((x, 0.0), over / 2, scale)[1])
        face += rows("above", most, [overall(0.0, long), overall(left, right)], scale)
        eyes = [
            (x - over / 2, x + over / 2, DIAMETER)
            for x, wide in ((0.0, (crankpin, head)), (long, (pin, small))) for over in wide
        ]  # fmt: skip
        face += rows("below", -most, eyes, scale)
        plan: Drawn = [
            block(left, head / 2, -wide / 2, wide / 2),
            block(long - small / 2, right, -width / 2, width / 2),
        ]
        ends = (math.sqrt(max(big.half**2 - half**2, 0.0)), small / 2)
        plan.append(block(max(ends[0], head / 2), long - ends[1], -thick / 2, thick / 2))
        plan.append(middle(left, right, scale))
        plan += rows("left", left, [overall(-wide / 2, wide / 2)], scale)
        plan += rows("right", right, [overall(-width / 2, width / 2)], scale)
        section: Drawn = [block(0.0, thick, -half, half, "section")]
        section += rows("left", 0.0, [overall(-half, half)], scale)
        section += rows("above", half, [overall(0.0, thick)], scale)
        return (
            View("elevation", tuple(face)), View("plan", tuple(plan)),
            View("end", tuple(section), "section amid the rod"),
        )  # fmt: skip

    notes = [
        f"Ream the big end to run on the crankpin of {length(crankpin)}, the small end on the "
        f"gudgeon pin of {length(pin)}; bushes, where fitted, reamed in place.",
        f"Eye of the small end: {length(small)} is the usual twice the pin; no size is decided.",
    ]
    if isinstance(design.wheels.cylinders, InsideCylinders):
        notes.append(
            "The big end goes on a crank axle: split it across the bore and bolt the halves, "
            "or assemble it before the webs are fixed."
        )
    return [
        Drawing(
            key="connecting-rod", title="Connecting rod", material=part.material,
            count=min(2, design.cylinders.number), views_at=views, notes=tuple(notes),
            tolerance=f"centres {within(0.05)}, bores parallel, else {within(0.1)}",
        )
    ]  # fmt: skip
