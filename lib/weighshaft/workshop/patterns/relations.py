"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ...working import asin, atan, pi, relation, sin, sqrt, tan

GEOMETRY = "geometry"


@relation("c", "geometry; tables of bolt circles are made with it", D="D", n="n")
def chord(D: Any, n: Any) -> Any:
    """Straight distance between neighbours of n holes on a circle of diameter D."""
    return D * sin(pi / n)


@relation(r"\theta", GEOMETRY, h="h", a="a")
def tilt(h: Any, a: Any) -> Any:
    """Angle of the passage with the bore, degrees: it rises by h over the length a."""
    return atan(h / a) * 180 / pi


@relation("l", GEOMETRY, h="h", a="a")
def slant_length(h: Any, a: Any) -> Any:
    """Length of the passage along its axis."""
    return sqrt(h**2 + a**2)


@relation("q", "geometry, a point of 118 degrees", d="d")
def point_length(d: Any) -> Any:
    """Length of the drill's point."""
    return d / 2 / tan(59 * pi / 180)


@relation(r"\alpha", "geometry; half of the included angle", D="D", d="d", l="l")
def half_angle(D: Any, d: Any, l: Any) -> Any:  # noqa: E741
    """Angle of the top slide with the lathe's axis, degrees."""
    return atan((D - d) / (2 * l)) * 180 / pi


@relation("S", "geometry: the work lies along the slope of the taper", L="L", alpha=r"\alpha")
def set_over(L: Any, alpha: Any) -> Any:
    """Set-over of the tailstock for work of the length L between its centres (alpha in rad)."""
    return L * sin(alpha)


@relation("S'", "the usual rule of the books", L="L", D="D", d="d", l="l")
def set_over_usual(L: Any, D: Any, d: Any, l: Any) -> Any:  # noqa: E741
    """The usual rule, which takes the tangent for the sine."""
    return L * (D - d) / (2 * l)


@relation("f", GEOMETRY, w="w", alpha=r"\alpha")
def tread_fall(w: Any, alpha: Any) -> Any:
    """How much less the tread's diameter is at its outer edge (alpha in rad)."""
    return 2 * w * tan(alpha)


@relation("x", GEOMETRY, R="R", z="z")
def ball_radius(R: Any, z: Any) -> Any:
    """Radius of a ball at the distance z from its end."""
    return sqrt(2 * R * z - z**2)


@relation("z", GEOMETRY, R="R", s="s")
def ball_end(R: Any, s: Any) -> Any:
    """Distance from the ball's end to where it meets a stem of diameter s behind it."""
    return R + sqrt(R**2 - s**2 / 4)


@relation("A", GEOMETRY, w="w", L="L", d="d")
def port_area(w: Any, L: Any, d: Any) -> Any:
    """Area of a port w by L whose corners a cutter of diameter d has left round."""
    return w * L - (1 - pi / 4) * d**2


@relation("u", GEOMETRY, D="D", z="z")
def bore_edge(D: Any, z: Any) -> Any:
    """Height of the bore's edge above its axis at z to the side."""
    return sqrt(D**2 / 4 - z**2)


@relation(r"\varphi", GEOMETRY, z="z", D="D")
def roll(z: Any, D: Any) -> Any:
    """Angle round the bore at which a hole z to the side begins, degrees."""
    return asin(2 * z / D) * 180 / pi
