"""Relations of the chapter that are shown as working."""

from __future__ import annotations

from typing import Any

from ..working import pi, relation, sqrt


@relation("p_m", "definition: work of a turn over what the pistons sweep",
          front="W_f", back="W_b", front_area="A_f", back_area="A_b", stroke="s")  # fmt: skip
def mean_pressure(
    front: float, back: float, front_area: float, back_area: float, stroke: float
) -> float:
    """Mean effective pressure, bar, from J a turn at both ends, areas in mm2, stroke in mm."""
    return (front + back) * 1e4 / ((front_area + back_area) * stroke)


@relation("P_i", "definition", work="W", number="z", turns="n")
def indicated_power(work: float, number: float, turns: float) -> float:
    """Indicated power, W, from J a turn of one cylinder and turns a second."""
    return work * number * turns


@relation("F", "work of a turn over the way of the rim",
          work="W", number="z", wheel="D", efficiency=r"\eta")  # fmt: skip
def pull_at_rim(work: float, number: float, wheel: float, efficiency: float) -> Any:
    """Mean pull at the rim, N, of a driving wheel of `wheel` mm."""
    return work * number * efficiency / (pi * wheel) * 1000


@relation("m_P", "definition", steam=r"\dot m", power="P_i")
def specific_steam(steam: float, power: float) -> float:
    """Steam, kg for a kWh at the piston, from g/s and W."""
    return 3600 * steam / power


@relation("x_m", "what the diagram does not show of the steam drawn; definition",
          drawn="m", shown="m_1", kept="m_k")  # fmt: skip
def missing(drawn: float, shown: float, kept: float) -> float:
    """Missing quantity, part of the steam drawn, from g a stroke."""
    return 1 - (shown - kept) / drawn


@relation(r"\delta", "penetration of a periodic wave of heat; texts on conduction",
          skin="b", capacity=r"\rho c", turns="n")  # fmt: skip
def skin_depth(skin: float, capacity: float, turns: float) -> Any:
    """Depth of metal that warms and cools with the turns, mm.

    Parameters
    ----------
    skin : root of density, specific heat and conductivity, J/(m2 K sqrt(s)).
    capacity : density times specific heat, J/(m3 K).
    turns : a second.
    """
    return 1000 * skin / capacity / sqrt(2 * pi * turns)


@relation("A", "the falls of pressure add; friction 0.03 of length over bore, Darcy (from memory)",
          bore="d", length="l", discharge="C_d")  # fmt: skip
def way_area(bore: float, length: float, discharge: float) -> Any:
    """Effective opening of regulator and pipe, mm2, from its bore and length in mm."""
    return pi / 4 * bore**2 / sqrt(1 / discharge**2 + 0.03 * length / bore)


@relation("a", "geometry", gap="h", length="l", width="w")
def valve_leak(gap: float, length: float, width: float) -> float:
    """Opening that a gap under the valve leaves round two steam ports, mm2."""
    return gap * 4 * (length + width)
