"""The stack-up along the cylinder axis: every part in its place, and what is left over."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from ..measures import BAR, circle_area, to_step
from .decisions import Cylinders

BAR_STRESS = 40.0
"""Bending in a slide bar of the usual thickness, N/mm2: two thirds of what is let pass; common
practice."""


@dataclass(frozen=True, kw_only=True)
class Axis:
    """All lengths along the axis, mm, as decided or, where nothing was said, as usual.

    Places are distances ahead of the driving axle.  `taken` names the sizes, as paths
    inside the chapter, that were left open.
    """

    front_gudgeon: float
    back_gudgeon: float
    axle_to_cylinder: float
    barrel: float
    joint: float
    front_spigot: float
    back_spigot: float
    front_cover: float
    back_cover: float
    gland: float
    piston: float
    nut: float
    rod: float
    rod_length: float
    thread: float
    engaged: float
    boss: float
    socket: float
    lock_nut: float
    slipper_ahead: float
    slipper_behind: float
    slipper_width: float
    slide_bar: float
    bar_thickness: float
    big_end: float
    wanted: float
    taken: dict[str, tuple[float, str]] = field(hash=False)

    @property
    def stroke(self) -> float:
        """True stroke of the piston; longer than twice the throw where the axis is offset."""
        return self.front_gudgeon - self.back_gudgeon

    @property
    def crosshead(self) -> tuple[float, float]:
        """How far the crosshead reaches ahead of and behind the gudgeon pin."""
        return max(self.boss, self.slipper_ahead), self.slipper_behind

    @property
    def front_face(self) -> float:
        """Inner face of the front cover."""
        return self.axle_to_cylinder + self.barrel / 2 + self.joint - self.front_spigot

    @property
    def back_face(self) -> float:
        """Inner face of the back cover."""
        return self.axle_to_cylinder - self.barrel / 2 - self.joint + self.back_spigot

    @property
    def back_outside(self) -> float:
        """Outer face of the back cover, from which the slide bars stand."""
        return self.axle_to_cylinder - self.barrel / 2 - self.joint - self.back_cover

    @property
    def gland_end(self) -> float:
        """End of the stuffing box and gland."""
        return self.back_outside - self.gland

    @property
    def gudgeon_to_piston(self) -> float:
        """Gudgeon pin to the back face of the piston: what the rod and its thread make."""
        return self.boss - self.engaged + self.rod_length

    @property
    def front_clearance(self) -> float:
        """Piston, or the nut on it, to the front cover at front dead centre."""
        piston_front = self.front_gudgeon + self.gudgeon_to_piston + self.piston + self.nut
        return self.front_face - piston_front

    @property
    def back_clearance(self) -> float:
        """Piston to the back cover at back dead centre."""
        return self.back_gudgeon + self.gudgeon_to_piston - self.back_face

    @property
    def spare_thread(self) -> float:
        """Thread left over behind the lock nut."""
        return self.thread - self.engaged - self.lock_nut

    @property
    def gland_to_lock_nut(self) -> float:
        """Lock nut on the crosshead to the gland at front dead centre."""
        return self.gland_end - (self.front_gudgeon + self.boss + self.lock_nut)

    @property
    def gland_to_thread(self) -> float:
        """End of the rod's thread to the gland at front dead centre."""
        return self.gland_end - (self.front_gudgeon + self.boss - self.engaged + self.thread)

    @property
    def bar_at_back(self) -> float:
        """Slide bar left behind the slipper at back dead centre."""
        return self.back_gudgeon - self.slipper_behind - (self.back_outside - self.slide_bar)

    @property
    def bar_at_front(self) -> float:
        """Slide bar left ahead of the slipper at front dead centre."""
        return self.back_outside - (self.front_gudgeon + self.slipper_ahead)

    @property
    def bar_to_big_end(self) -> float:
        """End of the slide bars to the circle that the big end sweeps about the axle."""
        throw = (self.front_gudgeon - self.back_gudgeon) / 2
        return self.back_outside - self.slide_bar - throw - self.big_end


@dataclass(frozen=True)
class Step:
    """One part in the chain from the driving axle to the cover: its length and where it ends."""

    part: str
    length: float
    ends: float


