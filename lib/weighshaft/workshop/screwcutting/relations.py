"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ...working import atan, cos, pi, relation, sin, sqrt, tan

GEOMETRY = "geometry"


@relation("p", "drivers over driven; every handbook of the lathe", P="P_l", drivers="A", driven="D")
def pitch_cut(P: Any, k: Any, drivers: Any, driven: Any) -> Any:
    """Pitch (mm) that a train cuts: leadscrew P, k turns of the first wheel a turn of the spindle.

    drivers and driven are the products of their teeth.
    """
    return P * k * drivers / driven


@relation("l", "F. D. Jones, Turning and Boring, cutting multiple threads", starts="i", p="p")
def lead(starts: Any, p: Any) -> Any:
    """Lead (mm) of a thread of several starts: what it goes on in a turn."""
    return starts * p


@relation(r"\lambda", GEOMETRY, l="l", d="d_2")
def helix(l: Any, d: Any) -> Any:  # noqa: E741  (the lead as the books write it)
    """Helix (radians) of a lead l at the effective diameter d."""
    return atan(l / (pi * d))


@relation("x", "worm, wheel and train; the rule of indexing tables", ratio="N", n="n", f="f")
def plate_turns(ratio: Any, n: Any, f: Any) -> Any:
    """Turns of the plate for one of the work, the handle moved by f turns against the plate.

    A division turns the worm by N / n: f of it by the handle, x / n by the plate.
    """
    return ratio - n * f


@relation(r"\Delta", GEOMETRY, length="L", cut="p", wanted="p_0")
def error_over(length: Any, cut: Any, wanted: Any) -> Any:
    """Error (mm) that the pitch sums up to over a length."""
    return length * (cut / wanted - 1)


@relation(
    r"\Delta d_2", "geometry of the thread; 1.92 times the error at 55° in books of metrology",
    error=r"\Delta", half=r"\tfrac{\alpha}{2}",
)  # fmt: skip
def effective_lost(error: Any, half: Any) -> Any:
    """What an error of pitch costs on the effective diameter (mm); half in radians."""
    return error / tan(half)


@relation("f", GEOMETRY, depth="h", half=r"\beta")
def along_slide(depth: Any, half: Any) -> Any:
    """Travel (mm) of a top slide set over by `half` (radians) for a depth."""
    return depth / cos(half)


@relation("h_s", "geometry of the thread", d="d", e="d_2", p="p", half=r"\tfrac{\alpha}{2}")
def sharp_depth(d: Any, e: Any, p: Any, half: Any) -> Any:
    """Depth (mm) that a sharp tool needs to leave the effective diameter e."""
    return (d - e) / 2 + p / 4 / tan(half)


@relation(
    "h_x", "formula of a maker of threading tools, sandvik.coromant owner's manual, p. 114",
    h="h", n="n", share=r"\varphi_x",
)  # fmt: skip
def depth_after(h: Any, n: Any, share: Any) -> Any:
    """Depth (mm) after a cut of n, share being 0.3 for the first, else its number less one."""
    return h / sqrt(n - 1) * sqrt(share)


@relation("t", "turns of the handle", ratio="N", n="n")
def handle_turns(ratio: Any, n: Any) -> Any:
    """Turns of the handle for a division."""
    return ratio / n


@relation("n", "speed at the edge over circumference", v="v", d="d")
def revolutions(v: Any, d: Any) -> Any:
    """Turns a minute for a speed at the edge of v m/min on a diameter of d mm."""
    return 1000 * v / (pi * d)


@relation("d_a", "gear tables", m="m", z="z")
def blank(m: Any, z: Any) -> Any:
    """Outside diameter (mm) of a gear blank."""
    return m * (z + 2)


@relation("c", "chord of a division", d="d", n="n")
def division_chord(d: Any, n: Any) -> Any:
    """Chord between neighbouring divisions on a circle of diameter d."""
    return d * sin(pi / n)
