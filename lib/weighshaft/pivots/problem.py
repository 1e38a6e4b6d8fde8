"""The search as one value: gear, what may move, what counts and what must hold.

A `Problem` is frozen and can be sent to any other process.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from ..motion import AnyGear, Crank, SlideValve, ValveSetting, Wanted
from ..motion.frame import Array
from ..motion.gears import LAPLESS
from ..motion.many_events import ManyEvents, many_events
from .decisions import NONE, USUAL, Angle, Counting, Holding, Length, Pivots
from .fields import FOLLOWERS, Room, field_of, idle, room, squares, value_now, with_sizes
from .fields import USUAL as USUAL_FIELDS

Clear = Callable[[Any, Crank], Array]
"""From rows of candidates and the crank to the least gap of each, (k,) mm."""

_FEW_ANGLES = np.linspace(0.0, 360.0, 24, endpoint=False)
SINE, SWING = 0.64, 50.0
"""Least sine of an angle of transmission, and greatest swing of a link in degrees.

Common practice: 40 degrees at every joint, 25 degrees of swing either way.
"""


@dataclass(frozen=True)
class Limits:
    """What has to hold: least sine, greatest swing (deg), greatest reach of the die, least gap."""

    margin: float
    swing: float
    reach: float
    gap: float


@dataclass(frozen=True)
class Problem:
    """What is searched.

    Parameters
    ----------
    rooms : what may move.
    follows : whether rod and return crank follow; see `fields.squares`.
    notches : (m) that count.
    units : so much of each fault counts as one, by its name in `objective.PARTS`.
    kept_cutoff, kept_lead : (m) what the means of both ends should be, NaN where it is free.
    opens : (m) openings to steam that are not to be lost, mm.
    clear : finds the least gap of candidates, where that is to hold.
    """

    gear: AnyGear
    crank: Crank
    valve: SlideValve
    setting: ValveSetting
    rooms: tuple[Room, ...]
    follows: bool
    notches: tuple[float, ...]
    units: tuple[tuple[str, float], ...]
    limits: Limits
    kept_cutoff: tuple[float, ...]
    kept_lead: tuple[float, ...]
    opens: tuple[float, ...]
    clear: Clear | None = None

    def candidates(self, x: Array) -> AnyGear:
        """Return gears in rows for places (k, n) in the rooms, each from 0 (low) to 1 (high)."""
        values = {
            one.field: one.low + np.asarray(x)[:, i] * (one.high - one.low)
            for i, one in enumerate(self.rooms)
        }
        return with_sizes(self.gear, values, follows=self.follows)

    def rows(self, values: Mapping[str, Array]) -> AnyGear:
        """Return gears in rows with sizes as given, nothing following them."""
        return with_sizes(self.gear, values, follows=False)

    def one(self, x: Array) -> AnyGear:
        """Return one gear (n,) as plain numbers, rounded to hundredths within its rooms.

        Raises
        ------
        SizeError : where the gear itself refuses the sizes.
        """
        values = {one.field: _hundredth(one, float(at)) for one, at in zip(self.rooms, x,
                  strict=True)}  # fmt: skip
        rows = {name: np.array([value]) for name, value in values.items()}
        many = with_sizes(self.gear, rows, follows=self.follows)
        if self.follows:
            for name in FOLLOWERS:
                values[name] = round(float(np.ravel(getattr(many, name))[0]), 2)
        changes: dict[str, Any] = values
        return replace(self.gear, **changes)

    def place(self, gear: AnyGear) -> Array:
        """Return where a gear stands in the rooms, (n,) from 0 to 1."""
        return np.array([
            ((value_now(gear, one.field) or 0.0) - one.low) / (one.high - one.low)
            for one in self.rooms
        ])  # fmt: skip

    def events(self, gear: AnyGear, *, polished: bool = False) -> ManyEvents:
        """Return the events of candidates in the notches that count."""
        return many_events(
            self.crank, self.valve, gear, self.notches, setting=self.setting, polished=polished
        )


def _hundredth(one: Room, at: float) -> float:
    """Return a place in a room as a size in hundredths; the present size stays what it is."""
    value = one.low + at * (one.high - one.low)
    if abs(value - one.now) < 0.005:
        return one.now
    rounded = round(value, 2)
    if rounded > one.high:
        rounded = math.floor(100 * one.high) / 100
    if rounded < one.low:
        rounded = math.ceil(100 * one.low) / 100
    return rounded if one.low <= rounded <= one.high else value


def rooms_of(pivots: Pivots, gear: AnyGear, fixed: frozenset[str]) -> tuple[Room, ...]:
    """Return what may move in this gear: the usual sizes and those named, without fixed ones."""
    usual = [name for name, *_ in USUAL_FIELDS.get(gear.kind, ())]
    found: dict[str, Room | None] = {}
    for several, unit in ((pivots.lengths, "mm"), (pivots.angles, "deg")):
        if not several or any(one.name == USUAL for one in several):
            for field in usual:
                known = room(gear, field, None, None)
                if known is not None and known.unit == unit and field not in idle(gear):
                    found[field] = known
        for named in several:
            if named.name not in (USUAL, NONE):
                field = field_of(named.name)
                found[field] = room(gear, field, named.down, named.up)
    return tuple(
        one for field, one in found.items()
        if one is not None and one.high - one.low > 1e-9
        and field not in idle(gear) and f"motion.gear.{field}" not in fixed
    )  # fmt: skip


def named_of(pivots: Pivots) -> tuple[tuple[str, Length | Angle], ...]:
    """Return path and entry of all that the builder named himself."""
    entries: list[tuple[str, Length | Angle]] = [
        *((f"pivots.lengths.{i}", one) for i, one in enumerate(pivots.lengths)),
        *((f"pivots.angles.{i}", one) for i, one in enumerate(pivots.angles)),
    ]
    return tuple(entry for entry in entries if entry[1].name not in (USUAL, NONE))


def posed(
    pivots: Pivots,
    *,
    gear: AnyGear,
    crank: Crank,
    valve: SlideValve,
    setting: ValveSetting,
    wanted: Wanted,
    fixed: frozenset[str] = frozenset(),
    clear: Clear | None = None,
) -> Problem:
    """Put the search as a problem, with what is left empty filled in.

    Parameters
    ----------
    gear, crank, valve, setting, wanted : as in the chapter on valves and motion.
    fixed : paths of sizes that a bought part has settled; they do not move.
    clear : finds the least gap of candidates, where the builder wants one kept.
    """
    rooms = rooms_of(pivots, gear, fixed)
    notches = usable(pivots.notches, gear)
    problem = Problem(
        gear, crank, valve, setting, rooms,
        squares(gear, frozenset(one.field for one in rooms)), notches,
        units_of(pivots.counting, valve, crank), Limits(0.0, math.inf, math.inf, -math.inf),
        (), (), (), clear if pivots.holding.least_gap is not None else None,
    )  # fmt: skip
    now = problem.events(gear, polished=True)
    cutoff, lead = now.percent[0, :, :, 1].mean(axis=-1), now.lead[0].mean(axis=-1)
    outer = {max(side, key=abs) for sign in (1, -1) if (side := [n for n in notches if n * sign > 0
             or n == 0 < sign])}  # fmt: skip
    full = [abs(n) == 1 and not isinstance(gear, LAPLESS) for n in notches]
    free = [n not in outer for n in notches]
    opening = np.clip(now.opening[0].min(axis=-1), 0.0, valve.port_width)
    return replace(
        problem,
        limits=_limits(pivots.holding, gear, now, glance(problem, gear).swing),
        kept_cutoff=_kept(wanted.cutoff, cutoff, full, free),
        kept_lead=_kept(wanted.lead, lead, full, free),
        opens=tuple(float(one) for one in np.nan_to_num(opening)),
    )


def _kept(wanted: float, now: Array, full: list[bool], free: list[bool]) -> tuple[float, ...]:
    """Return what is wanted in full gear; where no full gear counts, what the outermost has.

    So too with gears whose cut-off cannot be chosen.
    """
    return tuple(
        math.nan if loose else wanted if whole else float(present)
        for present, whole, loose in zip(now, full, free, strict=True)
    )


def usable(notches: tuple[float, ...], gear: AnyGear) -> tuple[float, ...]:
    """Return the notches that count and that the gear has, each once."""
    if gear.notched:
        return tuple(dict.fromkeys(float(one) for one in notches))
    return tuple(dict.fromkeys(1.0 if one >= 0 else -1.0 for one in notches))


def units_of(counting: Counting, valve: SlideValve, crank: Crank) -> tuple[tuple[str, float], ...]:
    """Return how much of each fault counts as one; what is left empty goes by port or stroke."""
    port = valve.port_width
    suggested = {
        "lead": 0.04 * port, "lead_change": 0.15 * port, "die_slip": 0.05 * crank.stroke,
        "opening": 0.05 * port, "lead_kept": 0.04 * port,
    }  # fmt: skip
    return tuple(
        (name, float(suggested[name] if value is None else value))
        for name, value in vars(counting).items()
    )


def _limits(holding: Holding, gear: AnyGear, now: ManyEvents, swings: Array | None) -> Limits:
    """Return the limits; one left empty is never tighter than the gear is now."""
    margin, swing, reach = holding.margin, holding.swing, math.inf
    if margin is None:
        margin = max(0.02, min(SINE, float(now.margin.min())))
    if swing is None:
        swing = SWING if swings is None else max(SWING, float(swings[0]))
    slot: float | None = getattr(gear, "slot_length", None)
    if holding.die_in_slot and slot is not None and now.die_reach is not None:
        reach = slot / 2
    return Limits(
        margin, swing, reach, -math.inf if holding.least_gap is None else holding.least_gap
    )


@dataclass(frozen=True)
class Glance:
    """Candidates (k,) seen at a few crank angles in the outermost notches.

    Parameters
    ----------
    margin : least margin against locking there.
    swing : of the link to and fro, degrees; None without one.
    reach : of the die from the middle of its slot, mm; None without one.
    """

    margin: Array
    swing: Array | None
    reach: Array | None


def glance(problem: Problem, gear: AnyGear, k: int = 1) -> Glance:
    """Look at candidates cheaply: most of what locks or breaks a limit shows already here.

    A guide that stands still in its notch does not count as a link that swings.
    """
    rows = np.array([[max(problem.notches)], [min(problem.notches)]])
    theta = np.broadcast_to(_FEW_ANGLES, (2, len(_FEW_ANGLES)))
    with np.errstate(all="ignore"):
        pose = gear.pose(problem.crank, theta, rows)

    def of_each(found: Array, shape: tuple[int, ...] = (2, len(_FEW_ANGLES))) -> Array:
        whole: Array = np.broadcast_to(found, (k, *shape)).reshape(k, -1)
        return whole

    margin = np.full(k, np.inf)
    for one in pose.margins.values():
        margin = np.minimum(margin, of_each(np.where(np.isnan(one), -1.0, one)).min(axis=-1))
    reach = None if pose.die is None else np.abs(of_each(pose.die)).max(axis=-1)
    ends = ("slot_backward", "slot_forward")
    if "link_centre" in pose.points and "guide" not in pose.points:
        ends = ("link_centre", "link")
    if not set(ends) <= set(pose.points):
        return Glance(margin, None, reach)
    way = pose.points[ends[1]] - pose.points[ends[0]]
    z = way[..., 0] + 1j * way[..., 1]
    turn = np.degrees(np.angle(z * np.conj(z[..., :1])))
    return Glance(margin, of_each(np.ptp(turn, axis=-1), turn.shape[-2:-1]).max(axis=-1), reach)
