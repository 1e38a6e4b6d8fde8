"""What the springs are given by the rest of the engine: loads, boxes and the room about them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..frames import Part, Whole
from ..frames.solids import Bar
from ..measures import GRAVITY
from ..trade.densities import density
from .results import Bed

_NOT_SPRUNG = ("axle", "wheel", "coupling")


@dataclass(frozen=True)
class Carried:
    """What one axle carries.

    Parameters
    ----------
    name, kind, ahead : of the axle, mm.
    load, unsprung : on its two wheels, and what of it the springs do not carry, kg.
    """

    name: str
    kind: str
    ahead: float
    load: float
    unsprung: float

    @property
    def box(self) -> float:
        """Load that the springs of one box carry, N; negative where there is none."""
        return (self.load - self.unsprung) * GRAVITY / 2


def mass_of(part: Part) -> float:
    """Return the mass of a part, both sides together, kg."""
    return part.volume * density(part.material) * 1e-9


def carried(
    whole: Whole, loads: tuple[float, ...], sprung: tuple[float, ...] | None = None
) -> tuple[Carried, ...]:
    """Return what every axle carries; coupling rods hang on the coupled axles alike.

    Parameters
    ----------
    loads : on every axle from the front, in working order, kg.
    sprung : of them, through springs, kg; None reckons it from the parts.
    """
    coupled = len(whole.coupled)
    rods = sum(mass_of(part) for part in whole.parts if part.ride == "coupling")
    made = []
    for n, (axle, load) in enumerate(zip(whole.axles, loads, strict=True)):
        own = sum(
            mass_of(part) for part in whole.parts
            if part.ride in ("axle", "wheel") and part.axle == n
        )  # fmt: skip
        if axle.kind == "coupled":
            own += rods / coupled
        if sprung is not None:
            own = load - sprung[n]
        made.append(Carried(axle.name, axle.kind, axle.ahead, load, own))
    return tuple(made)


def gyration(whole: Whole) -> float:
    """Return the radius of gyration about a line across of what stands on the springs, mm."""
    moment = ahead = up = mass = 0.0
    for part in whole.parts:
        if part.ride in _NOT_SPRUNG:
            continue
        m = mass_of(part)
        x, y, _ = part.centroid
        low, high = part.extent
        # each part as a block of its length and height
        own = ((high[0] - low[0]) ** 2 + (high[1] - low[1]) ** 2) / 12
        moment += m * (x**2 + y**2 + own)
        ahead, up, mass = ahead + m * x, up + m * y, mass + m
    if mass <= 0:
        return abs(whole.front - whole.back) / math.sqrt(12)
    return math.sqrt(moment / mass - (ahead / mass) ** 2 - (up / mass) ** 2)


def bed_of(whole: Whole, horn_clearance: float) -> Bed:
    """Return the driving axlebox with its gap, as the model of the whole engine has it."""
    axle = next(one for one in whole.axles if one.name == "driving")
    box = whole.part("driving axleboxes")
    stays, plates = whole.part("horn stays"), whole.part("frame plates")
    assert box is not None
    assert stays is not None
    assert plates is not None
    low, high = box.solids[0].extent
    under, over = stays.extent
    shaft = whole.part("driving axle")
    assert shaft is not None
    journal = next(2 * one.half for one in shaft.solids if isinstance(one, Bar))
    return Bed(
        ahead=axle.ahead, box_length=high[0] - low[0], box_height=high[1] - low[1],
        box_inner=low[2], box_outer=high[2], journal=journal, clearance=horn_clearance,
        stay_top=over[1], stay_bottom=under[1], plate_top=plates.extent[1][1],
        plate_inner=whole.frame_inside / 2,
        plate_outer=whole.frame_inside / 2 + whole.frame_thickness,
        rise=whole.rise, rail=whole.rail, wheel=axle.diameter,
        tread=(whole.back_to_back + whole.tyre_width) / 2,
        back=whole.back_to_back / 2, tyre=whole.tyre_width,
    )  # fmt: skip
