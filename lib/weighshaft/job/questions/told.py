"""An answer as text and as JSON, for the command."""

from __future__ import annotations

import textwrap
from typing import Any

from ...design.changes import label_of
from ...design.sentences import in_unit
from ...design.typed import LengthUnit, coordinate
from ...pictures.scene import Chart, Table
from .answer import Answer

_WIDE = 96


def answer_json(answer: Answer) -> dict[str, Any]:
    """Return an answer as plain data with stable keys, lengths in mm."""
    return {
        "question": answer.question.key,
        "asks": answer.question.asks,
        "says": answer.says,
        "uncertain": answer.uncertain,
        "figures": {name: float(value) for name, value in answer.figures.items()},
        "change": {path: float(value) for path, value in answer.change},
        "tables": [
            {"title": one.title, "columns": list(one.columns), "rows": [list(r) for r in one.rows]}
            for one in answer.pictures
            if isinstance(one, Table)
        ],
        "charts": [
            {
                "title": one.title, "x": one.x_label, "y": one.y_label,
                "curves": [
                    {"label": c.label, "x": c.x.tolist(), "y": c.y.tolist()} for c in one.curves
                ],
            }
            for one in answer.pictures
            if isinstance(one, Chart)
        ],
    }  # fmt: skip


def answer_text(answer: Answer, design: Any, unit: LengthUnit = "mm") -> str:
    """Return an answer as text.

    Parameters
    ----------
    design : that was asked about, for the names of its sizes.
    unit : of lengths.
    """
    parts = [
        answer.question.asks, "",
        textwrap.fill(in_unit(answer.says, unit), _WIDE), "",
        textwrap.fill(f"How sure: {in_unit(answer.uncertain, unit)}", _WIDE),
    ]  # fmt: skip
    for one in answer.pictures:
        if isinstance(one, Table):
            parts += ["", *_rows(one, unit)]
    if answer.change:
        parts += ["", "To take it, change in the design:"]
        parts += [
            f"  {label_of(design, path)}: {_value(path, value, design, unit)}"
            for path, value in answer.change
        ]
    return "\n".join(parts)


def _value(path: str, value: float, design: Any, unit: LengthUnit) -> str:
    from ...design.document import described

    return f"{coordinate(value, unit)} {unit}" if described(design, path).unit == "mm" else (
        f"{value:g}"
    )  # fmt: skip


def _rows(table: Table, unit: LengthUnit) -> list[str]:
    """Return a table in columns."""
    floats = any(isinstance(cell, float) for row in table.rows for cell in row)
    lines = [table.columns, *(tuple(_cell(cell, unit) for cell in row) for row in table.rows)]
    wide = [max(len(line[i]) for line in lines) for i in range(len(table.columns))]
    title = f"{table.title} (lengths in {unit})" if floats else table.title
    made = [
        "  ".join(
            cell.ljust(wide[i]) if i == 0 else cell.rjust(wide[i]) for i, cell in enumerate(line)
        ).rstrip()
        for line in lines
    ]
    return [title, *(f"  {line}" for line in made), *([f"  {table.note}"] if table.note else [])]


def _cell(cell: str | float, unit: LengthUnit) -> str:
    return cell if isinstance(cell, str) else coordinate(cell, unit)
