"""Both sides of the engine: cranks, eccentrics and return cranks, keying, handed parts."""

from __future__ import annotations

import math

import numpy as np

from ..reversing import OnSide, ReversingResult
from .scene import Circle, Label, Path, Pen, Point, Primitive, Scene, Table


def both_sides(result: ReversingResult) -> Scene:
    """Return each side as seen from its own outside, the right crank on front dead centre."""
    sides = list(dict.fromkeys(one.side for one in result.sides))
    throw = next(one.radius for one in result.sides if one.part == "crank")
    reach = max(throw, *(1.5 * one.radius + 0.25 * throw for one in result.sides))
    # left views stand to the left, so that the cylinders point outwards
    sides.sort(key=lambda side: ("left" not in side, side))
    still: list[Primitive] = []
    for place, side in enumerate(sides):
        middle = (place * 4.6 * reach, 0.0)
        own = [one for one in result.sides if one.side == side]
        still += _view(own, middle, reach, throw)
    at = {one.side: one.at for one in result.sides if one.part == "crank"}
    words = ", ".join(f"{side} {angle:.0f}°" for side, angle in at.items())
    return Scene(
        "Both sides, each seen from its own outside",
        "Cranks and what is fast on the axle, the right crank on front dead centre; angles run "
        f"from the front in the sense of forward running: {words}. The left side is the right one "
        "in a mirror, turned on by the angle between the cranks.",
        tuple(still),
    )  # fmt: skip


def _view(own: list[OnSide], middle: Point, reach: float, throw: float) -> list[Primitive]:
    side = own[0].side
    front = -1.0 if "left" in side else 1.0

    def at(radius: float, angle: float) -> Point:
        turned = math.radians(angle)
        return (
            middle[0] + front * radius * math.cos(turned),
            middle[1] - radius * math.sin(turned),
        )

    x, y = middle
    made: list[Primitive] = [
        line("centre", "", (x - 1.5 * reach, y), (x + 1.5 * reach, y)),
        line("centre", "", (x, y - 1.4 * reach), (x, y + 1.4 * reach)),
        Circle(middle, throw, "centre"),
        Circle(middle, 0.22 * throw, "outline", "metal", "axle"),
        Label(f"{side} side, forward {'anti' if front < 0 else ''}clockwise",
              (x, y - 1.9 * reach), "middle"),
        Label("to the cylinder", (x + front * 1.5 * reach, y + 0.12 * reach),
              "start" if front > 0 else "end"),
    ]  # fmt: skip
    crank = next(one for one in own if one.part == "crank")
    for one in own:
        pin = at(one.radius, one.at)
        if one.part == "crank":
            made += [line("crank", "crank", middle, pin),
                     Circle(pin, 0.1 * throw, "crank", "paper", "crank")]  # fmt: skip
        elif "return" in one.part:
            made += [line("changed", "return crank", at(crank.radius, crank.at), pin),
                     Circle(pin, 0.08 * throw, "changed", "paper", "return crank")]  # fmt: skip
        else:
            pen: Pen = "behind" if "backward" in one.part else "outline"
            made += [line("thin", one.part, middle, pin),
                     Circle(pin, 1.25 * one.radius + 0.25 * throw, pen, part=one.part),
                     Circle(pin, 0.05 * throw, pen, "paper", one.part)]  # fmt: skip
    # names on the side where the pin stands, spread so that none covers another
    order = sorted(own, key=lambda one: at(one.radius, one.at)[1])
    levels = spread([at(1.4 * reach, one.at)[1] for one in order], 0.3 * reach)
    for one, level in zip(order, levels, strict=True):
        pin = at(one.radius, one.at)
        right = pin[0] > x + 0.01 * reach or (abs(pin[0] - x) <= 0.01 * reach and front > 0)
        # the line to the cylinder carries words of its own
        if abs(level - y) < 0.2 * reach:
            level = y + 0.35 * reach
        made.append(
            Label(f"{one.part} {one.at:.1f}°", (x + (1.15 if right else -1.15) * reach, level),
                  "start" if right else "end", pin)
        )  # fmt: skip
    return made


def side_table(result: ReversingResult) -> Table:
    """Return the angles at which everything on the axle is keyed, from one common mark."""
    rows = tuple(
        (one.side, one.part, one.radius, f"{_signed(one.leads)}", f"{one.at:.2f}°",
         f"{one.at:.2f}° {'anti' if 'left' in one.side else ''}clockwise")
        for one in result.sides
    )  # fmt: skip
    return Table(
        "Keying, the right crank on front dead centre",
        ("side", "part", "from the axle", "leads its crank", "seen from the right, clockwise",
         "seen from its own side"), rows,
        "Angles from the front; forward is clockwise seen from the right and anticlockwise seen "
        "from the left, and a left part is set from its crank as the right one from its own."
        + ("" if result.return_crank_length is None else
           f" Return crank between its pins' centres: {result.return_crank_length:.2f} mm on "
           "either side."),
    )  # fmt: skip


def handed_table(result: ReversingResult) -> Table:
    """Return which parts are a pair and which are alike."""
    return Table(
        "Right and left hand", ("part", "make", "why"),
        tuple((one.part, "a pair, mirrored" if one.handed else "alike", one.why)
              for one in result.handed),
    )  # fmt: skip


def _signed(angle: float) -> str:
    return "–" if angle == 0 else f"{angle:+.2f}°"


def spread(values: list[float], gap: float) -> list[float]:
    """Return values moved as little as need be so that neighbours stand `gap` apart."""
    order = np.argsort(values)
    placed = np.array(values, dtype=float)[order]
    for _ in range(200):
        near = np.diff(placed) < gap * (1 - 1e-9)
        if not near.any():
            break
        short = np.where(near, (gap - np.diff(placed)) / 2, 0.0)
        placed[:-1] -= 0.5 * short
        placed[1:] += 0.5 * short
    made = np.empty_like(placed)
    made[order] = placed
    return [float(one) for one in made]


def line(pen: Pen, part: str, start: Point, end: Point) -> Path:
    """Return a line of a part."""
    return Path(np.array([start, end], dtype=float), pen, part=part)
