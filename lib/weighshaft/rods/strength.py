"""Rods under thrust and whip: sections, buckling, centrifugal bending, and both together."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..measures import GRAVITY
from ..trade.densities import density
from ..trade.materials import material
from ..trade.moduli import young
from ..working import Working
from . import relations
from .results import Span

PER_MM3 = 1e-9
"""kg/m3 to kg/mm3."""


@dataclass(frozen=True)
class Shape:
    """The section of a rod, mm: depth, thickness, and a flute in each side."""

    depth: float
    thickness: float
    flute: float = 0.0
    flute_height: float = 0.0

    @property
    def sizes(self) -> dict[str, float]:
        """As the relations take them."""
        return {"b": self.thickness, "h": self.depth, "f": self.flute, "g": self.flute_height}

    @property
    def area(self) -> float:
        """In mm2."""
        return relations.section_area(**self.sizes)

    @property
    def upright(self) -> float:
        """Second moment for bending up and down, mm4."""
        return relations.upright_inertia(**self.sizes)

    @property
    def sideways(self) -> float:
        """Second moment for bending sideways, mm4."""
        return relations.sideways_inertia(**self.sizes)


@dataclass(frozen=True)
class Duty:
    """What a rod is put to.

    Parameters
    ----------
    shared, load : thrust where all wheels pull alike, and the greatest, N.
    throw : of the pins, mm.
    running, top : turning speeds, rad/s.
    connecting : whether its far end goes to and fro, so that its whip is triangular.
    """

    shared: float
    load: float
    throw: float
    running: float
    top: float
    connecting: bool = False


def crippling(shape: Shape, metal: str, length: float, sideways: bool) -> tuple[float, float]:
    """Return Euler's and Rankine's load of a rod, N.

    In the plane of the motion both ends turn on their pins; sideways the pins hold them, so
    that half the length bows.  Rankine's constant is taken so that slender rods agree with
    Euler: the crushing stress over pi^2 E, the proof stress standing for crushing.
    """
    modulus, proof = young(metal), material(metal).proof
    inertia = shape.sideways if sideways else shape.upright
    free = length / 2 if sideways else length
    euler = relations.euler_load(E=modulus, I=inertia, l=free)
    rankine = relations.rankine_load(
        s=proof, A=shape.area, a=proof / (math.pi**2 * modulus), l=free,
        k=math.sqrt(inertia / shape.area),
    )  # fmt: skip
    return euler, rankine


def span_of(
    name: str, shape: Shape, metal: str, length: float, duty: Duty
) -> tuple[Span, tuple[Working, ...]]:
    """Return a rod's loads and stresses, and the way to those at greatest speed."""
    modulus, proof = young(metal), material(metal).proof
    upright, by_rankine = crippling(shape, metal, length, sideways=False)
    sideways, across = crippling(shape, metal, length, sideways=True)
    mass = density(metal) * PER_MM3 * shape.area

    def moment(omega: float) -> Working:
        if duty.connecting:
            return relations.rod_whip_moment.work(
                f"Whip of the {name}, bending moment", "N mm", m=mass, r=duty.throw, omega=omega,
                l=length,
            )  # fmt: skip
        load = relations.whip_load(m=mass, r=duty.throw, omega=omega, g=GRAVITY)
        return relations.even_moment.work(
            f"Whip of the {name}, bending moment", "N mm", w=load, l=length
        )

    running = relations.bending(M=moment(duty.running).result, h=shape.depth, I=shape.upright)
    at_top = moment(duty.top)
    whip = relations.bending.work(
        f"Whip of the {name}, stress at greatest speed", "N/mm2", M=at_top.result, h=shape.depth,
        I=shape.upright,
    )  # fmt: skip
    workings = [at_top, whip]
    stress = factor = None
    if duty.load < 0.95 * upright:
        both = relations.together.work(
            f"Thrust and whip of the {name}", "N/mm2", P=duty.load, A=shape.area, b=whip.result,
            E=upright,
        )  # fmt: skip
        workings.append(both)
        stress, factor = both.result, proof / both.result
    # an even load bows 5 w l^4 / 384 E I, a triangular one hardly more for the same moment
    bow = 5 * at_top.result * length**2 / (48 * modulus * shape.upright)
    rankine = min(by_rankine, across)
    return (
        Span(
            name=name, length=length, depth=shape.depth, thickness=shape.thickness,
            area=shape.area, upright=shape.upright, sideways=shape.sideways, shared=duty.shared,
            load=duty.load, euler_upright=upright, euler_sideways=sideways, rankine=rankine,
            buckling=rankine / duty.load, whip_running=running, whip_top=whip.result,
            stress=stress, factor=factor, bow=bow,
        ),
        tuple(workings),
    )  # fmt: skip


def whip_at(span: Span, metal: str, throw: float, omega: float, connecting: bool) -> float:
    """Return the stress of whip at a turning speed, rad/s, N/mm2."""
    mass = density(metal) * PER_MM3 * span.area
    if connecting:
        moment = relations.rod_whip_moment(m=mass, r=throw, omega=omega, l=span.length)
    else:
        load = relations.whip_load(m=mass, r=throw, omega=omega, g=GRAVITY)
        moment = relations.even_moment(w=load, l=span.length)
    return relations.bending(M=moment, h=span.depth, I=span.upright)
