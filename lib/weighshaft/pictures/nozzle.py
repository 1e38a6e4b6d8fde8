"""Smokebox in section with the cones of the blast, back pressure, and the rules side by side."""

from __future__ import annotations

import math

import numpy as np

from ..nozzle import Layout, Nozzle, NozzleResult
from ..nozzle.beside import Beside
from ..nozzle.flow import back_pressures
from .scene import (
    Array,
    Band,
    Chart,
    Circle,
    Curve,
    Dimension,
    Label,
    Path,
    Picture,
    Primitive,
    Scene,
    Table,
)

_TIP = 2.5  # length of the nozzle drawn, in its diameters
_FLARE = np.linspace(0.0, math.pi / 2, 16)


def pictures(nozzle: Nozzle, result: NozzleResult) -> tuple[Picture, ...]:
    """Return the smokebox in section, two charts of back pressure, the rules, the ejector."""
    return (
        section(nozzle, result), by_speed(result), by_size(nozzle, result), *_tables(result),
        *((beside_table(result.beside),) if result.beside else ()),
    )  # fmt: skip


def section(nozzle: Nozzle, result: NozzleResult) -> Scene:
    """Return smokebox, chimney, petticoat, nozzle and pipe across the engine.

    Origin at the boiler centre, y up, mm of the model.
    """
    at, smokebox = result.layout, nozzle.smokebox
    if at is None:
        bare = (*nozzle_of(nozzle, 0.0, 4 * nozzle.diameter), *axis_of(-5 * nozzle.diameter, 20.0))
        return Scene(
            "Nozzle in section",
            f"A nozzle of {nozzle.diameter:.2f} mm on its pipe. The smokebox is drawn when the "
            "heights of chimney top and nozzle tip above and below the boiler centre are known.",
            bare,
        )
    radius = smokebox.inside_diameter / 2 if smokebox.inside_diameter else None
    bottom = -radius if radius is not None else at.tip - 6 * nozzle.diameter
    parts: list[Primitive] = []
    if radius is not None:
        parts.append(Circle((0, 0), radius, part="inside_diameter"))
        line = 1.1 * radius
        parts.append(Path(np.array([[-line, 0], [line, 0]], dtype=float), pen="centre"))
    parts += [
        *cones_of(at),
        *chimney_of(nozzle, at, radius),
        *nozzle_of(nozzle, at.tip, at.tip - bottom),
    ]
    parts += axis_of(bottom - 4, at.top + 6)
    parts += _marks(nozzle, at, radius)
    meets = "nowhere" if at.meets is None else f"{at.top - at.meets:.1f} mm below its top"
    return Scene(
        "Smokebox in section, with the cones of the blast",
        f"Nozzle {nozzle.diameter:.2f} mm, its tip {abs(at.tip):.1f} mm "
        f"{'below' if at.tip <= 0 else 'above'} the boiler centre; choke {at.choke:.1f} mm, "
        f"{at.choke_at - at.tip:.1f} mm above the tip. The cone of 1 in {nozzle.cones.upper:g} "
        f"meets the chimney {meets}; that of 1 in {nozzle.cones.lower:g} is "
        f"{at.fills_choke:.1f} mm wide at the choke.",
        tuple(parts),
    )


def axis_of(low: float, high: float) -> list[Primitive]:
    """Return the common axis of blast and chimney."""
    return [Path(np.array([[0, low], [0, high]], dtype=float), pen="centre")]


def cones_of(at: Layout) -> list[Primitive]:
    """Return both cones as traces: the upper to where it meets the wall, the lower to the choke."""
    end = at.meets if at.meets is not None and at.meets < at.top else at.top
    made: list[Primitive] = []
    for slope, to in ((at.upper, end), (at.lower, at.choke_at)):
        half = (at.start + slope * (to - at.tip)) / 2
        for side in (-1, 1):
            line = [[side * at.start / 2, at.tip], [side * half, to]]
            made.append(Path(np.array(line, dtype=float), pen="trace", part="cones"))
    return made


