"""The relations of the chapter that are shown as working, each written once."""

# ruff: noqa: N803  (symbols as the books write them)

from __future__ import annotations

from typing import Any

from ..working import pi, relation, sqrt

BOURNE = "J. Bourne, A Catechism of the Steam Engine"
MOLESWORTH = "Molesworth, Pocketbook of Useful Formulae, p. 219"
ROLLING_FULL, WHEEL_FULL = 0.001, 914.4
"""Rolling part of the resistance over weight (Bourne, question 493; Molesworth, p. 219), and the
wheel of 3 ft on which carriages of that day ran (from memory), mm."""
AIR = 1.2
"""Density of the air, kg/m3."""


@relation(
    "r_r", f"{BOURNE}, question 493: 1/1000; with the root of the wheel after ASME J. of "
    "Lubrication Technology 91, p. 264 (cast-iron wheels of 8 to 24 in); smaller is beyond it",
    D="D",
)  # fmt: skip
def rolling(D: Any) -> Any:
    """Rolling resistance of wheel on rail over weight, for a wheel of D mm."""
    return ROLLING_FULL * sqrt(WHEEL_FULL / D)


@relation("r_j", f"{MOLESWORTH}: F W d/D; moments about the axle", mu=r"\mu", d="d", D="D")
def journal(mu: Any, d: Any, D: Any) -> Any:
    """Friction of the journals over weight: at the rim it counts as journal over wheel."""
    return mu * d / D


@relation(
    "r_c", f"{MOLESWORTH} (Morrison, Trans. Inst. Civ. Eng. xxxi); the 2 from memory",
    mu=r"\mu", G="G", B="B", R="R",
)  # fmt: skip
def curve(mu: Any, G: Any, B: Any, R: Any) -> Any:
    """Curve resistance over weight: wheels slide along and across the rail.

    Gauge G: the outer rail is longer by G/R of the way, which the wheels of one axle make up by
    sliding half of it each.  Parallel axles B apart are dragged round by B/R in the same way.
    """
    return mu * (G + B) / (2 * R)


@relation("F_a", "drag of a body in still air; density 1.2 kg/m3", A="c_wA", v="v")
def air(A: Any, v: Any) -> Any:
    """Drag of the air, N, on an area times coefficient, m2, at v m/s."""
    return AIR / 2 * A * v**2


@relation(
    "F_m", "a pressure on the pistons, brought to the rim: work of a turn over the wheel's round",
    p="p", A="A", s="s", D="D",
)  # fmt: skip
def machine(p: Any, A: Any, s: Any, D: Any) -> Any:
    """Force at the rim, N, of a mean pressure p bar on areas A mm2 (each face once), stroke s mm.

    The 10 turns bar into N/mm2.
    """
    return p / 10 * A * s / (pi * D)


@relation("F_g", "definition", mu=r"\mu", m="m", g="g")
def grip(mu: Any, m: Any, g: Any) -> Any:
    """What the rail holds, N."""
    return mu * m * g


@relation(r"\dot m", "heat over what a kilogram of steam takes from the feed on",
          Q="Q", U="Q_l", h="h_s", w="h_f")  # fmt: skip
def evaporation(Q: Any, U: Any, h: Any, w: Any) -> Any:
    """Steam made lastingly, kg/s; heat and losses in W, heat contents in kJ/kg."""
    return (Q - U) / (1000 * (h - w))


def clark(speed: float) -> float:
    """Return the resistance of a full-size train on the level, lb a long ton, at a speed in mph.

    Source: Bourne, question 499 (D. K. Clark): V²/171 + 8.
    """
    return speed**2 / 171 + 8


def full_size_curve(radius: float, gauge: float) -> dict[str, float]:
    """Return full-size rules for the curve resistance over weight, taken at scale.

    Parameters
    ----------
    radius, gauge : of the model's track, mm.

    Source: article "Curve resistance" (owiki.org copy), with radii in m on 1435 mm (USSR 1524):
    700/R USSR, 446/R USA, 800/R Italy, 600/R England, 573/R China, in N/kN.
    """
    metres = radius / 1000 * 1435 / gauge
    rules = {"USSR": 700, "USA": 446, "Italy": 800, "England": 600, "China": 573}
    return {name: number / metres / 1000 for name, number in rules.items()}
