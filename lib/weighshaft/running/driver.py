"""A simple driver: holds a pace by the notch, then by the regulator; sees to water and fire."""

from __future__ import annotations

from dataclasses import dataclass

from .given import Raising
from .notches import Notches
from .resistance import Resistance

ACTS_EVERY = 1.0
"""s between two looks of the driver."""
HARDEST, BRAKES = 0.12, 0.3
"""The acceleration wanted at most, and the braking, m/s2: gentle enough for people astride."""
SETTLES = 4.0
"""s in which the driver means to be at the pace."""
WARY = 15.0
"""s for which the driver stays wary after a slip."""
PATIENT = 10.0
"""s between two moves of the lever to a shorter notch."""
DAMPED = 0.15
"""Of the fire, with everything shut; common practice."""
LOW_STEAM, RAISED = 0.35, 0.95
"""Parts of the working pressure: below, the driver stops to raise steam, and until what."""


@dataclass(frozen=True)
class Seen:
    """What the driver sees: time s, speed m/s, force that holds back N, bar, kg."""

    time: float
    speed: float
    holding: float
    pressure: float
    water: float
    tank: float


class Driver:
    """The driver at the footplate; `act` is called once a second.

    Parameters
    ----------
    notches, raising, resistance : the engine, its boiler, and the train.
    pace : m/s.
    low_water : share of the usable water at which the feed goes on.
    blower : whether the blower is used.
    tops_up : whether the driver halts to top up by hand where nothing feeds on the way.
    """

    def __init__(
        self, notches: Notches, raising: Raising, resistance: Resistance, *, pace: float,
        low_water: float, blower: bool, tops_up: bool = True,
    ) -> None:  # fmt: skip
        self._notches, self._raising, self._resistance = notches, raising, resistance
        self.pace, self._may_blow = pace, blower
        self.notch, self.regulator, self.brake = 0, 0.0, 0.0
        self.feeding, self.blowing = False, False
        self.fire = DAMPED if raising.can_be_damped else 1.0
        self.stands = self.topping = False
        usable = raising.water_working - raising.water_least
        self._feed_at = raising.water_least + low_water * usable
        self._urgent_at = raising.water_least + 0.5 * low_water * usable
        self._top_at = raising.water_least + 0.25 * usable
        self._tops = tops_up and raising.hand_feed > 0
        self._cap = float("inf")
        self._wary_until, self._moved = -1.0, -PATIENT

    def slipped(self, time: float, pull: float) -> None:
        """Ease the regulator: the wheels have lost their hold under so much pull, N."""
        self.regulator *= 0.5
        self._cap = 0.9 * pull
        self._wary_until = time + WARY

    def act(self, seen: Seen) -> None:
        """Look at speed, gauge and glass, and put the handles where they are wanted."""
        self._see_to_boiler(seen)
        working = self._raising.working_pressure
        if self.stands:
            self.stands = seen.pressure < RAISED * working
        elif seen.pressure < LOW_STEAM * working:
            self.stands = True
        if self.stands or self.topping:
            self.regulator, self.brake = 0.0, self._resistance.mass * BRAKES
            return
        if seen.time > self._wary_until:
            self._cap *= 1.05
        wants = (self.pace - seen.speed) / SETTLES
        wants = min(max(wants, -BRAKES), HARDEST)
        need = seen.holding + self._resistance.inertia * wants
        self.brake = 0.0
        if need <= -self._resistance.machine:
            self.regulator = 0.0
            if seen.speed > 1.02 * self.pace:
                self.brake = -need - self._resistance.machine
            return
        wanted = min(max(need + self._resistance.machine, 0.0), self._cap)
        self._pull(seen, wanted)

    def _pull(self, seen: Seen, wanted: float) -> None:
        """Choose the shortest notch that will do, and as much regulator as it takes."""
        notches, speed = self._notches, 3.6 * seen.speed
        full = notches.full_chest(seen.pressure)
        able = [notches.pull(row, full, speed) for row in range(len(notches))]
        starting = seen.speed < 0.15 * self.pace
        fit = [row for row, pull in enumerate(able) if pull >= 1.05 * wanted]
        best = 0 if starting or not fit else fit[-1]
        if best < self.notch or (best > self.notch and seen.time - self._moved >= PATIENT):
            self.notch = best if best < self.notch else self.notch + 1
            self._moved = seen.time
        chest = notches.chest_for(self.notch, wanted, full, speed)
        self.regulator = chest / full if full > 0 else 0.0

    def _see_to_boiler(self, seen: Seen) -> None:
        raising = self._raising
        working, level = raising.working_pressure, raising.water_working
        if self.feeding:
            self.feeding = seen.water < level and seen.tank > 0
        else:
            self.feeding = (raising.feed_per_turn > 0 and seen.tank > 0) and (
                seen.water < self._urgent_at
                or (seen.water < self._feed_at and seen.pressure > 0.6 * working)
            )
        if self.topping:
            self.topping = seen.water < level
        else:
            self.topping = self._tops and seen.water < self._top_at and not self.feeding
        if not self._may_blow:
            self.blowing = False
        elif self.blowing:
            self.blowing = seen.pressure < 0.98 * working
        else:
            self.blowing = seen.pressure < 0.9 * working
        if raising.can_be_damped:
            band = raising.safety_pressure - 0.95 * working
            room = (raising.safety_pressure - seen.pressure) / band
            self.fire += 0.3 * (min(max(room, DAMPED), 1.0) - self.fire)
