"""One of two gears on the same engine: what it does, and where it cuts off as wanted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from .events import ENDS, ValveEvents, events_over, valve_as_seen
from .frame import Array, Crank
from .gears import AnyGear
from .kernel import Motion, solve_motion
from .many_events import EVENTS, many_events
from .valves import SlideValve, ValveSetting

FRAMES = np.linspace(0.0, 360.0, 120, endpoint=False)
"""Crank angles of the moving drawing and of the curves, degrees: those of the chapter."""

_TRIED = np.linspace(0.0, 1.0, 9)
"""Places from mid gear to full gear between which a cut-off is looked for."""

_NOT_JOINTS = frozenset(
    {"crank_pin", "gudgeon", "link_centre", "guide_lower", "guide_upper", "slot_forward",
     "slot_backward", "back_port"}
)  # fmt: skip
"""Points through which a part is drawn that are no joint of the gear, or the engine's own."""


def mean(events: ValveEvents, name: str) -> float | None:
    """Return the mean of an event of both ends, % of the stroke; None where one has none."""
    ends = [getattr(getattr(events, end), name) for end in ENDS]
    if any(event is None for event in ends):
        return None
    return float(sum(event.percent for event in ends)) / 2


@dataclass(frozen=True, kw_only=True)
class Side:
    """One of the two gears.

    Parameters
    ----------
    name : by which sentences tell it from the other.
    seen : its valve as the ports see it where it is compared.
    events : in the notches worked, as far as it has them.
    full : the events in full forward gear.
    alike : the events where it is compared.
    shown : the motion at `FRAMES` there.
    displacement : of the valve after setting, as the ports see it, at `FRAMES` there, mm.
    die_slip, die_reach : of the die in its slot there, mm; None where there is none.
    least_margin : least sine of an angle of transmission there.
    parts, joints : for one valve; joints are pins, straps, pivots and die, without those of
        the engine itself.
    """

    name: str
    gear: AnyGear
    valve: SlideValve
    seen: SlideValve
    events: tuple[ValveEvents, ...]
    full: ValveEvents
    alike: ValveEvents
    shown: Motion
    displacement: Array
    die_slip: float | None
    die_reach: float | None
    least_margin: float
    parts: int
    joints: int


@dataclass(frozen=True)
class Fitted:
    """A gear with its valve on the engine's crank."""

    crank: Crank
    valve: SlideValve
    gear: AnyGear
    setting: ValveSetting

    def usable(self, notch: float) -> float:
        """Return the notch, or of a gear without notches the full gear on that side."""
        if self.gear.notched:
            return notch
        return 1.0 if notch >= 0 else -1.0

    def cutoffs(self, reversers: Array) -> Array:
        """Return the mean cut-off at several places of the reverser, % of the stroke, or NaN."""
        with np.errstate(all="ignore"):
            many = many_events(
                self.crank, self.valve, self.gear, reversers, setting=self.setting, polished=True
            )
            cutoff = many.percent[0, :, :, EVENTS.index("cutoff")].mean(axis=-1)
        sound: Array = np.where(many.margin[0] > 0, cutoff, np.nan)
        return sound

    def cutting_off(self, wanted: float, near: float) -> float:
        """Return the place of the reverser with that mean cut-off, the nearest to a notch.

        Where there is none it is the place whose cut-off comes nearest; a gear without notches
        has no choice.

        Parameters
        ----------
        wanted : % of the stroke.
        near : notch; only places on its side of mid gear are looked at.
        """
        if not self.gear.notched:
            return self.usable(near)
        places = _TRIED if near >= 0 else -_TRIED
        miss = self.cutoffs(places) - wanted
        # NaN is on neither side of nothing
        at = [
            self._between(places[i : i + 2], miss[i : i + 2], wanted)
            for i in np.flatnonzero(miss[:-1] * miss[1:] <= 0)
        ]
        if at:
            return min(at, key=lambda place: abs(place - near))
        if np.all(np.isnan(miss)):
            return near
        return float(places[np.nanargmin(np.abs(miss))])

    def _between(self, places: Array, miss: Array, wanted: float) -> float:
        """Close in on a place between two by false position, by the Illinois rule."""
        (a, b), (fa, fb) = map(float, places), map(float, miss)
        if abs(fa) < 1e-9:
            return a
        for _ in range(30):
            c = b - fb * (b - a) / (fb - fa)
            fc = float(self.cutoffs(np.array([c]))[0]) - wanted
            if not abs(fc) > 1e-9:
                return c
            if (fc > 0) != (fb > 0):
                a, fa = b, fb
            else:
                fa /= 2
            b, fb = c, fc
        return b


def side(
    name: str,
    fitted: Fitted,
    notches: Iterable[float],
    alike: float,
    worked: Iterable[ValveEvents] = (),
) -> Side:
    """Return what a gear does in its notches and at `alike`.

    Parameters
    ----------
    worked : events of this gear and setting that are worked already.

    Raises
    ------
    MotionLocks : when it cannot be assembled or locks.
    """
    crank, gear, valve = fitted.crank, fitted.gear, fitted.valve
    rows = tuple(dict.fromkeys(fitted.usable(notch) for notch in notches))
    found = {events.reverser: events for events in worked}
    missing = [row for row in dict.fromkeys((*rows, 1.0, alike)) if row not in found]
    if missing:
        more = events_over(crank, valve, gear, missing, setting=fitted.setting)
        found |= dict(zip(missing, more, strict=True))
    shown = solve_motion(crank, gear, FRAMES, alike)
    drawn = [part for part in gear.parts if all(joint in shown.points for joint in part.joints)]
    return Side(
        name=name,
        gear=gear,
        valve=valve,
        seen=valve_as_seen(gear, valve, alike),
        events=tuple(found[row] for row in rows),
        full=found[1.0],
        alike=found[alike],
        shown=shown,
        displacement=np.broadcast_to(shown.valve, FRAMES.shape) + found[alike].setting,
        die_slip=None if shown.die is None else float(np.ptp(shown.die)),
        die_reach=None if shown.die is None else float(np.abs(shown.die).max()),
        least_margin=min(float(np.min(margin)) for margin in shown.margins.values()),
        parts=len({part.name for part in drawn}),
        joints=len(_joints(gear, shown)),
    )


def _joints(gear: AnyGear, shown: Motion) -> set[str]:
    """Return the joints at which one part of a gear turns or slides on another or in the frames."""
    found: set[str] = set()
    for part in gear.parts:
        if not all(joint in shown.points for joint in part.joints):
            continue
        for i, joint in enumerate(part.joints):
            # a link's own middle is a joint only where it swings about a pivot there
            moves = np.ptp(shown.points[joint].reshape(-1, 2), axis=0).max() > 1e-9
            if joint in _NOT_JOINTS or (part.shape == "slot" and i == 0 and moves):
                continue
            found.add(joint)
    if "trunnion" in found:
        found.discard("valve")  # the port of a cylinder that swings, not a pin
    return found
