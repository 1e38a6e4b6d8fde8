"""Blast and draught against a textbook's jet pump, old engines, and what was measured."""

from __future__ import annotations

import csv
import itertools
import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest
import sympy

from weighshaft.draught import Chimney, Draught, Gas, Jet, draw
from weighshaft.draught.ejector import SPREAD, caught, evened, recovered, suction
from weighshaft.draught.fire import gas_way
from weighshaft.nozzle.flow import mass_flux
from weighshaft.trade.saturation import saturation

DATA = Path(__file__).parent / "data"
INCH, FOOT2, PSI, MERCURY = 25.4, 304.8**2, 0.0689475729, 750.06


def _rows(name: str, of: str = "") -> list[dict[str, str]]:
    with open(DATA / name, encoding="utf-8") as file:
        return [row for row in csv.DictReader(file) if row.get("set", "").startswith(of)]


# --- the textbook's jet pump --------------------------------------------------------------


@cache
def _liquid_jet_pump() -> sympy.Expr:
    """Rise of pressure over that of the jet's speed, from the balances alone.

    A jet of speed V and area b, a throat of area 1, the same density everywhere, m times the
    jet's flow drawn from rest with a loss at the throat's foot, mixing with friction, a diffuser.
    """
    b, m, k_s, k_t, eta = sympy.symbols("b m K_s K_t eta", positive=True)
    speed, density, suck, foot, throat = sympy.symbols("V rho p_s p_f p_t")
    second = m * b * speed / (1 - b)  # continuity
    third = (1 + m) * b * speed
    at_foot = sympy.solve(
        sympy.Eq(suck, foot + (1 + k_s) * density * second**2 / 2), foot
    )[0]  # fmt: skip
    momentum = sympy.Eq(
        foot + density * (b * speed**2 + (1 - b) * second**2),
        throat + density * third**2 * (1 + k_t / 2),
    )
    after = sympy.solve(momentum, throat)[0].subs(foot, at_foot)
    delivery = after + eta * density * third**2 / 2
    return sympy.expand((delivery - suck) / (density * speed**2 / 2))


def test_liquid_jet_pump_in_closed_form() -> None:
    # Karassik, Pump Handbook, chapter 4 (R. G. Cunningham), liquid jet pump, quoted from memory:
    # (p_d - p_s) / jet = 2b + 2 M2 b2/(1-b) - b2 (1+M)2 (1+K_td) - (1+K_s) M2 b2/(1-b)2
    b, m, k_s, k_t, eta = sympy.symbols("b m K_s K_t eta", positive=True)
    printed = (
        2 * b + 2 * m**2 * b**2 / (1 - b) - b**2 * (1 + m) ** 2 * (2 + k_t - eta)
        - (1 + k_s) * m**2 * b**2 / (1 - b) ** 2
    )  # fmt: skip
    # a diffuser that wins back eta is one that loses 1 - eta: K_td = K_t + 1 - eta
    assert sympy.simplify(_liquid_jet_pump() - printed) == 0


@pytest.mark.parametrize("b", [0.02, 0.1, 0.3, 0.6])
@pytest.mark.parametrize("m", [0.0, 0.5, 2.0, 6.0])
def test_with_one_density_the_ejector_is_the_liquid_jet_pump(b: float, m: float) -> None:
    values = {"b": b, "m": m, "K_s": 0.04, "K_t": 0.1, "eta": 0.7}
    put_in = {sympy.Symbol(name, positive=True): value for name, value in values.items()}
    # speed, density and suction fall out, as the test above shows
    put_in |= {sympy.Symbol("V"): 1, sympy.Symbol("rho"): 1, sympy.Symbol("p_s"): 0}
    wanted = float(_liquid_jet_pump().subs(put_in))
    density, speed, throat = 1.3, 40.0, 2e-4
    steam = density * speed * b * throat
    found = suction(
        np.array([steam * speed]), np.array([steam]), np.array([m * steam]),
        jet_area=np.array([b * throat]), throat=np.array([throat]), gas_density=density,
        mixed_volume=np.array([(1 + m) * steam / density]), free=np.zeros(1), evened=np.ones(1),
        entry=0.04, friction=0.1, recovered=np.array([0.7]),
    )  # fmt: skip
    assert found[0] / (density * speed**2 / 2) == pytest.approx(wanted, rel=1e-9, abs=1e-12)


# --- engines of 1850, all sizes known -----------------------------------------------------


