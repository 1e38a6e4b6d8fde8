"""What is wrong with a document, in the builder's words rather than a programmer's."""

from __future__ import annotations

import difflib
import re
from typing import Any

import pydantic

_SHOWN = 3
_LONGEST_STEP = 60
_LONGEST_LIST = 200
_WORDS = {
    "extra_forbidden": "this is not a size that a {what} holds",
    "missing": "this is missing",
    "int_type": "a whole number is needed",
    "int_from_float": "a whole number is needed",
    "float_type": "a number is needed",
    "finite_number": "a finite number is needed",
    "bool_type": "true or false is needed",
    "string_type": "text in quotes is needed",
    "string_too_short": "some text is needed",
    "string_too_long": "at most {max_length} characters will do",
    "string_unicode": "this is not Unicode text",
    "dict_type": "a group of names and values in braces is needed",
    "model_type": "a group of names and values in braces is needed",
    "model_attributes_type": "a group of names and values in braces is needed",
    "list_type": "a list in brackets is needed",
    "too_long": "at most {max_length} of these will do",
    "literal_error": "this should be {expected}",
    "union_tag_invalid": "“kind” should be one of {expected_tags}",
    "union_tag_not_found": "“kind” is missing; it says which sort this is",
}


def in_words(errors: pydantic.ValidationError, what: str = "design") -> str:
    """Return the first few faults of a document, each with its place, as one sentence.

    Parameters
    ----------
    what : the document holds, "design" or "workshop".
    """
    sentences = [_one(error, what) for error in errors.errors(include_url=False)[:_SHOWN]]
    more = errors.error_count() - len(sentences)
    return "; ".join(sentences) + (f" (and {more} more)" if more > 0 else "")


def _one(error: Any, what: str) -> str:
    # a key from the file may be of any length; the sentence may not
    place = ".".join(str(step)[:_LONGEST_STEP] for step in error["loc"]) or "the file"
    if error["type"] == "literal_error" and len(error["ctx"]["expected"]) > _LONGEST_LIST:
        return f"{place}: {_one_of_many(error)}"
    words = _WORDS.get(error["type"])
    if words is None:
        return f"{place}: {error['msg'].removeprefix('Value error, ')}"
    return f"{place}: {words.format_map({'what': what, **error.get('ctx', {})})}"


def _one_of_many(error: Any) -> str:
    """Return what a word should be where there are too many to name: those most like it."""
    known = re.findall(r"'([^']*)'", error["ctx"]["expected"])
    near = difflib.get_close_matches(str(error["input"])[:_LONGEST_STEP], known, n=3, cutoff=0.4)
    shown = " or ".join(f"“{one}”" for one in near or known[:3])
    return f"this is none of the {len(known)} words for it; {shown} would do"
