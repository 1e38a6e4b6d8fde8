"""Cutting speeds by metal, operation and tool, as they are published."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..measures import FOOT
from .tables import rows

TOOLS = ("HSS", "carbide")
REAMING = (1 / 2, 2 / 3)
"""Share of a drill's speed for a reamer (source K3 of `data/README.md`)."""
THREADING = (1 / 4, 1 / 3)
"""Share of a turning tool's speed for a thread cut with a single point; common practice."""


@dataclass(frozen=True)
class CuttingSpeed:
    """A range of speeds at the edge, m/min, with its source and what is to be known of it."""

    low: float
    high: float
    source: str
    note: str = ""

    def share(self, shares: tuple[float, float], source: str) -> CuttingSpeed:
        """Return the range of an operation that runs at a share of this one's speed."""
        return CuttingSpeed(self.low * shares[0], self.high * shares[1], source, self.note)


@cache
def _table() -> dict[tuple[str, str, str], CuttingSpeed]:
    made = {}
    for row in rows("cutting_speeds"):
        unit = FOOT / 1000 if row["unit"] == "ft/min" else 1.0
        made[row["material"], row["operation"], row["tool"]] = CuttingSpeed(
            float(row["low"]) * unit, float(row["high"]) * unit, row["sources"], row["note"]
        )
    return made


def cutting_speed(material: str, operation: str, tool: str = "HSS") -> CuttingSpeed | None:
    """Return the published range, None where the table has none.

    Parameters
    ----------
    material : one of `trade.materials.MATERIALS`.
    operation : turning, milling, drilling, tapping, reaming or threading.
    tool : HSS or carbide.
    """
    if operation == "reaming":
        base = _table().get((material, "drilling", tool))
        return base and base.share(REAMING, f"half to two thirds of drilling (K3); {base.source}")
    if operation == "threading":
        base = _table().get((material, "turning", tool))
        return base and base.share(
            THREADING, f"a quarter to a third of turning (common practice); {base.source}"
        )
    return _table().get((material, operation, tool))