def _bourne(row: dict[str, str], blast: float, choke: float | None = None) -> Draught:
    """A plain nozzle and parallel chimney of the printed areas; blast in psi.

    Not printed, taken for all alike: nozzle two chimney diameters under the choke, a chimney of
    three and a half (he asks for three to four, question 280), and our own usual losses.
    """
    nozzle = float(row["blast_area_sqin printed"]) * INCH**2
    chimney = math.sqrt(4 / math.pi * float(row["chimney_area_sqft printed"]) * FOOT2)
    tubes = float(row["tube_area_ferrules_sqft"]) * FOOT2
    jet = Jet(mass_flux(blast * PSI, 0.92) * nozzle * 0.93e-6, math.sqrt(4 / math.pi * nozzle))
    bore = chimney if choke is None else choke * chimney
    way = gas_way(smokebox=300.0, tubes=600.0, heads=4.0, fire=0.5, area=tubes)
    return draw(jet, Chimney(bore, bore, 2 * chimney, 1.2 * chimney, 3.5 * chimney), way)


BOURNE = _rows("bourne_locomotives.csv")


@pytest.mark.parametrize("row", BOURNE, ids=lambda row: row["engine"])
@pytest.mark.parametrize("blast", [1.0, 3.0, 6.0])
def test_as_many_inches_of_water_as_of_mercury(row: dict[str, str], blast: float) -> None:
    # J. Bourne, question 278: the vacuum in inches of water about equals the blast's pressure in
    # inches of mercury. "About": his chimneys stand 0.44 to 0.75 of the tubes' area
    mercury = blast * PSI * MERCURY
    assert _bourne(row, blast).draught[0] / mercury == pytest.approx(0.93, abs=0.3)


def test_six_inches_of_water_need_about_three_pounds() -> None:
    # the same question, on the mean of his four engines
    drawn = [_bourne(row, 3.0).draught[0] / INCH for row in BOURNE]
    assert np.mean(drawn) == pytest.approx(6.0, rel=0.1)
    # and the usual 3 to 6 in of question 277
    assert all(3.0 < one < 7.0 for one in drawn)


@pytest.mark.parametrize("row", BOURNE, ids=lambda row: row["engine"])
def test_his_chimneys_are_the_best_that_the_ejector_finds(row: dict[str, str]) -> None:
    # four chimneys that practice had settled; 0.95 to 1.12 of them would draw most
    tried = np.linspace(0.5, 2.0, 76)
    drawn = [_bourne(row, 3.0, one).draught[0] for one in tried]
    assert tried[int(np.argmax(drawn))] == pytest.approx(1.0, abs=0.15)


def test_four_times_the_draught_raises_twice_the_steam() -> None:
    # J. Bourne, question 282: evaporation goes as the root of the draught; so the gases must
    low, high = (_bourne(BOURNE[1], blast) for blast in (0.5, 2.1))
    assert high.gas[0] / low.gas[0] == pytest.approx(
        math.sqrt(high.draught[0] / low.draught[0]), rel=1e-6
    )


# --- L. D. Porta ---------------------------------------------------------------------------


def test_proportions_of_porta() -> None:
    # L. D. Porta, Theory of the Lempor Ejector (1974), appendix A3, usual practice: gases twice
    # the steam, throat and bell mouth seven times the nozzle, one specific volume throughout
    ratio, throat, mouth = 2.0, 7.0, 7.0
    mixed, gas = (1 + ratio) / throat, ratio / mouth  # speeds over the jet's
    assert 1 / gas == pytest.approx(3.5)
    assert mixed == pytest.approx(0.43, abs=0.005)
    assert (mixed / gas) ** 2 == pytest.approx(2.25)
    assert mixed**2 == pytest.approx(0.185, abs=0.002)
    # chimney twice as wide at the top under 12 degrees: recovery of 75 %
    length = 0.5 / math.tan(math.radians(6.0))
    whole = recovered(np.array([1.0]), np.array([2.0]), np.array([length]))[0]
    assert 0.95 * whole == pytest.approx(0.75, abs=0.01)
    # mixing chamber of 2 1/2 diameters for four nozzles: all but done
    assert evened(np.array([1.0]), np.array([2.5]), 4, 2.0)[0] > 0.9
    # draught at the nozzles over that in the smokebox: he prints about 1.4, we find 1.7; his
    # chamber narrows from 8 to 7 and he reckons by energy, we by momentum in a straight throat
    one = np.ones(1)
    dense, jet = 1 / 1.9, 1.0
    steam = dense * jet
    box = suction(
        steam * jet * one, steam * one, ratio * steam * one, jet_area=one, throat=8 * one,
        gas_density=dense, mixed_volume=(1 + ratio) * steam / dense * one, free=0 * one,
        evened=one, entry=0.04, friction=0.1, recovered=0.75 * one,
    )[0]  # fmt: skip
    at_nozzles = box + 1.04 * dense / 2 * gas**2
    assert at_nozzles / box == pytest.approx(1.4, rel=0.35)


# --- measured -----------------------------------------------------------------------------


