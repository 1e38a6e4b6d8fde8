"""Loads of the steam on piston, rod, slide bars and covers, and their stresses."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from ..measures import BAR, circle_area
from ..sizes import figure
from ..trade.threads import thread
from ..working import pi, relation, sqrt
from .axis import Axis
from .decisions import Cylinders
from .sheet import Sheet

STEEL_MODULUS = 195_000.0
"""Young's modulus of stainless and carbon steel rod, N/mm2; a usual value, from memory."""


@relation("F_p", "pressure times area", pressure="p", bore="d")
def piston_load(pressure: float, bore: float) -> Any:
    """Load of the full gauge pressure (bar) on a piston or cover (mm), N."""
    return BAR * pressure * pi * bore**2 / 4


@relation("\\sigma", "load over area", load="F", area="A")
def stress(load: float, area: float) -> float:
    """Direct stress, N/mm2."""
    return load / area


@relation(
    "F_E", "Euler's strut with pinned ends", modulus="E", diameter="d_r", length="l",
)  # fmt: skip
def buckling_load(modulus: float, diameter: float, length: float) -> Any:
    """Load at which a round rod of steel bows out, N."""
    return pi * pi * pi * modulus * diameter**4 / (64 * length**2)


@relation(
    "\\sigma_c",
    "flat round plate held at its edge without stiffness there (Timoshenko, Theory of Plates "
    "and Shells, from memory), Poisson's ratio 0.3",
    pressure="p", circle="d_s", thickness="t",
)  # fmt: skip
def cover_stress(pressure: float, circle: float, thickness: float) -> float:
    """Greatest bending stress in a cover held on its screw circle, N/mm2; on the safe side."""
    return 3 * 3.3 / 8 * BAR * pressure * (circle / 2) ** 2 / thickness**2


@relation("F_s", "the piston load through the connecting rod's greatest slope", load="F_p",
          throw="r", offset="e", rod="l")  # fmt: skip
def slide_bar_load(load: float, throw: float, offset: float, rod: float) -> Any:
    """Greatest load of the slipper on its bar, N, with full pressure on the piston."""
    return load * (throw + offset) / sqrt(rod**2 - (throw + offset) ** 2)


def screws_for(bore: float) -> tuple[int, str]:
    """Return how many cover screws of which thread a bore usually has.  Common practice."""
    for most, number, usual in (
        (10, 4, "10BA"), (13, 6, "10BA"), (20, 6, "8BA"), (26, 6, "7BA"), (33, 8, "6BA"),
        (42, 8, "5BA"), (52, 10, "4BA"), (70, 10, "2BA"),
    ):  # fmt: skip
        if bore <= most:
            return number, usual
    return 12, "0BA"


ROD_THREADS = (
    (1.7, "10BA"), (2.2, "8BA"), (2.5, "7BA"), (2.8, "6BA"), (3.175, "1/8 × 40"),
    (3.969, "5/32 × 40"), (4.763, "3/16 × 40"), (5.556, "7/32 × 40"), (6.35, "1/4 × 40"),
    (7.938, "5/16 × 32"), (9.525, "3/8 × 32"),
)  # fmt: skip
"""Threads over the outside, mm, that piston rods usually have."""


def rod_thread_for(rod: float) -> str:
    """Return the largest usual thread that a piston rod takes.

    Source: common practice; a 4 mm rod takes 5/32 x 40.
    """
    fitting = [thread for major, thread in ROD_THREADS if major <= rod + 0.03]
    return fitting[-1] if fitting else "12BA"


def passage_hole_for(bore: float, holes: int) -> float:
    """Return the drill, mm, that gives the passage a fourteenth of the piston's area."""
    return max(0.8, round(bore / math.sqrt(14 * holes), 1))


