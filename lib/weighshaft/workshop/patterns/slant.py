"""Steam passages drilled at a slant, and what metal they leave beside other holes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...findings import Suggestion
from ...sizes import SizeError
from ...working import Working
from ..dials import Dial
from . import relations
from .decisions import Patterns
from .engine import Engine
from .results import Passage

LEAST_RISE = 0.15
"""Rise of a passage over the bore, where the length of Cylinders leaves less; common practice."""
PORT_DEPTH = 1.5
"""Depth of a port over its width; common practice."""
Array = NDArray[np.float64]


@dataclass(frozen=True)
class Way:
    """A hole's axis, mm: `across` the cylinder, from (along, up) to (along, up).

    Along counts from the middle of the barrel to its end, up from the bore's axis.
    """

    across: float
    start: tuple[float, float]
    end: tuple[float, float]


@dataclass(frozen=True)
class Slanted:
    """The passages of one end, with what was taken for them."""

    face_height: float
    floor: float
    begins: float
    port_depth: float
    passages: tuple[Passage, ...]
    ways: tuple[Way, ...]
    workings: tuple[Working, ...]
    taken: tuple[Suggestion, ...]


def slanted(patterns: Patterns, engine: Engine, dial: Dial) -> Slanted | None:
    """Return the passages from the bore's end to the port; None where no face is milled.

    Every hole begins at the bore's edge and ends in the middle of the port's floor, in a plane
    along the cylinder; those to the side begin lower and so stand steeper.

    Raises
    ------
    SizeError : when the port does not lie between bore and end face.
    """
    ports, decided = engine.ports, patterns.slant
    if ports is None:
        return None
    depth = patterns.face.depth
    port_depth = PORT_DEPTH * ports.width if depth is None else depth
    begins = engine.spigot if decided.begins is None else decided.begins
    run = engine.barrel / 2 - begins - ports.middle
    if run <= 0:
        raise SizeError(
            f"Passage begins in the bore, from the end face: {begins:g} mm in, it begins within "
            f"the port; less than {engine.barrel / 2 - ports.middle:.3g} mm would do.",
            "slant.begins",
        )  # fmt: skip
    rise = math.sqrt(max(engine.passage**2 - run**2, (LEAST_RISE * engine.bore) ** 2))
    usual = engine.bore / 2 + rise + port_depth
    if engine.face_height is not None:
        usual = engine.face_height
    height = usual if decided.face_height is None else decided.face_height
    floor = height - port_depth
    if floor <= engine.bore / 2:
        raise SizeError(
            f"Port face above the bore's axis: at {height:g} mm, ports {port_depth:g} mm deep "
            f"break into the bore; more than {engine.bore / 2 + port_depth:.3g} mm would do.",
            "slant.face_height",
        )  # fmt: skip
    widest = max(ports.length - engine.hole, 0.0)
    usual_spread = widest / (engine.holes - 1) if engine.holes > 1 else 0.0
    spread = usual_spread if decided.spread is None else decided.spread
    if spread * (engine.holes - 1) / 2 >= engine.bore / 2:
        raise SizeError(
            f"Passage holes of one end, apart: {spread:g} mm sets the outer ones beside the bore; "
            f"less than {engine.bore / max(engine.holes - 1, 1):.3g} mm would do.", "slant.spread",
        )  # fmt: skip
    point = relations.point_length(d=engine.hole)
    made, ways = [], []
    for n in range(engine.holes):
        across = (n - (engine.holes - 1) / 2) * spread
        edge = relations.bore_edge(D=engine.bore, z=across)
        length = relations.slant_length(h=floor - edge, a=run)
        made.append(
            Passage(
                across, edge, relations.tilt(h=floor - edge, a=run), length, length + point,
                relations.roll(z=across, D=engine.bore), dial.text(across),
            )
        )  # fmt: skip
        ways.append(Way(across, (engine.barrel / 2 - begins, edge), (ports.middle, floor)))
    main = made[len(made) // 2]
    up = floor - main.begins
    workings = (
        relations.tilt.work("Passage tilted to the bore", "deg", h=up, a=run),
        relations.slant_length.work("Passage, length", "mm", h=up, a=run),
        relations.point_length.work("Drill's point", "mm", d=engine.hole),
    )
    taken = (
        Suggestion(
            "patterns.slant.face_height",
            round(usual, 2),
            "the passage of Cylinders"
            if engine.face_height is None
            else "as the cylinders have it",
        ),
        Suggestion("patterns.slant.begins", engine.spigot, "the end of the cover's spigot"),
        Suggestion("patterns.slant.spread", round(usual_spread, 2), "spread over the port"),
        Suggestion(
            "patterns.face.depth", round(PORT_DEPTH * ports.width, 2), "one and a half widths"
        ),
    )
    return Slanted(height, floor, begins, port_depth, tuple(made), tuple(ways), workings, taken)


def least_metal(
    centres: Array, hole: float, ways: Sequence[Way], drill: float, barrel: float, depth: float
) -> Array:
    """Return the least metal between each hole in the end face and passages, for rows of patterns.

    In space: a passage that climbs towards the bottom of a shallow hole is nearest beyond it.

    Parameters
    ----------
    centres : (..., 2): across and up from the bore's axis, mm.
    hole, drill : diameters of the holes and of the passages, mm.
    depth : of the holes, mm; flat at the bottom.
    """
    gaps = [_nearest(centres, hole / 2, way, barrel, depth) for way in ways]
    return np.asarray(np.min(gaps, axis=0) - drill / 2)


_STEPS = 6
"""Steps of Gauss and Newton; two settle the place within 0.01 mm, tests see to the rest."""


def _nearest(centres: Array, radius: float, way: Way, barrel: float, depth: float) -> Array:
    """Return how near a passage's axis comes to each hole, mm; negative inside it.

    Within the depth of a hole it is nearest where it is seen so along the cylinder; beyond the
    bottom the distance to the edge of the bottom is least, where its square rises no longer.
    """
    (x0, y0), (x1, y1) = way.start, way.end
    slope = (y1 - y0) / (x0 - x1)
    face = y0 - slope * (barrel / 2 - x0)
    across, up = centres[..., 0] - way.across, centres[..., 1] - face
    run = barrel / 2 - x1
    within = np.clip(up / slope, 0.0, min(depth, run))
    least = np.hypot(across, up - slope * within) - radius
    if run <= depth:
        return np.asarray(least)
    along = np.full_like(up, depth)
    for _ in range(_STEPS):
        high = up - slope * along
        beside = np.hypot(across, high)
        grows = -slope * high / np.maximum(beside, 1e-9)
        out = np.maximum(beside - radius, 0.0)
        along = along - (out * grows + along - depth) / (grows**2 + 1)
        along = np.clip(along, depth, run)
    out = np.maximum(np.hypot(across, up - slope * along) - radius, 0.0)
    return np.asarray(np.minimum(least, np.hypot(out, along - depth)))
