"""Packing and fits against published figures.

Sources
-------
data/three_jaw_packing.csv: diameter, throw, packing in point jaws, one and a half throws, and the
published rule of thumb 1.5 e (1 - e / 8 D); checked by its compiler against exact geometry.
R. Thibault, Turning an Eccentric Hole in a 3-Jaw Chuck (IBLS wiki, and Atlas Lathe pages): with
R = 1.6875 in and a throw of 0.313 in the block is 0.448 in.
A published table of that rule for bars and throws in inches (eccentric turning packing, 2024):
for 1/4 in 0.3594, 0.3633, 0.3672, 0.3691 and 0.3711 on 3/4 to 3 in.  Its column for 1/8 in does
not follow the rule printed above it (0.1855 on 1 in, where the rule gives 0.1846) and is left out.
modelengineeringwebsite.com, Gorgon, part 4: an eccentric 3.5 mm out shows 7 mm on the dial.
Limits, Tolerances, and Fits, table 15.2 (a machine drawing text after ISO 286): deviation f of
shafts of 180 to 250 mm 50, of 250 to 315 mm 56, of 315 to 400 mm 62, of 400 to 500 mm 68
thousandths; by the standard the formulas are taken at the geometric mean of the steps and then
rounded.
IT grades of ISO 286-1, table 1: IT7 of 18 to 30 mm 21, IT8 33; of 30 to 50 mm 25 and 39
(from memory).
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from weighshaft.workshop.eccentrics import relations
from weighshaft.workshop.eccentrics.chucking import F7, H8

DATA = Path(__file__).parent / "data" / "three_jaw_packing.csv"
with DATA.open(encoding="utf-8") as lines:
    ROWS = [tuple(map(float, row)) for row in list(csv.reader(lines))[1:]]


@pytest.mark.parametrize(("bar", "throw", "narrow", "flat", "rule"), ROWS)
def test_packing_of_the_table(
    bar: float, throw: float, narrow: float, flat: float, rule: float
) -> None:
    printed = 0.6e-6  # six places
    assert relations.packing_narrow(R=bar / 2, e=throw) == pytest.approx(narrow, abs=printed)
    assert relations.packing_flat(e=throw) == pytest.approx(flat, abs=printed)
    assert relations.packing_thumb(e=throw, D=bar) == pytest.approx(rule, abs=printed)


def test_packing_of_thibault_and_its_steps() -> None:
    radius, throw = 1.6875, 0.313
    x, z = throw * math.sin(math.radians(60)), throw * math.cos(math.radians(60))
    w = math.sqrt(radius**2 - x**2)
    assert w + z - radius + throw == pytest.approx(0.448, abs=5e-4)
    assert relations.packing_narrow(R=radius, e=throw) == pytest.approx(w + z - radius + throw)


@pytest.mark.parametrize(
    ("bar", "throw", "rule"),
    [
        (0.75, 0.25, 0.3594),
        (1.0, 0.25, 0.3633),
        (1.5, 0.25, 0.3672),
        (2.0, 0.25, 0.3691),
        (3.0, 0.25, 0.3711),
    ],
)
def test_rule_of_thumb_as_printed(bar: float, throw: float, rule: float) -> None:
    assert relations.packing_thumb(e=throw, D=bar) == pytest.approx(rule, abs=6e-5)


def test_dial_shows_twice_the_throw() -> None:
    assert relations.dial_swing(e=3.5) == 7.0


@pytest.mark.parametrize(
    ("low", "high", "printed"), [(180, 250, 50), (250, 315, 56), (315, 400, 62), (400, 500, 68)]
)
def test_deviation_f_of_large_shafts(low: float, high: float, printed: float) -> None:
    assert relations.running_allowance(D=math.sqrt(low * high)) == pytest.approx(printed, abs=1.0)


@pytest.mark.parametrize(("low", "high", "it7", "it8"), [(18, 30, 21, 33), (30, 50, 25, 39)])
def test_grades(low: float, high: float, it7: float, it8: float) -> None:
    unit = relations.tolerance_unit(D=math.sqrt(low * high))
    assert F7 * unit == pytest.approx(it7, abs=0.5)
    assert H8 * unit == pytest.approx(it8, abs=0.5)
