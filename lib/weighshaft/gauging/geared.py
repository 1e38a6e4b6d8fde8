"""The valve gear against all that stands round it: tanks, saddle, cylinders, stays, boxes."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..clearance.engine import Engine, Piece
from ..findings import COMMON, Finding
from ..frames import Whole
from ..motion.frame import Array, MotionLocks
from .bodies import STILL, Body, bodies
from .distance import Shape, gap
from .sweep import ANGLES, Near

_OTHERS = ("connecting rod", "coupling rod", "crosshead", "crank webs", *STILL)
"""Pieces of the motion that the sweep of the whole engine has as parts."""
_OPENED = (
    "running boards", "splashers", "frame plates", "cab sides", "cab front", "slide bars",
    "smokebox saddle",
)  # fmt: skip
"""Sheet, plates and saddle that are opened where the motion passes, bars that it stands beside;
the room beside the plates is the motion's own chapter's."""
_JOINED = {
    "valve spindle": ("cylinders", "smokebox saddle", "smokebox", "front buffer beam"),
    "valve rod": ("cylinders",), "cylinder": ("cylinders", "smokebox saddle"),
    "piston rod": ("cylinders",), "radius rod": ("cylinders",),
}  # fmt: skip
"""What a piece of the gear enters or is fixed to."""
_RIDE = ("eccentric", "forward eccentric", "backward eccentric", "return crank")
"""What stands in the row along the driving axle, beside its boxes."""
CHAPTER = "gauging"


def gear_gaps(
    whole: Whole, gear: Engine | None, notches: tuple[float, ...], wanted: float, side_play: float
) -> tuple[Near, ...]:
    """Return the least gap of every piece of the gear to each thing near it, worst first.

    Full forward, mid and full backward gear and the notches between, all round the turn, with
    the axleboxes up, midway and down.  The left side is the right one in the mirror.

    Parameters
    ----------
    notches : of the reverser that are looked at.
    wanted : gap, mm.
    side_play : of the driving axle, which what rides on it takes up, mm.
    """
    if gear is None:
        return ()
    states = (0.0, 1.0, -1.0) if gear.rise > 0 else (0.0,)
    rows = np.tile(np.array(notches), len(states))
    heights = np.repeat(np.array(states), len(notches))
    try:
        joints = gear.joints(ANGLES[None, :], rows[:, None], heights[:, None])
    except MotionLocks:
        return ()  # the motion's finding says where
    starts, ends = gear.arrays(joints)
    near, first = [], 0
    clad = whole.part("lagging") is not None
    around = [
        one for one in bodies(whole)
        if _counts(one) and not (clad and one.part.name in ("boiler", "fire tubes"))
    ]  # fmt: skip
    for piece in gear.pieces:
        own = slice(first, first + len(piece.edges))
        first = own.stop
        if piece.name in _OTHERS or "axle" in piece.name:
            continue
        for body in around:
            if _belongs(piece, body):
                continue
            found = _between(
                whole, piece, body, starts[own], ends[own], rows, heights, wanted, side_play
            )
            if found is not None:
                near.append(found)
    least: dict[tuple[str, str], Near] = {}
    for one in sorted(near, key=lambda one: one.gap):
        least.setdefault((one.first, one.second), one)
    return tuple(least.values())


def _counts(body: Body) -> bool:
    if body.left or body.part.name in _OPENED or body.part.kind in ("motion", "wheels", "rods"):
        return False
    return body.part.ride in ("frames", "axle")


def _belongs(piece: Piece, body: Body) -> bool:
    name = body.part.name
    if name in _JOINED.get(piece.name, ()):
        return True
    return piece.name in _RIDE and name == "driving axleboxes"


def _between(
    whole: Whole,
    piece: Piece,
    body: Body,
    starts: Array,
    ends: Array,
    rows: Array,
    heights: Array,
    wanted: float,
    side_play: float,
) -> Near | None:
    """Return the least gap of a piece and a body where it is short of what is wanted."""
    play = (side_play if piece.rides else 0.0) + body.play
    if max(piece.inner - body.high[2], body.low[2] - piece.outer) - play >= wanted:
        return None
    best: tuple[float, int, int, int] | None = None
    lift = np.repeat(heights, len(ANGLES)) * whole.rise
    still = np.zeros(1)
    there = body.at(whole, still)
    if body.weights:
        # a box rises with the axle that it carries: the gear's own rises and falls with it
        share = np.asarray(body.weights[0][1])
        own = lift if body.weights[0][0] == _driving(whole) else -lift
        there = there + (share[None, :] * own[:, None])[..., None] * np.array([0.0, 1.0])
    for n, (_, _, half) in enumerate(piece.edges):
        a, b = starts[n].reshape(-1, 2), ends[n].reshape(-1, 2)
        box_low = np.minimum(a, b).min(axis=0) - half - wanted
        box_high = np.maximum(a, b).max(axis=0) + half + wanted
        apart = (box_low > body.high[:2]) | (box_high < body.low[:2])
        if apart.any():
            continue
        shape = Shape("bar", np.stack([a[0], b[0]]), piece.inner, piece.outer, half)
        found = gap(shape, np.stack([a, b], axis=1), body.shape, there, play)
        at = int(np.argmin(found))
        if best is None or found[at] < best[0]:
            best = (float(found[at]), n, *divmod(at, len(ANGLES)))
    if best is None or best[0] >= wanted:
        return None
    least, n, row, turn = best
    x, y = (starts[n, row, turn] + ends[n, row, turn]) / 2
    across = (max(piece.inner, body.low[2]) + min(piece.outer, body.high[2])) / 2
    rise = heights[row]
    return Near(
        piece.name, body.part.name, least, ("motion.gear", *body.part.fields),
        float(ANGLES[turn]), (("driving", int(rise)),) if rise else (), play,
        (float(x), float(y), float(across)), ("", ""), wanted, True, told=True,
        notch=float(rows[row]),
    )  # fmt: skip


def _driving(whole: Whole) -> int:
    return next((n for n, one in enumerate(whole.axles) if one.name == "driving"), 0)


def of_gear(near: tuple[Near, ...]) -> Iterator[Finding]:
    """Yield what the gear fouls of all that stands round it."""
    for one in near[:6]:
        way = "forward" if (one.notch or 0.0) >= 0 else "backward"
        x, y, z = one.place
        where = (
            f"crank at {one.crank_angle:.0f}°, reverser {abs(one.notch or 0.0):.2f} {way}, some "
            f"{abs(x):.0f} mm {'ahead of' if x >= 0 else 'behind'} the driving axle, {abs(y):.0f} "
            f"mm {'above' if y >= 0 else 'below'} it and {abs(z):.0f} mm out"
        )
        names = f"The {one.first} of the motion and the {one.second}"
        if one.gap < 0:
            says = f"{names} foul by {-one.gap:.2f} mm: {where}."
        else:
            says = f"{names} come within {one.gap:.2f} mm of one another: {where}."
        yield Finding(
            "stop" if one.gap < 0 else "check", CHAPTER, one.fields, says,
            f"Move or cut away the {one.second} by {one.short:.2f} mm there, or bring that part of "
            "the motion into another plane in the room for the motion.", COMMON,
        )  # fmt: skip
