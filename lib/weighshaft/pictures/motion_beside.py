"""Two gears on one engine: drawn over each other, their curves, and their figures in columns."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ..motion.beside import SideBySide
from ..motion.beside_sides import FRAMES, Side, mean
from ..motion.beside_told import shown
from ..motion.events import ENDS, ValveEvents
from .motion import centre_lines, draw_part, event_cells
from .scene import Array, Chart, Circle, Curve, Label, Moving, Pen, Picture, Primitive, Scene, Table

_FIRST: tuple[Pen, Pen] = ("changed", "trace")
"""Pens of the gear's curves, front and back; those of the gear beside it are greyer."""
_OTHER: tuple[Pen, Pen] = ("behind", "hidden")


def pictures(beside: SideBySide) -> tuple[Picture, ...]:
    """Return both gears moving, their valves over the turn, events over the notches, and tables."""
    made: list[Picture] = [
        overlay(beside),
        valves_over_the_turn(beside),
        cutoffs_over_notches(beside),
    ]
    lead = lead_over_cutoff(beside)
    if lead is not None:
        made.append(lead)
    return (*made, measures_table(beside), events_table(beside))


def overlay(beside: SideBySide) -> Scene:
    """Return both gears to scale on the same crank, the one beside it in grey."""
    crank, first, other = beside.crank, beside.first, beside.other
    points, behind = _points(first), _points(other)
    still: list[Primitive] = [
        *centre_lines(points, crank.throw),
        Circle((0.0, 0.0), crank.throw, "centre"),
        Circle((0.0, 0.0), 0.22 * crank.throw, "outline", "metal", "axle"),
    ]
    moving = [
        replace(made, pen="behind", fill="none", part=f"{made.part}, beside")
        for made in _drawn(other, behind, crank.throw)
    ]
    # grey is the other gear's alone
    moving += [
        replace(made, pen="thin") if made.pen == "behind" else made
        for made in _drawn(first, points, crank.throw)
    ]
    rod = np.stack([points["crank_pin"], points["gudgeon"]], axis=1)
    arm = np.stack([np.zeros_like(points["crank_pin"]), points["crank_pin"]], axis=1)
    moving += [
        Moving(rod, pen="thin", part="connecting rod"),
        Moving(arm, pen="crank", part="crank"),
        Moving(
            points["crank_pin"][:, None], "circle", "crank", "paper", 0.1 * crank.throw, "crank"
        ),
    ]
    for side, at, rises in ((first, points, 0.6), (other, behind, -1.6)):
        x, y = (float(v) for v in at["valve"].mean(axis=0))
        place = (x + 0.6 * crank.throw, y + rises * crank.throw)
        pen: Pen = "thin" if side is first else "behind"
        still.append(Label(f"valve, {side.name}", place, "start", leader=(x, y), pen=pen))
    return Scene(
        f"{_start(first.name)} and {other.name}",
        f"{beside.says} {_start(other.name)} is drawn in grey; the valves travel "
        f"{first.alike.travel:.2f} and {other.alike.travel:.2f} mm.",
        tuple(still), tuple(moving), FRAMES,
    )  # fmt: skip


def _start(text: str) -> str:
    return text[0].upper() + text[1:]


def _points(side: Side) -> dict[str, Array]:
    return {
        name: np.array(np.broadcast_to(point, (len(FRAMES), 2)))
        for name, point in side.shown.points.items()
    }


def _drawn(side: Side, points: dict[str, Array], throw: float) -> list[Moving]:
    made: list[Moving] = []
    for part in sorted(side.gear.parts, key=lambda part: not part.behind):
        if all(joint in points for joint in part.joints):
            made += draw_part(part, points, side.gear, throw, side.die_reach)
    return made


def valves_over_the_turn(beside: SideBySide) -> Chart:
    """Return the displacement of both valves over the crank angle, as the front port sees them.

    That of a valve with inside admission is turned about, so that either opens the back port
    to steam when it goes up.
    """
    theta = np.append(FRAMES, 360.0)
    curves, said = [], []
    for side, pens in ((beside.first, _FIRST), (beside.other, _OTHER)):
        xi = side.seen.sense * side.displacement
        curves.append(Curve(theta, np.append(xi, xi[:1]), side.name, pens[0]))
        said.append(f"from {xi.min():.2f} to {xi.max():.2f} mm with {side.name}")
    turned = any(side.seen.sense < 0 for side in (beside.first, beside.other))
    words = "; inside admission turned about" if turned else ""
    apart = curves[0].y - curves[1].y
    return Chart(
        "Both valves over the turn",
        f"The valve goes {said[0]}, {said[1]}{words}; they are furthest apart, by "
        f"{np.abs(apart).max():.2f} mm, with the crank at {theta[np.abs(apart).argmax()]:.0f}°.",
        "crank angle, degrees", "valve towards opening the back port, mm", tuple(curves),
        follows=(0, 1),
    )  # fmt: skip


