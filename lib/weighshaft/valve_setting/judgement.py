"""What is to be said of the readings, of the faults found and of working with air."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from ..findings import Finding
from ..motion.many_events import ManyEvents
from .advise import said, where
from .decisions import BY_ANGLE, EVENTS, LEAD, AirTest, Mends, Reading
from .faults import Fault, amount
from .fit import Fit
from .readings import Points
from .results import FOUND, SideSet

CHAPTER = "valve_setting"
LOW = 1.5
"""Air pressure up to which an engine on the stand is usually turned by hand, bar."""
_CAUTIONS = (
    "Air at low pressure only, a third to one bar, through a valve in reach; shut it before a "
    "hand goes near the motion.",
    "Wheels off the rails or on rollers, the engine blocked; fingers, sleeves and tools clear of "
    "rods, wheels and cranks: the engine may start as soon as a port opens.",
    "Cylinders and valves oiled before air is let in; goggles on, since air blows oil and swarf "
    "about.",
    "Turn the wheels by hand, always in the direction of running, so that slack is taken up as "
    "it will be.",
)


def cautions(pressure: float | None) -> tuple[str, ...]:
    """Return what to heed on the stand."""
    limit = "the boiler's working pressure"
    if pressure is not None:
        limit += f", {pressure:.1f} bar"
    return (
        *_CAUTIONS,
        f"Never above {limit}, and air blown into a boiler is no test of it: that is the club's "
        "boiler inspector's with water.",
    )


def of_air(test: AirTest, pressure: float | None) -> Iterator[Finding]:
    """Judge the air's pressure."""
    path, air = ("valve_setting.air_pressure",), test.air_pressure
    if pressure is not None and air > pressure:
        yield Finding(
            "stop", CHAPTER, path,
            f"Air at {air:.1f} bar is above the boiler's working pressure of {pressure:.1f} bar.",
            "0.7 bar is enough to hear the ports open.", change=(path[0], 0.7),
        )  # fmt: skip
    elif air > LOW:
        yield Finding(
            "check", CHAPTER, path,
            f"Air at {air:.1f} bar drives the engine hard enough to catch a hand.",
            f"Up to {LOW:.1f} bar is enough to hear the ports open; 0.7 bar is usual.",
            change=(path[0], 0.7),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, path,
            f"{air:.1f} bar of air lets the ports be heard and hardly drives the engine; heed the "
            "cautions all the same.",
        )  # fmt: skip


def would_lock(side: str) -> Finding:
    """Say that what the readings amount to cannot be an engine that turns."""
    return Finding(
        "check", CHAPTER, ("valve_setting.readings", "valve_setting.believed"),
        f"{side.capitalize()} cylinder: With the sizes that these readings lead to the gear would "
        "lock, so that they cannot all be right; nothing is concluded from them.",
        "Look at the readings again, or allow the workshop less.",
    )  # fmt: skip


def nothing_to_set() -> Finding:
    """Say that an oscillating cylinder has no valve."""
    return Finding(
        "fine",
        CHAPTER,
        ("motion.gear",),
        "An oscillating cylinder has no valve to set: its ports are set when they are drilled.",
    )


def cannot_be(reading: Reading, designed: ManyEvents, rows: Sequence[float]) -> str:
    """Say why a reading cannot be, beside what the drawing has there."""
    has = expected(reading, designed, 0, rows)
    drawn = (
        "as drawn this does not happen there at all" if has is None
        else f"as drawn it is {has}, and no fault of the workshop that may be believed moves it "
        "so far"
    )  # fmt: skip
    return f"gives {read(reading)}, which cannot be: {drawn}"


def wrong_way(reading: Reading) -> str:
    """Say that the port does the opposite there."""
    opens = reading.what in (EVENTS[0], EVENTS[2])
    other = EVENTS[EVENTS.index(reading.what) + (1 if opens else -1)]
    does = "shuts there, not opens" if opens else "opens there, not shuts"
    return f"gives {read(reading)}, but the port {does}: was it “{other}”?"


def read(reading: Reading) -> str:
    """Return the figure of a reading with its unit."""
    figure = reading.figure
    assert figure is not None
    if not reading.is_event:
        return f"{figure:.2f} mm"
    return {BY_ANGLE: f"{figure:.1f}°", "piston, % of stroke": f"{figure:.1f} %"}.get(
        reading.measured, f"{figure:.2f} mm"
    )


def expected(reading: Reading, events: ManyEvents, which: int, rows: Sequence[float]) -> str | None:
    """Return what one of the engines would show there, in words; None where nothing happens."""
    m, e = rows.index(reading.reverser or 0.0), 0 if reading.end == "front" else 1
    if not reading.is_event:
        opening = events.lead if reading.what == LEAD else events.opening
        return f"{opening[which, m, e]:.2f} mm"
    i = EVENTS.index(reading.what)
    angle, percent = events.angle[which, m, e, i], events.percent[which, m, e, i]
    if not np.isfinite(angle):
        return None
    if reading.measured == BY_ANGLE:
        return f"{angle:.1f}°"
    return f"{percent:.1f} % of the stroke"


