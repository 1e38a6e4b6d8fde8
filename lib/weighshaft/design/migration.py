"""From the design files of earlier versions to the present one, a step at a time.

When the file format changes, `VERSION` in document.py rises by one and a step from the
version before is added to `STEPS`: a function from the older document to the next.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from .document import FORMAT, VERSION, DesignRefused

Step = Callable[[dict[str, Any]], dict[str, Any]]

STEPS: Mapping[int, Step] = {}
"""The step that leads away from each earlier version."""


def migrate(
    document: Any,
    *,
    steps: Mapping[int, Step] = STEPS,
    present: int = VERSION,
    form: str = FORMAT,
    what: str = "design",
) -> dict[str, Any]:
    """Return a document of any known version as one of the present version.

    Parameters
    ----------
    document : what the JSON of a design file holds.
    steps : the step that leads away from each earlier version.
    present : the version that is wanted.
    form : what “format” has to say.
    what : the document holds, in a word.

    Raises
    ------
    DesignRefused : when it is not such a document, or its version is unknown or newer.
    """
    if not isinstance(document, dict):
        raise DesignRefused(f"This is not a {what}: a JSON object is needed.")
    if document.get("format") != form:
        raise DesignRefused(
            f"This is not a {what}: “format” should say “{form}” at the beginning of the file."
        )
    version = document.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise DesignRefused(
            f"The version of this {what} is missing or not a number; it should be {present}."
        )
    if version > present:
        raise DesignRefused(
            f"This {what} was saved by a newer Weighshaft: its file has version {version}, "
            f"and this one reads up to version {present}. Bring Weighshaft up to date to open it."
        )
    while version < present:
        document = _one_step(document, version, steps, what)
        version += 1
    return dict(document)


def _one_step(
    document: dict[str, Any], version: int, steps: Mapping[int, Step], what: str
) -> dict[str, Any]:
    step = steps.get(version)
    if step is None:
        raise DesignRefused(f"A {what} of version {version} can no longer be opened.")
    try:
        stepped = step(dict(document))
    except (KeyError, TypeError, ValueError, AttributeError, IndexError) as bad:
        # a step trusts the older version's shape; a file that lacks it is simply damaged
        raise DesignRefused(
            f"This {what} says version {version} but is not complete as such a one."
        ) from bad
    return {**stepped, "format": document["format"], "version": version + 1}