def _altoona(row: dict[str, str], tubes: float) -> float:
    """Reckoned vacuum over measured; the chimney is not printed, and these are taken for all:

    ten times the nozzle's area (Bourne), the nozzle two chimney diameters below the choke and as
    much above it, tubes of `tubes` times the chimney's area, four pieces in the nozzle as four
    nozzles, dry steam.
    """
    area = float(row["nozzle_area_cm2"]) * 100
    number = 4 if "pieces" in row["variant"] else 1
    each = math.sqrt(4 / math.pi * area / number)
    bore = math.sqrt(40 / math.pi * area)
    way = gas_way(smokebox=300.0, tubes=600.0, heads=4.0, fire=0.5, area=tubes * 10 * area)
    jet = Jet(float(row["steam_kg_h"]) / 3600, each, number, 0.93, 1.0)
    drawn = draw(jet, Chimney(bore, bore, 2 * bore, 1.4 * bore, 2 * bore), way)
    return float(drawn.draught[0]) / float(row["smokebox_vacuum_mm_ws"])


ALTOONA = {(row["engine"], row["variant"]): row for row in _rows("loco_draught.csv", "altoona")}
PIECES = [key for key in ALTOONA if "pieces" in key[1]]
PLAIN = [key for key in ALTOONA if key[1] == "plain"]


def test_engines_at_altoona_beside_one_another() -> None:
    # Dingler 331 (1916) p. 210: what one engine draws over what another draws, alike in nozzle.
    # Whatever is taken for the tubes, the same for all, falls out of it
    for tubes, keys in itertools.product((2.0, 3.0), (PIECES, PLAIN)):
        for one, other in itertools.combinations(keys, 2):
            found = _altoona(ALTOONA[one], tubes) / _altoona(ALTOONA[other], tubes)
            assert found == pytest.approx(1.0, abs=0.25)


@pytest.mark.parametrize("key", PIECES, ids=lambda key: key[0])
def test_vacuum_at_altoona_with_pieces_in_the_nozzle(key: tuple[str, str]) -> None:
    # with tubes of three chimneys, about what superheated engines had (from memory), within 25 %
    assert _altoona(ALTOONA[key], 3.0) == pytest.approx(1.0, abs=0.25)


@pytest.mark.parametrize("key", PLAIN, ids=lambda key: key[0])
def test_plain_nozzles_at_altoona_are_reckoned_too_high(key: tuple[str, str]) -> None:
    # a known fault, said on the page: pieces raised the vacuum far more than four jets do here,
    # so the plain nozzle comes out a third to two thirds too high; with Bourne's tubes, narrow
    # for 1915, twice and a half
    assert 1.1 < _altoona(ALTOONA[key], 3.0) < 1.7
    assert 1.9 < _altoona(ALTOONA[key], 2.0) < 2.7


@pytest.mark.parametrize(
    ("bore", "stroke", "driver", "measured"), [(2.125, 3.3, 6.5, 57.0), (2.5, 3.25, 7.5, 60.0)]
)
def test_two_engines_for_seven_and_a_quarter_inch(
    bore: float, stroke: float, driver: float, measured: float
) -> None:
    # measured with water gauges while running, the most: a model engineer's page on a vacuum
    # test, 57 and 60 mm. Nozzle, chimney and pace are not given; taken: 0.2 of the bore (between
    # a seventh and 0.227), a choke of 0.83 bores, 12 km/h with 60 % cut-off at 90 psi. Order only
    turns = 12 / 3.6 / (math.pi * driver * INCH / 1000)
    volume = math.pi * (bore * INCH / 1000) ** 2 * stroke * INCH / 1000 * 0.68
    steam = volume * saturation(0.75 * 90 * PSI).density * 1.3 * turns
    choke = 0.83 * bore * INCH
    way = gas_way(smokebox=300.0, tubes=600.0, heads=4.0, fire=0.5, area=2 * math.pi / 4 * choke**2)
    chimney = Chimney(choke, choke, 2 * choke, 1.4 * choke, 2.5 * choke)
    drawn = draw(Jet(steam, 0.2 * bore * INCH), chimney, way).draught[0]
    assert measured / 1.6 < drawn < measured * 1.6


def test_one_orifice_as_two_keeps_seven_tenths() -> None:
    # J. Koopmans, part 3: one orifice split into two of half the area keeps at least 70 %
    chimney, way = Chimney(24.0, 24.0, 58.0, 44.0, 60.0), Gas(300.0, 9e6)
    one = draw(Jet(1.8e-3, 4.0), chimney, way).draught[0]
    two = draw(Jet(1.8e-3, 4.0 / math.sqrt(2), 2), chimney, way).draught[0]
    assert two > 0.7 * one


def test_the_cones_of_the_trade_are_those_of_a_free_jet() -> None:
    # half-speed radius 0.094 of the way (S. B. Pope, Turbulent Flows, table 5.1, from memory):
    # the slender cone of 1 in 6 is as wide as that to an eighth, and at the wide one of 1 in 3
    # a jet has all but a hundredth of its momentum inside
    assert pytest.approx(1 / 6, rel=0.13) == 2 * SPREAD
    assert caught(np.array([1 / 3]), np.array([1.0]))[0] == pytest.approx(0.99, abs=0.01)