def cutoffs_over_notches(beside: SideBySide) -> Chart:
    """Return the cut-off of both ends over the reverser, for both gears."""
    curves = []
    for side, pens in ((beside.first, _FIRST), (beside.other, _OTHER)):
        for end, pen in zip(ENDS, pens, strict=True):
            found = [
                (events.reverser, getattr(events, end).cutoff.percent)
                for events in _in_order(side.events)
                if getattr(events, end).cutoff is not None
            ]
            if not side.gear.notched:  # of the reverser only the side counts
                found = [(at, cut) for way, cut in found for at in sorted((0.0, way))]
            if len(found) > 1:
                x, y = np.array(found).T
                curves.append(Curve(x, y, f"{end}, {side.name}", pen))
    apart = " and ".join(
        f"{_apart(side.alike)} with {side.name}" for side in (beside.first, beside.other)
    )
    return Chart(
        "Cut-off in the notches of both",
        f"Cut-off of both ends over the reverser; where they are compared front and back differ by "
        f"{apart}.",
        "reverser", "cut-off, % of stroke", tuple(curves),
    )  # fmt: skip


def _in_order(events: tuple[ValveEvents, ...]) -> list[ValveEvents]:
    return sorted(events, key=lambda one: one.reverser)


def _apart(events: ValveEvents) -> str:
    if events.front.cutoff is None or events.back.cutoff is None:
        return "nothing that can be told (an end does not cut off)"
    return f"{abs(events.front.cutoff.percent - events.back.cutoff.percent):.1f} %"


def lead_over_cutoff(beside: SideBySide) -> Chart | None:
    """Return the mean lead over the mean cut-off in forward gear, like for like.

    None unless both gears have two notches that cut off in forward gear.
    """
    curves, said = [], []
    for side, pens in ((beside.first, _FIRST), (beside.other, _OTHER)):
        found = []
        for events in _in_order((*side.events, side.full, side.alike)):
            cutoff = mean(events, "cutoff")
            if events.reverser >= 0 and cutoff is not None:
                found.append((cutoff, (events.front.lead + events.back.lead) / 2))
        if len(set(found)) > 1:
            x, y = np.array(sorted(set(found))).T
            curves.append(Curve(x, y, side.name, pens[0]))
            least, most = f"{y.min():.2f}", f"{y.max():.2f}"
            words = f"{least} mm throughout" if least == most else f"{least} to {most} mm"
            said.append(f"{words} with {side.name}")
    if len(curves) < 2:
        return None
    return Chart(
        "Lead at like cut-offs",
        f"Mean lead over the mean cut-off in forward gear: {', '.join(said)}.",
        "mean cut-off, % of stroke", "mean lead, mm", tuple(curves),
    )  # fmt: skip


def measures_table(beside: SideBySide) -> Table:
    """Return the measures of both in columns, with the verdict on each."""

    def cell(value: float | None, unit: str) -> str | float:
        return value if unit == "mm" and value is not None else shown(value, unit)

    rows = tuple(
        (one.name, cell(one.first, one.unit), cell(one.other, one.unit),
         one.says.rpartition(": ")[2] if one.first is not None and one.other is not None else "–")
        for one in beside.measures
    )  # fmt: skip
    return Table(
        "Side by side",
        ("", beside.first.name, beside.other.name, "verdict"),
        rows,
        f"{beside.says} No total is made: what counts most is the builder's to say.",
    )


def events_table(beside: SideBySide) -> Table:
    """Return the events of both gears in the notches that each has, and where they are compared."""
    rows: list[tuple[str | float, ...]] = []
    for side in (beside.first, beside.other):
        every = {one.reverser: one for one in (*side.events, side.alike)}
        for events in sorted(every.values(), key=lambda one: -one.reverser):
            rows += [
                (side.name, f"{events.reverser:+.2f}", end, *event_cells(getattr(events, end)))
                for end in ENDS
            ]
    return Table(
        "Events of both",
        ("gear", "reverser", "end", "admission", "cut-off", "release", "compression", "lead",
         "opens"),
        tuple(rows),
        "Per cent of the stroke from that end's dead centre.",
    )  # fmt: skip
