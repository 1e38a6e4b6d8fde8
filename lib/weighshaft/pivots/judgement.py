"""What the chapter has to say: what may not move and why, limits passed, too small a budget."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..findings import Finding
from ..sizes import sizes_of
from .decisions import Pivots
from .fields import USUAL, field_of, idle, leaning, room
from .problem import Problem, named_of
from .results import Score

CHAPTER = "pivots"
_OFF, _ASKEW = 0.03, 1.0
"""From what error of rod, as a share of the crank throw, or return crank, in degrees, on
that is said (common practice)."""
_FEW = 100
"""Gears to try for each size that may move (common practice: a hundred or more)."""


def judge(pivots: Pivots, problem: Problem, present: Score, fixed: frozenset[str]) -> list[Finding]:
    """Return the findings on what is asked, and on the gear as it is."""
    found = [*_of_named(pivots, problem, fixed), *_of_present(pivots, problem, present)]
    if not problem.rooms and problem.gear.kind not in USUAL:
        found.append(_say("fine", ("motion.gear",), f"{problem.gear.title}: no pivots to search."))
    elif not problem.rooms:
        found.append(
            _say(
                "check", ("pivots.lengths", "pivots.angles"),
                "Nothing may move, so there is nothing to search.",
                "Name a length or an angle of this gear, or take the usual ones.",
            )
        )  # fmt: skip
    needed = _FEW * len(problem.rooms)
    if pivots.candidates < needed:
        found.append(
            Finding(
                "check", CHAPTER, ("pivots.candidates",),
                f"{pivots.candidates} gears are few for {len(problem.rooms)} sizes that may move.",
                f"{needed} or more find the best place more surely.",
                change=("pivots.candidates", float(needed)),
            )
        )  # fmt: skip
    if pivots.holding.least_gap is not None and problem.clear is None:
        found.append(
            _say("check", ("pivots.holding.least_gap",),
                 f"The gap of {pivots.holding.least_gap:g} mm is not looked at: nothing tells here "
                 "what the parts would foul.",
                 "Look at the clearances of the gear that is found.")
        )  # fmt: skip
    return found


def _of_named(pivots: Pivots, problem: Problem, fixed: frozenset[str]) -> Iterator[Finding]:
    """Judge what the builder named himself."""
    gear, seen = problem.gear, set[str]()
    unused = idle(gear)
    for path, named in named_of(pivots):
        field, name = field_of(named.name), (f"{path}.name",)
        if field in seen:
            yield _say("check", name, f"{named.name.capitalize()} is named twice; the last counts.")
        seen.add(field)
        about = sizes_of(type(gear)).get(field)
        known = room(gear, field, named.down, named.up)
        if about is None:
            yield _say("check", name, f"{gear.title} has no {named.name}; it is left out.",
                       "Name a size of this gear.")  # fmt: skip
        elif field in unused or known is None:
            yield _say(
                "check",
                name,
                f"{about.label}: without meaning in this gear as it stands; left out.",
            )
        elif f"motion.gear.{field}" in fixed:
            yield _say("check", (*name, f"motion.gear.{field}"),
                       f"{about.label} is settled by a bought part and does not move.")  # fmt: skip
        elif known.high - known.low < 1e-9:
            yield _say("check", (f"{path}.down", f"{path}.up"),
                       f"{about.label} may go neither down nor up; it stays at {known.now:g}.",
                       "Give it some room, or leave it out.")  # fmt: skip
        elif named.down and known.low > known.now - named.down + 1e-9:
            unit = "mm" if known.unit == "mm" else "°"
            yield _say(
                "fine", (f"{path}.down",),
                f"{about.label} could not become {named.down:g} {unit} less than "
                f"{known.now:g}; it is taken down to {known.low:.2f} {unit} at most.",
            )  # fmt: skip


def _of_present(pivots: Pivots, problem: Problem, present: Score) -> Iterator[Finding]:
    """Judge the gear as it is."""
    if not math.isfinite(present.total):
        yield _say("check", ("motion.gear",),
                   "The gear as it is locks in a notch that counts; the search looks for one that "
                   "does not.")  # fmt: skip
        return
    yield from _of_upright(problem)
    limits = problem.limits
    for broken in present.broken:
        field, says = {
            "angle of transmission": (
                "margin",
                f"sine {present.margin:.2f} at a joint where {limits.margin:.2f} is asked",
            ),
            "swing of the link": (
                "swing",
                f"{present.swing or 0:.0f}° of swing where {limits.swing:.0f}° is allowed",
            ),
            "die in its slot": (
                "die_in_slot",
                f"the die goes {present.reach or 0:.2f} mm from the middle of a slot that has "
                f"{limits.reach:.2f} mm either way",
            ),
            "gap": ("least_gap", f"less than {limits.gap:g} mm between moving parts"),
            "openings": ("margin", "a port opens twice in a turn"),
        }[broken]
        yield _say("check", (f"pivots.holding.{field}",),
                   f"The gear as it is breaks what must hold: {says}.",
                   "The search looks only for gears that keep it.")  # fmt: skip
    worst = max(present.parts, key=lambda one: one.faults, default=None)
    if worst is not None:
        yield _say(
            "fine", ("motion.gear",),
            f"The gear as it is scores {present.total:.2f} faults; most of it is "
            f"“{worst.label.lower()}”: {worst.figure:.2f} {worst.unit} on the average "
            f"of the notches, where {worst.counts:.2g} {worst.unit} count as one.",
        )  # fmt: skip


def _of_upright(problem: Problem) -> Iterator[Finding]:
    """Judge a link that rod and return crank leave leaning, since the search leaves it so."""
    if not problem.follows:
        return
    rod, angle = leaning(problem.gear)
    if abs(rod) > _OFF * problem.crank.throw or abs(angle) > _ASKEW:
        yield _say(
            "check",
            ("motion.gear.eccentric_rod", "motion.gear.return_crank_angle"),
            f"At the dead centres the link does not stand upright: the eccentric rod is off by "
            f"{abs(rod):.2f} mm and the return crank by {abs(angle):.1f}°, and the search leaves "
            "it so.",
            "Set rod and return crank for an upright link first, or name both as sizes that may "
            "move.",
        )


def _say(level: str, fields: tuple[str, ...], says: str, mend: str = "") -> Finding:
    return Finding(level, CHAPTER, fields, says, mend)  # type: ignore[arg-type]
