"""What the springs do to the events."""

from __future__ import annotations

from ..axlebox import Axlebox, AxleboxResult
from . import motion_axlebox
from .scene import Picture


def pictures(axlebox: Axlebox, result: AxleboxResult) -> tuple[Picture, ...]:
    """Return cut-off over the rise, the events at each, and their changes for a millimetre."""
    return motion_axlebox.pictures(result)
