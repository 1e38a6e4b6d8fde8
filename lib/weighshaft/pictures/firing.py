"""The boiler in section with what fire and gas touch, where the heat goes, and how long it runs."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ..firing import Firing, FiringResult
from ..firing.shape import Shape
from ..firing.surfaces import tube_places
from .firing_charts import charts
from .firing_tables import tables
from .scene import Array, Circle, Fill, Label, Path, Pen, Picture, Primitive, Scene, box

FIRE: Pen = "crank"
GAS: Pen = "trace"
"""Pens of the surfaces that see the fire, and of those that hot gas alone touches."""


def pictures(firing: Firing, result: FiringResult) -> tuple[Picture, ...]:
    """Return the sections, the flow of heat, the times, the charts and the tables."""
    made: list[Picture] = [along(result)]
    if result.pattern != "vertical":
        made.append(across(result))
    return (*made, heat(result), times(result), *charts(firing, result), *tables(firing, result))


def _line(x0: float, y0: float, x1: float, y1: float, pen: Pen, part: str = "") -> Path:
    return Path(np.array([[x0, y0], [x1, y1]], dtype=float), pen, part=part)


def _says(result: FiringResult) -> str:
    return (
        f"Of {result.surface:.0f} cm² of heating surface {result.radiating:.0f} cm², in red, see "
        f"the fire; the rest, in brass, is touched by hot gas. Filled to work it holds "
        f"{result.water:.0f} g of water, of which {result.usable:.0f} g may be used."
    )


def along(result: FiringResult) -> Scene:
    """Return the boiler cut along the middle, its front to the right; lengths of the model."""
    shape = result.shape
    still: list[Primitive] = []
    if shape.pattern == "vertical":
        still += _upright(result)
    else:
        still += _lying(result)
    still += _levels(shape)
    return Scene("The boiler cut along its middle", _says(result), tuple(still))


def _shell(shape: Shape) -> Iterator[Primitive]:
    """Yield water, steam and the walls of a lying barrel."""
    back, front, low, high, wall = shape.back, shape.front, shape.low, shape.high, shape.wall
    yield Path(box(back, low, front, high), "thin", True, "steam")
    yield Path(box(back, low, front, shape.level), "thin", True, "water", "water")
    foot = back if shape.box is None else back + shape.box[0]
    yield Path(box(foot, low - wall, front, low), "outline", True, "section", "barrel")
    yield Path(box(back, high, front, high + wall), "outline", True, "section", "barrel")
    for x0, x1 in ((back - wall, back), (front, front + wall)):
        yield Path(box(x0, low - wall, x1, high + wall), "outline", True, "section", "barrel")
    yield _line(back - 4 * wall, shape.centre, front + 4 * wall, shape.centre, "centre")


def _lying(result: FiringResult) -> Iterator[Primitive]:
    shape = result.shape
    yield from _shell(shape)
    back, front = shape.back, shape.front
    if shape.flue is not None:
        height, radius, wall = shape.flue
        bore = radius - wall
        end = back + _share(result, "flue over the fire") * (front - back)
        for y in (height - radius, height + bore):
            yield Path(box(back, y, front, y + wall), "outline", True, "section", "flue")
        yield Path(box(back, height - bore, front, height + bore), "thin", True, "paper", "flue")
        for y in (height - bore, height + bore):
            yield _line(back, y, end, y, FIRE, "flue")
            yield _line(end, y, front, y, GAS, "flue")
        yield from _cross_tubes(result, height, bore, back, end)
    elif shape.firebox is not None and shape.box is not None:
        yield from _firebox(result)
    else:
        yield from _over_flame(result)


def _share(result: FiringResult, name: str) -> float:
    """Return what a surface is of all but the water tubes."""
    plain = [one for one in result.heated.parts if one.name != "water tubes"]
    return sum(one.area for one in plain if one.name == name) / sum(one.area for one in plain)


def _cross_tubes(
    result: FiringResult, height: float, bore: float, back: float, end: float
) -> Iterator[Primitive]:
    if result.heated.water_tubes is None:
        return
    number, outside, _ = result.heated.water_tubes
    for n in range(number):
        x = back + (n + 0.5) / number * (end - back)
        yield Path(box(x - outside / 2, height - bore, x + outside / 2, height + bore), FIRE, True,
                   "water", "water tubes")  # fmt: skip


def _firebox(result: FiringResult) -> Iterator[Primitive]:
    shape = result.shape
    assert shape.box is not None
    assert shape.firebox is not None
    long, _, foot = shape.box
    inner, _, high = shape.firebox
    back, space, wall = shape.back, (shape.box[0] - shape.firebox[0]) / 2, shape.wall
    x0, x1, top = back + space, back + long - space, foot + high
    # legs of water below the barrel, with the wrapper's walls
    yield Path(box(back, foot, back + long, min(shape.low, shape.level)), "thin", True, "water")
    for x in (back - wall, back + long):
        yield Path(box(x, foot, x + wall, shape.low), "outline", True, "section", "firebox")
    tubes = result.heated.tubes
    if tubes is not None:
        number, bore, _ = tubes
        rows = min(max(int(math.sqrt(number)), 1), 6)
        room = 0.9 * (top - shape.low)
        for n in range(rows):
            y = shape.low + room * (n + 0.6) / rows
            yield Path(box(x1, y - bore / 2, shape.front, y + bore / 2), "thin", True, "paper")
            for side in (-1, 1):
                edge = y + side * bore / 2
                yield _line(x1, edge, shape.front, edge, GAS, "fire tubes")
    yield Path(box(x0, foot, x1, top), "thin", True, "paper", "fire")
    for a, b in (((x0, foot), (x0, top)), ((x0, top), (x1, top)), ((x1, top), (x1, foot))):
        yield _line(*a, *b, FIRE, "firebox")
    for n in range(12):
        x = x0 + (n + 0.5) / 12 * inner
        yield _line(x, foot, x, foot + 0.04 * high, "outline", "grate")
    yield Label("fire", ((x0 + x1) / 2, foot + 0.4 * high))


def _over_flame(result: FiringResult) -> Iterator[Primitive]:
    """Yield what hangs in the flame of a pot or a Smithies, and the flame."""
    shape = result.shape
    back, front, under = shape.back, shape.front, shape.low - shape.wall
    deep = 0.5 * shape.inside
    share = next(one.area for one in result.heated.parts if one.name.endswith("over the fire"))
    whole = sum(one.area for one in result.heated.parts if one.name != "water tubes")
    end = back + min(share / whole * (2 if shape.casing else 1), 1.0) * (front - back)
    yield Path(box(back, under - deep, end, under), "thin", True, "paper", "fire")
    if shape.casing is not None:
        outer = shape.casing
        for y in (shape.centre + outer, shape.centre - outer):
            yield _line(back, y, front, y, "outline", "outer shell")
        yield _line(back, shape.high + shape.wall, front, shape.high + shape.wall, GAS)
    yield _line(back, under, end, under, FIRE, "barrel")
    yield _line(end, under, front, under, GAS, "barrel")
    tubes = result.heated.water_tubes
    if tubes is not None:
        _, outside, long = tubes
        y = under - 0.5 * deep
        x0 = (back + front - long) / 2
        yield Path(box(x0, y - outside / 2, x0 + long, y + outside / 2), FIRE, True, "water",
                   "water tubes")  # fmt: skip
    yield Label("fire", ((back + end) / 2, under - 0.8 * deep))


def _upright(result: FiringResult) -> Iterator[Primitive]:
    shape = result.shape
    back, front, low, high, wall = shape.back, shape.front, shape.low, shape.high, shape.wall
    assert shape.firebox is not None
    across_, _, fire = shape.firebox
    middle = (back + front) / 2
    yield Path(box(back, low, front, high), "thin", True, "steam")
    yield Path(box(back, low, front, shape.level), "thin", True, "water", "water")
    for x0, x1 in ((back - wall, back), (front, front + wall)):
        yield Path(box(x0, low, x1, high), "outline", True, "section", "barrel")
    yield Path(box(back - wall, high, front + wall, high + wall), "outline", True, "section")
    x0, x1, top = middle - across_ / 2, middle + across_ / 2, low + fire
    yield Path(box(x0, low, x1, top), "thin", True, "paper", "fire")
    for a, b in (((x0, low), (x0, top)), ((x0, top), (x1, top)), ((x1, top), (x1, low))):
        yield _line(*a, *b, FIRE, "firebox")
    tubes = result.heated.tubes
    if tubes is not None:
        number, bore, _ = tubes
        rows = min(max(int(math.sqrt(number)), 1), 6)
        for n in range(rows):
            x = x0 + (n + 0.5) / rows * across_
            yield Path(box(x - bore / 2, top, x + bore / 2, high), "thin", True, "paper")
            for side in (-1, 1):
                edge = x + side * bore / 2
                yield _line(edge, top, edge, high, GAS, "fire tubes")
    yield _line(middle, low - 0.05 * fire, middle, high + 0.05 * fire, "centre")


def _levels(shape: Shape) -> Iterator[Primitive]:
    """Yield the working level and the lowest that is used, with their names beside."""
    front = shape.front + shape.wall
    reach = 0.06 * (shape.high - shape.low)
    named = [("filled to work", shape.level)]
    if shape.floor is not None:
        named.append(("lowest used", shape.floor))
    for n, (name, y) in enumerate(named):
        yield _line(shape.back, y, front + reach, y, "changed" if n else "outline", name)
        up = 1.0 if n == 0 else -1.0
        yield Label(name, (front + reach, y + up * reach), "start", (front, y))


def across(result: FiringResult) -> Scene:
    """Return the boiler cut across, at the fire; lengths of the model."""
    shape = result.shape
    inside, wall, centre = shape.inside, shape.wall, shape.centre
    still: list[Primitive] = []
    if shape.casing is not None:
        still.append(Circle((0.0, centre), shape.casing, "outline", "paper", "outer shell"))
    if shape.box is not None:
        still += _wrapper(result)
    else:
        still += [Circle((0.0, centre), inside, "thin", "steam"),
                  _segment(centre, inside, shape.level, "water"),
                  *_ring(centre, inside, wall, "barrel")]  # fmt: skip
    if shape.flue is not None:
        height, radius, flue_wall = shape.flue
        still += [Circle((0.0, height), radius - flue_wall, "thin", "paper", "flue"),
                  *_ring(height, radius - flue_wall, flue_wall, "flue"),
                  Circle((0.0, height), radius - flue_wall, FIRE, part="flue")]  # fmt: skip
        if result.heated.water_tubes is not None:
            half = result.heated.water_tubes[1] / 2
            bore = radius - flue_wall
            still.append(Path(box(-half, height - bore, half, height + bore), FIRE, True, "water"))
    elif shape.firebox is not None and shape.box is not None:
        still += _tube_plate(result)
    else:
        still.append(Path(_arc(centre, inside + wall, 180.0, 360.0), FIRE, part="barrel"))
        if result.heated.water_tubes is not None:
            number, outside, _ = result.heated.water_tubes
            ring = inside + wall + outside
            for n in range(min(number, 12)):
                turn = math.radians(270 + 25 * (n - (min(number, 12) - 1) / 2))
                at = (ring * math.cos(turn), centre + ring * math.sin(turn))
                still.append(Circle(at, outside / 2, FIRE, "water", "water tubes"))
    low = shape.low - 1.1 * wall
    still.append(_line(0.0, low, 0.0, shape.high + 3 * wall, "centre"))
    tubes = result.heated.tubes
    more = "" if tubes is None else f" {tubes[0]} fire tubes of {tubes[1]:.2f} mm bore."
    return Scene("The boiler cut across", _says(result) + more, tuple(still))


def _tube_plate(result: FiringResult) -> Iterator[Primitive]:
    """Yield the fire tubes where they usually lie, and the inner firebox behind them."""
    shape, tubes = result.shape, result.heated.tubes
    assert shape.firebox is not None
    assert shape.box is not None
    _, wide, high = shape.firebox
    foot = shape.box[2]
    yield Path(box(-wide / 2, foot, wide / 2, foot + high), "thin", True, "paper", "fire")
    inner = [[-wide / 2, foot], [-wide / 2, foot + high], [wide / 2, foot + high], [wide / 2, foot]]
    yield Path(np.array(inner), FIRE, part="firebox")
    if tubes is None:
        return
    number, bore, wall = tubes
    for x, y in tube_places(shape, number, bore, wall):
        yield Circle((x, shape.centre + y), bore / 2, GAS, "paper", "fire tubes")


def _arc(centre: float, radius: float, start: float, end: float) -> Array:
    turn = np.radians(np.linspace(start, end, 61))
    return np.column_stack([radius * np.cos(turn), centre + radius * np.sin(turn)])


def _ring(centre: float, inside: float, wall: float, part: str) -> Iterator[Primitive]:
    """Yield a wall cut across, hatched, in two halves."""
    for start in (0.0, 180.0):
        outer = _arc(centre, inside + wall, start, start + 180.0)
        inner = _arc(centre, inside, start, start + 180.0)[::-1]
        yield Path(np.vstack([outer, inner]), "thin", True, "section", part)
    for radius in (inside, inside + wall):
        yield Circle((0.0, centre), radius, "outline", part=part)


def _wrapper(result: FiringResult) -> Iterator[Primitive]:
    """Yield the firebox's wrapper cut across, with water and steam in it."""
    shape = result.shape
    assert shape.box is not None
    inside, centre, wall = shape.inside, shape.centre, shape.wall
    _, wide, foot = shape.box
    half = min(wide / 2 - wall, inside)
    waist = max(centre - 0.6 * inside, foot)

    def outline(more: float) -> Array:
        arch = _arc(centre, inside + more, 0.0, 180.0)
        left = [[-half - more, waist], [-half - more, foot]]
        return np.vstack([[[half + more, foot], [half + more, waist]], arch, left])

    within = outline(0.0)
    yield Path(within, "thin", True, "steam")
    up = math.asin(min(max((shape.level - centre) / inside, 0.0), 1.0))
    right = _arc(centre, inside, 0.0, math.degrees(up))
    left = right[::-1] * np.array([-1.0, 1.0])
    legs = [[half, foot], [half, waist]], [[-half, waist], [-half, foot]]
    yield Path(np.vstack([legs[0], right, left, legs[1]]), "thin", True, "water", "water")
    yield Path(np.vstack([outline(wall), within[::-1]]), "outline", True, "section", "firebox")
    yield Path(_arc(centre, inside, 180.0, 360.0), "hidden", part="barrel")


