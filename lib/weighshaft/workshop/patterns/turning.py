"""Tapers, coned treads, and balls turned by increments."""

from __future__ import annotations

import itertools
import math
from typing import Any

from ...findings import Suggestion
from ...sizes import SizeError
from ...working import Working
from ..dials import Dial, spaced
from ..machines import Machines
from . import relations
from .decisions import Patterns
from .engine import PROTOTYPE_CONING, Engine
from .results import Station

MOST = 800


def turned(
    patterns: Patterns, engine: Engine, machines: Machines
) -> tuple[dict[str, Any], list[Working], list[Suggestion]]:
    """Return set-overs and increments.

    Raises
    ------
    SizeError : when the ball would take too many increments.
    """
    taper, ball = patterns.taper, patterns.ball
    half = relations.half_angle.work(
        "Top slide set over for the taper", "deg", D=taper.large, d=taper.small, l=taper.length
    )
    exact = relations.set_over.work(
        "Tailstock set over", "mm", L=taper.between, alpha=math.radians(half.result)
    )
    usual = relations.set_over_usual.work(
        "Tailstock set over by the usual rule", "mm",
        L=taper.between, D=taper.large, d=taper.small, l=taper.length,
    )  # fmt: skip
    standard = PROTOTYPE_CONING if engine.coning is None else engine.coning
    coning = standard if taper.coning is None else taper.coning
    fall = relations.tread_fall.work(
        "Tread less at its outer edge", "mm", w=engine.tread, alpha=math.radians(coning)
    )
    end = relations.ball_end.work("Ball's end to the stem", "mm", R=ball.radius, s=ball.stem)
    depth = end.result if ball.stem > 0 else ball.radius
    if depth / ball.step > MOST:
        raise SizeError(
            f"Increment along the lathe: {ball.step:g} mm makes more than {MOST} increments; "
            f"{depth / MOST:.2g} mm or more would do.", "ball.step",
        )  # fmt: skip
    lathe = machines.lathe
    top = Dial(lathe.topslide, lathe.topslide_divisions)
    cross = Dial(lathe.cross_slide, lathe.cross_divisions)
    stations = []
    for z in spaced(0.0, depth, ball.step):
        x = relations.ball_radius(R=ball.radius, z=min(z, 2 * ball.radius))
        stations.append(Station(z, x, top.text(z), cross.text(x)))
    figures = {
        "half_angle": half.result, "one_in": taper.length / (taper.large - taper.small),
        "set_over": exact.result, "set_over_usual": usual.result, "coning": coning,
        "tread_fall": fall.result, "tread_width": engine.tread, "ball": ball.radius,
        "ball_end": depth, "ball_ridge": ridge([(one.z, one.x) for one in stations], ball.radius),
        "stations": tuple(stations),
    }  # fmt: skip
    why = "1 in 20" if engine.coning is None else "the wheel standard"
    return (
        figures,
        [half, exact, usual, fall, end],
        [Suggestion("patterns.taper.coning", standard, why)],
    )


def ridge(stations: list[tuple[float, float]], radius: float) -> float:
    """Return the most that steps leave standing outside a ball, mm.

    A tool whose corner cuts at each station leaves shoulders as wide as the next larger
    radius; the corner of each stands this far outside the ball.
    """
    most = 0.0
    for (z0, x0), (z1, x1) in itertools.pairwise(stations):
        corner = (z0, x1) if x1 >= x0 else (z1, x0)
        most = max(most, math.hypot(corner[0] - radius, corner[1]) - radius)
    return most
