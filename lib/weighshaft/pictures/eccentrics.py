"""Throws in the chuck, the loose sheave's stop, built-up cranks and the quartering jig."""

from __future__ import annotations

import math

import numpy as np

from ..workshop.eccentrics import Eccentrics, EccentricsResult
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

_JAW = 0.16
"""Width of a jaw that is not measured, over the bar, as drawn."""


def pictures(eccentrics: Eccentrics, result: EccentricsResult) -> tuple[Picture, ...]:
    """Return the set-ups that this engine asks for, with their tables."""
    made: list[Picture] = []
    if result.throw is not None:
        made += [three_jaws(eccentrics, result), packings(result)]
    if result.strap is not None:
        made.append(limits(result))
    if result.opening is not None:
        made.append(stop(result))
    if result.web is not None:
        made += [crank_web(result), order(result)]
    made += [jig(result), blocks(result)]
    return tuple(made)


def _turned(points: Array, angle: float) -> Array:
    """Return points turned anticlockwise about the origin by an angle, degrees."""
    a = math.radians(angle)
    c, s = math.cos(a), math.sin(a)
    return np.stack([points[:, 0] * c - points[:, 1] * s, points[:, 0] * s + points[:, 1] * c], -1)


def three_jaws(eccentrics: Eccentrics, result: EccentricsResult) -> Scene:
    """Return the bar in three jaws, seen along the lathe, the packed jaw at the top."""
    assert result.throw is not None
    assert result.bar is not None
    radius, throw = result.bar / 2, result.throw
    measured = eccentrics.chucking.jaw
    width = measured if measured is not None else 0.0
    thick = result.packing_jaw if measured is not None else result.packing_narrow
    assert thick is not None
    nose = radius - throw + thick
    body = max(width, _JAW * result.bar)
    high = 0.7 * radius
    slope = (body - width) / 2
    jaw = np.array(
        [
            [nose, -width / 2], [nose + slope, -body / 2], [nose + high, -body / 2],
            [nose + high, body / 2], [nose + slope, body / 2], [nose, width / 2],
        ]
    )  # fmt: skip
    centre = (0.0, -throw)
    still: list[Primitive] = [Circle(centre, radius, "outline", "metal", "bar")]
    for angle in (90.0, 210.0, 330.0):
        still.append(Path(_turned(jaw, angle), "outline", True, "section", "chuck jaw"))
    piece = max(width, _JAW * result.bar)
    still.append(
        Path(box(-piece / 2, radius - throw, piece / 2, nose), "changed", True, "tint", "packing")
    )
    cross = 1.1 * radius
    still += [
        Path(np.array([[-cross, 0.0], [cross, 0.0]]), "centre"),
        Path(np.array([[0.0, -cross - throw], [0.0, nose]]), "centre"),
        Path(np.array([[-cross / 3, -throw], [cross / 3, -throw]]), "centre"),
        Dimension((-0.5 * radius, -throw), (-0.5 * radius, 0.0), f"{throw:.3f}", 0.5 * radius),
        Label(
            f"packing {thick:.3f} mm",
            (1.1 * radius, nose + 0.3 * radius),
            "start",
            (piece / 2, (radius - throw + nose) / 2),
        ),
        Label(
            f"dial gauge {result.dial:.3f} in a turn",
            (-1.15 * radius, 0.9 * radius),
            "end",
            (-radius * math.cos(0.6), radius * math.sin(0.6) - throw),
        ),
        Label("lathe's centre", (1.15 * radius, 0.12 * radius), "start", (0.0, 0.0)),
        Label("bar's centre", (1.15 * radius, -0.35 * radius), "start", centre),
    ]
    kind = "narrow jaws" if measured is None else f"jaws of {measured:g} mm"
    return Scene(
        "The throw in three jaws",
        f"A bar of {result.bar:.2f} mm with its centre {throw:.3f} mm below the lathe's: "
        f"{thick:.3f} mm of packing in {kind}, {result.packing_flat:.3f} mm in flat ones.",
        tuple(still),
    )  # fmt: skip


def packings(result: EccentricsResult) -> Table:
    """Return packings side by side, with the throw that each gives."""
    assert result.packing_narrow is not None
    rows: list[tuple[str | float, ...]] = [
        (
            one.name, one.thickness, one.thickness - result.packing_narrow,
            "none" if one.narrow_throw is None else one.narrow_throw, one.flat_throw,
        )
        for one in result.packings
    ]  # fmt: skip
    return Table(
        "Packing under one of three jaws",
        ("reckoned for", "packing", "over narrow", "throw, narrow jaws", "throw, flat jaws"),
        tuple(rows),
        "Real jaws lie between narrow and flat: the bar rolls on to the faces' corners as the "
        "throw grows. The dial gauge has the last word.",
        fine=True,
    )


