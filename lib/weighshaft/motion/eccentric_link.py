"""A link that two eccentric rods drive and one link carries, and the search that closes it.

With both eccentrics and the tilt of the link given, the middle between the link's pins
stands off the middle between the eccentrics at a right angle to the line that joins "pin
less eccentric".  What remains is one equation in the tilt: the length of the link that
carries it, from a fixed point or from an arm of the weighshaft.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from .equivalent import ValveSizes
from .frame import Array, Sized, point, settled, span
from .kernel import dyad
from .parts import Eccentrics, turned
from .statics import balance, towards

_BRISK, _WALK, _STEPS = 12, 60, 72
"""Iterations at full steps, at a third of a step, and to the end; four serve as a rule."""


def close_in(
    equation: Callable[[Array], tuple[Array, Array]],
    start: Array,
    sense: Sized,
    tolerance: Sized,
    longest: float,
    limits: tuple[Array, Array] | None = None,
) -> tuple[Array, Array]:
    """Return where an equation in one unknown is met on the branch wanted, and what it misses.

    Newton's rule; poses that it does not bring home begin again at a walk.

    Parameters
    ----------
    equation : gives the error and its slope; the error is the square of a distance, less
        that of a bar, and so has one root on either side of its lowest place.
    sense : sign of the slope on the branch wanted.
    tolerance : of the error.
    longest : limit of a step.
    limits : lower and upper end of what can be reached; never passed, only half of the way
        there.
    """
    x = start
    error = np.zeros(1)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        for step in range(_STEPS):
            error, slope = equation(x)
            if step == _STEPS - 1 or settled(error, tolerance):
                break
            if step == _BRISK:
                x = np.where(np.abs(error) < tolerance, x, start)
                continue
            pace = 1.0 if step < _BRISK or step > _WALK else 0.35
            # on the wrong side of the lowest place: over to the other
            move = np.where(sense * slope > 0, -error / slope, sense * longest)
            move = np.where(np.isfinite(move), move, sense * longest)
            aim = x + pace * np.clip(move, -longest, longest)
            if limits is not None:
                low, high = limits
                aim = np.where(aim > high, (x + high) / 2, aim)
                aim = np.where(aim < low, (x + low) / 2, aim)
            x = aim
    return x, error


class LinkPlace(NamedTuple):
    """Where a link stands: the middle of its slot, mm, and the direction of its "ahead"."""

    x: Array
    y: Array
    c: Array
    s: Array

    def at(self, ahead: float | Array, above: float | Array) -> Array:
        """Return a point of the link in the frame, (..., 2), from one in link axes."""
        dx, dy = turned(self.c, self.s, ahead, above)
        return point(self.x + dx, self.y + dy)


@dataclass(frozen=True)
class EccentricLink:
    """The link with its eccentrics, rods and the link that carries it.

    Parameters
    ----------
    eccentrics : with their rods, which need not be of one length.
    half : of the pins' spacing, mm.
    crossed : whether the forward rod takes the lower pin.
    backset : of the rod pins behind the slot, mm.
    ahead, above : the pin by which the link is carried, from the middle of its slot, mm.
    carrier : what carries it, in words; `reach` its length, mm.
    hanging : "below" or "above" the end of the carrier that does not belong to the link.
    """

    eccentrics: Eccentrics
    half: float
    crossed: bool
    backset: float
    ahead: float
    above: float
    carrier: str
    reach: float
    hanging: str

    def close(
        self, theta: Array, end: Array, points: dict[str, Array], margins: dict[str, Array]
    ) -> LinkPlace:
        """Place the link; add its joints and margins.

        Parameters
        ----------
        theta : crank angles, degrees.
        end : (..., 2) of the carrier, mm.
        """
        forward, backward = self.eccentrics.pins(theta)
        upper, lower = (backward, forward) if self.crossed else (forward, backward)
        place = self.placed(upper, lower, end, margins)
        upper_pin, lower_pin = (place.at(-self.backset, y) for y in (self.half, -self.half))
        points |= {
            "forward_eccentric": forward,
            "backward_eccentric": backward,
            "forward_pin": lower_pin if self.crossed else upper_pin,
            "backward_pin": upper_pin if self.crossed else lower_pin,
            "link": place.at(0.0, 0.0),
            "suspension": place.at(self.ahead, self.above),
        }
        return place

    def bars(self, end: str) -> list[tuple[str, str, Sized]]:
        """Return what holds between the joints; `end` names that of the carrier."""
        return [
            ("forward_eccentric", "forward_pin", self.eccentrics.rods[0]),
            ("backward_eccentric", "backward_pin", self.eccentrics.rods[1]),
            ("forward_pin", "backward_pin", 2 * self.half),
            (end, "suspension", self.reach),
        ]

    def pulls(self, points: Mapping[str, Array], push: Array, end: str) -> dict[str, Array]:
        """Return the forces in rods and carrier, N, for a `push` of the link on the die."""
        ways = (
            ("forward eccentric rod", "forward_pin", "forward_eccentric"),
            ("backward eccentric rod", "backward_pin", "backward_eccentric"),
            (self.carrier, "suspension", end),
        )
        unknowns = [[(towards(points, joint, to), points[joint])] for _, joint, to in ways]
        found = balance(unknowns, [(-push, points["die"])])
        return {name: pull for (name, *_), pull in zip(ways, found, strict=True)}

    def placed(
        self, upper: Array, lower: Array, end: Array, margins: dict[str, Array]
    ) -> LinkPlace:
        """Find the tilt for the eccentrics of the upper and the lower rod; add the margins."""
        half, reach = self.half, self.reach
        first, last = self.eccentrics.rods if not self.crossed else self.eccentrics.rods[::-1]
        # with rods of two lengths the pins' middle also moves along "pin less eccentric"
        apart = None if first is last else (first * first - last * last) / 4
        # from the middle between the pins
        ahead, above = self.backset + self.ahead, self.above
        side = 1.0 if self.hanging == "above" else -1.0
        middle = (upper + lower) / 2
        half_x, half_y = (upper[..., 0] - lower[..., 0]) / 2, (upper[..., 1] - lower[..., 1]) / 2
        base_x, base_y = middle[..., 0] - end[..., 0], middle[..., 1] - end[..., 1]
        square = (first * first + last * last) / 2

        def stands(t: Array) -> tuple[Array, ...]:
            """Return the link at a tilt of which `t` is the tangent of the half."""
            over = 1 / (1 + t * t)
            c, s = (1 - t * t) * over, 2 * t * over
            wx, wy = -half * s - half_x, half * c - half_y
            w2 = wx * wx + wy * wy
            room = square - w2 if apart is None else square - w2 - apart * apart / w2
            k = np.sqrt(np.maximum(room, 0.0) / w2)
            px, py = k * wy, -k * wx  # at a right angle to w, ahead of the axle
            bx, by = turned(c, s, ahead, above)
            if apart is not None:
                px, py = px + apart / w2 * wx, py + apart / w2 * wy
            sx, sy = base_x + px + bx, base_y + py + by
            # change of all that with the tilt
            dwx, dwy = -half * c, -half * s
            if apart is None:
                stretch = (wx * dwx + wy * dwy) / w2 * (square / np.maximum(room, 1e-12 * square))
                dx, dy = k * dwy - px * stretch - by, -k * dwx - py * stretch + bx
            else:
                turning, along = (wx * dwx + wy * dwy) / w2, apart / w2
                whole = square - 2 * along * apart
                stretch = turning * (whole / np.maximum(room, 1e-12 * square))
                dx = k * (dwy - wy * stretch) + along * (dwx - 2 * turning * wx) - by
                dy = -k * (dwx - wx * stretch) + along * (dwy - 2 * turning * wy) + bx
            return c, s, px, py, sx, sy, dx, dy, room, 2 * over

        def equation(t: Array) -> tuple[Array, Array]:
            _, _, _, _, sx, sy, dx, dy, _, rate = stands(t)
            return sx * sx + sy * sy - reach * reach, 2 * (sx * dx + sy * dy) * rate

        tolerance = 2 * reach * np.maximum(1e-11, 4e-16 * np.maximum(reach, first))
        t, error = close_in(
            equation, self._start(middle[..., 1], half_x, half_y, end), side, tolerance, 0.25
        )
        with np.errstate(divide="ignore", invalid="ignore"):
            c, s, px, py, sx, sy, dx, dy, room, _ = stands(t)
            margin = side * (sx * dx + sy * dy) / (reach * span(dx, dy))
        missed = ~(np.abs(error) < 1e2 * tolerance) | ~np.isfinite(margin)
        reached = np.where(np.isfinite(room), room / square, -1.0)
        margins["eccentric rods"] = reached
        # where the rods do not reach, it is not the carrier's fault
        margins[self.carrier] = np.where(missed, np.where(reached > 0, -1.0, 1.0), margin)
        margins["link (more than 90° from upright)"] = np.where(np.isfinite(c), c, -1.0)
        return LinkPlace(
            middle[..., 0] + px + c * self.backset, middle[..., 1] + py + s * self.backset, c, s
        )

    def _start(self, middle_y: Array, half_x: Array, half_y: Array, end: Array) -> Array:
        """Return the tilt to first order, from the height at which the link is carried."""
        half, rod = self.half, self.eccentrics.rods[0]
        side = 1.0 if self.hanging == "above" else -1.0
        # with the eccentrics at rest on the axle: one bar from the axle to the carried pin
        rest = np.sqrt(np.maximum(rod * rod - half * half, 1e-6 * rod * rod))
        pin_x, pin_y = rest + self.backset + self.ahead, self.above
        distance = span(pin_x, pin_y)
        # below the line from the axle to the carrier's end the pin lies to its right
        hung, _ = dyad(np.zeros(2), distance, end, self.reach, side)
        cos = (hung[..., 0] * pin_x + hung[..., 1] * pin_y) / distance**2
        sin = (hung[..., 1] * pin_x - hung[..., 0] * pin_y) / distance**2
        tilt = (-half_x + (rest * sin - middle_y) / rest * (half * cos - half_y)) / half
        tilt = np.clip(np.where(np.isfinite(tilt), tilt, 0.0), -0.95, 0.95)
        started: Array = tilt / (1 + np.sqrt(1 - tilt * tilt))
        return started


def eccentric_behind_link(
    sizes: ValveSizes, rod: float, half: float, die: float, lowered: float, *, crossed: bool
) -> tuple[float, float]:
    """Return throw and advance that a link turns into the eccentric wanted.

    Parameters
    ----------
    rod, half : of the eccentric rods, and half of the pins' spacing, mm.
    die : its distance from the middle of the link towards the forward pin, mm.
    lowered : what part of that comes from moving the link, mm: all with a shifting link,
        nothing with a stationary one.

    Source: to first order in link over rod; contains Zeuner's formulas for the links of
    Stephenson, Gooch and Allan (Treatise on Valve-Gears, from memory), derived anew.
    """
    delta, way = math.radians(sizes.advance), -1.0 if crossed else 1.0
    a, b = sizes.throw * math.sin(delta), sizes.throw * math.cos(delta)
    share, lead = die / half, way * (half - die * lowered / half) / rod
    lost = way * (die - lowered) / rod
    # a = sine + lead cosine, b = share cosine - lost sine, of throw and advance
    cosine = (b + lost * a) / (share + lost * lead)
    sine = a - lead * cosine
    return math.hypot(sine, cosine), math.degrees(math.atan2(sine, cosine))
