"""The real page in a real browser: the server as a builder starts it, and a fresh browser."""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from tests.designs import ROOT
from weighshaft.dashboard.chapters import CHAPTERS

FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "msedge")
START_SECONDS = 90


def browser_path() -> str | None:
    """Return the browser to drive, or nothing where there is none."""
    named = os.environ.get("WEIGHSHAFT_BROWSER")
    return named or next((path for name in NAMES if (path := shutil.which(name))), None)


@contextlib.contextmanager
def served(designs: Path) -> Iterator[str]:
    """Serve the workbook from a process of its own; yield its address.

    Parameters
    ----------
    designs : folder of the shelf.
    """
    path = os.pathsep.join(filter(None, (str(ROOT / "lib"), os.environ.get("PYTHONPATH", ""))))
    process = subprocess.Popen(
        [sys.executable, "-m", "weighshaft", "--no-browser", "--designs", str(designs)],
        env={**os.environ, "PYTHONPATH": path, "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    try:
        yield _address(process)
    finally:
        # as Ctrl-C, so that the kernels are taken down with it
        process.send_signal(signal.SIGINT if os.name == "posix" else signal.SIGTERM)
        try:
            process.wait(15)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
        assert process.stdout is not None
        process.stdout.close()


def _address(process: subprocess.Popen[str]) -> str:
    assert process.stdout is not None
    limit = threading.Timer(START_SECONDS, process.kill)
    limit.start()
    said = []
    try:
        for line in process.stdout:
            said.append(line)
            for word in line.split():
                if word.startswith("http://"):
                    return word
    finally:
        limit.cancel()
    raise AssertionError(f"the server did not start:\n{''.join(said)}")


class Watched:
    """A page under watch: what it fetched from elsewhere and what it complained of."""

    def __init__(self, context: Any, address: str) -> None:
        self.address = address
        self.page = context.pages[0] if context.pages else context.new_page()
        self.elsewhere: list[str] = []
        self.complaints: list[str] = []
        self.page.on("request", lambda request: self._asked(request.url))
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("console", self._said)

    def _asked(self, url: str) -> None:
        if not url.startswith((self.address.rstrip("/"), "data:", "blob:", "about:")):
            self.elsewhere.append(url)

    def _said(self, message: Any) -> None:
        # the page server's farewell when a page is left is not this page's doing
        if message.type == "error" and "/voila/api/shutdown/" not in message.location["url"]:
            self.complaints.append(message.text)

    def open(self, query: str = "") -> None:
        """Load the page and wait until the sheet is laid out."""
        self.page.goto(self.address + query)
        try:
            self.page.wait_for_selector(".ws-tab", timeout=60_000)
        except Exception as never:
            shown = self.page.inner_text("body")[:500]
            raise AssertionError(f"the sheet never came; the page says: {shown!r}") from never

    def chapter(self, key: str) -> None:
        """Turn to a chapter by its tab and wait until it is there."""
        within = next((one.within for one in CHAPTERS if one.key == key), "")
        if within and not self.page.locator(f".ws-subtabs [data-chapter={key}]").count():
            self.chapter(within)
        self.page.locator(f".ws-tab[data-chapter={key}]").last.click()
        self.page.wait_for_selector(f".ws-body[data-chapter={key}]")
        self.settle()

    def settle(self) -> None:
        """Wait until all is answered and two looks at the page agree, not for some time."""
        self.page.wait_for_function("() => !document.documentElement.hasAttribute('data-asking')")
        before = ""
        for _ in range(100):
            now = self.page.evaluate(
                "(document.querySelector('.ws')?.innerHTML.length ?? Math.random()) + ''"
            )
            if now == before:
                return
            before = now
            self.page.wait_for_timeout(120)


@contextlib.contextmanager
def browsing(address: str, profile: Path | None = None, **options: Any) -> Iterator[Watched]:
    """Open a browser without a window; with a folder as profile it remembers between visits."""
    from playwright.sync_api import sync_playwright

    options.setdefault("viewport", {"width": 1280, "height": 900})
    with contextlib.ExitStack() as stack:
        if profile is None:
            profile = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        playwright = stack.enter_context(sync_playwright())
        context = playwright.chromium.launch_persistent_context(
            str(profile),
            executable_path=browser_path(),
            headless=True,
            args=list(FLAGS),
            **options,
        )
        stack.callback(context.close)
        yield Watched(context, address)
