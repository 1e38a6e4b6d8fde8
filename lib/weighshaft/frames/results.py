"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ..clearance.engine import Engine
from ..findings import Finding, Suggestion
from ..sizes import figure
from ..working import Working
from .whole import Whole


@dataclass(frozen=True, kw_only=True)
class FramesResult:
    """Figures, findings and the model; see `Frames` for the decisions.

    Parameters
    ----------
    whole : the engine with all its parts.
    gear : the valve gear of one side with its joints, None where it locks.
    """

    plate_length: float = figure("Frame plates, length", main=True)
    plate_depth: float = figure("Frame plates, depth amid the wheels", main=True)
    over_beams: float = figure("Over the buffer beams", main=True)
    over_buffers: float = figure("Over the buffers")
    horn_gap: float = figure("Horn gap, along the plate")
    horn_depth: float = figure("Horn gap, from the bottom edge", main=True)
    least_metal: float = figure("Least plate left over a horn gap", main=True)
    boiler_centre: float = figure("Boiler centre above the rail")
    height: float = figure("Greatest height above the rail", main=True)
    width: float = figure("Greatest width of all parts", main=True)
    whole: Whole
    gear: Engine | None
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
