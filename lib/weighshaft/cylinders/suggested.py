"""Values that usual practice or the other decisions suggest."""

from __future__ import annotations

from ..findings import Suggestion, still_open
from .decisions import Cylinders
from .result import CylindersResult

ROD_RATIO = 6.0
"""Usual length of a connecting rod over the crank throw in small engines; common practice."""
MOST_PRESSURE = 7.0
"""No suggestion goes above this, bar: the usual top of small copper boilers; common practice."""


def suggest(
    cylinders: Cylinders, result: CylindersResult, fixed: frozenset[str]
) -> tuple[Suggestion, ...]:
    """Return the suggestions for whatever a bought part has not settled."""
    wanted = cylinders.haulage.wanted_factor
    pressure = min(max(round(result.pressure_for_adhesion, 1), 0.5), MOST_PRESSURE)
    made = [
        Suggestion(
            "connecting_rod",
            round(ROD_RATIO * cylinders.crank.throw * 2) / 2,
            f"{ROD_RATIO:g} times the crank throw; 5 to 8 times is usual",
        ),
        Suggestion(
            "pressure",
            pressure,
            f"the factor of adhesion comes to {wanted:g}"
            if pressure == round(result.pressure_for_adhesion, 1)
            else f"as near as small boilers let the factor of adhesion come to {wanted:g}",
        ),
    ]
    if cylinders.number > 1:
        usual = 120.0 if cylinders.number == 3 else 90.0
        made.append(Suggestion("crank_angle", usual, "evenest torque that starts anywhere"))
    made += [
        Suggestion(path, round(value, 2), why) for path, (value, why) in result.axis.taken.items()
    ]
    if cylinders.crosshead.rod_thread is None:
        why = f"the largest usual thread on a rod of {result.piston_rod:g} mm"
        made.append(Suggestion("crosshead.rod_thread", result.rod_thread, why))
    covers = cylinders.covers
    if covers.screws is None:
        made.append(Suggestion("covers.screws", result.screws, "usual for this bore"))
    if covers.thread is None:
        made.append(Suggestion("covers.thread", result.screw_thread, "usual for this bore"))
    if covers.screw_circle is None:
        why = "leaves about a screw of metal beside the bore"
        made.append(Suggestion("covers.screw_circle", result.screw_circle, why))
    passages = cylinders.passages
    if passages.hole_diameter is None:
        why = f"{passages.holes} such holes make a fourteenth of the piston's area"
        made.append(Suggestion("passages.hole_diameter", result.passage_hole, why))
    if passages.length is None:
        why = "0.4 of the barrel, from the port to the end of the bore"
        made.append(Suggestion("passages.length", round(result.passage_length, 1), why))
    told = [Suggestion(f"cylinders.{one.field}", one.value, one.why) for one in made]
    if result.chest is not None:
        told += [
            Suggestion(path, value if isinstance(value, int) else round(value, 2), why)
            for path, (value, why) in result.chest.taken.items()
        ]
    return still_open(told, fixed)
