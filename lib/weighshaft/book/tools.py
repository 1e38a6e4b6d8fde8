"""Screws, nuts and threads of the engine, and what drills, taps, dies and reamers they need."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable

from ..design.document import Design
from ..design.typed import LengthUnit, spell
from ..frames.solids import Bar
from ..frames.whole import Whole
from ..job import Work
from ..threads.joints import JointResult
from ..trade.drills import NoDrill, at_or_above, at_or_below
from .blocks import Block, Grid

_UNDER = 0.15
"""What a reamer takes of the hole drilled before it, mm on diameter; common practice."""
Use = Callable[[float, str, str], None]
"""Notes a drill: diameter, name and what it is for."""


def tools(design: Design, work: Work, unit: LengthUnit) -> list[Block]:
    """Return the tables of threads, screws and tools; empty where the threads cannot be worked."""
    made: list[Block] = []
    if work.threads is not None:
        made += [_threads(design, work, unit), _screws(design, work, unit)]
    made.append(_drills(design, work))
    whole = getattr(work.frames, "whole", None)
    if whole is not None:
        made.append(_reamers(whole, design.threads.rack.sets, unit))
    if work.threads is not None:
        made.append(_spanners(work.threads.joints, unit))
    return made


def _mm(value: float, unit: LengthUnit) -> str:
    return f"{spell(value, unit)} {unit}"


def _number(joint: JointResult, design: Design, work: Work) -> str:
    cylinders = design.cylinders.number
    if joint.key == "covers":
        return str(2 * cylinders * work.threads.cover.number)
    if joint.key in ("steam", "exhaust", "nozzle"):
        return "1 or more"
    return str(cylinders)


def _threads(design: Design, work: Work, unit: LengthUnit) -> Grid:
    grouped: dict[str, list[JointResult]] = defaultdict(list)
    for joint in work.threads.joints:
        grouped[joint.one.designation].append(joint)
    rows = []
    for name, joints in grouped.items():
        one = joints[0].one
        taps = {f"{j.drill.name} ({j.depth:.0f} %)" for j in joints}
        clear = {j.clear.name for j in joints if j.clear is not None}
        rows.append(
            (
                name, "; ".join(j.name for j in joints), spell(one.pitch, unit, 4),
                ", ".join(sorted(taps)), ", ".join(sorted(clear)) or "none",
            )
        )  # fmt: skip
    return Grid(
        "Threads: a die, a taper and a plug tap of each",
        ("thread", "for", f"pitch, {unit}", "tapping drill (depth)", "clearance drill"),
        tuple(rows),
        "Depth of thread as the chapter on threads counts it. What is bought with its thread on "
        "needs no die.",
    )


def _screws(design: Design, work: Work, unit: LengthUnit) -> Grid:
    rows = tuple(
        (
            joint.name, joint.one.designation, _number(joint, design, work),
            spell(joint.engagement, unit), spell(joint.across_flats, unit),
            spell(joint.nut, unit),
            "proposed" if joint.proposed else "decided",
        )
        for joint in work.threads.joints
    )  # fmt: skip
    return Grid(
        "Screws, nuts and threaded parts",
        (
            "joint",
            "thread",
            "number",
            f"engaged, {unit}",
            f"hexagon, {unit}",
            f"nut, {unit}",
            "thread is",
        ),
        rows,
        "The length engaged comes on top of what lies under the head or nut. Screws of frames, "
        "stays and platework are not decided in this design: they come on top.",
    )


def _drills(design: Design, work: Work) -> Grid:
    uses: dict[tuple[float, str], list[str]] = defaultdict(list)

    def use(diameter: float, name: str, what: str) -> None:
        if what not in uses[diameter, name]:
            uses[diameter, name].append(what)

    if work.threads is not None:
        for joint in work.threads.joints:
            use(joint.drill.diameter, joint.drill.name, f"tapping {joint.one.designation}")
            if joint.clear is not None and not joint.hole:
                use(joint.clear.diameter, joint.clear.name, f"clearing {joint.one.designation}")
            if joint.hole:
                _add(use, joint.hole, design, f"hole through: {joint.name.lower()}")
    if work.slots is not None:
        use(work.slots.drill, work.slots.drill_name, "waste of the link's slot")
    _add(use, design.nozzle.diameter, design, "blast nozzle")
    whole = getattr(work.frames, "whole", None)
    if whole is not None:
        for bore, what in _bores(whole).items():
            _add(use, bore - _UNDER, design, f"before reaming: {', '.join(what)}", below=True)
    return Grid(
        "Drills",
        ("drill", "for"),
        tuple((name, "; ".join(what)) for (_, name), what in sorted(uses.items())),
        "From the sets in the rack.",
    )


def _add(use: Use, diameter: float, design: Design, what: str, below: bool = False) -> None:
    sets = design.threads.rack.sets
    try:
        found = (at_or_below if below else at_or_above)(diameter - (0 if below else 1e-6), sets)
    except NoDrill:
        return
    # a bore far beyond the largest drill is turned
    if abs(found.diameter - diameter) < 0.5:
        use(found.diameter, found.name, what)


def _bores(whole: Whole) -> dict[float, list[str]]:
    """Return the bores of eyes, wheels and sheaves with what they are in, the smallest first."""
    found: dict[float, list[str]] = defaultdict(list)
    for part in whole.parts:
        for one in part.solids:
            if isinstance(one, Bar) and one.bore and part.name not in found[round(one.bore, 3)]:
                found[round(one.bore, 3)].append(part.name)
    return dict(sorted((bore, what) for bore, what in found.items() if what))


def _reamers(whole: Whole, sets: Iterable[str], unit: LengthUnit) -> Grid:
    sets = tuple(sets)
    rows = []
    for bore, what in _bores(whole).items():
        try:
            first = at_or_below(bore - _UNDER, sets)
        except NoDrill:
            continue
        drill = first.name if bore - first.diameter < 0.6 else "bored to within 0.2 mm"
        rows.append((_mm(bore, unit), ", ".join(what), drill))
    return Grid(
        "Reamers",
        ("finished", "in", "drilled before"),
        tuple(rows),
        f"The drill leaves {_UNDER:g} mm or a little more on diameter (common practice). Wheels "
        "and large bores are better bored; running clearance as each chapter has it.",
    )


def _spanners(joints: Iterable[JointResult], unit: LengthUnit) -> Grid:
    flats: dict[float, list[str]] = defaultdict(list)
    for joint in joints:
        flats[round(joint.across_flats, 3)].append(joint.name)
    return Grid(
        "Spanners",
        ("across flats", "for"),
        tuple((_mm(size, unit), "; ".join(names)) for size, names in sorted(flats.items())),
    )
