"""Undo and redo of a design, and what has changed since it was last saved."""

from __future__ import annotations

from dataclasses import dataclass

from .changes import Change, changes
from .document import Design

DEEPEST = 300


@dataclass(frozen=True)
class Step:
    """One step of the history: the design it led to, and what was done in words."""

    design: Design
    says: str
    paths: tuple[str, ...] = ()


class History:
    """The designs that the builder has been through; designs themselves never change.

    Parameters
    ----------
    design : the design to begin with, taken as saved.
    deepest : how many steps can be undone.
    """

    def __init__(self, design: Design, deepest: int = DEEPEST) -> None:
        self._done = [Step(design, "")]
        self._undone: list[Step] = []
        self._deepest = deepest
        self._saved = design

    @property
    def design(self) -> Design:
        """The design as it stands now."""
        return self._done[-1].design

    def take(self, design: Design, says: str = "", *, going_on: bool = False) -> bool:
        """Take a changed design as the present one; return whether anything differs.

        Parameters
        ----------
        design : the changed design.
        says : what was done; found from the difference when empty.
        going_on : the same movement of the same slider goes on, so that undoing takes
            back the whole of it and not one pixel.
        """
        found = changes(self.design, design)
        if not found:
            return False
        paths = tuple(change.path for change in found)
        if going_on and len(self._done) > 1 and self._done[-1].paths == paths:
            self._done.pop()
            found = changes(self.design, design)
        self._undone.clear()
        if found:  # empty when a drag came back to where it had begun
            self._done.append(Step(design, says or _in_words(found), paths))
        del self._done[: -self._deepest - 1]
        return True

    def undo(self) -> Design:
        """Go back one step, if there is one; return the design as it then stands."""
        if len(self._done) > 1:
            self._undone.append(self._done.pop())
        return self.design

    def redo(self) -> Design:
        """Take again the step undone last, if there is one; return the design as it then stands."""
        if self._undone:
            self._done.append(self._undone.pop())
        return self.design

    @property
    def undoes(self) -> str:
        """What `undo` would take back, in words; empty when there is nothing."""
        return self._done[-1].says if len(self._done) > 1 else ""

    @property
    def redoes(self) -> str:
        """What `redo` would do again, in words; empty when there is nothing."""
        return self._undone[-1].says if self._undone else ""

    def saved(self) -> None:
        """Note that the design has been saved as it stands now."""
        self._saved = self.design

    @property
    def unsaved(self) -> tuple[Change, ...]:
        """What has changed since the last save, field by field."""
        return changes(self._saved, self.design)


def _in_words(found: tuple[Change, ...]) -> str:
    more = f" and {len(found) - 1} more" if len(found) > 1 else ""
    return f"{found[0]}{more}"
