"""The gears that a design may hold; a new gear is one file and its entry here."""

from __future__ import annotations

from .allan import Allan
from .baker import Baker
from .gooch import Gooch
from .hackworth import Hackworth
from .joy import Joy
from .slip_eccentric import SlipEccentric
from .stephenson import Stephenson
from .walschaerts import Walschaerts

AnyGear = SlipEccentric | Stephenson | Walschaerts | Gooch | Allan | Joy | Hackworth | Baker

GEARS: dict[str, type[AnyGear]] = {
    gear.kind: gear
    for gear in (SlipEccentric, Stephenson, Walschaerts, Gooch, Allan, Joy, Hackworth, Baker)
}
