"""What the chapter on the reverser is given for the sample engines, and gears laid out."""

from __future__ import annotations

import dataclasses
from functools import cache
from typing import Any

from tests.designs import ROOT
from weighshaft.design import Design, read
from weighshaft.motion import (
    GEARS,
    Crank,
    SlideValve,
    ValveSetting,
    Wanted,
    sizes_for_events,
)
from weighshaft.reversing import Reversing, ReversingResult, work

NOTCHED = ("rowan", "merrow", "hartfell", "dunnock")
FURTHER = ("Gooch", "Allan", "Joy", "Hackworth", "Baker")


@cache
def sample(name: str) -> Design:
    """Return a sample engine by its short name."""
    return read(ROOT / "sample_designs" / f"{name}.loco.json")


def given(name: str, **other: Any) -> dict[str, Any]:
    """Return the keyword arguments of `work` for a sample engine, or a gear laid out."""
    if name in FURTHER:
        return laid_out(name) | other
    design = sample(name)
    return {
        "crank": design.cylinders.crank, "gear": design.motion.gear,
        "valve": design.motion.valve, "setting": design.motion.setting,
        "number": design.cylinders.number, "crank_angle": design.cylinders.crank_angle,
    } | other  # fmt: skip


@cache
def laid_out(kind: str) -> dict[str, Any]:
    """Return the arguments for a gear as its own layout makes it, 40 mm stroke."""
    crank, wanted = Crank(40.0, 130.0), Wanted()
    sizes = sizes_for_events(75.0, 0.2, 2.5)
    gear = GEARS[kind].laid_out(crank, sizes, wanted, "outside")
    valve = SlideValve(sizes.steam_lap, 0.0, 3.0)
    return {"crank": crank, "gear": gear, "valve": valve, "setting": ValveSetting(),
            "number": 2, "crank_angle": 90.0}  # fmt: skip


def worked(name: str, reversing: Reversing | None = None, **other: Any) -> ReversingResult:
    """Return the chapter worked for a sample engine or a gear laid out."""
    return work(reversing or Reversing(), **given(name, **other))


def put(decisions: Any, path: str, value: Any) -> Any:
    """Return decisions with the one at a path, from "reversing." on, changed."""
    name, _, rest = path.removeprefix("reversing.").partition(".")
    old = getattr(decisions, name)
    return dataclasses.replace(decisions, **{name: put(old, rest, value) if rest else value})


def at(decisions: Any, path: str) -> Any:
    """Return the decision at a path, from "reversing." on."""
    for name in path.removeprefix("reversing.").split("."):
        decisions = getattr(decisions, name)
    return decisions
