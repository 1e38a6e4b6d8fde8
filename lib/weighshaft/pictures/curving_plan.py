"""The engine on its curve in plan, to scale, seen from above with its front to the right."""

from __future__ import annotations

import math

import numpy as np

from ..curving import CurvingResult
from ..curving.results import TruckResult
from ..curving.standing import Pose
from ..curving.throws import Throw, widest
from ..frames.whole import Part, Whole
from .scene import Array, Dimension, Label, Path, Pen, Primitive, Scene, box

_POINTS = 81
_IN_PLAN = ("platework", "cylinders", "frames")


def on_curve(result: CurvingResult) -> Scene:
    """Return the engine's plan with rails, wheelsets, trucks and what stands out of the track."""
    whole, pose = result.whole, result.pose
    outer, inner = widest(result.throws)
    rear, front = whole.buffer_back - 0.04 * _long(whole), whole.buffer_front + 0.04 * _long(whole)
    still = [*_track(result, rear, front), *_outlines(whole), *_frames(whole)]
    still += _wheelsets(result)
    for truck in result.trucks:
        for at in truck.place.axles:
            still += _wheelset(whole, at, truck.wheel, _heading(truck), "behind")
        still += _truck(truck, pose, outer.reach_outside + 0.03 * _long(whole))
    for part, reach, side in (
        (outer, outer.reach_outside, 1), (inner, inner.reach_inside, -1)
    ):  # fmt: skip
        still.append(Path(_ring(pose, side * reach, rear, front), "hidden", part="line left clear"))
        still += _thrown(pose, part, side, reach)
    still.append(
        Label(f"radius {result.drawn / 1000:.2f} m to the right",
              (rear, pose.track(rear) - result.gauge / 2 - 0.05 * _long(whole)), "start")
    )  # fmt: skip
    return Scene("The whole engine on the curve, from above", _says(result), tuple(still))


def _long(whole: Whole) -> float:
    return whole.buffer_front - whole.buffer_back


def _ring(pose: Pose, out: float, rear: float, front: float) -> Array:
    """Return the line `out` of the track's middle, from `rear` to `front`."""
    x = np.linspace(rear, front, _POINTS)
    cx, cy = pose.centre
    inside = np.clip((pose.radius + out) ** 2 - (x - cx) ** 2, 0.0, None)
    return np.stack([x, cy + np.sqrt(inside)], axis=1)


def _track(result: CurvingResult, rear: float, front: float) -> list[Primitive]:
    pose = result.pose
    made: list[Primitive] = [
        Path(_ring(pose, side * result.gauge / 2, rear, front), "outline", part="rail")
        for side in (1, -1)
    ]
    made.append(Path(_ring(pose, 0.0, rear, front), "centre", part="track's middle"))
    made.append(Path(box(rear, 0, front, 0)[:2], "centre", part="engine's middle"))
    return made


def _outlines(whole: Whole) -> list[Primitive]:
    """Return the parts that a builder looks for from above, as the rectangles they fill."""
    made: list[Primitive] = []
    for part in whole.parts:
        if part.kind not in _IN_PLAN or part.ride != "frames":
            continue
        if not ("beam" in part.name or "buffers" in part.name or part.kind != "frames"):
            continue
        for z0, z1 in _spans(part):
            (back, _, _), (front, _, _) = part.extent
            made.append(Path(box(back, z0, front, z1), "thin", True, "none", part.name))
    return made


def _spans(part: Part) -> list[tuple[float, float]]:
    """Return what a part fills across, each side for itself."""
    low = min(one.extent[0][2] for one in part.solids)
    high = max(one.extent[1][2] for one in part.solids)
    return [(low, high), (-high, -low)] if part.paired else [(low, high)]


def _frames(whole: Whole) -> list[Primitive]:
    part = whole.part("frame plates")
    if part is None:
        return []
    (back, _, _), (front, _, _) = part.extent
    return [
        Path(box(back, z0, front, z1), "outline", True, "metal", "frame plate")
        for z0, z1 in _spans(part)
    ]


def _wheelsets(result: CurvingResult) -> list[Primitive]:
    whole = result.whole
    made: list[Primitive] = []
    for axle in result.axles:
        coupled = next((one for one in whole.coupled if one.name == axle.name), None)
        if coupled is not None:
            made += _wheelset(whole, (axle.ahead, axle.shift), coupled.diameter, 0.0, "outline")
            made.append(
                Label(_slid(axle.shift), (axle.ahead, -0.32 * whole.gauge), "middle",
                      (axle.ahead, axle.shift))
            )  # fmt: skip
    return made


def _slid(shift: float) -> str:
    if abs(shift) < 0.005:
        return "midway"
    return f"{abs(shift):.2f} mm {'left' if shift > 0 else 'right'}"


def _wheelset(
    whole: Whole, at: tuple[float, float], diameter: float, turned: float, pen: Pen
) -> list[Primitive]:
    """Return two wheels and their axle; `turned` in degrees, clockwise."""
    back, radius = whole.back_to_back / 2, diameter / 2
    cos, sin = math.cos(math.radians(-turned)), math.sin(math.radians(-turned))
    turn = np.array([[cos, sin], [-sin, cos]])  # rows are points
    made: list[Primitive] = []
    for side in (1, -1):
        wheel = box(-radius, side * back, radius, side * (back + whole.tyre_width))
        made.append(Path(wheel @ turn + np.array(at), pen, True, "metal", "wheel"))
    axle = np.array([[0.0, -back], [0.0, back]]) @ turn + np.array(at)
    made.append(Path(axle, "thin", part="axle"))
    return [made[-1], *made[:-1]]


