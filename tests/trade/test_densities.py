"""Every material has a density, within what tables print."""

from __future__ import annotations

import pytest

from weighshaft.trade.densities import DENSITIES, density
from weighshaft.trade.materials import MATERIALS
from weighshaft.trade.tables import rows


def test_every_metal_and_nothing_else_has_its_density() -> None:
    assert set(MATERIALS) < set(DENSITIES)
    assert [row["name"] for row in rows("densities")] == list(DENSITIES)
    for row in rows("densities"):
        assert row["sources"]


def test_a_material_without_one_is_refused() -> None:
    with pytest.raises(KeyError):
        density("cheese")
