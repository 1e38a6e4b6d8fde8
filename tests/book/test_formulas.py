"""Formulas for the typesetter: every relation of the package, and nothing but formulas."""

from __future__ import annotations

import importlib
import json
import pkgutil
from collections.abc import Iterator

import pytest
import typst

import weighshaft
from weighshaft.book.formulas import Untranslated, shortened, typeset
from weighshaft.working import Relation, Working

_LEFT_OUT = ("dashboard", "serve", "kernel", "__main__")


def relations() -> dict[str, Relation]:
    """Return every relation of the package by the name of its function."""
    found = {}
    for module in pkgutil.walk_packages(weighshaft.__path__, "weighshaft."):
        if module.name.split(".")[1] in _LEFT_OUT:
            continue
        for one in vars(importlib.import_module(module.name)).values():
            if isinstance(one, Relation):
                found[f"{one.function.__module__}.{one.function.__qualname__}"] = one
    return found


def lines(one: Relation) -> Iterator[str]:
    for value in (1.5, -2.0, 2.5e-7, 4.0e9):
        working = Working("", one, dict.fromkeys(one.symbols, value), 1.0, "mm")
        yield shortened(working.in_numbers())
    yield shortened(working.in_symbols())


def test_every_relation_is_set_and_the_typesetter_takes_it() -> None:
    found = relations()
    assert len(found) > 150
    made = [typeset(line) for one in found.values() for line in lines(one)]
    parts = {
        "main.typ": b'#for one in json("all.json") [#eval(one, mode: "math") #parbreak()]',
        "all.json": json.dumps(made).encode(),
    }
    assert typst.compile(parts).startswith(b"%PDF")  # type: ignore[call-overload]


@pytest.mark.parametrize(
    ("latex", "wanted"),
    [
        (r"\frac{a}{b}", "frac(a, b)"),
        (r"d_0^{2}", "d_(0)^(2)"),
        (r"\sqrt{R^{2} - x^{2}}", "sqrt(R^(2) - x^(2))"),
        (r"\sqrt[3]{x}", "root(3, x)"),
        (r"F_{\mathrm{max}}", 'F_(upright("max"))'),
        (r"\left(a + b\right)^{2}", r"lr(\( a + b \))^(2)"),
        (r"\operatorname{asin}{\left(x \right)}", r'op("asin") lr("" lr(\( x \)))'),
        (r"2 \times 10^{-7}", "2 times 10^(- 7)"),
        (r"f(a, b)", r"f \( a \, b \)"),
        (r"\varepsilon\,\epsilon", "epsilon thin epsilon.alt"),
    ],
)
def test_known_forms(latex: str, wanted: str) -> None:
    assert typeset(latex) == wanted


@pytest.mark.parametrize(
    "latex", ["#import", r"\input{x}", '"a"', "a$b", r"\mathrm{a\"#b}", "{a", "a}", r"\left(a"]
)
def test_what_is_not_known_is_refused(latex: str) -> None:
    with pytest.raises(Untranslated):
        typeset(latex)


def test_constants_are_short_and_the_natural_logarithm_has_its_name() -> None:
    assert shortened(r"57.2957795130823\,\log{x}") == r"57.2958\,\ln{x}"
