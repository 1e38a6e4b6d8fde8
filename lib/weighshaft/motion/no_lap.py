"""What a valve without lap costs in steam, against the same cylinder with lap.

Without lap steam is let in and out for the whole stroke: none of it works by expansion, and
none is kept by compression.  Both are worked by the assumed cycle of the cylinders.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from ..cylinders.steam import Events, Fill, events_of, steam_used
from ..sizes import figure
from ..trade.saturation import ATMOSPHERE, saturation
from ..working import Working, relation
from .change_over import ChangeOver
from .equivalent import Wanted, sizes_for_events
from .events import ValveEvents, valve_events
from .frame import Crank
from .slip_eccentric import SlipEccentric
from .valves import SlideValve


@relation(
    "k", "steam for the same work; geometry of the assumed cycle",
    bare="m_0", bare_mean="p_0", lapped="m_L", lapped_mean="p_L",
)  # fmt: skip
def steam_ratio(bare: float, bare_mean: float, lapped: float, lapped_mean: float) -> Any:
    """Steam for the same work without lap over that with lap."""
    return (bare / bare_mean) / (lapped / lapped_mean)


@dataclass(frozen=True, kw_only=True)
class CostOfNoLap:
    """What no lap costs; the figures with lap are of the same cylinder, ports and pressure.

    Steam is that drawn for one litre swept by the piston; none is lost by condensing.
    """

    cutoff: float = figure("Cut-off without lap", "%")
    cutoff_with_lap: float = figure("Cut-off with lap", "%")
    mean_pressure: float = figure("Mean pressure without lap", "bar")
    mean_pressure_with_lap: float = figure("Mean pressure with lap", "bar")
    steam: float = figure("Steam for a litre swept, without lap", "g")
    steam_with_lap: float = figure("Steam for a litre swept, with lap", "g")
    more_steam: float = figure("More steam for the same work", "%", main=True)
    lapped: SlipEccentric
    lapped_valve: SlideValve
    workings: tuple[Working, ...]


def cost_of_no_lap(
    crank: Crank,
    gear: ChangeOver,
    valve: SlideValve,
    wanted: Wanted,
    *,
    pressure: float,
    back: float,
    clearance: float,
) -> CostOfNoLap:
    """Compare the gear with a slip eccentric whose valve has the lap for the events wanted.

    Both are worked on their true linkage in forward gear with the same eccentric rod, and
    both open the port alike.

    Parameters
    ----------
    wanted : cut-off and lead of the valve with lap; the opening is that of the gear, unless
        given.
    pressure, back : in the steam chest and in the exhaust, bar gauge.
    clearance : clearance volume, % of the volume swept.

    Raises
    ------
    SizeError : when the events wanted contradict one another.
    ValueError : when no work is left at these pressures.
    """
    opening = wanted.port_opening or gear.eccentric_throw - valve.steam_lap
    sizes = sizes_for_events(wanted.cutoff, wanted.lead, opening)
    lapped = SlipEccentric(
        eccentric_throw=sizes.throw, advance=sizes.advance, eccentric_rod=gear.eccentric_rod,
        spindle_height=gear.spindle_height, admission=gear.admission,
        valve_angle=gear.valve_angle,
    )  # fmt: skip
    lapped_valve = replace(valve, steam_lap=sizes.steam_lap, exhaust_lap=0.0)
    fill = Fill(pressure + ATMOSPHERE, back + ATMOSPHERE, clearance / 100, lifts=False)
    bare_events = mean_events(valve_events(crank, valve, gear, 1.0))
    lapped_events = mean_events(valve_events(crank, lapped_valve, lapped, 1.0))
    live, spent = saturation(pressure).density, saturation(back).density
    bare, with_lap = (
        steam_used.work(
            f"Steam for a litre swept, {words} lap", "g", density=live, kept_density=spent,
            filled=events.cutoff + fill.clearance, kept=events.compression + fill.clearance,
        )
        for words, events in (("without", bare_events), ("with", lapped_events))
    )  # fmt: skip
    mean, mean_with_lap = fill.mean(bare_events), fill.mean(lapped_events)
    if min(mean, mean_with_lap, with_lap.result) <= 0:
        raise ValueError(
            f"Between {pressure:g} bar and a back pressure of {back:g} bar no work is left."
        )
    ratio = steam_ratio.work(
        "Steam for the same work", "ratio", bare=bare.result, bare_mean=mean,
        lapped=with_lap.result, lapped_mean=mean_with_lap,
    )  # fmt: skip
    return CostOfNoLap(
        cutoff=100 * bare_events.cutoff,
        cutoff_with_lap=100 * lapped_events.cutoff,
        mean_pressure=mean,
        mean_pressure_with_lap=mean_with_lap,
        steam=bare.result,
        steam_with_lap=with_lap.result,
        more_steam=100 * (ratio.result - 1),
        lapped=lapped,
        lapped_valve=lapped_valve,
        workings=(bare, with_lap, ratio),
    )


def mean_events(events: ValveEvents) -> Events:
    """Return the events of the cycle, the mean of both ends."""

    def mean(name: str) -> float | None:
        ends = [getattr(end, name) for end in (events.front, events.back)]
        if any(event is None for event in ends):
            return None
        return float(sum(event.percent for event in ends)) / 2

    return events_of(mean("cutoff"), mean("release"), mean("compression"))
