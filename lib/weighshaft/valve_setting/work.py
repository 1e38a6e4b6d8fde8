"""The chapter worked: each cylinder's readings fitted, mended, and the next reading chosen."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from ..findings import Finding, Suggestion, by_level, still_open, unlocked
from ..motion import AnyGear, Crank, SlideValve, ValveSetting
from ..motion.as_built import as_built
from ..motion.frame import Array
from ..motion.kernel import prove
from ..motion.many_events import ManyEvents, many_events
from ..working import Working
from .advise import GEARS, Asked, what_next
from .decisions import SIDES, AirTest, Reading
from .faults import Fault, Out, amount, faults_of, how_far, throw_of
from .fit import COVER, Fit, beforehand, fit
from .judgement import (
    cannot_be,
    cautions,
    nothing_to_set,
    of_advice,
    of_air,
    of_faults,
    of_readings,
    would_lock,
    wrong_way,
)
from .mend import Mended, after, departure, least_move, mendings, pitch_of, turns_of
from .model import Bench
from .readings import Points, edge_of, placed
from .results import FOUND, MENDED, FaultFound, SideSet, Taken, ValveSettingResult

_FAR = 4.0
"""A reading that no fault to be believed explains to within so many deviations cannot be."""
_THETA = np.linspace(0.0, 360.0, 73)
_FITTED = np.linspace(0.0, 360.0, 24, endpoint=False)
_FIRST, _NEXT = 8, 3


def work(
    valve_setting: AirTest,
    *,
    gear: AnyGear,
    crank: Crank,
    valve: SlideValve,
    setting: ValveSetting,
    pressure: float | None = None,
    fixed: frozenset[str] = frozenset(),
) -> ValveSettingResult:
    """Work the chapter.

    Parameters
    ----------
    valve_setting : the readings and how they were taken.
    gear, crank, valve, setting : as in the chapter on valves and motion.
    pressure : of the boiler, bar gauge; None when unknown.
    fixed : paths of sizes that a bought part has settled; no button changes them.

    Raises
    ------
    MotionLocks : when the gear locks as designed.
    SizeError : when valve and gear contradict one another.
    """
    said = cautions(pressure)
    findings = list(of_air(valve_setting, pressure))
    bare = ValveSettingResult(
        readings_used=0, determined=0, move_valve=None, departure_found=None,
        departure_mended=None, uneven_found=None, uneven_mended=None, shown=None, sides=(),
        cautions=said, crank=crank, valve=valve, workings=(), suggestions=(), findings=(),
    )  # fmt: skip
    if gear.kind == "oscillating":
        findings = [nothing_to_set(), *findings]
        return replace(bare, findings=unlocked(by_level(findings), fixed))
    stand = _stand(valve_setting, gear, crank, valve, setting)
    sides = []
    for side in SIDES:
        own = [(i, one) for i, one in enumerate(valve_setting.readings, 1) if one.side == side]
        if own or side == valve_setting.side:
            done, found = _on_side(valve_setting, stand, side, own)
            sides.append(done)
            findings += found
    shown = next(one for one in sides if one.side == valve_setting.side)
    moved = next((one for one in shown.mendings if one.fault == 0), None)
    workings: tuple[Working, ...] = ()
    if moved is not None and moved.turns is not None:
        pitch = pitch_of(valve_setting.mends)
        workings = (
            turns_of.work("Turns of the spindle's nuts", "count", s=abs(moved.amount), p=pitch),
        )
    used = sum(one.used for one in shown.readings)
    return replace(
        bare,
        readings_used=used,
        determined=sum(one.determined for one in shown.faults) if used else 0,
        move_valve=None if moved is None else moved.amount,
        departure_found=shown.departure_found if used else None,
        departure_mended=shown.departure_mended if used else None,
        uneven_found=_uneven(shown.events, FOUND) if used else None,
        uneven_mended=_uneven(shown.events, MENDED) if used else None,
        shown=shown,
        sides=tuple(sides),
        workings=workings,
        suggestions=still_open(_suggested(valve_setting, stand.out), fixed),
        findings=unlocked(by_level(findings), fixed),
    )


@dataclass(frozen=True)
class _Stand:
    """What both sides share: the gear on the stand, its notches, and how far it may be out."""

    bench: Bench
    gear: AnyGear
    rows: tuple[float, ...]
    out: Out


def _stand(
    test: AirTest, gear: AnyGear, crank: Crank, valve: SlideValve, setting: ValveSetting
) -> _Stand:
    usual = [row for row in GEARS if row != 0 or gear.notched]
    others = {one.reverser for one in test.readings} - {None} - set(usual)
    if not gear.notched:
        others.discard(0.0)
    rows = (*usual, *sorted(row for row in others if row is not None))
    prove(crank, gear, [*rows, setting.reverser])
    built: Any = as_built(gear)
    if getattr(gear, "advance_backward", 0.0) is None:  # a slip eccentric with its stops alike
        built = replace(built, advance_backward=built.advance)
    full = many_events(crank, valve, gear, [1.0], setting=setting)
    half = float(full.travel[0, 0]) / 2
    out = how_far(test.believed, valve, half, throw_of(gear, half))
    faults = faults_of(built, out, test.instruments)
    bench = Bench(crank, built, valve, float(full.setting[0, 0]), faults)
    return _Stand(bench, gear, rows, out)


def _on_side(
    test: AirTest, stand: _Stand, side: str, own: list[tuple[int, Reading]]
) -> tuple[SideSet, list[Finding]]:
    """Return what was found on one side, and what is to be said of it."""
    bench = stand.bench
    numbered = dict(own)
    points, refused = placed(own, stand.gear, bench.crank, bench.valve, test.instruments)
    points = _widest(bench, points)
    designed = _events(bench, np.zeros((1, len(bench.faults))), stand.rows)
    points, impossible = _possible(bench, points, designed, stand.rows, numbered)
    usual = [row for row in stand.rows if row in GEARS]
    n = len(bench.faults)
    nothing = bench.curves(np.zeros(n), usual, _FITTED)
    fitted = fit(bench, points) if len(points) else None
    by_fault = nothing if fitted is None else bench.curves(fitted.faults[0], usual, _FITTED)
    locks = not np.isfinite(by_fault).all()
    if locks:
        fitted, by_fault = None, nothing
    found = np.zeros(n) if fitted is None else fitted.faults[0]
    covariance = np.diag(bench.possible**2) if fitted is None else fitted.covariance[0]
    asked = _asked(bench.faults, by_fault, usual)
    known = _known(bench.faults, asked, found, covariance)
    least = least_move(test.mends, test.instruments)
    mended = Mended(()) if fitted is None else mendings(
        bench.faults, by_fault, found, covariance, test.mends, least
    )  # fmt: skip
    left = after(found, mended.made)
    three = np.stack([np.zeros(n), found, left])
    events = _events(bench, three, stand.rows)
    kept = () if fitted is None else np.array(points.numbers)[fitted.used[0]]
    advice = what_next(
        bench, stand.gear, events, FOUND, stand.rows, found, covariance, test.instruments,
        {(numbered[i].reverser or 0.0, numbered[i].end, numbered[i].what) for i in kept}, side,
        _NEXT if len(kept) else _FIRST, _wanted(bench.faults, asked),
    )  # fmt: skip
    done = SideSet(
        side=side,
        readings=_taken(bench, points, fitted, numbered),
        faults=known,
        mendings=mended.made,
        spared=mended.spared,
        advice=advice,
        rows=stand.rows,
        events=events,
        theta=_THETA,
        curves=_curves(bench, three, stand.rows),
        scatter=1.0 if fitted is None else float(fitted.scatter[0]),
        departure_found=departure(by_fault, found),
        departure_mended=departure(by_fault, left),
    )
    findings = [
        *([would_lock(side)] if locks else []),
        *of_readings(done, numbered, {**refused, **impossible}, fitted, points),
        *of_faults(done, bench.faults, test.mends, least),
        *of_advice(done),
    ]
    return done, findings


def _events(bench: Bench, faults: Array, rows: tuple[float, ...]) -> ManyEvents:
    held = np.full((len(faults), 1), bench.setting)
    if not hasattr(bench.gear, "seen"):
        gear, valve = bench.spread(faults)
        return many_events(bench.crank, valve, gear, rows, constant=held)
    # a gear that exchanges steam and exhaust looks at one valve at a time
    found = []
    for i, own in enumerate(faults):
        gear, _ = bench.spread(own[None])
        found.append(
            many_events(bench.crank, bench.made(own), gear, rows, constant=held[i : i + 1])
        )
    names = [name for name, value in vars(found[0]).items() if value is not None]
    joined = {name: np.concatenate([getattr(one, name) for one in found]) for name in names}
    return replace(found[0], **joined)


def _curves(bench: Bench, faults: Array, rows: tuple[float, ...]) -> Array:
    """Return the valve's place after setting, (T, rows, angles) mm ahead of its middle."""
    gear, valve = bench.spread(faults)
    row = np.array(rows)[:, None]
    with np.errstate(all="ignore"):
        xi = gear.pose(bench.crank, _THETA[None, :], row).valve
    shifts = [edge_of(gear, bench.valve, r, "front", steam=True).shift for r in rows]
    moved = np.array(shifts)[None, :, None] * np.asarray(valve.valve_offset).reshape(-1, 1, 1)
    whole: Array = np.broadcast_to(xi, (len(faults), len(rows), len(_THETA)))
    placed: Array = whole + bench.setting + moved
    return placed


