"""What the chapter has to say about the springs by themselves."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from ..findings import COMMON, Finding
from ..trade.springs import spring_sizes
from .coil import INDEX, CoilSpring
from .decisions import UNDER, CoilSprings, LeafSprings, Springing
from .fitted import Fitted, altered, longest, widest
from .leaf import LeafSpring
from .on_track import on_track
from .relations import BHANDARI, SHIGLEY
from .results import AxleSpring, SpringingResult

CHAPTER = "springing"


def judge(
    springing: Springing,
    found: SpringingResult,
    fitted: Fitted,
    carrying: Fitted | None,
    running_speed: float | None,
) -> tuple[Finding, ...]:
    """Return the findings of the chapter; see `work` for the parameters."""
    made: list[Finding] = []
    for kind, path, word in ((fitted, "springs", "axle"), (carrying, "trucks", "truck")):
        if kind is None:
            continue
        axles = [one for one in found.axles if (one.kind == "coupled") == (path == "springs")]
        made += _loads(axles)
        made += _strength(axles, kind, f"{CHAPTER}.{path}", word)
        if isinstance(kind.spring, CoilSpring):
            made += _coils(axles, kind, kind.spring, f"{CHAPTER}.{path}", word)
    decided = springing.springs
    if isinstance(decided, CoilSprings) and isinstance(fitted.spring, CoilSpring):
        made += _room(decided, found, fitted, fitted.spring)
    if isinstance(decided, LeafSprings) and isinstance(fitted.spring, LeafSpring):
        made += _leaves(found, fitted.spring, decided)
    made += on_track(springing, found, fitted, running_speed)
    return tuple(made)


def _loads(axles: list[AxleSpring]) -> Iterator[Finding]:
    for one in axles:
        if one.load <= one.unsprung:
            yield Finding(
                "stop", CHAPTER, ("cylinders.coupled_weight",),
                f"The {one.name} axle carries {one.load:.2f} kg, but wheels, axle and boxes alone "
                f"weigh {one.unsprung:.2f} kg: nothing is left for its springs.",
                "Look at the weights and at what each axle is to carry.", "statics",
            )  # fmt: skip


def _worst(axles: list[AxleSpring]) -> AxleSpring:
    return max(axles, key=lambda one: one.force)


def _strength(axles: list[AxleSpring], kind: Fitted, path: str, word: str) -> Iterator[Finding]:
    worst, spring = _worst(axles), kind.spring
    coil = isinstance(spring, CoilSpring)
    source = (
        f"{SHIGLEY}, tables 10-4 and 10-6, with Wahl's factor" if coil else f"{BHANDARI}; {COMMON}"
    )
    fields = (f"{path}.wire", f"{path}.coil") if coil else (f"{path}.thickness", f"{path}.leaves")
    share, resting = worst.stress_up / worst.allowed, worst.stress / worst.allowed
    if share <= 1:
        yield Finding(
            "fine", CHAPTER, fields,
            f"The {word} springs are stressed to {worst.stress_up:.0f} N/mm² with the box of the "
            f"{worst.name} axle at its top, {100 * share:.0f} % of what their metal may bear.",
            source=source,
        )  # fmt: skip
        return
    when = "at rest" if resting > 1 else "with the box at its top"
    stress = worst.stress if resting > 1 else worst.stress_up
    change = _stronger(kind, path, worst.allowed)
    yield Finding(
        "stop" if resting > 1 else "check", CHAPTER, fields,
        f"The springs of the {worst.name} axle are stressed to {stress:.0f} N/mm² {when}; they "
        f"take a set beyond {worst.allowed:.0f} N/mm².",
        f"{'Thicker wire' if coil else 'Thinner leaves and more of them'}, or a larger spring.",
        source, change,
    )  # fmt: skip


def _stronger(kind: Fitted, path: str, allowed: float) -> tuple[str, float | str] | None:
    """Return the least wire, or number of leaves, that mends the stress by itself."""
    spring, task = kind.spring, kind.task
    name = "wire" if isinstance(spring, CoilSpring) else "leaves"
    sizes: tuple[float, ...] = (
        tuple(one for one in spring_sizes("wire") if spring.wire < one <= spring.coil / 3)
        if isinstance(spring, CoilSpring) else tuple(range(spring.leaves + 1, 41))
    )  # fmt: skip
    for size in sizes:
        one = altered(spring, name, size, task)
        if one.stress(task.most + one.rate * task.rise) <= one.allowed:
            # a spring too stiff to follow the track is no mend
            return (f"{path}.{name}", size) if task.most / one.rate >= task.rise else None
    return None


def _coils(
    axles: list[AxleSpring], kind: Fitted, spring: CoilSpring, path: str, word: str
) -> Iterator[Finding]:
    worst = _worst(axles)
    assert worst.margin is not None
    assert worst.stress_bound is not None
    free = f"{path}.free_length"
    rise = kind.task.rise
    used = worst.deflection + rise
    asked = altered(spring, "wire", spring.wire, kind.task)
    assert isinstance(asked, CoilSpring)
    if worst.margin < 0:
        at_rest = worst.margin + rise <= 0
        where = (
            "under the engine at rest"
            if at_rest
            else f"{-worst.margin:.2f} mm before the box meets the top of its horn gap"
        )
        yield Finding(
            "stop" if at_rest else "check", CHAPTER, (free, f"{path}.turns"),
            f"The springs of the {worst.name} axle, {spring.free:.1f} mm free and "
            f"{spring.solid:.1f} mm closed, are coil-bound {where}.",
            "A longer spring, or fewer turns.", f"{SHIGLEY}, table 10-1",
            (free, round(asked.free, 1)),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, (free, f"{path}.turns"),
            f"The {word} springs have {worst.margin:.2f} mm left before they are coil-bound when "
            f"the box of the {worst.name} axle is at its top.", source=f"{SHIGLEY}, table 10-1",
        )  # fmt: skip
    if worst.margin >= 0 and worst.stress_bound > worst.allowed >= worst.stress_up:
        yield Finding(
            "check", CHAPTER, (free, f"{path}.wire"),
            f"Pressed together until its turns touch, as in the vice, the {word} spring is "
            f"stressed to {worst.stress_bound:.0f} N/mm² and stays shorter; "
            f"{worst.allowed:.0f} N/mm² may be borne.",
            "Make it shorter, or close it before it is measured and fitted.",
            f"{SHIGLEY}, table 10-6",
            (free, round(asked.free, 1)) if asked.free < spring.free - 0.05 and
            asked.stress(asked.rate * asked.travel) <= asked.allowed else None,
        )  # fmt: skip
    if not INDEX[0] <= spring.index <= INDEX[1]:
        wound = "hard to wind" if spring.index < INDEX[0] else "easily bent and tangled"
        yield Finding(
            "check", CHAPTER, (f"{path}.coil", f"{path}.wire"),
            f"The coil of the {word} spring is {spring.index:.1f} wires across; outside of "
            f"{INDEX[0]:g} to {INDEX[1]:g} it is {wound}.", "", SHIGLEY,
            (f"{path}.coil", round(8 * spring.wire, 1)),
        )  # fmt: skip
    if not spring.stuff.known:
        yield Finding(
            "check", CHAPTER, (f"{path}.wire",),
            f"Wire of {spring.wire:g} mm lies beyond what is tabulated for {spring.metal}; its "
            "strength is a guess.", "", f"{SHIGLEY}, table 10-4",
        )  # fmt: skip
    bows = spring.bows_at
    if bows is not None and bows < used:
        yield Finding(
            "check", CHAPTER, (free, f"{path}.coil"),
            f"The {word} spring, {spring.free:.1f} mm long and {spring.coil:.1f} mm across, would "
            f"bow sideways when {max(bows, 0):.2f} mm closed; it is closed by {used:.2f} mm.",
            "Let a pin or a pocket guide it over most of its length.", SHIGLEY,
        )  # fmt: skip


def _room(
    decided: CoilSprings, found: SpringingResult, fitted: Fitted, spring: CoilSpring
) -> Iterator[Finding]:
    bed, under = found.bed, decided.place == UNDER
    path = f"{CHAPTER}.springs"
    room = widest(bed, fitted.number, under)
    if spring.outside > room + 0.005:
        beside = "beside one another" if fitted.number == 2 else "at the box"
        yield Finding(
            "check", CHAPTER, (f"{path}.coil", f"{path}.wire", "frames.horns.box_length"),
            f"The axle springs are {spring.outside:.1f} mm across; {room:.1f} mm find room "
            f"{beside}.", "A smaller coil, or a longer box.", COMMON,
            (f"{path}.coil", round(room - spring.wire - 0.05, 1))
            if room - spring.wire > 4 * spring.wire else None,
        )  # fmt: skip
    rests = spring.free - fitted.task.force / spring.rate
    if under:
        low = bed.stay_bottom - rests - found.fall
        over = low - bed.rail
        if over < 0:
            yield Finding(
                "stop", CHAPTER, (f"{path}.free_length", f"{path}.turns", f"{path}.place"),
                f"With the boxes down, the springs under the horn stays end {-over:.1f} mm below "
                "the rail's top.",
                "Fewer turns, or springs above the boxes.", "geometry",
                (f"{path}.place", "above the box"),
            )  # fmt: skip
        else:
            yield Finding(
                "check" if rests > longest(bed, True) else "fine", CHAPTER, (f"{path}.place",),
                f"With the boxes down, the springs under the horn stays end {over:.1f} mm over "
                "the rail; their nuts come off this.", source="geometry",
            )  # fmt: skip
        return
    pocket = rests - bed.rise
    metal = (bed.box_height - bed.journal) / 2 - 0.1 * bed.journal
    if pocket > metal:
        yield Finding(
            "check", CHAPTER, (f"{path}.free_length", f"{path}.place", "frames.horns.box_height"),
            f"The spring above the box is {rests:.1f} mm long; a pocket over the journal takes "
            f"{max(metal, 0):.1f} mm and the rise {bed.rise:.1f} mm, so the frame plate has to be "
            f"cut {pocket - max(metal, 0):.1f} mm further up for it.",
            "A higher box, a shorter spring, or springs under the horn stay.", "geometry",
            (f"{path}.place", UNDER),
        )  # fmt: skip


def _leaves(found: SpringingResult, spring: LeafSpring, decided: LeafSprings) -> Iterator[Finding]:
    places = sorted(one.ahead for one in found.axles if one.kind == "coupled")
    apart = min((b - a for a, b in pairwise(places)), default=math.inf)
    path = f"{CHAPTER}.springs"
    if spring.span >= apart:
        yield Finding(
            "stop", CHAPTER, (f"{path}.span", "wheels.wheelbase"),
            f"Leaf springs {spring.span:.1f} mm between their hangers meet those of the next "
            f"axle, {apart:.1f} mm away.", "A shorter span.", "geometry",
            (f"{path}.span", round(0.85 * apart, 1)),
        )  # fmt: skip
    if decided.nip is not None and spring.extra:
        driving = found.axles[found.main]
        full, others = spring.stresses(driving.force + spring.rate * found.bed.rise)
        if max(full, others) > 1.25 * max(min(full, others), 0.0):
            even = spring.even(driving.force + spring.rate * found.bed.rise)
            yield Finding(
                "check", CHAPTER, (f"{path}.nip",),
                f"With the box at its top the leaves of full length bear {full:.0f} N/mm² and the "
                f"others {others:.0f} N/mm²; the right nip brings all to {even:.0f} N/mm².",
                "Leave the nip empty, and make the one suggested.", BHANDARI,
            )  # fmt: skip
