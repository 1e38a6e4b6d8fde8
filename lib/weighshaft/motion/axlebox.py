"""Axleboxes rising and falling on their springs: what that does to the events.

The driving axle rises with all that is fixed to it: crank, eccentrics, return crank.  The
valve keeps the setting that it was given with the axle at its working height.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ..findings import Finding
from ..sizes import SizeError, figure
from .axle_rises import Risen, Sprung, worked_at
from .events import ENDS, EndEvents, ValveEvents
from .fixed_points import way_of_rise
from .frame import Crank, MotionLocks
from .gears import AnyGear
from .kernel import GRID, prove
from .valves import SlideValve, ValveSetting, check_admission

_STEPS = (-1.0, -0.5, 0.0, 0.5, 1.0)
"""Shares of the rise at which the events are worked."""

_MUCH = 3.0
"""Change of the cut-off over the springs' travel that a builder would look at, % of stroke."""

EVENT_NAMES = ("admission", "cutoff", "release", "compression", "lead", "port_opening")


@dataclass(frozen=True, kw_only=True)
class EventChange:
    """By how much one event changes at most, for each millimetre that the axle rises.

    Parameters
    ----------
    event : one of `EVENT_NAMES`: per cent of the stroke a mm, of the last two mm a mm.
    """

    reverser: float = figure("Reverser", "ratio")
    end: str
    event: str
    per_mm: float = figure("Changes for each mm of rise", "ratio")


@dataclass(frozen=True, kw_only=True)
class AxleboxEffect:
    """What the rise and fall of the axle does to the events.

    Parameters
    ----------
    notches : full forward, the notch looked at, full backward; each once.
    look : the notch looked at.
    rises : mm, upwards positive; only those at which the motion turns.
    events : by rise, by notch.  The piston's place is counted in the cylinder as built, so
        that with an inclined cylinder its shift counts; admission and lead are told at the
        dead centre as it stands with the axle there.
    changes : the greatest change of each event for each millimetre.
    """

    cutoff_front_per_mm: float | None = figure(
        "Cut-off, front, for each mm of rise, notch looked at", "%", main=True
    )
    cutoff_back_per_mm: float | None = figure(
        "Cut-off, back, for each mm of rise, notch looked at", "%", main=True
    )
    cutoff_change: float | None = figure("Cut-off changes at most, notch looked at", "%")
    lead_change: float = figure("Lead changes at most, notch looked at")
    piston_ahead: float = figure("Piston nearer the front cover with the axle up")
    die_reach: float | None = figure("Die goes furthest from the middle of its slot")
    notches: tuple[float, ...]
    look: float
    rises: tuple[float, ...]
    events: tuple[tuple[ValveEvents, ...], ...]
    changes: tuple[EventChange, ...]
    findings: tuple[Finding, ...]

    @property
    def running(self) -> tuple[ValveEvents, ...]:
        """The events in the notch looked at, by rise."""
        column = self.notches.index(self.look)
        return tuple(row[column] for row in self.events)


def axlebox_effect(
    crank: Crank,
    gear: AnyGear,
    valve: SlideValve,
    setting: ValveSetting,
    *,
    rise: float,
    running_notch: float,
    inclination: float = 0.0,
    field: str = "motion.axle_rise",
) -> AxleboxEffect:
    """Return the events with the axle up and down on its springs.

    Parameters
    ----------
    rise : how far the axle goes up, and as far down, from its working height, mm.
    running_notch : the notch looked at, beside full forward and full backward gear.
    inclination : of the cylinder from the level, degrees, positive where its front end is the
        higher; the horn guides are upright.
    field : path of the decision that `rise` is, for the findings.

    Raises
    ------
    SizeError : for a rise that is not above 0.
    MotionLocks : when the gear locks with the axle at its working height.
    """
    if not (np.isfinite(rise) and rise > 0):
        raise SizeError(
            f"Rise of the axle: {rise:g} mm will not do; a length above 0 mm is needed.",
            field.rpartition(".")[2],
        )
    check_admission(valve, getattr(gear, "admission", valve.admission))
    look = running_notch if gear.notched else (1.0 if running_notch >= 0 else -1.0)
    notches = tuple(dict.fromkeys((1.0, look, -1.0)))
    sprung = Sprung(crank, gear, way_of_rise(inclination), notches)
    rises = tuple(rise * step for step in _STEPS)
    risen = worked_at(sprung, valve, setting, np.array(rises))
    kept = [i for i in range(len(rises)) if sprung.turns(rises[i], float(risen.margin[i]))]
    if _STEPS.index(0.0) not in kept:
        prove(crank, gear, notches)
        raise MotionLocks("joint with the least room", 0.0, look)
    found = [_locks(sprung, rises[i], field) for i in (0, -1) if i % len(rises) not in kept]
    return _told(sprung, look, risen, rises, kept, found, field)


