"""Decisions of the chapter: the draught wanted, the way of the gases, the losses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import check_sizes, size
from .ejector import Losses


@dataclass(frozen=True, kw_only=True)
class GasWay:
    """The gases from fire to smokebox."""

    title: ClassVar[str] = "Way of the gases"

    heads: float = size(
        "Lost in the tubes, in velocity heads", "ratio", 1, 15, default=4.0,
        help="3.8 to 7.6 by Bourne's engines at their usual draught; small tubes the more",
    )  # fmt: skip
    fire: float = size(
        "Fire, grate or burner takes, over the tubes", "ratio", 0, 5, default=0.5,
        help="4 of 12 in of water stood over the grate (J. Bourne); thick or dirty fires more",
    )  # fmt: skip
    smokebox: float = size(
        "Gases in the smokebox", "degC", 110, 600, default=300.0,
        help="284 to 310 were measured on the engine of Gollner and Pechar, 1884",
    )  # fmt: skip
    tubes: float = size(
        "Gases in the tubes, on the mean", "degC", 150, 1200, default=600.0,
        help="common practice",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class JetLosses:
    """What jet and chimney lose; each an estimate."""

    title: ClassVar[str] = "Losses of jet and chimney"

    entry: float = size(
        "Gases entering the chimney lose, of their velocity head", "ratio", 0, 1, default=0.04,
        help="0.04 for a good petticoat (L. D. Porta); a plain edge 0.5",
    )  # fmt: skip
    friction: float = size(
        "Friction in the chimney, of the velocity head there", "ratio", 0, 1, default=0.10,
        help="0.10 (L. D. Porta)",
    )  # fmt: skip
    recovery: float = size(
        "Recovery in a tapered chimney, of what its angle allows", "ratio", 0, 1, default=0.95,
        help="0.95 comes to the 75 % of L. D. Porta for 12 degrees and twice the diameter",
    )  # fmt: skip
    evens_out: float = size(
        "Jet evens out in, chokes", "ratio", 0.5, 6, default=2.0,
        help="to 1/e: six chokes then leave 5 %, and 2 1/2 with four nozzles 8 % (L. D. Porta)",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)

    def taken(self) -> Losses:
        """Return them as the ejector takes them."""
        return Losses(self.entry, self.friction, self.recovery, self.evens_out)


@dataclass(frozen=True, kw_only=True)
class Draughting:
    """The chapter's decisions; nozzle, chimney and firing belong to the blast nozzle."""

    number: int = size(
        "Nozzle's area shared by, nozzles", "count", 1, 12, default=1, main=True,
        help="each is then drilled smaller, and the back pressure stays",
    )  # fmt: skip
    wanted: float | None = size(
        "Draught wanted in the smokebox, running", "mm water", 0.05, 500, default=None, main=True,
        help="empty takes what the fire needs and the margin",
    )  # fmt: skip
    excess: float | None = size(
        "Air over what the fuel needs", "ratio", 0, 4, default=None, main=True,
        help="empty takes what Fire, boiler and feed has for coal, else 0.4, for gas 0.3",
    )  # fmt: skip
    drawn: float | None = size(
        "Part of its gases that the blast has to draw", "ratio", 0, 1, default=None,
        help="empty takes 1 for coal, 0.5 for spirit and for gas, whose jet brings in air itself",
    )  # fmt: skip
    margin: float = size(
        "Draught reckoned over draught needed", "ratio", 0.5, 4, default=1.5,
        help="the reckoning is rough: full-size engines stood at 0.4 to 1.5 of it",
    )  # fmt: skip
    most: float | None = size(
        "Most draught that the fire stands", "mm water", 0.1, 500, default=None,
        help="empty takes 100 for coal, 15 for spirit, 3 for gas (common practice)",
    )  # fmt: skip
    way: GasWay = GasWay()
    losses: JetLosses = JetLosses()

    def __post_init__(self) -> None:
        check_sizes(self)
