"""Relations that are written once, and both evaluated and shown as working.

A relation is a plain Python function of numbers.  Called with numbers it computes;
called with symbols it yields the expression that the page sets as mathematics.  sympy is
only imported when somebody unfolds a working, since its import would delay the page.
"""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from .sizes import Unit


class _Pi:
    """The circle constant: a float among numbers, the exact symbol among symbols."""

    def _sympy_(self) -> Any:
        import sympy

        return sympy.pi

    def __mul__(self, other: Any) -> Any:
        return math.pi * other if isinstance(other, (int, float)) else self._sympy_() * other

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Any:
        return math.pi / other if isinstance(other, (int, float)) else self._sympy_() / other

    def __rtruediv__(self, other: Any) -> Any:
        return other / math.pi if isinstance(other, (int, float)) else other / self._sympy_()


pi: Any = _Pi()


def _either(name: str) -> Callable[[Any], Any]:
    """Return a function that serves numbers from `math` and symbols from `sympy`."""
    numeric = getattr(math, name)

    def function(x: Any) -> Any:
        if isinstance(x, (int, float)):
            return numeric(x)
        import sympy

        return getattr(sympy, name)(x)

    function.__name__ = name
    return function


sqrt, sin, cos, tan, asin, atan, log, exp = map(
    _either, ("sqrt", "sin", "cos", "tan", "asin", "atan", "log", "exp")
)


@dataclass(frozen=True)
class Relation:
    """A relation of the trade: its function, the symbols it is written with and its source."""

    function: Callable[..., Any]
    result: str
    symbols: Mapping[str, str]
    source: str

    def __call__(self, *args: float, **kwargs: float) -> float:
        return float(self.function(*args, **kwargs))

    def work(self, label: str, unit: Unit, **values: float) -> Working:
        """Evaluate with `values` and return the working that the page can unfold."""
        return Working(label, self, dict(values), self(**values), unit)


def relation(result: str, source: str, **symbols: str) -> Callable[[Callable[..., Any]], Relation]:
    """Turn a function of numbers into a `Relation`.

    Parameters
    ----------
    result : LaTeX of the left-hand side.
    source : book, standard or "common practice".
    **symbols : LaTeX of arguments whose Python name does not serve.
    """

    def wrap(function: Callable[..., Any]) -> Relation:
        names = inspect.signature(function).parameters
        unknown = set(symbols) - set(names)
        if unknown:
            raise TypeError(f"{function.__name__} has no argument {sorted(unknown)}")
        return Relation(function, result, {n: symbols.get(n, n) for n in names}, source)

    return wrap


@dataclass(frozen=True)
class Working:
    """One figure with the way to it: relation, the numbers put in, result, source."""

    label: str
    relation: Relation
    values: Mapping[str, float] = field(hash=False)
    result: float
    unit: Unit

    def in_symbols(self) -> str:
        """Return the relation as LaTeX."""
        return f"{self.relation.result} = " + self._latex(self.relation.symbols, r"\,")

    def in_numbers(self) -> str:
        """Return the relation with the numbers in place of the symbols, as LaTeX."""
        numbers = {name: _tex(value) for name, value in self.values.items()}
        return f"{self.relation.result} = " + self._latex(numbers, r"\times")

    def _latex(self, names: Mapping[str, str], times: str) -> str:
        import sympy

        symbols, expression = _expression(self.relation.function, tuple(self.values))
        return str(
            sympy.latex(
                expression,
                symbol_names={symbols[name]: names[name] for name in symbols},
                mul_symbol=times,
            )
        )


def _tex(value: float) -> str:
    text = f"{value:.4g}"
    if "e" in text:
        mantissa, power = text.split("e")
        return rf"\left({mantissa} \times 10^{{{int(power)}}}\right)"
    return rf"\left({text}\right)" if value < 0 else text


@cache
def _expression(function: Callable[..., Any], names: tuple[str, ...]) -> tuple[dict[str, Any], Any]:
    """Return symbols by their names, and the expression that a function makes of them."""
    import sympy

    symbols = {name: sympy.Symbol(name, positive=True) for name in names}
    return symbols, sympy.sympify(function(**symbols))
