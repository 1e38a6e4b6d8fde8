"""The published tables as rows, read once, when first asked for."""

from __future__ import annotations

import csv
import io
from functools import cache
from importlib.resources import files


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """Return the rows of a table, each a dict by column heading, empty cells as "".

    Parameters
    ----------
    name : file name in `trade/data` without its ending, such as "threads_ba".
    """
    text = files("weighshaft.trade").joinpath("data", f"{name}.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(io.StringIO(text)))
