"""The chapters of the page, in their order, with the names that they carry."""

from __future__ import annotations

import importlib
from dataclasses import dataclass
from typing import Any

from ..design.typed import LengthUnit
from ..pictures.scene import Picture


@dataclass(frozen=True)
class Chapter:
    """One chapter: its key in the design, its title and the short word on its tab.

    `within` names the chapter that it follows from, under whose tab it stands.
    """

    key: str
    title: str
    tab: str
    within: str = ""


CHAPTERS = (
    Chapter("scale", "Prototype and scale", "Prototype"),
    Chapter("cylinders", "Cylinders and haulage", "Cylinders"),
    Chapter("motion", "Valves and motion", "Motion"),
    Chapter("beside", "Two gears side by side", "Side by side", "motion"),
    Chapter("reversing", "Reverser and both sides", "Reverser", "motion"),
    Chapter("pivots", "The best place for the pivots", "Pivots", "motion"),
    Chapter("tolerances", "What must be held tight", "Tolerances", "motion"),
    Chapter("axlebox", "The motion on its springs", "Springs", "motion"),
    Chapter("clearance", "Room for the motion", "Room", "motion"),
    Chapter("valve_setting", "Setting the valves on the air line", "Air test", "motion"),
    Chapter("wheels", "Wheels and axles", "Wheels"),
    Chapter("threads", "Threads and fittings", "Threads"),
    Chapter("nozzle", "Blast nozzle", "Nozzle"),
    Chapter("frames", "The engine in its frames", "Frames"),
    Chapter("boiler", "The boiler in the frames", "Boiler", "frames"),
    Chapter("gauging", "Widths, clearances and the loading gauge", "Clearances", "frames"),
    Chapter("weights", "Weight, axle loads and adhesion", "Weight", "frames"),
    Chapter("springing", "Axle springs and horns", "Axle springs", "frames"),
    Chapter("curving", "Round the curves", "Curves", "frames"),
    Chapter("rods", "Rods, crossheads and balance", "Rods", "frames"),
    Chapter("erection", "Putting together and taking apart", "Erecting", "frames"),
    Chapter("machines", "Machines and tools owned", "Workshop"),
    Chapter("slots", "Curved slots and arcs", "Link slot", "machines"),
    Chapter("patterns", "Holes, ports and tapers", "Holes", "machines"),
    Chapter("eccentrics", "Eccentrics, cranks and quartering", "Eccentrics", "machines"),
    Chapter("screwcutting", "Screwcutting, dividing and speeds", "Screwcutting", "machines"),
    Chapter("fitting", "Joints, glands and rings", "Joints", "machines"),
    Chapter("steam", "The steam in the cylinder", "Steam"),
    Chapter("firing", "Fire, boiler and feed", "Fire and feed", "steam"),
    Chapter("bench", "Measured on the bench and on the line", "Measured", "steam"),
    Chapter("draught", "Blast and draught", "Draught", "steam"),
    Chapter("running", "Pull, train and track", "Running", "steam"),
)
WHOLE = Chapter("whole", "Whole design", "Whole design")
QUESTIONS = Chapter("questions", "Questions to the steam", "Questions", "steam")
"""A sheet of its own that has no decisions: it asks about those of all chapters."""
PAGES = (*CHAPTERS, QUESTIONS, WHOLE)
KEYS = tuple(chapter.key for chapter in PAGES)
READ_OUT = frozenset(
    one.key for one in CHAPTERS if {one.key, one.within} & {"motion", "frames", "steam", "machines"}
)
"""Chapters whose sentences are read out in the unit of the page: every length in them is a
measure.  Elsewhere some are names, such as a 3.2 mm drill, which no switch may change."""


def sentence_unit(chapter: str, page: LengthUnit) -> LengthUnit:
    """Return the unit in which the sentences of a chapter are read out on a page."""
    return page if chapter in READ_OUT else "mm"


def titled(key: str) -> str:
    """Return the title of a chapter."""
    return PAGES[KEYS.index(key)].title


def pictures_of(key: str, decisions: Any, result: Any, *own: Any) -> tuple[Picture, ...]:
    """Return the pictures of a chapter; `own` is what it has besides, such as a search's find.

    The module that draws them is only imported when its chapter is first shown, so that
    the page itself comes up at once.
    """
    drawing = importlib.import_module(f"weighshaft.pictures.{key}")
    return tuple(drawing.pictures(decisions, result, *own))
