"""The loose sheave's stop, cranks built up, and the jig that quarters the wheels."""

from __future__ import annotations

import math

from ...findings import Suggestion
from ...fits import RetainedSeat, carried
from ...sizes import SizeError
from . import relations
from .chucking import Worked
from .decisions import BuiltUp, Jig, Stop
from .engine import Engine

PIN_SHARE, PIN_RADIUS, DOWEL_SHARE = 0.2, 0.8, 0.25
"""Stop pin and its circle over the axle, and a dowel over the axle; common practice."""
DRESSING = 0.4
"""Left on each end of a pin to be filed off, mm; common practice."""
INSENSITIVE = 0.05


def stopped(stop: Stop, engine: Engine) -> Worked:
    """Return pin and dog of a sheave that slips; nothing where none does and none is asked.

    Raises
    ------
    SizeError : when pin and dog find no room.
    """
    typed = stop.forward if stop.forward is not None else stop.backward
    if engine.advances is None and typed is None:
        names = ("slip", "pin_takes", "opening", "dog", "gap_chord", "stop_pin", "stop_radius")
        return dict.fromkeys(names), [], []
    given = engine.advances or (typed or 0.0, typed or 0.0)
    forward = given[0] if stop.forward is None else stop.forward
    backward = stop.backward
    if backward is None:
        same = stop.forward is not None or engine.advances is None
        backward = forward if same else given[1]
    usual = (PIN_SHARE * engine.axle, PIN_RADIUS * engine.axle)
    pin = usual[0] if stop.pin is None else stop.pin
    radius = usual[1] if stop.radius is None else stop.radius
    if pin >= 1.4 * radius:
        raise SizeError(
            f"Stop pin, diameter: {pin:g} mm finds no room on a circle of {radius:g} mm radius; "
            f"{radius / 4:.2g} mm would do.", "stop.pin",
        )  # fmt: skip
    slip = relations.slip.work("Sheave slips by", "deg", alpha=forward, beta=backward)
    takes = relations.pin_takes.work("The pin takes", "deg", d=pin, rho=radius)
    gap = relations.opening.work("Dog's gap", "deg", s=slip.result, delta=takes.result)
    if slip.result <= 0:
        raise SizeError(
            f"Stop set for an advance, forward: {forward:g} and {backward:g} degrees leave the "
            "sheave no slip; less than 90 degrees each would do.", "stop.forward",
        )  # fmt: skip
    figures = {
        "slip": slip.result, "pin_takes": takes.result, "opening": gap.result,
        "dog": 360 - gap.result,
        "gap_chord": 2 * radius * math.sin(math.radians(min(gap.result, 180.0)) / 2),
        "stop_pin": pin, "stop_radius": radius,
    }  # fmt: skip
    taken = [
        Suggestion("eccentrics.stop.pin", round(usual[0], 2), "a fifth of the axle"),
        Suggestion("eccentrics.stop.radius", round(usual[1], 2), "0.8 of the axle"),
    ]
    if engine.advances is not None:
        taken.append(Suggestion("eccentrics.stop.forward", given[0], engine.name))
        taken.append(Suggestion("eccentrics.stop.backward", given[1], engine.name))
    return figures, [slip, takes, gap], taken


def built_up(crank: BuiltUp, engine: Engine) -> Worked:
    """Return the pin's pitch, and webs and pins of a crank that is built up.

    Raises
    ------
    SizeError : when the holes for axle and pin run into one another.
    """
    web = engine.web
    pitch = engine.crank_throw if crank.pitch is None else crank.pitch
    axle = engine.axle if crank.axle is None else crank.axle
    usual_pin = engine.pin if web is None else web.pin
    pin = usual_pin if crank.pin is None else crank.pin
    over = relations.over_pins.work("Over axle and pin", "mm", r=pitch, d=axle, p=pin)
    left = relations.metal_between.work("Between axle and pin", "mm", r=pitch, d=axle, p=pin)
    figures = {
        "pitch": pitch, "crank_axle": axle, "crank_pin": pin, "over_pins": over.result,
        "between_pins": left.result,
    }  # fmt: skip
    taken = [
        Suggestion("eccentrics.crank.pitch", engine.crank_throw, "half of the stroke"),
        Suggestion("eccentrics.crank.axle", engine.axle, engine.name),
        Suggestion("eccentrics.crank.pin", usual_pin, engine.name),
    ]
    typed = any(
        one is not None for one in (crank.pitch, crank.axle, crank.pin, crank.web, crank.breadth,
                                    crank.between)
    )  # fmt: skip
    solid = left.result <= 0  # a pin that overlaps the axle is turned with it from the solid
    if solid and typed:
        raise SizeError(
            f"Crankpin pitch to be drilled: at {pitch:g} mm the holes of an axle of {axle:g} mm "
            f"and a pin of {pin:g} mm run into one another; more than "
            f"{(axle + pin) / 2:.3g} mm would do.", "crank.pitch",
        )  # fmt: skip
    webs = crank.web is not None or crank.breadth is not None or crank.between is not None
    if solid or (web is None and not webs):
        names = (
            "web", "web_breadth", "web_length", "pin_cut", "sawn_out", "web_carries",
            "web_must_carry", "dowel",
        )  # fmt: skip
        return {**dict.fromkeys(names), **figures}, [over, left], taken
    thick = crank.web if crank.web is not None else web.thickness if web else 0.55 * axle
    broad = crank.breadth if crank.breadth is not None else web.breadth if web else 1.5 * axle
    apart = crank.between if crank.between is not None else web.between if web else 0.9 * axle
    usual_dowel = DOWEL_SHARE * axle
    seat = carried(RetainedSeat(length=thick, gap=crank.gap), axle)
    made = {
        **figures, "web": thick, "web_breadth": broad, "web_length": pitch + broad,
        "pin_cut": apart + 2 * thick + 2 * DRESSING, "sawn_out": apart,
        "web_carries": seat.torque, "web_must_carry": engine.piston_load * pitch,
        "dowel": usual_dowel if crank.dowel is None else crank.dowel,
    }  # fmt: skip
    taken += [
        Suggestion("eccentrics.crank.web", round(thick, 2), engine.name),
        Suggestion("eccentrics.crank.breadth", round(broad, 2), engine.name),
        Suggestion("eccentrics.crank.between", round(apart, 2), engine.name),
        Suggestion("eccentrics.crank.dowel", round(usual_dowel, 2), "a quarter of the axle"),
    ]
    return {**made, "order": _order(made)}, [over, left, *seat.workings], taken


