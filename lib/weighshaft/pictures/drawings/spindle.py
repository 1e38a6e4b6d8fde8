"""Valve spindle with its thread and its nut, and the die block, drawn with their sizes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from ...clearance.engine import Engine
from ...design import Design
from ...motion.events import setting_constant
from ...motion.frame import MotionLocks
from ...sizes import SizeError
from ...threads.joints import JointResult, spindle_diameter
from ..lengths import length
from ..scene import Circle, Label, Path
from .dimensions import chain, overall, rows
from .lathe import axis_line, solid, thread
from .sheet import Drawing, Outline, View, centre_lines, hole
from .shop import ELSE, FINE, Drawn
from .turned import block, middle

FORK = 1.5
"""Pin to the tapped end of the spindle's fork, in diameters of the spindle; common practice."""
SPARE = 2
"""Turns of thread left on either side of a nut for setting the valve; common practice."""


@dataclass(frozen=True)
class Spindle:
    """The valve spindle along its axis from the middle of its pin, the valve midway; mm.

    Parameters
    ----------
    back, front : ends of the rod.
    forked : where the thread for the fork ends.
    screwed : where the thread for the valve begins.
    valve : middle of the valve.
    """

    diameter: float
    back: float
    forked: float
    screwed: float
    front: float
    valve: float


def spindle_of(design: Design, work: Any) -> Spindle | None:
    """Return the valve spindle; None where it is not known, or shorter than its threads."""
    if work.cylinders is None or work.threads is None or work.motion is None:
        return None
    joint, face = work.threads.joint("valve_spindle"), work.motion.face
    if joint is None or face is None or design.motion.gear.kind == "oscillating":
        return None
    motion = design.motion
    try:
        pin = -setting_constant(design.cylinders.crank, motion.valve, motion.gear, motion.setting)
    except (MotionLocks, SizeError):
        return None
    valve = work.cylinders.axis.axle_to_cylinder - pin
    diameter = max(spindle_diameter(design.threads, work.cylinders.axis.rod), joint.one.major)
    forked = FORK * diameter
    spare = SPARE * joint.one.pitch
    if motion.valve_type == "piston":
        # a nut behind the valve, nut and lock nut ahead of it
        reach, ahead = face.valve_half + joint.nut, face.valve_half + 2 * joint.nut
    else:
        reach = ahead = joint.nut / 2
    screwed = valve - reach - spare
    if screwed <= forked:
        return None
    return Spindle(
        diameter, forked - joint.engagement, forked, screwed, valve + ahead + spare, valve
    )


def spindle_drawings(design: Design, work: Any) -> list[Drawing]:
    """Return the valve spindle, its nut, and the die block."""
    made = []
    one = spindle_of(design, work)
    if one is not None:
        joint = work.threads.joint("valve_spindle")
        made.append(valve_spindle(design, work, one, joint))
        if design.motion.valve_type == "slide":
            made.append(valve_nut(design, joint))
    die = die_block(design, work)
    return made if die is None else [*made, die]


def valve_spindle(design: Design, work: Any, rod: Spindle, joint: JointResult) -> Drawing:
    """Return the valve spindle from the side, the end in its fork to the left."""
    radius, major = rod.diameter / 2, joint.one.major / 2
    pitch = joint.one.pitch

    def views(scale: float) -> tuple[View, ...]:
        outline = [(rod.back, major), (rod.forked, major), (rod.forked, radius),
                   (rod.screwed, radius), (rod.screwed, major), (rod.front, major)]  # fmt: skip
        side = solid(outline, part="valve spindle")
        side += [Path(np.array([[x, -radius], [x, radius]])) for x in (rod.forked, rod.screwed)]
        side += thread(rod.back, rod.forked, joint.one.minor)
        side += thread(rod.screwed, rod.front, joint.one.minor)
        side.append(axis_line(rod.back, rod.front, scale))
        places = [rod.back, rod.forked, rod.screwed, rod.front]
        side += rows("below", -radius, [*chain(places), overall(rod.back, rod.front)], scale)
        side += rows("left", rod.back, [overall(-radius, radius, "⌀<> h6")], scale)
        for a, b in (places[:2], places[2:]):
            at = ((a + b) / 2, major)
            side.append(Label(joint.one.designation, (at[0], radius + 8.0 / scale), "middle", at))
        return (View("elevation", tuple(side)),)

    face = work.motion.face
    nuts = (
        f"A nut behind the valve, nut and lock nut ahead, each {length(joint.nut)} thick; leave "
        "the valve free to turn."
        if design.motion.valve_type == "piston" else
        f"The valve's nut stands amid the thread, {length(rod.valve)} from the fork's pin: a turn "
        f"sets the valve by {length(pitch)}."
    )  # fmt: skip
    clear = rod.valve - face.chest_needed / 2 - work.motion.travel / 2
    gland = (
        " The thread does not reach the gland." if rod.screwed - work.motion.travel / 2 > clear
        else " At the back of its travel the thread comes into the gland: plug-turn it there."
    )  # fmt: skip
    return Drawing(
        key="valve-spindle", title="Valve spindle", count=design.cylinders.number,
        material=design.threads.valve_spindle.male, views_at=views,
        notes=(
            f"{length(joint.engagement)} of thread go into the fork, whose tapped end stands "
            f"{length(rod.forked)} from its pin: {FORK:g} diameters, common practice.",
            f"{nuts} Drawn with {SPARE} turns of thread to spare on either side.{gland}",
        ),
        tolerance=f"Ground rod h6 in the gland; lengths ±{length(0.2)}{ELSE}",
    )  # fmt: skip


