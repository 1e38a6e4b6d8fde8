"""The jet in the chimney to scale, draught and back pressure against sizes, the rules beside."""

from __future__ import annotations

import numpy as np

from ..draught import Draughting, DraughtResult, Scan
from ..draught.ejector import SPREAD
from .nozzle import axis_of, bars, beside_table, chimney_of, cones_of, nozzle_of
from .scene import (
    Array,
    Band,
    Chart,
    Circle,
    Curve,
    Dimension,
    Fill,
    Label,
    Path,
    Pen,
    Picture,
    Primitive,
    Scene,
    Table,
)

MERCURY = 750.06
"""mm of mercury in a bar."""
CORE = 4.0
"""Diameters for which the middle of a jet stays unmixed (J. Koopmans, part 2)."""
_ROWS = 9


def pictures(draughting: Draughting, result: DraughtResult) -> tuple[Picture, ...]:
    """Return the jet in its chimney, the charts and the tables."""
    charts: list[Picture] = [by_nozzle(result), trade(result), by_choke(result)]
    if result.turn:
        charts.append(over_turn(result))
    tables: list[Picture] = [nozzle_table(result), ways_table(result)]
    if result.beside:
        tables.append(beside_table(result.beside))
    return (jet_section(draughting, result), *charts, *tables)


def jet_section(draughting: Draughting, result: DraughtResult) -> Scene:
    """Return smokebox, chimney, nozzle, both cones and the jet that mixes, across the engine.

    Origin at the boiler centre, y up, mm of the model.
    """
    at, nozzle = result.layout, result.shown
    radius = nozzle.smokebox.inside_diameter and nozzle.smokebox.inside_diameter / 2
    bottom = -radius if radius else at.tip - 6 * nozzle.diameter
    parts: list[Primitive] = [*_jet(result)]
    if radius:
        parts.append(Circle((0, 0), radius, part="inside_diameter"))
    parts += [*cones_of(at), *chimney_of(nozzle, at, radius)]
    parts += [*nozzle_of(nozzle, at.tip, at.tip - bottom), *axis_of(bottom - 4, at.top + 6)]
    parts += _marks(result, radius)
    cones = nozzle.cones
    drawn = "no draught that could be reckoned"
    if result.draught is not None:
        drawn = (
            f"{result.draught:.3g} mm of water, {result.over_steam:.2f} times the steam in gases, "
            f"for {bars(result.back_pressure)}"
        )
    shared = "" if result.number == 1 else (
        f" The nozzle's area is shared by {result.number} of {result.each:.2f} mm, drawn as one."
    )  # fmt: skip
    return Scene(
        "The jet in smokebox and chimney",
        f"Nozzle {nozzle.diameter:.2f} mm under a choke of {at.choke:.1f} mm: {drawn}. The jet is "
        f"drawn to where its speed has halved; the cones of 1 in {cones.upper:g} and 1 in "
        f"{cones.lower:g} are dashed.{shared}",
        tuple(parts),
    )


def _jet(result: DraughtResult) -> list[Primitive]:
    """Return the jet to its half-speed width, its unmixed core, and the mixture above."""
    at, d = result.layout, result.shown.diameter
    heights = np.linspace(at.tip, at.top, 60)
    half = d / 2 + SPREAD * (heights - at.tip)
    rise = max(at.top - at.choke_at, 1e-9)
    wall = np.where(
        heights < at.choke_at,
        np.inf,
        (at.choke + (at.top_bore - at.choke) * (heights - at.choke_at) / rise) / 2,
    )
    edge = np.minimum(half, wall)
    inside = heights >= at.choke_at
    made: list[Primitive] = []
    if inside.sum() > 1:
        made.append(_both(heights[inside], wall[inside], "gases"))
    made.append(_both(heights, edge, "jet"))
    core = min(CORE * d, at.top - at.tip)
    point = np.array([[-d / 2, at.tip], [d / 2, at.tip], [0.0, at.tip + core]])
    made.append(Path(point, pen="thin", closed=True, fill="paper", part="core"))
    return made


def _both(heights: Array, half: Array, part: str) -> Path:
    right = np.column_stack([half, heights])
    left = np.column_stack([-half, heights])[::-1]
    fill: Fill = "steam" if part == "jet" else "exhaust"
    points = np.concatenate([right, left])
    return Path(points, pen="thin", closed=True, fill=fill, part=part)


