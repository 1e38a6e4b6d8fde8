"""Track and wheel standards by gauge, with their disagreements and sources.

The figures stand in `data/wheels.csv` and `data/curves_min_radius.csv`, one parameter a
row as each source prints it; `data/README-tracks.md` lists the sources.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from io import StringIO

from ..measures import INCH

# One thing has several names in print; a row keeps its own in `printed`.
_ALIASES = {
    "back_to_back_B": "back_to_back",
    "flange_depth_D": "flange_depth",
    "flange_thickness_T": "flange_thickness",
    "flangeway_F": "flangeway",
    "over_check_rails_S": "over_check_rails",
    "span_S": "over_check_rails",
    "track_check_gauge_C": "track_check_gauge",
    "tyre_width_N": "tyre_width",
    "wheel_back_to_back_plus_flange": "wheel_check_gauge",
    "back_to_back_plus_flange": "wheel_check_gauge",
    "wheel_check_gauge_K": "wheel_check_gauge",
    "tread_taper_deg": "coning_deg",
}
_WORDS = {
    "track_gauge": "Track gauge",
    "back_to_back": "Back to back",
    "wheel_check_gauge": "Back to back and one flange",
    "wheel_gauge_over_flange_faces": "Over the flange faces",
    "tyre_width": "Tyre width",
    "flange_thickness": "Flange thickness",
    "flange_depth": "Flange depth",
    "root_radius": "Root radius",
    "flange_tip_radius": "Flange tip radius",
    "flange_tip_thickness": "Flange tip thickness",
    "coning_deg": "Coning of the tread, degrees",
    "flange_angle_deg": "Flange angle, degrees",
    "flangeway": "Flangeway",
    "track_check_gauge": "Track check gauge",
    "over_check_rails": "Over the check rails",
    "hub_projection": "Hub beyond the rim",
}
_SAME_TRACK = 0.01  # 32 and 31.8, 89 and 88.9, 64 and 63.5 mm are one track under two names


class StandardUnknown(ValueError):
    """A wheel standard that is not in the tables; the text lists those for the gauge."""


@dataclass(frozen=True)
class Entry:
    """One printed figure.

    Parameters
    ----------
    parameter, printed : our name, and the source's name of the parameter.
    value : mm, or degrees where the name ends in `_deg`.
    qualifier : "nominal", "min", "max" … as printed.
    plus, minus : printed tolerance in mm, None where the source gives none.
    sources, confidence, note : where it was seen, how well, and what is odd about it.
    """

    parameter: str
    printed: str
    value: float
    qualifier: str
    plus: float | None
    minus: float | None
    sources: str
    confidence: str
    note: str

    @property
    def word(self) -> str:
        """The parameter in the trade's words."""
        return word_of(self.parameter)


@dataclass(frozen=True)
class TrackStandard:
    """The wheels and the track of one standard at one gauge (mm)."""

    name: str
    gauge: float
    label: str
    entries: tuple[Entry, ...]

    def all_of(self, parameter: str) -> tuple[Entry, ...]:
        """Return every printed figure for a parameter, in the order of the source."""
        return tuple(entry for entry in self.entries if entry.parameter == parameter)

    def value(self, parameter: str) -> float | None:
        """Return the figure to work to in mm (or degrees): the nominal, else the first printed."""
        found = self.all_of(parameter)
        for entry in found:
            if entry.qualifier in ("nominal", "computed", "target"):
                return entry.value
        return found[0].value if found else None

    def limits(self, parameter: str) -> tuple[float | None, float | None]:
        """Return the lowest and highest figure that the standard allows, None where open.

        A "min" bounds below, a "max" above, a nominal with its tolerance on both sides; a
        nominal without a tolerance bounds nothing.
        """
        low: float | None = None
        high: float | None = None
        for entry in self.all_of(parameter):
            words = entry.qualifier
            if words.startswith(("min", "not less")):
                low = entry.value
            elif words.startswith(("max", "not more")):
                high = entry.value
            elif entry.plus is not None or entry.minus is not None:
                low = entry.value - (entry.minus or 0.0)
                high = entry.value + (entry.plus or 0.0)
        return low, high


@dataclass(frozen=True)
class Disagreement:
    """A parameter for which standards of one gauge print different figures."""

    parameter: str
    word: str
    values: tuple[tuple[str, float, str, str], ...]
    """(standard, value in mm or degrees, qualifier, sources)"""


@dataclass(frozen=True)
class CurveRule:
    """A published rule for curves: a length in mm, a multiple of the gauge, or an angle."""

    standard: str
    gauge: str
    case: str
    group: str
    value: float
    unit: str
    sources: str
    note: str


