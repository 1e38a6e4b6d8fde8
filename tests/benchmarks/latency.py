"""How long a movement of the hand takes to be seen, chapter by chapter, in a real browser.

    python -m tests.benchmarks.latency [sample ...]

Drags the first line of each chapter as a hand would and prints the median and the ninth
decile of the time from the movement to the painted picture, as the page itself notes it.
The goal is a median below 60 ms on two cores; it is printed, never asserted, since it says
as much about the computer as about the page.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
from pathlib import Path
from typing import Any

from tests.browser.serving import Watched, browser_path, browsing, served

CHAPTERS = (
    "scale", "cylinders", "motion", "reversing", "pivots", "tolerances", "axlebox",
    "clearance", "valve_setting", "wheels", "threads", "nozzle",
    "frames", "boiler", "gauging", "weights", "springing", "curving", "rods", "erection",
    "machines", "slots", "patterns", "eccentrics", "screwcutting", "fitting", "firing",
    "draught",
)  # fmt: skip
DRAGGED = {"motion": "motion.gear.eccentric_throw"}
GOAL_MS = 60
MOVES = 60
PAUSE_MS = 40


def main(samples: list[str]) -> int:
    """Measure and print; return 0, or 2 where there is no browser."""
    if browser_path() is None:
        print("There is no Chromium or Chrome on this computer to measure with.")
        return 2
    with tempfile.TemporaryDirectory() as folder, served(Path(folder)) as address:
        for sample in samples or ["hartfell"]:
            with browsing(address) as watched:
                watched.open(f"?design={sample}")
                print(f"{sample}: movement to paint, ms (goal: median below {GOAL_MS})")
                print(f"  {'chapter':12} {'dragged':40} {'median':>7} {'9 in 10':>8} {'seen':>6}")
                for chapter in CHAPTERS:
                    _measure(watched, chapter)
    return 0


def _measure(watched: Watched, chapter: str) -> None:
    watched.chapter(chapter)
    page = watched.page
    path = DRAGGED.get(chapter)
    slider = page.locator(f'[data-path="{path}"] .ws-range' if path else ".ws-main .ws-range").first
    if slider.count() == 0:
        slider = page.locator(".ws-sizes .ws-range").first
        slider.evaluate(
            "(one) => { for (let at = one.closest('details'); at;"
            " at = at.parentElement.closest('details')) at.open = true; }"
        )
    slider.scroll_into_view_if_needed()
    path = slider.evaluate("(one) => one.closest('[data-path]').dataset.path")
    _drag(page, slider)  # the first time the kernel imports what the chapter needs
    watched.settle()
    page.evaluate("weighshaftPaints.length = 0")
    _drag(page, slider)
    watched.settle()
    times = [one["ms"] for one in page.evaluate("weighshaftPaints")]
    if len(times) < 2:
        print(f"  {chapter:12} {path:40} nothing was painted")
        return
    deciles = statistics.quantiles(times, n=10)
    print(
        f"  {chapter:12} {path:40} {statistics.median(times):7.1f} {deciles[8]:8.1f} "
        f"{len(times):3d}/{MOVES}"
    )


def _drag(page: Any, slider: Any) -> None:
    box = slider.bounding_box()
    share = slider.evaluate("(one) => (one.value - one.min) / (one.max - one.min)")
    x, y = box["x"] + 7 + share * (box["width"] - 14), box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(MOVES):
        # to and fro, never the same place twice running
        page.mouse.move(x - 0.1 * box["width"] * abs(((step / 20) % 2) - 1), y)
        page.wait_for_timeout(PAUSE_MS)
    page.mouse.up()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
