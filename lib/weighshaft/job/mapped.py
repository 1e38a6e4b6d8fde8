"""The map of the true cycle as the run takes it."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from .. import running
from ..steam import CycleMap

SOURCE = "the true cycle, marched over the whole map"


@lru_cache(maxsize=4)
def engine_map(made: CycleMap) -> running.EngineMap:
    """Return the map for a run; at no pressure there is neither pull nor steam.

    Its pull is the indicated one, since the run takes the friction of the motion off itself.
    Steam throttled by the regulator is taken as steam of a boiler with so much less pressure,
    the regulator wide open.
    """
    pull, steam = (
        np.concatenate([np.zeros((1, *values.shape[1:])), values])
        for values in (made.pull, np.maximum(made.steam, 0.0))
    )
    return running.EngineMap(
        speeds=made.speeds, reversers=made.notches,
        pressures=np.concatenate([[0.0], made.pressures]), pull=pull, steam=steam,
        source=_told(made),
    )  # fmt: skip


def _told(made: CycleMap) -> str:
    if not made.refused:
        return SOURCE
    return f"{SOURCE}; {made.refused} of {made.conditions} conditions cannot run and pull nothing"