def _rows(name: str) -> list[dict[str, str]]:
    text = (files(__package__) / "data" / name).read_text(encoding="utf-8")
    return list(csv.DictReader(StringIO(text)))


def _mm(text: str, unit: str) -> float | None:
    if not text:
        return None
    return float(text) * (INCH if unit == "in" else 1.0)


@lru_cache(maxsize=1)
def _standards() -> tuple[TrackStandard, ...]:
    found: dict[tuple[str, str, float], list[Entry]] = {}
    for row in _rows("wheels.csv"):
        if not row["gauge_mm"]:
            continue  # the one row that holds for several gauges; see `coning`
        key = (row["standard"], row["gauge_label"], float(row["gauge_mm"]))
        found.setdefault(key, []).append(_entry(row))
    return tuple(
        TrackStandard(name, gauge, label, tuple(entries))
        for (name, label, gauge), entries in found.items()
    )


def _entry(row: dict[str, str]) -> Entry:
    value = _mm(row["value"], row["unit"])
    if value is None:
        raise ValueError(f"{row['standard']}, {row['parameter']}: no value in the table")
    return Entry(
        parameter=_ALIASES.get(row["parameter"], row["parameter"]),
        printed=row["parameter"],
        value=value,
        qualifier=row["qualifier"],
        plus=_mm(row["tol_plus"], row["unit"]),
        minus=_mm(row["tol_minus"], row["unit"]),
        sources=row["sources"],
        confidence=row["confidence"],
        note=row["note"],
    )


@lru_cache(maxsize=64)
def standards(gauge: float | None = None) -> tuple[TrackStandard, ...]:
    """Return the standards of a track gauge (mm), or all of them.

    Gauges within one per cent are one track under two names (89 and 88.9 mm).
    """
    known = _standards()
    if gauge is None:
        return known
    return tuple(one for one in known if abs(one.gauge - gauge) <= _SAME_TRACK * gauge)


@lru_cache(maxsize=256)
def standard(name: str, gauge: float) -> TrackStandard:
    """Return the standard of that name for a track gauge (mm).

    A name that is printed for several sections of one gauge gives them together.

    Raises
    ------
    StandardUnknown : naming the standards that there are for this gauge.
    """
    here = standards(gauge)
    found = [one for one in here if one.name.casefold() == name.strip().casefold()]
    if not found:
        names = ", ".join(dict.fromkeys(one.name for one in here))
        raise StandardUnknown(
            f"No wheel standard “{name}” is on record for {gauge:g} mm track; "
            + (f"there are {names}." if names else "there is none for this gauge.")
        )
    entries = tuple(entry for one in found for entry in one.entries)
    return TrackStandard(found[0].name, found[0].gauge, found[0].label, entries)


def usual_standard(gauge: float) -> TrackStandard | None:
    """Return the standard of this gauge that prints most wheel dimensions, None if none."""
    wheel = ("back_to_back", "tyre_width", "flange_thickness", "flange_depth", "root_radius")
    best, most = None, 0
    for one in standards(gauge):
        count = sum(one.value(parameter) is not None for parameter in wheel)
        if count > most:
            best, most = one, count
    return best


@lru_cache(maxsize=64)
def disagreements(gauge: float) -> tuple[Disagreement, ...]:
    """Return the parameters on which the standards of a gauge (mm) do not agree."""
    by_parameter: dict[str, list[tuple[str, float, str, str]]] = {}
    words: dict[str, str] = {}
    for one in standards(gauge):
        for entry in one.entries:
            words[entry.parameter] = entry.word
            by_parameter.setdefault(entry.parameter, []).append(
                (one.name, entry.value, entry.qualifier, entry.sources)
            )
    return tuple(
        Disagreement(parameter, words[parameter], tuple(values))
        for parameter, values in by_parameter.items()
        if len({name for name, *_ in values}) > 1
        and max(v for _, v, *_ in values) - min(v for _, v, *_ in values) > 0.01
    )


@lru_cache(maxsize=1)
def curve_rules() -> tuple[CurveRule, ...]:
    """Return the published rules for curves."""
    return tuple(
        CurveRule(
            row["standard"], row["gauge"], row["case"], row["group"], float(row["value"]),
            row["unit"], row["sources"], row["note"],
        )
        for row in _rows("curves_min_radius.csv")
    )  # fmt: skip


def greatest_attack_angle() -> tuple[float, str]:
    """Return the greatest angle of a fixed wheel to the rail in degrees, and who says so."""
    for rule in curve_rules():
        if rule.group == "max wheel attack angle":
            return rule.value, rule.standard
    raise ValueError("the curve table holds no attack angle")


def word_of(parameter: str) -> str:
    """Return a parameter's name in the trade's words."""
    return _WORDS.get(parameter, parameter.replace("_", " ").capitalize())
