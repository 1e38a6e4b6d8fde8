"""Rods, slide bars and balance against worked examples in print.

Sources, each named again at its test:

- Scilab Textbook Companion, book 698, chapter 2, example 12 (FOSSEE, IIT Bombay): a side rod.
- R. S. Khurmi and J. K. Gupta, A Textbook of Machine Design, chapter 32, example 32.3: the
  connecting rod of an engine.
- R. S. Khurmi and J. K. Gupta, Theory of Machines, example 15.7, its answers (68.73, 50.62,
  48.28 kN and 14.484 kN m) as a sheet of examples quotes them.
- An inside-cylinder locomotive set in many courses (cylinders 0.7 m apart, stroke 0.6 m, 150 and
  180 kg, wheels 1.5 m apart, two thirds balanced at 0.6 m, 300 turns a minute); its solution in
  Khurmi and Gupta's chapter 22 is quoted from memory.
- Scilab Textbook Companion, a theory of machines, chapter 12, illustrations 3 and 7: tractive
  effort and swaying couple; the companion takes 3.141 for pi in illustration 3.
"""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest

from weighshaft.measures import GRAVITY
from weighshaft.motion.frame import Crank
from weighshaft.rods import relations
from weighshaft.rods.balance import Engine, Ring, balanced
from weighshaft.rods.masses import Turned
from weighshaft.rods.slidebars import acceleration, on_the_bars
from weighshaft.rods.strength import Shape


def test_side_rod_of_a_full_size_engine() -> None:
    # 96.6 km/h on 0.915 m radius, throw 0.375 m, rod 2 m long of 90 kg/m, 75 by 150 mm;
    # tractive effort 45 kN a wheel; the rod is at its highest, so that its weight is taken off
    omega = 96.6 / 3.6 / 0.915
    assert omega == pytest.approx(29.3, abs=0.05)
    assert omega**2 * 0.375 == pytest.approx(322.51, abs=0.005)
    per_mm = 90 / 1000
    inertia = relations.whip_load(m=per_mm, r=375.0, omega=omega, g=0.0) * 2000
    assert inertia == pytest.approx(58051.15, abs=0.01)
    net = relations.whip_load(m=per_mm, r=375.0, omega=omega, g=-9.81)
    assert net * 2000 == pytest.approx(56285.35, abs=0.01)
    # mu W is the tractive effort itself
    axial = relations.grip_load(mu=1.0, W=45000.0, R=915.0, r=375.0)
    assert axial == pytest.approx(109800.0)
    shape = Shape(150.0, 75.0)
    whip = relations.bending(
        M=relations.even_moment(w=net, l=2000.0), h=shape.depth, I=shape.upright
    )
    # the example adds both without the strut's bow: so does ours for a rod that cannot bow
    both = relations.together(P=axial, A=shape.area, b=whip, E=1e30)
    assert both == pytest.approx(59.8, abs=0.05)


def test_whip_of_a_connecting_rod() -> None:
    # 1800 turns a minute, throw 95 mm, 380 mm long, 8000 kg/m3, an I 35 by 28 mm with 7 mm metal
    t = 7.0
    shape = Shape(5 * t, 4 * t, 1.5 * t, 3 * t)
    assert shape.area == pytest.approx(11 * t**2)
    assert shape.upright == pytest.approx(419 / 12 * t**4)
    assert shape.sideways == pytest.approx(131 / 12 * t**4)
    # its 1.64 "kg a metre" carries a factor of the length: 11 (0.007)^2 0.38 8000 is the mass of
    # the rod, which it then takes for the mass of a metre
    mass = 11 * 0.007**2 * 0.38 * 8000
    assert mass == pytest.approx(1.64, abs=0.005)
    omega = 2 * math.pi * 1800 / 60
    moment = relations.rod_whip_moment(m=1.64 / 1000, r=95.0, omega=omega, l=380.0)
    assert moment == pytest.approx(51_300, rel=2e-3)
    modulus = 2 * shape.upright / shape.depth
    assert modulus == pytest.approx(13.97 * t**3, rel=5e-4)
    assert modulus == pytest.approx(4792, rel=5e-4)
    stress = relations.bending(M=moment, h=shape.depth, I=shape.upright)
    assert stress == pytest.approx(10.7, abs=0.05)


def test_rankine_sets_the_section_of_that_rod() -> None:
    # 3.15 N/mm2 on 100 mm and a factor of six; the book works with Rankine, ends hinged, its
    # constant 1/7500 for mild steel and 320 N/mm2, and k = 1.78 t, and takes t = 7 mm
    load = 6 * math.pi / 4 * 100**2 * 3.15

    def at(t: float) -> float:
        return relations.rankine_load(s=320.0, A=11 * t**2, a=1 / 7500, l=380.0, k=1.78 * t)

    assert at(6.5) < load < at(7.0)
    shape = Shape(35.0, 28.0, 10.5, 21.0)
    assert math.sqrt(shape.upright / shape.area) == pytest.approx(1.78 * 7, rel=2e-3)


def test_rankine_becomes_euler_for_slender_rods() -> None:
    modulus, proof = 205_000.0, 225.0
    long = relations.rankine_load(
        s=proof, A=10.0, a=proof / (math.pi**2 * modulus), l=5000.0, k=1.0
    )
    assert long == pytest.approx(relations.euler_load(E=modulus, I=10.0, l=5000.0), rel=1e-3)