def _heading(truck: TruckResult) -> float:
    """Return how far a truck is turned, clockwise, degrees."""
    return truck.place.turned if truck.word == "leading" else -truck.place.turned


def _truck(truck: TruckResult, pose: Pose, out: float) -> list[Primitive]:
    """Return a truck's pivot and its arm or bogie frame."""
    if truck.kind == "rigid axle":
        return []
    at = (truck.pivot, truck.place.swing if truck.kind == "bogie" else 0.0)
    size = 0.04 * truck.wheel + 1.0
    made: list[Primitive] = [
        Path(np.array([[at[0] - size, at[1]], [at[0] + size, at[1]]]), "crank", part="pivot"),
        Path(np.array([[at[0], at[1] - size], [at[0], at[1] + size]]), "crank", part="pivot"),
    ]
    ends = [at, *truck.place.axles] if truck.arm else list(truck.place.axles)
    made.append(Path(np.array(ends), "crank", part="truck"))
    text = f"{truck.word} {truck.kind}, {abs(truck.place.swing):.2f} mm to the " + (
        "left" if truck.place.swing > 0 else "right"
    )
    x, y = truck.place.axles[0]
    made.append(Label(text, (x, pose.track(x) + out), "middle", (x, y)))
    return made


def _thrown(pose: Pose, part: Throw, side: int, reach: float) -> list[Primitive]:
    """Return the dimension of a part's reach from the track's middle, along the radius."""
    cx, cy = pose.centre
    if side > 0:
        x = part.front if abs(part.front - cx) > abs(part.back - cx) else part.back
    else:
        x = min(max(cx, part.back), part.front)
    turn = math.atan2(x - cx, side * part.half - cy)
    ends = [
        (cx + far * math.sin(turn), cy + far * math.cos(turn))
        for far in (pose.radius, pose.radius + side * reach)
    ]
    return [Dimension(ends[0], ends[1], f"{reach:.1f}")]


def with_vehicle(result: CurvingResult) -> Scene:
    """Return the engine's back end with the vehicle behind on the same curve."""
    whole, behind = result.whole, result.coupled
    (head_x, head_y), (tail_x, tail_y) = behind.vehicle
    front = whole.coupled[-1].ahead + 0.5 * whole.coupled[-1].diameter
    rear = tail_x - 0.02 * (front - tail_x)
    still = _track(result, rear, front)
    half = max((one.half for one in result.throws if "beam" in one.name), default=whole.gauge)
    still.append(
        Path(np.array([[front, half], [whole.back, half], [whole.back, -half], [front, -half]]),
             "outline", part="engine")
    )  # fmt: skip
    along = np.array([head_x - tail_x, head_y - tail_y])
    along = along / np.linalg.norm(along)
    across = np.array([-along[1], along[0]]) * half
    corners = np.array(
        [
            np.array(behind.vehicle[0]) + across, np.array(behind.vehicle[1]) + across,
            np.array(behind.vehicle[1]) - across, np.array(behind.vehicle[0]) - across,
        ]
    )  # fmt: skip
    still.append(Path(corners, "outline", True, "none", "vehicle behind"))
    still.append(Path(np.array(behind.pins), "crank", part="drawbar"))
    still.append(
        Label(f"drawbar {result.drawbar:.1f}°", (behind.pins[1][0], behind.pins[1][1] + 0.7 * half),
              "middle", behind.pins[1])
    )  # fmt: skip
    still.append(
        Label("vehicle behind", ((head_x + tail_x) / 2, (head_y + tail_y) / 2 + 0.5 * half))
    )
    says = (
        f"On {result.drawn / 1000:.2f} m the vehicle behind stands {behind.yaw:.1f}° to the engine "
        f"and the drawbar swings {result.drawbar:.1f}°. Inside the curve the buffers come "
        f"{result.buffers_nearer:.1f} mm nearer; a hose has to reach {result.hose:.1f} mm further; "
        f"where curves reverse the ends stand {result.step:.1f} mm aside of one another."
    )
    return Scene("Coupled to the vehicle behind, from above", says, tuple(still))


def _says(result: CurvingResult) -> str:
    outer, inner = widest(result.throws)
    swings = "".join(
        f" The {one.word} {one.kind} swings {abs(one.place.swing):.2f} mm." for one in result.trucks
    )
    least = (
        f"The whole engine goes round {result.smallest / 1000:.2f} m; {result.set_by} sets it."
        if math.isfinite(result.smallest) else "The engine goes round no curve."
    )  # fmt: skip
    passes = (
        "" if result.pose.passes
        else " On the curve drawn the wheels do not find their places."
    )  # fmt: skip
    return (
        f"On a curve of {result.drawn / 1000:.2f} m to the right the engine reaches "
        f"{outer.reach_outside:.1f} mm outside it, at the {outer.name}, and "
        f"{inner.reach_inside:.1f} mm inside it, at the {inner.name}, from the track's middle."
        f"{swings} {least}{passes}"
    )
