"""What is said of the line beside the curve, the vehicle behind and the turnouts."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..findings import Finding, Level
from .decisions import BY_NUMBER, Curving
from .results import CurvingResult
from .throws import widest

CHAPTER = "curving"


@dataclass(frozen=True)
class Given:
    """What the judgement rests on besides the result; see `work`.

    Parameters
    ----------
    head : buffers off the centre line and diameter of their heads, mm.
    """

    curving: Curving
    wanted: float | None
    coupled_radius: float
    flange: float
    width_limit: float | None
    speed: float | None
    centre_height: float | None
    head: tuple[float, float]
    axle: float


def metres(radius: float) -> str:
    """Return a radius in metres, as it is said."""
    return f"{radius / 1000:.2f} m"


def judge_line(given: Given, result: CurvingResult) -> tuple[Finding, ...]:
    """Return the findings on what stands beside the engine and behind it."""
    return (
        *_beside(given, result), *_behind(given, result), *_buffers(given, result),
        *_turnout(given, result),
    )  # fmt: skip


def _beside(given: Given, result: CurvingResult) -> Iterator[Finding]:
    outer, inner = widest(result.throws)
    line, where = given.curving.line, f"on {metres(result.drawn)}"
    gap = result.clear_outside - outer.reach_outside
    for side, part, reach, room in (
        ("outside", outer, outer.reach_outside, line.outside),
        ("inside", inner, inner.reach_inside, line.inside),
    ):  # fmt: skip
        path = f"curving.line.{side}"
        says = (
            f"{side.capitalize()} the curve the engine reaches {reach:.1f} mm from the track's "
            f"middle {where}, at the {part.name}"
        )
        clear = math.ceil(10 * (reach + gap)) / 10
        if room is None:
            yield Finding(
                "fine", CHAPTER, (path,),
                f"{says}: with a gap of {gap:.1f} mm the line must be clear to "
                f"{clear:.1f} mm there.", source="geometry, the engine at its worst in its play",
            )  # fmt: skip
        elif room < reach + gap:
            yield Finding(
                "stop" if room < reach else "check", CHAPTER, (path, "wheels.radius_wanted"),
                f"{says}; the nearest structure stands {room:.1f} mm off, "
                f"{room - reach:.1f} mm clear, and {gap:.1f} mm are wanted.",
                f"Set the structure back to {clear:g} mm, ease the curve or cut the ends narrower.",
                "geometry, the engine at its worst in its play", (path, clear),
            )  # fmt: skip
        else:
            yield Finding(
                "fine", CHAPTER, (path,),
                f"{says}, {room - reach:.1f} mm clear of the nearest structure.",
                source="geometry, the engine at its worst in its play",
            )  # fmt: skip
    limit = given.width_limit
    if limit is not None:
        most = max(outer.reach_outside, inner.reach_inside)
        over = most - limit / 2
        yield Finding(
            "fine", CHAPTER, ("wheels.across.width_limit",),
            f"On the curve the engine needs {most:.1f} mm from the track's middle; the line lets "
            f"{limit / 2:.1f} mm through on the straight, so that there it "
            + (f"must be {over:.1f} mm wider." if over > 0 else "need be no wider."),
            source="geometry",
        )  # fmt: skip


def _behind(given: Given, result: CurvingResult) -> Iterator[Finding]:
    decided, where = given.curving.behind, f"on {metres(result.drawn)}"
    swing, path = result.drawbar, "curving.behind.slot"
    if decided.slot is not None and swing > decided.slot:
        wider = round(swing + 1, 1)
        yield Finding(
            "stop", CHAPTER, (path,),
            f"The drawbar swings {swing:.1f}° to a side {where}; it is free to swing "
            f"{decided.slot:.1f}°.", f"Free it for {wider:g}°.", "geometry", (path, wider),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, (path,),
            f"The drawbar swings {swing:.1f}° to a side {where}, and the vehicle behind stands "
            f"{result.coupled.yaw:.1f}° to the engine.", source="geometry",
        )  # fmt: skip
    yield from _corners(given, result)
    hose = result.hose
    if decided.give is not None and hose > decided.give:
        more = round(math.ceil(10 * hose) / 10, 1)
        yield Finding(
            "stop", CHAPTER, ("curving.behind.give",),
            f"The hose to the vehicle behind has to reach {hose:.1f} mm further {where}; it gives "
            f"by {decided.give:.1f} mm.", f"Leave it {more:g} mm of slack, or bring it nearer "
            "the centre line.", "geometry", ("curving.behind.give", more),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, ("curving.behind.give", "curving.behind.pipe"),
            f"A hose to the vehicle behind has to reach {hose:.1f} mm further {where} on one "
            "side than on the straight.", source="geometry",
        )  # fmt: skip


def _known(given: Given) -> Level:
    """Return how earnest it is: a vehicle that nothing is known of is only an example."""
    behind = given.curving.behind
    unsaid = behind.wheelbase is None and behind.overhang is None and behind.gap is None
    return "fine" if unsaid else "check"


def _corners(given: Given, result: CurvingResult) -> Iterator[Finding]:
    path, corner = "curving.behind.gap", result.corner
    like = " as long as the engine" if given.curving.behind.wheelbase is None else ""
    where = f"Inside a curve of {metres(result.drawn)}"
    if corner < 0:
        turn = math.cos(math.radians(result.coupled.yaw / 2))
        own = given.curving.behind.gap or 2 * (result.whole.back - result.whole.buffer_back)
        apart = round(math.ceil(10 * (own - 1.2 * corner / turn)) / 10, 1)
        yield Finding(
            _known(given), CHAPTER, (path, "frames.beams.width", "curving.behind.overhang"),
            f"{where} the corner of the buffer beam and that of a vehicle{like} meet: "
            f"{-corner:.1f} mm too near.",
            f"Couple with the beams some {apart:g} mm apart, or narrow the beams.", "geometry",
            (path, apart) if apart <= 600 else None,
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, (path,),
            f"{where} the corners of the beams keep {corner:.1f} mm from one another.",
            source="geometry",
        )  # fmt: skip


def _buffers(given: Given, result: CurvingResult) -> Iterator[Finding]:
    across, head = given.head
    if across <= 0 or head <= 0:
        return
    whole, decided = result.whole, given.curving.behind
    length = whole.back - whole.buffer_back
    path, nearer = "curving.behind.gap", result.buffers_nearer
    spare = 0.0 if decided.gap is None else decided.gap - 2 * length
    press = max(nearer - spare, 0.0)
    apart = round(2 * length + nearer, 1)
    each = f"{press / 2:.2f} mm each"
    if press > length / 2:
        yield Finding(
            _known(given), CHAPTER, (path, "frames.beams.buffers_apart"),
            f"Inside the curve the buffers are pressed in by {each}, more than a quarter of their "
            f"{length:.1f} mm.", f"Couple with the beams {apart:g} mm apart, or set the buffers "
            "nearer together.", "geometry; a quarter is common practice", (path, apart),
        )  # fmt: skip
    elif nearer > 0.005:
        yield Finding(
            "fine", CHAPTER, (path,),
            f"Inside the curve the buffers come {nearer:.2f} mm nearer; the springs have to give "
            f"{each}.", source="geometry",
        )  # fmt: skip
    yield from _reverse(given, result)


def _reverse(given: Given, result: CurvingResult) -> Iterator[Finding]:
    """Yield what is said of buffers where a curve turns into one the other way."""
    step, head = result.step, given.head[1]
    fields = ("curving.line.reverses", "frames.beams.buffer_head", "curving.behind.overhang")
    source = "geometry; the straight between after NEM 111 (2016)"
    straight = "Lay a straight as long as the longest vehicle between the curves"
    says = (
        f"Where a curve of {metres(result.drawn)} turns straight into one the other way, the "
        f"buffer heads stand {step:.1f} mm aside of one another; they are {head:.1f} mm wide"
    )
    if step <= head / 2:
        yield Finding("fine", CHAPTER, fields, f"{says} and keep touching.", source=source)
    elif not given.curving.line.reverses:
        yield Finding("fine", CHAPTER, fields, f"{says}. {straight}.", source=source)
    else:
        wide = math.ceil(20 * step) / 10
        yield Finding(
            "stop" if step >= head else "check", CHAPTER, fields,
            says + (" and lock behind one another." if step >= head else " and may slip off."),
            f"{straight}, or fit heads {wide:g} mm wide.", source,
            ("frames.beams.buffer_head", wide) if wide <= 150 else None,
        )  # fmt: skip


def _turnout(given: Given, result: CurvingResult) -> Iterator[Finding]:
    radius = result.turnout_radius
    if radius is None:
        return
    fields = ("curving.line.turnout", "curving.line.crossing")
    source = "turnouts as published, in proportion to the gauge" if (
        given.curving.line.turnout != BY_NUMBER
    ) else "geometry"  # fmt: skip
    if radius < result.smallest:
        yield Finding(
            "stop", CHAPTER, fields,
            f"The sharpest turnout curves at {metres(radius)}; the engine needs "
            f"{metres(result.smallest)}. {result.set_by[:1].upper()}{result.set_by[1:]} sets it.",
            "Give the axles more side play, or use easier turnouts.", source,
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"The sharpest turnout curves at {metres(radius)}, and the engine goes round "
            f"{metres(result.smallest)}.", source=source,
        )  # fmt: skip
