"""Metal that is in the rack: what of the engine is cut from it, before anything is bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from ..workshop.machines import FLAT, HEXAGON, PLATE, ROUND, TUBE, Piece, Rack
from .blanks import BARS, Blank

_SAME, _TURNED = 0.03, 0.5
"""A bar so near to the finished size (mm) is left as drawn; least that is else turned off it."""
_MOST_OVER = 1.5
"""A bar of more than so many times the finished size is kept for something else; as is a flat
or a plate more than this (mm) too thick.  Common practice."""
_NEAR = 0.1
"""Hexagon, tube and plate so near (mm) are the same; common practice."""

Rectangle = tuple[float, float, float, float]
"""Left, bottom, length and width, mm."""


@dataclass(frozen=True)
class Laid:
    """A piece cut: of which part, its length and, of a plate, its width and place, mm."""

    part: str
    length: float
    width: float = 0.0
    at: tuple[float, float] = (0.0, 0.0)


@dataclass
class Length:
    """One length of the rack as it is used up: what is cut from it and what is free, mm."""

    piece: Piece
    cut: list[Laid] = field(default_factory=list)
    left: float = 0.0
    free: list[Rectangle] = field(default_factory=list)


def from_rack(blanks: Iterable[Blank], rack: Rack) -> tuple[tuple[Length, ...], tuple[Blank, ...]]:
    """Return what is cut from each length in the rack, and what is left to be bought.

    The longest first; each from the least bar, flat or plate that serves, of these the one
    of which least is left, so that whole lengths stay whole.

    Parameters
    ----------
    blanks : of the whole engine.
    rack : what is there, and what cuts take.
    """
    lengths = [
        Length(piece, left=piece.length, free=[(0.0, 0.0, piece.length, piece.second or 0.0)])
        for piece in rack.pieces
        for _ in range(piece.number)
    ]
    blanks = tuple(blanks)
    wanted = sorted(
        (-_cut(one, rack)[0], n) for n, one in enumerate(blanks) for _ in range(one.count)
    )
    served: Counter[int] = Counter()
    for _, n in wanted:
        served[n] += _serve(blanks[n], lengths, rack)
    bought = tuple(
        replace(one, count=one.count - served[n])
        for n, one in enumerate(blanks)
        if served[n] < one.count
    )
    return tuple(one for one in lengths if one.cut), bought


def _cut(blank: Blank, rack: Rack) -> tuple[float, float]:
    """Return length and width of a blank as it is cut, mm."""
    if blank.form in BARS:
        return blank.length + 2 * rack.facing, 0.0
    return blank.length + 2 * rack.edge, blank.width + 2 * rack.edge


def _serve(blank: Blank, lengths: list[Length], rack: Rack) -> bool:
    """Cut a blank from the best of the lengths; return whether there was one."""
    fit = [one for one in lengths if serves(one.piece, blank)]
    long, wide = _cut(blank, rack)
    if blank.form != PLATE:
        fit = [one for one in fit if one.left >= long - 1e-9]
        if not fit:
            return False
        best = min(fit, key=lambda one: (one.piece.across, one.left))
        best.cut.append(Laid(blank.part, long))
        best.left = max(best.left - long - rack.parting, 0.0)
        return True
    places = [
        (one.piece.across, free[2] * free[3], n, place, turned)
        for n, one in enumerate(fit)
        for place, free in enumerate(one.free)
        for turned in (False, True)
        if _goes(free, (wide, long) if turned else (long, wide))
    ]
    if not places:
        return False
    *_, n, place, turned = min(places)
    _lay(fit[n], place, blank.part, (wide, long) if turned else (long, wide), rack.parting)
    return True


def _goes(free: Rectangle, size: tuple[float, float]) -> bool:
    return size[0] <= free[2] + 1e-9 and size[1] <= free[3] + 1e-9


def _lay(sheet: Length, place: int, part: str, size: tuple[float, float], kerf: float) -> None:
    """Cut a rectangle out of a corner of a free one: two straight cuts right across it."""
    x, y, long, wide = sheet.free.pop(place)
    sheet.cut.append(Laid(part, *size, (x, y)))
    beyond, beside = long - size[0] - kerf, wide - size[1] - kerf
    # the first cut is the one that leaves the larger piece whole
    if beyond * wide >= beside * long:
        rest = [(x + size[0] + kerf, y, beyond, wide), (x, y + size[1] + kerf, size[0], beside)]
    else:
        rest = [(x, y + size[1] + kerf, long, beside), (x + size[0] + kerf, y, beyond, size[1])]
    sheet.free += [one for one in rest if one[2] > 0 and one[3] > 0]


def serves(piece: Piece, blank: Blank) -> bool:
    """Whether a blank can be made of a piece of the rack, its length aside."""
    if piece.metal != blank.material or piece.shape != blank.form:
        return False
    across, wanted = piece.across, blank.section[0]
    if piece.shape == ROUND:
        over = across - wanted
        return abs(over) <= _SAME or _TURNED <= over <= (_MOST_OVER - 1) * wanted + _TURNED
    if piece.shape == HEXAGON:
        return abs(across - wanted) <= _NEAR
    if piece.second is None:
        return False
    if piece.shape == TUBE:
        return abs(across - wanted) <= _NEAR and abs(piece.second - blank.section[1]) <= _NEAR
    if piece.shape == FLAT:
        overs = (across - wanted, piece.second - blank.section[1])
        return all(-_SAME <= one <= _MOST_OVER for one in overs)
    return -_SAME <= across - wanted <= _NEAR
