"""Young's moduli of the metals of a small locomotive."""

from __future__ import annotations

from functools import cache

from .tables import rows


@cache
def _moduli() -> dict[str, float]:
    return {row["name"]: float(row["young_N_mm2"]) for row in rows("moduli")}


def young(name: str) -> float:
    """Return Young's modulus in N/mm2; KeyError when it is not one of `materials.MATERIALS`."""
    return _moduli()[name]
