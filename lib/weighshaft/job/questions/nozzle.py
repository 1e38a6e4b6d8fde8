"""Which blast nozzle suits this boiler?"""

from __future__ import annotations

import numpy as np

from ...draught import FrontEnd
from ...draught.front import size_for
from ...draught.judgement import NARROW
from ...draught.results import Scan
from ...pictures.scene import Chart, Curve, Table
from ...steam import all_ran
from ...trade.drills import at_or_below
from .answer import LARGE, Answer, NotAnswered, Question
from .varied import OTHERWISE, Array, Asked, Pair, band, with_coefficients

QUESTION = Question(
    "nozzle", "Nozzle for this boiler",
    "Which blast nozzle draws what the fire needs and costs the least pull?",
)  # fmt: skip
SIZES = tuple(np.geomspace(0.55, 2.2, 9))
"""Nozzles tried, over the present one."""
OUT = (0.4, 1.5)
"""What full-size engines drew, over what the ejector's reckoning gave; see `draught`."""
_PATH = "nozzle.diameter"


def answer(asked: Asked) -> Answer:
    """Return the greatest nozzle whose draught is what the fire wants, and what it costs."""
    drawn, blast = asked.worked.draught, asked.worked.nozzle
    if drawn is None or blast is None or blast.layout is None or not drawn.needed > 0:
        raise NotAnswered(
            "Blast and draught cannot be worked for this design yet: mend the findings of the "
            "nozzle and of the draught first."
        )
    present = float(asked.design.nozzle.diameter)
    sizes = np.array(SIZES) * present
    pairs = [asked.with_({_PATH: float(one)}) for one in sizes]
    asked.marching.expects(len(sizes) + 2 + len(OTHERWISE) * len(sizes))
    pull, steam, _ = _marched(asked, pairs)
    scan, needed = _draught(asked, sizes, steam)
    wanted = np.minimum(needed * asked.design.draught.margin, drawn.most)
    found = _greatest(scan, wanted)
    chart, table = _pictures(sizes, pull, scan, needed, wanted)
    if found is None:
        below = bool(np.nanmax(scan.draught - wanted) < 0)
        return Answer(
            question=QUESTION, figures={"present": present, "wanted": float(wanted.mean())},
            says=f"None of the nozzles from {sizes[0]:.2f} to {sizes[-1]:.2f} mm draws just the "
            f"{wanted.mean():.3g}{NARROW}mm of water that the fire wants: "
            + ("all draw less; chimney or tubes have to change." if below
               else "all draw more, so the widest is the one that costs least."),
            uncertain=f"{LARGE}; the draught besides stood at {OUT[0]:g} to {OUT[1]:g} of what "
            "was reckoned.",
            pictures=(chart, table),
        )  # fmt: skip
    drill = at_or_below(found, asked.design.threads.rack.sets)
    size = round(float(drill.diameter), 3)
    other, own = asked.marching.all(
        [asked.condition(asked.with_({_PATH: one}), steps=asked.steps) for one in (size, present)],
        expected=True,
    )  # fmt: skip
    all_ran([other, own])
    gained = 100 * (other.pull / own.pull - 1) if own.pull > 0 else 0.0
    by_draught = [_greatest(scan, needed / one) for one in OUT]
    by_steam = []
    for _, one in OTHERWISE:
        _, rate, _ = _marched(asked, [with_coefficients(pair, one) for pair in pairs])
        seen, need = _draught(asked, sizes, rate)
        by_steam.append(_greatest(seen, np.minimum(need * asked.design.draught.margin, drawn.most)))
    rough, spread = band([*by_draught, size]), band([*by_steam, size])
    assert rough is not None
    assert spread is not None
    same = abs(size - present) < 0.005 * present
    bought = asked.unsettled([_PATH])
    # a narrow space, since the name of a drill is no measure that a page's switch may change
    named = drill.name.replace(" ", NARROW)
    return Answer(
        question=QUESTION,
        says=f"A nozzle of {size:.2f} mm (drill {named}) draws the "
        f"{np.interp(size, sizes, wanted):.3g}{NARROW}mm of water that the fire wants at "
        f"{asked.speed:.3g} km/h, with {other.blast:.2f} bar in the blast pipe; "
        + ("that is the present one." if same else
           f"the present {present:.2f} mm has {own.blast:.2f} bar, and the pull {_gains(gained)}.")
        + bought,
        uncertain="Draught is reckoned roughly: full-size engines drew "
        f"{OUT[0]:g} to {OUT[1]:g} of it, for which {rough[0]:.2f} to {rough[1]:.2f} mm would "
        f"just do. {LARGE}: with these at the ends of what was seen it is {spread[0]:.2f} to "
        f"{spread[1]:.2f} mm. Begin with the smaller drill and open it out.",
        pictures=(chart, table),
        figures={
            "nozzle": size, "present": present, "blast": other.blast, "blast_now": own.blast,
            "pull_gained": gained, "nozzle_least": min(rough[0], spread[0]),
            "nozzle_most": max(rough[1], spread[1]),
        },
        change=() if bought or same else ((_PATH, size),), offer=f"Take drill {named}",
    )  # fmt: skip