def _order(made: dict[str, float]) -> tuple[str, ...]:
    """Return the order in which a built-up crank is made; common practice."""
    return (
        f"Saw two webs to {made['web_length']:.1f} by {made['web_breadth']:.1f} mm from "
        f"{made['web']:.2f} mm plate and sweat or bolt them together.",
        f"Drill and ream both at one setting, {made['pitch']:.3f} mm apart: "
        f"{made['crank_axle']:.2f} mm for the axle, {made['crank_pin']:.2f} mm for the pin.",
        f"Part them, break the edges, and cut the pin {made['pin_cut']:.2f} mm long.",
        "Leave the axle whole and unkeyed: it keeps both webs in line until all is fast.",
        f"Degrease, put webs, pin and axle together with the compound and a distance piece of "
        f"{made['sawn_out']:.2f} mm between the webs; leave it as long as the sheet says.",
        f"Drill and ream for dowels of {made['dowel']:.2f} mm across each web into axle and pin, "
        "and drive them in.",
        f"Saw the {made['sawn_out']:.2f} mm of axle out between the webs, a little proud, and "
        "file or mill it flush.",
        "Set the axle between centres: let the dial gauge stay still on both journals before the "
        "next crank is quartered to this one.",
    )


def jigged(jig: Jig, engine: Engine) -> Worked:
    """Return blocks, square and strip for quartering.

    Raises
    ------
    SizeError : when the pins would reach the plate.
    """
    usual = math.ceil(0.6 * engine.wheel)
    height = float(usual) if jig.height is None else jig.height
    axle = engine.axle if jig.axle is None else jig.axle
    pin = engine.coupled_pin if jig.pin is None else jig.pin
    angle = engine.crank_angle if jig.angle is None else jig.angle
    apart = min(angle % 360, 360 - angle % 360)
    gamma, throw = math.radians(apart), engine.crank_throw
    if math.sin(gamma / 2) < INSENSITIVE:
        raise SizeError(
            f"Jig sets the cranks at: with {angle:g} degrees both pins stand in one line, which "
            "blocks do not hold; 20 to 340 degrees would do.", "jig.angle",
        )  # fmt: skip
    blocks = relations.block.work("Both blocks", "mm", H=height, r=throw, gamma=gamma, p=pin)
    if blocks.result <= 0:
        raise SizeError(
            f"Jig, axle's centre above the plate: at {height:g} mm the pins reach the plate; more "
            f"than {height - blocks.result:.3g} mm would do.", "jig.height",
        )  # fmt: skip
    reach = relations.reach.work("Blocks from the axle", "mm", r=throw, gamma=gamma)
    within = relations.block_tolerance.work(
        "Blocks alike within", "mm", r=throw, gamma=gamma, epsilon=math.radians(engine.angle_error)
    )
    figures = {
        "jig_angle": apart, "jig_height": height, "block": blocks.result,
        "block_reach": reach.result, "block_tolerance": within.result,
        "level_block": height - pin / 2, "square_strip": (axle - pin) / 2,
        "jig_axle": axle, "jig_pin": pin, "jig_wheel": engine.wheel,
    }  # fmt: skip
    taken = [
        Suggestion("eccentrics.jig.height", float(usual), "room for the wheel"),
        Suggestion("eccentrics.jig.axle", engine.axle, engine.name),
        Suggestion("eccentrics.jig.pin", engine.coupled_pin, engine.name),
        Suggestion("eccentrics.jig.angle", engine.crank_angle, engine.name),
    ]
    return figures, [blocks, reach, within], taken
