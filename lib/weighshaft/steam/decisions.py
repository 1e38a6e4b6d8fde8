"""Decisions of the chapter: the running looked at, the ways of the steam, what is assumed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import check_sizes, size
from ..trade.warmth import METALS

MEDIA = ("steam", "compressed air")


@dataclass(frozen=True, kw_only=True)
class LookedAt:
    """How the engine runs when its indicator is read."""

    title: ClassVar[str] = "Running that is looked at"

    speed: float | None = size(
        "Speed", "km/h", 0.1, 60, default=None, main=True, help="empty takes the running speed"
    )
    notch: float | None = size(
        "Reverser", "ratio", -1, 1, default=None, main=True,
        help="1 full forward gear, -1 full backward; empty takes the running notch",
    )  # fmt: skip
    regulator: float = size(
        "Regulator open", "ratio", 0.01, 1, default=1.0, main=True, help="of its full opening"
    )
    pressure: float | None = size(
        "Pressure in the boiler, or of the air line", "bar", 0.2, 16, default=None, main=True,
        help="empty takes the working pressure, of air 2 bar",
    )  # fmt: skip
    medium: str = size("Runs on", "choice", choices=MEDIA, default=MEDIA[0], main=True)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Way:
    """From the boiler to the chest, and from the exhaust port to the nozzle."""

    title: ClassVar[str] = "Ways of the steam"

    regulator: float | None = size(
        "Regulator and steam pipe, bore of the narrowest place", low=0.3, high=80, default=None,
        help="one way for all cylinders; empty takes it from fire, boiler and feed, or 0.2 bores "
        "for each root of the cylinders",
    )  # fmt: skip
    pipe_length: float | None = size(
        "Steam pipe, length", low=1, high=5000, default=None,
        help="its friction narrows the way; empty takes 8 bores of the cylinder",
    )  # fmt: skip
    chest: float | None = size(
        "Chest and pipe behind the regulator, volume for a cylinder", "mm3", 10, 20_000_000,
        default=None,
        help="empty takes chest and pipe as they are, or half of what the piston sweeps",
    )  # fmt: skip
    exhaust: float | None = size(
        "Exhaust passages and blast pipe, volume in all", "mm3", 10, 50_000_000,
        default=None, help="empty takes what one piston sweeps",
    )  # fmt: skip
    dryness: float = size(
        "Dryness of the steam at the regulator", "ratio", 0.6, 1, default=0.98,
        help="a boiler that primes gives 0.9 and less; common practice",
    )  # fmt: skip
    superheat: float | None = size(
        "Superheat in the chest", "degC", 0, 160, default=None,
        help="over saturation; empty takes it from fire, boiler and feed",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Assumed:
    """Coefficients; measured on engines of 100 to 400 mm bore, so that small ones are a guess."""

    title: ClassVar[str] = "Coefficients assumed"

    ports: float = size(
        "Ports, discharge coefficient", "ratio", 0.4, 1, default=0.7,
        help="0.6 to 0.9 seen; none published for slide valves",
    )  # fmt: skip
    passages: float = size(
        "Passages and regulator, discharge coefficient", "ratio", 0.4, 1, default=0.8,
        help="0.63 a hole in thin plate, 0.93 a short pipe (Babcock & Wilcox)",
    )  # fmt: skip
    film: float = size(
        "Heat between wet wall and steam, W/(m² K)", "ratio", 1000, 100_000, default=25_000.0,
        help="8000 to 40,000 seen; Callendar and Nicolson about 15,000 (from memory)",
    )  # fmt: skip
    gas: float = size(
        "Heat between dry wall and steam, W/(m² K)", "ratio", 10, 5000, default=150.0,
        help="50 to 500; common practice",
    )  # fmt: skip
    metal: str = size("Cylinders are of", "choice", choices=METALS, default="gunmetal")
    wall: float | None = size(
        "Cylinder wall, thickness", low=0.3, high=60, default=None, help="empty takes 0.12 bores"
    )
    valve_gap: float | None = size(
        "Gap under the valve", low=0.0, high=0.2, default=None,
        help="as if it stood off its face; empty takes 1/32,000 of the port's length, 1 µm at "
        "least. A worn valve has several times as much",
    )  # fmt: skip
    piston_gap: float = size(
        "Gap past the piston", low=0.0, high=0.5, default=0.0,
        help="on the radius; 0 is a good ring or packing",
    )  # fmt: skip
    to_air: float = size(
        "Heat lost to the air, W/(m² K)", "ratio", 0, 200, default=10.0,
        help="of the inner surface, lagged; 20 to 40 bare. Common practice",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class SteamSide:
    """The chapter's decisions."""

    running: LookedAt = LookedAt()
    way: Way = Way()
    assumed: Assumed = Assumed()

    def __post_init__(self) -> None:
        check_sizes(self)
