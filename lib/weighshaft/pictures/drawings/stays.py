"""What stands between and on the frame plates: stays, horn stays, beams and axleboxes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ...design import Design
from ...frames import Part, Plate, Whole
from ..lengths import length
from .dimensions import chain, overall, rows
from .sheet import Drawing, Outline, View, centre_lines, hole
from .turned import DIAMETER, Drawn, block, line, within

_SCREWS = "Screws into the frame plates: no pattern is decided; spot through from the plates."
Box = tuple[float, float, float]
"""Length along the engine, height and width across, mm."""


def stay_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the drawings of stays, beams and axleboxes."""
    if work.frames is None:
        return []
    whole: Whole = work.frames.whole
    made = [_horn_stay(whole), *_boxes(design, whole), *_stays(whole), *_beams(design, whole)]
    return [one for one in made if one is not None]


def _plates(part: Part) -> tuple[Plate, ...]:
    return tuple(one for one in part.solids if isinstance(one, Plate))


def _size(plate: Plate) -> Box:
    low, high = plate.extent
    return (high[0] - low[0], high[1] - low[1], high[2] - low[2])


def _alike(one: Box, other: Box) -> bool:
    return all(abs(a - b) < 1e-6 for a, b in zip(one, other, strict=True))


def _slab(wide: float, high: float, thick: float, scale: float) -> tuple[View, View]:
    """Return a rectangular plate from its face and from its edge, with its sizes."""
    face: Drawn = [block(0.0, wide, 0.0, high)]
    face += rows("above", high, [overall(0.0, wide)], scale)
    face += rows("left", 0.0, [overall(0.0, high)], scale)
    return View("elevation", tuple(face)), View("end", tuple(_edge(thick, high, scale)))


def _edge(thick: float, high: float, scale: float) -> Drawn:
    edge: Drawn = [block(0.0, thick, 0.0, high)]
    return edge + list(rows("above", high, [overall(0.0, thick)], scale))


def _horn_stay(whole: Whole) -> Drawing | None:
    part = whole.part("horn stays")
    plates = _plates(part) if part is not None else ()
    if part is None or not plates:
        return None
    long, deep, thick = _size(plates[0])
    return Drawing(
        key="horn-stay", title="Horn stay", material=part.material, count=2 * len(plates),
        views_at=lambda scale: _slab(long, deep, thick, scale), flat=True,
        notes=(
            "Goes under the horn gap and holds the axlebox in.",
            "Screws into the frame plate: no pattern is decided; spot both from one jig.",
        ),
        tolerance=within(0.2),
    )  # fmt: skip


def _stays(whole: Whole) -> list[Drawing]:
    found = [one for one in whole.parts if one.fields == ("frames.stays",)]
    groups: list[tuple[Box, list[Part]]] = []
    for part in found:
        size = _size(_plates(part)[0])
        same = next((parts for box, parts in groups if _alike(box, size)), None)
        if same is None:
            groups.append((size, [part]))
        else:
            same.append(part)
    return [_stay(whole, size, parts) for size, parts in groups]


def _stay(whole: Whole, size: Box, parts: Sequence[Part]) -> Drawing:
    long, deep, wide = size
    names = ", ".join(one.name for one in parts)
    places = "; ".join(f"{one.name}, {_place(one)}" for one in parts)
    return Drawing(
        key=f"stay-{parts[0].name.replace(' ', '-')}", title=names[:1].upper() + names[1:],
        material=parts[0].material, count=len(parts), flat=True,
        views_at=lambda scale: _slab(wide, deep, long, scale),
        notes=(
            f"Across the frames: {places}.",
            "Both ends square and parallel: they set the frames apart. " + _SCREWS,
        ),
        tolerance=f"width +0/−{length(0.05)}, else {within(0.2)}",
    )  # fmt: skip


def _place(part: Part) -> str:
    x, top = part.centroid[0], part.extent[1][1]
    way, height = "ahead of" if x >= 0 else "behind", "above" if top >= 0 else "below"
    return (
        f"its middle {length(abs(x))} {way} the driving axle, its top {length(abs(top))} "
        f"{height} it"
    )


def _boxes(design: Design, whole: Whole) -> list[Drawing]:
    groups: list[tuple[Box, list[Part]]] = []
    for part in whole.parts:
        if part.name.endswith("axleboxes"):
            size = _size(_plates(part)[0])
            same = next((parts for box, parts in groups if _alike(box, size)), None)
            if same is None:
                groups.append((size, [part]))
            else:
                same.append(part)
    return [_box(design, size, parts, n) for n, (size, parts) in enumerate(groups)]


