"""How far every event moves with every dimension: exact derivatives through the linkage.

At an event the edge of the valve stands at the edge of the port: its opening F, which
depends on the crank angle and on every dimension p, is nothing.  So the crank angle of the
event moves by dtheta/dp = -(dF/dp) / (dF/dtheta).  Both derivatives come from poses of the
linkage with a size, or the crank angle, moved off the real line (see `motion.many`).

Where a gear has one throw and one angle of advance for both eccentrics, its derivative is
that of an error which both share.  The scatter of two sheaves that err each for itself is
not told apart.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from ..motion import Crank, Gear, SlideValve, ValveSetting
from ..motion.events import piston_of, setting_constant, valve_as_seen
from ..motion.frame import STEP
from ..motion.kernel import prove
from ..motion.many import derivative, nudged
from ..motion.many_events import many_events
from .results import Array, Dimension, Sensitivities

_EDGE = np.array([0, 0, 2, 2, 1, 1, 3, 3])
"""Edge (steam front, steam back, exhaust front, exhaust back) of each event of both ends."""
_FROM_END = np.array([1.0, 1, 1, 1, -1, -1, -1, -1])
_NEWTON = 4
_ANGLES = 72


def _off(angle: Array) -> Array:
    """Return crank angles moved by `STEP` off the real line."""
    moved: Array = angle + 1j * STEP  # type: ignore[assignment]
    return moved


class Valve(SlideValve):
    """A valve whose sizes may stand in rows or off the real line, and are not refused."""

    def __post_init__(self) -> None:
        """Nothing is checked here: the valve it was made from has been."""


def in_rows(valve: SlideValve) -> Valve:
    """Return a valve to which rows of sizes can be given."""
    return Valve(**vars(valve))


@dataclass(frozen=True)
class _Moves:
    """Derivatives by k dimensions at a constant setting, and by the setting itself (k = 1)."""

    angle: Array
    percent: Array
    lead: Array
    opening: Array
    mean: Array


@dataclass(frozen=True)
class _Engine:
    """Crank, valve and gear in m notches, of which one at a time may carry derivatives."""

    crank: Any
    valve: Any
    gear: Any
    rows: Array

    def edges(self) -> tuple[Array, Array, Array]:
        """Return signs (m, 4), levels (k, m, 4) and offsets (k, m) of the working edges."""
        seen = [valve_as_seen(self.gear, self.valve, float(row)) for row in self.rows]
        signs = np.array([one.sense * np.array([-1.0, 1.0, 1.0, -1.0]) for one in seen])

        def wide(name: str) -> Array:
            sizes = [np.ravel(getattr(one, name)) for one in seen]
            return np.stack(np.broadcast_arrays(*sizes), axis=-1)

        lap, exhaust = wide("steam_lap"), wide("exhaust_lap")
        levels = np.stack(np.broadcast_arrays(lap, lap, exhaust, exhaust), axis=-1)
        return signs, levels, wide("valve_offset")

    def openings(self, angle: Array, constant: float) -> tuple[Array, Array, Array]:
        """Return how far the edges stand open at (m, 8) angles, leads, and the mean place.

        The leads are (k, m, 2); the mean is that of the displacements at both dead centres,
        before setting, (k, m).
        """
        signs, levels, offsets = self.edges()
        centres = piston_of(self.gear, self.crank).centres
        shape = (*centres.shape[:-2], len(self.rows))
        theta = np.concatenate(
            [np.broadcast_to(angle, (*shape, 8)), np.broadcast_to(centres, (*shape, 2))], axis=-1
        )
        xi = self.gear.pose(self.crank, theta, self.rows[:, None]).valve
        mean = np.mean(xi[..., 8:], axis=-1)
        xi = xi + constant + offsets[..., None]  # (k, m, 10)
        steam = signs[:, :2] * xi[..., 8:] - levels[..., :2]
        return signs[:, _EDGE] * xi[..., :8] - levels[..., _EDGE], steam, mean


def sensitivities(
    dimensions: Sequence[Dimension],
    crank: Crank,
    valve: SlideValve,
    gear: Gear,
    reversers: Sequence[float],
    setting: ValveSetting,
) -> tuple[Sensitivities, Sensitivities]:
    """Return the derivatives of all events with the valve set after building, and with it kept.

    Set after building, the valve follows the gear as it was made, so that the rule of the
    setting holds again.  Kept, it stands where the drawing put it.  An error of the valve's
    own place (`valve_offset`) remains in either.

    Raises
    ------
    MotionLocks : when the gear as drawn does not turn right round.
    SizeError : when the valve cannot be set for equal cut-offs.
    """
    m = len(reversers)
    notches = list(reversers)
    if setting.reverser not in notches:
        notches.append(setting.reverser)
    rows = np.array(notches, dtype=float)
    found = many_events(crank, valve, gear, rows, setting=setting, angles=_ANGLES)
    if not found.turns.all():
        prove(crank, gear, rows)
    engine = _Engine(crank, in_rows(valve), gear, rows)
    constant = float(found.setting[0, 0])
    if setting.rule == "equal cut-offs":
        constant, follows = _levelled(dimensions, engine, setting.reverser, constant)
    angle = _closed(engine, found.angle[0].reshape(len(rows), 8), constant)
    at_size, at_set, parts = _moves(dimensions, engine, angle, constant)
    if setting.rule == "equal leads":
        follows = -at_size.mean[:, notches.index(setting.reverser)]

    def told(follows: Array) -> Sensitivities:
        """Return the sum: the dimension's own part, and that of the setting which follows it."""
        shape = (len(dimensions), m, 2, 4)

        def both(name: str) -> Array:
            of_size, of_set = getattr(at_size, name), getattr(at_set, name)
            whole: Array = of_size + follows[:, None, None] * of_set
            return whole[:, :m]

        return Sensitivities(
            notches=tuple(reversers),
            angle=np.mod(angle[:m], 360.0).reshape(shape[1:]),
            percent=parts["percent"][:m].reshape(shape[1:]),
            lead=parts["lead"][:m],
            by_angle=both("angle").reshape(shape),
            by_percent=both("percent").reshape(shape),
            by_lead=both("lead"),
            opening=both("opening").reshape(shape),
            speed=parts["speed"][:m].reshape(shape[1:]),
            piston=parts["piston"][:m].reshape(shape[1:]),
            constant=constant,
        )

    return told(follows), told(np.zeros(len(dimensions)))


