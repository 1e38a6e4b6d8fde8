"""What may be wrong with a valve gear as built, for each kind, and how far at the most."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from ..motion.as_built import has_two_eccentrics
from ..motion.kernel import Gear
from ..motion.valves import SlideValve
from .decisions import Believed, Instruments

Sort = Literal[
    "valve", "angle", "throw", "rod", "lever", "tilt", "height", "lap", "exhaust lap", "disc"
]


@dataclass(frozen=True)
class Fault:
    """One size that may be out, by an amount that the readings are to tell.

    Parameters
    ----------
    name : in the trade's words.
    unit : "mm" or "deg".
    possible : how far it may well be out, either way.
    more, less : what it is called when it is out by more or by less than nothing.
    changes : field of the gear and by how much it moves for one of the fault.
    """

    name: str
    sort: Sort
    unit: Literal["mm", "deg"]
    possible: float
    more: str
    less: str
    changes: tuple[tuple[str, float], ...] = ()

    def called(self, value: float) -> str:
        """Return how much it is out in words, such as "3.4° late"."""
        word = self.more if value > 0 else self.less
        return f"{amount(abs(value), self.unit)} {word}"


def amount(value: float, unit: str) -> str:
    """Return an amount with its unit as a fitter would say it."""
    return f"{value:.1f}°" if unit == "deg" else f"{value:.2f} mm"


@dataclass(frozen=True)
class Out:
    """How far each sort may be out: mm and degrees."""

    valve: float
    angle: float
    throw: float
    rod: float
    lap: float


def how_far(believed: Believed, valve: SlideValve, half_travel: float, throw: float) -> Out:
    """Return how far the work may be out, where the builder has not said.

    Parameters
    ----------
    half_travel : of the valve in full gear, mm.
    throw : of the eccentric or the return crank, mm.

    Source: common practice: a valve put on its spindle by eye, a sheave scribed and filed,
    a throw bored by marking out, a rod drilled to lines.
    """
    lap = max(abs(valve.steam_lap), 0.3 * half_travel)
    return Out(
        valve=believed.valve or _tidy(0.15 * half_travel),
        angle=believed.angle or 4.0,
        throw=believed.throw or _tidy(0.04 * throw),
        rod=believed.rod or _tidy(0.08 * half_travel),
        lap=believed.lap or _tidy(0.08 * lap),
    )


def _tidy(value: float) -> float:
    return max(round(value, 2), 0.02)


def faults_of(gear: Gear, out: Out, instruments: Instruments) -> tuple[Fault, ...]:
    """Return what may be wrong with a gear; the valve always, the disc's zero last."""
    made = [Fault("valve on its spindle", "valve", "mm", out.valve, "ahead", "back")]
    made += _of_gear(gear, out)
    made += [
        Fault("steam lap", "lap", "mm", out.lap, "too much", "too little"),
        Fault("exhaust lap", "exhaust lap", "mm", out.lap, "too much", "too little"),
        Fault("zero of the disc", "disc", "deg", instruments.dead_centre, "too high", "too low"),
    ]
    return tuple(made)


def _of_gear(gear: Any, out: Out) -> list[Fault]:
    if has_two_eccentrics(gear):
        return [
            one
            for way in ("forward", "backward")
            for one in (
                Fault(f"{way} eccentric's angle", "angle", "deg", out.angle, "early", "late",
                      ((f"{way}_advance_by", 1.0),)),
                Fault(f"{way} eccentric's throw", "throw", "mm", out.throw, "too much",
                      "too little", ((f"{way}_throw_by", 1.0),)),
                Fault(f"{way} eccentric rod", "rod", "mm", out.rod, "long", "short",
                      ((f"{way}_rod_by", 1.0),)),
            )
        ]  # fmt: skip
    kind = gear.kind
    if kind == "slip eccentric":
        return [
            Fault("forward stop", "angle", "deg", out.angle, "early", "late", (("advance", 1.0),)),
            Fault("backward stop", "angle", "deg", out.angle, "early", "late",
                  (("advance_backward", 1.0),)),
            _throw("eccentric's throw", "eccentric_throw", out),
        ]  # fmt: skip
    if kind == "change-over":
        return [
            _turned("eccentric's angle", "advance", out),
            _throw("eccentric's throw", "eccentric_throw", out),
        ]
    if kind in ("Walschaerts", "Baker"):
        # a pin drilled too far along the lever: what the one arm gains the other loses
        way = 1.0 if gear.lever_upper > 0 else -1.0
        return [
            _turned("return crank's angle", "return_crank_angle", out),
            _throw("return crank's throw", "return_crank_throw", out),
            _rod("eccentric rod", "eccentric_rod", out),
            Fault("combination lever's short arm", "lever", "mm", out.throw, "long", "short",
                  (("lever_upper", way), ("lever_lower", -way))),
        ]  # fmt: skip
    tilt = Fault(
        "guide's tilt", "tilt", "deg", out.angle, "leaning back", "leaning ahead",
        (("guide_angle_forward", 1.0), ("guide_angle_backward", 1.0)),
    )  # fmt: skip
    if kind == "Hackworth":
        return [
            _turned("eccentric's angle", "eccentric_angle", out),
            _throw("eccentric's throw", "eccentric_throw", out),
            _rod("eccentric rod", "eccentric_rod", out),
            tilt,
        ]
    if kind == "Joy":
        return [
            Fault("guide's pivot", "height", "mm", out.rod, "high", "low", (("guide_y", 1.0),)),
            Fault("lever above its die", "lever", "mm", out.throw, "long", "short",
                  (("lever_upper", 1.0),)),
            tilt,
        ]  # fmt: skip
    return []


def _turned(name: str, field: str, out: Out) -> Fault:
    """A pin that turns with the axle in either direction: ahead as forward running goes."""
    return Fault(name, "angle", "deg", out.angle, "ahead", "behind", ((field, 1.0),))


def _throw(name: str, field: str, out: Out) -> Fault:
    return Fault(name, "throw", "mm", out.throw, "too much", "too little", ((field, 1.0),))


def _rod(name: str, field: str, out: Out) -> Fault:
    return Fault(name, "rod", "mm", out.rod, "long", "short", ((field, 1.0),))


def throw_of(gear: Any, half_travel: float) -> float:
    """Return the throw that a gear starts from, or half the travel where it has none, mm."""
    for name in ("eccentric_throw", "return_crank_throw"):
        if hasattr(gear, name):
            return float(getattr(gear, name))
    return half_travel
