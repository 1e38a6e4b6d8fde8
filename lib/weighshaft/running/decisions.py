"""What the builder decides about the train, the line and how it is driven."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size

BALL, OILED, DRY = "ball bearings", "plain bearings, oiled", "plain bearings, dry"
BEARINGS = (BALL, OILED, DRY)
BY_PARTS, BY_HAULAGE = "by wheels and bearings", "as haulage has it"
CLEAN, WET, GREASY = "clean and dry", "wholly wet", "half wet or greasy"
RAILS = (CLEAN, WET, GREASY)
LEFT, RIGHT = "to the left", "to the right"


@dataclass(frozen=True, kw_only=True)
class Train:
    """What is coupled behind the engine."""

    title: ClassVar[str] = "Train"
    stock: float | None = size(
        "Wagons or trolleys, empty", "kg", 0, 5000, default=None, main=True,
        help="left empty: in the small gauges 0.7 of the engine, else 12 kg a passenger",
    )  # fmt: skip
    passengers: int | None = size(
        "Passengers, the driver counted", "count", 0, 60, default=None, main=True,
        help="left empty: none below 60 mm gauge, else one for every 12 kg on coupled wheels",
    )  # fmt: skip
    passenger: float = size("Each passenger", "kg", 10, 200, default=75.0)
    length: float | None = size(
        "Train with its engine, over all", low=50, high=100_000, default=None,
        help="left empty: the engine's own and 15 gauges more",
    )  # fmt: skip
    taken: str = size(
        "Train runs", "choice", choices=(BY_PARTS, BY_HAULAGE), default=BY_PARTS,
        help="how heavily: reckoned from its wheels, or the share that haulage takes",
    )  # fmt: skip
    wheel: float | None = size(
        "Wagon wheels, over the tread", low=5, high=400, default=None,
        help="left empty: 0.6 of the gauge below 60 mm, else 0.8",
    )  # fmt: skip
    journal: float | None = size(
        "Wagon axles at the journals", low=0.5, high=60, default=None,
        help="left empty: 0.14 of the wheel",
    )  # fmt: skip
    bearings: str | None = size(
        "Wagon axles run in", "choice", choices=BEARINGS, default=None,
        help="left empty: oiled plain ones below 60 mm gauge, else ball bearings",
    )  # fmt: skip
    rigid: float | None = size(
        "Wagon axles held parallel, first to last", low=0, high=3000, default=None,
        help="of a bogie its own two; left empty: twice the gauge",
    )  # fmt: skip
    front: float | None = size(
        "Drag of the air, area times coefficient", "ratio", 0, 5, default=None,
        help="m²; left empty: 0.5 for people sitting upright, else of the engine's front",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Section:
    """A length of the line with one gradient and one curve."""

    title: ClassVar[str] = "Section"
    length: float = size("Section, length along the rail", low=100, high=2_000_000, default=20_000)
    grade: float = size(
        "Rises 1 in", "ratio", -5000, 5000, default=0.0,
        help="0 is level, negative falls",
    )  # fmt: skip
    radius: float | None = size(
        "Curved with a radius of", low=300, high=1_000_000, default=None,
        help="left empty: straight",
    )  # fmt: skip
    turns: str = size("Curve turns", "choice", choices=(LEFT, RIGHT), default=RIGHT)

    def __post_init__(self) -> None:
        check_sizes(self)
        if 0 < abs(self.grade) < 8:
            raise SizeError(
                f"Rises 1 in: {self.grade:g} is steeper than wheels hold on rails; 0 for level, or "
                "8 and more either way, would do.",
                "grade",
            )

    @property
    def told(self) -> str:
        """What it is, for its heading."""
        way = "level" if not self.grade else (
            f"{'up' if self.grade > 0 else 'down'} 1 in {abs(self.grade):g}"
        )  # fmt: skip
        bend = "" if self.radius is None else f", radius {float(self.radius):.0f} mm"
        return f"{float(self.length):.0f} mm, {way}{bend}"

    @property
    def slope(self) -> float:
        """Rise over length."""
        return 1 / self.grade if self.grade else 0.0


def _club_track() -> tuple[Section, ...]:
    """Return a short club track that never was: an oval of 175 m with a bank to be climbed."""
    bend = 12_000.0
    half = 37_699.11  # half round
    return (
        Section(length=30_000.0),
        Section(length=20_000.0, grade=100.0),
        Section(length=half, radius=bend, grade=200.0),
        Section(length=20_000.0),
        Section(length=30_000.0, grade=-100.0),
        Section(length=half, radius=bend, grade=-425.0),
    )


@dataclass(frozen=True, kw_only=True)
class Line:
    """The line: its sections in their order, and the state of its rails."""

    title: ClassVar[str] = "Line"
    rail: str = size("Rails are", "choice", choices=RAILS, default=CLEAN, main=True)
    closed: bool = size(
        "Line closes on itself", "yes/no", default=True, help="a circuit is run lap after lap"
    )
    sections: tuple[Section, ...] = size("Sections of the line", "text", default=_club_track())

    def __post_init__(self) -> None:
        check_sizes(self)
        if not self.sections:
            raise SizeError("Sections of the line: one at least is needed.", "sections")


@dataclass(frozen=True, kw_only=True)
class Driving:
    """How the engine is driven, and for how long."""

    title: ClassVar[str] = "Driving"
    pace: float | None = size(
        "Pace that the driver keeps", "km/h", 0.2, 40, default=None, main=True,
        help="left empty: what the prototype's chapter runs the model at",
    )  # fmt: skip
    minutes: float = size("Drives for, minutes", "ratio", 0.5, 240, default=30.0, main=True)
    low_water: float = size(
        "Puts the feed on when this share of the usable water is left",
        "ratio",
        0.1,
        0.95,
        default=0.6,
        help="between the working level and the lowest that is allowed",
    )
    tops_up: bool = size(
        "Halts to be topped up by hand", "yes/no", default=True,
        help="by hand pump or bottle, where no pump on the axle feeds it on the way",
    )  # fmt: skip
    blower: bool = size("Uses the blower when pressure falls", "yes/no", default=True)
    friction: float = size(
        "Pressure that just turns the engine over, wheels lifted", "bar", 0, 2, default=0.2,
        help="an air test tells; 0.24 to 0.46 was measured on engines of 1 to 13 hp in 1884",
    )  # fmt: skip
    own_bearings: str = size("Engine's axles run in", "choice", choices=BEARINGS, default=OILED)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Running:
    """The chapter's decisions."""

    train: Train = Train()
    line: Line = Line()
    driving: Driving = Driving()

    def __post_init__(self) -> None:
        check_sizes(self)
