"""Set-up shared by `python workbook` and `python tests`; standard library only.

Makes `.venv` beside this folder if there is none, installs the package into it when
pyproject.toml or Python has changed since, and runs a module there.  Written so that even
a Python that is far too old can read it and say so.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys

OLDEST = (3, 11)
ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
VENV = os.path.join(ROOT, ".venv")
STAMP = os.path.join(VENV, "weighshaft.json")
LOG = os.path.join(VENV, "weighshaft-install.log")
STOPPED = 130


class CannotSetUp(Exception):
    """Something on this computer is in the way; the text says what, and what would help."""


def run(module, arguments, extras=()):
    """Set up, run `python -m module` with the arguments there, and end with its exit code.

    module: the module to run.
    arguments: its command line.
    extras: groups of optional dependencies that are needed besides the package.
    """
    try:
        set_up(extras)
        sys.exit(_hand_over([_python(), "-m", module] + list(arguments)))
    except (CannotSetUp, EnvironmentError) as why:
        sys.stderr.write("weighshaft: %s\n" % why)
        sys.exit(2)
    except KeyboardInterrupt:
        sys.stderr.write("\nStopped.\n")
        sys.exit(STOPPED)


def set_up(extras=()):
    """Make the environment and install the package, as far as that is not done already."""
    if sys.version_info < OLDEST:
        raise CannotSetUp(
            "Python %d.%d or newer is needed, and this is Python %d.%d. Newer ones are at "
            "https://www.python.org/downloads/; then run the same with that one, such as "
            "python3.12 workbook." % (OLDEST + tuple(sys.version_info[:2]))
        )
    if not os.path.isfile(os.path.join(ROOT, "pyproject.toml")):
        raise CannotSetUp(
            "this is the installed package, not a checkout; run the command weighshaft instead."
        )
    stamp = _read_stamp()
    if os.path.isdir(VENV) and not _venv_works(stamp):
        shutil.rmtree(VENV, ignore_errors=True)
        stamp = {}
    wanted = sorted(set(extras) | set(stamp.get("extras", ())))
    key = _key()
    if stamp.get("key") == key and stamp.get("extras") == wanted:
        return
    if not os.path.isfile(_python()):
        _make_venv()
    _install(wanted)
    with open(STAMP, "w") as file:
        json.dump({"key": key, "extras": wanted, "python": _version()}, file)


def _python():
    inside = ("Scripts", "python.exe") if os.name == "nt" else ("bin", "python")
    return os.path.join(VENV, *inside)


def _version():
    return "%d.%d" % tuple(sys.version_info[:2])


def _key():
    """Return a mark of all that an installation depends on."""
    with open(os.path.join(ROOT, "pyproject.toml"), "rb") as file:
        text = file.read()
    # the package is installed in place, so a checkout that was moved is installed anew
    return hashlib.sha256(text + os.fsencode(ROOT) + _version().encode()).hexdigest()


def _read_stamp():
    try:
        with open(STAMP) as file:
            stamp = json.load(file)
    except (OSError, ValueError):
        return {}
    return stamp if isinstance(stamp, dict) else {}


def _venv_works(stamp):
    """Return whether the environment that is there can be used.

    One of our own is made anew when Python changed; one that somebody else made is left
    alone, and refused when it cannot serve.
    """
    if stamp:
        return stamp.get("python") == _version() and _python_inside() is not None
    inside = _python_inside()
    if inside is None:
        # what is left of a set-up that was stopped half-way
        return not os.path.isfile(os.path.join(VENV, "pyvenv.cfg"))
    if inside < OLDEST:
        raise CannotSetUp(
            "the folder .venv holds Python %d.%d, and %d.%d or newer is needed. "
            "Delete the folder .venv and run the same again." % (inside + OLDEST)
        )
    return True


def _python_inside():
    """Return the version of the environment's Python, or None where it does not run."""
    ask = "import sys, pip; print('%d %d' % sys.version_info[:2])"
    try:
        told = subprocess.check_output([_python(), "-c", ask], stderr=subprocess.DEVNULL)
        major, minor = told.split()
    except (OSError, ValueError, subprocess.CalledProcessError):
        return None
    return int(major), int(minor)


def _make_venv():
    try:
        import ensurepip
        import venv

        del ensurepip, venv
    except ImportError:
        raise CannotSetUp(
            "this Python comes without the module venv, which makes the folder .venv. "
            "On Debian, Ubuntu and Mint install it with: sudo apt install python3-venv"
        )
    _say("Making the folder .venv ...")
    made = subprocess.Popen(
        [sys.executable, "-m", "venv", VENV], stdout=subprocess.PIPE, stderr=subprocess.STDOUT
    )
    said = made.communicate()[0].decode("utf-8", "replace").strip()
    if made.returncode != 0:
        shutil.rmtree(VENV, ignore_errors=True)
        raise CannotSetUp(
            "the folder .venv could not be made: %s"
            % (said.splitlines() or ["no reason given"])[-1]
        )


def _install(extras):
    _say("Installing Weighshaft and what it needs; this takes a minute or two, but only once ...")
    if os.path.isfile(STAMP):
        os.remove(STAMP)
    what = ROOT + ("[%s]" % ",".join(extras) if extras else "")
    pip = [_python(), "-m", "pip", "--disable-pip-version-check", "--no-input"]
    with open(LOG, "wb") as log:
        failed = subprocess.call(
            pip + ["install", "--editable", what], stdout=log, stderr=subprocess.STDOUT
        )
    if failed:
        with open(LOG, "rb") as log:
            raise CannotSetUp(_why(log.read().decode("utf-8", "replace")))
    _say("Installed.")


def _why(log):
    """Return in words why pip failed."""
    seen = log.lower()
    words = ("connection", "name resolution", "getaddrinfo", "timed out", "proxyerror", "ssl")
    # without a network pip finds no version at all of what it asks for
    words += ("from versions: none",)
    lines = [line.strip() for line in log.splitlines()]
    faults = [line for line in lines if line.lower().startswith(("error: ", "oserror: "))]
    # pip's own words for "see above" say nothing
    faults = [line for line in faults if " " in line.split(": ", 1)[1]]
    last = faults[-1].split(": ", 1)[-1] if faults else "no reason was given"
    last = last if last.endswith(".") else last + "."
    if any(word in seen for word in words):
        return (
            "the packages that Weighshaft needs could not be fetched. Is this computer on the "
            "internet? That is needed the first time only. (%s The whole story is in %s)"
            % (last, LOG)
        )
    return "pip could not install Weighshaft: %s (The whole story is in %s)" % (last, LOG)


def _say(text):
    sys.stderr.write(text + "\n")
    sys.stderr.flush()


def _hand_over(command):
    """Become the command where the system can do that; else run it and return its exit code."""
    if os.name == "posix":
        os.execv(command[0], command)
    running = subprocess.Popen(command)
    while True:
        try:
            return running.wait()
        except KeyboardInterrupt:
            # Ctrl-C went to the command as well, which ends in its own good time
            continue
