"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ..findings import Finding, Suggestion
from ..motion.frame import Array
from ..sizes import figure
from ..working import Working
from .engine import Engine, Piece

Kind = Literal["part", "rail", "boiler", "ashpan"]


@dataclass(frozen=True)
class Gap:
    """The least gap between a part and what is near, in any notch all round the turn.

    Parameters
    ----------
    gap : mm; negative where they overlap, by how much one would have to move.
    kind : what the other is: another part, axle or wheel, or a line.
    crank_angle : degrees.
    reverser : the notch.
    state : -1, 0, +1 with the axleboxes at the bottom, midway, at the top.
    here, there : points of the first and of the second on their centre lines, mm.
    radii : half the widths round those lines there, mm.
    slack : what narrower parts might still gain where their widths are only the usual ones, mm.
    turns : whether either moves with the crank; shafts, axles and wheels keep their places.
    """

    first: str
    second: str
    gap: float
    kind: Kind
    crank_angle: float
    reverser: float
    state: float
    here: tuple[float, float]
    there: tuple[float, float]
    radii: tuple[float, float]
    slack: float
    turns: bool


@dataclass(frozen=True)
class SideGap:
    """Room across the engine between a part and a frame plate or its twin on the other side.

    `gap` in mm with the side play taken up; negative where the planes overlap.
    """

    part: str
    beside: str
    gap: float


@dataclass(frozen=True)
class Line:
    """An edge that no part may pass: above `height` for the boiler, below it for the rail."""

    kind: Kind
    height: float
    back: float
    front: float


@dataclass(frozen=True, kw_only=True)
class ClearanceResult:
    """Figures, findings and what the pictures need; see `Clearance` for the decisions.

    Parameters
    ----------
    gaps : least first; all below what is wanted, and ten at least where there are so many.
    side_gaps : least first.
    starts, ends : (edges, rows, angles, 2) of the pieces' edges in turn, mm.
    reversers, states : (rows,) notch and place of the axleboxes of each row.
    angles : (angles,) degrees.
    """

    least_gap: float | None = figure("Least gap between moving parts and what is near", main=True)
    least_where: str = figure("Where it is", "text", main=True)
    least_angle: float | None = figure("Crank angle there", "deg", main=True)
    least_notch: float | None = figure("Reverser there", "ratio", main=True)
    rail_gap: float | None = figure("Lowest part over the rail", main=True)
    side_gap: float | None = figure("Least room beside a part, across the engine", main=True)
    wanted: float = figure("Gap wanted")
    rail_wanted: float = figure("Wanted over the rail")
    rise: float = figure("Axleboxes rise and fall by")
    gaps: tuple[Gap, ...]
    side_gaps: tuple[SideGap, ...]
    lines: tuple[Line, ...]
    engine: Engine
    starts: Array
    ends: Array
    angles: Array
    reversers: Array
    states: Array
    frame: tuple[float, float]
    axle_diameter: float
    wheel_diameter: float
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]

    @property
    def worst(self) -> Gap | None:
        """The gap that falls shortest of what is wanted; with none short, the least."""
        short = [one for one in self.gaps if self.short_by(one) > 0]
        if short:
            return max(short, key=self.short_by)
        near = [one for one in self.gaps if one.kind != "rail"] or list(self.gaps)
        return near[0] if near else None

    def short_by(self, gap: Gap) -> float:
        """Return by how much a gap falls short of what is wanted, mm; negative if it does not."""
        return (self.rail_wanted if gap.kind == "rail" else self.wanted) - gap.gap

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The parts, moving and still."""
        return self.engine.pieces