def of_readings(
    done: SideSet, numbered: Mapping[int, Reading], refused: Mapping[int, str],
    fitted: Fit | None, points: Points,
) -> Iterator[Finding]:  # fmt: skip
    """Say which readings do not go with the others, cannot be, or are not there yet."""
    for number, why in refused.items():
        waits = "has no figure yet" in why
        yield Finding(
            "fine" if waits else "check", CHAPTER, (_path(number),),
            f"Reading {number} ({_of(numbered[number])}) {why}.",
            "" if waits else "Look at it again on the engine; it is left out.",
        )  # fmt: skip
    if fitted is None:
        return
    rivals = {points.numbers[a]: points.numbers[b] for a, b in fitted.rivals}
    for one in done.readings:
        if one.used:
            continue
        reading = numbered[one.number]
        says = expected(reading, done.events, FOUND, done.rows)
        other = rivals.get(one.number)
        doubt = "" if other is None else (
            f"; it may as well be reading {other} ({_of(numbered[other])}) that is wrong"
        )  # fmt: skip
        yield Finding(
            "check", CHAPTER, (_path(one.number),),
            f"Reading {one.number} ({_of(reading)}) does not go with the others: it gives "
            f"{read(reading)}, they say {says or 'that this does not happen'}{doubt}.",
            "Take it again; until then it is left out.",
        )  # fmt: skip
    if done.scatter > 1.6:
        yield Finding(
            "check", CHAPTER, ("valve_setting.instruments",),
            f"On the {done.side} side the readings scatter {done.scatter:.1f} times as far as "
            "their accuracy lets expect; what is stated is widened accordingly.",
            "Take up slack in one sense only, or allow a wider accuracy; something that is not "
            "asked about may be out as well.",
        )  # fmt: skip


def of_faults(
    done: SideSet, faults: Sequence[Fault], mends: Mends, least: float
) -> Iterator[Finding]:
    """Say what to move, what only new metal mends, and what the readings do not tell.

    Parameters
    ----------
    least : by less than which the valve is not moved, mm.
    """
    if not done.readings:
        return
    moved = {one.fault for one in done.mendings}
    path = ("valve_setting.readings",)
    for one in done.mendings:
        yield Finding(
            "check", CHAPTER, path,
            f"{_side(done)} {one.what[0].upper()}{one.what[1:]} wants to be moved by "
            f"{amount(abs(one.amount), one.unit)}, known to within "
            f"{amount(one.within, one.unit)}.",
            one.says,
        )  # fmt: skip
    valve = next((one for one in done.faults if one.sort == "valve"), None)
    if done.spared is not None:
        what = (
            "half of what an opening can be read to" if mends.held == "clamped"
            else "a twelfth of a turn of its nut"
        )  # fmt: skip
        yield Finding(
            "fine", CHAPTER, path,
            f"{_side(done)} The valve would have to go {abs(done.spared):.3f} mm "
            f"{'ahead' if done.spared > 0 else 'back'}, which is less than {what}, "
            f"{least:.3f} mm: leave it.",
        )  # fmt: skip
    elif valve is not None and valve.is_out and 0 not in moved:
        yield Finding(
            "check", CHAPTER, ("valve_setting.mends.held",),
            f"{_side(done)} The valve stands {valve.says}, and no step of its spindle comes much "
            "nearer.",
            "A shim behind the nut or a finer thread would.",
        )  # fmt: skip
    stays = {"throw", "lever", "lap", "exhaust lap"}
    stays |= {"tilt", "height"} if mends.guide == "fixed" else set()
    index = {fault.name: i for i, fault in enumerate(faults)}
    for found in done.faults:
        if not found.is_out or found.sort == "together" or index[found.name] in moved:
            continue
        if found.sort in stays:
            yield Finding(
                "check", CHAPTER, path,
                f"{_side(done)} {found.name[0].upper()}{found.name[1:]} is {found.says}, known to "
                f"within {amount(found.within, found.unit)}.",
                "No setting mends that: the part would have to be altered or made anew.",
            )  # fmt: skip
    unknown = [one.name for one in done.faults if not one.determined]
    apart = any(one.sort in ("valve", "rod") and not one.determined for one in done.faults)
    joint = any(one.sort == "together" and one.determined for one in done.faults)
    alike = (
        "Valve and rods move the valve alike and cannot be told apart; what they make together is "
        "known, and is mended at the spindle and one rod." if apart and joint else ""
    )  # fmt: skip
    if unknown:
        yield Finding(
            "fine", CHAPTER, path,
            f"{_side(done)} Not determined by these readings: {', '.join(unknown)}.",
            alike,
        )  # fmt: skip
    if not done.mendings and not any(one.is_out for one in done.faults):
        yield Finding(
            "fine", CHAPTER, path,
            f"{_side(done)} Nothing is known to be out: whatever there is, is smaller than the "
            "doubt about it.",
        )  # fmt: skip


def of_advice(done: SideSet) -> Iterator[Finding]:
    """Say which reading to take next."""
    if not done.advice:
        return
    first = done.advice[0]
    when = "next" if done.readings else "first"
    yield Finding(
        "fine", CHAPTER, ("valve_setting.readings",),
        f"{_side(done)} To be measured {when}: {said(first.reading)}; it takes away "
        f"{first.gain:.0f} % of what is in doubt, most of all about the {first.fault}.",
    )  # fmt: skip


def _side(done: SideSet) -> str:
    return f"{done.side.capitalize()} cylinder:"


def _path(number: int) -> str:
    return f"valve_setting.readings.{number - 1}"


def _of(reading: Reading) -> str:
    return f"{reading.what}, {reading.end}, {where(reading)}"
