"""The wheels with their balance weights, and what is left unbalanced against speed."""

from __future__ import annotations

import math

import numpy as np

from ..rods import Rods, RodsResult, Wheel
from .scene import (
    Array,
    Band,
    Chart,
    Circle,
    Curve,
    Label,
    Path,
    Picture,
    Primitive,
    Scene,
    Table,
    parted,
)


def balance_pictures(rods: Rods, result: RodsResult) -> tuple[Picture, ...]:
    """Return masses, wheels, weights, and forces against speed."""
    made: list[Picture] = [mass_table(result)]
    if rods.balance.fitted:
        made.append(wheels(rods, result))
        made += parted(weight_table(rods, result), 2, 9, "What the balance weights leave")
    return (*made, left_chart(result))


def wheels(rods: Rods, result: RodsResult) -> Scene:
    """Return the coupled wheels of both sides from outside, each crank on front dead centre."""
    layout = result.layout
    radius, (inside, outside) = layout.wheel, layout.ring
    still: list[Primitive] = []
    names = list(dict.fromkeys(one.axle for one in result.wheels))
    for wheel in result.wheels:
        right = wheel.side == "right"
        across = 2.5 * radius * names.index(wheel.axle)
        # the first axle is ahead: to the right from the right-hand side, to the left from the left
        centre = (-across, 0.0) if right else (across, -3.1 * radius)
        if not right:
            centre = (centre[0] - 2.5 * radius * (len(names) - 1), centre[1])
        still += _wheel(wheel, centre, radius, inside, outside, result)
    fitting = next((one for one in result.wheels if one.axle == "driving"), result.wheels[0])
    where = _where(fitting)
    return Scene(
        "Balance weights in the wheels",
        f"Right-hand wheels above, left-hand ones below, each side seen from outside with its own "
        f"crank on front dead centre, to scale: the driving wheels take pieces of ring of "
        f"{fitting.arc:.0f}° in {rods.balance.material}, {fitting.mass:.0f} g each, {where}.",
        tuple(still),
    )  # fmt: skip


def _wheel(
    wheel: Wheel,
    centre: tuple[float, float],
    radius: float,
    inside: float,
    outside: float,
    result: RodsResult,
) -> list[Primitive]:
    x, y = centre
    right = wheel.side == "right"
    slope = result.layout.slope
    crank = slope if right else 180 - slope
    turn = -1.0 if right else 1.0  # running forward, seen from that side
    middle = math.radians(crank + 180 + turn * wheel.angle)
    made: list[Primitive] = [
        Circle(centre, radius, "outline", "none", "wheel"),
        Circle(centre, 0.9 * radius, "thin", "none", "wheel"),
        Circle(centre, 0.16 * radius, "outline", "metal", "boss"),
    ]
    if wheel.arc > 0:
        half = math.radians(wheel.arc) / 2
        angles = np.linspace(middle - half, middle + half, 33)
        made.append(Path(_ring(centre, inside, outside, angles), "outline", True, "section",
                         "weight"))  # fmt: skip
    throw = result.layout.throw or 0.4 * radius
    at = math.radians(crank)
    pin = (x + throw * math.cos(at), y + throw * math.sin(at))
    made += [
        Path(np.array([centre, pin]), "crank", part="crank"),
        Circle(pin, max(result.layout.pin / 2, 0.04 * radius), "crank", "paper", "crankpin"),
        Label(f"{wheel.axle}, {wheel.side}: {wheel.mass:.0f} g", (x, y - 1.25 * radius), "middle"),
    ]
    return made


def _ring(centre: tuple[float, float], inside: float, outside: float, angles: Array) -> Array:
    way = np.stack([np.cos(angles), np.sin(angles)], axis=-1)
    points: Array = np.array(centre) + np.concatenate([outside * way, inside * way[::-1]])
    return points


def _where(wheel: Wheel) -> str:
    if abs(wheel.angle) < 0.5:
        return "opposite the crank"
    way = "in advance of" if wheel.angle > 0 else "behind"
    return f"{abs(wheel.angle):.0f}° {way} the place opposite the crank, running forward"


def _stands(wheel: Wheel) -> str:
    if abs(wheel.angle) < 0.5:
        return "opposite"
    return f"{abs(wheel.angle):.1f}° {'in advance' if wheel.angle > 0 else 'behind'}"


def weight_table(rods: Rods, result: RodsResult) -> Table:
    """Return the weight of every wheel."""
    rows = tuple(
        (
            one.axle, one.side, f"{one.turning:.0f}", f"{one.needed:.0f}", f"{one.made:.0f}",
            _stands(one), f"{one.arc:.0f}°", f"{one.mass:.1f} g", one.radius,
            f"{one.left:.0f}", f"{one.blow:.2g} N", f"{one.blow_top:.2g} N",
        )
        for one in result.wheels
    )  # fmt: skip
    return Table(
        "Balance weights",
        ("axle", "side", "turning", "wanted", "there", "stands", "arc", "weight", "radius",
         "left", "blow, running", "at greatest speed"),
        rows,
        "Mass times radius in g mm: for what turns, wanted in all, and given by the weight; it "
        "stands so far from opposite the wheel's own crank, running forward. The weight "
        "counts over and above the spokes that it covers; eccentrics and return cranks are left "
        f"out. {rods.balance.share:g} % of what goes to and fro is balanced, in "
        f"{rods.balance.axles}.",
    )  # fmt: skip


def mass_table(result: RodsResult) -> Table:
    """Return the masses of one side and whence they come."""
    masses = result.masses
    source = dict(masses.source)
    rows = tuple(
        (name, f"{value:.1f} g", source[name])
        for name, value in (
            ("piston, rod and crosshead", masses.pistons), ("small end", masses.small_end),
            ("big end", masses.big_end), ("coupling rods", masses.coupling),
        )
    )  # fmt: skip
    both = ("reciprocating, with the small end", f"{masses.reciprocating:.1f} g", "sum")
    return Table(
        "Masses of one side",
        ("part", "mass", "from"),
        (*rows, both),
        "A connecting rod is weighed with both ends level on pins, one of them on the scales.",
    )


def left_chart(result: RodsResult) -> Chart:
    """Return hammer blow and fore-and-aft force against speed."""
    rows = result.speeds
    low = result.running_speed
    bands: tuple[Band, ...] = ()
    if low is not None and low < result.top_speed:
        bands = (Band(low, result.top_speed, "running to greatest speed", "x"),)
    lift = "" if result.lift_speed is None else (
        f"; a wheel would leave the rail at {result.lift_speed:.0f} km/h"
    )  # fmt: skip
    return Chart(
        "What is left unbalanced",
        f"At {result.top_speed:.3g} km/h a wheel's load on the rail of {result.wheel_load:.1f} N "
        f"swings by {result.blow_top:.2g} N, and {result.shake_top:.2g} N shake the engine "
        f"along{lift}.",
        "speed, km/h", "greatest force, N",
        (
            Curve(rows[:, 0], rows[:, 3], "hammer blow of a wheel", "outline"),
            Curve(rows[:, 0], rows[:, 4], "along the engine", "changed"),
        ),
        bands,
    )  # fmt: skip
