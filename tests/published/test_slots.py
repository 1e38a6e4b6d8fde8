"""Chords and sagittas against published figures and an independent geometry.

Sources
-------
data/sagitta.csv: chord and sagitta, where 10, 15, 20 on 12.5 and 30, 40 on 25 are the triangles
3-4-5; README-tracks.md beside it tells where the others come from.
Circular segments for radius 1, such as are printed in engineers' pocket books (Machinery's
Handbook, "Segments of Circles"): angle 60 degrees, length of arc 1.0472, height 0.1340, chord
1.0000; angle 90: 1.5708, 0.2929, 1.4142; angle 20: 0.3491, 0.0152, 0.3473; from memory, and
confirmed here by sympy's geometry.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest
import sympy

from weighshaft.workshop.machines import Machines
from weighshaft.workshop.slots import Slots, relations, work

DATA = Path(__file__).parent / "data" / "sagitta.csv"
with DATA.open(encoding="utf-8") as lines:
    ROWS = [tuple(map(float, row)) for row in list(csv.reader(lines))[1:]]


@pytest.mark.parametrize(("radius", "chord", "exact", "short"), ROWS)
def test_sagittas_of_the_table(radius: float, chord: float, exact: float, short: float) -> None:
    printed = 0.6e-6  # the table has six places
    assert relations.sagitta(R=radius, c=chord) == pytest.approx(exact, abs=printed)
    assert chord**2 / 8 / radius == pytest.approx(short, abs=printed)


SEGMENTS = (
    (20, 0.3491, 0.0152, 0.3473),
    (60, 1.0472, 0.1340, 1.0000),
    (90, 1.5708, 0.2929, 1.4142),
)


@pytest.mark.parametrize(("angle", "arc", "height", "chord"), SEGMENTS)
def test_segments_of_a_circle(angle: float, arc: float, height: float, chord: float) -> None:
    made = work(
        Slots(radius=100, length=100 * arc, width=1, die_length=1, step=0.4), machines=Machines()
    )
    last_place = 6e-3  # four places, at radius 100
    assert made.angle == pytest.approx(angle, abs=0.006)
    assert made.sagitta == pytest.approx(100 * height, abs=last_place)
    assert made.chord == pytest.approx(100 * chord, abs=last_place)


def test_places_are_where_sympy_cuts_circle_and_line() -> None:
    made = work(
        Slots(radius=40, length=20, width=3, step=2.0, cusp_wanted=1, datum="middle of the arc"),
        machines=Machines(),
    )
    circle = sympy.Circle(sympy.Point(0, 40), 40)
    for one in made.paths[0].places[1:-1]:
        x = sympy.Rational(round(one.along * 1000), 1000)
        near = min(circle.intersection(sympy.Line((x, 0), (x, 1))), key=lambda p: float(p.y))
        assert (one.x, one.y) == pytest.approx((float(near.x), float(near.y)), abs=1e-6)
    assert made.angle == pytest.approx(math.degrees(0.5))
