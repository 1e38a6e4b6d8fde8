"""How much metals grow when they get hot."""

from __future__ import annotations

from functools import cache

from .tables import rows


@cache
def _table() -> dict[str, float]:
    return {row["name"]: float(row["alpha_per_K"]) for row in rows("expansion")}


def expansion(name: str) -> float:
    """Return the coefficient of linear expansion of a metal of `MATERIALS`, per degree.

    Source: `data/expansion.csv`, with the sources in the README beside it.
    """
    return _table()[name]
