"""What is to be said of the holes and the spring of an oscillating cylinder."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..findings import Finding, Level, Suggestion, by_level

if TYPE_CHECKING:
    from .lapping import TrunnionResult
    from .oscillating import Oscillating

FRICTION = 10.0
"""Part of the pistons' work that a builder would not give to the face, %; common practice."""
LIGHT = 1.0
"""Mean pressure on a lapped face, N/mm2, above which oil is squeezed out; from memory."""
_GEAR = "motion.gear."


def judge(
    gear: Oscillating, result: TrunnionResult, *, number: int, crank_angle: float
) -> tuple[Finding, ...]:
    """Return the findings on holes, piston, starting and spring, the worst first."""
    found = [
        *_holes(gear, result),
        *_cover(gear, result),
        *_piston(gear, result),
        _starting(gear, result, number, crank_angle),
        _lifting(gear, result),
        *_friction(gear, result),
    ]
    return by_level(found)


def suggest(gear: Oscillating, result: TrunnionResult) -> tuple[Suggestion, ...]:
    """Return the pitch and the spring, and the face as it was worked where not given."""
    face = f"{_GEAR}face."
    made = [
        Suggestion(
            f"{face}spring", result.spring_wanted,
            f"{gear.face.factor:g} times what lifts the cylinder at {result.pressure:g} bar",
        )
    ]  # fmt: skip
    if gear.passage_pitch is None:
        made.append(Suggestion(f"{_GEAR}passage_pitch", result.pitch, f"seals by {gear.seal:g} mm"))
    names = ("face_ahead", "face_behind", "face_width")
    for name, value in zip(names, result.face, strict=True):
        if getattr(gear.face, name) is None:
            made.append(Suggestion(f"{face}{name}", value, "as worked here"))
    return tuple(made)


def _say(
    level: Level,
    fields: str,
    says: str,
    mend: str = "",
    change: tuple[str, float | str] | None = None,
) -> Finding:
    paths = tuple(_GEAR + field for field in fields.split())
    return Finding(level, "motion", paths, says, mend, change=change)


def _holes(gear: Oscillating, result: TrunnionResult) -> list[Finding]:
    fields = "passage_pitch port_hole passage_hole"
    if gear.holes.land <= 0:
        return [
            _say(
                "stop", "passage_pitch passage_hole",
                f"Steam and exhaust holes of {gear.passage_hole:.2f} mm run into each other at "
                f"{gear.pitch:.2f} mm between centres.", "Smaller holes, or more between them.",
            )
        ]  # fmt: skip
    if result.blow_through > 0:
        return [
            _say(
                "stop", fields,
                f"In the middle the port overlaps steam and exhaust holes by {-result.seal:.2f} mm "
                f"each, {result.blow_through:.2f} mm²: live steam blows through to the exhaust at "
                "both dead centres.", "Smaller holes, or more between their centres.",
            )
        ]  # fmt: skip
    if result.greatest_area <= 0:
        return [
            _say(
                "stop", fields,
                f"The port never reaches the steam hole: the cylinder swings {result.swing:.1f}° "
                f"and the port would open at {_degrees(float(gear.holes.opens)):.1f}°.",
                "Less between the holes' centres, larger holes, or the trunnion nearer.",
            )
        ]  # fmt: skip
    found = []
    beyond = result.over_swing - float(gear.holes.radius * gear.holes.reach)
    if beyond > 0:
        found.append(
            _say(
                "stop", fields,
                f"The port swings past the steam hole and shuts it again by {beyond:.2f} mm in the "
                "middle of the stroke.", "More between the holes' centres.",
            )
        )  # fmt: skip
    elif result.opened < 70:
        found.append(
            _say(
                "check", fields,
                f"At the greatest swing of {result.swing:.1f}° the port opens "
                f"{result.greatest_area:.2f} mm², {result.opened:.0f} % of its hole.",
                "Holes in line at the greatest swing open fully: less between their centres, or "
                "the trunnion nearer to the axle.",
            )
        )  # fmt: skip
    else:
        found.append(
            _say(
                "fine", fields,
                f"The port opens {result.greatest_area:.2f} mm², {result.opened:.0f} % of its "
                f"hole, and seals by {result.seal:.2f} mm in the middle.",
            )
        )  # fmt: skip
    if max(result.dead_band_front, result.dead_band_back) > 40:
        found.append(
            _say(
                "check", fields,
                f"The port is shut over {result.dead_band_front:.0f}° of the crank at front dead "
                f"centre and {result.dead_band_back:.0f}° at back dead centre.",
                "Up to 40° is usual: larger holes for the pitch between them.",
            )
        )  # fmt: skip
    return found


