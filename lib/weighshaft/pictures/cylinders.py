"""Section along the cylinder axis, torque, indicator diagram, and the chapter's tables."""

from __future__ import annotations

import numpy as np

from ..cylinders import Cylinders, CylindersResult
from ..cylinders.said import three
from .scene import (
    Array,
    Band,
    Chart,
    Circle,
    Curve,
    Dimension,
    Fill,
    Label,
    Moving,
    Path,
    Pen,
    Picture,
    Primitive,
    Scene,
    Table,
    box,
)

STEP = 5
"""Degrees from one crank position of the moving drawing to the next."""


def pictures(cylinders: Cylinders, result: CylindersResult) -> tuple[Picture, ...]:
    """Return the section along the axis, torque, indicator diagram and the tables."""
    return (
        section(cylinders, result),
        torque(cylinders, result),
        indicator(result),
        stack(result),
        loads(result),
        pulls(cylinders, result),
    )


def section(cylinders: Cylinders, result: CylindersResult) -> Scene:
    """Return the section to scale; origin in the driving axle, ahead to the right.

    Cover, barrel and gland are cut; piston, rods and crank follow the crank angle.  The
    dashed pistons stand at the two dead centres, with their clearances.
    """
    axis, high = result.axis, cylinders.cylinder_offset
    outer = result.screw_circle / 2 + result.screw_major
    still: list[Primitive] = [
        *_cylinder(cylinders, result, outer),
        *_bars(result, high),
        *_centre_lines(cylinders, result, outer),
        *_dead_centre_pistons(cylinders, result),
        *_dimensions(cylinders, result, outer),
        *_labels(result, high, outer),
    ]
    front, back = result.front_clearance, result.back_clearance
    struck = " The piston strikes a cover." if min(front, back) <= 0 else ""
    return Scene(
        "Section along the cylinder axis",
        f"Barrel {axis.barrel:.2f} mm long of {cylinders.bore:.2f} mm bore, its middle "
        f"{axis.axle_to_cylinder:.2f} mm ahead of the driving axle; stroke {axis.stroke:.2f} mm, "
        f"piston to front cover {front:.2f} mm, to back cover {back:.2f} mm, "
        f"{axis.engaged:.2f} mm of thread in the crosshead.{struck}",
        tuple(still),
        _moving(cylinders, result),
        np.arange(0.0, 360.0, STEP),
    )


def _box(x0: float, y0: float, x1: float, y1: float, fill: Fill, part: str, pen: Pen) -> Path:
    return Path(box(x0, y0, x1, y1), pen, True, fill, part)


def _cylinder(cylinders: Cylinders, result: CylindersResult, outer: float) -> list[Primitive]:
    axis, high = result.axis, cylinders.cylinder_offset
    bore, rod = cylinders.bore / 2, axis.rod / 2
    back = axis.axle_to_cylinder - axis.barrel / 2
    front = back + axis.barrel
    gland = min(2.2 * rod + 1, 0.9 * bore)
    parts: list[Primitive] = []
    for up in (1, -1):
        parts += [
            _box(back, high + up * bore, front, high + up * outer, "section", "barrel", "outline"),
            Path(
                np.array(
                    [
                        [axis.back_face, high + up * rod],
                        [axis.back_face, high + up * bore],
                        [back - axis.joint, high + up * bore],
                        [back - axis.joint, high + up * outer],
                        [axis.back_outside, high + up * outer],
                        [axis.back_outside, high + up * gland],
                        [axis.gland_end, high + up * gland],
                        [axis.gland_end, high + up * rod],
                    ]
                ),
                closed=True, fill="section", part="back cover",
            ),
        ]  # fmt: skip
        circle, screw = result.screw_circle / 2, result.screw_major / 2
        deep = min(2.5 * result.screw_major, axis.barrel / 4)
        for x0, x1 in (
            (axis.back_outside, back + deep),
            (front + axis.joint + axis.front_cover, front - deep),
        ):
            y = high + up * circle
            parts.append(_box(x0, y - screw, x1, y + screw, "none", "cover screws", "hidden"))
    flange = front + axis.joint
    cover = [
        [axis.front_face, -bore], [axis.front_face, bore], [flange, bore], [flange, outer],
        [flange + axis.front_cover, outer], [flange + axis.front_cover, -outer],
        [flange, -outer], [flange, -bore],
    ]  # fmt: skip
    parts.append(
        Path(
            np.array(cover) + np.array([0.0, high]), closed=True, fill="section", part="front cover"
        )
    )
    hole = result.passage_hole
    reach = min(result.passage_length, axis.barrel / 2)
    for x0, x1 in ((front, front - reach), (back, back + reach)):
        low = high + bore + 0.3 * (outer - bore)
        parts.append(_box(x0, low, x1, low + hole, "none", "passage", "hidden"))
    return parts


