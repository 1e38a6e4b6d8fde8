"""The thread in section with its fit and drill, the connector, and the tables of the chapter."""

from __future__ import annotations

import numpy as np

from ..threads import Threads, ThreadsResult
from ..threads.chapter import CAUTION
from ..threads.connector import ConnectorFit
from ..threads.form import female_profile, profile
from ..threads.tapping import conventions
from .scene import (
    Array,
    Dimension,
    Label,
    Path,
    Picture,
    Primitive,
    Scene,
    Table,
    box,
)

_PITCHES = 4
_POINTS = 64  # points a pitch
_SHOWN = 40.0  # mm; distance drawn where the builder has not given one


def pictures(decisions: Threads, result: ThreadsResult) -> tuple[Picture, ...]:
    """Return the pictures of the chapter, the thread in section first.

    Parameters
    ----------
    decisions : of the builder.
    result : of `threads.work`.
    """
    return (
        section(decisions, result),
        connector(decisions, result),
        loads_table(result),
        joints_table(result),
        drills_table(result),
        screws_table(result),
        remedies_table(result),
    )


# --- the thread in section ----------------------------------------------------------------


def section(decisions: Threads, result: ThreadsResult) -> Scene:
    """Return the thread on the bench in section, male below and female above, from the axis up."""
    one, bench = result.chosen, result.bench
    pitch, clearance = one.pitch, decisions.connector.clearance
    hole = bench.drill.diameter if bench else one.minor_internal
    along = np.linspace(0.0, _PITCHES * pitch, _PITCHES * _POINTS + 1)
    male = np.column_stack([along, profile(one, along, male=True)])
    female = np.column_stack([along, female_profile(one, along, hole, clearance)])
    width = float(along[-1])
    low = one.minor / 2 - 1.2 * pitch
    high = one.major / 2 + 1.5 * pitch
    still: list[Primitive] = [
        Path(_closed(female, high), "outline", closed=True, fill="section", part="female"),
        Path(_closed(male, low), "outline", closed=True, fill="metal", part="male"),
        _line(0, one.effective / 2, width, "centre"),
        _line(0, hole / 2, width, "changed"),
        _line(0, one.minor / 2, width, "thin"),
        _line(0, one.major / 2, width, "thin"),
        Label("tapped part", (0.5 * pitch, high - 0.5 * pitch), "start"),
        Label("screw", (0.5 * pitch, low + 0.45 * pitch), "start"),
        Dimension((pitch, high), (2 * pitch, high), f"pitch {pitch:.3f}", offset=0.5 * pitch),
    ]
    names = [
        (f"major {one.major:.3f}", one.major / 2),
        (f"effective {one.effective:.3f}", one.effective / 2),
        (f"core {one.minor:.3f}", one.minor / 2),
    ]
    if bench:
        reached = f"{bench.depth:.0f} % of thread"
        names.append((f"drill {bench.drill.name}, {reached}", hole / 2))
    still += _labels(names, width, pitch)
    says = (
        f"{one.designation}, {one.form} form of {one.angle:g}°, in section: pitch {pitch:.3f} mm, "
        f"{one.major:.3f} mm over the tops, core {one.minor:.3f} mm."
    )
    if bench:
        says += (
            f" Tapped in {bench.material} through a hole of {bench.drill.name} the thread is "
            f"{bench.depth:.0f} % deep as counted by {bench.convention}."
        )
    return Scene(f"{one.designation} in section; diameters in mm", says, tuple(still))


def _closed(curve: Array, level: float) -> Array:
    """Return a curve closed along a level line, so that the part can be filled."""
    (x0, x1) = curve[0, 0], curve[-1, 0]
    return np.vstack([curve, [[x1, level], [x0, level]]])


def _line(x0: float, y: float, x1: float, pen: str) -> Path:
    return Path(np.array([[x0, y], [x1, y]]), pen)  # type: ignore[arg-type]


def _labels(names: list[tuple[str, float]], x: float, pitch: float) -> list[Primitive]:
    """Return labels to the right of the section, spread so that none lies on another."""
    made: list[Primitive] = []
    at = float("inf")
    for text, height in sorted(names, key=lambda pair: -pair[1]):
        at = min(at - 0.32 * pitch, height + 0.25 * pitch)
        made.append(Label(text, (x + 0.6 * pitch, at), "start", leader=(x, height)))
    return made


# --- the connector between its ports ------------------------------------------------------


