"""The chapters of the workshop: from what was decided to set-ups at the machine."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ..clearance.planes import proportions
from ..cylinders import piston_load
from ..design.document import Design
from ..findings import Finding
from ..motion import SlipEccentric
from ..wheels import InsideCylinders
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
    gear, across, sizes = design.motion.gear, design.wheels, design.cylinders
    wheeled, inside = results.get("wheels"), across.cylinders
    angle = sizes.crank_angle % 360
    web = None
    if isinstance(inside, InsideCylinders):
        web = eccentrics.Web(
            thickness=inside.web, breadth=inside.web_breadth, between=inside.pin_length,
            pin=inside.crankpin,
        )  # fmt: skip
    advances = None
    if isinstance(gear, SlipEccentric):
        back = gear.advance_backward
        advances = (gear.advance, gear.advance if back is None else back)
    return {
        "engine": eccentrics.Engine(
            name="the engine's",
            throw=getattr(gear, "eccentric_throw", None),
            advances=advances,
            sheave=getattr(wheeled, "sheave", None),
            axle=across.axle_diameter,
            pin=inside.crankpin,
            coupled_pin=across.across.crankpin,
            web=web,
            crank_throw=sizes.crank.throw,
            # one cylinder leaves the angle open: its coupled wheels are quartered all the same
            crank_angle=angle if 20 <= angle <= 340 and sizes.number > 1 else 90.0,
            piston_load=piston_load(sizes.pressure, sizes.bore),
            wheel=across.driving_diameter + 2 * getattr(wheeled, "flange_depth", 0.0),
            angle_error=across.quartering.quartering_error,
        )
    }


def _screwcutting(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    threads, worked_out = design.threads, results.get("threads")
    return {
        "bench": threads.chosen, "bench_metal": threads.material, "bench_depth": threads.depth,
        "convention": threads.convention, "drill_sets": threads.rack.sets,
        "screws": None if worked_out is None else worked_out.cover.number,
    }  # fmt: skip


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
