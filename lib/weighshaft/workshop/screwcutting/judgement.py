"""What is to be said of the trains, the cuts, the divisions and the speeds."""

from __future__ import annotations

from ...findings import Finding
from ..machines import Machines
from .decisions import Screwcutting
from .results import ScrewcuttingResult
from .trains import MOST_WHEELS, passing

CAUTIONS = (
    "Isolate the lathe before a hand goes near the change wheels, and close their guard before "
    "it runs.",
    "Take up the backlash of the slides the same way before every cut; draw the tool out before "
    "the carriage goes back.",
    "Key out of the chuck, eye protection on, sleeves and hair away; no gloves near the spindle "
    "and no fingers in a thread that turns.",
    "Between the starts of a thread the lathe stands still and isolated, and the guard goes back "
    "before the next cut.",
    "Clamp the dividing head or the table before each cut and let it go again before the handle "
    "is turned.",
)
_SLIDE = "machines.lathe.change_wheels"


def judge(
    screwcutting: Screwcutting, machines: Machines, result: ScrewcuttingResult
) -> list[Finding]:
    """Return the findings."""
    return [
        *(_of_trains(screwcutting, machines, result) if machines.lathe.change_wheels else ()),
        *_of_starts(screwcutting, result), *_of_infeed(screwcutting, result),
        *(_of_dividing(result) if machines.dividing.plates else ()), *_of_speeds(machines, result),
    ]  # fmt: skip


def _of_trains(
    screwcutting: Screwcutting, machines: Machines, result: ScrewcuttingResult
) -> list[Finding]:
    best = result.trains.best[0] if result.trains.best else None
    found = []
    if result.trains.skipped:
        found.append(
            Finding("check", "screwcutting", (_SLIDE,), f"Of {len(machines.lathe.wheels)} "
                    f"change wheels {result.trains.skipped}.",
                    f"List {MOST_WHEELS} or fewer wheels.")
        )  # fmt: skip
    if best is None:
        found.append(
            Finding(
                "stop", "screwcutting", (_SLIDE, "screwcutting.wheels.pairs"),
                f"No train of the wheels owned meshes and reaches for a {_pitch_or_lead(result)} "
                f"of {result.lead:.4g} mm.",
                "More wheels, more pairs, or a look at the distance between the centres.",
                "geometry",
            )
        )  # fmt: skip
        return found
    assert result.cut is not None
    assert result.engaged_error is not None
    assert result.lost is not None
    length = screwcutting.wheels.engagement or result.thread.major
    helper = _helper(result)
    if best.exact:
        found.append(
            Finding("fine", "screwcutting", (_SLIDE,),
                    f"{best.text} cuts {_a_lead_of(result)}{result.lead:.4g} mm exactly.",
                    source="geometry")
        )  # fmt: skip
    elif result.lost > screwcutting.wheels.lost:
        found.append(
            Finding(
                "check", "screwcutting", ("screwcutting.wheels.lost", _SLIDE),
                f"{best.text} cuts {_a_lead_of(result)}{best.pitch:.5f} mm for "
                f"{result.lead:.5f} mm: over "
                f"{length:.1f} mm it is {abs(result.engaged_error):.4f} mm out, and a nut binds "
                f"unless its effective diameter has {result.lost:.3f} mm more than is allowed "
                f"({screwcutting.wheels.lost:.3f} mm).",
                helper or "A shorter thread, three pairs of wheels, or a die to finish.",
                "geometry of the thread",
            )
        )  # fmt: skip
    else:
        found.append(
            Finding(
                "fine", "screwcutting", (_SLIDE,),
                f"{best.text} is {100 * best.error:+.4f} % out: {abs(result.engaged_error):.4f} mm "
                f"over {length:.1f} mm, which costs {result.lost:.4f} mm of the effective "
                f"diameter.", helper, "geometry of the thread",
            )
        )  # fmt: skip
    if result.trains.beyond is not None:
        beyond = result.trains.beyond
        why = (
            "does not reach from the first wheel to the leadscrew"
            if beyond.reaches is False
            else f"would foul a stud: two wheels in mesh need {passing(machines.lathe):.0f} teeth "
            "more than the wheel beside them"
        )
        found.append(
            Finding("fine", "screwcutting", ("machines.lathe.stud", _SLIDE),
                    f"{beyond.text} comes nearer ({100 * beyond.error:+.4f} %) but {why}.",
                    source="geometry")
        )  # fmt: skip
    if result.nut_every and result.nut_every > 1:
        every = result.nut_every
        says = (
            f"The nut may be closed only where the leadscrew has turned by whole multiples of "
            f"{every} threads."
            if every <= 16
            else f"The nut would meet the thread only every {every} threads of the leadscrew."
        )
        mend = (
            "By the thread dial, or leave the nut closed and run the lathe back."
            if every <= 16
            else "Leave the nut closed from the first cut to the last and run the lathe back."
        )
        found.append(
            Finding("fine", "screwcutting", ("screwcutting.pitch",),
                    says, mend, "geometry")
        )  # fmt: skip
    return found


