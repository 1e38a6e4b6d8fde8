"""The engine on its curve, in plan to scale."""

from __future__ import annotations

import math

import numpy as np

from ..wheels import Wheels, WheelsResult
from .scene import Array, Dimension, Label, Path, Pen, Primitive, Scene, box

_POINTS = 61


def on_curve(wheels: Wheels, result: WheelsResult) -> Scene:
    """Return the wheels between the rails of the curve, frames along x, the curve to the right.

    The curve is the one wanted, or the smallest where none is; every axle stands where its
    side play lets it stand.
    """
    curve = result.curve
    reach = wheels.driving_diameter / 2 + result.flange_depth
    xs = [axle.ahead for axle in curve.axles]
    rear, front = min(xs) - 1.6 * reach, max(xs) + 1.6 * reach
    still: list[Primitive] = []
    for side in (-1, 1):
        rail = _arc(curve.centre, curve.radius + side * curve.gauge / 2, rear, front)
        still.append(Path(rail, "outline", part="rail"))
    still.append(
        Path(_arc(curve.centre, curve.radius, rear, front), "centre", part="track centre line")
    )
    frame = wheels.between.frame_spacing / 2
    ends = (min(result.positions) - reach, max(result.positions) + reach)
    for y in (frame, -frame):
        still.append(Path(box(ends[0], y, ends[1], y)[:2], "thin", part="frame"))
    still.append(Path(box(rear, 0, front, 0)[:2], "centre", part="engine centre line"))
    back, thick = result.back_to_back / 2, result.flange_thickness
    for axle in curve.axles:
        radius = wheels.driving_diameter / 2 if axle.coupled else 0.3 * wheels.driving_diameter
        pen: Pen = "outline" if axle.coupled else "behind"
        for side in (-1, 1):
            y0, y1 = sorted((axle.shift + side * back, axle.shift + side * (back + thick)))
            flange = box(axle.ahead - radius, y0, axle.ahead + radius, y1)
            still.append(Path(flange, pen, True, "metal", "flange"))
        axle_line = box(axle.ahead, axle.shift - back, axle.ahead, axle.shift + back)[1:3]
        still.append(Path(axle_line, "thin", part="axle"))
        text = f"{abs(axle.shift):.2f} {_way(axle.shift)}"
        still.append(
            Label(text, (axle.ahead, -curve.gauge / 2 - 10), "middle", (axle.ahead, axle.shift))
        )
    above = curve.gauge / 2 + 8
    still.append(Label(f"radius {curve.radius / 1000:.2f} m", (front, above), "end"))
    if len(result.positions) > 1:
        x0, x1 = min(result.positions), max(result.positions)
        still.append(Dimension((x0, above), (x1, above), f"{x1 - x0:.1f}", 0))
    return Scene("On the curve, from above", _says(wheels, result), tuple(still))


def _way(shift: float) -> str:
    if abs(shift) < 0.005:
        return "in the middle"
    return "left" if shift > 0 else "right"


def _arc(centre: tuple[float, float], radius: float, rear: float, front: float) -> Array:
    x = np.linspace(rear, front, _POINTS)
    inside = np.clip(radius**2 - (x - centre[0]) ** 2, 0.0, None)
    return np.stack([x, centre[1] + np.sqrt(inside)], axis=1)


def _says(wheels: Wheels, result: WheelsResult) -> str:
    curve = result.curve
    shifts = ", ".join(
        f"{'axle' if axle.coupled else 'truck'} {axle.shift:+.2f}" for axle in curve.axles
    )
    least = (
        f"The coupled wheelbase goes round {result.smallest_radius / 1000:.2f} m; "
        f"{result.radius_rule} sets it."
        if math.isfinite(result.smallest_radius)
        else "The coupled wheelbase goes round no curve."
    )
    passes = "" if curve.passes else " On the curve drawn the wheels do not find their places."
    return (
        f"On a curve of {curve.radius / 1000:.2f} m to the right, shift of the axles in the frames "
        f"in mm, left positive, from the front: {shifts}. {least}{passes}"
    )
