"""From the decisions to all figures of the chapter."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

from ..sizes import SizeError
from ..threads.decisions import PREFERRED
from .axis import Axis, laid_out, stack_up
from .chest import Asked, steam_chest
from .decisions import Cylinders
from .haulage import hauling
from .judgement import judge
from .loads import loading
from .result import AxisFigures, CylindersResult
from .sheet import Sheet
from .steam import events_of
from .steaming import steaming
from .suggested import suggest


def work(
    cylinders: Cylinders,
    *,
    driving_diameter: float,
    full_cutoff: float | None,
    running_cutoff: float | None,
    release: float | None,
    compression: float | None,
    valve_lifts: bool,
    release_full: float | None = None,
    compression_full: float | None = None,
    port_area: float | None = None,
    speed: float | None = None,
    scaled_bore: float | None = None,
    scaled_stroke: float | None = None,
    preferred: str = PREFERRED[0],
    asked: Asked | None = None,
    fixed: frozenset[str] = frozenset(),
) -> CylindersResult:
    """Work the cylinders and what they haul.

    Parameters
    ----------
    cylinders : the builder's decisions.
    driving_diameter : driving wheel over the tread, mm.
    full_cutoff, running_cutoff : in full forward gear and in the usual running notch, % of
        the stroke, mean of both ends; None where steam is never cut off.
    release, compression : in the running notch, % of the stroke, each from its own end; None
        where the event does not occur.
    release_full, compression_full : the same in full gear; those of the notch if not given.
    valve_lifts : whether the valve can lift off its face (slide valve) or not (piston valve).
    port_area : steam port as it opens, mm2; None while not known.
    speed : of the model, km/h; None while not known.
    scaled_bore, scaled_stroke : the prototype's at scale, mm.
    preferred : threads that the builder prefers.
    asked : what valve and ports ask of a steam chest; None without a slide valve.
    fixed : paths of sizes that a bought part has settled.

    Raises
    ------
    SizeError : for a wheel of no size.
    """
    if not driving_diameter > 0:
        raise SizeError("The driving wheel needs a diameter above nothing.", "driving_diameter")
    sheet, axis = Sheet(), laid_out(cylinders)
    gears = (
        events_of(
            full_cutoff,
            release if release_full is None else release_full,
            compression if compression_full is None else compression_full,
        ),
        events_of(running_cutoff, release, compression),
    )
    steam = steaming(
        cylinders, sheet, axis, gears, valve_lifts=valve_lifts, wheel=driving_diameter,
        speed=speed if speed else None, port_area=port_area,
    )  # fmt: skip
    means = (steam.mean_pressure_full, steam.mean_pressure_running)
    haul = hauling(
        cylinders, sheet, driving_diameter, axis.stroke, means, (scaled_bore, scaled_stroke)
    )
    loads = loading(cylinders, sheet, axis, preferred)
    chest = None if asked is None else steam_chest(
        cylinders, axis, asked, screw_circle=loads.screw_circle, screw=loads.screw_major,
        passage=steam.passage_length,
    )  # fmt: skip
    result = CylindersResult(
        **_fields(haul),
        **_fields(steam),
        **_fields(_along(cylinders, axis)),
        **_fields(loads),
        chest=chest,
        workings=(*sheet.workings, *(chest.workings if chest else ())),
    )
    return dataclasses.replace(
        result,
        suggestions=suggest(cylinders, result, fixed),
        findings=judge(cylinders, result, valve_lifts, fixed),
    )


def _fields(part: Any) -> dict[str, Any]:
    return {field.name: getattr(part, field.name) for field in dataclasses.fields(part)}


def _along(cylinders: Cylinders, axis: Axis) -> AxisFigures:
    throw, rod = cylinders.crank.throw, cylinders.connecting_rod
    return AxisFigures(
        true_stroke=axis.stroke,
        front_clearance=axis.front_clearance,
        back_clearance=axis.back_clearance,
        thread_engaged=axis.engaged,
        spare_thread=axis.spare_thread,
        gland_to_lock_nut=axis.gland_to_lock_nut,
        gland_to_thread=axis.gland_to_thread,
        bar_at_front=axis.bar_at_front,
        bar_at_back=axis.bar_at_back,
        bar_to_big_end=axis.bar_to_big_end,
        rod_angle=math.degrees(math.asin((throw + abs(cylinders.cylinder_offset)) / rod)),
        rod_ratio=rod / throw,
        axis=axis,
        front_stack=stack_up(axis, front=True),
        back_stack=stack_up(axis, front=False),
    )
