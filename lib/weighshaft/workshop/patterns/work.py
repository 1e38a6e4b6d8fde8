"""The chapter worked: holes, ports, passages, tapers and balls."""

from __future__ import annotations

from ...findings import by_level, still_open, unlocked
from ..dials import Dial
from ..machines import Machines
from .circles import circled, in_line
from .decisions import Patterns
from .engine import EXAMPLE, Engine
from .faces import faced
from .judgement import CAUTIONS, judge
from .results import PatternsResult
from .slant import slanted
from .turning import turned


def work(
    patterns: Patterns,
    *,
    machines: Machines,
    engine: Engine = EXAMPLE,
    fixed: frozenset[str] = frozenset(),
) -> PatternsResult:
    """Work the chapter.

    Parameters
    ----------
    engine : what the engine tells; the default is an example.

    Raises
    ------
    SizeError : when something cannot be set out so.
    """
    dial = Dial(machines.mill.table, machines.mill.divisions)
    slant = slanted(patterns, engine, dial)
    circle, by_circle, taken = circled(patterns, engine, slant, dial)
    face, by_face, of_face = faced(patterns, engine, machines, slant)
    lathe, by_lathe, of_lathe = turned(patterns, engine, machines)
    main = slant.passages[len(slant.passages) // 2] if slant else None
    result = PatternsResult(
        **circle, **in_line(patterns, dial), **face, **lathe,
        passage_tilt=main.tilt if main else None,
        passage_length=main.length if main else None,
        passage_depth=main.depth if main else None,
        face_height=slant.face_height if slant else None,
        passage_begins=slant.begins if slant else None,
        passages=slant.passages if slant else (),
        bore=engine.bore, barrel=engine.barrel, port_floor=slant.floor if slant else None,
        taken_from=engine.name, cautions=CAUTIONS,
        workings=(*by_circle, *by_face, *(slant.workings if slant else ()), *by_lathe),
        suggestions=still_open(
            [*taken, *of_face, *(slant.taken if slant else ()), *of_lathe], fixed
        ),
    )  # fmt: skip
    found = by_level(unlocked(judge(patterns, result, engine.hole), fixed))
    return PatternsResult(**{**vars(result), "findings": found})
