"""Reversing arm and reach rod, drawn with their sizes."""

from __future__ import annotations

from typing import Any

from ...clearance.planes import proportions
from ...design import Design
from ...frames.solids import Bar
from ..lengths import length
from .bars import Lever, lever_drawing
from .sheet import Drawing


def reverser_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the arm that the reach rod drives, and that rod, where there is a reverser."""
    reverser = work.reversing
    if reverser is None or reverser.layout is None or work.frames is None:
        return []
    found = [work.frames.whole.part(name) for name in ("reversing arm", "reach rod")]
    if any(part is None or not isinstance(part.solids[0], Bar) for part in found):
        return []
    arm, rod = (part.solids[0] for part in found)
    layout, shaft = reverser.layout, reverser.shaft
    across = design.wheels
    bored = proportions(design.clearance, across.axle_diameter, across.cylinders.crankpin).shaft
    turn = layout.arm_angle
    upright = "upright" if layout.upright > 0 else "hanging down"
    other = arm.inner > rod.outer or rod.inner > arm.outer
    made = [
        Lever(
            "reversing arm", (("shaft", (0.0, 0.0)), ("reach rod's pin", (layout.arm, 0.0))),
            (("shaft", bored),), arm.half, arm.outer - arm.inner,
            f"Fixed {abs(turn):g}° {'anticlockwise' if turn >= 0 else 'clockwise'} from the "
            f"{shaft.part}, seen from the right; {upright} in mid gear.",
        ),
        Lever(
            "reach rod", (("stand's pin", (0.0, 0.0)), ("arm's pin", (layout.rod, 0.0))), (),
            rod.half, rod.outer - rod.inner,
            f"In tension and thrust up to {reverser.rod_force:.1f} N. " * bool(reverser.rod_force)
            + f"Joggle it {length(abs(arm.inner - rod.inner))} to the arm's plane." * other,
        ),
    ]  # fmt: skip
    return [lever_drawing(one, [one.name], 1) for one in made]
