"""One coil spring, and the one that is suggested for a load, a height and a room."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

from ..measures import to_step
from ..trade.springs import SpringWire, spring_sizes, spring_wire
from . import relations

CLASH = 0.15
"""Travel kept beyond the greatest that is used, over it; Shigley: 15 % or more."""
INDEX = (4.0, 12.0)
"""Mean diameter over wire that can be wound well; Shigley."""
_INDEXES = (8.0, 7.0, 9.0, 6.0, 10.0, 5.0, 11.0, 4.5, 12.0, 4.0)
_TURNS = (3.0, 15.0)
"""Working turns; Shigley."""
DEAD = {"squared and ground": 2.0, "squared": 2.0, "plain and ground": 1.0, "plain": 0.0}
"""Turns at the ends that do not work; Shigley, table 10-1."""
FLAT, LOOSE = 0.5, 0.707
"""Constant of the ends, between flat faces and with one end free to tip; Shigley, table 10-2."""


@dataclass(frozen=True)
class CoilSpring:
    """A coil spring in compression, mm and N.

    Parameters
    ----------
    wire, coil : diameter of the wire and mean diameter of the coil.
    turns : that work.
    free : length without load.
    ends : as in `DEAD`.
    metal : name of its wire.
    """

    wire: float
    coil: float
    turns: float
    free: float
    ends: str
    metal: str

    @property
    def stuff(self) -> SpringWire:
        """Its wire."""
        return spring_wire(self.metal, self.wire)

    @property
    def index(self) -> float:
        """Mean diameter over wire."""
        return self.coil / self.wire

    @property
    def outside(self) -> float:
        """Diameter over the wire."""
        return self.coil + self.wire

    @property
    def total(self) -> float:
        """All its turns."""
        return self.turns + DEAD[self.ends]

    @property
    def rate(self) -> float:
        """In N/mm."""
        return relations.coil_rate(G=self.stuff.shear, d=self.wire, D=self.coil, n=self.turns)

    @property
    def solid(self) -> float:
        """Length when its turns touch."""
        return solid_length(self.ends, self.turns, self.wire)

    @property
    def travel(self) -> float:
        """From free to closed; negative where it is longer closed than its free length says."""
        return self.free - self.solid

    @property
    def pitch(self) -> float:
        """Of the free turns; Shigley, table 10-1."""
        ground = self.ends.endswith("ground")
        if DEAD[self.ends] == 2:
            return (self.free - (2 if ground else 3) * self.wire) / self.turns
        return self.free / self.total if ground else (self.free - self.wire) / self.turns

    @property
    def allowed(self) -> float:
        """Shear stress that its wire may reach, N/mm2."""
        return self.stuff.allowed

    def stress(self, force: float) -> float:
        """Return the shear stress under a force, N/mm2."""
        return relations.coil_stress(F=max(force, 0.0), D=self.coil, d=self.wire)

    @property
    def mass(self) -> float:
        """Of the working turns, kg."""
        return relations.coil_mass(
            rho=self.stuff.density * 1e-9, d=self.wire, D=self.coil, n=self.turns
        )

    @property
    def surge(self) -> float:
        """Lowest frequency of the waves along it, Hz."""
        return relations.surge(k=1000 * self.rate, m=self.mass)

    @property
    def bows_at(self) -> float | None:
        """Compression at which it bows if nothing guides it, None where it never does."""
        ends = FLAT if self.ends == "squared and ground" else LOOSE
        slender = ends * self.free / self.coil
        young, shear = self.stuff.young, self.stuff.shear
        if slender**2 <= 2 * math.pi**2 * (young - shear) / (2 * shear + young):
            return None
        return relations.buckling_deflection(L=self.free, lam=slender, E=young, G=shear)


def solid_length(ends: str, turns: float, wire: float) -> float:
    """Return the length of a closed spring, mm."""
    total = turns + DEAD[ends]
    if ends.endswith("ground"):
        return relations.solid_ground(N=total, d=wire)
    return relations.solid_unground(N=total, d=wire)


@dataclass(frozen=True)
class Task:
    """What a suggested spring is for.

    Parameters
    ----------
    force, most : mean and greatest load of one spring at rest, N.
    gives : deflection wanted under the mean load, mm.
    rise : of the box from its running height, mm.
    outside, length : greatest diameter, and greatest length at the running height, mm.
    """

    force: float
    most: float
    gives: float
    rise: float
    outside: float
    length: float


def free_length(ends: str, turns: float, wire: float, used: float) -> float:
    """Return a free length that leaves the usual margin beyond the travel used, mm."""
    ideal = solid_length(ends, turns, wire) + (1 + CLASH) * used
    step = 0.1 if ideal < 10 else 0.5
    return math.ceil(ideal / step - 1e-9) * step


@lru_cache(maxsize=32)
def suggested(
    task: Task,
    *,
    wire: float | None,
    coil: float | None,
    turns: float | None,
    free: float | None,
    ends: str,
    metal: str,
) -> CoilSpring:
    """Return the spring that serves best, keeping to the sizes that are given.

    Among wires that are sold and usual coils it looks for one that gives as wanted, is not
    overstressed when closed, finds room, and has a usual number of turns; where none does
    all of it, the one that fails least.
    """
    best: tuple[float, CoilSpring] | None = None
    for d, index in product(_wires(wire, coil, metal), _INDEXES if coil is None else (0.0,)):
        mean = coil if coil is not None else min(round(index * d, 1 if d >= 0.5 else 2), 120.0)
        if mean < 2 * d:
            continue
        n = turns
        if n is None:
            ideal = relations.coil_rate(G=spring_wire(metal, d).shear, d=d, D=mean, n=1.0)
            n = min(max(to_step(ideal * task.gives / task.force, 0.25), 2.0), 30.0)
        one = CoilSpring(d, mean, n, 0.0, ends, metal)
        used = task.most / one.rate + task.rise
        length = free_length(ends, n, d, used) if free is None else free
        one = CoilSpring(d, mean, n, length, ends, metal)
        wrong = _wrong(one, task, used)
        if best is None or wrong < best[0]:
            best = wrong, one
        if coil is not None and wire is not None:
            break
    assert best is not None
    return best[1]


def _wires(wire: float | None, coil: float | None, metal: str) -> tuple[float, ...]:
    if wire is not None:
        return (wire,)
    sizes = tuple(one for one in spring_sizes("wire") if spring_wire(metal, one).known)
    if coil is None:
        return sizes
    return tuple(one for one in sizes if one <= coil / 3) or (round(coil / 6, 2),)


def _wrong(spring: CoilSpring, task: Task, used: float) -> float:
    """Return how badly a spring serves; below 1 nothing is really wrong with it."""
    closed = spring.stress(spring.rate * max(spring.travel, used)) / spring.allowed
    gives = task.force / spring.rate / task.gives
    rests = spring.free - task.force / spring.rate
    return (
        10 * max(closed - 1, 0)
        + 10 * max(spring.stress(task.most) / spring.allowed - 0.7, 0)
        + 8 * max(spring.outside / task.outside - 1, 0)
        + 6 * max(rests / task.length - 1, 0)
        + 3 * abs(math.log(gives))
        + 0.5 * max(_TURNS[0] - spring.turns, 0)
        + 0.2 * max(spring.turns - _TURNS[1], 0)
        + (0.0 if spring.bows_at is None or spring.bows_at > used else 0.3)
        + 0.02 * abs(spring.index - 8)
        + 0.05 * rests / task.length
    )
