"""The chapters that rest on the whole engine in its frames."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from .. import boiler, curving, erection, frames, gauging, rods, springing, weights
from ..design.document import Design
from ..findings import Finding
from ..motion import Oscillating
from .worked import worked

FRAMED = (
    "frames", "boiler", "gauging", "weights", "springing", "curving", "rods", "erection",
)  # fmt: skip


def framed(name: str, design: Design, faults: list[Finding], results: dict[str, Any]) -> Any:
    """Work a chapter that rests on the whole engine; None where that cannot be put together."""
    fixed = frozenset(design.fixed)
    built = _built(design, faults if name == "frames" else [], results, fixed)
    if name == "frames" or built is None:
        return built
    chapter, more = _CHAPTERS[name]
    given = {"whole": built.whole, "fixed": fixed, **more(design, results)}
    return worked(faults, chapter, getattr(design, name), **given)


def _boiler(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    told = getattr(results.get("frames"), "suggestions", ())
    return {
        "pressure": design.cylinders.pressure, "firing": design.nozzle.firing,
        "ratio": design.scale.ratio, "frame_metal": design.frames.plates.material,
        "suggestions": tuple(one for one in told if one.field.startswith("boiler.")),
    }  # fmt: skip


def _gauging(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    room, full, n = results["clearance"], design.scale.prototype, design.scale.ratio
    wheel, built, most = design.wheels.driving_diameter, design.scale.as_built, design.wheels.across
    width = most.width_limit or built.width or (full.width and full.width / n)
    height = built.height or (full.height and full.height / n)
    return {
        "wanted": room.wanted if room else max(0.4, 0.01 * wheel),
        "rail_wanted": room.rail_wanted if room else max(1.5, 0.03 * wheel),
        "side_wanted": design.clearance.thicknesses.side_gap,
        "gaps": room.gaps if room else (),
        "gear": room.engine if room else None,
        "notches": tuple(dict.fromkeys(float(one) for one in room.reversers)) if room else (1.0,),
        "side_play": design.wheels.plays[design.wheels.driven_axle - 1],
        "prototype": gauging.Prototype(
            n,
            design.scale.track_gauge,
            full.gauge,
            width,
            height,
            "wheels.across.width_limit" if most.width_limit else "scale.prototype.width",
        ),
    }


def _weights(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    hauled, haulage, trucks = results["cylinders"], design.cylinders.haulage, design.curving
    return {
        "hauled": weights.Hauled(
            hauled.tractive_effort, hauled.effort_full, haulage.adhesion,
            haulage.rolling_resistance / 100,
            design.cylinders.engine_weight, design.cylinders.coupled_weight,
        ),
        "pivots": tuple(
            one.pivot if one.kind == "bogie" else 0.0 for one in (trucks.leading, trucks.trailing)
        ),
    }  # fmt: skip


def _springing(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    axles, sizes = results["frames"].whole.axles, design.cylinders
    weighed = results.get("weights")
    loads = getattr(weighed, "axle_loads", None)
    if loads is None:
        coupled = sum(one.kind == "coupled" for one in axles)
        others = max(sizes.engine_weight - sizes.coupled_weight, 0.0) / max(len(axles) - coupled, 1)
        loads = tuple(
            sizes.coupled_weight / coupled if one.kind == "coupled" else others for one in axles
        )
    return {
        "axle_loads": tuple(loads), "horn_clearance": design.frames.horns.clearance,
        "sprung_loads": getattr(weighed, "sprung_loads", None),
        "groups": tuple(one.axles for one in getattr(weighed, "supports", ())),
        "running_speed": getattr(results["scale"], "running_speed", None),
    }  # fmt: skip


def _curving(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    wheeled, sizes = results["wheels"], design.cylinders
    return {
        "wheels": design.wheels, "coupled_radius": wheeled.smallest_radius,
        "coupled_rule": wheeled.radius_rule, "width_limit": wheeled.width_limit,
        "engine_weight": sizes.engine_weight,
        "carried": max(sizes.engine_weight - sizes.coupled_weight, 0.0),
        "speed": getattr(results["scale"], "running_speed", None),
        "centre_height": getattr(results.get("weights"), "centre_height", None),
        "axle_loads": getattr(results.get("weights"), "axle_loads", None),
    }  # fmt: skip


def _rods(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    hauled = results["cylinders"]
    return {
        "wheels": design.wheels, "cylinders": design.cylinders, "axis": hauled.axis,
        "piston_load": hauled.piston_load, "bush_needed": results["wheels"].bush_needed,
        "speed": getattr(results["scale"], "running_speed", None),
    }  # fmt: skip


def _erection(design: Design, results: dict[str, Any]) -> dict[str, Any]:
    screwed = results.get("threads")
    cover, gland, spindle = (
        None if screwed is None else screwed.joint(key)
        for key in ("covers", "piston_gland", "valve_gland")
    )
    return {
        "axis": results["cylinders"].axis, "inclination": design.cylinders.inclination,
        "screws": None if screwed is None or cover is None else erection.Screws(
            screwed.cover.number, screwed.cover.screw_circle, cover.across_flats,
            0.0 if gland is None else gland.across_flats,
            0.0 if spindle is None else spindle.across_flats,
            0.0 if gland is None else gland.one.major,
            0.0 if spindle is None else spindle.one.major,
        ),
        "inside": design.wheels.between.axlebox_inside > 0,
    }  # fmt: skip


_CHAPTERS: dict[str, tuple[Any, Callable[[Design, dict[str, Any]], dict[str, Any]]]] = {
    "boiler": (boiler.work, _boiler),
    "gauging": (gauging.work, _gauging),
    "weights": (weights.work, _weights),
    "springing": (springing.work, _springing),
    "curving": (curving.work, _curving),
    "rods": (rods.work, _rods),
    "erection": (erection.work, _erection),
}
"""Each chapter's work, and what it takes besides its own decisions and the whole engine."""


