"""What the chapter of pull, train and track is given: masses, notches, boiler and fire."""

from __future__ import annotations

import math
from typing import Any

from .. import running
from ..cylinders import Asked
from ..cylinders.steam import events_of
from ..cylinders.steaming import space_of
from ..design.document import Design
from ..motion.events import ValveEvents
from ..threads.studs import Chest
from ..trade.densities import density


def running_given(design: Design, results: dict[str, Any]) -> dict[str, Any] | None:
    """Return what the chapter takes, or None where a chapter before it cannot be worked."""
    hauled, wheeled, moved = (results.get(name) for name in ("cylinders", "wheels", "motion"))
    if hauled is None or wheeled is None or moved is None:
        return None
    sizes, across = design.cylinders, design.wheels
    space = space_of(sizes, hauled.axis)
    speed = getattr(results["scale"], "running_speed", None)
    whole = getattr(results.get("frames"), "whole", None)
    fired = getattr(results.get("firing"), "raising", None)
    return {
        "rolling": running.Rolling(
            mass=sizes.engine_weight, coupled=sizes.coupled_weight, wheel=across.driving_diameter,
            axle=across.axle_diameter, wheelbase=across.coupled_wheelbase,
            areas=sizes.number * sum(space.areas), stroke=hauled.axis.stroke,
            adhesion=sizes.haulage.adhesion, share=sizes.haulage.rolling_resistance / 100,
            gauge=design.scale.track_gauge,
            length=across.total_wheelbase + 2 * across.driving_diameter
            if whole is None else whole.buffer_front - whole.buffer_back,
        ),
        "assumed": running.Assumed(
            areas=space.areas, clearances=space.parts(hauled.axis.stroke),
            stroke=hauled.axis.stroke, wheel=across.driving_diameter, number=sizes.number,
            pressure=sizes.pressure, back=sizes.cycle.back_pressure,
            chest_loss=sizes.cycle.chest_loss / 100, diagram=sizes.cycle.diagram_factor,
            drawn=sizes.cycle.drawn, lifts=design.motion.valve_type == "slide",
            notches=_notches(moved.events),
        ),
        "raising": _raising(design, whole, speed) if fired is None else raising_of(
            fired, float(design.at("firing.coal.raising_draught"))
        ),
        "point": _point(results.get("steam"), sizes.haulage.efficiency / 100),
        "chest_share": 1 - sizes.cycle.chest_loss / 100, "speed": speed,
        "evenness": hauled.evenness,
    }  # fmt: skip


def _point(turned: Any, efficiency: float) -> running.Point | None:
    """Return pull and steam as the chapter on steam has marched them; None where it has not."""
    if turned is None or turned.medium != "steam":
        return None
    return running.Point(
        reverser=turned.notch, speed=turned.speed, chest=turned.chest_pressure,
        pull=turned.pull / efficiency, steam=turned.steam_rate / 1000,
    )  # fmt: skip


def asked_of_chest(design: Design, moved: Any) -> Asked | None:
    """Return what valve and ports ask of the steam chest; None without a slide valve's face."""
    chosen, face = design.motion, getattr(moved, "face", None)
    if face is None or chosen.valve_type != "slide" or chosen.valve.port_length is None:
        return None
    height = getattr(chosen.gear, "spindle_height", None)
    above = None if height is None else height - design.cylinders.cylinder_offset
    if above is not None and above <= design.cylinders.bore / 2:
        above = None  # drawn in a plane of its own, not over the bore
    return Asked(face=face, sizes=chosen.face, valve=chosen.valve, spindle=above)


def studded(design: Design, hauled: Any) -> Chest | None:
    """Return the steam chest for its studs; None without one."""
    chest = getattr(hauled, "chest", None)
    if chest is None:
        return None
    given, passages, axis = design.cylinders.chest, design.cylinders.passages, hauled.axis
    begins, middle = chest.passage_run
    floor, radius = chest.face_height - chest.port_depth, design.cylinders.bore / 2
    wide = max((design.motion.valve.port_length or 0.0) - hauled.passage_hole, 0.0)
    ways = []
    for n in range(passages.holes):
        across = wide * (n / (passages.holes - 1) - 0.5) if passages.holes > 1 else 0.0
        edge = math.sqrt(max(radius**2 - across**2, 0.0))
        ways.append(((begins, edge, across), (middle, floor, across)))
    return Chest(
        length=chest.length, width=chest.width, line=chest.line, places=chest.studs,
        spacing=chest.spacing, face_height=chest.face_height, thread=given.stud_thread,
        decided=given.studs_along is not None or given.studs_across is not None,
        bore=design.cylinders.bore, barrel=axis.barrel, screws=hauled.screws,
        circle=hauled.screw_circle, first=90.0 - 180.0 / hauled.screws, passages=tuple(ways),
        hole=hauled.passage_hole,
    )  # fmt: skip


