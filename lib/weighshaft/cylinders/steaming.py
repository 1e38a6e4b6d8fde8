"""Figures of the steam: mean pressure, torque, steam drawn, its speed, the clearance volume."""

from __future__ import annotations

from dataclasses import dataclass

from ..measures import circle_area
from ..sizes import figure
from ..trade.saturation import ATMOSPHERE, saturation
from . import steam
from .axis import Axis
from .decisions import Cylinders
from .loads import passage_hole_for
from .sheet import Sheet
from .turning import Turning, cranks, turning

GEARS = ("full gear", "running notch")


@dataclass(frozen=True, eq=False, kw_only=True)
class SteamFigures:
    """Figures of the steam; those that hang on the speed are None while it is not known."""

    mean_pressure_full: float = figure("Mean pressure in full gear", "bar")
    mean_pressure_running: float = figure("Mean pressure in the running notch", "bar")
    cycle_pressure_full: float = figure("The same by the cycle drawn, full gear", "bar")
    cycle_pressure_running: float = figure("The same by the cycle drawn, running", "bar")
    practice_pressure: float | None = figure("Mean pressure by Clark's rule, running", "bar")
    torque_mean: float = figure("Mean torque on the axle, full gear", "N mm")
    evenness: float = figure("Greatest torque over mean", "ratio", main=True)
    least_torque: float = figure("Least torque over mean", "ratio")
    least_start: float = figure("Least torque of a start from rest, over mean", "ratio")
    steam_per_turn: float = figure("Steam a turn, running, with the allowance", "g", main=True)
    steam_running: float = figure("Steam a turn, running, by the diagram", "g")
    steam_full: float = figure("Steam a turn, full gear, by the diagram", "g")
    steam_rate: float | None = figure("Steam at that speed, with the allowance", "g/s")
    power: float | None = figure("Indicated power at that speed", "W")
    revolutions: float | None = figure("Turns at that speed", "rev/min")
    piston_speed: float | None = figure("Mean piston speed", "m/s")
    passage_area: float = figure("Passage to each end", "mm2")
    passage_share: float = figure("Piston area over passage", "ratio")
    passage_speed: float | None = figure("Steam in the passage, mean", "m/s")
    port_speed: float | None = figure("Steam in the port, mean", "m/s")
    chest_pressure: float = figure("Pressure in the steam chest", "bar")
    chest_temperature: float = figure("Steam in the chest", "degC")
    clearance_front: float = figure("Clearance volume, front", "%")
    clearance_back: float = figure("Clearance volume, back", "%")
    clearance_percent: float = figure("Clearance volume, mean", "%")
    clearance_space: float = figure("Space left at the front dead centre", "mm3")
    compression_running: float = figure("End of compression, running notch", "bar")
    compression_full: float = figure("End of compression, full gear", "bar")
    passage_hole: float = figure("Passage holes, diameter")
    passage_length: float = figure("Passage, port to bore")
    following: tuple[float, ...]
    full: Turning
    running: Turning
    full_events: steam.Events
    running_events: steam.Events
    full_diagram: steam.Diagram
    running_diagram: steam.Diagram


@dataclass(frozen=True)
class Space:
    """What the steam fills: piston areas, mm2, and clearance volumes, mm3, front end first."""

    areas: tuple[float, float]
    spaces: tuple[float, float]
    passage: float
    hole: float
    length: float

    def parts(self, stroke: float) -> tuple[float, float]:
        """Return the clearance volumes as parts of the volumes swept."""
        return (
            self.spaces[0] / (self.areas[0] * stroke),
            self.spaces[1] / (self.areas[1] * stroke),
        )


def space_of(cylinders: Cylinders, axis: Axis) -> Space:
    """Return the space at each end: clearance of the piston, nut and passage."""
    passages = cylinders.passages
    hole = passages.hole_diameter or passage_hole_for(cylinders.bore, passages.holes)
    length = passages.length or 0.4 * axis.barrel
    passage = passages.holes * circle_area(hole)
    front = circle_area(cylinders.bore)
    back = front - circle_area(axis.rod)
    # a piston that strikes is a finding of its own; what hangs on the volume then takes a
    # thousandth of the stroke, so that no figure runs away
    least = 0.001 * axis.stroke
    beside_nut = max(front - circle_area(1.8 * axis.rod), 0.0) * axis.nut
    spaces = (
        front * max(axis.front_clearance, least) + beside_nut + passage * length,
        back * max(axis.back_clearance, least) + passage * length,
    )
    return Space((front, back), spaces, passage, hole, length)