def connector(decisions: Threads, result: ThreadsResult) -> Scene:
    """Return the connector between two ports to scale, and its end B with the misfit enlarged."""
    found, decided = result.connector, decisions.connector
    a, b = found.thread_a, found.thread_b
    length = decided.length or decided.distance or _SHOWN
    distance = decided.distance or length
    deep_a, deep_b = 6 * a.pitch, 6 * b.pitch
    tall = 1.6 * max(a.major, b.major)
    collar = 0.65 * max(a.major, b.major)
    port_a = box(-deep_a - 3, -tall / 2, 0, tall / 2)
    port_b = box(distance, -tall / 2, distance + deep_b + 3, tall / 2)
    # A is tight on its face; the gap, if any, shows at B
    still: list[Primitive] = [
        Path(port_a, "outline", closed=True, fill="section", part="port A"),
        Path(port_b, "outline", closed=True, fill="section", part="port B"),
        Path(box(0, -collar, length, collar), "outline", True, "metal", "connector"),
        Path(box(-deep_a, -a.major / 2, 0, a.major / 2), "outline", True, "metal", "connector"),
        Path(
            box(length, -b.major / 2, length + deep_b, b.major / 2),
            "outline", True, "metal", "connector",
        ),
        _line(-deep_a - 5, 0, distance + deep_b + 5, "centre"),
        Label(f"port A, {a.designation}", (-deep_a / 2, tall / 2 + 2)),
        Label(f"port B, {b.designation}", (distance + deep_b / 2, tall / 2 + 2)),
        Dimension((0, -tall / 2), (distance, -tall / 2), _apart(decided.distance), offset=-3),
    ]  # fmt: skip
    for sign in (-1, 1):
        still.append(_line(-deep_a, sign * a.minor / 2, 0, "thin"))
        still.append(_line(length, sign * b.minor / 2, length + deep_b, "thin"))
    for place in found.places:
        still.append(_tick(place, tall))
    if found.places:
        still.append(
            Label(
                "places that fit", (found.places[1], -tall / 2 - 9),
                leader=(found.places[1], -tall / 2 - 5),
            )
        )  # fmt: skip
    enlarged, how_many = _enlarged(found, distance, -tall / 2 - 14)
    still += enlarged
    return Scene(
        f"Connector between two ports; end B below, {how_many:g} times larger",
        _says(found, decided.distance), tuple(still),
    )  # fmt: skip


def _apart(distance: float | None) -> str:
    return "faces apart: not given" if distance is None else f"faces {distance:.3f} mm apart"


def _tick(place: float, tall: float) -> Path:
    return Path(np.array([[place, -tall / 2 - 5], [place, -tall / 2]]), "trace")


def _enlarged(found: ConnectorFit, distance: float, top: float) -> tuple[list[Primitive], float]:
    """Return the thread of end B and that of port B beside it, the misfit between them."""
    one = found.thread_b
    off = found.misfit if found.misfit is not None else found.half_pitch
    times = float(max(2, round(max(distance, 30.0) / (_PITCHES * one.pitch))))
    along = np.linspace(0.0, _PITCHES * one.pitch, _PITCHES * _POINTS + 1)
    high = one.major / 2 + 1.45 * one.pitch
    low = one.minor / 2 - 0.6 * one.pitch

    def placed(curve: Array) -> Array:
        return np.column_stack([curve[:, 0] * times, top + (curve[:, 1] - high) * times])

    male = np.column_stack([along, profile(one, along, male=True)])
    port = np.column_stack([along, profile(one, along - off, male=False) + 0.75 * one.pitch])
    crest, there = 2 * one.pitch, 2 * one.pitch + off
    level = one.major / 2 + 0.08 * one.pitch
    marks = placed(np.array([[crest, level], [there, level]]))
    text = f"misfit {abs(off):.3f} mm" if found.known else f"up to {off:.3f} mm, half a pitch"
    right = placed(np.array([[_PITCHES * one.pitch, one.minor / 2]]))[0]
    upper = placed(np.array([[_PITCHES * one.pitch, high - 0.3 * one.pitch]]))[0]
    return [
        Path(placed(_closed(port, high)), "outline", True, "section", "port B"),
        Path(placed(_closed(male, low)), "outline", True, "metal", "connector"),
        Path(marks, "stop"),
        Label(text, (float(right[0]) + 2, float(marks[1, 1])), "start", leader=_pair(marks[1])),
        Label("port B, drawn apart", (float(upper[0]) + 2, float(upper[1])), "start"),
        Label("end B of the connector", (float(right[0]) + 2, float(right[1])), "start"),
    ], times  # fmt: skip


def _pair(point: Array) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _says(found: ConnectorFit, distance: float | None) -> str:
    b = found.thread_b
    if found.misfit is None:
        return (
            f"A connector of {b.designation} between two ports; where it comes up tight is not "
            f"measured, so it may be out by up to half a pitch, {found.half_pitch:.3f} mm "
            f"({found.half_pitch / 0.0254:.1f} thou)."
        )
    apart = "at the length of the connector" if distance is None else f"{distance:.3f} mm apart"
    gap = found.gap or 0.0
    shoulder = (
        f"the shoulder comes up {-gap:.3f} mm early"
        if gap < -1e-6
        else f"the shoulder stands {gap:.3f} mm short"
    )
    return (
        f"Port faces {apart}; the nearest place that fits {b.designation} is "
        f"{found.places[1]:.3f} mm, a misfit of {abs(found.misfit):.3f} mm "
        f"({abs(found.misfit) / 0.0254:.1f} thou); {shoulder}."
    )


# --- tables -------------------------------------------------------------------------------


