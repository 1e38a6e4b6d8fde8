"""The builder's book: the whole design in type, to be taken to the bench."""

from __future__ import annotations

from .binding import BookStopped, Form, bound
from .contents import book_of
from .files import BookRefused, look_at, make

__all__ = ["BookRefused", "BookStopped", "Form", "book_of", "bound", "look_at", "make"]
