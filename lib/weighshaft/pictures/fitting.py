"""Joints, glands and rings in section, to scale, with their sizes."""

from __future__ import annotations

import math

import numpy as np

from ..workshop.fitting import Fitting, FittingResult
from ..workshop.fitting.decisions import IN_PISTON
from . import fitting_manifold as manifold
from . import fitting_tables as tables
from .scene import (
    Arc,
    Array,
    Chart,
    Circle,
    Curve,
    Dimension,
    Fill,
    Label,
    Path,
    Pen,
    Picture,
    Primitive,
    Scene,
    box,
)


def pictures(fitting: Fitting, result: FittingResult) -> tuple[Picture, ...]:
    """Return the pieces in section, the gap over the heat, and the tables."""
    return (
        connector(fitting, result), tables.places(result), tables.skims(result),
        manifold.side(result), manifold.end(result), manifold.branches(result),
        manifold.rooms(result),
        soldered(fitting, result), gap_chart(fitting, result), tables.solders(fitting, result),
        o_ring(fitting, result), gland(result), rings(result), tables.sizes(result),
    )  # fmt: skip


def connector(fitting: Fitting, result: FittingResult) -> Scene:
    """Return the connector between its two ports, half in section."""
    piece = result.piece
    a, b = piece.fit.thread_a.major / 2, piece.fit.thread_b.major / 2
    ea, eb = piece.engaged
    wide = 1.35 * max(a, b)
    washer = fitting.pipe.washer
    end = washer + piece.body
    still: list[Primitive] = [
        Path(box(-piece.ports[0], a, 0.0, 2.2 * wide), "outline", True, "section", "port A"),
        Path(box(-piece.ports[0], -2.2 * wide, 0.0, -a), "outline", True, "section", "port A"),
        Path(
            box(piece.faces, b, piece.faces + piece.ports[1], 2.2 * wide), "outline", True,
            "section", "port B",
        ),
        Path(
            box(piece.faces, -2.2 * wide, piece.faces + piece.ports[1], -b), "outline", True,
            "section", "port B",
        ),
        Path(box(washer - ea, -a, washer, a), "changed", True, "metal", "end A"),
        Path(box(washer, -wide, end, wide), "changed", True, "metal", "body"),
        Path(box(end, -b, end + eb, b), "changed", True, "metal", "end B"),
        Path(np.array([[-piece.ports[0] - 2, 0.0], [piece.faces + piece.ports[1] + 2, 0.0]]),
             "centre"),
        Dimension((0.0, 2.2 * wide), (piece.faces, 2.2 * wide), f"faces {piece.faces:.2f}",
                  0.4 * wide),
        Dimension((washer, -wide), (end, -wide), f"body {piece.body:.2f}", -0.4 * wide),
        Dimension((washer - ea, -2.4 * wide), (end + eb, -2.4 * wide),
                  f"over all {piece.over_all:.2f}", -0.3 * wide),
    ]  # fmt: skip
    if washer:
        for x in (0.0, end):
            still += [
                Path(box(x, sign * a, x + washer, sign * wide), "outline", True, "tint", "washer")
                for sign in (1, -1)
            ]
    example = "" if piece.given else " The distance is an example: none is given in Threads."
    return Scene(
        "The connector between its ports",
        f"Faces {piece.faces:.2f} mm apart and {washer:.2f} mm under each shoulder ask for a body "
        f"of {piece.body:.2f} mm, {piece.over_all:.2f} mm over both ends; tap the ports "
        f"{piece.ports[0]:.1f} and {piece.ports[1]:.1f} mm deep or more.{example}",
        tuple(still),
    )


def soldered(fitting: Fitting, result: FittingResult) -> Scene:
    """Return the spigot in its bore cold, the gap drawn wider where it would not be seen."""
    joint, made = result.soldered, fitting.brazed
    r, long = made.spigot / 2, made.overlap
    drawn = max(joint.cold, 0.02 * made.spigot)
    wider = drawn > joint.cold + 1e-9
    out = r + drawn + max(made.wall, 0.15 * made.spigot)
    still: list[Primitive] = [
        Path(box(-long, -r, 0.6 * long, r), "outline", True, "section", "spigot"),
        Path(np.array([[-1.2 * long, 0.0], [0.8 * long, 0.0]]), "centre"),
    ]
    for sign in (1.0, -1.0):
        still += [
            Path(box(-long, sign * (r + drawn), 0.0, sign * out), "outline", True, "section",
                 "bore"),
            Path(box(-long, sign * r, 0.0, sign * (r + drawn)), "changed", True, "tint",
                 "solder"),
            Circle((0.15 * drawn, sign * (r + 0.5 * drawn)), 0.45 * drawn, "crank", part="wire"),
        ]  # fmt: skip
    still += [
        Dimension((-long, -out), (0.0, -out), f"{long:.1f}", -0.1 * made.spigot),
        Dimension((0.5 * long, -r), (0.5 * long, r), f"Ø {made.spigot:.3f}", -0.1 * made.spigot),
        Label(f"{made.outer}, bore {joint.best:.3f} mm", (-0.5 * long, out + 0.08 * made.spigot)),
        Label(made.inner, (-0.5 * long, 0.12 * made.spigot)),
        Label(
            f"{joint.wire:.0f} mm of {made.wire:.1f} mm wire as a ring",
            (-0.2 * long, out + 0.24 * made.spigot), "middle", (0.15 * drawn, r + 0.5 * drawn),
        ),
    ]  # fmt: skip
    seen = " The gap is drawn wider than it is." if wider else ""
    return Scene(
        "The soldered joint, cold",
        f"A bore of {joint.best:.3f} mm leaves {joint.cold:.3f} mm on each side cold and "
        f"{joint.hot:.3f} mm at {joint.heat:.0f} °C; {joint.bore[0]:.3f} to {joint.bore[1]:.3f} mm "
        f"will do.{seen}",
        tuple(still), to_scale=not wider,
    )  # fmt: skip