def _groups(
    dimensions: Sequence[Dimension], engine: _Engine
) -> Iterator[tuple[list[int], _Engine]]:
    """Yield the places of gear's, valve's and crank's dimensions, and the engine nudged by them."""
    for part in ("gear", "valve", "crank"):
        places = [i for i, one in enumerate(dimensions) if one.part == part]
        if not places:
            continue
        fields = tuple(dimensions[i].field for i in places)
        sizes: dict[str, Any] = {"crank": engine.crank, "valve": engine.valve, "gear": engine.gear}
        sizes[part] = nudged(sizes[part], fields)
        yield places, _Engine(**sizes, rows=engine.rows)


def _closed(engine: _Engine, angle: Array, constant: float) -> Array:
    """Return the crank angles (m, 8) closed in upon on the linkage itself, by Newton's rule."""
    known = np.isfinite(angle)
    now = np.where(known, angle, 0.0)
    for _ in range(_NEWTON):
        opening = engine.openings(_off(now), constant)[0].reshape(now.shape)
        with np.errstate(divide="ignore", invalid="ignore"):
            move = np.real(opening) / derivative(opening)
        move = np.where(known & np.isfinite(move), np.clip(move, -1.0, 1.0), 0.0)
        now = now - move
        if np.all(np.abs(move) < 1e-9):
            break
    return np.where(known, now, np.nan)


