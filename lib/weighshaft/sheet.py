"""The decision sheet of a worked design: as JSON with stable keys, and as text to be read."""

from __future__ import annotations

import dataclasses
import math
import textwrap
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

import numpy as np

from .design.changes import label_of, spelt, title_of
from .design.document import CHAPTERS, to_document
from .design.sentences import in_unit
from .design.typed import LengthUnit
from .findings import LEVELS, Finding
from .job import Work
from .measures import INCH
from .motion.events import Event, ValveEvents
from .sizes import Size, sizes_of
from .working import Working

FORMAT = "weighshaft-sheet"
VERSION = 1
TITLES = {
    "scale": "Prototype and scale",
    "cylinders": "Cylinders and haulage",
    "motion": "Valves and motion",
    "beside": "Two gears side by side",
    "reversing": "Reverser and both sides",
    "pivots": "The best place for the pivots",
    "tolerances": "What must be held tight",
    "axlebox": "The motion on its springs",
    "clearance": "Room for the motion",
    "valve_setting": "Setting the valves on the air line",
    "wheels": "Wheels and axles",
    "threads": "Threads and fittings",
    "nozzle": "Blast nozzle",
    "frames": "The engine in its frames",
    "boiler": "The boiler in the frames",
    "gauging": "Widths, clearances and the loading gauge",
    "weights": "Weight, axle loads and adhesion",
    "springing": "Axle springs and horns",
    "curving": "Round the curves",
    "rods": "Rods, crossheads and balance",
    "erection": "Putting together and taking apart",
    "machines": "Machines and tools owned",
    "slots": "Curved slots and arcs",
    "patterns": "Holes, ports and tapers",
    "eccentrics": "Eccentrics, cranks and quartering",
    "screwcutting": "Screwcutting, dividing and speeds",
    "fitting": "Joints, glands and rings",
    "steam": "The steam in the cylinder",
    "firing": "Fire, boiler and feed",
    "bench": "Measured on the bench and on the line",
    "draught": "Blast and draught",
    "running": "Pull, train and track",
}
# every length in their sentences is a measure, none the name of a drill or a thread
MEASURED = (
    "motion", "beside", "reversing", "pivots", "tolerances", "axlebox", "clearance",
    "valve_setting", "frames", "boiler", "gauging", "weights", "springing", "curving", "rods",
    "erection", "steam", "firing", "bench", "running", "draught", "machines", "slots", "patterns",
    "eccentrics", "screwcutting", "fitting",
)  # fmt: skip
_WIDE = 92
_LONGEST_ARRAY = 60
_DIGITS = 9
_LEFT_OUT = object()
# the findings of all chapters stand together, once, at the top of the sheet
_SKIPPED = ("workings", "findings")
# decisions that a result carries for its pictures; they stand among the particulars
_GIVEN = ("problem", "valve", "gear", "crank", "setting", "shown")


def decision_sheet(work: Work) -> dict[str, Any]:
    """Return everything that was worked out as plain JSON data.

    Keys are the names of the fields; sizes in mm, degrees, N, bar and so on; what does not
    occur or is not known is None.  Curves and workings, which pictures are made of, are
    left out.
    """
    sheet: dict[str, Any] = {"format": FORMAT, "version": VERSION, "name": work.design.name}
    sheet["design"] = to_document(work.design)
    sheet["findings"] = as_data(work.findings)
    for chapter in CHAPTERS:
        sheet[chapter] = as_data(getattr(work, chapter))
    return sheet


def as_data(value: Any) -> Any:
    """Return a result as plain JSON data; see `decision_sheet` for what is left out."""
    made = _data(value)
    return None if made is _LEFT_OUT else made


