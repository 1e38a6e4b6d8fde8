"""Which bore for this train and grade?"""

from __future__ import annotations

import math

import numpy as np

from ...design.document import DesignRefused
from ...measures import circle_area
from ...pictures.scene import Chart, Curve, Table
from ...running.profile import profile_of
from ...steam import all_ran
from .answer import LARGE, Answer, NotAnswered, Question
from .varied import OTHERWISE, Array, Asked, Pair, band, with_coefficients

QUESTION = Question(
    "bore", "Bore for this train and grade",
    "Which bore pulls this train up the steepest rise, and what do rail and boiler say to it?",
)  # fmt: skip
SIZES = (0.45, 0.6, 0.75, 0.9, 1.05, 1.2, 1.4)
"""Bores tried, over the present one."""
STEP = 0.25
"""What a bore is rounded up to, mm."""
_PATH = "cylinders.bore"


def answer(asked: Asked) -> Answer:
    """Return the least bore that pulls the train up the steepest rise at running speed."""
    design, line = asked.design, asked.design.running
    held = asked.resistance()
    slope = profile_of(line.line).steepest()
    needed = held.at(asked.speed / 3.6, slope)
    base = asked.base
    present = float(design.cylinders.bore)
    machine = held.machine / circle_area(present)
    sizes, pairs = _engines(asked, np.array(SIZES) * present)
    asked.marching.expects(2 * len(sizes) + 2 + len(OTHERWISE) * len(sizes))
    full = max(asked.notches)
    pull, steam = _marched(asked, pairs, full, machine)
    running, _ = _marched(asked, pairs, asked.notch, machine)
    found, slips = rising(sizes, pull, needed), rising(sizes, pull, held.grip)
    others = []
    for _, one in OTHERWISE:
        seen, _ = _marched(asked, [with_coefficients(p, one) for p in pairs], full, machine)
        others.append(rising(sizes, seen, needed))
    (own,), (drawn,) = _marched(asked, [base], full, machine)
    hill = "on the level" if slope <= 0 else f"up 1 in {1 / slope:.0f}"
    task = f"{needed:.1f} N at the rail {hill} at {asked.speed:.3g} km/h"
    figures = {
        "needed": needed, "grip": held.grip, "present": present, "pull_now": float(own),
        "evaporation": asked.evaporation(),
    }  # fmt: skip
    pictures = (
        _chart(sizes, pull, running, needed, held.grip),
        _table(sizes, pull, running, steam, held.grip),
    )
    if needed > held.grip:
        asked.marching.expects(-1)
        return Answer(
            question=QUESTION, figures=figures, pictures=pictures,
            says=f"The train wants {task}, and the rail holds no more than {held.grip:.1f} N: no "
            "bore helps there. A lighter train, an easier grade or more weight on the coupled "
            "wheels would do.",
            uncertain="Grip of wheel on rail varies by half with the weather.",
        )  # fmt: skip
    if found is None:
        asked.marching.expects(-1)
        return Answer(
            question=QUESTION, figures=figures, pictures=pictures,
            says=f"The train wants {task}; no bore from {sizes[0]:.1f} to {sizes[-1]:.1f} mm "
            "gives it. Ports and passages, which stay as they are, choke the larger ones: more "
            "pressure, a longer stroke or smaller wheels would do.",
            uncertain=f"{LARGE}.",
        )  # fmt: skip
    bore = math.ceil(found / STEP - 1e-6) * STEP
    (there,), (rate,) = _marched(asked, [asked.with_({_PATH: bore})], full, machine)
    spread = band([*others, bore])
    assert spread is not None
    figures |= {
        "bore": bore, "pull": float(there), "steam": float(rate),
        "bore_least": spread[0], "bore_most": spread[1],
    }  # fmt: skip
    bought = asked.unsettled([_PATH])
    below = found <= sizes[0]
    return Answer(
        question=QUESTION,
        says=f"The train wants {task}; {'even ' if below else ''}{bore:.2f} mm "
        f"{'gives' if below else 'is the least bore that gives'} it in full gear, with nothing to "
        f"spare. The present "
        f"{present:.2f} mm gives {own:.1f} N. {_rail(held.grip, slips, present)} "
        f"{_boiler(float(rate), float(drawn), asked.evaporation())}{bought}",
        uncertain=f"{LARGE}: with a film of 8000 or 40,000 W/(m² K), or ports that pass 0.6 or "
        f"0.9, it comes to {spread[0]:.1f} to {spread[1]:.1f} mm"
        f"{'; with some of these none looked at is enough' if None in others else ''}. The "
        "train's resistance is a guess by a third besides.",
        pictures=pictures, figures=figures, offer=f"Take a bore of {bore:.2f} mm",
        change=() if bought or abs(bore - present) < 0.5 * STEP else ((_PATH, bore),),
    )  # fmt: skip