def _widest(bench: Bench, points: Points) -> Points:
    """Return the readings with greatest openings put where the design has them."""
    if not points.peak.any():
        return points
    some = points.some(points.peak)
    with np.errstate(all="ignore"):
        xi = bench.gear.pose(bench.crank, _THETA[None, :-1], some.reversers[:, None]).valve
    theta = points.theta.copy()
    theta[points.peak] = _THETA[(some.sign[:, None] * xi).argmax(axis=1)]
    return replace(points, theta=theta)


def _possible(
    bench: Bench, points: Points, designed: ManyEvents, rows: tuple[float, ...],
    numbered: dict[int, Reading],
) -> tuple[Points, dict[int, str]]:  # fmt: skip
    """Return the readings that some fault of the workshop could explain, and why not others."""
    if not len(points):
        return points, {}
    bend = bench.bend(points, np.zeros((1, len(bench.faults))), points.theta[None])[0]
    far, opened = beforehand(bench, points, points.theta[None])
    slope = opened.slope[0]
    with np.errstate(divide="ignore", invalid="ignore"):
        clear = np.abs(slope / bend) > 8.0  # degrees from where the port is widest or tightest
    wrong = (points.rising * slope < 0) & clear
    off = np.abs(far[0]) > _FAR
    why: dict[int, str] = {}
    for i in np.flatnonzero(wrong | off):
        number = points.numbers[i]
        reading = numbered[number]
        why[number] = cannot_be(reading, designed, rows) if off[i] else wrong_way(reading)
    return points.some(~(wrong | off)), why


