"""A manifold: one body with branches, the lengths so that all seat, and the room between them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations

import numpy as np

from ...erection.spanners import corners, head_of
from ...measures import to_step
from ...threads.connector import shift_of_turn
from ...threads.joints import wall_for
from ...trade.hexagons import hexagon
from ...trade.threads import Thread, thread
from ...working import Working
from . import relations
from .decisions import BRAZED_IN, IN_ONE, SCREWED_IN, Branch, Brazed, Manifold
from .joints import Soldered, soldered
from .rounds import Round, Vector, apart

NUT = 1.2
"""Union nut, length in diameters of its thread; common practice."""
BEHIND = 1.0
"""Left free between a union nut, run back, and the body, mm; common practice."""
STRAIGHT = 0.5
"""A branch that leans less than this goes straight on, degrees."""
SPIGOT = 0.4
"""Metal round the supply's bore over the widest branch's thread; common practice."""
BORE_SHARE = 0.5
"""Bore over the core of the thread where none is given; common practice."""


@dataclass(frozen=True)
class Stub:
    """A branch as it stands; lengths in mm.

    Parameters
    ----------
    number : from 1, in the order of the decisions.
    start : where its axis meets the body's, from the supply end.
    direction : of its axis: along the body, up, and to the right seen from the supply end.
    foot : from and to where it comes out of the body, from the supply end.
    leaves, emerges : along its axis from the body's axis, where it has left the supply's bore and
        the body.
    nut : length of the union nut; flats across it; behind: what it leaves to the body.
    reach : from the body's axis to the face that it seats on.
    long : from the body's axis to the end of the stub: the reach less its washer.
    over_all : of the stub as a piece, with what stands in the body; 0 where it is one with it.
    wall : between the bore and the core of the thread; wall_wanted as usual.
    hole : in the body for the stub: from and to; None where it is one with the body.
    skim, washer : metal off the shoulder, or a washer under it, that brings it to its clocking;
        None where the turn still to go is not known.
    """

    number: int
    branch: Branch
    thread: Thread
    start: float
    direction: tuple[float, float, float]
    foot: tuple[float, float]
    leaves: float
    emerges: float
    flats: float
    nut: float
    behind: float
    bore: float
    reach: float
    long: float
    over_all: float
    wall: float
    wall_wanted: float
    hole: tuple[float, float] | None
    joint: Soldered | None
    skim: float | None
    washer: float | None

    @property
    def nut_from(self) -> float:
        """Where the union nut begins, from the body's axis, mm."""
        return self.long - self.nut

    def at(self, along: float) -> Vector:
        """Return a place on its axis, mm: along the body, up, to the right."""
        made: Vector = np.array([self.start, 0.0, 0.0]) + along * np.array(self.direction)
        return made


@dataclass(frozen=True)
class Room:
    """What two branches leave each other, mm; negative where they are in each other's way.

    Parameters
    ----------
    bores : metal between their bores, beyond the supply's.
    holes : metal between the holes in the body for both.
    nuts : between their union nuts, over the corners.
    spanner : between an open-ended spanner on either and the nut of the other.
    """

    one: int
    other: int
    bores: float
    holes: float
    nuts: float
    spanner: float


@dataclass(frozen=True)
class Made:
    """A manifold as a piece; lengths in mm.

    Parameters
    ----------
    body, length : diameter and length of the body; `usual` are both as they are suggested.
    drilled : depth of the supply's bore from its end's face; through where a branch goes on.
    wall : round the supply's bore; far_wall behind it, 0 where it goes through.
    skim, washer : that bring the whole manifold upright, tight at its supply end; None if unknown.
    share : bores of all branches over the supply's, areas.
    """

    body: float
    length: float
    usual: tuple[float, float]
    thread: Thread
    engaged: float
    bore: float
    drilled: float
    wall: float
    wall_wanted: float
    far_wall: float
    skim: float | None
    washer: float | None
    share: float
    stubs: tuple[Stub, ...]
    rooms: tuple[Room, ...]
    workings: tuple[Working, ...]

    @property
    def over_all(self) -> float:
        """Body and its thread, mm."""
        return self.length + self.engaged

    def nearest(self, number: int) -> Room | None:
        """Return the room to the branch with which one has the least, by nuts and spanners."""
        mine = [room for room in self.rooms if number in (room.one, room.other)]
        return min(mine, key=lambda room: min(room.nuts, room.spanner), default=None)