def chimney_of(nozzle: Nozzle, at: Layout, radius: float | None) -> list[Primitive]:
    """Return the wall from the choke to the top, petticoat below it as a quarter of an ellipse."""
    flare = np.column_stack(
        [
            at.choke / 2 + (at.mouth - at.choke) / 2 * (1 - np.cos(_FLARE)),
            at.choke_at + (at.mouth_at - at.choke_at) * np.sin(_FLARE),
        ]
    )
    outside = nozzle.smokebox.chimney_outside
    made: list[Primitive] = []
    for side in (-1.0, 1.0):
        mirror = np.array([side, 1.0])
        wall = np.array([[at.top_bore / 2, at.top], [at.choke / 2, at.choke_at]])
        if outside is not None and outside > at.top_bore:
            foot = max(at.choke_at, math.sqrt(max(radius**2 - outside**2 / 4, 0)) if radius else 0)
            inner = at.choke / 2 + (at.top_bore - at.choke) / 2 * (foot - at.choke_at) / max(
                at.top - at.choke_at, 1e-9
            )
            ring = np.array(
                [[at.top_bore / 2, at.top], [outside / 2, at.top], [outside / 2, foot],
                 [inner, foot]]
            )  # fmt: skip
            if foot < at.top:
                made.append(
                    Path(ring * mirror, closed=True, fill="section", part="chimney_outside")
                )
        made.append(Path(np.concatenate([wall, flare]) * mirror, part="choke"))
    for y, bore in ((at.top, at.top_bore), (at.mouth_at, at.mouth)):
        made.append(Path(np.array([[-bore / 2, y], [bore / 2, y]]), pen="thin"))
    return made


def nozzle_of(nozzle: Nozzle, tip: float, down: float) -> list[Primitive]:
    """Return nozzle and pipe in section, from the tip downwards."""
    d = nozzle.diameter
    pipe = nozzle.smokebox.pipe_bore or 1.6 * d
    outer = max(pipe, d) + 0.6 * d
    body = max(min(_TIP * d, down), 0.5 * d)
    made: list[Primitive] = []
    for side in (-1.0, 1.0):
        mirror = np.array([side, 1.0])
        ring = [[d / 2, tip], [0.9 * d, tip], [outer / 2, tip - body]]
        ring += [[outer / 2, tip - down], [pipe / 2, tip - down], [pipe / 2, tip - body]]
        ring += [[d / 2, tip - 0.4 * body]]
        made.append(
            Path(np.array(ring) * mirror, closed=True, fill="section", part="diameter")
        )  # fmt: skip
    return made


def _marks(nozzle: Nozzle, at: Layout, radius: float | None) -> list[Primitive]:
    reach = 1.25 * max(radius or 0.0, at.mouth, 2 * nozzle.diameter)
    cones = nozzle.cones
    upper_at = at.tip + 0.8 * (at.top - at.tip)
    lower_at = at.tip + 0.6 * (at.choke_at - at.tip)
    half = [(at.start + s * (y - at.tip)) / 2 for s, y in
            ((at.upper, upper_at), (at.lower, lower_at))]  # fmt: skip
    return [
        Label(f"1 in {cones.upper:g}", (0.75 * reach, upper_at), "start", (half[0], upper_at),
              "trace"),
        Label(f"1 in {cones.lower:g}", (0.75 * reach, lower_at), "start", (half[1], lower_at),
              "trace"),
        Label(f"choke {at.choke:.1f} mm", (-0.75 * reach, at.choke_at), "end",
              (-at.choke / 2, at.choke_at)),
        Label(f"nozzle {nozzle.diameter:.2f} mm", (-0.75 * reach, at.tip - 0.2 * reach), "end",
              (-nozzle.diameter / 2, at.tip)),
        Dimension((reach, at.tip), (reach, at.choke_at), f"{at.choke_at - at.tip:.1f}"),
        Dimension((reach, at.choke_at), (reach, at.top), f"{at.top - at.choke_at:.1f}"),
        Dimension((-reach, at.tip), (-reach, 0.0), f"{abs(at.tip):.1f}"),
    ]  # fmt: skip


def by_speed(result: NozzleResult) -> Chart:
    """Return back pressure against speed, at the running cut-off and in full gear."""
    speed = np.linspace(0.0, 2.0 * result.speed, 41)
    running, full = (_pressure(one * speed, result) for one in result.flow_per_speed)
    curves = [Curve(speed, running, "running notch")]
    if result.flow_per_speed[1] != result.flow_per_speed[0]:
        curves.append(Curve(speed, full, "full gear", pen="trace"))
    back = result.back_pressure
    now = "more than 10 bar" if back is None else f"{back:.3f} bar"
    return Chart(
        "Back pressure against speed",
        f"At {result.speed:.3g} km/h the exhaust stands {now} behind the nozzle; "
        f"{result.allowed:g} bar is allowed.",
        "speed, km/h",
        "back pressure, bar",
        tuple(curves),
        (Band(0.0, result.allowed, "allowed"),),
    )


