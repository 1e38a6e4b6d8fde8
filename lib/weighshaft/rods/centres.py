"""Coupling rods against the wheelbase: what axles that rise and fall ask of them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from ..frames.whole import Axle
from ..wheels import relations as wheeled
from ..wheels.decisions import Wheels
from ..working import Working
from . import relations
from .decisions import BEHIND, RIGID, CouplingRods
from .results import Stretch


@dataclass(frozen=True)
class Centres:
    """What the rods' centres have to allow for, mm.

    Parameters
    ----------
    at_stops : clearance that the bushes need with one box at its upper and its neighbour's at
        its lower stop; None where nothing is coupled.
    play, off_line : how far a rigid rod lets an inner axle leave the line of its neighbours,
        and how far the track and the stops send it; None with two axles or fewer.
    knuckles : places of the knuckle pins ahead of the driving axle.
    """

    stretches: tuple[Stretch, ...]
    at_stops: float | None
    play: float | None
    off_line: tuple[float, float] | None
    knuckles: tuple[float, ...]
    workings: tuple[Working, ...]


def centres_of(
    coupling: CouplingRods,
    wheels: Wheels,
    axles: tuple[Axle, ...],
    *,
    rise: float,
    bush_needed: float,
    eye: float,
) -> Centres:
    """Return what the rods' centres have to allow for.

    Parameters
    ----------
    axles : the coupled ones, from the front.
    rise : of the axleboxes each way, mm.
    bush_needed : what the wheels' chapter finds that the bushes need, one axle above its
        neighbour by the track alone, mm.
    eye : over the metal, mm.
    """
    if len(axles) < 2:
        return Centres((), None, None, None, (), ())
    pairs = list(pairwise(axles))
    stretches = tuple(_stretch(a, b, rise) for a, b in pairs)
    shortest = min(abs(a.ahead - b.ahead) for a, b in pairs)
    lift = wheels.quartering.axle_lift
    on_track = wheeled.lift_stretch(L=shortest, v=lift)
    stops = wheeled.lift_stretch.work(
        "Axles further apart, boxes at opposite stops", "mm", L=shortest, v=2 * rise
    )
    workings = [stops]
    play = off_line = None
    knuckles: tuple[float, ...] = ()
    if len(axles) > 2:
        free = relations.rigid_play.work(
            "A rigid rod lets an inner axle leave the line by", "mm",
            c=wheels.quartering.bush_clearance,
        )  # fmt: skip
        workings.append(free)
        play, off_line = free.result, (lift, 2 * rise)
        if coupling.joint != RIGID:
            away = 0.9 * eye if coupling.knuckle is None else coupling.knuckle
            way = -away if coupling.knuckle_side == BEHIND else away
            knuckles = tuple(one.ahead + way for one in axles[1:-1])
    return Centres(
        stretches, bush_needed + stops.result - on_track, play, off_line, knuckles,
        tuple(workings),
    )  # fmt: skip


def _stretch(front: Axle, back: Axle, rise: float) -> Stretch:
    apart = front.ahead - back.ahead
    return Stretch(
        f"{front.name} to {back.name}", apart,
        wheeled.lift_stretch(L=apart, v=rise), wheeled.lift_stretch(L=apart, v=2 * rise),
        math.degrees(math.atan2(2 * rise, apart)),
    )  # fmt: skip
