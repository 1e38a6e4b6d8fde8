"""A picture with its lengths read out in the unit of the book, as the page reads them out."""

from __future__ import annotations

from dataclasses import replace

from ..design.sentences import in_unit
from ..design.typed import LengthUnit, spell
from ..measures import INCH
from ..pictures.lengths import AXIS, DIMENSION
from ..pictures.scene import (
    Band,
    Chart,
    Curve,
    Dimension,
    Label,
    Picture,
    Primitive,
    Scene,
    Table,
)
from ..sheet import MEASURED


def read_out(picture: Picture, key: str, unit: LengthUnit) -> Picture:
    """Return a picture with axes, dimensions and words in a unit.

    Parameters
    ----------
    key : chapter of the picture; only some have words that may be read out.
    unit : "mm" leaves it as it is.
    """
    if unit == "mm":
        return picture
    words: LengthUnit = unit if key in MEASURED else "mm"
    if isinstance(picture, Scene):
        still = tuple(_primitive(one, words) for one in picture.still)
        return replace(picture, title=in_unit(picture.title, words), still=still)
    if isinstance(picture, Chart):
        return _chart(picture, words)
    return _table(picture, words)


def _primitive(one: Primitive, words: LengthUnit) -> Primitive:
    if isinstance(one, Label):
        return replace(one, text=in_unit(one.text, words))
    if isinstance(one, Dimension):
        return replace(one, text=_dimension(one.text, words))
    return one


def _dimension(text: str, words: LengthUnit) -> str:
    """Return a dimension; one that is named, as in "pitch 0.635", goes with the words."""
    found = DIMENSION.fullmatch(text)
    if found is None or (words == "mm" and (found[1] or found[4])):
        return in_unit(text, words)
    before, number, named, behind = found.groups()
    value = spell(float(number.replace("−", "-")), "in")
    return f"{before}{value}{' in' if named else ''}{behind}"


def _chart(chart: Chart, words: LengthUnit) -> Chart:
    x_label, x_by = _axis(chart.x_label)
    y_label, y_by = _axis(chart.y_label)
    by = {"x": x_by, "y": y_by}

    def curve(one: Curve) -> Curve:
        return replace(one, x=one.x / x_by, y=one.y / y_by, label=in_unit(one.label, words))

    def band(one: Band) -> Band:
        return replace(
            one, low=one.low / by[one.axis], high=one.high / by[one.axis],
            label=in_unit(one.label, words),
        )  # fmt: skip

    return replace(
        chart, title=in_unit(chart.title, words), x_label=x_label, y_label=y_label,
        curves=tuple(map(curve, chart.curves)), bands=tuple(map(band, chart.bands)),
    )  # fmt: skip


def _axis(label: str) -> tuple[str, float]:
    """Return the name of an axis in inches, and what its values are divided by."""
    found = AXIS.fullmatch(label)
    return (label, 1.0) if found is None else (f"{found[1]}in", INCH)


def _table(table: Table, words: LengthUnit) -> Table:
    return replace(
        table,
        title=in_unit(table.title, words),
        columns=tuple(in_unit(one, words) for one in table.columns),
        rows=tuple(
            tuple(in_unit(one, words) if isinstance(one, str) else one for one in row)
            for row in table.rows
        ),
        note=in_unit(table.note, words),
    )
