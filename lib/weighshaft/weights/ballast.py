"""Where ballast would stand, and how much of it, to bring what the builder wants."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ..frames import Whole
from .bearing import Support, borne
from .masses import State


@dataclass(frozen=True)
class Advice:
    """A piece of ballast that would do.

    Parameters
    ----------
    mass, ahead : kg and mm ahead of the driving axle.
    loads : of every axle with it, kg.
    """

    mass: float
    ahead: float
    loads: tuple[float, ...]


def loads_of(supports: tuple[Support, ...], state: State) -> tuple[float, ...]:
    """Return what every axle brings on the rail, kg."""
    springs = borne(supports, len(state.unsprung), state.sprung, state.sprung_ahead)
    return tuple(a + b for a, b in zip(state.unsprung, springs.loads, strict=True))


def added(
    supports: tuple[Support, ...], state: State, mass: float, ahead: float
) -> tuple[float, ...]:
    """Return what every axle brings on the rail with so much more in one place, kg."""
    sprung = state.sprung + mass
    centre = (state.sprung * state.sprung_ahead + mass * ahead) / sprung
    springs = borne(supports, len(state.unsprung), sprung, centre)
    return tuple(a + b for a, b in zip(state.unsprung, springs.loads, strict=True))


def room_for(whole: Whole) -> tuple[float, float]:
    """Return between what places ballast can stand: a fiftieth within the beams, mm."""
    within = 0.02 * (whole.front - whole.back)
    return whole.back + within, whole.front - within


def levelling(whole: Whole, supports: tuple[Support, ...], state: State) -> Advice | None:
    """Return the least ballast that levels the loads on the coupled axles, None if none does.

    It stands at the end of the frames where it does most.  With two supports it is found by
    moments; with more the frame is to sink level, all springs beside one another as decided.
    """
    coupled = [n for n, one in enumerate(whole.axles) if one.kind == "coupled"]
    if len(coupled) < 2:
        return None

    def unevenness(mass: float, ahead: float) -> float:
        """First and last coupled axle's loads apart, positive where the first has more."""
        loads = added(supports, state, mass, ahead)
        return loads[coupled[0]] - loads[coupled[-1]]

    back, front = room_for(whole)
    now = unevenness(0.0, 0.0)
    if abs(now) < 1e-9 * state.mass:
        return None
    place, sign = (back, 1.0) if now > 0 else (front, -1.0)
    mass = _least(lambda more: sign * unevenness(more, place), 2 * state.mass)
    return None if mass is None else Advice(mass, place, added(supports, state, mass, place))


def for_share(
    whole: Whole, supports: tuple[Support, ...], state: State, wanted: float
) -> Advice | None:
    """Return the least ballast that brings a share of the weight on the coupled wheels.

    It stands over the coupled axle that sends most of it to the coupled wheels.

    Parameters
    ----------
    wanted : share, 0 to 1.
    """
    coupled = [n for n, one in enumerate(whole.axles) if one.kind == "coupled"]

    def short(mass: float, ahead: float) -> float:
        loads = added(supports, state, mass, ahead)
        return wanted - sum(loads[n] for n in coupled) / sum(loads)

    if short(0.0, 0.0) <= 0:
        return None
    tried = 0.1 * state.mass
    place = min((whole.axles[n].ahead for n in coupled), key=lambda x: short(tried, x))
    mass = _least(lambda more: short(more, place), 2 * state.mass)
    return None if mass is None else Advice(mass, place, added(supports, state, mass, place))


def _least(short: Callable[[float], float], most: float) -> float | None:
    """Return the least mass, kg, at which `short` is no longer above 0, None up to `most`.

    It is looked for from below, since far more than needed lifts axles and is short again.
    """
    low, high = 0.0, most / 500
    while short(high) > 0:
        low, high = high, 1.2 * high
        if high > most:
            return None
    for _ in range(60):
        middle = (low + high) / 2
        if short(middle) > 0:
            low = middle
        else:
            high = middle
    return high
