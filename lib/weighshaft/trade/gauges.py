"""Published loading gauges, platform edges, buffer and coupling heights, brought to model size.

The figures stand in `data/loading_gauges.csv` and `data/platforms_couplings.csv`;
`data/README-gauges.md` says what they are and where they are from.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from ..measures import INCH
from .tables import rows

_CLOSE = 0.02  # gauges and scales that differ by so little are one under two names
_TALL = 1e5

Kind = Literal["vehicle", "structure"]
Quantity = Literal[
    "buffer_height", "buffers_apart", "coupling_height", "platform_height", "platform_offset"
]


@dataclass(frozen=True)
class Outline:
    """Half widths allowed from the rail upwards, at model size, mm.

    Parameters
    ----------
    kind : whether it bounds the vehicle itself, or what stands beside the line.
    corners : (height above the rail, half width), rising; two of one height are a step.
    """

    name: str
    kind: Kind
    corners: tuple[tuple[float, float], ...]
    sources: str = ""
    note: str = ""

    @property
    def top(self) -> float:
        """Its greatest height; very tall where the width alone is bounded."""
        return self.corners[-1][0]


@dataclass(frozen=True)
class Published:
    """One published figure at model size with its limits, mm."""

    name: str
    quantity: Quantity
    value: float
    low: float
    high: float
    sources: str
    note: str = ""


def _length(text: str, unit: str, divided: float) -> float | None:
    return float(text) * (INCH if unit == "in" else 1.0) / divided if text else None


def _factor(row: dict[str, str], ratio: float, gauge: float, full_gauge: float) -> float | None:
    """Return by what a row's figures are to be divided, None where it is not for this design."""
    if row["basis"] == "full size":
        return ratio if abs(full_gauge / float(row["gauge_mm"]) - 1) < _CLOSE else None
    if row["gauge_mm"] and abs(gauge / float(row["gauge_mm"]) - 1) > _CLOSE:
        return None
    if row["ratio"] and abs(ratio / float(row["ratio"]) - 1) > _CLOSE:
        return None
    return 1.0


@cache
def outline(name: str, ratio: float, gauge: float, full_gauge: float) -> Outline | None:
    """Return a published outline at model size, None where it has none for this design.

    Parameters
    ----------
    ratio : scale of the model.
    gauge, full_gauge : of the model's track and of the prototype's, mm.
    """
    corners: list[tuple[float, float]] = []
    found: dict[str, str] = {}
    for row in rows("loading_gauges"):
        divided = _factor(row, ratio, gauge, full_gauge) if row["name"] == name else None
        if divided is None:
            continue
        found = row
        width = _length(row["width"], row["unit"], divided)
        height = _length(row["height"], row["unit"], divided)
        assert width is not None
        if height is None:
            corners += [(0.0, width / 2), (_TALL, width / 2)]
        else:
            corners.append((height, width / 2))
    if not found:
        return None
    kind: Kind = "structure" if found["kind"] == "structure" else "vehicle"
    return Outline(name, kind, tuple(corners), found["sources"], found["note"])


@cache
def published(
    name: str, quantity: Quantity, ratio: float, gauge: float, full_gauge: float
) -> Published | None:
    """Return one figure of a standard at model size; see `outline` for the parameters."""
    for row in rows("platforms_couplings"):
        if (row["name"], row["quantity"]) != (name, quantity):
            continue
        divided = _factor(row, ratio, gauge, full_gauge)
        if divided is None:
            continue
        value, plus, minus = (
            _length(row[key], row["unit"], divided) for key in ("value", "plus", "minus")
        )
        assert value is not None
        return Published(
            name, quantity, value, value - (minus or 0.0), value + (plus or 0.0), row["sources"],
            row["note"],
        )  # fmt: skip
    return None


def _names(table: str, *quantities: str) -> tuple[str, ...]:
    return tuple(
        dict.fromkeys(
            row["name"] for row in rows(table) if not quantities or row["quantity"] in quantities
        )
    )


LOADING_GAUGES = _names("loading_gauges")
COUPLINGS = _names("platforms_couplings", "buffer_height", "coupling_height")
PLATFORMS = _names("platforms_couplings", "platform_height")
