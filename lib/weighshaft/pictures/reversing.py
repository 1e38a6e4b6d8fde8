"""The reverser in elevation, its quadrant or screw enlarged, notches, cut-off, and both sides."""

from __future__ import annotations

import math

import numpy as np

from ..reversing import Lever, Notch, Reversing, ReversingResult, Screw
from .reversing_sides import both_sides, handed_table, line, side_table, spread
from .scene import (
    Arc,
    Array,
    Chart,
    Circle,
    Curve,
    Label,
    Path,
    Pen,
    Picture,
    Point,
    Primitive,
    Scene,
    Table,
)

_WAY = {1: "forward", 0: "mid gear", -1: "backward"}


def pictures(reversing: Reversing, result: ReversingResult) -> tuple[Picture, ...]:
    """Return elevation, quadrant or screw, notch table, cut-off chart, both sides, their tables."""
    made: list[Picture] = []
    if result.throw is not None or result.turns is not None:
        made += [
            elevation(reversing, result),
            notched(reversing, result),
            notch_table(reversing, result),
            cutoff_chart(reversing, result),
        ]
    elif result.notches:
        made.append(notch_table(reversing, result))
    made += [both_sides(result), side_table(result)]
    if result.handed:
        made.append(handed_table(result))
    if result.spring is not None:
        made.append(spring_table(result))
    return tuple(made)


def elevation(reversing: Reversing, result: ReversingResult) -> Scene:
    """Return weighshaft, reach rod and stand seen from the right, every notch in its place."""
    shaft, layout = result.shaft, result.layout
    assert shaft is not None
    assert layout is not None
    cut = _cut(result)
    middle, last = next(i for i, one in enumerate(cut) if one.direction == 0), len(cut) - 1
    centre, pivot = (shaft.x, shaft.y), (layout.x, layout.y)
    small = max(0.07 * layout.arm, 0.4)
    still: list[Primitive] = []
    order = [i for i in range(len(cut)) if i not in (0, middle, last)] + [0, last, middle]
    for i in order:
        pen: Pen = "outline" if i == middle else "behind" if i in (0, last) else "thin"
        turned = math.radians(cut[i].arm_angle or 0.0)
        end = (shaft.x + shaft.length * math.cos(turned), shaft.y + shaft.length * math.sin(turned))
        arm, pin = _point(result.arm_pin[i]), _point(result.stand_pin[i])
        still += [line(pen, shaft.part, centre, end), line(pen, "reversing arm", centre, arm)]
        if i in (0, middle, last):
            still.append(line(pen, "reach rod", arm, pin))
            still += [Circle(one, 0.6 * small, pen, "paper", "reach rod") for one in (arm, pin)]
        if layout.radius:
            reach = max(layout.handle, layout.radius) / layout.radius
            grip = _point(np.array(pivot) + reach * (np.array(pin) - np.array(pivot)))
            still.append(line(pen, _stand(reversing), pivot, grip))
    still.append(Circle(centre, 1.3 * small, "outline", "metal", shaft.name))
    if layout.radius:
        still.append(Circle(pivot, small, "outline", "metal", "pivot"))
        if layout.quadrant:
            leans = [90 - (one.lean or 0.0) for one in cut]
            still.append(
                Arc(pivot, layout.quadrant, min(leans) - 5, max(leans) + 5, "outline", "quadrant")
            )
    else:
        along = np.array(layout.line)
        ends = [np.array(pivot) + (one.nut or 0.0) * along for one in (cut[0], cut[-1])]
        out = 2 * small * along * (1 if (cut[0].nut or 0) > (cut[-1].nut or 0) else -1)
        still.append(line("centre", "screw", _point(ends[0] + 3 * out), _point(ends[1] - 3 * out)))
    away = 0.6 * layout.arm
    still += [
        Label(shaft.name, (shaft.x + away, shaft.y + 0.5 * away), "start", centre),
        Label("reach rod", ((layout.x + shaft.x) / 2, _top(result) + 0.3 * away), "middle",
              _point((result.arm_pin[middle] + result.stand_pin[middle]) / 2)),
        Label(_stand(reversing), (layout.x - 1.2 * away, layout.y - 0.4 * away), "end", pivot),
    ]  # fmt: skip
    return Scene(
        f"Reverser in elevation, {reversing.worked_by.title.lower()}",
        f"Seen from the right-hand side, cylinder to the right, to scale, mid gear drawn thick: "
        f"the {shaft.part} turns {abs(2 * shaft.half):.1f}°, the reach rod is {layout.rod:.2f} mm "
        f"between centres, and {_swing(result)}.",
        tuple(still),
    )  # fmt: skip


