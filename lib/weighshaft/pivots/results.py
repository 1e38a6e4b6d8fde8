"""What the chapter works out: scores with their parts, what a search found, and a map."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from ..findings import Finding, Suggestion
from ..motion import AnyGear
from ..motion.frame import Array
from ..sizes import figure
from ..working import Working
from .fields import Room
from .objective import LIMITS, PARTS, has_a_say, judged, weighed
from .problem import Problem


@dataclass(frozen=True)
class Part:
    """One part of a score.

    Parameters
    ----------
    unit : of `figure` and of the faults in the notches, "%" of the stroke or "mm".
    figure : root of the mean square of the fault over the notches that it concerns.
    counts : so much of it counts as one.
    notches : (m) the fault in each notch, front less back where ends differ; None where it
        has no say.
    """

    name: str
    label: str
    unit: str
    figure: float
    counts: float
    notches: tuple[float | None, ...]

    @property
    def faults(self) -> float:
        """What the part adds to the score, as the root of a sum of squares."""
        return self.figure / self.counts


@dataclass(frozen=True)
class Score:
    """A gear judged.

    Parameters
    ----------
    total : root of the sum of the squares of the parts' faults; infinite where it locks.
    apart : (m) cut-off of the front less that of the back, % of the stroke; None where an end
        does not cut off.
    margin : least sine of an angle of transmission, in the notches that count.
    swing : of the link in full gear, degrees; None without one.
    reach : of the die from the middle of its slot, mm; None without one.
    broken : limits that are passed, in words.
    """

    total: float
    parts: tuple[Part, ...]
    apart: tuple[float | None, ...]
    margin: float
    swing: float | None
    reach: float | None
    broken: tuple[str, ...]

    @property
    def sound(self) -> bool:
        """Whether the gear turns and keeps every limit."""
        return not self.broken and np.isfinite(self.total).item()


def known(row: Array) -> tuple[float | None, ...]:
    """Return a row as plain numbers, None where there is none."""
    return tuple(float(one) if np.isfinite(one) else None for one in row)


def scored(problem: Problem, gear: AnyGear) -> Score:
    """Judge one gear on the linkage itself."""
    found = judged(problem, gear, polished=True)
    events, seen = found.events, found.glance
    margin = float(events.margin.min())
    units, parts = dict(problem.units), []
    for name, label, unit in PARTS:
        faults = found.faults[name]
        if not has_a_say(problem, name, faults).any():
            continue
        figure = float(np.sqrt((weighed(problem, {name: faults}) ** 2).sum())) * units[name]
        parts.append(Part(name, label, unit, figure, units[name], known(faults[0])))
    ends = events.percent[0, :, :, 1]
    broken = tuple(name for name, by in zip(LIMITS, found.broken[0], strict=True) if by > 0)
    turns = margin > 0
    return Score(
        total=float(found.score[0]) if turns and np.isfinite(found.score[0]) else np.inf,
        parts=tuple(parts),
        apart=known(ends[:, 0] - ends[:, 1]),
        margin=margin,
        swing=float(seen.swing[0]) if turns and seen.swing is not None else None,
        reach=None if events.die_reach is None else float(events.die_reach.max()),
        broken=broken if turns else ("the gear locks",),
    )


@dataclass(frozen=True)
class Moved:
    """A size that the search moved.

    Parameters
    ----------
    before, after : mm or degrees.
    at_limit : whether it stands at the end of its room, and would go further.
    without : score if this one stayed as it was and the others moved; infinite where the
        gear would then break a limit.
    follows : whether it was not searched but follows the others.
    """

    field: str
    label: str
    unit: str
    before: float
    after: float
    at_limit: bool
    without: float | None
    follows: bool = False


@dataclass(frozen=True)
class Worth:
    """Whether the best is worth the metal.

    Parameters
    ----------
    gain : score of the present gear less that of the best.
    made : score that 19 of 20 gears reach that are made to the tolerance; `present_made`
        the same of the present gear, were it made anew.
    spread : what workshop errors add, `made` less the best's score.
    tolerance, angle_tolerance : each size is off by up to so much, mm and degrees.
    """

    gain: float
    made: float
    present_made: float
    spread: float
    tolerance: float
    angle_tolerance: float
    worth: bool
    says: str


@dataclass(frozen=True)
class SearchResult:
    """What a search found.

    Parameters
    ----------
    gear : the best gear, sizes to hundredths; the present one where none is better.
    moved : what differs from the present gear.
    history : (tried, best score so far), from the first sound gear on.
    tried, poses : candidates judged, and linkages closed for those that passed a glance.
    stopped : whether it was stopped before the end.
    """

    present: Score
    best: Score
    gear: AnyGear
    moved: tuple[Moved, ...]
    worth: Worth
    history: tuple[tuple[int, float], ...]
    tried: int
    poses: int
    seed: int
    stopped: bool
    problem: Problem = field(repr=False)

    @property
    def changes(self) -> tuple[tuple[str, float], ...]:
        """Path and value of every size that the best gear has otherwise, for the design."""
        return tuple((f"motion.gear.{one.field}", one.after) for one in self.moved)


@dataclass(frozen=True)
class PivotMap:
    """Score and cut-off inequality over two sizes, the others as they are in one gear.

    Parameters
    ----------
    x, y : the two sizes; `xs` (nx,), `ys` (ny,) the places, mm or degrees.
    score : (ny, nx), NaN where the gear locks.
    apart : (ny, nx) greatest difference of the cut-offs of both ends in any notch, %.
    passed : (ny, nx) how far the nearest limit is passed, in steps of its own; below 0 while
        all are kept.
    present : the sizes in the present gear; `best` in the best one, or None.
    error : what the workshop may be off in x and y, mm or degrees.
    on_best : whether the other sizes stand as in the best gear, not as in the present one.
    """

    x: Room
    y: Room
    xs: Array
    ys: Array
    score: Array
    apart: Array
    passed: Array
    present: tuple[float, float]
    best: tuple[float, float] | None
    error: tuple[float, float]
    on_best: bool

    @property
    def sound(self) -> NDArray[np.bool_]:
        """(ny, nx) whether every limit is kept."""
        kept: NDArray[np.bool_] = self.passed <= 1e-8
        return kept


@dataclass(frozen=True, kw_only=True)
class PivotsResult:
    """The present gear judged, and what may move."""

    score: float | None = figure("Score of the present gear, in faults", "ratio", main=True)
    apart_forward: float | None = figure("Cut-offs apart, forward, at most", "%", main=True)
    apart_backward: float | None = figure("Cut-offs apart, backward, at most", "%", main=True)
    lead_apart: float | None = figure("Leads apart, at most", main=True)
    die_slip: float | None = figure("Slip of the die, at most", main=True)
    least_margin: float = figure("Least sine of an angle of transmission", "ratio")
    moving: int = figure("Sizes that may move", "count", main=True)
    present: Score
    rooms: tuple[Room, ...]
    problem: Problem
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
