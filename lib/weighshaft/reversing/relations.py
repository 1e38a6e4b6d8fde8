"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ..working import cos, pi, relation, sin, sqrt

GEOMETRY = "geometry"
STATICS = "statics"
SPRINGS = "close-coiled helical spring of round wire; V. B. Bhandari, Design of Machine Elements"
SCREWS = "power screw with a V thread, flanks at 30°; any textbook of machine elements"


@relation("k", SPRINGS, G="G", d="d", D="D", n="n")
def spring_rate(G: Any, d: Any, D: Any, n: Any) -> Any:
    """Rate of a coil spring: shear modulus, wire, mean coil diameter, working turns."""
    return G * d**4 / (8 * D**3 * n)


@relation(r"\tau", f"{SPRINGS}, with Wahl's factor", F="F", D="D", d="d")
def spring_stress(F: Any, D: Any, d: Any) -> Any:
    """Shear stress in the wire, with Wahl's factor for the curvature of the coil."""
    c = D / d
    return 8 * F * D / (pi * d**3) * ((4 * c - 1) / (4 * c - 4) + 0.615 / c)


@relation("d", f"{SPRINGS}, with Wahl's factor", F="F", C="C", tau=r"\tau")
def spring_wire(F: Any, C: Any, tau: Any) -> Any:
    """Wire that carries a force at a stress in a coil of index C = D / d."""
    wahl = (4 * C - 1) / (4 * C - 4) + 0.615 / C
    return sqrt(8 * wahl * F * C / (pi * tau))


@relation("F_0", STATICS, T="T_0", a="a")
def spring_force(T: Any, a: Any) -> Any:
    """Force that balances a torque, square to its arm."""
    return T / a


@relation("l", GEOMETRY, r="r", rho=r"\varrho", alpha=r"\alpha")
def return_crank(r: Any, rho: Any, alpha: Any) -> Any:
    """From crank pin to return-crank pin; r and rho from the axle, alpha between them (rad)."""
    return sqrt(r**2 + rho**2 - 2 * r * rho * cos(alpha))


@relation("F", STATICS, T="T", a="a", mu=r"\mu")
def rod_force(T: Any, a: Any, mu: Any) -> Any:
    """Force in the reach rod that holds a torque on an arm at an angle mu (rad) to it."""
    return T / (a * sin(mu))


@relation("M", STATICS, F="F", l="l", nu=r"\nu")
def lever_torque(F: Any, l: Any, nu: Any) -> Any:  # noqa: E741
    """Torque of the reach rod about the lever's pivot, at an angle nu (rad) to the lever."""
    return F * l * sin(nu)


@relation("M", SCREWS, F="F", d="d_2", L="L", f="f")
def screw_torque(F: Any, d: Any, L: Any, f: Any) -> Any:
    """Torque that turns a screw against a load: pitch diameter, lead, friction."""
    g = f / cos(pi / 6)
    return F * d / 2 * (L + pi * d * g) / (pi * d - g * L)


@relation("c", GEOMETRY, R="R", delta=r"\delta")
def divider_chord(R: Any, delta: Any) -> Any:
    """Straight distance of two notches on a quadrant of radius R, delta (rad) apart."""
    return 2 * R * sin(delta / 2)