def notched(reversing: Reversing, result: ReversingResult) -> Scene:
    """Return the quadrant with its notches, the horn's arc, or the nut's places on the screw."""
    if isinstance(reversing.worked_by, Screw):
        return _screw(result)
    layout = result.layout
    assert layout is not None
    radius = layout.quadrant or layout.radius
    cut = _cut(result)
    angles = [90 - (one.lean or 0.0) for one in cut]
    low, high = min(angles), max(angles)
    rim = math.degrees(max(2 * layout.latch, 0.06 * radius) / radius)
    still: list[Primitive] = [Arc((0, 0), radius, low - rim, high + rim, "outline", "quadrant")]
    if layout.quadrant:
        inner = 0.88 * radius
        still.append(Arc((0, 0), inner, low - rim, high + rim, "outline", "quadrant"))
        still += [_ray("outline", inner, radius, end) for end in (low - rim, high + rim)]
    places = spread(angles, math.degrees(0.13))
    for one, angle, label in zip(cut, angles, places, strict=True):
        if layout.quadrant:
            still.append(_gash(radius, layout.latch, angle, one))
        else:
            still.append(_ray("outline", 0.94 * radius, 1.06 * radius, angle))
        still.append(_ray("centre", 0.8 * radius, radius, angle))
        anchor = "end" if label > 97 else "start" if label < 83 else "middle"
        still.append(
            Label(_called(one), _polar(1.22 * radius, label), anchor,  # type: ignore[arg-type]
                  _polar(1.03 * radius, angle))
        )  # fmt: skip
    still.append(Label(f"struck from the pivot with {radius:.2f} mm", (0, 0.72 * radius), "middle"))
    what = "quadrant" if isinstance(reversing.worked_by, Lever) else "arc of the horn's pin"
    closest = "" if result.least_pitch is None else (
        f"; the closest two are {result.least_pitch:.2f} mm apart"
    )  # fmt: skip
    return Scene(
        f"The {what}, {len(cut)} notches",
        f"The {what}, radius {radius:.2f} mm, seen from the right-hand side, ahead to the right, "
        f"with {len(cut)} notches over {high - low:.1f}°{closest}.",
        tuple(still),
    )  # fmt: skip


def _gash(radius: float, width: float, angle: float, one: Notch) -> Path:
    """A notch cut radially into the quadrant's edge, as wide as the latch."""
    out, across = np.array(_polar(1.0, angle)), np.array(_polar(1.0, angle + 90))
    depth = min(1.2 * width, 0.08 * radius)
    corners = [(radius, -1), (radius - depth, -1), (radius - depth, 1), (radius, 1)]
    points = np.array([r * out + s * width / 2 * across for r, s in corners])
    return Path(points, "changed" if one.direction == 0 else "outline", part="notch")


def _screw(result: ReversingResult) -> Scene:
    layout, cut = result.layout, _cut(result)
    assert layout is not None
    at = [one.nut or 0.0 for one in cut]
    span = max(at) - min(at)
    half = layout.diameter / 2
    ends = (min(at) - 0.08 * span, max(at) + 0.08 * span)
    still: list[Primitive] = [
        Path(np.array([[ends[0], s * half], [ends[1], s * half]]), part="screw") for s in (-1, 1)
    ]
    still.append(Path(np.array([[ends[0], 0.0], [ends[1], 0.0]]), "centre", part="screw"))
    for one, x, label in zip(cut, at, spread(at, 0.09 * span), strict=True):
        pen: Pen = "changed" if one.direction == 0 else "outline"
        still.append(Path(np.array([[x, -1.8 * half], [x, 1.8 * half]]), pen, part="nut"))
        high = 1.8 * half + 0.06 * span * (1 + cut.index(one) % 3)
        turns = "" if one.direction == 0 else f", {abs(one.turns or 0.0):.1f}"
        still.append(Label(f"{_called(one)}{turns}", (label, high), "middle", (x, 1.8 * half)))
    return Scene(
        "Places of the nut's pin on the screw",
        "Along the screw, ahead to the right, with the turns from mid gear: the nut travels "
        f"{span:.2f} mm in {result.turns or 0.0:.1f} turns from end to end.",
        tuple(still),
    )  # fmt: skip


def notch_table(reversing: Reversing, result: ReversingResult) -> Table:
    """Return the notches of both directions with what is measured on the metal."""
    screw = isinstance(reversing.worked_by, Screw)
    lever = isinstance(reversing.worked_by, Lever)
    place = (
        ("nut stands", "from mid gear", "turns") if screw
        else ("lever", "along the quadrant", "by dividers") if lever else ("horn",)
    )  # fmt: skip
    rows: list[tuple[str | float, ...]] = []
    missed: list[str] = []
    for one in result.notches:
        row: list[str | float] = [_WAY[one.direction], one.name]
        if one.reverser is None:
            missed.append(f"{_called(one)}: {one.missed}.")
            rows.append((*row, "not reached", *["–"] * (2 + len(place))))
            continue
        row += [_percent(one.front), _percent(one.back)]
        row.append("–" if one.arm_angle is None else f"{one.arm_angle:.2f}°")
        if screw:
            row += [_ahead(one.nut), "–" if one.nut is None else abs(one.nut),
                    "–" if one.turns is None else f"{abs(one.turns):.2f}"]  # fmt: skip
        else:
            row.append(_leans(one.lean))
        if lever:
            row += ["–" if v is None else abs(v) for v in (one.arc, one.chord)]
        rows.append(tuple(row))
    note = (
        "Distances are from the mid-gear notch: along the notched edge, and straight across as "
        "dividers are set." if lever else "Turns are counted from mid gear." if screw
        else "Angles from the horn upright."
    )  # fmt: skip
    part = result.shaft.part if result.shaft else "shaft"
    columns = ("running", "notch", "front", "back", part, *place)
    return Table("Notches", columns, tuple(rows), " ".join((note, *missed)))


