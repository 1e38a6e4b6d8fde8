"""Ports as the cutter makes them, and the studs of the chest round them."""

from __future__ import annotations

import math
from typing import Any

from ...findings import Suggestion
from ...sizes import SizeError
from ...working import Working
from ..dials import Dial
from ..machines import Machines
from . import relations
from .decisions import Patterns
from .engine import Engine, Ports
from .results import Cut, Spot
from .slant import Slanted

WALL, STUD_DEPTH = 2.5, 2.0
"""Wall of the chest, and a stud's depth, over its diameter; common practice."""

Worked = tuple[dict[str, Any], list[Working], list[Suggestion]]
NOTHING = (
    "port_cutter", "exhaust_cutter", "port_depth", "port_area", "corner_loss", "chest_along",
    "chest_across", "chest_metal", "chest_wall_metal",
)  # fmt: skip


def faced(patterns: Patterns, engine: Engine, machines: Machines, slant: Slanted | None) -> Worked:
    """Return the passes of the cutters and the studs; nothing where no face is milled.

    Raises
    ------
    SizeError : when a cutter does not go into its port.
    """
    ports, face = engine.ports, patterns.face
    if ports is None or slant is None:
        return dict.fromkeys(NOTHING), [], []
    owned = machines.mill.cutters
    usual = tuple(largest(owned, min(w, ports.length)) for w in (ports.width, ports.exhaust))
    steam = usual[0] if face.cutter is None else face.cutter
    exhaust = usual[1] if face.exhaust_cutter is None else face.exhaust_cutter
    for path, cutter, width, name in (
        ("face.cutter", steam, ports.width, "steam ports"),
        ("face.exhaust_cutter", exhaust, ports.exhaust, "exhaust port"),
    ):
        if cutter > min(width, ports.length) + 1e-9:
            raise SizeError(
                f"Cutter for the {name}, diameter: {cutter:g} mm does not go into "
                f"{min(width, ports.length):g} mm; that or less would do.", path,
            )  # fmt: skip
    dial = Dial(machines.mill.table, machines.mill.divisions)
    cuts = [
        *passes(
            "back steam port", -ports.middle, ports.width, ports.length, steam, face.edge, dial
        ),
        *passes("exhaust port", 0.0, ports.exhaust, ports.length, exhaust, face.edge, dial),
        *passes(
            "front steam port", ports.middle, ports.width, ports.length, steam, face.edge, dial
        ),
    ]
    area = relations.port_area.work(
        "Steam port with round corners", "mm2", w=ports.width, L=ports.length, d=steam
    )
    figures: dict[str, Any] = {
        "port_cutter": steam, "exhaust_cutter": exhaust, "port_depth": slant.port_depth,
        "port_area": area.result,
        "corner_loss": 100 * (1 - area.result / (ports.width * ports.length)),
        "cuts": tuple(cuts),
    }  # fmt: skip
    studs, taken = _studs(patterns, engine, ports, slant, dial)
    taken += [
        Suggestion("patterns.face.cutter", usual[0], "the largest owned that goes in"),
        Suggestion("patterns.face.exhaust_cutter", usual[1], "the largest owned that goes in"),
    ]
    return figures | studs, [area], taken


def largest(owned: tuple[float, ...], width: float) -> float:
    """Return the largest cutter owned that goes into a width, mm; one as wide if none does."""
    return max((one for one in owned if one <= width + 1e-9), default=width)


def passes(
    port: str, middle: float, width: float, length: float, cutter: float, edge: float, dial: Dial
) -> list[Cut]:
    """Return the passes that clear a port: along both flanks, and between them as is needed.

    Parameters
    ----------
    middle : of the port from the middle of the face, mm.
    edge : from where the dial along the cylinder counts to the middle of the face, mm.
    """
    free = width - cutter
    # neighbouring passes overlap by a tenth of the cutter at least
    number = 1 if free < 1e-9 else 1 + max(1, math.ceil(free / (0.9 * cutter) - 1e-9))
    reach = (length - cutter) / 2
    made = []
    for n in range(number):
        x = middle + (0.0 if number == 1 else free * (n / (number - 1) - 0.5))
        dials = (dial.text(edge + x), dial.text(-reach), dial.text(reach))
        made.append(Cut(port, x, reach, cutter, dials))
    return made