def _built(
    design: Design, faults: list[Finding], results: dict[str, Any], fixed: frozenset[str]
) -> Any:
    """Return the engine put together from the decisions of every chapter."""
    hauled, wheeled, valve_gear = results["cylinders"], results["wheels"], design.motion.gear
    if hauled is None or wheeled is None:
        return None  # their findings say why
    return worked(
        faults, frames.work, design.frames,
        scale=design.scale, cylinders=design.cylinders, axis=hauled.axis, wheels=design.wheels,
        across=wheeled.across, stack=wheeled.stack, back_to_back=wheeled.back_to_back,
        tyre_width=wheeled.tyre_width, flange_thickness=wheeled.flange_thickness,
        flange_depth=wheeled.flange_depth, flange_play=wheeled.flange_play,
        swings=(wheeled.leading_swing, wheeled.trailing_swing),
        shifts=tuple(
            -one.shift for one in sorted(wheeled.curve.axles, key=lambda one: -one.ahead)
        ),
        clearance=design.clearance, gear=getattr(results["clearance"], "engine", None),
        chest_height=getattr(valve_gear, "spindle_height", None), chest=hauled.chest,
        trunnion=(
            (valve_gear.trunnion_x, valve_gear.trunnion_y)
            if isinstance(valve_gear, Oscillating) else None
        ),
        reach=_reach_rod(results["reversing"], design.cylinders.inclination),
        boiler=design.boiler, smokebox=design.nozzle.smokebox, firing=design.nozzle.firing,
        curving=design.curving, rods=design.rods, fixed=fixed,
    )  # fmt: skip


def _reach_rod(reversed_: Any, inclination: float) -> tuple[frames.Point, ...] | None:
    """Return weighshaft and both pins of the reach rod near mid gear, in the engine's frame, mm."""
    if reversed_ is None or reversed_.layout is None or not len(reversed_.arm_pin):
        return None
    cut = [abs(one.reverser) for one in reversed_.notches if one.reverser is not None]
    row = min(range(len(reversed_.arm_pin)), key=lambda n: cut[n] if n < len(cut) else 1.0)
    tilt = math.radians(inclination)
    cos, sin = math.cos(tilt), math.sin(tilt)
    shaft = (reversed_.shaft.x, reversed_.shaft.y)
    places = (shaft, reversed_.arm_pin[row], reversed_.stand_pin[row])
    return tuple((float(x * cos - y * sin), float(x * sin + y * cos)) for x, y in places)
