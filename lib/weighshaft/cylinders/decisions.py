"""What the builder decides about the cylinders, group by group."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..measures import to_step
from ..motion.frame import Crank
from ..sizes import SizeError, check_sizes, size
from ..threads.decisions import THREAD_HELP, check_threads
from ..trade.saturation import ATMOSPHERE

DRAINS = ("none", "drain cocks", "relief valves", "drain cocks and relief valves")


@dataclass(frozen=True, kw_only=True)
class Barrel:
    """Cylinder, covers, gland and piston along the axis; None takes what is suggested."""

    title: ClassVar[str] = "Barrel, covers and piston, along the axis"
    axle_to_cylinder: float | None = size(
        "Driving axle to middle of barrel", low=5, high=3000, default=None
    )
    length: float | None = size("Barrel, over its end faces", low=5, high=600, default=None)
    joint: float = size("Joint under each cover", low=0, high=3, default=0.25)
    front_spigot: float | None = size(
        "Front cover, spigot into the bore", low=0, high=60, default=None
    )
    back_spigot: float | None = size(
        "Back cover, spigot into the bore", low=0, high=60, default=None
    )
    front_cover: float | None = size("Front cover, flange", low=0.5, high=40, default=None)
    back_cover: float | None = size("Back cover, flange", low=0.5, high=40, default=None)
    gland: float | None = size(
        "Stuffing box and gland, behind the back cover", low=0, high=120, default=None
    )
    piston_thickness: float | None = size("Piston, thickness", low=1, high=150, default=None)
    piston_nut: float = size(
        "Nut or rod end standing out of the piston", low=0, high=30, default=0.0,
        help="0 where the nut is let into the piston or the piston is screwed on flush",
    )  # fmt: skip
    piston_rod: float | None = size("Piston rod, diameter", low=0.8, high=60, default=None)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Crosshead:
    """Piston rod end, crosshead, slide bars and big end; None takes what is suggested."""

    title: ClassVar[str] = "Crosshead, slide bars and rods, along the axis"
    rod_length: float | None = size(
        "Piston rod, back of piston to its end in the crosshead", low=5, high=900, default=None
    )
    rod_thread: str | None = size(
        "Piston rod thread in the crosshead", "text", default=None, help=THREAD_HELP
    )
    rod_thread_length: float | None = size("Length of that thread", low=0.5, high=120, default=None)
    rod_engaged: float | None = size(
        "Rod screwed into the crosshead", low=0, high=120, default=None,
        help="left empty: screwed in until the piston clears both covers alike",
    )  # fmt: skip
    boss: float | None = size(
        "Crosshead, gudgeon pin to end of boss", low=1, high=150, default=None
    )
    socket: float | None = size("Depth tapped in the boss", low=0.5, high=120, default=None)
    lock_nut: float | None = size("Lock nut, thickness", low=0, high=40, default=None)
    slipper_ahead: float | None = size(
        "Slipper ahead of the gudgeon pin", low=0, high=200, default=None
    )
    slipper_behind: float | None = size(
        "Slipper behind the gudgeon pin", low=0, high=200, default=None
    )
    slipper_width: float | None = size(
        "Slipper, width of its bearing face", low=0.5, high=100, default=None
    )
    slide_bar: float | None = size("Slide bar, from the back cover", low=5, high=900, default=None)
    bar_thickness: float | None = size(
        "Slide bar, thickness", low=0.3, high=60, default=None,
        help="left empty: 40 N/mm² in bending, not under 0.3 of its width",
    )  # fmt: skip
    big_end: float | None = size(
        "Big end, radius that it sweeps about its pin", low=0.5, high=150, default=None
    )

    def __post_init__(self) -> None:
        check_sizes(self)
        check_threads(self)


@dataclass(frozen=True, kw_only=True)
class Passages:
    """Way of the steam between port and bore, and the way out for water."""

    title: ClassVar[str] = "Passages and drains"
    holes: int = size("Passage to each end, holes", "count", 1, 12, default=3)
    hole_diameter: float | None = size("Passage holes, diameter", low=0.5, high=60, default=None)
    length: float | None = size("Passage, port to bore", low=0.5, high=400, default=None)
    drains: str = size("Drains", "choice", choices=DRAINS, default="drain cocks")

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Covers:
    """Screws of the cylinder covers."""

    title: ClassVar[str] = "Cover screws"
    screws: int | None = size("Screws in each cover", "count", 3, 24, default=None)
    thread: str | None = size("Thread of the cover screws", "text", default=None, help=THREAD_HELP)
    screw_circle: float | None = size("Screw circle", low=4, high=400, default=None)

    def __post_init__(self) -> None:
        check_sizes(self)
        check_threads(self)


@dataclass(frozen=True, kw_only=True)
class Chest:
    """Port face and steam chest of a slide valve; None takes what is suggested."""

    title: ClassVar[str] = "Port face and steam chest"
    face_height: float | None = size(
        "Port face above the cylinder axis", low=2, high=500, default=None
    )
    height: float | None = size("Steam chest, height inside", low=1, high=300, default=None)
    wall: float | None = size("Steam chest, thickness of the wall", low=0.5, high=60, default=None)
    cover: float | None = size(
        "Steam chest, thickness of the cover", low=0.5, high=60, default=None
    )
    studs_along: int | None = size(
        "Chest studs along each long side", "count", 2, 30, default=None, help="corners counted"
    )
    studs_across: int | None = size(
        "Chest studs along each short side", "count", 2, 30, default=None, help="corners counted"
    )
    stud_thread: str | None = size(
        "Thread of the chest studs", "text", default=None, help=THREAD_HELP
    )
    stud_line: float | None = size(
        "Chest studs, from the inside of the wall", low=0.3, high=60, default=None,
        help="to their centres; left empty: amid the wall",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)
        check_threads(self)


@dataclass(frozen=True, kw_only=True)
class Cycle:
    """What the steam is assumed to do in the cylinder."""

    title: ClassVar[str] = "What the steam is assumed to do"
    chest_loss: float = size(
        "Loss from boiler to steam chest", "%", 0, 60, default=5.0,
        help="of the absolute pressure; MACHINERY's Reference Series 70 takes 5",
    )  # fmt: skip
    back_pressure: float = size(
        "Back pressure on the piston", "bar", 0, 3, default=0.15,
        help="gauge, passages and blast together; the same handbook takes 2 lb/in², 0.14 bar",
    )  # fmt: skip
    diagram_factor: float = size(
        "Diagram factor", "ratio", 0.3, 1.0, default=0.85,
        help="true over ideal diagram; handbook: 0.85 small engines, 0.75 fast ones",
    )  # fmt: skip
    condensation: float = size(
        "Allowance for condensation", "%", 0, 80, default=35.0,
        help="share of all steam drawn that the diagram does not show; common practice, no source",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)

    @property
    def drawn(self) -> float:
        """All the steam drawn over what the diagram shows."""
        return 1 / (1 - self.condensation / 100)


@dataclass(frozen=True, kw_only=True)
class Haulage:
    """What the engine has to pull, and what holds it to the rail."""

    title: ClassVar[str] = "Haulage"
    adhesion: float = size(
        "Grip of wheel on rail", "ratio", 0.02, 0.6, default=0.2,
        help="friction over weight; Bourne: 1/5 on clean rails, 1/10 on greasy ones",
    )  # fmt: skip
    wanted_factor: float = size(
        "Factor of adhesion aimed at", "ratio", 0.5, 6, default=1.3,
        help="good small engines stand at 0.8 to 2",
    )  # fmt: skip
    rolling_resistance: float = size(
        "Rolling resistance, of the weight", "%", 0.05, 10, default=1.0,
        help="8 lb a ton is 0.36 for passenger trolleys; small plain-bearing stock 1.5 to 3",
    )  # fmt: skip
    grade: float = size("Ruling grade, 1 in", "ratio", 5, 2000, default=80.0)
    efficiency: float = size(
        "Mechanical efficiency", "%", 20, 100, default=80.0,
        help="wheel rim over piston; handbook: 80 to 90 at full load",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Cylinders:
    """The chapter's decisions."""

    number: int = size("Number of cylinders", "count", 1, 4, default=2)
    bore: float = size("Bore", low=3, high=200, main=True)
    stroke: float = size("Stroke", low=3, high=300, main=True)
    connecting_rod: float = size("Connecting rod, between centres", low=5, high=1000, main=True)
    cylinder_offset: float = size("Cylinder axis above axle", low=-100, high=100, default=0.0)
    inclination: float = size("Cylinder inclination", "deg", -30, 30, default=0.0)
    crank_angle: float = size("Angle between the cranks", "deg", 0, 360, default=90.0)
    pressure: float = size("Working pressure", "bar", 0.5, 16, main=True)
    engine_weight: float = size("Engine weight in working order", "kg", 0.2, 2000, main=True)
    coupled_weight: float = size("Weight on coupled wheels", "kg", 0.2, 2000, main=True)
    barrel: Barrel = Barrel()
    crosshead: Crosshead = Crosshead()
    passages: Passages = Passages()
    covers: Covers = Covers()
    chest: Chest = Chest()
    cycle: Cycle = Cycle()
    haulage: Haulage = Haulage()

    def __post_init__(self) -> None:
        check_sizes(self)
        throw = self.stroke / 2
        least = throw + abs(self.cylinder_offset)
        if self.connecting_rod < 1.2 * least:
            raise SizeError(
                f"Connecting rod: {self.connecting_rod:g} mm is too short for this crank; with a "
                f"throw of {throw:g} mm and the axis {self.cylinder_offset:g} mm above "
                f"the axle {1.2 * least:.1f} mm or more would do.",
                "connecting_rod",
            )
        chest = (1 - self.cycle.chest_loss / 100) * (self.pressure + ATMOSPHERE)
        if chest < 1.2 * (self.cycle.back_pressure + ATMOSPHERE):
            raise SizeError(
                f"Working pressure: {self.pressure:g} bar leaves nothing to drive the piston "
                f"against a back pressure of {self.cycle.back_pressure:g} bar and a loss of "
                f"{self.cycle.chest_loss:g} % on the way; more pressure or less of both would do.",
                "pressure",
            )
        rod = self.barrel.piston_rod
        if rod is not None and rod > 0.7 * self.bore:
            raise SizeError(
                f"Piston rod, diameter: {rod:g} mm is too thick for a bore of {self.bore:g} mm; "
                f"{0.7 * self.bore:.1f} mm or less would do.",
                "barrel.piston_rod",
            )

    @property
    def piston_rod(self) -> float:
        """Diameter of the piston rod, mm: as decided, else a fifth of the bore."""
        return self.barrel.piston_rod or max(1.0, to_step(0.2 * self.bore, 0.5))

    @property
    def crank(self) -> Crank:
        """Crank, connecting rod and line of the cylinder, as the motion takes them too."""
        return Crank(self.stroke, self.connecting_rod, self.cylinder_offset)
