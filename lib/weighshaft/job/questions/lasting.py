"""Which cut-off and which lap make the longest run?"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ...design.document import DesignRefused
from ...motion import MotionLocks
from ...motion.gears import LAPLESS
from ...motion.proportions import fitted
from ...pictures.scene import Chart, Curve, Pen, Table
from ...sizes import SizeError
from .answer import LARGE, Answer, Change, NotAnswered, Question
from .varied import OTHERWISE, Asked, Pair, band, with_coefficients

QUESTION = Question(
    "run", "Cut-off and lap for the longest run",
    "Which cut-off and which lap take this train furthest on a litre of water?",
)  # fmt: skip
FULL_GEARS = (65.0, 72.0, 78.0, 84.0)
"""Cut-offs in full gear, per cent, for which lap and gear are retuned."""
FIRST = (1.0, 0.5)
"""Pressures marched first, over the working pressure."""
LEAST = 0.1
"""bar; below that no regulator is held steady."""
_NOTCH, _LAP = "motion.running_notch", "motion.valve.steam_lap"
_PENS: tuple[Pen, ...] = ("outline", "thin", "trace", "changed", "hidden")
_SAME = 0.01
"""Part of the water below which two gears are not told apart."""


@dataclass(frozen=True)
class Gear:
    """A gear tried: what it is called, the engine with it, and what has to change for it."""

    name: str
    pair: Pair
    changes: Change


def gears(asked: Asked) -> list[Gear]:
    """Return the gear as it stands, and retuned for other cut-offs in full gear."""
    base, chosen = asked.base, asked.design.motion
    lap = chosen.valve.steam_lap
    made = [Gear(f"as it is (lap {lap:.2f} mm)", base, ())]
    if isinstance(chosen.gear, LAPLESS):
        return made
    for cutoff in FULL_GEARS:
        wanted = replace(chosen.wanted, cutoff=cutoff)
        try:
            gear, lap = fitted(chosen.gear, asked.design.cylinders.crank, chosen.valve, wanted)
            changes = (
                *(
                    (f"motion.gear.{one.name}", round(value, 4))
                    for one in dataclasses.fields(gear)
                    if (value := getattr(gear, one.name)) != getattr(chosen.gear, one.name)
                ),
                (_LAP, round(lap, 4)),
                ("motion.wanted.cutoff", cutoff),
            )
            pair = asked.with_(dict(changes))
        except (SizeError, MotionLocks, DesignRefused):
            continue
        made.append(Gear(f"retuned to {cutoff:g} % in full gear (lap {lap:.2f} mm)", pair, changes))
    return made


def water(asked: Asked, tried: Sequence[tuple[Pair, float]], needed: float) -> list[float | None]:
    """Return the water for a kilometre, kg, with the regulator as far open as the pull needs.

    Parameters
    ----------
    tried : engines, each with a notch.
    needed : indicated pull, N.

    None where an engine cannot pull it.  The regulator is taken as so much less pressure in
    front of one that is wide open: two pressures tell roughly how much, a third is marched there.
    """
    pressures = [np.array(FIRST) * pair[1].pressure for pair, _ in tried]
    steps = asked.steps
    seen = asked.marching.all(
        [
            asked.condition(pair, notch=notch, pressure=float(p), steps=steps)
            for (pair, notch), both in zip(tried, pressures, strict=True)
            for p in both
        ],
        expected=True,
    )  # fmt: skip
    third: list[float | None] = []
    for i, (high, low) in enumerate(pressures):
        whole, half = seen[2 * i], seen[2 * i + 1]
        slope = (whole.pull - half.pull) / (high - low)
        if whole.refused or half.refused or whole.pull < needed or slope <= 0:
            third.append(None)
        else:
            third.append(max(low + (needed - half.pull) / slope, LEAST))
    able = [i for i, one in enumerate(third) if one is not None]
    asked.marching.expects(len(able) - len(tried))
    last = asked.marching.all(
        [
            asked.condition(tried[i][0], notch=tried[i][1], pressure=third[i], steps=steps)
            for i in able
        ],
        expected=True,
    )  # fmt: skip
    made: list[float | None] = [None] * len(tried)
    for i, there in zip(able, last, strict=True):
        pressure = third[i]
        assert pressure is not None
        near = seen[2 * i] if pressure > pressures[i].mean() else seen[2 * i + 1]
        if there.refused:
            continue
        # what the guess missed goes along the line to the nearer of the first two
        run = near.pull - there.pull
        part = (needed - there.pull) / run if abs(run) > 0.02 * abs(needed) else 0.0
        rate = there.steam + min(max(part, -0.5), 0.5) * (near.steam - there.steam)
        made[i] = rate / (asked.speed / 3600)
    return made


def answer(asked: Asked) -> Answer:
    """Return gear and notch that need the least water for a kilometre at the pull needed."""
    held = asked.resistance()
    needed = held.at(asked.speed / 3.6) + held.machine
    tried, notches = gears(asked), asked.notches
    count = len(tried) * len(notches)
    asked.marching.expects(3 * (count + 2 * len(OTHERWISE)))
    pairs = [(one.pair, notch) for one in tried for notch in notches]
    flat = water(asked, pairs, needed)
    rows = [flat[i * len(notches) : (i + 1) * len(notches)] for i in range(len(tried))]
    known = [(one, i) for i, one in enumerate(flat) if one is not None]
    if not known:
        raise NotAnswered(
            f"The train needs {needed:.1f} N at {asked.speed:.3g} km/h on the level, and no notch "
            "gives as much at working pressure: a lighter train or a larger bore would do."
        )
    best, at = min(known)
    # the same gear in another notch comes before a gear that saves next to nothing
    own = [(one, i) for one, i in known if i < len(notches)]
    if own and min(own)[0] <= (1 + _SAME) * best:
        best, at = min(own)
    gear, notch = tried[at // len(notches)], notches[at % len(notches)]
    now_at = notches.index(asked.notch)
    now = rows[0][now_at]
    spread = _band(asked, gear, notch)
    change: Change = gear.changes
    if notch != asked.design.motion.running_notch:
        change = (*change, (_NOTCH, notch))
    bought = asked.unsettled(path for path, _ in change)
    less = "" if now is None else (
        f"; as it runs now, notch {asked.notch:g}, it is {1000 * now:.0f} g"
        if now > best * 1.002 else "; that is how it runs now"
    )  # fmt: skip
    alone = len(tried) == 1
    return Answer(
        question=QUESTION,
        says=f"To pull {needed:.1f} N at {asked.speed:.3g} km/h on the level, notch {notch:g} with "
        f"the gear {gear.name} takes the least water, {1000 * best:.0f} g for a kilometre{less}. "
        + ("The lap was not varied: this gear is not retuned for one. " if alone else
           "For other laps the gear was retuned to the lead and opening wanted. ")
        + f"The regulator gives just that pull.{bought}",
        uncertain=_uncertain(spread),
        pictures=(_chart(notches, tried, rows), _table(notches, tried, rows)),
        figures={
            "needed": needed, "notch": notch, "water_per_km": best,
            "lap": float(gear.pair[1].moved.valve.steam_lap),
            **({} if now is None else {"water_per_km_now": now}),
            **({} if spread is None else {"water_least": spread[0], "water_most": spread[1]}),
        },
        change=() if bought else change,
        offer=f"Take notch {notch:g}" + (f" and the gear {gear.name}" if gear.changes else ""),
    )  # fmt: skip


def _band(asked: Asked, gear: Gear, notch: float) -> tuple[float, float] | None:
    """Return the water with the coefficients at the ends of what was seen."""
    held = asked.resistance()
    needed = held.at(asked.speed / 3.6) + held.machine
    pairs = [(with_coefficients(gear.pair, one), notch) for _, one in OTHERWISE]
    return band(water(asked, pairs, needed))


def _uncertain(spread: tuple[float, float] | None) -> str:
    if spread is None:
        return f"{LARGE}; with some of them the engine would not pull this train at all."
    return (
        f"{LARGE}: with a film of 8000 or 40,000 W/(m² K), or ports that pass 0.6 or 0.9, the "
        f"water comes to {1000 * spread[0]:.0f} to {1000 * spread[1]:.0f} g. Which notch is best "
        "is surer than how much it takes; grades, curves and stops are left out."
    )


def _chart(
    notches: Sequence[float], tried: Sequence[Gear], rows: Sequence[Sequence[float | None]]
) -> Chart:
    curves = []
    for i, (gear, row) in enumerate(zip(tried, rows, strict=True)):
        known = [(n, 1000 * w) for n, w in zip(notches, row, strict=True) if w is not None]
        if known:
            x, y = np.array(known).T
            if len(x) == 1:  # a single notch is drawn as a short stroke
                x, y = np.array([x[0] - 0.02, x[0] + 0.02]), np.repeat(y, 2)
            curves.append(Curve(x, y, gear.name, _PENS[i % len(_PENS)]))
    return Chart(
        "Water for a kilometre at the pull needed",
        "Against the notch of the reverser, the regulator opened just as far as the pull needs.",
        "reverser", "water for a km, g", tuple(curves),
    )  # fmt: skip


def _table(
    notches: Sequence[float], tried: Sequence[Gear], rows: Sequence[Sequence[float | None]]
) -> Table:
    return Table(
        "Water for a kilometre, g", ("Gear", *(f"Notch {one:g}" for one in notches)),
        tuple(
            (gear.name, *("cannot" if w is None else f"{1000 * w:.0f}" for w in row))
            for gear, row in zip(tried, rows, strict=True)
        ),
        note="“Cannot”: less than the pull needed even at working pressure.",
    )  # fmt: skip
