"""The engine against the line: loading gauge, rail, platform, buffers and couplings."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from ..frames import Whole
from ..trade.gauges import Outline, Published, outline, published
from ..working import relation
from .bodies import Body, bodies
from .decisions import NONE, OWN, SCALED, Gauging, Lineside

_ARC = 48


@dataclass(frozen=True)
class Prototype:
    """What of scale and prototype the line needs, mm at model size unless it says otherwise.

    Parameters
    ----------
    ratio : scale of the model.
    gauge, full_gauge : of the model's track and of the prototype's, the latter full size.
    width, height : greatest of the engine allowed, None where unknown.
    width_path : the decision that bounds the width.
    """

    ratio: float
    gauge: float
    full_gauge: float
    width: float | None
    height: float | None
    width_path: str


@dataclass(frozen=True)
class Margin:
    """How far one part stands inside the loading gauge.

    Parameters
    ----------
    beside : half width allowed less the part's, at the height where it is least, mm.
    height : that height above the rail, mm.
    above : the outline's top less the part's, mm.
    """

    part: str
    beside: float
    height: float
    above: float

    @property
    def least(self) -> float:
        """The lesser of both."""
        return min(self.beside, self.above)


@dataclass(frozen=True)
class Low:
    """A part and its height over the rail with everything at its worst, mm."""

    part: str
    over: float
    sinks: bool


@dataclass(frozen=True)
class Compared:
    """A height or distance of the engine beside what a standard says, mm."""

    what: str
    field: str
    has: float
    standard: Published

    @property
    def off(self) -> float:
        """By how much it is outside the limits, positive above; 0 within."""
        if self.has > self.standard.high:
            return self.has - self.standard.high
        return min(0.0, self.has - self.standard.low)


@relation("s", "geometry", j="j", p="p")
def sideways(j: Any, p: Any) -> Any:
    """How far the engine shifts on its track: half the flange play and the axle's side play."""
    return j / 2 + p


def shift_of(whole: Whole) -> float:
    """Return how far the engine may stand aside on straight track, mm.

    The coupled axle with the least side play holds it.
    """
    least = min((one.play for one in whole.coupled), default=0.0)
    return sideways(j=whole.flange_play, p=least)


def outline_of(gauging: Gauging, prototype: Prototype) -> Outline | None:
    """Return the loading gauge chosen, None where its figures are not known."""
    line = gauging.line
    if line.outline == SCALED:
        if prototype.width is None and prototype.height is None:
            return None
        half = 1e5 if prototype.width is None else prototype.width / 2
        top = 1e5 if prototype.height is None else prototype.height
        return Outline(SCALED, "vehicle", ((0.0, half), (top, half)))
    if line.outline == OWN:
        corners = tuple((one.height, one.half_width) for one in gauging.corners)
        if len(corners) == 1:
            corners = ((0.0, corners[0][1]), *corners)
        return Outline(OWN, "vehicle", corners)
    return outline(line.outline, prototype.ratio, prototype.gauge, prototype.full_gauge)


def allowed(gauge: Outline, height: float) -> float:
    """Return the half width that an outline allows at a height above the rail, mm.

    At a step the narrower counts.
    """
    corners = gauge.corners
    if height <= corners[0][0]:
        return corners[0][1]
    best = math.inf
    for (low, one), (high, other) in pairwise(corners):
        if low <= height <= high:
            share = 0.5 if high == low else (height - low) / (high - low)
            best = min(best, min(one, other) if high == low else one + share * (other - one))
    return best if math.isfinite(best) else corners[-1][1]


def margins(whole: Whole, gauge: Outline, shift: float) -> tuple[Margin, ...]:
    """Return how far each part stands inside an outline, the least first.

    Wheels and what hangs below the rail's top are let through there.  Side play counts;
    where the outline is of structures, so does the engine's shift on the track.

    Parameters
    ----------
    shift : of the engine on its track, each way, mm.
    """
    aside = shift if gauge.kind == "structure" else 0.0
    found: dict[str, Margin] = {}
    steps = [height for height, _ in gauge.corners]
    for body in bodies(whole):
        if body.part.paired and body.left:
            continue
        name = body.part.name
        least, at = min(
            (allowed(gauge, height) - out - aside, height)
            for height, out in _profile(body, whole.rail, steps)
        )
        one = Margin(name, least, at, gauge.top - (body.high[1] - whole.rail))
        known = found.get(name)
        if known is not None:
            beside = min((known, one), key=lambda each: each.beside)
            one = Margin(name, beside.beside, beside.height, min(known.above, one.above))
        found[name] = one
    return tuple(sorted(found.values(), key=lambda each: each.least))