def _pitch_or_lead(result: ScrewcuttingResult) -> str:
    return "lead" if len(result.starts.each) > 1 else "pitch"


def _a_lead_of(result: ScrewcuttingResult) -> str:
    return "a lead of " if len(result.starts.each) > 1 else ""


STEEP = 10.0
"""Helix (degrees) from which a threading tool has to be ground or leant to it; common practice."""


def _of_starts(screwcutting: Screwcutting, result: ScrewcuttingResult) -> list[Finding]:
    number, found = screwcutting.wheels.starts, []
    at = ("screwcutting.wheels.starts", _SLIDE)
    if number > 1 and result.trains.best:
        teeth = result.starts.each[1].teeth
        assert teeth is not None
        first = result.trains.best[0].pairs[0][0]
        if teeth.denominator == 1:
            found.append(
                Finding(
                    "fine", "screwcutting", at,
                    f"From start to start the first wheel of {first} goes on by {teeth} teeth.",
                    "Chalk the tooth in mesh and its gap, drop the quadrant, turn the spindle by "
                    "hand.", "geometry",
                )
            )  # fmt: skip
        else:
            found.append(
                Finding(
                    "check", "screwcutting", at,
                    f"A first wheel of {first} cannot be counted into {number} starts: "
                    f"{float(teeth):.2f} teeth from one to the next.",
                    "A train whose first wheel can (see the list), the top slide along the lathe, "
                    "or slots of the driving plate.", "geometry",
                )
            )  # fmt: skip
    if result.helix > STEEP:
        found.append(
            Finding(
                "check", "screwcutting", ("screwcutting.wheels.starts", "screwcutting.pitch"),
                f"The thread climbs at {result.helix:.1f} degrees.",
                "Grind the tool's leading side back by as much and its clearance besides, and run "
                "the spindle slowly.", "geometry; the limit from common practice",
            )
        )  # fmt: skip
    return found


def _helper(result: ScrewcuttingResult) -> str:
    best = result.trains.best[0]
    for teeth, train in result.helpers:
        if abs(train.error) < 0.5 * abs(best.error):
            off = "exactly" if train.exact else f"to {100 * train.error:+.4f} %"
            return f"With a wheel of {teeth} teeth {train.text} would cut it {off}."
    return ""


