"""The general arrangement: elevation, plan and cross-section with the leading dimensions."""

from __future__ import annotations

from typing import Any

import numpy as np

from ...design import Design
from ...frames import FramesResult
from ..frames import elevation, plan, section
from ..lengths import length
from ..scene import Arc, Circle, Moving, Path, Primitive, Scene
from .dimensions import chain, overall, rows
from .sheet import Drawing, Outline, View

Drawn = list[Primitive | Outline]


def arrangement_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the general arrangement."""
    return [] if work.frames is None else [general_arrangement(design, work.frames)]


def general_arrangement(design: Design, result: FramesResult) -> Drawing:
    """Return the whole engine, crank of the right-hand side on front dead centre."""
    whole = result.whole
    side = lines(elevation(design.frames, result))
    above = lines(plan(design.frames, result))
    across = lines(section(whole, "At the driving axle", 0.0))
    top, low = _reach(side, 1)
    right, left = _reach(side, 0)
    axles = [one.ahead for one in whole.axles]
    centre = whole.rail + result.boiler_centre

    def views(scale: float) -> tuple[View, ...]:
        seen: Drawn = list(side)
        under = [*chain([whole.back, *axles, whole.front]),
                 overall(whole.buffer_back, whole.buffer_front)]  # fmt: skip
        if len(axles) > 2:
            under.append(overall(min(axles), max(axles)))
        seen += rows("below", low, under, scale, at=[whole.rail] * len(under))
        heights = [(whole.rail, centre, ""), (whole.rail, top, "")]
        seen += rows("left", left, heights, scale)
        seen += rows("right", right, [(whole.rail, 0.0, "")], scale)
        topside: Drawn = list(above)
        frame = whole.frame_inside / 2
        topside += rows("left", left, [overall(-frame, frame)], scale, at=[whole.back])
        topside += rows("right", right, [overall(-result.width / 2, result.width / 2)], scale)
        cut: Drawn = list(across)
        back, gauge = whole.back_to_back / 2, whole.gauge / 2
        cut += rows("below", low, [overall(-back, back), overall(-gauge, gauge)], scale,
                    at=[whole.rail + 0.1 * whole.gauge, whole.rail])  # fmt: skip
        return (
            View("elevation", tuple(seen)), View("plan", tuple(topside)), View("end", tuple(cut))
        )  # fmt: skip

    return Drawing(
        key="general-arrangement", title="General arrangement", count=1,
        material="as in the parts", views_at=views,
        notes=(
            f"Heights from the rail, cranks as on front dead centre; {length(result.height)} high "
            f"and {length(result.width)} wide over all, frames {length(whole.frame_thickness)} "
            "thick. Axles from the ends of the frames over their beams.",
            "Cut at the driving axle, seen from behind. Every part at the size that its chapter "
            "decides or takes: parts are made from their own drawings, not from this one.",
        ),
        tolerance="For reference: not to be measured from",
    )  # fmt: skip


def lines(scene: Scene, frame: int = 0) -> tuple[Primitive, ...]:
    """Return what is drawn of a scene, without its words and dimensions, at one crank angle."""
    still = tuple(one for one in scene.still if isinstance(one, (Path, Circle, Arc)))
    return (*still, *(_standing(one, frame) for one in scene.moving))


def _standing(one: Moving, frame: int) -> Primitive:
    points = np.asarray(one.points[frame], dtype=float)
    if one.shape == "circle":
        centre = (float(points[0, 0]), float(points[0, 1]))
        return Circle(centre, one.radius, one.pen, one.fill, one.part)
    return Path(points, one.pen, one.shape == "outline", one.fill, one.part)


def _reach(drawn: tuple[Primitive, ...], axis: int) -> tuple[float, float]:
    """Return the highest and the lowest place of lines along x (0) or y (1), mm."""
    found: list[float] = []
    for one in drawn:
        if isinstance(one, Path):
            found += [float(v) for v in np.asarray(one.points)[:, axis]]
        elif isinstance(one, Circle):
            found += [one.centre[axis] - one.radius, one.centre[axis] + one.radius]
    return max(found), min(found)
