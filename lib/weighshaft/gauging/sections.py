"""The engine cut across: what stands at a station, from the centre line outwards."""

from __future__ import annotations

from dataclasses import dataclass

from ..frames import Whole
from .bodies import bodies


@dataclass(frozen=True)
class Standing:
    """A part that stands at a station.

    Parameters
    ----------
    inner, outer : out from the centre line, mm.
    low, high : above the driving axle, mm, anywhere in the turn.
    play : how far it may be to one side, each way, mm.
    """

    part: str
    inner: float
    outer: float
    low: float
    high: float
    play: float


@dataclass(frozen=True)
class Station:
    """A place along the engine and the row of parts there, from the centre line outwards.

    Parameters
    ----------
    ahead : of the driving axle, mm.
    width : over all that stands there, side play taken up to both sides, mm.
    """

    name: str
    ahead: float
    row: tuple[Standing, ...]

    @property
    def width(self) -> float:
        """Over all that stands there, with side play."""
        return 2 * max((one.outer + one.play for one in self.row), default=0.0)


def stations(whole: Whole) -> tuple[Station, ...]:
    """Return the stations that a builder looks at, from the front."""
    places: dict[str, float] = {
        "front buffer beam": (whole.front + _end(whole, "front buffer beam", 0)) / 2,
    }
    for name, place in (
        ("cylinders", "cylinders"), ("slide bars", "slide bars amid"), ("firebox", "firebox"),
        ("chimney", "chimney"), ("dome", "dome"),
    ):  # fmt: skip
        part = whole.part(name)
        if part is not None:
            places[place] = (part.extent[0][0] + part.extent[1][0]) / 2
    for axle in whole.axles:
        places[f"{axle.name} axle"] = axle.ahead
    if whole.part("cab sides") is not None:
        places["cab"] = (_end(whole, "cab sides", 0) + _end(whole, "cab sides", 1)) / 2
    places["back buffer beam"] = (whole.back + _end(whole, "back buffer beam", 1)) / 2
    made = [Station(name, x, row_at(whole, x)) for name, x in places.items()]
    return tuple(sorted(made, key=lambda one: -one.ahead))


def _end(whole: Whole, name: str, end: int) -> float:
    part = whole.part(name)
    return part.extent[end][0] if part is not None else 0.0


def row_at(whole: Whole, ahead: float) -> tuple[Standing, ...]:
    """Return what stands at a place on the right-hand side, anywhere in the turn.

    Parameters
    ----------
    ahead : of the driving axle, mm.
    """
    found: dict[str, Standing] = {}
    # what moves is given in the room that it takes all round the turn
    for body in bodies(whole):
        if body.part.paired and body.left:
            continue
        if not body.low[0] <= ahead <= body.high[0] or body.shape.high <= 0:
            continue
        _add(found, Standing(
            body.part.name, max(body.shape.low, 0.0), body.shape.high, body.low[1], body.high[1],
            body.play,
        ))  # fmt: skip
    for part in whole.of_kind("motion"):
        for solid in part.solids if part.name not in found else ():
            low, high = solid.extent
            if low[0] <= ahead <= high[0] and high[2] > 0:
                _add(found, Standing(part.name, max(low[2], 0.0), high[2], low[1], high[1], 0.0))
    return tuple(sorted(found.values(), key=lambda one: (one.inner, one.outer)))


def _add(found: dict[str, Standing], one: Standing) -> None:
    known = found.get(one.part)
    if known is not None:
        one = Standing(
            one.part, min(one.inner, known.inner), max(one.outer, known.outer),
            min(one.low, known.low), max(one.high, known.high), max(one.play, known.play),
        )  # fmt: skip
    found[one.part] = one
