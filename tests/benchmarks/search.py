"""How many candidate gears a search judges in a second, alone and on two processes.

    python -m tests.benchmarks.search [candidates [sample ...]]

Each candidate is posed at 72 crank angles in 6 notches, and in the notch in which its valve
is set; its events, the penalties and the score are part of it.  "Near" candidates are all
judged to the end; "wide" ones fill all the usual room, where most are turned away at the
first glance.  The goal is 100,000 candidates in 60 s on two cores; figures are printed, never
asserted, since they say as much about the computer.
"""

from __future__ import annotations

import multiprocessing
import sys
import time
from concurrent.futures import Executor, ProcessPoolExecutor
from dataclasses import replace

import numpy as np

from tests.designs import SAMPLES
from weighshaft.design import Design, read
from weighshaft.pivots import Pivots, Problem, posed, search
from weighshaft.pivots.blocks import BLOCK, Trial
from weighshaft.pivots.objective import evaluate

GOAL = 100_000 / 60
"""Candidates a second."""
COUNT = 20_000


def given(design: Design) -> dict[str, object]:
    """Return what the chapter on motion hands to the search."""
    motion = design.motion
    return {
        "gear": motion.gear, "crank": design.cylinders.crank, "valve": motion.valve,
        "setting": motion.setting, "wanted": motion.wanted,
    }  # fmt: skip


def places(problem: Problem, count: int, *, near: bool) -> np.ndarray:
    """Return candidates within a hundredth of the room about the present gear, or all over it."""
    wide = np.random.default_rng(1).uniform(size=(count, len(problem.rooms)))
    if not near:
        return wide
    return np.clip(problem.place(problem.gear) + 0.02 * (wide - 0.5), 0.0, 1.0)


def alone(problem: Problem, x: np.ndarray) -> float:
    """Return the processor's time for a candidate in one thread, s."""
    started = time.process_time()
    for i in range(0, len(x), BLOCK):
        evaluate(problem, x[i : i + BLOCK])
    return (time.process_time() - started) / len(x)


def together(problem: Problem, x: np.ndarray, pool: Executor) -> float:
    """Return candidates a second by the clock, on the processes of a pool."""
    trial = Trial(problem, len(x), executor=pool)
    started = time.perf_counter()
    trial.totals(x)
    return len(x) / (time.perf_counter() - started)


def main(count: int = COUNT, *names: str) -> None:
    """Print the figures for every sample with pivots to search, or for those named."""
    print(f"{count} candidates, 72 angles, 6 notches; goal {GOAL:.0f} a second on two cores")
    print(f"{'':10}{'sizes':>6}{'ms each':>9}{'ms each':>9}{'poses/s':>9}{'a second':>10}"
          f"{'of goal':>9}{'a second':>10}{'of goal':>9}{'search':>9}{'of goal':>9}")  # fmt: skip
    print(f"{'':10}{'':>6}{'near':>9}{'wide':>9}{'one core':>9}{'near, two':>10}{'':>9}"
          f"{'wide, two':>10}{'':>9}{'a second':>9}")  # fmt: skip
    spawned = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(2, mp_context=spawned) as pool:
        for path in SAMPLES:
            design = read(path)
            problem = posed(Pivots(), **given(design))
            name = path.name.partition(".")[0]
            if not problem.rooms or (names and name not in names):
                continue
            near, wide = (places(problem, count, near=one) for one in (True, False))
            list(pool.map(evaluate, [problem] * 8, [near[:BLOCK]] * 8))
            cost, costs = alone(problem, near[:4000]), alone(problem, wide[:4000])
            poses = 72 * len(problem.notches) / cost
            on_near, on_wide = (together(problem, x, pool) for x in (near, wide))
            started = time.perf_counter()
            found = search(replace(Pivots(), candidates=count), executor=pool, **given(design))
            searched = found.tried / (time.perf_counter() - started)
            print(f"{name:10}{len(problem.rooms):>6}{1e3 * cost:>9.3f}"
                  f"{1e3 * costs:>9.3f}{poses / 1e6:>8.1f}M{on_near:>10.0f}{on_near / GOAL:>9.1f}"
                  f"{on_wide:>10.0f}{on_wide / GOAL:>9.1f}{searched:>9.0f}{searched / GOAL:>9.1f}",
                  flush=True)  # fmt: skip


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else COUNT, *sys.argv[2:])
