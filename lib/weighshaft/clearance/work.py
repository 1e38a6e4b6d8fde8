"""The chapter worked: from the sizes of the parts to the least gaps and what they mean."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from ..findings import Suggestion, by_level, still_open, unlocked
from ..motion.frame import Array, Crank
from ..motion.gears import AnyGear
from ..working import Working, relation
from .decisions import Clearance
from .engine import Engine, Piece, engine_of
from .judgement import judge
from .planes import Plane, proportions
from .results import ClearanceResult, Gap, Line, SideGap
from .search import ANGLES, FAR, Poses, closed_in, least_between, pairs_of, to_lines

MOST_NOTCHES = 5
_LISTED = 10


@relation("D_s", "common practice", d="d", e="e", w="w")
def least_sheave(d: Any, e: Any, w: Any) -> Any:
    """Least sheave: the axle, twice the throw and a wall on both sides."""
    return d + 2 * (e + w)


def work(
    clearance: Clearance,
    *,
    crank: Crank,
    gear: AnyGear,
    reversers: tuple[float, ...],
    axle_diameter: float,
    axles: tuple[float, ...],
    driving_diameter: float,
    frame_inside: float,
    frame_thickness: float,
    planes: tuple[Plane, ...],
    crankpin: float,
    sheave_diameter: float | None = None,
    crosshead: tuple[float, float] | None = None,
    inclination: float = 0.0,
    side_play: float = 0.0,
    axle_lift: float = 0.0,
    flange_depth: float = 0.0,
    fixed: frozenset[str] = frozenset(),
) -> ClearanceResult:
    """Work the chapter.

    Parts joined by a pin are never checked against one another, nor are parts whose planes
    across the engine do not overlap, with the axle's side play taken up.  The other side of
    the engine is its mirror image and has the same gaps.

    Parameters
    ----------
    reversers : notches; of more than five, five spread over them are taken.
    axles : x of every coupled axle from the driving axle, mm, positive ahead.
    driving_diameter : over the tread, mm; the rail is half of it below the axle.
    frame_inside : between the inside faces of the frames, mm.
    planes : of what stands on the axle and outside, see `planes_from`; may be empty.
    crankpin : diameter of the pin that the connecting rod drives, mm.
    sheave_diameter : mm; None takes the least that leaves a wall over the axle.
    crosshead : how far it reaches ahead of and behind the gudgeon pin, mm; None if unknown.
    inclination : of the cylinder, degrees, its front end up.
    side_play : of the driving axle, each way, mm.
    axle_lift : of one axle above its neighbour, mm, taken where no rise is given.
    flange_depth : of the wheels, mm.
    fixed : paths of sizes that a bought part has settled; no button changes them.

    Raises
    ------
    MotionLocks : when the gear cannot be assembled or locks.
    SizeError : when a part of known sizes is none of this gear.
    """
    sizes = proportions(clearance, axle_diameter, crankpin)
    rise = axle_lift if clearance.axlebox_rise is None else clearance.axlebox_rise
    usual = max(0.4, 0.01 * driving_diameter)
    wanted = usual if clearance.wanted is None else clearance.wanted
    usual_rail = max(1.5, 0.03 * driving_diameter)
    around = clearance.surroundings
    rail_wanted = usual_rail if around.over_rail is None else around.over_rail
    throw = getattr(gear, "eccentric_throw", None)
    workings: tuple[Working, ...] = ()
    sheave = sheave_diameter
    if sheave is None:
        sheave = 2.0 * axle_diameter
        if throw is not None:
            working = least_sheave.work(
                "Sheave taken", "mm", d=axle_diameter, e=throw, w=0.15 * axle_diameter
            )
            sheave, workings = working.result, (working,)
    notches = notches_of(gear, reversers)
    engine = engine_of(
        clearance, gear=gear, crank=crank, axles=axles, axle_diameter=axle_diameter,
        wheel_diameter=driving_diameter + 2 * flange_depth, sheave=sheave,
        frame_inside=frame_inside, planes=planes, sizes=sizes, crosshead=crosshead,
        inclination=inclination, rise=rise, slot=_slot(gear, crank, notches),
        side_play=side_play,
    )  # fmt: skip
    places = (0.0, 1.0, -1.0) if rise > 0 else (0.0,)
    rows = np.tile(np.array(notches), len(places))
    states = np.repeat(np.array(places), len(notches))
    poses = Poses.of(engine, ANGLES[None, :], rows[:, None], states[:, None])
    pairs = pairs_of(engine.pieces, side_play)
    least = least_between(poses, pairs, wanted)
    gaps = closed_in(engine, pairs, least, rows, states)
    lines = lines_of(clearance, engine, driving_diameter, frame_inside)
    by_line = to_lines(engine, poses, lines, rows, states)
    rail = min((one.gap for one in by_line if one.kind == "rail"), default=None)
    near = sorted([*gaps, *(g for g in by_line if g.kind != "rail")], key=lambda one: one.gap)
    listed = _listed([*gaps, *by_line], wanted, rail_wanted)
    sides = side_gaps(engine.pieces, frame_inside, frame_thickness, side_play)
    worst = near[0] if near else None
    findings = judge(
        clearance, gear, listed, sides, wanted=wanted, rail_wanted=rail_wanted, rise=rise,
        rail=rail, notches=notches, checked=len(pairs),
    )  # fmt: skip
    suggestions = (
        Suggestion("clearance.wanted", round(usual, 2), "a hundredth of the driving wheel"),
        Suggestion("clearance.axlebox_rise", axle_lift, "one axle above its neighbour, in Wheels"),
        Suggestion(
            "clearance.surroundings.over_rail", round(usual_rail, 2), "0.03 of the driving wheel"
        ),
    )
    return ClearanceResult(
        least_gap=worst.gap if worst else None,
        least_where=f"{worst.first}, {worst.second}" if worst else "nothing comes near",
        least_angle=worst.crank_angle if worst else None,
        least_notch=worst.reverser if worst else None,
        rail_gap=rail,
        side_gap=sides[0].gap if sides else None,
        wanted=wanted,
        rail_wanted=rail_wanted,
        rise=rise,
        gaps=listed,
        side_gaps=sides,
        lines=tuple(line for line, _ in lines),
        engine=engine,
        starts=poses.starts,
        ends=poses.ends,
        angles=ANGLES,
        reversers=rows,
        states=states,
        frame=(frame_inside, frame_thickness),
        axle_diameter=axle_diameter,
        wheel_diameter=driving_diameter,
        workings=workings,
        suggestions=still_open(suggestions, fixed),
        findings=by_level(unlocked(findings, fixed)),
    )


def notches_of(gear: AnyGear, reversers: tuple[float, ...]) -> tuple[float, ...]:
    """Return the notches looked at: full gear both ways, and up to three between them."""
    if not gear.notched:
        return (1.0, -1.0)
    between = sorted({one for one in reversers if abs(one) < 1}, reverse=True)
    most = MOST_NOTCHES - 2
    if len(between) > most:
        picked = np.linspace(0, len(between) + 1, most + 2)[1:-1] - 1
        between = [between[round(float(n))] for n in picked]
    return (1.0, *between, -1.0)


def _slot(gear: AnyGear, crank: Crank, notches: Sequence[float]) -> float:
    """Return half the slot of the link: as given, or what the die uses and a tenth more."""
    given: float | None = getattr(gear, "slot_length", None)
    if given is not None:
        return given / 2
    full = np.array([[notches[0]], [notches[-1]]])
    die = gear.pose(crank, ANGLES[None, ::3], full).die
    return 1.1 * float(np.abs(die).max()) if die is not None else crank.throw


def lines_of(
    clearance: Clearance, engine: Engine, driving_diameter: float, frame_inside: float
) -> list[tuple[Line, Array]]:
    """Return rail, boiler and ashpan as far as they are known, with their height over each part."""
    around, pieces = clearance.surroundings, engine.pieces
    rail = -driving_diameter / 2
    # straps and rods only: the crank webs, pins and rods of a wheel are no higher than it
    made = [(Line("rail", rail, -math.inf, math.inf), np.full(len(pieces), rail))]
    if around.boiler_bottom is not None:
        height = around.boiler_bottom
        heights = np.array([_barrel(height, around.boiler_diameter, piece) for piece in pieces])
        made.append((Line("boiler", height, -math.inf, math.inf), heights))
    if around.ashpan_bottom is not None:
        back, front = around.ashpan_back, around.ashpan_front
        whole = back is None and front is None
        back = (front or 0.0) - FAR / 2 if back is None else back
        front = back + FAR / 2 if front is None else front
        line = Line(
            "ashpan",
            around.ashpan_bottom,
            -math.inf if whole else back,
            math.inf if whole else front,
        )
        heights = np.array(
            [around.ashpan_bottom if piece.inner < frame_inside / 2 else FAR for piece in pieces]
        )
        made.append((line, heights))
    return made


def _barrel(bottom: float, diameter: float | None, piece: Piece) -> float:
    """Return the height of the boiler's underside over a part, mm; a barrel rises sideways."""
    out = max(piece.inner, 0.0)
    if diameter is None:
        return bottom
    if out >= diameter / 2:
        return FAR
    radius = diameter / 2
    return bottom + radius - math.sqrt(radius * radius - out * out)


