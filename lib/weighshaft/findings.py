"""What the engineering has to say about a design: findings and suggestions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

Level = Literal["stop", "check", "fine"]
LEVELS: tuple[Level, ...] = ("stop", "check", "fine")
COMMON = "common practice"


@dataclass(frozen=True)
class Finding:
    """One judgement on a design.

    Parameters
    ----------
    level : "stop" (will not work or not fit), "check" (a builder would look again), "fine".
    chapter : the chapter that owns it.
    fields : paths of the decisions concerned, such as "motion.gear.advance".
    says : one sentence in the builder's words with the figures.
    mend : what would mend it; empty when nothing need be.
    source : a book or standard, or "common practice".
    change : (path, value) when a single size mends it; the page offers it as a button.
    """

    level: Level
    chapter: str
    fields: tuple[str, ...]
    says: str
    mend: str = ""
    source: str = COMMON
    change: tuple[str, float | str] | None = None


@dataclass(frozen=True)
class Suggestion:
    """A value that usual practice or the other decisions suggest for one field, and why."""

    field: str
    value: float | str
    why: str


def unlocked(findings: Iterable[Finding], fixed: frozenset[str]) -> tuple[Finding, ...]:
    """Return the findings without the button that would change a size a bought part settled."""
    return tuple(
        replace(finding, change=None) if finding.change and finding.change[0] in fixed else finding
        for finding in findings
    )


def still_open(suggestions: Iterable[Suggestion], fixed: frozenset[str]) -> tuple[Suggestion, ...]:
    """Return the suggestions for sizes that no bought part has settled."""
    return tuple(one for one in suggestions if one.field not in fixed)


def by_level(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings with the worst first, otherwise in their order."""
    return tuple(sorted(findings, key=lambda finding: LEVELS.index(finding.level)))
