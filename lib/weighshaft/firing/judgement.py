"""What is said of fire, steam, water and times."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..boiler.decisions import BoilerSeat
from ..findings import COMMON, Finding
from ..trade.fuels import GASES
from ..trade.seals import elastomer
from .decisions import TANKS, Firing
from .feed import MARGIN, STEAM_SPEED, pump_mm3
from .judgement_metal import metal_findings
from .relations import BOURNE_3_5, ISO_4126
from .results import FiringResult
from .surfaces import tube_places
from .valves import ACCUMULATION

CHAPTER = "firing"
FULL_TANK = 0.85
"""Most liquid in a gas tank, of its volume; 0.80 to 0.85 is said of cylinders (gasbros.co.za)."""
FADES = 0.6
"""Share of its first flow below which a gas fire is felt to fade; common practice."""
UNDER_CODE = 3.0
"""Bar times litres below which the UK's code has a volume of its own: Boiler Test Code 2018."""
FAST = 40.0
"""Steam in pipes, m/s; engineeringtoolbox.com."""
OIL_LIMIT = 200.0
"""Where plain steam oil gives way to oil for superheated steam, degC; common practice."""
PTFE = 260.0
"""Usual limit of PTFE packing, degC; common practice."""


def judge(firing: Firing, boiler: BoilerSeat, result: FiringResult) -> tuple[Finding, ...]:
    """Return the findings."""
    return (
        *_steam(result), *_forced(result), *_tubes(result), *_water(firing, result),
        *_gas(firing, result),
        *_valve(firing, result), *_class(result), *_pump(firing, result), *_oil(result),
        *_pipes(firing, result),
        *metal_findings(boiler, result),
    )  # fmt: skip


_FIRE = {
    "gas": ("firing.gas.jet", "firing.gas.gas", "firing.gas.throttled"),
    "spirit": ("firing.spirit.wick", "firing.spirit.wicks", "firing.spirit.burns"),
    "coal": ("firing.coal.burns", "nozzle.grate_area", "firing.coal.draught"),
}


def _steam(result: FiringResult) -> Iterator[Finding]:
    fields = (*_FIRE[result.fuel], "firing.heat.efficiency")
    made, asked = result.evaporations, result.asked
    if result.raise_time is None:
        yield Finding(
            "check", CHAPTER, fields,
            f"The fire puts {result.into_water:.0f} W into the water, and the shell loses "
            f"{result.losses:.0f} W at working pressure: steam is never raised.",
            "A larger fire, or lagging.", "balance of heat",
        )  # fmt: skip
        return
    span = f"{made.low:.3g} to {made.high:.3g} g of steam a minute"
    if asked is None:
        yield Finding(
            "fine", CHAPTER, fields,
            f"At full fire the boiler makes {span}, {made.usual:.3g} g as usual.",
            source=result.efficiency.source,
        )  # fmt: skip
    elif made.high < asked:
        yield Finding(
            "check", CHAPTER, fields,
            f"Running, the engine asks for {asked:.3g} g of steam a minute; at full fire the "
            f"boiler makes {span}, so that it will be short of steam at that pace.",
            "A larger fire and more heating surface, an earlier cut-off, or a slower train.",
            result.efficiency.source,
        )  # fmt: skip
    elif made.usual < asked:
        yield Finding(
            "check", CHAPTER, fields,
            f"Running, the engine asks for {asked:.3g} g of steam a minute; at full fire the "
            f"boiler makes {span}, {made.usual:.3g} g as usual: it may be short at that pace.",
            "A somewhat larger fire, lagging, or a slower train.", result.efficiency.source,
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"At full fire the boiler makes {span}, and running the engine asks for {asked:.3g} g; "
            f"steam is raised in about {result.raise_time:.0f} minutes.",
            source=result.efficiency.source,
        )  # fmt: skip


def _forced(result: FiringResult) -> Iterator[Finding]:
    usual, area = result.efficiency.loading, result.surface * 1e-4
    rate = result.evaporations.usual * 0.06 / area
    says = (
        f"The fire gives {result.loading:.0f} kW to each square metre of heating surface, which "
        f"evaporates {rate:.0f} kg an hour there; small engines of full size were measured at 17 "
        "to 28"
    )
    source = "Vienna 1884, Dingler's Polytechnisches Journal 255; limits common practice"
    fields = (*_FIRE[result.fuel], "firing.surfaces.tubes", "firing.surfaces.water_tubes")
    if result.loading > 1.6 * usual:
        yield Finding(
            "check", CHAPTER, fields,
            f"{says}. That is hard driven: much of the heat goes up the chimney, and water may be "
            "carried over.", "A smaller fire, or more heating surface.", source,
        )  # fmt: skip
    else:
        yield Finding("fine", CHAPTER, fields, f"{says}, models are driven harder.", source=source)


