"""What is open when, and how much room there is: the ends of a cylinder over a turn."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from ..cylinders.steaming import Space
from ..motion import ValveSetting, solve_motion
from ..motion.events import piston_of, setting_constant, valve_as_seen
from ..motion.frame import Crank
from ..motion.valves import SlideValve
from .cycle import Array, End

PORT_SHARE = 0.7
"""Length of a steam port over the bore, where it is not decided (common practice)."""


@dataclass(frozen=True)
class Moved:
    """What moves piston and valve.

    Parameters
    ----------
    crank, gear, valve, setting : as the motion takes them.
    """

    crank: Crank
    gear: Any
    valve: SlideValve
    setting: ValveSetting


@dataclass(frozen=True, eq=False)
class Opened:
    """The openings over a turn, halfway in each of n equal steps in the order of running.

    Parameters
    ----------
    theta : (n + 1,) crank angles, degrees, at the ends of the steps.
    place : (n + 1,) distance of the piston from the front dead centre, part of the stroke.
    middle : (n,) the same halfway.
    steam, exhaust : (2, n) mm2 as cut, without any coefficient, front end first.
    """

    theta: Array
    place: Array
    middle: Array
    steam: Array
    exhaust: Array


def port_length(valve: SlideValve, bore: float) -> float:
    """Return the length of a steam port, mm, or what is usual for a bore."""
    return valve.port_length or PORT_SHARE * bore


def opened(moved: Moved, notch: float, bore: float, steps: int) -> Opened:
    """Return what is open over a turn.

    Parameters
    ----------
    notch : reverser; backward gear below 0 runs backward.
    bore : mm, for a port length that is not decided.
    steps : in a turn.

    Raises
    ------
    MotionLocks, SizeError : as the motion does.
    """
    direction = 1.0 if notch >= 0 else -1.0
    ends = direction * np.linspace(0.0, 360.0, steps + 1)
    middle = (ends[:-1] + ends[1:]) / 2
    crank, gear = moved.crank, moved.gear
    seen = valve_as_seen(gear, moved.valve, notch)
    constant = setting_constant(crank, moved.valve, gear, moved.setting)
    constant += seen.valve_offset - moved.valve.valve_offset
    xi = np.asarray(solve_motion(crank, gear, middle, notch).valve, dtype=float) + constant
    piston = piston_of(gear, crank)
    holes = getattr(gear, "holes", None)
    if holes is None:
        areas = [_of_slide_valve(seen, end, xi, port_length(seen, bore)) for end in _ENDS]
    else:
        areas = [_of_holes(holes, side * -xi / holes.radius) for side in (1.0, -1.0)]
        if gear.acting == "single":
            areas[1] = (np.zeros(steps), np.zeros(steps))
    return Opened(
        ends,
        np.clip(piston.from_front(ends), 0.0, 1.0),
        np.clip(piston.from_front(middle), 0.0, 1.0),
        np.array([one[0] for one in areas]),
        np.array([one[1] for one in areas]),
    )


_ENDS = ("front", "back")


def _of_slide_valve(valve: SlideValve, end: str, xi: Array, length: float) -> tuple[Array, Array]:
    """Return the areas open to steam and to exhaust, mm2.

    Neither is wider than the port; and the exhaust cannot be wider than what the valve leaves
    of the exhaust port when it runs over the bridge to its other side.
    """
    steam = np.clip(valve.steam_opening(end, xi), 0.0, valve.port_width)
    exhaust = np.clip(valve.exhaust_opening(end, xi), 0.0, valve.port_width)
    if valve.admission == "outside" and valve.exhaust_port is not None and valve.bridge is not None:
        over = np.maximum(np.abs(xi) - (valve.bridge - valve.exhaust_lap), 0.0)
        exhaust = np.minimum(exhaust, np.maximum(valve.exhaust_port - over, 0.0))
    return steam * length, exhaust * length


def _of_holes(holes: Any, swing: Array) -> tuple[Array, Array]:
    """Return the areas that the round holes of an oscillating cylinder have in common, mm2."""
    return holes.steam_area(swing), holes.exhaust_area(swing)


def in_series(port: Array, passage: float) -> Array:
    """Return the one opening that passes as much as two behind one another, mm2.

    Source: the falls of pressure add, each with the square of flow over area.
    """
    made: Array = port * passage / np.hypot(port, passage)
    return made


def ends_of(
    opening: Opened, space: Space, stroke: float, *, ports: float, passages: float, bore: float,
    holes: int, single: bool = False,
) -> tuple[End, End]:  # fmt: skip
    """Return both ends as the cycle takes them.

    Parameters
    ----------
    space : piston areas and clearance volumes.
    stroke, bore : mm.
    ports, passages : discharge coefficients.
    holes : of the passage to each end.
    single : steam acts on the front of the piston alone.
    """
    passage = passages * space.passage
    in_passage = holes * math.pi * space.hole * space.length
    made = []
    for k, (place, middle) in enumerate(
        ((opening.place, opening.middle), (1 - opening.place, 1 - opening.middle))
    ):
        area, clearance = space.areas[k], space.spaces[k]
        if single and k == 1:
            n = len(opening.middle)
            made.append(
                End(
                    volume=np.full(n + 1, clearance), surface=np.full(n, 1e-6),
                    steam=np.zeros(n), exhaust=np.zeros(n),
                )
            )  # fmt: skip
            continue
        made.append(
            End(
                volume=area * stroke * place + clearance,
                # piston and cover, the passage, and the barrel as far as it is laid bare
                surface=2 * area + in_passage + math.pi * bore * stroke * middle,
                steam=in_series(ports * opening.steam[k], passage),
                exhaust=in_series(ports * opening.exhaust[k], passage),
            )
        )
    return made[0], made[1]