def _cover(gear: Oscillating, result: TrunnionResult) -> list[Finding]:
    if result.uncovered >= 0:
        return []
    return [
        _say(
            "stop", "face.face_width face.face_ahead",
            f"At some part of the swing the steam hole stands {-result.uncovered:.2f} mm outside "
            "the cylinder's face and blows hot steam into the open.",
            "A wider or longer face, or holes nearer to the line of centres.",
        )
    ]  # fmt: skip


def _piston(gear: Oscillating, result: TrunnionResult) -> list[Finding]:
    found = []
    places = (("front", result.port_clear), ("back", result.back_clear))
    for end, clear in places:
        if clear is not None and clear < 0:
            found.append(
                _say(
                    "check", "port_radius piston_rod",
                    f"At {end} dead centre the piston stands {-clear:.2f} mm over the port, which "
                    "is then partly shut by it.",
                    "The port further from the trunnion, or a groove from it to the cylinder's "
                    "end.",
                )
            )  # fmt: skip
    return found


def _starting(
    gear: Oscillating, result: TrunnionResult, number: int, crank_angle: float
) -> Finding:
    if result.blind <= 1e-9:
        return _say(
            "fine", "acting",
            f"With {number} cylinders and cranks at {crank_angle:g}° a piston has steam in every "
            "position: the engine starts by itself.",
        )  # fmt: skip
    many = "A single cylinder" if number == 1 else f"{number} cylinders"
    have = "has" if number == 1 else "have"
    says = (
        f"{many}, {gear.acting} acting, {have} no steam over {result.blind:.0f}° of the "
        "crank together: the engine does not start by itself there."
    )
    mend = "It wants a push. Double-acting cylinders on two cranks at 90° start by themselves."
    return _say("check", "acting", says, mend)


def _lifting(gear: Oscillating, result: TrunnionResult) -> Finding:
    path, lift, works = "face.spring", result.lift_pressure, result.pressure
    enough = round(result.spring_wanted + 0.05, 1)
    change = None if gear.face.spring is None else (_GEAR + path, enough)
    mend = f"Set the spring to {enough:.1f} N{_turned(gear, enough - result.spring)}."
    if lift < works:
        return _say(
            "stop", path,
            f"With {result.spring:.1f} N of spring the steam lifts the cylinder off its face at "
            f"{lift:.2f} bar, below the {works:g} bar worked: hot steam blows out between the "
            "faces.", mend, change,
        )  # fmt: skip
    if lift < 0.999 * gear.face.factor * works:
        return _say(
            "check", path,
            f"With {result.spring:.1f} N of spring the cylinder lifts at {lift:.2f} bar, little "
            f"above the {works:g} bar worked; a face that is not quite flat leaks.", mend, change,
        )  # fmt: skip
    return _say(
        "fine", path,
        f"With {result.spring:.1f} N of spring the cylinder lifts at {lift:.2f} bar, worked at "
        f"{works:g} bar. The spring does not stand in for the boiler's safety valve.",
    )  # fmt: skip


def _turned(gear: Oscillating, force: float) -> str:
    """Return by how much the nut has to go, where the spring's rate is known."""
    if gear.face.spring_rate is None or force == 0:
        return ""
    way = "tighten" if force > 0 else "slacken"
    return f": {way} its nut by {abs(force) / gear.face.spring_rate:.2f} mm"


def _friction(gear: Oscillating, result: TrunnionResult) -> list[Finding]:
    found = []
    path = "face.spring"
    if result.friction_share > FRICTION:
        less = round(result.spring_wanted + 0.05, 1)
        slack = less < result.spring
        mend = (
            f"Slacken the spring to {less:.1f} N{_turned(gear, less - result.spring)}."
            if slack and gear.face.spring is not None
            else "A smaller face, smaller holes, or less pressure."
        )
        change = (_GEAR + path, less) if slack and gear.face.spring is not None else None
        found.append(
            _say(
                "check", path,
                f"The spring presses with {result.spring:.1f} N: rubbing takes "
                f"{result.friction_share:.0f} % of what the piston gives at {result.pressure:g} "
                f"bar; up to {FRICTION:.0f} % is usual.", mend, change,
            )
        )  # fmt: skip
    if result.face_pressure > LIGHT:
        found.append(
            _say(
                "check", path,
                f"The face is pressed with {result.face_pressure:.2f} N/mm² on average, over "
                f"{LIGHT:g} N/mm²: the oil is squeezed out and the face scores.",
                "A larger face or a softer spring.",
            )
        )  # fmt: skip
    return found


def _degrees(radians: float) -> float:
    return radians * 57.29577951308232