@dataclass(frozen=True, eq=False, kw_only=True)
class LoadFigures:
    """Figures of loads and stresses at full working pressure."""

    piston_rod: float = figure("Piston rod, diameter")
    piston_load: float = figure("Load on the piston", "N")
    rod_stress: float = figure("Piston rod, in compression", "N/mm2")
    rod_thread: str = figure("Piston rod thread", "text")
    rod_thread_major: float = figure("Piston rod thread, over the outside")
    rod_thread_stress: float = figure("Piston rod thread, in tension", "N/mm2")
    buckling_factor: float = figure("Buckling load over piston load", "ratio")
    slide_bar_load: float = figure("Load on the slide bar", "N")
    slipper_pressure: float = figure("Slipper on its bar", "N/mm2")
    cover_load: float = figure("Load on a cover", "N")
    cover_stress: float = figure("Cover, bending", "N/mm2")
    screws: int = figure("Screws in each cover", "count")
    screw_thread: str = figure("Cover screws", "text")
    screw_major: float = figure("Cover screws, over the outside")
    screw_circle: float = figure("Screw circle")
    screw_stress: float = figure("Cover screws, from the steam alone", "N/mm2")
    screw_spacing: float = figure("Screw to screw around the circle")
    screw_wall: float = figure("Metal between bore and screw")


def loading(cylinders: Cylinders, sheet: Sheet, axis: Axis) -> LoadFigures:
    """Work the loads that full working pressure makes, and the stresses from them."""
    throw, offset = cylinders.crank.throw, abs(cylinders.cylinder_offset)
    load = sheet.put(
        piston_load.work(
            "Load on piston and cover", "N", pressure=cylinders.pressure, bore=cylinders.bore
        )
    )
    rod_thread = cylinders.crosshead.rod_thread or rod_thread_for(axis.rod)
    number, usual = screws_for(cylinders.bore)
    screws = cylinders.covers.screws or number
    screw_thread = cylinders.covers.thread or usual
    end, screw = thread(rod_thread), thread(screw_thread)
    circle = cylinders.covers.screw_circle or round(cylinders.bore + 2.6 * screw.major, 1)
    side = sheet.put(
        slide_bar_load.work(
            "Load on the slide bar", "N",
            load=load, throw=throw, offset=offset, rod=cylinders.connecting_rod,
        )
    )  # fmt: skip
    thread_stress = sheet.put(
        stress.work(
            f"Piston rod thread, {end.designation}", "N/mm2", load=load, area=end.stress_area
        )
    )
    bowing = sheet.put(
        buckling_load.work(
            "Buckling load of the piston rod", "N",
            modulus=STEEL_MODULUS, diameter=axis.rod, length=max(axis.gudgeon_to_piston, axis.rod),
        )
    )  # fmt: skip
    screw_stress = sheet.put(
        stress.work(
            f"Cover screws, {screws} of {screw.designation}", "N/mm2",
            load=load, area=screws * screw.stress_area,
        )
    )  # fmt: skip
    bending = sheet.put(
        cover_stress.work(
            "Cover, bending", "N/mm2", pressure=cylinders.pressure, circle=circle,
            thickness=min(axis.front_cover, axis.back_cover),
        )
    )  # fmt: skip
    slipper = (axis.slipper_ahead + axis.slipper_behind) * axis.slipper_width
    return LoadFigures(
        piston_rod=axis.rod,
        piston_load=load,
        rod_stress=stress(load, circle_area(axis.rod)),
        rod_thread=end.designation,
        rod_thread_major=end.major,
        rod_thread_stress=thread_stress,
        buckling_factor=bowing / load,
        slide_bar_load=side,
        slipper_pressure=side / max(slipper, 0.01),
        cover_load=load,
        cover_stress=bending,
        screws=screws,
        screw_thread=screw.designation,
        screw_major=screw.major,
        screw_circle=circle,
        screw_stress=screw_stress,
        screw_spacing=math.pi * circle / screws,
        screw_wall=(circle - cylinders.bore - screw.major) / 2,
    )
