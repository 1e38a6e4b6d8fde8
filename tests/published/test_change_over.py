"""A valve without lap, and what the expansion is worth that it goes without.

Sources: J. Bourne, A Catechism of the Steam Engine, questions 180 to 182: steam cut off at a
quarter of the stroke gives 50 squares of the diagram by its entry and about 69 more by its
expansion; the gain is the hyperbolic logarithm of the expansion (the rule's end from memory).
A Text-Book of Mechanical Engineering (Lineham, the name from memory), on reversing: with lap
and lead the eccentric leads the crank by 90 degrees and lap and lead; so by 90 with neither.
No published layout of a change-over gear with dimensions and events was found.
"""

from __future__ import annotations

import math

import pytest

from weighshaft.cylinders.steam import Events, Fill
from weighshaft.motion import Crank, SlideValve, solve_motion, valve_events
from weighshaft.motion.change_over import ChangeOver

LONG = 1e7  # stands for the infinite rods of the books
CRANK = Crank(2.0, LONG)
GEAR = ChangeOver(eccentric_throw=1.0, eccentric_rod=LONG, spindle_height=0.0)
VACUUM = Fill(1.0, 1e-12, 1e-9, lifts=False)  # no back pressure and no clearance


@pytest.mark.parametrize("reverser", [1.0, -1.0])
def test_without_lap_and_lead_the_eccentric_is_square_to_the_crank(reverser: float) -> None:
    """The valve stands in its middle on both dead centres, the port open as the sine says."""
    angles = [0.0, 30.0, 90.0, 180.0, 210.0, 270.0]
    motion = solve_motion(CRANK, GEAR, angles, reverser)
    opens = -(motion.valve - motion.valve[0])
    sines = [0.0, 0.5, 1.0, 0.0, -0.5, -1.0]
    assert opens == pytest.approx([reverser * sine for sine in sines], abs=1e-6)
    events = valve_events(CRANK, SlideValve(0.0, 0.0, 1.0), GEAR, reverser)
    for end in (events.front, events.back):
        assert end.cutoff
        assert end.compression
        assert end.cutoff.percent == pytest.approx(100, abs=1e-6)
        assert end.compression.percent == pytest.approx(0, abs=1e-6)


def test_bourne_four_expansions_add_69_squares_to_50() -> None:
    without, quarter = VACUUM.mean(Events(1.0, 1.0, 0.0)), VACUUM.mean(Events(0.25, 1.0, 0.0))
    # the squares were counted, so to one of them
    assert quarter / (0.25 * without) == pytest.approx((50 + 69) / 50, abs=1 / 50)


@pytest.mark.parametrize("expansion", [4 / 3, 2.0, 3.0, 4.0])
def test_bourne_gain_is_the_logarithm_of_the_expansion(expansion: float) -> None:
    without = VACUUM.mean(Events(1.0, 1.0, 0.0))
    gain = VACUUM.mean(Events(1 / expansion, 1.0, 0.0)) / (without / expansion) - 1
    assert gain == pytest.approx(math.log(expansion), abs=1e-6)
