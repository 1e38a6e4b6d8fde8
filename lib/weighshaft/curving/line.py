"""The curves and turnouts of the line: the sharpest, and those that standards name."""

from __future__ import annotations

import re

from ..trade.tracks import curve_rules
from ..trade.turnouts import turnout, turnouts
from ..working import Working
from . import relations
from .decisions import BY_NUMBER, CurvedLine
from .results import LineCurve

_GAUGE = re.compile(r"\(([\d.]+) mm\)")
_CURVES = ("permitted minimum", "station side track", "branch main track", "main line")


def sharpest(line: CurvedLine, gauge: float) -> tuple[float | None, tuple[Working, ...]]:
    """Return the radius of the sharpest turnout of the line, mm, and the way to it."""
    if line.turnout == "none":
        return None, ()
    if line.turnout != BY_NUMBER:
        return turnout(line.turnout).at(gauge), ()
    relation = (
        relations.turnout_radius if line.form == "curved throughout"
        else relations.straight_turnout_radius
    )  # fmt: skip
    working = relation.work("Radius of the sharpest turnout", "mm", G=gauge, N=line.crossing)
    return working.result, (working,)


def published(
    gauge: float, smallest: float, chosen: tuple[str, float | None]
) -> tuple[LineCurve, ...]:
    """Return the curves and turnouts that standards name, in proportion to the gauge.

    Parameters
    ----------
    gauge : of the track, mm.
    smallest : radius that the engine goes round, mm.
    chosen : name and radius of the line's own sharpest turnout, None without one.
    """
    made = []
    for one in curve_rules():
        own = _GAUGE.search(one.gauge)
        if own is None or one.unit != "mm" or one.case not in _CURVES:
            continue
        radius = one.value / float(own.group(1)) * gauge
        name = f"{one.standard}, {one.case}, {one.group}"
        made.append(LineCurve(name, radius, radius >= smallest, one.sources))
    for each in turnouts():
        radius = each.at(gauge)
        made.append(LineCurve(each.name, radius, radius >= smallest, each.sources))
    name, own_radius = chosen
    if name == BY_NUMBER and own_radius is not None:
        made.append(
            LineCurve("the line's own turnout", own_radius, own_radius >= smallest, "geometry")
        )
    rows = {one.name: one for one in made}.values()  # narrow gauges repeat themselves
    picked = "the line's own turnout" if name == BY_NUMBER else name
    return tuple(
        LineCurve(one.name, one.radius, one.passes, one.sources, one.name == picked)
        for one in sorted(rows, key=lambda each: each.radius)
    )