def _asked(faults: tuple[Fault, ...], by_fault: Array, rows: list[float]) -> tuple[Asked, ...]:
    """Return what the readings are to tell: every fault, and what those of valve and rods make."""
    eye = np.eye(len(faults))
    single = [Asked(one.name, one.unit, eye[i], one.possible) for i, one in enumerate(faults)]
    together = [
        Asked(f"middle of the valve's travel, {GEARS[row]}", "mm", mean, faults[0].possible)
        for row, mean in zip(rows, by_fault.mean(axis=1), strict=True)
        if row != 0
    ]
    return (*single, *together)


def _wanted(faults: tuple[Fault, ...], asked: tuple[Asked, ...]) -> tuple[Asked, ...]:
    """Return what mending wants to know: of valve and rods only what they make together."""
    apart = {one.name for one in faults if one.sort in ("valve", "rod", "disc")}
    return tuple(one for one in asked if one.name not in apart)


def _known(
    faults: tuple[Fault, ...], asked: tuple[Asked, ...], found: Array, covariance: Array
) -> tuple[FaultFound, ...]:
    """Return what was found of every fault, and of what they amount to together."""
    sorts: list[str] = [one.sort for one in faults]
    words = [(one.more, one.less) for one in faults]
    beyond = len(asked) - len(faults)
    sorts += ["together"] * beyond
    words += [("ahead", "back")] * beyond
    return tuple(
        _fault(one, sort, word, float(one.share @ found),
               COVER * float(np.sqrt(one.share @ covariance @ one.share)))
        for one, sort, word in zip(asked, sorts, words, strict=True)
        if sort != "disc"
    )  # fmt: skip


def _fault(
    one: Asked, sort: str, words: tuple[str, str], value: float, within: float
) -> FaultFound:
    determined = within <= one.possible / 2
    if not determined:
        says = "not determined"
    elif abs(value) <= within:
        says = "right"
    else:
        says = f"{amount(abs(value), one.unit)} {words[0] if value > 0 else words[1]}"
    return FaultFound(
        name=one.name, sort=sort, unit=one.unit, determined=determined, says=says, value=value,
        within=within, possible=one.possible,
    )  # fmt: skip


def _taken(
    bench: Bench, points: Points, fitted: Fit | None, numbered: dict[int, Reading]
) -> tuple[Taken, ...]:
    if fitted is None:
        return ()
    lap = points.steam * bench.valve.steam_lap + points.exhaust * bench.valve.exhaust_lap
    place = points.sign * (points.target + lap)
    return tuple(
        Taken(
            number=number, what=numbered[number].what, reverser=float(points.reversers[i]),
            end=numbered[number].end, used=bool(fitted.used[0, i]),
            why="" if fitted.used[0, i] else "does not go with the others",
            theta=float(fitted.opened.theta[0, i]), place=float(place[i]),
            departs=float(fitted.departs[0, i]),
        )
        for i, number in enumerate(points.numbers)
    )  # fmt: skip


def _uneven(events: ManyEvents, which: int) -> float | None:
    front, back = events.percent[which, 0, :, 1]
    return float(abs(front - back)) if np.isfinite(front) and np.isfinite(back) else None


def _suggested(test: AirTest, out: Out) -> tuple[Suggestion, ...]:
    why = {
        "valve": "a valve put on its spindle by eye",
        "angle": "a sheave scribed and set by eye",
        "throw": "a throw marked out and bored",
        "rod": "a rod drilled to lines",
        "lap": "laps filed to lines",
    }
    return tuple(
        Suggestion(f"valve_setting.believed.{name}", getattr(out, name), reason)
        for name, reason in why.items()
        if getattr(test.believed, name) is None
    )