def _bars(result: CylindersResult, high: float) -> list[Primitive]:
    axis = result.axis
    half = _half_crosshead(result)
    thick = max(0.5 * half, 1.0)
    end = axis.back_outside - axis.slide_bar
    return [
        _box(end, high + up * half, axis.back_outside, high + up * (half + thick), "metal",
             "slide bar", "outline")
        for up in (1, -1)
    ]  # fmt: skip


def _half_crosshead(result: CylindersResult) -> float:
    """Half the height between the slide bars: room for boss and lock nut, drawn only."""
    return 1.6 * result.axis.rod


def _centre_lines(cylinders: Cylinders, result: CylindersResult, outer: float) -> list[Primitive]:
    axis, high, throw = result.axis, cylinders.cylinder_offset, cylinders.crank.throw
    end = axis.axle_to_cylinder + axis.barrel / 2 + axis.joint + axis.front_cover + 0.1 * outer
    lines = [
        Path(np.array([[-throw * 1.2, high], [end + 3, high]]), "centre"),
        Path(np.array([[0, -throw * 1.2], [0, throw * 1.2]]), "centre"),
        Path(
            np.array(
                [
                    [axis.axle_to_cylinder, high - 1.1 * outer],
                    [axis.axle_to_cylinder, high + 1.1 * outer],
                ]
            ),
            "centre",
        ),
    ]
    if high:
        lines.append(Path(np.array([[-throw * 1.2, 0], [throw * 1.2, 0]]), "centre"))
    return [*lines, Circle((0, 0), throw, "centre"), Circle((0, 0), 0.3 * throw, part="axle")]


def _piston_back(result: CylindersResult, front: bool) -> float:
    axis = result.axis
    return (axis.front_gudgeon if front else axis.back_gudgeon) + axis.gudgeon_to_piston


def _dead_centre_pistons(cylinders: Cylinders, result: CylindersResult) -> list[Primitive]:
    axis, high, bore = result.axis, cylinders.cylinder_offset, cylinders.bore / 2
    parts: list[Primitive] = []
    for front, clear in ((True, result.front_clearance), (False, result.back_clearance)):
        x = _piston_back(result, front)
        pen: Pen = "hidden" if clear > 0 else "stop"
        parts.append(_box(x, high - bore, x + axis.piston, high + bore, "none", "piston", pen))
    return parts


def _dimensions(cylinders: Cylinders, result: CylindersResult, outer: float) -> list[Primitive]:
    axis, high, bore = result.axis, cylinders.cylinder_offset, cylinders.bore / 2
    back = axis.axle_to_cylinder - axis.barrel / 2
    front_piston = axis.front_face - result.front_clearance
    row = outer - bore + 0.28 * bore + 3
    below, top = high - outer, high + bore
    near = 0.35 * bore + 3
    return [
        Dimension(
            (front_piston, top), (axis.front_face, top), f"{result.front_clearance:.2f}", row
        ),
        Dimension(
            (axis.back_face, top), (axis.back_face + result.back_clearance, top),
            f"{result.back_clearance:.2f}", row,
        ),
        Dimension((back + axis.barrel, below), (back, below), f"{axis.barrel:.2f}", near),
        Dimension(
            (axis.axle_to_cylinder, below), (0.0, below), f"{axis.axle_to_cylinder:.2f}",
            0.9 * bore + 8,
        ),
    ]  # fmt: skip


