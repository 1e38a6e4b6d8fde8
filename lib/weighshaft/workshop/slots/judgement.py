"""What is to be said of the slot and of the way in which it is cut."""

from __future__ import annotations

from ...findings import Finding
from .decisions import Slots
from .results import SlotsResult

CAUTIONS = (
    "Wear eye protection and keep the cutter's guard on; stop the spindle before you gauge, "
    "brush chips away or touch the work.",
    "Clamp the link to a sacrificial plate on both sides of the slot: freed by the last cut, a "
    "piece of the waste can be thrown.",
    "Move a screw only while the other slide is locked, and always come to a place from the same "
    "side: the backlash of a screw is more than the whole allowance of the slot.",
    "Feed against the teeth of the cutter. A slot drill in its own slot cuts down one flank with "
    "the feed, so take light cuts and plunge at each place.",
    "A drill that breaks into its neighbour's hole is pulled over: drill every other hole first, "
    "with a stub drill and the work clamped.",
)
THINNEST = 0.25
"""Wall beside the slot over its width, below which a builder looks again; common practice."""


def judge(slots: Slots, result: SlotsResult, *, straight: str, known: bool) -> list[Finding]:
    """Return the findings.

    Parameters
    ----------
    straight : why the engine gives no arc, empty where it does or none is asked of it.
    known : whether the width of the link is the engine's.
    """
    found: list[Finding] = []
    worst = max(result.outer_cusp, result.inner_cusp)
    if straight:
        found.append(
            Finding(
                "fine", "slots", ("slots.radius", "motion.gear"),
                f"Nothing is taken from the engine here, since {straight}: the table is for a "
                f"radius of {result.radius:.2f} mm.",
            )
        )  # fmt: skip
    if worst > slots.cusp_wanted + 1e-12:
        better = result.step_allowed
        rounded = int(better * 1000) / 1000
        found.append(
            Finding(
                "check", "slots", ("slots.step", "slots.cusp_wanted"),
                f"Steps of {slots.step:.3f} mm leave ridges of {worst:.4f} mm in the flanks; "
                f"{slots.cusp_wanted:g} mm is allowed.",
                f"Step by {rounded:.3f} mm, or file the ridges off.", "geometry",
                ("slots.step", rounded) if rounded >= 0.01 else None,
            )
        )  # fmt: skip
    else:
        found.append(
            Finding(
                "fine", "slots", ("slots.step",),
                f"Steps of {slots.step:.3f} mm leave ridges of {worst:.4f} mm at most: emery "
                "takes them off.", source="geometry",
            )
        )  # fmt: skip
    if result.overcut > slots.cusp_wanted:
        found.append(
            Finding(
                "fine", "slots", ("slots.step",),
                f"Left in the work while one screw and then the other is moved, the cutter goes "
                f"{result.overcut:.3f} mm into a flank.",
                "Lift it between places and plunge at each.", "geometry",
            )
        )  # fmt: skip
    if known and result.wall < THINNEST * result.width:
        found.append(
            Finding(
                "check", "slots", ("slots.width", "clearance.widths.link"),
                f"The link is left {result.wall:.2f} mm thick on each side of a slot of "
                f"{result.width:.2f} mm.",
                "Widen the link in Room, or narrow the slot.",
            )
        )  # fmt: skip
    if result.ridge is None:
        found.append(
            Finding(
                "fine", "slots", ("slots.roughing.overlap",),
                f"The holes of the waste leave webs of "
                f"{result.drill_chord - result.drill:.2f} mm between them.",
            )
        )  # fmt: skip
    return found
