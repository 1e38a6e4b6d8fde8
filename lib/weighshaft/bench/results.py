"""What the chapter shows."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..sizes import figure
from ..working import Working
from .plan import Advice


@dataclass(frozen=True)
class Compared:
    """One run beside what was reckoned of it.

    Parameters
    ----------
    number : as the builder counts the runs, from 1.
    measured, within : in `unit`, and per cent.
    before, after, band : reckoned, and per cent; None where no fit stands.
    departs : standard deviations from what the others say.
    used : "yes", "set aside", or why it could not be.
    """

    number: int
    what: str
    unit: str
    measured: float | None
    within: float
    before: float | None
    after: float | None
    band: float | None
    departs: float | None
    used: str


@dataclass(frozen=True)
class Known:
    """One coefficient, its range in practice, and what the fit makes of it.

    Parameters
    ----------
    told : a figure in the builder's words and unit, by the same names.
    """

    key: str
    title: str
    path: str
    source: str
    now: float
    low: float
    high: float
    value: float | None
    least: float | None
    most: float | None
    determined: bool
    told: dict[str, str]


@dataclass(frozen=True, eq=False, kw_only=True)
class BenchResult:
    """Figures and findings; nothing here is marched, the fit is kept in the design."""

    measured: int = figure("Runs measured", "count", main=True)
    used: int = figure("Runs that the last fit used", "count", main=True)
    determined: int = figure("Coefficients that the runs determine", "count", main=True)
    off_before: float | None = figure("Reckoned before the fit, off by, middle one", "%", main=True)
    off_after: float | None = figure("Reckoned after the fit, off by, middle one", "%", main=True)
    stands: bool
    compared: tuple[Compared, ...]
    known: tuple[Known, ...]
    advice: tuple[Advice, ...]
    takes: tuple[tuple[str, float], ...]
    cautions: tuple[str, ...]
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
