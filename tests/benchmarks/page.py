"""From the command to a page that can be used, in a real browser."""

from __future__ import annotations

import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.browser.serving import _address, browser_path, browsing
from tests.designs import ROOT


def main() -> None:
    """Print the seconds from `python workbook`, everything being installed, to a usable page."""
    if browser_path() is None:
        print("no Chromium or Chrome on this computer: not measured")
        return
    with tempfile.TemporaryDirectory() as designs:
        start = time.perf_counter()
        process = subprocess.Popen(
            [sys.executable, "workbook", "--no-browser", "--designs", designs],
            cwd=ROOT,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        try:
            _measure(process, start)
        finally:
            process.send_signal(signal.SIGINT if sys.platform != "win32" else signal.SIGTERM)
            process.communicate(timeout=60)


def _measure(process: subprocess.Popen[str], start: float) -> None:
    address = _address(process)
    answered = time.perf_counter() - start
    with tempfile.TemporaryDirectory() as profile, browsing(address, Path(profile)) as watched:
        opened = time.perf_counter()
        watched.open()
        usable = time.perf_counter() - opened
        watched.page.wait_for_timeout(6000)
        again = time.perf_counter()
        watched.open()
        warm = time.perf_counter() - again
    print(f"command to address printed        {answered:6.2f} s")
    print(f"page opened at once, to usable    {usable:6.2f} s   together {answered + usable:.2f} s")
    print(f"page opened again, kernel warm    {warm:6.2f} s   {usable / warm:.1f} times as fast")


if __name__ == "__main__":
    main()
