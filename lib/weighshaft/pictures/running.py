"""Pull against speed, the line in plan and profile, and the run over it."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from ..running import Running, RunningResult
from ..running.profile import plan_of
from ..running.results import Run, Wanted, times
from .running_tables import share_table, table_of_happenings, table_of_run, table_of_trains
from .scene import Array, Band, Chart, Circle, Curve, Label, Path, Pen, Picture, Primitive, Scene

_LAPS = 2
_MARKS = 12
_WORDS = {"slip": "slips", "stall": "stalls", "steam": "raises steam", "water": "topped up"}


def pictures(running: Running, result: RunningResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    moved = float(result.run.distance[-1]) > 0.5
    along = (over_distance(result),) if moved else ()
    return (
        *along, pull_chart(result), table_of_trains(result), profile_chart(result), plan(result),
        over_time(result), table_of_run(result), *table_of_happenings(result),
        share_table(result),
    )  # fmt: skip


# --- pull against speed ---------------------------------------------------------------------


def pull_chart(result: RunningResult) -> Chart:
    """Return pull in every notch, the limits, and what trains ask for, against speed."""
    speeds = result.speeds
    heaviest = max(float(one.force[-1]) for one in result.wanted)
    top = max(1.5 * result.grip, min(1.2 * heaviest, 3 * result.grip))
    rail = np.full(speeds.size, result.grip)
    curves = [Curve(speeds, rail, f"rail holds {_newtons(result.grip)}", "stop")]
    beyond = 0
    for one in result.notches:
        cut = _below(one.pull, top)
        beyond += bool(np.isnan(cut).all())
        if not np.isnan(cut).all():
            curves.append(Curve(speeds, cut, f"notch {one.reverser:g}, wide open", "thin"))
    lasting = _below(result.boiler, top)
    if np.isfinite(lasting).any():
        curves.append(Curve(speeds, lasting, "boiler keeps up", "changed"))
    for wanted in result.wanted:
        own = wanted.mass == result.train
        pen: Pen = ("outline" if own else "trace") if not wanted.grade else "hidden"
        cut = _below(wanted.force, top)
        if np.isfinite(cut).any():
            curves.append(Curve(speeds, cut, _name(wanted), pen))
    more = "" if not beyond else (
        f" {'One notch pulls' if beyond == 1 else f'{beyond} notches pull'} beyond what is drawn, "
        f"up to {_newtons(float(result.notches[0].pull[0]))} at a stand."
    )  # fmt: skip
    return Chart(
        "Pull against speed",
        f"The rail holds {result.grip:.1f} N; on the level the train of {result.train:.1f} kg "
        f"balances at {_speed(result.balancing)}, up the steepest rise at "
        f"{_speed(result.uphill)}.{more}",
        "km/h", "N at the rail", tuple(curves),
    )  # fmt: skip


def _below(pull: Array, top: float) -> Array:
    """Return a curve without what lies beyond the chart; gaps are not drawn."""
    made: Array = np.where((pull <= top) & (pull >= 0), pull, np.nan)
    return made


def _newtons(force: float) -> str:
    return f"{force:.0f} N" if force >= 10 else f"{force:.1f} N"


def _speed(speed: float) -> str:
    return "40 km/h and more" if speed > 39.9 else f"{speed:.1f} km/h"


def _name(wanted: Wanted) -> str:
    mass = f"{wanted.mass:.0f} kg" if wanted.mass >= 10 else f"{wanted.mass:.1f} kg"
    return f"{mass}, {'level' if not wanted.grade else f'1 in {wanted.grade:.0f}'}"


# --- the line -------------------------------------------------------------------------------


def profile_chart(result: RunningResult) -> Chart:
    """Return the heights of the line along it, curves as bands, and where the wheels slip."""
    profile, line = result.profile, result.line
    ends = np.array(profile.ends)
    heights = 1000 * np.array(profile.heights)
    curves = [Curve(ends, heights, "rail", "outline")]
    low, high = float(heights.min()), float(heights.max())
    room = max(high - low, 1.0)
    marks = _marks(result.run, profile.length if profile.closed else math.inf)
    for at, word in marks[:_MARKS]:
        told = "" if any(one.label == word for one in curves) else word
        curves.append(Curve(np.array([at, at]), np.array([low, high + 0.2 * room]), told, "stop"))
    bands = tuple(
        Band(start, end, f"R {one.radius / 1000:g} m", "x")
        for start, end, one in zip(profile.ends[:-1], profile.ends[1:], line.sections, strict=True)
        if one.radius is not None
    )
    steep = profile.steepest()
    where = f"rises at most 1 in {1 / steep:.0f}" if steep > 0 else "rises nowhere"
    slips = f" Marks show where it slips, stalls or stands: {len(marks)}." if marks else ""
    return Chart(
        "The line, its heights and curves",
        f"{'A circuit' if profile.closed else 'A line'} of {profile.length:.0f} m in "
        f"{len(line.sections)} sections that {where} and stands {room:.0f} mm higher at its "
        f"highest than at its lowest.{slips}",
        "m along the rail", "Above the start, mm", tuple(curves), bands,
    )  # fmt: skip


def _marks(run: Run, lap: float) -> list[tuple[float, str]]:
    """Return where on the line it slipped or stalled, m, each place once."""
    made: dict[tuple[int, str], tuple[float, str]] = {}
    for one in run.moments:
        if one.kind in _WORDS:
            at = one.distance % lap if math.isfinite(lap) else one.distance
            made.setdefault((round(at), _WORDS[one.kind]), (at, _WORDS[one.kind]))
    return list(made.values())


def plan(result: RunningResult) -> Scene:
    """Return the line in plan, to scale, every section with its gradient."""
    parts = plan_of(result.line)
    every = np.concatenate(parts)
    size = float(max(np.ptp(every[:, 0]), np.ptp(every[:, 1]), 1.0))
    middle = (every.min(axis=0) + every.max(axis=0)) / 2
    still: list[Primitive] = []
    for n, (points, one) in enumerate(zip(parts, result.line.sections, strict=True), 1):
        pen: Pen = "outline" if not one.grade else ("changed" if one.grade > 0 else "trace")
        still.append(Path(points, pen, part=f"section {n}"))
        still.append(Circle(_pair(points[0]), 0.006 * size, "thin", "paper"))
        at = points[len(points) // 2] if len(points) > 2 else points.mean(axis=0)
        still.append(_told(n, one.grade, at, middle, size))
    still.append(Circle(_pair(parts[0][0]), 0.015 * size, "crank"))
    still.append(Label("start", (0.0, -0.05 * size), "middle", (0.0, 0.0), "crank"))
    return Scene(
        "The line in plan",
        f"{len(parts)} sections, {np.ptp(every[:, 0]) / 1000:.1f} m long and "
        f"{np.ptp(every[:, 1]) / 1000:.1f} m wide over all; what rises is drawn in blue, what "
        "falls in brass.",
        tuple(still),
    )  # fmt: skip


def _pair(point: Array) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _told(n: int, grade: float, at: Array, middle: Array, size: float) -> Label:
    way = "level" if not grade else f"{'up' if grade > 0 else 'down'} 1 in {abs(grade):g}"
    toward = middle - at
    far = float(np.hypot(*toward))
    # inside the circuit, where a circuit leaves room
    step = toward / far * min(0.09 * size, 0.6 * far) if far > 0.02 * size else np.array(
        [0.0, 0.06 * size]
    )  # fmt: skip
    return Label(f"{n}: {way}", _pair(at + step), "middle", _pair(at))


# --- the run --------------------------------------------------------------------------------


def over_distance(result: RunningResult) -> Chart:
    """Return the run over the first laps, or over all of an open line."""
    run, profile = result.run, result.profile
    last = float(run.distance[-1])
    if profile.closed:
        last = min(last, _LAPS * profile.length)
    keep = run.distance <= last + 1e-9
    if keep.sum() < 2:
        keep = np.ones(run.distance.size, dtype=bool)
    x = run.distance[keep]
    heights = np.array([profile.height(float(at)) for at in x])
    low = float(heights.min())
    room = float(heights.max()) - low
    curves = list(_shares(result, keep, x))
    if room > 0.001:
        curves.append(Curve(x, 25 * (heights - low) / room, "the line", "behind"))
    slips = f"slip {times(run.slips)}" if run.slips else "never slip"
    told: set[str] = set()
    for one in run.moments:
        if one.kind in _WORDS and one.distance <= last and len(told) < _MARKS:
            words = _WORDS[one.kind]
            label = "" if words in told else words
            told.add(words)
            curves.append(
                Curve(np.array([one.distance] * 2), np.array([0.0, 105.0]), label, "stop")
            )
    return Chart(
        "The run along the line" + (f", the first {_LAPS} laps" if profile.closed else ""),
        f"At {result.mean_speed:.1f} km/h in the mean the pressure stands between "
        f"{float(run.pressure[keep].min()):.1f} and {float(run.pressure[keep].max()):.1f} bar; "
        f"the wheels {slips} in the whole run.",
        "m from the start", "% of pace, pressure, water, gear", tuple(curves),
    )  # fmt: skip


def over_time(result: RunningResult) -> Chart:
    """Return the whole run in time."""
    run = result.run
    keep = np.ones(run.time.size, dtype=bool)
    curves = [*_shares(result, keep, run.time / 60)]
    burnt = float(run.fuel[0])
    if burnt > 0:
        curves.append(Curve(run.time / 60, 100 * run.fuel / burnt, "fuel", "centre"))
    store = float(run.water[0] + run.tank[0])
    curves.append(Curve(run.time / 60, 100 * (run.water + run.tank) / store, "all water", "behind"))
    return Chart(
        "The run in time",
        f"In {float(run.time[-1]) / 60:.0f} minutes the engine runs {result.distance:.0f} m and "
        f"uses {result.steam_used:.0f} g of steam; {result.water_left:.2f} kg of water and "
        f"{result.fuel_left:.0f} g of fuel are left"
        + (f"; {run.ended}." if run.ended else "."),
        "minutes", "% of pace, pressure, water, fuel", tuple(curves),
    )  # fmt: skip


def _shares(result: RunningResult, keep: NDArray[np.bool_], x: Array) -> Iterator[Curve]:
    """Yield speed, pressure, water and gear in per cent."""
    run = result.run
    yield Curve(x, 100 * run.speed[keep] / result.kept, "speed", "outline")
    yield Curve(x, 100 * run.pressure[keep] / float(run.pressure[0]), "pressure", "changed")
    yield Curve(x, 100 * run.water[keep] / float(run.water[0]), "water in the boiler", "trace")
    if len(result.notches) > 1:
        yield Curve(x, 100 * run.reverser[keep], "notch", "hidden")
    yield Curve(x, 100 * run.regulator[keep], "regulator", "thin")
