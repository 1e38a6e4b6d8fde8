"""Soldered and bonded joints: bores that leave the right gap when it matters."""

from __future__ import annotations

from dataclasses import dataclass

from ...fits import COMPOUNDS, WIDEST_GAP, bond_force, bond_torque, hot_share
from ...trade.brazing import Alloy, alloy, hot_expansion
from ...trade.expansion import expansion
from ...working import Working
from . import relations
from .decisions import Bonded, Brazed

ROOM = 20.0
ABOVE = 30.0
"""Degrees above the end of the melting range at which a solder runs well; common practice."""
THINNEST, WIDEST = 0.02, WIDEST_GAP
"""Gap on the diameter for an anaerobic compound, mm: least from common practice."""


@dataclass(frozen=True)
class Soldered:
    """A soldered joint; bores in mm, gaps between the two surfaces.

    Parameters
    ----------
    heat : degC.
    gained : gap on the diameter gained when hot, negative where it closes.
    bore : from and to, cold.
    best : bore for the gap aimed at, cold.
    cold, hot : gap on each side with that bore.
    overlap : usual length, three walls.
    solder, wire : volume (mm3) and length of wire.
    """

    alloy: Alloy
    heat: float
    gained: float
    bore: tuple[float, float]
    best: float
    cold: float
    hot: float
    overlap: float
    solder: float
    wire: float
    workings: tuple[Working, ...]


def soldered(brazed: Brazed) -> Soldered:
    """Return the bores for a spigot of the diameter decided."""
    one, d = alloy(brazed.alloy), brazed.spigot
    heat = brazed.heat if brazed.heat is not None else one.liquid + ABOVE
    gained = relations.gap_gained.work(
        "Gap on the diameter gained when hot", "mm", d=d, a_o=hot_expansion(brazed.outer),
        a_i=hot_expansion(brazed.inner), rise=heat - ROOM,
    )  # fmt: skip
    low, best, high = (
        relations.bore_for.work(label, "mm", d=d, gap=gap, gained=gained.result)
        for label, gap in (
            ("Least bore, cold", one.gap[0]), ("Bore for the gap aimed at, cold", one.aim),
            ("Greatest bore, cold", one.gap[1]),
        )
    )  # fmt: skip
    solder = relations.solder_needed.work(
        "Solder for the joint", "mm3", d=d, gap=one.aim, length=brazed.overlap
    )
    wire = relations.wire_needed.work(
        "Wire for the joint", "mm", volume=solder.result, wire=brazed.wire
    )
    return Soldered(
        one, heat, gained.result, (low.result, high.result), best.result, (best.result - d) / 2,
        one.aim, 3 * brazed.wall, solder.result, wire.result,
        (gained, low, best, high, solder, wire),
    )  # fmt: skip


@dataclass(frozen=True)
class Held:
    """A bonded pin; lengths in mm, gaps on the diameter.

    Parameters
    ----------
    bore : from and to for the gap that a compound takes.
    wanted : bore for the gap wanted.
    warm : gap at the hottest.
    strength : shear that is left, N/mm2.
    torque, force : that shear the bond, N mm and N.
    """

    pin: float
    length: float
    bore: tuple[float, float]
    wanted: float
    warm: float
    strength: float
    torque: float
    force: float
    workings: tuple[Working, ...]


def held(bonded: Bonded, axle: float) -> Held:
    """Return the bore for a pin and what its bond carries.

    Parameters
    ----------
    axle : diameter taken where no pin is given, mm.
    """
    pin = bonded.pin or axle
    length = bonded.length or pin
    gained = relations.gap_gained.work(
        "Gap of the bond gained when warm", "mm", d=pin, a_o=expansion(bonded.outer),
        a_i=expansion(bonded.inner), rise=bonded.service - ROOM,
    )  # fmt: skip
    warm = bonded.gap + gained.result
    wide = min(1.0, WIDEST / warm) if warm > 0 else 1.0
    strength = COMPOUNDS[bonded.grade] * hot_share(bonded.service) * wide
    torque = bond_torque.work(
        "Torque that shears the bond of the pin", "N mm", tau=strength, d=pin, L=length
    )
    force = bond_force.work(
        "Force that shears the bond of the pin", "N", tau=strength, d=pin, L=length
    )
    return Held(
        pin, length, (pin + THINNEST, pin + WIDEST), pin + bonded.gap, warm, strength,
        torque.result, force.result, (gained, torque, force),
    )  # fmt: skip
