"""The room round barrel, firebox and ashpan, with axles at the top of their rise.

What turns counts as the disc that it sweeps.  The barrel is a lying round, firebox and
ashpan are boxes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..frames.solids import Bar, Round, Solid
from ..frames.whole import Part, Whole
from .results import Box, Gap, Lying

BOXES = ("firebox", "ashpan", "burner")
STILL = ("frames", "fittings", "cylinders", "motion")
"""Groups of parts that are looked at besides wheels and axles."""
ECCENTRICS = ("eccentric", "forward eccentric", "backward eccentric")


@dataclass(frozen=True)
class Swept:
    """The disc that something sweeps as it turns about an axle, mm."""

    name: str
    x: float
    y: float
    radius: float
    inner: float
    outer: float


@dataclass(frozen=True)
class Standing:
    """A body that stands, as a box."""

    name: str
    box: Box


def things(whole: Whole) -> tuple[list[Swept], list[Standing]]:
    """Return what turns about the axles, at the top of their rise, and what stands."""
    turning: list[Swept] = []
    standing: list[Standing] = []
    for part in whole.parts:
        if part.name in ECCENTRICS:
            turning += _about(part, part.solids, (0.0, whole.rise))
        elif part.ride == "wheel" and part.axle is not None and part.kind == "wheels":
            axle = whole.axles[part.axle]
            y = 0.0 if axle.kind == "coupled" else whole.rail + axle.diameter / 2
            lift = whole.rise if axle.kind == "coupled" else 0.0
            turning += _about(part, part.solids, (axle.ahead, y + lift), (axle.ahead, y))
        elif part.ride == "axle":
            standing += _boxes(part, whole.rise)
        elif part.ride == "frames" and part.kind in STILL and not _gear(part):
            standing += _boxes(part)
    return turning, standing


def _gear(part: Part) -> bool:
    """Return whether a part of the motion moves; its gaps are looked at with the motion."""
    return part.kind == "motion" and "shaft" not in part.name


def _about(
    part: Part, solids: tuple[Solid, ...], centre: tuple[float, float],
    drawn: tuple[float, float] | None = None,
) -> Iterator[Swept]:  # fmt: skip
    """Yield what the bars of a part sweep about a centre, from where they are drawn."""
    x, y = drawn or (centre[0], 0.0)
    for solid in solids:
        if isinstance(solid, Bar):
            reach = max(math.dist(end, (x, y)) for end in (solid.start, solid.end)) + solid.half
            yield Swept(part.name, *centre, reach, solid.inner, solid.outer)


def _boxes(part: Part, lift: float = 0.0) -> Iterator[Standing]:
    for solid in part.solids:
        (x0, y0, z0), (x1, y1, z1) = solid.extent
        yield Standing(part.name, (x0, x1, y0, y1 + lift, z0, z1))


def box_to_disc(box: Box, disc: Swept) -> float:
    """Return the gap between a box and a disc that stands upright along the engine, mm.

    Source: elementary geometry; negative where they overlap, by the least way out.
    """
    x0, x1, y0, y1, z0, z1 = box
    dx = max(x0 - disc.x, 0.0, disc.x - x1)
    dy = max(y0 - disc.y, 0.0, disc.y - y1)
    away = math.hypot(dx, dy)
    if away == 0:
        away = -min(disc.x - x0, x1 - disc.x, disc.y - y0, y1 - disc.y)
    seen = away - disc.radius
    across = max(z0 - disc.outer, disc.inner - z1)
    return _joined(seen, across)


def box_to_box(one: Box, other: Box) -> float:
    """Return the gap between two boxes, negative by the least way out, mm."""
    gaps = [
        max(one[2 * i] - other[2 * i + 1], other[2 * i] - one[2 * i + 1]) for i in range(3)
    ]  # fmt: skip
    if max(gaps) < 0:
        return max(gaps)
    return math.hypot(*(max(gap, 0.0) for gap in gaps))


def _joined(one: float, other: float) -> float:
    if one < 0 and other < 0:
        return max(one, other)
    return math.hypot(max(one, 0.0), max(other, 0.0))


def lying_to_disc(lying: Lying, disc: Swept) -> float:
    """Return the gap between a lying barrel and an upright disc, mm.

    Exact where the barrel passes over the disc's centre, and beyond its ends where that is
    nearest to the disc's top.
    """
    x = min(max(disc.x, lying.back), lying.front)
    far = abs(disc.x - x)
    if far >= disc.radius:
        low = disc.y
        z = max(disc.inner, 0.0) if disc.outer > 0 else disc.outer
        seen = max(math.hypot(low - lying.centre, z) - lying.radius, 0.0)
        return math.hypot(far - disc.radius, seen)
    top = disc.y + math.sqrt(disc.radius**2 - far**2)
    return _round_to(lying, disc.inner, disc.outer, top)


def lying_to_box(lying: Lying, box: Box) -> float:
    """Return the gap between a lying barrel and a box below it, mm."""
    x0, x1, _, y1, z0, z1 = box
    along = max(x0 - lying.front, lying.back - x1)
    seen = _round_to(lying, z0, z1, y1)
    return _joined(seen, along)


def _round_to(lying: Lying, inner: float, outer: float, top: float) -> float:
    """Return the gap of the round to a body from below up to `top`, across the engine."""
    z = 0.0 if inner <= 0 <= outer else min(abs(inner), abs(outer))
    if top >= lying.centre:
        return z - lying.radius
    return math.hypot(z, lying.centre - top) - lying.radius


def box_of(part: Part) -> Box:
    """Return the box about a part, mm."""
    (x0, y0, z0), (x1, y1, z1) = part.extent
    return x0, x1, y0, y1, z0, z1


@dataclass(frozen=True)
class Hot:
    """How the boiler grows: its free end along the engine, and each length by a share.

    Parameters
    ----------
    held : x that does not move, mm.
    stretch : growth along the engine beyond the frames, by length.
    swell : growth across and downwards beyond them, by length.
    """

    held: float
    stretch: float
    swell: float
    centre: float = 0.0

    def x(self, at: float) -> float:
        """Return where a place along the engine goes, mm."""
        return at + (at - self.held) * self.stretch

    def box(self, box: Box) -> Box:
        """Return a box of the boiler when hot; it grows down from the boiler's centre."""
        x0, x1, y0, y1, z0, z1 = box
        more = 1 + self.swell
        y0, y1 = (self.centre + (y - self.centre) * more for y in (y0, y1))
        return self.x(x0), self.x(x1), y0, y1, z0 * more, z1 * more

    def lying(self, lying: Lying) -> Lying:
        """Return the barrel when hot."""
        more = 1 + self.swell
        return Lying(
            self.x(lying.back), self.x(lying.front), lying.centre, lying.radius * more,
            lying.inside * more,
        )  # fmt: skip


