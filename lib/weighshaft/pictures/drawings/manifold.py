"""Manifold and its branches, drawn with their sizes."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from ...design import Design
from ...workshop.fitting.manifold import Made, Stub
from ..lengths import length
from ..scene import Circle, Label, Path
from .dimensions import overall, rows
from .lathe import axis_line, cut, edges, thread
from .sheet import Drawing, Outline, View, centre_lines, hole, polygon
from .shop import ELSE, FINE, Drawn

LINE = 6.0
"""From one line of words to the next, mm on paper."""
FREE = 2.0
"""Thread behind a union nut, in pitches; common practice."""


def manifold_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the manifold's body and its branches, where one is made."""
    if work.fitting is None or not design.fitting.manifold.made:
        return []
    made: Made = work.fitting.manifold
    groups: dict[tuple[object, ...], list[Stub]] = {}
    for one in made.stubs:
        if one.over_all:
            key = (one.thread.designation, round(one.bore, 6), round(one.over_all, 6),
                   one.branch.fixing)  # fmt: skip
            groups.setdefault(key, []).append(one)
    stubs = [_stub(design, alike, n) for n, alike in enumerate(groups.values())]
    return [_body(design, made), *stubs]


def _body(design: Design, made: Made) -> Drawing:
    half, low, radius = made.body / 2, -made.engaged, made.bore / 2
    major = made.thread.major / 2
    through = made.drilled >= made.length - 1e-9

    def views(scale: float) -> tuple[View, ...]:
        outline = [(low, major), (0.0, major), (0.0, half), (made.length, half)]
        way = [(low, radius), (made.drilled, radius)]
        if through:
            side: Drawn = list(cut(outline, way, "manifold"))
        else:
            upper = [*reversed(way), *outline]
            lower = [(x, -y) for x, y in reversed(upper)]
            side = [polygon([*upper, *lower], "section", "manifold"), *edges(way)]
        side += [*thread(low, 0.0, made.thread.minor), axis_line(low, made.length, scale)]
        places = sorted({round(one.start, 9) for one in made.stubs if one.emerges})
        side += [Path(np.array([[x, -half - 3 / scale], [x, half + 3 / scale]]), "centre")
                 for x in places]  # fmt: skip
        spans = [*((0.0, x, "") for x in places), (low, 0.0, ""), overall(low, made.length)]
        side += rows("below", -half, spans, scale)
        deep = [] if through else [(0.0, made.drilled, "")]
        side += rows("above", half, deep, scale, [radius] * len(deep))
        side += rows("left", low, [overall(-radius, radius, "⌀<>"),
                                   overall(-major, major, made.thread.designation)],
                     scale)  # fmt: skip
        side += rows("right", made.length, [overall(-half, half, "⌀<>")], scale)
        end: Drawn = [Outline(hole((0.0, 0.0), made.body).corners, "outline", "metal"),
                      Circle((0.0, 0.0), major),
                      Outline(hole((0.0, 0.0), made.bore).corners, "outline", "paper")]  # fmt: skip
        end += centre_lines((0.0, 0.0), half, scale)
        top = LINE * (len(made.stubs) - 1) / 2 / scale
        # those that point highest have the highest line, so that few leaders cross
        for n, one in enumerate(sorted(made.stubs, key=lambda stub: -stub.direction[1])):
            _, up, right = one.direction
            tip = half + 6.0 / scale
            if one.emerges:
                end.append(Path(np.array([[0.0, 0.0], [tip * right, tip * up]]), "centre"))
            words = (half + 16.0 / scale, top - LINE * n / scale)
            at = (half * right, half * up) if one.emerges else None
            end.append(Label(_words(one), words, "start", at))
        return (View("elevation", tuple(side)), View("end", tuple(end), "from the supply end"))

    clocking = ""
    if made.skim:
        clocking = (
            f" Skim {length(made.skim)} off the shoulder of the supply end, or a washer of "
            f"{length(made.washer or 0.0)}, so that it stands upright when tight."
        )
    return Drawing(
        key="manifold", title="Manifold", material=design.fitting.manifold.metal, count=1,
        views_at=views,
        notes=(
            "Angles clockwise from up, seen from the supply end; the axes of all branches meet "
            f"that of the body.{clocking}",
            "Drill the branches after the supply's bore, with the body in a dividing head. Take "
            "off all burrs inside. Try it with cold water before it sees steam.",
        ),
        tolerance=f"Places ±{length(0.1)}, angles ±1°; shoulder square within {FINE}{ELSE}",
    )  # fmt: skip


def _words(one: Stub) -> str:
    into = (
        "in one" if one.hole is None else
        f"bore ⌀{length(one.joint.best)}" if one.joint is not None else
        f"tap {one.thread.designation}"
    )  # fmt: skip
    lean = "" if abs(one.branch.lean - 90) < 1e-9 else f", leans {one.branch.lean:g}°"
    turn = f"{one.branch.clocking % 360:g}°" if one.emerges else "far end"
    return f"{one.number}: {turn}, {into}, way ⌀{length(one.bore)}{lean}"


def _stub(design: Design, alike: list[Stub], n: int) -> Drawing:
    one = alike[0]
    major, radius = one.thread.major / 2, one.bore / 2
    long, screwed = one.over_all, min(one.nut + FREE * one.thread.pitch, one.over_all)

    def views(scale: float) -> tuple[View, ...]:
        side: Drawn = list(
            cut([(0.0, major), (long, major)], [(0.0, radius), (long, radius)], "branch")
        )
        side += [*thread(long - screwed, long, one.thread.minor), axis_line(0.0, long, scale)]
        side += rows("below", -major, [overall(0.0, long), (long - screwed, long, "")], scale)
        side += rows("left", 0.0, [overall(-radius, radius, "⌀<>")], scale)
        side += rows("right", long, [overall(-major, major, one.thread.designation)], scale)
        return (View("elevation", tuple(side)),)

    into = one.over_all - (one.long - one.emerges)
    numbers = ", ".join(f"{stub.number} {stub.branch.name[:30]}" for stub in alike)
    how = (
        f"Thread the other end {length(into)} as well, into the body." if one.joint is None else
        f"{length(into)} stand in the body; plain there, {length(one.joint.cold)} of gap all "
        f"round for {one.joint.alloy.name}."
    )  # fmt: skip
    turned = [
        f"{stub.number}: skim {length(stub.skim)} or washer {length(stub.washer or 0.0)}"
        for stub in alike if stub.skim
    ]  # fmt: skip
    clocked = f" To its clocking: {'; '.join(turned)}." if turned else ""
    seat = f"Seat for the union's nipple at the right; union nut {length(one.flats)} across flats."
    if abs(math.sin(math.radians(one.branch.lean))) < 0.999 and one.emerges:
        seat += " Cut the left end to the lean, hollow to the supply's bore."
    return Drawing(
        key="manifold-branch" if n == 0 else f"manifold-branch-{n + 1}",
        title="Branch of the manifold", material=design.fitting.manifold.stub, count=len(alike),
        views_at=views,
        notes=(f"{numbers}. {how}", f"{seat}{clocked}"),
        tolerance=f"Thread and bore true within {FINE}{ELSE}",
    )  # fmt: skip
