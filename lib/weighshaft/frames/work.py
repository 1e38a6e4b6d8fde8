"""The engine put together from the decisions of every chapter."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from ..boiler.decisions import BoilerSeat
from ..clearance.decisions import Clearance
from ..clearance.engine import Engine
from ..clearance.planes import planes_from, proportions
from ..curving.decisions import Curving
from ..cylinders.axis import Axis
from ..cylinders.chest import SteamChest
from ..cylinders.decisions import Cylinders
from ..findings import by_level, still_open, unlocked
from ..nozzle.decisions import Smokebox
from ..rods.decisions import OPPOSITE, Rods
from ..scale.decisions import Scale
from ..wheels.decisions import InsideCylinders, Wheels
from ..wheels.results import Part as WheelsPart
from ..working import relation
from .boilerwork import boiler_parts
from .cylinderwork import cylinder_parts
from .decisions import Frames
from .judgement import judge
from .layout import Chosen, Layout, laid_out
from .plates import frame_parts
from .platework import platework_parts
from .results import FramesResult
from .running import gear_parts, rod_parts, wheel_parts
from .solids import Bar, Point
from .whole import Drive, Part, Whole


@relation("g_h", "geometry", l="l_b", c="c")
def horn_gap(l: Any, c: Any) -> Any:  # noqa: E741
    """Horn gap along the plate: the box and its clearance."""
    return l + c


@relation("h_h", "geometry", b="b", h="h_b", s="s")
def horn_depth(b: Any, h: Any, s: Any) -> Any:
    """Horn gap from the plate's bottom edge: to the axle, half the box and the rise over it."""
    return b + h / 2 + s


def work(
    frames: Frames,
    *,
    scale: Scale,
    cylinders: Cylinders,
    axis: Axis,
    wheels: Wheels,
    across: tuple[WheelsPart, ...],
    stack: tuple[WheelsPart, ...],
    back_to_back: float,
    tyre_width: float,
    flange_thickness: float,
    flange_depth: float,
    flange_play: float,
    clearance: Clearance,
    boiler: BoilerSeat,
    smokebox: Smokebox,
    firing: str,
    curving: Curving,
    rods: Rods,
    gear: Engine | None = None,
    chest_height: float | None = None,
    chest: SteamChest | None = None,
    trunnion: tuple[float, float] | None = None,
    reach: tuple[Point, ...] | None = None,
    swings: tuple[float | None, float | None] = (None, None),
    shifts: tuple[float, ...] = (),
    fixed: frozenset[str] = frozenset(),
) -> FramesResult:
    """Put the engine together.

    Parameters
    ----------
    scale, cylinders, wheels, clearance, boiler, smokebox, curving, rods : what was decided there.
    axis : the parts along the cylinder, worked.
    across, stack : the rows across the engine and along the driven axle, as the wheels have them.
    back_to_back, tyre_width, flange_thickness, flange_depth : of the wheels, mm.
    flange_play : what the wheels leave of the gauge, mm.
    firing : "coal", "gas" or "spirit".
    gear : the valve gear of one side with its widths; None where it locks.
    chest_height : of the valve spindle's axis over the driving axle, mm, None if unknown.
    chest : the steam chest of a slide valve, None without one; it stands over the cylinder where
        the height of its spindle is known.
    trunnion : of oscillating cylinders, mm from the axle, else None.
    reach : weighshaft and both pins of the reach rod in mid gear, mm; None without a reverser.
    swings : of the leading and trailing truck on the curve wanted, each way, mm.
    shifts : of every axle on the curve wanted, out to the right of its place, mm; from the front.
    fixed : paths of sizes that a bought part has settled; no button changes them.

    Raises
    ------
    SizeError : when the sizes leave no plate.
    """
    chosen = Chosen(
        frames, scale, cylinders, axis, wheels, clearance, boiler, smokebox, firing, curving
    )
    layout = laid_out(chosen, flange_depth=flange_depth, swings=swings)
    sizes = proportions(clearance, wheels.axle_diameter, wheels.cylinders.crankpin)
    crank, tilt = cylinders.crank, cylinders.inclination
    inside = isinstance(wheels.cylinders, InsideCylinders)
    # outside cylinders drive on the coupled pins themselves
    throw = -crank.throw if inside and rods.coupling.pins == OPPOSITE else crank.throw
    planes = planes_from(across, stack, back_to_back)
    parts: list[Part] = frame_parts(
        frames, layout, flange_depth=flange_depth,
        inside_box=wheels.between.axlebox_inside, outside_box=wheels.between.axlebox_outside,
    )  # fmt: skip
    parts += wheel_parts(
        wheels, layout, back_to_back=back_to_back, tyre_width=tyre_width,
        flange_thickness=flange_thickness, flange_depth=flange_depth, metal=frames.wheel_metal,
        crank=crank, inclination=tilt, coupled_throw=throw,
    )  # fmt: skip
    rodded = rod_parts(
        wheels, rods, layout, planes=planes, crank=crank, inclination=tilt, coupled_throw=throw,
        sizes=sizes,
    )  # fmt: skip
    if trunnion is not None:
        rodded = [one for one in rodded if one.name != "connecting rods"]
    parts += rodded
    parts += cylinder_parts(
        cylinders, axis, wheels, layout, metal=frames.cylinder_metal, chest_height=chest_height,
        chest=chest, trunnion=trunnion,
    )  # fmt: skip
    parts += gear_parts(gear)
    parts += _reach_rod(
        reach, sizes.lever, sizes.rod_thickness, layout, wheels,
        face=back_to_back / 2 + tyre_width, flange_depth=flange_depth,
    )  # fmt: skip
    parts += boiler_parts(chosen, layout)
    parts += platework_parts(
        chosen, layout, wheel_back=back_to_back / 2,
        wheel_face=back_to_back / 2 + tyre_width, flange_depth=flange_depth,
    )  # fmt: skip
    axles = layout.axles
    if len(shifts) == len(axles):
        axles = tuple(replace(one, shift=by) for one, by in zip(axles, shifts, strict=True))
    coupled = sum(one.kind == "coupled" for one in axles)
    front, back = layout.plate_front + layout.beam, layout.plate_back - layout.beam
    whole = Whole(
        parts=tuple(parts), axles=axles,
        drive=Drive(crank, tilt, cylinders.crank_angle if cylinders.number > 1 else 0.0,
                    throw if coupled > 1 else 0.0, trunnion),
        rail=layout.rail, front=front, back=back,
        buffer_front=front + layout.buffer_length, buffer_back=back - layout.buffer_length,
        frame_inside=wheels.between.frame_spacing,
        frame_thickness=wheels.between.frame_thickness, rise=layout.rise,
        gauge=scale.track_gauge, back_to_back=back_to_back, tyre_width=tyre_width,
        flange_depth=flange_depth, flange_play=flange_play,
    )  # fmt: skip
    gap = horn_gap.work("Horn gap, along the plate", "mm", l=layout.box_length,
                        c=frames.horns.clearance)  # fmt: skip
    deep = horn_depth.work("Horn gap, from the bottom edge", "mm", b=-layout.bottom,
                           h=layout.box_height, s=layout.rise)  # fmt: skip
    extents = [one.extent for one in parts]
    return FramesResult(
        plate_length=layout.plate_front - layout.plate_back,
        plate_depth=layout.top - layout.bottom,
        over_beams=front - back,
        over_buffers=whole.buffer_front - whole.buffer_back,
        horn_gap=gap.result,
        horn_depth=deep.result,
        least_metal=layout.top - layout.box_height / 2 - layout.rise,
        boiler_centre=layout.boiler_centre - layout.rail,
        height=max(high[1] for _, high in extents) - layout.rail,
        width=2 * max(max(high[2], -low[2]) for low, high in extents),
        whole=whole,
        gear=gear,
        workings=(gap, deep),
        suggestions=still_open(layout.suggestions, fixed),
        findings=by_level(unlocked(judge(frames, layout, cylinders, axis, trunnion), fixed)),
    )


