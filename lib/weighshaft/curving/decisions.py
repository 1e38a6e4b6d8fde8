"""What the builder decides about trucks and curves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import check_sizes, size

TRUCKS = ("pony truck", "bogie", "radial axle", "rigid axle")


@dataclass(frozen=True, kw_only=True)
class Truck:
    """A leading or trailing truck; its distance from the coupled axles belongs to the wheels."""

    title: ClassVar[str] = "Truck"
    kind: str = size("Truck", "choice", choices=TRUCKS, default="pony truck")
    wheel: float | None = size(
        "Truck wheels, over the tread", low=3, high=400, default=None,
        help="left empty: the prototype's at scale, else 0.6 of the driving wheel",
    )  # fmt: skip
    wheelbase: float | None = size(
        "Bogie wheelbase", low=5, high=800, default=None,
        help="of a bogie, about the place that Wheels gives; left empty: twice its wheel",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Curving:
    """The chapter's decisions."""

    leading: Truck = Truck()
    trailing: Truck = Truck()

    def __post_init__(self) -> None:
        check_sizes(self)
