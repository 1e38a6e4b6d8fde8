"""The server: its settings, its address, its manners."""

from __future__ import annotations

import http.client
import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing

import pytest

from tests.designs import ROOT
from weighshaft import places, serve


def test_the_usual_port_is_tried_first_and_another_taken_when_it_is_busy() -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        busy = taken.getsockname()[1]
        with pytest.raises(serve.CannotServe, match="in use"):
            serve.free_port("127.0.0.1", busy)
    assert serve.free_port("127.0.0.1", busy) == busy
    assert 1 <= serve.free_port("127.0.0.1") <= 65535


@pytest.mark.parametrize(
    ("host", "loopback"),
    [("127.0.0.1", True), ("localhost", True), ("::1", True), ("0.0.0.0", False), ("", False),
     ("192.168.1.5", False), ("club.example", False)],
)  # fmt: skip
def test_loopback_is_known(host: str, loopback: bool) -> None:
    assert serve.is_loopback(host) is loopback


def test_addresses() -> None:
    assert serve.address_of("127.0.0.1", 8431) == "http://127.0.0.1:8431/"
    assert serve.address_of("0.0.0.0", 8431) == "http://127.0.0.1:8431/"
    assert serve.address_of("::1", 8431) == "http://[::1]:8431/"


def test_the_settings_keep_the_page_to_itself() -> None:
    made = serve.settings("127.0.0.1", 8431, 2, "/somewhere")
    page, server = made["VoilaConfiguration"], made["Voila"]
    assert page["strip_sources"] is True
    assert page["show_tracebacks"] is False
    assert page["file_allowlist"] == []
    assert page["allow_template_override"] == "NO"
    assert (page["preheat_kernel"], page["default_pool_size"]) == (True, 2)
    assert server["tornado_settings"]["allow_remote_access"] is False
    assert server["tornado_settings"]["websocket_max_message_size"] == 16 * 2**20
    assert made["MappingKernelManager"]["cull_idle_timeout"] > 0
    outside = serve.settings("0.0.0.0", 8431, 2, "/somewhere")
    assert outside["Voila"]["tornado_settings"]["allow_remote_access"] is True


@pytest.mark.skipif(os.name != "posix", reason="Windows has no such sockets")
def test_kernels_are_reached_by_sockets_of_ours_where_their_names_can_be_short() -> None:
    assert serve.settings("127.0.0.1", 8431, 2, "/tmp/weighshaft-12345678")["KernelManager"] == {
        "transport": "ipc"
    }
    assert "KernelManager" not in serve.settings("127.0.0.1", 8431, 2, "/" + "long/" * 20)


def test_without_a_screen_no_browser_is_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "BROWSER"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr(serve.shutil, "which", lambda _: None)
    assert serve.open_page("http://127.0.0.1:8431/") is False


def test_notebooks_template_and_samples_are_found() -> None:
    assert (places.workbook() / "workbook.ipynb").is_file()
    assert (places.workbook() / "template/voila/templates/weighshaft/index.html.j2").is_file()
    assert (places.workbook() / "template/kernels/python3/kernel.json").is_file()
    assert places.samples().is_dir()


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    """The workbook served on a port of its own, and ended as Ctrl-C ends it."""
    folder = tmp_path_factory.mktemp("served")
    port = serve.free_port("127.0.0.1")
    command = [sys.executable, "-m", "weighshaft", "--no-browser", "--port", str(port)]
    with subprocess.Popen(
        [*command, "--designs", str(folder)],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT / "lib")},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    ) as process:
        assert process.stdout is not None
        said = process.stdout.readline()
        assert f"http://127.0.0.1:{port}/" in said
        yield port
        # kernels that are still starting make an end harder, not different
        process.send_signal(signal.SIGINT if os.name == "posix" else signal.SIGTERM)
        rest = process.stdout.read()
        assert process.wait(timeout=60) == 0, rest
        assert "Traceback" not in rest


def get(port: int, path: str = "/", host: str | None = None) -> tuple[int, str]:
    with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=120)) as connection:
        connection.request("GET", path, headers={"Host": host} if host else {})
        answer = connection.getresponse()
        return answer.status, answer.read().decode("utf-8", "replace")


def test_the_page_is_ours_and_names_no_other_host(served: int) -> None:
    status, page = get(served)
    assert status == 200
    assert '<html lang="en">' in page
    assert page.count("<title>") == 1
    assert "<title>Weighshaft</title>" in page
    assert "There was an error" not in page
    found = re.findall(r"""(?:https?:|["'(])//[\w.-]+""", page)
    elsewhere = [address for address in found if "www.w3.org" not in address]
    assert elsewhere == []


def test_no_source_is_in_the_page(served: int) -> None:
    assert "from weighshaft" not in get(served)[1]


@pytest.mark.parametrize(
    "path",
    [
        "/voila/files/setting_up.py",
        "/voila/files/workbook.ipynb",
        "/voila/files/../lib/weighshaft/cli.py",
    ],
)
def test_no_file_is_served(served: int, path: str) -> None:
    assert get(served, path)[0] in (403, 404)


def test_a_page_from_elsewhere_cannot_reach_it(served: int) -> None:
    """A name that somebody lets point to this computer is refused (DNS rebinding)."""
    assert get(served, host="evil.example")[0] == 403


def test_another_template_cannot_be_asked_for(served: int) -> None:
    status, page = get(served, "/?template=classic")
    assert status == 200
    assert "<title>Weighshaft</title>" in page
