"""Tractive effort, adhesion and what the engine pulls."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ..measures import BAR, GRAVITY
from ..sizes import figure
from ..working import relation, sqrt
from .decisions import Cylinders
from .sheet import Sheet

RATED = 0.85
"""Mean over boiler pressure in the railways' rule for the rated tractive effort."""
GRADES = (0, 200, 150, 100, 80, 60, 50, 40, 30, 25, 20)
"""Grades of the table, 1 in so many; 0 is the level."""


@relation(
    "T", "rated tractive effort; with k = 0.85 the railways' common rule",
    share="k", pressure="p", bore="d", stroke="s", number="n", wheel="D",
)  # fmt: skip
def tractive_effort(
    share: float, pressure: float, bore: float, stroke: float, number: float, wheel: float
) -> float:
    """Tractive effort, N, of simple cylinders.

    `share` of the pressure (bar) that acts as mean pressure; bore, stroke and driving wheel
    in mm; the 10 turns bar into N/mm2.
    """
    return share * BAR * pressure * bore**2 * stroke * number / (2 * wheel)


@relation("F_a", "definition", coupled="m_c", effort="T", gravity="g")
def adhesion_factor(coupled: float, gravity: float, effort: float) -> float:
    """Weight on the coupled wheels over tractive effort."""
    return coupled * gravity / effort


@relation(
    "d_a", "the 0.85 rule solved for the bore",
    coupled="m_c", gravity="g", factor="F_a", wheel="D", pressure="p", stroke="s", number="n",
)  # fmt: skip
def bore_for_adhesion(
    coupled: float, gravity: float, factor: float, wheel: float, pressure: float,
    stroke: float, number: float,
) -> Any:  # fmt: skip
    """Bore, mm, at which the factor of adhesion comes to `factor`."""
    return sqrt(2 * coupled * gravity * wheel / (RATED * BAR * factor * pressure * stroke * number))


@relation(
    "m_t", "F = m g (r + 1/i), the sine of a slight grade taken as 1/i; common practice",
    effort="T", gravity="g", resistance="r", slope="i^{-1}", engine="m_e",
)  # fmt: skip
def train_weight(
    effort: float, gravity: float, resistance: float, slope: float, engine: float
) -> float:
    """Mass of train, kg, that an effort at the rail, N, takes up a slope with the engine."""
    return effort / (gravity * (resistance + slope)) - engine


@dataclass(frozen=True)
class Pull:
    """What is left behind the engine on one grade.

    Parameters
    ----------
    grade : 1 in so many, 0 on the level.
    drawbar : pull behind the engine, N, never below nothing.
    load : mass of train, kg, never below nothing.
    held_by : "adhesion" where the rail gives less than the cylinders, else "cylinders".
    """

    grade: float
    drawbar: float
    load: float
    held_by: str


def pull_on(grade: float, effort: float, grip: float, engine: float, resistance: float) -> Pull:
    """Return the pull on a grade.

    Parameters
    ----------
    grade : 1 in so many; 0 means level.
    effort : tractive effort at the rail, N.
    grip : what the rail holds, N.
    engine : weight of the engine, kg.
    resistance : rolling resistance over weight, for engine and train alike.
    """
    slope = 1 / grade if grade else 0.0
    force = min(effort, grip)
    left = force - engine * GRAVITY * (resistance + slope)
    load = train_weight(force, GRAVITY, resistance, slope, engine)
    held_by = "adhesion" if grip < effort else "cylinders"
    return Pull(grade, max(left, 0.0), max(load, 0.0), held_by)