def _rail(grip: float, slips: float | None, present: float) -> str:
    if slips is None:
        return f"The rail holds {grip:.1f} N, more than any bore looked at can pull."
    more = "above" if present >= slips else "below"
    return (
        f"The rail holds {grip:.1f} N: from {slips:.1f} mm on the wheels may slip in full gear, "
        f"and the present bore is {more} that."
    )


def _boiler(rate: float, now: float, makes: float) -> str:
    told = f"In full gear it draws {1000 * rate:.3g} g of steam a second there"
    lasting = f"the boiler makes {1000 * makes:.3g} lastingly"
    if rate <= makes:
        return f"{told}; {lasting}, which is enough."
    return f"{told}; {lasting}, so the rise is climbed on what the boiler holds, or slower."


def _engines(asked: Asked, sizes: Array) -> tuple[Array, list[Pair]]:
    """Return the bores that the other sizes leave room for, with the engines that have them."""
    known, pairs, why = [], [], None
    for one in sizes:
        try:
            pairs.append(asked.with_({_PATH: float(one)}))
            known.append(float(one))
        except DesignRefused as refused:
            why = refused
    if len(known) < 2:
        raise NotAnswered(f"No other bore fits the sizes round it: {why}")
    return np.array(known), pairs


def _marched(asked: Asked, pairs: list[Pair], notch: float, machine: float) -> tuple[Array, Array]:
    """Return the pull at the rail, N, the engine's own friction off, and the steam, kg/s.

    Parameters
    ----------
    machine : friction at the rim for each mm2 of the bore, N.
    """
    outcomes = asked.marching.all(
        [asked.condition(one, notch=notch, steps=asked.steps) for one in pairs], expected=True
    )
    if all(one.refused for one in outcomes):
        all_ran(outcomes)
    pull = [
        0.0 if one.refused else one.pull - machine * circle_area(pair[1].bore)
        for one, pair in zip(outcomes, pairs, strict=True)
    ]
    return np.array(pull), np.array([one.steam for one in outcomes])


def rising(sizes: Array, values: Array, wanted: float) -> float | None:
    """Return the least size from which rising values reach `wanted`; None where none does."""
    enough = np.flatnonzero(values >= wanted)
    if not enough.size:
        return None
    i = int(enough[0])
    if i == 0:
        return float(sizes[0])
    part = (wanted - values[i - 1]) / (values[i] - values[i - 1])
    return float(sizes[i - 1] + part * (sizes[i] - sizes[i - 1]))


def _chart(sizes: Array, full: Array, running: Array, needed: float, grip: float) -> Chart:
    ends = sizes[[0, -1]]
    return Chart(
        "Pull at the rail against the bore",
        "With the engine's own friction off, at running speed; what the train wants on the "
        "steepest rise, and what the rail holds.",
        "bore, mm", "pull at the rail, N",
        (
            Curve(sizes, full, "full gear", "outline"),
            Curve(sizes, running, "running notch", "thin"),
            Curve(ends, np.full(2, needed), "wanted", "changed"),
            Curve(ends, np.full(2, grip), "rail holds", "stop"),
        ),
    )  # fmt: skip


def _table(sizes: Array, full: Array, running: Array, steam: Array, grip: float) -> Table:
    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (float(size), f"{a:.1f}" + (" slips" if a > grip else ""), f"{b:.1f}", f"{1000 * c:.3g}")
        for size, a, b, c in zip(sizes, full, running, steam, strict=True)
    )
    return Table(
        "Bores tried", ("Bore", "Full gear, N", "Running notch, N", "Steam in full gear, g/s"),
        rows, note="Stroke, ports, passages and nozzle stay as they are.",
    )  # fmt: skip