def steaming(
    cylinders: Cylinders,
    sheet: Sheet,
    axis: Axis,
    gears: tuple[steam.Events, steam.Events],
    *,
    valve_lifts: bool,
    wheel: float,
    speed: float | None,
    port_area: float | None,
) -> SteamFigures:
    """Work the steam in full gear and in the running notch.

    Parameters
    ----------
    gears : events in full gear and in the running notch.
    valve_lifts : whether the valve lifts when compression rises above chest pressure.
    wheel : driving wheel, mm.
    speed : km/h.
    port_area : steam port as it opens, mm2.
    """
    space, cycle = space_of(cylinders, axis), cylinders.cycle
    parts = space.parts(axis.stroke)
    clearance = (parts[0] + parts[1]) / 2
    chest = (1 - cycle.chest_loss / 100) * (cylinders.pressure + ATMOSPHERE)
    back = cycle.back_pressure + ATMOSPHERE
    fills = (
        steam.Fill(chest, back, parts[0], valve_lifts),
        steam.Fill(chest, back, parts[1], valve_lifts),
    )
    following = cranks(cylinders.number, cylinders.crank_angle)
    live, spent = saturation(chest - ATMOSPHERE), saturation(cycle.back_pressure)
    means, means_drawn, turns, used, ends = [], [], [], [], []
    for events, gear in zip(gears, GEARS, strict=True):
        factor = sheet.put(
            steam.mean_factor.work(
                f"Mean over initial pressure, {gear}", "ratio",
                cutoff=events.cutoff, clearance=clearance,
            )
        )  # fmt: skip
        means.append(
            sheet.put(
                steam.mean_pressure.work(
                    f"Mean pressure, {gear}", "bar",
                    factor=factor, initial=chest, back=back, diagram=cycle.diagram_factor,
                )
            )
        )  # fmt: skip
        means_drawn.append(
            sum(area * fill.mean(events) for area, fill in zip(space.areas, fills, strict=True))
            / sum(space.areas)
        )
        turns.append(
            turning(
                cylinders.crank, space.areas, following, fills, events, ATMOSPHERE,
            )
        )  # fmt: skip
        filled, kept = (
            sum(a * axis.stroke * (at + c) for a, c in zip(space.areas, parts, strict=True)) / 1e6
            for at in (events.cutoff, events.compression)
        )
        used.append(
            sheet.put(
                steam.steam_used.work(
                    f"Steam for both ends of one cylinder, {gear}", "g",
                    density=live.density, filled=filled, kept_density=spent.density, kept=kept,
                )
            )
            * cylinders.number
        )  # fmt: skip
        used[-1] = max(used[-1], 0.0)
        ends.append(
            sheet.put(
                steam.compressed.work(
                    f"End of compression (absolute), {gear}", "bar",
                    back=back, compression=events.compression, clearance=clearance,
                )
            )
            - ATMOSPHERE
        )  # fmt: skip
    full, running = turns
    drawn = used[1] * cycle.drawn
    moving = _moving(cylinders, sheet, axis, space, wheel, speed, port_area)
    turns_a_second = None if moving.revolutions is None else moving.revolutions / 60
    power = practice = None
    if turns_a_second is not None:
        power = sheet.put(
            steam.indicated_power.work(
                "Indicated power, running notch", "W",
                mean=means_drawn[1], area=sum(space.areas) / 2, stroke=axis.stroke,
                strokes=2 * cylinders.number * turns_a_second,
            )
        )  # fmt: skip
    admission = 100 * gears[1].cutoff
    if steam.CLARK[0] <= admission <= steam.CLARK[1]:
        practice = sheet.put(
            steam.clark_mean_pressure.work(
                "Mean pressure found in practice, running notch", "bar",
                pressure=cylinders.pressure, admission=admission,
            )
        )  # fmt: skip
    # so early a cut-off that no work is left must not make the shares run away
    mean = max(full.mean, 0.01 * float(abs(full.total).max()), 1e-9)
    return SteamFigures(
        mean_pressure_full=means[0],
        mean_pressure_running=means[1],
        cycle_pressure_full=means_drawn[0],
        cycle_pressure_running=means_drawn[1],
        practice_pressure=practice,
        torque_mean=full.mean,
        evenness=float(full.total.max()) / mean,
        least_torque=float(full.total.min()) / mean,
        least_start=float(full.standing.min()) / mean,
        steam_per_turn=drawn,
        steam_running=used[1],
        steam_full=used[0],
        steam_rate=None if turns_a_second is None else drawn * turns_a_second,
        power=power,
        revolutions=moving.revolutions,
        piston_speed=moving.piston,
        passage_area=space.passage,
        passage_share=space.areas[0] / space.passage,
        passage_speed=moving.passage,
        port_speed=moving.port,
        chest_pressure=chest - ATMOSPHERE,
        chest_temperature=live.temperature,
        clearance_front=100 * parts[0],
        clearance_back=100 * parts[1],
        clearance_percent=100 * clearance,
        clearance_space=space.spaces[0],
        compression_running=ends[1],
        compression_full=ends[0],
        passage_hole=space.hole,
        passage_length=space.length,
        following=following,
        full=full,
        running=running,
        full_events=gears[0],
        running_events=gears[1],
        full_diagram=steam.diagram(fills[0], gears[0]),
        running_diagram=steam.diagram(fills[0], gears[1]),
    )


@dataclass(frozen=True)
class _Moving:
    revolutions: float | None = None
    piston: float | None = None
    passage: float | None = None
    port: float | None = None


def _moving(
    cylinders: Cylinders,
    sheet: Sheet,
    axis: Axis,
    space: Space,
    wheel: float,
    speed: float | None,
    port_area: float | None,
) -> _Moving:
    """Return turns a minute and the speeds of piston and steam; nothing without a speed."""
    if speed is None:
        return _Moving()
    turns = steam.turns_a_second(speed, wheel)
    piston = 2 * axis.stroke / 1000 * turns
    passage = sheet.put(
        steam.steam_speed.work(
            "Steam in the passage", "m/s",
            bore=cylinders.bore, piston_speed=piston, passage=space.passage,
        )
    )  # fmt: skip
    port = None
    if port_area is not None and port_area > 0:
        port = steam.steam_speed(cylinders.bore, piston, port_area)
    return _Moving(60 * turns, piston, passage, port)
