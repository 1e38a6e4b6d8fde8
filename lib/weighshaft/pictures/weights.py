"""Where the weight stands, what each axle carries, and what everything weighs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

import numpy as np

from ..frames import Bar, Solid
from ..weights import Mass, Weights, WeightsResult
from ..weights.judgement import kg
from .frames_shapes import from_side
from .scene import (
    Band,
    Chart,
    Circle,
    Curve,
    Fill,
    Label,
    Path,
    Pen,
    Picture,
    Point,
    Primitive,
    Scene,
    Table,
    box,
)

_STATES: tuple[tuple[str, str, Pen], ...] = (
    ("bare_loads", "bare", "behind"),
    ("axle_loads", "working", "outline"),
    ("low_loads", "run down", "thin"),
    ("pulling_loads", "pulling", "changed"),
)
_OWNERS = {
    "frames": "Frames", "boiler": "Boiler", "wheels": "Wheels", "cylinders": "Cylinders",
    "motion": "Motion", "reversing": "Motion, reverser", "rods": "Rods", "nozzle": "Nozzle",
    "curving": "Curves", "clearance": "Motion, room", "weights": "Weight",
}  # fmt: skip


def pictures(weights: Weights, result: WeightsResult) -> tuple[Picture, ...]:
    """Return the side view with its loads, charts of them, and the tables of weights."""
    return (
        standing(weights, result), by_state(result), used_up(result), axle_table(result),
        by_group(result), by_part(result),
    )  # fmt: skip


# --- from the side ------------------------------------------------------------------------


def standing(weights: Weights, result: WeightsResult) -> Scene:
    """Return the side view with centres of gravity, axle loads and pull."""
    whole = result.whole
    long = whole.buffer_front - whole.buffer_back
    made: list[Primitive] = []
    for part in whole.parts:
        pen: Pen = "thin" if part.kind in ("wheels", "water") else "behind"
        fill: Fill = "water" if part.kind == "water" else "none"
        made += [_seen(solid, pen, fill, part.name) for solid in part.solids]
    rail = whole.rail
    made.append(Path(np.array([[whole.buffer_back, rail], [whole.buffer_front, rail]]), "outline"))
    made += _loads(result, 0.22 * long)
    made += _ballast(weights, 0.02 * long)
    top = max(part.extent[1][1] for part in whole.parts)
    bare, working, _ = result.states
    made += _centre((working.ahead, working.above), 0.014 * long, "changed", "working",
                    (working.ahead + 0.12 * long, top + 0.05 * long))  # fmt: skip
    made += _centre((bare.ahead, bare.above), 0.010 * long, "thin", "bare",
                    (bare.ahead - 0.12 * long, top + 0.05 * long))  # fmt: skip
    made += _pull(result, 0.13 * long)
    axles = ", ".join(
        f"{axle.name} {kg(load)}" for axle, load in zip(whole.axles, result.axle_loads, strict=True)
    )
    side = "ahead of" if result.centre_ahead >= 0 else "behind"
    return Scene(
        "Where the weight stands",
        f"In working order {kg(result.working)}, its centre of gravity "
        f"{abs(result.centre_ahead):.1f} mm {side} the driving axle and "
        f"{result.centre_height:.1f} mm above the rail; bare {kg(result.bare)}. On the axles: "
        f"{axles}. The arrows under the rail are as long as the loads, grey ones as when pulling "
        f"{result.pull:.1f} N.",
        tuple(made),
    )  # fmt: skip


def _seen(solid: Solid, pen: Pen, fill: Fill, name: str) -> Primitive:
    if isinstance(solid, Bar) and solid.start == solid.end:
        return Circle(solid.start, solid.half, pen, fill, name)
    return Path(from_side(solid), pen, True, fill, name)


def _loads(result: WeightsResult, longest: float) -> list[Primitive]:
    """Return an arrow under every axle up to the rail, and in grey beside it when pulling."""
    whole = result.whole
    most = max((*result.axle_loads, *result.pulling_loads))
    made: list[Primitive] = []
    for n, axle in enumerate(whole.axles):
        tall = longest * result.axle_loads[n] / most
        made += _arrow(
            (axle.ahead, whole.rail - tall), (axle.ahead, whole.rail), "outline", 0.09 * longest
        )
        made.append(
            Label(kg(result.axle_loads[n]), (axle.ahead, whole.rail - tall - 0.12 * longest))
        )
        if result.pull > 0:
            low = whole.rail - longest * result.pulling_loads[n] / most
            beside = axle.ahead - 0.1 * longest
            made += _arrow((beside, low), (beside, whole.rail), "behind", 0.09 * longest)
    return made


def _arrow(start: Point, end: Point, pen: Pen, size: float) -> list[Primitive]:
    way = np.subtract(end, start)
    length = float(np.hypot(*way))
    if length <= 0:
        return []
    along = way / length
    across = np.array([-along[1], along[0]])
    head = min(0.35 * length, size)
    tip = np.array(end)
    wings = [tip - head * along + 0.3 * head * sign * across for sign in (1, -1)]
    return [
        Path(np.array([start, end]), pen),
        Path(np.array([wings[0], tip, wings[1]]), pen),
    ]


def _centre(at: Point, radius: float, pen: Pen, word: str, label: Point) -> list[Primitive]:
    """Return the quartered circle that marks a centre of gravity."""
    x, y = at
    turns = np.linspace(0.0, np.pi / 2, 7)
    made: list[Primitive] = [Circle(at, radius, pen)]
    for start in (0.0, np.pi):
        arc = np.column_stack(
            [x + radius * np.cos(start + turns), y + radius * np.sin(start + turns)]
        )
        made.append(Path(np.vstack([arc, [[x, y]]]), pen, True, "metal"))
    made.append(Label(f"centre of gravity, {word}", label, "middle", at))
    return made


def _ballast(weights: Weights, half: float) -> list[Primitive]:
    made: list[Primitive] = []
    for one in weights.ballast:
        if one.mass > 0:
            made.append(
                Path(box(one.ahead - half, one.above - half, one.ahead + half, one.above + half),
                     "changed", True, "section", "ballast")
            )  # fmt: skip
            made.append(Label(f"ballast {kg(one.mass)}", (one.ahead, one.above - 2 * half)))
    return made


def _pull(result: WeightsResult, long: float) -> list[Primitive]:
    if result.pull <= 0:
        return []
    whole = result.whole
    y = whole.rail + result.coupling_height
    start, end = (whole.buffer_back, y), (whole.buffer_back - long, y)
    return [
        *_arrow(start, end, "crank", 0.15 * long),
        Label(f"pull {result.pull:.1f} N", (whole.buffer_back - long / 2, y + 0.2 * long)),
    ]


# --- charts -------------------------------------------------------------------------------


def by_state(result: WeightsResult) -> Chart:
    """Return the loads on the axles in each state as bars side by side."""
    wide = 0.18
    curves = []
    for row, (name, word, pen) in enumerate(_STATES):
        x, y = [0.5], [0.0]
        for n, load in enumerate(getattr(result, name), 1):
            left = n + (row - 2) * wide
            x += [left, left, left + 0.9 * wide, left + 0.9 * wide]
            y += [0.0, load, load, 0.0]
        x.append(len(result.whole.axles) + 0.5)
        y.append(0.0)
        curves.append(Curve(np.array(x), np.array(y), word, pen))
    said = "; ".join(
        f"{n} {axle.name} " + ", ".join(
            f"{word} {kg(getattr(result, name)[n - 1])}" for name, word, _ in _STATES
        )
        for n, axle in enumerate(result.whole.axles, 1)
    )  # fmt: skip
    return Chart(
        "Load on every axle", f"{said}.", "axle, counted from the front", "load, kg",
        tuple(curves),
    )  # fmt: skip


def used_up(result: WeightsResult) -> Chart:
    """Return the loads on the axles as water and fuel are used up."""
    used = np.array([one.used for one in result.run])
    loads = np.array([one.loads for one in result.run])
    coupled = [n for n, one in enumerate(result.whole.axles) if one.kind == "coupled"]
    pens: tuple[Pen, ...] = ("outline", "changed", "trace", "thin", "behind", "hidden", "crank")
    curves = [
        Curve(used, loads[:, n], axle.name, pens[n % len(pens)])
        for n, axle in enumerate(result.whole.axles)
    ]
    empty = next((one.used for one in result.run if not one.tanks), 0.0)
    bands = (Band(0.0, empty, "from the tanks", "x"),) if empty > 0 else ()
    first, last = loads[0, coupled].sum(), loads[-1, coupled].sum()
    return Chart(
        "Axle loads as water and fuel are used up",
        f"From full to the bottom of the glass {kg(used[-1])} go; the coupled wheels carry "
        f"{kg(first)} at first and {kg(last)} at last.",
        "water and fuel used, kg", "load, kg", tuple(curves), bands,
    )  # fmt: skip


# --- tables -------------------------------------------------------------------------------


def axle_table(result: WeightsResult) -> Table:
    """Return the loads on the axles in figures."""
    states = [getattr(result, name) for name, _, _ in _STATES]
    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (axle.name, float(axle.ahead), *(_mass(state[n]) for state in states),
         _mass(result.axle_loads[n] - result.sprung_loads[n]))
        for n, axle in enumerate(result.whole.axles)
    )  # fmt: skip
    total: tuple[str | float, ...] = (
        "all",
        "",
        *(_mass(sum(state)) for state in states),
        _mass(result.unsprung),
    )
    return Table(
        "Axle loads, kg",
        ("axle", "ahead of the driving axle", "bare", "in working order", "run down", "pulling",
         "of it not on springs"),
        (*rows, total),
        "Run down: tanks and fuel used up, the boiler at the bottom of the glass.",
    )  # fmt: skip


def _mass(mass: float) -> str:
    """Return a weight with digits for its size; rows of a table stand below one another."""
    return f"{mass:.3f}" if mass < 100 else f"{mass:.1f}"


def _together(masses: Iterable[Mass]) -> tuple[float, float, float]:
    several = tuple(masses)
    mass = sum(one.mass for one in several)
    if mass <= 0:
        return 0.0, 0.0, 0.0
    ahead, above = (
        sum(one.mass * getattr(one, axis) for one in several) / mass for axis in ("ahead", "above")
    )
    return mass, ahead, above


def by_group(result: WeightsResult) -> Table:
    """Return what the groups of parts weigh and where their centres are."""
    groups: dict[str, list[Mass]] = defaultdict(list)
    for one in result.masses:
        groups[one.group].append(one)
    rail = result.whole.rail
    rows: list[tuple[str | float, ...]] = []
    for name, several in groups.items():
        mass, ahead, above = _together(several)
        rows.append(
            (name, _mass(mass), f"{100 * mass / result.working:.1f} %", ahead, above - rail)
        )
    rows.append(
        ("In working order", _mass(result.working), "100 %", result.centre_ahead,
         result.centre_height)
    )  # fmt: skip
    rows.append(
        ("Bare", _mass(result.bare), f"{100 * result.bare / result.working:.1f} %",
         result.bare_ahead, result.bare_height)
    )  # fmt: skip
    return Table(
        "Weights by group, kg",
        ("group", "weight", "share", "centre ahead of the driving axle", "above the rail"),
        tuple(rows),
        "In the mean over a turn of what turns or slides; water at its working level.",
    )


def by_part(result: WeightsResult) -> Table:
    """Return what every part weighs, heaviest first, and whose it is."""
    rail = result.whole.rail
    materials = {part.name: part.material for part in result.whole.parts}
    rows = tuple(
        (one.name, _mass(one.mass), "weighed" if one.weighed else materials.get(one.name, ""),
         one.ahead, one.above - rail, _OWNERS.get(one.chapter, one.chapter))
        for one in sorted(result.masses, key=lambda one: -one.mass)
    )  # fmt: skip
    return Table(
        "Weights by part, kg",
        ("part", "weight", "from", "centre ahead of the driving axle", "above the rail",
         "sizes belong to"),
        rows,
        "Both sides of a pair together. A part that was weighed counts as weighed.",
    )  # fmt: skip
