"""The curved slot: where the cutter goes, what it leaves, and the same on a rotary table."""

from __future__ import annotations

import math

import numpy as np

from ..workshop.dials import angle_text
from ..workshop.slots import Slots, SlotsResult
from ..workshop.slots.decisions import EDGES, END_HOLE
from ..workshop.slots.results import CutterPath
from .scene import Arc, Array, Circle, Dimension, Label, Path, Picture, Primitive, Scene, Table

_SHOWN = 7
"""Places of the cutter that are drawn on a way."""
_FACETS = 41


def pictures(slots: Slots, result: SlotsResult) -> tuple[Picture, ...]:
    """Return the slot on the slide, the ridges, the rotary table, the waste, and the tables."""
    return (
        on_the_slide(slots, result), ridges(result), on_the_table(result), waste(result),
        *(coordinates(result, one) for one in result.paths), turning(result),
        marking_out(result), drilling(result),
    )  # fmt: skip


def round_arc(radius: float, low: float, high: float, lift: float) -> Array:
    """Return points of an arc about (0, lift − …), from the angle low to high (rad) from upright.

    Parameters
    ----------
    lift : how far the arc's centre lies below the origin, mm.
    """
    angles = np.linspace(low, high, _FACETS)
    return np.stack([radius * np.sin(angles), radius * np.cos(angles) - lift], axis=-1)


def slot_outline(result: SlotsResult, width: float) -> Array:
    """Return a band of a width about the slot's centre line with round ends, mm."""
    radius, half = result.radius, math.radians(result.angle) / 2
    outer = round_arc(radius + width / 2, -half, half, radius)
    inner = round_arc(radius - width / 2, half, -half, radius)
    ends = []
    for sign in (1.0, -1.0):
        x, y = sign * radius * math.sin(half), radius * (math.cos(half) - 1)
        turn = np.linspace(0, math.pi, 15)[1:-1]
        # from the outer flank round the end to the inner, or back
        from_up = (half + turn) if sign > 0 else (-half + math.pi + turn)
        ends.append(
            np.stack([x + width / 2 * np.sin(from_up), y + width / 2 * np.cos(from_up)], axis=-1)
        )
    return np.concatenate([outer, ends[0], inner, ends[1]])


def _ends(result: SlotsResult) -> tuple[float, float]:
    half = math.radians(result.angle) / 2
    return result.radius * math.sin(half), result.radius * (math.cos(half) - 1)


def on_the_slide(slots: Slots, result: SlotsResult) -> Scene:
    """Return the slot with the cutter at some of its places, chord, sagitta and the datum."""
    x, y = _ends(result)
    width = result.width
    link = width + 2 * max(result.wall, 0.2 * width)
    still: list[Primitive] = [
        Path(slot_outline(result, link), "outline", True, "metal", "link"),
        Path(slot_outline(result, width), "changed", True, "paper", "slot"),
        Path(np.array([[-x, y], [x, y]]), "centre"),
        Circle((-x, y), width / 2, "thin", part="end hole"),
        Circle((x, y), width / 2, "thin", part="end hole"),
    ]
    for one in result.paths:
        half = math.radians(one.half_angle)
        still.append(Path(round_arc(one.radius, -half, half, result.radius), "trace"))
        picked = np.unique(np.linspace(0, len(one.places) - 1, _SHOWN).round().astype(int))
        for n in picked:
            along = one.places[int(n)].along
            up = math.sqrt(one.radius**2 - along**2) - result.radius
            still.append(Circle((along, up), result.cutter / 2, "thin", part="slot drill"))
    low = y - link / 2
    still.append(Dimension((-x, low), (x, low), f"chord {result.chord:.3f}", -0.5 * width))
    still.append(Dimension((0.0, y), (0.0, 0.0), f"sagitta {result.sagitta:.3f}", -0.3 * width))
    origin = (-result.middle[0], -result.middle[1])
    if result.datum == END_HOLE:
        origin = (-x, y)
    if result.datum == EDGES:
        away = (x + link, origin[1])
        still += [
            Path(np.array([[origin[0], link], origin, away]), "outline", part="edges of the work")
        ]
    arm = 0.8 * width
    still += [
        Path(np.array([[origin[0] - arm, origin[1]], [origin[0] + arm, origin[1]]]), "crank"),
        Path(np.array([[origin[0], origin[1] - arm], [origin[0], origin[1] + arm]]), "crank"),
        Label("both dials at 0", (origin[0] - 1.2 * arm, origin[1] + 2.2 * arm), "middle", origin),
        Label(f"hollow side: centre {result.radius:.2f} mm below", (0.0, low - 1.6 * width)),
    ]
    return Scene(
        "The slot on the table",
        f"A slot drill of {result.cutter:.2f} mm in a slot of {result.width:.2f} mm at "
        f"{result.number} places; the end holes stand {result.chord:.3f} mm apart and the arc "
        f"rises {result.sagitta:.3f} mm between them. Zero is at the "
        f"{'middle of the slot' if slots.datum.startswith('middle') else slots.datum}.",
        tuple(still),
    )  # fmt: skip


