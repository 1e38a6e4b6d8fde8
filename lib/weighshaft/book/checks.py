"""Lists to tick off: the order of building, the engine on air, and its first steam."""

from __future__ import annotations

from collections.abc import Iterator

from ..design.document import Design
from ..design.sentences import in_unit
from ..design.typed import LengthUnit
from ..findings import COMMON
from ..job import Work
from ..threads.chapter import CAUTION
from .blocks import Block, Ticks, Words

DEFERS = (
    "This book helps to think and to work; it approves nothing. Boiler, fittings and their tests "
    "are the club's boiler inspector's and the code's that applies where you live."
)


def build_order(work: Work) -> list[Block]:
    """Return the steps of erection, each with its reason."""
    if work.erection is None:
        return [Words("The order cannot be worked: see the findings.")]
    steps = [
        (
            f"{step.number}. {step.does}",
            f"{step.why}{_after(step.after)}",
        )
        for step in work.erection.order
    ]  # fmt: skip
    return [
        Words(
            "Each step stands behind those that have to be done before it; the numbers say which. "
            "Tick a step when it is done and looked at."
        ),
        Ticks("", tuple(steps)),
    ]


def _after(numbers: tuple[int, ...]) -> str:
    return f" (after {', '.join(map(str, numbers))})" if numbers else ""


def air_test(design: Design, work: Work, unit: LengthUnit) -> list[Block]:
    """Return what to do with the engine on air, with its cautions first."""
    made: list[Block] = list(_heeded(work.valve_setting, unit))
    moved, air = work.motion, design.valve_setting.air_pressure
    leads = ""
    if moved is not None and moved.events:
        full = max(moved.events, key=lambda one: one.reverser)
        leads = in_unit(
            f"as designed, full forward: front {full.front.lead:.2f} mm, "
            f"back {full.back.lead:.2f} mm", unit,
        )  # fmt: skip
    blank = "found: ______________________________"
    made.append(
        Ticks(
            "Before the air is let in",
            (
                ("Engine blocked, wheels clear of everything and free to turn", ""),
                ("Every bearing, slide, pin, gland and lubricator oiled", ""),
                ("Pushed round by hand, forward and backward, in every notch: no tight place",
                 "a tight place is found and mended before air makes it worse"),
                ("Covers, glands and unions tight; drain cocks open", ""),
                (f"Air line with a valve in reach and a gauge, set to {air:g} bar at most",
                 "as the chapter on setting the valves has it"),
            ),
        )
    )  # fmt: skip
    made.append(
        Ticks(
            "On air",
            (
                ("Turned by hand with air on: each port heard to open near its dead centre",
                 leads or "leads as designed: see the chapter on the motion"),
                ("Lead at the front dead centre, right and left", blank),
                ("Lead at the back dead centre, right and left", blank),
                ("Starts by itself in full forward gear from every position of the cranks", blank),
                ("The same in full backward gear", blank),
                ("Four even beats a turn (two of a single cylinder), notched up too", blank),
                ("Joints, glands and valve faces listened to and brushed with soapy water", blank),
                ("Run for half an hour each way at an easy pace, oiled again, looked at again",
                 "screws, pins and crankpin nuts felt for slack"),
            ),
        )
    )  # fmt: skip
    made.append(
        Words(f"The items are {COMMON}; the pressure and leads are this design's.", "small")
    )
    return made


def first_steaming(design: Design, work: Work, unit: LengthUnit) -> list[Block]:
    """Return what to do when steam is raised for the first time, with its cautions first."""
    pressure = design.cylinders.pressure
    made: list[Block] = [Words(DEFERS, "heed"), *_heeded(work.boiler, unit), Words(CAUTION, "heed")]
    made.append(
        Words(
            "Stand where the gauge can be seen and neither safety valve, fire hole, cylinders nor "
            "drains can reach you. Gloves and goggles on; nobody else near, children least of all. "
            "Water, and an extinguisher or a wet cloth, within reach of the fire.", "heed",
        )
    )  # fmt: skip
    made.append(
        Ticks(
            "Before the fire is lit",
            (
                ("Boiler tested cold with water and passed; certificate in hand",
                 "number and date: ____________________"),
                ("Pressure gauge compared with the inspector's", "by: ____________________"),
                ("Safety valves free, set by the inspector or before him", ""),
                ("Water gauge blown through, both ways free; boiler filled to its mark", ""),
                ("A way of feeding against pressure tried with the boiler cold", ""),
                ("Lubricator filled, motion oiled, reverser in mid gear, regulator shut, drains "
                 "open, brakes on or wheels blocked", ""),
                ("Gas or spirit: joints tight with soapy water, in the open air, no flame near",
                 "of a coal fire: grate free, ashpan drops"),
            ),
        )
    )  # fmt: skip
    made.append(
        Ticks(
            "Raising steam",
            (
                ("At the first sign of pressure: every joint and plug looked at from aside",
                 "a leak that grows: fire out, pressure down, never a spanner under pressure"),
                (f"At half the working pressure, {pressure / 2:.1f} bar: water gauge blown "
                 "through, feed tried", ""),
                (f"At {pressure:.1f} bar: safety valves lift and hold it with the fire at its best",
                 "how far it may go beyond is the code's; lifted at: __________"),
                ("Drains open, regulator just open: cylinders warmed until the drains are dry",
                 "water in a cylinder breaks covers"),
                ("First turns of the wheels, forward and backward, by hand beside the engine", ""),
                ("Light engine up and down a short length, stopping often", ""),
                ("Boiler still slides in its frames, nothing binds hot that was free cold", ""),
            ),
        )
    )  # fmt: skip
    made.append(
        Ticks(
            "Afterwards",
            (
                ("Fire out, water above its lowest until all is cold", ""),
                ("Blown down or drained, lubricator emptied of water, cylinders oiled", ""),
                ("Screws, crankpin nuts, glands and pins gone over cold", ""),
                ("What was found, written down", "______________________________________"),
            ),
        )
    )  # fmt: skip
    made.append(Words(f"The items are {COMMON}; pressures are this design's.", "small"))
    return made


def _heeded(result: object, unit: LengthUnit) -> Iterator[Words]:
    for caution in getattr(result, "cautions", ()):
        yield Words(in_unit(caution, unit), "heed")
