"""Runs against what was reckoned of them, before and after the fit, and the coefficients."""

from __future__ import annotations

import numpy as np

from ..bench import Bench, BenchResult
from .scene import Band, Chart, Curve, Picture, Table

_WIDE = 0.18


def pictures(bench: Bench, result: BenchResult) -> tuple[Picture, ...]:
    """Return the charts where a fit stands, and the tables."""
    charts: list[Picture] = []
    if any(one.after is not None for one in result.compared):
        charts.append(off_chart(result))
    charts.append(known_chart(result))
    return (*charts, runs_table(result), known_table(result), *_plan(result))


def off_chart(result: BenchResult) -> Chart:
    """Return by how much each run was reckoned wrong, before the fit and after."""
    curves = [_across(len(result.compared), 0.0)]
    worst_before = worst_after = 0.0
    for one in result.compared:
        if not one.measured or one.before is None or one.after is None or one.band is None:
            continue
        at = float(one.number)
        before, after = (100 * (value / one.measured - 1) for value in (one.before, one.after))
        worst_before = max(worst_before, abs(before))
        worst_after = max(worst_after, abs(after)) if one.used == "yes" else worst_after
        first = len(curves) == 1
        room = one.within / 100
        low, high = 100 * (1 / (1 + room) - 1), 100 * room
        curves += [
            _dash(at - _WIDE, before, "before the fit" if first else "", "hidden"),
            _dash(at + _WIDE, after, "after" if first else "", "changed"),
            Curve(np.array([at, at]), np.array([low, high]),
                  "as read" if first else "", "outline"),
        ]  # fmt: skip
    return Chart(
        "Runs: how far out they were reckoned",
        f"Before the fit the worst run is reckoned {worst_before:.3g} % out; after it, "
        f"{worst_after:.3g} % of those used.",
        "run", "reckoned over measured (%)", tuple(curves), (Band(-5, 5, "within a twentieth"),),
    )  # fmt: skip


def _across(many: int, y: float) -> Curve:
    """Return a line across all of them."""
    return Curve(np.array([1 - 2.2 * _WIDE, many + 2.2 * _WIDE]), np.array([y, y]), "", "centre")


def _dash(at: float, y: float, label: str, pen: str) -> Curve:
    x = np.array([at - _WIDE / 2, at + _WIDE / 2])
    return Curve(x, np.array([y, y]), label, pen)  # type: ignore[arg-type]


def known_chart(result: BenchResult) -> Chart:
    """Return the coefficients within their ranges in practice: 0 the lowest seen, 100 the highest.

    Along the range by equal ratios, as the fit goes by logarithms.
    """
    curves = [_across(len(result.known), at) for at in (0.0, 100.0)]
    for number, one in enumerate(result.known, 1):
        at = float(number)

        def place(value: float, low: float = one.low, high: float = one.high) -> float:
            return float(np.clip(100 * np.log(value / low) / np.log(high / low), -60, 160))

        first = number == 1
        curves.append(_dash(at - _WIDE, place(one.now), "as the design has it" if first else "",
                            "hidden"))  # fmt: skip
        if one.value is None or one.least is None or one.most is None:
            continue
        curves += [
            _dash(at + _WIDE, place(one.value), "fitted" if first else "", "changed"),
            Curve(np.full(2, at + _WIDE), np.array([place(one.least), place(one.most)]),
                  "surely within" if first else "", "outline"),
        ]  # fmt: skip
    names = ", ".join(f"{i} {one.title}" for i, one in enumerate(result.known, 1))
    done = f"{result.determined} of {len(result.known)} coefficients are determined by the runs"
    return Chart(
        "Coefficients within what is seen in practice", f"{done}: {names}.",
        "coefficient", "% of the range, by equal ratios", tuple(curves),
        (Band(0, 100, "seen in practice"),),
    )  # fmt: skip


def runs_table(result: BenchResult) -> Table:
    """Return measured, and reckoned before and after the fit."""
    rows = tuple(
        (
            str(one.number), one.what,
            "–" if one.measured is None else f"{one.measured:.4g} {one.unit}",
            f"{one.within:.3g} %",
            "–" if one.before is None else f"{one.before:.3g}",
            "–" if one.after is None else f"{one.after:.3g}",
            "–" if one.band is None else f"± {one.band:.2g} %",
            one.used,
        )
        for one in result.compared
    )  # fmt: skip
    note = (
        "The band is what coefficients and reckoning leave open."
        if result.stands else "No fit stands: reckoned figures come with it."
    )  # fmt: skip
    return Table(
        "Measured, and reckoned before and after the fit",
        ("run", "what", "measured", "good to", "before", "after", "band", "used"),
        rows or (("–", "nothing measured yet", "–", "–", "–", "–", "–", "–"),), note,
    )  # fmt: skip


def known_table(result: BenchResult) -> Table:
    """Return the coefficients before and after."""
    rows = tuple(
        (
            one.title, one.told["now"], f"{one.told['low']} to {one.told['high']}",
            one.told.get("value", "–"),
            f"{one.told['least']} to {one.told['most']}" if "least" in one.told else "–",
            "yes" if one.determined else "no",
        )
        for one in result.known
    )  # fmt: skip
    return Table(
        "Coefficients before and after", ("coefficient", "now", "seen in practice", "fitted",
                                          "surely within", "determined"), rows,
        "What the runs do not determine stays at what is seen in practice, and only its range is "
        "known.",
    )  # fmt: skip


def _plan(result: BenchResult) -> tuple[Table, ...]:
    if not result.advice:
        return ()
    rows = tuple(
        (str(i), one.what, one.tells, f"{one.now:.2g} %", f"{one.then:.2g} %")
        for i, one in enumerate(result.advice, 1)
    )
    return (
        Table(
            "What to measure next, each on top of those before it",
            ("order", "measure", "tells most of", "known now to", "then to"), rows,
            "By slopes typical of small engines, and at the usual accuracy of each measurement.",
        ),
    )  # fmt: skip