def _studs(
    patterns: Patterns, engine: Engine, ports: Ports, slant: Slanted, dial: Dial
) -> tuple[dict[str, Any], list[Suggestion]]:
    """Return the studs round the chest, and the metal that they keep."""
    decided = patterns.chest
    usual_stud = engine.screw
    stud = usual_stud if decided.stud is None else decided.stud
    length = engine.chest_length if decided.length is None else decided.length
    width = engine.chest_width if decided.width is None else decided.width
    if length <= 2 * ports.middle + ports.width or width <= ports.length:
        raise SizeError(
            f"Chest, inside along the cylinder: {length:g} by {width:g} mm does not hold the "
            f"ports; more than {2 * ports.middle + ports.width:.3g} by {ports.length:.3g} mm "
            "would do.", "chest.length",
        )  # fmt: skip
    usual_wall = WALL * stud if engine.chest_wall is None else engine.chest_wall
    wall = usual_wall if decided.wall is None else decided.wall
    depth = STUD_DEPTH * stud if decided.depth is None else decided.depth
    x, y = (length + wall) / 2, (width + wall) / 2
    many, few = engine.chest_studs
    many = many if decided.along is None else decided.along
    few = few if decided.across is None else decided.across
    along = [x * (2 * n / (many - 1) - 1) for n in range(many)]
    across = [y * (2 * n / (few - 1) - 1) for n in range(few)]
    places = [(u, v) for v in (-y, y) for u in along]
    places += [(u, v) for u in (-x, x) for v in across[1:-1]]
    spots = tuple(
        Spot(
            u, v, math.degrees(math.atan2(v, u)), (dial.text(patterns.face.edge + u), dial.text(v))
        )
        for u, v in places
    )
    figures = {
        "chest_along": 2 * x / (many - 1), "chest_across": 2 * y / (few - 1),
        "chest_wall_metal": (wall - stud) / 2,
        "chest_metal": _beside(places, stud, depth, slant, engine.hole),
        "studs": spots, "chest": (length, width, wall, stud),
    }  # fmt: skip
    return figures, [
        Suggestion("patterns.chest.length", round(engine.chest_length, 2), "what the valve needs"),
        Suggestion("patterns.chest.width", round(engine.chest_width, 2), "what the valve needs"),
        Suggestion("patterns.chest.wall", round(usual_wall, 2), "two and a half studs"),
        Suggestion("patterns.chest.stud", usual_stud, "as the cover's thread"),
        Suggestion("patterns.chest.along", engine.chest_studs[0], "the engine's"),
        Suggestion("patterns.chest.across", engine.chest_studs[1], "the engine's"),
        Suggestion("patterns.chest.depth", round(STUD_DEPTH * stud, 2), "two diameters"),
    ]


def _beside(
    places: list[tuple[float, float]], stud: float, depth: float, slant: Slanted, drill: float
) -> float | None:
    """Return the least metal between studs and the passages of both ends, None if none is near.

    Seen from above, over that part of a passage whose crown the studs reach down to.
    """
    limit = slant.face_height - depth - drill / 2
    least: float | None = None
    for way in slant.ways:
        (x0, y0), (x1, y1) = way.start, way.end
        if y1 <= limit:
            continue
        part = max((limit - y0) / (y1 - y0), 0.0)
        low = x0 + part * (x1 - x0)  # further from the port than this it lies too deep
        for u, v in places:
            at = min(max(abs(u), x1), low)
            gap = math.hypot(abs(u) - at, v - way.across) - (stud + drill) / 2
            least = gap if least is None else min(least, gap)
    return least
