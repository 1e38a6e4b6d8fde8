"""What is said of plates and stays, as a beginning of a talk with the inspector."""

from __future__ import annotations

from collections.abc import Iterator

from ..boiler.decisions import BoilerSeat
from ..findings import COMMON, Finding
from ..trade.copper import SOURCES
from .results import FiringResult

CHAPTER = "firing"
NOTHING = "this certifies nothing, and joints, openings and tube ends are not in it"
CRUSH = 10.0
"""Least that the pressure which crushes a perfect tube is over the pressure inside; common
practice, since real tubes are neither round nor long."""


def metal_findings(boiler: BoilerSeat, result: FiringResult) -> Iterator[Finding]:
    """Yield the findings on the metal."""
    metal = result.metal
    fields = ("boiler.shell.wall", "firing.plates.plate", "firing.plates.pitch")
    if boiler.shell.material != "copper":
        rows = ", ".join(f"{one.name.lower()} {one.stress:.1f}" for one in metal.rows)
        yield Finding(
            "check", CHAPTER, ("boiler.shell.material", *fields),
            f"Stresses by the usual formulas, N/mm2: {rows}. What {boiler.shell.material} may bear "
            "is not told here.", "The inspector has the code's figures.", COMMON,
        )  # fmt: skip
        return
    known = [(basis, one) for basis, one in metal.allowed if one is not None]
    if not known:
        yield Finding(
            "check", CHAPTER, ("cylinders.pressure", *fields),
            "Both tables of hot copper end before this pressure's temperature; nothing is told "
            "beyond them.", "The inspector has the code's figures.", "; ".join(SOURCES.values()),
        )  # fmt: skip
        return
    told = " and ".join(f"{one:.1f} on the {basis} basis" for basis, one in known)
    source = "; ".join(SOURCES[basis] for basis, _ in known)
    weak = [one for one in metal.rows if one.hand is not None and one.hand < 1]
    for one in weak:
        assert one.hand is not None
        barrel = one.name == "Barrel"
        yield Finding(
            "stop" if barrel else "check", CHAPTER, fields,
            f"{one.name}: {one.stress:.1f} N/mm2 by the usual formula ({one.formula}), where hot "
            f"annealed copper is allowed {told}.", _mend(one.name), source,
        )  # fmt: skip
    if not weak:
        least = min(metal.rows, key=lambda one: one.hand or 1e9)
        yield Finding(
            "fine", CHAPTER, fields,
            f"Of the parts looked at {least.name.lower()} has least in hand: {least.stress:.1f} "
            f"N/mm2, where hot annealed copper is allowed {told}, {least.hand or 0:.1f} times as "
            f"much; {NOTHING}.", source=source,
        )  # fmt: skip
    if metal.crushed_at is not None and metal.crushed_at < CRUSH * result.valves.blows_at:
        yield Finding(
            "check", CHAPTER, ("boiler.shell.wall", "boiler.firebox.flue"),
            f"The flue, as a perfect tube, would be crushed at {metal.crushed_at:.0f} bar, "
            f"{metal.crushed_at / result.valves.blows_at:.1f} times the pressure; {CRUSH:g} times "
            "are looked for.", "A thicker flue, or water tubes across it.", COMMON,
        )  # fmt: skip


def _mend(name: str) -> str:
    if name.startswith("End plates"):
        return "A stay from end to end, or a thicker plate: ask the inspector which."
    if name.startswith("Stay"):
        return "Stays nearer together or thicker, or a thicker plate: ask the inspector which."
    return "A thicker wall or a lower pressure: ask the inspector."
