"""The published JSON Schema: current, valid, and of one mind with the reader."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from tests.designs import SAMPLES, a_design
from weighshaft.design import to_document
from weighshaft.design.schema import PUBLISHED, schema_text


def schema() -> dict[str, Any]:
    made = json.loads(PUBLISHED.read_text(encoding="utf-8"))
    assert isinstance(made, dict)
    return made


def test_the_published_schema_is_current() -> None:
    assert PUBLISHED.read_text(encoding="utf-8") == schema_text(), (
        "the decisions of a chapter changed: run python -m weighshaft.design.schema"
    )


def test_it_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(schema())


def test_a_design_agrees_with_it() -> None:
    jsonschema.validate(to_document(a_design()), schema())


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name)
def test_every_sample_agrees_with_it(path: Path) -> None:
    jsonschema.validate(json.loads(path.read_text(encoding="utf-8")), schema())


@pytest.mark.parametrize(
    "change",
    [{"version": 2}, {"format": "other"}, {"colour": "green"}, {"name": ""}, {"scale": None}],
)
def test_what_the_reader_refuses_it_refuses(change: dict[str, Any]) -> None:
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**to_document(a_design()), **change}, schema())
