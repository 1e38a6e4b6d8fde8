"""A run in time: speed and place, pressure, water and fuel, step by step."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from ..measures import GRAVITY
from ..trade.saturation import saturation
from .driver import ACTS_EVERY, Driver, Seen
from .given import Raising
from .notches import Notches
from .profile import Profile
from .resistance import Resistance
from .results import Run, Stretch
from .vessel import Vessel

STEP = 0.25
"""s; halving it moves distance and pressure by less than a hundredth (a test sees to it)."""
SKIDS = 0.7
"""What slipping wheels still push, over what the rail holds; common practice."""
RACES = 2.0
"""Wheels that slip are taken to draw the steam of so many times the speed; assumed."""
BLOWER_STEAM = 0.04
"""That the blower takes, over what the boiler makes at its best; assumed."""
STALLED_AFTER = 15.0
"""s at a stand with the driver willing."""
POINTS, MOMENTS = 1200, 300
TELLS_EVERY = 60.0
"""s of the run between two words on how far it has come."""


@dataclass(frozen=True, kw_only=True)
class Outing:
    """What a run needs.

    Parameters
    ----------
    length : of engine and train, m.
    pace : m/s.
    seconds : how long it is driven.
    round : of the driving wheel, m.
    low_water, blower, tops_up : see `Driver`.
    """

    notches: Notches
    raising: Raising
    resistance: Resistance
    profile: Profile
    length: float
    pace: float
    seconds: float
    round: float
    low_water: float = 0.6
    blower: bool = True
    tops_up: bool = True


def drive(
    outing: Outing,
    *,
    step: float = STEP,
    driver: Driver | None = None,
    progress: Callable[[float], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Run:
    """Drive the train and return what happened.

    Parameters
    ----------
    step : s.
    driver : who drives; the simple driver unless given.
    progress : told now and then what part of the time is done.
    stop : asked now and then whether to stop; what was run until then is returned.
    """
    going = _Going(outing, step, driver)
    told = 0.0
    while going.time < outing.seconds - 1e-9 and not going.ended:
        going.go()
        if going.time >= told:
            told += TELLS_EVERY
            if progress is not None:
                progress(min(going.time / outing.seconds, 1.0))
            if stop is not None and stop():
                going.stopped = True
                break
    return going.run()


@dataclass
class _Sums:
    rim: float = 0.0
    resistance: float = 0.0
    brake: float = 0.0
    climb: float = 0.0
    steam: float = 0.0
    blown: float = 0.0
    heat: float = 0.0
    slipped: float = 0.0
    topped: float = 0.0


@dataclass
class _Kept:
    rows: list[tuple[float, ...]] = field(default_factory=list)
    moments: list[Stretch] = field(default_factory=list)


class _Going:
    """The run as it goes on; all in SI but for pressures in bar."""

    def __init__(self, outing: Outing, step: float, driver: Driver | None) -> None:
        self.outing, self.step = outing, step
        raising = outing.raising
        self.vessel = Vessel(raising, saturation(raising.working_pressure).temperature)
        self.driver = driver or Driver(
            outing.notches, raising, outing.resistance, pace=outing.pace,
            low_water=outing.low_water, blower=outing.blower, tops_up=outing.tops_up,
        )  # fmt: skip
        self.time = self.place = self.speed = 0.0
        self.tank, self.fuel = raising.water_tank, raising.fuel_aboard
        self.sums, self.kept = _Sums(), _Kept()
        self.ended, self.stopped = "", False
        self.slips = self.stands = self.tops = 0
        self._last_slip, self._slipping = -math.inf, False
        self._acts, self._still, self._records = 0.0, 0.0, 0.0
        self._every = max(step, outing.seconds / POINTS)
        self._push = 0.0
        self._safe = saturation(raising.safety_pressure).temperature
        self._blowing_off = self._stood = self._topped = False

    def go(self) -> None:
        """Go on by one step."""
        outing, driver, vessel = self.outing, self.driver, self.vessel
        # where the train will be amid the step
        amid = self.place + self.speed * self.step / 2
        slope, bend = outing.profile.mean(amid, outing.length)
        against = outing.resistance
        hill = against.mass * GRAVITY * slope
        drag = against.level + against.curve * bend + against.air * self.speed**2
        if self.time >= self._acts - 1e-9:
            self._acts += ACTS_EVERY
            driver.act(Seen(self.time, self.speed, drag + hill, vessel.pressure, vessel.water,
                            self.tank))  # fmt: skip
            self._notice_standing()
        chest = driver.regulator * outing.notches.full_chest(vessel.pressure)
        kmh = 3.6 * self.speed
        pull = outing.notches.pull(driver.notch, chest, kmh)
        push = pull - against.machine
        slipping = push > against.grip
        if slipping:
            push = SKIDS * against.grip
            self._notice_slip(pull)
        self._slipping = slipping
        steam = outing.notches.steam(driver.notch, chest, kmh * (RACES if slipping else 1.0))
        if self.time >= self._records - 1e-9:
            self._records += self._every
            self._record(push)
        moved = self._move(push, drag, hill)
        self._boil(steam, moved)
        self.time += self.step
        self._notice_end()

    def _move(self, push: float, drag: float, hill: float) -> float:
        """Go on along the line; return how far, m.

        The mean of both speeds times the step is the way, so that work and energy agree to the
        last digit whatever the step is.
        """
        against, speed, step = self.outing.resistance, self.speed, self.step
        brake = self.driver.brake
        if speed <= 0.0:
            # brake and friction hold a train that stands; nothing rolls back
            push = max(push, 0.0)
            if push - hill <= drag + brake:
                self._push = 0.0
                return 0.0
        faster = (push - hill - drag - brake) / against.inertia
        later = speed + faster * step
        if later < 0.0:
            moved = speed * speed / (-2 * faster)
            later = 0.0
        else:
            moved = (speed + later) / 2 * step
        self.speed, self._push = later, push
        self.place += moved
        sums = self.sums
        sums.rim += push * moved
        sums.resistance += drag * moved
        sums.brake += brake * moved
        sums.climb += hill * moved
        return moved

    def _boil(self, steam: float, moved: float) -> None:
        """Fire, feed and blow off."""
        raising, vessel, driver, step = self.outing.raising, self.vessel, self.driver, self.step
        heat = 0.0
        if self.fuel > 0:
            heat = raising.heat_at(1.0 if driver.blowing else 0.0, steam) * driver.fire
            self.fuel = max(self.fuel - heat * step * raising.fuel_per_heat, 0.0)
        extra = 0.0
        if driver.blowing and raising.blower_share > raising.idle_share:
            extra = BLOWER_STEAM * raising.evaporation_full
        blown = 0.0
        over = vessel.pressure - raising.safety_pressure
        if over > 0:
            blown = min(
                raising.safety_capacity * over / (0.1 * raising.safety_pressure),
                vessel.to_spare(self._safe) / step,
            )
        self._notice_safety(blown > 0)
        feed = 0.0
        if driver.feeding:
            feed = min(raising.feed_per_turn * moved / self.outing.round, self.tank) / step
            self.tank -= feed * step
        if driver.topping and self.speed <= 0:
            # out of the tanks as long as they hold any, then out of a bottle
            feed = raising.hand_feed
            bottle = max(feed * step - self.tank, 0.0)
            self.tank -= feed * step - bottle
            self.sums.topped += bottle
        vessel.step(step, heat, steam + extra + blown, feed)
        self.sums.steam += steam * step
        self.sums.blown += blown * step
        self.sums.heat += heat * step
        if self._slipping:
            self.sums.slipped += step

    # --- what is worth telling -----------------------------------------------------------

    def _tell(self, kind: str, says: str) -> None:
        if len(self.kept.moments) < MOMENTS:
            self.kept.moments.append(Stretch(self.time, self.place, kind, says))

    def _notice_slip(self, pull: float) -> None:
        if not self._slipping and self.time - self._last_slip > 10.0:
            self.slips += 1
            self._tell("slip", "the wheels slip and the driver eases the regulator")
        if not self._slipping:
            self.driver.slipped(self.time, pull)
        self._last_slip = self.time

    def _notice_safety(self, blowing: bool) -> None:
        if blowing and not self._blowing_off:
            self._tell("safety", "the safety valve lifts")
        self._blowing_off = blowing or (
            self._blowing_off and self.vessel.pressure > 0.97 * self.outing.raising.safety_pressure
        )

    def _notice_standing(self) -> None:
        driver, raising = self.driver, self.outing.raising
        if driver.topping:
            if not self._topped:
                self.tops += 1
                self._tell("water", "it stands to be topped up by hand")
            self._still = 0.0
        elif driver.stands:
            if not self._stood:
                self.stands += 1
                self._tell("steam", "it stands to raise steam")
            if self.fuel <= 0 and self.speed <= 0:
                self.ended = "the fuel is used up"
            self._still = 0.0
        elif self.speed < 0.02:
            self._still += ACTS_EVERY
            if self._still > STALLED_AFTER:
                if self.vessel.pressure < 0.9 * raising.working_pressure and self.fuel > 0:
                    driver.stands = True
                    self.stands += 1
                    self._tell("steam", "it stands to raise steam")
                else:
                    self.ended = (
                        "it stands and cannot start again: the wheels slip"
                        if self.time - self._last_slip < 2 * STALLED_AFTER
                        else "it stands and cannot start again: the pull is too little"
                    )
        else:
            self._still = 0.0
        self._stood, self._topped = driver.stands, driver.topping

    def _notice_end(self) -> None:
        profile, raising = self.outing.profile, self.outing.raising
        if not profile.closed and self.place >= profile.length:
            self.ended = "the end of the line is reached"
        elif self.vessel.water < raising.water_least:
            self.ended = "the water is down to the least; the fire has to come out"
        if self.ended:
            kind = "stall" if "cannot" in self.ended else "end"
            self._tell(kind, self.ended)

    def _record(self, push: float) -> None:
        driver, vessel = self.driver, self.vessel
        self.kept.rows.append((
            self.time, self.place, 3.6 * self.speed, vessel.pressure, vessel.water, self.tank,
            self.fuel, self.outing.notches.reversers[driver.notch], driver.regulator, push,
            float(self._slipping),
        ))  # fmt: skip

    def run(self) -> Run:
        """Return the run as far as it went."""
        self._record(self._push)
        columns = np.array(self.kept.rows).T
        sums = self.sums
        return Run(
            time=columns[0], distance=columns[1], speed=columns[2], pressure=columns[3],
            water=columns[4], tank=columns[5], fuel=columns[6], reverser=columns[7],
            regulator=columns[8], pull=columns[9], slipping=columns[10] > 0.5,
            moments=tuple(self.kept.moments), work_rim=sums.rim, work_resistance=sums.resistance,
            work_brake=sums.brake, work_climb=sums.climb,
            kinetic=self.outing.resistance.inertia * self.speed**2 / 2, steam=sums.steam,
            blown=sums.blown, heat=sums.heat, slips=self.slips, slipped=sums.slipped,
            stands=self.stands, tops=self.tops, topped=sums.topped, ended=self.ended,
            stopped=self.stopped,
        )  # fmt: skip
