"""Metal to buy and to cut: every part's blank, bars laid out in their lengths, plate."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator

from ..design.typed import LengthUnit, spell
from ..findings import COMMON
from ..measures import INCH
from ..trade.stock import Stock, stock_sizes
from ..workshop.machines import Piece, Rack
from .blanks import BARS, Blank
from .blocks import Block, Grid, Words
from .nesting import Bar, nested
from .rack import Length, from_rack

Mm = Callable[[float], str]
"""Spells a length in mm, with its unit or bare."""
_TURNED = 0.5
"""Least to be turned off a bar that is not of the finished size, mm on diameter."""
_SAME = 0.03
"""A bar so near to the finished size is left as drawn, mm."""


def metal(blanks: tuple[Blank, ...], rack: Rack, metric: bool, unit: LengthUnit) -> list[Block]:
    """Return the tables of what is to be cut and bought.

    Parameters
    ----------
    blanks : of the whole engine.
    rack : lengths owned and what cuts take.
    metric : whether bar is bought in metric sizes alone.
    unit : of the lengths shown.
    """

    def bare(value: float) -> str:
        return spell(value, unit, 1 if unit == "mm" else 3)

    def mm(value: float) -> str:
        return f"{bare(value)} {unit}"

    cuts = [
        (
            one.part, one.material, _stock_of(one, metric, mm), bare(one.length),
            _cut(one, rack, bare), str(one.count), one.remark,
        )
        for one in blanks
    ]  # fmt: skip
    taken, bought = from_rack(blanks, rack)
    return [
        Words(
            f"Each piece of bar is cut {mm(2 * rack.facing)} over its length, for facing both "
            f"ends, each piece of plate {mm(2 * rack.edge)} over both ways; saw or parting tool "
            f"take {mm(rack.parting)} more at each cut. Sizes are those of the bodies that make "
            "the model of the engine: look at the drawing before the metal is bought. Sizes of bar "
            f"and tube are those usually kept ({COMMON})."
        ),
        Grid(
            "What each part is cut from",
            (
                "part",
                "metal",
                "cut from",
                f"finished, {unit}",
                f"cut to, {unit}",
                "pieces",
                "remark",
            ),
            tuple(cuts),
        ),
        *_from_rack(taken, rack, mm, bare, unit),
        Grid(
            "Bar and tube to buy",
            ("metal", "section", f"bars, {unit}", f"cut from each, {unit}", f"left over, {unit}"),
            tuple(_bars(bought, rack, metric, mm, bare)),
            "Longest pieces first, each into the first bar that holds it; lengths as they are cut. "
            "What is left over is what remains of each bar after its last cut.",
        ),
        Grid(
            "Plate and blocks to buy",
            ("metal", "thickness", "pieces", "largest piece", "area in all"),
            tuple(_plates(bought, rack, mm, unit)),
            "The area is that of the pieces with their edges; what lies between them on the plate "
            "comes on top.",
        ),
    ]


def _from_rack(
    taken: tuple[Length, ...], rack: Rack, mm: Mm, bare: Mm, unit: LengthUnit
) -> list[Block]:
    """Return the table of what is cut from the rack; none where nothing is known to be there."""
    if not rack.pieces:
        return []
    rows: Counter[tuple[str, ...]] = Counter(
        (
            one.piece.metal, _owned(one.piece, mm),
            ", ".join(
                f"{count} × {size} ({part})"
                for (part, size), count in Counter(
                    (cut.part, bare(cut.length) + (f" × {bare(cut.width)}" if cut.width else ""))
                    for cut in one.cut
                ).items()
            ),
            bare(one.left) if one.piece.shape in BARS else _offcut(one, bare),
        )
        for one in taken
    )  # fmt: skip
    if not rows:
        return [Words("Of the metal in the rack nothing is of a section that this engine needs.")]
    return [
        Grid(
            "From the rack, before anything is bought",
            ("lengths", "metal", "section", f"cut from it, {unit}", f"left over, {unit}"),
            tuple((str(count), *row) for row, count in rows.items()),
            "What lies in the rack by the lists of the workshop; the tables after this one hold "
            "what it does not yield. A bar a little larger is turned or filed down. Measure it "
            "first: what was sawn off since the list was written still stands on it.",
        )
    ]


def _owned(piece: Piece, mm: Mm) -> str:
    second = f" × {mm(piece.second)}" if piece.second is not None else ""
    return f"{piece.shape} {mm(piece.across)}{second}, {mm(piece.length)} long"


def _offcut(one: Length, bare: Mm) -> str:
    """Return the largest rectangle that is left of a plate."""
    if not one.free:
        return "nothing"
    *_, long, wide = max(one.free, key=lambda free: free[2] * free[3])
    return f"{bare(long)} × {bare(wide)}"


def _stock_of(blank: Blank, metric: bool, mm: Mm) -> str:
    section = blank.section
    if blank.form == "round bar":
        found = bar_for(section[0], metric)
        if found is None:
            return f"round bar, {mm(section[0])} and more"
        if abs(found.diameter - section[0]) <= _SAME:
            return f"round bar {found.name}, as drawn"
        return f"round bar {found.name}, turned to {mm(section[0])}"
    if blank.form == "hexagon bar":
        return f"hexagon bar, {mm(section[0])} across flats"
    if blank.form == "tube":
        near = tube_for(section[0], metric)
        kept = f"; nearest kept {near.name}" if near and near.diameter != section[0] else ""
        return f"tube {mm(section[0])} outside, wall {mm(section[1])}{kept}"
    if blank.form == "flat bar":
        return f"flat bar {mm(section[0])} × {mm(section[1])}"
    if blank.form == "made up":
        return f"{mm(section[0])} × {mm(section[1])} over all"
    return f"{blank.form} {mm(section[0])}"


def _cut(blank: Blank, rack: Rack, bare: Mm) -> str:
    if blank.form in BARS:
        return bare(blank.length + 2 * rack.facing)
    if blank.form == "made up":
        return "to the drawing"
    return f"{bare(blank.length + 2 * rack.edge)} × {bare(blank.width + 2 * rack.edge)}"


def _section(blank: Blank, metric: bool, mm: Mm) -> str:
    """Return the section that is bought, in words."""
    if blank.form == "round bar":
        found = bar_for(blank.section[0], metric)
        return f"round {found.name if found else mm(blank.section[0]) + ' and more'}"
    return _stock_of(blank, metric, mm)


def _bars(
    blanks: Iterable[Blank], rack: Rack, metric: bool, mm: Mm, bare: Mm
) -> Iterator[tuple[str, ...]]:
    wanted: dict[tuple[str, str], list[float]] = defaultdict(list)
    for one in blanks:
        if one.form in BARS:
            cut = one.length + 2 * rack.facing
            wanted[one.material, _section(one, metric, mm)] += [cut] * one.count
    for (material, section), pieces in sorted(wanted.items()):
        bars, long = nested(pieces, rack.lengths, rack.parting)
        for bar, count in Counter(bars).items():
            yield (
                material, section, f"{count} × {bare(bar.length)}",
                _pieces(bar, bare), bare(bar.left),
            )  # fmt: skip
        for piece in long:
            yield material, section, "1 to length", bare(piece), "longer than any bar owned"


def _pieces(bar: Bar, bare: Mm) -> str:
    return ", ".join(f"{count} × {bare(one)}" for one, count in Counter(bar.pieces).items())


def _plates(
    blanks: Iterable[Blank], rack: Rack, mm: Mm, unit: LengthUnit
) -> Iterator[tuple[str, ...]]:
    grouped: dict[tuple[str, str, float], list[Blank]] = defaultdict(list)
    for one in blanks:
        if one.form in ("plate", "block"):
            grouped[one.material, one.form, round(one.section[0], 1)].append(one)
    for (material, form, thick), group in sorted(grouped.items()):
        sizes = [
            (one.length + 2 * rack.edge, one.width + 2 * rack.edge, one.count) for one in group
        ]
        long, wide, _ = max(sizes)
        area = sum(a * b * n for a, b, n in sizes)
        spread = f"{area / 100:.0f} cm²" if unit == "mm" else f"{area / INCH**2:.1f} sq in"
        yield (
            material, f"{mm(thick)}{', block' if form == 'block' else ''}",
            str(sum(n for *_, n in sizes)), f"{mm(long)} × {mm(wide)}", spread,
        )  # fmt: skip


def bar_for(diameter: float, metric: bool) -> Stock | None:
    """Return the bar to take for a finished diameter, mm, or None beyond what is kept."""
    kept = [one for one in stock_sizes("bar") if one.series == "metric" or not metric]
    drawn = [one for one in kept if abs(one.diameter - diameter) <= _SAME]
    larger = [one for one in kept if one.diameter >= diameter + _TURNED]
    return next(iter(drawn or larger), None)


def tube_for(diameter: float, metric: bool) -> Stock | None:
    """Return the tube nearest to an outside diameter, mm, or None where none is near."""
    kept = [one for one in stock_sizes("tube") if one.series == "metric" or not metric]
    near = min(kept, key=lambda one: abs(one.diameter - diameter))
    return near if abs(near.diameter - diameter) <= 0.06 * diameter else None
