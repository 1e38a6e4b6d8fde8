"""Which thread to propose: on a rod, round a hole, for a cover (all common practice)."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from ..measures import INCH, to_step
from ..trade.threads import Thread, threads

_OVER = 0.02
"""A thread may be this much larger than the rod (mm): a 5/32 in rod may be typed as 3.95."""


def _series(*names: str) -> tuple[Thread, ...]:
    return tuple(sorted((t for n in names for t in threads(n)), key=lambda t: (t.major, t.pitch)))


@cache
def on_rods(preferred: str) -> tuple[Thread, ...]:
    """Return the threads that builders cut on rods, by rising diameter."""
    if preferred == "metric":
        return _series("ISO")
    if preferred == "unified":
        return _series("UNF")
    return _series("BA", "ME40")


@cache
def round_holes(preferred: str) -> tuple[Thread, ...]:
    """Return the fine threads that builders cut on bored parts, by rising diameter."""
    large = tuple(one for one in threads("G") if one.major > INCH / 2)
    if preferred == "metric":
        fine = [one for one in threads("ISO fine") if one.designation in _METRIC_FINE]
        return (*fine, *large)
    if preferred == "unified":
        return (*_series("UNF"), *_series("UNEF"), *large)
    forty = [one for one in threads("ME40") if one.major < 6.5]
    thirty_two = [one for one in threads("ME32") if one.major > 6.5]
    small = [one for one in threads("BA") if one.major < 3]
    return (*small, *forty, *thirty_two, *large)


@cache
def for_screws(preferred: str) -> tuple[Thread, ...]:
    """Return the threads of the screws that builders buy, by rising diameter."""
    if preferred == "metric":
        return tuple(t for t in threads("ISO") if t.size in _METRIC_SCREWS)
    if preferred == "unified":
        return _series("UNC")
    # the even numbers are the ones that are kept in stock
    return tuple(one for one in threads("BA") if int(one.size) % 2 == 0 and int(one.size) <= 12)


_METRIC_FINE = (
    "M3 × 0.35", "M4 × 0.5", "M5 × 0.5", "M6 × 0.5", "M8 × 0.75", "M10 × 0.75", "M12 × 1",
)  # fmt: skip
_METRIC_SCREWS = ("M1.6", "M2", "M2.5", "M3", "M4", "M5", "M6", "M8", "M10", "M12")


def largest_on_rod(rod: float, preferred: str) -> Thread | None:
    """Return the largest thread that a rod of diameter `rod` (mm) will carry.

    Of threads within a tenth of the rod the model engineers' forty is taken before BA, since
    its finer pitch leaves more core.
    """
    fit = [one for one in on_rods(preferred) if one.major <= rod + _OVER]
    if not fit:
        return None
    fine = [one for one in fit if one.series == "ME40" and one.major >= 0.9 * rod]
    if fine and preferred != "BA":
        return fine[-1]
    return max(fit, key=lambda one: (round(one.major, 2), -one.pitch))


def smallest_round_hole(hole: float, wall: float, preferred: str) -> Thread | None:
    """Return the smallest thread whose core leaves `wall` (mm) round a `hole` (mm)."""
    for one in sorted(round_holes(preferred), key=lambda t: t.major):
        if one.minor >= hole + 2 * wall - 1e-9:
            return one
    return None


def usual_on_rod(rod: float, preferred: str) -> Thread:
    """Return the thread that a rod (mm) usually has: the largest that it carries."""
    return largest_on_rod(rod, preferred) or on_rods(preferred)[0]


def usual_screws(bore: float) -> int:
    """Return the number of screws that is usual in the cover of a bore (mm)."""
    for most, number in ((10, 4), (26, 6), (42, 8), (70, 10)):
        if bore <= most:
            return number
    return 12


def usual_screw(bore: float, preferred: str) -> Thread:
    """Return the cover screw that is in keeping with a bore (mm), strong enough or not."""
    return cover_screw(bore, preferred, lambda one: True) or for_screws(preferred)[-1]


def usual_screw_circle(bore: float, screw: float) -> float:
    """Return the screw circle (mm) that leaves about a screw of metal beside the bore."""
    return round(bore + 3 * screw, 1)


def cover_screw(
    bore: float, preferred: str, strong_enough: Callable[[Thread], bool]
) -> Thread | None:
    """Return the smallest screw that is in keeping with a bore (mm) and strong enough.

    In keeping is a diameter of about 0.08 of the bore and 0.6 mm (common practice).
    """
    in_keeping = 0.93 * (0.08 * bore + 0.6)
    for one in for_screws(preferred):
        if one.major >= in_keeping and strong_enough(one):
            return one
    return None


def next_larger(one: Thread) -> Thread | None:
    """Return the next larger thread of the same series, None for the largest."""
    larger = [other for other in threads(one.series) if other.major > one.major + 1e-6]
    return larger[0] if larger else None


def stock_rod(diameter: float, preferred: str) -> float:
    """Return the bar (mm) nearest to a diameter: 1/32 in steps, or half millimetres."""
    step = 0.5 if preferred == "metric" else INCH / 32
    return max(step, to_step(diameter, step))
