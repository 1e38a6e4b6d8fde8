"""The train on its studs, the cuts of the thread, the dividing plate, and the speeds."""

from __future__ import annotations

import itertools
import math

import numpy as np

from ..threads.form import profile
from ..workshop.screwcutting import Screwcutting, ScrewcuttingResult
from ..workshop.screwcutting.decisions import INSIDE
from . import screwcutting_tables as tables
from .scene import (
    Arc,
    Array,
    Chart,
    Circle,
    Curve,
    Dimension,
    Label,
    Path,
    Picture,
    Point,
    Primitive,
    Scene,
)

_ELBOW = 0.88
"""Distance of first and last stud over the length of the train, where it is not known."""


def pictures(screwcutting: Screwcutting, result: ScrewcuttingResult) -> tuple[Picture, ...]:
    """Return the train, the thread, the plate, the speeds, and the tables of each."""
    return (
        train(result), *tables.trains(result),
        *((tables.starts(result),) if len(result.starts.each) > 1 else ()),
        thread_cuts(screwcutting, result),
        tables.cuts(result), tables.steps(result, outside=True),
        tables.steps(result, outside=False), plate(result), tables.circles(result),
        tables.rotary(result), speed_chart(result), tables.speeds(result),
    )  # fmt: skip


def studs(result: ScrewcuttingResult) -> tuple[tuple[Point, ...], tuple[tuple[int, int], ...]]:
    """Return where the studs stand and (stud, teeth) of every wheel, in mm.

    The first stud is at the origin and the leadscrew to the right of it; studs between stand
    above the line, as the quadrant swings them.
    """
    best = result.trains.best[0]
    half = result.wheel_module / 2
    if len(best.pairs) == 1:
        (a, b), between = best.pairs[0], best.idler or max(best.pairs[0])
        steps = [half * (a + between), half * (between + b)]
        wheels: tuple[tuple[int, int], ...] = ((0, a), (1, between), (2, b))
    else:
        steps = [half * (a + b) for a, b in best.pairs]
        wheels = tuple(
            (n + side, teeth)
            for n, pair in enumerate(best.pairs)
            for side, teeth in enumerate(pair)
        )
    if len(steps) == 2:
        apart = max(_ELBOW * sum(steps), abs(steps[0] - steps[1]) + 1e-6)
        x = (steps[0] ** 2 - steps[1] ** 2 + apart**2) / (2 * apart)
        y = math.sqrt(max(steps[0] ** 2 - x**2, 0.0))
        return ((0.0, 0.0), (x, y), (apart, 0.0)), wheels
    places, lean = [(0.0, 0.0)], math.radians(25)
    for n, step in enumerate(steps):
        x, y = places[-1]
        turn = lean if n % 2 == 0 else -lean
        places.append((x + step * math.cos(turn), y + step * math.sin(turn)))
    return tuple(places), wheels


def train(result: ScrewcuttingResult) -> Scene:
    """Return the best train to scale: pitch circles, rims and studs."""
    if not result.trains.best:
        return Scene("The change wheels", result.findings[0].says, (Label("none", (0.0, 0.0)),))
    best = result.trains.best[0]
    places, wheels = studs(result)
    still: list[Primitive] = []
    for n, (stud, teeth) in enumerate(wheels):
        centre, radius = places[stud], result.wheel_module * teeth / 2
        driver = n == 0 or (n % 2 == 0 and len(best.pairs) > 1)
        still += [
            Circle(centre, radius + result.wheel_module, "thin", part=f"wheel {n + 1}"),
            Circle(centre, radius, "centre", part=f"wheel {n + 1}"),
            Label(
                f"{teeth}" + ("" if len(best.pairs) > 1 or n != 1 else " between"),
                (centre[0] + 0.75 * radius * (-1 if driver else 1), centre[1] + 0.35 * radius),
            ),
        ]
    names = ["first stud", *(f"stud {n}" for n in range(1, len(places) - 1)), "leadscrew"]
    for name, centre in zip(names, places, strict=True):
        still += [
            Circle(centre, result.stud / 2, "outline", "metal", name),
            Label(name, (centre[0], centre[1] - 0.9 * result.stud)),
        ]
    low = min(y for _, y in places)
    widest = max(teeth for _, teeth in wheels) * result.wheel_module / 2
    still += [Dimension(a, b, f"{math.dist(a, b):.2f}", 0.0) for a, b in itertools.pairwise(places)]
    hand = (
        " A left-hand thread: the leadscrew turns the other way, by the tumbler or one wheel more "
        "between, and the tool starts at the chuck."
        if result.left_hand
        else ""
    )
    still.append(
        Label(
            "the wheel between changes the hand" if len(best.pairs) == 1 else
            "driven wheel and next driver share a stud",
            (places[-1][0] / 2, low - 1.2 * widest),
        )
    )  # fmt: skip
    tight = (
        "" if best.spare is None
        else f" The tightest wheel passes the next stud with {best.spare:.0f} teeth to spare."
    )  # fmt: skip
    return Scene(
        "The change wheels on their studs",
        f"{best.text} from the spindle's side to the leadscrew cuts {best.pitch:.5f} mm for "
        f"{result.lead:.5f} mm wanted.{tight}{hand}",
        tuple(still),
    )


