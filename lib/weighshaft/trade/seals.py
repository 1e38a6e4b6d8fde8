"""O-rings and their grooves, and the rubbers they are made of, as published."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..measures import INCH
from .tables import rows

STILL, MOVING = "still", "moving"
SECTIONS = ("1.78", "2.62", "3.53", "1.50", "2.00", "2.50", "3.00")
"""Sections in mm, as they are asked for: 0.070, 0.103 and 0.139 in, which AS568, BS 1806 and
ISO 3601-1 have with the same numbers (from memory), and those of metric rings."""
ELASTOMERS = ("nitrile", "EPDM", "fluorocarbon", "silicone", "TFE/P rubber", "PTFE")


@dataclass(frozen=True)
class ORing:
    """A ring: its dash number in AS568, empty for a metric one, bore and section, mm."""

    dash: str
    inside: float
    section: float

    @property
    def name(self) -> str:
        """What to ask for."""
        return f"AS568-{self.dash}" if self.dash else f"{self.inside:g} × {self.section:g}"

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
    """A rubber: how hot it may get dry and in steam, degC, and whether steam is for it."""

    name: str
    limit: float
    steam: bool
    in_steam: float
    note: str


@cache
def o_rings() -> tuple[ORing, ...]:
    """Return every ring of the table."""
    return (
        *(
            ORing(row["dash"], float(row["inside_in"]) * INCH, float(row["section_in"]) * INCH)
            for row in rows("o_rings")
        ),
        *(ORing("", float(row["inside"]), float(row["section"])) for row in rows("o_rings_metric")),
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
    for row in rows("o_ring_grooves_metric"):
        section, depth, radius = (float(row[name]) for name in ("section", "depth", "radius"))
        squeeze = 100 * (section - depth) / section
        made[f"{section:.2f}", row["duty"]] = Groove(
            section, row["duty"], (depth, depth),
            (float(row["width_low"]), float(row["width_high"])), both(row, "clearance"),
            (radius, radius), (squeeze, squeeze), row["sources"],
        )  # fmt: skip
    return made


def groove(section: str, duty: str) -> Groove:
    """Return the published groove for a section of `SECTIONS`, still or moving."""
    return _grooves()[section, duty]


@cache
def _elastomers() -> dict[str, Elastomer]:
    return {
        row["name"]: Elastomer(
            row["name"],
            float(row["limit_degC"]),
            row["steam"] == "yes",
            float(row["steam_limit_degC"]),
            row["note"],
        )
        for row in rows("elastomers")
    }


def elastomer(name: str) -> Elastomer:
    """Return a rubber of `ELASTOMERS`."""
    return _elastomers()[name]
