"""A radius rod from the die in a link's slot to the valve spindle, lifted from the weighshaft.

The link stands where its rods put it, and given where the die stands along the slot the
rod meets the spindle's line ahead.  What remains is one equation in the die's place: the
length of the lifting link.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from .eccentric_link import LinkPlace, close_in
from .frame import Array, Spindle, beyond, point, sign
from .parts import turned
from .statics import balance, towards


@dataclass(frozen=True)
class LiftedRod:
    """The radius rod, the slot in which its die slides, and the link that lifts it.

    Parameters
    ----------
    length : from die to valve pin, mm.
    bend : one over the radius of the slot, struck from ahead; 0 for a straight one, 1/mm.
    lifting_pin : along the rod from the die, positive ahead, mm.
    lifter : what lifts the rod, in words; `reach` its length, mm.
    hanging : "below" or "above" the end of the lifting arm.
    spindle : line of the valve pin.
    step : how far the die may be moved in one step of the search, mm.
    """

    length: float
    bend: float
    lifting_pin: float
    lifter: str
    reach: float
    hanging: str
    spindle: Spindle
    step: float

    def close(
        self, place: LinkPlace, arm: Array, points: dict[str, Array], margins: dict[str, Array]
    ) -> tuple[Array, Array]:
        """Place die, rod and valve; add their joints and margins.

        Parameters
        ----------
        place : of the link.
        arm : (..., 2) end of the lifting arm, mm.

        Returns
        -------
        The valve along its line, and the die along its slot, upwards from the middle, mm.
        """
        part, reach = self.lifting_pin / self.length, self.reach
        side = (1.0 if self.hanging == "above" else -1.0) * sign(1 - part)
        line_x, line_y = self.spindle.along
        rod, bend, height = self.length, self.bend, self.spindle.height

        def equation(w: Array) -> tuple[Array, Array]:
            """`w` is twice the slot's radius times the tangent of half the die's angle."""
            dx, dy, gx, gy = self._along(place, w)
            off = line_x * (dy - height) - line_y * dx
            run = np.sqrt(np.maximum(1 - (off / rod) ** 2, 1e-6))
            xi = line_x * dx + line_y * (dy - height) + rod * run
            rate = line_x * gx + line_y * gy - off * (line_x * gy - line_y * gx) / (rod * run)
            qx = (1 - part) * dx + part * line_x * xi - arm[..., 0]
            qy = (1 - part) * dy + part * (height + line_y * xi) - arm[..., 1]
            moves_x = (1 - part) * gx + part * rate * line_x
            moves_y = (1 - part) * gy + part * rate * line_y
            return qx * qx + qy * qy - reach * reach, 2 * (qx * moves_x + qy * moves_y)

        tolerance = 2 * reach * np.maximum(1e-11, 4e-16 * np.maximum(reach, rod))
        low, high = limits = self._limits(place)
        room = 0.02 * np.minimum(high - low, rod)
        start = np.clip(self._start(place, arm, part), low + room, high - room)
        w, error = close_in(equation, start, side, tolerance, self.step, limits)
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            dx, dy, _, _ = self._along(place, w)
            die = point(dx, dy)
            xi, level = self.spindle.reach(die, rod)
            margin = side * equation(w)[1] / (2 * reach * np.abs(1 - part))
        missed = ~(np.abs(error) < 1e2 * tolerance) | ~np.isfinite(margin)
        # where the link does not stand, or the search ended with the rod square to the
        # spindle, it is not the lifter's fault
        stands = np.all([margin > 0 for margin in margins.values()], axis=0)
        short = missed & (level < 0.1)
        margins["radius rod"] = np.where(stands, np.where(short, -1.0, level), 1.0)
        margins[self.lifter] = np.where(
            stands, np.where(missed, np.where(short, 1.0, -1.0), margin), 1.0
        )
        valve = self.spindle.at(xi)
        points |= {
            "die": die,
            "lifting_pin": beyond(die, valve - die, part),
            "valve": valve,
        }
        slid = 2 / bend * np.arctan(bend * w / 2) if np.any(bend) else w
        return xi, slid

    def bars(self, arm: str) -> list[tuple[str, str, float]]:
        """Return what holds between the joints; `arm` names the end of the lifting arm."""
        pin = self.lifting_pin
        return [
            ("die", "valve", self.length),
            ("die", "lifting_pin", abs(pin)),
            ("lifting_pin", "valve", abs(self.length - pin)),
            (arm, "lifting_pin", self.reach),
        ]

    def forces(
        self, points: Mapping[str, Array], normal: Array, arm: str
    ) -> tuple[dict[str, Array], Array]:
        """Return the forces for 1 N on the valve, and the push of the link on the die, N.

        Parameters
        ----------
        normal : (..., 2) unit vectors, ahead and square to the slot where the die stands.

        Returns
        -------
        Pulls of rod (between the lifting pin and the valve) and lifting link, and the die's
        push; the push also as vectors (..., 2).
        """
        shape = points["die"].shape
        line = np.array(self.spindle.along)
        square = np.array([-line[1], line[0]])
        die, lift, guided = balance(
            [
                [(normal, points["die"])],
                [(towards(points, "lifting_pin", arm), points["lifting_pin"])],
                [(np.broadcast_to(square, shape), points["valve"])],
            ],
            [(np.broadcast_to(-line, shape), points["valve"])],
        )
        rod = towards(points, "die", "valve")
        pull = guided * (rod @ square) - rod @ line
        return {"radius rod": pull, self.lifter: lift, "die block": die}, die[..., None] * normal

    def _along(self, place: LinkPlace, w: Array) -> tuple[Array, Array, Array, Array]:
        """Return the die and its direction of movement with `w`."""
        t = self.bend * w / 2
        over = 1 / (1 + t * t)
        ax, ay = turned(place.c, place.s, w * t * over, w * over)
        gx, gy = turned(place.c, place.s, 2 * t * over * over, (1 - t * t) * over * over)
        return place.x + ax, place.y + ay, gx, gy

    def _limits(self, place: LinkPlace) -> tuple[Array, Array]:
        """Return between which `w` the rod reaches the spindle's line: there it stands square."""
        line_x, line_y = self.spindle.along
        off = line_x * (place.y - self.spindle.height) - line_y * place.x
        ahead = line_x * place.s - line_y * place.c
        above = line_x * place.c + line_y * place.s
        ends = []
        for way in (-1.0, 1.0):
            # off (1 + t^2) + ahead bend w^2 / 2 + above w = way length (1 + t^2), t = bend w / 2
            rest = off - way * self.length
            square = self.bend**2 / 4 * rest + self.bend * ahead / 2
            room = above * above - 4 * square * rest
            with np.errstate(divide="ignore", invalid="ignore"):
                root = -2 * rest / (above + sign(above) * np.sqrt(room))
            ends.append(np.where(np.isfinite(root), root, way * 1e3 * self.length))
        return np.minimum(*ends), np.maximum(*ends)

    def _start(self, place: LinkPlace, arm: Array, part: float) -> Array:
        """Return the die's place from the height at which the rod is carried, rod level."""
        fall = self.reach**2 - (place.x + self.lifting_pin - arm[..., 0]) ** 2
        fall = np.sqrt(np.maximum(fall, 0.0)) * (1.0 if self.hanging == "above" else -1.0)
        _, line_y = self.spindle.along
        ends = self.spindle.height + line_y * (place.x + self.length)
        high = (arm[..., 1] + fall - part * ends) / (1 - part)
        start = (high - place.y) / np.where(np.abs(place.c) < 0.3, 0.3, place.c)
        found: Array = np.where(np.isfinite(start), start, 0.0)
        return found
