"""The order of the job: from a design to one immutable tree of results with findings."""

from __future__ import annotations

from dataclasses import dataclass

from .design.document import Design
from .findings import Finding


@dataclass(frozen=True)
class Work:
    """Everything worked out for a design, chapter by chapter, and the findings, worst first."""

    design: Design
    findings: tuple[Finding, ...]


def work(design: Design) -> Work:
    """Work the whole design; pure, and cheap enough for every movement of a slider."""
    raise NotImplementedError
