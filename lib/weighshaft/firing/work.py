"""The chapter worked: surfaces, fire, steam, times, safety valves, feed, plates."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..boiler.decisions import BoilerSeat
from ..boiler.water import least_over_crown
from ..boiler.work import USUAL as USUAL_KIND
from ..findings import Suggestion, by_level, still_open, unlocked
from ..sizes import SizeError, sizes_of
from ..trade.saturation import SteamTableError, saturation
from ..working import Working
from . import relations
from .burning import Burning, burning
from .cautions import cautions
from .decisions import PATTERNS, Firing
from .feed import fed, piped
from .fires import Efficiency, efficiency_of, fire_for, heat_into_water, loading_of
from .judgement import judge
from .metal import stressed
from .results import FiringResult, Raising, Range, rounded
from .shape import Seat, Shape, metal_heat, shape_of, shell_loss
from .surfaces import heated
from .valves import (
    EXPONENT,
    Valves,
    capacity,
    lift_share,
    napier_flow,
    seat_by_old_rule,
    seat_for,
)

TEST_FIRST, TEST_AGAIN = 2.0, 1.5
"""Times the working pressure, with cold water: UK Boiler Test Code 2018, volume 2, and club
practice; the code in force has the say."""
WATER = 4.19
"""Heat of cold water, kJ/(kg K); within 0.3 per cent to boiling."""
ROOM = 1.08
"""How much more than the engine asks for a fire left open is laid out for."""


def work(
    firing: Firing, *, boiler: BoilerSeat, seat: Seat, fuel: str, pressure: float,
    grate: float | None, tube_area: float | None, demand: float | None, turns: float, bore: float,
    stroke: float, number: int, ratio: float, fixed: frozenset[str] = frozenset(),
) -> FiringResult:  # fmt: skip
    """Work the chapter.

    Parameters
    ----------
    firing : the decisions.
    boiler, seat : the boiler in the frames, as decided and as it lies there.
    fuel : "coal", "gas" or "spirit".
    pressure : working, bar.
    grate : area, cm2; None takes the firebox's plan.
    tube_area : clear area of the fire tubes, mm2; None as usual.
    demand : steam that the engine asks for while running, g/s; None unknown.
    turns : rev/min while running.
    bore, stroke, number : of the cylinders, mm.
    ratio : prototype over model.
    fixed : paths of sizes that a bought part has settled; no button changes them.

    Raises
    ------
    SizeError : where sizes contradict one another.
    """
    pattern = firing.pattern
    if pattern == PATTERNS[0]:
        pattern = USUAL_KIND.get(fuel, "pot") if boiler.kind == "as fired" else boiler.kind
    blows = firing.valves.blows_at or pressure
    try:
        steam, hottest = saturation(pressure), saturation(blows).temperature
    except SteamTableError as refused:
        raise SizeError(f"Pressure: {refused}", "valves.blows_at") from refused
    feed_heat = WATER * firing.heat.feed
    told = [Suggestion("firing.valves.blows_at", pressure, "the working pressure")]

    shape = shape_of(boiler, seat, firing.surfaces, pattern=pattern, tube_area=tube_area,
                     least_over=least_over_crown(ratio))  # fmt: skip
    hot_parts, more = heated(firing.surfaces, shape, tube_area=tube_area)
    told += more
    area = hot_parts.area()
    usual = efficiency_of(pattern, fuel, firing.heat.efficiency)
    told.append(Suggestion("firing.heat.efficiency", usual.usual, "usual for the type"))
    metal, loss = metal_heat(seat), shell_loss(shape)
    losses = loss * (steam.temperature - firing.heat.air)
    asked = None if demand is None else demand / 1000
    wanted = usual.loading * usual.usual * area / 1000
    if asked is not None:
        wanted = ROOM * asked * (steam.steam_heat - feed_heat) * 1000 + losses
    fire = _fire(firing, fuel, shape, area, usual, wanted, losses, steam.steam_heat - feed_heat,
                 asked, grate)  # fmt: skip
    told += fire.suggestions
    workings = list(fire.workings)

    loading = loading_of(fire.fire, area) if fire.fire > 0 else 0.0
    low, share, high = usual.range_at(loading)
    if not usual.fixed and fire.fire > 0:
        workings.append(relations.forced.work(
            "Efficiency of this fire, before its limits", "ratio", eta=usual.usual,
            usual=usual.loading, loading=loading))  # fmt: skip
    made = [
        relations.evaporation.work(
            f"Steam made at full fire, {word}", "g/min", fire=fire.fire, eta=one, loss=loss,
            hot=steam.temperature, air=firing.heat.air, steam=steam.steam_heat, feed=feed_heat,
        )
        for word, one in (("low", low), ("usual", share), ("high", high))
    ]  # fmt: skip
    workings.append(made[1])
    steams = Range(*(max(one.result, 0.0) for one in made))
    full = steams.usual / 60_000
    times = [
        _raise(firing, shape, fire.fire * fire.raising, one, area, usual, losses, metal, pressure)
        for one in (high / share, 1.0, low / share)
    ]  # fmt: skip
    raised = [None if one is None else fire.kindling + one.result for one in times]
    if times[1] is not None:
        workings.append(times[1])
    raisings = None
    if raised[0] is not None and raised[1] is not None:
        raisings = Range(raised[0], raised[1], raised[2] or 2 * raised[1])

    use = full if asked is None else min(full, asked)
    part = use / full if full > 0 else 1.0
    by_fuel = None
    if fire.rate > 0:
        by_fuel = fire.carried / fire.rate / 60 / (max(part, 0.05) if fuel == "coal" else 1.0)
    supplied, more = fed(
        firing.feed, fuel=fuel, pattern=pattern, inside=shape.inside, demand=asked, turns=turns,
        evaporation=full, bore=bore, stroke=stroke, number=number, pressure=pressure, run=by_fuel,
    )  # fmt: skip
    told += more
    # what is made and not used blows off: a gas or spirit fire is not let down
    gone = use if fuel == "coal" else full
    by_water = shape.usable / gone / 60 if gone > 0 else None
    by_tanks = None
    if by_water is not None and supplied.carried > 0:
        by_tanks = by_water + supplied.carried / gone / 60
    pipework, more = piped(firing.pipes, steam=steam, flow=max(full, asked or 0.0, 1e-6), fuel=fuel)
    told += more

    valves, told_valves = _valves(firing, fuel, steams.high / 60_000, blows, bore, stroke, turns)
    told += told_valves
    workings += _valve_workings(valves, firing, steams.high)
    plates, more = stressed(firing.plates, shape, hot_parts, metal=boiler.shell.material,
                            pressure=blows, hot=hottest)  # fmt: skip
    told += more
    workings += plates.workings
    heat = heat_into_water(fire.fire, area, usual)
    raising = Raising(
        fuel=fuel, water_working=shape.usable, water_total=shape.water, metal_heat=metal,
        loss=loss, heat_full=heat, fire_full=fire.fire,
        fuel_per_heat=1 / (fire.value * share), fuel_aboard=fire.carried, fuel_value=fire.value,
        surface=area, efficiency=usual, draught=fire.draught, gas_drawn=fire.gas_drawn,
        evaporation_full=full, working_pressure=pressure, safety_pressure=blows,
        safety_capacity=valves.passes, axle_pump=supplied.per_turn, hand_pump=supplied.hand,
        feed_carried=supplied.carried, feed_temperature=firing.heat.feed,
    )  # fmt: skip
    result = FiringResult(
        steam=steams.usual, steam_low=steams.low, steam_high=steams.high,
        asked=None if asked is None else 60_000 * asked,
        surface=area / 100, radiating=hot_parts.area(True) / 100, fire=fire.fire, into_water=heat,
        share=share, loading=loading, burnt=60_000 * fire.rate, raise_time=raised[1],
        water=1000 * shape.water, usable=1000 * shape.usable, by_water=by_water, by_tanks=by_tanks,
        by_fuel=by_fuel, fuel_carried=1000 * fire.carried, jet=fire.jet,
        gas_pressure=fire.pressure, tank=fire.tank,
        coldest=None if fire.emptied is None else min(fire.emptied.temperature),
        bar_litres=pressure * shape.room / 1000, room=shape.room, seat=valves.seat,
        seat_needed=valves.needed, test_first=TEST_FIRST * pressure,
        test_again=TEST_AGAIN * pressure,
        pump=supplied.per_turn if supplied.ram else None, pump_used=supplied.used,
        oil=supplied.oil, regulator_speed=pipework.regulator_speed, steam_at=pipework.steam_at,
        pattern=pattern, fuel=fuel, pressure=pressure, shape=shape, heated=hot_parts,
        efficiency=usual, evaporations=steams, raisings=raisings, losses=losses, metal=plates,
        valves=valves, fed=supplied, piped=pipework, emptied=fire.emptied, raising=raising,
        cautions=cautions(fuel, pressure), workings=tuple(workings),
        suggestions=still_open(_limited(firing, told), fixed), findings=(),
    )  # fmt: skip

    findings = judge(firing, boiler, result)
    return replace(rounded(result), findings=by_level(unlocked(findings, fixed)))


def _limited(firing: Firing, told: list[Suggestion]) -> Iterator[Suggestion]:
    """Yield the suggestions, none beyond what its field takes."""
    for one in told:
        _, group, name = one.field.split(".")
        about = sizes_of(type(getattr(firing, group)))[name]
        if isinstance(one.value, str):
            yield one
        else:
            yield replace(one, value=min(max(one.value, about.low), about.high))


def _fire(
    firing: Firing, fuel: str, shape: Shape, area: float, usual: Efficiency, wanted: float,
    losses: float, lift: float, asked: float | None, grate: float | None,
) -> Burning:  # fmt: skip
    """Return the fire; where it is left open, one that would do and that the surface bears.

    Parameters
    ----------
    wanted, losses : W; `lift` the heat that steam takes, kJ/kg; `asked` kg/s.
    """
    laid = fire_for(wanted, area, usual)
    steams = max(heat_into_water(laid, area, usual) - losses, 1e-6) / (1000 * lift)
    plan = 0.0
    if shape.firebox is not None:
        across, deep, _ = shape.firebox
        plan = across * deep / 100
    minutes = shape.usable / steams / 60
    use = 1.0
    if fuel == "coal" and asked is not None:
        area_of_grate = grate or plan or 0.1 * area / 100
        full = area_of_grate * 1e-4 * firing.coal.burns / 3600 * firing.coal.value * 1e6
        made = (heat_into_water(full, area, usual) - losses) / (1000 * lift)
        use = min(asked / made, 1.0) if made > 0 else 1.0
    return burning(firing, fuel, wanted=laid, grate=grate, usual_grate=plan or 0.1 * area / 100,
                   water_minutes=minutes, use=use)  # fmt: skip


def _raise(
    firing: Firing, shape: Shape, fire: float, factor: float, area: float, usual: Efficiency,
    losses: float, metal: float, pressure: float,
) -> Working | None:  # fmt: skip
    """Return the time to raise steam; None where the fire only just holds against the air."""
    steam = saturation(pressure)
    heat = factor * heat_into_water(fire, area, usual)
    if heat <= 1.02 * losses:
        return None
    heat -= losses / 2
    return relations.raising.work(
        "Time to raise steam, once the fire burns", "min", water=shape.water,
        steam=steam.water_heat, cold=WATER * firing.heat.cold, metal=metal, hot=steam.temperature,
        begin=firing.heat.cold, heat=heat,
    )  # fmt: skip


def _valves(
    firing: Firing, fuel: str, most: float, blows: float, bore: float, stroke: float, turns: float
) -> tuple[Valves, list[Suggestion]]:
    """Return the safety valves; `most` the greatest evaporation, kg/s."""
    about = firing.valves
    usual = 2 if fuel == "coal" else 1
    number = about.number or usual
    share = lift_share(about.lift)
    needed = seat_for(max(most, 1e-9), share, about.discharge, blows, number)
    seat_usual = max(round(needed + 0.05, 1), 0.5)
    seat = about.seat or seat_usual
    told = [
        Suggestion("firing.valves.number", usual, "two with coal, else one"),
        Suggestion("firing.valves.seat", seat_usual, "passes the greatest evaporation"),
    ]
    old = seat_by_old_rule(bore, stroke, turns, blows) if turns > 0 else None
    return (
        Valves(
            number, seat, needed, old, capacity(seat, share, about.discharge, blows, number),
            napier_flow(seat, share, about.discharge, blows, number), blows, share,
        ),
        told,
    )  # fmt: skip


def _valve_workings(valves: Valves, firing: Firing, most: float) -> tuple[Working, ...]:
    """Return the working of the safety valve's area; `most` in g/min."""
    steam = saturation(1.1 * valves.blows_at)

    c = relations.expansion_c.work("Constant of steam", "ratio", k=EXPONENT)
    return (
        c,
        relations.valve_area.work(
            "Flow area of the safety valves for the greatest evaporation", "mm2",
            flow=most * 0.06, c=c.result, discharge=firing.valves.discharge,
            pressure=steam.absolute, volume=1 / steam.density,
        ),
    )  # fmt: skip
