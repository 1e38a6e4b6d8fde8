"""Frame plates, stays, boxes and beams, drawn with their sizes."""

from __future__ import annotations

from typing import Any

from ...design import Design
from ...frames import Part, Plate, Whole
from ..lengths import length
from ..scene import Primitive
from .dimensions import chain, overall, rows
from .sheet import Drawing, Outline, View, centre_lines, polygon


def plate_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the drawings of frames and what is fixed to them."""
    return [] if work.frames is None else [frame_plate(work.frames.whole)]


def frame_plate(whole: Whole) -> Drawing:
    """Return the frame plate: outline, axle centres, depths, and its thickness from the end."""
    plates = _the(whole, "frame plates")
    plate = _plate(plates)
    outline = polygon(plate.outline, "metal", plates.name)
    xs, ys = zip(*plate.outline, strict=True)
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    axles = [one.ahead for one in whole.coupled]
    thick = plate.outer - plate.inner
    boxes = [one for one in whole.parts if one.name.endswith("axleboxes")]
    gap = _gap(plate, axles[0])

    def views(scale: float) -> tuple[View, ...]:
        drawn: list[Primitive | Outline] = [outline]
        for x in axles:
            drawn += centre_lines((x, 0.0), 0.6 * (high - low), scale)
        drawn += rows("above", high, [*chain([left, *axles, right]), overall(left, right)], scale)
        corners = sorted({round(x, 6) for x, _ in plate.outline})
        cuts = [x for x in corners if not any(abs(x - a) < gap[0] for a in axles)]
        below = [overall(axles[0] - gap[0] / 2, axles[0] + gap[0] / 2)]
        below += [(left, x, "") for x in cuts if left < x < right]
        drawn += rows("below", low, below, scale)
        drawn += rows(
            "left", left,
            [overall(low, high), overall(0.0, high), overall(low, gap[1])],
            scale,
        )  # fmt: skip
        ends = sorted({round(y, 6) for x, y in plate.outline if x > right - 1e-6})
        drawn += rows("right", right, [overall(ends[0], ends[-1])], scale)
        end: list[Primitive | Outline] = [
            polygon([(0.0, low), (thick, low), (thick, high), (0.0, high)], "metal")
        ]
        end += rows("below", low, [overall(0.0, thick)], scale)
        return (View("elevation", tuple(drawn)), View("end", tuple(end)))

    return Drawing(
        key="frame-plate", title="Frame plate", material=plates.material, count=2,
        views_at=views, flat=True,
        notes=(
            f"Horn gaps {length(gap[0])} wide for {len(boxes)} pairs of axleboxes; fit each box to "
            "its own gap and mark it. Work both plates together.",
            "Holes for cylinders and stays: spot through from the parts. Break all sharp edges.",
        ),
        tolerance=f"axle centres ±{length(0.02)}, horn gaps +{length(0.02)}, else ±{length(0.2)}",
    )  # fmt: skip


def _gap(plate: Plate, x: float) -> tuple[float, float]:
    """Return width of the horn gap at an axle, and the height of its roof, mm."""
    near = [p for p in plate.outline if abs(p[0] - x) < 0.5 * (max(q[0] for q in plate.outline))]
    aft = max(p[0] for p in near if p[0] < x)
    fore = min(p[0] for p in near if p[0] > x)
    roof = max(p[1] for p in near if abs(p[0] - aft) < 1e-9)
    return fore - aft, roof


def _the(whole: Whole, name: str) -> Part:
    part = whole.part(name)
    if part is None:
        raise KeyError(name)
    return part


def _plate(part: Part) -> Plate:
    solid = part.solids[0]
    assert isinstance(solid, Plate)
    return solid
