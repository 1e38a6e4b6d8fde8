"""What the builder decides about rods and balance weights."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import check_sizes, size
from ..trade.materials import MATERIALS


@dataclass(frozen=True, kw_only=True)
class CouplingRods:
    """The coupling rods; thickness and pins belong to the wheels."""

    title: ClassVar[str] = "Coupling rods"
    depth: float | None = size(
        "Coupling rod, depth", low=0.5, high=120, default=None, main=True,
        help="between the eyes; left empty: 0.8 of the axle's diameter",
    )  # fmt: skip
    eye: float | None = size(
        "Coupling rod, eye over its bush", low=1, high=200, default=None,
        help="left empty: twice the crankpin",
    )  # fmt: skip
    material: str = size("Rods, of", "choice", choices=MATERIALS, default="mild steel")

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Rods:
    """The chapter's decisions."""

    coupling: CouplingRods = CouplingRods()

    def __post_init__(self) -> None:
        check_sizes(self)