def _round(value: float) -> float:
    return to_step(value, 0.25)


def laid_out(cylinders: Cylinders) -> Axis:
    """Return the parts along the axis, with usual lengths for whatever was left open.

    The proportions are common practice.  Of the four sizes that tie the piston to the
    covers (place of the cylinder, barrel, piston rod, thread engaged) those left open close
    the stack-up so that the piston clears both covers alike.
    """
    given, head = cylinders.barrel, cylinders.crosshead
    bore, joint, nut = cylinders.bore, given.joint, given.piston_nut
    taken: dict[str, tuple[float, str]] = {}

    def take(path: str, value: float | None, usual: float, why: str) -> float:
        if value is not None:
            return value
        taken[path] = (usual, why)
        return usual

    front, back = cylinders.crank.gudgeon_ends
    wanted = usual_clearance(bore)
    rod = take("barrel.piston_rod", given.piston_rod, cylinders.piston_rod, "a fifth of the bore")
    piston = take(
        "barrel.piston_thickness", given.piston_thickness, _round(0.42 * bore),
        "about 0.42 of the bore, room for a ring or packing",
    )  # fmt: skip
    spigot_why = "about a twelfth of the bore"
    front_spigot = take("barrel.front_spigot", given.front_spigot, _round(bore / 12), spigot_why)
    back_spigot = take("barrel.back_spigot", given.back_spigot, _round(bore / 12), spigot_why)
    flange_why = "about an eighth of the bore, 2 mm at least"
    flange = max(2.0, _round(0.12 * bore))
    front_cover = take("barrel.front_cover", given.front_cover, flange, flange_why)
    back_cover = take("barrel.back_cover", given.back_cover, flange, flange_why)
    gland = take("barrel.gland", given.gland, max(3.0, _round(0.3 * bore)), "0.3 of the bore")
    barrel = take(
        "barrel.length", given.length,
        round(
            front - back + piston + nut + front_spigot + back_spigot + 2 * (wanted - joint), 2
        ),
        f"stroke, piston and spigots with {wanted:g} mm left at each end",
    )  # fmt: skip
    boss = take(
        "crosshead.boss", head.boss, max(4.0, _round(0.42 * bore)), "about 0.42 of the bore"
    )
    socket = take(
        "crosshead.socket", head.socket, max(1.5, _round(min(1.5 * rod, 0.7 * boss))),
        "one and a half rod diameters, not over 0.7 of the boss",
    )  # fmt: skip
    lock_nut = take(
        "crosshead.lock_nut", head.lock_nut, max(1.0, _round(0.5 * rod)), "half the rod's diameter"
    )
    thread = take(
        "crosshead.rod_thread_length", head.rod_thread_length, socket + lock_nut + 1.0,
        "socket, lock nut and a millimetre to adjust by",
    )  # fmt: skip
    slipper_why = "0.4 of the bore"
    slipper = max(2.0, _round(0.4 * bore))
    ahead = take("crosshead.slipper_ahead", head.slipper_ahead, slipper, slipper_why)
    behind = take("crosshead.slipper_behind", head.slipper_behind, slipper, slipper_why)
    width = take(
        "crosshead.slipper_width",
        head.slipper_width,
        max(2.0, _round(0.3 * bore)),
        "0.3 of the bore",
    )
    big_end = take(
        "crosshead.big_end", head.big_end, max(1.5, _round(0.22 * bore)), "0.22 of the bore"
    )
    room = max(1.0, _round(0.05 * bore))
    # the nut, or the thread left behind it, whichever stands out further
    behind_cover = max(boss + max(lock_nut, thread - 0.9 * socket) + gland, ahead)
    centre = take(
        "barrel.axle_to_cylinder", given.axle_to_cylinder,
        to_step(front + behind_cover + room + back_cover + joint + barrel / 2, 0.5),
        f"lock nut and slipper clear gland and cover by {room:g} mm at front dead centre",
    )  # fmt: skip
    # piston midway between the covers when the gudgeon pin is midway between dead centres
    inside = (joint - front_spigot + back_spigot - joint) / 2 + centre
    to_piston = inside - (piston + nut) / 2 - (front + back) / 2
    rod_length = take(
        "crosshead.rod_length", head.rod_length,
        round(
            to_piston - boss + (0.9 * socket if head.rod_engaged is None else head.rod_engaged), 2
        ),
        "the piston midway between the covers with nine tenths of the socket screwed in",
    )  # fmt: skip
    engaged = take(
        "crosshead.rod_engaged", head.rod_engaged, boss + rod_length - to_piston,
        "puts the piston midway between the covers",
    )  # fmt: skip
    outside = centre - barrel / 2 - joint - back_cover
    bar = take(
        "crosshead.slide_bar", head.slide_bar,
        _round(math.ceil(4 * (outside - (back - behind) + 0.5)) / 4),
        "half a millimetre of bar left behind the slipper at back dead centre",
    )  # fmt: skip
    # full pressure through the connecting rod's greatest slope, on a beam held at its ends
    rise = cylinders.crank.throw + abs(cylinders.cylinder_offset)
    thrust = cylinders.pressure * BAR * circle_area(bore)
    side = thrust * rise / math.sqrt(cylinders.connecting_rod**2 - rise**2)
    usual_bar = max(math.sqrt(1.5 * side * bar / (width * BAR_STRESS)), 0.3 * width)
    thick = take(
        "crosshead.bar_thickness", head.bar_thickness, math.ceil(4 * usual_bar) / 4,
        f"{BAR_STRESS:g} N/mm² in bending, not under 0.3 of its width",
    )  # fmt: skip
    return Axis(
        front_gudgeon=front, back_gudgeon=back, axle_to_cylinder=centre, barrel=barrel, joint=joint,
        front_spigot=front_spigot, back_spigot=back_spigot, front_cover=front_cover,
        back_cover=back_cover, gland=gland, piston=piston, nut=nut, rod=rod,
        rod_length=rod_length, thread=thread, engaged=engaged, boss=boss, socket=socket,
        lock_nut=lock_nut, slipper_ahead=ahead, slipper_behind=behind, slipper_width=width,
        slide_bar=bar, bar_thickness=thick, big_end=big_end, wanted=wanted, taken=taken,
    )  # fmt: skip


