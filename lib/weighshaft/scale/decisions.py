"""Decisions of the chapter: the prototype as far as known, the scale and the track."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size

_ARRANGEMENT = re.compile(r"\s*(\d{1,2})\s*-\s*(\d{1,2})\s*-\s*(\d{1,2})\s*[A-Za-z]{0,4}\s*")


@dataclass(frozen=True, kw_only=True)
class Outline:
    """What a side elevation needs beyond the leading particulars; unknown stays None.

    Lengths along the engine are counted from the front buffer beam backwards, heights
    from the rail.
    """

    title: ClassVar[str] = "Outline of the prototype"

    front_overhang: float | None = size(
        "Front buffer beam to the first axle", low=0, high=8000, default=None
    )
    leading_gap: float | None = size(
        "Last leading axle to the first coupled axle", low=100, high=8000, default=None
    )
    carrying_wheel: float | None = size("Carrying wheel diameter", low=100, high=2000, default=None)
    buffer_height: float | None = size(
        "Height of the buffer centres", low=100, high=1500, default=None
    )
    boiler_centre: float | None = size(
        "Height of the boiler centre", low=200, high=4000, default=None
    )
    smokebox_front: float | None = size(
        "Front buffer beam to the smokebox front", low=0, high=8000, default=None
    )
    boiler_length: float | None = size(
        "Smokebox front to the cab front", low=200, high=20_000, default=None
    )
    chimney_position: float | None = size(
        "Smokebox front to the chimney centre", low=50, high=4000, default=None
    )
    chimney_diameter: float | None = size(
        "Chimney diameter outside", low=40, high=1500, default=None
    )
    cab_length: float | None = size("Length of the cab", low=200, high=6000, default=None)
    cab_height: float | None = size("Height of the cab roof", low=500, high=5000, default=None)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class AsBuilt:
    """Sizes that the model keeps apart from the scale; None follows the scale."""

    title: ClassVar[str] = "Sizes of the model that differ from scale"

    length: float | None = size("Model, length over buffers", low=20, high=8000, default=None)
    width: float | None = size("Model, greatest width", low=10, high=1000, default=None)
    height: float | None = size(
        "Model, height of the chimney top above the rail", low=10, high=1500, default=None
    )
    boiler_diameter: float | None = size("Model, boiler diameter", low=5, high=800, default=None)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Prototype:
    """Dimensions of the full-size engine as far as known; unknown stays None."""

    title: ClassVar[str] = "Prototype"

    gauge: float = size("Track gauge", low=150, high=3000, main=True)
    driving_wheel: float | None = size(
        "Driving wheel diameter", low=100, high=3000, default=None, main=True
    )
    arrangement: str = size(
        "Wheel arrangement", "text", default="", help="leading, coupled and trailing, as 2-6-0"
    )
    coupled_wheelbase: float | None = size("Coupled wheelbase", low=0, high=12000, default=None)
    total_wheelbase: float | None = size("Total wheelbase", low=0, high=40000, default=None)
    bore: float | None = size("Cylinder bore", low=20, high=1500, default=None)
    stroke: float | None = size("Piston stroke", low=20, high=1500, default=None)
    cylinders: int = size("Number of cylinders, full size", "count", 1, 4, default=2)
    pressure: float | None = size("Boiler pressure", "bar", 0.5, 30, default=None)
    weight: float | None = size("Weight in working order", "kg", 50, 600_000, default=None)
    length: float | None = size("Length over buffers", low=500, high=50_000, default=None)
    width: float | None = size("Greatest width", low=300, high=4000, default=None)
    height: float | None = size("Height of the chimney top", low=300, high=6000, default=None)
    boiler_diameter: float | None = size("Boiler diameter", low=100, high=3000, default=None)
    speed: float | None = size("Usual greatest speed", "km/h", 1, 250, default=None)
    outline: Outline = Outline()

    def __post_init__(self) -> None:
        check_sizes(self)
        self.wheels()
        if (
            self.coupled_wheelbase is not None
            and self.total_wheelbase is not None
            and self.coupled_wheelbase > self.total_wheelbase + 1e-6
        ):
            raise SizeError(
                f"Coupled wheelbase: {self.coupled_wheelbase:g} mm is more than the total "
                f"wheelbase of {self.total_wheelbase:g} mm; that much or less would do.",
                "coupled_wheelbase",
            )

    def wheels(self) -> tuple[int, int, int] | None:
        """Return leading, coupled and trailing axles, or None where no arrangement is given.

        Raises
        ------
        SizeError : when the arrangement is not three even numbers.
        """
        if not self.arrangement.strip():
            return None
        found = _ARRANGEMENT.fullmatch(self.arrangement)
        if found is None or any(int(n) % 2 for n in found.groups()) or int(found[2]) < 2:
            raise SizeError(
                f"Wheel arrangement: “{self.arrangement[:20]}” is not understood; wheels counted "
                "as 0-4-0, 2-6-2T or 4-4-0 would do.",
                "arrangement",
            )
        leading, coupled, trailing = (int(n) // 2 for n in found.groups())
        return leading, coupled, trailing


@dataclass(frozen=True, kw_only=True)
class Scale:
    """The chapter's decisions: the prototype, the scale and the track of the model."""

    prototype: Prototype
    ratio: float = size("Scale", "scale", 1, 200, main=True)
    track_gauge: float = size("Track gauge of the model", low=6, high=400, main=True)
    running_speed: float | None = size(
        "Speed at which the model is run", "km/h", 0.2, 40, default=None, main=True,
        help="empty takes the scale speed of the prototype",
    )  # fmt: skip
    as_built: AsBuilt = AsBuilt()

    def __post_init__(self) -> None:
        check_sizes(self)
