"""Gears laid out from a few sizes pass their own checks."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from weighshaft.motion import (
    GEARS,
    Crank,
    Oscillating,
    SlideValve,
    ValveMotion,
    Walschaerts,
    Wanted,
    solve_motion,
    valve_events,
)
from weighshaft.motion.chapter import work
from weighshaft.motion.gears import LAPLESS
from weighshaft.motion.proportions import proposed
from weighshaft.sizes import SizeError

UNEVEN = 7.0  # per cent of the stroke: a start, which a search over the pivots betters
# inside, Joy's valve pin between die and link takes of the die's run; the guide tilts the more
JOY_INSIDE = 9.0
ENGINES = {
    "16 mm to the foot": (Crank(15.875, 45.0), 1.4, 0.05, 1.2),
    "metre gauge": (Crank(20.0, 62.0), 1.6, 0.1, 1.4),
    "three and a half inch": (Crank(41.275, 127.0), 3.0, 0.1, 2.8),
    "five inch": (Crank(53.975, 190.5), 4.5, 0.3, 4.0),
}


@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize("kind", GEARS)
@pytest.mark.parametrize("admission", ["outside", "inside"])
def test_a_proposed_gear_gives_what_was_wanted_and_no_stop(
    engine: str, kind: str, admission: str
) -> None:
    crank, port, lead, opening = ENGINES[engine]
    wanted = Wanted(cutoff=78.0, lead=lead, port_opening=opening)
    valve = SlideValve(1.0, 0.0, port, admission=admission, bridge=port, exhaust_port=2 * port)
    proposal = proposed(kind, crank, valve, wanted)
    valve = replace(valve, steam_lap=proposal.steam_lap)
    events = valve_events(crank, valve, proposal.gear, 1.0)
    assert events.front.cutoff
    assert events.back.cutoff
    mean = (events.front.cutoff.percent + events.back.cutoff.percent) / 2
    if isinstance(proposal.gear, LAPLESS):
        assert proposal.steam_lap == 0
        assert mean > 95
    else:
        assert mean == pytest.approx(78.0, abs=0.01)
        assert events.front.lead == pytest.approx(lead, abs=1e-3)
    if isinstance(proposal.gear, Oscillating):
        opening = 0.0  # its holes are as large as they can be
        assert min(events.front.port_opening, events.back.port_opening) > 0.1 * crank.throw
        return
    opens = min(events.front.port_opening, events.back.port_opening)
    assert opens == pytest.approx(opening, abs=1e-3)
    bound = JOY_INSIDE if (kind, admission) == ("Joy", "inside") else UNEVEN
    motion = ValveMotion(valve=valve, gear=proposal.gear, valve_type="slide")
    result = work(motion, crank=crank, pressure=4.0)
    assert not [finding for finding in result.findings if finding.level == "stop"]
    for one in result.events:
        if abs(one.reverser) >= 0.5:
            assert one.front.cutoff
            assert one.back.cutoff
            assert abs(one.front.cutoff.percent - one.back.cutoff.percent) < bound


def test_walschaerts_lever_has_lap_and_lead_to_half_the_stroke() -> None:
    """Standard in every text; within what the lever's swing and the union link's slope leave."""
    crank = Crank(53.975, 190.5)
    wanted = Wanted(cutoff=78.0, lead=0.3, port_opening=4.0)
    proposal = proposed("Walschaerts", crank, SlideValve(3.0, 0.0, 4.5), wanted)
    gear = proposal.gear
    assert isinstance(gear, Walschaerts)
    book = (proposal.steam_lap + 0.3) / crank.throw
    assert gear.lever_upper / gear.lever_lower == pytest.approx(book, rel=0.02)


def test_walschaerts_link_stands_upright_at_both_dead_centres() -> None:
    crank = Crank(53.975, 190.5)
    wanted = Wanted(cutoff=78.0, lead=0.3, port_opening=4.0)
    gear = proposed("Walschaerts", crank, SlideValve(3.0, 0.0, 4.5), wanted).gear
    assert isinstance(gear, Walschaerts)
    motion = solve_motion(crank, gear, crank.dead_centres, 0.0)
    tail = motion.points["link_tail"] - motion.points["link"]
    own = math.atan2(gear.tail_above, gear.tail_ahead)
    for x, y in tail:
        assert math.atan2(y, x) == pytest.approx(own, abs=1e-6)


@pytest.mark.parametrize(
    ("wanted", "word"),
    [
        (Wanted(cutoff=78.0, lead=2.0, port_opening=1.0), "opening"),
        (Wanted(cutoff=94.9, lead=0.05, port_opening=40.0), "Wanted events"),
    ],
)
def test_what_cannot_be_had_is_refused_in_words(wanted: Wanted, word: str) -> None:
    with pytest.raises(SizeError, match=word):
        proposed("Stephenson", Crank(20.0, 62.0), SlideValve(1.0, 0.0, 1.6), wanted)


def test_an_unknown_gear_is_refused_by_name() -> None:
    with pytest.raises(SizeError, match="is not one of"):
        proposed("clockwork", Crank(20.0, 62.0), SlideValve(1.0, 0.0, 1.6), Wanted())
