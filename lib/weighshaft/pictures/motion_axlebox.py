"""What axleboxes on springs do to the events: cut-off over the rise, and the events in figures."""

from __future__ import annotations

import numpy as np

from ..motion.axlebox import EVENT_NAMES, AxleboxEffect
from ..motion.events import ENDS
from .motion import event_cells
from .scene import Chart, Curve, Picture, Table

_COLUMNS = ("admission", "cut-off", "release", "compression", "lead", "opens")


def pictures(effect: AxleboxEffect) -> tuple[Picture, ...]:
    """Return the cut-off over the rise, the events at each rise, and the changes for a mm."""
    return cutoff_over_rise(effect), events_at_rises(effect), changes_table(effect)


def cutoff_over_rise(effect: AxleboxEffect) -> Chart:
    """Return the cut-off of both ends over the rise of the axle, in the notch looked at."""
    curves, said = [], []
    for end, pen in zip(ENDS, ("changed", "trace"), strict=True):
        found = [
            (rise, cutoff.percent)
            for rise, events in zip(effect.rises, effect.running, strict=True)
            for cutoff in (getattr(events, end).cutoff,)
            if cutoff is not None
        ]
        if len(found) > 1:
            x, y = np.array(found).T
            curves.append(Curve(x, y, end, pen))  # type: ignore[arg-type]
            said.append(f"{end} from {y[0]:.1f} to {y[-1]:.1f} %")
    words = " and ".join(said) if said else "neither end cuts off"
    low, high = effect.rises[0], effect.rises[-1]
    return Chart(
        f"Cut-off as the axle rises, reverser at {effect.look:+.2f}",
        f"From the axle {abs(low):.2f} mm down to {high:.2f} mm up the cut-off goes: {words} of "
        "the stroke.",
        "axle above its working height, mm", "cut-off, % of stroke", tuple(curves),
    )  # fmt: skip


def events_at_rises(effect: AxleboxEffect) -> Table:
    """Return the events of both ends at each rise, in the notch looked at."""
    rows: list[tuple[str | float, ...]] = [
        (rise, end, *event_cells(getattr(events, end)))
        for rise, events in zip(effect.rises, effect.running, strict=True)
        for end in ENDS
    ]
    return Table(
        f"Events as the axle rises, reverser at {effect.look:+.2f}",
        ("axle above rest", "end", *_COLUMNS),
        tuple(rows),
        "Per cent of the stroke of the cylinder as built; the valve as it was set with the axle at "
        "its working height.",
    )


def changes_table(effect: AxleboxEffect) -> Table:
    """Return by how much each event changes at most for each millimetre of rise."""
    found = {(one.reverser, one.end, one.event): one.per_mm for one in effect.changes}

    def cell(notch: float, end: str, event: str) -> str:
        rate = found.get((notch, end, event))
        if rate is None:
            return "–"
        return f"{rate:.3f} mm" if event in EVENT_NAMES[4:] else f"{rate:.2f} %"

    return Table(
        "Greatest change for each mm of rise",
        ("reverser", "end", *_COLUMNS),
        tuple(
            (f"{notch:+.2f}", end, *(cell(notch, end, event) for event in EVENT_NAMES))
            for notch in effect.notches
            for end in ENDS
        ),
        "For each millimetre that the axle goes up or down from its working height.",
    )
