"""Bolt circles and tapers against published figures, coordinates against sympy's geometry.

Sources
-------
Chords between neighbouring holes of a circle of diameter 1, the constants of the handbooks
(Machinery's Handbook, "Lengths of chords for spacing off the circumferences of circles", from
memory): 3 0.86603, 5 0.58779, 7 0.43388, 8 0.38268, 9 0.34202, 10 0.30902, 12 0.25882.
calculatorlib.com, bolt circle, its example: 4 holes on 100 stand 70.711 apart; terican.com: 6 holes
on 100 mm 50.00.
Turning and Boring Tapers (Derry Collard Co., 1902), "Equivalent tapers of degrees in inches":
included angle, taper in an inch, in a foot; 1 deg 0.01746 and 0.20952, 2 deg 0.03490 and 0.41880,
3 deg 0.05236 and 0.62832, 5 deg 0.08732, 20 deg 0.35266.
enginemechanics.tpub.com (US Navy course 14345, "Using the compound rest"): work of 12 in from 3 in
to 2 in wants the tailstock over by 1/2 in; 1 in a foot on 6 in, 1/4 in.
Joshua Rose, Modern Machine-Shop Practice: an inch of taper a foot on work of three feet, 1 1/2 in.
Morse tapers of ISO 296 (from memory): no. 1 1:20.047 and 1 deg 25' 43", no. 2 1:20.020 and
1 deg 25' 50", no. 3 1:19.922 and 1 deg 26' 16", no. 0 1:19.212 and 1 deg 29' 27" to the axis.
"""

from __future__ import annotations

import math

import pytest
import sympy

from weighshaft.workshop.machines import Machines
from weighshaft.workshop.patterns import Circle, Patterns, PatternsResult, Taper, relations, work

CONSTANTS = (
    (3, 0.86603), (5, 0.58779), (7, 0.43388), (8, 0.38268), (9, 0.34202), (10, 0.30902),
    (12, 0.25882),
)  # fmt: skip


@pytest.mark.parametrize(("number", "constant"), CONSTANTS)
def test_constants_of_bolt_circles(number: int, constant: float) -> None:
    assert relations.chord(D=1.0, n=number) == pytest.approx(constant, abs=0.6e-5)


@pytest.mark.parametrize(("number", "chord"), [(4, 70.711), (6, 50.0)])
def test_printed_examples_of_bolt_circles(number: int, chord: float) -> None:
    assert relations.chord(D=100.0, n=number) == pytest.approx(chord, abs=6e-4)


def _made(**groups: object) -> PatternsResult:
    decided = Patterns(**groups)  # type: ignore[arg-type]
    return work(decided, machines=Machines())


@pytest.mark.parametrize("number", [3, 5, 8])
def test_holes_are_the_corners_of_sympys_polygon(number: int) -> None:
    result = _made(circle=Circle(holes=number, diameter=40.0, start=15.0))
    polygon = sympy.RegularPolygon((0, 0), 20, number, sympy.rad(15))
    corners = [(float(one.x), float(one.y)) for one in polygon.vertices]
    assert [(one.x, one.y) for one in result.spots] == [pytest.approx(one) for one in corners]


@pytest.mark.parametrize(
    ("included", "inch", "foot"),
    [(1, 0.01746, 0.20952), (2, 0.03490, 0.41880), (3, 0.05236, 0.62832), (5, 0.08732, None),
     (20, 0.35266, None)],
)  # fmt: skip
def test_tapers_of_1902(included: float, inch: float, foot: float | None) -> None:
    printed = 2e-5  # the table's last place is not always rounded
    assert relations.half_angle(D=1 + inch, d=1.0, l=1.0) == pytest.approx(included / 2, abs=1e-3)
    assert 2 * math.tan(math.radians(included / 2)) == pytest.approx(inch, abs=printed)
    if foot is not None:
        assert relations.half_angle(D=1 + foot, d=1.0, l=12.0) == pytest.approx(
            included / 2, abs=1e-3
        )


@pytest.mark.parametrize(
    ("ratio", "degrees", "minutes", "seconds"),
    [(20.047, 1, 25, 43), (20.020, 1, 25, 50), (19.922, 1, 26, 16), (19.212, 1, 29, 27)],
)
def test_morse_tapers(ratio: float, degrees: int, minutes: int, seconds: int) -> None:
    result = _made(taper=Taper(large=20.0, small=20.0 - 40 / ratio, length=40.0))
    printed = degrees + minutes / 60 + seconds / 3600
    assert result.half_angle == pytest.approx(printed, abs=0.7 / 3600)
    assert result.one_in == pytest.approx(ratio)


@pytest.mark.parametrize(
    ("work_length", "large", "small", "length", "over"),
    [(12.0, 3.0, 2.0, 12.0, 0.5), (6.0, 2.0, 1.5, 6.0, 0.25), (36.0, 5.0, 2.0, 36.0, 1.5)],
)
def test_tailstocks(
    work_length: float, large: float, small: float, length: float, over: float
) -> None:
    usual = relations.set_over_usual(L=work_length, D=large, d=small, l=length)
    assert usual == pytest.approx(over)
    alpha = math.radians(relations.half_angle(D=large, d=small, l=length))
    # the books take the tangent for the sine: a thousandth part more at this slope
    assert relations.set_over(L=work_length, alpha=alpha) == pytest.approx(over, rel=1e-3)
