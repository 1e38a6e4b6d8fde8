"""Screws, nuts and threads of the engine, and what drills, taps, dies and reamers they need."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable

from ..design.document import Design
from ..design.sentences import in_unit
from ..design.typed import LengthUnit, spell
from ..frames.bores import bores_of
from ..frames.whole import Whole
from ..job import Work
from ..threads.decisions import Rack
from ..threads.joints import JointResult
from ..trade.drills import SETS, Drill, NoDrill, at_or_above, at_or_below, drills
from ..trade.drills import owned as single
from ..workshop.machines import Owned, near_reamer, owned
from .blocks import Block, Grid

_UNDER = 0.15
"""What a reamer takes of the hole drilled before it, mm on diameter; common practice."""
_OVER = 0.6
"""More than that (mm) is no reamer's work: the hole is bored first; common practice."""
YOURS, TO_GET = Owned(True).says, Owned(False).says
Use = Callable[[Drill, str], None]
"""Notes a drill and what it is for."""


def tools(design: Design, work: Work, unit: LengthUnit) -> list[Block]:
    """Return the tables of threads, screws and tools; empty where the threads cannot be worked."""
    made: list[Block] = []
    if work.threads is not None:
        made += [_threads(design, work, unit), _screws(design, work, unit)]
    made.append(_drills(design, work))
    whole = getattr(work.frames, "whole", None)
    if whole is not None:
        made.append(_reamers(whole, design.threads.rack, design.machines.tools.reamers, unit))
    if work.threads is not None:
        made.append(_spanners(work.threads.joints, unit))
    return made


def _mm(value: float, unit: LengthUnit) -> str:
    return f"{spell(value, unit)} {unit}"


def _number(joint: JointResult, design: Design, work: Work) -> str:
    cylinders = design.cylinders.number
    if joint.key == "covers":
        return str(2 * cylinders * work.threads.cover.number)
    if joint.key == "chest":
        chest = work.cylinders.chest
        return str(cylinders * len(chest.studs))
    if joint.key in ("steam", "exhaust", "nozzle"):
        return "1 or more"
    return str(cylinders)


def _threads(design: Design, work: Work, unit: LengthUnit) -> Grid:
    grouped: dict[str, list[JointResult]] = defaultdict(list)
    for joint in work.threads.joints:
        grouped[joint.one.designation].append(joint)
    rows = []
    owns = design.machines.tools
    told = bool(owns.taps or owns.dies)
    for name, joints in grouped.items():
        one = joints[0].one
        cut = any(
            joint.key not in ("covers", "chest") for joint in joints
        )  # screws have their thread on
        have = (
            owned(one, owns.taps).says,
            owned(one, owns.dies).says if cut else "none needed",
        )
        taps = {f"{j.drill.name} ({j.depth:.0f} %)" for j in joints}
        clear = {j.clear.name for j in joints if j.clear is not None}
        rows.append(
            (
                name, "; ".join(j.name for j in joints), spell(one.pitch, unit, 4),
                ", ".join(sorted(taps)), ", ".join(sorted(clear)) or "none",
                *(have if told else ()),
            )
        )  # fmt: skip
    return Grid(
        "Threads: a die, a taper and a plug tap of each",
        (
            "thread",
            "for",
            f"pitch, {unit}",
            "tapping drill (depth)",
            "clearance drill",
            *(("tap", "die") if told else ()),
        ),
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
    uses: dict[Drill, list[str]] = defaultdict(list)

    def use(one: Drill, what: str) -> None:
        if what not in uses[one]:
            uses[one].append(what)

    rack = design.threads.rack
    if work.threads is not None:
        for joint in work.threads.joints:
            use(joint.drill, f"tapping {joint.one.designation}")
            if joint.clear is not None and not joint.hole:
                use(joint.clear, f"clearing {joint.one.designation}")
            if joint.hole:
                _add(use, joint.hole, design, f"hole through: {joint.name.lower()}")
    if work.slots is not None:
        use(single(work.slots.drill_name), "waste of the link's slot")
    _add(use, design.nozzle.diameter, design, "blast nozzle")
    whole = getattr(work.frames, "whole", None)
    if whole is not None:
        for bore, what in bores_of(whole).items():
            _add(use, bore - _UNDER, design, f"before reaming: {', '.join(what)}", below=True)
    have = set(drills(rack.sets))
    told = bool(rack.singles) or not rack.whole
    rows = (
        (
            one.name, "; ".join(what),
            *((YOURS if one in have else TO_GET,) if told else ()),
        )
        for one, what in sorted(uses.items(), key=lambda pair: (pair[0].diameter, pair[0].name))
    )  # fmt: skip
    return Grid(
        "Drills",
        ("drill", "for", *(("drill is there",) if told else ())),
        tuple(rows),
        "From the sets and the single drills in the rack"
        + ("; where none is near, what can be bought." if told else "."),
    )


def _add(use: Use, diameter: float, design: Design, what: str, below: bool = False) -> None:
    """Note the drill for a hole: one of those owned, else of those that can be bought."""
    for sets in (design.threads.rack.sets, SETS):
        try:
            one = (at_or_below if below else at_or_above)(
                diameter + (1e-6 if below else -1e-6), sets
            )
        except NoDrill:
            continue
        # a bore far beyond the largest drill is turned
        if abs(one.diameter - diameter) < 0.5:
            use(one, what)
            return


def _under(bore: float, sets: Iterable[str]) -> Drill | None:
    """Return the drill that leaves enough for a reamer and not too much; None where none does."""
    try:
        first = at_or_below(bore - _UNDER, tuple(sets))
    except NoDrill:
        return None
    return first if bore - first.diameter < _OVER else None


def _reamers(whole: Whole, rack: Rack, reamers: tuple[float, ...], unit: LengthUnit) -> Grid:
    rows = []
    for bore, what in bores_of(whole).items():
        first = _under(bore, rack.sets) or _under(bore, SETS)
        drill = in_unit("bored to within 0.2 mm", unit) if first is None else first.name
        there, nearest = near_reamer(bore, reamers)
        have = YOURS if there else f"{TO_GET}; nearest {_mm(nearest or 0.0, unit)}"
        rows.append(
            (_mm(bore, unit), ", ".join(what), drill, *((have,) if there is not None else ()))
        )
    return Grid(
        "Reamers",
        ("finished", "in", "drilled before", *(("reamer",) if reamers else ())),
        tuple(rows),
        in_unit(f"The drill leaves {_UNDER:g} mm", unit) + " or a little more on diameter (common "
        "practice). Wheels and large bores are better bored; running clearance as each chapter "
        "has it.",
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
