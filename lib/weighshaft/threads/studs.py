"""The studs of a steam chest: load on one of them, tightness, and the metal left beside them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..findings import COMMON, Finding
from ..measures import BAR, INCH
from ..trade.materials import jointing, material
from ..trade.threads import Thread
from ..working import Working, relation
from . import strength
from .covers import SQUEEZE, Cover
from .decisions import ChestStuds, Threads
from .joints import Case, JointResult
from .proposals import cover_screw

MOST = 8.0
"""Studs apart, in diameters, at which a joint still keeps tight; common practice."""
LEAST_METAL = 0.5
"""Metal wanted between a stud's hole and another hole, in diameters of the stud; common
practice."""
LEAD = 3
"""Pitches that a tapped hole is drilled deeper than its thread; common practice."""
_NARROW = INCH / 4  # mm; ASME VIII-1, Appendix 2: below this the basic width is effective

Line = tuple[tuple[float, float, float], tuple[float, float, float]]
"""A hole's axis: ends along the cylinder from the middle of its barrel, up from the bore's axis
and across, mm."""


@relation(
    r"F_1", "ASME VIII-1, Appendix 2, operating, with the area and way round of an oblong joint",
    pressure="P", length="l", width="w", band="b", factor="m", number="n",
)  # fmt: skip
def stud_load_running(
    pressure: Any, length: Any, width: Any, band: Any, factor: Any, number: Any
) -> Any:
    """Return the load (N) on one stud that holds the steam and keeps the joint pressed.

    Parameters
    ----------
    pressure : N/mm².
    length, width : of the middle of the joint, mm; `band` its effective width, mm.
    factor : gasket factor; `number` of studs.
    """
    return (length * width + 4 * (length + width) * band * factor) * pressure / number


@relation(
    r"F_2", "ASME VIII-1, Appendix 2, seating, with the way round of an oblong joint",
    length="l", width="w", band="b", seating="y", number="n",
)  # fmt: skip
def stud_load_seating(length: Any, width: Any, band: Any, seating: Any, number: Any) -> Any:
    """Return the load (N) on one stud that seats the joint before there is steam."""
    return 2 * (length + width) * band * seating / number


@dataclass(frozen=True, kw_only=True)
class Chest:
    """The steam chest as far as its studs are concerned, mm.

    Parameters
    ----------
    length, width : inside; `line` from the inside of the wall to the studs' centres.
    places : studs along and across from the middle of the port face.
    spacing : widest between neighbours.
    face_height : of the port face over the bore's axis.
    thread : decided, None takes what is proposed; `decided` whether the number is the builder's.
    bore, barrel : of the cylinder.
    screws, circle, first : of a cylinder cover; the first screw's place, degrees.
    passages : axes of the passages of the front end; `hole` their diameter.
    """

    length: float
    width: float
    line: float
    places: tuple[tuple[float, float], ...]
    spacing: float
    face_height: float
    thread: str | None
    decided: bool
    bore: float
    barrel: float
    screws: int
    circle: float
    first: float
    passages: tuple[Line, ...]
    hole: float


@dataclass(frozen=True)
class StudLoad:
    """Load on one stud of a chest cover, N, what it comes from, and the thread proposed."""

    load: float
    ruling: str
    proposal: Thread | None
    workings: tuple[Working, ...]


@dataclass(frozen=True)
class Beside:
    """Least metal between the holes of studs and what else is in the block, mm."""

    screw: float
    passage: float
    bore: float
    depth: float


def stud_load(chest: Chest, decision: ChestStuds, major: float, pressure: float) -> StudLoad:
    """Return the load on one stud; `major` is over its thread (mm), `pressure` in bar."""
    packing, number = jointing(decision.jointing), float(len(chest.places))
    land = max(chest.line - major / 2, 0.0)
    basic = land / 2
    band = basic if basic <= _NARROW else 0.5 * math.sqrt(basic / INCH) * INCH
    size = {"length": chest.length + land, "width": chest.width + land, "band": band}
    running = stud_load_running.work(
        "Chest stud: load in steam", "N", pressure=pressure * BAR, factor=packing.factor,
        number=number, **size,
    )  # fmt: skip
    if not packing.seating:
        ruling = f"drawn up to {SQUEEZE:g} × the steam load"
        return StudLoad(SQUEEZE * running.result, ruling, None, (running,))
    other = stud_load_seating.work(
        "Chest stud: load that seats the joint", "N", seating=packing.seating, number=number, **size
    )
    ruling = "seating the joint" if other.result > running.result else "steam and joint"
    return StudLoad(max(running.result, other.result), ruling, None, (running, other))


def stud_case(
    chest: Chest, threads: Threads, cover: Cover, *, bore: float, pressure: float
) -> tuple[Case, tuple[Working, ...]]:
    """Return what a stud of the chest has to do, with its proposal, and the workings."""
    decision, steel = threads.chest, material(threads.chest.male)
    usual = 0.1 * bore if cover.one is None else cover.one.major

    def strong(one: Thread) -> bool:
        held = stud_load(chest, decision, one.major, pressure)
        alike = cover.one is None or one.major >= cover.one.major - 1e-6
        return alike and held.load / one.core_area <= steel.proof / strength.STEADY

    if cover.one is not None and strong(cover.one):
        proposal: Thread | None = cover.one
    else:
        proposal = cover_screw(bore, threads.preferred, strong)
    held = stud_load(chest, decision, proposal.major if proposal else usual, pressure)
    case = Case(
        "chest", "Steam-chest studs", decision, decision.male, chest.thread, decision.engagement,
        "cylinders.chest.stud_thread", "threads.chest.engagement", proposal,
        "as the cylinder's cover, or the next that is strong enough",
        f"one of {len(chest.places)} studs: {held.ruling}", strength.STEADY, load=held.load,
    )  # fmt: skip
    return case, held.workings


def beside(chest: Chest, stud: JointResult, screw: JointResult | None) -> Beside:
    """Return the metal left beside the tapped holes of the studs, in space.

    Parameters
    ----------
    stud, screw : the joints of chest and cylinder cover.
    """
    depth = stud.engagement + LEAD * stud.one.pitch
    top, radius = chest.face_height, stud.one.major / 2
    holes: list[Line] = [((x, top, z), (x, top - depth, z)) for x, z in chest.places]
    least = {"screw": math.inf, "passage": math.inf}
    ends = chest.barrel / 2
    screws: list[Line] = []
    if screw is not None:
        deep = screw.engagement + LEAD * screw.one.pitch
        for n in range(chest.screws):
            turn = math.radians(chest.first + 360 * n / chest.screws)
            up, across = chest.circle / 2 * math.sin(turn), chest.circle / 2 * math.cos(turn)
            screws += [((s * ends, up, across), (s * (ends - deep), up, across)) for s in (1, -1)]
    ways = [
        ((s * a[0], a[1], a[2]), (s * b[0], b[1], b[2])) for a, b in chest.passages for s in (1, -1)
    ]  # fmt: skip
    for one in holes:
        for other in screws:
            least["screw"] = min(least["screw"], apart(one, other))
        for way in ways:
            least["passage"] = min(least["passage"], apart(one, way))
    bored = min(
        math.hypot(top - depth, z) - radius - chest.bore / 2
        for x, z in chest.places if abs(x) < ends
    ) if any(abs(x) < ends for x, _ in chest.places) else math.inf  # fmt: skip
    half = 0.0 if screw is None else screw.one.major / 2
    return Beside(
        least["screw"] - radius - half, least["passage"] - radius - chest.hole / 2, bored, depth
    )


def apart(one: Line, other: Line) -> float:
    """Return the distance between two straight pieces in space, mm.

    Source: the least of a square over a square of two parameters; geometry.
    """
    p, q = (np.array(line[0]) for line in (one, other))
    u, v = np.array(one[1]) - p, np.array(other[1]) - q
    w = p - q
    a, b, c = float(u @ u), float(u @ v), float(v @ v)
    d, e = float(u @ w), float(v @ w)
    best = math.inf
    span = a * c - b * b
    tries: list[tuple[float, float]] = []
    if span > 1e-12 * a * c:
        tries.append(((b * e - c * d) / span, (a * e - b * d) / span))
    # where it is least on an edge of the square
    tries += [(s, (e + s * b) / c if c else 0.0) for s in (0.0, 1.0)]
    tries += [((t * b - d) / a if a else 0.0, t) for t in (0.0, 1.0)]
    for s, t in tries:
        inner = -1e-12 <= s <= 1 + 1e-12 and -1e-12 <= t <= 1 + 1e-12
        near, far = (s, t) if inner else (min(max(s, 0.0), 1.0), min(max(t, 0.0), 1.0))
        gap: NDArray[np.float64] = w + near * u - far * v
        best = min(best, float(np.linalg.norm(gap)))
    return best


def of_studs(chest: Chest, stud: JointResult, left: Beside) -> Iterator[Finding]:
    """Judge the spacing of the studs and the metal beside them."""
    fields = ("cylinders.chest.studs_along", "cylinders.chest.studs_across")
    one = stud.one
    corners = stud.across_flats * 2 / math.sqrt(3)
    if chest.spacing > MOST * one.major:
        yield Finding(
            "check", "threads", fields,
            f"Steam-chest studs: {chest.spacing:.1f} mm between studs of {one.major:.1f} mm lets "
            f"the cover lift between them; {MOST:g} diameters is the most.", "More studs.", COMMON,
        )  # fmt: skip
    elif chest.spacing < corners:
        yield Finding(
            "stop", "threads", fields,
            f"Steam-chest studs: nuts of {one.designation} stand {chest.spacing:.2f} mm apart and "
            f"are {corners:.2f} mm over the corners.", "Fewer studs.", "geometry",
        )  # fmt: skip
    else:
        yield Finding(
            "fine", "threads", fields,
            f"Steam-chest studs: {len(chest.places)} of {one.designation} stand "
            f"{chest.spacing:.1f} mm apart at most; {MOST:g} diameters keep a joint tight.",
            "", COMMON,
        )  # fmt: skip
    if chest.line - one.major / 2 < 0.3 * one.major:
        yield Finding(
            "check", "threads", ("cylinders.chest.stud_line", "cylinders.chest.wall"),
            f"Steam-chest studs: {chest.line - one.major / 2:.2f} mm of joint is left between the "
            "chest's inside and the studs.", "A thicker wall.", COMMON,
        )  # fmt: skip
    wanted = LEAST_METAL * one.major
    for what, metal in (
        ("a cover screw", left.screw), ("a steam passage", left.passage), ("the bore", left.bore),
    ):  # fmt: skip
        if metal >= wanted or math.isinf(metal):
            continue
        says = (
            f"A steam-chest stud tapped {left.depth:.2f} mm deep leaves {metal:.2f} mm of metal to "
            f"{what}; {wanted:.2f} mm is wanted."
            if metal > 0 else
            f"A steam-chest stud tapped {left.depth:.2f} mm deep runs {-metal:.2f} mm into {what}."
        )  # fmt: skip
        yield Finding(
            "stop" if metal <= 0 and chest.decided else "check", "threads",
            (*fields, "threads.chest.engagement"), says,
            "Another number of studs, a shorter thread, or the screws elsewhere.", "geometry",
        )  # fmt: skip
    found = [
        f"{metal:.2f} mm to {what}"
        for what, metal in (
            ("the cover screws", left.screw), ("the steam passages", left.passage),
            ("the bore", left.bore),
        )
        if not math.isinf(metal)
    ]  # fmt: skip
    if min(left.screw, left.passage, left.bore) >= wanted and found:
        yield Finding(
            "fine", "threads", fields,
            f"Steam-chest studs keep {', '.join(found)}.", "", "geometry",
        )  # fmt: skip
