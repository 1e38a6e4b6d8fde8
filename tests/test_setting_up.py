"""The set-up behind `python workbook` and `python tests`: what it does, skips and says."""

from __future__ import annotations

import importlib.util
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from tests.designs import ROOT


@pytest.fixture
def setting_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """The set-up module, working on a checkout of its own with nothing in it."""
    specification = importlib.util.spec_from_file_location(
        "setting_up_tried", ROOT / "workbook" / "setting_up.py"
    )
    assert specification is not None
    assert specification.loader is not None
    module = importlib.util.module_from_spec(specification)
    specification.loader.exec_module(module)
    (tmp_path / "pyproject.toml").write_text("[project]\nname = 'nothing'\n")
    monkeypatch.setattr(module, "ROOT", str(tmp_path))
    monkeypatch.setattr(module, "VENV", str(tmp_path / ".venv"))
    monkeypatch.setattr(module, "STAMP", str(tmp_path / ".venv" / "weighshaft.json"))
    monkeypatch.setattr(module, "LOG", str(tmp_path / ".venv" / "log"))
    return module


@pytest.fixture
def steps(setting_up: ModuleType, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What the set-up did, in place of really doing it."""
    done: list[str] = []

    def make() -> None:
        done.append("make")
        link = Path(setting_up._python())
        link.parent.mkdir(parents=True)
        if os.name == "posix":
            link.symlink_to(sys.executable)
        else:
            shutil.copy(sys.executable, link)

    monkeypatch.setattr(setting_up, "_make_venv", make)
    monkeypatch.setattr(setting_up, "_install", lambda extras: done.append(f"install {extras}"))
    monkeypatch.setattr(setting_up, "_python_inside", lambda: sys.version_info[:2])
    return done


def test_the_second_run_does_nothing(setting_up: ModuleType, steps: list[str]) -> None:
    setting_up.set_up()
    assert steps == ["make", "install []"]
    setting_up.set_up()
    assert len(steps) == 2


def test_a_change_of_what_is_needed_installs_again(
    setting_up: ModuleType, steps: list[str], tmp_path: Path
) -> None:
    setting_up.set_up()
    (tmp_path / "pyproject.toml").write_text("[project]\nname = 'something'\n")
    setting_up.set_up()
    assert steps == ["make", "install []", "install []"]


def test_the_tests_add_to_what_is_there_and_the_workbook_takes_nothing_away(
    setting_up: ModuleType, steps: list[str]
) -> None:
    setting_up.set_up()
    setting_up.set_up(("test",))
    setting_up.set_up()
    setting_up.set_up(("test",))
    assert steps == ["make", "install []", "install ['test']"]


def test_another_python_makes_it_anew(
    setting_up: ModuleType, steps: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    setting_up.set_up()
    monkeypatch.setattr(setting_up, "_version", lambda: "3.99")
    setting_up.set_up()
    assert steps == ["make", "install []"] * 2


def test_an_environment_that_no_longer_runs_is_made_anew(
    setting_up: ModuleType, steps: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    setting_up.set_up()
    monkeypatch.setattr(setting_up, "_python_inside", lambda: None)
    setting_up.set_up()
    assert steps == ["make", "install []"] * 2


def test_somebody_elses_environment_is_used_and_not_removed(
    setting_up: ModuleType, steps: list[str], tmp_path: Path
) -> None:
    setting_up._make_venv()
    (tmp_path / ".venv" / "theirs.txt").write_text("kept")
    setting_up.set_up()
    assert steps == ["make", "install []"]
    assert (tmp_path / ".venv" / "theirs.txt").exists()


def test_somebody_elses_environment_that_is_too_old_is_refused(
    setting_up: ModuleType, steps: list[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    setting_up._make_venv()
    monkeypatch.setattr(setting_up, "_python_inside", lambda: (3, 9))
    with pytest.raises(setting_up.CannotSetUp, match="Python 3"):
        setting_up.set_up()
    assert (tmp_path / ".venv").exists()


def test_a_damaged_stamp_does_no_harm(setting_up: ModuleType, steps: list[str]) -> None:
    setting_up.set_up()
    for damage in ("", "[]", "{", "\x00"):
        Path(setting_up.STAMP).write_text(damage)
        setting_up.set_up()
    assert steps == ["make", *["install []"] * 5]
    assert json.loads(Path(setting_up.STAMP).read_text())["extras"] == []


def said(setting_up: ModuleType, capsys: pytest.CaptureFixture[str]) -> str:
    """Return what a user reads when it cannot be done: words, not a traceback."""
    with pytest.raises(SystemExit) as ended:
        setting_up.run("weighshaft", [])
    assert ended.value.code == 2
    text = capsys.readouterr().err
    assert "Traceback" not in text
    return text


def test_too_old_a_python_is_told(
    setting_up: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(setting_up.sys, "version_info", (3, 8, 10, "final", 0))
    text = said(setting_up, capsys)
    assert "3.11 or newer" in text
    assert "3.8" in text


def test_an_installed_copy_says_what_to_run(
    setting_up: ModuleType, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "pyproject.toml").unlink()
    assert "run the command weighshaft" in said(setting_up, capsys)


def test_no_venv_module_is_told(
    setting_up: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    assert "python3-venv" in said(setting_up, capsys)


def test_a_venv_that_cannot_be_made_leaves_nothing(
    setting_up: ModuleType, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / ".venv").write_text("a file is in the way")
    assert "could not be made" in said(setting_up, capsys)


@pytest.mark.parametrize(
    ("log", "word"),
    [
        (
            "NewConnectionError: [Errno 101]\nERROR: No matching distribution found for numpy",
            "internet",
        ),
        ("Temporary failure in name resolution\nERROR: Could not find a version", "internet"),
        ("ERROR: Could not install packages: [Errno 28] No space left on device", "No space left"),
        (
            "  ERROR: Could not find a version that satisfies the requirement hatchling "
            "(from versions: none)\nerror: subprocess-exited-with-error",
            "internet",
        ),
        ("OSError: Readme file does not exist: README.md\nerror: metadata-failed", "Readme"),
        ("", "no reason"),
    ],
)
def test_pip_that_fails_is_told(setting_up: ModuleType, log: str, word: str) -> None:
    assert word in setting_up._why(log)


def test_a_failed_installation_is_tried_again(
    setting_up: ModuleType, steps: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_: Any) -> None:
        raise setting_up.CannotSetUp("no network")

    working = setting_up._install
    monkeypatch.setattr(setting_up, "_install", fail)
    with pytest.raises(setting_up.CannotSetUp):
        setting_up.set_up()
    monkeypatch.setattr(setting_up, "_install", working)
    setting_up.set_up()
    assert steps == ["make", "install []"]


def test_ctrl_c_is_no_traceback(
    setting_up: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stop(_: Any) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(setting_up, "set_up", stop)
    with pytest.raises(SystemExit) as ended:
        setting_up.run("weighshaft", [])
    assert ended.value.code == setting_up.STOPPED
    assert capsys.readouterr().err.strip() == "Stopped."


def test_the_exit_code_is_that_of_what_was_run(setting_up: ModuleType, steps: list[str]) -> None:
    script = (
        "import sys; sys.path.insert(0, sys.argv[1]); import setting_up as s;"
        "s.set_up = lambda extras: None; s._python = lambda: sys.executable;"
        "s.run('this_module_does_not_exist', [])"
    )
    ran = subprocess.run(
        [sys.executable, "-c", script, str(ROOT / "workbook")], capture_output=True, check=False
    )
    assert ran.returncode == 1
    assert b"this_module_does_not_exist" in ran.stderr
