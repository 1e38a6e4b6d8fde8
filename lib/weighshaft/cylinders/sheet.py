"""The sheet on which the workings of a chapter are set down in their order."""

from __future__ import annotations

from ..working import Working


class Sheet:
    """Collects workings and hands back their figures."""

    def __init__(self) -> None:
        self.workings: list[Working] = []

    def put(self, working: Working) -> float:
        """Set a working down and return its figure."""
        self.workings.append(working)
        return working.result
