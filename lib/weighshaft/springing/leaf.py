"""One leaf spring, hung at both ends with the box at its middle, and the one suggested."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..trade.springs import SpringStrip, spring_sizes, spring_strip
from . import relations
from .coil import Task
from .decisions import LeafSprings

_MOST = 12
"""Leaves of a suggested spring at most."""
BUCKLE = 8.0
"""Span over the buckle, where nothing was said; common practice."""


@dataclass(frozen=True)
class LeafSpring:
    """A leaf spring, mm and N.

    Parameters
    ----------
    span, buckle : between the hangers, and what cannot bend at the middle.
    leaves, extra : all leaves that work, and those of full length beside the master leaf.
    thickness, width : of every leaf.
    camber : rise of its arc without load.
    nip : gap between full-length and graduated leaves before they are drawn together.
    metal : name of its strip.
    """

    span: float
    buckle: float
    leaves: int
    extra: int
    thickness: float
    width: float
    camber: float
    nip: float
    metal: str

    @property
    def stuff(self) -> SpringStrip:
        """Its strip."""
        return spring_strip(self.metal)

    @property
    def half(self) -> float:
        """Length that bends on either side."""
        return (self.span - self.buckle) / 2

    @property
    def graduated(self) -> int:
        """Leaves that grow shorter, the master leaf among them."""
        return self.leaves - self.extra

    @property
    def rate(self) -> float:
        """At the buckle, N/mm."""
        return relations.leaf_rate(
            E=self.stuff.young, b=self.width, t=self.thickness, L=self.half, f=self.extra,
            g=self.graduated,
        )  # fmt: skip

    @property
    def travel(self) -> float:
        """It never closes."""
        return math.inf

    @property
    def allowed(self) -> float:
        """Bending stress that its leaves may reach, N/mm2."""
        return self.stuff.allowed

    @property
    def preload(self) -> float:
        """Pull that draws the leaves together, N."""
        if not self.extra or not self.nip:
            return 0.0
        return relations.leaf_preload(
            C=self.nip, E=self.stuff.young, b=self.width, t=self.thickness, L=self.half,
            f=self.extra, g=self.graduated,
        )  # fmt: skip

    def stresses(self, force: float) -> tuple[float, float]:
        """Return the stress in full-length leaves and in graduated ones, N/mm2.

        The nip bends the full-length leaves against the load and the others with it;
        V. B. Bhandari.
        """
        area = self.width * self.thickness**2
        shared = force * self.half / (area * (3 * self.extra + 2 * self.graduated))
        drawn = 3 * self.preload * self.half / area
        full = 9 * shared - drawn / self.extra if self.extra else 0.0
        return full, 6 * shared + drawn / self.graduated

    def even(self, force: float) -> float:
        """Return what all leaves would bear, were the stress evened out, N/mm2."""
        return relations.leaf_stress(
            F=max(force, 0.0), L=self.half, n=self.leaves, b=self.width, t=self.thickness
        )

    def stress(self, force: float) -> float:
        """Return the greatest bending stress under a force at the buckle, N/mm2."""
        return max(map(abs, self.stresses(max(force, 0.0))))


def leaf_spring(decided: LeafSprings, task: Task, *, span: float, width: float) -> LeafSpring:
    """Return the spring decided, with what is usual for the sizes left open.

    Parameters
    ----------
    task : what it is for; its force is that at the buckle.
    span, width : what is usual, mm.
    """
    long = span if decided.span is None else decided.span
    band = round(long / BUCKLE, 1) if decided.buckle is None else decided.buckle
    band = min(band, 0.6 * long)
    wide = width if decided.width is None else decided.width
    strip, half = spring_strip(decided.metal), (long - band) / 2
    thick = decided.thickness
    if thick is None:
        # bent to the limit when the box has risen as far as it can, by t = stress L² / (E y)
        used = task.gives * task.most / task.force + task.rise
        limit = 0.8 * strip.allowed * half**2 / (strip.young * used)
        sizes = spring_sizes("strip")
        thick = max((one for one in sizes if one <= limit), default=sizes[0])
        while (
            decided.leaves is None
            and thick < limit
            and _count(strip, task, half, thick, wide, decided.full_length) > _MOST
        ):
            thick = next((one for one in sizes if one > thick), math.inf)
        if math.isinf(thick):
            thick = sizes[-1]
    leaves = decided.leaves
    if leaves is None:
        leaves = _count(strip, task, half, thick, wide, decided.full_length)
    made = LeafSpring(long, band, leaves, decided.full_length, thick, wide, 0.0, 0.0, decided.metal)
    camber = decided.camber
    if camber is None:
        camber = round(task.most / made.rate, 2)
    nip = decided.nip
    if nip is None:
        up = task.most + made.rate * task.rise
        nip = (
            0.0
            if not decided.full_length
            else round(
                relations.leaf_nip(F=up, L=half, E=strip.young, n=leaves, b=wide, t=thick), 3
            )
        )
    return LeafSpring(
        long, band, leaves, decided.full_length, thick, wide, camber, nip, decided.metal
    )


def _count(
    strip: SpringStrip, task: Task, half: float, thick: float, wide: float, extra: int
) -> int:
    """Return the number of leaves that gives as wanted, so many as can be stacked."""
    one = relations.leaf_rate(E=strip.young, b=wide, t=thick, L=half, f=0, g=1)
    wanted = task.force / task.gives / one
    # an extra leaf of full length is as stiff as one and a half
    return min(max(round(wanted - 0.5 * extra), extra + 1, 1), 40)