def _listed(gaps: Sequence[Gap], wanted: float, rail_wanted: float) -> tuple[Gap, ...]:
    """Return what is to be told: all below what is wanted, and ten at least."""
    ordered = sorted(gaps, key=lambda one: one.gap)
    return tuple(
        one
        for n, one in enumerate(ordered)
        if n < _LISTED or one.gap < (rail_wanted if one.kind == "rail" else wanted)
    )


def side_gaps(
    pieces: Sequence[Piece], frame_inside: float, frame_thickness: float, side_play: float
) -> tuple[SideGap, ...]:
    """Return the room beside every moving part: to its frame plate, and to its twin.

    A part inside the frames must stand clear of the plate's inside face and of the engine's
    centre line, beyond which its twin moves; one outside, of the outside face.  Shafts pass
    through the plate and are left out.

    Parameters
    ----------
    side_play : of the driving axle, taken off for what it carries, mm.
    """
    inside, outside = frame_inside / 2, frame_inside / 2 + frame_thickness
    found = []
    for piece in pieces:
        if not piece.wanders:
            continue
        play = side_play if piece.rides else 0.0
        if (piece.inner + piece.outer) / 2 < (inside + outside) / 2:
            found.append(SideGap(piece.name, "frame", inside - piece.outer - play))
            if not piece.rides or piece.inner < 0:
                found.append(SideGap(piece.name, "twin", 2 * piece.inner))
        else:
            found.append(SideGap(piece.name, "frame", piece.inner - outside - play))
    return tuple(sorted(found, key=lambda one: one.gap))
