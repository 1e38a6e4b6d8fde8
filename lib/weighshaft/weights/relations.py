"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ..working import atan, relation

STATICS = "statics"


@relation("m", "definition of density; 10^9 mm3 in a m3", rho=r"\rho")
def mass_of(rho: Any, V: Any) -> Any:
    """Mass, kg, of a volume V, mm3, at rho kg/m3."""
    return rho * V / 1_000_000_000


@relation("x_G", "centre of gravity: sum of the moments over the weight", moment=r"\Sigma m x",
          mass=r"\Sigma m")  # fmt: skip
def centre(moment: Any, mass: Any) -> Any:
    """Place of the centre of gravity, mm, from the sum of mass times place, kg mm."""
    return moment / mass


@relation("P", f"{STATICS}: moments about the other support", W="W", c="x_G", a="x_1", b="x_2")
def by_moments(W: Any, c: Any, a: Any, b: Any) -> Any:
    """Load on the support at a of a weight W with its centre at c that also rests at b."""
    return W * (c - b) / (a - b)


@relation("P", "rigid frame on springs: sinks by s and turns by t", K="K", s="s", t="t", x="x")
def on_springs(K: Any, s: Any, t: Any, x: Any) -> Any:
    """Load on springs of stiffness K at x where the frame has sunk by s + t x."""
    return K * (s + t * x)


@relation("x_G'", f"{STATICS}: a pull at a height turns the engine back", c="x_G", F="F", h="h",
          W="W", g="g")  # fmt: skip
def centre_pulling(c: Any, F: Any, h: Any, W: Any, g: Any) -> Any:
    """Place at which the weight W, kg, seems to stand while F, N, pulls back at h, mm."""
    return c - F * h / (W * g)


@relation(r"\alpha", f"{STATICS}: the centre of gravity over one rail", G="G", h="h")
def tilt(G: Any, h: Any) -> Any:
    """Angle, radians, at which an engine on gauge G falls over, its centre h over the rail."""
    return atan(G / (2 * h))


@relation("m_b", f"{STATICS}: moments about where the centre is wanted", W="W", wanted="x_w",
          c="x_G", place="x_b")  # fmt: skip
def ballast_for(W: Any, wanted: Any, c: Any, place: Any) -> Any:
    """Ballast, kg, at `place` that brings the centre of a weight W from c to `wanted`."""
    return W * (wanted - c) / (place - wanted)
