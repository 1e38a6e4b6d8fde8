"""The coupling rod and its section, whip against speed, and the force on the slide bars."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from ..rods import Rods, RodsResult, Span
from .rods_balance import balance_pictures
from .scene import (
    Band,
    Chart,
    Circle,
    Curve,
    Dimension,
    Label,
    Path,
    Picture,
    Primitive,
    Scene,
    Table,
    box,
    parted,
)


def pictures(rods: Rods, result: RodsResult) -> tuple[Picture, ...]:
    """Return coupling rod, sections, whip, slide bars, their tables, and the balance."""
    made: list[Picture] = []
    if result.spans:
        made.append(coupling_rod(result))
    if result.spans or result.connecting is not None:
        made += [sections(rods, result), whip(result)]
        made += parted(strength_table(result), 1, 7, "What the rods are stressed to")
    if result.stretches:
        made.append(centres_table(result))
    if len(result.bars):
        made.append(slide_bars(result))
    return (*made, *balance_pictures(rods, result))


def coupling_rod(result: RodsResult) -> Scene:
    """Return the rods of one side seen from the right, their cranks on front dead centre."""
    layout, depth = result.layout, result.spans[0].depth
    places, half, eye = layout.places, depth / 2, layout.eye / 2
    still: list[Primitive] = []
    for front, back in pairwise(places):
        inner, outer = back + 0.8 * eye, front - 0.8 * eye
        if outer <= inner:
            continue
        still.append(Path(box(inner, -half, outer, half), "outline", True, "metal", "rod"))
        flute, high = layout.flute
        if flute and outer - inner > 3 * eye:
            still.append(
                Path(box(inner + eye, -high / 2, outer - eye, high / 2), "thin", True,
                     "none", "flute")
            )  # fmt: skip
    for place in layout.knuckles:
        still += [
            Circle((place, 0.0), max(1.1 * half, 0.8 * layout.knuckle_pin), "outline", "metal",
                   "knuckle"),
            Circle((place, 0.0), layout.knuckle_pin / 2, "outline", "paper", "knuckle"),
        ]  # fmt: skip
    for n, place in enumerate(places):
        still += [
            Circle((place, 0.0), eye, "outline", "metal", "eye"),
            Circle((place, 0.0), layout.pin / 2, "outline", "paper", "crankpin"),
        ]
        if n == layout.driven:
            still.append(Label("driving", (place, 2.6 * eye), "middle", (place, 1.02 * eye)))
    still.append(Path(np.array([[places[-1] - 2 * eye, 0], [places[0] + 2 * eye, 0]]), "centre"))
    low = -eye - 0.25 * max(eye, 0.04 * (places[0] - places[-1]))
    for front, back in pairwise(places):
        still.append(Dimension((back, low), (front, low), f"{front - back:.2f}", -1.2 * eye))
    for place in layout.knuckles:
        near = min(places, key=lambda one: abs(one - place))
        ends = sorted((near, place))
        still.append(
            Dimension((ends[0], eye), (ends[1], eye), f"{abs(place - near):.2f}", 0.8 * eye)
        )
    long = ", ".join(f"{one.length:.2f}" for one in result.spans)
    joint = ""
    if layout.knuckles:
        joint = f", jointed on knuckle pins of {layout.knuckle_pin:.2f} mm"
    return Scene(
        "Coupling rods of one side",
        f"Seen from the right-hand side, front to the right, to scale: {long} mm between centres, "
        f"{depth:.2f} mm deep with eyes of {layout.eye:.2f} mm on crankpins of "
        f"{layout.pin:.2f} mm{joint}.",
        tuple(still),
    )  # fmt: skip


def sections(rods: Rods, result: RodsResult) -> Scene:
    """Return the rods cut across, beside one another."""
    still: list[Primitive] = []
    x, told = 0.0, []
    shown = [*result.spans[:1]] + ([result.connecting] if result.connecting else [])
    deep = max(one.depth for one in shown)
    for n, span in enumerate(shown):
        coupling = bool(result.spans) and n == 0
        flute, high = result.layout.flute if coupling else (0.0, 0.0)
        b, h = span.thickness / 2, span.depth / 2
        name = "coupling rod" if coupling else "connecting rod"
        corners = [(-b, -h), (b, -h), (b, h), (-b, h)]
        if flute:
            web, edge = b - flute, high / 2
            corners = [(-b, -h), (b, -h), (b, -edge), (web, -edge), (web, edge), (b, edge),
                       (b, h), (-b, h), (-b, edge), (-web, edge), (-web, -edge),
                       (-b, -edge)]  # fmt: skip
        centre = x + b
        points = np.array(corners) + np.array([centre, 0.0])
        still += [
            Path(points, "outline", True, "section", name),
            Path(np.array([[centre, -1.3 * h], [centre, 1.3 * h]]), "centre"),
            Label(name, (centre, -0.85 * deep), "middle"),
            Dimension((centre - b, h), (centre + b, h), f"{span.thickness:.2f}", 0.5 * h),
            Dimension((centre - b, -h), (centre - b, h), f"{span.depth:.2f}", 0.6 * h),
        ]
        told.append(f"{name} {span.depth:.2f} by {span.thickness:.2f} mm, {span.area:.1f} mm²")
        x = centre + b + 1.4 * deep
    return Scene(
        "Sections of the rods",
        f"Cut across midway, to scale, of {rods.coupling.material}: {'; '.join(told)}.",
        tuple(still),
    )


def whip(result: RodsResult) -> Chart:
    """Return the stress that whip makes, against speed."""
    rows = result.speeds
    curves = []
    if result.spans:
        curves.append(Curve(rows[:, 0], rows[:, 1], "coupling rod", "outline"))
    if result.connecting is not None:
        curves.append(Curve(rows[:, 0], rows[:, 2], "connecting rod", "changed"))
    worst = max((one.whip_top for one in result.spans), default=0.0)
    rod = "" if result.connecting is None else (
        f", of the connecting rod {result.connecting.whip_top:.2g}"
    )  # fmt: skip
    return Chart(
        "Whip of the rods",
        f"Bending stress by whip grows with the square of the speed: at {result.top_speed:.3g} "
        f"km/h, {result.turns:.0f} turns a minute, that of the coupling rod is {worst:.2g}{rod} "
        "N/mm².",
        "speed, km/h", "bending stress, N/mm²", tuple(curves), _speeds(result),
    )  # fmt: skip


def _speeds(result: RodsResult) -> tuple[Band, ...]:
    low = result.running_speed
    if low is None or low >= result.top_speed:
        return ()
    return (Band(low, result.top_speed, "running to greatest speed", "x"),)


def slide_bars(result: RodsResult) -> Chart:
    """Return the crosshead's force square to its bars around the turn, running forward."""
    rows = result.bars
    still, running = rows[:, 1], rows[:, 2]
    curves = [Curve(rows[:, 0], still, "standing start", "thin")]
    if result.running_speed is not None:
        curves.append(Curve(rows[:, 0], running, "running", "outline"))
    upper, lower = float(running.max()), float(-running.min())
    where = "the lower bar bears its weight alone" if lower < 0.2 * upper else (
        f"the lower bar bears up to {lower:.1f} N"
    )  # fmt: skip
    return Chart(
        "Force of the crosshead on its slide bars",
        f"Running forward under full pressure the crosshead presses the upper bar with up to "
        f"{upper:.1f} N, at {result.bar_angle or 0.0:.0f}° from front dead centre; {where}. "
        "Running backward the bars change over.",
        "crank angle from front dead centre, °", "force on the bars, N, up positive",
        tuple(curves), follows=(0,),
    )  # fmt: skip


