"""The events of a gear whose axle stands at several heights in the frames, worked together."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .change_over import ChangeOver
from .events import EndEvents, Event, ValveEvents, piston_of, setting_constant
from .fixed_points import with_axle_moved
from .frame import Array, Crank, MotionLocks
from .gears import AnyGear
from .kernel import prove
from .many_events import EVENTS, ManyEvents, many_events
from .oscillating import Oscillating
from .valves import SlideValve, ValveSetting

_ANGLES = 120
"""Crank angles at which the gear is posed for every rise."""

_THIN = 0.05
"""Margin below which a pose might lock between those angles, and is proved in full."""


@dataclass(frozen=True)
class Sprung:
    """A gear whose axle rides on springs.

    Parameters
    ----------
    way : how far ahead and above the axle goes for a rise of 1 mm.
    notches : in which it is looked at.
    """

    crank: Crank
    gear: AnyGear
    way: tuple[float, float]
    notches: tuple[float, ...]

    def at(self, rises: float | Array) -> tuple[Crank, AnyGear]:
        """Return crank and gear with the axle up by that, or a row of both, see `many`."""
        return with_axle_moved(self.crank, self.gear, rises * self.way[0], rises * self.way[1])

    def passes_over(self, rise: float) -> bool:
        """Return whether the connecting rod passes the crank over with the axle up by that."""
        if isinstance(self.gear, Oscillating):
            return True  # it has no connecting rod
        crank = self.crank
        off = abs(crank.cylinder_offset - rise * self.way[1])
        return bool(crank.connecting_rod > crank.throw + off)

    def turns(self, rise: float, margin: float) -> bool:
        """Return whether it turns right round; `margin` is the least one at some angles."""
        if not margin > 0 or not self.passes_over(rise):
            return False
        if margin > _THIN:
            return True
        try:
            prove(*self.at(rise), self.notches)
        except MotionLocks:
            return False
        return True


@dataclass(frozen=True)
class Risen:
    """Events by rise and by notch, whether or not the motion turns there.

    Parameters
    ----------
    margin : (rises,) least margin against locking.
    die_reach : (rises,) how far the die goes from the middle of its slot, mm.
    """

    events: tuple[tuple[ValveEvents, ...], ...]
    margin: Array
    die_reach: Array | None


def worked_at(sprung: Sprung, valve: SlideValve, setting: ValveSetting, rises: Array) -> Risen:
    """Return the events at several rises of the axle, mm, of a valve set with the axle at 0."""
    crank, gear, notches = sprung.crank, sprung.gear, sprung.notches
    # many_events adds the offset of a valve moved from its setting by itself
    level = setting_constant(crank, valve, gear, setting) - valve.valve_offset
    columns: list[list[ValveEvents]] = []
    margins, reaches = [], []
    with np.errstate(all="ignore"):  # a rise at which nothing fits gives no numbers
        raised = sprung.at(rises)
        # a gear that knows forward and backward alone may see the valve turned about in one
        for group in [notches] if gear.notched else [(notch,) for notch in notches]:
            slid = _slid(sprung, raised, rises * sprung.way[0], level, group[0])
            many = many_events(
                raised[0], valve, raised[1], group, setting=ValveSetting(reverser=group[0]),
                angles=_ANGLES, polished=True, constant=level + np.reshape(slid, (-1, 1)),
            )  # fmt: skip
            percent = _in_cylinder(sprung, raised, rises * sprung.way[0], many.percent)
            columns += [_column(many, percent, j, notch) for j, notch in enumerate(group)]
            margins.append(many.margin.min(axis=1))
            if many.die_reach is not None:
                reaches.append(np.broadcast_to(many.die_reach.max(axis=1), rises.shape))
    return Risen(
        tuple(zip(*columns, strict=True)),
        np.broadcast_to(np.min(margins, axis=0), rises.shape),
        np.max(reaches, axis=0) if reaches else None,
    )


def _slid(
    sprung: Sprung, raised: tuple[Crank, AnyGear], ahead: Array, level: float, notch: float
) -> Array:
    """Return what the ports see besides the risen gear's own displacement, mm, by rise.

    The spindle's line is measured from where it passes the axle, and that has gone ahead.
    """
    gear, crank = sprung.gear, sprung.crank
    if isinstance(gear, Oscillating):
        # the fixed face does not turn with the line of centres, from which the swing counts
        turned = piston_of(raised[1], raised[0]).inclined - piston_of(gear, crank).inclined  # type: ignore[attr-defined]
        return np.ravel(turned) * gear.port_radius * (-1.0 if notch > 0 else 1.0)
    along = ahead / np.cos(np.radians(gear.valve_angle))
    if isinstance(gear, ChangeOver) and notch < 0:
        # xi is turned about the middle of the dead centres: about that of the axle at rest
        row = np.array([[-1.0]])
        rest = np.mean(gear.pose(crank, crank.centres, row).valve)
        now = np.mean(raised[1].pose(raised[0], raised[0].centres, row).valve, axis=-1)
        return np.asarray(2 * (rest - np.ravel(now)) - along)
    return np.asarray(along)


def _in_cylinder(
    sprung: Sprung, raised: tuple[Crank, AnyGear], ahead: Array, percent: Array
) -> Array:
    """Return places of the piston, (k, m, ends, events), counted in the cylinder as built.

    Those of admission stay counted from the dead centre as it is, which may be past.
    """
    built, now = piston_of(sprung.gear, sprung.crank), piston_of(raised[1], raised[0])
    gone = ahead
    if isinstance(sprung.gear, Oscillating):
        gone = np.ravel(built.trunnion - now.trunnion)  # type: ignore[attr-defined]
    stroke, front = built.piston_stroke, built.gudgeon_ends[0]
    share = np.ravel(now.piston_stroke) / stroke
    behind = (front - np.ravel(now.gudgeon_ends[0]) - gone) / stroke
    offsets = 100 * np.stack(np.broadcast_arrays(behind, 1 - share - behind), axis=-1)
    counted = percent.copy()
    counted[..., 1:] = (
        np.reshape(share, (-1, 1, 1, 1)) * percent[..., 1:] + offsets[:, None, :, None]
    )
    return counted


def _column(many: ManyEvents, percent: Array, column: int, notch: float) -> list[ValveEvents]:
    """Return the events of one notch, by rise."""
    k = len(many.setting)

    def end(i: int, number: int) -> EndEvents:
        at, there = (
            np.broadcast_to(a, (k, *a.shape[1:]))[i, column, number] for a in (many.angle, percent)
        )
        found = {
            name: Event(angle=float(a), percent=float(p)) if np.isfinite(a) else None
            for name, a, p in zip(EVENTS, at, there, strict=True)
        }
        lead, opening, openings = (
            np.broadcast_to(a, (k, *a.shape[1:]))[i, column, number]
            for a in (many.lead, many.opening, many.openings)
        )
        return EndEvents(
            **found, lead=float(lead), port_opening=float(opening),
            steam_openings=int(openings[0]), exhaust_openings=int(openings[1]),
        )  # fmt: skip

    travel = np.broadcast_to(many.travel, (k, many.travel.shape[1]))
    return [
        ValveEvents(
            reverser=notch, travel=float(travel[i, column]),
            setting=float(many.setting[i, 0]), front=end(i, 0), back=end(i, 1),
        )
        for i in range(k)
    ]  # fmt: skip