def _labels(result: CylindersResult, high: float, outer: float) -> list[Primitive]:
    axis = result.axis
    back = axis.axle_to_cylinder - axis.barrel / 2
    flange = back + axis.barrel + axis.joint + axis.front_cover / 2
    half, above = _half_crosshead(result), high + 1.75 * outer + 4
    bar = axis.back_outside - 0.6 * axis.slide_bar
    gland = (axis.gland_end + axis.back_outside) / 2
    return [
        Label("front cover", (flange + 0.4 * outer, above), leader=(flange, high + outer)),
        Label(
            "back cover", (axis.back_outside - 0.4 * outer, above),
            leader=(axis.back_outside + axis.back_cover / 2, high + outer),
        ),
        Label("slide bar", (bar, high + half + outer), leader=(bar, high + 1.3 * half)),
        Label("gland", (gland, high - 1.25 * outer), leader=(gland, high - axis.rod)),
    ]  # fmt: skip


def _moving(cylinders: Cylinders, result: CylindersResult) -> tuple[Moving, ...]:
    axis, high, throw = result.axis, cylinders.cylinder_offset, cylinders.crank.throw
    x = cylinders.crank.gudgeon(np.arange(0.0, 360.0, STEP))
    theta = np.radians(np.arange(0.0, 360.0, STEP))
    pin = throw * np.column_stack([np.cos(theta), -np.sin(theta)])
    gudgeon_pin = np.column_stack([x, np.full_like(x, high)])
    half = _half_crosshead(result)
    rod_end, piston = axis.boss - axis.engaged, axis.gudgeon_to_piston
    boss = min(1.1 * axis.rod, half)

    def along(shape: list[list[float]]) -> Array:
        moved: Array = gudgeon_pin[:, None, :] + np.array(shape, dtype=float)[None]
        return moved

    def across(x0: float, x1: float, y: float) -> Array:
        return along([[x0, -y], [x1, -y], [x1, y], [x0, y]])

    parts = [
        Moving(across(rod_end, piston, axis.rod / 2), "outline", fill="metal", part="piston rod"),
        Moving(
            across(piston, piston + axis.piston, cylinders.bore / 2), "outline", fill="section",
            part="piston",
        ),
        Moving(
            across(axis.boss, axis.boss + axis.lock_nut, min(0.9 * axis.rod, half)), "outline",
            fill="metal", part="lock nut",
        ),
        Moving(
            along(
                [
                    [-axis.slipper_behind, -half], [axis.slipper_ahead, -half],
                    [axis.slipper_ahead, -boss], [axis.crosshead[0], -boss],
                    [axis.crosshead[0], boss], [axis.slipper_ahead, boss],
                    [axis.slipper_ahead, half], [-axis.slipper_behind, half],
                ]
            ),
            "outline", fill="paper", part="crosshead",
        ),
        Moving(across(rod_end, axis.boss, axis.rod / 2), "outline", "hidden", part="rod thread"),
    ]  # fmt: skip
    if axis.nut > 0:
        end = piston + axis.piston
        parts.append(
            Moving(across(end, end + axis.nut, 0.9 * axis.rod), "outline", fill="metal", part="nut")
        )
    way = gudgeon_pin - pin
    side = np.column_stack([-way[:, 1], way[:, 0]]) / cylinders.connecting_rod
    small, large = 0.5 * axis.rod, 0.8 * axis.rod
    blade = np.stack(
        [pin - large * side, gudgeon_pin - small * side, gudgeon_pin + small * side,
         pin + large * side], axis=1,
    )  # fmt: skip
    axle = np.zeros_like(pin)
    parts += [
        Moving(blade, "outline", fill="metal", part="connecting rod"),
        Moving(pin[:, None, :], "circle", fill="metal", radius=axis.big_end, part="big end"),
        Moving(gudgeon_pin[:, None, :], "circle", fill="paper", radius=0.45 * axis.rod,
               part="gudgeon pin"),
        Moving(np.stack([axle, pin], axis=1), pen="crank", part="crank"),
    ]  # fmt: skip
    return tuple(parts)


