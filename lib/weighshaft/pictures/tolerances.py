"""Pictures of the tolerances: what decides the beat, and how far the events scatter."""

from __future__ import annotations

import numpy as np

from ..motion.many_events import EVENTS
from ..tolerances import Dimension, Ranked, Tolerances, TolerancesResult
from ..tolerances.trials import by_proportion, half_band
from .scene import (
    Array,
    Chart,
    Curve,
    Fill,
    Label,
    Path,
    Pen,
    Picture,
    Primitive,
    Scene,
    Table,
    box,
)

_SHOWN, _LEAST = 10, 5e-4
_LONGEST = 50.0
_PITCH, _BAR = 13.0, 4.2
_NINETY = 1.645
_WORDS = {"cutoff": "cut-off"}


def pictures(tolerances: Tolerances, result: TolerancesResult) -> tuple[Picture, ...]:
    """Return the ranking, the scatter in charts, and the tables."""
    charts: list[Picture] = []
    if len(result.trials.percent) > 1 and result.drawn_running is not None:
        charts.append(beat_chart(tolerances, result))
    return (
        ranking(result),
        *charts,
        *([cutoff_chart(result)] if len(result.sensitivities.notches) > 2 else []),
        sensitivity_table(result),
        scatter_table(result),
    )


def ranking(result: TolerancesResult) -> Scene:
    """Return the dimensions as bars: what each at its limit does to the beat."""
    shown = [one for one in result.ranked if one.share > _LEAST][:_SHOWN]
    longest = max((max(abs(one.running), abs(one.full)) for one in shown), default=0.0)
    scale = _LONGEST / longest if longest > 0 else 0.0
    alike = result.running == 1.0
    still: list[Primitive] = []
    for i, one in enumerate(shown):
        y, running, full = -_PITCH * i, abs(one.running), abs(one.full)
        bars: list[tuple[float, float, Fill]] = [(full, 0.0 if alike else -_BAR / 2, "tint")]
        if not alike:
            bars.append((running, _BAR / 2, "metal"))
        for value, up, fill in bars:
            bar = box(0.0, y + up - 0.45 * _BAR, max(scale * value, 0.15), y + up + 0.45 * _BAR)
            still.append(Path(bar, "outline", closed=True, fill=fill))
        text = f"{full:.2f} %"
        if not alike:
            text = f"{running:.2f} %, {'in full gear ' if i == 0 else ''}{full:.2f} %"
        still.append(Label(text, (scale * max(running, full) + 1.5, y), "start"))
        still.append(Label(one.dimension.label, (-2.0, y), "end"))
    foot = -_PITCH * (max(len(shown), 1) - 0.4)
    still.append(Path(np.array([[0.0, 0.6 * _PITCH], [0.0, foot]]), "thin"))
    return Scene(
        "What decides the beat: the cut-offs moved apart by each dimension at its limit",
        _ranking_says(result, shown), tuple(still), to_scale=False,
    )  # fmt: skip


def _ranking_says(result: TolerancesResult, shown: list[Ranked]) -> str:
    if not shown:
        return "No dimension moves the difference between the cut-offs of the two ends."
    alike = result.running == 1.0
    told = "; ".join(
        f"{one.dimension.label} at {limit_of(one.dimension)} by {abs(one.running):.2g} % of the "
        f"stroke in {_at(result.running)}"
        + ("" if alike else f" and {abs(one.full):.2g} % in full gear")
        for one in shown[:3]
    )
    says = (
        f"These move the cut-offs of front and back apart most: {told}. Together they make "
        f"{result.three_share:.0f} % of the scatter."
    )
    if any(one.dimension.field in ("advance", "eccentric_throw") for one in result.ranked):
        says += " Throw and advance are those of all eccentrics of a side, erring alike."
    return says


def beat_chart(tolerances: Tolerances, result: TolerancesResult) -> Chart:
    """Return how often the difference of the cut-offs comes out how large."""
    row = result.trials.notches.index(result.running)
    cut = result.trials.percent[:, row, :, 1]
    apart = cut[:, 0] - cut[:, 1]
    counts, edges = np.histogram(apart, bins=max(8, round(len(apart) ** 0.5)))
    share = 100 * counts / len(apart)
    x = np.repeat(edges, 2)
    y = np.concatenate([[0.0], np.repeat(share, 2), [0.0]])
    drawn, sigma = result.drawn_running or 0.0, result.linear_running or 0.0
    curves = [Curve(x, y, f"{len(apart)} engines tried", "outline")]
    if sigma > 1e-6:
        fine = np.linspace(min(edges[0], drawn - 3 * sigma), max(edges[-1], drawn + 3 * sigma), 121)
        bell = np.exp(-(((fine - drawn) / sigma) ** 2) / 2) / (sigma * np.sqrt(2 * np.pi))
        curves.append(Curve(fine, 100 * bell * (edges[1] - edges[0]), "by proportion", "trace"))
    high = float(share.max())
    curves.append(Curve(np.full(2, drawn), np.array([0.0, high]), "as drawn", "changed"))
    low, top = np.percentile(apart, (5.0, 95.0))
    return Chart(
        f"Difference of the cut-offs of {len(apart)} engines, {_at(result.running)}",
        f"As drawn the front cuts off {_differs(drawn)}; nine in ten of {len(apart)} engines built "
        f"on paper come between {_differs(low)} and {_differs(top)}, with the valve "
        f"{tolerances.valve}.",
        "front less back, % of the stroke", "engines, %", tuple(curves),
    )  # fmt: skip