def _marks(result: DraughtResult, radius: float | None) -> list[Primitive]:
    at, nozzle = result.layout, result.shown
    reach = 1.25 * max(radius or 0.0, at.mouth, 2 * nozzle.diameter)
    low, high = at.tip, at.top
    side = 0.72 * reach
    mixed = high - 0.3 * max(high - at.choke_at, 0.0)
    half = nozzle.diameter / 2 + SPREAD * 0.5 * (at.choke_at - low)
    made: list[Primitive] = [
        Label(f"nozzle {nozzle.diameter:.2f} mm", (-side, low - 0.2 * reach), "end",
              (-nozzle.diameter / 2, low)),
        Label(f"choke {at.choke:.1f} mm", (-side, at.choke_at), "end",
              (-at.choke / 2, at.choke_at)),
        Label("jet, half speed", (-side, low + 0.5 * (at.choke_at - low)), "end",
              (-half, low + 0.5 * (at.choke_at - low))),
        Dimension((reach, low), (reach, at.choke_at), f"{at.choke_at - low:.1f}"),
        Dimension((reach, at.choke_at), (reach, high), f"{high - at.choke_at:.1f}"),
    ]  # fmt: skip
    if result.draught is not None and result.speed is not None:
        made += [
            Label(f"draws {result.draught:.3g} mm of water", (-side, low - 0.45 * reach), "end"),
            Label(f"mixed, {result.speed:.0f} m/s, {result.mixed:.0f} °C", (-side, mixed), "end",
                  (-0.3 * at.choke, mixed)),
        ]  # fmt: skip
    return made


def by_nozzle(result: DraughtResult) -> Chart:
    """Return draught and back pressure against the nozzle, this one and the chosen marked."""
    scan, own = _near(result), result.shown.diameter
    now = [result.draught or 0.0, result.wanted, (result.back_pressure or 0.0) * MERCURY]
    top = 2.0 * max(now)
    curves = [
        Curve(scan.size, _below(scan.draught, top), "draught, of water"),
        Curve(scan.size, _below(scan.back_pressure * MERCURY, top), "back pressure, of mercury",
              pen="trace"),
        _upright(own, 0.9 * top, "this nozzle", "crank"),
    ]  # fmt: skip
    if result.nozzle is not None:
        curves.append(_upright(result.nozzle, 0.75 * top, "by the ejector", "changed"))
    chosen = "no nozzle tried draws" if result.nozzle is None else (
        f"{result.nozzle:.2f} mm would draw"
    )  # fmt: skip
    own_says = "more steam than it passes" if result.draught is None else (
        f"{result.draught:.3g} mm of water for {bars(result.back_pressure)}"
    )  # fmt: skip
    return Chart(
        "Draught and back pressure against the nozzle",
        f"The nozzle of {own:.2f} mm gives {own_says}; {chosen} the {result.wanted:.3g} mm wanted. "
        "A bar is 750 mm of mercury.",
        "nozzle, mm", "head of water and of mercury, mm", tuple(curves),
        (Band(result.needed, min(result.most, top), "needed to most"),)
        if result.needed < min(result.most, top) else (),
    )  # fmt: skip


def trade(result: DraughtResult) -> Chart:
    """Return the draught against the back pressure that it costs, nozzle by nozzle."""
    scan = result.nozzles
    back = max(result.back_pressure or 0.0, result.nozzle_back or 0.0)
    shown = np.where(scan.back_pressure > 2.5 * back, np.nan, scan.back_pressure)
    shown = shown if np.isfinite(shown).any() else scan.back_pressure
    known = np.isfinite(shown) & np.isfinite(scan.draught)
    curves = [Curve(shown[known], scan.draught[known], "nozzle by nozzle")]
    height = float(np.max(scan.draught[known])) if known.any() else 1.0
    if result.back_pressure is not None:
        curves.append(_upright(result.back_pressure, height, "this nozzle", "crank"))
    if result.nozzle_back is not None:
        curves.append(_upright(result.nozzle_back, 0.85 * height, "by the ejector", "changed"))
    cost = "" if result.nozzle_back is None or result.back_pressure is None else (
        f" This nozzle costs {bars(result.back_pressure)}, the one by the ejector "
        f"{bars(result.nozzle_back)}."
    )  # fmt: skip
    return Chart(
        "What draught costs",
        f"Every millimetre of draught is paid for in back pressure; the fire needs "
        f"{result.needed:.3g} mm of water.{cost}",
        "back pressure, bar", "draught, head of water, mm", tuple(curves),
    )  # fmt: skip


