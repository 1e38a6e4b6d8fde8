"""What a size is called, its unit and the range in which it makes sense.

Every decision of the builder and every figure of a result is a field of a frozen
dataclass.  The field carries its name in the trade's words, its unit and its limits as
metadata, once; the design file, the dashboard and the decision sheet all read them here.
"""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

Unit = Literal[
    "mm", "deg", "bar", "kg", "N", "N mm", "N/mm", "N/mm2", "mm2", "mm3", "cm2", "m", "mm/s",
    "m/s", "km/h", "g", "g/s", "kg cm", "degC", "kW", "W", "%", "scale", "count", "ratio",
    "rev/min", "min", "ml", "g/min", "MJ/kg", "kW/m2", "W/K", "bar l", "mm water",
    "text", "choice", "yes/no",
]  # fmt: skip
"""Units of the engineering and of the design file."""


class SizeError(ValueError):
    """A size that cannot be used; its text names the field, the value and what would do.

    Parameters
    ----------
    says : one sentence in the builder's words.
    field : name of the field, empty where several sizes together are at fault.
    """

    def __init__(self, says: str, field: str = "") -> None:
        super().__init__(says)
        self.field = field


@dataclass(frozen=True)
class Size:
    """What is known of a field: label, unit, limits, and whether it is one of the main ones."""

    label: str
    unit: Unit = "mm"
    low: float = -math.inf
    high: float = math.inf
    main: bool = False
    help: str = ""
    choices: tuple[str, ...] = ()
    first: Any = None


def size(
    label: str,
    unit: Unit = "mm",
    low: float = 0.0,
    high: float = 10_000.0,
    *,
    default: Any = dataclasses.MISSING,
    main: bool = False,
    help: str = "",
    choices: tuple[str, ...] = (),
    first: Any = None,
    kw_only: bool = True,
) -> Any:
    """Declare a decision of the builder as a dataclass field.

    Parameters
    ----------
    label : name in the trade's words, as shown on the page.
    unit : unit in which the engineering and the file hold it.
    low, high : inclusive limits outside which the size makes no sense.
    default : value when the builder has said nothing; `None` means "not known".
    main : one of the half dozen that matter most, shown unfolded.
    help : one line for the builder.
    choices : the words allowed, where the unit is "choice".
    first : what the page begins a list with that is empty.
    kw_only : False where the order of the arguments is part of the public interface.
    """
    described = Size(label, unit, low, high, main, help, choices, first)
    return dataclasses.field(default=default, kw_only=kw_only, metadata={"size": described})


def figure(label: str, unit: Unit = "mm", *, main: bool = False, help: str = "") -> Any:
    """Declare a figure of a result as a dataclass field; `main` ones are the key numbers."""
    described = Size(label, unit, main=main, help=help)
    return dataclasses.field(kw_only=True, metadata={"size": described})


def sizes_of(kind: type) -> dict[str, Size]:
    """Return the described fields of a dataclass, by name, in the order of declaration."""
    return _sizes_of(kind)


@cache
def _sizes_of(kind: type) -> dict[str, Size]:
    return {f.name: f.metadata["size"] for f in dataclasses.fields(kind) if "size" in f.metadata}


def check_sizes(sizes: object) -> None:
    """Refuse a dataclass whose fields are not finite, out of their limits or not a known word.

    Called from `__post_init__` of every dataclass of decisions, so that a bad size is
    refused in the same words wherever it comes from.

    Raises
    ------
    SizeError : naming the field, the value and the range that would work.
    """
    for name, about in sizes_of(type(sizes)).items():
        check_size(name, about, getattr(sizes, name))


def check_size(name: str, about: Size, value: Any) -> None:
    """Refuse one value; see `check_sizes`."""
    if value is None:
        return
    if about.unit == "choice":
        if value not in about.choices:
            raise SizeError(
                f"{about.label}: “{value}” is not one of {', '.join(about.choices)}.", name
            )
        return
    if about.unit in ("text", "yes/no"):
        return
    for one in value if isinstance(value, tuple) else (value,):
        if isinstance(one, bool) or not isinstance(one, (int, float)):
            raise SizeError(f"{about.label}: {one!r} is not a number.", name)
        if not math.isfinite(one):
            raise SizeError(f"{about.label}: a finite number is needed, not {one}.", name)
        if not about.low <= one <= about.high:
            raise SizeError(f"{about.label}: {one:g} is out of range; {_range(about)}.", name)


def _range(about: Size) -> str:
    unit = "" if about.unit in ("ratio", "count", "scale") else f" {about.unit}"
    if math.isinf(about.high):
        return f"{about.low:g}{unit} or more would do"
    if math.isinf(about.low):
        return f"{about.high:g}{unit} or less would do"
    return f"{about.low:g} to {about.high:g}{unit} would do"
