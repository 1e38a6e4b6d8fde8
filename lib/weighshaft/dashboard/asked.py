"""What the browser asks for, answered by the desk: one message in, one reply out."""

from __future__ import annotations

import logging
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from ..design.document import DesignRefused
from ..sizes import SizeError
from . import asking, drafting, measuring, workshop
from .desk import SORRY, Desk
from .view import search_payload, view
from .whole import paper_payload

Payload = dict[str, Any]
_log = logging.getLogger(__name__)


@dataclass
class Reply:
    """What goes back: plain data and, where there are pictures, their points."""

    content: Payload = field(default_factory=dict)
    points: bytes = b""


def answer(desk: Desk, message: Any) -> Reply:
    """Do what a message asks for; whatever goes wrong is said in one sentence, never a traceback.

    Parameters
    ----------
    desk : the session.
    message : {"id": n, "do": word, ...}; it comes from a browser and is not trusted.
    """
    message = message if isinstance(message, dict) else {}
    number = message.get("id")
    try:
        reply = _DOES[str(message.get("do"))](desk, _Asked(message))
    except (DesignRefused, SizeError) as refused:
        reply = _page(desk)
        reply.content["sorry"] = str(refused)
    except KeyError as missing:
        _log.warning("The page sent a message that lacks %s", missing)
        reply = Reply({"sorry": SORRY})
    except Exception:
        _log.exception("“%s” failed", message.get("do"))
        reply = Reply({"sorry": SORRY})
    reply.content["id"] = number if isinstance(number, int) else 0
    return reply


class _Asked:
    """The fields of a message, each of the type that it should have."""

    def __init__(self, message: Payload) -> None:
        self._message = message

    def text(self, name: str, default: str | None = None) -> str:
        value = self._message.get(name, default)
        if not isinstance(value, str):
            raise KeyError(name)
        return value

    def number(self, name: str) -> float:
        value = self._message[name]
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            raise KeyError(name)
        return float(value)

    def has(self, name: str) -> bool:
        return name in self._message

    def yes(self, name: str) -> bool:
        return self._message.get(name) is True

    def value(self, name: str) -> str | bool:
        value = self._message[name]
        if not isinstance(value, (str, bool)):
            raise KeyError(name)
        return value


def _page(desk: Desk, *, going_on: bool = False) -> Reply:
    content, points = view(desk, going_on=going_on)
    return Reply({"view": content}, points)


def _then_page(do: Callable[[Desk, _Asked], object]) -> Callable[[Desk, _Asked], Reply]:
    def did(desk: Desk, asked: _Asked) -> Reply:
        do(desk, asked)
        return _page(desk)

    return did


def _hello(desk: Desk, asked: _Asked) -> Reply:
    """Greet a page that has just come up: take up the kept design, or the sample asked for."""
    sorry, restored = "", False
    try:
        if sample := asked.text("sample", ""):
            desk.new_from_sample(sample)
            desk.says = ""
        elif kept := asked.text("kept", ""):
            desk.restore(kept, asked.text("saved_as", ""), asked.text("unit", ""))
            restored = True
    except DesignRefused as refused:
        sorry = str(refused)
    mine, lists = asked.text("workshop", ""), asked.text("lists", "")
    sorry = workshop.greeted(desk, mine, lists, restored=restored) or sorry
    if chapter := asked.text("chapter", ""):
        desk.go(chapter)
    reply = _page(desk)
    reply.content["sorry"] = sorry
    return reply


def _edit(desk: Desk, asked: _Asked) -> Reply:
    desk.edit(asked.text("path"), asked.value("value"))
    return _page(desk)


def _slide(desk: Desk, asked: _Asked) -> Reply:
    going_on = asked.yes("going_on")
    first = asked.yes("first")
    desk.slide(asked.text("path"), asked.number("number"), going_on=not first, dragged=going_on)
    return _page(desk, going_on=going_on)


def _unit(desk: Desk, asked: _Asked) -> None:
    desk.set_unit("in" if asked.text("unit") == "in" else "mm")


def _download(desk: Desk, asked: _Asked) -> Reply:
    name, text = desk.download()
    return Reply({"download": {"name": name, "text": text}})


def _paper(desk: Desk, asked: _Asked) -> Reply:
    content, points = paper_payload(desk)
    return Reply({"paper": content}, points)


def _opened(do: Callable[[Desk, _Asked], object]) -> Callable[[Desk, _Asked], Reply]:
    def did(desk: Desk, asked: _Asked) -> Reply:
        do(desk, asked)
        workshop.began(desk)
        return _page(desk)

    return did


def _keep_workshop(desk: Desk, asked: _Asked) -> Reply:
    text = workshop.keep(desk)
    reply = _page(desk)
    reply.content["workshop"] = text
    return reply


