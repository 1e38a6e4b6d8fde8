"""The chapters of the workshop: from what was decided to set-ups at the machine."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ..clearance.planes import proportions
from ..cylinders import piston_load
from ..design.document import Design
from ..findings import Finding
from ..frames.bores import bores_of
from ..motion import SlipEccentric
from ..trade import tracks
from ..trade.threads import thread
from ..wheels import InsideCylinders
from ..workshop import eccentrics, fitting, machines, patterns, screwcutting, slots
from .worked import worked

MADE = ("machines", "slots", "patterns", "eccentrics", "screwcutting", "fitting")


def made(name: str, design: Design, faults: list[Finding], results: dict[str, Any]) -> Any:
    """Work a chapter of the workshop."""
    fixed = frozenset(design.fixed)
    if name == "machines":
        return worked(
            faults, machines.work, design.machines,
            needs=_needs(results), bores=_bores(results), fixed=fixed,
        )  # fmt: skip
    chapter, more = _CHAPTERS[name]
    given = {"machines": design.machines, "fixed": fixed, **more(design, results)}
    return worked(faults, chapter, getattr(design, name), **given)


_THREAD_AT = {
    "piston_rod": "cylinders.crosshead.rod_thread", "covers": "cylinders.covers.thread",
    "chest": "cylinders.chest.stud_thread",
}  # fmt: skip
"""Joints whose thread the cylinders decide; the others are decided among the threads."""


def _needs(results: dict[str, Any]) -> tuple[machines.Need, ...]:
    """Return the threads of the engine, for the taps and dies."""
    threaded = results.get("threads")
    return tuple(
        machines.Need(
            joint.name, joint.one, _THREAD_AT.get(joint.key, f"threads.{joint.key}.designation"),
            decided=not joint.proposed, die=joint.key not in ("covers", "chest"),
        )
        for joint in (() if threaded is None else threaded.joints)
    )  # fmt: skip


def _bores(results: dict[str, Any]) -> tuple[machines.Bore, ...]:
    """Return the bores that are reamed."""
    whole = getattr(results.get("frames"), "whole", None)
    if whole is None:
        return ()
    found = bores_of(whole, wheels=False)
    return tuple(machines.Bore(bore, ", ".join(what)) for bore, what in found.items())


def _slots(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    across = design.wheels
    return {
        "engine": slots.slot_of(
            design.motion.gear, getattr(results.get("motion"), "die_reach", None)
        ),
        "link_width": proportions(
            design.clearance, across.axle_diameter, across.cylinders.crankpin
        ).link,
        "drill_sets": design.threads.rack.sets,
    }  # fmt: skip


def _patterns(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    hauled, wheeled = results.get("cylinders"), results.get("wheels")
    if hauled is None or wheeled is None:
        return {}
    sizes, face = design.cylinders, design.motion.face
    worked_face = getattr(results.get("motion"), "face", None)
    valve, ports = design.motion.valve, None
    whole = worked_face is not None and valve.port_length is not None
    if whole and design.motion.valve_type == "slide":
        ports = patterns.Ports(
            width=valve.port_width, length=valve.port_length or 0.0, bridge=valve.bridge or 0.0,
            exhaust=valve.exhaust_port or 0.0,
        )  # fmt: skip
    needed = getattr(worked_face, "chest_needed", 0.0)
    room = 2 * (face.valve_wall + face.chest_clearance)
    return {
        "engine": patterns.Engine(
            name="the engine's",
            bore=sizes.bore,
            barrel=hauled.axis.barrel,
            spigot=hauled.axis.back_spigot,
            screws=hauled.screws,
            screw_circle=hauled.screw_circle,
            screw=thread(hauled.screw_thread).major,
            holes=sizes.passages.holes,
            hole=hauled.passage_hole,
            passage=hauled.passage_length,
            ports=ports,
            chest_length=face.chest_length or needed,
            chest_width=face.chest_width or (valve.port_length or 0.0) + room,
            face_height=getattr(hauled.chest, "face_height", None),
            chest_wall=getattr(hauled.chest, "wall", None),
            chest_studs=(3, 3)
            if hauled.chest is None
            else (hauled.chest.along, hauled.chest.across),
            tread=max(wheeled.tyre_width - wheeled.flange_thickness, 0.1),
            wheel=design.wheels.driving_diameter,
            coning=_coning(design),
        )
    }


def _coning(design: Design) -> float | None:
    """Return the coning of the wheel standard, degrees; None where it has none."""
    gauge = design.scale.track_gauge
    try:
        known: tracks.TrackStandard | None = tracks.standard(design.wheels.standard, gauge)
    except tracks.StandardUnknown:
        known = tracks.usual_standard(gauge)
    return None if known is None else known.value("coning_deg")


def _eccentrics(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    gear, across, sizes = design.motion.gear, design.wheels, design.cylinders
    wheeled, inside = results.get("wheels"), across.cylinders
    angle = sizes.crank_angle % 360
    web = None
    if isinstance(inside, InsideCylinders):
        web = eccentrics.Web(
            thickness=inside.web, breadth=inside.web_breadth, between=inside.pin_length,
            pin=inside.crankpin,
        )  # fmt: skip
    advances = None
    if isinstance(gear, SlipEccentric):
        back = gear.advance_backward
        advances = (gear.advance, gear.advance if back is None else back)
    return {
        "engine": eccentrics.Engine(
            name="the engine's",
            throw=getattr(gear, "eccentric_throw", None),
            advances=advances,
            sheave=getattr(wheeled, "sheave", None),
            axle=across.axle_diameter,
            pin=inside.crankpin,
            coupled_pin=across.across.crankpin,
            web=web,
            crank_throw=sizes.crank.throw,
            # one cylinder leaves the angle open: its coupled wheels are quartered all the same
            crank_angle=angle if 20 <= angle <= 340 and sizes.number > 1 else 90.0,
            piston_load=piston_load(sizes.pressure, sizes.bore),
            wheel=across.driving_diameter + 2 * getattr(wheeled, "flange_depth", 0.0),
            angle_error=across.quartering.quartering_error,
        )
    }


def _screwcutting(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    threads, worked_out = design.threads, results.get("threads")
    return {
        "bench": threads.chosen, "bench_metal": threads.material, "bench_depth": threads.depth,
        "convention": threads.convention, "drill_sets": threads.rack.sets,
        "screws": None if worked_out is None else worked_out.cover.number,
    }  # fmt: skip


def _fitting(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    cylinders, threads, hauled = design.cylinders, results.get("threads"), results.get("cylinders")
    gland = None if threads is None else threads.joint("piston_gland")
    given = {
        "connector": design.threads.connector, "rod": cylinders.piston_rod,
        "bore": cylinders.bore, "axle": design.wheels.axle_diameter,
        "metal": design.threads.covers.female,
        "gland_box": None if gland is None else gland.drill.diameter,
    }  # fmt: skip
    if hauled is not None:
        given |= {"steam": hauled.chest_temperature, "gland_room": hauled.axis.gland}
    return given


_CHAPTERS: dict[str, tuple[Any, Callable[[Design, dict[str, Any]], dict[str, Any]]]] = {
    "slots": (slots.work, _slots),
    "patterns": (patterns.work, _patterns),
    "eccentrics": (eccentrics.work, _eccentrics),
    "screwcutting": (screwcutting.work, _screwcutting),
    "fitting": (fitting.work, _fitting),
}
"""Each chapter's work, and what it takes from the design besides its own decisions."""