def strength_table(result: RodsResult) -> Table:
    """Return what every rod bears and stands."""
    spans: list[Span] = [*result.spans]
    if result.connecting is not None:
        spans.append(result.connecting)
    rows = tuple(
        (
            one.name.replace(" rod ", ", "), one.length, f"{one.load:.0f} N",
            f"{one.euler_upright:.0f} N", f"{one.euler_sideways:.0f} N", f"{one.rankine:.0f} N",
            f"{one.buckling:.1f}", f"{one.whip_running:.2g}", f"{one.whip_top:.2g}",
            "bows out" if one.stress is None else f"{one.stress:.1f}",
            "–" if one.factor is None else f"{one.factor:.1f}",
        )
        for one in spans
    )  # fmt: skip
    return Table(
        "What the rods bear",
        ("rod", "length", "thrust", "bows upright", "sideways", "Rankine", "over thrust",
         "whip running", "at greatest speed", "with thrust", "factor"),
        rows,
        "The thrust of a coupling rod is what the wheels beyond it can hold on the rail, the "
        "piston's at most. Euler's loads upright and sideways; stresses in N/mm²; the factor is "
        "proof stress over thrust and whip together.",
    )  # fmt: skip


def centres_table(result: RodsResult) -> Table:
    """Return how the centres change as the axles rise and fall."""
    rows = tuple(
        (one.name, one.apart, f"{1000 * one.one_up:.1f} µm", f"{1000 * one.stops:.1f} µm",
         f"{math.copysign(one.tilt, 1.0):.2f}°")
        for one in result.stretches
    )  # fmt: skip
    return Table(
        "Rod centres and the rise of the axles",
        ("axles", "centres", "further, one axle up", "further, opposite stops", "rod tilts"),
        rows,
        "Bore the rods to the axles as they stand in the frames, boxes blocked at working height.",
    )
