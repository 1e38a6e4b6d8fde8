"""What the chapter has to say: bushes, knuckles, strength, pins, balance."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..findings import COMMON, Finding
from ..wheels.decisions import InsideCylinders, Wheels
from ..wheels.loads import PIN_MOST
from .centres import Centres
from .decisions import IN_LINE, KNUCKLED, OPPOSITE, Rods
from .results import Layout, Masses, Span, Wheel

CHAPTER = "rods"
GUDGEON_MOST = 20.0
"""A pin that only rocks bears more than a crankpin, N/mm2; full-size practice, from memory."""
SMALL, LARGE = 5.0, 25.0
"""Hammer blow in % of the wheel's load: not felt; and worth another look (common practice)."""
_DEPTH = "rods.coupling.depth"
_BUSH = "wheels.quartering.bush_clearance"
_STRENGTH = "Euler and Rankine, centrifugal bending; metals as in the table of materials"
_PLANES = "Dalby's method of planes"


def of_centres(rods: Rods, wheels: Wheels, found: Centres) -> Iterator[Finding]:
    """Judge bushes with the boxes at their stops, and the joint over an inner axle."""
    has = wheels.quartering.bush_clearance
    if found.at_stops is not None:
        says = (
            f"With one axlebox at its upper stop and the next one's at its lower the rods need "
            f"{found.at_stops:.3f} mm in the bushes; they have {has:.3f} mm"
        )
        if found.at_stops > has:
            yield Finding(
                "check", CHAPTER, (_BUSH, "clearance.axlebox_rise"),
                f"{says}, so that they bind before the boxes reach their stops.",
                "Ease the bushes, or limit the travel of the boxes.", "geometry",
                (_BUSH, math.ceil(found.at_stops * 1000) / 1000),
            )  # fmt: skip
        else:
            yield Finding("fine", CHAPTER, (_BUSH,), f"{says}.", source="geometry")
    if found.play is None or found.off_line is None:
        return
    lift, stops = found.off_line
    path = "rods.coupling.joint"
    if rods.coupling.joint == KNUCKLED:
        need = "is needed" if found.play < max(lift, stops) else "would not be needed"
        yield Finding(
            "fine", CHAPTER, (path,),
            f"The rods are jointed at every inner axle; on axles that leave the line by up to "
            f"{max(lift, stops):.2f} mm a joint {need}, since the bushes alone let a rigid rod "
            f"follow {found.play:.2f} mm.", source="geometry",
        )  # fmt: skip
        return
    says = (
        f"A rigid rod over {len(wheels.positions)} axles lets an inner one leave the line of its "
        f"neighbours by the {found.play:.2f} mm of clearance in the bushes; "
    )
    change = (path, KNUCKLED)
    if found.play < lift:
        yield Finding(
            "stop", CHAPTER, (path, _BUSH),
            f"{says}bad track asks {lift:.2f} mm of it: the rod binds or lifts the wheel.",
            "A knuckle joint beside the inner crankpin.", "geometry", change,
        )  # fmt: skip
    elif found.play < stops:
        yield Finding(
            "check", CHAPTER, (path, _BUSH),
            f"{says}the stops of the boxes would let it go {stops:.2f} mm.",
            "A knuckle joint beside the inner crankpin, or closer stops.", "geometry", change,
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, (path,), f"{says}{stops:.2f} mm is asked.", source="geometry"
        )


def of_span(span: Span, rods: Rods, depth: float | None, fields: tuple[str, ...]) -> list[Finding]:
    """Judge one rod against buckling and whip.

    Parameters
    ----------
    depth : that would do, mm; None where the depth is not this chapter's.
    """
    wanted = rods.factor
    change = None if depth is None else (_DEPTH, depth)
    mend = "A deeper or thicker rod."
    if depth is not None:
        mend = f"A rod {depth:.2f} mm deep would do, or a thicker one."
    if span.buckling < 1 or span.factor is None:
        return [
            Finding(
                "stop", CHAPTER, fields,
                f"The {span.name} bows out at {span.rankine:.0f} N; its thrust may reach "
                f"{span.load:.0f} N.", mend, _STRENGTH, change,
            )
        ]  # fmt: skip
    says = (
        f"The {span.name} bears a thrust of {span.load:.0f} N and would bow out at "
        f"{span.rankine:.0f} N, {span.buckling:.3g} times that; thrust and whip at greatest "
        f"speed make {span.stress:.2g} N/mm², with a factor of {span.factor:.3g} on the proof "
        "stress"
    )
    if min(span.buckling, span.factor) < wanted:
        says = f"{says}; {wanted:g} is wanted."
        return [Finding("check", CHAPTER, fields, says, mend, _STRENGTH, change)]
    return [Finding("fine", CHAPTER, fields, f"{says}.", source=_STRENGTH)]


