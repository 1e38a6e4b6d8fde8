"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ..working import relation, sqrt, tan

GRAVITY = 9.80665
"""m/s2."""
GEOMETRY = "geometry"
STATICS = "statics"
VERSINE = "the versine rule, common practice"


@relation("v", VERSINE, n="n", B="B", R="R")
def end_throw(n: Any, B: Any, R: Any) -> Any:
    """How far a point n beyond the wheelbase B stands outside the curve."""
    return n * (n + B) / (2 * R)


@relation("v", VERSINE, m="m", B="B", R="R")
def middle_throw(m: Any, B: Any, R: Any) -> Any:
    """How far a point m within the wheelbase B stands inside the curve; B^2 / 8R amid it."""
    return m * (B - m) / (2 * R)


@relation("l", "geometry: the pivot's tangent to the circle through the fixed axles", D="D", a="a")
def radial_arm(D: Any, a: Any) -> Any:
    """Radius arm with which the truck's axle points to the centre of every curve.

    The axle is radial where the arm is tangent to the track at it.  From a pivot p ahead of
    amid the fixed axles, which stand a each way, the tangent's square is p^2 - a^2 whatever
    the radius; with p = D - l, D from there to the truck's axle, that is l^2.
    """
    return (D**2 - a**2) / (2 * D)


@relation("F", STATICS, F_0="F_0", c="c", y="y")
def spring_push(F_0: Any, c: Any, y: Any) -> Any:
    """Push back of side-control springs."""
    return F_0 + c * y


@relation("F", STATICS, W="W", y="y", l="l")
def link_push(W: Any, y: Any, l: Any) -> Any:  # noqa: E741
    """Push back of a load that hangs by upright swing links."""
    return W * y / sqrt(l**2 - y**2)


@relation("F", STATICS, W="W", beta=r"\beta")
def plane_push(W: Any, beta: Any) -> Any:
    """Push back of a load that climbs inclined planes, friction left out; beta in radians."""
    return W * tan(beta)


@relation(r"\left(\frac{Y}{Q}\right)_{max}", "Nadal's limit, from memory", beta=r"\beta", mu=r"\mu")
def climbing(beta: Any, mu: Any) -> Any:
    """Side push over load of a wheel at which its flange climbs; beta from the level, radians."""
    return (tan(beta) - mu) / (1 + mu * tan(beta))


@relation("C", STATICS, G="G", V="V", R="R")
def balanced_cant(G: Any, V: Any, R: Any) -> Any:
    """Cant in mm at which both rails bear alike; G and R in mm, V in km/h."""
    return G * (V / 3.6) ** 2 * 1000 / (GRAVITY * R)


@relation("V", STATICS, G="G", h="h", C="C", R="R")
def overturning(G: Any, h: Any, C: Any, R: Any) -> Any:
    """Speed in km/h at which the engine turns over its outer rail.

    The resultant then points from the centre of gravity, h over the rail, to that rail; G, h,
    C and R in mm.
    """
    outwards = (G / (2 * h) + C / sqrt(G**2 - C**2)) / (1 - G / (2 * h) * C / sqrt(G**2 - C**2))
    return 3.6 * sqrt(GRAVITY * R / 1000 * outwards)


@relation("R", "geometry, small angles; the crossing as 1 in N", G="G", N="N")
def turnout_radius(G: Any, N: Any) -> Any:
    """Radius of a turnout that curves throughout, from the straight to the crossing's nose."""
    return 2 * G * N**2


@relation("R", "0.8 of a curve throughout, after the turnouts of TI 850-02", G="G", N="N")
def straight_turnout_radius(G: Any, N: Any) -> Any:
    """Radius between straight points and a straight crossing."""
    return 1.6 * G * N**2
