"""Feed pumps, oil, and the speed of steam in regulator, pipes and blower."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..findings import Suggestion
from ..trade.saturation import Saturation
from . import relations
from .decisions import Feed, Pipes
from .valves import PSI, napier_flow

MARGIN = 3.5
"""A pump should move so many times the water used: Bourne, question 175."""
STEAM_SPEED = 30.0
"""Usual in pipes of saturated steam, m/s; 25 to 40 at engineeringtoolbox.com."""
OIL_DENSITY = 0.9
"""kg/l, common practice."""
SUPERHEAT = {"none": 0.0, "in flue or smokebox": 40.0, "in the fire": 120.0}
"""Superheat to expect, degrees; common practice, to be measured."""


@dataclass(frozen=True)
class Fed:
    """Feed and oil.

    Parameters
    ----------
    ram, stroke : of the axle pump, mm; ram 0 where there is none.
    per_turn : that it delivers, g.
    used : by the engine, g a turn; None where that is not known.
    by_old_rule : displacement of a pump by Bourne's rule, mm3.
    hand : of the hand pump a stroke, g.
    carried : water in tanks, kg.
    oil : g/min; lubricator ml, and how long it lasts, min.
    """

    ram: float
    stroke: float
    per_turn: float
    used: float | None
    by_old_rule: float
    hand_ram: float
    hand_stroke: float
    hand: float
    carried: float
    oil: float
    lubricator: float
    lasts: float | None


def fed(
    feed: Feed, *, fuel: str, pattern: str, inside: float, demand: float | None, turns: float,
    evaporation: float, bore: float, stroke: float, number: int, pressure: float, run: float | None,
) -> tuple[Fed, tuple[Suggestion, ...]]:  # fmt: skip
    """Return pumps, water and oil.

    Parameters
    ----------
    fuel, pattern : of the boiler; `inside` radius of its barrel, mm.
    demand : steam that the engine asks for while running, kg/s; None unknown.
    turns : rev/min while running.
    evaporation : usual, kg/s.
    bore, stroke, number : of the cylinders, mm.
    pressure : bar.
    run : how long the fuel lasts, min; None unknown.
    """
    told: list[Suggestion] = []
    used = None if demand is None or turns <= 0 else 60_000 * demand / turns
    usual = 0.0
    if fuel == "coal" and used:
        swept = MARGIN * used / 0.998e-3 / feed.strokes
        usual = round((4 * swept / math.pi) ** (1 / 3), 1)
    told.append(Suggestion("firing.feed.ram", usual, "3.5 times what is used" if usual else "none"))
    ram = usual if feed.ram is None else feed.ram
    told.append(Suggestion("firing.feed.stroke", max(ram, 0.5), "as the ram"))
    long = feed.stroke or ram
    per_turn = relations.pump_delivers(ram, long, feed.slip, feed.strokes)
    usual = 0.0 if pattern == "pot" else round(max(5.0, 0.24 * inside), 1)
    told.append(Suggestion("firing.feed.hand_ram", usual, "0.12 of the barrel"))
    hand_ram = usual if feed.hand_ram is None else feed.hand_ram
    told.append(Suggestion("firing.feed.hand_stroke", max(round(2.5 * hand_ram, 1), 0.5),
                           "2.5 of its ram"))  # fmt: skip
    hand_stroke = feed.hand_stroke or 2.5 * hand_ram
    use = min(evaporation, evaporation if demand is None else demand)
    usual = round(1200 * use, 1) if ram else 0.0
    told.append(Suggestion("firing.feed.carried", round(1000 * usual), "for 20 minutes"))
    carried = usual if feed.carried is None else feed.carried / 1000
    share = (0.003 if fuel == "coal" else 0.01) if feed.oil is None else feed.oil
    told.append(Suggestion("firing.feed.oil", 0.003 if fuel == "coal" else 0.01, "usual"))
    oil = 60_000 * use * share
    usual = max(1.0, round(oil * (run or 20.0) / OIL_DENSITY, 1))
    told.append(Suggestion("firing.feed.lubricator", min(usual, 500.0), "for the run"))
    holds = feed.lubricator or usual
    return (
        Fed(
            ram, long, per_turn, used,
            relations.old_pump(math.pi * bore * bore / 4 * stroke, pressure * PSI, number),
            hand_ram, hand_stroke,
            relations.pump_delivers(hand_ram, hand_stroke, feed.hand_slip, 1),
            carried, oil, holds, holds * OIL_DENSITY / oil if oil > 0 else None,
        ),
        tuple(told),
    )  # fmt: skip


@dataclass(frozen=True)
class Piped:
    """Bores, mm, and speeds of steam, m/s, at the greatest of use and evaporation.

    Parameters
    ----------
    blower_uses : kg/s.
    superheat : degrees; `steam_at` the steam to the cylinders, degC.
    """

    regulator: float
    regulator_speed: float
    pipe: float
    pipe_speed: float
    blower: float
    blower_uses: float
    superheat: float
    steam_at: float


def piped(
    pipes: Pipes, *, steam: Saturation, flow: float, fuel: str
) -> tuple[Piped, tuple[Suggestion, ...]]:
    """Return bores and speeds.

    Parameters
    ----------
    steam : at working pressure.
    flow : kg/s that has to pass.
    fuel : of the boiler.
    """
    usual = math.sqrt(4 * flow / (math.pi * STEAM_SPEED * steam.density)) * 1000
    usual = max(math.ceil(10 * usual) / 10, 0.5)
    regulator, pipe = pipes.regulator or usual, pipes.steam_pipe or usual
    blown = 0.0
    if fuel != "gas":
        # an orifice at the speed of sound, by Napier, for a tenth of the steam
        one = napier_flow(1.0, 0.25, 1.0, steam.pressure / 1.1, 1)
        blown = math.floor(100 * math.sqrt(0.1 * flow / one)) / 100
    blower = blown if pipes.blower is None else pipes.blower
    uses = napier_flow(blower, 0.25, 0.85, steam.pressure / 1.1, 1) if blower else 0.0
    heat = SUPERHEAT[pipes.superheater]
    told = (
        Suggestion("firing.pipes.regulator", usual, f"for {STEAM_SPEED:g} m/s"),
        Suggestion("firing.pipes.steam_pipe", usual, f"for {STEAM_SPEED:g} m/s"),
        Suggestion("firing.pipes.blower", blown, "a tenth of the steam" if blown else "none"),
        Suggestion("firing.pipes.superheat", heat, "common practice"),
    )
    if pipes.superheater != "none" and pipes.superheat is not None:
        heat = pipes.superheat
    grams = 1000 * flow
    return (
        Piped(
            regulator, relations.pipe_speed(grams, regulator, steam.density),
            pipe, relations.pipe_speed(grams, pipe, steam.density), blower, uses, heat,
            steam.temperature + heat,
        ),
        told,
    )  # fmt: skip


def pump_mm3(ram: float, stroke: float) -> float:
    """Return what a ram displaces, mm3."""
    return math.pi * ram * ram / 4 * stroke
