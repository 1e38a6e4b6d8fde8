"""The gears that a design may hold; a new gear is one file and its entry here."""

from __future__ import annotations

from .baker import Baker
from .hackworth import Hackworth
from .slip_eccentric import SlipEccentric
from .stephenson import Stephenson
from .walschaerts import Walschaerts

AnyGear = SlipEccentric | Stephenson | Walschaerts | Baker | Hackworth

GEARS: dict[str, type[AnyGear]] = {
    gear.kind: gear for gear in (SlipEccentric, Stephenson, Walschaerts, Baker, Hackworth)
}
