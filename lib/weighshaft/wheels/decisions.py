"""What the builder decides about wheels and axles."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..fits import Seat, check_seat
from ..sizes import SizeError, check_sizes, size


@dataclass(frozen=True, kw_only=True)
class Tyres:
    """Tread and flange; left empty, the standard's figure is taken."""

    title: ClassVar[str] = "Tyres and flanges"
    tyre_width: float | None = size("Tyre, width", low=1, high=120, default=None)
    flange_thickness: float | None = size("Flange, thickness", low=0.3, high=30, default=None)
    flange_depth: float | None = size("Flange, depth", low=0.3, high=30, default=None)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Across:
    """From the wheel outwards, the same for every coupled wheel."""

    title: ClassVar[str] = "Across the engine"
    side_play: tuple[float, ...] = size(
        "Side play of the coupled axles, each way", low=0, high=20, main=True,
        help="one figure for all, or one for each axle from the front",
    )  # fmt: skip
    boss_outside: float = size("Wheel boss beyond the rim, outside", low=-10, high=40, default=0.0)
    rod_gap: float = size("Coupling rod clear of the boss", low=0, high=10)
    coupling_rod: float = size("Coupling rod, thickness at the eye", low=0.5, high=60)
    pin_cap: float = size(
        "Cap of a coupled crankpin, beyond the rod", low=0, high=30, help="0 where it is sunk flush"
    )
    crankpin: float = size("Coupled crankpin, diameter", low=0.8, high=60)
    pin_boss: float | None = size(
        "Boss round a crankpin, diameter", low=1, high=150, default=None,
        help="left empty: twice the crankpin",
    )  # fmt: skip
    width_limit: float | None = size(
        "Greatest width that the line lets through", low=20, high=1000, default=None,
        help="its loading gauge, not the engine's own width; left empty: the prototype's at scale",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)
        if not self.side_play:
            raise SizeError(
                "Side play of the coupled axles: at least one figure is needed, such as 0.5 mm.",
                "side_play",
            )


