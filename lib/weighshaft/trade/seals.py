"""O-rings and their grooves, and the rubbers they are made of, as published."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..measures import INCH
from .tables import rows

STILL, MOVING = "still", "moving"
SECTIONS = ("1.78", "2.62", "3.53")
"""Sections in mm, as they are asked for: 0.070, 0.103 and 0.139 in."""
ELASTOMERS = ("nitrile", "EPDM", "fluorocarbon", "silicone")


@dataclass(frozen=True)
class ORing:
    """A ring of AS568: dash number, bore and section, mm."""

    dash: str
    inside: float
    section: float

    @property
    def outside(self) -> float:
        """Outside diameter, mm."""
        return self.inside + 2 * self.section


@dataclass(frozen=True)
class Groove:
    """A groove, each size from and to, mm; `depth` from the surface sealed on; squeeze in %."""

    section: float
    duty: str
    depth: tuple[float, float]
    width: tuple[float, float]
    clearance: tuple[float, float]
    radius: tuple[float, float]
    squeeze: tuple[float, float]
    source: str


@dataclass(frozen=True)
class Elastomer:
    """A rubber: how hot it may get, degC, and whether steam is for it; common practice."""

    name: str
    limit: float
    steam: bool
    note: str


@cache
def o_rings() -> tuple[ORing, ...]:
    """Return every ring of the table."""
    return tuple(
        ORing(row["dash"], float(row["inside_in"]) * INCH, float(row["section_in"]) * INCH)
        for row in rows("o_rings")
    )


@cache
def _grooves() -> dict[tuple[str, str], Groove]:
    def both(row: dict[str, str], name: str) -> tuple[float, float]:
        return float(row[f"{name}_low_in"]) * INCH, float(row[f"{name}_high_in"]) * INCH

    made = {}
    for row in rows("o_ring_grooves"):
        section = float(row["section_in"]) * INCH
        made[f"{section:.2f}", row["duty"]] = Groove(
            section, row["duty"], both(row, "depth"), both(row, "width"), both(row, "clearance"),
            both(row, "radius"), (float(row["squeeze_low"]), float(row["squeeze_high"])),
            row["sources"],
        )  # fmt: skip
    return made


def groove(section: str, duty: str) -> Groove:
    """Return the published groove for a section of `SECTIONS`, still or moving."""
    return _grooves()[section, duty]


@cache
def _elastomers() -> dict[str, Elastomer]:
    return {
        row["name"]: Elastomer(
            row["name"], float(row["limit_degC"]), row["steam"] == "yes", row["note"]
        )
        for row in rows("elastomers")
    }


def elastomer(name: str) -> Elastomer:
    """Return a rubber of `ELASTOMERS`."""
    return _elastomers()[name]