def _segment(centre: float, radius: float, level: float, fill: Fill) -> Path:
    """Return the water in a round barrel."""
    up = math.degrees(math.asin(min(max((level - centre) / radius, -1.0), 1.0)))
    return Path(_arc(centre, radius, 180.0 - up, 360.0 + up), "thin", True, fill, "water")


# --- diagrams -----------------------------------------------------------------------------------

_WIDE, _TALL = 200.0, 70.0


def _watts(watts: float) -> str:
    return f"{watts / 1000:.1f} kW" if watts >= 10_000 else f"{watts:.0f} W"


def heat(result: FiringResult) -> Scene:
    """Return where the heat of the fire goes, each stream as wide as it is large."""
    fire, into = max(result.raising.fire_full, 1e-9), result.raising.heat_full
    lost = min(result.losses, into)
    parts = (
        ("chimney", fire - into, "exhaust"),
        ("shell", lost, "tint"),
        ("steam", into - lost, "steam"),
    )
    still: list[Primitive] = [
        Path(box(0, 0, 0.22 * _WIDE, _TALL), "outline", True, "metal"),
        Label(f"fire {_watts(fire)}", (0.0, _TALL + 7), "start"),
    ]
    y, gap = 0.0, 16.0
    at = -gap
    for name, watts, fill in parts:
        high = _TALL * watts / fire
        x0, x1 = 0.22 * _WIDE, _WIDE
        bend = np.linspace(0, 1, 31)
        turned = np.minimum(bend / 0.3, 1.0)
        ease = turned * turned * (3 - 2 * turned)
        xs = x0 + bend * (x1 - x0)
        below, above = y + ease * (at - y), y + high + ease * (at - y)
        ring = np.vstack([np.column_stack([xs, below]), np.column_stack([xs, above])[::-1]])
        still.append(Path(ring, "thin", True, fill))  # type: ignore[arg-type]
        still.append(Label(f"{name} {_watts(watts)}", (0.5 * _WIDE, at + high + 6), "start"))
        y += high
        at += high + gap
    return Scene(
        "Where the heat goes at full fire",
        f"Of {fire:.0f} W of fire {into:.0f} W get into the water, "
        f"{100 * into / fire:.0f} %, and the rest goes up the chimney; the shell loses "
        f"{result.losses:.0f} W, and steam is made at {result.steam:.3g} g a minute, between "
        f"{result.steam_low:.3g} and {result.steam_high:.3g}.",
        tuple(still), to_scale=False,
    )  # fmt: skip


