"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..frames import Whole
from ..sizes import figure
from ..trade.gauges import Outline
from ..working import Working
from .line import Compared, Low, Margin
from .sections import Station
from .sweep import Near


@dataclass(frozen=True, kw_only=True)
class GaugingResult:
    """Figures, findings and what the pictures need; see `Gauging` for the decisions.

    Parameters
    ----------
    near : least gaps, least first: ten at least, and all that are short of what is wanted.
    gauge : the loading gauge at model size, None where it is not known.
    margins : how far each part stands inside it, the least first.
    low : what stands lowest over the rail, springs down.
    platform : height and edge from the track's middle, mm, None without one.
    section : where the least gap is, ahead of the driving axle, mm.
    """

    least_gap: float | None = figure("Least gap, everything at its worst", main=True)
    least_where: str = figure("Between which parts", "text", main=True)
    least_angle: float | None = figure("Right-hand crank there", "deg")
    rail_gap: float | None = figure("Over the rail, springs down", main=True)
    greatest_width: float = figure("Greatest width, side play taken up", main=True)
    inside_gauge: float | None = figure("Least inside the loading gauge", main=True)
    platform_gap: float | None = figure("Clear of the platform, straight track")
    shift: float = figure("Engine shifts on straight track, each way")
    wanted: float = figure("Wanted between parts")
    near: tuple[Near, ...]
    stations: tuple[Station, ...]
    gauge: Outline | None
    margins: tuple[Margin, ...]
    low: tuple[Low, ...]
    compared: tuple[Compared, ...]
    platform: tuple[float, float] | None
    section: float
    whole: Whole
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]

    @property
    def worst(self) -> Near | None:
        """What falls shortest of what is wanted, or has least to spare."""
        own = [one for one in self.near if not one.told]
        return max(own, key=lambda one: one.short) if own else None
