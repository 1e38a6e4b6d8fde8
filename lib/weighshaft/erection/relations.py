"""What erection rests on, written once."""

from __future__ import annotations

from typing import Any

from ..working import pi, relation, sin


@relation("a", "geometry: a chord of the pitch circle")
def screw_pitch(c: Any, n: Any) -> Any:
    """From one screw of a cover straight to the next.

    Parameters
    ----------
    c : pitch circle, mm.
    n : number of screws.
    """
    return c * sin(pi / n)


@relation("L", "geometry", l="l_r", t="t", g="g")
def drawn(l: Any, t: Any, g: Any) -> Any:  # noqa: E741
    """How far piston and rod are drawn before the rod's end is out of the cylinder.

    Parameters
    ----------
    l : piston rod, mm.
    t : piston, mm.
    g : from the piston's front to the cylinder's front with its cover off, mm.
    """
    return l + t + g
