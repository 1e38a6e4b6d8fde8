"""What is said of the engine on its curve."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..findings import COMMON, Finding
from . import relations
from .judgement_line import CHAPTER, Given, judge_line, metres
from .results import CurvingResult, TruckResult
from .trucks import ARMS

GRIP = 0.3
"""Friction of flange on rail that Nadal's limit is taken with; from memory, dry steel."""
_WEAK = 0.1
_SPARE = 1.25
_WEBB = "Webb, Railroad Construction (1903), on two-wheeled trucks"


def judge(given: Given, result: CurvingResult) -> tuple[Finding, ...]:
    """Return the findings of the chapter."""
    found = [*_radius(given, result)]
    for truck in result.trucks:
        found += [*_swing(truck, result), *_wheels(truck), *_arm(truck, given, result)]
        found += _control(truck, given)
    return (*found, *judge_line(given, result), *_speed(given, result))


def _radius(given: Given, result: CurvingResult) -> Iterator[Finding]:
    fields = ("wheels.radius_wanted", "curving.leading.swing", "curving.trailing.swing")
    source = "construction on a plan, all plays used"
    least, wanted = result.smallest, given.wanted
    if math.isinf(least):
        yield Finding(
            "check", CHAPTER, fields,
            "The whole engine goes round no curve: its axles have no play to do it with.",
            "Give the axles side play, in Wheels, or a truck its swing.", source,
        )  # fmt: skip
    elif wanted is None:
        yield Finding(
            "fine", CHAPTER, fields,
            f"The whole engine goes round {metres(least)}; {result.set_by} sets it.",
            source=source,
        )  # fmt: skip
    elif least <= wanted:
        yield Finding(
            "fine", CHAPTER, fields,
            f"The whole engine goes round {metres(least)}, so the {metres(wanted)} wanted are "
            f"easy enough; {result.set_by} sets it.", source=source,
        )  # fmt: skip
    elif given.coupled_radius > wanted:
        yield Finding(
            "check", CHAPTER, fields,
            f"The coupled wheels by themselves need {metres(given.coupled_radius)}; "
            f"{metres(wanted)} are wanted.", "Wheels says what would mend it.", source,
        )  # fmt: skip
    else:
        yield from _trucks_bind(result, wanted, fields, source)


def _trucks_bind(
    result: CurvingResult, wanted: float, fields: tuple[str, ...], source: str
) -> Iterator[Finding]:
    """Yield what is wrong where the trucks do not let the engine round."""
    change: tuple[str, float | str] | None = None
    mend = "Let the truck swing further, or give the coupled axles more side play."
    for truck in result.trucks:
        if truck.allowed is not None and truck.kind != "rigid axle" and truck.word in result.set_by:
            further = round(max(_SPARE * abs(truck.place.swing), truck.allowed + 0.1), 1)
            change = (f"curving.{truck.word}.swing", further)
            mend = f"Let the {truck.word} truck swing {further:g} mm each way."
        elif truck.kind == "rigid axle" and truck.word in result.set_by:
            change = (f"curving.{truck.word}.kind", "pony truck")
            mend = f"Put the {truck.word} axle in a pony truck, or give it side play."
    yield Finding(
        "stop", CHAPTER, fields,
        f"The whole engine needs a curve of {metres(result.smallest)}; {metres(wanted)} are "
        f"wanted. {result.set_by[:1].upper()}{result.set_by[1:]} sets it.", mend, source, change,
    )  # fmt: skip


def _swing(truck: TruckResult, result: CurvingResult) -> Iterator[Finding]:
    if truck.kind == "rigid axle":
        return
    path = f"curving.{truck.word}.swing"
    swing, where = abs(truck.place.swing), f"on {metres(result.drawn)}"
    bogie = " at its pivot" if truck.kind == "bogie" else ""
    further = round(_SPARE * swing, 1)
    if truck.allowed is None:
        yield Finding(
            "fine", CHAPTER, (path,),
            f"The {truck.word} {truck.kind} swings {swing:.2f} mm{bogie} {where}: stops "
            f"{further:g} mm out, each way, leave it a quarter to spare.",
            source="geometry; a quarter to spare is common practice",
        )  # fmt: skip
    elif truck.allowed < truck.needed:
        yield Finding(
            "stop", CHAPTER, (path,),
            f"The {truck.word} {truck.kind} has to swing {truck.needed:.2f} mm{bogie} {where} "
            f"with all its play used; its stops let it swing {truck.allowed:.2f} mm.",
            f"Let it swing {further:g} mm.", "geometry", (path, further),
        )  # fmt: skip
    elif truck.allowed < swing:
        yield Finding(
            "check", CHAPTER, (path,),
            f"The {truck.word} {truck.kind} swings {swing:.2f} mm{bogie} {where} where its wheels "
            f"run midway; its stops let it swing {truck.allowed:.2f} mm, so that its flanges "
            "press on the rail.",
            f"Let it swing {further:g} mm.", "geometry", (path, further),
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, (path,),
            f"The {truck.word} {truck.kind} swings {swing:.2f} mm{bogie} {where} of the "
            f"{truck.allowed:.2f} mm that its stops allow.", source="geometry",
        )  # fmt: skip


