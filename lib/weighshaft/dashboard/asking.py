"""Questions to the steam and the whole map, worked beside the page; they belong to their design."""

from __future__ import annotations

import logging
import multiprocessing
import os
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from ..design.document import Design, DesignRefused
from ..design.sentences import in_unit
from ..job import Work, questions
from ..job.questions.varied import Asked
from ..pictures import steam_map
from ..pictures.scene import Picture, Table
from ..steam import CycleMap, Marching, Stopped, map_of
from .together import put

if TYPE_CHECKING:
    from .desk import Desk

_log = logging.getLogger(__name__)
Payload = dict[str, Any]
MAP = "map"
_MAP_WORDS = "Work the whole map"
_TITLES = {MAP: _MAP_WORDS, **{one.key: one.button for one in questions.QUESTIONS}}


@contextmanager
def processes() -> Iterator[Executor | None]:
    """Give all processors but the page's own, or nothing where there is no other."""
    workers = min((os.cpu_count() or 1) - 1, 8)
    if workers < 1:
        yield None
        return
    try:
        # fresh processes: a fork of a kernel with its threads may hang
        pool = ProcessPoolExecutor(workers, mp_context=multiprocessing.get_context("spawn"))
    except (OSError, ValueError, ImportError):
        yield None
        return
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)


class Asking:
    """One question, or the whole map, being worked.

    Parameters
    ----------
    key : of the question, or `MAP`.
    design, worked : as they stood when it was asked; what comes belongs to these.
    executor : gives a context with an executor or None.
    """

    def __init__(
        self, key: str, design: Design, worked: Work,
        executor: Callable[[], Any] = processes,
    ) -> None:  # fmt: skip
        self.key, self.design = key, design
        self.done, self.total = 0, 0
        self.sorry = ""
        self.answer: questions.Answer | None = None
        self.map: CycleMap | None = None
        self._worked, self._executor = worked, executor
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._run, name="question", daemon=True)
        self._thread.start()

    @property
    def running(self) -> bool:
        """Whether it has not ended yet."""
        return self._thread.is_alive()

    def stop(self) -> None:
        """Ask it to end; nothing is kept then."""
        self._stop.set()

    def wait(self, seconds: float | None = None) -> bool:
        """Wait until it has ended; return whether it has."""
        self._thread.join(seconds)
        return not self.running

    def _told(self, done: int, total: int) -> None:
        self.done, self.total = done, total

    def _run(self) -> None:
        try:
            with self._executor() as executor:
                marching = Marching(executor, self._told, self._stop.is_set)
                if self.key == MAP:
                    asked = Asked(self.design, self._worked, marching)
                    side, engine = asked.base
                    self.map = map_of(
                        side, engine, notches=asked.notches, pace=asked.speed, marching=marching
                    )
                else:
                    self.answer = questions.ask(self.key, self.design, self._worked, marching)
        except Stopped:
            self.sorry = "Stopped; nothing was kept."
        except BrokenProcessPool:
            self.sorry = "A process that worked along has ended; ask again."
        except ValueError as refused:  # in the builder's words
            self.sorry = str(refused)
        except Exception:
            _log.exception("The question %s failed", self.key)
            self.sorry = "That could not be worked out; the log says more."


class Inquiry:
    """What one session has asked, and the map it has had worked."""

    def __init__(self) -> None:
        self.now: Asking | None = None
        self.map: CycleMap | None = None
        self.executor: Callable[[], Any] = processes

    @property
    def given(self) -> dict[str, Any]:
        """What the job is given besides the design."""
        return {} if self.map is None else {"mapped": self.map}


def begin(desk: Desk, key: str) -> None:
    """Begin with a question, or with the map, of the design as it stands; one at a time."""
    if key not in _TITLES:
        raise DesignRefused("There is no such question.")
    inquiry: Inquiry = desk.asking
    if inquiry.now is not None and inquiry.now.running:
        raise DesignRefused("A question is being worked; stop that first.")
    inquiry.now = Asking(key, desk.design, desk.work, inquiry.executor)