def _notches(events: tuple[ValveEvents, ...]) -> tuple[running.Notch, ...]:
    """Return the forward notches with the mean of both ends; an event missing at one is missing."""
    made = []
    for one in events:
        if one.reverser <= 0:
            continue
        means = []
        for name in ("cutoff", "release", "compression"):
            ends = [getattr(end, name) for end in (one.front, one.back)]
            known = [end.percent for end in ends if end is not None]
            means.append(sum(known) / 2 if len(known) == 2 else None)
        made.append(running.Notch(reverser=one.reverser, events=events_of(*means)))
    return tuple(made)


def _raising(design: Design, whole: Any, speed: float | None) -> running.Raising:
    """Return boiler and fire at usual proportions, from the boiler in the frames."""
    sizes, firing = design.cylinders, design.nozzle.firing
    parts = {} if whole is None else {part.name: part for part in whole.parts}

    def weighs(name: str, material: str) -> float:
        return density(material) * parts[name].volume / 1e9 if name in parts else 0.0

    boiler = parts.get("boiler")
    if boiler is None:
        long = design.wheels.total_wheelbase
        wide = 0.8 * design.scale.track_gauge
    else:
        (x0, y0, z0), (x1, y1, z1) = boiler.extent
        long, wide = max(x1 - x0, y1 - y0), z1 - z0
    surface = math.pi * wide * long / 1e6
    water = weighs("water", "water") or 0.6 * math.pi / 4 * wide**2 * long / 1e6
    # a tender or a truck behind carries water; none is drawn
    tank = weighs("tank water", "water") or (2 * water if firing == "coal" else 0.0)
    metal = weighs("boiler", design.boiler.shell.material) or 0.1 * sizes.engine_weight
    turns = (speed or 6.0) / 3.6 / (math.pi * design.wheels.driving_diameter / 1000)
    made = running.assumed_raising(
        firing=firing, pressure=sizes.pressure, water=water, tank=tank, metal=metal,
        surface=surface, engine_mass=sizes.engine_weight, feed_per_turn=0.0,
    )  # fmt: skip
    # an axle pump that gives twice what is evaporated, where there is water to be pumped
    feed = 2 * made.evaporation_full / turns if tank else 0.0
    return running.with_feed(made, feed)


NATURAL = 0.3
"""Draught of a short chimney with nothing to help it, mm of water; common practice."""
STROKES = 1.0
"""Strokes of a hand pump in a second; common practice."""
_TOLD = 16


def raising_of(fired: Any, raising_draught: float) -> running.Raising:
    """Return boiler and fire as the chapter on firing has worked them.

    Parameters
    ----------
    fired : its plain figures, for whoever reckons a run.
    raising_draught : of the blower, mm of water.
    """
    full = fired.heat_full
    coal = fired.draught > 0

    def share(draught: float | None, evaporation: float) -> float:
        return float(fired.heat_at(draught, evaporation)) / full if full > 0 else 0.0

    idle = share(NATURAL, 0.0) if coal else 1.0
    most = running.ANSWERS * fired.evaporation_full
    told = tuple(max(idle, share(None, most * i / (_TOLD - 1))) for i in range(_TOLD))
    pumped = fired.axle_pump / 1000
    return running.Raising(
        water_working=fired.water_total, water_least=fired.water_total - fired.water_working,
        water_tank=fired.feed_carried, metal_heat=fired.metal_heat, loss=fired.loss,
        heat_full=full, fuel_per_heat=fired.fuel_per_heat, fuel_aboard=fired.fuel_aboard,
        working_pressure=fired.working_pressure,
        # a valve that blows at working pressure or below leaves the driver no room
        safety_pressure=max(fired.safety_pressure, 1.001 * fired.working_pressure),
        safety_capacity=fired.safety_capacity, feed_per_turn=pumped,
        hand_feed=STROKES * fired.hand_pump / 1000,
        feed_temperature=fired.feed_temperature, evaporation_full=fired.evaporation_full,
        idle_share=idle, blower_share=max(share(raising_draught, 0.0), idle) if coal else 1.0,
        answers=told if coal else (), can_be_damped=fired.fuel != "spirit",
    )  # fmt: skip
