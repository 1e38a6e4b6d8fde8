"""The eccentric that a gear amounts to, and from wanted events to sizes in closed form.

Textbook slide-valve geometry: the valve stands r sin(theta + delta) from the middle of its
travel, theta from the dead centre being left; the connecting rod taken as long.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, ClassVar

import numpy as np

from ..sizes import SizeError, check_sizes, figure, size
from ..working import Working, asin, pi, relation, sqrt
from .frame import Array

_BOOK = "textbook slide-valve geometry (Zeuner; Peabody); lap rule after Bourne, Catechism Q190"


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """The events that the builder asks of full gear."""

    title: ClassVar[str] = "Wanted in full gear"

    cutoff: float = size("Wanted cut-off in full gear", "%", 30, 95, default=78.0)
    lead: float = size("Wanted lead", low=-2, high=20, default=0.1)
    port_opening: float | None = size(
        "Wanted port opening", low=0.05, high=60, default=None,
        help="the port's width where nothing is asked",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@relation("r", _BOOK, o="o", l=r"\ell", x="x")
def throw_for_events(o: Any, l: Any, x: Any) -> Any:  # noqa: E741 - the book's letter
    """Throw of the eccentric for opening o, lead l and cut-off x as a fraction of the stroke."""
    return (o - l / 2 + sqrt(1 - x) * sqrt((o - l / 2) ** 2 - l**2 / 4)) / x


@relation("L", _BOOK)
def lap_for_opening(r: Any, o: Any) -> Any:
    """Steam lap that leaves the opening o of the throw r."""
    return r - o


@relation(r"\delta", _BOOK, l=r"\ell")
def advance_for_lead(L: Any, l: Any, r: Any) -> Any:  # noqa: E741, N803
    """Angle of advance for lap L, lead l and throw r, degrees."""
    return 180 / pi * asin((L + l) / r)


@dataclass(frozen=True, kw_only=True)
class ValveSizes:
    """What wanted events call for: the eccentric and the lap, with the working."""

    throw: float = figure("Throw")
    steam_lap: float = figure("Steam lap")
    advance: float = figure("Angle of advance", "deg")
    travel: float = figure("Valve travel")
    workings: tuple[Working, ...]


def sizes_for_events(cutoff: float, lead: float, port_opening: float) -> ValveSizes:
    """Return throw, lap and advance for events wanted in full gear, in closed form.

    Parameters
    ----------
    cutoff : mean of both ends, % of the stroke.
    lead, port_opening : mm.

    Raises
    ------
    SizeError : when the lead exceeds the opening, or nothing fits.
    """
    if port_opening <= max(lead, 0):
        raise SizeError(
            f"Wanted port opening: {port_opening:g} mm does not exceed the lead of {lead:g} mm; "
            "an opening well above the lead would do.",
            "port_opening",
        )
    throw = throw_for_events.work(
        "Throw of a single eccentric", "mm", o=port_opening, l=lead, x=cutoff / 100
    )
    lap = lap_for_opening.work("Steam lap with it", "mm", r=throw.result, o=port_opening)
    advance = advance_for_lead.work(
        "Its angle of advance", "deg", L=lap.result, l=lead, r=throw.result
    )
    return ValveSizes(
        throw=throw.result,
        steam_lap=lap.result,
        advance=advance.result,
        travel=2 * throw.result,
        workings=(throw, lap, advance),
    )


@dataclass(frozen=True, kw_only=True)
class EquivalentEccentric:
    """The single eccentric that moves the valve most nearly as the gear does.

    Parameters
    ----------
    departure : greatest distance of the gear's valve from that of the eccentric, mm.
    """

    throw: float = figure("Equivalent throw")
    advance: float = figure("Equivalent angle of advance", "deg")
    departure: float = figure("Greatest departure of the gear from it")


def equivalent_eccentric(theta: Array, valve: Array) -> EquivalentEccentric:
    """Return the least-squares eccentric of a valve's motion over a full turn.

    Parameters
    ----------
    theta : (n,) crank angles, evenly spaced over the turn, degrees.
    valve : (n,) displacement; that of an eccentric leading by 90 + delta is
        -r sin(theta + delta) about its middle.
    """
    angle, level = np.radians(theta), valve - valve.mean()
    a = -2 * float(np.mean(level * np.cos(angle)))
    b = -2 * float(np.mean(level * np.sin(angle)))
    fitted = -a * np.cos(angle) - b * np.sin(angle)
    return EquivalentEccentric(
        throw=math.hypot(a, b),
        advance=math.degrees(math.atan2(a, b)),
        departure=float(np.abs(level - fitted).max()),
    )


def zeuner_link(
    throw: float,
    advance: float,
    eccentric_rod: float,
    half_link: float,
    die: float,
    *,
    crossed: bool = False,
) -> EquivalentEccentric:
    """Return Zeuner's eccentric for a Stephenson link with long rods.

    Parameters
    ----------
    half_link : half the distance between the rod pins; `die` the block's distance from the
        middle of the link towards the forward pin, both mm.

    Source: G. Zeuner, Treatise on Valve-Gears (from memory), derived anew to first order
    in link over rod.
    """
    delta = math.radians(advance)
    share = (half_link**2 - die**2) / (half_link * eccentric_rod) * math.cos(delta)
    a = throw * (math.sin(delta) - share if crossed else math.sin(delta) + share)
    b = throw * die / half_link * math.cos(delta)
    return EquivalentEccentric(
        throw=math.hypot(a, b), advance=math.degrees(math.atan2(a, b)), departure=0.0
    )