def ridges(result: SlotsResult) -> Scene:
    """Return two neighbouring cuts, drawn as if five of their diameters apart were seen through a
    glass: the ridge is drawn with the step as large as a third of the cutter."""
    r = result.cutter / 2
    t = max(result.longest, 0.6 * r)
    top = r - math.sqrt(r * r - t * t / 4)
    places = [(n - 1) * t for n in range(3)]
    still: list[Primitive] = [
        Circle((x, 0.0), r, "changed" if n == 1 else "thin", part="slot drill")
        for n, x in enumerate(places)
    ]
    angles = np.linspace(-math.asin(t / 2 / r), math.asin(t / 2 / r), 15)
    for x in places:
        still += [
            Path(np.stack([x + r * np.sin(angles), sign * r * np.cos(angles)], axis=-1), "outline")
            for sign in (1, -1)
        ]
    ridge = (t / 2, r - top)
    still += [
        Dimension((0.0, -1.5 * r), (t, -1.5 * r), f"step {result.longest:.3f}", 0.0),
        Label(
            f"ridge {result.outer_cusp:.4f} mm", (t / 2 + 1.6 * r, 1.5 * r), "middle", ridge
        ),
        Label(
            f"ridge {result.inner_cusp:.4f} mm", (t / 2 + 1.6 * r, -1.15 * r), "middle",
            (t / 2, -(r - top)),
        ),
        Label("outer flank", (-1.9 * r, 1.2 * r)),
        Label("inner flank", (-1.9 * r, -1.2 * r)),
    ]  # fmt: skip
    drawn = "" if t <= result.longest + 1e-12 else " The steps are drawn wider than they are."
    return Scene(
        "What the steps leave",
        f"The longest step of {result.longest:.3f} mm leaves ridges of {result.outer_cusp:.4f} mm "
        f"in the outer flank and {result.inner_cusp:.4f} mm in the inner one.{drawn}",
        tuple(still), to_scale=not drawn,
    )  # fmt: skip


def on_the_table(result: SlotsResult) -> Scene:
    """Return the link on a rotary table, the arc's centre on the table's axis."""
    radius, half = result.radius, math.radians(result.angle) / 2
    width, link = result.width, result.width + 2 * max(result.wall, 0.2 * result.width)
    x, y = radius * math.sin(half), radius * math.cos(half)
    shift = np.array([0.0, radius])
    still: list[Primitive] = [
        Circle((0.0, 0.0), radius + link, "behind", part="rotary table"),
        Path(slot_outline(result, link) + shift, "outline", True, "metal", "link"),
        Path(slot_outline(result, width) + shift, "changed", True, "paper", "slot"),
        Path(np.array([[0.0, 0.0], [-x, y]]), "centre"),
        Path(np.array([[0.0, 0.0], [x, y]]), "centre"),
        Circle((-x, y), result.cutter / 2, "crank", part="slot drill"),
        Arc((0.0, 0.0), 0.45 * radius, 90 - result.angle / 2, 90 + result.angle / 2, "thin"),
        Label(angle_text(result.angle), (0.0, 0.5 * radius)),
        Dimension((0.0, 0.0), (x, y), f"{radius:.3f}", -0.08 * radius),
        Label("axis of the table", (0.0, -0.12 * radius)),
    ]
    one = result.paths[0]
    return Scene(
        "The same on a rotary table",
        f"The arc's centre stands on the table's axis and the cutter {radius:.3f} mm from it; from "
        f"end hole to end hole the table turns {angle_text(result.angle)}, {one.table_angle} of "
        "its handle.",
        tuple(still),
    )  # fmt: skip


