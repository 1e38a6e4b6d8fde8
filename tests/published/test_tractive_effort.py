"""Tractive effort and adhesion of full-size engines against published figures."""

import csv
from pathlib import Path

import pytest

from weighshaft.cylinders.haulage import adhesion_factor, tractive_effort
from weighshaft.measures import GRAVITY

DATA = Path(__file__).parent / "data"
INCH, PSI, LBF, LB = 25.4, 0.0689475729, 4.4482216153, 0.45359237
ROUNDED = 3.0
"""Published efforts are given to the pound or to five pounds, lbf."""
ROUNDED_BY_HAND = 0.0006
"""Those quoted to the hundred, and those from memory, as a share of the figure."""


def _rows() -> list[dict[str, str]]:
    with open(DATA / "tractive_effort.csv", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def _effort(row: dict[str, str], share: float = 0.85) -> float:
    bore, stroke, wheel, pressure, number = (
        float(row[name])
        for name in ("bore_in", "stroke_in", "driver_in", "boiler_psi", "cylinders")
    )
    return (
        tractive_effort(share, pressure * PSI, bore * INCH, stroke * INCH, number, wheel * INCH)
        / LBF
    )


@pytest.mark.parametrize("row", _rows(), ids=lambda row: row["locomotive"])
def test_rated_tractive_effort(row: dict[str, str]) -> None:
    # source in each row of the table
    printed = float(row["published_lbf"])
    loose = row["seen"] == "memory" or printed % 100 == 0
    allowed = ROUNDED_BY_HAND * printed if loose else ROUNDED
    assert _effort(row) == pytest.approx(printed, abs=allowed)


def test_ten_engines_have_figures_that_were_seen() -> None:
    assert sum(row["seen"] == "seen" for row in _rows()) >= 10


def test_molesworth_two_cylinders() -> None:
    # Molesworth's Pocket-Book, p. 221: T = D^2 P L / W with P the mean pressure
    assert tractive_effort(1.0, 100 * PSI, 18 * INCH, 24 * INCH, 2, 60 * INCH) == pytest.approx(
        18**2 * 100 * 24 / 60 * LBF, rel=1e-9
    )


def test_published_factors_of_adhesion() -> None:
    # PRR K4: 201830 lb on drivers, 44460 lbf, printed factor 4.54 (Wikipedia, K4 class);
    # GWR Castle: 131800 lb over 31625 lbf, 4.17 by arithmetic
    for pounds, effort, printed in ((201_830, 44_460, 4.54), (131_800, 31_625, 4.17)):
        found = adhesion_factor(pounds * LB, GRAVITY, effort * LBF)
        assert found == pytest.approx(printed, abs=0.005)
