"""The frame plate as it is marked out, and the list of all parts with their owners."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from ..frames import FramesResult, Plate, Whole
from .scene import Dimension, Path, Primitive, Scene, Table

_GROUPS = {
    "frames": "Frames", "wheels": "Wheels and axles", "rods": "Rods and pins",
    "cylinders": "Cylinders", "motion": "Motion", "boiler": "Boiler", "water": "Water",
    "platework": "Platework", "fittings": "Fittings",
}  # fmt: skip

_OWNERS = {
    "frames": "Frames", "boiler": "Boiler", "wheels": "Wheels", "cylinders": "Cylinders",
    "motion": "Motion", "reversing": "Motion, reverser", "rods": "Rods", "nozzle": "Nozzle",
    "curving": "Curves",
}  # fmt: skip


def marking_out(result: FramesResult) -> Scene:
    """Return the frame plate with the places of its horn gaps and its depths."""
    whole = result.whole
    plates = whole.part("frame plates")
    assert plates is not None
    (plate,) = plates.solids
    assert isinstance(plate, Plate)
    outline = np.array(plate.outline)
    (left, low), (right, high) = (
        tuple(map(float, end)) for end in (outline.min(axis=0), outline.max(axis=0))
    )
    made: list[Primitive] = [Path(outline, "outline", True, "metal", "frame plates")]
    step = 0.12 * (high - low) + 2
    for axle in whole.coupled:
        ends = [[axle.ahead, low - step], [axle.ahead, high + step]]
        made.append(Path(np.array(ends), "centre"))
    places = [right, *(axle.ahead for axle in whole.coupled), left]
    made += [
        Dimension((b, high), (a, high), f"{a - b:.2f}", 1.6 * step) for a, b in pairwise(places)
    ]
    first, half = whole.coupled[0].ahead, result.horn_gap / 2
    made += [
        Dimension((left, high), (right, high), f"{result.plate_length:.2f}", 4 * step),
        Dimension((first - half, low), (first + half, low), f"{result.horn_gap:.2f}", -1.6 * step),
        Dimension((right, low), (right, high), f"{result.plate_depth:.2f}", -1.6 * step),
        Dimension(
            (left, low), (left, low + result.horn_depth), f"{result.horn_depth:.2f}",
            1.6 * step,
        ),
    ]  # fmt: skip
    return Scene(
        "A frame plate to mark out",
        f"Two of them, {whole.frame_thickness:.2f} mm thick: {result.plate_length:.2f} mm long, "
        f"{result.plate_depth:.2f} mm deep, horn gaps {result.horn_gap:.2f} mm wide and "
        f"{result.horn_depth:.2f} mm deep. Holes for stays and cylinders are not shown.",
        tuple(made),
    )


def owners(whole: Whole) -> Table:
    """Return every part with what moves it and the chapter that owns its sizes."""
    words = {
        "frames": "stands", "axle": "rises with its axle", "wheel": "turns",
        "coupling": "goes round with the pins", "connecting": "crank to crosshead",
        "crosshead": "to and fro", "swinging": "swings on its trunnion",
    }  # fmt: skip
    rows = tuple(
        (part.name, _GROUPS[part.kind], "two" if part.paired else "one", part.material,
         words[part.ride] if part.kind != "motion" else "with the valve gear",
         _OWNERS[part.chapter])
        for part in whole.parts
    )  # fmt: skip
    return Table(
        "Every part, and the chapter that owns its sizes",
        ("part", "of", "how many", "material", "how it moves", "sizes belong to"),
        rows,
        "Sizes are decided once, in the chapter named; here they only meet.",
    )
