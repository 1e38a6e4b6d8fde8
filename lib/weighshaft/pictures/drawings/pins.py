"""Crankpins, and the row of parts along the driving axle with the collars that fill it."""

from __future__ import annotations

from ...frames import Whole
from ...wheels import Wheels, WheelsResult
from ...wheels.results import Part as Item
from ..lengths import length
from .dimensions import overall, rows
from .sheet import Drawing, View
from .turned import Drawn, Step, block, middle, turned, within


def pins_of(wheels: Wheels, whole: Whole) -> list[Drawing]:
    """Return the crankpins, one drawing for those that are alike."""
    made = []
    groups: dict[tuple[Step, ...], list[str]] = {}
    for axle in whole.coupled:
        part = whole.part(f"{axle.name} crankpins")
        if part is None:
            continue
        steps: list[Step] = []
        for solid in part.solids:
            steps.append((solid.inner, solid.outer, 2 * solid.half))  # type: ignore[union-attr]
        start = steps[0][0]
        key = tuple((round(a - start, 6), round(b - start, 6), d) for a, b, d in steps)
        groups.setdefault(key, []).append(axle.name)
    for n, (steps_of, names) in enumerate(groups.items()):
        words = ", ".join(names)
        made.append(
            Drawing(
                key="crankpin" if n == 0 else f"crankpin-{n + 1}",
                title="Crankpin", material="silver steel", count=2 * len(names),
                views_at=lambda scale, steps=steps_of: (  # type: ignore[misc]
                    View("elevation", tuple(turned(list(steps), scale))),
                ),
                notes=(
                    f"{words[:1].upper()}{words[1:]} axle, from the face of the tyre (left) "
                    "outwards: "
                    f"boss {length(max(wheels.across.boss_outside, 0.0))}, gap "
                    f"{length(wheels.across.rod_gap)}, rod {length(wheels.across.coupling_rod)}.",
                    "The spigot in the wheel, pressed, screwed or stuck, and the thread of the "
                    "cap or nut are not decided: leave metal at both ends." + _two_part(steps_of),
                ),
                tolerance=f"running diameter +0/−{length(0.01)}, else {within(0.05)}",
            )
        )  # fmt: skip
    return made


def _two_part(steps: tuple[Step, ...]) -> str:
    """Return what to say where the coupling rod could not go on over the end of its pin."""
    if len(steps) > 1 and steps[-1][2] > steps[0][2]:
        return " Larger outside: that end is a sleeve or cap put on after the coupling rod."
    return ""


def row_of(wheels: Wheels, result: WheelsResult) -> list[Drawing]:
    """Return the row along the driving axle, with what is made to fill it."""
    stack = result.stack
    if not stack:
        return []
    heights = {
        "boss": wheels.seat_bore, "axlebox": 1.05 * wheels.axle_diameter,
        "frame": 1.4 * wheels.axle_diameter, "sheave": (result.sheave or 0.0) / 2,
        "web": wheels.axle_diameter, "big end": 0.9 * wheels.axle_diameter,
        "collar": 0.8 * wheels.axle_diameter, "play": 0.0, "gap": 0.0, "axle": 0.0,
    }  # fmt: skip
    half = wheels.axle_diameter / 2
    total = result.back_to_back
    most = max(heights.values())
    fill = {"collar": "section", "frame": "metal", "axlebox": "metal"}

    def views(scale: float) -> tuple[View, ...]:
        drawn: Drawn = [block(0.0, total, -half, half, "none", "behind")]
        for item in stack:
            high = heights[item.kind]
            if high <= 0 or item.width <= 0:
                continue
            for low, up in ((-high, -half), (half, high)):
                drawn.append(block(item.start, item.end, low, up, fill.get(item.kind, "none")))  # type: ignore[arg-type]
        drawn.append(middle(0.0, total, scale))
        room = 12.0 / scale  # what is narrower is in the notes
        drawn += rows("below", -most, [overall(0.0, total), *_half_row(stack, total, room)], scale)
        return (View("elevation", tuple(drawn)),)

    made = [one for one in stack if one.kind == "collar" and one.width > 0]
    sizes: dict[tuple[str, float], int] = {}
    for one in made:
        key = (one.name, round(one.width, 4))
        sizes[key] = sizes.get(key, 0) + 1
    says = "; ".join(f"{name} {length(wide)} long, {n} off" for (name, wide), n in sizes.items())
    order = [one for one in stack if one.end <= total / 2 + 1e-6 or one.start < total / 2]
    row = ", ".join(f"{one.name} {length(one.width)}" for one in order)
    return [
        Drawing(
            key="axle-row", title="Row on the driving axle",
            material="mild steel", count=1, views_at=views,
            notes=(
                f"To be made (hatched): {says or 'nothing'}. Bore to slide on the axle of "
                f"{length(wheels.axle_diameter)}; outsides are not decided.",
                f"From the left wheel to the middle: {row}.",
            ),
            tolerance=f"collars {within(0.05)}, faces parallel",
        )
    ]  # fmt: skip


def _half_row(stack: tuple[Item, ...], total: float, room: float) -> list[tuple[float, float, str]]:
    """Return the widths from the left wheel to the middle; the right-hand half is the same."""
    return [
        overall(one.start, one.end) for one in stack
        if one.width > room and one.start < total / 2 - 1e-6
    ]  # fmt: skip
