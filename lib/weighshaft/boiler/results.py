"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ..erection.sweep import Way
from ..findings import Finding, Suggestion
from ..frames.whole import Whole
from ..sizes import figure
from ..working import Working

Box = tuple[float, float, float, float, float, float]
"""Lowest and highest x, lowest and highest y, lowest and highest z, mm."""


@dataclass(frozen=True)
class Gap:
    """The room between a part of the boiler and what is near it, at its worst.

    Parameters
    ----------
    part, other : names.
    cold, hot : gap, mm; negative where one is in the other.
    wanted : mm.
    where : (x, y) about where, mm.
    top : how high the other reaches, mm from the driving axle.
    across : gap across the engine, hot, where it stands beside the part; else None.
    """

    part: str
    other: str
    cold: float
    hot: float
    wanted: float
    where: tuple[float, float]
    top: float
    across: float | None = None

    @property
    def least(self) -> float:
        """The lesser of both, mm."""
        return min(self.cold, self.hot)


@dataclass(frozen=True)
class Lying:
    """A lying barrel, mm: its ends, the height of its centre, and its radii.

    Parameters
    ----------
    radius : over its lagging; `inside` of the shell.
    """

    back: float
    front: float
    centre: float
    radius: float
    inside: float


@dataclass(frozen=True)
class Water:
    """Heights of the water, mm from the driving axle.

    Parameters
    ----------
    level : cold, filled to work; `hot` the same water at working pressure.
    crown : the highest that the fire touches, None where that is not known.
    bottom_nut, top_nut : of the gauge glass.
    between : water between the two nuts, g.
    """

    level: float
    hot: float
    crown: float | None
    bottom_nut: float | None
    top_nut: float | None
    between: float | None


@dataclass(frozen=True)
class Pan:
    """How grate and ashpan come out.

    Parameters
    ----------
    ways : down, ahead and back.
    room : from the pan's underside to the rail, mm.
    depth : how far it has to come down to clear the firebox, mm.
    tips : degrees that it tips about its front edge before it meets the rail, at most 90.
    """

    ways: tuple[Way, ...]
    room: float
    depth: float
    tips: float


@dataclass(frozen=True, kw_only=True)
class BoilerResult:
    """Figures, workings and findings; see `BoilerSeat` for the decisions.

    Parameters
    ----------
    whole : the engine.
    gaps : the least first.
    held : x of where it is held; `free_end` of the end that slides, mm.
    moves : by how much the free end goes, hot, mm; positive ahead.
    """

    temperature: float = figure("Boiler at working pressure", "degC", main=True)
    slide: float = figure("Slide needed at the free end", main=True)
    slide_taken: float = figure("Slide left at the free end")
    at_smokebox: float = figure("Steam pipe and blower have to give, at the smokebox")
    at_backhead: float = figure("Pipes on the backhead have to give")
    side_gap: float | None = figure("Firebox to frames, each side, hot", main=True)
    least: float | None = figure("Least gap round the boiler, cold or hot", main=True)
    pan_drop: float | None = figure("Room under the ashpan over the rail", main=True)
    water_over_crown: float | None = figure("Water over the firebox crown, cold", main=True)
    water_between: float | None = figure("Water between the gauge's nuts", "g")
    centre: float = figure("Boiler's centre above the rail")
    whole: Whole
    held: float
    free_end: float
    moves: float
    lying: Lying | None
    gaps: tuple[Gap, ...]
    water: Water | None
    pan: Pan | None
    plugs: tuple[tuple[str, float, str], ...]
    cautions: tuple[str, ...]
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
