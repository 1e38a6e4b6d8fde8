"""What is to be changed first?"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from ...design.document import DesignRefused
from ...pictures.scene import Fill, Label, Path, Primitive, Scene, Table, box
from ...steam import all_ran, regulator_bore
from ...steam.engine import PIPE_LENGTH
from ...steam.openings import port_length
from .answer import LARGE, Answer, NotAnswered, Question
from .varied import Asked, Pair, with_coefficients

QUESTION = Question(
    "first", "What to change first",
    "Which sizes change pull and water most, if each is made a tenth larger or smaller?",
)  # fmt: skip
PART = 0.1
SHOWN = 8
"""Bars drawn; the table has all."""
ENDS = ({"ports": 0.6}, {"ports": 0.9}, {"film": 8000.0}, {"film": 40_000.0})
CHECKED = 3
"""Sizes at the head whose effect is worked with other coefficients as well."""
_PITCH, _BAR, _LONGEST = 13.0, 4.2, 50.0


@dataclass(frozen=True)
class Size:
    """A size that is varied: how it is called, and the engine with so many times of it."""

    name: str
    times: Callable[[float], Pair]
    path: str = ""


@dataclass(frozen=True)
class Effect:
    """What a tenth less and a tenth more of a size do to pull and water a turn, per cent.

    None where the engine cannot be worked or run so.
    """

    size: Size
    pull: tuple[float | None, float | None]
    water: tuple[float | None, float | None]

    @property
    def most(self) -> float:
        """The greater change of the pull either way."""
        return max((abs(one) for one in self.pull if one is not None), default=0.0)


def sizes(asked: Asked) -> list[Size]:
    """Return the sizes that are varied."""
    design, base = asked.design, asked.base
    side, engine = base
    valve, passages = design.motion.valve, design.cylinders.passages
    hole = engine.space.hole

    def path(name: str, at: str, value: float, *, least: float | None = None) -> Size:
        def times(by: float) -> Pair:
            # a size that is nothing, such as an exhaust lap, moves by a tenth of another
            changed = value * by if least is None else value + least * (by - 1)
            return asked.with_({at: changed})

        return Size(name, times, at)

    def assumed(name: str, field: str) -> Size:
        value = getattr(side.assumed, field)
        return Size(name, lambda by: with_coefficients(base, {field: value * by}))

    made = []
    if asked.slide_valve:
        made += [
            path("Port width", "motion.valve.port_width", valve.port_width),
            path("Port length", "motion.valve.port_length",
                 port_length(valve, engine.bore)),
            path("Exhaust lap, by a tenth of the port", "motion.valve.exhaust_lap",
                 valve.exhaust_lap, least=valve.port_width),
        ]  # fmt: skip
        if valve.steam_lap > 0:
            made.append(path("Steam lap, gear as it is", "motion.valve.steam_lap", valve.steam_lap))
    regulator = regulator_bore(side, engine)
    # the pipe behind it keeps its length, also where that is taken from the bore
    long = side.way.pipe_length or PIPE_LENGTH * engine.bore
    return [
        *made,
        path("Passage holes, diameter", "cylinders.passages.hole_diameter",
             passages.hole_diameter or hole),
        path("Nozzle, diameter", "nozzle.diameter", design.nozzle.diameter),
        Size("Regulator, steam pipe with it", lambda by: (
            replace(side, way=replace(side.way, regulator=regulator * by, pipe_length=long)),
            engine,
        ), "steam.way.regulator"),
        Size("Clearance volume", lambda by: (side, replace(engine, space=replace(
            engine.space, spaces=(engine.space.spaces[0] * by, engine.space.spaces[1] * by),
        )))),
        path("Bore", "cylinders.bore", design.cylinders.bore),
        path("Driving wheels, diameter", "wheels.driving_diameter",
             design.wheels.driving_diameter),
        path("Boiler pressure", "cylinders.pressure", design.cylinders.pressure),
        assumed("Coefficient: heat to the wet wall", "film"),
        assumed("Coefficient: ports", "ports"),
        assumed("Coefficient: passages and regulator", "passages"),
    ]  # fmt: skip


def effects(asked: Asked, chosen: list[Size]) -> tuple[float, list[Effect]]:
    """Return the pull as it is, N, and what each size does to it, the greatest first."""
    pairs: list[Pair | None] = [asked.base]
    for one in chosen:
        for by in (1 - PART, 1 + PART):
            pairs.append(_tried(one, by))
    known = [pair for pair in pairs if pair is not None]
    asked.marching.expects(len(known) - len(pairs))
    seen = iter(asked.marching.all(
        [asked.condition(pair, steps=asked.steps) for pair in known], expected=True
    ))  # fmt: skip
    outcomes = [None if pair is None else next(seen) for pair in pairs]
    base = outcomes[0]
    assert base is not None
    all_ran([base])
    if base.pull <= 0:
        raise NotAnswered(
            f"At {asked.speed:.3g} km/h in this notch the engine pulls nothing, so that nothing "
            "can be told in per cent of it; slower running or a longer cut-off would do."
        )

    def apart(i: int, name: str) -> float | None:
        one = outcomes[i]
        if one is None or one.refused:
            return None
        return float(100 * (getattr(one, name) / getattr(base, name) - 1))

    made = [
        Effect(
            one, (apart(2 * i + 1, "pull"), apart(2 * i + 2, "pull")),
            (apart(2 * i + 1, "per_turn"), apart(2 * i + 2, "per_turn")),
        )
        for i, one in enumerate(chosen)
    ]  # fmt: skip
    return base.pull, sorted(made, key=lambda one: -one.most)


def _tried(one: Size, by: float) -> Pair | None:
    try:
        return one.times(by)
    except (DesignRefused, ValueError):
        return None


def answer(asked: Asked) -> Answer:
    """Return the sizes ranked by what a tenth of each does to the pull."""
    chosen = sizes(asked)
    asked.marching.expects(1 + 2 * len(chosen) + len(ENDS) * (1 + 2 * CHECKED))
    pull, ranked = effects(asked, chosen)
    own = [one for one in ranked if one.size.path]
    pulls, spreads = _checked(asked, own[:CHECKED])
    told = "; ".join(_said(one) for one in own[:CHECKED])
    ends = ", ".join(
        f"{one.size.name.lower()} {low:+.1f} to {high:+.1f} %"
        for one, (low, high) in zip(own, spreads, strict=False)
    )
    return Answer(
        question=QUESTION,
        says=f"At {asked.speed:.3g} km/h in notch {asked.notch:g} these change the pull most: "
        f"{told}. One size is changed at a time and all others stay.",
        uncertain=f"{LARGE}: with a film of 8000 or 40,000 W/(m² K), or ports that pass 0.6 or "
        f"0.9, the pull itself is {min(*pulls, pull):.1f} to {max(*pulls, pull):.1f} N for "
        f"{pull:.1f} N here, and a tenth more brings: {ends}.",
        pictures=(_bars(ranked[:SHOWN]), _table(ranked)),
        figures={
            "pull": pull, "pull_least": min(*pulls, pull), "pull_most": max(*pulls, pull),
            **{one.size.path: one.most for one in own},
        },
    )  # fmt: skip


def _checked(asked: Asked, own: list[Effect]) -> tuple[list[float], list[tuple[float, float]]]:
    """Return the pull with other coefficients, and the range of what a tenth more then does."""
    pairs = [asked.base, *(pair for one in own if (pair := _tried(one.size, 1 + PART)))]
    pulls, changes = [], []
    for otherwise in ENDS:
        seen = asked.marching.all(
            [
                asked.condition(with_coefficients(pair, otherwise), steps=asked.steps)
                for pair in pairs
            ],
            expected=True,
        )  # fmt: skip
        asked.marching.expects(len(pairs) - 1 - 2 * CHECKED)
        base = max(seen[0].pull, 1e-9)
        pulls.append(seen[0].pull)
        changes.append([100 * (one.pull / base - 1) for one in seen[1:]])
    columns = zip(*changes, strict=True)
    return pulls, [(min(column), max(column)) for column in columns]


def _signed(value: float) -> str:
    return "0.0" if abs(value) < 0.05 else f"{value:+.1f}"


def _said(one: Effect) -> str:
    less, more = one.pull
    told = [
        f"a tenth {word} {_signed(value)} %"
        for word, value in (("less", less), ("more", more)) if value is not None
    ]  # fmt: skip
    return f"{one.size.name.lower()}, {' and '.join(told)}"


def _bars(shown: list[Effect]) -> Scene:
    """Return the sizes as bars: what a tenth more and a tenth less of each does to the pull."""
    longest = max((one.most for one in shown), default=0.0)
    scale = _LONGEST / longest if longest > 0 else 0.0
    still: list[Primitive] = []
    for i, one in enumerate(shown):
        y = -_PITCH * i
        fills: tuple[tuple[float | None, float, Fill], ...] = (
            (one.pull[1], _BAR / 2, "metal"), (one.pull[0], -_BAR / 2, "tint"),
        )  # fmt: skip
        for value, up, fill in fills:
            if value is None:
                continue
            end = max(scale * abs(value), 0.15)
            bar = box(0.0, y + up - 0.45 * _BAR, end, y + up + 0.45 * _BAR)
            still.append(Path(bar, "outline", closed=True, fill=fill))
        more, less = ("none" if v is None else _signed(v) for v in one.pull[::-1])
        still.append(Label(f"{more}, {less}", (scale * one.most + 1.5, y),
                           "start"))  # fmt: skip
        still.append(Label(one.size.name.split(",")[0], (-2.0, y), "end"))
    foot = -_PITCH * (max(len(shown), 1) - 0.4)
    still.append(Path(np.array([[0.0, 0.6 * _PITCH], [0.0, foot]]), "thin"))
    return Scene(
        "What a tenth larger (above) and smaller does to the pull, %",
        "Upper bars: a tenth larger; lower bars: a tenth smaller. "
        + "; ".join(_said(one) for one in shown[:3]) + ".",
        tuple(still), to_scale=False,
    )  # fmt: skip


def _table(ranked: list[Effect]) -> Table:
    def cell(value: float | None) -> str:
        return "none" if value is None else _signed(value)

    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (one.size.name, *map(cell, one.pull), *map(cell, one.water)) for one in ranked
    )
    return Table(
        "Changed by a tenth, per cent",
        ("Size", "Pull, less", "Pull, more", "Water a turn, less", "Water a turn, more"), rows,
        note="Coefficients are not yours to choose: they tell what the rest rests on.",
    )  # fmt: skip
