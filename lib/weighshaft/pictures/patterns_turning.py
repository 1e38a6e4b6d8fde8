"""Tapers, coned treads and balls on the lathe."""

from __future__ import annotations

import math

import numpy as np

from ..workshop.dials import angle_text
from ..workshop.patterns import Patterns, PatternsResult
from .scene import Circle, Dimension, Label, Path, Picture, Primitive, Scene, Table, box


def pictures(patterns: Patterns, result: PatternsResult) -> tuple[Picture, ...]:
    """Return the taper between centres, the tread, the ball, and their tables."""
    return (
        taper(patterns, result), tread(result), ball(patterns, result), set_overs(result),
        stations(result),
    )  # fmt: skip


def taper(patterns: Patterns, result: PatternsResult) -> Scene:
    """Return the work between centres with the tailstock set over, seen from above."""
    sizes = patterns.taper
    long, big, small = sizes.between, sizes.large / 2, sizes.small / 2
    length = min(sizes.length, long)
    a = math.radians(result.half_angle)
    c, s = math.cos(a), math.sin(a)

    def at(x: float, y: float) -> tuple[float, float]:
        # the work turns about its headstock centre; its near side becomes parallel to the bed
        return x * c - y * s, x * s + y * c

    outline = np.array(
        [at(0.0, -big), at(long - length, -big), at(long, -small), at(long, small),
         at(long - length, big), at(0.0, big)]
    )  # fmt: skip
    end = at(long, 0.0)
    over = 2.2 * big
    still: list[Primitive] = [
        Path(outline, "outline", True, "metal", "work"),
        Path(np.array([[-0.1 * long, 0.0], [1.1 * long, 0.0]]), "centre"),
        Path(np.array([[0.0, 0.0], end]), "centre"),
        Path(
            np.array([[-0.12 * long, 0.5 * big], [0.0, 0.0], [-0.12 * long, -0.5 * big]]),
            "outline",
            part="headstock centre",
        ),
        Path(
            np.array(
                [
                    [end[0] + 0.12 * long, end[1] + 0.5 * big],
                    end,
                    [end[0] + 0.12 * long, end[1] - 0.5 * big],
                ]
            ),
            "changed",
            part="tailstock centre",
        ),
        Dimension(
            (1.12 * long, 0.0), (1.12 * long, end[1]), f"{result.set_over:.3f}", -0.05 * long
        ),
        Path(np.array([[long - length, -over], [long, -over]]), "trace", part="tool's way"),
        Label("tool's way", (long - length / 2, -over - 0.6 * big)),
    ]
    return Scene(
        "A taper between centres",
        f"From {sizes.large:.2f} to {sizes.small:.2f} mm in {sizes.length:.2f} mm: the tailstock "
        f"is set over by {result.set_over:.3f} mm for work of {long:.2f} mm, or the top slide by "
        f"{result.half_angle:.3f} degrees.",
        tuple(still),
    )  # fmt: skip


def tread(result: PatternsResult) -> Scene:
    """Return the tread of a wheel in section with the top slide's angle."""
    wide, fall = result.tread_width, result.tread_fall / 2
    high = 0.8 * wide
    rim = np.array([[0.0, -high], [wide, -high], [wide, -fall], [0.0, 0.0]])
    flange = box(-0.45 * wide, -high, 0.0, 0.4 * wide)
    a = math.radians(result.coning)
    reach = 1.3 * wide
    still: list[Primitive] = [
        Path(flange, "outline", True, "section", "flange"),
        Path(rim, "outline", True, "section", "tread"),
        Path(np.array([[0.0, 0.0], [reach, 0.0]]), "centre"),
        Path(np.array([[0.0, 0.0], [reach * math.cos(a), -reach * math.sin(a)]]), "trace"),
        Label(
            f"top slide {angle_text(result.coning)}",
            (1.3 * wide, 0.25 * wide),
            "middle",
            (1.15 * wide, -0.5 * wide * math.tan(a)),
        ),
        Dimension((0.0, -1.1 * high), (wide, -1.1 * high), f"{wide:.2f}", 0.0),
    ]
    return Scene(
        "Coning the tread",
        f"The top slide stands at {result.coning:.2f} degrees to the axle; over a tread of "
        f"{wide:.2f} mm the diameter falls by {result.tread_fall:.3f} mm.",
        tuple(still),
    )  # fmt: skip


def ball(patterns: Patterns, result: PatternsResult) -> Scene:
    """Return the ball with the steps that the increments leave, seen from above."""
    radius, stem = result.ball, patterns.ball.stem / 2
    angles = np.linspace(0, 2 * math.pi, 121)
    still: list[Primitive] = [
        Path(
            np.stack([radius + radius * np.cos(angles), radius * np.sin(angles)], axis=-1), "thin"
        ),
        Path(np.array([[-0.3 * radius, 0.0], [3.2 * radius, 0.0]]), "centre"),
    ]
    steps = []
    for one, two in zip(result.stations, result.stations[1:], strict=False):
        most = max(one.x, two.x)
        steps += [[one.z, most], [two.z, most]]
    upper = np.array(steps)
    still += [
        Path(upper, "changed", part="steps"),
        Path(upper * [1, -1], "changed", part="steps"),
    ]
    if stem > 0:
        still += [
            Path(box(result.ball_end, -stem, 3 * radius, stem), "outline", True, "metal", "stem")
        ]
    still.append(Circle((radius, 0.0), 0.03 * radius, "thin"))
    still.append(
        Dimension((0.0, -1.3 * radius), (result.ball_end, -1.3 * radius), f"{result.ball_end:.3f}",
                  0.0)
    )  # fmt: skip
    return Scene(
        "A ball by increments",
        f"A ball of {2 * radius:.2f} mm in {len(result.stations) - 1} increments of "
        f"{patterns.ball.step:g} mm: the steps stand {result.ball_ridge:.3f} mm outside it at most "
        f"and are filed off; the stem begins {result.ball_end:.3f} mm from the end.",
        tuple(still),
    )  # fmt: skip


def set_overs(result: PatternsResult) -> Table:
    """Return the set-overs of top slide and tailstock."""
    return Table(
        "Set-overs for tapers", ("", "size"),
        (
            ("top slide, for the taper", angle_text(result.half_angle)),
            ("taper on the diameter", f"1 in {result.one_in:.3f}"),
            ("tailstock", result.set_over),
            ("tailstock by the usual rule", result.set_over_usual),
            ("top slide, for the tread", angle_text(result.coning)),
            ("tread less at its outer edge, on the diameter", result.tread_fall),
        ),
        "The top slide is set by a dial gauge along a bar: its protractor is not fine enough.",
        fine=True,
    )  # fmt: skip


def stations(result: PatternsResult) -> Table:
    """Return the increments of the ball."""
    return Table(
        "Ball or radius: places on its outline",
        ("no.", "from the end, z", "radius x", "diameter", "dial z", "dial x"),
        tuple(
            (str(n + 1), one.z, one.x, 2 * one.x, one.top_dial, one.cross_dial)
            for n, one in enumerate(result.stations)
        ),
        "Between two places go no deeper than the larger of their radii. The dial of the "
        "cross-slide counts from the lathe's axis.",
        fine=True,
    )  # fmt: skip
