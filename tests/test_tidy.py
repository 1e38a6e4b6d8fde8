"""Format, lint and types of everything."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.designs import ROOT


@pytest.mark.parametrize(
    "command",
    [["ruff", "format", "--check", "."], ["ruff", "check", "."], ["mypy"]],
    ids=["format", "lint", "types"],
)
def test_tidy(command: list[str]) -> None:
    run = subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, f"\n{run.stdout[-6000:]}{run.stderr[-2000:]}"
