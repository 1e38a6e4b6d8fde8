"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803, E741  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ..working import cos, pi, relation, sin

BEAM = "beam on two supports; any textbook of strength of materials"
STRUT = "Euler's strut; any textbook of strength of materials"
RANKINE = "Rankine's formula; R. S. Khurmi and J. K. Gupta, A Textbook of Machine Design, ch. 16"
WHIP = "Khurmi and Gupta, A Textbook of Machine Design, section 32.14"
BALANCE = "W. E. Dalby's method of planes; any textbook of the theory of machines"


@relation("A", "geometry", b="b", h="h", f="f", g="g")
def section_area(b: Any, h: Any, f: Any, g: Any) -> Any:
    """Area of a rod b thick and h deep with a flute f deep and g high in each side."""
    return b * h - 2 * f * g


@relation("I_x", "geometry", b="b", h="h", f="f", g="g")
def upright_inertia(b: Any, h: Any, f: Any, g: Any) -> Any:
    """Second moment of that section for bending up and down, in the plane of the motion."""
    return (b * h**3 - 2 * f * g**3) / 12


@relation("I_y", "geometry", b="b", h="h", f="f", g="g")
def sideways_inertia(b: Any, h: Any, f: Any, g: Any) -> Any:
    """Second moment of that section for bending sideways."""
    return ((h - g) * b**3 + g * (b - 2 * f) ** 3) / 12


@relation("P_E", STRUT, E="E", I="I", l="l_e")
def euler_load(E: Any, I: Any, l: Any) -> Any:
    """Load at which a strut of effective length l bows out: pinned l, both ends fixed half."""
    return pi * pi * E * I / l**2


@relation("P_R", RANKINE, s=r"\sigma_c", A="A", a="a", l="l_e", k="k")
def rankine_load(s: Any, A: Any, a: Any, l: Any, k: Any) -> Any:
    """Crippling load of a strut short or long: crushing stress s, radius of gyration k."""
    return s * A / (1 + a * (l / k) ** 2)


@relation("P", "statics: the wheels beyond slip before the rod carries more", mu=r"\mu", W="W",
          R="R", r="r")  # fmt: skip
def grip_load(mu: Any, W: Any, R: Any, r: Any) -> Any:
    """Load in one rod that turns the wheels beyond against their grip, the other on dead centre."""
    return mu * W * R / r


@relation("w", "centrifugal force of each length of the rod, and its weight", m="m", r="r",
          omega=r"\omega", g="g")  # fmt: skip
def whip_load(m: Any, r: Any, omega: Any, g: Any) -> Any:
    """Load along a coupling rod, N/mm: mass m (kg/mm) on a circle r (mm), omega in rad/s.

    The weight adds to it with the rod at its lowest (g in m/s2), and is taken off at the top.
    """
    return m * (omega**2 * r / 1000 + g)


@relation("M", BEAM, w="w", l="l")
def even_moment(w: Any, l: Any) -> Any:
    """Greatest bending moment under an even load."""
    return w * l**2 / 8


@relation("M", WHIP, m="m", r="r", omega=r"\omega", l="l")
def rod_whip_moment(m: Any, r: Any, omega: Any, l: Any) -> Any:
    """Greatest bending moment of a connecting rod square to its crank, N mm.

    The load grows evenly from nothing at the gudgeon pin to m omega^2 r at the crankpin; the
    moment is greatest at 0.577 of the length from the gudgeon pin.
    """
    return m * omega**2 * r / 1000 * l**2 / (9 * 3**0.5)


@relation(r"\sigma_b", BEAM, M="M", h="h", I="I")
def bending(M: Any, h: Any, I: Any) -> Any:
    """Bending stress at the edge of a section h deep."""
    return M * h / (2 * I)


@relation(r"\sigma", "end load and bending; the strut's bow enlarges the bending (Timoshenko)",
          P="P", A="A", b=r"\sigma_b", E="P_E")  # fmt: skip
def together(P: Any, A: Any, b: Any, E: Any) -> Any:
    """Greatest stress under thrust and whip at once; E is Euler's load in the same plane."""
    return P / A + b / (1 - P / E)


@relation("v", "geometry: half the clearance at the middle pin and half at the ends", c="c")
def rigid_play(c: Any) -> Any:
    """How far a rigid rod over three pins lets the middle axle leave the line of the others."""
    return c / 2 + c / 2


@relation("B", BALANCE, U="U", z="z", p="z_w")
def in_plane(U: Any, z: Any, p: Any) -> Any:
    """Mass times radius that a wheel at p takes of one at z, both from the centre line."""
    return U * (p + z) / (2 * p)


@relation("F", "centrifugal force", U="U", omega=r"\omega")
def centrifugal(U: Any, omega: Any) -> Any:
    """Force of mass times radius U (kg mm) at omega (rad/s), N."""
    return U * omega**2 / 1000


@relation("F_x", BALANCE, c="c", U="U", omega=r"\omega", gamma=r"\gamma")
def fore_and_aft(c: Any, U: Any, omega: Any, gamma: Any) -> Any:
    """Greatest force along the engine that two cylinders leave, N, where c is balanced.

    U is the reciprocating mass of one side times the throw, kg mm; gamma between the cranks.
    """
    return 2 * (1 - c) * U * omega**2 / 1000 * cos(gamma / 2)


@relation("C", BALANCE, c="c", U="U", omega=r"\omega", gamma=r"\gamma", a="a")
def swaying(c: Any, U: Any, omega: Any, gamma: Any, a: Any) -> Any:
    """Greatest couple about the upright that two cylinders a apart leave, N mm."""
    return (1 - c) * U * omega**2 / 1000 * a * sin(gamma / 2)


@relation("U", "geometry: first moment of a piece of a ring", rho=r"\varrho", t="t", R="R_o",
          q="R_i", alpha=r"\alpha")  # fmt: skip
def ring_moment(rho: Any, t: Any, R: Any, q: Any, alpha: Any) -> Any:
    """Mass times radius of a piece of a ring, half its angle alpha; rho in kg/mm3."""
    return 2 * rho * t * (R**3 - q**3) * sin(alpha) / 3
