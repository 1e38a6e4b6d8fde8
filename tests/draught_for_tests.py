"""Front ends and work for the tests of blast and draught."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tests.nozzle_for_tests import BOX, ENGINE, GOOD
from weighshaft.draught import Draughting, DraughtResult, FrontEnd, work
from weighshaft.nozzle import Nozzle
from weighshaft.nozzle import work as work_nozzle

COAL = GOOD
SETTLED = replace(BOX, choke=23.0)
SPIRIT = Nozzle(diameter=2.4, firing="spirit", smokebox=BOX)
GAS = Nozzle(diameter=12.0, firing="gas", smokebox=SETTLED)


def worked(
    nozzle: Nozzle = COAL, draughting: Draughting | None = None, **changes: Any
) -> DraughtResult:
    """Return the chapter worked for the engine that the tests of the nozzle have."""
    chosen = Draughting() if draughting is None else draughting
    blast = work_nozzle(nozzle, **ENGINE, ejector=FrontEnd(chosen, nozzle))
    assert blast.layout is not None
    given: dict[str, Any] = {
        "nozzle": nozzle, "layout": blast.layout, "steam": blast.steam_flow / 1000,
        "steam_full": blast.flow_per_speed[1] * blast.speed, "pressure": 5.5,
        "beats": 4 * blast.revolutions / 60, "drill_sets": ENGINE["drill_sets"],
        "beside": blast.beside,
    }  # fmt: skip
    return work(chosen, **given | changes)
