"""Blast nozzle, chimney with its petticoat, and connectors, drawn with their sizes."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from ...design import Design
from ...nozzle.cones import Layout
from ...threads.connector import ConnectorFit
from ...threads.joints import JointResult
from ..lengths import length
from ..scene import Circle, Label, Path, Primitive
from .dimensions import chain, overall, rows
from .lathe import axis_line, cut, thread
from .sheet import Drawing, Outline, View, centre_lines, hole
from .shop import ELSE, FINE

Drawn = list[Primitive | Outline]
_FLARE = np.linspace(0.0, math.pi / 2, 49)
_ENGAGED = 1.0
"""Thread at the ends of a connector, in its diameters; common practice."""


def fitting_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return nozzle, chimney and connector, as far as they are decided."""
    made = []
    if work.threads is not None:
        screwed = work.threads.joint("nozzle")
        if work.nozzle is not None and screwed is not None:
            made.append(blast_nozzle(design, work, screwed))
    if work.nozzle is not None and work.nozzle.layout is not None:
        made.append(chimney(design, work.nozzle.layout))
    if work.threads is not None and design.threads.connector.length is not None:
        made.append(connector(design, work.threads.connector, work.threads))
    return made


def blast_nozzle(design: Design, work: Any, screwed: JointResult) -> Drawing:
    """Return the nozzle in section, its tip to the right, and from below."""
    bore = design.nozzle.diameter
    inside, major = max(screwed.hole, bore) / 2, screwed.one.major / 2
    engaged, across = screwed.engagement, screwed.across_flats
    collar = 0.5 * major
    # a tip half as wide again as the hole, a cone of half its length to it: common practice
    tip = max(0.9 * bore, bore / 2 + 0.5)
    rise = max(1.2 * bore, major)

    def views(scale: float) -> tuple[View, ...]:
        top = engaged + collar + rise
        head = engaged + collar
        outside = [(0.0, major), (engaged, major), (engaged, across / 2), (head, across / 2),
                   (head, major), (top, tip)]  # fmt: skip
        way = [(0.0, inside), (head, inside), (top - 0.5 * bore, bore / 2), (top, bore / 2)]
        side = cut(outside, way)
        side += [axis_line(0.0, top, scale), *thread(0.0, engaged, screwed.one.minor)]
        out = max(across / 2, major)
        side += rows("below", -out, [*chain([0.0, engaged]), (engaged, head, "(<>)"),
                                     overall(0.0, top, "(<>)")], scale)  # fmt: skip
        side += rows("left", 0.0, [overall(-inside, inside, "⌀<>"),
                                   overall(-major, major, screwed.one.designation)],
                     scale)  # fmt: skip
        side += rows("right", top, [overall(-bore / 2, bore / 2, "⌀<>"),
                                    overall(-tip, tip, "(⌀<>)")], scale)  # fmt: skip
        corner = across / math.sqrt(3)
        six = [(corner * math.cos(t), corner * math.sin(t)) for t in np.arange(6) * math.pi / 3]
        end: Drawn = [Outline(tuple((x, y, 0.0) for x, y in six))]
        end += [hole((0.0, 0.0), 2 * major), hole((0.0, 0.0), 2 * inside)]
        if inside > bore / 2:
            end.append(hole((0.0, 0.0), bore))
        end += centre_lines((0.0, 0.0), corner, scale)
        end += rows("right", corner, [overall(-across / 2, across / 2)], scale)
        return (View("elevation", tuple(side)), View("end", tuple(end)))

    at = work.nozzle.layout
    place = "" if at is None else (
        f" Its tip stands {length(abs(at.tip))} {'below' if at.tip <= 0 else 'above'} the boiler "
        f"centre, {length(at.choke_at - at.tip)} under the choke."
    )  # fmt: skip
    return Drawing(
        key="blast-nozzle", title="Blast nozzle", count=1, material=design.threads.nozzle.male,
        views_at=views,
        notes=(
            f"Nozzle {length(bore)}: nearest drill {work.nozzle.own_drill}; leave it small and "
            "open it in steam, no burr at the tip." + place,
            "Lengths in brackets are common practice: the whole to bring the tip to its height. "
            "True with the chimney: test with a rod in the nozzle.",
        ),
        tolerance=f"Hole +{length(0.03)}, true to the thread within {FINE}{ELSE}",
    )  # fmt: skip


def flare(at: Layout) -> list[tuple[float, float]]:
    """Return the petticoat's bore from its mouth up to the choke: height and radius, mm.

    A quarter of an ellipse that leaves the choke without a corner; common practice.
    """
    choke, mouth = at.choke / 2, at.mouth / 2
    down = at.choke_at - at.mouth_at
    return [
        (at.choke_at - down * math.sin(t), mouth + (choke - mouth) * math.cos(t))
        for t in _FLARE[::-1]
    ]


