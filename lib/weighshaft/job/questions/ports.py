"""How small may the steam ports be?"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from ... import steam
from ...design.document import DesignRefused
from ...pictures.scene import Band, Chart, Curve, Table
from ...steam.engine import valve_gap
from ...steam.openings import port_length
from .answer import LARGE, Answer, NotAnswered, Question
from .varied import OTHERWISE, Array, Asked, Pair, band, crossing, with_coefficients, with_valve

QUESTION = Question(
    "ports", "Smallest steam ports",
    "How small may the steam ports be, if they are to cost no more than 5 % of the pull?",
)  # fmt: skip
LOSS = 5.0
"""Per cent of the pull that ports may cost (common practice)."""
WIDTHS, TRIED = (0.12, 1.6), 7
"""Least and greatest width tried, over the present one, and how many."""
CUTTER = 0.4
"""Least width tried, mm: the thinnest cutter for a port (common practice)."""
LENGTHS = (0.4, 0.55, 0.7, 0.85)
"""Lengths tried, over the bore; longer ones leave no wall beside them (common practice)."""
STEP = 0.05
"""What widths are rounded up to, mm."""
FREE = 6.0
"""Times as long as the present port is one that costs nothing."""
AS_IS: Mapping[str, float] = {}
_WIDTH, _LENGTH = "motion.valve.port_width", "motion.valve.port_length"


def free_of(pair: Pair) -> Pair:
    """Return the engine with ports that cost nothing, leaking no more than its own do."""
    side, engine = pair
    valve = engine.moved.valve
    length, width = port_length(valve, engine.bore), valve.port_width
    gap = valve_gap(side, engine) * (length + width) / (FREE * length + width)
    side = replace(side, assumed=replace(side.assumed, valve_gap=gap))
    return with_valve((side, engine), port_length=FREE * length)


def losses(
    asked: Asked, sizes: list[tuple[float, float]], otherwise: Mapping[str, float] = AS_IS
) -> Array:
    """Return what ports of these widths and lengths, mm, cost of the pull, per cent.

    Counted from the greatest pull of all these ports and of `free_of`; all valves ride on the
    same gap.  Ports that the other sizes leave no room for cost all.

    Parameters
    ----------
    otherwise : coefficients other than the design's.
    """
    side, engine = asked.base
    otherwise = {"valve_gap": valve_gap(side, engine), **otherwise}
    found = [_with_ports(asked, *one) for one in sizes]
    tried = [with_coefficients(one, otherwise) for one in found if one]
    asked.marching.expects(len(tried) - len(sizes))
    steps = asked.steps
    free_side, free_engine = free_of(asked.base)
    leaks = free_side.assumed.valve_gap or 0.0
    free = with_coefficients((free_side, free_engine), {**otherwise, "valve_gap": leaks})
    outcomes = asked.marching.all(
        [asked.condition(one, steps=steps) for one in (free, *tried)], expected=True
    )
    steam.all_ran(outcomes[:1])
    # ports may be too large as well: what opens late and shuts early saves steam and pull
    most = max(one.pull for one in outcomes)
    if most <= 0:
        raise NotAnswered(
            f"At {asked.speed:.3g} km/h in this notch the engine pulls nothing even with ports "
            "that cost nothing; slower running or a longer cut-off would do."
        )
    # what cannot run pulls nothing, and so costs all
    seen = iter(outcomes[1:])
    return np.array([100 * (1 - next(seen).pull / most) if one else 100.0 for one in found])


def _with_ports(asked: Asked, width: float, length: float) -> Pair | None:
    try:
        return asked.with_({_WIDTH: width, _LENGTH: length})
    except DesignRefused:
        return None


def answer(asked: Asked) -> Answer:
    """Return the smallest port, by area, that costs no more than `LOSS`."""
    if not asked.slide_valve:
        raise NotAnswered(
            "The ports of an oscillating cylinder are round holes that its swing opens; this "
            "question is for slide and piston valves."
        )
    base = asked.base
    engine = base[1]
    valve, bore = engine.moved.valve, engine.bore
    narrow, wide = (one * valve.port_width for one in WIDTHS)
    narrow = max(narrow, CUTTER)
    widths = np.geomspace(narrow, max(wide, 2 * narrow), TRIED)
    lengths = np.array(LENGTHS) * bore
    asked.marching.expects(4 + len(widths) * len(lengths) + len(OTHERWISE) * (1 + len(widths)))
    grid = [(float(w), float(n)) for n in lengths for w in widths]
    own = (valve.port_width, port_length(valve, bore))
    cost = losses(asked, [*grid, own])
    table, present = cost[:-1].reshape(len(lengths), len(widths)), float(cost[-1])
    least = [crossing(widths, row, LOSS) for row in table]
    found = [(w * n, w, float(n)) for w, n in zip(least, lengths, strict=True) if w is not None]
    drawn = _chart(widths, lengths, table)
    if not found:
        return Answer(
            question=QUESTION, figures={"present_loss": present},
            says=f"No port that was looked at, up to {widths[-1]:.2f} × {lengths[-1]:.1f} mm, "
            f"costs as little as {LOSS:g} % of the pull at {asked.speed:.3g} km/h; the present "
            f"one costs {present:.1f} %. The valve opens it too little: more travel would help, "
            "or slower running.",
            uncertain=f"{LARGE}.", pictures=(drawn,),
        )  # fmt: skip
    _, width, length = min(found)
    length = round(length, 1)
    width = math.ceil(width / STEP - 1e-6) * STEP
    checked = float(losses(asked, [(width, length)])[0])
    if checked > LOSS:
        width += STEP
        asked.marching.expects(2)
        checked = float(losses(asked, [(width, length)])[0])
    others: list[float | None] = [
        crossing(
            widths,
            losses(asked, [(float(w), length) for w in widths], one), LOSS,
        )
        for _, one in OTHERWISE
    ]  # fmt: skip
    width = round(width, 2)
    spread = band([*others, width])
    beyond = "" if None not in others else "; with some of these no width looked at is enough"
    change = ((_WIDTH, width), (_LENGTH, length))
    bought = asked.unsettled(path for path, _ in change)
    floor = " Narrower ones were not looked at." if width <= narrow + STEP else ""
    assert spread is not None
    return Answer(
        question=QUESTION,
        says=f"Ports of {width:.2f} × {length:.1f} mm cost {checked:.1f} % of the pull at "
        f"{asked.speed:.3g} km/h, and are the smallest of those looked at that cost no more than "
        f"{LOSS:g} %; the present "
        f"{own[0]:.2f} × {own[1]:.1f} mm cost {present:.1f} %. Lap, travel and passages stay as "
        f"they are.{floor}{bought}",
        uncertain=f"{LARGE}: with a film of 8000 or 40,000 W/(m² K), or ports that pass 0.6 or "
        f"0.9, the least width comes to {spread[0]:.2f} to {spread[1]:.2f} mm{beyond}.",
        pictures=(drawn, _table(lengths, least, base)),
        figures={
            "width": width, "length": length, "loss": checked, "present_loss": present,
            "width_least": spread[0], "width_most": spread[1],
        },
        change=() if bought else change, offer=f"Take {width:.2f} × {length:.1f} mm",
    )  # fmt: skip


def _chart(widths: Array, lengths: Array, table: Array) -> Chart:
    last = float(np.min(table[-1]))
    return Chart(
        "What steam ports cost",
        f"Of the pull, against the width of the port, for lengths of {lengths[0]:.1f} to "
        f"{lengths[-1]:.1f} mm; the widest and longest still costs {last:.1f} %.",
        "port width, mm", "pull lost, %",
        tuple(
            Curve(widths, np.maximum(row, 0.0), f"{n:.1f} mm long",
                  ("outline", "thin", "trace", "changed")[i])
            for i, (n, row) in enumerate(zip(lengths, table, strict=True))
        ),
        bands=(Band(0.0, LOSS, f"{LOSS:g} % and less"),),
    )  # fmt: skip


def _table(lengths: Array, least: list[float | None], base: Pair) -> Table:
    rows: list[tuple[str | float, ...]] = []
    for n, w in zip(lengths, least, strict=True):
        load = "none" if w is None else f"{w * n:.1f}"
        rows.append((float(n), "none looked at" if w is None else float(w), load))
    return Table(
        f"Least width for {LOSS:g} %", ("Port length", "Least width", "Area, mm²"), tuple(rows),
        note="A smaller port is a smaller slide valve, and less load on its spindle.",
    )  # fmt: skip