def _reach_rod(
    reach: tuple[Point, ...] | None,
    width: float,
    thick: float,
    layout: Layout,
    wheels: Wheels,
    *,
    face: float,
    flange_depth: float,
) -> list[Part]:
    """Return the reach rod on the right-hand side, from the weighshaft to the stand.

    Its plane across is where there is room: over the wheels beside frame and boiler, above the
    running board outside the wheels, lower down inside frames and axleboxes.

    Parameters
    ----------
    reach : weighshaft and both pins of the rod, mm.
    width, thick : of the arm, mm; the rod is three fifths as wide.
    face : outer face of the wheels, mm from the centre line.
    flange_depth : of the wheels, mm.
    """
    if reach is None:
        return []
    shaft, start, end = reach
    half = 0.3 * width
    low, high = min(start[1], end[1]) - half, max(start[1], end[1]) + half
    top = max(one.diameter / 2 for one in layout.axles if one.kind == "coupled") + flange_depth
    inside = layout.inside - wheels.between.axlebox_inside - 0.5 - thick
    inner = layout.outside + 1.0
    if low < layout.board:
        inner = inside
    else:
        if low < top + layout.rise + layout.splasher_gap + layout.sheet:
            inner = face + max(wheels.across.boss_outside, 0.0) + max(wheels.plays) + 1.5
        nearest = min(max(layout.boiler_centre, low), high) - layout.boiler_centre
        widest = max(layout.boiler_radius, layout.smokebox_radius)
        if abs(nearest) < widest:
            inner = max(inner, math.sqrt(widest * widest - nearest * nearest) + 1.0)
    # below the running board the rods go round outside the wheels
    foot, head = (pick(shaft[1], start[1]) for pick in (min, max))
    under = head + width / 2 < layout.boiler_centre - layout.boiler_radius
    arm = inside if under and foot - width / 2 < layout.board else inner
    joined = ("running boards", "splashers", "side tanks", "cab front", "reach rod", "weighshaft")
    return [
        Part("reversing arm", "motion", "reversing", ("reversing.linkage.arm",), "mild steel",
             (Bar(shaft, start, width / 2, arm, arm + thick),), joined=joined),
        Part("reach rod", "motion", "reversing", ("reversing.linkage.reach_rod",), "mild steel",
             (Bar(start, end, half, inner, inner + thick),), joined=joined),
    ]  # fmt: skip
