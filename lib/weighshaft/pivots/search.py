"""The search: quasi-random places over all the room, differential evolution, and a polish.

Sources: I. M. Sobol, quasi-random sequences (1967); R. Storn and K. Price, Differential
Evolution (1997), as scipy has it; the polish is a trust-region least-squares method on the
faults themselves (scipy's "trf").
"""

from __future__ import annotations

import math
from concurrent.futures import Executor

import numpy as np

from ..motion import AnyGear, Crank, SlideValve, ValveSetting, Wanted
from ..motion.frame import Array
from ..motion.many_events import ANGLES
from ..sizes import SizeError
from .blocks import BLOCK, Progress, Stop, Stopped, Trial
from .choosing import chosen, moved_sizes
from .decisions import Pivots
from .objective import MOST, evaluate, residuals
from .problem import Clear, posed
from .results import SearchResult, scored
from .worth import worth_the_metal

_GENERATIONS = 300
"""The size of the population is chosen so that the budget lasts about so many generations."""
_SAMPLED = 0.2
"""Share of the budget that goes into places all over the room."""
_POLISHED, _CHOSEN, _STEPS = 3, 5, 30
_NUDGE = 1e-4


def search(
    pivots: Pivots,
    *,
    gear: AnyGear,
    crank: Crank,
    valve: SlideValve,
    setting: ValveSetting,
    wanted: Wanted,
    fixed: frozenset[str] = frozenset(),
    clear: Clear | None = None,
    tolerance: float = 0.1,
    angle_tolerance: float = 0.25,
    executor: Executor | None = None,
    progress: Progress | None = None,
    stop: Stop | None = None,
) -> SearchResult:
    """Search for the best places of the pivots.

    The answer depends on the decisions and their seed alone, not on the executor.

    Parameters
    ----------
    gear, crank, valve, setting, wanted : as in the chapter on valves and motion.
    fixed : paths of sizes that a bought part has settled.
    clear : finds the least gap of candidates, for `holding.least_gap`; picklable where the
        executor has processes.
    tolerance, angle_tolerance : what the workshop may be off in each size, mm and degrees.
    executor : any of `concurrent.futures`; this thread where None.
    progress : told after every block: gears tried, gears to try, best score so far.
    stop : asked between blocks; once true, the best so far is returned, marked stopped.

    Raises
    ------
    SizeError : when nothing may move.
    """
    problem = posed(
        pivots, gear=gear, crank=crank, valve=valve, setting=setting, wanted=wanted, fixed=fixed,
        clear=clear,
    )  # fmt: skip
    if not problem.rooms:
        raise SizeError(
            "Nothing may move: name a length or an angle of this gear that may.", "lengths"
        )
    trial = Trial(problem, pivots.candidates, executor=executor, progress=progress, stop=stop)
    stopped = False
    try:
        explore(trial, np.clip(problem.place(gear), 0.0, 1.0), pivots.seed)
        if pivots.polish:
            for _, _, start in _distinct(trial, _POLISHED):
                polish(trial, start)
    except Stopped:
        stopped = True
    present = scored(problem, gear)
    places = [one[2] for one in _distinct(trial, _CHOSEN) if one[0] < MOST]
    best, found = chosen(problem, places, present, pivots.seed)
    return SearchResult(
        present=present, best=best, gear=found, moved=moved_sizes(problem, found),
        worth=worth_the_metal(
            problem, present, best, found, tolerance, angle_tolerance, pivots.seed
        ),
        history=tuple(trial.history), tried=trial.tried,
        poses=trial.closed * ANGLES * len(problem.notches), seed=pivots.seed, stopped=stopped,
        problem=problem,
    )  # fmt: skip


def explore(trial: Trial, present: Array, seed: int) -> None:
    """Try places all over the room, then let the best of them evolve.

    Parameters
    ----------
    present : (n,) where the present gear stands, 0 to 1; it is always among those tried.
    """
    # imported only here, since it would delay the page
    from scipy.optimize import differential_evolution
    from scipy.stats import qmc

    n, budget = len(present), trial.total
    rng = np.random.default_rng(seed)
    people = max(round(budget / _GENERATIONS / BLOCK), 1) * BLOCK
    people = max(min(people, budget // 4), 5)
    drawn = max(int(_SAMPLED * budget), people)
    places = qmc.Sobol(n, seed=rng).random_base2(max(math.ceil(math.log2(drawn)), 1))[:drawn]
    places[0] = present
    totals = trial.totals(places)
    # the best three quarters by merit, the rest as they come, so that none crowds out all
    order = np.argsort(totals, kind="stable")
    chosen = [*order[: 3 * people // 4]]
    chosen += [i for i in range(len(places)) if i not in set(chosen)][: people - len(chosen)]
    started = places[chosen]
    generations = (budget - len(places)) // len(started) - 1
    if generations < 1:
        return
    if np.all(np.ptp(started, axis=0) == 0):
        return
    differential_evolution(
        lambda x: trial.totals(np.ascontiguousarray(x.T)), [(0.0, 1.0)] * n,
        init=started, maxiter=generations, popsize=1, tol=1e-4, mutation=(0.4, 0.9),
        recombination=0.85, seed=rng, polish=False, vectorized=True, updating="deferred",
    )  # fmt: skip


def polish(trial: Trial, start: Array) -> None:
    """Go downhill from a place by least squares; where that ends outside a limit, go back."""
    from scipy.optimize import least_squares

    problem = trial.problem
    n = len(start)

    def faults(x: Array) -> Array:
        trial.halt()
        row: Array = residuals(problem, x[None])[0]
        return row

    def slopes(x: Array) -> Array:
        step = np.where(x > 0.5, -_NUDGE, _NUDGE)
        places = np.concatenate([x[None], x[None] + np.diag(step)])
        rows = residuals(problem, places)
        trial.count(places, evaluate(problem, places))
        slope: Array = ((rows[1:] - rows[:1]) / step[:, None]).T
        return slope

    first = np.clip(start, 1e-6, 1 - 1e-6)
    found = least_squares(
        faults, first, jac=slopes, bounds=(np.zeros(n), np.ones(n)), xtol=1e-6, ftol=1e-7,
        max_nfev=_STEPS,
    )  # fmt: skip
    way = np.linspace(0.0, 1.0, 33)[:, None]
    places = start + way * (found.x - start)
    trial.count(places, evaluate(problem, places))


def _distinct(trial: Trial, most: int) -> list[tuple[float, int, Array]]:
    """Return the best places that are not neighbours of one another."""
    apart: list[tuple[float, int, Array]] = []
    for one in trial.elite:
        if all(np.abs(one[2] - other[2]).max() > 0.02 for other in apart):
            apart.append(one)
        if len(apart) == most:
            break
    return apart