def _wheels(truck: TruckResult) -> Iterator[Finding]:
    gap = truck.wheel_gap
    if gap is None:
        return
    own = f"curving.{truck.word}.wheel"
    fields = (own, "frames.plates.end_depth", "wheels.between.frame_spacing")
    says = f"Swung over on the curve, the wheels of the {truck.word} {truck.kind}"
    if gap < 0:
        yield Finding(
            "check", CHAPTER, fields,
            f"{says} run {-gap:.2f} mm into the frame plates beside them.",
            "Cut the plates away over the truck, set them in there, or fit smaller truck wheels.",
            "geometry, each wheel as long as high",
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields, f"{says} clear the frame plates by {gap:.2f} mm.",
            source="geometry, each wheel as long as high",
        )  # fmt: skip


def _arm(truck: TruckResult, given: Given, result: CurvingResult) -> Iterator[Finding]:
    if truck.kind not in ARMS:
        return
    path, radial = f"curving.{truck.word}.arm", round(truck.radial, 1)
    for axle in result.whole.coupled:
        near = abs(truck.pivot - axle.ahead)
        if truck.kind == "pony truck" and near < given.axle:
            yield Finding(
                "check", CHAPTER, (path,),
                f"The pivot of the {truck.word} truck stands {near:.1f} mm from the "
                f"{axle.name} axle, which is {given.axle:.1f} mm thick.",
                "Carry the pin above or under the axle, or make the arm a little shorter.",
                COMMON,
            )  # fmt: skip
    if not 0 < truck.radial < 1e5:
        return
    share, attack = truck.arm / truck.radial, truck.place.attack
    says = (
        f"The {truck.word} truck's radius arm of {truck.arm:.1f} mm leaves its axle "
        f"{abs(attack):.2f}° from square to the curve"
    )
    if 0.8 <= share <= 1.05:
        yield Finding(
            "fine", CHAPTER, (path,),
            f"{says}; {radial:.1f} mm would set it square on every curve.",
            source=f"tangent from the pivot; {_WEBB}, has it somewhat shorter",
        )  # fmt: skip
    else:
        more = "turns too far, and runs to the inner rail" if share < 1 else "turns too little"
        yield Finding(
            "check", CHAPTER, (path,),
            f"{says}: it {more}. {radial:.1f} mm would set it square on every curve.",
            f"A radius arm of {radial:g} mm or a little less.", f"tangent from the pivot; {_WEBB}",
            (path, radial),
        )  # fmt: skip


def _control(truck: TruckResult, given: Given) -> Iterator[Finding]:
    if truck.kind == "rigid axle":
        return
    decided = given.curving.leading if truck.word == "leading" else given.curving.trailing
    path = f"curving.{truck.word}.control"
    if decided.control == "none":
        if truck.word == "leading":
            yield Finding(
                "check", CHAPTER, (path,),
                "The leading truck has no side control: it carries, but does not guide the "
                "engine into the curve, and hunts on the straight.",
                "Give it springs, swing links or inclined planes.", COMMON, (path, "springs"),
            )  # fmt: skip
        return
    weight = truck.load * relations.GRAVITY
    share = truck.push / weight if weight > 0 else 0.0
    limit = relations.climbing(math.radians(90 - given.flange), GRIP)
    says = (
        f"The side control pushes the {truck.word} truck back with {truck.push:.1f} N on the "
        f"curve, {100 * share:.0f} % of the {truck.load:.2f} kg that it carries"
    )
    source = f"statics; Nadal's limit with a friction of {GRIP:g}, from memory"
    fields = (path, f"curving.{truck.word}.rate", f"curving.{truck.word}.preload")
    swing = abs(truck.place.swing)
    if decided.control == "swing links" and decided.link is not None and swing > decided.link / 2:
        longer = round(5 * swing, 1)
        yield Finding(
            "check", CHAPTER, (f"curving.{truck.word}.link",),
            f"Swing links {decided.link:.1f} mm long swing {swing:.2f} mm to a side and lie too "
            "level: the push grows steeply.",
            f"Links of {longer:g} mm, five times the swing.", COMMON,
            (f"curving.{truck.word}.link", longer),
        )  # fmt: skip
    if truck.quotient > 0.8 * limit:
        yield Finding(
            "stop" if truck.quotient > limit else "check", CHAPTER, fields,
            f"{says}: {truck.quotient:.2f} of the load on the guiding wheel, whose flange may "
            f"climb the rail from {limit:.2f}.",
            "Make it weaker, or load the truck more.", source,
        )  # fmt: skip
    elif share < _WEAK and truck.word == "leading" and swing > 0.05:
        yield Finding(
            "check", CHAPTER, fields, f"{says}; less than a tenth hardly guides the engine.",
            "Make it stronger.", COMMON,
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"{says}; a guiding wheel's flange would climb at {limit:.2f} of its load, this is "
            f"{truck.quotient:.2f}.", source=source,
        )  # fmt: skip


def _speed(given: Given, result: CurvingResult) -> Iterator[Finding]:
    over, speed, cant = result.overturning, given.speed, given.curving.line.cant
    if over is None or cant == 0:
        return  # on the level the chapter on weight says it
    fields = ("curving.line.cant", "scale.running_speed")
    caution = "A driver on the engine, or passengers that lean, bring it down."
    level = f"with {cant:.1f} mm of cant {over:.1f} km/h would turn it over the outer rail"
    if speed is not None and speed > 0.5 * over:
        yield Finding(
            "check", CHAPTER, fields,
            f"On {metres(result.drawn)}, {level}; it is to run at {speed:.1f} km/h. {caution}",
            "Slow down for the curve, ease it or cant the track.", "statics",
        )  # fmt: skip
    else:
        yield Finding(
            "fine", CHAPTER, fields,
            f"On {metres(result.drawn)}, {level}"
            + (f"; {speed:.1f} km/h are less than half of that. " if speed else ". ") + caution,
            source="statics",
        )  # fmt: skip
