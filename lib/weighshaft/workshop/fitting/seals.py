"""O-rings, packing and iron rings: the sizes that hold the steam."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ...fits import METALS
from ...trade.expansion import expansion
from ...trade.seals import Elastomer, Groove, ORing, elastomer, groove, o_rings
from ...working import Working
from . import relations
from .decisions import IN_PISTON, IronRings, Packed, RubberRing

STRETCH, STRETCH_SMALL = (0.0, 5.0), (0.0, 8.0)
"""Stretch (%) of a ring in a piston's groove (globaloring.com, groove design: at most 5); rings
under half an inch are stretched more (allorings.com), how far from memory of a seal handbook."""
PRESSED, PRESSED_SMALL = (0.0, 2.0), (0.0, 8.5)
"""Rod: by how much (%) the ring is larger than its groove (globaloring.com: at most 2); small ones
as in the tables of a seal handbook, where the ring's bore is just under the rod (from memory)."""
SMALL = 12.7
YARNS = (0.8, 1.0, 1.2, 1.6, 2.0, 2.4, 3.2, 4.0, 4.8, 6.4, 8.0)
"""Square packings as sold, mm; common practice."""
SHARE = 0.3
LONG = 1.5
"""Packing over the rod's diameter (machinedesign.com, compression packings: an old rule)."""
IRON = METALS["cast iron"].young


@dataclass(frozen=True)
class Sealed:
    """An O-ring in its groove; lengths in mm, shares in per cent.

    Parameters
    ----------
    on : diameter sealed on.
    depth, width : middle of the published range; depth counts from the surface sealed on.
    groove_diameter : of the groove's bottom.
    other : diameter of the part with the groove: outside of a piston, bore of a gland.
    ring : next of AS568; None where none comes near.
    stretch : of its bore on the groove (piston), or of how much it is pressed in (gland).
    section : once stretched.
    squeeze, fill : what it comes to.
    """

    on: float
    groove: Groove
    depth: float
    width: float
    groove_diameter: float
    other: float
    ring: ORing | None
    stretch: float
    section: float
    squeeze: float
    fill: float
    rubber: Elastomer
    hot: float
    workings: tuple[Working, ...]


def sealed(o_ring: RubberRing, *, rod: float, bore: float, steam: float) -> Sealed:
    """Return groove and ring.

    Parameters
    ----------
    rod, bore : of the engine, mm.
    steam : temperature taken where none is given, degC.
    """
    piston = o_ring.place == IN_PISTON
    on = o_ring.on or (bore if piston else rod)
    cut = groove(o_ring.section, o_ring.duty)
    depth, width, clear = (sum(one) / 2 for one in (cut.depth, cut.width, cut.clearance))
    bottom = on - 2 * depth if piston else on + 2 * depth
    other = on - clear if piston else on + clear
    ring, share = _ring(cut.section, bottom, usual(on, piston=piston), piston=piston)
    thinned = relations.stretched_section.work(
        "Section of the O-ring in its groove", "mm", w=cut.section,
        stretch=max(share, 0.0) / 100 if piston else 0.0,
    )  # fmt: skip
    squeezed = relations.squeeze.work(
        "Squeeze of the O-ring", "%", section=thinned.result, depth=depth
    )
    filled = relations.fill.work(
        "Groove filled by the O-ring", "%", section=thinned.result, depth=depth, width=width
    )
    return Sealed(
        on, cut, depth, width, bottom, other, ring, share, thinned.result, squeezed.result,
        filled.result, elastomer(o_ring.rubber),
        o_ring.hot if o_ring.hot is not None else steam, (thinned, squeezed, filled),
    )  # fmt: skip


def usual(on: float, *, piston: bool) -> tuple[float, float]:
    """Return from and to how much (%) a ring is stretched in a piston or pressed into a gland."""
    if piston:
        return STRETCH_SMALL if on < SMALL else STRETCH
    return PRESSED_SMALL if on < SMALL else PRESSED


def _ring(
    section: float, bottom: float, share: tuple[float, float], *, piston: bool
) -> tuple[ORing | None, float]:
    """Return the ring that stands nearest to the middle of what is usual, and its stretch, %."""
    low, high = share
    best: tuple[float, ORing, float] | None = None
    for one in o_rings():
        if abs(one.section - section) > 1e-6:
            continue
        found = 100 * ((bottom / one.inside if piston else one.outside / bottom) - 1)
        off = abs(found - (low + high) / 2)
        if best is None or off < best[0]:
            best = (off, one, found)
    assert best is not None
    if best[0] > 2 * (high - low):
        return None, 0.0
    return best[1], best[2]


