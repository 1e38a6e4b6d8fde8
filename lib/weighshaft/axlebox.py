"""The motion on its springs: what an axle that rises and falls does to the events."""

from __future__ import annotations

from dataclasses import dataclass, replace

from .findings import Suggestion
from .motion import AnyGear, Crank, SlideValve, ValveSetting
from .motion.axlebox import AxleboxEffect, axlebox_effect
from .sizes import check_sizes, size

_LEAST = 0.2
"""Rise that is looked at where the wheels' chapter allows of none, mm."""


@dataclass(frozen=True, kw_only=True)
class Axlebox:
    """What the builder decides: how far the driving axle moves."""

    rise: float | None = size(
        "Driving axle rises and falls by", low=0.01, high=50, default=None, main=True,
        help="from its working height; left empty: one axle above its neighbour, in Wheels",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class AxleboxResult(AxleboxEffect):
    """The effect on the events, and the rise that is taken where none is given."""

    suggestions: tuple[Suggestion, ...]


def work(
    axlebox: Axlebox,
    *,
    crank: Crank,
    gear: AnyGear,
    valve: SlideValve,
    setting: ValveSetting,
    running_notch: float,
    inclination: float,
    axle_lift: float,
    fixed: frozenset[str] = frozenset(),
) -> AxleboxResult:
    """Work the chapter.

    Parameters
    ----------
    inclination : of the cylinder from the level, degrees, its front end the higher.
    axle_lift : by how much one axle may stand above its neighbour, mm.
    fixed : has no say here: nothing of the engine is changed.

    Raises
    ------
    MotionLocks : when the gear locks at its working height.
    """
    usual = max(axle_lift, _LEAST)
    effect = axlebox_effect(
        crank, gear, valve, setting, rise=usual if axlebox.rise is None else axlebox.rise,
        running_notch=running_notch, inclination=inclination, field="axlebox.rise",
    )  # fmt: skip
    findings = tuple(replace(one, chapter="axlebox") for one in effect.findings)
    taken = Suggestion("axlebox.rise", usual, "one axle above its neighbour, in Wheels")
    return AxleboxResult(**{**vars(effect), "findings": findings}, suggestions=(taken,))
