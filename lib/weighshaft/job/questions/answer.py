"""What a question is, and what an answer says."""

from __future__ import annotations

from dataclasses import dataclass

from ...pictures.scene import Picture

Change = tuple[tuple[str, float], ...]
"""Sizes by path with what they should become, mm where they are lengths."""


class NotAnswered(ValueError):
    """A question that this design leaves without an answer; the text says why."""


@dataclass(frozen=True)
class Question:
    """A question that a builder may ask.

    Parameters
    ----------
    key : stable name, for the command and the page.
    asks : the question in words; `button` the same for a button.
    """

    key: str
    button: str
    asks: str


@dataclass(frozen=True, eq=False, kw_only=True)
class Answer:
    """One answer; it belongs to the design that was asked about.

    Parameters
    ----------
    question : that was asked.
    says : the answer in a sentence or two, lengths in mm.
    uncertain : how far it may be out, and why.
    pictures : charts and a table.
    change : sizes that do what is answered; () where there is nothing to change.
    offer : what the button for that says.
    figures : the answer as plain figures with stable names.
    """

    question: Question
    says: str
    uncertain: str
    pictures: tuple[Picture, ...]
    figures: dict[str, float]
    change: Change = ()
    offer: str = ""


LARGE = (
    "The coefficients were measured on engines of 100 to 400 mm bore and are a guess in small ones"
)
"""Begins every word on uncertainty."""
