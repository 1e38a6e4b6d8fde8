"""Running boards, splashers, cab, tanks and feed pump as parts."""

from __future__ import annotations

import math

from .decisions import Frames
from .layout import Chosen, Layout
from .solids import Plate, Point, Round, Solid, block
from .whole import Part


def platework_parts(
    chosen: Chosen, layout: Layout, *, wheel_back: float, wheel_face: float, flange_depth: float
) -> list[Part]:
    """Return what is made of sheet, and the pump.

    Parameters
    ----------
    wheel_back, wheel_face : of a wheel, out from the centre line, mm.
    flange_depth : of the wheels, mm.
    """
    frames = chosen.frames
    made = _boards(chosen, layout, wheel_back, wheel_face, flange_depth)
    made += _cab(chosen, layout, wheel_back=wheel_back, flange_depth=flange_depth)
    outside = _outside_wheels(chosen, layout, wheel_face, flange_depth)
    made += _tanks(frames, layout, chosen, outside)
    if frames.pump.kind != "none":
        made.append(_pump(chosen, layout))
    return made


def _boards(
    chosen: Chosen, layout: Layout, wheel_back: float, wheel_face: float, flange_depth: float
) -> list[Part]:
    metal = chosen.frames.platework.material
    half, top = layout.board_width / 2, layout.board
    most = max(one.play for one in layout.axles if one.kind == "coupled")
    tall = [
        one for one in layout.axles
        if one.kind == "coupled"
        and one.diameter / 2 + flange_depth + layout.rise + layout.sheet > top
    ]  # fmt: skip
    across = max(chosen.wheels.across.boss_outside, 0.0)
    inner = wheel_face + across + most + 0.5 if tall else layout.outside
    made = []
    if inner < half:
        made.append(
            Part(
                "running boards", "platework", "frames",
                ("frames.platework.board_height", "frames.platework.board_width"), metal,
                (block(layout.plate_back, layout.plate_front, top - layout.sheet, top, inner,
                       half),),
                paired=True,
                joined=("splashers", "cab sides", "cab front", "side tanks", "cylinders",
                        "valve spindle", "smokebox saddle", "weighshaft", "rocker shaft"),
            )
        )  # fmt: skip
    if tall:
        bands = tuple(
            Plate(
                band(one.ahead, one.diameter / 2 + flange_depth + layout.splasher_gap + layout.rise,
                     layout.sheet, top),
                wheel_back - most, wheel_face + across + most + 0.5,
            )
            for one in tall
        )  # fmt: skip
        made.append(
            Part(
                "splashers", "platework", "frames", ("frames.platework.splasher_gap",), metal,
                bands, paired=True,
                joined=("cab sides", "cab front", "side tanks", "lagging", "weighshaft",
                        "rocker shaft"),
            )
        )  # fmt: skip
    return made


def band(x: float, radius: float, thick: float, low: float, steps: int = 16) -> tuple[Point, ...]:
    """Return the outline of a splasher: a band round a wheel above the running board, mm."""
    if radius <= low:
        return ((x - radius, low), (x + radius, low), (x + radius, low + thick),
                (x - radius, low + thick))  # fmt: skip

    def arc(r: float) -> list[Point]:
        start = math.asin(min(max(low / r, -1.0), 1.0))
        turns = [start + (math.pi - 2 * start) * n / steps for n in range(steps + 1)]
        # corners on a slightly larger round, so that the flats do not come nearer the wheel
        out = r / math.cos((math.pi - 2 * start) / steps / 2)
        return [(x + out * math.cos(one), out * math.sin(one)) for one in turns]

    return (*arc(radius + thick), *reversed(arc(radius)))


def _cab(chosen: Chosen, layout: Layout, *, wheel_back: float, flange_depth: float) -> list[Part]:
    work = chosen.frames.platework
    if not work.cab:
        return []
    outline, n = chosen.scale.prototype.outline, chosen.scale.ratio
    wheel = chosen.wheels.driving_diameter
    long = 0.8 * wheel if outline.cab_length is None else outline.cab_length / n
    front = layout.boiler_back
    back = front - long
    roof = layout.boiler_centre + 1.9 * layout.boiler_radius
    if outline.cab_height is not None:
        roof = outline.cab_height / n + layout.rail
    roof = max(roof, layout.board + 2 * layout.sheet)
    half, sheet = layout.cab_width / 2, layout.sheet
    fields = ("frames.platework.cab_width", "scale.prototype.outline.cab_length")
    sides = block(back, front, layout.board, roof - sheet, half - sheet, half)
    # a hole for the boiler and windows
    low, amid = _over_wheels(layout, front, wheel_back, flange_depth)
    low = min(low, roof - 2 * sheet)
    face: list[Solid] = [
        block(front - sheet, front, low, roof - sheet, -half + sheet, half - sheet)
    ]
    if low > layout.board and amid > 0:
        face.append(block(front - sheet, front, layout.board, low, -amid, amid))
    hole = math.pi * layout.boiler_radius**2
    area = sum(one.volume for one in face) / sheet
    return [
        Part("cab sides", "platework", "frames", fields, work.material, (sides,), paired=True,
             joined=("cab front", "cab roof", "side tanks"), share=0.7),
        Part("cab front", "platework", "frames", fields, work.material, tuple(face),
             joined=("cab roof", "side tanks", "saddle tank", "firebox", "lagging"),
             share=max(0.1, 1 - hole / area)),
        Part("cab roof", "platework", "frames",
             ("frames.platework.cab_width", "scale.prototype.outline.cab_height"), work.material,
             (block(back, front, roof - sheet, roof, -half, half),)),
    ]  # fmt: skip


