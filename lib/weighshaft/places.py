"""Where the notebooks, the page template and the sample designs are.

They travel inside an installed package; in a checkout they stand beside `lib`.
"""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def workbook() -> Path:
    """Return the folder with the notebooks and the page template."""
    return _find("workbook")


def samples() -> Path:
    """Return the folder of the sample designs."""
    return _find("sample_designs")


def _find(name: str) -> Path:
    checkout = _PACKAGE.parents[1]
    # the checkout first: an installation in place may hold older copies
    if (checkout / "pyproject.toml").is_file() and (checkout / name).is_dir():
        return checkout / name
    if (_PACKAGE / name).is_dir():
        return _PACKAGE / name
    raise FileNotFoundError(f"The folder “{name}” of Weighshaft is missing; install it anew.")