def loads_table(result: ThreadsResult) -> Table:
    """Return what the joints of this engine carry: thread, load, stress in core and threads."""
    rows = tuple(
        (
            joint.name,
            joint.one.designation,
            "proposed" if joint.proposed else "decided",
            f"{joint.load:.0f} N",
            f"{joint.stress:.1f} ({joint.stress_allowed:.0f})",
            f"{joint.male_shear:.1f} ({joint.male_allowed:.0f})",
            f"{joint.female_shear:.1f} ({joint.female_allowed:.0f})",
        )
        for joint in result.joints
    )
    return Table(
        "Joints of this engine: what they carry",
        (
            "joint",
            "thread",
            "",
            "load",
            "core, N/mm²",
            "male thread, N/mm²",
            "female thread, N/mm²",
        ),
        rows,
        "In brackets what is allowed: a third of the proof stress, a sixth for push and pull, half "
        f"of that in shear (common practice). {CAUTION}",
    )


def joints_table(result: ThreadsResult) -> Table:
    """Return how to make the joints of this engine: engagement, wall, drill, hexagon."""
    rows = tuple(
        (
            joint.name,
            joint.one.designation,
            joint.engagement,
            joint.needed,
            joint.full,
            joint.wall if joint.hole else "solid",
            joint.drill.name,
            joint.across_flats,
        )
        for joint in result.joints
    )
    return Table(
        "Joints of this engine: how to make them",
        (
            "joint", "thread", "engaged", "for the load", "for full strength", "wall left",
            "tapping drill", "hexagon",
        ),
        rows,
        "For full strength: the screw breaks before the thread strips.",
    )  # fmt: skip


def drills_table(result: ThreadsResult) -> Table:
    """Return the tapping drill of the thread on the bench for every metal, by every convention."""
    known = conventions(result.chosen)
    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (
            tapping.material,
            f"{tapping.wanted:.0f} %",
            tapping.hole,
            tapping.drill.name,
            tapping.drill.diameter,
            *(f"{dict(tapping.reached)[name]:.0f} %" for name in known),
            f"{tapping.tighter.name}, {tapping.tighter_reached:.0f} %"
            if tapping.tighter
            else "none",
        )
        for tapping in result.drills
    )
    whose = "; ".join(f"{name}: 100 % is {what}" for name, (_, what) in known.items())
    print_tap = ", ".join(
        f"{one.name}{' (suspect)' if one.suspect else ''}" for one in result.printed_tapping
    )
    print_clear = ", ".join(one.name for one in result.printed_clearance)
    note = f"{whose}. In print: tapping {print_tap or 'none found'}; "
    note += f"clearance {print_clear or 'none found'}. Ours for clearance: "
    note += f"{result.clearance_name} close, {result.clearance_free_name} free "
    note += f"({result.clearance_source})."
    return Table(
        f"Drills for {result.chosen.designation}",
        ("metal", "wanted", "hole for it", "drill", "its size", *known, "next below"),
        rows,
        note,
    )


def screws_table(result: ThreadsResult) -> Table:
    """Return the screws whose hexagons suit the scale."""
    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (
            screw.bolt,
            screw.prototype,
            screw.wanted,
            f"{screw.full.designation} {_percent(screw.full_hexagon, screw.wanted)}",
            screw.full_hexagon,
            f"{screw.small.designation} {_percent(screw.small_hexagon or 0, screw.wanted)}"
            if screw.small
            else "not known",
            screw.small_hexagon if screw.small_hexagon is not None else "",
        )
        for screw in result.screws
    )
    return Table(
        f"Screws that suit 1:{result.scale_ratio:.4g}",
        (
            "bolt of the prototype", "its hexagon", "at scale", "nearest screw", "its hexagon",
            "with a hexagon one size smaller", "that hexagon",
        ),
        rows,
        "Per cent: the hexagon over the scaled one. Where it is far off, a dummy head or a hexagon "
        "milled to size looks better.",
    )  # fmt: skip


def _percent(have: float, wanted: float) -> str:
    return f"({100 * (have / wanted - 1):+.0f} %)"


def remedies_table(result: ThreadsResult) -> Table:
    """Return the remedies for a connector that comes up tight, and on which fault each acts."""
    acts = {
        "distance": "where the port stands", "tightness": "where it comes up tight",
        "both": "both",
    }  # fmt: skip
    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (
            remedy.name,
            acts[remedy.acts_on],
            remedy.amount if remedy.amount is not None else "",
            "yes" if remedy.serves else "no",
            remedy.says,
        )
        for remedy in result.connector.remedies
    )
    found = result.connector
    return Table(
        "Where a thread comes up tight",
        ("remedy", "acts on", "by", "serves here", "why"),
        rows,
        f"Half a turn moves an end by {found.half_turn_shift:.3f} mm "
        f"({found.half_turn_shift / 0.0254:.1f} thou); the shift wanted takes "
        f"{found.turn_for_shift:.0f}°. The slack of the threads swallows {found.slack:.3f} mm.",
    )
