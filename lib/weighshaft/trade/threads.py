"""Threads: BA, BSW, BSF, model engineers' 40/32/26, UNC/UNF/UNEF, ISO metric and BSP."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from ..measures import INCH, circle_area
from .tables import rows

Form = Literal["BA", "Whitworth", "60°"]

SERIES: dict[str, str] = {
    "BA": "British Association",
    "BSW": "British Standard Whitworth",
    "BSF": "British Standard Fine",
    "ME40": "model engineers', 40 to the inch",
    "ME32": "model engineers', 32 to the inch",
    "BSB26": "brass, 26 to the inch",
    "UNC": "Unified coarse",
    "UNF": "Unified fine",
    "UNEF": "Unified extra fine",
    "ISO": "ISO metric coarse",
    "ISO fine": "ISO metric fine",
    "G": "parallel pipe (BSP)",
}
"""Name of each series by its key."""

EXTERNAL_DEPTH_60 = 17 / 24 * math.sqrt(3) / 2
"""Depth of a metric external thread in pitches: 17/24 of the sharp triangle (ISO 898-1)."""


class UnknownThread(ValueError):
    """A designation that is in no table; the text names the near ones."""


@dataclass(frozen=True)
class Thread:
    """One thread as the tables give it; lengths in mm.

    Parameters
    ----------
    designation : as the trade writes it, such as "5/32 × 40", "8BA", "M3".
    series : key of `SERIES`.
    size : nominal size alone, such as "5/32", "8", "M3".
    major, pitch, effective : basic diameters and pitch.
    minor : core of the male thread.
    minor_internal : bore of the female thread of full form.
    depth : depth of the male thread.
    angle : between the flanks, degrees.
    tpi : threads an inch.
    stress_area : mm²; published where the table has it, else of the mean of effective and
        core diameter, which is how ISO 898-1 defines it.
    source : keys of the README beside the tables.
    note : what the table says of disagreements.
    """

    designation: str
    series: str
    size: str
    major: float
    pitch: float
    effective: float
    minor: float
    minor_internal: float
    depth: float
    angle: float
    tpi: float
    stress_area: float
    source: str
    note: str = ""

    @property
    def form(self) -> Form:
        """Form of the thread: BA and Whitworth are rounded, 60° has flats."""
        return {47.5: "BA", 55.0: "Whitworth"}.get(self.angle, "60°")  # type: ignore[return-value]

    @property
    def core_area(self) -> float:
        """Area of the solid core, mm²."""
        return circle_area(self.minor)

    @property
    def flank(self) -> float:
        """Tangent of the half angle between the flanks."""
        return math.tan(math.radians(self.angle / 2))


def _area(effective: float, minor: float) -> float:
    return circle_area((effective + minor) / 2)


def _ba() -> Iterator[Thread]:
    for row in rows("threads_ba"):
        major, pitch, effective, minor, depth = (
            float(row[name])
            for name in ("major_mm", "pitch_mm", "effective_mm", "minor_mm", "depth_mm")
        )
        yield Thread(
            row["designation"], "BA", row["number"], major, pitch, effective, minor, minor,
            depth, 47.5, INCH / pitch, _area(effective, minor), row["sources"], row["note"],
        )  # fmt: skip


def _whitworth() -> Iterator[Thread]:
    for row in rows("threads_bsw_bsf"):
        effective, minor = float(row["effective_mm"]), float(row["minor_mm"])
        yield Thread(
            row["designation"], row["series"], row["designation"].split()[0],
            float(row["major_mm"]), INCH / float(row["tpi"]), effective, minor, minor,
            float(row["depth_in"]) * INCH, 55.0, float(row["tpi"]), _area(effective, minor),
            row["sources"], row["note"],
        )  # fmt: skip
    for row in rows("threads_me"):
        major, depth = float(row["major_mm"]), float(row["depth_in"]) * INCH
        effective, minor = major - depth, major - 2 * depth
        yield Thread(
            row["designation"].replace(" x ", " × "), row["series"],
            row["designation"].split()[0], major, INCH / float(row["tpi"]), effective, minor,
            minor, depth, 55.0, float(row["tpi"]), _area(effective, minor), row["sources"],
        )  # fmt: skip
    for row in rows("pipe_g"):
        effective, minor = float(row["pitch_dia_mm"]), float(row["minor_mm"])
        yield Thread(
            row["designation"], "G", row["designation"], float(row["major_mm"]),
            INCH / float(row["tpi"]), effective, minor, minor, float(row["depth_mm"]), 55.0,
            float(row["tpi"]), _area(effective, minor), row["sources"], row["note"],
        )  # fmt: skip


def _unified() -> Iterator[Thread]:
    for row in rows("threads_un"):
        major, effective, minor, bore = (
            float(row[name]) * INCH
            for name in ("major_in", "pitch_dia_in", "minor_ext_unr_ref_in", "minor_int_in")
        )
        yield Thread(
            row["designation"], row["series"], row["size"], major, INCH / float(row["tpi"]),
            effective, minor, bore, (major - minor) / 2, 60.0, float(row["tpi"]),
            float(row["tensile_stress_area_in2"]) * INCH**2, row["sources"], row["note"],
        )  # fmt: skip


def _metric() -> Iterator[Thread]:
    for row in rows("threads_iso"):
        pitch = float(row["pitch_mm"])
        fine = row["pitch_series"] == "fine"
        yield Thread(
            row["designation"].replace("x", " × "), "ISO fine" if fine else "ISO",
            row["designation"].split("x")[0], float(row["major_mm"]), pitch,
            float(row["pitch_dia_D2_mm"]), float(row["minor_ext_d3_mm_computed"]),
            float(row["minor_int_D1_mm"]), EXTERNAL_DEPTH_60 * pitch, 60.0, INCH / pitch,
            float(row["stress_area_published_mm2"] or row["stress_area_formula_mm2"]),
            row["sources"], row["note"],
        )  # fmt: skip


@cache
def threads(series: str | None = None) -> tuple[Thread, ...]:
    """Return the threads of one series, or of all, by rising major diameter.

    Parameters
    ----------
    series : a key of `SERIES`; None for all.

    Raises
    ------
    UnknownThread : when there is no such series.
    """
    if series is not None and series not in SERIES:
        raise UnknownThread(f"“{series}” is not a series; there are {', '.join(SERIES)}.")
    every = (*_ba(), *_whitworth(), *_unified(), *_metric())
    chosen = [one for one in every if series in (None, one.series)]
    return tuple(sorted(chosen, key=lambda one: (one.major, one.pitch)))


# --- designations as builders write them --------------------------------------------------

_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⁄": "/",
}  # fmt: skip
_LONGEST = 40


def _plain(text: str) -> str:
    """Return a designation without what does not tell threads apart."""
    for sign, plain in _VULGAR.items():
        text = text.replace(sign, plain)
    text = text.lower().replace("×", "x").replace("*", "x").replace("–", "-")
    text = re.sub(r"\bby\b", "x", text)
    text = re.sub(r"[\"″”']|\binch(?:es)?\b|(?<=\d)\s*in\b|t\.?p\.?i\.?", "", text)
    text = re.sub(r"^\s*(?:#|no\.?\s*(?=\d)|number\b)", "", text)
    text = re.sub(r"(?<!\d)\.(?!\d)|(?<=[a-z])\.|\.(?=[a-z])", "", text)
    text = re.sub(r"(?<!\d)\.(?=\d)", "0.", text)
    return "".join(text.split())


def _spellings(one: Thread) -> tuple[str, ...]:
    size, count = _plain(one.size), f"{one.tpi:g}"
    if one.series == "BA":
        return (f"{size}ba", f"ba{size}")
    if one.series in ("ISO", "ISO fine"):
        with_pitch = f"{size}x{one.pitch:g}"
        return (with_pitch, f"{size}-{one.pitch:g}", *([size] if one.series == "ISO" else []))
    if one.series == "G":
        bare = size.removeprefix("g")
        return tuple(f.format(bare) for f in ("g{}", "g{}a", "{}bsp", "{}bspp", "bsp{}", "{}gas"))
    names = {
        "BSW": ("bsw", "whit", "whitworth", "w"),
        "ME40": ("me",), "ME32": ("me",), "BSB26": ("brass", "bsb", "me", "bsbrass"),
    }.get(one.series, (one.series.lower(),))  # fmt: skip
    made = [f"{size}{sign}{count}{name}" for sign in "x-" for name in names]
    made += [f"{name}{size}{sign}{count}" for sign in "x-" for name in names]
    if not one.series.startswith("ME"):
        made += [f"{size}{name}" for name in names]
    return tuple(made)


_HYPHEN_FIRST = ("UNC", "UNF", "UNEF", "ME40", "ME32", "BSB26", "BSW", "BSF")
_CROSS_FIRST = ("ME40", "ME32", "BSB26", "BSW", "BSF", "UNC", "UNF", "UNEF")


@cache
def _index() -> dict[str, Thread]:
    index: dict[str, Thread] = {}
    for one in threads():
        for spelling in (_plain(one.designation), *_spellings(one)):
            index.setdefault(spelling, one)
    # "1/4-20" is Unified to most, "1/4 × 40" is a model engineer's; else whoever has it
    for sign, order in (("-", _HYPHEN_FIRST), ("x", _CROSS_FIRST)):
        for series in order:
            for one in threads(series):
                index.setdefault(f"{_plain(one.size)}{sign}{one.tpi:g}", one)
    return index


@lru_cache(maxsize=512)
def thread(designation: str) -> Thread:
    """Return the thread that a designation names.

    Parameters
    ----------
    designation : in the usual spellings, such as "8BA", "5/32x40", "1/4 BSF", "M3", "M3x0.35",
        "4-40", "G 1/8", "1/8 BSP".

    Raises
    ------
    UnknownThread : naming the near ones.
    """
    text = designation.strip()
    if len(text) > _LONGEST:
        raise UnknownThread("That is too long for a thread; try 8BA, 1/4 × 40 or M3.")
    plain = _plain(text)
    found = _index().get(plain)
    if found is None:
        near = _near(plain)
        hint = (
            f"near it there are {', '.join(near)}" if near else "try 8BA, 1/4 × 40, 1/4 BSF or M3"
        )
        raise UnknownThread(f"“{text}” is not a thread in the tables; {hint}.")
    return found


def _near(plain: str) -> list[str]:
    size = re.match(r"m?\d+(?:/\d+|\.\d+)?", plain)
    same = [
        one.designation
        for one in threads()
        if size and _plain(one.size).removeprefix("g") == size[0] and one.series != "BA"
    ]
    if "ba" in plain:
        same = []
    close = difflib.get_close_matches(plain, list(_index()), n=8, cutoff=0.6)
    names = same + [_index()[match].designation for match in close]
    return list(dict.fromkeys(names))[:5]
