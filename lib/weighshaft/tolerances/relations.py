"""The relations of the chapter that are shown as working, each written once."""

from __future__ import annotations

from typing import Any

from ..working import relation, sqrt

SPREAD = "law of propagation of uncertainty, JCGM 100 (GUM), 4.3 and 5.1; from memory"


@relation(r"\sigma", SPREAD, limit="t")
def deviation_even(limit: Any) -> Any:
    """Standard deviation of an error that lies evenly between the limits -t and +t."""
    return limit / sqrt(3)


@relation(r"\sigma", SPREAD, limit="t")
def deviation_middle(limit: Any) -> Any:
    """Standard deviation of a normal error whose limit is taken as two of them."""
    return limit / 2


@relation("s", SPREAD, first="s_1", second="s_2", third="s_3", rest="s_r")
def together(first: Any, second: Any, third: Any, rest: Any) -> Any:
    """Standard deviation that independent errors make together: the root of their squares."""
    return sqrt(first**2 + second**2 + third**2 + rest**2)


@relation(
    r"\Delta", "the port shuts where its opening is nothing: implicit differentiation",
    piston="p", opening="e", speed="v", limit="t",
)  # fmt: skip
def event_moved(piston: Any, opening: Any, speed: Any, limit: Any) -> Any:
    """How far an event moves, % of the stroke.

    Parameters
    ----------
    piston : per cent of the stroke for a degree of the crank, at the event.
    opening : mm by which the port is opened for one unit of the dimension.
    speed : mm by which the port opens for a degree of the crank.
    limit : error of the dimension, in its unit.
    """
    return -piston * opening / speed * limit
