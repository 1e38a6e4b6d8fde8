"""The screws of a cylinder cover: pitch circle, joint, load on one of them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..measures import BAR, INCH
from ..trade.drills import NoDrill
from ..trade.hexagons import hexagon
from ..trade.materials import Jointing, jointing, material
from ..trade.threads import Thread, thread
from ..working import Working
from . import strength
from .decisions import CoverScrews
from .proposals import cover_screw, usual_screw_circle, usual_screws
from .tapping import clearance_drills

SQUEEZE = 2.0
"""A joint without a gasket is drawn up to this many times the steam load (common practice)."""
_NARROW = INCH / 4  # mm; ASME VIII-1, Appendix 2: below this the basic width is effective


@dataclass(frozen=True)
class Cover:
    """The screws of one cover.

    Parameters
    ----------
    proposal : thread proposed, None where none of the tables is strong enough.
    one : thread that is used for the load.
    number : screws.
    screw_circle : mm.
    land : width of the joint between bore and screw holes, mm.
    gasket, width : mean diameter and effective width of the joint, mm.
    load : on one screw, N; `ruling` says what it comes from.
    spacing, across_corners : between screws along the pitch circle, and over a head, mm.
    torque : that draws a screw up to its load, N mm.
    workings : the relations with their numbers.
    """

    proposal: Thread | None
    one: Thread | None
    number: int
    screw_circle: float
    land: float
    gasket: float
    width: float
    load: float
    ruling: str
    spacing: float
    across_corners: float
    torque: float
    workings: tuple[Working, ...]


def cover(
    decision: CoverScrews,
    *,
    bore: float,
    pressure: float,
    preferred: str,
    sets: tuple[str, ...],
    screw: str | None = None,
    screws: int | None = None,
    screw_circle: float | None = None,
) -> Cover:
    """Work out the screws of a cover.

    Parameters
    ----------
    decision : metals and jointing.
    bore : mm.
    pressure : bar above atmosphere.
    preferred : threads that the builder prefers.
    sets : sets of drills that are there.
    screw, screws, screw_circle : thread, number and circle (mm) that the cylinders have; None
        takes what is proposed.
    """
    number = screws or usual_screws(bore)
    packing, steel = jointing(decision.jointing), material(decision.male)

    def strong(one: Thread) -> bool:
        made = _cover(one, None, number, screw_circle, bore, pressure, packing, sets)
        return made.load / one.core_area <= steel.proof / strength.STEADY

    proposal = cover_screw(bore, preferred, strong)
    one = thread(screw) if screw else proposal
    return _cover(one, proposal, number, screw_circle, bore, pressure, packing, sets)


def _cover(
    one: Thread | None,
    proposal: Thread | None,
    number: int,
    screw_circle: float | None,
    bore: float,
    pressure: float,
    packing: Jointing,
    sets: tuple[str, ...],
) -> Cover:
    major = one.major if one else 0.1 * bore
    circle = screw_circle or usual_screw_circle(bore, major)
    hole = major
    if one:
        try:
            hole = clearance_drills(one, sets)[0].diameter
        except NoDrill:
            hole = one.major
    land = (circle - hole - bore) / 2
    gasket, basic = bore + max(land, 0.0), max(land, 0.0) / 2
    width = basic if basic <= _NARROW else 0.5 * math.sqrt(basic / INCH) * INCH
    steam = pressure * BAR
    running = strength.screw_load_running.work(
        "Cover screw: load in steam", "N", pressure=steam, gasket=gasket, width=width,
        factor=packing.factor, number=float(number),
    )  # fmt: skip
    if packing.seating:
        other = strength.screw_load_seating.work(
            "Cover screw: load that seats the joint", "N", gasket=gasket, width=width,
            seating=packing.seating, number=float(number),
        )  # fmt: skip
        ruling = "seating the joint" if other.result > running.result else "steam and joint"
        load = max(running.result, other.result)
        workings: tuple[Working, ...] = (running, other)
    else:
        load, workings = SQUEEZE * running.result, (running,)
        ruling = f"drawn up to {SQUEEZE:g} × the steam load"
    torque = strength.tightening.work("Cover screw: tightening", "N mm", load=load, major=major)
    return Cover(
        proposal, one, number, circle, land, gasket, width, load, ruling,
        math.pi * circle / number, hexagon(one).across_flats * 2 / math.sqrt(3) if one else 0.0,
        torque.result, (*workings, torque),
    )  # fmt: skip
