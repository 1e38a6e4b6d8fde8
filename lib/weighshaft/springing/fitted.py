"""The springs as they are fitted: what was decided, and what is suggested for the rest."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from ..findings import Suggestion
from ..frames import Whole
from .bed import Carried
from .coil import CoilSpring, Task, free_length, suggested
from .decisions import UNDER, CoilSprings, LeafSprings, Springing, TruckSprings
from .leaf import LeafSpring, leaf_spring
from .results import AnySpring, Bed

_LEAST = 0.2
"""Least load that a spring is suggested for, N."""
_PINS = 0.02
"""Room kept between a spring's pin and the rail, over the driving wheel; common practice."""


@dataclass(frozen=True)
class Fitted:
    """The springs of one kind of axle.

    Parameters
    ----------
    spring, number : one of them, and how many stand to one box.
    task : what it was suggested for.
    """

    spring: AnySpring
    number: int
    task: Task
    suggestions: tuple[Suggestion, ...]


def wanted(springing: Springing, bed: Bed) -> tuple[float, Suggestion]:
    """Return how far the springs are to give under the engine, mm, and what is usual."""
    usual = round(max(2 * bed.rise, 0.02 * bed.wheel, 0.1), 2)
    why = "twice the boxes' rise, a fiftieth of the driving wheel at least"
    given = springing.riding.deflection
    told = Suggestion("springing.riding.deflection", usual, why)
    return (usual if given is None else given), told


def coupled_springs(springing: Springing, whole: Whole, bed: Bed, axles: list[Carried]) -> Fitted:
    """Return the springs of the coupled axles."""
    decided = springing.springs
    gives, told = wanted(springing, bed)
    if isinstance(decided, LeafSprings):
        task = _task([one.box for one in axles], gives, bed.rise, 1e9, 1e9)
        return _leaf(decided, whole, bed, task, told)
    under = decided.place == UNDER
    number = decided.number or (2 if under else 1)
    task = _task(
        [one.box / number for one in axles], gives, bed.rise, widest(bed, number, under),
        longest(bed, under),
    )  # fmt: skip
    made = _coil(decided, task, "springing.springs")
    usual = Suggestion(
        "springing.springs.number", 2 if under else 1,
        "two pins hang from a box, one spring stands on it",
    )  # fmt: skip
    return Fitted(made.spring, number, task, (told, usual, *made.suggestions))


def truck_springs(springing: Springing, bed: Bed, axles: list[Carried]) -> Fitted:
    """Return the springs of the trucks' axles."""
    decided = springing.trucks
    gives, _ = wanted(springing, bed)
    loads = [one.box / decided.number for one in axles]
    task = _task(loads, gives, bed.rise, 1.2 * bed.box_length, 0.5 * bed.wheel)
    made = _coil(decided, task, "springing.trucks")
    return Fitted(made.spring, decided.number, task, made.suggestions)


def widest(bed: Bed, number: int, under: bool) -> float:
    """Return the greatest diameter over the wire that finds room at a box, mm."""
    along = bed.box_length / number
    across = bed.box_outer - bed.box_inner
    # pins may stand a little over the edges of stay and box, a pocket may not
    return min(along, 1.6 * across) if under else 0.8 * min(along, across)


def longest(bed: Bed, under: bool) -> float:
    """Return the greatest length at the running height that finds room, mm."""
    if under:
        return bed.stay_bottom - bed.rail - bed.rise - _PINS * bed.wheel
    # into the box down to a wall over the journal, and up to half of what the plate leaves
    pocket = (bed.box_height - bed.journal) / 2 - 0.1 * bed.journal
    over = bed.plate_top - bed.box_height / 2
    return max(pocket + bed.rise + 0.5 * over, 0.1)


def _task(loads: list[float], gives: float, rise: float, outside: float, length: float) -> Task:
    shared = [max(one, _LEAST) for one in loads]
    return Task(
        sum(shared) / len(shared), max(shared), gives, rise, max(outside, 0.5), max(length, 1.0)
    )


def _coil(decided: CoilSprings | TruckSprings, task: Task, path: str) -> Fitted:
    usual = suggested(
        task, wire=decided.wire, coil=decided.coil, turns=decided.turns,
        free=None, ends=decided.ends, metal=decided.metal,
    )  # fmt: skip
    used = task.most / usual.rate + task.rise
    usual_free = free_length(decided.ends, usual.turns, usual.wire, used)
    free = usual_free if decided.free_length is None else decided.free_length
    made = CoilSpring(usual.wire, usual.coil, usual.turns, free, decided.ends, decided.metal)
    why = f"for {task.force:.3g} N and {task.gives:.2f} mm, of wire that is sold"
    told = (
        Suggestion(f"{path}.wire", usual.wire, why),
        Suggestion(f"{path}.coil", usual.coil, why),
        Suggestion(f"{path}.turns", usual.turns, why),
        Suggestion(
            f"{path}.free_length", min(max(usual_free, 1.0), 400.0),
            "closed only 15 % beyond the box's whole rise",
        ),
    )  # fmt: skip
    return Fitted(made, 1, task, told)


def _leaf(decided: LeafSprings, whole: Whole, bed: Bed, task: Task, told: Suggestion) -> Fitted:
    places = sorted(one.ahead for one in whole.coupled)
    apart = min((b - a for a, b in pairwise(places)), default=bed.wheel)
    # a buckle that was decided has to leave something to bend
    span = max(round(min(0.75 * bed.wheel, 0.85 * apart), 1), 2 * (decided.buckle or 0.0))
    width = round(2 * (bed.plate_outer - bed.plate_inner), 1)
    spring = leaf_spring(decided, task, span=span, width=width)
    path = "springing.springs"
    why = f"for {task.force:.3g} N and {task.gives:.2f} mm, of strip that is sold"
    made = (
        told,
        Suggestion(f"{path}.span", span, "three quarters of the driving wheel, clear of the next"),
        Suggestion(f"{path}.width", width, "twice the frame plate"),
        Suggestion(f"{path}.buckle", spring.buckle, "an eighth of the span"),
        Suggestion(f"{path}.leaves", spring.leaves, why),
        Suggestion(f"{path}.thickness", spring.thickness, why),
        Suggestion(f"{path}.camber", min(spring.camber, 120.0), "flat under the heaviest axle"),
        Suggestion(f"{path}.nip", min(spring.nip, 60.0), "evens the stress, the box at its top"),
    )
    return Fitted(spring, 1, task, made)


def altered(spring: AnySpring, name: str, value: float, task: Task) -> AnySpring:
    """Return a spring with one size changed, and its free length as is usual then."""
    if isinstance(spring, LeafSpring):
        return LeafSpring(**{**vars(spring), name: value})
    made = CoilSpring(**{**vars(spring), name: value})
    if name == "free":
        return made
    used = task.most / made.rate + task.rise
    free = free_length(made.ends, made.turns, made.wire, used)
    return CoilSpring(**{**vars(made), "free": free})
