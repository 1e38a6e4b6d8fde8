"""Depth of a thread and the cuts that bring it there, and the order of tools and sizes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ...threads.form import RADIUS, root_radius
from ...threads.tapping import Tapping
from ...trade.threads import Thread
from ..dials import Dial
from ..machines import Lathe
from . import relations
from .decisions import INSIDE, SHARP, STRAIGHT, InFeed

_FIRST = 0.3
MOST_CUTS = 60


@dataclass(frozen=True)
class Cut:
    """One cut: depth from the surface, mm, and what the dials show then.

    Parameters
    ----------
    depth : mm, measured square to the axis.
    added : mm more than the last.
    slide : travel of the slide that feeds, mm, and its dial's reading.
    """

    depth: float
    added: float
    slide: float
    dial: str


@dataclass(frozen=True)
class Step:
    """A step of making a thread: what, its size in mm if it has one, and what to heed."""

    what: str
    size: float | None
    heed: str = ""


@dataclass(frozen=True)
class Fed:
    """How a thread is brought to depth.

    Parameters
    ----------
    pitch : mm.
    half : angle between a flank and the square to the axis, degrees.
    form_depth : of the form, mm.
    depth : that the tool goes, mm.
    set_over : angle of the top slide from the square to the axis, degrees; 0 straight in.
    point : radius of the tool's point, or flat where the form has a flat, mm; 0 when sharp.
    point_is : "radius" or "flat".
    cuts : in their order.
    """

    pitch: float
    half: float
    form_depth: float
    depth: float
    set_over: float
    point: float
    point_is: str
    cuts: tuple[Cut, ...]

    @property
    def slide(self) -> float:
        """Travel of the slide that feeds, in all, mm."""
        return self.cuts[-1].slide


def fed(infeed: InFeed, one: Thread, pitch: float, lathe: Lathe) -> Fed:
    """Return depth and cuts of a thread of the form of `one` at a pitch (mm)."""
    scale = pitch / one.pitch
    half = one.angle / 2
    inside = infeed.where == INSIDE
    bore = (one.major - one.minor_internal) / 2
    form_depth = (bore if inside else one.depth) * scale
    depth, point, point_is = form_depth, _point(one, inside) * scale, _kind(one, inside)
    if infeed.point == SHARP:
        # from the surface to where the flanks of the form meet
        surface = one.minor_internal if inside else one.major
        off = abs(surface - one.effective) / 2 * scale
        depth, point = off + pitch / 4 / math.tan(math.radians(half)), 0.0
    straight = infeed.fed == STRAIGHT
    set_over = 0.0 if straight else max(half - infeed.short, 0.0)
    dial = (
        Dial(lathe.cross_slide, lathe.cross_divisions)
        if straight
        else Dial(lathe.topslide, lathe.topslide_divisions)
    )
    return Fed(
        pitch, half, form_depth, depth, set_over, point, point_is,
        cuts(depth, infeed.first_cut, set_over, dial),
    )  # fmt: skip


def _kind(one: Thread, inside: bool) -> str:
    return "flat" if one.form == "60°" and inside else "radius"


def _point(one: Thread, inside: bool) -> float:
    """Return radius, or flat inside a 60° thread (an eighth of the pitch, ISO 68-1), mm."""
    if one.form == "60°":
        return one.pitch / 8 if inside else root_radius(one)
    return RADIUS[one.form] * one.pitch


def number_of_cuts(depth: float, first: float) -> int:
    """Return how many cuts bring the first one to about a depth."""
    return min(MOST_CUTS, max(2, 1 + round(_FIRST * (depth / first) ** 2)))


def cuts(depth: float, first: float, set_over: float, dial: Dial) -> tuple[Cut, ...]:
    """Return the cuts: each takes about as much metal as the last, then one without in-feed.

    Parameters
    ----------
    depth, first : in all, and about of the first cut, mm.
    set_over : of the slide that feeds, degrees from the square to the axis.
    """
    number = number_of_cuts(depth, first)
    made, before = [], 0.0
    for n in range(1, number + 1):
        now = relations.depth_after(depth, number, _FIRST if n == 1 else n - 1)
        slide = relations.along_slide(now, math.radians(set_over))
        made.append(Cut(now, now - before, slide, dial.text(slide)))
        before = now
    last = made[-1]
    return (*made, Cut(last.depth, 0.0, last.slide, last.dial))


def order_outside(one: Thread, pitch: float, through: Fed, starts: int = 1) -> tuple[Step, ...]:
    """Return the order of work for a male thread, by the tool and, with one start, by the die."""
    core = one.major - 2 * through.form_depth
    turn = Step("Turn to the outside of the thread", one.major,
                "a hair under: a cut thread rises at its crests")  # fmt: skip
    if starts > 1:
        return (
            turn,
            Step("Groove at the end: to the core, wide", 2 * starts * pitch,
                 "two leads or more: the tool runs on fast"),
            Step("Chamfer the end to the core", core, "45°"),
            Step("Cut the first start in the passes listed, to a depth of", through.depth),
            Step("Index to the next start and cut it to the same depth", None,
                 "all starts before any is finished, if the metal springs"),
            Step("Ease every start with the same last setting", None, "the nut is the gauge"),
        )  # fmt: skip
    return (
        turn,
        Step("Under a die alone: turn to", one.major - 0.1 * pitch,
             "a tenth of the pitch under (common practice)"),
        Step("Groove at the end: to the core, wide", 2 * pitch, "two pitches or more"),
        Step("Groove at the end: diameter", core - 0.1 * pitch),
        Step("Chamfer the end to the core", core, "45°, so that tool, die and nut start"),
        Step("Cut the thread in the passes listed, to a depth of", through.depth),
        Step("Die, opened by its screw, then closed until the nut goes", one.major,
             "from the tailstock die-holder; back it off each half turn to break the chips"),
    )  # fmt: skip


def order_inside(
    one: Thread, through: Fed, bench: Tapping | None, starts: int = 1
) -> tuple[Step, ...]:
    """Return the order of work for a female thread, by taps (with one start) and by the tool."""
    if starts > 1:
        return (
            Step("Drill, then bore to", one.minor_internal, "no stock tap has several starts"),
            Step("Recess at the end, if it is blind: wide", 2 * starts * through.pitch,
                 "two leads or more"),
            Step("Cut the first start in the passes listed, to a depth of", through.depth),
            Step("Index to the next start and cut it to the same depth", None,
                 "the screw itself is the gauge"),
        )  # fmt: skip
    drilled = (
        (Step(f"Drill for the tap: {bench.drill.name}", bench.drill.diameter,
              f"{bench.depth:.0f} % of the thread in {bench.material}"),)
        if bench
        else (Step("Bore for the tap", one.minor_internal, "no drill of the sets will do"),)
    )  # fmt: skip
    return (
        Step("Centre, then a pilot drill of half the size", one.minor_internal / 2),
        *drilled,
        Step("Countersink to the outside of the thread", one.major),
        Step("Taper tap, held true by the tailstock", one.major,
             "turn back a quarter each half turn; lubricate (brass and iron dry)"),
        Step("Second tap", one.major, "in a through hole it may be the last"),
        Step("Plug tap, in a blind hole", one.major,
             "clear the chips before; drill three pitches deeper than the thread"),
        Step("Or bored, then cut with the tool: bore to", one.minor_internal),
        Step("Cut the thread in the passes listed, to a depth of", through.depth,
             "the plug tap or the screw itself is the gauge"),
    )  # fmt: skip
