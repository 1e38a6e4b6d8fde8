"""What would mend a foul: which size moves a part out of the way, and by how much."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from ..frames import Part, Whole
from ..motion.frame import Array
from .bodies import Body, bodies, play_between, states_of
from .distance import gap

Way = tuple[float, float, float]
UP, AHEAD, OUT = (0.0, 1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)
_ANGLES = np.linspace(0.0, 360.0, 72, endpoint=False)
_STEP = 0.05


@dataclass(frozen=True)
class Lever:
    """A size that moves a part.

    Parameters
    ----------
    path : of the decision.
    way : in which the part moves, ahead, up and out.
    now : returns the size as it stands, mm.
    times : by how much the size changes where the part moves by 1 mm.
    words : what the builder does, with room for the size.
    last : whether it is named after all others, since it moves much else.
    """

    path: str
    way: Way
    now: Callable[[Whole, Part], float]
    times: float
    words: str
    last: bool = False


def _top(whole: Whole, part: Part) -> float:
    return part.extent[1][1] - whole.rail


def _bottom(whole: Whole, part: Part) -> float:
    return part.extent[0][1]


def _depth(whole: Whole, part: Part) -> float:
    return part.extent[1][1] - part.extent[0][1]


def _width(whole: Whole, part: Part) -> float:
    return max(one.extent[1][2] - one.extent[0][2] for one in part.solids)


def _over(whole: Whole, part: Part) -> float:
    return 2 * max(one.extent[1][2] for one in part.solids)


def _apart(whole: Whole, part: Part) -> float:
    """Return how far cylinders stand apart; inside ones have no room to be moved."""
    inside = part.solids[0].extent[0][2] < whole.frame_inside / 2
    return math.nan if inside else 2 * part.solids[0].centroid[2]


def _slope(whole: Whole, part: Part) -> float:
    """Return the cylinders' inclination; outside ones are moved sideways."""
    inside = part.solids[0].extent[0][2] < whole.frame_inside / 2
    return whole.drive.inclination if inside else math.nan


def _plates_ahead(whole: Whole, part: Part) -> float:
    plates = whole.part("frame plates")
    return plates.extent[1][0] - whole.axles[0].ahead if plates else math.nan


def _plates_behind(whole: Whole, part: Part) -> float:
    plates = whole.part("frame plates")
    return whole.axles[-1].ahead - plates.extent[0][0] if plates else math.nan


def _boiler_bottom(whole: Whole, part: Part) -> float:
    boiler = whole.part("lagging") or whole.part("boiler")
    return boiler.extent[0][1] if boiler else math.nan


def _truck(index: int, coupled: int) -> Callable[[Whole, Part], float]:
    def now(whole: Whole, part: Part) -> float:
        trucks = [one for one in whole.axles if (one.kind == "coupled") is False]
        own = [one for one in trucks if one.kind == ("leading" if index == 0 else "trailing")]
        if len(own) != 1:  # of a bogie the middle counts, and both axles move
            return math.nan
        return abs(own[0].ahead - whole.coupled[coupled].ahead)

    return now


_BOARD = Lever("frames.platework.board_height", UP, _top, 1, "running boards {} mm above the rail")
_STANDS = Lever(
    "frames.platework.board_height", UP, lambda whole, part: part.extent[0][1] - whole.rail, 1,
    "running boards, with the tanks on them, {} mm above the rail",
)  # fmt: skip
_BOILER = Lever(
    "clearance.surroundings.boiler_bottom", UP, _boiler_bottom, 1,
    "the boiler's underside {} mm above the driving axle",
)  # fmt: skip
_FIRE_UP = Lever(
    "boiler.firebox.bottom", UP, _bottom, 1, "a firebox that ends {} mm above the driving axle"
)
_FIRE_IN = Lever("boiler.firebox.width", (0.0, 0.0, -1.0), _width, -2, "a firebox {} mm wide")
_PAN = Lever("boiler.firebox.ashpan", UP, _depth, -1, "an ashpan {} mm deep")
_TANK = Lever("frames.platework.tank_width", OUT, _width, -1, "side tanks {} mm wide")
_CENTRES = Lever("wheels.cylinders.centres", OUT, _apart, 2, "cylinders {} mm apart", True)
_SLOPE = Lever("cylinders.inclination", UP, _slope, math.nan, "cylinders inclined by {}°", True)
_AHEAD = Lever(
    "frames.plates.ahead", AHEAD, _plates_ahead, 1,
    "frame plates that go {} mm ahead of the first axle",
)  # fmt: skip
_BEHIND = Lever(
    "frames.plates.behind", (-1.0, 0.0, 0.0), _plates_behind, 1,
    "frame plates that go {} mm behind the last axle",
)  # fmt: skip
_CAB = Lever("frames.platework.cab_width", OUT, _over, 2, "a cab {} mm wide")
_PUMP = Lever(
    "frames.pump.ahead", AHEAD, lambda whole, part: part.extent[1][0], 1,
    "the pump's front {} mm ahead of the driving axle",
)  # fmt: skip
_LEADING = Lever(
    "wheels.leading_truck", AHEAD, _truck(0, 0), 1,
    "a leading truck {} mm ahead of the first coupled axle",
)  # fmt: skip
_TRAILING = Lever(
    "wheels.trailing_truck", (-1.0, 0.0, 0.0), _truck(1, -1), 1,
    "a trailing truck {} mm behind the last coupled axle",
)  # fmt: skip