def _over_wheels(
    layout: Layout, x: float, wheel_back: float, flange_depth: float
) -> tuple[float, float]:
    """Return from what height a sheet across may be as wide as the cab, and half its width below.

    A coupled wheel that stands up through the running board there has the sheet cut away
    over it, as its splasher is.
    """
    low, play = layout.board, 0.0
    for one in layout.axles:
        over = one.diameter / 2 + flange_depth + layout.rise + layout.splasher_gap
        away = abs(one.ahead - x)
        if one.kind == "coupled" and away < over:
            height = math.sqrt(over * over - away * away)
            if height > low:
                low, play = height, max(play, one.play)
    return low, wheel_back - play - layout.splasher_gap


def _outside_wheels(
    chosen: Chosen, layout: Layout, wheel_face: float, flange_depth: float
) -> float | None:
    """Return how far out what stands on the running boards clears tall coupled wheels, mm."""
    coupled = [one for one in layout.axles if one.kind == "coupled"]
    if all(
        one.diameter / 2 + flange_depth + layout.rise + layout.sheet <= layout.board
        for one in coupled
    ):
        return None
    boss = max(chosen.wheels.across.boss_outside, 0.0)
    return wheel_face + boss + max(one.play for one in coupled) + 0.5


def _tanks(frames: Frames, layout: Layout, chosen: Chosen, outside: float | None) -> list[Part]:
    work, radius = frames.platework, layout.boiler_radius
    if work.tanks == "none":
        return []
    centre = layout.boiler_centre
    span = layout.boiler_front - layout.boiler_back
    long = work.tank_length or 0.75 * span
    middle = work.tank_ahead
    fields = ("frames.platework.tank_length", "frames.platework.tank_height",
              "frames.platework.tank_width")  # fmt: skip
    solids: tuple[Solid, ...]
    if work.tanks == "side tanks":
        outer = layout.cab_width / 2
        usual = max(outer - radius - 1.5, 0.15 * outer)
        if outside is not None and outside < outer - 0.1 * outer:
            usual = min(usual, outer - outside)
        wide = work.tank_width or usual
        high = work.tank_height or max(centre + 0.4 * radius - layout.board, radius)
        if middle is None:
            middle = layout.boiler_back + long / 2
        solids = (
            block(middle - long / 2, middle + long / 2, layout.board, layout.board + high,
                  outer - wide, outer),
        )  # fmt: skip
        paired = True
    elif work.tanks == "saddle tank":
        wide = work.tank_width or 0.25 * radius
        high = work.tank_height or 1.4 * radius
        if middle is None:
            middle = (layout.boiler_front + layout.boiler_back) / 2
        gap = 0.03 * radius
        top = centre + radius + wide
        back, front = middle - long / 2, middle + long / 2
        solids = (
            block(back, front, centre + radius + gap, top, 0.0, radius + gap),
            block(back, front, top - high, top, radius + gap, radius + gap + wide),
        )
        paired = True
    else:
        half = (work.tank_width or 2 * layout.inside - 2.0) / 2
        high = work.tank_height or 0.6 * (layout.top - layout.bottom)
        last = layout.axles[-1]
        room = last.ahead - 0.5 * last.diameter - layout.plate_back
        long = work.tank_length or max(0.7 * room, 0.5 * last.diameter)
        if middle is None:
            middle = layout.plate_back + 0.15 * room + long / 2
        solids = (
            block(middle - long / 2, middle + long / 2, layout.top - high, layout.top, -half, half),
        )  # fmt: skip
        paired = False
    volume = sum(one.volume for one in solids)
    skin = sum(_surface(one) for one in solids if isinstance(one, Plate)) * layout.sheet
    share = min(1.0, skin / volume)
    words = work.tanks
    tank = Part(
        words, "platework", "frames", fields, work.material, solids, paired=paired, share=share,
        joined=("tank water", "back stay", "cab front", "frame plates"),
    )  # fmt: skip
    left = 0.92 * (1 - share)  # filled to within a twelfth of its top
    if left <= 0:
        return [tank]  # of such thick sheet nothing is hollow
    water = Part(
        "tank water", "water", "frames", fields, "water", solids, paired=paired, share=left
    )
    return [tank, water]


def _surface(plate: Plate) -> float:
    """Return the whole surface of a block, mm2."""
    thick = plate.outer - plate.inner
    following = plate.outline[1:] + plate.outline[:1]
    around = sum(math.dist(a, b) for a, b in zip(plate.outline, following, strict=True))
    return around * thick + 2 * plate.volume / thick


def _pump(chosen: Chosen, layout: Layout) -> Part:
    pump, cylinders = chosen.frames.pump, chosen.cylinders
    ram = pump.ram or 0.25 * cylinders.bore
    long = pump.length or 3 * ram
    front = pump.ahead
    if front is None:
        front = -0.75 * chosen.wheels.axle_diameter - 2.5 * ram
    return Part(
        "feed pump", "fittings", "frames", ("frames.pump.ahead", "frames.pump.ram"), "gunmetal",
        (Round((front - long, 0.0, 0.0), long, ram, 0.0, ram),), joined=("back stay",),
    )  # fmt: skip
