"""Tables of the fire: surfaces, steam, feed, and plates for the talk with the inspector."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from ..firing import Firing, FiringResult
from ..trade.copper import SOURCES
from .scene import Picture, Table


def tables(firing: Firing, result: FiringResult) -> Iterator[Picture]:
    """Yield the tables."""
    yield surface_table(result)
    yield steam_table(result)
    yield valve_table(result)
    yield feed_table(firing, result)
    yield metal_table(result)


def surface_table(result: FiringResult) -> Table:
    """Return the heating surfaces."""
    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (one.name, f"{one.area / 100:.0f}", "fire" if one.radiating else "hot gas")
        for one in result.heated.parts
    )
    whole = ("all", f"{result.surface:.0f}", "")
    return Table(
        "Heating surfaces", ("surface", "cm²", "touched by"), (*rows, whole),
        f"The fire gives {result.loading:.0f} kW to a square metre of it; "
        f"{result.efficiency.loading:.0f} are usual for the type.",
    )  # fmt: skip


def steam_table(result: FiringResult) -> Table:
    """Return steam and times, low, usual and high."""
    low, share, high = result.efficiency.range_at(result.loading)
    made, raised = result.evaporations, result.raisings
    minutes = ("never",) * 3 if raised is None else tuple(
        f"{one:.2g}" for one in (raised.high, raised.usual, raised.low)
    )  # fmt: skip
    return Table(
        "What nobody knows exactly", ("", "low", "usual", "high"),
        (
            ("share of the heat that gets into the water",
             *(f"{one:.2f}" for one in (low, share, high))),
            ("steam at full fire, g/min",
             *(f"{one:.3g}" for one in (made.low, made.usual, made.high))),
            ("raising steam, min", *minutes),
        ),
        f"Source of the range: {result.efficiency.source}.",
    )  # fmt: skip


def valve_table(result: FiringResult) -> Table:
    """Return the seat of a safety valve by several rules."""
    valves = result.valves
    rows: list[tuple[str | float, ...]] = [
        ("as taken", valves.seat, f"{60_000 * valves.passes:.3g}"),
        ("needed, as ISO 4126", valves.needed, f"{result.evaporations.high:.3g}"),
        ("needed, by Napier", valves.needed * math.sqrt(valves.passes / valves.by_napier),
         f"{result.evaporations.high:.3g}"),
    ]  # fmt: skip
    if valves.by_old_rule is not None:
        rows.append(("one, by Bourne's rule, fully open", valves.by_old_rule, ""))
    many = f"{valves.number} valves, each" if valves.number > 1 else "One valve"
    return Table(
        "Seats of the safety valves", ("rule", "bore", "g/min"), tuple(rows),
        f"{many} lifting 1/{1 / valves.share:.0f} of its seat, at a tenth above "
        f"{valves.blows_at:g} bar.",
    )  # fmt: skip


def feed_table(firing: Firing, result: FiringResult) -> Table:
    """Return pumps, oil, pipes and the blower."""
    fed, piped = result.fed, result.piped
    rows: list[tuple[str | float, ...]] = []
    if fed.ram > 0:
        used = "" if fed.used is None else f"; used {fed.used:.3g} g"
        rows += [
            ("axle pump, ram", fed.ram, f"{fed.per_turn:.3g} g a turn{used}"),
            ("axle pump, stroke", fed.stroke, f"old rule {fed.by_old_rule:.0f} mm³"),
        ]
    if fed.hand_ram > 0:
        rows += [("hand pump, ram", fed.hand_ram, f"{fed.hand:.3g} g a stroke"),
                 ("hand pump, stroke", fed.hand_stroke, "")]  # fmt: skip
    slips = ""
    if fed.ram > 0:
        slips = f"The axle pump slips {100 * firing.feed.slip:.0f} %; the old rule is Bourne's. "
    lasts = "" if fed.lasts is None else f", lasts {fed.lasts:.0f} min"
    rows += [
        ("lubricator", f"{fed.lubricator:.3g} ml", f"{fed.oil:.2g} g a minute{lasts}"),
        ("regulator, bore", piped.regulator, f"{piped.regulator_speed:.0f} m/s"),
        ("steam pipe, bore", piped.pipe, f"{piped.pipe_speed:.0f} m/s"),
    ]
    if piped.blower > 0:
        rows.append(("blower jet", piped.blower, f"{60_000 * piped.blower_uses:.2g} g/min"))
    return Table(
        "Feed, oil and pipes", ("what", "size", "does"), tuple(rows),
        f"{slips}Steam comes at {piped.steam_at:.0f} °C.",
    )  # fmt: skip


def metal_table(result: FiringResult) -> Table:
    """Return the stresses by the usual formulas, beside what hot copper is allowed."""
    metal = result.metal

    def told(value: float | None) -> str:
        return "not told" if value is None else f"{value:.1f}"

    rows = tuple(
        (one.name, f"{one.stress:.1f}", *(told(value) for _, value in one.allowed),
         "" if one.hand is None else f"{one.hand:.1f}", re.split("[,;:]", one.formula)[0])
        for one in metal.rows
    )  # fmt: skip
    stays = "" if metal.pitch is None else (
        f" Plates {metal.plate:.2f} mm, stays {metal.stay:.2f} mm at the root, "
        f"{metal.pitch:.2f} mm apart."
    )  # fmt: skip
    crushed = "" if metal.crushed_at is None else (
        f" A perfect tube like the flue is crushed at {metal.crushed_at:.0f} bar."
    )  # fmt: skip
    return Table(
        "Plates and stays, for the talk with the inspector",
        ("part", "N/mm²", "US", "UK", "times", "formula"), rows,
        f"US and UK: allowed of annealed copper at the water's temperature; {SOURCES['US']}; "
        f"{SOURCES['UK']}. Outside their tables nothing is told.{stays}{crushed} "
        f"Tested cold at {result.test_first:.1f} bar first and {result.test_again:.1f} bar again, "
        "as is commonly asked for; never with air. "
        "This certifies nothing.",
    )  # fmt: skip