def usual_clearance(bore: float) -> float:
    """Return the usual clearance of piston to cover at each end for a bore, mm.

    Source: common practice: 0.5 mm in the small gauges, 0.8 in 3 1/2 in, 1.2 in 5 in.
    """
    return max(0.5, round(0.03 * bore, 1))


def stack_up(axis: Axis, front: bool) -> tuple[Step, ...]:
    """Return the chain from the axle to the cover that the piston is nearest to.

    At the front dead centre it runs through crank and rods to the front cover's inner
    face; at the back dead centre to the back cover's.  The last step is the clearance.
    """
    pin = axis.front_gudgeon if front else axis.back_gudgeon
    name = "front" if front else "back"
    steps = [
        (f"axle to gudgeon pin, {name} dead centre", pin),
        ("gudgeon pin to end of boss", axis.boss),
        ("less the thread engaged", -axis.engaged),
        ("piston rod to back of piston", axis.rod_length),
    ]
    if front:
        steps += [("piston", axis.piston), ("nut on the piston", axis.nut)]
        steps += [("clearance", axis.front_clearance)]
    else:
        steps += [("less the clearance", -axis.back_clearance)]
    chain, at = [], 0.0
    for part, length in steps:
        at += length
        if length or part.endswith("clearance"):
            chain.append(Step(part, length, at))
    return tuple(chain)


def by_the_frames(axis: Axis, front: bool) -> tuple[Step, ...]:
    """Return the other chain to the same cover's face: frames, barrel, joint and spigot."""
    sign = 1 if front else -1
    spigot = axis.front_spigot if front else axis.back_spigot
    steps = (
        ("axle to middle of barrel", axis.axle_to_cylinder),
        ("half the barrel", sign * axis.barrel / 2),
        ("joint", sign * axis.joint),
        ("less the spigot", -sign * spigot),
    )
    chain, at = [], 0.0
    for part, length in steps:
        at += length
        chain.append(Step(part, length, at))
    return tuple(chain)
