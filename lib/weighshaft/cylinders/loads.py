"""Loads of the steam on piston, rod, slide bars and covers, and their stresses."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from ..measures import BAR, circle_area
from ..sizes import figure
from ..threads.proposals import usual_on_rod, usual_screw, usual_screw_circle, usual_screws
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


@relation("\\sigma_b", "a beam on its ends with the load amid", load="F_s", length="L", width="b",
          thickness="t")  # fmt: skip
def bar_bending(load: float, length: float, width: float, thickness: float) -> Any:
    """Greatest bending stress in one slide bar, N/mm2, held at the cover and at its other end."""
    return 1.5 * load * length / (width * thickness**2)


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
    buckling_factor: float = figure("Buckling load over piston load", "ratio")
    slide_bar_load: float = figure("Load on the slide bar", "N")
    bar_stress: float = figure("Slide bar, bending", "N/mm2")
    slipper_pressure: float = figure("Slipper on its bar", "N/mm2")
    cover_load: float = figure("Load on a cover", "N")
    cover_stress: float = figure("Cover, bending", "N/mm2")
    screws: int = figure("Screws in each cover", "count")
    screw_thread: str = figure("Cover screws", "text")
    screw_major: float = figure("Cover screws, over the outside")
    screw_circle: float = figure("Screw circle")


def loading(cylinders: Cylinders, sheet: Sheet, axis: Axis, preferred: str) -> LoadFigures:
    """Work the loads that full working pressure makes, and the stresses from them.

    What the rod's thread and the cover screws stand is worked with the other threads, which
    know their metals and joints.
    """
    throw, offset = cylinders.crank.throw, abs(cylinders.cylinder_offset)
    load = sheet.put(
        piston_load.work(
            "Load on piston and cover", "N", pressure=cylinders.pressure, bore=cylinders.bore
        )
    )
    covers, end = cylinders.covers, cylinders.crosshead.rod_thread
    rod_thread = thread(end) if end else usual_on_rod(axis.rod, preferred)
    screw = thread(covers.thread) if covers.thread else usual_screw(cylinders.bore, preferred)
    circle = covers.screw_circle or usual_screw_circle(cylinders.bore, screw.major)
    side = sheet.put(
        slide_bar_load.work(
            "Load on the slide bar", "N",
            load=load, throw=throw, offset=offset, rod=cylinders.connecting_rod,
        )
    )  # fmt: skip
    pressed = sheet.put(
        stress.work("Piston rod, in compression", "N/mm2", load=load, area=circle_area(axis.rod))
    )
    bowing = sheet.put(
        buckling_load.work(
            "Buckling load of the piston rod", "N",
            modulus=STEEL_MODULUS, diameter=axis.rod, length=max(axis.gudgeon_to_piston, axis.rod),
        )
    )  # fmt: skip
    bending = sheet.put(
        cover_stress.work(
            "Cover, bending", "N/mm2", pressure=cylinders.pressure, circle=circle,
            thickness=min(axis.front_cover, axis.back_cover),
        )
    )  # fmt: skip
    bowed = sheet.put(
        bar_bending.work(
            "Slide bar, bending", "N/mm2", load=side, length=axis.slide_bar,
            width=axis.slipper_width, thickness=axis.bar_thickness,
        )
    )  # fmt: skip
    slipper = (axis.slipper_ahead + axis.slipper_behind) * axis.slipper_width
    return LoadFigures(
        piston_rod=axis.rod,
        piston_load=load,
        rod_stress=pressed,
        rod_thread=rod_thread.designation,
        buckling_factor=bowing / load,
        slide_bar_load=side,
        bar_stress=bowed,
        slipper_pressure=side / max(slipper, 0.01),
        cover_load=load,
        cover_stress=bending,
        screws=covers.screws or usual_screws(cylinders.bore),
        screw_thread=screw.designation,
        screw_major=screw.major,
        screw_circle=circle,
    )