def _levelled(
    dimensions: Sequence[Dimension], engine: _Engine, notch: float, start: float
) -> tuple[float, Array]:
    """Return what sets the valve for equal cut-offs, mm, and its derivative by each dimension.

    Parameters
    ----------
    notch : in which the cut-offs are equal.
    start : a setting near by, from which Newton's rule goes on.
    """
    plain = in_rows(engine.valve)
    # the rule places the valve before it is moved from there
    object.__setattr__(plain, "valve_offset", 0.0)
    alone = _Engine(engine.crank, plain, engine.gear, np.array([notch]))
    constant = np.full((1, 1), start)
    found = many_events(
        alone.crank, plain, alone.gear, alone.rows, constant=constant, angles=_ANGLES
    )
    angle = found.angle[0].reshape(1, 8)
    if not np.isfinite(angle[0, [1, 5]]).all():  # an end does not cut off: refused in words
        rule = ValveSetting(rule="equal cut-offs", reverser=notch)
        setting_constant(alone.crank, plain, alone.gear, rule)
    for _ in range(_NEWTON):
        angle = _closed(alone, angle, start)
        _, by_set, parts = _moves((), alone, angle, start)
        apart = float(parts["percent"][0, 1] - parts["percent"][0, 5])
        gain = float(by_set.percent[0, 0, 1] - by_set.percent[0, 0, 5])
        start -= apart / gain
        if abs(apart) < 1e-9:
            break
    by_size, _, _ = _moves(dimensions, alone, angle, start)
    slope = -(by_size.percent[:, 0, 1] - by_size.percent[:, 0, 5]) / gain
    return start, np.where([one.field == "valve_offset" for one in dimensions], 0.0, slope)


def _moves(
    dimensions: Sequence[Dimension], engine: _Engine, angle: Array, constant: float
) -> tuple[_Moves, _Moves, dict[str, Array]]:
    """Return derivatives by the dimensions and by the setting, and the events themselves."""
    k, m = len(dimensions), len(engine.rows)
    known = np.isfinite(angle)
    at = np.where(known, angle, 0.0)
    signs, _, _ = engine.edges()
    opening, lead, _ = engine.openings(_off(at), constant)
    speed = derivative(opening).reshape(m, 8)
    with np.errstate(divide="ignore", invalid="ignore"):
        per_set = np.where(known, -signs[:, _EDGE] / speed, np.nan)[None]
    piston = piston_of(engine.gear, engine.crank)
    sense = _sense(piston, at, engine.rows)
    along = derivative(piston.from_front(_off(at)))
    share = np.real(piston.from_front(at))
    percent = 100 * sense * np.where(_FROM_END > 0, share, 1 - share)
    slope = 100 * sense * _FROM_END * along
    by_angle, by_percent = np.empty((k, m, 8)), np.empty((k, m, 8))
    by_lead, by_opening, by_mean = np.empty((k, m, 2)), np.empty((k, m, 8)), np.empty((k, m))
    for places, moved in _groups(dimensions, engine):
        n = len(places)
        opening, steam, mean = moved.openings(at, constant)
        by_opening[places] = np.broadcast_to(derivative(opening), (n, m, 8))
        by_lead[places] = np.broadcast_to(derivative(steam), (n, m, 2))
        by_mean[places] = np.broadcast_to(derivative(mean), (n, m))
        with np.errstate(divide="ignore", invalid="ignore"):
            turned = -by_opening[places] / speed
        turned = np.where(known & np.isfinite(turned), turned, 0.0)
        by_angle[places] = turned
        # the piston's place by the angle, and by the sizes of crank and rod themselves
        stands = piston_of(moved.gear, moved.crank).from_front(at + 1j * STEP * turned)
        by_percent[places] = 100 * sense * _FROM_END * derivative(stands)
    blank = np.where(known, 0.0, np.nan)
    parts = {
        "percent": percent + blank, "lead": np.real(lead).reshape(m, 2), "speed": speed + blank,
        "piston": slope + blank,
    }  # fmt: skip
    of_size = _Moves(by_angle + blank, by_percent + blank, by_lead, by_opening + blank, by_mean)
    of_set = _Moves(
        per_set, slope * per_set, signs[None, :, :2], (signs[:, _EDGE] + blank)[None],
        np.ones((1, m)),
    )  # fmt: skip
    return of_size, of_set, parts


def _sense(piston: Any, angle: Array, rows: Array) -> Array:
    """Return -1 for an admission behind the dead centre, which counts negative, else +1."""
    running = np.where(rows >= 0, 1.0, -1.0)[:, None]
    dead = np.real(piston.centres).reshape(1, 2)
    late = np.mod(running * (angle[:, [0, 4]] - dead), 360.0) < 180
    sense = np.ones(angle.shape)
    sense[:, [0, 4]] = np.where(late, -1.0, 1.0)
    return sense
