"""What fire and hot gas touch: heating surfaces, radiating and convective."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..findings import Suggestion
from ..measures import INCH
from ..sizes import SizeError
from .decisions import SMITHIES, Surfaces
from .shape import Shape

LENGTH_OVER_BORE_SQUARED = 80.0
"""Length over bore squared of fire tubes, in inches, said of models since Keiller.

Source: Model Engineer 4096 (1999) as quoted at model-engineer.co.uk, How many boiler tubes.
"""
BOX_SEEN = 0.9
"""Of an inner firebox, what is plate without firehole and tubes; common practice."""


@dataclass(frozen=True)
class Surface:
    """One heating surface: what it is, mm2, and whether it sees the fire."""

    name: str
    area: float
    radiating: bool


@dataclass(frozen=True)
class Heated:
    """All of them, with the tubes as taken; lengths mm.

    Parameters
    ----------
    tubes : number, bore, wall of the fire tubes; None without.
    water_tubes : number, outside diameter, length each; None without.
    """

    parts: tuple[Surface, ...]
    tubes: tuple[int, float, float] | None
    water_tubes: tuple[int, float, float] | None

    def area(self, radiating: bool | None = None) -> float:
        """Return the area of all, or of those that see the fire or do not, mm2."""
        return sum(
            one.area for one in self.parts if radiating is None or one.radiating is radiating
        )


def heated(
    surfaces: Surfaces, shape: Shape, *, tube_area: float | None
) -> tuple[Heated, tuple[Suggestion, ...]]:
    """Return the heating surfaces and what is usual for sizes left empty.

    Parameters
    ----------
    tube_area : clear area of the fire tubes, mm2; None as the frames take it.

    Raises
    ------
    SizeError : where tubes do not go in.

    Source: geometry; on the side of the fire, as the trade counts.
    """
    told: list[Suggestion] = []

    def take(name: str, usual: float, why: str) -> float:
        told.append(Suggestion(f"firing.surfaces.{name}", round(usual, 2), why))
        given = getattr(surfaces, name)
        return float(usual if given is None else given)

    long, radius = shape.front - shape.back, shape.inside
    if shape.pattern in ("locomotive type", "vertical"):
        assert shape.firebox is not None
        tubes = _fire_tubes(surfaces, shape, told, tube_area)
        number, bore, _ = tubes
        wide = number * math.pi * bore * shape.tube_length
        across, deep, high = shape.firebox
        if shape.pattern == "vertical":
            box = math.pi * across * high + math.pi * across * across / 4
        else:
            box = 2 * (across + deep) * high + across * deep
        made = Surface("firebox", BOX_SEEN * box, True), Surface("fire tubes", wide, False)
        return Heated(made, tubes, None), tuple(told)
    if shape.pattern == "centre flue":
        assert shape.flue is not None
        _, outer, wall = shape.flue
        bore = 2 * (outer - wall)
        over = take("over_fire", 0.4, "of a flue")
        whole = math.pi * bore * long
        parts = [Surface("flue over the fire", over * whole, True),
                 Surface("flue beyond it", (1 - over) * whole, False)]  # fmt: skip
        water = _water_tubes(surfaces, told, 0, bore / 4, bore, limit=bore)
        if water:
            parts.append(Surface("water tubes", _tubed(water), True))
        return Heated(tuple(parts), None, water), tuple(told)
    over = take("over_fire", 0.5, "of a barrel")
    outside = radius + shape.wall
    if shape.pattern == SMITHIES:
        told.append(Suggestion("firing.surfaces.inner_barrel", round(2 * outside, 2),
                               "0.72 of the outer shell's inside"))  # fmt: skip
        # the hot gas goes all round the inner barrel, and down the chimney end
        whole = 2 * math.pi * outside * long
        parts = [Surface("inner barrel over the fire", 0.5 * over * whole, True),
                 Surface("inner barrel beyond it", (1 - 0.5 * over) * whole, False)]  # fmt: skip
        water = _water_tubes(surfaces, told, 4, 0.24 * radius, 0.7 * long, limit=long)
        if water:
            parts.append(Surface("water tubes", _tubed(water), True))
        return Heated(tuple(parts), None, water), tuple(told)
    under = math.pi * outside * long  # the lower half
    parts = [Surface("barrel over the fire", over * under, True),
             Surface("barrel beyond it", (1 - over) * under, False)]  # fmt: skip
    water = _water_tubes(surfaces, told, 0, 0.24 * radius, 0.7 * long, limit=long)
    if water:
        parts.append(Surface("water tubes", _tubed(water), True))
    return Heated(tuple(parts), None, water), tuple(told)


def _tubed(water: tuple[int, float, float]) -> float:
    number, outside, length = water
    return number * math.pi * outside * length


def _water_tubes(
    surfaces: Surfaces, told: list[Suggestion], number: int, outside: float, length: float, *,
    limit: float,
) -> tuple[int, float, float] | None:  # fmt: skip
    path = "firing.surfaces."
    told += [
        Suggestion(f"{path}water_tubes", number, "usual for the type"),
        Suggestion(f"{path}water_tube", round(outside, 2), "in proportion"),
        Suggestion(f"{path}water_tube_length", round(length, 2), "in proportion"),
    ]
    number = number if surfaces.water_tubes is None else surfaces.water_tubes
    long = surfaces.water_tube_length or length
    if number and long > limit * 1.0001:
        raise SizeError(
            f"Water tubes, length of each in the fire: {long:g} mm is more than the {limit:.1f} mm "
            "that there are.", "surfaces.water_tube_length",
        )  # fmt: skip
    return (number, surfaces.water_tube or outside, long) if number else None


def _fire_tubes(
    surfaces: Surfaces, shape: Shape, told: list[Suggestion], tube_area: float | None
) -> tuple[int, float, float]:
    long = max(shape.tube_length, 1.0)
    usual = math.sqrt(long / INCH / LENGTH_OVER_BORE_SQUARED) * INCH
    area = shape.tubes / 1.4 if tube_area is None else tube_area
    usual = round(min(usual, math.sqrt(area)), 1)
    bore = surfaces.tube_bore or usual
    number = max(1, round(area / (math.pi * bore * bore / 4)))
    wall = surfaces.tube_wall or max(0.5, round(0.09 * bore, 1))
    told += [
        Suggestion("firing.surfaces.tube_bore", usual, "length over bore squared 80, in inches"),
        Suggestion("firing.surfaces.tubes", number, "for the area through the tubes"),
        Suggestion("firing.surfaces.tube_wall", max(0.5, round(0.09 * bore, 1)), "0.09 of bore"),
    ]
    number = surfaces.tubes or number
    room = 0.8 * math.pi * shape.inside**2
    if number * math.pi * (bore / 2 + wall) ** 2 > room:
        most = int(room / (math.pi * (bore / 2 + wall) ** 2))
        raise SizeError(
            f"Fire tubes: {number} of {bore:g} mm bore do not go into a barrel "
            f"{2 * shape.inside:.1f} mm inside; {most} or fewer would do.", "surfaces.tubes",
        )  # fmt: skip
    return number, bore, wall


def tube_places(
    shape: Shape, number: int, bore: float, wall: float
) -> tuple[tuple[float, float], ...]:
    """Return up to `number` places of fire tubes in a firebox's tube plate.

    Rows from the crown down, every other one set over by half a pitch, within the barrel and
    the inner firebox, a quarter of the bore of plate left between, 1.5 mm at least (common
    practice; the inspector has the say).

    Parameters
    ----------
    bore, wall : of the tubes, mm.

    Returns
    -------
    across and up from the middle of the barrel, mm.
    """
    if shape.firebox is None or shape.box is None:
        return ()
    between = max(1.5, 0.25 * bore)
    pitch = bore + 2 * wall + between
    radius, wide = shape.inside - pitch / 2, shape.firebox[1]
    made: list[tuple[float, float]] = []
    y, row = shape.box[2] + shape.firebox[2] - shape.centre - pitch / 2, 0
    while y > -radius and len(made) < number:
        half = min(math.sqrt(radius * radius - min(y * y, radius * radius)), (wide - pitch) / 2)
        shift = 0.5 * (row % 2)
        count = int(2 * (half / pitch - shift)) + 1 if half >= shift * pitch else 0
        xs = [(n - (count - 1) / 2) * pitch for n in range(count)]
        made += [(x, y) for x in xs][: number - len(made)]
        y -= pitch * math.sqrt(0.75)
        row += 1
    return tuple(made)