def _data(value: Any) -> Any:
    if isinstance(value, np.generic):
        value = value.item()
    if value is None or isinstance(value, (bool, str)):
        return value
    if isinstance(value, int):
        return int(value)
    if isinstance(value, float):
        return float(f"{value:.{_DIGITS}g}") if math.isfinite(value) else None
    if isinstance(value, Event):
        return _data(value.percent)
    if isinstance(value, np.ndarray):
        if value.ndim > 1 or value.size > _LONGEST_ARRAY:
            return _LEFT_OUT
        return [_data(one) for one in value.tolist()] if value.ndim else _data(value.item())
    if isinstance(value, Mapping):
        return _kept({str(key): _data(one) for key, one in value.items()})
    if isinstance(value, (tuple, list, frozenset, set)):
        ordered = sorted(value, key=str) if isinstance(value, (set, frozenset)) else value
        return [made for one in ordered if (made := _data(one)) is not _LEFT_OUT]
    if dataclasses.is_dataclass(value) and not isinstance(value, (type, Working)):
        names = [f.name for f in dataclasses.fields(value) if f.name not in _SKIPPED]
        return _kept({name: _data(getattr(value, name)) for name in names})
    return _LEFT_OUT


def _kept(made: dict[str, Any]) -> dict[str, Any]:
    return {key: one for key, one in made.items() if one is not _LEFT_OUT}


# --- to be read ---------------------------------------------------------------------------


def sheet_text(work: Work, unit: LengthUnit = "mm") -> str:
    """Return the decision sheet as text.

    Parameters
    ----------
    work : a worked design.
    unit : in which lengths that were worked out are shown, "mm" or "in"; what the builder
        typed stays as typed.
    """
    design = work.design
    lines = [design.name, "=" * min(len(design.name), _WIDE), "", "LEADING PARTICULARS", ""]
    lines += _rows(
        (label, text)
        for chapter in CHAPTERS
        for label, text in _decisions(getattr(design, chapter), unit)
    )
    lines += ["", f"FINDINGS   {_counted(work.findings)}", ""]
    for finding in work.findings:
        if finding.level != "fine":
            lines += _finding(finding, unit, f"{TITLES.get(finding.chapter, finding.chapter)}: ")
    for number, chapter in enumerate(CHAPTERS, 1):
        lines += ["", f"{number}  {TITLES[chapter].upper()}", ""]
        lines += _chapter(getattr(work, chapter), unit)
        fine = [one for one in work.findings if (one.chapter, one.level) == (chapter, "fine")]
        lines += (
            ["", *(line for finding in fine for line in _finding(finding, unit))] if fine else []
        )
    if design.notes:
        lines += ["", "NOTES", ""]
        for path, note in design.notes.items():
            lines += _wrapped(f"{label_of(design, path)}: {note}", "  ")
    text = "\n".join(map(_printable, lines))
    return f"{text.rstrip()}\n"


def _chapter(result: Any, unit: LengthUnit) -> list[str]:
    if result is None:
        return ["  cannot be worked: see the findings"]
    heed = [
        line
        for caution in getattr(result, "cautions", ())
        for line in _wrapped(in_unit(caution, unit), "  HEED  ")
    ]
    rows = _rows(figures_of(result, unit)) or ["  nothing chosen yet"]
    return [*heed, *([""] if heed else []), *rows, *_events(getattr(result, "events", ()), unit)]


def _decisions(group: Any, unit: LengthUnit, within: str = "") -> Iterator[tuple[str, str]]:
    """Yield label and value of the main decisions of a chapter, also of its groups."""
    for name, about in sizes_of(type(group)).items():
        value = getattr(group, name)
        if about.main and value is not None and not dataclasses.is_dataclass(value):
            yield f"{within}{about.label}", spelt(value, about, unit)
    for one in dataclasses.fields(group):
        inner = getattr(group, one.name)
        if dataclasses.is_dataclass(inner):
            yield from _decisions(inner, unit, f"{heading_of(inner)}: ")