@dataclass(frozen=True, kw_only=True)
class OutsideCylinders:
    """Two cylinders outside the frames, driving on pins in the wheels."""

    kind: ClassVar[str] = "outside"
    title: ClassVar[str] = "Outside cylinders"
    centres: float = size("Cylinder centre lines apart", low=15, high=900, main=True)
    big_end: float = size("Connecting rod big end, width", low=0.5, high=80)
    crankpin: float = size("Driving crankpin, diameter", low=0.8, high=80)
    return_crank: float = size(
        "Return crank or cap, beyond the big end", low=0, high=60, default=0.0
    )
    crosshead_width: float = size(
        "Crosshead and slide bars, width over all", low=1, high=120,
        help="not the bearing face of the slipper, which is narrower",
    )  # fmt: skip
    over_covers: float = size(
        "Cylinder centre line to its outermost part", low=2, high=200, help="cover or lagging"
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class InsideCylinders:
    """Two cylinders between the frames, driving a crank axle."""

    kind: ClassVar[str] = "inside"
    title: ClassVar[str] = "Inside cylinders and crank axle"
    centres: float = size("Cylinder centre lines apart", low=8, high=600, main=True)
    web: float = size("Crank web, thickness", low=1, high=60)
    web_breadth: float = size("Crank web, breadth", low=3, high=150)
    crankpin: float = size("Inside crankpin, diameter", low=2, high=100)
    pin_length: float = size("Inside crankpin, length between the webs", low=1, high=100)
    big_end: float = size("Big end brasses, width", low=1, high=100)
    crosshead_below: float = size(
        "Crosshead and its lower bar, below the cylinder axis", low=0.5, high=100
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Between:
    """Along the axle between the wheels: frames, axleboxes, eccentrics, collar."""

    title: ClassVar[str] = "Between the wheels"
    frame_spacing: float = size("Frames, apart inside", low=5, high=800)
    frame_thickness: float = size("Frame plate, thickness", low=0.5, high=40)
    boss_inside: float = size("Wheel boss behind the rim's back", low=0, high=40, default=0.0)
    axlebox_outside: float = size("Axlebox beyond the frame, outside", low=0, high=40, default=0.0)
    axlebox_inside: float = size("Axlebox beyond the frame, inside", low=0, high=80, default=0.0)
    clearance: float = size(
        "Clearance beside what turns with the axle", low=0, high=10, default=0.2,
        help="to the axlebox, over and above the side play",
    )  # fmt: skip
    sheaves: int | None = size(
        "Eccentric sheaves on the driven axle", "count", 0, 6, default=None,
        help="left empty: those of the valve gear; say it where a pump is driven from there too",
    )  # fmt: skip
    sheave_width: float = size("Sheave and strap, width", low=0.5, high=60, default=3.0)
    sheave_gap: float = size("Gap beside a sheave", low=0, high=10, default=0.2)
    sheave_wall: float = size("Least wall of a sheave over the axle", low=0.3, high=30, default=1.0)
    sheave_diameter: float | None = size(
        "Sheave, diameter", low=3, high=300, default=None, help="left empty: the least that will do"
    )
    collar: float | None = size(
        "Distance collar amid the axle, as made", low=0, high=600, default=None,
        help="left empty: the length that closes the row",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Quartering:
    """How true the cranks and the coupling rods are."""

    title: ClassVar[str] = "Quartering and coupling rods"
    quartering_error: float = size(
        "Quartering, difference between two axles", "deg", 0, 10, default=0.1,
        help="an error that all axles share costs nothing",
    )  # fmt: skip
    centre_error: float = size("Rod and axle centres, difference", low=0, high=5, default=0.02)
    axle_lift: float = size(
        "One axle above its neighbour on bad track", low=0, high=30, default=0.0
    )
    bush_clearance: float = size(
        "Clearance of the rod bushes, on the diameter", low=0, high=5, default=0.1
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Wheels:
    """The chapter's decisions."""

    standard: str = size("Wheel standard", "text")
    driving_diameter: float = size("Driving wheel, over the tread", low=10, high=600, main=True)
    wheelbase: tuple[float, ...] = size(
        "Coupled axles apart, from the front", low=5, high=2000, main=True
    )
    driven_axle: int = size(
        "Driven axle, counted from the front", "count", 1, 8, help="the axle that the rods drive"
    )
    axle_diameter: float = size("Axle at the journals, diameter", low=1, high=100, main=True)
    seat_diameter: float | None = size(
        "Axle in the wheel seat, diameter", low=1, high=100, default=None,
        help="left empty: as at the journals",
    )  # fmt: skip
    back_to_back: float | None = size(
        "Wheels back to back", low=5, high=800, default=None,
        help="left empty: the standard's figure",
    )  # fmt: skip
    radius_wanted: float | None = size(
        "Smallest curve to be gone round", low=50, high=500_000, default=None, main=True
    )
    gauge_widening: float = size("Track widened on that curve by", low=0, high=15, default=0.0)
    leading_truck: float | None = size(
        "Leading truck, ahead of the first coupled axle", low=5, high=2000, default=None
    )
    trailing_truck: float | None = size(
        "Trailing truck, behind the last coupled axle", low=5, high=2000, default=None
    )
    seat_factor: float = size(
        "Factor wanted on the wheel seat", "ratio", 1, 20, default=2.0, help="for water and jolts"
    )
    tyres: Tyres = Tyres()
    across: Across
    cylinders: OutsideCylinders | InsideCylinders
    between: Between
    seat: Seat
    quartering: Quartering = Quartering()

    def __post_init__(self) -> None:
        check_sizes(self)
        axles = len(self.wheelbase) + 1
        if self.driven_axle > axles:
            raise SizeError(
                f"Driven axle: {self.driven_axle} is out of range; with {axles} coupled axles "
                f"1 to {axles} would do.",
                "driven_axle",
            )
        if len(self.across.side_play) not in (1, axles):
            raise SizeError(
                f"Side play: {len(self.across.side_play)} figures for {axles} coupled axles; "
                f"1 figure for all, or {axles}, would do.",
                "across.side_play",
            )
        check_seat(self.seat, self.seat_bore)

    @property
    def seat_bore(self) -> float:
        """Diameter of the axle in the wheel, mm."""
        return self.axle_diameter if self.seat_diameter is None else self.seat_diameter

    @property
    def positions(self) -> tuple[float, ...]:
        """Coupled axles, mm ahead of the driven one, from the front."""
        from_front = [0.0]
        for spacing in self.wheelbase:
            from_front.append(from_front[-1] + spacing)
        driven = from_front[self.driven_axle - 1]
        return tuple(driven - one for one in from_front)

    @property
    def coupled_wheelbase(self) -> float:
        """First to last coupled axle, mm."""
        return sum(self.wheelbase)

    @property
    def total_wheelbase(self) -> float:
        """Over the trucks too, as far as they are decided, mm."""
        return self.coupled_wheelbase + (self.leading_truck or 0.0) + (self.trailing_truck or 0.0)

    @property
    def plays(self) -> tuple[float, ...]:
        """Side play of each coupled axle, each way, mm, from the front."""
        play = self.across.side_play
        return play if len(play) > 1 else play * (len(self.wheelbase) + 1)
