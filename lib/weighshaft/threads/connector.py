"""Where a thread comes up tight: a connector screwed into two ports at a fixed distance.

End A is screwed into port A until its shoulder is tight; port B is screwed on to end B and
must come to stand upright at a fixed distance from port A. A whole turn of port B moves it
one pitch, so upright it can only stand at distances one pitch apart: those are the places
that fit. Where the frames want it elsewhere there is a misfit of up to half a pitch, and no
metal taken off a shoulder changes it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, Literal

from ..trade.threads import Thread, thread
from ..working import Working, relation
from .decisions import HANDS, Connector


@relation(r"s", "geometry of the screw", turn=r"\varphi", pitch="p")
def shift_of_turn(turn: Any, pitch: Any) -> Any:
    """Return how far (mm) an end moves when turned through `turn` degrees."""
    return pitch * turn / 360


@relation(r"\varphi", "geometry of the screw", shift="s", pitch="p")
def turn_for_shift(shift: Any, pitch: Any) -> Any:
    """Return the turn (degrees) that moves an end by `shift` mm."""
    return 360 * shift / pitch


@relation(r"D_k", "geometry of the screw", length="L", start=r"\varphi_0", pitch="p", turns="k")
def place_that_fits(length: Any, start: Any, pitch: Any, turns: Any) -> Any:
    """Return a distance of the port faces (mm) at which port B stands upright.

    Parameters
    ----------
    length : between the shoulders, mm.
    start : turn still to go when port B comes up tight on its shoulder, degrees.
    pitch : of the thread at end B, mm.
    turns : whole turns that port B is slacker than the tightest place.
    """
    return length - pitch * start / 360 + turns * pitch


@relation(r"e", "geometry of the screw", distance="D", place="D_k")
def misfit_of(distance: Any, place: Any) -> Any:
    """Return the misfit (mm): wanted distance less the place that fits."""
    return distance - place


@relation(r"s", "both ends shifted in their slack", clearance="c", flank=r"\tan\alpha")
def axial_slack(clearance: Any, flank: Any) -> Any:
    """Return the misfit (mm) that the slack of both threads swallows.

    Each end gives half its slack on diameter times the tangent of the half angle, either way.
    """
    return clearance * flank


Acts = Literal["distance", "tightness", "both"]


@dataclass(frozen=True)
class Remedy:
    """A remedy: what it acts on, by how much (mm, or None), whether it serves here, and why."""

    name: str
    acts_on: Acts
    amount: float | None
    serves: bool
    says: str


@dataclass(frozen=True)
class ConnectorFit:
    """What a connector between two ports comes to; lengths in mm, turns in degrees.

    Parameters
    ----------
    thread_a, thread_b : the threads.
    half_pitch : the greatest misfit of phase at end B.
    places : three distances of the faces that fit, round the wanted one; empty if unknown.
    misfit : wanted distance less the nearest place; None while the start is not measured.
    slack : misfit that the threads swallow.
    gap : room under shoulder B at that place, negative where the shoulder is in the way.
    skim : metal off the shoulder so that it comes up tight there, None where none helps.
    change_per_turn : how much a turn of the connector changes the distance, 0 where it does not.
    turn_to_cure : turn of the connector that takes the misfit away, None where none does.
    turn_for_shift : turn for the shift that is wanted.
    half_turn_shift : how far half a turn moves an end.
    remedies : what acts on which fault.
    workings : the relations with their numbers.
    """

    thread_a: Thread
    thread_b: Thread
    half_pitch: float
    places: tuple[float, ...]
    misfit: float | None
    slack: float
    gap: float | None
    skim: float | None
    change_per_turn: float
    turn_to_cure: float | None
    turn_for_shift: float
    half_turn_shift: float
    remedies: tuple[Remedy, ...]
    workings: tuple[Working, ...]

    @property
    def known(self) -> bool:
        """Whether the misfit is known."""
        return self.misfit is not None


def fit(connector: Connector) -> ConnectorFit:
    """Work out how a connector fits between its ports.

    Parameters
    ----------
    connector : the decisions; without distance, length and start only what is general.
    """
    a = thread(connector.thread_a)
    b = thread(connector.thread_b) if connector.thread_b else a
    pitch = b.pitch
    opposite = connector.hands == HANDS[1]
    change = a.pitch + pitch if opposite else abs(pitch - a.pitch)
    change = 0.0 if change < 1e-9 else change
    workings = [
        turn_for_shift.work("Turn for the shift wanted", "deg", shift=connector.shift, pitch=pitch),
        shift_of_turn.work("Half a turn moves an end by", "mm", turn=180.0, pitch=pitch),
        axial_slack.work(
            "Misfit that the slack of the threads swallows", "mm",
            clearance=connector.clearance, flank=(a.flank + b.flank) / 2,
        ),
    ]  # fmt: skip
    slack = workings[2].result
    misfit = gap = skim = turn = None
    places: tuple[float, ...] = ()
    if connector.length is not None and connector.start is not None:
        tightest = place_that_fits(connector.length, connector.start, pitch, 0)
        wanted = connector.distance if connector.distance is not None else connector.length
        turns = round((wanted - tightest) / pitch)
        at = {"length": connector.length, "start": connector.start, "pitch": pitch}
        places = tuple(place_that_fits(**at, turns=turns + k) for k in (-1, 0, 1))
        place = place_that_fits.work("Nearest place that fits", "mm", **at, turns=turns)
        off = misfit_of.work("Misfit", "mm", distance=wanted, place=place.result)
        workings += [place, off]
        misfit, gap = off.result, place.result - connector.length
        skim = max(0.0, -gap)
        turn = 360 * abs(misfit) / change if change else None
    return ConnectorFit(
        a, b, pitch / 2, places, misfit, slack, gap, skim, change, turn, workings[0].result,
        workings[1].result, _remedies(pitch, misfit, gap, slack, change, turn), tuple(workings),
    )  # fmt: skip


def _remedies(
    pitch: float,
    misfit: float | None,
    gap: float | None,
    slack: float,
    change: float,
    turn: float | None,
) -> tuple[Remedy, ...]:
    half = pitch / 2
    off = misfit is not None and abs(misfit) > slack
    early = gap is not None and gap < -1e-9
    late = gap is not None and gap > 1e-9
    skim = -gap if gap is not None and early else None
    pack = gap if late else None
    shim, metal_off = _move_port(misfit, pitch) if misfit is not None else (None, None)
    skim_says = (
        f"It lets port B turn {360 * skim / pitch:.0f}° further, {skim:.3f} mm nearer."
        if skim is not None
        else "It sets the angle at which the shoulder comes up tight."
    )
    shim_says = (
        f"It moves the port to a place that fits: a shim of {shim:.3f} mm, or "
        f"{metal_off:.3f} mm off the seat."
        if shim is not None
        else f"It moves the port to a place that fits, {half:.3f} mm away at most."
    )
    if not change:
        turn_says = (
            "With equal pitches of one hand a turn moves both ends alike: nothing is gained."
        )
    elif turn is None:
        turn_says = f"A turn of the connector changes the distance by {change:.3f} mm."
    else:
        turn_says = f"Turned {turn:.0f}° the ends agree; the shoulders then need lock nuts."
    return (
        Remedy(
            "Skim the shoulder", "tightness", skim, early,
            f"{skim_says} The places that fit stay where they are.",
        ),
        Remedy(
            "Washer or shim under the shoulder", "tightness", pack, late,
            "It fills the room under the shoulder; the places that fit stay where they are.",
        ),
        Remedy(
            "Lock nut with a washer", "tightness", None, gap is None or early or late,
            "It is tight at any angle, so no shoulder need come up; it moves no port.",
        ),
        Remedy("Shim behind the port, or metal off", "distance", shim, off, shim_says),
        Remedy(
            "A joint that can be turned (union, loose flange)", "both", None,
            misfit is None or off or early or late,
            "The thread no longer sets where the port stands, so its phase does not matter.",
        ),
        Remedy("Turn the connector", "distance", None, bool(change) and off, turn_says),
    )  # fmt: skip


def _move_port(misfit: float, pitch: float) -> tuple[float, float]:
    """Return the shim, and the metal off, that bring port B to a place that fits (mm)."""
    shim = math.fmod(pitch - misfit, pitch) if misfit else 0.0
    return shim, pitch - shim if shim else 0.0
