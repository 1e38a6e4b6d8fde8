"""Plates, tubes and stays: usual formulas, for a talk with the club's inspector.

Nothing here certifies anything: design, joints, test and certificate belong to the code in force
and to a licensed or club inspector.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..findings import Suggestion
from ..trade.copper import BASES, hot_stress
from ..working import Relation, Working
from . import relations
from .decisions import Plates
from .shape import Shape
from .surfaces import Heated

COPPER_MODULUS, COPPER_POISSON = 110_000.0, 0.34
"""N/mm2 of hot copper, and its ratio; handbook, from memory."""
IN_HAND = 0.75


@dataclass(frozen=True)
class Stressed:
    """One part under pressure.

    Parameters
    ----------
    name : in the trade's words; `formula` named.
    stress : N/mm2, at the pressure at which the valve blows.
    allowed : of annealed copper at the water's temperature, by basis; None outside its table or
        for another metal.
    hand : least of allowed over stress; None where nothing is allowed.
    """

    name: str
    formula: str
    stress: float
    allowed: tuple[tuple[str, float | None], ...]
    hand: float | None


@dataclass(frozen=True)
class Metal:
    """All of them, with what was reckoned with, mm.

    Parameters
    ----------
    crushed_at : bar at which the flue would be crushed as a perfect tube; None without.
    """

    rows: tuple[Stressed, ...]
    allowed: tuple[tuple[str, float | None], ...]
    plate: float
    pitch: float | None
    stay: float | None
    crushed_at: float | None
    workings: tuple[Working, ...]


def stressed(
    plates: Plates, shape: Shape, heated: Heated, *, metal: str, pressure: float, hot: float
) -> tuple[Metal, tuple[Suggestion, ...]]:
    """Return what the usual formulas say.

    Parameters
    ----------
    metal : of the boiler.
    pressure : at which the valve blows, bar.
    hot : the water there, degC.
    """
    allowed: tuple[tuple[str, float | None], ...] = tuple(
        (basis, hot_stress(basis, hot) if metal == "copper" else None) for basis in BASES
    )
    known = [one for _, one in allowed if one is not None]
    least = min(known, default=None)
    told: list[Suggestion] = []
    rows: list[Stressed] = []
    workings: list[Working] = []

    def row(name: str, relation: Relation, **values: float) -> None:
        made = relation.work(f"{name}, stress", "N/mm2", **values)
        workings.append(made)
        hand = None if least is None or made.result <= 0 else least / made.result
        rows.append(Stressed(name, relation.source, made.result, allowed, hand))

    usual = round(1.3 * shape.wall, 1)
    told.append(Suggestion("firing.plates.plate", usual, "1.3 of the barrel's wall"))
    plate = plates.plate or usual
    row("Barrel", relations.hoop, pressure=pressure, diameter=2 * shape.inside + shape.wall,
        wall=shape.wall)  # fmt: skip
    pitch = stay = crushed = None
    if shape.pattern in ("locomotive type", "vertical"):
        pitch, stay = _stays(plates, told, least, plate, pressure)
        row("Stayed plates", relations.stayed, pressure=pressure, pitch=pitch, plate=plate)
        row("Stays", relations.stay_stress, pressure=pressure, pitch=pitch, stay=stay)
        if heated.tubes is not None:
            _, bore, wall = heated.tubes
            row("Fire tubes", relations.hoop, pressure=pressure, diameter=bore + wall, wall=wall)
    else:
        row("End plates, unstayed", relations.clamped, pressure=pressure, plate=plate,
            radius=_bare_radius(shape))  # fmt: skip
    if heated.water_tubes is not None:
        _, outside, _ = heated.water_tubes
        wall = max(0.5, 0.08 * outside)
        row("Water tubes", relations.hoop, pressure=pressure, diameter=outside - wall, wall=wall)
    if shape.flue is not None:
        _, radius, wall = shape.flue
        made = relations.collapse.work(
            "Flue, crushed at, as a perfect tube", "N/mm2", e=COPPER_MODULUS, nu=COPPER_POISSON,
            wall=wall, radius=radius - wall / 2,
        )  # fmt: skip
        workings.append(made)
        crushed = 10 * made.result
        row("Flue, pressed from outside", relations.hoop, pressure=pressure,
            diameter=2 * radius - wall, wall=wall)  # fmt: skip
    return (
        Metal(tuple(rows), allowed, plate, pitch, stay, crushed, tuple(workings)), tuple(told)
    )  # fmt: skip


def _bare_radius(shape: Shape) -> float:
    """Return the radius of the largest round of end plate that nothing holds, mm."""
    if shape.flue is None:
        return shape.inside
    height, radius, _ = shape.flue
    return max(shape.high - height - radius, height - radius - shape.low) / 2


def _stays(
    plates: Plates, told: list[Suggestion], least: float | None, plate: float, pressure: float
) -> tuple[float, float]:
    """Return pitch and least diameter of the stays as decided, or with a quarter in hand."""
    stress = IN_HAND * (25.0 if least is None else least)
    usual = math.floor(2 * plate * math.sqrt(10 * 2.1 * stress / pressure)) / 2
    usual = min(usual, round(8 * plate, 1))
    told.append(Suggestion("firing.plates.pitch", usual, "the formula's, with a quarter in hand"))
    pitch = plates.pitch or usual
    thick = math.sqrt(4 * pressure / 10 * pitch * pitch / stress / math.pi)
    thick = math.ceil(10 * thick) / 10
    told.append(Suggestion("firing.plates.stay", thick, "the formula's, with a quarter in hand"))
    return pitch, plates.stay or thick
