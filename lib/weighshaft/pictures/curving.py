"""The engine on its curve: plan to scale, the play on each axle, throw-over and the line."""

from __future__ import annotations

import math

import numpy as np

from ..curving import Curving, CurvingResult
from ..curving.throws import widest
from .curving_plan import on_curve, with_vehicle
from .scene import Band, Chart, Curve, Pen, Picture, Table, parted

_ROWS = 12


def pictures(curving: Curving, result: CurvingResult) -> tuple[Picture, ...]:
    """Return the plan, the plan with the vehicle behind, the chart and the tables."""
    tables = [axle_table(result)]
    if result.trucks:
        tables.append(truck_table(result))
    return (
        on_curve(result), *tables, over_radius(result),
        *parted(throw_table(result), 1, 6, "Throw-over without plays"),
        with_vehicle(result), line_table(result),
    )  # fmt: skip


def axle_table(result: CurvingResult) -> Table:
    """Return every axle's slide on the curve, the room left to it, and its angle to the rail."""
    rows = tuple(
        (
            one.name, one.ahead, abs(one.shift), _way(one.shift),
            "free" if one.left is None else one.left, f"{one.attack:.2f}°",
        )
        for one in result.axles
    )  # fmt: skip
    return Table(
        "Axles on the curve",
        ("Axle", "Ahead of the driving axle", "Slides or swings by", "To the", "Play left",
         "Askew to the rail"),
        rows,
        "The curve is to the right; the plays are shared out as evenly as they go. Play left "
        "counts side play, stops and what the gauge leaves together.",
    )  # fmt: skip


def _way(shift: float) -> str:
    return "–" if abs(shift) < 0.005 else ("left" if shift > 0 else "right")


def truck_table(result: CurvingResult) -> Table:
    """Return what each truck needs."""
    rows = tuple(
        (
            f"{one.word} {one.kind}", one.pivot, one.arm if one.arm else "–",
            one.radial if one.radial else "–", abs(one.place.swing),
            "free" if one.allowed is None else one.allowed, f"{one.place.turned:.2f}°",
            f"{one.push:.1f} N",
        )
        for one in result.trucks
    )  # fmt: skip
    return Table(
        "Trucks on the curve",
        ("Truck", "Pivot ahead of the driving axle", "Radius arm", "Radial with", "Swings",
         "Stops at", "Turned", "Side control pushes"),
        rows,
        "A radial axle has its pivot where the radius of its guides has its centre.",
    )  # fmt: skip


def throw_table(result: CurvingResult) -> Table:
    """Return the parts that reach furthest beside the track, exact and by the versine rule."""
    outer, inner = widest(result.throws)
    ranked = sorted(
        result.throws, key=lambda one: -max(one.reach_outside, one.reach_inside)
    )[:_ROWS]  # fmt: skip
    chosen = list(dict.fromkeys([outer, inner, *ranked]))
    rows = tuple(
        (
            one.name, one.half, one.outside, one.inside, one.reach_outside, one.reach_inside,
            "outside" if one.outer else "inside", one.plain, one.rule,
        )
        for one in chosen
    )  # fmt: skip
    return Table(
        "Throw-over",
        ("Part", "From the engine's middle", "More outside the curve", "More inside it",
         "So from the track's middle, outside", "and inside", "Without plays, the greater is",
         "by construction", "by the versine rule"),
        rows,
        f"Radius {result.drawn / 1000:.2f} m. Outside and inside with the engine pushed about in "
        "all the play it has; the last two columns with its end coupled axles on the track's "
        "middle.",
    )  # fmt: skip


def over_radius(result: CurvingResult) -> Chart:
    """Return swing of the trucks and throw-over against the radius."""
    radius = np.array([one[0] for one in result.sweep]) / 1000
    named: tuple[tuple[int, str, Pen], ...] = (
        (1, "throw-over outside", "outline"), (2, "throw-over inside", "changed"),
        (3, "leading truck", "trace"), (4, "trailing truck", "hidden"),
    )  # fmt: skip
    curves = tuple(
        Curve(radius, np.array([one[column] for one in result.sweep], dtype=float), label, pen)
        for column, label, pen in named
        if result.sweep[0][column] is not None
    )
    wanted = result.drawn / 1000
    swings = [f"the {one.word} truck swings {abs(one.place.swing):.2f} mm" for one in result.trucks]
    least = (
        f"the whole engine goes round {result.smallest / 1000:.2f} m"
        if math.isfinite(result.smallest) else "the engine goes round no curve"
    )  # fmt: skip
    bands = (
        (Band(float(radius[0]), min(result.smallest / 1000, float(radius[-1])),
              "not gone round", "x"),)
        if result.smallest / 1000 > radius[0] else ()
    )  # fmt: skip
    return Chart(
        "Swing and throw-over on every curve",
        f"On {wanted:.2f} m the engine throws over by {result.throw_outside:.2f} mm outside and "
        f"{result.throw_inside:.2f} mm inside the curve"
        + "".join(f", {one}" for one in swings) + f"; {least}.",
        "Radius, m", "mm", curves, bands,
    )  # fmt: skip


def line_table(result: CurvingResult) -> Table:
    """Return the curves and turnouts that standards name, and whether the engine passes."""
    rows = tuple(
        (
            ("▸ " if one.chosen else "") + one.name, one.radius,
            "goes round" if one.passes else "does not", one.sources,
        )
        for one in result.curves
    )  # fmt: skip
    return Table(
        "Published curves and turnouts, in proportion to the gauge",
        ("Curve", "Radius", "The engine", "Source"), rows,
        "Keys of sources as in the tables of track standards. Printed for other gauges, so that "
        "your line's own drawing goes first.",
    )  # fmt: skip
