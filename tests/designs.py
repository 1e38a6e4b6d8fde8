"""A complete design to try things on: a sample, or one put together from the chapters."""

from __future__ import annotations

import dataclasses
import typing
from pathlib import Path
from typing import Any

from weighshaft.design import CHAPTERS, Design, from_document, read
from weighshaft.sizes import Size, sizes_of

ROOT = Path(__file__).resolve().parents[1]
SAMPLES = tuple(sorted((ROOT / "sample_designs").glob("*.loco.json")))


def a_design() -> Design:
    """Return a complete design: a sample, or one put together from the chapters' own fields."""
    wanted = [path for path in SAMPLES if path.name.startswith("hartfell")] or SAMPLES
    return read(wanted[0]) if wanted else from_document(_put_together())


_KNOWN: dict[str, Any] = {
    "scale.prototype.gauge": "4 ft 8 1/2 in",
    "scale.ratio": "3/4 in/ft",
    "scale.track_gauge": 89,
    "cylinders.bore": "1 1/8 in",
    "cylinders.stroke": "1 5/8 in",
    "cylinders.connecting_rod": "5 in",
    "cylinders.pressure": 5.5,
    "cylinders.engine_weight": 18,
    "cylinders.coupled_weight": 18,
    "motion.valve.steam_lap": "3/32 in",
    "motion.valve.port_width": "1/8 in",
    "wheels.driving_diameter": "3 7/8 in",
    "wheels.standard": "",
    "nozzle.diameter": "1/8 in",
}


def _put_together() -> dict[str, Any]:
    hints = typing.get_type_hints(Design)
    chapters = {name: _group(hints[name], name) for name in CHAPTERS}
    return {"format": "weighshaft-design", "version": 1, "name": "Hartfell", **chapters}


def _group(kind: type, place: str) -> dict[str, Any]:
    made: dict[str, Any] = {"kind": kind.kind} if hasattr(kind, "kind") else {}
    hints, abouts = typing.get_type_hints(kind), sizes_of(kind)
    for one in dataclasses.fields(kind):
        path, hint = f"{place}.{one.name}", hints[one.name]
        kinds = [k for k in (hint, *typing.get_args(hint)) if dataclasses.is_dataclass(k)]
        needed = one.default is one.default_factory is dataclasses.MISSING
        if path in _KNOWN:
            made[one.name] = _KNOWN[path]
        elif needed and kinds:
            made[one.name] = _group(kinds[0], path)
        elif needed:
            made[one.name] = _any(abouts[one.name])
    return made


def _any(about: Size) -> Any:
    if about.choices:
        return about.choices[0]
    if about.unit in ("text", "yes/no"):
        return "" if about.unit == "text" else False
    return min(max(about.low, 1), about.high)
