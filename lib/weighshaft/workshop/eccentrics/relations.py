"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ...working import asin, cos, pi, relation, sin, sqrt

GEOMETRY = "geometry"
BUILDERS = "geometry, as published for builders by R. Thibault (IBLS)"
ISO_286 = "ISO 286-1, annex: the standard's own formulas"


@relation("P", BUILDERS, R="R", e="e")
def packing_narrow(R: Any, e: Any) -> Any:
    """Packing under one of three jaws that touch the bar along a line.

    With the bar's centre e beside the lathe's, the packed jaw stands R - e + P from the lathe's
    centre, the other two e/2 + sqrt(R^2 - 3e^2/4); all three stand alike.
    """
    return 3 * e / 2 + sqrt(R**2 - 3 * e**2 / 4) - R


@relation("P", "geometry", e="e")
def packing_flat(e: Any) -> Any:
    """Packing under one of three jaws so wide that the bar always lies on their flat faces.

    A flat face feels only how far the bar's centre is along the jaw: e/2 for the other two.
    """
    return 3 * e / 2


@relation("P", "geometry", R="R", e="e", b="b")
def packing_jaw(R: Any, e: Any, b: Any) -> Any:
    """Packing where the bar has run off the faces of width b and lies on their corners.

    The bar's centre stands e sin(60 degrees) beside the jaw's middle; b/2 of that the face makes
    up for.  Holds while that is more than b/2.
    """
    return 3 * e / 2 + sqrt(R**2 - (sqrt(3) * e / 2 - b / 2) ** 2) - R


@relation("P", "rule of thumb, as published for builders", e="e", D="D")
def packing_thumb(e: Any, D: Any) -> Any:
    """One and a half throws, less a correction that is not the one of either kind of jaw."""
    return 3 * e / 2 * (1 - e / (8 * D))


@relation("e", GEOMETRY, R="R", P="P")
def throw_narrow(R: Any, P: Any) -> Any:
    """Throw that a packing P gives in narrow jaws: `packing_narrow` solved for e."""
    return ((P + R) - sqrt((P + R) ** 2 - 4 * ((P + R) ** 2 - R**2) / 3)) / 2


@relation("T", "geometry: once round, the bar goes out by the throw and in by the throw", e="e")
def dial_swing(e: Any) -> Any:
    """What a dial gauge on the bar shows between its highest and its lowest."""
    return 2 * e


@relation("s", GEOMETRY, alpha=r"\alpha_f", beta=r"\alpha_b")
def slip(alpha: Any, beta: Any) -> Any:
    """How far a loose sheave lags behind when the engine is reversed, degrees.

    It leads the crank by 90 + alpha one way and by 90 + beta the other: together they leave
    this much of the turn.
    """
    return 180 - alpha - beta


@relation(r"\delta", GEOMETRY, d="d", rho=r"\rho")
def pin_takes(d: Any, rho: Any) -> Any:
    """Angle that a pin of diameter d at the radius rho takes between radial faces, degrees."""
    return 2 * asin(d / (2 * rho)) * 180 / pi


@relation("A", GEOMETRY, s="s", delta=r"\delta")
def opening(s: Any, delta: Any) -> Any:
    """Gap of the dog from face to face, degrees: the slip and what the pin takes."""
    return s + delta


@relation("i", ISO_286, D="D")
def tolerance_unit(D: Any) -> Any:
    """Standard tolerance factor, 0.001 mm, for a size D in mm; IT7 is 16 and IT8 25 of it."""
    return 0.45 * D ** (1 / 3) + 0.001 * D


@relation("f", ISO_286, D="D")
def running_allowance(D: Any) -> Any:
    """Fundamental deviation f of a shaft that runs, 0.001 mm, for a size D in mm."""
    return 5.5 * D**0.41


@relation("M", GEOMETRY, r="r", d="d", p="p")
def over_pins(r: Any, d: Any, p: Any) -> Any:
    """Over axle and pin with a micrometer: the throw and both radii."""
    return r + (d + p) / 2


@relation("w", GEOMETRY, r="r", d="d", p="p")
def metal_between(r: Any, d: Any, p: Any) -> Any:
    """Metal of a web between the holes for axle and pin."""
    return r - (d + p) / 2


@relation("h", GEOMETRY, H="H", r="r", gamma=r"\gamma", p="p")
def block(H: Any, r: Any, gamma: Any, p: Any) -> Any:
    """Height of both blocks: the pins rest on them gamma/2 (rad) from straight down each."""
    return H - r * cos(gamma / 2) - p / 2


@relation("a", GEOMETRY, r="r", gamma=r"\gamma")
def reach(r: Any, gamma: Any) -> Any:
    """How far each pin stands ahead of or behind the axle on the blocks (gamma in rad)."""
    return r * sin(gamma / 2)


@relation("t", GEOMETRY, r="r", gamma=r"\gamma", epsilon=r"\varepsilon")
def block_tolerance(r: Any, gamma: Any, epsilon: Any) -> Any:
    """How far one block may be out for an error epsilon of the angle; angles in rad."""
    return epsilon * r * sin(gamma / 2)
