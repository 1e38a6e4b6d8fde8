"""The desk: one builder's session, without widgets.

Everything that the page can do is a method here, so that a script or a test can do it too;
the page is a window on the desk and holds nothing of its own.
"""

from __future__ import annotations

import dataclasses
import json
import logging
import time
from collections.abc import Callable
from typing import Any

from ..design import file
from ..design.document import CHAPTERS, Design, DesignRefused, to_document
from ..design.history import History
from ..design.typed import Length, LengthUnit
from ..job import Work, gaps_of
from ..sizes import Size, SizeError
from . import motion, wheels
from .asking import Inquiry
from .chapters import KEYS
from .kinds import changed_kind
from .lists import with_fewer, with_more
from .margin import about
from .rows import Wrong
from .searching import Searching
from .shelf import Shelf, file_stem
from .sliders import Slider, text_at
from .spelling import out_of_range, spelt, usual_unit
from .together import put
from .workshop import Shop

_log = logging.getLogger(__name__)
SORRY = "That could not be worked out; the last good design stands. The log says more."
_LONGEST_PATH = 120
_LONGEST_NOTE = 2000
_LONGEST_NAME = 120


class Desk:
    """A builder at work on one design.

    Parameters
    ----------
    design : to begin with.
    shelf : where designs are saved and samples are found.
    work : works out a design; `job.work` unless a test says otherwise.
    """

    def __init__(
        self,
        design: Design,
        shelf: Shelf | None = None,
        work: Callable[..., Work] | None = None,
    ) -> None:
        from .. import job

        self._work = work or job.work
        self.shelf = shelf or Shelf()
        self.chapter = KEYS[0]
        self.unit: LengthUnit = "mm"
        self.says = ""
        self.wrong: dict[str, Wrong] = {}
        self.unfolded: set[str] = set()
        self.lines: dict[tuple[str, LengthUnit], Slider] = {}
        self.searching: Searching | None = None
        self.drafting: Any = None
        self.fitting: Any = None
        self.asking = Inquiry()
        self.shop = Shop()
        self._first = design
        self._begin(design)

    def _begin(self, design: Design, saved_as: str = "", saved_at: float = 0.0) -> None:
        self.work = self._worked(design)
        self.history = History(design)
        self.saved_as, self.saved_at = saved_as, saved_at
        self.unit = usual_unit(design)
        self.wrong.clear()
        self.lines.clear()

    @property
    def design(self) -> Design:
        """The design in force: the last one that could be worked."""
        return self.work.design

    def _worked(self, design: Design, *, dragged: bool = False) -> Work:
        given = self.asking.given
        try:
            if dragged:
                return self._work(design, shown=self.chapter, before=self.work, **given)
            return self._work(design, **given)
        except DesignRefused:
            raise
        except ValueError as refused:  # SizeError, MotionLocks: in the builder's words already
            raise DesignRefused(str(refused)) from refused
        except Exception as fault:
            # a fault of ours must not cost the builder the design before it
            _log.exception("The design could not be worked")
            raise DesignRefused(SORRY) from fault

    def take(
        self, design: Design, says: str = "", going_on: bool = False, dragged: bool = False
    ) -> None:
        """Take a design as the next step, once it has been worked."""
        self.work = self._worked(design, dragged=dragged)
        self.history.take(design, says, going_on=going_on)

    # --- sizes ---------------------------------------------------------------------------

    def edit(
        self, path: str, value: str | bool, *, going_on: bool = False, dragged: bool = False
    ) -> bool:
        """Take what was typed for a size; a bad entry leaves the last good design in force.

        Parameters
        ----------
        path : of the decision, such as "cylinders.bore".
        value : text as typed, in any spelling that builders use; a word of the list; yes or no.
        going_on : the same movement of a slider goes on.
        dragged : the slider has not come to rest; what is out of sight is not worked anew.

        Returns
        -------
        whether the design took it; if not, `wrong[path]` holds the sentence for the field.
        """
        size = self._size(path)
        try:
            self.take(self._with(path, value), going_on=going_on, dragged=dragged)
        except DesignRefused as refused:
            text = value if isinstance(value, str) else ""
            self.wrong[path] = Wrong(text[:60], self._sentence(size, text, refused))
            return False
        self.wrong.pop(path, None)
        return True

    def _with(self, path: str, value: str | bool) -> Design:
        changes = motion.together(self.design, path, value)
        if len(changes) == 1:
            return self.design.changed(changes, self.unit)
        return put(self.design, changes)  # one after the other would not agree in between

    def slide(
        self, path: str, number: float, *, going_on: bool = True, dragged: bool = False
    ) -> bool:
        """Take a place on the line of a size, in the unit that the page shows."""
        text = text_at(number, self._size(path), self.unit)
        return self.edit(path, text, going_on=going_on, dragged=dragged)

    def apply(self, path: str, value: float | str) -> bool:
        """Do what a finding or a suggestion asks for, to the figure that its button names."""
        return self.edit(path, spelt(value, self._size(path).unit, self.unit))

    def _size(self, path: str) -> Size:
        """Return what is known of a size; refuse a path that is not one of the builder's sizes."""
        chapter = path[:_LONGEST_PATH].split(".")[0]
        known = about(self.design, path) if chapter in CHAPTERS else None
        if known is None:
            raise DesignRefused(f"There is no “{path[:60]}” in this design.")
        value = self.design.at(path)
        if dataclasses.is_dataclass(value) or isinstance(value, tuple):
            raise DesignRefused(f"{known.label} is not a single size.")
        return known

    def _sentence(self, size: Size, text: str, refused: DesignRefused) -> str:
        if size.unit == "mm" and self.unit == "in" and isinstance(refused.__cause__, SizeError):
            # the engineering gives the limits in mm; the builder is working in inches
            try:
                value = Length(text, self.unit)
            except ValueError:
                return str(refused)
            if not size.low <= value <= size.high:
                shown = f"{text} {self.unit}" if text[-1:].isdigit() else text
                return out_of_range(size, shown, self.unit)
        return str(refused)

    def choose(self, path: str, kind: str) -> None:
        """Change a decision to another kind, such as the gear, laid out for this engine."""
        if getattr(self.design.at(path), "kind", None) == kind:
            return
        changes = changed_kind(self.design, path, kind, self.shelf)
        for bought in sorted(set(changes) & set(self.design.fixed)):
            raise DesignRefused(
                f"Another kind would change the {self._size(bought).label.lower()}, which a bought "
                "part has settled; take its mark away first."
            )
        # notes and marks on sizes that the other kind does not have would be refused in a file
        self.take(self._without_marks_under(path).changed(changes))
        self.says = f"{kind[:1].upper()}{kind[1:]}: laid out afresh; Undo brings the other back."

    def fit(self) -> None:
        """Turn throw, lead and lap of the gear until the real linkage gives the events wanted."""
        self.take(self.design.changed(motion.fitted_gear(self.design)))
        self.says = "Fitted on the real linkage; Undo brings the sizes back."

    def copy_gear(self) -> None:
        """Lay a copy of the engine's gear beside it."""
        self.take(self._without_marks_under("beside.gear").changed(motion.copied_gear(self.design)))
        self.says = "A copy stands beside it; change that, and the engine's stays as it is."

    def search(self) -> None:
        """Begin to search for the best places of the pivots; one search at a time."""
        if self.searching is not None and self.searching.running:
            raise DesignRefused("A search is under way; stop it first.")
        self.searching = Searching(self.design, clear=gaps_of(self.design, self.work.wheels))

    def stop_search(self) -> None:
        """End the search under way with the best so far."""
        if self.searching is not None:
            self.searching.stop()

    def draw_map(self) -> None:
        """Draw the map over the two sizes chosen, with what was found if it still stands."""
        if self.searching is not None and self.searching.running:
            raise DesignRefused("A search is under way; stop it first.")
        self.searching = Searching(
            self.design,
            clear=gaps_of(self.design, self.work.wheels),
            before=self.found,
            only_map=True,
        )

    @property
    def found(self) -> Searching | None:
        """The search, or map, that has ended and belongs to the design as it stands."""
        one = self.searching
        if one is None or one.running or (one.found is None and one.map is None):
            return None
        return one if one.belongs_to(self.design) else None

    def take_found(self) -> None:
        """Put the pivots where the search found them best."""
        if self.found is None or self.found.found is None:
            raise DesignRefused("Nothing has been found for the gear as it stands.")
        changes = dict(self.found.found.changes)
        self.take(self.design.changed(changes), "Pivots moved")
        self.says = "The pivots stand where the search put them; Undo brings them back."

    def _without_marks_under(self, path: str) -> Design:
        def outside(one: str) -> bool:
            return not one.startswith(f"{path}.")

        notes = {one: text for one, text in self.design.notes.items() if outside(one)}
        fixed = tuple(filter(outside, self.design.fixed))
        return dataclasses.replace(self.design, notes=notes, fixed=fixed)

    def more(self, path: str) -> None:
        """Add one to a list, such as another axle: a copy of the last."""
        self._grow(path, with_more(self.design, path), "One added")

    def fewer(self, path: str) -> None:
        """Take one out of a list by its path, such as "wheels.wheelbase.1"."""
        self._grow(*with_fewer(self.design, path), "One taken away")

    def _grow(self, path: str, several: tuple[Any, ...], says: str) -> None:
        design = self._without_marks_under(path)
        self.take(put(design, wheels.together(design, path, several)), says)

    # --- notes, marks, units, history ----------------------------------------------------

    def note(self, path: str, text: str) -> None:
        """Keep why a decision was taken; an empty text takes the note away."""
        self._size_or_list(path)
        notes = dict(self.design.notes)
        notes.pop(path, None)
        if text.strip():
            notes[path] = text.strip()[:_LONGEST_NOTE]
        self.take(dataclasses.replace(self.design, notes=notes))

    def fix(self, path: str, settled: bool = True) -> None:
        """Mark a size as settled by a part already bought, or free it again."""
        self._size_or_list(path)
        fixed = tuple(one for one in self.design.fixed if one != path)
        self.take(dataclasses.replace(self.design, fixed=(*fixed, path) if settled else fixed))

    def _size_or_list(self, path: str) -> None:
        if path.split(".")[0] not in CHAPTERS or about(self.design, path) is None:
            raise DesignRefused(f"There is no “{path[:60]}” in this design.")

    def rename(self, name: str) -> None:
        """Give the engine another name."""
        name = " ".join(name.split())[:_LONGEST_NAME]
        if not name:
            raise DesignRefused("An engine needs a name.")
        self.take(dataclasses.replace(self.design, name=name))

    def set_unit(self, unit: LengthUnit) -> None:
        """Show the whole page in mm or in inches; what was typed keeps its spelling."""
        if unit not in ("mm", "in"):
            raise DesignRefused("The page is in mm or in inches.")
        self.unit = unit
        self.wrong.clear()

    def undo(self) -> None:
        """Take back the last step."""
        self._goes_to(self.history.undo())

    def redo(self) -> None:
        """Take the step undone last again."""
        self._goes_to(self.history.redo())

    def _goes_to(self, design: Design) -> None:
        self.work = self._worked(design)
        self.wrong.clear()

    def go(self, chapter: str) -> None:
        """Turn to a chapter."""
        if chapter not in KEYS:
            raise DesignRefused("There is no such chapter.")
        self.chapter = chapter
        self.unfolded.clear()

    def unfold(self, working: str, shown: bool = True) -> None:
        """Show the mathematics of a working of this chapter, or fold it away again."""
        (self.unfolded.add if shown else self.unfolded.discard)(working[:200])

    # --- files ---------------------------------------------------------------------------

    def save(self) -> None:
        """Save on the shelf, under the name it has there or else the engine's."""
        if self.saved_as:
            self._save(self.saved_as)
        else:
            self.save_as(self.design.name)

    def save_as(self, name: str) -> None:
        """Save on the shelf under a new name; a design that already has it is not replaced."""
        key = file_stem(name)
        if key != self.saved_as and self.shelf.holds(key):
            raise DesignRefused(
                f"There is already a design “{key}” on the shelf. Open that one, "
                "or save this under another name."
            )
        self._save(key)

    def _save(self, key: str) -> None:
        self.shelf.save(self.design, key)
        self.saved_as, self.saved_at = key, time.time()
        self.history.saved()
        self.says = f"Saved as “{key}”."

    def open(self, key: str) -> None:
        """Open a design from the shelf."""
        design = self.shelf.open(key)
        saved = next(one.saved for one in self.shelf.designs() if one.key == key)
        self._begin(design, saved_as=key, saved_at=saved)
        self.says = f"Opened “{key}”."

    def new_from_sample(self, key: str) -> None:
        """Begin afresh from a sample."""
        self._begin(self.shelf.sample(key))
        self.says = f"A fresh copy of {self.design.name}."

    def afresh(self, sample: str = "") -> None:
        """Begin again from the sample that the page was opened with, or from the usual one."""
        self._begin(self.shelf.sample(sample) if sample else self._first)
        self.says = f"A fresh start with {self.design.name}."

    def duplicate(self) -> None:
        """Go on with a copy under another name, not yet saved; the original stays as it is."""
        design = dataclasses.replace(self.design, name=f"{self.design.name}, copy"[:_LONGEST_NAME])
        self.take(design, "Duplicated")
        self.saved_as, self.saved_at = "", 0.0
        self.says = f"This is now {design.name}; it has not been saved yet."

    def upload(self, data: bytes) -> None:
        """Open a design file that the builder brought."""
        design = file.from_bytes(data)
        self._begin(design)
        self.says = f"Opened {design.name} from your file; it has not been saved here yet."

    def download(self) -> tuple[str, str]:
        """Return the name of a design file and what stands in it."""
        return f"{file_stem(self.design.name)}{file.SUFFIX}", file.to_bytes(self.design).decode()

    def autosaved(self) -> str:
        """Return the design as text for the browser to keep."""
        return json.dumps(to_document(self.design), ensure_ascii=False, allow_nan=False)

    def restore(self, text: str, saved_as: str = "", unit: str = "") -> None:
        """Take up the design that the browser had kept, beside the file it was last saved as."""
        design = file.from_bytes(text.encode("utf-8", "surrogatepass"))
        saved = self._standing(saved_as)
        if saved is None:
            self._begin(design)
        else:
            self._begin(saved[0], saved_as=saved_as, saved_at=saved[1])
            self.take(design, "Restored")
        if unit in ("mm", "in"):
            self.unit = "in" if unit == "in" else "mm"

    def _standing(self, key: str) -> tuple[Design, float] | None:
        found = [one for one in self.shelf.designs() if one.key == key]
        try:
            return (self.shelf.open(key), found[0].saved) if found else None
        except DesignRefused:
            return None
