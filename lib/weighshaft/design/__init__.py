"""The builder's decisions: the document, its file, its history."""

from .changes import Change, changes, label_of, spelt
from .document import (
    CHAPTERS,
    Design,
    DesignRefused,
    described,
    from_document,
    json_schema,
    to_document,
)
from .file import SUFFIX, FileRefused, from_bytes, read, to_bytes, versions, write
from .history import History
from .workshop import Workshop, with_workshop, workshop_of

__all__ = [
    "CHAPTERS",
    "SUFFIX",
    "Change",
    "Design",
    "DesignRefused",
    "FileRefused",
    "History",
    "Workshop",
    "changes",
    "described",
    "from_bytes",
    "from_document",
    "json_schema",
    "label_of",
    "read",
    "spelt",
    "to_bytes",
    "to_document",
    "versions",
    "with_workshop",
    "workshop_of",
    "write",
]
