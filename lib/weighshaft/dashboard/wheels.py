"""What the wheels' chapter needs of its own: a side play for each coupled axle, or one for all."""

from __future__ import annotations

from typing import Any

from ..design.document import Design

WHEELBASE = "wheels.wheelbase"
SIDE_PLAY = "wheels.across.side_play"


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
