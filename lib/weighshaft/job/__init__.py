"""The order of the job: from a design to one immutable tree of results with findings."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from .. import (
    axlebox,
    beside,
    clearance,
    cylinders,
    draught,
    motion,
    nozzle,
    pivots,
    reversing,
    scale,
    threads,
    tolerances,
    valve_setting,
    wheels,
)
from ..design.document import Design
from ..findings import Finding, by_level, unlocked
from ..motion.chapter import MotionResult
from ..motion.chapter import work as work_motion
from ..motion.judgement import locked
from ..sizes import SizeError
from ..steam import CycleMap
from .framed import FRAMED, framed
from .hauling import asked_of_chest, studded
from .made import MADE, made
from .steamed import STEAMED, steamed
from .worked import cached, worked

_CROSSHEAD = ("cylinders.crosshead", "cylinders.connecting_rod", "wheels.cylinders.crosshead")
LATE = (
    "beside",
    "reversing",
    "pivots",
    "tolerances",
    "axlebox",
    "clearance",
    "valve_setting",
    *FRAMED,
    *MADE,
    *STEAMED,
)
"""Chapters on which no other rests: while a slider is dragged only the one in sight is worked."""


@dataclass(frozen=True)
class Work:
    """Everything worked out for a design, chapter by chapter.

    Parameters
    ----------
    scale to draught : results; None where a chapter's sizes contradict one another,
        which a finding then says.
    findings : of all chapters, worst first.
    """

    design: Design
    scale: Any
    cylinders: Any
    motion: MotionResult | None
    wheels: Any
    threads: Any
    nozzle: Any
    findings: tuple[Finding, ...]
    beside: Any = None
    reversing: Any = None
    pivots: Any = None
    tolerances: Any = None
    axlebox: Any = None
    clearance: Any = None
    valve_setting: Any = None
    frames: Any = None
    boiler: Any = None
    gauging: Any = None
    weights: Any = None
    springing: Any = None
    curving: Any = None
    rods: Any = None
    erection: Any = None
    machines: Any = None
    slots: Any = None
    patterns: Any = None
    eccentrics: Any = None
    screwcutting: Any = None
    fitting: Any = None
    steam: Any = None
    firing: Any = None
    bench: Any = None
    draught: Any = None
    running: Any = None


def work(
    design: Design, *, shown: str = "", before: Work | None = None,
    mapped: CycleMap | None = None,
) -> Work:  # fmt: skip
    """Work the whole design; pure, and cheap enough for every movement of a slider.

    A chapter is worked anew only when what it rests on has changed, so that dragging a
    wheel does not solve the valve gear again.

    Parameters
    ----------
    shown, before : while a slider is dragged, the chapter in sight and what was worked last:
        the other chapters of `LATE` stay as they were.
    mapped : the true cycle of an engine over its whole map; the run goes by it if it is this one's.
    """
    faults: list[Finding] = []
    fixed = frozenset(design.fixed)
    sizes = design.cylinders
    load = cylinders.piston_load(sizes.pressure, sizes.bore)
    in_scale = worked(
        faults, scale.work, design.scale,
        bore=sizes.bore, stroke=sizes.stroke, number=sizes.number, pressure=sizes.pressure,
        engine_weight=sizes.engine_weight, driving_diameter=design.wheels.driving_diameter,
        coupled_wheelbase=design.wheels.coupled_wheelbase,
        leading_truck=design.wheels.leading_truck, trailing_truck=design.wheels.trailing_truck,
        fixed=fixed,
    )  # fmt: skip
    moved = _motion(design, faults)
    hauled = worked(
        faults, cylinders.work, sizes,
        driving_diameter=design.wheels.driving_diameter,
        **_steam_events(design, moved),
        valve_lifts=design.motion.valve_type == "slide",
        port_area=_port_area(design, moved),
        speed=getattr(in_scale, "running_speed", None),
        scaled_bore=getattr(in_scale, "bore", None),
        scaled_stroke=getattr(in_scale, "stroke", None),
        preferred=design.threads.preferred, asked=asked_of_chest(design, moved), fixed=fixed,
    )  # fmt: skip
    gear, axis = design.motion.gear, getattr(hauled, "axis", None)
    wheeled = worked(
        faults, wheels.work, design.wheels,
        track_gauge=design.scale.track_gauge, scaled_width=getattr(in_scale, "width", None),
        crank_throw=sizes.crank.throw, number=sizes.number,
        crank_angle=sizes.crank_angle, piston_load=load,
        coupled_weight=sizes.coupled_weight, adhesion=sizes.haulage.adhesion,
        eccentric_throw=getattr(gear, "eccentric_throw", None),
        gear_sheaves=sizes.number * sum(part.shape == "sheave" for part in gear.parts),
        cylinder_bore=sizes.bore,
        fixed=fixed,
        connecting_rod=sizes.connecting_rod, inclination=sizes.inclination,
        cylinder_offset=sizes.cylinder_offset,
        crosshead=getattr(axis, "crosshead", None),
        cylinder_back=getattr(axis, "back_outside", None),
    )  # fmt: skip
    threaded = worked(
        faults, threads.work, design.threads,
        pressure=sizes.pressure, bore=sizes.bore,
        piston_rod=sizes.piston_rod, piston_load=load,
        valve_spindle_load=_spindle_load(moved),
        rod_thread=getattr(hauled, "rod_thread", None),
        rod_engaged=getattr(hauled, "thread_engaged", None),
        screw_thread=getattr(hauled, "screw_thread", None),
        screws=getattr(hauled, "screws", None),
        screw_circle=getattr(hauled, "screw_circle", None),
        nozzle_diameter=design.nozzle.diameter, pipe_bore=design.nozzle.smokebox.pipe_bore,
        scale_ratio=design.scale.ratio, chest=studded(design, hauled), fixed=fixed,
    )  # fmt: skip
    blast = worked(
        faults, nozzle.work, design.nozzle,
        bore=sizes.bore, stroke=sizes.stroke, number=sizes.number, pressure=sizes.pressure,
        full_cutoff=(moved and moved.cutoff_full) or design.motion.wanted.cutoff,
        running_cutoff=(moved and moved.cutoff_running) or design.motion.wanted.cutoff,
        driving_diameter=design.wheels.driving_diameter,
        speed=getattr(in_scale, "running_speed", None),
        clearance_percent=getattr(hauled, "clearance_percent", None),
        condensed=sizes.cycle.drawn, drill_sets=design.threads.rack.sets,
        ratio=design.scale.ratio, ejector=draught.FrontEnd(design.draught, design.nozzle),
        fixed=fixed,
    )  # fmt: skip
    if blast is not None and (moved is None or moved.cutoff_full is None):
        blast = replace(blast, findings=())  # steam that does not flow is not to be judged
    results = {
        "scale": in_scale, "cylinders": hauled, "motion": moved, "wheels": wheeled,
        "threads": threaded, "nozzle": blast,
    }  # fmt: skip
    stand = () if before is None else tuple(name for name in LATE if name != shown)
    for name in LATE:
        if before is not None and name in stand:
            results[name] = getattr(before, name)
        elif name in FRAMED:
            results[name] = framed(name, design, faults, results)
        elif name in MADE:
            results[name] = made(name, design, faults, results)
        elif name in STEAMED:
            results[name] = steamed(name, design, faults, results, mapped)
        elif moved is None:
            results[name] = None  # the motion's finding says why
        else:
            results[name] = _late(name, design, faults, moved, wheeled)
    found = [
        finding for name, result in results.items() if result and name not in stand
        for finding in result.findings
    ]  # fmt: skip
    found = [*faults, *unlocked(found, fixed)]
    if isinstance(gear, motion.Oscillating):
        found = _without_crosshead(found)
    found += [one for one in (before.findings if before else ()) if one.chapter in stand]
    return Work(design, **results, findings=by_level(found))


def _without_crosshead(found: list[Finding]) -> list[Finding]:
    """Leave unsaid what concerns crosshead and connecting rod, which the engine has not got."""
    left = [one for one in found if not any(path.startswith(_CROSSHEAD) for path in one.fields)]
    says = (
        "Oscillating cylinders have neither crosshead nor connecting rod: the sizes given for "
        "them have no part in this engine, and nothing is said of them."
    )
    return [*left, Finding("fine", "cylinders", ("cylinders.connecting_rod",), says)]


def _late(
    name: str, design: Design, faults: list[Finding], moved: MotionResult, wheeled: Any
) -> Any:
    """Work a chapter that rests on the motion."""
    sizes, chosen, fixed = design.cylinders, design.motion, frozenset(design.fixed)
    gear = {"crank": sizes.crank, "gear": chosen.gear, "fixed": fixed}
    valve = {"valve": chosen.valve, "setting": chosen.setting}
    if name == "reversing":
        return worked(
            faults, reversing.work, design.reversing, **gear, **valve, number=sizes.number,
            crank_angle=sizes.crank_angle, valve_force=moved.valve_force,
        )  # fmt: skip
    if name == "pivots":
        return worked(
            faults, pivots.work, design.pivots, **gear, **valve, wanted=chosen.wanted,
            clear=gaps_of(design, wheeled),
        )  # fmt: skip
    if name == "tolerances":
        return worked(
            faults, tolerances.work, design.tolerances, **gear, **valve,
            reversers=tuple(one for one in moved.reversers if one),
            running_notch=chosen.running_notch,
        )  # fmt: skip
    if name == "beside":
        return worked(
            faults, beside.work, design.beside, **gear, **valve, reversers=moved.reversers,
            running_notch=chosen.running_notch, worked=moved.events,
        )  # fmt: skip
    if name == "axlebox":
        return worked(
            faults, axlebox.work, design.axlebox, **gear, **valve,
            running_notch=chosen.running_notch, inclination=sizes.inclination,
            axle_lift=design.wheels.quartering.axle_lift,
        )  # fmt: skip
    if name == "valve_setting":
        return worked(
            faults, valve_setting.work, design.valve_setting, **gear, **valve,
            pressure=sizes.pressure,
        )  # fmt: skip
    if wheeled is None:
        return None
    return worked(
        faults, clearance.work, design.clearance, **gear, reversers=moved.reversers,
        **_surroundings(design, wheeled),
    )  # fmt: skip


def gaps_of(design: Design, wheeled: Any) -> clearance.Gaps | None:
    """Return what finds the least gap of candidates for the pivots, where one is to be kept.

    Parameters
    ----------
    wheeled : the chapter on wheels worked, or None where its sizes contradict one another.
    """
    if wheeled is None or design.pivots.holding.least_gap is None:
        return None
    return clearance.Gaps(
        clearance=design.clearance, reversers=design.motion.reversers,
        **_surroundings(design, wheeled),
    )  # fmt: skip


def _surroundings(design: Design, wheeled: Any) -> dict[str, Any]:
    """Return what of the engine stands round the gear."""
    across = design.wheels
    return {
        "axle_diameter": across.axle_diameter, "axles": across.positions,
        "driving_diameter": across.driving_diameter,
        "frame_inside": across.between.frame_spacing,
        "frame_thickness": across.between.frame_thickness,
        "planes": clearance.planes_from(wheeled.across, wheeled.stack, wheeled.back_to_back),
        "crankpin": across.cylinders.crankpin, "sheave_diameter": wheeled.sheave,
        "crosshead": wheeled.crosshead, "inclination": design.cylinders.inclination,
        "side_play": across.plays[across.driven_axle - 1],
        "axle_lift": across.quartering.axle_lift, "flange_depth": wheeled.flange_depth,
    }  # fmt: skip


def _motion(design: Design, faults: list[Finding]) -> MotionResult | None:
    """Work the motion; a gear that locks is a finding that says where."""
    sizes = design.cylinders
    try:
        moved: MotionResult = cached(work_motion)(
            design.motion,
            crank=sizes.crank,
            pressure=sizes.pressure,
            back_pressure=sizes.cycle.back_pressure,
            bore=sizes.bore,
            number=sizes.number,
            crank_angle=sizes.crank_angle,
        )
        return moved
    except motion.MotionLocks as refused:
        faults.append(locked(str(refused)))
    except SizeError as refused:
        field = f"motion.{refused.field}" if refused.field else "motion.gear"
        faults.append(Finding("stop", "motion", (field,), str(refused)))
    return None


def _steam_events(design: Design, moved: MotionResult | None) -> dict[str, float | None]:
    """Return the events that the steam sees; while the gear locks, those that are wanted."""
    if moved is None or moved.cutoff_full is None:
        wanted = design.motion.wanted.cutoff
        return {
            "full_cutoff": wanted,
            "running_cutoff": wanted,
            "release": None,
            "compression": None,
        }
    return {
        "full_cutoff": moved.cutoff_full,
        "running_cutoff": moved.cutoff_running,
        "release": moved.release_running,
        "compression": moved.compression_running,
        "release_full": moved.release_full,
        "compression_full": moved.compression_full,
    }


def _port_area(design: Design, moved: MotionResult | None) -> float | None:
    """Return the area of a steam port as far as it opens in the notch looked at, mm2."""
    valve = design.motion.valve
    if valve.port_length is None or moved is None:
        return None
    return valve.port_length * max(0.0, min(valve.port_width, moved.opening_running))


def _spindle_load(moved: MotionResult | None) -> float:
    """Return the steam's load on the valve spindle; a piston valve is balanced and puts on none."""
    return (moved.valve_force if moved else None) or 0.0
