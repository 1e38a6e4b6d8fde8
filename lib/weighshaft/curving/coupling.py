"""The vehicle behind on the same curve, and on the curve the other way."""

from __future__ import annotations

import math
from dataclasses import dataclass

from .standing import Pose

Point = tuple[float, float]


@dataclass(frozen=True)
class Coupled:
    """Engine and vehicle behind, mm and degrees.

    Parameters
    ----------
    drawbar : of its line against the engine's; the yaw between the vehicles is `yaw`.
    outer, inner : how much further apart, or nearer (negative), the buffer faces come.
    hose_outer, hose_inner : the same of a hose on either side.
    corner : between the corners of the two beams inside the curve, negative where they meet.
    step : sideways between the two ends where two curves run into one another.
    vehicle : corner points of the vehicle's frame line, its two ends, for the picture.
    pins : of the drawbar.
    """

    drawbar: float
    yaw: float
    outer: float
    inner: float
    hose_outer: float
    hose_inner: float
    corner: float
    step: float
    vehicle: tuple[Point, Point]
    pins: tuple[Point, Point]


def coupled_behind(
    pose: Pose, *, beam: float, pin: float, gap: float, wheelbase: float, overhang: float,
    buffers: float, hose: float, half: float,
) -> Coupled:  # fmt: skip
    """Return the vehicle coupled behind the engine.

    Its two axles, or bogie centres, stand on the track's middle; the drawbar keeps its length.

    Parameters
    ----------
    beam : back buffer beam's face, ahead of the driving axle and so negative.
    pin : inside the beam's face, at both ends.
    gap : between the faces of the beams on the straight.
    wheelbase, overhang : of the vehicle, overhang from beam to first axle.
    buffers, hose : off the centre line.
    half : of the beams' width.
    """
    cx, cy = pose.centre
    radius = pose.radius
    first = (beam + pin, 0.0)
    bar = gap + 2 * pin
    inner = math.sqrt(max(radius**2 - (wheelbase / 2) ** 2, 1e-12))
    to_pin = wheelbase / 2 + overhang - pin
    own = math.hypot(first[0] - cx, first[1] - cy)
    other = math.hypot(to_pin, inner)
    apart = math.acos(_unit((own**2 + other**2 - bar**2) / (2 * own * other)))
    # angles about the curve's centre, clockwise positive, so falling rearwards
    at = math.atan2(first[0] - cx, first[1] - cy) - apart
    second = (cx + other * math.sin(at), cy + other * math.cos(at))
    turn = at - math.atan2(to_pin, inner)  # amid the vehicle's wheelbase; its heading there
    heading = (math.cos(turn), -math.sin(turn))
    across = (math.sin(turn), math.cos(turn))

    def place(ahead: float, out: float) -> Point:
        """Return a point of the vehicle, `ahead` of its pin."""
        return (
            second[0] + ahead * heading[0] + out * across[0],
            second[1] + ahead * heading[1] + out * across[1],
        )

    def grown(out: float) -> float:
        return math.dist((beam, out), place(pin, out)) - gap

    meets = place(pin, -half)
    back_x, back_y = beam - place(pin, 0.0)[0], -half - place(pin, 0.0)[1]
    corner = min(beam - meets[0], back_x * heading[0] + back_y * heading[1])
    line = math.atan2(first[1] - second[1], first[0] - second[0])
    length = wheelbase + 2 * overhang
    return Coupled(
        drawbar=math.degrees(line), yaw=-math.degrees(turn),
        outer=grown(buffers), inner=grown(-buffers),
        hose_outer=grown(hose), hose_inner=grown(-hose),
        corner=corner,
        step=(math.hypot(beam - cx, cy) - radius) + (math.hypot(to_pin + pin, inner) - radius),
        vehicle=(place(pin, 0.0), place(pin - length, 0.0)), pins=(first, second),
    )  # fmt: skip


def _unit(value: float) -> float:
    return max(-1.0, min(1.0, value))
