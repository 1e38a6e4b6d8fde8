"""Oscillating cylinders worked: openings, dead bands, starting, and the spring that holds the face.

Steam under the face tries to lift the cylinder off it and, since the ports are away from
the trunnion, to tip it; the spring on the trunnion pin holds it.  Too weak a spring lets
steam out, too strong a one takes the engine's work as friction.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ..findings import Finding, Suggestion
from ..measures import circle_area
from ..sizes import figure
from ..working import Working, pi, relation
from .frame import Array, Crank
from .lapping_judged import judge, suggest
from .trunnion_face import (
    Holes,
    cone,
    crank_to_open,
    greatest_swing,
    lens,
    mean_arm,
    pitch_in_line,
    pitch_that_seals,
    swing_to_open,
)

if TYPE_CHECKING:
    from .oscillating import Oscillating, SwingingCrank

TURN = np.linspace(0.0, 360.0, 720, endpoint=False)
"""Crank angles at which the lift is worked, degrees."""

_LIFT = (
    "statics of a rigid cylinder on its face; full steam in the holes, falling evenly over the "
    "face around them, as assumed of seal faces (common practice)"
)


@relation("S", _LIFT, pressure="p", area="A_l", factor="f")
def spring_needed(pressure: Any, area: Any, factor: Any) -> Any:
    """Force of the spring, N, for a pressure in bar and a lifting area in mm2."""
    return factor * pressure / 10 * area


@relation("p_l", _LIFT, spring="S", area="A_l")
def lifts_at(spring: Any, area: Any) -> Any:
    """Pressure in bar at which a spring of some newtons gives way."""
    return 10 * spring / area


@relation("M", "dry friction, pressure even over the face; common practice", friction=r"\mu",
          spring="S", arm="R_m")  # fmt: skip
def friction_moment(friction: Any, spring: Any, arm: Any) -> Any:
    """Moment that turns the cylinder on its face, N mm, at a mean distance from the trunnion."""
    return friction * spring * arm


@relation(
    "w", "work of a turn: the face swings to and fro; steam for the whole stroke",
    moment="M", swing=r"\varphi_m", pressure="p", piston="A", stroke="s", ends="n",
)  # fmt: skip
def friction_share(
    moment: Any, swing: Any, pressure: Any, piston: Any, stroke: Any, ends: Any
) -> Any:
    """Part of the pistons' work that the face takes, %; swing in degrees, pressure in bar."""
    return 100 * moment * 4 * swing * pi / 180 / (pressure / 10 * piston * stroke * ends)


@dataclass(frozen=True, kw_only=True)
class TrunnionResult:
    """What the holes and the spring do.

    Parameters
    ----------
    piston : the crank with its swinging cylinder; `bore` and `pressure` as given.
    face : the rubbing face as it is worked: ahead, behind, width, mm.
    reach : how far the steam is taken to creep under the face beyond a hole, mm.
    """

    swing: float = figure("Cylinder swings to either side", "deg", main=True)
    pitch: float = figure("Steam hole to exhaust hole, centres", main=True)
    seal: float = figure("Face between port and holes in the middle")
    over_swing: float = figure("Port swings beyond the steam hole's centre, on the face")
    greatest_area: float = figure("Port opens to steam", "mm2", main=True)
    opened: float = figure("Port opens, of the smaller hole", "%")
    dead_band_front: float = figure("Dead band at front dead centre", "deg", main=True)
    dead_band_back: float = figure("Dead band at back dead centre", "deg")
    blow_through: float = figure("Steam open to exhaust through the port", "mm2")
    blind: float = figure("Longest turn of the crank without steam on a piston", "deg")
    lift_area: float = figure("Area that lifts and tips the cylinder", "mm2")
    lift_pressure: float = figure("Cylinder lifts off its face at", "bar", main=True)
    spring: float = figure("Force of the spring", "N")
    spring_wanted: float = figure("Spring needed", "N", main=True)
    face_pressure: float = figure("Mean pressure on the face", "N/mm2")
    friction: float = figure("Friction on the face", "N mm")
    friction_share: float = figure("Friction of the face, of the pistons' work", "%")
    crank_drag: float = figure("Friction of the face at the crank, front dead centre", "N mm")
    uncovered: float = figure("Steam hole covered by the face at the greatest swing, to spare")
    port_clear: float = figure("Port clear of the piston at front dead centre")
    back_clear: float | None = figure("Port clear of the piston at back dead centre")
    piston: SwingingCrank
    bore: float
    pressure: float
    face: tuple[float, float, float]
    reach: float
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()


