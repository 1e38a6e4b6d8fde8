"""Axles, the crank axle, wheel blanks, crankpins and the row along the driving axle."""

from __future__ import annotations

import math
from typing import Any

from ...design import Design
from ...fits import PressedSeat
from ...frames import Axle, Whole
from ...frames.running import boss_round
from ...trade.tracks import StandardUnknown, standard
from ...wheels import InsideCylinders, OutsideCylinders, Wheels, WheelsResult
from ..lengths import length
from ..scene import Label
from .dimensions import chain, overall, rows
from .joined import bar
from .pins import pins_of, row_of
from .sheet import Drawing, Outline, View, centre_lines, hole, polygon
from .turned import DIAMETER, Drawn, Step, block, line, middle, turned, within

_CENTRES = "Turn between centres; seats and journals at one setting."


def axle_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the drawings of axles, wheels and pins."""
    if work.wheels is None or work.frames is None:
        return []
    wheels, result, whole = design.wheels, work.wheels, work.frames.whole
    made = _axles(wheels, result, whole)
    if isinstance(wheels.cylinders, InsideCylinders):
        made += _crank_axle(wheels, wheels.cylinders, result, whole)
    made += _blanks(wheels, result, whole)
    made += pins_of(wheels, whole)
    return [*made, *row_of(wheels, result)]


def _ends(wheels: Wheels, result: WheelsResult) -> tuple[float, float]:
    """Return shoulder and end of an axle from its middle, mm."""
    shoulder = result.back_to_back / 2 - wheels.between.boss_inside
    return shoulder, max(result.wheel_face, result.wheel_face + wheels.across.boss_outside)


def _stepped(shoulder: float, end: float, seat: float, journal: float) -> list[Step]:
    return [(-end, -shoulder, seat), (-shoulder, shoulder, journal), (shoulder, end, seat)]


def _seat(wheels: Wheels) -> str:
    seat = wheels.seat
    if isinstance(seat, PressedSeat):
        return (
            f"Wheel seats {length(seat.interference)} over the wheel's bore: press, then check "
            "back to back."
        )
    if seat.kind == "keyed":
        return "Keyways at the wheels are cut after quartering."
    return "Wheels are held by retaining compound: degrease, quarter in the jig, leave to cure."


def _axles(wheels: Wheels, result: WheelsResult, whole: Whole) -> list[Drawing]:
    shoulder, end = _ends(wheels, result)
    cranked = isinstance(wheels.cylinders, InsideCylinders)
    plain = [one for one in whole.coupled if not (cranked and one.name == "driving")]
    made = []
    if plain:
        steps = _stepped(shoulder, end, wheels.seat_bore, wheels.axle_diameter)
        which = ", ".join(one.name for one in plain)
        made.append(_turned("axle", "Coupled axle", steps, len(plain), (
            f"Axle of the {which} wheels. {_CENTRES} {_seat(wheels)}",
            f"Between the shoulders {length(2 * shoulder)}: wheels stand "
            f"{length(result.back_to_back)} back to back.",
        )))  # fmt: skip
    for kind in ("leading", "trailing"):
        carried = [one for one in whole.axles if one.kind == kind]
        if not carried:
            continue
        # as the model of the whole engine has it: one diameter, 0.8 of the coupled seat
        diameter = 0.8 * wheels.seat_bore
        half, face = result.back_to_back / 2, result.wheel_face
        steps = _stepped(half, face, diameter, diameter)
        made.append(_turned(f"{kind}-axle", f"{kind.capitalize()} truck axle", steps,
            len(carried), (
            f"Wheels stand {length(2 * half)} back to back. Diameter is the usual 0.8 of the "
            "coupled wheels' seat; none is decided.",
        )))  # fmt: skip
    return made


def _turned(key: str, title: str, steps: list[Step], count: int, notes: tuple[str, ...]) -> Drawing:
    same = [steps[0]]
    for a, b, d in steps[1:]:
        # a step that goes on at the same diameter is shown by a mark
        same.append((a, b, d))
    return Drawing(
        key=key, title=title, material="mild steel", count=count,
        views_at=lambda scale: (View("elevation", tuple(turned(same, scale))),),
        notes=notes, tolerance=f"between shoulders {within(0.05)}, else {within(0.1)}",
    )  # fmt: skip


def _crank_axle(
    wheels: Wheels, cylinders: InsideCylinders, result: WheelsResult, whole: Whole
) -> list[Drawing]:
    shoulder, end = _ends(wheels, result)
    seat, journal, pin = wheels.seat_bore, wheels.axle_diameter, cylinders.crankpin
    throw, half = whole.drive.crank.throw, cylinders.web_breadth / 2
    inner = (cylinders.centres - cylinders.pin_length) / 2
    outer = inner + cylinders.pin_length
    webs = [(side * inner - (cylinders.web if side > 0 else 0.0), side) for side in (-1, 1)] + [
        (side * outer - (0.0 if side > 0 else cylinders.web), side) for side in (-1, 1)
    ]
    left_up = round(math.cos(math.radians(whole.drive.crank_angle)), 9)

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [block(-end, -shoulder, -seat / 2, seat / 2),
                       block(shoulder, end, -seat / 2, seat / 2)]  # fmt: skip
        edges = [-shoulder, -outer - cylinders.web, -inner + cylinders.web,
                 inner - cylinders.web, outer + cylinders.web, shoulder]  # fmt: skip
        for a, b in zip(edges[::2], edges[1::2], strict=True):
            face.append(block(a, b, -journal / 2, journal / 2))
        for x, side in webs:
            # the left crank stands level when the right one is up
            up = throw if side > 0 else throw * left_up
            low, high = min(0.0, up) - half, max(0.0, up) + half
            face.append(block(x, x + cylinders.web, low, high))
        for side in (-1, 1):
            up = throw if side > 0 else throw * left_up
            x0, x1 = sorted((side * inner, side * outer))
            face.append(block(x0, x1, up - pin / 2, up + pin / 2))
        face.append(middle(-end, end, scale))
        face.append(middle(inner - cylinders.web, outer + cylinders.web, scale, throw))
        top, low = throw + half, min(-half, throw * left_up - half)
        places = [-end, -shoulder, *edges[1:-1], shoulder, end]
        face += rows("below", low, [*chain(places), overall(-end, end)], scale)
        face += rows("above", top, [
            (inner, outer, ""), (inner - cylinders.web, inner, ""),
            (outer, outer + cylinders.web, ""),
        ], scale)  # fmt: skip
        face += rows("left", -end, [
            (-seat / 2, seat / 2, DIAMETER), (-journal / 2, journal / 2, DIAMETER),
        ], scale, [-end, -shoulder])  # fmt: skip
        face += rows("right", end, [(0.0, throw, "")], scale)
        web = bar((0.0, 0.0), (0.0, throw), half)
        bores = (((0.0, 0.0), journal), ((0.0, throw), pin))
        side_view: Drawn = [web]
        side_view += [Outline(hole(c, d).corners, "outline", "paper") for c, d in bores]
        side_view += centre_lines((0.0, 0.0), half, scale)
        side_view += centre_lines((0.0, throw), half, scale)
        side_view += rows("right", half, [overall(0.0, throw), overall(-half, top)], scale)
        side_view += rows("below", -half, [
            overall(-half, half), (-journal / 2, journal / 2, DIAMETER)], scale)  # fmt: skip
        side_view += rows("above", top, [(-pin / 2, pin / 2, DIAMETER)], scale)
        return View("elevation", tuple(face)), View("end", tuple(side_view), "web")

    angle = whole.drive.crank_angle
    return [
        Drawing(
            key="crank-axle", title="Crank axle, built up", material="mild steel", count=1,
            views_at=views,
            notes=(
                f"Four webs, two pins, the cranks {length(cylinders.centres)} apart; the left one "
                f"leads the right one by {angle:g}° forward. Shown with the right crank up.",
                "Fix webs and pins on a whole axle with compound and dowels, then saw the axle "
                f"out between the webs. {_seat(wheels)}",
            ),
            tolerance=f"throws {within(0.02)}, journals true to {length(0.02)}, else {within(0.1)}",
        )
    ]  # fmt: skip


def _blanks(wheels: Wheels, result: WheelsResult, whole: Whole) -> list[Drawing]:
    made = []
    outside = isinstance(wheels.cylinders, OutsideCylinders)
    alone = len(whole.coupled) == 1
    driving = wheels.cylinders.crankpin if outside else wheels.across.crankpin
    groups: list[tuple[str, str, list[Axle], float, float]] = []
    rest = [one for one in whole.coupled if one.name != "driving"]
    coupled_throw = abs(whole.drive.coupled_throw)
    pin = wheels.across.crankpin
    main = [one for one in whole.coupled if one.name == "driving"]
    throw = whole.drive.crank.throw if outside else coupled_throw
    if abs(throw - coupled_throw) < 1e-9 or alone:
        groups.append(("wheel", "Coupled wheel", [*main, *rest], throw, pin))
    else:
        groups += [("driving-wheel", "Driving wheel", main, throw, pin),
                   ("wheel", "Coupled wheel", rest, coupled_throw, pin)]  # fmt: skip
    if alone:
        groups = [("wheel", "Driving wheel", main, throw if outside else 0.0, driving)]
    for key, title, axles, away, diameter in groups:
        made.append(_blank(wheels, result, whole, key, title, axles, away, diameter))
    for kind in ("leading", "trailing"):
        carried = [one for one in whole.axles if one.kind == kind]
        if carried:
            made.append(_blank(wheels, result, whole, f"{kind}-wheel",
                               f"{kind.capitalize()} truck wheel", carried, 0.0, 0.0))  # fmt: skip
    return made


def _blank(
    wheels: Wheels, result: WheelsResult, whole: Whole, key: str, title: str,
    axles: list[Axle], throw: float, pin: float,
) -> Drawing:  # fmt: skip
    coupled = axles[0].kind == "coupled"
    radius = axles[0].diameter / 2
    seat = wheels.seat_bore if coupled else 0.8 * wheels.seat_bore
    boss = (
        wheels.seat.hub_diameter if isinstance(wheels.seat, PressedSeat) and coupled else 2 * seat
    )
    boss_out = wheels.across.boss_outside if coupled else 0.0
    boss_in = wheels.between.boss_inside if coupled else 0.0
    wide, thick, deep = result.tyre_width, result.flange_thickness, result.flange_depth
    cone, corners = _standard(wheels, whole)
    flange = radius + deep
    rise = math.tan(math.radians(cone)) * (wide - thick)
    part = whole.part(f"{axles[0].name} wheels")
    metal = "cast iron" if part is None else part.material
    b, bossed = boss / 2, max(boss_out, boss_in) > 1e-9

    def profile(sign: float) -> Outline:
        inner = min(0.0, -boss_in)
        outer = wide + boss_out
        points = [(inner, seat / 2), (outer, seat / 2), (outer, b)]
        if abs(boss_out) > 1e-9:
            points.append((wide, b))
        points += [(wide, radius - rise), (thick, radius), (thick, flange), (0.0, flange)]
        if boss_in > 1e-9:
            points += [(0.0, b), (inner, b)]
        return polygon([(x, sign * y) for x, y in points], "section")

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [
            Outline(hole((0.0, 0.0), 2 * flange).corners, "outline", "metal"),
            Outline(hole((0.0, 0.0), 2 * (radius - rise)).corners, "thin"),
            *([Outline(hole((0.0, 0.0), boss).corners, "outline")] if bossed else []),
            Outline(hole((0.0, 0.0), seat).corners, "outline", "paper"),
            *centre_lines((0.0, 0.0), flange, scale),
        ]  # fmt: skip
        if throw > 0:
            about = Outline(hole((throw, 0.0), boss_round(wheels)).corners, "outline")
            face += [about] if coupled and bossed else []
            face.append(Outline(hole((throw, 0.0), pin).corners, "outline", "paper"))
            face.append(line(throw, -pin / 2 - 3 / scale, throw, pin / 2 + 3 / scale))
            face += rows("below", -flange, [(0.0, throw, "")], scale, [0.0])
            spans = [(throw - pin / 2, throw + pin / 2, DIAMETER)]
            if coupled and bossed:
                wide_boss = boss_round(wheels)
                spans.append((throw - wide_boss / 2, throw + wide_boss / 2, DIAMETER))
            face += rows("above", flange, spans, scale, [0.0] * len(spans))
        cut: Drawn = [profile(1.0), profile(-1.0)]
        inner, outer = min(0.0, -boss_in), max(wide, wide + boss_out)
        cut += [line(inner, y, inner if boss_in else 0.0, -y, "outline") for y in (seat / 2,)]
        cut.append(line(wide + boss_out, seat / 2, wide + boss_out, -seat / 2, "outline"))
        cut.append(middle(inner, outer, scale))
        spans = [overall(0.0, wide), overall(0.0, thick)]
        spans += [overall(wide, wide + boss_out)] if abs(boss_out) > 1e-9 else []
        spans += [overall(-boss_in, 0.0)] if boss_in > 1e-9 else []
        cut += rows("below", -flange, spans, scale)
        cut += rows("left", inner, [overall(-seat / 2, seat / 2, DIAMETER)], scale)
        around = [(-radius, radius, DIAMETER), (-flange, flange, DIAMETER)]
        starts = [thick, thick]
        if bossed:
            around.append((-b, b, DIAMETER))
            starts.append(outer if boss_out > 0 else 0.0)
        cut += rows("right", outer, around, scale, starts)
        if cone:
            cut.append(Label(f"cone {cone:g}°", (wide, flange + 5 / scale), "start",
                             ((wide + thick) / 2, radius - rise / 2)))  # fmt: skip
        return View("elevation", tuple(face)), View("end", tuple(cut), "section")

    names = ", ".join(one.name for one in axles)
    fit = _seat(wheels) if coupled else ""
    coned = f", coned {cone:g}°" if cone else ""
    notes = [
        f"{names[:1].upper()}{names[1:]}. Tread {length(2 * radius)} beside the flange{coned}. "
        f"{corners}",
        f"Spokes as cast. {fit}".strip(),
    ]
    if throw > 0:
        usual = "" if isinstance(wheels.seat, PressedSeat) or not bossed else (
            f" Boss {length(boss)}: the usual twice the seat."
        )  # fmt: skip
        notes.append(f"Crankpin holes in a jig, all alike; the pin's fit is not decided.{usual}")
    return Drawing(
        key=key, title=f"{title} blank" if coupled else title, material=metal,
        count=2 * len(axles), views_at=views, notes=tuple(notes),
        tolerance=f"throw {within(0.02)}, tread {within(0.05)}, else {within(0.1)}",
    )  # fmt: skip


def _standard(wheels: Wheels, whole: Whole) -> tuple[float, str]:
    """Return the tread's cone in degrees, and what the standard says of the flange's corners."""
    try:
        found = standard(wheels.standard, whole.gauge)
    except StandardUnknown:
        return 0.0, "No standard gives coning or corners."
    cone = found.value("coning_deg")
    root, tip = found.value("root_radius"), found.value("flange_tip_radius")
    said = [f"{word} {length(one)}" for word, one in (("root radius", root), ("flange tip", tip))
            if one is not None]  # fmt: skip
    coned = "" if cone is not None else "The standard gives no coning. "
    corners = f"{', '.join(said).capitalize()}" if said else "Root and tip well rounded"
    return cone or 0.0, f"{coned}{corners} ({found.name})."