def waste(result: SlotsResult) -> Scene:
    """Return the holes that take out the waste."""
    still: list[Primitive] = [
        Path(slot_outline(result, result.width), "outline", True, "paper", "slot")
    ]
    for n, one in enumerate(result.roughing):
        angle = math.radians(one.angle)
        at = (result.radius * math.sin(angle), result.radius * (math.cos(angle) - 1))
        pen = "changed" if n % 2 == 0 else "thin"
        still.append(Circle(at, one.diameter / 2, pen, "tint", "waste"))  # type: ignore[arg-type]
        still.append(Label(str(n + 1), at))
    left = "" if result.ridge is None else f", and leave ridges of {result.ridge:.2f} mm"
    return Scene(
        "Drilling out the waste",
        f"{result.drills} holes of {result.drill_name} stand {result.drill_chord:.3f} mm apart"
        f"{left}; the odd ones are drilled first.",
        tuple(still),
    )  # fmt: skip


def coordinates(result: SlotsResult, one: CutterPath) -> Table:
    """Return the places of the cutter along a way, with the dials."""
    rows: list[tuple[str | float, ...]] = []
    for n, place in enumerate(one.places):
        rows.append((str(n + 1), place.x, place.y, place.x_dial, place.y_dial, place.heed))
    return Table(
        f"Places of the cutter: {one.name}, {one.way}",
        ("no.", "x", "y", "dial x", "dial y", "heed"),
        tuple(rows),
        f"x along the chord to the right, y {result.y_way}, from the {_zero(result)}; dials: whole "
        f"turns from zero (t) and what the dial shows, {result.dial.says}.",
        fine=True,
    )


def _zero(result: SlotsResult) -> str:
    return {END_HOLE: "left end hole's centre", EDGES: "left and hollow edges"}.get(
        result.datum, "middle of the arc"
    )


def turning(result: SlotsResult) -> Table:
    """Return the set-overs and angles on a rotary table."""
    rows: list[tuple[str | float, ...]] = [
        (
            one.name, one.radius, one.table_dial, angle_text(2 * one.half_angle), one.table_angle,
        )
        for one in result.paths
    ]  # fmt: skip
    return Table(
        "On a rotary table",
        ("way", "from the table's axis", "slide's dial", "from end to end", "table's handle"),
        tuple(rows), "The slide's dial counts from the spindle standing over the table's axis.",
        fine=True,
    )  # fmt: skip


def marking_out(result: SlotsResult) -> Table:
    """Return ordinates over the chord, for marking out."""
    half, y = _ends(result)
    rows: list[tuple[str | float, ...]] = []
    for n in range(9):
        along = half * (n / 4 - 1)
        rows.append((along, math.sqrt(result.radius**2 - along**2) - result.radius - y))
    return Table(
        "Marking out: the centre line over its chord", ("from the middle", "over the chord"),
        tuple(rows), "Chord and sagitta with dividers and rule come first.", fine=True,
    )  # fmt: skip


def drilling(result: SlotsResult) -> Table:
    """Return the holes of the waste, and the end holes."""
    rows: list[tuple[str | float, ...]] = []
    for n, one in enumerate(result.roughing):
        end = n in (0, len(result.roughing) - 1)
        what = "end hole" if end else "waste"
        rows.append((str(n + 1), what, one.x, one.y, *one.dial, one.table))
    return Table(
        f"Holes to be drilled, {result.drill_name}",
        ("no.", "hole", "x", "y", "dial x", "dial y", "rotary table"), tuple(rows),
        f"Open the end holes to {result.width:.2f} mm with the slot drill.", fine=True,
    )  # fmt: skip
