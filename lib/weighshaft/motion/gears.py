"""The gears that a design may hold; a new gear is one file and its entry here."""

from __future__ import annotations

from .allan import Allan
from .baker import Baker
from .change_over import ChangeOver
from .gooch import Gooch
from .hackworth import Hackworth
from .joy import Joy
from .oscillating import Oscillating
from .slip_eccentric import SlipEccentric
from .stephenson import Stephenson
from .walschaerts import Walschaerts

AnyGear = (
    SlipEccentric | Stephenson | Walschaerts | Gooch | Allan | Joy | Hackworth | Baker
    | ChangeOver | Oscillating
)  # fmt: skip

GEARS: dict[str, type[AnyGear]] = {
    gear.kind: gear
    for gear in (
        SlipEccentric, Stephenson, Walschaerts, Gooch, Allan, Joy, Hackworth, Baker,
        ChangeOver, Oscillating,
    )
}  # fmt: skip

LAPLESS = (ChangeOver, Oscillating)
"""Gears whose cut-off cannot be chosen: steam follows the piston for nearly the whole stroke."""