def _tubes(result: FiringResult) -> Iterator[Finding]:
    tubes = result.heated.tubes
    if tubes is None or result.shape.box is None:
        return
    number, bore, wall = tubes
    room = len(tube_places(result.shape, number, bore, wall))
    fields = ("firing.surfaces.tubes", "firing.surfaces.tube_bore", "nozzle.smokebox.tube_area")
    if room < number:
        yield Finding(
            "check", CHAPTER, fields,
            f"{number} fire tubes of {bore:.1f} mm bore are reckoned with; drawn in rows, "
            f"{room} find room in the firebox's tube plate.",
            "Fewer tubes, a lower or wider firebox, or rows of your own drawing.", COMMON,
            ("firing.surfaces.tubes", room) if room else None,
        )  # fmt: skip


def _water(firing: Firing, result: FiringResult) -> Iterator[Finding]:
    water, fuel, fed = result.by_water, result.by_fuel, result.fed
    fields = ("boiler.water_level", "firing.feed.ram", "firing.feed.hand_ram")
    if water is None or fuel is None:
        return
    laid_bare = "the flue" if result.pattern == "centre flue" else "the crown"
    least = (
        "a quarter, which must never boil away" if result.shape.floor is None
        else f"the gauge's bottom nut, before {laid_bare} is laid bare"
    )  # fmt: skip
    says = (
        f"At full fire {1000 * result.raising.water_working:.3g} g of water last {water:.2g} "
        f"minutes, down to {least}; the fuel lasts {fuel:.2g}"
    )
    if result.fuel == "coal":
        if fed.ram <= 0 and fed.hand_ram <= 0:
            yield Finding(
                "stop", CHAPTER, fields, f"{says}, and there is no pump to feed a coal fire's "
                "boiler.", "An axle pump and a hand pump, or an injector.", COMMON,
                ("firing.feed.hand_ram", round(max(5.0, 0.24 * result.shape.inside), 1)),
            )  # fmt: skip
            return
        if fed.ram <= 0 or fed.hand_ram <= 0:
            yield Finding(
                "check", CHAPTER, fields,
                f"{says}. One means of feed alone leaves nothing when it fails.",
                "A hand pump besides the axle pump, or an injector.", COMMON,
            )  # fmt: skip
            return
        yield Finding("fine", CHAPTER, fields, f"{says}; two pumps hold the level.", source=COMMON)
    elif fuel > water and fed.ram <= 0 and fed.hand_ram <= 0:
        yield Finding(
            "check", CHAPTER, fields,
            f"{says}, and nothing feeds the boiler under steam: the fire outlasts the water.",
            "Less fuel, or a hand pump.", COMMON,
        )  # fmt: skip
    elif fuel > water:
        strokes = result.evaporations.usual / fed.hand if fed.hand else 0.0
        pumped = f", {strokes:.0f} strokes a minute by hand," if strokes and fed.ram <= 0 else ""
        yield Finding(
            "check", CHAPTER, (*fields, "boiler.firebox.crown"),
            f"{says}: unless it is pumped{pumped} the fire outlasts the water.",
            f"Top up in time, fill less fuel, or lay {laid_bare} lower in the barrel.", COMMON,
        )  # fmt: skip
    else:
        yield Finding("fine", CHAPTER, fields, f"{says}: the fire goes out before the water.",
                      source=COMMON)  # fmt: skip


