"""From what was read on disc, rule or feeler to crank angles and openings of the ports."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..motion import AnyGear, Crank, SlideValve
from ..motion.events import valve_as_seen
from ..motion.frame import Array
from ..motion.kernel import Gear
from .decisions import (
    ADMISSION,
    BY_ANGLE,
    BY_PERCENT,
    COMPRESSION,
    CUTOFF,
    EVENTS,
    LEAD,
    WIDEST,
    Instruments,
    Reading,
)

HEARD = 0.02
"""Air is heard, and stops, somewhere before a port is open by this, mm; common practice."""
_EVEN = math.sqrt(3.0)
"""What lies evenly spread within plus or minus a has a standard deviation of a over this.

Source: Guide to the expression of uncertainty in measurement, JCGM 100:2008, 4.3.7.
"""


@dataclass(frozen=True)
class Edge:
    """Which edge a reading is about, and how what is out shows at it.

    The opening is sign * (valve's place + setting + shift * valve's error) less the laps.

    Parameters
    ----------
    laps : share of steam lap and of exhaust lap; a change-over valve exchanges them.
    offset : that belongs to the valve as designed, mm.
    """

    sign: float
    laps: tuple[float, float]
    shift: float
    offset: float


def edge_of(gear: Gear, valve: SlideValve, reverser: float, end: str, *, steam: bool) -> Edge:
    """Return the edge that opens an end to steam or to exhaust."""
    probe = replace(valve, steam_lap=1.0, exhaust_lap=0.0, valve_offset=1.0)
    seen = valve_as_seen(gear, probe, reverser)
    own = seen.steam_lap if steam else seen.exhaust_lap
    towards = -seen.sense if end == "front" else seen.sense
    return Edge(
        sign=towards if steam else -towards,
        laps=(own, 1.0 - own),
        shift=seen.valve_offset,
        offset=seen.valve_offset * valve.valve_offset,
    )


@dataclass(frozen=True)
class Points:
    """Readings as arrays (m,): what the fit works with.

    Parameters
    ----------
    numbers : of the readings, as the builder counts them, from 1.
    reversers : notches.
    theta : crank angle at which each was taken, degrees; of a greatest opening, a first guess.
    target : opening of the port that it amounts to, mm: nothing for an event.
    sign, shift, offset, steam, exhaust : of the edge; see `Edge`.
    angle_error, error : standard deviations of angle (degrees) and opening (mm).
    rising : +1 where the opening grows with the crank angle, -1 where it falls, 0 for openings.
    disc, peak : whether it was read on the disc; whether it is a greatest opening.
    """

    numbers: tuple[int, ...]
    reversers: Array
    theta: Array
    target: Array
    sign: Array
    shift: Array
    offset: Array
    steam: Array
    exhaust: Array
    angle_error: Array
    error: Array
    rising: Array
    disc: Array
    peak: NDArray[np.bool_]

    def __len__(self) -> int:
        return len(self.numbers)

    def some(self, which: Array | NDArray[np.bool_]) -> Points:
        """Return some of the readings."""
        at = np.flatnonzero(which) if np.asarray(which).dtype == bool else which
        arrays = {
            name: value[at] for name, value in vars(self).items() if isinstance(value, np.ndarray)
        }
        return Points(numbers=tuple(self.numbers[int(i)] for i in at), **arrays)


def placed(
    readings: Sequence[tuple[int, Reading]],
    gear: AnyGear,
    crank: Crank,
    valve: SlideValve,
    instruments: Instruments,
) -> tuple[Points, dict[int, str]]:
    """Return readings as points, and why others cannot be used.

    Parameters
    ----------
    readings : with their numbers, from 1.
    """
    rows: list[dict[str, Any]] = []
    refused: dict[int, str] = {}
    for number, reading in readings:
        made = _placed(reading, gear, crank, valve, instruments)
        if isinstance(made, str):
            refused[number] = made
        else:
            rows.append({"number": number, **made})
    return _points(rows), refused


def _placed(
    reading: Reading, gear: AnyGear, crank: Crank, valve: SlideValve, instruments: Instruments
) -> dict[str, Any] | str:
    figure, reverser = reading.figure, reading.reverser
    if figure is None:
        other = reading.length if reading.number is None else reading.number
        if other is None:
            return "has no figure yet"
        wants = "a length" if reading.number is not None else "degrees or per cent"
        return f"wants {wants} for this way of measuring"
    if reverser is None:
        return "does not say in which notch the gear stood"
    if reverser == 0 and not gear.notched:
        return "is said to be in mid gear, which this gear does not have"
    way = 1 if reverser >= 0 else -1
    if not reading.is_event:
        return {
            **_edge(gear, valve, reverser, reading.end, reading.what),
            "theta": _dead_centre(crank, reading.end), "target": figure,
            "error": (reading.within or (instruments.feeler if reading.what == LEAD
                                         else instruments.widest)) / _EVEN,
            "angle_error": instruments.dead_centre / _EVEN if reading.what == LEAD else 0.0,
            "rising": 0.0, "disc": 0.0, "peak": reading.what == WIDEST,
        }  # fmt: skip
    base = {
        **_edge(gear, valve, reverser, reading.end, reading.what), "target": 0.0,
        "error": HEARD / 2 / _EVEN, "peak": False,
        "rising": float(way if reading.what in (ADMISSION, EVENTS[2]) else -way),
    }  # fmt: skip
    if reading.measured == BY_ANGLE:
        error = (reading.within or instruments.angle) / _EVEN
        theta = (_dead_centre(crank, "front") + figure) % 360
        return {**base, "theta": theta, "angle_error": error, "disc": 1.0}
    stroke = crank.piston_stroke
    if reading.measured == BY_PERCENT:
        from_end = figure / 100 * stroke
        error = instruments.length if reading.within is None else reading.within / 100 * stroke
    else:
        error = reading.within or instruments.length
        from_front = reading.measured != "piston, distance"
        from_end = stroke - figure if from_front and reading.end == "back" else figure
    found = crank_at(crank, reading.end, from_end, reading.what, way)
    if found is None:
        return (
            f"puts the piston {abs(from_end):.2f} mm from its {reading.end} dead centre, outside "
            f"its stroke of {stroke:.2f} mm"
        )
    return {**base, "theta": found, "angle_error": _in_degrees(crank, found, error / _EVEN),
            "disc": 0.0}  # fmt: skip


def _edge(gear: AnyGear, valve: SlideValve, row: float, end: str, what: str) -> dict[str, Any]:
    steam = what in (ADMISSION, CUTOFF, LEAD, WIDEST)
    edge = edge_of(gear, valve, row, end, steam=steam)
    return {"reverser": row, "sign": edge.sign, "shift": edge.shift, "offset": edge.offset,
            "steam": edge.laps[0], "exhaust": edge.laps[1]}  # fmt: skip


def _points(rows: Sequence[dict[str, Any]]) -> Points:
    def column(name: str) -> Array:
        return np.array([row[name] for row in rows], dtype=float)

    names = ("theta", "target", "sign", "shift", "offset", "steam", "exhaust", "angle_error",
             "error", "rising", "disc")  # fmt: skip
    return Points(
        numbers=tuple(row["number"] for row in rows),
        reversers=column("reverser"),
        peak=np.array([row["peak"] for row in rows], dtype=bool),
        **{name: column(name) for name in names},
    )


def _dead_centre(crank: Crank, end: str) -> float:
    return float(crank.dead_centres[0 if end == "front" else 1])


def crank_at(crank: Crank, end: str, distance: float, what: str, way: int) -> float | None:
    """Return the crank angle at which the piston stands `distance` from an end, degrees.

    Parameters
    ----------
    distance : mm; of an admission negative where that is after the dead centre.
    what : which event, and so whether the piston leaves the end or comes back to it.
    way : +1 running forward, -1 backward.

    Returns
    -------
    Degrees in [0, 360), None outside the stroke.
    """
    leaves = what not in (ADMISSION, COMPRESSION)
    if what == ADMISSION and distance < 0:
        leaves, distance = True, -distance
    if not 0 <= distance <= crank.piston_stroke:
        return None
    front, back = crank.gudgeon_ends
    x = front - distance if end == "front" else back + distance
    y = crank.cylinder_offset
    reach = math.hypot(x, y)
    cosine = (crank.throw**2 + reach**2 - crank.connecting_rod**2) / (2 * crank.throw * reach)
    bent = math.degrees(math.acos(min(1.0, max(-1.0, cosine))))
    # crank angles run clockwise from +x; running forward the piston leaves the front first
    leaving_front = leaves == (end == "front")
    side = 1 if leaving_front == (way > 0) else -1
    return (side * bent - math.degrees(math.atan2(y, x))) % 360


def _in_degrees(crank: Crank, theta: float, error: float) -> float:
    """Return what an error of the piston's place, mm, is as a crank angle, degrees."""
    slope = abs(float(crank.slope(theta)))
    bend = abs(float(crank.slope(theta + 0.5) - crank.slope(theta - 0.5))) / math.radians(1.0)
    # at the dead centre the piston stands still, and the angle is worse told
    return math.degrees(error / max(slope, math.sqrt(error * bend / 2), 1e-9))


def candidate(
    number: int, gear: AnyGear, crank: Crank, valve: SlideValve, instruments: Instruments,
    reading: Reading, theta: float,
) -> dict[str, Any]:  # fmt: skip
    """Return a reading that might be taken next, as a row for `points_of`.

    Parameters
    ----------
    theta : where its event falls, degrees.
    """
    of = replace(reading, measured=BY_ANGLE, number=0.0, length=None)
    if not reading.is_event:
        of = replace(reading, number=None, length=0.0)
    row = _placed(of, gear, crank, valve, instruments)
    assert not isinstance(row, str)
    return {"number": number, **row, "theta": theta}


points_of = _points
