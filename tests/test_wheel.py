"""The wheel that is built holds all that the installed command needs, and nothing odd."""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path

import hatchling.build
import pytest

from tests.designs import ROOT, SAMPLES


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    with inside(ROOT):
        return folder / hatchling.build.build_wheel(str(folder))


@contextlib.contextmanager
def inside(folder: Path) -> Iterator[None]:
    before = Path.cwd()
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(before)


@pytest.fixture(scope="module")
def names(wheel: Path) -> set[str]:
    with zipfile.ZipFile(wheel) as archive:
        return set(archive.namelist())


def test_every_file_of_the_package_is_in_it(names: set[str]) -> None:
    package = ROOT / "lib" / "weighshaft"
    wanted = {
        f"weighshaft/{path.relative_to(package).as_posix()}"
        for path in package.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert wanted <= names


def test_notebooks_template_and_samples_are_in_it(names: set[str]) -> None:
    for path in (*(ROOT / "workbook").glob("*.ipynb"), *SAMPLES):
        assert f"weighshaft/{path.relative_to(ROOT).as_posix()}" in names
    template = "weighshaft/workbook/template"
    assert f"{template}/voila/templates/weighshaft/index.html.j2" in names
    assert f"{template}/voila/templates/weighshaft/conf.json" in names
    assert f"{template}/kernels/python3/kernel.json" in names


def test_the_tables_of_the_trade_are_in_it(names: set[str]) -> None:
    assert sum(name.startswith("weighshaft/trade/data/") for name in names) > 10


def test_nothing_else_is_in_it(names: set[str]) -> None:
    assert {name.split("/")[0].split("-")[0] for name in names} == {"weighshaft"}
    assert not [name for name in names if "__pycache__" in name or ".ipynb_checkpoints" in name]
    assert not [name for name in names if name.split("/")[1] in ("tests", ".ci")]


def test_unpacked_elsewhere_it_finds_its_own_things(wheel: Path, tmp_path: Path) -> None:
    """As an installed package would, with no checkout about."""
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path / "site")
    told = subprocess.run(
        [sys.executable, "-c", "from weighshaft.places import *; print(workbook(), samples())"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(tmp_path / "site")},
        capture_output=True,
        text=True,
        check=True,
    )  # fmt: skip
    site = (tmp_path / "site" / "weighshaft").resolve()
    assert told.stdout.split() == [str(site / "workbook"), str(site / "sample_designs")]
