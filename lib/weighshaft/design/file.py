"""Design files: reading what a builder brings, writing so that nothing is ever lost.

What a file holds beneath its JSON is the business of the document; workshop files are
read and written by the same functions.
"""

from __future__ import annotations

import contextlib
import json
import math
import os
import re
import secrets
import shutil
import stat
from collections.abc import Callable
from pathlib import Path
from typing import Any, NoReturn, TypeVar

from .document import Design, DesignRefused, from_document, to_document
from .migration import migrate

SUFFIX = ".loco.json"
LARGEST = 1_000_000
KEPT = 10
_VERSIONS = ".weighshaft"
_LARGEST_WHOLE = 10**15
Held = TypeVar("Held")
"""What a file holds: a design, or the lists of a workshop."""


class FileRefused(DesignRefused):
    """A design file that cannot be read or written; the text says which and why."""


def from_bytes(data: bytes) -> Design:
    """Return the design that the bytes of a design file hold.

    Raises
    ------
    DesignRefused : in one sentence, whatever is wrong with them.
    """
    return from_document(migrate(parsed(data)))


def parsed(data: bytes, what: str = "design") -> Any:
    """Return what the JSON of a file holds.

    Parameters
    ----------
    data : the bytes of the file.
    what : it should hold, in a word.

    Raises
    ------
    DesignRefused : in one sentence, when it is too large, not UTF-8 or not JSON.
    """
    if len(data) > LARGEST:
        raise FileRefused(
            f"This file has more than {LARGEST // 1000} kB; a {what} has a few kB, "
            "so this is not one."
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as bad:
        raise FileRefused(
            f"This file is not text in UTF-8 (byte {bad.start + 1} is not), so it is not a {what}."
        ) from bad
    try:
        document = json.loads(
            text,
            object_pairs_hook=_without_doubles,
            parse_constant=_no_such_number,
            parse_float=_float,
            parse_int=_whole,
        )
        # a lone half of a surrogate pair can be written as an escape but never saved again
        json.dumps(document, ensure_ascii=False).encode("utf-8")
    except json.JSONDecodeError as bad:
        raise FileRefused(
            f"This file is not complete JSON: line {bad.lineno}, column {bad.colno}: {bad.msg}."
        ) from bad
    except RecursionError as bad:
        raise FileRefused(f"This file is nested far too deeply to be a {what}.") from bad
    except UnicodeEncodeError as bad:
        raise FileRefused("This file holds a piece of text that is not Unicode.") from bad
    return document


def to_bytes(design: Design) -> bytes:
    """Return the design as the bytes of a design file, sizes spelt as they were typed.

    Raises
    ------
    DesignRefused : when what was typed could not be opened again, such as an endless note.
    """
    data = spelt_out(to_document(design))
    from_bytes(data)  # nothing is written that could not be opened again
    return data


def spelt_out(document: dict[str, Any], what: str = "design") -> bytes:
    """Return a document as the bytes of its file.

    Raises
    ------
    DesignRefused : when a piece of text in it cannot be written.
    """
    text = json.dumps(document, ensure_ascii=False, indent=2, allow_nan=False) + "\n"
    try:
        return text.encode("utf-8")
    except UnicodeEncodeError as bad:
        raise FileRefused(f"The {what} holds a piece of text that is not Unicode.") from bad


def read(path: str | os.PathLike[str]) -> Design:
    """Open a design file.

    Parameters
    ----------
    path : the file; its name usually ends in .loco.json.

    Raises
    ------
    DesignRefused : in one sentence, naming the file.
    """
    return read_with(path, from_bytes)


def read_with(path: str | os.PathLike[str], made: Callable[[bytes], Held]) -> Held:
    """Open a file and return what its bytes hold.

    Parameters
    ----------
    path : the file.
    made : makes of the bytes what they hold, or refuses them.

    Raises
    ------
    DesignRefused : in one sentence, naming the file.
    """
    path = Path(path)
    try:
        with open(path, "rb") as file:
            # a pipe or a device could keep us reading for ever
            if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                raise FileRefused(f"{_name(path)} is not a file.")
            data = file.read(LARGEST + 1)
    except (OSError, ValueError) as bad:
        if isinstance(bad, DesignRefused):
            raise
        raise FileRefused(f"{_name(path)} cannot be opened: {_why(bad)}.") from bad
    try:
        return made(data)
    except DesignRefused as refused:
        raise type(refused)(f"{_name(path)}: {refused}") from refused


def write(path: str | os.PathLike[str], design: Design) -> None:
    """Save a design; a crash leaves the old file or the new one, never half of either.

    What the file held before is kept beside it, the last ten versions of it.

    Parameters
    ----------
    path : the file to be written.
    design : what goes into it.

    Raises
    ------
    DesignRefused : in one sentence; the old file is then as it was.
    """
    write_data(path, to_bytes(design))


def write_data(path: str | os.PathLike[str], data: bytes, suffix: str = SUFFIX) -> None:
    """Save the bytes of a file as `write` does.

    Parameters
    ----------
    suffix : how the names of such files end.

    Raises
    ------
    DesignRefused : in one sentence; the old file is then as it was.
    """
    # behind a symbolic link the file itself is replaced, not the link
    path = Path(os.path.realpath(path))
    try:
        _keep(path, data, suffix)
        _replace(path, data)
    except (OSError, ValueError) as bad:
        raise FileRefused(f"{_name(path)} cannot be saved: {_why(bad)}.") from bad


def versions(path: str | os.PathLike[str], suffix: str = SUFFIX) -> tuple[Path, ...]:
    """Return the files that hold what a design file held before, the newest first."""
    path = Path(os.path.realpath(path))
    stem = path.name.removesuffix(suffix)
    numbered = re.compile(re.escape(stem) + r"\.(\d{6,})" + re.escape(suffix))
    try:
        found = [
            (int(match[1]), one)
            for one in (path.parent / _VERSIONS).iterdir()
            if (match := numbered.fullmatch(one.name))
        ]
    except OSError:
        return ()
    return tuple(one for _, one in sorted(found, reverse=True))


def _keep(path: Path, data: bytes, suffix: str) -> None:
    """Copy what the file holds now among its versions, unless that is what will be written."""
    if not path.is_file() or path.read_bytes() == data:
        return
    kept = versions(path, suffix)
    number = 1 + (int(kept[0].name.removesuffix(suffix).rpartition(".")[2]) if kept else 0)
    folder = path.parent / _VERSIONS
    folder.mkdir(exist_ok=True)
    copy = folder / f"{path.name.removesuffix(suffix)}.{number:06d}{suffix}"
    part = copy.with_name(f"{copy.name}.{secrets.token_hex(4)}.part")
    try:
        shutil.copy2(path, part)
        os.replace(part, copy)
    finally:
        part.unlink(missing_ok=True)
    for old in kept[KEPT - 1 :]:
        old.unlink(missing_ok=True)


def _replace(path: Path, data: bytes) -> None:
    part = path.with_name(f".{path.name}.{secrets.token_hex(4)}.part")
    try:
        with open(part, "xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if path.exists():
            shutil.copymode(path, part)
        os.replace(part, path)
    finally:
        part.unlink(missing_ok=True)
    if os.name == "posix":
        # the new name, too, has to outlast a power cut; not every file system can promise it
        with contextlib.suppress(OSError):
            folder = os.open(path.parent, os.O_RDONLY)
            try:
                os.fsync(folder)
            finally:
                os.close(folder)


def _name(path: Path) -> str:
    return f"“{path.name or path}”"


def _why(bad: Exception) -> str:
    match bad:
        case FileNotFoundError():
            return "there is no such file or folder"
        case IsADirectoryError():
            return "it is a folder"
        case PermissionError():
            return "it is not permitted here"
        case OSError():
            return (bad.strerror or "the disk does not do it").lower()
        case _:
            return "its name is not one for a file"


# --- what JSON allows and a design does not ----------------------------------------------


def _without_doubles(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    made: dict[str, Any] = {}
    for key, value in pairs:
        if key in made:
            raise FileRefused(f"“{key[:60]}” stands twice in the same place; one of them must go.")
        made[key] = value
    return made


def _no_such_number(word: str) -> NoReturn:
    raise FileRefused(f"{word} is not a number that such a file can hold.")


def _float(text: str) -> float:
    value = float(text)
    if not math.isfinite(value):
        raise FileRefused(f"{text[:40]} is too large a number for this file.")
    return value


def _whole(text: str) -> int:
    if len(text) > 20 or abs(int(text)) > _LARGEST_WHOLE:
        raise FileRefused(f"{text[:40]} is too large a number for this file.")
    return int(text)
