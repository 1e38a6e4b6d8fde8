"""Rules of the trade and of full-size practice for nozzle and chimney, with their sources."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ..measures import INCH
from ..working import pi, relation, sqrt

BOURNE = "J. Bourne, A Catechism of the Steam Engine"
PURDUE = "Goss, Purdue stack tests; formula quoted from memory"
MASTERS = "Master Mechanics' front end; quoted from memory"
FORUM = "model engineers' forum thread on blast nozzles"
MEMORY = "hobby rule, quoted from memory"
PRUSSIA = "Dingler's Polytechnisches Journal 277 (1890), p. 114"


@relation("d", FORUM, grate="A_g")
def by_grate(grate: float) -> Any:
    """Nozzle whose area is 0.005 of the grate's (mm2)."""
    return sqrt(4 * 0.005 * grate / pi)


@relation("d", "nozzles of one shape: area in step with the pistons' area",
          bore="D", number="n", part="f")  # fmt: skip
def by_bore(bore: float, number: float, part: float) -> Any:
    """Nozzle as a part of the bore for two cylinders, by area for another number."""
    return part * bore * sqrt(number / 2)


@relation("d", f"{BOURNE}, question 280", choke="D_c")
def by_chimney(choke: float) -> Any:
    """Blast orifice of a tenth of the chimney's area."""
    return choke * sqrt(0.1)


@relation("D_c", f"{BOURNE}, question 280", tubes="A_t")
def chimney_by_tubes(tubes: float) -> Any:
    """Chimney bore whose area is half the area through the tubes."""
    return sqrt(4 * 0.5 * tubes / pi)


@relation("D_c", PURDUE, smokebox="D", chimney="H", below="h")
def straight_stack(smokebox: float, chimney: float, below: float) -> float:
    """Straight chimney of a full-size engine, all in INCHES of full size.

    `smokebox` its inside diameter, `chimney` its height above the smokebox, `below` the
    nozzle's tip below the boiler centre (0 where it is at or above it).
    """
    return (0.246 + 0.00123 * chimney) * smokebox + 0.19 * below


@relation("D_c", PURDUE, smokebox="D", below="h")
def tapered_stack(smokebox: float, below: float) -> float:
    """Least diameter of a tapered chimney of a full-size engine, in INCHES of full size."""
    return 0.25 * smokebox + 0.16 * below


@relation("D_c", MASTERS, smokebox="D", below="h")
def masters_stack(smokebox: float, below: float) -> float:
    """Choke of the Master Mechanics' front end, in INCHES of full size."""
    return 0.21 * smokebox + 0.16 * below


@dataclass(frozen=True)
class Rule:
    """What one rule gives.

    Parameters
    ----------
    of : "nozzle" or "choke".
    name : the rule in words.
    value : diameter in mm, for a range its lower end.
    upper : upper end of a range in mm, else None.
    source : where it is printed.
    remark : known disagreements.
    """

    of: str
    name: str
    value: float
    upper: float | None
    source: str
    remark: str = ""


def nozzle_rules(
    bore: float, number: int, grate: float | None, choke: float | None
) -> Iterator[Rule]:
    """Yield the rules for the nozzle; `bore`, `choke` in mm, `grate` in mm2, None if unknown."""
    if grate is not None:
        yield Rule(
            "nozzle", "0.005 of the grate area", by_grate(grate), None, FORUM,
            "the thread's own example prints 0.39 in where its area of 0.095 sq in makes 0.348",
        )  # fmt: skip
    yield Rule(
        "nozzle", "1/10 of the bore (2 mm for two cylinders of 20 mm on 45 mm track)",
        by_bore(bore, number, 0.1), None, "common practice, no source",
    )  # fmt: skip
    yield Rule(
        "nozzle", "1/7 of the bore, two cylinders", by_bore(bore, number, 1 / 7), None, MEMORY,
        "engines run with a good deal more, see the next",
    )  # fmt: skip
    yield Rule(
        "nozzle", "0.227 of the bore (5/16 in for 1 3/8 in)", by_bore(bore, number, 0.227), None,
        FORUM, "one engine that steams, hardly a rule",
    )  # fmt: skip
    yield Rule(
        "nozzle", "full size, 0.26 to 0.32 of the bore", by_bore(bore, number, 0.26),
        by_bore(bore, number, 0.32), f"{BOURNE}, table after question 276",
        "full size: more steam for the bore, slower turning; an upper limit for models",
    )  # fmt: skip
    yield Rule(
        "nozzle", "full size, 9 % of one piston's area", by_bore(bore, number, 0.3), None, PRUSSIA,
    )  # fmt: skip
    if choke is not None:
        yield Rule(
            "nozzle", "1/10 of the chimney's area", by_chimney(choke), None,
            f"{BOURNE}, question 280", "full size; his engines show 0.093 to 0.107",
        )  # fmt: skip


def choke_rules(
    smokebox: float | None, chimney: float | None, below: float | None,
    tubes: float | None, ratio: float,
) -> Iterator[Rule]:  # fmt: skip
    """Yield full-size rules for the choke, taken up to full size by `ratio` and down again.

    All in mm of the model, `tubes` in mm2; None where not known.
    """
    if tubes is not None:
        yield Rule(
            "choke", "half the area through the tubes", chimney_by_tubes(tubes), None,
            f"{BOURNE}, question 280", "his engines show 0.44 to 0.75",
        )  # fmt: skip
    if smokebox is None or chimney is None or below is None:
        return
    # the rules hold inches of full size in their figures, so they are worked there
    up = ratio / INCH
    sunk = max(below, 0.0) * up
    yield Rule(
        "choke", "full size, straight chimney",
        straight_stack(smokebox * up, chimney * up, sunk) / up, None, PURDUE,
        "for soft coal and one blast; smaller chimneys are usual on models",
    )  # fmt: skip
    yield Rule(
        "choke", "full size, tapered chimney", tapered_stack(smokebox * up, sunk) / up, None, PURDUE
    )
    yield Rule(
        "choke", "full size, Master Mechanics' front end", masters_stack(smokebox * up, sunk) / up,
        None, MASTERS,
    )  # fmt: skip