def _upload_workshop(desk: Desk, asked: _Asked) -> Reply:
    text = workshop.upload(desk, asked.text("text"))
    reply = _page(desk)
    reply.content["workshop"] = text
    return reply


def _forget_workshop(desk: Desk, asked: _Asked) -> Reply:
    workshop.forget(desk)
    reply = _page(desk)
    reply.content["workshop"] = ""
    return reply


def _save_workshop(desk: Desk, asked: _Asked) -> Reply:
    name, text = workshop.download(desk)
    return Reply({"download": {"name": name, "text": text}})


def _draft(do: Callable[[Desk, _Asked], None]) -> Callable[[Desk, _Asked], Reply]:
    def did(desk: Desk, asked: _Asked) -> Reply:
        do(desk, asked)
        return Reply({"drawings": drafting.drafting_payload(desk)})

    return did


def _take_drawings(desk: Desk, asked: _Asked) -> Reply:
    about, piece = drafting.taken(desk, int(asked.number("start")) if asked.has("start") else 0)
    return Reply({"archive": about}, piece)


_DOES: dict[str, Callable[[Desk, _Asked], Reply]] = {
    "hello": _hello,
    "beat": lambda desk, asked: Reply(),
    "look": lambda desk, asked: _page(desk),
    "edit": _edit,
    "slide": _slide,
    "download": _download,
    "paper": _paper,
    "draw": _draft(lambda desk, asked: drafting.begin(desk, asked.text("what", "drawings"))),
    "drawing": _draft(lambda desk, asked: None),
    "stop_drawing": _draft(lambda desk, asked: drafting.stop(desk)),
    "take_drawings": _take_drawings,
    "go": _then_page(lambda desk, asked: desk.go(asked.text("chapter"))),
    "unfold": _then_page(
        lambda desk, asked: desk.unfold(asked.text("working"), asked.yes("shown"))
    ),
    "choose": _then_page(lambda desk, asked: desk.choose(asked.text("path"), asked.text("kind"))),
    "fit": _then_page(lambda desk, asked: desk.fit()),
    "search": _then_page(lambda desk, asked: desk.search()),
    "draw_map": _then_page(lambda desk, asked: desk.draw_map()),
    "searching": lambda desk, asked: Reply({"search": search_payload(desk)}),
    "stop_search": _then_page(lambda desk, asked: desk.stop_search()),
    "take_found": _then_page(lambda desk, asked: desk.take_found()),
    "fit_runs": _then_page(lambda desk, asked: measuring.begin(desk)),
    "fitting": lambda desk, asked: Reply({"search": measuring.fit_payload(desk)}),
    "stop_fit": _then_page(lambda desk, asked: measuring.stop(desk)),
    "take_fit": _then_page(lambda desk, asked: measuring.take(desk)),
    "ask": _then_page(lambda desk, asked: asking.begin(desk, asked.text("what"))),
    "asking": lambda desk, asked: Reply(
        {"asks": asking.asking_payload(desk, on_steam=desk.chapter == "steam")}
    ),
    "stop_asking": _then_page(lambda desk, asked: asking.stop(desk)),
    "take_answer": _then_page(lambda desk, asked: asking.take(desk)),
    "copy_gear": _then_page(lambda desk, asked: desk.copy_gear()),
    "more": _then_page(lambda desk, asked: desk.more(asked.text("path"))),
    "fewer": _then_page(lambda desk, asked: desk.fewer(asked.text("path"))),
    "note": _then_page(lambda desk, asked: desk.note(asked.text("path"), asked.text("text"))),
    "fix": _then_page(lambda desk, asked: desk.fix(asked.text("path"), asked.yes("settled"))),
    "rename": _then_page(lambda desk, asked: desk.rename(asked.text("name"))),
    "unit": _then_page(_unit),
    "undo": _then_page(lambda desk, asked: desk.undo()),
    "redo": _then_page(lambda desk, asked: desk.redo()),
    "save": _then_page(lambda desk, asked: desk.save()),
    "save_as": _then_page(lambda desk, asked: desk.save_as(asked.text("name"))),
    "open": _opened(lambda desk, asked: desk.open(asked.text("key"))),
    "sample": _opened(lambda desk, asked: desk.new_from_sample(asked.text("key"))),
    "afresh": _opened(lambda desk, asked: desk.afresh(asked.text("sample", ""))),
    "duplicate": _then_page(lambda desk, asked: desk.duplicate()),
    "upload": _opened(
        lambda desk, asked: desk.upload(asked.text("text").encode("utf-8", "surrogatepass"))
    ),
    "keep_workshop": _keep_workshop,
    "forget_workshop": _forget_workshop,
    "save_workshop": _save_workshop,
    "open_workshop": _upload_workshop,
    "use_workshop": _then_page(lambda desk, asked: workshop.use(desk)),
    "use_lists_of_design": _then_page(lambda desk, asked: workshop.use_of_design(desk)),
}
