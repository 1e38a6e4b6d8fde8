"""What is to be said of holes, ports, passages and tapers."""

from __future__ import annotations

from ...findings import Finding
from .circles import wanted_metal
from .decisions import Patterns
from .results import PatternsResult

CAUTIONS = (
    "Wear eye protection; clamp the cylinder or the cover down, never hold it in the hand; stop "
    "the spindle before you measure or brush chips away.",
    "A drill that enters at a slant wanders and snatches: mill a flat square to it first, start "
    "with a short stiff drill, and clear it often. Where it breaks into the port feed by hair's "
    "breadths.",
    "Before a passage is drilled, hold the drill beside the casting at the set-over and look where "
    "it will come out.",
    "Come to every place from the same side: a dial counts only against the backlash that was "
    "taken up when zero was set.",
    "Take the key out of the chuck, and set the tailstock back to true when the taper is done.",
)


def judge(patterns: Patterns, result: PatternsResult, passage: float) -> list[Finding]:
    """Return the findings.

    Parameters
    ----------
    passage : diameter of a passage's holes, mm.
    """
    found: list[Finding] = []
    if result.metal is not None:
        found.append(_metal(patterns, result, result.metal, passage))
    if result.hole_chord <= result.hole:
        found.append(
            Finding(
                "stop", "patterns", ("patterns.circle.holes", "patterns.circle.hole"),
                f"Holes of {result.hole:.2f} mm stand {result.hole_chord:.2f} mm apart on the "
                "circle: they run into one another.", "Fewer holes, or a larger circle.",
                "geometry",
            )
        )  # fmt: skip
    if result.chest_metal is not None:
        path = ("patterns.chest.along", "patterns.chest.across", "patterns.chest.depth")
        says = (
            f"The studs of the chest keep {result.chest_metal:.2f} mm of metal from the steam "
            "passages."
        )
        if result.chest_metal <= 0:
            says = (
                f"A stud of the chest runs {-result.chest_metal:.2f} mm into a steam passage, as "
                "far as it reaches down."
            )
            found.append(
                Finding("check", "patterns", path, says,
                        "Change the number of studs, or make them shorter.", "geometry")
            )  # fmt: skip
        else:
            found.append(Finding("fine", "patterns", path, says, source="geometry"))
    if result.corner_loss is not None and result.corner_loss > 8:
        found.append(
            Finding(
                "check", "patterns", ("patterns.face.cutter",),
                f"The cutter leaves the ports' ends round: {result.corner_loss:.1f} % of the "
                "steam port is lost there.", "Take a smaller cutter into the corners.", "geometry",
            )
        )  # fmt: skip
    if result.ball_ridge > patterns.ball.ridge:
        found.append(
            Finding(
                "check" if patterns.ball.ridge != type(patterns.ball)().ridge else "fine",
                "patterns", ("patterns.ball.step", "patterns.ball.ridge"),
                f"Increments of {patterns.ball.step:g} mm leave steps of {result.ball_ridge:.3f} "
                "mm on the ball.", "Smaller increments near the end, or a file.", "geometry",
            )
        )  # fmt: skip
    off = abs(result.set_over - result.set_over_usual)
    if off > 0.02:
        found.append(
            Finding(
                "fine", "patterns", ("patterns.taper.between",),
                f"The usual rule sets the tailstock over by {result.set_over_usual:.3f} mm, "
                f"{off:.3f} mm more than this taper wants.", source="geometry",
            )
        )  # fmt: skip
    return found


def _metal(patterns: Patterns, result: PatternsResult, metal: float, passage: float) -> Finding:
    """Return what is to be said of the metal beside the passages."""
    fields = ("patterns.circle.start", "patterns.circle.depth", "cylinders.covers.screws")
    wanted = wanted_metal(result.hole, passage)
    chosen = patterns.circle.start is not None
    at = f"With the first hole at {result.start:.1f} degrees" + ("" if chosen else ", the best,")
    if result.short and result.short_depth is not None:
        many = len(result.short) > 1
        which = f"hole{'s' if many else ''} {listed(result.short)}"
        them = "them" if many else "it"
        says = (
            f"{at} {metal:.2f} mm of metal is left between {which} of the circle and the "
            f"steam passages; {wanted:.2f} mm, half of a hole, is usual."
        )
        if metal <= 0:
            runs = "run" if many else "runs"
            says = f"{at} {which} of the circle {runs} {-metal:.2f} mm into a steam passage."
        deep = result.short_depth
        mend = (
            f"Make {which} no deeper than {deep:.2f} mm or leave {them} out, or set the "
            "passages closer together."
            if deep > result.hole
            else f"Leave out {which}, or set the passages closer together."
        )
        return Finding("stop" if metal <= 0 and chosen else "check", "patterns", fields, says,
                       mend, "geometry")  # fmt: skip
    worst = result.metal_worst
    other = "" if worst is None or chosen else f"; turned the worst way it would be {worst:.2f} mm"
    return Finding(
        "fine", "patterns", fields,
        f"{at} {metal:.2f} mm of metal is left between the circle's holes and the steam "
        f"passages{other}.", source="geometry",
    )  # fmt: skip


def listed(numbers: tuple[int, ...]) -> str:
    """Return numbers as they are spoken: 1, 2 and 5."""
    *first, last = (str(one) for one in numbers)
    return f"{', '.join(first)} and {last}" if first else last