def of_pins(gudgeon: float | None, knuckle: float | None, pin: float) -> Iterator[Finding]:
    """Judge what gudgeon and knuckle pins bear; the crankpins are judged with the wheels."""
    for name, value, most, path in (
        ("gudgeon pin", gudgeon, GUDGEON_MOST, "rods.small_end.diameter"),
        ("knuckle pin", knuckle, PIN_MOST, "rods.coupling.knuckle_pin"),
    ):
        if value is None:
            continue
        says = f"The {name} bears at {value:.1f} N/mm²; up to {most:g} N/mm² is usual."
        source = "full-size practice, from memory"
        if value > most:
            wide = round(pin * value / most + 0.005, 2) if name == "knuckle pin" else None
            yield Finding(
                "check", CHAPTER, (path,), says, f"A thicker {name}, or a wider eye on it.",
                source, None if wide is None else (path, wide),
            )  # fmt: skip
        else:
            yield Finding("fine", CHAPTER, (path,), says, source=source)


def of_balance(
    rods: Rods,
    made: tuple[Wheel, ...],
    blow: float,
    load: float,
    speed: float,
    shake: float,
    weight: float,
    layout: Layout,
) -> Iterator[Finding]:
    """Judge the weights, and say plainly how small what is left is.

    Parameters
    ----------
    blow : of the worst wheel at `speed` (km/h), N.
    load : of a coupled wheel on the rail, N.
    shake : force left along the engine at that speed, N.
    weight : of the engine, N.
    """
    share = 100 * blow / load
    path = "rods.balance.share" if rods.balance.fitted else "rods.balance.fitted"
    says = (
        f"At {speed:.3g} km/h the hammer blow of a wheel is {blow:.2g} N, {share:.2g} % "
        f"of its load on the rail, and {shake:.2g} N, {100 * shake / weight:.2g} % of the "
        f"engine's weight, is left to shake it along"
    )
    if share > LARGE:
        yield Finding(
            "check", CHAPTER, (path, "rods.top_speed"), f"{says}.",
            "Balance less of what goes to and fro, share it among all coupled axles, or lighten "
            "rods and pistons.", _PLANES,
        )  # fmt: skip
    elif share > SMALL:
        yield Finding("fine", CHAPTER, (path,), f"{says}; a model bears that.", source=_PLANES)
    else:
        yield Finding(
            "fine", CHAPTER, (path,),
            f"{says}: at the speeds of a model that is little, and weights in the wheels are "
            "mostly for the look of it.", source=_PLANES,
        )  # fmt: skip
    short = [one for one in made if one.made < one.needed * (1 - 1e-9)]
    if rods.balance.fitted and short:
        one = max(short, key=lambda one: one.needed)
        yield Finding(
            "check" if share > LARGE else "fine", CHAPTER,
            ("rods.balance.thickness", "rods.balance.material"),
            f"Between radii of {layout.ring[0]:.1f} and {layout.ring[1]:.1f} mm half a ring gives "
            f"{one.made:.0f} of the {one.needed:.0f} g mm that the {one.axle} wheels call for; "
            "the rest stays unbalanced.", "A thicker weight, or lead.", _PLANES,
        )  # fmt: skip


def of_pins_opposed(rods: Rods, wheels: Wheels, now: float, other: float) -> Iterator[Finding]:
    """Say what coupled crankpins opposite the inside cranks would save.

    Parameters
    ----------
    now, other : greatest mass times radius called for with the pins as they are, and with
        them the other way, g mm.
    """
    if not isinstance(wheels.cylinders, InsideCylinders) or len(wheels.positions) < 2:
        return
    path = "rods.coupling.pins"
    if rods.coupling.pins == IN_LINE and other < now:
        yield Finding(
            "fine", CHAPTER, (path,),
            f"With the coupled crankpins in line with the inside cranks a driving wheel calls for "
            f"{now:.0f} g mm of balance weight; opposite them the rods themselves would balance "
            f"part, and {other:.0f} g mm would do.", source=COMMON, change=(path, OPPOSITE),
        )  # fmt: skip


def of_masses(masses: Masses, number: int, swings: bool) -> Iterator[Finding]:
    """Say what the masses rest on, and what is left out."""
    if number > 2:
        yield Finding(
            "check", CHAPTER, ("cylinders.number",),
            f"Of the {number} cylinders two are balanced here, with the angle between the cranks; "
            "the others are left out.", "Reckon the inner ones apart.", _PLANES,
        )  # fmt: skip
    if swings:
        yield Finding(
            "fine", CHAPTER, ("cylinders.number",),
            "Oscillating cylinders swing as they work: their pistons are reckoned as if they went "
            "to and fro along a line, and the swing of the cylinders themselves is left out.",
        )  # fmt: skip
    missing = [name for name, source in masses.source if source == "no such part"]
    missing = [one for one in missing if one not in ("small end", "big end") or not swings]
    if masses.reciprocating <= 0:
        yield Finding(
            "check", CHAPTER, ("rods.weighed.reciprocating",),
            f"Nothing is known of the mass of {', '.join(missing)}: the balance leaves it out.",
            "Weigh the parts.",
        )  # fmt: skip
