"""Many running conditions marched, by the processors at hand, with progress and a way to stop."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from concurrent.futures import FIRST_COMPLETED, Executor, Future, wait
from dataclasses import dataclass, field

from ..cylinders.steam import turns_a_second
from ..sizes import SizeError
from . import relations
from .decisions import SteamSide
from .engine import Engine, Running, march
from .reading import steps_for

MOST_STEPS = 480
"""Steps of a turn at the most: against 960 the pull of slow running is a part in fifty low."""
_PATIENCE = 0.2
"""Seconds between two questions whether to stop while others work."""


class Stopped(Exception):
    """Whoever asked wants no answer any more."""


@dataclass(frozen=True, kw_only=True)
class Condition:
    """One engine in one running condition.

    Parameters
    ----------
    steps : of a turn; chosen by the speed unless given.
    """

    steam: SteamSide
    engine: Engine
    running: Running
    steps: int | None = None


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What came of a condition; nothing but zeros where it cannot run.

    Parameters
    ----------
    pull : indicated, at the rim, before any friction of the engine, N.
    steam : kg/s.
    per_turn : kg a turn.
    blast : mean pressure in the blast pipe, bar gauge.
    repeats : whether the cycle came to repeat.
    refused : why it cannot run; "" where it can.
    """

    pull: float = 0.0
    steam: float = 0.0
    per_turn: float = 0.0
    blast: float = 0.0
    repeats: bool = True
    refused: str = ""


def outcome(one: Condition) -> Outcome:
    """March one condition; what cannot run is told in the outcome, never raised."""
    engine, running = one.engine, one.running
    try:
        steps = one.steps or steps_of(engine, running.speed)
        ran = march(one.steam, engine, running, steps=steps)
    except ValueError as refused:  # CycleError, SizeError, MotionLocks: in the builder's words
        return Outcome(refused=str(refused))
    except ArithmeticError:
        return Outcome(refused="The cycle comes to no figures in this condition.")
    cycle = ran.cycle
    pull = relations.pull_at_rim(float(cycle.work.sum()), engine.number, engine.wheel, 1.0)
    made = Outcome(
        pull=float(pull), steam=cycle.drawn * ran.turns, per_turn=cycle.drawn,
        blast=float(cycle.pipe.mean()) - ran.outlet.pressure, repeats=cycle.repeats,
    )  # fmt: skip
    if not all(map(math.isfinite, (made.pull, made.steam, made.per_turn, made.blast))):
        return Outcome(refused="The cycle comes to no figures in this condition.")
    return made


def steps_of(engine: Engine, speed: float) -> int:
    """Return the steps of a turn for a speed in km/h, where many are to be marched."""
    turns = float(turns_a_second(speed=speed, wheel=engine.wheel))
    return min(MOST_STEPS, steps_for(turns, engine.stroke))


@dataclass
class Marching:
    """Marches conditions and counts them.

    Parameters
    ----------
    executor : of any kind; None marches one after the other.
    progress : told how many of how many are done.
    stop : asked between two; true ends it with `Stopped`.
    """

    executor: Executor | None = None
    progress: Callable[[int, int], None] | None = None
    stop: Callable[[], bool] | None = None
    done: int = 0
    total: int = 0
    _told: tuple[int, int] = field(default=(0, 0), repr=False)

    def expects(self, more: int) -> None:
        """Say that so many are coming, so that progress has an end to go to."""
        self.total += more
        self._tell()

    def all(self, conditions: Sequence[Condition], *, expected: bool = False) -> list[Outcome]:
        """March conditions and return the outcomes in the same order.

        Parameters
        ----------
        expected : they have been announced by `expects` already.

        Raises
        ------
        Stopped : when `stop` says so.
        """
        if not expected:
            self.expects(len(conditions))
        if self.executor is None:
            return [self._one(one) for one in conditions]
        waiting: dict[Future[Outcome], int] = {
            self.executor.submit(outcome, one): i for i, one in enumerate(conditions)
        }
        made: dict[int, Outcome] = {}
        pending = set(waiting)
        try:
            while pending:
                self._ask()
                ended, pending = wait(pending, _PATIENCE, FIRST_COMPLETED)
                made.update((waiting[one], one.result()) for one in ended)
                self.done += len(ended)
                self._tell()
        finally:
            for one in pending:
                one.cancel()
        return [made[i] for i in range(len(conditions))]

    def _one(self, condition: Condition) -> Outcome:
        self._ask()
        made = outcome(condition)
        self.done += 1
        self._tell()
        return made

    def _ask(self) -> None:
        if self.stop is not None and self.stop():
            raise Stopped

    def _tell(self) -> None:
        now = (self.done, max(self.total, self.done))
        if self.progress is not None and now != self._told:
            self._told = now
            self.progress(*now)


def first_refused(outcomes: Sequence[Outcome]) -> str:
    """Return why the first of those that cannot run cannot; "" where all can."""
    return next((one.refused for one in outcomes if one.refused), "")


def all_ran(outcomes: Sequence[Outcome]) -> None:
    """Raise what the first that cannot run says.

    Raises
    ------
    SizeError : where one cannot run.
    """
    if why := first_refused(outcomes):
        raise SizeError(why)
