"""The engine's trucks with the sizes that are taken, and what is worked out about each."""

from __future__ import annotations

import math
from dataclasses import replace

from ..frames.solids import Plate
from ..frames.whole import Part, Whole
from ..working import Working
from . import relations
from .decisions import Curving
from .results import TruckResult
from .standing import Pose
from .trucks import ARMS, Guided, TruckPlace, arm_for, pushed_back


def trucks_of(curving: Curving, whole: Whole) -> tuple[Guided, ...]:
    """Return the engine's trucks with their sizes; arms that follow the curve come later."""
    made = []
    for word, way, decided in (
        ("leading", 1, curving.leading), ("trailing", -1, curving.trailing)
    ):  # fmt: skip
        axles = [one for one in whole.axles if one.kind == word]
        if not axles:
            continue
        xs = tuple(one.ahead for one in axles)
        ends = [one.ahead for one in whole.coupled]
        half = (max(ends) - min(ends)) / 2
        reach = abs(sum(xs) / len(xs) - (max(ends) + min(ends)) / 2)
        arm = relations.radial_arm(reach, half) if decided.arm is None else decided.arm
        made.append(Guided(word, way, decided, xs, axles[0].diameter, arm))
    return tuple(made)


def armed(truck: Guided, pose: Pose) -> Guided:
    """Return the truck with the arm that is radial as the engine stands, where none is decided."""
    if truck.decided.arm is not None or truck.decided.kind not in ARMS:
        return truck
    arm = arm_for(pose, truck.middle, truck.way)
    reach = abs(truck.middle - pose.crown)
    if not 0.05 * reach < arm < reach:
        return truck
    return replace(truck, arm=arm)


def load_on(
    whole: Whole, trucks: tuple[Guided, ...], engine: float, carried: float,
    loads: tuple[float, ...] | None,
) -> dict[str, float]:  # fmt: skip
    """Return the load on each truck, kg; where the axles' are unknown, shared by its axles."""
    if loads is not None and len(loads) == len(whole.axles):
        return {
            truck.word: sum(
                max(load, 0.0)
                for one, load in zip(whole.axles, loads, strict=True) if one.kind == truck.word
            )
            for truck in trucks
        }  # fmt: skip
    axles = sum(len(one.axles) for one in trucks)
    share = carried if carried > 0 else engine * axles / len(whole.axles)
    return {one.word: share * len(one.axles) / axles for one in trucks}


def truck_results(
    trucks: list[tuple[Guided, TruckPlace]], whole: Whole, pose: Pose, load: dict[str, float],
    play: float,
) -> tuple[tuple[TruckResult, ...], tuple[Working, ...]]:  # fmt: skip
    """Return what is worked out about each truck.

    Parameters
    ----------
    load : on each, by its word, kg.
    play : what the gauge leaves of the wheels, both sides together, mm.
    """
    made: list[TruckResult] = []
    workings: list[Working] = []
    for truck, place in trucks:
        decided, kind = truck.decided, truck.decided.kind
        weight = load[truck.word] * relations.GRAVITY
        push = pushed_back(decided, truck.word, place.swing, weight)
        if kind == "rigid axle":
            push = pushed_back(replace(decided, control="none"), truck.word, 0.0, weight)
        wheel = weight / (2 * len(truck.axles))
        reach = abs(truck.middle - pose.crown)
        if kind in ARMS:
            square = reach**2 - 2 * reach * arm_for(pose, truck.middle, truck.way)
            workings.append(
                relations.radial_arm.work(
                    f"Radius arm that sets the {truck.word} truck's axle radial", "mm",
                    D=reach, a=math.sqrt(max(square, 0.0)),
                )
            )  # fmt: skip
        if push.working is not None:
            workings.append(push.working)
        made.append(
            TruckResult(
                word=truck.word, kind=kind, pivot=truck.pivot,
                arm=truck.arm if kind in ARMS else 0.0,
                radial=arm_for(pose, truck.middle, truck.way) if kind in ARMS else 0.0,
                load=load[truck.word], needed=max(abs(place.swing) - play / 2 - decided.play, 0.0),
                allowed=decided.play if kind == "rigid axle" else decided.swing,
                wheel_gap=_beside_frames(truck, place, whole), push=push.swung, amid=push.amid,
                quotient=push.swung / wheel if wheel > 0 else 0.0,
                place=place, wheel=truck.wheel, wheelbase=truck.wheelbase,
            )
        )  # fmt: skip
    return tuple(made), tuple(workings)


def _beside_frames(truck: Guided, place: TruckPlace, whole: Whole) -> float | None:
    """Return how far the truck's wheels clear the frame plates, mm; None where they pass under.

    Each wheel counts as high and as long as its flange, so that it is on the safe side.
    """
    plates = whole.part("frame plates")
    if plates is None:
        return None
    radius = truck.wheel / 2 + whole.flange_depth
    top = whole.rail + truck.wheel / 2 + radius
    turned = math.radians(abs(place.turned))
    least = None
    for x, y in place.axles:
        if _lowest(plates, x - radius, x + radius) >= top:
            continue
        nearest = (whole.back_to_back / 2) * math.cos(turned) - abs(y) - radius * math.sin(turned)
        gap = nearest - whole.frame_inside / 2 - whole.frame_thickness
        least = gap if least is None else min(least, gap)
    return least


def _lowest(part: Part, back: float, front: float) -> float:
    """Return the lowest point of a part's plates between two places along the engine, mm."""
    lowest = math.inf
    for solid in part.solids:
        if not isinstance(solid, Plate):
            continue
        corners = solid.outline
        for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
            (ax, ay), (bx, by) = sorted(((ax, ay), (bx, by)))
            if bx < back or ax > front:
                continue
            for x in (max(ax, back), min(bx, front)):
                share = (x - ax) / (bx - ax) if bx > ax else 0.0
                lowest = min(lowest, ay + share * (by - ay))
            if bx == ax:
                lowest = min(lowest, by)
    return lowest
