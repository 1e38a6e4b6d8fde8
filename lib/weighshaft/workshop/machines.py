"""The machines and tools that the builder has."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..findings import Finding, Suggestion
from ..sizes import SizeError, check_sizes, figure, size
from ..working import Working

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
        help="teeth of each; write a wheel twice that you have twice",
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


@dataclass(frozen=True, kw_only=True)
class Rack:
    """Bar, tube and plate, and what sawing and facing take of them."""

    title: ClassVar[str] = "Metal in the rack"
    lengths: tuple[float, ...] = size(
        "Bars and tubes come in lengths of", low=20, high=6000, default=(330.0, 1000.0),
        help="what the supplier cuts, or what lies in the rack; common practice",
    )  # fmt: skip
    parting: float = size("Saw or parting tool takes", low=0.3, high=8, default=2.0)
    facing: float = size("Left on a bar for facing, each end", low=0, high=10, default=1.0)
    edge: float = size("Left on a plate for filing, each edge", low=0, high=20, default=1.5)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Machines:
    """The chapter's decisions."""

    lathe: Lathe = Lathe()
    mill: Mill = Mill()
    dividing: Dividing = Dividing()
    rack: Rack = Rack()

    def __post_init__(self) -> None:
        check_sizes(self)
        if not self.lathe.change_wheels:
            raise SizeError("Change wheels owned: at least two are needed.", "lathe.change_wheels")
        if not self.rack.lengths:
            raise SizeError(
                "Bars and tubes come in lengths of: at least one is needed.", "rack.lengths"
            )


@dataclass(frozen=True, kw_only=True)
class MachinesResult:
    """What one division of every dial moves."""

    cross_division: float = figure("Cross-slide, one division", main=True)
    top_division: float = figure("Top slide, one division", main=True)
    mill_division: float = figure("Mill, one division", main=True)
    handle_turn: float = figure("Dividing head, one turn of the handle", "deg", main=True)
    table_division: float = figure("Rotary table, one division", "deg", main=True)
    wheels: int = figure("Change wheels owned", "count")
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()


def work(machines: Machines, *, fixed: frozenset[str] = frozenset()) -> MachinesResult:
    """Return what one division of every dial moves.

    Parameters
    ----------
    fixed : has no say here.
    """
    lathe, mill, dividing = machines.lathe, machines.mill, machines.dividing
    return MachinesResult(
        cross_division=lathe.cross_slide / lathe.cross_divisions,
        top_division=lathe.topslide / lathe.topslide_divisions,
        mill_division=mill.table / mill.divisions,
        handle_turn=360 / dividing.head_ratio,
        table_division=360 / dividing.table_ratio / dividing.table_divisions,
        wheels=len(lathe.change_wheels),
    )
