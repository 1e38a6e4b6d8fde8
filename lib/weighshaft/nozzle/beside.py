"""The rules and cones beside the ejector: what each rule's size would draw."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from .cones import Layout
from .flow import Array
from .rules import Rule


class Scanned(Protocol):
    """What an ejector does with several sizes, each (n,)."""

    @property
    def draught(self) -> Array:
        """Mm water."""

    @property
    def back_pressure(self) -> Array:
        """Bar; NaN beyond 10."""

    @property
    def over_steam(self) -> Array:
        """Gases over steam, by weight."""


class Ejector(Protocol):
    """Jet, chimney and way of the gases, whichever nozzle or choke is tried in them."""

    def by_nozzle(self, layout: Layout, steam: float, diameters: Array) -> Scanned:
        """Return what nozzles (mm) do with `steam` kg/s."""

    def by_choke(self, layout: Layout, steam: float, chokes: Array) -> Scanned:
        """Return what chokes (mm) do with `steam` kg/s."""


@dataclass(frozen=True)
class Beside:
    """A size by a rule, and what the ejector makes of it.

    Parameters
    ----------
    of : "nozzle" or "choke".
    name : the rule in words.
    size : mm.
    draught : mm water; None where the steam needs more than 10 bar, and so the others.
    back_pressure : bar.
    over_steam : gases over steam, by weight.
    """

    of: str
    name: str
    size: float
    draught: float | None
    back_pressure: float | None
    over_steam: float | None


def side_by_side(
    rules: Iterable[Rule], layout: Layout, steam: float, ejector: Ejector,
    own: tuple[float, float],
) -> Iterator[Beside]:  # fmt: skip
    """Yield every rule's size with what the ejector makes of it, the decided ones first.

    Parameters
    ----------
    rules : a range gives two sizes.
    steam : kg/s.
    own : nozzle and choke as they are, mm.
    """
    rules = tuple(rules)
    for of, mine, tried in (
        ("nozzle", own[0], ejector.by_nozzle), ("choke", own[1], ejector.by_choke)
    ):  # fmt: skip
        named = [("as decided" if of == "nozzle" else "as taken", mine)]
        if of == "choke" and layout.wanted_choke is not None:
            named.append(("both cones touching", layout.wanted_choke))
        for rule in rules:
            if rule.of != of:
                continue
            named.append((rule.name, rule.value))
            if rule.upper is not None:
                named.append((f"{rule.name}: upper end", rule.upper))
        sizes = np.array([size for _, size in named], dtype=float)
        made = tried(layout, steam, sizes)
        for i, (name, size) in enumerate(named):
            yield Beside(
                of, name, float(size), _known(made.draught[i]), _known(made.back_pressure[i]),
                _known(made.over_steam[i]),
            )  # fmt: skip


def _known(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None
