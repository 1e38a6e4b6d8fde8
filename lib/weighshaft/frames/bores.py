"""The bores of eyes, bushes, wheels and sheaves, as the parts of the engine have them."""

from __future__ import annotations

from collections import defaultdict

from .solids import Bar
from .whole import Whole


def bores_of(whole: Whole, *, wheels: bool = True) -> dict[float, list[str]]:
    """Return the bores (mm) with the parts that they are in, the smallest first.

    Parameters
    ----------
    wheels : whether those of wheels count, which are better bored than reamed.
    """
    found: dict[float, list[str]] = defaultdict(list)
    for part in whole.parts:
        if part.kind == "wheels" and not wheels:
            continue
        for one in part.solids:
            if isinstance(one, Bar) and one.bore and part.name not in found[round(one.bore, 3)]:
                found[round(one.bore, 3)].append(part.name)
    return dict(sorted((bore, what) for bore, what in found.items() if what))
