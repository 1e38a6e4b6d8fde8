"""Questions to the steam: the design varied, worked anew and weighed, with how sure that is."""

from __future__ import annotations

from collections.abc import Callable

from ...design.document import Design
from ...steam import Marching
from .. import Work
from . import bore, first, lasting, nozzle, ports
from .answer import Answer, NotAnswered, Question
from .varied import Asked

_ANSWERS: dict[str, tuple[Question, Callable[[Asked], Answer]]] = {
    module.QUESTION.key: (module.QUESTION, module.answer)
    for module in (ports, lasting, nozzle, bore, first)
}
QUESTIONS = tuple(question for question, _ in _ANSWERS.values())


def ask(key: str, design: Design, worked: Work, marching: Marching | None = None) -> Answer:
    """Answer a question about a design.

    Parameters
    ----------
    key : of one of `QUESTIONS`.
    worked : the design worked.
    marching : how conditions are marched, with progress and stop.

    Raises
    ------
    NotAnswered, DesignRefused, SizeError, MotionLocks : where it has no answer, in the
        builder's words.
    Stopped : when `marching` says so.
    """
    if key not in _ANSWERS:
        known = ", ".join(_ANSWERS)
        raise NotAnswered(f"There is no question “{key[:40]}”; there are: {known}.")
    return _ANSWERS[key][1](Asked(design, worked, marching or Marching()))


__all__ = ["QUESTIONS", "Answer", "Marching", "NotAnswered", "Question", "ask"]
