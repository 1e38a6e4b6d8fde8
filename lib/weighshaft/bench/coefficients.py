"""The coefficients that runs can tell of, the ranges seen in practice, and where they live."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from .model import Array, Fire

FILM, GAP, PORTS, EFFICIENCY, SHARE, RATE = range(6)


@dataclass(frozen=True)
class Coefficient:
    """One coefficient.

    Parameters
    ----------
    key : as a kept fit calls it.
    title : in the builder's words.
    now : as the design has it.
    low, high : range seen in practice; both positive.
    path : of the decision that it is.
    unit : for display; shown times `times`.
    source : of the range.
    """

    key: str
    title: str
    now: float
    low: float
    high: float
    path: str
    unit: str = ""
    times: float = 1.0
    source: str = "common practice"

    @property
    def centre(self) -> float:
        """Logarithm of the middle of the range."""
        return math.log(self.low * self.high) / 2

    @property
    def spread(self) -> float:
        """Standard deviation of the logarithm.

        Source: what lies evenly within a range has its width over the root of 12; Guide to the
        expression of uncertainty in measurement, JCGM 100:2008, 4.3.7.
        """
        return math.log(self.high / self.low) / math.sqrt(12)

    def told(self, value: float) -> str:
        """The value as a builder reads it."""
        shown = self.times * value
        return f"{shown:.0f}{self.unit}" if shown >= 1000 else f"{shown:.3g}{self.unit}"


def coefficients_of(
    *, film: float, gap: float, ports: float, efficiency: float, fire: Fire | None
) -> tuple[Coefficient, ...]:
    """Return the coefficients of an engine; those of the fire only where there is one.

    Parameters
    ----------
    film : W/(m2 K); gap mm; ports discharge; efficiency part, all as the design has them.
    """
    made = [
        Coefficient(
            "film", "heat between wet wall and steam", film, 8000, 40_000, "steam.assumed.film",
            unit=" W/(m² K)", source="range of the chapter on steam",
        ),
        Coefficient(
            "valve_gap", "leaking gap under the valve", max(gap, 1e-5), 0.001, 0.025,
            "steam.assumed.valve_gap", unit=" µm", times=1000,
            source="1 µm as lapped, 25 µm worn; common practice",
        ),
        Coefficient(
            "ports", "discharge of the ports", ports, 0.6, 0.9, "steam.assumed.ports",
            source="range of the chapter on steam",
        ),
        Coefficient(
            "efficiency", "mechanical efficiency", efficiency, 0.5, 0.9,
            "cylinders.haulage.efficiency", unit=" %", times=100,
        ),
    ]  # fmt: skip
    if fire is not None:
        at = fire.loading(fire.full)
        low, usual, high = fire.kind.range_at(at)
        made.append(
            Coefficient(
                "share", "share of the fire's heat that gets into the water", fire.share or usual,
                low, high, "firing.heat.efficiency", unit=" %", times=100,
                source=fire.kind.source,
            )
        )  # fmt: skip
        made.append(
            Coefficient(
                "rate", fire.rate_title, fire.rate_now, *fire.rate_range, fire.rate_path,
                unit=fire.rate_unit,
            )
        )  # fmt: skip
    return tuple(made)


def prior_of(coefficients: tuple[Coefficient, ...]) -> tuple[Array, Array]:
    """Return middle and standard deviation of the logarithms, before anything is measured."""
    return (
        np.array([one.centre for one in coefficients]),
        np.array([one.spread for one in coefficients]),
    )
