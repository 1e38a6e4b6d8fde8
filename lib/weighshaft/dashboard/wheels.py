"""What the wheels' chapter needs of its own: a side play for each coupled axle, or one for all."""

from __future__ import annotations

from typing import Any

from ..design.document import Design

WHEELBASE = "wheels.wheelbase"
SIDE_PLAY = "wheels.across.side_play"
SEAT = "wheels.seat"


def together(design: Design, path: str, several: tuple[Any, ...]) -> dict[str, Any]:
    """Return what has to change with a list: another axle brings its side play, or takes it.

    Parameters
    ----------
    design : the design as it stands.
    path : of the list that grows or shrinks.
    several : what it becomes.
    """
    changes: dict[str, Any] = {path: several}
    play = design.wheels.across.side_play
    if path == WHEELBASE and len(play) > 1:
        axles = len(several) + 1
        changes[SIDE_PLAY] = (*play[:axles], *(play[-1:] * (axles - len(play))))
    return changes


def usual_seat(design: Design, kind: str) -> dict[str, float]:
    """Return sizes to begin with for a wheel seat of a kind, from the axle (common practice).

    A square key has a quarter of the axle's diameter; a pressed wheel a thousandth of it for
    interference, and a boss of 1.6 times.
    """
    bore, length = design.wheels.seat_bore, float(design.wheels.seat.length)
    key = round(bore / 4, 1)
    return {
        "keyed": {"key_width": key, "key_height": key, "key_length": length},
        "pressed": {"interference": round(bore / 1000, 3), "hub_diameter": round(1.6 * bore, 1)},
    }.get(kind, {})
