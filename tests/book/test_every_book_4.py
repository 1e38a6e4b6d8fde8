"""The books of every fourth sample, from the fourth on."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.book.every_book_for_tests import CHECKS, Made, made
from tests.designs import SAMPLES


@pytest.mark.parametrize("check", CHECKS, ids=lambda one: one.__name__)
@pytest.mark.parametrize("path", SAMPLES[3::4], ids=lambda one: one.name.split(".")[0])
def test_book(path: Path, check: Callable[[Made], None]) -> None:
    check(made(path))