def _box(design: Design, size: Box, parts: Sequence[Part], n: int) -> Drawing:
    long, high, wide = size
    between, journal = design.wheels.between, design.wheels.axle_diameter
    beyond, thick = between.axlebox_outside, between.frame_thickness

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [
            block(-long / 2, long / 2, -high / 2, high / 2), _bore(journal),
            *centre_lines((0.0, 0.0), max(long, high) / 2, scale),
        ]  # fmt: skip
        face += rows("above", high / 2, [overall(-long / 2, long / 2)], scale)
        face += rows("below", -high / 2, chain([-long / 2, 0.0, long / 2]), scale)
        face += rows("left", -long / 2, [overall(-high / 2, high / 2)], scale)
        face += rows("right", long / 2, chain([-high / 2, 0.0, high / 2]), scale)
        side: Drawn = [
            block(0.0, wide, -high / 2, -journal / 2, "section"),
            block(0.0, wide, journal / 2, high / 2, "section"),
            block(0.0, wide, -journal / 2, journal / 2, "paper"),
            line(-4 / scale, 0.0, wide + 4 / scale, 0.0),
        ]
        side += rows("above", high / 2, [overall(0.0, wide)], scale)
        if beyond > 0 or between.axlebox_inside > 0:
            for x in (beyond, beyond + thick):
                if 1e-6 < x < wide - 1e-6:
                    side.append(line(x, -high / 2, x, high / 2, "hidden"))
            places = sorted({0.0, beyond, beyond + thick, wide})
            side += rows("below", -high / 2, chain(places), scale)
        side += rows("right", wide, [(-journal / 2, journal / 2, DIAMETER)], scale, [wide])
        return View("elevation", tuple(face)), View("end", tuple(side))

    which = ", ".join(one.name.removesuffix(" axleboxes") for one in parts)
    return Drawing(
        key="axlebox" if n == 0 else f"axlebox-{n + 1}", title="Axlebox",
        material=parts[0].material, count=2 * len(parts), views_at=views,
        notes=(
            f"{which[:1].upper()}{which[1:]} axle. Fit each box to its own horn gap, "
            f"{length(design.frames.horns.clearance)} clear, mark it, then bore to run on the "
            f"journal of {length(journal)}. Oil hole from the top.",
            "Dashed: the frame plate. How high the flanges beside it stand is not decided. "
            "The left-hand boxes are the mirror.",
        ),
        tolerance=f"bore square to the sides; else {within(0.1)}",
    )  # fmt: skip


def _bore(diameter: float) -> Outline:
    return Outline(hole((0.0, 0.0), diameter).corners, "outline", "paper")


def _beams(design: Design, whole: Whole) -> list[Drawing]:
    made = []
    front, back = whole.part("front buffer beam"), whole.part("back buffer beam")
    sizes = [_size(_plates(one)[0]) for one in (front, back) if one is not None]
    if front is not None and back is not None and _alike(sizes[0], sizes[1]):
        made.append(_beam(design, whole, front, "Buffer beam", 2))
    else:
        for part in (front, back):
            if part is not None:
                made.append(_beam(design, whole, part, part.name.capitalize(), 1))
    return made


def _beam(design: Design, whole: Whole, part: Part, title: str, count: int) -> Drawing:
    thick, high, wide = _size(_plates(part)[0])
    low = part.extent[0][1]
    word = part.name.split()[0]
    buffers, coupling = whole.part(f"{word} buffers"), whole.part(f"{word} coupling")
    across = 0.0 if buffers is None else abs(buffers.solids[0].centroid[2])
    height = None if buffers is None else buffers.centroid[1] - low
    hook = None if coupling is None else coupling.centroid[1] - low
    half, plate = whole.frame_inside / 2, whole.frame_thickness

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [block(-wide / 2, wide / 2, 0.0, high)]
        face.append(line(0.0, -4 / scale, 0.0, high + 4 / scale))
        spans = [overall(-wide / 2, wide / 2)]
        heights = [overall(0.0, high)]
        if height is not None and 0 < height < high:
            for x in {across, -across}:
                face += centre_lines((x, height), 3.0 / scale, scale)
            spans += [(-across, across, "")] if across > 0 else []
            heights.append((0.0, height, ""))
        if hook is not None and 0 < hook < high:
            face += centre_lines((0.0, hook), 3.0 / scale, scale)
            if height is None or abs(hook - height) > 1e-6:
                heights.append((0.0, hook, ""))
        for x in (half, half + plate, -half, -half - plate):
            face.append(line(x, 0.0, x, high, "hidden"))
        face += rows("above", high, spans, scale)
        face += rows("left", -wide / 2, heights, scale)
        face += rows("below", 0.0, [(-half, half, ""), (-half - plate, half + plate, "")], scale)
        return View("elevation", tuple(face)), View("end", tuple(_edge(thick, high, scale)))

    notes = [
        "Dashed: the frame plates behind it. Angles or brackets to them: no pattern is decided; "
        "spot through."
    ]
    if height is not None and 0 < height < high:
        notes.append("Crosses: buffers and coupling; drill to suit their shanks.")
    elif height is not None:
        notes.append("The buffers stand above or below the beam: they need a bracket.")
    return Drawing(
        key=part.name.replace(" ", "-") if count == 1 else "buffer-beam", title=title,
        material=part.material, count=count, views_at=views, flat=True, notes=tuple(notes),
        tolerance=within(0.2),
    )  # fmt: skip
