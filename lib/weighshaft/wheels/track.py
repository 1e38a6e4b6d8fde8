"""Our wheels against the standard, and what they leave of the gauge."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ..findings import Finding, Suggestion
from ..trade import tracks
from ..working import Working
from . import relations
from .decisions import Wheels
from .results import Line

CHAPTER = "wheels"
# Shares of the gauge where no standard prints a figure: the mean of the 3 1/2, 5 and
# 7 1/4 in rows of the IBLS sheet (S37), rounded.
_SHARES = {
    "back_to_back": 0.94,
    "tyre_width": 0.108,
    "flange_thickness": 0.025,
    "flange_depth": 0.027,
}
_PATHS = {
    "back_to_back": "wheels.back_to_back",
    "tyre_width": "wheels.tyres.tyre_width",
    "flange_thickness": "wheels.tyres.flange_thickness",
    "flange_depth": "wheels.tyres.flange_depth",
}
_HAIR = 0.005  # mm: what rounding an inch figure to mm costs, never a fault


@dataclass(frozen=True)
class Track:
    """The sizes taken for tread and flange, and what was found about them."""

    gauge: float
    back_to_back: float
    tyre_width: float
    flange_thickness: float
    flange_depth: float
    flange_angle: float
    lines: tuple[Line, ...]
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]

    @property
    def play(self) -> float:
        """What the wheels leave of the gauge, both sides together, mm."""
        return self.gauge - self.over_flanges

    @property
    def over_flanges(self) -> float:
        """Over both flange faces, mm."""
        return self.back_to_back + 2 * self.flange_thickness

    @property
    def check_gauge(self) -> float:
        """Back to back and one flange, mm."""
        return self.back_to_back + self.flange_thickness


@dataclass(frozen=True)
class _Taken:
    value: float
    whence: str


def _known(name: str, gauge: float) -> tuple[tracks.TrackStandard | None, Finding | None]:
    try:
        return tracks.standard(name, gauge), None
    except tracks.StandardUnknown as unknown:
        usual = tracks.usual_standard(gauge)
        mend = (
            f"Choose one of these; {usual.name} is taken meanwhile."
            if usual
            else ("Give every size of tread and flange; shares of the gauge are taken meanwhile.")
        )
        change = ("wheels.standard", usual.name) if usual else None
        says = str(unknown)
        return usual, Finding("check", CHAPTER, ("wheels.standard",), says, mend, change=change)


def _take(
    parameter: str, ours: float | None, standard: tracks.TrackStandard | None, gauge: float
) -> _Taken:
    if ours is not None:
        return _Taken(ours, "")
    if standard is not None and (value := standard.value(parameter)) is not None:
        return _Taken(value, f"{standard.name}, {gauge:g} mm")
    for other in tracks.standards(gauge):
        if (value := other.value(parameter)) is not None:
            return _Taken(value, f"{other.name}, since the standard chosen gives none")
    return _Taken(_SHARES[parameter] * gauge, "a share of the gauge, no standard gives it")


@lru_cache(maxsize=256)
def against_standard(wheels: Wheels, track_gauge: float) -> Track:
    """Return tread and flange sizes, ours or the standard's, and how they agree.

    Parameters
    ----------
    wheels : the decisions.
    track_gauge : of the model, mm.
    """
    standard, unknown = _known(wheels.standard, track_gauge)
    given = {
        "back_to_back": wheels.back_to_back,
        "tyre_width": wheels.tyres.tyre_width,
        "flange_thickness": wheels.tyres.flange_thickness,
        "flange_depth": wheels.tyres.flange_depth,
    }
    taken = {name: _take(name, ours, standard, track_gauge) for name, ours in given.items()}
    # the standard's own figure stays in sight beside a size that the builder has settled
    suggested = {name: _take(name, None, standard, track_gauge) for name in given}
    b2b, tyre, thick, depth = (taken[name].value for name in given)
    angle = standard.value("flange_angle_deg") if standard else None
    lines = _lines(standard, taken, track_gauge)
    findings = [unknown] if unknown else []
    findings += _judged(standard, taken, lines, track_gauge)
    working = relations.gauge_left.work(
        "What the wheels leave of the gauge", "mm", G=track_gauge, B=b2b, T=thick
    )
    return Track(
        gauge=track_gauge,
        back_to_back=b2b,
        tyre_width=tyre,
        flange_thickness=thick,
        flange_depth=depth,
        flange_angle=angle or 20.0,
        lines=lines,
        workings=(working,),
        suggestions=tuple(
            Suggestion(_PATHS[name], one.value, one.whence) for name, one in suggested.items()
        ),
        findings=tuple(findings),
    )


def _lines(
    standard: tracks.TrackStandard | None, taken: dict[str, _Taken], gauge: float
) -> tuple[Line, ...]:
    b2b, thick = taken["back_to_back"].value, taken["flange_thickness"].value
    ours = {
        "track_gauge": gauge,
        "back_to_back": b2b,
        "tyre_width": taken["tyre_width"].value,
        "flange_thickness": thick,
        "flange_depth": taken["flange_depth"].value,
        "wheel_check_gauge": b2b + thick,
        "wheel_gauge_over_flange_faces": b2b + 2 * thick,
    }
    return tuple(_line(standard, name, value) for name, value in ours.items())


def _line(standard: tracks.TrackStandard | None, name: str, ours: float) -> Line:
    found = standard.all_of(name) if standard else ()
    word = tracks.word_of(name)
    if standard is None or not found:
        return Line(word, ours, None, "not given", None, None, True, "")
    low, high = standard.limits(name)
    if name == "track_gauge":
        low, high = None, None  # the track's own tolerance, and names such as 89 for 88.9
    fits = (low is None or ours >= low - _HAIR) and (high is None or ours <= high + _HAIR)
    words = ", ".join(dict.fromkeys(entry.qualifier for entry in found))
    return Line(word, ours, standard.value(name), words, low, high, fits, found[0].sources)


def _judged(
    standard: tracks.TrackStandard | None,
    taken: dict[str, _Taken],
    lines: tuple[Line, ...],
    gauge: float,
) -> list[Finding]:
    found: list[Finding] = []
    by_word = {tracks.word_of(name): path for name, path in _PATHS.items()}
    name = standard.name if standard else ""
    for line in lines:
        if line.fits or line.word not in by_word:
            continue
        path, nearest = by_word[line.word], _nearest(line)
        found.append(
            Finding(
                "check",
                CHAPTER,
                (path,),
                f"{line.word} is {line.ours:.2f} mm; {name} allows {_allowed(line)}.",
                f"Make it {nearest:.2f} mm, or choose a standard that suits your line.",
                f"{name} ({line.sources})",
                (path, round(nearest, 3)),
            )
        )
    play = gauge - taken["back_to_back"].value - 2 * taken["flange_thickness"].value
    paths = ("wheels.back_to_back", "wheels.tyres.flange_thickness")
    if play <= 0:
        fitting = gauge - 2 * taken["flange_thickness"].value - 0.02 * gauge
        found.append(
            Finding(
                "stop",
                CHAPTER,
                paths,
                f"The wheels measure {gauge - play:.2f} mm over the flanges and do not go between "
                f"rails {gauge:g} mm apart.",
                f"Bring them to {fitting:.2f} mm back to back, or thin the flanges.",
                "geometry",
                ("wheels.back_to_back", round(fitting, 2)),
            )
        )
    elif not any(line.low or line.high for line in lines) or all(line.fits for line in lines):
        found.append(
            Finding(
                "fine",
                CHAPTER,
                paths,
                f"The wheels leave {play:.2f} mm of the gauge, {play / 2:.2f} mm a side.",
                source=name or "geometry",
            )
        )
    return found


def _nearest(line: Line) -> float:
    if line.low is not None and line.ours < line.low:
        return line.low
    return line.high if line.high is not None else line.ours


def _allowed(line: Line) -> str:
    if line.low is None:
        return f"{line.high:.2f} mm at most"
    if line.high is None:
        return f"{line.low:.2f} mm at least"
    return f"{line.low:.2f} to {line.high:.2f} mm"
