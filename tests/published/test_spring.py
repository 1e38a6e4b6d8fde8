"""Coil springs against worked examples in print.

Source: V. B. Bhandari, Design of Machine Elements, chapter on springs, examples 10.1 and
10.7, as recomputed by the FOSSEE textbook companion (book 764); G = 81 370 N/mm2 there.
"""

from __future__ import annotations

import math

import pytest

from weighshaft.reversing.relations import spring_rate, spring_stress, spring_wire

MODULUS = 81370.0


def test_example_10_7_wire_turns_and_rate() -> None:
    # eight springs share 2400 N and give 15 mm; index 8; 30 % of 1390 N/mm2
    force, deflection, index, stress = 2400 / 8, 15.0, 8.0, 0.30 * 1390
    assert spring_wire(F=force, C=index, tau=stress) == pytest.approx(4.165688, abs=5e-7)
    wire, coil = 5.0, 40.0
    wanted = force / deflection
    assert wanted == pytest.approx(20.0)
    one_turn = spring_rate(G=MODULUS, d=wire, D=coil, n=1.0)
    assert one_turn / wanted == pytest.approx(4.966431, abs=5e-7)
    assert spring_rate(G=MODULUS, d=wire, D=coil, n=5.0) == pytest.approx(19.865723, abs=5e-7)


def test_example_10_1_wire_turns_and_free_length() -> None:
    # 1250 N at 30 mm; index 6; half of 1090 N/mm2
    force, deflection, index, stress = 1250.0, 30.0, 6.0, 0.50 * 1090
    assert spring_wire(F=force, C=index, tau=stress) == pytest.approx(6.625083, abs=5e-7)
    wire, coil = 7.0, 42.0
    turns = math.ceil(spring_rate(G=MODULUS, d=wire, D=coil, n=1.0) * deflection / force)
    assert turns == 8
    gives = force / spring_rate(G=MODULUS, d=wire, D=coil, n=turns)
    # ten turns in all and 1 mm between them when loaded
    assert 10 * wire + 9 * 1.0 + gives == pytest.approx(109.337611, abs=5e-7)


def test_stress_is_that_from_which_the_wire_was_found() -> None:
    for force, index, stress in ((300.0, 8.0, 417.0), (1250.0, 6.0, 545.0)):
        wire = spring_wire(F=force, C=index, tau=stress)
        assert spring_stress(F=force, D=index * wire, d=wire) == pytest.approx(stress)
