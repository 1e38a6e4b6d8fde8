"""The workbook as a page: a Voilà server on this computer, with warm kernels behind it."""

from __future__ import annotations

import contextlib
import errno
import ipaddress
import json
import logging
import os
import shutil
import socket
import sys
import tempfile
import threading
import time
import webbrowser
from pathlib import Path
from typing import Any

from . import places

LOOPBACK = "127.0.0.1"
USUAL_PORTS = range(8431, 8441)
"""Tried first, so that what a browser remembers of the page, which goes by address, is found."""
KERNELS = 2
TEMPLATE = "weighshaft"
_LARGEST_MESSAGE = 16 * 1024 * 1024
_IDLE = 30 * 60
_PREFIX = "weighshaft-"
_LONGEST_SOCKET_FOLDER = 30
"""The name of a socket may have some hundred characters, and a kernel's adds seventy to ours."""


class CannotServe(RuntimeError):
    """The page cannot be served; the text says why and what would help."""


def serve(
    *,
    port: int | None = None,
    host: str = LOOPBACK,
    browser: bool = True,
    kernels: int = KERNELS,
    designs: Path | None = None,
    debug: bool = False,
) -> None:
    """Serve the workbook until it is stopped with Ctrl-C.

    Parameters
    ----------
    port : to listen on; a free one when None.
    host : address to listen on; anything but loopback lets others in.
    browser : whether to open the page in the browser.
    kernels : how many are kept warm for pages to come.
    designs : folder in which designs are saved.
    debug : show on the page and the terminal what goes wrong in the code.

    Raises
    ------
    CannotServe : in one sentence, when the port is taken or the address is not this computer's.
    """
    notebook = places.workbook() / "workbook.ipynb"
    port = free_port(host, port)
    if not debug:
        _quiet()
    with tempfile.TemporaryDirectory(
        prefix=_PREFIX, dir=_short_folder(), ignore_cleanup_errors=True
    ) as folder:
        _prepare(Path(folder), designs, debug)
        # imported late: takes a second, which `weighshaft work` need not wait for
        from traitlets.config import Config
        from voila.app import Voila

        _answer_at_once()

        class Server(Voila):  # type: ignore[misc]
            def stop(self) -> None:
                if not debug:
                    logging.disable()
                # stopped while kernels are still starting, it stumbles over those; they end
                # by themselves as soon as this process is gone
                with contextlib.suppress(Exception):
                    super().stop()

        app = Server(config=Config(settings(host, port, kernels, folder, debug)))
        app.notebook_path = str(notebook)
        address = address_of(host, port)
        threading.Thread(target=_announce, args=(address, host, port, browser), daemon=True).start()
        try:
            app.initialize([])
            app.start()
        except KeyboardInterrupt:
            pass
    print("The workbook is closed.")


def _answer_at_once() -> None:
    """Let what a kernel answers go out as it comes.

    For each movement of a slider several small messages follow one another to the page.
    The system would keep each back until the one before is acknowledged, some 40 ms.
    """
    from jupyter_server.services.kernels.websocket import KernelWebsocketHandler

    handler: Any = KernelWebsocketHandler
    opened = handler.open

    async def open_at_once(socket: Any, kernel_id: str) -> None:
        socket.set_nodelay(True)
        await opened(socket, kernel_id)

    handler.open = open_at_once


def settings(
    host: str, port: int, kernels: int, folder: str, debug: bool = False
) -> dict[str, Any]:
    """Return the settings of the server.

    Parameters
    ----------
    host, port : where it listens.
    kernels : how many are kept warm.
    folder : of its own, for what lives only while it runs.
    debug : show what goes wrong in the code.
    """
    made: dict[str, Any] = {
        "Voila": {
            "ip": host,
            "port": port,
            "port_retries": 0,
            "open_browser": False,
            "log_level": logging.INFO if debug else logging.ERROR,
            "connection_dir_root": folder,
            # nothing but our own settings, whatever lies in the folder we were started from
            "config_file_paths": [],
            "tornado_settings": {
                "websocket_max_message_size": _LARGEST_MESSAGE,
                # a page from elsewhere must not reach a server on this computer by a trick
                "allow_remote_access": not is_loopback(host),
            },
        },
        "VoilaConfiguration": {
            "template": TEMPLATE,
            "theme": "light",
            "strip_sources": True,
            "show_tracebacks": debug,
            "preheat_kernel": kernels > 0,
            "default_pool_size": kernels,
            "allow_template_override": "NO",
            "allow_theme_override": "NO",
            "file_allowlist": [],
        },
        "MappingKernelManager": {"cull_idle_timeout": _IDLE, "cull_interval": 120},
    }
    if os.name == "posix" and len(folder) <= _LONGEST_SOCKET_FOLDER:
        # sockets in our own folder rather than ports that anybody on this computer can reach
        made["KernelManager"] = {"transport": "ipc"}
    return made


