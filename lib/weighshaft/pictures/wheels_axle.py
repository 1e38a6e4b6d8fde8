"""The row of parts along the driven axle, in section to scale."""

from __future__ import annotations

from ..wheels import InsideCylinders, Part, Wheels, WheelsResult
from .scene import Dimension, Fill, Label, Path, Pen, Primitive, Scene, box

_HEIGHTS = {
    "boss": 0.9, "collar": 0.75, "play": 0.0, "gap": 0.0, "axlebox": 1.2, "frame": 2.0, "axle": 0.0,
}  # fmt: skip
"""Half height of a part over the axle's diameter, where the design fixes none."""
_FILLS: dict[str, Fill] = {
    "boss": "section", "collar": "tint", "axlebox": "metal", "frame": "section", "sheave": "metal",
    "web": "section", "big end": "paper",
}  # fmt: skip


def row_along_axle(wheels: Wheels, result: WheelsResult) -> Scene:
    """Return the row between the wheels to scale; x from the engine's centre line, axle at y = 0.

    Forward and backward sheaves are drawn up and down, the left crank up and the right one
    towards the eye, as they stand when quartered.
    """
    half, radius = result.back_to_back / 2, wheels.axle_diameter / 2
    still: list[Primitive] = [
        Path(box(-half, -radius, half, radius), "outline", True, "paper", "axle"),
        *_wheels(wheels, result),
    ]
    count = 0
    for part in result.stack:
        x0, x1 = part.start - half, part.end - half
        low, high = _heights(part, wheels, result, count)
        count += part.kind == "sheave"
        if high > low:
            fill = _FILLS.get(part.kind, "none")
            pen: Pen = "stop" if part.width < 0 else "outline"
            still.append(Path(box(x0, low, x1, high), pen, True, fill, part.name))
    still.append(Path(box(-half - 8, 0, half + 8, 0)[:2], "centre", part="axle"))
    still += _names(wheels, result)
    return Scene("Along the driven axle, wheel to wheel", _says(result), tuple(still))


def _wheels(wheels: Wheels, result: WheelsResult) -> list[Primitive]:
    """Return the backs of both wheels, broken off above and below."""
    back, face = result.back_to_back / 2, result.wheel_face
    high = _top(wheels, result)
    return [
        Path(box(min(a, b), -high, max(a, b), high), "behind", True, "paper", "wheel")
        for a, b in ((-face, -back), (back, face))
    ]


def _top(wheels: Wheels, result: WheelsResult) -> float:
    crank = 0.0
    if isinstance(wheels.cylinders, InsideCylinders):
        crank = result.crank_throw + wheels.cylinders.web_breadth / 2
    return max(2.2 * wheels.axle_diameter, result.sheave or 0.0, crank)


def _heights(part: Part, wheels: Wheels, result: WheelsResult, sheave: int) -> tuple[float, float]:
    """Return the lower and upper edge of a part; `sheave` counts the sheaves before it."""
    if part.kind == "sheave":
        around = (result.sheave or 1.6 * wheels.axle_diameter) / 2
        # least sheave = axle + twice the throw + twice the wall
        throw = max(around - wheels.axle_diameter / 2 - wheels.between.sheave_wall, 0.0)
        shift = throw if sheave % 2 == 0 else -throw
        return shift - around, shift + around
    if isinstance(wheels.cylinders, InsideCylinders) and part.kind in ("web", "big end"):
        left = part.end <= result.back_to_back / 2
        half = wheels.cylinders.web_breadth / 2
        if part.kind == "big end":
            pin, at = wheels.cylinders.crankpin / 2, result.crank_throw if left else 0.0
            return at - pin, at + pin
        return -half, result.crank_throw + half if left else half
    high = _HEIGHTS.get(part.kind, 0.0) * wheels.axle_diameter
    return -high, high


def _names(wheels: Wheels, result: WheelsResult) -> list[Primitive]:
    """Return the names, on the left and on the right in turn since both halves are alike.

    The further out a part the lower its name, so that no leader crosses a name.
    """
    half, top = result.back_to_back / 2, _top(wheels, result)
    named: dict[str, Part] = {}
    for part in result.stack:
        if part.name not in named and part.kind not in ("gap", "axle"):
            named[part.name] = part
    made: list[Primitive] = []
    step = max(0.13 * top, 0.06 * half)
    for n, part in enumerate(named.values()):
        side = -1 if n % 2 == 0 else 1
        out = abs((part.start + part.end) / 2 - half)
        low, high = _heights(part, wheels, result, 0)
        shown = high > low and side < 0
        at = (side * out, 0.9 * high if shown else 0.4 * wheels.axle_diameter)
        text = (side * (out + 0.04 * half), top + step * (n // 2 + 1))
        made.append(Label(part.name, text, "end" if side < 0 else "start", at))
    under = -top - step
    made.append(Dimension((-half, under), (half, under), f"{result.back_to_back:.2f}", 0))
    for part in result.stack:
        if part.name == "distance collar":
            low = -0.75 * wheels.axle_diameter
            made.append(
                Dimension(
                    (part.start - half, low), (part.end - half, low), f"{part.width:.2f}", -step / 2
                )
            )
    return made


def _says(result: WheelsResult) -> str:
    parts = ", ".join(
        f"{part.name} {part.width:.2f}" for part in result.stack if part.kind != "axle"
    )
    bad = [part for part in result.stack if part.width < -0.005]
    fit = f" It does not fit: {bad[0].name} would have to be {bad[0].width:.2f} mm." if bad else ""
    return f"From the left wheel to the right one, in mm: {parts}.{fit}"