def work(
    gear: Oscillating,
    *,
    crank: Crank,
    bore: float,
    pressure: float,
    number: int = 2,
    crank_angle: float = 90.0,
) -> TrunnionResult:
    """Work the holes, the dead bands and the spring of a gear.

    Parameters
    ----------
    bore : of the cylinder, mm.
    pressure : of the steam, bar gauge, above 0.
    number : of cylinders.
    crank_angle : from one crank to the next, degrees.

    Raises
    ------
    MotionLocks : when the trunnion lies within the crank circle.
    ValueError : when there is no pressure.
    """
    if not pressure > 0:
        raise ValueError("The spring is reckoned for a working pressure above 0 bar.")
    piston, holes = gear.piston_of(crank), gear.holes
    throw, far = piston.throw, float(piston.trunnion)
    sizes = {"radius": gear.port_radius, "port": gear.port_hole, "passage": gear.passage_hole}
    swing = greatest_swing.work("Greatest swing of the cylinder", "deg", throw=throw, trunnion=far)
    pitch = pitch_that_seals.work("Pitch that just seals", "mm", **sizes, seal=gear.seal)
    in_line = pitch_in_line.work(
        "Pitch with port and hole in line at the greatest swing", "mm",
        radius=gear.port_radius, throw=throw, trunnion=far,
    )  # fmt: skip
    opens = swing_to_open.work("Swing at which the port opens", "deg", **sizes, pitch=gear.pitch)
    workings = [swing, in_line if gear.passage_pitch is not None else pitch, opens]
    most = math.radians(swing.result)
    steam = holes.steam_area(np.array([most, min(most, float(holes.stands))]))
    bands = (0.0, 0.0)
    if 0 <= opens.result < swing.result:
        after = crank_to_open.work(
            "Crank angle at which the port opens", "deg",
            opens=opens.result, throw=throw, trunnion=far,
        )  # fmt: skip
        workings.append(after)
        bands = 2 * after.result, 2 * (after.result + 2 * opens.result)
    elif opens.result >= swing.result:
        bands = 180.0, 180.0
    face = face_of(gear, most)
    reach = creeps(gear, face)
    area = float(lift_area(gear, piston, TURN, face, reach).max())
    needed = spring_needed.work(
        "Spring needed", "N", pressure=pressure, area=area, factor=gear.face.factor
    )
    spring = needed.result if gear.face.spring is None else gear.face.spring
    lifts = lifts_at.work("Pressure that lifts the cylinder", "bar", spring=spring, area=area)
    moment = friction_moment.work(
        "Friction of the face", "N mm",
        friction=gear.face.friction, spring=spring, arm=mean_arm(*face),
    )  # fmt: skip
    share = friction_share.work(
        "Friction of the face, of the pistons' work", "%",
        moment=moment.result, swing=swing.result, pressure=pressure, piston=circle_area(bore),
        stroke=piston.stroke, ends=2 if gear.acting == "double" else 1,
    )  # fmt: skip
    length = gear.length_of_piston(piston.stroke)
    hole, ahead = gear.port_hole / 2, gear.piston_rod - far
    values: dict[str, Any] = {
        "swing": swing.result,
        "pitch": gear.pitch,
        "seal": float(holes.seal),
        "over_swing": gear.port_radius * (most - float(holes.stands)),
        "greatest_area": float(steam.max()),
        "opened": 100 * float(steam.max()) / holes.full,
        "dead_band_front": bands[0],
        "dead_band_back": bands[1],
        "blow_through": float(holes.steam_area(np.zeros(()))),
        "blind": blind(gear, piston, number, crank_angle),
        "lift_area": area,
        "lift_pressure": lifts.result,
        "spring": spring,
        "spring_wanted": needed.result,
        "face_pressure": spring / bearing_area(gear, face),
        "friction": moment.result,
        "friction_share": share.result,
        "crank_drag": moment.result * throw / (far - throw),
        "uncovered": covers(holes, face, most),
        "port_clear": gear.port_radius - hole - (ahead + throw),
        "back_clear": gear.port_radius - hole + ahead - throw - length
        if gear.acting == "double"
        else None,
        "piston": piston,
        "bore": bore,
        "pressure": pressure,
        "face": face,
        "reach": reach,
        "workings": (*workings, needed, lifts, moment, share),
    }
    result = TrunnionResult(**values)
    found = judge(gear, result, number=number, crank_angle=crank_angle)
    return TrunnionResult(**values, suggestions=suggest(gear, result), findings=found)


