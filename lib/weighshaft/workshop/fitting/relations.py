"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ...working import pi, relation, sqrt

GEOMETRY = "geometry"
BOOKS = "R. S. Khurmi and J. K. Gupta, A Textbook of Machine Design, 32.9"
RING = (
    "a curved beam under even pressure; 7.07 and 0.424 in handbooks (from memory), derived in "
    "the tests"
)


@relation(
    r"\delta",
    "free expansion of both parts",
    d="d",
    a_o=r"\alpha_o",
    a_i=r"\alpha_i",
    rise=r"\Delta T",
)
def gap_gained(d: Any, a_o: Any, a_i: Any, rise: Any) -> Any:
    """How much more gap (mm on the diameter) there is hot; negative where it closes."""
    return d * (a_o - a_i) * rise


@relation("D", GEOMETRY, d="d", gap="g", gained=r"\delta")
def bore_for(d: Any, gap: Any, gained: Any) -> Any:
    """Bore (mm) that leaves a gap on each side when hot."""
    return d + 2 * gap - gained


@relation(
    "V",
    "ring between two cylinders, a quarter more for the fillets (common practice)",
    d="d",
    gap="g",
    length="L",
)
def solder_needed(d: Any, gap: Any, length: Any) -> Any:
    """Solder (mm3) to fill a joint."""
    return 1.25 * pi * (d + gap) * gap * length


@relation("l", GEOMETRY, volume="V", wire="w")
def wire_needed(volume: Any, wire: Any) -> Any:
    """Length of wire (mm) that makes a volume."""
    return 4 * volume / (pi * wire**2)


@relation("s", "volume kept: a ring stretched gets thinner", w="w", stretch="e")
def stretched_section(w: Any, stretch: Any) -> Any:
    """Section (mm) of a ring stretched by a share e."""
    return w / sqrt(1 + stretch)


@relation("q", "per cent of the section", section="s", depth="h")
def squeeze(section: Any, depth: Any) -> Any:
    """Squeeze (%) of a ring of a section in a groove of a depth."""
    return 100 * (section - depth) / section


@relation("f", "section of the ring over section of the groove", section="s", depth="h", width="b")
def fill(section: Any, depth: Any, width: Any) -> Any:
    """Share (%) of the groove that the ring fills."""
    return 100 * pi / 4 * section**2 / (depth * width)


@relation(
    "L", "middle of the packing, K. Mobley, Root Cause Failure Analysis, p. 226", rod="d", yarn="s"
)
def packing_length(rod: Any, yarn: Any) -> Any:
    """Length (mm) of a ring of packing, cut square, round a rod."""
    return pi * (rod + yarn)


@relation("t", BOOKS, bore="D", p="p_w", stress=r"\sigma")
def ring_depth(bore: Any, p: Any, stress: Any) -> Any:
    """Radial depth (mm) of a ring that presses with p and is bent to a stress when closed."""
    return bore * sqrt(3 * p / stress)


@relation("g", RING, bore="D", t="t", p="p_w", E="E")
def free_gap(bore: Any, t: Any, p: Any, E: Any) -> Any:
    """Gap (mm) of the free ring that gives an even pressure when it is closed."""
    return 9 * pi / 4 * p * bore * (bore / t - 1) ** 3 / E


@relation("p_w", RING, bore="D", t="t", gap="g", E="E")
def ring_pressure(bore: Any, t: Any, gap: Any, E: Any) -> Any:
    """Pressure (N/mm2) on the bore of a ring with a free gap."""
    return 4 * E * gap / (9 * pi * bore * (bore / t - 1) ** 3)


@relation(r"\sigma", RING, bore="D", t="t", p="p_w")
def closed_stress(bore: Any, t: Any, p: Any) -> Any:
    """Bending (N/mm2) opposite the gap of a ring closed in its bore."""
    return 3 * p * (bore / t) * (bore / t - 1)


@relation(r"\sigma_o", RING + "; opened to 8 t (from memory)", bore="D", t="t", gap="g", E="E")
def opening_stress(bore: Any, t: Any, gap: Any, E: Any) -> Any:
    """Bending (N/mm2) of a ring spread over the piston, its gap then about 8 t."""
    return 4 * E * t * (8 * t - gap) / (3 * pi * (bore - t) ** 2)


@relation("A", "areas of round bores", squares=r"\Sigma b^2", supply="B")
def area_share(squares: Any, supply: Any) -> Any:
    """Bores of all branches over that of the supply, as areas."""
    return squares / supply**2
