"""The valves on the air line: readings against the valve's path, on the disc, and in tables."""

from __future__ import annotations

import math

import numpy as np

from ..valve_setting import AirTest, SideSet, Taken, ValveSettingResult
from ..valve_setting.decisions import EVENTS
from ..valve_setting.faults import amount
from ..valve_setting.results import DESIGNED, FOUND, MENDED
from .reversing_sides import spread
from .scene import (
    Array,
    Band,
    Chart,
    Circle,
    Curve,
    Label,
    Path,
    Pen,
    Picture,
    Point,
    Primitive,
    Scene,
    Table,
)

_ROWS = {1.0: "full forward gear", 0.0: "mid gear", -1.0: "full backward gear"}
_SHORT = {1.0: "forward", 0.0: "mid", -1.0: "backward"}
_LETTERS = dict(zip(EVENTS, ("air heard", "air stops", "exhaust opens", "exhaust shuts"),
                    strict=True))  # fmt: skip


def pictures(valve_setting: AirTest, result: ValveSettingResult) -> tuple[Picture, ...]:
    """Return valve paths with the readings, what is wrong, events, disc, and what to measure."""
    shown = result.shown
    if shown is None:
        return ()
    made: list[Picture] = [path_chart(result, shown, row) for row in shown.rows if row in _ROWS]
    main = made[:1]
    if shown.readings:
        made = [*main, faults_table(shown), *_mending(shown), *made[1:]]
    made += [
        *((disc(result, shown),) if any(one.what in EVENTS for one in shown.readings) else ()),
        *event_tables(shown),
        *_advised(shown),
    ]
    return tuple(made)


def path_chart(result: ValveSettingResult, shown: SideSet, row: float) -> Chart:
    """Return the valve's place over the crank angle as designed, found and mended."""
    at = shown.rows.index(row)
    lap = result.valve.steam_lap
    curves: list[Curve] = []
    if shown.readings:
        curves.append(Curve(shown.theta, shown.curves[FOUND, at], "as found", "outline"))
    if shown.mendings:
        curves.append(Curve(shown.theta, shown.curves[MENDED, at], "after mending", "changed"))
    curves.append(Curve(shown.theta, shown.curves[DESIGNED, at], "as designed", "hidden"))
    tall = 0.02 * float(np.ptp(shown.curves[DESIGNED, at]))
    own = [one for one in shown.readings if one.reverser == row]
    for one in own:
        pen: Pen = "trace" if one.used else "stop"
        curves.append(_cross(one.theta % 360, one.place, tall, f"{one.number}", pen))
    away = shown.curves[FOUND, at] - shown.curves[DESIGNED, at]
    found = (
        f"as found the valve stands up to {np.abs(away).max():.2f} mm from where it should, with "
        f"{len(own)} readings as numbered crosses" if shown.readings
        else "nothing has been measured yet"
    )  # fmt: skip
    return Chart(
        f"Valve in {_ROWS[row]}, {shown.side} cylinder",
        f"Valve ahead of its middle over the crank angle in {_ROWS[row]}: {found}; within "
        f"{lap:.2f} mm either way both ports are shut to steam.",
        "crank angle, degrees", "valve ahead, mm", tuple(curves),
        (Band(-lap, lap, "steam lap"),),
    )  # fmt: skip


def _cross(x: float, y: float, tall: float, label: str, pen: Pen) -> Curve:
    """A cross drawn without lifting the pen; its number stands beside it."""
    wide = 3.0
    xs = np.array([-1, 1, 0, -1, 1]) * wide + x
    ys = np.array([-1, 1, 0, 1, -1]) * tall + y
    return Curve(xs, ys, label, pen)


def faults_table(shown: SideSet) -> Table:
    """Return what was found of every size, how well it is known, and whether it is determined."""
    rows = tuple(
        (
            one.name,
            one.says,
            f"± {amount(one.within, one.unit)}" if one.determined else "–",
            amount(one.possible, one.unit),
            "yes" if one.determined else "no",
        )
        for one in shown.faults
    )
    return Table(
        f"What is out, {shown.side} cylinder",
        ("size", "found", "good to within", "may well be out by", "determined"),
        rows,
        "The truth lies within what is stated in at least 95 cases of 100. A size is called "
        "determined when it is known to within half of what it may well be out by.",
    )


def _mending(shown: SideSet) -> list[Picture]:
    if not shown.mendings:
        return []
    rows = tuple(
        (f"{i}", one.says, f"± {amount(one.within, one.unit)}")
        for i, one in enumerate(shown.mendings, 1)
    )
    return [
        Table(
            f"What to move, {shown.side} cylinder", ("", "mending", "good to within"), rows,
            f"As found the valve is {shown.departure_found:.2f} mm from its place, root of the "
            f"mean square over the turn; after mending {shown.departure_mended:.2f} mm are left. "
            "Shut off the air before anything is touched, and measure again afterwards.",
        )
    ]  # fmt: skip


