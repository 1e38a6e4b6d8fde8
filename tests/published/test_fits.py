"""Fits of wheel on axle against published figures and a derivation of their own."""

import math

import pytest
import sympy

from weighshaft.fits import (
    bond_force,
    bond_torque,
    hoop_stress,
    press_force,
    press_pressure,
    press_torque,
)

INCH, PSI = 25.4, 6.894757e-3


def test_area_of_the_pin_and_collar() -> None:
    # ISO 10123, pin and collar: 20 mm bore, 18 mm long: 1131 mm2 = 1.753 in2 (summary of the
    # standard at testresources.net); a bond of 1 N/mm2 bears its area in newtons
    area = bond_force(1.0, 20.0, 18.0)
    assert area == pytest.approx(1131, abs=0.5)
    assert area / INCH**2 == pytest.approx(1.753, abs=5e-4)
    # the same page: 3700 psi is 25.5 N/mm2
    assert pytest.approx(25.5, abs=0.02) == 3700 * PSI
    # re-derived: at 25 N/mm2 the pin slides at 28.3 kN
    assert bond_force(25.0, 20.0, 18.0) / 1000 == pytest.approx(28.3, abs=0.05)


def test_side_of_a_quarter_inch_pin() -> None:
    # rec.crafts.metalworking post: 0.25 in by 0.382 in long has 0.300 in2 at its side
    assert bond_force(1.0, 0.25, 0.382) == pytest.approx(0.300, abs=5e-4)


def test_torque_of_a_bond() -> None:
    # re-derived example: 12 mm, 10 mm long, 25 N/mm2 -> 56.5 N m, nothing taken off
    assert bond_torque(25.0, 12.0, 10.0) / 1000 == pytest.approx(56.5, abs=0.05)


def test_pressure_of_a_press_fit() -> None:
    # re-derived example, one steel, solid shaft: E 200 GPa, 0.02 mm on 12 mm, hub 30 mm:
    # p = (E delta / d)(1 - q^2) / 2 with q = 0.4 -> 140.0 N/mm2
    p = press_pressure(0.02, 12, 30, 200e3, 200e3, 0.3, 0.3)
    assert p == pytest.approx(140.0, abs=0.05)
    assert press_torque(0.12, p, 12, 10) == pytest.approx(0.12 * p * math.pi * 144 * 10 / 2)
    assert press_force(0.12, p, 12, 10) * 12 / 2 == pytest.approx(press_torque(0.12, p, 12, 10))


@pytest.mark.parametrize(
    ("d", "hub", "e_h", "e_s", "nu_h", "nu_s"),
    [
        (12, 30, 200e3, 200e3, 0.3, 0.3),
        (12.7, 22, 100e3, 205e3, 0.25, 0.3),
        (6, 60, 105e3, 205e3, 0.34, 0.3),
    ],
)
def test_press_fit_against_the_equations_of_elasticity(
    d: float, hub: float, e_h: float, e_s: float, nu_h: float, nu_s: float
) -> None:
    # Plane stress, u = A r + B / r in the hub and u = C r in the solid shaft, satisfies
    # equilibrium.  Four conditions: outside of the hub free, both pressed alike in the seat, and
    # the two radii differing by half of the interference.  Solved here as it stands.
    delta = 0.015
    a, b, c, p, r = sympy.symbols("a b c p r")
    u_h, u_s = a * r + b / r, c * r

    def radial(u: sympy.Expr, e: float, nu: float) -> sympy.Expr:
        return e / (1 - nu**2) * (sympy.diff(u, r) + nu * u / r)

    hub_radial = radial(u_h, e_h, nu_h)
    found = sympy.solve(
        [
            hub_radial.subs(r, hub / 2),
            hub_radial.subs(r, d / 2) + p,
            radial(u_s, e_s, nu_s).subs(r, d / 2) + p,
            (u_h - u_s).subs(r, d / 2) - delta / 2,
        ],
        [a, b, c, p],
        dict=True,
    )[0]
    pressure = float(found[p])
    assert press_pressure(delta, d, hub, e_h, e_s, nu_h, nu_s) == pytest.approx(pressure, rel=1e-9)
    hoop = e_h / (1 - nu_h**2) * (u_h / r + nu_h * sympy.diff(u_h, r))
    at_bore = float(hoop.subs(found).subs(r, d / 2))
    assert hoop_stress(pressure, d, hub) == pytest.approx(at_bore, rel=1e-9)
