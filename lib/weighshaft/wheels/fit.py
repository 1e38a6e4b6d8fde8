"""Whether wheels, cranks and axles have room for one another at all."""

from __future__ import annotations

from itertools import pairwise

from ..findings import Finding
from .decisions import Wheels
from .track import CHAPTER, Track

_GAP = 0.5
"""Least gap between two wheels over their flanges, mm; common practice in small engines."""
_RIM = 0.08
"""Metal outside a crankpin as a share of the wheel's radius; common practice."""


def fits(wheels: Wheels, track: Track, *, crank_throw: float) -> list[Finding]:
    """Return a stop for every pair of wheels that overlap, and for a crank its wheel cannot hold.

    Parameters
    ----------
    wheels : the decisions.
    track : flanges as decided or as the standard has them.
    crank_throw : mm.
    """
    found = []
    over = wheels.driving_diameter + 2 * track.flange_depth
    for n, (ahead, behind) in enumerate(pairwise(wheels.positions)):
        apart = ahead - behind
        if apart < over + _GAP:
            path = f"wheels.wheelbase.{n}"
            found.append(
                Finding(
                    "stop", CHAPTER, (path, "wheels.driving_diameter"),
                    f"Coupled axles {n + 1} and {n + 2} stand {apart:.1f} mm apart; the wheels "
                    f"measure {over:.1f} mm over their flanges and would touch.",
                    "Spread the axles or take smaller wheels.", change=(path, round(over + 1, 1)),
                )
            )  # fmt: skip
    radius = wheels.driving_diameter / 2
    needed = crank_throw + wheels.across.crankpin / 2 + _RIM * radius
    if needed > radius:
        found.append(
            Finding(
                "stop", CHAPTER, ("wheels.driving_diameter", "cylinders.stroke"),
                f"With a throw of {crank_throw:.2f} mm and a {wheels.across.crankpin:.2f} mm pin "
                f"the crank reaches {needed:.1f} mm from the axle; the wheel's radius is "
                f"{radius:.1f} mm.", "A larger wheel or a shorter stroke.",
            )
        )  # fmt: skip
    seat = wheels.seat_diameter or wheels.axle_diameter
    if max(seat, wheels.axle_diameter) > 0.6 * wheels.driving_diameter:
        found.append(
            Finding(
                "stop", CHAPTER, ("wheels.axle_diameter", "wheels.seat_diameter"),
                f"An axle of {max(seat, wheels.axle_diameter):.1f} mm leaves no wheel of "
                f"{wheels.driving_diameter:.1f} mm round it.", "A thinner axle.",
            )
        )  # fmt: skip
    if seat > wheels.axle_diameter + 1e-9:
        found.append(
            Finding(
                "check", CHAPTER, ("wheels.seat_diameter",),
                f"The wheel seat of {seat:.2f} mm is thicker than the journal of "
                f"{wheels.axle_diameter:.2f} mm, so that axleboxes cannot be slipped on over it.",
                "A seat no thicker than the journal, or split boxes.",
            )
        )  # fmt: skip
    return found