def face_of(gear: Oscillating, swing: float) -> tuple[float, float, float]:
    """Return the rubbing face, ahead, behind and width, mm: as given, or as suggested.

    Suggested: one and a half holes beyond the port's centre both ways, and so wide that a
    quarter of a hole is left beside the passages at the greatest swing (radians).
    """
    holes, given = gear.holes, gear.face
    hole = max(holes.port, holes.passage)
    ahead = given.face_ahead or holes.radius + 1.5 * hole
    across = holes.radius * math.sin(min(float(holes.stands) + swing, math.pi / 2))
    width = given.face_width or 2 * (across + holes.passage / 2 + hole / 4)
    return ahead, given.face_behind or ahead, width


def covers(holes: Holes, face: tuple[float, float, float], swing: float) -> float:
    """Return the least face beside a steam passage in any position, mm; below 0 it is bare."""
    angles = float(holes.stands) + np.linspace(-swing, swing, 181)
    across = holes.radius * np.abs(np.sin(angles)) + holes.passage / 2
    along = holes.radius * np.cos(angles) + holes.passage / 2
    return float(min((face[2] / 2 - across).min(), (face[0] - along).min()))


def creeps(gear: Oscillating, face: tuple[float, float, float]) -> float:
    """Return how far the steam spreads beyond a hole: to the nearest edge or other passage, mm."""
    if gear.face.leak_reach is not None:
        return gear.face.leak_reach
    beside = covers(gear.holes, face, 0.0)
    return max(0.0, min(beside, float(gear.holes.land)))


def bearing_area(gear: Oscillating, face: tuple[float, float, float]) -> float:
    """Return the area on which the cylinder rubs, mm2: the face less its holes."""
    ahead, behind, width = face
    ends = 2 if gear.acting == "double" else 1
    bored = ends * (circle_area(gear.port_hole) + 2 * circle_area(gear.passage_hole))
    return width * (ahead + behind) - circle_area(gear.face.trunnion_pin) - bored


def lift_area(
    gear: Oscillating,
    piston: SwingingCrank,
    theta: Array,
    face: tuple[float, float, float],
    reach: float,
) -> Array:
    """Return spring over pressure at which the cylinder begins to lift or to tip, mm2.

    The steam passages are always under steam; the port of an end until it opens to exhaust.
    Where port and passage overlap the common part counts once.  The resultant of what is
    left of the spring has to stay on the face, along and across it, or the cylinder tips.

    Parameters
    ----------
    theta : (n,) crank angles, degrees.
    face : ahead, behind and width of the face, mm.
    reach : of the steam under the face, mm.
    """
    holes, swing = gear.holes, piston.swing(theta)
    passage, port = cone(holes.passage, reach), cone(holes.port, reach)
    lifts, along, across = np.zeros((3, *swing.shape))
    for end in (1.0, -1.0) if gear.acting == "double" else (1.0,):
        # seen along the cylinder: the front port goes up with the swing, the back port down
        phi = end * swing
        common = lens(holes.apart(phi, 1.0), holes.port / 2, holes.passage / 2) / holes.full
        to_exhaust = lens(holes.apart(phi, -1.0), holes.port / 2, holes.passage / 2) > 0
        in_port = np.where(to_exhaust, 0.0, port * (1 - common))
        off = holes.stands - phi
        lifts += passage + in_port
        along += end * holes.radius * (passage * np.cos(off) + in_port)
        across += holes.radius * passage * np.sin(off)
    ahead, behind, width = face
    tips = np.maximum.reduce([along / behind, -along / ahead, np.abs(across) / (width / 2)])
    needed: Array = lifts + np.maximum(tips, 0.0)
    return needed


def blind(gear: Oscillating, piston: SwingingCrank, number: int, crank_angle: float) -> float:
    """Return the longest turn of the crank over which no piston has steam behind it, degrees.

    Exact: the steam openings of every end are arcs of the crank circle between the crank
    angles of opening and shutting.
    """
    most = math.asin(piston.throw / float(piston.trunnion))
    opens = max(float(gear.holes.opens), 0.0)
    if opens >= most:
        return 360.0
    after = crank_to_open(math.degrees(opens), piston.throw, float(piston.trunnion))
    first, last = after, 180 - after - 2 * math.degrees(opens)
    arcs = [(first, last)] + ([(-last, -first)] if gear.acting == "double" else [])
    turned = sorted(
        ((start + k * crank_angle) % 360, stop - start)
        for start, stop in arcs
        for k in range(number)
    )
    reached, longest = turned[0][0], 0.0
    for start, length in [*turned, *((start + 360, length) for start, length in turned)]:
        longest = max(longest, start - reached)
        reached = max(reached, start + length)
    return longest
