"""Holes, ports and passages as they are set out on the machine."""

from __future__ import annotations

import math

import numpy as np

from ..workshop.dials import angle_text
from ..workshop.patterns import Patterns, PatternsResult
from . import patterns_turning
from .scene import (
    Arc,
    Array,
    Circle,
    Dimension,
    Label,
    Path,
    Picture,
    Primitive,
    Scene,
    Table,
    box,
)

_TURNS = "Dials: whole turns from zero (t) and what the dial shows."


def pictures(patterns: Patterns, result: PatternsResult) -> tuple[Picture, ...]:
    """Return circle, face and passages, with their tables, then what is done on the lathe."""
    made: list[Picture] = [on_circle(result), circle_table(result)]
    if result.passages:
        made += [passage(result), passage_table(result)]
    if result.cuts:
        made += [face(result), cut_table(result), stud_table(result)]
    return (*made, line_table(result), *patterns_turning.pictures(patterns, result))


def _cross(x: float, y: float, arm: float) -> tuple[Path, Path]:
    return (
        Path(np.array([[x - arm, y], [x + arm, y]]), "centre"),
        Path(np.array([[x, y - arm], [x, y + arm]]), "centre"),
    )


def on_circle(result: PatternsResult) -> Scene:
    """Return the end of the cylinder with the holes of the cover and the passages."""
    rim = result.circle / 2 + 1.6 * result.hole
    still: list[Primitive] = [
        Circle((0.0, 0.0), rim, "outline", "metal", "cover"),
        Circle((0.0, 0.0), result.circle / 2, "centre"),
    ]
    if result.bore < result.circle:
        still.append(Circle((0.0, 0.0), result.bore / 2, "outline", "paper", "bore"))
    for one in result.passages:
        top = result.port_floor if result.port_floor is not None else one.begins
        still.append(
            Path(np.array([[one.across, one.begins], [one.across, top]]), "hidden", part="passage")
        )
    for n, spot in enumerate(result.spots):
        still.append(Circle((spot.x, spot.y), result.hole / 2, "changed", "paper", "hole"))
        out = 1 + 2.6 * result.hole / result.circle
        still.append(Label(str(n + 1), (spot.x * out, spot.y * out)))
    still += _cross(0.0, 0.0, 1.1 * rim)
    first = result.spots[0]
    still += [
        Path(np.array([[0.0, 0.0], [first.x, first.y]]), "crank"),
        Arc((0.0, 0.0), 0.35 * rim, 0.0, result.start % 360 or 0.01, "crank"),
        Label(angle_text(result.start), (0.5 * rim, -0.08 * rim)),
        Dimension(
            (result.spots[0].x, result.spots[0].y),
            (result.spots[1].x, result.spots[1].y),
            f"{result.hole_chord:.3f}",
            -2.4 * result.hole,
        ),
    ]
    metal = ""
    if result.metal is not None:
        metal = f" {result.metal:.2f} mm of metal is left beside the steam passages."
    return Scene(
        "Holes on the circle",
        f"{result.holes} holes of {result.hole:.2f} mm on a circle of {result.circle:.2f} mm, the "
        f"first {result.start:.2f} degrees round from the right; neighbours stand "
        f"{result.hole_chord:.3f} mm apart.{metal}",
        tuple(still),
    )  # fmt: skip


def circle_table(result: PatternsResult) -> Table:
    """Return the coordinates of the circle's holes."""
    return Table(
        "Holes on the circle: coordinates from its middle", ("no.", "angle", "x", "y", "dial x",
                                                             "dial y"),
        tuple(
            (str(n + 1), angle_text(one.angle), one.x, one.y, *one.dial)
            for n, one in enumerate(result.spots)
        ),
        f"x to the right, y up towards the port face. {_TURNS}",
        fine=True,
    )  # fmt: skip


def line_table(result: PatternsResult) -> Table:
    """Return the holes of a line."""
    return Table(
        "Holes in a line: coordinates from the edge", ("no.", "x", "y", "dial x", "dial y"),
        tuple((str(n + 1), one.x, one.y, *one.dial) for n, one in enumerate(result.line)),
        f"A pitch of {result.line_pitch:.3f} mm. {_TURNS}",
        fine=True,
    )  # fmt: skip


