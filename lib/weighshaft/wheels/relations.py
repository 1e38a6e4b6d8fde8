"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ..working import pi, relation, sin, sqrt, tan

GEOMETRY = "geometry"
STATICS = "statics"


@relation("c", "what the gauge leaves: track gauge less back to back and both flanges")
def gauge_left(G: Any, B: Any, T: Any) -> Any:
    """Play of a wheelset between the rails, both sides together."""
    return G - (B + 2 * T)


@relation("C", "common practice", z_h="z_h", z_p="z_p", s="s")
def pin_clearance(z_h: Any, z_p: Any, s: Any) -> Any:
    """Crosshead's inner face less the crankpin's outer face and the axle's side play."""
    return z_h - (z_p + s)


@relation("D_s", "common practice", d="d", e="e", w="w")
def least_sheave(d: Any, e: Any, w: Any) -> Any:
    """Least sheave: the axle, twice the throw and a wall on both sides."""
    return d + 2 * e + 2 * w


@relation("v", GEOMETRY, a="a", b="b", R="R")
def offset_from_chord(a: Any, b: Any, R: Any) -> Any:
    """How far a curve of radius R stands off the chord a + b where it is divided into a and b."""
    return sqrt(R**2 - ((a - b) / 2) ** 2) - sqrt(R**2 - ((a + b) / 2) ** 2)


@relation("e", GEOMETRY, r="r", alpha=r"\alpha", beta=r"\beta")
def flange_reach(r: Any, alpha: Any, beta: Any) -> Any:
    """Play that a wheel standing askew by alpha uses up, its flange sloping by beta.

    At a distance v ahead of the axle the flange stands v sin(alpha) nearer to the rail, and
    its face, v^2 / 2r lower on the flange, is (v^2 / 2r) tan(beta) thinner; the greatest
    difference is this.  Angles in radians.
    """
    return r * sin(alpha) ** 2 / (2 * tan(beta))


@relation("R", GEOMETRY, B="B", alpha=r"\alpha")
def radius_of_attack(B: Any, alpha: Any) -> Any:
    """Radius at which the end wheels of a wheelbase B stand askew to the rail by alpha (rad)."""
    return B / (2 * sin(alpha))


@relation("H", STATICS, P="P", z_c="z_c", z_j="z_j")
def journal_thrust(P: Any, z_c: Any, z_j: Any) -> Any:
    """Thrust on one journal when pistons outside it push opposite ways at once.

    Taking moments about the far journal, P at z_c one way on this side and the other way on
    the far side give P (z_c + z_j) / 2 z_j + P (z_c - z_j) / 2 z_j.
    """
    return P * z_c / z_j


@relation("p", STATICS, H="H", W="W", d="d", L="L")
def journal_pressure(H: Any, W: Any, d: Any, L: Any) -> Any:
    """Pressure on a journal's projected area under thrust and weight."""
    return sqrt(H**2 + W**2) / (d * L)


@relation("p", STATICS, P="P", d="d", L="L")
def pin_pressure(P: Any, d: Any, L: Any) -> Any:
    """Pressure on a crankpin's projected area."""
    return P / (d * L)


@relation("M", STATICS, P="P", x="x", W="W", y="y")
def bending_moment(P: Any, x: Any, W: Any, y: Any) -> Any:
    """Bending of the axle: piston thrust at the lever x, wheel load at the lever y, squared."""
    return sqrt((P * x) ** 2 + (W * y) ** 2)


@relation("T", STATICS, P="P", r="r", k="k")
def axle_torque(P: Any, r: Any, k: Any) -> Any:
    """Torque of the whole pull, as when the other wheel has lost its grip."""
    return P * r * k


@relation(r"\sigma", STATICS, M="M", d="d")
def bending_stress(M: Any, d: Any) -> Any:
    """Bending stress of a solid round axle."""
    return 32 * M / (pi * d**3)


@relation(r"\tau", STATICS, T="T", d="d")
def twisting_stress(T: Any, d: Any) -> Any:
    """Shear stress of a solid round axle in torsion."""
    return 16 * T / (pi * d**3)


@relation(r"\sigma_v", "distortion energy (von Mises)", s=r"\sigma", t=r"\tau")
def combined_stress(s: Any, t: Any) -> Any:
    """Equivalent stress of bending and twist together."""
    return sqrt(s**2 + 3 * t**2)


@relation("h", GEOMETRY, L="L", v="v")
def lift_stretch(L: Any, v: Any) -> Any:
    """How much further apart two axles stand when one is above the other by v."""
    return sqrt(L**2 + v**2) - L


@relation(
    "c",
    "derived here from the closing of both rods",
    r="r",
    epsilon=r"\varepsilon",
    delta=r"\delta",
)
def bush_clearance(r: Any, epsilon: Any, k: Any, delta: Any) -> Any:
    """Clearance on the diameter of both bushes that the errors of a pair of rods call for.

    One rod keeps the free axle within c of its place at sin(theta), the other at
    sin(theta + gamma); a place that suits both exists at every angle only if
    c (|s| + |s'|) >= r eps |s s'| + delta (|s| + |s'|), greatest where |s| = |s'|: there
    |s s'| / (|s| + |s'|) = k, which is max(cos, sin)(gamma / 2) / 2.  eps in radians, delta the
    error of rod against axle centres with its worst sign.
    """
    return r * epsilon * k + delta
