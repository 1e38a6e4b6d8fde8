"""The boiler as a vessel: its room, its water by level, and what its metal weighs."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..boiler.decisions import BoilerSeat
from ..boiler.results import Lying, Water
from ..boiler.water import COLD_DENSITY
from ..frames.boilerwork import TUBES, segment
from ..frames.solids import Round
from ..frames.whole import Whole
from ..sizes import SizeError
from ..trade.copper import specific_heat
from ..trade.densities import density
from .decisions import SMITHIES, Surfaces

KEPT = 0.25
"""Of a pot's or an inner barrel's water, what must never boil away; common practice."""


@dataclass(frozen=True)
class Seat:
    """The boiler as it lies in the frames: the engine, its barrel and its water; see `boiler`.

    `lying` and `water` are None of an upright one.
    """

    whole: Whole
    lying: Lying | None
    water: Water | None


@dataclass(frozen=True)
class Shape:
    """A steam raiser's sizes, mm; heights from the driving axle.

    Parameters
    ----------
    pattern : its type.
    back, front : ends of the barrel that holds the water; of an upright one its sides.
    low, high : its lowest and highest inside.
    inside, wall : radius inside and wall of that barrel.
    flue : height of its centre, outside radius, wall; None without.
    firebox : inside length, width, height of an inner firebox; None without.
    box : outside length, width and lowest edge of the firebox's wrapper; None without.
    tubes : metal and bore of the fire tubes together, mm2 of the barrel's section.
    tube_length : mm.
    level, floor : water filled to work, and the lowest that is used.
    crown : the highest that fire touches; None where there is none to lay bare.
    outside : area of the clothed outside, mm2; `lagging` its thickness.
    casing : radius inside of a Smithies' outer shell; None without.
    """

    pattern: str
    back: float
    front: float
    low: float
    high: float
    inside: float
    wall: float
    flue: tuple[float, float, float] | None
    firebox: tuple[float, float, float] | None
    box: tuple[float, float, float] | None
    tubes: float
    tube_length: float
    level: float
    floor: float | None
    crown: float | None
    outside: float
    lagging: float
    casing: float | None = None

    @property
    def centre(self) -> float:
        """Height of the middle of the barrel."""
        return (self.low + self.high) / 2

    def held(self, level: float) -> float:
        """Return the water below a level, mm3."""
        if self.pattern == "vertical":
            return self._upright(level)
        area = segment(self.inside, level - self.low)[0]
        if self.flue is not None:
            height, radius, _ = self.flue
            area -= segment(radius, level - height + radius)[0]
        if self.box is None or self.firebox is None:
            return area * (self.front - self.back)
        long, wide, foot = self.box
        inner_long, inner_wide, inner_high = self.firebox
        # the tubes lie low enough to count as drowned in the share of the barrel below the level
        share = min(area / (math.pi * self.inside**2) * 1.5, 1.0)
        barrel = max(area - share * self.tubes, 0.0) * self.tube_length
        legs = max(min(level, self.centre) - foot, 0.0) * long * wide
        over = 0.0
        if level > self.centre:
            over = (area - math.pi * self.inside**2 / 2) * long
        fire = max(min(level - foot, inner_high), 0.0) * inner_long * inner_wide
        return max(barrel + legs + over - fire, 0.0)

    def _upright(self, level: float) -> float:
        assert self.firebox is not None
        across, _, fire = self.firebox
        whole = math.pi * self.inside**2
        round_fire = whole - math.pi * across * across / 4
        deep = max(level - self.low, 0.0)
        lower = min(deep, fire) * round_fire
        return lower + max(deep - fire, 0.0) * (whole - self.tubes)

    @property
    def room(self) -> float:
        """Water and steam together, ml."""
        return self.held(self.high) / 1000

    @property
    def water(self) -> float:
        """Cold water filled to work, kg."""
        return self.held(self.level) * COLD_DENSITY * 1e-9

    @property
    def usable(self) -> float:
        """Water from the working level to the lowest that is used, kg."""
        if self.floor is None:
            return self.water * (1 - KEPT)
        return max(self.held(self.level) - self.held(self.floor), 0.0) * COLD_DENSITY * 1e-9

    @property
    def over_crown(self) -> float | None:
        """Water from the working level to the crown, kg; None where there is none."""
        if self.crown is None:
            return None
        return max(self.held(self.level) - self.held(self.crown), 0.0) * COLD_DENSITY * 1e-9


def shape_of(
    boiler: BoilerSeat, seat: Seat, surfaces: Surfaces, *, pattern: str,
    tube_area: float | None, least_over: float,
) -> Shape:  # fmt: skip
    """Return the vessel from the boiler in the frames.

    Parameters
    ----------
    pattern : type, settled.
    tube_area : clear area of the fire tubes, mm2; None takes 0.18 of the barrel's section.
    least_over : least water over the crown, mm.

    Raises
    ------
    SizeError : where the sizes leave no room for water.
    """
    shell = seat.whole.part("boiler")
    assert shell is not None
    rounds = [one for one in shell.solids if isinstance(one, Round) and one.bore]
    hull = rounds[0]
    inside, wall = hull.bore / 2, hull.radius - hull.bore / 2
    if (pattern == "vertical") != (seat.lying is None):
        raise SizeError(
            f"Type of steam raiser: the boiler in the frames "
            f"{'stands' if seat.lying is None else 'lies'}, a boiler of the type “{pattern}” "
            "does not; choose the type there first.", "pattern",
        )  # fmt: skip
    if seat.lying is None:
        return _vertical(boiler, surfaces, hull, tube_area, least_over)
    lying, water = seat.lying, seat.water
    assert water is not None
    lagging = lying.radius - hull.radius
    outside = 2 * math.pi * lying.radius * (lying.front - lying.back + lying.radius)
    back, front, low, high = lying.back, lying.front, lying.centre - inside, lying.centre + inside
    level, crown, floor = water.level, water.crown, water.bottom_nut
    flue: tuple[float, float, float] | None = None
    firebox = box = None
    tubes = tube_length = 0.0
    if pattern == SMITHIES:
        radius = inside
        inner = surfaces.inner_barrel or 0.72 * 2 * radius
        if inner >= 2 * radius:
            raise SizeError(
                f"Inner barrel: {inner:g} mm does not go into the outer shell, which has "
                f"{2 * radius:.1f} mm inside; less would do.", "surfaces.inner_barrel",
            )  # fmt: skip
        inside = inner / 2 - wall
        if inside <= 0:
            raise SizeError(f"Inner barrel: {inner:g} mm is no more than its walls.",
                            "surfaces.inner_barrel")  # fmt: skip
        low, high = lying.centre - inside, lying.centre + inside
        level = low + boiler.water_level * 2 * inside
    if pattern in ("pot", SMITHIES):
        crown = floor = None
    elif pattern == "centre flue":
        flue = _flue(boiler, rounds, lying.centre, inside, wall, lying.radius)
        crown = flue[0] + flue[1] if boiler.firebox.crown is None else water.crown
        assert crown is not None
        nut = boiler.fittings.gauge_nut
        floor = crown + (least_over if nut is None else nut)
    else:
        fire = seat.whole.part("firebox")
        if fire is None:
            raise SizeError(
                "Type of steam raiser: the boiler in the frames has no firebox; choose the "
                "locomotive type there first.", "pattern",
            )  # fmt: skip
        (x0, y0, _), (x1, _, z1) = fire.extent
        space = boiler.firebox.water_space or 0.14 * lying.radius
        crown = lying.centre + 0.1 * lying.radius if crown is None else crown
        floor = crown + least_over if floor is None else floor
        box = (x1 - x0, 2 * z1, y0)
        firebox = (box[0] - 2 * space, box[1] - 2 * space, crown - y0)
        if min(firebox) <= 0:
            raise SizeError("Water space: it leaves no room for a fire inside the firebox.", "")
        area = 0.25 / TUBES * math.pi * inside**2 if tube_area is None else tube_area
        tubes, tube_length = TUBES * area, max(front - x1, 0.0)
    made = Shape(pattern, back, front, low, high, inside, wall, flue, firebox, box, tubes,
                 tube_length, level, floor, crown, outside, max(lagging, 0.0),
                 hull.bore / 2 if pattern == SMITHIES else None)  # fmt: skip
    if made.water <= 0:
        raise SizeError("Water level: it leaves no water in the boiler.", "")
    return made


def _flue(
    boiler: BoilerSeat, rounds: list[Round], centre: float, inside: float, wall: float, over: float
) -> tuple[float, float, float]:
    """Return height, outside radius and wall of the flue; as usual where the shell has none."""
    radius = (boiler.firebox.flue or 0.9 * over) / 2
    height = centre - 0.3 * (inside - radius)
    if len(rounds) > 1:
        least = min(rounds, key=lambda one: one.radius)
        height, radius = least.start[1], least.radius
    if boiler.firebox.crown is not None:
        height = centre + boiler.firebox.crown - radius
    if radius <= wall or radius >= inside:
        raise SizeError("Centre flue: it does not go into the barrel with metal about it.", "")
    return height, radius, wall


def _vertical(
    boiler: BoilerSeat, surfaces: Surfaces, hull: Round, tube_area: float | None,
    least_over: float,
) -> Shape:  # fmt: skip
    inside, wall = hull.bore / 2, hull.radius - hull.bore / 2
    low, tall = hull.start[1], hull.length
    lagging = boiler.shell.lagging
    lagging = 0.04 * hull.radius if lagging is None else lagging
    space = boiler.firebox.water_space or 0.14 * hull.radius
    fire = surfaces.inner_firebox or 0.45 * tall
    across = 2 * (inside - space - wall)
    level = low + boiler.water_level * tall
    if across <= 0 or fire >= tall:
        raise SizeError(
            f"Upright firebox: {fire:.1f} mm high and {across:.1f} mm across does not go into a "
            f"shell {tall:.1f} mm high and {2 * inside:.1f} mm inside; less would do.",
            "surfaces.inner_firebox",
        )  # fmt: skip
    area = 0.12 * math.pi * inside**2 if tube_area is None else tube_area
    crown = low + fire
    if TUBES * area >= 0.7 * math.pi * inside**2:
        raise SizeError("Area through the tubes: more than the upright shell has room for.", "")
    radius = hull.radius + lagging
    return Shape(
        "vertical", hull.start[0] - inside, hull.start[0] + inside, low, low + tall, inside, wall,
        None, (across, across, fire), None, TUBES * area, tall - fire, level,
        crown + (boiler.fittings.gauge_nut or least_over), crown,
        2 * math.pi * radius * (tall + radius / 2), lagging,
    )  # fmt: skip


def metal_heat(seat: Seat) -> float:
    """Return the heat of the boiler's metal, kJ/K."""
    parts = [one for name in ("boiler", "firebox", "fire tubes")
             if (one := seat.whole.part(name)) is not None]  # fmt: skip
    return sum(
        part.volume * 1e-9 * density(part.material) * specific_heat(part.material)
        for part in parts
    ) / 1000  # fmt: skip


def shell_loss(shape: Shape) -> float:
    """Return the heat that the clothed shell loses, W for each degree above the air.

    Source: slab and surface in series, elementary physics; 10 W/(m2 K) from a surface in still
    air and 0.06 W/(m K) through lagging and clothing, both common practice.
    """
    resist = 1 / 10 + shape.lagging / 1000 / 0.06
    return shape.outside * 1e-6 / resist
