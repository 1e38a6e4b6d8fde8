"""Indicator diagrams, pressures and torque around the turn, the blast, and where the steam goes."""

from __future__ import annotations

import numpy as np

from ..steam import SteamResult, SteamSide
from ..trade.saturation import ATMOSPHERE
from .scene import Array, Band, Chart, Curve, Picture, Table

_TICK = 0.03
"""Half height of the mark of an event over the height of the diagram."""


def pictures(steam: SteamSide, result: SteamResult) -> tuple[Picture, ...]:
    """Return the charts and tables of one running condition."""
    return (
        indicator(result),
        around(result),
        torque(result),
        blast(result),
        losses(result),
        coefficients(result),
    )


def _by_angle(result: SteamResult, values: Array) -> Array:
    """Return values of a turn in the order of the crank angle, whichever way it ran."""
    return values if result.notch >= 0 else values[::-1]


def indicator(result: SteamResult) -> Chart:
    """Return the indicator diagrams of both ends with the events, and the textbook's beside."""
    cycle, place = result.cycle, 100 * result.place
    front, back = cycle.pressure - ATMOSPHERE
    single = float(np.ptp(cycle.volume[1])) == 0
    ideal = result.ideal[:, np.isfinite(result.ideal[1])]
    curves = [
        Curve(100 * ideal[0], ideal[1], "without losses", "behind"),
        Curve(_closed(place), _closed(front), "front end"),
    ]
    if not single:
        curves.append(Curve(_closed(place), _closed(back), "back end", "trace"))
    high = _TICK * float(max(front.max(), back.max()))
    for mark in result.marks:
        if single and mark.end == "back":
            continue
        values = front if mark.end == "front" else back
        x, y = float(place[mark.step]), float(values[mark.step])
        name = mark.name if mark.end == "front" else ""
        curves.append(Curve(np.array([x, x]), np.array([y - high, y + high]), name, "thin"))
    return Chart(
        "Indicator diagrams",
        f"At {result.speed:.3g} km/h the mean effective pressure is {result.mean_pressure:.2f} "
        f"bar, without losses it would be {result.ideal_pressure:.2f}; back pressure "
        f"{result.back_pressure:.2f} bar in the mean, compression up to "
        f"{result.compression:.2f} bar. Short strokes across the line are the front end's events.",
        "piston from front dead centre, % of stroke",
        "pressure, bar on the gauge",
        tuple(curves),
        follows=(1,),
    )


def _closed(values: Array) -> Array:
    made: Array = np.append(values, values[:1])
    return made


def around(result: SteamResult) -> Chart:
    """Return the pressures over the crank angle: both ends, chest and blast pipe."""
    cycle = result.cycle
    theta = np.linspace(0.0, 360.0, cycle.chest.size, endpoint=False)
    front, back, chest, pipe = (
        _by_angle(result, one - ATMOSPHERE) for one in (*cycle.pressure, cycle.chest, cycle.pipe)
    )
    curves = [
        Curve(theta, front, "front end"),
        Curve(theta, chest, "chest", "thin"),
        Curve(theta, pipe, "blast pipe", "stop"),
    ]
    if float(np.ptp(cycle.volume[1])) > 0:
        curves.insert(1, Curve(theta, back, "back end", "trace"))
    return Chart(
        "Pressures around the turn",
        f"The chest falls to {result.chest_least:.2f} bar when the ports draw; the blast pipe has "
        f"{result.blast_pressure:.2f} bar in the mean and {float(pipe.max()):.2f} at the highest.",
        "crank angle from front dead centre, degrees",
        "pressure, bar on the gauge",
        tuple(curves),
        follows=(0,),
    )


def torque(result: SteamResult) -> Chart:
    """Return the torque of all cylinders around the turn, N m."""
    turned = _by_angle(result, result.torque) / 1000
    theta = np.linspace(0.0, 360.0, turned.size, endpoint=False)
    mean = float(turned.mean())
    even = "" if result.evenness is None else f"; the greatest is {result.evenness:.2f} of it"
    return Chart(
        "Torque around the turn, by the steam alone",
        f"Mean torque on the axle {mean:.3g} N m{even}.",
        "crank angle of the first crank, degrees",
        "torque, N m",
        (
            Curve(theta, turned, "all cylinders"),
            Curve(theta[[0, -1]], np.array([mean, mean]), "mean", "thin"),
        ),
        follows=(0,),
    )


def blast(result: SteamResult) -> Chart:
    """Return what goes through the nozzle around the turn, g/s: the beats."""
    flow = _by_angle(result, result.blast)
    theta = np.linspace(0.0, 360.0, flow.size, endpoint=False)
    mean = float(flow.mean())
    count = len(result.beats.at)
    even = result.beat_evenness
    said = (
        "no beat stands out" if even is None or not count
        else f"{count} beats a turn, the weakest {100 * even:.0f} % of the strongest"
    )  # fmt: skip
    return Chart(
        "The blast: what goes through the nozzle",
        f"{mean:.3g} g/s in the mean, {float(flow.max()):.3g} at the strongest; {said}.",
        "crank angle of the first crank, degrees",
        "through the nozzle, g/s",
        (
            Curve(theta, flow, "through the nozzle"),
            Curve(theta[[0, -1]], np.array([mean, mean]), "mean", "thin"),
        ),
        (Band(0.0, mean),),
        follows=(0,),
    )


def losses(result: SteamResult) -> Table:
    """Return what takes pull and what takes steam."""
    rows = [
        (one.name, f"{one.amount:.3f} bar", f"{100 * one.share:.1f} %")
        for one in result.pressure_losses
    ]
    rows += [
        (one.name, f"{one.amount:.3g} g a turn", f"{100 * one.share:.1f} %")
        for one in result.steam_losses
    ]
    return Table(
        "What takes pull, and where the steam goes",
        ("what", "amount", "share"),
        tuple(rows),
        "Pressures as a share of the mean effective pressure that is left, steam of what is drawn.",
    )


def coefficients(result: SteamResult) -> Table:
    """Return what is assumed, with the range seen in practice and the source."""
    return Table(
        "Coefficients assumed",
        ("coefficient", "taken", "seen", "source"),
        tuple((one.name, one.value, one.seen, one.source) for one in result.coefficients),
        "Change them under the sizes; your own measurements are better than any of them.",
    )