@dataclass(frozen=True)
class Stuffed:
    """A packed gland; lengths in mm.

    Parameters
    ----------
    box : bore of the stuffing box; depth of it, packing and nose.
    cut : length of a ring of packing, cut square.
    room : stuffing box and gland that the cylinder has; None if not known.
    """

    rod: float
    yarn: float
    box: float
    rings: int
    packing: float
    nose: float
    depth: float
    cut: float
    room: float | None
    workings: tuple[Working, ...]


def stuffed(packed: Packed, *, rod: float, box: float | None, room: float | None) -> Stuffed:
    """Return a stuffing box.

    Parameters
    ----------
    rod : of the engine, mm.
    box : bore that the gland's thread leaves, as Threads has it, mm; None if not known.
    room : stuffing box and gland behind the cover, mm; None if not known.
    """
    d = packed.rod or rod
    own = packed.rod is None and box is not None and box > d + 0.6
    if packed.yarn is not None:
        yarn = packed.yarn
    elif own and box is not None:
        yarn = (box - d) / 2
    else:
        yarn = min(YARNS, key=lambda one: abs(one - SHARE * d))
    rings, nose = _filling(packed, d, yarn, room)
    length = relations.packing_length.work("Ring of packing, cut to", "mm", rod=d, yarn=yarn)
    return Stuffed(
        d, yarn, d + 2 * yarn, rings, rings * yarn, nose, rings * yarn + nose, length.result,
        room, (length,),
    )  # fmt: skip


def _filling(packed: Packed, rod: float, yarn: float, room: float | None) -> tuple[int, float]:
    """Return rings of packing and the nose (mm): the usual, or what there is room for."""
    rings = max(2, math.ceil(LONG * rod / yarn - 1e-9))
    if room is not None:
        rings = min(rings, max(2, int((room - yarn / 2) / yarn + 1e-9)))
    rings = packed.rings or rings
    nose = yarn if room is None else max(yarn / 2, min(yarn, room - rings * yarn))
    return rings, packed.nose or nose


@dataclass(frozen=True)
class Ringed:
    """Iron rings; lengths in mm, stresses in N/mm2.

    Parameters
    ----------
    radial, width : of a ring; `least_width` by the number of rings.
    free : gap of the free ring for the pressure wanted; `book` the same by the book's rule.
    book_pressure : that a gap in the middle of the book's rule would give.
    closed : gap in the bore, from and to, cold.
    opens : how much more the gap opens when hot, ring and bore alike.
    stress, opening : bending when closed in the bore, and when spread over the piston.
    groove_depth : of the groove in the piston.
    turned : outside to which the ring is turned before it is cut, free.
    """

    bore: float
    radial: float
    width: float
    least_width: float
    free: float
    book: tuple[float, float]
    book_pressure: float
    closed: tuple[float, float]
    opens: float
    stress: float
    opening: float
    groove_depth: float
    turned: float
    workings: tuple[Working, ...]


def ringed(rings: IronRings, *, bore: float, metal: str, hot: float) -> Ringed:
    """Return the rings for a bore.

    Parameters
    ----------
    bore : of the engine, mm.
    metal : of the cylinder, one of the materials.
    hot : of the steam, degC.
    """
    d = rings.bore or bore
    radial = relations.ring_depth.work(
        "Radial depth of a ring", "mm", bore=d, p=rings.pressure, stress=rings.stress
    )
    t = rings.radial or radial.result
    gap = relations.free_gap.work(
        "Gap of the free ring", "mm", bore=d, t=t, p=rings.pressure, E=IRON
    )
    book = (3.5 * t, 4 * t)
    stress = relations.closed_stress.work(
        "Bending of a closed ring", "N/mm2", bore=d, t=t, p=rings.pressure
    )
    opening = relations.opening_stress.work(
        "Bending of a ring spread over the piston", "N/mm2", bore=d, t=t, gap=gap.result, E=IRON
    )
    closed, least = (0.002 * d, 0.004 * d), d / (10 * rings.number)
    return Ringed(
        d, t, rings.width or max(0.85 * t, least), least, gap.result, book,
        relations.ring_pressure(d, t, sum(book) / 2, IRON), closed,
        math.pi * d * (expansion(metal) - expansion("cast iron")) * (hot - 20.0), stress.result,
        opening.result, t + 0.4 * min(1.0, d / 50), d + gap.result / math.pi,
        (radial, gap, stress, opening),
    )  # fmt: skip
