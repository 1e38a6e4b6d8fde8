"""Nozzles, chimneys and steam through orifices against printed figures."""

import csv
import math
from pathlib import Path

import pytest

from weighshaft.nozzle import Nozzle, work
from weighshaft.nozzle.cones import cone_width
from weighshaft.nozzle.flow import choking_pressure, critical_ratio, exponent, mass_flux
from weighshaft.nozzle.rules import (
    by_chimney,
    by_grate,
    chimney_by_tubes,
    nozzle_rules,
    straight_stack,
)
from weighshaft.trade.drills import SETS
from weighshaft.trade.saturation import ATMOSPHERE

DATA = Path(__file__).parent / "data"
INCH = 25.4
PSI = 0.0689475729
POUND = 0.45359237
PER_SQUARE_INCH = POUND / 0.0254**2  # kg/m2 in a lb/in2

CLARK = 0.02  # our flow against Clark's table; his own agreement with Napier's rule is 5 %
NAPIER_CLOSE, NAPIER_ALL = 0.02, 0.05
BROAD_UNCHOKED = 0.06  # a rule with one constant, from 1 to 10 psi of difference


def _rows(name: str) -> list[dict[str, str]]:
    with open(DATA / name, encoding="utf-8") as file:
        return list(csv.DictReader(file))


def _pounds_a_minute(psia: float) -> float:
    """Our flow of dry steam into the open, lb/min for a square inch, no losses."""
    return mass_flux(psia * PSI - ATMOSPHERE) / PER_SQUARE_INCH * 60


@pytest.mark.parametrize("row", _rows("steam_orifice_clark.csv"),
                         ids=lambda row: row["abs_pressure_psia"])  # fmt: skip
def test_outflow_of_steam_clark(row: dict[str, str]) -> None:
    # Babcock & Wilcox, Steam, Table 68 (D. K. Clark)
    psia = float(row["abs_pressure_psia"])
    printed = float(row["published_lb_per_min_per_sqin (Table 68, D.K.Clark)"])
    assert _pounds_a_minute(psia) == pytest.approx(printed, rel=CLARK)


@pytest.mark.parametrize("psia", [25.37, 30, 50, 75, 90, 100, 115, 135, 155, 165, 200, 215])
def test_napier(psia: float) -> None:
    # Napier in Babcock & Wilcox, Steam, eq. 49: W = p a / 70 lb/s. It agrees with Clark's table
    # within 2 % from 75 to 165 psia and within 5 % overall
    tolerance = NAPIER_CLOSE if 75 <= psia <= 165 else NAPIER_ALL
    assert _pounds_a_minute(psia) == pytest.approx(60 * psia / 70, rel=tolerance)
    # ASME 51.5 K A P, lb/h: the same rule to another digit
    assert _pounds_a_minute(psia) == pytest.approx(51.5 * psia / 60, rel=tolerance)


def test_choking_at_58_per_cent() -> None:
    # Babcock & Wilcox, Steam: back pressure 58 % of the absolute; into the air from 25.37 psia
    assert critical_ratio(exponent(1.0)) == pytest.approx(0.58, abs=0.005)
    assert (choking_pressure(1.0) + ATMOSPHERE) / PSI == pytest.approx(25.37, rel=0.01)


@pytest.mark.parametrize("psia", [15.7, 16.7, 18.7, 20.7, 22.7, 24.7])
def test_below_choking(psia: float) -> None:
    # Babcock & Wilcox, Steam, eq. 50: W = 1.9 A K sqrt((P - d) d) lb/min; d the difference
    difference = psia - ATMOSPHERE / PSI
    rule = 1.9 * math.sqrt((psia - difference) * difference)
    assert _pounds_a_minute(psia) == pytest.approx(rule, rel=BROAD_UNCHOKED)


def test_valve_rating_example() -> None:
    # ASME VIII-2 Mandatory Appendix 10: 3020 lb/h at 234.7 psia gives K A P = 58.64; the same
    # steam by our flow with K A = 0.2499 sq in. Napier's rule runs 2 % over at this pressure
    flow = _pounds_a_minute(234.7) * 60 * 0.2499
    assert pytest.approx(3020, rel=0.001) == 51.5 * 0.2499 * 234.7
    assert flow == pytest.approx(3020, rel=0.03)