def valve_nut(design: Design, joint: JointResult) -> Drawing:
    """Return the nut that moves the slide valve, from its end and from the side."""
    across, thick = joint.across_flats, joint.nut
    half = across / 2

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [block(-half, half, -half, half)]
        face += [Outline(hole((0.0, 0.0), joint.drill.diameter).corners, "outline", "paper"),
                 Circle((0.0, 0.0), joint.one.major / 2, "thin")]  # fmt: skip
        face += centre_lines((0.0, 0.0), half, scale)
        face += rows("below", -half, [overall(-half, half)], scale)
        face += rows("left", -half, [overall(-half, half)], scale)
        words = f"{joint.one.designation},\ndrill {joint.drill.name}"
        face.append(Label(words, (half + 8.0 / scale, half + 6.0 / scale), "start",
                          (0.35 * joint.one.major, 0.35 * joint.one.major)))  # fmt: skip
        side: Drawn = [block(0.0, thick, -half, half), middle(0.0, thick, scale)]
        side += rows("above", half, [overall(0.0, thick)], scale)
        return (View("elevation", tuple(face)), View("end", tuple(side)))

    return Drawing(
        key="valve-nut", title="Nut of the slide valve", count=design.cylinders.number,
        material="gunmetal", views_at=views,
        notes=(
            f"Lies in a slot across the valve's back: {length(thick)} wide without play along "
            f"the spindle, {length(across)} deep and free upward, so that the valve can lift.",
            "As large as the thread's usual hexagon across flats and its nut thick; common "
            "practice. A buckle round the valve on two nuts does as well.",
        ),
        tolerance=f"Thickness −{FINE} to the slot; thread square to it{ELSE}",
    )  # fmt: skip


def die_block(design: Design, work: Any) -> Drawing | None:
    """Return the die that slides in the engine's link or guide; None where its slot is none."""
    if work.clearance is None or work.slots is None:
        return None
    engine: Engine = work.clearance.engine
    if "die" not in {part.name for part in engine.gear.parts}:
        return None
    link = next((one for one in engine.pieces if one.name in ("link", "guide")), None)
    width = design.slots.width or work.slots.width
    if link is None or width >= 2 * max(edge[2] for edge in link.edges):
        return None
    radius = work.slots.radius if any("arc" in a for a, _, _ in link.edges) else None
    long = max(design.slots.die_length or width, width)
    pin = design.slots.die_pin or work.slots.die_pin
    thick = link.outer - link.inner
    round_ = long - width < 1e-9
    outline = hole((0.0, 0.0), width) if round_ else _sided(radius, long, width)
    points = outline.path().points
    (left, low), (right, high) = points.min(axis=0), points.max(axis=0)
    left, right, low, high = float(left), float(right), float(low), float(high)

    def views(scale: float) -> tuple[View, ...]:
        face: Drawn = [Outline(outline.corners, "outline", "metal")]
        face.append(Outline(hole((0.0, 0.0), pin).corners, "outline", "paper"))
        face += centre_lines((0.0, 0.0), max(right, high), scale)
        face += rows("below", low, [(-pin / 2, pin / 2, "⌀<>")], scale)
        if round_:
            face += rows("above", high, [overall(left, right, "⌀<>")], scale)
        else:
            face += rows("left", left, [overall(low, high)], scale)
            face += rows("above", high, [overall(-width / 2, width / 2)], scale, [0.0])
        end: Drawn = [block(0.0, thick, low, high), middle(0.0, thick, scale)]
        end += rows("above", high, [overall(0.0, thick)], scale)
        return (View("elevation", tuple(face)), View("end", tuple(end)))

    flanks = "" if round_ or radius is None else (
        f" Flanks R {length(radius - width / 2)} and {length(radius + width / 2)}."
    )  # fmt: skip
    return Drawing(
        key="die-block", title="Die block", count=min(2, design.cylinders.number),
        material="silver steel" if round_ else "gunmetal", views_at=views, flat=True,
        notes=(
            f"Slides in the slot of {length(width)}, as thick as the {link.name}.{flanks}",
            "Round, as no length is decided: a longer one wears less." if round_ else
            "Ends square to the slot; break the corners. Ream the pin's hole square to the faces.",
        ),
        tolerance=f"Width −{FINE} to the slot as made; hole to its pin{ELSE}",
    )  # fmt: skip


def _sided(radius: float | None, long: float, width: float) -> Outline:
    """Return a die with flanks of the slot, upright, its middle at the origin."""
    half = width / 2
    if radius is None:
        y = long / 2
        return Outline(((-half, -y, 0.0), (half, -y, 0.0), (half, y, 0.0), (-half, y, 0.0)))
    # the ends of the sector without the round caps of a slot
    turn = long / 2 / radius
    bulge = math.tan(2 * turn / 4)
    inner, outer = radius - half, radius + half
    cos, sin = math.cos(turn), math.sin(turn)
    return Outline((
        (inner * cos - radius, -inner * sin, 0.0), (outer * cos - radius, -outer * sin, bulge),
        (outer * cos - radius, outer * sin, 0.0), (inner * cos - radius, inner * sin, -bulge),
    ))  # fmt: skip