def _profile(body: Body, rail: float, steps: list[float]) -> list[tuple[float, float]]:
    """Return heights above the rail and half widths of a body that matter, mm."""
    low, high = max(body.low[1] - rail, 0.0), max(body.high[1] - rail, 0.0)
    out = max(body.high[2], -body.low[2])
    shape = body.shape
    lying = shape.form == "round" and abs(shape.points[1, 1] - shape.points[0, 1]) < 1e-9
    if not lying:
        return [(height, out) for height in {low, high, *(s for s in steps if low < s < high)}]
    middle = (body.low[1] + body.high[1]) / 2 - rail
    made = []
    for n in range(_ARC + 1):
        turn = math.pi * (n / _ARC - 0.5)
        half = abs(shape.middle) + shape.radius * math.cos(turn) + body.play
        made.append((max(middle + shape.radius * math.sin(turn), 0.0), half))
    return made


def lowest(whole: Whole) -> tuple[Low, ...]:
    """Return the parts over the rail with the springs down, lowest first.

    Wheels stand on it; the motion and the horn stays are told in their own chapters.
    """
    found: dict[str, Low] = {}
    for body in bodies(whole):
        part = body.part
        if part.kind in ("wheels", "motion") or part.name == "horn stays":
            continue
        # what its axle carries keeps its height over the rail; all else sinks with the frames
        sinks = not body.weights
        lift = whole.rise if body.weights else -whole.rise
        over = body.low[1] + lift - whole.rail
        if part.name not in found or over < found[part.name].over:
            found[part.name] = Low(part.name, over, sinks)
    return tuple(sorted(found.values(), key=lambda one: one.over))


def compared(whole: Whole, line: Lineside, prototype: Prototype) -> tuple[Compared, ...]:
    """Return buffers and couplings beside the standard chosen."""
    if line.couplings == NONE:
        return ()
    given = (line.couplings, prototype.ratio, prototype.gauge, prototype.full_gauge)
    made = []
    for end in ("front", "back"):
        buffers, hook = whole.part(f"{end} buffers"), whole.part(f"{end} coupling")
        if buffers is not None:
            _, y, z = buffers.solids[0].centroid
            height = published(given[0], "buffer_height", *given[1:])
            if height is not None:
                path = "frames.beams.buffer_height"
                made.append(Compared(f"{end} buffers above the rail", path, y - whole.rail, height))
            apart = published(given[0], "buffers_apart", *given[1:])
            if apart is not None and buffers.paired:
                path = "frames.beams.buffers_apart"
                made.append(Compared(f"{end} buffers apart", path, 2 * z, apart))
        if hook is not None:
            height = published(given[0], "coupling_height", *given[1:])
            if height is not None:
                y = hook.centroid[1] - whole.rail
                path = "frames.beams.coupling_height"
                made.append(Compared(f"{end} coupling above the rail", path, y, height))
    return tuple(made)


def platform_of(line: Lineside, prototype: Prototype) -> tuple[float, float] | None:
    """Return a platform's height and its edge from the track's middle, mm; None without one."""
    if line.platform == NONE:
        return None
    if line.platform == OWN:
        if line.platform_height is None or line.platform_edge is None:
            return None
        return line.platform_height, line.platform_edge
    given = (prototype.ratio, prototype.gauge, prototype.full_gauge)
    height = published(line.platform, "platform_height", *given)
    offset = published(line.platform, "platform_offset", *given)
    if height is None or offset is None:
        return None
    return height.value, prototype.gauge / 2 + offset.value


def beside_platform(whole: Whole, height: float, shift: float) -> tuple[str, float]:
    """Return the part that reaches furthest out no higher than a platform, and how far, mm.

    The springs may be down, so that what rides on the frames is lower by the rise.
    """
    reach = [
        (max(body.high[2], -body.low[2]) + shift, body.part.name)
        for body in bodies(whole)
        if body.low[1] - (0.0 if body.weights else whole.rise) - whole.rail < height
    ]
    out, part = max(reach)
    return part, out
