"""Relations of the chapter that are shown as working."""

from __future__ import annotations

from typing import Any

from ..working import log, relation, sqrt


@relation(r"\sigma", "evenly spread within plus or minus a: a over the root of 3; JCGM 100:2008, "
          "4.3.7", within="a", spread="b")  # fmt: skip
def log_deviation(within: Any, spread: Any) -> Any:
    """Standard deviation of the logarithm of a reading good to a part, by a reckoning likewise."""
    return sqrt(log(1 + within) ** 2 + log(1 + spread) ** 2) / sqrt(3)
