"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ..working import pi, relation, sqrt, tan

SHIGLEY = "Shigley's Mechanical Engineering Design, chapter on springs"
BHANDARI = "V. B. Bhandari, Design of Machine Elements, chapter on springs"
BROWN = "Brown, Marks' Calculations for Machine Design, chapter 9"
STATICS, GEOMETRY = "statics", "geometry"


@relation("F", STATICS, W="W", U="U", g="g", n="n")
def spring_load(W: Any, U: Any, g: Any, n: Any) -> Any:
    """Load on each of the n springs of an axle: its load less what is not sprung, kg."""
    return (W - U) * g / n


@relation("S", f"{SHIGLEY}, table 10-4", A="A", d="d", m="m")
def wire_strength(A: Any, d: Any, m: Any) -> Any:
    """Least tensile strength of spring wire of diameter d."""
    return A / d**m


@relation("k", BHANDARI, G="G", d="d", D="D", n="n")
def coil_rate(G: Any, d: Any, D: Any, n: Any) -> Any:
    """Rate of a coil spring: shear modulus, wire, mean diameter, working turns."""
    return G * d**4 / (8 * D**3 * n)


def wahl(C: Any) -> Any:
    """Wahl's factor for the curvature of the wire and direct shear; C = D / d."""
    return (4 * C - 1) / (4 * C - 4) + 0.615 / C


@relation(r"\tau", f"{BHANDARI}, with Wahl's factor", F="F", D="D", d="d")
def coil_stress(F: Any, D: Any, d: Any) -> Any:
    """Shear stress at the inside of the coil."""
    return 8 * wahl(D / d) * F * D / (pi * d**3)


@relation(r"\tau", f"{SHIGLEY}, with Bergsträsser's factor", F="F", D="D", d="d")
def coil_stress_bergstrasser(F: Any, D: Any, d: Any) -> Any:
    """The same stress by another author's factor, which differs by about a per cent."""
    C = D / d  # noqa: N806
    return (4 * C + 2) / (4 * C - 3) * 8 * F * D / (pi * d**3)


@relation("L_s", f"{SHIGLEY}, table 10-1", N="N_t", d="d")
def solid_ground(N: Any, d: Any) -> Any:
    """Length of a closed spring with ground ends: all its turns."""
    return N * d


@relation("L_s", f"{SHIGLEY}, table 10-1", N="N_t", d="d")
def solid_unground(N: Any, d: Any) -> Any:
    """Length of a closed spring whose ends are not ground: all its turns and one wire."""
    return (N + 1) * d


@relation("y_{cr}", SHIGLEY, L="L_0", lam=r"\lambda", E="E", G="G")
def buckling_deflection(L: Any, lam: Any, E: Any, G: Any) -> Any:
    """How far a spring gives before it bows; lam is L_0 over D times the constant of its ends."""
    first = E / (2 * (E - G))
    second = pi * (E - G) * pi * 2 / (2 * G + E)
    return L * first * (1 - sqrt(1 - second / lam**2))


@relation("m", BROWN, rho=r"\rho", d="d", D="D", n="n")
def coil_mass(rho: Any, d: Any, D: Any, n: Any) -> Any:
    """Mass of the working turns: kg with kg/mm3 and mm."""
    return rho * pi / 4 * d**2 * pi * D * n


@relation("f", f"{SHIGLEY}; both ends against flat faces", k="k", m="m")
def surge(k: Any, m: Any) -> Any:
    """Lowest frequency of the waves along a spring, Hz; k in N/m, m of the working turns in kg."""
    return sqrt(k / m) / 2


@relation("k", BHANDARI, E="E", b="b", t="t", L="L", f="n_f", g="n_g")
def leaf_rate(E: Any, b: Any, t: Any, L: Any, f: Any, g: Any) -> Any:
    """Rate of a leaf spring at its buckle: both halves of length L.

    f extra leaves of full length, g graduated ones, the master leaf among them.
    """
    return E * b * t**3 * (3 * f + 2 * g) / (6 * L**3)


@relation(r"\sigma", f"{BHANDARI}; stress evened out by the nip", F="F", L="L", n="n", b="b", t="t")
def leaf_stress(F: Any, L: Any, n: Any, b: Any, t: Any) -> Any:
    """Bending stress of n leaves that share alike; F at the buckle."""
    return 3 * F * L / (n * b * t**2)


@relation("C", BHANDARI, F="F", L="L", E="E", n="n", b="b", t="t")
def leaf_nip(F: Any, L: Any, E: Any, n: Any, b: Any, t: Any) -> Any:
    """Nip that evens out the stress under a load F at the buckle."""
    return F * L**3 / (E * n * b * t**3)


@relation("P_i", f"{BHANDARI}, for any nip", C="C", E="E", b="b", t="t", L="L", f="n_f", g="n_g")
def leaf_preload(C: Any, E: Any, b: Any, t: Any, L: Any, f: Any, g: Any) -> Any:
    """Pull that draws the leaves together against a nip C."""
    return C * E * b * t**3 / (L**3 * (3 / g + 2 / f))


@relation("f", STATICS, k="k", m="m")
def bounce(k: Any, m: Any) -> Any:
    """Frequency of a mass on springs, Hz; k in N/m of all springs, m in kg."""
    return sqrt(k / m) / pi / 2


@relation("h", GEOMETRY, X="X", N="N")
def cross_level(X: Any, N: Any) -> Any:
    """Change of cross level of a track twisted 1 in N over a length X."""
    return X / N


@relation(r"\tan\alpha", GEOMETRY, u="u", f="f", s="s")
def axle_tilt(u: Any, f: Any, s: Any) -> Any:
    """Slope of an axle, one box up by u and the other down by f, their middles s apart."""
    return (u + f) / s


@relation("e", GEOMETRY, H="H", alpha=r"\alpha")
def flange_relief(H: Any, alpha: Any) -> Any:
    """How far the flange of a box of height H swings at its top and bottom; alpha in radians."""
    return H / 2 * tan(alpha)


@relation("a", GEOMETRY, c="c", s="s")
def askew(c: Any, s: Any) -> Any:
    """Slope in plan of an axle whose boxes, s apart, have the clearance c in their horns."""
    return c / s