def by_choke(result: DraughtResult) -> Chart:
    """Return the draught against the choke and against the spacing from tip to choke."""
    at = result.layout
    curves = [_known(result.chokes, "choke", "outline"), _known(result.spacings, "tip to choke",
                                                                "trace")]  # fmt: skip
    top = max(float(np.nanmax(one.y)) if len(one.y) else 0.0 for one in curves) or 1.0
    curves.append(_upright(at.choke, top, "this choke", "crank"))
    if at.wanted_choke is not None:
        curves.append(_upright(at.wanted_choke, 0.4 * top, "by the cones", "changed"))
    best = "" if result.best_choke is None or result.best_spacing is None else (
        f"The ejector draws most with a choke of {result.best_choke:.1f} mm, and with "
        f"{result.best_spacing:.1f} mm from tip to choke. "
    )  # fmt: skip
    cones = "" if at.wanted_choke is None else f"The cones ask for {at.wanted_choke:.1f} mm. "
    return Chart(
        "Draught against choke and spacing",
        f"{best}{cones}Taken are {at.choke:.1f} mm and {at.choke_at - at.tip:.1f} mm.",
        "choke or spacing, mm", "draught, head of water, mm", tuple(curves),
    )  # fmt: skip


def over_turn(result: DraughtResult) -> Chart:
    """Return the draught over a turn of the wheels."""
    angle = np.linspace(0.0, 360.0, len(result.turn) + 1)
    drawn = np.array([*result.turn, result.turn[0]])
    return Chart(
        "Draught over a turn",
        f"As if the gases followed at once, the draught goes from {drawn.min():.3g} to "
        f"{drawn.max():.3g} mm of water; its mean is {np.mean(result.turn):.3g} mm, and "
        f"{result.draught:.3g} mm would draw the same gases steadily.",
        "crank angle, °", "draught, head of water, mm", (Curve(angle, drawn, "draught"),),
        follows=(0,),
    )  # fmt: skip


def nozzle_table(result: DraughtResult) -> Table:
    """Return what nozzles of several sizes do."""
    scan = _near(result)
    known = np.flatnonzero(np.isfinite(scan.draught))
    picked = known[np.unique(np.linspace(0, len(known) - 1, _ROWS).round().astype(int))] if len(
        known
    ) else known  # fmt: skip
    rows = tuple(
        (
            float(scan.size[i]), f"{scan.draught[i]:.3g} mm", bars(float(scan.back_pressure[i])),
            f"{scan.over_steam[i]:.2f}", _word(float(scan.draught[i]), result),
        )
        for i in picked
    )  # fmt: skip
    return Table(
        "Nozzle by nozzle",
        ("Nozzle", "Draws, water", "Back pressure", "Gases over steam", "For the fire"),
        rows or (("none tried", "–", "more than 10 bar", "–", "–"),),
        "Four times the draught raises twice the steam (J. Bourne): the gases follow the root.",
    )


def ways_table(result: DraughtResult) -> Table:
    """Return what several nozzles, a tapered chimney or a plain edge would do."""
    rows = tuple(
        (
            one.name,
            "–" if one.draught is None else f"{one.draught:.3g} mm",
            "–" if one.over_steam is None else f"{one.over_steam:.2f}",
        )
        for one in result.ways
    )
    return Table(
        "Other fronts with the same nozzle area",
        ("Front", "Draws, water", "Gases over steam"),
        rows,
        "Reckoned with the mean flow, at the same back pressure. Several nozzles pay where the "
        "chimney is short for its width.",
    )


def _near(result: DraughtResult) -> Scan:
    """Return the nozzles tried, up to twice the larger of this one and the chosen."""
    scan = result.nozzles
    near = scan.size <= 2 * max(result.shown.diameter, result.nozzle or 0.0)
    return Scan(
        scan.size[near], scan.draught[near], scan.back_pressure[near], scan.over_steam[near]
    )


def _word(draught: float, result: DraughtResult) -> str:
    if draught > result.most:
        return "too much"
    if draught < result.needed:
        return "too little"
    return "as wanted" if draught >= result.wanted else "enough, no margin"


def _known(scan: Scan, label: str, pen: Pen) -> Curve:
    known = np.isfinite(scan.draught) & (scan.draught > 0)
    return Curve(scan.size[known], scan.draught[known], label, pen)


def _below(values: Array, top: float) -> Array:
    made: Array = np.where(values > top, np.nan, values)
    return made


def _upright(x: float, top: float, label: str, pen: Pen) -> Curve:
    return Curve(np.array([x, x]), np.array([0.0, top]), label, pen)
