"""Rolling resistance and grades against published rules."""

import math

import pytest

from weighshaft.cylinders.haulage import pull_on, tractive_effort, train_weight
from weighshaft.cylinders.loads import piston_load
from weighshaft.measures import GRAVITY

LBF, LB = 4.4482216153, 0.45359237
LONG_TON, SHORT_TON = 2240 * LB, 2000 * LB
INCH = 25.4


@pytest.mark.parametrize(("tons", "printed"), [(930, 30_225), (1138, 36_985)])
def test_grade_rule_of_thumb(tons: float, printed: float) -> None:
    # "TE = W (2.5 + 20 g%)", lb and short tons, 1.5 % (ogrforum.com, "how much could this
    # steam engine pull"): 2.5 lb a ton of rolling resistance, 20 lb a ton for each per cent
    found = train_weight(printed * LBF, GRAVITY, 2.5 / 2000, 0.015, 0.0)
    assert found / SHORT_TON == pytest.approx(tons, rel=1e-4)


def test_slope_of_1_in_100_is_about_four_times_level() -> None:
    # A. Stepney, model railway standards: about 8 lb a ton for passenger trolleys; a slope of
    # 1 in 100 about four times the level.  (8 + 22.4) / 8 = 3.8.
    level = pull_on(0, 100.0, 1000.0, 0.0, 8 / 2240).load
    slope = pull_on(100, 100.0, 1000.0, 0.0, 8 / 2240).load
    assert level / slope == pytest.approx(4, rel=0.06)
    assert level / LONG_TON * 8 * LBF == pytest.approx(100.0, rel=1e-6)


def test_gradient_in_pounds_a_ton() -> None:
    # 1 in 100 adds 22.4 lb to the long ton, 2240 over 100
    force = LONG_TON * GRAVITY * 0.01
    assert force / LBF == pytest.approx(22.4, rel=1e-6)
    assert train_weight(force, GRAVITY, 0.0, 0.01, 0.0) == pytest.approx(LONG_TON)


def test_bournes_resistance_at_low_speed() -> None:
    # J. Bourne, Catechism, question 493: 7 1/2 lb a ton, "1/300"
    assert train_weight(7.5 * LBF, GRAVITY, 1 / 300, 0.0, 0.0) / LONG_TON == pytest.approx(
        1, rel=0.005
    )


def test_bournes_force_on_the_pistons() -> None:
    # question 297: 3000 lb at the rail, 18 in stroke, 5 1/2 ft wheel: 17278 lb on the pistons.
    # The wheel goes round 17.278 ft while one piston goes 3 ft under that force.
    bore, pressure = 400.0, 10.0
    force = piston_load(pressure, bore)
    effort = tractive_effort(1.0, pressure, bore, 18 * INCH, 1, 66 * INCH)
    assert math.pi * 5.5 == pytest.approx(17.278, abs=0.001)
    assert force / effort * 3000 == pytest.approx(17_278, abs=1)