def limits(result: EccentricsResult) -> Table:
    """Return what strap and sheave are machined to."""
    assert result.strap is not None
    rows: tuple[tuple[str | float, ...], ...] = (
        ("sheave, turned", result.sheave_low or 0.0, result.sheave_high or 0.0),
        ("strap, bored", result.strap_low or 0.0, result.strap_high or 0.0),
        ("clearance on the diameter", result.clear_least or 0.0, result.clear_most or 0.0),
    )
    return Table(
        "Strap on sheave, a running fit", ("", "at least", "at most"), rows,
        "H8 in the strap, f7 on the sheave by the formulas of ISO 286, unless typed; bore the "
        "strap with its halves bolted up, and turn the sheave to it.",
        fine=True,
    )  # fmt: skip


def stop(result: EccentricsResult) -> Scene:
    """Return dog and pin of a loose sheave, the pin against either face."""
    assert result.opening is not None
    assert result.slip is not None
    assert result.stop_radius is not None
    assert result.stop_pin is not None
    radius, pin = result.stop_radius, result.stop_pin / 2
    outer = radius + 1.6 * pin + 0.1 * radius
    inner = min(result.crank_axle / 2, radius - 1.2 * pin)
    inner = max(inner, 0.2 * radius)
    half = result.opening / 2
    # the gap looks up; the dog is the ring without it
    angles = np.radians(np.linspace(90 + half, 450 - half, 81))
    ring = np.concatenate(
        [
            np.stack([outer * np.cos(angles), outer * np.sin(angles)], axis=-1),
            np.stack([inner * np.cos(angles[::-1]), inner * np.sin(angles[::-1])], axis=-1),
        ]
    )
    still: list[Primitive] = [
        Path(ring, "outline", True, "section", "dog"),
        Circle((0.0, 0.0), inner, "outline", "metal", "axle"),
        Circle((0.0, 0.0), radius, "centre"),
    ]
    places = []
    for sign, word in ((1.0, "forward"), (-1.0, "backward")):
        a = math.radians(90 + sign * result.slip / 2)
        at = (radius * math.cos(a), radius * math.sin(a))
        places.append(at)
        still += [
            Circle(at, pin, "changed", "paper", "stop pin"),
            Label(f"pin, running {word}", (-sign * 1.9 * outer, at[1] + 0.5 * outer), "middle", at),
        ]
        still.append(Path(np.array([[0.0, 0.0], at]), "centre"))
    still += [
        Arc((0.0, 0.0), 1.15 * outer, 90 - half, 90 + half, "thin"),
        Label(f"gap {result.opening:.2f}°", (0.0, 1.3 * outer)),
        Arc((0.0, 0.0), 0.55 * radius, 90 - result.slip / 2, 90 + result.slip / 2, "thin"),
        Label(f"slip {result.slip:.2f}°", (0.0, 0.66 * radius)),
        Label(f"dog {result.dog:.2f}°", (0.0, -1.25 * outer)),
    ]
    return Scene(
        "The stop of the loose sheave",
        f"The sheave slips {result.slip:.2f} degrees on the axle when the engine is reversed; a "
        f"pin of {result.stop_pin:.2f} mm on a circle of {2 * radius:.2f} mm takes "
        f"{result.pin_takes:.2f} more, so the dog's gap is {result.opening:.2f} degrees.",
        tuple(still),
    )  # fmt: skip


def crank_web(result: EccentricsResult) -> Scene:
    """Return a web of a built-up crank, and beside it both webs on pin and axle."""
    assert result.web is not None
    assert result.web_breadth is not None
    assert result.sawn_out is not None
    assert result.web_length is not None
    pitch, broad, thick = result.pitch, result.web_breadth, result.web
    turn = np.radians(np.linspace(0, 180, 31))
    r = broad / 2
    outline = np.concatenate(
        [
            np.stack([r * np.cos(turn), pitch + r * np.sin(turn)], axis=-1),
            np.stack([-r * np.cos(turn), -r * np.sin(turn)], axis=-1),
        ]
    )
    still: list[Primitive] = [
        Path(outline, "outline", True, "metal", "web"),
        Circle((0.0, 0.0), result.crank_axle / 2, "changed", "paper", "axle"),
        Circle((0.0, pitch), result.crank_pin / 2, "changed", "paper", "pin"),
        Path(np.array([[0.0, -r], [0.0, pitch + r]]), "centre"),
        Dimension((0.0, pitch), (0.0, 0.0), f"{pitch:.3f}", -0.9 * broad),
    ]
    x = 2.2 * broad
    apart = result.sawn_out
    for x0 in (x, x + thick + apart):
        still.append(Path(box(x0, -r, x0 + thick, pitch + r), "outline", True, "metal", "web"))
    end = x + 2 * thick + apart
    ax, pn = result.crank_axle / 2, result.crank_pin / 2
    for low, high in ((x - broad, x), (end, end + broad)):
        still.append(Path(box(low, -ax, high, ax), "outline", True, "metal", "axle"))
    still += [
        Path(box(x + thick, pitch - pn, x + thick + apart, pitch + pn), "outline", True, "metal"),
        Path(box(x + thick, -ax, x + thick + apart, ax), "stop", True, "none", "sawn out"),
        Label(
            "sawn out last",
            (x + thick + apart / 2, -1.3 * r),
            "middle",
            (x + thick + apart / 2, 0.0),
        ),
        Dimension(
            (x + thick, pitch + 1.4 * r),
            (x + thick + apart, pitch + 1.4 * r),
            f"{apart:.2f}",
            0.0,
        ),
        Path(np.array([[x - 1.1 * broad, 0.0], [end + 1.1 * broad, 0.0]]), "centre"),
    ]
    return Scene(
        "A crank built up of webs and pins",
        f"Webs of {thick:.2f} by {broad:.2f} mm and {result.web_length:.2f} mm long, drilled "
        f"{pitch:.3f} mm apart; {apart:.2f} mm of axle is sawn out between them last.",
        tuple(still),
    )  # fmt: skip