def event_tables(shown: SideSet) -> tuple[Table, ...]:
    """Return the events as designed, as found and after mending, in two tables."""
    events = shown.events

    def percent(which: int, m: int, e: int, i: int) -> str:
        value = events.percent[which, m, e, i]
        return f"{value:.1f} %" if np.isfinite(value) else "none"

    which = [DESIGNED, *([FOUND] if shown.readings else []), *([MENDED] if shown.mendings else [])]
    names = ["designed", "found", "mended"]
    first: list[tuple[str | float, ...]] = []
    second: list[tuple[str | float, ...]] = []
    for m, row in enumerate(shown.rows):
        name = _SHORT.get(row, f"{row:+.2f}")
        for e, end in enumerate(("front", "back")):
            first.append(
                (name, end, *(percent(w, m, e, 1) for w in which),
                 *(float(events.lead[w, m, e]) for w in which))
            )  # fmt: skip
            second.append(
                (name, end, *(percent(w, m, e, 2) for w in which),
                 *(percent(w, m, e, 3) for w in which))
            )  # fmt: skip

    def heads(one: str, other: str) -> tuple[str, ...]:
        return ("gear", "end", *(f"{one}, {names[w]}" for w in which),
                *(f"{other}, {names[w]}" for w in which))  # fmt: skip

    return (
        Table(f"Cut-off and lead, {shown.side} cylinder", heads("cut-off", "lead"), tuple(first),
              "Lead below nothing: the port is still covered at the dead centre."),
        Table(f"Release and compression, {shown.side} cylinder",
              heads("release", "compr."), tuple(second),
              "Compression is counted from the end that the piston approaches."),
    )  # fmt: skip


def _advised(shown: SideSet) -> list[Picture]:
    if not shown.advice:
        return []
    rows = tuple(
        (
            f"{i}",
            one.says.removeprefix("Measure ").split(":")[0],
            one.fault,
            f"{amount(one.before, one.unit)} → {amount(one.after, one.unit)}",
        )
        for i, one in enumerate(shown.advice, 1)
    )
    when = "next" if shown.readings else "first"
    return [
        Table(
            f"What to measure {when}, {shown.side} cylinder",
            ("", "measure", "tells most of", "then known to within"), rows,
        )
    ]  # fmt: skip


def disc(result: ValveSettingResult, shown: SideSet) -> Scene:
    """Return the degree disc on the axle with what was heard where, as the builder sees it."""
    radius = result.crank.stroke
    zero = float(result.crank.dead_centres[0])
    still: list[Primitive] = [
        Circle((0.0, 0.0), radius, "outline", "paper", "disc"),
        Circle((0.0, 0.0), result.crank.throw, "thin", "none", "crank circle"),
        Path(np.array([[-1.12 * radius, 0.0], [1.12 * radius, 0.0]]), "centre", part="disc"),
    ]
    for angle in range(0, 360, 5):
        inner = 0.94 if angle % 30 == 0 else 0.965 if angle % 10 == 0 else 0.98
        still.append(_ray(inner * radius, radius, angle, "thin", "graduation"))
        if angle % 30 == 0:
            still.append(Label(f"{angle}", _at(0.86 * radius, angle)))
    still.append(Label("front", (0.66 * radius, 0.05 * radius)))
    marks = []
    for one in shown.readings:
        if one.what not in EVENTS:
            continue
        on_disc = (one.theta - zero) % 360
        pen: Pen = "trace" if one.used else "stop"
        still.append(_ray(0.72 * radius, 1.06 * radius, on_disc, pen, f"reading {one.number}"))
        marks.append((one, on_disc))
    still += _beside(marks, radius)
    away = [one for one in shown.readings if not one.used]
    left = f"; {len(away)} set aside is drawn in red" if away else ""
    return Scene(
        f"On the degree disc, {shown.side} cylinder",
        f"The disc seen from the right-hand side, front dead centre to the right, degrees in the "
        f"sense of forward running, clockwise: {len(marks)} moments of the valve{left}.",
        tuple(still),
    )  # fmt: skip


def _beside(marks: list[tuple[Taken, float]], radius: float) -> list[Primitive]:
    """Name the marks at either side of the disc, spread so that none covers another."""
    made: list[Primitive] = []
    for right in (True, False):
        own = [(one, a) for one, a in marks if (math.cos(math.radians(a)) >= 0) == right]
        levels = spread([_at(1.15 * radius, a)[1] for _, a in own], 0.26 * radius)
        x = 1.45 * radius if right else -1.45 * radius
        for (one, angle), level in zip(own, levels, strict=True):
            text = (
                f"{one.number}: {angle:.1f}° {_LETTERS[one.what]}, {one.end}, "
                f"{_SHORT.get(one.reverser, f'{one.reverser:+.2f}')}"
            )
            made.append(
                Label(text, (x, level), "start" if right else "end", _at(1.06 * radius, angle))
            )
    return made


def _at(radius: float, angle: float) -> Point:
    """Return a point on the disc, whose degrees run clockwise from the right."""
    turned = math.radians(angle)
    return radius * math.cos(turned), -radius * math.sin(turned)


def _ray(inner: float, outer: float, angle: float, pen: Pen, part: str) -> Path:
    ends: Array = np.array([_at(inner, angle), _at(outer, angle)])
    return Path(ends, pen, part=part)
