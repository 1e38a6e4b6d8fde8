"""The command `weighshaft`."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from . import __version__

if TYPE_CHECKING:
    from .design import Design

WORKED, STOPPED, REFUSED = 0, 1, 2

QUESTIONS = {
    "ports": "How small may the steam ports be?",
    "run": "Which cut-off and which lap take this train furthest on a litre of water?",
    "nozzle": "Which blast nozzle draws what the fire needs and costs the least pull?",
    "bore": "Which bore pulls this train up the steepest rise?",
    "first": "Which sizes change pull and water most?",
}
"""What may be asked; the questions themselves only come when one is."""
_ABOUT = """\
Weighshaft is a design workbook for builders of small steam locomotives: from the
prototype and the scale to cylinders, valve gear, wheels, threads and blast nozzle.

Without a command it opens the workbook in your browser. It runs on this computer
alone and needs no internet. Ctrl-C closes it.
"""

_MORE = """\
examples:
  weighshaft                              open the workbook in the browser
  weighshaft --no-browser --port 8890     serve it at a port of your choice
  weighshaft work tansy.loco.json         print the decision sheet of a design
  weighshaft work tansy.loco.json --json  the same as JSON, for other programs
  weighshaft drawings tansy.loco.json -o tansy    every shop drawing as PDF, SVG and DXF
  weighshaft book tansy.loco.json -o tansy.pdf    the builder's book, or .html
  weighshaft ask tansy.loco.json ports    how small may the steam ports be?
  weighshaft work tansy.loco.json --workshop shed.workshop.json    with these tools
  weighshaft workshop --new               a workshop file to fill in, where it is found
  weighshaft workshop                     print what your workshop holds
  weighshaft schema                       print the JSON Schema of design files

exit codes of "work", "ask", "drawings" and "book": 0 worked, 1 worked and something will not
work or not fit (a finding of level "stop"), 2 the file or the command cannot be used.

What you own (drills, taps, cutters, wheels, metal) may be kept in a workshop file apart
from any design. "work", "drawings" and "book" take its lists in place of the design's:
those of --workshop FILE, else of workshop.workshop.json in your configuration folder if
there is one; --no-workshop keeps to the lists of the design.

