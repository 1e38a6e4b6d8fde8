"""What the builder decides about holes, ports and tapers to be set out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ...sizes import SizeError, check_sizes, size

ENGINES = "left empty: the engine's"


@dataclass(frozen=True, kw_only=True)
class Circle:
    """Holes on a circle: a cover's, or any."""

    title: ClassVar[str] = "Holes on a circle"
    holes: int | None = size(
        "Holes on the circle", "count", 2, 60, default=None, main=True,
        help="left empty: the screws of a cylinder cover",
    )  # fmt: skip
    diameter: float | None = size(
        "Circle of holes, diameter", low=1, high=1000, default=None, main=True,
        help="through the centres; left empty: the cover's",
    )  # fmt: skip
    hole: float | None = size(
        "Hole on the circle, diameter", low=0.3, high=60, default=None,
        help="left empty: the thread of the cover",
    )  # fmt: skip
    start: float | None = size(
        "First hole on the circle, from the right", "deg", -360, 360, default=None, main=True,
        help="anticlockwise; left empty: what keeps the holes furthest from the passages",
    )  # fmt: skip
    depth: float | None = size(
        "Holes on the circle, depth", low=0.5, high=200, default=None,
        help="what of the passages lies deeper is out of their way; left empty: two and a half "
        "diameters",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Row:
    """Holes in a straight line."""

    title: ClassVar[str] = "Holes in a line"
    holes: int = size("Holes in the line", "count", 2, 200, default=5)
    length: float = size("Line of holes, first to last", low=0.5, high=5000, default=60.0)
    first: float = size(
        "Edge to the first hole of the line", low=0, high=2000, default=5.0, help="along the line"
    )
    slope: float = size(
        "Line of holes, slope", "deg", -180, 180, default=0.0,
        help="anticlockwise from the table's length",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Face:
    """Ports as milled; their sizes belong to the motion."""

    title: ClassVar[str] = "Ports as milled"
    cutter: float | None = size(
        "Cutter for the steam ports, diameter", low=0.2, high=40, default=None, main=True,
        help="left empty: the largest owned that goes in",
    )  # fmt: skip
    exhaust_cutter: float | None = size(
        "Cutter for the exhaust port, diameter", low=0.2, high=40, default=None,
        help="left empty: the largest owned that goes in",
    )  # fmt: skip
    depth: float | None = size(
        "Ports milled, depth", low=0.3, high=60, default=None,
        help="left empty: one and a half widths of the steam port",
    )  # fmt: skip
    edge: float = size(
        "End of the cylinder to the middle of the ports", low=0, high=500, default=0.0,
        help="where coordinates begin; 0: from the middle itself",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Chest:
    """Studs round the chest."""

    title: ClassVar[str] = "Studs round the chest"
    length: float | None = size(
        "Chest, inside along the cylinder", low=1, high=500, default=None,
        help="left empty: what the valve needs",
    )  # fmt: skip
    width: float | None = size(
        "Chest, inside across the cylinder", low=1, high=500, default=None,
        help="left empty: the valve and its clearance",
    )  # fmt: skip
    wall: float | None = size(
        "Chest wall, thickness", low=0.5, high=60, default=None,
        help="left empty: two and a half studs",
    )  # fmt: skip
    stud: float | None = size(
        "Studs of the chest, diameter", low=0.5, high=30, default=None,
        help="left empty: as the cover's thread",
    )  # fmt: skip
    along: int | None = size(
        "Studs along each long side", "count", 2, 30, default=None,
        help="corners counted; left empty: the engine's",
    )  # fmt: skip
    across: int | None = size(
        "Studs along each short side", "count", 2, 30, default=None,
        help="corners counted; left empty: the engine's",
    )  # fmt: skip
    depth: float | None = size(
        "Studs of the chest, depth in the face", low=0.5, high=60, default=None,
        help="left empty: two diameters",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Slant:
    """Steam passages at a slant from the bore's end to the port."""

    title: ClassVar[str] = "Passages at a slant"
    face_height: float | None = size(
        "Port face above the bore's axis", low=2, high=500, default=None, main=True,
        help="left empty: what makes the passage as long as Cylinders has it",
    )  # fmt: skip
    begins: float | None = size(
        "Passage begins in the bore, from the end face", low=0, high=60, default=None,
        help="left empty: at the end of the cover's spigot",
    )  # fmt: skip
    spread: float | None = size(
        "Passage holes of one end, apart", low=0.3, high=100, default=None,
        help="across the cylinder; left empty: spread over the port",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Taper:
    """A taper to be turned, and the coning of the treads."""

    title: ClassVar[str] = "Tapers"
    large: float = size("Taper, large diameter", low=0.2, high=500, default=12.0)
    small: float = size("Taper, small diameter", low=0, high=500, default=10.0)
    length: float = size("Taper, length", low=0.2, high=1000, default=40.0)
    between: float = size("Work between centres, length", low=1, high=2000, default=100.0)
    coning: float | None = size(
        "Coning of the treads", "deg", 0, 15, default=None, main=True,
        help="of the tread to the axle; left empty: the standard's, else 1 in 20",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.small >= self.large:
            raise SizeError(
                f"Taper, small diameter: {self.small:g} mm is no less than the large one of "
                f"{self.large:g} mm; less than that would do.", "small",
            )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Ball:
    """A ball or a radius turned by increments."""

    title: ClassVar[str] = "Balls and radii by increments"
    radius: float = size("Ball or radius to be turned", low=0.2, high=200, default=5.0)
    stem: float = size(
        "Stem behind the ball, diameter", low=0, high=400, default=4.0,
        help="0: down to the middle of the ball only, as for a rounded end",
    )  # fmt: skip
    step: float = size(
        "Increment along the lathe", low=0.01, high=10, default=0.25, help="of the saddle"
    )
    ridge: float = size("Ridge allowed on the ball", low=0.0005, high=2, default=0.1)

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.stem >= 2 * self.radius:
            raise SizeError(
                f"Stem behind the ball, diameter: {self.stem:g} mm is no less than the ball of "
                f"{2 * self.radius:g} mm; less than that would do.", "stem",
            )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Patterns:
    """The chapter's decisions."""

    circle: Circle = Circle()
    slant: Slant = Slant()
    face: Face = Face()
    chest: Chest = Chest()
    row: Row = Row()
    taper: Taper = Taper()
    ball: Ball = Ball()

    def __post_init__(self) -> None:
        check_sizes(self)
