"""The cycle of the cylinder against engines that were measured.

One set of coefficients throughout: those the chapter begins with.  Film and gap were chosen on
Isherwood's engine and on Vienna no. 10; English's engine and Vienna no. 6 had no part in it and
are predictions.  The bands are those that the keeper of the data suggests.
"""

import pytest

from tests.published.measured_engines import (
    AT,
    PSI,
    SlideEngine,
    at_power,
    english,
    figures,
    isherwood,
    small,
)
from weighshaft.steam import Losses
from weighshaft.steam.engine import GAP_SHARE
from weighshaft.trade.saturation import ATMOSPHERE, saturation
from weighshaft.trade.warmth import penetration

HORSE = 735.49875
POUND = 453.59237
IRON = penetration("cast iron")


def _losses(engine: SlideEngine) -> Losses:
    return Losses(skin=IRON, wall=60_000.0, valve_leak=engine.leak)


def test_isherwood_corliss_engine_of_1874() -> None:
    # Dingler's Polytechnisches Journal 244 (1882), p. 258
    told = figures("isherwood_cycle.csv", "isherwood_noncond_1874")
    # four valves, each with a port about as long as the bore
    leak = GAP_SHARE * told["bore"] * 4 * 1.1 * told["bore"]
    turned = isherwood(Losses(skin=IRON, wall=60_000.0, valve_leak=leak))
    cycle = turned.cycle
    assert turned.mean / AT == pytest.approx(told["mep_indicated"], rel=0.05)
    assert turned.hour == pytest.approx(told["feed_rate"], rel=0.08)
    front = cycle.pressure[0] / AT
    volume = cycle.volume[0]
    swept = volume.max() - volume.min()
    place = (volume - volume.min()) / swept
    half = len(place) // 2
    cut = int(abs(place[:half] - told["cutoff"]).argmin())
    # how the Corliss valve shuts is not printed, which moves the pressure at cut-off by 10 %:
    # 6 % instead of the 4 % suggested
    assert front[cut] == pytest.approx(told["p_cutoff_abs"], rel=0.06)
    assert front[half - 1] == pytest.approx(told["p_end_of_stroke_abs"], rel=0.12)
    assert front[int(0.03 * len(front))] == pytest.approx(told["p_start_abs"], rel=0.04)
    shown = saturation(front[cut] * AT - ATMOSPHERE).density * volume[cut] * 1e-9
    missing = 1 - shown * 2 * told["speed"] * 60 / turned.hour
    measured = told["missing_at_cutoff"] / told["feed_rate"]
    assert missing == pytest.approx(measured, abs=0.05)


def test_english_slide_valve_engine_of_1887_predicted() -> None:
    # Dingler 267 (1888), p. 293; clearance and run 1's pressures are inferred by the keeper
    engine = english()
    ran = figures("english_slide_valve.csv", "english_run1")
    turned = engine.turned(_losses(engine), ran["p_admission_abs"] * PSI)
    assert turned.mean / PSI == pytest.approx(ran["mep"], rel=0.10)
    assert turned.stroke_steam / POUND == pytest.approx(ran["water_per_stroke"], rel=0.10)


@pytest.mark.parametrize("key", ["V10", "V6"])
def test_small_engines_of_vienna_1884(key: str) -> None:
    # Dingler 255 (1885), p. 393; the pressure of the runs is not printed: the one that makes the
    # measured power is taken, so that the feed is what is tried
    engine, told = small(key)
    turned = at_power(engine, _losses(engine), told["indicated"] * HORSE)
    assert turned.hour == pytest.approx(told["feed"], rel=0.15)


def test_the_loss_at_the_walls_is_what_makes_the_difference() -> None:
    # without metal and leaks the same engines seem to use a quarter less: the checks can fail
    engine = english()
    ran = figures("english_slide_valve.csv", "english_run1")
    bare = engine.turned(Losses(film=0, gas=0, to_air=0), ran["p_admission_abs"] * PSI)
    assert bare.stroke_steam / POUND < 0.75 * ran["water_per_stroke"]
