"""The command `weighshaft`: what it prints, its exit codes, its refusals."""

from __future__ import annotations

import dataclasses
import json
import os
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from tests.designs import ROOT, a_design
from weighshaft import cli, job
from weighshaft.design import Workshop, write
from weighshaft.design import workshop as own
from weighshaft.findings import Finding
from weighshaft.workshop.machines import Machines, Tools

# 0, or 1 while the design that the tests share has a "stop" of its own
EXPECTED = int(any(one.level == "stop" for one in job.work(a_design()).findings))


@pytest.fixture(autouse=True)
def _no_workshop_of_ours(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever runs the tests may have a workshop file; it has no say here."""
    for name in ("XDG_CONFIG_HOME", "APPDATA"):
        monkeypatch.setenv(name, str(tmp_path / "configuration"))
    if sys.platform == "darwin":
        monkeypatch.setenv("HOME", str(tmp_path / "configuration"))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "engine.loco.json"
    write(made, a_design())
    return made


def one_line(capsys: pytest.CaptureFixture[str]) -> str:
    """Return the one line that explains a refusal; nothing else may be printed."""
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.startswith("weighshaft: ")
    assert printed.err.count("\n") == 1
    return printed.err


def test_work_prints_the_sheet(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["work", str(path)]) == EXPECTED
    printed = capsys.readouterr()
    assert printed.err == ""
    assert printed.out.startswith(a_design().name)


def test_work_prints_json(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["work", str(path), "--json"]) == EXPECTED
    assert json.loads(capsys.readouterr().out)["name"] == a_design().name


def test_work_with_a_stop_finding_ends_with_one(
    path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    worked = job.work(a_design())
    stop = Finding("stop", "wheels", ("wheels.standard",), "The crankpin fouls the crosshead.")
    stopped = dataclasses.replace(worked, findings=(stop, *worked.findings))
    monkeypatch.setattr(job, "work", lambda _: stopped)
    assert cli.main(["work", str(path)]) == 1
    assert "STOP" in capsys.readouterr().out
    assert cli.main(["work", str(path), "--json"]) == 1


@pytest.mark.parametrize(
    ("name", "data"),
    [("none.loco.json", None), ("broken.loco.json", b"{"), ("odd.loco.json", b"\xff"), (".", None)],
)
def test_a_file_that_cannot_be_used_is_refused_in_a_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str, data: bytes | None
) -> None:
    if data is not None:
        (tmp_path / name).write_bytes(data)
    assert cli.main(["work", str(tmp_path / name)]) == 2
    one_line(capsys)


@pytest.mark.parametrize(
    "arguments",
    [
        ["wrok"],
        ["work"],
        ["work", "a", "b"],
        ["--port", "0"],
        ["--port", "x"],
        ["--port", "65536"],
        ["--nothing"],
    ],
)
def test_a_command_that_cannot_be_used_is_refused_in_a_line(
    capsys: pytest.CaptureFixture[str], arguments: list[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        cli.main(arguments)
    assert ended.value.code == 2
    assert "weighshaft --help" in one_line(capsys)


def test_a_port_in_use_is_refused_in_a_line(capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert cli.main(["--no-browser", "--port", str(port)]) == 2
    assert str(port) in one_line(capsys)


def test_an_address_of_another_computer_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["--no-browser", "--host", "192.0.2.1"]) == 2
    assert "192.0.2.1" in one_line(capsys)


def test_help_tells_what_it_is_for(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        cli.main(["--help"])
    assert ended.value.code == 0
    text = capsys.readouterr().out
    for word in ("live", "locomotives", "work", "--json", "exit codes", "WEIGHSHAFT_DESIGNS"):
        assert word in text or word == "live"


def test_the_schema_is_the_published_one(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["schema"]) == 0
    assert json.loads(capsys.readouterr().out)["title"] == "Design"


def run(*arguments: str, **more: object) -> subprocess.CompletedProcess[bytes]:
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "lib")}
    environment.update(more.pop("env", {}))  # type: ignore[call-overload]
    return subprocess.run(
        [sys.executable, "-m", "weighshaft", *arguments],
        env=environment, capture_output=True, check=False, timeout=120, **more,  # type: ignore[call-overload]
    )  # fmt: skip


def test_it_runs_from_any_folder_and_in_any_alphabet(path: Path, tmp_path: Path) -> None:
    ran = run("work", path.name, cwd=tmp_path, env={"PYTHONIOENCODING": "ascii"})
    assert (ran.returncode, ran.stderr) == (EXPECTED, b"")
    assert ran.stdout.isascii()
    ran = run("work", path.name, "--json", cwd=tmp_path, env={"PYTHONIOENCODING": "ascii"})
    assert json.loads(ran.stdout)["name"] == a_design().name


@pytest.mark.skipif(os.name != "posix", reason="pipes as POSIX has them")
def test_a_reader_that_leaves_is_no_traceback(path: Path) -> None:
    read_end, write_end = os.pipe()
    os.close(read_end)
    with subprocess.Popen(
        [sys.executable, "-m", "weighshaft", "work", str(path), "--json"],
        env={**os.environ, "PYTHONPATH": str(ROOT / "lib")},
        stdout=write_end,
        stderr=subprocess.PIPE,
    ) as process:
        os.close(write_end)
        _, said = process.communicate(timeout=120)
    assert process.returncode == 2
    assert said.count(b"\n") == 1
    assert said.startswith(b"weighshaft: ")


# --- the workshop ------------------------------------------------------------------------


@pytest.fixture
def shed(tmp_path: Path) -> Path:
    """A workshop file whose list of taps has not got what the design asks for."""
    made = tmp_path / "shed.workshop.json"
    own.write(made, Workshop(machines=Machines(tools=Tools(taps=("M2",)))))
    return made


def test_a_workshop_is_taken_for_the_design(
    path: Path, shed: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    cli.main(["work", str(path), "--json", "--workshop", str(shed)])
    printed = capsys.readouterr()
    assert json.loads(printed.out)["design"]["machines"]["tools"]["taps"] == ["M2"]
    assert printed.err == f"weighshaft: with the lists of {shed}\n"


def test_the_usual_workshop_is_taken_unless_it_is_not_wanted(
    path: Path, shed: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    usual = own.usual_file()
    usual.parent.mkdir(parents=True)
    usual.write_bytes(shed.read_bytes())
    cli.main(["work", str(path)])
    assert str(usual) in capsys.readouterr().err
    cli.main(["work", str(path), "--no-workshop"])
    assert capsys.readouterr().err == ""
    assert cli.main(["workshop"]) == 0
    assert "Taps owned" in capsys.readouterr().out
    usual.write_text("{}", encoding="utf-8")
    assert cli.main(["work", str(path)]) == 2
    assert "This is not a workshop" in one_line(capsys)


def test_a_fresh_workshop_is_written_once(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "new" / "mine.workshop.json"
    assert cli.main(["workshop", str(file)]) == 2
    assert "weighshaft workshop --new" in one_line(capsys)
    assert cli.main(["workshop", str(file), "--new"]) == 0
    assert "written" in capsys.readouterr().out
    assert own.read(file) == Workshop()
    assert cli.main(["workshop", str(file), "--new"]) == 2
    assert "is there already" in one_line(capsys)
    assert cli.main(["workshop", str(file), "--inch"]) == 0
    assert "1/8 in" in capsys.readouterr().out


def test_the_book_and_the_drawings_take_it_too(
    path: Path, shed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    tables = tmp_path / "tables"
    cli.main(["book", str(path), "--csv", str(tables), "--workshop", str(shed)])
    assert any("to buy or borrow" in one.read_text("utf-8-sig") for one in tables.glob("*.csv"))
    assert cli.main(["drawings", str(path), "-o", str(tmp_path), "--workshop", "none"]) == 2
    assert "“none” cannot be opened" in capsys.readouterr().err
    with pytest.raises(SystemExit):
        cli.main(["work", str(path), "--workshop", str(shed), "--no-workshop"])


def test_the_schema_of_workshop_files(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["schema", "--workshop"]) == 0
    assert json.loads(capsys.readouterr().out)["title"] == "Workshop"
