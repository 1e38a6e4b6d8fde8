"""Rods of sample engines, worked from their whole engine."""

from __future__ import annotations

import dataclasses
from functools import cache
from typing import Any

from tests.designs import ROOT
from weighshaft import job
from weighshaft.design import Design, read
from weighshaft.rods import Rods, RodsResult, work


@cache
def sample(name: str) -> Design:
    """Return a sample engine by its short name."""
    return read(ROOT / "sample_designs" / f"{name}.loco.json")


def done(design: Design, shown: str = "rods") -> job.Work:
    """Return the job with, of the chapters that follow from others, only the one shown."""
    nothing = job.Work(design, None, None, None, None, None, None, ())
    return job.work(design, shown=shown, before=nothing)


@cache
def engine(name: str) -> dict[str, Any]:
    """Return the keyword arguments of `work` for a sample engine."""
    design = sample(name)
    built = done(design, "frames")
    return {
        "whole": built.frames.whole, "wheels": design.wheels, "cylinders": design.cylinders,
        "axis": built.cylinders.axis, "piston_load": built.cylinders.piston_load,
        "bush_needed": built.wheels.bush_needed, "speed": built.scale.running_speed,
    }  # fmt: skip


def worked(name: str, rods: Rods | None = None, **other: Any) -> RodsResult:
    """Return the chapter worked for a sample engine."""
    return work(rods or Rods(), **engine(name) | other)


def put(decisions: Any, path: str, value: Any) -> Any:
    """Return decisions with the one at a path, from "rods." on, changed."""
    name, _, rest = path.removeprefix("rods.").partition(".")
    old = getattr(decisions, name)
    return dataclasses.replace(decisions, **{name: put(old, rest, value) if rest else value})


def at(decisions: Any, path: str) -> Any:
    """Return the decision at a path, from "rods." on."""
    for name in path.removeprefix("rods.").split("."):
        decisions = getattr(decisions, name)
    return decisions