def gaps_of(
    whole: Whole, lying: Lying | None, hot: Hot, *, wanted: float, beside: float
) -> tuple[Gap, ...]:
    """Return the gaps of the boiler's parts, the least first; of each pair the least only.

    Parameters
    ----------
    wanted : to what turns or rises, mm.
    beside : between firebox and what stands beside it, mm.
    """
    turning, standing = things(whole)
    least: dict[tuple[str, str], Gap] = {}

    def add(gap: Gap) -> None:
        key = (gap.part, gap.other)
        if key not in least or gap.least < least[key].hot:
            least[key] = gap

    if lying is not None:
        warm = hot.lying(lying)
        known = whole.part("boiler")
        joined = set(known.joined) | {"cylinders"} if known else {"cylinders"}
        for disc in turning:
            add(Gap("barrel", disc.name, lying_to_disc(lying, disc), lying_to_disc(warm, disc),
                    wanted, (disc.x, disc.y + disc.radius), disc.y + disc.radius))  # fmt: skip
        for one in standing:
            if one.name not in joined:
                add(Gap("barrel", one.name, lying_to_box(lying, one.box),
                        lying_to_box(warm, one.box), wanted,
                        ((one.box[0] + one.box[1]) / 2, one.box[3]), one.box[3]))  # fmt: skip
    for name in BOXES:
        part = whole.part(name)
        if part is None:
            continue
        box = box_of(part)
        warm_box = hot.box(box)
        for disc in turning:
            add(Gap(name, disc.name, box_to_disc(box, disc), box_to_disc(warm_box, disc), wanted,
                    (disc.x, disc.y), disc.y + disc.radius))  # fmt: skip
        for one in standing:
            if one.name in part.joined or name in _joined_to(whole, one.name):
                continue
            side = _beside(box, one.box)
            add(Gap(name, one.name, box_to_box(box, one.box), box_to_box(warm_box, one.box),
                    beside if side else wanted,
                    ((max(box[0], one.box[0]) + min(box[1], one.box[1])) / 2,
                     (max(box[2], one.box[2]) + min(box[3], one.box[3])) / 2), one.box[3],
                    _across(warm_box, one.box) if side else None))  # fmt: skip
    return tuple(sorted(least.values(), key=lambda gap: gap.least - gap.wanted))


def _across(box: Box, other: Box) -> float:
    return max(other[4] - box[5], box[4] - other[5])


def _joined_to(whole: Whole, name: str) -> tuple[str, ...]:
    part = whole.part(name)
    return part.joined if part is not None else ()


def _beside(box: Box, other: Box) -> bool:
    """Return whether the other stands beside the box, out along the engine's width."""
    over = all(min(box[2 * i + 1], other[2 * i + 1]) > max(box[2 * i], other[2 * i])
               for i in range(2))  # fmt: skip
    return over and not (other[4] < 0 < other[5])


def barrel_of(part: Part, lagging: Part | None) -> Lying | None:
    """Return the barrel of a lying boiler, None for an upright one."""
    shell = next((one for one in part.solids if isinstance(one, Round)), None)
    if shell is None or abs(shell.angle) > 45:
        return None
    outside = shell.radius
    if lagging is not None:
        outside = max(one.radius for one in lagging.solids if isinstance(one, Round))
    x, y, _ = shell.start
    return Lying(x, x + shell.length, y, outside, shell.bore / 2)
