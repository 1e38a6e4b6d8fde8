"""One chapter worked, with its answer kept and its refusals turned into findings."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Any

from ..design.document import CHAPTERS
from ..findings import Finding
from ..motion import MotionLocks
from ..sizes import SizeError

_KEPT = 16


def worked(faults: list[Finding], chapter: Any, sizes: Any, **given: Any) -> Any:
    """Work one chapter; sizes that contradict one another become a finding, not an end."""
    steps = chapter.__module__.split(".")
    name = steps[2] if steps[1] == "workshop" else steps[1]
    assert name in CHAPTERS
    try:
        return cached(chapter)(sizes, **given)
    except SizeError as refused:
        field = f"{name}.{refused.field}" if refused.field else name
        faults.append(Finding("stop", name, (field,), str(refused)))
    except MotionLocks as refused:
        # in a notch or with an error that the motion's own chapter does not look at
        faults.append(Finding("stop", name, ("motion.gear",), str(refused)))
    return None


@cache
def cached(function: Any) -> Any:
    """Return a function that keeps its last answers."""
    return lru_cache(maxsize=_KEPT)(function)
