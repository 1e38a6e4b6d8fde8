"""The chapter worked: draught, gases and back pressure, and the nozzle that suits the fire."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ..findings import Suggestion, by_level, still_open
from ..nozzle.beside import Beside
from ..nozzle.cones import Layout
from ..nozzle.decisions import Nozzle
from ..trade.drills import Drill, nearest
from ..working import Working
from . import relations
from .beaten import beaten, dearer, evenly
from .decisions import Draughting
from .ejector import WATER, Draught
from .fire import Fuel, density, fuel_of, heat_of_steam
from .front import FrontEnd, best_of, size_for
from .judgement import judged
from .results import DraughtResult, Scan
from .shown import vacuum_worked

POINTS = 80
LOWEST, HIGHEST = 0.4, 4.0
"""Nozzles and chokes tried, over those decided."""


def work(
    draughting: Draughting,
    *,
    nozzle: Nozzle,
    layout: Layout,
    steam: float,
    steam_full: float,
    pressure: float,
    beats: float,
    drill_sets: tuple[str, ...],
    share: float | None = None,
    excess: float | None = None,
    fire_draught: float | None = None,
    beside: tuple[Beside, ...] = (),
    flow: tuple[float, ...] = (),
    fixed: frozenset[str] = frozenset(),
) -> DraughtResult:
    """Work the chapter.

    Parameters
    ----------
    draughting, nozzle : the decisions.
    layout : nozzle, choke and chimney as the blast nozzle has them.
    steam, steam_full : through the nozzle at running speed, in the running notch and in full
        gear, kg/s.
    pressure : of the boiler, bar gauge.
    beats : of the exhaust in a second.
    drill_sets : sets of drills at hand.
    share : of the fire's heat that the water gets; None takes what is usual.
    excess : air over what the fuel needs, as a part of it; None takes what is usual.
    fire_draught : mm water that the fire is reckoned with elsewhere; None where it is not.
    beside : what the ejector makes of the rules' sizes.
    flow : kg/s against crank angle over one turn, evenly spaced; empty takes the mean flow.
    fixed : paths of sizes that bought parts have settled.
    """
    front, fuel = FrontEnd(draughting, nozzle), fuel_of(nozzle.firing)
    way = front.way(layout)
    over_turn = evenly(flow)
    mean = float(over_turn.mean()) if flow else steam
    drawn = front.draws(layout, np.array([mean, steam_full]))
    beats_do = beaten(front, layout, over_turn, drawn) if flow else None
    by = 1.0 if beats_do is None else beats_do.dearer

    heat = heat_of_steam(pressure)
    share = fuel.share if share is None else share
    usual = fuel.excess if excess is None else excess
    excess = usual if draughting.excess is None else draughting.excess
    burnt = relations.fuel_burnt.work(
        "Fuel burnt", "g/s", steam=mean * 1000, heat=heat, value=fuel.value, share=share
    )
    part = fuel.drawn if draughting.drawn is None else draughting.drawn
    gases = relations.gases.work(
        "Gases to be drawn", "g/s", fuel=burnt.result, air=fuel.air, excess=excess, drawn=part
    )
    needs = relations.draught_for.work(
        "Draught that the fire needs",
        "mm water",
        resistance=way.resistance,
        gas=gases.result / 1000,
        weight=WATER,
    )
    most = fuel.most if draughting.most is None else draughting.most
    wanted = draughting.wanted or min(needs.result * draughting.margin, most)

    nozzles = front.by_nozzle(
        layout, mean,
        np.geomspace(LOWEST * nozzle.diameter, HIGHEST * nozzle.diameter, POINTS),
    )  # fmt: skip
    chokes = front.by_choke(
        layout, mean, np.geomspace(max(LOWEST * layout.choke, 1.1 * nozzle.diameter),
                                   HIGHEST * max(layout.choke, nozzle.diameter), POINTS),
    )  # fmt: skip
    heights = np.linspace(0.0, 2 * max(layout.choke_at - layout.tip, layout.choke), POINTS)
    spacings = front.by_spacing(layout, mean, heights)
    nozzles, chokes, spacings = (dearer(one, by) for one in (nozzles, chokes, spacings))
    by_ejector, choke, spacing = size_for(nozzles, wanted), best_of(chokes), best_of(spacings)
    drill = None if by_ejector is None else nearest(by_ejector, drill_sets)
    gas = beats_do.gas if beats_do else _figure(drawn.gas[0])
    draught = beats_do.draught if beats_do else _figure(drawn.draught[0])
    back = beats_do.back_pressure if beats_do else _figure(drawn.back_pressure[0])
    # what burner or wicks bring in by themselves comes besides what is drawn
    through = None if gas is None or not part else gas / part * 1000
    air = None if through is None else (through / burnt.result - 1) / fuel.air - 1
    burns = None if through is None else through / (1 + fuel.air * (1 + excess))
    result = DraughtResult(
        draught=draught,
        back_pressure=back,
        gas=None if gas is None else gas * 1000,
        over_steam=None if gas is None else gas / mean,
        air=None if air is None else air * 100,
        raised=None if burns is None else burns * fuel.value * share / heat,
        needed=needs.result,
        wanted=wanted,
        most=most,
        nozzle=by_ejector,
        drill="none" if drill is None else drill.name,
        nozzle_back=_at(nozzles, by_ejector),
        harmless=size_for(nozzles, most),
        each=nozzle.diameter / math.sqrt(draughting.number),
        number=draughting.number,
        draught_full=_figure(drawn.draught[1]),
        back_full=_figure(drawn.back_pressure[1]),
        best_choke=choke and choke[0],
        best_choke_draught=choke and choke[1],
        best_spacing=spacing and spacing[0],
        mixed=_figure(drawn.mixed[0]),
        speed=_figure(drawn.speed[0]),
        caught=100 * float(drawn.caught[0]),
        evened=100 * float(drawn.evened[0]),
        fuel=burnt.result,
        steam=mean * 1000,
        pulsating=beats_do is not None,
        gauge=beats_do.gauge if beats_do else None,
        gas_lag=_lag(front, layout, drawn, beats),
        layout=layout,
        shown=nozzle,
        beside=beside,
        nozzles=nozzles,
        chokes=chokes,
        spacings=spacings,
        ways=front.ways(layout, mean),
        turn=beats_do.turn if beats_do else (),
        workings=tuple(
            _workings(front, layout, fuel, mean, drawn, (burnt, gases), needs)
        ),
        suggestions=still_open(_suggestions(fuel, usual, drill, wanted), fixed),
        findings=(),
    )  # fmt: skip
    return replace(result, findings=by_level(judged(nozzle, result, fuel, drill, fire_draught)))


def _figure(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None


def _at(scan: Scan, size: float | None) -> float | None:
    return None if size is None else _figure(float(np.interp(size, scan.size, scan.back_pressure)))


def _lag(front: FrontEnd, layout: Layout, drawn: Draught, beats: float) -> float | None:
    """Return the time in which the gases in the tubes follow, over that from beat to beat.

    A column of length l in an area A follows with l m / (2 A dp); its length is taken as
    twenty times the width of one round flue of that area (common practice).
    """
    gas, draught = _figure(drawn.gas[0]), _figure(drawn.draught[0])
    if gas is None or not draught:
        return None
    area = front.tubes(layout) * 1e-6
    long = 20 * math.sqrt(area)
    return long * gas / (2 * area * draught * 9.80665) * beats


def _workings(
    front: FrontEnd, layout: Layout, fuel: Fuel, steam: float, drawn: Draught,
    first: tuple[Working, ...], needs: Working,
) -> Iterator[Working]:  # fmt: skip
    way = front.draughting.way
    yield from first
    yield relations.resistance.work(
        "Resistance of the way, Pa for the square of 1 kg/s", "ratio",
        heads=way.heads, fire=way.fire, density=density(way.tubes), area=front.tubes(layout) / 1e6,
    )  # fmt: skip
    yield needs
    if math.isfinite(drawn.gas[0]) and steam > 0:
        yield vacuum_worked(front, layout, steam, drawn)
    yield relations.each_of.work(
        "Each nozzle", "mm", diameter=front.nozzle.diameter, number=front.draughting.number
    )


def _suggestions(
    fuel: Fuel, excess: float, drill: Drill | None, wanted: float
) -> list[Suggestion]:  # fmt: skip
    usual = f"usual for {fuel.name} (common practice)"
    made = [
        Suggestion("draught.excess", round(excess, 3), usual),
        Suggestion("draught.drawn", fuel.drawn, usual),
        Suggestion("draught.most", fuel.most, usual),
    ]
    if drill is not None:
        made.append(
            Suggestion(
                "nozzle.diameter", round(drill.diameter, 3),
                f"drill {drill.name}: draws about the {wanted:.3g} mm of water wanted, "
                "by the ejector",
            )
        )  # fmt: skip
    return made
