"""Train resistance against what was published of it."""

from __future__ import annotations

import math

import pytest

from tests.running_for_tests import resistance
from weighshaft.measures import GRAVITY
from weighshaft.running import relations

LBF, LB = 4.4482216153, 0.45359237
LONG_TON, SHORT_TON = 2240 * LB, 2000 * LB


@pytest.mark.parametrize(
    ("speed", "printed", "places"),
    [(15, 9.3, 1), (30, 13.2, 1), (60, 29, 0), (120, 92.2, 1), (240, 344.8, 1)],
)
def test_clarks_rule(speed: float, printed: float, places: int) -> None:
    # J. Bourne, Catechism, question 499 (D. K. Clark); he cuts the digits off
    assert relations.clark(speed) == pytest.approx(printed, abs=10**-places)


def test_clarks_rule_beside_goochs_measurements() -> None:
    # question 498, 100 ton train, mean of engine and train: 9.04 lb a ton at 13.1 mph, 12.2 at
    # 20.2, 25.5 at 44.1, 23.8 at 57.4: a rule of thumb, within a quarter of what was measured
    assert relations.clark(13.1) == pytest.approx(9.04, rel=0.005)
    for speed, measured in ((20.2, 12.2), (44.1, 25.5), (57.4, 23.8)):
        assert relations.clark(speed) == pytest.approx(measured, rel=0.25)


def test_pistons_and_rim_share_the_work_of_a_turn() -> None:
    # question 297: 3000 lb at the rail, stroke 18 in, wheel 5 1/2 ft: 17278 lb on the pistons.
    # One piston goes there and back, so that its two faces count one after the other
    found = relations.machine(10.0, 2 * 17_278.0, 18 * 25.4, 66 * 25.4)
    assert found == pytest.approx(3000, abs=1)


@pytest.mark.parametrize(("tons", "printed"), [(930, 30_225), (1138, 36_985)])
def test_grade_rule_of_thumb(tons: float, printed: float) -> None:
    # "TE = W (2.5 + 20 g%)", short tons (ogrforum.com, "how much could this steam engine pull")
    train = resistance(mass=tons * SHORT_TON, level=2.5 * tons * LBF)
    assert train.at(0.0, 0.015) / LBF == pytest.approx(printed, rel=1e-4)


def test_full_size_carriages_lie_between_oil_and_grease() -> None:
    # question 493: 7 1/2 lb a ton or 1/300 at low speed, 1/1000 of it rolling.  Molesworth, p. 219:
    # journals 0.018 with oil, 0.035 with grease; a 3 in journal on a 3 ft wheel (from memory)
    rolls = relations.rolling(914.4)
    assert rolls == pytest.approx(1 / 1000)
    oil, grease = (rolls + relations.journal(mu, 3.0, 36.0) for mu in (0.018, 0.035))
    assert oil < 1 / 300 < grease


def test_passenger_trolleys_roll_at_about_eight_pounds_a_ton() -> None:
    # A. Stepney: about 8 lb a ton of load, older cars up to 10; a slope of 1 in 100 about four
    # times level.  Wheels of 3 to 4 in on ball bearings
    for wheel in (75.0, 100.0):
        rolls = relations.rolling(wheel) + relations.journal(0.0015, 0.14 * wheel, wheel)
        assert 6.5 < rolls * 2240 < 10
        assert (rolls + 0.01) / rolls == pytest.approx(4, rel=0.15)


def test_full_size_rules_for_curves() -> None:
    # article "Curve resistance" (owiki.org copy): numerators over the radius in m, N/kN
    rules = relations.full_size_curve(300_000.0, 1435.0)
    printed = {"USSR": 700, "USA": 446, "Italy": 800, "England": 600, "China": 573}
    assert {name: round(value * 1000 * 300) for name, value in rules.items()} == printed
    # at scale the same track turns the same way: 1/16 of gauge and radius
    assert relations.full_size_curve(18_750.0, 1435 / 16)["USA"] == pytest.approx(rules["USA"])
    # Röckl at 300 m: 650/(R - 55) and 500/(R - 30), more than 30 per cent apart
    assert 650 / 245 / (500 / 270) > 1.3


@pytest.mark.parametrize("rigid", [2500.0, 4000.0])
def test_sliding_on_curves_lies_among_the_full_size_rules(rigid: float) -> None:
    # Morrison's form (Molesworth, p. 219) with friction 0.25, wheelbases of two-axled stock
    reckoned = relations.curve(0.25, 1435.0, rigid, 300_000.0)
    rules = relations.full_size_curve(300_000.0, 1435.0).values()
    assert min(rules) < reckoned < max(rules)


def test_gradient_in_pounds_a_ton() -> None:
    # 1 in 100 adds 22.4 lb to the long ton
    train = resistance(mass=LONG_TON, level=0.0)
    assert train.at(0.0, 0.01) / LBF == pytest.approx(22.4, rel=1e-6)


def test_drag_of_the_air_on_a_body_that_a_textbook_takes() -> None:
    # half the density times the square of the speed: 10 m/s press 60 Pa
    assert relations.air(1.0, 10.0) == pytest.approx(60.0)
    assert relations.grip(0.2, 10.0, GRAVITY) == pytest.approx(19.6133)
    assert math.isclose(relations.evaporation(2257.0, 0.0, 2676.0, 419.0), 1e-3, rel_tol=1e-9)