@lru_cache(maxsize=8)
def manifold(decided: Manifold) -> Made:
    """Return the manifold with every size that was left empty.

    Parameters
    ----------
    decided : the decisions; with no branches the body alone.
    """
    threads = [thread(one.thread) for one in decided.branches]
    supply = thread(decided.thread)
    wall = wall_for(decided.bore)
    widest = max((one.major for one in threads), default=0.0)
    usual_body = _half_up(decided.bore + 2 * max(wall, SPIGOT * widest))
    body = usual_body if decided.body is None else decided.body
    through = any(_straight(one) for one in decided.branches)
    pairs = list(zip(decided.branches, threads, strict=True))
    ends = [one.along + _foot(one, of, body)[1] for one, of in pairs if not _straight(one)]
    socket = max((of.major for one, of in pairs if _straight(one)), default=0.0)
    usual_length = _half_up(max([*ends, decided.bore]) + max(wall, 0.25 * body) + socket)
    length = usual_length if decided.length is None else decided.length
    stubs = tuple(
        _stub(n, one, of, decided, body, length)
        for n, (one, of) in enumerate(zip(decided.branches, threads, strict=True), 1)
    )
    drilled = length
    if not through:
        drilled = max((one.start + one.bore / 2 for one in stubs), default=length / 2)
        drilled = min(drilled, length)
    share = relations.area_share.work(
        "Bores of the branches over the supply's", "ratio",
        squares=sum(one.bore**2 for one in stubs), supply=decided.bore,
    )  # fmt: skip
    workings = [share]
    skim, washer, shown = _to_clocking(
        "Off the shoulder of the supply end, to stand upright", supply, decided.short
    )
    workings += shown
    for one in stubs:
        workings += _to_clocking(
            f"Off the shoulder of branch {one.number}", one.thread, one.branch.short
        )[2]
        if one.joint is not None:
            workings += [replace(shown, label=f"{shown.label}, branch {one.number}")
                         for shown in one.joint.workings[:4]]  # fmt: skip
    return Made(
        body, length, (usual_body, usual_length), supply, decided.engaged or supply.major,
        decided.bore, drilled, (body - decided.bore) / 2, wall, length - drilled, skim, washer,
        share.result, stubs,
        tuple(_room(a, b) for a, b in combinations(stubs, 2)), tuple(workings),
    )  # fmt: skip


def _half_up(value: float) -> float:
    """Return the next half millimetre."""
    return math.ceil(2 * value - 1e-9) / 2


def _foot(one: Branch, of: Thread, body: float) -> tuple[float, float]:
    """Return from and to where a branch comes out of the body, from where the axes meet, mm."""
    lean = math.radians(one.lean)
    shift = body / 2 * math.cos(lean) / math.sin(lean)
    half = of.major / 2 / math.sin(lean)
    return min(shift, 0.0) - half, max(shift, 0.0) + half


def _straight(one: Branch) -> bool:
    return one.lean < STRAIGHT


def _stub(
    number: int, one: Branch, of: Thread, decided: Manifold, body: float, length: float
) -> Stub:
    lean, turn = math.radians(one.lean), math.radians(one.clocking)
    straight = _straight(one)
    sin = math.sin(lean)
    direction = (math.cos(lean), sin * math.cos(turn), sin * math.sin(turn))
    start = length if straight else min(one.along, length)
    bore = one.bore or to_step(BORE_SHARE * of.minor, 0.1)
    flats = one.flats or hexagon(of).across_flats
    nut = NUT * of.major
    within = of.major if one.fixing != IN_ONE else 0.0
    leaves = -within if straight else decided.bore / 2 / sin
    low, high = (0.0, 0.0) if straight else _foot(one, of, body)
    emerges = 0.0 if straight else body / 2 / sin
    # the rim of a nut that leans comes down to the body first
    behind = 0.0 if straight else (
        (body / 2 + corners(flats) / 2 * abs(math.cos(lean))) / sin
    )  # fmt: skip
    shortest = _half_up(behind + BEHIND + nut)
    reach = shortest + one.washer if one.reach is None else one.reach
    long = reach - one.washer
    joint, hole = None, None
    if one.fixing == BRAZED_IN:
        joint = soldered(
            Brazed(
                spigot=of.major, overlap=max(emerges - leaves, 0.3), inner=decided.stub,
                outer=decided.metal, alloy=decided.alloy, wall=min(0.4 * of.major, 50.0),
            )
        )  # fmt: skip
        hole = joint.bore
    elif one.fixing == SCREWED_IN:
        hole = (of.major, of.major)
    over = 0.0 if one.fixing == IN_ONE else long - leaves
    skim, washer, _ = _to_clocking("", of, one.short)
    return Stub(
        number, one, of, start, direction, (start + low, start + high),
        leaves, emerges, flats, nut, long - nut - behind, bore,
        reach, long, over,
        (of.minor - bore) / 2, wall_for(bore), hole, joint, skim, washer,
    )  # fmt: skip


def _to_clocking(
    name: str, of: Thread, short: float | None
) -> tuple[float | None, float | None, list[Working]]:
    """Return metal off a shoulder or a washer (mm) for a turn still to go, and the working."""
    if short is None:
        return None, None, []
    shown = shift_of_turn.work(name, "mm", turn=short, pitch=of.pitch)
    return shown.result, (of.pitch - shown.result) % of.pitch, [shown]


def _room(one: Stub, other: Stub) -> Room:
    pair = (one, other)
    bores = apart(*(Round(s.at(s.leaves), s.at(s.long), s.bore / 2) for s in pair))
    holes = apart(*(Round(s.at(s.leaves), s.at(s.emerges), _in_body(s)) for s in pair))
    nuts = [Round(s.at(s.nut_from), s.at(s.long), corners(s.flats) / 2) for s in pair]
    heads = [
        Round(a.start, a.end, head_of("open-ended spanner", s.flats) / 2)
        for a, s in zip(nuts, pair, strict=True)
    ]
    return Room(
        one.number, other.number, bores, holes, apart(*nuts),
        min(apart(heads[0], nuts[1]), apart(heads[1], nuts[0])),
    )  # fmt: skip


def _in_body(stub: Stub) -> float:
    """Return the radius of the hole for a stub in the body, mm."""
    return stub.bore / 2 if stub.hole is None else max(stub.hole) / 2