def test_steam_engine_crosshead_and_crank() -> None:
    # throw 300, rod 1200, bore 500 mm, 250 kg to and fro, 0.35 N/mm2, 250 turns a minute, 60 deg
    crank = Crank(600.0, 1200.0)
    # the book rounds the turning speed to 26.2 rad/s
    omega = 26.2
    assert 2 * math.pi * 250 / 60 == pytest.approx(omega, abs=0.05)
    load = 0.35 * math.pi / 4 * 500**2
    assert load / 1000 == pytest.approx(68.73, abs=0.015)
    closed = 250 * omega**2 * 0.3 * (math.cos(math.pi / 3) + math.cos(2 * math.pi / 3) / 4)
    exact = -250 * acceleration(crank, np.array([60.0]), omega)[0]
    # the book breaks the series of the piston's acceleration off after the second term
    assert exact == pytest.approx(closed, rel=0.02)
    effort = load - closed
    slant = math.asin(math.sin(math.pi / 3) / 4)
    thrust = effort / math.cos(slant) / 1000
    assert thrust == pytest.approx(50.62, abs=0.015)
    assert thrust * math.sin(math.pi / 3 + slant) == pytest.approx(48.28, abs=0.015)
    assert thrust * math.sin(math.pi / 3 + slant) * 0.3 == pytest.approx(14.484, abs=0.005)
    # ours presses the upper bar with the square part of that thrust, less its own weight
    _, up = on_the_bars(crank, load, 250.0, omega)
    square = thrust * math.sin(slant)
    assert (up[60] + 250 * GRAVITY) / 1000 == pytest.approx(square, rel=0.01)


WHEELS = 1500.0


def _inside(share: float, turning: float, to_and_fro: float) -> Engine:
    return Engine(
        axles=("driving",), wheel_plane=WHEELS / 2, lead=90.0,
        turned=(Turned(0, complex(turning * 300), 350.0),), to_and_fro=to_and_fro * 300,
        cylinder_plane=350.0, number=2, shares=(share,), most=1e9,
    )  # fmt: skip


def test_inside_cylinder_engine_by_the_method_of_planes() -> None:
    omega = 2 * math.pi * 300 / 60
    engine = _inside(2 / 3, 150.0, 180.0)
    made, left = balanced(engine, Ring(0.0, 1.0, 1.0, 1.0), omega, omega)
    # 150 and two thirds of 180 kg at the crank: 270 kg; 105 kg at 0.6 m in each wheel
    assert [one.needed / 1000 / 600 for one in made] == pytest.approx([105.0, 105.0], rel=5e-3)
    # on the right 200 degrees from its crank; on the left 250 from the right one
    assert made[0].angle == pytest.approx(20.0, abs=0.1)
    assert made[1].angle + 180 + 90 == pytest.approx(250.0, abs=0.1)
    # of it for the reciprocating masses 46.6 kg: 27 602 N under one wheel
    assert made[0].left / 1000 / 600 == pytest.approx(46.6, rel=6e-3)
    assert made[0].blow == pytest.approx(27_602, rel=6e-3)
    assert abs(left.force) * omega**2 / 1000 == pytest.approx(25_127, rel=1e-3)
    assert abs(left.couple) * omega**2 / 1e6 == pytest.approx(8797, rel=1e-3)


def test_tractive_effort_and_swaying_couple_of_two_illustrations() -> None:
    # illustration 7: 300 kg, 0.3 m, 0.7 m apart, 40 kN of hammer blow at 90 km/h on 1.7 m wheels,
    # 69.625 c kg m of balance measured off the diagram
    omega = 90 / 3.6 / 0.85
    share = 40_000 / omega**2 / 69.625
    engine = _inside(share, 0.0, 300.0)
    _, left = balanced(engine, Ring(0.0, 1.0, 1.0, 1.0), omega, omega)
    force = 2**0.5 * (1 - share) * 300 * omega**2 * 0.3
    assert abs(left.force) * omega**2 / 1000 == pytest.approx(force)
    couple = 0.7 * (1 - share) * 300 * omega**2 * 0.3 / 2**0.5
    assert abs(left.couple) * omega**2 / 1e6 == pytest.approx(couple)
    # illustration 3: 210 kg, stroke 0.6 m, 0.67 balanced, 300 turns a minute
    omega = 2 * 3.141 * 300 / 60
    assert relations.fore_and_aft(
        c=0.67, U=210 * 300.0, omega=omega, gamma=math.pi / 2
    ) == pytest.approx(2**0.5 * 0.33 * 210 * omega**2 * 60 / 2 / 100)
    assert relations.swaying(
        c=0.67, U=210 * 300.0, omega=omega, gamma=math.pi / 2, a=700.0
    ) / 1000 == pytest.approx(0.70 * 0.33 * 210 * omega**2 * 60 / 2 / 2**0.5 / 100)


def test_the_left_weight_stands_where_the_cranks_say() -> None:
    engine = _inside(1.0, 100.0, 0.0)
    made, _ = balanced(engine, Ring(0.0, 1.0, 1.0, 1.0), 1.0, 1.0)
    p, q = (WHEELS / 2 + 350) / WHEELS, (WHEELS / 2 - 350) / WHEELS
    wanted = -(p + q * cmath.exp(1j * math.pi / 2)) * 100 * 300
    assert made[0].needed / 1000 == pytest.approx(abs(wanted))