def _gains(gained: float) -> str:
    if abs(gained) < 0.1:
        return "hardly changes"
    return f"{'gains' if gained > 0 else 'loses'} {abs(gained):.1f} % by the change"


def _marched(asked: Asked, pairs: list[Pair]) -> tuple[Array, Array, Array]:
    """Return pull, N, steam, kg/s, and mean pressure in the blast pipe, bar, of engines."""
    outcomes = asked.marching.all(
        [asked.condition(one, steps=asked.steps) for one in pairs], expected=True
    )
    all_ran([one for one in outcomes if one.refused][:1])
    rows = np.array([(one.pull, one.steam, one.blast) for one in outcomes])
    return rows[:, 0], rows[:, 1], rows[:, 2]


def _draught(asked: Asked, sizes: Array, steam: Array) -> tuple[Scan, Array]:
    """Return the draught of each nozzle with its own steam, and what the fire needs for that."""
    front = FrontEnd(asked.design.draught, asked.design.nozzle)
    layout, worked = asked.worked.nozzle.layout, asked.worked.draught
    rows = [
        front.by_nozzle(layout, float(rate), np.array([size]))
        for size, rate in zip(sizes, steam, strict=True)
    ]
    scan = Scan(
        sizes, *(
            np.array([getattr(one, name)[0] for one in rows])
            for name in ("draught", "back_pressure", "over_steam")
        )
    )  # fmt: skip
    # gases go with the steam, and the draught that they need with their square
    needed: Array = worked.needed * (1000 * steam / worked.steam) ** 2
    return scan, needed


def _greatest(scan: Scan, wanted: Array) -> float | None:
    """Return the greatest nozzle that still draws what is wanted."""
    return size_for(Scan(scan.size, scan.draught / wanted, scan.back_pressure, scan.over_steam), 1)


def _pictures(
    sizes: Array, pull: Array, scan: Scan, needed: Array, wanted: Array
) -> tuple[Chart, Table]:
    known = np.isfinite(scan.draught)
    chart = Chart(
        "What nozzles draw, and what the fire wants",
        "Draught against the nozzle's diameter, with the steam of the true cycle; where the lines "
        "cross, blast and fire agree.",
        "nozzle, mm", "draught, mm water",
        (
            Curve(sizes[known], scan.draught[known], "drawn", "outline"),
            Curve(sizes, needed, "needed", "thin"),
            Curve(sizes, wanted, "wanted, with the margin", "changed"),
        ),
    )  # fmt: skip
    most = max(float(np.max(pull)), 1e-9)
    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (float(size), f"{value:.3g}" if np.isfinite(value) else "none", f"{want:.3g}",
         f"{100 * one / most:.1f}")
        for size, value, want, one in zip(sizes, scan.draught, wanted, pull, strict=True)
    )  # fmt: skip
    return chart, Table(
        "Nozzles tried",
        ("Nozzle", "Draws, mm water", "Fire wants, mm water", "Pull, % of the most"), rows,
    )  # fmt: skip
