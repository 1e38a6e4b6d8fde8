"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import Finding, Suggestion
from ...working import Working


@dataclass(frozen=True, kw_only=True)
class SlotsResult:
    """Figures, workings and findings; see `Slots` for the decisions."""

    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()
