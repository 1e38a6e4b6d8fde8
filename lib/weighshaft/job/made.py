"""The chapters of the workshop: from what was decided to set-ups at the machine."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ..clearance.planes import proportions
from ..design.document import Design
from ..findings import Finding
from ..workshop import eccentrics, fitting, machines, patterns, screwcutting, slots
from .worked import worked

MADE = ("machines", "slots", "patterns", "eccentrics", "screwcutting", "fitting")


def made(name: str, design: Design, faults: list[Finding], results: dict[str, Any]) -> Any:
    """Work a chapter of the workshop."""
    fixed = frozenset(design.fixed)
    if name == "machines":
        return worked(faults, machines.work, design.machines, fixed=fixed)
    chapter, more = _CHAPTERS[name]
    given = {"machines": design.machines, "fixed": fixed, **more(design, results)}
    return worked(faults, chapter, getattr(design, name), **given)


def _slots(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    across = design.wheels
    return {
        "engine": slots.slot_of(
            design.motion.gear, getattr(results.get("motion"), "die_reach", None)
        ),
        "link_width": proportions(
            design.clearance, across.axle_diameter, across.cylinders.crankpin
        ).link,
        "drill_sets": design.threads.rack.sets,
    }  # fmt: skip


def _patterns(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    return {}


def _eccentrics(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    return {}


def _screwcutting(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    return {}


def _fitting(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    return {}


_CHAPTERS: dict[str, tuple[Any, Callable[[Design, dict[str, Any]], dict[str, Any]]]] = {
    "slots": (slots.work, _slots),
    "patterns": (patterns.work, _patterns),
    "eccentrics": (eccentrics.work, _eccentrics),
    "screwcutting": (screwcutting.work, _screwcutting),
    "fitting": (fitting.work, _fitting),
}
"""Each chapter's work, and what it takes from the design besides its own decisions."""