def _told(
    sprung: Sprung,
    look: float,
    risen: Risen,
    rises: tuple[float, ...],
    kept: list[int],
    found: list[Finding],
    field: str,
) -> AxleboxEffect:
    """Return the figures and findings of the rises at which the motion turns."""
    sound, events = tuple(rises[i] for i in kept), tuple(risen.events[i] for i in kept)
    column = sprung.notches.index(look)
    running = [row[column] for row in events]
    rest = sound.index(0.0)

    def furthest(name: str) -> float | None:
        changes = [
            abs(now - was)
            for end in ENDS
            for was in (_value(getattr(running[rest], end), name),)
            for now in (_value(getattr(one, end), name) for one in running)
            if now is not None and was is not None
        ]
        return max(changes) if changes else None

    reach = None if risen.die_reach is None else float(risen.die_reach[kept].max())
    cutoff = furthest("cutoff")
    found = [*found, *_cutoffs(sound, rest, running, cutoff, field)]
    found += _slot(sprung.gear, risen, kept, field)
    return AxleboxEffect(
        cutoff_front_per_mm=_slope(sound, rest, running, "front"),
        cutoff_back_per_mm=_slope(sound, rest, running, "back"),
        cutoff_change=cutoff,
        lead_change=furthest("lead") or 0.0,
        piston_ahead=rises[-1] * sprung.way[0],
        die_reach=reach,
        notches=sprung.notches,
        look=look,
        rises=sound,
        events=events,
        changes=tuple(_changes(sound, rest, events)),
        findings=tuple(found),
    )


def _value(end: EndEvents, name: str) -> float | None:
    """Return an event in per cent of the stroke, or lead or opening in mm."""
    value = getattr(end, name)
    if value is None or isinstance(value, float):
        return value
    percent: float = value.percent
    return percent


def _slope(
    rises: tuple[float, ...], rest: int, running: list[ValveEvents], end: str
) -> float | None:
    """Return the change of cut-off for 1 mm about the working height, % of the stroke."""
    low, high = max(rest - 1, 0), min(rest + 1, len(rises) - 1)
    first, last = (_value(getattr(running[i], end), "cutoff") for i in (low, high))
    if first is None or last is None or low == high:
        return None
    return (last - first) / (rises[high] - rises[low])


def _changes(
    rises: tuple[float, ...], rest: int, events: tuple[tuple[ValveEvents, ...], ...]
) -> Iterator[EventChange]:
    for column, still in enumerate(events[rest]):
        for end in ENDS:
            for name in EVENT_NAMES:
                was = _value(getattr(still, end), name)
                now = [_value(getattr(row[column], end), name) for row in events]
                rates = [
                    abs(value - was) / abs(rise)
                    for value, rise in zip(now, rises, strict=True)
                    if rise and value is not None and was is not None
                ]
                if rates:
                    yield EventChange(
                        reverser=still.reverser, end=end, event=name, per_mm=max(rates)
                    )


def _up(rise: float) -> str:
    """Say where the axle is."""
    return f"{abs(rise):.2f} mm {'up' if rise > 0 else 'down'}"