def figures_of(result: Any, unit: LengthUnit, depth: int = 0) -> Iterator[tuple[str, str]]:
    """Yield label and value of the figures of a result; a heading has no value.

    Parameters
    ----------
    result : of a chapter, or a group within one.
    unit : in which lengths that were worked out are shown.
    depth : of the group; groups further in than two are left out.
    """
    groups = []
    for one in dataclasses.fields(result):
        value, about = getattr(result, one.name), sizes_of(type(result)).get(one.name)
        if isinstance(value, ValveEvents):
            continue  # they have a table of their own
        if dataclasses.is_dataclass(value) and not isinstance(value, (type, Event)):
            if one.name not in _GIVEN:
                groups.append(value)
        elif about is not None and value is not None and (text := _figure(value, about, unit)):
            yield about.label, text
    for group in groups:
        rows = list(figures_of(group, unit, depth + 1)) if depth < 2 else []
        if rows:
            yield heading_of(group), ""
            yield from ((f"  {label}", text) for label, text in rows)


def heading_of(group: Any) -> str:
    """Return what a group of sizes is called."""
    title = title_of(group)
    if title != type(group).__name__:
        return title
    return (
        "".join(f" {one.lower()}" if one.isupper() else one for one in title).strip().capitalize()
    )


def _figure(value: Any, about: Size, unit: LengthUnit) -> str:
    if isinstance(value, np.generic):
        value = value.item()
    if isinstance(value, Event):
        value = value.percent
    if isinstance(value, float):
        if not math.isfinite(value):
            return ""
        if about.unit != "mm":
            # 4 figures are more than steam and castings can tell
            rounded = float(f"{value:.4g}")
            value = round(value) if abs(rounded) >= 1000 else rounded
    return spelt(value, about, unit) if isinstance(value, (bool, int, float, str)) else ""


def _rows(pairs: Iterable[tuple[str, str]]) -> list[str]:
    rows = list(pairs)
    width = max((len(label) for label, _ in rows), default=0)
    return [
        line.rstrip() for label, text in rows for line in _wrapped(text, f"  {label:<{width}}  ")
    ]


def _counted(findings: tuple[Finding, ...]) -> str:
    counts = [(level, sum(one.level == level for one in findings)) for level in LEVELS]
    return ", ".join(f"{count} {level}" for level, count in counts if count) or "none"


def _finding(finding: Finding, unit: LengthUnit, about: str = "") -> list[str]:
    parts = [part for part in (finding.says, finding.mend) if part]
    said = " ".join(part if part.endswith((".", "!", "?")) else f"{part}." for part in parts)
    if finding.chapter in MEASURED:
        said = in_unit(said, unit)
    return _wrapped(f"{about}{said} ({finding.source})", f"  {finding.level.upper():<6}")


def _wrapped(text: str, head: str) -> list[str]:
    return textwrap.wrap(text, _WIDE, initial_indent=head, subsequent_indent=" " * len(head)) or [
        head
    ]


def _events(events: Any, unit: LengthUnit) -> list[str]:
    """Return the valve events as a table; percentages of the stroke from each end."""
    rows = [one for one in events if isinstance(one, ValveEvents)] if events else []
    if not rows:
        return []
    head = ("reverser", "end", "lead", "opening", "admission", "cut-off", "release", "compr.")
    lines = ["", f"  Valve events, {unit} and % of the stroke from that end", ""]
    lines.append("  " + "".join(f"{one:>10}" for one in head))
    for row in rows:
        for end in ("front", "back"):
            side = getattr(row, end)
            cells = [f"{row.reverser:+.2f}" if end == "front" else "", end]
            cells += [_length(side.lead, unit), _length(side.port_opening, unit)]
            for name in ("admission", "cutoff", "release", "compression"):
                event = getattr(side, name)
                cells.append("none" if event is None else f"{event.percent:.1f}")
            lines.append("  " + "".join(f"{one:>10}" for one in cells))
    return lines


def _length(mm: float, unit: LengthUnit) -> str:
    return f"{mm:.2f}" if unit == "mm" else f"{mm / INCH:.4f}"


def _printable(text: str) -> str:
    """Keep what a builder typed from steering the terminal."""
    return "".join(one if one.isprintable() else "�" for one in text)
