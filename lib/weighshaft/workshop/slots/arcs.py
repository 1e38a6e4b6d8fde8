"""The arc in coordinates: ways of the cutter, steps, ridges between them, holes of the waste."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ..dials import Dial, spaced
from .decisions import EDGES, END_HOLE, INWARDS, MIDDLE
from .results import CutterPath, Hole, Place

AWAY, TOWARDS = "away from the hollow side", "towards the hollow side"
_HALVINGS = 60


@dataclass(frozen=True)
class Setting:
    """The arc as it lies on the table.

    Parameters
    ----------
    radius : of the centre line, mm.
    half_angle : from its middle to an end hole, rad.
    datum : from where coordinates count.
    edges : from the left and from the hollow edge of the work to the arc's middle, mm.
    dial, rotary : handwheels of the slides, in mm, and of the rotary table, in degrees.
    """

    radius: float
    half_angle: float
    datum: str
    edges: tuple[float, float]
    dial: Dial
    rotary: Dial

    @property
    def y_way(self) -> str:
        """Which way y counts."""
        return TOWARDS if self.datum == MIDDLE else AWAY

    @property
    def middle(self) -> tuple[float, float]:
        """The middle of the arc from the datum, mm."""
        if self.datum == END_HOLE:
            half = self.radius * math.sin(self.half_angle)
            return half, self.radius * (1 - math.cos(self.half_angle))
        return self.edges if self.datum == EDGES else (0.0, 0.0)

    def at(self, along: float, up: float) -> tuple[float, float]:
        """Return coordinates of a point given from the arc's middle, `up` away from its centre."""
        x, y = self.middle
        return (x + along, -up) if self.datum == MIDDLE else (x + along, y + up)

    def up(self, along: float, radius: float) -> float:
        """Return how far a way of another radius about the same centre stands up from the middle.

        Parameters
        ----------
        along : along the chord from the middle, mm.
        radius : of the way, mm.
        """
        return math.sqrt(radius**2 - along**2) - self.radius

    def hole(self, angle: float, diameter: float, start: float) -> Hole:
        """Return a hole at an angle from the arc's middle, the table reading 0 at `start` (rad)."""
        along, up = self.radius * math.sin(angle), self.radius * (math.cos(angle) - 1)
        x, y = self.at(along, up)
        turned = math.degrees(angle - start)
        return Hole(
            x, y, math.degrees(angle), diameter, (self.dial.text(x), self.dial.text(y)),
            self.rotary.text(turned),
        )  # fmt: skip


def path(setting: Setting, name: str, radius: float, step: float, order: str) -> CutterPath:
    """Return the places of the cutter's centre along a way about the arc's centre.

    Parameters
    ----------
    radius : of the way, mm.
    step : along the chord, mm.
    order : see `ORDERS`.
    """
    half = radius * math.sin(setting.half_angle)
    stations = list(spaced(-half, half, step))
    if name == "inner flank":
        stations.reverse()
    places = [_place(setting, along, radius) for along in stations]
    if order == INWARDS:
        left = [one for one in places if one.along <= 0]
        right = [one for one in reversed(places) if one.along >= 0]
        if name == "inner flank":
            left, right = left[::-1], right[::-1]
        runs = (left, right)
        places = [
            _heed(run[n], "clear the cutter, go past and come on: backlash") if n == 0 else run[n]
            for run in runs for n in range(len(run))
        ]  # fmt: skip
        way = "in two runs, each from an end to the middle"
    else:
        turn = next((n for n, one in enumerate(places) if _past(name, one.along)), 0)
        places[0] = _heed(places[0], "backlash taken up both ways before zero is set")
        if turn:
            places[turn] = _heed(places[turn], "y turns back: take up its backlash first")
        way = "from right to left" if name == "inner flank" else "from left to right"
    return CutterPath(
        name, radius, math.degrees(setting.half_angle), tuple(places), way,
        staircase(stations, radius), setting.dial.text(radius),
        setting.rotary.text(2 * math.degrees(setting.half_angle)),
    )  # fmt: skip


def _past(name: str, along: float) -> bool:
    """Say whether a place is beyond the middle on the way, where y turns back."""
    return along < -1e-9 if name == "inner flank" else along > 1e-9


def _place(setting: Setting, along: float, radius: float) -> Place:
    x, y = setting.at(along, setting.up(along, radius))
    return Place(x, y, along, setting.dial.text(x), setting.dial.text(y))


def _heed(place: Place, text: str) -> Place:
    return Place(place.x, place.y, place.along, place.x_dial, place.y_dial, text)


def longest_step(stations: Sequence[float], radius: float) -> float:
    """Return the longest way between neighbours, straight across, mm."""
    heights = [math.sqrt(radius**2 - x * x) for x in stations]
    return max(
        math.hypot(stations[n + 1] - stations[n], heights[n + 1] - heights[n])
        for n in range(len(stations) - 1)
    )


def staircase(stations: Sequence[float], radius: float) -> float:
    """Return how far the corner of a step stands off the arc, mm.

    The corner of moving along and then across stands inside the arc while it rises and outside
    while it falls; across and then along the other way about.
    """
    most = 0.0
    for here, there in itertools.pairwise(stations):
        high = math.sqrt(radius**2 - here * here), math.sqrt(radius**2 - there * there)
        for x, y in ((there, high[0]), (here, high[1])):
            most = max(most, abs(math.hypot(x, y) - radius))
    return most


def step_for(cusp: Callable[[float], float], wanted: float, longest: float) -> float:
    """Return the longest step whose ridge is no higher than wanted, mm.

    Parameters
    ----------
    cusp : ridge of a step, rising with it.
    longest : step that is not to be passed.
    """
    low, high = 0.0, longest
    if cusp(high) <= wanted:
        return high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if cusp(middle) <= wanted else (low, middle)
    return low
