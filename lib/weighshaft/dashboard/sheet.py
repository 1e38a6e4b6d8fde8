"""The sheet in the browser: a thin widget between the page's script and the desk."""

from __future__ import annotations

from functools import cache
from importlib import resources
from typing import Any

import anywidget
import traitlets

from .asked import answer
from .desk import Desk

# in this order they make one module; each file is one subject, none needs a build step
SCRIPTS = (
    "elements.js", "link.js", "sizes.js", "margin.js", "labels.js", "scene.js", "chart.js",
    "pictures.js", "search.js", "workshop.js", "beat.js", "asking.js", "turn.js", "whole.js",
    "paper.js", "page.js",
)  # fmt: skip


@cache
def script() -> str:
    """Return the page's script."""
    return "\n".join(_static(name) for name in SCRIPTS)


@cache
def style() -> str:
    """Return the page's style sheet."""
    return _static("sheet.css")


def _static(name: str) -> str:
    folder = resources.files(__package__) / "static"
    return (folder / name).read_text(encoding="utf-8")


class Sheet(anywidget.AnyWidget):
    """The drawing sheet; everything it shows and does goes through the desk.

    Parameters
    ----------
    desk : the session behind it.
    alone : key of the only chapter to show, for a notebook; empty for the whole page.
    """

    _esm = script()
    _css = style()
    alone = traitlets.Unicode("").tag(sync=True)

    def __init__(self, desk: Desk, alone: str = "") -> None:
        super().__init__(alone=alone)
        self.desk = desk
        self.on_msg(self._asked)

    def _asked(self, _widget: Any, content: Any, _buffers: Any) -> None:
        reply = answer(self.desk, content)
        self.send(reply.content, [reply.points] if reply.points else None)