LEVERS: dict[str, tuple[Lever, ...]] = {
    "running boards": (_BOARD,), "lagging": (_BOILER,), "boiler": (_BOILER,),
    "firebox": (_FIRE_IN, _FIRE_UP), "ashpan": (_PAN,), "side tanks": (_TANK, _STANDS),
    "cylinders": (_CENTRES,), "slide bars": (_CENTRES, _SLOPE), "crossheads": (_CENTRES, _SLOPE),
    "front buffers": (_AHEAD,), "front buffer beam": (_AHEAD,), "front coupling": (_AHEAD,),
    "back buffers": (_BEHIND,), "back buffer beam": (_BEHIND,), "back coupling": (_BEHIND,),
    "cab sides": (_CAB,), "feed pump": (_PUMP,),
    "leading truck wheels": (_LEADING,), "leading truck axle": (_LEADING,),
    "trailing truck wheels": (_TRAILING,), "trailing truck axle": (_TRAILING,),
}  # fmt: skip


@dataclass(frozen=True)
class Mend:
    """One size that would mend it: the decision, its value, in words, and how far the part goes."""

    path: str
    value: float
    words: str
    by: float


def mends(whole: Whole, first: str, second: str, wanted: float) -> tuple[Mend, ...]:
    """Return the sizes that would part two parts, the least change first.

    Parameters
    ----------
    wanted : the gap to be left, mm.
    """
    found: list[tuple[bool, float, Mend]] = []
    for name, other in ((first, second), (second, first)):
        part = whole.part(name)
        for lever in LEVERS.get(name, ()) if part is not None else ():
            assert part is not None
            now = lever.now(whole, part)
            by = _moved_by(whole, name, other, lever.way, wanted) if math.isfinite(now) else None
            if by is None:
                continue
            # what is inclined about the driving axle rises with its distance from it
            times = (
                lever.times
                if lever is not _SLOPE
                else math.degrees(1 / max(part.extent[0][0], 1.0))
            )
            up = times > 0
            value = (now + by * times) / _STEP
            value = round(_STEP * (math.ceil(value - 1e-6) if up else math.floor(value + 1e-6)), 2)
            if value > 0 or lever.path.endswith(("bottom", "pump.ahead")):
                words = lever.words.format(f"{value:g}")
                found.append((lever.last, by, Mend(lever.path, value, words, by)))
    return tuple(one for _, _, one in sorted(found, key=lambda each: each[:2]))


def _moved_by(whole: Whole, name: str, other: str, way: Way, wanted: float) -> float | None:
    """Return how far a part has to go to be clear of another, mm; None where that is too far."""
    pairs = list(_pairs(whole, name, other))
    if not pairs:
        return None
    pairs.sort(key=lambda one: _room(one[0], one[1], (0.0, 0.0, 0.0)))
    most = 0.6 * whole.coupled[0].diameter
    if _least(whole, pairs, way, most) < wanted:
        return None
    low, high = 0.0, most
    for _ in range(11):
        amid = (low + high) / 2
        if _least(whole, pairs, way, amid) < wanted:
            low = amid
        else:
            high = amid
    return high


def _pairs(whole: Whole, name: str, other: str) -> Iterator[tuple[Body, Body]]:
    every = bodies(whole)
    for a in every:
        if a.part.name != name or (a.part.paired and a.left):
            continue
        for b in every:
            if b.part.name == other and (not a.part.paired or not (b.part.paired and b.left)):
                yield a, b


def _room(a: Body, b: Body, by: Way) -> float:
    """Return how far apart the rooms of two bodies are, one of them moved, mm; no more than that.

    Across the engine it may have been moved to either side.
    """
    x, y, z = by
    apart = (
        max(b.low[0] - a.high[0] - x, a.low[0] + x - b.high[0], 0.0),
        max(b.low[1] - a.high[1] - y, a.low[1] + y - b.high[1], 0.0),
        max(b.low[2] - a.high[2] - abs(z), a.low[2] - abs(z) - b.high[2], 0.0),
    )
    return math.hypot(*apart)


def _least(whole: Whole, pairs: list[tuple[Body, Body]], way: Way, by: float) -> float:
    found = math.inf
    x, y, z = (by * one for one in way)
    for a, b in pairs:
        if _room(a, b, (x, y, z)) >= found:
            continue
        side = -1.0 if a.shape.middle < 0 else 1.0
        if a.shape.low < 0 < a.shape.high and z:
            # what stands across the middle grows or shrinks to both sides
            shape = replace(a.shape, low=a.shape.low - z, high=a.shape.high + z)
        else:
            shape = replace(a.shape, low=a.shape.low + side * z, high=a.shape.high + side * z)
        shape = replace(shape, points=shape.points + np.array([x, y]))
        shifted = replace(a, shape=shape)
        for state in states_of(a, b):
            rises: dict[int, Array] = {n: np.array([s * whole.rise]) for n, s in state.items()}
            there = gap(
                shape, shifted.at(whole, _ANGLES, rises), b.shape, b.at(whole, _ANGLES, rises),
                play_between(a, b, whole), a.stands and b.stands,
            )  # fmt: skip
            found = min(found, float(there.min()))
    return found