def stop(desk: Desk) -> None:
    """End what is being worked."""
    if desk.asking.now is not None:
        desk.asking.now.stop()


def take(desk: Desk) -> None:
    """Put the sizes of an answer into the design that was asked about."""
    one = desk.asking.now
    if one is None or one.answer is None or not one.answer.change or one.design != desk.design:
        raise DesignRefused("No answer stands for the design as it is now.")
    desk.take(put(desk.design, dict(one.answer.change)), one.answer.question.button)
    desk.says = "Taken into the design; Undo brings the old sizes back."


def keep(desk: Desk) -> None:
    """Let the run go by a map that has ended."""
    one = desk.asking.now
    if one is not None and not one.running and one.map is not None:
        desk.asking.map, one.map = one.map, None
        desk.take(desk.design)


def own_map(desk: Desk) -> CycleMap | None:
    """Return the map if it is that of the engine as it stands."""
    made: CycleMap | None = desk.asking.map
    if made is None or desk.work.cylinders is None or desk.work.motion is None:
        return None
    return made if made.belongs_to(*Asked(desk.design, desk.work, Marching()).base) else None


def asking_payload(desk: Desk, *, on_steam: bool) -> Payload:
    """Return the buttons, how far what is asked has come, and what was answered.

    Parameters
    ----------
    on_steam : on the sheet of the steam, where the map stands; else on that of the questions.
    """
    keep(desk)
    one: Asking | None = desk.asking.now
    keys = [MAP] if on_steam else [key for key in _TITLES if key != MAP]
    payload: Payload = {
        "buttons": [{"key": key, "text": _TITLES[key]} for key in keys], "running": False,
        "done": 0, "total": 0, "says": "", "offer": "", "uncertain": "",
    }  # fmt: skip
    if one is not None and one.running:
        told = f"{one.done} of about {one.total} conditions marched"
        return payload | {
            "running": True, "done": one.done, "total": one.total,
            "says": f"{_TITLES[one.key]}: {told if one.done else 'getting ready'}.",
        }  # fmt: skip
    if one is not None and one.sorry and one.key in keys:
        return payload | {"says": in_unit(one.sorry, desk.unit)}
    if on_steam:
        return payload | {"says": _map_says(desk)}
    if one is None or one.answer is None:
        return payload
    answer, same = one.answer, one.design == desk.design
    older = "" if same else "Of the design as it stood when asked: "
    return payload | {
        "says": in_unit(older + answer.says, desk.unit),
        "uncertain": in_unit(answer.uncertain, desk.unit),
        "offer": in_unit(answer.offer, desk.unit) if same and answer.change else "",
    }


def _map_says(desk: Desk) -> str:
    made: CycleMap | None = desk.asking.map
    if made is None:
        return "Pull and steam over all speeds and notches; the run then goes by it."
    if own_map(desk) is None:
        return (
            "The map is of an engine that has changed since, and the run goes by the assumed "
            "cycle: work it anew."
        )
    short = f" {made.refused} of them cannot run: {made.why}" if made.refused else ""
    return f"{made.conditions} conditions marched, and the run goes by them.{short}"


def map_pictures(desk: Desk) -> tuple[Picture, ...]:
    """Return the charts of the map, where it belongs to the engine as it stands."""
    made = own_map(desk)
    return () if made is None else steam_map.pictures(made)


def answer_pictures(desk: Desk) -> tuple[Picture, ...]:
    """Return the pictures of the answer, or a table of what may be asked."""
    one: Asking | None = desk.asking.now
    if one is not None and one.answer is not None:
        return one.answer.pictures
    return (
        Table(
            "What may be asked", ("Question", "What it asks"),
            tuple((one.button, one.asks) for one in questions.QUESTIONS),
            note="Each varies the design, marches the steam anew, and says how sure it is.",
        ),
    )  # fmt: skip