def _gas(firing: Firing, result: FiringResult) -> Iterator[Finding]:
    gas, burnt = firing.gas, result.emptied
    if result.fuel != "gas" or burnt is None:
        return
    home = gas.tank_made == TANKS[0]
    if gas.gas == "propane" and home:
        yield Finding(
            "stop", CHAPTER, ("firing.gas.gas", "firing.gas.tank_made"),
            "Propane presses 7 bar on a tank at 20 °C and 13 bar at 40 °C: it does not belong in a "
            "tank made for the engine.", "Butane, or a bought tank with its certificate.", COMMON,
            ("firing.gas.gas", "butane"),
        )  # fmt: skip
    elif "propane" in GASES[gas.gas] and home:
        yield Finding(
            "check", CHAPTER, ("firing.gas.gas", "firing.gas.tank_made"),
            "A third of propane doubles the pressure in the tank beside butane: the tank must be "
            "made and tested for it.", "Ask the inspector, or burn butane.", COMMON,
        )  # fmt: skip
    if gas.filled > FULL_TANK:
        yield Finding(
            "stop", CHAPTER, ("firing.gas.filled",),
            f"Filled to {gas.filled:.2f} with liquid the gas tank has no room for it to grow in: "
            f"{FULL_TANK:g} is the most.", "Fill by a tube that ends at that height.",
            "gasbros.co.za, 0.80 to 0.85", ("firing.gas.filled", 0.8),
        )  # fmt: skip
    if not burnt.flow[0] > 0:
        yield Finding(
            "stop", CHAPTER, ("firing.gas.gas", "firing.gas.tank_at"),
            f"At {gas.tank_at:g} °C {gas.gas} has no pressure to burn with.",
            "A warmer tank, isobutane, or a mixture in a tank certified for it.", "CoolProp",
        )  # fmt: skip
        return
    half = burnt.flow[len(burnt.flow) // 2] / burnt.flow[0]
    end, cold = burnt.time[-1] / 60, min(burnt.temperature)
    fields = ("firing.gas.tank", "firing.gas.warmth", "firing.gas.around", "firing.gas.gas")
    begins = f"The gas begins with {burnt.pressure[0]:.2f} bar"
    if half < FADES:
        yield Finding(
            "check", CHAPTER, fields,
            f"{begins}; as it evaporates the tank cools to {cold:.0f} °C, and halfway through its "
            f"{end:.0f} minutes {100 * half:.0f} % of the gas flows.",
            "A tank in a bath of warm water, or beside the boiler; isobutane.", "balance of heat",
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"{begins}; the tank cools to {cold:.0f} °C and burns {end:.0f} minutes, with "
            f"{100 * half:.0f} % of the gas halfway.", source="balance of heat",
        )  # fmt: skip


def _valve(firing: Firing, result: FiringResult) -> Iterator[Finding]:
    valves, most = result.valves, result.evaporations.high
    passes = 60_000 * valves.passes
    fields = ("firing.valves.seat", "firing.valves.number", "firing.valves.lift")
    word = "valves pass" if valves.number > 1 else "valve passes"
    says = (
        f"The safety {word} {passes:.3g} g of steam a minute at {ACCUMULATION:g} of the "
        f"{valves.blows_at:g} bar, by Napier's rule {60_000 * valves.by_napier:.3g} g; at full "
        f"fire up to {most:.3g} g are made"
    )
    if valves.blows_at > result.pressure * 1.0001:
        yield Finding(
            "check", CHAPTER, ("firing.valves.blows_at", "cylinders.pressure"),
            f"The safety valve blows at {valves.blows_at:g} bar; the engine is reckoned for "
            f"{result.pressure:g} bar, and the certificate may name no more.",
            "Set it to the working pressure.", COMMON,
            ("firing.valves.blows_at", float(result.pressure)),
        )  # fmt: skip
    if valves.number < 2 and result.fuel == "coal":
        yield Finding(
            "check", CHAPTER, ("firing.valves.number",),
            "A coal fire is not turned off: a locomotive has two safety valves, so that one may "
            "stick.", "A second valve.",
            "J. Bourne, A Catechism of the Steam Engine, question 314",
            ("firing.valves.number", 2),
        )  # fmt: skip
    if passes < most * 0.999:
        wide = math.ceil(10 * valves.needed) / 10
        yield Finding(
            "stop", CHAPTER, fields, f"{says}: the pressure rises beyond what is allowed.",
            f"A seat of {wide:g} mm, another valve, or one that lifts more.", ISO_4126,
            ("firing.valves.seat", wide),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"{says}. The test at full fire with the steam shut off has the last word.",
            source=ISO_4126,
        )  # fmt: skip


def _class(result: FiringResult) -> Iterator[Finding]:
    litres = result.room / 1000
    says = f"{result.pressure:g} bar times {litres:.3g} l make {result.bar_litres:.3g} bar litres"
    fields = ("cylinders.pressure", "boiler.shell.length")
    if result.bar_litres < UNDER_CODE:
        yield Finding(
            "fine", CHAPTER, fields,
            f"{says}: under {UNDER_CODE:g}, where the UK's code has easier rules; other countries "
            "draw other lines.", source="UK Boiler Test Code 2018, volume 2",
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"{says}: over {UNDER_CODE:g}, so that in the UK the full code applies, with drawing, "
            "inspection while it is made, and a certificate; ask what applies where you live.",
            source="UK Boiler Test Code 2018, volume 2",
        )  # fmt: skip


def _pump(firing: Firing, result: FiringResult) -> Iterator[Finding]:
    fed = result.fed
    if fed.ram <= 0 or not fed.used:
        return
    fields = ("firing.feed.ram", "firing.feed.stroke", "firing.feed.slip")
    times = pump_mm3(fed.ram, fed.stroke) * firing.feed.strokes * 0.998e-3 / fed.used
    says = (
        f"The axle pump displaces {times:.1f} times the {fed.used:.3g} g that the engine uses a "
        f"turn, and delivers {fed.per_turn:.3g} g"
    )
    if fed.per_turn < fed.used:
        wide = math.ceil(10 * fed.ram * math.sqrt(1.2 * fed.used / fed.per_turn)) / 10
        yield Finding(
            "check", CHAPTER, fields, f"{says}: the level falls while it runs.",
            f"A ram of {wide:g} mm.", BOURNE_3_5, ("firing.feed.ram", wide) if wide <= 60 else None,
        )  # fmt: skip
    elif times > 2 * MARGIN:
        yield Finding(
            "check", CHAPTER, fields,
            f"{says}: far more than the {MARGIN:g} times that are usual; it costs power and cools "
            "the boiler.", "A smaller ram, and a by-pass in any case.", BOURNE_3_5,
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields, f"{says}; a by-pass sends the rest back.", source=BOURNE_3_5
        )


def _oil(result: FiringResult) -> Iterator[Finding]:
    fed, run = result.fed, result.by_fuel
    if result.fuel == "coal" or fed.lasts is None or run is None or fed.lasts >= 0.95 * run:
        return
    yield Finding(
        "check", CHAPTER, ("firing.feed.lubricator", "firing.feed.oil"),
        f"The lubricator's {fed.lubricator:.2g} ml of oil last {fed.lasts:.2g} minutes, and the "
        f"fuel {run:.2g}.", "A larger lubricator, or a finer hole.", COMMON,
    )  # fmt: skip


def _pipes(firing: Firing, result: FiringResult) -> Iterator[Finding]:
    piped = result.piped
    fastest = max(piped.regulator_speed, piped.pipe_speed)
    fields = ("firing.pipes.regulator", "firing.pipes.steam_pipe")
    says = (
        f"Steam runs at {piped.regulator_speed:.0f} m/s through the regulator and at "
        f"{piped.pipe_speed:.0f} m/s through the pipe"
    )
    if fastest > FAST:
        yield Finding(
            "check", CHAPTER, fields, f"{says}; {STEAM_SPEED:g} m/s are usual, {FAST:g} the most.",
            "Wider bores.", "engineeringtoolbox.com, 25 to 40 m/s",
        )  # fmt: skip
    else:
        yield Finding("fine", CHAPTER, fields, f"{says}.",
                      source="engineeringtoolbox.com, 25 to 40 m/s")  # fmt: skip
    if piped.blower and piped.blower_uses > 0.25 * result.evaporations.usual / 60_000:
        yield Finding(
            "check", CHAPTER, ("firing.pipes.blower",),
            f"The blower takes {60_000 * piped.blower_uses:.3g} g of steam a minute, more than a "
            "quarter of what is made.", "A smaller jet.", COMMON,
        )  # fmt: skip
    if piped.superheat <= 0:
        return
    rubber = elastomer("fluorocarbon").limit
    hot, fields = piped.steam_at, ("firing.pipes.superheater", "firing.pipes.superheat")
    asks = []
    if hot > OIL_LIMIT:
        asks.append("oil for superheated steam")
    if hot > rubber:
        asks.append("no rubber rings")
    if hot > PTFE:
        asks.append("packing of graphite, not PTFE, which gives off harmful fumes")
    yield Finding(
        "check" if hot > PTFE else "fine", CHAPTER, fields,
        f"With {piped.superheat:.0f} degrees of superheat steam comes at {hot:.0f} °C"
        + (f", and wants {', '.join(asks)}." if asks else ": oil and packing bear it."),
        "A superheater outside the fire." if hot > PTFE else "", COMMON,
    )  # fmt: skip
