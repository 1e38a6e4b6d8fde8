"""Saturated steam against printed values."""

import csv
from pathlib import Path

import pytest

from weighshaft.trade.saturation import ATMOSPHERE, saturation, saturation_at

DATA = Path(__file__).parent / "data"
PSI = 0.0689475729
FT3_LB = 0.0624279606  # m3/kg in a ft3/lb
BTU_LB = 2.326


def _rows(name: str) -> list[dict[str, str]]:
    with open(DATA / name, encoding="utf-8") as file:
        return list(csv.DictReader(file))


def test_if97_saturation_temperatures() -> None:
    # IAPWS R7-97(2012) Table 36: T_sat at 0.1 and 1 MPa (10 MPa is beyond any model)
    printed = {
        float(r["p_MPa"]): float(r["value"])
        for r in _rows("if97_verification.csv")
        if r["quantity"] == "T_sat"
    }
    assert set(printed) >= {0.1, 1.0}
    for megapascal in (0.1, 1.0):
        found = saturation(megapascal * 10 - ATMOSPHERE).temperature + 273.15
        assert found == pytest.approx(printed[megapascal], abs=0.001)


def test_boiling_point_at_the_atmosphere() -> None:
    # ITS-90: 99.974 degC; the name of the scale, not the table, is the source
    assert saturation(0.0).temperature == pytest.approx(99.974, abs=0.005)
    assert saturation_at(99.974).pressure == pytest.approx(0.0, abs=0.0005)


@pytest.mark.parametrize("row", _rows("marks_davis_saturation.csv"), ids=lambda r: r["psia"])
def test_marks_and_davis(row: dict[str, str]) -> None:
    # Marks and Davis 1909 in Babcock & Wilcox, Steam, Table 23: known to differ from modern
    # equations by 0.15 F, 0.2 % of volume and water heat, 0.15 % of latent heat, 1.2 Btu in all
    at = saturation(float(row["psia"]) * PSI - ATMOSPHERE)
    fahrenheit = at.temperature * 9 / 5 + 32
    assert fahrenheit == pytest.approx(float(row["T_F (Marks & Davis 1909)"]), abs=0.15)
    assert 1 / at.density / FT3_LB == pytest.approx(float(row["v_ft3_lb"]), rel=0.002)
    assert at.water_heat / BTU_LB == pytest.approx(float(row["hf"]), rel=0.002)
    assert at.latent_heat / BTU_LB == pytest.approx(float(row["hfg"]), rel=0.0015)
    assert at.steam_heat / BTU_LB == pytest.approx(float(row["hg"]), abs=1.3)
    # the modern columns: another library's reference equation, not IF97
    assert fahrenheit == pytest.approx(float(row["T_F (modern EOS)"]), abs=0.03)
    assert 1 / at.density / FT3_LB == pytest.approx(float(row["v modern"]), rel=0.001)
    assert at.latent_heat / BTU_LB == pytest.approx(float(row["hfg modern"]), rel=0.0005)
