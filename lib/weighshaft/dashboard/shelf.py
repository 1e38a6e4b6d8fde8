"""Where designs stand: the samples that come with the workbook, and the builder's own shelf."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from ..design import file
from ..design.document import Design, DesignRefused

FOLDER = "WEIGHSHAFT_DESIGNS"
_LONGEST_NAME = 80
_RESERVED = {"con", "prn", "aux", "nul", *(f"{w}{n}" for w in ("com", "lpt") for n in range(1, 10))}


@dataclass(frozen=True)
class Standing:
    """A design on the shelf or among the samples: the key that opens it and what it is called."""

    key: str
    name: str
    saved: float = 0.0


def file_stem(name: str) -> str:
    """Return the name of an engine as the name of a file, on any system and in one folder.

    Raises
    ------
    DesignRefused : when nothing of it would do.
    """
    kept = "".join(one if one.isalnum() or one in " -_." else " " for one in name)
    stem = re.sub(r"\s+", " ", kept).strip(" .")[:_LONGEST_NAME].strip(" .")
    while stem.lower().endswith(".loco"):
        stem = stem[: -len(".loco")].strip(" .")
    if not stem:
        raise DesignRefused("A design needs a name of a few letters or figures to be saved under.")
    return f"engine {stem}" if stem.split(".")[0].lower() in _RESERVED else stem


class Shelf:
    """The folder of the builder's designs, and the samples.

    Parameters
    ----------
    folder : of the designs; by default that of the environment, else one in the home folder.
    samples : folder of the designs that come with the workbook.
    """

    def __init__(self, folder: Path | None = None, samples: Path | None = None) -> None:
        named = os.environ.get(FOLDER)
        self.folder = folder or (Path(named) if named else Path.home() / "Weighshaft designs")
        self._samples = samples

    def designs(self) -> tuple[Standing, ...]:
        """Return what stands on the shelf, the latest first."""
        found = [
            Standing(stem, stem, path.stat().st_mtime)
            for path in _files(self.folder)
            # a file that a builder put there under a name of his own is shown as it is
            if (stem := path.name.removesuffix(file.SUFFIX))
        ]
        return tuple(sorted(found, key=lambda one: -one.saved))

    def samples(self) -> tuple[Standing, ...]:
        """Return the samples by their keys, with the engines' names."""
        return tuple(
            Standing(path.name.removesuffix(file.SUFFIX), _engine(path))
            for path in sorted(_files(self._samples))
        )

    def open(self, key: str) -> Design:
        """Return the design that stands on the shelf under a key.

        Raises
        ------
        DesignRefused : in a sentence, also when there is none of that name.
        """
        return file.read(self.folder / f"{_one_of(key, self.designs())}{file.SUFFIX}")

    def sample(self, key: str) -> Design:
        """Return a sample design; refuse any key that is not on the list."""
        if self._samples is None:
            raise DesignRefused("No sample designs are installed.")
        return file.read(self._samples / f"{_one_of(key, self.samples())}{file.SUFFIX}")

    def holds(self, key: str) -> bool:
        """Whether a design of that key stands on the shelf."""
        # some systems take capitals and small letters for the same
        return any(one.key.casefold() == key.casefold() for one in self.designs())

    def save(self, design: Design, key: str) -> None:
        """Write a design under a key made by `file_stem`; the last ten versions are kept."""
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError as bad:
            raise DesignRefused(
                f"The folder for designs cannot be made ({bad.strerror or 'not permitted'}); "
                "download the design instead."
            ) from bad
        file.write(self.folder / f"{file_stem(key)}{file.SUFFIX}", design)


def _files(folder: Path | None) -> list[Path]:
    try:
        return [] if folder is None else [p for p in folder.glob(f"*{file.SUFFIX}") if p.is_file()]
    except OSError:
        return []


def _one_of(key: str, listed: Iterable[Standing]) -> str:
    # only a key from the list reaches the disk, so no path can be smuggled in
    for one in listed:
        if one.key == key:
            return one.key
    raise DesignRefused(f"There is no design “{key[:60]}” here.")


def _engine(path: Path) -> str:
    try:
        return str(json.loads(path.read_bytes()).get("name") or path.name)[:120]
    except (OSError, ValueError, AttributeError):
        return path.name