def gap_chart(fitting: Fitting, result: FittingResult) -> Chart:
    """Return the gap on each side over the heat, for the least, best and greatest bore."""
    joint, d = result.soldered, fitting.brazed.spigot
    heats = np.linspace(20.0, joint.heat, 40)
    gained = joint.gained * (heats - 20.0) / (joint.heat - 20.0)
    pens: tuple[tuple[str, float, Pen], ...] = (
        ("least bore", joint.bore[0], "thin"), ("bore chosen", joint.best, "changed"),
        ("greatest bore", joint.bore[1], "thin"),
    )  # fmt: skip
    curves = tuple(
        Curve(heats, 1000 * (bore - d + gained) / 2, label, pen) for label, bore, pen in pens
    )
    low, high = joint.alloy.gap
    return Chart(
        "Gap on each side as the joint gets hot",
        f"On a spigot of {d:.2f} mm the gap changes by {1000 * joint.gained / 2:+.0f} µm a side "
        f"until the solder runs at {joint.heat:.0f} °C, where {1000 * low:.0f} to "
        f"{1000 * high:.0f} µm are wanted.",
        "heat (°C)", "gap a side (µm)",
        (*curves, Curve(heats[-2:], np.full(2, 1000 * low), "from", "stop"),
         Curve(heats[-2:], np.full(2, 1000 * high), "to", "stop")),
    )  # fmt: skip


def o_ring(fitting: Fitting, result: FittingResult) -> Scene:
    """Return the groove with the ring in it, one side of the axis."""
    seal = result.sealed
    piston = fitting.o_ring.place == IN_PISTON
    w, h = seal.width, seal.depth
    gap = (seal.on - seal.other) / 2 if piston else (seal.other - seal.on) / 2
    # drawn with the sealed surface above, as a groove is seen in the part
    deep = h - gap
    part = np.array(
        [
            [-1.6 * w, -gap], [-w / 2, -gap], [-w / 2, -h], [w / 2, -h], [w / 2, -gap],
            [1.6 * w, -gap], [1.6 * w, -h - 0.8 * w], [-1.6 * w, -h - 0.8 * w],
        ]
    )  # fmt: skip
    still: list[Primitive] = [
        Path(part, "outline", True, "section", "grooved part"),
        Path(box(-1.6 * w, 0.0, 1.6 * w, 0.7 * w), "outline", True, "section", "sealed part"),
        Path(_squeezed(seal.section, h), "changed", True, "tint", "O-ring"),
        Circle((0.0, -h + seal.section / 2), seal.section / 2, "thin", part="O-ring free"),
        Dimension((-w / 2, -h), (w / 2, -h), f"width {w:.2f}", -0.35 * w),
        Dimension((1.3 * w, -h), (1.3 * w, 0.0), f"depth {h:.3f}", -0.15 * w),
        Label("bore" if piston else "rod", (-1.2 * w, 0.35 * w)),
        Label("piston" if piston else "gland", (-1.2 * w, -h - 0.4 * w)),
        Label(f"groove Ø {seal.groove_diameter:.3f} mm", (0.0, -h - 1.02 * w)),
    ]
    named = seal.ring.name if seal.ring else "no ring of the table"
    about = "stretched" if piston else "pressed in by"
    return Scene(
        "The O-ring in its groove",
        f"{named} of {seal.groove.section:.2f} mm section in a groove {seal.width:.2f} mm wide, "
        f"Ø {seal.groove_diameter:.3f} mm at the bottom: squeezed {seal.squeeze:.0f} %, {about} "
        f"{seal.stretch:.1f} %, the groove {seal.fill:.0f} % full; the groove itself is "
        f"{deep:.3f} mm deep in a part of Ø {seal.other:.3f} mm.",
        tuple(still),
    )


def _squeezed(section: float, depth: float) -> Array:
    """Return the ring's section between two walls, its area kept: a slot with round ends."""
    area = math.pi / 4 * section**2
    straight = max((area - math.pi / 4 * depth**2) / depth, 0.0)
    turn = np.linspace(-math.pi / 2, math.pi / 2, 21)
    right = np.stack(
        [straight / 2 + depth / 2 * np.cos(turn), -depth / 2 + depth / 2 * np.sin(turn)], axis=-1
    )
    return np.concatenate([right, np.stack([-right[::-1, 0], right[::-1, 1]], axis=-1)])