def cutoff_chart(result: TolerancesResult) -> Chart:
    """Return how far the cut-offs, and their difference, scatter in every notch."""
    moved = result.sensitivities
    notches = np.array(moved.notches)
    cut = moved.by_percent[..., 1]  # (k, m, 2)
    half = _NINETY * by_proportion(cut, result.dimensions)
    apart = _NINETY * by_proportion(cut[..., 0] - cut[..., 1], result.dimensions)
    tried = result.trials.percent[..., 1]
    curves: list[Curve] = []
    lines: tuple[tuple[str, Pen, Array, Array], ...] = (
        ("front", "outline", half[:, 0], tried[..., 0]),
        ("back", "changed", half[:, 1], tried[..., 1]),
        ("difference", "trace", apart, tried[..., 0] - tried[..., 1]),
    )
    for name, pen, band, values in lines:
        curves.append(Curve(notches, band, name, pen))
        for j, notch in enumerate(result.trials.notches):
            if len(values) > 1 and np.isfinite(values[:, j]).all():
                found = np.full(2, half_band(values[:, j]))
                curves.append(Curve(notch + np.array([-0.02, 0.02]), found, "", pen))
    row = moved.notches.index(result.running)
    front, back = (
        f"{moved.percent[row, e, 1]:.1f} % plus or minus {half[row, e]:.1f}"
        if np.isfinite(moved.percent[row, e, 1])
        else "never"
        for e in (0, 1)
    )
    return Chart(
        "How far the cut-offs scatter: nine engines in ten, to either side",
        f"In {_at(result.running)} the front cuts off at {front}, the back at {back}. Curves: by "
        "proportion; short strokes: of the engines tried.",
        "reverser, 1 is full forward, -1 full backward",
        "to either side, % of the stroke", tuple(curves),
    )  # fmt: skip


def sensitivity_table(result: TolerancesResult) -> Table:
    """Return how far events move for a tenth of a millimetre or a degree of each dimension."""
    moved = result.sensitivities
    row = moved.notches.index(result.running)
    rows = []
    for one in result.ranked:
        i = result.dimensions.index(one.dimension)
        step = 1.0 if one.dimension.unit == "deg" else 0.1
        percent = step * moved.by_percent[i, row]
        larger = "1°" if one.dimension.unit == "deg" else "0.1 mm"
        rows.append(
            (
                f"{one.dimension.label}, by {larger}",
                f"{limit_of(one.dimension)}, {one.dimension.made}",
                _moved(percent[0, 1]), _moved(percent[1, 1]), _moved(percent[0, 2]),
                _moved(percent[0, 3]), step * float(moved.by_lead[i, row, 0]) + 0.0,
                f"{100 * one.share:.1f} %",
            )
        )  # fmt: skip
    return Table(
        f"What each dimension moves, {_at(result.running)}",
        ("Dimension made larger", "Limit, and made by", "Cut-off, front, %", "Cut-off, back, %",
         "Release, front, %", "Compr., front, %", "Lead, front", "Of the beat's scatter"),
        tuple(rows),
        "Per cent of the stroke, in the order of what each does to the beat as it is made. "
        "Where a gear has one throw and one advance, all its eccentrics err alike.",
    )  # fmt: skip


def scatter_table(result: TolerancesResult) -> Table:
    """Return how the events of the running notch and of full gear scatter."""
    rows = []
    for notch in dict.fromkeys((result.running, 1.0)):
        for event in (*EVENTS, "lead"):
            for one in result.scatter:
                if one.notch == notch and one.event == event:
                    unit = "mm" if event == "lead" else "%"
                    digits = 3 if event == "lead" else 1
                    # a rounded minus nought would puzzle
                    drawn, low, high = (
                        round(v, digits) + 0.0 for v in (one.drawn, one.low, one.high)
                    )
                    rows.append(
                        (
                            _at(notch), f"{_WORDS.get(event, event)}, {one.end}",
                            f"{drawn:.{digits}f} {unit}",
                            f"{low:.{digits}f} to {high:.{digits}f} {unit}",
                            f"{one.deviation:.{digits + 1}f} {unit}",
                            f"{one.linear:.{digits + 1}f} {unit}",
                        )
                    )  # fmt: skip
    return Table(
        f"Scatter of the events of {len(result.trials.percent)} engines built on paper",
        ("Notch", "Event", "As drawn", "Nine in ten", "Standard deviation", "By proportion"),
        tuple(rows),
        "By proportion: from the derivatives, as if every error moved the event in proportion.",
    )  # fmt: skip


def limit_of(dimension: Dimension) -> str:
    """Return the limit to either side, as text."""
    unit = "°" if dimension.unit == "deg" else " mm"
    return f"±{dimension.limit:.3g}{unit}"


def _moved(value: float, digits: int = 2) -> str:
    if not np.isfinite(value):
        return "–"
    return "0" if abs(value) < 0.5 * 10.0**-digits else f"{value:+.{digits}f}"


def _differs(apart: float) -> str:
    if abs(apart) < 0.05:
        return "as the back"
    return f"{abs(apart):.1f} % {'later' if apart > 0 else 'earlier'} than the back"


def _at(notch: float) -> str:
    if notch == 0:
        return "mid gear"
    way = "forward" if notch > 0 else "backward"
    if abs(notch) == 1:
        return f"full {way} gear"
    return f"notch {abs(notch):.2g} {way}"