def thread_cuts(screwcutting: Screwcutting, result: ScrewcuttingResult) -> Scene:
    """Return the thread in section with the tool's flanks at each cut."""
    fed, one = result.fed, result.thread
    pitch, scale = fed.pitch, fed.pitch / one.pitch
    inside = screwcutting.infeed.where == INSIDE
    along = np.linspace(-1.5 * pitch, 1.5 * pitch, 301)
    shape = profile(one, along / scale, male=not inside) * scale
    surface = (one.minor_internal if inside else one.major) / 2 * scale
    heights = shape - surface
    if inside:  # seen with the metal below, as the male thread is
        heights = -heights
    floor = -1.8 * fed.depth - 0.4 * pitch
    outline = np.concatenate(
        [
            np.stack([along, heights], axis=-1),
            [[along[-1], floor], [along[0], floor]],
        ]
    )
    still: list[Primitive] = [
        Path(outline, "outline", True, "section", "thread"),
        Path(np.array([[along[0], 0.0], [along[-1], 0.0]]), "centre"),
    ]
    for cut in fed.cuts[:-1]:
        still.append(Path(_tool(result, cut.depth), "trace", part="tool"))
    still.append(Path(_tool(result, fed.depth), "changed", part="tool"))
    x = -0.5 * pitch
    lean = math.radians(fed.set_over)
    top = (x + 1.6 * pitch * math.sin(lean), 1.6 * pitch * math.cos(lean) - fed.depth)
    still += [
        Path(np.array([top, (x, -fed.depth)]), "crank"),
        Label(
            f"top slide at {fed.set_over:.1f}°" if fed.set_over else "cross-slide",
            (top[0] + 0.2 * pitch, top[1] + 0.1 * pitch), "start",
        ),
        Dimension(
            (1.35 * pitch, -fed.form_depth), (1.35 * pitch, 0.0), f"form {fed.form_depth:.3f}",
            -0.3 * pitch,
        ),
        Dimension((-0.5 * pitch, floor), (0.5 * pitch, floor), f"pitch {pitch:.4f}",
                  -0.15 * pitch),
    ]  # fmt: skip
    return Scene(
        "The cuts of the thread",
        f"{len(fed.cuts) - 1} cuts bring the tool {fed.depth:.3f} mm deep, the slide that feeds "
        f"travels {fed.slide:.3f} mm; the {'bore' if inside else 'bar'} is drawn with its metal "
        "below.",
        tuple(still),
    )


def _tool(result: ScrewcuttingResult, depth: float) -> Array:
    """Return the edges of the tool at a depth, its point over the groove."""
    fed = result.fed
    half, lean = math.radians(fed.half), math.radians(fed.set_over)
    # along the axis it comes from the side to which the slide is set over
    x = -0.5 * fed.pitch + (fed.depth - depth) * math.tan(lean)
    high = fed.depth + 0.35 * fed.pitch
    # the point stands this far short of where its flanks would meet
    reach = _blunt(fed.point, fed.point_is, half) if fed.point else 0.0
    apex = -depth - reach
    if fed.point and fed.point_is == "radius":
        turn = np.linspace(-(math.pi / 2 - half), math.pi / 2 - half, 15)
        tip = [(x + fed.point * math.sin(a), -depth + fed.point * (1 - math.cos(a))) for a in turn]
    else:
        width = reach * math.tan(half)
        tip = [(x - width, -depth), (x + width, -depth)]
    wide = (high - apex) * math.tan(half)
    return np.array([(x - wide, high), *tip, (x + wide, high)])


