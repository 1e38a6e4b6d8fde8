"""What the builder decides about fire, heating surfaces, feed and safety valves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import check_sizes, size
from ..trade.fuels import GASES

SMITHIES = "Smithies"
PATTERNS = ("as in the frames", "pot", "centre flue", SMITHIES, "locomotive type", "vertical")
LIFTS = ("ordinary, 1/24 of the seat", "high, 1/12 of the seat", "pop, 1/4 of the seat")
TANKS = ("made for the engine", "bought, with its certificate")
SUPERHEATERS = ("none", "in flue or smokebox", "in the fire")


@dataclass(frozen=True, kw_only=True)
class Surfaces:
    """What fire and hot gas touch; the shell's own sizes belong to the boiler in the frames."""

    title: ClassVar[str] = "Heating surfaces"
    tubes: int | None = size(
        "Fire tubes", "count", 1, 400, default=None,
        help="left empty: as many as make the area through the tubes",
    )  # fmt: skip
    tube_bore: float | None = size(
        "Fire tubes, bore", low=1, high=80, default=None,
        help="left empty: length over bore squared is 80 in inches, as is said of models",
    )  # fmt: skip
    tube_wall: float | None = size(
        "Fire tubes, wall", low=0.2, high=6, default=None, help="left empty: 0.09 of the bore"
    )
    water_tubes: int | None = size(
        "Water tubes", "count", 0, 60, default=None,
        help="in the flue or under the inner barrel; left empty: 4 for a Smithies, else none",
    )  # fmt: skip
    water_tube: float | None = size(
        "Water tubes, outside diameter", low=1, high=40, default=None,
        help="left empty: 0.12 of the barrel, or a quarter of the flue",
    )  # fmt: skip
    water_tube_length: float | None = size(
        "Water tubes, length of each in the fire", low=2, high=2000, default=None,
        help="left empty: across the flue, or 0.7 of the inner barrel",
    )  # fmt: skip
    inner_barrel: float | None = size(
        "Inner barrel, outside diameter", low=5, high=400, default=None,
        help="of a Smithies; left empty: 0.72 of its outer shell's inside",
    )  # fmt: skip
    over_fire: float | None = size(
        "Share of flue or barrel that sees the fire", "ratio", 0.05, 1, default=None,
        help="what is radiated on; left empty: 0.4 of a flue, 0.5 of a barrel",
    )  # fmt: skip
    inner_firebox: float | None = size(
        "Upright firebox, height", low=5, high=1500, default=None,
        help="of a vertical one; left empty: 0.45 of its shell",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Gas:
    """Burner, jet and tank; nothing here is asked of an engine fired otherwise."""

    title: ClassVar[str] = "Gas: jet and tank"
    gas: str = size("Gas", "choice", choices=tuple(GASES), default="butane", main=True)
    jet: float | None = size(
        "Gas jet, bore", low=0.05, high=2, default=None, main=True,
        help="left empty: what makes the steam that the engine asks for",
    )  # fmt: skip
    jets: int = size("Gas jets", "count", 1, 12, default=1)
    discharge: float = size(
        "Gas jet, discharge coefficient", "ratio", 0.4, 1, default=0.85,
        help="of a drilled or pressed hole in thin metal; common practice",
    )  # fmt: skip
    throttled: float | None = size(
        "Gas at the jet, no more than", "bar", 0.02, 12, default=None,
        help="what valve or regulator let through; left empty: all that the tank gives",
    )  # fmt: skip
    tank: float | None = size(
        "Gas tank, volume", "ml", 2, 5000, default=None, main=True,
        help="left empty: for 20 minutes of full fire",
    )  # fmt: skip
    filled: float = size(
        "Gas tank, filled with liquid", "ratio", 0.1, 1, default=0.8,
        help="0.8 to 0.85 is the most: the liquid grows as it warms, and a full tank bursts",
    )  # fmt: skip
    tank_made: str = size("Gas tank is", "choice", choices=TANKS, default=TANKS[0])
    tank_at: float = size("Gas tank, at the start", "degC", -20, 60, default=20.0)
    around: float = size(
        "Round the gas tank", "degC", -20, 50, default=25.0, help="a cab in steam, or a water bath"
    )
    warmth: float | None = size(
        "Heat that reaches the gas tank", "W/K", 0, 50, default=None,
        help="for each degree that it is colder; left empty: by air, 12 W/K a square metre; "
        "a water bath gives ten times that and more",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Spirit:
    """Wicks and reservoir of a spirit lamp."""

    title: ClassVar[str] = "Spirit: wicks and reservoir"
    wicks: int = size("Wicks", "count", 1, 20, default=3)
    wick: float | None = size(
        "Wicks, bore of their tubes", low=2, high=40, default=None,
        help="left empty: what makes the steam that the engine asks for",
    )  # fmt: skip
    burns: float = size(
        "Spirit burnt by 1 cm2 of wick", "g/min", 0.05, 3, default=0.6,
        help="in chimney draught; measure it on the lamp. Common practice",
    )  # fmt: skip
    reservoir: float | None = size(
        "Spirit carried", "ml", 1, 5000, default=None,
        help="left empty: what burns out a little before the water",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Coal:
    """Fire on a grate; the grate's area belongs to the blast."""

    title: ClassVar[str] = "Coal: grate and draught"
    burns: float = size(
        "Coal burnt in an hour on each m2 of grate, at full fire", "kg", 20, 900, default=300.0,
        main=True,
        help="model trials show 150 to 250 on average, full size 550 with coke and more",
    )  # fmt: skip
    value: float = size(
        "Coal, net calorific value", "MJ/kg", 10, 36, default=32.0, help="anthracite 32, coke 28"
    )
    excess: float = size(
        "Air drawn for the coal, of what it needs", "ratio", 1, 4, default=1.6,
        help="common practice",
    )  # fmt: skip
    draught: float = size(
        "Draught of the blast at full fire", "mm water", 1, 400, default=25.0,
        help="in the smokebox; an inch is common on models, full size has 3 to 6 in",
    )  # fmt: skip
    raising_draught: float = size(
        "Draught while steam is raised", "mm water", 0.5, 200, default=6.0,
        help="of the fan or blower",
    )  # fmt: skip
    carried: float | None = size(
        "Coal carried", "kg", 0.01, 200, default=None, help="left empty: for half an hour of steam"
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Heat:
    """How well the fire's heat gets into the water, and what stands at the start."""

    title: ClassVar[str] = "Efficiency, and raising steam"
    efficiency: float | None = size(
        "Share of the fire's heat that gets into the water", "ratio", 0.1, 0.9, default=None,
        main=True, help="left empty: as is usual for the type, less when it is forced",
    )  # fmt: skip
    cold: float = size("Water at the start", "degC", 1, 99, default=15.0)
    air: float = size("Air round the engine", "degC", -10, 45, default=15.0)
    feed: float = size("Feed water", "degC", 1, 95, default=15.0)
    kindling: float | None = size(
        "Until the fire burns well", "min", 0, 60, default=None,
        help="left empty: half a minute, with coal 6",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class SafetyValves:
    """Safety valves; each is reckoned by its seat and its lift."""

    title: ClassVar[str] = "Safety valves"
    number: int | None = size(
        "Safety valves", "count", 1, 4, default=None, help="left empty: two with coal, else one"
    )
    seat: float | None = size(
        "Safety valve, bore of the seat", low=0.5, high=60, default=None, main=True,
        help="left empty: what passes the greatest evaporation",
    )  # fmt: skip
    lift: str = size(
        "Safety valve lifts by", "choice", choices=LIFTS, default=LIFTS[0],
        help="a plain ball lifts little; only a pop valve opens wide",
    )  # fmt: skip
    discharge: float = size(
        "Safety valve, discharge coefficient", "ratio", 0.2, 1, default=0.63,
        help="0.63 as a hole in thin plate",
    )  # fmt: skip
    blows_at: float | None = size(
        "Safety valve blows at", "bar", 0.2, 15, default=None,
        help="left empty: as high as the engine works; never above what the certificate says",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Feed:
    """Pumps, water carried, and oil."""

    title: ClassVar[str] = "Feed pumps and oil"
    ram: float | None = size(
        "Axle pump, ram", low=0, high=60, default=None,
        help="0 is none; left empty: what the engine asks for, with gas or spirit none",
    )  # fmt: skip
    stroke: float | None = size(
        "Axle pump, stroke", low=0.5, high=120, default=None, help="left empty: as its ram"
    )
    strokes: float = size(
        "Axle pump, strokes a turn", "ratio", 0.05, 4, default=1.0, help="of the driving axle"
    )
    slip: float = size(
        "Axle pump, slip", "ratio", 0, 0.95, default=0.5,
        help="what it does not deliver; 0.5 to 0.8 in an old rule, 0.1 to 0.3 in a good one",
    )  # fmt: skip
    hand_ram: float | None = size(
        "Hand pump, ram", low=0, high=60, default=None,
        help="0 is none; left empty: 0.12 of the barrel, 5 mm at least; none for a pot",
    )  # fmt: skip
    hand_stroke: float | None = size(
        "Hand pump, stroke", low=0.5, high=200, default=None, help="left empty: 2.5 of its ram"
    )
    hand_slip: float = size("Hand pump, slip", "ratio", 0, 0.95, default=0.2)
    carried: float | None = size(
        "Water carried in tanks", "ml", 0, 200_000, default=None,
        help="left empty: for 20 minutes where there is an axle pump, else none",
    )  # fmt: skip
    oil: float | None = size(
        "Oil to the cylinders, of the steam by mass", "ratio", 0.0002, 0.05, default=None,
        help="left empty: 0.01 by displacement, 0.003 by a pump with coal; common practice",
    )  # fmt: skip
    lubricator: float | None = size(
        "Displacement lubricator, holds", "ml", 0.3, 500, default=None,
        help="left empty: for the run",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Pipes:
    """Regulator, pipes, blower and superheater."""

    title: ClassVar[str] = "Regulator, pipes, superheater"
    regulator: float | None = size(
        "Regulator, bore of its port", low=0.3, high=60, default=None,
        help="left empty: for 30 m/s",
    )  # fmt: skip
    steam_pipe: float | None = size(
        "Steam pipe to the cylinders, bore", low=0.5, high=80, default=None,
        help="left empty: for 30 m/s",
    )  # fmt: skip
    blower: float | None = size(
        "Blower jet, bore", low=0, high=6, default=None,
        help="0 is none; left empty: what takes a tenth of the steam, with gas none",
    )  # fmt: skip
    superheater: str = size("Superheater", "choice", choices=SUPERHEATERS, default=SUPERHEATERS[0])
    superheat: float | None = size(
        "Superheat", "degC", 0, 300, default=None,
        help="left empty: 40 in flue or smokebox, 120 in the fire; common practice",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Plates:
    """Plates and stays, to be talked over with the club's inspector."""

    title: ClassVar[str] = "Plates and stays, for the inspector"
    plate: float | None = size(
        "Flat plates, thickness", low=0.3, high=20, default=None,
        help="left empty: 1.3 of the barrel's wall",
    )  # fmt: skip
    pitch: float | None = size(
        "Stays, pitch", low=2, high=200, default=None,
        help="left empty: what the formula below lets with a quarter in hand",
    )  # fmt: skip
    stay: float | None = size(
        "Stays, least diameter", low=0.5, high=30, default=None,
        help="at the root of the thread; left empty: what the formula lets with a quarter in hand",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Firing:
    """The chapter's decisions."""

    pattern: str = size(
        "Type of steam raiser", "choice", choices=PATTERNS, default=PATTERNS[0], main=True,
        help="a Smithies has an outer shell, and in it an inner barrel with water tubes",
    )  # fmt: skip
    surfaces: Surfaces = Surfaces()
    gas: Gas = Gas()
    spirit: Spirit = Spirit()
    coal: Coal = Coal()
    heat: Heat = Heat()
    valves: SafetyValves = SafetyValves()
    feed: Feed = Feed()
    pipes: Pipes = Pipes()
    plates: Plates = Plates()

    def __post_init__(self) -> None:
        check_sizes(self)
