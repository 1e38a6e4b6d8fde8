"""Findings of this chapter, put briefly."""

from __future__ import annotations

from ..findings import COMMON, Finding, Level


def said(
    level: Level,
    fields: str,
    says: str,
    mend: str = "",
    source: str = COMMON,
    change: tuple[str, float | str] | None = None,
) -> Finding:
    """Return a finding of this chapter; `fields` are paths inside it, or full
    ones of the motion, parted by spaces."""
    paths = tuple(
        path if path.startswith("motion.") else f"cylinders.{path}" for path in fields.split()
    )
    if change is not None:
        change = (f"cylinders.{change[0]}", change[1])
    return Finding(level, "cylinders", paths, says, mend, source, change)


def three(value: float, digits: int = 3) -> str:
    """Return a number to so many significant figures, never with a power of ten."""
    rounded = float(f"{value:.{digits}g}")
    return f"{rounded:.0f}" if abs(rounded) >= 10 ** (digits - 1) else f"{rounded:g}"
