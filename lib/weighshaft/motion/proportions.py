"""A sensible gear from a few sizes: laid out by usual proportions, then fitted to its events.

The proportions are common practice; what they give is only a start.  `fitted` then turns
throw, advance and lap until the real linkage gives the cut-off, lead and port opening that
are wanted in full forward gear, and `levelled` moves one pin until the ends agree.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from ..sizes import SizeError
from .change_over import ChangeOver
from .equivalent import Wanted, sizes_for_events
from .events import ValveEvents, events_over, valve_events
from .frame import Array, Crank, MotionLocks
from .gears import GEARS, LAPLESS, AnyGear
from .kernel import GRID, solve_motion
from .valves import SlideValve


@dataclass(frozen=True)
class Proposal:
    """A gear laid out for an engine, and the steam lap that goes with it."""

    gear: AnyGear
    steam_lap: float


def proposed(kind: str, crank: Crank, valve: SlideValve, wanted: Wanted) -> Proposal:
    """Lay out a gear of a kind for this crank, valve and events wanted.

    Parameters
    ----------
    kind : word of the gear, a key of `GEARS`.
    valve : its ports and the edge that admits; its lap is replaced by the proposal's.

    Raises
    ------
    SizeError : when no such gear is known, or nothing fits the events wanted.
    """
    if kind not in GEARS:
        raise SizeError(f"Gear: “{kind}” is not one of {', '.join(GEARS)}.", "gear")
    opening = wanted.port_opening or valve.port_width
    sizes = sizes_for_events(wanted.cutoff, wanted.lead, opening)
    if sizes.throw > 0.6 * crank.throw and not issubclass(GEARS[kind], LAPLESS):
        raise SizeError(
            f"Wanted events: {wanted.cutoff:g} % cut-off with {opening:g} mm opening calls for "
            f"{sizes.travel:.1f} mm of valve travel, too much beside a stroke of "
            f"{crank.stroke:g} mm; a cut-off nearer 78 % or a smaller opening would do.",
            "wanted",
        )
    gear: AnyGear = GEARS[kind].laid_out(crank, sizes, wanted, valve.admission)
    gear, lap = fitted(gear, crank, replace(valve, steam_lap=sizes.steam_lap), wanted)
    if gear.neighbours():
        gear = levelled(gear, crank, replace(valve, steam_lap=lap))
        gear, lap = fitted(gear, crank, replace(valve, steam_lap=lap), wanted)
    return Proposal(_slotted(gear, crank), lap)


def _slotted(gear: AnyGear, crank: Crank) -> AnyGear:
    """Return the gear with a slot that the die does not leave, a twentieth to spare."""
    if not hasattr(gear, "slot_length"):
        return gear
    die = solve_motion(crank, gear, GRID, np.array([1.0, 0.0, -1.0])).die
    slot: dict[str, Any] = {} if die is None else {"slot_length": 2.1 * float(np.abs(die).max())}
    return replace(gear, **slot)


def fitted(
    gear: AnyGear, crank: Crank, valve: SlideValve, wanted: Wanted, *, rounds: int = 12
) -> tuple[AnyGear, float]:
    """Fit throw, advance and lap on the real linkage to the events wanted in full forward gear.

    Newton's rule on mean cut-off, mean lead and the lesser opening; with Walschaerts' gear
    the combination lever takes the place of the advance, and the eccentric rod follows.

    Returns
    -------
    The gear, and the steam lap.

    Raises
    ------
    SizeError : when the events cannot be had with this layout.
    """
    opening = wanted.port_opening or valve.port_width
    if isinstance(gear, LAPLESS):
        return _without_lap(gear, crank, replace(valve, steam_lap=0.0), opening), 0.0
    target = np.array([wanted.cutoff, wanted.lead, opening])

    def miss(x: Array) -> Array:
        events = valve_events(
            crank, replace(valve, steam_lap=float(x[2])), gear.tuned(float(x[0]), float(x[1])), 1.0
        )
        missed: Array = _measured(events) - target
        return missed

    x = np.array([*gear.tuning, valve.steam_lap])
    step = np.array([1e-4, 1e-4, 1e-4]) * np.maximum(np.abs(x), 0.1)
    try:
        for _ in range(rounds):
            now = miss(x)
            if np.max(np.abs(now) / np.array([1e-3, 1e-4, 1e-4])) < 1:
                return gear.tuned(float(x[0]), float(x[1])), float(x[2])
            slope = np.column_stack([(miss(x + d) - now) / d.max() for d in np.diag(step)])
            move = np.linalg.solve(slope, now)
            x = x - move * min(1.0, 0.3 / np.max(np.abs(move) / np.maximum(np.abs(x), 0.1)))
    except (MotionLocks, np.linalg.LinAlgError, SizeError):
        pass
    raise SizeError(
        f"Wanted events: {wanted.cutoff:g} % cut-off with {wanted.lead:g} mm lead and "
        f"{opening:g} mm opening cannot be had from this layout; a cut-off nearer 78 % or a "
        "smaller opening would do.",
        "wanted",
    )


def _without_lap(gear: AnyGear, crank: Crank, valve: SlideValve, opening: float) -> AnyGear:
    """Return a gear without lap that opens the port as wanted; nothing else can be chosen."""
    if not isinstance(gear, ChangeOver):
        return gear
    for _ in range(6):  # the opening is all but proportional to the throw
        events = valve_events(crank, valve, gear, 1.0)
        opens = min(events.front.port_opening, events.back.port_opening)
        gear = gear.tuned(gear.eccentric_throw * opening / opens, 0.0)
    return gear


def _measured(events: ValveEvents) -> Array:
    if events.front.cutoff is None or events.back.cutoff is None:
        raise SizeError("The ports do not open.", "wanted")
    return np.array(
        [
            (events.front.cutoff.percent + events.back.cutoff.percent) / 2,
            (events.front.lead + events.back.lead) / 2,
            min(events.front.port_opening, events.back.port_opening),
        ]
    )


def levelled(
    gear: AnyGear,
    crank: Crank,
    valve: SlideValve,
    notches: tuple[float, ...] = (1.0, 0.75, 0.5, -0.5, -0.75, -1.0),
) -> AnyGear:
    """Return that neighbour of the gear whose cut-offs of the two ends are most alike.

    A few dozen places of one pin are tried; a search over more pins is another matter.
    """
    best, least = gear, math.inf
    for tried in gear.neighbours():
        try:
            events = events_over(crank, valve, tried, notches)
        except (MotionLocks, SizeError):
            continue
        apart = max(
            abs(one.front.cutoff.percent - one.back.cutoff.percent)
            if one.front.cutoff and one.back.cutoff else 100.0
            for one in events
        )  # fmt: skip
        if apart < least:
            best, least = tried, apart
    return best
