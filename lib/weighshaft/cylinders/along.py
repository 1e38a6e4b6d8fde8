"""What the stack-up along the cylinder axis means to a builder."""

from __future__ import annotations

from collections.abc import Iterator

from ..findings import COMMON, Finding
from .decisions import Cylinders
from .result import CylindersResult
from .said import said


def along_the_axis(cylinders: Cylinders, result: CylindersResult) -> Iterator[Finding]:
    """Yield the findings on clearances, thread, gland, slide bars and big end."""
    yield from _piston(cylinders, result)
    yield from _thread(result)
    yield from _gland_and_bars(result)


def _piston(cylinders: Cylinders, result: CylindersResult) -> Iterator[Finding]:
    axis = result.axis
    front, back = result.front_clearance, result.back_clearance
    together = front + back
    longer = round(axis.barrel + 2 * axis.wanted - together, 2)
    even = round(axis.engaged + (back - front) / 2, 2)
    ends = f"{front:.2f} mm in front and {back:.2f} mm behind"
    fields = "barrel.length crosshead.rod_length crosshead.rod_engaged barrel.axle_to_cylinder"
    lengthen = f"A barrel of {longer:g} mm leaves {axis.wanted:g} mm at each end."
    if together < 0.4 * axis.wanted:
        yield said(
            "stop" if together <= 0 else "check", "barrel.length barrel.piston_thickness",
            f"The piston clears the covers by {ends}: the barrel is too short for this stroke, "
            "piston and spigots.",
            lengthen, COMMON, ("barrel.length", longer),
        )  # fmt: skip
        return
    nearest = min(front, back)
    # screwing the rod in or out moves the piston midway, which is all that is needed here
    change = (
        ("crosshead.rod_engaged", even) if cylinders.crosshead.rod_engaged is not None else None
    )
    midway = f"With {even:.2f} mm of thread in the crosshead the piston stands midway."
    if nearest <= 0:
        cover = "front" if front < back else "back"
        yield said(
            "stop", fields,
            f"The piston strikes the {cover} cover by {-nearest:.2f} mm: {ends}.", midway,
            COMMON, change,
        )  # fmt: skip
    elif nearest < 0.5 * axis.wanted:
        uneven = abs(front - back) > 0.2 * together
        yield said(
            "check", fields,
            f"The piston clears the covers by {ends}; {axis.wanted:g} mm is usual, for wear and "
            "for the nut that works loose.",
            midway if uneven else lengthen,
            COMMON, change if uneven else ("barrel.length", longer),
        )  # fmt: skip
    elif abs(front - back) > max(0.2, 0.25 * together):
        yield said(
            "check", fields, f"The piston clears the covers unevenly: {ends}.", midway,
            COMMON, change,
        )  # fmt: skip
    else:
        yield said(
            "fine", fields,
            f"The piston clears the covers by {ends}; {axis.wanted:g} mm is usual for this bore.",
        )  # fmt: skip


def _thread(result: CylindersResult) -> Iterator[Finding]:
    axis, engaged = result.axis, result.thread_engaged
    fields = "crosshead.rod_engaged crosshead.rod_length crosshead.rod_thread_length"
    proper = round(axis.rod_length - engaged + 0.9 * axis.socket, 1)
    if engaged <= 0:
        short = f"is {-engaged:.2f} mm too short to reach" if engaged <= -0.005 else "only touches"
        yield said(
            "stop", fields,
            f"The piston rod {short} the crosshead.",
            f"A rod of {proper:g} mm.", COMMON, ("crosshead.rod_length", proper),
        )  # fmt: skip
    elif engaged > axis.socket + 1e-6:
        yield said(
            "stop", fields,
            f"The piston rod has to go {engaged:.2f} mm into the crosshead, which is tapped "
            f"{axis.socket:.2f} mm deep.",
            f"Shorten the rod by {engaged - 0.9 * axis.socket:.2f} mm, or tap deeper.",
            COMMON, ("crosshead.rod_length", proper),
        )  # fmt: skip
    else:
        yield said(
            "fine", fields,
            f"{engaged:.2f} mm of {result.rod_thread} goes into the crosshead; "
            f"{result.spare_thread:.2f} mm is left behind the lock nut to adjust by.",
        )  # fmt: skip
    if axis.lock_nut > 0 and result.spare_thread < -1e-6:
        longer = round(engaged + axis.lock_nut + 0.5, 1)
        yield said(
            "check", "crosshead.rod_thread_length crosshead.lock_nut",
            f"The thread on the rod ends {-result.spare_thread:.2f} mm short of the face of the "
            "lock nut.",
            f"Cut the thread {longer:g} mm long.", COMMON,
            ("crosshead.rod_thread_length", longer),
        )  # fmt: skip
    if result.gland_to_thread < 0:
        yield said(
            "check", "crosshead.rod_thread_length barrel.gland",
            f"At front dead centre the rod's thread runs {-result.gland_to_thread:.2f} mm into the "
            "gland and cuts the packing.",
            f"A thread no longer than {axis.thread + result.gland_to_thread:.1f} mm, or the "
            "cylinder further ahead.",
        )  # fmt: skip


def _gland_and_bars(result: CylindersResult) -> Iterator[Finding]:
    axis = result.axis
    ahead = round(axis.axle_to_cylinder - result.gland_to_lock_nut + 1, 1)
    if result.gland_to_lock_nut < 0.3:
        yield said(
            "stop" if result.gland_to_lock_nut <= 0 else "check",
            "barrel.axle_to_cylinder barrel.gland crosshead.boss crosshead.lock_nut",
            "At front dead centre the lock nut "
            + (
                f"strikes the gland by {-result.gland_to_lock_nut:.2f} mm."
                if result.gland_to_lock_nut <= 0
                else f"clears the gland by only {result.gland_to_lock_nut:.2f} mm."
            ),
            f"The cylinder {ahead:g} mm ahead of the axle with a rod longer by as much, a shorter "
            "boss or a shorter gland.",
        )  # fmt: skip
    else:
        yield said(
            "fine", "barrel.axle_to_cylinder barrel.gland",
            f"At front dead centre the lock nut clears the gland by "
            f"{result.gland_to_lock_nut:.2f} mm.",
        )  # fmt: skip
    if result.bar_at_front < 0:
        yield said(
            "stop", "crosshead.slipper_ahead barrel.axle_to_cylinder",
            f"At front dead centre the slipper runs {-result.bar_at_front:.2f} mm into the back "
            "cover.",
            f"A slipper {axis.slipper_ahead + result.bar_at_front:.1f} mm long ahead of the pin at "
            "most, or the cylinder further ahead.",
        )  # fmt: skip
    if result.bar_at_back < 0:
        longer = round(axis.slide_bar - result.bar_at_back + 0.5, 1)
        yield said(
            "check", "crosshead.slide_bar crosshead.slipper_behind",
            f"At back dead centre the slipper hangs {-result.bar_at_back:.2f} mm over the end of "
            "the slide bar.",
            f"A bar of {longer:g} mm.", COMMON, ("crosshead.slide_bar", longer),
        )  # fmt: skip
    if result.bar_to_big_end < 0:
        yield said(
            "check", "crosshead.slide_bar crosshead.big_end connecting_rod",
            f"The slide bars reach {-result.bar_to_big_end:.2f} mm into the circle of the big end; "
            "they must then stand clear of it sideways.",
            "Shorter bars, a longer connecting rod, or bars above the rod.",
        )  # fmt: skip