def gland(result: FittingResult) -> Scene:
    """Return the stuffing box in section along its rod."""
    packed = result.stuffed
    r, bore, s = packed.rod / 2, packed.box / 2, packed.yarn
    out = bore + max(s, 0.4 * packed.rod)
    flange = 0.6 * packed.rod
    still: list[Primitive] = [
        Path(box(-packed.rod, -r, packed.depth + 2.5 * packed.rod, r), "outline", True, "metal",
             "rod"),
        Path(np.array([[-1.4 * packed.rod, 0.0], [packed.depth + 3 * packed.rod, 0.0]]),
             "centre"),
    ]  # fmt: skip
    for sign in (1.0, -1.0):
        still.append(
            Path(
                np.array(
                    [
                        [-0.7 * packed.rod, sign * (r + 0.05)], [0.0, sign * (r + 0.05)],
                        [0.0, sign * bore], [packed.depth, sign * bore],
                        [packed.depth, sign * out], [-0.7 * packed.rod, sign * out],
                    ]
                ),
                "outline", True, "section", "stuffing box",
            )
        )  # fmt: skip
        for n in range(packed.rings):
            still.append(
                Path(
                    box(n * s, sign * r, (n + 1) * s, sign * bore),
                    "changed",
                    True,
                    "tint",
                    "packing",
                )
            )
        nose = np.array(
            [
                [packed.packing, sign * (r + 0.05)], [packed.depth + flange, sign * (r + 0.05)],
                [packed.depth + flange, sign * out], [packed.depth + 0.5 * s, sign * out],
                [packed.depth + 0.5 * s, sign * (bore - 0.05)],
                [packed.packing, sign * (bore - 0.05)],
            ]
        )  # fmt: skip
        still.append(Path(nose, "outline", True, "metal", "gland"))
    still += [
        Dimension((0.0, -out), (packed.depth, -out), f"depth {packed.depth:.2f}",
                  -0.3 * packed.rod),
        Dimension((-0.4 * packed.rod, -bore), (-0.4 * packed.rod, bore), f"Ø {packed.box:.2f}",
                  0.7 * packed.rod),
        Label(f"{packed.rings} rings of {s:.2f} mm", (packed.packing / 2, out + 0.35 * packed.rod),
              "middle", (s / 2, bore - s / 3)),
    ]  # fmt: skip
    room = "" if packed.room is None else f"; the cylinder has {packed.room:.1f} mm for both"
    return Scene(
        "The packed gland",
        f"Round a rod of {packed.rod:.2f} mm a box of Ø {packed.box:.2f} mm takes {packed.rings} "
        f"rings of {s:.2f} mm, each cut {packed.cut:.1f} mm long, and a nose of "
        f"{packed.nose:.2f} mm{room}.",
        tuple(still),
    )


def rings(result: FittingResult) -> Scene:
    """Return a ring free and, beside it, closed in its bore."""
    ring = result.ringed
    r, t = ring.bore / 2, ring.radial
    apart = 2.6 * ring.bore / 2 + r
    free = ring.turned / 2
    still: list[Primitive] = []
    for x, outer, gap, pen in ((0.0, free, ring.free, "changed"), (apart, r, ring.closed[0],
                                                                    "outline")):  # fmt: skip
        half = math.degrees(gap / 2 / outer)
        for radius in (outer, outer - t):
            still.append(Arc((x, 0.0), radius, 90 + half, 450 - half, pen, "ring"))  # type: ignore[arg-type]
        for sign in (1, -1):
            a = math.radians(90 + sign * half)
            still.append(
                Path(
                    np.array([[x + q * math.cos(a), q * math.sin(a)] for q in (outer - t, outer)]),
                    pen, part="ring",  # type: ignore[arg-type]
                )
            )  # fmt: skip
    wall: Fill = "none"
    still += [
        Circle((apart, 0.0), r, "thin", wall, "bore"),
        Label(f"free: gap {ring.free:.2f} mm", (0.0, 1.25 * free)),
        Label(f"in the bore: gap {ring.closed[0]:.3f} to {ring.closed[1]:.3f} mm",
              (apart, 1.25 * free)),
        Dimension((0.0, -free), (0.0, -free + t), f"{t:.3f}", 0.0),
        Dimension((apart - r, -1.25 * r), (apart + r, -1.25 * r), f"Ø {ring.bore:.2f}", -0.1 * r),
    ]  # fmt: skip
    return Scene(
        "An iron ring, free and in its bore",
        f"{t:.3f} mm deep and {ring.width:.2f} mm wide: sprung to a gap of {ring.free:.2f} mm it "
        f"presses evenly and is bent to {ring.stress:.0f} N/mm² in the bore, {ring.opening:.0f} "
        f"when spread over the piston. The book's 3.5 to 4 depths, {ring.book[0]:.2f} to "
        f"{ring.book[1]:.2f} mm, would press with {ring.book_pressure:.3f} N/mm².",
        tuple(still),
    )
