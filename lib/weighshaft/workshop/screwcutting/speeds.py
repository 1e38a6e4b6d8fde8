"""Spindle speeds: published ranges, and what the builder's machines have."""

from __future__ import annotations

from dataclasses import dataclass

from ...trade.cutting import cutting_speed
from . import relations

OPERATIONS = ("turning", "milling", "drilling", "reaming", "tapping", "threading")
BY_HAND = 120.0
"""Turns a minute at which a hand opens the nut in time: a groove of two pitches passes in one
second; common practice."""
ON = {
    "turning": "lathe", "milling": "mill", "drilling": "either", "reaming": "either",
    "tapping": "either", "threading": "lathe",
}  # fmt: skip


@dataclass(frozen=True)
class Speed:
    """The speed of an operation.

    Parameters
    ----------
    operation : one of `OPERATIONS`; threading is with a single point.
    tool : HSS or carbide.
    low, high : published range at the edge, m/min.
    slowest, fastest : the same as turns a minute.
    lathe, mill : the machine's next lower speed, rev/min; None where it is not done there or
        every speed is too fast.
    source, note : of the range.
    """

    operation: str
    tool: str
    low: float
    high: float
    slowest: float
    fastest: float
    lathe: float | None
    mill: float | None
    source: str
    note: str

    @property
    def chosen(self) -> float | None:
        """The faster of the two machines' speeds."""
        had = [one for one in (self.lathe, self.mill) if one is not None]
        return max(had, default=None)


def next_lower(speeds: tuple[float, ...], wanted: float) -> float | None:
    """Return the fastest speed of a machine that is not above a wanted one."""
    return max((one for one in speeds if one <= wanted * (1 + 1e-9)), default=None)


def speed(
    material: str,
    operation: str,
    tool: str,
    diameter: float,
    lathe: tuple[float, ...],
    mill: tuple[float, ...],
    starts: int = 1,
) -> Speed | None:
    """Return the speed of an operation, None where no range is published.

    Parameters
    ----------
    diameter : of the work or of the tool, whichever turns, mm.
    lathe, mill : speeds of the machines, rev/min.
    starts : of the thread: with several the tool runs that much faster along the lathe.
    """
    used = tool if operation in ("turning", "threading") else "HSS"
    range_ = cutting_speed(material, operation, used)
    if range_ is None:
        return None
    fastest, slowest = (relations.revolutions(v, diameter) for v in (range_.high, range_.low))
    note = range_.note
    hand = BY_HAND / starts
    if operation == "threading" and fastest > hand:
        fastest, slowest = hand, min(slowest, hand)
        note = "held to what a hand can follow: two pitches a second"
    on = ON[operation]
    return Speed(
        operation, used, range_.low, range_.high, slowest, fastest,
        next_lower(lathe, fastest) if on != "mill" else None,
        next_lower(mill, fastest) if on != "lathe" else None,
        range_.source, note,
    )  # fmt: skip
