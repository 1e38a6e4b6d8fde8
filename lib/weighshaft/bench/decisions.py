"""What the builder measures of the finished engine, and what a fit has made of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size

WATER, PULL, STANDING, FUEL, FUEL_FULL, RAISED, KEPT = (
    "water used on a run", "pull while running", "pull, held fast", "fuel, pressure kept",
    "fuel, fire full", "time to raise steam", "pressure that keeps itself",
)  # fmt: skip
KINDS = (WATER, PULL, STANDING, FUEL, FUEL_FULL, RAISED, KEPT)
WITHIN = {
    WATER: 5.0, PULL: 10.0, STANDING: 20.0, FUEL: 5.0, FUEL_FULL: 3.0, RAISED: 5.0, KEPT: 5.0,
}  # fmt: skip
"""Per cent within which a reading is good where the builder does not say (common practice): a
measuring glass and a run without waste, a spring balance that swings, an engine held in a chance
position of its cranks, kitchen scales, a gauge read to a twentieth."""
_FIGURE = {
    WATER: ("water", "ml"), PULL: ("pull", "N"), STANDING: ("pull", "N"), FUEL: ("fuel", "g"),
    FUEL_FULL: ("fuel", "g"), RAISED: ("minutes", "min"), KEPT: ("pressure", "bar"),
}  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Run:
    """One thing measured; a run without its figure has not been made yet."""

    title: ClassVar[str] = "Run"
    afresh: ClassVar[tuple[str, ...]] = ("water", "pull", "fuel", "within")
    """What another run does not take over from the one before it."""
    what: str = size("What was measured", "choice", choices=KINDS, default=WATER)
    water: float | None = size(
        "Water that was used", "ml", 0.1, 1_000_000, default=None,
        help="of a run: the boiler filled to the same mark before and after, leaks caught",
    )  # fmt: skip
    pull: float | None = size(
        "Pull on the balance", "N", 0.05, 50_000, default=None, help="behind the engine, level"
    )
    fuel: float | None = size(
        "Fuel that was burnt", "g", 0.05, 200_000, default=None,
        help="gas tank or lamp weighed before and after, or the coal fired",
    )  # fmt: skip
    minutes: float | None = size(
        "It took", "min", 0.05, 1000, default=None,
        help="of a run, of weighing fuel, or from lighting up to the pressure",
    )  # fmt: skip
    turns: float | None = size(
        "Turns that were counted", "count", 1, 10_000_000, default=None,
        help="of a run, instead of minutes",
    )  # fmt: skip
    pressure: float | None = size(
        "Gauge showed", "bar", 0.2, 16, default=None,
        help="while it ran; what was reached, or kept; empty takes the working one",
    )  # fmt: skip
    speed: float | None = size(
        "It ran at", "km/h", 0.2, 60, default=None, help="empty takes the usual running"
    )
    notch: float | None = size(
        "Reverser stood at", "ratio", -1, 1, default=None, help="empty takes the running notch"
    )
    regulator: float = size(
        "Regulator stood open by", "ratio", 0.01, 1, default=1.0, help="of its full opening"
    )
    within: float | None = size(
        "Figure good to within", "%", 0.2, 100, default=None,
        help="of what was measured; empty: 5 %, a pull 10 %, held fast 20 %",
    )  # fmt: skip
    note: str = size("Remark", "text", default="", help="weather, rails, anything odd")

    def __post_init__(self) -> None:
        check_sizes(self)
        if len(self.note) > 300:
            raise SizeError(f"Remark: {len(self.note)} letters are too many; 300 would do.", "note")

    @property
    def figure(self) -> float | None:
        """What was measured, in the unit that belongs to it; None while it has not been."""
        found: float | None = getattr(self, _FIGURE[self.what][0])
        return found

    @property
    def unit(self) -> str:
        """The unit of the figure."""
        return _FIGURE[self.what][1]

    @property
    def good(self) -> float:
        """Within how many parts of itself the figure is good."""
        return (WITHIN[self.what] if self.within is None else self.within) / 100

    @property
    def told(self) -> str:
        """The run in a few words, as a builder notes it down."""
        if self.figure is None:
            return f"{self.what}, not measured yet"
        return f"{self.what}, {self.figure:.4g} {self.unit}"


@dataclass(frozen=True, kw_only=True)
class Predicted:
    """What was reckoned of one run when the fit was made."""

    title: ClassVar[str] = "Reckoned of run"
    measured: float = size("The fit took the figure", "ratio", 0, 1e9, default=0.0)
    before: float = size("Reckoned before the fit", "ratio", 0, 1e9, default=0.0)
    after: float = size("Reckoned after the fit", "ratio", 0, 1e9, default=0.0)
    band: float = size(
        "Reckoned after is good to within", "%", 0, 1000, default=0.0, help="of itself"
    )
    departs: float = size(
        "Departs from the others by", "ratio", -1000, 1000, default=0.0,
        help="standard deviations; beyond 4 it is set aside",
    )  # fmt: skip
    used: str = size(
        "The fit used it", "choice", choices=("yes", "set aside", "could not"), default="yes"
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Found:
    """One coefficient as the fit left it."""

    title: ClassVar[str] = "Coefficient"
    name: str = size("Coefficient called", "text", default="")
    before: float = size("Stood before", "ratio", 0, 1e7, default=0.0)
    value: float = size("Fitted", "ratio", 0, 1e7, default=0.0)
    low: float = size("Fitted, at least", "ratio", 0, 1e7, default=0.0)
    high: float = size("Fitted, at most", "ratio", 0, 1e7, default=0.0)
    determined: bool = size("The runs determine it", "yes/no", default=False)

    def __post_init__(self) -> None:
        check_sizes(self)
        if len(self.name) > 40:
            raise SizeError("Coefficient called: 40 letters would do.", "name")


@dataclass(frozen=True, kw_only=True)
class Fitted:
    """What the last fit found, and what it was fitted to; the button writes it."""

    title: ClassVar[str] = "Last fit, as the button wrote it"
    of: str = size(
        "Mark of engine and runs fitted", "text", default="",
        help="another mark than the engine's says that something has changed since",
    )  # fmt: skip
    scatter: float = size(
        "Runs scatter, of what their accuracy lets expect", "ratio", 0, 1e6, default=1.0
    )
    coefficients: tuple[Found, ...] = ()
    runs: tuple[Predicted, ...] = ()

    def __post_init__(self) -> None:
        check_sizes(self)
        if len(self.of) > 64:
            raise SizeError("Mark of engine and runs fitted: 64 letters would do.", "of")


TAKEN = ("what the runs determine", "everything fitted")


@dataclass(frozen=True, kw_only=True)
class Taking:
    """What of a fit is taken over into the chapters that own it."""

    title: ClassVar[str] = "Take over into steam, cylinders and fire"
    taken: str = size("Of the fit is taken over", "choice", choices=TAKEN, default=TAKEN[0])

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Bench:
    """The chapter's decisions: the runs, and what was made of them."""

    runs: tuple[Run, ...] = ()
    spread: float = size(
        "Reckoning itself is good to within", "%", 0.5, 40, default=5.0, main=True,
        help="beside the coefficients, of a reading; common practice, no small engine has been "
        "published",
    )  # fmt: skip
    taking: Taking = Taking()
    fitted: Fitted = Fitted()

    def __post_init__(self) -> None:
        check_sizes(self)
