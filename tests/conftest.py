"""What the tests share: settings, and a complete design to try them on."""

from __future__ import annotations

import os

import pytest
from hypothesis import HealthCheck, settings

from tests.designs import a_design
from weighshaft.design import Design

os.environ.setdefault("JUPYTER_PLATFORM_DIRS", "1")
os.environ.setdefault("MPLBACKEND", "agg")

# the machine that runs the tests may be slow or busy; time is no part of a property
settings.register_profile(
    "steady", deadline=None, suppress_health_check=[HealthCheck.too_slow], print_blob=True
)
settings.load_profile("steady")


@pytest.fixture(scope="session")
def design() -> Design:
    """A complete design; designs never change, so one serves all tests."""
    return a_design()
