"""Engines of a few bodies, whose gaps are known, and samples changed and worked."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

from weighshaft import job, places
from weighshaft.design.file import read
from weighshaft.frames import Axle, Drive, Part, Solid, Whole
from weighshaft.gauging import Gauging, GaugingResult, Prototype, work
from weighshaft.motion import Crank

SCALE = Prototype(16.0, 89.0, 1435.0, 160.0, 240.0, "scale.prototype.width")


def part(name: str, *solids: Solid, **more: Any) -> Part:
    given: dict[str, Any] = {
        "kind": "frames",
        "chapter": "frames",
        "fields": ("frames.stays",),
        "material": "mild steel",
    }
    return Part(name, solids=solids, **given | more)


def axle(name: str = "driving", ahead: float = 0.0, play: float = 0.0) -> Axle:
    return Axle(name, ahead, 40.0, "coupled", play)


def engine(parts: Sequence[Part], axles: Sequence[Axle] = (axle(),), rise: float = 0.0) -> Whole:
    """Return an engine on 89 mm track with a crank throw of 10 mm."""
    return Whole(
        parts=tuple(parts), axles=tuple(axles),
        drive=Drive(Crank(20.0, 60.0), 0.0, 90.0, 10.0), rail=-20.0, front=100.0, back=-100.0,
        buffer_front=110.0, buffer_back=-110.0, frame_inside=70.0, frame_thickness=3.0,
        rise=rise, gauge=89.0, back_to_back=82.0, tyre_width=9.0, flange_depth=2.0,
        flange_play=1.0,
    )  # fmt: skip


def worked(whole: Whole, gauging: Gauging | None = None, **more: Any) -> GaugingResult:
    given: dict[str, Any] = {
        "whole": whole,
        "wanted": 0.5,
        "rail_wanted": 1.5,
        "side_wanted": 0.2,
        "prototype": SCALE,
    }
    return work(gauging or Gauging(), **given | more)


@cache
def sample(name: str, *changes: tuple[str, Any]) -> GaugingResult:
    """Return a sample's chapter, some of its decisions changed."""
    design = read(places.samples() / f"{name}.loco.json").changed(dict(changes))
    made: GaugingResult = job.work(design).gauging
    return made


def gap_of(result: GaugingResult, one: str, other: str) -> float | None:
    for near in result.near:
        if {near.first, near.second} == {one, other}:
            return near.gap
    return None


def stops(result: GaugingResult) -> list[str]:
    return [finding.says for finding in result.findings if finding.level == "stop"]
