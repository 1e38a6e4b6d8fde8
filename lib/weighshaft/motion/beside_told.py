"""What is to be said of two gears on one engine: a sentence for each measure, and no total."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from .beside_sides import Side, mean

_SHOWN = {"mm": 2, "%": 1, "count": 0, "ratio": 2}
"""Decimals with which a measure is told; two gears that then read the same are alike."""


@dataclass(frozen=True, kw_only=True)
class Measure:
    """One measure by which two gears are told apart.

    Parameters
    ----------
    name : in the trade's words.
    unit : "mm", "%" (of the stroke), "count" or "ratio".
    first, other : None where a gear has no such thing.
    says : the verdict, one sentence with the figures.
    """

    name: str
    unit: str
    first: float | None
    other: float | None
    says: str


class _Kind(NamedTuple):
    """How one measure is taken and told: `more` and `less` say what the larger one means."""

    name: str
    unit: str
    take: Callable[[Side], float | None]
    more: str
    less_is_told: bool = False


def _lead(side: Side) -> float:
    return (side.alike.front.lead + side.alike.back.lead) / 2


def _lead_kept(side: Side) -> float:
    return abs(_lead(side) - (side.full.front.lead + side.full.back.lead) / 2)


def _apart(side: Side) -> float | None:
    front, back = side.alike.front.cutoff, side.alike.back.cutoff
    return None if front is None or back is None else abs(front.percent - back.percent)


_KINDS = (
    _Kind("Mean cut-off in full forward gear", "%", lambda side: mean(side.full, "cutoff"),
          "{by} of the stroke later with {who}, for a surer start"),
    _Kind("Cut-off, front against back", "%", _apart,
          "nearer alike by {by} with {who}, for a more even beat", less_is_told=True),
    _Kind("Lead", "mm", _lead, "{by} more with {who}"),
    _Kind("Lead against that in full forward gear", "mm", _lead_kept,
          "it changes {by} less with {who}", less_is_told=True),
    _Kind("Port opens to steam, at the end that opens less", "mm",
          lambda side: min(side.alike.front.port_opening, side.alike.back.port_opening),
          "{by} further with {who}"),
    _Kind("Release", "%", lambda side: mean(side.alike, "release"),
          "{by} of the stroke later with {who}, for more expansion"),
    _Kind("Compression", "%", lambda side: mean(side.alike, "compression"),
          "{by} of the stroke less with {who}", less_is_told=True),
    _Kind("Valve travel", "mm", lambda side: side.alike.travel,
          "{by} less with {who}, for less wear of the valve face", less_is_told=True),
    _Kind("Die slips in its slot", "mm", lambda side: side.die_slip,
          "{by} less with {who}, for less wear of die and slot", less_is_told=True),
    _Kind("Least sine of an angle of transmission", "ratio", lambda side: side.least_margin,
          "larger by {by} with {who}, so much further from locking"),
    _Kind("Parts for one valve", "count", lambda side: float(side.parts),
          "{by} fewer to make with {who}", less_is_told=True),
    _Kind("Pins, straps, pivots and die for one valve", "count",
          lambda side: float(side.joints),
          "{by} fewer to fit and to wear with {who}", less_is_told=True),
)  # fmt: skip


def measures(first: Side, other: Side) -> tuple[Measure, ...]:
    """Return the measures of two gears where they are compared, each with its verdict."""
    made = []
    for kind in _KINDS:
        one, two = kind.take(first), kind.take(other)
        if one is not None or two is not None:
            says = _says(kind, first.name, one, other.name, two)
            made.append(Measure(name=kind.name, unit=kind.unit, first=one, other=two, says=says))
    return tuple(made)


def shown(value: float | None, unit: str) -> str:
    """Return a value as it is told, with its unit."""
    if value is None:
        return "none"
    written = f"{abs(value):.{_SHOWN[unit]}f}"
    if value < 0 and float(written):
        return f"port covered by {written} {unit}"  # lead and opening alone fall below nothing
    return written if unit in ("count", "ratio") else f"{written} {unit}"


def _says(kind: _Kind, first: str, one: float | None, other: str, two: float | None) -> str:
    figures = (
        f"{kind.name}: {shown(one, kind.unit)} with {first}, {shown(two, kind.unit)} with {other}"
    )
    if one is None or two is None:
        return f"{figures}."
    places = _SHOWN[kind.unit]
    by = abs(round(one, places) - round(two, places))
    if round(by, places) == 0:
        return f"{figures}: alike."
    wins_first = (one < two) == kind.less_is_told
    who = first if wins_first else other
    return f"{figures}: {kind.more.format(by=shown(by, kind.unit), who=who)}."
