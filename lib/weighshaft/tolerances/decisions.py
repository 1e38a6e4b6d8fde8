"""What the builder decides: how closely the workshop works, and how each dimension is made."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import Unit, check_sizes, size

AFTER, KEPT = "set after building", "kept where the drawing puts it"
EVEN, MIDDLE = "evenly from limit to limit", "mostly near the size"

WAYS: dict[str, tuple[str, Unit]] = {
    "filed to a line": ("filed", "mm"),
    "drilled to a centre-pop": ("centre_pop", "mm"),
    "drilled in a jig": ("jig_drilled", "mm"),
    "milled to size": ("milled", "mm"),
    "bored from coordinates": ("bored", "mm"),
    "turned": ("turned", "mm"),
    "set by feeler": ("feeler", "mm"),
    "keyed by eye": ("by_eye", "deg"),
    "set by protractor": ("protractor", "deg"),
    "keyed in a jig": ("jig_keyed", "deg"),
    "bolted to a faced seat": ("seated", "deg"),
}
"""Classes of operation: each with the field of `Workshop` that says what it holds, and its unit."""


def _holds(label: str, default: float, unit: Unit = "mm", help: str = "") -> float:
    high = 5.0 if unit == "mm" else 20.0
    made: float = size(f"{label}, plus or minus", unit, 0.0, high, default=default, help=help)
    return made


@dataclass(frozen=True, kw_only=True)
class Workshop:
    """What each class of operation holds, as a limit to either side (common practice)."""

    title: ClassVar[str] = "What the workshop holds"

    filed: float = _holds("Filed to a line", 0.15)
    centre_pop: float = _holds("Drilled to a centre-pop", 0.12, help="between two holes")
    jig_drilled: float = _holds("Drilled in a jig", 0.05, help="between two holes")
    milled: float = _holds("Milled to size", 0.05)
    bored: float = _holds("Bored from coordinates", 0.03, help="by the dials of the machine")
    turned: float = _holds("Turned", 0.03, help="also the throw of an eccentric set over")
    feeler: float = _holds("Set by feeler", 0.05, help="the valve on its spindle")
    by_eye: float = _holds("Keyed by eye", 1.0, "deg")
    protractor: float = _holds("Set by protractor", 0.5, "deg")
    jig_keyed: float = _holds("Keyed in a jig", 0.3, "deg")
    seated: float = _holds("Bolted to a faced seat", 0.1, "deg", help="the steam chest's slope")

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Operation:
    """One dimension that is made otherwise than is usual."""

    title: ClassVar[str] = "How a dimension is made"

    dimension: str = size("Dimension", "text", default="", help="as the chapter's tables name it")
    made: str = size("Made by", "choice", choices=tuple(WAYS), default="drilled in a jig")

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Tolerances:
    """The chapter's decisions."""

    title: ClassVar[str] = "What must be held tight"

    valve: str = size(
        "The valve on its spindle is", "choice", choices=(AFTER, KEPT), default=AFTER, main=True,
        help="set for the gear as it was built, or left by the measure on the drawing",
    )  # fmt: skip
    allowed: float = size(
        "Scatter of the beat that you allow, plus or minus", "%", 0.1, 50.0, default=5.0,
        main=True, help="of the difference between the cut-offs of both ends, % of the stroke",
    )  # fmt: skip
    law: str = size(
        "Errors lie", "choice", choices=(EVEN, MIDDLE), default=EVEN,
        help="evenly: all within the limit are as likely; near the size: the limit is two "
        "standard deviations",
    )  # fmt: skip
    trials: int = size("Engines built on paper", "count", 20, 5000, default=150)
    seed: int = size(
        "Seed of the errors drawn", "count", 0, 1_000_000_000, default=1,
        help="the same seed draws the same errors",
    )  # fmt: skip
    workshop: Workshop = Workshop()
    made: tuple[Operation, ...] = ()

    def __post_init__(self) -> None:
        check_sizes(self)
