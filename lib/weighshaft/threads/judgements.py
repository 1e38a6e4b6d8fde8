"""What there is to say of the joints, the cover and the connector, in the builder's words."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..findings import COMMON, Finding, Level
from ..measures import THOU
from ..trade.drills import drills
from ..trade.materials import sealing
from ..trade.threads import Thread
from .connector import ConnectorFit
from .covers import Cover
from .decisions import Connection, CoverScrews, Threads
from .joints import Case, JointResult
from .proposals import next_larger, usual_screw_circle
from .tapping import Tapping

_THIN = 0.35  # mm; a wall that a tap or a spanner breaks
_SOLDER = "soft solder"


def _finding(
    level: Level,
    path: str,
    says: str,
    mend: str = "",
    source: str = COMMON,
    change: tuple[str, float | str] | None = None,
) -> Finding:
    return Finding(level, "threads", (path,), says, mend, source, change)


def of_bench(tapping: Tapping, one: Thread) -> Iterator[Finding]:
    """Judge the tapping drill of the thread on the bench."""
    says = (
        f"{one.designation} in {tapping.material}: {tapping.drill.name} gives "
        f"{tapping.depth:.0f} % of thread ({tapping.convention}) where {tapping.wanted:.0f} % "
        f"was wanted."
    )
    full = dict(tapping.reached).get("basic height", tapping.depth)
    if full > 100.5 or tapping.drill.diameter < one.minor_internal - 0.005:
        yield _finding(
            "check", "threads.depth",
            f"{says} That hole is under the bore of full form, {one.minor_internal:.2f} mm: "
            "the tap will bind.",
            "Ask for less depth: the usual for the metal is ample.",
        )  # fmt: skip
    elif tapping.depth < tapping.wanted - 12:
        yield _finding(
            "check", "threads.depth", f"{says} The sets have no nearer drill.",
            f"The next drill below is {tapping.tighter.name}, {tapping.tighter_reached:.0f} %."
            if tapping.tighter else "Another set of drills would have one.",
        )  # fmt: skip
    else:
        yield _finding("fine", "threads.depth", says)


def of_missing(case: Case) -> Finding:
    """Say that no thread of the tables will do for a joint."""
    if case.carrier is not None:
        why = f"no thread goes on a rod of {case.carrier:.2f} mm"
    else:
        why = f"no thread leaves {case.wall_wanted:.2f} mm round a hole of {case.hole:.2f} mm"
    return _finding(
        "check", case.thread_at, f"{case.name}: {why} in the tables.",
        "Choose one, a larger rod or a smaller hole, or a flange with screws.",
    )  # fmt: skip


def of_drill(joint: JointResult, sets: tuple[str, ...]) -> Iterator[Finding]:
    """Say that the tapping drill of a joint is not among the drills that are there."""
    if joint.drill not in drills(sets):
        yield _finding(
            "check", "threads.rack",
            f"{joint.name}: no drill of those owned taps {joint.one.designation}; "
            f"{joint.drill.name} gives {joint.depth:.0f} % of thread.",
            f"Buy or borrow a drill of {joint.drill.name}.", "the drills in the rack",
        )  # fmt: skip


def of_joint(case: Case, joint: JointResult) -> Iterator[Finding]:
    """Judge one joint: its rod, core, threads, engagement, wall and what seals it."""
    path, one, found = case.thread_at, joint.one, []
    if case.carrier is not None and one.major > case.carrier + 0.05:
        fits = case.proposal.designation if case.proposal else ""
        found.append(
            _finding(
                "stop", path, f"{joint.name}: {one.designation} is {one.major:.2f} mm over the "
                f"tops and the rod only {case.carrier:.2f} mm.",
                f"{fits} is the largest that it carries." if fits else "A larger rod.",
                change=(path, fits) if fits else None,
            )
        )  # fmt: skip
    found += _of_core(case, joint)
    found += _of_engagement(case, joint)
    if joint.hole:
        found += _of_wall(case, joint)
    if isinstance(case.decision, Connection):
        found += _of_heat(case.key, joint.name, case.decision)
    if case.male == case.decision.female == "stainless steel":
        found.append(
            _finding(
                "check", f"threads.{case.key}.female",
                f"{joint.name}: stainless steel in stainless "
                "steel seizes when it is screwed up dry.", "Grease it, or change one metal.",
            )
        )  # fmt: skip
    if found:
        yield from found
        return
    wall = f", {joint.wall:.2f} mm of wall" if joint.hole else ""
    yield _finding(
        "fine", path, f"{joint.name}: {one.designation} carries {joint.load:.0f} N at "
        f"{joint.stress:.1f} N/mm² in the core{wall}; {joint.engagement:.1f} mm engaged, "
        f"{joint.needed:.1f} mm needed for the load.",
    )  # fmt: skip


def _of_core(case: Case, joint: JointResult) -> Iterator[Finding]:
    if joint.stress <= joint.stress_allowed:
        return
    larger = next_larger(joint.one)
    if isinstance(case.decision, CoverScrews) and case.proposal:
        larger = case.proposal  # the smallest that is strong enough
    if case.carrier is not None and larger and larger.major > case.carrier + 0.02:
        larger = None
    kind = "push and pull" if joint.safety > 3 else "steady load"
    yield _finding(
        "stop" if joint.stress > 2 * joint.stress_allowed else "check", case.thread_at,
        f"{joint.name}: {joint.load:.0f} N is {joint.stress:.0f} N/mm² in the core of "
        f"{joint.one.designation}; {joint.stress_allowed:.0f} N/mm² is usual for "
        f"{case.male} under a {kind}.",
        f"{larger.designation} would do." if larger else "A larger rod or more screws.",
        change=(case.thread_at, larger.designation) if larger else None,
    )  # fmt: skip


def _of_engagement(case: Case, joint: JointResult) -> Iterator[Finding]:
    if not joint.engagement_given:
        return
    path = case.engaged_at
    # screwing the piston rod further in would move the piston, which the cylinders judge
    change = (path, joint.usual) if path.startswith("threads.") else None
    if joint.engagement < joint.needed - 1e-9:
        yield _finding(
            "stop", path, f"{joint.name}: {joint.engagement:.1f} mm of thread would strip; the "
            f"load of {joint.load:.0f} N needs {joint.needed:.1f} mm.",
            f"{joint.usual:.1f} mm is usual.", "FED-STD-H28; safety as in common practice", change,
        )  # fmt: skip
    elif joint.engagement < 0.8 * min(joint.usual, joint.full):
        yield _finding(
            "check", path, f"{joint.name}: {joint.engagement:.1f} mm of thread holds the load, but "
            f"strips before the {joint.one.designation} breaks, which takes {joint.full:.1f} mm.",
            f"{joint.usual:.1f} mm is usual.", change=change,
        )  # fmt: skip


def _of_wall(case: Case, joint: JointResult) -> Iterator[Finding]:
    if joint.wall >= joint.wall_wanted - 1e-9:
        return
    path = case.thread_at
    better = case.proposal.designation if case.proposal and not joint.proposed else ""
    mend = f"{better} leaves enough" if better else "A larger thread"
    says = (
        f"{joint.name}: a hole of {joint.hole:.2f} mm through {joint.one.designation} leaves "
        f"{joint.wall:.2f} mm of wall; {joint.wall_wanted:.2f} mm is usual."
        if joint.wall > 0
        else f"{joint.name}: a hole of {joint.hole:.2f} mm goes through the roots of "
        f"{joint.one.designation}, whose core is {joint.one.minor:.2f} mm."
    )
    yield _finding(
        "stop" if joint.wall < _THIN else "check", path, says,
        f"{mend}, or a hole of {max(0.0, joint.one.minor - 2 * joint.wall_wanted):.1f} mm.",
        change=(path, better) if better else None,
    )  # fmt: skip


def _of_heat(key: str, name: str, decision: Connection) -> Iterator[Finding]:
    seal = sealing(decision.sealing)
    if decision.temperature <= seal.limit:
        return
    yield _finding(
        "stop" if seal.name == _SOLDER else "check", f"threads.{key}.sealing",
        f"{name}: {seal.name} serves to {seal.limit:.0f} °C and it gets "
        f"{decision.temperature:.0f} °C hot there ({seal.note}).",
        "A copper washer, or silver solder where it need not come apart.", seal.source,
    )  # fmt: skip


def of_cover(found: Cover, bore: float) -> Iterator[Finding]:
    """Judge the spacing of the cover screws and the joint between them and the bore."""
    if found.one is None:
        yield _finding(
            "stop", "cylinders.covers.screws",
            f"Cylinder-cover screws: {found.number} screws cannot hold "
            f"{found.load:.0f} N each with any thread of the tables.", "More screws.",
        )  # fmt: skip
        return
    major, name = found.one.major, found.one.designation
    usual = usual_screw_circle(bore, major)
    if found.land < 0.3 * major:
        yield _finding(
            "stop" if found.land <= 0.3 else "check", "cylinders.covers.screw_circle",
            f"Cylinder-cover screws: {found.land:.2f} mm is left between the bore and the holes "
            f"for {name} on a screw circle of {found.screw_circle:.2f} mm.",
            f"A screw circle of {usual:g} mm leaves about a diameter.",
            change=("cylinders.covers.screw_circle", usual),
        )  # fmt: skip
    if found.spacing < found.across_corners:
        fewer = math.floor(math.pi * found.screw_circle / (found.across_corners + 0.3))
        yield _finding(
            "stop", "cylinders.covers.screws",
            f"Cylinder-cover screws: {found.number} heads of {name} foul; "
            f"they stand {found.spacing:.2f} mm apart and are {found.across_corners:.2f} mm over "
            "the corners.", f"{fewer} would fit, or screws with smaller heads.",
        )  # fmt: skip
    elif found.spacing > 8 * major:
        yield _finding(
            "check", "cylinders.covers.screws",
            f"Cylinder-cover screws: {found.spacing:.1f} mm between "
            f"screws of {major:.1f} mm lets the cover lift between them; 8 diameters is the most.",
            "More screws.",
        )  # fmt: skip


def of_connector(threads: Threads, found: ConnectorFit) -> Iterator[Finding]:
    """Judge the connector between two ports, once its distance or length is decided."""
    decided = threads.connector
    if decided.distance is None and decided.length is None:
        return
    thou = found.half_pitch / THOU
    if found.misfit is None:
        yield _finding(
            "check", "threads.connector.start",
            f"Where {found.thread_b.designation} comes up tight is not "
            f"known, so the connector may be out by half a pitch, {found.half_pitch:.3f} mm "
            f"({thou:.1f} thou).",
            "Measure the connector and the turn still to go; or make a joint that can be turned.",
        )  # fmt: skip
        return
    if abs(found.misfit) > found.slack:
        yield _finding(
            "check" if found.change_per_turn else "stop", "threads.connector.distance",
            f"The ports stand {abs(found.misfit):.3f} mm ({abs(found.misfit) / THOU:.1f} thou) "
            f"{'further apart' if found.misfit > 0 else 'closer'} than a place that fits; the "
            f"slack of the threads swallows {found.slack:.3f} mm. Skimming a shoulder does not "
            "change it.",
            "A shim behind one port, or a joint that can be turned.", "geometry of the screw",
            ("threads.connector.distance", round(found.places[1], 3)),
        )  # fmt: skip
    else:
        yield _finding(
            "fine", "threads.connector.distance",
            f"The ports stand {abs(found.misfit):.3f} mm from a "
            f"place that fits; the slack of the threads swallows {found.slack:.3f} mm.",
        )  # fmt: skip
    if found.gap is not None and found.gap < -1e-6:
        yield _finding(
            "check", "threads.connector.length", f"The shoulder at end B comes up "
            f"{-found.gap:.3f} mm early.", f"Skim {-found.gap:.3f} mm off it, or use a lock nut.",
            "geometry of the screw",
        )  # fmt: skip
    elif found.gap is not None and found.gap > 1e-6:
        yield _finding(
            "check", "threads.connector.length",
            f"The shoulder at end B stands {found.gap:.3f} mm short "
            "of its face where the ports fit.", "A washer of that thickness, or a lock nut.",
            "geometry of the screw",
        )  # fmt: skip