Designs are saved in the folder "Weighshaft designs" in your home folder, unless
--designs or the environment variable WEIGHSHAFT_DESIGNS names another.
"""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        self.exit(REFUSED, f"weighshaft: {message}. Try: weighshaft --help\n")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; return its exit code."""
    asked = _parser().parse_args(arguments)
    try:
        code = int(asked.run(asked))
        sys.stdout.flush()
        return code
    except KeyboardInterrupt:
        return _refuse("stopped")
    except BrokenPipeError:
        # whoever read our output has left; let the interpreter's last flush go nowhere
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return _refuse("the output was closed before everything was written")


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="weighshaft",
        description=_ABOUT,
        epilog=_MORE,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"weighshaft {__version__}")
    parser.set_defaults(run=_open)
    page = parser.add_argument_group("opening the workbook")
    page.add_argument("--port", type=_port, help="port to listen on (default: a free one)")
    page.add_argument(
        "--host",
        default="127.0.0.1",
        help="address to listen on (default: 127.0.0.1, this computer alone); with any other "
        "address everyone who can reach it can use the workbook: there is no password",
    )
    page.add_argument("--no-browser", action="store_true", help="open no browser")
    page.add_argument(
        "--designs", type=Path, metavar="FOLDER", help="folder in which designs are saved"
    )
    page.add_argument("--debug", action="store_true", help="show what goes wrong in the code")
    commands = parser.add_subparsers(title="other commands", metavar="COMMAND")
    work = commands.add_parser(
        "work",
        help="print the decision sheet of a design",
        description="Work a design file and print its decision sheet.",
    )
    work.add_argument("file", metavar="FILE", help="a design file, usually NAME.loco.json")
    form = work.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="as JSON with stable keys, sizes in mm")
    form.add_argument("--inch", action="store_true", help="lengths that were worked out in inches")
    _takes_workshop(work)
    work.set_defaults(run=_work)
    question = commands.add_parser(
        "ask",
        help="answer a question to the steam of a design",
        description="Answer a question by varying the design and working the steam anew, and say "
        "how sure that is. It takes some seconds, up to a minute on a slow machine.",
        epilog=_questions(), formatter_class=argparse.RawDescriptionHelpFormatter,
    )  # fmt: skip
    question.add_argument("file", metavar="FILE", help="a design file, usually NAME.loco.json")
    question.add_argument("question", metavar="QUESTION", help="one of those below")
    form = question.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="as JSON with stable keys, sizes in mm")
    form.add_argument("--inch", action="store_true", help="lengths in inches")
    _takes_workshop(question)
    question.set_defaults(run=_ask)
    drawings = commands.add_parser(
        "drawings",
        help="make the shop drawings of a design",
        description="Make the shop drawings of a design, to scale: each as PDF, SVG and DXF, and "
        "all of them in drawings.pdf. Print at full size, then measure the bar of 100 mm.",
    )
    drawings.add_argument("file", metavar="FILE", help="a design file, usually NAME.loco.json")
    drawings.add_argument(
        "-o", "--output", type=Path, metavar="FOLDER", required=True,
        help="folder in which they are written; made where there is none",
    )  # fmt: skip
    drawings.add_argument(
        "--unit", choices=("mm", "in"), default="mm",
        help="unit of the sizes on the sheets (default: mm); DXF files are always in mm",
    )  # fmt: skip
    drawings.add_argument(
        "--paper", choices=("A4", "A3"), help="for all of them (default: what suits each)"
    )
    drawings.add_argument(
        "--only", metavar="KEY", action="append", default=[],
        help="this drawing alone, by the name of its files; may be given several times",
    )  # fmt: skip
    _takes_workshop(drawings)
    drawings.set_defaults(run=_drawings)
    book = commands.add_parser(
        "book",
        help="make the builder's book of a design",
        description="Make the builder's book of a design: decisions, numbers, working, pictures, "
        "drawings, metal to cut and lists to tick off.",
    )
    book.add_argument("file", metavar="FILE", help="a design file, usually NAME.loco.json")
    book.add_argument(
        "-o", "--output", type=Path, metavar="BOOK", help="the book; it ends in .pdf or .html"
    )
    book.add_argument("--csv", type=Path, metavar="FOLDER", help="every table as CSV, in a folder")
    book.add_argument("--inch", action="store_true", help="lengths that were worked out in inches")
    _takes_workshop(book)
    book.set_defaults(run=_book)
    workshop = commands.add_parser(
        "workshop",
        help="print a workshop file, or write a fresh one",
        description="Print what a workshop file holds, or write a fresh one to fill in. A list "
        "that is left empty has not been told: nothing is then judged by it.",
    )
    workshop.add_argument(
        "file", metavar="FILE", nargs="?", type=Path,
        help="a workshop file, usually NAME.workshop.json (default: yours)",
    )  # fmt: skip
    workshop.add_argument("--new", action="store_true", help="write a fresh one; replaces none")
    workshop.add_argument("--inch", action="store_true", help="lengths not typed in inches")
    workshop.set_defaults(run=_workshop)
    schema = commands.add_parser(
        "schema",
        help="print the JSON Schema of design files",
        description="Print the JSON Schema of design files, or of workshop files.",
    )
    schema.add_argument("--workshop", action="store_true", help="of workshop files")
    schema.set_defaults(run=_schema)
    return parser


def _takes_workshop(command: argparse.ArgumentParser) -> None:
    lists = command.add_mutually_exclusive_group()
    lists.add_argument(
        "--workshop", type=Path, metavar="FILE",
        help="take the lists of this workshop file (default: of yours, if there is one)",
    )  # fmt: skip
    lists.add_argument(
        "--no-workshop", action="store_true", help="keep to the lists of the design itself"
    )


def _port(text: str) -> int:
    if not text.isdigit() or not 1 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"{text!r} is not a port; one from 1 to 65535 would do")
    return int(text)


def _refuse(why: object) -> int:
    print(f"weighshaft: {' '.join(str(why).split())}", file=sys.stderr)
    return REFUSED


def _open(asked: argparse.Namespace) -> int:
    from .serve import CannotServe, serve

    try:
        serve(
            port=asked.port,
            host=asked.host,
            browser=not asked.no_browser,
            designs=asked.designs,
            debug=asked.debug,
        )
    except (CannotServe, FileNotFoundError) as why:
        return _refuse(why)
    return WORKED


def _read(asked: argparse.Namespace) -> Design:
    """Open the design, with the lists of the workshop where one is asked for or found."""
    from .design import read, with_workshop
    from .design import workshop as own

    design = read(asked.file)
    path = asked.workshop or own.usual_file()
    if asked.no_workshop or (asked.workshop is None and not path.is_file()):
        return design
    taken = with_workshop(design, own.read(path))
    print(f"weighshaft: with the lists of {path}", file=sys.stderr, flush=True)
    return taken


def _work(asked: argparse.Namespace) -> int:
    from . import job
    from .sheet import decision_sheet, sheet_text

    try:
        worked = job.work(_read(asked))
    except ValueError as refused:  # DesignRefused, SizeError and MotionLocks are such
        return _refuse(refused)
    if asked.json:
        ascii_only = (sys.stdout.encoding or "").lower().replace("-", "") != "utf8"
        sheet = decision_sheet(worked)
        text = json.dumps(sheet, ensure_ascii=ascii_only, indent=2, allow_nan=False)
    else:
        text = sheet_text(worked, "in" if asked.inch else "mm").rstrip("\n")
    _write(text)
    return STOPPED if any(one.level == "stop" for one in worked.findings) else WORKED


