"""Valve events against textbook geometry and the lap rules in print.

Sources, named in data/README-motion.md: J. Bourne, Catechism of the Steam Engine (1865),
question 190 and its table; T. L. Ainsley, Engineer's Manual (1880); C. A. Purinton, "Lap and
Lead in Slide Valves" (1950); closed forms after C. H. Peabody, Valve-Gears, recomputed.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from weighshaft.motion import Crank, SlideValve, SlipEccentric, sizes_for_events, valve_events

DATA = Path(__file__).parent / "data"
INFINITE = 1e7  # stands for the infinite rod of the books
PRINTED = 6e-4  # the table gives four decimals of a per cent; the rod is not quite infinite
DEGREES = 1e-3


def rows(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows("slide_valve_events.csv"), ids=lambda row: row["case"][:24])
def test_textbook_cases_at_both_ends(row: dict[str, str]) -> None:
    """Each figure of the table, angles included; unit crank, eccentric rod taken as long."""
    throw, lap = float(row["half_travel"]), float(row["steam_lap"])
    lead, exhaust = float(row["lead"]), float(row["exhaust_lap"])
    ratio = INFINITE if row["rod_ratio"] == "inf" else float(row["rod_ratio"])
    advance = math.degrees(math.asin((lap + lead) / throw))
    assert advance == pytest.approx(float(row["delta"]), abs=1e-4)
    gear = SlipEccentric(
        eccentric_throw=throw, advance=advance, eccentric_rod=INFINITE * throw, spindle_height=0.0
    )
    events = valve_events(Crank(2.0, ratio), SlideValve(lap, exhaust, 1.0), gear, 1.0)
    assert events.front.port_opening == pytest.approx(float(row["max_open"]), abs=5e-5)
    for end, letter in ((events.front, "H"), (events.back, "C")):
        assert end.admission and end.cutoff and end.release and end.compression  # noqa: PT018
        assert end.cutoff.percent == pytest.approx(float(row[f"co_{letter}"]), abs=PRINTED)
        assert end.release.percent == pytest.approx(float(row[f"rel_{letter}"]), abs=PRINTED)
        # the table counts the return stroke done, we the distance still to go
        left = 100 - float(row[f"cmp_{letter}"])
        assert end.compression.percent == pytest.approx(left, abs=PRINTED)
        assert end.admission.percent == pytest.approx(float(row[f"adm_{letter}"]), abs=PRINTED)
    front = events.front
    assert front.cutoff.angle == pytest.approx(float(row["co_deg"]), abs=DEGREES)  # type: ignore[union-attr]
    assert front.release.angle == pytest.approx(float(row["rel_deg"]), abs=DEGREES)  # type: ignore[union-attr]
    assert front.compression.angle == pytest.approx(float(row["cmp_deg"]), abs=DEGREES)  # type: ignore[union-attr]


@pytest.mark.parametrize("row", rows("lap_table.csv"), ids=lambda row: next(iter(row.values())))
def test_bourne_table_of_laps(row: dict[str, str]) -> None:
    """Lap over valve travel for cut-off k/24 from the end, no lead.

    The entry for 6/24 is printed by Ainsley; the others are quoted from memory of Bourne.
    """
    k, printed, _ = row.values()
    sizes = sizes_for_events(100 * (1 - int(k) / 24), 0.0, 1.0)
    assert sizes.steam_lap / sizes.travel == pytest.approx(float(printed), abs=6e-4)


def test_ainsley_lap_for_an_eighteen_inch_travel() -> None:
    """Cut-off at three quarters, travel 18 in: lap 4 1/2 in (Ainsley 1880)."""
    sizes = sizes_for_events(75.0, 0.0, 4.5)
    assert sizes.travel == pytest.approx(18.0)
    assert sizes.steam_lap == pytest.approx(4.5)


@pytest.mark.parametrize(
    ("cutoff", "lead", "opening"), [(75, 0.1, 1.4), (83, 0.3, 4.0), (60, 0, 2)]
)
def test_bourne_rule_for_the_lap_with_lead(cutoff: float, lead: float, opening: float) -> None:
    """L = r sqrt(1 - x) - lead / 2 (Bourne, question 190), neglecting the square of the lead."""
    sizes = sizes_for_events(cutoff, lead, opening)
    rule = sizes.throw * math.sqrt(1 - cutoff / 100) - lead / 2
    assert sizes.steam_lap == pytest.approx(rule, abs=lead**2 / opening)


def test_purinton_travel_is_twice_lap_and_port() -> None:
    """Lap 1/8, port 1/8, fully opened: travel 1/2 in (Purinton 1950); cut-off then 75 %."""
    sizes = sizes_for_events(75.0, 0.0, 0.125)
    assert sizes.travel == pytest.approx(0.5)
    assert sizes.steam_lap == pytest.approx(0.125)


@pytest.mark.parametrize(
    ("cutoff", "lead", "opening"), [(78, 0.1, 1.4), (70, 0.25, 4.0), (85, 0, 2)]
)
def test_sizes_for_events_give_those_events(cutoff: float, lead: float, opening: float) -> None:
    """The closed form run backwards through the linkage with long rods."""
    sizes = sizes_for_events(cutoff, lead, opening)
    gear = SlipEccentric(
        eccentric_throw=sizes.throw, advance=sizes.advance, eccentric_rod=INFINITE,
        spindle_height=0.0,
    )  # fmt: skip
    events = valve_events(Crank(2.0, INFINITE), SlideValve(sizes.steam_lap, 0.0, 2.0), gear, 1.0)
    assert events.front.cutoff is not None
    assert events.front.cutoff.percent == pytest.approx(cutoff, abs=1e-3)
    assert events.front.lead == pytest.approx(lead, abs=1e-5)
    assert events.front.port_opening == pytest.approx(opening, abs=1e-5)
