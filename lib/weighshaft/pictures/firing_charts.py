"""Charts of the fire: safety valves, the gas tank as it cools, coal by draught."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..firing import Firing, FiringResult
from ..firing.gas import mixed, mole_shares
from ..firing.valves import capacity, napier_flow
from ..trade.fuels import GASES
from ..trade.saturation import ATMOSPHERE
from .scene import Band, Chart, Curve, Picture


def charts(firing: Firing, result: FiringResult) -> Iterator[Picture]:
    """Yield the charts."""
    yield safety(firing, result)
    if result.emptied is not None:
        yield tank(result)
        yield gases(firing)
    if result.raising.draught > 0:
        yield by_draught(result)


def safety(firing: Firing, result: FiringResult) -> Chart:
    """Return what safety valves pass by the bore of their seat, against what is made."""
    valves, about = result.valves, firing.valves
    seats = np.linspace(0.2 * valves.seat, 2.0 * valves.seat, 40)
    given = (valves.share, about.discharge, valves.blows_at, valves.number)
    iso = np.array([60_000 * capacity(float(d), *given) for d in seats])
    old = np.array([60_000 * napier_flow(float(d), *given) for d in seats])
    most = float(iso.max())
    made = result.evaporations
    own = 60_000 * valves.passes
    how = f"{valves.number} valves pass" if valves.number > 1 else "the valve passes"
    return Chart(
        "Safety valves against the greatest evaporation",
        f"With seats of {valves.seat:.2f} mm {how} {own:.3g} g of steam a minute with the "
        f"pressure a tenth above {valves.blows_at:g} bar; at full fire {made.low:.3g} to "
        f"{made.high:.3g} g are made, and {valves.needed:.2f} mm are needed.",
        "bore of the seat, of the one taken", "steam (g/min)",
        (
            Curve(seats / valves.seat, iso, "as ISO 4126"),
            Curve(seats / valves.seat, old, "Napier", "hidden"),
            Curve(np.ones(2), np.array([0.0, most]), "as taken", "changed"),
        ),
        (Band(made.low, made.high, "made at full fire"),),
    )  # fmt: skip


def tank(result: FiringResult) -> Chart:
    """Return how a gas tank cools and its fire fades."""
    burnt = result.emptied
    assert burnt is not None
    minutes = np.array(burnt.time) / 60
    first = burnt.flow[0] or 1.0
    return Chart(
        "The gas tank as it burns empty",
        f"The tank begins at {burnt.temperature[0]:.0f} °C and {burnt.pressure[0]:.2f} bar, cools "
        f"to {min(burnt.temperature):.0f} °C, and ends with "
        f"{100 * burnt.flow[-1] / first:.0f} % of its first flow after {minutes[-1]:.0f} minutes.",
        "minutes", "°C, and % of the first flow",
        (
            Curve(minutes, np.array(burnt.temperature), "tank, °C", "changed"),
            Curve(minutes, 100 * np.array(burnt.flow) / first, "gas, % of the first flow", "crank"),
        ),
    )  # fmt: skip


def gases(firing: Firing) -> Chart:
    """Return the pressure in the tank by its temperature, of every gas that is sold."""
    temperatures = np.linspace(-20.0, 50.0, 36)
    curves, own = [], firing.gas.gas
    for gas in GASES:
        over = [mixed(mole_shares(gas), float(one))[0] - ATMOSPHERE for one in temperatures]
        curves.append(
            Curve(temperatures, np.maximum(np.array(over), 0.0), gas,
                  "changed" if gas == own else "outline")
        )  # fmt: skip
    cold, hot = (mixed(mole_shares(own), at)[0] - ATMOSPHERE for at in (firing.gas.tank_at, 40.0))
    return Chart(
        "Pressure in a gas tank by its temperature",
        f"{own.capitalize()} presses {max(cold, 0.0):.2f} bar on its tank at "
        f"{firing.gas.tank_at:g} °C, and {hot:.1f} bar at 40 °C. Propane is for bought "
        "tanks alone.",
        "°C", "bar on the gauge", tuple(curves),
    )  # fmt: skip


def by_draught(result: FiringResult) -> Chart:
    """Return the heat that a coal fire puts into the water by the draught."""
    raising = result.raising
    draughts = np.linspace(0.0, 3.0 * raising.draught, 61)
    heats = np.array([raising.heat_at(float(d), 0.0) / 1000 for d in draughts])
    fires = np.array([raising.fire_at(float(d), 0.0) / 1000 for d in draughts])
    return Chart(
        "Coal fire by the draught",
        f"With {raising.draught:g} mm of water in the smokebox the fire gives "
        f"{raising.fire_full / 1000:.1f} kW, of which {raising.heat_full / 1000:.1f} kW get into "
        "the water; forced further it gains less and less.",
        "draught in the smokebox (mm of water)", "kW",
        (
            Curve(draughts, fires, "heat of the fire", "crank"),
            Curve(draughts, heats, "into the water"),
            Curve(np.array([raising.draught] * 2), np.array([0.0, float(fires.max())]),
                  "full fire", "changed"),
        ),
    )  # fmt: skip
