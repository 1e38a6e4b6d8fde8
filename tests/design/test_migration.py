"""Older design files, a step at a time."""

from __future__ import annotations

from typing import Any

import pytest

from weighshaft.design import DesignRefused
from weighshaft.design.migration import STEPS, migrate

OLD = {"format": "weighshaft-design", "version": 1, "name": "A", "wheel": 34}


def rename(old: dict[str, Any]) -> dict[str, Any]:
    rest = {key: value for key, value in old.items() if key != "wheel"}
    return {**rest, "driving_wheel": old["wheel"]}


def double(old: dict[str, Any]) -> dict[str, Any]:
    return {**old, "driving_wheel": 2 * old["driving_wheel"]}


def test_steps_are_taken_one_after_another_and_the_old_document_is_left_alone() -> None:
    before = dict(OLD)
    assert migrate(OLD, steps={1: rename, 2: double}, present=3) == {
        "format": "weighshaft-design",
        "version": 3,
        "name": "A",
        "driving_wheel": 68,
    }
    assert before == OLD


def test_the_present_version_takes_no_step() -> None:
    assert migrate(OLD, steps={1: rename}, present=1) == OLD


def test_a_step_that_does_not_exist_is_said() -> None:
    with pytest.raises(DesignRefused, match="version 2"):
        migrate(OLD, steps={1: rename}, present=3)


def test_an_old_file_that_is_not_whole_is_refused_in_words() -> None:
    damaged = {key: value for key, value in OLD.items() if key != "wheel"}
    with pytest.raises(DesignRefused, match="not complete"):
        migrate(damaged, steps={1: rename}, present=2)


def test_every_step_that_is_needed_exists() -> None:
    from weighshaft.design.document import VERSION

    assert set(STEPS) == set(range(1, VERSION))