@pytest.mark.parametrize("row", _rows("bourne_locomotives.csv"), ids=lambda row: row["engine"])
def test_bourne_locomotives(row: dict[str, str]) -> None:
    # J. Bourne, A Catechism of the Steam Engine, table after question 276
    blast, bore = float(row["blast_dia_in"]), float(row["cyl_dia_in"])
    low, high = next((r.value, r.upper) for r in nozzle_rules(bore, 2, None, None)
                     if "0.26" in r.name)  # fmt: skip
    assert high is not None
    assert low - 0.005 * bore <= blast <= high + 0.005 * bore
    if "blast dia and area disagree" not in row["area check"]:
        area = math.pi / 4 * blast**2
        assert area == pytest.approx(float(row["blast_area_sqin printed"]), rel=0.01)
    # question 280: the orifice a tenth of the chimney's area, by the printed areas 0.093 to 0.107
    chimney = math.sqrt(4 / math.pi * float(row["chimney_area_sqft printed"]) * 144)
    true_blast = math.sqrt(4 / math.pi * float(row["blast_area_sqin printed"]))
    assert by_chimney(chimney) == pytest.approx(true_blast, rel=0.04)
    # and the chimney half the tubes' area: his own four engines stand 0.44 to 0.75
    tubes = float(row["tube_area_ferrules_sqft"]) * 144
    assert chimney_by_tubes(tubes) == pytest.approx(chimney, rel=0.22)


def test_purdue_stack() -> None:
    # American Engineer: Purdue tests, front end 54 in, stack 26 1/2 in, best straight stack 15 in;
    # the formula (from memory) gives 15.04
    assert straight_stack(54.0, 26.5, 0.0) == pytest.approx(15.04, abs=0.01)
    assert straight_stack(54.0, 26.5, 0.0) == pytest.approx(15.0, rel=0.005)


def test_grate_rule_example() -> None:
    # model engineers' forum: grate 19 sq in, area 0.095 sq in; from that 0.348 in. The 0.39
    # printed there does not follow from its own area
    assert pytest.approx(0.095) == 19 * 0.005
    found = by_grate(19 * INCH**2) / INCH
    assert found == pytest.approx(0.348, abs=0.0005)
    assert abs(found - 0.39) > 0.03


def test_fraction_of_the_bore_example() -> None:
    # model engineers' forum: 5/16 in on cylinders of 1 3/8 in
    rule = next(r for r in nozzle_rules(1.375 * INCH, 2, None, None) if "0.227" in r.name)
    assert rule.value == pytest.approx(5 / 16 * INCH, rel=0.002)


def test_cones() -> None:
    # by arithmetic, from the rim: h = 3, d = 0.25, 1 in 6: 0.75; h = 1.5, 1 in 3: 0.75
    assert cone_width(0.25, 3.0, 1 / 6) == pytest.approx(0.75)
    assert cone_width(0.25, 1.5, 1 / 3) == pytest.approx(0.75)


def test_altoona_plain_nozzles_were_choked_or_nearly() -> None:
    # Dingler 331 (1916) p. 210: 21190 kg/h through 196.4 cm2 (4-4-2) and 23485 through 246.0
    # (4-6-2), plain nozzles, superheat 70 to 80 degC. Dry steam, no losses: a lower bound on the
    # pressure. Bourne's rule, as many inches of water as of mercury, would promise far more
    # vacuum than the 211 and 145 mm measured
    for row in _rows("loco_draught.csv"):
        if row["variant"] != "plain":
            continue
        area = float(row["nozzle_area_cm2"]) * 1e-4
        flow = float(row["steam_kg_h"]) / 3600
        low, high = 0.0, 3.0
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if mass_flux(middle) * area < flow else (low, middle)
        assert low == pytest.approx(choking_pressure(1.0), abs=0.35)
        mercury = low * 750.06
        assert 3 * float(row["smokebox_vacuum_mm_ws"]) < mercury


def test_two_millimetres_for_two_cylinders_of_20_mm() -> None:
    # common practice, no source: a 2 mm nozzle suits a pair of 20 mm cylinders on 45 mm track.
    # The rest is not given; taken as usual there: stroke and wheels of such an engine, 3.5 bar,
    # coal, a brisk walk
    result = work(
        Nozzle(diameter=2.0), bore=20.0, stroke=22.0, number=2, full_cutoff=78.0,
        running_cutoff=60.0, pressure=3.5, driving_diameter=48.0, speed=5.0,
        clearance_percent=8.0, condensed=1 / (1 - 0.35), drill_sets=SETS, ratio=22.5,
    )  # fmt: skip
    assert result.diameter_by_steam == pytest.approx(2.0, rel=0.15)
    assert not [f for f in result.findings if f.level == "stop"]
    rule = next(r for r in result.rules if "2 mm for two" in r.name)
    assert rule.value == pytest.approx(2.0)
