"""The rubbing faces of an oscillating cylinder, drawn with their holes."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from ...design import Design
from ...motion.lapping import TrunnionResult
from ...motion.oscillating import Oscillating
from ..lengths import length
from ..scene import Arc, Path, box
from .dimensions import overall, rows
from .lathe import axis_line
from .sheet import Drawing, View, hole, polygon
from .shop import ELSE, FINE, Drawn


def trunnion_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return both rubbing faces of oscillating cylinders."""
    gear = design.motion.gear
    if not isinstance(gear, Oscillating) or work.motion is None or work.motion.trunnion is None:
        return []
    return [
        cylinder_face(design, gear, work.motion.trunnion),
        fixed_face(design, gear, work.motion.trunnion),
    ]


def _ends(gear: Oscillating) -> tuple[int, ...]:
    return (1,) if gear.acting == "single" else (1, -1)


def _across(x: float, reach: float, scale: float) -> Path:
    out = reach + 3.0 / scale
    return Path(np.array([[x, -out], [x, out]]), "centre")


def cylinder_face(design: Design, gear: Oscillating, result: TrunnionResult) -> Drawing:
    """Return the face of the cylinder: trunnion and ports on its axis."""
    ahead, behind, wide = result.face
    radius, pin, port = gear.port_radius, gear.face.trunnion_pin, gear.port_hole

    def views(scale: float) -> tuple[View, ...]:
        half = wide / 2
        drawn: Drawn = [polygon(box(-behind, -half, ahead, half), "metal", "face")]
        drawn += [hole((0.0, 0.0), pin), axis_line(-behind, ahead, scale)]
        drawn.append(_across(0.0, half, scale))
        for end in _ends(gear):
            drawn += [hole((end * radius, 0.0), port), _across(end * radius, port, scale)]
        under = [(0.0, end * radius, "") for end in _ends(gear)]
        drawn += rows("below", -half, under, scale)
        drawn += rows("above", half, [(0.0, ahead, ""), overall(-behind, ahead)], scale)
        drawn += rows("left", -behind, [overall(-half, half)], scale)
        across = [overall(-port / 2, port / 2, "port ⌀<>")]
        drawn += rows("right", ahead, across, scale, at=[radius])
        if pin > 0:
            at = [-behind if gear.acting == "single" else 0.0]
            drawn += rows("left", -behind, [overall(-pin / 2, pin / 2, "pin ⌀<>")], scale, at=at,
                          first=1)  # fmt: skip
        return (View("elevation", tuple(drawn)),)

    return Drawing(
        key="rubbing-face", title="Face of the cylinder", count=design.cylinders.number,
        material=design.frames.cylinder_metal, views_at=views, flat=True,
        notes=(
            "Axis of the cylinder along the middle of the face; ports drilled square to it into "
            "the bore. Pin square to the face.",
            f"Spring as set {result.spring:.2f} N. Lap both faces on plate "
            "glass, then together; relieve them round the pin.",
        ),
        tolerance=f"Ports from the pin ±{FINE}, on the axis{ELSE}",
    )  # fmt: skip


def fixed_face(design: Design, gear: Oscillating, result: TrunnionResult) -> Drawing:
    """Return the face fixed to the frames: trunnion, and steam and exhaust holes about it."""
    ahead, behind, _ = result.face
    radius, pin, passage = gear.port_radius, gear.face.trunnion_pin, gear.passage_hole
    up = result.pitch / 2
    along = math.sqrt(max(radius**2 - up**2, 0.0))
    half = up + 2 * passage
    line = math.degrees(math.atan2(gear.trunnion_y, gear.trunnion_x))

    def views(scale: float) -> tuple[View, ...]:
        drawn: Drawn = [polygon(box(-behind, -half, ahead, half), "metal", "face")]
        drawn += [hole((0.0, 0.0), pin), axis_line(-behind, ahead, scale)]
        drawn.append(_across(0.0, half, scale))
        for end in _ends(gear):
            for side in (1, -1):
                drawn.append(hole((end * along, side * up), passage))
                drawn.append(axis_line(end * along - passage, end * along + passage, scale,
                                       side * up))  # fmt: skip
            turn = math.degrees(math.asin(min(up / radius, 1.0))) + 8
            middle = 0.0 if end > 0 else 180.0
            drawn.append(Arc((0.0, 0.0), radius, middle - turn, middle + turn, "centre"))
            drawn.append(_across(end * along, half, scale))
        drawn += rows("below", -half, [(0.0, end * along, "") for end in _ends(gear)], scale)
        drawn += rows("right", ahead, [overall(-up, up)], scale, at=[along])
        drawn += rows("above", half, [overall(-behind, ahead, "(<>)")], scale)
        drawn += rows("left", -behind, [overall(-half, half, "(<>)")], scale)
        return (View("elevation", tuple(drawn)),)

    tilt = "" if abs(line) < 1e-9 else f" It stands {line:.2f}° to the rail."
    return Drawing(
        key="fixed-face", title="Fixed face", count=design.cylinders.number,
        material=design.frames.cylinder_metal, views_at=views, flat=True,
        notes=(
            f"Holes {length(passage)} on a radius of {length(radius)} about the pin, which is "
            f"reamed to {length(pin)}. The long axis lies on the line from the driving axle."
            + tilt,
            "Outline in brackets as large as holes and swing ask for, drawn freely. At each end "
            "one hole is for steam and one for exhaust: which, decides the way of running.",
        ),
        tolerance=f"Holes ±{FINE} from the pin{ELSE}",
    )  # fmt: skip
