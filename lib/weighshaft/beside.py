"""Side by side: another gear, or a variant of the same, on this engine's crank and ports."""

from __future__ import annotations

from dataclasses import dataclass

from .findings import Finding, Suggestion
from .motion import AnyGear, Crank, MotionLocks, SlideValve, ValveEvents, ValveSetting
from .motion.beside import NoOther, OtherGear, SideBySide, compare
from .sizes import SizeError, figure
from .working import Working

__all__ = ["BesideResult", "NoOther", "OtherGear", "work"]


@dataclass(frozen=True, kw_only=True)
class BesideResult:
    """Both gears compared; nothing where there is no other or it does not turn."""

    cutoff: float | None = figure("Mean cut-off at which both are compared", "%", main=True)
    reverser_other: float | None = figure(
        "Reverser of the gear beside it there", "ratio", main=True
    )
    both: SideBySide | None = None
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()


def work(
    beside: OtherGear,
    *,
    crank: Crank,
    gear: AnyGear,
    valve: SlideValve,
    setting: ValveSetting,
    reversers: tuple[float, ...],
    running_notch: float,
    worked: tuple[ValveEvents, ...] = (),
    fixed: frozenset[str] = frozenset(),
) -> BesideResult:
    """Work the chapter.

    Parameters
    ----------
    crank, gear, valve, setting, reversers, running_notch : the engine's own.
    worked : events of the engine's gear that are worked already.
    fixed : has no say here: nothing of the engine is changed.
    """
    if isinstance(beside.gear, NoOther):
        return BesideResult(cutoff=None, reverser_other=None)
    try:
        both = compare(
            beside, crank=crank, valve=valve, gear=gear, setting=setting, reversers=reversers,
            running_notch=running_notch, worked=worked,
        )  # fmt: skip
    except (MotionLocks, SizeError) as refused:
        says = f"The gear beside it cannot be compared: {refused}"
        found = Finding("check", "beside", ("beside.gear",), says, "Lay it out afresh.")
        return BesideResult(cutoff=None, reverser_other=None, findings=(found,))
    told = Finding("fine", "beside", ("beside.gear",), both.says)
    return BesideResult(
        cutoff=both.cutoff, reverser_other=both.reverser_other, both=both, findings=(told,)
    )