def _blunt(size: float, kind: str, half: float) -> float:
    """Return how far a blunt point stands back from where its flanks would meet, mm."""
    if kind == "flat":
        return size / 2 / math.tan(half)
    return size * (1 / math.sin(half) - 1)


def plate(result: ScrewcuttingResult) -> Scene:
    """Return the dividing plate with the circle, its sector arms and the holes of a division."""
    ways = result.indexed
    if ways.circles:
        circle, turns, holes = ways.circles[0].circle, ways.circles[0].turns, ways.circles[0].holes
        says = f"{result.divisions} divisions: {turns} whole turns and {holes} holes of {circle}."
    elif result.geared:
        way = result.geared[0]
        circle, turns, holes = way.circle, way.turns, way.holes
        says = (
            f"{result.divisions} divisions: {way.handle} of the plate, which the train "
            f"{way.wheels} turns {'with' if way.plate > 0 else 'against'} the handle."
        )
    else:
        assert ways.nearest is not None
        circle = ways.nearest.circle
        turns, holes = ways.nearest.places[1]
        says = (
            f"{result.divisions} divisions at the nearest holes of {circle}: the first is "
            f"{turns} turns and {holes} holes, each from the start."
        )
    radius = 50.0
    around = [math.radians(90 - 360 * n / circle) for n in range(circle)]
    at = [(radius * math.cos(a), radius * math.sin(a)) for a in around]
    small = min(1.2, 0.25 * 2 * math.pi * radius / circle)
    still: list[Primitive] = [Circle((0.0, 0.0), 1.15 * radius, "outline", "metal", "plate")]
    for n, centre in enumerate(at):
        hit = n in (0, holes)
        still.append(
            Circle(centre, small * (1.8 if hit else 1.0), "crank" if hit else "thin", "paper")
        )
    if holes:
        for n in (0, holes):
            a = around[n]
            still.append(
                Path(np.array([[0.0, 0.0], [1.1 * radius * math.cos(a),
                                            1.1 * radius * math.sin(a)]]), "changed",
                     part="sector")
            )  # fmt: skip
        still.append(
            Arc((0.0, 0.0), 0.6 * radius, math.degrees(around[holes]), 90.0, "changed", "sector")
        )
    still += [
        Circle((0.0, 0.0), 0.12 * radius, "outline", "paper", "worm"),
        Label(f"{holes} holes", (0.3 * radius, 0.3 * radius)),
        Label(f"circle of {circle}", (0.0, -1.3 * radius)),
        Label("the pin starts here: hole 0", (0.0, 1.3 * radius), "middle", at[0]),
    ]
    arms = f" The sector arms span {holes} spaces, {holes + 1} holes." if holes else ""
    return Scene("The dividing plate", says + arms, tuple(still), to_scale=False)


def speed_chart(result: ScrewcuttingResult) -> Chart:
    """Return the turns a minute over the diameter, and the lathe's own."""
    widths = np.geomspace(1.0, max(60.0, 1.5 * result.diameter), 120)
    curves = []
    pens = {"turning": "outline", "drilling": "trace", "tapping": "changed"}
    for one in result.speeds:
        if one.operation in pens:
            curves.append(
                Curve(
                    widths, np.minimum(1000 * one.high / (math.pi * widths),
                                       1.6 * max(result.lathe_speeds)),
                    one.operation, pens[one.operation],  # type: ignore[arg-type]
                )
            )  # fmt: skip
    for speed in result.lathe_speeds:
        curves.append(Curve(widths[[0, -1]], np.array([speed, speed]), "", "thin"))
    turning = result.revolutions
    says = (
        f"For {result.diameter:.1f} mm in {result.material} the lathe's next lower speed for "
        f"turning is {turning:.0f} rev/min."
        if turning
        else f"For {result.diameter:.1f} mm in {result.material} every speed is too fast."
    )
    return Chart(
        "Turns a minute over the diameter",
        says + " Thin lines are the lathe's own speeds: take the next below the curve.",
        "diameter, mm", "rev/min", tuple(curves),
    )  # fmt: skip
