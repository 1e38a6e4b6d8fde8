"""The book as a whole: the job, the chapters, the drawings, the lists, in their order."""

from __future__ import annotations

from .. import __version__
from ..design.changes import label_of, spelt
from ..design.document import CHAPTERS, Design
from ..design.sentences import in_unit
from ..design.typed import LengthUnit
from ..findings import LEVELS
from ..job import Work
from ..job.made import MADE
from ..pictures.drawings import drawings_of
from ..pictures.frames import pictures as views_of
from ..pictures.scene import Scene
from ..sheet import MEASURED, TITLES
from ..sizes import sizes_of
from . import checks
from .blanks import blanks_of, hexagons_of
from .blocks import Block, Book, Drawn, Grid, Section, Shown, Words
from .chapters import chapter, judged, reason, reasoned
from .inches import read_out
from .metal import metal
from .tools import tools

_FIRST = ("scale", "cylinders", "motion", "wheels", "threads", "nozzle")
"""Chapters whose main sizes are the particulars of the engine."""
_ON_COVER = (
    "scale.ratio", "scale.track_gauge", "cylinders.bore", "cylinders.stroke",
    "cylinders.pressure", "wheels.driving_diameter",
)  # fmt: skip


def book_of(design: Design, work: Work, *, unit: LengthUnit = "mm", made: str = "") -> Book:
    """Return the book of a design, its pictures not yet drawn.

    Parameters
    ----------
    work : the design worked.
    unit : in which lengths that were worked out are shown, "mm" or "in".
    made : when the book is made, for its title page; empty for none.
    """
    bench = [key for key in CHAPTERS if key in MADE]
    engine = [key for key in CHAPTERS if key not in bench]
    sections = [
        _the_job(design, work, unit),
        *(chapter(design, work, key, unit) for key in engine),
        *(chapter(design, work, key, unit) for key in bench),
        _drawings(design, work),
        Section("metal", "Parts, and metal to cut", tuple(_metal(design, work, unit))),
        Section("tools", "Screws, threads and tools", tuple(tools(design, work, unit))),
        Section("order", "Building order", tuple(checks.build_order(work))),
        Section("air", "On air", tuple(checks.air_test(design, work, unit))),
        Section("steam", "First steam", tuple(checks.first_steaming(design, work, unit))),
    ]
    words = f"Weighshaft {__version__}"
    return Book(
        title=design.name,
        made=f"{words}, {made}" if made else words,
        cover=_cover(design, work, unit),
        particulars=tuple(
            (label_of(design, path), _spelt_at(design, path, unit)) for path in _ON_COVER
        ),
        sections=tuple(one for one in sections if one.blocks),
    )


def _spelt_at(design: Design, path: str, unit: LengthUnit) -> str:
    *chain, name = path.split(".")
    group = design.at(".".join(chain))
    return spelt(getattr(group, name), sizes_of(type(group))[name], unit)


def _cover(design: Design, work: Work, unit: LengthUnit) -> Shown | None:
    if work.frames is None:
        return None
    view = next(one for one in views_of(design.frames, work.frames) if isinstance(one, Scene))
    shown = read_out(view, "frames", unit)
    assert isinstance(shown, Scene)
    return Shown(shown, in_unit(view.says, unit))


def _the_job(design: Design, work: Work, unit: LengthUnit) -> Section:
    rows = []
    for key in _FIRST:
        group = getattr(design, key)
        main = [
            (about.label, spelt(getattr(group, name), about, unit), reason(design, f"{key}.{name}"))
            for name, about in sizes_of(type(group)).items()
            if about.main and getattr(group, name) not in (None, "", ())
        ]
        rows += [(TITLES[key], "", ""), *main] if main else []
    blocks: list[Block] = [
        Words(checks.DEFERS, "heed"),
        reasoned("The job", tuple(rows)),
    ]
    if design.notes:
        notes = tuple(
            (TITLES.get(path.split(".")[0], ""), label_of(design, path), note)
            for path, note in design.notes.items()
        )
        blocks.append(Grid("Why it was decided so", ("chapter", "decision", "why"), notes))
    counts = [(level, sum(one.level == level for one in work.findings)) for level in LEVELS]
    told = ", ".join(f"{count} {level}" for level, count in counts if count) or "none"
    blocks += [
        Words("Findings", "head"),
        Words(
            f"Of all chapters: {told}. “Stop” will not work or not fit, “check” is to be looked at "
            "again. Those that want something stand here; what was found in order stands in its "
            "chapter."
        ),
    ]
    blocks += [
        judged(one, unit, f"{TITLES.get(one.chapter, one.chapter)}: ")
        for one in work.findings
        if one.level != "fine"
    ]
    if unit == "in":
        named = ", ".join(TITLES[key] for key in CHAPTERS if key not in MEASURED)
        blocks.append(Words(f"Sentences stay in mm in the chapters: {named}.", "small"))
    return Section("job", "The job", tuple(blocks))


def _drawings(design: Design, work: Work) -> Section:
    made = drawings_of(design, work)
    if not made:
        return Section("drawings", "Drawings", ())

    def number(n: int) -> str:
        return f"{n} of {len(made)}"

    rows = tuple(
        (number(n), one.title, one.material, str(one.count)) for n, one in enumerate(made, 1)
    )
    return Section(
        "drawings",
        "Drawings",
        (
            Words(
                "Each sheet is drawn for A4 lying down and to the scale in its block. Print it at "
                "100 %, not fitted to the page, and lay a rule on the bar of 100 mm before "
                "anything is measured from it."
            ),
            Grid("Sheets", ("sheet", "part", "metal", "number"), rows),
            *(Drawn(one, number(n)) for n, one in enumerate(made, 1)),
        ),
    )


def _metal(design: Design, work: Work, unit: LengthUnit) -> list[Block]:
    if work.frames is None:
        return [Words("The engine could not be put together: see the findings.")]
    blanks = blanks_of(work.frames.whole)
    if work.threads is not None:
        blanks += hexagons_of(work.threads, design.threads, design.cylinders.number)
    metric = design.threads.preferred == "metric"
    return metal(blanks, design.machines.rack, metric, unit)