def _questions() -> str:
    """Return the questions there are; kept here, so that a --help need not work anything."""
    return "questions:\n" + "\n".join(f"  {key:8}{asks}" for key, asks in QUESTIONS.items())


def _ask(asked: argparse.Namespace) -> int:
    from . import job
    from .job import questions
    from .job.questions.told import answer_json, answer_text

    if asked.question not in QUESTIONS:
        known = ", ".join(QUESTIONS)
        return _refuse(f"there is no question {asked.question!r}; there are: {known}")

    def told(done: int, total: int) -> None:
        if sys.stderr.isatty():
            print(f"\r{done} of about {total} ", end="", file=sys.stderr, flush=True)

    try:
        worked = job.work(_read(asked))
        marching = questions.Marching(progress=told)
        answer = questions.ask(asked.question, worked.design, worked, marching)
    except ValueError as refused:
        return _refuse(refused)
    if sys.stderr.isatty():
        print("\r", end="", file=sys.stderr)
    if asked.json:
        _write(json.dumps(answer_json(answer), indent=2, allow_nan=False))
    else:
        _write(answer_text(answer, worked.design, "in" if asked.inch else "mm"))
    return STOPPED if any(one.level == "stop" for one in worked.findings) else WORKED


def _drawings(asked: argparse.Namespace) -> int:
    from . import drawing_office, job

    try:
        design = _read(asked)
        worked = job.work(design)
    except ValueError as refused:
        return _refuse(refused)
    keys = drawing_office.keys_of(design, worked)
    for key in asked.only:
        if key not in keys:
            return _refuse(f"there is no drawing {key!r}; there are: {', '.join(keys) or 'none'}")
    if not keys:
        return _refuse("nothing of this design can be drawn yet; weighshaft work says why")
    try:
        for sheet in drawing_office.sheets(
            design, worked, unit=asked.unit, paper=asked.paper, only=tuple(asked.only)
        ):
            drawing_office.write(asked.output, sheet)
            place = "" if sheet.key == drawing_office.BOOK else f"{sheet.number}/{sheet.total}"
            print(f"{place:>5}  {sheet.key}  {sheet.says}", flush=True)
    except OSError as bad:
        return _refuse(f"“{asked.output}” cannot be written: {bad.strerror or bad}")
    return STOPPED if any(one.level == "stop" for one in worked.findings) else WORKED


def _book(asked: argparse.Namespace) -> int:
    if asked.output is None and asked.csv is None:
        return _refuse("say where the book goes: -o book.pdf, -o book.html, or --csv FOLDER")
    from datetime import date

    from . import book, job

    def say(line: str) -> None:
        print(f"weighshaft: {line}", file=sys.stderr, flush=True)

    try:
        if asked.output is not None:
            book.look_at(asked.output)
        design = _read(asked)
        say(f"working {asked.file}")
        worked = job.work(design)
        book.make(
            design, worked, output=asked.output, tables=asked.csv,
            unit="in" if asked.inch else "mm", made=date.today().isoformat(), say=say,
        )  # fmt: skip
    except ValueError as refused:  # and BookRefused is such too
        return _refuse(refused)
    return STOPPED if any(one.level == "stop" for one in worked.findings) else WORKED


def _workshop(asked: argparse.Namespace) -> int:
    from .design import Workshop
    from .design import workshop as own
    from .design.listed import workshop_text

    path = asked.file or own.usual_file()
    try:
        if not asked.new:
            _write(workshop_text(own.read(path), "in" if asked.inch else "mm").rstrip("\n"))
            return WORKED
        if path.exists():
            return _refuse(f"“{path}” is there already; it was left as it is")
        path.parent.mkdir(parents=True, exist_ok=True)
        own.write(path, Workshop())
    except ValueError as refused:
        return _refuse(f"{refused} Write one with: weighshaft workshop --new"
                       if not asked.new and not path.exists() else refused)  # fmt: skip
    except OSError as bad:
        return _refuse(f"“{path}” cannot be written: {bad.strerror or bad}")
    print(f"weighshaft: {path} written; fill in what you own, empty lists are not judged")
    return WORKED


def _schema(asked: argparse.Namespace) -> int:
    from .design.schema import schema_text, workshop_schema_text

    _write((workshop_schema_text() if asked.workshop else schema_text()).rstrip("\n"))
    return WORKED


def _write(text: str) -> None:
    """Print text whatever alphabet the terminal or pipe is set to."""
    out = sys.stdout
    encoding = out.encoding or "utf-8"
    print(text.encode(encoding, "replace").decode(encoding))