def times(result: FiringResult) -> Scene:
    """Return how long things take and last, as bars over minutes."""
    rows: list[tuple[str, float, Pen, Fill]] = []
    if result.raise_time is not None:
        rows.append(("raising steam", result.raise_time, FIRE, "exhaust"))
    for name, value, fill in (
        ("water in the boiler", result.by_water, "water"),
        ("all water carried", result.by_tanks, "water"),
        ("fuel carried", result.by_fuel, "steam"),
    ):
        if value is not None:
            rows.append((name, value, "outline", fill))  # type: ignore[arg-type]
    longest = max((value for _, value, _, _ in rows), default=1.0)
    step = next((n for n in (1, 2, 5, 10, 20, 30, 60) if longest / n <= 7), 120)
    last = step * math.ceil(longest / step - 1e-9)
    still: list[Primitive] = []
    high, foot = 9.0, -22.0 * len(rows) + 8
    for n in range(round(last / step) + 1):
        x = _WIDE * n * step / last
        still.append(_line(x, foot, x, 6.0, "centre"))
        still.append(Label(f"{n * step}", (x, foot - 6)))
    for n, (name, value, pen, fill) in enumerate(rows):
        y = -22.0 * n - 8
        still.append(Path(box(0, y, _WIDE * value / last, y + high), pen, True, fill, name))
        still.append(Label(f"{name}, {value:.2g} min", (2, y + high + 5), "start"))
    words = "; ".join(f"{name} {value:.2g}" for name, value, _, _ in rows) or "no steam is raised"
    return Scene("Minutes to raise steam, and to run", f"In minutes: {words}.", tuple(still),
                 to_scale=False)  # fmt: skip