def by_size(nozzle: Nozzle, result: NozzleResult) -> Chart:
    """Return back pressure at running speed against the size of the nozzle."""
    middle = max(result.diameter_by_steam, 0.2)
    low, high = 0.6 * min(middle, nozzle.diameter), 1.4 * max(middle, nozzle.diameter)
    size = np.linspace(low, high, 60)
    area = result.effective_area * (size / nozzle.diameter) ** 2
    pressure = back_pressures(np.full(60, result.steam_flow / 1000), area, result.dryness)
    shown = np.where(pressure > 8 * result.allowed, np.nan, pressure)
    return Chart(
        "Back pressure against nozzle size",
        f"{result.steam_flow:.2g} g/s of steam need {result.diameter_by_steam:.2f} mm for "
        f"{result.allowed:g} bar; the nozzle decided is {nozzle.diameter:.2f} mm.",
        "nozzle, mm",
        "back pressure, bar",
        (Curve(size, shown, "running"), _upright(nozzle.diameter, result)),
        (Band(0.0, result.allowed, "allowed"),),
    )


def _upright(diameter: float, result: NozzleResult) -> Curve:
    top = min(2 * max(result.allowed, result.back_pressure or 0.0), 8 * result.allowed)
    return Curve(np.array([diameter] * 2), np.array([0.0, top]), "this nozzle", pen="crank")


def _pressure(flow: Array, result: NozzleResult) -> Array:
    return back_pressures(flow, np.full(len(flow), result.effective_area), result.dryness)


def _tables(result: NozzleResult) -> list[Picture]:
    made: list[Picture] = []
    for of, title in (("nozzle", "Nozzle by the rules"), ("choke", "Choke by the rules")):
        rows: list[tuple[str | float, ...]] = []
        if of == "nozzle":
            rows.append(
                ("by the steam to be passed", result.diameter_by_steam, "–",
                 f"{result.steam_flow:.2g} g/s at {result.allowed:g} bar; nearest drill "
                 f"{result.drill}", "compressible flow of wet steam"),
            )  # fmt: skip
        elif result.wanted_choke is not None and result.wanted_height is not None:
            rows.append(
                ("both cones touching", result.wanted_choke, "–",
                 f"{result.wanted_height:.1f} mm above the tip", "H. Greenly, as quoted"),
            )  # fmt: skip
        rows += [
            (rule.name, rule.value, "–" if rule.upper is None else rule.upper, rule.remark,
             rule.source)
            for rule in result.rules
            if rule.of == of
        ]  # fmt: skip
        if rows:
            made.append(
                Table(title, ("Rule", "Diameter", "to", "Remark", "Source"), tuple(rows),
                      "Where rules and cones disagree, place the chimney by the cones.")
            )  # fmt: skip
    return made


def bars(pressure: float | None) -> str:
    """Return a pressure in bar as text, to what a gauge could tell."""
    if pressure is None:
        return "more than 10 bar"
    return f"{pressure:.3f} bar" if pressure >= 0.01 else f"{pressure:.2g} bar"


def beside_table(beside: tuple[Beside, ...]) -> Table:
    """Return every rule's nozzle and choke with what the ejector makes of it."""
    rows: list[tuple[str | float, ...]] = []
    for one in beside:
        made = ("–", "more than 10 bar", "–")
        if one.draught is not None and one.back_pressure is not None:
            made = (
                f"{one.draught:.3g} mm", bars(one.back_pressure), f"{one.over_steam:.2f}",
            )  # fmt: skip
        rows.append((f"{one.of}: {one.name}", one.size, *made))
    return Table(
        "Rules and cones beside the ejector",
        ("Size by", "Diameter", "Draws, water", "Back pressure", "Gases over steam"),
        tuple(rows),
        "Each nozzle is tried under this chimney, each choke over this nozzle, all else as it is. "
        "The ejector is reckoned under Blast and draught, with its losses and its doubts.",
    )