def chimney(design: Design, at: Layout) -> Drawing:
    """Return chimney and petticoat in section on their common axis, the top to the right."""
    outside = design.nozzle.smokebox.chimney_outside
    wall = max(0.6, 0.5 * (outside - at.top_bore)) if outside else 0.06 * at.choke + 0.5
    foot = at.tip
    bell = [(y - foot, r) for y, r in flare(at)]
    top, choke, mouth = at.top - foot, at.choke_at - foot, at.mouth_at - foot
    widening = (at.top_bore - at.choke) / max(at.top - at.choke_at, 1e-9)

    def views(scale: float) -> tuple[View, ...]:
        inside = [*bell, (top, at.top_bore / 2)]
        shell = [*[(x, r + wall) for x, r in bell], (top, at.top_bore / 2 + wall)]
        side = [one for one in cut(shell, inside, "chimney") if isinstance(one, Outline)]
        drawn: Drawn = [*side]
        for x, r in ((mouth, at.mouth / 2), (top, at.top_bore / 2)):
            drawn.append(Path(np.array([[x, -r], [x, r]])))
        drawn.append(Path(np.array([[choke, -at.choke / 2], [choke, at.choke / 2]]), "thin"))
        drawn.append(axis_line(0.0, top, scale))
        tip = design.nozzle.diameter / 2
        drawn.append(Path(np.array([[0.0, -tip], [0.0, tip]])))
        low = -max(at.mouth / 2, at.top_bore / 2) - wall
        drawn += rows("below", low, [(0.0, mouth, ""), (mouth, choke, ""), (choke, top, ""),
                                     (0.0, choke, "")], scale)  # fmt: skip
        drawn += rows("left", 0.0, [overall(-at.mouth / 2, at.mouth / 2, "⌀<>")], scale, at=[mouth])
        right = [overall(-at.top_bore / 2, at.top_bore / 2, "⌀<>")]
        if outside:
            right.append(overall(-outside / 2, outside / 2, "⌀<>"))
        drawn += rows("right", top, right, scale)
        words = f"choke ⌀{length(at.choke)}"
        drawn.append(Label(words, (choke, -low + 8.0 / scale), "middle", (choke, at.choke / 2)))
        drawn.append(Label("nozzle tip", (0.0, -low + 8.0 / scale), "middle", (0.0, tip)))
        return (View("elevation", tuple(drawn)),)

    bells = ", ".join(
        f"⌀{length(2 * r)} at {length(x)}"
        for x, r in [_at(bell, mouth + share * (choke - mouth)) for share in (0.25, 0.5, 0.75)]
    )
    taper = "parallel" if abs(widening) < 1e-9 else f"1 in {1 / widening:.1f} on the diameter"
    return Drawing(
        key="chimney", title="Chimney and petticoat", count=1, material="brass", views_at=views,
        notes=(
            f"Drawn on its side, lengths from the nozzle's tip; chimney {taper} above the choke. "
            f"Petticoat a quarter of an ellipse: {bells} from the tip.",
            "Wall, cap and base are not decided here and drawn freely; the base is fitted to the "
            f"smokebox. Chimney, petticoat and nozzle on one axis within {length(0.2)}.",
        ),
        tolerance=f"Choke and its height ±{length(0.2)}; else ±{length(0.5)}",
    )  # fmt: skip


def _at(bell: list[tuple[float, float]], x: float) -> tuple[float, float]:
    xs, rs = zip(*bell, strict=True)
    return x, float(np.interp(x, xs, rs))


def connector(design: Design, fitted: ConnectorFit, threads: Any) -> Drawing:
    """Return a connector between two ports: its shoulders, threads and the hole through it."""
    decided = design.threads.connector
    between = decided.length or 0.0
    a, b = fitted.thread_a, fitted.thread_b
    joint = next((one for key in ("steam", "exhaust") if (one := threads.joint(key))
                  and one.one.designation in (a.designation, b.designation)), None)  # fmt: skip
    bored = joint.hole if joint and joint.hole else 0.5 * min(a.minor, b.minor)
    known = joint is not None and joint.hole > 0
    body = max(a.major, b.major) * 1.4

    def views(scale: float) -> tuple[View, ...]:
        left, right = -_ENGAGED * a.major, between + _ENGAGED * b.major
        outside = [(left, a.major / 2), (0.0, a.major / 2), (0.0, body / 2), (between, body / 2),
                   (between, b.major / 2), (right, b.major / 2)]  # fmt: skip
        side = cut(outside, [(left, bored / 2), (right, bored / 2)])
        side += [axis_line(left, right, scale), *thread(left, 0.0, a.minor),
                 *thread(between, right, b.minor)]  # fmt: skip
        side += rows("below", -body / 2, [(left, 0.0, "(<>)"), (0.0, between, ""),
                                          (between, right, "(<>)")], scale)  # fmt: skip
        side += rows("left", left, [overall(-a.major / 2, a.major / 2, a.designation)], scale)
        side += rows("right", right, [overall(-b.major / 2, b.major / 2, b.designation)], scale)
        end: Drawn = [hole((0.0, 0.0), body), hole((0.0, 0.0), a.major),
                      hole((0.0, 0.0), bored)]  # fmt: skip
        end.append(Circle((0.0, 0.0), a.minor / 2, "thin"))
        end += centre_lines((0.0, 0.0), body / 2, scale)
        size = "⌀<>" if known else "(⌀<>)"
        end += rows("below", -body / 2, [overall(-bored / 2, bored / 2, size),
                                         overall(-body / 2, body / 2, "(⌀<>)")], scale)  # fmt: skip
        return (View("elevation", tuple(side)), View("end", tuple(end)))

    says = [
        "Between two ports. Threads true to the shoulders, shoulders square. Hexagon or flats as "
        "the spanner asks; sizes in brackets are common practice."
    ]
    if decided.hands != "both right-hand":
        says.append("One end left-hand.")
    if fitted.skim:
        says.append(f"Skim {length(fitted.skim)} off the shoulder at end B so that it comes up "
                    "tight where it stands upright.")  # fmt: skip
    return Drawing(
        key="connector", title="Connector", count=1, material="brass",
        views_at=views, notes=tuple(says), tolerance=f"Between the shoulders ±{FINE}{ELSE}",
    )  # fmt: skip