def _cutoffs(
    rises: tuple[float, ...],
    rest: int,
    running: list[ValveEvents],
    changes: float | None,
    field: str,
) -> list[Finding]:
    """Say what becomes of the cut-off in the notch looked at."""
    lost = [
        (rise, end)
        for rise, events in zip(rises, running, strict=True)
        for end in ENDS
        if getattr(events, end).cutoff is None and getattr(running[rest], end).cutoff is not None
    ]
    if lost:
        rise, end = min(lost, key=lambda one: abs(one[0]))
        return [
            Finding(
                "check", "motion", (field,),
                f"With the axle {_up(rise)} the {end} port no longer opens in the notch looked "
                "at.", "Stiffer springs, or a notch nearer full gear.",
            )
        ]  # fmt: skip
    if changes is None:
        return []
    if changes <= _MUCH:
        return [
            Finding(
                "fine", "motion", (field,),
                f"Between {_up(rises[0])} and {_up(rises[-1])} of the axle the cut-off in the "
                f"notch looked at stays within {changes:.1f} % of the stroke of what it is "
                "at rest.",
            )
        ]  # fmt: skip
    moves = [
        (abs(now - was), i, end)
        for end in ENDS
        for was in (_value(getattr(running[rest], end), "cutoff"),)
        for i, now in enumerate(_value(getattr(one, end), "cutoff") for one in running)
        if now is not None and was is not None
    ]
    _, at, end = max(moves)
    first, second = (
        f"{_cutoff(running[at], one)} instead of {_cutoff(running[rest], one)}"
        for one in (end, ENDS[1 - ENDS.index(end)])
    )
    return [
        Finding(
            "check", "motion", (field, "motion.gear"),
            f"With the axle {_up(rises[at])} the {end} cuts off at {first}, the other end at "
            f"{second}, in the notch looked at: the beat goes uneven as the engine rides.",
            "Less play of the springs, or a drive that lies more nearly level: what is taken from "
            "the axle by a rod that stands steeply passes the rise on to the valve.",
        )
    ]  # fmt: skip


def _cutoff(events: ValveEvents, end: str) -> str:
    value = _value(getattr(events, end), "cutoff")
    return "no opening" if value is None else f"{value:.1f} %"


def _slot(gear: AnyGear, risen: Risen, kept: list[int], field: str) -> list[Finding]:
    """Say where the slot, long enough at rest, ends too soon for an axle that rises."""
    length: float | None = getattr(gear, "slot_length", None)
    if length is None or risen.die_reach is None:
        return []
    needed = 2 * float(risen.die_reach[kept].max())
    if needed <= length or 2 * float(risen.die_reach[_STEPS.index(0.0)]) > length:
        return []
    path = "motion.gear.slot_length"
    return [
        Finding(
            "check", "motion", (path, field),
            f"With the axle up or down the die leaves the slot of {length:.2f} mm by "
            f"{(needed - length) / 2:.2f} mm, which at rest it does not.",
            f"Lengthen the slot to {needed:.2f} mm, or lift less.",
            change=(path, float(np.ceil(needed * 10) / 10)),
        )
    ]  # fmt: skip


def _locks(sprung: Sprung, rise: float, field: str) -> Finding:
    """Say from which rise on the motion locks, to a fiftieth of the travel."""
    rows = np.array(sprung.notches)[:, None]
    between = rise * np.linspace(0.0, 1.0, 51)
    with np.errstate(all="ignore"):
        crank, gear = sprung.at(between)
        margins = gear.pose(crank, np.tile(GRID, (len(rows), 1)), rows).margins
    least = {
        joint: np.broadcast_to(margin, (len(between), len(rows), len(GRID))).min(axis=(1, 2))
        for joint, margin in margins.items()
    }
    passes = [sprung.passes_over(one) for one in between]
    bad = [
        not (passes[i] and all(margin[i] > 0 for margin in least.values()))
        for i in range(len(between))
    ]
    first = bad.index(True) if any(bad) else len(between) - 1
    sound = max(first - 1, 0)
    joint = min(least, key=lambda name: float(least[name][sound]))
    if not passes[first]:
        joint = "gudgeon pin"
    return Finding(
        "stop", "motion", (field, "motion.gear"),
        f"The motion locks at the {joint} with the axle {_up(between[first])}; its springs let it "
        f"go {_up(rise)}.",
        "Stops in the horns short of that, or a longer rod at that joint.",
    )  # fmt: skip
