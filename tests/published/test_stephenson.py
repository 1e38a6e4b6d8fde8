"""Stephenson's motion against published and recomputed figures.

Sources, named in data/README-motion.md: E. Fuhst after Zeuner, Polytechnisches Journal 154
(1859), p. 321-327: five grades of an open-rod motion, compression read from a Zeuner diagram
to two figures; G. Zeuner's link formulas (from memory, derived anew); leads at mid gear from
the exact geometry of the square link.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from weighshaft.motion import (
    Crank,
    SlideValve,
    Stephenson,
    ValveSetting,
    equivalent_eccentric,
    solve_motion,
    valve_events,
    zeuner_link,
)

DATA = Path(__file__).parent / "data"
ENDLESS = Crank(2.0, 1e7)  # the books' infinite connecting rod
READ = 0.02  # the author read two figures from a diagram
TURN = np.linspace(0.0, 360.0, 360, endpoint=False)
MID_GEAR = ValveSetting(rule="equal leads", reverser=0.0)


def link(
    throw: float, advance: float, rod: float, half: float, *, rods: str = "open"
) -> Stephenson:
    """A link struck with the rods' length and carried so far off that it only rises and falls.

    The lifting arm is long beside its lift, so that the reverser is all but the lift itself.
    """
    far, arm = 4e4 * half, 1e3 * half
    swing = math.degrees(math.asin(half / arm))
    ahead = math.sqrt(rod**2 - half**2)
    down = 1 if rods == "open" else -1
    return Stephenson(
        eccentric_throw=throw, advance=advance, eccentric_rod=rod, rods=rods, link_radius=rod,
        pin_spacing=2 * half, lifting_link=far, lifting_arm=arm, weighshaft_x=ahead - arm,
        weighshaft_y=far, arm_angle_forward=-down * swing, arm_angle_backward=down * swing,
        die_height=0.0,
    )  # fmt: skip


def tilt_tells(throw: float, half: float) -> float:
    """By what share the tilt of the link tells, which first-order theory neglects.

    A link that tilts by phi meets the die's line 1 / cos(phi) further along; sin(phi) is at
    most throw over half the link.
    """
    return 1 / math.sqrt(1 - (throw / half) ** 2) - 1


def fuhst() -> dict[str, str]:
    with (DATA / "stephenson_fuhst.csv").open(newline="", encoding="utf-8") as file:
        return {f"{row['quantity']}/{row['tag']}": row["value"] for row in csv.DictReader(file)}


@pytest.mark.parametrize("grade", range(5))
def test_fuhst_open_rods_in_five_grades(grade: int) -> None:
    told = fuhst()
    gear = link(
        float(told["eccentricity/S"]), 30.0, float(told["eccentric_rod/S"]),
        150.0,
    )  # fmt: skip
    valve = SlideValve(float(told["outside_lap/S"]), float(told["inside_lap/S"]), 50.0)
    share = float(told[f"grade_{grade}_u_over_c/S"])
    events = valve_events(ENDLESS, valve, gear, share, setting=MID_GEAR)
    both = (events.front, events.back)
    compression = sum(end.compression.percent for end in both if end.compression) / 200
    assert compression == pytest.approx(float(told[f"grade_{grade}_compression_fraction/S"]),
                                        abs=READ)  # fmt: skip
    cutoff = sum(end.cutoff.percent for end in both if end.cutoff) / 200
    if grade == 1:
        assert cutoff == pytest.approx(float(told["grade_1_cutoff/S"]), abs=READ)
    # recomputed by the equivalent eccentric, as far as the tilt of the link lets it hold
    lead = (events.front.lead + events.back.lead) / 2
    tilt = tilt_tells(60.0, 150.0)
    assert cutoff == pytest.approx(float(told[f"grade_{grade}_cutoff/D"]), rel=tilt)
    assert lead == pytest.approx(float(told[f"grade_{grade}_lead/D"]), rel=tilt)
    assert events.travel == pytest.approx(float(told[f"grade_{grade}_valve_travel/D"]), rel=tilt)


def cases() -> list[dict[str, str]]:
    with (DATA / "stephenson_leads.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", cases(), ids=lambda row: row["case"])
def test_leads_at_mid_gear_by_exact_geometry(row: dict[str, str]) -> None:
    """Open and crossed rods: the link stands square in mid gear, whatever carries it."""
    throw, lap, full = float(row["r"]), float(row["lap"]), float(row["full_gear_lead"])
    half, rod = float(row["c_half_link"]), float(row["l_rod"])
    advance = math.degrees(math.asin((lap + full) / throw))
    assert advance == pytest.approx(float(row["delta_deg"]), abs=1e-4)
    for rods in ("open", "crossed"):
        gear = link(throw, advance, rod, half, rods=rods)
        valve = SlideValve(lap, 0.0, 1.0)
        events = valve_events(ENDLESS, valve, gear, 0.0, setting=MID_GEAR)
        assert (events.front.lead + events.back.lead) / 2 == pytest.approx(
            float(row[f"midgear_lead_{rods}_exact"]), abs=2e-6
        )
    zeuner = zeuner_link(throw, advance, rod, half, 0.0)
    assert zeuner.throw - lap == pytest.approx(float(row["midgear_lead_open_zeuner"]), abs=1e-6)


@pytest.mark.parametrize("row", cases(), ids=lambda row: row["case"])
@pytest.mark.parametrize("share", [1.0, 0.75, 0.5, 0.25])
def test_zeuner_leads_and_travels_between_full_and_mid_gear(
    row: dict[str, str], share: float
) -> None:
    """The formulas of the table, and the linkage within the first order that they neglect."""
    throw, lap = float(row["r"]), float(row["lap"])
    half, rod = float(row["c_half_link"]), float(row["l_rod"])
    advance = float(row["delta_deg"])
    book = zeuner_link(throw, advance, rod, half, share * half)
    lead = book.throw * math.sin(math.radians(book.advance)) - lap
    if share == 1.0:
        assert lead == pytest.approx(float(row["full_gear_lead"]), abs=2e-6)
    else:
        assert lead == pytest.approx(float(row[f"lead_{share:g}"]), abs=2e-6)
        assert book.throw == pytest.approx(float(row[f"half_travel_{share:g}"]), abs=2e-6)
    valve = solve_motion(ENDLESS, link(throw, advance, rod, half), TURN, share).valve
    ours = equivalent_eccentric(TURN, valve)
    assert ours.throw == pytest.approx(book.throw, rel=tilt_tells(throw, half))


def parts(throw: float, rod: float, share: float, rods: str) -> tuple[float, float]:
    """By how much the linkage departs from Zeuner in A and in B, as shares of the throw."""
    gear = link(throw, 25.0, rod, 6.0, rods=rods)
    ours = equivalent_eccentric(TURN, solve_motion(ENDLESS, gear, TURN, share).valve)
    book = zeuner_link(throw, 25.0, rod, 6.0, share * 6.0, crossed=rods == "crossed")
    angles = [math.radians(one.advance) for one in (ours, book)]
    a = ours.throw * math.sin(angles[0]) - book.throw * math.sin(angles[1])
    b = ours.throw * math.cos(angles[0]) - book.throw * math.cos(angles[1])
    return abs(a) / throw, abs(b) / throw


@pytest.mark.parametrize("share", [0.3, 0.5, 0.8])
@pytest.mark.parametrize("rods", ["open", "crossed"])
def test_zeuner_is_approached_as_the_square_of_link_over_rod(share: float, rods: str) -> None:
    """Zeuner keeps the first order in link over rod, with a throw small beside the link.

    The departure of B is then of the second order; that of A, odd in the rod, of the third.
    """
    errors = np.array([parts(0.003, rod, share, rods) for rod in (50.0, 100.0, 200.0)])
    order = np.log2(errors[:-1] / errors[1:])
    assert order[:, 0] == pytest.approx(3.0, abs=0.15)
    assert order[:, 1] == pytest.approx(2.0, abs=0.15)


def test_what_long_rods_leave_falls_as_the_square_of_throw_over_link() -> None:
    """The tilt of the link, which Zeuner neglects as well."""
    errors = np.array([parts(throw, 1e5, 0.5, "open")[1] for throw in (1.2, 0.6, 0.3)])
    assert np.log2(errors[:-1] / errors[1:]) == pytest.approx(2.0, abs=0.1)


def test_open_rods_gain_lead_towards_mid_gear_and_crossed_rods_lose_it() -> None:
    """Bourne; Ashton, "Valve setting"."""
    valve = SlideValve(1.0, 0.0, 1.0)
    for rods, sign in (("open", 1), ("crossed", -1)):
        gear = link(2.5, 25.0, 48.0, 6.0, rods=rods)
        leads = [valve_events(ENDLESS, valve, gear, r, setting=MID_GEAR).front.lead
                 for r in (1.0, 0.6, 0.2, 0.0)]  # fmt: skip
        assert np.all(sign * np.diff(leads) > 0)
