"""The engine that is asked about, and the same engine with some of its sizes changed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ... import running, steam
from ...design.document import Design, DesignRefused
from ...motion import Oscillating
from ...running.resistance import Resistance, resistance_of
from ...steam.engine import WALKING
from ...steam.many import steps_of
from ...steam.map import AHEAD
from .. import Work, work
from ..hauling import running_given
from ..steamed import engine_of
from .answer import NotAnswered

Array = NDArray[np.float64]
Pair = tuple[steam.SteamSide, steam.Engine]
OTHERWISE: tuple[tuple[str, dict[str, float]], ...] = (
    ("film 8000", {"film": 8000.0}),
    ("film 40,000", {"film": 40_000.0}),
    ("ports at 0.6", {"ports": 0.6}),
    ("ports at 0.9", {"ports": 0.9}),
)
"""Coefficients at the ends of what was seen, for the band of an answer."""
_NEEDED = ("scale", "cylinders", "motion", "wheels", "nozzle", "frames", "firing")


@dataclass(frozen=True, eq=False)
class Asked:
    """The engine that is asked about.

    Parameters
    ----------
    design, worked : as they stood when the question was asked.
    marching : how conditions are marched.
    """

    design: Design
    worked: Work
    marching: steam.Marching

    def __post_init__(self) -> None:
        if self.worked.cylinders is None or self.worked.motion is None:
            raise NotAnswered(
                "Cylinders and valve motion cannot be worked yet: mend their findings first."
            )

    @property
    def base(self) -> Pair:
        """Decisions of the steam, and the engine as it stands."""
        return self.design.steam, engine_of(self.design, _results(self.worked))

    @property
    def speed(self) -> float:
        """Running speed, km/h: of the driver, of the prototype's chapter, or a walking pace."""
        pace = self.design.running.driving.pace
        return pace or getattr(self.worked.scale, "running_speed", None) or WALKING

    @property
    def notch(self) -> float:
        """The running notch, ahead."""
        asked = self.design.motion.running_notch
        return asked if asked > AHEAD else 1.0

    @property
    def notches(self) -> tuple[float, ...]:
        """Notches that drive ahead, the longest cut-off first."""
        worked = self.worked.motion
        seen = {*(worked.reversers if worked else ()), self.notch}
        ahead = sorted((one for one in seen if one > AHEAD), reverse=True)
        return tuple(ahead) or (1.0,)

    @property
    def slide_valve(self) -> bool:
        """Whether slide or piston valves open straight ports."""
        return not isinstance(self.design.motion.gear, Oscillating)

    def with_(self, changes: Mapping[str, Any]) -> Pair:
        """Return the engine of the design with some sizes changed.

        Raises
        ------
        DesignRefused : in the builder's words.
        """
        changed = self.design.changed(changes)
        done = work(changed, shown="nothing late", before=self.worked)
        if done.cylinders is None or done.motion is None:
            stop = next((one.says for one in done.findings if one.level == "stop"), "")
            raise DesignRefused(stop or "The engine cannot be worked with these sizes.")
        return changed.steam, engine_of(changed, _results(done))

    def condition(
        self, pair: Pair, *, notch: float | None = None, pressure: float | None = None,
        speed: float | None = None, steps: int | None = None,
    ) -> steam.Condition:  # fmt: skip
        """Return a condition of an engine: running speed and notch unless told otherwise."""
        side, engine = pair
        runs = steam.Running(
            speed=speed or self.speed, notch=self.notch if notch is None else notch,
            regulator=1.0, pressure=engine.pressure if pressure is None else pressure,
        )  # fmt: skip
        return steam.Condition(steam=side, engine=engine, running=runs, steps=steps)

    @property
    def steps(self) -> int:
        """Steps of a turn that serve all variations alike, so that no step shows as an effect."""
        return steps_of(self.base[1], self.speed)

    def resistance(self) -> Resistance:
        """Return what holds the train back, of the chapter on the run."""
        given = self._running()
        line = self.design.running
        made: Resistance = resistance_of(
            line.train, line.driving, given["rolling"], line.line.rail
        )[0]
        return made

    def evaporation(self) -> float:
        """Return the steam that the boiler makes lastingly, kg/s."""
        done = self.worked.running
        if done is not None:
            return max(float(done.evaporation), 0.0) / 1000
        raising: running.Raising = self._running()["raising"]
        return raising.evaporation_full

    def _running(self) -> dict[str, Any]:
        given = running_given(self.design, _results(self.worked))
        if given is None:
            raise NotAnswered("Wheels, cylinders and motion cannot be worked yet.")
        return given

    def unsettled(self, changes: Iterable[str]) -> str:
        """Return a word on a size among these that a bought part has settled; "" for none."""
        bought = sorted(set(changes) & set(self.design.fixed))
        return " A bought part has settled that size, so no change is offered." if bought else ""


def _results(worked: Work) -> dict[str, Any]:
    return {name: getattr(worked, name) for name in _NEEDED}


def with_coefficients(pair: Pair, otherwise: Mapping[str, float]) -> Pair:
    """Return an engine with other coefficients assumed."""
    side, engine = pair
    changed: Any = dict(otherwise)
    return replace(side, assumed=replace(side.assumed, **changed)), engine


def with_valve(pair: Pair, **sizes: Any) -> Pair:
    """Return an engine with other sizes of its valve, gear and all else staying."""
    side, engine = pair
    valve = replace(engine.moved.valve, **sizes)
    return side, replace(engine, moved=replace(engine.moved, valve=valve))


def band(values: Sequence[float | None]) -> tuple[float, float] | None:
    """Return least and greatest of what is known; None where nothing is."""
    known = [one for one in values if one is not None]
    return (min(known), max(known)) if known else None


def crossing(x: Array, y: Array, wanted: float) -> float | None:
    """Return the least x from which a falling y stays at or below `wanted`, straight between.

    None where even the last lies above.
    """
    above = np.flatnonzero(y > wanted)
    if not above.size:
        return float(x[0])
    i = int(above[-1])
    if i == len(x) - 1:
        return None
    part = (y[i] - wanted) / (y[i] - y[i + 1])
    return float(x[i] + part * (x[i + 1] - x[i]))
