"""The chapter worked: steam to be passed, back pressure, rules, cones, fits."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from ..cylinders.steam import turns_a_second
from ..findings import Suggestion, by_level, still_open
from ..measures import circle_area
from ..trade.drills import Drill, nearest
from ..trade.saturation import ATMOSPHERE, saturation
from ..working import Working, pi, relation, sqrt
from .beside import Ejector, side_by_side
from .cones import GREENLY, TOUCH, Layout, choke_height, cone_width, lay_out, working_values
from .decisions import Nozzle
from .flow import (
    PASCAL,
    area_for,
    back_pressure,
    choking_pressure,
    critical_ratio,
    exponent,
    flux,
    mass_flux,
    wet_density,
)
from .judgement import judged
from .result import NozzleResult
from .rules import by_bore, by_grate, choke_rules, nozzle_rules

ALLOWED = {"coal": 0.20, "spirit": 0.05, "gas": 0.015}
"""Back pressure in bar that suits the firing at running speed (common practice): coal wants
draught, spirit a little, a gas burner none, and all of it is taken from the pistons."""
WALKING = 4.0
"""km/h taken where no running speed is known."""
CLEARANCE = 8.0
"""Clearance volume in % of the stroke where the cylinders do not say."""


@relation("\\dot m", "steam that fills the cylinders to cut-off; compression not deducted",
          number="z", bore="D", stroke="L", cutoff="x", clearance="c", density="\\rho_1",
          condensed="f", turns="n")  # fmt: skip
def steam_flow(
    number: float, bore: float, stroke: float, cutoff: float, clearance: float, density: float,
    condensed: float, turns: float,
) -> Any:  # fmt: skip
    """Mean flow in g/s of double-acting cylinders: mm, kg/m3, turns a second."""
    volume = pi / 4 * bore**2 * stroke * (cutoff + clearance)
    return 2 * number * volume * density * condensed * turns * 1e-6


@relation("p_1", "common practice", boiler="p", share="y")
def cutoff_pressure(boiler: float, share: float) -> float:
    """Pressure (bar gauge) that fills the cylinder, as a part of the boiler's."""
    return boiler * share


@relation("d", "continuity", flow="\\dot m", flux="G", discharge="C_d")
def nozzle_for(flow: float, flux: float, discharge: float) -> Any:
    """Diameter in mm that passes `flow` g/s at `flux` kg/(s m2)."""
    return sqrt(4 * flow * 1000 / (pi * discharge * flux))


def work(
    nozzle: Nozzle,
    *,
    bore: float,
    stroke: float,
    number: int,
    full_cutoff: float | None,
    running_cutoff: float | None,
    pressure: float,
    driving_diameter: float,
    speed: float | None,
    clearance_percent: float | None,
    condensed: float,
    drill_sets: tuple[str, ...],
    ratio: float,
    ejector: Ejector | None = None,
    fixed: frozenset[str] = frozenset(),
) -> NozzleResult:
    """Work the chapter.

    Parameters
    ----------
    nozzle : the decisions.
    bore, stroke, driving_diameter : mm.
    number : of double-acting cylinders that exhaust through the nozzle.
    full_cutoff, running_cutoff : % of the stroke, in full gear and in the running notch.
    pressure : of the boiler, bar gauge.
    speed : running speed of the model, km/h; None takes a walking pace.
    clearance_percent : clearance volume in % of the stroke's; None takes 8.
    condensed : all the steam drawn over what the cylinders see of it; the rest condenses on
        their walls and leaves as wet.
    drill_sets : sets of drills at hand.
    ratio : scale, for the rules that are printed for full size.
    ejector : what draws, for the sizes of the rules; None leaves that out.
    fixed : paths of sizes that bought parts have settled.
    """
    steam = nozzle.steam
    run = speed if speed else WALKING
    turns = turns_a_second.work("Turns a second", "ratio", speed=run, wheel=driving_diameter)
    at_cutoff = cutoff_pressure.work(
        "Pressure at cut-off", "bar", boiler=pressure, share=steam.at_cutoff
    )
    density = saturation(at_cutoff.result).density
    filled: dict[str, Any] = {
        "number": number, "bore": bore, "stroke": stroke, "density": density,
        "clearance": (CLEARANCE if clearance_percent is None else clearance_percent) / 100,
        "condensed": condensed, "turns": turns.result,
    }  # fmt: skip
    running, full = ((100.0 if c is None else c) / 100 for c in (running_cutoff, full_cutoff))
    flowing = steam_flow.work("Steam through the nozzle", "g/s", cutoff=running, **filled)
    flow, flow_full = flowing.result / 1000, steam_flow(cutoff=full, **filled) / 1000
    allowed = steam.back_pressure if steam.back_pressure is not None else ALLOWED[nozzle.firing]
    dry = steam.dryness
    area = circle_area(nozzle.diameter) * steam.discharge
    back, back_full = (back_pressure(one, area, dry) for one in (flow, flow_full))
    by_steam = math.sqrt(4 / math.pi * area_for(flow, allowed, dry) / steam.discharge)
    drill, own = nearest(by_steam, drill_sets), nearest(nozzle.diameter, drill_sets)
    choking = choking_pressure(dry)
    box = nozzle.smokebox
    layout = lay_out(box, nozzle.cones, nozzle.diameter, ratio)
    grate = None if nozzle.grate_area is None else nozzle.grate_area * 100
    radius = None if box.inside_diameter is None else box.inside_diameter / 2
    chimney = None if radius is None or box.chimney_top is None else box.chimney_top - radius
    rules = (
        *nozzle_rules(bore, number, grate, layout.choke if layout else box.choke),
        *choke_rules(box.inside_diameter, chimney, box.nozzle_below, box.tube_area, ratio),
    )
    suggestions = _suggestions(nozzle, drill, by_steam, allowed, layout, ratio)
    result = NozzleResult(
        steam_flow=flow * 1000,
        back_pressure=back,
        back_pressure_full=back_full,
        allowed=allowed,
        choked=back is None or back >= choking,
        jet_speed=None if back is None else _jet_speed(back, dry),
        diameter_by_steam=by_steam,
        drill=drill.name,
        drill_diameter=drill.diameter,
        own_drill=own.name,
        choke=layout.choke if layout else box.choke,
        choke_above_nozzle=layout.choke_at - layout.tip if layout else None,
        wanted_choke=layout.wanted_choke if layout else None,
        wanted_height=_rise(layout),
        nozzle_below_by_cone=-layout.tip_for_lower_cone if layout else None,
        chimney_length=chimney,
        revolutions=turns.result * 60,
        speed=run,
        rules=rules,
        beside=()
        if layout is None or ejector is None or not flow
        else tuple(side_by_side(rules, layout, flow, ejector, (nozzle.diameter, layout.choke))),
        layout=layout,
        effective_area=area,
        dryness=dry,
        flow_per_speed=(flow / run, flow_full / run),
        workings=tuple(
            _workings(nozzle, (turns, at_cutoff, flowing), allowed, layout, bore, number, grate)
        ),
        suggestions=still_open(suggestions, fixed),
        findings=(),
    )
    findings = by_level(judged(nozzle, result, drill, own, known_speed=bool(speed)))
    return replace(result, findings=findings)


