"""How long a whole design takes to work, and how long one step of a slider does."""

from __future__ import annotations

import time

import numpy as np

from tests.designs import SAMPLES
from weighshaft import job
from weighshaft.design import Design, read

GOAL = 30.0
"""A whole design, nothing remembered, in ms."""
ROUNDS = 15
SLIDERS = ("cylinders.bore", "wheels.driving_diameter", "motion.valve.steam_lap", "nozzle.diameter")


def milliseconds(design: Design) -> float:
    """Return how long it takes to work a design, ms."""
    start = time.perf_counter()
    job.work(design)
    return 1000 * (time.perf_counter() - start)


def main() -> None:
    """Print medians for every sample."""
    print(f"{'sample':<12}{'all anew, ms':>14}{'of the goal':>13}   then one step of a slider, ms")
    for path in SAMPLES:
        design = read(path)
        job.work(design)
        anew = []
        for _ in range(ROUNDS):
            job._cached.cache_clear()
            anew.append(milliseconds(design))
        steps = []
        for slider in SLIDERS:
            before = float(design.at(slider))
            moved = [before * (1 + 1e-4 * (n + 1)) for n in range(ROUNDS)]
            taken = [milliseconds(design.changed({slider: value})) for value in moved]
            steps.append(f"{slider.rpartition('.')[2]} {np.median(taken):.1f}")
        middle = float(np.median(anew))
        name = path.name.partition(".")[0]
        print(f"{name:<12}{middle:>14.1f}{middle / GOAL:>13.2f}   {', '.join(steps)}", flush=True)


if __name__ == "__main__":
    main()
