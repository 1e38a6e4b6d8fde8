"""What the builder decides about soldered and glued joints, glands and rings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ...fits import COMPOUNDS
from ...sizes import SizeError, check_sizes, size
from ...threads.decisions import check_threads
from ...trade.brazing import ALLOYS, BRAZED
from ...trade.materials import MATERIALS
from ...trade.seals import ELASTOMERS, MOVING, SECTIONS, STILL

PACKING, O_RING, IRON_RINGS = "soft packing", "O-ring", "iron rings"
BRAZED_IN, SCREWED_IN, IN_ONE = "brazed in", "screwed in", "in one with the body"
FIXINGS = (BRAZED_IN, SCREWED_IN, IN_ONE)
IN_PISTON, IN_GLAND = "in a piston, against the bore", "in a gland, against the rod"


@dataclass(frozen=True, kw_only=True)
class Pipe:
    """The connector between two ports, as a piece to be made."""

    title: ClassVar[str] = "Connector as a piece"
    washer: float = size(
        "Washer under each shoulder, when tight", low=0, high=5, default=0.0,
        help="0: shoulder on the face",
    )  # fmt: skip
    engaged_a: float | None = size(
        "End A goes into its port by", low=0.5, high=60, default=None,
        help="left empty: the diameter of its thread",
    )  # fmt: skip
    engaged_b: float | None = size(
        "End B goes into its port by", low=0.5, high=60, default=None,
        help="left empty: the diameter of its thread",
    )  # fmt: skip
    allowance: float = size("Left for parting and facing", low=0, high=20, default=3.0)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Brazed:
    """A spigot soldered or brazed into a bore."""

    title: ClassVar[str] = "Soldered or brazed joint"
    spigot: float = size(
        "Spigot to be soldered in, diameter", low=0.5, high=300, default=12.0, main=True
    )
    overlap: float = size("Spigot in its bore, length", low=0.3, high=200, default=8.0)
    wall: float = size("Thinner of the two walls", low=0.1, high=50, default=1.2)
    inner: str = size("Metal of the spigot", "choice", choices=BRAZED, default="copper")
    outer: str = size("Metal round the spigot", "choice", choices=BRAZED, default="gunmetal")
    alloy: str = size(
        "Solder or brazing alloy", "choice", choices=ALLOYS, default=ALLOYS[0], main=True
    )
    heat: float | None = size(
        "Heat at which it runs", "degC", 150, 1100, default=None,
        help="left empty: 30 degrees above the end of its melting range",
    )  # fmt: skip
    wire: float = size("Solder wire, diameter", low=0.2, high=6, default=1.5)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Bonded:
    """A pin in a bore with retaining compound."""

    title: ClassVar[str] = "Pin held by compound"
    pin: float | None = size(
        "Pin to be bonded, diameter", low=0.5, high=200, default=None,
        help="left empty: the engine's axle",
    )  # fmt: skip
    length: float | None = size(
        "Bond, length", low=0.5, high=200, default=None, help="left empty: one diameter"
    )
    gap: float = size(
        "Gap wanted for the compound, on the diameter", low=0.0, high=0.5, default=0.04
    )
    grade: str = size(
        "Compound for the pin", "choice", choices=tuple(COMPOUNDS), default="permanent"
    )
    inner: str = size("Metal of the pin", "choice", choices=MATERIALS, default="mild steel")
    outer: str = size("Metal round the pin", "choice", choices=MATERIALS, default="cast iron")
    service: float = size("Hottest that the bond gets", "degC", -20, 300, default=80.0)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class RubberRing:
    """An O-ring and its groove."""

    title: ClassVar[str] = "O-ring"
    place: str = size(
        "O-ring is", "choice", choices=(IN_GLAND, IN_PISTON), default=IN_GLAND, main=True
    )
    duty: str = size("O-ring's joint is", "choice", choices=(MOVING, STILL), default=MOVING)
    section: str = size("O-ring, section in mm", "choice", choices=SECTIONS, default=SECTIONS[0])
    on: float | None = size(
        "Diameter that the O-ring seals on", low=1, high=250, default=None,
        help="left empty: the engine's piston rod or bore",
    )  # fmt: skip
    rubber: str = size("O-ring, rubber", "choice", choices=ELASTOMERS, default="EPDM")
    hot: float | None = size(
        "Hottest that the O-ring gets", "degC", -20, 400, default=None,
        help="left empty: the steam in the chest",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Packed:
    """A stuffing box packed with yarn."""

    title: ClassVar[str] = "Packed gland"
    rod: float | None = size(
        "Rod to be packed, diameter", low=0.8, high=80, default=None,
        help="left empty: the engine's piston rod",
    )  # fmt: skip
    yarn: float | None = size(
        "Packing, square section", low=0.3, high=20, default=None,
        help="left empty: what fills the stuffing box, or about 0.3 of the rod",
    )  # fmt: skip
    rings: int | None = size(
        "Rings of packing", "count", 1, 12, default=None,
        help="left empty: one and a half diameters of the rod, or what there is room for",
    )  # fmt: skip
    nose: float | None = size(
        "Gland's nose in the box at first", low=0.2, high=40, default=None,
        help="left empty: one section of the packing",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class IronRings:
    """Rings of cast iron in the piston."""

    title: ClassVar[str] = "Iron piston rings"
    bore: float | None = size(
        "Bore for the rings", low=3, high=250, default=None, help="left empty: the engine's"
    )
    number: int = size("Rings in a piston", "count", 1, 6, default=2)
    pressure: float = size(
        "Rings press on the bore with", "N/mm2", 0.005, 0.5, default=0.035,
        help="0.025 to 0.042 in books of machine design",
    )  # fmt: skip
    stress: float = size(
        "Bending allowed in a ring", "N/mm2", 20, 400, default=90.0,
        help="85 to 110 for cast iron in books of machine design",
    )  # fmt: skip
    radial: float | None = size(
        "Ring, radial depth", low=0.1, high=20, default=None,
        help="left empty: from pressure and bending",
    )  # fmt: skip
    width: float | None = size(
        "Ring, width along the bore", low=0.1, high=20, default=None,
        help="left empty: 0.85 of the radial depth, and a tenth of the bore over the rings",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Branch:
    """One branch of a manifold."""

    title: ClassVar[str] = "Branch"
    name: str = size("Branch", "text", default="branch", help="what it leads to")
    along: float = size(
        "Branch, from the supply end's face", low=0, high=1000, default=10.0,
        help="where its axis meets the body's; one that goes straight on stands at the far end",
    )  # fmt: skip
    clocking: float = size(
        "Branch points to", "deg", -360, 360, default=0.0,
        help="0 is up; clockwise, seen from the supply end",
    )  # fmt: skip
    lean: float = size(
        "Branch, from the way of the flow", "deg", 0, 150, default=90.0,
        help="90 square off, 45 a Y, 0 straight on",
    )  # fmt: skip
    thread: str = size("Branch, thread of its union", "text", default="1/4 × 40")
    flats: float | None = size(
        "Branch, union nut across flats", low=1, high=120, default=None,
        help="left empty: the usual hexagon of the thread",
    )  # fmt: skip
    bore: float | None = size(
        "Branch, bore", low=0.3, high=80, default=None, help="left empty: half of the thread's core"
    )
    reach: float | None = size(
        "Branch, axis of the body to the face that it seats on", low=1, high=600, default=None,
        help="left empty: as short as its nut allows",
    )  # fmt: skip
    washer: float = size(
        "Branch, washer on its seat, when tight", low=0, high=5, default=0.0,
        help="0: cone or face on the seat",
    )  # fmt: skip
    short: float | None = size(
        "Branch, turn still to go when its fitting comes up tight", "deg", 0, 360, default=None,
        help="of an elbow or a cock on it, or of the stub screwed in; measured",
    )  # fmt: skip
    fixing: str = size("Branch is", "choice", choices=FIXINGS, default=BRAZED_IN)

    def __post_init__(self) -> None:
        check_sizes(self)
        check_threads(self, but=("name",))
        if not self.thread:
            raise SizeError(
                "Branch, thread of its union: a thread is needed, such as 1/4 × 40.", "thread"
            )


EXAMPLES = (
    Branch(name="injector", along=12.0, clocking=-90.0),
    Branch(name="blower", along=12.0, clocking=90.0, thread="3/16 × 40"),
    Branch(name="gauge", along=26.0, clocking=0.0, thread="3/16 × 40"),
)
"""A manifold to try the chapter on."""


@dataclass(frozen=True, kw_only=True)
class Manifold:
    """A T, a Y or a manifold: one body with several branches."""

    title: ClassVar[str] = "Manifold"
    made: bool = size(
        "Manifold is made for this engine", "yes/no", default=False,
        help="else it is an example, and not drawn",
    )  # fmt: skip
    bore: float = size("Manifold, bore of the supply", low=0.5, high=100, default=6.0, main=True)
    thread: str = size("Manifold, thread at the supply end", "text", default="3/8 × 32")
    engaged: float | None = size(
        "Manifold goes into its port by", low=0.5, high=60, default=None,
        help="left empty: the diameter of its thread",
    )  # fmt: skip
    short: float | None = size(
        "Manifold, turn still to go when the supply end comes up tight", "deg", 0, 360,
        default=None, help="how far short of upright; measured",
    )  # fmt: skip
    body: float | None = size(
        "Manifold, body diameter", low=1, high=200, default=None,
        help="left empty: the bore with its wall, and the branches' threads",
    )  # fmt: skip
    length: float | None = size(
        "Manifold, body length", low=2, high=1200, default=None,
        help="left empty: a wall behind the last branch",
    )  # fmt: skip
    metal: str = size("Metal of the manifold", "choice", choices=BRAZED, default="gunmetal")
    stub: str = size("Metal of its branches", "choice", choices=BRAZED, default="bronze")
    alloy: str = size(
        "Manifold, solder of its branches", "choice", choices=ALLOYS, default=ALLOYS[0]
    )
    branches: tuple[Branch, ...] = EXAMPLES

    def __post_init__(self) -> None:
        check_sizes(self)
        check_threads(self)
        if not self.thread:
            raise SizeError(
                "Manifold, thread at the supply end: a thread is needed, such as 3/8 × 32.",
                "thread",
            )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Fitting:
    """The chapter's decisions."""

    rod_seal: str = size(
        "Rod is made tight by", "choice", choices=(PACKING, O_RING), default=PACKING, main=True
    )
    piston_seal: str = size(
        "Piston is made tight by", "choice", choices=(PACKING, O_RING, IRON_RINGS),
        default=PACKING, main=True,
    )  # fmt: skip
    pipe: Pipe = Pipe()
    manifold: Manifold = Manifold()
    brazed: Brazed = Brazed()
    bonded: Bonded = Bonded()
    o_ring: RubberRing = RubberRing()
    packed: Packed = Packed()
    rings: IronRings = IronRings()

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.brazed.wall >= self.brazed.spigot:
            raise SizeError(
                f"Thinner of the two walls: {self.brazed.wall:g} mm is more than the spigot of "
                f"{self.brazed.spigot:g} mm has; half of it or less would do.", "brazed.wall",
            )  # fmt: skip
