"""The machines and tools that the builder has.

A list that is empty has not been told: nothing is then judged by it.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import ClassVar

from ...sizes import SizeError, check_sizes, size
from ...trade.materials import MATERIALS
from ...trade.threads import UnknownThread, thread

WHEELS = (20, 25, 30, 35, 38, 40, 45, 50, 55, 60, 65)
"""Change wheels of a small lathe; common practice."""
HEAD_WHEELS = (24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)
"""Change wheels that come with a universal dividing head; from memory of its tables."""
PLATES = (15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49)
"""Hole circles of the three plates that come with many dividing heads; common practice."""


@dataclass(frozen=True, kw_only=True)
class Lathe:
    """The lathe, its screws and its change wheels."""

    title: ClassVar[str] = "Lathe"
    leadscrew: float = size(
        "Lathe leadscrew, pitch", low=0.5, high=25, default=25.4 / 8, main=True,
        help="1/8 in is 8 threads an inch",
    )  # fmt: skip
    change_wheels: tuple[int, ...] = size(
        "Change wheels owned", "count", 10, 200, default=WHEELS, main=True,
        help="teeth of each; write a wheel twice that you have twice; none: not told",
    )  # fmt: skip
    wheel_module: float = size(
        "Change wheels, module", low=0.3, high=5, default=1.27,
        help="pitch diameter over teeth; 20 diametral pitch is 1.27 mm",
    )  # fmt: skip
    stud: float = size(
        "Change wheel's stud with its nut, diameter", low=3, high=60, default=16.0,
        help="what the next wheel has to pass",
    )  # fmt: skip
    stud_turns: float = size(
        "First change wheel, turns for one of the spindle", "ratio", 0.1, 10, default=1.0,
        help="through the tumbler; 0.5 on some lathes",
    )  # fmt: skip
    train_centres: float | None = size(
        "First change wheel to leadscrew, between centres", low=20, high=600, default=None,
        help="left empty: whether a train reaches is not looked at",
    )  # fmt: skip
    cross_slide: float = size("Cross-slide, travel for a turn", low=0.2, high=10, default=2.54)
    cross_divisions: int = size("Cross-slide, divisions on its dial", "count", 5, 500, default=100)
    topslide: float = size("Top slide, travel for a turn", low=0.2, high=10, default=2.54)
    topslide_divisions: int = size("Top slide, divisions on its dial", "count", 5, 500, default=100)
    speeds: tuple[float, ...] = size(
        "Lathe spindle speeds", "rev/min", 5, 10_000,
        default=(35.0, 62.0, 110.0, 200.0, 350.0, 620.0, 1100.0, 2000.0),
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)

    @property
    def wheels(self) -> tuple[int, ...]:
        """Change wheels owned; those that are usual where they have not been told."""
        return self.change_wheels or WHEELS


@dataclass(frozen=True, kw_only=True)
class Mill:
    """The milling machine or the vertical slide."""

    title: ClassVar[str] = "Mill or vertical slide"
    table: float = size("Mill, travel for a turn of a handwheel", low=0.2, high=10, default=2.0)
    divisions: int = size("Mill, divisions on a dial", "count", 5, 500, default=100)
    cutters: tuple[float, ...] = size(
        "End mills and slot drills owned", low=0.2, high=40,
        default=(1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0),
    )  # fmt: skip
    speeds: tuple[float, ...] = size(
        "Mill spindle speeds", "rev/min", 5, 30_000,
        default=(200.0, 400.0, 700.0, 1200.0, 1800.0, 2500.0),
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Dividing:
    """Dividing head and rotary table."""

    title: ClassVar[str] = "Dividing head and rotary table"
    head_ratio: int = size(
        "Dividing head, turns of the handle for one", "count", 1, 360, default=40
    )
    plates: tuple[int, ...] = size(
        "Hole circles of the dividing plates", "count", 3, 200, default=PLATES
    )
    on_plate: int = size(
        "Hole circles on one plate", "count", 1, 20, default=6,
        help="those above are taken plate by plate, in their order",
    )  # fmt: skip
    head_wheels: tuple[int, ...] = size(
        "Change wheels of the dividing head", "count", 10, 200, default=HEAD_WHEELS,
        help="to gear the plate to the work; empty for a head that cannot be geared",
    )  # fmt: skip
    table_ratio: int = size(
        "Rotary table, turns of the handle for one", "count", 1, 360, default=72
    )
    table_divisions: int = size("Rotary table, divisions on its dial", "count", 5, 600, default=100)

    def __post_init__(self) -> None:
        check_sizes(self)

    @property
    def circles(self) -> tuple[int, ...]:
        """Circles of the plates owned; those that are usual where they have not been told."""
        return self.plates or PLATES


ROUND, HEXAGON, FLAT, TUBE, PLATE = "round bar", "hexagon bar", "flat bar", "tube", "plate"
SHAPES = (ROUND, HEXAGON, FLAT, TUBE, PLATE)


@dataclass(frozen=True, kw_only=True)
class Tools:
    """Taps, dies and reamers, one by one."""

    title: ClassVar[str] = "Taps, dies and reamers"
    taps: tuple[str, ...] = size(
        "Taps owned", "text", default=(), first="M3",
        help="threads such as 8BA, 5/32 × 40, M3; none: not told",
    )  # fmt: skip
    dies: tuple[str, ...] = size(
        "Dies owned", "text", default=(), first="M3",
        help="threads such as 8BA, 5/32 × 40, M3; none: not told",
    )  # fmt: skip
    reamers: tuple[float, ...] = size(
        "Reamers owned", low=0.5, high=60, default=(), first=6.0, help="none: not told"
    )

    def __post_init__(self) -> None:
        check_sizes(self)
        for one in fields(self):
            about = one.metadata["size"]
            if about.unit != "text":
                continue
            for name in getattr(self, one.name):
                try:
                    thread(name)
                except UnknownThread as refused:
                    raise SizeError(f"{about.label}: {refused}", one.name) from refused


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A length of metal in the rack, or several alike."""

    title: ClassVar[str] = "Piece in the rack"
    shape: str = size("Shape of the piece", "choice", default=ROUND, choices=SHAPES)
    metal: str = size("Metal of the piece", "choice", default="mild steel", choices=MATERIALS)
    across: float = size(
        "Diameter, across flats, or thickness", low=0.2, high=300, default=10.0,
        help="outside diameter of a tube; thickness of a flat bar or a plate",
    )  # fmt: skip
    second: float | None = size(
        "Wall of a tube, or width of a flat or plate", low=0.1, high=2000, default=None,
        help="left empty, nothing is cut from a tube, a flat bar or a plate",
    )  # fmt: skip
    length: float = size("Length of the piece", low=5, high=6000, default=330.0)
    number: int = size("Pieces alike", "count", 1, 500, default=1)

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.shape == TUBE and self.second is not None and self.second >= self.across / 2:
            raise SizeError(
                f"Wall of a tube: {self.second:g} mm leaves no bore in {self.across:g} mm; less "
                f"than {self.across / 2:g} mm would do.", "second",
            )  # fmt: skip

    @property
    def told(self) -> str:
        """What it is, for its heading."""
        second = "" if self.second is None else f" × {self.second:.4g} mm"
        number = f"{self.number} of " if self.number > 1 else ""
        return (
            f"{number}{self.shape}, {self.metal}, {self.across:.4g} mm{second}, "
            f"{self.length:.5g} mm long"
        )


@dataclass(frozen=True, kw_only=True)
class Rack:
    """Bar, tube and plate: what is there, what can be had, what sawing and facing take."""

    title: ClassVar[str] = "Metal in the rack"
    lengths: tuple[float, ...] = size(
        "Bars and tubes come in lengths of", low=20, high=6000, default=(330.0, 1000.0),
        help="what the supplier cuts, or what lies in the rack; common practice",
    )  # fmt: skip
    parting: float = size("Saw or parting tool takes", low=0.3, high=8, default=2.0)
    facing: float = size("Left on a bar for facing, each end", low=0, high=10, default=1.0)
    edge: float = size("Left on a plate for filing, each edge", low=0, high=20, default=1.5)
    pieces: tuple[Piece, ...] = ()

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Machines:
    """The chapter's decisions."""

    lathe: Lathe = Lathe()
    mill: Mill = Mill()
    dividing: Dividing = Dividing()
    tools: Tools = Tools()
    rack: Rack = Rack()

    def __post_init__(self) -> None:
        check_sizes(self)
        if not self.rack.lengths:
            raise SizeError(
                "Bars and tubes come in lengths of: at least one is needed.", "rack.lengths"
            )
