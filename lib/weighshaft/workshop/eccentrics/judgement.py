"""What is to be said of throws, stops, cranks and the jig."""

from __future__ import annotations

from ...findings import Finding
from .decisions import Eccentrics
from .results import EccentricsResult

CAUTIONS = (
    "Wear eye protection, take the key out of the chuck before you start, and turn the work "
    "round by hand first: an eccentric bar reaches further out than it looks.",
    "A bar packed in three jaws is held by less than it seems: run slowly, take light cuts, bring "
    "up the tailstock where you can, and stand out of the line of the packing.",
    "Fix the packing so that it cannot fly: as wide as the jaw, of one hard piece, not of shims.",
    "Measure before boring: the dial gauge on the bar must show twice the throw.",
    "Retaining compound that is overheated in brazing or service lets go; keep it out of bearings, "
    "and read the maker's sheet for skin and air.",
)
SMALL = 0.02
"""Error of a throw that a builder sees in the valve's events, mm; from memory."""
LEAST_METAL = 0.25
"""Metal between the holes of a web over the pin; common practice."""
RESERVE = 2.0


def judge(eccentrics: Eccentrics, result: EccentricsResult) -> list[Finding]:
    """Return the findings."""
    return [*_chuck(eccentrics, result), *_stop(result), *_crank(result), *_jig(result)]


def _chuck(eccentrics: Eccentrics, result: EccentricsResult) -> list[Finding]:
    throw, narrow, flat = result.throw, result.packing_narrow, result.packing_flat
    fields = ("eccentrics.chucking.throw", "eccentrics.chucking.jaw")
    if throw is None or narrow is None or flat is None:
        return []
    found: list[Finding] = []
    got = result.rule_throw
    if got is None:
        found.append(
            Finding(
                "check", "eccentrics", fields,
                f"A throw of {throw:.3f} mm is too much for a bar of {result.bar:.2f} mm in three "
                "narrow jaws: no such packing holds it.",
                "Use four jaws, a mandrel or thicker bar.", "geometry",
            )
        )  # fmt: skip
    elif abs(throw - got) > SMALL and result.packing_jaw is None:
        found.append(
            Finding(
                "fine", "eccentrics", fields,
                f"Narrow jaws want {narrow:.3f} mm of packing and flat ones {flat:.3f} mm; the one "
                f"for the other misses the throw of {throw:.3f} mm by {abs(throw - got):.3f} mm.",
                "Measure where your jaws bear and give their width; then try with a dial gauge, "
                f"which must show {2 * throw:.3f} mm.", "geometry",
            )
        )  # fmt: skip
    else:
        found.append(
            Finding(
                "fine", "eccentrics", fields,
                f"The dial gauge must show {2 * throw:.3f} mm between its highest and its lowest.",
                source="geometry",
            )
        )  # fmt: skip
    spare = result.mandrel_spare
    if spare is not None and spare < 0.5:
        found.append(
            Finding(
                "fine" if eccentrics.chucking.mandrel is None else "check",
                "eccentrics", ("eccentrics.chucking.mandrel",),
                f"The second centre hole of the mandrel would stand {throw:.2f} mm out and leave "
                f"{spare:.2f} mm of metal outside it.",
                "Turn the sheave in the chuck, or give the mandrel larger ends that are turned "
                "off last.",
            )
        )  # fmt: skip
    bar, wanted = result.bar, result.strap
    if bar is not None and wanted is not None and bar < wanted:
        found.append(
            Finding(
                "check", "eccentrics", ("eccentrics.chucking.bar", "eccentrics.strap.diameter"),
                f"A bar of {bar:.2f} mm gives no sheave of {wanted:.2f} mm.", "Take thicker bar.",
            )
        )  # fmt: skip
    return found


def _stop(result: EccentricsResult) -> list[Finding]:
    if result.slip is None or result.opening is None or result.dog is None:
        return []
    path = ("eccentrics.stop.forward", "eccentrics.stop.pin")
    if result.dog < 60:
        return [
            Finding(
                "check", "eccentrics", path,
                f"The dog is left {result.dog:.1f} degrees long.",
                "Take a thinner pin, or set it further out.",
            )
        ]  # fmt: skip
    return [
        Finding(
            "fine", "eccentrics", path,
            f"The gap of the dog is {result.opening:.2f} degrees; each degree that it is wide of "
            "that alters the advance by half a degree each way.", source="geometry",
        )
    ]  # fmt: skip


def _crank(result: EccentricsResult) -> list[Finding]:
    if result.between_pins <= 0:
        return [
            Finding(
                "check", "eccentrics", ("eccentrics.crank.pitch", "wheels.axle_diameter"),
                f"At {result.pitch:.2f} mm the holes of an axle of {result.crank_axle:.2f} mm and "
                f"a pin of {result.crank_pin:.2f} mm would run into one another.",
                "Turn the crank from the solid, or take a thinner axle or pin.", "geometry",
            )
        ]  # fmt: skip
    if result.web is None or result.web_carries is None or result.web_must_carry is None:
        return []
    found: list[Finding] = []
    between, pin = result.between_pins, result.crank_pin
    if between < LEAST_METAL * pin:
        found.append(
            Finding(
                "check", "eccentrics", ("eccentrics.crank.pitch", "eccentrics.crank.axle"),
                f"The web keeps {between:.2f} mm between the holes for axle and pin.",
                f"A quarter of the pin, {LEAST_METAL * pin:.2f} mm, is usual.",
            )
        )  # fmt: skip
    ratio = result.web_carries / result.web_must_carry
    says = (
        f"Stuck on, a web of {result.web:.2f} mm carries {result.web_carries:.0f} N mm; one "
        f"piston turns it with {result.web_must_carry:.0f} N mm."
    )
    fields = ("eccentrics.crank.web", "eccentrics.crank.gap")
    if ratio < RESERVE:
        found.append(
            Finding(
                "check", "eccentrics", fields, says,
                "Thicken the web; and dowel it, as is done in any case.", "see fits",
            )
        )  # fmt: skip
    else:
        found.append(Finding("fine", "eccentrics", fields, says, source="see fits"))
    return found


def _jig(result: EccentricsResult) -> list[Finding]:
    says = (
        f"With both blocks {result.block:.3f} mm high the cranks stand {result.jig_angle:g} "
        f"degrees apart; they must be alike within {result.block_tolerance:.3f} mm, but the same "
        "error on every axle does no harm."
    )
    return [Finding("fine", "eccentrics", ("eccentrics.jig.height",), says, source="geometry")]