def _short_folder() -> str | None:
    """Return a folder for temporary things with a name short enough for sockets, if any."""
    room = _LONGEST_SOCKET_FOLDER - len(f"/{_PREFIX}12345678")
    for one in (tempfile.gettempdir(), "/tmp"):
        if len(one) <= room and os.access(one, os.W_OK):
            return one
    return None


def is_loopback(host: str) -> bool:
    """Return whether an address is reached from this computer alone."""
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def address_of(host: str, port: int) -> str:
    """Return the address to be typed into a browser on this computer."""
    if host in ("", "0.0.0.0", "::"):
        host = LOOPBACK
    return f"http://{f'[{host}]' if ':' in host else host}:{port}/"


def free_port(host: str, wanted: int | None = None) -> int:
    """Return the wanted port if it is free, or else, when none is wanted, one that is.

    Raises
    ------
    CannotServe : when the wanted one is taken, or the address is not one of this computer.
    """
    for port in (wanted,) if wanted is not None else (*USUAL_PORTS, 0):
        family = socket.AF_INET6 if ":" in host else socket.AF_INET
        with socket.socket(family, socket.SOCK_STREAM) as trial:
            if os.name == "posix":
                # as the server itself will: a port just given up may be taken again at once
                trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                trial.bind((host, port))
                return int(trial.getsockname()[1])
            except OSError as bad:
                if wanted is None and bad.errno == errno.EADDRINUSE:
                    continue
                raise CannotServe(_why_not(bad, host, port)) from bad
            except OverflowError as bad:
                raise CannotServe(f"Port {port} does not exist; try 8431.") from bad
    raise CannotServe("No free port was found on this computer.")


def _why_not(bad: OSError, host: str, port: int) -> str:
    if bad.errno == errno.EADDRINUSE:
        return (
            f"Port {port} is in use by another program, perhaps another workbook. "
            "Leave out --port to take a free one."
        )
    if bad.errno == errno.EACCES:
        return f"Port {port} is not permitted to you; try one above 1024, such as 8431."
    return f"This computer cannot listen at {host}: {(bad.strerror or str(bad)).lower()}."


def _prepare(folder: Path, designs: Path | None, debug: bool) -> None:
    """Put the settings that kernels read into the environment they inherit."""
    profile = folder / "ipython" / "profile_default"
    profile.mkdir(parents=True)
    # several kernels would otherwise wait for one another at the history of the prompt
    kernel = {"HistoryManager": {"enabled": False}}
    (profile / "ipython_kernel_config.json").write_text(json.dumps(kernel), encoding="utf-8")
    (folder / "config").mkdir()
    before = os.environ.get("JUPYTER_PATH", "")
    template = str(places.workbook() / "template")
    os.environ.update(
        JUPYTER_PATH=os.pathsep.join(filter(None, (template, before))),
        # what a builder has set for other notebooks is not for this page
        JUPYTER_CONFIG_DIR=str(folder / "config"),
        JUPYTER_NO_CONFIG="1",
        IPYTHONDIR=str(folder / "ipython"),
        JUPYTER_PLATFORM_DIRS="1",
        PYDEVD_DISABLE_FILE_VALIDATION="1",
    )
    if debug:
        os.environ["WEIGHSHAFT_DEBUG"] = "1"
    if designs is not None:
        os.environ["WEIGHSHAFT_DESIGNS"] = str(designs.resolve())


def _quiet() -> None:
    """Leave the terminal to what a builder has to read."""
    for name in ("tornado.access", "tornado.general", "traitlets"):
        logging.getLogger(name).setLevel(logging.ERROR)


def _announce(address: str, host: str, port: int, browser: bool) -> None:
    """Wait until the server answers, then say where it is and open the browser."""
    target = LOOPBACK if host in ("", "0.0.0.0") else host
    for _ in range(600):
        with contextlib.suppress(OSError), socket.create_connection((target, port), timeout=1):
            break
        time.sleep(0.1)
    else:
        return
    print(f"The workbook is open at {address}   (Ctrl-C closes it)", flush=True)
    if not is_loopback(host):
        print(
            "Everyone who can reach this computer can use it, and save designs here.",
            file=sys.stderr,
            flush=True,
        )
    if browser and not open_page(address):
        print("No browser could be opened; type the address into one yourself.", flush=True)


def open_page(address: str) -> bool:
    """Open an address in the browser; return whether that was possible."""
    screenless = sys.platform.startswith("linux") and not (
        os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    )
    # without a screen a browser that runs in the terminal would take it over
    if screenless and not os.environ.get("BROWSER") and not shutil.which("wslview"):
        return False
    try:
        return webbrowser.open(address, new=2)
    except webbrowser.Error:
        return False
