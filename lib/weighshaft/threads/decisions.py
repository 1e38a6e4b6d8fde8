"""What the builder decides of threads and fittings.

A thread that is left empty is proposed; see `proposals`.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any, ClassVar

from ..sizes import SizeError, check_sizes, size
from ..trade.drills import SETS, NoDrill
from ..trade.drills import owned as drill_owned
from ..trade.materials import JOINTINGS, MATERIALS, SEALINGS
from ..trade.threads import UnknownThread, thread

PREFERRED = ("model engineer", "BA", "metric", "unified")
CONVENTIONS = ("tap chart", "basic height", "external depth")
HANDS = ("both right-hand", "one left-hand")

THREAD_HELP = "Such as 8BA, 5/32 × 40, 1/4 BSF, M3, 4-40; leave empty for the proposal."


def check_threads(group: object, but: tuple[str, ...] = ()) -> None:
    """Refuse a designation that is in no table, naming the field.

    Parameters
    ----------
    but : names of fields whose text is no thread.
    """
    for one in fields(group):  # type: ignore[arg-type]
        about, value = one.metadata.get("size"), getattr(group, one.name)
        if about is None or about.unit != "text" or not value or one.name in but:
            continue
        try:
            thread(value)
        except UnknownThread as refused:
            raise SizeError(f"{about.label}: {refused}", one.name) from refused


@dataclass(frozen=True, kw_only=True)
class Rack:
    """The sets of drills that the builder owns, and single drills beyond them or instead."""

    title: ClassVar[str] = "Drills in the rack"

    metric: bool = size("Metric drills", "yes/no", default=True)
    number: bool = size("Number drills", "yes/no", default=True)
    letter: bool = size("Letter drills", "yes/no", default=True)
    fraction: bool = size("Fraction drills", "yes/no", default=True)
    singles: tuple[str, ...] = size(
        "Single drills owned", "text", default=(), first="3.3 mm",
        help="beyond the sets, or instead of them: 3.3 mm, No. 50, F, 5/32 in",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)
        for name in self.singles:
            try:
                drill_owned(name)
            except NoDrill as refused:
                raise SizeError(f"Single drills owned: {refused}", "singles") from refused
        if not self.sets:
            raise SizeError(
                "Drills in the rack: at least one set or one single drill is needed.", "metric"
            )

    @property
    def sets(self) -> tuple[str, ...]:
        """Return the names of the sets that are there, and of the single drills."""
        return (*(one for one in SETS if getattr(self, one)), *self.singles)

    @property
    def whole(self) -> bool:
        """Whether every set is ticked: then nothing has been told of what is missing."""
        return all(getattr(self, one) for one in SETS)


def _metal(label: str, usual: str) -> Any:
    return size(label, "choice", default=usual, choices=MATERIALS)


def _designation() -> Any:
    return size("Thread", "text", default=None, help=THREAD_HELP)


def _engagement() -> Any:
    return size(
        "Length of thread engaged", low=0.5, high=60, default=None, help="Empty: the proposal."
    )


@dataclass(frozen=True, kw_only=True)
class Joint:
    """One screwed joint: a male part of one metal in a female one of another."""

    title: ClassVar[str] = "Joint"

    designation: str | None = _designation()
    engagement: float | None = _engagement()
    male: str = _metal("Metal of the male part", "mild steel")
    female: str = _metal("Metal tapped", "mild steel")

    def __post_init__(self) -> None:
        check_sizes(self)
        check_threads(self)


@dataclass(frozen=True, kw_only=True)
class PistonRod:
    """The piston rod screwed into the crosshead; the cylinders decide its thread."""

    title: ClassVar[str] = "Piston rod into crosshead"

    male: str = _metal("Metal of the piston rod", "stainless steel")
    female: str = _metal("Metal of the crosshead", "mild steel")

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class PistonHead:
    """The other end of the same rod, screwed into the piston."""

    title: ClassVar[str] = "Piston rod into piston"

    designation: str | None = _designation()
    engagement: float | None = _engagement()
    female: str = _metal("Metal of the piston", "bronze")

    def __post_init__(self) -> None:
        check_sizes(self)
        check_threads(self)


@dataclass(frozen=True, kw_only=True)
class ValveSpindle(Joint):
    """The valve spindle screwed into its fork or nut."""

    title: ClassVar[str] = "Valve spindle into fork"

    diameter: float | None = size(
        "Valve spindle, diameter",
        low=0.8,
        high=15,
        default=None,
        help="Empty: from the piston rod.",
    )
    male: str = _metal("Metal of the spindle", "stainless steel")


@dataclass(frozen=True, kw_only=True)
class Bored(Joint):
    """A joint whose male part is bored through."""

    hole: float | None = size(
        "Hole through the male part", low=0.5, high=40, default=None, help="Empty: the proposal."
    )
    male: str = _metal("Metal of the male part", "brass")
    female: str = _metal("Metal tapped", "gunmetal")


@dataclass(frozen=True, kw_only=True)
class PistonGland(Bored):
    """The gland that presses the packing on the piston rod."""

    title: ClassVar[str] = "Piston-rod gland"


@dataclass(frozen=True, kw_only=True)
class ValveGland(Bored):
    """The gland that presses the packing on the valve spindle."""

    title: ClassVar[str] = "Valve-spindle gland"


@dataclass(frozen=True, kw_only=True)
class Connection(Bored):
    """A pipe connection: bored, sealed, hot."""

    sealing: str = size("Made tight with", "choice", default="copper washer", choices=SEALINGS)
    temperature: float = size("Hottest that it gets", "degC", 20, 800, default=200.0)


@dataclass(frozen=True, kw_only=True)
class Steam(Connection):
    """The steam pipe into the steam chest."""

    title: ClassVar[str] = "Steam connection"


@dataclass(frozen=True, kw_only=True)
class Exhaust(Connection):
    """The exhaust pipe out of the cylinder."""

    title: ClassVar[str] = "Exhaust connection"

    temperature: float = size("Hottest that it gets", "degC", 20, 800, default=150.0)


@dataclass(frozen=True, kw_only=True)
class Nozzle(Connection):
    """The blast nozzle on its pipe, in the smokebox."""

    title: ClassVar[str] = "Blast nozzle on its pipe"

    sealing: str = size("Made tight with", "choice", default="none", choices=SEALINGS)
    temperature: float = size("Hottest that it gets", "degC", 20, 800, default=350.0)
    female: str = _metal("Metal tapped", "brass")


@dataclass(frozen=True, kw_only=True)
class CoverScrews:
    """The screws of one cylinder cover; the cylinders decide thread, number and circle."""

    title: ClassVar[str] = "Cylinder-cover screws"

    engagement: float | None = _engagement()
    male: str = _metal("Metal of the screws", "mild steel")
    female: str = _metal("Metal of the cylinder", "gunmetal")
    jointing: str = size("Cover joint", "choice", default="oiled paper", choices=JOINTINGS)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class ChestStuds(CoverScrews):
    """The studs of a steam chest; the cylinders decide thread, number and line."""

    title: ClassVar[str] = "Steam-chest studs"


@dataclass(frozen=True, kw_only=True)
class Connector:
    """A connector screwed into two ports that stand at a fixed distance."""

    title: ClassVar[str] = "Connector between two ports"

    thread_a: str = size("Thread at end A", "text", default="1/4 × 40")
    thread_b: str | None = size(
        "Thread at end B", "text", default=None, help="Empty: the same as end A."
    )
    hands: str = size("Hands of the threads", "choice", default=HANDS[0], choices=HANDS)
    distance: float | None = size(
        "Port faces apart", low=1, high=500, default=None, help="As the frames fix them."
    )
    length: float | None = size("Connector between its shoulders", low=1, high=500, default=None)
    start: float | None = size(
        "Turn still to go when end B comes up tight", "deg", 0, 360, default=None,
        help="With A tight, run the part at B up to the shoulder: how far short of upright is it?",
    )  # fmt: skip
    clearance: float = size("Slack of the threads on diameter", low=0, high=0.5, default=0.05)
    shift: float = size("Shift wanted", low=0, high=10, default=0.1)

    def __post_init__(self) -> None:
        check_sizes(self)
        check_threads(self)
        if not self.thread_a:
            raise SizeError("Thread at end A: a thread is needed, such as 1/4 × 40.", "thread_a")


@dataclass(frozen=True, kw_only=True)
class Threads:
    """The chapter's decisions."""

    chosen: str = size("Thread on the bench", "text", default="1/4 × 40", main=True)
    material: str = size(
        "Metal to be tapped on the bench", "choice", default="brass", main=True, choices=MATERIALS
    )
    depth: float | None = size(
        "Depth of thread wanted", "%", 40, 100, default=None, main=True,
        help="Empty: as usual for the metal.",
    )  # fmt: skip
    preferred: str = size(
        "Threads preferred", "choice", default=PREFERRED[0], main=True, choices=PREFERRED
    )
    convention: str = size(
        "Full depth is counted as in", "choice", default=CONVENTIONS[0], choices=CONVENTIONS,
        help="60° threads only: 1.299, 1.083 or 1.227 pitches on diameter.",
    )  # fmt: skip
    prototype_hexagon: float | None = size(
        "Hexagon of the prototype, across flats, full size", low=5, high=150, default=None
    )
    rack: Rack = Rack()
    piston_rod: PistonRod = PistonRod()
    piston_head: PistonHead = PistonHead()
    valve_spindle: ValveSpindle = ValveSpindle()
    piston_gland: PistonGland = PistonGland()
    valve_gland: ValveGland = ValveGland()
    covers: CoverScrews = CoverScrews()
    chest: ChestStuds = ChestStuds()
    steam: Steam = Steam()
    exhaust: Exhaust = Exhaust()
    nozzle: Nozzle = Nozzle()
    connector: Connector = Connector()

    def __post_init__(self) -> None:
        check_sizes(self)
        check_threads(self)
        if not self.chosen:
            raise SizeError("Thread on the bench: a thread is needed, such as 1/4 × 40.", "chosen")
