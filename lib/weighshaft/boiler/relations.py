"""What the boiler's room rests on, written once."""

from __future__ import annotations

from typing import Any

from ..working import relation

GROWTH = "linear expansion, elementary physics"


@relation(r"\Delta l", GROWTH, alpha=r"\alpha", hot=r"\theta", cold=r"\theta_0")
def growth(alpha: Any, l: Any, hot: Any, cold: Any) -> Any:  # noqa: E741
    """Growth of a length between two temperatures.

    Parameters
    ----------
    alpha : linear expansion, per degree.
    l : length, mm.
    hot, cold : degC.
    """
    return alpha * l * (hot - cold)


@relation("s", GROWTH, boiler=r"\Delta l_b", smokebox=r"\Delta l_s", frames=r"\Delta l_f")
def slide_needed(boiler: Any, smokebox: Any, frames: Any) -> Any:
    """How far the free end slides on the frames: what the boiler grows by more than they, mm."""
    return boiler + smokebox - frames


@relation("g", "geometry", a="a", b="b", w=r"\Delta b")
def side_gap(a: Any, b: Any, w: Any) -> Any:
    """Gap each side of the firebox between the plates, hot.

    Parameters
    ----------
    a : between the frame plates, mm.
    b : firebox outside, cold, mm.
    w : its growth in width, mm.
    """
    return (a - b - w) / 2


@relation("h", "49 CFR 230.51, 3 in over the crown at full size; from memory", n="n")
def least_water(n: Any) -> Any:
    """Least water over the firebox crown at full size's rule, at scale, mm."""
    return 76.2 / n