def _slant(result: PatternsResult, tilt: float) -> tuple[list[Primitive], Array]:
    """Return the end of a cylinder in section with its middle passage, tilted, and the axis."""
    assert result.port_floor is not None
    assert result.face_height is not None
    assert result.passage_begins is not None
    main = result.passages[len(result.passages) // 2]
    half, bore = result.barrel / 2, result.bore / 2
    port = half - result.passage_begins - main.length * math.cos(math.radians(main.tilt))
    a = math.radians(tilt)

    def turned(points: Array) -> Array:
        c, s = math.cos(a), math.sin(a)
        return np.stack(
            [points[:, 0] * c - points[:, 1] * s, points[:, 0] * s + points[:, 1] * c], axis=-1
        )

    start = np.array([half - result.passage_begins, main.begins])
    way = np.array([start, [port, result.port_floor]])
    width = result.port_cutter or 1.0
    top, floor = result.face_height, result.port_floor
    wall = np.array(
        [
            [0.0, bore], [half, bore], [half, top], [port + width / 2, top],
            [port + width / 2, floor], [port - width / 2, floor], [port - width / 2, top],
            [0.0, top],
        ]
    )  # fmt: skip
    foot = box(0.0, -1.35 * bore, half, -bore)
    still: list[Primitive] = [
        Path(turned(wall), "outline", True, "section", "cylinder"),
        Path(turned(foot), "outline", True, "section", "cylinder"),
        Path(turned(np.array([[0.0, 0.0], [1.1 * half, 0.0]])), "centre"),
    ]
    return still, turned(way)


def passage(result: PatternsResult) -> Scene:
    """Return the cylinder tilted so that the drill comes down along the passage."""
    main = result.passages[len(result.passages) // 2]
    still, way = _slant(result, 90 + main.tilt)
    start, end = way
    down = (end - start) / max(float(np.hypot(*(end - start))), 1e-9)
    back = start - down * 0.9 * main.length
    side = np.array([-down[1], down[0]]) * (result.hole / 2)
    drill = np.array([back + side, end + side, end - side, back - side])
    still += [
        Path(drill, "changed", True, "tint", "drill"),
        Path(np.array([back, end]), "centre"),
        Dimension(
            (float(start[0]), float(start[1])),
            (float(end[0]), float(end[1])),
            f"{main.length:.2f}",
            3 * result.hole,
        ),
        Label(
            f"work tilted {angle_text(main.tilt)}",
            (float(back[0] + 0.6 * main.length), float(back[1])),
            "start",
        ),
    ]
    return Scene(
        "A passage at a slant under the drill",
        f"The cylinder stands on end and is tilted by {main.tilt:.2f} degrees, so that the drill "
        f"goes straight down from the bore's edge to the port's floor: {main.length:.2f} mm, and "
        f"{main.depth:.2f} mm with its point.",
        tuple(still),
    )  # fmt: skip


def passage_table(result: PatternsResult) -> Table:
    """Return the passages of one end."""
    return Table(
        "Passages of one end",
        ("hole", "across", "cross-slide", "begins above the axis", "tilt", "length", "with point",
         "or round the bore"),
        tuple(
            (str(n + 1), one.across, one.dial, one.begins, angle_text(one.tilt), one.length,
             one.depth, angle_text(one.roll))
            for n, one in enumerate(result.passages)
        ),
        "Each hole begins at the bore's edge, so the outer ones stand steeper; the dividing head "
        "may bring each edge uppermost instead.",
        fine=True,
    )  # fmt: skip


def face(result: PatternsResult) -> Scene:
    """Return the port face with the cutters in their passes, and the studs round it."""
    assert result.chest is not None
    length, width, wall, stud = result.chest
    outer = box(-length / 2 - wall, -width / 2 - wall, length / 2 + wall, width / 2 + wall)
    inner = box(-length / 2, -width / 2, length / 2, width / 2)
    still: list[Primitive] = [
        Path(outer, "outline", True, "metal", "port face"),
        Path(inner, "hidden", True, part="chest"),
    ]
    for cut in result.cuts:
        r = cut.cutter / 2
        turn = np.radians(np.linspace(0, 180, 19))
        outline = np.concatenate(
            [
                np.stack([cut.x + r * np.cos(turn), cut.reach + r * np.sin(turn)], axis=-1),
                np.stack([cut.x - r * np.cos(turn), -cut.reach - r * np.sin(turn)], axis=-1),
            ]
        )
        still.append(Path(outline, "changed", True, "paper", cut.port))
        still.append(Path(np.array([[cut.x, -cut.reach], [cut.x, cut.reach]]), "trace"))
    for spot in result.studs:
        still.append(Circle((spot.x, spot.y), stud / 2, "outline", "paper", "stud"))
    still += _cross(0.0, 0.0, width / 2 + 1.3 * wall)
    ports = sorted({cut.port: cut for cut in result.cuts}.values(), key=lambda one: one.x)
    low = -width / 2 - 1.6 * wall
    still.append(
        Dimension((ports[0].x, low), (ports[-1].x, low), f"{ports[-1].x - ports[0].x:.3f}", 0.0)
    )
    return Scene(
        "Ports as milled, and the studs of the chest",
        f"{len(result.cuts)} passes: the steam ports with a cutter of {result.port_cutter:.2f} mm, "
        f"the exhaust port with {result.exhaust_cutter:.2f} mm; {len(result.studs)} studs stand "
        f"{result.chest_along:.2f} mm apart along the chest and {result.chest_across:.2f} mm "
        "across it.",
        tuple(still),
    )  # fmt: skip


def cut_table(result: PatternsResult) -> Table:
    """Return the passes of the cutters."""
    return Table(
        "Passes of the cutter in the ports",
        ("port", "cutter", "x", "feed from", "feed to", "dial x", "dial from", "dial to"),
        tuple(
            (cut.port, cut.cutter, cut.x, -cut.reach, cut.reach, *cut.dial) for cut in result.cuts
        ),
        f"x ahead along the cylinder from the middle of the face, {result.port_depth:.2f} mm deep; "
        f"plunge, then feed. {_TURNS}",
        fine=True,
    )  # fmt: skip


def stud_table(result: PatternsResult) -> Table:
    """Return the studs round the chest."""
    return Table(
        "Studs of the chest: coordinates from the middle of the face",
        ("no.", "x", "y", "dial x", "dial y"),
        tuple((str(n + 1), one.x, one.y, *one.dial) for n, one in enumerate(result.studs)),
        _TURNS, fine=True,
    )  # fmt: skip