def torque(cylinders: Cylinders, result: CylindersResult) -> Chart:
    """Return the torque of each cylinder and of all around the turn, in N m."""
    theta = np.arange(360.0)
    full, running = result.full, result.running
    curves = [
        Curve(theta, one / 1000, f"cylinder {i + 1}", "behind")
        for i, one in enumerate(full.torque)
        if len(full.torque) > 1
    ]
    follows = len(curves)
    mean = full.mean / 1000
    curves += [
        Curve(theta, full.total / 1000, "all, full gear"),
        Curve(theta, running.total / 1000, "all, running notch", "trace"),
        Curve(theta[[0, -1]], np.array([mean, mean]), f"mean {three(mean)} N m", "thin"),
    ]
    limit = result.torque_limit / 1000
    curves.append(
        Curve(theta[[0, -1]], np.array([limit, limit]),
              f"rail holds {three(limit)} N m",
              "centre")
    )  # fmt: skip
    band = Band(0.0, limit)
    return Chart(
        "Torque around the revolution",
        f"With full regulator in full gear the torque has a mean of {three(mean)} N m and "
        f"runs from {result.least_torque:.2f} to {result.evenness:.2f} of it; the rail holds "
        f"{three(limit)} N m.",
        "crank angle from front dead centre, degrees",
        "torque, N m",
        tuple(curves),
        (band,),
        (follows,),
    )


def indicator(result: CylindersResult) -> Chart:
    """Return the assumed indicator diagram of the front end in both notches."""
    full, running = result.full_diagram, result.running_diagram
    chest = result.chest_pressure
    ends = np.array([0.0, 100.0])
    return Chart(
        "Assumed indicator diagram, front end",
        f"Admission at {chest:.2f} bar to {100 * result.full_events.cutoff:.0f} % in full gear and "
        f"{100 * result.running_events.cutoff:.0f} % in the running notch, hyperbolic expansion "
        f"with {result.clearance_front:.1f} % clearance, release, back pressure and compression; "
        f"mean of the diagram {result.cycle_pressure_full:.2f} and "
        f"{result.cycle_pressure_running:.2f} bar.",
        "piston from front dead centre, % of stroke",
        "pressure, bar on the gauge",
        (
            Curve(100 * full.part, full.pressure, "full gear"),
            Curve(100 * running.part, running.pressure, "running notch", "trace"),
            Curve(ends, np.array([chest, chest]), "steam chest", "thin"),
        ),
    )


def stack(result: CylindersResult) -> Table:
    """Return the chain of parts from the axle to each cover."""
    rows: list[tuple[str | float, ...]] = []
    for name, steps in (("front", result.front_stack), ("back", result.back_stack)):
        rows += [(step.part, step.length, step.ends) for step in steps]
        rows.append((f"{name} cover, inner face", "", steps[-1].ends))
    return Table(
        "Stack-up along the axis",
        ("Part", "Length", "Ends ahead of the axle"),
        tuple(rows),
        "Through the rods; the covers' faces found from the frames are at the same places.",
    )


def loads(result: CylindersResult) -> Table:
    """Return loads and stresses at full working pressure."""

    def row(what: str, load: float, stress: float | str, aside: str = "") -> tuple[str, ...]:
        shown = stress if isinstance(stress, str) else three(stress)
        return what, three(load, 4), shown, aside

    return Table(
        "Loads and stresses at full pressure",
        ("Part", "Load, N", "Stress, N/mm²", "Remark"),
        (
            row("piston", result.piston_load, "–"),
            row("piston rod", result.piston_load, result.rod_stress,
                f"bows at {result.buckling_factor:.0f} times the load"),
            row("slipper on slide bar", result.slide_bar_load, result.slipper_pressure,
                f"rod slopes {result.rod_angle:.1f}° at most"),
            row("cover", result.cover_load, result.cover_stress, "bending, flange alone"),
        ),
        f"The rod's {result.rod_thread} and the {result.screws} cover screws {result.screw_thread} "
        "stand with the other threads.",
    )  # fmt: skip


def pulls(cylinders: Cylinders, result: CylindersResult) -> Table:
    """Return the pull on the level and on grades."""
    haul = cylinders.haulage
    return Table(
        "Pull on grades",
        ("Grade", "Pull behind the engine, N", "Train, kg", "Limit"),
        tuple(
            (
                f"1 in {pull.grade:g}" if pull.grade else "level",
                three(pull.drawbar),
                three(pull.load),
                "grip" if pull.held_by == "adhesion" else "cylinders",
            )
            for pull in result.pulls
        ),
        f"Rolling resistance {haul.rolling_resistance:g} % of the weight, grip "
        f"{haul.adhesion:g}, engine {cylinders.engine_weight:g} kg; straight track.",
    )
