"""The chapter worked: throws, straps, stops, cranks and the jig."""

from __future__ import annotations

from typing import Any

from ...findings import Suggestion, by_level, still_open, unlocked
from ...working import Working
from ..machines import Machines
from .chucking import chucked, strapped
from .cranks import built_up, jigged, stopped
from .decisions import Eccentrics
from .engine import EXAMPLE, Engine
from .judgement import CAUTIONS, judge
from .results import EccentricsResult


def work(
    eccentrics: Eccentrics,
    *,
    machines: Machines,
    engine: Engine = EXAMPLE,
    fixed: frozenset[str] = frozenset(),
) -> EccentricsResult:
    """Work the chapter.

    Parameters
    ----------
    machines : has no say here: chuck, surface plate and dial gauge serve.
    engine : what the engine tells; the default is an example.

    Raises
    ------
    SizeError : when a set-up cannot be made.
    """
    figures: dict[str, Any] = {}
    workings: list[Working] = []
    taken: list[Suggestion] = []
    for part in (
        chucked(eccentrics.chucking, engine), strapped(eccentrics.strap, engine),
        stopped(eccentrics.stop, engine), built_up(eccentrics.crank, engine),
        jigged(eccentrics.jig, engine),
    ):  # fmt: skip
        figures |= part[0]
        workings += part[1]
        taken += part[2]
    result = EccentricsResult(
        **figures, cautions=CAUTIONS, workings=tuple(workings),
        suggestions=still_open(taken, fixed),
    )  # fmt: skip
    found = by_level(unlocked(judge(eccentrics, result), fixed))
    return EccentricsResult(**{**vars(result), "findings": found})
