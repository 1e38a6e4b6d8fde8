"""Tables of gaps, widths and what the line lets through."""

from __future__ import annotations

from ..gauging import Gauging, GaugingResult, Near
from ..gauging.line import allowed
from ..gauging.sections import Station
from .scene import Table

_LISTED = 12
_ROWS = ("driving axle", "cylinders", "firebox", "cab")

Cells = tuple[str | float, ...]


def gap_table(result: GaugingResult) -> Table:
    """Return the least gaps with where and when they are."""
    rows: list[Cells] = []
    for one in result.near:
        clear: Cells = (one.gap, "–") if one.gap >= 0 else ("–", -one.gap)
        x, y, z = one.place
        rows.append(
            (
                f"{_named(one, 0)}, {_named(one, 1)}", *clear,
                "–" if one.told else one.wanted,
                "any" if one.crank_angle is None else f"{one.crank_angle:.0f}°",
                _state(one), f"{x:.0f}, {y:.0f}, {abs(z):.0f}",
            )
        )  # fmt: skip
    return Table(
        "Least gaps of the whole engine",
        ("parts", "clear by", "overlap by", "wanted", "crank", "then", "ahead, up, out in mm"),
        tuple(rows),
        "With axles up and down on their springs, side play and the trucks' swing taken up. Gaps "
        "of the motion are told in the room for the motion.",
    )


def _named(one: Near, which: int) -> str:
    name, side = (one.first, one.second)[which], one.sides[which]
    return f"{side} {name}" if one.sides[0] and one.sides[1] and len(set(one.sides)) > 1 else name


def _state(one: Near) -> str:
    if one.told:
        return "motion"
    said = [f"{name} {'up' if sign > 0 else 'down'}" for name, sign in one.rises]
    if one.play > 0:
        said.append(f"{one.play:.2f} aside")
    return ", ".join(said) or "at rest"


def width_table(result: GaugingResult) -> Table:
    """Return the width at every station and what stands outermost there."""
    rows: list[Cells] = []
    for one in result.stations:
        outermost = max(one.row, key=lambda each: each.outer + each.play, default=None)
        if outermost is None:
            continue
        rows.append(
            (
                one.name, f"{one.ahead:+.1f}", outermost.part, outermost.outer, outermost.play,
                one.width,
            )
        )  # fmt: skip
    return Table(
        "Widths along the engine",
        ("station", "ahead in mm", "outermost", "out to", "side play", "width"),
        tuple(rows),
        "Width over both sides, side play taken up.",
    )


def row_table(result: GaugingResult) -> Table:
    """Return the rows of parts from the centre line outwards at the main stations."""
    rows: list[Cells] = []
    chosen = [one for one in result.stations if one.name in _ROWS]
    for station in chosen:
        rows += [
            (station.name if n == 0 else "", one.part, one.inner, one.outer, *_to_next(station, n))
            for n, one in enumerate(station.row)
        ]
    return Table(
        "From the centre line outwards",
        ("station", "part", "from", "to", "side play", "low and high above the rail in mm"),
        tuple(_with_heights(result, rows, chosen)),
        "Heights are those of the room that a part takes all round the turn.",
    )


def _to_next(station: Station, n: int) -> Cells:
    return (station.row[n].play,)


def _with_heights(result: GaugingResult, rows: list[Cells], chosen: list[Station]) -> list[Cells]:
    rail = result.whole.rail
    heights = [
        f"{one.low - rail:.1f} to {one.high - rail:.1f}" for station in chosen
        for one in station.row
    ]  # fmt: skip
    return [(*row, height) for row, height in zip(rows, heights, strict=True)]


def line_tables(gauging: Gauging, result: GaugingResult) -> tuple[Table, ...]:
    """Return what stands nearest to the loading gauge and the rail, buffers and couplings."""
    made: list[Table] = []
    if result.gauge is not None:
        rows: list[Cells] = []
        for one in result.margins[:_LISTED]:
            beside = one.beside <= one.above
            least = one.least if abs(one.least) > 1e-9 else 0.0
            clear: Cells = (least, "–") if least >= 0 else ("–", -least)
            limit = 2 * allowed(result.gauge, one.height) if beside else result.gauge.top
            rows.append(
                (one.part, *clear, "beside" if beside else "above",
                 one.height if beside else result.gauge.top, limit if limit < 1e4 else "–")
            )  # fmt: skip
        made.append(
            Table(
                "Inside the loading gauge",
                ("part", "inside by", "outside by", "where", "above the rail", "allowed there"),
                tuple(rows),
                f"{result.gauge.name}, at model size. {result.gauge.note}".strip(),
            )
        )
    low: list[Cells] = [
        (one.part, *((one.over, "–") if one.over >= 0 else ("–", -one.over)),
         "yes" if one.sinks else "no")
        for one in result.low[:6]
    ]  # fmt: skip
    made.append(
        Table(
            "Lowest over the rail", ("part", "over it", "into it", "sinks on the springs"),
            tuple(low), "Springs down; horn stays and motion are told in their own chapters.",
        )
    )  # fmt: skip
    if result.compared:
        made.append(
            Table(
                "Buffers and couplings", ("what", "here", "standard", "from", "to", "source"),
                tuple(
                    (one.what, one.has, one.standard.name, one.standard.low, one.standard.high,
                     one.standard.sources)
                    for one in result.compared
                ),
                "Sources are listed beside the table of platforms and couplings.",
            )
        )  # fmt: skip
    return tuple(made)
