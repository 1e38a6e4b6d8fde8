"""What is to be said of a valve gear, and what usual practice suggests for its sizes."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from ..findings import Finding, Suggestion
from .decisions import ValveMotion
from .equivalent import EquivalentEccentric, ValveSizes
from .events import EndEvents, ValveEvents
from .frame import Crank
from .gears import LAPLESS
from .link_judgement import die_findings, said, swing_findings
from .oscillating import Oscillating

if TYPE_CHECKING:
    from .chapter import MotionResult

EVEN = 5.0
"""Difference between the cut-offs of the two ends that a builder would look into, % of stroke."""


def judge(motion: ValveMotion, result: MotionResult) -> tuple[Finding, ...]:
    """Return the findings on events, openings, die and angles of transmission."""
    full = _without_lap if isinstance(motion.gear, LAPLESS) else _full_gear
    found = [*full(motion, result), *_evenness(motion, result), *_openings(motion, result)]
    found += _leads(motion, result)
    if motion.valve_type == "slide" and motion.valve.admission == "inside":
        found.append(
            said(
                "check", ("motion.valve_type", "motion.valve.admission"),
                "A slide valve that admits inside is lifted off its face by the steam under it.",
                "A piston valve, or outside admission.",
            )
        )  # fmt: skip
    found += die_findings(motion, result)
    sharp = result.least_margin
    if sharp < 0.64:
        angle = math.degrees(math.asin(max(0.0, min(1.0, sharp))))
        found.append(
            said(
                "check",
                ("motion.gear",),
                f"The worst angle of transmission is {angle:.0f}°; below 40° parts bind and wear.",
                "Lengthen the links or spread the pivots.",
            )
        )
    found += swing_findings(result)
    return tuple(found)


def _without_lap(motion: ValveMotion, result: MotionResult) -> list[Finding]:
    """A change-over valve serves both directions only with a valve that has no lap."""
    found = []
    for name in ("steam_lap", "exhaust_lap"):
        lap = getattr(motion.valve, name)
        if abs(lap) > 0.02 * motion.valve.port_width:
            path = f"motion.valve.{name}"
            found.append(
                said(
                    "check", (path,),
                    f"The valve has {lap:.2f} mm of {name.replace('_', ' ')}; where steam and "
                    "exhaust change places it can have none, or the directions differ.",
                    "No lap.", change=(path, 0.0),
                )
            )  # fmt: skip
    if motion.valve_type == "slide":
        found.append(
            said(
                "check", ("motion.valve_type",),
                "In backward gear the steam is beneath a slide valve and lifts it off its face.",
                "A spring on its back that holds it against the pressure, or a piston valve.",
            )
        )  # fmt: skip
    cost = result.no_lap
    if cost is not None:
        found.append(
            said(
                "fine", ("motion.gear",),
                f"Steam follows the piston for {cost.cutoff:.0f} % of the stroke: for the same "
                f"work the engine takes {cost.more_steam:.0f} % more of it than with lap and a "
                f"cut-off at {cost.cutoff_with_lap:.0f} %.",
            )
        )  # fmt: skip
    return found


def _full_gear(motion: ValveMotion, result: MotionResult) -> list[Finding]:
    lap, full, width = ("motion.valve.steam_lap",), result.full, motion.valve.port_width
    cutoff, lead = result.cutoff_full, result.lead_full
    if cutoff is None:
        return [
            said(
                "stop", lap,
                "In full forward gear a steam port does not open and shut as it should: front "
                f"opens {full.front.port_opening:.2f} mm, back {full.back.port_opening:.2f} mm.",
                "Less lap or more travel.",
            )
        ]  # fmt: skip
    if lead < -width or (result.release_full is not None and result.release_full < 50):
        return [
            said(
                "stop", ("motion.gear",),
                f"In full forward gear the ports are shut by {-lead:.2f} mm at dead centre and cut "
                f"off at {cutoff:.1f} %: the valve is driven as for the other direction.",
                "Exchange the lifting arm's angles for forward and backward, or key the eccentric "
                "or return crank half a turn round.",
            )
        ]  # fmt: skip
    found = []
    if cutoff < 70:
        found.append(
            said(
                "check",
                lap,
                f"Cut-off in full forward gear is {cutoff:.1f} %; the "
                "engine may not start in every position of its cranks.",
                "75 to 85 % is usual: less lap for the travel.",
            )
        )
    elif cutoff > 88:
        found.append(
            said(
                "check",
                lap,
                f"Cut-off in full forward gear is {cutoff:.1f} %, which wastes steam.",
                "75 to 85 % is usual: more lap for the travel.",
            )
        )
    else:
        found.append(said("fine", lap, f"Cut-off in full forward gear is {cutoff:.1f} %."))
    exhaust = ("motion.valve.exhaust_lap",)
    if result.release_full is None or result.compression_full is None:
        found.append(
            said(
                "check",
                exhaust,
                "In full forward gear a port is never shut to exhaust.",
                "Less exhaust clearance.",
            )
        )
    elif result.release_full < 88:
        found.append(
            said(
                "check",
                exhaust,
                f"Release in full forward gear is at {result.release_full:.1f} %; "
                "92 % or later is usual.",
                "Exhaust lap, or less steam lap.",
            )
        )
    return found + _lead_full(motion, lead)


def _lead_full(motion: ValveMotion, lead: float) -> list[Finding]:
    width, gear = motion.valve.port_width, ("motion.gear",)
    if lead < -0.02 * width:
        return [
            said(
                "check",
                gear,
                f"In full forward gear the ports are still covered by "
                f"{-lead:.2f} mm at dead centre.",
                f"A little more {_governs(motion)}.",
            )
        ]
    if lead > 0.25 * width:
        return [
            said(
                "check",
                gear,
                f"The lead in full forward gear is {lead:.2f} mm, more than "
                f"a quarter of the {width:.2f} mm port; the engine will knock at starting.",
                f"A little less {_governs(motion)}.",
            )
        ]
    return []


def _governs(motion: ValveMotion) -> str:
    """Return what governs the lead of this gear, in words."""
    return "advance" if hasattr(motion.gear, "advance") else "of the lever from the crosshead"


def _evenness(motion: ValveMotion, result: MotionResult) -> list[Finding]:
    found = []
    seen: dict[float, ValveEvents] = {}
    for events in (result.full, result.running, *result.events):
        if round(events.reverser, 6) in (1.0, -1.0, round(result.running.reverser, 6)):
            seen.setdefault(events.reverser, events)
    for events in seen.values():
        front, back = events.front.cutoff, events.back.cutoff
        if front is None or back is None:
            continue
        differs = abs(front.percent - back.percent)
        place = f"at {events.reverser:+.2f} of the reverser"
        if not motion.gear.notched:
            place = "running forward" if events.reverser > 0 else "running backward"
        says = (
            f"Cut-offs {place}: front {front.percent:.1f} %, back {back.percent:.1f} %, "
            f"{differs:.1f} % apart"
        )
        if differs <= EVEN:
            found.append(said("fine", ("motion.gear",), f"{says}."))
        elif not motion.gear.notched:
            found.append(
                said(
                    "check",
                    ("motion.setting.rule",),
                    f"{says}: with equal leads a single eccentric cannot do better, "
                    "since the connecting rod is short.",
                    "Set the valve for equal cut-offs if an even beat matters more "
                    "than equal leads.",
                )
            )
        else:
            found.append(
                said(
                    "check",
                    ("motion.gear",),
                    f"{says}.",
                    _evens(motion),
                )
            )
    return found


def _evens(motion: ValveMotion) -> str:
    """Return the first remedy for uneven cut-offs, by what this gear has to be moved."""
    first = "its lifting pin" if hasattr(motion.gear, "suspension_ahead") else "its link or lever"
    return f"Within 5 % is usual. Moving {first} is the first remedy with this gear."


def _leads(motion: ValveMotion, result: MotionResult) -> list[Finding]:
    """Leads of the two ends drift apart between the notches where the drive is not level."""
    front, back = result.running.front.lead, result.running.back.lead
    if abs(front - back) <= 0.15 * motion.valve.port_width:
        return []
    return [
        said(
            "check",
            ("motion.gear", "motion.setting.reverser"),
            f"In the notch looked at the leads are {front:.2f} mm at the front and "
            f"{back:.2f} mm at the back.",
            "Set the valve for equal leads in that notch, or look at the rocker's angle.",
        )
    ]


def _openings(motion: ValveMotion, result: MotionResult) -> list[Finding]:
    found: list[Finding] = []
    width, opens = motion.valve.port_width, result.opening_running
    full = min(result.full.front.port_opening, result.full.back.port_opening)
    fields = ("motion.valve.port_width",)
    if full <= 0:
        return found  # said of full gear already
    if full < 0.6 * width:
        found.append(
            said(
                "check",
                fields,
                f"In full gear the ports open {full:.2f} of {width:.2f} mm.",
                "More travel, or narrower ports.",
            )
        )
    else:
        found.append(
            said(
                "fine",
                fields,
                f"Ports open {full:.2f} of {width:.2f} mm in full gear, "
                f"{opens:.2f} mm in the notch looked at.",
            )
        )
    for events in result.events:
        twice = [
            end for end, at in (("front", events.front), ("back", events.back)) if _opens_twice(at)
        ]
        if twice:
            found.append(
                said(
                    "check",
                    ("motion.gear",),
                    f"At {events.reverser:+.2f} of the reverser the "
                    f"{' and '.join(twice)} port opens twice in a turn.",
                    "Events are given for the opening at the dead centre.",
                )
            )
    return found


def _opens_twice(end: EndEvents) -> bool:
    return end.steam_openings > 1 or end.exhaust_openings > 1


def suggest(
    motion: ValveMotion, crank: Crank, wanted: ValveSizes, full: EquivalentEccentric
) -> tuple[Suggestion, ...]:
    """Return what the wanted events call for, in the fields of this gear."""
    lap = Suggestion(
        "motion.valve.steam_lap", wanted.steam_lap,
        f"for {motion.wanted.cutoff:g} % and the opening wanted",
    )  # fmt: skip
    if isinstance(motion.gear, Oscillating):
        return _own(motion, crank, wanted, full)
    if isinstance(motion.gear, LAPLESS):
        lap = replace(lap, value=0.0, why="the valve has to serve both directions alike")
    return (lap, *_own(motion, crank, wanted, full))


def _own(
    motion: ValveMotion, crank: Crank, wanted: ValveSizes, full: EquivalentEccentric
) -> tuple[Suggestion, ...]:
    own = motion.gear.called_for(wanted, full, motion.wanted, crank)
    return tuple(Suggestion(f"motion.gear.{name}", value, why) for name, value, why in own)


def locked(message: str) -> Finding:
    """Return the finding for a gear that locks, in the words of `MotionLocks`."""
    return said(
        "stop",
        ("motion.gear",),
        message,
        "Look at the lengths that meet there and at the places of their pivots. Until the gear "
        "turns, cylinders are reckoned with the cut-off wanted and the nozzle is not judged.",
    )
