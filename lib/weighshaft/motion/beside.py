"""Side by side: another gear, or another variant of one, on the same engine.

Both drive from the same crank to the same ports.  To be fair they are compared at the same
mean cut-off: the other gear stands where it cuts off as the first does in the notch looked
at, or where it cannot, the first where the other does.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from ..sizes import SizeError, check_sizes, figure, size
from .beside_sides import Fitted, Side, mean, side
from .beside_told import Measure, measures
from .events import ValveEvents
from .frame import VAST, Crank
from .gears import AnyGear
from .valves import SlideValve, ValveSetting

_SAME = 1e-6
"""Mean cut-offs that differ by less are the same, % of the stroke."""


@dataclass(frozen=True, kw_only=True)
class NoOther:
    """Nothing stands beside the engine's gear."""

    kind: ClassVar[str] = "none"
    title: ClassVar[str] = "No other gear"


@dataclass(frozen=True, kw_only=True)
class OtherGear:
    """The gear beside it: its own sizes and laps, on the engine's crank and ports."""

    title: ClassVar[str] = "Gear beside it"

    gear: NoOther | AnyGear = NoOther()
    steam_lap: float | None = size(
        "Steam lap of the gear beside it", low=-VAST, high=VAST, default=None, main=True,
        help="as that of the valve unless given",
    )  # fmt: skip
    exhaust_lap: float | None = size(
        "Exhaust lap of the gear beside it", low=-VAST, high=VAST, default=None,
        help="as that of the valve unless given; negative: exhaust clearance",
    )  # fmt: skip
    valve_offset: float = size(
        "Valve of the gear beside it moved ahead of its setting", low=-VAST, high=VAST, default=0.0
    )

    def __post_init__(self) -> None:
        check_sizes(self)

    def valve_on(self, valve: SlideValve) -> SlideValve:
        """Return this gear's valve, over the ports of the engine's."""
        return replace(
            valve,
            steam_lap=valve.steam_lap if self.steam_lap is None else self.steam_lap,
            exhaust_lap=valve.exhaust_lap if self.exhaust_lap is None else self.exhaust_lap,
            valve_offset=self.valve_offset,
            admission=getattr(self.gear, "admission", valve.admission),
        )


@dataclass(frozen=True, kw_only=True)
class SideBySide:
    """Two gears on one engine.

    Parameters
    ----------
    same_cutoff : whether both stand at the same mean cut-off in what is compared.
    says : where they are compared, one sentence.
    measures : one by one; no total is made of them, it is the builder who weighs them.
    """

    cutoff: float | None = figure("Mean cut-off at which both are compared", "%", main=True)
    reverser_first: float = figure("Reverser of the gear there", "ratio")
    reverser_other: float = figure("Reverser of the gear beside it there", "ratio", main=True)
    same_cutoff: bool
    says: str
    crank: Crank
    first: Side
    other: Side
    measures: tuple[Measure, ...]


def compare(
    other: OtherGear,
    *,
    crank: Crank,
    valve: SlideValve,
    gear: AnyGear,
    setting: ValveSetting,
    reversers: tuple[float, ...],
    running_notch: float,
    worked: Iterable[ValveEvents] = (),
) -> SideBySide:
    """Return two gears side by side on one engine.

    Parameters
    ----------
    other : the gear beside it.
    valve, gear, setting, reversers, running_notch : as the design has them; rule and notch
        of the setting hold for both.
    worked : events of `gear` that are worked already, which saves time.

    Raises
    ------
    MotionLocks : when either gear cannot be assembled or locks.
    SizeError : when sizes contradict one another.
    """
    one = Fitted(crank, valve, gear, setting)
    if isinstance(other.gear, NoOther):
        raise SizeError("Gear beside it: there is none.", "gear")
    two = Fitted(crank, other.valve_on(valve), other.gear, setting)
    name_one, name_two = _names(gear, other.gear)
    at_one, at_two = _alike(one, two, running_notch)
    first = side(name_one, one, reversers, at_one, worked)
    second = side(name_two, two, reversers, at_two)
    ends = mean(first.alike, "cutoff"), mean(second.alike, "cutoff")
    same = ends[0] is not None and ends[1] is not None and abs(ends[0] - ends[1]) < _SAME
    places = f"the reverser at {at_one:+.2f} for {name_one} and at {at_two:+.2f} for {name_two}"
    if same:
        says = f"Compared at a mean cut-off of {ends[0]:.1f} % of the stroke: {places}."
    else:
        words = ["no cut-off" if end is None else f"{end:.1f} %" for end in ends]
        says = (
            "They cannot be brought to the same mean cut-off; compared as near as they come, with "
            f"{words[0]} and {words[1]} of the stroke: {places}."
        )
    return SideBySide(
        cutoff=ends[0] if same else None, reverser_first=at_one, reverser_other=at_two,
        same_cutoff=same, says=says, crank=crank, first=first, other=second,
        measures=measures(first, second),
    )  # fmt: skip


def _names(gear: AnyGear, other: AnyGear) -> tuple[str, str]:
    """Return by what each is called in a sentence; variants of one by where they stand."""
    if gear.kind == other.kind:
        return "the gear as it is", "the gear beside it"

    def name(one: AnyGear) -> str:
        if one.kind[0].isupper():  # named after a person
            return one.title
        return f"the {one.title[0].lower()}{one.title[1:]}"

    return name(gear), name(other)


def _alike(one: Fitted, two: Fitted, notch: float) -> tuple[float, float]:
    """Return the reversers at which both cut off alike, or as nearly as they come.

    The first stays in the notch looked at if the other can be brought to its cut-off.
    """
    look_one, look_two = one.usable(notch), two.usable(notch)
    if one == two:
        return look_one, look_two

    def cutoff(fitted: Fitted, at: float) -> float:
        return float(fitted.cutoffs(np.array([at]))[0])

    wanted = cutoff(one, look_one)
    if np.isnan(wanted):
        return look_one, look_two
    at = two.cutting_off(wanted, look_two)
    reached = cutoff(two, at)
    if abs(reached - wanted) < _SAME or np.isnan(reached):
        return look_one, at
    # the first goes to the cut-off at which the other has come nearest
    return one.cutting_off(reached, look_one), at
