"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ...working import cos, relation, sin, sqrt

GEOMETRY = "geometry"


@relation("c", GEOMETRY, R="R", phi=r"\varphi")
def chord(R: Any, phi: Any) -> Any:
    """Chord of an arc that reaches phi (rad) to each side of its middle."""
    return 2 * R * sin(phi)


@relation("s", "geometry; tables of sagittas are made with it", R="R", c="c")
def sagitta(R: Any, c: Any) -> Any:
    """How far an arc stands off its chord in the middle."""
    return R - sqrt(R**2 - c**2 / 4)


@relation("y", GEOMETRY, R="R", x="x", s="s")
def ordinate(R: Any, x: Any, s: Any) -> Any:
    """Height of the arc over its chord at x from the middle, s being the sagitta."""
    return sqrt(R**2 - x**2) - (R - s)


@relation("h_o", GEOMETRY, rho=r"\rho", r="r", t="t")
def outer_cusp(rho: Any, r: Any, t: Any) -> Any:
    """Ridge on the outer flank: cutters of radius r at t apart on an arc of radius rho.

    The flank has the radius rho + r; midway between two places the edges of both cuts meet
    at sqrt(rho^2 - t^2/4) + sqrt(r^2 - t^2/4) from the arc's centre.
    """
    return rho + r - (sqrt(rho**2 - t**2 / 4) + sqrt(r**2 - t**2 / 4))


@relation("h_i", GEOMETRY, rho=r"\rho", r="r", t="t")
def inner_cusp(rho: Any, r: Any, t: Any) -> Any:
    """Ridge on the inner flank, of radius rho - r; see `outer_cusp`."""
    return sqrt(rho**2 - t**2 / 4) - sqrt(r**2 - t**2 / 4) - (rho - r)


@relation("p", GEOMETRY, a="a", n="n")
def pitch(a: Any, n: Any) -> Any:
    """Pitch along the arc of n holes over the length a, the end holes among them."""
    return a / (n - 1)


@relation("h", GEOMETRY, w="w", D="D", R="R", beta=r"\beta")
def ridge_left(w: Any, D: Any, R: Any, beta: Any) -> Any:
    """Metal left in the inner flank midway between two drilled holes beta (rad) apart.

    Both holes meet at R cos(beta/2) - sqrt(D^2/4 - R^2 sin^2(beta/2)) from the arc's centre.
    """
    return R * cos(beta / 2) - sqrt(D**2 / 4 - (R * sin(beta / 2)) ** 2) - (R - w / 2)