def cutoff_chart(reversing: Reversing, result: ReversingResult) -> Chart:
    """Return mean cut-off over the place of lever, horn or nut, both directions."""
    curve = result.curve
    screw = isinstance(reversing.worked_by, Screw)
    cut = [one for one in _cut(result) if one.mean is not None]
    marks = [(one.reverser, one.nut if screw else one.lean, one.mean) for one in cut]
    known = np.array([mark for mark in marks if None not in mark], dtype=float).reshape(-1, 3)
    half = len(curve) // 2
    made = []
    for part, sense, name, pen in ((curve[:half], 1, "forward", "changed"),
                                   (curve[half:], -1, "backward", "trace")):  # fmt: skip
        # the notches lie on the curve exactly, and make it the finer
        own = known[(known[:, 0] * sense > 0)]
        if screw:
            part = part - [0.0, curve[half - 1, 1], 0.0]
        fine = np.concatenate([part[np.isfinite(part).all(axis=1)], own])
        fine = fine[np.argsort(fine[:, 0])]
        if len(fine) > 1:
            made.append(Curve(fine[:, 1], fine[:, 2], name, pen))  # type: ignore[arg-type]
    made += [Curve(np.array([x, x]), np.array([0.0, y]), "", "thin") for _, x, y in known]
    x_label = "nut ahead of mid gear, mm" if screw else f"{_stand(reversing)} leans ahead, degrees"
    full = "" if result.forward_full is None else f", {result.forward_full:.1f} % in full forward"
    return Chart(
        "Cut-off over the reverser",
        f"Mean cut-off of both ends{full}; {len(cut)} notches are marked by thin lines.",
        x_label, "mean cut-off, % of the stroke", tuple(made),
    )  # fmt: skip


def spring_table(result: ReversingResult) -> Table:
    """Return the balance spring, fitted or as it would be."""
    spring = result.spring
    assert spring is not None
    rows: tuple[tuple[str | float, ...], ...] = (
        ("arm on the weighshaft", spring.arm), ("pull in mid gear", f"{spring.force:.2f} N"),
        ("rate", f"{spring.rate:.3f} N/mm"), ("wire", spring.wire),
        ("mean diameter of the coil", spring.coil), ("working turns", f"{spring.turns:g}"),
        ("body, slack", spring.free_length), ("stretch in mid gear", spring.stretch),
        ("left of the weight's torque at worst", f"{spring.left_over:.1f} N mm"),
    )  # fmt: skip
    fitted = "as fitted" if result.spring_fitted else "as it would be; none is fitted"
    return Table(f"Balance spring, {fitted}", ("", ""), rows,
                 "Hooks and any pull wound into the coil come on top.")  # fmt: skip


def _cut(result: ReversingResult) -> list[Notch]:
    return [one for one in result.notches if one.reverser is not None]


def _called(one: Notch) -> str:
    return one.name if one.direction == 0 else f"{one.name} {_WAY[one.direction][:4]}."


def _stand(reversing: Reversing) -> str:
    return {"lever": "lever", "screw": "nut", "servo": "servo's horn"}[reversing.worked_by.kind]


def _swing(result: ReversingResult) -> str:
    if result.turns is not None:
        return f"the nut travels {result.nut_travel or 0.0:.2f} mm in {result.turns:.1f} turns"
    if result.handle_travel is not None:
        return (
            f"the lever swings {result.throw or 0.0:.1f}°, its grip {result.handle_travel:.1f} mm"
        )
    return f"the horn swings {result.throw or 0.0:.1f}°"


def _top(result: ReversingResult) -> float:
    return float(max(result.arm_pin[:, 1].max(), result.stand_pin[:, 1].max()))


def _percent(value: float | None) -> str:
    return "–" if value is None else f"{value:.1f} %"


def _leans(lean: float | None) -> str:
    if lean is None:
        return "–"
    return "upright" if abs(lean) < 0.005 else f"{abs(lean):.2f}° {_ahead(lean)}"


def _ahead(value: float | None) -> str:
    return "–" if value is None or abs(value) < 5e-4 else "ahead" if value > 0 else "back"


def _polar(radius: float, angle: float) -> Point:
    turned = math.radians(angle)
    return radius * math.cos(turned), radius * math.sin(turned)


def _ray(pen: Pen, inner: float, outer: float, angle: float) -> Path:
    return Path(np.array([_polar(inner, angle), _polar(outer, angle)]), pen, part="quadrant")


def _point(at: Array) -> Point:
    return float(at[0]), float(at[1])
