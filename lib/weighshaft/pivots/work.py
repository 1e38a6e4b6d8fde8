"""The chapter worked: the present gear judged, and what may move; the search is another matter."""

from __future__ import annotations

import math
from typing import Any

from ..findings import Suggestion, by_level, still_open, unlocked
from ..motion import AnyGear, Crank, SlideValve, ValveSetting, Wanted
from ..working import Working, relation, sqrt
from .decisions import Pivots
from .judgement import judge
from .problem import Clear, Problem, posed
from .results import PivotsResult, Score, scored


@relation(
    "S", "root of the sum of squares of the faults, each in its own unit (common practice)",
    forward=r"c_\mathrm{f}", backward=r"c_\mathrm{b}", lead=r"\ell", change=r"\Delta\ell",
    slip="s", opening="o", release="r", compression="k", kept=r"c_\mathrm{w}",
    lead_kept=r"\ell_\mathrm{w}",
)  # fmt: skip
def score_of_parts(
    forward: Any, backward: Any, lead: Any, change: Any, slip: Any, opening: Any, release: Any,
    compression: Any, kept: Any, lead_kept: Any,
) -> Any:  # fmt: skip
    """Score from the faults of its parts: cut-offs, leads, slip, opening, exhaust, what is kept."""
    return sqrt(
        forward**2 + backward**2 + lead**2 + change**2 + slip**2 + opening**2 + release**2
        + compression**2 + kept**2 + lead_kept**2
    )  # fmt: skip


_ARGUMENTS = {
    "cutoff_forward": "forward", "cutoff_backward": "backward", "lead": "lead",
    "lead_change": "change", "die_slip": "slip", "opening": "opening", "release": "release",
    "compression": "compression", "cutoff_kept": "kept", "lead_kept": "lead_kept",
}  # fmt: skip


def work(
    pivots: Pivots,
    *,
    gear: AnyGear,
    crank: Crank,
    valve: SlideValve,
    setting: ValveSetting,
    wanted: Wanted,
    fixed: frozenset[str] = frozenset(),
    clear: Clear | None = None,
) -> PivotsResult:
    """Work the chapter without searching.

    Parameters
    ----------
    gear, crank, valve, setting, wanted : as in the chapter on valves and motion.
    fixed : paths of sizes that a bought part has settled; they do not move.
    clear : finds the least gap of candidates; None where nothing does.
    """
    problem = posed(
        pivots, gear=gear, crank=crank, valve=valve, setting=setting, wanted=wanted, fixed=fixed,
        clear=clear,
    )  # fmt: skip
    present = scored(problem, gear)
    parts = {one.name: one for one in present.parts}

    def most(name: str) -> float | None:
        if name not in parts or not math.isfinite(present.total):
            return None
        faults = [abs(one) for one in parts[name].notches if one is not None]
        return max(faults, default=None)

    return PivotsResult(
        score=present.total if math.isfinite(present.total) else None,
        apart_forward=most("cutoff_forward"), apart_backward=most("cutoff_backward"),
        lead_apart=most("lead"), die_slip=most("die_slip"), least_margin=present.margin,
        moving=len(problem.rooms), present=present, rooms=problem.rooms, problem=problem,
        workings=_workings(present),
        suggestions=still_open(_suggested(pivots, problem), fixed),
        findings=by_level(unlocked(judge(pivots, problem, present, fixed), fixed)),
    )  # fmt: skip


def _workings(present: Score) -> tuple[Working, ...]:
    if not math.isfinite(present.total):
        return ()
    faults = {one.name: one.faults for one in present.parts}
    values = {argument: faults.get(name, 0.0) for name, argument in _ARGUMENTS.items()}
    return (score_of_parts.work("Score of the present gear", "ratio", **values),)


_RULES = {
    "lead": "4 % of the port", "lead_change": "15 % of the port", "die_slip": "5 % of the stroke",
    "opening": "5 % of the port", "lead_kept": "4 % of the port",
}  # fmt: skip


def _suggested(pivots: Pivots, problem: Problem) -> list[Suggestion]:
    """Return what is taken for what is left empty."""
    units, limits = dict(problem.units), problem.limits
    found = [
        Suggestion(f"pivots.counting.{name}", units[name], why)
        for name, why in _RULES.items()
        if getattr(pivots.counting, name) is None
    ]
    if pivots.holding.margin is None:
        found.append(
            Suggestion("pivots.holding.margin", limits.margin, "40 degrees, or what it has now")
        )
    if pivots.holding.swing is None and any(map(_has_link, problem.gear.parts)):
        found.append(
            Suggestion("pivots.holding.swing", limits.swing, "25 degrees each way, or as it is now")
        )
    return found


def _has_link(part: Any) -> bool:
    return bool(part.name == "link")
