"""What the chapter has to say: reach, notches, hand of the lever, servo, screw, spring."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from ..findings import Finding
from .decisions import Lever, Reversing, Screw, Servo
from .layout import Layout, Stands
from .results import Notch, SpringWork
from .shaft import Shaft

CHAPTER = "reversing"
_SLANT = 0.5
"""Least sine at the reach rod, 30 degrees (common practice)."""
_LEAN = 45.0
FRICTION = 0.15
"""Steel on bronze or brass, lightly oiled (common practice)."""
_RESERVE = 1.5
"""A servo should hold this many times the torque (common practice)."""


def nothing_to_turn(title: str) -> Finding:
    """Say that a gear has nothing that a reverser could turn."""
    return Finding(
        "fine", CHAPTER, ("motion.gear",),
        f"{title}: nothing on the engine is turned to reverse it, so there is no weighshaft, "
        "reach rod or quadrant to cut.",
    )  # fmt: skip


def locks(says: str) -> Finding:
    """Say that there is no reverser to be cut for a gear that locks."""
    return Finding(
        "stop", CHAPTER, ("motion.gear",), f"{says} So no notch, rod or torque can be given.",
        "Mend the gear first.",
    )  # fmt: skip


def of_cutoffs(notches: tuple[Notch, ...]) -> Iterator[Finding]:
    """Judge which of the cut-offs wanted are reached."""
    missed = [one for one in notches if one.wanted is not None and one.reverser is None]
    for direction, word in ((1, "forward"), (-1, "backward")):
        some = [one for one in missed if one.direction == direction]
        if some:
            names = ", ".join(f"{one.wanted:g} %" for one in some)
            yield Finding(
                "check", CHAPTER, ("reversing.cutoffs",),
                f"Running {word} there is no notch for {names}: {some[0].missed}.",
                "Leave these out of the notches, or alter lap or gear.",
            )  # fmt: skip
    unknown = [one for one in notches if one.wanted is None and one.front is None]
    if unknown:
        names = " and ".join(one.name for one in unknown)
        yield Finding(
            "check", CHAPTER, ("motion.gear", "motion.valve"),
            f"In {names} gear the valve does not cut off at both ends.",
        )  # fmt: skip


def of_reach(
    reversing: Reversing, layout: Layout, shaft: Shaft, stood: Stands, margin: float
) -> Iterator[Finding]:
    """Judge whether the linkage goes from end to end, soundly, and the usual way round."""
    place = "reversing.linkage.reach_rod"
    stand = _path(reversing)
    if not stood.reached:
        yield Finding(
            "stop", CHAPTER, (place, "reversing.linkage.arm", stand),
            f"The reach rod, {layout.rod:.1f} mm long, does not let the {shaft.part} go from full "
            "forward to full backward gear.",
            "Leave the reach rod empty, so that it takes the length for mid gear, or shorten the "
            "reversing arm.",
        )  # fmt: skip
        return
    if margin < _SLANT:
        angle = math.degrees(math.asin(max(margin, 0.0)))
        yield Finding(
            "check", CHAPTER, (place, stand),
            f"In one notch the reach rod stands within {angle:.0f}° of the line of the arm, lever "
            "or nut that it drives; below 30° slack and spring of the rod tell.",
            "Set the stand so that the rod lies square to both arms in mid gear, or shorten the "
            "swing.",
        )  # fmt: skip
    if isinstance(reversing.worked_by, Lever):
        yield from _of_lever(layout, shaft, stood)


def _of_lever(layout: Layout, shaft: Shaft, stood: Stands) -> Iterator[Finding]:
    leans = np.abs(stood.place)
    if leans.max() > _LEAN:
        swing = math.sin(math.radians(min(abs(shaft.half), 90.0)))
        longer = math.ceil(layout.arm * swing / math.sin(math.radians(30.0)))
        yield Finding(
            "check", CHAPTER, ("reversing.worked_by.length",),
            f"The lever leans {leans.max():.0f}° in full gear; beyond 45° it is awkward to work "
            "and its quadrant long.",
            f"A lever of {longer} mm to the reach rod leans about 30°.",
            change=("reversing.worked_by.length", float(longer)),
        )  # fmt: skip
    if stood.place[0] < stood.place[-1]:
        other = (layout.arm_angle + 360) % 360 - 180
        yield Finding(
            "check", CHAPTER, ("reversing.linkage.arm_angle",),
            "The lever stands back for forward gear; drivers expect it ahead.",
            "A reversing arm on the other side of its shaft turns that about.",
            change=("reversing.linkage.arm_angle", round(other, 2)),
        )  # fmt: skip


def of_notches(layout: Layout, notches: tuple[Notch, ...]) -> Iterator[Finding]:
    """Judge whether neighbouring notches of a quadrant keep apart."""
    cut = [one for one in notches if one.arc is not None]
    apart = [(abs(a.arc - b.arc), a, b) for a, b in pairwise(cut)
             if a.arc is not None and b.arc is not None]  # fmt: skip
    if not apart:
        return
    least, one, other = min(apart, key=lambda three: three[0])
    pair = f"{one.name} and {other.name} {_way(one, other)}"
    need = layout.latch + layout.land
    paths = ("reversing.worked_by.latch", "reversing.worked_by.quadrant_radius",
             "reversing.cutoffs")  # fmt: skip
    if least < need:
        thinner = math.floor(10 * (least - layout.land)) / 10
        says = (
            f"The notches {pair} are {least:.2f} mm apart on the quadrant; a tooth of "
            f"{layout.latch:.2f} mm leaves {least - layout.latch:.2f} mm of metal between them."
            if least > layout.latch
            else f"The notches {pair} are {least:.2f} mm apart on the quadrant; with a tooth of "
            f"{layout.latch:.2f} mm they run into one another."
        )
        wider = layout.quadrant * need / least
        yield Finding(
            "check", CHAPTER, paths, says,
            f"Leave one out, or give the quadrant a radius of {wider:.0f} mm"
            + (f", or the latch a tooth of {thinner:.1f} mm." if thinner >= 0.4 else "."),
            change=("reversing.worked_by.latch", thinner) if thinner >= 0.4 else None,
        )  # fmt: skip
        return
    yield Finding(
        "fine", CHAPTER, paths,
        f"The closest notches, {pair}, are {least:.2f} mm apart, which leaves "
        f"{least - layout.latch:.2f} mm of metal beside a tooth of {layout.latch:.2f} mm.",
    )  # fmt: skip


def _way(one: Notch, other: Notch) -> str:
    return "forward" if one.direction + other.direction > 0 else "backward"


def of_screw(
    screw: Screw, layout: Layout, turns: float, travel: float, wheel_force: float | None
) -> Iterator[Finding]:
    """Judge turns of the screw and whether it holds itself."""
    lead = screw.pitch * screw.starts
    effective = layout.diameter - 0.65 * screw.pitch
    paths = ("reversing.worked_by.pitch", "reversing.worked_by.starts",
             "reversing.worked_by.diameter")  # fmt: skip
    if effective <= 0.5 * layout.diameter:
        yield Finding(
            "check", CHAPTER, paths,
            f"A screw of {layout.diameter:.1f} mm has too little core for a pitch of "
            f"{screw.pitch:.2f} mm.",
            "A pitch of a sixth of the diameter is usual.",
            change=("reversing.worked_by.pitch", round(layout.diameter / 6, 2)),
        )  # fmt: skip
        return
    slope = lead / (math.pi * effective)
    grip = FRICTION / math.cos(math.radians(30.0))
    holds = slope < grip
    effort = f", and {wheel_force:.1f} N at the wheel turns it" if (wheel_force or 0) >= 0.1 else ""
    yield Finding(
        "fine" if holds else "check", CHAPTER, paths,
        f"{turns:.1f} turns take the gear from full forward to full backward, the nut travelling "
        f"{travel:.1f} mm; the thread rises {math.degrees(math.atan(slope)):.1f}° and "
        + (f"holds itself{effort}." if holds else "does not hold itself."),
        "" if holds else "Fewer starts or a finer pitch would, or a catch on the wheel.",
    )  # fmt: skip


def of_servo(servo: Servo, layout: Layout, swing: float, needed: float | None) -> Iterator[Finding]:
    """Judge travel and torque of a servo."""
    if swing > servo.travel:
        share = math.sin(math.radians(swing / 2)) / math.sin(math.radians(0.45 * servo.travel))
        longer = math.ceil(10 * layout.radius * share) / 10
        yield Finding(
            "stop", CHAPTER, ("reversing.worked_by.horn", "reversing.worked_by.travel"),
            f"The horn has to swing {swing:.0f}° and the servo travels {servo.travel:.0f}°: full "
            "gear is not reached.",
            f"A horn of {longer:.1f} mm would do.",
            change=("reversing.worked_by.horn", longer),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, ("reversing.worked_by.travel",),
            f"The horn swings {swing:.0f}° of the {servo.travel:.0f}° that the servo travels.",
        )  # fmt: skip
    if needed is None or servo.torque is None:
        return
    says = (
        f"The gear pulls with up to {needed:.2f} kg·cm on the servo, which is said to hold "
        f"{servo.torque:.2f} kg·cm"
    )
    if needed > servo.torque:
        level, says = "stop", f"{says}: it is too weak."
    elif _RESERVE * needed > servo.torque:
        level, says = "check", f"{says}: little in hand."
    else:
        level, says = "fine", f"{says}."
    mend = "" if level == "fine" else (
        f"One of {_RESERVE * needed:.1f} kg·cm or more would do, or a shorter horn on a servo of "
        "more travel."
    )  # fmt: skip
    yield Finding(level, CHAPTER, ("reversing.worked_by.torque",), says, mend)  # type: ignore[arg-type]


def of_weight(
    reversing: Reversing, hung: float, weight: float, friction: float | None, greatest: float,
    shaft: Shaft,
) -> Iterator[Finding]:  # fmt: skip
    """Say what holds the shaft, and where a figure is an estimate."""
    own = reversing.balance.hung
    if own is None and hung:
        yield Finding(
            "fine", CHAPTER, ("reversing.balance.hung",),
            f"{hung:.0f} g on the lifting arms is an estimate from the sizes, in steel.",
            "Weigh link and rods when they are made, and enter it.",
        )  # fmt: skip
    if not hung:
        yield Finding(
            "fine", CHAPTER, ("motion.gear",),
            f"Nothing hangs on the {shaft.name}: the {shaft.part} is borne in its own pivot and "
            "wants no balance spring.",
        )  # fmt: skip
    if friction is None:
        yield Finding(
            "fine", CHAPTER, ("motion.valve.port_length",),
            f"The valve's friction is not known, so that the {greatest:.0f} N mm on the "
            f"{shaft.name} is that of the weight alone.",
        )  # fmt: skip
    elif greatest:
        yield Finding(
            "fine", CHAPTER, ("motion.face.friction", "reversing.balance.hung"),
            f"Under steam the gear turns the {shaft.name} back with up to {greatest:.0f} N mm, "
            f"of which the weight is {abs(weight):.0f} N mm in mid gear; inertia is left out.",
        )  # fmt: skip


def of_spring(reversing: Reversing, spring: SpringWork, most: float) -> Iterator[Finding]:
    """Judge a balance spring that is fitted."""
    balance = reversing.balance
    paths = ("reversing.balance.wire", "reversing.balance.coil", "reversing.balance.turns")
    index = spring.coil / spring.wire
    if not 4 <= index <= 16:
        coil = round(8 * spring.wire, 1)
        yield Finding(
            "check", CHAPTER, paths,
            f"The coil is {index:.1f} wires across; 4 to 16 can be wound well.",
            f"A coil of {coil:.1f} mm would do.", change=("reversing.balance.coil", coil),
        )  # fmt: skip
    if spring.stress > spring.allowed:
        yield Finding(
            "check", CHAPTER, paths,
            f"The spring's wire is stressed to {spring.stress:.0f} N/mm²; {balance.material} wire "
            f"should not see more than {spring.allowed:.0f} N/mm².",
            "Thicker wire or a smaller coil.",
        )  # fmt: skip
    useful = spring.left_over < most
    yield Finding(
        "fine" if useful else "check", CHAPTER, paths,
        f"The spring pulls {spring.force:.2f} N in mid gear, stretched {spring.stretch:.1f} mm, "
        f"and leaves at most {spring.left_over:.1f} of {most:.1f} N mm that the weight exerts.",
        "" if useful else "More turns make it softer.",
    )  # fmt: skip


def of_sides(number: int, crank_angle: float) -> Iterator[Finding]:
    """Judge the angle between the cranks."""
    usual = {2: 90.0, 3: 120.0, 4: 90.0}.get(number)
    if usual is None:
        return
    away = abs(crank_angle % 360)
    if min(away, 360 - away) != usual:
        yield Finding(
            "check", CHAPTER, ("cylinders.crank_angle",),
            f"{number} cylinders with cranks {crank_angle:g}° apart do not beat evenly.",
            f"{usual:.0f}° is usual.", change=("cylinders.crank_angle", usual),
        )  # fmt: skip


def _path(reversing: Reversing) -> str:
    last = {"lever": "length", "screw": "nut_y", "servo": "horn"}[reversing.worked_by.kind]
    return f"reversing.worked_by.{last}"