@dataclass(frozen=True, eq=False, kw_only=True)
class HaulageFigures:
    """Figures of tractive effort, adhesion and pull."""

    tractive_effort: float = figure("Tractive effort, 0.85 rule", "N", main=True)
    effort_full: float = figure("Tractive effort in full gear, by mean pressure", "N", main=True)
    effort_running: float = figure("Tractive effort in the running notch", "N")
    adhesion_factor: float = figure("Factor of adhesion", "ratio", main=True)
    adhesion_limit: float = figure("What the rail holds", "N")
    bore_for_adhesion: float = figure("Bore that adhesion and this pressure call for")
    pressure_for_adhesion: float = figure("Pressure at which these cylinders suit it", "bar")
    scaled_bore: float | None = figure("Bore at scale")
    scaled_stroke: float | None = figure("Stroke at scale")
    pull_level: float = figure("Pull on the level", "N")
    load_level: float = figure("Train on the level", "kg")
    pull_grade: float = figure("Pull on the ruling grade", "N")
    load_grade: float = figure("Train on the ruling grade", "kg", main=True)
    pulls: tuple[Pull, ...]
    torque_limit: float = figure("Torque on the axle at which the wheels slip", "N mm")


def hauling(
    cylinders: Cylinders,
    sheet: Sheet,
    wheel: float,
    stroke: float,
    means: tuple[float, float],
    scaled: tuple[float | None, float | None],
) -> HaulageFigures:
    """Work tractive effort, adhesion and pull.

    Parameters
    ----------
    wheel, stroke : driving wheel and true stroke, mm.
    means : mean pressure in full gear and in the running notch, bar.
    scaled : bore and stroke at scale, mm.
    """
    asked, pressure = cylinders.haulage, cylinders.pressure
    sizes = {
        "bore": cylinders.bore, "stroke": stroke, "number": cylinders.number, "wheel": wheel,
    }  # fmt: skip
    rated = sheet.put(
        tractive_effort.work(
            "Tractive effort, 0.85 rule", "N", share=RATED, pressure=pressure, **sizes
        )
    )
    full, running = (
        sheet.put(
            tractive_effort.work(
                f"Tractive effort at the rim, {gear}", "N",
                share=asked.efficiency / 100, pressure=max(mean, 0.0), **sizes,
            )
        )
        for mean, gear in zip(means, ("full gear", "running notch"), strict=True)
    )  # fmt: skip
    factor = sheet.put(
        adhesion_factor.work(
            "Factor of adhesion", "ratio",
            coupled=cylinders.coupled_weight, gravity=GRAVITY, effort=rated,
        )
    )  # fmt: skip
    bore = sheet.put(
        bore_for_adhesion.work(
            "Bore that adhesion calls for", "mm",
            coupled=cylinders.coupled_weight, gravity=GRAVITY, factor=asked.wanted_factor,
            wheel=wheel, pressure=pressure, stroke=stroke, number=cylinders.number,
        )
    )  # fmt: skip
    grip = asked.adhesion * cylinders.coupled_weight * GRAVITY
    resistance, engine = asked.rolling_resistance / 100, cylinders.engine_weight
    sheet.put(
        train_weight.work(
            f"Train up 1 in {asked.grade:g}", "kg", effort=min(full, grip), gravity=GRAVITY,
            resistance=resistance, slope=1 / asked.grade, engine=engine,
        )
    )  # fmt: skip
    grades = sorted({*GRADES, asked.grade}, key=lambda grade: 1 / grade if grade else 0.0)
    pulls = tuple(pull_on(grade, full, grip, engine, resistance) for grade in grades)
    ruling = pulls[grades.index(asked.grade)]
    return HaulageFigures(
        tractive_effort=rated,
        effort_full=full,
        effort_running=running,
        adhesion_factor=factor,
        adhesion_limit=grip,
        bore_for_adhesion=bore,
        pressure_for_adhesion=pressure * factor / asked.wanted_factor,
        scaled_bore=scaled[0],
        scaled_stroke=scaled[1],
        pull_level=pulls[0].drawbar,
        load_level=pulls[0].load,
        pull_grade=ruling.drawbar,
        load_grade=ruling.load,
        pulls=pulls,
        torque_limit=grip * wheel / 2,
    )