def _rise(layout: Layout | None) -> float | None:
    if layout is None or layout.wanted_at is None:
        return None
    return layout.wanted_at - layout.tip


def _jet_speed(pressure: float, dryness: float) -> float:
    """Return the speed at the mouth, m/s, the steam expanding without loss to what is behind."""
    k = exponent(dryness)
    ratio = max(ATMOSPHERE / (pressure + ATMOSPHERE), float(critical_ratio(k)))
    at_mouth: float = wet_density(pressure, dryness) * ratio ** (1 / k)
    return mass_flux(pressure, dryness) / at_mouth


def _workings(
    nozzle: Nozzle, first: tuple[Working, Working, Working], allowed: float, layout: Layout | None,
    bore: float, number: int, grate: float | None,
) -> list[Working]:  # fmt: skip
    dry, k = nozzle.steam.dryness, exponent(nozzle.steam.dryness)
    critical = critical_ratio.work("Critical ratio of pressures", "ratio", k=k)
    upstream = allowed + ATMOSPHERE
    through = flux.work(
        "Flow over area at the allowed back pressure, kg/(s m²)", "ratio",
        upstream=upstream * PASCAL, density=wet_density(allowed, dry),
        ratio=max(ATMOSPHERE / upstream, critical.result), k=k,
    )  # fmt: skip
    made = [
        *first,
        exponent.work("Exponent of the wet steam", "ratio", dryness=dry),
        critical,
        through,
        nozzle_for.work(
            "Nozzle for the allowed back pressure", "mm",
            flow=first[-1].result, flux=through.result, discharge=nozzle.steam.discharge,
        ),
        by_bore.work("A seventh of the bore", "mm", bore=bore, number=number, part=1 / 7),
    ]  # fmt: skip
    if grate is not None:
        made.append(by_grate.work("By the grate", "mm", grate=grate))
    if layout is not None and layout.wanted_at is not None:
        height = choke_height.work(
            "Choke above the tip, both cones touching", "mm",
            **working_values(layout, nozzle.smokebox),
        )  # fmt: skip
        made += [
            height,
            cone_width.work(
                "Choke that the lower cone just touches", "mm",
                start=layout.start, height=height.result, slope=layout.lower,
            ),
        ]  # fmt: skip
    return made


def _suggestions(
    nozzle: Nozzle, drill: Drill, by_steam: float, allowed: float, layout: Layout | None,
    ratio: float,
) -> list[Suggestion]:  # fmt: skip
    made = [
        Suggestion(
            "nozzle.diameter", round(drill.diameter, 3),
            f"drill {drill.name}, nearest to the {by_steam:.2f} mm that pass the steam at "
            f"{allowed:g} bar",
        ),
        Suggestion(
            "nozzle.steam.back_pressure", ALLOWED[nozzle.firing],
            f"usual for {nozzle.firing} (common practice)",
        ),
        Suggestion(
            "nozzle.cones.touch_below_top", round(TOUCH / ratio, 2),
            f"1 1/2 in of full size at 1:{ratio:.4g}",
        ),
    ]  # fmt: skip
    if layout is None:
        return made
    if layout.wanted_choke is not None and layout.wanted_at is not None:
        made += [
            Suggestion(
                "nozzle.smokebox.choke", round(layout.wanted_choke, 2),
                f"both cones just touch ({GREENLY})",
            ),
            Suggestion(
                "nozzle.smokebox.choke_above_nozzle", round(layout.wanted_at - layout.tip, 2),
                f"both cones just touch ({GREENLY})",
            ),
        ]  # fmt: skip
    made.append(
        Suggestion(
            "nozzle.smokebox.nozzle_below",
            round(-layout.tip_for_lower_cone, 2),
            "the lower cone just fills this choke",
        )
    )
    return made
