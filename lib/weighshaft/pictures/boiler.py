"""Pictures of the boiler in the frames."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from ..boiler import BoilerResult, BoilerSeat
from ..boiler.gaps import box_of
from ..erection.sweep import outline_of
from ..frames.solids import Bar, Round
from ..frames.whole import Part, Whole
from .scene import Circle, Dimension, Fill, Label, Path, Pen, Picture, Primitive, Scene, Table, box

_BOILER = ("smokebox", "chimney", "dome", "safety valve", "boiler", "lagging", "smokebox saddle")
_SHOWN = 12


def pictures(boiler: BoilerSeat, result: BoilerResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    made: list[Picture] = [elevation(boiler, result)]
    if result.lying is not None:
        made.append(section(result))
    return (*made, gap_table(result), *_pan_table(result))


def seen(part: Part, pen: Pen, fill: Fill = "none", name: str = "") -> Iterator[Primitive]:
    """Yield a part as it is seen from the side."""
    for solid in part.solids:
        if isinstance(solid, Bar) and solid.start == solid.end:
            yield Circle(solid.start, solid.half, pen, fill, name or part.name)
        else:
            yield Path(np.array(outline_of(solid)), pen, True, fill, name or part.name)


def elevation(boiler: BoilerSeat, result: BoilerResult) -> Scene:
    """Return the boiler in its frames from the right, cut through the firebox."""
    whole, still = result.whole, list[Primitive]()
    for part in whole.parts:
        if part.kind in ("wheels", "frames") and "crankpins" not in part.name:
            still += seen(part, "behind")
    for part in whole.parts:
        if part.name in ("weighshaft", "rocker shaft", *_eccentrics(whole)):
            still += seen(part, "thin")
        elif part.name in _BOILER:
            still += seen(part, "outline" if part.name != "lagging" else "thin")
        elif part.name in ("firebox", "burner"):
            still += seen(part, "outline", "tint")
        elif part.name == "ashpan":
            still += seen(part, "outline")
    still += _inside(boiler, result)
    still += _hot(result)
    still += _marks(result)
    (x0, x1), rail = (whole.back, whole.front), whole.rail
    still.append(Path(np.array([[x0, rail], [x1, rail]]), "outline"))
    least = result.gaps[0] if result.gaps else None
    near = "" if least is None else (
        f" The nearest to it is the {least.other}, {least.least:.2f} mm from the {least.part}."
    )  # fmt: skip
    return Scene(
        "The boiler in the frames, cold and hot",
        f"At {result.temperature:.0f} °C the boiler, held {boiler.holding.at}, slides "
        f"{result.slide:.2f} mm at its other end; drawn in blue ten times as far.{near}",
        tuple(still),
    )


def _eccentrics(whole: Whole) -> tuple[str, ...]:
    return tuple(part.name for part in whole.parts if part.name.endswith("eccentric"))


def _inside(boiler: BoilerSeat, result: BoilerResult) -> Iterator[Primitive]:
    """Yield the water, the inner firebox and the gauge glass."""
    lying, water, whole = result.lying, result.water, result.whole
    if lying is None or water is None:
        return
    yield Path(np.array([[lying.back, water.level], [lying.front, water.level]]), "trace")
    yield Label("water, cold", (lying.front, water.level + 1), "end", None, "trace")
    if water.crown is None:
        return
    fire = whole.part("firebox")
    if fire is not None:
        x0, x1, y0, _, _, _ = box_of(fire)
        pan = whole.part("ashpan")
        space = 0.07 * 2 * lying.radius if pan is None else pan.extent[0][0] - x0
        yield Path(box(x0 + space, y0, x1 - space, water.crown), "hidden", True)
    else:
        yield Path(np.array([[lying.back, water.crown], [lying.front, water.crown]]), "hidden")
    if water.bottom_nut is None or water.top_nut is None:
        return
    x = lying.back - 0.06 * lying.radius
    wide = 0.05 * lying.radius
    yield Path(box(x - wide, water.bottom_nut, x + wide, water.top_nut), "outline", True, "water")
    yield Dimension((x - 3 * wide, water.crown), (x - 3 * wide, water.bottom_nut),
                    f"{water.bottom_nut - water.crown:.1f}", 0.2 * lying.radius)  # fmt: skip


def _hot(result: BoilerResult) -> Iterator[Primitive]:
    """Yield the free end where it is hot, ten times as far away as it is."""
    lying, move = result.lying, 10 * result.moves
    if lying is None:
        return
    fire = result.whole.part("firebox")
    low = lying.centre - lying.radius
    top = lying.centre + lying.radius
    x = result.free_end
    if fire is not None and move < 0:
        low = fire.extent[0][1]
    yield Path(np.array([[x + move, low], [x + move, top]]), "changed", part="hot")
    yield Dimension((x + move, top), (x, top), f"{result.slide:.2f}", -0.25 * lying.radius)
    y = result.whole.part("smokebox saddle")
    at = low if y is None else y.extent[0][1]
    yield Circle((result.held, at), 0.06 * lying.radius, "crank", part="held")
    yield Label("held", (result.held, at - 0.3 * lying.radius), "middle", (result.held, at))


def _marks(result: BoilerResult) -> Iterator[Primitive]:
    """Yield marks where the gaps are short, or where the least of them is."""
    short = [gap for gap in result.gaps if gap.least < gap.wanted] or list(result.gaps[:1])
    radius = 0.05 * result.whole.coupled[0].diameter
    told: list[tuple[float, float]] = []
    for gap in short:
        # one name where several are short; the table has them all
        if any(abs(gap.where[0] - x) < 8 * radius for x, _ in told) or len(told) == 4:
            continue
        told.append(gap.where)
        pen: Pen = "stop" if gap.least < 0 else "changed"
        yield Circle(gap.where, radius, pen, part=gap.other)
        yield Label(f"{gap.other} {gap.least:.1f} mm", (gap.where[0], gap.where[1] - 4 * radius),
                    "middle", gap.where, pen)  # fmt: skip


def section(result: BoilerResult) -> Scene:
    """Return the cross-section at the firebox, or through the middle of the barrel."""
    whole, lying = result.whole, result.lying
    assert lying is not None
    fire = whole.part("firebox")
    x = (lying.back + lying.front) / 2 if fire is None else sum(box_of(fire)[:2]) / 2
    still: list[Primitive] = [
        Circle((0.0, lying.centre), lying.radius, "thin"),
        Circle((0.0, lying.centre), lying.inside, "outline"),
    ]
    cut = [part for part in whole.parts if part.kind in ("frames", "wheels", "motion", "fittings")]
    cut += [part for part in whole.parts if part.name in ("firebox", "ashpan", "burner")]
    for part in cut:
        if part.ride in ("coupling", "connecting", "crosshead"):
            continue
        for corners in _cut(part, x):
            pen: Pen = "outline" if part.kind in ("boiler", "frames") else "behind"
            fill: Fill = "section" if part.kind == "frames" else "none"
            sides = (1.0, -1.0) if part.paired else (1.0,)
            still += [
                Path(corners * np.array([side, 1.0]), pen, True, fill, part.name) for side in sides
            ]
    wide = whole.gauge
    still.append(Path(np.array([[-wide, whole.rail], [wide, whole.rail]]), "outline"))
    still.append(Path(np.array([[0.0, whole.rail], [0.0, lying.centre + 1.2 * lying.radius]]),
                      "centre"))  # fmt: skip
    if result.water is not None:
        level = result.water.level
        half = max(lying.inside**2 - (level - lying.centre) ** 2, 0.0) ** 0.5
        still.append(Path(np.array([[-half, level], [half, level]]), "trace"))
    if fire is not None and result.side_gap is not None:
        half, y = fire.extent[1][2], fire.extent[0][1] + 0.15 * lying.radius
        still.append(Dimension((half, y), (whole.frame_inside / 2, y), f"{result.side_gap:.2f}",
                               0.3 * lying.radius))  # fmt: skip
    side = "" if result.side_gap is None else (
        f" Hot, {result.side_gap:.2f} mm are left between firebox and frames on each side."
    )  # fmt: skip
    what = "the firebox" if fire is not None else "the barrel"
    return Scene(
        f"Section at {what}, from behind",
        f"The boiler's centre stands {result.centre:.1f} mm above the rail, and it measures "
        f"{2 * lying.radius:.1f} mm over its lagging.{side}",
        tuple(still),
    )


def _cut(part: Part, x: float) -> Iterator[np.ndarray]:
    """Yield what a plane across the engine cuts out of a part, as rectangles (4, 2) of z, y."""
    for solid in part.solids:
        if isinstance(solid, Round):
            inner, outer = solid.start[2] - solid.radius, solid.start[2] + solid.radius
        else:
            inner, outer = solid.inner, solid.outer
        for low, high in _upright(outline_of(solid), x):
            yield box(inner, low, outer, high)


def _upright(outline: tuple[tuple[float, float], ...], x: float) -> Iterable[tuple[float, float]]:
    """Return from where to where an upright line lies inside an outline."""
    found = []
    following = outline[1:] + outline[:1]
    for (ax, ay), (bx, by) in zip(outline, following, strict=True):
        if (ax > x) != (bx > x):
            found.append(ay + (x - ax) * (by - ay) / (bx - ax))
    found.sort()
    return zip(found[::2], found[1::2], strict=True)


def gap_table(result: BoilerResult) -> Table:
    """Return the least gaps, cold and hot."""
    return Table(
        "Least room round the boiler, axles risen",
        ("Part", "Near it", "Cold", "Hot", "Wanted"),
        tuple((gap.part, gap.other, gap.cold, gap.hot, gap.wanted) for gap in result.gaps[:_SHOWN]),
        "A negative gap is metal in metal. The gear that moves is looked at in the room for the "
        "motion.",
    )


def _pan_table(result: BoilerResult) -> Iterator[Table]:
    if result.pan is None:
        return
    yield Table(
        "Grate and ashpan, ways out",
        ("Way", "Needed", "Free", "In the way"),
        tuple(
            (way.toward, way.needed, "as far as one likes" if way.free > 1e6 else way.free,
             ", ".join(way.blocked[:3]) or "nothing")
            for way in result.pan.ways
        ),
        f"{result.pan.room:.1f} mm are left from the pan to the rail; on the rails it tips by "
        f"{result.pan.tips:.0f}° about its front edge.",
    )  # fmt: skip
