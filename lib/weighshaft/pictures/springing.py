"""Axle springs: the box in its horn gap, load over deflection, twisted track, and the figures."""

from __future__ import annotations

import math

import numpy as np

from ..springing import Springing, SpringingResult
from ..springing.coil import CoilSpring
from ..springing.results import AxleSpring
from .scene import Band, Chart, Curve, Picture, Table
from .springing_box import box_drawing, tilted_axle

_POINTS = 41


def pictures(springing: Springing, result: SpringingResult) -> tuple[Picture, ...]:
    """Return the box at its heights, the load diagram, the axle tilted, the twist, the tables."""
    made: list[Picture] = [box_drawing(springing, result), load_diagram(result)]
    if result.tilt > 0:
        made.append(tilted_axle(result))
    if any(one.left is not None for one in result.axles):
        made.append(twist_chart(result))
    return (*made, axle_table(result), margin_table(result), spring_table(result))


def load_diagram(result: SpringingResult) -> Chart:
    """Return load over deflection of the driving spring, with its working point and limits."""
    driving, bed = result.axles[result.main], result.bed
    spring = driving.spring
    up = driving.deflection + bed.rise
    coil = isinstance(spring, CoilSpring)
    end = max(spring.travel, 0.0) if coil else 1.3 * up
    curves = [Curve(np.array([0.0, end]), np.array([0.0, spring.rate * end]), "driving spring")]
    wide = max(end, up) * 1.15
    if coil:
        top = 1.25 * max(spring.rate * end, driving.force)
        curves.append(
            Curve(np.array([end, end]), np.array([spring.rate * end, top]), "coil-bound", "stop")
        )
    limit = _limit(driving)
    if limit < 2.5 * spring.rate * max(end, up):
        curves.append(Curve(np.array([0.0, wide]), np.array([limit, limit]), "takes a set", "stop"))
    for one in result.axles:
        if one.kind == "coupled":
            x, y = one.deflection, one.force
            curves.append(
                Curve(np.array([0.0, x, x]), np.array([y, y, 0.0]), f"{one.name} axle", "thin")
            )
    low = max(driving.deflection - result.fall, 0.0)
    closed = f" It is coil-bound at {end:.2f} mm and {spring.rate * end:.1f} N." if coil else ""
    return Chart(
        "Load over deflection of one driving spring",
        f"At rest the spring carries {driving.force:.2f} N and has given {driving.deflection:.2f} "
        f"mm; as the box moves it goes from {low:.2f} to {up:.2f} mm. A load of "
        f"{limit:.1f} N is as much as its metal may bear.{closed}",
        "deflection, mm", "load, N", tuple(curves),
        (Band(low, up, "travel of the box", "x"),),
    )  # fmt: skip


def _limit(axle: AxleSpring) -> float:
    """Return the load at which the stress is what may be borne, N."""
    spring, high = axle.spring, 1.0
    if spring.stress(0.0) >= axle.allowed:
        return 0.0
    while spring.stress(high) < axle.allowed:
        high *= 2
    low = 0.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if spring.stress(middle) < axle.allowed else (low, middle)
    return low


def twist_chart(result: SpringingResult) -> Chart:
    """Return what the lighter wheel of every axle keeps, over the twist of the track."""
    given = 1000 / result.twist
    x = np.linspace(0.0, 2 * given, _POINTS)
    curves = []
    for one in result.axles:
        if one.left is not None:
            kept = np.maximum(100 - (100 - one.left) * x / given, 0.0)
            curves.append(Curve(x, kept, one.name))
    curves.append(Curve(np.array([given, given]), np.array([0.0, 100.0]), "track", "trace"))
    riding = [one for one in result.axles if one.left is not None]
    worst = min(riding, key=lambda one: one.left or 0.0)
    return Chart(
        "Load that the lighter wheels keep on twisted track",
        f"On track twisted 1 in {result.twist:g}, {given:.1f} mm in a metre, a wheel of the "
        f"{worst.name} axle keeps least: {max(worst.left or 0.0, 0.0):.0f} % of its load.",
        "change of cross level, mm in a metre", "load kept, %", tuple(curves),
        (Band(0.0, 40.0, "too little"),),
    )  # fmt: skip


def axle_table(result: SpringingResult) -> Table:
    """Return what every axle carries, and how far its springs give."""
    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (
            one.name, f"{one.load:.2f} kg", f"{one.unsprung:.2f} kg",
            f"{one.number} × {one.force:.1f} N", f"{one.spring.rate:.2f} N/mm",
            one.deflection, one.packing,
        )
        for one in result.axles
    )  # fmt: skip
    return Table(
        "What the axles carry, and how far their springs give",
        ("axle", "load", "of it not sprung", "springs of a box", "rate", "gives", "packed further"),
        rows, "Packed further: than the lightest loaded axle with the same springs.",
    )  # fmt: skip


def margin_table(result: SpringingResult) -> Table:
    """Return what every axle's springs have in hand."""
    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (
            one.name, f"{one.stress:.0f} N/mm²", f"{one.stress_up:.0f} N/mm²",
            f"{100 * one.stress_up / one.allowed:.0f} %",
            "never" if one.margin is None else one.margin,
            "stands hard" if one.left is None else f"{max(one.left, 0):.0f} %",
            "" if one.dip is None else one.dip,
        )
        for one in result.axles
    )  # fmt: skip
    return Table(
        "What the springs have in hand",
        ("axle", "stress at rest", "box at its top", "of that allowed", "left to coil-bound",
         "load left on twist", "a wheel may dip"),
        rows,
    )  # fmt: skip


def spring_table(result: SpringingResult) -> Table:
    """Return the driving spring as it is made."""
    axle = result.axles[result.main]
    spring = axle.spring
    rows: list[tuple[str | float, ...]]
    if isinstance(spring, CoilSpring):
        rows = [
            ("wire", spring.wire), ("of", spring.metal),
            ("mean diameter of the coil", spring.coil), ("over the wire", spring.outside),
            ("bore", spring.coil - spring.wire), ("working turns", f"{spring.turns:g}"),
            ("turns in all", f"{spring.total:g}"), ("ends", spring.ends),
            ("pitch of the free turns", spring.pitch),
            ("free length", spring.free), ("length at the running height", axle.length),
            ("length when coil-bound", spring.solid),
            ("waves along it in a minute", f"{60 * spring.surge:.0f}"),
        ]  # fmt: skip
    else:
        full, others = spring.stresses(axle.force)
        rows = [
            ("between its hangers", spring.span), ("buckle", spring.buckle),
            ("leaves", f"{spring.leaves}"),
            ("of full length beside the master leaf", f"{spring.extra}"),
            ("thickness", spring.thickness), ("width", spring.width), ("of", spring.metal),
            ("camber when free", spring.camber), ("camber under the engine", axle.length),
            ("nip", spring.nip), ("pull that draws the leaves together", f"{spring.preload:.1f} N"),
            ("stress of the graduated leaves at rest", f"{others:.0f} N/mm²"),
        ]  # fmt: skip
        if spring.extra:
            rows.append(("stress of the full-length leaves at rest", f"{full:.0f} N/mm²"))
        radius = spring.half**2 / (2 * spring.camber) if spring.camber > 0 else math.inf
        if math.isfinite(radius):
            rows.append(("leaves bent to a radius of", radius))
    return Table(f"The driving spring, {2 * axle.number} to the axle", ("", ""), tuple(rows))
