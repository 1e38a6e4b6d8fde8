"""What the chapter finds: the sizes at scale, the gauge, weight and speed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..findings import Finding, Suggestion
from ..measures import INCH
from ..sizes import figure
from ..trade.stock import Stock
from ..working import Working


@dataclass(frozen=True)
class ScaledSize:
    """One dimension of the prototype at scale.

    Parameters
    ----------
    field : path of the decision that holds the full size, such as "scale.prototype.bore".
    label : its name.
    full, model : full size and size at scale, mm.
    stock : nearest bar or tube where the part would be made of such, else None.
    actual : what the model has, mm, where that is decided.
    around : size that would suit the part already bought, mm, at the scale which it implies.
    """

    field: str
    label: str
    full: float
    model: float
    stock: Stock | None
    actual: float | None
    around: float | None

    @property
    def inches(self) -> float:
        """Size at scale in inches."""
        return self.model / INCH

    @property
    def nearest_64th(self) -> Fraction:
        """Size at scale to the nearest 1/64 in."""
        return Fraction(round(self.inches * 64), 64)

    @property
    def error_64th(self) -> float:
        """What the nearest 1/64 in differs from the size at scale, mm."""
        return float(self.nearest_64th) * INCH - self.model


@dataclass(frozen=True)
class PairError:
    """A usual scale and track for this prototype: how far the track is from its gauge.

    `error` is the track less the prototype's gauge at that scale, mm; `percent` of the latter.
    """

    name: str
    scale: str
    ratio: float
    track_gauge: float
    error: float
    percent: float


@dataclass(frozen=True)
class Bought:
    """A part already bought, and the scale it implies.

    Parameters
    ----------
    field : path of the fixed size, such as "wheels.driving_diameter".
    label : its name.
    size, full : the part and the prototype's dimension, mm.
    implied_ratio : scale at which the part would be exact.
    percent : how far the part is from this design's scale.
    """

    field: str
    label: str
    size: float
    full: float
    implied_ratio: float
    percent: float


@dataclass(frozen=True, kw_only=True)
class ScaleResult:
    """The prototype on this track."""

    ratio: float = figure("Scale", "scale")
    mm_per_foot: float = figure("Millimetres to the foot", "mm")
    scaled_gauge: float = figure("Prototype's gauge at this scale", main=True)
    gauge_error: float = figure("Track wider than the gauge at scale", main=True)
    gauge_error_percent: float = figure("Gauge error", "%", main=True)
    exact_ratio: float = figure("Scale that makes the gauge exact", "scale", main=True)
    represented_gauge: float = figure("Gauge the track stands for at this scale")
    driving_wheel: float | None = figure("Driving wheel at scale")
    bore: float | None = figure("Bore at scale")
    stroke: float | None = figure("Stroke at scale")
    width: float | None = figure("Width at scale")
    scale_weight: float | None = figure("Scale weight (cube of the scale)", "kg", main=True)
    linear_speed: float | None = figure("Scale speed, linear", "km/h", main=True)
    dynamic_speed: float | None = figure("Scale speed, dynamic (square root)", "km/h")
    running_speed: float | None = figure("Speed taken for the model", "km/h")
    sizes: tuple[ScaledSize, ...]
    pairs: tuple[PairError, ...]
    bought: tuple[Bought, ...]
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
