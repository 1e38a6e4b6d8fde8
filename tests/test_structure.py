"""The structure that every part keeps to: one direction of dependence, small modules, no tricks."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.designs import ROOT

PACKAGE = ROOT / "lib" / "weighshaft"
MODULES = tuple(sorted(PACKAGE.rglob("*.py")))
LONGEST = 400

ENGINEERING = {
    "scale", "cylinders", "motion", "wheels", "fits", "threads", "nozzle",
    "reversing", "clearance", "pivots", "tolerances", "valve_setting", "beside", "axlebox",
    "frames", "boiler", "gauging", "weights", "springing", "curving", "rods", "erection",
    "steam", "firing", "bench", "draught", "running",
}  # fmt: skip
BOTTOM = {"sizes", "findings", "working", "measures"}
ALLOWED: dict[str, set[str]] = {
    "sizes": set(),
    "findings": {"sizes"},
    "working": {"sizes"},
    "measures": set(),
    "places": set(),
    "trade": BOTTOM,
    **{chapter: BOTTOM | ENGINEERING | {"trade"} for chapter in ENGINEERING},
    "design": BOTTOM | ENGINEERING | {"trade", "workshop"},
    # pictures on paper spell sizes as design files do
    "pictures": BOTTOM | ENGINEERING | {"trade", "design", "workshop"},
    "workshop": BOTTOM | ENGINEERING | {"trade"},
    "job": BOTTOM | ENGINEERING | {"trade", "design", "workshop", "pictures"},
    "sheet": BOTTOM | ENGINEERING | {"trade", "design", "job"},
    "drawing_office": {"design", "pictures"},
    "dashboard": BOTTOM
    | ENGINEERING
    | {
        "trade",
        "design",
        "workshop",
        "pictures",
        "job",
        "sheet",
        "places",
        "drawing_office",
        "book",
    },
    "book": BOTTOM | ENGINEERING | {"trade", "design", "workshop", "pictures", "job", "sheet"},
    "serve": {"places"},
    "kernel": set(),
    "cli": {"design", "job", "sheet", "serve", "drawing_office", "book"},
    "__main__": {"cli"},
}
"""What each part of the package may import from the others."""

# the document model takes field types from the chapters, nothing that they compute with
FORBIDDEN_LIBRARIES = {
    **{
        part: {"ipywidgets", "anywidget", "IPython", "matplotlib", "pydantic", "voila"}
        for part in ENGINEERING
    },
    "trade": {"ipywidgets", "anywidget", "IPython", "matplotlib", "pydantic", "voila"},
    "workshop": {"ipywidgets", "anywidget", "IPython", "matplotlib", "pydantic", "voila"},
    "design": {"ipywidgets", "anywidget", "IPython", "matplotlib", "numpy", "voila"},
    "job": {"ipywidgets", "anywidget", "IPython", "matplotlib", "voila"},
    "book": {"ipywidgets", "anywidget", "IPython", "voila"},
    "pictures": {"ipywidgets", "anywidget", "IPython", "matplotlib", "voila"},
}


def part_of(module: Path) -> str:
    return module.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported(module: Path) -> Iterator[tuple[int, str]]:
    """Yield line and absolute name of all that a module imports, wherever in it."""
    here = ("weighshaft", *module.relative_to(PACKAGE).with_suffix("").parts)
    if here[-1] == "__init__":
        here = here[:-1]
        package = here
    else:
        package = here[:-1]
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            for one in node.names:
                yield node.lineno, one.name
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else ()
            name = ".".join((*base, *(node.module or "").split("."))).strip(".")
            if name == "weighshaft":
                yield from ((node.lineno, f"{name}.{one.name}") for one in node.names)
            else:
                yield node.lineno, name


@pytest.mark.parametrize("module", MODULES, ids=lambda m: str(m.relative_to(PACKAGE)))
def test_dependence_runs_one_way(module: Path) -> None:
    part = part_of(module)
    if part == "__init__":
        assert not list(imported(module))
        return
    wrong = []
    for line, name in imported(module):
        steps = name.split(".")
        if steps[0] != "weighshaft":
            on_paper = module.parent.name == "paper" and steps[0] == "matplotlib"
            if steps[0] in FORBIDDEN_LIBRARIES.get(part, set()) and not on_paper:
                wrong.append(f"line {line}: {name}")
            continue
        other = steps[1] if len(steps) > 1 else ""
        if other in ("", "__version__") or other == part:
            continue
        if other not in ALLOWED[part]:
            wrong.append(f"line {line}: {name}")
    assert not wrong, f"{module.relative_to(ROOT)} must not import {wrong}"


def test_the_rule_would_notice(tmp_path: Path) -> None:
    """Relative imports are resolved rightly, or the rule above would see nothing."""
    names = {name for _, name in imported(PACKAGE / "design" / "document.py")}
    assert {"weighshaft.sizes", "weighshaft.motion", "weighshaft.design.typed"} <= names


@pytest.mark.parametrize("module", MODULES, ids=lambda m: str(m.relative_to(PACKAGE)))
def test_modules_are_short_and_told_what_they_are(module: Path) -> None:
    text = module.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= LONGEST
    assert not text or ast.get_docstring(ast.parse(text)), "a module says in a line what it is"


def test_nothing_typed_is_ever_executed() -> None:
    wrong = []
    for module in MODULES:
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                name = getattr(node.func, "id", "")
                if name in {"eval", "exec", "compile", "__import__"}:
                    wrong.append(f"{module.relative_to(ROOT)}:{node.lineno} {name}")
            elif isinstance(node, ast.Import | ast.ImportFrom):
                names = [one.name for one in node.names] + [getattr(node, "module", "") or ""]
                if {"pickle", "marshal", "shelve"} & {one.split(".")[0] for one in names}:
                    wrong.append(f"{module.relative_to(ROOT)}:{node.lineno} {names}")
    assert not wrong


ASSETS = [
    path
    for folder in (PACKAGE, ROOT / "workbook")
    for path in sorted(folder.rglob("*"))
    if path.is_file()
    and path.suffix in {".py", ".js", ".mjs", ".css", ".html", ".j2", ".svg", ".ipynb", ".json"}
]
# names, never fetched: the namespace of SVG, the dialect of a schema, where to get Python
NAMES = ("http://www.w3.org/", "https://json-schema.org/", "https://www.python.org/downloads/")
# our own server, whose address is made up at run time
OURS = "http://{"


def test_nothing_is_fetched_from_elsewhere() -> None:
    wrong = []
    for path in ASSETS:
        for found in re.finditer(
            r"(?:https?:)?//[A-Za-z0-9{][^\s\"'<>)]*", path.read_text("utf-8")
        ):
            address = found[0]
            if address.startswith("//") and path.suffix not in {".html", ".css", ".j2"}:
                continue  # a comment of a script, or whole division
            if not address.startswith((*NAMES, OURS)):
                wrong.append(f"{path.relative_to(ROOT)}: {address}")
    assert not wrong


@pytest.mark.parametrize(
    "name",
    [
        "workbook/__main__.py",
        "workbook/setting_up.py",
        "tests/__main__.py",
        "tests/benchmarks/__main__.py",
    ],
)
def test_old_pythons_can_read_the_set_up_and_so_be_told(name: str) -> None:
    """Nothing newer than what Python 2.7 and 3.4 parse alike, or they would show a SyntaxError."""
    tree = ast.parse((ROOT / name).read_text(encoding="ascii"), feature_version=(3, 4))
    newer = (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr, ast.Match, ast.Nonlocal)
    for node in ast.walk(tree):
        assert not isinstance(node, (*newer, ast.AsyncFunctionDef, ast.YieldFrom)), node.lineno
        if isinstance(node, ast.Raise):
            assert node.cause is None, "raise … from … came with Python 3"
        if isinstance(node, ast.FunctionDef):
            assert not node.args.kwonlyargs
            assert node.returns is None
            assert all(one.annotation is None for one in node.args.args)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id != "print", "print is a statement in Python 2"