def _of_infeed(screwcutting: Screwcutting, result: ScrewcuttingResult) -> list[Finding]:
    fed = result.fed
    if fed.cuts[0].depth > 1.5 * screwcutting.infeed.first_cut:
        return [
            Finding(
                "check", "screwcutting", ("screwcutting.infeed.first_cut",),
                f"In two cuts the first goes {fed.cuts[0].depth:.2f} mm deep.",
                "More, finer cuts.",
            )
        ]  # fmt: skip
    thin = fed.cuts[-2].added
    if thin < 0.01 and len(fed.cuts) > 3:
        return [
            Finding(
                "check", "screwcutting", ("screwcutting.infeed.first_cut",),
                f"The last of {len(fed.cuts) - 1} cuts takes only {1000 * thin:.0f} µm: the tool "
                "rubs rather than cuts.", "A deeper first cut makes fewer.",
            )
        ]  # fmt: skip
    return []


def _of_dividing(result: ScrewcuttingResult) -> list[Finding]:
    ways, number = result.indexed, result.divisions
    at = ("screwcutting.divisions", "machines.dividing.plates")
    if ways.circles:
        one = ways.circles[0]
        return [
            Finding("fine", "screwcutting", at,
                    f"{number} divisions come out on {len(ways.circles)} of the circles, such as "
                    f"{one.turns} turns and {one.holes} holes of {one.circle}.",
                    source="geometry")
        ]  # fmt: skip
    nearest = ways.nearest
    assert nearest is not None
    best = ways.compound[0] if ways.compound else None
    if best is not None and best.exact:
        return [
            Finding(
                "fine", "screwcutting", at,
                f"No single circle gives {number}; {best.first} and {best.second} together give "
                "it exactly.", "Count twice and lock the plate: two movements a division.",
                "geometry",
            )
        ]  # fmt: skip
    if result.geared:
        way = result.geared[0]
        turns = "with" if way.plate > 0 else "against"
        return [
            Finding(
                "fine", "screwcutting", (*at, "machines.dividing.head_wheels"),
                f"No circle gives {number}; with the plate geared to the work by {way.wheels}, so "
                f"that it turns {turns} the handle, {way.handle} give it exactly.",
                "Take the plate's stop pin out first; the head stays level. A head that cannot be "
                f"geared comes within {60 * nearest.error:.1f} minutes of arc with the nearest "
                f"hole of {nearest.circle}.", "geometry; differential indexing",
            )
        ]  # fmt: skip
    return [
        Finding(
            "check", "screwcutting", at,
            f"{number} divisions are not exact on these plates: with the nearest hole of "
            f"{nearest.circle} each is within {60 * nearest.error:.1f} minutes of arc"
            + (f"; two circles leave the last gap {60 * abs(best.last):.2f} minutes out."
               if best else "."),
            "A plate with that circle, the rotary table, or gearing between work and plate.",
            "geometry",
        )
    ]  # fmt: skip


def _of_speeds(machines: Machines, result: ScrewcuttingResult) -> list[Finding]:
    found = []
    for one in result.speeds:
        if one.operation not in ("turning", "drilling", "tapping", "threading"):
            continue
        top = max(
            (*machines.lathe.speeds, *(() if one.operation in ("turning", "threading")
                                       else machines.mill.speeds))
        )  # fmt: skip
        doing = "the thread" if one.operation == "threading" else one.operation
        if one.chosen is None:
            found.append(
                Finding(
                    "check", "screwcutting", ("machines.lathe.speeds", "screwcutting.diameter"),
                    f"For {doing} {result.diameter:.1f} mm in {result.material} "
                    f"{one.fastest:.0f} rev/min is the most, and every speed of the machines is "
                    "faster.", "Turn the spindle by hand or by the back gear.", one.source,
                )
            )  # fmt: skip
        elif top < one.slowest:
            found.append(
                Finding(
                    "check" if top < 0.5 * one.slowest else "fine", "screwcutting",
                    ("machines.lathe.speeds", "screwcutting.diameter"),
                    f"For {doing} {result.diameter:.1f} mm in {result.material} "
                    f"{one.slowest:.0f} rev/min or more is usual; these machines "
                    f"reach {top:.0f}.", "It cuts, only slower: feed lightly.", one.source,
                )
            )  # fmt: skip
    return found
