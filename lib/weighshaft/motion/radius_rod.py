"""The loop of Walschaerts' gear: die, radius rod, combination lever and lifting gear.

Given where the valve stands, lever and union link close as a dyad.  What remains are two
equations (the radius rod reaches from the die to the lever; it is carried by the lifting
arm) in two unknowns (the die along its slot, the valve along its spindle), which are solved
by Newton's rule.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from .frame import Array, Sized, Spindle, arm_angle, beyond, point, radians, settled, sign
from .kernel import dyad
from .parts import turn, turned

if TYPE_CHECKING:
    from .walschaerts import Walschaerts

_BRISK, _WALK, _STEPS = 10, 50, 58
"""Iterations at full steps, at a third of a step, and to the end; four serve as a rule."""


def close_radius_rod(
    gear: Walschaerts,
    cos: Array,
    sin: Array,
    centre: Array,
    drop: Array,
    arm: Array,
    reverser: Array,
    margins: dict[str, Array],
) -> tuple[Array, Array, Array, Array]:
    """Return die, radius-rod pin, union pin and the valve's displacement."""
    rod, part = gear.radius_rod, gear.lifting_pin / gear.radius_rod
    lever = gear.lever_upper + gear.lever_lower
    share = gear.lever_upper / lever
    spindle = Spindle(gear.spindle_height, gear.valve_angle)
    line = spindle.along
    lift = arm_angle(gear.arm_angle_forward, gear.arm_angle_backward, reverser)
    arm_x, arm_y = np.cos(lift), np.sin(lift)
    # how far along its line the valve pin can go before lever and union link are stretched
    drop_x, drop_y = drop[..., 0], drop[..., 1] - gear.spindle_height
    foot, off = line[0] * drop_x + line[1] * drop_y, line[0] * drop_y - line[1] * drop_x
    span = np.sqrt(np.maximum((lever + gear.union_link) ** 2 - off * off, 0.0))
    xi, c, s = _start(gear, cos, sin, arm, lift)
    xi = np.clip(xi, foot - 0.98 * span, foot + 0.98 * span)
    start = xi, c, s
    scale = np.zeros(1)
    with np.errstate(divide="ignore", invalid="ignore"):
        for step in range(_STEPS):
            valve = spindle.at(xi)
            # the union pin hangs below the valve pin: to the right of the way from drop arm
            union, sound = dyad(drop, gear.union_link, valve, lever, -1.0)
            rod_end = beyond(valve, union - valve, share)
            # how the union pin follows the valve, along its circle about the drop arm
            ux, uy = union[..., 0] - drop[..., 0], union[..., 1] - drop[..., 1]
            vx, vy = union[..., 0] - valve[..., 0], union[..., 1] - valve[..., 1]
            follow = (vx * line[0] + vy * line[1]) / (vy * ux - vx * uy)
            ex = line[0] + share * (-uy * follow - line[0])
            ey = line[1] + share * (ux * follow - line[1])
            # the die on its arc, struck from `centre`
            dx, dy = turned(cos, sin, -1.0 * c, 0.0)
            dx, dy = rod * (dx - sin * s), rod * (dy + cos * s)
            die = point(centre[..., 0] + dx, centre[..., 1] + dy)
            # moving up the slot: the radius of the arc turned by a right angle
            gx, gy = dy, -dx
            px, py = die[..., 0] - rod_end[..., 0], die[..., 1] - rod_end[..., 1]
            first = (px * px + py * py - rod * rod) / (2 * rod)
            a11 = (px * gx + py * gy) / rod
            a12 = -(px * ex + py * ey) / rod
            lx, ly = die[..., 0] - part * px, die[..., 1] - part * py
            hx, hy = (1 - part) * gx, (1 - part) * gy
            if gear.lifting == "link":
                qx, qy = lx - arm[..., 0], ly - arm[..., 1]
                second = (qx * qx + qy * qy - gear.lifting_link**2) / (2 * gear.lifting_link)
                nx, ny = qx / gear.lifting_link, qy / gear.lifting_link
            else:
                nx, ny = -arm_y, arm_x
                second = (lx - gear.weighshaft_x) * nx + (ly - gear.weighshaft_y) * ny
            a21 = nx * hx + ny * hy
            a22 = part * (nx * ex + ny * ey)
            scale = a11 * a22 - a12 * a21
            if step == _STEPS - 1 or (settled(first, 1e-11) and settled(second, 1e-11)):
                break
            if step == _BRISK:
                # poses that have overshot begin again, at a walk
                lost = ~(np.maximum(np.abs(first), np.abs(second)) < 1e-9)
                xi, c, s = (np.where(lost, a, b) for a, b in zip(start, (xi, c, s), strict=True))
                continue
            pace = 1.0 if step < _BRISK or step > _WALK else 0.35
            turn_by = pace * (a12 * second - a22 * first) / scale
            c, s = turn(c, s, np.clip(turn_by, -0.3, 0.3))
            move = pace * (a21 * first - a11 * second) / scale
            aim = xi + np.clip(move, -0.2 * rod, 0.2 * rod)
            # never past the stretch, only half of the way there
            aim = np.where(aim > foot + span, (xi + foot + span) / 2, aim)
            xi = np.where(aim < foot - span, (xi + foot - span) / 2, aim)
        missed = ~(np.maximum(np.abs(first), np.abs(second)) < 1e-9)
    # the sense that the builder's assembly has when the link stands upright
    sense: Sized = 1.0 if gear.hanging == "below" else -1.0
    if gear.lifting != "link":
        sense = -1.0
        scale = scale * np.where(np.real(arm_x) < 0, -1.0, 1.0)
    sense = sense * sign(1 - part)
    # where nothing fits the union link's figure means nothing: the lifting gear is at fault
    sound_scale = rod * np.abs(1 - part) * (1 - share)
    margins["radius rod"] = np.where(missed, -1.0, sense * scale / sound_scale)
    margins["union link"] = np.where(missed, 1.0, sound)
    return die, rod_end, union, xi


def _start(
    gear: Walschaerts, cos: Array, sin: Array, arm: Array, lift: Array
) -> tuple[Array, Array, Array]:
    """Return valve, and the die's direction on its arc, from where the lifting pin is carried.

    The radius rod's end is taken at the middle of its height; the lifting pin's height
    and its place ahead follow from one another in a few rounds.
    """
    rod, part = gear.radius_rod, gear.lifting_pin / gear.radius_rod
    end_y = gear.spindle_height - gear.lever_upper
    up = 0 * cos * arm[..., 0]
    flat = np.where(np.abs(np.cos(lift)) < 0.1, 0.1, np.cos(lift))
    ahead = up
    for _ in range(3):
        c = np.sqrt(1 - up * up)
        ahead = gear.link_x + rod * (cos - cos * c - sin * up)
        over = ahead + gear.lifting_pin
        if gear.lifting == "link":
            room = gear.lifting_link**2 - (over - arm[..., 0]) ** 2
            fall = np.sqrt(np.maximum(room, 0.0))
            carried = arm[..., 1] + (fall if gear.hanging == "above" else -fall)
        else:
            carried = gear.weighshaft_y + (over - gear.weighshaft_x) * np.sin(lift) / flat
        # the die stands as high as the rod between its two points asks for
        high = ((carried - part * end_y) / (1 - part) - gear.link_y) / rod
        up = np.clip((high - sin * (1 - c)) / cos, -0.7, 0.7)
        up = np.where(np.isfinite(up), up, 0.0)
    xi = (ahead + rod) / np.cos(radians(gear.valve_angle))
    return xi, np.sqrt(1 - up * up), up
