"""What is to be said of the steam: what costs pull, what costs water, and how sure it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..findings import Finding
from .decisions import SteamSide
from .results import Coefficient, SteamResult

if TYPE_CHECKING:
    from .engine import Engine, Running

MEASURED = (96.0, 408.0)
"""Bores of the engines on which the coefficients were tried, mm."""
WAY_IN, WAY_OUT = 0.2, 0.15
"""Shares of the mean pressure from which a way is said to be narrow (common practice)."""
UNEVEN = 0.75
"""Weakest beat over strongest below which a beat is heard to limp (common practice)."""


def judged(
    steam: SteamSide, engine: Engine, running: Running, result: SteamResult
) -> list[Finding]:
    """Return the findings."""
    return [
        *_sure(steam, engine, result),
        *_pull(engine, running, result),
        *_ways(result),
        *_compression(running, result),
        *_beats(engine, result),
        *_superheat(steam, engine),
    ]


def _sure(steam: SteamSide, engine: Engine, result: SteamResult) -> list[Finding]:
    found = []
    if not result.cycle.repeats:
        found.append(
            Finding(
                "check", "steam", ("steam.running.speed",),
                f"The turn had not come to repeat itself after {result.cycle.turns} turns; it "
                f"leaves {100 * max(result.cycle.mass_error, result.cycle.energy_error):.2g} % "
                "over.", "Take the figures as rough, or look at a slightly different speed.",
            )
        )  # fmt: skip
    low, high = MEASURED
    if not low <= engine.bore <= high:
        found.append(
            Finding(
                "fine", "steam", ("steam.assumed.film", "steam.assumed.valve_gap"),
                f"The coefficients are from measured engines of {low:.0f} to {high:.0f} mm bore: "
                f"at {engine.bore:.4g} mm they are an extrapolation. The pull may well be a "
                "tenth out, the steam a third.",
                "Measure water and pull on the bench and let the workbook fit the engine's own.",
                "Isherwood 1874, English 1887, Vienna 1884; see the checks",
            )
        )  # fmt: skip
    if engine.moved.valve.port_length is None and not hasattr(engine.moved.gear, "holes"):
        found.append(
            Finding(
                "check", "steam", ("motion.valve.port_length",),
                "The length of the steam ports is not decided; 0.7 of the bore was taken.",
                "Decide it in valves and motion.",
            )
        )  # fmt: skip
    return found


def _pull(engine: Engine, running: Running, result: SteamResult) -> list[Finding]:
    where = ("steam.running.speed", "steam.running.notch")
    if result.mean_pressure <= 0:
        return [
            Finding(
                "check", "steam", where,
                f"At {running.speed:.3g} km/h in this notch the pistons take power instead of "
                f"giving it: mean pressure {result.mean_pressure:.2f} bar.",
                "A notch nearer full gear, a wider regulator or less speed.",
            )
        ]  # fmt: skip
    part = 100 * result.mean_pressure / max(result.ideal_pressure, 1e-9)
    return [
        Finding(
            "fine", "steam", where,
            f"At {running.speed:.3g} km/h the mean pressure is {result.mean_pressure:.2f} bar, "
            f"{part:.0f} % of the textbook's diagram without losses; that is {result.pull:.3g} N "
            f"at the rim for {result.steam_rate:.2g} g of "
            f"{'steam' if running.medium == 'steam' else 'air'} a second.",
        )
    ]  # fmt: skip


def _ways(result: SteamResult) -> list[Finding]:
    way_in, way_out = result.pressure_losses
    found = []
    if result.mean_pressure <= 0:
        return []
    if way_in.share > WAY_IN:
        found.append(
            Finding(
                "check", "steam",
                ("motion.valve.port_length", "steam.way.regulator", "cylinders.passages.holes"),
                f"On the way in {way_in.amount:.2f} bar of mean pressure are lost, "
                f"{100 * way_in.share:.0f} % of what is left; the chest falls to "
                f"{result.chest_least:.2f} bar.",
                "A longer port, more lap and travel, or a wider regulator.",
            )
        )  # fmt: skip
    if way_out.share < -WAY_OUT:
        found.append(
            Finding(
                "check", "steam",
                ("nozzle.diameter", "motion.valve.exhaust_lap", "motion.valve.port_length"),
                f"On the way out {-way_out.amount:.2f} bar are lost, {-100 * way_out.share:.0f} % "
                f"of the mean pressure; the blast pipe has {result.blast_pressure:.2f} bar in "
                "the mean.",
                "A wider nozzle, a longer port or an earlier release.",
            )
        )  # fmt: skip
    return found


def _compression(running: Running, result: SteamResult) -> list[Finding]:
    if result.compression <= running.pressure:
        return []
    return [
        Finding(
            "check", "steam", ("motion.valve.exhaust_lap", "cylinders.barrel.front_clearance")[:1],
            f"The steam shut in rises to {result.compression:.2f} bar before the port opens, above "
            f"the boiler's {running.pressure:.2f} bar.",
            "Less exhaust lap or more lead; a slide valve lifts off its face and clatters.",
        )
    ]  # fmt: skip


def _beats(engine: Engine, result: SteamResult) -> list[Finding]:
    even = result.beat_evenness
    wanted = engine.number * (1 if engine.single else 2)
    count = len(result.beats.at)
    if even is None or count < 2:
        return []
    says = (
        f"{count} beats a turn, the weakest {100 * even:.0f} % of the strongest"
        f"{'' if count == wanted else f' ({wanted} exhausts, which run into one another)'}."
    )
    if even < UNEVEN:
        return [
            Finding(
                "check", "steam", ("motion.setting.rule", "motion.valve.valve_offset"),
                says + " That is heard.", "Set the valve for equal cut-offs in this notch.",
            )
        ]  # fmt: skip
    return [Finding("fine", "steam", ("motion.setting.rule",), says)]


def _superheat(steam: SteamSide, engine: Engine) -> list[Finding]:
    own = steam.way.superheat
    superheat = engine.superheat or 0.0 if own is None else own
    if superheat <= 60:
        return []
    return [
        Finding(
            "check", "steam", ("steam.way.superheat",),
            f"With {superheat:.0f} degC of superheat rubber rings and soft packings fail and plain "
            "oil burns.", "PTFE or iron rings, superheat cylinder oil and a sure feed of it.",
        )
    ]  # fmt: skip


def cautions(running: Running) -> tuple[str, ...]:
    """Return the cautions that belong beside the figures."""
    if running.medium != "steam":
        return (
            "Compressed air stores energy: keep fingers out of the motion, wear eye protection, "
            "and never put air into a boiler to test it.",
        )
    return (
        "A cylinder cold or full of water must be turned slowly with its drains open: water cannot "
        "be compressed, and a cover can break.",
        "Steam burns. Figures of this chapter say what an engine would do; they certify nothing "
        "about boiler or fittings.",
    )


def coefficients(steam: SteamSide, gap: float) -> tuple[Coefficient, ...]:
    """Return what is assumed, with the range seen and its source."""
    one = steam.assumed
    return (
        Coefficient("Ports, discharge", f"{one.ports:g}", "0.6 to 0.9", "common practice"),
        Coefficient(
            "Passages and regulator, discharge", f"{one.passages:g}", "0.63 to 0.93",
            "Babcock & Wilcox, Steam, eq. 50",
        ),
        Coefficient(
            "Wet wall to steam, W/(m² K)", f"{one.film:g}", "8000 to 40,000",
            "fitted to Isherwood 1874 and Vienna 1884; Callendar and Nicolson about 15,000 "
            "(from memory)",
        ),
        Coefficient("Dry wall to steam, W/(m² K)", f"{one.gas:g}", "50 to 500", "common practice"),
        Coefficient(
            "Gap under the valve, µm", f"{1000 * gap:.3g}", "1 to 25",
            "Capper 1905: a slide valve may pass over 20 % of the steam",
        ),
        Coefficient("Gap past the piston, µm", f"{1000 * one.piston_gap:.3g}", "0 to 20",
                    "common practice"),
        Coefficient("Metal to air, W/(m² K)", f"{one.to_air:g}", "5 to 40", "common practice"),
    )  # fmt: skip
