"""One cylinder's spaces and walls, marched a turn at a time; SI units.

In each step the piston moves, the metal warms or cools what is beside it, and then chest and
blast pipe pass steam with everything that is open to them at once. The other cylinders do as
this one did a part of a turn ago, so that one cylinder stands for all.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING

import numpy as np

from .fluid import BAR, Fluid
from .vessels import Vessel, Wall, exchange, warm

if TYPE_CHECKING:
    from .cycle import End, Losses, Outlet, Supply

KELVIN = 273.15
OUTSIDE = 20 + KELVIN
"""Air round the cylinder, K."""
Passed = tuple[float, float]
"""kg and J."""


class March:
    """The spaces of one cylinder and what is remembered of a turn.

    Parameters
    ----------
    fluid : steam or air; the rest as in `cycle.run`.
    """

    def __init__(
        self, fluid: Fluid, ends: tuple[End, End], supply: Supply, outlet: Outlet, losses: Losses,
        turns_a_second: float, others: tuple[float, ...],
    ) -> None:  # fmt: skip
        self.ends, self.losses, self.lags = ends, losses, others
        self.whole = self.n = len(ends[0].steam)
        self.time = 1 / turns_a_second
        # air is told by its absolute temperature, steam by what it has over saturation
        live = supply.superheat if fluid.wet else supply.temperature + KELVIN
        spent = 0.0 if fluid.wet else live
        first, last = supply.pressure * BAR, outlet.pressure * BAR
        number = 1 + len(others)
        self.boiler, self.chest = (
            Vessel(fluid, volume, first, dryness=supply.dryness, superheat=live)
            for volume in (math.inf, supply.chest * number * 1e-9)
        )
        self.pipe, self.open_air = (
            Vessel(fluid, volume, last, superheat=spent)
            for volume in (outlet.pipe * 1e-9, math.inf)
        )
        self.spaces = [
            Vessel(fluid, float(one.volume[0]) * 1e-9, (first + last) / 2, superheat=spent)
            for one in ends
        ]
        self.regulator, self.nozzle = supply.area * 1e-6, outlet.area * 1e-6
        # a wave of heat goes in as far as root of (diffusivity / angular speed)
        skin = min(losses.skin * math.sqrt(self.time / (2 * math.pi)), losses.wall)
        hot, cold = (one.saturated if fluid.wet else live for one in (self.boiler, self.open_air))
        self.walls = [
            Wall((hot + cold) / 2, skin * 1e-6 * float(np.mean(one.surface))) for one in ends
        ]
        self.from_chest: list[Passed] = [(0.0, 0.0)] * self.n
        self.to_pipe: list[Passed] = [(0.0, 0.0)] * self.n
        swept = max(float(np.ptp(one.volume)) for one in ends) * 1e-9
        self.scale = 1e-3 * swept * (first - last)
        """Work, J, that is nothing beside what the swept volume can do."""
        self.drawn: Passed = (0.0, 0.0)
        self.leaked = 0.0
        self.set_grain(1)

    def set_grain(self, grain: int) -> None:
        """Take `grain` steps as one from now on."""
        n = self.whole // grain
        share = self.n / n
        self.from_chest, self.to_pipe = (
            [(m * share, h * share) for m, h in (seen[int(i * share)] for i in range(n))]
            for seen in (self.from_chest, self.to_pipe)
        )
        self.n, self.step = n, self.time / n
        self.shifts = [round(n * lag / 360) % n for lag in self.lags]
        self.rows = [
            list(
                zip(
                    (np.diff(one.volume[::grain]) * 1e-9).tolist(),
                    *(
                        (area.reshape(n, grain).mean(axis=1) * 1e-6).tolist()
                        for area in (one.surface, one.steam, one.exhaust)
                    ),
                    strict=True,
                )
            )
            for one in self.ends
        ]

    def turn(self) -> float:
        """March one turn and return the work of both ends, J."""
        step, chest, pipe, spaces = self.step, self.chest, self.pipe, self.spaces
        losses = self.losses
        valve, piston, lift = (
            one * 1e-6 for one in (losses.valve_leak, losses.piston_leak, losses.lift)
        )
        at_first = self._kept()
        self._nothing_yet()
        earlier, from_chest, to_pipe = (self.from_chest, self.to_pipe), [], []
        before, pushed, changes = [0.0, 0.0], [0.0, 0.0], [0.0, 0.0]
        others = [0.0, 0.0]
        for i in range(self.n):
            into_chest, into_pipe = [(self.boiler, self.regulator)], [(self.open_air, self.nozzle)]
            for k, space in enumerate(spaces):
                changes[k], surface, to_steam, to_exhaust = self.rows[k][i]
                before[k] = space.pressure
                pushed[k] = space.push(changes[k])
                self._warm(k, surface)
                if space.pressure > chest.pressure:
                    to_steam = max(to_steam, lift)
                if to_steam > 0:
                    into_chest.append((space, to_steam))
                if to_exhaust > 0:
                    into_pipe.append((space, to_exhaust))
            if piston > 0:
                exchange(spaces[0], [(spaces[1], piston)], step)
            if valve > 0:
                into_pipe.append((chest, valve))
            taken, given = (_sum(seen[i - one] for one in self.shifts) for seen in earlier)
            taken = _within(chest, (-taken[0], -taken[1]))
            given = _within(pipe, given)
            others[0] -= taken[0]
            others[1] += given[0]
            live, *ports = exchange(chest, into_chest, step, taken)
            spent, *ways = exchange(pipe, into_pipe, step, given)
            leak = ways[-1] if valve > 0 else (0.0, 0.0)
            mass, heat = _sum(ports)
            from_chest.append((leak[0] - mass, leak[1] - heat))
            to_pipe.append(_sum(ways))
            self.drawn = (self.drawn[0] + live[0], self.drawn[1] + live[1])
            self.leaked += leak[0]
            for k, space in enumerate(spaces):
                # what came or went meanwhile worked along: the mean of both ends of the step
                work = (before[k] + space.pressure) / 2 * changes[k]
                space.take(0.0, pushed[k] - work)
                self.work[k] += work
            front, back = spaces
            self.trace.append(
                (front.pressure, back.pressure, front.dryness, back.dryness, front.mass, back.mass,
                 chest.pressure, pipe.pressure, from_chest[-1][0], -spent[0])
            )  # fmt: skip
        # beside what is kept, cylinders that draw otherwise than a turn ago leave mass over
        late = sum(
            abs(sum(mass for mass, _ in seen) * len(self.shifts) - taken)
            for seen, taken in zip((from_chest, to_pipe), others, strict=True)
        )
        self.from_chest, self.to_pipe = from_chest, to_pipe
        over = [abs(b - a) for a, b in zip(at_first, self._kept(), strict=True)]
        through = (max(self.drawn[0], 1e-12), max(abs(self.drawn[1]), 1e-9))
        self.errors = ((over[0] + late) / through[0], over[1] / through[1] + late / through[0])
        return self.work[0] + self.work[1]

    def _nothing_yet(self) -> None:
        self.trace: list[tuple[float, ...]] = []
        self.work, self.given, self.warmth = [0.0, 0.0], [0.0, 0.0], [0.0, 0.0]
        self.drawn, self.leaked = (0.0, 0.0), 0.0

    def _warm(self, k: int, surface: float) -> None:
        """Pass heat between an end and its metal, and from that to the air."""
        wall, losses = self.walls[k], self.losses
        joules = warm(self.spaces[k], wall, surface, self.step, losses.film, losses.gas)
        out = losses.to_air * surface * self.step * (wall.temperature - OUTSIDE)
        wall.temperature -= out / wall.capacity
        self.warmth[k] += wall.temperature
        if joules < 0:
            self.given[k] -= joules

    def _kept(self) -> Passed:
        """Return mass, kg, and energy, J, in all spaces and walls."""
        held = (self.chest, self.pipe, *self.spaces)
        return (
            sum(one.mass for one in held),
            sum(one.energy for one in held)
            + sum(one.capacity * one.temperature for one in self.walls),
        )


def _within(vessel: Vessel, passed: Passed) -> Passed:
    """Return what others draw, but never more than half of what a vessel holds."""
    part = -2 * passed[0] / vessel.mass
    return passed if part <= 1 else (passed[0] / part, passed[1] / part)


def _sum(passed: Iterable[Passed]) -> Passed:
    mass = heat = 0.0
    for m, h in passed:
        mass += m
        heat += h
    return mass, heat