def order(result: EccentricsResult) -> Table:
    """Return the order of the work."""
    return Table(
        "The order in which a built-up crank is made", ("", "work"),
        tuple((str(n + 1), text) for n, text in enumerate(result.order)),
    )  # fmt: skip


def jig(result: EccentricsResult) -> Scene:
    """Return a pair of wheels on the jig, seen along the axle: near pin dark, far pin in grey."""
    height, pin = result.jig_height, result.jig_pin / 2
    axle, wheel = result.jig_axle / 2, result.jig_wheel / 2
    reach, low = result.block_reach, result.block
    wide = 0.5 * reach
    still: list[Primitive] = [
        Circle((0.0, height), wheel, "behind", part="wheel"),
        Circle((0.0, height), axle, "outline", "metal", "axle"),
        Path(np.array([[-1.4 * wheel, 0.0], [1.4 * wheel, 0.0]]), "outline", part="plate"),
        Path(np.array([[0.0, 0.0], [0.0, height + wheel]]), "centre"),
        Path(np.array([[-wheel, height], [wheel, height]]), "centre"),
    ]
    for sign, pen in ((1.0, "changed"), (-1.0, "behind")):
        x = sign * reach
        at = (x, low + pin)
        still += [
            Path(box(x - wide / 2, 0.0, x + wide / 2, low), "outline", True, "section", "block"),
            Circle(at, pin, pen, "paper", "crankpin"),  # type: ignore[arg-type]
            Path(np.array([[0.0, height], at]), "centre"),
        ]
    still += [
        Dimension((1.25 * wheel, 0.0), (1.25 * wheel, low), f"{low:.3f}", 0.0),
        Dimension((-1.25 * wheel, 0.0), (-1.25 * wheel, height), f"{height:.2f}", 0.0),
        Dimension((0.0, -0.12 * wheel), (reach, -0.12 * wheel), f"{reach:.3f}", 0.0),
        Label(f"{result.jig_angle:g}° apart", (0.0, height + 0.25 * wheel)),
        Label("far pin", (-1.15 * wheel, low + 0.75 * wheel), "middle", (-reach, low + pin)),
        Label("near pin", (1.05 * wheel, low + 0.75 * wheel), "middle", (reach, low + pin)),
    ]
    return Scene(
        "A pair of wheels on the quartering jig",
        f"The axle lies {height:.2f} mm above the plate; both pins rest on blocks of "
        f"{low:.3f} mm, {reach:.3f} mm ahead of and behind it: {result.jig_angle:g} degrees apart.",
        tuple(still),
    )  # fmt: skip


def blocks(result: EccentricsResult) -> Table:
    """Return sizes for quartering and for drilling the crankpin's hole."""
    rows: tuple[tuple[str | float, ...], ...] = (
        ("both blocks, height", result.block),
        ("blocks ahead of and behind the axle", result.block_reach),
        ("blocks alike within", result.block_tolerance),
        ("or: block under a level pin", result.level_block),
        ("and strip between square and pin straight above", result.square_strip),
        ("crankpin pitch in the drilling jig", result.pitch),
        ("over axle and pin", result.over_pins),
        ("between axle and pin", result.between_pins),
    )
    return Table(
        "Quartering and crankpin pitch", ("", "size"), rows,
        "The square stands against the side of the axle; a negative strip goes between square and "
        "axle. Quarter every axle on the same jig, with the same side leading.",
        fine=True,
    )  # fmt: skip
